//! Coils: winding resistance and capacitance, core loss, permeability that falls, saturation.
//!
//! Two currents are told apart by name. *Peak* (or direct) current saturates a core and fills it with energy: with it goes
//! what radio frequency meets at the crest, the least of the period. *Effective* current heats the winding, and makes the
//! voltage drop at its own frequency over the inductance's mean.

use crate::circuit::bounds;
use crate::circuit::lumped_chain::Immittance;
use crate::error::Result;
use crate::filter::Saturation;
use crate::parameter::Element;

/// A coil.
///
/// ```text
/// Z = (R + s L/(1 + s t)) || 1/(s C),   t = 1/(2 pi f_r) + L/R_core
/// ```
///
/// `f_r` is the frequency at which a one-pole permeability has fallen by half in power; a core-loss
/// resistance across the inductance has the very same effect with `f_r = R_core/(2 pi L)`, so one time
/// constant holds both.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(new(inductance_h))]
pub struct Inductor {
    /// Inductance without current.
    #[parameter(circuit_positive)]
    inductance_h: f64,
    /// Winding resistance.
    #[parameter(circuit_non_negative, default = 0.0)]
    resistance_ohm: f64,
    /// Winding capacitance.
    #[parameter(circuit_non_negative, default = 0.0)]
    parallel_capacitance_f: f64,
    /// Core-loss resistance across the inductance.
    #[parameter(circuit_positive)]
    core_loss_ohm: Option<f64>,
    /// Relaxation frequency of the permeability.
    #[parameter(circuit_positive)]
    relaxation_hz: Option<f64>,
    /// Law of saturation.
    #[part(inline, copy, free)]
    saturation: Option<Saturation>,
}

impl Inductor {
    /// The same coil with another inductance, H.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_inductance_h(self, inductance_h: f64) -> Result<Self> {
        Ok(Self { inductance_h: bounds::positive("inductance_h", "H", inductance_h)?, ..self })
    }

    /// Inductance left at a current of the moment in A (at the crest: its peak), in H: what radio frequency meets.
    #[must_use]
    pub fn loaded_inductance_h(&self, peak_current_a: f64) -> f64 {
        self.inductance_h * self.saturation.map_or(1.0, |saturation| saturation.remaining(peak_current_a))
    }

    /// Inductance, H, that a sine of this effective value (A) meets at its own frequency: the mean over its period.
    #[must_use]
    pub fn mean_inductance_h(&self, current_rms_a: f64) -> f64 {
        self.inductance_h * self.saturation.map_or(1.0, |saturation| saturation.mean_remaining(current_rms_a))
    }

    /// Frequency at which the coil turns capacitive, Hz: `1/(2 pi sqrt(L C))`; infinite without capacitance.
    #[must_use]
    pub fn self_resonance_hz(&self) -> f64 {
        (std::f64::consts::TAU * (self.inductance_h * self.parallel_capacitance_f).sqrt()).recip()
    }

    pub(crate) fn impedance(&self, peak_current_a: f64) -> Immittance {
        let inductance = self.loaded_inductance_h(peak_current_a);
        let relaxation_s = self.relaxation_hz.map_or(0.0, |f| (std::f64::consts::TAU * f).recip())
            + self.core_loss_ohm.map_or(0.0, |r| inductance / r);
        Immittance::coil(self.resistance_ohm, inductance, relaxation_s, self.parallel_capacitance_f)
    }
}
