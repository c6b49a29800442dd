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

The everyday parts are here; what belongs to one subject is in its module:

=============  ==============================================================================
here           room, study, tests, sheets and panels, seams, doors, holes, tubes, vents, filters
`sheets`       films, fabrics, meshes, perforated metal, near sources, sizing of laminates
`apertures`    further slots, arrays of holes, polarizabilities
`joints`       gaskets, fingers, measured contacts, knife edges
`vents`        cells, foil, frames, air, sizing of vents
`tubes`        guides, modes, rods, wires and shields in tubes, sizing of tubes
`filters`      parts, terminations, synthesis, mains, leakage current, stored charge
`boxes`        openings of a bench box
`materials`    the catalogue, and laws of permeability
`errors`       what can be wrong with an input
=============  ==============================================================================
"""

from __future__ import annotations

from . import apertures, boxes, errors, filters, joints, materials, sheets, tubes, vents
from ._core import (
    AntennaTest,
    BenchBox,
    CircularHole,
    ClosedShell,
    ContactLine,
    Door,
    Enclosure,
    FilteredLine,
    GasketLine,
    HoneycombPanel,
    Laminate,
    Leak,
    LineFilter,
    LoopTest,
    Material,
    Panel,
    PlaneWave,
    RectangularSlot,
    Requirement,
    RodTest,
    Seam,
    Sheet,
    Study,
    TabulatedLeak,
    Tube,
)
from .errors import DomainWarning, StillroomError

__all__ = [
    "AntennaTest",
    "BenchBox",
    "CircularHole",
    "ClosedShell",
    "ContactLine",
    "DomainWarning",
    "Door",
    "Enclosure",
    "FilteredLine",
    "GasketLine",
    "HoneycombPanel",
    "Laminate",
    "Leak",
    "LineFilter",
    "LoopTest",
    "Material",
    "Panel",
    "PlaneWave",
    "RectangularSlot",
    "Requirement",
    "RodTest",
    "Seam",
    "Sheet",
    "StillroomError",
    "Study",
    "TabulatedLeak",
    "Tube",
    "apertures",
    "boxes",
    "errors",
    "filters",
    "joints",
    "materials",
    "sheets",
    "tubes",
    "vents",
]
