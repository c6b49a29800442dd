"""Materials: broadcasting, catalogue, errors."""

from __future__ import annotations

import inspect
import math
import warnings

import mpmath
import numpy as np
import pytest

import stillroom as sr


def test_catalogue_rows_carry_their_source() -> None:
    for name in sr.materials.names():
        assert sr.materials.get(name).source


def test_every_material_is_an_attribute_that_type_checkers_know() -> None:
    known = {name for name, kind in inspect.get_annotations(sr.materials).items() if kind == "Material"}
    names = {name.replace(" ", "_").replace("-", "_"): name for name in sr.materials.names()}
    assert known == names.keys()
    for attribute, name in names.items():
        assert attribute.isidentifier()
        assert getattr(sr.materials, attribute) == sr.materials.get(name)


def test_constants_outside_their_range_give_a_warning() -> None:
    wood = sr.materials.wood
    assert wood.range_hz == (1e6, 100e9)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        wood.complex_permittivity([1e6, 100e9])
        sr.materials.steel.skin_depth_m([1.0, 100e9])
        # A permeability of one is known everywhere.
        wood.complex_permeability(1e3)
    with pytest.warns(sr.DomainWarning, match="at 1 of 2 frequencies"):
        wood.complex_permittivity([10e3, 1e9])
    with pytest.warns(sr.DomainWarning, match="permeability"):
        sr.materials.mu_metal.complex_permeability(1e6)
    with pytest.warns(sr.DomainWarning, match="permeability"):
        sr.materials.mu_metal.skin_depth_m(1e6)


def test_permeability_has_a_tolerance() -> None:
    def at(place: float) -> complex:
        return sr.materials.steel.with_parameter("permeability_tolerance", place).complex_permeability(1e5)

    assert abs(at(-1.0)) < abs(at(0.0)) < abs(at(1.0))
    assert at(1.0) == pytest.approx(280.0)
    # Half the way is the mean of the logarithms.
    assert abs(at(0.5)) == pytest.approx(math.sqrt(abs(at(0.0)) * 280.0), rel=1e-12)
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    assert wall.parameter("layers.0.material.permeability_tolerance") == 0.0
    with pytest.raises(sr.errors.OutOfRangeError, match="permeability_tolerance"):
        at(1.5)
    table = sr.materials.PermeabilityTable(
        [1e3, 1e5], [280.0, 90.0], least=[200.0, 60.0 - 20.0j], greatest=[280.0, 280.0]
    )
    assert table.least == [200.0, 60.0 - 20.0j]
    with pytest.raises(sr.errors.LengthMismatchError):
        sr.materials.PermeabilityTable([1e3, 1e5], [280.0, 90.0], least=[200.0, 60.0])


def test_galvanised_steel_is_three_layers() -> None:
    layers = sr.sheets.galvanised_steel(0.5e-3, 20e-6)
    assert [(material.name, thickness) for material, thickness in layers] == [
        ("zinc", 20e-6),
        ("steel", 0.5e-3),
        ("zinc", 20e-6),
    ]
    # 275 g/m^2 on both faces, 7.14 g/cm^3.
    assert sr.sheets.galvanised_steel(0.5e-3)[0][1] == pytest.approx(275.0 / 2 / 7.14e6)


def test_unknown_material_lists_the_known() -> None:
    with pytest.raises(sr.errors.UnknownNameError, match="unobtainium") as caught:
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
    ferrite = sr.Material("ferrite", relative_permeability=sr.materials.RelaxingPermeability(1000.0, 1e6))
    assert ferrite.complex_permeability(1e6) == pytest.approx(500.5 - 499.5j, rel=1e-12)


def test_table_is_joined_in_log_frequency() -> None:
    table = sr.materials.PermeabilityTable([1e3, 1e5], [1000.0, 200.0], [0.0, 100.0])
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
    with pytest.raises(sr.errors.OutOfRangeError) as caught:
        sr.Material("stuff", **keywords)  # type: ignore[arg-type]
    assert caught.value.quantity == quantity
    assert quantity in str(caught.value)


def test_names_and_ranges_are_checked() -> None:
    with pytest.raises(sr.errors.EmptyError):
        sr.Material("")
    with pytest.raises(sr.errors.RelationError):
        sr.Material("stuff", range_hz=(2e9, 1e9))
    with pytest.raises(sr.errors.NotIncreasingError) as caught:
        sr.materials.PermeabilityTable([2e3, 1e3], [1.0, 1.0])
    assert caught.value.index == 1


@pytest.mark.parametrize("frequency_hz", [0.0, -1e6, math.nan, math.inf])
def test_bad_frequencies_name_value(frequency_hz: float) -> None:
    with pytest.raises(sr.errors.OutOfRangeError, match="frequency_hz"):
        sr.materials.copper.skin_depth_m(frequency_hz)


@pytest.mark.parametrize("frequency_hz", ["1e6", None, 1e6 + 0j, [True], np.array(["a"]), object()])
def test_wrong_types_are_named(frequency_hz: object) -> None:
    with pytest.raises(TypeError, match="frequency_hz"):
        sr.materials.copper.skin_depth_m(frequency_hz)  # type: ignore[arg-type]
