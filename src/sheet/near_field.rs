//! A layer near a small source, by the handbook's approximation: plane-wave losses with the wave
//! impedance of the source's field.
//!
//! Close to a short electric dipole or a small loop the ratio of the transverse fields is not that
//! of vacuum. With x = jkr, r the distance to the layer (S. A. Schelkunoff, *Electromagnetic Waves*,
//! 1943, secs. 2.6 and 6.2, from memory),
//!
//! Z_e = η₀ (1 + x + x²)/(x (1 + x)),   Z_m = η₀ x (1 + x)/(1 + x + x²),
//!
//! and K = Z/Z_metal in the split of [`LossSplit`] gives the near-field reflection loss of the
//! handbooks. **It is an approximation**: the field of a near source is a whole spectrum of plane
//! and evanescent waves, not one plane wave with an odd impedance. Against the exact integral of
//! [`LoopTest`](crate::probe::LoopTest) it reads 2 to 3 dB too high for loops above 10 kHz.
//!
//! [`handbook_reflection_db`] gives the closed forms that the tables were computed with, for
//! comparison with those tables.

use num_complex::Complex64;

use super::split::LossSplit;
use crate::choice::choice;
use crate::constants::{VACUUM_IMPEDANCE, VACUUM_PERMEABILITY, wavenumber_per_m};
use crate::error::{Result, check};
use crate::material::{Material, Medium};
use crate::wave::{Incidence, Polarization};

/// A source that is small against the wavelength and against its distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum NearSource {
    /// A short rod: the electric field is strong, the wave impedance high.
    Dipole,
    /// A small loop: the magnetic field is strong, the wave impedance low.
    Loop,
}

choice!(NearSource, "source" { Dipole => "dipole", Loop => "loop" });

impl NearSource {
    /// Ratio of the transverse electric to the transverse magnetic field broadside of the source,
    /// ohm, at `distance_m` metres from it.
    ///
    /// Domain: positive frequency (Hz) and distance; source small against both wavelength and
    /// distance. Tends to η₀ far away, to 1/(jωε₀r) (dipole) and jωμ₀r (loop) nearby; real and imaginary part each
    /// to the last digits, however small the one beside the other.
    #[must_use]
    pub fn wave_impedance_ohm(self, frequency_hz: f64, distance_m: f64) -> Complex64 {
        // With ρ = kr the fractions of the module's documentation, sorted into real and imaginary part, are
        // Z_e/η₀ = ρ²/(1 + ρ²) − j/(ρ(1 + ρ²)) and Z_m/η₀ = (ρ⁴ + jρ)/(1 − ρ² + ρ⁴).
        let rho = wavenumber_per_m(frequency_hz) * distance_m;
        // Whichever of ρ² and its inverse is at most 1, so that nothing overflows.
        let q = if rho <= 1.0 { rho * rho } else { 1.0 / rho / rho };
        let loops = 1.0 - q + q * q;
        let (real, imaginary) = match (self, rho <= 1.0) {
            (Self::Dipole, true) => (q / (1.0 + q), -1.0 / (rho * (1.0 + q))),
            (Self::Dipole, false) => (1.0 / (1.0 + q), -q / (rho * (1.0 + q))),
            (Self::Loop, true) => (q * q / loops, rho / loops),
            (Self::Loop, false) => (1.0 / loops, q / (rho * loops)),
        };
        VACUUM_IMPEDANCE * Complex64::new(real, imaginary)
    }

    /// Absorption, reflection and re-reflection loss of a layer with this wave impedance outside.
    ///
    /// The handbook's approximation, labelled as such in the module's documentation. Domain:
    /// positive frequency in Hz, distance and thickness in m.
    ///
    /// # Errors
    /// Unless distance and thickness are positive and finite.
    pub fn split(self, material: &Material, thickness_m: f64, frequency_hz: f64, distance_m: f64) -> Result<LossSplit> {
        check::positive("thickness_m", "m", thickness_m)?;
        check::positive("distance_m", "m", distance_m)?;
        check::frequency(frequency_hz)?;
        let outside = self.wave_impedance_ohm(frequency_hz, distance_m) / VACUUM_IMPEDANCE;
        let normal = Incidence::at_angle(frequency_hz, 0.0);
        let medium: Medium = material.medium(frequency_hz);
        Ok(LossSplit::with_outside_impedance(&medium, thickness_m, &normal, Polarization::Te, outside))
    }
}

/// Field for which a handbook gives its reflection loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum HandbookField {
    /// Near a source of high impedance.
    Electric,
    /// Near a source of low impedance.
    Magnetic,
    /// Far from any source.
    PlaneWave,
}

choice!(HandbookField, "field" { Electric => "electric", Magnetic => "magnetic", PlaneWave => "plane wave" });

/// Reflection loss of the shielding handbooks, dB, with exact constants.
///
/// With the metal's impedance taken as √(jωμ/σ) and the source's as η₀, η₀/(kr) or η₀kr,
///
/// - plane wave: 20 lg(η₀/4|Z_s|);
/// - electric: 20 lg(η₀/(4 k r |Z_s|));
/// - magnetic: 20 lg(0.462 x/r + 0.136 r/x + 0.354), r in inches and x = √(μ/(g f)), here with the
///   coefficients from their definition 20 lg |(K + 1)²/(4K)|, K = jωμ₀ r/Z_s.
///
/// These are what printed tables hold (MIL-HDBK-419A vol. I, 1987, ch. 8): the near-field forms leave
/// the far field out and are wrong beyond r = λ/2π. Domain: good conductors, positive arguments.
///
/// # Errors
/// Unless distance (m) and frequency (Hz) are positive and finite; for a material without
/// conductivity.
pub fn handbook_reflection_db(
    field: HandbookField,
    material: &Material,
    frequency_hz: f64,
    distance_m: f64,
) -> Result<f64> {
    check::frequency(frequency_hz)?;
    check::positive("distance_m", "m", distance_m)?;
    let conductivity = check::positive("conductivity_s_per_m", "S/m", material.conductivity_s_per_m(frequency_hz))?;
    let omega = 2.0 * std::f64::consts::PI * frequency_hz;
    let permeability = VACUUM_PERMEABILITY * material.medium(frequency_hz).relative_permeability.re;
    let metal = (omega * permeability / conductivity).sqrt();
    let kr = wavenumber_per_m(frequency_hz) * distance_m;
    Ok(20.0
        * match field {
            HandbookField::PlaneWave => (VACUUM_IMPEDANCE / (4.0 * metal)).log10(),
            HandbookField::Electric => (VACUUM_IMPEDANCE / (4.0 * metal)).log10() - kr.log10(),
            HandbookField::Magnetic => {
                // |(K + 1)²/(4K)| with K = jωμ₀r/(Z_s e^{jπ/4}) = |K| e^{jπ/4}.
                let k = omega * VACUUM_PERMEABILITY * distance_m / metal;
                (0.25 * k + 0.25 / k + 0.5 * std::f64::consts::FRAC_1_SQRT_2).log10()
            }
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn far_away_both_are_plane_waves() {
        for source in [NearSource::Dipole, NearSource::Loop] {
            let z = source.wave_impedance_ohm(1e9, 1e4);
            assert!((z - VACUUM_IMPEDANCE).norm() < 1e-2);
        }
    }

    #[test]
    fn nearby_they_are_a_capacitance_and_an_inductance() {
        let (f, r) = (1e3, 0.3);
        let kr = wavenumber_per_m(f) * r;
        let electric = NearSource::Dipole.wave_impedance_ohm(f, r);
        assert!((electric / Complex64::new(0.0, -VACUUM_IMPEDANCE / kr) - 1.0).norm() < 1e-5);
        let magnetic = NearSource::Loop.wave_impedance_ohm(f, r);
        assert!((magnetic / Complex64::new(0.0, VACUUM_IMPEDANCE * kr) - 1.0).norm() < 1e-5);
    }

    /// Radiated power over the field's square: Re Z_e = η₀ρ²/(1 + ρ²) from E_θ and H_φ of a short dipole, whose
    /// fractions lose it to the imaginary part, 10¹⁵ times as great here.
    #[test]
    fn the_small_real_part_survives_near_the_source() {
        let (f, r) = (1e3, 0.3);
        let rho = wavenumber_per_m(f) * r;
        let electric = NearSource::Dipole.wave_impedance_ohm(f, r);
        assert!((electric.re / (VACUUM_IMPEDANCE * rho * rho) - 1.0).abs() < 1e-10, "{electric}");
        let magnetic = NearSource::Loop.wave_impedance_ohm(f, r);
        assert!((magnetic.re / (VACUUM_IMPEDANCE * rho.powi(4)) - 1.0).abs() < 1e-10, "{magnetic}");
        assert!(NearSource::Loop.wave_impedance_ohm(1e300, 1e10).is_finite());
    }

    #[test]
    fn the_product_of_the_two_is_that_of_vacuum() {
        let product = NearSource::Dipole.wave_impedance_ohm(3e7, 0.7) * NearSource::Loop.wave_impedance_ohm(3e7, 0.7);
        assert!((product / (VACUUM_IMPEDANCE * VACUUM_IMPEDANCE) - 1.0).norm() < 1e-14);
    }

    #[test]
    fn nonsense_is_refused() {
        let copper = Material::conductor("copper", 5.8e7, 1.0).unwrap();
        assert!(NearSource::Loop.split(&copper, -1e-3, 1e3, 0.3).is_err());
        assert!(NearSource::Loop.split(&copper, 1e-3, 1e3, 0.0).is_err());
        assert!(NearSource::Loop.split(&copper, 1e-3, f64::NAN, 0.3).is_err());
        assert!("horn".parse::<NearSource>().is_err());
        let plastic = Material::dielectric("plastic", 3.0, 0.0).unwrap();
        assert!(handbook_reflection_db(HandbookField::Electric, &plastic, 1e3, 0.3).is_err());
    }
}
