//! Knife-edge doors.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::joint::impedance_of_a_row;
use super::joint_contacts::PyFingerRow;
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::error::check;
use crate::joint::KnifeEdge;

KnifeEdge! {
    /// A door whose blade goes into a channel, with rows of fingers on both sides of the blade.
    ///
    /// {parameters}
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
    class PyKnifeEdge extends PyLeak in joints;
}
impedance_of_a_row!(PyKnifeEdge);

#[pymethods]
impl PyKnifeEdge {
    /// Length of the pocket under the edge, from the last row of one side to that of the other, m.
    #[getter]
    fn edge_pocket_m(&self) -> f64 {
        self.0.edge_pocket_m()
    }
}
