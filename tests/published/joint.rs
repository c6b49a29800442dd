//! Seams against what is published on slots and slits; no measured seam with its data was found.

use std::f64::consts::PI;

use stillroom::joint::Seam;
use stillroom::leak::Leak;
use stillroom::material::Material;

#[test]
fn a_bay_is_the_complement_of_a_dipole() {
    // At l = λ/2 the complementary dipole has 73.1 + j42.5 ohm (C. A. Balanis, Antenna Theory, 3rd ed., 2005,
    // sec. 8.5, from memory), so that a thin bay passes T = (R/|Z|)² = (73.1/84.6)² of λ²/4π there.
    let perfect = Material::conductor("perfect", 1e30, 1.0).unwrap();
    let bay = Seam::new(0.1, 0.1, 1e-7, 0.0).unwrap().with_faces(perfect);
    let wavelength = 0.2_f64;
    let ln = bay.ln_cross_section(299_792_458.0 / wavelength);
    let expected = (wavelength.powi(2) / (4.0 * PI) * (73.1_f64 / 84.6).powi(2)).ln();
    // Higher modes add a little.
    assert!((ln - expected).abs() < 0.05, "{ln} {expected}");
}
