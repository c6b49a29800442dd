//! Ladders.

use ndarray::{ArrayD, IxDyn};
use num_complex::Complex64;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use super::array::{ArrayLike, Axes, Nd, Out, Real, RealArg, batch};
use super::error::warn_outside;
use super::filter_elements::ElementArg;
use super::filter_ends::{PyImpedanceRegion, PyMeasuringCircuit, PyWorstTerminations};
use super::filter_housing::PyHousing;
use super::signals::interruptible;
use crate::circuit::Terminations;
use crate::error::check;
use crate::filter::{CAUTION, Ladder, LossGoal, MeasuringCircuit};

Ladder! {
    /// A filter: parts in the line and across it, from the source's side to the load's.
    ///
    /// Mains filters put current into the protective earth: bond the case before energising, check touch
    /// and earth-leakage current against the code that applies, and leave the work to a licensed electrician.
    ///
    /// {parameters}
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
    /// >>> ladder = sr.filters.Ladder([sr.filters.Series(sr.filters.Inductor(100e-6)), sr.filters.Shunt(sr.filters.Capacitor(1e-6))])
    /// >>> round(ladder.insertion_loss_db(100e3), 2)
    /// 27.91
    /// >>> round(ladder.insertion_loss_db(15915.5, sr.filters.MeasuringCircuit.low_to_high()), 2)
    /// -19.18
    class PyLadder keywords in filters;
}

#[pymethods]
impl PyLadder {
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
    /// Exact to 0.000001 dB and what rounding adds: that nothing in the regions is worse is shown at every frequency.
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
            self.0.region_insertion_losses_db(f, &source.0, &load.0, out);
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
    ///     largest slope over all frequencies. NaN right at a resonance that nothing damps.
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
        by_path(py, table, &shape)
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
        interruptible(py, |watch| {
            self.0.yield_fraction_watched(&goals, coil_tolerance, capacitor_tolerance, trials, seed, watch)
        })
    }

    /// Plots the insertion loss in several circuits at once, with the worst over all terminations.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequencies, Hz.
    /// circuits : dict[str, MeasuringCircuit], optional
    ///     By label; where not given 50/50, 0.1/100 and 100/0.1 ohm, an artificial mains network and a 10 m wire.
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

// Slopes by the path of their parameter, each of the shape asked for.
pub(super) fn by_path<'py>(
    py: Python<'py>,
    table: Vec<(String, Vec<f64>)>,
    shape: &[usize],
) -> PyResult<Bound<'py, PyDict>> {
    let slopes = PyDict::new(py);
    for (path, values) in table {
        if shape.is_empty() {
            slopes.set_item(path, values[0])?;
        } else {
            // One value for each frequency, by construction.
            let values = ArrayD::from_shape_vec(shape.to_vec(), values)
                .map_err(|error| pyo3::exceptions::PyValueError::new_err(error.to_string()))?;
            slopes.set_item(path, Nd(values))?;
        }
    }
    Ok(slopes)
}

// All values in row-major order, and the shape.
pub(super) fn flat(frequency_hz: &RealArg<'_>) -> PyResult<(Vec<f64>, Vec<usize>)> {
    Ok(match frequency_hz.read("frequency_hz")? {
        Real::Scalar(f) => (vec![f], Vec::new()),
        Real::Array(array) => {
            let view = array.as_array();
            (view.iter().copied().collect(), view.shape().to_vec())
        }
    })
}
