//! Bounds of circuit values, wide enough for any circuit and narrow enough that no product of a few overflows.
//!
//! A coil of 1e200 henry is no mistake that a formula should be made to survive; it is one to be named. Within
//! these bounds every part, termination and chain evaluates to a number from 1 mHz to 1 EHz.

use crate::error::{Error, Result};

const LEAST: f64 = 1e-30;
const MOST: f64 = 1e30;

/// A value from 1e-30 to 1e30.
pub(crate) fn positive(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
    if value.is_finite() && value <= 0.0 {
        return refused(quantity, unit, value, "positive and finite");
    }
    if (LEAST..=MOST).contains(&value) {
        Ok(value)
    } else {
        refused(quantity, unit, value, "finite, from 1e-30 to 1e30")
    }
}

/// A value of zero, or up to 1e30.
pub(crate) fn non_negative(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
    if (0.0..=MOST).contains(&value) {
        // Minus zero is zero.
        Ok(value + 0.0)
    } else {
        refused(quantity, unit, value, "zero or positive, finite, at most 1e30")
    }
}

/// A value of either sign, up to 1e30.
pub(crate) fn bounded(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
    if value.abs() <= MOST { Ok(value) } else { refused(quantity, unit, value, "finite, within plus and minus 1e30") }
}

fn refused<T>(quantity: &str, unit: &'static str, value: f64, accepted: &'static str) -> Result<T> {
    Err(Error::OutOfRange { quantity: quantity.to_owned(), value, unit: unit.into(), accepted: accepted.into() })
}

/// Peak of a sine over its effective value.
pub(crate) const SINE_CREST: f64 = std::f64::consts::SQRT_2;

/// The same, for records that do not state another.
#[cfg(feature = "serde")]
pub(crate) const fn sine_crest() -> f64 {
    SINE_CREST
}

/// A peak over an effective value, one or more.
pub(crate) fn crest_factor(value: f64) -> Result<f64> {
    if (1.0..=MOST).contains(&value) { Ok(value) } else { refused("crest_factor", "", value, "one or more, finite") }
}
