//! The room as a whole: sums, limits, requirements and named parameters.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::sync::Arc;

use approx::assert_relative_eq;
use proptest::prelude::*;
use stillroom::enclosure::Opening;
use stillroom::leak::{Leak, Panel, TabulatedLeak};
use stillroom::material::catalogue;
use stillroom::wave::{Incidence, Sheet};
use stillroom::{
    AntennaTest, Enclosure, Error, Exposure, Laminate, Layer, Parameters, PlaneWave, Polarization, Requirement,
};

fn flat_leak(cross_section_m2: f64) -> Arc<dyn Leak> {
    Arc::new(TabulatedLeak::new(vec![1e3, 1e11], vec![cross_section_m2; 2]).unwrap())
}

fn steel_wall() -> Arc<Laminate> {
    Arc::new(Laminate::new(vec![Layer::slab(catalogue::get("steel").unwrap(), 0.5e-3).unwrap()]).unwrap())
}

fn room(openings: Vec<Opening>) -> Enclosure {
    Enclosure::new([4.8, 3.6, 3.0], steel_wall(), openings).unwrap()
}

fn test() -> AntennaTest {
    AntennaTest::new(1.0, 0.5).unwrap()
}

#[test]
fn two_equal_leaks_cost_three_or_six_decibels() {
    let openings =
        vec![Opening::new("left", flat_leak(1e-12), 1).unwrap(), Opening::new("right", flat_leak(1e-12), 1).unwrap()];
    let study = room(openings).study(&[1e9], &test()).unwrap();
    let one = study.shielding_db()[(1, 0)];
    assert_relative_eq!(study.total_db()[0], one - 10.0 * 2f64.log10(), epsilon = 1e-9);
    assert_relative_eq!(study.total_worst_case_db()[0], one - 20.0 * 2f64.log10(), epsilon = 1e-9);
    // Twice the same leak under one name is the same thing.
    let pair = room(vec![Opening::new("both", flat_leak(1e-12), 2).unwrap()]).study(&[1e9], &test()).unwrap();
    assert_relative_eq!(pair.total_db()[0], study.total_db()[0], epsilon = 1e-9);
    assert_relative_eq!(pair.total_worst_case_db()[0], study.total_worst_case_db()[0], epsilon = 1e-9);
}

#[test]
fn the_wall_is_a_sheet_and_keeps_its_own_decibels() {
    let wall = steel_wall();
    let study = room(vec![]).study(&[30e6, 1e9, 18e9], &test()).unwrap();
    for (column, &f) in [30e6, 1e9, 18e9].iter().enumerate() {
        assert_relative_eq!(study.total_db()[column], wall.shielding_db(f, &PlaneWave::normal()), max_relative = 1e-12);
    }
    assert_eq!(study.limiting(), ["wall"; 3]);
}

#[test]
fn bands_and_margins_tell_where_it_falls_short() {
    let window = TabulatedLeak::new(vec![1e6, 1e9, 2e9, 1e10], vec![1e-20, 1e-20, 1e-6, 1e-6]).unwrap();
    let openings = vec![
        Opening::new("window", Arc::new(window), 1).unwrap(),
        Opening::new("pinhole", flat_leak(1e-12), 1).unwrap(),
    ];
    let study = room(openings).study(&[1e8, 5e8, 3e9, 9e9], &test()).unwrap();
    let bands = study.limiting_bands();
    assert_eq!(bands.len(), 2);
    assert_eq!((bands[0].leak.as_str(), bands[1].leak.as_str()), ("pinhole", "window"));
    assert_eq!((bands[1].from_hz, bands[1].to_hz), (3e9, 9e9));
    let asked = Requirement::flat(100.0, 1e8, 5e9).unwrap();
    let margin = study.margin_db(&asked);
    assert!(margin[0] > 0.0 && margin[2] < 0.0);
    assert_eq!(margin[3], f64::INFINITY);
    // The pinhole alone cannot mend what the window lets through; the window can.
    let needed = study.needed_db(&asked);
    assert_eq!(needed[(2, 2)], f64::INFINITY);
    assert!(needed[(1, 2)] > 100.0 && needed[(1, 2)].is_finite());
    assert_eq!(needed[(0, 3)], f64::NEG_INFINITY);
}

#[test]
fn a_leak_raised_to_what_it_needs_meets_the_requirement() {
    let openings = vec![
        Opening::new("window", flat_leak(1e-6), 1).unwrap(),
        Opening::new("pinhole", flat_leak(1e-13), 1).unwrap(),
    ];
    let asked = Requirement::flat(100.0, 1e6, 1e10).unwrap();
    let before = room(openings);
    let study = before.study(&[1e9], &test()).unwrap();
    let missing = study.needed_db(&asked)[(1, 0)] - study.shielding_db()[(1, 0)];
    let after = before.with_parameter("window.scale_db", -missing).unwrap().study(&[1e9], &test()).unwrap();
    assert_relative_eq!(after.margin_db(&asked)[0], 0.0, epsilon = 1e-9);
}

#[test]
fn validity_follows_the_antennas_and_the_table() {
    let narrow = TabulatedLeak::new(vec![1e8, 1e9], vec![1e-12; 2]).unwrap();
    let study =
        room(vec![Opening::new("hatch", Arc::new(narrow), 1).unwrap()]).study(&[1e6, 5e8, 5e9], &test()).unwrap();
    assert_eq!(study.valid().row(0).to_vec(), [false, true, true]);
    assert_eq!(study.valid().row(1).to_vec(), [false, true, false]);
    let limits = study.limits("hatch").unwrap();
    assert!(limits.iter().any(|(f, limit)| *f == 5e9 && limit.model == "tabulated cross-section"));
    assert!(matches!(study.limits("door"), Err(Error::UnknownName { .. })));
}

#[test]
fn an_open_frame_lets_half_its_area_through() {
    // A wall of vacuum: the mean cross-section of an opening of area A, seen from the half-space, is A/2.
    let nothing = Laminate::new(vec![Layer::slab(catalogue::get("vacuum").unwrap(), 1e-3).unwrap()]).unwrap();
    let panel = Panel::new(Arc::new(nothing), 2.0).unwrap();
    assert_relative_eq!(panel.ln_cross_section(1e9).exp(), 1.0, max_relative = 1e-10);
}

#[test]
fn a_metal_panel_average_agrees_with_its_closed_form() {
    let wall = Laminate::new(vec![Layer::film(0.5).unwrap()]).unwrap();
    let panel = Panel::new(Arc::new(wall.clone()), 1.0).unwrap();
    // A film has T_TE = 2/(2 + y/c) and T_TM = 2/(2 + y c), c the cosine, so that the mean of the TM
    // part over c² is (8/y²)(ln(1 + y/2) + 1/(1 + y/2) - 1); the TE part is smooth and summed.
    let y = stillroom::constants::VACUUM_IMPEDANCE / 0.5;
    let half = 1.0 + y / 2.0;
    let tm = 8.0 / (y * y) * (half.ln() + 1.0 / half - 1.0);
    let steps = 200_000;
    let cosines = (0..steps).map(|i| (f64::from(i) + 0.5) / f64::from(steps));
    let te: f64 = cosines.map(|c| 8.0 * c.powi(3) / (2.0 * c + y).powi(2)).sum::<f64>() / f64::from(steps);
    let expected = 0.25 * (te + tm);
    assert_relative_eq!(panel.ln_cross_section(1e9).exp(), expected, max_relative = 1e-8);
    let wave = Incidence::at_cosine(1e9, 0.3);
    assert_relative_eq!(
        wall.transmission(&wave, Polarization::Tm).amplitude().re,
        2.0 / (2.0 + y * 0.3),
        max_relative = 1e-12
    );
}

#[test]
fn names_and_dimensions_are_checked() {
    assert!(matches!(Opening::new("wall", flat_leak(1.0), 1), Err(Error::Reserved { .. })));
    assert!(matches!(Opening::new("a.b", flat_leak(1.0), 1), Err(Error::Reserved { .. })));
    assert!(matches!(Opening::new("", flat_leak(1.0), 1), Err(Error::Reserved { .. })));
    let error = Opening::new("vent", flat_leak(1.0), 0).unwrap_err();
    assert_eq!(error.to_string(), "`vent.count` = 0: must be a whole number, 1 or more");
    let twice = vec![Opening::new("a", flat_leak(1.0), 1).unwrap(), Opening::new("a", flat_leak(1.0), 1).unwrap()];
    assert!(matches!(Enclosure::new([1.0; 3], steel_wall(), twice), Err(Error::DuplicateName { .. })));
    let error = Enclosure::new([1.0, -1.0, 1.0], steel_wall(), vec![]).unwrap_err();
    assert_eq!(error.to_string(), "`interior.width_m` = -1 m: must be positive and finite");
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(AntennaTest::new(bad, 1.0).is_err() && AntennaTest::new(1.0, bad).is_err());
        assert!(PlaneWave::normal().observed_at(bad).is_err());
        assert!(matches!(room(vec![]).study(&[1e6, bad], &test()), Err(Error::AtIndex { index: 1, .. })));
    }
}

#[test]
fn an_unknown_path_lists_the_known_ones() {
    let error =
        room(vec![Opening::new("hatch", flat_leak(1e-9), 3).unwrap()]).with_parameter("hatch.gap_m", 1.0).unwrap_err();
    let Error::UnknownParameter { path, known } = error else { panic!("{error}") };
    assert_eq!(path, "hatch.gap_m");
    assert!(known.contains(&"hatch.count".to_owned()) && known.contains(&"wall.layers.0.thickness_m".to_owned()));
}

#[test]
fn an_empty_study_is_a_study() {
    let study = room(vec![]).study(&[], &test()).unwrap();
    assert!(study.limiting().is_empty() && study.limiting_bands().is_empty());
}

proptest! {
    #[test]
    fn total_is_never_above_the_weakest_leak(a in 1e-20..1e-3f64, b in 1e-20..1e-3f64, f in 1e8..1e10f64) {
        let openings = vec![Opening::new("a", flat_leak(a), 1).unwrap(), Opening::new("b", flat_leak(b), 1).unwrap()];
        let study = room(openings).study(&[f], &test()).unwrap();
        let least = study.shielding_db().iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(study.total_db()[0] <= least + 1e-9);
        prop_assert!(study.total_worst_case_db()[0] <= study.total_db()[0] + 1e-9);
    }

    #[test]
    fn farther_receivers_read_more_shielding_of_a_hole_under_a_plane_wave(d in 0.1..3.0f64, s in 1e-15..1e-6f64) {
        let leak = flat_leak(s);
        let near = PlaneWave::normal().observed_at(d).unwrap().readings(&*leak, &[1e9])[0];
        let far = PlaneWave::normal().observed_at(2.0 * d).unwrap().readings(&*leak, &[1e9])[0];
        prop_assert!((far.shielding_db() - near.shielding_db() - 20.0 * 2f64.log10()).abs() < 1e-9);
    }

    #[test]
    fn a_far_source_is_a_plane_wave(s in 1e-15..1e-6f64) {
        let leak = flat_leak(s);
        let wave = PlaneWave::normal().observed_at(0.5).unwrap().readings(&*leak, &[1e9])[0];
        let antenna = AntennaTest::new(1e6, 0.5).unwrap().readings(&*leak, &[1e9])[0];
        prop_assert!((wave.ln_power - antenna.ln_power).abs() < 1e-5);
    }
}
