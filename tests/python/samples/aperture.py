"""Samples of the classes of `stillroom.aperture` in Rust."""

from __future__ import annotations

import stillroom as sr

SAMPLES = [
    sr.CircularHole(6e-3, 1e-3),
    sr.Polarizability.of_ellipse(4e-3, 1e-3),
    sr.RectangularSlot(0.1, 5e-3, 1.5e-3),
]
