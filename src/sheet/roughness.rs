//! Added loss of a rough metal surface.
//!
//! A current that flows within a skin depth δ of a surface with rms roughness Δ takes a longer way. The
//! surface resistance grows by a factor K, one for a smooth surface and, in these fits, two at most:
//!
//! - E. Hammerstad and Ø. Jensen, "Accurate models for microstrip computer-aided design", IEEE MTT-S
//!   Int. Microwave Symp. Digest (1980) 407 (from memory; the form read in open code, and the
//!   general RF library scikit-rf gives the same): K = 1 + (2/π) arctan(1.4 (Δ/δ)²);
//! - S. Groiß, I. Bardi, O. Biro, K. Preis and K. Richter, "Parameters of lossy cavity resonators
//!   calculated by the finite element method", IEEE Trans. Magn. 32 (1996) 894 (from memory):
//!   K = 1 + exp(−(δ/2Δ)^1.6).
//!
//! It matters for the loss of cavities, waveguides and mesh wires; the shielding of a closed sheet is
//! set by its bulk. Real foils exceed the limit of two above some 10 GHz: the fits are for Δ below a
//! few δ.

use std::f64::consts::{FRAC_2_PI, PI};

use crate::choice::choice;
use crate::constants::VACUUM_PERMEABILITY;
use crate::error::{Result, check};
use crate::material::Material;
use crate::validity::Validity;

/// Published fit of the added loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum RoughnessModel {
    /// Hammerstad and Jensen 1980.
    HammerstadJensen,
    /// Groiß et al. 1996.
    Groiss,
}

choice!(RoughnessModel, "roughness model" { HammerstadJensen => "hammerstad-jensen", Groiss => "groiss" });

/// Factor on the surface resistance of a metal by its roughness, from 1 to 2.
///
/// Domain: a conductor, rms roughness in m zero or positive, frequency in Hz positive.
///
/// # Errors
/// For values outside those domains.
///
/// ```
/// use stillroom::{material::Material, sheet::{RoughnessModel, roughness_factor}};
/// // Roughness of one skin depth: 1 + (2/π) arctan 1.4 = 1.605.
/// let copper = Material::conductor("copper", 5.8e7, 1.0)?;
/// let depth = copper.skin_depth_m(1e9);
/// let factor = roughness_factor(RoughnessModel::HammerstadJensen, &copper, depth, 1e9)?;
/// assert!((factor - 1.605).abs() < 0.0005);
/// # Ok::<(), stillroom::Error>(())
/// ```
pub fn roughness_factor(model: RoughnessModel, metal: &Material, rms_m: f64, frequency_hz: f64) -> Result<f64> {
    check::frequency(frequency_hz)?;
    check::non_negative("rms_m", "m", rms_m)?;
    check::positive("conductivity_s_per_m", "S/m", metal.conductivity_s_per_m(frequency_hz))?;
    if rms_m == 0.0 {
        return Ok(1.0);
    }
    let ratio = rms_m / metal.skin_depth_m(frequency_hz);
    Ok(match model {
        RoughnessModel::HammerstadJensen => 1.0 + FRAC_2_PI * (1.4 * ratio * ratio).atan(),
        RoughnessModel::Groiss => 1.0 + (-(0.5 / ratio).powf(1.6)).exp(),
    })
}

/// Surface resistance √(ωμ/2σ) of a rough metal, ohm: what cavities and waveguides lose by.
///
/// # Errors
/// As [`roughness_factor`].
pub fn rough_surface_resistance_ohm(
    model: RoughnessModel,
    metal: &Material,
    rms_m: f64,
    frequency_hz: f64,
) -> Result<f64> {
    let factor = roughness_factor(model, metal, rms_m, frequency_hz)?;
    let permeability = VACUUM_PERMEABILITY * metal.medium(frequency_hz).relative_permeability.re;
    Ok(factor * (PI * frequency_hz * permeability / metal.conductivity_s_per_m(frequency_hz)).sqrt())
}

/// Holds while the roughness is below two skin depths.
pub fn roughness_validity(metal: &Material, rms_m: f64, frequency_hz: f64) -> Validity {
    Validity::within(
        "surface roughness",
        "roughness / skin depth",
        "",
        rms_m / metal.skin_depth_m(frequency_hz),
        (0.0, 2.0),
        "the fits saturate at twice the smooth loss, real surfaces lose more",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn from_smooth_to_twice() {
        let copper = Material::conductor("copper", 5.8e7, 1.0).unwrap();
        for model in [RoughnessModel::HammerstadJensen, RoughnessModel::Groiss] {
            let factor = |rms| roughness_factor(model, &copper, rms, 10e9).unwrap();
            assert_eq!(factor(0.0), 1.0);
            assert!((factor(1e-12) - 1.0).abs() < 1e-9);
            assert!((factor(1e-3) - 2.0).abs() < 1e-4);
            let rising: Vec<f64> = (1..30).map(|n| factor(1e-7 * f64::from(n))).collect();
            assert!(rising.windows(2).all(|pair| pair[0] < pair[1]));
        }
        assert!(roughness_factor(RoughnessModel::Groiss, &copper, -1e-6, 1e9).is_err());
        assert!(!roughness_validity(&copper, 1e-5, 1e10).holds());
    }
}
