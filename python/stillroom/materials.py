"""Catalogue of materials, each with the source of its constants.

Metals are typical values for weak fields; building materials follow Recommendation ITU-R P.2040-3 and
know the frequency range in which they hold (``material.range_hz``).

>>> import stillroom as sr
>>> sr.materials.copper.conductivity_s_per_m
58000000.0
"""

from __future__ import annotations

from typing import Final

from ._core import Material, catalogue, catalogue_names

__all__ = ["get", "names"]


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


aluminium: Final = get("aluminium")
brass: Final = get("brass")
brick: Final = get("brick")
ceiling_board: Final = get("ceiling board")
chipboard: Final = get("chipboard")
concrete: Final = get("concrete")
copper: Final = get("copper")
floorboard: Final = get("floorboard")
glass: Final = get("glass")
gold: Final = get("gold")
iron: Final = get("iron")
marble: Final = get("marble")
mu_metal: Final = get("mu-metal")
nickel: Final = get("nickel")
plasterboard: Final = get("plasterboard")
plywood: Final = get("plywood")
stainless_steel: Final = get("stainless steel")
steel: Final = get("steel")
tin: Final = get("tin")
vacuum: Final = get("vacuum")
wood: Final = get("wood")
zinc: Final = get("zinc")
