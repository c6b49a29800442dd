"""A panel of three layers over 10,000 frequencies against vectorised numpy.

The numpy version is as good as its author can make it: the stable recursion (never a growing
exponential), products collected and their logarithm taken once, nothing computed twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray
from side_by_side import Contest

import stillroom as sr

FREQUENCY_HZ = np.geomspace(1e3, 18e9, 10_000)
LIGHT = 299_792_458.0
MU_0 = 4e-7 * np.pi
EPS_0 = 1 / (MU_0 * LIGHT**2)

Complex = NDArray[np.complex128]
Layer = tuple[Complex | complex, Complex | complex, float]


def stacked(
    omega: NDArray[np.float64], layers: Sequence[Layer], cosine: float, tm: bool
) -> NDArray[np.float64]:
    """-20 log10 |T| of layers (permittivity, permeability, thickness) in vacuum."""
    k0 = omega / LIGHT
    outside = cosine if tm else 1 / cosine
    behind: Complex | float = outside
    reflected: Complex | float = 0.0
    nepers: NDArray[np.float64] | float = 0.0
    transmitted: Complex | float = 1.0
    for permittivity, permeability, thickness in reversed(layers):
        gamma = np.sqrt(-(cosine**2) - (permittivity * permeability - 1) + 0j)
        impedance = gamma / (1j * permittivity) if tm else 1j * permeability / gamma
        step = (behind - impedance) / (behind + impedance)
        denominator = 1 + step * reflected
        transmitted = transmitted * (2 * behind / (behind + impedance)) / denominator
        reflected = (step + reflected) / denominator
        depth = gamma * (k0 * thickness)
        reflected = reflected * np.exp(-2 * depth)
        nepers = nepers + depth.real
        behind = impedance
    step = (behind - outside) / (behind + outside)
    transmitted = transmitted * (2 * behind / (behind + outside)) / (1 + step * reflected)
    return 20 / np.log(10) * nepers - 20 * np.log10(np.abs(transmitted))


def steel_and_core(frequency_hz: NDArray[np.float64]) -> list[Layer]:
    """Constant materials: what depends on frequency is the conduction only."""
    steel = (1 - 5.8e6j / (2 * np.pi * EPS_0 * frequency_hz), 200.0, 0.5e-3)
    return [steel, (2.5 - 0.05j, 1.0, 19e-3), steel]


def from_the_catalogue(frequency_hz: NDArray[np.float64]) -> list[Layer]:
    """Permeability from a table joined in ln f; permittivity and conductivity by power laws."""
    table = [60.0, 150e3, 1e6, 100e6, 10e9], [1000.0, 1000.0, 700.0, 100.0, 1.0]
    permeability = np.interp(np.log(frequency_hz), np.log(table[0]), table[1])
    steel = (1 - 5.8e6j / (2 * np.pi * EPS_0 * frequency_hz), permeability, 0.5e-3)
    conductivity = 0.0217 * (frequency_hz / 1e9) ** 0.78
    core = (2.58 - 1j * conductivity / (2 * np.pi * EPS_0 * frequency_hz), 1.0, 19e-3)
    return [steel, core, steel]


def panel(face: sr.Material, core: sr.Material) -> sr.Laminate:
    """Two faces on a core."""
    return sr.Laminate([(face, 0.5e-3), (core, 19e-3), (face, 0.5e-3)])


def rows() -> Iterator[Contest]:
    """Constant and dispersive materials, normal and oblique."""
    steel = sr.Material("steel", conductivity_s_per_m=5.8e6, relative_permeability=200.0)
    core = sr.Material("core", relative_permittivity=2.5, loss_tangent=0.02)
    constant = panel(steel, core)
    f = FREQUENCY_HZ
    yield Contest(
        "3 layers x 10,000 f, one f",
        lambda: constant.shielding_db(f),
        {"numpy": lambda: stacked(2 * np.pi * f, steel_and_core(f), 1.0, False)},
        steps=f.size,
    )
    cosine = float(np.cos(np.radians(60.0)))
    yield Contest(
        "same, 60 degrees, TM",
        lambda: constant.shielding_db(f, 60.0, "tm"),
        {"numpy": lambda: stacked(2 * np.pi * f, steel_and_core(f), cosine, True)},
        steps=f.size,
    )
    # where all its materials are known, so that nothing warns
    known = np.geomspace(1e9, 10e9, 10_000)
    catalogue = panel(sr.materials.steel, sr.materials.chipboard)
    yield Contest(
        "same, tabulated steel, power-law core",
        lambda: catalogue.shielding_db(known),
        {"numpy": lambda: stacked(2 * np.pi * known, from_the_catalogue(known), 1.0, False)},
        steps=known.size,
    )
