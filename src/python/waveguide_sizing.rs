//! The vent and the tube that just meet a target.

use pyo3::prelude::*;

use super::air::PyAir;
use super::honeycomb::{CellArg, PyHoneycombPanel};
use super::tube::{PyRod, PyTube};
use super::waveguide::GuideArg;
use crate::waveguide::Air;
use crate::waveguide::sizing::{self, VentTask};

/// The vent panel with the target shielding and the least pressure drop.
///
/// Cells are like `like` in kind and wall, of any width below their cutoff, each panel as shallow as the target allows.
///
/// Parameters
/// ----------
/// like : HexagonalCell or SquareCell or RoundCell
///     Kind of cell and its wall.
/// target_db : float
///     Shielding under a plane wave along the normal, dB.
/// frequency_hz : float
///     Where it has to hold, and below, Hz.
/// flow_m3_per_s : float
///     Flow that has to pass, m^3/s.
/// size_m : (float, float)
///     Width and height of the face, m.
/// least_width_m : float, default 0.5e-3
///     Smallest cell that can be had, m.
/// greatest_depth_m : float, default 0.1
///     Greatest depth that can be had, m.
/// air : Air, optional
///     Room air where not given.
///
/// Raises
/// ------
/// UnreachableError
///     Where even the smallest cell at the greatest depth falls short; `best` tells what can be had.
#[pyfunction]
#[pyo3(signature = (like, target_db, frequency_hz, flow_m3_per_s, size_m, least_width_m=0.5e-3, greatest_depth_m=0.1, air=None))]
#[allow(clippy::too_many_arguments)]
pub fn size_vent(
    py: Python<'_>,
    like: CellArg,
    target_db: f64,
    frequency_hz: f64,
    flow_m3_per_s: f64,
    size_m: (f64, f64),
    least_width_m: f64,
    greatest_depth_m: f64,
    air: Option<PyAir>,
) -> PyResult<Py<PyHoneycombPanel>> {
    let task = VentTask { target_db, frequency_hz, flow_m3_per_s, size_m, least_width_m, greatest_depth_m };
    let (like, air) = (like.into_core()?, air.map_or_else(Air::default, |air| air.0));
    let panel = py.detach(|| sizing::size_vent(&task, &like, &air))?;
    Py::new(py, PyHoneycombPanel(panel))
}

/// The shortest tube whose attenuation reaches a target, with what lies inside: that of the mode which decays least, with a rod often TM0.
///
/// Parameters
/// ----------
/// guide : CircularGuide or RectangularGuide or HexagonalGuide
///     Its cross-section.
/// target_db : float
///     Attenuation over the length, without the ends, dB.
/// frequency_hz : float
///     Where it has to hold, Hz.
/// rod : Rod, optional
///     A dielectric rod inside.
/// greatest_length_m : float, default 1
///     Greatest length that can be had, m.
///
/// Raises
/// ------
/// UnreachableError
///     At or above cutoff, or where the tube would be longer than can be had.
#[pyfunction]
#[pyo3(signature = (guide, target_db, frequency_hz, rod=None, greatest_length_m=1.0))]
pub fn size_tube(
    py: Python<'_>,
    guide: GuideArg,
    target_db: f64,
    frequency_hz: f64,
    rod: Option<PyRod>,
    greatest_length_m: f64,
) -> PyResult<Py<PyTube>> {
    let rod = rod.map(|rod| rod.0);
    let tube = sizing::size_tube(guide.into_core()?, rod, target_db, frequency_hz, greatest_length_m)?;
    Py::new(py, PyTube(tube))
}
