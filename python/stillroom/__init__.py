"""Engineering mathematics of RF-shielded rooms and boxes.

How much gets into (or out of) a room, through which part, and how sure are we? Describe the room by
its parts, expose it, and ask which part limits it::

    import numpy as np, stillroom as sr

    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    room = sr.Enclosure(interior_m=(4.8, 3.6, 3.0), wall=wall)
    study = room.study(np.geomspace(30e6, 40e9, 400), exposure=sr.AntennaTest(1.0, 0.5))
    study.limiting_bands()

All quantities are SI with the unit in the name; losses are positive dB; frequencies broadcast as in
numpy.
"""

from __future__ import annotations

from . import materials
from ._core import (
    AntennaTest,
    Capacitor,
    CircularHole,
    Conductor,
    ContactLine,
    Enclosure,
    Film,
    FilteredLine,
    Housing,
    Inductor,
    Ladder,
    Laminate,
    Leak,
    LineNetwork,
    LossSplit,
    Material,
    MeasuringCircuit,
    Panel,
    PermeabilityTable,
    PlaneWave,
    Polarizability,
    PowerLaw,
    RectangularSlot,
    RelaxingPermeability,
    Requirement,
    Resistor,
    Seam,
    Series,
    Sheet,
    Shunt,
    Study,
    TabulatedLeak,
    Wire,
    slot_rule_of_thumb_db,
    strap_inductance_h,
)
from ._errors import (
    DomainWarning,
    DuplicateNameError,
    EmptyError,
    FormatError,
    LengthMismatchError,
    NotIncreasingError,
    OutOfRangeError,
    RelationError,
    ReservedNameError,
    StillroomError,
    UnknownNameError,
    UnknownParameterError,
    UnreachableError,
)

__all__ = [
    "AntennaTest",
    "Capacitor",
    "CircularHole",
    "Conductor",
    "ContactLine",
    "DomainWarning",
    "DuplicateNameError",
    "EmptyError",
    "Enclosure",
    "Film",
    "FilteredLine",
    "FormatError",
    "Housing",
    "Inductor",
    "Ladder",
    "Laminate",
    "Leak",
    "LengthMismatchError",
    "LineNetwork",
    "LossSplit",
    "Material",
    "MeasuringCircuit",
    "NotIncreasingError",
    "OutOfRangeError",
    "Panel",
    "PermeabilityTable",
    "PlaneWave",
    "Polarizability",
    "PowerLaw",
    "RectangularSlot",
    "RelationError",
    "RelaxingPermeability",
    "Requirement",
    "ReservedNameError",
    "Resistor",
    "Seam",
    "Series",
    "Sheet",
    "Shunt",
    "StillroomError",
    "Study",
    "TabulatedLeak",
    "UnknownNameError",
    "UnknownParameterError",
    "UnreachableError",
    "Wire",
    "materials",
    "slot_rule_of_thumb_db",
    "strap_inductance_h",
]
