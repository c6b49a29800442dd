"""Samples of the classes of `stillroom.joint` in Rust."""

from __future__ import annotations

import stillroom as sr

GASKET = sr.joints.Gasket(2e-5, 2e-12)
TABLE = sr.joints.ImpedanceTable([1e4, 1e6, 1e9], [2e-5, 3e-5, 1e-2])
FINGERS = sr.joints.FingerRow(5e-3)
CONTACTS = sr.ContactLine(6.0, 5e-3, 0.5e-3)
LEAF = sr.joints.FingerRow(4e-3, 0.4e-3, finger_thickness_m=0.1e-3, finger_run_m=8e-3, free_height_m=3e-3)
EDGE = sr.joints.KnifeEdge(6.0, 2e-3, 25e-3, LEAF, row_count=2, faces=sr.materials.copper)
LID = sr.GasketLine(1.9, 1e-3, [GASKET, sr.joints.ContactsBeside([FINGERS, TABLE])], row_spacing_m=8e-3)

SAMPLES = [
    CONTACTS,
    sr.joints.ContactsBeside([GASKET, FINGERS]),
    sr.Door({"jambs": CONTACTS, "sill": LID, "head": EDGE}),
    EDGE,
    FINGERS,
    LEAF,
    GASKET,
    LID,
    TABLE,
    sr.Seam(42.0, 0.1, 20e-6, 25e-3, contact_conductance_s_per_m=100.0, faces=sr.materials.aluminium),
    sr.Seam(
        42.0,
        0.1,
        20e-6,
        25e-3,
        contact_conductance_s_per_m=1e4,
        contact_spot_spacing_m=5e-3,
        contact_gap_m=15e-6,
        fastener_resistance_ohm=1e-4,
        coating=sr.materials.tin,
        sheet_thickness_m=0.5e-3,
    ),
]
