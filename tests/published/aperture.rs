//! Holes and slots against published values.

use std::f64::consts::PI;

use stillroom::aperture::{CircularHole, RectangularSlot, polarizability, slot_rule_of_thumb_db};
use stillroom::leak::Leak;

fn frequency(wavenumber: f64) -> f64 {
    wavenumber * 299_792_458.0 / (2.0 * PI)
}

#[test]
fn bethe_polarizabilities() {
    // 4a³/3 and 2a³/3: H. A. Bethe, Phys. Rev. 66 (1944) 163 (from memory).
    let hole = polarizability::circle(2.0).unwrap();
    assert!((hole.magnetic_along_m3 - 4.0 / 3.0).abs() < 1e-15 && (hole.electric_m3 - 2.0 / 3.0).abs() < 1e-15);
}

#[test]
fn averaged_cross_section_of_a_small_hole() {
    // 16 k⁴a⁶/9π and, large, A/2: Hill et al., IEEE Trans. EMC 36 (1994) 169 (from memory; average derived).
    let (hole, k) = (CircularHole::new(2.0, 0.0).unwrap(), 1e-3);
    let law = 16.0 * f64::powi(k, 4) / (9.0 * PI);
    assert!((hole.ln_cross_section(frequency(k)) - law.ln()).abs() < 1e-5);
    assert!((hole.ln_cross_section(frequency(1e7)) - (0.5 * PI).ln()).abs() < 1e-5);
}

#[test]
fn square_and_two_to_one_rectangle() {
    // Static integral equations solved apart from this crate, Romberg over 8 to 64 panels (derived).
    let square = polarizability::rectangle(1.0, 1.0).unwrap();
    assert!((square.magnetic_along_m3 - 0.26010).abs() < 2e-5 && (square.electric_m3 - 0.11369).abs() < 2e-5);
    let two = polarizability::rectangle(1.0, 0.5).unwrap();
    assert!((two.magnetic_along_m3 - 0.15716).abs() < 2e-5);
    assert!((two.magnetic_across_m3 - 0.05749).abs() < 2e-5);
    assert!((two.electric_m3 - 0.03715).abs() < 2e-5);
}

#[test]
fn fits_for_rectangles() {
    // α_m = 0.132 l³/ln(1 + 0.660 l/w), α_e = (π/16) w² l (1 − 0.5663 w/l + 0.1398 (w/l)²): N. A. McDonald,
    // IEEE Trans. MTT 33 (1985) 1146 and 36 (1988) (from memory); good to about one percent.
    for aspect in [1.0, 0.5, 0.2, 0.1, 0.05] {
        let ours = polarizability::rectangle(1.0, aspect).unwrap();
        let magnetic = 0.132 / f64::ln(1.0 + 0.660 / aspect);
        let electric = PI / 16.0 * aspect * aspect * (1.0 - 0.5663 * aspect + 0.1398 * aspect * aspect);
        assert!((ours.magnetic_along_m3 / magnetic - 1.0).abs() < 0.015, "{aspect}");
        assert!((ours.electric_m3 / electric - 1.0).abs() < 0.012, "{aspect}");
    }
}

#[test]
fn thick_round_hole() {
    // Far into the wall the thin values are multiplied by 0.838 exp(−1.841 t/a) (magnetic) and
    // 0.825 exp(−2.405 t/a) (electric): R. L. Gluckstern, J. A. Diamond, IEEE Trans. MTT 39 (1991) 274
    // (from memory).
    for wall in [2.0, 3.0] {
        let hole = CircularHole::new(2.0, wall).unwrap().polarizability(1e3).unwrap();
        let magnetic = 4.0 / 3.0 * 0.838 * f64::exp(-1.841_18 * wall);
        let electric = 2.0 / 3.0 * 0.825 * f64::exp(-2.404_83 * wall);
        assert!((hole.magnetic_along_m3 / magnetic - 1.0).abs() < 0.003);
        assert!((hole.electric_m3 / electric - 1.0).abs() < 0.003);
    }
}

#[test]
fn half_wave_slot_by_the_complementary_dipole() {
    // A thin half-wave dipole resonates a few percent short of λ/2 with 73 ohm (C. A. Balanis, Antenna
    // Theory, 3rd ed., 2005, sec. 4.6, from memory). Its complement then passes λ²/4π on average, and its
    // band between half powers follows from the slope of the reactance.
    let slot = RectangularSlot::new(0.1, 1e-3, 0.0).unwrap();
    let passed = |f: f64| slot.ln_cross_section(f) - ((299_792_458.0 / f).powi(2) / (4.0 * PI)).ln();
    let peak = (0..800).map(|step| 1.3e9 + 0.5e6 * f64::from(step)).max_by(|a, b| passed(*a).total_cmp(&passed(*b)));
    let peak = peak.unwrap_or(0.0);
    assert!((0.93..0.99).contains(&(peak / 1.498_962e9)), "{peak}");
    assert!(passed(peak).abs() < 0.01);
}

#[test]
fn rule_of_thumb() {
    // 150 mm at 100 MHz and 15 mm at 1 GHz: 20 dB (H. W. Ott, Noise Reduction Techniques, ch. 6; from memory).
    for (length, f) in [(0.15, 100e6), (0.015, 1e9)] {
        assert!((slot_rule_of_thumb_db(length, f).unwrap() - 20.0).abs() < 0.01);
    }
}
