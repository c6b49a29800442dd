//! The lowest modes of an opening as wide as it is long, more or less, and the rest of them as a whole.
//!
//! Below and around resonance one mode of the guide that the wall's depth makes carries each dipole.
//! Its mouth is described by a susceptance κ and a conductance g, relative to the cutoff wavenumber
//! k_c and as functions of z = k/k_c:
//!
//! κ = r (1 − A z²/(1 + B z³)),   g = u/(1 + u^p)^{1/p},   u = (2 k_c³ α/3π) r z².
//!
//! The static limit is exact for a thin wall (u carries the polarizability α) and for a thick one (r
//! carries the end correction of the evanescent mode: transmission 4r/(1+r)² exp(−γt)); the limit
//! z → ∞ is the open guide. A, B and p were fitted to a full mode-matching solution of the hole in
//! a thick wall; `docs/theory/aperture.md` states the differences.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::mouth::chain::Chain;

/// Frequencies over cutoff beyond which nothing more happens than that numbers overflow, and the
/// depth over wavelength at which even their logarithms are enormous.
pub(super) const CLOSED: f64 = 1e-60;
pub(super) const OPEN: f64 = 1e12;
pub(super) const DEEPEST: f64 = 1e200;

/// One dipole mode of an opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Channel {
    /// k_c, 1/m.
    pub cutoff_per_m: f64,
    /// r.
    pub end_correction: f64,
    /// u/z².
    pub strength: f64,
    /// A and B.
    pub detuning: (f64, f64),
    /// p.
    pub rounding: f64,
}

/// What the neighbours of an opening in an array do to one of its modes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Company {
    /// Power that it radiates over what it would alone.
    pub gathering: f64,
    /// What the neighbours' static fields take from κ.
    pub easing: f64,
}

impl Company {
    pub(super) const NONE: Self = Self { gathering: 1.0, easing: 0.0 };
}

impl Channel {
    /// u/z² from the polarizability in units of 1/k_c³.
    pub(super) fn strength(polarizability: f64, end_correction: f64) -> f64 {
        2.0 / (3.0 * PI) * polarizability * end_correction
    }

    /// Natural logarithm of the transmission through a wall of this thickness.
    pub(super) fn ln_transmission(&self, wavenumber_per_m: f64, wall_m: f64) -> f64 {
        self.ln_transmission_among(wavenumber_per_m, wall_m, Company::NONE)
    }

    /// The same of an opening among others like it.
    pub(super) fn ln_transmission_among(&self, wavenumber_per_m: f64, wall_m: f64, company: Company) -> f64 {
        let z = (wavenumber_per_m / self.cutoff_per_m).clamp(CLOSED, OPEN);
        let gamma_squared = Complex64::new((1.0 - z) * (1.0 + z), 0.0);
        Chain::through()
            .line(gamma_squared, Complex64::new(1.0, 0.0), (wall_m * self.cutoff_per_m).min(DEEPEST))
            .ln_transmission(self.mouth(z, company))
    }

    /// Polarizability through a wall of this thickness over that in a thin one.
    pub(super) fn static_share(&self, wall_m: f64) -> f64 {
        self.static_share_among(wall_m, Company::NONE)
    }

    /// The same of an opening among others like it.
    pub(super) fn static_share_among(&self, wall_m: f64, company: Company) -> f64 {
        let exponent = wall_m * self.cutoff_per_m;
        let (r, fall) = (self.end_correction - company.easing, (-2.0 * exponent).exp());
        let both = (1.0 + r) * (1.0 + r) - (1.0 - r) * (1.0 - r) * fall;
        4.0 * self.end_correction * (-exponent).exp() / both
    }

    /// κ + j z g.
    fn mouth(&self, z: f64, company: Company) -> Complex64 {
        let (a, b) = self.detuning;
        let susceptance = self.end_correction * (1.0 - a / (1.0 / (z * z) + b * z));
        let u = self.strength * z * z;
        // The same number written for either side of one, so that no power overflows.
        let conductance = if u < 1.0 {
            u / (1.0 + u.powf(self.rounding)).powf(1.0 / self.rounding)
        } else {
            1.0 / (1.0 + u.powf(-self.rounding)).powf(1.0 / self.rounding)
        };
        Complex64::new(susceptance - company.easing, z * conductance * company.gathering)
    }
}

/// All further modes together: their number, from the area less what is counted already, opening
/// as the tenth power of frequency (quadrupoles) up to their first cutoff.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rest {
    /// Area over 2π, m²: modes per k².
    pub area_over_two_pi_m2: f64,
    /// First cutoff wavenumber, 1/m.
    pub cutoff_per_m: f64,
    /// Weight of the opening law.
    pub onset: f64,
}

impl Rest {
    /// Natural logarithm of the sum of their transmissions, `counted` modes being dealt with apart.
    pub(super) fn ln_transmission(&self, wavenumber_per_m: f64, wall_m: f64, counted: f64) -> f64 {
        let excess = self.area_over_two_pi_m2 * wavenumber_per_m * wavenumber_per_m - counted;
        let root = excess.hypot(1.0);
        // (x + √(x² + 1))/2, without cancellation for negative x.
        let number = if excess > 0.0 { 0.5 * (excess + root) } else { 0.5 / (root - excess) };
        let z = (wavenumber_per_m / self.cutoff_per_m).clamp(CLOSED, OPEN);
        let depth = (wall_m * self.cutoff_per_m).min(DEEPEST) * ((1.0 - z) * (1.0 + z)).abs().sqrt();
        // cosh² below cutoff, cos² above: one analytic function of frequency.
        let ln_evanescent = if z < 1.0 {
            2.0 * (depth + (-2.0 * depth).exp().ln_1p() - std::f64::consts::LN_2)
        } else {
            2.0 * depth.cos().abs().ln()
        };
        let barrier = self.onset.ln() - 10.0 * z.ln() + ln_evanescent;
        number.ln() - softplus(barrier)
    }
}

/// ln(1 + exp x).
fn softplus(x: f64) -> f64 {
    if x > 0.0 { x + (-x).exp().ln_1p() } else { x.exp().ln_1p() }
}
