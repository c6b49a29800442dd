"""Timing of one job done by several hands, in turns.

Machines speed up and slow down. So every round times all contestants one after the other, the ratio is
taken within the round, and what is reported is the median over the rounds. Before anything is timed the
answers are compared.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from statistics import median
from typing import Any

import numpy as np

ROUNDS = 25
SHORTEST_S = 2e-3


@dataclass(frozen=True)
class Contest:
    """One job: ours, the peers by name, and how closely the answers must agree.

    ``steps`` is how many times the smallest unit of work is done in a call (frequencies, calls, ...); the
    times are printed for one of them. A peer listed in ``unlike`` does another job and serves as a
    yardstick: its answer is not compared.
    """

    what: str
    ours: Callable[[], Any]
    peers: Mapping[str, Callable[[], Any]]
    steps: int
    rtol: float = 1e-9
    atol: float = 0.0
    unlike: frozenset[str] = field(default_factory=frozenset)

    def run(self, rounds: int = ROUNDS) -> list[Row]:
        """Compares the answers, then times everybody in turns."""
        answer = np.asarray(self.ours())
        for name, peer in self.peers.items():
            if name not in self.unlike:
                np.testing.assert_allclose(
                    answer, np.asarray(peer()), rtol=self.rtol, atol=self.atol, err_msg=name
                )
        contestants = {"ours": self.ours, **self.peers}
        repeats = {name: _repeats(work) for name, work in contestants.items()}
        times: dict[str, list[float]] = {name: [] for name in contestants}
        for _ in range(rounds):
            for name, work in contestants.items():
                times[name].append(_seconds(work, repeats[name]) / self.steps)
        return [
            Row(
                what=self.what,
                peer=name,
                ours_s=median(times["ours"]),
                peer_s=median(times[name]),
                ratio=median(theirs / own for own, theirs in zip(times["ours"], times[name], strict=True)),
            )
            for name in self.peers
        ]


@dataclass(frozen=True)
class Row:
    """Median times for one step, and the median of the ratios."""

    what: str
    peer: str
    ours_s: float
    peer_s: float
    ratio: float


def _seconds(work: Callable[[], Any], repeats: int) -> float:
    start = time.perf_counter()
    for _ in range(repeats):
        work()
    return (time.perf_counter() - start) / repeats


def _repeats(work: Callable[[], Any]) -> int:
    once = min(_seconds(work, 1) for _ in range(3))
    return max(1, round(SHORTEST_S / once))


def table(rows: list[Row]) -> str:
    """Rows as aligned text; more than 1 means that ours is quicker."""
    head = ("job", "peer", "ours", "peer's", "ratio")
    body = [(r.what, r.peer, _nice(r.ours_s), _nice(r.peer_s), f"{r.ratio:.1f}x") for r in rows]
    widths = [max(len(line[column]) for line in [head, *body]) for column in range(len(head))]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if column < 2 else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(line, widths, strict=True))
        )
        for line in [head, *body]
    )


def _nice(seconds: float) -> str:
    for unit, scale in (("ns", 1e-9), ("us", 1e-6), ("ms", 1e-3)):
        if seconds < 1000 * scale:
            return f"{seconds / scale:.3g} {unit}"
    return f"{seconds:.3g} s"
