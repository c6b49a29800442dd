//! Filters of several lines.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use super::array::{ArrayLike, Axes, Out, RealArg, batch};
use super::class::{parameter_methods, value_class};
use super::error::warn_outside;
use super::filter::{by_path, flat};
use super::filter_charge::PyStoredCharge;
use super::filter_elements::ElementArg;
use super::filter_ends::TerminationArg;
use super::filter_housing::PyHousing;
use super::filter_mains::{PyMainsDuty, PyMainsSupply};
use super::filter_parts::{PartArg, saturation};
use crate::error::{Error, check};
use crate::filter::{Bank, CAUTION, CommonModeChoke, Element, LineFilter, LineMode, ModalTermination, Part};

/// A current-compensated choke: one winding for each line on a common core.
///
/// With n lines, common mode meets (1 + (n - 1) k) L/n, two lines in differential mode 2 (1 - k) L.
///
/// Parameters
/// ----------
/// inductance_h : float
///     Self-inductance of each winding, H, positive.
/// coupling : float
///     Coupling k between windings, at least 0 and below 1; `from_leakage` takes the leakage inductance instead.
/// resistance_ohm : float, default 0
///     Resistance of each winding, ohm.
/// parallel_capacitance_f : float, default 0
///     Capacitance across each winding, F.
/// relaxation_hz : float, optional
///     Frequency of the one pole by which the permeability falls, Hz.
/// half_current_a : float, optional
///     Peak (or direct) current in all windings alike that halves the core's inductance, A. The load current, which comes back through
///     the choke, counts with the share of its leakage flux, (1 - k)/(1 + (n - 1) k); a residual current fully.
/// saturation_exponent : float, default 2
///     Exponent of the law, as for `Inductor`.
///
/// Raises
/// ------
/// OutOfRangeError, RelationError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "CommonModeChoke")]
#[derive(Clone, PartialEq)]
pub struct PyCommonModeChoke(pub CommonModeChoke);

/// What a choke has beside its inductances.
struct ChokeDetails {
    resistance_ohm: f64,
    parallel_capacitance_f: f64,
    relaxation_hz: Option<f64>,
    half_current_a: Option<f64>,
    saturation_exponent: f64,
}

impl ChokeDetails {
    fn of(self, choke: CommonModeChoke) -> PyResult<PyCommonModeChoke> {
        let mut choke =
            choke.with_resistance_ohm(self.resistance_ohm)?.with_parallel_capacitance_f(self.parallel_capacitance_f)?;
        if let Some(value) = self.relaxation_hz {
            choke = choke.with_relaxation_hz(value)?;
        }
        if let Some(law) = saturation(self.half_current_a, self.saturation_exponent)? {
            choke = choke.with_saturation(law);
        }
        Ok(PyCommonModeChoke(choke))
    }
}

#[pymethods]
impl PyCommonModeChoke {
    #[new]
    #[pyo3(signature = (inductance_h, coupling, *, resistance_ohm=0.0, parallel_capacitance_f=0.0, relaxation_hz=None,
        half_current_a=None, saturation_exponent=2.0))]
    fn new(
        inductance_h: f64,
        coupling: f64,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        relaxation_hz: Option<f64>,
        half_current_a: Option<f64>,
        saturation_exponent: f64,
    ) -> PyResult<Self> {
        ChokeDetails { resistance_ohm, parallel_capacitance_f, relaxation_hz, half_current_a, saturation_exponent }
            .of(CommonModeChoke::new(inductance_h, coupling)?)
    }

    /// From the leakage inductance of two windings in series, as a meter reads it with the other ends joined.
    ///
    /// Parameters
    /// ----------
    /// inductance_h : float
    ///     Self-inductance of each winding, H.
    /// leakage_h : float
    ///     Leakage inductance of a pair of lines, H, at most twice the inductance.
    /// resistance_ohm, parallel_capacitance_f, relaxation_hz, half_current_a, saturation_exponent
    ///     As for the class.
    #[staticmethod]
    #[pyo3(signature = (inductance_h, leakage_h, *, resistance_ohm=0.0, parallel_capacitance_f=0.0, relaxation_hz=None,
        half_current_a=None, saturation_exponent=2.0))]
    fn from_leakage(
        inductance_h: f64,
        leakage_h: f64,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        relaxation_hz: Option<f64>,
        half_current_a: Option<f64>,
        saturation_exponent: f64,
    ) -> PyResult<Self> {
        ChokeDetails { resistance_ohm, parallel_capacitance_f, relaxation_hz, half_current_a, saturation_exponent }
            .of(CommonModeChoke::from_leakage(inductance_h, leakage_h)?)
    }

    /// Peak current in all windings alike that would magnetise the core as stated peak currents do, A.
    ///
    /// Parameters
    /// ----------
    /// lines : int
    ///     Number of windings.
    /// load_peak_a : float
    ///     Peak of the current out in one winding and back in others, A.
    /// residual_peak_a : float, default 0
    ///     Peak of the current in all windings alike, A.
    #[pyo3(signature = (lines, load_peak_a, residual_peak_a=0.0))]
    fn magnetising_peak_a(&self, lines: usize, load_peak_a: f64, residual_peak_a: f64) -> PyResult<f64> {
        check::within("lines", "", lines as f64, (1.0, 4.0), "a whole number from 1 to 4")?;
        check::finite("load_peak_a", "A", load_peak_a)?;
        check::finite("residual_peak_a", "A", residual_peak_a)?;
        Ok(self.0.magnetising_peak_a(lines, load_peak_a, residual_peak_a))
    }

    /// Leakage inductance of two lines in series, H.
    #[getter]
    fn leakage_h(&self) -> f64 {
        self.0.leakage_h()
    }
}

value_class!(PyCommonModeChoke, "CommonModeChoke" {
    /// Self-inductance of each winding, H.
    inductance_h: f64 = |choke| choke.inductance_h(),
    /// Coupling between windings.
    coupling: f64 = |choke| choke.coupling(),
    /// Resistance of each winding, ohm.
    resistance_ohm: f64 = |choke| choke.resistance_ohm(),
    /// Capacitance across each winding, F.
    parallel_capacitance_f: f64 = |choke| choke.parallel_capacitance_f(),
    /// Relaxation frequency of the permeability, Hz, or None.
    relaxation_hz: Option<f64> = |choke| choke.relaxation_hz(),
    /// Current in all windings alike that halves the core's inductance, A, or None.
    half_current_a: Option<f64> = |choke| choke.saturation().map(|law| law.half_current_a()),
    /// Exponent of the law of saturation.
    saturation_exponent: f64 = |choke| choke.saturation().map_or(2.0, |law| law.saturation_exponent()),
});
parameter_methods!(PyCommonModeChoke);

/// A part, a feedthrough capacitor, a length of cable or a measured two-port in a line.
#[derive(FromPyObject, IntoPyObject)]
pub enum LineMemberArg {
    Part(PartArg),
    Element(ElementArg),
}

impl LineMemberArg {
    fn from_core(element: &Element) -> Self {
        match element {
            Element::Series(part) => Self::Part(PartArg::from_core(part)),
            other => Self::Element(ElementArg::from_core(other)),
        }
    }

    fn into_core(self) -> PyResult<Element> {
        Ok(match self {
            Self::Part(part) => Element::Series(part.into_core()?),
            Self::Element(element) => element.into_core()?,
        })
    }
}

/// Something in each line, uncoupled.
///
/// Parameters
/// ----------
/// parts : sequence of Inductor, Capacitor, Resistor, FerriteBead, FeedthroughCapacitor, LossyLine or MeasuredTwoPort
///     One for each line.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "InEachLine")]
#[derive(Clone, PartialEq)]
pub struct PyInEachLine(Vec<Element>);

#[pymethods]
impl PyInEachLine {
    #[new]
    fn new(parts: Vec<LineMemberArg>) -> PyResult<Self> {
        Ok(Self(parts.into_iter().map(LineMemberArg::into_core).collect::<PyResult<_>>()?))
    }
}

value_class!(PyInEachLine, "InEachLine" {
    /// What stands in the lines, one for each.
    parts: Vec<LineMemberArg> = |parts| parts.iter().map(LineMemberArg::from_core).collect(),
});

impl PyInEachLine {
    // Parts alone make the simpler bank.
    fn bank(self) -> Bank {
        let parts: Option<Vec<Part>> = self
            .0
            .iter()
            .map(|element| match element {
                Element::Series(part) => Some(part.clone()),
                _ => None,
            })
            .collect();
        parts.map_or(Bank::Each(self.0), Bank::Series)
    }
}

/// A part from each line to the case.
///
/// Parameters
/// ----------
/// parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
///     One for each line.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "LinesToCase")]
#[derive(Clone, PartialEq)]
pub struct PyLinesToCase(Vec<crate::filter::Part>);

#[pymethods]
impl PyLinesToCase {
    #[new]
    fn new(parts: Vec<PartArg>) -> PyResult<Self> {
        Ok(Self(parts.into_iter().map(PartArg::into_core).collect::<PyResult<_>>()?))
    }
}

value_class!(PyLinesToCase, "LinesToCase" {
    /// The parts, one for each line.
    parts: Vec<PartArg> = |parts| parts.iter().map(PartArg::from_core).collect(),
});

/// A part between two lines.
///
/// Parameters
/// ----------
/// part : Inductor, Capacitor, Resistor or FerriteBead
///     The part.
/// first : int, default 0
///     One line, counted from zero.
/// second : int, default 1
///     The other.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "BetweenLines")]
#[derive(Clone, PartialEq)]
pub struct PyBetweenLines((crate::filter::Part, usize, usize));

#[pymethods]
impl PyBetweenLines {
    #[new]
    #[pyo3(signature = (part, first=0, second=1))]
    fn new(part: PartArg, first: usize, second: usize) -> PyResult<Self> {
        Ok(Self((part.into_core()?, first, second)))
    }
}

value_class!(PyBetweenLines, "BetweenLines" {
    /// The part.
    part: PartArg = |bank| PartArg::from_core(&bank.0),
    /// One line.
    first: usize = |bank| bank.1,
    /// The other.
    second: usize = |bank| bank.2,
});

/// A part from each line to a star point of their own, and perhaps one from there to the case.
///
/// Parameters
/// ----------
/// parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
///     One for each line.
/// to_case : Inductor, Capacitor, Resistor or FerriteBead, optional
///     From the star point to the case; nothing is there where not given.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "StarPoint")]
#[derive(Clone, PartialEq)]
pub struct PyStarPoint((Vec<Part>, Option<Part>));

#[pymethods]
impl PyStarPoint {
    #[new]
    #[pyo3(signature = (parts, to_case=None))]
    fn new(parts: Vec<PartArg>, to_case: Option<PartArg>) -> PyResult<Self> {
        let parts = parts.into_iter().map(PartArg::into_core).collect::<PyResult<_>>()?;
        Ok(Self((parts, to_case.map(PartArg::into_core).transpose()?)))
    }
}

value_class!(PyStarPoint, "StarPoint" {
    /// The parts, one for each line.
    parts: Vec<PartArg> = |bank| bank.0.iter().map(PartArg::from_core).collect(),
    /// From the star point to the case, or None.
    to_case: Option<PartArg> = |bank| bank.1.as_ref().map(PartArg::from_core),
});

/// One bank of a filter of several lines.
#[derive(FromPyObject, IntoPyObject)]
pub enum BankArg {
    InEachLine(PyInEachLine),
    LinesToCase(PyLinesToCase),
    BetweenLines(PyBetweenLines),
    StarPoint(PyStarPoint),
    Choke(PyCommonModeChoke),
}

impl BankArg {
    fn from_core(bank: &Bank) -> Self {
        match bank {
            Bank::Series(parts) => Self::InEachLine(PyInEachLine(parts.iter().cloned().map(Element::Series).collect())),
            Bank::Each(elements) => Self::InEachLine(PyInEachLine(elements.clone())),
            Bank::ToCase(parts) => Self::LinesToCase(PyLinesToCase(parts.clone())),
            Bank::Between { from, to, part } => Self::BetweenLines(PyBetweenLines((part.clone(), *from, *to))),
            Bank::Star { parts, to_case } => Self::StarPoint(PyStarPoint((parts.clone(), to_case.clone()))),
            Bank::Choke(choke) => Self::Choke(PyCommonModeChoke(*choke)),
        }
    }

    fn into_core(self) -> PyResult<Bank> {
        Ok(match self {
            Self::InEachLine(bank) => bank.bank(),
            Self::LinesToCase(bank) => Bank::ToCase(bank.0),
            Self::BetweenLines(bank) => {
                let (part, from, to) = bank.0;
                Bank::Between { from, to, part }
            }
            Self::StarPoint(bank) => {
                let (parts, to_case) = bank.0;
                Bank::Star { parts, to_case }
            }
            Self::Choke(choke) => Bank::Choke(choke.0),
        })
    }
}

/// A mode: "common", a pair of lines for the differential mode between them, or one line.
#[derive(FromPyObject, Clone)]
pub enum ModeArg {
    Pair((usize, usize)),
    Line(usize),
    Name(String),
}

impl ModeArg {
    fn into_core(self) -> Result<LineMode, Error> {
        match self {
            Self::Pair((from, to)) => Ok(LineMode::Differential(from, to)),
            Self::Line(line) => Ok(LineMode::Line(line)),
            Self::Name(name) if name == "common" => Ok(LineMode::Common),
            Self::Name(name) => Err(Error::UnknownName {
                kind: "mode".into(),
                name,
                known: vec!["common".into(), "(line, line) for differential".into(), "line".into()],
            }),
        }
    }
}

/// What a filter of several lines works between: an impedance in common mode, and one between any two lines.
///
/// Parameters
/// ----------
/// common : complex, LineNetwork or Wire
///     All lines together against the case.
/// differential : complex, LineNetwork or Wire
///     Between two lines.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "ModalTermination")]
#[derive(Clone, PartialEq)]
pub struct PyModalTermination(pub ModalTermination);

#[pymethods]
impl PyModalTermination {
    #[new]
    fn new(common: TerminationArg, differential: TerminationArg) -> PyResult<Self> {
        Ok(Self(ModalTermination { common: common.into_core()?, differential: differential.into_core()? }))
    }

    /// The same resistance from each line to the case.
    ///
    /// Parameters
    /// ----------
    /// resistance_ohm : float
    ///     Resistance, ohm, positive.
    /// lines : int
    ///     Number of lines, 1 to 4.
    #[staticmethod]
    fn each_line(resistance_ohm: f64, lines: usize) -> PyResult<Self> {
        Ok(Self(ModalTermination::each_line(resistance_ohm, lines)?))
    }

    /// The artificial mains V-network of CISPR 16-1-2 (9 kHz to 30 MHz) from each line to the case.
    ///
    /// Parameters
    /// ----------
    /// lines : int
    ///     Number of lines, 1 to 4.
    #[staticmethod]
    fn mains_network(lines: usize) -> PyResult<Self> {
        Ok(Self(ModalTermination::mains_network(lines)?))
    }
}

value_class!(PyModalTermination, "ModalTermination" {
    /// All lines together against the case.
    common: TerminationArg = |ends| TerminationArg::from_core(&ends.common),
    /// Between two lines.
    differential: TerminationArg = |ends| TerminationArg::from_core(&ends.differential),
});

LineFilter! {
    /// A filter of one to four lines, with the conversion between their modes.
    ///
    /// Mains filters put current into the protective earth: bond the case before energising, check touch
    /// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// LengthMismatchError
    ///     For a bank with a part too many or too few; `quantity` names the bank.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> filter = sr.LineFilter(2, [
    /// ...     sr.filters.BetweenLines(sr.filters.Capacitor(470e-9)),
    /// ...     sr.filters.CommonModeChoke.from_leakage(3e-3, 30e-6),
    /// ...     sr.filters.LinesToCase([sr.filters.Capacitor(4.7e-9), sr.filters.Capacitor(4.7e-9)]),
    /// ... ])
    /// >>> round(filter.insertion_loss_db(1e6), 1)
    /// 56.5
    class PyLineFilter keywords;
}

#[pymethods]
impl PyLineFilter {
    /// Loss from one mode at the source to one at the load, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// drive : "common", (int, int) or int, default "common"
    ///     LineMode of the source: all lines together, between two lines, or one line with the others terminated.
    /// listen : "common", (int, int) or int, optional
    ///     LineMode at the load; the driven one where not given. For another mode the result is the conversion loss.
    /// source, load : ModalTermination, optional
    ///     What it works between; 50 ohm from each line to the case where not given.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`: 20 log10(V20/V2).
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if the can is longer than a tenth of a wavelength, or a table or a termination is asked outside its
    ///     domain.
    #[pyo3(signature = (frequency_hz, drive=ModeArg::Name("common".into()), listen=None, source=None, load=None), text_signature = "($self, frequency_hz, drive='common', listen=None, source=None, load=None)")]
    fn insertion_loss_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        drive: ModeArg,
        listen: Option<ModeArg>,
        source: Option<PyModalTermination>,
        load: Option<PyModalTermination>,
    ) -> PyResult<Out<f64>> {
        let Path { drive, listen, source, load } = self.path(drive, listen, source, load)?;
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            self.0.insertion_losses_db(f, drive, listen, &source, &load, out)
        })?;
        let values = frequency_hz.read("frequency_hz")?;
        let ends = |f: f64| source.validity(f).and(load.validity(f));
        warn_outside(py, &values.values(), |f| self.0.validity(f).and(ends(f)))?;
        Ok(result)
    }

    /// Slope of the loss from one mode to another against every parameter that is not zero, largest first.
    ///
    /// Parts of different lines are told apart: what the slopes of two alike parts differ by is what an unbalance does.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// drive, listen, source, load
    ///     As for `insertion_loss_db`.
    ///
    /// Returns
    /// -------
    /// dict[str, float or ndarray]
    ///     Path of the parameter to dB for one per cent more of it, of the shape of `frequency_hz`; sorted by the
    ///     largest slope over all frequencies. NaN where there is no slope: at a resonance that nothing damps, and for a
    ///     conversion that nothing but balance prevents.
    #[pyo3(signature = (frequency_hz, drive=ModeArg::Name("common".into()), listen=None, source=None, load=None) -> "dict[str, object]", text_signature = "($self, frequency_hz, drive='common', listen=None, source=None, load=None)")]
    fn sensitivities<'py>(
        &self,
        py: Python<'py>,
        frequency_hz: RealArg<'py>,
        drive: ModeArg,
        listen: Option<ModeArg>,
        source: Option<PyModalTermination>,
        load: Option<PyModalTermination>,
    ) -> PyResult<Bound<'py, PyDict>> {
        let Path { drive, listen, source, load } = self.path(drive, listen, source, load)?;
        let (frequencies, shape) = flat(&frequency_hz)?;
        let table = py.detach(|| self.0.sensitivity_table(&frequencies, drive, listen, &source, &load))?;
        by_path(py, table, &shape)
    }

    /// Plots the loss of every mode between several terminations at once, with the conversion between modes.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequencies, Hz.
    /// terminations : dict[str, tuple[ModalTermination, ModalTermination]], optional
    ///     Source and load by label; where not given 50/50, 0.1/100 and 100/0.1 ohm and an artificial mains network,
    ///     from each line to the case.
    /// ax : matplotlib.axes.Axes, optional
    ///     Where to draw; a new figure otherwise.
    ///
    /// Returns
    /// -------
    /// matplotlib.axes.Axes
    ///     A colour for each pair of terminations; common mode drawn through, between two lines dashed (the least of all
    ///     pairs), from common mode to between two lines dotted (the least of all pairs).
    #[pyo3(signature = (frequency_hz, terminations=None, ax=None))]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        frequency_hz: ArrayLike<'py>,
        terminations: Option<std::collections::BTreeMap<String, (PyModalTermination, PyModalTermination)>>,
        ax: Option<Axes<'py>>,
    ) -> PyResult<Axes<'py>> {
        let module = slf.py().import("stillroom.filter_plot")?;
        module.call_method1("plot_modes", (slf, frequency_hz, terminations, ax)).map(Axes)
    }

    /// What the filter does on a mains supply.
    ///
    /// Parameters
    /// ----------
    /// supply : MainsSupply
    ///     The supply, of as many lines. Leakage and stored charge are for its voltage at the upper end of its tolerance,
    ///     which is 0 where none is stated.
    /// capacitance_tolerance : float, default 0
    ///     How far the capacitors may be off either way, as a fraction.
    /// safe_voltage_v : float, default 34
    ///     Voltage to bleed down to, V (34 V peak within 1 s of unplugging is a figure of IEC 60335-1 as quoted in
    ///     secondary text: state your own).
    ///
    /// Returns
    /// -------
    /// MainsDuty
    ///
    /// Raises
    /// ------
    /// UnknownNameError
    ///     For a coil or a bead across the mains: it would be a short circuit.
    #[pyo3(signature = (supply, capacitance_tolerance=0.0, safe_voltage_v=34.0))]
    fn mains_duty(
        &self,
        supply: PyMainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> PyResult<PyMainsDuty> {
        Ok(PyMainsDuty(self.0.mains_duty(&supply.0, capacitance_tolerance, safe_voltage_v)?))
    }

    /// What the capacitors keep after the supply is switched off: all poles at once; one by one in every order, neutral
    /// included; the same while a load ties lines together. Each at its worst instants of the mains.
    ///
    /// Discharge every conductor to the case and to the others and prove by measurement that it is dead before anyone
    /// touches it; discharge resistors fail open.
    ///
    /// Parameters
    /// ----------
    /// supply : MainsSupply
    ///     The supply, of as many lines; its voltage at the upper end of its tolerance (0 where none is stated).
    /// capacitance_tolerance : float, default 0
    ///     How far the capacitors may be off either way, as a fraction.
    /// safe_voltage_v : float, default 34
    ///     Voltage to discharge to, V.
    ///
    /// Returns
    /// -------
    /// StoredCharge
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> filter = sr.LineFilter(2, [
    /// ...     sr.filters.BetweenLines(sr.filters.Capacitor(2.2e-6)),
    /// ...     sr.filters.BetweenLines(sr.filters.Resistor(470e3)),
    /// ...     sr.filters.LinesToCase([sr.filters.Capacitor(5e-6), sr.filters.Capacitor(5e-6)]),
    /// ... ])
    /// >>> filter.stored_charge(sr.filters.MainsSupply()).never
    /// True
    #[pyo3(signature = (supply, capacitance_tolerance=0.0, safe_voltage_v=34.0))]
    fn stored_charge(
        &self,
        supply: PyMainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> PyResult<PyStoredCharge> {
        Ok(PyStoredCharge(self.0.stored_charge(&supply.0, capacitance_tolerance, safe_voltage_v)?))
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        CAUTION
    }
}

/// From where to where, and between what.
struct Path {
    drive: LineMode,
    listen: LineMode,
    source: ModalTermination,
    load: ModalTermination,
}

impl PyLineFilter {
    // With what is not given filled in.
    fn path(
        &self,
        drive: ModeArg,
        listen: Option<ModeArg>,
        source: Option<PyModalTermination>,
        load: Option<PyModalTermination>,
    ) -> PyResult<Path> {
        let listen = listen.unwrap_or_else(|| drive.clone()).into_core()?;
        let ends = |given: Option<PyModalTermination>| match given {
            Some(given) => Ok(given.0),
            None => ModalTermination::each_line(50.0, self.0.lines()),
        };
        Ok(Path { drive: drive.into_core()?, listen, source: ends(source)?, load: ends(load)? })
    }
}
