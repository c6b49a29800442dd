"""The README's examples work as printed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest


def blocks(root: Path, file: str, language: str) -> list[str]:
    text = (root / file).read_text(encoding="utf-8")
    return re.findall(rf"^```{language}[^\n]*\n(.*?)^```$", text, flags=re.DOTALL | re.MULTILINE)


def test_python_example_runs(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    examples = blocks(root, "README.md", "python")
    assert examples
    for example in examples:
        exec(compile(example, "README.md", "exec"), {"__name__": "__main__"})
    # What the example is said to print is what it prints.
    printed = capsys.readouterr().out.strip().splitlines()
    claimed = [
        line.removeprefix("# ")
        for example in examples
        for line in re.findall(r"^(# >.*)$", example, re.MULTILINE)
    ]
    assert [line.removeprefix("> ") for line in claimed] == printed


def test_examples_are_short(root: Path) -> None:
    for language in ("python", "rust"):
        (example,) = blocks(root, "README.md", language)
        assert len(example.splitlines()) <= 20


def test_commands_named_exist(root: Path) -> None:
    makefile = (root / "Makefile").read_text(encoding="utf-8")
    for file in ("README.md", "DEVELOPERS.md"):
        text = (root / file).read_text(encoding="utf-8")
        for target in re.findall(r"\bmake ([a-z][a-z-]*)\b", text):
            assert re.search(rf"^{target}:", makefile, flags=re.MULTILINE), f"{file}: make {target}"


def test_links_lead_somewhere(root: Path) -> None:
    for file in ("README.md", "DEVELOPERS.md"):
        text = (root / file).read_text(encoding="utf-8")
        for link in re.findall(r"\]\(([^)#]+)\)", text):
            if not link.startswith("http"):
                assert (root / link).exists(), f"{file}: {link}"
