"""Laminates, splits, near-field tests and shells against forty-digit references."""

from __future__ import annotations

import math
import warnings

import mpmath as mp
import numpy as np
import pytest
import sheet_reference as ref

import stillroom as sr

DB_PER_NEPER = 20 / mp.log(10)

COPPER = {"conductivity": 5.8e7}
STEEL = {"conductivity": 5.8e6, "permeability": 200}
CORE = {"permittivity": 2.5, "loss_tangent": 0.04}
PLASTIC = {"permittivity": 3.0}


def material(constants):
    return sr.Material(
        "m",
        conductivity_s_per_m=float(constants.get("conductivity", 0)),
        relative_permittivity=float(constants.get("permittivity", 1)),
        loss_tangent=float(constants.get("loss_tangent", 0)),
        relative_permeability=float(constants.get("permeability", 1)),
    )


def laminate(stack):
    return sr.Laminate([(material(constants), thickness) for constants, thickness in stack])


def media(stack, frequency_hz):
    return [(*ref.medium(frequency_hz, **constants), thickness) for constants, thickness in stack]


STACKS = {
    "copper": [(COPPER, 1e-3)],
    "copper film": [(COPPER, 1e-9)],
    "steel": [(STEEL, 2e-3)],
    "metre of copper": [(COPPER, 1.0)],
    "plastic": [(PLASTIC, 20e-3)],
    "lossy core": [(CORE, 19e-3)],
    "panel": [(STEEL, 0.5e-3), (CORE, 19e-3), (STEEL, 0.5e-3)],
    "five": [(COPPER, 20e-6), (PLASTIC, 5e-3), (STEEL, 1e-4), (CORE, 0.1), (COPPER, 1e-8)],
}
FREQUENCIES = [1.0, 50.0, 1e4, 1e6, 1e8, 1e9, 18e9, 1e12]


@pytest.mark.parametrize("name", STACKS)
@pytest.mark.parametrize("polarization", ["te", "tm"])
@pytest.mark.parametrize("angle_deg", [0.0, 45.0, 85.0])
def test_laminate(name, polarization, angle_deg):
    stack = STACKS[name]
    sheet = laminate(stack)
    for frequency_hz in FREQUENCIES:
        layers = media(stack, frequency_hz)
        transmission, reflection = ref.plane_wave(layers, frequency_hz, angle_deg, polarization)
        # Half a unit in the last place of f or d turns the phase in a slab by this much.
        turned = 4e-16 * (1 + float(ref.electrical_length(layers, frequency_hz)))
        expected = -DB_PER_NEPER * mp.log(abs(transmission))
        found = sheet.shielding_db(frequency_hz, angle_deg, polarization)
        # A decibel value near zero is a difference from one: its floor is that of the amplitude.
        assert abs(found - expected) <= 1e-12 * abs(expected) + 2e-14 + 10 * turned, (
            frequency_hz,
            found,
            expected,
        )
        scattered = sheet.reflection(frequency_hz, angle_deg, polarization)
        assert abs(scattered - complex(reflection)) < 1e-14 + 2 * turned, (
            frequency_hz,
            scattered,
            reflection,
        )


@pytest.mark.parametrize("frequency_hz", [18e9, 1e12])
def test_two_millimetres_of_steel(frequency_hz):
    stack = [(STEEL, 2e-3)]
    transmission, _ = ref.plane_wave(media(stack, frequency_hz), frequency_hz, 0, "te")
    expected = -DB_PER_NEPER * mp.log(abs(transmission))
    found = laminate(stack).shielding_db(frequency_hz)
    assert math.isfinite(found)
    assert abs(found / expected - 1) < 1e-10


@pytest.mark.parametrize(
    "name", ["copper", "copper film", "steel", "metre of copper", "plastic", "lossy core"]
)
def test_split(name):
    stack = STACKS[name]
    for frequency_hz in FREQUENCIES:
        split = laminate(stack).split(frequency_hz)
        eps, mu, thickness = media(stack, frequency_hz)[0]
        gamma = 2j * mp.pi * frequency_hz / ref.SPEED_OF_LIGHT * mp.sqrt(eps * mu)
        gamma = gamma if gamma.real >= 0 else -gamma
        k = mp.sqrt(eps / mu)
        absorbed = DB_PER_NEPER * gamma.real * mp.mpf(thickness)
        reflected = DB_PER_NEPER * mp.log(abs((k + 1) ** 2 / (4 * k)))
        back = DB_PER_NEPER * mp.log(
            abs(1 - ((k - 1) / (k + 1)) ** 2 * mp.exp(-2 * gamma * mp.mpf(thickness)))
        )
        for found, expected in [
            (split.absorption_db, absorbed),
            (split.reflection_db, reflected),
            (split.re_reflection_db, back),
        ]:
            assert abs(found - expected) <= 1e-12 * abs(expected) + 2e-14, (frequency_hz, found, expected)
        whole = laminate(stack).shielding_db(frequency_hz)
        # Millions of decibels have no tenth decimal any more.
        assert abs(split.total_db - whole) < 1e-10 + 4e-16 * whole


def test_split_near_a_source():
    for source, impedance in [
        ("dipole", lambda x: (1 + x + x**2) / (x * (1 + x))),
        ("loop", lambda x: x * (1 + x) / (1 + x + x**2)),
    ]:
        for frequency_hz in [50.0, 1e4, 1e6, 1e8, 1e9]:
            distance = 0.3
            x = 2j * mp.pi * frequency_hz / ref.SPEED_OF_LIGHT * mp.mpf(distance)
            outside = impedance(x)
            found = sr.sheets.near_wave_impedance_ohm(source, frequency_hz, distance)
            assert abs(found - complex(ref.ETA0 * outside)) < 1e-13 * abs(found)
            eps, mu = ref.medium(frequency_hz, **COPPER)
            gamma = 2j * mp.pi * frequency_hz / ref.SPEED_OF_LIGHT * mp.sqrt(eps * mu)
            k = outside * mp.sqrt(eps / mu)
            expected = DB_PER_NEPER * mp.log(abs((k + 1) ** 2 / (4 * k)))
            split = sr.sheets.near_split(source, material(COPPER), 1e-3, frequency_hz, distance)
            assert abs(split.reflection_db - expected) < 1e-12 * abs(expected)
            assert abs(split.absorption_db - DB_PER_NEPER * gamma.real * mp.mpf("1e-3")) < 1e-10


NEAR_CASES = [
    ("coaxial", "copper", 10.0, 0.15, 0.15),
    ("coaxial", "copper", 1e3, 0.15, 0.0),
    ("coaxial", "copper", 150e3, 0.15, 0.10),
    ("coaxial", "copper", 1e8, 0.15, 0.15),
    ("coaxial", "steel", 50.0, 0.15, 0.15),
    ("coaxial", "steel", 9e3, 0.30, 0.05),
    ("coaxial", "steel", 3e7, 0.15, 0.15),
    ("coaxial", "panel", 10.0, 0.15, 0.15),
    ("coaxial", "panel", 1e4, 0.15, 0.15),
    ("coaxial", "panel", 1e6, 0.15, 0.15),
    ("coaxial", "lossy core", 1e8, 0.15, 0.15),
    ("coplanar", "copper", 1e3, 0.15, 0.10),
    ("coplanar", "panel", 1e7, 0.15, 0.10),
    ("rods", "copper", 10.0, 0.1, 0.2),
    ("rods", "copper", 1e8, 0.1, 0.2),
    ("rods", "steel", 150e3, 0.0, 0.2),
    ("rods", "panel", 10.0, 0.1, 0.2),
    ("rods", "panel", 1e6, 0.0, 0.0),
]


@pytest.mark.parametrize(("kind", "name", "frequency_hz", "source", "receiver"), NEAR_CASES)
def test_near_field_tests(kind, name, frequency_hz, source, receiver):
    spacing, stack = 0.6, STACKS[name]
    sheet = laminate(stack)
    inside = spacing - 0.3 - sheet.thickness_m
    if kind == "rods":
        test = sr.RodTest(source, receiver, 0.3, inside)
    else:
        test = sr.LoopTest(kind, source, receiver, 0.3, inside)
    expected = ref.near_field_ratio(kind, media(stack, frequency_hz), frequency_hz, spacing, source, receiver)
    found = test.ln_ratio(sheet, frequency_hz)
    error = abs(mp.exp(mp.mpc(found) - expected) - 1)
    # Phase and nepers of thick metal are numbers of hundreds, held to sixteen digits.
    assert error < 1e-9, (mp.nstr(error, 3), found, expected)
    assert test.relative_error(sheet, frequency_hz) <= 3e-9


def test_loops_against_scipy():
    """The quasi-static integral as published for one layer, by an ordinary adaptive rule."""
    from scipy.integrate import quad
    from scipy.special import j1

    sigma, mu, t, z, a, frequency_hz = 5.8e7, 1.0, 1e-3, 0.6, 0.15, 10e3
    w = 2 * np.pi * frequency_hz
    mu0 = 4e-7 * np.pi

    def shielded(wave):
        tau = np.sqrt(wave**2 + 1j * w * mu0 * mu * sigma)
        c = 4 * mu * tau * wave / ((tau + mu * wave) ** 2 - (tau - mu * wave) ** 2 * np.exp(-2 * tau * t))
        return c * wave * np.exp(-wave * (z - t) - tau * t) * j1(wave * a) * 2 * j1(wave * a) / (wave * a)

    bare = quad(lambda wave: wave * np.exp(-wave * z) * j1(wave * a) * 2 * j1(wave * a) / (wave * a), 0, 100)[
        0
    ]
    parts = [
        quad(lambda wave, p=p: p(shielded(wave)), 1e-9, 100, epsrel=1e-11, epsabs=0)[0]
        for p in (np.real, np.imag)
    ]
    expected = -20 * np.log10(abs(complex(*parts)) / bare)
    test = sr.LoopTest("coaxial", a, a, 0.3, 0.3 - t)
    assert test.shielding_db(laminate([(COPPER, t)]), frequency_hz) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("shape", ["sphere", "cylinder across", "cylinder along"])
@pytest.mark.parametrize(
    "stack",
    [
        [(COPPER, 1e-3)],
        [({"conductivity": 1e6, "permeability": 20000}, 1e-3)],
        [(STEEL, 0.5e-3), (PLASTIC, 19e-3), (COPPER, 0.2e-3)],
        [(COPPER, 0.2)],
    ],
)
def test_closed_shells(shape, stack):
    shell = sr.ClosedShell(shape, 0.5, [(material(constants), thickness) for constants, thickness in stack])
    for frequency_hz in [0.1, 1e3, 1e6]:
        with mp.workdps(70):
            factor = ref.shell_factor(shape, media(stack, frequency_hz), 0.5, frequency_hz)
            expected = float(DB_PER_NEPER * mp.log(abs(factor)))
        with warnings.catch_warnings():
            # At the top the shell is no longer small against the wavelength; the formula still stands.
            warnings.simplefilter("ignore", sr.DomainWarning)
            found = shell.shielding_db(frequency_hz)
        assert abs(found - expected) <= 1e-12 * abs(expected) + 1e-12, (frequency_hz, found, expected)


def test_wire_mesh():
    pitch, diameter = mp.mpf("1.3e-3"), mp.mpf("0.25e-3")
    mesh = sr.sheets.WireMesh(float(pitch), float(diameter), material(COPPER))
    screen = sr.Laminate([mesh])
    inductance = -ref.MU0 * pitch / (2 * mp.pi) * mp.log(1 - mp.exp(-mp.pi * diameter / pitch))
    assert abs(mesh.sheet_inductance_h / inductance - 1) < 1e-14
    for frequency_hz in [1.0, 1e4, 1e6, 1e8, 1e9]:
        w = 2 * mp.pi * mp.mpf(frequency_hz)
        gamma = mp.sqrt(1j * w * ref.MU0 * (mp.mpf("5.8e7") + 1j * w * ref.EPS0))
        wave_impedance = 1j * w * ref.MU0 / gamma
        radius = diameter / 2
        ratio = mp.besseli(0, gamma * radius) / mp.besseli(1, gamma * radius)
        wire = wave_impedance / (2 * mp.pi * radius) * ratio
        assert abs(mesh.wire_impedance_ohm_per_m(frequency_hz) - complex(wire)) < 1e-13 * abs(wire)
        for angle_deg in [0.0, 60.0]:
            sine = mp.sin(mp.radians(mp.mpf(angle_deg)))
            cosine = mp.sqrt(1 - sine**2)
            for polarization, charges, outside in [
                ("te", 1, ref.ETA0 / cosine),
                ("tm", 1 - sine**2 / 2, ref.ETA0 * cosine),
            ]:
                z = wire * pitch + 1j * w * inductance * charges
                expected = -DB_PER_NEPER * mp.log(abs(2 * z / (2 * z + outside)))
                found = screen.shielding_db(frequency_hz, angle_deg, polarization)
                assert abs(found - expected) < 1e-12 * expected, (frequency_hz, angle_deg, polarization)
