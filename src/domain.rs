//! Which values of one number make sense: an interval as data, and the words that are made from it.
//!
//! This file is compiled twice: here, where numbers are checked, and in `stillroom-derive`, which writes documentation.
//! Check, error, list of parameters and docstring therefore cannot say different things.

use std::fmt;

/// The values that a number may have.
///
/// ```
/// use stillroom::parameter::Domain;
/// assert!(Domain::POSITIVE.includes(1e-9) && !Domain::POSITIVE.includes(0.0));
/// assert_eq!(Domain::within(1.0, 1e5).to_string(), "from 1 to 1e5");
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Domain {
    low: f64,
    high: f64,
    is_low_included: bool,
    is_high_included: bool,
    is_whole: bool,
    also: &'static str,
}

impl Domain {
    /// Every finite number.
    pub const FINITE: Self = Self::of(f64::NEG_INFINITY, f64::INFINITY, false, false);
    /// Finite and greater than zero.
    pub const POSITIVE: Self = Self::of(0.0, f64::INFINITY, false, false);
    /// Finite, zero or greater.
    pub const NON_NEGATIVE: Self = Self::of(0.0, f64::INFINITY, true, false);
    /// Finite and at least one, such as a relative permittivity.
    pub const AT_LEAST_ONE: Self = Self::of(1.0, f64::INFINITY, true, false);
    /// Greater than zero; infinite too, such as the conductivity of a perfect conductor.
    pub const POSITIVE_OR_INFINITE: Self = Self::of(0.0, f64::INFINITY, false, true);
    /// From zero to one, both included.
    pub const FRACTION: Self = Self::within(0.0, 1.0);
    /// An angle from the normal, degrees: zero or more, and less than 90.
    pub const INCIDENCE_ANGLE: Self = Self::of(0.0, 90.0, true, false);
    /// A positive value of a circuit: wide enough for any, and narrow enough that no product of a few overflows.
    pub const CIRCUIT_POSITIVE: Self = Self::within(1e-30, 1e30);
    /// A value of a circuit that may be zero.
    pub const CIRCUIT_NON_NEGATIVE: Self = Self::within(0.0, 1e30);
    /// A whole number, one or more.
    pub const COUNT: Self = Self::at_least(1.0).whole();
    /// A whole number, zero or more.
    pub const COUNT_OR_NONE: Self = Self::at_least(0.0).whole();

    const fn of(low: f64, high: f64, is_low_included: bool, is_high_included: bool) -> Self {
        Self { low, high, is_low_included, is_high_included, is_whole: false, also: "" }
    }

    /// From `low` to `high`, both included.
    #[must_use]
    pub const fn within(low: f64, high: f64) -> Self {
        Self::of(low, high, true, true)
    }

    /// Finite and at least `low`.
    #[must_use]
    pub const fn at_least(low: f64) -> Self {
        Self::of(low, f64::INFINITY, true, false)
    }

    /// Finite and more than `low`.
    #[must_use]
    pub const fn above(low: f64) -> Self {
        Self::of(low, f64::INFINITY, false, false)
    }

    /// At least `low` and less than `high`.
    #[must_use]
    pub const fn from_to_below(low: f64, high: f64) -> Self {
        Self::of(low, high, true, false)
    }

    /// The whole numbers among these.
    #[must_use]
    pub const fn whole(self) -> Self {
        Self { is_whole: true, ..self }
    }

    /// The same, with what the number has to be besides: a relation to others, such as "at most the length".
    #[must_use]
    pub const fn and(self, also: &'static str) -> Self {
        Self { also, ..self }
    }

    /// Least value, or the one that all are greater than; minus infinity where there is none.
    #[must_use]
    pub const fn low(&self) -> f64 {
        self.low
    }

    /// Greatest value, or the one that all are less than; infinity where there is none.
    #[must_use]
    pub const fn high(&self) -> f64 {
        self.high
    }

    /// Whether the lower end is among the values.
    #[must_use]
    pub const fn is_low_included(&self) -> bool {
        self.is_low_included
    }

    /// Whether the upper end is among the values.
    #[must_use]
    pub const fn is_high_included(&self) -> bool {
        self.is_high_included
    }

    /// Whether only whole numbers make sense.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.is_whole
    }

    /// What the number has to be besides, in words; empty for nothing.
    #[must_use]
    pub const fn also(&self) -> &'static str {
        self.also
    }

    /// Whether a value lies in the interval, and is whole where it has to be. Relations to other numbers are not asked.
    #[must_use]
    pub fn includes(&self, value: f64) -> bool {
        // Beyond 2^53 a number no longer knows whether it is whole.
        const LARGEST_WHOLE: f64 = 9.0e15;
        let is_above = if self.is_low_included { value >= self.low } else { value > self.low };
        let is_below = if self.is_high_included { value <= self.high } else { value < self.high };
        is_above && is_below && (!self.is_whole || value.fract() == 0.0 && value <= LARGEST_WHOLE)
    }

    /// How the interval is said: its words, without what the number has to be besides.
    fn interval(&self) -> String {
        let shown = crate::number_text::Given;
        match (self.low, self.high) {
            _ if self.is_whole && self.high == f64::INFINITY => format!("a whole number, {} or more", shown(self.low)),
            (low, high) if self.is_whole => format!("a whole number from {} to {}", shown(low), shown(high)),
            (f64::NEG_INFINITY, f64::INFINITY) => "finite".into(),
            (0.0, f64::INFINITY) if self.is_high_included => "positive, or infinite".into(),
            (0.0, f64::INFINITY) if self.is_low_included => "zero or positive, and finite".into(),
            (0.0, f64::INFINITY) => "positive and finite".into(),
            (low, f64::INFINITY) if self.is_low_included => format!("at least {}, and finite", shown(low)),
            (low, f64::INFINITY) => format!("more than {}, and finite", shown(low)),
            (low, high) if self.is_low_included && self.is_high_included => {
                format!("from {} to {}", shown(low), shown(high))
            }
            (low, high) => {
                let low_words = if self.is_low_included { "at least" } else { "more than" };
                let high_words = if self.is_high_included { "at most" } else { "less than" };
                format!("{low_words} {} and {high_words} {}", shown(low), shown(high))
            }
        }
    }
}

impl fmt::Display for Domain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.interval())?;
        if self.also.is_empty() { Ok(()) } else { write!(f, ", {}", self.also) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_sides_of_every_edge() {
        let cases = [
            (Domain::FINITE, vec![-1e300, 0.0, 1e300], vec![f64::INFINITY, f64::NEG_INFINITY]),
            (Domain::POSITIVE, vec![5e-324, 1e300], vec![0.0, -0.0, -1.0, f64::INFINITY]),
            (Domain::NON_NEGATIVE, vec![0.0, 1e300], vec![-5e-324, f64::INFINITY]),
            (Domain::POSITIVE_OR_INFINITE, vec![1.0, f64::INFINITY], vec![0.0]),
            (Domain::FRACTION, vec![0.0, 1.0], vec![-1e-300, 1.0 + f64::EPSILON]),
            (Domain::INCIDENCE_ANGLE, vec![0.0, 89.999], vec![90.0, -1e-9]),
            (Domain::COUNT, vec![1.0, 1e15], vec![0.0, 1.5, 1e300]),
            (Domain::within(1.0, 16.0).whole(), vec![1.0, 16.0], vec![0.0, 17.0, 2.5]),
            (Domain::above(2.0), vec![2.1], vec![2.0]),
        ];
        for (domain, good, bad) in cases {
            assert!(good.iter().all(|&value| domain.includes(value)), "{domain}");
            assert!(bad.iter().all(|&value| !domain.includes(value)) && !domain.includes(f64::NAN), "{domain}");
        }
    }

    #[test]
    fn words_follow_from_the_interval() {
        let said = [
            (Domain::POSITIVE, "positive and finite"),
            (Domain::NON_NEGATIVE, "zero or positive, and finite"),
            (Domain::AT_LEAST_ONE, "at least 1, and finite"),
            (Domain::COUNT, "a whole number, 1 or more"),
            (Domain::within(1.0, 16.0).whole(), "a whole number from 1 to 16"),
            (Domain::within(1e-10, 1e7), "from 1e-10 to 1e7"),
            (Domain::INCIDENCE_ANGLE, "at least 0 and less than 90"),
            (Domain::POSITIVE.and("at most the length"), "positive and finite, at most the length"),
        ];
        for (domain, words) in said {
            assert_eq!(domain.to_string(), words);
        }
    }
}
