"""
Compiled core of stillroom.
"""

from _typeshed import SupportsGetItem
from matplotlib.axes import Axes
from numpy import bool_, complex128, float64
from numpy.typing import ArrayLike, NDArray
from pandas import DataFrame
from typing import Any, Literal, SupportsFloat, SupportsIndex, final
from typing_extensions import disjoint_base
from xarray import Dataset

__all__ = [
    "Air",
    "AntennaTest",
    "BondedShield",
    "Capacitor",
    "CircularGuide",
    "Conductor",
    "Enclosure",
    "Film",
    "FilteredLine",
    "HexagonalCell",
    "HexagonalGuide",
    "HoneycombPanel",
    "Housing",
    "Inductor",
    "Ladder",
    "Laminate",
    "Leak",
    "LineNetwork",
    "LossSplit",
    "Material",
    "MeasuringCircuit",
    "Mode",
    "Panel",
    "PermeabilityTable",
    "PlaneWave",
    "PowerLaw",
    "RectangularGuide",
    "RelaxingPermeability",
    "Requirement",
    "Resistor",
    "Rod",
    "RoundCell",
    "Series",
    "Sheet",
    "Shunt",
    "SquareCell",
    "Study",
    "TabulatedLeak",
    "ThroughWire",
    "Tube",
    "WallBond",
    "Wire",
    "catalogue",
    "catalogue_names",
    "cells_apart_rule_db",
    "cells_in_step_rule_db",
    "fresh_air_m3_per_s",
    "rectangular_tube_rule_db",
    "round_tube_rule_db",
    "size_tube",
    "size_vent",
    "strap_inductance_h",
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
class Capacitor:
    """
    A two-terminal capacitor with its parasitics.

    Z = 1/(s C (1 - j tan d)) + R + s L. A surge arrester below its striking voltage is a capacitor of its
    off-state capacitance; a damping resistor in series counts into R.

    Parameters
    ----------
    capacitance_f : float
        Capacitance, F, positive.
    series_resistance_ohm : float, default 0
        Equivalent series resistance, ohm.
    series_inductance_h : float, default 0
        Equivalent series inductance, leads included, H.
    loss_tangent : float, default 0
        Of the dielectric, constant in frequency.

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
        Capacitance, F.
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
        Loss tangent of the dielectric.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def self_resonance_hz(self, /) -> float:
        """
        Frequency at which the capacitor turns inductive, Hz; infinite without inductance.
        """
    @property
    def series_inductance_h(self, /) -> float:
        """
        Equivalent series inductance, H.
        """
    @property
    def series_resistance_ohm(self, /) -> float:
        """
        Equivalent series resistance, ohm.
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
    >>> tube = sr.CircularGuide(6e-3)
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
    def attenuation_db_per_m(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Attenuation of the dominant mode, dB/m.

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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    def propagation_per_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of the dominant mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Exact through cutoff.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
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
class Conductor:
    """
    A wire on one side of the wall.

    Parameters
    ----------
    length_m : float
        Length, m.
    termination : complex, LineNetwork or Wire, default 50
        What the filter sees of it.
    """
    def __copy__(self, /) -> Conductor: ...
    def __deepcopy__(self, /, memo: Any) -> Conductor: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls, /, length_m: SupportsFloat | SupportsIndex, termination: LineNetwork | Wire | complex = ...
    ) -> Conductor: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    def study(self, /, frequency_hz: ArrayLike, exposure: AntennaTest | PlaneWave) -> Study:
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
    @property
    def wall(self, /) -> Sheet:
        """
        What the six sides are made of.
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
    @property
    def sheet_resistance_ohm(self, /) -> float:
        """
        Sheet resistance, ohm per square.
        """

@final
class FilteredLine(Leak):
    """
    A line through the wall with a filter in it, as a leak.

    Mains filters put current into the protective earth: bond the case before energising, check touch
    and earth-leakage current against the code that applies, and leave the work to a licensed electrician.

    Parameters
    ----------
    ladder : Ladder
        The filter, outside first.
    outside : Conductor
        The wire outside.
    inside : Conductor
        The wire inside.

    Notes
    -----
    Cross-section = (lambda^2/4 pi) x outside efficiency x transducer gain of the filter x inside efficiency.
    Each efficiency is min(1, R_rad/R), R_rad = 40 pi^2 (l/lambda)^2 ohm: matched antennas at most, bounded by the
    length at low frequency. A bound with stated lengths, not a prediction.
    """
    def __copy__(self, /) -> FilteredLine: ...
    def __deepcopy__(self, /, memo: Any) -> FilteredLine: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, ladder: Ladder, outside: Conductor, inside: Conductor) -> FilteredLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def circuit(self, /) -> MeasuringCircuit:
        """
        The circuit that the filter works in: outside conductor as source, inside conductor as load.
        """
    @property
    def inside(self, /) -> Conductor:
        """
        The wire inside.
        """
    @property
    def ladder(self, /) -> Ladder:
        """
        The filter.
        """
    @property
    def outside(self, /) -> Conductor:
        """
        The wire outside.
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
        Whole thickness of the wall between two cells, m; less than the width. Of foil with doubled nodes the mean.
    wall_conductivity_s_per_m : float, optional
        Conductivity of the wall, S/m; a perfect conductor where not given.

    Examples
    --------
    Vents are sold as blocking everything below 32 GHz; the cell with that cutoff:

    >>> import stillroom as sr
    >>> round(sr.HexagonalCell(5.19e-3).cutoff_hz / 1e9, 1)
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    def attenuation_db_per_m(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Attenuation of the dominant mode, dB/m.

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
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the dominant mode, Hz.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent of the filling.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    def propagation_per_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of the dominant mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Exact through cutoff.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
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

    Notes
    -----
    Taken as bonded cell to cell and to the frame; foil without plating or solder leaks along its glued nodes.
    Ventilation of rooms that people work in follows local code.

    Examples
    --------
    >>> import stillroom as sr
    >>> vent = sr.HoneycombPanel(sr.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
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
        near cutoff, above it, and at oblique incidence.

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
        Length of the case, m: lumped parts hold while it is below a tenth of a wavelength.
    bond_resistance_ohm : float, default 0
        Resistance between case and wall, ohm.
    bond_inductance_h : float, default 0
        Inductance between case and wall, H; see `strap_inductance_h`. Near zero for a flush case.
    stray_capacitance_f : float, default 0
        Capacitance from input to output inside the can, F.
    isolation_db : float, optional
        The most that any filter in this can can lose, dB.

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
        Inductance between case and wall, H.
        """
    @property
    def bond_resistance_ohm(self, /) -> float:
        """
        Resistance between case and wall, ohm.
        """
    @property
    def case_length_m(self, /) -> float:
        """
        Length of the case, m.
        """
    @property
    def isolation_db(self, /) -> float | None:
        """
        Isolation of the can, dB, or None.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def stray_capacitance_f(self, /) -> float:
        """
        Capacitance from input to output, F.
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
        Load current that halves the inductance, A: L(I) = L/(1 + (I/half_current_a)**saturation_exponent).
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
    >>> coil = sr.Inductor(100e-6, resistance_ohm=0.02, parallel_capacitance_f=15e-12)
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
        Load current that halves the inductance, A, or None.
        """
    def impedance_ohm(
        self, /, frequency_hz: ArrayLike, current_a: SupportsFloat | SupportsIndex = 0.0
    ) -> complex | NDArray[complex128]:
        """
        Impedance, ohm.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.
        current_a : float, default 0
            Load current, A.

        Returns
        -------
        complex or ndarray of complex
            Shape of `frequency_hz`.
        """
    @property
    def inductance_h(self, /) -> float:
        """
        Inductance without load current, H.
        """
    def loaded_inductance_h(self, /, current_a: SupportsFloat | SupportsIndex) -> float:
        """
        Inductance left at a load current, H.

        Parameters
        ----------
        current_a : float
            Load current, A.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def relaxation_hz(self, /) -> float | None:
        """
        Relaxation frequency of the permeability, Hz, or None.
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
class Ladder:
    """
    A filter: parts in the line and across it, from the source's side to the load's.

    Mains filters put current into the protective earth: bond the case before energising, check touch
    and earth-leakage current against the code that applies, and leave the work to a licensed electrician.

    Parameters
    ----------
    elements : sequence of Series or Shunt
        From the source's side to the load's; at least one.
    load_current_a : float, default 0
        Load current, A: coils that saturate lose inductance.
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
    >>> ladder = sr.Ladder([sr.Series(sr.Inductor(100e-6)), sr.Shunt(sr.Capacitor(1e-6))])
    >>> round(ladder.insertion_loss_db(100e3), 2)
    27.91
    >>> round(ladder.insertion_loss_db(15915.5, sr.MeasuringCircuit.low_to_high()), 2)
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
        elements: SupportsGetItem[int, Series | Shunt],
        *,
        load_current_a: SupportsFloat | SupportsIndex = 0.0,
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
    def elements(self, /) -> list[Series | Shunt]:
        """
        The elements, source side first.
        """
    @property
    def housing(self, /) -> Housing | None:
        """
        The can, or None.
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
    def load_current_a(self, /) -> float:
        """
        Load current, A.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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

@final
class Laminate(Sheet):
    """
    A stack of plane layers, the first facing the wave.

    Parameters
    ----------
    layers : sequence of (Material, float) or Film
        Each layer as a material and its thickness in m, or a film by its sheet resistance.

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
        cls, /, layers: SupportsGetItem[int, tuple[Material, SupportsFloat | SupportsIndex] | Film]
    ) -> Laminate: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def layers(self, /) -> list[tuple[Material, float] | Film]:
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    def reversed(self, /) -> Laminate:
        """
        The same stack seen from its other side.
        """
    def split(
        self, /, frequency_hz: SupportsFloat | SupportsIndex, wave: PlaneWave | None = None
    ) -> LossSplit | None:
        """
        Absorption, reflection and re-reflection loss of a single layer.

        Parameters
        ----------
        frequency_hz : float
            Frequency, Hz.
        wave : PlaneWave, optional
            The wave; along the normal where not given.

        Returns
        -------
        LossSplit or None
            None for several layers or a film, which have no such split.

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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this leak, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
class LineNetwork:
    """
    A line network: a resistance across a branch of resistance and inductance in series.

    The defaults are those of the artificial mains V-network of CISPR 16-1-2, 50 ohm across 50 uH + 5 ohm,
    for 9 kHz to 30 MHz (values from memory).

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

@final
class LossSplit:
    """
    The three losses of a single layer, dB; their sum is its shielding effectiveness.
    """
    def __copy__(self, /) -> LossSplit: ...
    def __deepcopy__(self, /, memo: Any) -> LossSplit: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        absorption_db: SupportsFloat | SupportsIndex,
        reflection_db: SupportsFloat | SupportsIndex,
        re_reflection_db: SupportsFloat | SupportsIndex,
    ) -> LossSplit: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def absorption_db(self, /) -> float:
        """
        What the wave loses on one way through, dB.
        """
    @property
    def re_reflection_db(self, /) -> float:
        """
        What reflections inside change, dB; negative where they help the wave through.
        """
    @property
    def reflection_db(self, /) -> float:
        """
        What the two faces turn back, dB.
        """
    @property
    def total_db(self, /) -> float:
        """
        The sum, dB.
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
        working; catalogue values are typical.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    def skin_depth_m(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Skin depth of a good conductor, m; infinite without conductivity.

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
    >>> sr.MeasuringCircuit.low_to_high()
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
        Family and order, such as "TE11"; in a hexagon family and place, such as "TE 1".
        """

@final
class Panel(Leak):
    """
    A sheet of a given area as a leak.

    Parameters
    ----------
    sheet : Sheet
        What it is made of.
    area_m2 : float
        Area, m^2, positive.
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
    @property
    def sheet(self, /) -> Sheet:
        """
        What it is made of.
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
    ) -> PermeabilityTable: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def frequency_hz(self, /) -> list[float]:
        """
        Frequencies, Hz.
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
    def attenuation_db_per_m(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Attenuation of the dominant mode, dB/m.

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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    def propagation_per_m(self, /, frequency_hz: ArrayLike) -> complex | NDArray[complex128]:
        """
        Complex propagation constant of the dominant mode, 1/m.

        Parameters
        ----------
        frequency_hz : array_like
            Frequency, Hz.

        Returns
        -------
        complex or ndarray of complex
            alpha + j beta: the field goes as exp(-(alpha + j beta) z). Exact through cutoff.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity of the filling.
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
        Resistance, ohm, positive.
    series_inductance_h : float, default 0
        Series inductance, H.
    parallel_capacitance_f : float, default 0
        Capacitance across it, F.

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
        Capacitance across it, F.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def resistance_ohm(self, /) -> float:
        """
        Resistance, ohm.
        """
    @property
    def series_inductance_h(self, /) -> float:
        """
        Series inductance, H.
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
    A round dielectric rod on the axis of a tube: an optical fibre, its jacket, a plastic tie.

    A cable with a metal strength member is no rod: a conductor in a tube has no cutoff.

    Parameters
    ----------
    diameter_m : float
        Diameter, m.
    relative_permittivity : float
        At least 1.
    loss_tangent : float, default 0
        Zero or positive.
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
    ) -> Rod: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m.
        """
    @property
    def loss_tangent(self, /) -> float:
        """
        Loss tangent.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def relative_permittivity(self, /) -> float:
        """
        Relative permittivity.
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
class RoundCell:
    """
    A round honeycomb cell, as drilled, with six neighbours.

    Parameters
    ----------
    diameter_m : float
        Inner diameter, m.
    wall_m : float, default 0
        Web where neighbours come nearest, m; less than the diameter.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
class Series:
    """
    A part in the line.

    Parameters
    ----------
    part : Inductor, Capacitor or Resistor
        The part.
    """
    def __copy__(self, /) -> Series: ...
    def __deepcopy__(self, /, memo: Any) -> Series: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, part: Inductor | Capacitor | Resistor) -> Series: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def part(self, /) -> Inductor | Capacitor | Resistor:
        """
        The part.
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
    part : Inductor, Capacitor or Resistor
        The part.
    """
    def __copy__(self, /) -> Shunt: ...
    def __deepcopy__(self, /, memo: Any) -> Shunt: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, part: Inductor | Capacitor | Resistor) -> Shunt: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def part(self, /) -> Inductor | Capacitor | Resistor:
        """
        The part.
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
        Whole thickness of the wall between two cells, m; less than the side.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    exposure : AntennaTest or PlaneWave
        What it is exposed to.
    """
    def __copy__(self, /) -> Study: ...
    def __deepcopy__(self, /, memo: Any) -> Study: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __new__(
        cls, /, enclosure: Enclosure, frequency_hz: ArrayLike, exposure: AntennaTest | PlaneWave
    ) -> Study: ...
    def __repr__(self, /) -> str: ...
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
    def exposure(self, /) -> AntennaTest | PlaneWave:
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
    def limits(self, /, leak: str) -> list[tuple[float, str]]:
        """
        Limits passed by one leak: pairs of frequency (Hz) and what was passed, in words.

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

        Numbers outside a model's domain are drawn dotted.

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
    def total_worst_case_db(self, /) -> NDArray[float64]:
        """
        Shielding effectiveness of the whole, amplitudes added, dB: no choice of phases is worse.
        """
    @property
    def valid(self, /) -> NDArray[bool_]:
        """
        Whether each number is inside the domain of its model; shape (leaks, frequencies).
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
        Frequencies, Hz, increasing.
    values_m2 : sequence of float
        Transmission cross-sections, m^2, positive.
    scale_db : float, default 0
        What is added to the table, dB.
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
        Frequencies, Hz.
        """
    @property
    def scale_db(self, /) -> float:
        """
        What is added to the table, dB.
        """
    @property
    def values_m2(self, /) -> list[float]:
        """
        Cross-sections, m^2.
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
    bond : WallBond or BondedShield, optional
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
        bond: WallBond | BondedShield | None = None,
    ) -> ThroughWire: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bond(self, /) -> WallBond | BondedShield | None:
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
class Tube(Leak):
    """
    A tube through the wall, empty, with a dielectric rod on its axis, or with a conductor through it; a leak.

    Parameters
    ----------
    guide : CircularGuide or RectangularGuide or HexagonalGuide
        Its cross-section.
    length_m : float
        Its length, m.
    rod : Rod, optional
        A dielectric rod inside; thinner than the tube.
    conductor : ThroughWire, optional
        A conductor through it: the fault that undoes a tube. Not touching the wall.

    Notes
    -----
    A rod makes the dominant mode hybrid; its propagation constant is exact in a round tube. The cross-section includes the two ends: the lowest mode of each symmetry, joined by mode matching to the half-space
    and to the higher modes. Below cutoff that is the attenuation over the length plus the coupling of the ends; far above
    cutoff half of the open area.

    Examples
    --------
    >>> import stillroom as sr
    >>> tube = sr.Tube(sr.CircularGuide(6e-3), length_m=36e-3)
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
    def attenuation_db(self, /, frequency_hz: ArrayLike) -> float | NDArray[float64]:
        """
        Attenuation of the dominant mode over the length, without the ends, dB.

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
    def conductor(self, /) -> ThroughWire | None:
        """
        A conductor through it, or None.
        """
    @property
    def cutoff_hz(self, /) -> float:
        """
        Cutoff frequency of the dominant mode, with what lies inside, Hz.
        """
    @property
    def guide(self, /) -> CircularGuide | RectangularGuide | HexagonalGuide:
        """
        Its cross-section.
        """
    @property
    def length_m(self, /) -> float:
        """
        Its length, m.
        """
    @property
    def rod(self, /) -> Rod | None:
        """
        What lies inside, or None.
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
        Length, m.
    radius_m : float
        Radius, m, below a tenth of the length.

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
        Length, m.
        """
    @property
    def radius_m(self, /) -> float:
        """
        Radius, m.
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

def rectangular_tube_rule_db(width_m: ArrayLike, length_m: ArrayLike) -> float | NDArray[float64]:
    """
    Rule of thumb: loss of a rectangular tube at 27.3 dB per greater width of length, dB.

    Holds far below cutoff only. Handbooks, from memory.

    Parameters
    ----------
    width_m, length_m : array_like
        Greater width and length, m; broadcast.
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

def size_tube(
    guide: CircularGuide | RectangularGuide | HexagonalGuide,
    target_db: SupportsFloat | SupportsIndex,
    frequency_hz: SupportsFloat | SupportsIndex,
    rod: Rod | None = None,
    greatest_length_m: SupportsFloat | SupportsIndex = 1.0,
) -> Tube:
    """
    The shortest tube whose attenuation reaches a target, with what lies inside.

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
