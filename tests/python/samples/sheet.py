"""Sheets, near-field tests and shells."""

from __future__ import annotations

import stillroom as sr

COPPER = sr.Material("copper", conductivity_s_per_m=5.8e7)

SAMPLES: list[object] = [
    sr.sheets.Film(50.0),
    sr.Laminate([(sr.materials.steel, 0.5e-3), (sr.materials.wood, 19e-3), sr.sheets.Film(3.0)]),
    sr.Laminate([(sr.materials.copper, 1e-4)]).split(1e6),
    sr.PlaneWave(angle_deg=30.0, polarization="tm", inside_m=0.5),
    sr.sheets.WireMesh(1.3e-3, 0.25e-3, COPPER),
    sr.sheets.PerforatedSheet(1e-3, 2e-3, "hexagonal", 0.5e-3),
    sr.sheets.Fabric(0.05, 0.3e-3, 0.1e-3),
    sr.Laminate([sr.sheets.WireMesh(1.3e-3, 0.25e-3, COPPER), sr.sheets.Film(50.0), (COPPER, 1e-4)]),
    sr.LoopTest("coplanar", 0.15, 0.1, outside_m=0.3, inside_m=0.25),
    sr.RodTest(0.3, 0.2, outside_m=0.3, inside_m=0.25),
    sr.ClosedShell("cylinder across", 0.5, [(COPPER, 1e-3), (sr.materials.steel, 0.5e-3)]),
    sr.sheets.RoomEstimate(shielding_db=40.0, lowest_db=35.0, highest_db=44.0),
    sr.sheets.size_laminate(
        sr.Laminate([sr.sheets.Film(100.0)]),
        "layers.0.sheet_resistance_ohm",
        [1e6, 1e9],
        40.0,
        lowest=1e-3,
        highest=1e3,
        prefer="largest",
    ),
]
