"""Rooms, exposures, requirements and studies."""

from __future__ import annotations

import copy
import json
import math
import pickle
import re
from pathlib import Path

import matplotlib
import numpy as np
import pytest
from samples import public, samples

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
    lines = low.plot().lines
    dotted = [line for line in lines if line.get_linestyle() == ":"]
    assert {line.get_color() for line in dotted} >= {line.get_color() for line in lines}
    # The whole too, and no number of it is drawn as if it held.
    (total,) = (line for line in lines if line.get_label() == "total")
    np.testing.assert_array_equal(np.isfinite(np.asarray(total.get_ydata(), dtype=float)), low.total_valid)
    assert not low.total_valid.all()
    matplotlib.pyplot.close("all")


def test_a_masked_study_gives_nan_outside_the_domain(room: sr.Enclosure) -> None:
    study = room.study([1e6, 10e6, 1e9], sr.AntennaTest(1.0, 0.5))
    masked = study.masked()
    np.testing.assert_array_equal(np.isnan(masked.shielding_db), ~study.valid)
    np.testing.assert_array_equal(np.isnan(masked.total_db), ~study.total_valid)
    assert masked.total_db[-1] == study.total_db[-1]
    assert masked.limiting() == study.limiting()
    frame = masked.to_pandas()
    assert frame["total_db"].isna().tolist() == [True, True, False]
    assert frame["valid"].tolist() == [False, False, True]
    assert masked.to_xarray()["total_valid"].values.tolist() == [False, False, True]
    assert pickle.loads(pickle.dumps(masked)) == masked
    assert masked != study
    masked.plot(sr.Requirement([(1e6, 60.0), (1e9, 60.0)]))
    # Where nothing holds at all.
    room.study([1e3, 1e4], sr.AntennaTest(1.0, 0.5)).masked().plot()
    matplotlib.pyplot.close("all")


def test_a_total_is_valid_where_what_contributes_is(room: sr.Enclosure) -> None:
    beyond = sr.TabulatedLeak([1e8, 1e9], [1e-18, 1e-18])
    leaks = {**room.leaks, "hatch beyond its table": beyond}
    study = sr.Enclosure(room.interior_m, room.wall, leaks).study([5e8, 5e9], sr.AntennaTest(1.0, 0.5))
    assert study.valid[-1].tolist() == [True, False]
    assert study.total_valid.all()
    assert study.to_pandas()["valid"].all()
    louder = sr.Enclosure(
        room.interior_m, room.wall, {**leaks, "loud": beyond.with_parameter("scale_db", 40.0)}
    )
    assert louder.study([5e8, 5e9], sr.AntennaTest(1.0, 0.5)).total_valid.tolist() == [True, False]


def test_a_window_counts_by_its_area(room: sr.Enclosure) -> None:
    film = sr.Laminate([sr.sheets.Film(10.0)])

    def read(area_m2: float) -> float:
        with_window = sr.Enclosure(room.interior_m, room.wall, {"window": sr.Panel(film, area_m2)})
        return float(with_window.study(1e9, sr.AntennaTest(1.0, 0.5)).shielding_db[1, 0])

    assert read(1.0) == pytest.approx(film.shielding_db(1e9), rel=1e-12)
    assert read(1e-4) > read(1.0) + 25.0


CSV = "frequency_hz,cross_section_m2\n1e6,1e-12\n1e9,1e-9\n"


@pytest.mark.parametrize(
    "content",
    [
        CSV.encode(),
        CSV.replace(",", "\t").encode(),
        b"\xef\xbb\xbf" + CSV.replace(",", ";").encode(),
        CSV.replace(",", "\t").encode("utf-16"),
        b"# 20 \xb5V\r\n" + CSV.replace("\n", "\r\n").encode(),
    ],
    ids=["commas", "tabs", "byte-order mark", "UTF-16", "another coding"],
)
def test_a_leak_from_a_file(content: bytes, tmp_path: Path) -> None:
    expected = sr.TabulatedLeak([1e6, 1e9], [1e-12, 1e-9])
    (tmp_path / "leak.csv").write_bytes(content)
    assert sr.TabulatedLeak.from_csv(tmp_path / "leak.csv") == expected
    assert sr.TabulatedLeak.from_csv(expected.to_csv()) == expected


def test_other_tables_come_from_files_too(tmp_path: Path) -> None:
    path = tmp_path / "table.csv"
    path.write_text("frequency_hz;insertion_loss_db\n1e4;20\n1e6;60\n", encoding="utf-8")
    assert sr.filters.MeasuredLoss.from_csv(path).insertion_loss_db(1e4) == 20.0
    path.write_text("frequency_hz\ttransfer_impedance_ohm_m\n1e6\t1e-5\n1e8\t1e-3\n", encoding="utf-8")
    assert sr.joints.ImpedanceTable.from_csv(path).frequency_hz == [1e6, 1e8]
    path.write_text("frequency_hz,transfer_impedance_ohm_per_m\n1e6,1e-2\n1e8,1e-1\n", encoding="utf-8")
    assert sr.tubes.BraidTable.from_csv(path).frequency_hz == [1e6, 1e8]
    with pytest.raises(FileNotFoundError, match="missing"):
        sr.filters.MeasuredLoss.from_csv(tmp_path / "missing.csv")


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [("frequency_hz;insertion_loss_db\n1e4;20,5\n", 2, 2), ("1,5e4;20,5\n", 1, 1), ("1e4,20,5\n", 1, 3)],
)
def test_decimal_commas_are_an_error_with_their_place(text: str, line: int, column: int) -> None:
    with pytest.raises(sr.errors.FormatError) as caught:
        sr.filters.MeasuredLoss.from_csv(text)
    assert (caught.value.line, caught.value.column) == (line, column)


def test_a_leak_from_the_decibels_of_a_stated_test(room: sr.Enclosure) -> None:
    tests = [
        sr.AntennaTest(1.7, 0.3),
        sr.PlaneWave(inside_m=0.5),
        sr.LoopTest("coplanar", 0.15, 0.15, outside_m=0.3, inside_m=0.3),
    ]
    for test in tests:
        leak = sr.TabulatedLeak.from_shielding_csv("frequency_hz,shielding_db\n1e6,60\n1e9,90\n", test)
        assert leak == sr.TabulatedLeak.from_shielding_db([1e6, 1e9], [60.0, 90.0], test)
        study = sr.Enclosure(room.interior_m, room.wall, {"hatch": leak}).study([1e6, 1e9], test)
        np.testing.assert_allclose(study.shielding_db[1], [60.0, 90.0], rtol=1e-12)
    by_hand = 10**-9.0 * 4 * math.pi * 1.7**2 * 0.3**2 / (3 * 2.0**2)
    hatch = sr.TabulatedLeak.from_shielding_db([1e9], [90.0], tests[0])
    assert hatch.values_m2[0] == pytest.approx(by_hand, rel=1e-12)


def test_study_survives_pickling_and_copying(study: sr.Study) -> None:
    again = pickle.loads(pickle.dumps(study))
    assert again == study
    assert again.enclosure == study.enclosure
    assert again.exposure == study.exposure
    assert again.limits("wall") == study.limits("wall")
    assert again.masked() == study.masked()
    # Kept twice.
    assert pickle.loads(pickle.dumps(again)) == study
    assert copy.deepcopy(study) == study
    assert study.enclosure.study(study.frequency_hz, sr.AntennaTest(1.0, 0.6)) != study


def test_a_kept_study_keeps_its_numbers_and_tells_the_version_that_made_them(study: sr.Study) -> None:
    restore, (kept,) = study.__reduce__()
    manifest = (Path(__file__).parents[2] / "Cargo.toml").read_text(encoding="utf-8")
    (this,) = re.findall('^version = "(.*)"$', manifest, re.MULTILINE)
    assert study.version == kept["version"] == this
    # As another version would have left it: other numbers, and a room that this one cannot build.
    kept |= {"version": "0.0.1", "total_db": kept["total_db"] + 1.0, "recipe": b"not a pickle"}
    old = restore(kept)
    assert old.version == "0.0.1"
    np.testing.assert_array_equal(old.total_db, study.total_db + 1.0)
    np.testing.assert_array_equal(old.shielding_db, study.shielding_db)
    assert old.limiting() == study.limiting()
    assert old.cautions == study.cautions
    assert "0.0.1" in repr(old)
    assert pickle.loads(pickle.dumps(old)).version == "0.0.1"
    with pytest.raises(pickle.UnpicklingError):
        _ = old.enclosure
    with pytest.raises(sr.errors.LengthMismatchError):
        restore(kept | {"total_db": np.zeros(3)})


def test_limits_are_runs_of_frequency(room: sr.Enclosure) -> None:
    study = room.study(np.geomspace(1e6, 1e9, 100), sr.AntennaTest(1.0, 0.5))
    (run,) = study.limits("wall")
    from_hz, to_hz, words = run
    assert from_hz == 1e6
    assert study.frequency_hz[~study.valid[0]].max() == to_hz
    assert words.startswith("1 MHz to 93.2603 MHz: radiating field: distance / wavelength = 0.00166782")
    with pytest.raises(sr.errors.UnknownNameError):
        study.limits("door")


def test_rooms_are_edited_part_by_part(room: sr.Enclosure) -> None:
    more = room.with_opening("door", flat(1e-11)).with_opening("pinhole", flat(1e-15), count=3)
    assert more.leaks == {"hatch": (2, flat(1e-12)), "pinhole": (3, flat(1e-15)), "door": flat(1e-11)}
    assert more.without("door").without("hatch").leaks == {"pinhole": (3, flat(1e-15))}
    film = sr.Laminate([sr.sheets.Film(10.0)])
    assert more.with_wall(film).wall == film
    assert more.with_wall(film).leaks == more.leaks
    with pytest.raises(sr.errors.UnknownNameError):
        room.without("door")
    with pytest.raises(sr.errors.OutOfRangeError, match=r"door\.count"):
        room.with_opening("door", flat(1.0), count=0)


def test_a_design_is_kept_as_text(room: sr.Enclosure, tmp_path: Path) -> None:
    window = sr.Panel(sr.Laminate([sr.sheets.Film(10.0)]), 1 / 3)
    design = room.with_opening("window", window).with_opening("seam", sr.Seam(20.0, 0.1, 1e-5 / 3, 0.03), 2)
    text = design.to_json()
    again = sr.Enclosure.from_json(text)
    assert again == design
    assert list(again.leaks) == list(design.leaks)
    path = tmp_path / "room.json"
    path.write_text(text, encoding="utf-8")
    assert sr.Enclosure.from_json(path) == design
    # Names are paths.
    found = json.loads(text)
    for name in ["hatch.count", "window.area_m2", "seam.gap_m", "interior.height_m"]:
        part, _, number = name.partition(".")
        assert found[part][number] == design.parameter(name)
    found["seam"]["gap_m"] = -1.0
    with pytest.raises(sr.errors.FormatError, match=r"`seam\.gap_m` = -1 m: must be positive"):
        sr.Enclosure.from_json(json.dumps(found))
    with pytest.raises(sr.errors.FormatError) as caught:
        sr.Enclosure.from_json('{\n"interior": 1,\n}')
    assert caught.value.line == 2


def test_every_leak_can_be_kept_as_text(room: sr.Enclosure) -> None:
    leaks = [sample for sample in samples() if isinstance(sample, sr.Leak)]
    assert len(leaks) > 15
    design = room
    for number, leak in enumerate(leaks):
        design = design.with_opening(f"leak {number}", leak)
    assert sr.Enclosure.from_json(design.to_json()) == design


def test_room_rebuilds_from_its_repr(room: sr.Enclosure) -> None:
    assert eval(repr(room), public()) == room
    assert room.leaks == {"hatch": (2, flat(1e-12)), "pinhole": flat(1e-14)}


def test_parameters_by_path(room: sr.Enclosure) -> None:
    assert room.parameter("hatch.count") == 2
    changed = room.with_parameters({"hatch.count": 4, "wall.layers.0.thickness_m": 1e-3})
    assert changed.parameter("hatch.count") == 4
    assert changed.parameter("wall.layers.0.thickness_m") == 1e-3
    assert room.parameter("hatch.count") == 2
    with pytest.raises(sr.errors.UnknownParameterError) as caught:
        room.with_parameter("vent.depth_m", 1.0)
    assert "pinhole.scale_db" in caught.value.known
    with pytest.raises(sr.errors.OutOfRangeError, match=r"wall\.layers\.0\.thickness_m"):
        room.with_parameter("wall.layers.0.thickness_m", -1.0)


def test_cautions_are_part_of_the_result(study: sr.Study) -> None:
    assert any("fresh air" in caution for caution in study.cautions)
    assert "Caution" in study._repr_html_()


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_bad_numbers(bad: float) -> None:
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    with pytest.raises(sr.errors.OutOfRangeError, match=r"interior\.height_m"):
        sr.Enclosure((1.0, 1.0, bad), wall)
    with pytest.raises(sr.errors.OutOfRangeError, match="outside_m"):
        sr.AntennaTest(bad, 1.0)
    with pytest.raises(sr.errors.OutOfRangeError, match="inside_m"):
        sr.PlaneWave(inside_m=bad)
    with pytest.raises(sr.errors.OutOfRangeError, match=r"values_m2\[1\]"):
        sr.TabulatedLeak([1e3, 1e4], [1.0, bad])
    with pytest.raises(sr.errors.OutOfRangeError) as caught:
        sr.Enclosure((1.0, 1.0, 1.0), wall).study([1e9, bad], sr.PlaneWave())
    assert caught.value.index == 1


def test_bad_leaks() -> None:
    wall = sr.Laminate([(sr.materials.steel, 0.5e-3)])
    with pytest.raises(TypeError, match="hatch"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": 3})  # type: ignore[dict-item]
    with pytest.raises(sr.errors.OutOfRangeError, match=r"hatch\.count"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": (0, flat(1.0))})
    with pytest.raises(sr.errors.OutOfRangeError, match=r"hatch\.count"):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"hatch": (1.5, flat(1.0))})  # type: ignore[dict-item]
    with pytest.raises(sr.errors.ReservedNameError):
        sr.Enclosure((1.0, 1.0, 1.0), wall, {"a.b": flat(1.0)})
    with pytest.raises(sr.errors.EmptyError):
        sr.TabulatedLeak([], [])
    with pytest.raises(sr.errors.LengthMismatchError):
        sr.TabulatedLeak([1e3, 1e4], [1.0])


def test_requirement_points() -> None:
    with pytest.raises(sr.errors.NotIncreasingError) as caught:
        sr.Requirement([(1e6, 100.0), (1e5, 60.0)])
    assert caught.value.index == 1
    with pytest.raises(sr.errors.EmptyError):
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
