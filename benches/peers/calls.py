"""What one call costs, beside a call of the standard library and of numpy."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from side_by_side import Contest

import stillroom as sr

CALLS = 100


def many(call: Callable[[], Any]) -> Callable[[], Any]:
    """So many that the timer does not matter."""

    def work() -> Any:
        for _ in range(CALLS):
            answer = call()
        return answer

    return work


def rows() -> Iterator[Contest]:
    """A number in, a number out; an array of one element in and out."""
    copper, one = sr.materials.copper, np.array([1e6])
    sheet = sr.Laminate([(copper, 0.1e-3)])
    yardsticks = {
        "math.hypot": many(lambda: math.hypot(1e6, 2.0)),
        "np.hypot of a number": many(lambda: np.hypot(1e6, 2.0)),
    }
    for what, call in {
        "scalar call: skin depth": lambda: copper.skin_depth_m(1e6),
        "scalar call: one-layer shielding": lambda: sheet.shielding_db(1e6),
    }.items():
        yield Contest(what, many(call), yardsticks, CALLS, unlike=frozenset(yardsticks))
    ufunc = {"np.hypot of one element": many(lambda: np.hypot(one, 2.0))}
    for what, call in {
        "array of one: skin depth": lambda: copper.skin_depth_m(one),
        "array of one: one-layer shielding": lambda: sheet.shielding_db(one),
    }.items():
        yield Contest(what, many(call), ufunc, CALLS, unlike=frozenset(ufunc))
