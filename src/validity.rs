//! Where a number holds.
//!
//! Every model states its domain; asked outside, it still answers where an answer exists, and says
//! which limit was passed and what that does to the number.

use std::borrow::Cow;
use std::fmt;

use crate::number_text::{Computed, Frequency};

/// One limit of a model that was passed.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Limit {
    /// The model whose limit it is.
    pub model: Cow<'static, str>,
    /// The quantity that is limited, such as "width / length".
    pub quantity: Cow<'static, str>,
    /// Unit of the quantity, empty for pure numbers.
    pub unit: Cow<'static, str>,
    /// The value met.
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
    pub value: f64,
    /// Least value at which the model holds.
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
    pub low: f64,
    /// Greatest value at which the model holds.
    #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
    pub high: f64,
    /// What becomes of the result beyond the limit.
    pub consequence: Cow<'static, str>,
}

impl Limit {
    /// Whether it is the same limit, passed by another value.
    pub(crate) fn is_same(&self, other: &Self) -> bool {
        self.model == other.model
            && self.quantity == other.quantity
            && self.unit == other.unit
            && self.consequence == other.consequence
    }

    /// How far beyond its bounds the value is, in its unit; a value that is no number is farthest.
    pub(crate) fn beyond(&self) -> f64 {
        let beyond = (self.value - self.high).max(self.low - self.value);
        if beyond.is_nan() { f64::INFINITY } else { beyond }
    }
}

impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.unit == YES_OR_NO {
            return write!(f, "{}: not {}; {}", self.model, self.quantity, self.consequence);
        }
        let told = |number: f64| match &*self.unit {
            "" => Computed(number).to_string(),
            "Hz" => Frequency(number).to_string(),
            unit => format!("{} {unit}", Computed(number)),
        };
        write!(f, "{}: {} = {}, ", self.model, self.quantity, told(self.value))?;
        match (self.low.is_finite() && self.low > 0.0, self.high.is_finite()) {
            (true, true) => write!(f, "holds from {} to {}", told(self.low), told(self.high))?,
            (true, false) => write!(f, "holds from {} upwards", told(self.low))?,
            _ => write!(f, "holds up to {}", told(self.high))?,
        }
        write!(f, "; beyond, {}", self.consequence)
    }
}

/// Unit of a limit that is either kept or not, its value 1 or 0.
const YES_OR_NO: &str = "yes or no";

/// Whether a model holds at the point asked for.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[must_use]
pub enum Validity {
    /// Inside the domain of every model involved.
    #[default]
    Holds,
    /// Outside at least one limit.
    Outside(Vec<Limit>),
}

impl Validity {
    /// Checks one limit: holds if `low <= value <= high`.
    pub fn within(
        model: &'static str,
        quantity: &'static str,
        unit: &'static str,
        value: f64,
        (low, high): (f64, f64),
        consequence: &'static str,
    ) -> Self {
        if value >= low && value <= high {
            Self::Holds
        } else {
            Self::Outside(vec![Limit {
                model: model.into(),
                quantity: quantity.into(),
                unit: unit.into(),
                value,
                low,
                high,
                consequence: consequence.into(),
            }])
        }
    }

    /// Checks a condition that is kept or not, worded so that "not {condition}" reads well.
    pub fn given(model: &'static str, condition: &'static str, kept: bool, consequence: &'static str) -> Self {
        Self::within(model, condition, YES_OR_NO, f64::from(u8::from(kept)), (1.0, 1.0), consequence)
    }

    /// Both must hold; limits passed are collected, each once.
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Holds, other) => other,
            (this, Self::Holds) => this,
            (Self::Outside(mut mine), Self::Outside(theirs)) => {
                for limit in theirs {
                    if !mine.contains(&limit) {
                        mine.push(limit);
                    }
                }
                Self::Outside(mine)
            }
        }
    }

    /// True inside the domain.
    #[must_use]
    pub fn holds(&self) -> bool {
        matches!(self, Self::Holds)
    }

    /// The limits passed; empty inside the domain.
    #[must_use]
    pub fn limits(&self) -> &[Limit] {
        match self {
            Self::Holds => &[],
            Self::Outside(limits) => limits,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn collects_what_was_passed() {
        let first = Validity::within("thin slot", "width / length", "", 0.5, (0.0, 0.1), "the loss is too high");
        assert!(!first.holds());
        let both = first.clone().and(Validity::Holds).and(first.clone());
        assert_eq!(both, first);
        assert_eq!(
            both.limits()[0].to_string(),
            "thin slot: width / length = 0.5, holds up to 0.1; beyond, the loss is too high"
        );
    }

    #[test]
    fn a_condition_is_told_in_words() {
        let validity = Validity::given("loop test", "an opening", false, "the leak is left out");
        assert_eq!(validity.limits()[0].to_string(), "loop test: not an opening; the leak is left out");
        assert!(Validity::given("loop test", "an opening", true, "").holds());
    }

    #[test]
    fn nan_is_outside() {
        assert!(!Validity::within("m", "q", "", f64::NAN, (0.0, 1.0), "").holds());
    }
}
