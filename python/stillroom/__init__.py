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
    Conductor,
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
    PowerLaw,
    RelaxingPermeability,
    Requirement,
    Resistor,
    Series,
    Sheet,
    Shunt,
    Study,
    TabulatedLeak,
    Wire,
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
    "Conductor",
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
    "PowerLaw",
    "RelationError",
    "RelaxingPermeability",
    "Requirement",
    "ReservedNameError",
    "Resistor",
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
    "strap_inductance_h",
]
