"""Every method that takes a frequency treats arrays as numpy does."""

from __future__ import annotations

import math
import warnings
from collections.abc import Callable, Iterator

import numpy as np
import pytest
from samples import array_calls, call_title

import stillroom as sr

FREQUENCIES = np.geomspace(1e5, 2e10, 12)


each_method = pytest.mark.parametrize(("sample", "method"), array_calls(), ids=call_title)


@pytest.fixture(autouse=True)
def _domain_is_another_test() -> Iterator[None]:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", sr.DomainWarning)
        yield


def bound(sample: object, method: str) -> Callable[..., np.ndarray]:
    return getattr(sample, method)


def test_there_are_methods_to_test() -> None:
    assert array_calls()


@each_method
def test_shape_is_kept_and_entries_are_independent(sample: object, method: str) -> None:
    call = bound(sample, method)
    flat = call(FREQUENCIES)
    assert flat.shape == FREQUENCIES.shape
    np.testing.assert_array_equal(call(FREQUENCIES.reshape(3, 2, 2)), flat.reshape(3, 2, 2))
    # Order and neighbours make no difference, beyond the rounding of a kernel's remainder loop.
    np.testing.assert_allclose(call(FREQUENCIES[::-1])[::-1], flat, rtol=1e-12, atol=1e-12)
    np.testing.assert_allclose(call(FREQUENCIES[3:5]), flat[3:5], rtol=1e-12, atol=1e-12)


@each_method
def test_scalar_in_scalar_out(sample: object, method: str) -> None:
    call = bound(sample, method)
    flat = call(FREQUENCIES)
    for given in (float(FREQUENCIES[4]), FREQUENCIES[4], np.array(FREQUENCIES[4])):
        value = call(given)
        assert type(value) in (float, complex)
        np.testing.assert_allclose(value, flat[4], rtol=1e-12, atol=1e-12)
    assert type(call(1_000_000)) in (float, complex)


@each_method
def test_lists_strides_and_other_dtypes(sample: object, method: str) -> None:
    call = bound(sample, method)
    flat = call(FREQUENCIES)
    np.testing.assert_array_equal(call(FREQUENCIES.tolist()), flat)
    np.testing.assert_array_equal(call(tuple(FREQUENCIES.tolist())), flat)
    wide = np.repeat(FREQUENCIES, 2)[::2]
    assert not wide.flags.c_contiguous
    np.testing.assert_array_equal(call(wide), flat)
    np.testing.assert_array_equal(call(np.asfortranarray(FREQUENCIES.reshape(3, 4))), flat.reshape(3, 4))
    whole = np.array([1_000_000, 2_000_000_000])
    np.testing.assert_array_equal(call(whole), call(whole.astype(float)))
    single = FREQUENCIES.astype(np.float32)
    np.testing.assert_array_equal(call(single), call(single.astype(float)))
    np.testing.assert_array_equal(call(FREQUENCIES.astype(FREQUENCIES.dtype.newbyteorder())), flat)


@each_method
def test_empty_in_empty_out(sample: object, method: str) -> None:
    call = bound(sample, method)
    assert call([]).shape == (0,)
    assert call(np.empty((2, 0))).shape == (2, 0)


@each_method
def test_the_argument_is_left_as_it_was(sample: object, method: str) -> None:
    given = FREQUENCIES.copy()
    given.flags.writeable = False
    result = bound(sample, method)(given)
    assert not np.shares_memory(result, given)
    np.testing.assert_array_equal(given, FREQUENCIES)


@each_method
def test_a_bad_entry_is_named_by_its_index(sample: object, method: str) -> None:
    spoilt = FREQUENCIES.copy()
    spoilt[7] = math.nan
    with pytest.raises(sr.errors.OutOfRangeError, match="frequency_hz") as caught:
        bound(sample, method)(spoilt)
    assert caught.value.index == 7


@each_method
@pytest.mark.parametrize(
    "nonsense",
    [
        np.array([1e6 + 0j]),
        np.array(["1e6"]),
        np.array([True]),
        np.array([None]),
        np.array(["2026-01-01"], dtype="datetime64[D]"),
        np.ma.array([1e6, 2e6], mask=[False, True]),
        [1e6, "x"],
        [1e6, [2e6]],
    ],
    ids=["complex", "text", "bool", "object", "date", "masked", "mixed list", "ragged list"],
)
def test_other_kinds_of_array_are_refused_by_name(sample: object, method: str, nonsense: object) -> None:
    with pytest.raises(TypeError, match="frequency_hz"):
        bound(sample, method)(nonsense)
