"""Holes and slots beyond the two everyday ones, arrays of them, polarizabilities."""

from __future__ import annotations

from ._core import (
    CrossSlot,
    EllipticHole,
    HoleArray,
    HoleGrid,
    HolePlaces,
    Polarizability,
    RandomHoles,
    RoundedSlot,
    slot_rule_of_thumb_db,
)

__all__ = [
    "CrossSlot",
    "EllipticHole",
    "HoleArray",
    "HoleGrid",
    "HolePlaces",
    "Polarizability",
    "RandomHoles",
    "RoundedSlot",
    "slot_rule_of_thumb_db",
]
