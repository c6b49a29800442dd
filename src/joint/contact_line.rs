//! The contact line around a door: rows of spring fingers across a gap.
//!
//! Each row is a transfer impedance ([`FingerRow`]); rows follow each other through the gap like shunts on a line.
//!
//! The gap is that of the fingers and of the space between their rows. As it opens fingers lose force, and what
//! spans it straight becomes longer: both make the line worse. The space between rows becomes larger, which makes it
//! better. With contacts that stay as they are the second alone is left, and a line of two rows is 21 to 24 dB
//! better at 4 mm than at 0.25 mm; that is no advice, since no spring finger stays as it is. With fingers straight
//! across, two rows rise by 24 dB instead, from 100 MHz on.

use num_complex::Complex64;

use super::fingers::{Finger, FingerRow};
use super::rows_in_gap::RowsInGap;
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::Material;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

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
    gap: RowsInGap,
    row_count: usize,
    row: FingerRow,
}

impl ContactLine {
    /// A line of this length with a finger every `finger_pitch_m` across a gap, all in m: two rows
    /// 12 mm apart, faces of tin; fingers of 5 mohm straight across, with contacts of 2 mm (at most of half the
    /// pitch; common practice, no source) and pressed to half of their free height.
    ///
    /// # Errors
    /// Unless all are positive and finite, pitch and gap at most the length.
    pub fn new(length_m: f64, finger_pitch_m: f64, gap_m: f64) -> Result<Self> {
        let gap = RowsInGap::new(length_m, gap_m)?;
        let finger_pitch_m = check::positive("finger_pitch_m", "m", finger_pitch_m)?;
        check::at_most("finger_pitch_m", "m", finger_pitch_m, "length_m", length_m)?;
        let row = FingerRow::new(finger_pitch_m, Finger::usual(finger_pitch_m)?)?;
        Ok(Self { row: row.across(gap_m)?, gap, row_count: 2 })
    }

    /// The same line with another number of rows (1 to 16), this far apart (m).
    ///
    /// # Errors
    /// For no rows or more than 16, or a spacing that is negative or not finite.
    pub fn with_rows(mut self, row_count: usize, row_spacing_m: f64) -> Result<Self> {
        self.row_count = check_rows(row_count)?;
        self.gap = self.gap.with_row_spacing(row_spacing_m)?;
        Ok(self)
    }

    /// The same line with other fingers. Those whose heights are not told are taken as pressed to half of their free
    /// height in this gap.
    ///
    /// # Errors
    /// Unless the slot is narrower than the pitch and the free height above the gap.
    pub fn with_finger(mut self, finger: Finger) -> Result<Self> {
        self.row = FingerRow::new(self.row.pitch_m(), finger)?.across(self.gap.gap_m)?;
        Ok(self)
    }

    /// The same line with faces of another material.
    #[must_use]
    pub fn with_faces(mut self, faces: Material) -> Self {
        self.gap.faces = faces;
        self
    }

    /// Length, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.gap.length_m
    }

    /// Distance between fingers, m.
    #[must_use]
    pub fn finger_pitch_m(&self) -> f64 {
        self.row.pitch_m()
    }

    /// Gap that the fingers bridge, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.gap.gap_m
    }

    /// Number of rows.
    #[must_use]
    pub fn row_count(&self) -> usize {
        self.row_count
    }

    /// Distance between rows, m.
    #[must_use]
    pub fn row_spacing_m(&self) -> f64 {
        self.gap.row_spacing_m
    }

    /// One contact.
    #[must_use]
    pub fn finger(&self) -> Finger {
        self.row.finger()
    }

    /// Height of its fingers without a counter-face, m.
    #[must_use]
    pub fn free_height_m(&self) -> f64 {
        self.row.finger().free_height_m().unwrap_or(2.0 * self.gap.gap_m)
    }

    /// Height for which the resistance of its fingers was told, m.
    #[must_use]
    pub fn working_height_m(&self) -> f64 {
        self.row.finger().working_height_m().unwrap_or(self.gap.gap_m)
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.gap.faces
    }

    /// Fingers of one row, at least one.
    fn fingers(&self) -> usize {
        ((self.gap.length_m / self.row.pitch_m()).round() as usize).max(1)
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        self.row.at(frequency_hz, self.gap.gap_m)
    }
}

impl Rebuild for ContactLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let length_m = knobs.value("length_m", "m", self.gap.length_m, Domain::POSITIVE);
        let gap_m = knobs.value("gap_m", "m", self.gap.gap_m, Domain::POSITIVE.and("below the free height"));
        let row = self.row.rebuild(knobs)?;
        let rows = knobs.count("row_count", self.row_count, 1)?;
        let line = Self::new(length_m, row.pitch_m(), gap_m)?
            .with_finger(row.finger())?
            .with_rows(rows, knobs.value("row_spacing_m", "m", self.gap.row_spacing_m, Domain::NON_NEGATIVE))?;
        Ok(line.with_faces(knobs.enter("faces", |knobs| self.gap.faces.rebuild(knobs))?))
    }
}

impl Leak for ContactLine {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let row = self.transfer_impedance_ohm_m(frequency_hz);
        self.gap.ln_cross_section(frequency_hz, std::iter::repeat_n(row, self.row_count))
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let rows = vec![|f: f64| self.transfer_impedance_ohm_m(f); self.row_count];
        self.gap.ln_cross_sections(frequency_hz, &rows, out);
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.gap.length_m, elements: self.fingers() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        let row = self.transfer_impedance_ohm_m(frequency_hz);
        self.gap.directivity(frequency_hz, std::iter::repeat_n(row, self.row_count))
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            *sum = self.gap.ln_in_amplitude(self.fingers(), f, ln);
        }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.gap.validity(frequency_hz).and(self.row.validity(frequency_hz))
    }
}

/// More rows than any door has would leave the range of numbers.
const MOST_ROWS: usize = 16;

pub(super) fn check_rows(row_count: usize) -> Result<usize> {
    let most = (1.0, MOST_ROWS as f64);
    check::within("row_count", "", row_count as f64, most, "a whole number from 1 to 16")?;
    Ok(row_count)
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    finger_pitch_m: f64,
    gap_m: f64,
    #[serde(default)]
    finger: Option<Finger>,
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
        let finger = record.finger.unwrap_or(line.finger());
        let rows = record.row_count.unwrap_or(line.row_count);
        let spacing_m = record.row_spacing_m.unwrap_or(line.gap.row_spacing_m);
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
            length_m: line.gap.length_m,
            finger_pitch_m: line.finger_pitch_m(),
            gap_m: line.gap.gap_m,
            finger: Some(line.finger()),
            row_count: Some(line.row_count),
            row_spacing_m: Some(line.gap.row_spacing_m),
            faces: Some(line.gap.faces),
        }
    }
}
