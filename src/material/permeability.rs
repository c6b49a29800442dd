//! Relative permeability against frequency: constant, relaxing, or read from a table.

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs};
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

/// Permeability read from a table, with how far sources differ where that is known.
///
/// It is the *local* one, μ in B = μH at a point of the metal, and takes part in the skin depth. What is measured on a
/// stack of laminations is lowered by their eddy currents already and must not be used here: it would count them twice.
///
/// ```
/// use stillroom::material::PermeabilityTable;
/// use num_complex::Complex64;
/// let usual = PermeabilityTable::new(vec![10.0, 1e5], vec![280.0, 90.0], vec![])?;
/// let table = usual.with_bounds(vec![200.0.into(), 64.0.into()], vec![280.0.into(), 280.0.into()])?;
/// let least = table.at_tolerance(-1.0)?;
/// assert_eq!(least.at(1e5), Complex64::from(64.0));
/// # Ok::<(), stillroom::Error>(())
/// ```
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
    bounds: Option<Bounds>,
    tolerance: f64,
    /// The rows at that place of the tolerance.
    taken: Vec<Complex64>,
}

/// The least and the greatest permeability at each row.
#[derive(Debug, Clone, PartialEq)]
struct Bounds {
    least: Vec<Complex64>,
    greatest: Vec<Complex64>,
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
        let taken = real.iter().zip(&loss).map(|(&real, &loss)| Complex64::new(real, -loss)).collect();
        Ok(Self { frequency_hz, real, loss, bounds: None, tolerance: 0.0, taken })
    }

    /// The same table with the least and the greatest permeability, μ' − jμ'', that sources give at each of its rows.
    ///
    /// # Errors
    /// For columns of another length, real parts that are not positive, and negative losses, each with its row.
    pub fn with_bounds(self, least: Vec<Complex64>, greatest: Vec<Complex64>) -> Result<Self> {
        for (name, column) in [("least", &least), ("greatest", &greatest)] {
            check::same_length(name, column.len(), "frequency_hz", self.frequency_hz.len())?;
            let (real, loss): (Vec<f64>, Vec<f64>) = column.iter().map(|value| (value.re, -value.im)).unzip();
            check::all_positive(&format!("{name}.real"), "", &real)?;
            let passive = |v: f64| v.is_finite() && v >= 0.0;
            check::all(&format!("{name}.loss"), "", &loss, "zero or positive, and finite", passive)?;
        }
        Self { bounds: Some(Bounds { least, greatest }), ..self }.at_tolerance(0.0)
    }

    /// The same table at another place between its bounds: −1 the least permeability, 0 the table's own, 1 the
    /// greatest; between them their logarithms are joined.
    ///
    /// # Errors
    /// Outside −1 to 1; for anything but 0 where the table has no bounds.
    pub fn at_tolerance(self, tolerance: f64) -> Result<Self> {
        let own = self.real.iter().zip(&self.loss).map(|(&real, &loss)| Complex64::new(real, -loss));
        let taken = match &self.bounds {
            None => {
                check::within(TOLERANCE, "", tolerance, (0.0, 0.0), "0 for a table without bounds")?;
                own.collect()
            }
            Some(bounds) => {
                check::within(TOLERANCE, "", tolerance, (-1.0, 1.0), "from -1 to 1")?;
                let bound = if tolerance < 0.0 { &bounds.least } else { &bounds.greatest };
                let share = tolerance.abs();
                own.zip(bound).map(|(own, &bound)| joined(own, bound, share)).collect()
            }
        };
        Ok(Self { tolerance, taken, ..self })
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

    /// The least permeability at each row, where bounds were given.
    #[must_use]
    pub fn least(&self) -> Option<&[Complex64]> {
        self.bounds.as_ref().map(|bounds| bounds.least.as_slice())
    }

    /// The greatest permeability at each row, where bounds were given.
    #[must_use]
    pub fn greatest(&self) -> Option<&[Complex64]> {
        self.bounds.as_ref().map(|bounds| bounds.greatest.as_slice())
    }

    /// Place between the bounds, from −1 to 1.
    #[must_use]
    pub fn tolerance(&self) -> f64 {
        self.tolerance
    }

    /// The rows at that place.
    pub(super) fn rows(&self) -> &[Complex64] {
        &self.taken
    }

    /// μ' − jμ'' at a frequency (Hz), joined in ln f and held beyond both ends.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        let last = self.frequency_hz.len() - 1;
        let above = self.frequency_hz.partition_point(|&f| f < frequency_hz);
        if above == 0 {
            return self.taken[0];
        }
        if above > last {
            return self.taken[last];
        }
        let below = above - 1;
        let share =
            (frequency_hz / self.frequency_hz[below]).ln() / (self.frequency_hz[above] / self.frequency_hz[below]).ln();
        self.taken[below] + share * (self.taken[above] - self.taken[below])
    }

    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        // Its rows are one thing and no knobs; where between the bounds it lies is one.
        match self.bounds {
            None => Ok(self.clone()),
            Some(_) => self.clone().at_tolerance(knobs.value(TOLERANCE, "", self.tolerance, Domain::within(-1.0, 1.0))),
        }
    }
}

const TOLERANCE: &str = "permeability_tolerance";

/// From one value to another along the mean of their logarithms; exact at both ends.
fn joined(from: Complex64, to: Complex64, share: f64) -> Complex64 {
    if share == 0.0 || from == to {
        from
    } else if share == 1.0 {
        to
    } else {
        let between = (from.ln() * (1.0 - share) + to.ln() * share).exp();
        // A loss of zero stays zero, and none turns into gain by rounding.
        Complex64::new(between.re, between.im.min(0.0))
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

    /// Whether the permeability is known at a frequency (Hz).
    pub fn validity(&self, frequency_hz: f64) -> Validity {
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
            Self::Constant(value) => Self::Constant(knobs.value("relative_permeability", "", *value, Domain::POSITIVE)),
            Self::Relaxing { initial, relaxation_hz } => Self::Relaxing {
                initial: knobs.value("initial_permeability", "", *initial, Domain::AT_LEAST_ONE),
                relaxation_hz: knobs.value("relaxation_hz", "Hz", *relaxation_hz, Domain::POSITIVE),
            },
            Self::Tabulated(table) => Self::Tabulated(table.rebuild(knobs)?),
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
    #[serde(default)]
    least: Option<Vec<Complex64>>,
    #[serde(default)]
    greatest: Option<Vec<Complex64>>,
    #[serde(default)]
    tolerance: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<TableRecord> for PermeabilityTable {
    type Error = crate::Error;
    fn try_from(record: TableRecord) -> Result<Self> {
        let table = Self::new(record.frequency_hz, record.real, record.loss)?;
        let table = match (record.least, record.greatest) {
            (None, None) => table,
            (least, greatest) => table.with_bounds(least.unwrap_or_default(), greatest.unwrap_or_default())?,
        };
        table.at_tolerance(record.tolerance)
    }
}

#[cfg(feature = "serde")]
impl From<PermeabilityTable> for TableRecord {
    fn from(table: PermeabilityTable) -> Self {
        let (least, greatest) = table.bounds.map(|bounds| (bounds.least, bounds.greatest)).unzip();
        let PermeabilityTable { frequency_hz, real, loss, tolerance, .. } = table;
        Self { frequency_hz, real, loss, least, greatest, tolerance }
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
    fn a_tolerance_moves_between_the_bounds() {
        let own = PermeabilityTable::new(vec![1e3, 1e5], vec![100.0, 100.0], vec![0.0, 50.0]).unwrap();
        assert!(own.clone().at_tolerance(0.5).is_err() && own.clone().at_tolerance(0.0).is_ok());
        let (least, greatest) = (vec![25.0.into(), Complex64::new(25.0, -9.0)], vec![400.0.into(); 2]);
        let table = own.with_bounds(least.clone(), greatest.clone()).unwrap();
        assert_eq!(table.at(1e5), Complex64::new(100.0, -50.0));
        assert!((table.clone().at_tolerance(0.5).unwrap().at(1e3) - 200.0).norm() < 1e-12);
        assert_eq!(table.clone().at_tolerance(-1.0).unwrap().rows(), least);
        assert_eq!(table.clone().at_tolerance(1.0).unwrap().rows(), greatest);
        assert!(table.clone().at_tolerance(1.01).is_err() && table.clone().at_tolerance(f64::NAN).is_err());
        let gain = vec![Complex64::new(400.0, 1.0); 2];
        assert!(table.clone().with_bounds(least.clone(), gain).unwrap_err().to_string().contains("greatest.loss[0]"));
        assert!(table.with_bounds(least, vec![400.0.into()]).is_err());
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
