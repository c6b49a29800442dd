"""Instances of the honeycomb's classes that the common tests use."""

import stillroom as sr

_PANEL = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3, 0.05e-3), 25e-3, (0.3, 0.2))
_NODES = sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, contact_resistance_ohm_m=1e-2)

SAMPLES: list[object] = [
    sr.vents.FrameJoint(50e-6, 2e-6, 1e-12),
    sr.HoneycombPanel(sr.vents.SquareCell(4e-3, 0.2e-3), 20e-3, (0.2, 0.3), sr.vents.FrameJoint(50e-6, 2e-6)),
    _NODES,
    sr.vents.UnbondedNodes(20e-6, 3.0, 3.5e7),
    sr.vents.FoilPanel(_PANEL, _NODES),
    sr.vents.FoilPanel(_PANEL, _NODES, crossed_gap_m=5e-3),
]
