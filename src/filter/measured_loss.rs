//! Measured insertion loss as a table, from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `insertion_loss_db`, in any order and among others;
//! without a heading the first two columns are taken as these. Lines that start with `#` are comments. Fields are
//! separated by commas, semicolons or tabs. Numbers are written so that they read back as the same.

use std::fmt::Write as _;

use crate::error::{Result, check};
use crate::filter::MeasuringCircuit;
use crate::frequency_table::{Between, Columns};
use crate::parameter::Element;
use crate::validity::Validity;

const WHAT: &str = "table of insertion loss";
const FREQUENCY: &str = "frequency_hz";
const LOSS: &str = "insertion_loss_db";

/// Insertion loss against frequency, joined in ln f and held beyond both ends, with the circuit that it was measured
/// in: 50 ohm on both sides where not stated.
///
/// In another circuit a table of losses says little, and it is asked there only with a mark: see
/// [`holds_in`](Self::holds_in).
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
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "columns that do not fit")]
pub struct MeasuredLoss {
    /// Frequencies, increasing.
    #[kept]
    frequency_hz: Vec<f64>,
    /// Losses at these.
    #[kept]
    losses_db: Vec<f64>,
    /// What it was measured between; 50 ohm on both sides where not given. The table says little elsewhere.
    #[part(free, default = MeasuringCircuit::fifty_ohm())]
    circuit: MeasuringCircuit,
    /// What is added to the table: a tolerance, or a margin on a data sheet.
    #[parameter(finite, default = 0.0)]
    offset_db: f64,
}

impl MeasuredLoss {
    fn settle(self) -> Result<Self> {
        check::not_empty(FREQUENCY, &self.frequency_hz)?;
        check::frequencies(&self.frequency_hz)?;
        check::increasing(FREQUENCY, "Hz", &self.frequency_hz)?;
        check::same_length(LOSS, self.losses_db.len(), FREQUENCY, self.frequency_hz.len())?;
        check::all_finite(LOSS, "dB", &self.losses_db)?;
        Ok(self)
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

    /// As text: the table itself, without the circuit and the offset.
    #[must_use]
    pub fn to_csv(&self) -> String {
        let mut text = format!("{FREQUENCY},{LOSS}\n");
        for (frequency, loss) in self.frequency_hz.iter().zip(&self.losses_db) {
            // Writing to a String does not fail.
            let _ = writeln!(text, "{frequency},{loss}");
        }
        text
    }

    /// Loss at a frequency in Hz, dB; the offset included.
    #[must_use]
    pub fn insertion_loss_db(&self, frequency_hz: f64) -> f64 {
        Between::new(&self.frequency_hz, frequency_hz).join(|row| self.losses_db[row]) + self.offset_db
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

    /// Whether it says anything in another circuit, at a frequency in Hz: only where both impedances are within a tenth
    /// of those that it was measured between (a loss then moves by a dB or so, resonances apart).
    pub fn holds_in(&self, circuit: &MeasuringCircuit, frequency_hz: f64) -> Validity {
        let (own, other) = (self.circuit.at(frequency_hz), circuit.at(frequency_hz));
        let alike = |p: num_complex::Complex64, q: num_complex::Complex64| (p - q).norm() <= 0.1 * p.norm();
        self.validity(frequency_hz).and(Validity::given(
            "measured insertion loss",
            "between the impedances that it was measured between",
            alike(own.source_ohm(), other.source_ohm()) && alike(own.load_ohm(), other.load_ohm()),
            "the loss between others can be tens of dB less",
        ))
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
