//! What a filter does to the mains.

use pyo3::prelude::*;

use super::class::{escape, parameter_methods, value_class};
use crate::error::{Error, check};
use crate::filter::{CAUTION, EarthLeakage, MainsDuty, MainsLimits, MainsSupply, SupplySystem};

/// A mains supply.
///
/// Parameters
/// ----------
/// system : {"single_line", "line_neutral", "three_phase", "three_phase_neutral"}
///     Kind of supply.
/// voltage_v : float, default 230
///     Voltage of a line against neutral or earth, V (effective value).
/// frequency_hz : float, default 50
///     Frequency, Hz.
/// voltage_tolerance : float, default 0
///     By how much the voltage may be higher, as a fraction.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "MainsSupply")]
#[derive(Clone, PartialEq)]
pub struct PyMainsSupply(pub MainsSupply);

#[pymethods]
impl PyMainsSupply {
    #[new]
    #[pyo3(signature = (system="line_neutral", voltage_v=230.0, frequency_hz=50.0, voltage_tolerance=0.0))]
    fn new(system: &str, voltage_v: f64, frequency_hz: f64, voltage_tolerance: f64) -> PyResult<Self> {
        let system =
            SupplySystem::ALL.into_iter().find(|known| known.name() == system).ok_or_else(|| Error::UnknownName {
                kind: "supply system",
                name: system.to_owned(),
                known: SupplySystem::ALL.iter().map(|known| known.name().to_owned()).collect(),
            })?;
        Ok(Self(MainsSupply::new(system, voltage_v, frequency_hz)?.with_voltage_tolerance(voltage_tolerance)?))
    }

    /// Earth-leakage current of a capacitance from each line to earth.
    ///
    /// Parameters
    /// ----------
    /// capacitance_f : sequence of float
    ///     One for each line, F.
    /// capacitance_tolerance : float, default 0
    ///     How far they may be off either way, as a fraction.
    ///
    /// Returns
    /// -------
    /// EarthLeakage
    ///     At the highest voltage and the worst tolerances.
    #[pyo3(signature = (capacitance_f, capacitance_tolerance=0.0))]
    fn earth_leakage(&self, capacitance_f: Vec<f64>, capacitance_tolerance: f64) -> PyResult<PyEarthLeakage> {
        Ok(PyEarthLeakage(self.0.earth_leakage(&capacitance_f, capacitance_tolerance)?))
    }
}

value_class!(PyMainsSupply, "MainsSupply" {
    /// Kind of supply.
    system: &'static str = |supply| supply.system().name(),
    /// Voltage of a line against neutral or earth, V.
    voltage_v: f64 = |supply| supply.voltage_v(),
    /// Frequency, Hz.
    frequency_hz: f64 = |supply| supply.frequency_hz(),
    /// By how much the voltage may be higher, as a fraction.
    voltage_tolerance: f64 = |supply| supply.voltage_tolerance(),
});
parameter_methods!(PyMainsSupply);

/// Earth-leakage currents, effective values, A.
#[pyclass(frozen, eq, module = "stillroom", name = "EarthLeakage")]
#[derive(Clone, PartialEq)]
pub struct PyEarthLeakage(pub EarthLeakage);

#[pymethods]
impl PyEarthLeakage {
    #[new]
    #[pyo3(signature = (*, normal_a, one_line_lost_a))]
    fn new(normal_a: f64, one_line_lost_a: f64) -> PyResult<Self> {
        Ok(Self(EarthLeakage {
            normal_a: check::non_negative("normal_a", "A", normal_a)?,
            one_line_lost_a: check::non_negative("one_line_lost_a", "A", one_line_lost_a)?,
        }))
    }
}

value_class!(PyEarthLeakage, "EarthLeakage" {
    /// With all lines connected, A.
    normal_a: f64 = |leakage| leakage.normal_a,
    /// With one line lost, A.
    one_line_lost_a: f64 = |leakage| leakage.one_line_lost_a,
});

/// What a filter of several lines does on the mains; its text ends with the caution.
#[pyclass(frozen, eq, module = "stillroom", name = "MainsDuty")]
#[derive(Clone, PartialEq)]
pub struct PyMainsDuty(pub MainsDuty);

#[pymethods]
impl PyMainsDuty {
    /// Currents into the protective earth.
    #[getter]
    fn earth_leakage(&self) -> PyEarthLeakage {
        PyEarthLeakage(self.0.earth_leakage)
    }

    /// Reactive power of the capacitors at nominal voltage, var.
    #[getter]
    fn reactive_power_var(&self) -> f64 {
        self.0.reactive_power_var
    }

    /// Voltage lost in the series parts at load current, V.
    #[getter]
    fn volt_drop_v(&self) -> f64 {
        self.0.volt_drop_v
    }

    /// The same as a fraction of the supply's voltage.
    #[getter]
    fn volt_drop_fraction(&self) -> f64 {
        self.0.volt_drop_fraction
    }

    /// Heat of the load current in all lines, W.
    #[getter]
    fn copper_heat_w(&self) -> f64 {
        self.0.copper_heat_w
    }

    /// Heat in the dielectrics, W.
    #[getter]
    fn dielectric_heat_w(&self) -> f64 {
        self.0.dielectric_heat_w
    }

    /// Time to bleed down to the safe voltage, s; infinite without a discharge resistor.
    #[getter]
    fn bleed_down_s(&self) -> f64 {
        self.0.bleed_down_s
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        CAUTION
    }

    /// Limits that are passed; what is allowed is for the code that applies, and for the caller to state.
    ///
    /// Parameters
    /// ----------
    /// earth_leakage_a, one_line_lost_a : float, optional
    ///     Allowed earth-leakage currents, A.
    /// volt_drop_fraction : float, optional
    ///     Allowed volt drop as a fraction.
    /// bleed_down_s : float, optional
    ///     Allowed time to bleed down, s.
    ///
    /// Returns
    /// -------
    /// dict[str, tuple[float, float]]
    ///     Quantity to (value, limit) for each limit passed; empty if none is.
    #[pyo3(signature = (*, earth_leakage_a=None, one_line_lost_a=None, volt_drop_fraction=None, bleed_down_s=None))]
    fn passed(
        &self,
        earth_leakage_a: Option<f64>,
        one_line_lost_a: Option<f64>,
        volt_drop_fraction: Option<f64>,
        bleed_down_s: Option<f64>,
    ) -> std::collections::BTreeMap<&'static str, (f64, f64)> {
        let limits = MainsLimits { earth_leakage_a, one_line_lost_a, volt_drop_fraction, bleed_down_s };
        self.0.passed(&limits).into_iter().map(|passed| (passed.quantity, (passed.value, passed.limit))).collect()
    }

    fn __repr__(&self) -> String {
        format!(
            "<MainsDuty: earth leakage {:.3} mA ({:.3} mA with one line lost), volt drop {:.3} %; {CAUTION}>",
            1e3 * self.0.earth_leakage.normal_a,
            1e3 * self.0.earth_leakage.one_line_lost_a,
            100.0 * self.0.volt_drop_fraction,
        )
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn _repr_html_(&self) -> String {
        format!("<pre>{}</pre>", escape(&self.0.to_string()))
    }
}
