//! A dielectric rod in a tube: an optical fibre, its jacket, a plastic tie.

use num_complex::Complex64;

use super::guide::{dielectric, length};
use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};

/// A round dielectric rod on the axis of a tube.
///
/// Where a rod lies off the axis, or against the wall, the one on the axis is the worst (symmetrisation, from memory; numerical cases agree);
/// for several fibres see [`Rod::bundle`]. A metal wire or strength member is no rod but a [`ThroughWire`](super::ThroughWire): a conductor in
/// a tube has no cutoff. A wet, carbon-loaded or metallised jacket is a rod with loss: at a loss tangent of ten, fibres pass a hundred decibels
/// and more above what they pass dry.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct Rod {
    diameter_m: f64,
    relative_permittivity: f64,
    loss_tangent: f64,
    outside_m: f64,
    inside_m: f64,
}

impl Rod {
    /// A lossless rod of the diameter and relative permittivity given, flush with both ends of its tube.
    ///
    /// # Errors
    /// Unless the diameter is positive and the relative permittivity at least 1, both finite.
    pub fn new(diameter_m: f64, relative_permittivity: f64) -> Result<Self> {
        Ok(Self {
            diameter_m: length("diameter_m", diameter_m)?,
            relative_permittivity: dielectric(relative_permittivity, 0.0)?.0,
            loss_tangent: 0.0,
            outside_m: 0.0,
            inside_m: 0.0,
        })
    }

    /// What stands for several fibres alike, wherever they lie: one rod on the axis with the area of all.
    ///
    /// It passes more than the bundle (symmetrisation, from memory). The circle around the bundle is no such bound: a thicker rod of the same
    /// material may leak less. Where the number is unknown, a rod of 0.6 of the bore is the worst far below cutoff.
    ///
    /// # Errors
    /// As for [`Rod::new`], and unless there is at least one fibre.
    pub fn bundle(count: u32, fibre_diameter_m: f64, relative_permittivity: f64) -> Result<Self> {
        check::within("count", "", f64::from(count), (1.0, 1e6), "from 1 to 1e6")?;
        length("fibre_diameter_m", fibre_diameter_m)?;
        Self::new(fibre_diameter_m * f64::from(count).sqrt(), relative_permittivity)
    }

    /// The same rod with dielectric loss.
    ///
    /// # Errors
    /// Unless the loss tangent is zero or positive, and finite.
    pub fn lossy(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: dielectric(self.relative_permittivity, loss_tangent)?.1, ..self })
    }

    /// The same rod standing out of its tube by the lengths given, at the outer and at the inner end.
    ///
    /// It draws more of the field in: by 3 dB (permittivity 3) to 11 dB (78) at an end where it stands out by a radius of the bore, by 4 to 30 dB
    /// where it goes on for long.
    ///
    /// # Errors
    /// Unless both lengths are zero or positive, and finite.
    pub fn standing_out(self, outside_m: f64, inside_m: f64) -> Result<Self> {
        for (name, value) in [("outside_m", outside_m), ("inside_m", inside_m)] {
            check::within(name, "m", check::non_negative(name, "m", value)?, (0.0, 1e7), "from 0 to 1e7 m")?;
        }
        Ok(Self { outside_m, inside_m, ..self })
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

    /// Length that stands out of the outer end, m.
    #[must_use]
    pub fn outside_m(&self) -> f64 {
        self.outside_m
    }

    /// Length that stands out of the inner end, m.
    #[must_use]
    pub fn inside_m(&self) -> f64 {
        self.inside_m
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
        let diameter_m = knobs.value("diameter_m", "m", self.diameter_m, Domain::POSITIVE);
        let relative_permittivity =
            knobs.value("relative_permittivity", "", self.relative_permittivity, Domain::AT_LEAST_ONE);
        let loss_tangent = knobs.value("loss_tangent", "", self.loss_tangent, Domain::NON_NEGATIVE);
        let outside_m = knobs.value("outside_m", "m", self.outside_m, Domain::NON_NEGATIVE);
        let inside_m = knobs.value("inside_m", "m", self.inside_m, Domain::NON_NEGATIVE);
        Self::new(diameter_m, relative_permittivity)?.lossy(loss_tangent)?.standing_out(outside_m, inside_m)
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
    #[serde(default)]
    outside_m: f64,
    #[serde(default)]
    inside_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Rod {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.diameter_m, record.relative_permittivity)?
            .lossy(record.loss_tangent)?
            .standing_out(record.outside_m, record.inside_m)
    }
}

#[cfg(feature = "serde")]
impl From<Rod> for Record {
    fn from(rod: Rod) -> Self {
        Self {
            diameter_m: rod.diameter_m,
            relative_permittivity: rod.relative_permittivity,
            loss_tangent: rod.loss_tangent,
            outside_m: rod.outside_m,
            inside_m: rod.inside_m,
        }
    }
}
