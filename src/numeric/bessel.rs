//! Bessel functions, by the crate that computes them, and the zeros that guides and holes are made of.

use complex_bessel::Scaling;
use num_complex::Complex64;

/// Bessel functions of the first kind J_ν(x), J_ν₊₁(x), … for ν ≥ 0 and x ≥ 0, as many as fit into `out`.
pub(crate) fn bessel_j_run(order: f64, x: f64, out: &mut [f64]) {
    out.fill(0.0);
    if x == 0.0 {
        if order == 0.0
            && let Some(first) = out.first_mut()
        {
            *first = 1.0;
        }
        return;
    }
    // An argument beyond about 1e9, where no digit of the phase is left, leaves the mean of the oscillation: zero.
    if let Ok(run) = complex_bessel::besselj_seq(order, Complex64::new(x, 0.0), out.len(), Scaling::Unscaled) {
        for (slot, value) in out.iter_mut().zip(run.values) {
            *slot = value.re;
        }
    }
}

/// J_m(x) and its derivative for a whole order.
pub(crate) fn bessel_j_and_slope(order: usize, x: f64) -> (f64, f64) {
    if order == 0 {
        let mut run = [0.0; 2];
        bessel_j_run(0.0, x, &mut run);
        (run[0], -run[1])
    } else {
        let mut run = [0.0; 3];
        bessel_j_run(order as f64 - 1.0, x, &mut run);
        (run[1], 0.5 * (run[0] - run[2]))
    }
}

/// J₀, J₁ and Y₀, Y₁ of a complex argument that is not zero; NaN where they cannot be computed.
pub(crate) fn bessel_pairs(z: Complex64) -> ([Complex64; 2], [Complex64; 2]) {
    let nan = Complex64::new(f64::NAN, f64::NAN);
    let pair = |run: std::result::Result<complex_bessel::BesselResult<f64>, complex_bessel::Error>| match run {
        Ok(run) => [run.values[0], run.values[1]],
        Err(_) => [nan, nan],
    };
    (
        pair(complex_bessel::besselj_seq(0.0, z, 2, Scaling::Unscaled)),
        pair(complex_bessel::bessely_seq(0.0, z, 2, Scaling::Unscaled)),
    )
}

/// J_m, its derivative, Y_m and its derivative for a whole order and x > 0.
pub(crate) fn bessel_jy_and_slopes(order: usize, x: f64) -> (f64, f64, f64, f64) {
    let (j, j_slope) = bessel_j_and_slope(order, x);
    let nan = f64::NAN;
    let pair = complex_bessel::bessely_seq(order as f64, Complex64::new(x, 0.0), 2, Scaling::Unscaled);
    let (y, next) = pair.map_or((nan, nan), |run| (run.values[0].re, run.values[1].re));
    (j, j_slope, y, order as f64 * y / x - next)
}

/// I₀(z)/I₁(z) for Re z > 0.
pub(crate) fn bessel_i_ratio(z: Complex64) -> Complex64 {
    match complex_bessel::besseli_seq(0.0, z, 2, Scaling::Exponential) {
        Ok(result) if result.values[1].norm_sqr() > 0.0 => result.values[0] / result.values[1],
        // Out of the library's reach only at |z| > 1e9 (where the ratio is one to all digits) and
        // where I₁ underflows (2/z).
        _ if z.norm_sqr() < 1.0 => 2.0 / z,
        _ => 1.0 + 0.5 / z,
    }
}

/// K₀(z)/K₁(z) for Re z > 0.
pub(crate) fn bessel_k_ratio(z: Complex64) -> Complex64 {
    match complex_bessel::besselk_seq(0.0, z, 2, Scaling::Exponential) {
        Ok(result) if result.values[1].is_finite() => result.values[0] / result.values[1],
        // As above; where K₁ overflows the logarithm of K₀ is left, with Euler's constant in it.
        _ if z.norm_sqr() < 1.0 => -z * ((0.5 * z).ln() + 0.577_215_664_901_532_9),
        _ => 1.0 - 0.5 / z,
    }
}

/// First zero of J₁′: TE11 of a circle (M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, 1964, table 9.5;
/// further digits computed with the functions above, as for all of these).
pub(crate) const J1_PRIME_FIRST: f64 = 1.841_183_781_340_659_3;
/// First zero of J₀: TM01.
pub(crate) const J0_FIRST: f64 = 2.404_825_557_695_773;
/// First zero of J₂′: TE21.
pub(crate) const J2_PRIME_FIRST: f64 = 3.054_236_928_227_140_3;
/// First zero of J₁, and of J₀′: TM11, TE01.
pub(crate) const J1_FIRST: f64 = 3.831_705_970_207_512;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bessel_values_of_the_tables() {
        // Abramowitz and Stegun (1964), table 9.1: J0(1) = 0.76519 76866, J1(1) = 0.44005 05857.
        let (j0, slope) = bessel_j_and_slope(0, 1.0);
        assert!((j0 - 0.765_197_686_6).abs() < 1e-10 && (slope + 0.440_050_585_7).abs() < 1e-10);
        assert_eq!(bessel_j_and_slope(0, 0.0), (1.0, 0.0));
        assert_eq!(bessel_j_and_slope(1, 0.0), (0.0, 0.5));
    }

    #[test]
    fn the_zeros_are_zeros() {
        assert!(bessel_j_and_slope(1, J1_PRIME_FIRST).1.abs() < 1e-15);
        assert!(bessel_j_and_slope(0, J0_FIRST).0.abs() < 1e-15);
        assert!(bessel_j_and_slope(2, J2_PRIME_FIRST).1.abs() < 1e-15);
        assert!(bessel_j_and_slope(1, J1_FIRST).0.abs() < 1e-15);
    }
}
