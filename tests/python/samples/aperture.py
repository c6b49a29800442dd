"""Samples of the classes of `stillroom.aperture` in Rust."""

from __future__ import annotations

import stillroom as sr

SAMPLES = [
    sr.CircularHole(6e-3, 1e-3),
    sr.apertures.CrossSlot(40e-3, 6e-3, 1e-3),
    sr.apertures.EllipticHole(20e-3, 9e-3, 1e-3),
    sr.apertures.HoleArray(sr.CircularHole(3e-3, 1e-3), sr.apertures.HoleGrid(5e-3, 4, 6, "hexagonal")),
    sr.apertures.HoleGrid(5e-3, 4, 6, "hexagonal"),
    sr.apertures.HolePlaces([(0.0, 0.0), (0.01, 0.0), (0.02, 5e-3)]),
    sr.apertures.Polarizability.of_ellipse(4e-3, 1e-3),
    sr.apertures.RandomHoles(20, 0.1, 0.1, seed=4),
    sr.RectangularSlot(0.1, 5e-3, 1.5e-3),
    sr.apertures.RoundedSlot(0.05, 6e-3, 1.5e-3),
]
