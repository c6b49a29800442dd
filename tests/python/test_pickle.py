"""Every value object survives its text form, pickling, copying and comparison."""

from __future__ import annotations

import copy
import math
import pickle
import re

import numpy as np
import pytest
from samples import constructor_arguments, exported_classes, public, samples, title

import stillroom as sr

VALUES = [s for s in samples() if hasattr(s, "__getnewargs_ex__")]
# Results tell about themselves instead of printing every number.
PLAIN_VALUES = [s for s in VALUES if not repr(s).startswith("<")]
NAMES = {**public(), "array": np.array, "inf": math.inf, "nan": math.nan}


@pytest.mark.parametrize("cls", exported_classes(), ids=lambda c: c.__name__)
def test_every_exported_class_has_a_sample(cls: type) -> None:
    assert any(type(sample) is cls for sample in samples()), "add one to tests/python/samples"


@pytest.mark.parametrize("sample", PLAIN_VALUES, ids=title)
def test_repr_rebuilds_the_object(sample: object) -> None:
    assert eval(repr(sample), NAMES) == sample


@pytest.mark.parametrize("sample", samples(), ids=title)
def test_notebook_form_is_html_that_closes_what_it_opens(sample: object) -> None:
    opened: list[str] = []
    for slash, tag in re.findall(r"<(/?)([a-z]+)", sample._repr_html_()):  # type: ignore[attr-defined]
        if not slash:
            opened.append(tag)
        else:
            assert opened.pop() == tag
    assert not opened


@pytest.mark.parametrize("protocol", range(2, pickle.HIGHEST_PROTOCOL + 1))
@pytest.mark.parametrize("sample", samples(), ids=title)
def test_pickle_round_trip(sample: object, protocol: int) -> None:
    again = pickle.loads(pickle.dumps(sample, protocol))
    assert type(again) is type(sample)
    assert again == sample


@pytest.mark.parametrize("sample", samples(), ids=title)
def test_copies_are_equal(sample: object) -> None:
    assert copy.copy(sample) == sample
    assert copy.deepcopy(sample) == sample


@pytest.mark.parametrize("sample", samples(), ids=title)
def test_equality_knows_the_type(sample: object) -> None:
    assert sample != title(sample)
    assert sample is not None
    others = [other for other in samples() if type(other) is not type(sample)]
    assert all(sample != other for other in others)


@pytest.mark.parametrize("sample", VALUES, ids=title)
def test_equality_sees_every_number(sample: object) -> None:
    arguments = constructor_arguments(sample)
    for name, value in arguments.items():
        if type(value) is not float or not math.isfinite(value):
            continue
        try:
            changed = type(sample)(**{**arguments, name: value * (1 + 1e-9) if value else 1e-9})
        except sr.StillroomError:
            # Some neighbour is out of its domain, such as a fraction of exactly 1.
            continue
        assert changed != sample, name


@pytest.mark.parametrize("sample", VALUES, ids=title)
def test_values_cannot_be_changed_in_place(sample: object) -> None:
    for name in constructor_arguments(sample):
        with pytest.raises(AttributeError):
            setattr(sample, name, getattr(sample, name))


def errors() -> list[sr.StillroomError]:
    found = []
    for cls in [*vars(sr.errors).values()]:
        if isinstance(cls, type) and issubclass(cls, sr.StillroomError):
            fields = {name: name for name in getattr(cls, "__annotations__", {})}
            found.append(cls("text", **fields))
    return found


@pytest.mark.parametrize("error", errors(), ids=title)
def test_errors_keep_their_fields_through_a_process_border(error: sr.StillroomError) -> None:
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is type(error)
    assert str(again) == "text"
    assert vars(again) == vars(error)
