//! What the room has to reach.

use crate::error::{Error, Result, check};

/// Required shielding effectiveness against frequency: points joined by straight lines over the
/// logarithm of frequency.
///
/// Two points at one frequency make a step; at the step itself the greater value holds. Outside the
/// points nothing is required, which is −∞ dB, so that the margin there is infinite.
///
/// ```
/// use stillroom::Requirement;
/// let asked = Requirement::new(vec![(14e3, 60.0), (1e6, 100.0), (18e9, 100.0)])?;
/// assert_eq!(asked.required_db(10e6), 100.0);
/// assert_eq!(asked.required_db(40e9), f64::NEG_INFINITY);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Requirement {
    points: Vec<(f64, f64)>,
}

impl Requirement {
    /// From points (frequency in Hz, shielding in dB) in rising order of frequency.
    ///
    /// # Errors
    /// For no points, frequencies that are not positive and finite or that fall, more than two points
    /// at one frequency, and levels that are not finite; each with its index.
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self> {
        check::not_empty("points", &points)?;
        let (frequency_hz, shielding_db): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        check::frequencies(&frequency_hz)?;
        check::all_finite("shielding_db", "dB", &shielding_db)?;
        for index in 1..frequency_hz.len() {
            let third_at_once = index >= 2 && frequency_hz[index] == frequency_hz[index - 2];
            if frequency_hz[index] < frequency_hz[index - 1] || third_at_once {
                return Err(Error::NotIncreasing {
                    quantity: "frequency_hz".to_owned(),
                    index,
                    value: frequency_hz[index],
                    previous: frequency_hz[index - 1],
                    unit: "Hz".into(),
                });
            }
        }
        Ok(Self { points })
    }

    /// The same level from one frequency to another.
    ///
    /// # Errors
    /// For frequencies that are not positive or do not rise, and a level that is not finite.
    pub fn flat(shielding_db: f64, from_hz: f64, to_hz: f64) -> Result<Self> {
        Self::new(vec![(from_hz, shielding_db), (to_hz, shielding_db)])
    }

    /// The points.
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// What is required at a frequency (Hz), dB; −∞ where nothing is.
    #[must_use]
    pub fn required_db(&self, frequency_hz: f64) -> f64 {
        let on_point = self.points.iter().filter(|point| point.0 == frequency_hz).map(|point| point.1);
        let at_points = on_point.fold(f64::NEG_INFINITY, f64::max);
        if at_points > f64::NEG_INFINITY {
            return at_points;
        }
        self.points.windows(2).find(|pair| pair[0].0 < frequency_hz && frequency_hz < pair[1].0).map_or(
            f64::NEG_INFINITY,
            |pair| {
                let ((f0, db0), (f1, db1)) = (pair[0], pair[1]);
                db0 + (db1 - db0) * (frequency_hz / f0).ln() / (f1 / f0).ln()
            },
        )
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    points: Vec<(f64, f64)>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Requirement {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.points)
    }
}

#[cfg(feature = "serde")]
impl From<Requirement> for Record {
    fn from(requirement: Requirement) -> Self {
        Self { points: requirement.points }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joined_in_log_frequency_with_steps() {
        let asked = Requirement::new(vec![(1e4, 60.0), (1e6, 100.0), (1e9, 100.0), (1e9, 80.0), (1e10, 80.0)]).unwrap();
        assert!((asked.required_db(1e5) - 80.0).abs() < 1e-12);
        assert_eq!(asked.required_db(1e9), 100.0);
        assert!((asked.required_db(1.0001e9) - 80.0).abs() < 1e-9);
        assert_eq!(asked.required_db(1e10), 80.0);
        assert_eq!(asked.required_db(1e3), f64::NEG_INFINITY);
        assert_eq!(asked.required_db(f64::NAN), f64::NEG_INFINITY);
    }

    #[test]
    fn disorder_is_named() {
        let error = Requirement::new(vec![(1e6, 1.0), (1e5, 1.0)]).unwrap_err();
        assert_eq!(error.to_string(), "`frequency_hz[1]` = 1e5 Hz after 1e6 Hz: must increase");
        assert!(Requirement::new(vec![(1e6, 1.0), (1e6, 2.0), (1e6, 3.0)]).is_err());
        assert!(Requirement::new(vec![(1e6, f64::NAN)]).is_err());
        assert!(Requirement::new(vec![(0.0, 1.0)]).is_err());
        assert!(Requirement::new(vec![]).is_err());
    }
}
