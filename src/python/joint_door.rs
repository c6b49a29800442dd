//! Gasketed joints and doors.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_subscript};

use super::joint::{PyContactLine, PySeam};
use super::joint_contacts::ContactArg;
use super::joint_knife_edge::PyKnifeEdge;
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::decibel::loss_db_of_ln_power;
use crate::error::check;
use crate::joint::{Door, GasketLine, Joint};

GasketLine! {
    /// A gasketed joint: a gap bridged by one or more rows, one behind the other.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Rows are shunts on the gap as a line, and resonate where their distance is half a wavelength. The
    /// parameters of the rows are `rows.0.resistance_ohm_m` and so on.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> lid = sr.GasketLine(length_m=1.9, gap_m=1e-3, rows=[sr.joints.Gasket(2e-5, 2e-12)])
    /// >>> worn = lid.with_parameter("rows.0.resistance_ohm_m", 2e-3)
    /// >>> worn.cross_section_db(1e6) > lid.cross_section_db(1e6) + 30
    /// True
    class PyGasketLine extends PyLeak;
}

Door! {
    /// A door: the joints along its sides, each with a name.
    ///
    /// Every side lets through what it does on its own, and their cross-sections add.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// The parameters of a side are `<name>.gap_m` and so on.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> jambs = sr.ContactLine(5.1, finger_pitch_m=5e-3, gap_m=0.5e-3)
    /// >>> sill = sr.GasketLine(0.9, gap_m=1e-3, rows=[sr.joints.Gasket(1e-3, 1e-10)])
    /// >>> door = sr.Door({"jambs": jambs, "sill": sill})
    /// >>> door.perimeter_m
    /// 6.0
    /// >>> sides = door.cross_section_db_by_side(1e9)
    /// >>> max(sides, key=sides.get)
    /// 'sill'
    class PyDoor extends PyLeak;
}

#[pymethods]
impl PyDoor {
    /// Length of all joints together, m.
    #[getter]
    fn perimeter_m(&self) -> f64 {
        self.0.perimeter_m()
    }

    /// Cross-section of each side, dB relative to 1 m^2.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : float
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// dict[str, float]
    ///     By the names of the sides.
    #[pyo3(signature = (frequency_hz) -> "dict[str, float]")]
    fn cross_section_db_by_side<'py>(&self, py: Python<'py>, frequency_hz: f64) -> PyResult<Bound<'py, PyDict>> {
        let values = PyDict::new(py);
        for (name, ln) in self.0.ln_by_side(check::frequency(frequency_hz)?) {
            values.set_item(name, -loss_db_of_ln_power(ln))?;
        }
        Ok(values)
    }
}

/// One of the classes that can close a side.
#[derive(FromPyObject, IntoPyObject)]
enum JointArg {
    Contacts(PyContactLine),
    Gasket(PyGasketLine),
    KnifeEdge(PyKnifeEdge),
    Seam(PySeam),
}

impl JointArg {
    fn from_core(joint: &Joint) -> Self {
        match joint {
            Joint::Contacts(line) => Self::Contacts(PyContactLine(line.clone())),
            Joint::Gasket(line) => Self::Gasket(PyGasketLine(line.clone())),
            Joint::KnifeEdge(edge) => Self::KnifeEdge(PyKnifeEdge(edge.clone())),
            Joint::Seam(seam) => Self::Seam(PySeam(seam.clone())),
        }
    }

    fn into_core(self) -> Joint {
        match self {
            Self::Contacts(line) => line.0.into(),
            Self::Gasket(line) => line.0.into(),
            Self::KnifeEdge(edge) => edge.0.into(),
            Self::Seam(seam) => seam.0.into(),
        }
    }
}

/// The joints of a door by name, in order.
pub struct SidesArg(Vec<(String, JointArg)>);

impl SidesArg {
    pub fn from_core(sides: &[(String, Joint)]) -> Self {
        Self(sides.iter().map(|(name, joint)| (name.clone(), JointArg::from_core(joint))).collect())
    }

    pub fn into_core(self) -> PyResult<Vec<(String, Joint)>> {
        Ok(self.0.into_iter().map(|(name, joint)| (name, joint.into_core())).collect())
    }
}

impl<'py> FromPyObject<'_, 'py> for SidesArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("builtins", "dict"),
        type_hint_identifier!("builtins", "str"),
        <JointArg as FromPyObject<'_, '_>>::INPUT_TYPE
    );

    fn extract(sides: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let mut joints = Vec::new();
        for (name, joint) in sides.cast::<PyDict>()?.iter() {
            let refused = |_| PyTypeError::new_err(format!("names in `sides` must be str, not {name:?}"));
            let name: String = name.extract().map_err(refused)?;
            let refused = |_| {
                let wanted = "a ContactLine, a GasketLine, a KnifeEdge or a Seam";
                PyTypeError::new_err(format!("`sides[{name:?}]` must be {wanted}, not {joint:?}"))
            };
            let joint = joint.extract().map_err(refused)?;
            joints.push((name, joint));
        }
        Ok(Self(joints))
    }
}

impl<'py> IntoPyObject<'py> for SidesArg {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("builtins", "dict"),
        type_hint_identifier!("builtins", "str"),
        <JointArg as IntoPyObject<'_>>::OUTPUT_TYPE
    );

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let sides = PyDict::new(py);
        for (name, joint) in self.0 {
            sides.set_item(name, joint)?;
        }
        Ok(sides)
    }
}
