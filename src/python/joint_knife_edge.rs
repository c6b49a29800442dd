//! Knife-edge doors.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{leak_class, value_class};
use super::joint_contacts::PyFingerRow;
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::error::check;
use crate::joint::KnifeEdge;

/// A door whose blade goes into a channel, with rows of fingers on both sides of the blade.
///
/// Parameters
/// ----------
/// length_m : float
///     Length around the door, m, positive.
/// gap_m : float
///     Gap between the blade and either wall of the channel, bridged by the fingers, m, positive, below their free
///     height.
/// blade_depth_m : float
///     Depth that the blade goes into the channel, m, positive.
/// fingers : FingerRow
///     One row. Fingers whose heights are not told are taken as pressed to half of their free height.
/// blade_thickness_m : float, default 0.006
///     Thickness of the blade, m, positive.
/// edge_clearance_m : float, default 0.003
///     Between the edge of the blade and the bottom of the channel, m, positive.
/// mouth_depth_m : float, optional
///     From the mouth of the channel to the first row, m, from zero to the depth; 3 mm, at most a quarter of the
///     depth, where not given.
/// row_count : int, default 1
///     Number of rows on each side of the blade, 1 to 16.
/// row_spacing_m : float, default 0.01
///     Distance between rows of one side, m, zero or positive; all rows lie within the depth.
/// faces : Material, default tin
///     What blade and channel are made of.
///
/// Notes
/// -----
/// A chain of lines and rows: mouth, rows of the outer side, pocket under the edge, rows of the inner side, mouth. Each
/// line has the height of its gap; corners are left out, which is right for heights well below half a wavelength (0.15
/// wavelengths are the domain). Below the first resonance of a pocket (`edge_pocket_m` is half a wavelength) rows
/// add their decibels and more; above, less. All fingers touch: one that is broken or dirty is not in it. Default
/// dimensions are common practice, no source.
///
/// A wider gap takes force from the fingers and makes straight ones longer, which is worse, and makes the space
/// between rows larger, which is better. For leaves of a long run the second just about wins at high frequency; that is
/// no advice to open the gap of a door, which costs contact before anything else.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> fingers = sr.joints.FingerRow(4e-3, slot_width_m=0.4e-3, finger_thickness_m=0.1e-3, finger_run_m=8e-3)
/// >>> door = sr.joints.KnifeEdge(6.0, gap_m=2e-3, blade_depth_m=25e-3, fingers=fingers)
/// >>> wider = door.with_parameter("fingers.slot_width_m", 0.8e-3)
/// >>> wider.cross_section_db(10e9) > door.cross_section_db(10e9) + 25
/// True
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom.joints", name = "KnifeEdge")]
#[derive(Clone, PartialEq)]
pub struct PyKnifeEdge(pub KnifeEdge);
leak_class!(PyKnifeEdge);

#[pymethods]
impl PyKnifeEdge {
    #[new]
    #[pyo3(signature = (
        length_m,
        gap_m,
        blade_depth_m,
        fingers,
        blade_thickness_m=0.006,
        edge_clearance_m=0.003,
        mouth_depth_m=None,
        row_count=1.0,
        row_spacing_m=0.01,
        faces=None,
    ))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        length_m: f64,
        gap_m: f64,
        blade_depth_m: f64,
        fingers: PyFingerRow,
        blade_thickness_m: f64,
        edge_clearance_m: f64,
        mouth_depth_m: Option<f64>,
        row_count: f64,
        row_spacing_m: f64,
        faces: Option<PyMaterial>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let rows = check::count("row_count", row_count, 1)?;
        let door = KnifeEdge::new(length_m, gap_m, blade_depth_m, fingers.0)?;
        let mouth_m = mouth_depth_m.unwrap_or(door.mouth_depth_m());
        let door = door.with_edge(blade_thickness_m, edge_clearance_m)?.with_rows(rows, mouth_m, row_spacing_m)?;
        Ok(Self(match faces {
            Some(faces) => door.with_faces(faces.0),
            None => door,
        })
        .into())
    }

    /// Length of the pocket under the edge, from the last row of one side to that of the other, m.
    #[getter]
    fn edge_pocket_m(&self) -> f64 {
        self.0.edge_pocket_m()
    }

    /// Transfer impedance of one row times length, ohm m.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn transfer_impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        batch(py, "frequency_hz", &frequency_hz, Complex64::default(), |f, out| {
            check::frequencies(f)?;
            out.iter_mut().zip(f).for_each(|(z, &f)| *z = self.0.transfer_impedance_ohm_m(f));
            Ok(())
        })
    }
}

value_class!(PyKnifeEdge, "KnifeEdge" {
    /// Length around the door, m.
    length_m: f64 = |door| door.length_m(),
    /// Gap between the blade and either wall of the channel, m.
    gap_m: f64 = |door| door.gap_m(),
    /// Depth that the blade goes into the channel, m.
    blade_depth_m: f64 = |door| door.blade_depth_m(),
    /// One row.
    fingers: PyFingerRow = |door| PyFingerRow(door.fingers()),
    /// Thickness of the blade, m.
    blade_thickness_m: f64 = |door| door.blade_thickness_m(),
    /// Between the edge of the blade and the bottom of the channel, m.
    edge_clearance_m: f64 = |door| door.edge_clearance_m(),
    /// From the mouth of the channel to the first row, m.
    mouth_depth_m: f64 = |door| door.mouth_depth_m(),
    /// Number of rows on each side of the blade.
    row_count: usize = |door| door.row_count(),
    /// Distance between rows of one side, m.
    row_spacing_m: f64 = |door| door.row_spacing_m(),
    /// What blade and channel are made of.
    faces: PyMaterial = |door| PyMaterial(door.faces().clone()),
});
