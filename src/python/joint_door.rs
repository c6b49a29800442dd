//! Gasketed joints and doors.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_subscript, type_hint_union};

use super::class::{leak_class, value_class};
use super::joint::{PyContactLine, PySeam};
use super::joint_contacts::ContactArg;
use super::joint_knife_edge::PyKnifeEdge;
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::decibel::loss_db_of_ln_power;
use crate::error::check;
use crate::joint::{Door, GasketLine, Joint};

/// A gasketed joint: a gap bridged by one or more rows, one behind the other.
///
/// Parameters
/// ----------
/// length_m : float
///     Length of the joint, m, positive.
/// gap_m : float
///     Gap between the faces, m, positive, at most the length.
/// rows : sequence of Gasket, ImpedanceTable, FingerRow or ContactsBeside
///     What bridges it, from outside in; at least one. Fingers must reach across the gap; those whose heights are
///     not told are taken as pressed to half of their free height.
/// row_spacing_m : float, default 0.012
///     Distance between rows, m, zero or positive.
/// faces : Material, default tin
///     What the faces are made of.
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
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "GasketLine")]
#[derive(Clone, PartialEq)]
pub struct PyGasketLine(pub GasketLine);
leak_class!(PyGasketLine);

#[pymethods]
impl PyGasketLine {
    #[new]
    #[pyo3(signature = (length_m, gap_m, rows, row_spacing_m=0.012, faces=None))]
    fn new(
        length_m: f64,
        gap_m: f64,
        rows: Vec<ContactArg>,
        row_spacing_m: f64,
        faces: Option<PyMaterial>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let line = GasketLine::new(length_m, gap_m, ContactArg::all(rows)?)?.with_row_spacing(row_spacing_m)?;
        Ok(Self(match faces {
            Some(faces) => line.with_faces(faces.0),
            None => line,
        })
        .into())
    }
}

value_class!(PyGasketLine, "GasketLine" {
    /// Length of the joint, m.
    length_m: f64 = |line| line.length_m(),
    /// Gap between the faces, m.
    gap_m: f64 = |line| line.gap_m(),
    /// What bridges it, from outside in.
    rows: Vec<ContactArg> = |line| line.rows().iter().map(ContactArg::from_core).collect(),
    /// Distance between rows, m.
    row_spacing_m: f64 = |line| line.row_spacing_m(),
    /// What the faces are made of.
    faces: PyMaterial = |line| PyMaterial(line.faces().clone()),
});

/// A door: the joints along its sides, each with a name.
///
/// Every side lets through what it does on its own, and their cross-sections add.
///
/// Parameters
/// ----------
/// sides : dict[str, ContactLine or GasketLine or KnifeEdge or Seam]
///     The joints by name, at least one; names without dots.
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
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "Door")]
#[derive(Clone, PartialEq)]
pub struct PyDoor(pub Door);
leak_class!(PyDoor);

#[pymethods]
impl PyDoor {
    #[new]
    #[pyo3(signature = (sides: "dict[str, ContactLine | GasketLine | KnifeEdge | Seam]"))]
    fn new(sides: &Bound<'_, PyDict>) -> PyResult<PyClassInitializer<Self>> {
        let mut joints = Vec::with_capacity(sides.len());
        for (name, joint) in sides {
            let refused = |_| PyTypeError::new_err(format!("names in `sides` must be str, not {name:?}"));
            let name: String = name.extract().map_err(refused)?;
            joints.push((name.clone(), joint_of(&name, &joint)?));
        }
        Ok(Self(Door::new(joints)?).into())
    }

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

fn joint_of(name: &str, joint: &Bound<'_, PyAny>) -> PyResult<Joint> {
    if let Ok(line) = joint.cast::<PyContactLine>() {
        Ok(line.get().0.clone().into())
    } else if let Ok(line) = joint.cast::<PyGasketLine>() {
        Ok(line.get().0.clone().into())
    } else if let Ok(edge) = joint.cast::<PyKnifeEdge>() {
        Ok(edge.get().0.clone().into())
    } else if let Ok(seam) = joint.cast::<PySeam>() {
        Ok(seam.get().0.clone().into())
    } else {
        Err(PyTypeError::new_err(format!(
            "`sides[{name:?}]` must be a ContactLine, a GasketLine, a KnifeEdge or a Seam, not {joint:?}"
        )))
    }
}

/// The joints of a door on their way to Python.
pub struct SidesObject(Vec<(String, Joint)>);

impl<'py> IntoPyObject<'py> for SidesObject {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("builtins", "dict"),
        type_hint_identifier!("builtins", "str"),
        type_hint_union!(
            <PyContactLine as pyo3::PyTypeInfo>::TYPE_HINT,
            <PyGasketLine as pyo3::PyTypeInfo>::TYPE_HINT,
            <PyKnifeEdge as pyo3::PyTypeInfo>::TYPE_HINT,
            <PySeam as pyo3::PyTypeInfo>::TYPE_HINT
        )
    );

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let sides = PyDict::new(py);
        for (name, joint) in self.0 {
            match joint {
                Joint::Contacts(line) => sides.set_item(name, Py::new(py, PyContactLine(line))?)?,
                Joint::Gasket(line) => sides.set_item(name, Py::new(py, PyGasketLine(line))?)?,
                Joint::KnifeEdge(edge) => sides.set_item(name, Py::new(py, PyKnifeEdge(edge))?)?,
                Joint::Seam(seam) => sides.set_item(name, Py::new(py, PySeam(seam))?)?,
            }
        }
        Ok(sides)
    }
}

value_class!(PyDoor, "Door" {
    /// The joints by name.
    sides: SidesObject = |door| SidesObject(door.sides().to_vec()),
});
