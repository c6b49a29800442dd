"""What bridges a joint: gaskets, fingers, measured contacts, knife edges."""

from __future__ import annotations

from ._core import (
    ContactsBeside,
    FingerRow,
    Gasket,
    ImpedanceTable,
    KnifeEdge,
)

__all__ = [
    "ContactsBeside",
    "FingerRow",
    "Gasket",
    "ImpedanceTable",
    "KnifeEdge",
]
