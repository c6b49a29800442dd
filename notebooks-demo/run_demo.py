"""Runs the collar-room notebook: the budget table goes to the terminal, page and picture into a folder.

The notebook is the only place that describes the room. Here its cells are executed, and the outputs of
those that carry the tags `demo-table` and `demo-plot` are taken.
"""

from __future__ import annotations

import argparse
import base64
import sys
from pathlib import Path

import nbclient
import nbconvert
import nbformat

HERE = Path(__file__).resolve().parent


def execute(path: Path) -> nbformat.NotebookNode:
    """The notebook with its outputs, run in the folder where it is kept."""
    notebook = nbformat.read(path, as_version=4)
    client = nbclient.NotebookClient(
        notebook,
        timeout=600,
        kernel_name="python3",
        resources={"metadata": {"path": str(path.parent)}},
        # The kernel's remarks on how it talks to this process are of no use to a reader of the table.
        extra_arguments=["--log-level=ERROR"],
    )
    return client.execute()


def tagged_output(notebook: nbformat.NotebookNode, tag: str, kind: str) -> str:
    """The last output of one kind of the cell with this tag."""
    for cell in notebook.cells:
        if tag in cell.metadata.get("tags", []):
            for output in reversed(cell.outputs):
                if output.output_type == "stream" and kind == "text/plain":
                    return output.text
                if kind in output.get("data", {}):
                    return output.data[kind]
    sys.exit(f"the notebook has no cell tagged {tag!r} with an output of type {kind}")


def main(argv: list[str] | None = None) -> None:
    """Execute, write, print."""
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--notebook", type=Path, default=HERE / "01-collar-room.ipynb")
    arguments.add_argument("--out", type=Path, default=HERE.parent / "target" / "demo")
    options = arguments.parse_args(argv)

    notebook = execute(options.notebook)
    options.out.mkdir(parents=True, exist_ok=True)
    page = options.out / f"{options.notebook.stem}.html"
    body, _ = nbconvert.HTMLExporter().from_notebook_node(notebook)
    page.write_text(body, encoding="utf-8")
    picture = page.with_suffix(".png")
    picture.write_bytes(base64.b64decode(tagged_output(notebook, "demo-plot", "image/png")))

    print(tagged_output(notebook, "demo-table", "text/plain").rstrip())
    print(f"\npage     {page}\npicture  {picture}")


if __name__ == "__main__":
    main()
