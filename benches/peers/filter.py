"""Filters against vectorised numpy and a general network library, interleaved in one process.

Run by `make bench`. Prints medians and ratios (peer / stillroom), paired by round, one thread.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

import numpy as np
import skrf

import stillroom as sr

FREQUENCIES = 10_000
ROUNDS = 15


def ladder(parts: int) -> sr.filters.Ladder:
    """Shunt and series parts in turn, each with its parasitics."""
    capacitor = sr.filters.Shunt(
        sr.filters.Capacitor(1e-6, series_resistance_ohm=0.01, series_inductance_h=10e-9)
    )
    coil = sr.filters.Series(sr.filters.Inductor(100e-6, resistance_ohm=0.02, parallel_capacitance_f=15e-12))
    return sr.filters.Ladder([capacitor if k % 2 == 0 else coil for k in range(parts)])


def impedances(parts: int, frequency_hz: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Impedance of the coil, admittance of the capacitor."""
    s = 2j * np.pi * frequency_hz
    coil = 0.02 + s * 100e-6
    z = coil / (1 + s * 15e-12 * coil)
    y = s * 1e-6 / (1 + s * 1e-6 * (0.01 + s * 10e-9))
    return z, y


def numpy_chain(parts: int, frequency_hz: np.ndarray) -> np.ndarray:
    """Good vectorised numpy: the four entries as arrays, one multiply-add each."""
    z, y = impedances(parts, frequency_hz)
    a, b = np.ones_like(z), np.zeros_like(z)
    c, d = np.zeros_like(z), np.ones_like(z)
    for k in range(parts):
        if k % 2 == 0:
            a, c = a + y * b, c + y * d
        else:
            b, d = b + z * a, d + z * c
    return 20 * np.log10(np.abs(a * 50 + b + c * 2500 + d * 50) / 100)


def library_chain(parts: int, frequency_hz: np.ndarray) -> np.ndarray:
    """A general network library: two-ports, cascaded by `**`."""
    z, y = impedances(parts, frequency_hz)
    frequency = skrf.Frequency.from_f(frequency_hz, unit="Hz")
    media = skrf.media.DefinedGammaZ0(frequency, z0=50)
    total = media.thru()
    for k in range(parts):
        s = np.zeros((frequency_hz.size, 2, 2), dtype=complex)
        if k % 2 == 0:
            s[:, 0, 0] = s[:, 1, 1] = -50 * y / (2 + 50 * y)
            s[:, 0, 1] = s[:, 1, 0] = 2 / (2 + 50 * y)
        else:
            s[:, 0, 0] = s[:, 1, 1] = z / (z + 100)
            s[:, 0, 1] = s[:, 1, 0] = 100 / (z + 100)
        total = total ** skrf.Network(frequency=frequency, s=s, z0=50)
    return -20 * np.log10(np.abs(total.s[:, 1, 0]))


def several_lines() -> sr.LineFilter:
    """A capacitor between two lines, a choke, a capacitor from each line to the case."""
    return sr.LineFilter(
        2,
        [
            sr.filters.BetweenLines(sr.filters.Capacitor(470e-9, series_resistance_ohm=0.02)),
            sr.filters.CommonModeChoke.from_leakage(3e-3, 30e-6),
            sr.filters.LinesToCase([sr.filters.Capacitor(4.7e-9, series_resistance_ohm=0.02)] * 2),
        ],
    )


def numpy_lines(frequency_hz: np.ndarray) -> np.ndarray:
    """The same by matrices of two lines for all frequencies at once, from the load backwards."""
    s = 2j * np.pi * frequency_hz
    one = np.eye(2)
    between = np.array([[1.0, -1.0], [-1.0, 1.0]])

    def admittance(farad: float) -> np.ndarray:
        return (s * farad / (1 + s * farad * 0.02))[:, None, None]

    choke = s[:, None, None] * (15e-6 * one + (3e-3 - 15e-6) * np.ones((2, 2)))
    impedance = np.broadcast_to(50.0 * one, (s.size, 2, 2)).astype(complex)
    first = np.linalg.inv(one + admittance(4.7e-9) * impedance)
    impedance = impedance @ first + choke
    second = np.linalg.inv(one + admittance(470e-9) * (between @ impedance))
    impedance = impedance @ second
    current = np.linalg.solve(50.0 * one + impedance, np.ones((s.size, 2, 1)))
    voltage = 50.0 * (first @ (second @ current)).mean(axis=(1, 2))
    return -20 * np.log10(np.abs(voltage) / 0.5)


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def compare(title: str, own: Callable[[], object], peers: dict[str, Callable[[], object]]) -> None:
    """Rounds of every contender in turn; medians of paired ratios."""
    own()
    times: dict[str, list[float]] = {name: [] for name in ("stillroom", *peers)}
    for _ in range(ROUNDS):
        times["stillroom"].append(seconds(own))
        for name, peer in peers.items():
            times[name].append(seconds(peer))
    print(f"{title}: {statistics.median(times['stillroom']) * 1e3:.3f} ms")
    for name in peers:
        ratios = [peer / mine for peer, mine in zip(times[name], times["stillroom"], strict=True)]
        median_ms = statistics.median(times[name]) * 1e3
        print(f"  {name:<45} {median_ms:9.3f} ms   ratio {statistics.median(ratios):7.1f}")


def main() -> None:
    frequency_hz = np.geomspace(10e3, 30e6, FREQUENCIES)
    for parts in (7, 9):
        filter_ = ladder(parts)
        np.testing.assert_allclose(
            filter_.insertion_loss_db(frequency_hz), numpy_chain(parts, frequency_hz), rtol=1e-9, atol=1e-9
        )
        compare(
            f"insertion loss, {parts} parts, {FREQUENCIES} frequencies",
            lambda filter_=filter_: filter_.insertion_loss_db(frequency_hz),
            {
                "vectorised numpy": lambda parts=parts: numpy_chain(parts, frequency_hz),
                "general network library": lambda parts=parts: library_chain(parts, frequency_hz),
            },
        )
    filter_ = ladder(9)
    compare(
        "insertion loss, 9 parts, beside the worst over all passive terminations",
        lambda: filter_.insertion_loss_db(frequency_hz),
        {"worst over all passive terminations": lambda: filter_.worst_insertion_loss_db(frequency_hz)},
    )
    # No cliff: what stands among the parts may not cost many times what the parts do.
    lumped = list(filter_.elements)
    points = np.geomspace(10e3, 30e6, 201)
    file = sr.filters.Touchstone.from_scattering(points, ladder(2).scattering(points))
    members: dict[
        str,
        sr.filters.FeedthroughCapacitor
        | sr.filters.LossyLine
        | sr.filters.MeasuredTwoPort
        | sr.filters.Series,
    ] = {
        "a feedthrough capacitor": sr.filters.FeedthroughCapacitor(10e-9, conductor_inductance_h=2e-9),
        "2 m of cable": sr.filters.LossyLine(2.0, 50.0, 2e8, resistance_ohm_per_m=0.1),
        "a measured two-port": sr.filters.MeasuredTwoPort.from_touchstone(file, tolerance=1e-9),
        "a ferrite bead": sr.filters.Series(sr.filters.FerriteBead([1e6, 1e8], [5.0, 100.0], [10.0, -20.0])),
    }
    others = {f"with {name} in it": sr.filters.Ladder([*lumped, member]) for name, member in members.items()}
    others["in a can on a strap"] = sr.filters.Ladder(
        lumped, housing=sr.filters.Housing(0.1, bond_inductance_h=1e-9)
    )

    def timed(other: sr.filters.Ladder) -> Callable[[], object]:
        return lambda: other.insertion_loss_db(frequency_hz)

    compare(
        "insertion loss, 9 parts, beside the same",
        lambda: filter_.insertion_loss_db(frequency_hz),
        {name: timed(other) for name, other in others.items()},
    )
    compare(
        "two lines, three banks, common mode",
        lambda: several_lines().insertion_loss_db(frequency_hz),
        {"batched numpy": lambda: numpy_lines(frequency_hz)},
    )
    np.testing.assert_allclose(
        several_lines().insertion_loss_db(frequency_hz), numpy_lines(frequency_hz), rtol=1e-9
    )
    few = np.geomspace(10e3, 30e6, 100)
    source, load = (
        sr.filters.ImpedanceRegion(1.0, 300.0, -80.0, 80.0),
        sr.filters.ImpedanceRegion(10.0, 1e3, -80.0, 80.0),
    )
    filter_.region_insertion_loss_db(few, source, load)
    each = seconds(lambda: filter_.region_insertion_loss_db(few, source, load)) / few.size
    print(f"worst over two regions, certified: {each * 1e6:.0f} us for each frequency")


if __name__ == "__main__":
    main()
