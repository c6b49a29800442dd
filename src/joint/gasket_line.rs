//! A gasketed joint: a gap bridged by one or more rows of gaskets, fingers or measured contacts.

use super::rows_in_gap::RowsInGap;
use super::transfer_impedance::TransferImpedance;
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::Material;
use crate::parameter::{Domain, Knobs, Rebuild};
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
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct GasketLine {
    gap: RowsInGap,
    rows: Vec<TransferImpedance>,
}

impl GasketLine {
    /// A joint of this length across a gap, both in m, with the rows that bridge it: 12 mm apart, faces
    /// of tin. Fingers whose heights are not told are taken as pressed to half of their free height here.
    ///
    /// # Errors
    /// Unless length and gap are positive and finite, the gap at most the length; for no rows or more than 16, for a row
    /// that its own constructor would not make, and for fingers that do not reach across.
    pub fn new(length_m: f64, gap_m: f64, rows: Vec<TransferImpedance>) -> Result<Self> {
        let gap = RowsInGap::new(length_m, gap_m)?;
        check::not_empty("rows", &rows)?;
        check::within("rows", "", rows.len() as f64, (1.0, MOST_ROWS as f64), "from 1 to 16")?;
        let checked = |(number, row): (usize, TransferImpedance)| {
            row.across(gap_m).map_err(|error| error.within(&format!("rows.{number}")))
        };
        Ok(Self { gap, rows: (0..).zip(rows).map(checked).collect::<Result<_>>()? })
    }

    /// The same joint with its rows this far apart, m.
    ///
    /// # Errors
    /// For a spacing that is negative or not finite.
    pub fn with_row_spacing(mut self, row_spacing_m: f64) -> Result<Self> {
        self.gap = self.gap.with_row_spacing(row_spacing_m)?;
        Ok(self)
    }

    /// The same joint with faces of another material.
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

    /// Gap between the faces, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.gap.gap_m
    }

    /// What bridges it, from outside in.
    #[must_use]
    pub fn rows(&self) -> &[TransferImpedance] {
        &self.rows
    }

    /// Distance between rows, m.
    #[must_use]
    pub fn row_spacing_m(&self) -> f64 {
        self.gap.row_spacing_m
    }

    /// How many pieces leak independently: the coarsest row decides; never more than a study can use.
    fn contacts(&self) -> usize {
        let RowsInGap { length_m, gap_m, .. } = self.gap;
        let contacts = self.rows.iter().map(|row| row.contacts(length_m, gap_m)).fold(f64::INFINITY, f64::min);
        (contacts.min(MOST_ELEMENTS).round() as usize).max(1)
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.gap.faces
    }
}

impl Rebuild for GasketLine {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let length_m = knobs.value("length_m", "m", self.gap.length_m, Domain::POSITIVE);
        let gap_m = knobs.value("gap_m", "m", self.gap.gap_m, Domain::POSITIVE.and("at most the length"));
        let rows = knobs.part("rows", &self.rows)?;
        let spacing_m = knobs.value("row_spacing_m", "m", self.gap.row_spacing_m, Domain::NON_NEGATIVE);
        let line = Self::new(length_m, gap_m, rows)?.with_row_spacing(spacing_m)?;
        Ok(line.with_faces(knobs.enter("faces", |knobs| self.gap.faces.rebuild(knobs))?))
    }
}

impl Leak for GasketLine {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let rows = self.rows.iter().map(|row| row.at(frequency_hz, self.gap.gap_m));
        self.gap.ln_cross_section(frequency_hz, rows)
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let rows: Vec<_> = self.rows.iter().map(|row| |f: f64| row.at(f, self.gap.gap_m)).collect();
        self.gap.ln_cross_sections(frequency_hz, &rows, out);
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.gap.length_m, elements: self.contacts() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        self.gap.directivity(frequency_hz, self.rows.iter().map(|row| row.at(frequency_hz, self.gap.gap_m)))
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

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    gap_m: f64,
    rows: Vec<TransferImpedance>,
    #[serde(default)]
    row_spacing_m: Option<f64>,
    #[serde(default)]
    faces: Option<Material>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for GasketLine {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let line = Self::new(record.length_m, record.gap_m, record.rows)?;
        let spacing_m = record.row_spacing_m.unwrap_or(line.gap.row_spacing_m);
        let line = line.with_row_spacing(spacing_m)?;
        Ok(match record.faces {
            Some(faces) => line.with_faces(faces),
            None => line,
        })
    }
}

#[cfg(feature = "serde")]
impl From<GasketLine> for Record {
    fn from(line: GasketLine) -> Self {
        Self {
            length_m: line.gap.length_m,
            gap_m: line.gap.gap_m,
            rows: line.rows,
            row_spacing_m: Some(line.gap.row_spacing_m),
            faces: Some(line.gap.faces),
        }
    }
}
