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
    "AntennaTest",
    "Enclosure",
    "Film",
    "Laminate",
    "Leak",
    "LossSplit",
    "Material",
    "Panel",
    "PermeabilityTable",
    "PlaneWave",
    "PowerLaw",
    "RelaxingPermeability",
    "Requirement",
    "Sheet",
    "Study",
    "TabulatedLeak",
    "catalogue",
    "catalogue_names",
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
