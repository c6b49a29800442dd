//! A study as plain numbers: what is kept of it in a file or on its way to another process.

use std::borrow::Cow;

use ndarray::{Array1, Array2};

use super::passed_limits::LimitRun;
use super::study::Study;
use crate::error::{Error, Result, check};

/// The numbers of a study; tables row by row, the wall first.
#[derive(Debug, Clone)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename = "Study"))]
pub(crate) struct StudyRecord {
    /// Version of the library that made them.
    pub(crate) version: Cow<'static, str>,
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::numbers"))]
    pub(crate) frequency_hz: Vec<f64>,
    pub(crate) leaks: Vec<String>,
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::numbers"))]
    pub(crate) shielding_db: Vec<f64>,
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::numbers"))]
    pub(crate) worst_case_db: Vec<f64>,
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::numbers"))]
    pub(crate) total_db: Vec<f64>,
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::numbers"))]
    pub(crate) total_worst_case_db: Vec<f64>,
    pub(crate) valid: Vec<bool>,
    pub(crate) total_valid: Vec<bool>,
    /// Row of the leak that lets most through.
    pub(crate) limiting: Vec<usize>,
    /// For each leak.
    pub(crate) limits: Vec<Vec<LimitRun>>,
    pub(crate) cautions: Vec<Cow<'static, str>>,
}

impl TryFrom<StudyRecord> for Study {
    type Error = Error;

    fn try_from(record: StudyRecord) -> Result<Self> {
        let (rows, columns) = (record.leaks.len(), record.frequency_hz.len());
        check::frequencies(&record.frequency_hz)?;
        check::not_empty("leaks", &record.leaks)?;
        let totals = [
            ("total_db", record.total_db.len()),
            ("total_worst_case_db", record.total_worst_case_db.len()),
            ("total_valid", record.total_valid.len()),
            ("limiting", record.limiting.len()),
        ];
        for (name, length) in totals {
            check::same_length(name, length, "frequency_hz", columns)?;
        }
        check::same_length("limits", record.limits.len(), "leaks", rows)?;
        if let Some(column) = record.limiting.iter().position(|&row| row >= rows) {
            return Err(Error::AtIndex {
                quantity: "limiting".to_owned(),
                index: column,
                value: record.limiting[column] as f64,
                unit: "".into(),
                accepted: "the row of a leak".into(),
            });
        }
        Ok(Self {
            shielding_db: table("shielding_db", rows, columns, record.shielding_db)?,
            worst_case_db: table("worst_case_db", rows, columns, record.worst_case_db)?,
            valid: table("valid", rows, columns, record.valid)?,
            version: record.version,
            frequency_hz: Array1::from(record.frequency_hz),
            names: record.leaks,
            total_db: Array1::from(record.total_db),
            total_worst_case_db: Array1::from(record.total_worst_case_db),
            total_valid: Array1::from(record.total_valid),
            limiting: record.limiting,
            limits: record.limits,
            cautions: record.cautions,
        })
    }
}

fn table<T>(name: &str, rows: usize, columns: usize, values: Vec<T>) -> Result<Array2<T>> {
    let length = values.len();
    let wrong = |_| Error::LengthMismatch {
        quantity: name.to_owned(),
        length,
        other: "leaks times frequencies".to_owned(),
        other_length: rows * columns,
    };
    Array2::from_shape_vec((rows, columns), values).map_err(wrong)
}

impl From<&Study> for StudyRecord {
    fn from(study: &Study) -> Self {
        Self {
            version: study.version.clone(),
            frequency_hz: study.frequency_hz.to_vec(),
            leaks: study.names.clone(),
            shielding_db: study.shielding_db.iter().copied().collect(),
            worst_case_db: study.worst_case_db.iter().copied().collect(),
            total_db: study.total_db.to_vec(),
            total_worst_case_db: study.total_worst_case_db.to_vec(),
            valid: study.valid.iter().copied().collect(),
            total_valid: study.total_valid.to_vec(),
            limiting: study.limiting.clone(),
            limits: study.limits.clone(),
            cautions: study.cautions.clone(),
        }
    }
}

#[cfg(feature = "serde")]
impl serde::Serialize for Study {
    fn serialize<S: serde::Serializer>(&self, to: S) -> std::result::Result<S::Ok, S::Error> {
        StudyRecord::from(self).serialize(to)
    }
}

#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for Study {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> std::result::Result<Self, D::Error> {
        StudyRecord::deserialize(from)?.try_into().map_err(serde::de::Error::custom)
    }
}
