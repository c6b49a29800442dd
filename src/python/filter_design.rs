//! Prototypes, preferred values and the search for a filter.

use pyo3::prelude::*;

use super::class::value_class;
use super::filter::PyLadder;
use super::filter_ends::PyMeasuringCircuit;
use super::filter_mains::PyMainsSupply;
use super::signals::interruptible;
use crate::circuit::bounds::SINE_CREST;
use crate::filter::{
    DesignLimits, LossGoal, Lot, PreferredSeries, Prototype, PrototypeFamily, ranked_by_yield, synthesise_watched,
};

/// Normalised values of a low-pass ladder, for 1 rad/s and a source of 1 ohm.
///
/// Made by `butterworth`, `chebyshev` or `equal_sections`.
///
/// Notes
/// -----
/// G. L. Matthaei, L. Young and E. M. T. Jones, *Microwave Filters, Impedance-Matching Networks, and Coupling
/// Structures*, 1964, sec. 4.05.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> [round(value, 4) for value in sr.filters.Prototype.chebyshev(3, 0.1).values]
/// [1.0316, 1.1474, 1.0316]
#[pyclass(frozen, eq, module = "stillroom.filters", name = "Prototype")]
#[derive(Clone, PartialEq)]
pub struct PyPrototype(pub Prototype);

fn family_name(family: PrototypeFamily) -> String {
    match family {
        PrototypeFamily::Butterworth => "Butterworth".into(),
        PrototypeFamily::Chebyshev { ripple_db } => format!("Chebyshev, {ripple_db} dB"),
        PrototypeFamily::EqualSections => "equal sections".into(),
    }
}

#[pymethods]
impl PyPrototype {
    /// Maximally flat.
    ///
    /// Parameters
    /// ----------
    /// parts : int
    ///     Number of parts, 1 to 40.
    #[staticmethod]
    fn butterworth(parts: usize) -> PyResult<Self> {
        Ok(Self(Prototype::butterworth(parts)?))
    }

    /// Equal ripple.
    ///
    /// Parameters
    /// ----------
    /// parts : int
    ///     Number of parts, 1 to 40.
    /// ripple_db : float
    ///     Ripple in the pass band, dB, positive.
    #[staticmethod]
    fn chebyshev(parts: usize, ripple_db: f64) -> PyResult<Self> {
        Ok(Self(Prototype::chebyshev(parts, ripple_db)?))
    }

    /// Constant-k sections.
    ///
    /// Parameters
    /// ----------
    /// parts : int
    ///     Number of parts, 1 to 40.
    #[staticmethod]
    fn equal_sections(parts: usize) -> PyResult<Self> {
        Ok(Self(Prototype::equal_sections(parts)?))
    }

    /// Element values g1 to gn.
    #[getter]
    fn values(&self) -> Vec<f64> {
        self.0.values().to_vec()
    }

    /// The last value: load resistance behind a shunt part, load conductance behind a series part.
    #[getter]
    fn load(&self) -> f64 {
        self.0.load()
    }

    /// The family in words.
    #[getter]
    fn family(&self) -> String {
        family_name(self.0.family())
    }

    fn __repr__(&self) -> String {
        format!("<Prototype: {}, values {:?}, load {}>", self.family(), self.0.values(), self.0.load())
    }
}

/// A series of preferred values of IEC 60063.
///
/// Parameters
/// ----------
/// name : {"E3", "E6", "E12", "E24", "E48", "E96", "E192"}
///     The series.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> sr.filters.PreferredSeries("E12").nearest(4.6e-9)
/// 4.7e-09
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "PreferredSeries")]
#[derive(Clone, PartialEq)]
pub struct PyPreferredSeries(pub PreferredSeries);

#[pymethods]
impl PyPreferredSeries {
    #[new]
    fn new(name: &str) -> PyResult<Self> {
        Ok(Self(name.parse::<PreferredSeries>()?))
    }

    /// Values from 1 to below 10.
    #[getter]
    fn decade(&self) -> Vec<f64> {
        self.0.decade()
    }

    /// Customary tolerance as a fraction.
    #[getter]
    fn tolerance(&self) -> f64 {
        self.0.tolerance()
    }

    /// The preferred value nearest by ratio to a positive value.
    fn nearest(&self, value: f64) -> PyResult<f64> {
        Ok(self.0.nearest(value)?)
    }

    /// The largest preferred value that is not above a positive value.
    fn at_most(&self, value: f64) -> PyResult<f64> {
        Ok(self.0.at_most(value)?)
    }

    /// The smallest preferred value that is not below a positive value.
    fn at_least(&self, value: f64) -> PyResult<f64> {
        Ok(self.0.at_least(value)?)
    }
}

value_class!(PyPreferredSeries, "PreferredSeries" {
    /// The series.
    name: &'static str = |series| series.name(),
});

LossGoal! {
    /// A loss that must be met.
    ///
    /// {parameters}
    class PyLossGoal in filters;
}

/// What a filter may not exceed, and what its parts are like.
///
/// Parameters
/// ----------
/// shunt_total_f : float, optional
///     All capacitance to the case together, F.
/// series_total_h : float, optional
///     All inductance in one line together, H.
/// coil_energy_j : float, optional
///     L I^2/2 of a single coil at the load current's peak, J.
/// coil_heat_w : float, optional
///     I^2 R of the load current's effective value in a single coil, W.
/// least_remaining : float, default 0
///     Least part of its inductance that each coil must keep at the load current's peak, 0 to below 1.
/// load_current_rms_a : float, default 0
///     Load current, effective value, A.
/// crest_factor : float, optional
///     Peak over effective value, one or more: the square root of two (a sine) where not given, 1 for direct current,
///     2 to 3 for rectifiers.
/// most_parts : int, default 7
///     Number of parts, 1 to 15.
/// coil_series, capacitor_series : PreferredSeries, default E6
///     Values that parts come in.
/// coil_resistance_ohm_per_h, coil_capacitance_f : float, default 0
///     Winding resistance for each henry, and winding capacitance, of each coil.
/// coil_half_energy_j : float, optional
///     Stored energy L I^2/2 (I a peak or direct current) at which a coil has lost half of its inductance, J: what its core
///     holds. Candidates are judged with the inductance that is left at the load current's peak.
/// coil_saturation_exponent : float, default 2
///     Exponent of the law of saturation, as for `Inductor`.
/// capacitor_resistance_ohm, capacitor_inductance_h : float, default 0
///     Equivalent series resistance and inductance of each capacitor.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "DesignLimits")]
#[derive(Clone, PartialEq)]
pub struct PyDesignLimits(pub DesignLimits);

#[pymethods]
impl PyDesignLimits {
    #[new]
    #[pyo3(signature = (*, shunt_total_f=None, series_total_h=None, coil_energy_j=None, coil_heat_w=None,
        least_remaining=0.0, load_current_rms_a=0.0, crest_factor=None, most_parts=7, coil_series=PyPreferredSeries(PreferredSeries::E6), capacitor_series=PyPreferredSeries(PreferredSeries::E6),
        coil_resistance_ohm_per_h=0.0, coil_half_energy_j=None, coil_saturation_exponent=2.0, coil_capacitance_f=0.0,
        capacitor_resistance_ohm=0.0, capacitor_inductance_h=0.0),
        text_signature = "(*, shunt_total_f=None, series_total_h=None, coil_energy_j=None, coil_heat_w=None, least_remaining=0.0, load_current_rms_a=0.0, crest_factor=None, most_parts=7, coil_series=..., capacitor_series=..., coil_resistance_ohm_per_h=0.0, coil_half_energy_j=None, coil_saturation_exponent=2.0, coil_capacitance_f=0.0, capacitor_resistance_ohm=0.0, capacitor_inductance_h=0.0)")]
    #[allow(clippy::too_many_arguments)]
    fn new(
        shunt_total_f: Option<f64>,
        series_total_h: Option<f64>,
        coil_energy_j: Option<f64>,
        coil_heat_w: Option<f64>,
        least_remaining: f64,
        load_current_rms_a: f64,
        crest_factor: Option<f64>,
        most_parts: usize,
        coil_series: PyPreferredSeries,
        capacitor_series: PyPreferredSeries,
        coil_resistance_ohm_per_h: f64,
        coil_half_energy_j: Option<f64>,
        coil_saturation_exponent: f64,
        coil_capacitance_f: f64,
        capacitor_resistance_ohm: f64,
        capacitor_inductance_h: f64,
    ) -> PyResult<Self> {
        let limits = DesignLimits {
            shunt_total_f,
            series_total_h,
            coil_energy_j,
            coil_heat_w,
            least_remaining,
            load_current_rms_a,
            crest_factor: crest_factor.unwrap_or(SINE_CREST),
            most_parts,
            coil_series: coil_series.0,
            capacitor_series: capacitor_series.0,
            coil_resistance_ohm_per_h,
            coil_half_energy_j,
            coil_saturation_exponent,
            coil_capacitance_f,
            capacitor_resistance_ohm,
            capacitor_inductance_h,
        };
        limits.check()?;
        Ok(Self(limits))
    }

    /// Limits of a mains filter: capacitance from an earth-leakage current at the supply's highest voltage, inductance of
    /// one line from a volt drop at its nominal one.
    ///
    /// Where the current comes back through the neutral, whose line holds the same coils, a line gets half of the drop;
    /// with three phases without neutral, and for a line against earth, all of it.
    ///
    /// Parameters
    /// ----------
    /// supply : MainsSupply
    ///     The supply.
    /// load_current_rms_a : float
    ///     Load current, effective value, A.
    /// earth_leakage_a : float
    ///     Allowed earth-leakage current of one line, A: from the code that applies.
    /// volt_drop_fraction : float
    ///     Allowed volt drop as a fraction.
    #[staticmethod]
    fn for_mains(
        supply: PyMainsSupply,
        load_current_rms_a: f64,
        earth_leakage_a: f64,
        volt_drop_fraction: f64,
    ) -> PyResult<Self> {
        Ok(Self(DesignLimits::for_mains(&supply.0, load_current_rms_a, earth_leakage_a, volt_drop_fraction)?))
    }
}

value_class!(PyDesignLimits, "DesignLimits" {
    /// All capacitance to the case together, F, or None.
    shunt_total_f: Option<f64> = |limits| limits.shunt_total_f,
    /// All inductance in the line together, H, or None.
    series_total_h: Option<f64> = |limits| limits.series_total_h,
    /// L I^2/2 of a single coil at the load current's peak, J, or None.
    coil_energy_j: Option<f64> = |limits| limits.coil_energy_j,
    /// I^2 R of the load current in a single coil, W, or None.
    coil_heat_w: Option<f64> = |limits| limits.coil_heat_w,
    /// Least part of its inductance that each coil must keep at load current.
    least_remaining: f64 = |limits| limits.least_remaining,
    /// Load current, effective value, A.
    load_current_rms_a: f64 = |limits| limits.load_current_rms_a,
    /// Peak of the load current over its effective value.
    crest_factor: f64 = |limits| limits.crest_factor,
    /// Number of parts.
    most_parts: usize = |limits| limits.most_parts,
    /// Values that coils come in.
    coil_series: PyPreferredSeries = |limits| PyPreferredSeries(limits.coil_series),
    /// Values that capacitors come in.
    capacitor_series: PyPreferredSeries = |limits| PyPreferredSeries(limits.capacitor_series),
    /// Winding resistance for each henry, ohm/H.
    coil_resistance_ohm_per_h: f64 = |limits| limits.coil_resistance_ohm_per_h,
    /// Stored energy at which a coil has lost half of its inductance, J, or None.
    coil_half_energy_j: Option<f64> = |limits| limits.coil_half_energy_j,
    /// Exponent of the law of saturation.
    coil_saturation_exponent: f64 = |limits| limits.coil_saturation_exponent,
    /// Winding capacitance of each coil, F.
    coil_capacitance_f: f64 = |limits| limits.coil_capacitance_f,
    /// Equivalent series resistance of each capacitor, ohm.
    capacitor_resistance_ohm: f64 = |limits| limits.capacitor_resistance_ohm,
    /// Equivalent series inductance of each capacitor, H.
    capacitor_inductance_h: f64 = |limits| limits.capacitor_inductance_h,
});

/// A filter that was found.
#[pyclass(frozen, module = "stillroom.filters", name = "FilterFind")]
pub struct PyFilterFind(crate::filter::Find);

#[pymethods]
impl PyFilterFind {
    /// The filter.
    #[getter]
    fn ladder(&self) -> PyLadder {
        PyLadder(self.0.ladder.clone())
    }

    /// Margin at each goal, dB.
    #[getter]
    fn margins_db(&self) -> Vec<f64> {
        self.0.margins_db.clone()
    }

    /// The smallest margin, dB.
    #[getter]
    fn margin_db(&self) -> f64 {
        self.0.margin_db()
    }

    /// Share of a lot that keeps every goal, 0 to 1; None where no tolerances were given.
    #[getter]
    fn yield_share(&self) -> Option<f64> {
        self.0.yield_share
    }

    /// Number of parts.
    #[getter]
    fn parts(&self) -> usize {
        self.0.parts()
    }

    /// The family of prototypes that it started from.
    #[getter]
    fn family(&self) -> String {
        family_name(self.0.family)
    }

    /// What a user of the result should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        crate::filter::CAUTION
    }

    fn __repr__(&self) -> String {
        let share = self.0.yield_share.map_or_else(String::new, |share| format!(", yield {:.0} %", 100.0 * share));
        format!(
            "<FilterFind: {} parts, margin {:.1} dB{share}, from {}>",
            self.parts(),
            self.margin_db(),
            self.family()
        )
    }
}

/// Filters that meet every goal within the limits, best first.
///
/// What meets these numbers must still be judged on touch current, creepage, temperature and fuses against the code
/// that applies, and installed by a licensed electrician.
///
/// Parameters
/// ----------
/// goals : sequence of LossGoal
///     Losses to be met at once.
/// limits : DesignLimits
///     What may not be exceeded.
/// margin_db : float, default 0
///     What must be in hand at each goal, dB.
/// count : int, default 5
///     Most filters to return.
/// coil_tolerance, capacitor_tolerance : float, optional
///     Fractions by which parts of a lot are off, 0 to below 1; where one is given, the other counts as 0, and every
///     find has its `yield_share`.
/// trials : int, default 1000
///     How many filters of a lot to draw.
/// seed : int, default 0
///     The same seed gives the same shares on every machine.
///
/// Returns
/// -------
/// list of FilterFind
///     Fewest parts first, then yield where tolerances are given, then margin.
///
/// Raises
/// ------
/// UnreachableError
///     If nothing meets all goals, with the best margin.
///
/// Notes
/// -----
/// A search over scaled prototypes and preferred values, not a proof that nothing better exists.
#[pyfunction]
#[pyo3(signature = (goals, limits, margin_db=0.0, count=5, *, coil_tolerance=None, capacitor_tolerance=None, trials=1000, seed=0))]
#[allow(clippy::too_many_arguments)]
pub fn synthesise(
    py: Python<'_>,
    goals: Vec<PyLossGoal>,
    limits: PyDesignLimits,
    margin_db: f64,
    count: usize,
    coil_tolerance: Option<f64>,
    capacitor_tolerance: Option<f64>,
    trials: usize,
    seed: u64,
) -> PyResult<Vec<PyFilterFind>> {
    let goals: Vec<LossGoal> = goals.into_iter().map(|goal| goal.0).collect();
    let lot = (coil_tolerance.is_some() || capacitor_tolerance.is_some()).then(|| Lot {
        coil_tolerance: coil_tolerance.unwrap_or(0.0),
        capacitor_tolerance: capacitor_tolerance.unwrap_or(0.0),
        trials,
        seed,
    });
    let finds = interruptible(py, |watch| {
        let finds = synthesise_watched(&goals, &limits.0, margin_db, count, watch)?;
        match &lot {
            None => Ok(finds),
            Some(lot) => ranked_by_yield(finds, &goals, lot, watch),
        }
    })?;
    Ok(finds.into_iter().map(PyFilterFind).collect())
}
