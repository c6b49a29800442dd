//! Contact between the faces of an overlap, per length of seam, and the spots that make it.
//!
//! Faces touch in spots. A current that draws together into one of them, round and of radius a, in a gap g and s
//! apart from its neighbours, meets the inductance
//!
//! L = (μ₀ g/2π) ln(s/2πa),
//!
//! of a grid of posts in a gap (N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 5.21, from memory, leading term), so
//! that n spots on each metre of the seam, those of the whole depth, leave L/n. The gap is in it: what opens a joint
//! makes its contacts longer.
//!
//! A contact is measured at some gap. At another one its resistance and inductance are taken in proportion to the
//! gap, as those of the same spots would be, stretched: y(g) = y(g₀) g₀/g. That is the mildest law under which no
//! opened joint gets better. Real ones fall faster, as pressure goes and spots are lost.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::bay::LEAST_M;
use crate::constants::VACUUM_PERMEABILITY;
use crate::error::{Result, check};

/// Spots in which two faces touch.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "SpotsRecord"))]
pub struct ContactSpots {
    radius_m: f64,
    spacing_m: f64,
}

impl ContactSpots {
    /// Round spots of this radius, this far apart along the seam and into its depth, both in m. For flat ones
    /// of a width w along the seam, the radius is w/4.
    ///
    /// # Errors
    /// Unless both are positive and finite, and the radius at most a tenth of the spacing.
    pub fn new(radius_m: f64, spacing_m: f64) -> Result<Self> {
        let spacing_m = check::positive("contact_spot_spacing_m", "m", spacing_m)?;
        let radius_m = check::positive("contact_spot_radius_m", "m", radius_m)?;
        let tenth = 0.1 * spacing_m;
        check::at_most("contact_spot_radius_m", "m", radius_m, "a tenth of contact_spot_spacing_m", tenth)?;
        Ok(Self { radius_m, spacing_m })
    }

    /// Radius of a spot, m.
    #[must_use]
    pub fn radius_m(&self) -> f64 {
        self.radius_m
    }

    /// Distance between spots, m.
    #[must_use]
    pub fn spacing_m(&self) -> f64 {
        self.spacing_m
    }

    /// Inductance of one of them, H, in a gap (m).
    #[must_use]
    pub fn inductance_h(&self, gap_m: f64) -> f64 {
        VACUUM_PERMEABILITY * gap_m / (2.0 * PI) * (self.spacing_m.ln() - (2.0 * PI).ln() - self.radius_m.ln())
    }

    /// How many there are on each metre of an overlap of this depth, m: one line of them at least.
    #[must_use]
    pub fn per_m(&self, overlap_m: f64) -> f64 {
        (overlap_m / self.spacing_m).max(1.0) / self.spacing_m
    }
}

impl Default for ContactSpots {
    /// Of 0.1 mm radius, 10 mm apart (common practice, no source).
    fn default() -> Self {
        Self { radius_m: 0.1e-3, spacing_m: 10e-3 }
    }
}

/// Contact between the faces of an overlap, per length of seam.
///
/// A conductance in series with an inductance: y = 1/(1/G + jωL). What presses, plates and ages the
/// faces decides both, so that they are knobs with a tolerance and no constants. The inductance decides above the
/// frequency 1/(2π G L), often below 1 MHz. Where it is not stated it is that of default [`ContactSpots`], and a seam
/// says where that matters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "ContactRecord"))]
pub struct Contact {
    conductance_s_per_m: f64,
    inductance: Inductance,
    gap_m: Option<f64>,
}

#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
enum Inductance {
    /// Nobody said.
    #[default]
    Assumed,
    Spots(ContactSpots),
    /// Times length, H m, at the gap that the contact is stated for.
    Stated(f64),
}

impl Contact {
    /// From a conductance per length (S/m), with the inductance of default spots.
    ///
    /// # Errors
    /// Unless it is zero or positive, and finite.
    pub fn of_conductance(conductance_s_per_m: f64) -> Result<Self> {
        let conductance_s_per_m = check::non_negative("contact_conductance_s_per_m", "S/m", conductance_s_per_m)?;
        Ok(Self { conductance_s_per_m, inductance: Inductance::Assumed, gap_m: None })
    }

    /// From a conductance per length (S/m) and an inductance times length (H m).
    ///
    /// # Errors
    /// Unless both are zero or positive, the conductance finite and the inductance at most 1 H m.
    pub fn new(conductance_s_per_m: f64, inductance_h_m: f64) -> Result<Self> {
        let accepted = "zero or positive, at most 1 H m";
        let inductance = check::within("contact_inductance_h_m", "H m", inductance_h_m, (0.0, 1.0), accepted)?;
        Ok(Self { inductance: Inductance::Stated(inductance), ..Self::of_conductance(conductance_s_per_m)? })
    }

    /// From what is stated of conductance (S/m), inductance (H m), radius and spacing of spots (m) and gap (m). What is
    /// not stated is left to defaults; spots of which one number is stated have the other by default.
    ///
    /// # Errors
    /// As for [`new`](Self::new), [`ContactSpots::new`] and [`at_gap`](Self::at_gap); for spots beside an inductance,
    /// of which they are the reason.
    pub fn by_numbers(
        conductance_s_per_m: f64,
        inductance_h_m: Option<f64>,
        (radius_m, spacing_m): (Option<f64>, Option<f64>),
        gap_m: Option<f64>,
    ) -> Result<Self> {
        let usual = ContactSpots::default();
        let contact = match (inductance_h_m, radius_m.or(spacing_m)) {
            (None, None) => Self::of_conductance(conductance_s_per_m)?,
            (Some(inductance), None) => Self::new(conductance_s_per_m, inductance)?,
            (None, Some(_)) => {
                let radius_m = radius_m.unwrap_or(usual.radius_m);
                let spots = ContactSpots::new(radius_m, spacing_m.unwrap_or(usual.spacing_m))?;
                Self::of_conductance(conductance_s_per_m)?.in_spots(spots)
            }
            (Some(_), Some(stated)) => {
                let name = if radius_m.is_some() { "contact_spot_radius_m" } else { "contact_spot_spacing_m" };
                return check::within(name, "m", stated, (1.0, 0.0), "left out where contact_inductance_h_m is given")
                    .map(|_| Self::default());
            }
        };
        gap_m.map_or(Ok(contact), |gap_m| contact.at_gap(gap_m))
    }

    /// The same conductance with the inductance of these spots.
    #[must_use]
    pub fn in_spots(self, spots: ContactSpots) -> Self {
        Self { inductance: Inductance::Spots(spots), ..self }
    }

    /// The same contact, stated for this gap, m. Without it, a contact is stated for the gap of the first joint that
    /// it is put into.
    ///
    /// # Errors
    /// Unless the gap is positive and finite.
    pub fn at_gap(self, gap_m: f64) -> Result<Self> {
        Ok(Self { gap_m: Some(check::positive("contact_gap_m", "m", gap_m)?), ..self })
    }

    /// The same contact, stated for this gap unless it is for another one.
    pub(super) fn or_at_gap(self, gap_m: f64) -> Self {
        Self { gap_m: self.gap_m.or(Some(gap_m)), ..self }
    }

    /// Conductance per length of seam, S/m, at the gap that it is stated for.
    #[must_use]
    pub fn conductance_s_per_m(&self) -> f64 {
        self.conductance_s_per_m
    }

    /// Inductance times length of seam, H m, where it is stated.
    #[must_use]
    pub fn inductance_h_m(&self) -> Option<f64> {
        match self.inductance {
            Inductance::Stated(inductance) => Some(inductance),
            Inductance::Spots(_) | Inductance::Assumed => None,
        }
    }

    /// The spots, where they are stated.
    #[must_use]
    pub fn spots(&self) -> Option<ContactSpots> {
        match self.inductance {
            Inductance::Spots(spots) => Some(spots),
            Inductance::Stated(_) | Inductance::Assumed => None,
        }
    }

    /// The gap that it is stated for, m.
    #[must_use]
    pub fn gap_m(&self) -> Option<f64> {
        self.gap_m
    }

    /// Whether somebody said what its inductance is.
    #[must_use]
    pub fn is_stated(&self) -> bool {
        self.inductance != Inductance::Assumed
    }

    /// Inductance times length of seam, H m, in a gap and through an overlap, both m.
    #[must_use]
    pub fn inductance_in_h_m(&self, gap_m: f64, overlap_m: f64) -> f64 {
        let of_spots = |spots: ContactSpots| spots.inductance_h(gap_m) / spots.per_m(overlap_m).max(LEAST_M);
        match self.inductance {
            Inductance::Assumed => of_spots(ContactSpots::default()),
            Inductance::Spots(spots) => of_spots(spots),
            Inductance::Stated(inductance) => inductance * self.opened(gap_m),
        }
    }

    /// Admittance per length, S/m, in a gap and through an overlap, both m.
    #[must_use]
    pub fn admittance_s_per_m(&self, frequency_hz: f64, gap_m: f64, overlap_m: f64) -> Complex64 {
        let conductance = (self.conductance_s_per_m / self.opened(gap_m)).min(SHORT_S_PER_M);
        let ratio = 2.0 * PI * frequency_hz * self.inductance_in_h_m(gap_m, overlap_m) * conductance;
        conductance / Complex64::new(1.0, ratio)
    }

    /// How far a gap is opened against the one that the contact is stated for.
    /// Within bounds that no product of a few leaves.
    fn opened(&self, gap_m: f64) -> f64 {
        self.gap_m.map_or(1.0, |stated| (gap_m / stated).clamp(1.0 / SHORT_S_PER_M, SHORT_S_PER_M))
    }
}

/// What conducts more than this is a short like any other.
const SHORT_S_PER_M: f64 = 1e30;

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct SpotsRecord {
    radius_m: f64,
    spacing_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<SpotsRecord> for ContactSpots {
    type Error = crate::Error;
    fn try_from(record: SpotsRecord) -> Result<Self> {
        Self::new(record.radius_m, record.spacing_m)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct ContactRecord {
    conductance_s_per_m: f64,
    #[serde(default)]
    inductance: Inductance,
    #[serde(default)]
    gap_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<ContactRecord> for Contact {
    type Error = crate::Error;
    fn try_from(record: ContactRecord) -> Result<Self> {
        let contact = match record.inductance {
            Inductance::Stated(inductance_h_m) => Self::new(record.conductance_s_per_m, inductance_h_m)?,
            Inductance::Spots(spots) => Self::of_conductance(record.conductance_s_per_m)?.in_spots(spots),
            Inductance::Assumed => Self::of_conductance(record.conductance_s_per_m)?,
        };
        record.gap_m.map_or(Ok(contact), |gap_m| contact.at_gap(gap_m))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spots_have_the_inductance_of_a_grid_of_posts() {
        // s = 10 mm, a = 0.1 mm, g = 20 um: 1.107e-11 H each, 250 on a metre 4.4e-14 H m; derived apart from the crate.
        let spots = ContactSpots::new(0.1e-3, 10e-3).unwrap();
        assert!((spots.inductance_h(20e-6) / 1.107e-11 - 1.0).abs() < 5e-4);
        assert!((spots.per_m(25e-3) - 250.0).abs() < 1e-9 && (spots.per_m(0.0) - 100.0).abs() < 1e-9);
        let contact = Contact::of_conductance(1e4).unwrap().in_spots(spots);
        assert!((contact.inductance_in_h_m(20e-6, 25e-3) / 4.43e-14 - 1.0).abs() < 1e-3);
        assert!(ContactSpots::new(1.1e-3, 10e-3).is_err());
    }

    #[test]
    fn an_opened_contact_conducts_less() {
        for contact in [Contact::new(1e4, 1e-13).unwrap(), Contact::of_conductance(1e4).unwrap()] {
            let contact = contact.at_gap(20e-6).unwrap();
            for f in [1e3, 1e6, 1e9] {
                let y = |gap_m| contact.admittance_s_per_m(f, gap_m, 25e-3);
                assert!((y(40e-6) / y(20e-6) * 2.0 - 1.0).norm() < 1e-14);
            }
        }
    }
}
