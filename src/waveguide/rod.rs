//! A dielectric rod in a tube: an optical fibre, its jacket, a plastic tie.

use num_complex::Complex64;

use super::guide::length;
use crate::error::{Result, check};
use crate::parameter::Element;

/// A round dielectric rod on the axis of a tube.
///
/// Where a rod lies off the axis, or against the wall, the one on the axis is the worst (symmetrisation, from memory; numerical cases agree);
/// for several fibres see [`Rod::bundle`]. A metal wire or strength member is no rod but a [`ThroughWire`](super::ThroughWire): a conductor in
/// a tube has no cutoff. A wet, carbon-loaded or metallised jacket is a rod with loss: at a loss tangent of ten, fibres pass a hundred decibels
/// and more above what they pass dry.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct Rod {
    /// Diameter.
    #[parameter(within(1e-10, 1e7))]
    diameter_m: f64,
    /// Relative permittivity ε'.
    #[parameter(within(1.0, 1e5))]
    relative_permittivity: f64,
    /// Zero or positive.
    #[parameter(within(0.0, 1e5), default = 0.0, setter = lossy)]
    loss_tangent: f64,
    /// Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush. A fibre that runs on
    /// stands out by its length; what lies farther out than a few widths of the tube adds nothing.
    #[parameter(within(0.0, 1e7), default = 0.0, setter = none)]
    outside_m: f64,
    /// Lengths that stand out of the tube's outer and inner end; 0 where the rod is cut flush. A fibre that runs on
    /// stands out by its length; what lies farther out than a few widths of the tube adds nothing.
    #[parameter(within(0.0, 1e7), default = 0.0, setter = none)]
    inside_m: f64,
}

impl Rod {
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

    pub(super) fn permittivity(&self) -> Complex64 {
        Complex64::new(self.relative_permittivity, -self.relative_permittivity * self.loss_tangent)
    }
}
