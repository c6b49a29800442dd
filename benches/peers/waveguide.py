"""Tubes below cutoff against numpy."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from side_by_side import Contest

import stillroom as sr

PAIRS = 1_000_000
FREQUENCY_HZ = np.linspace(1e9, 28e9, PAIRS)
C = 299_792_458.0


def attenuation_by_numpy() -> NDArray[np.float64]:
    """Attenuation in dB/m of an empty round tube."""
    cutoff = 1.8411837813406593 / 3e-3
    k = 2 * np.pi * FREQUENCY_HZ / C
    return 8.685889638065035 * np.sqrt((cutoff - k) * (cutoff + k))


def rows() -> Iterator[Contest]:
    """A closed form on many points."""
    guide = sr.CircularGuide(6e-3)
    yield Contest(
        "round tube, attenuation, 1e6 f",
        lambda: guide.attenuation_db_per_m(FREQUENCY_HZ),
        {"numpy": attenuation_by_numpy},
        steps=PAIRS,
    )
