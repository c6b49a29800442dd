//! Two-terminal capacitors: loss, equivalent series resistance and inductance.

use crate::circuit::bounds;
use crate::circuit::lumped_chain::Immittance;
use crate::error::Result;
use crate::parameter::Element;

/// A two-terminal capacitor.
///
/// ```text
/// Z = 1/(s C (1 - j tan d)) + R + s L
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct Capacitor {
    /// Capacitance.
    #[parameter(circuit_positive)]
    capacitance_f: f64,
    /// Equivalent series resistance.
    #[parameter(circuit_non_negative, default = 0.0)]
    series_resistance_ohm: f64,
    /// Equivalent series inductance, leads included.
    #[parameter(circuit_non_negative, default = 0.0)]
    series_inductance_h: f64,
    /// Of the dielectric, constant in frequency.
    #[parameter(circuit_non_negative, default = 0.0)]
    loss_tangent: f64,
}

impl Capacitor {
    /// The same capacitor with another capacitance, F.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_capacitance_f(self, capacitance_f: f64) -> Result<Self> {
        Ok(Self { capacitance_f: bounds::positive("capacitance_f", "F", capacitance_f)?, ..self })
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
