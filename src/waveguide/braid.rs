//! The measured transfer impedance of a cable's braid, a table from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `transfer_impedance_ohm_per_m` (the modulus), in any order and among
//! others, and perhaps `phase_deg`; without a heading the first two columns are taken as these.

use num_complex::Complex64;

use crate::circuit::impedance_rows::{ImpedanceRows, Quantity};
use crate::error::Result;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

const OF: Quantity = Quantity {
    what: "table of a braid's transfer impedance",
    columns: ["frequency_hz", "transfer_impedance_ohm_per_m"],
    unit: "ohm/m",
    positive: "a positive transfer impedance",
};

/// Transfer impedance per length of a cable's shield against frequency, joined in ln f and held beyond both ends.
///
/// ```
/// use stillroom::waveguide::BraidTable;
/// let braid = BraidTable::from_csv("frequency_hz,transfer_impedance_ohm_per_m\n1e5,0.02\n1e7,0.02\n1e9,2\n")?;
/// assert!((braid.at(1e6).re / 0.02 - 1.0).abs() < 1e-12);
/// // Rising with f it is an inductance.
/// assert!((braid.at(1e8).im / 0.2 - 1.0).abs() < 1e-12);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct BraidTable {
    rows: ImpedanceRows,
}

impl BraidTable {
    /// From frequencies (Hz, positive, increasing) and moduli (Ω/m, positive), equally many and at least two.
    ///
    /// # Errors
    /// For unequal columns or fewer than two rows; for frequencies out of order and moduli that are not positive, with their row.
    pub fn new(frequency_hz: Vec<f64>, transfer_impedance_ohm_per_m: Vec<f64>) -> Result<Self> {
        Ok(Self { rows: ImpedanceRows::new(&OF, frequency_hz, transfer_impedance_ohm_per_m)? })
    }

    /// The same with measured phases, degrees, one for each row.
    ///
    /// # Errors
    /// Unless as many as there are rows, each from −90 to 90.
    pub fn with_phases(self, phase_deg: Vec<f64>) -> Result<Self> {
        Ok(Self { rows: self.rows.with_phases(phase_deg)? })
    }

    /// The same, `scale_db` decibels greater in impedance: a knob for tolerances.
    ///
    /// # Errors
    /// Unless from −300 to 300 dB.
    pub fn scaled(self, scale_db: f64) -> Result<Self> {
        Ok(Self { rows: self.rows.scaled(scale_db)? })
    }

    /// From text.
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with the line number for a missing column or field, a field that is no finite number, a
    /// frequency out of order, or an impedance that is not positive; as for [`new`](Self::new) for too few rows.
    pub fn from_csv(text: &str) -> Result<Self> {
        Ok(Self { rows: ImpedanceRows::from_csv(&OF, text)? })
    }

    /// As text, without the scale.
    #[must_use]
    pub fn to_csv(&self) -> String {
        self.rows.to_csv(&OF)
    }

    /// Frequencies, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.rows.frequency_hz
    }

    /// Moduli at these, Ω/m.
    #[must_use]
    pub fn transfer_impedance_ohm_per_m(&self) -> &[f64] {
        &self.rows.modulus
    }

    /// Phases at these, degrees, where they were measured.
    #[must_use]
    pub fn phase_deg(&self) -> Option<&[f64]> {
        self.rows.phase_deg.as_deref()
    }

    /// What is added to the table, dB.
    #[must_use]
    pub fn scale_db(&self) -> f64 {
        self.rows.scale_db
    }

    /// Transfer impedance per length, Ω/m; where no phase was measured, with that of least phase.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        self.rows.at(frequency_hz)
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.rows.validity("measured transfer impedance of the braid", frequency_hz)
    }
}

impl Rebuild for BraidTable {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.clone().scaled(knobs.value("scale_db", "dB", self.scale_db(), Domain::within(-300.0, 300.0)))
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    frequency_hz: Vec<f64>,
    transfer_impedance_ohm_per_m: Vec<f64>,
    #[serde(default)]
    phase_deg: Option<Vec<f64>>,
    #[serde(default)]
    scale_db: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for BraidTable {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let table = Self::new(record.frequency_hz, record.transfer_impedance_ohm_per_m)?.scaled(record.scale_db)?;
        record.phase_deg.map_or(Ok(table.clone()), |phase_deg| table.with_phases(phase_deg))
    }
}

#[cfg(feature = "serde")]
impl From<BraidTable> for Record {
    fn from(table: BraidTable) -> Self {
        let ImpedanceRows { frequency_hz, modulus, phase_deg, scale_db } = table.rows;
        Self { frequency_hz, transfer_impedance_ohm_per_m: modulus, phase_deg, scale_db }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Error;

    #[test]
    fn text_and_numbers_are_the_same_table() {
        let table = BraidTable::new(vec![1e4, 1e6, 3e9], vec![2e-2, 3.3e-2, 4.0]).unwrap();
        assert_eq!(BraidTable::from_csv(&table.to_csv()).unwrap(), table);
        let table = table.with_phases(vec![0.0, 30.0, 88.0]).unwrap();
        assert_eq!(BraidTable::from_csv(&table.to_csv()).unwrap(), table);
        assert!((table.clone().scaled(20.0).unwrap().at(1e4).re / 0.2 - 1.0).abs() < 1e-12);
        assert!(table.validity(1e6).holds() && !table.validity(1e10).holds());
    }

    #[test]
    fn faults_are_told_by_line_and_row() {
        for (text, place) in [("1e5,1\n1e4,2\n", 2), ("1e5,1\n\n1e6,0\n", 3), ("frequency_hz,z\n1,2\n", 1)] {
            assert!(matches!(BraidTable::from_csv(text), Err(Error::Parse { line, .. }) if line == place), "{text}");
        }
        let error = BraidTable::new(vec![1e5, 1e6], vec![1.0, -2.0]).unwrap_err().to_string();
        assert!(error.contains("`transfer_impedance_ohm_per_m[1]` = -2 ohm/m"), "{error}");
        assert!(BraidTable::new(vec![1e5], vec![1.0]).is_err());
    }
}
