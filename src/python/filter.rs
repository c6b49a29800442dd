//! Filters: parts, ladders, what they work between, and the filtered line as a leak.

use ndarray::{ArrayD, IxDyn};
use num_complex::Complex64;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use super::array::{ArrayLike, Axes, Nd, Out, Real, RealArg, batch};
use super::class::{leak_class, parameter_methods, value_class};
use super::error::warn_outside;
use crate::error::check;
use crate::filter::{
    CAUTION, Capacitor, Conductor, Element, FeedthroughCapacitor, FerriteBead, FilteredLine, Housing, ImpedanceRegion,
    Inductor, Ladder, LossGoal, LossyLine, MeasuredTwoPort, MeasuringCircuit, Part, Resistor, Saturation, Termination,
    Wire, WorstTerminations, strap_inductance_h as core_strap_inductance_h,
};
use crate::wave::Terminations;

/// A coil with its parasitics.
///
/// Z = (R + s L/(1 + s t)) in parallel with 1/(s C), with t = 1/(2 pi relaxation_hz) + L/core_loss_ohm.
///
/// Parameters
/// ----------
/// inductance_h : float
///     Inductance without load current, H, positive.
/// resistance_ohm : float, default 0
///     Resistance of the winding, ohm.
/// parallel_capacitance_f : float, default 0
///     Capacitance across the winding, F.
/// core_loss_ohm : float, optional
///     Resistance across the inductance that stands for core loss, ohm.
/// relaxation_hz : float, optional
///     Frequency of the one pole by which the permeability falls, Hz.
/// half_current_a : float, optional
///     Load current that halves the inductance, A: L(I) = L/(1 + (I/half_current_a)**saturation_exponent).
/// saturation_exponent : float, default 2
///     Exponent of that law.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value outside its domain, by name.
///
/// Notes
/// -----
/// Equivalent circuit: H. W. Ott, *Electromagnetic Compatibility Engineering*, 2009, ch. 5. The law of
/// saturation is the form fitted to powder cores (common practice, no source).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> coil = sr.Inductor(100e-6, resistance_ohm=0.02, parallel_capacitance_f=15e-12)
/// >>> round(coil.self_resonance_hz / 1e6, 2)
/// 4.11
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Inductor")]
#[derive(Clone, PartialEq)]
pub struct PyInductor(pub Inductor);

#[pymethods]
impl PyInductor {
    #[new]
    #[pyo3(signature = (inductance_h, *, resistance_ohm=0.0, parallel_capacitance_f=0.0, core_loss_ohm=None,
        relaxation_hz=None, half_current_a=None, saturation_exponent=2.0))]
    fn new(
        inductance_h: f64,
        resistance_ohm: f64,
        parallel_capacitance_f: f64,
        core_loss_ohm: Option<f64>,
        relaxation_hz: Option<f64>,
        half_current_a: Option<f64>,
        saturation_exponent: f64,
    ) -> PyResult<Self> {
        let mut coil = Inductor::new(inductance_h)?
            .with_resistance_ohm(resistance_ohm)?
            .with_parallel_capacitance_f(parallel_capacitance_f)?;
        if let Some(value) = core_loss_ohm {
            coil = coil.with_core_loss_ohm(value)?;
        }
        if let Some(value) = relaxation_hz {
            coil = coil.with_relaxation_hz(value)?;
        }
        // Checked even where nothing saturates: a nonsense exponent should not wait for a current to show.
        let law = Saturation::new(half_current_a.unwrap_or(1.0), saturation_exponent)?;
        if half_current_a.is_some() {
            coil = coil.with_saturation(law);
        }
        Ok(Self(coil))
    }

    /// Frequency at which the coil turns capacitive, Hz; infinite without capacitance.
    #[getter]
    fn self_resonance_hz(&self) -> f64 {
        self.0.self_resonance_hz()
    }

    /// Inductance left at a load current, H.
    ///
    /// Parameters
    /// ----------
    /// current_a : float
    ///     Load current, A.
    fn loaded_inductance_h(&self, current_a: f64) -> PyResult<f64> {
        Ok(self.0.loaded_inductance_h(check::finite("current_a", "A", current_a)?))
    }

    /// Impedance, ohm.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// current_a : float, default 0
    ///     Load current, A.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, current_a=0.0))]
    fn impedance_ohm(&self, py: Python<'_>, frequency_hz: RealArg<'_>, current_a: f64) -> PyResult<Out<Complex64>> {
        part_impedance(py, &self.0.into(), &frequency_hz, current_a)
    }
}

value_class!(PyInductor, "Inductor" {
    /// Inductance without load current, H.
    inductance_h: f64 = |coil| coil.inductance_h(),
    /// Resistance of the winding, ohm.
    resistance_ohm: f64 = |coil| coil.resistance_ohm(),
    /// Capacitance across the winding, F.
    parallel_capacitance_f: f64 = |coil| coil.parallel_capacitance_f(),
    /// Core-loss resistance, ohm, or None.
    core_loss_ohm: Option<f64> = |coil| coil.core_loss_ohm(),
    /// Relaxation frequency of the permeability, Hz, or None.
    relaxation_hz: Option<f64> = |coil| coil.relaxation_hz(),
    /// Load current that halves the inductance, A, or None.
    half_current_a: Option<f64> = |coil| coil.saturation().map(|law| law.half_current_a()),
    /// Exponent of the law of saturation.
    saturation_exponent: f64 = |coil| coil.saturation().map_or(2.0, |law| law.exponent()),
});
parameter_methods!(PyInductor);

fn part_impedance(py: Python<'_>, part: &Part, frequency_hz: &RealArg<'_>, current_a: f64) -> PyResult<Out<Complex64>> {
    check::finite("current_a", "A", current_a)?;
    batch(py, "frequency_hz", frequency_hz, Complex64::new(0.0, 0.0), |f, out| {
        check::frequencies(f)?;
        for (out, &f) in out.iter_mut().zip(f) {
            *out = part.impedance_ohm(f, current_a);
        }
        Ok(())
    })
}

/// A two-terminal capacitor with its parasitics.
///
/// Z = 1/(s C (1 - j tan d)) + R + s L. A surge arrester below its striking voltage is a capacitor of its
/// off-state capacitance; a damping resistor in series counts into R.
///
/// Parameters
/// ----------
/// capacitance_f : float
///     Capacitance, F, positive.
/// series_resistance_ohm : float, default 0
///     Equivalent series resistance, ohm.
/// series_inductance_h : float, default 0
///     Equivalent series inductance, leads included, H.
/// loss_tangent : float, default 0
///     Of the dielectric, constant in frequency.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Capacitor")]
#[derive(Clone, PartialEq)]
pub struct PyCapacitor(pub Capacitor);

#[pymethods]
impl PyCapacitor {
    #[new]
    #[pyo3(signature = (capacitance_f, *, series_resistance_ohm=0.0, series_inductance_h=0.0, loss_tangent=0.0))]
    fn new(
        capacitance_f: f64,
        series_resistance_ohm: f64,
        series_inductance_h: f64,
        loss_tangent: f64,
    ) -> PyResult<Self> {
        Ok(Self(
            Capacitor::new(capacitance_f)?
                .with_series_resistance_ohm(series_resistance_ohm)?
                .with_series_inductance_h(series_inductance_h)?
                .with_loss_tangent(loss_tangent)?,
        ))
    }

    /// Frequency at which the capacitor turns inductive, Hz; infinite without inductance.
    #[getter]
    fn self_resonance_hz(&self) -> f64 {
        self.0.self_resonance_hz()
    }

    /// Impedance, ohm.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn impedance_ohm(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        part_impedance(py, &self.0.into(), &frequency_hz, 0.0)
    }
}

value_class!(PyCapacitor, "Capacitor" {
    /// Capacitance, F.
    capacitance_f: f64 = |capacitor| capacitor.capacitance_f(),
    /// Equivalent series resistance, ohm.
    series_resistance_ohm: f64 = |capacitor| capacitor.series_resistance_ohm(),
    /// Equivalent series inductance, H.
    series_inductance_h: f64 = |capacitor| capacitor.series_inductance_h(),
    /// Loss tangent of the dielectric.
    loss_tangent: f64 = |capacitor| capacitor.loss_tangent(),
});
parameter_methods!(PyCapacitor);

/// A resistor with its parasitics: R with series L, and C across both.
///
/// Parameters
/// ----------
/// resistance_ohm : float
///     Resistance, ohm, positive.
/// series_inductance_h : float, default 0
///     Series inductance, H.
/// parallel_capacitance_f : float, default 0
///     Capacitance across it, F.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Resistor")]
#[derive(Clone, PartialEq)]
pub struct PyResistor(pub Resistor);

#[pymethods]
impl PyResistor {
    #[new]
    #[pyo3(signature = (resistance_ohm, *, series_inductance_h=0.0, parallel_capacitance_f=0.0))]
    fn new(resistance_ohm: f64, series_inductance_h: f64, parallel_capacitance_f: f64) -> PyResult<Self> {
        Ok(Self(
            Resistor::new(resistance_ohm)?
                .with_series_inductance_h(series_inductance_h)?
                .with_parallel_capacitance_f(parallel_capacitance_f)?,
        ))
    }

    /// Impedance, ohm.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn impedance_ohm(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        part_impedance(py, &self.0.into(), &frequency_hz, 0.0)
    }
}

value_class!(PyResistor, "Resistor" {
    /// Resistance, ohm.
    resistance_ohm: f64 = |resistor| resistor.resistance_ohm(),
    /// Series inductance, H.
    series_inductance_h: f64 = |resistor| resistor.series_inductance_h(),
    /// Capacitance across it, F.
    parallel_capacitance_f: f64 = |resistor| resistor.parallel_capacitance_f(),
});
parameter_methods!(PyResistor);

/// A ferrite bead, sleeve or other lossy part known by a table of its impedance.
///
/// Joined in log frequency; extended as a coil below the table, held above, with a warning.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, increasing.
/// resistance_ohm : sequence of float
///     Resistances, ohm, zero or positive.
/// reactance_ohm : sequence of float
///     Reactances, ohm.
/// scale : float, default 1
///     What the table is multiplied with: turns, beads, a tolerance.
///
/// Raises
/// ------
/// OutOfRangeError, NotIncreasingError, LengthMismatchError, EmptyError
///     For columns that do not fit, with the row.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "FerriteBead")]
#[derive(Clone, PartialEq)]
pub struct PyFerriteBead(pub FerriteBead);

#[pymethods]
impl PyFerriteBead {
    #[new]
    #[pyo3(signature = (frequency_hz, resistance_ohm, reactance_ohm, scale=1.0))]
    fn new(frequency_hz: Vec<f64>, resistance_ohm: Vec<f64>, reactance_ohm: Vec<f64>, scale: f64) -> PyResult<Self> {
        Ok(Self(FerriteBead::new(frequency_hz, resistance_ohm, reactance_ohm)?.scaled(scale)?))
    }

    /// Impedance, ohm.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn impedance_ohm(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        part_impedance(py, &self.0.clone().into(), &frequency_hz, 0.0)
    }
}

value_class!(PyFerriteBead, "FerriteBead" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |bead| bead.frequency_hz().to_vec(),
    /// Resistances, ohm.
    resistance_ohm: Vec<f64> = |bead| bead.resistance_ohm().to_vec(),
    /// Reactances, ohm.
    reactance_ohm: Vec<f64> = |bead| bead.reactance_ohm().to_vec(),
    /// What the table is multiplied with.
    scale: f64 = |bead| bead.scale(),
});
parameter_methods!(PyFerriteBead);

/// Any two-terminal part.
#[derive(FromPyObject, IntoPyObject)]
pub enum PartArg {
    Inductor(PyInductor),
    Capacitor(PyCapacitor),
    Resistor(PyResistor),
    FerriteBead(PyFerriteBead),
}

impl PartArg {
    pub fn from_core(part: &Part) -> Self {
        match part {
            Part::Inductor(part) => Self::Inductor(PyInductor(*part)),
            Part::Capacitor(part) => Self::Capacitor(PyCapacitor(*part)),
            Part::Resistor(part) => Self::Resistor(PyResistor(*part)),
            Part::FerriteBead(part) => Self::FerriteBead(PyFerriteBead(part.clone())),
        }
    }

    pub fn into_core(self) -> Part {
        match self {
            Self::Inductor(part) => part.0.into(),
            Self::Capacitor(part) => part.0.into(),
            Self::Resistor(part) => part.0.into(),
            Self::FerriteBead(part) => part.0.into(),
        }
    }
}

/// A part in the line.
///
/// Parameters
/// ----------
/// part : Inductor, Capacitor, Resistor or FerriteBead
///     The part.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Series")]
#[derive(Clone, PartialEq)]
pub struct PySeries(pub Part);

#[pymethods]
impl PySeries {
    #[new]
    fn new(part: PartArg) -> Self {
        Self(part.into_core())
    }
}

value_class!(PySeries, "Series" {
    /// The part.
    part: PartArg = |part| PartArg::from_core(part),
});

/// A part from the line to the case.
///
/// Parameters
/// ----------
/// part : Inductor, Capacitor, Resistor or FerriteBead
///     The part.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Shunt")]
#[derive(Clone, PartialEq)]
pub struct PyShunt(pub Part);

#[pymethods]
impl PyShunt {
    #[new]
    fn new(part: PartArg) -> Self {
        Self(part.into_core())
    }
}

value_class!(PyShunt, "Shunt" {
    /// The part.
    part: PartArg = |part| PartArg::from_core(part),
});

/// A feedthrough capacitor: a conductor through the wall with the capacitance spread along it.
///
/// A uniform line of impedance R + s L and admittance s C (1 - j tan d), and the inductance of its flange common to
/// both sides.
///
/// Parameters
/// ----------
/// capacitance_f : float
///     Capacitance, F, positive.
/// conductor_inductance_h, conductor_resistance_ohm : float, default 0
///     Of the conductor through it, H and ohm.
/// loss_tangent : float, default 0
///     Of the dielectric, constant in frequency.
/// flange_inductance_h : float, default 0
///     From its outer electrode to the wall, H.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "FeedthroughCapacitor")]
#[derive(Clone, PartialEq)]
pub struct PyFeedthroughCapacitor(pub FeedthroughCapacitor);

#[pymethods]
impl PyFeedthroughCapacitor {
    #[new]
    #[pyo3(signature = (capacitance_f, *, conductor_inductance_h=0.0, conductor_resistance_ohm=0.0, loss_tangent=0.0,
        flange_inductance_h=0.0))]
    fn new(
        capacitance_f: f64,
        conductor_inductance_h: f64,
        conductor_resistance_ohm: f64,
        loss_tangent: f64,
        flange_inductance_h: f64,
    ) -> PyResult<Self> {
        Ok(Self(
            FeedthroughCapacitor::new(capacitance_f)?
                .with_conductor(conductor_inductance_h, conductor_resistance_ohm)?
                .with_loss_tangent(loss_tangent)?
                .with_flange_inductance_h(flange_inductance_h)?,
        ))
    }
}

value_class!(PyFeedthroughCapacitor, "FeedthroughCapacitor" {
    /// Capacitance, F.
    capacitance_f: f64 = |part| part.capacitance_f(),
    /// Inductance of the conductor through it, H.
    conductor_inductance_h: f64 = |part| part.conductor_inductance_h(),
    /// Resistance of the conductor through it, ohm.
    conductor_resistance_ohm: f64 = |part| part.conductor_resistance_ohm(),
    /// Loss tangent of the dielectric.
    loss_tangent: f64 = |part| part.loss_tangent(),
    /// Inductance from its outer electrode to the wall, H.
    flange_inductance_h: f64 = |part| part.flange_inductance_h(),
});
parameter_methods!(PyFeedthroughCapacitor);

/// A length of cable or of lossy line.
///
/// Parameters
/// ----------
/// length_m : float
///     Length, m.
/// characteristic_ohm : float
///     Characteristic impedance without loss, ohm.
/// velocity_m_per_s : float
///     Velocity without loss, m/s.
/// resistance_ohm_per_m : float, default 0
///     Resistance per metre at `reference_hz`, growing as the square root of frequency.
/// reference_hz : float, default 1e6
///     Frequency of that resistance, Hz.
/// loss_tangent : float, default 0
///     Of the dielectric, constant in frequency.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "LossyLine")]
#[derive(Clone, PartialEq)]
pub struct PyLossyLine(pub LossyLine);

#[pymethods]
impl PyLossyLine {
    #[new]
    #[pyo3(signature = (length_m, characteristic_ohm, velocity_m_per_s, *, resistance_ohm_per_m=0.0, reference_hz=1e6,
        loss_tangent=0.0))]
    fn new(
        length_m: f64,
        characteristic_ohm: f64,
        velocity_m_per_s: f64,
        resistance_ohm_per_m: f64,
        reference_hz: f64,
        loss_tangent: f64,
    ) -> PyResult<Self> {
        Ok(Self(
            LossyLine::new(length_m, characteristic_ohm, velocity_m_per_s)?
                .with_resistance(resistance_ohm_per_m, reference_hz)?
                .with_loss_tangent(loss_tangent)?,
        ))
    }
}

value_class!(PyLossyLine, "LossyLine" {
    /// Length, m.
    length_m: f64 = |line| line.length_m(),
    /// Characteristic impedance without loss, ohm.
    characteristic_ohm: f64 = |line| line.characteristic_ohm(),
    /// Velocity without loss, m/s.
    velocity_m_per_s: f64 = |line| line.velocity_m_per_s(),
    /// Resistance per metre at the reference frequency, ohm/m.
    resistance_ohm_per_m: f64 = |line| line.resistance_ohm_per_m(),
    /// Reference frequency of the resistance, Hz.
    reference_hz: f64 = |line| line.reference_hz(),
    /// Loss tangent of the dielectric.
    loss_tangent: f64 = |line| line.loss_tangent(),
});
parameter_methods!(PyLossyLine);

/// A measured two-port in the chain.
///
/// Reflections are joined in real and imaginary part, transmissions in log magnitude and phase; held beyond both ends,
/// with a warning.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, increasing.
/// scattering : sequence of (complex, complex, complex, complex)
///     S11, S12, S21, S22 at each.
/// source_reference_ohm, load_reference_ohm : float, default 50
///     Reference resistances of the ports, ohm.
///
/// Raises
/// ------
/// OutOfRangeError
///     With the index, for values that are not finite or without transmission.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "MeasuredTwoPort")]
#[derive(Clone, PartialEq)]
pub struct PyMeasuredTwoPort(pub MeasuredTwoPort);

#[pymethods]
impl PyMeasuredTwoPort {
    #[new]
    #[pyo3(signature = (frequency_hz, scattering, source_reference_ohm=50.0, load_reference_ohm=50.0))]
    fn new(
        frequency_hz: Vec<f64>,
        scattering: Vec<(Complex64, Complex64, Complex64, Complex64)>,
        source_reference_ohm: f64,
        load_reference_ohm: f64,
    ) -> PyResult<Self> {
        let rows = scattering.into_iter().map(|(s11, s12, s21, s22)| [s11, s12, s21, s22]).collect();
        Ok(Self(MeasuredTwoPort::new(frequency_hz, rows, source_reference_ohm, load_reference_ohm)?))
    }

    /// From a Touchstone file of two ports.
    ///
    /// Parameters
    /// ----------
    /// file : Touchstone
    ///     The file.
    /// tolerance : float, default 0
    ///     By what share of amplitude the data may give out more than they take in.
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For data that are not passive within the tolerance: by how much, and where.
    #[staticmethod]
    #[pyo3(signature = (file, tolerance=0.0))]
    fn from_touchstone(file: super::filter_files::PyTouchstone, tolerance: f64) -> PyResult<Self> {
        Ok(Self(MeasuredTwoPort::from_touchstone(&file.0, tolerance)?))
    }
}

value_class!(PyMeasuredTwoPort, "MeasuredTwoPort" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |measured| measured.frequency_hz().to_vec(),
    /// S11, S12, S21, S22 at each.
    scattering: Vec<(Complex64, Complex64, Complex64, Complex64)> =
        |measured| measured.scattering().iter().map(|s| (s[0], s[1], s[2], s[3])).collect(),
    /// Reference resistance of port 1, ohm.
    source_reference_ohm: f64 = |measured| measured.source_reference_ohm(),
    /// Reference resistance of port 2, ohm.
    load_reference_ohm: f64 = |measured| measured.load_reference_ohm(),
});

/// One member of a ladder.
#[derive(FromPyObject, IntoPyObject)]
pub enum ElementArg {
    Series(PySeries),
    Shunt(PyShunt),
    Feedthrough(PyFeedthroughCapacitor),
    Line(PyLossyLine),
    Measured(PyMeasuredTwoPort),
}

impl ElementArg {
    fn from_core(element: &Element) -> Self {
        match element {
            Element::Series(part) => Self::Series(PySeries(part.clone())),
            Element::Shunt(part) => Self::Shunt(PyShunt(part.clone())),
            Element::Feedthrough(part) => Self::Feedthrough(PyFeedthroughCapacitor(*part)),
            Element::Line(line) => Self::Line(PyLossyLine(*line)),
            Element::Measured(measured) => Self::Measured(PyMeasuredTwoPort(measured.clone())),
        }
    }

    fn into_core(self) -> Element {
        match self {
            Self::Series(series) => Element::Series(series.0),
            Self::Shunt(shunt) => Element::Shunt(shunt.0),
            Self::Feedthrough(part) => Element::Feedthrough(part.0),
            Self::Line(line) => Element::Line(line.0),
            Self::Measured(measured) => Element::Measured(measured.0),
        }
    }
}

/// A line network: a resistance across a branch of resistance and inductance in series.
///
/// The defaults are those of the artificial mains V-network of CISPR 16-1-2, 50 ohm across 50 uH + 5 ohm,
/// for 9 kHz to 30 MHz (values from memory).
///
/// Parameters
/// ----------
/// parallel_ohm : float, default 50
///     Resistance across the whole, ohm.
/// branch_ohm : float, default 5
///     Resistance in the branch, ohm.
/// branch_h : float, default 50e-6
///     Inductance in the branch, H.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "LineNetwork")]
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

/// A wire that stands off a conducting plane, as the plane's terminal sees it: an antenna-like termination.
///
/// Parameters
/// ----------
/// length_m : float
///     Length, m.
/// radius_m : float
///     Radius, m, below a tenth of the length.
///
/// Notes
/// -----
/// An open line with radiation as damping; exact for short wires, 36.6 ohm at the quarter wave, an
/// interpolation of ours between and beyond (a few dB).
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Wire")]
#[derive(Clone, PartialEq)]
pub struct PyWire(pub Wire);

#[pymethods]
impl PyWire {
    #[new]
    fn new(length_m: f64, radius_m: f64) -> PyResult<Self> {
        Ok(Self(Wire::new(length_m, radius_m)?))
    }
}

value_class!(PyWire, "Wire" {
    /// Length, m.
    length_m: f64 = |wire| wire.length_m(),
    /// Radius, m.
    radius_m: f64 = |wire| wire.radius_m(),
});

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
/// >>> sr.MeasuringCircuit.low_to_high()
/// MeasuringCircuit(source=(0.1+0j), load=(100+0j))
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "MeasuringCircuit")]
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
}

value_class!(PyMeasuringCircuit, "MeasuringCircuit" {
    /// The source.
    source: TerminationArg = |circuit| TerminationArg::from_core(circuit.source()),
    /// The load.
    load: TerminationArg = |circuit| TerminationArg::from_core(circuit.load()),
});
parameter_methods!(PyMeasuringCircuit);

/// A filter's can and how it sits on the wall.
///
/// Parameters
/// ----------
/// case_length_m : float
///     Length of the case, m: lumped parts hold while it is below a tenth of a wavelength.
/// bond_resistance_ohm : float, default 0
///     Resistance between case and wall, ohm.
/// bond_inductance_h : float, default 0
///     Inductance between case and wall, H; see `strap_inductance_h`. Near zero for a flush case.
/// stray_capacitance_f : float, default 0
///     Capacitance from input to output inside the can, F.
/// isolation_db : float, optional
///     The most that any filter in this can can lose, dB.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value outside its domain, by name.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Housing")]
#[derive(Clone, PartialEq)]
pub struct PyHousing(pub Housing);

#[pymethods]
impl PyHousing {
    #[new]
    #[pyo3(signature = (case_length_m, *, bond_resistance_ohm=0.0, bond_inductance_h=0.0, stray_capacitance_f=0.0,
        isolation_db=None))]
    fn new(
        case_length_m: f64,
        bond_resistance_ohm: f64,
        bond_inductance_h: f64,
        stray_capacitance_f: f64,
        isolation_db: Option<f64>,
    ) -> PyResult<Self> {
        let housing = Housing::new(case_length_m)?
            .with_bond(bond_resistance_ohm, bond_inductance_h)?
            .with_stray_capacitance_f(stray_capacitance_f)?;
        Ok(Self(match isolation_db {
            None => housing,
            Some(value) => housing.with_isolation_db(value)?,
        }))
    }
}

value_class!(PyHousing, "Housing" {
    /// Length of the case, m.
    case_length_m: f64 = |housing| housing.case_length_m(),
    /// Resistance between case and wall, ohm.
    bond_resistance_ohm: f64 = |housing| housing.bond_resistance_ohm(),
    /// Inductance between case and wall, H.
    bond_inductance_h: f64 = |housing| housing.bond_inductance_h(),
    /// Capacitance from input to output, F.
    stray_capacitance_f: f64 = |housing| housing.stray_capacitance_f(),
    /// Isolation of the can, dB, or None.
    isolation_db: Option<f64> = |housing| housing.isolation_db(),
});
parameter_methods!(PyHousing);

/// Inductance of a straight flat bonding strap, H.
///
/// Parameters
/// ----------
/// length_m, width_m, thickness_m : float
///     Sizes, m; width and thickness below the length.
///
/// Returns
/// -------
/// float
///     (mu0 l/2 pi) (ln(2 l/(w + t)) + 1/2 + 0.2235 (w + t)/l), after F. W. Grover, *Inductance
///     Calculations*, 1946. Without a return conductor: near a wall it is less.
#[pyfunction]
pub fn strap_inductance_h(length_m: f64, width_m: f64, thickness_m: f64) -> PyResult<f64> {
    Ok(core_strap_inductance_h(length_m, width_m, thickness_m)?)
}

/// Impedances that a termination can have: a range of magnitude and a range of phase.
///
/// Parameters
/// ----------
/// min_ohm, max_ohm : float
///     Least and greatest magnitude, ohm, positive.
/// min_phase_deg, max_phase_deg : float, default -90 and 90
///     Least and greatest phase, degrees, within -90 and 90.
///
/// Raises
/// ------
/// OutOfRangeError, RelationError
///     For a value outside its domain, or a range upside down.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "ImpedanceRegion")]
#[derive(Clone, PartialEq)]
pub struct PyImpedanceRegion(pub ImpedanceRegion);

#[pymethods]
impl PyImpedanceRegion {
    #[new]
    #[pyo3(signature = (min_ohm, max_ohm, min_phase_deg=-90.0, max_phase_deg=90.0))]
    fn new(min_ohm: f64, max_ohm: f64, min_phase_deg: f64, max_phase_deg: f64) -> PyResult<Self> {
        Ok(Self(ImpedanceRegion::new(min_ohm, max_ohm, min_phase_deg, max_phase_deg)?))
    }
}

value_class!(PyImpedanceRegion, "ImpedanceRegion" {
    /// Least magnitude, ohm.
    min_ohm: f64 = |region| region.min_ohm(),
    /// Greatest magnitude, ohm.
    max_ohm: f64 = |region| region.max_ohm(),
    /// Least phase, degrees.
    min_phase_deg: f64 = |region| region.min_phase_deg(),
    /// Greatest phase, degrees.
    max_phase_deg: f64 = |region| region.max_phase_deg(),
});

/// The worst pair of terminations, and the insertion loss between them.
#[pyclass(frozen, eq, module = "stillroom", name = "WorstTerminations")]
#[derive(Clone, PartialEq)]
pub struct PyWorstTerminations(pub WorstTerminations);

#[pymethods]
impl PyWorstTerminations {
    #[new]
    #[pyo3(signature = (*, insertion_loss_db, source_ohm, load_ohm))]
    fn new(insertion_loss_db: f64, source_ohm: Complex64, load_ohm: Complex64) -> PyResult<Self> {
        check::finite("insertion_loss_db", "dB", insertion_loss_db)?;
        Ok(Self(WorstTerminations { insertion_loss_db, source_ohm, load_ohm }))
    }
}

value_class!(PyWorstTerminations, "WorstTerminations" {
    /// Insertion loss, dB.
    insertion_loss_db: f64 = |worst| worst.insertion_loss_db,
    /// Source impedance, ohm.
    source_ohm: Complex64 = |worst| worst.source_ohm,
    /// Load impedance, ohm.
    load_ohm: Complex64 = |worst| worst.load_ohm,
});

/// A filter: parts in the line and across it, from the source's side to the load's.
///
/// Mains filters put current into the protective earth: bond the case before energising, check touch
/// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
///
/// Parameters
/// ----------
/// elements : sequence of Series, Shunt, FeedthroughCapacitor, LossyLine or MeasuredTwoPort
///     From the source's side to the load's; at least one.
/// load_current_a : float, default 0
///     Load current, A: coils that saturate lose inductance.
/// housing : Housing, optional
///     The can and its bond; ideal where not given.
///
/// Raises
/// ------
/// EmptyError
///     For no elements.
///
/// Notes
/// -----
/// Insertion loss is 20 log10 |V20/V2| (CISPR 17): load voltage with source and load joined directly over
/// that with the filter between. It is negative where the filter tunes out a mismatch.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> ladder = sr.Ladder([sr.Series(sr.Inductor(100e-6)), sr.Shunt(sr.Capacitor(1e-6))])
/// >>> round(ladder.insertion_loss_db(100e3), 2)
/// 27.91
/// >>> round(ladder.insertion_loss_db(15915.5, sr.MeasuringCircuit.low_to_high()), 2)
/// -19.18
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Ladder")]
#[derive(Clone, PartialEq)]
pub struct PyLadder(pub Ladder);

#[pymethods]
impl PyLadder {
    #[new]
    #[pyo3(signature = (elements, *, load_current_a=0.0, housing=None))]
    fn new(elements: Vec<ElementArg>, load_current_a: f64, housing: Option<PyHousing>) -> PyResult<Self> {
        let ladder = Ladder::new(elements.into_iter().map(ElementArg::into_core).collect())?
            .with_load_current_a(load_current_a)?;
        Ok(Self(match housing {
            None => ladder,
            Some(housing) => ladder.with_housing(housing.0),
        }))
    }

    /// Insertion loss, dB: 20 log10(V20/V2), negative where the filter gains.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// circuit : MeasuringCircuit, optional
    ///     Source and load; 50 ohm each where not given.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if the can is longer than a tenth of a wavelength, or the circuit is asked outside its domain.
    #[pyo3(signature = (frequency_hz, circuit=None))]
    fn insertion_loss_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        circuit: Option<PyMeasuringCircuit>,
    ) -> PyResult<Out<f64>> {
        let circuit = circuit.map_or_else(MeasuringCircuit::fifty_ohm, |circuit| circuit.0);
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            self.0.insertion_losses_db(f, &circuit, out);
            Ok(())
        })?;
        self.warn(py, &frequency_hz, Some(&circuit))?;
        Ok(result)
    }

    /// Least insertion loss over all passive sources and loads, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`; minus infinity for a ladder without loss, whose resonance with reactive
    ///     terminations has no bound.
    fn worst_insertion_loss_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            self.0.worst_insertion_losses_db(f, out);
            Ok(())
        })?;
        self.warn(py, &frequency_hz, None)?;
        Ok(result)
    }

    /// Least transducer loss over all passive sources and loads, dB: what is lost even when both sides match.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`; zero or positive. It compares with the power that the source could give at
    ///     best, unlike insertion loss.
    fn worst_transducer_loss_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            for (out, two_port) in out.iter_mut().zip(self.0.two_ports(f)) {
                *out = two_port.worst_transducer_loss_db();
            }
            Ok(())
        })?;
        self.warn(py, &frequency_hz, None)?;
        Ok(result)
    }

    /// Worst source and load within stated regions of impedance.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : float
    ///     Frequency, Hz.
    /// source, load : ImpedanceRegion
    ///     What can occur on each side.
    ///
    /// Returns
    /// -------
    /// WorstTerminations
    fn worst_terminations(
        &self,
        py: Python<'_>,
        frequency_hz: f64,
        source: PyImpedanceRegion,
        load: PyImpedanceRegion,
    ) -> PyResult<PyWorstTerminations> {
        check::frequency(frequency_hz)?;
        Ok(PyWorstTerminations(py.detach(|| self.0.worst_terminations(frequency_hz, &source.0, &load.0))))
    }

    /// Least insertion loss over sources and loads within stated regions of impedance, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// source, load : ImpedanceRegion
    ///     What can occur on each side.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    fn region_insertion_loss_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        source: PyImpedanceRegion,
        load: PyImpedanceRegion,
    ) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            for (out, &f) in out.iter_mut().zip(f) {
                *out = self.0.worst_terminations(f, &source.0, &load.0).insertion_loss_db;
            }
            Ok(())
        })?;
        self.warn(py, &frequency_hz, None)?;
        Ok(result)
    }

    /// Slope of the insertion loss against every parameter that is not zero, largest first.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// circuit : MeasuringCircuit, optional
    ///     Source and load; 50 ohm each where not given.
    ///
    /// Returns
    /// -------
    /// dict[str, float or ndarray]
    ///     Path of the parameter to dB for one per cent more of it, of the shape of `frequency_hz`; sorted by the
    ///     largest slope over all frequencies.
    #[pyo3(signature = (frequency_hz, circuit=None) -> "dict[str, object]")]
    fn sensitivities<'py>(
        &self,
        py: Python<'py>,
        frequency_hz: RealArg<'py>,
        circuit: Option<PyMeasuringCircuit>,
    ) -> PyResult<Bound<'py, PyDict>> {
        let circuit = circuit.map_or_else(MeasuringCircuit::fifty_ohm, |circuit| circuit.0);
        let (frequencies, shape) = flat(&frequency_hz)?;
        let table = py.detach(|| self.0.sensitivity_table(&frequencies, &circuit))?;
        let slopes = PyDict::new(py);
        for (path, values) in table {
            if shape.is_empty() {
                slopes.set_item(path, values[0])?;
            } else {
                // One value for each frequency, by construction.
                let values = ArrayD::from_shape_vec(shape.clone(), values)
                    .map_err(|error| pyo3::exceptions::PyValueError::new_err(error.to_string()))?;
                slopes.set_item(path, Nd(values))?;
            }
        }
        Ok(slopes)
    }

    /// Share of a lot in which every goal is met, coils and capacitors off evenly within their tolerances.
    ///
    /// Parameters
    /// ----------
    /// goals : sequence of LossGoal
    ///     Losses to be met.
    /// coil_tolerance, capacitor_tolerance : float
    ///     Fractions, 0 to below 1.
    /// trials : int, default 1000
    ///     How many filters to draw.
    /// seed : int, default 0
    ///     The same seed gives the same share on every machine.
    ///
    /// Returns
    /// -------
    /// float
    ///     0 to 1.
    #[pyo3(signature = (goals, coil_tolerance, capacitor_tolerance, trials=1000, seed=0))]
    fn yield_fraction(
        &self,
        py: Python<'_>,
        goals: Vec<super::filter_design::PyLossGoal>,
        coil_tolerance: f64,
        capacitor_tolerance: f64,
        trials: usize,
        seed: u64,
    ) -> PyResult<f64> {
        let goals: Vec<LossGoal> = goals.into_iter().map(|goal| goal.0).collect();
        let work = || self.0.yield_fraction(&goals, coil_tolerance, capacitor_tolerance, trials, seed);
        Ok(py.detach(work)?)
    }

    /// Plots the insertion loss in several circuits at once, with the worst over all terminations.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequencies, Hz.
    /// circuits : dict[str, MeasuringCircuit], optional
    ///     By label; 50/50, 0.1/100 and 100/0.1 ohm where not given.
    /// worst_case : bool, default True
    ///     Whether to draw the least loss over all passive terminations.
    /// ax : matplotlib.axes.Axes, optional
    ///     Where to draw; a new figure otherwise.
    ///
    /// Returns
    /// -------
    /// matplotlib.axes.Axes
    #[pyo3(signature = (frequency_hz, circuits=None, worst_case=true, ax=None))]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        frequency_hz: ArrayLike<'py>,
        circuits: Option<std::collections::BTreeMap<String, PyMeasuringCircuit>>,
        worst_case: bool,
        ax: Option<Axes<'py>>,
    ) -> PyResult<Axes<'py>> {
        let module = slf.py().import("stillroom.filter_plot")?;
        module.call_method1("plot_insertion_loss", (slf, frequency_hz, circuits, worst_case, ax)).map(Axes)
    }

    /// Power-wave scattering parameters.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// source_reference_ohm : complex, default 50
    ///     Reference at port 1, ohm, positive real part.
    /// load_reference_ohm : complex, default 50
    ///     Reference at port 2, ohm, positive real part.
    ///
    /// Returns
    /// -------
    /// ndarray of complex
    ///     Shape of `frequency_hz` followed by (2, 2): [[S11, S12], [S21, S22]].
    ///
    /// Notes
    /// -----
    /// K. Kurokawa, *Power waves and the scattering matrix*, 1965. The isolation of a can is not part of it.
    #[pyo3(signature = (frequency_hz, source_reference_ohm=Complex64::new(50.0, 0.0), load_reference_ohm=Complex64::new(50.0, 0.0)))]
    fn scattering(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        source_reference_ohm: Complex64,
        load_reference_ohm: Complex64,
    ) -> PyResult<Nd<Complex64, IxDyn>> {
        let references = Terminations::new(source_reference_ohm, load_reference_ohm)?;
        let (frequencies, mut shape) = flat(&frequency_hz)?;
        check::frequencies(&frequencies)?;
        let values = py.detach(|| -> crate::Result<_> {
            let mut values = Vec::with_capacity(4 * frequencies.len());
            for two_port in self.0.two_ports(&frequencies) {
                let s = two_port.scattering(&references)?;
                values.extend([s.s11, s.s12(), s.s21(), s.s22]);
            }
            Ok(values)
        })?;
        self.warn(py, &frequency_hz, None)?;
        shape.extend([2, 2]);
        // Four values for each entry of the shape, by construction.
        ArrayD::from_shape_vec(shape, values)
            .map(Nd)
            .map_err(|error| pyo3::exceptions::PyValueError::new_err(error.to_string()))
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn caution(&self) -> &'static str {
        CAUTION
    }
}

impl PyLadder {
    fn warn(&self, py: Python<'_>, frequency_hz: &RealArg<'_>, circuit: Option<&MeasuringCircuit>) -> PyResult<()> {
        let validity = |f: f64| {
            let own = self.0.validity(f);
            match circuit {
                None => own,
                Some(circuit) => own.and(circuit.validity(f)),
            }
        };
        let read = frequency_hz.read("frequency_hz")?;
        // Every limit of a filter is a range of frequency: where both ends of a sweep are inside, all of it is.
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let mut reach = |f: f64| (low, high) = (low.min(f), high.max(f));
        match &read {
            Real::Scalar(f) => reach(*f),
            Real::Array(array) => array.as_array().iter().for_each(|&f| reach(f)),
        }
        if low > high || (validity(low).holds() && validity(high).holds()) {
            return Ok(());
        }
        warn_outside(py, &read.values(), validity)
    }
}

// All values in row-major order, and the shape.
fn flat(frequency_hz: &RealArg<'_>) -> PyResult<(Vec<f64>, Vec<usize>)> {
    Ok(match frequency_hz.read("frequency_hz")? {
        Real::Scalar(f) => (vec![f], Vec::new()),
        Real::Array(array) => {
            let view = array.as_array();
            (view.iter().copied().collect(), view.shape().to_vec())
        }
    })
}

value_class!(PyLadder, "Ladder" {
    /// The elements, source side first.
    elements: Vec<ElementArg> = |ladder| ladder.elements().iter().map(ElementArg::from_core).collect(),
    /// Load current, A.
    load_current_a: f64 = |ladder| ladder.load_current_a(),
    /// The can, or None.
    housing: Option<PyHousing> = |ladder| ladder.housing().map(|housing| PyHousing(*housing)),
});
parameter_methods!(PyLadder);

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
