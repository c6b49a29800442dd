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

use super::fingers::FingerRow;
use super::rows_in_gap::RowsInGap;
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::parameter::Element;
use crate::validity::Validity;

/// Rows of contact fingers across the gap around a door.
///
/// ```
/// use stillroom::{joint::{ContactLine, FingerRow}, leak::Leak};
/// let double = ContactLine::new(6.0, FingerRow::new(10e-3)?, 1e-3)?;
/// let single = double.clone().with_row_count(1)?;
/// // The second row is worth tens of dB.
/// assert!(double.ln_cross_section(1e9) < single.ln_cross_section(1e9) - 4.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(length_m, row, gap_m), settle, errors = "a pitch above the length; fingers that do not reach across")]
pub struct ContactLine {
    /// Length of the line.
    #[parameter(positive)]
    length_m: f64,
    /// Gap that the fingers bridge.
    #[parameter(positive, at_most = length_m, also = "below the free height")]
    gap_m: f64,
    /// Number of rows, one behind the other.
    #[parameter(whole(1, 16), default = 2)]
    row_count: usize,
    /// Distance between rows.
    #[parameter(non_negative, default = 0.012, setter = with_row_spacing)]
    row_spacing_m: f64,
    /// Fingers of one row. A resistance that is told for no height is told for the gap.
    #[part(flat, copy)]
    row: FingerRow,
    /// What the faces are made of. Tin where not given.
    #[part(default = catalogue::get("tin")?)]
    faces: Material,
    #[worked_out(RowsInGap::new(length_m, gap_m, row_spacing_m, &faces))]
    gap: RowsInGap,
}

impl ContactLine {
    fn settle(self) -> Result<Self> {
        check::at_most("finger_pitch_m", "m", self.row.finger_pitch_m(), "length_m", self.length_m)?;
        Ok(Self { row: self.row.told_for(self.gap_m).across(self.gap_m)?, ..self })
    }

    /// Fingers of one row, at least one.
    fn fingers(&self) -> usize {
        ((self.length_m / self.row.finger_pitch_m()).round() as usize).max(1)
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        self.row.at(frequency_hz, self.gap_m)
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
        Extent::Line { length_m: self.length_m, elements: self.fingers() }
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
