//! What lies between two mouths, a register at a time: the twin of [`Chain`](super::chain::Chain).

use std::f64::consts::LN_2;

use crate::lanes::{Complex, Real, Simd};

/// The chain matrix between the two mouths, with its size split off so that it cannot overflow.
#[derive(Clone, Copy)]
pub(crate) struct ChainLanes<S: Simd> {
    a: Complex<S>,
    b: Complex<S>,
    c: Complex<S>,
    d: Complex<S>,
    ln_scale: Real<S>,
}

impl<S: Simd> ChainLanes<S> {
    /// Nothing between the mouths; `like` gives the instruction set.
    #[inline(always)]
    pub(crate) fn through(like: Real<S>) -> Self {
        let zero = like.constant(0.0);
        let (none, one) = (Complex::new(zero, zero), Complex::new(like.constant(1.0), zero));
        Self { a: one, b: none, c: none, d: one, ln_scale: zero }
    }

    /// Followed by a length of guide, longer than nothing. Where γ² is zero or out of the range of its own
    /// square, the lane turns NaN and is left to the scalar twin.
    #[inline(always)]
    pub(crate) fn line(self, gamma_squared: Complex<S>, series: Complex<S>, depth_m: f64) -> Self {
        let (gamma, over_gamma) = gamma_squared.sqrt_and_recip();
        let exponent = gamma.scale(gamma.re.constant(depth_m));
        let fall = exponent.scale(gamma.re.constant(-2.0)).exp_m1();
        let cosh = Complex::new(fall.re + 2.0, fall.im);
        let sinh = Complex::new(-fall.re, -fall.im);
        let b = series * sinh * over_gamma;
        let c = sinh * gamma / series;
        Self {
            a: self.a * cosh + self.b * c,
            b: self.a * b + self.b * cosh,
            c: self.c * cosh + self.d * c,
            d: self.c * b + self.d * cosh,
            ln_scale: self.ln_scale + exponent.re - LN_2,
        }
    }

    /// Followed by an admittance across the opening.
    #[inline(always)]
    pub(crate) fn shunt(self, admittance: Complex<S>) -> Self {
        Self {
            a: self.b.mul_add(admittance, self.a),
            b: self.b,
            c: self.d.mul_add(admittance, self.c),
            d: self.d,
            ln_scale: self.ln_scale,
        }
    }

    /// Followed by its own mirror image.
    #[inline(always)]
    pub(crate) fn and_back(self) -> Self {
        let along = self.a.mul_add(self.d, self.b * self.c);
        let (b, c) = (self.a * self.b, self.c * self.d);
        Self { a: along, b: b + b, c: c + c, d: along, ln_scale: self.ln_scale * 2.0 }
    }

    /// C + (A + D) Y + B Y², without the size that is split off.
    #[inline(always)]
    pub(crate) fn response(&self, mouth: Complex<S>) -> Complex<S> {
        self.b.mul_add(mouth, self.a + self.d).mul_add(mouth, self.c)
    }

    /// ln of what is handed on, times a factor.
    #[inline(always)]
    pub(crate) fn ln_transmission(&self, response: Complex<S>, mouth: Complex<S>, factor: Real<S>) -> Real<S> {
        let twice = mouth.im * 2.0;
        (twice * twice * factor / response.norm_sqr()).ln() - self.ln_scale * 2.0
    }
}
