//! Touchstone files and tables of measured loss.

use std::path::PathBuf;

use ndarray::{Array1, Array3, Ix1, Ix3};
use num_complex::Complex64;
use numpy::PyUntypedArrayMethods;
use pyo3::prelude::*;

use super::array::{ArrayLike, Nd, Out, RealArg, batch};
use super::csv::TableText;
use super::error::warn_outside;
use super::filter_ends::PyMeasuringCircuit;
use crate::error::{Error, check};
use crate::filter::{FrequencyUnit, MeasuredLoss, PairFormat, Touchstone};
use crate::number_text::Frequency;

/// Network parameters of one to four ports from or to a Touchstone 1.1 file.
///
/// Numbers stay as the file holds them: written and read again they are equal to the last bit, in every unit and
/// format. Made by `parse`, `read` or `from_scattering`.
///
/// Notes
/// -----
/// *Touchstone File Format Specification*, IBIS Open Forum.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> file = sr.filters.Touchstone.parse("# MHz S RI R 50\n10 0.1 0 0.9 0 0.9 0 0.1 0\n", 2)
/// >>> file.scattering()[0, 1, 0]
/// np.complex128(0.9+0j)
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "Touchstone")]
#[derive(Clone, PartialEq)]
pub struct PyTouchstone(pub Touchstone);

fn array_error(error: impl ToString) -> PyErr {
    pyo3::exceptions::PyValueError::new_err(error.to_string())
}

fn named<T: Copy>(kind: &'static str, name: &str, all: &[T], of: impl Fn(T) -> &'static str) -> Result<T, Error> {
    all.iter().copied().find(|&item| of(item).eq_ignore_ascii_case(name)).ok_or_else(|| Error::UnknownName {
        kind: kind.into(),
        name: name.to_owned(),
        known: all.iter().map(|&item| of(item).to_owned()).collect(),
    })
}

#[pymethods]
impl PyTouchstone {
    /// Reads a file's text.
    ///
    /// Parameters
    /// ----------
    /// text : str
    ///     Content of the file.
    /// ports : int
    ///     Number of ports, 1 to 4: what the file's name says.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With the line number, what was found there and what was expected.
    #[staticmethod]
    fn parse(py: Python<'_>, text: &str, ports: usize) -> PyResult<Self> {
        Ok(Self(py.detach(|| Touchstone::parse(text, ports))?))
    }

    /// Reads a file; its name ends in .s1p to .s4p.
    ///
    /// Parameters
    /// ----------
    /// path : str or path
    ///     The file.
    #[staticmethod]
    fn read(py: Python<'_>, path: PathBuf) -> PyResult<Self> {
        let ports = Touchstone::ports_of_name(&path.to_string_lossy())?;
        // Comments may be in any old encoding; what counts is ASCII.
        let bytes = std::fs::read(&path)?;
        Self::parse(py, &String::from_utf8_lossy(&bytes), ports)
    }

    /// Writes a file.
    ///
    /// Parameters
    /// ----------
    /// path : str or path
    ///     The file; its name should end in .s1p to .s4p, as the number of ports is.
    fn write(&self, path: PathBuf) -> PyResult<()> {
        let ports = Touchstone::ports_of_name(&path.to_string_lossy())?;
        check::within("ports", "", ports as f64, (self.0.ports() as f64, self.0.ports() as f64), "what the name says")?;
        Ok(std::fs::write(path, self.0.to_text())?)
    }

    /// From scattering parameters.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : ndarray
    ///     Frequencies, Hz, shape (n,), increasing.
    /// scattering : ndarray of complex
    ///     Shape (n, ports, ports).
    /// reference_ohm : float, default 50
    ///     Reference resistance, ohm.
    #[staticmethod]
    #[pyo3(signature = (frequency_hz, scattering, reference_ohm=50.0))]
    fn from_scattering(frequency_hz: Vec<f64>, scattering: ArrayLike<'_>, reference_ohm: f64) -> PyResult<Self> {
        let scattering = scattering.complex("scattering")?;
        let shape = scattering.shape();
        if shape.len() != 3 || shape[0] != frequency_hz.len() || shape[1] != shape[2] {
            return Err(array_error(format!(
                "`scattering` must have the shape (n, ports, ports) with n = {}, not {shape:?}",
                frequency_hz.len()
            )));
        }
        let ports = shape[1];
        let values: Vec<Complex64> = scattering.as_array().iter().copied().collect();
        Ok(Self(Touchstone::from_scattering(ports, frequency_hz, &values, reference_ohm)?))
    }

    /// The file's text.
    fn to_text(&self) -> String {
        self.0.to_text()
    }

    /// Number of ports.
    #[getter]
    fn ports(&self) -> usize {
        self.0.ports()
    }

    /// Unit of the frequency column.
    #[getter]
    fn unit(&self) -> &'static str {
        self.0.unit().name()
    }

    /// Which parameters the file holds: S, Y, Z, H or G.
    #[getter]
    fn parameter(&self) -> &'static str {
        self.0.parameter().name()
    }

    /// How pairs are written: RI, MA or DB.
    #[getter]
    fn format(&self) -> &'static str {
        self.0.format().name()
    }

    /// Reference resistance of each port, ohm.
    #[getter]
    fn reference_ohm(&self) -> Vec<f64> {
        self.0.reference_ohm()
    }

    /// Comment lines above the data.
    #[getter]
    fn comments(&self) -> Vec<String> {
        self.0.comments().to_vec()
    }

    /// Frequencies, Hz, shape (n,).
    #[getter]
    fn frequency_hz(&self) -> Nd<f64, Ix1> {
        Nd(Array1::from(self.0.frequency_hz().to_vec()))
    }

    /// Noise data of a two-port: frequency (Hz), least noise figure (dB), reflection (magnitude, degrees), normalised
    /// noise resistance.
    #[getter]
    fn noise(&self) -> Vec<(f64, f64, f64, f64, f64)> {
        let row = |p: &crate::filter::NoisePoint| {
            (p.frequency_hz, p.noise_figure_db, p.reflection[0], p.reflection[1], p.normalised_resistance)
        };
        self.0.noise().iter().map(row).collect()
    }

    /// The parameters that the file holds, as complex numbers, shape (n, ports, ports).
    fn values(&self) -> PyResult<Nd<Complex64, Ix3>> {
        let n = self.0.ports();
        let count = self.0.frequency_hz().len();
        Ok(Nd(Array3::from_shape_fn((count, n, n), |(index, row, column)| self.0.value(index, row, column))))
    }

    /// Scattering parameters, whatever the file holds, shape (n, ports, ports).
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     Where they do not exist, with the index.
    fn scattering(&self) -> PyResult<Nd<Complex64, Ix3>> {
        let (n, count) = (self.0.ports(), self.0.frequency_hz().len());
        let mut values = Vec::with_capacity(count * n * n);
        for index in 0..count {
            values.extend(self.0.scattering(index)?);
        }
        Array3::from_shape_vec((count, n, n), values).map(Nd).map_err(array_error)
    }

    /// How far the data are from passive: largest singular value of S less one, shape (n,); above zero is gain.
    fn excess_gain(&self) -> PyResult<Nd<f64, Ix1>> {
        Ok(Nd(Array1::from(self.0.excess_gains()?)))
    }

    /// Refuses data that give out more than they take in.
    ///
    /// Parameters
    /// ----------
    /// tolerance : float, default 0
    ///     What is let pass for noise, as a share of amplitude.
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     That names the worst frequency and the largest singular value there.
    #[pyo3(signature = (tolerance=0.0))]
    fn check_passive(&self, tolerance: f64) -> PyResult<()> {
        Ok(self.0.check_passive(tolerance)?)
    }

    /// The same content with other comments, another unit of frequency, or another format of pairs.
    ///
    /// Parameters
    /// ----------
    /// comments : sequence of str, optional
    ///     Lines above the data.
    /// unit : {"Hz", "kHz", "MHz", "GHz"}, optional
    ///     No number changes but for the place of its decimal point.
    /// format : {"RI", "MA", "DB"}, optional
    ///     Numbers are converted once, to rounding.
    #[pyo3(signature = (*, comments=None, unit=None, format=None))]
    fn rewritten(&self, comments: Option<Vec<String>>, unit: Option<&str>, format: Option<&str>) -> PyResult<Self> {
        let mut file = self.0.clone();
        if let Some(comments) = comments {
            file = file.with_comments(comments);
        }
        if let Some(unit) = unit {
            file = file.in_unit(named("frequency unit", unit, &FrequencyUnit::ALL, FrequencyUnit::name)?);
        }
        if let Some(format) = format {
            file = file.in_format(named("pair format", format, &PairFormat::ALL, PairFormat::name)?)?;
        }
        Ok(Self(file))
    }

    fn __repr__(&self) -> String {
        let frequencies = self.0.frequency_hz();
        let (first, last) = (frequencies[0], frequencies[frequencies.len() - 1]);
        format!(
            "<Touchstone: {} ports, {} parameters at {} frequencies from {} to {}>",
            self.0.ports(),
            self.0.parameter().name(),
            frequencies.len(),
            Frequency(first),
            Frequency(last)
        )
    }

    #[pyo3(signature = () -> "tuple[object, tuple[str, int]]")]
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String, usize))> {
        let file = &slf.get().0;
        Ok((slf.get_type().getattr("parse")?, (file.to_text(), file.ports())))
    }
}

MeasuredLoss! {
    /// Measured insertion loss against frequency, joined in ln f and held beyond both ends.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// NotIncreasingError, OutOfRangeError, LengthMismatchError, EmptyError
    ///     For columns that do not fit, with the row.
    class PyMeasuredLoss in filters;
}

#[pymethods]
impl PyMeasuredLoss {
    /// From comma-separated text with the columns `frequency_hz` and `insertion_loss_db`.
    ///
    /// Parameters
    /// ----------
    /// text : str or pathlib.Path
    ///     Text with a heading whose separator (tab, semicolon or comma) parts all its fields, numbers with decimal
    ///     points; or the path of a file that holds it.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With the line number.
    #[staticmethod]
    fn from_csv(text: TableText) -> PyResult<Self> {
        Ok(Self(MeasuredLoss::from_csv(&text.read()?)?))
    }

    /// As comma-separated text, which reads back as the same numbers.
    fn to_csv(&self) -> String {
        self.0.to_csv()
    }

    /// Insertion loss, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, outside the table.
    fn insertion_loss_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let mut seen = Vec::new();
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            for (out, &f) in out.iter_mut().zip(f) {
                *out = self.0.insertion_loss_db(f);
            }
            seen.extend_from_slice(f);
            Ok(())
        })?;
        warn_outside(py, &seen, |f| self.0.validity(f))?;
        Ok(result)
    }
}
