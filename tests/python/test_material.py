"""Materials: broadcasting, catalogue, errors."""

from __future__ import annotations

import math

import mpmath
import numpy as np
import pytest

import stillroom as sr


def test_catalogue_rows_carry_their_source() -> None:
    for name in sr.materials.names():
        assert sr.materials.get(name).source


def test_attribute_and_lookup_are_the_same() -> None:
    assert sr.materials.mu_metal == sr.materials.get("mu-metal")
    assert sr.materials.ceiling_board == sr.materials.get("ceiling board")


def test_unknown_material_lists_the_known() -> None:
    with pytest.raises(sr.UnknownNameError, match="unobtainium") as caught:
        sr.materials.get("unobtainium")
    assert "copper" in caught.value.known


@pytest.mark.parametrize("frequency_hz", [1.0, 50.0, 1e6, 18e9, 1e12])
def test_complex_permittivity_and_skin_depth_against_forty_digits(frequency_hz: float) -> None:
    with mpmath.workdps(40):
        mu0 = 4 * mpmath.pi / 10**7
        eps0 = 1 / (mu0 * mpmath.mpf(299792458) ** 2)
        omega = 2 * mpmath.pi * frequency_hz
        imaginary = -mpmath.mpf(58000000) / (omega * eps0)
        depth = mpmath.sqrt(2 / (omega * mu0 * 58000000))
    permittivity = sr.materials.copper.complex_permittivity(frequency_hz)
    assert isinstance(permittivity, complex)
    assert permittivity.imag == pytest.approx(float(imaginary), rel=1e-14)
    assert sr.materials.copper.skin_depth_m(frequency_hz) == pytest.approx(float(depth), rel=1e-14)


def test_relaxing_permeability_loses() -> None:
    ferrite = sr.Material("ferrite", relative_permeability=sr.RelaxingPermeability(1000.0, 1e6))
    assert ferrite.complex_permeability(1e6) == pytest.approx(500.5 - 499.5j, rel=1e-12)


def test_table_is_joined_in_log_frequency() -> None:
    table = sr.PermeabilityTable([1e3, 1e5], [1000.0, 200.0], [0.0, 100.0])
    steel = sr.Material("steel", conductivity_s_per_m=5.8e6, relative_permeability=table)
    assert steel.complex_permeability(1e4) == pytest.approx(600.0 - 50.0j, rel=1e-12)


def test_shapes_follow_numpy() -> None:
    depth = sr.materials.copper.skin_depth_m
    assert isinstance(depth(1e6), float)
    assert isinstance(depth(np.float64(1e6)), float)
    assert isinstance(depth(np.array(1e6)), float)
    assert depth([1e6]).shape == (1,)
    assert depth(np.ones((2, 3)) * 1e6).shape == (2, 3)
    assert depth(np.array([], dtype=float)).shape == (0,)
    assert depth(np.arange(1, 5, dtype=np.int32)).dtype == np.float64
    strided = np.geomspace(1e3, 1e9, 10)[::3]
    np.testing.assert_array_equal(depth(strided), [depth(f) for f in strided])


@pytest.mark.parametrize(
    ("keywords", "quantity"),
    [
        ({"conductivity_s_per_m": -1.0}, "conductivity_s_per_m"),
        ({"relative_permittivity": 0.5}, "relative_permittivity"),
        ({"relative_permittivity": math.nan}, "relative_permittivity"),
        ({"loss_tangent": -0.1}, "loss_tangent"),
        ({"relative_permeability": 0.0}, "relative_permeability"),
        ({"relative_permeability": math.inf}, "relative_permeability"),
    ],
)
def test_constants_outside_their_domain(keywords: dict[str, float], quantity: str) -> None:
    with pytest.raises(sr.OutOfRangeError) as caught:
        sr.Material("stuff", **keywords)  # type: ignore[arg-type]
    assert caught.value.quantity == quantity
    assert quantity in str(caught.value)


def test_names_and_ranges_are_checked() -> None:
    with pytest.raises(sr.EmptyError):
        sr.Material("")
    with pytest.raises(sr.RelationError):
        sr.Material("stuff", range_hz=(2e9, 1e9))
    with pytest.raises(sr.NotIncreasingError) as caught:
        sr.PermeabilityTable([2e3, 1e3], [1.0, 1.0])
    assert caught.value.index == 1


@pytest.mark.parametrize("frequency_hz", [0.0, -1e6, math.nan, math.inf])
def test_bad_frequencies_name_value(frequency_hz: float) -> None:
    with pytest.raises(sr.OutOfRangeError, match="frequency_hz"):
        sr.materials.copper.skin_depth_m(frequency_hz)


@pytest.mark.parametrize("frequency_hz", ["1e6", None, 1e6 + 0j, [True], np.array(["a"]), object()])
def test_wrong_types_are_named(frequency_hz: object) -> None:
    with pytest.raises(TypeError, match="frequency_hz"):
        sr.materials.copper.skin_depth_m(frequency_hz)  # type: ignore[arg-type]
