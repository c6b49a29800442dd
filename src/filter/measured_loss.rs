//! Measured insertion loss as a table, from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `insertion_loss_db`, in any order and among others;
//! without a heading the first two columns are taken as these. Lines that start with `#` are comments. Fields are
//! separated by commas, semicolons or tabs. Numbers are written so that they read back as the same.

use std::fmt::Write as _;

use crate::error::{Result, check};
use crate::table::{Between, Columns};
use crate::validity::Validity;

const WHAT: &str = "table of insertion loss";
const FREQUENCY: &str = "frequency_hz";
const LOSS: &str = "insertion_loss_db";

/// Insertion loss against frequency, joined in ln f and held beyond both ends.
///
/// ```
/// use stillroom::filter::MeasuredLoss;
/// let table = MeasuredLoss::from_csv("frequency_hz,insertion_loss_db\n1e4,20\n1e6,60\n")?;
/// assert!((table.insertion_loss_db(1e5) - 40.0).abs() < 1e-12);
/// assert_eq!(MeasuredLoss::from_csv(&table.to_csv())?, table);
/// let error = MeasuredLoss::from_csv("1e4,20\n1e6,sixty\n").unwrap_err();
/// assert!(error.to_string().contains("line 2"));
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredLoss {
    frequency_hz: Vec<f64>,
    insertion_loss_db: Vec<f64>,
}

impl MeasuredLoss {
    /// From frequencies (Hz, positive, increasing) and losses (dB; negative is gain), equally many.
    ///
    /// # Errors
    /// For empty or unequal columns, frequencies out of order, or values that are not finite, each with its row.
    pub fn new(frequency_hz: Vec<f64>, insertion_loss_db: Vec<f64>) -> Result<Self> {
        check::not_empty(FREQUENCY, &frequency_hz)?;
        check::frequencies(&frequency_hz)?;
        check::increasing(FREQUENCY, "Hz", &frequency_hz)?;
        check::same_length(LOSS, insertion_loss_db.len(), FREQUENCY, frequency_hz.len())?;
        check::all_finite(LOSS, "dB", &insertion_loss_db)?;
        Ok(Self { frequency_hz, insertion_loss_db })
    }

    /// From text.
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with the line number for a missing column or field, a field that is no finite number, or a
    /// frequency out of order; [`Error::Empty`](crate::Error::Empty) for a text without rows.
    pub fn from_csv(text: &str) -> Result<Self> {
        let columns = Columns { what: WHAT, required: &[FREQUENCY, LOSS], optional: &[] };
        let mut columns = columns.read(text, |_| Ok(()))?.into_iter();
        let (frequency_hz, insertion_loss_db) =
            (columns.next().unwrap_or_default(), columns.next().unwrap_or_default());
        Self::new(frequency_hz, insertion_loss_db)
    }

    /// As text.
    #[must_use]
    pub fn to_csv(&self) -> String {
        let mut text = format!("{FREQUENCY},{LOSS}\n");
        for (frequency, loss) in self.frequency_hz.iter().zip(&self.insertion_loss_db) {
            // Writing to a String does not fail.
            let _ = writeln!(text, "{frequency},{loss}");
        }
        text
    }

    /// Frequencies, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.frequency_hz
    }

    /// Losses at these, dB.
    #[must_use]
    pub fn losses_db(&self) -> &[f64] {
        &self.insertion_loss_db
    }

    /// Loss at a frequency in Hz, dB.
    #[must_use]
    pub fn insertion_loss_db(&self, frequency_hz: f64) -> f64 {
        Between::new(&self.frequency_hz, frequency_hz).join(|row| self.insertion_loss_db[row])
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "measured insertion loss",
            "frequency",
            "Hz",
            frequency_hz,
            (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]),
            "the value at the end of the table is held",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Error;

    #[test]
    fn columns_are_found_by_name_and_faults_told_by_line() {
        let table =
            MeasuredLoss::from_csv("# bench\nNo;Insertion_Loss_dB;frequency_Hz\n1;-3.5;1e3\n2;40;2e3\n").unwrap();
        assert_eq!(table.losses_db(), [-3.5, 40.0]);
        assert_eq!(table.insertion_loss_db(1.0), -3.5);
        assert_eq!(table.insertion_loss_db(1e9), 40.0);
        assert!(!table.validity(1e9).holds());
        for (text, line) in [
            ("f,db\n1,2\n", 1),
            ("1e3,1\n1e3,2\n", 2),
            ("1e3\n", 1),
            ("frequency_hz,insertion_loss_db\n\n1e3,nan\n", 3),
            ("-1,2\n", 1),
        ] {
            match MeasuredLoss::from_csv(text).unwrap_err() {
                Error::Parse { line: found, .. } => assert_eq!(found, line, "{text}"),
                other => panic!("{other}"),
            }
        }
        assert!(matches!(MeasuredLoss::from_csv("# nothing\n"), Err(Error::Empty { .. })));
    }
}
