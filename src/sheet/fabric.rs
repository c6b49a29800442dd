//! Conductive fabric and open coatings: a measured sheet resistance with the openings of a weave.
//!
//! A closed film is its sheet resistance alone. A woven or knitted fabric also has holes between its
//! yarns, whose magnetic field gives it the inductance of a mesh of the yarns' pitch and diameter:
//!
//! Z = R_s + jωL_s (TE), R_s + jωL_s (1 − k_t²/2k₀²) (TM), L_s as in [`WireMesh`](super::WireMesh).
//!
//! The resistance is what a four-point measurement gives; it takes the place of the wires' internal
//! impedance, which no formula knows for plated yarn. Source of L_s: K. F. Casey 1988, see there; the
//! combination is common practice, no source.

use num_complex::Complex64;

use super::mesh::Openings;
use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::{Incidence, Polarization};

/// A woven conductive fabric.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Fabric {
    sheet_resistance_ohm: f64,
    openings: Openings,
}

impl Fabric {
    /// A fabric by its sheet resistance (ohm per square) and the pitch and diameter of its yarns (m).
    ///
    /// # Errors
    /// Unless all are positive and finite, and the yarn thinner than the pitch.
    pub fn new(sheet_resistance_ohm: f64, yarn_pitch_m: f64, yarn_diameter_m: f64) -> Result<Self> {
        check::positive("sheet_resistance_ohm", "ohm", sheet_resistance_ohm)?;
        check::positive("yarn_pitch_m", "m", yarn_pitch_m)?;
        check::positive("yarn_diameter_m", "m", yarn_diameter_m)?;
        check::less_than("yarn_diameter_m", "m", yarn_diameter_m, "yarn_pitch_m", yarn_pitch_m)?;
        let openings = Openings { pitch_m: yarn_pitch_m, wire_diameter_m: yarn_diameter_m };
        Ok(Self { sheet_resistance_ohm, openings })
    }

    /// Sheet resistance, ohm per square.
    #[must_use]
    pub fn sheet_resistance_ohm(&self) -> f64 {
        self.sheet_resistance_ohm
    }

    /// Distance of yarns, centre to centre, m.
    #[must_use]
    pub fn yarn_pitch_m(&self) -> f64 {
        self.openings.pitch_m
    }

    /// Diameter of a yarn, m.
    #[must_use]
    pub fn yarn_diameter_m(&self) -> f64 {
        self.openings.wire_diameter_m
    }

    /// Sheet impedance, ohm per square.
    #[must_use]
    pub fn sheet_impedance_ohm(&self, wave: &Incidence, polarization: Polarization) -> Complex64 {
        self.sheet_resistance_ohm + self.openings.impedance_ohm(wave, polarization)
    }

    /// Holds while the pitch is below a quarter wavelength.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.openings.validity(frequency_hz)
    }
}

impl Rebuild for Fabric {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("sheet_resistance_ohm", "ohm", self.sheet_resistance_ohm, Domain::POSITIVE),
            knobs.value("yarn_pitch_m", "m", self.yarn_pitch_m(), Domain::POSITIVE),
            knobs.value("yarn_diameter_m", "m", self.yarn_diameter_m(), Domain::POSITIVE.and("smaller than the pitch")),
        )
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    sheet_resistance_ohm: f64,
    yarn_pitch_m: f64,
    yarn_diameter_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Fabric {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.sheet_resistance_ohm, record.yarn_pitch_m, record.yarn_diameter_m)
    }
}

#[cfg(feature = "serde")]
impl From<Fabric> for Record {
    fn from(fabric: Fabric) -> Self {
        Self {
            sheet_resistance_ohm: fabric.sheet_resistance_ohm,
            yarn_pitch_m: fabric.yarn_pitch_m(),
            yarn_diameter_m: fabric.yarn_diameter_m(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn resistance_at_low_inductance_at_high_frequency() {
        let fabric = Fabric::new(0.05, 0.3e-3, 0.1e-3).unwrap();
        let at = |f: f64| fabric.sheet_impedance_ohm(&Incidence::at_angle(f, 0.0), Polarization::Te);
        assert!((at(1e3).norm() - 0.05).abs() < 1e-9);
        assert!(at(20e9).im > 20.0 * at(20e9).re);
        assert!(Fabric::new(0.05, 0.1e-3, 0.2e-3).is_err());
        assert!(Fabric::new(f64::NAN, 0.3e-3, 0.1e-3).is_err());
    }
}
