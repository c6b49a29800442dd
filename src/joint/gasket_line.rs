//! A gasketed joint: a gap bridged by one or more rows of gaskets, fingers or measured contacts.

use super::rows_in_gap::RowsInGap;
use super::transfer_impedance::{TransferImpedance, all_across};
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::parameter::Element;
use crate::validity::Validity;

/// A gap along a lid, a door or a panel, bridged by rows that follow each other from outside in.
///
/// ```
/// use stillroom::{joint::{GasketLine, TransferImpedance}, leak::Leak};
/// let gasket = TransferImpedance::gasket(20e-6, 2e-12)?;
/// let single = GasketLine::new(1.9, 1e-3, vec![gasket.clone()])?;
/// let double = GasketLine::new(1.9, 1e-3, vec![gasket.clone(), gasket])?.with_row_spacing(10e-3)?;
/// assert!(double.ln_cross_section(100e6) < single.ln_cross_section(100e6) - 4.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(length_m, gap_m, rows), settle, errors = "no rows or more than 16; fingers that do not reach across")]
pub struct GasketLine {
    /// Length of the joint.
    #[parameter(positive)]
    length_m: f64,
    /// Gap between the faces.
    #[parameter(positive, at_most = length_m)]
    gap_m: f64,
    /// What bridges it, from outside in: gaskets, tables, rows of fingers or several beside each other. Fingers must
    /// reach across the gap; those whose heights are not told are taken as pressed to half of their free height.
    #[part(python = ContactArg)]
    rows: Vec<TransferImpedance>,
    /// Distance between rows.
    #[parameter(non_negative, default = 0.012, setter = with_row_spacing)]
    row_spacing_m: f64,
    /// What the faces are made of. Tin where not given.
    #[part(default = catalogue::get("tin")?)]
    faces: Material,
    #[worked_out(RowsInGap::new(length_m, gap_m, row_spacing_m, &faces))]
    gap: RowsInGap,
}

impl GasketLine {
    fn settle(self) -> Result<Self> {
        check::not_empty("rows", &self.rows)?;
        check::within("rows", "", self.rows.len() as f64, (1.0, MOST_ROWS as f64), "from 1 to 16")?;
        Ok(Self { rows: all_across("rows", self.rows, self.gap_m)?, ..self })
    }

    /// How many pieces leak independently: the coarsest row decides; never more than a study can use.
    fn contacts(&self) -> usize {
        let contacts =
            self.rows.iter().map(|row| row.contacts(self.length_m, self.gap_m)).fold(f64::INFINITY, f64::min);
        (contacts.min(MOST_ELEMENTS).round() as usize).max(1)
    }
}

impl Leak for GasketLine {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let rows = self.rows.iter().map(|row| row.at(frequency_hz, self.gap_m));
        self.gap.ln_cross_section(frequency_hz, rows)
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let rows: Vec<_> = self.rows.iter().map(|row| |f: f64| row.at(f, self.gap_m)).collect();
        self.gap.ln_cross_sections(frequency_hz, &rows, out);
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.length_m, elements: self.contacts() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        self.gap.directivity(frequency_hz, self.rows.iter().map(|row| row.at(frequency_hz, self.gap_m)))
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            *sum = self.gap.ln_in_amplitude(self.contacts(), f, ln);
        }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let rows = self.rows.iter().map(|row| row.validity(frequency_hz));
        rows.fold(self.gap.validity(frequency_hz), Validity::and)
    }
}

/// More rows than any joint has: the integral over the waves along the line grows with the resonances between them.
const MOST_ROWS: usize = 16;

/// More elements than this change no mean over a line.
const MOST_ELEMENTS: f64 = 1e5;
