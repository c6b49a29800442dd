"""What capacitors keep after switching off, by brute force: nodal analysis in the time domain, with switches.

Sources behind 10 mohm, poles that open at stated steps, backward Euler. All instants of a grid are run
beside each other. Shares nothing with the library: no phasors, no modes, no matrix of charges, no search.
"""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
# Capacitance or resistance between two nodes; None is the case.
Branch = tuple[int, int | None, float]

STEPS = 120
SOURCE_OHM = 0.01


def laplacian(nodes: int, branches: list[tuple[int, int | None, float]]) -> Array:
    matrix = np.zeros((nodes, nodes))
    for a, b, value in branches:
        matrix[a, a] += value
        if b is not None:
            matrix[b, b] += value
            matrix[a, b] -= value
            matrix[b, a] -= value
    return matrix


class Circuit:
    """Capacitors in F and resistors in ohm between nodes; the first nodes are the lines."""

    def __init__(self, nodes: int, capacitors: list[Branch], resistors: list[Branch]) -> None:
        self.nodes = nodes
        self.capacitance = laplacian(nodes, capacitors)
        # A teraohm to the case for what nothing ties to it.
        leaks: list[Branch] = [(node, None, 1e12) for node in range(nodes)]
        self.conductance = laplacian(nodes, [(a, b, 1 / ohm) for a, b, ohm in resistors + leaks])

    def opened(
        self, crest_v: list[complex], opening: NDArray[np.int64], load: list[Branch], hertz: float = 50.0
    ) -> Array:
        """Voltages of all nodes as the last pole opens; `opening` holds a step for each run and line."""
        runs, lines = opening.shape
        step_s = 1 / (hertz * STEPS)
        loaded = self.conductance + laplacian(self.nodes, [(a, b, 1 / ohm) for a, b, ohm in load])
        stored = self.capacitance / step_s
        ways = {}
        for closed in itertools.product([False, True], repeat=lines):
            source = np.zeros(self.nodes)
            source[:lines] = np.array(closed) / SOURCE_OHM
            ways[closed] = np.linalg.inv(stored + loaded + np.diag(source)), source
        voltages = np.zeros((runs, self.nodes))
        # A period to forget the beginning, then until every run is open.
        for step in range(-STEPS, int(opening.max()) + 1):
            drive = np.zeros(self.nodes)
            drive[:lines] = [(v * np.exp(2j * np.pi * step / STEPS)).real for v in crest_v]
            code = opening >= step
            done = step > opening.max(axis=1)
            moved = voltages @ stored
            for closed, (inverse, source) in ways.items():
                here = np.all(code == np.array(closed), axis=1) & ~done
                if here.any():
                    voltages[here] = (moved[here] + source * drive) @ inverse
        return voltages

    def discharged(self, voltages: Array, seconds: float, step_s: float) -> Array:
        """Voltages of one run over time after the load is off as well: time by node."""
        stored = self.capacitance / step_s
        inverse = np.linalg.inv(stored + self.conductance)
        rows = [voltages]
        for _ in range(round(seconds / step_s)):
            rows.append(inverse @ (stored @ rows[-1]))
        return np.array(rows)


def instants(lines: int, degrees: int, order: tuple[int, ...]) -> NDArray[np.int64]:
    """A step for each line, one line after another in this order, each over a whole period."""
    grid = np.arange(0, STEPS, degrees * STEPS // 360)
    runs = np.array(list(itertools.product(grid, repeat=lines)))
    opening = np.empty_like(runs)
    for place, line in enumerate(order):
        opening[:, line] = runs[:, place] + place * STEPS
    return opening
