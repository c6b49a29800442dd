//! The answer: shielding of every leak and of the whole against frequency, and where it can be relied on.
//!
//! A total is valid where what contributes to it is. A leak outside the domain of its model may be wrong by more than a
//! few dB, so it is left out of that judgement only where it cannot matter: where all such leaks together read at least
//! [`NEGLIGIBLE_DB`] above the total, as an estimate and in the worst case. A leak that answers no number, or that is
//! left out of the test (nothing passes, outside its domain), could pass anything: the total is then not valid.

use std::borrow::Cow;
use std::cell::RefCell;

use ndarray::{Array1, Array2, ArrayView1};

use super::passed_limits::{LimitRun, Runs};
use super::{Enclosure, Exposure, Reading, Requirement, Site};
use crate::call_off::{Watch, go_on, in_pieces};
use crate::decibel::{LnSum, ln_power_of_loss_db, loss_db_of_ln_power};
use crate::error::{Error, Result, check};
use crate::validity::Validity;

/// How far above the total all leaks outside their domain must read for the total to hold, dB: they then pass a ten
/// thousandth of the power.
pub const NEGLIGIBLE_DB: f64 = 40.0;

/// What each leak and the whole let through at each frequency under one exposure.
///
/// Rows are leaks (the wall first), columns are frequencies.
///
/// It keeps its numbers, and tells which version of the library made them. In a file (feature `serde`) they stand as they
/// are, and are read back without being computed again, whatever the version that reads them.
#[derive(Debug, Clone)]
pub struct Study {
    pub(super) version: Cow<'static, str>,
    pub(super) frequency_hz: Array1<f64>,
    pub(super) names: Vec<String>,
    pub(super) shielding_db: Array2<f64>,
    pub(super) worst_case_db: Array2<f64>,
    pub(super) total_db: Array1<f64>,
    pub(super) total_worst_case_db: Array1<f64>,
    pub(super) valid: Array2<bool>,
    pub(super) total_valid: Array1<bool>,
    pub(super) limiting: Vec<usize>,
    pub(super) limits: Vec<Vec<LimitRun>>,
    pub(super) cautions: Vec<Cow<'static, str>>,
}

/// Every number alike; what is no number is equal to itself, so that a study is, masked or not.
impl PartialEq for Study {
    fn eq(&self, other: &Self) -> bool {
        let alike = |these: &mut dyn Iterator<Item = &f64>, those: &mut dyn Iterator<Item = &f64>| {
            these.zip(those).all(|(this, that)| this == that || (this.is_nan() && that.is_nan()))
        };
        self.version == other.version
            && self.frequency_hz == other.frequency_hz
            && self.names == other.names
            && alike(&mut self.shielding_db.iter(), &mut other.shielding_db.iter())
            && alike(&mut self.worst_case_db.iter(), &mut other.worst_case_db.iter())
            && alike(&mut self.total_db.iter(), &mut other.total_db.iter())
            && alike(&mut self.total_worst_case_db.iter(), &mut other.total_worst_case_db.iter())
            && self.valid == other.valid
            && self.total_valid == other.total_valid
            && self.limiting == other.limiting
            && self.limits == other.limits
            && self.cautions == other.cautions
    }
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
    pub(super) fn new(
        enclosure: &Enclosure,
        frequency_hz: &[f64],
        exposure: &dyn Exposure,
        watch: &mut Watch<'_>,
    ) -> Result<Self> {
        check::frequencies(frequency_hz)?;
        let sites: Vec<Site<'_>> = enclosure.sites().collect();
        let shape = (sites.len(), frequency_hz.len());
        let mut shielding_db = Array2::zeros(shape);
        let mut worst_case_db = Array2::zeros(shape);
        let mut valid = Array2::from_elem(shape, true);
        let mut runs: Vec<Runs> = sites.iter().map(|_| Runs::default()).collect();
        // What all leaks pass, and those that cannot be relied on.
        let mut passed = vec![[Passed::default(); 2]; frequency_hz.len()];
        let watch = RefCell::new(watch);
        in_pieces(&mut passed, &mut || (*watch.borrow_mut())(), |start, piece| {
            let frequency_hz = &frequency_hz[start..start + piece.len()];
            let reader = exposure.prepare(Some(enclosure), frequency_hz);
            for (row, site) in sites.iter().enumerate() {
                go_on(*watch.borrow_mut())?;
                let mut readings = vec![Reading::UNKNOWN; frequency_hz.len()];
                reader.read(site, &mut readings);
                for (place, ([all, doubtful], reading)) in piece.iter_mut().zip(readings).enumerate() {
                    let column = start + place;
                    shielding_db[(row, column)] = reading.shielding_db();
                    worst_case_db[(row, column)] = reading.worst_case_db();
                    all.add(reading);
                    let told = !reading.ln_power.is_nan() && !reading.ln_worst_power.is_nan();
                    let validity = exposure.validity(site, frequency_hz[place]).and(Validity::given(
                        "reading",
                        "a number",
                        told,
                        "what this leak passes is not known, nor what the whole does",
                    ));
                    valid[(row, column)] = validity.holds();
                    if !validity.holds() {
                        doubtful.add(reading);
                    }
                    runs[row].add(frequency_hz[place], validity.limits());
                }
            }
            Ok(())
        })?;
        Ok(Self {
            version: env!("CARGO_PKG_VERSION").into(),
            frequency_hz: Array1::from(frequency_hz.to_vec()),
            names: sites.iter().map(|site| site.name().to_owned()).collect(),
            total_db: passed.iter().map(|[all, _]| loss_db_of_ln_power(all.power.ln())).collect(),
            total_worst_case_db: passed.iter().map(|[all, _]| loss_db_of_ln_power(2.0 * all.amplitude.ln())).collect(),
            total_valid: passed.iter().map(|[all, doubtful]| doubtful.negligible_beside(all)).collect(),
            limiting: limiting(&shielding_db),
            shielding_db,
            worst_case_db,
            valid,
            limits: runs.into_iter().map(Runs::into_runs).collect(),
            cautions: enclosure.cautions().into_iter().map(Cow::Borrowed).collect(),
        })
    }

    /// Version of the library that made the numbers.
    #[must_use]
    pub fn version(&self) -> &str {
        &self.version
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

    /// Whether each number of the table is a number, and inside the domain of its model.
    #[must_use]
    pub fn valid(&self) -> &Array2<bool> {
        &self.valid
    }

    /// Whether the whole can be relied on at each frequency: every leak is valid there, or those that are not read
    /// together at least [`NEGLIGIBLE_DB`] above the whole.
    #[must_use]
    pub fn total_valid(&self) -> ArrayView1<'_, bool> {
        self.total_valid.view()
    }

    /// The same study with NaN for each number outside its domain, in the tables and in the totals, so that nothing
    /// made of it can hold one. What limits is told as before.
    #[must_use]
    pub fn masked(&self) -> Self {
        let mut masked = self.clone();
        for table in [&mut masked.shielding_db, &mut masked.worst_case_db] {
            table.zip_mut_with(&self.valid, |db, &valid| *db = if valid { *db } else { f64::NAN });
        }
        for total in [&mut masked.total_db, &mut masked.total_worst_case_db] {
            total.zip_mut_with(&self.total_valid, |db, &valid| *db = if valid { *db } else { f64::NAN });
        }
        masked
    }

    /// Limits passed by a leak, each as runs of neighbouring frequencies, in the order in which they begin.
    ///
    /// # Errors
    /// [`Error::UnknownName`] for a leak that is not in the study.
    pub fn limits(&self, leak: &str) -> Result<&[LimitRun]> {
        self.row(leak).map(|row| self.limits[row].as_slice())
    }

    /// What must be said about safety with these numbers.
    #[must_use]
    pub fn cautions(&self) -> &[Cow<'static, str>] {
        &self.cautions
    }

    /// Row of the leak that lets most through, at each frequency; one that answers no number may let anything through.
    #[must_use]
    pub fn limiting_rows(&self) -> &[usize] {
        &self.limiting
    }

    /// Name of the leak that lets most through, at each frequency.
    #[must_use]
    pub fn limiting(&self) -> Vec<&str> {
        self.limiting.iter().map(|&row| self.names[row].as_str()).collect()
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
            kind: "leak".into(),
            name: leak.to_owned(),
            known: self.names.clone(),
        })
    }
}

/// What several leaks pass together at one frequency.
#[derive(Clone, Copy)]
struct Passed {
    power: LnSum,
    amplitude: LnSum,
    /// Whether each of them passes an amount that is known: a number, and not nothing.
    told: bool,
}

impl Default for Passed {
    fn default() -> Self {
        Self { power: LnSum::default(), amplitude: LnSum::default(), told: true }
    }
}

impl Passed {
    fn add(&mut self, reading: Reading) {
        self.power += reading.ln_power;
        self.amplitude += 0.5 * reading.ln_worst_power;
        self.told &= reading.ln_power > f64::NEG_INFINITY && reading.ln_worst_power > f64::NEG_INFINITY;
    }

    /// Whether these, which cannot be relied on, may be left out of account beside all.
    fn negligible_beside(&self, all: &Self) -> bool {
        let ln_share = ln_power_of_loss_db(NEGLIGIBLE_DB);
        // No leaks at all pass nothing, and nothing is negligible beside nothing.
        let below = |these: f64, all: f64| these == f64::NEG_INFINITY || these <= all;
        self.told
            && below(self.power.ln(), all.power.ln() + ln_share)
            && below(self.amplitude.ln(), all.amplitude.ln() + 0.5 * ln_share)
    }
}

/// The row of least shielding in each column; the first without a number where there is one.
fn limiting(shielding_db: &Array2<f64>) -> Vec<usize> {
    let lets_most = |column: ArrayView1<'_, f64>| {
        let unknown = column.iter().position(|db| db.is_nan());
        unknown.or_else(|| column.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1)).map(|(row, _)| row)).unwrap_or(0)
    };
    shielding_db.columns().into_iter().map(lets_most).collect()
}
