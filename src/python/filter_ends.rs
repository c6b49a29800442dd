//! What a filter works between: sources, loads, and regions of impedance.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::class::{parameter_methods, value_class};
use crate::error::check;
use crate::filter::{ImpedanceRegion, MeasuringCircuit, Termination, Wire, WorstTerminations};

/// A line network: a resistance across a branch of resistance and inductance in series.
///
/// The defaults are those of the artificial mains V-network of CISPR 16-1-2, 50 ohm across 50 uH + 5 ohm,
/// for 9 kHz to 30 MHz (section 4.2, whose title is read at mail-archive.com, emc-pstc msg66365).
///
/// Parameters
/// ----------
/// parallel_ohm : float, default 50
///     Resistance across the whole, ohm.
/// branch_ohm : float, default 5
///     Resistance in the branch, ohm.
/// branch_h : float, default 50e-6
///     Inductance in the branch, H.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "LineNetwork")]
#[derive(Clone, PartialEq)]
pub struct PyLineNetwork(pub (f64, f64, f64));

#[pymethods]
impl PyLineNetwork {
    #[new]
    #[pyo3(signature = (parallel_ohm=50.0, branch_ohm=5.0, branch_h=50e-6))]
    fn new(parallel_ohm: f64, branch_ohm: f64, branch_h: f64) -> PyResult<Self> {
        Termination::line_network(parallel_ohm, branch_ohm, branch_h)?;
        Ok(Self((parallel_ohm, branch_ohm, branch_h)))
    }
}

value_class!(PyLineNetwork, "LineNetwork" {
    /// Resistance across the whole, ohm.
    parallel_ohm: f64 = |network| network.0,
    /// Resistance in the branch, ohm.
    branch_ohm: f64 = |network| network.1,
    /// Inductance in the branch, H.
    branch_h: f64 = |network| network.2,
});

Wire! {
    /// A wire that stands off a conducting plane, as the plane's terminal sees it: an antenna-like termination.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// An open line with radiation as damping; exact for short wires, 36.6 ohm at the quarter wave, an
    /// interpolation of ours between and beyond (a few dB).
    class PyWire in filters;
}

/// An impedance in ohm (float or complex), a line network, or a wire.
#[derive(FromPyObject, IntoPyObject)]
pub enum TerminationArg {
    Network(PyLineNetwork),
    Wire(PyWire),
    Impedance(Complex64),
}

impl TerminationArg {
    pub fn from_core(termination: &Termination) -> Self {
        match termination {
            Termination::Impedance(ohm) => Self::Impedance(*ohm),
            Termination::LineNetwork { parallel_ohm, branch_ohm, branch_h } => {
                Self::Network(PyLineNetwork((*parallel_ohm, *branch_ohm, *branch_h)))
            }
            Termination::Wire(wire) => Self::Wire(PyWire(*wire)),
        }
    }

    pub fn into_core(self) -> PyResult<Termination> {
        Ok(match self {
            Self::Network(network) => {
                let (parallel_ohm, branch_ohm, branch_h) = network.0;
                Termination::line_network(parallel_ohm, branch_ohm, branch_h)?
            }
            Self::Wire(wire) => Termination::Wire(wire.0),
            Self::Impedance(ohm) => Termination::impedance(ohm)?,
        })
    }
}

/// A source and a load that insertion loss is stated between.
///
/// Parameters
/// ----------
/// source : complex, LineNetwork or Wire, default 50
///     Impedance in ohm with a positive real part, or a model.
/// load : complex, LineNetwork or Wire, default 50
///     The same for the other side.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> sr.filters.MeasuringCircuit.low_to_high()
/// MeasuringCircuit(source=(0.1+0j), load=(100+0j))
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "MeasuringCircuit")]
#[derive(Clone, PartialEq)]
pub struct PyMeasuringCircuit(pub MeasuringCircuit);

#[pymethods]
impl PyMeasuringCircuit {
    #[new]
    #[pyo3(signature = (source=TerminationArg::Impedance(Complex64::new(50.0, 0.0)), load=TerminationArg::Impedance(Complex64::new(50.0, 0.0))))]
    fn new(source: TerminationArg, load: TerminationArg) -> PyResult<Self> {
        let source = source.into_core()?;
        Ok(Self(MeasuringCircuit::new(source, load.into_core()?)))
    }

    /// 50 ohm on both sides: the usual figure in print.
    #[staticmethod]
    fn fifty_ohm() -> Self {
        Self(MeasuringCircuit::fifty_ohm())
    }

    /// 0.1 ohm source, 100 ohm load (CISPR 17).
    #[staticmethod]
    fn low_to_high() -> Self {
        Self(MeasuringCircuit::low_to_high())
    }

    /// 100 ohm source, 0.1 ohm load (CISPR 17).
    #[staticmethod]
    fn high_to_low() -> Self {
        Self(MeasuringCircuit::high_to_low())
    }

    /// The artificial mains V-network of CISPR 16-1-2 as source (9 kHz to 30 MHz), 50 ohm load.
    #[staticmethod]
    fn mains_network() -> Self {
        Self(MeasuringCircuit::mains_network())
    }

    /// An antenna-like wire outside as source, 50 ohm load.
    ///
    /// Parameters
    /// ----------
    /// length_m : float, default 10
    ///     Length of the wire, m.
    /// radius_m : float, default 1e-3
    ///     Its radius, m.
    #[staticmethod]
    #[pyo3(signature = (length_m=10.0, radius_m=1e-3))]
    fn outside_wire(length_m: f64, radius_m: f64) -> PyResult<Self> {
        Ok(Self(MeasuringCircuit::outside_wire(Wire::new(length_m, radius_m)?)))
    }
}

value_class!(PyMeasuringCircuit, "MeasuringCircuit" {
    /// The source.
    source: TerminationArg = |circuit| TerminationArg::from_core(circuit.source()),
    /// The load.
    load: TerminationArg = |circuit| TerminationArg::from_core(circuit.load()),
});
parameter_methods!(PyMeasuringCircuit);

ImpedanceRegion! {
    /// Impedances that a termination can have: a range of magnitude and a range of phase.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// OutOfRangeError, RelationError
    ///     For a value outside its domain, or a range upside down.
    class PyImpedanceRegion in filters;
}

/// The worst pair of terminations, and the insertion loss between them.
#[pyclass(frozen, eq, module = "stillroom.filters", name = "WorstTerminations")]
#[derive(Clone, PartialEq)]
pub struct PyWorstTerminations(pub WorstTerminations);

#[pymethods]
impl PyWorstTerminations {
    #[new]
    #[pyo3(signature = (*, insertion_loss_db, source_ohm, load_ohm, within_db=1e-6))]
    fn new(insertion_loss_db: f64, source_ohm: Complex64, load_ohm: Complex64, within_db: f64) -> PyResult<Self> {
        // Without bound at a resonance without loss.
        if insertion_loss_db != f64::NEG_INFINITY {
            check::finite("insertion_loss_db", "dB", insertion_loss_db)?;
        }
        if within_db != f64::INFINITY {
            check::non_negative("within_db", "dB", within_db)?;
        }
        Ok(Self(WorstTerminations { insertion_loss_db, source_ohm, load_ohm, within_db }))
    }
}

value_class!(PyWorstTerminations, "WorstTerminations" {
    /// Insertion loss, dB.
    insertion_loss_db: f64 = |worst| worst.insertion_loss_db,
    /// Source impedance, ohm.
    source_ohm: Complex64 = |worst| worst.source_ohm,
    /// Load impedance, ohm.
    load_ohm: Complex64 = |worst| worst.load_ohm,
    /// No pair in the regions loses less by more than this, dB: 0.000001, and what rounding adds at a resonance with next to
    /// no loss; infinite where rounding is all that is left of it.
    within_db: f64 = |worst| worst.within_db,
});
