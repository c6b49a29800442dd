//! The outline of an opening: its static limits, and the lowest modes of the guide that the wall's depth makes of it.
//!
//! Cutoffs and moments of rectangles are closed forms. Those of ellipses, rounded slots and crosses were
//! found by finite elements (`tests/python/opening_reference.py`, two meshes extrapolated) and are
//! interpolated in √(w/l): to 10⁻⁴, and to 0.5 percent for the cross.

use std::f64::consts::{FRAC_PI_4, PI};

use crate::leak::Polarizability;
use crate::mouth::polarizability::{in_root, unit_cross, unit_ellipse, unit_rectangle, unit_rounded_slot};

/// What kind of outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outline {
    Rectangle,
    Ellipse,
    RoundedSlot,
    Cross,
}

/// A mode of the depth: its cutoff wavenumber, and ∫E over √∫E² squared, both in units of the length.
#[derive(Debug, Clone, Copy)]
pub(super) struct GuideMode {
    pub cutoff: f64,
    pub moment_squared: f64,
}

/// One outline of unit length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Unit {
    pub polarizability: Polarizability,
    pub area: f64,
    /// Electric field across the length, the lowest of all.
    pub across: GuideMode,
    /// Electric field along the length.
    pub along: GuideMode,
    /// Cutoff wavenumber of the lowest mode with an electric field along the depth.
    pub electric_cutoff: f64,
    /// How far it is from a rectangle towards a circle, 0 to 1.
    pub roundness: f64,
}

impl Outline {
    /// By width over length.
    pub(super) fn unit(self, aspect: f64) -> Unit {
        let (polarizability, area, table) = match self {
            Self::Rectangle => (unit_rectangle(aspect), aspect, None),
            Self::Ellipse => (unit_ellipse(aspect), FRAC_PI_4 * aspect, Some(&ELLIPSE)),
            Self::RoundedSlot => {
                (unit_rounded_slot(aspect), aspect * (1.0 - (1.0 - FRAC_PI_4) * aspect), Some(&ROUNDED_SLOT))
            }
            Self::Cross => (unit_cross(aspect), aspect * (2.0 - aspect), Some(&CROSS)),
        };
        let moment = 8.0 / (PI * PI);
        let [across, across_moment, along, along_moment, electric] =
            table.map_or([1.0, moment, 1.0, moment, 1.0], |table| table.each_ref().map(|row| in_root(aspect, row)));
        Unit {
            polarizability,
            area,
            across: GuideMode { cutoff: PI * across, moment_squared: across_moment * area },
            along: GuideMode { cutoff: PI * along / aspect, moment_squared: along_moment * area },
            electric_cutoff: PI * electric * 1f64.hypot(1.0 / aspect),
            roundness: if matches!(self, Self::Ellipse | Self::RoundedSlot) { aspect } else { 0.0 },
        }
    }

    /// Whether the outline is the same after a quarter turn.
    pub(super) fn is_square(self) -> bool {
        self == Self::Cross
    }
}

/// Cutoff of the mode with E across the length over that of the rectangle; its moment² over the area; the
/// same two with E along the length; cutoff of the electric mode over that of the rectangle. Polynomials in √(w/l).
type Table = [[f64; 8]; 5];

const ELLIPSE: Table = [
    [1.192171, -0.013435, -0.005687, -0.001041, 0.000080, 0.000025, 0.000043, -0.000021],
    [0.866076, -0.018791, -0.008451, -0.001937, -0.000110, 0.000017, 0.000045, -0.000016],
    [1.086542, 0.091612, 0.000888, -0.007644, 0.000065, 0.000692, 0.000043, -0.000064],
    [0.566276, 0.346223, -0.078459, 0.001668, 0.000386, 0.000841, -0.000264, 0.000162],
    [1.050492, 0.042831, -0.009093, -0.003362, 0.001845, 0.000001, -0.000239, 0.000058],
];

const ROUNDED_SLOT: Table = [
    [1.079949, 0.092528, 0.009603, -0.007302, -0.002592, -0.000344, 0.000182, 0.000110],
    [0.824468, 0.018165, 0.002009, -0.004579, -0.003009, -0.000649, 0.000238, 0.000190],
    [1.055544, 0.081004, 0.029956, 0.004765, 0.000569, 0.000281, 0.000021, -0.000006],
    [0.760740, 0.085263, -0.011575, 0.001268, 0.002335, -0.001397, 0.000152, 0.000048],
    [1.022951, 0.037014, 0.018675, 0.004812, -0.000241, -0.000566, -0.000122, 0.000009],
];

const CROSS: Table = [
    [1.040473, 0.012931, -0.047327, -0.024184, 0.005455, 0.009829, 0.003208, -0.000385],
    [0.613417, 0.238354, 0.005165, -0.046856, -0.015584, 0.006424, 0.007526, 0.002122],
    [0.420895, 0.507972, 0.083731, -0.018975, -0.003584, 0.004849, 0.003976, 0.001136],
    [0.613417, 0.238354, 0.005165, -0.046856, -0.015584, 0.006424, 0.007526, 0.002122],
    [0.842482, 0.062804, 0.067781, 0.031451, 0.005021, -0.007800, -0.000890, -0.000857],
];
