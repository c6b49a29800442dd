//! Sine and cosine integrals, a register at a time: the twin of [`si_cin`](super::sine_integral::si_cin).

use super::sine_integral::{CIN, EULER_GAMMA, F, G, SI, SPLIT};
use crate::lanes::{Real, Simd};

/// Si(x) and Cin(x) for x ≥ 0, by x and its sine and cosine.
#[inline(always)]
pub(crate) fn si_cin_lanes<S: Simd>(x: Real<S>, sine: Real<S>, cosine: Real<S>) -> (Real<S>, Real<S>) {
    let small = x.less(SPLIT);
    if small.all() {
        return below(x);
    }
    // Lanes below the split are lifted to it, so that nothing is divided by zero.
    let x_above = x.larger(x.constant(SPLIT));
    let above = above(x_above, sine, cosine);
    if small.any() {
        let below = below(small.select(x, SPLIT));
        (small.select(below.0, above.0), small.select(below.1, above.1))
    } else {
        above
    }
}

#[inline(always)]
fn below<S: Simd>(x: Real<S>) -> (Real<S>, Real<S>) {
    let t = (x * (1.0 / SPLIT)) * (x * (1.0 / SPLIT));
    let (si, cin) = chebyshev_pair(&SI, &CIN, t);
    (x * si, x * x * cin)
}

#[inline(always)]
fn above<S: Simd>(x: Real<S>, sine: Real<S>, cosine: Real<S>) -> (Real<S>, Real<S>) {
    let inverse = 1.0 / x;
    let t = (inverse * SPLIT) * (inverse * SPLIT);
    let (f, g) = chebyshev_pair(&F, &G, t);
    let (f, g) = (f * inverse, g * inverse * inverse);
    let si = f.neg_mul_add(cosine, x.constant(std::f64::consts::FRAC_PI_2)) - g * sine;
    let cin = f.neg_mul_add(sine, x.ln() + EULER_GAMMA) + g * cosine;
    (si, cin)
}

/// Two sums of Chebyshev polynomials of 2t − 1 at once, so that one hides the latency of the other.
#[inline(always)]
fn chebyshev_pair<S: Simd, const N: usize>(one: &[f64; N], other: &[f64; N], t: Real<S>) -> (Real<S>, Real<S>) {
    let twice = t.mul_add(4.0, -2.0);
    let zero = t.constant(0.0);
    let (mut near, mut far) = ((zero, zero), (zero, zero));
    let mut term = N - 1;
    while term > 0 {
        let next = (
            twice.mul_add(near.0, t.constant(one[term]) - far.0),
            twice.mul_add(near.1, t.constant(other[term]) - far.1),
        );
        (near, far) = (next, near);
        term -= 1;
    }
    let half = twice * 0.5;
    (half.mul_add(near.0, t.constant(one[0]) - far.0), half.mul_add(near.1, t.constant(other[0]) - far.1))
}

#[cfg(test)]
mod tests {
    use super::super::sine_integral::si_cin;
    use super::*;
    use crate::lanes::{Kernel, Window, sweep};

    struct Both<'a> {
        x: &'a [f64],
        si: Vec<f64>,
        cin: Vec<f64>,
    }

    impl Kernel for Both<'_> {
        #[inline(always)]
        fn run<S: Simd>(&mut self, at: Window<S>) {
            let x = at.load(self.x);
            let (sine, cosine) = x.sin_cos();
            let (si, cin) = si_cin_lanes(x, sine, cosine);
            at.store(si, &mut self.si);
            at.store(cin, &mut self.cin);
        }
    }

    #[test]
    fn twins_hold_together() {
        let mut x: Vec<f64> = (-90..=120).map(|i| 10f64.powf(f64::from(i) / 10.0)).collect();
        x.extend([0.0, 9.999_999_999, 10.0, 10.000_000_001]);
        let mut both = Both { si: vec![0.0; x.len()], cin: vec![0.0; x.len()], x: &x };
        sweep(x.len(), &mut both);
        for (i, &x) in x.iter().enumerate() {
            let (si, cin) = si_cin(x);
            assert!((both.si[i] - si).abs() <= 4e-15 * si, "Si({x}) = {}, {si}", both.si[i]);
            assert!((both.cin[i] - cin).abs() <= 4e-15 * cin, "Cin({x}) = {}, {cin}", both.cin[i]);
        }
    }
}
