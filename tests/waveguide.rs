//! Guides, tubes and honeycomb panels from the outside: properties that must hold whatever the numbers.

#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stillroom::leak::Leak;
use stillroom::waveguide::{Bond, Cell, CoaxialGuide, Guide, HoneycombPanel, Rod, ThroughWire, Tube, rule};
use stillroom::{Error, Parameters, Polarization};

fn guides() -> impl Strategy<Value = Guide> {
    let size = 1e-3..0.5_f64;
    prop_oneof![
        size.clone().prop_map(|d| Guide::circular(d).unwrap()),
        (size.clone(), 0.2..0.6_f64).prop_map(|(w, share)| Guide::rectangular(w, w * share).unwrap()),
        size.prop_map(|w| Guide::hexagonal(w).unwrap()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn waves_decay(guide in guides(), ratio in 1e-6..10.0_f64, loss in 0.0..0.1_f64) {
        let guide = guide.filled(2.5, loss).unwrap();
        let gamma = guide.propagation_per_m(ratio * guide.cutoff_hz());
        prop_assert!(gamma.re >= 0.0 && gamma.im >= 0.0, "{gamma}");
    }

    #[test]
    fn below_cutoff_longer_is_tighter_and_higher_is_leakier(guide in guides(), ratio in 0.01..0.9_f64) {
        let f = ratio * guide.cutoff_hz();
        let width = guide.shape().width_m();
        let sigma = |widths: f64, f: f64| Tube::new(guide, widths * width).unwrap().ln_cross_section(f);
        prop_assert!(sigma(4.0, f) < sigma(3.0, f));
        prop_assert!(sigma(4.0, f) < sigma(4.0, 1.02 * f));
        // One more width costs α·w exactly once the far end is out of sight.
        let nepers = 2.0 * width * guide.propagation_per_m(f).re;
        prop_assert!((sigma(8.0, f) - sigma(9.0, f) - nepers).abs() < 1e-4 * nepers + 1e-6);
    }

    #[test]
    fn cross_section_scales_with_size(guide in guides(), ratio in 0.01..3.0_f64, factor in 0.1..10.0_f64) {
        let f = ratio * guide.cutoff_hz();
        let tube = Tube::new(guide, 3.0 * guide.shape().width_m()).unwrap();
        let larger: Vec<_> = tube.parameters().unwrap().iter().filter(|p| p.unit == "m").map(|p| (p.path.clone(), p.value * factor)).collect();
        let changes: Vec<_> = larger.iter().map(|(path, value)| (path.as_str(), *value)).collect();
        let larger = tube.with_parameters(&changes).unwrap();
        let difference = larger.ln_cross_section(f / factor) - tube.ln_cross_section(f) - 2.0 * factor.ln();
        prop_assert!(difference.abs() < 1e-6, "{difference}");
    }

    #[test]
    fn a_rod_never_helps(diameter in 0.3..0.9_f64, permittivity in 1.0..6.0_f64, ratio in 0.05..0.95_f64) {
        let guide = Guide::circular(6e-3).unwrap();
        let empty = Tube::new(guide, 36e-3).unwrap();
        let fed = empty.clone().with_rod(Rod::new(diameter * 6e-3, permittivity).unwrap()).unwrap();
        let f = ratio * fed.cutoff_hz();
        prop_assert!(fed.ln_cross_section(f) >= empty.ln_cross_section(f) - 1e-5);
        prop_assert!(fed.cutoff_hz() <= empty.cutoff_hz());
    }

    #[test]
    fn rods_lie_between_the_empty_and_the_filled_tube(
        share in 0.02..0.98_f64, permittivity in 1.0..6.0_f64, loss in 0.0..0.1_f64, ratio in 0.05..0.95_f64,
    ) {
        let guide = Guide::circular(6e-3).unwrap();
        let fed = |guide: Guide, rod: Option<Rod>| {
            let tube = Tube::new(guide, 36e-3).unwrap();
            rod.map_or(Ok(tube.clone()), |rod| tube.with_rod(rod)).unwrap()
        };
        let rod = |share: f64| Rod::new(share * 6e-3, permittivity).unwrap().lossy(loss).unwrap();
        let (empty, filled) = (fed(guide, None), fed(guide.filled(permittivity, loss).unwrap(), None));
        let tube = fed(guide, Some(rod(share)));
        let f = ratio * filled.cutoff_hz();
        // HE11 alone: of TM0 the filled tube is no bound.
        let db = |tube: &Tube| tube.dominant_attenuation_db(f);
        prop_assert!(db(&filled) <= db(&tube) * (1.0 + 1e-6) && db(&tube) <= db(&empty) * (1.0 + 1e-6));
        prop_assert!(filled.cutoff_hz() <= tube.cutoff_hz() * (1.0 + 1e-6));
        // Thin and thick enough it is the one or the other.
        let (thin, thick) = (fed(guide, Some(rod(1e-3))), fed(guide, Some(rod(1.0 - 1e-6))));
        prop_assert!((db(&thin) / db(&empty) - 1.0).abs() < 1e-4, "{} {}", db(&thin), db(&empty));
        prop_assert!((db(&thick) / db(&filled) - 1.0).abs() < 1e-3, "{} {}", db(&thick), db(&filled));
    }

    #[test]
    fn a_rod_that_stands_out_never_helps(
        share in 0.05..0.95_f64, permittivity in 1.0..80.0_f64, outside in 0.0..50e-3_f64, inside in 0.0..50e-3_f64, ratio in 0.01..0.9_f64,
    ) {
        let tube = Tube::new(Guide::circular(6e-3).unwrap(), 36e-3).unwrap();
        let rod = Rod::new(share * 6e-3, permittivity).unwrap();
        let flush = tube.clone().with_rod(rod).unwrap();
        let fed = |outside: f64| tube.clone().with_rod(rod.standing_out(outside, inside).unwrap()).unwrap();
        let f = ratio * flush.cutoff_hz();
        let [none, some, more] = [flush, fed(outside), fed(2.0 * outside)].map(|tube| tube.ln_cross_section(f));
        prop_assert!(none <= some + 1e-12 && some <= more + 1e-12, "{none} {some} {more}");
    }

    #[test]
    fn no_more_comes_through_than_falls_in(
        ratio in 0.02..2.1_f64, widths in 0.5..4.0_f64, wall in proptest::option::of(1e4..6e7_f64), loss in 0.0..0.05_f64,
    ) {
        let guide = Guide::circular(6e-3).unwrap().filled(1.0, loss).unwrap();
        let guide = guide.walled(wall.unwrap_or(f64::INFINITY)).unwrap();
        let tube = Tube::new(guide, widths * 6e-3).unwrap();
        let f = ratio * tube.cutoff_hz();
        let ln = tube.matched_ln_cross_sections(&[f]).unwrap()[0];
        let channel = (299_792_458.0 / f).powi(2) / (4.0 * std::f64::consts::PI);
        // At most as many open channels as modes run, and a little where the next ones are about to.
        let running: u32 = guide.modes(60).iter().filter(|mode| guide.mode_cutoff_hz(mode) < 1.2 * f).map(|m| m.degeneracy()).sum();
        prop_assert!(ln.exp() < channel * (f64::from(running) + 0.5), "{ratio} {}", ln.exp() / channel);
        // The fast form keeps one mode of each symmetry, and both agree where that is all that matters.
        if ratio < 1.6 && wall.is_none() {
            prop_assert!((tube.ln_cross_section(f) - ln).abs() < 0.02, "{ratio} {widths} {} {ln}", tube.ln_cross_section(f));
        }
    }

    #[test]
    fn a_panel_never_passes_more_than_it_gets(
        ratio in 0.01..2.0_f64, wall in 0.0..0.5_f64, depth in 0.5..8.0_f64, angle in 0.0..89.0_f64,
    ) {
        let cell = Cell::hexagonal(4.8e-3, wall * 4.8e-3).unwrap();
        let panel = HoneycombPanel::new(cell, depth * 4.8e-3, (0.3, 0.3)).unwrap();
        let f = ratio * panel.cutoff_hz();
        for polarization in [Polarization::Te, Polarization::Tm] {
            prop_assert!(panel.transmission(f, angle, polarization).unwrap().shielding_db() >= -1e-9);
        }
        prop_assert!(panel.ln_cross_section(f) <= (0.5 * panel.area_m2()).ln() + 1e-9);
    }
}

#[test]
fn propagation_is_exact_through_cutoff_with_a_lossy_wall() {
    let guide = Guide::circular(10e-3).unwrap().walled(5.8e7).unwrap();
    let cutoff = guide.cutoff_hz();
    let alpha = |ratio: f64| guide.propagation_per_m(ratio * cutoff).re;
    // Falls without a jump from evanescent to propagating, where the usual formula is infinite.
    let ratios = [0.9, 0.99, 0.999, 1.0, 1.001, 1.01, 1.1];
    assert!(ratios.windows(2).all(|pair| alpha(pair[1]) < alpha(pair[0])));
    assert!(alpha(1.0).is_finite() && alpha(1.0) > alpha(1.1));
}

#[test]
fn rules_are_the_low_frequency_limits() {
    let round = Guide::circular(6e-3).unwrap();
    let loss = |f: f64| round.attenuation_db_per_m(f) * 20e-3;
    assert!((loss(1e6) / rule::round_tube_db(6e-3, 20e-3).unwrap() - 1.0).abs() < 1e-3);
    let square = Guide::rectangular(6e-3, 6e-3).unwrap();
    assert!(
        (square.attenuation_db_per_m(1e6) * 20e-3 / rule::rectangular_tube_db(6e-3, 20e-3).unwrap() - 1.0).abs() < 1e-3
    );
    // At 0.9 of cutoff more than half of it is gone.
    assert!(loss(0.9 * round.cutoff_hz()) < 0.5 * loss(1e6));
    assert_eq!(rule::cells_in_step_db(100), 40.0);
    assert_eq!(rule::cells_apart_db(100), 20.0);
}

#[test]
fn short_tubes_go_smoothly_at_low_frequency() {
    // Their second modes, whose ends store little there, still count.
    for guide in [Guide::circular(6e-3), Guide::rectangular(6e-3, 4e-3), Guide::hexagonal(6e-3)] {
        let tube = Tube::new(guide.unwrap(), 3e-3).unwrap();
        // σ/f⁴ is constant to (f/f_c)²; the modes of hexagons are integrated to some 1e-6.
        let level = |f: f64| tube.ln_cross_section(f) - 4.0 * f.ln();
        for i in 0..400 {
            let f = 1e3 * 10_f64.powf(f64::from(i) / 100.0);
            assert!((level(f) - level(1e3)).abs() < 1e-5, "{:?} {f}: {}", tube.guide(), level(f) - level(1e3));
        }
    }
}

#[test]
fn parameters_are_named_by_path() {
    let panel = HoneycombPanel::new(Cell::hexagonal(4.8e-3, 0.05e-3).unwrap(), 25e-3, (0.3, 0.2)).unwrap();
    let paths: Vec<_> = panel.parameters().unwrap().into_iter().map(|p| p.path).collect();
    assert_eq!(paths, ["cell.across_flats_m", "cell.wall_m", "depth_m", "width_m", "height_m"]);
    let finer = panel.with_parameter("cell.across_flats_m", 3.2e-3).unwrap();
    assert!(finer.cutoff_hz() > panel.cutoff_hz() && finer.cell_count() > panel.cell_count());
    let tube =
        Tube::new(Guide::circular(6e-3).unwrap(), 36e-3).unwrap().with_rod(Rod::new(2.8e-3, 3.0).unwrap()).unwrap();
    assert!(tube.parameter("guide.diameter_m").is_ok() && tube.parameter("rod.relative_permittivity").is_ok());
    assert!(matches!(tube.parameter("rod.color"), Err(Error::UnknownParameter { .. })));
    assert_eq!(tube.with_parameter("length_m", 36e-3).unwrap(), tube);
}

#[test]
fn nonsense_is_refused_by_name() {
    let text = |result: Result<Guide, Error>| result.unwrap_err().to_string();
    assert_eq!(text(Guide::circular(-1.0)), "`diameter_m` = -1 m: must be positive and finite");
    assert_eq!(text(Guide::rectangular(0.1, f64::NAN)), "`height_m` = NaN m: must be positive and finite");
    assert_eq!(text(Guide::hexagonal(0.0)), "`across_flats_m` = 0 m: must be positive and finite");
    assert_eq!(
        text(Guide::circular(1.0).unwrap().filled(0.5, 0.0)),
        "`relative_permittivity` = 0.5: must be at least 1, and finite"
    );
    assert!(Guide::circular(1.0).unwrap().filled(2.0, -0.1).is_err());
    assert!(Guide::circular(1.0).unwrap().walled(0.0).is_err());
    assert!(Tube::new(Guide::circular(1.0).unwrap(), 0.0).is_err());
    assert!(Rod::new(f64::INFINITY, 2.0).is_err() && Rod::new(1e-3, 0.9).is_err());
    assert!(Rod::new(1e-3, 2.0).unwrap().lossy(f64::NAN).is_err());
    let rod = Rod::new(1e-3, 2.0).unwrap();
    assert!(rod.standing_out(-1e-3, 0.0).is_err() && rod.standing_out(0.0, f64::INFINITY).is_err());
    assert!(Rod::bundle(0, 1e-3, 2.0).is_err() && Rod::bundle(7, 0.0, 2.0).is_err());
    let cell = Cell::hexagonal(3e-3, 7e-3).unwrap_err().to_string();
    assert_eq!(cell, "`wall_m` = 0.007 m: must be at most `2 across_flats_m` = 0.006 m");
    assert!(Cell::square(3e-3, -1e-4).is_err() && Cell::round(0.0, 0.0).is_err());
    let cell = Cell::hexagonal(3e-3, 0.0).unwrap();
    assert!(HoneycombPanel::new(cell, 0.0, (0.3, 0.3)).is_err());
    assert!(HoneycombPanel::new(cell, 0.01, (0.3, f64::NAN)).is_err());
    assert!(HoneycombPanel::new(cell, 0.01, (1e-3, 0.3)).is_err());
    let wide = HoneycombPanel::new(cell, 0.01, (0.3, 0.3)).unwrap();
    assert!(wide.transmission(1e9, 90.0, Polarization::Te).is_err());
    assert!(wide.transmission(f64::NAN, 0.0, Polarization::Te).is_err());
    let tube = Tube::new(Guide::circular(6e-3).unwrap(), 36e-3).unwrap();
    assert!(matches!(tube.with_rod(Rod::new(6e-3, 3.0).unwrap()), Err(Error::Relation { .. })));
}

#[test]
fn wires_and_bonds_are_refused_by_name() {
    let tube = || Tube::new(Guide::circular(6e-3).unwrap(), 36e-3).unwrap();
    let wire = ThroughWire::new(6e-3, 0.3, 0.3).unwrap();
    let touching = tube().with_conductor(wire).unwrap_err();
    assert!(matches!(touching, Error::Relation { .. }));
    assert_eq!(touching.to_string(), "`conductor.diameter_m` = 0.006 m: must be smaller than `bore_m` = 0.006 m");
    assert!(ThroughWire::new(1e-3, 1e-3, 0.3).is_err() && ThroughWire::new(f64::NAN, 0.3, 0.3).is_err());
    assert!(Bond::wall(-1.0, 0.0).is_err() && Bond::shield(0.02, f64::INFINITY, 50.0).is_err());
    assert!(Bond::shield(0.02, 1e-9, 0.0).is_err());
    assert!(CoaxialGuide::new(7e-3, 7e-3).is_err() && CoaxialGuide::new(3e-3, 7e-3).unwrap().filled(0.9).is_err());
}

#[test]
fn a_wire_can_be_put_into_any_tube() {
    for guide in [Guide::circular(6e-3), Guide::rectangular(8e-3, 6e-3), Guide::hexagonal(6e-3)] {
        let empty = Tube::new(guide.unwrap(), 36e-3).unwrap();
        let wired = empty.clone().with_conductor(ThroughWire::new(1e-3, 0.3, 0.3).unwrap()).unwrap();
        for f in [1e8, 1e9, 6e9] {
            let more = wired.ln_cross_section(f) - empty.ln_cross_section(f);
            assert!(more > 60.0 / 10.0 * 10_f64.ln(), "{f:e} {more}");
            let directional = |tube: &Tube, polarization| {
                tube.directional_ln_cross_sections(&[f], 50.0, 0.0, polarization).unwrap()[0]
            };
            assert!(directional(&wired, Polarization::Tm) > directional(&empty, Polarization::Tm) + 10.0);
            assert!((directional(&wired, Polarization::Te) - directional(&empty, Polarization::Te)).abs() < 1e-9);
        }
    }
}

#[cfg(feature = "serde")]
#[test]
fn files_give_back_what_was_written() {
    fn there_and_back<T: serde::Serialize + serde::de::DeserializeOwned + PartialEq + std::fmt::Debug>(value: &T) {
        let text = serde_json::to_string(value).unwrap();
        assert_eq!(&serde_json::from_str::<T>(&text).unwrap(), value);
        // Unknown names are faults.
        assert!(serde_json::from_str::<T>(&text.replacen('{', "{\"colour\":1,", 1)).is_err(), "{text}");
    }
    let round = Guide::circular(6e-3).unwrap();
    there_and_back(&round);
    there_and_back(&Guide::rectangular(8e-3, 6e-3).unwrap().filled(2.1, 3e-4).unwrap().walled(5.8e7).unwrap());
    there_and_back(&Guide::hexagonal(4.8e-3).unwrap());
    there_and_back(&CoaxialGuide::new(3e-3, 7e-3).unwrap());
    there_and_back(
        &CoaxialGuide::new(3e-3, 7e-3).unwrap().filled(2.1).unwrap().lossy(3e-4).unwrap().walled(5.8e7).unwrap(),
    );
    let rod = Rod::new(2.8e-3, 3.0).unwrap().lossy(2e-3).unwrap().standing_out(0.5, 3e-3).unwrap();
    there_and_back(&rod);
    for bond in [Bond::None, Bond::wall(5e-3, 1e-9).unwrap(), Bond::shield(0.02, 3e-10, 75.0).unwrap()] {
        let wire = ThroughWire::new(1e-3, 0.3, 0.2).unwrap().bonded(bond).unwrap();
        there_and_back(&wire);
        let tube = Tube::new(round, 36e-3).unwrap().with_rod(rod).unwrap().with_conductor(wire).unwrap();
        there_and_back(&tube);
    }
    let text = serde_json::to_string(&CoaxialGuide::new(3e-3, 7e-3).unwrap()).unwrap();
    assert!(serde_json::from_str::<CoaxialGuide>(&text.replace("0.007", "0.002")).is_err());
}
