"""Samples of filters."""

from __future__ import annotations

import stillroom as sr

COIL = sr.filters.Inductor(
    220e-6,
    resistance_ohm=0.015,
    parallel_capacitance_f=18e-12,
    core_loss_ohm=8e3,
    relaxation_hz=3e6,
    half_current_a=25.0,
    saturation_exponent=2.5,
)
CAPACITOR = sr.filters.Capacitor(
    1e-6, series_resistance_ohm=0.02, series_inductance_h=12e-9, loss_tangent=1e-3
)
RESISTOR = sr.filters.Resistor(470e3, series_inductance_h=8e-9, parallel_capacitance_f=0.5e-12)
BEAD = sr.filters.FerriteBead([1e6, 1e8], [5.0, 100.0], [10.0, -20.0], scale=2.0)
FEEDTHROUGH = sr.filters.FeedthroughCapacitor(
    10e-9,
    conductor_inductance_h=2e-9,
    conductor_resistance_ohm=1e-3,
    loss_tangent=0.02,
    flange_inductance_h=0.1e-9,
)
CABLE = sr.filters.LossyLine(2.0, 50.0, 2e8, resistance_ohm_per_m=0.1, reference_hz=10e6, loss_tangent=1e-3)
MEASURED = sr.filters.MeasuredTwoPort([1e6, 2e6], [(0.1, 0.9, 0.9, 0.1), (0.2j, 0.8, 0.8, 0.2j)], 50.0, 75.0)
HOUSING = sr.filters.Housing(
    0.25,
    bond_resistance_ohm=1e-3,
    bond_inductance_h=1e-9,
    stray_capacitance_f=0.1e-12,
    isolation_db=100.0,
)
CIRCUIT = sr.filters.MeasuringCircuit(30 + 40j, sr.filters.LineNetwork(50.0, 5.0, 50e-6))
LADDER = sr.filters.Ladder(
    [
        sr.filters.Shunt(CAPACITOR),
        sr.filters.Series(COIL),
        sr.filters.Series(BEAD),
        FEEDTHROUGH,
        CABLE,
        MEASURED,
        sr.filters.Shunt(RESISTOR),
    ],
    load_current_rms_a=16.0,
    crest_factor=1.5,
    housing=HOUSING,
)
LUMPED = sr.filters.Ladder([sr.filters.Series(COIL), sr.filters.Shunt(CAPACITOR)], load_current_rms_a=16.0)
CHOKE = sr.filters.CommonModeChoke(
    3e-3,
    0.99,
    resistance_ohm=0.01,
    parallel_capacitance_f=20e-12,
    relaxation_hz=1e6,
    half_current_a=0.4,
    saturation_exponent=3.0,
)
LINES = sr.LineFilter(
    2,
    [
        sr.filters.BetweenLines(CAPACITOR, 0, 1),
        CHOKE,
        sr.filters.InEachLine([COIL, COIL]),
        sr.filters.InEachLine([FEEDTHROUGH, COIL]),
        sr.filters.InEachLine([CABLE, MEASURED]),
        sr.filters.LinesToCase([sr.filters.Capacitor(4.7e-9), sr.filters.Capacitor(4.7e-9)]),
    ],
    load_current_rms_a=16.0,
    residual_current_rms_a=0.1,
    crest_factor=2.5,
    housing=HOUSING,
)

LOST = sr.filters.LeakageCase(lost=[0, 3], held=[1, "earth"], neutral_lost=True, current_a=2e-3)

SAMPLES: list[object] = [
    COIL,
    CAPACITOR,
    RESISTOR,
    BEAD,
    FEEDTHROUGH,
    sr.filters.FeedthroughCapacitor(
        10e-9,
        conductor_inductance_h=2e-9,
        series_resistance_ohm=3e-3,
        electrode_inductance_h=0.4e-9,
        mutual_inductance_h=10e-12,
        disc=(1e-3, 4e-3, 100.0),
    ),
    CABLE,
    MEASURED,
    HOUSING,
    CIRCUIT,
    LADDER,
    LUMPED,
    sr.filters.Series(COIL),
    sr.filters.Shunt(CAPACITOR),
    sr.filters.LineNetwork(50.0, 5.0, 50e-6),
    sr.filters.Wire(2.0, 1e-3),
    sr.filters.Conductor(2.0, 1 + 30j),
    sr.filters.Conductor(5.0, 300.0, 0.1),
    sr.FilteredLine(
        LADDER, sr.filters.Conductor(10.0, 50.0), sr.filters.Conductor(3.0, sr.filters.Wire(3.0, 1e-3))
    ),
    sr.FilteredLine(LUMPED, sr.filters.Conductor(10.0, 50.0), sr.filters.Conductor(3.0, 50.0)),
    sr.filters.ImpedanceRegion(1.0, 1000.0, -80.0, 70.0),
    sr.filters.WorstTerminations(insertion_loss_db=-3.0, source_ohm=1j, load_ohm=2 - 1j),
    CHOKE,
    LINES,
    sr.filters.BetweenLines(CAPACITOR, 0, 1),
    sr.filters.StarPoint([CAPACITOR, CAPACITOR]),
    sr.filters.StarPoint([CAPACITOR, RESISTOR], CAPACITOR),
    sr.filters.InEachLine([COIL, COIL]),
    sr.filters.InEachLine([FEEDTHROUGH, COIL]),
    sr.filters.LinesToCase([CAPACITOR, CAPACITOR]),
    sr.filters.ModalTermination(25.0, 100.0),
    sr.filters.MainsSupply("line_neutral", 230.0, 50.0, 0.1),
    LOST,
    sr.filters.EarthLeakage(normal_a=1e-3, cases=[LOST]),
    sr.filters.MeasuredLoss([1e4, 1e6], [20.0, 60.0]),
    sr.filters.MeasuredLoss([1e4, 1e6], [20.0, 60.0], CIRCUIT, -3.0),
    sr.FilteredLine(LINES, sr.filters.Conductor(10.0, 25.0), sr.filters.Conductor(3.0, 150.0)),
    sr.FilteredLine(
        sr.filters.MeasuredLoss([1e4, 1e6], [20.0, 60.0]),
        sr.filters.Conductor(10.0),
        sr.filters.Conductor(3.0),
    ),
    sr.filters.PreferredSeries("E12"),
    sr.filters.LossGoal(150e3, 60.0, CIRCUIT),
    sr.filters.DesignLimits(
        shunt_total_f=1e-6,
        series_total_h=1e-3,
        coil_energy_j=0.1,
        coil_heat_w=2.0,
        least_remaining=0.3,
        load_current_rms_a=16.0,
        crest_factor=1.5,
        most_parts=5,
        coil_series=sr.filters.PreferredSeries("E12"),
        coil_resistance_ohm_per_h=50.0,
        coil_half_energy_j=0.05,
        coil_saturation_exponent=3.0,
        coil_capacitance_f=10e-12,
        capacitor_resistance_ohm=5e-3,
        capacitor_inductance_h=5e-9,
    ),
]
