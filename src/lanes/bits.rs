//! Powers of two and exponents, taken from and put into the bit pattern.

use super::real::Real;
use pulp::Simd;

/// Adding this number rounds to an integer, which then stands in the low bits of the pattern.
const ROUNDER: f64 = 6_755_399_441_055_744.0; // 1.5 * 2^52
const EXPONENT_BIAS: f64 = 1023.0;
const FRACTION_BITS: u32 = 52;

impl<S: Simd> Real<S> {
    /// The nearest integer, for magnitudes below 2^51; a half goes to the even side.
    #[inline(always)]
    pub(super) fn round(self) -> Self {
        (self + ROUNDER) - ROUNDER
    }

    /// The two lowest bits of an integer as masks: whether it is odd, and a number that is negative
    /// where its second bit is set.
    #[inline(always)]
    pub(super) fn quadrant(self) -> Quadrant<S> {
        let isa = self.isa;
        let pattern = isa.transmute_u64s_f64s((self + ROUNDER).register);
        // 2^63 and 2^62 move bit 0 and bit 1 to the sign place
        let lifted = |power: u32| {
            let shifted = isa.mul_u64s(pattern, isa.splat_u64s(1 << power));
            Self::new(isa, isa.transmute_f64s_u64s(shifted))
        };
        Quadrant { odd: lifted(63), second: lifted(62) }
    }

    /// 2 to the power `self`, an integer in -1022..=1023.
    #[inline(always)]
    pub(super) fn exp2_of_integer(self) -> Self {
        let isa = self.isa;
        let pattern = isa.transmute_u64s_f64s((self + (ROUNDER + EXPONENT_BIAS)).register);
        // a product by 2^52 is the shift into the exponent's place
        let shifted = isa.mul_u64s(pattern, isa.splat_u64s(1 << FRACTION_BITS));
        Self::new(isa, isa.transmute_f64s_u64s(shifted))
    }

    /// A normal positive number as `(e, m)`, `m * 2^e`, `m` in [sqrt(1/2), sqrt 2).
    #[inline(always)]
    pub(super) fn split_exponent(self) -> (Self, Self) {
        /// Pattern of sqrt(1/2), so that what lies above it counts as the next power
        const ROOT_HALF: u64 = 0x3fe6_a09e_667f_3bcd;
        /// 2^52 as an `f64`, whose low bits take an integer
        const HOLDER: u64 = 0x4330_0000_0000_0000;
        let isa = self.isa;
        let pattern = isa.transmute_u64s_f64s(self.register);
        let above = isa.sub_u64s(pattern, isa.splat_u64s(ROOT_HALF));
        // the shift keeps the sign: numbers below sqrt(1/2) have negative exponents
        let biased = isa.add_u64s(above, isa.splat_u64s((EXPONENT_BIAS as u64 + 1) << FRACTION_BITS));
        let exponent = map_each::<S>(biased, |bits| (bits >> FRACTION_BITS) | HOLDER);
        let exponent =
            Self::new(isa, isa.transmute_f64s_u64s(exponent)) - (4_503_599_627_370_496.0 + EXPONENT_BIAS + 1.0);
        let kept = isa.and_u64s(above, isa.splat_u64s((1 << FRACTION_BITS) - 1));
        let mantissa = isa.add_u64s(kept, isa.splat_u64s(ROOT_HALF));
        (exponent, Self::new(isa, isa.transmute_f64s_u64s(mantissa)))
    }
}

impl<S: Simd> Real<S> {
    /// For a normal positive number x: the power of two that brings it near 1, and that power's
    /// natural logarithm.
    #[inline(always)]
    pub(crate) fn power_of_two_near(self) -> (Self, Self) {
        let (exponent, _) = self.split_exponent();
        // two steps reach the reciprocal of any normal number
        let half = (exponent * -0.5).round();
        let scale = half.exp2_of_integer() * (-(exponent + half)).exp2_of_integer();
        (scale, exponent * -std::f64::consts::LN_2)
    }
}

/// See [`Real::quadrant`].
pub(super) struct Quadrant<S: Simd> {
    /// Negative where the integer is odd.
    pub(super) odd: Real<S>,
    /// Negative where the second bit is set.
    pub(super) second: Real<S>,
}

/// A shift has no portable instruction in the interface; this loop compiles to one.
#[inline(always)]
fn map_each<S: Simd>(mut patterns: S::u64s, f: impl Fn(u64) -> u64) -> S::u64s {
    for pattern in pulp::bytemuck::cast_slice_mut::<S::u64s, u64>(std::slice::from_mut(&mut patterns)) {
        *pattern = f(*pattern);
    }
    patterns
}
