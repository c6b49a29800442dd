"""Catalogue of materials, each with the source of its constants.

Each material of the catalogue is an attribute of this module, by its name with underscores. Metals are
typical values for weak fields; magnetic ones carry a tolerance, the parameter ``permeability_tolerance`` from
-1 (the least permeability that sources give) to 1 (the greatest). ``steel`` is ordinary low-carbon,
cold-rolled sheet. Building materials follow Recommendation ITU-R P.2040-4 and know the frequency range in
which they hold (``material.range_hz``).

>>> import stillroom as sr
>>> sr.materials.copper.conductivity_s_per_m
58000000.0
>>> least = sr.materials.steel.with_parameter("permeability_tolerance", -1.0)
>>> round(least.complex_permeability(10.0).real)
195
"""

from __future__ import annotations

from ._core import Material, PermeabilityTable, PowerLaw, RelaxingPermeability, catalogue, catalogue_names

__all__ = ["PermeabilityTable", "PowerLaw", "RelaxingPermeability", "get", "names"]

# What type checkers and editors know; the values are set below. A test compares this list with the catalogue.
aluminium: Material
asphalt_concrete: Material
austenitic_stainless_steel: Material
brass: Material
brick: Material
carpet_tile: Material
ceiling_board: Material
chipboard: Material
concrete: Material
copper: Material
electrical_steel: Material
ferritic_stainless_steel: Material
floorboard: Material
glass: Material
gold: Material
iron: Material
marble: Material
medium_dry_ground: Material
mu_metal: Material
nickel: Material
plasterboard: Material
plywood: Material
steel: Material
tin: Material
vacuum: Material
very_dry_ground: Material
vinyl_tile: Material
wet_ground: Material
wood: Material
zinc: Material


def names() -> list[str]:
    """Names of all materials of the catalogue."""
    return catalogue_names()


def get(name: str) -> Material:
    """One material by its name.

    Raises
    ------
    UnknownNameError
        If there is no such material; the exception lists the known names.
    """
    return catalogue(name)


globals().update({name.replace(" ", "_").replace("-", "_"): get(name) for name in names()})
