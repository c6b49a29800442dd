//! Complex functions that keep the digits of both parts.
//!
//! The polar forms found in general libraries lose the small part of a number that is nearly real
//! or nearly imaginary, and that small part is the attenuation of a low-loss wave.

use num_complex::Complex64;

/// Square root with non-negative real part; on the cut the root with positive imaginary part.
///
/// For the square of a propagation constant under exp(+jωt) this is the wave that decays, or, without
/// loss, the wave that travels away.
#[must_use]
pub fn decaying_root(z: Complex64) -> Complex64 {
    let (re, im) = (z.re, z.im);
    if im == 0.0 {
        return if re >= 0.0 { Complex64::new(re.sqrt(), 0.0) } else { Complex64::new(0.0, (-re).sqrt()) };
    }
    // Halving before the sum keeps the largest numbers finite.
    let large = (0.5 * re.abs() + 0.5 * re.hypot(im)).sqrt();
    let small = 0.5 * im.abs() / large;
    if re >= 0.0 { Complex64::new(large, small.copysign(im)) } else { Complex64::new(small, large.copysign(im)) }
}

/// exp(z) − 1 without cancellation near zero.
#[must_use]
pub fn exp_m1(z: Complex64) -> Complex64 {
    let growth = z.re.exp_m1();
    let half_sine = (0.5 * z.im).sin();
    // e^a cos b − 1 = (e^a − 1) − 2 e^a sin²(b/2)
    Complex64::new(growth - 2.0 * (growth + 1.0) * half_sine * half_sine, (growth + 1.0) * z.im.sin())
}

/// Natural logarithm, with the digits of ln|z| kept where |z| is close to one.
#[must_use]
pub fn ln(z: Complex64) -> Complex64 {
    let excess = (z.re.abs() - 1.0) * (z.re.abs() + 1.0) + z.im * z.im;
    let ln_modulus = if excess.abs() < 0.5 { 0.5 * excess.ln_1p() } else { z.re.hypot(z.im).ln() };
    Complex64::new(ln_modulus, z.im.atan2(z.re))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn root_decays() {
        for &(re, im) in
            &[(4.0, 0.0), (-4.0, 0.0), (-4.0, -0.0), (3.0, 4.0), (-3.0, 4.0), (1e150, 1e150), (-1.0, 1e-20)]
        {
            let z = Complex64::new(re, im);
            let root = decaying_root(z);
            assert!(root.re >= 0.0 && root.im >= 0.0, "{root}");
            assert!(((root * root) / z - 1.0).norm() < 1e-15, "{z}");
        }
        // The small part has its own digits: sqrt(-1 + 1e-20 j) = 5e-21 + j.
        assert!((decaying_root(Complex64::new(-1.0, 1e-20)).re / 5e-21 - 1.0).abs() < 1e-15);
        let huge = decaying_root(Complex64::new(0.0, 1e308));
        assert!((huge.re / (0.5e308_f64).sqrt() - 1.0).abs() < 1e-15 && huge.im == huge.re);
        assert_eq!(decaying_root(Complex64::new(0.0, 0.0)), Complex64::new(0.0, 0.0));
    }

    #[test]
    fn exp_m1_near_zero() {
        let z = Complex64::new(1e-12, -2e-12);
        let series = z + z * z / 2.0;
        assert!(((exp_m1(z) - series) / series).norm() < 1e-15);
        assert_eq!(exp_m1(Complex64::new(-1e5, 3.0)), Complex64::new(-1.0, 0.0));
    }

    #[test]
    fn ln_near_one() {
        let z = Complex64::new(1.0 + 1e-10, 1e-10);
        assert!((ln(z).re / (1e-10 * (1.0 + 8.2740e-8)) - 1.0).abs() < 1e-6);
        assert!((ln(Complex64::new(-2.0, 0.0)).im - std::f64::consts::PI).abs() < 1e-15);
    }
}
