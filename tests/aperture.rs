//! Holes and slots: what must hold for every size and frequency.

#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use proptest::prelude::*;
use stillroom::Parameters;
use stillroom::aperture::{
    Arrival, CircularHole, CrossSlot, Directional, EllipticHole, RectangularSlot, RoundedSlot, polarizability,
    slot_rule_of_thumb_db,
};
use stillroom::leak::Leak;
use stillroom::wave::Polarization;

fn db(leak: &dyn Leak, frequency_hz: f64) -> f64 {
    10.0 / std::f64::consts::LN_10 * leak.ln_cross_section(frequency_hz)
}

fn wavenumber(frequency_hz: f64) -> f64 {
    2.0 * PI * frequency_hz / 299_792_458.0
}

/// Numbers spread evenly in their logarithm.
fn decades(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.log10()..high.log10()).prop_map(|exponent| 10f64.powf(exponent))
}

proptest! {
    #[test]
    fn a_hole_follows_its_scale(diameter in decades(1e-4, 1.0), wall in 0.0..2.0, f in decades(1e3, 1e12), scale in decades(1e-2, 1e2)) {
        let small = CircularHole::new(diameter, wall * diameter).unwrap();
        let large = CircularHole::new(scale * diameter, scale * wall * diameter).unwrap();
        let (a, b) = (small.ln_cross_section(f), large.ln_cross_section(f / scale) - 2.0 * scale.ln());
        prop_assert!((a - b).abs() < 1e-8 * a.abs().max(1.0), "{a} {b}");
    }

    #[test]
    fn a_slot_follows_its_scale(length in decades(1e-3, 1.0), aspect in decades(1e-4, 1.0), wall in 0.0..1.0, f in decades(1e3, 1e12), scale in decades(1e-2, 1e2)) {
        let small = RectangularSlot::new(length, aspect * length, wall * length).unwrap();
        let large = RectangularSlot::new(scale * length, scale * aspect * length, scale * wall * length).unwrap();
        let (a, b) = (small.ln_cross_section(f), large.ln_cross_section(f / scale) - 2.0 * scale.ln());
        prop_assert!((a - b).abs() < 1e-8 * a.abs().max(1.0), "{a} {b}");
    }

    #[test]
    fn a_larger_hole_passes_more_while_small(diameter in decades(1e-4, 1e-2), wall in decades(1e-6, 1e-1), growth in 1.001..3.0, ka in decades(1e-4, 0.5)) {
        let f = ka / (0.5 * growth * diameter) * 299_792_458.0 / (2.0 * PI);
        let (one, other) = (CircularHole::new(diameter, wall).unwrap(), CircularHole::new(growth * diameter, wall).unwrap());
        prop_assert!(other.ln_cross_section(f) > one.ln_cross_section(f));
    }

    #[test]
    fn a_thicker_wall_passes_less_below_cutoff(length in decades(1e-3, 1.0), aspect in decades(1e-3, 1.0), wall in decades(1e-4, 1.0), z in decades(1e-4, 0.4)) {
        let f = z * 299_792_458.0 / (2.0 * length);
        let thin = RectangularSlot::new(length, aspect * length, wall * length).unwrap();
        let thick = RectangularSlot::new(length, aspect * length, 1.1 * wall * length).unwrap();
        prop_assert!(thick.ln_cross_section(f) < thin.ln_cross_section(f));
    }

    #[test]
    fn no_opening_passes_much_more_than_what_falls_on_it_when_large(length in decades(1e-3, 1.0), aspect in 0.02..1.0_f64, wall in 0.0..0.5, widths in 1.0..30.0_f64) {
        let width = aspect * length;
        let f = widths * 299_792_458.0 / width;
        let slot = RectangularSlot::new(length, width, wall * length).unwrap();
        let open = 10.0 * (0.5 * slot.area_m2()).log10();
        prop_assert!((db(&slot, f) - open).abs() < 3.0, "{}", db(&slot, f) - open);
    }

    #[test]
    fn frequency_steps_make_no_jumps(length in decades(1e-2, 1.0), aspect in decades(1e-4, 1.0), wall in decades(1e-4, 0.3), f in decades(1e7, 1e11)) {
        // A resonance of Q below 10⁵ changes by less than this over a step of 10⁻⁹; a jump would not.
        let slot = RectangularSlot::new(length, aspect * length, wall * length).unwrap();
        let step = slot.ln_cross_section(f * (1.0 + 1e-9)) - slot.ln_cross_section(f);
        prop_assert!(step.abs() < 1e-3, "{step}");
    }

    #[test]
    fn parameters_round_trip(length in decades(1e-3, 1.0), aspect in decades(1e-3, 1.0), wall in 0.0..0.1) {
        let slot = RectangularSlot::new(length, aspect * length, wall).unwrap();
        prop_assert_eq!(slot.with_parameters(&[]).unwrap(), slot.clone());
        let hole = CircularHole::new(length, wall).unwrap();
        prop_assert_eq!(hole.with_parameter("diameter_m", 2.0 * length).unwrap().diameter_m(), 2.0 * length);
    }
}

#[test]
fn small_openings_radiate_what_their_dipoles_do() {
    // The convention, tested by power: σ = (4k⁴/9π)(α₁² + α₂² + α_e²) is the mean over the half-space
    // of what a dipole pair in front of a conducting wall radiates.
    for (length, width) in [(2e-3, 2e-3), (2e-3, 1e-3), (2e-3, 2e-4), (2e-3, 2e-6)] {
        let slot = RectangularSlot::new(length, width, 0.0).unwrap();
        let alpha = polarizability::rectangle(length, width).unwrap();
        let squares = [alpha.magnetic_along_m3, alpha.magnetic_across_m3, alpha.electric_m3].map(|a| a * a);
        let law = 4.0 * wavenumber(1e8).powi(4) / (9.0 * PI) * squares.iter().sum::<f64>();
        assert!((db(&slot, 1e8) - 10.0 * law.log10()).abs() < 0.003, "{length} {width}");
    }
}

#[test]
fn polarizabilities_of_a_thick_wall_give_the_cross_section_too() {
    let hole = CircularHole::new(2e-3, 1.5e-3).unwrap();
    let alpha = hole.polarizability(1e8).unwrap();
    let squares = [alpha.magnetic_along_m3, alpha.magnetic_across_m3, alpha.electric_m3].map(|a| a * a);
    let law = 4.0 * wavenumber(1e8).powi(4) / (9.0 * PI) * squares.iter().sum::<f64>();
    assert!((db(&hole, 1e8) - 10.0 * law.log10()).abs() < 0.003);
    assert!(hole.polarizability(30e9).is_none(), "no static values for a hole of a fifth of a wavelength");
}

#[test]
fn nonsense_is_refused_by_name() {
    let text = |error: stillroom::Error| error.to_string();
    assert_eq!(text(CircularHole::new(0.0, 0.0).unwrap_err()), "`diameter_m` = 0 m: must be positive and finite");
    assert_eq!(
        text(CircularHole::new(1.0, -1.0).unwrap_err()),
        "`wall_thickness_m` = -1 m: must be zero or positive, and finite"
    );
    assert_eq!(
        text(RectangularSlot::new(1e-3, 2e-3, 0.0).unwrap_err()),
        "`width_m` = 0.002 m: must be at most `length_m` = 0.001 m"
    );
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0] {
        assert!(CircularHole::new(bad, 0.0).is_err() && CircularHole::new(1.0, bad).is_err());
        assert!(RectangularSlot::new(bad, 1.0, 0.0).is_err());
        assert!(RectangularSlot::new(1.0, bad, 0.0).is_err() && RectangularSlot::new(1.0, 1.0, bad).is_err());
        assert!(polarizability::ellipse(bad, 1.0).is_err() && polarizability::rectangle(1.0, bad).is_err());
        assert!(slot_rule_of_thumb_db(bad, 1e9).is_err() && slot_rule_of_thumb_db(1.0, bad).is_err());
    }
    let hole = CircularHole::new(1.0, 0.0).unwrap();
    assert!(text(hole.with_parameter("radius_m", 1.0).unwrap_err()).contains("diameter_m"));
}

/// Mean over the half-space and both polarizations.
fn mean_over_directions(leak: &dyn Directional, frequency_hz: f64) -> f64 {
    const STEPS: usize = 36;
    let mut sum = 0.0;
    for polar in 0..STEPS {
        let angle = ((polar as f64 + 0.5) / STEPS as f64).acos().to_degrees();
        for turn in 0..STEPS {
            let azimuth = 90.0 * (turn as f64 + 0.5) / STEPS as f64;
            for polarization in [Polarization::Te, Polarization::Tm] {
                let wave = Arrival::new(angle, azimuth, polarization).unwrap();
                sum += leak.ln_cross_section_towards(frequency_hz, &wave).exp();
            }
        }
    }
    sum / (2 * STEPS * STEPS) as f64
}

#[test]
fn the_average_is_the_mean_over_directions() {
    // From far below resonance to where the slot counts as endless (more than 32 half-waves).
    let openings: [(&dyn Directional, &[f64]); 6] = [
        (&CircularHole::new(0.1, 0.02).unwrap(), &[0.01, 1.0, 6.0]),
        (&RectangularSlot::new(0.1, 0.03, 0.01).unwrap(), &[0.01, 1.5, 6.0]),
        (&RectangularSlot::new(0.1, 1e-3, 1e-3).unwrap(), &[0.01, 1.4, 6.0, 35.0]),
        (&EllipticHole::new(0.1, 0.05, 0.0).unwrap(), &[0.01, 1.5, 6.0]),
        (&RoundedSlot::new(0.1, 0.01, 0.0).unwrap(), &[0.01, 1.5, 6.0]),
        (&CrossSlot::new(0.1, 0.02, 0.0).unwrap(), &[0.01, 1.5, 6.0]),
    ];
    for (leak, frequencies_ghz) in openings {
        for &f in frequencies_ghz {
            let ratio = mean_over_directions(leak, f * 1e9) / leak.ln_cross_section(f * 1e9).exp();
            // The midpoint rule sees lobes of a thirty-second with a few places each.
            let tolerance = if f > 10.0 { 0.1 } else { 5e-3 };
            assert!((ratio - 1.0).abs() < tolerance, "{leak:?} at {f} GHz: {ratio}");
        }
    }
}

#[test]
fn a_square_is_the_same_to_both_polarizations_along_the_normal() {
    // By symmetry; and turned by a quarter it is the same from everywhere.
    for wall_m in [0.0, 0.03] {
        let square = RectangularSlot::new(0.1, 0.1, wall_m).unwrap();
        for lambdas in [0.01, 0.2, 0.4, 0.5, 0.7, 0.85, 1.0, 2.5] {
            let f = lambdas * 299_792_458.0 / 0.1;
            let towards = |angle, azimuth, polarization| {
                square.ln_cross_section_towards(f, &Arrival::new(angle, azimuth, polarization).unwrap())
            };
            let (te, tm) = (towards(0.0, 0.0, Polarization::Te), towards(0.0, 0.0, Polarization::Tm));
            assert!((te - tm).abs() < 1e-3, "{wall_m} {lambdas}: {te} {tm}");
            for polarization in [Polarization::Te, Polarization::Tm] {
                let (one, other) = (towards(50.0, 20.0, polarization), towards(50.0, 110.0, polarization));
                assert!((one - other).abs() < 1e-3, "{wall_m} {lambdas}: {one} {other}");
            }
        }
    }
}

#[test]
fn a_slot_answers_to_the_field_across_it() {
    let slot = RectangularSlot::new(0.1, 1e-3, 0.0).unwrap();
    let towards =
        |azimuth, polarization| slot.ln_cross_section_towards(1e8, &Arrival::new(30.0, azimuth, polarization).unwrap());
    // H along the slot: TE in the plane of the slot, TM across it; TE weaker by cos²θ.
    let (te, tm) = (towards(0.0, Polarization::Te), towards(90.0, Polarization::Tm));
    assert!((te - tm - 2.0 * 30f64.to_radians().cos().ln()).abs() < 0.01);
    assert!(towards(90.0, Polarization::Te) < te - 10.0 && towards(0.0, Polarization::Tm) < te - 5.0);
}

#[test]
fn outlines_meet_where_they_are_the_same() {
    // As wide as long a rounded slot and an ellipse are circles, a cross is a square; within what the averaged
    // models are off by.
    let circle = CircularHole::new(0.1, 0.02).unwrap();
    let square = RectangularSlot::new(0.1, 0.1, 0.02).unwrap();
    for f in [1e7, 1e9, 2e9, 4e9, 20e9, 1e12] {
        for round in
            [&EllipticHole::new(0.1, 0.1, 0.02).unwrap() as &dyn Leak, &RoundedSlot::new(0.1, 0.1, 0.02).unwrap()]
        {
            assert!((db(round, f) - db(&circle, f)).abs() < 0.5, "{round:?} {f:e}");
        }
        let cross = CrossSlot::new(0.1, 0.1, 0.02).unwrap();
        assert!((db(&cross, f) - db(&square, f)).abs() < 0.5, "{f:e}: {} {}", db(&cross, f), db(&square, f));
    }
}

proptest! {
    #[test]
    fn what_lies_inside_passes_less_while_small(length in decades(1e-3, 0.1), aspect in decades(1e-2, 0.95), z in decades(1e-4, 0.2)) {
        let f = z * 299_792_458.0 / (2.0 * length);
        let width = aspect * length;
        let chain: [&dyn Leak; 4] = [
            &EllipticHole::new(length, width, 0.0).unwrap(),
            &RoundedSlot::new(length, width, 0.0).unwrap(),
            &RectangularSlot::new(length, width, 0.0).unwrap(),
            &CrossSlot::new(length, width, 0.0).unwrap(),
        ];
        for pair in chain.windows(2) {
            prop_assert!(pair[0].ln_cross_section(f) < pair[1].ln_cross_section(f));
        }
    }

    #[test]
    fn every_outline_follows_its_scale(length in decades(1e-3, 1.0), aspect in decades(1e-3, 1.0), wall in 0.0..1.0, f in decades(1e6, 1e12), scale in decades(1e-2, 1e2)) {
        let of = |length: f64, f: f64| {
            [
                RoundedSlot::new(length, aspect * length, wall * length).unwrap().ln_cross_section(f),
                EllipticHole::new(length, aspect * length, wall * length).unwrap().ln_cross_section(f),
                CrossSlot::new(length, aspect * length, wall * length).unwrap().ln_cross_section(f),
            ]
        };
        for (a, b) in of(length, f).into_iter().zip(of(scale * length, f / scale)) {
            prop_assert!((a - b + 2.0 * scale.ln()).abs() < 1e-8 * a.abs().max(1.0), "{a} {b}");
        }
    }
}

#[cfg(feature = "serde")]
#[test]
fn openings_come_back_from_their_files_and_nonsense_does_not() {
    use serde::{Serialize, de::DeserializeOwned};

    fn through_a_file<T: Serialize + DeserializeOwned + PartialEq + std::fmt::Debug>(value: &T, bad: [&str; 3]) {
        let text = serde_json::to_string(value).unwrap();
        assert_eq!(&serde_json::from_str::<T>(&text).unwrap(), value, "{text}");
        let [from, to, named] = bad;
        let spoilt = text.replacen(from, to, 1);
        assert_ne!(spoilt, text, "{from} is not in {text}");
        let error = serde_json::from_str::<T>(&spoilt).unwrap_err().to_string();
        assert!(error.contains(named), "{error}");
        let unknown = text.replacen("wall_thickness_m", "wall_thickness", 1);
        assert!(serde_json::from_str::<T>(&unknown).is_err(), "{unknown}");
    }

    let wide = ["\"width_m\":0.004", "\"width_m\":0.4", "width_m"];
    let negative = ["\"wall_thickness_m\":0.001", "\"wall_thickness_m\":-0.001", "wall_thickness_m"];
    through_a_file(&CircularHole::new(10e-3, 1e-3).unwrap(), negative);
    through_a_file(&RectangularSlot::new(20e-3, 4e-3, 1e-3).unwrap(), wide);
    through_a_file(&EllipticHole::new(20e-3, 4e-3, 1e-3).unwrap(), negative);
    through_a_file(&RoundedSlot::new(20e-3, 4e-3, 1e-3).unwrap(), wide);
    through_a_file(&CrossSlot::new(20e-3, 4e-3, 1e-3).unwrap(), wide);
}
