"""Runs every contest of this folder and prints one table: `python benches/peers/run.py [name ...]`.

A module takes part by having a function ``rows()`` that gives the contests of its subject
(``side_by_side.Contest``), or a function ``main()`` that prints a table of its own.

Threads: ours uses the rayon pool where the module was built with the feature ``parallel``
(``RAYON_NUM_THREADS`` sets its size), and one thread otherwise; the libraries under numpy are held to one.
"""

from __future__ import annotations

import importlib
import os
import platform
import sys
from pathlib import Path

for library in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(library, "1")

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

from side_by_side import Row, table  # noqa: E402


def main(names: list[str]) -> None:
    """Runs the named modules, or all."""
    known = sorted(path.stem for path in HERE.glob("*.py"))
    rows: list[Row] = []
    for name in names or known:
        if name not in known:
            raise SystemExit(f"no module {name}: known are {', '.join(known)}")
        if name == Path(__file__).stem:
            continue
        module = importlib.import_module(name)
        if not hasattr(module, "rows"):
            # Some subjects print a table of their own.
            getattr(module, "main", lambda: None)()
            continue
        for contest in module.rows():
            print(f"{name}: {contest.what} ...", file=sys.stderr, flush=True)
            rows += contest.run()
    threads = os.environ.get("RAYON_NUM_THREADS", "as many as there are processors, if built with them")
    print(
        f"{platform.machine()}, {os.cpu_count()} processors; our threads: {threads}; times per step, medians"
    )
    print(table(rows))


if __name__ == "__main__":
    main(sys.argv[1:])
