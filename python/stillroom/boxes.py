"""Openings of a bench box, and what stands in for its walls."""

from __future__ import annotations

from ._core import (
    BoxHole,
    BoxSlot,
    StripEquivalent,
)

__all__ = [
    "BoxHole",
    "BoxSlot",
    "StripEquivalent",
]
