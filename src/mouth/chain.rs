//! One mode on its way through an opening in a thick wall.
//!
//! A wave meets the mouth of an opening, excites a mode of the opening, which runs through the depth
//! of the wall and radiates on the other side. Both mouths see the same radiation admittance Y; with
//! G its real part and (A, B; C, D) the chain matrix of what lies between them, the mode hands on
//!
//! T = |2G / (C + (A + D) Y + B Y²)|²
//!
//! of what could be handed on, and T ≤ 1 without gain. Waves that come from all of the half-space
//! then carry through the opening the averaged cross-section
//!
//! σ = (λ²/4π) Σ T,
//!
//! summed over its modes: the effective area of a matched antenna in front of a wall, averaged over
//! angle and polarization, is λ²/4π whatever the antenna. Both follow from reciprocity; for the
//! network view of apertures see R. F. Harrington, J. R. Mautz, "A generalized network formulation
//! for aperture problems", IEEE Trans. Antennas Propag. 24 (1976) 870 (from memory).
//!
//! Admittances are carried as jωμ₀ times themselves, referred to the cross-section of the opening,
//! so that they have the unit of a wavenumber: a mode with propagation constant γ in an empty,
//! lossless guide has the wave admittance γ.

use num_complex::Complex64;

use crate::complex_functions::{decaying_root, exp_m1};

/// Natural logarithm of λ²/4π, m²: what one fully open mode contributes.
pub(crate) fn ln_mode_area(wavenumber_per_m: f64) -> f64 {
    std::f64::consts::PI.ln() - 2.0 * wavenumber_per_m.ln()
}

/// The chain matrix between the two mouths, with its size split off so that it cannot overflow.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chain {
    a: Complex64,
    b: Complex64,
    c: Complex64,
    d: Complex64,
    ln_scale: f64,
}

impl Chain {
    /// Nothing between the mouths.
    pub(crate) fn through() -> Self {
        let (zero, one) = (Complex64::new(0.0, 0.0), Complex64::new(1.0, 0.0));
        Self { a: one, b: zero, c: zero, d: one, ln_scale: 0.0 }
    }

    /// Followed by a length of guide, by the square of its propagation constant and its series
    /// impedance relative to jωμ₀ (one for an empty guide with perfect walls).
    pub(crate) fn line(self, gamma_squared: Complex64, series: Complex64, depth_m: f64) -> Self {
        if depth_m == 0.0 {
            return self;
        }
        let gamma = decaying_root(gamma_squared);
        let exponent = gamma * depth_m;
        // With exp(γd)/2 split off: cosh → 1 + q, sinh/γ → (1 − q)/γ, q = exp(−2γd).
        let fall = exp_m1(-2.0 * exponent);
        let cosh = fall + 2.0;
        // To 1 − q = 2γd − 2(γd)² + …: the quotient at γ = 0 without 0/0.
        let sinh_over_gamma =
            if exponent.norm_sqr() < 1e-60 { Complex64::new(2.0 * depth_m, 0.0) } else { -fall / gamma };
        let b = series * sinh_over_gamma;
        let c = gamma_squared / series * sinh_over_gamma;
        Self {
            a: self.a * cosh + self.b * c,
            b: self.a * b + self.b * cosh,
            c: self.c * cosh + self.d * c,
            d: self.c * b + self.d * cosh,
            // The real part alone: a phase that all four share does not show in the power.
            ln_scale: self.ln_scale + exponent.re - std::f64::consts::LN_2,
        }
    }

    /// Followed by an admittance across the opening (jωμ₀ times it, referred to its section).
    pub(crate) fn shunt(self, admittance: Complex64) -> Self {
        Self { a: self.a + self.b * admittance, c: self.c + self.d * admittance, ..self }
    }

    /// Followed by its own mirror image.
    pub(crate) fn and_back(self) -> Self {
        let (along, a, d) = (self.a * self.d + self.b * self.c, self.a, self.d);
        Self { a: along, b: 2.0 * a * self.b, c: 2.0 * self.c * d, d: along, ln_scale: 2.0 * self.ln_scale }
    }

    /// Natural logarithm of the power transmission between two mouths of this radiation admittance.
    pub(crate) fn ln_transmission(&self, mouth: Complex64) -> f64 {
        if mouth.im == 0.0 {
            return f64::NEG_INFINITY;
        }
        2.0 * ((2.0 * mouth.im).ln() - self.response(mouth).norm().ln() - self.ln_scale)
    }

    /// C + (A + D) Y + B Y², without the size that is split off. It turns by half a circle through every
    /// resonance between the mouths.
    pub(crate) fn response(&self, mouth: Complex64) -> Complex64 {
        self.c + mouth * (self.a + self.d + self.b * mouth)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn complex(re: f64, im: f64) -> Complex64 {
        Complex64::new(re, im)
    }

    #[test]
    fn a_matched_guide_passes_everything() {
        let gamma_squared = complex(-4.0, 0.0);
        let ln = Chain::through().line(gamma_squared, complex(1.0, 0.0), 0.7).ln_transmission(complex(0.0, 2.0));
        assert!(ln.abs() < 1e-14, "{ln}");
    }

    #[test]
    fn a_thin_wall_leaves_conductance_over_admittance() {
        let mouth = complex(3.0, 4.0);
        let ln = Chain::through().ln_transmission(mouth);
        assert!((ln - 2.0 * (4.0_f64 / 5.0).ln()).abs() < 1e-15);
    }

    #[test]
    fn two_lines_are_one_longer_line() {
        let (gamma_squared, series, mouth) = (complex(3.0, 0.4), complex(1.2, -0.3), complex(0.5, 0.1));
        let whole = Chain::through().line(gamma_squared, series, 1.1).ln_transmission(mouth);
        let parts =
            Chain::through().line(gamma_squared, series, 0.4).line(gamma_squared, series, 0.7).ln_transmission(mouth);
        assert!((whole - parts).abs() < 1e-13, "{whole} {parts}");
    }

    #[test]
    fn there_and_back_is_the_way_there_and_its_mirror_image() {
        let (gamma_squared, series) = (complex(3.0, 0.4), complex(1.2, -0.3));
        let (shunt, mouth) = (complex(0.7, 0.2), complex(0.5, 0.1));
        let there = Chain::through().line(gamma_squared, series, 0.3).shunt(shunt).line(gamma_squared, series, 0.5);
        let whole = there.line(gamma_squared, series, 0.5).shunt(shunt).line(gamma_squared, series, 0.3);
        let (found, expected) = (there.and_back().ln_transmission(mouth), whole.ln_transmission(mouth));
        assert!((found - expected).abs() < 1e-13, "{found} {expected}");
    }

    #[test]
    fn deep_walls_do_not_overflow_and_cutoff_is_no_gap() {
        let one = complex(1.0, 0.0);
        let mouth = complex(0.4, 1e-9);
        let deep = Chain::through().line(complex(1e6, 0.0), one, 1e6).ln_transmission(mouth);
        assert!(deep.is_finite() && deep < -1.9e9);
        let below = Chain::through().line(complex(1e-12, 0.0), one, 0.3).ln_transmission(mouth);
        let at = Chain::through().line(complex(0.0, 0.0), one, 0.3).ln_transmission(mouth);
        let above = Chain::through().line(complex(-1e-12, 0.0), one, 0.3).ln_transmission(mouth);
        assert!((below - at).abs() < 1e-11 && (above - at).abs() < 1e-11);
    }

    #[test]
    fn a_shunt_is_the_limit_of_a_leaky_line() {
        let one = complex(1.0, 0.0);
        let (mouth, shunt, depth_m) = (complex(0.3, 0.05), complex(0.7, 0.2), 1e-7);
        let lumped = Chain::through().shunt(shunt).ln_transmission(mouth);
        let spread = Chain::through().line(shunt / depth_m, one, depth_m).ln_transmission(mouth);
        assert!((lumped - spread).abs() < 1e-6, "{lumped} {spread}");
    }
}
