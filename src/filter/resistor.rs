//! Resistors: series inductance and parallel capacitance.

use crate::circuit::bounds;
use crate::circuit::lumped_chain::Immittance;
use crate::error::Result;
use crate::filter::record::checked_record;
use crate::parameter::{Domain, Knobs, Rebuild};

/// A resistor: R with series L, and C across both.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "ResistorRecord", into = "ResistorRecord"))]
pub struct Resistor {
    resistance_ohm: f64,
    series_inductance_h: f64,
    parallel_capacitance_f: f64,
}

impl Resistor {
    /// An ideal resistor, ohm.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(resistance_ohm: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm: bounds::positive("resistance_ohm", "ohm", resistance_ohm)?,
            series_inductance_h: 0.0,
            parallel_capacitance_f: 0.0,
        })
    }

    /// With a series inductance, H.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_inductance_h(self, inductance_h: f64) -> Result<Self> {
        let series_inductance_h = bounds::non_negative("series_inductance_h", "H", inductance_h)?;
        Ok(Self { series_inductance_h, ..self })
    }

    /// With a capacitance across it, F.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_parallel_capacitance_f(self, parallel_capacitance_f: f64) -> Result<Self> {
        let parallel_capacitance_f = bounds::non_negative("parallel_capacitance_f", "F", parallel_capacitance_f)?;
        Ok(Self { parallel_capacitance_f, ..self })
    }

    /// Resistance, ohm.
    #[must_use]
    pub const fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Series inductance, H.
    #[must_use]
    pub const fn series_inductance_h(&self) -> f64 {
        self.series_inductance_h
    }

    /// Parallel capacitance, F.
    #[must_use]
    pub const fn parallel_capacitance_f(&self) -> f64 {
        self.parallel_capacitance_f
    }

    pub(crate) fn impedance(&self) -> Immittance {
        Immittance::coil(self.resistance_ohm, self.series_inductance_h, 0.0, self.parallel_capacitance_f)
    }
}

impl Rebuild for Resistor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(knobs.value("resistance_ohm", "ohm", self.resistance_ohm, Domain::POSITIVE))?
            .with_series_inductance_h(knobs.value(
                "series_inductance_h",
                "H",
                self.series_inductance_h,
                Domain::NON_NEGATIVE,
            ))?
            .with_parallel_capacitance_f(knobs.value(
                "parallel_capacitance_f",
                "F",
                self.parallel_capacitance_f,
                Domain::NON_NEGATIVE,
            ))
    }
}

checked_record!(Resistor as ResistorRecord {
    resistance_ohm: f64,
    #[serde(default)]
    series_inductance_h: f64,
    #[serde(default)]
    parallel_capacitance_f: f64,
});
