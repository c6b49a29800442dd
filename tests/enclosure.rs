//! The room as a whole: sums, limits, requirements and named parameters.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::sync::Arc;

use approx::assert_relative_eq;
use proptest::prelude::*;
use stillroom::enclosure::{Reader, Reading, Site};
use stillroom::leak::{Leak, Panel, TabulatedLeak};
use stillroom::material::catalogue;
use stillroom::wave::{Incidence, Sheet};
use stillroom::{
    AntennaTest, Enclosure, Error, Exposure, Laminate, Layer, LoopArrangement, LoopTest, Opening, Parameters,
    PlaneWave, Polarization, Requirement,
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
fn a_change_of_one_part_leaves_the_others_as_they_are() {
    let hatch = || TabulatedLeak::new(vec![1e6, 1e9], vec![1e-12, 1e-10]).unwrap();
    let openings = ["hatch", "hatch 2"].map(|name| Opening::new(name, hatch()).unwrap());
    let steel = Layer::Slab { material: catalogue::get("steel").unwrap(), thickness_m: 1e-3 };
    let wall = Arc::new(Laminate::new(vec![steel]).unwrap());
    let room = Enclosure::new([4.0, 3.0, 2.5], wall, openings.to_vec()).unwrap();
    let leak = |room: &Enclosure, place: usize| Arc::clone(room.openings()[place].leak());

    let thicker = room.with_parameter("wall.layers.0.thickness_m", 2e-3).unwrap();
    assert!((0..2).all(|place| Arc::ptr_eq(&leak(&room, place), &leak(&thicker, place))));
    let worse = room.with_parameters(&[("hatch.scale_db", -3.0), ("hatch 2.count", 2.0)]).unwrap();
    assert!(Arc::ptr_eq(room.wall().sheet(), worse.wall().sheet()));
    assert!(!Arc::ptr_eq(&leak(&room, 0), &leak(&worse, 0)));
    assert_eq!((worse.openings()[0].count(), worse.openings()[1].count()), (1, 2));
}

#[test]
fn two_equal_leaks_cost_three_or_six_decibels() {
    let openings =
        vec![Opening::shared("left", flat_leak(1e-12)).unwrap(), Opening::shared("right", flat_leak(1e-12)).unwrap()];
    let study = room(openings).study(&[1e9], &test()).unwrap();
    let one = study.shielding_db()[(1, 0)];
    assert_relative_eq!(study.total_db()[0], one - 10.0 * 2f64.log10(), epsilon = 1e-9);
    assert_relative_eq!(study.total_worst_case_db()[0], one - 20.0 * 2f64.log10(), epsilon = 1e-9);
    // Twice the same leak under one name is the same thing.
    let pair = room(vec![Opening::shared("both", flat_leak(1e-12)).unwrap().times(2).unwrap()])
        .study(&[1e9], &test())
        .unwrap();
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
    let openings = vec![Opening::new("window", window).unwrap(), Opening::shared("pinhole", flat_leak(1e-12)).unwrap()];
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
        Opening::shared("window", flat_leak(1e-6)).unwrap(),
        Opening::shared("pinhole", flat_leak(1e-13)).unwrap(),
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
    let study = room(vec![Opening::new("hatch", narrow).unwrap()]).study(&[1e6, 5e8, 5e9], &test()).unwrap();
    assert_eq!(study.valid().row(0).to_vec(), [false, true, true]);
    assert_eq!(study.valid().row(1).to_vec(), [false, true, false]);
    let limits = study.limits("hatch").unwrap();
    assert!(limits.iter().any(|limit| limit.from_hz == 5e9 && limit.limit.model == "tabulated cross-section"));
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

fn film_window(area_m2: f64) -> Arc<dyn Leak> {
    let film = Laminate::new(vec![Layer::film(10.0).unwrap()]).unwrap();
    Arc::new(Panel::new(Arc::new(film), area_m2).unwrap())
}

fn window_db(area_m2: f64, exposure: &dyn Exposure, frequency_hz: f64) -> f64 {
    let openings = vec![Opening::shared("window", film_window(area_m2)).unwrap()];
    room(openings).study(&[frequency_hz], exposure).unwrap().shielding_db()[(1, 0)]
}

/// Film of 10 ohm: 20 lg(1 + 376.7/20) = 25.95 dB. A large window reads that; one small against the Fresnel zone collects
/// A of the power density, passes |T|² of it, and sends it on with the gain 4πA/λ² of an aperture (the chain of powers of
/// two antennas, C. A. Balanis, Antenna Theory, sec. 2.17, from memory).
#[test]
fn a_window_counts_by_its_area() {
    let sheet_db = 20.0 * (1.0 + stillroom::constants::VACUUM_IMPEDANCE / 20.0).log10();
    assert_relative_eq!(window_db(1.0, &test(), 1e9), sheet_db, epsilon = 1e-9);
    let (d1, d2, area_m2, wavelength_m) = (10.0_f64, 5.0_f64, 0.25, 299_792_458.0 / 1e9);
    let density_at_window = 1.0 / (4.0 * std::f64::consts::PI * d1 * d1);
    let gain = 4.0 * std::f64::consts::PI * area_m2 / (wavelength_m * wavelength_m);
    let inside = density_at_window * area_m2 * gain / (4.0 * std::f64::consts::PI * d2 * d2);
    let without = 1.0 / (4.0 * std::f64::consts::PI * (d1 + d2).powi(2));
    let expected = sheet_db - 10.0 * (inside / without).log10();
    let far = AntennaTest::new(d1, d2).unwrap();
    assert_relative_eq!(window_db(area_m2, &far, 1e9), expected, epsilon = 1e-9);
    // A square centimetre passes tens of dB less, and says that its frame cuts off more still.
    assert!(window_db(1e-4, &test(), 1e9) > sheet_db + 25.0);
    let small = film_window(1e-4);
    assert!(
        !test().validity(&Site::of(&*small), 1e9).holds()
            && test().validity(&Site::of(&*film_window(1.0)), 1e9).holds()
    );
    assert!(!Site::of(&*small).is_wall());
}

/// Between loops: the dipole of the open hole where that is little, the whole sheet where the window is wide; never more
/// than either.
#[test]
fn a_window_between_loops_passes_no_more_than_its_hole_or_its_sheet() {
    let loops = LoopTest::new(LoopArrangement::Coplanar, 0.1, 0.1, 0.3, 0.3).unwrap();
    let film = Laminate::new(vec![Layer::film(10.0).unwrap()]).unwrap();
    let sheet_db = loops.shielding_db(&film, &[10e6]).unwrap()[0];
    assert_relative_eq!(window_db(9.0, &loops, 10e6), sheet_db, epsilon = 1e-9);
    // 4 α z³/(4π d⁶) with α = 0.259 of the side's cube
    let hole_db = -20.0 * (0.259 * 1e-6 * 0.6_f64.powi(3) / (std::f64::consts::PI * 0.3_f64.powi(6))).log10();
    assert!(hole_db > sheet_db);
    assert_relative_eq!(window_db(1e-4, &loops, 10e6), hole_db, epsilon = 1e-9);
    assert!(loops.shielding_db(&film, &[10e6]).unwrap()[0] <= window_db(1e-2, &loops, 10e6));
    assert!(Exposure::validity(&loops, &Site::of(&*film_window(1e-2)), 10e6).holds());
}

/// A leak that answers what it is told to.
#[derive(Debug, Clone, PartialEq)]
struct Told {
    ln_cross_section: f64,
    opening: bool,
    inside: bool,
}

impl stillroom::Rebuild for Told {
    fn rebuild(&self, _: &mut stillroom::parameter::Knobs<'_>) -> stillroom::Result<Self> {
        Ok(self.clone())
    }
}

impl Leak for Told {
    fn ln_cross_section(&self, _: f64) -> f64 {
        self.ln_cross_section
    }
    fn is_opening(&self) -> bool {
        self.opening
    }
    fn validity(&self, _: f64) -> stillroom::Validity {
        stillroom::Validity::given("test", "inside", self.inside, "it is made up")
    }
}

fn with_pinhole(part: Told) -> Enclosure {
    room(vec![Opening::shared("pinhole", flat_leak(1e-12)).unwrap(), Opening::new("part", part).unwrap()])
}

#[test]
fn a_leak_without_a_number_is_never_valid() {
    let unknown = Told { ln_cross_section: f64::NAN, opening: true, inside: true };
    let study = with_pinhole(unknown).study(&[1e9], &test()).unwrap();
    assert_eq!(study.valid().column(0).to_vec(), [true, true, false]);
    assert!(!study.total_valid()[0] && study.total_db()[0].is_nan());
    assert_eq!(study.limiting(), ["part"]);
    assert!(study.limits("part").unwrap()[0].to_string().contains("not a number"));
}

/// The whole is as valid as what contributes: a part outside its domain counts down to 40 dB below.
#[test]
fn a_total_is_valid_where_what_contributes_is() {
    let whole = |below_db: f64, inside: bool| {
        let ln_cross_section = 1e-12_f64.ln() - below_db / 10.0 * std::f64::consts::LN_10;
        let part = Told { ln_cross_section, opening: true, inside };
        let study = with_pinhole(part).study(&[1e9], &test()).unwrap();
        assert_eq!(study.valid()[(2, 0)], inside);
        study.total_valid()[0]
    };
    assert!(whole(0.0, true) && whole(39.0, true));
    assert!(!whole(-20.0, false) && !whole(0.0, false) && !whole(39.0, false));
    assert!(whole(40.1, false));
    // Two that are each just below count together.
    let part = Told { ln_cross_section: 1e-12_f64.ln() - 4.1 * std::f64::consts::LN_10, opening: true, inside: false };
    let pair = room(vec![
        Opening::shared("pinhole", flat_leak(1e-12)).unwrap(),
        Opening::new("pair", part).unwrap().times(2).unwrap(),
    ]);
    assert!(!pair.study(&[1e9], &test()).unwrap().total_valid()[0]);
    // What a test leaves out could be anything.
    let loops = LoopTest::new(LoopArrangement::Coplanar, 0.1, 0.1, 0.3, 0.3).unwrap();
    let window = Opening::shared("window", film_window(1e-2)).unwrap();
    assert!(room(vec![window.clone()]).study(&[1e6], &loops).unwrap().total_valid()[0]);
    let wire = Told { ln_cross_section: -30.0, opening: false, inside: true };
    let left_out = room(vec![window, Opening::new("wire", wire).unwrap()]);
    let study = left_out.study(&[1e6], &loops).unwrap();
    assert_eq!(study.shielding_db()[(2, 0)], f64::INFINITY);
    assert!(!study.total_valid()[0]);
}

#[test]
fn a_masked_study_holds_no_number_outside_its_domain() {
    let part = Told { ln_cross_section: 1e-11_f64.ln(), opening: true, inside: false };
    let study = with_pinhole(part).study(&[1e9, 2e9], &test()).unwrap();
    let masked = study.masked();
    for (db, &valid) in masked.shielding_db().iter().zip(study.valid()) {
        assert_eq!(db.is_nan(), !valid);
    }
    assert!(masked.total_db().iter().chain(masked.total_worst_case_db().iter()).all(|db| db.is_nan()));
    assert!(masked.margin_db(&Requirement::flat(60.0, 1e8, 1e10).unwrap()).iter().all(|db| db.is_nan()));
    assert_eq!(masked.limiting(), study.limiting());
    // Where all is inside, nothing changes.
    let sound = room(vec![Opening::shared("pinhole", flat_leak(1e-12)).unwrap()]).study(&[1e9], &test()).unwrap();
    assert_eq!(sound.masked(), sound);
}

#[test]
fn names_and_dimensions_are_checked() {
    assert!(matches!(Opening::shared("wall", flat_leak(1.0)), Err(Error::Reserved { .. })));
    assert!(matches!(Opening::shared("a.b", flat_leak(1.0)), Err(Error::Reserved { .. })));
    assert!(matches!(Opening::shared("", flat_leak(1.0)), Err(Error::Reserved { .. })));
    let error = Opening::shared("vent", flat_leak(1.0)).unwrap().times(0).unwrap_err();
    assert_eq!(error.to_string(), "`vent.count` = 0: must be a whole number, 1 or more");
    let twice = vec![Opening::shared("a", flat_leak(1.0)).unwrap(), Opening::shared("a", flat_leak(1.0)).unwrap()];
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
    let error = room(vec![Opening::shared("hatch", flat_leak(1e-9)).unwrap().times(3).unwrap()])
        .with_parameter("hatch.gap_m", 1.0)
        .unwrap_err();
    let Error::UnknownParameter { path, known } = error else { panic!("{error}") };
    assert_eq!(path, "hatch.gap_m");
    assert!(known.contains(&"hatch.count".to_owned()) && known.contains(&"wall.layers.0.thickness_m".to_owned()));
}

/// An exposure that fills the first places only, or is told to fill more than there are.
#[derive(Debug)]
struct Sparing(usize);

struct First(usize);

impl Exposure for Sparing {
    fn prepare<'a>(&'a self, room: Option<&'a Enclosure>, _: &'a [f64]) -> Box<dyn Reader + 'a> {
        assert_eq!(room.unwrap().interior_m(), [4.8, 3.6, 3.0]);
        Box::new(First(self.0))
    }
    fn validity(&self, _: &Site<'_>, _: f64) -> stillroom::Validity {
        stillroom::Validity::Holds
    }
}

impl Reader for First {
    fn read(&self, site: &Site<'_>, out: &mut [Reading]) {
        let ln_power = -if site.is_wall() { 40.0 } else { 20.0 };
        let reading = Reading { ln_power, ln_worst_power: ln_power };
        out.iter_mut().take(self.0).for_each(|slot| *slot = reading.times(site.count()));
    }
}

#[test]
fn an_exposure_that_leaves_places_empty_makes_them_unknown() {
    let f = [1e8, 1e9, 2e9];
    let hatch = Opening::shared("hatch", flat_leak(1e-12)).unwrap().times(4).unwrap();
    for told in 0..5 {
        let study = room(vec![hatch.clone()]).study(&f, &Sparing(told)).unwrap();
        for column in 0..f.len() {
            let known = column < told;
            assert_eq!(study.total_db()[column].is_finite(), known);
            assert_eq!(study.total_db()[column].is_nan(), !known);
            assert_eq!(study.total_valid()[column], known);
            assert_eq!(study.valid().column(column).to_vec(), [known; 2]);
        }
        if told > 0 {
            // Four alike: 6 dB in power, 12 dB in amplitude.
            let one = 20.0 * 10.0 / std::f64::consts::LN_10;
            assert_relative_eq!(study.shielding_db()[(1, 0)], one - 20.0 * 2f64.log10(), epsilon = 1e-9);
            assert_relative_eq!(study.worst_case_db()[(1, 0)], one - 40.0 * 2f64.log10(), epsilon = 1e-9);
        }
    }
}

#[test]
fn limits_are_told_as_runs_of_frequency() {
    let narrow = TabulatedLeak::new(vec![1e8, 1e9], vec![1e-12; 2]).unwrap();
    let f: Vec<f64> = (0..1000).map(|i| 1e6 * 1e4f64.powf(f64::from(i) / 999.0)).collect();
    let study = room(vec![Opening::new("hatch", narrow).unwrap()]).study(&f, &test()).unwrap();
    let runs = study.limits("hatch").unwrap();
    // Below and above its table; the antennas too near below 95 MHz.
    assert_eq!(runs.len(), 3);
    assert_eq!((runs[0].from_hz, runs[2].to_hz), (f[0], f[999]));
    let table: Vec<_> = runs.iter().filter(|run| run.limit.model == "tabulated cross-section").collect();
    assert!(table[0].to_hz < 1e8 && table[1].from_hz > 1e9 && table[1].limit.value == f[999]);
    assert!(table[0].to_string().starts_with("1 MHz to 99."), "{}", table[0]);
    // Every number outside its domain lies in a run.
    for (column, &f) in f.iter().enumerate() {
        let told = runs.iter().any(|run| run.from_hz <= f && f <= run.to_hz);
        assert_eq!(told, !study.valid()[(1, column)]);
    }
}

/// A leak that has a path of the opening's, or one path twice.
#[derive(Debug, Clone, PartialEq)]
struct Numbered([&'static str; 2]);

impl stillroom::Rebuild for Numbered {
    fn rebuild(&self, knobs: &mut stillroom::parameter::Knobs<'_>) -> stillroom::Result<Self> {
        self.0.iter().for_each(|name| {
            knobs.value(name, "", 1.0, stillroom::parameter::Domain::FINITE);
        });
        Ok(self.clone())
    }
}

impl Leak for Numbered {
    fn ln_cross_section(&self, _: f64) -> f64 {
        0.0
    }
    fn validity(&self, _: f64) -> stillroom::Validity {
        stillroom::Validity::Holds
    }
}

#[test]
fn a_path_stands_for_one_number() {
    for names in [["count", "width_m"], ["width_m", "width_m"]] {
        let error = Opening::new("vent", Numbered(names)).unwrap_err();
        let Error::DuplicateName { name, .. } = error else { panic!("{error}") };
        assert!(name == "vent.count" || name == "vent.width_m", "{name}");
    }
    assert!(Opening::new("vent", Numbered(["width_m", "height_m"])).is_ok());
}

#[test]
fn rooms_are_edited_part_by_part() {
    let opening = |name: &str, area_m2: f64| Opening::shared(name, flat_leak(area_m2)).unwrap();
    let before = room(vec![opening("left", 1e-12), opening("right", 1e-13)]);
    let names = |room: &Enclosure| room.sites().map(|site| site.name().to_owned()).collect::<Vec<_>>();
    let more = before.clone().with_opening(opening("top", 1e-14));
    assert_eq!(names(&more), ["wall", "left", "right", "top"]);
    let better = more.clone().with_opening(opening("left", 1e-15).times(3).unwrap());
    assert_eq!(names(&better), names(&more));
    assert_eq!(better.openings()[0].count(), 3);
    assert!(Arc::ptr_eq(better.openings()[1].leak(), before.openings()[1].leak()));
    let less = better.clone().without("left").unwrap();
    assert_eq!(names(&less), ["wall", "right", "top"]);
    assert!(matches!(less.clone().without("left"), Err(Error::UnknownName { .. })));
    assert!(less.clone().without("wall").is_err());
    let film: Arc<dyn Sheet> = Arc::new(Laminate::new(vec![Layer::film(0.5).unwrap()]).unwrap());
    let other = less.with_wall(film.clone()).unwrap();
    assert!(Arc::ptr_eq(other.wall().sheet(), &film));
    assert_eq!(other.wall().area_m2(), before.wall().area_m2());
}

#[test]
fn an_empty_study_is_a_study() {
    let study = room(vec![]).study(&[], &test()).unwrap();
    assert!(study.limiting().is_empty() && study.limiting_bands().is_empty());
}

proptest! {
    #[test]
    fn total_is_never_above_the_weakest_leak(a in 1e-20..1e-3f64, b in 1e-20..1e-3f64, f in 1e8..1e10f64) {
        let openings = vec![Opening::shared("a", flat_leak(a)).unwrap(), Opening::shared("b", flat_leak(b)).unwrap()];
        let study = room(openings).study(&[f], &test()).unwrap();
        let least = study.shielding_db().iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(study.total_db()[0] <= least + 1e-9);
        prop_assert!(study.total_worst_case_db()[0] <= study.total_db()[0] + 1e-9);
    }

    #[test]
    fn farther_receivers_read_more_shielding_of_a_hole_under_a_plane_wave(d in 0.1..3.0f64, s in 1e-15..1e-6f64) {
        let leak = flat_leak(s);
        let near = PlaneWave::normal().observed_at(d).unwrap().readings(&Site::of(&*leak), &[1e9])[0];
        let far = PlaneWave::normal().observed_at(2.0 * d).unwrap().readings(&Site::of(&*leak), &[1e9])[0];
        prop_assert!((far.shielding_db() - near.shielding_db() - 20.0 * 2f64.log10()).abs() < 1e-9);
    }

    #[test]
    fn a_far_source_is_a_plane_wave(s in 1e-15..1e-6f64) {
        let leak = flat_leak(s);
        let wave = PlaneWave::normal().observed_at(0.5).unwrap().readings(&Site::of(&*leak), &[1e9])[0];
        let antenna = AntennaTest::new(1e6, 0.5).unwrap().readings(&Site::of(&*leak), &[1e9])[0];
        prop_assert!((wave.ln_power - antenna.ln_power).abs() < 1e-5);
    }
}

#[cfg(feature = "serde")]
mod files {
    use stillroom::aperture::{CircularHole, HoleArray, HoleInteraction, HoleLayout};
    use stillroom::enclosure::{Band, StandardExposure, register_leak};
    use stillroom::filter::{Capacitor, Conductor, Element, FilteredLine, Inductor, Ladder, Termination};
    use stillroom::joint::{ContactLine, Door, GasketLine, Seam, TransferImpedance};
    use stillroom::sheet::HolePattern;
    use stillroom::waveguide::{Cell, FoilPanel, FrameJoint, Guide, HoneycombPanel, Tube, UnbondedNodes};
    use stillroom::{RodTest, Study};

    use super::*;

    fn design() -> Enclosure {
        let seam = Seam::new(20.0, 0.1, 20e-6, 1.0 / 30.0).unwrap();
        let sill = GasketLine::new(0.9, 1e-3, vec![TransferImpedance::gasket(1e-3, 0.1e-9).unwrap(); 2]).unwrap();
        let jambs = ContactLine::new(5.1, stillroom::joint::FingerRow::new(5e-3).unwrap(), 0.5e-3).unwrap();
        let door = Door::new(vec![("sill", sill.into()), ("jambs", jambs.into())]).unwrap();
        let hole = CircularHole::new(6e-3, 1e-3).unwrap();
        let layout = HoleLayout::grid(HolePattern::Square, 12e-3, 5, 4).unwrap();
        let holes = HoleArray::new(hole, layout, HoleInteraction::Lattice).unwrap();
        let vent = HoneycombPanel::new(Cell::hexagonal(4.8e-3, 0.1e-3).unwrap(), 25e-3, (0.3, 0.3)).unwrap();
        let framed = vent.clone().with_frame(FrameJoint::new(0.1e-3, 1e-5, 1e-12).unwrap());
        let foil = FoilPanel::new(framed, UnbondedNodes::new(10e-6, 3.5, 3.5e7).unwrap()).unwrap();
        let ladder = Ladder::new(vec![
            Element::Series(Inductor::new(100e-6).unwrap().into()),
            Element::Shunt(Capacitor::new(1e-6).unwrap().into()),
        ]);
        let end = |length_m: f64| Conductor::new(length_m, Termination::impedance(50.0).unwrap()).unwrap();
        let line = FilteredLine::new(ladder.unwrap(), end(10.0), end(3.0));
        let film: Arc<dyn Sheet> = Arc::new(Laminate::new(vec![Layer::film(10.0).unwrap()]).unwrap());
        room(vec![
            // Not in alphabetical order.
            Opening::new("seams", seam).unwrap().times(3).unwrap(),
            Opening::new("door", door).unwrap(),
            Opening::new("holes", holes).unwrap(),
            Opening::new("vent", vent).unwrap().times(2).unwrap(),
            Opening::new("foil", foil).unwrap(),
            Opening::new("tube", Tube::new(Guide::circular(10e-3).unwrap(), 50e-3).unwrap()).unwrap(),
            Opening::new("a window", Panel::new(film, 1.0 / 3.0).unwrap()).unwrap(),
            Opening::new("mains", line).unwrap(),
            Opening::shared("hatch", flat_leak(1e-300)).unwrap(),
        ])
    }

    #[test]
    fn a_design_comes_back_from_json_and_toml_text() {
        let room = design();
        let json = serde_json::to_string(&room).unwrap();
        assert_eq!(serde_json::from_str::<Enclosure>(&json).unwrap(), room);
        let toml = toml::to_string(&room).unwrap();
        assert_eq!(toml::from_str::<Enclosure>(&toml).unwrap(), room);
        // Names of numbers are their paths.
        let value: serde_json::Value = serde_json::from_str(&json).unwrap();
        let paths = ["interior.width_m", "hatch.scale_db", "seams.count", "a window.area_m2", "tube.length_m"];
        for path in paths {
            let found = value.pointer(&format!("/{}", path.replace('.', "/"))).and_then(serde_json::Value::as_f64);
            assert_eq!(found, Some(room.parameter(path).unwrap()), "{path}");
        }
        for opening in room.openings() {
            let text = serde_json::to_string(opening).unwrap();
            assert_eq!(&serde_json::from_str::<Opening>(&text).unwrap(), opening);
        }
    }

    fn fault(change: impl Fn(&mut serde_json::Value)) -> String {
        let mut value = serde_json::to_value(design()).unwrap();
        change(&mut value);
        serde_json::from_value::<Enclosure>(value).unwrap_err().to_string()
    }

    #[test]
    fn faults_of_a_file_are_told_with_their_path() {
        let told = fault(|file| file["tube"]["length_m"] = (-1.0).into());
        assert_eq!(told, "`tube.length_m` = -1 m: must be from 1e-10 to 1e7");
        let told = fault(|file| file["a window"]["sheet"]["kind"] = "glass".into());
        assert!(told.starts_with("`a window.sheet.kind` = \"glass\": must be one of laminate"), "{told}");
        let told = fault(|file| file["hatch"]["values_m2"][1] = 0.0.into());
        assert!(told.starts_with("`hatch.values_m2[1]` = 0 m2: must be positive"), "{told}");
        let told = fault(|file| file["hatch"]["colour"] = 1.into());
        assert!(told.starts_with("`hatch") && told.contains("colour"), "{told}");
        let told = fault(|file| file["vent"]["count"] = 0.into());
        assert_eq!(told, "`vent.count` = 0: must be a whole number, 1 or more");
        assert!(fault(|file| file["vent"]["count"] = 1.5.into()).starts_with("`vent.count` = 1.5: must be"));
        let told = fault(|file| file["interior"]["width_m"] = (-1.0).into());
        assert_eq!(told, "`interior.width_m` = -1 m: must be positive and finite");
        assert!(fault(|file| drop(file["door"].as_object_mut().unwrap().remove("kind"))).starts_with("`door.kind`"));
        assert!(fault(|file| drop(file.as_object_mut().unwrap().remove("wall"))).contains("wall"));
        let twice = "{\"interior\": {\"length_m\": 1, \"width_m\": 1, \"height_m\": 1}, \"interior\": {}}";
        assert!(serde_json::from_str::<Enclosure>(twice).unwrap_err().to_string().contains("given twice"));
    }

    /// A leak of one's own.
    #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
    struct Own {
        area_m2: f64,
    }

    impl stillroom::Rebuild for Own {
        fn rebuild(&self, knobs: &mut stillroom::parameter::Knobs<'_>) -> stillroom::Result<Self> {
            Ok(Self { area_m2: knobs.value("area_m2", "m2", self.area_m2, stillroom::parameter::Domain::FINITE) })
        }
    }

    impl Leak for Own {
        fn ln_cross_section(&self, _: f64) -> f64 {
            self.area_m2.ln()
        }
        fn validity(&self, _: f64) -> stillroom::Validity {
            stillroom::Validity::Holds
        }
    }

    #[test]
    fn kinds_of_ones_own_are_registered() {
        let own = room(vec![Opening::new("own", Own { area_m2: 0.1 }).unwrap()]);
        assert!(serde_json::to_string(&own).unwrap_err().to_string().contains("no registered kind"));
        register_leak::<Own>("own_part").unwrap();
        let text = serde_json::to_string(&own).unwrap();
        assert!(text.contains("\"kind\":\"own_part\""), "{text}");
        assert_eq!(serde_json::from_str::<Enclosure>(&text).unwrap(), own);
        assert!(matches!(register_leak::<Own>("own_part"), Err(Error::DuplicateName { .. })));
        assert!(matches!(register_leak::<Own>("door"), Err(Error::DuplicateName { .. })));
    }

    #[test]
    fn a_study_is_kept_with_its_numbers_and_its_version() {
        let unknown = Told { ln_cross_section: f64::NAN, opening: true, inside: false };
        let study = with_pinhole(unknown).study(&[1e6, 1e9, 2e9], &test()).unwrap();
        assert!(study.total_db()[0].is_nan());
        for study in [study.masked(), study] {
            let text = serde_json::to_string(&study).unwrap();
            assert_eq!(serde_json::from_str::<Study>(&text).unwrap(), study);
            assert_eq!(study.version(), env!("CARGO_PKG_VERSION"));
            // Of another version: it is read, and says so.
            let mut other: serde_json::Value = serde_json::from_str(&text).unwrap();
            other["version"] = "0.0.1".into();
            other["total_db"][1] = 12.5.into();
            let other: Study = serde_json::from_value(other).unwrap();
            assert_eq!((other.version(), other.total_db()[1]), ("0.0.1", 12.5));
            assert_ne!(other, study);
            // Tables that do not fit are refused.
            let mut short: serde_json::Value = serde_json::from_str(&text).unwrap();
            short["shielding_db"].as_array_mut().unwrap().pop();
            assert!(serde_json::from_value::<Study>(short).unwrap_err().to_string().contains("shielding_db"));
            let mut astray: serde_json::Value = serde_json::from_str(&text).unwrap();
            astray["limiting"][0] = 7.into();
            assert!(serde_json::from_value::<Study>(astray).unwrap_err().to_string().contains("limiting[0]"));
        }
        let bands: Vec<Band> = room(vec![]).study(&[1e9], &test()).unwrap().limiting_bands();
        assert!(serde_json::to_string(&bands).unwrap().contains("\"leak\":\"wall\""));
    }

    #[test]
    fn exposures_and_requirements_are_kept() {
        let tests: [StandardExposure; 4] = [
            test().into(),
            PlaneWave::normal().observed_at(0.5).unwrap().into(),
            LoopTest::new(LoopArrangement::Coplanar, 0.1, 0.1, 0.3, 0.3).unwrap().into(),
            RodTest::new(0.1, 0.0, 0.3, 0.3).unwrap().into(),
        ];
        let kinds = ["antenna_test", "plane_wave", "loop_test", "rod_test"];
        for (test, kind) in tests.into_iter().zip(kinds) {
            let text = serde_json::to_string(&test).unwrap();
            assert!(text.contains(&format!("\"kind\":\"{kind}\"")), "{text}");
            assert_eq!(serde_json::from_str::<StandardExposure>(&text).unwrap(), test);
            assert_eq!(toml::from_str::<StandardExposure>(&toml::to_string(&test).unwrap()).unwrap(), test);
        }
        let bad = "{\"kind\": \"antenna_test\", \"outside_m\": -1.0, \"inside_m\": 1.0}";
        let told = serde_json::from_str::<StandardExposure>(bad).unwrap_err().to_string();
        assert!(told.contains("`outside_m` = -1 m: must be positive"), "{told}");
        let asked = Requirement::new(vec![(14e3, 60.0), (1e6, 100.0), (18e9, 100.0)]).unwrap();
        assert_eq!(toml::from_str::<Requirement>(&toml::to_string(&asked).unwrap()).unwrap(), asked);
    }
}
