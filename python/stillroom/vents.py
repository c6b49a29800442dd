"""Honeycomb vents: cells, foil, frames, the air that they pass, sizing."""

from __future__ import annotations

from ._core import (
    Air,
    FoilPanel,
    FrameJoint,
    HexagonalCell,
    RoundCell,
    SquareCell,
    UnbondedNodes,
    cells_apart_rule_db,
    cells_in_step_rule_db,
    fresh_air_m3_per_s,
    size_vent,
)

__all__ = [
    "Air",
    "FoilPanel",
    "FrameJoint",
    "HexagonalCell",
    "RoundCell",
    "SquareCell",
    "UnbondedNodes",
    "cells_apart_rule_db",
    "cells_in_step_rule_db",
    "fresh_air_m3_per_s",
    "size_vent",
]
