//! Coils: winding resistance and capacitance, core loss, permeability that falls, saturation.
//!
//! Two currents are told apart by name. *Peak* (or direct) current saturates a core and fills it with energy: with it goes
//! what radio frequency meets at the crest, the least of the period. *Effective* current heats the winding, and makes the
//! voltage drop at its own frequency over the inductance's mean.

use crate::circuit::bounds;
use crate::circuit::lumped_chain::Immittance;
use crate::error::Result;
use crate::filter::Saturation;
use crate::filter::record::checked_record;
use crate::parameter::{Domain, Knobs, Rebuild};

/// A coil.
///
/// ```text
/// Z = (R + s L/(1 + s t)) || 1/(s C),   t = 1/(2 pi f_r) + L/R_core
/// ```
///
/// `f_r` is the frequency at which a one-pole permeability has fallen by half in power; a core-loss
/// resistance across the inductance has the very same effect with `f_r = R_core/(2 pi L)`, so one time
/// constant holds both.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "InductorRecord", into = "InductorRecord"))]
pub struct Inductor {
    inductance_h: f64,
    resistance_ohm: f64,
    parallel_capacitance_f: f64,
    core_loss_ohm: Option<f64>,
    relaxation_hz: Option<f64>,
    saturation: Option<Saturation>,
}

impl Inductor {
    /// An ideal coil of the given inductance in henry.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(inductance_h: f64) -> Result<Self> {
        Ok(Self {
            inductance_h: bounds::positive("inductance_h", "H", inductance_h)?,
            resistance_ohm: 0.0,
            parallel_capacitance_f: 0.0,
            core_loss_ohm: None,
            relaxation_hz: None,
            saturation: None,
        })
    }

    /// The same coil with another inductance, H.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_inductance_h(self, inductance_h: f64) -> Result<Self> {
        Ok(Self { inductance_h: bounds::positive("inductance_h", "H", inductance_h)?, ..self })
    }

    /// With the resistance of its winding, ohm.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_resistance_ohm(self, resistance_ohm: f64) -> Result<Self> {
        Ok(Self { resistance_ohm: bounds::non_negative("resistance_ohm", "ohm", resistance_ohm)?, ..self })
    }

    /// With the capacitance across its winding, F.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_parallel_capacitance_f(self, parallel_capacitance_f: f64) -> Result<Self> {
        let parallel_capacitance_f = bounds::non_negative("parallel_capacitance_f", "F", parallel_capacitance_f)?;
        Ok(Self { parallel_capacitance_f, ..self })
    }

    /// With a resistance across the inductance that stands for core loss, ohm.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_core_loss_ohm(self, core_loss_ohm: f64) -> Result<Self> {
        Ok(Self { core_loss_ohm: Some(bounds::positive("core_loss_ohm", "ohm", core_loss_ohm)?), ..self })
    }

    /// With a permeability that falls by one pole at this frequency, Hz.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_relaxation_hz(self, relaxation_hz: f64) -> Result<Self> {
        Ok(Self { relaxation_hz: Some(bounds::positive("relaxation_hz", "Hz", relaxation_hz)?), ..self })
    }

    /// With an inductance that falls with the current of the moment.
    #[must_use]
    pub const fn with_saturation(self, saturation: Saturation) -> Self {
        Self { saturation: Some(saturation), ..self }
    }

    /// Inductance without current, H.
    #[must_use]
    pub const fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Winding resistance, ohm.
    #[must_use]
    pub const fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Winding capacitance, F.
    #[must_use]
    pub const fn parallel_capacitance_f(&self) -> f64 {
        self.parallel_capacitance_f
    }

    /// Core-loss resistance across the inductance, ohm, if any.
    #[must_use]
    pub const fn core_loss_ohm(&self) -> Option<f64> {
        self.core_loss_ohm
    }

    /// Relaxation frequency of the permeability, Hz, if any.
    #[must_use]
    pub const fn relaxation_hz(&self) -> Option<f64> {
        self.relaxation_hz
    }

    /// Law of saturation, if any.
    #[must_use]
    pub const fn saturation(&self) -> Option<Saturation> {
        self.saturation
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

impl Rebuild for Inductor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let mut coil = Self::new(knobs.value("inductance_h", "H", self.inductance_h, Domain::POSITIVE))?
            .with_resistance_ohm(knobs.value("resistance_ohm", "ohm", self.resistance_ohm, Domain::NON_NEGATIVE))?
            .with_parallel_capacitance_f(knobs.value(
                "parallel_capacitance_f",
                "F",
                self.parallel_capacitance_f,
                Domain::NON_NEGATIVE,
            ))?;
        if let Some(value) = self.core_loss_ohm {
            coil = coil.with_core_loss_ohm(knobs.value("core_loss_ohm", "ohm", value, Domain::POSITIVE))?;
        }
        if let Some(value) = self.relaxation_hz {
            coil = coil.with_relaxation_hz(knobs.value("relaxation_hz", "Hz", value, Domain::POSITIVE))?;
        }
        if let Some(law) = self.saturation {
            coil = coil.with_saturation(law.rebuild(knobs)?);
        }
        Ok(coil)
    }
}

checked_record!(Inductor as InductorRecord {
    inductance_h: f64,
    #[serde(default)]
    resistance_ohm: f64,
    #[serde(default)]
    parallel_capacitance_f: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    core_loss_ohm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    relaxation_hz: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    saturation: Option<Saturation>,
});
