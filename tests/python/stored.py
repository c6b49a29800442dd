"""Reference values that cannot change: computed once, kept, and recomputed in part by every run.

A function under `@stored` depends on its arguments alone and on no line of this library. Its values stand in
`tests/data/references/`, in a file of its name, with a digest of the module that computes them:

* in every run about a tenth of the values is recomputed and held to the kept ones;
* a module that has changed since, or a value that is not there, is an error that says what to run;
* `STILLROOM_REFERENCES=recompute` (`make test-deep`) recomputes every value and compares;
* `STILLROOM_REFERENCES=write` (`make references`) writes the files anew.
"""

from __future__ import annotations

import functools
import hashlib
import inspect
import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any, TypeVar

import numpy as np

KEPT = Path(__file__).resolve().parents[1] / "data" / "references"
SHARE = 10
# What a different order of additions in numpy, scipy or LAPACK may change.
RELATIVE = 1e-9

Function = TypeVar("Function", bound=Callable[..., Any])


def mode() -> str:
    """What this run does with the kept values."""
    chosen = os.environ.get("STILLROOM_REFERENCES", "read")
    if chosen not in ("read", "recompute", "write"):
        raise ValueError(f"STILLROOM_REFERENCES={chosen!r}: read, recompute or write")
    return chosen


def digest(module: ModuleType, seen: set[str] | None = None) -> str:
    """Of a module's text and of the reference modules that it stands on."""
    seen = set() if seen is None else seen
    seen.add(module.__name__)
    found = hashlib.sha256(inspect.getsource(module).encode())
    below = {
        name
        for thing in vars(module).values()
        if (name := thing.__name__ if inspect.ismodule(thing) else getattr(thing, "__module__", None))
        and name.endswith("_reference")
    }
    for name in sorted(below - seen):
        found.update(digest(sys.modules[name], seen).encode())
    return found.hexdigest()[:16]


def encoded(value: Any) -> Any:
    """A value as JSON has it: complex numbers and numbers of many digits as text in a table."""
    if isinstance(value, np.ndarray):
        return encoded(value.tolist())
    if isinstance(value, np.generic):
        return encoded(value.item())
    if isinstance(value, (list, tuple)):
        return [encoded(item) for item in value]
    if isinstance(value, complex):
        return {"complex": [value.real, value.imag]}
    if type(value).__module__.startswith("mpmath"):
        import mpmath as mp

        part = functools.partial(mp.nstr, n=30)
        return {
            "digits": [part(value.real), part(value.imag)] if isinstance(value, mp.mpc) else [part(value)]
        }
    return value


def decoded(value: Any) -> Any:
    """The value again; arrays come back where numbers stand in a list."""
    if isinstance(value, list):
        items = [decoded(item) for item in value]
        numbers = all(isinstance(item, (int, float, complex, np.ndarray)) for item in items)
        return np.array(items) if items and numbers else items
    if isinstance(value, dict):
        if "complex" in value:
            return complex(*value["complex"])
        import mpmath as mp

        parts = [mp.mpf(part) for part in value["digits"]]
        return mp.mpc(*parts) if len(parts) == 2 else parts[0]
    return value


def name_of(argument: Any) -> Any:
    """An argument as part of a key."""
    if callable(argument):
        return argument.__qualname__
    if isinstance(argument, np.ndarray):
        return argument.tolist()
    if isinstance(argument, (list, tuple)):
        return [name_of(item) for item in argument]
    return str(argument) if type(argument).__module__.startswith("mpmath") else argument


class Kept:
    """The values of one function, in one file."""

    def __init__(self, function: Callable[..., Any]) -> None:
        self.function = function
        self.name = f"{function.__module__}.{function.__name__}"
        self.path = KEPT / f"{self.name}.json"

    @functools.cached_property
    def source(self) -> str:
        return digest(sys.modules[self.function.__module__])

    @functools.cached_property
    def values(self) -> dict[str, Any]:
        try:
            kept = json.loads(self.path.read_text(encoding="utf-8"))
        except FileNotFoundError:
            kept = {"source": None, "values": {}}
        if mode() == "write":
            return kept["values"] if kept["source"] == self.source else {}
        if kept["source"] != self.source:
            raise AssertionError(f"{self.name} has changed since its values were kept: run `make references`")
        return kept["values"]

    def write(self, key: str, value: Any) -> None:
        self.values[key] = encoded(value)
        self.path.parent.mkdir(parents=True, exist_ok=True)
        kept = {"source": self.source, "values": dict(sorted(self.values.items()))}
        self.path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


def same(value: Any, kept: Any) -> bool:
    """Whether a recomputed value is the kept one, to rounding."""
    if isinstance(value, (str, bool)) or value is None:
        return bool(value == kept)
    if isinstance(value, (list, tuple)) and not isinstance(kept, np.ndarray):
        return len(value) == len(kept) and all(map(same, value, kept))
    if type(value).__module__.startswith("mpmath"):
        return bool(abs(value - kept) <= RELATIVE * abs(kept))
    value, kept = np.asarray(value), np.asarray(kept)
    return value.shape == kept.shape and bool(
        np.allclose(
            value, kept, rtol=RELATIVE, atol=RELATIVE * np.max(np.abs(kept), initial=0.0), equal_nan=True
        )
    )


def stored(function: Function) -> Function:
    """Keeps what a reference function returns: see the top of this file."""
    kept = Kept(function)

    @functools.wraps(function)
    def looked_up(*arguments: Any, **named: Any) -> Any:
        bound = inspect.signature(function).bind(*arguments, **named)
        bound.apply_defaults()
        key = json.dumps({name: name_of(value) for name, value in bound.arguments.items()})
        doing = mode()
        if doing == "write":
            if key not in kept.values:
                kept.write(key, function(*arguments, **named))
            return decoded(kept.values[key])
        if key not in kept.values:
            raise AssertionError(f"no value is kept for {kept.name}({key}): run `make references`")
        found = decoded(kept.values[key])
        chosen = int(hashlib.sha256(f"{kept.name} {key}".encode()).hexdigest(), 16) % SHARE == 0
        if doing == "recompute" or chosen:
            again = function(*arguments, **named)
            assert same(again, found), (
                f"{kept.name}({key}) is {again}, kept is {found}: run `make references`"
            )
        return found

    return looked_up  # type: ignore[return-value]
