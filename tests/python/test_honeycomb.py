"""Honeycomb vents: mode matching and foil with unbonded nodes against independent computations."""

from __future__ import annotations

import cmath
import math

import mpmath
import numpy as np
import pytest
from finite_panel_reference import cross_section, transmission

import stillroom as sr

C = 299792458.0
ETA = 376.730313668

PANEL = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3, 0.1e-3), 25e-3, (0.3, 0.3))
NODES = sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, contact_resistance_ohm_m=1e-2)


def node_line(f: float, nodes: sr.vents.UnbondedNodes, tilt: float = 1.0) -> tuple[mpmath.mpc, mpmath.mpc]:
    """1/T and 1 + R of the nodes alone, as a line between two free spaces, in plain hyperbolic functions."""
    with mpmath.workdps(40):
        omega, width = 2 * mpmath.pi * f, mpmath.mpf(PANEL.cell.across_flats_m) / mpmath.sqrt(3)
        mu, eps = mpmath.mpf(ETA) / C, 1 / (mpmath.mpf(ETA) * C)
        surface = mpmath.sqrt(mpmath.pi * f * mu / nodes.foil_conductivity_s_per_m)
        series = (1j * omega * mu * nodes.glue_m + 2 * (1 + 1j) * surface) / width
        shunt = 1j * omega * eps * nodes.relative_permittivity * width / nodes.glue_m
        if nodes.contact_resistance_ohm_m is not None:
            shunt += 1 / mpmath.mpf(nodes.contact_resistance_ohm_m)
        gamma = mpmath.sqrt(series * shunt)
        z = mpmath.sqrt(series / shunt) / (mpmath.mpf(ETA) / (2 * mpmath.sqrt(3))) * tilt
        x = gamma * PANEL.depth_m
        a, b, c = mpmath.cosh(x), z * mpmath.sinh(x), mpmath.sinh(x) / z
        total = 2 * a + b + c
        return total / 2, 2 * (a + b) / total


@pytest.mark.parametrize("contact", [None, 1e-2, 1e-3])
@pytest.mark.parametrize("f", [1e5, 1e8, 5e9])
def test_nodes_are_a_line(f: float, contact: float | None) -> None:
    nodes = sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, contact)
    inverse, _ = node_line(f, nodes)
    alone = float(20 * mpmath.log10(abs(inverse)))
    assert alone < PANEL.shielding_db(f) - 60
    # The cells stand in series: at 5 GHz a few per cent of the wave's own impedance.
    near = 0.01 if f < 1e9 else 0.15
    assert sr.vents.FoilPanel(PANEL, nodes).shielding_db(f) == pytest.approx(alone, abs=near)


def test_along_the_ribbons_nodes_do_not_count() -> None:
    f = np.array([1e6, 1e9, 15e9])
    foil = sr.vents.FoilPanel(PANEL, NODES)
    assert foil.shielding_db(f, across_ribbons=False) == pytest.approx(PANEL.shielding_db(f), abs=1e-9)
    assert np.all(foil.shielding_db(f) < PANEL.shielding_db(f) - 20)


def test_perfect_contact_is_a_bond_and_no_contact_is_no_panel() -> None:
    f = np.array([1e6, 1e8, 1e10])
    bonded = sr.vents.FoilPanel(PANEL, sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, 1e-12))
    assert bonded.shielding_db(f) == pytest.approx(PANEL.shielding_db(f), abs=0.05)
    assert bonded.cross_section_db(f) == pytest.approx(PANEL.cross_section_db(f), abs=0.05)
    # Insulated ribbons are transparent to a slow field across them.
    loose = sr.vents.FoilPanel(PANEL, sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7))
    assert loose.shielding_db(1e5) < 0.1
    # Half of the power of unpolarized waves lies across the ribbons of a panel that lets it all through: no
    # more than that, and against a wavelength of 3 km far less, since the frame is a small hole.
    assert PANEL.cross_section_m2(1e5) * 1e6 < loose.cross_section_m2(1e5) < 0.25 * 0.09


def test_a_crossed_layer_stops_what_the_first_lets_through() -> None:
    f = np.geomspace(1e6, 15e9, 30)
    single = sr.vents.FoilPanel(PANEL, NODES)
    pair = sr.vents.FoilPanel(PANEL, NODES, crossed_gap_m=5e-3)
    assert np.all(pair.shielding_db(f) > PANEL.shielding_db(f))
    assert np.all(pair.cross_section_db(f) < single.cross_section_db(f) - 40)
    # Which layer the field crosses first does not matter.
    assert pair.shielding_db(f, across_ribbons=False) == pytest.approx(pair.shielding_db(f), abs=1e-9)


def test_pair_against_a_cascade_of_networks() -> None:
    """The bonded layer by what its own mode matching passes, mirrors between as in a chain of lines."""
    f, gap = 3e9, 8e-3
    inverse, seen = node_line(f, NODES)
    bonded = 10 ** (-PANEL.shielding_db(f) / 20)
    first = abs(1 / inverse)
    # Echoes between the nodes' mirror and a perfect one; the cells' own reactance shifts both a little.
    k = 2 * math.pi * f / C
    estimate = first * bonded / abs(1 - cmath.exp(-2j * k * gap) + complex(seen))
    db = sr.vents.FoilPanel(PANEL, NODES, crossed_gap_m=gap).shielding_db(f)
    assert db == pytest.approx(-20 * math.log10(estimate), abs=2.5)


def test_outside_its_range_it_says_so() -> None:
    with pytest.warns(sr.DomainWarning, match="lines"):
        sr.vents.FoilPanel(PANEL, NODES).shielding_db(25e9)
    with pytest.warns(sr.DomainWarning, match="gap / pitch"):
        sr.vents.FoilPanel(PANEL, NODES, crossed_gap_m=0.5e-3).shielding_db(1e9)
    with pytest.warns(sr.DomainWarning, match="gap / wavelength"):
        sr.vents.FoilPanel(PANEL, NODES, crossed_gap_m=30e-3).shielding_db(10e9)
    with pytest.warns(sr.DomainWarning, match="projected side"):
        PANEL.cross_section_at_m2(1e9, 0.0)
    with pytest.warns(sr.DomainWarning, match="highest cutoff of the basis"):
        PANEL.matched_shielding_db(200e9, all_directions=True)


def test_cross_section_of_the_finite_panel() -> None:
    f, angle = 20e9, np.array([0.0, 40.0])
    expected = 0.09 * np.cos(np.radians(angle)) * 10 ** (-PANEL.shielding_db(f, angle, "tm") / 10)
    assert PANEL.cross_section_at_m2(f, angle, "tm") == pytest.approx(expected, rel=1e-12)
    assert PANEL.perimeter_m == pytest.approx(1.2)


@pytest.mark.parametrize(
    ("count", "ratios"), [(2, [0.02, 0.1, 0.3, 0.6]), (3, [0.02, 0.1, 0.3, 0.6]), (4, [0.02, 0.6])], ids=str
)
def test_finite_panels_against_a_sum_over_their_cells(count: int, ratios: list[float]) -> None:
    """Averaged over all directions, over what the unbounded lattice passes along the normal: what is left.

    The lattice alone would be 30 dB too high for the panel of 3 x 3 cells at 0.02 of cutoff.
    """
    width, pitch, depth = 4.8e-3, 1.0625, 1.5
    side = count * pitch * width
    panel = sr.HoneycombPanel(sr.vents.SquareCell(width, (pitch - 1) * width), depth * width, (side, side))
    assert panel.cell_count == count**2
    for ratio in ratios:
        f = ratio * panel.cutoff_hz
        k = 2 * math.pi * f / C * width
        summed = cross_section(k, count, pitch, depth) / transmission(k, pitch, depth) ** 2 * width**2
        ours = panel.cross_section_m2(f) * 10 ** (panel.shielding_db(f) / 10)
        assert -2.5 < 10 * math.log10(ours / summed) < 1.5, (count, ratio)


def test_frame_joint_is_part_of_the_panel() -> None:
    joint = sr.vents.FrameJoint(50e-6, 2e-6, 1e-12)
    framed = sr.HoneycombPanel(PANEL.cell, PANEL.depth_m, PANEL.size_m, frame=joint)
    line = sr.GasketLine(PANEL.perimeter_m, 50e-6, [sr.joints.Gasket(2e-6, 1e-12)])
    f = np.array([1e6, 1e9, 18e9])
    expected = PANEL.cross_section_m2(f) + line.cross_section_m2(f)
    assert framed.cross_section_m2(f) == pytest.approx(expected, rel=1e-9)
    assert framed.frame == joint
    assert PANEL.frame is None
    assert framed.parameter("frame.gap_m") == 50e-6
    worn = framed.with_parameter("frame.resistance_ohm_m", 2e-3)
    # At 18 GHz the inductance decides, and what the resistance takes is lost to the inside as well.
    assert np.all(worn.cross_section_m2(f[:2]) > framed.cross_section_m2(f[:2]))
    foil = sr.vents.FoilPanel(framed, NODES)
    bare = sr.vents.FoilPanel(PANEL, NODES)
    assert foil.cross_section_m2(f) == pytest.approx(
        bare.cross_section_m2(f) + line.cross_section_m2(f), rel=1e-9
    )


def test_rules_of_thumb_by_name() -> None:
    f = np.array([1e6, 0.6 * PANEL.cutoff_hz])
    rules = PANEL.rules_of_thumb_db(f)
    one = 27.3 * 25 / 4.8
    assert rules["one_cell"] == pytest.approx([one, one])
    assert rules["near_cutoff"] == pytest.approx([one, 0.8 * one], rel=1e-6)
    in_step = rules["near_cutoff"] - sr.vents.cells_in_step_rule_db(PANEL.cell_count)
    assert rules["cells_in_step"] == pytest.approx(in_step)
    apart = rules["near_cutoff"] - sr.vents.cells_apart_rule_db(PANEL.cell_count)
    assert rules["cells_apart"] == pytest.approx(apart)


def developed(corners: int) -> float:
    """Developed f Re (Fanning, hydraulic diameter) of a regular polygon of unit inradius.

    The velocity under unit pressure slope is -r^2/4 and harmonic polynomials of the polygon's symmetry, zero
    on one side by least squares.
    """
    half = math.tan(math.pi / corners)
    y = half * np.sin(np.linspace(0, math.pi / 2, 200))
    r, angle = np.hypot(1, y), np.arctan(y)
    order = corners * np.arange(8)
    basis = r[:, None] ** order * np.cos(order * angle[:, None])
    coefficients = np.linalg.lstsq(basis, r**2 / 4, rcond=None)[0]
    place, weight = np.polynomial.legendre.leggauss(40)
    share, angle = (1 + place) / 2, (1 + place) / 2 * math.pi / corners
    total = 0.0
    for phi, on_phi in zip(angle, weight * math.pi / corners / 2, strict=True):
        reach = 1 / math.cos(phi)
        r = share * reach
        velocity = r[:, None] ** order @ (coefficients * np.cos(order * phi)) - r**2 / 4
        total += on_phi * np.sum(weight / 2 * reach * r * velocity)
    mean = total / (half / 2)
    # Area over perimeter is half the inradius.
    return 2.0**2 / (2 * mean)


@pytest.mark.parametrize(
    ("cell", "corners"), [(sr.vents.SquareCell(5e-3), 4), (sr.vents.HexagonalCell(5e-3), 6)]
)
def test_developed_friction_of_polygons(
    cell: sr.vents.SquareCell | sr.vents.HexagonalCell, corners: int
) -> None:
    air, speed = sr.vents.Air(), 0.5
    long, longer = (sr.HoneycombPanel(cell, depth, (0.3, 0.3)) for depth in (40.0, 60.0))
    per_m = (longer.pressure_drop_pa(speed) - long.pressure_drop_pa(speed)) / 20.0
    expected = 2 * developed(corners) * air.viscosity_pa_s * speed / 5e-3**2
    assert per_m == pytest.approx(expected, rel=3e-4)


def test_entrance_and_exit_against_a_general_fluid_library() -> None:
    """The exit is the same; of the entrance the library has another correlation, Rennels'."""
    fittings = pytest.importorskip("fluids").fittings
    air, inside = sr.vents.Air(), 8.0
    head = 0.5 * air.density_kg_per_m3 * inside**2
    for wall_m in [0.05e-3, 0.1e-3, 0.5e-3, 1e-3, 2e-3]:
        panel = sr.HoneycombPanel(sr.vents.SquareCell(5e-3, wall_m), 25e-3, (0.3, 0.3))
        open_fraction = panel.cell.open_fraction
        parts = panel.pressure_parts(inside * open_fraction)
        d = math.sqrt(open_fraction)
        assert parts["exit_pa"] / head == pytest.approx(fittings.diffuser_sharp(d, 1.0), rel=1e-9)
        apart = parts["entrance_pa"] / head - fittings.contraction_sharp(1.0, d)
        low, high = (-0.001, 0.01) if open_fraction > 0.9 else (-0.135, 0.01)
        assert low < apart < high, (open_fraction, apart)
        whole = parts["entrance_pa"] + parts["friction_pa"] + parts["exit_pa"]
        assert panel.pressure_drop_pa(inside * open_fraction) == pytest.approx(whole, rel=1e-12)
        assert parts["reynolds"] == pytest.approx(air.density_kg_per_m3 * inside * 5e-3 / air.viscosity_pa_s)


def test_fast_air_is_said_to_be_out_of_range() -> None:
    with pytest.warns(sr.DomainWarning, match="incompressible"):
        PANEL.pressure_drop_pa(150.0)


@pytest.mark.parametrize("cell", [sr.vents.HexagonalCell, sr.vents.SquareCell, sr.vents.RoundCell])
def test_closed_form_is_exact_along_the_normal(cell: type) -> None:
    panel = sr.HoneycombPanel(cell(4.8e-3, 0.2e-3), 10e-3, (0.3, 0.3))
    f = np.linspace(0.01, 0.8, 30) * panel.cutoff_hz
    assert panel.shielding_db(f) == pytest.approx(panel.matched_shielding_db(f), abs=0.1)


def test_a_frequency_has_the_same_answer_alone_and_in_company() -> None:
    f = np.linspace(1e9, 70e9, 60)
    sweep = PANEL.matched_shielding_db(f, 35.0, 20.0, polarization="tm", all_directions=True)
    alone = [
        PANEL.matched_shielding_db(x, 35.0, 20.0, polarization="tm", all_directions=True) for x in f[::9]
    ]
    assert sweep[::9] == pytest.approx(alone, abs=1e-6)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: sr.vents.UnbondedNodes(0.0, 3.5, 3.5e7), "`glue_m` = 0 m"),
        (lambda: sr.vents.UnbondedNodes(10e-6, 0.5, 3.5e7), "`relative_permittivity` = 0.5"),
        (lambda: sr.vents.UnbondedNodes(10e-6, 3.5, math.nan), "`foil_conductivity_s_per_m` = NaN"),
        (lambda: sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, 0.0), "`contact_resistance_ohm_m` = 0 ohm m"),
        (
            lambda: sr.vents.FoilPanel(PANEL, sr.vents.UnbondedNodes(3e-3, 3.5, 3.5e7)),
            "must be smaller than `node_width_m`",
        ),
        (lambda: sr.vents.FoilPanel(PANEL, NODES, crossed_gap_m=-1.0), "`crossed_gap_m` = -1 m"),
        (
            lambda: sr.vents.FoilPanel(sr.HoneycombPanel(sr.vents.SquareCell(4e-3), 0.02, (0.3, 0.3)), NODES),
            "hexagonal cells",
        ),
        (lambda: sr.vents.FrameJoint(0.0, 1e-6), "`gap_m` = 0 m"),
        (lambda: sr.vents.FrameJoint(50e-6), "`resistance_ohm_m` = 0 ohm m"),
        (lambda: sr.vents.FrameJoint(50e-6, math.nan), "`resistance_ohm_m` = NaN"),
        (lambda: PANEL.pressure_drop_pa(-1.0), "`face_velocity_m_per_s` = -1 m/s"),
        (lambda: PANEL.rules_of_thumb_db(0.0), "`frequency_hz` = 0 Hz"),
        (lambda: sr.vents.HexagonalCell(3e-3, 7e-3), "must be at most `2 across_flats_m`"),
        (lambda: sr.HoneycombPanel(sr.vents.HexagonalCell(3e-3), 0.0, (0.3, 0.3)), "`depth_m` = 0 m"),
    ],
)
def test_nonsense_is_refused_by_name(make: object, said: str) -> None:
    with pytest.raises(sr.StillroomError) as caught:
        make()
    assert said in str(caught.value)


def test_a_framed_vent_reads_as_its_cells_and_its_joint() -> None:
    # 6.7 dB was read in a loop test where the bare hole reads more: cells passed the joint's share in step.
    frame = sr.vents.FrameJoint(0.1e-3, 20e-6, 1e-12)
    vent = sr.HoneycombPanel(PANEL.cell, PANEL.depth_m, PANEL.size_m, frame=frame)
    joint = sr.GasketLine(vent.perimeter_m, 0.1e-3, [sr.joints.Gasket(20e-6, 1e-12)])
    wall = sr.Laminate([(sr.materials.copper, 3e-3)])
    leaks = {"vent": vent, "cells": PANEL, "joint": joint, "hole": sr.RectangularSlot(0.3, 0.3, 0.0)}
    room = sr.Enclosure((4.8, 3.6, 3.0), wall=wall, leaks=leaks)
    f = np.array([1e6, 20e6])
    for exposure in [sr.LoopTest("coplanar", 0.15, 0.15, 0.3, 0.3), sr.AntennaTest(1.0, 0.5)]:
        study = room.study(f, exposure=exposure)
        db = dict(zip(study.leaks, study.shielding_db, strict=True))
        # The outline is nearer to the antennas than the same joint in a straight line, by less than 12 dB.
        assert np.all(db["vent"] < db["joint"])
        assert np.all(db["vent"] > db["joint"] - 12)
        assert np.all(db["vent"] > db["hole"] + 20)


def test_shallow_panels_are_said_to_be_unresolved() -> None:
    shallow = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3), 0.4e-3, (0.3, 0.3))
    with pytest.warns(sr.DomainWarning, match="depth / cell width"):
        shallow.matched_shielding_db(5e9)
