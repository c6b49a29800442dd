//! A measured transfer impedance: a table, from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `transfer_impedance_ohm_m` (the
//! modulus), in any order and among others, and perhaps `phase_deg`; without a heading the first two
//! columns are taken as these. Lines that start with `#` are comments. Fields are separated by commas,
//! semicolons or tabs.

use num_complex::Complex64;

use crate::circuit::impedance_rows::{ImpedanceRows, Quantity};
use crate::error::Result;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

const OF: Quantity = Quantity {
    what: "table of transfer impedance",
    columns: ["frequency_hz", "transfer_impedance_ohm_m"],
    unit: "ohm m",
    positive: "a positive transfer impedance",
};

/// Transfer impedance times length against frequency, joined in ln f and held beyond both ends.
///
/// ```
/// use stillroom::joint::ImpedanceTable;
/// let table = ImpedanceTable::from_csv("frequency_hz,transfer_impedance_ohm_m\n1e6,1e-5\n1e8,1e-3\n")?;
/// // It rises with f: an inductance.
/// let z = table.at(1e7);
/// assert!((z.im / 1e-4 - 1.0).abs() < 1e-12 && z.re.abs() < 1e-18);
/// let error = ImpedanceTable::from_csv("1e6,1e-5\n1e7,-1e-4\n").unwrap_err();
/// assert!(error.to_string().contains("line 2"));
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct ImpedanceTable {
    rows: ImpedanceRows,
}

impl ImpedanceTable {
    /// From frequencies (Hz, positive, increasing) and moduli (ohm m, positive), equally many and at
    /// least two.
    ///
    /// # Errors
    /// For unequal columns or fewer than two rows; for frequencies out of order and moduli that are not
    /// positive, with their row.
    pub fn new(frequency_hz: Vec<f64>, transfer_impedance_ohm_m: Vec<f64>) -> Result<Self> {
        Ok(Self { rows: ImpedanceRows::new(&OF, frequency_hz, transfer_impedance_ohm_m)? })
    }

    /// The same with measured phases, degrees, one for each row.
    ///
    /// # Errors
    /// Unless as many as there are rows, each from −90 to 90: a contact gives no power out.
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
    /// [`Error::Parse`](crate::Error::Parse) with the line number for a missing column or field, a field
    /// that is no finite number, a frequency out of order, or an impedance that is not positive; as for
    /// [`new`](Self::new) for too few rows, and as for [`with_phases`](Self::with_phases).
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

    /// Moduli at these, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self) -> &[f64] {
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

    /// Transfer impedance times length, ohm m.
    ///
    /// Where no phase was measured it turns by 90° for each power of f in the modulus, as what is passive and
    /// has no excess phase does (H. W. Bode, *Network Analysis and Feedback Amplifier Design*, 1945, ch. 14,
    /// from memory, leading term), kept within 0° and 90°; the power between two rows holds in the middle between them and is
    /// joined in ln f from there to the next, so that the phase has no steps.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        self.rows.at(frequency_hz)
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.rows.validity("measured transfer impedance", frequency_hz)
    }
}

impl Rebuild for ImpedanceTable {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.clone().scaled(knobs.value("scale_db", "dB", self.scale_db(), Domain::within(-300.0, 300.0)))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    frequency_hz: Vec<f64>,
    transfer_impedance_ohm_m: Vec<f64>,
    #[serde(default)]
    phase_deg: Option<Vec<f64>>,
    #[serde(default)]
    scale_db: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for ImpedanceTable {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let table = Self::new(record.frequency_hz, record.transfer_impedance_ohm_m)?.scaled(record.scale_db)?;
        match record.phase_deg {
            Some(phase_deg) => table.with_phases(phase_deg),
            None => Ok(table),
        }
    }
}

#[cfg(feature = "serde")]
impl From<ImpedanceTable> for Record {
    fn from(table: ImpedanceTable) -> Self {
        let ImpedanceRows { frequency_hz, modulus, phase_deg, scale_db } = table.rows;
        Self { frequency_hz, transfer_impedance_ohm_m: modulus, phase_deg, scale_db }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Error;

    #[test]
    fn faults_name_row_and_value() {
        let text = |frequency_hz: &[f64], ohm_m: &[f64]| {
            ImpedanceTable::new(frequency_hz.to_vec(), ohm_m.to_vec()).unwrap_err().to_string()
        };
        assert!(text(&[1e6, 1e5], &[1.0, 1.0]).contains("`frequency_hz[1]` = 1e5 Hz after 1e6 Hz"));
        assert!(text(&[1e5, 1e6], &[1.0, -2.0]).contains("`transfer_impedance_ohm_m[1]` = -2 ohm m"));
        assert!(text(&[1e5], &[1.0]).contains("`rows of the table` = 1: must be two or more"));
        assert!(text(&[1e5, 1e6], &[1.0]).contains("equally many"));
        assert!(text(&[], &[]).contains("two or more"));
        for (text, line) in [("1e5,1\n1e4,2\n", 2), ("1e5,1\n\n1e6,0\n", 3), ("frequency_hz,z\n1,2\n", 1)] {
            match ImpedanceTable::from_csv(text).unwrap_err() {
                Error::Parse { line: found, .. } => assert_eq!(found, line, "{text}"),
                other => panic!("{other}"),
            }
        }
        let table = ImpedanceTable::new(vec![1.0, 2.0], vec![1.0, 1.0]).unwrap();
        assert!(table.clone().with_phases(vec![0.0, 91.0]).unwrap_err().to_string().contains("phase_deg[1]"));
        assert!(table.with_phases(vec![0.0]).is_err());
    }

    #[test]
    fn text_and_numbers_are_the_same_table() {
        let table = ImpedanceTable::new(vec![1e4, 1e6, 3e9], vec![2e-5, 3.3e-5, 0.1]).unwrap();
        assert_eq!(ImpedanceTable::from_csv(&table.to_csv()).unwrap(), table);
        let table = table.with_phases(vec![-3.0, 10.0, 80.0]).unwrap();
        assert_eq!(ImpedanceTable::from_csv(&table.to_csv()).unwrap(), table);
        let z = table.at(1e4);
        assert!((z.arg().to_degrees() + 3.0).abs() < 1e-12 && (z.norm() / 2e-5 - 1.0).abs() < 1e-14);
        assert!((table.scaled(20.0).unwrap().at(1e4).norm() / 2e-4 - 1.0).abs() < 1e-14);
    }

    #[test]
    fn phase_follows_the_slope() {
        // Flat: a resistance; √f: skin effect, 45 degrees; falling: held at a resistance.
        let table = ImpedanceTable::new(vec![1e3, 1e5, 1e7, 1e9], vec![1.0, 1.0, 10.0, 1.0]).unwrap();
        for (frequency_hz, degrees) in [(1e4, 0.0), (1e6, 45.0), (1e8, 0.0), (1e10, 0.0)] {
            assert!((table.at(frequency_hz).arg().to_degrees() - degrees).abs() < 1e-12, "{frequency_hz}");
        }
        assert!(table.validity(1e8).holds() && !table.validity(1e10).holds());
    }
}
