//! The air that flows through a vent.

use pyo3::prelude::*;

use super::class::value_class;
use crate::waveguide::Air;
use crate::waveguide::air::fresh_air_m3_per_s as fresh_air;

/// The air that flows through a vent.
///
/// Parameters
/// ----------
/// density_kg_per_m3 : float, default 1.204
///     Density; the default is dry air at 20 degC and 101325 Pa.
/// viscosity_pa_s : float, default 18.25e-6
///     Dynamic viscosity, Pa s.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.vents", name = "Air")]
#[derive(Clone, PartialEq)]
pub struct PyAir(pub Air);

#[pymethods]
impl PyAir {
    #[new]
    #[pyo3(signature = (density_kg_per_m3=1.204, viscosity_pa_s=18.25e-6))]
    fn new(density_kg_per_m3: f64, viscosity_pa_s: f64) -> PyResult<Self> {
        Ok(Self(Air::new(density_kg_per_m3, viscosity_pa_s)?))
    }
}

value_class!(PyAir, "Air" {
    /// Density, kg/m^3.
    density_kg_per_m3: f64 = |air| air.density_kg_per_m3(),
    /// Dynamic viscosity, Pa s.
    viscosity_pa_s: f64 = |air| air.viscosity_pa_s(),
});

/// Fresh air for people at the caller's figure for one person, m^3/s.
///
/// The figure comes from local code; ventilation of occupied rooms is designed by those who answer for it.
///
/// Parameters
/// ----------
/// people : int
///     How many.
/// per_person_m3_per_s : float
///     Fresh air for one, m^3/s (10 L/s is 0.010).
#[pyfunction]
pub fn fresh_air_m3_per_s(people: usize, per_person_m3_per_s: f64) -> PyResult<f64> {
    Ok(fresh_air(people, per_person_m3_per_s)?)
}
