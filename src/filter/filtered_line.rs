//! A filtered line as a leak: a wire outside, a filter at the wall, a wire inside.
//!
//! ```text
//! sigma = (lambda^2/4 pi) e_out G e_in
//! ```
//!
//! * `lambda^2/4 pi`: effective area of a matched lossless conductor in front of the wall, averaged over the
//!   half-space and both polarizations (mean directivity 2, half of the waves polarized to fit).
//! * `e = min(1, R_rad/R)`: what part of that a conductor keeps if it is put down as an impedance with the
//!   resistance `R` and the length `l`: its radiation resistance as a short monopole,
//!   `R_rad = 40 pi^2 (l/lambda)^2` ohm (C. A. Balanis, *Antenna Theory*, section 4.3), over `R`, and never
//!   more than all. At low frequency this is the same as bounding the effective area by the length:
//!   `eta0 l^2/(12 R)`. By reciprocity the same factor says how much of the power that reaches the inside
//!   conductor is radiated. A conductor given as a [`Wire`](super::Wire) brings its own radiation resistance in
//!   its impedance, and `e = 1`.
//! * `G`: transducer power gain of the filter between the two impedances.
//!
//! It is a bound with stated lengths, not a prediction: which way the wires run, and what they are tied to,
//! decides the rest. Valid below the frequency at which the filter's can is a tenth of a wavelength long; above,
//! state the can's isolation.
//!
//! **Caution**: see [`CAUTION`](super::CAUTION); every filtered line carries it.

use crate::constants::wavelength_m;
use crate::error::Result;
use crate::filter::record::checked_record;
use crate::filter::{CAUTION, Ladder, MeasuringCircuit, Termination};
use crate::leak::Leak;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::circuit_value;

/// A wire on one side of the wall.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "ConductorRecord", into = "ConductorRecord"))]
pub struct Conductor {
    length_m: f64,
    termination: Termination,
}

impl Conductor {
    /// A conductor of the given length in m that the filter sees as the given impedance.
    ///
    /// # Errors
    /// Unless the length is positive and finite.
    pub fn new(length_m: f64, termination: Termination) -> Result<Self> {
        Ok(Self { length_m: circuit_value::positive("length_m", "m", length_m)?, termination })
    }

    /// Length, m.
    #[must_use]
    pub const fn length_m(&self) -> f64 {
        self.length_m
    }

    /// What the filter sees.
    #[must_use]
    pub const fn termination(&self) -> &Termination {
        &self.termination
    }

    /// Natural logarithm of the part of a matched antenna's power that passes between this conductor and the
    /// space around it, at a frequency in Hz; zero or negative.
    #[must_use]
    pub fn ln_efficiency(&self, frequency_hz: f64) -> f64 {
        if matches!(self.termination, Termination::Wire(_)) {
            return 0.0;
        }
        let radiation_ohm = 10.0 * (std::f64::consts::TAU * self.length_m / wavelength_m(frequency_hz)).powi(2);
        (radiation_ohm / self.termination.impedance_ohm(frequency_hz).re).ln().min(0.0)
    }
}

impl Rebuild for Conductor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("length_m", "m", self.length_m, "positive"),
            knobs.enter("termination", |knobs| self.termination.rebuild(knobs))?,
        )
    }
}

checked_record!(Conductor as ConductorRecord {
    length_m: f64,
    termination: Termination,
});

/// A line through the wall with a filter in it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct FilteredLine {
    ladder: Ladder,
    outside: Conductor,
    inside: Conductor,
}

impl FilteredLine {
    /// From the filter and the conductors outside and inside.
    #[must_use]
    pub const fn new(ladder: Ladder, outside: Conductor, inside: Conductor) -> Self {
        Self { ladder, outside, inside }
    }

    /// The filter.
    #[must_use]
    pub const fn ladder(&self) -> &Ladder {
        &self.ladder
    }

    /// The conductor outside.
    #[must_use]
    pub const fn outside(&self) -> &Conductor {
        &self.outside
    }

    /// The conductor inside.
    #[must_use]
    pub const fn inside(&self) -> &Conductor {
        &self.inside
    }

    /// The circuit that the filter works in: the outside conductor as source, the inside one as load.
    #[must_use]
    pub fn circuit(&self) -> MeasuringCircuit {
        MeasuringCircuit::new(self.outside.termination.clone(), self.inside.termination.clone())
    }
}

impl Rebuild for FilteredLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(Self {
            ladder: knobs.enter("ladder", |knobs| self.ladder.rebuild(knobs))?,
            outside: knobs.enter("outside", |knobs| self.outside.rebuild(knobs))?,
            inside: knobs.enter("inside", |knobs| self.inside.rebuild(knobs))?,
        })
    }
}

impl Leak for FilteredLine {
    fn is_opening(&self) -> bool {
        false
    }

    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let area = wavelength_m(frequency_hz).powi(2) / (4.0 * std::f64::consts::PI);
        area.ln()
            + self.outside.ln_efficiency(frequency_hz)
            + self.ladder.ln_transducer_gain(frequency_hz, &self.circuit())
            + self.inside.ln_efficiency(frequency_hz)
    }

    fn caution(&self) -> Option<&'static str> {
        Some(CAUTION)
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.ladder.validity(frequency_hz).and(self.circuit().validity(frequency_hz))
    }
}
