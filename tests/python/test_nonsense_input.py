"""Nonsense is answered by a clear typed error: never by a crash, never by a silent NaN."""

from __future__ import annotations

import math
import warnings

import numpy as np
import pytest
from samples import array_calls, call_title, calls, constructor_arguments, samples, title

import stillroom as sr

VALUES = [sample for sample in samples() if hasattr(sample, "__getnewargs_ex__")]
ARGUMENTS = [(sample, name) for sample in VALUES for name in constructor_arguments(sample)]
NUMBERS = [(sample, name) for sample, name in ARGUMENTS if type(constructor_arguments(sample)[name]) is float]
COUNTS = [(sample, name) for sample, name in ARGUMENTS if type(constructor_arguments(sample)[name]) is int]

# Where an infinity has a meaning: a worst case without bound, at a resonance that nothing damps.
INFINITY_MEANS_SOMETHING = {
    ("WorstTerminations", "insertion_loss_db", -math.inf),
    ("WorstTerminations", "within_db", math.inf),
}


def rebuilt(sample: object, name: str, value: object) -> object:
    return type(sample)(**{**constructor_arguments(sample), name: value})


@pytest.mark.parametrize("nonsense", [math.nan, math.inf, -math.inf], ids=str)
@pytest.mark.parametrize(("sample", "name"), NUMBERS, ids=call_title)
def test_a_number_that_is_not_finite_is_refused_by_name(sample: object, name: str, nonsense: float) -> None:
    if (title(sample), name, nonsense) in INFINITY_MEANS_SOMETHING:
        assert getattr(rebuilt(sample, name, nonsense), name) == nonsense
        return
    with pytest.raises(sr.StillroomError) as caught:
        rebuilt(sample, name, nonsense)
    assert name in str(caught.value)


@pytest.mark.parametrize("extreme", [0.0, -0.0, -1.0, 1.0, 5e-324, 1e-300, 1e300, -1e300], ids=str)
@pytest.mark.parametrize(("sample", "name"), NUMBERS, ids=call_title)
def test_an_extreme_number_is_refused_or_works(sample: object, name: str, extreme: float) -> None:
    """An object that could be made gives no NaN where it is asked."""
    try:
        made = rebuilt(sample, name, extreme)
    except sr.StillroomError:
        return
    for same, method in array_calls():
        if same is not sample:
            continue
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", sr.DomainWarning)
            result = getattr(made, method)([1.0, 1e6, 3e9, 1e12])
        if isinstance(result, np.ndarray) and result.dtype.kind in "fc":
            assert not np.isnan(result).any(), f"{method}: {result}"


@pytest.mark.parametrize("nonsense", ["1e6", None, 1j, [1.0, 2.0], {}], ids=repr)
@pytest.mark.parametrize(("sample", "name"), NUMBERS, ids=call_title)
def test_what_is_no_number_is_refused(sample: object, name: str, nonsense: object) -> None:
    try:
        taken = rebuilt(sample, name, nonsense)
    except (sr.StillroomError, TypeError) as error:
        said = str(error) + " ".join(getattr(error, "__notes__", []))
        assert name in said
    else:
        # Only an optional argument may take None, and only one that broadcasts an array: then it keeps it.
        assert nonsense is None or np.array_equal(getattr(taken, name), np.asarray(nonsense))


@pytest.mark.parametrize("nonsense", [-1, -(2**70), 2**70, 1.5, "3", math.nan], ids=repr)
@pytest.mark.parametrize(("sample", "name"), COUNTS, ids=call_title)
def test_what_is_no_count_is_refused(sample: object, name: str, nonsense: object) -> None:
    with pytest.raises((sr.StillroomError, TypeError, OverflowError)) as caught:
        rebuilt(sample, name, nonsense)
    assert name in str(caught.value) + " ".join(getattr(caught.value, "__notes__", []))


@pytest.mark.parametrize(
    "nonsense", [object(), 3.5, "no such thing", [None], []], ids=lambda x: type(x).__name__
)
@pytest.mark.parametrize(
    ("sample", "name"), [pair for pair in ARGUMENTS if pair not in NUMBERS + COUNTS], ids=call_title
)
def test_a_wrong_kind_of_part_is_refused_or_works(sample: object, name: str, nonsense: object) -> None:
    try:
        rebuilt(sample, name, nonsense)
    except (ValueError, TypeError, OverflowError):
        return


@pytest.mark.parametrize("sample", VALUES, ids=title)
def test_an_unknown_argument_is_refused(sample: object) -> None:
    with pytest.raises(TypeError, match="thicknes_m"):
        rebuilt(sample, "thicknes_m", 1.0)


@pytest.mark.parametrize("nonsense", [math.nan, math.inf, -math.inf, 0.0, -1e6], ids=str)
@pytest.mark.parametrize(("sample", "method"), calls(), ids=call_title)
def test_a_frequency_out_of_range_is_refused(sample: object, method: str, nonsense: float) -> None:
    with pytest.raises(sr.errors.OutOfRangeError, match="frequency_hz"):
        getattr(sample, method)(nonsense)


@pytest.mark.parametrize("nonsense", [None, "1e6", 1j, object(), {}], ids=lambda x: type(x).__name__)
@pytest.mark.parametrize(("sample", "method"), calls(), ids=call_title)
def test_a_frequency_that_is_no_number_is_refused(sample: object, method: str, nonsense: object) -> None:
    with pytest.raises(TypeError) as caught:
        getattr(sample, method)(nonsense)
    assert "frequency_hz" in str(caught.value) + " ".join(getattr(caught.value, "__notes__", []))
