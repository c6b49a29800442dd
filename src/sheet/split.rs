//! Absorption, reflection and re-reflection loss of a single layer.
//!
//! S. A. Schelkunoff, *Electromagnetic Waves*, 1943, sec. 8.18 (from memory):
//! T = p e^{−γd}/(1 − q e^{−2γd}) with p = 4K/(K+1)², q = ((K−1)/(K+1))², K the wave impedance outside
//! over that inside. The three logarithms are the three losses, and their sum is the shielding.
//!
//! The re-reflection loss is negative for a thin sheet, whose inner reflections help the wave
//! through: leaving it out overstates thin sheets by tens of decibels. Its exponent is complex; the
//! handbook table with a real exponent is 3 dB off for thin sheets.

use num_complex::Complex64;

use crate::complex_functions::{exp_m1, ln};
use crate::decibel::DB_PER_NEPER;
use crate::material::Medium;
use crate::wave::layered::propagation_and_impedance;
use crate::wave::{Incidence, Polarization};

/// The three losses of a single layer, dB. Their sum is its shielding effectiveness.
///
/// The default is that of no layer at all: zeros.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct LossSplit {
    /// What the wave loses on one way through: 20 lg e · Re(γ) d.
    pub absorption_db: f64,
    /// What the two faces turn back.
    pub reflection_db: f64,
    /// What reflections inside the layer change; negative where they help the wave through.
    pub re_reflection_db: f64,
}

impl LossSplit {
    /// Of a layer in vacuum under a plane wave.
    #[must_use]
    pub fn of_layer(medium: &Medium, thickness_m: f64, wave: &Incidence, polarization: Polarization) -> Self {
        let (_, outside) = propagation_and_impedance(&Medium::VACUUM, wave, polarization);
        Self::with_outside_impedance(medium, thickness_m, wave, polarization, outside)
    }

    /// With another wave impedance outside, relative to that of vacuum: the handbook's way of
    /// treating the field near a source, which is not one plane wave.
    #[must_use]
    pub fn with_outside_impedance(
        medium: &Medium,
        thickness_m: f64,
        wave: &Incidence,
        polarization: Polarization,
        outside: Complex64,
    ) -> Self {
        let (propagation, inside) = propagation_and_impedance(medium, wave, polarization);
        let exponent = propagation * thickness_m;
        let sum = outside + inside;
        let both_faces = (2.0 * outside / sum) * (2.0 * inside / sum);
        let turned = (outside - inside) / sum;
        // 1 − q e^{−2γd} = (1 − q) − q (e^{−2γd} − 1), and 1 − q = p
        let reverberation = both_faces - turned * turned * exp_m1(-2.0 * exponent);
        Self {
            absorption_db: DB_PER_NEPER * exponent.re,
            reflection_db: -DB_PER_NEPER * ln(both_faces).re,
            re_reflection_db: DB_PER_NEPER * ln(reverberation).re,
        }
    }

    /// The sum: the shielding effectiveness of the layer.
    #[must_use]
    pub fn total_db(&self) -> f64 {
        self.absorption_db + self.reflection_db + self.re_reflection_db
    }
}
