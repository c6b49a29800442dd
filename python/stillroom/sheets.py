"""Films, fabrics, meshes, perforated metal; what loops and rods see through sheets; sizing of laminates."""

from __future__ import annotations

from ._core import (
    Fabric,
    Film,
    LossSplit,
    PerforatedSheet,
    RoomEstimate,
    Sizing,
    WireMesh,
    galvanised_steel,
    handbook_reflection_db,
    near_shielding_db,
    near_split,
    near_wave_impedance_ohm,
    room_in_uniform_field,
    rough_surface_resistance_ohm,
    roughness_factor,
    size_laminate,
)

__all__ = [
    "Fabric",
    "Film",
    "LossSplit",
    "PerforatedSheet",
    "RoomEstimate",
    "Sizing",
    "WireMesh",
    "galvanised_steel",
    "handbook_reflection_db",
    "near_shielding_db",
    "near_split",
    "near_wave_impedance_ohm",
    "room_in_uniform_field",
    "rough_surface_resistance_ohm",
    "roughness_factor",
    "size_laminate",
]
