//! Filters through the public face: what must hold for any ladder, and what nonsense gets for an answer.

// Helpers of tests may unwrap as tests do.
#![allow(clippy::unwrap_used, clippy::panic)]

use num_complex::Complex64;
use proptest::prelude::*;
use stillroom::circuit::{Terminations, TwoPort};
use stillroom::filter::{
    Bank, Capacitor, CommonModeChoke, Conductor, Element, FeedthroughCapacitor, FilteredLine, FrequencyUnit, Housing,
    Inductor, Ladder, LineFilter, LineMode, LossyLine, MeasuredTwoPort, MeasuringCircuit, ModalTermination, PairFormat,
    Resistor, Saturation, Termination, Touchstone, Wire,
};
use stillroom::leak::Leak;
use stillroom::{Error, Parameters};

fn log_range(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

prop_compose! {
    fn coil()(l in log_range(1e-9, 1e-2), r in log_range(1e-4, 10.0), c in log_range(1e-13, 1e-9),
              core in log_range(10.0, 1e6), relaxation in log_range(1e4, 1e9)) -> Inductor {
        Inductor::new(l).unwrap()
            .with_resistance_ohm(r).unwrap()
            .with_parallel_capacitance_f(c).unwrap()
            .with_core_loss_ohm(core).unwrap()
            .with_relaxation_hz(relaxation).unwrap()
    }
}

prop_compose! {
    fn capacitor()(c in log_range(1e-12, 1e-4), r in log_range(1e-4, 10.0), l in log_range(1e-10, 1e-7),
                   tangent in log_range(1e-5, 0.1)) -> Capacitor {
        Capacitor::new(c).unwrap()
            .with_series_resistance_ohm(r).unwrap()
            .with_series_inductance_h(l).unwrap()
            .with_loss_tangent(tangent).unwrap()
    }
}

prop_compose! {
    fn feedthrough()(c in log_range(1e-12, 1e-6), l in log_range(1e-10, 1e-8), r in log_range(1e-4, 0.1),
                     tangent in log_range(1e-4, 0.1), flange in log_range(1e-12, 1e-9), esr in log_range(1e-4, 0.1),
                     electrode in prop_oneof![Just(0.0), log_range(1e-12, 1e-9)],
                     mutual in 0.0..0.2) -> FeedthroughCapacitor {
        FeedthroughCapacitor::new(c).unwrap()
            .with_conductor(l, r).unwrap()
            .with_loss_tangent(tangent).unwrap()
            .with_series_resistance_ohm(esr).unwrap()
            .with_electrode_inductance_h(electrode).unwrap()
            .with_flange_inductance_h(flange).unwrap()
            .with_mutual_inductance_h(mutual * l).unwrap()
    }
}

prop_compose! {
    fn cable()(length in log_range(1e-3, 30.0), z in log_range(10.0, 300.0), v in 1e8..1.45e8, r in log_range(1e-3, 10.0),
               tangent in log_range(1e-5, 0.05)) -> LossyLine {
        LossyLine::new(length, z, v).unwrap()
            .with_resistance(r, 1e6).unwrap()
            .with_loss_tangent(tangent).unwrap()
    }
}

fn element() -> impl Strategy<Value = Element> {
    prop_oneof![
        feedthrough().prop_map(Element::from),
        cable().prop_map(Element::from),
        coil().prop_map(|part| Element::Series(part.into())),
        capacitor().prop_map(|part| Element::Shunt(part.into())),
        coil().prop_map(|part| Element::Shunt(part.into())),
        capacitor().prop_map(|part| Element::Series(part.into())),
        log_range(1e-3, 1e6).prop_map(|r| Element::Series(Resistor::new(r).unwrap().into())),
        log_range(1e-3, 1e6).prop_map(|r| Element::Shunt(Resistor::new(r).unwrap().into())),
    ]
}

fn ladder() -> impl Strategy<Value = Ladder> {
    prop::collection::vec(element(), 1..10).prop_map(|elements| Ladder::new(elements).unwrap())
}

prop_compose! {
    fn resistive()(r1 in log_range(0.1, 1e4), x1 in -1e3..1e3, r2 in log_range(0.1, 1e4), x2 in -1e3..1e3)
        -> Terminations {
        Terminations::new(Complex64::new(r1, x1), Complex64::new(r2, x2)).unwrap()
    }
}

fn circuit(ends: &Terminations) -> MeasuringCircuit {
    MeasuringCircuit::new(
        Termination::impedance(ends.source_ohm()).unwrap(),
        Termination::impedance(ends.load_ohm()).unwrap(),
    )
}

fn bank(lines: usize) -> impl Strategy<Value = Bank> {
    let each = move || prop::collection::vec(element(), lines).prop_map(Bank::Each);
    let capacitors = move || {
        prop::collection::vec(capacitor(), lines)
            .prop_map(|parts| Bank::ToCase(parts.into_iter().map(Into::into).collect()))
    };
    let coils = move || {
        prop::collection::vec(coil(), lines).prop_map(|parts| Bank::Series(parts.into_iter().map(Into::into).collect()))
    };
    let choke = (log_range(1e-5, 1e-2), 0.0..0.999).prop_map(|(henry, coupling)| {
        Bank::Choke(CommonModeChoke::new(henry, coupling).unwrap().with_resistance_ohm(0.1).unwrap())
    });
    let between = (0..lines, 1..lines, capacitor()).prop_map(move |(from, step, part)| Bank::Between {
        from,
        to: (from + step) % lines,
        part: part.into(),
    });
    prop_oneof![each(), capacitors(), coils(), choke, between]
}

fn housing() -> impl Strategy<Value = Housing> {
    (log_range(1e-5, 0.1), log_range(1e-10, 1e-7), log_range(1e-15, 1e-12)).prop_map(|(ohm, henry, farad)| {
        Housing::new(0.1).unwrap().with_bond(ohm, henry).unwrap().with_stray_capacitance_f(farad).unwrap()
    })
}

fn lines() -> impl Strategy<Value = LineFilter> {
    (2..5_usize).prop_flat_map(|lines| {
        (prop::collection::vec(bank(lines), 1..5), prop::option::of(housing())).prop_map(move |(banks, housing)| {
            let filter = LineFilter::new(lines, banks).unwrap();
            match housing {
                None => filter,
                Some(housing) => filter.with_housing(housing),
            }
        })
    })
}

proptest! {
    #[test]
    fn passive_parts_make_passive_ladders(ladder in ladder(), ends in resistive(), f in log_range(1.0, 1e11)) {
        let s = ladder.scattering(f, &ends).unwrap();
        prop_assert!(s.excess_gain() < 1e-9, "{}", s.excess_gain());
        prop_assert!(ladder.ln_transducer_gain(f, &circuit(&ends)) < 1e-9);
    }

    #[test]
    fn ladders_are_reciprocal(ladder in ladder(), ends in resistive(), f in log_range(1.0, 1e11)) {
        let s = ladder.scattering(f, &ends).unwrap();
        prop_assert_eq!(s.ln_s21, s.ln_s12);
        // And turned round between exchanged terminations they lose the same (every member is the same from both sides).
        let forward = ladder.insertion_loss_db(f, &circuit(&ends));
        let turned = Ladder::new(ladder.elements().iter().rev().cloned().collect()).unwrap();
        let backward = turned.insertion_loss_db(f, &circuit(&ends.reversed()));
        prop_assert!((forward - backward).abs() < 1e-9 * forward.abs().max(1.0), "{} {}", forward, backward);
    }

    #[test]
    fn nothing_is_lost_in_lossless_parts(
        values in prop::collection::vec((log_range(1e-9, 1e-3), log_range(1e-12, 1e-6)), 1..4),
        r in log_range(1.0, 1e3),
        f in log_range(1e3, 1e8),
    ) {
        let elements = values.iter().flat_map(|&(l, c)| [
            Element::Series(Inductor::new(l).unwrap().into()),
            Element::Shunt(Capacitor::new(c).unwrap().into()),
        ]).collect();
        let ends = Terminations::new(r, r).unwrap();
        let s = Ladder::new(elements).unwrap().scattering(f, &ends).unwrap();
        // Rounding in the reflection near one is all that is left where next to nothing passes.
        prop_assert!((s.s11.norm_sqr() + s.s21().norm_sqr() - 1.0).abs() < 1e-8);
    }

    #[test]
    fn nothing_is_lost_in_a_lossless_cable(length in log_range(1e-3, 30.0), z in log_range(10.0, 300.0),
                                           r in log_range(1.0, 1e3), f in log_range(1e3, 1e9)) {
        let cable = LossyLine::new(length, z, 2e8).unwrap();
        let ends = Terminations::new(r, r).unwrap();
        let s = Ladder::new(vec![cable.into()]).unwrap().scattering(f, &ends).unwrap();
        prop_assert!((s.s11.norm_sqr() + s.s21().norm_sqr() - 1.0).abs() < 1e-10);
    }

    #[test]
    fn several_lines_give_out_no_more_than_they_take_in(filter in lines(), f in log_range(1e3, 1e9)) {
        let ends = ModalTermination::each_line(50.0, filter.lines()).unwrap();
        // Between equal resistances the voltage gain from line to line is a scattering parameter.
        for from in 0..filter.lines() {
            let passed: f64 = (0..filter.lines())
                .map(|to| filter.insertion_loss_db(f, LineMode::Line(from), LineMode::Line(to), &ends, &ends).unwrap())
                .map(|loss_db| 10f64.powf(-loss_db / 10.0))
                .sum();
            prop_assert!(passed < 1.0 + 1e-9, "{}", passed);
        }
    }

    #[test]
    fn several_lines_are_reciprocal(filter in lines(), f in log_range(1e3, 1e9), source in 1.0..500.0, load in 1.0..500.0) {
        let turned = LineFilter::new(filter.lines(), filter.banks().iter().rev().cloned().collect()).unwrap();
        let turned = match filter.housing() {
            None => turned,
            Some(housing) => turned.with_housing(housing),
        };
        let source = ModalTermination::each_line(source, filter.lines()).unwrap();
        let load = ModalTermination::each_line(load, filter.lines()).unwrap();
        for from in 0..filter.lines() {
            for to in 0..filter.lines() {
                let there = filter.insertion_loss_db(f, LineMode::Line(from), LineMode::Line(to), &source, &load).unwrap();
                let back = turned.insertion_loss_db(f, LineMode::Line(to), LineMode::Line(from), &load, &source).unwrap();
                // Lines that nothing couples: infinite, or what rounding leaves.
                if there > 200.0 && back > 200.0 {
                    continue;
                }
                // The direct connection divides differently from the two sides.
                let divided = |near: &ModalTermination, far: &ModalTermination| {
                    far.common.impedance_ohm(f).re / (near.common.impedance_ohm(f).re + far.common.impedance_ohm(f).re)
                };
                let exchanged = 20.0 * (divided(&source, &load) / divided(&load, &source)).log10();
                let power = 20.0 * (load.common.impedance_ohm(f).re / source.common.impedance_ohm(f).re).log10();
                let difference = there - back - exchanged + power;
                prop_assert!(difference.abs() < 1e-6 * there.abs().max(1.0), "{} {} {}", there, back, difference);
            }
        }
    }

    #[test]
    fn the_sweep_and_the_two_port_say_the_same(ladder in ladder(), ends in resistive(), f in log_range(1.0, 1e11)) {
        let swept = ladder.insertion_loss_db(f, &circuit(&ends));
        let chained = ladder.two_port(f).insertion_loss_db(&ends);
        prop_assert!((swept - chained).abs() <= 1e-9 * chained.abs().max(1e-3), "{} {}", swept, chained);
    }

    #[test]
    fn no_passive_termination_is_worse_than_the_worst(ladder in ladder(), ends in resistive(), f in log_range(1e2, 1e9)) {
        let two_port = ladder.two_port(f);
        prop_assert!(two_port.insertion_loss_db(&ends) >= two_port.worst_insertion_loss_db() - 1e-6);
        let transducer_db = -10.0 / std::f64::consts::LN_10 * two_port.ln_transducer_gain(&ends);
        prop_assert!(transducer_db >= two_port.worst_transducer_loss_db() - 1e-6);
    }

    #[test]
    fn a_named_parameter_comes_back(ladder in ladder(), factor in 0.5..2.0) {
        for parameter in ladder.parameters().unwrap().iter().filter(|parameter| !CURRENT.contains(&parameter.path.as_str())) {
            let changed = ladder.with_parameter(&parameter.path, parameter.value * factor).unwrap();
            prop_assert_eq!(changed.parameter(&parameter.path).unwrap(), parameter.value * factor);
            prop_assert_eq!(changed.with_parameter(&parameter.path, parameter.value).unwrap(), ladder.clone());
        }
    }
}

/// What a ladder carries; a crest factor may stand at its lower end.
const CURRENT: [&str; 2] = ["load_current_rms_a", "crest_factor"];

#[test]
fn thousands_of_decibels_stay_finite_and_add_up() {
    // Sixty sections at 10 GHz with ideal parts: far beyond what a float can hold as a voltage ratio.
    let section =
        || [Element::Series(Inductor::new(1e-3).unwrap().into()), Element::Shunt(Capacitor::new(1e-5).unwrap().into())];
    let loss = |sections: usize| {
        let elements = (0..sections).flat_map(|_| section()).collect();
        Ladder::new(elements).unwrap().insertion_loss_db(1e10, &MeasuringCircuit::fifty_ohm())
    };
    let (half, whole) = (loss(30), loss(60));
    assert!(whole > 15_000.0 && whole.is_finite());
    // One section adds 20 log10(w^2 L C).
    let omega = 2.0 * std::f64::consts::PI * 1e10;
    let each = 20.0 * (omega * omega * 1e-8).log10();
    assert!(((whole - half) / (30.0 * each) - 1.0).abs() < 1e-12);
}

#[test]
fn load_current_costs_inductance_and_loss() {
    let coil = Inductor::new(1e-3).unwrap().with_saturation(Saturation::new(10.0, 2.0).unwrap());
    assert!((coil.loaded_inductance_h(10.0) / 0.5e-3 - 1.0).abs() < 1e-15);
    let ladder = Ladder::new(vec![Element::Series(coil.into())]).unwrap();
    let loss = |current| {
        ladder.clone().with_load_current_rms_a(current).unwrap().insertion_loss_db(1e6, &MeasuringCircuit::fifty_ohm())
    };
    // At the crest of 10 A effective a third is left, 3.5 dB less than with 10 A direct.
    assert!((loss(0.0) - loss(10.0) - 20.0 * 3f64.log10()).abs() < 0.01);
    let direct = ladder.clone().with_load_current_rms_a(10.0).unwrap().with_crest_factor(1.0).unwrap();
    let direct = direct.insertion_loss_db(1e6, &MeasuringCircuit::fifty_ohm());
    assert!((loss(0.0) - direct - 20.0 * 2f64.log10()).abs() < 0.01);
    assert!((direct - loss(10.0) - 3.52).abs() < 0.01);
}

#[test]
fn a_can_sets_a_ceiling() {
    let parts = || {
        vec![
            Element::Shunt(Capacitor::new(1e-6).unwrap().into()),
            Element::Series(Inductor::new(1e-3).unwrap().into()),
            Element::Shunt(Capacitor::new(1e-6).unwrap().into()),
        ]
    };
    let fifty = MeasuringCircuit::fifty_ohm();
    let plain = Ladder::new(parts()).unwrap();
    let isolated = plain.clone().with_housing(Housing::new(0.1).unwrap().with_isolation_db(100.0).unwrap());
    assert!(plain.insertion_loss_db(30e6, &fifty) > 200.0);
    assert!((isolated.insertion_loss_db(30e6, &fifty) - 100.0).abs() < 1e-3);
    // 100 mm of strap, some 60 nH, in common to both sides: at 30 MHz 11 ohm, all but no filter.
    let strap = Housing::new(0.1).unwrap().with_strap(1e-3, 0.1, 0.02, 1e-3).unwrap();
    let strapped = plain.clone().with_housing(strap).insertion_loss_db(30e6, &fifty);
    let flush = plain.clone().with_housing(Housing::new(0.1).unwrap().with_bond(1e-3, 0.0).unwrap());
    assert!(strapped < 20.0, "{strapped}");
    assert!(flush.insertion_loss_db(30e6, &fifty) > 80.0);
    assert!(!isolated.validity(1e9).holds() && isolated.validity(1e8).holds());
}

fn mains_line() -> FilteredLine {
    let ladder = Ladder::new(vec![
        Element::Series(Inductor::new(100e-6).unwrap().with_resistance_ohm(0.02).unwrap().into()),
        Element::Shunt(Capacitor::new(1e-6).unwrap().with_series_resistance_ohm(0.01).unwrap().into()),
    ])
    .unwrap()
    .with_housing(Housing::new(0.25).unwrap().with_isolation_db(100.0).unwrap());
    let fifty = || Termination::impedance(50.0).unwrap();
    FilteredLine::new(ladder, Conductor::new(10.0, fifty()).unwrap(), Conductor::new(3.0, fifty()).unwrap())
}

#[test]
fn the_effective_area_is_bounded_by_the_wave_and_by_the_length() {
    let bare = |length_m: f64, frequency_hz: f64| {
        let open = Ladder::new(vec![Element::Series(Resistor::new(1e-9).unwrap().into())]).unwrap();
        let fifty = || Termination::impedance(50.0).unwrap();
        FilteredLine::new(open, Conductor::new(length_m, fifty()).unwrap(), Conductor::new(100.0, fifty()).unwrap())
            .ln_cross_section(frequency_hz)
            .exp()
    };
    // Long wires on both sides of no filter: a matched antenna, lambda^2/4 pi.
    let wave = stillroom::constants::SPEED_OF_LIGHT / 100e6;
    assert!((bare(10.0, 100e6) / (wave * wave / (4.0 * std::f64::consts::PI)) - 1.0).abs() < 1e-9);
    // A short wire: eta0 l^2/(12 R).
    let short = stillroom::constants::VACUUM_IMPEDANCE * 0.01 / (12.0 * 50.0);
    assert!((bare(0.1, 3e6) / short - 1.0).abs() < 1e-3);
}

#[test]
fn a_filtered_line_is_a_leak_with_its_caution() {
    let line = mains_line();
    assert!(line.caution().is_some_and(|text| text.contains("licensed electrician")));
    let before = line.ln_cross_section(1e6);
    let changed = line.with_parameter("filter.elements.1.capacitance_f", 10e-6).unwrap();
    assert!(changed.ln_cross_section(1e6) < before - 3.0);
    let wired = FilteredLine::new(
        line.filter().clone(),
        Conductor::new(10.0, Termination::Wire(Wire::new(10.0, 1e-3).unwrap())).unwrap(),
        line.inside().clone(),
    );
    for k in 0..200 {
        assert!(wired.ln_cross_section(10f64.powf(3.0 + 0.04 * f64::from(k))).is_finite());
    }
}

#[test]
fn nonsense_is_refused_by_name() {
    let quantity = |error: Error| match error {
        Error::OutOfRange { quantity, .. } | Error::Relation { quantity, .. } | Error::Empty { quantity } => quantity,
        other => panic!("{other}"),
    };
    for value in [0.0, -1e-6, f64::NAN, f64::INFINITY] {
        assert_eq!(quantity(Inductor::new(value).unwrap_err()), "inductance_h");
        assert_eq!(quantity(Capacitor::new(value).unwrap_err()), "capacitance_f");
        assert_eq!(quantity(Resistor::new(value).unwrap_err()), "resistance_ohm");
        assert_eq!(quantity(Housing::new(value).unwrap_err()), "case_length_m");
        assert_eq!(quantity(Termination::impedance(value).unwrap_err()), "resistance_ohm");
        assert_eq!(quantity(Wire::new(value, 1e-3).unwrap_err()), "length_m");
        let fifty = Termination::impedance(50.0).unwrap();
        assert_eq!(quantity(Conductor::new(value, fifty).unwrap_err()), "length_m");
        assert_eq!(quantity(Saturation::new(value, 2.0).unwrap_err()), "half_current_a");
    }
    for value in [-1e-6, f64::NAN, f64::INFINITY] {
        let (coil, capacitor) = (Inductor::new(1e-6).unwrap(), Capacitor::new(1e-6).unwrap());
        assert_eq!(quantity(coil.with_resistance_ohm(value).unwrap_err()), "resistance_ohm");
        assert_eq!(quantity(coil.with_parallel_capacitance_f(value).unwrap_err()), "parallel_capacitance_f");
        assert_eq!(quantity(capacitor.with_series_resistance_ohm(value).unwrap_err()), "series_resistance_ohm");
        assert_eq!(quantity(capacitor.with_series_inductance_h(value).unwrap_err()), "series_inductance_h");
        assert_eq!(quantity(capacitor.with_loss_tangent(value).unwrap_err()), "loss_tangent");
    }
    assert_eq!(quantity(Ladder::new(vec![]).unwrap_err()), "elements");
    assert_eq!(quantity(Wire::new(1.0, 0.5).unwrap_err()), "radius_m");
    let error = mains_line().with_parameter("filter.elements.1.capacitance_f", -1.0).unwrap_err();
    assert!(error.to_string().contains("filter.elements.1.capacitance_f"), "{error}");
    assert!(matches!(
        mains_line().with_parameter("filter.elements.7.capacitance_f", 1.0),
        Err(Error::UnknownParameter { .. })
    ));
}

#[test]
fn a_chain_matrix_without_meaning_is_refused() {
    let (one, zero) = (Complex64::new(1.0, 0.0), Complex64::new(0.0, 0.0));
    assert!(TwoPort::from_chain([[one, zero], [zero, zero]]).is_err());
    assert!(TwoPort::from_chain([[one, Complex64::new(f64::NAN, 0.0)], [zero, one]]).is_err());
    let references = Terminations::fifty_ohm();
    assert!(TwoPort::from_scattering([[zero, one], [zero, zero]], &references).is_err());
}

// Lines of the alphabet that the format is made of, and of what it is not.
fn scrap() -> impl Strategy<Value = String> {
    let token = prop_oneof![
        Just("#".to_owned()),
        Just("!".to_owned()),
        Just("[Version] 2.0".to_owned()),
        Just("R".to_owned()),
        prop::sample::select(vec!["Hz", "kHz", "MHz", "GHz", "S", "Y", "Z", "H", "G", "MA", "DB", "RI"])
            .prop_map(str::to_owned),
        any::<f64>().prop_map(|value| format!("{value:e}")),
        (-20..20_i32).prop_map(|value| value.to_string()),
        Just("1e999".to_owned()),
        Just("--1".to_owned()),
        ".{0,6}",
    ];
    prop::collection::vec(prop::collection::vec(token, 0..12), 0..12)
        .prop_map(|lines| lines.iter().map(|line| line.join(" ")).collect::<Vec<_>>().join("\n"))
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused_with_a_line(text in scrap(), ports in 1..5_usize) {
        match Touchstone::parse(&text, ports) {
            Ok(file) => prop_assert_eq!(Touchstone::parse(&file.to_text(), ports).unwrap(), file),
            Err(Error::Parse { line, .. }) => prop_assert!(line >= 1 && line <= text.lines().count().max(1)),
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    #[test]
    fn a_damaged_file_is_read_or_refused_with_a_line(place in 0..400_usize, byte in 0..128_u8, cut in any::<bool>()) {
        let whole = "! attenuator\n# MHz S MA R 50\n10 0.1 12 0.5 -30 0.5 -30 0.1 10\n20 0.1 12 0.5 -60 0.5 -60 0.1 10\n\
                     30 0.11 -5 0.49 -90 0.49 -90 0.12 0\n5 1.2 .3 40 .2\n20 1.3 .3 50 .2\n";
        let mut bytes = whole.as_bytes().to_vec();
        let place = place % bytes.len();
        if cut { bytes.truncate(place) } else { bytes[place] = byte }
        let text = String::from_utf8(bytes).unwrap();
        match Touchstone::parse(&text, 2) {
            Ok(file) => prop_assert_eq!(Touchstone::parse(&file.to_text(), 2).unwrap(), file),
            Err(Error::Parse { .. }) => {}
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400), ports in 1..5_usize) {
        let text = String::from_utf8_lossy(&bytes);
        match Touchstone::parse(&text, ports) {
            Ok(file) => prop_assert_eq!(Touchstone::parse(&file.to_text(), ports).unwrap(), file),
            Err(Error::Parse { line, .. }) => prop_assert!(line >= 1 && line <= text.lines().count().max(1)),
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    #[test]
    fn a_file_damaged_in_many_places_is_read_or_refused_with_a_line(
        ports in 1..5_usize,
        rows in 1..5_usize,
        damage in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..4_u8), 1..8),
    ) {
        let values: Vec<Complex64> = (0..rows * ports * ports).map(|k| Complex64::new(0.1 * k as f64, -0.01)).collect();
        let frequencies = (1..=rows).map(|k| 1e6 * k as f64).collect();
        let mut bytes = Touchstone::from_scattering(ports, frequencies, &values, 50.0).unwrap()
            .with_comments(vec![" whole before".into()]).to_text().into_bytes();
        for (place, byte, kind) in damage {
            let place = place.index(bytes.len().max(1));
            match kind {
                0 if place < bytes.len() => bytes[place] = byte,
                1 if place < bytes.len() => { bytes.remove(place); }
                2 => bytes.insert(place.min(bytes.len()), byte),
                _ => bytes.truncate(place),
            }
        }
        let text = String::from_utf8_lossy(&bytes).into_owned();
        match Touchstone::parse(&text, ports) {
            Ok(file) => {
                prop_assert_eq!(Touchstone::parse(&file.to_text(), ports).unwrap(), file.clone());
                // What is done with it may fail, but not fall over.
                let _ = file.excess_gains();
                let _ = MeasuredTwoPort::from_touchstone(&file, 0.1);
            }
            Err(Error::Parse { line, .. }) => prop_assert!(line >= 1 && line <= text.lines().count().max(1)),
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    #[test]
    fn files_come_back_to_the_last_bit(
        ports in 1..5_usize,
        steps in prop::collection::vec(log_range(1e-3, 1e6), 1..6),
        seed in prop::collection::vec(-2.0..2.0_f64, 160),
        unit in prop::sample::select(FrequencyUnit::ALL.to_vec()),
        format in prop::sample::select(PairFormat::ALL.to_vec()),
        reference in log_range(1.0, 1e3),
    ) {
        let mut sum = 0.0;
        let frequencies: Vec<f64> = steps.iter().map(|step| { sum += step; sum }).collect();
        let count = frequencies.len() * ports * ports;
        let values: Vec<Complex64> =
            (0..count).map(|k| Complex64::new(seed[k % 160], seed[(7 * k + 3) % 160])).collect();
        let file = Touchstone::from_scattering(ports, frequencies, &values, reference).unwrap()
            .with_comments(vec![" made up".into(), " of\nnumbers".into()])
            .in_unit(unit)
            .in_format(format).unwrap();
        prop_assert_eq!(Touchstone::parse(&file.to_text(), ports).unwrap(), file);
    }
}

#[cfg(feature = "serde")]
#[test]
fn a_design_file_is_checked_on_the_way_in() {
    let line = mains_line();
    let text = serde_json::to_string(&line).unwrap();
    assert_eq!(serde_json::from_str::<FilteredLine>(&text).unwrap(), line);
    let negative = text.replace("\"capacitance_f\":1e-6", "\"capacitance_f\":-1e-6");
    assert_ne!(negative, text);
    let error = serde_json::from_str::<FilteredLine>(&negative).unwrap_err().to_string();
    assert!(error.contains("capacitance_f") && error.contains("from 1e-30"), "{error}");
    let unknown = text.replace("\"load_current_rms_a\"", "\"load_curent_a\"");
    assert!(serde_json::from_str::<FilteredLine>(&unknown).is_err());
}

#[test]
fn a_measured_two_port_takes_its_place_in_the_chain() {
    // A ladder sampled finely and put between two parts is that ladder between two parts.
    let inner = || {
        vec![
            Element::Series(Inductor::new(1e-6).unwrap().with_resistance_ohm(0.1).unwrap().into()),
            Element::Shunt(Capacitor::new(1e-9).unwrap().with_series_resistance_ohm(0.1).unwrap().into()),
        ]
    };
    let frequencies: Vec<f64> = (0..2001).map(|k| 1e6 + 5e3 * f64::from(k)).collect();
    let ladder = Ladder::new(inner()).unwrap();
    let rows: Vec<Complex64> = frequencies
        .iter()
        .flat_map(|&f| {
            let s = ladder.scattering(f, &Terminations::fifty_ohm()).unwrap();
            [s.s11, s.s12(), s.s21(), s.s22]
        })
        .collect();
    let file = Touchstone::from_scattering(2, frequencies, &rows, 50.0).unwrap();
    let measured = MeasuredTwoPort::from_touchstone(&file, 1e-9).unwrap();
    let ends =
        [Element::Shunt(Capacitor::new(2e-9).unwrap().into()), Element::Series(Inductor::new(2e-6).unwrap().into())];
    let [first, last] = ends;
    let mut whole = vec![first.clone()];
    whole.extend(inner());
    whole.push(last.clone());
    let (whole, joined) =
        (Ladder::new(whole).unwrap(), Ladder::new(vec![first, Element::Measured(measured), last]).unwrap());
    for f in [1.0e6, 2.123_456e6, 5.5e6, 1.1e7] {
        let (exact, joined) = (
            whole.insertion_loss_db(f, &MeasuringCircuit::low_to_high()),
            joined.insertion_loss_db(f, &MeasuringCircuit::low_to_high()),
        );
        assert!((exact - joined).abs() < 1e-3, "{f}: {exact} {joined}");
    }
    assert!(!joined.validity(1e9).holds());
    let three = Touchstone::parse("# Hz S RI\n1 0 0 0 0 0 0\n0 0 0 0 0 0\n0 0 0 0 0 0\n", 3).unwrap();
    assert!(MeasuredTwoPort::from_touchstone(&three, 0.0).is_err());
    let gain = Touchstone::parse("# Hz S RI\n1 0 0 1.5 0 1.5 0 0 0\n", 2).unwrap();
    let error = MeasuredTwoPort::from_touchstone(&gain, 0.01).unwrap_err().to_string();
    assert!(error.contains("at 1 Hz") && error.contains("1.5"), "{error}");
}

#[cfg(feature = "serde")]
mod design_files {
    use super::*;
    use serde::{Serialize, de::DeserializeOwned};
    use stillroom::filter::{
        Bank, CommonModeChoke, DesignLimits, Discharge, EarthLeakage, ExceededLimit, FeedthroughCapacitor, Find,
        ImpedanceRegion, LineFilter, LineLoss, LineMode, LossGoal, LossyLine, MainsLimits, MainsSupply, MeasuredLoss,
        ModalTermination, PreferredSeries, Prototype, PrototypeFamily, Sensitivity, StoredCharge, SupplySystem,
        WorstTerminations,
    };

    fn there_and_back<T: Serialize + DeserializeOwned + PartialEq + std::fmt::Debug>(value: &T) {
        let text = serde_json::to_string(value).unwrap();
        assert_eq!(&serde_json::from_str::<T>(&text).unwrap(), value, "{text}");
    }

    fn refused<T: Serialize + DeserializeOwned + std::fmt::Debug>(value: &T, from: &str, to: &str, named: &str) {
        let text = serde_json::to_string(value).unwrap();
        let bad = text.replacen(from, to, 1);
        assert_ne!(bad, text, "{from} is not in {text}");
        let error = serde_json::from_str::<T>(&bad).unwrap_err().to_string();
        assert!(error.contains(named), "{error}");
    }

    fn lines() -> LineFilter {
        let choke = CommonModeChoke::new(2e-3, 0.99).unwrap().with_saturation(Saturation::new(0.5, 2.0).unwrap());
        let part = || Capacitor::new(4.7e-9).unwrap().into();
        let feedthrough = FeedthroughCapacitor::new(10e-9).unwrap();
        let cable = LossyLine::new(2.0, 50.0, 2e8).unwrap();
        LineFilter::new(
            2,
            vec![
                Bank::Between { from: 0, to: 1, part: part() },
                Bank::Choke(choke),
                Bank::Each(vec![feedthrough.into(), cable.into()]),
                Bank::ToCase(vec![part(), part()]),
            ],
        )
        .unwrap()
        .with_load_current_rms_a(16.0)
        .unwrap()
        .with_residual_current_rms_a(0.01)
        .unwrap()
        .with_housing(Housing::new(0.2).unwrap().with_bond(1e-3, 1e-9).unwrap())
    }

    fn lines_of_parts() -> Ladder {
        Ladder::new(vec![Element::Series(Inductor::new(1e-6).unwrap().into())]).unwrap()
    }

    #[test]
    fn come_back_as_they_were() {
        there_and_back(&lines());
        there_and_back(&LineLoss::from(lines()));
        let supply =
            MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap().with_voltage_tolerance(0.1).unwrap();
        there_and_back(&supply);
        let leakage = supply.earth_leakage(&[1e-9, 2e-9], 0.1).unwrap();
        there_and_back(&leakage);
        there_and_back(&EarthLeakage { normal_a: 1e-3, cases: Vec::new() });
        let capacitors = vec![Capacitor::new(1e-6).unwrap().into(), Capacitor::new(2e-6).unwrap().into()];
        let star = LineFilter::new(2, vec![Bank::Star { parts: capacitors, to_case: None }]).unwrap();
        there_and_back(&star);
        // One that is held for ever, which is no number in such text; others of few digits, which such text keeps.
        let charge = star.stored_charge(&supply, 0.0, 34.0).unwrap();
        assert_eq!(charge.time_s(), f64::INFINITY);
        let round = Discharge { first_v: 325.0, left_v: 325.0, left_j: 0.125, ..charge.cases[0] };
        there_and_back(&StoredCharge { cases: vec![round], ..charge });
        there_and_back(&MainsLimits { bleed_down_s: Some(1.0), ..Default::default() });
        let goal = LossGoal::new(150e3, 60.0, MeasuringCircuit::low_to_high()).unwrap();
        there_and_back(&goal);
        there_and_back(&DesignLimits::default());
        there_and_back(&DesignLimits {
            coil_half_energy_j: Some(0.1),
            coil_series: PreferredSeries::E12,
            most_parts: 5,
            ..Default::default()
        });
        there_and_back(&Find {
            ladder: Ladder::new(vec![Element::Shunt(Capacitor::new(1e-6).unwrap().into())]).unwrap(),
            family: PrototypeFamily::Chebyshev { ripple_db: 0.5 },
            margins_db: vec![1.0],
            yield_share: Some(0.5),
        });
        there_and_back(&MeasuredLoss::new(vec![1e4, 1e6], vec![20.0, 60.0]).unwrap().with_offset_db(-3.0).unwrap());
        there_and_back(&ModalTermination::each_line(50.0, 2).unwrap());
        there_and_back(&[LineMode::Common, LineMode::Line(1), LineMode::Differential(0, 1)]);
        there_and_back(&Sensitivity { path: "elements.0.capacitance_f".into(), db_per_percent: 0.1 });
        there_and_back(&WorstTerminations {
            insertion_loss_db: -3.0,
            source_ohm: Complex64::new(0.0, 1.0),
            load_ohm: Complex64::new(2.0, -1.0),
            within_db: 0.01,
        });
        there_and_back(&Prototype::chebyshev(6, 0.5).unwrap());
        there_and_back(&Prototype::butterworth(5).unwrap());
        let ends = Terminations::new(Complex64::new(0.1, -3.0), 100.0).unwrap();
        there_and_back(&ends);
        there_and_back(&lines_of_parts().scattering(1e6, &Terminations::fifty_ohm()).unwrap());
        there_and_back(&ExceededLimit { quantity: "bleed_down_s", unit: "s", value: 3.0, limit: 1.0 });
        there_and_back(&ImpedanceRegion::new(1.0, 10.0, -80.0, 80.0).unwrap());
        there_and_back(&Touchstone::parse("! by hand\n# MHz S DB R 50\n1 -1 0.25\n", 1).unwrap());
    }

    #[test]
    fn smuggle_nothing_in() {
        refused(&lines(), "\"coupling\":0.99", "\"coupling\":1.5", "coupling");
        refused(&lines(), "\"to\":1", "\"to\":7", "banks.0");
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
        refused(&supply, "230.0", "-230.0", "voltage_v");
        refused(&LossGoal::new(150e3, 60.0, MeasuringCircuit::fifty_ohm()).unwrap(), "150000.0", "0.0", "frequency_hz");
        refused(&DesignLimits::default(), "\"most_parts\":7", "\"most_parts\":0", "most_parts");
        refused(&MeasuredLoss::new(vec![1e4, 1e6], vec![20.0, 60.0]).unwrap(), "10000.0", "1e7", "increase");
        refused(&Touchstone::parse("# MHz S DB R 50\n1 -1 0.25\n", 1).unwrap(), "-1 0.25", "-1", "line 2");
        refused(&Prototype::butterworth(5).unwrap(), "\"parts\":5", "\"parts\":0", "parts");
        refused(&Prototype::chebyshev(5, 0.5).unwrap(), "0.5", "-0.5", "ripple_db");
        refused(&Terminations::fifty_ohm(), "50.0", "-50.0", "source_ohm");
        let exceeded = ExceededLimit { quantity: "bleed_down_s", unit: "s", value: 3.0, limit: 1.0 };
        refused(&exceeded, "bleed_down_s", "bleed_up_s", "bleed_up_s");
        refused(&exceeded, "\"s\"", "\"ms\"", "ms");
    }
}
