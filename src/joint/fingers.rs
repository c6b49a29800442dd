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
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// One contact finger, by its dimensions and its contact.
///
/// ```
/// use stillroom::joint::Finger;
/// // 5 mohm and a slot of 0.4 mm; sheet of 0.1 mm; 8 mm from root to contact; 3 mm high when free.
/// let finger = Finger::new(5e-3, 0.4e-3)?.with_thickness(0.1e-3)?.with_run(8e-3)?.with_heights(3e-3, 2e-3)?;
/// // Less pressed, more resistance.
/// assert!((finger.resistance_at_ohm(2.5e-3) - 10e-3).abs() < 1e-12);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "FingerRecord", into = "FingerRecord")
)]
pub struct Finger {
    resistance_ohm: f64,
    slot_width_m: f64,
    thickness_m: f64,
    run_m: f64,
    inductance_h: f64,
    force_exponent: f64,
    heights: Option<Heights>,
}

/// Free, and as the resistance is told for, m.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Heights {
    free_m: f64,
    working_m: f64,
}

impl Finger {
    /// By the resistance of its contact (ohm) and the slot to the next finger (m): thin, straight across the gap,
    /// bearing over its whole width, with a resistance in inverse proportion to its force.
    ///
    /// The resistance of a clean spring finger on a plated counter-face is some milliohms (common practice, no source);
    /// wear, dirt and pressure change it by orders of magnitude.
    ///
    /// # Errors
    /// Unless the resistance is zero or positive and the slot positive, both finite.
    pub fn new(resistance_ohm: f64, slot_width_m: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm: check::non_negative("finger_resistance_ohm", "ohm", resistance_ohm)?,
            slot_width_m: check::positive("slot_width_m", "m", slot_width_m)?,
            thickness_m: 0.0,
            run_m: 0.0,
            inductance_h: 0.0,
            force_exponent: 1.0,
            heights: None,
        })
    }

    /// A finger where nothing but the pitch is known: 5 mohm, and a contact of 2 mm, at most of half the pitch
    /// (common practice, no source). Slots are mostly narrower than what that leaves.
    pub(crate) fn usual(pitch_m: f64) -> Result<Self> {
        Self::new(5e-3, pitch_m - USUAL_CONTACT_M.min(0.5 * pitch_m))
    }

    /// The same finger cut from sheet of this thickness, m: a deeper slot passes less.
    ///
    /// # Errors
    /// Unless zero or positive and finite.
    pub fn with_thickness(mut self, thickness_m: f64) -> Result<Self> {
        self.thickness_m = check::non_negative("finger_thickness_m", "m", thickness_m)?;
        Ok(self)
    }

    /// The same finger sloping: this far along the depth of the joint from its root to its contact, m. Its slot is as
    /// much longer.
    ///
    /// # Errors
    /// Unless zero or positive and finite.
    pub fn with_run(mut self, run_m: f64) -> Result<Self> {
        self.run_m = check::non_negative("finger_run_m", "m", run_m)?;
        Ok(self)
    }

    /// The same finger with an inductance of its contact on top of what its slot lets through, H: of a spot or a
    /// crown that is narrower than the finger. It is taken as the same at every gap.
    ///
    /// # Errors
    /// Unless from 0 to 1 H.
    pub fn with_inductance(mut self, inductance_h: f64) -> Result<Self> {
        let accepted = "zero or positive, at most 1 H";
        self.inductance_h = check::within("finger_inductance_h", "H", inductance_h, (0.0, 1.0), accepted)?;
        Ok(self)
    }

    /// The same finger by its heights when free and when it has the resistance that was told, m: what it has across
    /// other gaps follows from these.
    ///
    /// # Errors
    /// Unless both are positive and finite, the second one lower.
    pub fn with_heights(mut self, free_m: f64, working_m: f64) -> Result<Self> {
        let free_m = check::positive("free_height_m", "m", free_m)?;
        let working_m = check::positive("working_height_m", "m", working_m)?;
        check::less_than("working_height_m", "m", working_m, "free_height_m", free_m)?;
        self.heights = Some(Heights { free_m, working_m });
        Ok(self)
    }

    /// The same finger with a resistance that goes with another power of the inverse of its force: 1 through a film
    /// (the default, cautious where a gap opens), 1/2 or 1/3 for clean contacts, 0 for a resistance that stays.
    ///
    /// # Errors
    /// Unless from 0 to 1.
    pub fn with_force_exponent(mut self, force_exponent: f64) -> Result<Self> {
        self.force_exponent = check::fraction("force_exponent", force_exponent)?;
        Ok(self)
    }

    /// Resistance of one finger as it was told, ohm.
    #[must_use]
    pub fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Resistance of one finger across a gap, ohm: as told without heights, infinite where it does not reach across.
    #[must_use]
    pub fn resistance_at_ohm(&self, gap_m: f64) -> f64 {
        match self.heights {
            None => self.resistance_ohm,
            Some(Heights { free_m, .. }) if gap_m >= free_m => f64::INFINITY,
            Some(Heights { free_m, working_m }) => {
                let slack = (free_m - working_m) / (free_m - gap_m);
                self.resistance_ohm * slack.powf(self.force_exponent)
            }
        }
    }

    /// Slot to the next finger, m.
    #[must_use]
    pub fn slot_width_m(&self) -> f64 {
        self.slot_width_m
    }

    /// Thickness of its sheet, m.
    #[must_use]
    pub fn thickness_m(&self) -> f64 {
        self.thickness_m
    }

    /// How far it runs along the depth from root to contact, m.
    #[must_use]
    pub fn run_m(&self) -> f64 {
        self.run_m
    }

    /// Inductance of its contact, H.
    #[must_use]
    pub fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Height without a counter-face, m, where told.
    #[must_use]
    pub fn free_height_m(&self) -> Option<f64> {
        self.heights.map(|heights| heights.free_m)
    }

    /// Height for which the resistance was told, m, where told.
    #[must_use]
    pub fn working_height_m(&self) -> Option<f64> {
        self.heights.map(|heights| heights.working_m)
    }

    /// Power of the inverse of the force that the resistance follows.
    #[must_use]
    pub fn force_exponent(&self) -> f64 {
        self.force_exponent
    }

    /// The same finger by what is told of its heights, in m: one alone is half, or twice, the other.
    ///
    /// # Errors
    /// Those of [`with_heights`](Self::with_heights).
    pub fn with_optional_heights(self, free_m: Option<f64>, working_m: Option<f64>) -> Result<Self> {
        match (free_m, working_m) {
            (Some(free_m), Some(working_m)) => self.with_heights(free_m, working_m),
            (Some(free_m), None) => self.with_heights(free_m, 0.5 * free_m),
            (None, Some(working_m)) => self.with_heights(2.0 * working_m, working_m),
            (None, None) => Ok(self),
        }
    }

    /// The same finger in a gap that it must reach across. One without heights is taken as pressed to half of its
    /// free height there, so that a change of the gap tells on it.
    pub(super) fn across(self, gap_m: f64) -> Result<Self> {
        match self.heights {
            Some(Heights { free_m, .. }) if free_m > gap_m => Ok(self),
            Some(Heights { free_m, .. }) => Err(Error::Relation {
                quantity: "free_height_m".to_owned(),
                value: free_m,
                unit: "m".into(),
                relation: "larger than".into(),
                other: "gap_m".to_owned(),
                other_value: gap_m,
            }),
            None => self.with_heights(2.0 * gap_m, gap_m),
        }
    }
}

const USUAL_CONTACT_M: f64 = 2e-3;

/// A row of equal fingers at equal distances.
///
/// ```
/// use stillroom::joint::{Finger, FingerRow, TransferImpedance};
/// // Inductance only: 2 mm contacts every 6 mm across 1 mm are 0.14 nH each.
/// let row = TransferImpedance::from(FingerRow::new(6e-3, Finger::new(0.0, 4e-3)?)?);
/// let each_h = row.at(1e6, 1e-3).im / (2.0 * std::f64::consts::PI * 1e6) / 6e-3;
/// assert!((each_h - 0.1386e-9).abs() < 1e-13);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "FingerRowRecord"))]
pub struct FingerRow {
    pitch_m: f64,
    finger: Finger,
}

impl FingerRow {
    /// A finger every `pitch_m` metres.
    ///
    /// # Errors
    /// Unless the pitch is positive and finite and the slot a part of it (a millionth at least on either side).
    pub fn new(pitch_m: f64, finger: Finger) -> Result<Self> {
        let pitch_m = check::positive("finger_pitch_m", "m", pitch_m)?;
        check::less_than("slot_width_m", "m", finger.slot_width_m, "finger_pitch_m", pitch_m)?;
        let most = (LEAST_SHARE * pitch_m, (1.0 - LEAST_SHARE) * pitch_m);
        check::within(
            "slot_width_m",
            "m",
            finger.slot_width_m,
            most,
            "a millionth of the pitch or more, on both sides",
        )?;
        Ok(Self { pitch_m, finger })
    }

    /// Distance between fingers, m.
    #[must_use]
    pub fn pitch_m(&self) -> f64 {
        self.pitch_m
    }

    /// One finger.
    #[must_use]
    pub fn finger(&self) -> Finger {
        self.finger
    }

    /// The same row in a gap that its fingers must reach across: see [`Finger::across`].
    pub(super) fn across(self, gap_m: f64) -> Result<Self> {
        Ok(Self { finger: self.finger.across(gap_m)?, ..self })
    }

    /// Z_T across a gap, ohm m.
    pub(super) fn at(&self, frequency_hz: f64, gap_m: f64) -> Complex64 {
        let finger = &self.finger;
        let inductive = 2.0 * PI * frequency_hz * finger.inductance_h;
        let own = self.pitch_m * Complex64::new(finger.resistance_at_ohm(gap_m), inductive);
        let reactance = wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * gap_m.hypot(finger.run_m);
        own + Complex64::new(0.0, reactance * self.grid_m(frequency_hz))
    }

    /// Inductance of a square of the grid over that of free space, m.
    fn grid_m(&self, frequency_hz: f64) -> f64 {
        let (pitch_m, finger) = (self.pitch_m, &self.finger);
        let slot = finger.slot_width_m / pitch_m;
        let thin = ln_secant(slot);
        // Held where waves pass; validity says so.
        let electrical_pitch = (pitch_m / wavelength_m(frequency_hz)).min(WIDEST_PITCH);
        let electrical_slot = 2.0 * slot * electrical_pitch;
        let below_cutoff = ((1.0 - electrical_slot) * (1.0 + electrical_slot)).sqrt();
        let depth = (finger.thickness_m / finger.slot_width_m * below_cutoff).min(DEEPEST);
        pitch_m / (2.0 * PI) * (thin + opening(slot, electrical_pitch)) * through_depth(slot, depth)
    }

    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "row of contacts",
            "finger pitch / wavelength",
            "",
            self.pitch_m / wavelength_m(frequency_hz),
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

impl Rebuild for FingerRow {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let finger = &self.finger;
        let pitch_m = knobs.value("finger_pitch_m", "m", self.pitch_m, Domain::POSITIVE);
        let rebuilt = Finger::new(
            knobs.value("finger_resistance_ohm", "ohm", finger.resistance_ohm, Domain::NON_NEGATIVE),
            knobs.value("slot_width_m", "m", finger.slot_width_m, Domain::POSITIVE.and("below the pitch")),
        )?
        .with_thickness(knobs.value("finger_thickness_m", "m", finger.thickness_m, Domain::NON_NEGATIVE))?
        .with_run(knobs.value("finger_run_m", "m", finger.run_m, Domain::NON_NEGATIVE))?
        .with_inductance(knobs.value("finger_inductance_h", "H", finger.inductance_h, Domain::NON_NEGATIVE))?
        .with_force_exponent(knobs.value("force_exponent", "", finger.force_exponent, Domain::FRACTION))?;
        let rebuilt = match finger.heights {
            Some(heights) => rebuilt.with_heights(
                knobs.value("free_height_m", "m", heights.free_m, Domain::POSITIVE.and("above the gap")),
                knobs.value("working_height_m", "m", heights.working_m, Domain::POSITIVE.and("below the free height")),
            )?,
            None => rebuilt,
        };
        Self::new(pitch_m, rebuilt)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct FingerRecord {
    resistance_ohm: f64,
    slot_width_m: f64,
    #[serde(default)]
    thickness_m: f64,
    #[serde(default)]
    run_m: f64,
    #[serde(default)]
    inductance_h: f64,
    #[serde(default)]
    force_exponent: Option<f64>,
    #[serde(default)]
    free_height_m: Option<f64>,
    #[serde(default)]
    working_height_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<FingerRecord> for Finger {
    type Error = crate::Error;
    fn try_from(record: FingerRecord) -> Result<Self> {
        let finger = Self::new(record.resistance_ohm, record.slot_width_m)?
            .with_thickness(record.thickness_m)?
            .with_run(record.run_m)?
            .with_inductance(record.inductance_h)?
            .with_force_exponent(record.force_exponent.unwrap_or(1.0))?;
        finger.with_optional_heights(record.free_height_m, record.working_height_m)
    }
}

#[cfg(feature = "serde")]
impl From<Finger> for FingerRecord {
    fn from(finger: Finger) -> Self {
        Self {
            resistance_ohm: finger.resistance_ohm,
            slot_width_m: finger.slot_width_m,
            thickness_m: finger.thickness_m,
            run_m: finger.run_m,
            inductance_h: finger.inductance_h,
            force_exponent: Some(finger.force_exponent),
            free_height_m: finger.free_height_m(),
            working_height_m: finger.working_height_m(),
        }
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct FingerRowRecord {
    pitch_m: f64,
    finger: Finger,
}

#[cfg(feature = "serde")]
impl TryFrom<FingerRowRecord> for FingerRow {
    type Error = crate::Error;
    fn try_from(record: FingerRowRecord) -> Result<Self> {
        Self::new(record.pitch_m, record.finger)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Inductance per length of finger over μ₀, m.
    fn inductance_m(pitch_m: f64, slot_m: f64, thickness_m: f64, frequency_hz: f64) -> f64 {
        let finger = Finger::new(0.0, slot_m).unwrap().with_thickness(thickness_m).unwrap();
        let row = FingerRow::new(pitch_m, finger).unwrap();
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
