//! Hollow and filled guides: what a tube or a cell is before its length is known.
//!
//! A mode with the cutoff wavenumber k_c runs along the guide as exp(−γz) with
//!
//! γ = √((k_c − nk)(k_c + nk) + δ), n² = ε_r (1 − j tan δ_e),
//!
//! the root that decays. The product keeps its digits at cutoff, where the difference of squares loses them. δ is the wall's
//! share: first order in the surface impedance Z_s = (1 + j) R_s of the wall *in γ²*, where it is finite at cutoff, while the
//! usual attenuation constant R_s·(…)/√(1 − (f_c/f)²) is infinite there. Far above cutoff both agree.
//!
//! Cutoffs: circle 1.841 184/radius, rectangle π/width, regular hexagon 2.010 779/side (computed in
//! `spectrum/hexagon.rs`). Source of the first two: D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.3 and 3.4.
//!
//! ```
//! use stillroom::waveguide::Guide;
//! // A duct of 0.5 m × 0.3 m at 100 MHz: α = 5.92 Np/m, cutoff 300 MHz (a set exercise).
//! let duct = Guide::rectangular(0.5, 0.3)?;
//! assert!((duct.cutoff_hz() - 299.8e6).abs() < 0.1e6);
//! assert!((duct.propagation_per_m(100e6).re - 5.92).abs() < 0.005);
//! # Ok::<(), stillroom::Error>(())
//! ```

use std::f64::consts::PI;

use num_complex::Complex64;

use super::mode::{self, Mode};
use super::propagation::Medium;
use crate::constants::{SPEED_OF_LIGHT, VACUUM_PERMEABILITY};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// The cross-section of a guide.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Shape {
    /// A circle.
    Circle {
        /// Inner diameter, m.
        diameter_m: f64,
    },
    /// A rectangle; a square has width and height alike.
    Rectangle {
        /// Inner width, m.
        width_m: f64,
        /// Inner height, m.
        height_m: f64,
    },
    /// A regular hexagon.
    Hexagon {
        /// Inner width across flats, m.
        across_flats_m: f64,
    },
}

/// A length that a tube can have: positive, and neither below an atom nor beyond the Earth, so that no product of such
/// numbers leaves what can be computed.
pub(super) fn length(name: &str, value: f64) -> Result<f64> {
    check::positive(name, "m", value)?;
    check::within(name, "m", value, (1e-10, 1e7), "from 1e-10 to 1e7 m")
}

/// A dielectric that can fill a tube.
pub(super) fn dielectric(relative_permittivity: f64, loss_tangent: f64) -> Result<(f64, f64)> {
    check::at_least_one("relative_permittivity", relative_permittivity)?;
    check::within("relative_permittivity", "", relative_permittivity, (1.0, 1e5), "from 1 to 1e5")?;
    check::non_negative("loss_tangent", "", loss_tangent)?;
    check::within("loss_tangent", "", loss_tangent, (0.0, 1e5), "from 0 to 1e5")?;
    Ok((relative_permittivity, loss_tangent))
}

/// A wall's conductivity, S/m; infinite for a perfect conductor.
pub(super) fn conductivity(wall_conductivity_s_per_m: f64) -> Result<f64> {
    let name = "wall_conductivity_s_per_m";
    if wall_conductivity_s_per_m == f64::INFINITY {
        return Ok(f64::INFINITY);
    }
    check::positive(name, "S/m", wall_conductivity_s_per_m)?;
    check::within(name, "S/m", wall_conductivity_s_per_m, (1.0, 1e15), "from 1 to 1e15 S/m")
}

impl Shape {
    fn checked(self) -> Result<Self> {
        match self {
            Self::Circle { diameter_m } => {
                length("diameter_m", diameter_m)?;
            }
            Self::Rectangle { width_m, height_m } => {
                length("width_m", width_m)?;
                length("height_m", height_m)?;
                let ratio = width_m / height_m;
                check::within("width_m / height_m", "", ratio, (1e-3, 1e3), "from 1e-3 to 1e3")?;
            }
            Self::Hexagon { across_flats_m } => {
                length("across_flats_m", across_flats_m)?;
            }
        }
        Ok(self)
    }

    /// Open area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        match *self {
            Self::Circle { diameter_m } => 0.25 * PI * diameter_m * diameter_m,
            Self::Rectangle { width_m, height_m } => width_m * height_m,
            Self::Hexagon { across_flats_m } => 0.5 * 3_f64.sqrt() * across_flats_m * across_flats_m,
        }
    }

    /// Length of the wall around it, m.
    #[must_use]
    pub fn perimeter_m(&self) -> f64 {
        match *self {
            Self::Circle { diameter_m } => PI * diameter_m,
            Self::Rectangle { width_m, height_m } => 2.0 * (width_m + height_m),
            Self::Hexagon { across_flats_m } => 2.0 * 3_f64.sqrt() * across_flats_m,
        }
    }

    /// Hydraulic diameter 4·area/perimeter, m.
    #[must_use]
    pub fn hydraulic_diameter_m(&self) -> f64 {
        4.0 * self.area_m2() / self.perimeter_m()
    }

    /// Greatest width, m: diameter, longer side, width across flats.
    #[must_use]
    pub fn width_m(&self) -> f64 {
        match *self {
            Self::Circle { diameter_m } => diameter_m,
            Self::Rectangle { width_m, height_m } => width_m.max(height_m),
            Self::Hexagon { across_flats_m } => across_flats_m,
        }
    }

    /// Diameter of the greatest round thing that fits in, m.
    #[must_use]
    pub fn bore_m(&self) -> f64 {
        match *self {
            Self::Rectangle { width_m, height_m } => width_m.min(height_m),
            _ => self.width_m(),
        }
    }

    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Self {
        let mut length = |name: &str, value: f64| knobs.value(name, "m", value, Domain::POSITIVE);
        match *self {
            Self::Circle { diameter_m } => Self::Circle { diameter_m: length("diameter_m", diameter_m) },
            Self::Rectangle { width_m, height_m } => {
                Self::Rectangle { width_m: length("width_m", width_m), height_m: length("height_m", height_m) }
            }
            Self::Hexagon { across_flats_m } => {
                Self::Hexagon { across_flats_m: length("across_flats_m", across_flats_m) }
            }
        }
    }
}

/// A straight guide with conducting walls: a shape, what fills it, and how well its wall conducts.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct Guide {
    shape: Shape,
    relative_permittivity: f64,
    loss_tangent: f64,
    wall_conductivity_s_per_m: f64,
    dominant: Mode,
}

impl Guide {
    /// A guide of any shape, empty, with a perfectly conducting wall.
    ///
    /// # Errors
    /// Unless every dimension is positive and finite.
    pub fn new(shape: Shape) -> Result<Self> {
        let shape = shape.checked()?;
        Ok(Self {
            shape,
            relative_permittivity: 1.0,
            loss_tangent: 0.0,
            wall_conductivity_s_per_m: f64::INFINITY,
            dominant: mode::dominant(&shape),
        })
    }

    /// A round guide of the inner diameter `diameter_m`.
    ///
    /// # Errors
    /// Unless the diameter is positive and finite.
    pub fn circular(diameter_m: f64) -> Result<Self> {
        Self::new(Shape::Circle { diameter_m })
    }

    /// A rectangular guide of the inner sides `width_m` and `height_m`.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn rectangular(width_m: f64, height_m: f64) -> Result<Self> {
        Self::new(Shape::Rectangle { width_m, height_m })
    }

    /// A guide whose section is a regular hexagon of the inner width `across_flats_m`.
    ///
    /// # Errors
    /// Unless the width is positive and finite.
    pub fn hexagonal(across_flats_m: f64) -> Result<Self> {
        Self::new(Shape::Hexagon { across_flats_m })
    }

    /// The same guide filled with a dielectric.
    ///
    /// # Errors
    /// Unless the relative permittivity is at least 1 and the loss tangent is not negative, both finite.
    pub fn filled(self, relative_permittivity: f64, loss_tangent: f64) -> Result<Self> {
        let (relative_permittivity, loss_tangent) = dielectric(relative_permittivity, loss_tangent)?;
        Ok(Self { relative_permittivity, loss_tangent, ..self })
    }

    /// The same guide with a wall of the conductivity given, non-magnetic; infinite for a perfect conductor.
    ///
    /// # Errors
    /// Unless the conductivity is positive.
    pub fn walled(self, wall_conductivity_s_per_m: f64) -> Result<Self> {
        Ok(Self { wall_conductivity_s_per_m: conductivity(wall_conductivity_s_per_m)?, ..self })
    }

    /// Its cross-section.
    #[must_use]
    pub fn shape(&self) -> &Shape {
        &self.shape
    }

    /// Relative permittivity ε' of the filling.
    #[must_use]
    pub fn relative_permittivity(&self) -> f64 {
        self.relative_permittivity
    }

    /// Loss tangent of the filling.
    #[must_use]
    pub fn loss_tangent(&self) -> f64 {
        self.loss_tangent
    }

    /// Conductivity of the wall, S/m.
    #[must_use]
    pub fn wall_conductivity_s_per_m(&self) -> f64 {
        self.wall_conductivity_s_per_m
    }

    /// The mode with the lowest cutoff.
    #[must_use]
    pub fn dominant(&self) -> &Mode {
        &self.dominant
    }

    /// One mode by its name: "TE11", "TM0,12" (azimuthal and radial order in a circle, half-waves along width and height of a
    /// rectangle), or in a hexagon family and place, "TE 3".
    ///
    /// # Errors
    /// [`Error::UnknownName`](crate::Error::UnknownName) where the section has no such mode; orders go up to 500, places in the
    /// hexagon as far as its table.
    pub fn mode(&self, name: &str) -> Result<Mode> {
        mode::named(&self.shape, name)
    }

    /// The `count` lowest modes by rising cutoff. The hexagon has 43 entries (23 TE and 20 TM), the others any number.
    #[must_use]
    pub fn modes(&self, count: usize) -> Vec<Mode> {
        mode::lowest(&self.shape, count)
    }

    /// Cutoff frequency of the dominant mode, Hz: c k_c/(2π √ε').
    #[must_use]
    pub fn cutoff_hz(&self) -> f64 {
        self.mode_cutoff_hz(&self.dominant)
    }

    /// Cutoff frequency of a mode, Hz.
    #[must_use]
    pub fn mode_cutoff_hz(&self, mode: &Mode) -> f64 {
        SPEED_OF_LIGHT * mode.cutoff_wavenumber_per_m() / (2.0 * PI * self.relative_permittivity.sqrt())
    }

    /// Complex relative permittivity of the filling.
    pub(super) fn permittivity(&self) -> Complex64 {
        Complex64::new(self.relative_permittivity, -self.relative_permittivity * self.loss_tangent)
    }

    /// Propagation constant γ = α + jβ of the dominant mode, 1/m: the field goes as exp(−γz).
    #[must_use]
    pub fn propagation_per_m(&self, frequency_hz: f64) -> Complex64 {
        self.mode_propagation_per_m(&self.dominant, frequency_hz)
    }

    /// Propagation constant γ = α + jβ of one of its modes, 1/m.
    #[must_use]
    pub fn mode_propagation_per_m(&self, mode: &Mode, frequency_hz: f64) -> Complex64 {
        self.medium().propagation_per_m(mode, frequency_hz)
    }

    /// The same at many frequencies; `out` has the length of `frequency_hz`.
    pub fn mode_propagations_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [Complex64]) {
        self.medium().propagations_per_m(mode, frequency_hz, out);
    }

    /// What it is made of, besides its shape.
    pub(super) fn medium(&self) -> Medium {
        Medium { permittivity: self.permittivity(), wall_conductivity_s_per_m: self.wall_conductivity_s_per_m }
    }

    /// Attenuation of the dominant mode, dB/m.
    #[must_use]
    pub fn attenuation_db_per_m(&self, frequency_hz: f64) -> f64 {
        DB_PER_NEPER * self.propagation_per_m(frequency_hz).re
    }

    /// The same at many frequencies; `out` has the length of `frequency_hz`.
    pub fn attenuations_db_per_m(&self, frequency_hz: &[f64], out: &mut [f64]) {
        self.mode_attenuations_db_per_m(&self.dominant, frequency_hz, out);
    }

    /// Attenuation of one of its modes at many frequencies, dB/m; `out` has the length of `frequency_hz`.
    pub fn mode_attenuations_db_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [f64]) {
        self.medium().attenuations_db_per_m(mode, frequency_hz, out);
    }

    /// Skin depth of the wall, m.
    pub(super) fn skin_depth_m(&self, frequency_hz: f64) -> f64 {
        (PI * frequency_hz * VACUUM_PERMEABILITY * self.wall_conductivity_s_per_m).sqrt().recip()
    }

    /// Where the wall loss of first order holds; a guide with a perfect wall is exact.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        if self.wall_conductivity_s_per_m == f64::INFINITY {
            return Validity::Holds;
        }
        Validity::within(
            "wall loss of first order",
            "skin depth / width",
            "",
            self.skin_depth_m(frequency_hz) / self.shape.bore_m(),
            (0.0, 0.02),
            "the field reaches into the wall by more than a fiftieth of the width and the cutoff shifts",
        )
    }
}

impl Rebuild for Guide {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let shape = self.shape.rebuild(knobs);
        let relative_permittivity =
            knobs.value("relative_permittivity", "", self.relative_permittivity, Domain::AT_LEAST_ONE);
        let loss_tangent = knobs.value("loss_tangent", "", self.loss_tangent, Domain::NON_NEGATIVE);
        // A perfect wall is no number that could be swept.
        let wall = match self.wall_conductivity_s_per_m {
            f64::INFINITY => f64::INFINITY,
            finite => knobs.value("wall_conductivity_s_per_m", "S/m", finite, Domain::POSITIVE),
        };
        Self::new(shape)?.filled(relative_permittivity, loss_tangent)?.walled(wall)
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    shape: Shape,
    #[serde(default = "one")]
    relative_permittivity: f64,
    #[serde(default)]
    loss_tangent: f64,
    /// Absent for a perfect conductor.
    #[serde(default)]
    wall_conductivity_s_per_m: Option<f64>,
}

#[cfg(feature = "serde")]
fn one() -> f64 {
    1.0
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Guide {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.shape)?
            .filled(record.relative_permittivity, record.loss_tangent)?
            .walled(record.wall_conductivity_s_per_m.unwrap_or(f64::INFINITY))
    }
}

#[cfg(feature = "serde")]
impl From<Guide> for Record {
    fn from(guide: Guide) -> Self {
        Self {
            shape: guide.shape,
            relative_permittivity: guide.relative_permittivity,
            loss_tangent: guide.loss_tangent,
            wall_conductivity_s_per_m: Some(guide.wall_conductivity_s_per_m).filter(|wall| wall.is_finite()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn modes_by_name_are_those_of_the_list() {
        for guide in [Guide::circular(6e-3), Guide::rectangular(5e-3, 8e-3), Guide::hexagonal(4.8e-3)] {
            let guide = guide.unwrap();
            for mode in guide.modes(43) {
                assert_eq!(guide.mode(&mode.to_string()).unwrap(), mode);
            }
            for name in ["TE00", "TEM", "TM 99", "11", "TE1", "TM501,1", "TE 0"] {
                assert!(guide.mode(name).is_err(), "{name}");
            }
        }
        let high = Guide::circular(2.0).unwrap().mode("TE300,40").unwrap();
        assert!(high.cutoff_wavenumber_per_m() > 300.0);
    }
}
