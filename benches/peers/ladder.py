"""Insertion loss of LC ladders over 10,000 frequencies against vectorised numpy and a network library.

The numpy version carries A, B, C and D of the chain matrix as arrays and touches only the two that a
series or a shunt element changes. The network library cascades one two-port for each element.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator

import numpy as np
import skrf
from numpy.typing import NDArray
from side_by_side import Contest

import stillroom as sr

FREQUENCY_HZ = np.geomspace(10e3, 1e9, 10_000)
SYSTEM_OHM = 50.0

COIL = {"inductance_h": 100e-6, "resistance_ohm": 0.02, "parallel_capacitance_f": 15e-12}
CAPACITOR = {"capacitance_f": 0.47e-6, "series_resistance_ohm": 0.01, "series_inductance_h": 10e-9}


def scales(count: int) -> list[float]:
    """No two elements alike."""
    return [1.0 + 0.1 * place for place in range(count)]


def ladder(count: int) -> sr.filters.Ladder:
    """Capacitors across the line at both ends, coils between."""
    elements: list[sr.filters.Series | sr.filters.Shunt] = []
    for place, scale in enumerate(scales(count)):
        if place % 2:
            elements.append(
                sr.filters.Series(
                    sr.filters.Inductor(**{**COIL, "inductance_h": COIL["inductance_h"] * scale})
                )
            )
        else:
            part = {**CAPACITOR, "capacitance_f": CAPACITOR["capacitance_f"] * scale}
            elements.append(sr.filters.Shunt(sr.filters.Capacitor(**part)))
    return sr.filters.Ladder(elements)


def series_impedance(s: NDArray[np.complex128], scale: float) -> NDArray[np.complex128]:
    """A coil: R + sL with C across."""
    branch = COIL["resistance_ohm"] + s * (COIL["inductance_h"] * scale)
    return branch / (1 + s * COIL["parallel_capacitance_f"] * branch)


def shunt_admittance(s: NDArray[np.complex128], scale: float) -> NDArray[np.complex128]:
    """A capacitor with R and L in series."""
    rate = s * (CAPACITOR["capacitance_f"] * scale)
    return rate / (1 + rate * (CAPACITOR["series_resistance_ohm"] + s * CAPACITOR["series_inductance_h"]))


def by_numpy(count: int, frequency_hz: NDArray[np.float64]) -> NDArray[np.float64]:
    """20 log10 |V20/V2| between equal resistances."""
    s = 2j * np.pi * frequency_hz
    a, b, c, d = (np.full(s.shape, value, dtype=complex) for value in (1, 0, 0, 1))
    for place, scale in enumerate(scales(count)):
        if place % 2:
            z = series_impedance(s, scale)
            b = b + z * a
            d = d + z * c
        else:
            y = shunt_admittance(s, scale)
            a = a + y * b
            c = c + y * d
    ratio = (a * SYSTEM_OHM + b + c * SYSTEM_OHM**2 + d * SYSTEM_OHM) / (2 * SYSTEM_OHM)
    return 20 * np.log10(np.abs(ratio))


def by_network_library(count: int, frequency_hz: NDArray[np.float64]) -> NDArray[np.float64]:
    """The same from a cascade of networks."""
    s = 2j * np.pi * frequency_hz
    frequency = skrf.Frequency.from_f(frequency_hz, unit="Hz")
    networks = []
    for place, scale in enumerate(scales(count)):
        chain = np.zeros((s.size, 2, 2), dtype=complex)
        chain[:, 0, 0] = chain[:, 1, 1] = 1
        if place % 2:
            chain[:, 0, 1] = series_impedance(s, scale)
        else:
            chain[:, 1, 0] = shunt_admittance(s, scale)
        networks.append(
            skrf.Network(
                frequency=frequency,
                s=skrf.network.a2s(chain, np.full((s.size, 2), SYSTEM_OHM, dtype=complex)),
                z0=SYSTEM_OHM,
            )
        )
    whole = functools.reduce(lambda left, right: left**right, networks)
    return -20 * np.log10(np.abs(whole.s[:, 1, 0]))


def rows() -> Iterator[Contest]:
    """Seven and nine elements."""
    f = FREQUENCY_HZ
    for count in (7, 9):
        ours = ladder(count)
        peers: dict[str, Callable[[], NDArray[np.float64]]] = {
            "numpy": functools.partial(by_numpy, count, f),
            "scikit-rf": functools.partial(by_network_library, count, f),
        }
        yield Contest(
            f"{count}-element ladder x 10,000 f",
            functools.partial(ours.insertion_loss_db, f),
            peers,
            steps=f.size,
            # resonances of low loss cancel digits in the chain matrix of the peers
            rtol=1e-7,
        )
