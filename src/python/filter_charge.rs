//! What a filter's capacitors keep.

use pyo3::prelude::*;

use super::class::escape;
use crate::filter::{DISCHARGE_CAUTION, Discharge, StoredCharge};

/// What one way of switching off leaves between lines and the case, or between lines; each number is the worst of its own
/// over order, instants, tolerances and pairs.
#[pyclass(frozen, eq, module = "stillroom.filters", name = "Discharge")]
#[derive(Clone, PartialEq)]
pub struct PyDischarge(Discharge);

#[pymethods]
impl PyDischarge {
    /// How the supply is switched off: "at_once" (all poles), "pole_by_pole" (the load off before), "pole_by_pole_loaded"
    /// (while a load ties lines to one another).
    #[getter]
    fn switching_off(&self) -> &'static str {
        self.0.switching_off.name()
    }

    /// Between what: the pair that is longest above the safe voltage; of pairs that stay above, the one that keeps most.
    #[getter]
    fn between(&self) -> (String, String) {
        (self.0.from.to_string(), self.0.to.to_string())
    }

    /// Voltage as the last pole opens, V.
    #[getter]
    fn first_v(&self) -> f64 {
        self.0.first_v
    }

    /// Time until it is at the safe voltage for good, s; infinite if never.
    #[getter]
    fn time_s(&self) -> f64 {
        self.0.time_s
    }

    /// Whether it never falls to the safe voltage.
    #[getter]
    fn never(&self) -> bool {
        self.0.never()
    }

    /// Voltage left for ever, V.
    #[getter]
    fn left_v(&self) -> f64 {
        self.0.left_v
    }

    /// Energy that the whole filter keeps for ever, J.
    #[getter]
    fn left_j(&self) -> f64 {
        self.0.left_j
    }

    fn __repr__(&self) -> String {
        format!("<Discharge: {}>", self.0)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }
}

/// What the capacitors keep after switching off; its text ends with the caution.
#[pyclass(frozen, eq, module = "stillroom.filters", name = "StoredCharge")]
#[derive(Clone, PartialEq)]
pub struct PyStoredCharge(pub StoredCharge);

#[pymethods]
impl PyStoredCharge {
    /// The safe voltage, V.
    #[getter]
    fn safe_voltage_v(&self) -> f64 {
        self.0.safe_voltage_v
    }

    /// By how much the supply's voltage was taken higher than nominal, as a fraction.
    #[getter]
    fn voltage_tolerance(&self) -> f64 {
        self.0.voltage_tolerance
    }

    /// How far the capacitors were taken off either way, as a fraction.
    #[getter]
    fn capacitance_tolerance(&self) -> f64 {
        self.0.capacitance_tolerance
    }

    /// For each way of switching off, to the case and between lines, worst first.
    #[getter]
    fn cases(&self) -> Vec<PyDischarge> {
        self.0.cases.iter().copied().map(PyDischarge).collect()
    }

    /// The worst, or None where nothing can hold charge.
    #[getter]
    fn worst(&self) -> Option<PyDischarge> {
        self.0.worst().copied().map(PyDischarge)
    }

    /// Time until everything is at the safe voltage for good, s; infinite if never.
    #[getter]
    fn time_s(&self) -> f64 {
        self.0.time_s()
    }

    /// Whether something never falls to the safe voltage.
    #[getter]
    fn never(&self) -> bool {
        self.0.time_s() == f64::INFINITY
    }

    /// Largest voltage left for ever, V.
    #[getter]
    fn left_v(&self) -> f64 {
        self.0.left_v()
    }

    /// Largest energy left for ever, J.
    #[getter]
    fn left_j(&self) -> f64 {
        self.0.left_j()
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        DISCHARGE_CAUTION
    }

    fn __repr__(&self) -> String {
        let worst = self.0.worst().map_or_else(|| "nothing".to_owned(), ToString::to_string);
        format!("<StoredCharge: worst {worst}; {DISCHARGE_CAUTION}>")
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn _repr_html_(&self) -> String {
        format!("<pre>{}</pre>", escape(&self.0.to_string()))
    }
}
