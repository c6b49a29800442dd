//! Lengths of lossy cable.

use crate::circuit::TwoPort;
use crate::circuit::bounds;
use crate::circuit::line_law::LineLaw;
use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::parameter::{Domain, Knobs, Rebuild};

/// A length of cable or of lossy line.
///
/// Series impedance per metre `j w Z0/v + (1 + j) r sqrt(f/f0)`, the skin effect's resistance and equal internal
/// reactance; shunt admittance per metre `w (j + tan d)/(Z0 v)`. Holds where the conductor is thicker than a skin
/// depth and only the TEM wave travels.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "LineRecord", into = "LineRecord"))]
pub struct LossyLine {
    length_m: f64,
    characteristic_ohm: f64,
    velocity_m_per_s: f64,
    resistance_ohm_per_m: f64,
    reference_hz: f64,
    loss_tangent: f64,
}

impl LossyLine {
    /// A lossless line from its length (m), characteristic impedance (ohm) and velocity (m/s).
    ///
    /// # Errors
    /// Unless all are positive and finite and the velocity is at most that of light.
    pub fn new(length_m: f64, characteristic_ohm: f64, velocity_m_per_s: f64) -> Result<Self> {
        bounds::positive("length_m", "m", length_m)?;
        bounds::positive("characteristic_ohm", "ohm", characteristic_ohm)?;
        bounds::positive("velocity_m_per_s", "m/s", velocity_m_per_s)?;
        let light = crate::constants::SPEED_OF_LIGHT;
        check::at_most("velocity_m_per_s", "m/s", velocity_m_per_s, "speed of light", light)?;
        Ok(Self {
            length_m,
            characteristic_ohm,
            velocity_m_per_s,
            resistance_ohm_per_m: 0.0,
            reference_hz: 1e6,
            loss_tangent: 0.0,
        })
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

    /// With a dielectric loss tangent, constant in frequency.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_loss_tangent(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: bounds::non_negative("loss_tangent", "", loss_tangent)?, ..self })
    }

    /// Length, m.
    #[must_use]
    pub const fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Characteristic impedance without loss, ohm.
    #[must_use]
    pub const fn characteristic_ohm(&self) -> f64 {
        self.characteristic_ohm
    }

    /// Velocity without loss, m/s.
    #[must_use]
    pub const fn velocity_m_per_s(&self) -> f64 {
        self.velocity_m_per_s
    }

    /// Resistance per metre at the reference frequency, ohm/m.
    #[must_use]
    pub const fn resistance_ohm_per_m(&self) -> f64 {
        self.resistance_ohm_per_m
    }

    /// Reference frequency of the resistance, Hz.
    #[must_use]
    pub const fn reference_hz(&self) -> f64 {
        self.reference_hz
    }

    /// Dielectric loss tangent.
    #[must_use]
    pub const fn loss_tangent(&self) -> f64 {
        self.loss_tangent
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

impl Rebuild for LossyLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("length_m", "m", self.length_m, Domain::POSITIVE),
            knobs.value("characteristic_ohm", "ohm", self.characteristic_ohm, Domain::POSITIVE),
            knobs.value(
                "velocity_m_per_s",
                "m/s",
                self.velocity_m_per_s,
                Domain::POSITIVE.and("at most that of light"),
            ),
        )?
        .with_resistance(
            knobs.value("resistance_ohm_per_m", "ohm/m", self.resistance_ohm_per_m, Domain::NON_NEGATIVE),
            knobs.value("reference_hz", "Hz", self.reference_hz, Domain::POSITIVE),
        )?
        .with_loss_tangent(knobs.value("loss_tangent", "", self.loss_tangent, Domain::NON_NEGATIVE))
    }
}

#[cfg(feature = "serde")]
fn one_megahertz() -> f64 {
    1e6
}

checked_record!(LossyLine as LineRecord {
    length_m: f64,
    characteristic_ohm: f64,
    velocity_m_per_s: f64,
    #[serde(default)]
    resistance_ohm_per_m: f64,
    #[serde(default = "one_megahertz")]
    reference_hz: f64,
    #[serde(default)]
    loss_tangent: f64,
});

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
