//! Exponential, and exponential minus one.
//!
//! x = n ln 2 + r with |r| <= (ln 2)/2; e^r - 1 = r + r^2 Q(r), Q a polynomial fitted at Chebyshev
//! nodes to 3e-18; then 2^n by the exponent field.

use super::real::{Real, polynomial};
use pulp::Simd;
use std::f64::consts::LOG2_E;

/// ln 2 in two parts, the first short enough for n times it to be exact.
pub(super) const LN_2_HIGH: f64 = 0.693_147_180_559_890_3;
pub(super) const LN_2_LOW: f64 = 5.497_923_018_708_371e-14;

/// (e^r - 1 - r)/r^2.
const Q: [f64; 11] = [
    0.5,
    0.166_666_666_666_666_7,
    0.041_666_666_666_666_67,
    0.008_333_333_333_326_042,
    0.001_388_888_888_888_133,
    0.000_198_412_698_751_460_28,
    2.480_158_733_202_175_8e-5,
    2.755_725_498_816_382_7e-6,
    2.755_726_669_037_784e-7,
    2.510_538_820_327_711_4e-8,
    2.091_726_464_209_951e-9,
];

impl<S: Simd> Real<S> {
    /// e to the power `self`. Worst error found 0.95 ulp.
    #[inline(always)]
    #[must_use]
    pub fn exp(self) -> Self {
        // beyond these the result is 0 or infinite whatever comes after
        let x = self.less(-750.0).select(-750.0, self);
        let x = x.greater(750.0).select(750.0, x);
        let (n, excess) = x.reduce();
        // in two steps, since 2^n alone leaves the range before the result does
        let half = (n * 0.5).round();
        (excess + 1.0) * half.exp2_of_integer() * (n - half).exp2_of_integer()
    }

    /// e to the power `self`, minus one, with no loss for small arguments. Worst error found 1.9 ulp.
    #[inline(always)]
    #[must_use]
    pub fn exp_m1(self) -> Self {
        let x = self.less(-50.0).select(-50.0, self);
        let x = x.greater(709.9).select(709.9, x);
        let (n, excess) = x.reduce();
        // 2^(n-1) stays in range where 2^n does not
        let scale = (n - 1.0).exp2_of_integer();
        let half = scale.mul_add(excess, scale - 0.5);
        // halving would cost the smallest numbers a digit
        self.abs().less(1e-300).select(self, half + half)
    }

    /// (n, e^r - 1).
    #[inline(always)]
    fn reduce(self) -> (Self, Self) {
        let n = (self * LOG2_E).round();
        let r = n.neg_mul_add(LN_2_LOW, n.neg_mul_add(LN_2_HIGH, self));
        let excess = (r * r).mul_add(polynomial(r, Q), r);
        (n, excess)
    }
}
