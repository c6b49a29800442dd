"""Leaks of any kind, rooms and what is asked of them."""

import numpy as np

import stillroom as sr

WALL = sr.Laminate([(sr.materials.steel, 0.5e-3)])
HATCH = sr.TabulatedLeak([1e3, 1e9, 1e11], [1e-12, 1e-9, 1e-9], scale_db=3.0)
ROOM = sr.Enclosure((4.8, 3.6, 3.0), WALL, {"hatch": (2, HATCH), "window": sr.Panel(WALL, 0.5)})
TEST = sr.AntennaTest(outside_m=1.0, inside_m=0.5)

SAMPLES: list[object] = [
    HATCH,
    sr.Panel(WALL, 0.5),
    ROOM,
    TEST,
    sr.Requirement([(14e3, 60.0), (1e6, 100.0), (18e9, 100.0)]),
    ROOM.study(np.geomspace(1e8, 1e10, 5), TEST),
    ROOM.study(np.geomspace(1e8, 1e10, 5), TEST).masked(),
]
