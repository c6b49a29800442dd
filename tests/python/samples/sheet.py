"""Sheets, and the waves on them."""

import stillroom as sr

SPLIT = sr.Laminate([(sr.materials.copper, 1e-4)]).split(1e6)

SAMPLES: list[object] = [
    sr.Film(50.0),
    sr.Laminate([(sr.materials.steel, 0.5e-3), (sr.materials.wood, 19e-3), sr.Film(3.0)]),
    SPLIT,
    sr.PlaneWave(angle_deg=30.0, polarization="tm", inside_m=0.5),
]
