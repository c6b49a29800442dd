//! What can be wrong with an input, said with its name, its value, and what would be accepted.
//!
//! Errors hold fields, never a prepared sentence: Python exceptions and other tools read the
//! fields, people read the text that is made from them.

use std::borrow::Cow;
use std::sync::Arc;

use thiserror::Error;

use crate::number_text::{Computed, Given};

/// Words in an error: mostly fixed, owned where a file or another program brought them.
pub type Words = Cow<'static, str>;

/// The one error type of the crate.
#[derive(Debug, Clone, PartialEq, Error)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(tag = "error", rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Error {
    /// A single value outside its domain.
    #[error("`{quantity}` = {}{}: must be {accepted}", Given(*value), spaced(unit))]
    OutOfRange {
        /// Name of the argument, with the path to it where it is nested.
        quantity: String,
        /// The value given.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        value: f64,
        /// SI unit, empty for pure numbers.
        unit: Words,
        /// What would be accepted.
        accepted: Words,
    },
    /// A value outside its domain inside an array or a table.
    #[error("`{quantity}[{index}]` = {}{}: must be {accepted}", Given(*value), spaced(unit))]
    AtIndex {
        /// Name of the array argument.
        quantity: String,
        /// Position of the first offending value, from zero, in row-major order.
        index: usize,
        /// The value found there.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        value: f64,
        /// SI unit, empty for pure numbers.
        unit: Words,
        /// What would be accepted.
        accepted: Words,
    },
    /// Two values that contradict each other.
    #[error(
        "`{quantity}` = {1}{0}: must be {relation} `{other}` = {2}{0}",
        spaced(unit), Given(*value), Given(*other_value)
    )]
    Relation {
        /// Name of the argument at fault.
        quantity: String,
        /// Its value.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        value: f64,
        /// SI unit of both.
        unit: Words,
        /// The relation that should hold, for example "smaller than".
        relation: Words,
        /// Name of the argument it is compared with.
        other: String,
        /// The value of that argument.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        other_value: f64,
    },
    /// Something that needs at least one entry and has none.
    #[error("`{quantity}` is empty: must have at least one entry")]
    Empty {
        /// Name of the argument.
        quantity: String,
    },
    /// Two arrays that should be equally long and are not.
    #[error("`{quantity}` has {length} entries but `{other}` has {other_length}: must be equally many")]
    LengthMismatch {
        /// Name of the argument.
        quantity: String,
        /// Its length.
        length: usize,
        /// Name of the argument it is compared with.
        other: String,
        /// The length of that argument.
        other_length: usize,
    },
    /// A sequence that should rise and does not.
    #[error(
        "`{quantity}[{index}]` = {1}{0} after {2}{0}: must increase",
        spaced(unit), Given(*value), Given(*previous)
    )]
    NotIncreasing {
        /// Name of the argument.
        quantity: String,
        /// Position of the first value that is not greater than the one before it.
        index: usize,
        /// The value found there.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        value: f64,
        /// The value before it.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        previous: f64,
        /// SI unit, empty for pure numbers.
        unit: Words,
    },
    /// A name that is not in a list of known ones.
    #[error("unknown {kind} {name:?}: known are {}", known.join(", "))]
    UnknownName {
        /// What kind of thing was named: "material", "polarization", ...
        kind: Words,
        /// The name given.
        name: String,
        /// The names that exist.
        known: Vec<String>,
    },
    /// A parameter path that leads nowhere.
    #[error("unknown parameter {path:?}: {}", nearest(known))]
    UnknownParameter {
        /// The path given.
        path: String,
        /// The paths that exist, those first that look most like it.
        known: Vec<String>,
    },
    /// A name that is used twice where names must differ.
    #[error("{kind} {name:?} is given twice: names must differ")]
    DuplicateName {
        /// What kind of thing was named.
        kind: Words,
        /// The name given twice.
        name: String,
    },
    /// A name that cannot be used, since paths or the wall need it.
    #[error("{kind} name {name:?}: must not be empty, contain a dot, or be `wall` or `interior`")]
    Reserved {
        /// What kind of thing was named.
        kind: Words,
        /// The name given.
        name: String,
    },
    /// A target that no allowed value reaches.
    #[error(
        "`{quantity}` cannot reach {1}{0}: the best is {2}{0} at {at}",
        spaced(unit), Given(*target), Computed(*best)
    )]
    Unreachable {
        /// What was to be reached.
        quantity: String,
        /// The target.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        target: f64,
        /// The best that can be had.
        #[cfg_attr(feature = "serde", serde(with = "crate::serial::number"))]
        best: f64,
        /// Unit of both.
        unit: Words,
        /// Where the best is found, in words with numbers and units.
        at: String,
    },
    /// Long work that was called off; nothing of it was kept.
    #[error("interrupted before the end: nothing was kept")]
    Interrupted,
    /// A file or a text that does not follow its format.
    #[error("{what}, line {line}{}: found {found:?}, expected {expected}", in_column(*column))]
    Parse {
        /// What was being read.
        what: Words,
        /// Line number, from one.
        line: usize,
        /// Number of the field in the line, from one, where one field is at fault.
        column: Option<usize>,
        /// The text found.
        found: String,
        /// What would be accepted.
        expected: String,
    },
    /// A fault that a part from another program has of its own.
    #[error("{message}")]
    Other {
        /// The fault in words.
        message: String,
        /// Where it came from, if known; not kept in files.
        #[source]
        #[cfg_attr(feature = "serde", serde(skip))]
        source: Option<Foreign>,
    },
}

/// An error of another program, shared.
#[derive(Debug, Clone, Error)]
#[error(transparent)]
pub struct Foreign(Arc<dyn std::error::Error + Send + Sync>);

impl PartialEq for Foreign {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

/// The crate's result.
pub type Result<T> = std::result::Result<T, Error>;

impl Error {
    /// Another program's error, with its own words.
    pub fn other(source: impl std::error::Error + Send + Sync + 'static) -> Self {
        Self::Other { message: source.to_string(), source: Some(Foreign(Arc::new(source))) }
    }

    /// The same fault of a number that is one of several.
    #[must_use]
    pub fn at_index(self, index: usize) -> Self {
        match self {
            Self::OutOfRange { quantity, value, unit, accepted } => {
                Self::AtIndex { quantity, index, value, unit, accepted }
            }
            other => other,
        }
    }

    /// The same fault, of a part of an array that begins at `start`.
    #[must_use]
    pub fn moved(mut self, start: usize) -> Self {
        if let Self::AtIndex { index, .. } = &mut self {
            *index += start;
        }
        self
    }

    /// The same fault of a number that stands alone.
    #[must_use]
    pub fn without_index(self) -> Self {
        match self {
            Self::AtIndex { quantity, value, unit, accepted, .. } => {
                Self::OutOfRange { quantity, value, unit, accepted }
            }
            other => other,
        }
    }

    /// The same error, told from one level further out: `cell` turns `across_flats_m` into
    /// `cell.across_flats_m`.
    #[must_use]
    pub fn within(mut self, outer: &str) -> Self {
        let name = match &mut self {
            Self::OutOfRange { quantity, .. }
            | Self::AtIndex { quantity, .. }
            | Self::Relation { quantity, .. }
            | Self::Empty { quantity }
            | Self::LengthMismatch { quantity, .. }
            | Self::NotIncreasing { quantity, .. }
            | Self::Unreachable { quantity, .. } => quantity,
            Self::UnknownName { .. }
            | Self::UnknownParameter { .. }
            | Self::DuplicateName { .. }
            | Self::Reserved { .. }
            | Self::Interrupted
            | Self::Other { .. }
            | Self::Parse { .. } => return self,
        };
        *name = format!("{outer}.{name}");
        self
    }
}

fn in_column(column: Option<usize>) -> String {
    column.map_or_else(String::new, |column| format!(", column {column}"))
}

/// A few names, or the first of many.
fn nearest(known: &[String]) -> String {
    const FEW: usize = 12;
    if known.len() <= FEW {
        format!("known are {}", known.join(", "))
    } else {
        format!("of {} the nearest are {}", known.len(), known[..FEW].join(", "))
    }
}

fn spaced(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(" {unit}") }
}

/// Checks shared by all constructors; each gives the value back, so that a constructor reads as a
/// list of what it accepts.
pub mod check {
    use super::{Error, Result, Words};
    use crate::parameter::Domain;

    fn out_of_range(quantity: &str, unit: &'static str, value: f64, accepted: impl Into<Words>) -> Error {
        Error::OutOfRange { quantity: quantity.to_owned(), value, unit: unit.into(), accepted: accepted.into() }
    }

    /// A number that lies in its domain. A negative zero becomes plain zero: its sign would come back through a square
    /// root or a quotient.
    pub fn domain(domain: Domain, quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
        if domain.includes(value) {
            Ok(value + 0.0)
        } else {
            Err(out_of_range(quantity, unit, value, domain.to_string()))
        }
    }

    /// Any finite number.
    pub fn finite(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
        domain(Domain::FINITE, quantity, unit, value)
    }

    /// A finite number greater than zero.
    pub fn positive(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
        domain(Domain::POSITIVE, quantity, unit, value)
    }

    /// A finite number, zero or greater.
    pub fn non_negative(quantity: &str, unit: &'static str, value: f64) -> Result<f64> {
        domain(Domain::NON_NEGATIVE, quantity, unit, value)
    }

    /// A number from zero to one, both included.
    pub fn fraction(quantity: &str, value: f64) -> Result<f64> {
        domain(Domain::FRACTION, quantity, "", value)
    }

    /// A finite number that is at least one, such as a relative permittivity.
    pub fn at_least_one(quantity: &str, value: f64) -> Result<f64> {
        domain(Domain::AT_LEAST_ONE, quantity, "", value)
    }

    /// A number within an interval that the caller describes in `accepted`.
    pub fn within(
        quantity: &str,
        unit: &'static str,
        value: f64,
        (low, high): (f64, f64),
        accepted: &'static str,
    ) -> Result<f64> {
        if value.is_finite() && value >= low && value <= high {
            Ok(value)
        } else {
            Err(out_of_range(quantity, unit, value, accepted))
        }
    }

    /// An angle of incidence from the normal: zero or more, and less than 90 degrees.
    pub fn incidence_angle(quantity: &str, value: f64) -> Result<f64> {
        domain(Domain::INCIDENCE_ANGLE, quantity, "deg", value)
    }

    /// A value smaller than another one.
    pub fn less_than(quantity: &str, unit: &'static str, value: f64, other: &str, other_value: f64) -> Result<f64> {
        if value < other_value {
            Ok(value)
        } else {
            Err(Error::Relation {
                quantity: quantity.to_owned(),
                value,
                unit: unit.into(),
                relation: "smaller than".into(),
                other: other.to_owned(),
                other_value,
            })
        }
    }

    /// A value not greater than another one.
    pub fn at_most(quantity: &str, unit: &'static str, value: f64, other: &str, other_value: f64) -> Result<f64> {
        if value <= other_value {
            Ok(value)
        } else {
            Err(Error::Relation {
                quantity: quantity.to_owned(),
                value,
                unit: unit.into(),
                relation: "at most".into(),
                other: other.to_owned(),
                other_value,
            })
        }
    }

    /// Every entry of a slice finite and greater than zero.
    pub fn all_positive(quantity: &str, unit: &'static str, values: &[f64]) -> Result<()> {
        all(quantity, unit, values, "positive and finite", |v| v.is_finite() && v > 0.0)
    }

    /// Every entry of a slice finite.
    pub fn all_finite(quantity: &str, unit: &'static str, values: &[f64]) -> Result<()> {
        all(quantity, unit, values, "finite", f64::is_finite)
    }

    /// Every entry of a slice fulfils a condition that the caller describes in `accepted`.
    pub fn all(
        quantity: &str,
        unit: &'static str,
        values: &[f64],
        accepted: &'static str,
        holds: impl Fn(f64) -> bool,
    ) -> Result<()> {
        // Nearly always all of them hold: asked without a way out, many are asked at a time.
        if values.iter().fold(true, |so_far, &v| so_far & holds(v)) {
            return Ok(());
        }
        match values.iter().position(|&v| !holds(v)) {
            None => Ok(()),
            Some(index) => {
                let (unit, accepted) = (unit.into(), accepted.into());
                Err(Error::AtIndex { quantity: quantity.to_owned(), index, value: values[index], unit, accepted })
            }
        }
    }

    /// A frequency in hertz: finite and greater than zero.
    pub fn frequency(value: f64) -> Result<f64> {
        positive("frequency_hz", "Hz", value)
    }

    /// Frequencies in hertz: every one finite and greater than zero.
    pub fn frequencies(values: &[f64]) -> Result<()> {
        all_positive("frequency_hz", "Hz", values)
    }

    /// At least one entry.
    pub fn not_empty<T>(quantity: &str, values: &[T]) -> Result<()> {
        if values.is_empty() { Err(Error::Empty { quantity: quantity.to_owned() }) } else { Ok(()) }
    }

    /// Two sequences of the same length.
    pub fn same_length(quantity: &str, length: usize, other: &str, other_length: usize) -> Result<()> {
        if length == other_length {
            Ok(())
        } else {
            Err(Error::LengthMismatch { quantity: quantity.to_owned(), length, other: other.to_owned(), other_length })
        }
    }

    /// Strictly increasing values (finiteness is checked by the caller).
    pub fn increasing(quantity: &str, unit: &'static str, values: &[f64]) -> Result<()> {
        match values.windows(2).position(|pair| pair[1] <= pair[0]) {
            None => Ok(()),
            Some(before) => Err(Error::NotIncreasing {
                quantity: quantity.to_owned(),
                index: before + 1,
                value: values[before + 1],
                previous: values[before],
                unit: unit.into(),
            }),
        }
    }

    /// A count given as a number: whole, and at least `least`.
    pub fn count(quantity: &str, value: f64, least: usize) -> Result<usize> {
        domain(Domain::at_least(least as f64).whole(), quantity, "", value).map(|value| value as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_names_quantity_value_and_what_is_accepted() {
        let error = check::positive("gap_m", "m", -2e-5).unwrap_err();
        assert_eq!(error.to_string(), "`gap_m` = -2e-5 m: must be positive and finite");
        assert_eq!(error.within("door").to_string(), "`door.gap_m` = -2e-5 m: must be positive and finite");
    }

    #[test]
    fn nan_is_refused_by_every_check() {
        assert!(check::finite("x", "", f64::NAN).is_err());
        assert!(check::positive("x", "", f64::NAN).is_err());
        assert!(check::non_negative("x", "", f64::NAN).is_err());
        assert!(check::fraction("x", f64::NAN).is_err());
        assert!(check::at_least_one("x", f64::NAN).is_err());
        assert!(check::incidence_angle("x", f64::NAN).is_err());
        assert!(check::within("x", "", f64::NAN, (0.0, 1.0), "").is_err());
        assert!(check::less_than("x", "", f64::NAN, "y", 1.0).is_err());
        assert!(check::at_most("x", "", f64::NAN, "y", 1.0).is_err());
        assert!(check::count("x", f64::NAN, 0).is_err());
    }

    #[test]
    fn arrays_name_the_first_offender() {
        let error = check::frequencies(&[1e6, f64::NAN, -1.0]).unwrap_err();
        assert_eq!(error.to_string(), "`frequency_hz[1]` = NaN Hz: must be positive and finite");
        let error = check::increasing("frequency_hz", "Hz", &[1.0, 3.0, 3.0]).unwrap_err();
        assert_eq!(error.to_string(), "`frequency_hz[2]` = 3 Hz after 3 Hz: must increase");
    }

    #[test]
    fn counts_are_whole() {
        assert_eq!(check::count("n", 3.0, 1).unwrap(), 3);
        assert!(check::count("n", 2.5, 1).is_err());
        assert!(check::count("n", 0.0, 1).is_err());
        assert!(check::count("n", 1e300, 1).is_err());
    }
}
