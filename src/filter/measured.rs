//! A measured two-port in the chain.
//!
//! Reflections are joined in real and imaginary part, transmissions in ln of magnitude and in phase (the short way
//! round), so that a resonance or a turn of phase between two points does not make the transmission vanish.
//! Held beyond both ends, and said so.

use std::f64::consts::TAU;

use num_complex::Complex64;

use super::touchstone::Touchstone;
use crate::circuit::{Terminations, TwoPort};
use crate::error::{Error, Result, check};
use crate::parameter::Element;
use crate::validity::Validity;

/// Scattering parameters of a two-port against frequency.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(
    new(frequency_hz, scattering, source_reference_ohm, load_reference_ohm),
    settle,
    errors = "columns that do not fit, scattering parameters without transmission"
)]
pub struct MeasuredTwoPort {
    /// Frequencies.
    #[kept]
    frequency_hz: Vec<f64>,
    /// `[S11, S12, S21, S22]` at each.
    #[kept]
    scattering: Vec<[Complex64; 4]>,
    /// Reference resistance of port 1.
    #[parameter(circuit_positive, default = 50.0, setter = none)]
    source_reference_ohm: f64,
    /// Reference resistance of port 2.
    #[parameter(circuit_positive, default = 50.0, setter = none)]
    load_reference_ohm: f64,
}

impl MeasuredTwoPort {
    fn settle(self) -> Result<Self> {
        check::not_empty("frequency_hz", &self.frequency_hz)?;
        check::frequencies(&self.frequency_hz)?;
        check::increasing("frequency_hz", "Hz", &self.frequency_hz)?;
        check::same_length("scattering", self.scattering.len(), "frequency_hz", self.frequency_hz.len())?;
        for (index, row) in self.scattering.iter().enumerate() {
            let fault = |quantity: &str, value, accepted| {
                Err(Error::AtIndex { quantity: quantity.into(), index, value, unit: "".into(), accepted })
            };
            if let Some(value) = row.iter().find(|value| !value.is_finite()) {
                return fault("scattering", if value.re.is_finite() { value.im } else { value.re }, "finite".into());
            }
            if row[1].norm() == 0.0 {
                return fault("s12", 0.0, "other than zero: a chain needs transmission".into());
            }
            if row[2].norm() == 0.0 {
                return fault("s21", 0.0, "other than zero: a chain needs transmission".into());
            }
        }
        Ok(self)
    }

    /// From a Touchstone file of two ports whose data are passive within a tolerance in amplitude.
    ///
    /// # Errors
    /// For another number of ports, data that give out more than they take in, or what [`new`](Self::new) refuses.
    pub fn from_touchstone(file: &Touchstone, tolerance: f64) -> Result<Self> {
        check::within("ports", "", file.ports() as f64, (2.0, 2.0), "two")?;
        file.check_passive(tolerance)?;
        let rows = (0..file.frequency_hz().len())
            .map(|index| {
                let s = file.scattering(index)?;
                Ok([s[0], s[1], s[2], s[3]])
            })
            .collect::<Result<_>>()?;
        let references = file.reference_ohm();
        Self::new(file.frequency_hz().to_vec(), rows, references[0], references[1])
    }

    /// As a two-port at a frequency in Hz.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64) -> TwoPort {
        self.between(frequency_hz, |k, row| self.scattering[row][k].ln())
    }

    /// The same for many frequencies: logarithms are taken of every row once.
    pub(crate) fn prepared(&self) -> impl Fn(f64) -> TwoPort + Sync + '_ {
        let logarithms: Vec<[Complex64; 2]> = self.scattering.iter().map(|row| [row[1].ln(), row[2].ln()]).collect();
        move |frequency_hz| self.between(frequency_hz, |k, row| logarithms[row][k - 1])
    }

    fn between(&self, frequency_hz: f64, ln: impl Fn(usize, usize) -> Complex64) -> TwoPort {
        let last = self.frequency_hz.len() - 1;
        let above = self.frequency_hz.partition_point(|&f| f <= frequency_hz);
        let (low, high, share) = if above == 0 {
            (0, 0, 0.0)
        } else if above > last {
            (last, last, 0.0)
        } else {
            let (f0, f1) = (self.frequency_hz[above - 1], self.frequency_hz[above]);
            (above - 1, above, (frequency_hz - f0) / (f1 - f0))
        };
        let (from, to) = (&self.scattering[low], &self.scattering[high]);
        let reflection = |k: usize| from[k] * (1.0 - share) + to[k] * share;
        let ln_transmission = |k: usize| {
            let (from, mut step) = (ln(k, low), ln(k, high) - ln(k, low));
            // The phase goes the short way round.
            step.im -= TAU * (step.im / TAU).round();
            from + step * share
        };
        let references = Terminations::from_passive(
            Complex64::new(self.source_reference_ohm, 0.0),
            Complex64::new(self.load_reference_ohm, 0.0),
        );
        TwoPort::from_ln_scattering(reflection(0), ln_transmission(1), ln_transmission(2), reflection(3), &references)
    }

    /// Whether the data reach there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "measured two-port",
            "frequency",
            "Hz",
            frequency_hz,
            (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]),
            "the value at the end of the data is held",
        )
    }
}
