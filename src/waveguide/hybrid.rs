//! The dominant hybrid mode HE11 of a tube with a dielectric rod on its axis.
//!
//! Core r < a with ε₁ and the fields J₁(ur); shell a < r < b with ε₂ and the combinations that vanish (E_z) or are level (H_z) on
//! the wall, P(r) = J₁(wr)Y₁(wb) − Y₁(wr)J₁(wb) and Q(r) = J₁(wr)Y₁'(wb) − Y₁(wr)J₁'(wb), with u² = k²ε₁ + γ², w² = k²ε₂ + γ².
//! Tangential fields are continuous at r = a where (all at a, primes on the argument)
//!
//! (w J'Q − u J Q')(ε₁ w J'P − ε₂ u J P') = −γ² k² (ε₁ − ε₂)² J² P Q / (a² u² w²).
//!
//! Source of the fields: for example R. E. Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 11 (from memory); the
//! determinant is derived here. The root is followed from the empty tube by raising ε₁ in steps, in the variable
//!
//! ε_eff = (k_c² − γ²)/k², k_c the empty tube's,
//!
//! which moves smoothly from ε₂ to a value below ε₁ and has a limit at k → 0. A strong rod draws the wave in over a narrow band of
//! frequency, where other roots lie near; there it is followed in k instead ([`Track`]).

use num_complex::Complex64;

use super::spectrum::circle::TE11;
use crate::special::bessel_pairs;

/// The determinant; lengths in units of the tube's radius, `a` the rod's radius.
fn determinant(effective: Complex64, k: f64, a: f64, inner: Complex64, outer: Complex64) -> Complex64 {
    let gamma_squared = TE11 * TE11 - k * k * effective;
    let u = (k * k * inner + gamma_squared).sqrt();
    let w = (k * k * outer + gamma_squared).sqrt();
    let slope = |[zero, one]: [Complex64; 2], z: Complex64| zero - one / z;
    let (core, _) = bessel_pairs(u * a);
    let (near_j, near_y) = bessel_pairs(w * a);
    let (far_j, far_y) = bessel_pairs(w);
    let (j, dj) = (core[1], slope(core, u * a));
    let (dj_near, dy_near) = (slope(near_j, w * a), slope(near_y, w * a));
    let (dj_far, dy_far) = (slope(far_j, w), slope(far_y, w));
    let p = near_j[1] * far_y[1] - near_y[1] * far_j[1];
    let dp = dj_near * far_y[1] - dy_near * far_j[1];
    let q = near_j[1] * dy_far - near_y[1] * dj_far;
    let dq = dj_near * dy_far - dy_near * dj_far;
    let contrast = k * (inner - outer);
    let coupling = -gamma_squared * contrast * contrast * j * j * p * q / (a * a * u * u * w * w);
    (w * dj * q - u * j * dq) * (inner * w * dj * p - outer * u * j * dp) - coupling
}

/// ε_eff of HE11; `k` and `a` in units of 1/radius and the radius of the tube. None where the root was lost.
pub(super) fn effective_permittivity(k: f64, a: f64, inner: Complex64, outer: Complex64) -> Option<Complex64> {
    if inner == outer {
        return Some(outer);
    }
    // By at most a third in permittivity at a time the root moves little, and the last two places foretell the next.
    let ratio = inner / outer;
    let steps = ((ratio - 1.0).norm().min(8.0 * ratio.norm().ln().max(0.1)) / 0.33).ceil().clamp(3.0, 240.0) as usize;
    let share = a * a;
    let (mut before, mut here) = (outer, outer);
    for step in 1..=steps {
        let part = step as f64 / steps as f64;
        let material = if ratio.norm() < 4.0 { outer + (inner - outer) * part } else { outer * ratio.powf(part) };
        let guess = if step == 1 { outer + (material - outer) * share } else { here + (here - before) };
        let root = secant(guess, |x| determinant(x, k, a, material, outer))?;
        (before, here) = (here, root);
    }
    let inside = here.re >= outer.re * (1.0 - 1e-9) && here.re <= inner.re * (1.0 + 1e-9);
    inside.then_some(here)
}

/// The root followed in k from far below cutoff.
#[derive(Debug, Clone)]
pub(super) struct Track {
    a: f64,
    inner: Complex64,
    outer: Complex64,
    k: Vec<f64>,
    effective: Vec<Complex64>,
}

impl Track {
    /// Up to the wavenumber `top`; none where the root is lost on the way.
    pub(super) fn new(top: f64, a: f64, inner: Complex64, outer: Complex64) -> Option<Self> {
        let (largest, least) = (top / 60.0, top / 2e5);
        let mut step = largest;
        // Below, ε_eff has reached its limit, and the determinant loses the digits that would tell.
        let mut k = vec![0.0, 2.0 * largest];
        let start = effective_permittivity(k[1], a, inner, outer)?;
        let mut effective = vec![start, start];
        while k[k.len() - 1] < top {
            let last = k.len() - 1;
            let next = k[last] + step;
            let slope = (effective[last] - effective[last - 1]) / (k[last] - k[last - 1]);
            let guess = effective[last] + slope * step;
            // Another root is not where the last places point to.
            let found = secant(guess, |x| determinant(x, next, a, inner, outer)).filter(|root| {
                (root - guess).norm() < 0.02 * root.norm() && root.re > effective[last].re * (1.0 - 1e-6)
            });
            match found {
                Some(root) => {
                    k.push(next);
                    effective.push(root);
                    step = (1.5 * step).min(largest);
                }
                None if step > least => step *= 0.5,
                None => return None,
            }
        }
        Some(Self { a, inner, outer, k, effective })
    }

    /// ε_eff at a wavenumber up to the top.
    pub(super) fn at(&self, k: f64) -> Complex64 {
        let high = self.k.partition_point(|&at| at < k).clamp(1, self.k.len() - 1);
        let (from, to) = (self.effective[high - 1], self.effective[high]);
        let share = ((k - self.k[high - 1]) / (self.k[high] - self.k[high - 1])).clamp(0.0, 1.0);
        let guess = from + (to - from) * share;
        if high == 1 {
            return guess;
        }
        let near = (to - from).norm() + 1e-9 * guess.norm();
        let root = secant(guess, |x| determinant(x, k, self.a, self.inner, self.outer));
        root.filter(|root| (root - guess).norm() <= near).unwrap_or(guess)
    }
}

/// A complex root near a guess.
fn secant(guess: Complex64, function: impl Fn(Complex64) -> Complex64) -> Option<Complex64> {
    let (mut x0, mut x1) = (guess * (1.0 + 1e-5), guess);
    let (mut f0, mut f1) = (function(x0), function(x1));
    for _ in 0..60 {
        let slope = f1 - f0;
        if slope.norm() == 0.0 {
            break;
        }
        let next = x1 - f1 * (x1 - x0) / slope;
        (x0, f0) = (x1, f1);
        (x1, f1) = (next, function(next));
        if !(x1.re.is_finite() && f1.re.is_finite()) {
            return None;
        }
        if (x1 - x0).norm() <= 1e-13 * x1.norm() {
            return Some(x1);
        }
    }
    ((x1 - x0).norm() <= 1e-8 * x1.norm()).then_some(x1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn real(value: f64) -> Complex64 {
        Complex64::new(value, 0.0)
    }

    #[test]
    fn limits_of_thin_and_full_rods() {
        for k in [0.05, 0.5, 1.0] {
            let at = |a: f64| effective_permittivity(k, a, real(3.0), real(1.0)).unwrap().re;
            assert!((at(0.01) - 1.0).abs() < 1e-3, "{k} {}", at(0.01));
            assert!((at(0.9999) - 3.0).abs() < 3e-3, "{k} {}", at(0.9999));
            let sizes = [0.1, 0.3, 0.5, 0.7, 0.9];
            assert!(sizes.windows(2).all(|pair| at(pair[1]) > at(pair[0])));
        }
    }

    #[test]
    fn a_thin_rod_shifts_by_perturbation() {
        // A thin rod across the field is polarised as a cylinder: δε_eff = 2 (ε − 1)/(ε + 1) · |E(0)|² πa² (R. F. Harrington,
        // Time-Harmonic Electromagnetic Fields, 1961, sec. 7-3, from memory), and on the axis |E|² = 1/(2π)·... of TE11:
        // E(0)² = x²/(4 J₁²(x)) · 2/(π (x² − 1)).
        let (a, permittivity) = (0.02, 2.5);
        let mut run = [0.0; 2];
        crate::special::bessel_j_run(0.0, TE11, &mut run);
        let axis =
            TE11 * TE11 / (4.0 * run[1] * run[1]) * 2.0 / (std::f64::consts::PI * (TE11 * TE11 - 1.0)) / (TE11 * TE11);
        let expected =
            2.0 * (permittivity - 1.0) / (permittivity + 1.0) * axis * TE11 * TE11 * std::f64::consts::PI * a * a;
        let shift = effective_permittivity(0.3, a, real(permittivity), real(1.0)).unwrap().re - 1.0;
        assert!((shift / expected - 1.0).abs() < 0.05, "{shift} {expected}");
    }

    #[test]
    fn loss_comes_from_the_rod() {
        let inner = Complex64::new(3.0, -0.03);
        let lossy = effective_permittivity(0.8, 0.47, inner, real(1.0)).unwrap();
        let lossless = effective_permittivity(0.8, 0.47, real(3.0), real(1.0)).unwrap();
        assert!(lossy.im < 0.0 && lossy.im > -0.03);
        assert!((lossy.re - lossless.re).abs() < 1e-3);
    }
}
