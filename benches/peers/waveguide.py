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


TARGET = np.empty(PAIRS)


def copy_of_memory() -> NDArray[np.float64]:
    """A million doubles from one array to another: what the memory's bandwidth allows."""
    np.copyto(TARGET, FREQUENCY_HZ)
    return TARGET


def copy_to_new_memory() -> NDArray[np.float64]:
    """The same into an array made for it, as every function that returns an array has to make one."""
    return FREQUENCY_HZ.copy()


def root_and_exponential() -> NDArray[np.float64]:
    """sqrt and exp of a million doubles by numpy."""
    return np.exp(-np.sqrt(UNIT))


UNIT = np.linspace(0.0, 1.0, PAIRS)


def propagation_by_numpy() -> NDArray[np.complex128]:
    """Propagation constant in a filling with loss."""
    cutoff = 1.8411837813406593 / 3e-3
    k = 2 * np.pi * FREQUENCY_HZ / C * np.sqrt(2.1 * (1 - 3e-4j))
    return np.sqrt((cutoff - k) * (cutoff + k))


def rows() -> Iterator[Contest]:
    """A closed form on many points."""
    guide = sr.tubes.CircularGuide(6e-3)
    yield Contest(
        "round tube, attenuation, 1e6 f",
        lambda: guide.attenuation_db_per_m(FREQUENCY_HZ),
        {
            "numpy": attenuation_by_numpy,
            "copy of memory": copy_of_memory,
            "copy to new memory": copy_to_new_memory,
            "sqrt and exp by numpy": root_and_exponential,
        },
        steps=PAIRS,
        unlike=frozenset({"copy of memory", "copy to new memory", "sqrt and exp by numpy"}),
    )
    filled = sr.tubes.CircularGuide(6e-3, 2.1, 3e-4)
    yield Contest(
        "round tube with loss, propagation constant, 1e6 f",
        lambda: filled.propagation_per_m(FREQUENCY_HZ),
        {"numpy": propagation_by_numpy},
        steps=PAIRS,
    )
