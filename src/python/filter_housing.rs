//! The can around a filter and its bond to the wall.

use pyo3::prelude::*;

use crate::filter::{Housing, strap_inductance_h as core_strap_inductance_h};

Housing! {
    /// A filter's can and how it sits on the wall.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For a value outside its domain, by name.
    class PyHousing keywords in filters;
}

/// Inductance of a straight flat bonding strap, H.
///
/// Parameters
/// ----------
/// length_m, width_m, thickness_m : float
///     Sizes, m; width and thickness below the length.
///
/// Returns
/// -------
/// float
///     (mu0 l/2 pi) (ln(2 l/(w + t)) + 1/2 + 0.2235 (w + t)/l), after F. W. Grover, *Inductance
///     Calculations*, 1946. Without a return conductor: near a wall it is less.
#[pyfunction]
pub fn strap_inductance_h(length_m: f64, width_m: f64, thickness_m: f64) -> PyResult<f64> {
    Ok(core_strap_inductance_h(length_m, width_m, thickness_m)?)
}
