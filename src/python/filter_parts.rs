//! Two-terminal parts of a filter.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{parameter_methods, value_class};
use crate::error::check;
use crate::filter::{Capacitor, FerriteBead, Inductor, Part, Resistor, Saturation};

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
///     Peak (or direct) current that halves the inductance, A: L(i) = L/(1 + (i/half_current_a)**saturation_exponent), i
///     the current of the moment.
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
/// >>> coil = sr.filters.Inductor(100e-6, resistance_ohm=0.02, parallel_capacitance_f=15e-12)
/// >>> round(coil.self_resonance_hz / 1e6, 2)
/// 4.11
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "Inductor")]
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
        if let Some(law) = saturation(half_current_a, saturation_exponent)? {
            coil = coil.with_saturation(law);
        }
        Ok(Self(coil))
    }

    /// Frequency at which the coil turns capacitive, Hz; infinite without capacitance.
    #[getter]
    fn self_resonance_hz(&self) -> f64 {
        self.0.self_resonance_hz()
    }

    /// Inductance left at the crest of a current, H: what radio frequency meets there.
    ///
    /// Parameters
    /// ----------
    /// peak_current_a : float
    ///     Peak (or direct) current, A: the square root of two times the effective value of a sine.
    fn loaded_inductance_h(&self, peak_current_a: f64) -> PyResult<f64> {
        Ok(self.0.loaded_inductance_h(check::finite("peak_current_a", "A", peak_current_a)?))
    }

    /// Inductance that a sine meets at its own frequency, H: the mean over its period, of which its volt drop is made.
    ///
    /// Parameters
    /// ----------
    /// current_rms_a : float
    ///     Effective value, A.
    fn mean_inductance_h(&self, current_rms_a: f64) -> PyResult<f64> {
        Ok(self.0.mean_inductance_h(check::finite("current_rms_a", "A", current_rms_a)?))
    }

    /// Impedance, ohm.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// peak_current_a : float, default 0
    ///     Peak (or direct) current, A.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, peak_current_a=0.0))]
    fn impedance_ohm(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        peak_current_a: f64,
    ) -> PyResult<Out<Complex64>> {
        part_impedance(py, &self.0.into(), &frequency_hz, peak_current_a)
    }
}

value_class!(PyInductor, "Inductor" {
    /// Inductance without current, H.
    inductance_h: f64 = |coil| coil.inductance_h(),
    /// Resistance of the winding, ohm.
    resistance_ohm: f64 = |coil| coil.resistance_ohm(),
    /// Capacitance across the winding, F.
    parallel_capacitance_f: f64 = |coil| coil.parallel_capacitance_f(),
    /// Core-loss resistance, ohm, or None.
    core_loss_ohm: Option<f64> = |coil| coil.core_loss_ohm(),
    /// Relaxation frequency of the permeability, Hz, or None.
    relaxation_hz: Option<f64> = |coil| coil.relaxation_hz(),
    /// Peak current that halves the inductance, A, or None.
    half_current_a: Option<f64> = |coil| coil.saturation().map(|law| law.half_current_a()),
    /// Exponent of the law of saturation.
    saturation_exponent: f64 = |coil| coil.saturation().map_or(2.0, |law| law.saturation_exponent()),
});
parameter_methods!(PyInductor);

fn part_impedance(
    py: Python<'_>,
    part: &Part,
    frequency_hz: &RealArg<'_>,
    peak_current_a: f64,
) -> PyResult<Out<Complex64>> {
    check::finite("peak_current_a", "A", peak_current_a)?;
    batch(py, "frequency_hz", frequency_hz, Complex64::new(0.0, 0.0), |f, out| {
        check::frequencies(f)?;
        for (out, &f) in out.iter_mut().zip(f) {
            *out = part.impedance_ohm(f, peak_current_a);
        }
        Ok(())
    })
}

Capacitor! {
    /// A two-terminal capacitor with its parasitics.
    ///
    /// Z = 1/(s C (1 - j tan d)) + R + s L. A surge arrester below its striking voltage is a capacitor of its
    /// off-state capacitance; a damping resistor in series counts into R.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For a value outside its domain, by name.
    class PyCapacitor keywords in filters;
}

#[pymethods]
impl PyCapacitor {
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

Resistor! {
    /// A resistor with its parasitics: R with series L, and C across both.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For a value outside its domain, by name.
    class PyResistor keywords in filters;
}

#[pymethods]
impl PyResistor {
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

FerriteBead! {
    /// A ferrite bead, sleeve or other lossy part known by a table of its impedance.
    ///
    /// Joined in log frequency; extended as a coil below the table, held above, with a warning.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// OutOfRangeError, NotIncreasingError, LengthMismatchError, EmptyError
    ///     For columns that do not fit, with the row.
    class PyFerriteBead in filters;
}

#[pymethods]
impl PyFerriteBead {
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

/// The law of saturation where there is one. Checked even where nothing saturates: a nonsense exponent should not
/// wait for a current to show.
pub fn saturation(half_current_a: Option<f64>, exponent: f64) -> PyResult<Option<Saturation>> {
    let law = Saturation::new(half_current_a.unwrap_or(1.0), exponent)?;
    Ok(half_current_a.map(|_| law))
}

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

    pub fn into_core(self) -> PyResult<Part> {
        Ok(match self {
            Self::Inductor(part) => part.0.into(),
            Self::Capacitor(part) => part.0.into(),
            Self::Resistor(part) => part.0.into(),
            Self::FerriteBead(part) => part.0.into(),
        })
    }
}
