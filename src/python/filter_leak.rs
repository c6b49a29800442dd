//! A filtered line as a leak.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::class::{leak_class, parameter_methods, value_class};
use super::filter::PyLadder;
use super::filter_ends::{PyMeasuringCircuit, TerminationArg};
use crate::filter::{Conductor, FilteredLine};

/// A wire on one side of the wall.
///
/// Parameters
/// ----------
/// length_m : float
///     Length, m.
/// termination : complex, LineNetwork or Wire, default 50
///     What the filter sees of it.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Conductor")]
#[derive(Clone, PartialEq)]
pub struct PyConductor(pub Conductor);

#[pymethods]
impl PyConductor {
    #[new]
    #[pyo3(signature = (length_m, termination=TerminationArg::Impedance(Complex64::new(50.0, 0.0))))]
    fn new(length_m: f64, termination: TerminationArg) -> PyResult<Self> {
        Ok(Self(Conductor::new(length_m, termination.into_core()?)?))
    }
}

value_class!(PyConductor, "Conductor" {
    /// Length, m.
    length_m: f64 = |conductor| conductor.length_m(),
    /// What the filter sees of it.
    termination: TerminationArg = |conductor| TerminationArg::from_core(conductor.termination()),
});
parameter_methods!(PyConductor);

/// A line through the wall with a filter in it, as a leak.
///
/// Mains filters put current into the protective earth: bond the case before energising, check touch
/// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
///
/// Parameters
/// ----------
/// ladder : Ladder
///     The filter, outside first.
/// outside : Conductor
///     The wire outside.
/// inside : Conductor
///     The wire inside.
///
/// Notes
/// -----
/// Cross-section = (lambda^2/4 pi) x outside efficiency x transducer gain of the filter x inside efficiency.
/// Each efficiency is min(1, R_rad/R), R_rad = 40 pi^2 (l/lambda)^2 ohm: matched antennas at most, bounded by the
/// length at low frequency. A bound with stated lengths, not a prediction.
#[pyclass(frozen, eq, from_py_object, extends = super::leak::PyLeak, module = "stillroom", name = "FilteredLine")]
#[derive(Clone, PartialEq)]
pub struct PyFilteredLine(pub FilteredLine);
leak_class!(PyFilteredLine);

#[pymethods]
impl PyFilteredLine {
    #[new]
    fn new(ladder: PyLadder, outside: PyConductor, inside: PyConductor) -> PyClassInitializer<Self> {
        Self(FilteredLine::new(ladder.0, outside.0, inside.0)).into()
    }

    /// The circuit that the filter works in: outside conductor as source, inside conductor as load.
    #[getter]
    fn circuit(&self) -> PyMeasuringCircuit {
        PyMeasuringCircuit(self.0.circuit())
    }
}

value_class!(PyFilteredLine, "FilteredLine" {
    /// The filter.
    ladder: PyLadder = |line| PyLadder(line.ladder().clone()),
    /// The wire outside.
    outside: PyConductor = |line| PyConductor(line.outside().clone()),
    /// The wire inside.
    inside: PyConductor = |line| PyConductor(line.inside().clone()),
});
