"""Guides, tubes and honeycomb panels."""

from __future__ import annotations

import stillroom as sr

ROUND = sr.CircularGuide(6e-3, 1.2, 1e-3, 5.8e7)
RECTANGULAR = sr.RectangularGuide(10e-3, 4e-3, 1.0, 0.0, 1e7)
HEXAGONAL = sr.HexagonalGuide(4.8e-3)
ROD = sr.Rod(2.8e-3, 3.0, 2e-3, 1e-3, 2e-3)
HEXAGON = sr.HexagonalCell(4.8e-3, 0.05e-3, 3.5e7)
SQUARE = sr.SquareCell(5e-3, 0.2e-3)
DRILLED = sr.RoundCell(5e-3, 1e-3)

BOND = sr.WallBond(5e-3, 1e-9)
SHIELD = sr.BondedShield(20e-3, 0.3e-9, 75.0)
BRAID = sr.BraidTable([1e5, 1e7, 1e9], [0.02, 0.03, 2.0], [0.0, 20.0, 85.0], 3.0)
MEASURED = sr.MeasuredShield(BRAID, 75.0)
WIRE = sr.ThroughWire(1e-3, 0.3, 0.2)

SAMPLES: list[object] = [
    ROUND,
    RECTANGULAR,
    HEXAGONAL,
    ROD,
    HEXAGON,
    SQUARE,
    DRILLED,
    sr.Tube(sr.CircularGuide(6e-3), 36e-3, ROD),
    sr.Tube(RECTANGULAR, 30e-3),
    sr.CoaxialGuide(2.8e-3, 6e-3, 1.5, 1e-3, 5.8e7),
    BOND,
    SHIELD,
    BRAID,
    sr.BraidTable([1e5, 1e7], [0.02, 0.03]),
    MEASURED,
    WIRE,
    sr.ThroughWire(1e-3, 0.3, 0.2, SHIELD),
    sr.ThroughWire(1e-3, 0.3, 0.2, MEASURED),
    sr.Tube(sr.CircularGuide(6e-3), 36e-3, None, sr.ThroughWire(1e-3, 0.3, 0.2, BOND)),
    sr.Air(1.1, 19e-6),
    sr.HoneycombPanel(HEXAGON, 25e-3, (0.3, 0.3)),
    sr.HoneycombPanel(SQUARE, 25e-3, (0.3, 0.2)),
    sr.HoneycombPanel(DRILLED, 10e-3, (0.1, 0.2)),
]
