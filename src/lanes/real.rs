//! A register of reals, with the operators of `f64`.

use pulp::Simd;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// One register of `f64` of the instruction set `S`.
///
/// It carries the token of its instruction set, which has no size, so that the operators below can
/// reach the instructions.
#[derive(Clone, Copy, Debug)]
pub struct Real<S: Simd> {
    pub(super) isa: S,
    pub(super) register: S::f64s,
}

/// One truth value per lane.
#[derive(Clone, Copy, Debug)]
pub struct Mask<S: Simd> {
    isa: S,
    register: S::m64s,
}

impl<S: Simd> Real<S> {
    /// How many lanes a register has.
    pub const LANES: usize = S::F64_LANES;

    /// A register as the instruction set holds it.
    #[inline(always)]
    pub(super) fn new(isa: S, register: S::f64s) -> Self {
        Self { isa, register }
    }

    /// The same value in every lane.
    #[inline(always)]
    pub fn splat(isa: S, value: f64) -> Self {
        Self::new(isa, isa.splat_f64s(value))
    }

    /// The same value in every lane, on the instruction set of `self`.
    #[inline(always)]
    pub(crate) fn constant(self, value: f64) -> Self {
        Self::splat(self.isa, value)
    }

    /// `self * factor + addend`, in one rounding where the processor can do that.
    #[inline(always)]
    pub fn mul_add(self, factor: impl IntoReal<S>, addend: impl IntoReal<S>) -> Self {
        let (factor, addend) = (factor.into_real(self.isa), addend.into_real(self.isa));
        Self::new(self.isa, self.isa.mul_add_e_f64s(self.register, factor.register, addend.register))
    }

    /// `addend - self * factor`, in one rounding where the processor can do that.
    #[inline(always)]
    pub fn neg_mul_add(self, factor: impl IntoReal<S>, addend: impl IntoReal<S>) -> Self {
        let (factor, addend) = (factor.into_real(self.isa), addend.into_real(self.isa));
        Self::new(self.isa, self.isa.negate_mul_add_e_f64s(self.register, factor.register, addend.register))
    }

    /// What rounding took from the product `self * factor`: exact on every instruction set, slow
    /// where there is no fused multiply-add.
    #[inline(always)]
    pub(super) fn product_residue(self, factor: Self, product: Self) -> Self {
        Self::new(self.isa, self.isa.mul_add_f64s(self.register, factor.register, (-product).register))
    }

    /// Square root, correctly rounded.
    #[inline(always)]
    #[must_use]
    pub fn sqrt(self) -> Self {
        Self::new(self.isa, self.isa.sqrt_f64s(self.register))
    }

    /// Absolute value.
    #[inline(always)]
    #[must_use]
    pub fn abs(self) -> Self {
        self.map_pattern(|isa, pattern| isa.and_u64s(pattern, isa.splat_u64s(!SIGN)))
    }

    /// The magnitude of `self` with the sign of `sign`.
    #[inline(always)]
    #[must_use]
    pub fn copysign(self, sign: Self) -> Self {
        let isa = self.isa;
        let sign = isa.and_u64s(isa.transmute_u64s_f64s(sign.register), isa.splat_u64s(SIGN));
        self.abs().map_pattern(|isa, pattern| isa.or_u64s(pattern, sign))
    }

    /// `self` with its sign turned where `sign` is negative.
    #[inline(always)]
    #[must_use]
    pub(super) fn xor_sign(self, sign: Self) -> Self {
        let isa = self.isa;
        let sign = isa.and_u64s(isa.transmute_u64s_f64s(sign.register), isa.splat_u64s(SIGN));
        self.map_pattern(|isa, pattern| isa.xor_u64s(pattern, sign))
    }

    /// The larger of both; the second one where either is not a number.
    #[inline(always)]
    #[must_use]
    pub fn larger(self, other: Self) -> Self {
        self.greater(other).select(self, other)
    }

    /// The smaller of both; the second one where either is not a number.
    #[inline(always)]
    #[must_use]
    pub fn smaller(self, other: Self) -> Self {
        self.less(other).select(self, other)
    }

    /// `self < other`, lane by lane.
    #[inline(always)]
    pub fn less(self, other: impl IntoReal<S>) -> Mask<S> {
        let other = other.into_real(self.isa);
        Mask::new(self.isa, self.isa.less_than_f64s(self.register, other.register))
    }

    /// `self > other`, lane by lane.
    #[inline(always)]
    pub fn greater(self, other: impl IntoReal<S>) -> Mask<S> {
        let other = other.into_real(self.isa);
        Mask::new(self.isa, self.isa.greater_than_f64s(self.register, other.register))
    }

    /// `self == other`, lane by lane.
    #[inline(always)]
    pub fn equal(self, other: impl IntoReal<S>) -> Mask<S> {
        let other = other.into_real(self.isa);
        Mask::new(self.isa, self.isa.equal_f64s(self.register, other.register))
    }

    /// Where the sign bit is set: negative numbers and -0.
    #[inline(always)]
    pub(super) fn sign_mask(self) -> Mask<S> {
        let isa = self.isa;
        let pattern = isa.transmute_u64s_f64s(self.register);
        Mask::new(isa, isa.greater_than_or_equal_u64s(pattern, isa.splat_u64s(SIGN)))
    }

    /// Each lane by itself through a scalar function: the exact way out for rare arguments.
    #[inline(always)]
    pub(crate) fn map_lanes(mut self, f: impl Fn(f64) -> f64) -> Self {
        for lane in pulp::bytemuck::cast_slice_mut::<S::f64s, f64>(std::slice::from_mut(&mut self.register)) {
            *lane = f(*lane);
        }
        self
    }

    /// As [`Real::map_lanes`], with two arguments.
    #[inline(always)]
    pub(super) fn map_lanes_with(mut self, mut other: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        let firsts = pulp::bytemuck::cast_slice_mut::<S::f64s, f64>(std::slice::from_mut(&mut self.register));
        let seconds = pulp::bytemuck::cast_slice_mut::<S::f64s, f64>(std::slice::from_mut(&mut other.register));
        for (first, second) in firsts.iter_mut().zip(seconds) {
            *first = f(*first, *second);
        }
        self
    }

    #[inline(always)]
    fn map_pattern(self, f: impl FnOnce(S, S::u64s) -> S::u64s) -> Self {
        let isa = self.isa;
        let pattern = f(isa, isa.transmute_u64s_f64s(self.register));
        Self::new(isa, isa.transmute_f64s_u64s(pattern))
    }
}

const SIGN: u64 = 1 << 63;

impl<S: Simd> Mask<S> {
    #[inline(always)]
    fn new(isa: S, register: S::m64s) -> Self {
        Self { isa, register }
    }

    /// `yes` where the mask is set, `no` elsewhere.
    #[inline(always)]
    pub fn select(self, yes: impl IntoReal<S>, no: impl IntoReal<S>) -> Real<S> {
        let (yes, no) = (yes.into_real(self.isa), no.into_real(self.isa));
        Real::new(self.isa, self.isa.select_f64s(self.register, yes.register, no.register))
    }

    /// Whether any lane is set.
    #[inline(always)]
    #[must_use]
    pub fn any(self) -> bool {
        self.isa.first_true_m64s(self.register) < S::F64_LANES
    }

    /// Whether all lanes are set.
    #[inline(always)]
    #[must_use]
    pub fn all(self) -> bool {
        let unset = self.isa.not_m64s(self.register);
        self.isa.first_true_m64s(unset) >= S::F64_LANES
    }
}

impl<S: Simd> std::ops::BitAnd for Mask<S> {
    type Output = Self;
    #[inline(always)]
    fn bitand(self, other: Self) -> Self {
        Self::new(self.isa, self.isa.and_m64s(self.register, other.register))
    }
}

/// What may stand beside a [`Real`] in arithmetic: another one, or an `f64` for every lane.
pub trait IntoReal<S: Simd> {
    /// The value in every lane.
    fn into_real(self, isa: S) -> Real<S>;
}

impl<S: Simd> IntoReal<S> for Real<S> {
    #[inline(always)]
    fn into_real(self, _: S) -> Real<S> {
        self
    }
}

impl<S: Simd> IntoReal<S> for f64 {
    #[inline(always)]
    fn into_real(self, isa: S) -> Real<S> {
        Real::splat(isa, self)
    }
}

macro_rules! operator {
    ($trait:ident, $method:ident, $instruction:ident) => {
        impl<S: Simd, R: IntoReal<S>> $trait<R> for Real<S> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: R) -> Self {
                let other = other.into_real(self.isa);
                Self::new(self.isa, self.isa.$instruction(self.register, other.register))
            }
        }
        impl<S: Simd> $trait<Real<S>> for f64 {
            type Output = Real<S>;
            #[inline(always)]
            fn $method(self, other: Real<S>) -> Real<S> {
                Real::splat(other.isa, self).$method(other)
            }
        }
    };
}
operator!(Add, add, add_f64s);
operator!(Sub, sub, sub_f64s);
operator!(Mul, mul, mul_f64s);
operator!(Div, div, div_f64s);

impl<S: Simd> Neg for Real<S> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        self.map_pattern(|isa, pattern| isa.xor_u64s(pattern, isa.splat_u64s(SIGN)))
    }
}

/// A polynomial, lowest coefficient first, by Horner's rule.
#[inline(always)]
pub(super) fn polynomial<S: Simd, const N: usize>(x: Real<S>, coefficients: [f64; N]) -> Real<S> {
    let mut sum = x.constant(coefficients[N - 1]);
    for &coefficient in coefficients.iter().rev().skip(1) {
        sum = sum.mul_add(x, coefficient);
    }
    sum
}
