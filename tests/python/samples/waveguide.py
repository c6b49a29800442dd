"""Guides, tubes and honeycomb panels."""

from __future__ import annotations

import stillroom as sr

ROUND = sr.tubes.CircularGuide(6e-3, 1.2, 1e-3, 5.8e7)
RECTANGULAR = sr.tubes.RectangularGuide(10e-3, 4e-3, 1.0, 0.0, 1e7)
HEXAGONAL = sr.tubes.HexagonalGuide(4.8e-3)
ROD = sr.tubes.Rod(2.8e-3, 3.0, 2e-3, 1e-3, 2e-3)
HEXAGON = sr.vents.HexagonalCell(4.8e-3, 0.05e-3, 3.5e7)
SQUARE = sr.vents.SquareCell(5e-3, 0.2e-3)
DRILLED = sr.vents.RoundCell(5e-3, 1e-3)

BOND = sr.tubes.WallBond(5e-3, 1e-9)
SHIELD = sr.tubes.BondedShield(20e-3, 0.3e-9, 75.0)
BRAID = sr.tubes.BraidTable([1e5, 1e7, 1e9], [0.02, 0.03, 2.0], [0.0, 20.0, 85.0], 3.0)
MEASURED = sr.tubes.MeasuredShield(BRAID, 75.0)
WIRE = sr.tubes.ThroughWire(1e-3, 0.3, 0.2)

SAMPLES: list[object] = [
    ROUND,
    RECTANGULAR,
    HEXAGONAL,
    ROD,
    HEXAGON,
    SQUARE,
    DRILLED,
    sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3, ROD),
    sr.Tube(RECTANGULAR, 30e-3),
    sr.tubes.CoaxialGuide(2.8e-3, 6e-3, 1.5, 1e-3, 5.8e7),
    BOND,
    SHIELD,
    BRAID,
    sr.tubes.BraidTable([1e5, 1e7], [0.02, 0.03]),
    MEASURED,
    WIRE,
    sr.tubes.ThroughWire(1e-3, 0.3, 0.2, SHIELD),
    sr.tubes.ThroughWire(1e-3, 0.3, 0.2, MEASURED),
    sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3, None, sr.tubes.ThroughWire(1e-3, 0.3, 0.2, BOND)),
    sr.vents.Air(1.1, 19e-6),
    sr.HoneycombPanel(HEXAGON, 25e-3, (0.3, 0.3)),
    sr.HoneycombPanel(SQUARE, 25e-3, (0.3, 0.2)),
    sr.HoneycombPanel(DRILLED, 10e-3, (0.1, 0.2)),
]
