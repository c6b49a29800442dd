"""Tubes below cutoff: guides, modes, what lies in them, sizing."""

from __future__ import annotations

from ._core import (
    BondedShield,
    BraidTable,
    CircularGuide,
    CoaxialGuide,
    HexagonalGuide,
    MeasuredShield,
    Mode,
    RectangularGuide,
    Rod,
    ThroughWire,
    WallBond,
    rectangular_tube_rule_db,
    round_tube_rule_db,
    size_tube,
)

__all__ = [
    "BondedShield",
    "BraidTable",
    "CircularGuide",
    "CoaxialGuide",
    "HexagonalGuide",
    "MeasuredShield",
    "Mode",
    "RectangularGuide",
    "Rod",
    "ThroughWire",
    "WallBond",
    "rectangular_tube_rule_db",
    "round_tube_rule_db",
    "size_tube",
]
