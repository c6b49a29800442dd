//! The plane wave as an exposure: from where it comes, how it is polarized, where it is observed.

use super::incidence::{Incidence, Polarization};
use crate::error::{Result, check};

/// A uniform plane wave on the room, observed inside at some distance from the wall.
///
/// The distance matters for openings, whose field spreads behind them; a sheet is the same at every
/// distance.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct PlaneWave {
    angle_deg: f64,
    polarization: Polarization,
    inside_m: f64,
}

impl PlaneWave {
    /// Distance behind the wall at which the field is observed where the caller names none, m.
    pub const DEFAULT_INSIDE_M: f64 = 1.0;

    /// A wave at `angle_deg` from the normal of the wall (0 to less than 90), observed 1 m behind it.
    ///
    /// # Errors
    /// For an angle outside that range.
    pub fn new(angle_deg: f64, polarization: Polarization) -> Result<Self> {
        Ok(Self {
            angle_deg: check::incidence_angle("angle_deg", angle_deg)?,
            polarization,
            inside_m: Self::DEFAULT_INSIDE_M,
        })
    }

    /// A wave along the normal of the wall, observed 1 m behind it.
    #[must_use]
    pub fn normal() -> Self {
        Self { angle_deg: 0.0, polarization: Polarization::Te, inside_m: Self::DEFAULT_INSIDE_M }
    }

    /// The same wave, observed at `inside_m` metres behind the wall.
    ///
    /// # Errors
    /// Unless the distance is positive and finite.
    pub fn observed_at(mut self, inside_m: f64) -> Result<Self> {
        self.inside_m = check::positive("inside_m", "m", inside_m)?;
        Ok(self)
    }

    /// Angle from the normal, degrees.
    #[must_use]
    pub fn angle_deg(&self) -> f64 {
        self.angle_deg
    }

    /// Polarization.
    #[must_use]
    pub fn polarization(&self) -> Polarization {
        self.polarization
    }

    /// Distance behind the wall at which the field is observed, m.
    #[must_use]
    pub fn inside_m(&self) -> f64 {
        self.inside_m
    }

    /// This wave at one frequency.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Incidence {
        Incidence::at_angle(frequency_hz, self.angle_deg)
    }
}

impl Default for PlaneWave {
    fn default() -> Self {
        Self::normal()
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    angle_deg: f64,
    polarization: Polarization,
    inside_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for PlaneWave {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.angle_deg, record.polarization)?.observed_at(record.inside_m)
    }
}

#[cfg(feature = "serde")]
impl From<PlaneWave> for Record {
    fn from(wave: PlaneWave) -> Self {
        Self { angle_deg: wave.angle_deg, polarization: wave.polarization, inside_m: wave.inside_m }
    }
}
