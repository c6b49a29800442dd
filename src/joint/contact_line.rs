//! The contact line around a door: rows of spring fingers across a gap.
//!
//! Each row is a transfer impedance ([`TransferImpedance`]); rows follow each other through the gap like
//! shunts on a line.

use num_complex::Complex64;

use super::rows::RowsInGap;
use super::transfer_impedance::{Finger, FingerRow, TransferImpedance};
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::slit::narrow_gap;

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
    gap_m: f64,
    row_count: usize,
    row_spacing_m: f64,
    row: FingerRow,
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
        check::at_most("finger_pitch_m", "m", finger_pitch_m, "length_m", length_m)?;
        let gap_m = check::at_most("gap_m", "m", check::positive("gap_m", "m", gap_m)?, "length_m", length_m)?;
        // Fingers finer than the default contact are as wide as their pitch at most.
        let usual = Finger::default();
        let width_m = usual.contact_width_m().min(0.5 * finger_pitch_m);
        let finger = Finger::new(usual.resistance_ohm(), usual.inductance_h(), width_m)?;
        let row = FingerRow::new(finger_pitch_m, finger)?;
        Ok(Self { length_m, gap_m, row_count: 2, row_spacing_m: 12e-3, row, faces: catalogue::get("tin")? })
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
        self.row = FingerRow::new(self.row.pitch_m(), finger)?;
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
        self.row.pitch_m()
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
        self.row.finger()
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.faces
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        TransferImpedance::Fingers(self.row).at(frequency_hz, self.gap_m)
    }

    fn in_gap(&self) -> RowsInGap<'_> {
        let Self { length_m, gap_m, row_spacing_m, faces, .. } = self;
        RowsInGap { length_m: *length_m, gap_m: *gap_m, row_spacing_m: *row_spacing_m, faces }
    }
}

impl Rebuild for ContactLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let line = Self::new(
            knobs.value("length_m", "m", self.length_m, "positive"),
            knobs.value("finger_pitch_m", "m", self.row.pitch_m(), "positive, at most the length"),
            knobs.value("gap_m", "m", self.gap_m, "positive"),
        )?;
        let finger = Finger::new(
            knobs.value("finger_resistance_ohm", "ohm", self.row.finger().resistance_ohm(), "zero or positive"),
            knobs.value("finger_inductance_h", "H", self.row.finger().inductance_h(), "zero or positive"),
            knobs.value("contact_width_m", "m", self.row.finger().contact_width_m(), "positive, below the pitch"),
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
        let row = self.transfer_impedance_ohm_m(frequency_hz);
        self.in_gap().ln_cross_section(frequency_hz, std::iter::repeat_n(row, self.row_count))
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let rows = vec![|f: f64| self.transfer_impedance_ohm_m(f); self.row_count];
        self.in_gap().ln_cross_sections(frequency_hz, &rows, out);
    }

    fn extent(&self) -> Extent {
        let fingers = (self.length_m / self.row.pitch_m()).round();
        Extent::Line { length_m: self.length_m, elements: (fingers as usize).max(1) }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m, frequency_hz)
            .and(TransferImpedance::Fingers(self.row).validity(frequency_hz))
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
            record.finger_resistance_ohm.unwrap_or(line.finger().resistance_ohm()),
            record.finger_inductance_h.unwrap_or(line.finger().inductance_h()),
            record.contact_width_m.unwrap_or(line.finger().contact_width_m()),
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
            finger_pitch_m: line.finger_pitch_m(),
            gap_m: line.gap_m,
            finger_resistance_ohm: Some(line.finger().resistance_ohm()),
            finger_inductance_h: Some(line.finger().inductance_h()),
            contact_width_m: Some(line.finger().contact_width_m()),
            row_count: Some(line.row_count),
            row_spacing_m: Some(line.row_spacing_m),
            faces: Some(line.faces),
        }
    }
}
