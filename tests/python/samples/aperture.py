"""Samples of the classes of `stillroom.aperture` in Rust."""

from __future__ import annotations

import stillroom as sr

SAMPLES = [
    sr.CircularHole(6e-3, 1e-3),
    sr.CrossSlot(40e-3, 6e-3, 1e-3),
    sr.EllipticHole(20e-3, 9e-3, 1e-3),
    sr.HoleArray(sr.CircularHole(3e-3, 1e-3), sr.HoleGrid(5e-3, 4, 6, "hexagonal")),
    sr.HoleGrid(5e-3, 4, 6, "hexagonal"),
    sr.HolePlaces([(0.0, 0.0), (0.01, 0.0), (0.02, 5e-3)]),
    sr.Polarizability.of_ellipse(4e-3, 1e-3),
    sr.RandomHoles(20, 0.1, 0.1, seed=4),
    sr.RectangularSlot(0.1, 5e-3, 1.5e-3),
    sr.RoundedSlot(0.05, 6e-3, 1.5e-3),
]
