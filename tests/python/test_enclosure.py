"""Rooms, exposures, requirements and studies."""

from __future__ import annotations

import copy
import math
import pickle

import matplotlib
import numpy as np
import pytest

import stillroom as sr

matplotlib.use("agg")

FREQUENCY_HZ = np.geomspace(100e6, 9e9, 7)


def flat(cross_section_m2: float) -> sr.TabulatedLeak:
    return sr.TabulatedLeak([1e3, 1e11], [cross_section_m2] * 2)


@pytest.fixture
def room() -> sr.Enclosure:
    wall = sr.Laminate(
        [(sr.materials.steel, 0.5e-3), (sr.materials.wood, 19e-3), (sr.materials.steel, 0.5e-3)]
    )
    return sr.Enclosure((4.8, 3.6, 3.0), wall, {"hatch": (2, flat(1e-12)), "pinhole": flat(1e-14)})


@pytest.fixture
def study(room: sr.Enclosure) -> sr.Study:
    return room.study(FREQUENCY_HZ, sr.AntennaTest(outside_m=1.0, inside_m=0.5))


def test_antenna_test_by_hand() -> None:
    # One small hole: -10 log10(S D (d1 + d2)^2 / (4 pi d1^2 d2^2)), D = 3.
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    study = sr.Enclosure((1.0, 1.0, 1.0), wall, {"hole": flat(1e-10)}).study(1e9, sr.AntennaTest(1.7, 0.3))
    expected = -10 * math.log10(1e-10 * 3 * 2.0**2 / (4 * math.pi * 1.7**2 * 0.3**2))
    assert study.shielding_db[1, 0] == pytest.approx(expected, rel=1e-12)


def test_totals_join_powers_and_amplitudes(study: sr.Study) -> None:
    powers = (10 ** (-study.shielding_db / 10)).sum(axis=0)
    np.testing.assert_allclose(study.total_db, -10 * np.log10(powers), rtol=1e-12)
    amplitudes = (10 ** (-study.worst_case_db / 20)).sum(axis=0)
    np.testing.assert_allclose(study.total_worst_case_db, -20 * np.log10(amplitudes), rtol=1e-12)


def test_shapes_and_names(study: sr.Study) -> None:
    assert study.leaks == ["wall", "hatch", "pinhole"]
    assert study.shielding_db.shape == study.valid.shape == (3, 7)
    assert study.limiting() == ["hatch"] * 7
    assert [band[2] for band in study.limiting_bands()] == ["hatch"]


def test_pandas(study: sr.Study) -> None:
    asked = sr.Requirement([(100e6, 100.0), (1e9, 100.0)])
    frame = study.to_pandas(asked)
    assert frame.index.name == "frequency_hz"
    np.testing.assert_array_equal(frame["hatch"], study.shielding_db[1])
    np.testing.assert_array_equal(frame["margin_db"], study.margin_db(asked))
    assert frame["margin_db"].iloc[-1] == math.inf
    assert frame["valid"].all()


def test_xarray(study: sr.Study) -> None:
    data = study.to_xarray()
    assert data["shielding_db"].sel(leak="pinhole").dims == ("frequency_hz",)
    assert data["total_db"].attrs["units"] == "dB"


def test_plot_shows_every_leak_and_the_requirement(study: sr.Study) -> None:
    axes = study.plot(sr.Requirement([(100e6, 100.0), (1e9, 100.0)]))
    labels = [text.get_text() for text in axes.get_legend().get_texts()]
    for label in [*study.leaks, "total", "required"]:
        assert label in labels
    assert "dB" in axes.get_ylabel()
    assert study.plot(ax=axes) is axes
    matplotlib.pyplot.close("all")


def test_plot_draws_numbers_outside_their_domain_dotted(room: sr.Enclosure) -> None:
    low = room.study([1e6, 10e6, 1e9], sr.AntennaTest(1.0, 0.5))
    assert not low.valid[:, 0].any()
    assert low.valid[:, -1].all()
    styles = {line.get_linestyle() for line in low.plot().lines}
    assert ":" in styles
    matplotlib.pyplot.close("all")


def test_study_survives_pickling_and_copying(study: sr.Study) -> None:
    assert pickle.loads(pickle.dumps(study)) == study
    assert copy.deepcopy(study) == study


def test_room_rebuilds_from_its_repr(room: sr.Enclosure) -> None:
    assert eval(repr(room), dict(vars(sr))) == room
    assert room.leaks == {"hatch": (2, flat(1e-12)), "pinhole": flat(1e-14)}


def test_parameters_by_path(room: sr.Enclosure) -> None:
    assert room.parameter("hatch.count") == 2
    changed = room.with_parameters({"hatch.count": 4, "wall.layers.0.thickness_m": 1e-3})
    assert changed.parameter("hatch.count") == 4
    assert changed.parameter("wall.layers.0.thickness_m") == 1e-3
    assert room.parameter("hatch.count") == 2
    with pytest.raises(sr.UnknownParameterError) as caught:
        room.with_parameter("vent.depth_m", 1.0)
    assert "pinhole.scale_db" in caught.value.known
    with pytest.raises(sr.OutOfRangeError, match=r"wall\.layers\.0\.thickness_m"):
        room.with_parameter("wall.layers.0.thickness_m", -1.0)


def test_cautions_are_part_of_the_result(study: sr.Study) -> None:
    assert any("fresh air" in caution for caution in study.cautions)
    assert "Caution" in study._repr_html_()


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_bad_numbers(bad: float) -> None:
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    with pytest.raises(sr.OutOfRangeError, match=r"interior\.height_m"):
        sr.Enclosure((1.0, 1.0, bad), wall)
    with pytest.raises(sr.OutOfRangeError, match="outside_m"):
        sr.AntennaTest(bad, 1.0)
    with pytest.raises(sr.OutOfRangeError, match="inside_m"):
        sr.PlaneWave(inside_m=bad)
    with pytest.raises(sr.OutOfRangeError, match=r"values_m2\[1\]"):
        sr.TabulatedLeak([1e3, 1e4], [1.0, bad])
    with pytest.raises(sr.OutOfRangeError) as caught:
        sr.Enclosure((1.0, 1.0, 1.0), wall).study([1e9, bad], sr.PlaneWave())
    assert caught.value.index == 1


def test_bad_leaks() -> None:
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    with pytest.raises(TypeError, match="hatch"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": 3})  # type: ignore[dict-item]
    with pytest.raises(sr.OutOfRangeError, match=r"hatch\.count"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": (0, flat(1.0))})
    with pytest.raises(sr.OutOfRangeError, match=r"hatch\.count"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": (1.5, flat(1.0))})  # type: ignore[dict-item]
    with pytest.raises(sr.ReservedNameError):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"a.b": flat(1.0)})
    with pytest.raises(sr.EmptyError):
        sr.TabulatedLeak([], [])
    with pytest.raises(sr.LengthMismatchError):
        sr.TabulatedLeak([1e3, 1e4], [1.0])


def test_requirement_points() -> None:
    with pytest.raises(sr.NotIncreasingError) as caught:
        sr.Requirement([(1e6, 100.0), (1e5, 60.0)])
    assert caught.value.index == 1
    with pytest.raises(sr.EmptyError):
        sr.Requirement([])
    asked = sr.Requirement([(1e4, 60.0), (1e6, 100.0)])
    np.testing.assert_allclose(asked.required_db([1e5, 1e7]), [80.0, -math.inf])


def test_leaks_are_leaks(room: sr.Enclosure) -> None:
    hatch = flat(1e-12)
    assert isinstance(hatch, sr.Leak)
    assert hatch.cross_section_m2(1e6) == pytest.approx(1e-12, rel=1e-12)
    assert hatch.cross_section_db(1e6) == pytest.approx(-120.0, rel=1e-12)
    np.testing.assert_allclose(hatch.cross_section_m2([[1e6], [1e7]]), [[1e-12], [1e-12]])
    assert hatch.limits(1e6) == []
    assert "table" in hatch.limits(1.0)[0] or "tabulated" in hatch.limits(1.0)[0]
    with pytest.warns(sr.DomainWarning, match="at 1 of 2 frequencies"):
        hatch.cross_section_m2([1.0, 1e6])
