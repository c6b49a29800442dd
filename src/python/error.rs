//! The core's errors as the Python classes of `stillroom.errors`, with their fields.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::Error;
use crate::number_text::Frequency;
use crate::validity::Validity;

mod classes {
    pyo3::import_exception!(stillroom.errors, DomainWarning);
    pyo3::import_exception!(stillroom.errors, DuplicateNameError);
    pyo3::import_exception!(stillroom.errors, EmptyError);
    pyo3::import_exception!(stillroom.errors, FormatError);
    pyo3::import_exception!(stillroom.errors, LengthMismatchError);
    pyo3::import_exception!(stillroom.errors, NotIncreasingError);
    pyo3::import_exception!(stillroom.errors, OutOfRangeError);
    pyo3::import_exception!(stillroom.errors, RelationError);
    pyo3::import_exception!(stillroom.errors, ReservedNameError);
    pyo3::import_exception!(stillroom.errors, StillroomError);
    pyo3::import_exception!(stillroom.errors, UnknownNameError);
    pyo3::import_exception!(stillroom.errors, UnknownParameterError);
    pyo3::import_exception!(stillroom.errors, UnreachableError);
}

impl From<Error> for PyErr {
    fn from(error: Error) -> Self {
        Python::attach(|py| build(py, &error).unwrap_or_else(|failure| failure))
    }
}

/// Sets each named variable as a field of the exception under its own name.
macro_rules! fields {
    ($py:ident, $($name:ident),*) => {{
        let fields = PyDict::new($py);
        $( fields.set_item(stringify!($name), $name)?; )*
        fields
    }};
}

fn build(py: Python<'_>, error: &Error) -> PyResult<PyErr> {
    let (class, fields) = match error {
        Error::OutOfRange { quantity, value, unit, accepted } => {
            (py.get_type::<classes::OutOfRangeError>(), fields!(py, quantity, value, unit, accepted))
        }
        Error::AtIndex { quantity, index, value, unit, accepted } => {
            (py.get_type::<classes::OutOfRangeError>(), fields!(py, quantity, index, value, unit, accepted))
        }
        Error::Relation { quantity, value, unit, relation, other, other_value } => {
            (py.get_type::<classes::RelationError>(), fields!(py, quantity, value, unit, relation, other, other_value))
        }
        Error::Empty { quantity } => (py.get_type::<classes::EmptyError>(), fields!(py, quantity)),
        Error::LengthMismatch { quantity, length, other, other_length } => {
            (py.get_type::<classes::LengthMismatchError>(), fields!(py, quantity, length, other, other_length))
        }
        Error::NotIncreasing { quantity, index, value, previous, unit } => {
            (py.get_type::<classes::NotIncreasingError>(), fields!(py, quantity, index, value, previous, unit))
        }
        Error::UnknownName { kind, name, known } => {
            (py.get_type::<classes::UnknownNameError>(), fields!(py, kind, name, known))
        }
        Error::UnknownParameter { path, known } => {
            (py.get_type::<classes::UnknownParameterError>(), fields!(py, path, known))
        }
        Error::DuplicateName { kind, name } => (py.get_type::<classes::DuplicateNameError>(), fields!(py, kind, name)),
        Error::Reserved { kind, name } => (py.get_type::<classes::ReservedNameError>(), fields!(py, kind, name)),
        Error::Unreachable { quantity, target, best, unit, at } => {
            (py.get_type::<classes::UnreachableError>(), fields!(py, quantity, target, best, unit, at))
        }
        // Whoever called it off has an error of its own to raise; this is for when it has none.
        Error::Interrupted => return Ok(pyo3::exceptions::PyKeyboardInterrupt::new_err(error.to_string())),
        Error::Other { .. } => (py.get_type::<classes::StillroomError>(), PyDict::new(py)),
        Error::Parse { what, line, column, found, expected } => {
            (py.get_type::<classes::FormatError>(), fields!(py, what, line, column, found, expected))
        }
    };
    Ok(PyErr::from_value(class.call((error.to_string(),), Some(&fields))?))
}

/// Warns once for a call that went outside a model's domain.
///
/// Of all points asked for, the first that was outside is named, with how many there were. Domains are
/// single stretches of frequency, so that a sweep whose ends are inside is inside.
pub fn warn_outside(py: Python<'_>, frequencies: &[f64], validity: impl Fn(f64) -> Validity) -> PyResult<()> {
    let Some((low, high)) = extremes(frequencies) else { return Ok(()) };
    if validity(low).holds() && validity(high).holds() {
        return Ok(());
    }
    let mut outside = 0;
    let mut first = None;
    for (place, &frequency) in frequencies.iter().enumerate() {
        if place % SIGNALS_EVERY == 0 {
            py.check_signals()?;
        }
        if let Some(limit) = validity(frequency).limits().first() {
            outside += 1;
            first.get_or_insert_with(|| (frequency, limit.to_string()));
        }
    }
    let Some((frequency, text)) = first else { return Ok(()) };
    let text = if frequencies.len() > 1 {
        format!(
            "outside the model's domain at {outside} of {} frequencies, first at {}: {text}",
            frequencies.len(),
            Frequency(frequency)
        )
    } else {
        format!("outside the model's domain at {}: {text}", Frequency(frequency))
    };
    let text = std::ffi::CString::new(text)?;
    PyErr::warn(py, &py.get_type::<classes::DomainWarning>(), &text, 1)
}

/// So many frequencies are looked at between two looks for Ctrl-C.
const SIGNALS_EVERY: usize = 1024;

/// The smallest and the largest of finite numbers.
fn extremes(values: &[f64]) -> Option<(f64, f64)> {
    /// So many are compared side by side.
    const ABREAST: usize = 16;
    let first = *values.first()?;
    let (mut low, mut high) = ([first; ABREAST], [first; ABREAST]);
    let blocks = values.chunks_exact(ABREAST);
    let rest = blocks.remainder();
    let mut take = |place: usize, value: f64| {
        low[place] = if value < low[place] { value } else { low[place] };
        high[place] = if value > high[place] { value } else { high[place] };
    };
    for block in blocks {
        block.iter().enumerate().for_each(|(place, &value)| take(place, value));
    }
    rest.iter().enumerate().for_each(|(place, &value)| take(place, value));
    Some((low.into_iter().fold(first, f64::min), high.into_iter().fold(first, f64::max)))
}
