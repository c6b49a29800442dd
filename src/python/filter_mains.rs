//! What a filter does to the mains.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::class::{escape, parameter_methods, value_class};
use super::filter_charge::PyStoredCharge;
use crate::error::{Error, check};
use crate::filter::{
    CAUTION, DISCHARGE_CAUTION, EarthLeakage, Held, LeakageCase, MainsDuty, MainsLimits, MainsSupply, SupplySystem,
};

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
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "MainsSupply")]
#[derive(Clone, PartialEq)]
pub struct PyMainsSupply(pub MainsSupply);

#[pymethods]
impl PyMainsSupply {
    #[new]
    #[pyo3(signature = (system="line_neutral", voltage_v=230.0, frequency_hz=50.0, voltage_tolerance=0.0))]
    fn new(system: &str, voltage_v: f64, frequency_hz: f64, voltage_tolerance: f64) -> PyResult<Self> {
        let system =
            SupplySystem::ALL.into_iter().find(|known| known.name() == system).ok_or_else(|| Error::UnknownName {
                kind: "supply system".into(),
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
    ///     At the highest voltage and the worst tolerances, with all lines connected and with lines lost.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> leakage = sr.filters.MainsSupply("three_phase").earth_leakage([100e-9] * 3)
    /// >>> round(1e3 * leakage.one_line_lost_a, 1), round(1e3 * leakage.worst_a, 2)
    /// (12.5, 21.68)
    #[pyo3(signature = (capacitance_f, capacitance_tolerance=0.0))]
    fn earth_leakage(&self, capacitance_f: Vec<f64>, capacitance_tolerance: f64) -> PyResult<PyEarthLeakage> {
        Ok(PyEarthLeakage(self.0.earth_leakage(&capacitance_f, capacitance_tolerance)?))
    }

    /// Earth-leakage current of a capacitance from each line to a star point, and one from there to earth.
    ///
    /// Parameters
    /// ----------
    /// capacitance_f : sequence of float
    ///     One for each line, F.
    /// to_earth_f : float
    ///     From the star point to earth, F.
    /// capacitance_tolerance : float, default 0
    ///     How far they may be off either way, as a fraction.
    ///
    /// Returns
    /// -------
    /// EarthLeakage
    #[pyo3(signature = (capacitance_f, to_earth_f, capacitance_tolerance=0.0))]
    fn earth_leakage_of_star(
        &self,
        capacitance_f: Vec<f64>,
        to_earth_f: f64,
        capacitance_tolerance: f64,
    ) -> PyResult<PyEarthLeakage> {
        Ok(PyEarthLeakage(self.0.earth_leakage_of_star(&capacitance_f, to_earth_f, capacitance_tolerance)?))
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

/// Earth-leakage current with lines lost.
///
/// Parameters
/// ----------
/// lost : sequence of int
///     Lines that are lost, counted from zero; the neutral is the last line.
/// held : sequence of int, "mean" or "earth"
///     For each of them the line that a load ties it to, "mean" of the lines that are left, or "earth" where it is dead.
/// neutral_lost : bool
///     Whether the neutral is among them.
/// current_a : float
///     Current, effective value, A.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "LeakageCase")]
#[derive(Clone, PartialEq)]
pub struct PyLeakageCase(LeakageCase);

/// What holds a lost line.
#[derive(FromPyObject, IntoPyObject)]
pub enum HeldArg {
    Line(usize),
    Name(String),
}

impl HeldArg {
    fn from_core(held: &Held) -> Self {
        match held {
            Held::Line(line) => Self::Line(*line),
            Held::Mean => Self::Name("mean".into()),
            Held::Earth => Self::Name("earth".into()),
        }
    }

    fn into_core(self) -> Result<Held, Error> {
        match self {
            Self::Line(line) => Ok(Held::Line(line)),
            Self::Name(name) if name == "mean" => Ok(Held::Mean),
            Self::Name(name) if name == "earth" => Ok(Held::Earth),
            Self::Name(name) => Err(Error::UnknownName {
                kind: "holder of a lost line".into(),
                name,
                known: vec!["a line".into(), "mean".into(), "earth".into()],
            }),
        }
    }
}

#[pymethods]
impl PyLeakageCase {
    #[new]
    #[pyo3(signature = (*, lost, held, neutral_lost, current_a))]
    fn new(lost: Vec<usize>, held: Vec<HeldArg>, neutral_lost: bool, current_a: f64) -> PyResult<Self> {
        check::same_length("held", held.len(), "lost", lost.len())?;
        Ok(Self(LeakageCase {
            lost,
            held: held.into_iter().map(HeldArg::into_core).collect::<Result<_, Error>>()?,
            neutral_lost,
            current_a: check::non_negative("current_a", "A", current_a)?,
        }))
    }

    fn __str__(&self) -> String {
        format!("{}: {:.3} mA", self.0, 1e3 * self.0.current_a)
    }
}

value_class!(PyLeakageCase, "LeakageCase" {
    /// Lines that are lost, counted from zero.
    lost: Vec<usize> = |case| case.lost.clone(),
    /// What holds each of them: a line, "mean" or "earth".
    held: Vec<HeldArg> = |case| case.held.iter().map(HeldArg::from_core).collect(),
    /// Whether the neutral is among them.
    neutral_lost: bool = |case| case.neutral_lost,
    /// Current, effective value, A.
    current_a: f64 = |case| case.current_a,
});

/// Earth-leakage currents, effective values, A.
///
/// Parameters
/// ----------
/// normal_a : float
///     With all lines connected, A.
/// cases : sequence of LeakageCase
///     With lines lost, largest first: for every number of lines lost, with and without the neutral, the worst that are
///     tied to others, at the mean of the others, and dead.
#[pyclass(frozen, eq, module = "stillroom.filters", name = "EarthLeakage")]
#[derive(Clone, PartialEq)]
pub struct PyEarthLeakage(pub EarthLeakage);

#[pymethods]
impl PyEarthLeakage {
    #[new]
    #[pyo3(signature = (*, normal_a, cases))]
    fn new(normal_a: f64, cases: Vec<PyLeakageCase>) -> PyResult<Self> {
        Ok(Self(EarthLeakage {
            normal_a: check::non_negative("normal_a", "A", normal_a)?,
            cases: cases.into_iter().map(|case| case.0).collect(),
        }))
    }

    /// The worst with anything lost, or None where nothing can be.
    #[getter]
    fn worst(&self) -> Option<PyLeakageCase> {
        self.0.worst().cloned().map(PyLeakageCase)
    }

    /// The largest current, whatever is lost or nothing, A.
    #[getter]
    fn worst_a(&self) -> f64 {
        self.0.worst_a()
    }

    /// The largest current with a single conductor lost, A.
    #[getter]
    fn one_line_lost_a(&self) -> f64 {
        self.0.one_line_lost_a()
    }
}

value_class!(PyEarthLeakage, "EarthLeakage" {
    /// With all lines connected, A.
    normal_a: f64 = |leakage| leakage.normal_a,
    /// With lines lost, largest first.
    cases: Vec<PyLeakageCase> = |leakage| leakage.cases.iter().cloned().map(PyLeakageCase).collect(),
});

/// What a filter of several lines does on the mains; its text ends with the caution.
#[pyclass(frozen, eq, module = "stillroom.filters", name = "MainsDuty")]
#[derive(Clone, PartialEq)]
pub struct PyMainsDuty(pub MainsDuty);

#[pymethods]
impl PyMainsDuty {
    /// Currents into the protective earth.
    #[getter]
    fn earth_leakage(&self) -> PyEarthLeakage {
        PyEarthLeakage(self.0.earth_leakage.clone())
    }

    /// Reactive power of the capacitors at nominal voltage, var.
    #[getter]
    fn reactive_power_var(&self) -> f64 {
        self.0.reactive_power_var
    }

    /// Nominal voltage of a line against neutral or earth, V.
    #[getter]
    fn voltage_v(&self) -> f64 {
        self.0.voltage_v
    }

    /// Load current, effective value, A.
    #[getter]
    fn load_current_rms_a(&self) -> f64 {
        self.0.load_current_rms_a
    }

    /// What the load current goes through, ohm: a line and the neutral for each line, the lines alone where there is no
    /// neutral (three phases without one are loaded alike).
    #[getter]
    fn way_ohm(&self) -> Vec<Complex64> {
        self.0.way_ohm.clone()
    }

    /// Bound of the voltage lost under load for every power factor, |Z| I of the worst way, V; coils with their mean
    /// inductance over the period.
    #[getter]
    fn volt_drop_v(&self) -> f64 {
        self.0.volt_drop_v
    }

    /// The same as a fraction of the nominal voltage.
    #[getter]
    fn volt_drop_fraction(&self) -> f64 {
        self.0.volt_drop_fraction
    }

    /// Voltage lost in the worst way at a power factor of the load, V; negative where a leading load lifts it.
    ///
    /// Parameters
    /// ----------
    /// power_factor : float
    ///     From 0 to 1.
    /// leading : bool, default False
    ///     Whether the current leads.
    #[pyo3(signature = (power_factor, leading=false))]
    fn volt_drop_at_v(&self, power_factor: f64, leading: bool) -> PyResult<f64> {
        Ok(self.0.volt_drop_at_v(power_factor, leading)?)
    }

    /// Rise of the voltage without load as a fraction, w^2 L C of the loop to first order.
    #[getter]
    fn no_load_rise_fraction(&self) -> f64 {
        self.0.no_load_rise_fraction
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

    /// What the capacitors keep after switching off.
    #[getter]
    fn stored_charge(&self) -> PyStoredCharge {
        PyStoredCharge(self.0.stored_charge.clone())
    }

    /// Time to bleed down to the safe voltage at the worst of every way to switch off, s; infinite if never.
    #[getter]
    fn bleed_down_s(&self) -> f64 {
        self.0.bleed_down_s()
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> String {
        format!("{DISCHARGE_CAUTION} {CAUTION}")
    }

    /// Limits that are exceeded, empty if all is well; what is allowed is for the code that applies, and for the caller to
    /// state. `keeps_within` gives a plain yes or no.
    ///
    /// Parameters
    /// ----------
    /// earth_leakage_a, one_line_lost_a, worst_leakage_a : float, optional
    ///     Allowed earth-leakage currents with all lines connected, with one conductor lost, and whatever is lost, A.
    /// volt_drop_fraction, no_load_rise_fraction : float, optional
    ///     Allowed volt drop and rise without load as fractions.
    /// bleed_down_s : float, optional
    ///     Allowed time to bleed down, s.
    /// left_voltage_v, left_energy_j : float, optional
    ///     Allowed voltage and energy left for ever, V and J.
    ///
    /// Returns
    /// -------
    /// dict[str, tuple[float, float]]
    ///     Quantity to (value, limit) for each limit exceeded.
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For a limit that is negative, infinite or not a number.
    #[pyo3(signature = (*, earth_leakage_a=None, one_line_lost_a=None, worst_leakage_a=None, volt_drop_fraction=None,
        no_load_rise_fraction=None, bleed_down_s=None, left_voltage_v=None, left_energy_j=None))]
    #[allow(clippy::too_many_arguments)]
    fn exceeded(
        &self,
        earth_leakage_a: Option<f64>,
        one_line_lost_a: Option<f64>,
        worst_leakage_a: Option<f64>,
        volt_drop_fraction: Option<f64>,
        no_load_rise_fraction: Option<f64>,
        bleed_down_s: Option<f64>,
        left_voltage_v: Option<f64>,
        left_energy_j: Option<f64>,
    ) -> PyResult<std::collections::BTreeMap<&'static str, (f64, f64)>> {
        let limits = MainsLimits {
            earth_leakage_a,
            one_line_lost_a,
            worst_leakage_a,
            volt_drop_fraction,
            no_load_rise_fraction,
            bleed_down_s,
            left_voltage_v,
            left_energy_j,
        };
        let exceeded = self.0.exceeded(&limits)?;
        Ok(exceeded.into_iter().map(|limit| (limit.quantity, (limit.value, limit.limit))).collect())
    }

    /// Whether all limits that are stated are kept; it says nothing of what no limit is stated for.
    ///
    /// Parameters
    /// ----------
    /// earth_leakage_a, one_line_lost_a, worst_leakage_a : float, optional
    ///     Allowed earth-leakage currents with all lines connected, with one conductor lost, and whatever is lost, A.
    /// volt_drop_fraction, no_load_rise_fraction : float, optional
    ///     Allowed volt drop and rise without load as fractions.
    /// bleed_down_s : float, optional
    ///     Allowed time to bleed down, s.
    /// left_voltage_v, left_energy_j : float, optional
    ///     Allowed voltage and energy left for ever, V and J.
    ///
    /// Returns
    /// -------
    /// bool
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For a limit that is negative, infinite or not a number.
    #[pyo3(signature = (*, earth_leakage_a=None, one_line_lost_a=None, worst_leakage_a=None, volt_drop_fraction=None,
        no_load_rise_fraction=None, bleed_down_s=None, left_voltage_v=None, left_energy_j=None))]
    #[allow(clippy::too_many_arguments)]
    fn keeps_within(
        &self,
        earth_leakage_a: Option<f64>,
        one_line_lost_a: Option<f64>,
        worst_leakage_a: Option<f64>,
        volt_drop_fraction: Option<f64>,
        no_load_rise_fraction: Option<f64>,
        bleed_down_s: Option<f64>,
        left_voltage_v: Option<f64>,
        left_energy_j: Option<f64>,
    ) -> PyResult<bool> {
        Ok(self.0.keeps_within(&MainsLimits {
            earth_leakage_a,
            one_line_lost_a,
            worst_leakage_a,
            volt_drop_fraction,
            no_load_rise_fraction,
            bleed_down_s,
            left_voltage_v,
            left_energy_j,
        })?)
    }

    fn __repr__(&self) -> String {
        let time = match self.0.bleed_down_s() {
            time if time == f64::INFINITY => "never".to_owned(),
            time => format!("in {time:.3} s"),
        };
        format!(
            "<MainsDuty: earth leakage {:.3} mA ({:.3} mA with lines lost), volt drop up to {:.3} %, discharged {time}; \
             {DISCHARGE_CAUTION} {CAUTION}>",
            1e3 * self.0.earth_leakage.normal_a,
            1e3 * self.0.earth_leakage.worst_a(),
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
