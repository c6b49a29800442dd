"""Boxes with openings against an independent reference by images, and their Python face."""

from __future__ import annotations

import numpy as np
import pytest
from cavity_reference import SlottedBox

import stillroom as sr

INTERIOR = (0.3, 0.12, 0.25)
POINT = (0.11, 0.05, 0.1)
PERFECT = sr.Material("perfect", conductivity_s_per_m=1e30)


@pytest.mark.parametrize(
    "slots",
    [
        [(0.12, 0.05, 0.08, 1e-3)],
        [(0.1, 0.04, 0.08, 1e-3), (0.2, 0.08, 0.06, 1e-3)],
    ],
    ids=["one slot", "two slots"],
)
def test_the_field_inside_by_images(slots: list[tuple[float, float, float, float]]) -> None:
    """Full of loss, so that the images converge; 0.7 dB, of which 0.5 are the slot's own.

    The product ties the lowest half-wave to the polarizability of the rectangle, the reference has three bare
    half-waves on a strip of the same equivalent radius.
    """
    frequency_hz = 1.6e9
    reference = SlottedBox(INTERIOR, slots, quality=1.0).field(frequency_hz, POINT)
    bench = sr.BenchBox(
        INTERIOR,
        [sr.BoxSlot((x, y), (length, width)) for x, y, length, width in slots],
        walls=PERFECT,
        contents_quality_factor=1.0,
    )
    ours = np.array([bench.field(frequency_hz, POINT, name) for name in ("ex", "ey", "ez")])
    apart_db = 20 * np.log10(np.linalg.norm(ours) / np.linalg.norm(reference))
    assert abs(apart_db) < 0.7
    # But for the size, phase and direction are the same.
    along = abs(np.vdot(ours, reference)) / np.linalg.norm(ours) / np.linalg.norm(reference)
    assert along == pytest.approx(1.0, abs=1e-3)


def test_components_make_up_the_shielding() -> None:
    slot = sr.BoxSlot((0.15, 0.06), (0.1, 5e-3))
    bench = sr.BenchBox((0.3, 0.12, 0.3), [slot])
    f = np.linspace(300e6, 900e6, 7)
    electric = [bench.field(f, POINT, name) for name in ("ex", "ey", "ez")]
    size = np.sqrt(sum(np.abs(part) ** 2 for part in electric))
    np.testing.assert_allclose(bench.electric_shielding_db(f, POINT), -20 * np.log10(size), atol=1e-9)
    magnetic = [bench.field(f, POINT, name) for name in ("hx", "hy", "hz")]
    size = np.sqrt(sum(np.abs(part) ** 2 for part in magnetic))
    np.testing.assert_allclose(bench.magnetic_shielding_db(f, POINT), -20 * np.log10(size), atol=1e-9)


def test_nonsense_is_told_by_name() -> None:
    slot = sr.BoxSlot((0.15, 0.06), (0.1, 5e-3))
    with pytest.raises(sr.RelationError, match=r"openings\[0\]"):
        sr.BenchBox((0.09, 0.12, 0.3), [slot])
    with pytest.raises(sr.RelationError, match=r"openings\[1\] from openings\[0\]"):
        sr.BenchBox((0.3, 0.12, 0.3), [slot, sr.BoxHole((0.15, 0.06), 0.01)])
    bench = sr.BenchBox((0.3, 0.12, 0.3), [slot])
    with pytest.raises(sr.RelationError, match=r"at_m\[1\]"):
        bench.electric_shielding_db(1e9, (0.1, 0.2, 0.1))
    with pytest.raises(sr.UnknownNameError, match="x, y"):
        bench.electric_shielding_db(1e9, POINT, polarization="z")
    with pytest.raises(sr.UnknownNameError, match="ex, ey"):
        bench.field(1e9, POINT, "e")
    with pytest.warns(sr.DomainWarning, match="opening length"):
        bench.electric_shielding_db(3.5e9, POINT)
