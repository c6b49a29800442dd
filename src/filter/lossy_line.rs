//! Lengths of lossy cable.

use crate::circuit::TwoPort;
use crate::circuit::bounds;
use crate::circuit::line_law::LineLaw;
use crate::error::{Result, check};
use crate::parameter::Element;

/// A length of cable or of lossy line.
///
/// Series impedance per metre `j w Z0/v + (1 + j) r sqrt(f/f0)`, the skin effect's resistance and equal internal
/// reactance; shunt admittance per metre `w (j + tan d)/(Z0 v)`. Holds where the conductor is thicker than a skin
/// depth and only the TEM wave travels.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(settle, errors = "a velocity above that of light")]
pub struct LossyLine {
    /// Length.
    #[parameter(circuit_positive)]
    length_m: f64,
    /// Characteristic impedance without loss.
    #[parameter(circuit_positive)]
    characteristic_ohm: f64,
    /// Velocity without loss.
    #[parameter(circuit_positive, also = "at most that of light")]
    velocity_m_per_s: f64,
    /// Resistance per metre at `reference_hz`, growing as the square root of frequency.
    #[parameter(circuit_non_negative, default = 0.0, setter = none)]
    resistance_ohm_per_m: f64,
    /// Reference frequency of the resistance.
    #[parameter(circuit_positive, default = 1e6, setter = none)]
    reference_hz: f64,
    /// Of the dielectric, constant in frequency.
    #[parameter(circuit_non_negative, default = 0.0)]
    loss_tangent: f64,
}

impl LossyLine {
    fn settle(self) -> Result<Self> {
        let light = crate::constants::SPEED_OF_LIGHT;
        check::at_most("velocity_m_per_s", "m/s", self.velocity_m_per_s, "speed of light", light)?;
        Ok(self)
    }

    /// With a resistance per metre (ohm/m) at a frequency (Hz) from which it grows as the square root.
    ///
    /// # Errors
    /// For a negative resistance, or a frequency that is not positive.
    pub fn with_resistance(self, resistance_ohm_per_m: f64, reference_hz: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm_per_m: bounds::non_negative("resistance_ohm_per_m", "ohm/m", resistance_ohm_per_m)?,
            reference_hz: bounds::positive("reference_hz", "Hz", reference_hz)?,
            ..self
        })
    }

    /// Inductance of its whole length, H: `Z0 l/v`.
    #[must_use]
    pub fn inductance_h(&self) -> f64 {
        self.characteristic_ohm * self.length_m / self.velocity_m_per_s
    }

    /// Capacitance of its whole length, F: `l/(Z0 v)`.
    #[must_use]
    pub fn capacitance_f(&self) -> f64 {
        self.length_m / (self.characteristic_ohm * self.velocity_m_per_s)
    }

    /// Resistance of its whole length at a frequency in Hz, ohm, by the law of the skin effect: too small where the
    /// conductor is thinner than a skin depth.
    #[must_use]
    pub fn resistance_ohm(&self, frequency_hz: f64) -> f64 {
        self.resistance_ohm_per_m * self.length_m * (frequency_hz / self.reference_hz).sqrt()
    }

    /// As a two-port at a frequency in Hz.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64) -> TwoPort {
        self.law().two_port(std::f64::consts::TAU * frequency_hz)
    }

    pub(crate) fn law(&self) -> LineLaw {
        LineLaw {
            resistance_ohm: 0.0,
            skin: self.resistance_ohm_per_m * self.length_m / (std::f64::consts::TAU * self.reference_hz).sqrt(),
            inductance_h: self.inductance_h(),
            capacitance_f: self.capacitance_f(),
            loss_tangent: self.loss_tangent,
            series_ohm: 0.0,
            return_h: 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::Terminations;

    #[test]
    fn a_matched_line_loses_what_its_resistance_says() {
        // R/(2 Z0) nepers per metre, 10 m, at four times the reference frequency: twice the resistance.
        let line = LossyLine::new(10.0, 50.0, 2e8).unwrap().with_resistance(0.1, 25e6).unwrap();
        let loss = line.two_port(100e6).insertion_loss_db(&Terminations::fifty_ohm());
        let exact = crate::decibel::DB_PER_NEPER * 10.0 * 0.2 / 100.0;
        assert!((loss / exact - 1.0).abs() < 1e-3, "{loss} {exact}");
        assert!(LossyLine::new(1.0, 50.0, 4e8).is_err());
    }
}
