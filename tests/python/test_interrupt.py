"""Ctrl-C: every long call hears it soon, and the interpreter goes on."""

from __future__ import annotations

import subprocess
import sys

import pytest

PROGRAM = """
import signal, sys, threading, warnings
import numpy as np
import stillroom as sr

warnings.simplefilter("ignore")
# What runs in the background may have been started with Ctrl-C ignored.
signal.signal(signal.SIGINT, signal.default_int_handler)
f = np.geomspace(1e6, 40e9, 1_000_000)
steel = sr.materials.steel
{setup}
# A call that ends before the signal comes shows nothing: the signal comes early, and the call is long.
threading.Timer(0.2, signal.raise_signal, [signal.SIGINT]).start()
try:
    {call}
except KeyboardInterrupt:
    print("heard")
"""

LONG = {
    "tube from one direction": (
        "tube = sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3)",
        "tube.directional_cross_section_m2(f)",
    ),
    "tube matched": (
        "tube = sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3)",
        "tube.matched_cross_section_m2(f)",
    ),
    "box": (
        "slot = sr.boxes.BoxSlot((0.15, 0.06), (0.1, 5e-3))\nbox = sr.BenchBox((0.3, 0.12, 0.3), [slot])",
        "box.electric_shielding_db(f, (0.15, 0.06, 0.15))",
    ),
    "door": ("line = sr.ContactLine(6.0, 6e-3, 1e-3)", "line.cross_section_m2(f)"),
    "study": (
        "wall, line = sr.Laminate([(steel, 5e-4)]), sr.ContactLine(6.0, 6e-3, 1e-3)\n"
        "room = sr.Enclosure((4.8, 3.6, 3.0), wall, {'door': line})",
        "room.study(f, sr.AntennaTest(1.0, 0.5))",
    ),
    "loops": (
        "sheet, test = sr.Laminate([(steel, 5e-4)]), sr.LoopTest()",
        "test.shielding_db(sheet, f)",
    ),
}


@pytest.mark.parametrize("what", LONG)
def test_a_long_call_is_called_off(what: str) -> None:
    setup, call = LONG[what]
    program = PROGRAM.format(setup=setup, call=call)
    # Without hearing it, each of these calls takes longer than this, and the test fails by it.
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=20, check=False
    )
    assert done.stdout == "heard\n", done.stderr
