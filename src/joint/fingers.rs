//! Rows of contact fingers: transfer impedance from the dimensions that a drawing gives.
//!
//! A finger every pitch p leaves a slot w_s to the next one. Voltage behind a row over the current per length that
//! crosses it, in ohm metres:
//!
//! Z_T = p (R + jωL₀) + jωμ₀ s (p/2π) [ln sec(πw_s/2p) + G] r(t/w_s),   s = √(g² + a²)
//!
//! - **R** of one finger follows its force: R(g) = R₁ ((h₀ − h₁)/(h₀ − g))ᵐ across a gap g, of a free height h₀, R₁
//!   being told at the height h₁. m is 1/3 for clean contacts pressed elastically, 1/2 plastically, and 1 through a film
//!   (R. Holm, *Electric Contacts*, 4th ed., 1967, from memory).
//! - **s** is the length of the slot, that is of the finger from root to contact: straight across the gap, or
//!   sloping by a run a.
//! - **ln sec** is exact for a grid of thin strips (N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 5.18, from memory;
//!   it says ln csc of the strip's width, which is the same). G, his leading term for pitches that are no longer
//!   small against the wavelength, is within 1.5 % of a moment method up to half a wavelength.
//! - **r**, what a thickness t leaves. In the slot the field dies as exp(−πt/w_s); conformal mapping of the step from
//!   cell to slot gives the factor before it, with k = w_s/p:
//!   r → r_∞ exp(−πt/w_s),   r_∞ = 8k² ((1 − k)/(1 + k))^(1/k) / ((1 − k²) ln sec(πk/2)),
//!   0.8776 for narrow slots. Between it and 1 at t = 0 a curve that was fitted to finite elements: within 0.3 % up to
//!   slots of 0.9 pitches, and above that up to 3 % too much (at 0.97).
//! - **L₀** is what a contact adds that is narrower than its finger; zero for one that bears over its whole width.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::{VACUUM_IMPEDANCE, wavelength_m, wavenumber_per_m};
use crate::error::{Error, Result, check};
use crate::parameter::Element;
use crate::validity::Validity;

/// A row of equal contact fingers at equal distances, by its dimensions and the contacts that it makes.
///
/// The resistance of a clean spring finger on a plated counter-face is some milliohms (common practice, no source);
/// wear, dirt and pressure change it by orders of magnitude.
///
/// ```
/// use stillroom::joint::{FingerRow, TransferImpedance};
/// // Inductance only: 2 mm contacts every 6 mm across 1 mm are 0.14 nH each.
/// let row = FingerRow::new(6e-3)?.with_resistance(0.0)?;
/// let each_h = TransferImpedance::from(row).at(1e6, 1e-3).im / (2.0 * std::f64::consts::PI * 1e6) / 6e-3;
/// assert!((each_h - 0.1386e-9).abs() < 1e-13);
/// // Slots of 0.4 mm, sheet of 0.1 mm, 8 mm from root to contact, 3 mm high when free.
/// let leaf = FingerRow::new(4e-3)?.with_slot_width(0.4e-3)?.with_thickness(0.1e-3)?.with_run(8e-3)?;
/// let leaf = leaf.with_free_height(3e-3)?.with_working_height(2e-3)?;
/// // Less pressed, more resistance.
/// assert!((leaf.resistance_at_ohm(2.5e-3) - 10e-3).abs() < 1e-12);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(
    settle,
    errors = "a slot within a millionth of the pitch of either end; a free height that is not above the other"
)]
pub struct FingerRow {
    /// Distance between fingers.
    #[parameter(positive)]
    finger_pitch_m: f64,
    /// Slot between two fingers. Where not given, what a contact of 2 mm (at most of half the pitch; common practice,
    /// no source) leaves; slots are mostly narrower.
    #[parameter(positive, less_than = finger_pitch_m, default = usual_slot_m(finger_pitch_m), setter = with_slot_width)]
    slot_width_m: f64,
    /// Thickness of the sheet. A deeper slot passes less.
    #[parameter(non_negative, default = 0.0, setter = with_thickness)]
    finger_thickness_m: f64,
    /// How far a finger runs along the depth of the joint from its root to its contact. Zero for one that stands
    /// straight across the gap; the slot is as much longer.
    #[parameter(non_negative, default = 0.0, setter = with_run)]
    finger_run_m: f64,
    /// Resistance of one finger at its working height.
    #[parameter(non_negative, default = 0.005, setter = with_resistance)]
    finger_resistance_ohm: f64,
    /// What a contact that is narrower than its finger adds. The same at every gap; zero for a contact over the whole
    /// width.
    #[parameter(within(0.0, 1.0), default = 0.0, setter = with_inductance)]
    finger_inductance_h: f64,
    /// Height without a counter-face. The gap must be smaller. Where neither height is given, a line takes its fingers
    /// as pressed to half of their free height; where the other one is, twice that.
    #[parameter(positive, also = "above gap and working height", setter = with_free_height)]
    free_height_m: Option<f64>,
    /// Height for which the resistance is told. Half of the free height where only that is given; in a contact line,
    /// its gap.
    #[parameter(positive, also = "below the free height", setter = with_working_height)]
    working_height_m: Option<f64>,
    /// Power of the inverse of the force that the resistance follows. The force is in proportion to free height less
    /// gap: 1 through a film, cautious where a gap opens; 1/2 (plastic) and 1/3 (elastic) for clean contacts; 0 for a
    /// resistance that stays.
    #[parameter(fraction, default = 1.0, setter = with_force_exponent)]
    force_exponent: f64,
}

/// The slot of fingers of which nothing but the pitch is known, m.
fn usual_slot_m(finger_pitch_m: f64) -> f64 {
    const USUAL_CONTACT_M: f64 = 2e-3;
    finger_pitch_m - USUAL_CONTACT_M.min(0.5 * finger_pitch_m)
}

impl FingerRow {
    fn settle(self) -> Result<Self> {
        let pitch_m = self.finger_pitch_m;
        let accepted = "a millionth of the pitch or more, on both sides";
        let bounds = (LEAST_SHARE * pitch_m, (1.0 - LEAST_SHARE) * pitch_m);
        check::within("slot_width_m", "m", self.slot_width_m, bounds, accepted)?;
        if let Some((free_m, working_m)) = self.heights_m() {
            check::positive("free_height_m", "m", free_m)?;
            check::positive("working_height_m", "m", working_m)?;
            check::less_than("working_height_m", "m", working_m, "free_height_m", free_m)?;
        }
        Ok(self)
    }

    /// Free, and as the resistance is told for, m, where either is told.
    fn heights_m(&self) -> Option<(f64, f64)> {
        match (self.free_height_m, self.working_height_m) {
            (Some(free_m), Some(working_m)) => Some((free_m, working_m)),
            (Some(free_m), None) => Some((free_m, 0.5 * free_m)),
            (None, Some(working_m)) => Some((2.0 * working_m, working_m)),
            (None, None) => None,
        }
    }

    /// Resistance of one finger across a gap, ohm: as told without heights, infinite where it does not reach across.
    #[must_use]
    pub fn resistance_at_ohm(&self, gap_m: f64) -> f64 {
        match self.heights_m() {
            None => self.finger_resistance_ohm,
            Some((free_m, _)) if gap_m >= free_m => f64::INFINITY,
            Some((free_m, working_m)) => {
                let slack = (free_m - working_m) / (free_m - gap_m);
                self.finger_resistance_ohm * slack.powf(self.force_exponent)
            }
        }
    }

    /// The same row in a gap that its fingers must reach across. Fingers without heights are taken as pressed to half
    /// of their free height there, so that a change of the gap tells on them.
    pub(super) fn across(self, gap_m: f64) -> Result<Self> {
        let (free_m, working_m) = self.heights_m().unwrap_or((2.0 * gap_m, gap_m));
        if free_m <= gap_m {
            return Err(Error::Relation {
                quantity: "free_height_m".to_owned(),
                value: free_m,
                unit: "m".into(),
                relation: "larger than".into(),
                other: "gap_m".to_owned(),
                other_value: gap_m,
            });
        }
        Self { free_height_m: Some(free_m), working_height_m: Some(working_m), ..self }.settle()
    }

    /// The same row with its resistance told for this gap, m, unless it is told for another height.
    pub(super) fn told_for(self, gap_m: f64) -> Self {
        Self { working_height_m: self.working_height_m.or(Some(gap_m)), ..self }
    }

    /// Z_T across a gap, ohm m.
    pub(super) fn at(&self, frequency_hz: f64, gap_m: f64) -> Complex64 {
        let inductive = 2.0 * PI * frequency_hz * self.finger_inductance_h;
        let own = self.finger_pitch_m * Complex64::new(self.resistance_at_ohm(gap_m), inductive);
        let reactance = wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * gap_m.hypot(self.finger_run_m);
        own + Complex64::new(0.0, reactance * self.grid_m(frequency_hz))
    }

    /// Inductance of a square of the grid over that of free space, m.
    fn grid_m(&self, frequency_hz: f64) -> f64 {
        let pitch_m = self.finger_pitch_m;
        let slot = self.slot_width_m / pitch_m;
        let thin = ln_secant(slot);
        // Held where waves pass; validity says so.
        let electrical_pitch = (pitch_m / wavelength_m(frequency_hz)).min(WIDEST_PITCH);
        let electrical_slot = 2.0 * slot * electrical_pitch;
        let below_cutoff = ((1.0 - electrical_slot) * (1.0 + electrical_slot)).sqrt();
        let depth = (self.finger_thickness_m / self.slot_width_m * below_cutoff).min(DEEPEST);
        pitch_m / (2.0 * PI) * (thin + opening(slot, electrical_pitch)) * through_depth(slot, depth)
    }

    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "row of contacts",
            "finger pitch / wavelength",
            "",
            self.finger_pitch_m / wavelength_m(frequency_hz),
            (0.0, WIDEST_PITCH),
            "waves along the joint leave the row in a second direction",
        )
    }
}

/// Pitch over wavelength up to which a row is a grid for waves from every direction.
const WIDEST_PITCH: f64 = 0.5;
/// Slot over pitch, and finger over pitch, at least.
const LEAST_SHARE: f64 = 1e-6;
/// Thickness over slot that is counted at most: 545 dB.
const DEEPEST: f64 = 20.0;

/// ln sec(πk/2) without loss of digits for narrow slots and for narrow fingers.
fn ln_secant(slot: f64) -> f64 {
    if slot < 0.5 { -0.5 * (-(0.5 * PI * slot).sin().powi(2)).ln_1p() } else { -(0.5 * PI * (1.0 - slot)).sin().ln() }
}

/// What a pitch that is not small against the wavelength adds to the logarithm.
fn opening(slot: f64, electrical_pitch: f64) -> f64 {
    let beta = (0.5 * PI * (1.0 - slot)).sin().powi(2);
    let narrow = (0.5 * PI * slot).sin().powi(4);
    let a = 1.0 / ((1.0 - electrical_pitch) * (1.0 + electrical_pitch)).sqrt() - 1.0;
    let above = (1.0 - 0.25 * beta) * 2.0 * a + 4.0 * beta * a * a;
    let below =
        (1.0 - 0.25 * beta) + beta * (1.0 + 0.5 * beta - 0.125 * beta * beta) * 2.0 * a + 2.0 * beta.powi(3) * a * a;
    0.5 * narrow * above / below
}

/// What is left of it by fingers that are `depth` slots thick.
fn through_depth(slot: f64, depth: f64) -> f64 {
    let mapped = (-2.0 * slot.atanh() / slot).exp();
    let thick = 8.0 * slot * slot * mapped / ((1.0 - slot) * (1.0 + slot) * ln_secant(slot));
    let far = 0.525 - 0.2 * slot.powi(10);
    let thin = (-2.0 * PI * depth).exp() * (far + (1.0 - far) * (-6.6 * depth.powf(0.69)).exp());
    (-PI * depth).exp() * (thick + (1.0 - thick) * thin)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Inductance per length of finger over μ₀, m.
    fn inductance_m(pitch_m: f64, slot_m: f64, thickness_m: f64, frequency_hz: f64) -> f64 {
        let row = FingerRow::new(pitch_m).unwrap().with_slot_width(slot_m).unwrap();
        let row = row.with_resistance(0.0).unwrap().with_thickness(thickness_m).unwrap();
        row.at(frequency_hz, 1e-3).im / (wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * 1e-3)
    }

    /// Finite elements of the cross-section, `tests/python/finger_reference.py`: what passes over p for a slot and a
    /// thickness over the slot. It shares no equation with the code.
    const FINITE_ELEMENTS: [(f64, f64, f64); 15] = [
        (0.08, 0.0, 1.259_92e-3),
        (0.08, 0.1, 8.463_65e-4),
        (0.08, 0.25, 5.121_57e-4),
        (0.08, 0.5, 2.304_79e-4),
        (0.08, 1.0, 4.776_45e-5),
        (0.3, 0.0, 1.836_66e-2),
        (0.3, 0.25, 7.419_41e-3),
        (0.3, 1.0, 6.912_87e-4),
        (0.6, 0.0, 8.457_27e-2),
        (0.6, 0.1, 5.533_79e-2),
        (0.6, 0.5, 1.483_58e-2),
        (0.9, 0.0, 2.952_46e-1),
        (0.9, 0.1, 1.709_01e-1),
        (0.9, 0.5, 4.318_28e-2),
        (0.9, 1.0, 8.903_88e-3),
    ];

    #[test]
    fn a_grid_of_flat_fingers_is_that_of_finite_elements() {
        for (slot, thickness, expected) in FINITE_ELEMENTS {
            let found = inductance_m(5e-3, slot * 5e-3, thickness * slot * 5e-3, 1e3) / 5e-3;
            assert!((found / expected - 1.0).abs() < 0.003, "{slot} {thickness}: {found} {expected}");
        }
    }

    /// Galerkin's method with the edge's singularity in its basis: over the static value, for slot and pitch over
    /// pitch and wavelength.
    const MOMENTS: [(f64, f64, f64); 6] = [
        (0.1, 0.5, 1.013_82),
        (0.3, 0.3, 1.022_15),
        (0.3, 0.5, 1.066_67),
        (0.5, 0.5, 1.112_71),
        (0.7, 0.5, 1.125_22),
        (0.9, 0.5, 1.088_81),
    ];

    #[test]
    fn a_pitch_that_is_not_small_opens_the_grid_by_its_slots() {
        for (slot, electrical, expected) in MOMENTS {
            let ratio = inductance_m(5e-3, slot * 5e-3, 0.0, electrical * 299_792_458.0 / 5e-3)
                / inductance_m(5e-3, slot * 5e-3, 0.0, 1e3);
            assert!((ratio / expected - 1.0).abs() < 0.015, "{slot} {electrical}: {ratio} {expected}");
        }
    }

    #[test]
    fn thickness_makes_no_step() {
        for slot in [1e-6, 1e-3, 0.1, 0.5, 0.9, 0.999] {
            let mut before = through_depth(slot, 0.0);
            assert!((before - 1.0).abs() < 1e-12, "{slot} {before}");
            for step in 1..=4000 {
                let now = through_depth(slot, 0.005 * f64::from(step));
                assert!(now < before && now > 0.85 * before, "{slot} {step}: {before} {now}");
                before = now;
            }
        }
        // Narrow slots in thick fingers: 0.8776 exp(−πt/w_s).
        assert!((through_depth(1e-3, 2.0) * (2.0 * PI).exp() - 0.8776).abs() < 1e-4);
    }
}
