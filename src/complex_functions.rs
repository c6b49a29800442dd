//! Complex functions that keep the digits of both parts.
//!
//! The polar forms found in general libraries lose the small part of a number that is nearly real
//! or nearly imaginary, and that small part is the attenuation of a low-loss wave.

use num_complex::Complex64;

/// Moduli between these can be squared and their squares added.
const SQUARABLE: std::ops::Range<f64> = 1e-140..1e140;

/// Square root with non-negative real part; on the cut the root with positive imaginary part.
///
/// For the square of a propagation constant under exp(+jωt) this is the wave that decays, or, without
/// loss, the wave that travels away. Either part is right to 2 ulp, from subnormal to huge; infinite
/// parts give what ISO/IEC 9899:2011, G.6.4.2 lists for the square root.
#[inline]
#[must_use]
pub fn decaying_root(z: Complex64) -> Complex64 {
    let largest = z.re.abs().max(z.im.abs());
    if SQUARABLE.contains(&largest) { root_from_sum(z, sum_with_modulus(z), 1.0) } else { root_at_the_ends(z, largest) }
}

/// |Re z| + |z|, whose parts must be squarable.
#[inline]
fn sum_with_modulus(z: Complex64) -> f64 {
    z.re.abs() + (z.re * z.re + z.im * z.im).sqrt()
}

/// The root from |Re z| + |z| over `unscale`². Two real roots and a division, with no hypotenuse
/// and no angle: a tenth of the time of the polar form.
#[inline]
fn root_from_sum(z: Complex64, sum: f64, unscale: f64) -> Complex64 {
    let twice_large = (2.0 * sum).sqrt() * unscale;
    let (large, small) = (0.5 * twice_large, z.im.abs() / twice_large);
    // A zero counts as positive, whatever its sign.
    let im = z.im + 0.0;
    if z.re > 0.0 { Complex64::new(large, small.copysign(im)) } else { Complex64::new(small, large.copysign(im)) }
}

#[cold]
fn root_at_the_ends(z: Complex64, largest: f64) -> Complex64 {
    /// 2^300, to bring the squares into range.
    const SCALE: f64 = f64::from_bits((1023 + 300) << 52);
    if z.im.is_infinite() {
        Complex64::new(f64::INFINITY, z.im)
    } else if z.re.is_nan() || z.im.is_nan() {
        Complex64::new(f64::NAN, f64::NAN)
    } else if z.re == f64::INFINITY {
        Complex64::new(z.re, 0.0_f64.copysign(z.im))
    } else if z.re == f64::NEG_INFINITY {
        Complex64::new(0.0, f64::INFINITY.copysign(z.im + 0.0))
    } else if largest == 0.0 {
        Complex64::new(0.0, 0.0)
    } else if largest < 1.0 {
        root_from_sum(z, sum_with_modulus(z * SCALE * SCALE), 1.0 / SCALE)
    } else {
        root_from_sum(z, sum_with_modulus(z / SCALE / SCALE), SCALE)
    }
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
        assert_eq!(decaying_root(Complex64::new(-9.0, -0.0)), Complex64::new(0.0, 3.0));
    }

    #[test]
    fn root_at_the_ends_of_the_range() {
        let tiny = f64::from_bits(1);
        for scale in [tiny, 1e-310, 1e-200, 1e200, 1e307] {
            for (re, im) in [(3.0, 4.0), (-3.0, 4.0), (3.0, -4.0), (0.0, 2.0), (-4.0, 0.0), (-1.0, 1e-3)] {
                let z = Complex64::new(re * scale, im * scale);
                // The square may leave the range: compare half by half.
                let root = decaying_root(z);
                let back = Complex64::new((root.re - root.im) * (root.re + root.im), 2.0 * root.re * root.im);
                assert!(root.re >= 0.0 && (back - z).norm() <= 1e-15 * z.norm() + 4.0 * tiny, "{z}: {root}");
            }
        }
        let infinite = f64::INFINITY;
        assert_eq!(decaying_root(Complex64::new(-3.0, infinite)), Complex64::new(infinite, infinite));
        assert_eq!(decaying_root(Complex64::new(infinite, -2.0)), Complex64::new(infinite, -0.0));
        assert_eq!(decaying_root(Complex64::new(-infinite, 2.0)), Complex64::new(0.0, infinite));
        assert!(decaying_root(Complex64::new(f64::NAN, 1.0)).re.is_nan());
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
