//! Preferred values: what can be bought.
//!
//! Source: IEC 60063, *Preferred number series for resistors and capacitors*. E3 to E24 are a historical table
//! (read at qsl.net/g4usp/Components, "Component preferred values"); E48 to E192 are 10^(k/192) rounded to three
//! digits, with the one exception 9.20 where rounding gives 9.19.

use crate::choice::choice;
use crate::error::{Result, check};

/// A series of preferred values, named by the number of values in a decade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum PreferredSeries {
    /// 3 in a decade.
    E3,
    /// 6 in a decade; tolerance 20 %.
    E6,
    /// 12 in a decade; tolerance 10 %.
    E12,
    /// 24 in a decade; tolerance 5 %.
    E24,
    /// 48 in a decade; tolerance 2 %.
    E48,
    /// 96 in a decade; tolerance 1 %.
    E96,
    /// 192 in a decade; tolerance 0.5 %.
    E192,
}

const E24: [u32; 24] = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

choice!(PreferredSeries, "series of preferred values" { E3 => "E3", E6 => "E6", E12 => "E12", E24 => "E24", E48 => "E48", E96 => "E96", E192 => "E192" });

impl PreferredSeries {
    /// All of them.
    pub const ALL: [Self; 7] = [Self::E3, Self::E6, Self::E12, Self::E24, Self::E48, Self::E96, Self::E192];

    /// Values in a decade.
    #[must_use]
    pub const fn count(self) -> usize {
        match self {
            Self::E3 => 3,
            Self::E6 => 6,
            Self::E12 => 12,
            Self::E24 => 24,
            Self::E48 => 48,
            Self::E96 => 96,
            Self::E192 => 192,
        }
    }

    /// Customary tolerance as a fraction: 0.1 for E12. For E3 that of its wide steps, 0.4.
    #[must_use]
    pub const fn tolerance(self) -> f64 {
        match self {
            Self::E3 => 0.4,
            Self::E6 => 0.2,
            Self::E12 => 0.1,
            Self::E24 => 0.05,
            Self::E48 => 0.02,
            Self::E96 => 0.01,
            Self::E192 => 0.005,
        }
    }

    // Digits of the k-th value, in hundreds: 100 to 999.
    fn digits(self, k: usize) -> u32 {
        let step = k * (192 / self.count());
        if self.count() <= 24 {
            return 10 * E24[k * (24 / self.count())];
        }
        match step {
            185 => 920,
            _ => (100.0 * 10f64.powf(step as f64 / 192.0)).round() as u32,
        }
    }

    /// The values of the decade from 1 to below 10.
    #[must_use]
    pub fn decade(self) -> Vec<f64> {
        (0..self.count()).map(|k| f64::from(self.digits(k)) / 100.0).collect()
    }

    /// The value with a whole index: 0 is 1, one decade further is `count` further.
    #[must_use]
    pub fn value(self, index: i32) -> f64 {
        let count = self.count() as i32;
        let digits = self.digits(index.rem_euclid(count) as usize);
        // Through text, so that 4.7e-9 is the number that a person would type.
        let exponent = index.div_euclid(count) - 2;
        format!("{digits}e{exponent}").parse().unwrap_or(f64::NAN)
    }

    /// Index of the value nearest by ratio.
    ///
    /// # Errors
    /// Unless the value is positive and finite.
    pub fn nearest_index(self, value: f64) -> Result<i32> {
        check::positive("value", "", value)?;
        let guess = (value.log10() * self.count() as f64).round() as i32;
        let distance = |index: i32| (self.value(index) / value).ln().abs();
        let nearest = (guess - 2..=guess + 2).min_by(|&p, &q| distance(p).total_cmp(&distance(q)));
        Ok(nearest.unwrap_or(guess))
    }

    /// The preferred value nearest by ratio.
    ///
    /// # Errors
    /// Unless the value is positive and finite.
    pub fn nearest(self, value: f64) -> Result<f64> {
        Ok(self.value(self.nearest_index(value)?))
    }

    /// The largest preferred value that is not above the given one.
    ///
    /// # Errors
    /// Unless the value is positive and finite.
    pub fn at_most(self, value: f64) -> Result<f64> {
        let index = self.nearest_index(value)?;
        Ok(self.value(if self.value(index) > value { index - 1 } else { index }))
    }

    /// The smallest preferred value that is not below the given one.
    ///
    /// # Errors
    /// Unless the value is positive and finite.
    pub fn at_least(self, value: f64) -> Result<f64> {
        let index = self.nearest_index(value)?;
        Ok(self.value(if self.value(index) < value { index + 1 } else { index }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn series_contain_each_other_and_rise() {
        for pair in PreferredSeries::ALL.windows(2) {
            // The rounded E48 is not finer than the historical E24.
            if pair[0].count() == 24 {
                continue;
            }
            let finer = pair[1].decade();
            assert!(pair[0].decade().iter().all(|value| finer.contains(value)), "{pair:?}");
        }
        for series in PreferredSeries::ALL {
            assert!(series.decade().windows(2).all(|pair| pair[0] < pair[1]));
            assert_eq!(series.decade().len(), series.count());
        }
    }

    #[test]
    fn values_are_the_numbers_that_a_person_would_type() {
        assert_eq!(PreferredSeries::E12.nearest(4.6e-9).unwrap(), 4.7e-9);
        assert_eq!(PreferredSeries::E6.nearest(0.9e-6).unwrap(), 1e-6);
        assert_eq!(PreferredSeries::E12.at_most(99.9).unwrap(), 82.0);
        assert_eq!(PreferredSeries::E12.at_least(82.1).unwrap(), 100.0);
        assert_eq!(PreferredSeries::E96.at_most(1e-7).unwrap(), 1e-7);
        assert!(PreferredSeries::E12.nearest(0.0).is_err());
        assert!(PreferredSeries::E12.nearest(f64::INFINITY).is_err());
        assert!("E7".parse::<PreferredSeries>().is_err());
        assert_eq!("E192".parse::<PreferredSeries>().unwrap(), PreferredSeries::E192);
    }
}
