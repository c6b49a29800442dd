//! The can around a filter and its bond to the wall.
//!
//! A ladder on paper has no ceiling to its loss. What is built has three: the inductance of whatever bonds
//! its case to the wall is common to input and output; some field goes straight from the input to the output
//! inside the can; and where the can is not divided at the wall, its isolation is a figure of its own.
//!
//! * bond: impedance `R + j w L` added to all four impedance parameters; a flush case has a milliohm and no
//!   inductance worth the name, a strap has some 0.6 uH for each metre;
//! * stray capacitance from the input of each line to its output;
//! * isolation, dB: added in amplitude to what the ladder passes, the cautious sum.
//!
//! Valid up to a case of a tenth of a wavelength; beyond, parts of the case are antennas and cavities.

use num_complex::Complex64;

use crate::circuit::TwoPort;
use crate::circuit::bounds;
use crate::circuit::chain::Case;
use crate::constants::wavelength_m;
use crate::error::{Result, check};
use crate::parameter::Element;
use crate::validity::Validity;

/// A filter's can and how it sits on the wall.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct Housing {
    /// Length of the case: lumped parts hold while it is below a tenth of a wavelength.
    #[parameter(circuit_positive)]
    case_length_m: f64,
    /// Resistance between case and wall.
    #[parameter(circuit_non_negative, default = 0.0, setter = none)]
    bond_resistance_ohm: f64,
    /// Inductance between case and wall; see `strap_inductance_h`. Near zero for a flush case.
    #[parameter(circuit_non_negative, default = 0.0, setter = none)]
    bond_inductance_h: f64,
    /// Capacitance from input to output inside the can.
    #[parameter(circuit_non_negative, default = 0.0)]
    stray_capacitance_f: f64,
    /// The most that any filter in this can can lose.
    #[parameter(circuit_non_negative)]
    isolation_db: Option<f64>,
}

impl Housing {
    /// With a bond to the wall of the given resistance (ohm) and inductance (H).
    ///
    /// # Errors
    /// If one is negative or not finite.
    pub fn with_bond(self, resistance_ohm: f64, inductance_h: f64) -> Result<Self> {
        Ok(Self {
            bond_resistance_ohm: bounds::non_negative("bond_resistance_ohm", "ohm", resistance_ohm)?,
            bond_inductance_h: bounds::non_negative("bond_inductance_h", "H", inductance_h)?,
            ..self
        })
    }

    /// With a bond by a flat strap of length, width and thickness in m, of the given resistance.
    ///
    /// # Errors
    /// Unless the sizes are positive and finite and the width is below the length (the formula is for straps).
    pub fn with_strap(self, resistance_ohm: f64, length_m: f64, width_m: f64, thickness_m: f64) -> Result<Self> {
        self.with_bond(resistance_ohm, strap_inductance_h(length_m, width_m, thickness_m)?)
    }

    /// A two-port put into this can, at a frequency in Hz: bond and stray capacitance, not the isolation.
    #[must_use]
    pub fn around(&self, two_port: &TwoPort, frequency_hz: f64) -> TwoPort {
        self.case().around(two_port, std::f64::consts::TAU * frequency_hz)
    }

    /// Insertion loss in nepers with what passes beside the filter added to what passes through it.
    #[must_use]
    pub(crate) fn isolated(&self, loss_np: f64) -> f64 {
        match self.isolation_db {
            None => loss_np,
            Some(isolation_db) => {
                let (small, large) = {
                    let floor = isolation_db / crate::decibel::DB_PER_NEPER;
                    (loss_np.min(floor), loss_np.max(floor))
                };
                small - (small - large).exp().ln_1p()
            }
        }
    }

    /// Impedance between case and wall at a frequency in Hz, ohm.
    pub(crate) fn bond_ohm(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(self.bond_resistance_ohm, std::f64::consts::TAU * frequency_hz * self.bond_inductance_h)
    }

    /// Admittance from each input to its output at a frequency in Hz, siemens.
    pub(crate) fn bridge_s(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(0.0, std::f64::consts::TAU * frequency_hz * self.stray_capacitance_f)
    }

    /// What a sweep needs of it.
    pub(crate) const fn case(&self) -> Case {
        Case { bond_ohm: self.bond_resistance_ohm, bond_h: self.bond_inductance_h, stray_f: self.stray_capacitance_f }
    }

    /// True if it changes the two-port itself.
    pub(crate) fn alters_two_port(&self) -> bool {
        self.bond_resistance_ohm > 0.0 || self.bond_inductance_h > 0.0 || self.stray_capacitance_f > 0.0
    }

    /// Where lumped parts in a case of this size hold.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "lumped filter",
            "case length / wavelength",
            "",
            self.case_length_m / wavelength_m(frequency_hz),
            (0.0, 0.1),
            "the case and its leads are antennas and cavities, and the loss may be far less",
        )
    }
}

/// Inductance in H of a straight flat strap of the given length, width and thickness in m.
///
/// `L = (mu0 l/2 pi) (ln(2 l/(w + t)) + 1/2 + 0.2235 (w + t)/l)`: F. W. Grover, *Inductance Calculations*,
/// 1946; as quoted by J. R. Barnes, *Electronic System Design: Interference and Noise Control Techniques*, 1987,
/// p. 166 (read in a public mail archive). No return conductor: near a wall the inductance is less.
///
/// # Errors
/// Unless all are positive and finite, and width and thickness are below the length.
pub fn strap_inductance_h(length_m: f64, width_m: f64, thickness_m: f64) -> Result<f64> {
    bounds::positive("length_m", "m", length_m)?;
    bounds::positive("width_m", "m", width_m)?;
    bounds::positive("thickness_m", "m", thickness_m)?;
    check::less_than("width_m", "m", width_m, "length_m", length_m)?;
    check::less_than("thickness_m", "m", thickness_m, "length_m", length_m)?;
    let section = width_m + thickness_m;
    let shape = (2.0 * length_m / section).ln() + 0.5 + 0.2235 * section / length_m;
    Ok(crate::constants::VACUUM_PERMEABILITY / std::f64::consts::TAU * length_m * shape)
}
