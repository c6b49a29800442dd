//! Arrays of holes: what must hold for every number, pattern and frequency.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::f64::consts::PI;

use proptest::prelude::*;
use stillroom::Parameters;
use stillroom::aperture::{Arrival, CircularHole, Directional, HoleArray, HoleInteraction, HoleLayout};
use stillroom::leak::{Extent, Leak};
use stillroom::sheet::{HolePattern, Laminate, Layer, PerforatedSheet};
use stillroom::wave::{PlaneWave, Polarization};

fn db(ln: f64) -> f64 {
    10.0 / std::f64::consts::LN_10 * ln
}

fn frequency(wavenumber: f64) -> f64 {
    wavenumber * 299_792_458.0 / (2.0 * PI)
}

fn array(layout: HoleLayout, wall_m: f64, interaction: HoleInteraction) -> HoleArray {
    HoleArray::new(CircularHole::new(2e-3, wall_m).unwrap(), layout, interaction).unwrap()
}

fn grid(pattern: HolePattern, pitch_m: f64, side: usize) -> HoleLayout {
    HoleLayout::grid(pattern, pitch_m, side, side).unwrap()
}

/// Numbers spread evenly in their logarithm.
fn decades(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.log10()..high.log10()).prop_map(|exponent| 10f64.powf(exponent))
}

fn pattern() -> impl Strategy<Value = HolePattern> {
    prop_oneof![Just(HolePattern::Square), Just(HolePattern::Hexagonal)]
}

proptest! {
    #[test]
    fn between_its_bounds_while_small(pattern in pattern(), pitch in 2.6e-3..20e-3_f64, side in 1_usize..12, k in decades(1e-2, 300.0), wall in 0.0..3e-3_f64) {
        // Neighbours ease one another by up to 2βα: within the bound of amplitudes that are themselves eased.
        let of = |interaction| array(grid(pattern, pitch, side), wall, interaction).ln_cross_section(frequency(k));
        let (lattice, coherent) = (of(HoleInteraction::Lattice), of(HoleInteraction::Coherent));
        let eased = 1.0 - 4.0 * 11.04 / (4.0 * PI) * 4.0 / 3.0 * 1e-9 / pitch.powi(3);
        prop_assert!(lattice < coherent - 2.0 * eased.ln() + 1e-6, "{lattice} {coherent}");
        prop_assert!(lattice.is_finite());
    }

    #[test]
    fn far_holes_add_in_power(side in 1_usize..5, k in decades(10.0, 300.0)) {
        let of = |interaction| array(grid(HolePattern::Square, 40.0, side), 0.0, interaction).ln_cross_section(frequency(k));
        prop_assert!((of(HoleInteraction::Lattice) - of(HoleInteraction::Incoherent)).abs() < 2e-3);
    }

    #[test]
    fn more_holes_pass_more(pattern in pattern(), side in 1_usize..10, k in decades(1e-2, 400.0), wall in 0.0..3e-3_f64) {
        let of = |side| array(grid(pattern, 3e-3, side), wall, HoleInteraction::Lattice).ln_cross_section(frequency(k));
        prop_assert!(of(side + 1) > of(side));
    }

    #[test]
    fn an_array_follows_its_scale(side in 1_usize..6, wall in 0.0..2e-3_f64, k in decades(1.0, 600.0), scale in decades(0.1, 10.0)) {
        let small = array(grid(HolePattern::Hexagonal, 4e-3, side), wall, HoleInteraction::Lattice);
        let large = HoleArray::new(
            CircularHole::new(2e-3 * scale, wall * scale).unwrap(),
            grid(HolePattern::Hexagonal, 4e-3 * scale, side),
            HoleInteraction::Lattice,
        ).unwrap();
        let (a, b) = (small.ln_cross_section(frequency(k)), large.ln_cross_section(frequency(k / scale)) - 2.0 * scale.ln());
        prop_assert!((a - b).abs() < 1e-8 * a.abs(), "{a} {b}");
    }
}

#[test]
fn the_average_is_the_mean_over_directions() {
    let layouts = [
        HoleLayout::grid(HolePattern::Square, 5e-3, 2, 5).unwrap(),
        HoleLayout::grid(HolePattern::Hexagonal, 4e-3, 4, 4).unwrap(),
        HoleLayout::random(12, 30e-3, 30e-3, 3).unwrap(),
    ];
    for layout in layouts {
        let array = array(layout, 0.5e-3, HoleInteraction::Lattice);
        for k in [5.0, 100.0, 300.0] {
            let mut sum = 0.0;
            const STEPS: usize = 60;
            for polar in 0..STEPS {
                let angle = ((polar as f64 + 0.5) / STEPS as f64).acos().to_degrees();
                for turn in 0..2 * STEPS {
                    let azimuth = 180.0 * (turn as f64 + 0.25) / STEPS as f64;
                    for polarization in [Polarization::Te, Polarization::Tm] {
                        let wave = Arrival::new(angle, azimuth, polarization).unwrap();
                        sum += array.ln_cross_section_towards(frequency(k), &wave).exp();
                    }
                }
            }
            let ratio = sum / (4 * STEPS * STEPS) as f64 / array.ln_cross_section(frequency(k)).exp();
            // The midpoint rule, and x and y taken with one mean square: a few parts in a thousand.
            assert!((ratio - 1.0).abs() < 3e-3, "{k}: {ratio}");
        }
    }
}

#[test]
fn a_large_pattern_meets_the_perforated_sheet() {
    // Towards every wave, in step with the sheet of the same holes: edges and the two tables of the depth leave
    // 0.4 dB where the panel is four wavelengths wide and 0.2 dB where it is twelve.
    for pattern in [HolePattern::Square, HolePattern::Hexagonal] {
        for pitch in [3e-3, 5e-3] {
            for wall in [0.0, 1e-3] {
                for (f, tolerance_db) in [(3e9, 0.4), (10e9, 0.2)] {
                    let array = array(grid(pattern, pitch, 120), wall, HoleInteraction::Lattice);
                    let sheet = PerforatedSheet::new(2e-3, pitch, pattern, wall).unwrap();
                    let sheet = Laminate::new(vec![Layer::perforated(sheet)]).unwrap();
                    let Extent::Area { width_m, height_m, .. } = array.extent() else { panic!("no area") };
                    for (angle, polarization) in [
                        (0.0, Polarization::Te),
                        (40.0, Polarization::Te),
                        (40.0, Polarization::Tm),
                        (60.0, Polarization::Tm),
                    ] {
                        let wave = Arrival::new(angle, 20.0, polarization).unwrap();
                        let ours = db(array.ln_cross_section_towards(f, &wave));
                        let lit = 10.0 * (width_m * height_m * angle.to_radians().cos()).log10();
                        let theirs = lit - sheet.shielding_db(f, &PlaneWave::new(angle, polarization).unwrap());
                        assert!(
                            (ours - theirs).abs() < tolerance_db,
                            "{pattern:?} {pitch} {wall} {f:e} {angle} {polarization:?}: {ours} {theirs}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn a_small_array_is_one_opening() {
    let array = array(grid(HolePattern::Square, 3e-3, 3), 1e-3, HoleInteraction::Lattice);
    let alpha = array.polarizability(50e6).unwrap();
    let squares = [alpha.magnetic_along_m3, alpha.magnetic_across_m3, alpha.electric_m3].map(|a| a * a);
    let k = 2.0 * PI * 50e6 / 299_792_458.0;
    let law = 4.0 * k.powi(4) / (9.0 * PI) * squares.iter().sum::<f64>();
    assert!((db(array.ln_cross_section(50e6)) - 10.0 * law.log10()).abs() < 0.01);
    assert!(array.polarizability(10e9).is_none());
}

#[test]
fn parameters_are_rebuilt_by_path() {
    let array = array(grid(HolePattern::Square, 5e-3, 3), 0.0, HoleInteraction::Lattice);
    let paths: Vec<_> = array.parameters().unwrap().into_iter().map(|parameter| parameter.path).collect();
    assert_eq!(paths, ["hole.diameter_m", "hole.wall_thickness_m", "layout.pitch_m", "layout.rows", "layout.columns"]);
    assert_eq!(array.with_parameter("layout.rows", 5.0).unwrap().count(), 15);
    assert_eq!(
        array.with_parameter("hole.diameter_m", 6e-3).unwrap_err().to_string(),
        "`hole.diameter_m` = 0.006 m: must be smaller than `layout.pitch_m` = 0.005 m"
    );
}

#[test]
fn models_say_where_they_hold() {
    let of = |pitch, interaction| array(grid(HolePattern::Square, pitch, 4), 0.0, interaction);
    assert!(of(5e-3, HoleInteraction::Lattice).validity(10e9).holds());
    assert!(!of(2.2e-3, HoleInteraction::Lattice).validity(10e9).holds());
    assert!(!of(5e-3, HoleInteraction::Lattice).validity(80e9).holds());
    assert!(!of(5e-3, HoleInteraction::Incoherent).validity(10e9).holds());
    assert!(of(5e-3, HoleInteraction::Coherent).validity(1e9).holds());
    assert!(!of(5e-3, HoleInteraction::Coherent).validity(20e9).holds());
    assert!("both".parse::<HoleInteraction>().is_err());
}

#[test]
fn holes_that_add_in_amplitude_count_their_own_step_once() {
    let hole = CircularHole::new(5e-3, 1e-3).unwrap();
    let grid = || HoleLayout::grid(HolePattern::Square, 20e-3, 10, 12).unwrap();
    let in_amplitude = |leak: &HoleArray, f: f64| {
        let mut out = [0.0];
        leak.ln_in_amplitude(&[f], &[leak.ln_cross_section(f)], &mut out);
        out[0]
    };
    for interaction in [HoleInteraction::Lattice, HoleInteraction::Incoherent, HoleInteraction::Coherent] {
        let array = HoleArray::new(hole.clone(), grid(), interaction).unwrap();
        for f in [1e6, 100e6, 1e9, 5e9] {
            // 120 holes, each as if it were alone; their neighbours' fields change them by percents.
            let sum = hole.ln_cross_section(f) + 2.0 * 120f64.ln();
            assert!((in_amplitude(&array, f) - sum).abs() < 0.05, "{interaction:?} {f}");
            assert!(in_amplitude(&array, f) > array.ln_cross_section(f) - 1e-6, "{interaction:?} {f}");
        }
    }
    // Small against the wavelength all are in step.
    let array = HoleArray::new(hole, grid(), HoleInteraction::Lattice).unwrap();
    assert!((in_amplitude(&array, 1e6) - array.ln_cross_section(1e6)).abs() < 1e-3);
}

#[cfg(feature = "serde")]
#[test]
fn arrays_come_back_from_their_files_and_nonsense_does_not() {
    let hole = CircularHole::new(5e-3, 1e-3).unwrap();
    let layouts = [
        HoleLayout::grid(HolePattern::Hexagonal, 20e-3, 3, 4).unwrap(),
        HoleLayout::random(12, 0.3, 0.2, 7).unwrap(),
        HoleLayout::places(vec![[0.0, 0.0], [0.1, 0.0]]).unwrap(),
    ];
    for layout in layouts {
        let array = HoleArray::new(hole.clone(), layout, HoleInteraction::Incoherent).unwrap();
        let text = serde_json::to_string(&array).unwrap();
        assert_eq!(serde_json::from_str::<HoleArray>(&text).unwrap(), array, "{text}");
    }
    let text = serde_json::to_string(
        &HoleArray::new(hole, HoleLayout::places(vec![[0.0, 0.0], [0.1, 0.0]]).unwrap(), HoleInteraction::Lattice)
            .unwrap(),
    )
    .unwrap();
    // Two holes that overlap, and a hole of no size.
    for (from, to) in [("0.1", "0.001"), ("\"diameter_m\":0.005", "\"diameter_m\":0.0")] {
        let spoilt = text.replacen(from, to, 1);
        assert_ne!(spoilt, text, "{from} is not in {text}");
        assert!(serde_json::from_str::<HoleArray>(&spoilt).is_err(), "{spoilt}");
    }
}
