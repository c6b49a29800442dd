//! The can around a filter and its bond to the wall.

use pyo3::prelude::*;

use super::class::{parameter_methods, value_class};
use crate::filter::{Housing, strap_inductance_h as core_strap_inductance_h};

/// A filter's can and how it sits on the wall.
///
/// Parameters
/// ----------
/// case_length_m : float
///     Length of the case, m: lumped parts hold while it is below a tenth of a wavelength.
/// bond_resistance_ohm : float, default 0
///     Resistance between case and wall, ohm.
/// bond_inductance_h : float, default 0
///     Inductance between case and wall, H; see `strap_inductance_h`. Near zero for a flush case.
/// stray_capacitance_f : float, default 0
///     Capacitance from input to output inside the can, F.
/// isolation_db : float, optional
///     The most that any filter in this can can lose, dB.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Housing")]
#[derive(Clone, PartialEq)]
pub struct PyHousing(pub Housing);

#[pymethods]
impl PyHousing {
    #[new]
    #[pyo3(signature = (case_length_m, *, bond_resistance_ohm=0.0, bond_inductance_h=0.0, stray_capacitance_f=0.0,
        isolation_db=None))]
    fn new(
        case_length_m: f64,
        bond_resistance_ohm: f64,
        bond_inductance_h: f64,
        stray_capacitance_f: f64,
        isolation_db: Option<f64>,
    ) -> PyResult<Self> {
        let housing = Housing::new(case_length_m)?
            .with_bond(bond_resistance_ohm, bond_inductance_h)?
            .with_stray_capacitance_f(stray_capacitance_f)?;
        Ok(Self(match isolation_db {
            None => housing,
            Some(value) => housing.with_isolation_db(value)?,
        }))
    }
}

value_class!(PyHousing, "Housing" {
    /// Length of the case, m.
    case_length_m: f64 = |housing| housing.case_length_m(),
    /// Resistance between case and wall, ohm.
    bond_resistance_ohm: f64 = |housing| housing.bond_resistance_ohm(),
    /// Inductance between case and wall, H.
    bond_inductance_h: f64 = |housing| housing.bond_inductance_h(),
    /// Capacitance from input to output, F.
    stray_capacitance_f: f64 = |housing| housing.stray_capacitance_f(),
    /// Isolation of the can, dB, or None.
    isolation_db: Option<f64> = |housing| housing.isolation_db(),
});
parameter_methods!(PyHousing);

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
