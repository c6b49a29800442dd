"""Values are shared freely between threads, and computing lets other threads run."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
import warnings
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from samples import call_title, calls

import stillroom as sr

# Enough that threads meet; the deep run has more.
FREQUENCIES = np.geomspace(1e5, 2e10, 200 if os.environ.get("STILLROOM_REFERENCES") == "recompute" else 24)


@pytest.mark.parametrize(("sample", "method"), calls(), ids=call_title)
def test_four_threads_get_what_one_gets(sample: object, method: str) -> None:
    call = getattr(sample, method)

    def ask(_: int) -> object:
        try:
            return call(FREQUENCIES)
        except TypeError:
            return [call(f) for f in FREQUENCIES[:20].tolist()]

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", sr.DomainWarning)
        alone = ask(0)
        with ThreadPoolExecutor(4) as pool:
            together = list(pool.map(ask, range(8)))
    for answer in together:
        # Compares what is inside tables of arrays, too.
        np.testing.assert_equal(answer, alone)


def turns_while_computing() -> int:
    """How often this thread had its turn while another computed."""
    sheet = sr.Laminate([(sr.materials.steel, 1e-3), (sr.materials.copper, 1e-4), (sr.materials.steel, 1e-3)])
    frequencies = np.geomspace(1e6, 1e9, 400_000)
    started, finished = threading.Event(), threading.Event()

    def compute() -> None:
        started.set()
        sheet.shielding_db(frequencies)
        finished.set()

    worker = threading.Thread(target=compute)
    worker.start()
    started.wait()
    turns = 0
    while not finished.is_set():
        turns += 1
        time.sleep(0)
    worker.join()
    return turns


def test_the_interpreter_is_released_while_computing() -> None:
    """With forced switches all but off, this thread gets a turn only where the other one lets go."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(100.0)
    try:
        # A busy machine may not wake this thread in time, once or twice.
        assert any(turns_while_computing() for _ in range(8))
    finally:
        sys.setswitchinterval(usual)


FORKED = """
import os, sys
import numpy as np
import stillroom as sr
sheet = sr.Laminate([(sr.materials.steel, 1e-3), (sr.materials.copper, 1e-4)])
frequencies = np.geomspace(1e6, 1e9, 200_000)
before = sheet.shielding_db(frequencies)
child = os.fork()
if child == 0:
    os._exit(0 if np.array_equal(sheet.shielding_db(frequencies), before) else 1)
sys.exit(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]))
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork on this system")
def test_a_forked_worker_has_threads_of_its_own() -> None:
    # The parent's threads are not there after a fork: work handed to them would never come back.
    environment = {**os.environ, "RAYON_NUM_THREADS": "2"}
    subprocess.run([sys.executable, "-W", "ignore", "-c", FORKED], env=environment, check=True, timeout=120)


SHARED = """
import sys
import numpy as np
import stillroom as sr
sheet = sr.Laminate([(sr.materials.steel, 1e-3), (sr.materials.chipboard, 19e-3), (sr.materials.steel, 1e-4)])
sys.stdout.buffer.write(sheet.shielding_db(np.geomspace(1e3, 40e9, 100_001)).tobytes())
"""


def test_the_number_of_threads_changes_no_bit() -> None:
    answers = [
        subprocess.run(
            [sys.executable, "-c", SHARED],
            env={**os.environ, "RAYON_NUM_THREADS": threads},
            check=True,
            capture_output=True,
        ).stdout
        for threads in ["1", "3"]
    ]
    assert answers[0] == answers[1]
    assert len(answers[0]) == 8 * 100_001
