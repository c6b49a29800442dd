//! Complex numbers, one register for each part.

use super::real::Real;
use pulp::Simd;
use std::ops::{Add, Mul, Neg, Sub};

/// A complex number in every lane.
#[derive(Clone, Copy, Debug)]
pub struct Complex<S: Simd> {
    /// Real part.
    pub re: Real<S>,
    /// Imaginary part.
    pub im: Real<S>,
}

/// Moduli within these bounds can be squared and halved with nothing lost.
const SQUARABLE: (f64, f64) = (1e-140, 1e140);

impl<S: Simd> Complex<S> {
    /// From its parts.
    #[inline(always)]
    pub fn new(re: Real<S>, im: Real<S>) -> Self {
        Self { re, im }
    }

    /// A real factor.
    #[inline(always)]
    #[must_use]
    pub fn scale(self, factor: Real<S>) -> Self {
        Self::new(self.re * factor, self.im * factor)
    }

    /// `self` plus one.
    #[inline(always)]
    #[must_use]
    pub fn plus_one(self) -> Self {
        Self::new(self.re + 1.0, self.im)
    }

    /// `self` plus `factor` times `other`.
    #[inline(always)]
    #[must_use]
    pub fn add_scaled(self, other: Self, factor: Real<S>) -> Self {
        Self::new(factor.mul_add(other.re, self.re), factor.mul_add(other.im, self.im))
    }

    /// Real part of `self` times the conjugate of `other`.
    #[inline(always)]
    #[must_use]
    pub fn re_mul_conj(self, other: Self) -> Real<S> {
        self.im.mul_add(other.im, self.re * other.re)
    }

    /// `self` times the conjugate of `other`.
    #[inline(always)]
    #[must_use]
    pub fn mul_conj(self, other: Self) -> Self {
        Self::new(self.im.mul_add(other.im, self.re * other.re), self.re.neg_mul_add(other.im, self.im * other.re))
    }

    /// `self` times the imaginary unit.
    #[inline(always)]
    #[must_use]
    pub fn times_j(self) -> Self {
        Self::new(-self.im, self.re)
    }

    /// `self * factor + addend`.
    #[inline(always)]
    #[must_use]
    pub fn mul_add(self, factor: Self, addend: Self) -> Self {
        Self::new(
            self.im.neg_mul_add(factor.im, self.re.mul_add(factor.re, addend.re)),
            self.im.mul_add(factor.re, self.re.mul_add(factor.im, addend.im)),
        )
    }

    /// Squared modulus.
    #[inline(always)]
    #[must_use]
    pub fn norm_sqr(self) -> Real<S> {
        self.re.mul_add(self.re, self.im * self.im)
    }

    /// One over `self`, for moduli whose square is in range. Worst error found 2 ulp of the modulus.
    #[inline(always)]
    #[must_use]
    pub fn recip(self) -> Self {
        let over = 1.0 / self.norm_sqr();
        Self::new(self.re * over, -self.im * over)
    }

    /// The square root with a real part that is not negative: of two waves, the one that decays. On
    /// the cut, whatever the sign of its zero, the imaginary part is positive. Worst error found
    /// 1.8 ulp in either part.
    #[inline(always)]
    #[must_use]
    pub fn sqrt(self) -> Self {
        let largest = self.re.abs().larger(self.im.abs());
        if largest.less(SQUARABLE.1).all() && largest.greater(SQUARABLE.0).all() {
            self.sqrt_in_range()
        } else {
            let root = |part: fn(num_complex::Complex64) -> f64| {
                self.re.map_lanes_with(self.im, |re, im| {
                    part(crate::complex_functions::decaying_root(num_complex::Complex64::new(re, im)))
                })
            };
            Self::new(root(|z| z.re), root(|z| z.im))
        }
    }

    /// The square root as [`Complex::sqrt`] gives it and one over it, cheaper than both apart; the
    /// modulus of `self` must be within 1e-140 and 1e140.
    #[inline(always)]
    #[must_use]
    pub fn sqrt_and_recip(self) -> (Self, Self) {
        let modulus = self.norm_sqr().sqrt();
        let twice_larger = ((modulus + self.re.abs()) * 2.0).sqrt();
        // one division serves 1/(2 larger) and 1/modulus, which is the root's squared modulus
        let over_both = 1.0 / (twice_larger * modulus);
        let over_modulus = over_both * twice_larger;
        let larger = twice_larger * 0.5;
        let smaller = (self.im.abs() * modulus) * over_both;
        let right = self.re.greater(0.0);
        let root = Self::new(right.select(larger, smaller), right.select(smaller, larger).copysign(self.im + 0.0));
        (root, Self::new(root.re * over_modulus, -root.im * over_modulus))
    }

    #[inline(always)]
    fn sqrt_in_range(self) -> Self {
        let modulus = self.norm_sqr().sqrt();
        let twice_larger = ((modulus + self.re.abs()) * 2.0).sqrt();
        let larger = twice_larger * 0.5;
        let smaller = self.im.abs() / twice_larger;
        let right = self.re.greater(0.0);
        Self::new(right.select(larger, smaller), right.select(smaller, larger).copysign(self.im + 0.0))
    }

    /// e to the power `self`, by `exp` and `sin_cos`, whose errors add in either part.
    #[inline(always)]
    #[must_use]
    pub fn exp(self) -> Self {
        let modulus = self.re.exp();
        let (sin, cos) = self.im.sin_cos();
        Self::new(modulus * cos, modulus * sin)
    }

    /// e to the power `self`, minus one, with no loss where the whole is small.
    #[inline(always)]
    #[must_use]
    pub fn exp_m1(self) -> Self {
        let growth = self.re.exp_m1();
        let (sin, cos) = (self.im * 0.5).sin_cos();
        let modulus = growth + 1.0;
        // e^x cos y - 1 = (e^x - 1) - 2 e^x sin^2(y/2)
        let versine = (sin * sin) * 2.0;
        let doubled = (sin * cos) * 2.0;
        Self::new(versine.neg_mul_add(modulus, growth), doubled * modulus)
    }

    /// ln of the squared modulus, twice the real part of the logarithm.
    #[inline(always)]
    #[must_use]
    pub fn ln_norm_sqr(self) -> Real<S> {
        self.re.ln_sum_of_squares(self.im)
    }

    /// ln |1 + `self`|, with no loss where `self` is small.
    #[inline(always)]
    #[must_use]
    pub fn ln_abs_identity_plus(self) -> Real<S> {
        // |1 + z|^2 - 1, formed without the one
        let excess = self.re.mul_add(2.0, self.norm_sqr());
        let near = excess.ln_1p();
        let cancels = excess.less(-0.5);
        if cancels.any() {
            let sum = Self::new(self.re + 1.0, self.im).ln_norm_sqr();
            cancels.select(sum, near) * 0.5
        } else {
            near * 0.5
        }
    }

    /// Principal natural logarithm.
    #[inline(always)]
    #[must_use]
    pub fn ln(self) -> Self {
        Self::new(self.ln_norm_sqr() * 0.5, self.im.atan2(self.re))
    }
}

impl<S: Simd> Add for Complex<S> {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl<S: Simd> Sub for Complex<S> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl<S: Simd> Neg for Complex<S> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self::new(-self.re, -self.im)
    }
}

impl<S: Simd> Mul for Complex<S> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        Self::new(self.im.neg_mul_add(other.im, self.re * other.re), self.im.mul_add(other.re, self.re * other.im))
    }
}

impl<S: Simd> std::ops::Div for Complex<S> {
    type Output = Self;
    /// For divisors whose squared modulus is in range.
    #[inline(always)]
    fn div(self, other: Self) -> Self {
        let over = 1.0 / other.norm_sqr();
        Self::new(
            self.im.mul_add(other.im, self.re * other.re) * over,
            self.re.neg_mul_add(other.im, self.im * other.re) * over,
        )
    }
}
