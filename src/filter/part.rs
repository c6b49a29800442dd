//! Lumped parts with the parasitics that real ones have.
//!
//! | part | equivalent circuit |
//! |---|---|
//! | [`Inductor`] | R + L in series, winding capacitance across both; core loss and fall of permeability as one relaxation; L falling with load current |
//! | [`Capacitor`] | C with loss tangent, equivalent series R and L |
//! | [`Resistor`] | R with series L and parallel C; also a discharge resistor |
//! | [`FerriteBead`] | a table of resistance and reactance against frequency |
//!
//! A surge arrester below its striking voltage is a [`Capacitor`] of its off-state capacitance. Valid where
//! the part is small against the wavelength; parasitics are constants, so a self-resonance beyond the first
//! is not described (use a measured two-port there). Equivalent circuits: H. W. Ott, *Electromagnetic
//! Compatibility Engineering*, 2009, chapter 5.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::circuit::lumped_chain::{Immittance, nonzero};
use crate::filter::{Capacitor, FerriteBead, Inductor, Resistor};
use crate::parameter::Element;
use crate::validity::Validity;

/// Any two-terminal part.
#[derive(Debug, Clone, PartialEq, Element)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(tag = "part", rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Part {
    /// A coil.
    Inductor(Inductor),
    /// A capacitor.
    Capacitor(Capacitor),
    /// A resistor.
    Resistor(Resistor),
    /// A ferrite bead by its table.
    FerriteBead(FerriteBead),
}

impl Part {
    /// Impedance in ohms at a frequency in Hz and a peak (or direct) current in A.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64, peak_current_a: f64) -> Complex64 {
        match self {
            Self::FerriteBead(bead) => bead.impedance_ohm(frequency_hz),
            Self::Inductor(coil) => coil.impedance(peak_current_a).at(TAU * frequency_hz),
            Self::Capacitor(capacitor) => capacitor.admittance().inverse().at(TAU * frequency_hz),
            Self::Resistor(resistor) => resistor.impedance().at(TAU * frequency_hz),
        }
    }

    // Admittance, ohm^-1; never infinite.
    pub(crate) fn admittance_s(&self, frequency_hz: f64, peak_current_a: f64) -> Complex64 {
        match self.lumped(peak_current_a) {
            Some(impedance) => impedance.inverse().at(TAU * frequency_hz),
            None => nonzero(self.impedance_ohm(frequency_hz, peak_current_a)).inv(),
        }
    }

    // Impedance as a ratio of quadratics, where it is one.
    pub(crate) fn lumped(&self, peak_current_a: f64) -> Option<Immittance> {
        match self {
            Self::Inductor(coil) => Some(coil.impedance(peak_current_a)),
            Self::Capacitor(capacitor) => Some(capacitor.admittance().inverse()),
            Self::Resistor(resistor) => Some(resistor.impedance()),
            Self::FerriteBead(_) => None,
        }
    }

    /// Where the part's model holds; lumped parts leave that to the size of what they are in.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::FerriteBead(bead) => bead.validity(frequency_hz),
            Self::Inductor(_) | Self::Capacitor(_) | Self::Resistor(_) => Validity::Holds,
        }
    }
}

impl From<Inductor> for Part {
    fn from(part: Inductor) -> Self {
        Self::Inductor(part)
    }
}

impl From<Capacitor> for Part {
    fn from(part: Capacitor) -> Self {
        Self::Capacitor(part)
    }
}

impl From<Resistor> for Part {
    fn from(part: Resistor) -> Self {
        Self::Resistor(part)
    }
}

impl From<FerriteBead> for Part {
    fn from(part: FerriteBead) -> Self {
        Self::FerriteBead(part)
    }
}
