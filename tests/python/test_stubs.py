"""The types that users see: complete, documented, and true of the module."""

from __future__ import annotations

import ast
import doctest
import inspect
import sys
from pathlib import Path

import pytest
from samples import public

import stillroom as sr

PACKAGE = Path(sr.__file__).parent
STUB = ast.parse((PACKAGE / "_core.pyi").read_text(encoding="utf-8"))


def functions(body: list[ast.stmt], prefix: str = "") -> list[tuple[str, ast.FunctionDef]]:
    found = []
    for node in body:
        if isinstance(node, ast.ClassDef):
            found += functions(node.body, f"{node.name}.")
        elif isinstance(node, ast.FunctionDef):
            found.append((prefix + node.name, node))
    return found


FUNCTIONS = functions(STUB.body)
PUBLIC = [(name, thing) for name, thing in public().items() if inspect.isclass(thing) or callable(thing)]


def test_names_are_exported_in_order() -> None:
    assert sorted(sr.__all__) == sr.__all__
    assert len(set(sr.__all__)) == len(sr.__all__)
    assert all(hasattr(sr, name) for name in sr.__all__)


def test_every_name_has_one_place() -> None:
    """A name is at the top or in one subject, and a class says where."""
    modules = [thing for name in sr.__all__ if inspect.ismodule(thing := getattr(sr, name))]
    inner = [name for module in modules for name in getattr(module, "__all__", [])]
    flat = [name for name in sr.__all__ if name not in ("DomainWarning", "StillroomError")]
    assert len(set(inner + flat)) == len(inner + flat)
    for name, thing in public().items():
        if inspect.isclass(thing):
            place = sys.modules[thing.__module__]
            assert getattr(place, thing.__name__) is thing, name


def test_the_package_says_that_it_is_typed() -> None:
    assert (PACKAGE / "py.typed").exists()


@pytest.mark.parametrize(("name", "node"), FUNCTIONS, ids=[name for name, _ in FUNCTIONS])
def test_every_function_is_typed_in_full(name: str, node: ast.FunctionDef) -> None:
    """No gaps, and no escapes."""
    arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    for argument in arguments:
        if argument.arg in ("self", "cls"):
            continue
        assert argument.annotation is not None, argument.arg
    assert node.returns is not None
    text = ast.unparse(node)
    assert "Incomplete" not in text
    # `memo` of __deepcopy__ is anything by Python's own definition.
    if not node.name.startswith("__"):
        assert "Any" not in text


@pytest.mark.parametrize(("name", "thing"), PUBLIC, ids=[name for name, _ in PUBLIC])
def test_every_public_name_is_documented(name: str, thing: object) -> None:
    assert inspect.getdoc(thing), name
    if not inspect.isclass(thing):
        return
    for member_name, member in vars(thing).items():
        if not member_name.startswith("_") and (callable(member) or inspect.isgetsetdescriptor(member)):
            assert inspect.getdoc(member), f"{name}.{member_name}"


@pytest.mark.parametrize(("name", "thing"), PUBLIC, ids=[name for name, _ in PUBLIC])
def test_documentation_is_for_readers_of_python(name: str, thing: object) -> None:
    text = inspect.getdoc(thing) or ""
    for foreign in ("```", "[`", "::new", "Result<", "Option<", "&str"):
        assert foreign not in text


def test_examples_in_docstrings() -> None:
    finder = doctest.DocTestFinder(exclude_empty=True)
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE)
    # Compiled classes don't tell where they come from, so the finder is not to ask.
    for example in finder.find(sr, "stillroom", module=False, globs={"sr": sr}):
        runner.run(example)
    results = runner.summarize(verbose=False)
    assert results.attempted > 0
    assert results.failed == 0
