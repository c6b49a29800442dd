//! A filtered line as a leak.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::class::{parameter_methods, value_class};
use super::filter::PyLadder;
use super::filter_ends::{PyMeasuringCircuit, TerminationArg};
use super::filter_files::PyMeasuredLoss;
use super::filter_lines::PyLineFilter;
use super::leak::PyLeak;
use crate::filter::{Conductor, FilteredLine, LineLoss};

/// A wire on one side of the wall.
///
/// Parameters
/// ----------
/// length_m : float
///     Length, m.
/// termination : complex, LineNetwork or Wire, default 50
///     What the filter sees of it.
/// height_m : float, optional
///     Height above the wall or the ground that it runs along, m; not for a `Wire`, which stands off the wall. Where
///     not given, the conductor counts as a straight wire of its length that stands off, which is the more cautious.
///
/// Notes
/// -----
/// Radiation resistance of a straight wire 40 tan^2(k l/2) ohm, which bounds its 10 (k l)^2 ohm when short and 36.5 ohm at
/// the quarter wave; from k l = 1 on raised, so that by 2.2 all of a matched antenna's power is counted. Of a line along a
/// plane 120 (k h)^2 (1 - sin(2 k l)/(2 k l)) ohm terminated (after J. E. Storer and R. King, *Radiation resistance of a
/// two-wire line*, 1951), and 1/(2 sin^2 k l) times as much open at its far end (40 (k h)^2 ohm when short). The far end is
/// not asked: up to an eighth of a wavelength it counts as open, beyond as terminated, whichever is the greater. That is a
/// bound for both up to k l = 2, and an estimate for others: a line in resonance passes more, a matched antenna's power
/// at most. Valid up to a height of a tenth of a wavelength.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "Conductor")]
#[derive(Clone, PartialEq)]
pub struct PyConductor(pub Conductor);

#[pymethods]
impl PyConductor {
    #[new]
    #[pyo3(signature = (length_m, termination=TerminationArg::Impedance(Complex64::new(50.0, 0.0)), height_m=None))]
    fn new(length_m: f64, termination: TerminationArg, height_m: Option<f64>) -> PyResult<Self> {
        let conductor = Conductor::new(length_m, termination.into_core()?)?;
        Ok(Self(match height_m {
            None => conductor,
            Some(height_m) => conductor.with_height_m(height_m)?,
        }))
    }
}

value_class!(PyConductor, "Conductor" {
    /// Length, m.
    length_m: f64 = |conductor| conductor.length_m(),
    /// What the filter sees of it.
    termination: TerminationArg = |conductor| TerminationArg::from_core(conductor.termination()),
    /// Height above the plane that it runs along, m, or None.
    height_m: Option<f64> = |conductor| conductor.height_m(),
});
parameter_methods!(PyConductor);

/// What keeps a line from carrying: computed or measured.
#[derive(FromPyObject, IntoPyObject)]
pub enum LineLossArg {
    Ladder(PyLadder),
    Lines(PyLineFilter),
    Measured(PyMeasuredLoss),
}

impl LineLossArg {
    fn from_core(filter: &LineLoss) -> Self {
        match filter {
            LineLoss::Ladder(ladder) => Self::Ladder(PyLadder(ladder.clone())),
            LineLoss::Lines(filter) => Self::Lines(PyLineFilter(filter.clone())),
            LineLoss::Measured(table) => Self::Measured(PyMeasuredLoss(table.clone())),
        }
    }

    fn into_core(self) -> PyResult<LineLoss> {
        Ok(match self {
            Self::Ladder(ladder) => ladder.0.into(),
            Self::Lines(filter) => filter.0.into(),
            Self::Measured(table) => table.0.into(),
        })
    }
}

FilteredLine! {
    /// A line through the wall with a filter in it, as a leak.
    ///
    /// Mains filters put current into the protective earth: bond the case before energising, check touch
    /// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Cross-section = (lambda^2/4 pi) x outside efficiency x transducer gain of the filter x inside efficiency.
    /// Each efficiency is min(1, R_rad/R), see `Conductor`: matched antennas at most, bounded by length and height at low
    /// frequency. A bound in the stated circuit, not a prediction: from k l = 1 on a bare wire has an impedance of its own, to
    /// be stated as a `Wire`. Every wire is bounded by the filter's gain between the worst terminations
    /// (`TwoPort.worst_transducer_loss_db`) with both efficiencies one.
    class PyFilteredLine extends PyLeak;
}

#[pymethods]
impl PyFilteredLine {
    /// The circuit that the filter works in: outside conductor as source, inside conductor as load.
    #[getter]
    fn circuit(&self) -> PyMeasuringCircuit {
        PyMeasuringCircuit(self.0.circuit())
    }
}
