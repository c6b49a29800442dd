"""
Compiled core of stillroom.
"""

from _typeshed import SupportsGetItem, SupportsLenAndGetItem
from matplotlib.axes import Axes
from numpy import bool_, complex128, float64
from numpy.typing import ArrayLike, NDArray
from pandas import DataFrame
from typing import Any, Literal, SupportsFloat, SupportsIndex, final
from typing_extensions import disjoint_base
from xarray import Dataset

__all__ = [
    "AntennaTest",
    "Capacitor",
    "CircularHole",
    "ClosedShell",
    "Conductor",
    "ContactLine",
    "Enclosure",
    "Fabric",
    "Film",
    "FilteredLine",
    "Housing",
    "Inductor",
    "Ladder",
    "Laminate",
    "Leak",
    "LineNetwork",
    "LoopTest",
    "LossSplit",
    "Material",
    "MeasuringCircuit",
    "Panel",
    "PerforatedSheet",
    "PermeabilityTable",
    "PlaneWave",
    "Polarizability",
    "PowerLaw",
    "RectangularSlot",
    "RelaxingPermeability",
    "Requirement",
    "Resistor",
    "RodTest",
    "RoomEstimate",
    "Seam",
    "Series",
    "Sheet",
    "Shunt",
    "Sizing",
    "Study",
    "TabulatedLeak",
    "Wire",
    "WireMesh",
    "catalogue",
    "catalogue_names",
    "handbook_reflection_db",
    "near_shielding_db",
    "near_split",
    "near_wave_impedance_ohm",
    "room_in_uniform_field",
    "room_shielding_db",
    "rough_surface_resistance_ohm",
    "roughness_factor",
    "size_laminate",
    "slot_rule_of_thumb_db",
    "strap_inductance_h",
]

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
class CircularHole(Leak):
    """
    A round hole in a wall of any thickness.

    Parameters
    ----------
    diameter_m : float
        Diameter, m, positive.
    wall_thickness_m : float, default 0
        Thickness of the wall, m, zero or positive.

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
    -94.8
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
    @property
    def diameter_m(self, /) -> float:
        """
        Diameter, m.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
class ContactLine(Leak):
    """
    The contact line around a door: rows of spring fingers across a gap.

    Parameters
    ----------
    length_m : float
        Length of the line, m, positive.
    finger_pitch_m : float
        Distance between fingers, m, positive, at most the length.
    gap_m : float
        Gap that the fingers bridge, m, positive.
    row_count : int, default 2
        Number of rows, one behind the other, at least 1.
    row_spacing_m : float, default 0.012
        Distance between rows, m, zero or positive.
    finger_resistance_ohm : float, optional
        Resistance of one finger, ohm; 5 mohm where not given.
    finger_inductance_h : float, optional
        Inductance of one finger, H; 0.05 nH where not given.
    contact_width_m : float, optional
        Width of a contact along the joint, m, below the pitch; 2 mm or half the pitch where not given.
    faces : Material, default tin
        What the faces are made of.

    Notes
    -----
    Each row is a transfer impedance per length; rows follow each other as shunts on a line, and
    resonate where their distance is half a wavelength. Above 0.9 wavelengths of pitch waves pass
    between the fingers, outside the domain. Finger values are of the usual size (common practice, no
    source): wear, dirt and pressure change the resistance by orders of magnitude.

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
        row_count: SupportsFloat | SupportsIndex = 2.0,
        row_spacing_m: SupportsFloat | SupportsIndex = 0.012,
        finger_resistance_ohm: SupportsFloat | SupportsIndex | None = None,
        finger_inductance_h: SupportsFloat | SupportsIndex | None = None,
        contact_width_m: SupportsFloat | SupportsIndex | None = None,
        faces: Material | None = None,
    ) -> ContactLine: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def contact_width_m(self, /) -> float:
        """
        Width of a contact along the joint, m.
        """
    @property
    def faces(self, /) -> Material:
        """
        What the faces are made of.
        """
    @property
    def finger_inductance_h(self, /) -> float:
        """
        Inductance of one finger, H.
        """
    @property
    def finger_pitch_m(self, /) -> float:
        """
        Distance between fingers, m.
        """
    @property
    def finger_resistance_ohm(self, /) -> float:
        """
        Resistance of one finger, ohm.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap that the fingers bridge, m.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length of the line, m.
        """
    @property
    def row_count(self, /) -> int:
        """
        Number of rows.
        """
    @property
    def row_spacing_m(self, /) -> float:
        """
        Distance between rows, m.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
    def polarizability(self, /, frequency_hz: SupportsFloat | SupportsIndex) -> Polarizability | None:
        """
        Quasi-static polarizabilities, where the leak is an opening small enough to have them.

        Parameters
        ----------
        frequency_hz : float
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
            Shape of `frequency_hz`; not above 1e-9 inside the domain.
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
class PerforatedSheet:
    """
    A metal sheet with round holes, a layer of a laminate.

    Parameters
    ----------
    hole_diameter_m : float
        Diameter of the holes, m, smaller than the pitch.
    pitch_m : float
        Distance of nearest holes, centre to centre, m.
    pattern : {"square", "hexagonal"}, default "square"
        How the holes are arranged.
    thickness_m : float, default 0
        Thickness of the sheet, m.

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
        Diameter of the holes, m.
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
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
        Thickness of the sheet, m.
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
class RectangularSlot(Leak):
    """
    A rectangular slot in a wall of any thickness, from a crack to a square.

    Parameters
    ----------
    length_m : float
        Longer side, m, positive.
    width_m : float
        Shorter side, m, positive.
    wall_thickness_m : float, default 0
        Thickness of the wall, m, zero or positive.

    Notes
    -----
    Averaged over angle and polarization. Resonates near half a wavelength, where it passes about
    lambda^2/(4 pi) whatever its width. Within 0.4 dB of mode matching up to the half-wave resonance and
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
    @property
    def length_m(self, /) -> float:
        """
        Longer side, m.
        """
    @property
    def wall_thickness_m(self, /) -> float:
        """
        Thickness of the wall, m.
        """
    @property
    def width_m(self, /) -> float:
        """
        Shorter side, m.
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
class RodTest:
    """
    Two short rods normal to the wall, one on either side: what an electric test reads.

    Parameters
    ----------
    source_length_m : float, default 0
        Whole length of the source, m; 0 is a point dipole.
    receiver_length_m : float, default 0
        Whole length of the receiver, m.
    outside_m : float, default 0.3
        Distance of the source's centre from the wall, m.
    inside_m : float, default 0.3
        Distance of the receiver's centre from the wall, m.

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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def receiver_length_m(self, /) -> float:
        """
        Whole length of the receiver, m.
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
            Shape of `frequency_hz`; not above 1e-9 inside the domain.
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
        Whole length of the source, m.
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
    """
    def __copy__(self, /) -> RoomEstimate: ...
    def __deepcopy__(self, /, memo: Any) -> RoomEstimate: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs_ex__(self, /) -> "tuple[tuple[()], dict[str, object]]": ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(
        cls,
        /,
        *,
        shielding_db: SupportsFloat | SupportsIndex,
        lowest_db: SupportsFloat | SupportsIndex,
        highest_db: SupportsFloat | SupportsIndex,
    ) -> RoomEstimate: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def highest_db(self, /) -> float:
        """
        The highest of them, dB.
        """
    @property
    def lowest_db(self, /) -> float:
        """
        The lowest of the spheres from the inscribed to the circumscribed one, dB.
        """
    @property
    def shielding_db(self, /) -> float:
        """
        Of the sphere with the room's ratio of volume to surface, dB.
        """

@final
class Seam(Leak):
    """
    A bolted seam between two panels: a slit through an overlap, shorted by fasteners.

    Parameters
    ----------
    length_m : float
        Length of the seam, m, positive.
    fastener_pitch_m : float
        Distance between fasteners, m, positive, at most the length.
    gap_m : float
        Gap between the faces, m, positive, smaller than the pitch.
    overlap_m : float
        Depth of the overlap, m, zero or positive.
    contact_conductance_s_per_m : float, default 0
        Conductance between the faces per length of seam, S/m. Zero (no contact between the
        fasteners) is the cautious assumption.
    contact_inductance_h_m : float, default 0
        Inductance of that contact times length of seam, H m.
    faces : Material, default zinc
        What the faces are made of.

    Notes
    -----
    Below half a wavelength of pitch each bay is a short slot below cutoff; above, waves run through
    the overlap and only contact and wall loss weaken them. Fasteners short the gap through the whole
    depth. Pressure, plating and ageing decide the contact: treat it as a knob with a tolerance.

    Examples
    --------
    >>> import stillroom as sr
    >>> seam = sr.Seam(length_m=42.0, fastener_pitch_m=0.1, gap_m=20e-6, overlap_m=25e-3)
    >>> tight = seam.with_parameter("contact_conductance_s_per_m", 1e4)
    >>> tight.cross_section_db(18e9) < seam.cross_section_db(18e9) - 30
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
        contact_inductance_h_m: SupportsFloat | SupportsIndex = 0.0,
        faces: Material | None = None,
    ) -> Seam: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bays(self, /) -> float:
        """
        Number of bays; the last one may be a part.
        """
    @property
    def contact_conductance_s_per_m(self, /) -> float:
        """
        Conductance between the faces per length of seam, S/m.
        """
    @property
    def contact_inductance_h_m(self, /) -> float:
        """
        Inductance of that contact times length of seam, H m.
        """
    @property
    def faces(self, /) -> Material:
        """
        What the faces are made of.
        """
    @property
    def fastener_pitch_m(self, /) -> float:
        """
        Distance between fasteners, m.
        """
    @property
    def gap_m(self, /) -> float:
        """
        Gap between the faces, m.
        """
    @property
    def length_m(self, /) -> float:
        """
        Length of the seam, m.
        """
    @property
    def overlap_m(self, /) -> float:
        """
        Depth of the overlap, m.
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
        cls,
        /,
        enclosure: Enclosure,
        frequency_hz: ArrayLike,
        exposure: AntennaTest | PlaneWave | LoopTest | RodTest,
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

@final
class WireMesh:
    """
    A bonded square mesh of round wires, a layer of a laminate.

    Parameters
    ----------
    pitch_m : float
        Distance of wires, centre to centre, m.
    wire_diameter_m : float
        Diameter of the wire, m, smaller than the pitch.
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
    >>> screen = sr.Laminate([sr.WireMesh(1.3e-3, 0.25e-3, sr.materials.copper)])
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
    def parameters(self, /) -> "dict[str, float]":
        """
        All numbers that define this object, by path.

        Returns
        -------
        dict[str, float]
            Path to value, in the order of the constructor.
        """
    @property
    def pitch_m(self, /) -> float:
        """
        Distance of wires, centre to centre, m.
        """
    @property
    def sheet_inductance_h(self, /) -> float:
        """
        Sheet inductance of the openings, H per square.
        """
    @property
    def wire(self, /) -> Material:
        """
        What the wire is made of.
        """
    @property
    def wire_diameter_m(self, /) -> float:
        """
        Diameter of the wire, m.
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
    source: str,
    material: Material,
    thickness_m: SupportsFloat | SupportsIndex,
    frequency_hz: SupportsFloat | SupportsIndex,
    distance_m: SupportsFloat | SupportsIndex,
) -> LossSplit:
    """
    Absorption, reflection and re-reflection loss of a layer near a source: the handbook's approximation.

    Parameters
    ----------
    source : {"dipole", "loop"}
        The source.
    material : Material
        What the layer is made of.
    thickness_m : float
        Thickness, m.
    frequency_hz : float
        Frequency, Hz.
    distance_m : float
        Distance of source and layer, m.

    Returns
    -------
    LossSplit
        Losses in dB, with the source's wave impedance outside.

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

def room_in_uniform_field(
    interior_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
    layers: SupportsGetItem[
        int, tuple[Material, SupportsFloat | SupportsIndex] | Film | WireMesh | PerforatedSheet | Fabric
    ],
    frequency_hz: SupportsFloat | SupportsIndex,
) -> RoomEstimate:
    """
    Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field.

    Parameters
    ----------
    interior_m : tuple of float
        Length, width and height of the room, m.
    layers : sequence of (Material, float)
        Material and thickness in m of each layer of the wall, from inside out.
    frequency_hz : float
        Frequency, Hz.

    Returns
    -------
    RoomEstimate
        Of the sphere of radius 3 V/S, with the lowest and highest of all spheres between the
        inscribed and the circumscribed one as bounds.

    Notes
    -----
    A room is not a sphere: an estimate for a plain closed box, without doors and seams.
    """

def room_shielding_db(
    interior_m: SupportsLenAndGetItem[SupportsFloat | SupportsIndex],
    layers: SupportsGetItem[
        int, tuple[Material, SupportsFloat | SupportsIndex] | Film | WireMesh | PerforatedSheet | Fabric
    ],
    frequency_hz: ArrayLike,
    *,
    bound: str = "estimate",
) -> float | NDArray[float64]:
    """
    The same estimate over many frequencies, dB.

    Parameters
    ----------
    interior_m : tuple of float
        Length, width and height of the room, m.
    layers : sequence of (Material, float)
        Material and thickness in m of each layer of the wall, from inside out.
    frequency_hz : array_like
        Frequency, Hz.
    bound : {"estimate", "lowest", "highest"}, default "estimate"
        Which field of `RoomEstimate`.

    Returns
    -------
    float or ndarray
        Shape of `frequency_hz`.

    Warns
    -----
    DomainWarning
        Once, where the room is not small against the wavelength.
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
    >>> film = sr.Laminate([sr.Film(100.0)])
    >>> found = sr.size_laminate(film, "layers.0.sheet_resistance_ohm", [1e6, 1e9], 40.0,
    ...                          lowest=1e-3, highest=1e3, prefer="largest")
    >>> round(found.value, 4)
    1.9027
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
    >>> round(sr.slot_rule_of_thumb_db(0.15, 100e6), 1)
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
