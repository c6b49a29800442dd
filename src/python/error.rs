//! The core's errors as the Python classes of `stillroom._errors`, with their fields.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::Error;
use crate::validity::Validity;

mod classes {
    pyo3::import_exception!(stillroom._errors, DomainWarning);
    pyo3::import_exception!(stillroom._errors, DuplicateNameError);
    pyo3::import_exception!(stillroom._errors, EmptyError);
    pyo3::import_exception!(stillroom._errors, FormatError);
    pyo3::import_exception!(stillroom._errors, LengthMismatchError);
    pyo3::import_exception!(stillroom._errors, NotIncreasingError);
    pyo3::import_exception!(stillroom._errors, OutOfRangeError);
    pyo3::import_exception!(stillroom._errors, RelationError);
    pyo3::import_exception!(stillroom._errors, ReservedNameError);
    pyo3::import_exception!(stillroom._errors, UnknownNameError);
    pyo3::import_exception!(stillroom._errors, UnknownParameterError);
    pyo3::import_exception!(stillroom._errors, UnreachableError);
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
        Error::Parse { what, line, found, expected } => {
            (py.get_type::<classes::FormatError>(), fields!(py, what, line, found, expected))
        }
    };
    Ok(PyErr::from_value(class.call((error.to_string(),), Some(&fields))?))
}

/// Warns once for a call that went outside a model's domain.
///
/// Of all points asked for, the first that was outside is named, with how many there were.
pub fn warn_outside(py: Python<'_>, frequencies: &[f64], validity: impl Fn(f64) -> Validity) -> PyResult<()> {
    let mut outside = 0;
    let mut first = None;
    for &frequency in frequencies {
        if let Some(limit) = validity(frequency).limits().first() {
            outside += 1;
            first.get_or_insert_with(|| (frequency, limit.to_string()));
        }
    }
    let Some((frequency, text)) = first else { return Ok(()) };
    let text = if frequencies.len() > 1 {
        format!(
            "outside the model's domain at {outside} of {} frequencies, first at {frequency:.6e} Hz: {text}",
            frequencies.len()
        )
    } else {
        format!("outside the model's domain at {frequency:.6e} Hz: {text}")
    };
    let text = std::ffi::CString::new(text)?;
    PyErr::warn(py, &py.get_type::<classes::DomainWarning>(), &text, 1)
}
