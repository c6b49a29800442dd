"""
Compiled core of stillroom.
"""

from _typeshed import SupportsGetItem, SupportsLenAndGetItem
from matplotlib.axes import Axes
from numpy import bool_, complex128, float64
from numpy.typing import ArrayLike, NDArray
from os import PathLike
from pandas import DataFrame
from stillroom._parameter import Parameter
from typing import Any, Literal, SupportsFloat, SupportsIndex, final
from typing_extensions import disjoint_base
from xarray import Dataset

__all__ = [
    "Air",
    "AntennaTest",
    "BenchBox",
    "BetweenLines",
    "BondedShield",
    "BoxHole",
    "BoxSlot",
    "BraidTable",
    "Capacitor",
    "CircularGuide",
    "CircularHole",
    "ClosedShell",
    "CoaxialGuide",
    "CommonModeChoke",
    "Conductor",
    "ContactLine",
    "ContactsBeside",
    "CrossSlot",
    "DesignLimits",
    "Discharge",
    "Door",
    "EarthLeakage",
    "EllipticHole",
    "Enclosure",
    "Fabric",
    "FeedthroughCapacitor",
    "FerriteBead",
    "Film",
    "FilterFind",
    "FilteredLine",
    "FingerRow",
    "FoilPanel",
    "FrameJoint",
    "Gasket",
    "GasketLine",
    "HexagonalCell",
    "HexagonalGuide",
    "HoleArray",
    "HoleGrid",
    "HolePlaces",
    "HoneycombPanel",
    "Housing",
    "ImpedanceRegion",
    "ImpedanceTable",
    "InEachLine",
    "Inductor",
    "KnifeEdge",
    "Ladder",
    "Laminate",
    "Leak",
    "LeakageCase",
    "LineFilter",
    "LineNetwork",
    "LinesToCase",
    "LoopTest",
    "LossGoal",
    "LossSplit",
    "LossyLine",
    "MainsDuty",
    "MainsSupply",
    "Material",
    "MeasuredLoss",
    "MeasuredShield",
    "MeasuredTwoPort",
    "MeasuringCircuit",
    "ModalTermination",
    "Mode",
    "Panel",
    "PerforatedSheet",
    "PermeabilityTable",
    "PlaneWave",
    "Polarizability",
    "PowerLaw",
    "PreferredSeries",
    "Prototype",
    "RandomHoles",
    "RectangularGuide",
    "RectangularSlot",
    "RelaxingPermeability",
    "Requirement",
    "Resistor",
    "Rod",
    "RodTest",
    "RoomEstimate",
    "RoundCell",
    "RoundedSlot",
    "Seam",
    "Series",
    "Sheet",
    "Shunt",
    "Sizing",
    "SquareCell",
    "StarPoint",
    "StoredCharge",
    "StripEquivalent",
    "Study",
    "TabulatedLeak",
    "ThroughWire",
    "Touchstone",
    "Tube",
    "UnbondedNodes",
    "WallBond",
    "Wire",
    "WireMesh",
    "WorstTerminations",
    "catalogue",
    "catalogue_names",
    "cells_apart_rule_db",
    "cells_in_step_rule_db",
    "fresh_air_m3_per_s",
    "galvanised_steel",
    "handbook_reflection_db",
    "near_shielding_db",
    "near_split",
    "near_wave_impedance_ohm",
    "rectangular_tube_rule_db",
    "room_in_uniform_field",
    "rough_surface_resistance_ohm",
    "roughness_factor",
    "round_tube_rule_db",
    "size_laminate",
    "size_tube",
    "size_vent",
    "slot_rule_of_thumb_db",
    "strap_inductance_h",
    "synthesise",
    "tubular_electrode_inductance_h",
]

@final
class Air:
    """
    The air that flows through a vent.

    Parameters
    ----------
    density_kg_per_m3 : float, default 1.204
        Density; the default is dry air at 20 degC and 101325 Pa.
    viscosity_pa_s : float, default 18.25e-6
        Dynamic viscosity, Pa s.
    """
    def __copy__(self, /) -> Air: ...
    def __deepcopy__(self, /, memo: Any) -> Air: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        density_kg_per_m3: SupportsFloat | SupportsIndex = 1.204,
        viscosity_pa_s: SupportsFloat | SupportsIndex = 18.25e-6,
    ) -> Air: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def density_kg_per_m3(self, /) -> float:
        """
        Density, kg/m^3.
        """
    def replace(self, /, **changes: "object") -> Air:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def viscosity_pa_s(self, /) -> float:
        """
        Dynamic viscosity, Pa s.
        """

@final
class AntennaTest:
    """
    Source antenna outside, receiving antenna inside, both facing the same place on the wall.

    Parameters
    ----------
    outside_m : float
        Distance of the source from the wall, m, positive.
    inside_m : float
        Distance of the receiver from the wall, m, positive.

    Notes
    -----
    A leak of cross-section S and directivity D reads -10 log10(S D (d1 + d2)^2 / (4 pi d1^2 d2^2)).
    Holds while neither antenna is nearer to the wall than a sixth of a wavelength.
    """
    def __copy__(self, /) -> AntennaTest: ...
    def __deepcopy__(self, /, memo: Any) -> AntennaTest: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, outside_m: SupportsFloat | SupportsIndex, inside_m: SupportsFloat | SupportsIndex
    ) -> AntennaTest: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def inside_m(self, /) -> float:
        """
        Distance of the receiver from the wall, m.
        """
    @property
    def outside_m(self, /) -> float:
        """
        Distance of the source from the wall, m.
        """
    def replace(self, /, **changes: "object") -> AntennaTest:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class BenchBox:
    """
    A rectangular box with openings in its front, under a plane wave that falls on it straight or runs along it.

    x runs along the width of the front, y along its height, z from it into the depth; the origin is a corner of the
    front inside. The front is whichever wall has the openings: for a slot in the top of a box, give the box
    with its top as the front, and points and waves turned with it.

    Parameters
    ----------
    interior_m : tuple[float, float, float]
        Width, height and depth inside, m, from 1 mm to 100 m and within 100 : 1 of each other.
    openings : sequence of BoxSlot or BoxHole
        Openings in the front, at least one; within the front and apart from each other.
    wall_thickness_m : float, default 0
        Thickness of the front, m.
    walls : Material, default aluminium
        What the walls are made of: their loss inside.
    contents_quality_factor : float, optional
        Quality factor that what is in the box would give every mode by itself, 0.5 or more; an empty box
        where not given.

    Raises
    ------
    RelationError
        For an opening that reaches beyond the front or overlaps another, with their numbers.

    Notes
    -----
    Every opening carries up to three half-waves of voltage along its longer side, one along the other, and the
    potential that an electric field on the wall drives. They meet the half-space in front, the modes of the box
    with their loss, and each other on both sides. The front is taken as part of an endless plane:
    where a real front is small against the wavelength the field on it differs by some decibels. Shielding is
    of the magnitude of the whole field at the point, and negative where that is above the incident one.

    Waves: `travel` "+z" falls straight on the front, with `polarization` "y" or "x"; "+x", "-x", "+y" and "-y" run
    along the front, with `polarization` "z". A wave along the front with its electric field along it too leaves
    nothing on an endless plane, and one from behind does not reach it: both are refused.

    Openings are in one wall at a time.

    Examples
    --------
    >>> import numpy as np, stillroom as sr
    >>> slot = sr.boxes.BoxSlot(center_m=(0.15, 0.06), size_m=(0.1, 5e-3))
    >>> bench = sr.BenchBox((0.3, 0.12, 0.3), [slot], wall_thickness_m=1.5e-3)
    >>> f = np.linspace(690e6, 710e6, 201)
    >>> bool(bench.electric_shielding_db(f, at_m=(0.15, 0.06, 0.15)).min() < 0)
    True
    """
    def __copy__(self, /) -> BenchBox: ...
    def __deepcopy__(self, /, memo: Any) -> BenchBox: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        interior_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        openings: SupportsGetItem[int, BoxSlot | BoxHole],
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
        walls: Material | None = None,
        contents_quality_factor: SupportsFloat | SupportsIndex | None = None,
    ) -> BenchBox: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def contents_quality_factor(self, /) -> float | None:
        """
        Quality factor of what is in the box, or None.
        """
    def electric_shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        at_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        polarization: str = "y",
        travel: str = "+z",
    ) -> float | NDArray[float64]:
        """
        Shielding of the electric field at a point, dB; negative where it is above the incident one.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        at_m : tuple[float, float, float]
            The point, m, within the box.
        polarization : {"y", "x", "z"}
            Axis of the incident electric field.
        travel : {"+z", "+x", "-x", "+y", "-y"}
            Where the wave goes: straight on the front, or along it with polarization "z".

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, outside the domain.
        """
    def field(
        self,
        /,
        frequency_hz: ArrayLike,
        at_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        component: str,
        polarization: str = "y",
        travel: str = "+z",
    ) -> complex | NDArray[complex128]:
        """
        One component of the field at a point, over the incident field of its kind.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        at_m : tuple[float, float, float]
            The point, m, within the box.
        component : {"ex", "ey", "ez", "hx", "hy", "hz"}
            Electric or magnetic, and its axis.
        polarization : {"y", "x", "z"}
            Axis of the incident electric field.
        travel : {"+z", "+x", "-x", "+y", "-y"}
            Where the wave goes: straight on the front, or along it with polarization "z".

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`; the incident wave has phase zero at the origin, a corner of the front.
        """
    @property
    def interior_m(self, /) -> tuple[float, float, float]:
        """
        Width, height and depth inside, m.
        """
    def limits(self, /, frequency_hz: SupportsFloat | SupportsIndex) -> list[str]:
        """
        Limits of the model that are passed at a frequency, in words; empty inside its domain.

        Parameters
        ----------
        frequency_hz : float
            Frequency, Hz.
        """
    def magnetic_shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        at_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        polarization: str = "y",
        travel: str = "+z",
    ) -> float | NDArray[float64]:
        """
        Shielding of the magnetic field at a point, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        at_m : tuple[float, float, float]
            The point, m, within the box.
        polarization : {"y", "x", "z"}
            Axis of the incident electric field.
        travel : {"+z", "+x", "-x", "+y", "-y"}
            Where the wave goes: straight on the front, or along it with polarization "z".

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def openings(self, /) -> list[BoxSlot | BoxHole]:
        """
        Openings in the front.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> BenchBox:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def resonance_hz(self, /, half_waves: SupportsLenAndGetItem[SupportsIndex]) -> float:
        """
        Resonance of the closed box without loss, Hz.

        Parameters
        ----------
        half_waves : tuple[int, int, int]
            Half-waves along width, height and depth.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the front, m.
        """
    @property
    def walls(self, /) -> Material:
        """
        What the walls are made of.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> BenchBox:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> BenchBox:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class BetweenLines:
    """
    A part between two lines.

    Parameters
    ----------
    part : Inductor, Capacitor, Resistor or FerriteBead
        The part.
    first : int, default 0
        One line, counted from zero.
    second : int, default 1
        The other.
    """
    def __copy__(self, /) -> BetweenLines: ...
    def __deepcopy__(self, /, memo: Any) -> BetweenLines: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        part: Inductor | Capacitor | Resistor | FerriteBead,
        first: SupportsIndex = 0,
        second: SupportsIndex = 1,
    ) -> BetweenLines: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def first(self, /) -> int:
        """
        One line.
        """
    @property
    def part(self, /) -> Inductor | Capacitor | Resistor | FerriteBead:
        """
        The part.
        """
    def replace(self, /, **changes: "object") -> BetweenLines:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def second(self, /) -> int:
        """
        The other.
        """

@final
class BondedShield:
    """
    The shield of a cable, bonded to the tube all around; the cable's core ends unshielded inside.

    Parameters
    ----------
    transfer_ohm_per_m : float
        Transfer impedance of the braid at low frequency, ohm/m.
    transfer_h_per_m : float
        Mutual inductance of the braid, H/m.
    core_ohm : float, default 50
        Characteristic impedance of the cable, ohm.
    """
    def __copy__(self, /) -> BondedShield: ...
    def __deepcopy__(self, /, memo: Any) -> BondedShield: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        transfer_ohm_per_m: SupportsFloat | SupportsIndex,
        transfer_h_per_m: SupportsFloat | SupportsIndex,
        core_ohm: SupportsFloat | SupportsIndex = 50.0,
    ) -> BondedShield: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def core_ohm(self, /) -> float:
        """
        Characteristic impedance of the cable, ohm.
        """
    def replace(self, /, **changes: "object") -> BondedShield:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def transfer_h_per_m(self, /) -> float:
        """
        Mutual inductance of the braid, H/m.
        """
    @property
    def transfer_ohm_per_m(self, /) -> float:
        """
        Transfer impedance of the braid at low frequency, ohm/m.
        """

@final
class BoxHole:
    """
    A round hole in the front of a box.

    Parameters
    ----------
    center_m : tuple[float, float]
        Its centre along width and height, from the corner of the inner wall, m.
    diameter_m : float
        Diameter, m, positive.
    """
    def __copy__(self, /) -> BoxHole: ...
    def __deepcopy__(self, /, memo: Any) -> BoxHole: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        center_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        diameter_m: SupportsFloat | SupportsIndex,
    ) -> BoxHole: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def center_m(self, /) -> tuple[float, float]:
        """
        Its centre along width and height, m.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m.
        """
    def replace(self, /, **changes: "object") -> BoxHole:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class BoxSlot:
    """
    A slot or rectangular hole in the front of a box.

    Parameters
    ----------
    center_m : tuple[float, float]
        Its centre along width and height, from the corner of the inner wall, m.
    size_m : tuple[float, float]
        Its sizes along width and height, m, positive.
    """
    def __copy__(self, /) -> BoxSlot: ...
    def __deepcopy__(self, /, memo: Any) -> BoxSlot: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        center_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        size_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
    ) -> BoxSlot: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def center_m(self, /) -> tuple[float, float]:
        """
        Its centre along width and height, m.
        """
    def replace(self, /, **changes: "object") -> BoxSlot:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def size_m(self, /) -> tuple[float, float]:
        """
        Its sizes along width and height, m.
        """

@final
class BraidTable:
    """
    The measured transfer impedance of a cable's braid, joined in log frequency and held beyond both ends.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies, Hz, positive and increasing, at least two.
    transfer_impedance_ohm_per_m : sequence of float
        Moduli at these, ohm/m, positive.
    phase_deg : sequence of float, optional
        Phases at these, degrees, -90 to 90. Where not given the phase follows from the slope of the modulus.
    scale_db : float, default 0
        What is added to the table, dB of impedance: a knob for tolerances.

    Examples
    --------
    >>> import stillroom as sr
    >>> braid = sr.tubes.BraidTable.from_csv("frequency_hz,transfer_impedance_ohm_per_m\\n1e5,0.02\\n1e7,0.02\\n1e9,2\\n")
    >>> round(abs(braid.transfer_impedance(1e8)), 6)
    0.2
    """
    def __copy__(self, /) -> BraidTable: ...
    def __deepcopy__(self, /, memo: Any) -> BraidTable: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        transfer_impedance_ohm_per_m: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        phase_deg: SupportsGetItem[int, SupportsFloat | SupportsIndex] | None = None,
        scale_db: SupportsFloat | SupportsIndex = 0.0,
    ) -> BraidTable: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, Hz.
        """
    @staticmethod
    def from_csv(text: str | PathLike[str]) -> BraidTable:
        """
        A table from text.

        Parameters
        ----------
        text : str or pathlib.Path
            Lines with commas, semicolons or tabs between the fields, the same in all, and a heading with `frequency_hz`,
            `transfer_impedance_ohm_per_m` and perhaps `phase_deg`; without a heading the first two columns. Lines that
            start with # are comments.

        Raises
        ------
        FormatError
            With the line that is at fault.
        """
    @property
    def phase_deg(self, /) -> list[float] | None:
        """
        Phases at these, degrees, or None.
        """
    def replace(self, /, **changes: "object") -> BraidTable:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def scale_db(self, /) -> float:
        """
        What is added to the table, dB.
        """
    def to_csv(self, /) -> str:
        """
        The table as text, without the scale.
        """
    def transfer_impedance(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Transfer impedance per length, ohm/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def transfer_impedance_ohm_per_m(self, /) -> list[float]:
        """
        Moduli at these, ohm/m.
        """

@final
class Capacitor:
    """
    A two-terminal capacitor with its parasitics.

    Z = 1/(s C (1 - j tan d)) + R + s L. A surge arrester below its striking voltage is a capacitor of its
    off-state capacitance; a damping resistor in series counts into R.

    Parameters
    ----------
    capacitance_f : float
        Capacitance, F; from 1e-30 to 1e30.
    series_resistance_ohm : float, default 0
        Equivalent series resistance, ohm; from 0 to 1e30.
    series_inductance_h : float, default 0
        Equivalent series inductance, leads included, H; from 0 to 1e30.
    loss_tangent : float, default 0
        Of the dielectric, constant in frequency; from 0 to 1e30.

    Raises
    ------
    OutOfRangeError
        For a value outside its domain, by name.
    """
    def __copy__(self, /) -> Capacitor: ...
    def __deepcopy__(self, /, memo: Any) -> Capacitor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        capacitance_f: SupportsFloat | SupportsIndex,
        *,
        series_resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        series_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
    ) -> Capacitor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def capacitance_f(self, /) -> float:
        """
        Capacitance, F; from 1e-30 to 1e30.
        """
    def impedance_ohm(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Impedance, ohm.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Of the dielectric, constant in frequency; from 0 to 1e30.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Capacitor:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def self_resonance_hz(self, /) -> float:
        """
        Frequency at which the capacitor turns inductive, Hz; infinite without inductance.
        """
    @property
    def series_inductance_h(self, /) -> float:
        """
        Equivalent series inductance, leads included, H; from 0 to 1e30.
        """
    @property
    def series_resistance_ohm(self, /) -> float:
        """
        Equivalent series resistance, ohm; from 0 to 1e30.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Capacitor:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Capacitor:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class CircularGuide:
    """
    A round guide.

    Parameters
    ----------
    diameter_m : float
        Inner diameter, m.
    relative_permittivity : float, default 1
        Of the filling, at least 1.
    loss_tangent : float, default 0
        Of the filling.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.

    Notes
    -----
    Cutoff 1.841184/radius. D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.4.

    Examples
    --------
    >>> import stillroom as sr
    >>> tube = sr.tubes.CircularGuide(6e-3)
    >>> round(tube.cutoff_hz / 1e9, 1)
    29.3
    """
    def __copy__(self, /) -> CircularGuide: ...
    def __deepcopy__(self, /, memo: Any) -> CircularGuide: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        diameter_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex = 1.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> CircularGuide: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def attenuation_db_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> float | NDArray[float64]:
        """
        Attenuation of a mode, dB/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the dominant mode, Hz.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Inner diameter, m.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the filling.
        """
    def mode(self, /, name: str) -> Mode:
        """
        One mode by its name.

        Parameters
        ----------
        name : str
            "TE11" or "TM0,12": azimuthal and radial order in a circle, half-waves along width and height of a rectangle,
            up to 500; in a hexagon family and place, "TE 1" to "TE 23" and "TM 1" to "TM 20".

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    def modes(self, /, count: SupportsIndex) -> list[Mode]:
        """
        The lowest modes by rising cutoff.

        Parameters
        ----------
        count : int
            How many at most; 43 entries are known of the hexagon, any number of the others.

        Returns
        -------
        list of Mode
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def propagation_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of a mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Finite through cutoff, where the wall's share is
            of first order in the square of gamma.

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
        """
    def replace(self, /, **changes: "object") -> CircularGuide:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> CircularGuide:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> CircularGuide:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class CircularHole(Leak):
    """
    A round hole in a wall of any thickness.

    Parameters
    ----------
    diameter_m : float
        Diameter, m; positive and finite.
    wall_thickness_m : float, default 0
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.

    Notes
    -----
    A small thin hole passes 16 k^4 a^6/(9 pi) (D. A. Hill et al., IEEE Trans. EMC 36 (1994) 169, from
    memory), a large one half its area, averaged over angle and polarization; in between a few modes
    are modelled one by one. Within 0.35 dB of mode matching for k a <= 2 and 1.0 dB for k a <= 10, in
    walls up to 1.2 radii thick. The wall is a perfect conductor.

    Examples
    --------
    >>> import stillroom as sr
    >>> hole = sr.CircularHole(diameter_m=10e-3, wall_thickness_m=1e-3)
    >>> round(hole.cross_section_db(1e9), 1)
    -91.8
    """
    def __copy__(self, /) -> CircularHole: ...
    def __deepcopy__(self, /, memo: Any) -> CircularHole: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        diameter_m: SupportsFloat | SupportsIndex,
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> CircularHole: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> CircularHole:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.
        """

@final
class ClosedShell:
    """
    A closed shell in a uniform low-frequency magnetic field.

    Parameters
    ----------
    shape : {"sphere", "cylinder across", "cylinder along"}
        Shape, and direction of the field to the axis of a long cylinder.
    inner_radius_m : float
        Radius of the space inside, m.
    layers : sequence of (Material, float)
        Material and thickness in m of each layer, from inside out.

    Notes
    -----
    Exact eddy currents and permeability in the layers, quasi-static field in the air. H. Kaden,
    *Wirbelströme und Schirmung in der Nachrichtentechnik*, 2nd ed., 1959, and J. D. Jackson,
    *Classical Electrodynamics*, sec. 5.12, are its limits (from memory).
    """
    def __copy__(self, /) -> ClosedShell: ...
    def __deepcopy__(self, /, memo: Any) -> ClosedShell: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        shape: str,
        inner_radius_m: SupportsFloat | SupportsIndex,
        layers: SupportsGetItem[
            int, tuple[Material, SupportsFloat | SupportsIndex] | Film | WireMesh | PerforatedSheet | Fabric
        ],
    ) -> ClosedShell: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def inner_radius_m(self, /) -> float:
        """
        Radius of the space inside, m.
        """
    @property
    def layers(self, /) -> list[tuple[Material, float] | Film | WireMesh | PerforatedSheet | Fabric]:
        """
        Material and thickness of each layer, from inside out.
        """
    @property
    def outer_radius_m(self, /) -> float:
        """
        Outer radius, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> ClosedShell:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def shape(self, /) -> str:
        """
        Shape and direction of the field.
        """
    def shielding_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Shielding effectiveness in a uniform field, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, where the shell is not small against the wavelength.
        """
    @property
    def static_shielding_factor(self, /) -> float:
        """
        Field without the shell over the field inside, for a static field.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> ClosedShell:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> ClosedShell:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class CoaxialGuide:
    """
    The space between two coaxial conducting circles: a tube with a wire in its middle.

    Parameters
    ----------
    inner_m, outer_m : float
        Diameters, m; the inner one is the smaller.
    relative_permittivity : float, default 1
        Of the filling, at least 1.
    loss_tangent : float, default 0
        Of the filling.
    wall_conductivity_s_per_m : float, optional
        Conductivity of both conductors, S/m; perfect ones where not given.

    Notes
    -----
    TEM without cutoff, TE and TM. N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 2.4 (from memory). TEM loses in both conductors at any
    depth of the skin, by the internal impedances of a solid wire and of an outer conductor that is thick against the skin; TE and TM
    as in a thin skin, and a warning is issued where it is none.

    Examples
    --------
    >>> import stillroom as sr
    >>> [mode.name for mode in sr.tubes.CoaxialGuide(3.04e-3, 7e-3).modes(3)]
    ['TEM', 'TE11', 'TE21']
    """
    def __copy__(self, /) -> CoaxialGuide: ...
    def __deepcopy__(self, /, memo: Any) -> CoaxialGuide: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        inner_m: SupportsFloat | SupportsIndex,
        outer_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex = 1.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> CoaxialGuide: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def attenuation_db_per_m(self, /, frequency_hz: ArrayLike, mode: str = "TEM") -> float | NDArray[float64]:
        """
        Attenuation of a mode, dB/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, default "TEM"
            Its name, as for `mode`.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def impedance_ohm(self, /) -> float:
        """
        Characteristic impedance of the TEM mode, ohm.
        """
    @property
    def inner_m(self, /) -> float:
        """
        Diameter of the inner conductor, m.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the filling.
        """
    def mode(self, /, name: str) -> Mode:
        """
        One mode by its name.

        Parameters
        ----------
        name : str
            "TEM", "TE11", "TM0,12": azimuthal and radial order, up to 100.

        Raises
        ------
        UnknownNameError
            If there is no such mode.
        """
    def modes(self, /, count: SupportsIndex) -> list[Mode]:
        """
        The lowest modes by rising cutoff, TEM first.

        Parameters
        ----------
        count : int
            How many, at most 60.

        Returns
        -------
        list of Mode
        """
    @property
    def outer_m(self, /) -> float:
        """
        Inner diameter of the outer conductor, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def propagation_per_m(
        self, /, frequency_hz: ArrayLike, mode: str = "TEM"
    ) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of a mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, default "TEM"
            Its name, as for `mode`.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta. Finite through cutoff.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
        """
    def replace(self, /, **changes: "object") -> CoaxialGuide:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of both conductors, S/m, or None for perfect ones.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> CoaxialGuide:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> CoaxialGuide:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class CommonModeChoke:
    """
    A current-compensated choke: one winding for each line on a common core.

    With n lines, common mode meets (1 + (n - 1) k) L/n, two lines in differential mode 2 (1 - k) L.

    Parameters
    ----------
    inductance_h : float
        Self-inductance of each winding, H, positive.
    coupling : float
        Coupling k between windings, at least 0 and below 1; `from_leakage` takes the leakage inductance instead.
    resistance_ohm : float, default 0
        Resistance of each winding, ohm.
    parallel_capacitance_f : float, default 0
        Capacitance across each winding, F.
    relaxation_hz : float, optional
        Frequency of the one pole by which the permeability falls, Hz.
    half_current_a : float, optional
        Peak (or direct) current in all windings alike that halves the core's inductance, A. The load current, which comes back through
        the choke, counts with the share of its leakage flux, (1 - k)/(1 + (n - 1) k); a residual current fully.
    saturation_exponent : float, default 2
        Exponent of the law, as for `Inductor`.

    Raises
    ------
    OutOfRangeError, RelationError
        For a value outside its domain, by name.
    """
    def __copy__(self, /) -> CommonModeChoke: ...
    def __deepcopy__(self, /, memo: Any) -> CommonModeChoke: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        inductance_h: SupportsFloat | SupportsIndex,
        coupling: SupportsFloat | SupportsIndex,
        *,
        resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        parallel_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
        relaxation_hz: SupportsFloat | SupportsIndex | None = None,
        half_current_a: SupportsFloat | SupportsIndex | None = None,
        saturation_exponent: SupportsFloat | SupportsIndex = 2.0,
    ) -> CommonModeChoke: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def coupling(self, /) -> float:
        """
        Coupling between windings.
        """
    @staticmethod
    def from_leakage(
        inductance_h: SupportsFloat | SupportsIndex,
        leakage_h: SupportsFloat | SupportsIndex,
        *,
        resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        parallel_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
        relaxation_hz: SupportsFloat | SupportsIndex | None = None,
        half_current_a: SupportsFloat | SupportsIndex | None = None,
        saturation_exponent: SupportsFloat | SupportsIndex = 2.0,
    ) -> CommonModeChoke:
        """
        From the leakage inductance of two windings in series, as a meter reads it with the other ends joined.

        Parameters
        ----------
        inductance_h : float
            Self-inductance of each winding, H.
        leakage_h : float
            Leakage inductance of a pair of lines, H, at most twice the inductance.
        resistance_ohm, parallel_capacitance_f, relaxation_hz, half_current_a, saturation_exponent
            As for the class.
        """
    @property
    def half_current_a(self, /) -> float | None:
        """
        Current in all windings alike that halves the core's inductance, A, or None.
        """
    @property
    def inductance_h(self, /) -> float:
        """
        Self-inductance of each winding, H.
        """
    @property
    def leakage_h(self, /) -> float:
        """
        Leakage inductance of two lines in series, H.
        """
    def magnetising_peak_a(
        self,
        /,
        lines: SupportsIndex,
        load_peak_a: SupportsFloat | SupportsIndex,
        residual_peak_a: SupportsFloat | SupportsIndex = 0.0,
    ) -> float:
        """
        Peak current in all windings alike that would magnetise the core as stated peak currents do, A.

        Parameters
        ----------
        lines : int
            Number of windings.
        load_peak_a : float
            Peak of the current out in one winding and back in others, A.
        residual_peak_a : float, default 0
            Peak of the current in all windings alike, A.
        """
    @property
    def parallel_capacitance_f(self, /) -> float:
        """
        Capacitance across each winding, F.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def relaxation_hz(self, /) -> float | None:
        """
        Relaxation frequency of the permeability, Hz, or None.
        """
    def replace(self, /, **changes: "object") -> CommonModeChoke:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> float:
        """
        Resistance of each winding, ohm.
        """
    @property
    def saturation_exponent(self, /) -> float:
        """
        Exponent of the law of saturation.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> CommonModeChoke:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> CommonModeChoke:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Conductor:
    """
    A wire on one side of the wall.

    Parameters
    ----------
    length_m : float
        Length, m.
    termination : complex, LineNetwork or Wire, default 50
        What the filter sees of it.
    height_m : float, optional
        Height above the wall or the ground that it runs along, m; not for a `Wire`, which stands off the wall. Where
        not given, the conductor counts as a straight wire of its length that stands off, which is the more cautious.

    Notes
    -----
    Radiation resistance of a straight wire 40 tan^2(k l/2) ohm, which bounds its 10 (k l)^2 ohm when short and 36.5 ohm at
    the quarter wave; from k l = 1 on raised, so that by 2.2 all of a matched antenna's power is counted. Of a line along a
    plane 120 (k h)^2 (1 - sin(2 k l)/(2 k l)) ohm terminated (after J. E. Storer and R. King, *Radiation resistance of a
    two-wire line*, 1951), and 1/(2 sin^2 k l) times as much open at its far end (40 (k h)^2 ohm when short). The far end is
    not asked: up to an eighth of a wavelength it counts as open, beyond as terminated, whichever is the greater. That is a
    bound for both up to k l = 2, and an estimate for others: a line in resonance passes more, a matched antenna's power
    at most. Valid up to a height of a tenth of a wavelength.
    """
    def __copy__(self, /) -> Conductor: ...
    def __deepcopy__(self, /, memo: Any) -> Conductor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        termination: LineNetwork | Wire | complex = ...,
        height_m: SupportsFloat | SupportsIndex | None = None,
    ) -> Conductor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def height_m(self, /) -> float | None:
        """
        Height above the plane that it runs along, m, or None.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Conductor:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def termination(self, /) -> LineNetwork | Wire | complex:
        """
        What the filter sees of it.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Conductor:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Conductor:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class ContactLine(Leak):
    """
    The contact line around a door: rows of spring fingers across a gap.

    Parameters
    ----------
    length_m : float
        Length of the line, m; positive and finite.
    finger_pitch_m : float
        Distance between fingers, m; positive and finite.
    gap_m : float
        Gap that the fingers bridge, m; positive and finite, at most `length_m`, below the free
        height.
    row_count : int, default 2
        Number of rows, one behind the other; a whole number from 1 to 16.
    row_spacing_m : float, default 0.012
        Distance between rows, m; zero or positive, and finite.
    slot_width_m : float, optional
        Slot between two fingers, m; positive and finite, less than `finger_pitch_m`. Where not
        given, what a contact of 2 mm (at most of half the pitch; common practice, no source)
        leaves; slots are mostly narrower.
    finger_thickness_m : float, default 0
        Thickness of the sheet, m; zero or positive, and finite. A deeper slot passes less.
    finger_run_m : float, default 0
        How far a finger runs along the depth of the joint from its root to its contact, m; zero or
        positive, and finite. Zero for one that stands straight across the gap; the slot is as much
        longer.
    finger_resistance_ohm : float, default 0.005
        Resistance of one finger at its working height, ohm; zero or positive, and finite.
    finger_inductance_h : float, default 0
        What a contact that is narrower than its finger adds, H; from 0 to 1. The same at every gap;
        zero for a contact over the whole width.
    free_height_m : float, optional
        Height without a counter-face, m; positive and finite, above gap and working height. The gap
        must be smaller. Where neither height is given, a line takes its fingers as pressed to half
        of their free height; where the other one is, twice that.
    working_height_m : float, optional
        Height for which the resistance is told, m; positive and finite, below the free height. Half
        of the free height where only that is given; in a contact line, its gap.
    force_exponent : float, default 1
        Power of the inverse of the force that the resistance follows; from 0 to 1. The force is in
        proportion to free height less gap: 1 through a film, cautious where a gap opens; 1/2
        (plastic) and 1/3 (elastic) for clean contacts; 0 for a resistance that stays.
    faces : Material, optional
        What the faces are made of. Tin where not given.

    Notes
    -----
    Each row is a transfer impedance per length that follows from its dimensions (`FingerRow` has the equation);
    rows follow each other as shunts on a line, and resonate where their distance is half a wavelength. Above half a
    wavelength of pitch waves along the joint leave in a second direction, outside the domain. Finger
    values are of the usual size (common practice, no source): wear, dirt and pressure change the resistance by orders
    of magnitude.

    A wider gap takes force from the fingers and makes the way across longer, which is worse; it also makes the space
    between the rows larger, which is better. Contacts of fixed resistance and inductance (`force_exponent=0` and all
    of the inductance in `finger_inductance_h`) leave the second alone: two rows then read 21 to 24 dB better at
    4 mm than at 0.25 mm, which no spring finger does. `KnifeEdge` keeps the two apart.

    Examples
    --------
    >>> import stillroom as sr
    >>> door = sr.ContactLine(length_m=6.0, finger_pitch_m=5e-3, gap_m=0.5e-3)
    >>> door.with_parameter("row_count", 1).cross_section_db(1e9) > door.cross_section_db(1e9) + 10
    True
    """
    def __copy__(self, /) -> ContactLine: ...
    def __deepcopy__(self, /, memo: Any) -> ContactLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        finger_pitch_m: SupportsFloat | SupportsIndex,
        gap_m: SupportsFloat | SupportsIndex,
        row_count: SupportsIndex = 2,
        row_spacing_m: SupportsFloat | SupportsIndex = 0.012,
        slot_width_m: SupportsFloat | SupportsIndex | None = None,
        finger_thickness_m: SupportsFloat | SupportsIndex = 0.0,
        finger_run_m: SupportsFloat | SupportsIndex = 0.0,
        finger_resistance_ohm: SupportsFloat | SupportsIndex = 0.005,
        finger_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        free_height_m: SupportsFloat | SupportsIndex | None = None,
        working_height_m: SupportsFloat | SupportsIndex | None = None,
        force_exponent: SupportsFloat | SupportsIndex = 1.0,
        faces: Material | None = None,
    ) -> ContactLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def faces(self, /) -> Material:
        """
        What the faces are made of. Tin where not given.
        """
    @property
    def finger_inductance_h(self, /) -> float:
        """
        What a contact that is narrower than its finger adds, H; from 0 to 1. The same at every gap; zero for a contact over the whole width.
        """
    @property
    def finger_pitch_m(self, /) -> float:
        """
        Distance between fingers, m; positive and finite.
        """
    @property
    def finger_resistance_ohm(self, /) -> float:
        """
        Resistance of one finger at its working height, ohm; zero or positive, and finite.
        """
    @property
    def finger_run_m(self, /) -> float:
        """
        How far a finger runs along the depth of the joint from its root to its contact, m; zero or positive, and finite. Zero for one that stands straight across the gap; the slot is as much longer.
        """
    @property
    def finger_thickness_m(self, /) -> float:
        """
        Thickness of the sheet, m; zero or positive, and finite. A deeper slot passes less.
        """
    @property
    def force_exponent(self, /) -> float:
        """
        Power of the inverse of the force that the resistance follows; from 0 to 1. The force is in proportion to free height less gap: 1 through a film, cautious where a gap opens; 1/2 (plastic) and 1/3 (elastic) for clean contacts; 0 for a resistance that stays.
        """
    @property
    def free_height_m(self, /) -> float | None:
        """
        Height without a counter-face, m; positive and finite, above gap and working height. The gap must be smaller. Where neither height is given, a line takes its fingers as pressed to half of their free height; where the other one is, twice that.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap that the fingers bridge, m; positive and finite, at most `length_m`, below the free height.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length of the line, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> ContactLine:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def row_count(self, /) -> int:
        """
        Number of rows, one behind the other; a whole number from 1 to 16.
        """
    @property
    def row_spacing_m(self, /) -> float:
        """
        Distance between rows, m; zero or positive, and finite.
        """
    @property
    def slot_width_m(self, /) -> float:
        """
        Slot between two fingers, m; positive and finite, less than `finger_pitch_m`. Where not given, what a contact of 2 mm (at most of half the pitch; common practice, no source) leaves; slots are mostly narrower.
        """
    def transfer_impedance_ohm_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Transfer impedance of one row times length, ohm m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def working_height_m(self, /) -> float | None:
        """
        Height for which the resistance is told, m; positive and finite, below the free height. Half of the free height where only that is given; in a contact line, its gap.
        """

@final
class ContactsBeside:
    """
    Contacts side by side at the same depth of a gap: their admittances add.

    Parameters
    ----------
    parts : sequence of TransferImpedance
        What stands side by side: at least one gasket, table, row of fingers or several beside each
        other.
    """
    def __copy__(self, /) -> ContactsBeside: ...
    def __deepcopy__(self, /, memo: Any) -> ContactsBeside: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, parts: SupportsGetItem[int, Gasket | ImpedanceTable | FingerRow | ContactsBeside]
    ) -> ContactsBeside: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def impedance_ohm_m(
        self, /, frequency_hz: ArrayLike, gap_m: SupportsFloat | SupportsIndex
    ) -> complex | NDArray[complex128]:
        """
        Transfer impedance times length, ohm m, in a gap.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        gap_m : float
            Gap that is bridged, m, positive, below the free height of fingers.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, for a pitch of fingers above half a wavelength, or outside a table.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def parts(self, /) -> list[Gasket | ImpedanceTable | FingerRow | ContactsBeside]:
        """
        What stands side by side: at least one gasket, table, row of fingers or several beside each other.
        """
    def replace(self, /, **changes: "object") -> ContactsBeside:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> ContactsBeside:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> ContactsBeside:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class CrossSlot(Leak):
    """
    A cross of two equal slots at right angles, in a wall of any thickness.

    Parameters
    ----------
    length_m : float
        Length, the longer side, m; positive and finite.
    width_m : float
        Width, the shorter side, m; positive and finite, at most `length_m`.
    wall_thickness_m : float, default 0
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.

    Notes
    -----
    Resonates for either direction of the electric field. As wide as long it is a square. Warned of beyond
    a length of 0.8 wavelengths, where the slots act on each other's higher modes. The wall is a perfect
    conductor.

    Examples
    --------
    >>> import stillroom as sr
    >>> cross = sr.apertures.CrossSlot(length_m=40e-3, width_m=5e-3)
    >>> # One slot answers to one direction of the field, a cross to both.
    >>> two = cross.cross_section_m2(1e8) / sr.RectangularSlot(40e-3, 5e-3).cross_section_m2(1e8)
    >>> round(two, 1)
    2.1
    """
    def __copy__(self, /) -> CrossSlot: ...
    def __deepcopy__(self, /, memo: Any) -> CrossSlot: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        width_m: SupportsFloat | SupportsIndex,
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> CrossSlot: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, the longer side, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> CrossSlot:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.
        """
    @property
    def width_m(self, /) -> float:
        """
        Width, the shorter side, m; positive and finite, at most `length_m`.
        """

@final
class DesignLimits:
    """
    What a filter may not exceed, and what its parts are like.

    Parameters
    ----------
    shunt_total_f : float, optional
        All capacitance to the case together, F.
    series_total_h : float, optional
        All inductance in one line together, H.
    coil_energy_j : float, optional
        L I^2/2 of a single coil at the load current's peak, J.
    coil_heat_w : float, optional
        I^2 R of the load current's effective value in a single coil, W.
    least_remaining : float, default 0
        Least part of its inductance that each coil must keep at the load current's peak, 0 to below 1.
    load_current_rms_a : float, default 0
        Load current, effective value, A.
    crest_factor : float, optional
        Peak over effective value, one or more: the square root of two (a sine) where not given, 1 for direct current,
        2 to 3 for rectifiers.
    most_parts : int, default 7
        Number of parts, 1 to 15.
    coil_series, capacitor_series : PreferredSeries, default E6
        Values that parts come in.
    coil_resistance_ohm_per_h, coil_capacitance_f : float, default 0
        Winding resistance for each henry, and winding capacitance, of each coil.
    coil_half_energy_j : float, optional
        Stored energy L I^2/2 (I a peak or direct current) at which a coil has lost half of its inductance, J: what its core
        holds. Candidates are judged with the inductance that is left at the load current's peak.
    coil_saturation_exponent : float, default 2
        Exponent of the law of saturation, as for `Inductor`.
    capacitor_resistance_ohm, capacitor_inductance_h : float, default 0
        Equivalent series resistance and inductance of each capacitor.
    """
    def __copy__(self, /) -> DesignLimits: ...
    def __deepcopy__(self, /, memo: Any) -> DesignLimits: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        shunt_total_f: SupportsFloat | SupportsIndex | None = None,
        series_total_h: SupportsFloat | SupportsIndex | None = None,
        coil_energy_j: SupportsFloat | SupportsIndex | None = None,
        coil_heat_w: SupportsFloat | SupportsIndex | None = None,
        least_remaining: SupportsFloat | SupportsIndex = 0.0,
        load_current_rms_a: SupportsFloat | SupportsIndex = 0.0,
        crest_factor: SupportsFloat | SupportsIndex | None = None,
        most_parts: SupportsIndex = 7,
        coil_series: PreferredSeries = ...,
        capacitor_series: PreferredSeries = ...,
        coil_resistance_ohm_per_h: SupportsFloat | SupportsIndex = 0.0,
        coil_half_energy_j: SupportsFloat | SupportsIndex | None = None,
        coil_saturation_exponent: SupportsFloat | SupportsIndex = 2.0,
        coil_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
        capacitor_resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        capacitor_inductance_h: SupportsFloat | SupportsIndex = 0.0,
    ) -> DesignLimits: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def capacitor_inductance_h(self, /) -> float:
        """
        Equivalent series inductance of each capacitor, H.
        """
    @property
    def capacitor_resistance_ohm(self, /) -> float:
        """
        Equivalent series resistance of each capacitor, ohm.
        """
    @property
    def capacitor_series(self, /) -> PreferredSeries:
        """
        Values that capacitors come in.
        """
    @property
    def coil_capacitance_f(self, /) -> float:
        """
        Winding capacitance of each coil, F.
        """
    @property
    def coil_energy_j(self, /) -> float | None:
        """
        L I^2/2 of a single coil at the load current's peak, J, or None.
        """
    @property
    def coil_half_energy_j(self, /) -> float | None:
        """
        Stored energy at which a coil has lost half of its inductance, J, or None.
        """
    @property
    def coil_heat_w(self, /) -> float | None:
        """
        I^2 R of the load current in a single coil, W, or None.
        """
    @property
    def coil_resistance_ohm_per_h(self, /) -> float:
        """
        Winding resistance for each henry, ohm/H.
        """
    @property
    def coil_saturation_exponent(self, /) -> float:
        """
        Exponent of the law of saturation.
        """
    @property
    def coil_series(self, /) -> PreferredSeries:
        """
        Values that coils come in.
        """
    @property
    def crest_factor(self, /) -> float:
        """
        Peak of the load current over its effective value.
        """
    @staticmethod
    def for_mains(
        supply: MainsSupply,
        load_current_rms_a: SupportsFloat | SupportsIndex,
        earth_leakage_a: SupportsFloat | SupportsIndex,
        volt_drop_fraction: SupportsFloat | SupportsIndex,
    ) -> DesignLimits:
        """
        Limits of a mains filter: capacitance from an earth-leakage current at the supply's highest voltage, inductance of
        one line from a volt drop at its nominal one.

        Where the current comes back through the neutral, whose line holds the same coils, a line gets half of the drop;
        with three phases without neutral, and for a line against earth, all of it.

        Parameters
        ----------
        supply : MainsSupply
            The supply.
        load_current_rms_a : float
            Load current, effective value, A.
        earth_leakage_a : float
            Allowed earth-leakage current of one line, A: from the code that applies.
        volt_drop_fraction : float
            Allowed volt drop as a fraction.
        """
    @property
    def least_remaining(self, /) -> float:
        """
        Least part of its inductance that each coil must keep at load current.
        """
    @property
    def load_current_rms_a(self, /) -> float:
        """
        Load current, effective value, A.
        """
    @property
    def most_parts(self, /) -> int:
        """
        Number of parts.
        """
    def replace(self, /, **changes: "object") -> DesignLimits:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def series_total_h(self, /) -> float | None:
        """
        All inductance in the line together, H, or None.
        """
    @property
    def shunt_total_f(self, /) -> float | None:
        """
        All capacitance to the case together, F, or None.
        """

@final
class Discharge:
    """
    What one way of switching off leaves between lines and the case, or between lines; each number is the worst of its own
    over order, instants, tolerances and pairs.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def between(self, /) -> tuple[str, str]:
        """
        Between what: the pair that is longest above the safe voltage; of pairs that stay above, the one that keeps most.
        """
    @property
    def first_v(self, /) -> float:
        """
        Voltage as the last pole opens, V.
        """
    @property
    def left_j(self, /) -> float:
        """
        Energy that the whole filter keeps for ever, J.
        """
    @property
    def left_v(self, /) -> float:
        """
        Voltage left for ever, V.
        """
    @property
    def never(self, /) -> bool:
        """
        Whether it never falls to the safe voltage.
        """
    @property
    def switching_off(self, /) -> str:
        """
        How the supply is switched off: "at_once" (all poles), "pole_by_pole" (the load off before), "pole_by_pole_loaded"
        (while a load ties lines to one another).
        """
    @property
    def time_s(self, /) -> float:
        """
        Time until it is at the safe voltage for good, s; infinite if never.
        """

@final
class Door(Leak):
    """
    A door: the joints along its sides, each with a name.

    Every side lets through what it does on its own, and their cross-sections add.

    Parameters
    ----------
    sides : Sides
        The joints by name, in the order given: contact lines, gasket lines, knife edges and seams.
        At least one; names without dots.

    Notes
    -----
    The parameters of a side are `<name>.gap_m` and so on.

    Examples
    --------
    >>> import stillroom as sr
    >>> jambs = sr.ContactLine(5.1, finger_pitch_m=5e-3, gap_m=0.5e-3)
    >>> sill = sr.GasketLine(0.9, gap_m=1e-3, rows=[sr.joints.Gasket(1e-3, 1e-10)])
    >>> door = sr.Door({"jambs": jambs, "sill": sill})
    >>> door.perimeter_m
    6.0
    >>> sides = door.cross_section_db_by_side(1e9)
    >>> max(sides, key=sides.get)
    'sill'
    """
    def __copy__(self, /) -> Door: ...
    def __deepcopy__(self, /, memo: Any) -> Door: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, sides: dict[str, ContactLine | GasketLine | KnifeEdge | Seam]) -> Door: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def cross_section_db_by_side(self, /, frequency_hz: SupportsFloat | SupportsIndex) -> "dict[str, float]":
        """
        Cross-section of each side, dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz : float
            Frequency, Hz.

        Returns
        -------
        dict[str, float]
            By the names of the sides.
        """
    @property
    def perimeter_m(self, /) -> float:
        """
        Length of all joints together, m.
        """
    def replace(self, /, **changes: "object") -> Door:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sides(self, /) -> dict[str, ContactLine | GasketLine | KnifeEdge | Seam]:
        """
        The joints by name, in the order given: contact lines, gasket lines, knife edges and seams. At least one; names without dots.
        """

@final
class EarthLeakage:
    """
    Earth-leakage currents, effective values, A.

    Parameters
    ----------
    normal_a : float
        With all lines connected, A.
    cases : sequence of LeakageCase
        With lines lost, largest first: for every number of lines lost, with and without the neutral, the worst that are
        tied to others, at the mean of the others, and dead.
    """
    def __copy__(self, /) -> EarthLeakage: ...
    def __deepcopy__(self, /, memo: Any) -> EarthLeakage: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, *, normal_a: SupportsFloat | SupportsIndex, cases: SupportsGetItem[int, LeakageCase]
    ) -> EarthLeakage: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cases(self, /) -> list[LeakageCase]:
        """
        With lines lost, largest first.
        """
    @property
    def normal_a(self, /) -> float:
        """
        With all lines connected, A.
        """
    @property
    def one_line_lost_a(self, /) -> float:
        """
        The largest current with a single conductor lost, A.
        """
    def replace(self, /, **changes: "object") -> EarthLeakage:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def worst(self, /) -> LeakageCase | None:
        """
        The worst with anything lost, or None where nothing can be.
        """
    @property
    def worst_a(self, /) -> float:
        """
        The largest current, whatever is lost or nothing, A.
        """

@final
class EllipticHole(Leak):
    """
    An elliptic hole in a wall of any thickness.

    Parameters
    ----------
    length_m : float
        Length, the longer side, m; positive and finite.
    width_m : float
        Width, the shorter side, m; positive and finite, at most `length_m`.
    wall_thickness_m : float, default 0
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.

    Notes
    -----
    Exact for small and for large holes (elliptic integrals; area); between, the lowest modes of the
    ellipse as a guide, with constants between those of a slot and of a circle. The wall is a perfect
    conductor.

    Examples
    --------
    >>> import stillroom as sr
    >>> hole = sr.apertures.EllipticHole(length_m=10e-3, width_m=4e-3)
    >>> hole.cross_section_m2(1e9) < sr.RectangularSlot(10e-3, 4e-3).cross_section_m2(1e9)
    True
    """
    def __copy__(self, /) -> EllipticHole: ...
    def __deepcopy__(self, /, memo: Any) -> EllipticHole: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        width_m: SupportsFloat | SupportsIndex,
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> EllipticHole: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, the longer side, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> EllipticHole:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.
        """
    @property
    def width_m(self, /) -> float:
        """
        Width, the shorter side, m; positive and finite, at most `length_m`.
        """

@final
class Enclosure:
    """
    A shielded room or box: inner dimensions, wall and leaks.

    Parameters
    ----------
    interior_m : tuple of three floats
        Inner length, width and height, m.
    wall : Sheet
        What all six sides are made of.
    leaks : dict[str, Leak or (int, Leak)], optional
        Everything else that lets power through, by a name of your choice; with a count where there are
        several alike. Names become part of parameter paths: no dots, not ``wall`` or ``interior``.

    Raises
    ------
    OutOfRangeError
        For a dimension that is not positive and finite.
    ReservedNameError
        For a name that cannot be used.

    Examples
    --------
    >>> import stillroom as sr
    >>> room = sr.Enclosure((4.8, 3.6, 3.0), sr.Laminate([(sr.materials.steel, 0.5e-3)]))
    >>> room.with_parameter("wall.layers.0.thickness_m", 1e-3).parameter("wall.layers.0.thickness_m")
    0.001
    """
    def __copy__(self, /) -> Enclosure: ...
    def __deepcopy__(self, /, memo: Any) -> Enclosure: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        interior_m: "tuple[float, float, float]",
        wall: "Sheet",
        leaks: "dict[str, Leak | tuple[int, Leak]] | None" = None,
    ) -> Enclosure: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What a user of the results should be told about safety.
        """
    @staticmethod
    def from_json(text: str | PathLike[str]) -> Enclosure:
        """
        A room from JSON text.

        Parameters
        ----------
        text : str or pathlib.Path
            Text as `to_json` writes it, or the path of a file that holds it. Leaks stand in the order of the text.

        Raises
        ------
        FormatError
            With line and column, and with the path of the number that is wrong.

        Examples
        --------
        >>> import stillroom as sr
        >>> room = sr.Enclosure((4.8, 3.6, 3.0), sr.Laminate([(sr.materials.steel, 0.5e-3)]))
        >>> sr.Enclosure.from_json(room.to_json()) == room
        True
        """
    @property
    def interior_m(self, /) -> tuple[float, float, float]:
        """
        Inner length, width and height, m.
        """
    @property
    def leaks(self, /) -> dict[str, Leak | tuple[int, Leak]]:
        """
        The leaks by name; with a count where there are several alike.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Enclosure:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def study(
        self, /, frequency_hz: ArrayLike, exposure: AntennaTest | PlaneWave | LoopTest | RodTest
    ) -> Study:
        """
        Shielding of every leak and of the whole at each frequency.

        Parameters
        ----------
        frequency_hz : array_like
            Frequencies, Hz; flattened.
        exposure : AntennaTest or PlaneWave
            What the room is exposed to, and where it is read.

        Returns
        -------
        Study
        """
    def to_json(self, /) -> str:
        """
        The room as JSON text: every number under the names that make its path, every element with its `kind`.

        Returns
        -------
        str
            Text that `from_json` reads back as the same room, to the last bit.
        """
    @property
    def wall(self, /) -> Sheet:
        """
        What the six sides are made of.
        """
    def with_opening(self, /, name: str, leak: Leak, count: SupportsIndex = 1) -> Enclosure:
        """
        The same room with one more leak, after the others; one of the same name gives up its place to it.

        Parameters
        ----------
        name : str
            A name of your choice, as in the constructor.
        leak : Leak
            What lets power through there.
        count : int, default 1
            How many alike there are.

        Returns
        -------
        Enclosure
            Everything else stays as it is, with all that it has worked out.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Enclosure:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Enclosure:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """
    def with_wall(self, /, wall: Sheet) -> Enclosure:
        """
        The same room with another wall, of the same inner dimensions.

        Parameters
        ----------
        wall : Sheet
            What all six sides are made of.
        """
    def without(self, /, name: str) -> Enclosure:
        """
        The same room without one of its leaks.

        Parameters
        ----------
        name : str
            Its name; the wall stays.

        Raises
        ------
        UnknownNameError
            If there is no such leak.
        """

@final
class Fabric:
    """
    A woven conductive fabric, a layer of a laminate.

    Parameters
    ----------
    sheet_resistance_ohm : float
        Measured sheet resistance, ohm per square.
    yarn_pitch_m : float
        Distance of yarns, centre to centre, m.
    yarn_diameter_m : float
        Diameter of a yarn, m, smaller than the pitch.

    Notes
    -----
    The resistance with the inductance of the openings of a mesh (K. F. Casey 1988, from memory).
    Holds while the pitch is below a quarter wavelength.
    """
    def __copy__(self, /) -> Fabric: ...
    def __deepcopy__(self, /, memo: Any) -> Fabric: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        sheet_resistance_ohm: SupportsFloat | SupportsIndex,
        yarn_pitch_m: SupportsFloat | SupportsIndex,
        yarn_diameter_m: SupportsFloat | SupportsIndex,
    ) -> Fabric: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Fabric:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sheet_resistance_ohm(self, /) -> float:
        """
        Sheet resistance, ohm per square.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Fabric:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Fabric:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """
    @property
    def yarn_diameter_m(self, /) -> float:
        """
        Diameter of a yarn, m.
        """
    @property
    def yarn_pitch_m(self, /) -> float:
        """
        Distance of yarns, centre to centre, m.
        """

@final
class FeedthroughCapacitor:
    """
    A feedthrough capacitor: a conductor through the wall, and the capacitance of an electrode around its middle.

    Half of the conductor, the electrode, the other half. The electrode is a uniform line of its own inductance and of
    admittance s C (1 - j tan d) with the series resistance spread along it; without an inductance of its own (the
    default) it is a plain capacitance, and the whole a tee.

    Parameters
    ----------
    capacitance_f : float
        Capacitance, F, positive.
    conductor_inductance_h, conductor_resistance_ohm : float, default 0
        Of the conductor through it, H and ohm, both ends together: half lies on either side of the electrode.
    loss_tangent : float, default 0
        Of the dielectric, constant in frequency.
    series_resistance_ohm : float, default 0
        Equivalent series resistance of the capacitance, ohm.
    electrode_inductance_h : float, default 0
        Along the electrode, H; of a tube see `tubular_electrode_inductance_h`.
    flange_inductance_h : float, default 0
        From its outer electrode to the wall, H.
    mutual_inductance_h : float, default 0
        Between the conductor's two ends, H, at most half of its inductance. It depends on how the leads run and has no
        value from physics; with zero the loss grows without end. 10 pH is a cautious figure (common practice, no
        source): it holds the loss between 50 ohm to 52 dB at 1 GHz and 32 dB at 10 GHz where the leads are short.
    disc : tuple of three floats, optional
        Of a disc of ceramic the radii (m) between which its electrodes overlap and its permittivity: they tell up to
        where it is a capacitance.

    Notes
    -----
    Valid up to four fifths of the electrode's half-wave 1/(2 sqrt(L_e C)) where no series resistance is stated, and up
    to the first resonance across a disc, k (b - a) = 2.3.

    Raises
    ------
    OutOfRangeError
        For a capacitance that is not positive, any other value that is negative, or a permittivity below 1.
    RelationError
        For a mutual inductance above half of the conductor's, or radii in the wrong order.
    """
    def __copy__(self, /) -> FeedthroughCapacitor: ...
    def __deepcopy__(self, /, memo: Any) -> FeedthroughCapacitor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        capacitance_f: SupportsFloat | SupportsIndex,
        *,
        conductor_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        conductor_resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        series_resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        electrode_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        flange_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        mutual_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        disc: tuple[
            SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex
        ]
        | None = None,
    ) -> FeedthroughCapacitor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def capacitance_f(self, /) -> float:
        """
        Capacitance, F.
        """
    @property
    def conductor_inductance_h(self, /) -> float:
        """
        Inductance of the conductor through it, H, both ends together.
        """
    @property
    def conductor_resistance_ohm(self, /) -> float:
        """
        Resistance of the conductor through it, ohm, both ends together.
        """
    @property
    def disc(self, /) -> tuple[float, float, float] | None:
        """
        Inner and outer radius (m) and permittivity of its disc, or None.
        """
    @property
    def electrode_half_wave_hz(self, /) -> float:
        """
        Frequency at which the electrode is half a wave long, Hz; infinite without inductance along it.
        """
    @property
    def electrode_inductance_h(self, /) -> float:
        """
        Inductance along its electrode, H.
        """
    @property
    def flange_inductance_h(self, /) -> float:
        """
        Inductance from its outer electrode to the wall, H.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the dielectric.
        """
    @property
    def mutual_inductance_h(self, /) -> float:
        """
        Mutual inductance between the conductor's two ends, H.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> FeedthroughCapacitor:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def series_resistance_ohm(self, /) -> float:
        """
        Equivalent series resistance, ohm.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> FeedthroughCapacitor:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> FeedthroughCapacitor:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class FerriteBead:
    """
    A ferrite bead, sleeve or other lossy part known by a table of its impedance.

    Joined in log frequency; extended as a coil below the table, held above, with a warning.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies of the table, Hz.
    resistance_ohm : sequence of float
        Resistances, ohm.
    reactance_ohm : sequence of float
        Reactances of the table, ohm.
    scale : float, default 1
        What the table is multiplied with: turns, beads, a tolerance; from 1e-30 to 1e30.

    Raises
    ------
    OutOfRangeError, NotIncreasingError, LengthMismatchError, EmptyError
        For columns that do not fit, with the row.
    """
    def __copy__(self, /) -> FerriteBead: ...
    def __deepcopy__(self, /, memo: Any) -> FerriteBead: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        resistance_ohm: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        reactance_ohm: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        scale: SupportsFloat | SupportsIndex = 1.0,
    ) -> FerriteBead: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies of the table, Hz.
        """
    def impedance_ohm(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Impedance, ohm.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def reactance_ohm(self, /) -> list[float]:
        """
        Reactances of the table, ohm.
        """
    def replace(self, /, **changes: "object") -> FerriteBead:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> list[float]:
        """
        Resistances, ohm.
        """
    @property
    def scale(self, /) -> float:
        """
        What the table is multiplied with: turns, beads, a tolerance; from 1e-30 to 1e30.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> FerriteBead:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> FerriteBead:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Film:
    """
    A film so thin that only its sheet resistance counts.

    Parameters
    ----------
    sheet_resistance_ohm : float
        Sheet resistance, ohm per square, positive.
    """
    def __copy__(self, /) -> Film: ...
    def __deepcopy__(self, /, memo: Any) -> Film: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, sheet_resistance_ohm: SupportsFloat | SupportsIndex) -> Film: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def replace(self, /, **changes: "object") -> Film:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sheet_resistance_ohm(self, /) -> float:
        """
        Sheet resistance, ohm per square.
        """

@final
class FilterFind:
    """
    A filter that was found.
    """
    def __repr__(self, /) -> str: ...
    @property
    def caution(self, /) -> str:
        """
        What a user of the result should be told about safety.
        """
    @property
    def family(self, /) -> str:
        """
        The family of prototypes that it started from.
        """
    @property
    def ladder(self, /) -> Ladder:
        """
        The filter.
        """
    @property
    def margin_db(self, /) -> float:
        """
        The smallest margin, dB.
        """
    @property
    def margins_db(self, /) -> list[float]:
        """
        Margin at each goal, dB.
        """
    @property
    def parts(self, /) -> int:
        """
        Number of parts.
        """
    @property
    def yield_share(self, /) -> float | None:
        """
        Share of a lot that keeps every goal, 0 to 1; None where no tolerances were given.
        """

@final
class FilteredLine(Leak):
    """
    A line through the wall with a filter in it, as a leak.

    Mains filters put current into the protective earth: bond the case before energising, check touch
    and earth-leakage current against the code that applies, and leave the work to a licensed electrician.

    Parameters
    ----------
    filter : LineLoss
        The filter, outside first; several lines count in common mode; a table of measured loss
        holds between the impedances that it was measured between, and warns elsewhere.
    outside : Conductor
        The conductor outside.
    inside : Conductor
        The conductor inside.

    Notes
    -----
    Cross-section = (lambda^2/4 pi) x outside efficiency x transducer gain of the filter x inside efficiency.
    Each efficiency is min(1, R_rad/R), see `Conductor`: matched antennas at most, bounded by length and height at low
    frequency. A bound in the stated circuit, not a prediction: from k l = 1 on a bare wire has an impedance of its own, to
    be stated as a `Wire`. Every wire is bounded by the filter's gain between the worst terminations
    (`TwoPort.worst_transducer_loss_db`) with both efficiencies one.
    """
    def __copy__(self, /) -> FilteredLine: ...
    def __deepcopy__(self, /, memo: Any) -> FilteredLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, filter: Ladder | LineFilter | MeasuredLoss, outside: Conductor, inside: Conductor
    ) -> FilteredLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def circuit(self, /) -> MeasuringCircuit:
        """
        The circuit that the filter works in: outside conductor as source, inside conductor as load.
        """
    @property
    def filter(self, /) -> Ladder | LineFilter | MeasuredLoss:
        """
        The filter, outside first; several lines count in common mode; a table of measured loss holds between the impedances that it was measured between, and warns elsewhere.
        """
    @property
    def inside(self, /) -> Conductor:
        """
        The conductor inside.
        """
    @property
    def outside(self, /) -> Conductor:
        """
        The conductor outside.
        """
    def replace(self, /, **changes: "object") -> FilteredLine:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class FingerRow:
    """
    A row of equal contact fingers at equal distances, by its dimensions.

    Parameters
    ----------
    finger_pitch_m : float
        Distance between fingers, m; positive and finite.
    slot_width_m : float, optional
        Slot between two fingers, m; positive and finite, less than `finger_pitch_m`. Where not
        given, what a contact of 2 mm (at most of half the pitch; common practice, no source)
        leaves; slots are mostly narrower.
    finger_thickness_m : float, default 0
        Thickness of the sheet, m; zero or positive, and finite. A deeper slot passes less.
    finger_run_m : float, default 0
        How far a finger runs along the depth of the joint from its root to its contact, m; zero or
        positive, and finite. Zero for one that stands straight across the gap; the slot is as much
        longer.
    finger_resistance_ohm : float, default 0.005
        Resistance of one finger at its working height, ohm; zero or positive, and finite.
    finger_inductance_h : float, default 0
        What a contact that is narrower than its finger adds, H; from 0 to 1. The same at every gap;
        zero for a contact over the whole width.
    free_height_m : float, optional
        Height without a counter-face, m; positive and finite, above gap and working height. The gap
        must be smaller. Where neither height is given, a line takes its fingers as pressed to half
        of their free height; where the other one is, twice that.
    working_height_m : float, optional
        Height for which the resistance is told, m; positive and finite, below the free height. Half
        of the free height where only that is given; in a contact line, its gap.
    force_exponent : float, default 1
        Power of the inverse of the force that the resistance follows; from 0 to 1. The force is in
        proportion to free height less gap: 1 through a film, cautious where a gap opens; 1/2
        (plastic) and 1/3 (elastic) for clean contacts; 0 for a resistance that stays.

    Notes
    -----
    With s the length of the slot, the square root of gap^2 + run^2,

        Z_T = p (R + jwL) + jw mu0 s (p/2pi) (ln sec(pi slot/2p) + G) r(thickness/slot),

    the inductance of a grid of strips with the leading term G for pitches that are not small (N. Marcuvitz,
    Waveguide Handbook, 1951, sec. 5.18, from memory), and what a thickness leaves, 0.8776 exp(-pi thickness/slot)
    for narrow slots and thick fingers: within 0.3 % of finite elements up to slots of 0.9 pitches. R by general contact theory (R. Holm, Electric
    Contacts, 4th ed., 1967, from memory). Above half a wavelength of pitch waves along the joint leave in a
    second direction, outside the domain. The resistance is of the usual size (common practice, no source).

    Examples
    --------
    >>> import stillroom as sr
    >>> row = sr.joints.FingerRow(4e-3, slot_width_m=0.4e-3, free_height_m=3e-3, working_height_m=2e-3)
    >>> round(row.impedance_ohm_m(1e3, gap_m=2.5e-3).real / row.impedance_ohm_m(1e3, gap_m=2e-3).real, 9)
    2.0
    """
    def __copy__(self, /) -> FingerRow: ...
    def __deepcopy__(self, /, memo: Any) -> FingerRow: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        finger_pitch_m: SupportsFloat | SupportsIndex,
        slot_width_m: SupportsFloat | SupportsIndex | None = None,
        finger_thickness_m: SupportsFloat | SupportsIndex = 0.0,
        finger_run_m: SupportsFloat | SupportsIndex = 0.0,
        finger_resistance_ohm: SupportsFloat | SupportsIndex = 0.005,
        finger_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        free_height_m: SupportsFloat | SupportsIndex | None = None,
        working_height_m: SupportsFloat | SupportsIndex | None = None,
        force_exponent: SupportsFloat | SupportsIndex = 1.0,
    ) -> FingerRow: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def finger_inductance_h(self, /) -> float:
        """
        What a contact that is narrower than its finger adds, H; from 0 to 1. The same at every gap; zero for a contact over the whole width.
        """
    @property
    def finger_pitch_m(self, /) -> float:
        """
        Distance between fingers, m; positive and finite.
        """
    @property
    def finger_resistance_ohm(self, /) -> float:
        """
        Resistance of one finger at its working height, ohm; zero or positive, and finite.
        """
    @property
    def finger_run_m(self, /) -> float:
        """
        How far a finger runs along the depth of the joint from its root to its contact, m; zero or positive, and finite. Zero for one that stands straight across the gap; the slot is as much longer.
        """
    @property
    def finger_thickness_m(self, /) -> float:
        """
        Thickness of the sheet, m; zero or positive, and finite. A deeper slot passes less.
        """
    @property
    def force_exponent(self, /) -> float:
        """
        Power of the inverse of the force that the resistance follows; from 0 to 1. The force is in proportion to free height less gap: 1 through a film, cautious where a gap opens; 1/2 (plastic) and 1/3 (elastic) for clean contacts; 0 for a resistance that stays.
        """
    @property
    def free_height_m(self, /) -> float | None:
        """
        Height without a counter-face, m; positive and finite, above gap and working height. The gap must be smaller. Where neither height is given, a line takes its fingers as pressed to half of their free height; where the other one is, twice that.
        """
    def impedance_ohm_m(
        self, /, frequency_hz: ArrayLike, gap_m: SupportsFloat | SupportsIndex
    ) -> complex | NDArray[complex128]:
        """
        Transfer impedance times length, ohm m, in a gap.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        gap_m : float
            Gap that is bridged, m, positive, below the free height of fingers.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, for a pitch of fingers above half a wavelength, or outside a table.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> FingerRow:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def slot_width_m(self, /) -> float:
        """
        Slot between two fingers, m; positive and finite, less than `finger_pitch_m`. Where not given, what a contact of 2 mm (at most of half the pitch; common practice, no source) leaves; slots are mostly narrower.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> FingerRow:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> FingerRow:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """
    @property
    def working_height_m(self, /) -> float | None:
        """
        Height for which the resistance is told, m; positive and finite, below the free height. Half of the free height where only that is given; in a contact line, its gap.
        """

@final
class FoilPanel(Leak):
    """
    A foil honeycomb with unbonded nodes, or two of them crossed; a leak.

    For a field across the ribbons every node is a slit without cutoff. A second layer, turned by 90 degrees, stops what the first
    lets through.

    Parameters
    ----------
    panel : HoneycombPanel
        One layer as if its nodes were bonded; of hexagonal cells.
    nodes : UnbondedNodes
        Its nodes.
    crossed_gap_m : float, optional
        Distance of a second, alike layer turned by 90 degrees; a single layer where not given, m;
        positive and finite.

    Notes
    -----
    Nodes as lines of two plates in series with the cells; layers linked by the wave itself alone. Derived in the theory pages,
    with no measurement to hold it against. Warns outside its range: above 0.6 of cutoff, gaps below 0.3 of the pitch
    or near half a wavelength.

    Examples
    --------
    >>> import stillroom as sr
    >>> panel = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
    >>> foil = sr.vents.FoilPanel(panel, sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, contact_resistance_ohm_m=1e-2))
    >>> pair = sr.vents.FoilPanel(panel, foil.nodes, crossed_gap_m=5e-3)
    >>> bool(foil.shielding_db(1e9) < 60 < 120 < pair.shielding_db(1e9))
    True
    """
    def __copy__(self, /) -> FoilPanel: ...
    def __deepcopy__(self, /, memo: Any) -> FoilPanel: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        panel: HoneycombPanel,
        nodes: UnbondedNodes,
        crossed_gap_m: SupportsFloat | SupportsIndex | None = None,
    ) -> FoilPanel: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def crossed_gap_m(self, /) -> float | None:
        """
        Distance of a second, alike layer turned by 90 degrees; a single layer where not given, m; positive and finite.
        """
    @property
    def nodes(self, /) -> UnbondedNodes:
        """
        Its nodes.
        """
    @property
    def panel(self, /) -> HoneycombPanel:
        """
        One layer as if its nodes were bonded; of hexagonal cells.
        """
    def replace(self, /, **changes: "object") -> FoilPanel:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
        across_ribbons: bool = True,
    ) -> float | NDArray[float64]:
        """
        Shielding effectiveness of the unbounded panel under a plane wave, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.
        across_ribbons : bool, default True
            Whether the field in the face lies across the ribbons, which is the bad case of one layer, or along them.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """

@final
class FrameJoint:
    """
    The joint between a panel and its frame.

    Parameters
    ----------
    gap_m : float
        Gap between panel and frame, from 1e-9 to 0.1, m; from 1e-9 to 0.1.
    resistance_ohm_m : float, default 0
        Resistance of the contact over a length of joint, ohm, ohm m; from 0 to 1e9.
    inductance_h_m : float, default 0
        Inductance of the contact over a length of joint; one of both is positive, H m; from 0 to 1.

    Notes
    -----
    A single row with the transfer impedance R + jwL, all around the panel. To be measured, or taken from the maker of the gasket.
    Anything else (fingers, two rows, bolts) is a leak of its own, as long as the panel's `perimeter_m`.
    """
    def __copy__(self, /) -> FrameJoint: ...
    def __deepcopy__(self, /, memo: Any) -> FrameJoint: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        gap_m: SupportsFloat | SupportsIndex,
        resistance_ohm_m: SupportsFloat | SupportsIndex = 0.0,
        inductance_h_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> FrameJoint: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def gap_m(self, /) -> float:
        """
        Gap between panel and frame, from 1e-9 to 0.1, m; from 1e-9 to 0.1.
        """
    @property
    def inductance_h_m(self, /) -> float:
        """
        Inductance of the contact over a length of joint; one of both is positive, H m; from 0 to 1.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> FrameJoint:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm_m(self, /) -> float:
        """
        Resistance of the contact over a length of joint, ohm, ohm m; from 0 to 1e9.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> FrameJoint:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> FrameJoint:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Gasket:
    """
    A gasket by its transfer impedance times length, R + jwL.

    Parameters
    ----------
    resistance_ohm_m : float
        Resistance times length, ohm m; zero or positive, and finite.
    inductance_h_m : float, default 0
        Inductance times length, H m; from 0 to 1. One of the two is not zero.

    Notes
    -----
    A current of J amperes per metre of joint leaves J times this as a voltage along the joint.
    Pressure, surface and ageing decide it: use a measurement where there is one.

    Examples
    --------
    >>> import stillroom as sr
    >>> sr.joints.Gasket(resistance_ohm_m=2e-5).impedance_ohm_m(1e6)
    (2e-05+0j)
    """
    def __copy__(self, /) -> Gasket: ...
    def __deepcopy__(self, /, memo: Any) -> Gasket: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        resistance_ohm_m: SupportsFloat | SupportsIndex,
        inductance_h_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> Gasket: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def impedance_ohm_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Transfer impedance times length, ohm m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, outside a table.
        """
    @property
    def inductance_h_m(self, /) -> float:
        """
        Inductance times length, H m; from 0 to 1. One of the two is not zero.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Gasket:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm_m(self, /) -> float:
        """
        Resistance times length, ohm m; zero or positive, and finite.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Gasket:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Gasket:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class GasketLine(Leak):
    """
    A gasketed joint: a gap bridged by one or more rows, one behind the other.

    Parameters
    ----------
    length_m : float
        Length of the joint, m; positive and finite.
    gap_m : float
        Gap between the faces, m; positive and finite, at most `length_m`.
    rows : sequence of TransferImpedance
        What bridges it, from outside in: gaskets, tables, rows of fingers or several beside each
        other. Fingers must reach across the gap; those whose heights are not told are taken as
        pressed to half of their free height.
    row_spacing_m : float, default 0.012
        Distance between rows, m; zero or positive, and finite.
    faces : Material, optional
        What the faces are made of. Tin where not given.

    Notes
    -----
    Rows are shunts on the gap as a line, and resonate where their distance is half a wavelength. The
    parameters of the rows are `rows.0.resistance_ohm_m` and so on.

    Examples
    --------
    >>> import stillroom as sr
    >>> lid = sr.GasketLine(length_m=1.9, gap_m=1e-3, rows=[sr.joints.Gasket(2e-5, 2e-12)])
    >>> worn = lid.with_parameter("rows.0.resistance_ohm_m", 2e-3)
    >>> worn.cross_section_db(1e6) > lid.cross_section_db(1e6) + 30
    True
    """
    def __copy__(self, /) -> GasketLine: ...
    def __deepcopy__(self, /, memo: Any) -> GasketLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        gap_m: SupportsFloat | SupportsIndex,
        rows: SupportsGetItem[int, Gasket | ImpedanceTable | FingerRow | ContactsBeside],
        row_spacing_m: SupportsFloat | SupportsIndex = 0.012,
        faces: Material | None = None,
    ) -> GasketLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def faces(self, /) -> Material:
        """
        What the faces are made of. Tin where not given.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap between the faces, m; positive and finite, at most `length_m`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length of the joint, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> GasketLine:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def row_spacing_m(self, /) -> float:
        """
        Distance between rows, m; zero or positive, and finite.
        """
    @property
    def rows(self, /) -> list[Gasket | ImpedanceTable | FingerRow | ContactsBeside]:
        """
        What bridges it, from outside in: gaskets, tables, rows of fingers or several beside each other. Fingers must reach across the gap; those whose heights are not told are taken as pressed to half of their free height.
        """

@final
class HexagonalCell:
    """
    A hexagonal honeycomb cell.

    Parameters
    ----------
    across_flats_m : float
        Inner width across flats, m.
    wall_m : float, default 0
        Whole thickness of the wall between two cells, m; at most twice the width. Of foil with doubled nodes the mean.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.

    Examples
    --------
    Vents are sold as blocking everything below 32 GHz; the cell with that cutoff:

    >>> import stillroom as sr
    >>> round(sr.vents.HexagonalCell(5.19e-3).cutoff_hz / 1e9, 1)
    32.0
    """
    def __copy__(self, /) -> HexagonalCell: ...
    def __deepcopy__(self, /, memo: Any) -> HexagonalCell: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        across_flats_m: SupportsFloat | SupportsIndex,
        wall_m: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> HexagonalCell: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def across_flats_m(self, /) -> float:
        """
        Inner width across flats, m.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the cell, Hz.
        """
    @property
    def open_fraction(self, /) -> float:
        """
        Open area over the whole, 0 to 1.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> HexagonalCell:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    @property
    def wall_m(self, /) -> float:
        """
        Thickness of the wall between two cells, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> HexagonalCell:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> HexagonalCell:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class HexagonalGuide:
    """
    A guide whose section is a regular hexagon.

    Parameters
    ----------
    across_flats_m : float
        Inner width across flats, m.
    relative_permittivity : float, default 1
        Of the filling, at least 1.
    loss_tangent : float, default 0
        Of the filling.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.

    Notes
    -----
    Cutoff 2.010779/side, computed by the method of particular solutions to 1e-10.
    """
    def __copy__(self, /) -> HexagonalGuide: ...
    def __deepcopy__(self, /, memo: Any) -> HexagonalGuide: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        across_flats_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex = 1.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> HexagonalGuide: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def across_flats_m(self, /) -> float:
        """
        Inner width across flats, m.
        """
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def attenuation_db_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> float | NDArray[float64]:
        """
        Attenuation of a mode, dB/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the dominant mode, Hz.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the filling.
        """
    def mode(self, /, name: str) -> Mode:
        """
        One mode by its name.

        Parameters
        ----------
        name : str
            "TE11" or "TM0,12": azimuthal and radial order in a circle, half-waves along width and height of a rectangle,
            up to 500; in a hexagon family and place, "TE 1" to "TE 23" and "TM 1" to "TM 20".

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    def modes(self, /, count: SupportsIndex) -> list[Mode]:
        """
        The lowest modes by rising cutoff.

        Parameters
        ----------
        count : int
            How many at most; 43 entries are known of the hexagon, any number of the others.

        Returns
        -------
        list of Mode
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def propagation_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of a mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Finite through cutoff, where the wall's share is
            of first order in the square of gamma.

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
        """
    def replace(self, /, **changes: "object") -> HexagonalGuide:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> HexagonalGuide:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> HexagonalGuide:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class HoleArray(Leak):
    """
    Round holes of one size in a wall, from a few to a perforated panel.

    Parameters
    ----------
    hole : CircularHole
        One of the holes, with the thickness of the wall.
    layout : HoleGrid, RandomHoles or HolePlaces
        Where they are.
    interaction : {"lattice", "incoherent", "coherent"}, default "lattice"
        How they are taken together: as dipoles that act on one another; by power (right for holes more
        than half a wavelength apart); by amplitude (a bound, met by holes within half a wavelength).

    Raises
    ------
    RelationError
        For holes as wide as the pitch or wider.
    OutOfRangeError
        For places nearer to one before them than a diameter: the row and the distance are named.
    UnreachableError
        Where so many holes do not fit at random.

    Notes
    -----
    The lattice answer is that of coupled dipoles, exact while little passes and the holes' static fields
    are those of their mean; a large pattern meets the perforated sheet. Holds for diameters up to 0.8 of
    the least distance and 0.4 wavelengths. After H. A. Bethe, Phys. Rev. 66 (1944) 163 and R. E. Collin,
    *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 12.3 (from memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> hole = sr.CircularHole(diameter_m=3e-3, wall_thickness_m=1e-3)
    >>> grille = sr.apertures.HoleArray(hole, sr.apertures.HoleGrid(pitch_m=5e-3, rows=20, columns=20))
    >>> bound = sr.apertures.HoleArray(hole, sr.apertures.HoleGrid(5e-3, 20, 20), "coherent")
    >>> bool(hole.cross_section_m2(1e9) < grille.cross_section_m2(1e9) < bound.cross_section_m2(1e9))
    True
    """
    def __copy__(self, /) -> HoleArray: ...
    def __deepcopy__(self, /, memo: Any) -> HoleArray: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, hole: CircularHole, layout: HoleGrid | RandomHoles | HolePlaces, interaction: str = "lattice"
    ) -> HoleArray: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area of all holes, m^2.
        """
    def centres_m(self, /) -> NDArray[float64]:
        """
        Centre of each hole, m.

        Returns
        -------
        ndarray, shape (count, 2)
            Along and across the rows.
        """
    @property
    def count(self, /) -> int:
        """
        Number of holes.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def hole(self, /) -> CircularHole:
        """
        One of the holes.
        """
    @property
    def interaction(self, /) -> str:
        """
        How they are taken together.
        """
    @property
    def layout(self, /) -> HoleGrid | RandomHoles | HolePlaces:
        """
        Where they are.
        """
    def replace(self, /, **changes: "object") -> HoleArray:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class HoleGrid:
    """
    Rows of equally many holes.

    Parameters
    ----------
    pitch_m : float
        Distance of nearest holes, centre to centre, m, positive.
    rows : int
        Number of rows, 1 or more.
    columns : int
        Holes in each row, 1 or more; a million holes at most.
    pattern : {"square", "hexagonal"}, default "square"
        In the hexagonal pattern every second row is shifted by half a pitch.
    """
    def __copy__(self, /) -> HoleGrid: ...
    def __deepcopy__(self, /, memo: Any) -> HoleGrid: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        pitch_m: SupportsFloat | SupportsIndex,
        rows: SupportsIndex,
        columns: SupportsIndex,
        pattern: str = "square",
    ) -> HoleGrid: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def columns(self, /) -> int:
        """
        Holes in each row.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def pattern(self, /) -> str:
        """
        How the holes are arranged.
        """
    @property
    def pitch_m(self, /) -> float:
        """
        Distance of nearest holes, centre to centre, m.
        """
    def replace(self, /, **changes: "object") -> HoleGrid:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def rows(self, /) -> int:
        """
        Number of rows.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> HoleGrid:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> HoleGrid:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class HolePlaces:
    """
    Holes at given places.

    Parameters
    ----------
    positions_m : sequence of (float, float)
        Centre of each hole, along and across, m; 1 to 10000 of them.

    Raises
    ------
    OutOfRangeError
        For a place that is not finite; the row is named.
    """
    def __copy__(self, /) -> HolePlaces: ...
    def __deepcopy__(self, /, memo: Any) -> HolePlaces: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        positions_m: SupportsGetItem[
            int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]
        ],
    ) -> HolePlaces: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def positions_m(self, /) -> list[tuple[float, float]]:
        """
        Centre of each hole, m.
        """
    def replace(self, /, **changes: "object") -> HolePlaces:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class HoneycombPanel(Leak):
    """
    A honeycomb vent panel; a leak.

    Parameters
    ----------
    cell : HexagonalCell or SquareCell or RoundCell
        One of its cells.
    depth_m : float
        Depth of the cells, m.
    size_m : (float, float)
        Width and height of the open face, m; takes at least one cell.
    frame : FrameJoint, optional
        The joint all around to its frame, whose cross-section adds to that of the cells; bonded there where not given. A test reads
        the cells over the face and the joint along its outline, each by itself, and adds their powers.

    Notes
    -----
    Taken as bonded cell to cell; foil without plating or solder is a `FoilPanel`.
    The averaged cross-section is that of the finite panel below cutoff: held to a sum over the cells of finite panels within 2 dB
    from 0.1 to 0.3 of cutoff, and 3 dB too small near 0.6 (the theory page has the table).
    Ventilation of rooms that people work in follows local code.

    Examples
    --------
    >>> import stillroom as sr
    >>> vent = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
    >>> round(vent.cutoff_hz / 1e9, 1)
    34.6
    """
    def __copy__(self, /) -> HoneycombPanel: ...
    def __deepcopy__(self, /, memo: Any) -> HoneycombPanel: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        cell: HexagonalCell | SquareCell | RoundCell,
        depth_m: SupportsFloat | SupportsIndex,
        size_m: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex],
        frame: FrameJoint | None = None,
    ) -> HoneycombPanel: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def attenuation_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Attenuation of the dominant mode over the depth, without the faces, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def cell(self, /) -> HexagonalCell | SquareCell | RoundCell:
        """
        One of its cells.
        """
    @property
    def cell_count(self, /) -> int:
        """
        Number of cells.
        """
    def cross_section_at_m2(
        self, /, frequency_hz: ArrayLike, angle_deg: ArrayLike, polarization: Literal["te", "tm"] = ...
    ) -> float | NDArray[float64]:
        """
        Cross-section of the finite panel for one direction, m^2: its projected area times what passes.

        Diffraction at the panel's edges is left out: warns where the projected side is less than two wavelengths.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like
            Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the cells, Hz.
        """
    @property
    def depth_m(self, /) -> float:
        """
        Depth of the cells, m.
        """
    def flow_m3_per_s(self, /, pressure_pa: ArrayLike, air: Air | None = None) -> float | NDArray[float64]:
        """
        Flow through the panel at a pressure drop, m^3/s.

        Parameters
        ----------
        pressure_pa : array_like
            Pressure drop, Pa.
        air : Air, optional
            Room air where not given.

        Returns
        -------
        float or ndarray
        """
    @property
    def frame(self, /) -> FrameJoint | None:
        """
        The joint to its frame, or None.
        """
    def matched_shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: SupportsFloat | SupportsIndex = 0.0,
        azimuth_deg: SupportsFloat | SupportsIndex = 0.0,
        polarization: Literal["te", "tm"] = ...,
        all_directions: bool = False,
    ) -> float | NDArray[float64]:
        """
        Shielding effectiveness of the unbounded panel by full mode matching, dB.

        All modes of the cells and all harmonics of the lattice, at one direction: slower than `shielding_db`, and right also
        near cutoff, above it, and at oblique incidence. Warns where the panel is shallower than a tenth of a cell, or the
        frequency is too high for the modes that there are or below 1e-8 of the cutoff.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : float, default 0
            Angle from the normal, degrees, 0 to less than 90.
        azimuth_deg : float, default 0
            Turn of the plane of incidence about the normal, degrees; from the axis through two corners of a hexagon.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.
        all_directions : bool, default False
            Whether all power that leaves counts, grating lobes and both polarizations, instead of the wave's own.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def perimeter_m(self, /) -> float:
        """
        Length of the joint all around to the frame, m.
        """
    def pressure_drop_pa(
        self, /, face_velocity_m_per_s: ArrayLike, air: Air | None = None
    ) -> float | NDArray[float64]:
        """
        Pressure drop at a face velocity, Pa.

        Parameters
        ----------
        face_velocity_m_per_s : array_like
            Flow over the area of the whole face, m/s.
        air : Air, optional
            Room air where not given.

        Returns
        -------
        float or ndarray
            Entrance, developing flow along the cells, and exit together.
        """
    def pressure_parts(
        self, /, face_velocity_m_per_s: ArrayLike, air: Air | None = None
    ) -> "dict[str, float | NDArray[float64]]":
        """
        Where the pressure goes at a face velocity.

        Parameters
        ----------
        face_velocity_m_per_s : array_like
            Flow over the area of the whole face, m/s.
        air : Air, optional
            Room air where not given.

        Returns
        -------
        dict[str, float or ndarray]
            `entrance_pa`, `friction_pa` (along the cells, the developing profile included), `exit_pa`, and `reynolds`, the Reynolds
            number in the cells on their hydraulic diameter.
        """
    def replace(self, /, **changes: "object") -> HoneycombPanel:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def rules_of_thumb_db(self, /, frequency_hz: ArrayLike) -> "dict[str, float | NDArray[float64]]":
        """
        What the trade's rules of thumb say of this panel, to compare with; dB.

        Common practice, no source. They take each cell as an opening of its own.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        dict[str, float or ndarray]
            `one_cell` (32 dB for each diameter, 27.3 dB for each width of depth), `near_cutoff` (times sqrt(1 - (f/f_c)^2)),
            `cells_in_step` (that less 20 log10 N), `cells_apart` (that less 10 log10 N).
        """
    def shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Shielding effectiveness of the unbounded panel under a plane wave, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments: -20 log10 of what leaves along the wave's own direction.
        """
    @property
    def size_m(self, /) -> tuple[float, float]:
        """
        Width and height of the open face, m.
        """

@final
class Housing:
    """
    A filter's can and how it sits on the wall.

    Parameters
    ----------
    case_length_m : float
        Length of the case: lumped parts hold while it is below a tenth of a wavelength, m; from
        1e-30 to 1e30.
    bond_resistance_ohm : float, default 0
        Resistance between case and wall, ohm; from 0 to 1e30.
    bond_inductance_h : float, default 0
        Inductance between case and wall; see `strap_inductance_h`, H; from 0 to 1e30. Near zero for
        a flush case.
    stray_capacitance_f : float, default 0
        Capacitance from input to output inside the can, F; from 0 to 1e30.
    isolation_db : float, optional
        The most that any filter in this can can lose, dB; from 0 to 1e30.

    Raises
    ------
    OutOfRangeError
        For a value outside its domain, by name.
    """
    def __copy__(self, /) -> Housing: ...
    def __deepcopy__(self, /, memo: Any) -> Housing: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        case_length_m: SupportsFloat | SupportsIndex,
        *,
        bond_resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        bond_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        stray_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
        isolation_db: SupportsFloat | SupportsIndex | None = None,
    ) -> Housing: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bond_inductance_h(self, /) -> float:
        """
        Inductance between case and wall; see `strap_inductance_h`, H; from 0 to 1e30. Near zero for a flush case.
        """
    @property
    def bond_resistance_ohm(self, /) -> float:
        """
        Resistance between case and wall, ohm; from 0 to 1e30.
        """
    @property
    def case_length_m(self, /) -> float:
        """
        Length of the case: lumped parts hold while it is below a tenth of a wavelength, m; from 1e-30 to 1e30.
        """
    @property
    def isolation_db(self, /) -> float | None:
        """
        The most that any filter in this can can lose, dB; from 0 to 1e30.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Housing:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def stray_capacitance_f(self, /) -> float:
        """
        Capacitance from input to output inside the can, F; from 0 to 1e30.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Housing:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Housing:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class ImpedanceRegion:
    """
    Impedances that a termination can have: a range of magnitude and a range of phase.

    Parameters
    ----------
    min_ohm : float
        Least and greatest magnitude, ohm; from 1e-30 to 1e30, at most `max_ohm`.
    max_ohm : float
        Least and greatest magnitude, ohm; from 1e-30 to 1e30.
    min_phase_deg : float, default -90
        Least and greatest phase, degrees, within -90 and 90, deg; from -90 to 90, at most
        `max_phase_deg`.
    max_phase_deg : float, default 90
        Least and greatest phase, degrees, within -90 and 90, deg; from -90 to 90.

    Raises
    ------
    OutOfRangeError, RelationError
        For a value outside its domain, or a range upside down.
    """
    def __copy__(self, /) -> ImpedanceRegion: ...
    def __deepcopy__(self, /, memo: Any) -> ImpedanceRegion: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        min_ohm: SupportsFloat | SupportsIndex,
        max_ohm: SupportsFloat | SupportsIndex,
        min_phase_deg: SupportsFloat | SupportsIndex = ...,
        max_phase_deg: SupportsFloat | SupportsIndex = 90.0,
    ) -> ImpedanceRegion: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def max_ohm(self, /) -> float:
        """
        Least and greatest magnitude, ohm; from 1e-30 to 1e30.
        """
    @property
    def max_phase_deg(self, /) -> float:
        """
        Least and greatest phase, degrees, within -90 and 90, deg; from -90 to 90.
        """
    @property
    def min_ohm(self, /) -> float:
        """
        Least and greatest magnitude, ohm; from 1e-30 to 1e30, at most `max_ohm`.
        """
    @property
    def min_phase_deg(self, /) -> float:
        """
        Least and greatest phase, degrees, within -90 and 90, deg; from -90 to 90, at most `max_phase_deg`.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> ImpedanceRegion:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> ImpedanceRegion:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> ImpedanceRegion:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class ImpedanceTable:
    """
    A measured transfer impedance against frequency.

    The logarithm of the modulus is joined in log frequency and held beyond both ends, with a warning.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies, Hz, Hz. Increasing, at least two.
    transfer_impedance_ohm_m : sequence of float
        Moduli times length, ohm m, ohm m. Positive, one for each frequency.
    phase_deg : sequence of float, optional
        Phases, degrees, from -90 to 90, deg. Where not given they follow the slope of the modulus:
        0 where it is flat (a resistance), 90 where it rises with f (an inductance).
    scale_db : float, default 0
        What is added to the moduli, dB; from -300 to 300. A knob for tolerances.

    Raises
    ------
    NotIncreasingError, OutOfRangeError, LengthMismatchError
        For columns that do not fit, with row and value; for fewer than two rows.

    Notes
    -----
    The phase by slope is the leading term of H. W. Bode's relation of gain and phase (1945, ch. 14, from
    memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> table = sr.joints.ImpedanceTable.from_csv("frequency_hz,transfer_impedance_ohm_m\\n1e6,1e-5\\n1e8,1e-3\\n")
    >>> round(abs(table.impedance_ohm_m(1e7)), 9)
    0.0001
    """
    def __copy__(self, /) -> ImpedanceTable: ...
    def __deepcopy__(self, /, memo: Any) -> ImpedanceTable: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        transfer_impedance_ohm_m: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        phase_deg: SupportsGetItem[int, SupportsFloat | SupportsIndex] | None = None,
        scale_db: SupportsFloat | SupportsIndex = 0.0,
    ) -> ImpedanceTable: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, Hz, Hz. Increasing, at least two.
        """
    @staticmethod
    def from_csv(text: str | PathLike[str]) -> ImpedanceTable:
        """
        From comma-separated text with the columns `frequency_hz` and `transfer_impedance_ohm_m`, and
        perhaps `phase_deg`.

        Parameters
        ----------
        text : str or pathlib.Path
            Text with a heading whose separator (tab, semicolon or comma) parts all its fields, numbers with decimal
            points; or the path of a file that holds it.

        Raises
        ------
        FormatError
            With line and column, what was found there and what was expected.
        """
    def impedance_ohm_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Transfer impedance times length, ohm m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, outside a table.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def phase_deg(self, /) -> list[float] | None:
        """
        Phases, degrees, from -90 to 90, deg. Where not given they follow the slope of the modulus: 0 where it is flat (a resistance), 90 where it rises with f (an inductance).
        """
    def replace(self, /, **changes: "object") -> ImpedanceTable:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def scale_db(self, /) -> float:
        """
        What is added to the moduli, dB; from -300 to 300. A knob for tolerances.
        """
    def to_csv(self, /) -> str:
        """
        As comma-separated text, which reads back as the same numbers; without the scale.
        """
    @property
    def transfer_impedance_ohm_m(self, /) -> list[float]:
        """
        Moduli times length, ohm m, ohm m. Positive, one for each frequency.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> ImpedanceTable:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> ImpedanceTable:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class InEachLine:
    """
    Something in each line, uncoupled.

    Parameters
    ----------
    parts : sequence of Inductor, Capacitor, Resistor, FerriteBead, FeedthroughCapacitor, LossyLine or MeasuredTwoPort
        One for each line.
    """
    def __copy__(self, /) -> InEachLine: ...
    def __deepcopy__(self, /, memo: Any) -> InEachLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        parts: SupportsGetItem[
            int,
            Inductor
            | Capacitor
            | Resistor
            | FerriteBead
            | Series
            | Shunt
            | FeedthroughCapacitor
            | LossyLine
            | MeasuredTwoPort,
        ],
    ) -> InEachLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def parts(
        self, /
    ) -> list[
        Inductor
        | Capacitor
        | Resistor
        | FerriteBead
        | Series
        | Shunt
        | FeedthroughCapacitor
        | LossyLine
        | MeasuredTwoPort
    ]:
        """
        What stands in the lines, one for each.
        """
    def replace(self, /, **changes: "object") -> InEachLine:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class Inductor:
    """
    A coil with its parasitics.

    Z = (R + s L/(1 + s t)) in parallel with 1/(s C), with t = 1/(2 pi relaxation_hz) + L/core_loss_ohm.

    Parameters
    ----------
    inductance_h : float
        Inductance without load current, H, positive.
    resistance_ohm : float, default 0
        Resistance of the winding, ohm.
    parallel_capacitance_f : float, default 0
        Capacitance across the winding, F.
    core_loss_ohm : float, optional
        Resistance across the inductance that stands for core loss, ohm.
    relaxation_hz : float, optional
        Frequency of the one pole by which the permeability falls, Hz.
    half_current_a : float, optional
        Peak (or direct) current that halves the inductance, A: L(i) = L/(1 + (i/half_current_a)**saturation_exponent), i
        the current of the moment.
    saturation_exponent : float, default 2
        Exponent of that law.

    Raises
    ------
    OutOfRangeError
        For a value outside its domain, by name.

    Notes
    -----
    Equivalent circuit: H. W. Ott, *Electromagnetic Compatibility Engineering*, 2009, ch. 5. The law of
    saturation is the form fitted to powder cores (common practice, no source).

    Examples
    --------
    >>> import stillroom as sr
    >>> coil = sr.filters.Inductor(100e-6, resistance_ohm=0.02, parallel_capacitance_f=15e-12)
    >>> round(coil.self_resonance_hz / 1e6, 2)
    4.11
    """
    def __copy__(self, /) -> Inductor: ...
    def __deepcopy__(self, /, memo: Any) -> Inductor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        inductance_h: SupportsFloat | SupportsIndex,
        *,
        resistance_ohm: SupportsFloat | SupportsIndex = 0.0,
        parallel_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
        core_loss_ohm: SupportsFloat | SupportsIndex | None = None,
        relaxation_hz: SupportsFloat | SupportsIndex | None = None,
        half_current_a: SupportsFloat | SupportsIndex | None = None,
        saturation_exponent: SupportsFloat | SupportsIndex = 2.0,
    ) -> Inductor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def core_loss_ohm(self, /) -> float | None:
        """
        Core-loss resistance, ohm, or None.
        """
    @property
    def half_current_a(self, /) -> float | None:
        """
        Peak current that halves the inductance, A, or None.
        """
    def impedance_ohm(
        self, /, frequency_hz: ArrayLike, peak_current_a: SupportsFloat | SupportsIndex = 0.0
    ) -> complex | NDArray[complex128]:
        """
        Impedance, ohm.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        peak_current_a : float, default 0
            Peak (or direct) current, A.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def inductance_h(self, /) -> float:
        """
        Inductance without current, H.
        """
    def loaded_inductance_h(self, /, peak_current_a: SupportsFloat | SupportsIndex) -> float:
        """
        Inductance left at the crest of a current, H: what radio frequency meets there.

        Parameters
        ----------
        peak_current_a : float
            Peak (or direct) current, A: the square root of two times the effective value of a sine.
        """
    def mean_inductance_h(self, /, current_rms_a: SupportsFloat | SupportsIndex) -> float:
        """
        Inductance that a sine meets at its own frequency, H: the mean over its period, of which its volt drop is made.

        Parameters
        ----------
        current_rms_a : float
            Effective value, A.
        """
    @property
    def parallel_capacitance_f(self, /) -> float:
        """
        Capacitance across the winding, F.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def relaxation_hz(self, /) -> float | None:
        """
        Relaxation frequency of the permeability, Hz, or None.
        """
    def replace(self, /, **changes: "object") -> Inductor:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> float:
        """
        Resistance of the winding, ohm.
        """
    @property
    def saturation_exponent(self, /) -> float:
        """
        Exponent of the law of saturation.
        """
    @property
    def self_resonance_hz(self, /) -> float:
        """
        Frequency at which the coil turns capacitive, Hz; infinite without capacitance.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Inductor:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Inductor:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class KnifeEdge(Leak):
    """
    A door whose blade goes into a channel, with rows of fingers on both sides of the blade.

    Parameters
    ----------
    length_m : float
        Length around the door, m; positive and finite.
    gap_m : float
        Gap between the blade and either wall of the channel, m; positive and finite, at most
        `length_m`, below the free height. The fingers bridge it.
    blade_depth_m : float
        Depth that the blade goes into the channel, m; positive and finite.
    fingers : FingerRow
        One row. Fingers whose heights are not told are taken as pressed to half of their free
        height.
    blade_thickness_m : float, default 0.006
        Thickness of the blade, m; positive and finite. The default is common practice, no source,
        as are the next ones.
    edge_clearance_m : float, default 0.003
        Between the edge of the blade and the bottom of the channel, m; positive and finite.
    mouth_depth_m : float, optional
        From the mouth of the channel to the first row, m; zero or positive, and finite, at most
        `blade_depth_m`. 3 mm, at most a quarter of the depth, where not given.
    row_count : int, default 1
        Number of rows on each side of the blade; a whole number from 1 to 16.
    row_spacing_m : float, default 0.01
        Distance between rows of one side, m; zero or positive, and finite. All rows lie within the
        depth of the blade.
    faces : Material, optional
        What blade and channel are made of. Tin where not given.

    Notes
    -----
    A chain of lines and rows: mouth, rows of the outer side, pocket under the edge, rows of the inner side, mouth. Each
    line has the height of its gap; corners are left out, which is right for heights well below half a wavelength (0.15
    wavelengths are the domain). Below the first resonance of a pocket (`edge_pocket_m` is half a wavelength) rows
    add their decibels and more; above, less. All fingers touch: one that is broken or dirty is not in it. Default
    dimensions are common practice, no source.

    A wider gap takes force from the fingers and makes straight ones longer, which is worse, and makes the space
    between rows larger, which is better. For leaves of a long run the second just about wins at high frequency; that is
    no advice to open the gap of a door, which costs contact before anything else.

    Examples
    --------
    >>> import stillroom as sr
    >>> fingers = sr.joints.FingerRow(4e-3, slot_width_m=0.4e-3, finger_thickness_m=0.1e-3, finger_run_m=8e-3)
    >>> door = sr.joints.KnifeEdge(6.0, gap_m=2e-3, blade_depth_m=25e-3, fingers=fingers)
    >>> wider = door.with_parameter("fingers.slot_width_m", 0.8e-3)
    >>> wider.cross_section_db(10e9) > door.cross_section_db(10e9) + 25
    True
    """
    def __copy__(self, /) -> KnifeEdge: ...
    def __deepcopy__(self, /, memo: Any) -> KnifeEdge: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        gap_m: SupportsFloat | SupportsIndex,
        blade_depth_m: SupportsFloat | SupportsIndex,
        fingers: FingerRow,
        blade_thickness_m: SupportsFloat | SupportsIndex = 0.006,
        edge_clearance_m: SupportsFloat | SupportsIndex = 0.003,
        mouth_depth_m: SupportsFloat | SupportsIndex | None = None,
        row_count: SupportsIndex = 1,
        row_spacing_m: SupportsFloat | SupportsIndex = 0.01,
        faces: Material | None = None,
    ) -> KnifeEdge: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def blade_depth_m(self, /) -> float:
        """
        Depth that the blade goes into the channel, m; positive and finite.
        """
    @property
    def blade_thickness_m(self, /) -> float:
        """
        Thickness of the blade, m; positive and finite. The default is common practice, no source, as are the next ones.
        """
    @property
    def edge_clearance_m(self, /) -> float:
        """
        Between the edge of the blade and the bottom of the channel, m; positive and finite.
        """
    @property
    def edge_pocket_m(self, /) -> float:
        """
        Length of the pocket under the edge, from the last row of one side to that of the other, m.
        """
    @property
    def faces(self, /) -> Material:
        """
        What blade and channel are made of. Tin where not given.
        """
    @property
    def fingers(self, /) -> FingerRow:
        """
        One row. Fingers whose heights are not told are taken as pressed to half of their free height.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap between the blade and either wall of the channel, m; positive and finite, at most `length_m`, below the free height. The fingers bridge it.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length around the door, m; positive and finite.
        """
    @property
    def mouth_depth_m(self, /) -> float:
        """
        From the mouth of the channel to the first row, m; zero or positive, and finite, at most `blade_depth_m`. 3 mm, at most a quarter of the depth, where not given.
        """
    def replace(self, /, **changes: "object") -> KnifeEdge:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def row_count(self, /) -> int:
        """
        Number of rows on each side of the blade; a whole number from 1 to 16.
        """
    @property
    def row_spacing_m(self, /) -> float:
        """
        Distance between rows of one side, m; zero or positive, and finite. All rows lie within the depth of the blade.
        """
    def transfer_impedance_ohm_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Transfer impedance of one row times length, ohm m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """

@final
class Ladder:
    """
    A filter: parts in the line and across it, from the source's side to the load's.

    Mains filters put current into the protective earth: bond the case before energising, check touch
    and earth-leakage current against the code that applies, and leave the work to a licensed electrician.

    Parameters
    ----------
    elements : sequence of Element
        From the source's side to the load's; at least one.
    load_current_rms_a : float, default 0
        Load current, effective value, A; from 0 to 1e30. Coils that saturate are judged at its
        crest, so the loss is what may be counted on; without current it is the best that the filter
        can do.
    crest_factor : float, optional
        Peak over effective value, one or more: the square root of two (a sine) where not given, 1
        for direct current, 2 to 3 for rectifiers; from 1 to 1e30.
    housing : Housing, optional
        The can and its bond; ideal where not given.

    Raises
    ------
    EmptyError
        For no elements.

    Notes
    -----
    Insertion loss is 20 log10 |V20/V2| (CISPR 17): load voltage with source and load joined directly over
    that with the filter between. It is negative where the filter tunes out a mismatch.

    Examples
    --------
    >>> import stillroom as sr
    >>> ladder = sr.filters.Ladder([sr.filters.Series(sr.filters.Inductor(100e-6)), sr.filters.Shunt(sr.filters.Capacitor(1e-6))])
    >>> round(ladder.insertion_loss_db(100e3), 2)
    27.91
    >>> round(ladder.insertion_loss_db(15915.5, sr.filters.MeasuringCircuit.low_to_high()), 2)
    -19.18
    """
    def __copy__(self, /) -> Ladder: ...
    def __deepcopy__(self, /, memo: Any) -> Ladder: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        elements: SupportsGetItem[int, Series | Shunt | FeedthroughCapacitor | LossyLine | MeasuredTwoPort],
        *,
        load_current_rms_a: SupportsFloat | SupportsIndex = 0.0,
        crest_factor: SupportsFloat | SupportsIndex | None = None,
        housing: Housing | None = None,
    ) -> Ladder: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def caution(self, /) -> str:
        """
        What a user of the results should be told about safety.
        """
    @property
    def crest_factor(self, /) -> float:
        """
        Peak over effective value, one or more: the square root of two (a sine) where not given, 1 for direct current, 2 to 3 for rectifiers; from 1 to 1e30.
        """
    @property
    def elements(self, /) -> list[Series | Shunt | FeedthroughCapacitor | LossyLine | MeasuredTwoPort]:
        """
        From the source's side to the load's; at least one.
        """
    @property
    def housing(self, /) -> Housing | None:
        """
        The can and its bond; ideal where not given.
        """
    def insertion_loss_db(
        self, /, frequency_hz: ArrayLike, circuit: MeasuringCircuit | None = None
    ) -> float | NDArray[float64]:
        """
        Insertion loss, dB: 20 log10(V20/V2), negative where the filter gains.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        circuit : MeasuringCircuit, optional
            Source and load; 50 ohm each where not given.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if the can is longer than a tenth of a wavelength, or the circuit is asked outside its domain.
        """
    @property
    def load_current_rms_a(self, /) -> float:
        """
        Load current, effective value, A; from 0 to 1e30. Coils that saturate are judged at its crest, so the loss is what may be counted on; without current it is the best that the filter can do.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def plot(
        self,
        /,
        frequency_hz: ArrayLike,
        circuits: dict[str, MeasuringCircuit] | None = None,
        worst_case: bool = True,
        ax: Axes | None = None,
    ) -> Axes:
        """
        Plots the insertion loss in several circuits at once, with the worst over all terminations.

        Parameters
        ----------
        frequency_hz : array_like
            Frequencies, Hz.
        circuits : dict[str, MeasuringCircuit], optional
            By label; where not given 50/50, 0.1/100 and 100/0.1 ohm, an artificial mains network and a 10 m wire.
        worst_case : bool, default True
            Whether to draw the least loss over all passive terminations.
        ax : matplotlib.axes.Axes, optional
            Where to draw; a new figure otherwise.

        Returns
        -------
        matplotlib.axes.Axes
        """
    def region_insertion_loss_db(
        self, /, frequency_hz: ArrayLike, source: ImpedanceRegion, load: ImpedanceRegion
    ) -> float | NDArray[float64]:
        """
        Least insertion loss over sources and loads within stated regions of impedance, dB.

        Exact to 0.000001 dB and what rounding adds: that nothing in the regions is worse is shown at every frequency.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        source, load : ImpedanceRegion
            What can occur on each side.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def replace(self, /, **changes: "object") -> Ladder:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def scattering(
        self,
        /,
        frequency_hz: ArrayLike,
        source_reference_ohm: complex = ...,
        load_reference_ohm: complex = ...,
    ) -> NDArray[complex128]:
        """
        Power-wave scattering parameters.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        source_reference_ohm : complex, default 50
            Reference at port 1, ohm, positive real part.
        load_reference_ohm : complex, default 50
            Reference at port 2, ohm, positive real part.

        Returns
        -------
        ndarray of complex
            Shape of `frequency_hz` followed by (2, 2): [[S11, S12], [S21, S22]].

        Notes
        -----
        K. Kurokawa, *Power waves and the scattering matrix*, 1965. The isolation of a can is not part of it.
        """
    def sensitivities(
        self, /, frequency_hz: ArrayLike, circuit: MeasuringCircuit | None = None
    ) -> "dict[str, object]":
        """
        Slope of the insertion loss against every parameter that is not zero, largest first.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        circuit : MeasuringCircuit, optional
            Source and load; 50 ohm each where not given.

        Returns
        -------
        dict[str, float or ndarray]
            Path of the parameter to dB for one per cent more of it, of the shape of `frequency_hz`; sorted by the
            largest slope over all frequencies. NaN right at a resonance that nothing damps.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Ladder:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Ladder:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """
    def worst_insertion_loss_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Least insertion loss over all passive sources and loads, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; minus infinity for a ladder without loss, whose resonance with reactive
            terminations has no bound.
        """
    def worst_terminations(
        self, /, frequency_hz: SupportsFloat | SupportsIndex, source: ImpedanceRegion, load: ImpedanceRegion
    ) -> WorstTerminations:
        """
        Worst source and load within stated regions of impedance.

        Parameters
        ----------
        frequency_hz : float
            Frequency, Hz.
        source, load : ImpedanceRegion
            What can occur on each side.

        Returns
        -------
        WorstTerminations
        """
    def worst_transducer_loss_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Least transducer loss over all passive sources and loads, dB: what is lost even when both sides match.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; zero or positive. It compares with the power that the source could give at
            best, unlike insertion loss.
        """
    def yield_fraction(
        self,
        /,
        goals: SupportsGetItem[int, LossGoal],
        coil_tolerance: SupportsFloat | SupportsIndex,
        capacitor_tolerance: SupportsFloat | SupportsIndex,
        trials: SupportsIndex = 1000,
        seed: SupportsIndex = 0,
    ) -> float:
        """
        Share of a lot in which every goal is met, coils and capacitors off evenly within their tolerances.

        Parameters
        ----------
        goals : sequence of LossGoal
            Losses to be met.
        coil_tolerance, capacitor_tolerance : float
            Fractions, 0 to below 1.
        trials : int, default 1000
            How many filters to draw.
        seed : int, default 0
            The same seed gives the same share on every machine.

        Returns
        -------
        float
            0 to 1.
        """

@final
class Laminate(Sheet):
    """
    A stack of plane layers, the first facing the wave.

    Parameters
    ----------
    layers : sequence of (Material, float), Film, WireMesh, PerforatedSheet or Fabric
        Each layer as a material and its thickness in m, a film by its sheet resistance, a wire mesh, a
        perforated sheet or a fabric.

    Raises
    ------
    EmptyError
        For no layers.
    OutOfRangeError
        For a thickness that is not positive and finite; `quantity` names the layer.

    Notes
    -----
    Shielding is -20 log10 |T| by a recursion that never overflows. The layers are unbounded: real
    panels join their faces at the edges, so for two metal faces this is an upper bound. Source:
    W. C. Chew, *Waves and Fields in Inhomogeneous Media*, 1990, sec. 2.1.3 (from memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> sheet = sr.Laminate([(sr.materials.copper, 20 * 25.4e-6)])
    >>> round(sheet.shielding_db(1e6), 1)
    174.9
    """
    def __copy__(self, /) -> Laminate: ...
    def __deepcopy__(self, /, memo: Any) -> Laminate: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        layers: SupportsGetItem[
            int, tuple[Material, SupportsFloat | SupportsIndex] | Film | WireMesh | PerforatedSheet | Fabric
        ],
    ) -> Laminate: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def layers(self, /) -> list[tuple[Material, float] | Film | WireMesh | PerforatedSheet | Fabric]:
        """
        The layers, from the side of the wave.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def reflection(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> complex | NDArray[complex128]:
        """
        Reflected over incident tangential electric field.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the sheet.

        Returns
        -------
        complex or ndarray of complex
            Joint shape of the arguments.
        """
    def replace(self, /, **changes: "object") -> Laminate:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def reversed(self, /) -> Laminate:
        """
        The same stack seen from its other side.
        """
    def split(self, /, frequency_hz: ArrayLike, wave: PlaneWave | None = None) -> LossSplit | None:
        """
        Absorption, reflection and re-reflection loss of a single layer.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        wave : PlaneWave, optional
            The wave; along the normal where not given.

        Returns
        -------
        LossSplit or None
            Losses in the shape of `frequency_hz`. None for several layers or a film, which have no such
            split.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the domain of the layer's material.

        Notes
        -----
        S. A. Schelkunoff, *Electromagnetic Waves*, 1943, sec. 8.18 (from memory). The re-reflection
        loss is negative for thin sheets: never leave it out.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Laminate:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Laminate:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@disjoint_base
class Leak:
    """
    A part of the enclosure that lets power through; the base class of all leaks.

    Every leak offers a transmission cross-section, so that unlike things can be compared and added.
    """
    @property
    def caution(self, /) -> str | None:
        """
        What a user of the results should be told about safety, or None.
        """
    def cross_section_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2: 10 log10(cross-section / m^2).

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def cross_section_m2(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Transmission cross-section, m^2, averaged over angle and polarization from the outer half-space.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`. Zero where it is below the smallest number that can be written;
            `cross_section_db` has no such floor.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the leak's domain.
        """
    def limits(self, /, frequency_hz: SupportsFloat | SupportsIndex) -> list[str]:
        """
        Limits of the model that are passed at a frequency, in words; empty inside its domain.

        Parameters
        ----------
        frequency_hz : float
            Frequency, Hz.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this leak, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def polarizability(self, /, at_frequency_hz: SupportsFloat | SupportsIndex) -> Polarizability | None:
        """
        Quasi-static polarizabilities, where the leak is an opening small enough to have them.

        Parameters
        ----------
        at_frequency_hz : float
            Frequency, Hz.

        Returns
        -------
        Polarizability or None
            With the thickness of the wall taken into account; None for a leak that is not an opening, or
            one longer than a tenth of a wavelength.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> "Leak":
        """
        The same leak with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> "Leak":
        """
        The same leak with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class LeakageCase:
    """
    Earth-leakage current with lines lost.

    Parameters
    ----------
    lost : sequence of int
        Lines that are lost, counted from zero; the neutral is the last line.
    held : sequence of int, "mean" or "earth"
        For each of them the line that a load ties it to, "mean" of the lines that are left, or "earth" where it is dead.
    neutral_lost : bool
        Whether the neutral is among them.
    current_a : float
        Current, effective value, A.
    """
    def __copy__(self, /) -> LeakageCase: ...
    def __deepcopy__(self, /, memo: Any) -> LeakageCase: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        lost: SupportsGetItem[int, SupportsIndex],
        held: SupportsGetItem[int, SupportsIndex | str],
        neutral_lost: bool,
        current_a: SupportsFloat | SupportsIndex,
    ) -> LeakageCase: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def current_a(self, /) -> float:
        """
        Current, effective value, A.
        """
    @property
    def held(self, /) -> list[int | str]:
        """
        What holds each of them: a line, "mean" or "earth".
        """
    @property
    def lost(self, /) -> list[int]:
        """
        Lines that are lost, counted from zero.
        """
    @property
    def neutral_lost(self, /) -> bool:
        """
        Whether the neutral is among them.
        """
    def replace(self, /, **changes: "object") -> LeakageCase:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class LineFilter:
    """
    A filter of one to four lines, with the conversion between their modes.

    Mains filters put current into the protective earth: bond the case before energising, check touch
    and earth-leakage current against the code that applies, and leave the work to a licensed electrician.

    Parameters
    ----------
    lines : int
        Number of lines, 1 to 4.
    banks : sequence of Bank
        From the source's side to the load's.
    load_current_rms_a : float, default 0
        Load current, effective value, out in one line and back in others, A; from 0 to 1e30.
    residual_current_rms_a : float, default 0
        Current in each line that returns elsewhere, effective value: it magnetises a
        current-compensated choke fully, A; from 0 to 1e30.
    crest_factor : float, optional
        Peak of both over effective value, one or more: the square root of two (a sine) where not
        given, 1 for direct current, 2 to 3 for rectifiers; from 1 to 1e30.
    housing : Housing, optional
        The can and its bond to the wall; ideal where not given. The bond is common to all lines.

    Raises
    ------
    LengthMismatchError
        For a bank with a part too many or too few; `quantity` names the bank.

    Examples
    --------
    >>> import stillroom as sr
    >>> filter = sr.LineFilter(2, [
    ...     sr.filters.BetweenLines(sr.filters.Capacitor(470e-9)),
    ...     sr.filters.CommonModeChoke.from_leakage(3e-3, 30e-6),
    ...     sr.filters.LinesToCase([sr.filters.Capacitor(4.7e-9), sr.filters.Capacitor(4.7e-9)]),
    ... ])
    >>> round(filter.insertion_loss_db(1e6), 1)
    56.5
    """
    def __copy__(self, /) -> LineFilter: ...
    def __deepcopy__(self, /, memo: Any) -> LineFilter: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        lines: SupportsIndex,
        banks: SupportsGetItem[int, InEachLine | LinesToCase | BetweenLines | StarPoint | CommonModeChoke],
        *,
        load_current_rms_a: SupportsFloat | SupportsIndex = 0.0,
        residual_current_rms_a: SupportsFloat | SupportsIndex = 0.0,
        crest_factor: SupportsFloat | SupportsIndex | None = None,
        housing: Housing | None = None,
    ) -> LineFilter: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def banks(self, /) -> list[InEachLine | LinesToCase | BetweenLines | StarPoint | CommonModeChoke]:
        """
        From the source's side to the load's.
        """
    @property
    def caution(self, /) -> str:
        """
        What a user of the results should be told about safety.
        """
    @property
    def crest_factor(self, /) -> float:
        """
        Peak of both over effective value, one or more: the square root of two (a sine) where not given, 1 for direct current, 2 to 3 for rectifiers; from 1 to 1e30.
        """
    @property
    def housing(self, /) -> Housing | None:
        """
        The can and its bond to the wall; ideal where not given. The bond is common to all lines.
        """
    def insertion_loss_db(
        self,
        /,
        frequency_hz: ArrayLike,
        drive: tuple[SupportsIndex, SupportsIndex] | SupportsIndex | str = ...,
        listen: tuple[SupportsIndex, SupportsIndex] | SupportsIndex | str | None = None,
        source: ModalTermination | None = None,
        load: ModalTermination | None = None,
    ) -> float | NDArray[float64]:
        """
        Loss from one mode at the source to one at the load, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        drive : "common", (int, int) or int, default "common"
            LineMode of the source: all lines together, between two lines, or one line with the others terminated.
        listen : "common", (int, int) or int, optional
            LineMode at the load; the driven one where not given. For another mode the result is the conversion loss.
        source, load : ModalTermination, optional
            What it works between; 50 ohm from each line to the case where not given.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`: 20 log10(V20/V2).

        Warns
        -----
        DomainWarning
            Once, if the can is longer than a tenth of a wavelength, or a table or a termination is asked outside its
            domain.
        """
    @property
    def lines(self, /) -> int:
        """
        Number of lines, 1 to 4.
        """
    @property
    def load_current_rms_a(self, /) -> float:
        """
        Load current, effective value, out in one line and back in others, A; from 0 to 1e30.
        """
    def mains_duty(
        self,
        /,
        supply: MainsSupply,
        capacitance_tolerance: SupportsFloat | SupportsIndex = 0.0,
        safe_voltage_v: SupportsFloat | SupportsIndex = 34.0,
    ) -> MainsDuty:
        """
        What the filter does on a mains supply.

        Parameters
        ----------
        supply : MainsSupply
            The supply, of as many lines. Leakage and stored charge are for its voltage at the upper end of its tolerance,
            which is 0 where none is stated.
        capacitance_tolerance : float, default 0
            How far the capacitors may be off either way, as a fraction.
        safe_voltage_v : float, default 34
            Voltage to bleed down to, V (34 V peak within 1 s of unplugging is a figure of IEC 60335-1 as quoted in
            secondary text: state your own).

        Returns
        -------
        MainsDuty

        Raises
        ------
        UnknownNameError
            For a coil or a bead across the mains: it would be a short circuit.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def plot(
        self,
        /,
        frequency_hz: ArrayLike,
        terminations: dict[str, tuple[ModalTermination, ModalTermination]] | None = None,
        ax: Axes | None = None,
    ) -> Axes:
        """
        Plots the loss of every mode between several terminations at once, with the conversion between modes.

        Parameters
        ----------
        frequency_hz : array_like
            Frequencies, Hz.
        terminations : dict[str, tuple[ModalTermination, ModalTermination]], optional
            Source and load by label; where not given 50/50, 0.1/100 and 100/0.1 ohm and an artificial mains network,
            from each line to the case.
        ax : matplotlib.axes.Axes, optional
            Where to draw; a new figure otherwise.

        Returns
        -------
        matplotlib.axes.Axes
            A colour for each pair of terminations; common mode drawn through, between two lines dashed (the least of all
            pairs), from common mode to between two lines dotted (the least of all pairs).
        """
    def replace(self, /, **changes: "object") -> LineFilter:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def residual_current_rms_a(self, /) -> float:
        """
        Current in each line that returns elsewhere, effective value: it magnetises a current-compensated choke fully, A; from 0 to 1e30.
        """
    def sensitivities(
        self,
        /,
        frequency_hz: ArrayLike,
        drive: tuple[SupportsIndex, SupportsIndex] | SupportsIndex | str = ...,
        listen: tuple[SupportsIndex, SupportsIndex] | SupportsIndex | str | None = None,
        source: ModalTermination | None = None,
        load: ModalTermination | None = None,
    ) -> "dict[str, object]":
        """
        Slope of the loss from one mode to another against every parameter that is not zero, largest first.

        Parts of different lines are told apart: what the slopes of two alike parts differ by is what an unbalance does.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        drive, listen, source, load
            As for `insertion_loss_db`.

        Returns
        -------
        dict[str, float or ndarray]
            Path of the parameter to dB for one per cent more of it, of the shape of `frequency_hz`; sorted by the
            largest slope over all frequencies. NaN where there is no slope: at a resonance that nothing damps, and for a
            conversion that nothing but balance prevents.
        """
    def stored_charge(
        self,
        /,
        supply: MainsSupply,
        capacitance_tolerance: SupportsFloat | SupportsIndex = 0.0,
        safe_voltage_v: SupportsFloat | SupportsIndex = 34.0,
    ) -> StoredCharge:
        """
        What the capacitors keep after the supply is switched off: all poles at once; one by one in every order, neutral
        included; the same while a load ties lines together. Each at its worst instants of the mains.

        Discharge every conductor to the case and to the others and prove by measurement that it is dead before anyone
        touches it; discharge resistors fail open.

        Parameters
        ----------
        supply : MainsSupply
            The supply, of as many lines; its voltage at the upper end of its tolerance (0 where none is stated).
        capacitance_tolerance : float, default 0
            How far the capacitors may be off either way, as a fraction.
        safe_voltage_v : float, default 34
            Voltage to discharge to, V.

        Returns
        -------
        StoredCharge

        Examples
        --------
        >>> import stillroom as sr
        >>> filter = sr.LineFilter(2, [
        ...     sr.filters.BetweenLines(sr.filters.Capacitor(2.2e-6)),
        ...     sr.filters.BetweenLines(sr.filters.Resistor(470e3)),
        ...     sr.filters.LinesToCase([sr.filters.Capacitor(5e-6), sr.filters.Capacitor(5e-6)]),
        ... ])
        >>> filter.stored_charge(sr.filters.MainsSupply()).never
        True
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> LineFilter:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> LineFilter:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class LineNetwork:
    """
    A line network: a resistance across a branch of resistance and inductance in series.

    The defaults are those of the artificial mains V-network of CISPR 16-1-2, 50 ohm across 50 uH + 5 ohm,
    for 9 kHz to 30 MHz (section 4.2, whose title is read at mail-archive.com, emc-pstc msg66365).

    Parameters
    ----------
    parallel_ohm : float, default 50
        Resistance across the whole, ohm.
    branch_ohm : float, default 5
        Resistance in the branch, ohm.
    branch_h : float, default 50e-6
        Inductance in the branch, H.
    """
    def __copy__(self, /) -> LineNetwork: ...
    def __deepcopy__(self, /, memo: Any) -> LineNetwork: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        parallel_ohm: SupportsFloat | SupportsIndex = 50.0,
        branch_ohm: SupportsFloat | SupportsIndex = 5.0,
        branch_h: SupportsFloat | SupportsIndex = 50e-6,
    ) -> LineNetwork: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def branch_h(self, /) -> float:
        """
        Inductance in the branch, H.
        """
    @property
    def branch_ohm(self, /) -> float:
        """
        Resistance in the branch, ohm.
        """
    @property
    def parallel_ohm(self, /) -> float:
        """
        Resistance across the whole, ohm.
        """
    def replace(self, /, **changes: "object") -> LineNetwork:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class LinesToCase:
    """
    A part from each line to the case.

    Parameters
    ----------
    parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
        One for each line.
    """
    def __copy__(self, /) -> LinesToCase: ...
    def __deepcopy__(self, /, memo: Any) -> LinesToCase: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, parts: SupportsGetItem[int, Inductor | Capacitor | Resistor | FerriteBead]
    ) -> LinesToCase: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def parts(self, /) -> list[Inductor | Capacitor | Resistor | FerriteBead]:
        """
        The parts, one for each line.
        """
    def replace(self, /, **changes: "object") -> LinesToCase:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class LoopTest:
    """
    Two loops, one on either side of a wall: what a magnetic test below some 20 MHz reads.

    Parameters
    ----------
    arrangement : {"coaxial", "coplanar"}
        Both loops parallel to the wall on one axis, or both in one plane across the wall.
    source_radius_m : float
        Radius of the source loop, m.
    receiver_radius_m : float
        Radius of the receiving loop, m; 0 is a point probe.
    outside_m : float
        Distance of the source's centre from the wall, m.
    inside_m : float
        Distance of the receiver's centre from the wall, m.

    Raises
    ------
    OutOfRangeError
        For a radius or a distance outside its domain.
    RelationError
        For coplanar loops that touch the wall.

    Notes
    -----
    Exact for a constant current around the loop and an unbounded wall, full-wave, to 1e-8 of the
    received field. J. R. Moser, IEEE Trans. EMC 9 (1967) 6 for one layer (from memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> wall = sr.Laminate([(sr.materials.copper, 1e-3)])
    >>> test = sr.LoopTest("coaxial", 0.15, 0.15, outside_m=0.3, inside_m=0.299)
    >>> round(test.shielding_db(wall, 1e3), 2)
    34.17
    """
    def __copy__(self, /) -> LoopTest: ...
    def __deepcopy__(self, /, memo: Any) -> LoopTest: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        arrangement: str = "coaxial",
        source_radius_m: SupportsFloat | SupportsIndex = 0.15,
        receiver_radius_m: SupportsFloat | SupportsIndex = 0.15,
        outside_m: SupportsFloat | SupportsIndex = 0.3,
        inside_m: SupportsFloat | SupportsIndex = 0.3,
    ) -> LoopTest: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def arrangement(self, /) -> str:
        """
        How the loops stand to the wall.
        """
    @property
    def inside_m(self, /) -> float:
        """
        Distance of the receiver's centre from the wall, m.
        """
    def ln_ratio(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex natural logarithm of the received field with the sheet over that without it.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`. Real part: minus the shielding in nepers.
        """
    @property
    def outside_m(self, /) -> float:
        """
        Distance of the source's centre from the wall, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def receiver_radius_m(self, /) -> float:
        """
        Radius of the receiving loop, m.
        """
    def relative_error(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Estimate of the relative error of the received field, from the quadrature.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; not above 3e-9 inside the domain.
        """
    def replace(self, /, **changes: "object") -> LoopTest:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def shielding_db(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Shielding effectiveness that the test reads through an unbounded sheet, dB.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the domain of the test or of the sheet.
        """
    @property
    def source_radius_m(self, /) -> float:
        """
        Radius of the source loop, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> LoopTest:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> LoopTest:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class LossGoal:
    """
    A loss that must be met.

    Parameters
    ----------
    frequency_hz : float
        Frequency, Hz; positive and finite.
    loss_db : float
        Insertion loss to be met, dB; finite.
    circuit : MeasuringCircuit, optional
        Where it is stated; 50 ohm each where not given.
    """
    def __copy__(self, /) -> LossGoal: ...
    def __deepcopy__(self, /, memo: Any) -> LossGoal: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsFloat | SupportsIndex,
        loss_db: SupportsFloat | SupportsIndex,
        circuit: MeasuringCircuit | None = None,
    ) -> LossGoal: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def circuit(self, /) -> MeasuringCircuit:
        """
        Where it is stated; 50 ohm each where not given.
        """
    @property
    def frequency_hz(self, /) -> float:
        """
        Frequency, Hz; positive and finite.
        """
    @property
    def loss_db(self, /) -> float:
        """
        Insertion loss to be met, dB; finite.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> LossGoal:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> LossGoal:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> LossGoal:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class LossSplit:
    """
    The three losses of a single layer, dB; their sum is its shielding effectiveness.

    Parameters
    ----------
    absorption_db, reflection_db, re_reflection_db : array_like
        The losses, dB; they broadcast.
    """
    def __copy__(self, /) -> LossSplit: ...
    def __deepcopy__(self, /, memo: Any) -> LossSplit: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, *, absorption_db: ArrayLike, reflection_db: ArrayLike, re_reflection_db: ArrayLike
    ) -> LossSplit: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def absorption_db(self, /) -> float | NDArray[float64]:
        """
        What the wave loses on one way through, dB.
        """
    @property
    def re_reflection_db(self, /) -> float | NDArray[float64]:
        """
        What reflections inside change, dB; negative where they help the wave through.
        """
    @property
    def reflection_db(self, /) -> float | NDArray[float64]:
        """
        What the two faces turn back, dB.
        """
    def replace(self, /, **changes: "object") -> LossSplit:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def total_db(self, /) -> float | NDArray[float64]:
        """
        The sum, dB.
        """

@final
class LossyLine:
    """
    A length of cable or of lossy line.

    Parameters
    ----------
    length_m : float
        Length, m; from 1e-30 to 1e30.
    characteristic_ohm : float
        Characteristic impedance without loss, ohm; from 1e-30 to 1e30.
    velocity_m_per_s : float
        Velocity without loss, m/s; from 1e-30 to 1e30, at most that of light.
    resistance_ohm_per_m : float, default 0
        Resistance per metre at `reference_hz`, growing as the square root of frequency, ohm/m; from
        0 to 1e30.
    reference_hz : float, default 1e6
        Reference frequency of the resistance, Hz; from 1e-30 to 1e30.
    loss_tangent : float, default 0
        Of the dielectric, constant in frequency; from 0 to 1e30.
    """
    def __copy__(self, /) -> LossyLine: ...
    def __deepcopy__(self, /, memo: Any) -> LossyLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        characteristic_ohm: SupportsFloat | SupportsIndex,
        velocity_m_per_s: SupportsFloat | SupportsIndex,
        *,
        resistance_ohm_per_m: SupportsFloat | SupportsIndex = 0.0,
        reference_hz: SupportsFloat | SupportsIndex = 1e6,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
    ) -> LossyLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def characteristic_ohm(self, /) -> float:
        """
        Characteristic impedance without loss, ohm; from 1e-30 to 1e30.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, m; from 1e-30 to 1e30.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Of the dielectric, constant in frequency; from 0 to 1e30.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def reference_hz(self, /) -> float:
        """
        Reference frequency of the resistance, Hz; from 1e-30 to 1e30.
        """
    def replace(self, /, **changes: "object") -> LossyLine:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm_per_m(self, /) -> float:
        """
        Resistance per metre at `reference_hz`, growing as the square root of frequency, ohm/m; from 0 to 1e30.
        """
    @property
    def velocity_m_per_s(self, /) -> float:
        """
        Velocity without loss, m/s; from 1e-30 to 1e30, at most that of light.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> LossyLine:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> LossyLine:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class MainsDuty:
    """
    What a filter of several lines does on the mains; its text ends with the caution.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bleed_down_s(self, /) -> float:
        """
        Time to bleed down to the safe voltage at the worst of every way to switch off, s; infinite if never.
        """
    @property
    def caution(self, /) -> str:
        """
        What a user of the results should be told about safety.
        """
    @property
    def copper_heat_w(self, /) -> float:
        """
        Heat of the load current in all lines, W.
        """
    @property
    def dielectric_heat_w(self, /) -> float:
        """
        Heat in the dielectrics, W.
        """
    @property
    def earth_leakage(self, /) -> EarthLeakage:
        """
        Currents into the protective earth.
        """
    def exceeded(
        self,
        /,
        *,
        earth_leakage_a: SupportsFloat | SupportsIndex | None = None,
        one_line_lost_a: SupportsFloat | SupportsIndex | None = None,
        worst_leakage_a: SupportsFloat | SupportsIndex | None = None,
        volt_drop_fraction: SupportsFloat | SupportsIndex | None = None,
        no_load_rise_fraction: SupportsFloat | SupportsIndex | None = None,
        bleed_down_s: SupportsFloat | SupportsIndex | None = None,
        left_voltage_v: SupportsFloat | SupportsIndex | None = None,
        left_energy_j: SupportsFloat | SupportsIndex | None = None,
    ) -> dict[str, tuple[float, float]]:
        """
        Limits that are exceeded, empty if all is well; what is allowed is for the code that applies, and for the caller to
        state. `keeps_within` gives a plain yes or no.

        Parameters
        ----------
        earth_leakage_a, one_line_lost_a, worst_leakage_a : float, optional
            Allowed earth-leakage currents with all lines connected, with one conductor lost, and whatever is lost, A.
        volt_drop_fraction, no_load_rise_fraction : float, optional
            Allowed volt drop and rise without load as fractions.
        bleed_down_s : float, optional
            Allowed time to bleed down, s.
        left_voltage_v, left_energy_j : float, optional
            Allowed voltage and energy left for ever, V and J.

        Returns
        -------
        dict[str, tuple[float, float]]
            Quantity to (value, limit) for each limit exceeded.

        Raises
        ------
        OutOfRangeError
            For a limit that is negative, infinite or not a number.
        """
    def keeps_within(
        self,
        /,
        *,
        earth_leakage_a: SupportsFloat | SupportsIndex | None = None,
        one_line_lost_a: SupportsFloat | SupportsIndex | None = None,
        worst_leakage_a: SupportsFloat | SupportsIndex | None = None,
        volt_drop_fraction: SupportsFloat | SupportsIndex | None = None,
        no_load_rise_fraction: SupportsFloat | SupportsIndex | None = None,
        bleed_down_s: SupportsFloat | SupportsIndex | None = None,
        left_voltage_v: SupportsFloat | SupportsIndex | None = None,
        left_energy_j: SupportsFloat | SupportsIndex | None = None,
    ) -> bool:
        """
        Whether all limits that are stated are kept; it says nothing of what no limit is stated for.

        Parameters
        ----------
        earth_leakage_a, one_line_lost_a, worst_leakage_a : float, optional
            Allowed earth-leakage currents with all lines connected, with one conductor lost, and whatever is lost, A.
        volt_drop_fraction, no_load_rise_fraction : float, optional
            Allowed volt drop and rise without load as fractions.
        bleed_down_s : float, optional
            Allowed time to bleed down, s.
        left_voltage_v, left_energy_j : float, optional
            Allowed voltage and energy left for ever, V and J.

        Returns
        -------
        bool

        Raises
        ------
        OutOfRangeError
            For a limit that is negative, infinite or not a number.
        """
    @property
    def load_current_rms_a(self, /) -> float:
        """
        Load current, effective value, A.
        """
    @property
    def no_load_rise_fraction(self, /) -> float:
        """
        Rise of the voltage without load as a fraction, w^2 L C of the loop to first order.
        """
    @property
    def reactive_power_var(self, /) -> float:
        """
        Reactive power of the capacitors at nominal voltage, var.
        """
    @property
    def stored_charge(self, /) -> StoredCharge:
        """
        What the capacitors keep after switching off.
        """
    def volt_drop_at_v(self, /, power_factor: SupportsFloat | SupportsIndex, leading: bool = False) -> float:
        """
        Voltage lost in the worst way at a power factor of the load, V; negative where a leading load lifts it.

        Parameters
        ----------
        power_factor : float
            From 0 to 1.
        leading : bool, default False
            Whether the current leads.
        """
    @property
    def volt_drop_fraction(self, /) -> float:
        """
        The same as a fraction of the nominal voltage.
        """
    @property
    def volt_drop_v(self, /) -> float:
        """
        Bound of the voltage lost under load for every power factor, |Z| I of the worst way, V; coils with their mean
        inductance over the period.
        """
    @property
    def voltage_v(self, /) -> float:
        """
        Nominal voltage of a line against neutral or earth, V.
        """
    @property
    def way_ohm(self, /) -> list[complex]:
        """
        What the load current goes through, ohm: a line and the neutral for each line, the lines alone where there is no
        neutral (three phases without one are loaded alike).
        """

@final
class MainsSupply:
    """
    A mains supply.

    Parameters
    ----------
    system : {"single_line", "line_neutral", "three_phase", "three_phase_neutral"}
        Kind of supply.
    voltage_v : float, default 230
        Voltage of a line against neutral or earth, V (effective value).
    frequency_hz : float, default 50
        Frequency, Hz.
    voltage_tolerance : float, default 0
        By how much the voltage may be higher, as a fraction.
    """
    def __copy__(self, /) -> MainsSupply: ...
    def __deepcopy__(self, /, memo: Any) -> MainsSupply: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        system: str = "line_neutral",
        voltage_v: SupportsFloat | SupportsIndex = 230.0,
        frequency_hz: SupportsFloat | SupportsIndex = 50.0,
        voltage_tolerance: SupportsFloat | SupportsIndex = 0.0,
    ) -> MainsSupply: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def earth_leakage(
        self,
        /,
        capacitance_f: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        capacitance_tolerance: SupportsFloat | SupportsIndex = 0.0,
    ) -> EarthLeakage:
        """
        Earth-leakage current of a capacitance from each line to earth.

        Parameters
        ----------
        capacitance_f : sequence of float
            One for each line, F.
        capacitance_tolerance : float, default 0
            How far they may be off either way, as a fraction.

        Returns
        -------
        EarthLeakage
            At the highest voltage and the worst tolerances, with all lines connected and with lines lost.

        Examples
        --------
        >>> import stillroom as sr
        >>> leakage = sr.filters.MainsSupply("three_phase").earth_leakage([100e-9] * 3)
        >>> round(1e3 * leakage.one_line_lost_a, 1), round(1e3 * leakage.worst_a, 2)
        (12.5, 21.68)
        """
    def earth_leakage_of_star(
        self,
        /,
        capacitance_f: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        to_earth_f: SupportsFloat | SupportsIndex,
        capacitance_tolerance: SupportsFloat | SupportsIndex = 0.0,
    ) -> EarthLeakage:
        """
        Earth-leakage current of a capacitance from each line to a star point, and one from there to earth.

        Parameters
        ----------
        capacitance_f : sequence of float
            One for each line, F.
        to_earth_f : float
            From the star point to earth, F.
        capacitance_tolerance : float, default 0
            How far they may be off either way, as a fraction.

        Returns
        -------
        EarthLeakage
        """
    @property
    def frequency_hz(self, /) -> float:
        """
        Frequency, Hz.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> MainsSupply:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def system(self, /) -> str:
        """
        Kind of supply.
        """
    @property
    def voltage_tolerance(self, /) -> float:
        """
        By how much the voltage may be higher, as a fraction.
        """
    @property
    def voltage_v(self, /) -> float:
        """
        Voltage of a line against neutral or earth, V.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> MainsSupply:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> MainsSupply:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Material:
    """
    A conductor, dielectric or magnetic material.

    Parameters
    ----------
    name : str
        Any name, not empty.
    conductivity_s_per_m : float or PowerLaw, default 0
        Conductivity, S/m, zero or positive.
    relative_permittivity : float or PowerLaw, default 1
        Real part of the relative permittivity without conduction, at least 1.
    loss_tangent : float, default 0
        Loss tangent of the permittivity, zero or positive; not together with a power law.
    relative_permeability : float, RelaxingPermeability or PermeabilityTable, default 1
        Relative permeability, positive. That of metals depends on the field strength and on
        working; catalogue values are typical, and those of magnetic metals carry a tolerance, the parameter
        ``permeability_tolerance`` from -1 to 1.
    range_hz : tuple of float, optional
        Lowest and highest frequency at which the constants are known, Hz.
    source : str, default ""
        Where the constants come from.

    Raises
    ------
    OutOfRangeError
        For a constant outside its domain.

    Examples
    --------
    >>> import stillroom as sr
    >>> copper = sr.Material("copper", conductivity_s_per_m=5.8e7)
    >>> round(copper.skin_depth_m(60.0) * 1e3, 2)
    8.53
    """
    def __copy__(self, /) -> Material: ...
    def __deepcopy__(self, /, memo: Any) -> Material: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        name: str,
        *,
        conductivity_s_per_m: SupportsFloat | SupportsIndex | PowerLaw = ...,
        relative_permittivity: SupportsFloat | SupportsIndex | PowerLaw = ...,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        relative_permeability: SupportsFloat | SupportsIndex | RelaxingPermeability | PermeabilityTable = ...,
        range_hz: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex] | None = None,
        source: str = ...,
    ) -> Material: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def complex_permeability(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex relative permeability, mu' - j mu''.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the range in which the constants are known.
        """
    def complex_permittivity(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex relative permittivity with conduction, eps' - j eps''.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the range in which the constants are known.
        """
    @property
    def conductivity_s_per_m(self, /) -> float | PowerLaw:
        """
        Conductivity, S/m, as it was given.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the permittivity.
        """
    @property
    def name(self, /) -> str:
        """
        Name.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def range_hz(self, /) -> tuple[float, float] | None:
        """
        Lowest and highest frequency at which the constants are known, Hz.
        """
    @property
    def relative_permeability(self, /) -> float | RelaxingPermeability | PermeabilityTable:
        """
        Relative permeability, as it was given.
        """
    @property
    def relative_permittivity(self, /) -> float | PowerLaw:
        """
        Real part of the relative permittivity without conduction, as it was given.
        """
    def replace(self, /, **changes: "object") -> Material:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def skin_depth_m(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Skin depth of a good conductor, m: where a field has fallen to 1/e; infinite without conductivity.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the range in which the constants are known.
        """
    @property
    def source(self, /) -> str:
        """
        Where the constants come from.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Material:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Material:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class MeasuredLoss:
    """
    Measured insertion loss against frequency, joined in ln f and held beyond both ends.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies, increasing, Hz.
    losses_db : sequence of float
        Losses at these, dB.
    circuit : MeasuringCircuit, optional
        What it was measured between; 50 ohm on both sides where not given. The table says little
        elsewhere.
    offset_db : float, default 0
        What is added to the table: a tolerance, or a margin on a data sheet, dB; finite.

    Raises
    ------
    NotIncreasingError, OutOfRangeError, LengthMismatchError, EmptyError
        For columns that do not fit, with the row.
    """
    def __copy__(self, /) -> MeasuredLoss: ...
    def __deepcopy__(self, /, memo: Any) -> MeasuredLoss: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        losses_db: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        circuit: MeasuringCircuit | None = None,
        offset_db: SupportsFloat | SupportsIndex = 0.0,
    ) -> MeasuredLoss: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def circuit(self, /) -> MeasuringCircuit:
        """
        What it was measured between; 50 ohm on both sides where not given. The table says little elsewhere.
        """
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, increasing, Hz.
        """
    @staticmethod
    def from_csv(text: str | PathLike[str]) -> MeasuredLoss:
        """
        From comma-separated text with the columns `frequency_hz` and `insertion_loss_db`.

        Parameters
        ----------
        text : str or pathlib.Path
            Text with a heading whose separator (tab, semicolon or comma) parts all its fields, numbers with decimal
            points; or the path of a file that holds it.

        Raises
        ------
        FormatError
            With the line number.
        """
    def insertion_loss_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Insertion loss, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, outside the table.
        """
    @property
    def losses_db(self, /) -> list[float]:
        """
        Losses at these, dB.
        """
    @property
    def offset_db(self, /) -> float:
        """
        What is added to the table: a tolerance, or a margin on a data sheet, dB; finite.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> MeasuredLoss:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def to_csv(self, /) -> str:
        """
        As comma-separated text, which reads back as the same numbers.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> MeasuredLoss:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> MeasuredLoss:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class MeasuredShield:
    """
    The shield of a cable, bonded to the tube all around, with its transfer impedance as measured.

    Parameters
    ----------
    braid : BraidTable
        Its transfer impedance.
    core_ohm : float, default 50
        Characteristic impedance of the cable, ohm.
    """
    def __copy__(self, /) -> MeasuredShield: ...
    def __deepcopy__(self, /, memo: Any) -> MeasuredShield: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, braid: BraidTable, core_ohm: SupportsFloat | SupportsIndex = 50.0
    ) -> MeasuredShield: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def braid(self, /) -> BraidTable:
        """
        Its transfer impedance.
        """
    @property
    def core_ohm(self, /) -> float:
        """
        Characteristic impedance of the cable, ohm.
        """
    def replace(self, /, **changes: "object") -> MeasuredShield:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class MeasuredTwoPort:
    """
    A measured two-port in the chain.

    Reflections are joined in real and imaginary part, transmissions in log magnitude and phase; held beyond both ends,
    with a warning.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies, Hz, increasing.
    scattering : sequence of (complex, complex, complex, complex)
        S11, S12, S21, S22 at each.
    source_reference_ohm, load_reference_ohm : float, default 50
        Reference resistances of the ports, ohm.

    Raises
    ------
    OutOfRangeError
        With the index, for values that are not finite or without transmission.
    """
    def __copy__(self, /) -> MeasuredTwoPort: ...
    def __deepcopy__(self, /, memo: Any) -> MeasuredTwoPort: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        scattering: SupportsGetItem[int, tuple[complex, complex, complex, complex]],
        source_reference_ohm: SupportsFloat | SupportsIndex = 50.0,
        load_reference_ohm: SupportsFloat | SupportsIndex = 50.0,
    ) -> MeasuredTwoPort: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, Hz.
        """
    @staticmethod
    def from_touchstone(file: Touchstone, tolerance: SupportsFloat | SupportsIndex = 0.0) -> MeasuredTwoPort:
        """
        From a Touchstone file of two ports.

        Parameters
        ----------
        file : Touchstone
            The file.
        tolerance : float, default 0
            By what share of amplitude the data may give out more than they take in.

        Raises
        ------
        OutOfRangeError
            For data that are not passive within the tolerance: by how much, and where.
        """
    @property
    def load_reference_ohm(self, /) -> float:
        """
        Reference resistance of port 2, ohm.
        """
    def replace(self, /, **changes: "object") -> MeasuredTwoPort:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def scattering(self, /) -> list[tuple[complex, complex, complex, complex]]:
        """
        S11, S12, S21, S22 at each.
        """
    @property
    def source_reference_ohm(self, /) -> float:
        """
        Reference resistance of port 1, ohm.
        """

@final
class MeasuringCircuit:
    """
    A source and a load that insertion loss is stated between.

    Parameters
    ----------
    source : complex, LineNetwork or Wire, default 50
        Impedance in ohm with a positive real part, or a model.
    load : complex, LineNetwork or Wire, default 50
        The same for the other side.

    Examples
    --------
    >>> import stillroom as sr
    >>> sr.filters.MeasuringCircuit.low_to_high()
    MeasuringCircuit(source=(0.1+0j), load=(100+0j))
    """
    def __copy__(self, /) -> MeasuringCircuit: ...
    def __deepcopy__(self, /, memo: Any) -> MeasuringCircuit: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, source: LineNetwork | Wire | complex = ..., load: LineNetwork | Wire | complex = ...
    ) -> MeasuringCircuit: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def fifty_ohm() -> MeasuringCircuit:
        """
        50 ohm on both sides: the usual figure in print.
        """
    @staticmethod
    def high_to_low() -> MeasuringCircuit:
        """
        100 ohm source, 0.1 ohm load (CISPR 17).
        """
    @property
    def load(self, /) -> LineNetwork | Wire | complex:
        """
        The load.
        """
    @staticmethod
    def low_to_high() -> MeasuringCircuit:
        """
        0.1 ohm source, 100 ohm load (CISPR 17).
        """
    @staticmethod
    def mains_network() -> MeasuringCircuit:
        """
        The artificial mains V-network of CISPR 16-1-2 as source (9 kHz to 30 MHz), 50 ohm load.
        """
    @staticmethod
    def outside_wire(
        length_m: SupportsFloat | SupportsIndex = 10.0, radius_m: SupportsFloat | SupportsIndex = 1e-3
    ) -> MeasuringCircuit:
        """
        An antenna-like wire outside as source, 50 ohm load.

        Parameters
        ----------
        length_m : float, default 10
            Length of the wire, m.
        radius_m : float, default 1e-3
            Its radius, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> MeasuringCircuit:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def source(self, /) -> LineNetwork | Wire | complex:
        """
        The source.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> MeasuringCircuit:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> MeasuringCircuit:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class ModalTermination:
    """
    What a filter of several lines works between: an impedance in common mode, and one between any two lines.

    Parameters
    ----------
    common : complex, LineNetwork or Wire
        All lines together against the case.
    differential : complex, LineNetwork or Wire
        Between two lines.
    """
    def __copy__(self, /) -> ModalTermination: ...
    def __deepcopy__(self, /, memo: Any) -> ModalTermination: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, common: LineNetwork | Wire | complex, differential: LineNetwork | Wire | complex
    ) -> ModalTermination: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def common(self, /) -> LineNetwork | Wire | complex:
        """
        All lines together against the case.
        """
    @property
    def differential(self, /) -> LineNetwork | Wire | complex:
        """
        Between two lines.
        """
    @staticmethod
    def each_line(resistance_ohm: SupportsFloat | SupportsIndex, lines: SupportsIndex) -> ModalTermination:
        """
        The same resistance from each line to the case.

        Parameters
        ----------
        resistance_ohm : float
            Resistance, ohm, positive.
        lines : int
            Number of lines, 1 to 4.
        """
    @staticmethod
    def mains_network(lines: SupportsIndex) -> ModalTermination:
        """
        The artificial mains V-network of CISPR 16-1-2 (9 kHz to 30 MHz) from each line to the case.

        Parameters
        ----------
        lines : int
            Number of lines, 1 to 4.
        """
    def replace(self, /, **changes: "object") -> ModalTermination:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class Mode:
    """
    One mode of a guide.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency in this guide, Hz.
        """
    @property
    def cutoff_wavenumber_per_m(self, /) -> float:
        """
        Cutoff wavenumber, rad/m.
        """
    @property
    def degeneracy(self, /) -> int:
        """
        How many modes, turned against each other, share this entry.
        """
    @property
    def name(self, /) -> str:
        """
        ModeFamily and order, such as "TE11"; in a hexagon family and place, such as "TE 1".
        """

@final
class Panel(Leak):
    """
    A window: a piece of a sheet in the wall, such as film, mesh or glass.

    Parameters
    ----------
    sheet : Sheet
        What it is made of.
    area_m2 : float
        Area, m^2, positive.

    Notes
    -----
    An aperture of its area that passes the share |T|^2 of the wave, T that of its sheet: a window smaller than the
    first Fresnel zone reads more shielding than its sheet, a larger one the same. Below half a wavelength its frame cuts
    the wave off and less passes than is said, with a warning. Between loops or rods it reads what the open hole would
    (a square), or what a whole wall of its sheet would, whichever passes less. Only the wall of an `Enclosure` is passed
    as a whole. The sheet is taken as joined to its frame all around.
    """
    def __copy__(self, /) -> Panel: ...
    def __deepcopy__(self, /, memo: Any) -> Panel: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, sheet: Sheet, area_m2: SupportsFloat | SupportsIndex) -> Panel: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Area, m^2.
        """
    def replace(self, /, **changes: "object") -> Panel:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sheet(self, /) -> Sheet:
        """
        What it is made of.
        """

@final
class PerforatedSheet:
    """
    A metal sheet with round holes, a layer of a laminate.

    Parameters
    ----------
    hole_diameter_m : float
        Diameter of the holes, smaller than the pitch, m; positive and finite, less than `pitch_m`.
    pitch_m : float
        Distance of nearest holes, centre to centre, m; positive and finite.
    pattern : str, default "square"
        How the holes are arranged.
    thickness_m : float, default 0
        Thickness of the sheet, m; zero or positive, and finite.

    Notes
    -----
    Dipoles in a lattice behind tubes below cutoff; T. Y. Otoshi, IEEE Trans. MTT 20 (1972) 235 is
    the limit of few small holes (from memory). The metal itself is taken as opaque.
    """
    def __copy__(self, /) -> PerforatedSheet: ...
    def __deepcopy__(self, /, memo: Any) -> PerforatedSheet: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        hole_diameter_m: SupportsFloat | SupportsIndex,
        pitch_m: SupportsFloat | SupportsIndex,
        pattern: str = "square",
        thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> PerforatedSheet: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def hole_diameter_m(self, /) -> float:
        """
        Diameter of the holes, smaller than the pitch, m; positive and finite, less than `pitch_m`.
        """
    @property
    def open_fraction(self, /) -> float:
        """
        Share of the sheet that is open.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def pattern(self, /) -> str:
        """
        How the holes are arranged.
        """
    @property
    def pitch_m(self, /) -> float:
        """
        Distance of nearest holes, centre to centre, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> PerforatedSheet:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def rule_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        The handbook formula at normal incidence, 20 lg(3 A wavelength/(2 pi d^3)) + 32 t/d, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`. For comparison: few small holes, no end correction of the depth.
        """
    @property
    def thickness_m(self, /) -> float:
        """
        Thickness of the sheet, m; zero or positive, and finite.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> PerforatedSheet:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> PerforatedSheet:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class PermeabilityTable:
    """
    A permeability read from a table, joined in log frequency and held beyond both ends.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies, Hz, increasing.
    real : sequence of float
        Real parts, positive.
    loss : sequence of float, optional
        Loss parts mu'' (the permeability is mu' - j mu''), zero or positive.
    least, greatest : sequence of complex, optional
        The least and the greatest permeability, mu' - j mu'', that sources give at each frequency.
    tolerance : float, default 0
        Place between these bounds, from -1 (least) by 0 (the table itself) to 1 (greatest); their logarithms are joined.
        As a parameter of a material: ``permeability_tolerance``.

    Notes
    -----
    It is the local permeability, used with the skin depth. What is measured on a stack of laminations is lowered by
    their eddy currents already and must not be used here.
    """
    def __copy__(self, /) -> PermeabilityTable: ...
    def __deepcopy__(self, /, memo: Any) -> PermeabilityTable: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        real: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        loss: SupportsGetItem[int, SupportsFloat | SupportsIndex] = ...,
        least: SupportsGetItem[int, complex] | None = None,
        greatest: SupportsGetItem[int, complex] | None = None,
        tolerance: SupportsFloat | SupportsIndex = 0.0,
    ) -> PermeabilityTable: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, Hz.
        """
    @property
    def greatest(self, /) -> list[complex] | None:
        """
        The greatest permeability, where it was given.
        """
    @property
    def least(self, /) -> list[complex] | None:
        """
        The least permeability, where it was given.
        """
    @property
    def loss(self, /) -> list[float]:
        """
        Loss parts.
        """
    @property
    def real(self, /) -> list[float]:
        """
        Real parts.
        """
    def replace(self, /, **changes: "object") -> PermeabilityTable:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def tolerance(self, /) -> float:
        """
        Place between them, from -1 to 1.
        """

@final
class PlaneWave:
    """
    A uniform plane wave on the room.

    Parameters
    ----------
    angle_deg : float, default 0
        Angle from the normal of the wall, degrees, 0 to less than 90.
    polarization : {"te", "tm"}, default "te"
        Which field lies in the wall: the electric one ("te") or the magnetic one ("tm").
    inside_m : float, default 1.0
        Distance behind the wall at which the field is observed, m. It matters for openings, whose
        field spreads behind them; a sheet is the same at every distance.

    Raises
    ------
    OutOfRangeError
        For an angle or a distance outside its domain.
    UnknownNameError
        For another polarization.

    Examples
    --------
    >>> import stillroom as sr
    >>> sr.PlaneWave(angle_deg=30.0)
    PlaneWave(angle_deg=30.0, polarization='te', inside_m=1.0)
    """
    def __copy__(self, /) -> PlaneWave: ...
    def __deepcopy__(self, /, memo: Any) -> PlaneWave: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        angle_deg: SupportsFloat | SupportsIndex = 0.0,
        polarization: Literal["te", "tm"] = ...,
        inside_m: SupportsFloat | SupportsIndex = 1.0,
    ) -> PlaneWave: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def angle_deg(self, /) -> float:
        """
        Angle from the normal of the wall, degrees.
        """
    @property
    def inside_m(self, /) -> float:
        """
        Distance behind the wall at which the field is observed, m.
        """
    @property
    def polarization(self, /) -> str:
        """
        Which field lies in the wall.
        """
    def replace(self, /, **changes: "object") -> PlaneWave:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class Polarizability:
    """
    Static polarizabilities of an opening that is small against the wavelength, m^3.

    Convention: the dipoles act in the presence of the closed wall and are driven by the field on
    the closed wall; a round hole of radius a has the magnetic one 4 a^3/3 and the electric one
    2 a^3/3 (H. A. Bethe, Phys. Rev. 66 (1944) 163, from memory).
    """
    def __copy__(self, /) -> Polarizability: ...
    def __deepcopy__(self, /, memo: Any) -> Polarizability: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        electric_m3: SupportsFloat | SupportsIndex,
        magnetic_along_m3: SupportsFloat | SupportsIndex,
        magnetic_across_m3: SupportsFloat | SupportsIndex,
    ) -> Polarizability: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def electric_m3(self, /) -> float:
        """
        Electric, for the field normal to the wall, m^3.
        """
    @property
    def magnetic_across_m3(self, /) -> float:
        """
        Magnetic, for the field in the wall across that axis, m^3.
        """
    @property
    def magnetic_along_m3(self, /) -> float:
        """
        Magnetic, for the field in the wall along the longer axis, m^3.
        """
    @staticmethod
    def of_circle(diameter_m: SupportsFloat | SupportsIndex) -> Polarizability:
        """
        Of a round hole.

        Parameters
        ----------
        diameter_m : float
            Diameter, m, positive.
        """
    @staticmethod
    def of_cross(
        length_m: SupportsFloat | SupportsIndex, width_m: SupportsFloat | SupportsIndex
    ) -> Polarizability:
        """
        Of a cross of two equal slots at right angles.

        Parameters
        ----------
        length_m, width_m : float
            Length and width of each slot, m, positive, the width at most the length.
        """
    @staticmethod
    def of_ellipse(
        length_m: SupportsFloat | SupportsIndex, width_m: SupportsFloat | SupportsIndex
    ) -> Polarizability:
        """
        Of an elliptic hole.

        Parameters
        ----------
        length_m, width_m : float
            Whole axes, m, positive, the width at most the length.
        """
    @staticmethod
    def of_rectangle(
        length_m: SupportsFloat | SupportsIndex, width_m: SupportsFloat | SupportsIndex
    ) -> Polarizability:
        """
        Of a rectangular hole.

        Parameters
        ----------
        length_m, width_m : float
            Sides, m, positive, the width at most the length.
        """
    @staticmethod
    def of_rounded_slot(
        length_m: SupportsFloat | SupportsIndex, width_m: SupportsFloat | SupportsIndex
    ) -> Polarizability:
        """
        Of a slot with half-round ends.

        Parameters
        ----------
        length_m, width_m : float
            Whole length and width, m, positive, the width at most the length.
        """
    def replace(self, /, **changes: "object") -> Polarizability:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class PowerLaw:
    """
    A quantity that follows `coefficient * (f / 1 GHz)**exponent`.

    This is how Recommendation ITU-R P.2040 writes the permittivity and the conductivity of building
    materials.

    Parameters
    ----------
    coefficient : float
        Value at 1 GHz.
    exponent : float, default 0
        Exponent of the frequency.
    """
    def __copy__(self, /) -> PowerLaw: ...
    def __deepcopy__(self, /, memo: Any) -> PowerLaw: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, coefficient: SupportsFloat | SupportsIndex, exponent: SupportsFloat | SupportsIndex = 0.0
    ) -> PowerLaw: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def coefficient(self, /) -> float:
        """
        Value at 1 GHz.
        """
    @property
    def exponent(self, /) -> float:
        """
        Exponent of the frequency.
        """
    def replace(self, /, **changes: "object") -> PowerLaw:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class PreferredSeries:
    """
    A series of preferred values of IEC 60063.

    Parameters
    ----------
    name : {"E3", "E6", "E12", "E24", "E48", "E96", "E192"}
        The series.

    Examples
    --------
    >>> import stillroom as sr
    >>> sr.filters.PreferredSeries("E12").nearest(4.6e-9)
    4.7e-09
    """
    def __copy__(self, /) -> PreferredSeries: ...
    def __deepcopy__(self, /, memo: Any) -> PreferredSeries: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str) -> PreferredSeries: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def at_least(self, /, value: SupportsFloat | SupportsIndex) -> float:
        """
        The smallest preferred value that is not below a positive value.
        """
    def at_most(self, /, value: SupportsFloat | SupportsIndex) -> float:
        """
        The largest preferred value that is not above a positive value.
        """
    @property
    def decade(self, /) -> list[float]:
        """
        Values from 1 to below 10.
        """
    @property
    def name(self, /) -> str:
        """
        The series.
        """
    def nearest(self, /, value: SupportsFloat | SupportsIndex) -> float:
        """
        The preferred value nearest by ratio to a positive value.
        """
    def replace(self, /, **changes: "object") -> PreferredSeries:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def tolerance(self, /) -> float:
        """
        Customary tolerance as a fraction.
        """

@final
class Prototype:
    """
    Normalised values of a low-pass ladder, for 1 rad/s and a source of 1 ohm.

    Made by `butterworth`, `chebyshev` or `equal_sections`.

    Notes
    -----
    G. L. Matthaei, L. Young and E. M. T. Jones, *Microwave Filters, Impedance-Matching Networks, and Coupling
    Structures*, 1964, sec. 4.05.

    Examples
    --------
    >>> import stillroom as sr
    >>> [round(value, 4) for value in sr.filters.Prototype.chebyshev(3, 0.1).values]
    [1.0316, 1.1474, 1.0316]
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def butterworth(parts: SupportsIndex) -> Prototype:
        """
        Maximally flat.

        Parameters
        ----------
        parts : int
            Number of parts, 1 to 40.
        """
    @staticmethod
    def chebyshev(parts: SupportsIndex, ripple_db: SupportsFloat | SupportsIndex) -> Prototype:
        """
        Equal ripple.

        Parameters
        ----------
        parts : int
            Number of parts, 1 to 40.
        ripple_db : float
            Ripple in the pass band, dB, positive.
        """
    @staticmethod
    def equal_sections(parts: SupportsIndex) -> Prototype:
        """
        Constant-k sections.

        Parameters
        ----------
        parts : int
            Number of parts, 1 to 40.
        """
    @property
    def family(self, /) -> str:
        """
        The family in words.
        """
    @property
    def load(self, /) -> float:
        """
        The last value: load resistance behind a shunt part, load conductance behind a series part.
        """
    @property
    def values(self, /) -> list[float]:
        """
        Element values g1 to gn.
        """

@final
class RandomHoles:
    """
    Holes thrown at random into a rectangle, one after another, wherever there is room.

    Parameters
    ----------
    count : int
        Number of holes, 1 to 10000.
    width_m : float
        Width of the rectangle that holds them whole, m, positive.
    height_m : float
        Its height, m, positive.
    seed : int, default 0
        The same seed throws the same holes on every machine.
    """
    def __copy__(self, /) -> RandomHoles: ...
    def __deepcopy__(self, /, memo: Any) -> RandomHoles: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        count: SupportsIndex,
        width_m: SupportsFloat | SupportsIndex,
        height_m: SupportsFloat | SupportsIndex,
        seed: SupportsIndex = 0,
    ) -> RandomHoles: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def count(self, /) -> int:
        """
        Number of holes.
        """
    @property
    def height_m(self, /) -> float:
        """
        Height of the rectangle, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> RandomHoles:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def seed(self, /) -> int:
        """
        What the holes were thrown with.
        """
    @property
    def width_m(self, /) -> float:
        """
        Width of the rectangle, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> RandomHoles:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> RandomHoles:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class RectangularGuide:
    """
    A rectangular guide.

    Parameters
    ----------
    width_m, height_m : float
        Inner sides, m.
    relative_permittivity : float, default 1
        Of the filling, at least 1.
    loss_tangent : float, default 0
        Of the filling.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.

    Notes
    -----
    Cutoff pi/width. D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.3.
    """
    def __copy__(self, /) -> RectangularGuide: ...
    def __deepcopy__(self, /, memo: Any) -> RectangularGuide: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        width_m: SupportsFloat | SupportsIndex,
        height_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex = 1.0,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> RectangularGuide: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def attenuation_db_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> float | NDArray[float64]:
        """
        Attenuation of a mode, dB/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the dominant mode, Hz.
        """
    @property
    def height_m(self, /) -> float:
        """
        Inner height, m.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the filling.
        """
    def mode(self, /, name: str) -> Mode:
        """
        One mode by its name.

        Parameters
        ----------
        name : str
            "TE11" or "TM0,12": azimuthal and radial order in a circle, half-waves along width and height of a rectangle,
            up to 500; in a hexagon family and place, "TE 1" to "TE 23" and "TM 1" to "TM 20".

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    def modes(self, /, count: SupportsIndex) -> list[Mode]:
        """
        The lowest modes by rising cutoff.

        Parameters
        ----------
        count : int
            How many at most; 43 entries are known of the hexagon, any number of the others.

        Returns
        -------
        list of Mode
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def propagation_per_m(
        self, /, frequency_hz: ArrayLike, mode: str | None = None
    ) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of a mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        mode : str, optional
            Its name, as for `mode`; the dominant mode where not given.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Finite through cutoff, where the wall's share is
            of first order in the square of gamma.

        Raises
        ------
        UnknownNameError
            If the guide has no such mode.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
        """
    def replace(self, /, **changes: "object") -> RectangularGuide:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    @property
    def width_m(self, /) -> float:
        """
        Inner width, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> RectangularGuide:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> RectangularGuide:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class RectangularSlot(Leak):
    """
    A rectangular slot in a wall of any thickness, from a crack to a square.

    Parameters
    ----------
    length_m : float
        Length, the longer side, m; positive and finite.
    width_m : float
        Width, the shorter side, m; positive and finite, at most `length_m`.
    wall_thickness_m : float, default 0
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.

    Notes
    -----
    Averaged over angle and polarization. Resonates near half a wavelength, where it passes about
    lambda^2/(4 pi) whatever its width. Within 0.6 dB of mode matching up to the half-wave resonance and
    1.6 dB up to a width of one wavelength (width/length 0.1 to 1, walls up to 0.6 lengths); exact for
    small and for large slots. The wall is a perfect conductor.

    Examples
    --------
    >>> import stillroom as sr
    >>> slot = sr.RectangularSlot(length_m=0.1, width_m=1e-3)
    >>> slot.cross_section_m2(1.45e9) > 1e3 * slot.cross_section_m2(0.3e9)
    True
    """
    def __copy__(self, /) -> RectangularSlot: ...
    def __deepcopy__(self, /, memo: Any) -> RectangularSlot: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        width_m: SupportsFloat | SupportsIndex,
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> RectangularSlot: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, the longer side, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> RectangularSlot:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.
        """
    @property
    def width_m(self, /) -> float:
        """
        Width, the shorter side, m; positive and finite, at most `length_m`.
        """

@final
class RelaxingPermeability:
    """
    A permeability with one relaxation: 1 + (initial - 1)/(1 + j f/relaxation).

    Parameters
    ----------
    initial : float
        Relative permeability well below the relaxation, at least 1.
    relaxation_hz : float
        Frequency of the relaxation, Hz.
    """
    def __copy__(self, /) -> RelaxingPermeability: ...
    def __deepcopy__(self, /, memo: Any) -> RelaxingPermeability: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, initial: SupportsFloat | SupportsIndex, relaxation_hz: SupportsFloat | SupportsIndex
    ) -> RelaxingPermeability: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def initial(self, /) -> float:
        """
        Relative permeability well below the relaxation.
        """
    @property
    def relaxation_hz(self, /) -> float:
        """
        Frequency of the relaxation, Hz.
        """
    def replace(self, /, **changes: "object") -> RelaxingPermeability:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class Requirement:
    """
    Required shielding effectiveness: points joined by straight lines over log frequency.

    Two points at one frequency make a step, where the greater value holds. Outside the points nothing
    is required (-inf dB), and the margin is infinite.

    Parameters
    ----------
    points : sequence of (float, float)
        Frequency in Hz and shielding in dB, in rising order of frequency.

    Raises
    ------
    NotIncreasingError
        For frequencies that fall, or more than two points at one frequency.

    Examples
    --------
    >>> import stillroom as sr
    >>> asked = sr.Requirement([(14e3, 60.0), (1e6, 100.0), (18e9, 100.0)])
    >>> asked.required_db(10e6)
    100.0
    """
    def __copy__(self, /) -> Requirement: ...
    def __deepcopy__(self, /, memo: Any) -> Requirement: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        points: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]],
    ) -> Requirement: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def points(self, /) -> list[tuple[float, float]]:
        """
        The points: frequency in Hz and shielding in dB.
        """
    def replace(self, /, **changes: "object") -> Requirement:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def required_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        What is required, dB; -inf where nothing is.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        """

@final
class Resistor:
    """
    A resistor with its parasitics: R with series L, and C across both.

    Parameters
    ----------
    resistance_ohm : float
        Resistance, ohm; from 1e-30 to 1e30.
    series_inductance_h : float, default 0
        Series inductance, H; from 0 to 1e30.
    parallel_capacitance_f : float, default 0
        Capacitance across it, F; from 0 to 1e30.

    Raises
    ------
    OutOfRangeError
        For a value outside its domain, by name.
    """
    def __copy__(self, /) -> Resistor: ...
    def __deepcopy__(self, /, memo: Any) -> Resistor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        resistance_ohm: SupportsFloat | SupportsIndex,
        *,
        series_inductance_h: SupportsFloat | SupportsIndex = 0.0,
        parallel_capacitance_f: SupportsFloat | SupportsIndex = 0.0,
    ) -> Resistor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def impedance_ohm(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Impedance, ohm.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def parallel_capacitance_f(self, /) -> float:
        """
        Capacitance across it, F; from 0 to 1e30.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> Resistor:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> float:
        """
        Resistance, ohm; from 1e-30 to 1e30.
        """
    @property
    def series_inductance_h(self, /) -> float:
        """
        Series inductance, H; from 0 to 1e30.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Resistor:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Resistor:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Rod:
    """
    A round dielectric rod on the axis of a tube: an optical fibre, its jacket, a plastic tie, the water in a hose.

    Off the axis, or against the wall, it leaks less than on it. A cable with a metal strength member is no rod: a conductor in a tube has
    no cutoff. A wet, carbon-loaded or metallised jacket is a rod with loss, and passes a hundred decibels and more above a dry one.

    Parameters
    ----------
    diameter_m : float
        Diameter, m; from 1e-10 to 1e7.
    relative_permittivity : float
        Relative permittivity ε'; from 1 to 1e5.
    loss_tangent : float, default 0
        Zero or positive; from 0 to 1e5.
    outside_m : float, default 0
        Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush, m;
        from 0 to 1e7. A fibre that runs on stands out by its length; what lies farther out than a
        few widths of the tube adds nothing.
    inside_m : float, default 0
        Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush, m;
        from 0 to 1e7. A fibre that runs on stands out by its length; what lies farther out than a
        few widths of the tube adds nothing.

    Notes
    -----
    How much more a rod couples that stands out is a bound of our own on electrostatic finite elements (permittivity 2 to 1000, 0.1 to 0.95
    of the bore): 0 to 4 dB on the safe side at each end.

    Examples
    --------
    >>> import stillroom as sr
    >>> fed = sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3, sr.tubes.Rod(3e-3, 5.0))
    >>> round(fed.attenuation_db(1e9)), round(fed.attenuation_db(1e9, order=1))
    (144, 192)
    """
    def __copy__(self, /) -> Rod: ...
    def __deepcopy__(self, /, memo: Any) -> Rod: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        diameter_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        outside_m: SupportsFloat | SupportsIndex = 0.0,
        inside_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> Rod: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def bundle(
        count: SupportsIndex,
        fibre_diameter_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex,
        loss_tangent: SupportsFloat | SupportsIndex = 0.0,
        outside_m: SupportsFloat | SupportsIndex = 0.0,
        inside_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> Rod:
        """
        What stands for several fibres alike, wherever they lie: one rod on the axis with the area of all.

        It passes more than the bundle (symmetrisation, from memory). The circle around the bundle is no such bound: a thicker rod of the same
        material may leak less. Where the number is unknown, a rod of 0.6 of the bore is the worst far below cutoff.

        Parameters
        ----------
        count : int
            How many, at least one.
        fibre_diameter_m : float
            Diameter of each, m.
        relative_permittivity : float
            At least 1.
        loss_tangent : float, default 0
            Zero or positive.
        outside_m, inside_m : float, default 0
            Lengths that stand out of the tube's outer and inner end, m.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m; from 1e-10 to 1e7.
        """
    @property
    def inside_m(self, /) -> float:
        """
        Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush, m; from 0 to 1e7. A fibre that runs on stands out by its length; what lies farther out than a few widths of the tube adds nothing.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Zero or positive; from 0 to 1e5.
        """
    @property
    def outside_m(self, /) -> float:
        """
        Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush, m; from 0 to 1e7. A fibre that runs on stands out by its length; what lies farther out than a few widths of the tube adds nothing.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity ε'; from 1 to 1e5.
        """
    def replace(self, /, **changes: "object") -> Rod:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Rod:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Rod:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class RodTest:
    """
    Two short rods normal to the wall, one on either side: what an electric test reads.

    Parameters
    ----------
    source_length_m : float, default 0
        Whole length of the source; zero for a point dipole, m; zero or positive, and finite, less
        than 1.98 times its distance.
    receiver_length_m : float, default 0
        Whole length of the receiver; zero for a point dipole, m; zero or positive, and finite, less
        than 1.98 times its distance.
    outside_m : float, default 0.3
        Distance of the source's centre from the wall, m; positive and finite.
    inside_m : float, default 0.3
        Distance of the receiver's centre from the wall, m; positive and finite.

    Notes
    -----
    Exact for a triangular current and an unbounded wall, full-wave.
    """
    def __copy__(self, /) -> RodTest: ...
    def __deepcopy__(self, /, memo: Any) -> RodTest: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        source_length_m: SupportsFloat | SupportsIndex = 0.0,
        receiver_length_m: SupportsFloat | SupportsIndex = 0.0,
        outside_m: SupportsFloat | SupportsIndex = 0.3,
        inside_m: SupportsFloat | SupportsIndex = 0.3,
    ) -> RodTest: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def inside_m(self, /) -> float:
        """
        Distance of the receiver's centre from the wall, m; positive and finite.
        """
    def ln_ratio(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex natural logarithm of the received field with the sheet over that without it.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`. Real part: minus the shielding in nepers.
        """
    @property
    def outside_m(self, /) -> float:
        """
        Distance of the source's centre from the wall, m; positive and finite.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def receiver_length_m(self, /) -> float:
        """
        Whole length of the receiver; zero for a point dipole, m; zero or positive, and finite, less than 1.98 times its distance.
        """
    def relative_error(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Estimate of the relative error of the received field, from the quadrature.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; not above 3e-9 inside the domain.
        """
    def replace(self, /, **changes: "object") -> RodTest:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def shielding_db(self, /, sheet: Sheet, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Shielding effectiveness that the test reads through an unbounded sheet, dB.

        Parameters
        ----------
        sheet : Sheet
            The wall: any laminate.
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the domain of the test or of the sheet.
        """
    @property
    def source_length_m(self, /) -> float:
        """
        Whole length of the source; zero for a point dipole, m; zero or positive, and finite, less than 1.98 times its distance.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> RodTest:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> RodTest:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class RoomEstimate:
    """
    Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field, dB.

    Parameters
    ----------
    shielding_db, lowest_db, highest_db : array_like
        The estimate and its bounds, dB; they broadcast.
    """
    def __copy__(self, /) -> RoomEstimate: ...
    def __deepcopy__(self, /, memo: Any) -> RoomEstimate: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, *, shielding_db: ArrayLike, lowest_db: ArrayLike, highest_db: ArrayLike
    ) -> RoomEstimate: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def highest_db(self, /) -> float | NDArray[float64]:
        """
        The highest of them, dB.
        """
    @property
    def lowest_db(self, /) -> float | NDArray[float64]:
        """
        The lowest of the spheres from the inscribed to the circumscribed one, dB.
        """
    def replace(self, /, **changes: "object") -> RoomEstimate:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def shielding_db(self, /) -> float | NDArray[float64]:
        """
        Of the sphere with the room's ratio of volume to surface, dB.
        """

@final
class RoundCell:
    """
    A round honeycomb cell, as drilled, with six neighbours.

    Parameters
    ----------
    diameter_m : float
        Inner diameter, m.
    wall_m : float, default 0
        Web where neighbours come nearest, m; at most twice the diameter.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.
    """
    def __copy__(self, /) -> RoundCell: ...
    def __deepcopy__(self, /, memo: Any) -> RoundCell: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        diameter_m: SupportsFloat | SupportsIndex,
        wall_m: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> RoundCell: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the cell, Hz.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Inner diameter, m.
        """
    @property
    def open_fraction(self, /) -> float:
        """
        Open area over the whole, 0 to 1.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> RoundCell:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    @property
    def wall_m(self, /) -> float:
        """
        Web where neighbours come nearest, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> RoundCell:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> RoundCell:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class RoundedSlot(Leak):
    """
    A slot with half-round ends, as a milling cutter leaves it, in a wall of any thickness.

    Parameters
    ----------
    length_m : float
        Length, the longer side, m; positive and finite.
    width_m : float
        Width, the shorter side, m; positive and finite, at most `length_m`.
    wall_thickness_m : float, default 0
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.

    Notes
    -----
    Polarizabilities from the static integral equations, to 1e-4; as wide as long it is a circle. The
    wall is a perfect conductor.

    Examples
    --------
    >>> import stillroom as sr
    >>> slot = sr.apertures.RoundedSlot(length_m=40e-3, width_m=5e-3, wall_thickness_m=2e-3)
    >>> sharp = sr.RectangularSlot(40e-3, 5e-3, 2e-3)
    >>> slot.cross_section_m2(1e9) < sharp.cross_section_m2(1e9)
    True
    """
    def __copy__(self, /) -> RoundedSlot: ...
    def __deepcopy__(self, /, memo: Any) -> RoundedSlot: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        width_m: SupportsFloat | SupportsIndex,
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> RoundedSlot: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def area_m2(self, /) -> float:
        """
        Open area, m^2.
        """
    def cross_section_towards_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2.

        Parameters
        ----------
        frequency_hz, angle_deg, azimuth_deg, polarization
            As for `cross_section_towards_m2`.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments.
        """
    def cross_section_towards_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        azimuth_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Transmission cross-section for waves from one direction, m^2.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal of the wall, degrees, 0 to less than 90.
        azimuth_deg : array_like, default 0
            Angle between the plane of incidence and the opening's length (of an array: its rows),
            degrees. All three broadcast.
        polarization : {"te", "tm"}, default "te"
            Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            incidence, in the wall.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            polarizations is `cross_section_m2`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length, the longer side, m; positive and finite.
        """
    def replace(self, /, **changes: "object") -> RoundedSlot:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m; zero or positive, and finite. Zero for an infinitely thin one.
        """
    @property
    def width_m(self, /) -> float:
        """
        Width, the shorter side, m; positive and finite, at most `length_m`.
        """

@final
class Seam(Leak):
    """
    A bolted seam between two panels: a slit through an overlap, shorted by fasteners.

    Parameters
    ----------
    length_m : float
        Length of the seam, m; positive and finite.
    fastener_pitch_m : float
        Distance between fasteners, m; positive and finite, at most `length_m`.
    gap_m : float
        Gap between the faces, m; positive and finite, less than `fastener_pitch_m`.
    overlap_m : float
        Depth of the overlap, m; zero or positive, and finite.
    contact_conductance_s_per_m : float, default 0
        Conductance between the faces per length of seam, S/m; zero or positive, and finite. Zero
        (no contact between the fasteners) is the cautious assumption.
    contact_inductance_h_m : float, optional
        Inductance of that contact times length of seam, H m; from 0 to 1. Where not given it is
        that of contact spots, L/n with L = (mu0 g/2 pi) ln(s/2 pi a) and n spots a metre on the
        whole depth.
    contact_spot_radius_m : float, optional
        Radius a of a contact spot, m; positive and finite, at most a tenth of the spacing. 0.1 mm
        where not given; for a flat contact of a width w along the seam, w/4.
    contact_spot_spacing_m : float, optional
        Distance s between spots along the seam and into its depth, m; positive and finite. 10 mm
        where not given.
    contact_gap_m : float, optional
        Gap for which contact and fasteners are stated, m; positive and finite. That of the first
        joint that it is put into where not given; in another gap, their resistance and inductance
        follow the gap in proportion.
    fastener_resistance_ohm : float, optional
        What one fastener leaves between the faces, ohm; zero or positive, and finite. 0.25 mohm
        where not given.
    fastener_inductance_h : float, optional
        Inductance of that, H; from 0 to 1. Zero where not given.
    faces : Material, optional
        The metal of the faces. Where neither this nor a coating is given, steel under 20 um of
        zinc.
    coating : Material, optional
        What they are coated with. Zinc where only its thickness is given.
    coating_thickness_m : float, optional
        Thickness of the coating, m; zero or positive, and finite. 20 um where only the coating is
        given.
    sheet_thickness_m : float, optional
        Thickness of the sheets, with free space behind them, m; positive and finite. Far beyond the
        skin depth where not given.
    open_fasteners : sequence of int, optional
        Numbers of the fasteners that are loose or missing, from 1 (the first after the start) to
        one less than the number of bays. Each makes one bay of its two, without contact.
    open_gap_m : float, optional
        Gap beside those, m; positive and finite, less than `fastener_pitch_m`, at least the gap.
        That of the seam where not given.

    Notes
    -----
    Below half a wavelength of pitch each bay is a short slot below cutoff; above, waves run through
    the overlap and only contact and wall loss weaken them. Fasteners press the faces together through
    the whole depth of the overlap.

    Pressure, plating and ageing decide contact and fasteners: treat them as knobs with a tolerance.
    The defaults for spots, fasteners and zinc are of the usual size (common practice, no source).
    `validity` tells where a default for contact or fasteners moves the number by a decibel and more.

    A change of `gap_m` by `with_parameter`, a sweep or a tolerance takes contact and fasteners with it,
    stretched in proportion, which is the mildest law under which an opened joint gets no better; a real contact
    loses more. A seam built anew with another gap and the same contact states that this contact was
    found at that gap.

    Examples
    --------
    >>> import stillroom as sr
    >>> seam = sr.Seam(length_m=42.0, fastener_pitch_m=0.1, gap_m=20e-6, overlap_m=25e-3)
    >>> pressed = seam.with_parameters({"contact_conductance_s_per_m": 1e4, "contact_inductance_h_m": 1e-15})
    >>> pressed.cross_section_db(18e9) < seam.cross_section_db(18e9) - 10
    True
    """
    def __copy__(self, /) -> Seam: ...
    def __deepcopy__(self, /, memo: Any) -> Seam: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        length_m: SupportsFloat | SupportsIndex,
        fastener_pitch_m: SupportsFloat | SupportsIndex,
        gap_m: SupportsFloat | SupportsIndex,
        overlap_m: SupportsFloat | SupportsIndex,
        contact_conductance_s_per_m: SupportsFloat | SupportsIndex = 0.0,
        contact_inductance_h_m: SupportsFloat | SupportsIndex | None = None,
        contact_spot_radius_m: SupportsFloat | SupportsIndex | None = None,
        contact_spot_spacing_m: SupportsFloat | SupportsIndex | None = None,
        contact_gap_m: SupportsFloat | SupportsIndex | None = None,
        fastener_resistance_ohm: SupportsFloat | SupportsIndex | None = None,
        fastener_inductance_h: SupportsFloat | SupportsIndex | None = None,
        faces: Material | None = None,
        coating: Material | None = None,
        coating_thickness_m: SupportsFloat | SupportsIndex | None = None,
        sheet_thickness_m: SupportsFloat | SupportsIndex | None = None,
        open_fasteners: SupportsGetItem[int, SupportsIndex] | None = None,
        open_gap_m: SupportsFloat | SupportsIndex | None = None,
    ) -> Seam: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bays(self, /) -> float:
        """
        Number of bays; the last one may be a part.
        """
    @property
    def coating(self, /) -> Material | None:
        """
        What they are coated with. Zinc where only its thickness is given.
        """
    @property
    def coating_thickness_m(self, /) -> float | None:
        """
        Thickness of the coating, m; zero or positive, and finite. 20 um where only the coating is given.
        """
    @property
    def contact_conductance_s_per_m(self, /) -> float:
        """
        Conductance between the faces per length of seam, S/m; zero or positive, and finite. Zero (no contact between the fasteners) is the cautious assumption.
        """
    @property
    def contact_gap_m(self, /) -> float | None:
        """
        Gap for which contact and fasteners are stated, m; positive and finite. That of the first joint that it is put into where not given; in another gap, their resistance and inductance follow the gap in proportion.
        """
    @property
    def contact_inductance_h_m(self, /) -> float | None:
        """
        Inductance of that contact times length of seam, H m; from 0 to 1. Where not given it is that of contact spots, L/n with L = (mu0 g/2 pi) ln(s/2 pi a) and n spots a metre on the whole depth.
        """
    @property
    def contact_spot_radius_m(self, /) -> float | None:
        """
        Radius a of a contact spot, m; positive and finite, at most a tenth of the spacing. 0.1 mm where not given; for a flat contact of a width w along the seam, w/4.
        """
    @property
    def contact_spot_spacing_m(self, /) -> float | None:
        """
        Distance s between spots along the seam and into its depth, m; positive and finite. 10 mm where not given.
        """
    @property
    def faces(self, /) -> Material:
        """
        The metal of the faces. Where neither this nor a coating is given, steel under 20 um of zinc.
        """
    @property
    def fastener_inductance_h(self, /) -> float | None:
        """
        Inductance of that, H; from 0 to 1. Zero where not given.
        """
    @property
    def fastener_pitch_m(self, /) -> float:
        """
        Distance between fasteners, m; positive and finite, at most `length_m`.
        """
    @property
    def fastener_resistance_ohm(self, /) -> float | None:
        """
        What one fastener leaves between the faces, ohm; zero or positive, and finite. 0.25 mohm where not given.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap between the faces, m; positive and finite, less than `fastener_pitch_m`.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length of the seam, m; positive and finite.
        """
    @property
    def open_fasteners(self, /) -> list[int]:
        """
        Numbers of the fasteners that are loose or missing, from 1 (the first after the start) to one less than the number of bays. Each makes one bay of its two, without contact.
        """
    @property
    def open_gap_m(self, /) -> float | None:
        """
        Gap beside those, m; positive and finite, less than `fastener_pitch_m`, at least the gap. That of the seam where not given.
        """
    @property
    def overlap_m(self, /) -> float:
        """
        Depth of the overlap, m; zero or positive, and finite.
        """
    def replace(self, /, **changes: "object") -> Seam:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sheet_thickness_m(self, /) -> float | None:
        """
        Thickness of the sheets, with free space behind them, m; positive and finite. Far beyond the skin depth where not given.
        """

@final
class Series:
    """
    A part in the line.

    Parameters
    ----------
    part : Inductor, Capacitor, Resistor or FerriteBead
        The part.
    """
    def __copy__(self, /) -> Series: ...
    def __deepcopy__(self, /, memo: Any) -> Series: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, part: Inductor | Capacitor | Resistor | FerriteBead) -> Series: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def part(self, /) -> Inductor | Capacitor | Resistor | FerriteBead:
        """
        The part.
        """
    def replace(self, /, **changes: "object") -> Series:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@disjoint_base
class Sheet:
    """
    Anything flat that a wave goes through as a whole; the base class of laminates.
    """
    def ln_transmission(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> complex | NDArray[complex128]:
        """
        Complex natural logarithm of the transmission (tangential electric field behind over incident).

        Parameters
        ----------
        frequency_hz, angle_deg, polarization
            As for `shielding_db`.

        Returns
        -------
        complex or ndarray of complex
            Real part: minus the loss in nepers. Imaginary part: phase in radians, not unwrapped.
        """
    def shielding_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: ArrayLike | None = None,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Shielding effectiveness under a plane wave, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        angle_deg : array_like, default 0
            Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the sheet.

        Returns
        -------
        float or ndarray
            Joint shape of the arguments; positive where the field behind is weaker.

        Warns
        -----
        DomainWarning
            Once, if any frequency is outside the sheet's domain.
        """
    @property
    def thickness_m(self, /) -> float:
        """
        Whole thickness, m.
        """

@final
class Shunt:
    """
    A part from the line to the case.

    Parameters
    ----------
    part : Inductor, Capacitor, Resistor or FerriteBead
        The part.
    """
    def __copy__(self, /) -> Shunt: ...
    def __deepcopy__(self, /, memo: Any) -> Shunt: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, part: Inductor | Capacitor | Resistor | FerriteBead) -> Shunt: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def part(self, /) -> Inductor | Capacitor | Resistor | FerriteBead:
        """
        The part.
        """
    def replace(self, /, **changes: "object") -> Shunt:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """

@final
class Sizing:
    """
    A number that reaches a target, found by `size_laminate`.
    """
    def __copy__(self, /) -> Sizing: ...
    def __deepcopy__(self, /, memo: Any) -> Sizing: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        value: SupportsFloat | SupportsIndex,
        margin_db: SupportsFloat | SupportsIndex,
        worst_frequency_hz: SupportsFloat | SupportsIndex,
        laminate: Laminate,
    ) -> Sizing: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def laminate(self, /) -> Sheet:
        """
        The laminate with that value.
        """
    @property
    def margin_db(self, /) -> float:
        """
        What is left over at the worst frequency, dB.
        """
    def replace(self, /, **changes: "object") -> Sizing:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def value(self, /) -> float:
        """
        The value found, in the unit that ends its path.
        """
    @property
    def worst_frequency_hz(self, /) -> float:
        """
        The worst frequency, Hz.
        """

@final
class SquareCell:
    """
    A square honeycomb cell.

    Parameters
    ----------
    side_m : float
        Inner side, m.
    wall_m : float, default 0
        Whole thickness of the wall between two cells, m; at most twice the side.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.
    """
    def __copy__(self, /) -> SquareCell: ...
    def __deepcopy__(self, /, memo: Any) -> SquareCell: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        side_m: SupportsFloat | SupportsIndex,
        wall_m: SupportsFloat | SupportsIndex = 0.0,
        wall_conductivity_s_per_m: SupportsFloat | SupportsIndex | None = None,
    ) -> SquareCell: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the cell, Hz.
        """
    @property
    def open_fraction(self, /) -> float:
        """
        Open area over the whole, 0 to 1.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> SquareCell:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def side_m(self, /) -> float:
        """
        Inner side, m.
        """
    @property
    def wall_conductivity_s_per_m(self, /) -> float | None:
        """
        Conductivity of the wall, S/m, or None for a perfect conductor.
        """
    @property
    def wall_m(self, /) -> float:
        """
        Thickness of the wall between two cells, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> SquareCell:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> SquareCell:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class StarPoint:
    """
    A part from each line to a star point of their own, and perhaps one from there to the case.

    Parameters
    ----------
    parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
        One for each line.
    to_case : Inductor, Capacitor, Resistor or FerriteBead, optional
        From the star point to the case; nothing is there where not given.
    """
    def __copy__(self, /) -> StarPoint: ...
    def __deepcopy__(self, /, memo: Any) -> StarPoint: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        parts: SupportsGetItem[int, Inductor | Capacitor | Resistor | FerriteBead],
        to_case: Inductor | Capacitor | Resistor | FerriteBead | None = None,
    ) -> StarPoint: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def parts(self, /) -> list[Inductor | Capacitor | Resistor | FerriteBead]:
        """
        The parts, one for each line.
        """
    def replace(self, /, **changes: "object") -> StarPoint:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def to_case(self, /) -> Inductor | Capacitor | Resistor | FerriteBead | None:
        """
        From the star point to the case, or None.
        """

@final
class StoredCharge:
    """
    What the capacitors keep after switching off; its text ends with the caution.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def capacitance_tolerance(self, /) -> float:
        """
        How far the capacitors were taken off either way, as a fraction.
        """
    @property
    def cases(self, /) -> list[Discharge]:
        """
        For each way of switching off, to the case and between lines, worst first.
        """
    @property
    def caution(self, /) -> str:
        """
        What a user of the results should be told about safety.
        """
    @property
    def left_j(self, /) -> float:
        """
        Largest energy left for ever, J.
        """
    @property
    def left_v(self, /) -> float:
        """
        Largest voltage left for ever, V.
        """
    @property
    def never(self, /) -> bool:
        """
        Whether something never falls to the safe voltage.
        """
    @property
    def safe_voltage_v(self, /) -> float:
        """
        The safe voltage, V.
        """
    @property
    def time_s(self, /) -> float:
        """
        Time until everything is at the safe voltage for good, s; infinite if never.
        """
    @property
    def voltage_tolerance(self, /) -> float:
        """
        By how much the supply's voltage was taken higher than nominal, as a fraction.
        """
    @property
    def worst(self, /) -> Discharge | None:
        """
        The worst, or None where nothing can hold charge.
        """

@final
class StripEquivalent:
    """
    The equivalent circuit that is published for a box with one slot in the middle of its front.

    The slot is a shorted coplanar strip line, the box a shorted guide in its lowest mode, without loss. For
    comparison beside `BenchBox`.

    Parameters
    ----------
    interior_m : tuple[float, float, float]
        Width, height and depth inside, m.
    slot_m : tuple[float, float]
        Length (along the width) and width of the slot, m.
    wall_thickness_m : float, default 0
        Thickness of the front, m.

    Notes
    -----
    M. P. Robinson et al., "Analytical formulation for the shielding effectiveness of enclosures with
    apertures", IEEE Trans. Electromagn. Compat. 40 (1998) 240 (from memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> circuit = sr.boxes.StripEquivalent((0.3, 0.12, 0.3), (0.1, 5e-3), wall_thickness_m=1.5e-3)
    >>> round(circuit.electric_shielding_db(400e6, distance_m=0.15), 1)
    36.8
    """
    def __copy__(self, /) -> StripEquivalent: ...
    def __deepcopy__(self, /, memo: Any) -> StripEquivalent: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        interior_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        slot_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
        wall_thickness_m: SupportsFloat | SupportsIndex = 0.0,
    ) -> StripEquivalent: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def electric_shielding_db(
        self, /, frequency_hz: ArrayLike, distance_m: SupportsFloat | SupportsIndex
    ) -> float | NDArray[float64]:
        """
        Electric shielding at a distance from the front, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        distance_m : float
            Distance from the front, m, within the box.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def interior_m(self, /) -> tuple[float, float, float]:
        """
        Width, height and depth inside, m.
        """
    @property
    def line_impedance_ohm(self, /) -> float:
        """
        Impedance of the slot as a strip line, ohm.
        """
    def magnetic_shielding_db(
        self, /, frequency_hz: ArrayLike, distance_m: SupportsFloat | SupportsIndex
    ) -> float | NDArray[float64]:
        """
        Magnetic shielding at a distance from the front, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        distance_m : float
            Distance from the front, m, within the box.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> StripEquivalent:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def slot_m(self, /) -> tuple[float, float]:
        """
        Length and width of the slot, m.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the front, m.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> StripEquivalent:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> StripEquivalent:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Study:
    """
    Shielding of every leak and of the whole against frequency, under one exposure.

    Made by `Enclosure.study`. Rows of its tables are leaks, the wall first; columns are frequencies.

    Parameters
    ----------
    enclosure : Enclosure
        The room.
    frequency_hz : array_like
        Frequencies, Hz; flattened.
    exposure : AntennaTest, PlaneWave, LoopTest or RodTest
        What it is exposed to.
    masked : bool, default False
        Whether NaN stands for each number outside its domain.

    Notes
    -----
    Each number tells whether it is inside the domain of its model (`valid`). The whole is valid where what contributes
    to it is (`total_valid`): where all leaks outside their domain together read at least 40 dB above it.

    A study keeps its numbers when it is pickled or sent to another process, and tells which version of the library made
    them (`version`): nothing is computed again when it is loaded. The room and the exposure go with it and are made again
    when they are asked for.
    """
    def __copy__(self, /) -> Study: ...
    def __deepcopy__(self, /, memo: Any) -> Study: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        enclosure: Enclosure,
        frequency_hz: ArrayLike,
        exposure: AntennaTest | PlaneWave | LoopTest | RodTest,
        masked: bool = False,
    ) -> Study: ...
    def __reduce__(self, /) -> "tuple[object, tuple[dict[str, object]]]": ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _kept(numbers: "dict[str, object]") -> Study:
        """
        A study from the numbers that pickling kept, whatever version of the library kept them.
        """
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What must be said about safety with these numbers.
        """
    @property
    def enclosure(self, /) -> Enclosure:
        """
        The room.
        """
    @property
    def exposure(self, /) -> AntennaTest | PlaneWave | LoopTest | RodTest:
        """
        What it was exposed to.
        """
    @property
    def frequency_hz(self, /) -> NDArray[float64]:
        """
        Frequencies, Hz.
        """
    @property
    def leaks(self, /) -> list[str]:
        """
        Names of the leaks, the wall first: the rows of the tables.
        """
    def limiting(self, /) -> list[str]:
        """
        Name of the leak that lets most through, at each frequency.
        """
    def limiting_bands(self, /) -> list[tuple[float, float, str, float]]:
        """
        The same as runs of neighbouring frequencies: (from_hz, to_hz, leak, least total dB).
        """
    def limits(self, /, leak: str) -> list[tuple[float, float, str]]:
        """
        Limits passed by one leak, as runs of neighbouring frequencies: (from_hz, to_hz, words), such as
        "1 MHz to 30 MHz: ...", with the value farthest beyond the limit.

        Parameters
        ----------
        leak : str
            Its name.
        """
    def margin_db(self, /, requirement: Requirement) -> NDArray[float64]:
        """
        Estimate of the whole minus what is required, dB; infinite where nothing is required.

        Parameters
        ----------
        requirement : Requirement
        """
    def masked(self, /) -> Study:
        """
        The same study with NaN for each number outside its domain: in the tables, the totals, and all that is made of
        them. What limits is told as before.

        Returns
        -------
        Study
        """
    def needed_db(self, /, requirement: Requirement) -> NDArray[float64]:
        """
        What each leak alone would have to reach for the whole to meet the requirement, dB.

        Infinite where the others alone let too much through; -inf where nothing is required.

        Parameters
        ----------
        requirement : Requirement

        Returns
        -------
        ndarray
            Shape (leaks, frequencies).
        """
    def plot(self, /, requirement: Requirement | None = None, ax: Axes | None = None) -> Axes:
        """
        Plots every leak and the whole against frequency.

        Numbers outside a model's domain are drawn dotted, those of the whole by `total_valid`.

        Parameters
        ----------
        requirement : Requirement, optional
            Drawn as a step line that the whole should stay above.
        ax : matplotlib.axes.Axes, optional
            Where to draw; a new figure otherwise.

        Returns
        -------
        matplotlib.axes.Axes
        """
    @property
    def shielding_db(self, /) -> NDArray[float64]:
        """
        Shielding effectiveness of each leak alone, dB; shape (leaks, frequencies).
        """
    def to_pandas(self, /, requirement: Requirement | None = None) -> DataFrame:
        """
        A pandas data frame: one row a frequency, one column a leak, then the whole.

        Parameters
        ----------
        requirement : Requirement, optional
            Adds what is required and the margin.

        Returns
        -------
        pandas.DataFrame
            Indexed by frequency in Hz; levels in dB.
        """
    def to_xarray(self, /) -> Dataset:
        """
        An xarray data set with the dimensions ``leak`` and ``frequency_hz``.

        Returns
        -------
        xarray.Dataset
        """
    @property
    def total_db(self, /) -> NDArray[float64]:
        """
        Shielding effectiveness of the whole, powers added, dB: the estimate.
        """
    @property
    def total_valid(self, /) -> NDArray[bool_]:
        """
        Whether the whole can be relied on: every leak is valid, or those that are not read together at least 40 dB above
        the whole. A leak that is left out of the test, or that answers no number, makes it invalid.
        """
    @property
    def total_worst_case_db(self, /) -> NDArray[float64]:
        """
        Shielding effectiveness of the whole, amplitudes added, dB: no choice of phases is worse.
        """
    @property
    def valid(self, /) -> NDArray[bool_]:
        """
        Whether each number is one, and inside the domain of its model; shape (leaks, frequencies).
        """
    @property
    def version(self, /) -> str:
        """
        Version of the library that made the numbers.
        """
    @property
    def worst_case_db(self, /) -> NDArray[float64]:
        """
        The same with the elements of each leak adding in amplitude, dB.
        """
    def worst_case_margin_db(self, /, requirement: Requirement) -> NDArray[float64]:
        """
        Worst case of the whole minus what is required, dB; infinite where nothing is required.

        Parameters
        ----------
        requirement : Requirement
        """

@final
class TabulatedLeak(Leak):
    """
    A leak known by measurement or computed elsewhere: its cross-section in a table.

    Joined in log frequency; held beyond both ends, with a warning.

    Parameters
    ----------
    frequency_hz : sequence of float
        Frequencies of the table, Hz.
    values_m2 : sequence of float
        Transmission cross-sections, m^2, m2.
    scale_db : float, default 0
        What is added to the table: a knob for tolerances, dB; finite.
    """
    def __copy__(self, /) -> TabulatedLeak: ...
    def __deepcopy__(self, /, memo: Any) -> TabulatedLeak: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        values_m2: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        scale_db: SupportsFloat | SupportsIndex = 0.0,
    ) -> TabulatedLeak: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies of the table, Hz.
        """
    @staticmethod
    def from_csv(text: str | PathLike[str]) -> "TabulatedLeak":
        """
        From text with the columns `frequency_hz` and `cross_section_m2`.

        Parameters
        ----------
        text : str or pathlib.Path
            Text with a heading whose separator (tab, semicolon or comma) parts all its fields, numbers with decimal
            points; or the path of a file that holds it.

        Raises
        ------
        FormatError
            With line and column, what was found there and what was expected.
        """
    @staticmethod
    def from_shielding_csv(
        text: str | PathLike[str], test: AntennaTest | PlaneWave | LoopTest | RodTest
    ) -> "TabulatedLeak":
        """
        The same from text with the columns `frequency_hz` and `shielding_db`.

        Parameters
        ----------
        text : str or pathlib.Path
            As for `from_csv`.
        test : AntennaTest, PlaneWave, LoopTest or RodTest
            The test in which it was read, with its distances.

        Raises
        ------
        FormatError
            With line and column, what was found there and what was expected.
        """
    @staticmethod
    def from_shielding_db(
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        shielding_db: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        test: AntennaTest | PlaneWave | LoopTest | RodTest,
    ) -> "TabulatedLeak":
        """
        From the shielding that a stated test has read: the leak that reads the same in it again.

        Parameters
        ----------
        frequency_hz : sequence of float
            Frequencies, Hz, increasing.
        shielding_db : sequence of float
            Shielding effectiveness read at them, dB.
        test : AntennaTest, PlaneWave, LoopTest or RodTest
            The test in which it was read, with its distances.

        Notes
        -----
        Taken as one small leak that the antennas face, with the directivity 3 of a small hole. In another test than that
        in which it was read it is an estimate of that kind.

        Examples
        --------
        >>> import stillroom as sr
        >>> test = sr.AntennaTest(outside_m=1.0, inside_m=0.5)
        >>> hatch = sr.TabulatedLeak.from_shielding_db([1e8, 1e9], [110.0, 92.0], test)
        """
    def replace(self, /, **changes: "object") -> TabulatedLeak:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def scale_db(self, /) -> float:
        """
        What is added to the table: a knob for tolerances, dB; finite.
        """
    def to_csv(self, /) -> str:
        """
        As comma-separated text, which reads back as the same numbers; without the scale.
        """
    @property
    def values_m2(self, /) -> list[float]:
        """
        Transmission cross-sections, m^2, m2.
        """

@final
class ThroughWire:
    """
    A round conductor through a tube, with what sticks out on either side: a wire left in a fibre tube, the metal strength
    member of a fibre cable, a cable.

    It makes the tube a coaxial line, which has no cutoff, between a receiving antenna outside and a transmitting one inside.

    Parameters
    ----------
    diameter_m : float
        Diameter, m.
    outside_m, inside_m : float
        Lengths that stick out, m; more than twice the diameter.
    bond : WallBond or BondedShield or MeasuredShield, optional
        How it is joined to the tube; not at all where not given.

    Notes
    -----
    The ends are straight monopoles on the wall, as lossy open lines (E. Siegel, J. Labus, 1934). Real wires bend: the size
    of the effect, within several dB.
    """
    def __copy__(self, /) -> ThroughWire: ...
    def __deepcopy__(self, /, memo: Any) -> ThroughWire: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        diameter_m: SupportsFloat | SupportsIndex,
        outside_m: SupportsFloat | SupportsIndex,
        inside_m: SupportsFloat | SupportsIndex,
        bond: WallBond | BondedShield | MeasuredShield | None = None,
    ) -> ThroughWire: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bond(self, /) -> WallBond | BondedShield | MeasuredShield | None:
        """
        How it is joined to the tube, or None.
        """
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m.
        """
    @property
    def inside_m(self, /) -> float:
        """
        Length inside, m.
        """
    @property
    def outside_m(self, /) -> float:
        """
        Length outside, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    def replace(self, /, **changes: "object") -> ThroughWire:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> ThroughWire:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> ThroughWire:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class Touchstone:
    """
    Network parameters of one to four ports from or to a Touchstone 1.1 file.

    Numbers stay as the file holds them: written and read again they are equal to the last bit, in every unit and
    format. Made by `parse`, `read` or `from_scattering`.

    Notes
    -----
    *Touchstone File Format Specification*, IBIS Open Forum.

    Examples
    --------
    >>> import stillroom as sr
    >>> file = sr.filters.Touchstone.parse("# MHz S RI R 50\\n10 0.1 0 0.9 0 0.9 0 0.1 0\\n", 2)
    >>> file.scattering()[0, 1, 0]
    np.complex128(0.9+0j)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> "tuple[object, tuple[str, int]]": ...
    def __repr__(self, /) -> str: ...
    def check_passive(self, /, tolerance: SupportsFloat | SupportsIndex = 0.0) -> None:
        """
        Refuses data that give out more than they take in.

        Parameters
        ----------
        tolerance : float, default 0
            What is let pass for noise, as a share of amplitude.

        Raises
        ------
        OutOfRangeError
            That names the worst frequency and the largest singular value there.
        """
    @property
    def comments(self, /) -> list[str]:
        """
        Comment lines above the data.
        """
    def excess_gain(self, /) -> NDArray[float64]:
        """
        How far the data are from passive: largest singular value of S less one, shape (n,); above zero is gain.
        """
    @property
    def format(self, /) -> str:
        """
        How pairs are written: RI, MA or DB.
        """
    @property
    def frequency_hz(self, /) -> NDArray[float64]:
        """
        Frequencies, Hz, shape (n,).
        """
    @staticmethod
    def from_scattering(
        frequency_hz: SupportsGetItem[int, SupportsFloat | SupportsIndex],
        scattering: ArrayLike,
        reference_ohm: SupportsFloat | SupportsIndex = 50.0,
    ) -> Touchstone:
        """
        From scattering parameters.

        Parameters
        ----------
        frequency_hz : ndarray
            Frequencies, Hz, shape (n,), increasing.
        scattering : ndarray of complex
            Shape (n, ports, ports).
        reference_ohm : float, default 50
            Reference resistance, ohm.
        """
    @property
    def noise(self, /) -> list[tuple[float, float, float, float, float]]:
        """
        Noise data of a two-port: frequency (Hz), least noise figure (dB), reflection (magnitude, degrees), normalised
        noise resistance.
        """
    @property
    def parameter(self, /) -> str:
        """
        Which parameters the file holds: S, Y, Z, H or G.
        """
    @staticmethod
    def parse(text: str, ports: SupportsIndex) -> Touchstone:
        """
        Reads a file's text.

        Parameters
        ----------
        text : str
            Content of the file.
        ports : int
            Number of ports, 1 to 4: what the file's name says.

        Raises
        ------
        FormatError
            With the line number, what was found there and what was expected.
        """
    @property
    def ports(self, /) -> int:
        """
        Number of ports.
        """
    @staticmethod
    def read(path: str | PathLike[str]) -> Touchstone:
        """
        Reads a file; its name ends in .s1p to .s4p.

        Parameters
        ----------
        path : str or path
            The file.
        """
    @property
    def reference_ohm(self, /) -> list[float]:
        """
        Reference resistance of each port, ohm.
        """
    def rewritten(
        self,
        /,
        *,
        comments: SupportsGetItem[int, str] | None = None,
        unit: str | None = None,
        format: str | None = None,
    ) -> Touchstone:
        """
        The same content with other comments, another unit of frequency, or another format of pairs.

        Parameters
        ----------
        comments : sequence of str, optional
            Lines above the data.
        unit : {"Hz", "kHz", "MHz", "GHz"}, optional
            No number changes but for the place of its decimal point.
        format : {"RI", "MA", "DB"}, optional
            Numbers are converted once, to rounding.
        """
    def scattering(self, /) -> NDArray[complex128]:
        """
        Scattering parameters, whatever the file holds, shape (n, ports, ports).

        Raises
        ------
        OutOfRangeError
            Where they do not exist, with the index.
        """
    def to_text(self, /) -> str:
        """
        The file's text.
        """
    @property
    def unit(self, /) -> str:
        """
        Unit of the frequency column.
        """
    def values(self, /) -> NDArray[complex128]:
        """
        The parameters that the file holds, as complex numbers, shape (n, ports, ports).
        """
    def write(self, /, path: str | PathLike[str]) -> None:
        """
        Writes a file.

        Parameters
        ----------
        path : str or path
            The file; its name should end in .s1p to .s4p, as the number of ports is.
        """

@final
class Tube(Leak):
    """
    A tube through the wall, empty, with a dielectric rod on its axis, or with a conductor through it; a leak.

    Parameters
    ----------
    guide : Guide
        Its cross-section.
    length_m : float
        Its length, m; from 1e-10 to 1e7.
    rod : Rod, optional
        A dielectric rod inside; thinner than the tube.
    conductor : ThroughWire, optional
        A conductor through it: the fault that undoes a tube. Not touching the wall.

    Notes
    -----
    With a rod the leak is the sum of two modes' powers, each with its own decay and its own ends: HE11, which far below cutoff decays as in
    the empty tube, and TM0, which a permittivity of 2 to 3 and more draws in, so that it is what leaks. Both are exact in a round tube; in
    square and hexagonal ones round tubes of the same cutoffs stand in, on the safe side. A full pipe (water: 78) is low in cutoff, a thick
    rod of water in a hose worse: a filled tube is no bound for a tube with a rod. A fibre cable with a metal strength member is both: the
    jacket the rod, the member the conductor.

    The cross-section includes the two ends: the lowest mode of each symmetry, joined by mode matching to the half-space and to the
    higher modes. Below cutoff that is the attenuation over the length plus the coupling of the ends; far above cutoff half of the
    open area. `directional_cross_section_m2` takes all modes, at one direction and polarization.

    Examples
    --------
    >>> import stillroom as sr
    >>> tube = sr.Tube(sr.tubes.CircularGuide(6e-3), length_m=36e-3)
    >>> round(tube.attenuation_db(1e9), 1)
    191.8
    """
    def __copy__(self, /) -> Tube: ...
    def __deepcopy__(self, /, memo: Any) -> Tube: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        guide: CircularGuide | RectangularGuide | HexagonalGuide,
        length_m: SupportsFloat | SupportsIndex,
        rod: Rod | None = None,
        conductor: ThroughWire | None = None,
    ) -> Tube: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def attenuation_db(
        self, /, frequency_hz: ArrayLike, order: SupportsIndex | None = None
    ) -> float | NDArray[float64]:
        """
        Attenuation over the length of the mode that decays least, without the ends, dB.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        order : {0, 1}, optional
            One mode alone: 0 the lowest TM mode (with a rod TM0), 1 the dominant one (with a rod HE11).

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    @property
    def conductor(self, /) -> ThroughWire | None:
        """
        A conductor through it: the fault that undoes a tube. Not touching the wall.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency, with a rod the lower of its two modes', Hz; set by the real part of the permittivity.
        """
    def directional_cross_section_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: SupportsFloat | SupportsIndex = 0.0,
        azimuth_deg: SupportsFloat | SupportsIndex = 0.0,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2, with no floor.

        Parameters
        ----------
        frequency_hz : array_like
            As for `directional_cross_section_m2`.
        angle_deg, azimuth_deg : float, default 0
            Degrees.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def directional_cross_section_m2(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: SupportsFloat | SupportsIndex = 0.0,
        azimuth_deg: SupportsFloat | SupportsIndex = 0.0,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        Cross-section under one plane wave, m^2, by full mode matching.

        All modes at both ends, in the limit of many: slower than `cross_section_m2`, and right also above the second mode's cutoff. A
        conductor in the tube adds what it takes as a straight monopole on the wall: TM waves, none along the normal.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz. Above ten times the cutoff of the empty tube, of a hexagon 2.5 times, it is blended into the geometric
            limit and a warning says so.
        angle_deg : float, default 0
            Angle from the normal, degrees, 0 to less than 90.
        azimuth_deg : float, default 0
            Turn of the plane of incidence about the normal, degrees; from the width of a rectangle, from the axis through two
            corners of a hexagon.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`: transmitted power over the power density of the wave. Far above cutoff it goes to the open
            area times the cosine of the angle. `directional_error_db` estimates what it is off by.

        Raises
        ------
        StillroomError
            Beyond those angles, and for a rectangle more than five times as long as wide.
        """
    def directional_error_db(
        self,
        /,
        frequency_hz: ArrayLike,
        angle_deg: SupportsFloat | SupportsIndex = 0.0,
        azimuth_deg: SupportsFloat | SupportsIndex = 0.0,
        polarization: Literal["te", "tm"] = ...,
    ) -> float | NDArray[float64]:
        """
        How far `directional_cross_section_db` is off by estimate, dB.

        The distance between the limits that three and two numbers of modes point to; the better of the two is what is given.

        Parameters
        ----------
        frequency_hz : array_like
            As for `directional_cross_section_m2`.
        angle_deg, azimuth_deg : float, default 0
            Degrees.
        polarization : {"te", "tm"}, default "te"
            Which field lies in the face.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; infinite where the geometric limit stands in.
        """
    @property
    def guide(self, /) -> CircularGuide | RectangularGuide | HexagonalGuide:
        """
        Its cross-section.
        """
    @property
    def length_m(self, /) -> float:
        """
        Its length, m; from 1e-10 to 1e7.
        """
    def matched_cross_section_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        The same in dB relative to 1 m^2, with no floor.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz; as for `directional_cross_section_m2`.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def matched_cross_section_m2(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Cross-section averaged over directions and polarizations, m^2, by full mode matching.

        The same quantity as `cross_section_m2`, with all modes, in the limit of many.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz; as for `directional_cross_section_m2`.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`.
        """
    def matched_error_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        How far `matched_cross_section_db` is off by estimate, dB, as for `directional_error_db`.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz; as for `directional_cross_section_m2`.

        Returns
        -------
        float or ndarray
            Shape of `frequency_hz`; infinite where the geometric limit stands in.
        """
    def replace(self, /, **changes: "object") -> Tube:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def rod(self, /) -> Rod | None:
        """
        A dielectric rod inside; thinner than the tube.
        """
    def with_conductor(self, /, conductor: ThroughWire) -> Tube:
        """
        The same tube with a conductor through it.

        Parameters
        ----------
        conductor : ThroughWire
            Not touching the wall.
        """

@final
class UnbondedNodes:
    """
    The glued nodes of foil honeycomb that is neither soldered nor plated.

    Parameters
    ----------
    glue_m : float
        Thickness of the glue between two ribbons, m.
    relative_permittivity : float
        Of the glue, at least 1.
    foil_conductivity_s_per_m : float
        Conductivity of the foil, S/m.
    contact_resistance_ohm_m : float, optional
        Resistance of what contact there is over a length of node, ohm m; no contact at all where not given. To be
        measured: no formula knows it.
    """
    def __copy__(self, /) -> UnbondedNodes: ...
    def __deepcopy__(self, /, memo: Any) -> UnbondedNodes: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        glue_m: SupportsFloat | SupportsIndex,
        relative_permittivity: SupportsFloat | SupportsIndex,
        foil_conductivity_s_per_m: SupportsFloat | SupportsIndex,
        contact_resistance_ohm_m: SupportsFloat | SupportsIndex | None = None,
    ) -> UnbondedNodes: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def contact_resistance_ohm_m(self, /) -> float | None:
        """
        Resistance of the contact over a length of node, ohm m, or None where there is no contact.
        """
    @property
    def foil_conductivity_s_per_m(self, /) -> float:
        """
        Conductivity of the foil, S/m.
        """
    @property
    def glue_m(self, /) -> float:
        """
        Thickness of the glue, m.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the glue.
        """
    def replace(self, /, **changes: "object") -> UnbondedNodes:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> UnbondedNodes:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> UnbondedNodes:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class WallBond:
    """
    A bond of a conductor to the tube, at its outer end.

    Parameters
    ----------
    resistance_ohm : float
        Resistance of the bond, ohm.
    inductance_h : float
        Inductance of the bond, H.
    """
    def __copy__(self, /) -> WallBond: ...
    def __deepcopy__(self, /, memo: Any) -> WallBond: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, resistance_ohm: SupportsFloat | SupportsIndex, inductance_h: SupportsFloat | SupportsIndex
    ) -> WallBond: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def inductance_h(self, /) -> float:
        """
        Inductance of the bond, H.
        """
    def replace(self, /, **changes: "object") -> WallBond:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> float:
        """
        Resistance of the bond, ohm.
        """

@final
class Wire:
    """
    A wire that stands off a conducting plane, as the plane's terminal sees it: an antenna-like termination.

    Parameters
    ----------
    length_m : float
        Length, m; from 1e-30 to 1e30.
    radius_m : float
        Radius, below a tenth of the length, m; from 1e-30 to 1e30, less than a tenth of the length.

    Notes
    -----
    An open line with radiation as damping; exact for short wires, 36.6 ohm at the quarter wave, an
    interpolation of ours between and beyond (a few dB).
    """
    def __copy__(self, /) -> Wire: ...
    def __deepcopy__(self, /, memo: Any) -> Wire: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, length_m: SupportsFloat | SupportsIndex, radius_m: SupportsFloat | SupportsIndex
    ) -> Wire: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def length_m(self, /) -> float:
        """
        Length, m; from 1e-30 to 1e30.
        """
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def radius_m(self, /) -> float:
        """
        Radius, below a tenth of the length, m; from 1e-30 to 1e30, less than a tenth of the length.
        """
    def replace(self, /, **changes: "object") -> Wire:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> Wire:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> Wire:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class WireMesh:
    """
    A bonded square mesh of round wires, a layer of a laminate.

    Parameters
    ----------
    pitch_m : float
        Distance of wires, centre to centre, m; from 1e-9 to 1e6.
    wire_diameter_m : float
        Diameter of the wire, smaller than the pitch, m; from 1e-9 to 1e6, less than `pitch_m`.
    wire : Material
        What the wire is made of; it must conduct.

    Notes
    -----
    Sheet impedance by K. F. Casey, IEEE Trans. EMC 30 (1988) 298 (abstract read, equations from
    memory). Holds while the pitch is below a quarter wavelength and the crossings are bonded; unbonded
    crossings leak more, and no closed form knows how much.

    Examples
    --------
    >>> import stillroom as sr
    >>> screen = sr.Laminate([sr.sheets.WireMesh(1.3e-3, 0.25e-3, sr.materials.copper)])
    >>> round(screen.shielding_db(100e6), 2)
    62.99
    """
    def __copy__(self, /) -> WireMesh: ...
    def __deepcopy__(self, /, memo: Any) -> WireMesh: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        pitch_m: SupportsFloat | SupportsIndex,
        wire_diameter_m: SupportsFloat | SupportsIndex,
        wire: Material,
    ) -> WireMesh: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def parameter(self, /, path: str) -> float:
        """
        The value of one parameter.

        Parameters
        ----------
        path : str
            As listed by `parameters`.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        """
    def parameters(self, /) -> dict[str, Parameter]:
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, Parameter]
            Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
        """
    @property
    def pitch_m(self, /) -> float:
        """
        Distance of wires, centre to centre, m; from 1e-9 to 1e6.
        """
    def replace(self, /, **changes: "object") -> WireMesh:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def sheet_inductance_h(self, /) -> float:
        """
        Sheet inductance of the openings, H per square.
        """
    @property
    def wire(self, /) -> Material:
        """
        What the wire is made of; it must conduct.
        """
    @property
    def wire_diameter_m(self, /) -> float:
        """
        Diameter of the wire, smaller than the pitch, m; from 1e-9 to 1e6, less than `pitch_m`.
        """
    def wire_impedance_ohm_per_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Internal impedance of the wire per length, ohm/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    def with_parameter(self, /, path: str, value: SupportsFloat | SupportsIndex) -> WireMesh:
        """
        The same object with one parameter changed.

        Parameters
        ----------
        path : str
            As listed by `parameters`.
        value : float
            In the unit that ends the path.

        Raises
        ------
        UnknownParameterError
            If there is no such path.
        StillroomError
            If the value is outside its domain.
        """
    def with_parameters(self, /, changes: dict[str, SupportsFloat | SupportsIndex]) -> WireMesh:
        """
        The same object with several parameters changed at once.

        Parameters
        ----------
        changes : dict[str, float]
            Path to new value.
        """

@final
class WorstTerminations:
    """
    The worst pair of terminations, and the insertion loss between them.
    """
    def __copy__(self, /) -> WorstTerminations: ...
    def __deepcopy__(self, /, memo: Any) -> WorstTerminations: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        insertion_loss_db: SupportsFloat | SupportsIndex,
        source_ohm: complex,
        load_ohm: complex,
        within_db: SupportsFloat | SupportsIndex = 1e-6,
    ) -> WorstTerminations: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def insertion_loss_db(self, /) -> float:
        """
        Insertion loss, dB.
        """
    @property
    def load_ohm(self, /) -> complex:
        """
        Load impedance, ohm.
        """
    def replace(self, /, **changes: "object") -> WorstTerminations:
        """
        The same with other arguments: any of the constructor's, by name, numbers or not.

        Parameters
        ----------
        **changes
            New values of arguments of the constructor.
        """
    @property
    def source_ohm(self, /) -> complex:
        """
        Source impedance, ohm.
        """
    @property
    def within_db(self, /) -> float:
        """
        No pair in the regions loses less by more than this, dB: 0.000001, and what rounding adds at a resonance with next to
        no loss; infinite where rounding is all that is left of it.
        """

def catalogue(name: str) -> Material:
    """
    One material of the catalogue.

    Parameters
    ----------
    name : str
        As listed by `stillroom.materials.names()`.

    Raises
    ------
    UnknownNameError
        If there is no such material.
    """

def catalogue_names() -> list[str]:
    """
    Names of all materials of the catalogue.
    """

def cells_apart_rule_db(cell_count: SupportsIndex) -> float:
    """
    Rule of thumb: what N cells spread over many wavelengths are said to take from a panel's loss, 10 log10 N, dB.

    Powers add. Common practice, no source.

    Parameters
    ----------
    cell_count : int
        Number of cells.
    """

def cells_in_step_rule_db(cell_count: SupportsIndex) -> float:
    """
    Rule of thumb: what N cells within half a wavelength are said to take from a panel's loss, 20 log10 N, dB.

    A bound: amplitudes add. Common practice, no source.

    Parameters
    ----------
    cell_count : int
        Number of cells.
    """

def fresh_air_m3_per_s(people: SupportsIndex, per_person_m3_per_s: SupportsFloat | SupportsIndex) -> float:
    """
    Fresh air for people at the caller's figure for one person, m^3/s.

    The figure comes from local code; ventilation of occupied rooms is designed by those who answer for it.

    Parameters
    ----------
    people : int
        How many.
    per_person_m3_per_s : float
        Fresh air for one, m^3/s (10 L/s is 0.010).
    """

def galvanised_steel(
    steel_m: SupportsFloat | SupportsIndex, zinc_m: SupportsFloat | SupportsIndex = ...
) -> list[tuple[Material, float] | Film | WireMesh | PerforatedSheet | Fabric]:
    """
    Layers of a galvanised sheet: zinc, steel, zinc.

    Parameters
    ----------
    steel_m : float
        Thickness of the steel, m. It is the catalogue's, ordinary low-carbon sheet.
    zinc_m : float, default 19.26e-6
        Thickness of zinc on each face, m; the default is that of a coating of 275 g/m^2 in all (Z275, G90).

    Returns
    -------
    list of (Material, float)
        For a `Laminate` or a `ClosedShell`.

    Examples
    --------
    >>> import stillroom as sr
    >>> wall = sr.Laminate(sr.sheets.galvanised_steel(0.5e-3))
    """

def handbook_reflection_db(
    field: str, material: Material, frequency_hz: ArrayLike, distance_m: ArrayLike
) -> float | NDArray[float64]:
    """
    Reflection loss by the closed forms of the shielding handbooks, dB.

    Parameters
    ----------
    field : {"electric", "magnetic", "plane wave"}
        Near a rod, near a loop, or far from any source.
    material : Material
        What the layer is made of; it must conduct.
    frequency_hz : array_like
        Frequency, Hz.
    distance_m : array_like
        Distance of source and layer, m; broadcasts with `frequency_hz`.

    Returns
    -------
    float or ndarray
        Joint shape. MIL-HDBK-419A vol. I (1987), ch. 8, with exact constants.
    """

def near_shielding_db(
    source: str, material: Material, thickness_m: ArrayLike, frequency_hz: ArrayLike, distance_m: ArrayLike
) -> float | NDArray[float64]:
    """
    Shielding of a layer near a source by the handbook's approximation, dB: the sum of `near_split`.

    Parameters
    ----------
    source : {"dipole", "loop"}
        The source.
    material : Material
        What the layer is made of.
    thickness_m : array_like
        Thickness, m.
    frequency_hz : array_like
        Frequency, Hz.
    distance_m : array_like
        Distance of source and layer, m. All three broadcast.

    Returns
    -------
    float or ndarray
        Joint shape of the arguments.
    """

def near_split(
    source: str, material: Material, thickness_m: ArrayLike, frequency_hz: ArrayLike, distance_m: ArrayLike
) -> LossSplit:
    """
    Absorption, reflection and re-reflection loss of a layer near a source: the handbook's approximation.

    Parameters
    ----------
    source : {"dipole", "loop"}
        The source.
    material : Material
        What the layer is made of.
    thickness_m : array_like
        Thickness, m.
    frequency_hz : array_like
        Frequency, Hz.
    distance_m : array_like
        Distance of source and layer, m. All three broadcast.

    Returns
    -------
    LossSplit
        Losses in dB, with the source's wave impedance outside, in the joint shape of the arguments.

    Notes
    -----
    An approximation: a near field is not one plane wave. Against the exact `LoopTest` it reads 2 to 3
    dB too high for loops above 10 kHz.
    """

def near_wave_impedance_ohm(
    source: str, frequency_hz: ArrayLike, distance_m: ArrayLike
) -> complex | NDArray[complex128]:
    """
    Wave impedance broadside of a short rod ("dipole") or a small loop, ohm.

    Parameters
    ----------
    source : {"dipole", "loop"}
        The source.
    frequency_hz : array_like
        Frequency, Hz.
    distance_m : array_like
        Distance from the source, m; broadcasts with `frequency_hz`.

    Returns
    -------
    complex or ndarray of complex
        Joint shape. Tends to that of vacuum far away.

    Notes
    -----
    S. A. Schelkunoff, *Electromagnetic Waves*, 1943, secs. 2.6 and 6.2 (from memory).
    """

def rectangular_tube_rule_db(width_m: ArrayLike, length_m: ArrayLike) -> float | NDArray[float64]:
    """
    Rule of thumb: loss of a rectangular tube at 27.3 dB per greater width of length, dB.

    Holds far below cutoff only. Handbooks, from memory.

    Parameters
    ----------
    width_m, length_m : array_like
        Greater width and length, m; broadcast.
    """

def room_in_uniform_field(
    interior_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
    layers: SupportsGetItem[
        int, tuple[Material, SupportsFloat | SupportsIndex] | Film | WireMesh | PerforatedSheet | Fabric
    ],
    frequency_hz: ArrayLike,
) -> RoomEstimate:
    """
    Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field.

    Parameters
    ----------
    interior_m : tuple of float
        Length, width and height of the room, m.
    layers : sequence of (Material, float)
        Material and thickness in m of each layer of the wall, from inside out.
    frequency_hz : array_like
        Frequency, Hz.

    Returns
    -------
    RoomEstimate
        Of the sphere of radius 3 V/S, with the lowest and highest of all spheres between the
        inscribed and the circumscribed one as bounds, in the shape of `frequency_hz`.

    Warns
    -----
    DomainWarning
        Once, where the room is not small against the wavelength.

    Notes
    -----
    A room is not a sphere: an estimate for a plain closed box, without doors and seams.
    """

def rough_surface_resistance_ohm(
    metal: Material, rms_m: ArrayLike, frequency_hz: ArrayLike, model: str = "hammerstad-jensen"
) -> float | NDArray[float64]:
    """
    Surface resistance of a rough metal, ohm.

    Parameters
    ----------
    metal : Material
        The metal.
    rms_m : array_like
        Rms roughness, m, zero or positive.
    frequency_hz : array_like
        Frequency, Hz; broadcasts with `rms_m`.
    model : {"hammerstad-jensen", "groiss"}, default "hammerstad-jensen"
        Which published fit.

    Returns
    -------
    float or ndarray
        Joint shape.
    """

def roughness_factor(
    metal: Material, rms_m: ArrayLike, frequency_hz: ArrayLike, model: str = "hammerstad-jensen"
) -> float | NDArray[float64]:
    """
    Factor on the surface resistance of a metal by its roughness, from 1 to 2.

    Parameters
    ----------
    metal : Material
        The metal.
    rms_m : array_like
        Rms roughness, m, zero or positive.
    frequency_hz : array_like
        Frequency, Hz; broadcasts with `rms_m`.
    model : {"hammerstad-jensen", "groiss"}, default "hammerstad-jensen"
        Which published fit.

    Returns
    -------
    float or ndarray
        Joint shape. The fits hold for a roughness up to about two skin depths.

    Notes
    -----
    1 + (2/pi) arctan(1.4 (rms/depth)^2): E. Hammerstad and O. Jensen, MTT-S Digest (1980) 407;
    1 + exp(-(depth/(2 rms))^1.6): S. Groiss et al., IEEE Trans. Magn. 32 (1996) 894 (from memory).
    """

def round_tube_rule_db(diameter_m: ArrayLike, length_m: ArrayLike) -> float | NDArray[float64]:
    """
    Rule of thumb: loss of a round tube at 32 dB per diameter of length, dB.

    Holds far below cutoff only; near cutoff it promises more than is there. Handbooks, from memory.

    Parameters
    ----------
    diameter_m, length_m : array_like
        Diameter and length, m; broadcast.
    """

def size_laminate(
    laminate: Laminate,
    path: str,
    frequency_hz: ArrayLike,
    target_db: ArrayLike,
    *,
    lowest: SupportsFloat | SupportsIndex,
    highest: SupportsFloat | SupportsIndex,
    prefer: str = "smallest",
    test: PlaneWave | LoopTest | RodTest | None = None,
) -> Sizing:
    """
    The value of one number of a laminate with which it reaches a target over a band.

    Parameters
    ----------
    laminate : Laminate
        Where to start from.
    path : str
        Path of the number to change, as listed by `laminate.parameters()`.
    frequency_hz : array_like
        Frequencies of the band, Hz.
    target_db : array_like
        Shielding to reach, dB: one number, or one for each frequency.
    lowest, highest : float
        Interval of allowed values, positive, in the unit that ends the path.
    prefer : {"smallest", "largest"}, default "smallest"
        Which end of the interval to come from: the thinnest sheet, or the widest pitch.
    test : PlaneWave, LoopTest or RodTest, optional
        What judges the laminate; a plane wave along the normal where not given.

    Returns
    -------
    Sizing
        Value, margin, worst frequency and the laminate with that value.

    Raises
    ------
    UnreachableError
        If no allowed value reaches the target; it tells the best that can be had, and where.
    UnknownParameterError
        If there is no such path.

    Examples
    --------
    >>> import stillroom as sr
    >>> film = sr.Laminate([sr.sheets.Film(100.0)])
    >>> found = sr.sheets.size_laminate(film, "layers.0.sheet_resistance_ohm", [1e6, 1e9], 40.0,
    ...                          lowest=1e-3, highest=1e3, prefer="largest")
    >>> round(found.value, 4)
    1.9027
    """

def size_tube(
    guide: CircularGuide | RectangularGuide | HexagonalGuide,
    target_db: SupportsFloat | SupportsIndex,
    frequency_hz: SupportsFloat | SupportsIndex,
    rod: Rod | None = None,
    greatest_length_m: SupportsFloat | SupportsIndex = 1.0,
) -> Tube:
    """
    The shortest tube whose attenuation reaches a target, with what lies inside: that of the mode which decays least, with a rod often TM0.

    Parameters
    ----------
    guide : CircularGuide or RectangularGuide or HexagonalGuide
        Its cross-section.
    target_db : float
        Attenuation over the length, without the ends, dB.
    frequency_hz : float
        Where it has to hold, Hz.
    rod : Rod, optional
        A dielectric rod inside.
    greatest_length_m : float, default 1
        Greatest length that can be had, m.

    Raises
    ------
    UnreachableError
        At or above cutoff, or where the tube would be longer than can be had.
    """

def size_vent(
    like: HexagonalCell | SquareCell | RoundCell,
    target_db: SupportsFloat | SupportsIndex,
    frequency_hz: SupportsFloat | SupportsIndex,
    flow_m3_per_s: SupportsFloat | SupportsIndex,
    size_m: tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex],
    least_width_m: SupportsFloat | SupportsIndex = 0.5e-3,
    greatest_depth_m: SupportsFloat | SupportsIndex = 0.1,
    air: Air | None = None,
) -> HoneycombPanel:
    """
    The vent panel with the target shielding and the least pressure drop.

    Cells are like `like` in kind and wall, of any width below their cutoff, each panel as shallow as the target allows.

    Parameters
    ----------
    like : HexagonalCell or SquareCell or RoundCell
        Kind of cell and its wall.
    target_db : float
        Shielding under a plane wave along the normal, dB.
    frequency_hz : float
        Where it has to hold, and below, Hz.
    flow_m3_per_s : float
        Flow that has to pass, m^3/s.
    size_m : (float, float)
        Width and height of the face, m.
    least_width_m : float, default 0.5e-3
        Smallest cell that can be had, m.
    greatest_depth_m : float, default 0.1
        Greatest depth that can be had, m.
    air : Air, optional
        Room air where not given.

    Raises
    ------
    UnreachableError
        Where even the smallest cell at the greatest depth falls short; `best` tells what can be had.
    """

def slot_rule_of_thumb_db(length_m: ArrayLike, frequency_hz: ArrayLike) -> float | NDArray[float64]:
    """
    Handbook rule for the shielding of a wall with one slot, 20 log10(lambda/2l), dB; for comparison.

    Parameters
    ----------
    length_m : array_like
        Length of the slot, m, positive.
    frequency_hz : array_like
        Frequency, Hz; broadcasts with `length_m`.

    Returns
    -------
    float or ndarray
        Joint shape of the arguments; zero from the half-wave length up.

    Notes
    -----
    Assumes a narrow slot in a thin wall, the electric field across it, and nothing that resonates
    behind it; it knows neither width nor depth nor distance. H. W. Ott, *Noise Reduction Techniques
    in Electronic Systems*, 2nd ed., 1988, ch. 6 (from memory).

    Examples
    --------
    >>> import stillroom as sr
    >>> round(sr.apertures.slot_rule_of_thumb_db(0.15, 100e6), 1)
    20.0
    """

def strap_inductance_h(
    length_m: SupportsFloat | SupportsIndex,
    width_m: SupportsFloat | SupportsIndex,
    thickness_m: SupportsFloat | SupportsIndex,
) -> float:
    """
    Inductance of a straight flat bonding strap, H.

    Parameters
    ----------
    length_m, width_m, thickness_m : float
        Sizes, m; width and thickness below the length.

    Returns
    -------
    float
        (mu0 l/2 pi) (ln(2 l/(w + t)) + 1/2 + 0.2235 (w + t)/l), after F. W. Grover, *Inductance
        Calculations*, 1946. Without a return conductor: near a wall it is less.
    """

def synthesise(
    goals: SupportsGetItem[int, LossGoal],
    limits: DesignLimits,
    margin_db: SupportsFloat | SupportsIndex = 0.0,
    count: SupportsIndex = 5,
    *,
    coil_tolerance: SupportsFloat | SupportsIndex | None = None,
    capacitor_tolerance: SupportsFloat | SupportsIndex | None = None,
    trials: SupportsIndex = 1000,
    seed: SupportsIndex = 0,
) -> list[FilterFind]:
    """
    Filters that meet every goal within the limits, best first.

    What meets these numbers must still be judged on touch current, creepage, temperature and fuses against the code
    that applies, and installed by a licensed electrician.

    Parameters
    ----------
    goals : sequence of LossGoal
        Losses to be met at once.
    limits : DesignLimits
        What may not be exceeded.
    margin_db : float, default 0
        What must be in hand at each goal, dB.
    count : int, default 5
        Most filters to return.
    coil_tolerance, capacitor_tolerance : float, optional
        Fractions by which parts of a lot are off, 0 to below 1; where one is given, the other counts as 0, and every
        find has its `yield_share`.
    trials : int, default 1000
        How many filters of a lot to draw.
    seed : int, default 0
        The same seed gives the same shares on every machine.

    Returns
    -------
    list of FilterFind
        Fewest parts first, then yield where tolerances are given, then margin.

    Raises
    ------
    UnreachableError
        If nothing meets all goals, with the best margin.

    Notes
    -----
    A search over scaled prototypes and preferred values, not a proof that nothing better exists.
    """

def tubular_electrode_inductance_h(
    length_m: SupportsFloat | SupportsIndex,
    inner_radius_m: SupportsFloat | SupportsIndex,
    outer_radius_m: SupportsFloat | SupportsIndex,
) -> float:
    """
    Inductance along the electrode of a tubular ceramic capacitor.

    Parameters
    ----------
    length_m : float
        Length of the electrode, m.
    inner_radius_m, outer_radius_m : float
        Radii of the inner and the outer electrode, m.

    Returns
    -------
    float
        mu0 l ln(b/a)/(2 pi), H: that of a coaxial line. 10 mm of 1.3 : 1 have 0.52 nH.

    Raises
    ------
    OutOfRangeError
        For a value that is not positive and finite.
    RelationError
        Unless the inner radius is the smaller.
    """
