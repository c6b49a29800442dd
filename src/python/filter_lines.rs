//! Filters of several lines.

use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{parameter_methods, value_class};
use super::filter_ends::TerminationArg;
use super::filter_mains::{PyMainsDuty, PyMainsSupply};
use super::filter_parts::PartArg;
use crate::error::{Error, check};
use crate::filter::{Bank, CAUTION, CommonModeChoke, LineFilter, ModalTermination, Mode};

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
///
/// Raises
/// ------
/// OutOfRangeError, RelationError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "CommonModeChoke")]
#[derive(Clone, PartialEq)]
pub struct PyCommonModeChoke(pub CommonModeChoke);

impl PyCommonModeChoke {
    fn finish(
        choke: CommonModeChoke,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        relaxation_hz: Option<f64>,
    ) -> PyResult<Self> {
        let choke = choke.with_resistance_ohm(resistance_ohm)?.with_parallel_capacitance_f(parallel_capacitance_f)?;
        Ok(Self(match relaxation_hz {
            None => choke,
            Some(value) => choke.with_relaxation_hz(value)?,
        }))
    }
}

#[pymethods]
impl PyCommonModeChoke {
    #[new]
    #[pyo3(signature = (inductance_h, coupling, *, resistance_ohm=0.0, parallel_capacitance_f=0.0, relaxation_hz=None))]
    fn new(
        inductance_h: f64,
        coupling: f64,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        relaxation_hz: Option<f64>,
    ) -> PyResult<Self> {
        Self::finish(
            CommonModeChoke::new(inductance_h, coupling)?,
            resistance_ohm,
            parallel_capacitance_f,
            relaxation_hz,
        )
    }

    /// From the leakage inductance of two windings in series, as a meter reads it with the other ends joined.
    ///
    /// Parameters
    /// ----------
    /// inductance_h : float
    ///     Self-inductance of each winding, H.
    /// leakage_h : float
    ///     Leakage inductance of a pair of lines, H, at most twice the inductance.
    /// resistance_ohm, parallel_capacitance_f, relaxation_hz
    ///     As for the class.
    #[staticmethod]
    #[pyo3(signature = (inductance_h, leakage_h, *, resistance_ohm=0.0, parallel_capacitance_f=0.0, relaxation_hz=None))]
    fn from_leakage(
        inductance_h: f64,
        leakage_h: f64,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        relaxation_hz: Option<f64>,
    ) -> PyResult<Self> {
        Self::finish(
            CommonModeChoke::from_leakage(inductance_h, leakage_h)?,
            resistance_ohm,
            parallel_capacitance_f,
            relaxation_hz,
        )
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
});
parameter_methods!(PyCommonModeChoke);

/// A part in each line, uncoupled.
///
/// Parameters
/// ----------
/// parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
///     One for each line.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "InEachLine")]
#[derive(Clone, PartialEq)]
pub struct PyInEachLine(Vec<crate::filter::Part>);

#[pymethods]
impl PyInEachLine {
    #[new]
    fn new(parts: Vec<PartArg>) -> Self {
        Self(parts.into_iter().map(PartArg::into_core).collect())
    }
}

value_class!(PyInEachLine, "InEachLine" {
    /// The parts, one for each line.
    parts: Vec<PartArg> = |parts| parts.iter().map(PartArg::from_core).collect(),
});

/// A part from each line to the case.
///
/// Parameters
/// ----------
/// parts : sequence of Inductor, Capacitor, Resistor or FerriteBead
///     One for each line.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "LinesToCase")]
#[derive(Clone, PartialEq)]
pub struct PyLinesToCase(Vec<crate::filter::Part>);

#[pymethods]
impl PyLinesToCase {
    #[new]
    fn new(parts: Vec<PartArg>) -> Self {
        Self(parts.into_iter().map(PartArg::into_core).collect())
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "BetweenLines")]
#[derive(Clone, PartialEq)]
pub struct PyBetweenLines((crate::filter::Part, usize, usize));

#[pymethods]
impl PyBetweenLines {
    #[new]
    #[pyo3(signature = (part, first=0, second=1))]
    fn new(part: PartArg, first: usize, second: usize) -> Self {
        Self((part.into_core(), first, second))
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

/// One bank of a filter of several lines.
#[derive(FromPyObject, IntoPyObject)]
pub enum BankArg {
    InEachLine(PyInEachLine),
    LinesToCase(PyLinesToCase),
    BetweenLines(PyBetweenLines),
    Choke(PyCommonModeChoke),
}

impl BankArg {
    fn from_core(bank: &Bank) -> Self {
        match bank {
            Bank::Series(parts) => Self::InEachLine(PyInEachLine(parts.clone())),
            Bank::ToCase(parts) => Self::LinesToCase(PyLinesToCase(parts.clone())),
            Bank::Between { from, to, part } => Self::BetweenLines(PyBetweenLines((part.clone(), *from, *to))),
            Bank::Choke(choke) => Self::Choke(PyCommonModeChoke(*choke)),
        }
    }

    fn into_core(self) -> Bank {
        match self {
            Self::InEachLine(bank) => Bank::Series(bank.0),
            Self::LinesToCase(bank) => Bank::ToCase(bank.0),
            Self::BetweenLines(bank) => {
                let (part, from, to) = bank.0;
                Bank::Between { from, to, part }
            }
            Self::Choke(choke) => Bank::Choke(choke.0),
        }
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
    fn into_core(self) -> Result<Mode, Error> {
        match self {
            Self::Pair((from, to)) => Ok(Mode::Differential(from, to)),
            Self::Line(line) => Ok(Mode::Line(line)),
            Self::Name(name) if name == "common" => Ok(Mode::Common),
            Self::Name(name) => Err(Error::UnknownName {
                kind: "mode",
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "ModalTermination")]
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
}

value_class!(PyModalTermination, "ModalTermination" {
    /// All lines together against the case.
    common: TerminationArg = |ends| TerminationArg::from_core(&ends.common),
    /// Between two lines.
    differential: TerminationArg = |ends| TerminationArg::from_core(&ends.differential),
});

/// A filter of one to four lines, with the conversion between their modes.
///
/// Mains filters put current into the protective earth: bond the case before energising, check touch
/// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
///
/// Parameters
/// ----------
/// lines : int
///     Number of lines, 1 to 4.
/// banks : sequence of InEachLine, LinesToCase, BetweenLines or CommonModeChoke
///     From the source's side to the load's.
/// load_current_a : float, default 0
///     Load current, A.
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
/// ...     sr.BetweenLines(sr.Capacitor(470e-9)),
/// ...     sr.CommonModeChoke.from_leakage(3e-3, 30e-6),
/// ...     sr.LinesToCase([sr.Capacitor(4.7e-9), sr.Capacitor(4.7e-9)]),
/// ... ])
/// >>> round(filter.insertion_loss_db(1e6), 1)
/// 56.5
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "LineFilter")]
#[derive(Clone, PartialEq)]
pub struct PyLineFilter(pub LineFilter);

#[pymethods]
impl PyLineFilter {
    #[new]
    #[pyo3(signature = (lines, banks, *, load_current_a=0.0))]
    fn new(lines: usize, banks: Vec<BankArg>, load_current_a: f64) -> PyResult<Self> {
        let banks = banks.into_iter().map(BankArg::into_core).collect();
        Ok(Self(LineFilter::new(lines, banks)?.with_load_current_a(load_current_a)?))
    }

    /// Loss from one mode at the source to one at the load, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// drive : "common", (int, int) or int, default "common"
    ///     Mode of the source: all lines together, between two lines, or one line with the others terminated.
    /// listen : "common", (int, int) or int, optional
    ///     Mode at the load; the driven one where not given. For another mode the result is the conversion loss.
    /// source, load : ModalTermination, optional
    ///     What it works between; 50 ohm from each line to the case where not given.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`: 20 log10(V20/V2).
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
        let listen = listen.unwrap_or_else(|| drive.clone()).into_core()?;
        let drive = drive.into_core()?;
        let ends = |given: Option<PyModalTermination>| match given {
            Some(given) => Ok(given.0),
            None => ModalTermination::each_line(50.0, self.0.lines()),
        };
        let (source, load) = (ends(source)?, ends(load)?);
        batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            for (out, &f) in out.iter_mut().zip(f) {
                *out = self.0.insertion_loss_db(f, drive, listen, &source, &load)?;
            }
            Ok(())
        })
    }

    /// What the filter does on a mains supply.
    ///
    /// Parameters
    /// ----------
    /// supply : MainsSupply
    ///     The supply, of as many lines.
    /// capacitance_tolerance : float, default 0
    ///     How far the capacitors may be off either way, as a fraction.
    /// safe_voltage_v : float, default 34
    ///     Voltage to bleed down to, V (34 V peak within 1 s of unplugging is a figure of IEC 60335-1 as quoted in
    ///     secondary text: state your own).
    ///
    /// Returns
    /// -------
    /// MainsDuty
    #[pyo3(signature = (supply, capacitance_tolerance=0.0, safe_voltage_v=34.0))]
    fn mains_duty(
        &self,
        supply: PyMainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> PyResult<PyMainsDuty> {
        Ok(PyMainsDuty(self.0.mains_duty(&supply.0, capacitance_tolerance, safe_voltage_v)?))
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        CAUTION
    }
}

value_class!(PyLineFilter, "LineFilter" {
    /// Number of lines.
    lines: usize = |filter| filter.lines(),
    /// The banks, source side first.
    banks: Vec<BankArg> = |filter| filter.banks().iter().map(BankArg::from_core).collect(),
    /// Load current, A.
    load_current_a: f64 = |filter| filter.load_current_a(),
});
parameter_methods!(PyLineFilter);
