"""One or more objects of every exported class; the tests of common manners take them from here.

Each subject has a module of its own beside this file, with a list named `SAMPLES`.
"""

from __future__ import annotations

import contextlib
import functools
import importlib
import inspect
import pkgutil
import warnings

import numpy as np

import stillroom as sr


@functools.cache
def samples() -> tuple[object, ...]:
    """Every sample of every subject."""
    found: list[object] = []
    for module in pkgutil.iter_modules(__path__):
        found += importlib.import_module(f"{__name__}.{module.name}").SAMPLES
    return tuple(found)


def public() -> dict[str, object]:
    """Everything public by name: what is at the top of the package, and what its subjects hold."""
    found: dict[str, object] = {}
    for name in sr.__all__:
        thing = getattr(sr, name)
        if inspect.ismodule(thing):
            found |= {inner: getattr(thing, inner) for inner in getattr(thing, "__all__", vars(thing))}
        found[name] = thing
    return found


def exported_classes() -> list[type]:
    """The public classes that hold values: no exceptions, no bases that cannot be created."""
    classes = [thing for thing in public().values() if inspect.isclass(thing)]
    return [c for c in classes if not issubclass(c, BaseException) and not is_base(c)]


def is_base(cls: type) -> bool:
    """Whether a compiled class can only be derived from: it has no constructor."""
    return cls.__new__ is object.__new__ and cls.__init__ is object.__init__


def constructor_arguments(sample: object) -> dict[str, object]:
    """What the sample's class was called with to give the sample."""
    positional, named = sample.__getnewargs_ex__()  # type: ignore[attr-defined]
    assert positional == ()
    return dict(named)


def title(sample: object) -> str:
    """A short name for the test report."""
    return type(sample).__name__


def frequency_methods(sample: object) -> list[str]:
    """Public methods that can be called with a frequency alone."""
    names = []
    for name in dir(sample):
        # A plot gives axes, not numbers; its own test looks at it.
        if name.startswith(("_", "plot")):
            continue
        # Looked up on the class: reading a property would run it.
        member = inspect.getattr_static(type(sample), name)
        if not callable(member):
            continue
        parameters = list(inspect.signature(member).parameters.values())[1:]
        if not parameters or parameters[0].name != "frequency_hz":
            continue
        if all(p.default is not p.empty or p.kind is p.VAR_KEYWORD for p in parameters[1:]):
            names.append(name)
    return names


def calls() -> list[tuple[object, str]]:
    """Each sample with each of its methods that take a frequency."""
    return [(sample, name) for sample in samples() for name in frequency_methods(sample)]


@functools.cache
def array_calls() -> list[tuple[object, str]]:
    """Those calls that give one number for each frequency.

    Some methods take one frequency only; some give a matrix or a table for each, and are looked at by
    the tests of their subject.
    """
    frequencies = np.geomspace(1e5, 2e10, 3)
    found = []
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", sr.DomainWarning)
        for sample, name in calls():
            with contextlib.suppress(TypeError):
                if getattr(getattr(sample, name)(frequencies), "shape", None) == frequencies.shape:
                    found.append((sample, name))
    return found


def call_title(value: object) -> str:
    """Name of one half of a call in the test report."""
    return value if isinstance(value, str) else title(value)
