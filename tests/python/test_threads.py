"""Values are shared freely between threads, and computing lets other threads run."""

from __future__ import annotations

import sys
import threading
import time
import warnings
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from samples import call_title, calls

import stillroom as sr

FREQUENCIES = np.geomspace(1e5, 2e10, 200)


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
