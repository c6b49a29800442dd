"""Samples of the classes of `stillroom.joint` in Rust."""

from __future__ import annotations

import stillroom as sr

SAMPLES = [
    sr.ContactLine(6.0, 5e-3, 0.5e-3),
    sr.Seam(42.0, 0.1, 20e-6, 25e-3, contact_conductance_s_per_m=100.0, faces=sr.materials.aluminium),
]
