//! A dielectric rod in a tube: an optical fibre, its jacket, a plastic tie.

use num_complex::Complex64;

use super::guide::{dielectric, length};
use crate::error::Result;
use crate::parameter::{Knobs, Rebuild};

/// A round dielectric rod on the axis of a tube.
///
/// Slightly conducting or metal-reinforced cables are no rods: a conductor in a tube has no cutoff.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct Rod {
    diameter_m: f64,
    relative_permittivity: f64,
    loss_tangent: f64,
}

impl Rod {
    /// A lossless rod of the diameter and relative permittivity given.
    ///
    /// # Errors
    /// Unless the diameter is positive and the relative permittivity at least 1, both finite.
    pub fn new(diameter_m: f64, relative_permittivity: f64) -> Result<Self> {
        Ok(Self {
            diameter_m: length("diameter_m", diameter_m)?,
            relative_permittivity: dielectric(relative_permittivity, 0.0)?.0,
            loss_tangent: 0.0,
        })
    }

    /// The same rod with dielectric loss.
    ///
    /// # Errors
    /// Unless the loss tangent is zero or positive, and finite.
    pub fn lossy(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: dielectric(self.relative_permittivity, loss_tangent)?.1, ..self })
    }

    /// Diameter, m.
    #[must_use]
    pub fn diameter_m(&self) -> f64 {
        self.diameter_m
    }

    /// Relative permittivity ε'.
    #[must_use]
    pub fn relative_permittivity(&self) -> f64 {
        self.relative_permittivity
    }

    pub(super) fn permittivity(&self) -> Complex64 {
        Complex64::new(self.relative_permittivity, -self.relative_permittivity * self.loss_tangent)
    }

    /// Loss tangent.
    #[must_use]
    pub fn loss_tangent(&self) -> f64 {
        self.loss_tangent
    }
}

impl Rebuild for Rod {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let diameter_m = knobs.value("diameter_m", "m", self.diameter_m, "positive");
        let relative_permittivity = knobs.value("relative_permittivity", "", self.relative_permittivity, "at least 1");
        let loss_tangent = knobs.value("loss_tangent", "", self.loss_tangent, "zero or positive");
        Self::new(diameter_m, relative_permittivity)?.lossy(loss_tangent)
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    diameter_m: f64,
    relative_permittivity: f64,
    #[serde(default)]
    loss_tangent: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Rod {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.diameter_m, record.relative_permittivity)?.lossy(record.loss_tangent)
    }
}

#[cfg(feature = "serde")]
impl From<Rod> for Record {
    fn from(rod: Rod) -> Self {
        Self {
            diameter_m: rod.diameter_m,
            relative_permittivity: rod.relative_permittivity,
            loss_tangent: rod.loss_tangent,
        }
    }
}
