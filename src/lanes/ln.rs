//! Natural logarithm, of a number, of one plus a number, and of a squared modulus.
//!
//! x = m 2^e with m in [sqrt(1/2), sqrt 2); ln m = 2 artanh s, s = (m - 1)/(m + 1), by a polynomial
//! in s^2 fitted at Chebyshev nodes. A correction that is small against x enters at first order.

use super::exp::{LN_2_HIGH, LN_2_LOW};
use super::real::{Real, polynomial};
use pulp::Simd;

/// (2 artanh s - 2 s)/s^3 in powers of s^2.
const R: [f64; 7] = [
    0.666_666_666_666_667,
    0.399_999_999_998_988_9,
    0.285_714_286_262_538_36,
    0.222_222_110_893_794_93,
    0.181_828_924_325_370_32,
    0.153_316_117_220_506_53,
    0.146_178_071_534_628_4,
];

const SMALLEST_NORMAL: f64 = f64::MIN_POSITIVE;
const LIFT_EXPONENT: f64 = 54.0;
const LIFT: f64 = 18_014_398_509_481_984.0; // 2^54

impl<S: Simd> Real<S> {
    /// Natural logarithm. Worst error found 0.76 ulp.
    #[inline(always)]
    #[must_use]
    pub fn ln(self) -> Self {
        let small = self.less(SMALLEST_NORMAL);
        let (e, m) = small.select(self * LIFT, self).split_exponent();
        let e = small.select(e - LIFT_EXPONENT, e);
        ln_of_split(e, m - 1.0, self.constant(0.0)).or_ends_of_ln(self)
    }

    /// Natural logarithm of 1 + `self`, with no loss for small arguments. Worst error found 2.2 ulp.
    #[inline(always)]
    #[must_use]
    pub fn ln_1p(self) -> Self {
        let sum = self + 1.0;
        let (e, m) = sum.split_exponent();
        // Where nothing is scaled, the argument itself is better than (1 + x) - 1; elsewhere the
        // logarithm is at least 0.34 and what the sum lost by rounding does not show.
        let f = e.equal(0.0).select(self, m - 1.0);
        ln_of_split(e, f, self.constant(0.0)).copysign(self).or_ends_of_ln(sum)
    }

    /// ln(`self`^2 + `other`^2), with no loss where the sum of squares is near 1; the squares must
    /// neither overflow nor vanish. Worst error found 1.0 ulp.
    #[inline(always)]
    #[must_use]
    pub fn ln_sum_of_squares(self, other: Self) -> Self {
        let (a, b) = (self * self, other * other);
        let larger = a.greater(b);
        let (high, low) = (larger.select(a, b), larger.select(b, a));
        let sum = high + low;
        let lost = (low - (sum - high)) + (self.product_residue(self, a) + other.product_residue(other, b));
        let (e, m) = sum.split_exponent();
        // d ln = d sum/sum; 2 - m is close enough to 1/m
        let correction = (lost * (2.0 - m)) * (-e).exp2_of_integer();
        ln_of_split(e, m - 1.0, correction).or_ends_of_ln(sum)
    }

    /// Replaces `self` where the argument of the logarithm has no finite positive value.
    #[inline(always)]
    fn or_ends_of_ln(self, argument: Self) -> Self {
        let result = argument.less(f64::INFINITY).select(self, argument);
        let result = argument.equal(0.0).select(f64::NEG_INFINITY, result);
        argument.less(0.0).select(f64::NAN, result)
    }
}

/// ln((1 + f) 2^e) + correction.
#[inline(always)]
fn ln_of_split<S: Simd>(e: Real<S>, f: Real<S>, correction: Real<S>) -> Real<S> {
    let s = f / (f + 2.0);
    let z = s * s;
    let half_square = (f * 0.5) * f;
    // 2 artanh s = f - f^2/2 + s (f^2/2 + s^2 R): the leading terms are exact or nearly so
    let tail = s.mul_add(z.mul_add(polynomial(z, R), half_square), e.mul_add(LN_2_LOW, correction));
    e.mul_add(LN_2_HIGH, f - (half_square - tail))
}
