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
use crate::parameter::Element;

/// Spots in which two faces touch.
#[derive(Debug, Clone, Copy, PartialEq)]
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
#[derive(Debug, Clone, Copy, PartialEq, Default, Element)]
#[element(new = none, settle, errors = "spots beside an inductance, of which they are the reason")]
pub struct Contact {
    /// Conductance between the faces per length of seam. Zero (no contact between the fasteners) is the cautious
    /// assumption.
    #[parameter(non_negative, default = 0.0, setter = none)]
    contact_conductance_s_per_m: f64,
    /// Inductance of that contact times length of seam. Where not given it is that of contact spots, L/n with
    /// L = (mu0 g/2 pi) ln(s/2 pi a) and n spots a metre on the whole depth.
    #[parameter(within(0.0, 1.0), setter = with_inductance)]
    contact_inductance_h_m: Option<f64>,
    /// Radius a of a contact spot. 0.1 mm where not given; for a flat contact of a width w along the seam, w/4.
    #[parameter(positive, also = "at most a tenth of the spacing", setter = none)]
    contact_spot_radius_m: Option<f64>,
    /// Distance s between spots along the seam and into its depth. 10 mm where not given.
    #[parameter(positive, setter = none)]
    contact_spot_spacing_m: Option<f64>,
    /// Gap for which contact and fasteners are stated. That of the first joint that it is put into where not given; in
    /// another gap, their resistance and inductance follow the gap in proportion.
    #[parameter(positive, setter = at_gap)]
    contact_gap_m: Option<f64>,
}

impl Contact {
    /// From a conductance per length (S/m), with the inductance of default spots.
    ///
    /// # Errors
    /// Unless it is zero or positive, and finite.
    pub fn of_conductance(contact_conductance_s_per_m: f64) -> Result<Self> {
        Self::checked(contact_conductance_s_per_m, None, None, None, None)
    }

    /// From a conductance per length (S/m) and an inductance times length (H m).
    ///
    /// # Errors
    /// Unless both are zero or positive, the conductance finite and the inductance at most 1 H m.
    pub fn new(contact_conductance_s_per_m: f64, contact_inductance_h_m: f64) -> Result<Self> {
        Self::of_conductance(contact_conductance_s_per_m)?.with_inductance(contact_inductance_h_m)
    }

    fn settle(self) -> Result<Self> {
        let (radius_m, spacing_m) = (self.contact_spot_radius_m, self.contact_spot_spacing_m);
        let Some(stated) = radius_m.or(spacing_m) else { return Ok(self) };
        if self.contact_inductance_h_m.is_some() {
            let name = if radius_m.is_some() { "contact_spot_radius_m" } else { "contact_spot_spacing_m" };
            let accepted = "left out where contact_inductance_h_m is given";
            return check::within(name, "m", stated, (1.0, 0.0), accepted).map(|_| self);
        }
        let usual = ContactSpots::default();
        let spots = (radius_m.unwrap_or(usual.radius_m), spacing_m.unwrap_or(usual.spacing_m));
        Ok(self.in_spots(ContactSpots::new(spots.0, spots.1)?))
    }

    /// The same conductance with the inductance of these spots.
    #[must_use]
    pub fn in_spots(self, spots: ContactSpots) -> Self {
        Self {
            contact_inductance_h_m: None,
            contact_spot_radius_m: Some(spots.radius_m),
            contact_spot_spacing_m: Some(spots.spacing_m),
            ..self
        }
    }

    /// The same contact, stated for this gap unless it is for another one.
    pub(super) fn or_at_gap(self, gap_m: f64) -> Self {
        Self { contact_gap_m: self.contact_gap_m.or(Some(gap_m)), ..self }
    }

    /// The same contact, with nothing said about its inductance.
    pub(super) fn without_inductance(self) -> Self {
        Self { contact_inductance_h_m: None, ..self }
    }

    /// The spots, where they are stated.
    #[must_use]
    pub fn spots(&self) -> Option<ContactSpots> {
        let (radius_m, spacing_m) = self.contact_spot_radius_m.zip(self.contact_spot_spacing_m)?;
        Some(ContactSpots { radius_m, spacing_m })
    }

    /// Whether somebody said what its inductance is.
    #[must_use]
    pub fn is_stated(&self) -> bool {
        self.contact_inductance_h_m.is_some() || self.contact_spot_radius_m.is_some()
    }

    /// Inductance times length of seam, H m, in a gap and through an overlap, both m.
    #[must_use]
    pub fn inductance_in_h_m(&self, gap_m: f64, overlap_m: f64) -> f64 {
        if let Some(inductance_h_m) = self.contact_inductance_h_m {
            return inductance_h_m * self.opened(gap_m);
        }
        let spots = self.spots().unwrap_or_default();
        spots.inductance_h(gap_m) / spots.per_m(overlap_m).max(LEAST_M)
    }

    /// Admittance per length, S/m, in a gap and through an overlap, both m.
    #[must_use]
    pub fn admittance_s_per_m(&self, frequency_hz: f64, gap_m: f64, overlap_m: f64) -> Complex64 {
        let conductance = (self.contact_conductance_s_per_m / self.opened(gap_m)).min(SHORT_S_PER_M);
        let ratio = 2.0 * PI * frequency_hz * self.inductance_in_h_m(gap_m, overlap_m) * conductance;
        conductance / Complex64::new(1.0, ratio)
    }

    /// How far a gap is opened against the one that the contact is stated for.
    /// Within bounds that no product of a few leaves.
    fn opened(&self, gap_m: f64) -> f64 {
        self.contact_gap_m.map_or(1.0, |stated| (gap_m / stated).clamp(1.0 / SHORT_S_PER_M, SHORT_S_PER_M))
    }
}

/// What conducts more than this is a short like any other.
const SHORT_S_PER_M: f64 = 1e30;

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
