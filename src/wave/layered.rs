//! A wave through a stack of layers, carried as the logarithm of its transmission.
//!
//! Seen from behind, each boundary adds to the transmission, and the reflection of all that lies
//! behind is carried forward (the recursion of, for example, W. C. Chew, *Waves and Fields in
//! Inhomogeneous Media*, 1990, sec. 2.1.3, from memory):
//!
//! - propagation constant in a layer γ² = k_t² − k₀² ε μ, decaying root;
//! - wave impedance Z_TE = jωμ/γ, Z_TM = γ/(jωε);
//! - at a boundary between layers i and i+1, with u = 1 + ρ and v = 1 − ρ of what lies behind and Y
//!   the admittance of a film in the boundary:
//!   S = Z_{i+1} u + Z_i v + Z_i Z_{i+1} Y u, and the forward wave grows by 2 Z_{i+1}/S;
//! - through a layer of thickness d: ln T −= γ d, ρ ×= exp(−2γd).
//!
//! Two forms keep the digits that the textbook form loses. The reflection ρ of a metal is within
//! 10⁻⁹ of ±1, so 1 + ρ and 1 − ρ are carried instead of ρ, and exp(−2γd) enters only as
//! exp(−2γd) − 1. No growing exponential is ever formed: metres of metal at a terahertz give their
//! millions of decibels, and a nanometre at 1 Hz its few.
//!
//! All impedances here are relative to that of vacuum.

use num_complex::Complex64;

use super::incidence::{Incidence, Polarization};
use crate::complex_functions::{decaying_root, exp_m1, ln};
use crate::material::Medium;

/// Taken from εμ − 1, in which it is far below rounding except where a wave grazes inside a layer
/// (γ = 0): that case then comes out as its limit instead of 0/0.
pub(super) const OFF_GRAZING: f64 = 1e-40;

/// One member of a stack, at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stratum {
    /// A layer of some thickness.
    Slab {
        /// What it is made of.
        medium: Medium,
        /// Thickness, m.
        thickness_m: f64,
    },
    /// A film without thickness, by its sheet admittance times the impedance of vacuum.
    Film {
        /// Sheet admittance relative to that of vacuum.
        relative_admittance: Complex64,
    },
    /// A screen whose two faces see each other through openings, by impedances relative to vacuum:
    /// E₁ = own·H₁ − e^{−nepers}·transfer·H₂ and E₂ = e^{−nepers}·transfer·H₁ − own·H₂.
    Screen {
        /// Impedance of either face with the other one shorted off.
        own: Complex64,
        /// Impedance from one face to the other, without the attenuation.
        transfer: Complex64,
        /// Attenuation between the faces, Np.
        nepers: f64,
    },
}

/// What a stack in vacuum does to a wave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scattering {
    /// Complex natural logarithm of (tangential electric field behind the far face) / (incident
    /// tangential electric field at the near face).
    pub ln_transmission: Complex64,
    /// Reflected over incident tangential electric field at the near face.
    pub reflection: Complex64,
}

/// Propagation constant across a layer, 1/m, and wave impedance relative to vacuum.
#[must_use]
pub fn propagation_and_impedance(
    medium: &Medium,
    wave: &Incidence,
    polarization: Polarization,
) -> (Complex64, Complex64) {
    let k0 = wave.wavenumber_per_m();
    let contrast = medium.relative_permittivity * medium.relative_permeability - 1.0;
    // From the value in vacuum, so that a layer of air at grazing incidence keeps its digits.
    let propagation = decaying_root(wave.propagation_squared_per_m2() - k0 * k0 * (contrast - OFF_GRAZING));
    let impedance = match polarization {
        Polarization::Te => Complex64::i() * k0 * medium.relative_permeability / propagation,
        Polarization::Tm => propagation / (Complex64::i() * k0 * medium.relative_permittivity),
    };
    (propagation, impedance)
}

/// Transmission and reflection of a stack with vacuum on both sides, its first member facing the
/// wave.
///
/// Domain: any passive media; transmission to a few parts in 10¹³ of its decibels (and 10⁻¹³ dB);
/// reflection to a few 10⁻¹⁵ in magnitude.
#[must_use]
pub fn scatter<I>(strata: I, wave: &Incidence, polarization: Polarization) -> Scattering
where
    I: IntoIterator<Item = Stratum>,
    I::IntoIter: DoubleEndedIterator,
{
    let (_, outside) = propagation_and_impedance(&Medium::VACUUM, wave, polarization);
    let mut behind = Behind {
        impedance: outside,
        one_plus: Complex64::new(1.0, 0.0),
        one_minus: Complex64::new(1.0, 0.0),
        film: Complex64::new(0.0, 0.0),
        ln_transmission: Complex64::new(0.0, 0.0),
    };
    for stratum in strata.into_iter().rev() {
        match stratum {
            Stratum::Film { relative_admittance } => behind.film += relative_admittance,
            Stratum::Screen { own, transfer, nepers } => behind.cross_screen(own, transfer, nepers),
            Stratum::Slab { medium, thickness_m } => {
                let (propagation, impedance) = propagation_and_impedance(&medium, wave, polarization);
                behind.cross_boundary(impedance);
                behind.cross_layer(propagation * thickness_m);
            }
        }
    }
    behind.cross_boundary(outside);
    Scattering { ln_transmission: behind.ln_transmission, reflection: behind.reflection() }
}

/// Everything behind the point reached so far, working towards the wave.
struct Behind {
    impedance: Complex64,
    one_plus: Complex64,
    one_minus: Complex64,
    film: Complex64,
    ln_transmission: Complex64,
}

impl Behind {
    fn reflection(&self) -> Complex64 {
        (self.one_plus - self.one_minus) * 0.5
    }

    fn cross_boundary(&mut self, impedance: Complex64) {
        let forward = self.impedance * self.one_plus;
        let backward = impedance * (self.one_minus + forward * self.film);
        let sum = forward + backward;
        self.ln_transmission += ln(2.0 * self.impedance / sum);
        self.one_plus = 2.0 * forward / sum;
        self.one_minus = 2.0 * backward / sum;
        self.impedance = impedance;
        self.film = Complex64::new(0.0, 0.0);
    }

    fn cross_screen(&mut self, own: Complex64, transfer: Complex64, nepers: f64) {
        // Fields behind the screen over the forward wave there, a film in between included.
        let electric = self.one_plus;
        let magnetic = self.one_minus / self.impedance + electric * self.film;
        self.film = Complex64::new(0.0, 0.0);
        // In front, with the factor e^{nepers} taken out.
        let front_magnetic = (electric + own * magnetic) / transfer;
        let front_electric = own * front_magnetic - transfer * (-2.0 * nepers).exp() * magnetic;
        let twice_forward = front_electric + self.impedance * front_magnetic;
        self.ln_transmission -= ln(0.5 * twice_forward) + nepers;
        self.one_plus = 2.0 * front_electric / twice_forward;
        self.one_minus = 2.0 * self.impedance * front_magnetic / twice_forward;
    }

    fn cross_layer(&mut self, exponent: Complex64) {
        let change = self.reflection() * exp_m1(-2.0 * exponent);
        self.one_plus += change;
        self.one_minus -= change;
        self.ln_transmission -= exponent;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decibel::DB_PER_NEPER;

    #[test]
    fn nothing_passes_everything() {
        let wave = Incidence::at_angle(1e9, 37.0);
        let result = scatter([], &wave, Polarization::Tm);
        assert_eq!(result.ln_transmission, Complex64::new(0.0, 0.0));
        assert_eq!(result.reflection.norm(), 0.0);
        let air = Stratum::Slab { medium: Medium::VACUUM, thickness_m: 2.0 };
        let result = scatter([air], &wave, Polarization::Te);
        assert!(result.ln_transmission.re.abs() < 1e-15 && result.reflection.norm() < 1e-15);
    }

    #[test]
    fn a_thin_screen_is_a_film() {
        // Own and transfer impedance alike: a shunt, here with a film and a slab beside it.
        let impedance = Complex64::new(0.02, 0.3);
        let slab = Stratum::Slab {
            medium: Medium { relative_permittivity: Complex64::new(2.5, -0.1), ..Medium::VACUUM },
            thickness_m: 0.013,
        };
        let resistive = Stratum::Film { relative_admittance: Complex64::new(0.7, 0.0) };
        let film = Stratum::Film { relative_admittance: 1.0 / impedance };
        let screen = Stratum::Screen { own: impedance, transfer: impedance, nepers: 0.0 };
        for polarization in [Polarization::Te, Polarization::Tm] {
            let wave = Incidence::at_angle(3e9, 50.0);
            let as_film = scatter([slab, film, resistive, slab], &wave, polarization);
            let as_screen = scatter([slab, screen, resistive, slab], &wave, polarization);
            assert!((as_film.ln_transmission - as_screen.ln_transmission).norm() < 1e-14);
            assert!((as_film.reflection - as_screen.reflection).norm() < 1e-14);
        }
    }

    #[test]
    fn a_film_is_a_shunt() {
        // T = 2/(2 + η₀/R) at normal incidence; R = η₀/2 halves the field.
        let film = Stratum::Film { relative_admittance: Complex64::new(2.0, 0.0) };
        let result = scatter([film], &Incidence::at_angle(1e9, 0.0), Polarization::Te);
        assert!((result.ln_transmission.re * -DB_PER_NEPER - 6.020_599_913_279_624).abs() < 1e-13);
        assert!((result.reflection - Complex64::new(-0.5, 0.0)).norm() < 1e-15);
        // Two films in the same plane add.
        let half = Stratum::Film { relative_admittance: Complex64::new(1.0, 0.0) };
        let twice = scatter([half, half], &Incidence::at_angle(1e9, 0.0), Polarization::Te);
        assert!((twice.ln_transmission - result.ln_transmission).norm() < 1e-15);
    }
}
