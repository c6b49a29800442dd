"""Holes and slots against forty digits, mode matching and static integral equations."""

from __future__ import annotations

import mpmath
import numpy as np
import opening_reference as opening
import pytest
import strip_reference
import thick_hole_reference as thick
from aperture_reference import circular_hole, plate_electric, plate_magnetic, rectangle, rectangular_hole
from flat_reference import cross, extrapolated, polarizabilities, rounded_slot
from numpy.typing import NDArray

import stillroom as sr

C = 299_792_458.0
WALLS = [0.0, 0.1, 0.3, 0.6, 1.2]


def transmissions_db(leak: sr.Leak, k: float) -> float:
    """Averaged cross-section over wavelength^2/4 pi, dB."""
    return leak.cross_section_db(k * C / (2 * np.pi)) - 10 * np.log10(np.pi / k**2)


@pytest.mark.parametrize(
    ("ka", "tolerance_db"),
    [(0.3, 0.35), (1.0, 0.35), (1.5, 0.35), (1.84, 0.35), (2.4, 1.0), (3.5, 1.0), (6.0, 1.0)],
)
def test_thick_round_hole_against_mode_matching(ka: float, tolerance_db: float) -> None:
    # Sharp edges of the thin wall converge as 1/modes: two solutions, extrapolated.
    coarse, fine = (10 * np.log10(circular_hole(ka, WALLS, modes)) for modes in (10, 20))
    reference = 2 * fine - coarse
    ours = [transmissions_db(sr.CircularHole(2.0, wall), ka) for wall in WALLS]
    np.testing.assert_allclose(ours, reference, atol=tolerance_db)


@pytest.mark.parametrize(
    ("width", "counts", "k", "tolerance_db"),
    [
        (1.0, (9, 9), 1.0, 0.6),
        (1.0, (9, 9), 3.0, 0.6),
        (0.5, (12, 6), 2.0, 0.6),
        (0.3, (14, 4), 2.5, 0.6),
        (0.3, (14, 4), 6.0, 1.6),
        (0.1, (18, 2), 2.0, 0.6),
        (0.1, (18, 2), 2.8, 0.6),
        (0.1, (18, 2), 6.0, 1.0),
    ],
)
def test_slot_against_mode_matching(
    width: float, counts: tuple[int, int], k: float, tolerance_db: float
) -> None:
    walls = [0.0, 0.1, 0.6]
    reference = 10 * np.log10(rectangular_hole(k, 1.0, width, walls, counts))
    ours = [transmissions_db(sr.RectangularSlot(1.0, width, wall), k) for wall in walls]
    np.testing.assert_allclose(ours, reference, atol=tolerance_db)


@pytest.mark.parametrize("aspect", [1.0, 0.5, 0.2, 0.1, 0.03, 0.01])
def test_rectangle_against_static_integral_equations(aspect: float) -> None:
    alpha = sr.apertures.Polarizability.of_rectangle(1.0, aspect)
    along, across, electric = rectangle(1.0, aspect)
    assert alpha.magnetic_along_m3 == pytest.approx(along, rel=1e-4)
    assert alpha.magnetic_across_m3 == pytest.approx(across, rel=1e-4)
    assert alpha.electric_m3 == pytest.approx(electric, rel=1e-4)


def test_the_integral_equations_converge_at_second_order() -> None:
    magnetic = [plate_magnetic(1.0, 0.5, n) for n in (4, 8, 16)]
    electric = [plate_electric(1.0, 0.5, n) for n in (4, 8, 16)]
    assert (magnetic[1] - magnetic[0]) / (magnetic[2] - magnetic[1]) == pytest.approx(4, abs=0.4)
    assert abs(electric[2] - electric[1]) < abs(electric[1] - electric[0]) / 3


@pytest.mark.parametrize("aspect", [1.0, 0.999, 0.5, 1e-2, 1e-4])
def test_ellipse_against_forty_digits(aspect: float) -> None:
    with mpmath.workdps(40):
        a, b = mpmath.mpf(1) / 2, mpmath.mpf(aspect) / 2
        along = mpmath.pi * a**3 / mpmath.elliprd(0, (b / a) ** 2, 1)
        across = mpmath.pi * a**3 / mpmath.elliprd(0, 1, (b / a) ** 2)
        electric = mpmath.pi * a * b * b / (3 * mpmath.ellipe(1 - (b / a) ** 2))
    alpha = sr.apertures.Polarizability.of_ellipse(1.0, aspect)
    assert alpha.magnetic_along_m3 == pytest.approx(float(along), rel=1e-12)
    assert alpha.magnetic_across_m3 == pytest.approx(float(across), rel=1e-12)
    assert alpha.electric_m3 == pytest.approx(float(electric), rel=1e-12)


def hole_in_forty_digits(diameter: float, wall: float, frequency: float) -> float:
    """The formulas of the module, in dB of a square metre."""
    mp = mpmath.mp
    with mpmath.workdps(40):
        a, t = mp.mpf(diameter) / 2, mp.mpf(wall)
        k = 2 * mp.pi * mp.mpf(frequency) / 299792458

        def channel(cutoff: str, r: str, alpha: mpmath.mpf, detuning: tuple[str, str], p: str) -> mpmath.mpf:
            kc, r, p = mp.mpf(cutoff), mp.mpf(r), mp.mpf(p)
            big_a, big_b = (mp.mpf(x) for x in detuning)
            z = k * a / kc
            kappa = r * (1 - big_a * z**2 / (1 + big_b * z**3))
            u = 2 * kc**3 * alpha / (3 * mp.pi) * r * z**2
            g = u / (1 + u**p) ** (1 / p)
            s, gamma, depth = mp.mpc(kappa, z * g), mp.sqrt(mp.mpc(1 - z**2)), t * kc / a
            bar = s * mp.cosh(gamma * depth) + (1 - z**2 + s**2) / 2 * mp.sinh(gamma * depth) / gamma
            return abs(s.imag / bar) ** 2

        total = 2 * channel("1.8411837813406593", "0.4265", mp.mpf(4) / 3, ("1.038", "0.334"), "1.819")
        total += channel("2.404825557695773", "0.4097", mp.mpf(2) / 3, ("0", "0.3"), "1.8")
        kc = mp.mpf("3.0542369282271403")
        excess, z = (k * a) ** 2 / 2 - mp.mpf("3.3"), k * a / kc
        barrier = mp.mpf("0.0326") * z**-10 * abs(mp.cosh(mp.sqrt(mp.mpc(1 - z**2)) * t * kc / a)) ** 2
        total += (excess + mp.sqrt(excess**2 + 1)) / 2 / (1 + barrier)
        return float(10 * mp.log10(mp.pi / k**2 * total))


@pytest.mark.parametrize("frequency", [1.0, 1e6, 1e9, 8.7e9, 17.569e9, 30e9, 400e9, 1e12])
@pytest.mark.parametrize("wall", [0.0, 1e-4, 3e-3, 0.05, 2.0])
def test_hole_against_forty_digits(frequency: float, wall: float) -> None:
    ours = sr.CircularHole(10e-3, wall).cross_section_db(frequency)
    assert ours == pytest.approx(hole_in_forty_digits(10e-3, wall, frequency), rel=1e-12, abs=1e-11)


@pytest.mark.parametrize("depth", [0.1, 0.5, 1.0, 2.0])
def test_thick_hole_against_static_finite_elements(depth: float) -> None:
    """No modes at all in the reference: potentials in the hole and in front of it."""
    thin = sr.CircularHole(2.0).polarizability(1.0)
    deep = sr.CircularHole(2.0, depth).polarizability(1.0)
    assert thin is not None
    assert deep is not None
    # One mode with an end correction against all of them: 0.25 dB in amplitude where the wall is thin.
    magnetic, electric = (thick.passed(depth, kind, 8) for kind in (False, True))
    assert deep.magnetic_along_m3 / thin.magnetic_along_m3 == pytest.approx(magnetic, rel=0.03)
    assert deep.electric_m3 / thin.electric_m3 == pytest.approx(electric, rel=0.03)


def test_the_static_finite_elements_converge() -> None:
    # Thin hole: the mean potential over it is 2/(3 pi), its flux moment 8/(3 pi) (Bethe's hole).
    assert thick.moment(0.0, True, False, 10) == pytest.approx(2 / (3 * np.pi), rel=3e-4)
    assert thick.moment(0.0, False, True, 10) == pytest.approx(8 / (3 * np.pi), rel=3e-4)
    # Gluckstern, Diamond, IEEE Trans. MTT 39 (1991) 274 (from memory): 0.838 and 0.825 far into the wall.
    assert thick.passed(2.0, False, 8) * np.exp(1.8411838 * 2) == pytest.approx(0.838, abs=1e-3)
    assert thick.passed(2.0, True, 8) * np.exp(2.4048256 * 2) == pytest.approx(0.825, abs=1e-3)


@pytest.mark.parametrize("aspect", [1.0, 0.6, 0.25, 0.04])
@pytest.mark.parametrize("outline", ["rounded_slot", "cross"])
def test_other_outlines_against_static_panels(outline: str, aspect: float) -> None:
    """Aspects between the nodes of the tables, panels coarser than those that made them."""
    alpha = getattr(sr.apertures.Polarizability, f"of_{outline}")(1.0, aspect)
    ours = [alpha.magnetic_along_m3, alpha.magnetic_across_m3, alpha.electric_m3]
    shape = {"rounded_slot": rounded_slot, "cross": cross}[outline]
    np.testing.assert_allclose(ours, extrapolated(shape, aspect, 3), rtol=2e-3)


def test_the_panels_converge() -> None:
    """Second order, first for currents along a curved edge; what is exact is met."""
    exact = np.array([1 / 6, 1 / 6, 1 / 12])
    circle = [np.abs(polarizabilities(rounded_slot(1.0, 1.0, n)) / exact - 1) for n in (4, 8, 16)]
    assert (circle[1][:2] < circle[0][:2] / 3).all()
    assert (circle[2][:2] < circle[1][:2] / 3).all()
    assert circle[2][2] < circle[1][2] < circle[0][2]
    np.testing.assert_allclose(extrapolated(rounded_slot, 1.0, 4), exact, rtol=1e-3)


@pytest.mark.parametrize("outline", ["ellipse", "rounded_slot", "cross"])
def test_guide_modes_against_finite_elements(outline: str) -> None:
    """Where a wall of many lengths is passed at all: the decay in it is that of the lowest mode."""
    shape = {"ellipse": opening.ellipse, "rounded_slot": opening.rounded_slot, "cross": opening.cross}[
        outline
    ]
    leak = {
        "ellipse": sr.apertures.EllipticHole,
        "rounded_slot": sr.apertures.RoundedSlot,
        "cross": sr.apertures.CrossSlot,
    }[outline]
    cutoff = opening.lowest(shape, 0.4, 6)[0]
    passed = np.log([leak(1.0, 0.4, wall).cross_section_m2(1e3) for wall in (4.0, 5.0)])
    assert (passed[0] - passed[1]) / 2 == pytest.approx(cutoff, rel=5e-3)


@pytest.mark.parametrize(
    ("outline", "tolerance_db"), [("rounded_slot", 0.7), ("ellipse", 0.7), ("cross", 1.6)]
)
def test_other_outlines_against_numerical_modes(outline: str, tolerance_db: float) -> None:
    # Few modes, a coarse mesh: the reference itself moves by 0.3 dB when both are made finer.
    leak = {
        "ellipse": sr.apertures.EllipticHole,
        "rounded_slot": sr.apertures.RoundedSlot,
        "cross": sr.apertures.CrossSlot,
    }[outline]
    reference, walls = opening.Opening(getattr(opening, outline)(1.0, 0.5, 3), 4), [0.1, 0.4]
    for k in (1.0, 2.5):
        ours = [transmissions_db(leak(1.0, 0.5, wall), k) for wall in walls]
        np.testing.assert_allclose(ours, 10 * np.log10(reference.averaged(k, walls)), atol=tolerance_db)


def test_round_hole_towards_waves_against_numerical_modes() -> None:
    reference = opening.Opening(opening.ellipse(2.0, 2.0, 3), 4)
    angles, k = np.array([0.0, 40.0, 70.0]), 1.5
    hole = sr.CircularHole(2.0, 0.6)
    for polarization in ("te", "tm"):
        theirs = 10 * np.log10(reference.towards(k, 0.6, angles, np.full(3, 20.0), polarization))
        ours = hole.cross_section_towards_db(k * C / (2 * np.pi), angles, 20.0, polarization)
        np.testing.assert_allclose(ours, theirs, atol=0.6)


def test_directions_broadcast() -> None:
    slot = sr.apertures.RoundedSlot(0.05, 5e-3, 1e-3)
    result = slot.cross_section_towards_m2([[1e9], [2e9]], [0.0, 30.0, 60.0], 90.0, "tm")
    assert isinstance(result, np.ndarray)
    assert result.shape == (2, 3)
    assert isinstance(slot.cross_section_towards_m2(1e9), float)
    assert slot.cross_section_towards_m2(1e9, 30.0, 90.0, "tm") == result[0, 1]
    # A small slot: 3 h^2 of the averaged one, from the normal with the field across it.
    small = slot.cross_section_towards_m2(1e7) / slot.cross_section_m2(1e7)
    assert small == pytest.approx(3.0, rel=0.01)


def test_the_rule_of_thumb_is_no_budget() -> None:
    """It knows neither width nor depth: a crack and a window of one length are the same to it."""
    rule = sr.apertures.slot_rule_of_thumb_db([0.15, 0.015], [100e6, 1e9])
    # The handbook rounds the speed of light to 3e8 m/s: 0.006 dB.
    np.testing.assert_allclose(rule, [20.0, 20.0], atol=0.01)
    crack, window = sr.RectangularSlot(0.15, 1e-4, 2e-3), sr.RectangularSlot(0.15, 0.1, 2e-3)
    assert window.cross_section_db(100e6) > crack.cross_section_db(100e6) + 25


def test_errors_name_the_argument() -> None:
    with pytest.raises(sr.errors.RelationError, match=r"`width_m` = 0.002 m: must be at most `length_m`"):
        sr.RectangularSlot(1e-3, 2e-3)
    with pytest.raises(sr.errors.OutOfRangeError, match="wall_thickness_m"):
        sr.CircularHole(1e-3, -1.0)
    with pytest.raises(sr.errors.OutOfRangeError, match=r"frequency_hz\[1\]"):
        sr.CircularHole(1e-3).cross_section_m2([1e6, np.nan])
    with pytest.raises(sr.errors.OutOfRangeError, match=r"angle_deg\[1\]"):
        sr.CircularHole(1e-3).cross_section_towards_m2(1e9, [10.0, 95.0])
    with pytest.raises(sr.errors.OutOfRangeError, match="azimuth_deg"):
        sr.CircularHole(1e-3).cross_section_towards_m2(1e9, 10.0, np.inf)
    with pytest.raises(sr.errors.OutOfRangeError, match="length_m"):
        sr.apertures.slot_rule_of_thumb_db(-1.0, 1e9)


def half_power_band(
    frequency_hz: NDArray[np.float64], passed: NDArray[np.float64]
) -> tuple[float, float, float]:
    """Height, place and half-power width of a resonance."""
    peak = int(np.argmax(passed))
    half = passed[peak] / 2
    low = np.interp(half, passed[: peak + 1], frequency_hz[: peak + 1])
    high = np.interp(half, passed[peak:][::-1], frequency_hz[peak:][::-1])
    return float(passed[peak]), float(frequency_hz[peak]), float(high - low)


def test_a_thin_slot_resonates_as_its_coupled_modes_do() -> None:
    """With its mode set to the static limit the product's band is 3 percent wide, and 0.2 percent high."""
    f = np.linspace(1.3e9, 1.6e9, 121)
    coupled = np.array([strip_reference.transmission(at, 0.1, 2e-4, (1, 3, 5, 7, 9)) for at in f])
    height, place, width = half_power_band(f, coupled)
    ours = sr.RectangularSlot(0.1, 2e-4).cross_section_m2(f) * 4 * np.pi * (f / strip_reference.C) ** 2
    our_height, our_place, our_width = half_power_band(f, ours)
    assert our_height == pytest.approx(height, rel=1e-3)
    assert our_place == pytest.approx(place, rel=0.003)
    assert our_width == pytest.approx(width, rel=0.035)
    # A single sinusoid with the strip's own slenderness is 1 percent narrow: neither is exact.
    single = np.array([strip_reference.transmission(at, 0.1, 2e-4, (1,)) for at in f])
    assert half_power_band(f, single)[2] == pytest.approx(width, rel=0.015)
