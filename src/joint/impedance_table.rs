//! A measured transfer impedance: a table, from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `transfer_impedance_ohm_m` (the
//! modulus), in any order and among others, and perhaps `phase_deg`; without a heading the first two
//! columns are taken as these. Lines that start with `#` are comments. Fields are separated by commas,
//! semicolons or tabs.
//!
//! Between its rows the logarithm of the modulus is joined in ln f. Measurements mostly give the
//! modulus alone. What is passive and has no excess phase then turns by 90° for each power of f in
//! the modulus (H. W. Bode, *Network Analysis and Feedback Amplifier Design*, 1945, ch. 14, from
//! memory, leading term); kept within 0° and 90°, from a resistance to an inductance.

use std::fmt::Write as _;

use num_complex::Complex64;

use crate::decibel::ln_power_of_loss_db;
use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::table::{Between, Columns};
use crate::validity::Validity;

const FREQUENCY: &str = "frequency_hz";
const MODULUS: &str = "transfer_impedance_ohm_m";
const PHASE: &str = "phase_deg";
const COLUMNS: Columns<'_> =
    Columns { what: "table of transfer impedance", required: &[FREQUENCY, MODULUS], optional: &[PHASE] };

/// Rows without which nothing can be joined.
const FEWEST_ROWS: usize = 2;

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
    frequency_hz: Vec<f64>,
    transfer_impedance_ohm_m: Vec<f64>,
    phase_deg: Option<Vec<f64>>,
    scale_db: f64,
}

impl ImpedanceTable {
    /// From frequencies (Hz, positive, increasing) and moduli (ohm m, positive), equally many and at
    /// least two.
    ///
    /// # Errors
    /// For unequal columns or fewer than two rows; for frequencies out of order and moduli that are not
    /// positive, with their row.
    pub fn new(frequency_hz: Vec<f64>, transfer_impedance_ohm_m: Vec<f64>) -> Result<Self> {
        check::frequencies(&frequency_hz)?;
        check::increasing(FREQUENCY, "Hz", &frequency_hz)?;
        check::same_length(MODULUS, transfer_impedance_ohm_m.len(), FREQUENCY, frequency_hz.len())?;
        check::all_positive(MODULUS, "ohm m", &transfer_impedance_ohm_m)?;
        let rows = (FEWEST_ROWS as f64, f64::INFINITY);
        check::within("rows of the table", "", frequency_hz.len() as f64, rows, "two or more")?;
        Ok(Self { frequency_hz, transfer_impedance_ohm_m, phase_deg: None, scale_db: 0.0 })
    }

    /// The same with measured phases, degrees, one for each row.
    ///
    /// # Errors
    /// Unless as many as there are rows, each from −90 to 90: a contact gives no power out.
    pub fn with_phases(mut self, phase_deg: Vec<f64>) -> Result<Self> {
        check::same_length(PHASE, phase_deg.len(), FREQUENCY, self.frequency_hz.len())?;
        check::all(PHASE, "deg", &phase_deg, "from -90 to 90", |phase| phase.abs() <= 90.0)?;
        self.phase_deg = Some(phase_deg);
        Ok(self)
    }

    /// The same, `scale_db` decibels greater in impedance: a knob for tolerances.
    ///
    /// # Errors
    /// Unless from −300 to 300 dB.
    pub fn scaled(mut self, scale_db: f64) -> Result<Self> {
        self.scale_db = check::within("scale_db", "dB", scale_db, (-300.0, 300.0), "from -300 to 300")?;
        Ok(self)
    }

    /// From text.
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with the line number for a missing column or field, a field
    /// that is no finite number, a frequency out of order, or an impedance that is not positive; as for
    /// [`new`](Self::new) for too few rows, and as for [`with_phases`](Self::with_phases).
    pub fn from_csv(text: &str) -> Result<Self> {
        let positive = |row: &[f64]| if row[1] > 0.0 { Ok(()) } else { Err("a positive transfer impedance") };
        let mut columns = COLUMNS.read(text, positive)?.into_iter();
        let mut next = || columns.next().unwrap_or_default();
        let table = Self::new(next(), next())?;
        let phase_deg = next();
        if phase_deg.is_empty() { Ok(table) } else { table.with_phases(phase_deg) }
    }

    /// As text, without the scale.
    #[must_use]
    pub fn to_csv(&self) -> String {
        let mut text = format!("{FREQUENCY},{MODULUS}");
        text.push_str(if self.phase_deg.is_some() { ",phase_deg\n" } else { "\n" });
        for (row, (frequency, modulus)) in self.frequency_hz.iter().zip(&self.transfer_impedance_ohm_m).enumerate() {
            // Writing to a String does not fail.
            let _ = write!(text, "{frequency},{modulus:e}");
            let _ = match &self.phase_deg {
                Some(phase_deg) => writeln!(text, ",{}", phase_deg[row]),
                None => writeln!(text),
            };
        }
        text
    }

    /// Frequencies, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.frequency_hz
    }

    /// Moduli at these, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self) -> &[f64] {
        &self.transfer_impedance_ohm_m
    }

    /// Phases at these, degrees, where they were measured.
    #[must_use]
    pub fn phase_deg(&self) -> Option<&[f64]> {
        self.phase_deg.as_deref()
    }

    /// What is added to the table, dB.
    #[must_use]
    pub fn scale_db(&self) -> f64 {
        self.scale_db
    }

    /// Transfer impedance times length, ohm m.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        let between = Between::new(&self.frequency_hz, frequency_hz);
        let ln = |row: usize| self.transfer_impedance_ohm_m[row].ln();
        let phase_deg = match &self.phase_deg {
            Some(phase_deg) => between.join(|row| phase_deg[row]),
            None => 90.0 * self.power_beside(between.low).clamp(0.0, 1.0),
        };
        // A scale in dB is one of amplitude: half of what it is of power.
        let ln_modulus = between.join(ln) - 0.5 * ln_power_of_loss_db(self.scale_db);
        let (sine, cosine) = phase_deg.to_radians().sin_cos();
        Complex64::new(cosine, sine) * ln_modulus.exp()
    }

    /// The power of f that the modulus follows above a row, or below the last one.
    fn power_beside(&self, row: usize) -> f64 {
        let row = row.min(self.frequency_hz.len() - FEWEST_ROWS);
        let ratio = |values: &[f64]| (values[row + 1] / values[row]).ln();
        ratio(&self.transfer_impedance_ohm_m) / ratio(&self.frequency_hz)
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "measured transfer impedance",
            "frequency",
            "Hz",
            frequency_hz,
            (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]),
            "the value at the end of the table is held",
        )
    }
}

impl Rebuild for ImpedanceTable {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.clone().scaled(knobs.value("scale_db", "dB", self.scale_db, "from -300 to 300"))
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
        Self {
            frequency_hz: table.frequency_hz,
            transfer_impedance_ohm_m: table.transfer_impedance_ohm_m,
            phase_deg: table.phase_deg,
            scale_db: table.scale_db,
        }
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
