//! Waves and exposures shared by all subjects.

use pyo3::prelude::*;
#[cfg(feature = "stubs")]
use pyo3::{
    inspect::{PyStaticConstant, PyStaticExpr},
    type_hint_identifier, type_hint_subscript,
};

use super::class::value_class;
use crate::{PlaneWave, Polarization};

/// A polarization given as a word.
#[derive(Clone, Copy)]
pub struct PolarizationArg(pub Polarization);

impl<'a, 'py> FromPyObject<'a, 'py> for PolarizationArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("typing", "Literal"),
        PyStaticExpr::Constant { value: PyStaticConstant::Str("te") },
        PyStaticExpr::Constant { value: PyStaticConstant::Str("tm") }
    );

    fn extract(object: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(object.extract::<String>()?.parse()?))
    }
}

/// A uniform plane wave on the room.
///
/// Parameters
/// ----------
/// angle_deg : float, default 0
///     Angle from the normal of the wall, degrees, 0 to less than 90.
/// polarization : {"te", "tm"}, default "te"
///     Which field lies in the wall: the electric one ("te") or the magnetic one ("tm").
/// inside_m : float, default 1.0
///     Distance behind the wall at which the field is observed, m. It matters for openings, whose
///     field spreads behind them; a sheet is the same at every distance.
///
/// Raises
/// ------
/// OutOfRangeError
///     For an angle or a distance outside its domain.
/// UnknownNameError
///     For another polarization.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> sr.PlaneWave(angle_deg=30.0)
/// PlaneWave(angle_deg=30.0, polarization='te', inside_m=1.0)
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "PlaneWave")]
#[derive(Clone, PartialEq)]
pub struct PyPlaneWave(pub PlaneWave);

#[pymethods]
impl PyPlaneWave {
    #[new]
    #[pyo3(signature = (angle_deg=0.0, polarization=PolarizationArg(Polarization::Te), inside_m=1.0))]
    fn new(angle_deg: f64, polarization: PolarizationArg, inside_m: f64) -> PyResult<Self> {
        Ok(Self(PlaneWave::new(angle_deg, polarization.0)?.observed_at(inside_m)?))
    }
}

value_class!(PyPlaneWave, "PlaneWave" {
    /// Angle from the normal of the wall, degrees.
    angle_deg: f64 = |wave| wave.angle_deg(),
    /// Which field lies in the wall.
    polarization: &'static str = |wave| wave.polarization().name(),
    /// Distance behind the wall at which the field is observed, m.
    inside_m: f64 = |wave| wave.inside_m(),
});
