//! The contact line around a door: rows of spring fingers across a gap.
//!
//! A finger every p with resistance R and inductance L, in a gap g, is a row with the transfer
//! impedance per length
//!
//! Z_T = p (R + jωL) + jωμ₀ (g p/2π)(ln(p/πw) + 1/√(1 − (p/λ)²) − 1),
//!
//! the last term for the current that draws together into contacts of width w: the inductance of a
//! grid of posts, which opens where the pitch reaches the wavelength (N. Marcuvitz, *Waveguide
//! Handbook*, 1951, sec. 5.21, from memory, leading terms). Rows follow each other through the gap like
//! shunts on a line, with β the wavenumber along the joint and
//!
//! γ² = β² − k² (1 + 2Z_s/(jωμ₀ g)).
//!
//! The waves of a long line fill the angles evenly in β, so that σ = (λ²/4π)(l/π) ∫₀ᵏ T dβ; a line
//! shorter than the wavelength is a single dipole.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::row::shortened;
use super::seam::{Gap, LEAST_M, narrow_gap};
use crate::constants::{VACUUM_IMPEDANCE, wavelength_m, wavenumber_per_m};
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::opening::{Chain, ln_mode_area};
use crate::wave::slit::ln_endless_modes;

/// One contact of a row.
///
/// The defaults are of the size of a clean spring finger of copper alloy on a plated counter-face
/// (common practice, no source). Wear, dirt and pressure change the resistance by orders of magnitude.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Finger {
    resistance_ohm: f64,
    inductance_h: f64,
    contact_width_m: f64,
}

impl Finger {
    /// Resistance (ohm) and inductance (H) of one finger, and the width of its contact (m).
    ///
    /// # Errors
    /// Unless resistance and inductance are zero or positive (the inductance at most 1 H) and the width
    /// positive, all finite.
    pub fn new(resistance_ohm: f64, inductance_h: f64, contact_width_m: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm: check::non_negative("finger_resistance_ohm", "ohm", resistance_ohm)?,
            inductance_h: check::within(
                "finger_inductance_h",
                "H",
                inductance_h,
                (0.0, 1.0),
                "zero or positive, at most 1 H",
            )?,
            contact_width_m: check::positive("contact_width_m", "m", contact_width_m)?,
        })
    }

    /// Resistance of one finger, ohm.
    #[must_use]
    pub fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Inductance of one finger, H.
    #[must_use]
    pub fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Width of its contact along the joint, m.
    #[must_use]
    pub fn contact_width_m(&self) -> f64 {
        self.contact_width_m
    }
}

impl Default for Finger {
    fn default() -> Self {
        Self { resistance_ohm: 5e-3, inductance_h: 0.05e-9, contact_width_m: 2e-3 }
    }
}

/// Rows of contact fingers across the gap around a door.
///
/// ```
/// use stillroom::{joint::ContactLine, leak::Leak};
/// let single = ContactLine::new(6.0, 10e-3, 1e-3)?.with_rows(1, 0.0)?;
/// let double = ContactLine::new(6.0, 10e-3, 1e-3)?;
/// // The second row is worth tens of dB.
/// assert!(double.ln_cross_section(1e9) < single.ln_cross_section(1e9) - 4.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct ContactLine {
    length_m: f64,
    finger_pitch_m: f64,
    gap_m: f64,
    row_count: usize,
    row_spacing_m: f64,
    finger: Finger,
    faces: Material,
}

impl ContactLine {
    /// A line of this length with a finger every `finger_pitch_m` across a gap, all in m: two rows
    /// 12 mm apart, default fingers, faces of tin.
    ///
    /// # Errors
    /// Unless all are positive and finite, pitch and gap at most the length.
    pub fn new(length_m: f64, finger_pitch_m: f64, gap_m: f64) -> Result<Self> {
        let length_m = check::positive("length_m", "m", length_m)?;
        let finger_pitch_m = check::positive("finger_pitch_m", "m", finger_pitch_m)?;
        let line = Self {
            length_m,
            finger_pitch_m: check::at_most("finger_pitch_m", "m", finger_pitch_m, "length_m", length_m)?,
            gap_m: check::at_most("gap_m", "m", check::positive("gap_m", "m", gap_m)?, "length_m", length_m)?,
            row_count: 2,
            row_spacing_m: 12e-3,
            finger: Finger::default(),
            faces: catalogue::get("tin")?,
        };
        // Fingers finer than the default contact are as wide as their pitch at most.
        let contact_width_m = line.finger.contact_width_m.min(0.5 * finger_pitch_m);
        line.with_finger(Finger { contact_width_m, ..Finger::default() })
    }

    /// The same line with another number of rows (at least one), this far apart (m).
    ///
    /// # Errors
    /// For no rows, or a spacing that is negative or not finite.
    pub fn with_rows(mut self, row_count: usize, row_spacing_m: f64) -> Result<Self> {
        self.row_count = check::count("row_count", row_count as f64, 1)?;
        self.row_spacing_m = check::non_negative("row_spacing_m", "m", row_spacing_m)?;
        Ok(self)
    }

    /// The same line with other fingers.
    ///
    /// # Errors
    /// Unless the contact is narrower than the pitch.
    pub fn with_finger(mut self, finger: Finger) -> Result<Self> {
        check::less_than("contact_width_m", "m", finger.contact_width_m, "finger_pitch_m", self.finger_pitch_m)?;
        self.finger = finger;
        Ok(self)
    }

    /// The same line with faces of another material.
    #[must_use]
    pub fn with_faces(mut self, faces: Material) -> Self {
        self.faces = faces;
        self
    }

    /// Length, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Distance between fingers, m.
    #[must_use]
    pub fn finger_pitch_m(&self) -> f64 {
        self.finger_pitch_m
    }

    /// Gap that the fingers bridge, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.gap_m
    }

    /// Number of rows.
    #[must_use]
    pub fn row_count(&self) -> usize {
        self.row_count
    }

    /// Distance between rows, m.
    #[must_use]
    pub fn row_spacing_m(&self) -> f64 {
        self.row_spacing_m
    }

    /// One contact.
    #[must_use]
    pub fn finger(&self) -> Finger {
        self.finger
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.faces
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        let (pitch_m, finger) = (self.finger_pitch_m, &self.finger);
        let own = Complex64::new(finger.resistance_ohm, 2.0 * PI * frequency_hz * finger.inductance_h);
        // Held where the grid opens; validity says so.
        let electrical_pitch = (pitch_m / wavelength_m(frequency_hz)).min(WIDEST_PITCH);
        let opening = 1.0 / ((1.0 - electrical_pitch) * (1.0 + electrical_pitch)).sqrt() - 1.0;
        let constriction = (pitch_m / (PI * finger.contact_width_m.max(LEAST_M))).ln().max(0.0) + opening;
        let reactance = wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * self.gap_m / (2.0 * PI) * constriction;
        pitch_m * (own + Complex64::new(0.0, reactance))
    }
}

/// Pitch over wavelength up to which a row is a grid.
const WIDEST_PITCH: f64 = 0.9;

impl Rebuild for ContactLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let line = Self::new(
            knobs.value("length_m", "m", self.length_m, "positive"),
            knobs.value("finger_pitch_m", "m", self.finger_pitch_m, "positive, at most the length"),
            knobs.value("gap_m", "m", self.gap_m, "positive"),
        )?;
        let finger = Finger::new(
            knobs.value("finger_resistance_ohm", "ohm", self.finger.resistance_ohm, "zero or positive"),
            knobs.value("finger_inductance_h", "H", self.finger.inductance_h, "zero or positive"),
            knobs.value("contact_width_m", "m", self.finger.contact_width_m, "positive, below the pitch"),
        )?;
        let rows = knobs.count("row_count", self.row_count, 1)?;
        let line = line
            .with_finger(finger)?
            .with_rows(rows, knobs.value("row_spacing_m", "m", self.row_spacing_m, "zero or positive"))?;
        Ok(line.with_faces(knobs.enter("faces", |knobs| self.faces.rebuild(knobs))?))
    }
}

impl Leak for ContactLine {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let gap = Gap::new(frequency_hz, self.gap_m, &self.faces);
        let row = Complex64::new(0.0, k * VACUUM_IMPEDANCE * self.gap_m) / self.transfer_impedance_ohm_m(frequency_hz);
        let chain = |beta: f64| {
            let gamma_squared = beta * beta + gap.minus_k_squared;
            (1..self.row_count).fold(Chain::through().shunt(row), |chain, _| {
                chain.line(gamma_squared, gap.series, self.row_spacing_m).shunt(row)
            })
        };
        let modes = ln_endless_modes((self.length_m, self.gap_m.max(LEAST_M)), 0.0, k, chain, |_| 1.0);
        // Dipole by dipole the line gains 6π/(5 k s) from its own coherence; as a whole it is one.
        let coherent = shortened(1.0, k * self.length_m / (1.2 * PI));
        ln_mode_area(k) + modes + coherent.ln()
    }

    fn extent(&self) -> Extent {
        let fingers = (self.length_m / self.finger_pitch_m).round();
        Extent::Line { length_m: self.length_m, elements: (fingers as usize).max(1) }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m, frequency_hz)
            .and(Validity::within(
                "row of contacts",
                "finger pitch / wavelength",
                "",
                self.finger_pitch_m / wavelength_m(frequency_hz),
                (0.0, WIDEST_PITCH),
                "waves pass between the fingers",
            ))
            .and(self.faces.validity(frequency_hz))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    finger_pitch_m: f64,
    gap_m: f64,
    #[serde(default)]
    finger_resistance_ohm: Option<f64>,
    #[serde(default)]
    finger_inductance_h: Option<f64>,
    #[serde(default)]
    contact_width_m: Option<f64>,
    #[serde(default)]
    row_count: Option<usize>,
    #[serde(default)]
    row_spacing_m: Option<f64>,
    #[serde(default)]
    faces: Option<Material>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for ContactLine {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let line = Self::new(record.length_m, record.finger_pitch_m, record.gap_m)?;
        let finger = Finger::new(
            record.finger_resistance_ohm.unwrap_or(line.finger.resistance_ohm),
            record.finger_inductance_h.unwrap_or(line.finger.inductance_h),
            record.contact_width_m.unwrap_or(line.finger.contact_width_m),
        )?;
        let rows = record.row_count.unwrap_or(line.row_count);
        let spacing_m = record.row_spacing_m.unwrap_or(line.row_spacing_m);
        let line = line.with_finger(finger)?.with_rows(rows, spacing_m)?;
        Ok(match record.faces {
            Some(faces) => line.with_faces(faces),
            None => line,
        })
    }
}

#[cfg(feature = "serde")]
impl From<ContactLine> for Record {
    fn from(line: ContactLine) -> Self {
        Self {
            length_m: line.length_m,
            finger_pitch_m: line.finger_pitch_m,
            gap_m: line.gap_m,
            finger_resistance_ohm: Some(line.finger.resistance_ohm),
            finger_inductance_h: Some(line.finger.inductance_h),
            contact_width_m: Some(line.finger.contact_width_m),
            row_count: Some(line.row_count),
            row_spacing_m: Some(line.row_spacing_m),
            faces: Some(line.faces),
        }
    }
}
