//! Guides, tubes and honeycomb panels from the outside: properties that must hold whatever the numbers.

#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stillroom::leak::Leak;
use stillroom::waveguide::{Cell, Guide, HoneycombPanel, Rod, Tube, rule};
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
        let larger: Vec<_> = tube.parameters().iter().filter(|p| p.unit == "m").map(|p| (p.path.clone(), p.value * factor)).collect();
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
fn parameters_are_named_by_path() {
    let panel = HoneycombPanel::new(Cell::hexagonal(4.8e-3, 0.05e-3).unwrap(), 25e-3, (0.3, 0.2)).unwrap();
    let paths: Vec<_> = panel.parameters().into_iter().map(|p| p.path).collect();
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
    let cell = Cell::hexagonal(3e-3, 4e-3).unwrap_err().to_string();
    assert_eq!(cell, "`wall_m` = 0.004 m: must be smaller than `across_flats_m` = 0.003 m");
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
