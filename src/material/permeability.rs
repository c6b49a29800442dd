//! Relative permeability against frequency: constant, relaxing, or read from a table.

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::parameter::Knobs;
use crate::validity::Validity;

/// Relative permeability; its imaginary part is zero or negative under exp(+jωt).
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Permeability {
    /// The same at every frequency, without loss.
    Constant(f64),
    /// One relaxation: μ(f) = 1 + (μᵢ − 1)/(1 + j f/f_r).
    Relaxing {
        /// Value well below the relaxation, greater than 1.
        initial: f64,
        /// Frequency at which the excess over 1 has fallen to 1/√2 in magnitude, Hz.
        relaxation_hz: f64,
    },
    /// Values at given frequencies, joined in ln f, held beyond both ends.
    Tabulated(PermeabilityTable),
}

/// Permeability read from a table.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "TableRecord", into = "TableRecord")
)]
pub struct PermeabilityTable {
    frequency_hz: Vec<f64>,
    real: Vec<f64>,
    loss: Vec<f64>,
}

impl PermeabilityTable {
    /// A table from frequencies (Hz, increasing), real parts μ' (positive) and loss parts μ'' (zero
    /// or positive; the permeability is μ' − jμ''). For a table without loss give an empty `loss`.
    ///
    /// # Errors
    /// For an empty table, columns of unequal length, frequencies that do not increase, and values
    /// outside their domains, each with its row.
    pub fn new(frequency_hz: Vec<f64>, real: Vec<f64>, loss: Vec<f64>) -> Result<Self> {
        check::not_empty("frequency_hz", &frequency_hz)?;
        check::all_positive("frequency_hz", "Hz", &frequency_hz)?;
        check::increasing("frequency_hz", "Hz", &frequency_hz)?;
        check::same_length("real", real.len(), "frequency_hz", frequency_hz.len())?;
        check::all_positive("real", "", &real)?;
        let loss = if loss.is_empty() { vec![0.0; real.len()] } else { loss };
        check::same_length("loss", loss.len(), "frequency_hz", frequency_hz.len())?;
        check::all("loss", "", &loss, "zero or positive, and finite", |v| v.is_finite() && v >= 0.0)?;
        Ok(Self { frequency_hz, real, loss })
    }

    /// Frequencies of the table, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.frequency_hz
    }

    /// Real parts.
    #[must_use]
    pub fn real(&self) -> &[f64] {
        &self.real
    }

    /// Loss parts μ''.
    #[must_use]
    pub fn loss(&self) -> &[f64] {
        &self.loss
    }

    pub(super) fn at(&self, frequency_hz: f64) -> Complex64 {
        let last = self.frequency_hz.len() - 1;
        let above = self.frequency_hz.partition_point(|&f| f < frequency_hz);
        if above == 0 {
            return Complex64::new(self.real[0], -self.loss[0]);
        }
        if above > last {
            return Complex64::new(self.real[last], -self.loss[last]);
        }
        let below = above - 1;
        let share =
            (frequency_hz / self.frequency_hz[below]).ln() / (self.frequency_hz[above] / self.frequency_hz[below]).ln();
        let join = |column: &[f64]| column[below] + share * (column[above] - column[below]);
        Complex64::new(join(&self.real), -join(&self.loss))
    }
}

impl Permeability {
    pub(super) fn checked(&self) -> Result<()> {
        match self {
            Self::Constant(value) => check::positive("relative_permeability", "", *value).map(drop),
            Self::Relaxing { initial, relaxation_hz } => {
                check::at_least_one("relative_permeability.initial", *initial)?;
                check::positive("relative_permeability.relaxation_hz", "Hz", *relaxation_hz).map(drop)
            }
            Self::Tabulated(_) => Ok(()),
        }
    }

    /// Complex relative permeability at a frequency.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        match self {
            Self::Constant(value) => Complex64::new(*value, 0.0),
            Self::Relaxing { initial, relaxation_hz } => {
                1.0 + (initial - 1.0) / Complex64::new(1.0, frequency_hz / relaxation_hz)
            }
            Self::Tabulated(table) => table.at(frequency_hz),
        }
    }

    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::Constant(_) | Self::Relaxing { .. } => Validity::Holds,
            Self::Tabulated(table) => Validity::within(
                "permeability table",
                "frequency",
                "Hz",
                frequency_hz,
                (table.frequency_hz[0], table.frequency_hz[table.frequency_hz.len() - 1]),
                "the permeability at the end of the table is held",
            ),
        }
    }

    pub(super) fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(match self {
            Self::Constant(value) => Self::Constant(knobs.value("relative_permeability", "", *value, "positive")),
            Self::Relaxing { initial, relaxation_hz } => Self::Relaxing {
                initial: knobs.value("initial_permeability", "", *initial, "at least 1"),
                relaxation_hz: knobs.value("relaxation_hz", "Hz", *relaxation_hz, "positive"),
            },
            // A table is one thing: its numbers are not knobs.
            table @ Self::Tabulated(_) => table.clone(),
        })
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct TableRecord {
    frequency_hz: Vec<f64>,
    real: Vec<f64>,
    #[serde(default)]
    loss: Vec<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<TableRecord> for PermeabilityTable {
    type Error = crate::Error;
    fn try_from(record: TableRecord) -> Result<Self> {
        Self::new(record.frequency_hz, record.real, record.loss)
    }
}

#[cfg(feature = "serde")]
impl From<PermeabilityTable> for TableRecord {
    fn from(table: PermeabilityTable) -> Self {
        Self { frequency_hz: table.frequency_hz, real: table.real, loss: table.loss }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_joins_in_log_frequency_and_holds_its_ends() {
        let table = PermeabilityTable::new(vec![1e3, 1e5], vec![1000.0, 200.0], vec![]).unwrap();
        let mu = Permeability::Tabulated(table);
        assert!((mu.at(1e4).re - 600.0).abs() < 1e-9);
        assert_eq!(mu.at(1.0).re, 1000.0);
        assert_eq!(mu.at(1e9).re, 200.0);
        assert!(mu.validity(1e4).holds() && !mu.validity(1.0).holds());
    }

    #[test]
    fn relaxation_is_lossy_and_ends_at_one() {
        let mu = Permeability::Relaxing { initial: 1000.0, relaxation_hz: 1e6 };
        assert!((mu.at(1e6) - Complex64::new(500.5, -499.5)).norm() < 1e-9);
        assert!((mu.at(1e15) - 1.0).norm() < 1e-3);
    }

    #[test]
    fn bad_tables_name_their_row() {
        let error = PermeabilityTable::new(vec![1e3, 1e2], vec![1.0, 1.0], vec![]).unwrap_err();
        assert!(error.to_string().contains("frequency_hz[1]"));
        let error = PermeabilityTable::new(vec![1e3, 1e4], vec![1.0, -1.0], vec![]).unwrap_err();
        assert!(error.to_string().contains("real[1]"));
        assert!(PermeabilityTable::new(vec![], vec![], vec![]).is_err());
        assert!(PermeabilityTable::new(vec![1e3], vec![1.0], vec![1.0, 2.0]).is_err());
    }
}
