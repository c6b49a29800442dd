//! A leak known by measurement, or computed elsewhere: its cross-section in a table.

use super::{Extent, Leak};
use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::table::Between;
use crate::validity::Validity;

/// A cross-section read from a table, joined in ln f, held beyond both ends (and said so).
///
/// ```
/// use stillroom::leak::{Leak, TabulatedLeak};
/// let hatch = TabulatedLeak::new(vec![1e6, 1e9], vec![1e-12, 1e-9])?;
/// assert!((hatch.ln_cross_section(1e9).exp() / 1e-9 - 1.0).abs() < 1e-12);
/// assert!(!hatch.validity(10e9).holds());
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
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
