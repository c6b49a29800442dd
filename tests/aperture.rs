//! Holes and slots: what must hold for every size and frequency.

#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use proptest::prelude::*;
use stillroom::Parameters;
use stillroom::aperture::{CircularHole, RectangularSlot, polarizability, slot_rule_of_thumb_db};
use stillroom::leak::Leak;

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
    assert_eq!(text(CircularHole::new(0.0, 0.0).unwrap_err()), "`diameter_m` = 0e0 m: must be positive and finite");
    assert_eq!(
        text(CircularHole::new(1.0, -1.0).unwrap_err()),
        "`wall_thickness_m` = -1e0 m: must be zero or positive, and finite"
    );
    assert_eq!(
        text(RectangularSlot::new(1e-3, 2e-3, 0.0).unwrap_err()),
        "`width_m` = 2e-3 m: must be at most `length_m` = 1e-3 m"
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
