//! A leak known by measurement, or computed elsewhere: its cross-section in a table.

use super::{Extent, Leak};
use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::table::{Between, Columns};
use crate::validity::Validity;

const FREQUENCY: &str = "frequency_hz";
const CROSS_SECTION: &str = "cross_section_m2";

/// A cross-section read from a table, joined in ln f, held beyond both ends (and said so).
///
/// Decibels that a test has read become one by [`from_shielding_db`](Self::from_shielding_db), with the test stated.
///
/// ```
/// use stillroom::leak::{Leak, TabulatedLeak};
/// let hatch = TabulatedLeak::new(vec![1e6, 1e9], vec![1e-12, 1e-9])?;
/// assert!((hatch.ln_cross_section(1e9).exp() / 1e-9 - 1.0).abs() < 1e-12);
/// assert!(!hatch.validity(10e9).holds());
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct TabulatedLeak {
    frequency_hz: Vec<f64>,
    values_m2: Vec<f64>,
    scale_db: f64,
}

impl TabulatedLeak {
    /// From frequencies (Hz, increasing) and cross-sections (m², positive), equally many.
    ///
    /// # Errors
    /// For empty or unequal columns, frequencies that do not increase, values that are not positive;
    /// each with its row.
    pub fn new(frequency_hz: Vec<f64>, values_m2: Vec<f64>) -> Result<Self> {
        check::not_empty("frequency_hz", &frequency_hz)?;
        check::frequencies(&frequency_hz)?;
        check::increasing("frequency_hz", "Hz", &frequency_hz)?;
        check::same_length("values_m2", values_m2.len(), "frequency_hz", frequency_hz.len())?;
        check::all_positive("values_m2", "m2", &values_m2)?;
        Ok(Self { frequency_hz, values_m2, scale_db: 0.0 })
    }

    /// From text with a heading, in the columns `frequency_hz` and `cross_section_m2`, in any order and among others,
    /// separated by commas, semicolons or tabs as in the heading, with decimal points; without a heading the first two
    /// columns. A file by way of [`std::fs::read_to_string`].
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with line and column for a missing column or field, a surplus field, a field
    /// that is no number, a cross-section that is not positive, or a frequency out of order;
    /// [`Error::Empty`](crate::Error::Empty) for a text without rows.
    pub fn from_csv(text: &str) -> Result<Self> {
        let columns = Columns { what: "table of cross-sections", required: &[FREQUENCY, CROSS_SECTION], optional: &[] };
        let positive = |row: &[f64]| if row[1] > 0.0 { Ok(()) } else { Err("a positive cross-section") };
        let mut columns = columns.read(text, positive)?.into_iter();
        Self::new(columns.next().unwrap_or_default(), columns.next().unwrap_or_default())
    }

    /// As text: the table itself, without the scale.
    #[must_use]
    pub fn to_csv(&self) -> String {
        let rows = self.frequency_hz.iter().zip(&self.values_m2);
        let rows = rows.map(|(frequency, value)| format!("{frequency},{value:e}\n"));
        std::iter::once(format!("{FREQUENCY},{CROSS_SECTION}\n")).chain(rows).collect()
    }

    /// Frequencies of the table, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.frequency_hz
    }

    /// Cross-sections of the table, m².
    #[must_use]
    pub fn values_m2(&self) -> &[f64] {
        &self.values_m2
    }

    /// What is added to the table, dB: a knob for tolerances.
    #[must_use]
    pub fn scale_db(&self) -> f64 {
        self.scale_db
    }

    /// The same leak, `scale_db` decibels greater in cross-section.
    ///
    /// # Errors
    /// Unless finite.
    pub fn scaled(mut self, scale_db: f64) -> Result<Self> {
        self.scale_db = check::finite("scale_db", "dB", scale_db)?;
        Ok(self)
    }
}

impl Rebuild for TabulatedLeak {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.clone().scaled(knobs.value("scale_db", "dB", self.scale_db, "finite"))
    }
}

impl Leak for TabulatedLeak {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let ln_table = Between::new(&self.frequency_hz, frequency_hz).join(|row| self.values_m2[row].ln());
        ln_table - crate::decibel::ln_power_of_loss_db(self.scale_db)
    }

    fn extent(&self) -> Extent {
        Extent::Point
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "tabulated cross-section",
            "frequency",
            "Hz",
            frequency_hz,
            (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]),
            "the value at the end of the table is held",
        )
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    frequency_hz: Vec<f64>,
    values_m2: Vec<f64>,
    #[serde(default)]
    scale_db: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for TabulatedLeak {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.frequency_hz, record.values_m2)?.scaled(record.scale_db)
    }
}

#[cfg(feature = "serde")]
impl From<TabulatedLeak> for Record {
    fn from(leak: TabulatedLeak) -> Self {
        Self { frequency_hz: leak.frequency_hz, values_m2: leak.values_m2, scale_db: leak.scale_db }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Error;

    #[test]
    fn text_reads_back_as_the_same() {
        let leak = TabulatedLeak::new(vec![0.1, 1e6, 1.0 / 3.0e-9], vec![1e-30, 1.0 / 3.0, 5e-324]).unwrap();
        assert_eq!(TabulatedLeak::from_csv(&leak.to_csv()).unwrap(), leak);
        assert!(matches!(TabulatedLeak::from_csv("1e6,0\n"), Err(Error::Parse { line: 1, .. })));
        assert!(matches!(TabulatedLeak::from_csv(""), Err(Error::Empty { .. })));
    }
}
