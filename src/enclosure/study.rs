//! The answer: shielding of every leak and of the whole against frequency.

use ndarray::{Array1, Array2, ArrayView1};

use super::{Enclosure, Exposure, Reading, Requirement, WALL};
use crate::decibel::{LnSum, loss_db_of_ln_power};
use crate::error::{Error, Result, check};
use crate::leak::Leak;
use crate::validity::Limit;

/// What each leak and the whole let through at each frequency under one exposure.
///
/// Rows are leaks (the wall first), columns are frequencies.
#[derive(Debug, Clone, PartialEq)]
pub struct Study {
    frequency_hz: Array1<f64>,
    names: Vec<String>,
    shielding_db: Array2<f64>,
    worst_case_db: Array2<f64>,
    total_db: Array1<f64>,
    total_worst_case_db: Array1<f64>,
    valid: Array2<bool>,
    limits: Vec<Vec<(f64, Limit)>>,
    cautions: Vec<&'static str>,
}

/// A run of neighbouring frequencies in which one leak limits the room.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Band {
    /// Lowest frequency of the run, Hz.
    pub from_hz: f64,
    /// Highest frequency of the run, Hz.
    pub to_hz: f64,
    /// The leak that limits.
    pub leak: String,
    /// Least shielding of the whole within the run, dB.
    pub least_total_db: f64,
}

impl Study {
    pub(super) fn new(enclosure: &Enclosure, frequency_hz: &[f64], exposure: &dyn Exposure) -> Result<Self> {
        check::frequencies(frequency_hz)?;
        let leaks: Vec<(&str, &dyn Leak, usize)> = std::iter::once((WALL, enclosure.wall() as &dyn Leak, 1))
            .chain(enclosure.openings().iter().map(|o| (o.name(), &**o.leak(), o.count())))
            .collect();
        let shape = (leaks.len(), frequency_hz.len());
        let mut shielding_db = Array2::zeros(shape);
        let mut worst_case_db = Array2::zeros(shape);
        let mut valid = Array2::from_elem(shape, true);
        let mut limits = Vec::with_capacity(leaks.len());
        let mut powers = vec![LnSum::default(); frequency_hz.len()];
        let mut amplitudes = powers.clone();
        for (row, &(_, leak, count)) in leaks.iter().enumerate() {
            let readings = exposure.readings(leak, frequency_hz);
            let mut passed = Vec::new();
            for (column, reading) in readings.into_iter().map(|reading: Reading| reading.times(count)).enumerate() {
                shielding_db[(row, column)] = reading.shielding_db();
                worst_case_db[(row, column)] = reading.worst_case_db();
                powers[column] += reading.ln_power;
                amplitudes[column] += 0.5 * reading.ln_worst_power;
                let validity = exposure.validity(leak, frequency_hz[column]);
                valid[(row, column)] = validity.holds();
                passed.extend(validity.limits().iter().map(|limit| (frequency_hz[column], limit.clone())));
            }
            limits.push(passed);
        }
        let total = |sums: Vec<LnSum>, factor: f64| -> Array1<f64> {
            sums.into_iter().map(|sum| loss_db_of_ln_power(factor * sum.ln())).collect()
        };
        Ok(Self {
            frequency_hz: Array1::from(frequency_hz.to_vec()),
            names: leaks.iter().map(|leak| leak.0.to_owned()).collect(),
            shielding_db,
            worst_case_db,
            total_db: total(powers, 1.0),
            total_worst_case_db: total(amplitudes, 2.0),
            valid,
            limits,
            cautions: enclosure.cautions(),
        })
    }

    /// Frequencies, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> ArrayView1<'_, f64> {
        self.frequency_hz.view()
    }

    /// Names of the leaks, the wall first: the rows of the tables.
    #[must_use]
    pub fn leaks(&self) -> &[String] {
        &self.names
    }

    /// Shielding effectiveness of each leak alone, dB; leaks by frequencies.
    #[must_use]
    pub fn shielding_db(&self) -> &Array2<f64> {
        &self.shielding_db
    }

    /// The same with the elements of each leak adding in amplitude, dB.
    #[must_use]
    pub fn worst_case_db(&self) -> &Array2<f64> {
        &self.worst_case_db
    }

    /// Shielding effectiveness of the whole, powers added, dB: the estimate.
    #[must_use]
    pub fn total_db(&self) -> ArrayView1<'_, f64> {
        self.total_db.view()
    }

    /// Shielding effectiveness of the whole, amplitudes added, dB: no choice of phases is worse.
    #[must_use]
    pub fn total_worst_case_db(&self) -> ArrayView1<'_, f64> {
        self.total_worst_case_db.view()
    }

    /// Whether each number of the table is inside the domain of its model.
    #[must_use]
    pub fn valid(&self) -> &Array2<bool> {
        &self.valid
    }

    /// Limits passed by the leak of a row, with the frequency (Hz) at which each was.
    ///
    /// # Errors
    /// [`Error::UnknownName`] for a leak that is not in the study.
    pub fn limits(&self, leak: &str) -> Result<&[(f64, Limit)]> {
        self.row(leak).map(|row| self.limits[row].as_slice())
    }

    /// What must be said about safety with these numbers.
    #[must_use]
    pub fn cautions(&self) -> &[&'static str] {
        &self.cautions
    }

    /// Row of the leak that lets most through, at each frequency.
    #[must_use]
    pub fn limiting_rows(&self) -> Vec<usize> {
        self.shielding_db
            .columns()
            .into_iter()
            .map(|column| {
                let least = column.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1));
                least.map_or(0, |(row, _)| row)
            })
            .collect()
    }

    /// Name of the leak that lets most through, at each frequency.
    #[must_use]
    pub fn limiting(&self) -> Vec<&str> {
        self.limiting_rows().into_iter().map(|row| self.names[row].as_str()).collect()
    }

    /// The same as runs of neighbouring frequencies, in the order of the study.
    #[must_use]
    pub fn limiting_bands(&self) -> Vec<Band> {
        let mut bands: Vec<Band> = Vec::new();
        for ((&frequency_hz, leak), &total_db) in self.frequency_hz.iter().zip(self.limiting()).zip(&self.total_db) {
            match bands.last_mut() {
                Some(band) if band.leak == leak => {
                    band.to_hz = frequency_hz;
                    band.least_total_db = band.least_total_db.min(total_db);
                }
                _ => bands.push(Band {
                    from_hz: frequency_hz,
                    to_hz: frequency_hz,
                    leak: leak.to_owned(),
                    least_total_db: total_db,
                }),
            }
        }
        bands
    }

    /// Estimate of the whole minus what is required, dB: negative where the room falls short,
    /// infinite where nothing is required.
    #[must_use]
    pub fn margin_db(&self, requirement: &Requirement) -> Array1<f64> {
        self.over(&self.total_db, requirement)
    }

    /// Worst case of the whole minus what is required, dB.
    #[must_use]
    pub fn worst_case_margin_db(&self, requirement: &Requirement) -> Array1<f64> {
        self.over(&self.total_worst_case_db, requirement)
    }

    /// What each leak would have to reach alone for the whole to meet the requirement, all others
    /// being as they are, dB; leaks by frequencies. Infinite where the others alone let too much
    /// through; −∞ where nothing is required.
    #[must_use]
    pub fn needed_db(&self, requirement: &Requirement) -> Array2<f64> {
        let mut needed = Array2::zeros(self.shielding_db.raw_dim());
        for (column, &frequency_hz) in self.frequency_hz.iter().enumerate() {
            let allowed_db = requirement.required_db(frequency_hz);
            for row in 0..self.names.len() {
                // Powers of the others relative to the allowance.
                let others: f64 = (0..self.names.len())
                    .filter(|&other| other != row)
                    .map(|other| 10f64.powf((allowed_db - self.shielding_db[(other, column)]) / 10.0))
                    .sum();
                needed[(row, column)] = if allowed_db == f64::NEG_INFINITY {
                    f64::NEG_INFINITY
                } else if others >= 1.0 {
                    f64::INFINITY
                } else {
                    allowed_db - 10.0 * (1.0 - others).log10()
                };
            }
        }
        needed
    }

    fn over(&self, level_db: &Array1<f64>, requirement: &Requirement) -> Array1<f64> {
        level_db.iter().zip(&self.frequency_hz).map(|(level, &f)| level - requirement.required_db(f)).collect()
    }

    fn row(&self, leak: &str) -> Result<usize> {
        self.names.iter().position(|name| name == leak).ok_or_else(|| Error::UnknownName {
            kind: "leak",
            name: leak.to_owned(),
            known: self.names.clone(),
        })
    }
}
