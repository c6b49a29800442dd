//! What loops and rods close to a wall read: the exact field of a small source through any sheet.
//!
//! Below some 20 MHz a room is tested with loops (magnetic field) and rods (electric field) about
//! 0.3 m from its wall. Their field is no plane wave, and the plane-wave formula is wrong by tens of
//! decibels. With the current constant around the loop the field is known exactly as an integral over
//! transverse wavenumbers l (J. R. Moser, "Low-frequency shielding of a circular loop
//! electromagnetic field source", IEEE Trans. EMC 9 (1967) 6, for one layer; from memory, rederived):
//!
//! - coaxial loops of radii a, b: H ∝ ∫ T_TE(l) (l²/τ₀) e^{−τ₀(z−t)} J₁(la) · 2J₁(lb)/(lb) dl;
//! - loops in one plane across the wall, with q² = l² sin²ψ − k₀²:
//!   H ∝ ∫∫ [k₀² cos²ψ T_TM − τ₀² sin²ψ T_TE] S(qa) S(qb) e^{−τ₀(z−t)} (l/τ₀) dl dψ,
//!   S(u) = 2I₁(u)/u;
//! - rods normal to the wall: E ∝ ∫ T_TM(l) (l³/τ₀) e^{−τ₀(z−t)} dl, times the patterns of the
//!   triangular current of short rods,
//!
//! τ₀ = √(l² − k₀²), z the spacing, t the thickness, T the transmission of the sheet. Shielding is
//! the ratio to the same integral with T e^{τ₀t} = 1. The integral is full-wave, not quasi-static.
//!
//! The wall is unbounded here. A room is closed, and its currents return around it: see
//! [`ClosedShell`](crate::sheet::ClosedShell) for what that changes.

use super::sommerfeld::{Arrangement, ln_ratios};
use crate::choice::choice;
use crate::constants::wavenumber_per_m;
use crate::decibel::LogTransmission;
use crate::error::{Result, check};
use crate::parameter::Element;
use crate::validity::Validity;
use crate::wave::sheet::Sheet;

/// How the two loops of a test stand to the wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum LoopArrangement {
    /// Both parallel to the wall, on one axis.
    Coaxial,
    /// Both in one plane that stands across the wall.
    Coplanar,
}

choice!(LoopArrangement, "loop arrangement" { Coaxial => "coaxial", Coplanar => "coplanar" });

/// Distances from the wall that are computed, m.
const DISTANCES_M: (f64, f64) = (1e-6, 1e6);
/// Share of the distance that a coplanar loop or a rod may reach towards the wall: the sum over waves
/// grows without bound as they come to touch.
const CLOSEST: f64 = 0.99;
/// Radius of a coaxial loop over its distance, for the same reason.
const LARGEST: f64 = 100.0;

fn distances(outside_m: f64, inside_m: f64) -> Result<()> {
    for (name, distance) in [("outside_m", outside_m), ("inside_m", inside_m)] {
        check::within(name, "m", distance, DISTANCES_M, "from 1e-6 to 1e6")?;
    }
    Ok(())
}

/// What a near-field test reads at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldRatio {
    /// Received field with the sheet over that without it.
    pub ratio: LogTransmission,
    /// Estimate of its relative error by the quadrature; not above 3·10⁻⁹ inside the domain.
    pub relative_error: f64,
}

/// Two loops, one on either side of a wall.
///
/// ```
/// use stillroom::{Laminate, Layer, material::Material, probe::{LoopArrangement, LoopTest}};
/// // Loops of 0.15 m radius, 0.6 m apart in all, 1 mm of copper between: 34.17 dB at 1 kHz (derived
/// // from Moser's integral; no worked value is published).
/// let copper = Material::conductor("copper", 5.8e7, 1.0)?;
/// let wall = Laminate::new(vec![Layer::slab(copper, 1e-3)?])?;
/// let test = LoopTest::new(LoopArrangement::Coaxial, 0.15, 0.15, 0.3, 0.299)?;
/// assert!((test.shielding_db(&wall, &[1e3])?[0] - 34.17).abs() < 0.005);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(
    new(arrangement, source_radius_m, receiver_radius_m, outside_m, inside_m),
    settle,
    errors = "distances beyond what is computed, loops that reach the wall"
)]
pub struct LoopTest {
    /// How the loops stand to the wall.
    #[kept(choice)]
    arrangement: LoopArrangement,
    /// Radius of the source loop.
    #[parameter(positive)]
    source_radius_m: f64,
    /// Radius of the receiving loop; zero for a point probe.
    #[parameter(non_negative)]
    receiver_radius_m: f64,
    /// Distance of the source's centre from the wall.
    #[parameter(positive)]
    outside_m: f64,
    /// Distance of the receiver's centre from the wall.
    #[parameter(positive)]
    inside_m: f64,
}

impl LoopTest {
    fn settle(self) -> Result<Self> {
        let Self { arrangement, source_radius_m, receiver_radius_m, outside_m, inside_m } = self;
        distances(outside_m, inside_m)?;
        for (name, radius, other, distance) in [
            ("source_radius_m", source_radius_m, ["outside_m", "0.99 outside_m", "100 outside_m"], outside_m),
            ("receiver_radius_m", receiver_radius_m, ["inside_m", "0.99 inside_m", "100 inside_m"], inside_m),
        ] {
            if arrangement == LoopArrangement::Coplanar {
                check::less_than(name, "m", radius, other[0], distance)?;
                check::less_than(name, "m", radius, other[1], CLOSEST * distance)?;
            }
            check::less_than(name, "m", radius, other[2], LARGEST * distance)?;
        }
        Ok(self)
    }

    fn geometry(&self) -> Arrangement {
        let (source, receiver) = (self.source_radius_m, self.receiver_radius_m);
        match self.arrangement {
            LoopArrangement::Coaxial => Arrangement::Coaxial { source, receiver },
            LoopArrangement::Coplanar => Arrangement::Coplanar { source, receiver },
        }
    }

    /// Received magnetic flux with the sheet over that without it, the loops in the same places.
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn field_ratios(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Result<Vec<FieldRatio>> {
        check::frequencies(frequency_hz)?;
        Ok(self.ratios(sheet, frequency_hz))
    }

    /// The same for frequencies known to be positive and finite.
    pub(crate) fn ratios(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Vec<FieldRatio> {
        ratios(self.geometry(), self.outside_m + self.inside_m, sheet, frequency_hz)
    }

    /// Shielding effectiveness that the test reads through an unbounded sheet, dB.
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn shielding_db(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        Ok(self.field_ratios(sheet, frequency_hz)?.iter().map(|found| found.ratio.shielding_db()).collect())
    }

    /// Holds while the loops are small enough for a current that is the same all around.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "loop test",
            "loop radius × wavenumber",
            "",
            self.source_radius_m.max(self.receiver_radius_m) * wavenumber_per_m(frequency_hz),
            (0.0, 0.35),
            "the current is not the same all around the loop",
        )
    }
}

/// Two short rods, one on either side of a wall, both normal to it on one line.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(
    new(source_length_m, receiver_length_m, outside_m, inside_m),
    settle,
    errors = "distances beyond what is computed, rods that reach the wall"
)]
pub struct RodTest {
    /// Whole length of the source; zero for a point dipole.
    #[parameter(non_negative, also = "less than 1.98 times its distance", default = 0.0, setter = none)]
    source_length_m: f64,
    /// Whole length of the receiver; zero for a point dipole.
    #[parameter(non_negative, also = "less than 1.98 times its distance", default = 0.0, setter = none)]
    receiver_length_m: f64,
    /// Distance of the source's centre from the wall.
    #[parameter(positive, default = 0.3, setter = none)]
    outside_m: f64,
    /// Distance of the receiver's centre from the wall.
    #[parameter(positive, default = 0.3, setter = none)]
    inside_m: f64,
}

impl RodTest {
    fn settle(self) -> Result<Self> {
        distances(self.outside_m, self.inside_m)?;
        let (source_end, receiver_end) = (2.0 * CLOSEST * self.outside_m, 2.0 * CLOSEST * self.inside_m);
        check::less_than("source_length_m", "m", self.source_length_m, "1.98 outside_m", source_end)?;
        check::less_than("receiver_length_m", "m", self.receiver_length_m, "1.98 inside_m", receiver_end)?;
        Ok(self)
    }

    /// Received electric field with the sheet over that without it, the rods in the same places.
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn field_ratios(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Result<Vec<FieldRatio>> {
        check::frequencies(frequency_hz)?;
        Ok(self.ratios(sheet, frequency_hz))
    }

    /// The same for frequencies known to be positive and finite.
    pub(crate) fn ratios(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Vec<FieldRatio> {
        let geometry = Arrangement::Rods { source: self.source_length_m, receiver: self.receiver_length_m };
        ratios(geometry, self.outside_m + self.inside_m, sheet, frequency_hz)
    }

    /// Shielding effectiveness that the test reads through an unbounded sheet, dB.
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn shielding_db(&self, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        Ok(self.field_ratios(sheet, frequency_hz)?.iter().map(|found| found.ratio.shielding_db()).collect())
    }

    /// Holds while the rods are short against the wavelength, so that their current is triangular.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "rod test",
            "rod length × wavenumber",
            "",
            self.source_length_m.max(self.receiver_length_m) * wavenumber_per_m(frequency_hz),
            (0.0, 0.7),
            "the current along the rod is no longer triangular",
        )
    }
}

fn ratios(geometry: Arrangement, distances: f64, sheet: &dyn Sheet, frequency_hz: &[f64]) -> Vec<FieldRatio> {
    ln_ratios(geometry, distances + sheet.thickness_m(), sheet, frequency_hz)
        .into_iter()
        .map(|found| FieldRatio { ratio: LogTransmission(found.ln_ratio), relative_error: found.error })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loops_that_touch_the_wall_are_refused() {
        let error = LoopTest::new(LoopArrangement::Coplanar, 0.3, 0.1, 0.25, 0.3).unwrap_err();
        assert_eq!(error.to_string(), "`source_radius_m` = 0.3 m: must be smaller than `outside_m` = 0.25 m");
        assert!(LoopTest::new(LoopArrangement::Coaxial, 0.15, 0.15, 0.0, 0.3).is_err());
        assert!(LoopTest::new(LoopArrangement::Coaxial, 0.0, 0.15, 0.3, 0.3).is_err());
        assert!(LoopTest::new(LoopArrangement::Coaxial, 0.15, f64::NAN, 0.3, 0.3).is_err());
        assert!(RodTest::new(0.7, 0.0, 0.3, 0.3).is_err());
        assert!(RodTest::new(-0.1, 0.0, 0.3, 0.3).is_err());
        assert!("crossed".parse::<LoopArrangement>().is_err());
    }
}
