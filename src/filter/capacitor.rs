//! Two-terminal capacitors: loss, equivalent series resistance and inductance.

use crate::circuit::bounds;
use crate::circuit::lumped_chain::Immittance;
use crate::error::Result;
use crate::filter::record::checked_record;
use crate::parameter::{Domain, Knobs, Rebuild};

/// A two-terminal capacitor.
///
/// ```text
/// Z = 1/(s C (1 - j tan d)) + R + s L
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "CapacitorRecord", into = "CapacitorRecord"))]
pub struct Capacitor {
    capacitance_f: f64,
    series_resistance_ohm: f64,
    series_inductance_h: f64,
    loss_tangent: f64,
}

impl Capacitor {
    /// An ideal capacitor of the given capacitance in farad.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(capacitance_f: f64) -> Result<Self> {
        Ok(Self {
            capacitance_f: bounds::positive("capacitance_f", "F", capacitance_f)?,
            series_resistance_ohm: 0.0,
            series_inductance_h: 0.0,
            loss_tangent: 0.0,
        })
    }

    /// The same capacitor with another capacitance, F.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_capacitance_f(self, capacitance_f: f64) -> Result<Self> {
        Ok(Self { capacitance_f: bounds::positive("capacitance_f", "F", capacitance_f)?, ..self })
    }

    /// With an equivalent series resistance, ohm. A resistor put in series on purpose counts here too.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_resistance_ohm(self, resistance_ohm: f64) -> Result<Self> {
        let series_resistance_ohm = bounds::non_negative("series_resistance_ohm", "ohm", resistance_ohm)?;
        Ok(Self { series_resistance_ohm, ..self })
    }

    /// With an equivalent series inductance, H: leads included.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_inductance_h(self, inductance_h: f64) -> Result<Self> {
        let series_inductance_h = bounds::non_negative("series_inductance_h", "H", inductance_h)?;
        Ok(Self { series_inductance_h, ..self })
    }

    /// With a dielectric loss tangent, taken as constant in frequency.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_loss_tangent(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: bounds::non_negative("loss_tangent", "", loss_tangent)?, ..self })
    }

    /// Capacitance, F.
    #[must_use]
    pub const fn capacitance_f(&self) -> f64 {
        self.capacitance_f
    }

    /// Equivalent series resistance, ohm.
    #[must_use]
    pub const fn series_resistance_ohm(&self) -> f64 {
        self.series_resistance_ohm
    }

    /// Equivalent series inductance, H.
    #[must_use]
    pub const fn series_inductance_h(&self) -> f64 {
        self.series_inductance_h
    }

    /// Dielectric loss tangent.
    #[must_use]
    pub const fn loss_tangent(&self) -> f64 {
        self.loss_tangent
    }

    /// Frequency at which the capacitor turns inductive, Hz; infinite without series inductance.
    #[must_use]
    pub fn self_resonance_hz(&self) -> f64 {
        (std::f64::consts::TAU * (self.capacitance_f * self.series_inductance_h).sqrt()).recip()
    }

    pub(crate) fn admittance(&self) -> Immittance {
        Immittance::capacitor(
            self.capacitance_f,
            self.loss_tangent,
            self.series_resistance_ohm,
            self.series_inductance_h,
        )
    }
}

impl Rebuild for Capacitor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(knobs.value("capacitance_f", "F", self.capacitance_f, Domain::POSITIVE))?
            .with_series_resistance_ohm(knobs.value(
                "series_resistance_ohm",
                "ohm",
                self.series_resistance_ohm,
                Domain::NON_NEGATIVE,
            ))?
            .with_series_inductance_h(knobs.value(
                "series_inductance_h",
                "H",
                self.series_inductance_h,
                Domain::NON_NEGATIVE,
            ))?
            .with_loss_tangent(knobs.value("loss_tangent", "", self.loss_tangent, Domain::NON_NEGATIVE))
    }
}

checked_record!(Capacitor as CapacitorRecord {
    capacitance_f: f64,
    #[serde(default)]
    series_resistance_ohm: f64,
    #[serde(default)]
    series_inductance_h: f64,
    #[serde(default)]
    loss_tangent: f64,
});
