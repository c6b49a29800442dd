"""Filters: ladders against forty digits and against a general network library; leaks; errors."""

from __future__ import annotations

import copy
import math
import pickle
import signal
import warnings

import mpmath
import numpy as np
import pytest
from samples import public

import stillroom as sr

MAINS = sr.filters.Ladder(
    [
        sr.filters.Shunt(
            sr.filters.Capacitor(
                1e-6, series_resistance_ohm=0.02, series_inductance_h=12e-9, loss_tangent=1e-3
            )
        ),
        sr.filters.Series(
            sr.filters.Inductor(
                220e-6,
                resistance_ohm=0.015,
                parallel_capacitance_f=18e-12,
                core_loss_ohm=8e3,
                relaxation_hz=3e6,
                half_current_a=25.0,
            )
        ),
        sr.filters.Shunt(sr.filters.Capacitor(2.2e-6, series_resistance_ohm=0.01, series_inductance_h=9e-9)),
        sr.filters.Series(sr.filters.Inductor(47e-6, resistance_ohm=0.01, parallel_capacitance_f=7e-12)),
        sr.filters.Shunt(sr.filters.Resistor(470e3, parallel_capacitance_f=0.5e-12)),
    ],
    load_current_rms_a=16.0,
)
CIRCUITS = [
    sr.filters.MeasuringCircuit(),
    sr.filters.MeasuringCircuit.low_to_high(),
    sr.filters.MeasuringCircuit.high_to_low(),
    sr.filters.MeasuringCircuit(30 + 40j, 5 - 200j),
]


def impedance(part: object, omega: mpmath.mpf, current: float) -> mpmath.mpc:
    """The equivalent circuits once more, written as they are drawn."""
    s = mpmath.mpc(0, omega)
    match part:
        case sr.filters.Inductor():
            henry = mpmath.mpf(part.inductance_h)
            if part.half_current_a is not None:
                ratio = mpmath.mpf(current) / part.half_current_a
                henry /= 1 + ratio ** mpmath.mpf(part.saturation_exponent)
            core = s * henry
            if part.core_loss_ohm is not None:
                core = 1 / (1 / core + 1 / mpmath.mpf(part.core_loss_ohm))
            if part.relaxation_hz is not None:
                # One more resistance across the inductance: L/(1 + s t) is L beside L/t.
                tau = 1 / (2 * mpmath.pi * mpmath.mpf(part.relaxation_hz))
                core = 1 / (1 / core + tau / henry)
            coil = part.resistance_ohm + core
            return coil / (1 + s * part.parallel_capacitance_f * coil)
        case sr.filters.Capacitor():
            lossy = part.capacitance_f * mpmath.mpc(1, -mpmath.mpf(part.loss_tangent))
            return 1 / (s * lossy) + part.series_resistance_ohm + s * part.series_inductance_h
        case sr.filters.Resistor():
            branch = part.resistance_ohm + s * part.series_inductance_h
            return branch / (1 + s * part.parallel_capacitance_f * branch)
    raise TypeError(part)


def chain(ladder: sr.filters.Ladder, frequency_hz: float) -> mpmath.matrix:
    omega = 2 * mpmath.pi * mpmath.mpf(frequency_hz)
    matrix = mpmath.eye(2)
    for element in ladder.elements:
        z = impedance(element.part, omega, math.sqrt(2) * ladder.load_current_rms_a)
        if isinstance(element, sr.filters.Series):
            matrix *= mpmath.matrix([[1, z], [0, 1]])
        else:
            matrix *= mpmath.matrix([[1, 0], [1 / z, 1]])
    return matrix


def insertion_loss_db(
    ladder: sr.filters.Ladder, frequency_hz: float, source: complex, load: complex
) -> mpmath.mpf:
    with mpmath.workdps(40):
        m = chain(ladder, frequency_hz)
        z1, z2 = mpmath.mpc(source), mpmath.mpc(load)
        ratio = (m[0, 0] * z2 + m[0, 1] + m[1, 0] * z1 * z2 + m[1, 1] * z1) / (z1 + z2)
        return 20 * mpmath.log10(abs(ratio))


@pytest.mark.parametrize("circuit", CIRCUITS, ids=repr)
def test_insertion_loss_against_forty_digits(circuit: sr.filters.MeasuringCircuit) -> None:
    frequency_hz = np.geomspace(1.0, 100e9, 45)
    loss = MAINS.insertion_loss_db(frequency_hz, circuit)
    exact = [float(insertion_loss_db(MAINS, f, circuit.source, circuit.load)) for f in frequency_hz]
    np.testing.assert_allclose(loss, exact, rtol=1e-12, atol=1e-13)


def test_tiny_losses_keep_their_digits() -> None:
    ladder = sr.filters.Ladder(
        [sr.filters.Series(sr.filters.Resistor(1e-9)), sr.filters.Shunt(sr.filters.Capacitor(1e-12))]
    )
    for f in (1.0, 1e3, 1e5):
        exact = float(insertion_loss_db(ladder, f, 50, 50))
        assert 0.0 < exact < 1e-6
        assert ladder.insertion_loss_db(f) == pytest.approx(exact, rel=1e-12)


def test_thousands_of_decibels_against_forty_digits() -> None:
    ladder = sr.filters.Ladder(
        [sr.filters.Series(sr.filters.Inductor(1e-3)), sr.filters.Shunt(sr.filters.Capacitor(1e-5))] * 40
    )
    exact = insertion_loss_db(ladder, 1e10, 50, 50)
    assert exact > 10_000
    assert ladder.insertion_loss_db(1e10) == pytest.approx(float(exact), rel=1e-12)


def test_scattering_for_complex_references_against_forty_digits() -> None:
    source, load = 30 + 40j, 75 - 20j
    for f in (1e3, 150e3, 30e6):
        with mpmath.workdps(40):
            m = chain(MAINS, f)
            a, b, c, d = m[0, 0], m[0, 1], m[1, 0], m[1, 1]
            z1, z2 = mpmath.mpc(source), mpmath.mpc(load)
            below = a * z2 + b + c * z1 * z2 + d * z1
            root = mpmath.sqrt(z1.real * z2.real)
            exact = np.array(
                [
                    [(a * z2 + b - c * mpmath.conj(z1) * z2 - d * mpmath.conj(z1)) / below, 2 * root / below],
                    [2 * root / below, (b + d * z1 - a * mpmath.conj(z2) - c * z1 * mpmath.conj(z2)) / below],
                ],
                dtype=complex,
            )
        np.testing.assert_allclose(MAINS.scattering(f, source, load), exact, rtol=1e-12)


def test_agrees_with_a_general_network_library() -> None:
    skrf = pytest.importorskip("skrf")
    frequency_hz = np.geomspace(10e3, 30e6, 31)
    abcd = np.broadcast_to(np.eye(2), (31, 2, 2)).astype(complex)
    for element in MAINS.elements:
        part = element.part
        current = {"peak_current_a": 16.0 * math.sqrt(2)} if isinstance(part, sr.filters.Inductor) else {}
        z = part.impedance_ohm(frequency_hz, **current)
        one = np.tile(np.eye(2, dtype=complex), (31, 1, 1))
        if isinstance(element, sr.filters.Series):
            one[:, 0, 1] = z
        else:
            one[:, 1, 0] = 1 / z
        abcd = abcd @ one
    for z0 in (50.0, [30 + 40j, 75 - 20j]):
        network = skrf.Network(s=skrf.network.a2s(abcd, z0=z0), f=frequency_hz, f_unit="Hz", z0=z0)
        source, load = np.broadcast_to(z0, 2)
        own = MAINS.scattering(frequency_hz, source, load)
        # Plain chain matrices lose the small difference AD - BC behind S12, and some of S11: absolute.
        np.testing.assert_allclose(own, network.s, atol=1e-9)
        np.testing.assert_allclose(own[:, 1, 0], network.s[:, 1, 0], rtol=1e-9)


def test_worst_case_is_reached_by_a_search_over_reactances() -> None:
    optimize = pytest.importorskip("scipy.optimize")
    for f in (9e3, 13e3, 150e3, 1e6):
        bound = MAINS.worst_insertion_loss_db(f)
        with mpmath.workdps(20):
            m = chain(MAINS, f)
        a, b, c, d = (complex(m[i, j]) for i in (0, 1) for j in (0, 1))

        def loss(angles: np.ndarray, a: complex = a, b: complex = b, c: complex = c, d: complex = d) -> float:
            z1, z2 = 1j * 50 * np.tan(angles)
            return float(-20 * np.log10(abs((z1 + z2) / (a * z2 + b + c * z1 * z2 + d * z1))))

        limits = [(-math.pi / 2 + 1e-9, math.pi / 2 - 1e-9)] * 2
        found = optimize.differential_evolution(loss, limits, seed=1, tol=1e-12, maxiter=3000, popsize=40).fun
        assert bound <= found + 1e-6
        assert found - bound < 0.05
        assert MAINS.worst_transducer_loss_db(f) >= 0.0


def test_shapes_follow_the_argument() -> None:
    assert isinstance(MAINS.insertion_loss_db(1e6), float)
    assert MAINS.insertion_loss_db([1e6, 2e6]).shape == (2,)
    assert MAINS.insertion_loss_db(np.full((2, 3), 1e6, dtype=np.float32)).shape == (2, 3)
    assert MAINS.insertion_loss_db(np.empty((0,))).shape == (0,)
    assert MAINS.scattering(1e6).shape == (2, 2)
    assert MAINS.scattering(np.full((4, 5), 1e6)).shape == (4, 5, 2, 2)
    strided = np.geomspace(1e3, 1e6, 20)[::-3]
    np.testing.assert_array_equal(
        MAINS.insertion_loss_db(strided), [MAINS.insertion_loss_db(float(f)) for f in strided]
    )


def test_line_network_is_50_ohm_high_up_and_5_ohm_low_down() -> None:
    shunt = sr.filters.Ladder([sr.filters.Shunt(sr.filters.Resistor(50.0))])
    circuit = sr.filters.MeasuringCircuit(sr.filters.LineNetwork(), 50.0)
    high = shunt.insertion_loss_db(30e6, circuit)
    assert high == pytest.approx(20 * math.log10(1.5), abs=1e-3)
    with pytest.warns(sr.DomainWarning, match="line network"):
        shunt.insertion_loss_db(50.0, circuit)


LINE = sr.FilteredLine(
    sr.filters.Ladder(
        MAINS.elements, housing=sr.filters.Housing(0.25, bond_resistance_ohm=1e-3, isolation_db=100.0)
    ),
    sr.filters.Conductor(10.0),
    sr.filters.Conductor(3.0, sr.filters.Wire(3.0, 1e-3)),
)


def test_filtered_line_is_a_leak() -> None:
    assert isinstance(LINE, sr.Leak)
    assert "licensed electrician" in LINE.caution
    assert "licensed electrician" in MAINS.caution
    for f in (14e3, 1e6, 100e6):
        gain_db = LINE.cross_section_db(f)
        assert -300 < gain_db < 0
    with pytest.warns(sr.DomainWarning, match="case length"):
        LINE.cross_section_m2(1e9)
    better = LINE.with_parameter("filter.elements.1.inductance_h", 2.2e-3)
    assert isinstance(better, sr.FilteredLine)
    assert better.cross_section_db(150e3) < LINE.cross_section_db(150e3)


@pytest.mark.parametrize(
    "line", [LINE, sr.FilteredLine(MAINS, sr.filters.Conductor(2.0), sr.filters.Conductor(1.0, height_m=0.1))]
)
def test_a_sweep_of_a_filtered_line_is_each_of_its_frequencies(line: sr.FilteredLine) -> None:
    frequency_hz = np.geomspace(1e4, 1e8, 19)
    each = [line.cross_section_db(f) for f in frequency_hz]
    np.testing.assert_allclose(line.cross_section_db(frequency_hz), each, rtol=1e-12)


def test_filtered_line_takes_its_place_in_a_room() -> None:
    room = sr.Enclosure(
        (4.8, 3.6, 3.0), sr.Laminate([(sr.materials.steel, 0.5e-3)]), leaks={"mains filter": LINE}
    )
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", sr.DomainWarning)
        study = room.study(np.geomspace(30e6, 100e6, 5), exposure=sr.AntennaTest(1.7, 0.5))
    assert "mains filter" in repr(study) or "mains filter" in study.to_pandas().to_string()


@pytest.mark.parametrize(
    "thing",
    [
        MAINS,
        LINE,
        *CIRCUITS,
        *MAINS.elements,
        *(element.part for element in MAINS.elements),
        sr.filters.LineNetwork(),
        sr.filters.Wire(2.0, 1e-3),
        sr.filters.Conductor(2.0, 30j + 1),
        sr.filters.Housing(0.2, isolation_db=90.0),
    ],
    ids=lambda thing: type(thing).__name__,
)
def test_values_survive_repr_pickle_and_copy(thing: object) -> None:
    assert eval(repr(thing), public()) == thing
    assert pickle.loads(pickle.dumps(thing)) == thing
    assert copy.deepcopy(thing) == thing


@pytest.mark.parametrize("value", [0.0, -1e-6, math.nan, math.inf])
def test_nonsense_is_refused_by_name(value: float) -> None:
    for build, quantity in [
        (sr.filters.Inductor, "inductance_h"),
        (sr.filters.Capacitor, "capacitance_f"),
        (sr.filters.Resistor, "resistance_ohm"),
        (sr.filters.Housing, "case_length_m"),
        (sr.filters.Conductor, "length_m"),
        (lambda v: sr.filters.MeasuringCircuit(v), "resistance_ohm"),
        (lambda v: sr.filters.LineNetwork(v), "parallel_ohm"),
        (lambda v: sr.filters.Wire(v, 1e-3), "length_m"),
        (lambda v: sr.filters.Inductor(1e-6, core_loss_ohm=v), "core_loss_ohm"),
        (lambda v: sr.filters.Inductor(1e-6, half_current_a=v), "half_current_a"),
        (MAINS.insertion_loss_db, "frequency_hz"),
        (MAINS.worst_insertion_loss_db, "frequency_hz"),
        (MAINS.scattering, "frequency_hz"),
    ]:
        with pytest.raises(sr.errors.OutOfRangeError) as caught:
            build(value)
        assert caught.value.quantity == quantity
        assert quantity in str(caught.value)


def test_other_nonsense() -> None:
    with pytest.raises(sr.errors.EmptyError):
        sr.filters.Ladder([])
    with pytest.raises(TypeError):
        sr.filters.Ladder([sr.filters.Inductor(1e-6)])
    with pytest.raises(TypeError):
        sr.filters.Series(50.0)
    with pytest.raises(sr.errors.OutOfRangeError, match="frequency_hz"):
        MAINS.insertion_loss_db([1e6, math.nan])
    with pytest.raises(sr.errors.UnknownParameterError) as caught:
        MAINS.with_parameter("elements.9.capacitance_f", 1e-6)
    assert "elements.0.capacitance_f" in caught.value.known
    with pytest.raises(TypeError, match="frequency_hz"):
        MAINS.insertion_loss_db("1e6")


def test_strap_inductance() -> None:
    # 100 mm by 20 mm by 1 mm: 2e-7 l (ln(2 l/(w + t)) + 1/2 + 0.2235 (w + t)/l), by hand.
    by_hand = 2e-7 * 0.1 * (math.log(0.2 / 0.021) + 0.5 + 0.2235 * 0.21)
    assert sr.filters.strap_inductance_h(0.1, 0.02, 1e-3) == pytest.approx(by_hand, rel=1e-9)
    with pytest.raises(sr.errors.RelationError):
        sr.filters.strap_inductance_h(0.01, 0.02, 1e-3)


def test_worst_regions_against_a_search() -> None:
    optimize = pytest.importorskip("scipy.optimize")
    source, load = (
        sr.filters.ImpedanceRegion(1.0, 300.0, -80.0, 80.0),
        sr.filters.ImpedanceRegion(10.0, 1e3, -60.0, 85.0),
    )
    for f in (9e3, 150e3, 3e6):
        worst = MAINS.worst_terminations(f, source, load)
        with mpmath.workdps(20):
            m = chain(MAINS, f)
        a, b, c, d = (complex(m[i, j]) for i in (0, 1) for j in (0, 1))

        def loss(p: np.ndarray, a: complex = a, b: complex = b, c: complex = c, d: complex = d) -> float:
            z1, z2 = (math.exp(p[k]) * np.exp(1j * math.radians(p[k + 1])) for k in (0, 2))
            return float(-20 * np.log10(abs((z1 + z2) / (a * z2 + b + c * z1 * z2 + d * z1))))

        limits = [(0.0, math.log(300.0)), (-80.0, 80.0), (math.log(10.0), math.log(1e3)), (-60.0, 85.0)]
        found = optimize.differential_evolution(loss, limits, seed=1, tol=1e-12, maxiter=2000, popsize=60).fun
        assert worst.insertion_loss_db <= found + 1e-6
        assert found - worst.insertion_loss_db < 1e-3
        assert worst.within_db < 1.1e-6
        at_worst = sr.filters.MeasuringCircuit(worst.source_ohm, worst.load_ohm)
        assert MAINS.insertion_loss_db(f, at_worst) == pytest.approx(worst.insertion_loss_db, abs=1e-9)
        assert MAINS.region_insertion_loss_db(f, source, load) == worst.insertion_loss_db
    # The widest region is the bound over everything passive.
    everything = sr.filters.ImpedanceRegion(1e-6, 1e9)
    widest = MAINS.region_insertion_loss_db(150e3, everything, everything)
    assert widest == pytest.approx(MAINS.worst_insertion_loss_db(150e3), abs=1e-3)


def test_sensitivities_are_sorted_slopes() -> None:
    slopes = MAINS.sensitivities(150e3)
    sizes = [abs(value) for value in slopes.values()]
    assert sizes == sorted(sizes, reverse=True)
    path = "elements.1.inductance_h"
    value = MAINS.parameter(path)
    step = 1e-5
    by_difference = (
        MAINS.with_parameter(path, value * (1 + step)).insertion_loss_db(150e3)
        - MAINS.with_parameter(path, value * (1 - step)).insertion_loss_db(150e3)
    ) / (200 * step)
    assert slopes[path] == pytest.approx(by_difference, rel=1e-5)
    swept = MAINS.sensitivities([1e4, 150e3])
    assert swept[path].shape == (2,)
    assert swept[path][1] == slopes[path]


LINES = sr.LineFilter(
    2,
    [
        sr.filters.BetweenLines(sr.filters.Capacitor(470e-9, series_resistance_ohm=0.02)),
        sr.filters.BetweenLines(sr.filters.Resistor(1e6)),
        sr.filters.CommonModeChoke.from_leakage(
            3e-3, 30e-6, resistance_ohm=0.01, parallel_capacitance_f=10e-12
        ),
        sr.filters.LinesToCase([sr.filters.Capacitor(4.7e-9), sr.filters.Capacitor(4.0e-9)]),
    ],
    load_current_rms_a=16.0,
)


def test_modes_of_two_lines_against_forty_digits() -> None:
    with mpmath.workdps(40):
        for f in (10e3, 1e6, 30e6):
            s = mpmath.mpc(0, 2 * mpmath.pi * f)
            eye = mpmath.eye(2)
            x_part = impedance(sr.filters.Capacitor(470e-9, series_resistance_ohm=0.02), s.imag, 0.0)
            across = mpmath.matrix([[1, -1], [-1, 1]]) * (1 / x_part + mpmath.mpf(1) / 10**6)
            choke = LINES.banks[2]
            henry, k = mpmath.mpf(choke.inductance_h), mpmath.mpf(choke.coupling)
            z = mpmath.matrix([[s * henry + 0.01, s * k * henry], [s * k * henry, s * henry + 0.01]])
            z = mpmath.inverse(mpmath.inverse(z) + s * mpmath.mpf(10e-12) * eye)
            to_case = mpmath.diag([s * mpmath.mpf(4.7e-9), s * mpmath.mpf(4.0e-9)])
            # V1 = (1 + Z Yc) V2 + Z I2, I1 = Yx V1 + Yc V2 + I2; 50 ohm in each line on both sides.
            v1 = (eye + z * to_case) + z / 50
            i1 = across * v1 + to_case + eye / 50
            total = v1 + 50 * i1
            for drive, listen in [("common", "common"), ((0, 1), (0, 1)), ("common", (0, 1)), (0, 1)]:
                e = {"common": [1, 1], (0, 1): [0.5, -0.5], 0: [1, 0]}[drive]
                v2 = mpmath.lu_solve(total, mpmath.matrix(e))
                read = {"common": (v2[0] + v2[1]) / 2, (0, 1): v2[0] - v2[1], 1: v2[1]}[listen]
                exact = float(20 * mpmath.log10(mpmath.mpf(0.5) / abs(read)))
                assert LINES.insertion_loss_db(f, drive, listen) == pytest.approx(exact, rel=1e-10)


def test_mains_duty_says_its_caution() -> None:
    duty = LINES.mains_duty(sr.filters.MainsSupply(voltage_tolerance=0.1), capacitance_tolerance=0.2)
    for text in (str(duty), repr(duty), duty._repr_html_(), duty.caution):
        assert "licensed electrician" in text
    assert duty.earth_leakage.normal_a == pytest.approx(2 * math.pi * 50 * 4.7e-9 * 1.2 * 253)
    assert duty.earth_leakage.one_line_lost_a == pytest.approx(2 * math.pi * 50 * 8.7e-9 * 1.2 * 253)
    with pytest.raises(sr.errors.LengthMismatchError):
        LINES.mains_duty(sr.filters.MainsSupply("three_phase"))
    with pytest.raises(sr.errors.UnknownNameError, match="three_phase_neutral"):
        sr.filters.MainsSupply("two_phase")
    with pytest.raises(sr.errors.UnknownNameError, match="common"):
        LINES.insertion_loss_db(1e6, "sideways")
    with pytest.raises(sr.errors.LengthMismatchError, match=r"banks\.0"):
        sr.LineFilter(3, [sr.filters.LinesToCase([sr.filters.Capacitor(1e-9)])])


def test_synthesis_meets_its_goals() -> None:
    goals = [
        sr.filters.LossGoal(150e3, 40.0),
        sr.filters.LossGoal(150e3, 20.0, sr.filters.MeasuringCircuit.high_to_low()),
        sr.filters.LossGoal(30e6, 80.0),
    ]
    limits = sr.filters.DesignLimits(
        shunt_total_f=2e-6, series_total_h=10e-3, most_parts=5, capacitor_inductance_h=0.5e-9
    )
    finds = sr.filters.synthesise(goals, limits, margin_db=1.0, count=3)
    assert finds
    for find in finds:
        margins = [find.ladder.insertion_loss_db(g.frequency_hz, g.circuit) - g.loss_db for g in goals]
        np.testing.assert_allclose(find.margins_db, margins, atol=1e-9)
        assert find.margin_db >= 1.0
        assert "licensed electrician" in find.caution
    share = finds[0].ladder.yield_fraction(goals, 0.2, 0.2, trials=200, seed=3)
    assert 0.0 <= share <= 1.0
    assert share == finds[0].ladder.yield_fraction(goals, 0.2, 0.2, trials=200, seed=3)
    with pytest.raises(sr.errors.UnreachableError) as caught:
        sr.filters.synthesise([sr.filters.LossGoal(1e3, 300.0)], limits)
    assert caught.value.best < 0.0
    with pytest.raises(sr.errors.EmptyError):
        sr.filters.synthesise([], limits)
    with pytest.raises(sr.errors.OutOfRangeError, match="most_parts"):
        sr.filters.DesignLimits(most_parts=0)


def test_for_mains_limits_by_hand() -> None:
    limits = sr.filters.DesignLimits.for_mains(sr.filters.MainsSupply(), 16.0, 3.5e-3, 0.02)
    assert limits.shunt_total_f == pytest.approx(3.5e-3 / (2 * math.pi * 50 * 230))
    # Half of the drop in each line.
    assert limits.series_total_h == pytest.approx(0.01 * 230 / (2 * math.pi * 50 * 16))


def shipped_touchstone_files() -> list[str]:
    skrf = pytest.importorskip("skrf")
    import pathlib

    folder = pathlib.Path(skrf.__file__).parent
    return sorted(str(p) for p in folder.rglob("*.s[1-4]p"))


def test_touchstone_files_that_a_general_library_ships() -> None:
    skrf = pytest.importorskip("skrf")
    read = 0
    for path in shipped_touchstone_files():
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            try:
                theirs = skrf.Network(path)
            except Exception:
                continue
        try:
            ours = sr.filters.Touchstone.read(path)
        except sr.errors.FormatError as error:
            # What version 1.1 does not allow: keywords of version 2.
            if "version 2" in str(error):
                continue
            raise
        read += 1
        np.testing.assert_allclose(ours.frequency_hz, theirs.f, rtol=1e-12)
        if np.all(np.isreal(theirs.z0)) and np.allclose(theirs.z0, ours.reference_ohm):
            np.testing.assert_allclose(ours.scattering(), theirs.s, atol=1e-9, err_msg=path)
        again = sr.filters.Touchstone.parse(ours.to_text(), ours.ports)
        assert again == ours
        assert pickle.loads(pickle.dumps(ours)) == ours
    assert read >= 3


def test_touchstone_written_here_is_read_there(tmp_path) -> None:
    skrf = pytest.importorskip("skrf")
    frequency_hz = np.geomspace(10e3, 30e6, 23)
    for format_ in ("RI", "MA", "DB"):
        for unit in ("Hz", "kHz", "MHz", "GHz"):
            file = sr.filters.Touchstone.from_scattering(frequency_hz, MAINS.scattering(frequency_hz))
            file = file.rewritten(format=format_, unit=unit, comments=[" made for a test"])
            path = tmp_path / f"{format_}{unit}.s2p"
            file.write(path)
            assert sr.filters.Touchstone.read(path) == file
            network = skrf.Network(str(path))
            np.testing.assert_allclose(network.f, frequency_hz, rtol=1e-12)
            np.testing.assert_allclose(network.s, MAINS.scattering(frequency_hz), atol=1e-10)


def test_touchstone_faults() -> None:
    with pytest.raises(sr.errors.FormatError) as caught:
        sr.filters.Touchstone.parse("# MHz S RI R 50\n1 0 0\n1 0 0\n", 1)
    assert caught.value.line == 3
    with pytest.raises(sr.errors.UnknownNameError):
        sr.filters.Touchstone.read("filter.s9p")
    with pytest.raises(sr.errors.OutOfRangeError, match="ports"):
        sr.filters.Touchstone.parse("", 7)
    with pytest.raises(ValueError, match="shape"):
        sr.filters.Touchstone.from_scattering([1e6], np.zeros((1, 2, 3), dtype=complex))
    gain = sr.filters.Touchstone.parse("# MHz S RI R 50\n1 1.25 0\n", 1)
    assert gain.excess_gain()[0] == pytest.approx(0.25)
    with pytest.raises(sr.errors.OutOfRangeError, match="1000000 Hz"):
        gain.check_passive(0.1)
    with pytest.raises(sr.errors.OutOfRangeError, match="ports"):
        sr.filters.MeasuredTwoPort.from_touchstone(gain)


def test_measured_loss_table() -> None:
    table = sr.filters.MeasuredLoss.from_csv("frequency_hz,insertion_loss_db\n1e4,20\n1e6,60\n")
    assert table.insertion_loss_db(1e5) == pytest.approx(40.0)
    assert sr.filters.MeasuredLoss.from_csv(table.to_csv()) == table
    with pytest.warns(sr.DomainWarning, match="measured insertion loss"):
        table.insertion_loss_db([1e3, 1e5])
    with pytest.raises(sr.errors.FormatError, match="line 3"):
        sr.filters.MeasuredLoss.from_csv("frequency_hz,insertion_loss_db\n1e4,20\n1e3,60\n")


def test_plot_has_every_circuit_and_the_worst_case() -> None:
    pytest.importorskip("matplotlib").use("Agg")
    import matplotlib.pyplot as plt

    ax = MAINS.plot(np.geomspace(1e3, 1e8, 50))
    labels = [text.get_text() for text in ax.get_legend().get_texts()]
    assert len(labels) == 6
    assert {"mains network / 50 Ω", "10 m wire / 50 Ω"} < set(labels)
    assert "worst passive ends" in labels
    assert "dB" in ax.get_ylabel()
    plt.close(ax.figure)
    before = plt.get_fignums()
    with pytest.raises(sr.errors.OutOfRangeError):
        MAINS.plot([1e3, -1.0])
    assert plt.get_fignums() == before


def test_feedthroughs_cables_and_measured_two_ports_in_several_lines() -> None:
    feedthrough = sr.filters.FeedthroughCapacitor(
        22e-9, conductor_inductance_h=3e-9, conductor_resistance_ohm=1e-3
    )
    points = np.geomspace(1e4, 1e8, 801)
    file = sr.filters.Touchstone.from_scattering(points, MAINS.scattering(points))
    measured = sr.filters.MeasuredTwoPort.from_touchstone(file, tolerance=1e-9)
    cable = sr.filters.LossyLine(1.0, 70.0, 2e8, resistance_ohm_per_m=0.1)
    ladder = sr.filters.Ladder([feedthrough, measured, cable])
    lines = sr.LineFilter(2, [sr.filters.InEachLine([part] * 2) for part in (feedthrough, measured, cable)])
    for f in (1e4, 1.5e5, 2.2e6, 3e7):
        # Two equal uncoupled lines, between equal resistances: each mode loses what one line does.
        for drive in ("common", (0, 1), 0):
            assert lines.insertion_loss_db(f, drive) == pytest.approx(ladder.insertion_loss_db(f), rel=1e-9)
    with pytest.warns(sr.DomainWarning, match="measured two-port"):
        lines.insertion_loss_db(1e9)
    with pytest.raises(sr.errors.RelationError, match=r"banks\.1\.lines\.0\.frequency_hz"):
        lines.mains_duty(sr.filters.MainsSupply())
    assert lines.with_parameter("banks.0.lines.1.capacitance_f", 10e-9) != lines


def test_bond_of_several_lines_against_forty_digits() -> None:
    bond, stray = 0.002 + 2j * math.pi * 10e6 * 50e-9, 2j * math.pi * 10e6 * 0.5e-12
    filter_ = sr.LineFilter(
        2,
        [
            sr.filters.LinesToCase([sr.filters.Capacitor(100e-9), sr.filters.Capacitor(80e-9)]),
            sr.filters.InEachLine([sr.filters.Inductor(20e-6), sr.filters.Inductor(22e-6)]),
            sr.filters.LinesToCase([sr.filters.Capacitor(47e-9), sr.filters.Capacitor(47e-9)]),
        ],
        housing=sr.filters.Housing(
            0.1, bond_resistance_ohm=0.002, bond_inductance_h=50e-9, stray_capacitance_f=0.5e-12
        ),
    )
    with mpmath.workdps(40):
        # Nodes: inputs 0 and 1, outputs 2 and 3, the case 4; the wall is the reference.
        s = mpmath.mpc(0, 2 * mpmath.pi * 10**7)
        nodes = mpmath.zeros(5, 5)

        def connect(p: int, q: int | None, y: mpmath.mpc) -> None:
            nodes[p, p] += y
            if q is not None:
                nodes[q, q] += y
                nodes[p, q] -= y
                nodes[q, p] -= y

        for line, (first, coil) in enumerate([(100e-9, 20e-6), (80e-9, 22e-6)]):
            connect(line, None, mpmath.mpf(1) / 50)
            connect(line, 4, s * mpmath.mpf(first))
            connect(line, line + 2, 1 / (s * mpmath.mpf(coil)) + mpmath.mpc(stray))
            connect(line + 2, 4, s * mpmath.mpf(47e-9))
            connect(line + 2, None, mpmath.mpf(1) / 50)
        connect(4, None, 1 / mpmath.mpc(bond))
        for drive, listen in [("common", "common"), ((0, 1), (0, 1)), ("common", (0, 1)), (0, 1)]:
            e = {"common": [1, 1], (0, 1): [0.5, -0.5], 0: [1, 0]}[drive]
            v = mpmath.lu_solve(nodes, mpmath.matrix([e[0] / mpmath.mpf(50), e[1] / mpmath.mpf(50), 0, 0, 0]))
            read = {"common": (v[2] + v[3]) / 2, (0, 1): v[2] - v[3], 1: v[3]}[listen]
            exact = float(20 * mpmath.log10(mpmath.mpf(0.5) / abs(read)))
            assert filter_.insertion_loss_db(10e6, drive, listen) == pytest.approx(exact, rel=1e-9)


def test_choke_saturates_with_what_is_not_compensated() -> None:
    choke = sr.filters.CommonModeChoke(2e-3, 0.99, half_current_a=0.5)
    assert choke.magnetising_peak_a(2, 16.0) == pytest.approx(16.0 * 0.01 / 1.99)
    plain = sr.LineFilter(2, [choke])
    residual = sr.LineFilter(2, [choke], residual_current_rms_a=0.5, crest_factor=1.0)
    lost = plain.insertion_loss_db(1e6) - residual.insertion_loss_db(1e6)
    assert lost == pytest.approx(20 * math.log10(2), abs=0.1)
    assert residual.insertion_loss_db(1e6, (0, 1)) == pytest.approx(plain.insertion_loss_db(1e6, (0, 1)))


def test_measured_loss_stands_in_a_line_as_a_leak() -> None:
    frequency_hz = np.geomspace(1e4, 1e8, 801)
    table = sr.filters.MeasuredLoss(frequency_hz, MAINS.insertion_loss_db(frequency_hz))
    ends = sr.filters.Conductor(10.0, 50.0), sr.filters.Conductor(3.0, 50.0)
    measured, computed = sr.FilteredLine(table, *ends), sr.FilteredLine(MAINS, *ends)
    for f in (2e4, 1.5e5, 3e6):
        assert measured.cross_section_db(f) == pytest.approx(computed.cross_section_db(f), abs=0.05)
    with pytest.warns(sr.DomainWarning, match="impedances that it was measured between"):
        sr.FilteredLine(
            table, sr.filters.Conductor(10.0, 50.0), sr.filters.Conductor(3.0, 2.0)
        ).cross_section_m2(1e6)
    with pytest.warns(sr.DomainWarning, match="frequency"):
        measured.cross_section_m2(1e9)
    worse = measured.with_parameter("filter.offset_db", -6.0)
    assert worse.cross_section_db(1e6) - measured.cross_section_db(1e6) == pytest.approx(6.0)


def test_a_conductor_along_a_plane() -> None:
    ends = sr.filters.Conductor(10.0, 50.0, height_m=0.1), sr.filters.Conductor(3.0, 50.0)
    low, off = (
        sr.FilteredLine(MAINS, *ends),
        sr.FilteredLine(MAINS, sr.filters.Conductor(10.0, 50.0), ends[1]),
    )
    for f in (14e3, 1e6, 30e6):
        k = 2 * math.pi * f / 299792458
        terminated = 120 * (k * 0.1) ** 2 * (1 - math.sin(20 * k) / (20 * k))
        # Open at its far end it carries half the power of a terminated one, over the current at its foot.
        line = terminated * max(1.0, 0.5 / math.sin(10 * k) ** 2) if 10 * k < math.pi / 2 else terminated
        straight = 40 * math.tan(5 * k) ** 2 if 10 * k < 1 else math.inf
        expected = 10 * math.log10(min(1.0, line / 50) / min(1.0, straight / 50))
        assert low.cross_section_db(f) - off.cross_section_db(f) == pytest.approx(expected, abs=1e-6)
    with pytest.warns(sr.DomainWarning, match="height / wavelength"):
        low.cross_section_m2(1e9)
    with pytest.raises(sr.errors.OutOfRangeError, match="height_m"):
        sr.filters.Conductor(10.0, sr.filters.Wire(10.0, 1e-3), height_m=0.1)


def test_several_lines_as_a_leak() -> None:
    line = sr.FilteredLine(LINES, sr.filters.Conductor(10.0, 25.0), sr.filters.Conductor(3.0, 25.0))
    assert "licensed electrician" in line.caution
    assert line.cross_section_db(1e6) < -20.0
    lower = line.with_parameter("filter.banks.3.lines.0.capacitance_f", 1e-9)
    assert lower.cross_section_db(1e6) > line.cross_section_db(1e6)


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="needs timers")
@pytest.mark.parametrize("what", ["synthesise", "yield_fraction"])
def test_ctrl_c_calls_long_work_off(what: str) -> None:
    goals = [sr.filters.LossGoal(f, 300.0) for f in np.geomspace(1e3, 1e6, 40)]
    ladder = sr.filters.Ladder(
        [sr.filters.Series(sr.filters.Inductor(1e-3)), sr.filters.Shunt(sr.filters.Capacitor(1e-6))] * 5
    )

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt("from the test")

    before = signal.signal(signal.SIGALRM, interrupt)
    signal.setitimer(signal.ITIMER_REAL, 0.1)
    try:
        # Either would go on for minutes.
        work = {
            "synthesise": lambda: sr.filters.synthesise(goals, sr.filters.DesignLimits(most_parts=15)),
            "yield_fraction": lambda: ladder.yield_fraction(goals, 0.1, 0.1, trials=10**9),
        }
        with pytest.raises(KeyboardInterrupt, match="from the test"):
            work[what]()
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)
    # And the interpreter is as it was.
    assert ladder.yield_fraction([sr.filters.LossGoal(1e6, 10.0)], 0.1, 0.1, trials=10) == 1.0


def test_coils_of_a_stated_core() -> None:
    goals = [
        sr.filters.LossGoal(14e3, 20.0),
        sr.filters.LossGoal(150e3, 60.0),
        sr.filters.LossGoal(10e6, 80.0),
    ]
    limits = sr.filters.DesignLimits(
        shunt_total_f=8e-6,
        series_total_h=2e-3,
        load_current_rms_a=16.0,
        coil_half_energy_j=0.05,
        least_remaining=0.5,
        coil_resistance_ohm_per_h=25.0,
        coil_heat_w=2.0,
    )
    for find in sr.filters.synthesise(goals, limits, margin_db=1.0, count=3):
        for element in find.ladder.elements:
            if isinstance(element, sr.filters.Series):
                left = element.part.loaded_inductance_h(16.0 * math.sqrt(2)) / element.part.inductance_h
                assert 0.5 <= left < 1.0
                assert element.part.resistance_ohm * 16.0**2 <= 2.0
    with pytest.raises(sr.errors.OutOfRangeError, match="least_remaining"):
        sr.filters.DesignLimits(least_remaining=1.5)


def test_sweeps_of_anything_equal_one_frequency_at_a_time() -> None:
    points = np.geomspace(1e4, 1e8, 101)
    file = sr.filters.Touchstone.from_scattering(points, MAINS.scattering(points))
    members = [
        *MAINS.elements,
        sr.filters.FeedthroughCapacitor(10e-9, conductor_inductance_h=2e-9, flange_inductance_h=0.1e-9),
        sr.filters.LossyLine(2.0, 50.0, 2e8, resistance_ohm_per_m=0.1),
        sr.filters.MeasuredTwoPort.from_touchstone(file, tolerance=1e-9),
        sr.filters.Series(sr.filters.FerriteBead([1e4, 1e8], [5.0, 100.0], [10.0, -20.0])),
    ]
    frequency_hz = np.geomspace(1.1e4, 0.9e8, 57)
    for housing in (None, sr.filters.Housing(0.1, bond_inductance_h=1e-9, stray_capacitance_f=1e-13)):
        ladder = sr.filters.Ladder(members, housing=housing)
        # The scattering parameters are always formed one frequency at a time.
        s21 = ladder.scattering(frequency_hz)[:, 1, 0]
        np.testing.assert_allclose(
            ladder.insertion_loss_db(frequency_hz), -20 * np.log10(np.abs(s21)), rtol=1e-10
        )


def test_a_cable_against_forty_digits() -> None:
    cable = sr.filters.LossyLine(
        3.0, 60.0, 2e8, resistance_ohm_per_m=0.2, reference_hz=1e6, loss_tangent=1e-3
    )
    frequency_hz = np.geomspace(1.0, 1e10, 23)
    exact = []
    with mpmath.workdps(40):
        for f in frequency_hz:
            omega = 2 * mpmath.pi * mpmath.mpf(f)
            skin = mpmath.mpf(0.2) * mpmath.sqrt(mpmath.mpf(f) / 10**6)
            z = 3 * mpmath.mpc(skin, skin + omega * 60 / 200000000)
            y = 3 * omega / (60 * mpmath.mpf(2 * 10**8)) * mpmath.mpc(mpmath.mpf(1e-3), 1)
            t = mpmath.sqrt(z * y)
            a, b, c = mpmath.cosh(t), z * mpmath.sinh(t) / t, y * mpmath.sinh(t) / t
            exact.append(float(20 * mpmath.log10(abs((100 * a + b + 2500 * c) / 100))))
    # Far up a phase of thousands of turns costs three digits.
    np.testing.assert_allclose(sr.filters.Ladder([cable]).insertion_loss_db(frequency_hz), exact, rtol=1e-11)


def test_finds_are_ranked_with_their_yield() -> None:
    goals = [
        sr.filters.LossGoal(14e3, 20.0),
        sr.filters.LossGoal(150e3, 60.0),
        sr.filters.LossGoal(10e6, 80.0),
    ]
    limits = sr.filters.DesignLimits(shunt_total_f=8e-6, series_total_h=2e-3)
    plain = sr.filters.synthesise(goals, limits, count=4)
    assert all(find.yield_share is None for find in plain)
    ranked = sr.filters.synthesise(
        goals, limits, count=4, coil_tolerance=0.2, capacitor_tolerance=0.2, trials=200
    )
    keys = [(find.parts, -find.yield_share, -find.margin_db) for find in ranked]
    assert keys == sorted(keys)
    assert ranked[0].yield_share == ranked[0].ladder.yield_fraction(goals, 0.2, 0.2, trials=200)
    assert "yield" in repr(ranked[0])
    with pytest.raises(sr.errors.OutOfRangeError, match="coil_tolerance"):
        sr.filters.synthesise(goals, limits, coil_tolerance=1.5)


UNEQUAL = sr.LineFilter(
    2,
    [
        sr.filters.BetweenLines(sr.filters.Capacitor(470e-9, series_resistance_ohm=0.02)),
        sr.filters.CommonModeChoke.from_leakage(
            2e-3, 20e-6, resistance_ohm=8e-3, parallel_capacitance_f=15e-12
        ),
        sr.filters.LinesToCase(
            [sr.filters.Capacitor(4.9e-9, series_resistance_ohm=0.02), sr.filters.Capacitor(4.5e-9)]
        ),
    ],
)


@pytest.mark.parametrize("listen", ["common", (0, 1)])
def test_sensitivities_of_several_lines_are_sorted_slopes(listen: object) -> None:
    slopes = UNEQUAL.sensitivities(1e6, "common", listen)
    sizes = [abs(value) for value in slopes.values()]
    assert sizes == sorted(sizes, reverse=True)
    for path in ("banks.2.lines.0.capacitance_f", "banks.1.inductance_h"):
        value = UNEQUAL.parameter(path)
        step = 1e-5
        above, below = (
            UNEQUAL.with_parameter(path, value * (1 + sign * step)).insertion_loss_db(1e6, "common", listen)
            for sign in (1, -1)
        )
        assert slopes[path] == pytest.approx((above - below) / (200 * step), rel=1e-4)
    swept = UNEQUAL.sensitivities([1e5, 1e6], "common", listen)
    assert swept[path].shape == (2,)
    assert swept[path][1] == pytest.approx(slopes[path], rel=1e-6)


def test_balance_leaves_conversion_without_a_slope() -> None:
    balanced = UNEQUAL.with_parameters(
        {"banks.2.lines.0.capacitance_f": 4.5e-9, "banks.2.lines.0.series_resistance_ohm": 0.0}
    )
    assert all(math.isnan(value) for value in balanced.sensitivities(1e6, "common", (0, 1)).values())
    assert not any(math.isnan(value) for value in balanced.sensitivities(1e6).values())


def test_a_sweep_of_several_lines_is_each_of_its_frequencies() -> None:
    frequency_hz = np.geomspace(1e3, 1e8, 57)
    for drive, listen in [("common", None), ((0, 1), None), (0, 1), ("common", (0, 1))]:
        each = [UNEQUAL.insertion_loss_db(float(f), drive, listen) for f in frequency_hz]
        np.testing.assert_allclose(
            UNEQUAL.insertion_loss_db(frequency_hz, drive, listen), each, rtol=1e-9, atol=1e-9
        )


def test_plot_of_modes_has_every_termination_and_mode() -> None:
    pytest.importorskip("matplotlib").use("Agg")
    import matplotlib.pyplot as plt

    frequency_hz = np.geomspace(1e4, 3e7, 50)
    ax = UNEQUAL.plot(frequency_hz)
    labels = [text.get_text() for text in ax.get_legend().get_texts()]
    assert labels == [
        "50 Ω / 50 Ω",
        "0.1 Ω / 100 Ω",
        "100 Ω / 0.1 Ω",
        "mains network / 50 Ω",
        "common mode",
        "between two lines",
        "common mode to between lines",
    ]
    assert "dB" in ax.get_ylabel()
    drawn = [line for line in ax.get_lines() if len(line.get_xdata()) == 50]
    assert len(drawn) == 12
    np.testing.assert_array_equal(drawn[0].get_ydata(), UNEQUAL.insertion_loss_db(frequency_hz))
    plt.close(ax.figure)
    # One line has one mode, and three lines three pairs: the least is drawn.
    one = sr.LineFilter(1, [sr.filters.LinesToCase([sr.filters.Capacitor(1e-7)])])
    ends = sr.filters.ModalTermination.each_line(50.0, 1)
    ax = one.plot(frequency_hz, {"here": (ends, ends)})
    assert [text.get_text() for text in ax.get_legend().get_texts()] == ["here", "common mode"]
    plt.close(ax.figure)


def test_mains_network_of_several_lines() -> None:
    for lines in (1, 2, 3, 4):
        ends = sr.filters.ModalTermination.mains_network(lines)
        values = [ends.common.parallel_ohm, ends.common.branch_ohm, ends.common.branch_h]
        assert values == pytest.approx([50.0 / lines, 5.0 / lines, 50e-6 / lines], rel=1e-15)
        assert ends.differential == sr.filters.LineNetwork(100.0, 10.0, 100e-6)
    with pytest.raises(sr.errors.OutOfRangeError, match="lines"):
        sr.filters.ModalTermination.mains_network(5)


def test_a_resonance_without_loss_has_no_certified_worst() -> None:
    ladder = sr.filters.Ladder(
        [sr.filters.Series(sr.filters.Inductor(100e-6)), sr.filters.Shunt(sr.filters.Capacitor(1e-6))]
    )
    reactances = sr.filters.ImpedanceRegion(1e-3, 1e4)
    worst = ladder.worst_terminations(20e3, reactances, reactances)
    assert worst.insertion_loss_db < -200.0
    assert worst.within_db == math.inf
    assert pickle.loads(pickle.dumps(worst)) == worst


def many_sections(
    frequency_hz: float, part: sr.filters.FeedthroughCapacitor, sections: int = 4000
) -> complex:
    """V20/V2 between 50 ohm of a feedthrough as a chain of lumped sections, from the load's end."""
    w = 2 * math.pi * frequency_hz
    lead = part.conductor_resistance_ohm / 2 + 1j * w * part.conductor_inductance_h / 2
    along = 1j * w * part.electrode_inductance_h / sections
    across = 1j * w * part.capacitance_f * (1 - 1j * part.loss_tangent) / sections
    across = 1 / (1 / across + part.series_resistance_ohm * sections)
    voltage, current = 1.0 + 0j, 1 / 50 + 0j
    voltage += current * lead
    for _ in range(sections):
        voltage += current * along / 2
        current += voltage * across
        voltage += current * along / 2
    voltage += current * lead
    return (voltage + 50 * current) / 2


@pytest.mark.parametrize(
    "part",
    [
        sr.filters.FeedthroughCapacitor(0.47e-6, conductor_inductance_h=5e-9),
        sr.filters.FeedthroughCapacitor(4.1e-9, conductor_inductance_h=5e-9, electrode_inductance_h=0.52e-9),
        sr.filters.FeedthroughCapacitor(
            0.1e-6,
            conductor_inductance_h=4e-9,
            conductor_resistance_ohm=2e-3,
            loss_tangent=0.02,
            series_resistance_ohm=5e-3,
            electrode_inductance_h=0.5e-9,
        ),
    ],
)
def test_a_feedthrough_is_a_chain_of_sections(part: sr.filters.FeedthroughCapacitor) -> None:
    for f in (1e4, 1e6, 10.31e6, 100e6, 270e6):
        expected = 20 * math.log10(abs(many_sections(f, part)))
        assert sr.filters.Ladder([part]).insertion_loss_db(f) == pytest.approx(expected, abs=1e-3)


def test_what_couples_the_ends_of_a_feedthrough_by_a_net_of_nodes() -> None:
    """Impedance matrix of leads, flange and mutual inductance around a capacitor: V20/V2 by its meshes."""
    part = sr.filters.FeedthroughCapacitor(
        0.1e-6, conductor_inductance_h=6e-9, flange_inductance_h=0.2e-9, mutual_inductance_h=10e-12
    )
    for f in (1e6, 30e6, 1e9, 10e9):
        w = 2 * math.pi * f
        shunt = 1j * w * 0.2e-9 + 1 / (1j * w * 0.1e-6)
        own, mutual = shunt + 1j * w * 3e-9, shunt + 1j * w * 10e-12
        ratio = ((own + 50) ** 2 - mutual**2) / (mutual * 100)
        assert sr.filters.Ladder([part]).insertion_loss_db(f) == pytest.approx(
            20 * math.log10(abs(ratio)), abs=1e-9
        )


def test_the_worst_loss_of_many_sections_is_a_number() -> None:
    """By the power that the two-port takes, worked out with 200 digits; between 50 ohm thousands of dB."""
    coil = sr.filters.Inductor(30e-6, resistance_ohm=0.02, parallel_capacitance_f=5e-12)
    capacitor = sr.filters.Capacitor(
        0.47e-6, loss_tangent=1e-3, series_resistance_ohm=5e-3, series_inductance_h=8e-9
    )
    ladder = sr.filters.Ladder([sr.filters.Series(coil), sr.filters.Shunt(capacitor)] * 20)
    f = np.geomspace(1e3, 3e9, 301)
    worst = ladder.worst_insertion_loss_db(f)
    assert np.isfinite(worst).all()
    assert (worst <= ladder.insertion_loss_db(f) + 1e-9).all()
    with mpmath.workdps(200):
        for place in range(0, 301, 30):
            w = 2 * mpmath.pi * mpmath.mpf(f[place])
            series = 1 / (1 / (mpmath.mpf(0.02) + 1j * w * mpmath.mpf(30e-6)) + 1j * w * mpmath.mpf(5e-12))
            lossy = 1j * w * mpmath.mpf(0.47e-6) * (1 - 1j * mpmath.mpf(1e-3))
            shunt = 1 / (1 / lossy + mpmath.mpf(5e-3) + 1j * w * mpmath.mpf(8e-9))
            section = mpmath.matrix([[1 + series * shunt, series], [shunt, 1]])
            (a, b), (c, d) = (section**20).tolist()
            q = [mpmath.re(mpmath.conj(a) * b), mpmath.im(b * mpmath.conj(c)) - mpmath.im(d * mpmath.conj(a))]
            q.append(mpmath.re(d * mpmath.conj(c)))
            gains = []
            # In steps of an angle about the least of q, where the gain is the distance to an ellipse's point.
            least, depth = -q[1] / 2 / q[2], mpmath.sqrt(q[0] / q[2] - (q[1] / 2 / q[2]) ** 2)
            for step in range(-1440, 1440):
                x = least + depth * mpmath.tan(mpmath.pi * (step + mpmath.mpf("0.5")) / 2880)
                gains.append(abs(b + 1j * (d - a) * x + c * x * x) / (q[0] + q[1] * x + q[2] * x * x))
            expected = float(-20 * mpmath.log10(max(gains)))
            assert worst[place] == pytest.approx(expected, abs=1e-4)


def test_a_mode_does_not_sink_in_the_rounding_of_the_other() -> None:
    """A hundred banks: in common mode each line is a ladder of its own, whatever happens between lines."""
    choke = sr.filters.CommonModeChoke.from_leakage(3e-3, 30e-6)
    capacitor = sr.filters.Capacitor(
        4.7e-9, loss_tangent=1e-3, series_resistance_ohm=5e-3, series_inductance_h=8e-9
    )
    lines = sr.LineFilter(2, [choke, sr.filters.LinesToCase([capacitor] * 2)] * 50)
    f = np.geomspace(1e3, 1e9, 101)
    swept = lines.insertion_loss_db(f, "common", "common")
    assert np.isfinite(swept).all()
    single = [lines.insertion_loss_db(value, "common", "common") for value in f]
    np.testing.assert_allclose(swept, single, rtol=1e-9, atol=1e-9)
    # Both lines together: two currents through the choke's common inductance, two capacitors.
    coupled = choke.inductance_h * (1 + choke.coupling)
    one = sr.filters.Ladder(
        [sr.filters.Series(sr.filters.Inductor(coupled)), sr.filters.Shunt(capacitor)] * 50
    )
    np.testing.assert_allclose(swept, one.insertion_loss_db(f), rtol=1e-9, atol=1e-6)
