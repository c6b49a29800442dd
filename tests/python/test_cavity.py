"""Boxes with openings against an independent reference by images, and their Python face."""

from __future__ import annotations

import numpy as np
import pytest
from cavity_reference import Complex, ResonantBox, SlottedBox, coupled_slot_db

import stillroom as sr

INTERIOR = (0.3, 0.12, 0.25)
POINT = (0.11, 0.05, 0.1)
PERFECT = sr.Material("perfect", conductivity_s_per_m=1e30)


ONE_SLOT = [(0.12, 0.05, 0.08, 1e-3)]
TWO_SLOTS = [(0.1, 0.04, 0.08, 1e-3), (0.2, 0.08, 0.06, 1e-3)]


def filled_box(slots: list[tuple[float, float, float, float]], quality: float) -> sr.BenchBox:
    return sr.BenchBox(
        INTERIOR,
        [sr.boxes.BoxSlot((x, y), (length, width)) for x, y, length, width in slots],
        walls=PERFECT,
        contents_quality_factor=quality,
    )


def compare_fields(bench: sr.BenchBox, frequency_hz: float, reference: Complex, most_db: float) -> None:
    ours = np.array([bench.field(frequency_hz, POINT, name) for name in ("ex", "ey", "ez")])
    apart_db = 20 * np.log10(np.linalg.norm(ours) / np.linalg.norm(reference))
    assert abs(apart_db) < most_db
    # But for the size, phase and direction are the same.
    along = abs(np.vdot(ours, reference)) / np.linalg.norm(ours) / np.linalg.norm(reference)
    assert along == pytest.approx(1.0, abs=1e-3)


@pytest.mark.parametrize("slots", [ONE_SLOT, TWO_SLOTS], ids=["one slot", "two slots"])
def test_the_field_inside_by_images(slots: list[tuple[float, float, float, float]]) -> None:
    """Full of loss, so that the images converge; 0.7 dB, of which 0.5 are the slot's own.

    The product ties the lowest half-wave to the polarizability of the rectangle, the reference has three bare
    half-waves on a strip of the same equivalent radius.
    """
    reference = SlottedBox(INTERIOR, slots, quality=1.0).field(1.6e9, POINT)
    compare_fields(filled_box(slots, 1.0), 1.6e9, reference, 0.7)


def test_both_references_agree() -> None:
    """Images in three directions and images of line currents are the same box, but for the series' end."""
    in_space = SlottedBox(INTERIOR, ONE_SLOT, quality=1.0).field(1.6e9, POINT)
    by_lines = ResonantBox(INTERIOR, ONE_SLOT, quality=1.0, terms=800).field(1.6e9, POINT)
    np.testing.assert_allclose(by_lines, in_space, atol=1e-4 * np.linalg.norm(in_space))


@pytest.mark.parametrize("frequency_hz", [0.5e9, 0.78e9, 1.6e9])
def test_the_field_inside_a_resonant_box(frequency_hz: float) -> None:
    """Q = 30: far below its first resonance (781 MHz), at it, and where modes overlap."""
    reference = ResonantBox(INTERIOR, TWO_SLOTS, quality=30.0).field(frequency_hz, POINT)
    compare_fields(filled_box(TWO_SLOTS, 30.0), frequency_hz, reference, 0.7)


def test_the_third_half_wave_is_counted_once() -> None:
    """Tied to the polarizability with the third half-wave in it; counted twice it let 0.4 dB more in."""
    interior, slot, middle = (0.3, 0.12, 0.3), (0.15, 0.06, 0.1, 5e-3), (0.15, 0.06, 0.15)
    few, many = (coupled_slot_db(200e6, interior, slot, middle, odd) for odd in (4, 8))
    # One over their number is what is left.
    expected = 2 * many - few
    bench = sr.BenchBox(interior, [sr.boxes.BoxSlot((0.15, 0.06), (0.1, 5e-3))], walls=PERFECT)
    assert bench.electric_shielding_db(200e6, middle) == pytest.approx(expected, abs=0.1)


def test_waves_along_the_front() -> None:
    """A wave along the front drives a slot across its way with half of what one straight on it does."""
    bench = filled_box([(0.15, 0.06, 0.08, 1e-3)], 30.0)
    f = np.array([200e6, 500e6, 781e6])
    straight = bench.field(f, POINT, "ey")
    for travel, sign in (("+y", -1), ("-y", 1)):
        phase = np.exp(1j * sign * 2 * np.pi * f / 299_792_458.0 * 0.06)
        along = bench.field(f, POINT, "ey", polarization="z", travel=travel)
        # What the electric field drives in it beside is next to nothing.
        np.testing.assert_allclose(along, sign * 0.5 * straight * phase, atol=2e-3 * np.abs(straight).min())
    slot_wise = bench.electric_shielding_db(f, POINT, polarization="z", travel="+x")
    assert np.all(slot_wise > bench.electric_shielding_db(f, POINT) + 30)
    assert np.all(np.isfinite(slot_wise))


def test_waves_that_cannot_be_had_are_told() -> None:
    bench = filled_box(ONE_SLOT, 30.0)
    with pytest.raises(sr.errors.UnknownNameError, match=r"\+x, -x, \+y, -y"):
        bench.electric_shielding_db(1e9, POINT, polarization="z")
    with pytest.raises(sr.errors.UnknownNameError, match="polarization for that travel"):
        bench.electric_shielding_db(1e9, POINT, polarization="y", travel="+x")
    with pytest.raises(sr.errors.UnknownNameError, match="travel"):
        bench.electric_shielding_db(1e9, POINT, travel="-z")
    with pytest.raises(sr.errors.UnknownNameError, match="x, y, z"):
        bench.electric_shielding_db(1e9, POINT, polarization="q")


def test_components_make_up_the_shielding() -> None:
    slot = sr.boxes.BoxSlot((0.15, 0.06), (0.1, 5e-3))
    bench = sr.BenchBox((0.3, 0.12, 0.3), [slot])
    f = np.linspace(300e6, 900e6, 7)
    electric = [bench.field(f, POINT, name) for name in ("ex", "ey", "ez")]
    size = np.sqrt(sum(np.abs(part) ** 2 for part in electric))
    np.testing.assert_allclose(bench.electric_shielding_db(f, POINT), -20 * np.log10(size), atol=1e-9)
    magnetic = [bench.field(f, POINT, name) for name in ("hx", "hy", "hz")]
    size = np.sqrt(sum(np.abs(part) ** 2 for part in magnetic))
    np.testing.assert_allclose(bench.magnetic_shielding_db(f, POINT), -20 * np.log10(size), atol=1e-9)


def test_nonsense_is_told_by_name() -> None:
    slot = sr.boxes.BoxSlot((0.15, 0.06), (0.1, 5e-3))
    with pytest.raises(sr.errors.RelationError, match=r"openings\.0"):
        sr.BenchBox((0.09, 0.12, 0.3), [slot])
    with pytest.raises(sr.errors.RelationError, match=r"openings\.1 from openings\.0"):
        sr.BenchBox((0.3, 0.12, 0.3), [slot, sr.boxes.BoxHole((0.15, 0.06), 0.01)])
    bench = sr.BenchBox((0.3, 0.12, 0.3), [slot])
    with pytest.raises(sr.errors.RelationError, match=r"at_m\[1\]"):
        bench.electric_shielding_db(1e9, (0.1, 0.2, 0.1))
    with pytest.raises(sr.errors.UnknownNameError, match="ex, ey"):
        bench.field(1e9, POINT, "e")
    with pytest.warns(sr.DomainWarning, match="opening length"):
        bench.electric_shielding_db(3.5e9, POINT)
