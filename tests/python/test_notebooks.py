"""The demo notebooks run from top to bottom, and are kept without their outputs."""

from __future__ import annotations

from pathlib import Path

import nbformat
import pytest
import run_demo

NOTEBOOKS = sorted((Path(__file__).parents[2] / "notebooks-demo").glob("*.ipynb"))
each_notebook = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)


def test_there_are_notebooks() -> None:
    assert NOTEBOOKS


@each_notebook
def test_notebook_runs(path: Path) -> None:
    notebook = run_demo.execute(path)
    complaints = [
        output["text"]
        for cell in notebook.cells
        if cell.cell_type == "code"
        for output in cell.outputs
        if output.output_type == "stream" and output["name"] == "stderr"
    ]
    # A reader of a demo should see no warning that the text doesn't speak of.
    assert not [text for text in complaints if "Warning" in text and "DomainWarning" not in text]


@each_notebook
def test_notebook_is_kept_without_outputs(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            assert not cell.outputs
            assert cell.execution_count is None


@each_notebook
def test_notebook_opens_with_its_question(path: Path) -> None:
    first = nbformat.read(path, as_version=4).cells[0]
    assert first.cell_type == "markdown"
    assert first.source.startswith("# ")


def test_demo_prints_its_table_and_leaves_page_and_picture(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run_demo.main(["--out", str(tmp_path)])
    printed = capsys.readouterr().out
    assert "limiting" in printed
    assert len(printed.splitlines()) > 10
    (page,) = tmp_path.glob("*.html")
    (picture,) = tmp_path.glob("*.png")
    assert "collar room" in page.read_text(encoding="utf-8")
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert picture.stat().st_size > 10_000
