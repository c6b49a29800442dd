"""Samples of the classes of `stillroom.cavity` in Rust."""

from __future__ import annotations

import stillroom as sr

SLOT = sr.boxes.BoxSlot((0.15, 0.06), (0.1, 5e-3))
HOLE = sr.boxes.BoxHole((0.25, 0.03), 0.02)

SAMPLES = [
    SLOT,
    HOLE,
    sr.BenchBox((0.3, 0.12, 0.3), [SLOT, HOLE], wall_thickness_m=1.5e-3, contents_quality_factor=500.0),
    sr.boxes.StripEquivalent((0.3, 0.12, 0.3), (0.1, 5e-3), wall_thickness_m=1.5e-3),
]
