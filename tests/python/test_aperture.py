"""Holes and slots against forty digits, mode matching and static integral equations."""

from __future__ import annotations

import mpmath
import numpy as np
import pytest
from aperture_reference import circular_hole, plate_electric, plate_magnetic, rectangle, rectangular_hole

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
    alpha = sr.Polarizability.of_rectangle(1.0, aspect)
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
    alpha = sr.Polarizability.of_ellipse(1.0, aspect)
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


def test_the_rule_of_thumb_is_no_budget() -> None:
    """It knows neither width nor depth: a crack and a window of one length are the same to it."""
    rule = sr.slot_rule_of_thumb_db([0.15, 0.015], [100e6, 1e9])
    # The handbook rounds the speed of light to 3e8 m/s: 0.006 dB.
    np.testing.assert_allclose(rule, [20.0, 20.0], atol=0.01)
    crack, window = sr.RectangularSlot(0.15, 1e-4, 2e-3), sr.RectangularSlot(0.15, 0.1, 2e-3)
    assert window.cross_section_db(100e6) > crack.cross_section_db(100e6) + 25


def test_errors_name_the_argument() -> None:
    with pytest.raises(sr.RelationError, match=r"`width_m` = 2e-3 m: must be at most `length_m`"):
        sr.RectangularSlot(1e-3, 2e-3)
    with pytest.raises(sr.OutOfRangeError, match="wall_thickness_m"):
        sr.CircularHole(1e-3, -1.0)
    with pytest.raises(sr.OutOfRangeError, match=r"frequency_hz\[1\]"):
        sr.CircularHole(1e-3).cross_section_m2([1e6, np.nan])
    with pytest.raises(sr.OutOfRangeError, match="length_m"):
        sr.slot_rule_of_thumb_db(-1.0, 1e9)
