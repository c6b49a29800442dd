//! Studies of a room: the tables, and how they are kept.

use std::sync::OnceLock;

use ndarray::{Array1, Ix1, Ix2};
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict};

use super::array::{Axes, DataFrame, DataSet, Nd, Real, RealArg};
use super::class::escape;
use super::enclosure::{ExposureArg, PyEnclosure, PyRequirement};
use super::signals::interruptible;
use crate::enclosure::{LimitRun, Study, StudyRecord};
use crate::number_text::Frequency;
use crate::validity::Limit;

/// Shielding of every leak and of the whole against frequency, under one exposure.
///
/// Made by `Enclosure.study`. Rows of its tables are leaks, the wall first; columns are frequencies.
///
/// Parameters
/// ----------
/// enclosure : Enclosure
///     The room.
/// frequency_hz : array_like
///     Frequencies, Hz; flattened.
/// exposure : AntennaTest, PlaneWave, LoopTest or RodTest
///     What it is exposed to.
/// masked : bool, default False
///     Whether NaN stands for each number outside its domain.
///
/// Notes
/// -----
/// Each number tells whether it is inside the domain of its model (`valid`). The whole is valid where what contributes
/// to it is (`total_valid`): where all leaks outside their domain together read at least 40 dB above it.
///
/// A study keeps its numbers when it is pickled or sent to another process, and tells which version of the library made
/// them (`version`): nothing is computed again when it is loaded. The room and the exposure go with it and are made again
/// when they are asked for.
#[pyclass(frozen, module = "stillroom", name = "Study")]
pub struct PyStudy {
    recipe: Recipe,
    masked: bool,
    study: Study,
}

/// What a study was made of: present, or kept as bytes until somebody asks.
struct Recipe {
    present: OnceLock<(PyEnclosure, ExposureArg)>,
    kept: Option<Vec<u8>>,
}

impl Recipe {
    fn of(enclosure: PyEnclosure, exposure: ExposureArg) -> Self {
        Self { present: OnceLock::from((enclosure, exposure)), kept: None }
    }

    fn get(&self, py: Python<'_>) -> PyResult<&(PyEnclosure, ExposureArg)> {
        if let Some(present) = self.present.get() {
            return Ok(present);
        }
        let kept = PyBytes::new(py, self.kept.as_deref().unwrap_or_default());
        let present = py.import("pickle")?.call_method1("loads", (kept,))?.extract()?;
        Ok(self.present.get_or_init(|| present))
    }

    fn keep<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyBytes>> {
        match (&self.kept, self.present.get()) {
            (None, Some(present)) => {
                Ok(py.import("pickle")?.call_method1("dumps", (present.clone(),))?.cast_into::<PyBytes>()?)
            }
            (kept, _) => Ok(PyBytes::new(py, kept.as_deref().unwrap_or_default())),
        }
    }

    fn copied(&self) -> Self {
        Self { present: self.present.clone(), kept: self.kept.clone() }
    }

    fn equals(&self, py: Python<'_>, other: &Self) -> PyResult<bool> {
        let same_bytes = self.kept.is_some() && self.kept == other.kept;
        Ok(same_bytes || self.get(py)? == other.get(py)?)
    }
}

impl PyStudy {
    pub(super) fn compute(
        py: Python<'_>,
        enclosure: PyEnclosure,
        frequency_hz: &RealArg<'_>,
        exposure: ExposureArg,
    ) -> PyResult<Self> {
        let frequencies = match frequency_hz.read("frequency_hz")? {
            Real::Scalar(frequency) => vec![frequency],
            Real::Array(array) => array.as_array().iter().copied().collect(),
        };
        let study = interruptible(py, |watch| enclosure.0.study_watched(&frequencies, exposure.core(), watch))?;
        Ok(Self { recipe: Recipe::of(enclosure, exposure), masked: false, study })
    }
}

#[pymethods]
impl PyStudy {
    #[new]
    #[pyo3(signature = (enclosure, frequency_hz, exposure, masked=false))]
    fn new(
        py: Python<'_>,
        enclosure: PyEnclosure,
        frequency_hz: RealArg<'_>,
        exposure: ExposureArg,
        masked: bool,
    ) -> PyResult<Self> {
        let study = Self::compute(py, enclosure, &frequency_hz, exposure)?;
        Ok(if masked { study.masked() } else { study })
    }

    /// The same study with NaN for each number outside its domain: in the tables, the totals, and all that is made of
    /// them. What limits is told as before.
    ///
    /// Returns
    /// -------
    /// Study
    fn masked(&self) -> Self {
        Self { recipe: self.recipe.copied(), masked: true, study: self.study.masked() }
    }

    /// The room.
    #[getter]
    fn enclosure(&self, py: Python<'_>) -> PyResult<PyEnclosure> {
        Ok(self.recipe.get(py)?.0.clone())
    }

    /// What it was exposed to.
    #[getter]
    fn exposure(&self, py: Python<'_>) -> PyResult<ExposureArg> {
        Ok(self.recipe.get(py)?.1.clone())
    }

    /// Version of the library that made the numbers.
    #[getter]
    fn version(&self) -> &str {
        self.study.version()
    }

    /// Frequencies, Hz.
    #[getter]
    fn frequency_hz(&self) -> Nd<f64, Ix1> {
        Nd(self.study.frequency_hz().to_owned())
    }

    /// Names of the leaks, the wall first: the rows of the tables.
    #[getter]
    fn leaks(&self) -> Vec<String> {
        self.study.leaks().to_vec()
    }

    /// Shielding effectiveness of each leak alone, dB; shape (leaks, frequencies).
    #[getter]
    fn shielding_db(&self) -> Nd<f64, Ix2> {
        Nd(self.study.shielding_db().clone())
    }

    /// The same with the elements of each leak adding in amplitude, dB.
    #[getter]
    fn worst_case_db(&self) -> Nd<f64, Ix2> {
        Nd(self.study.worst_case_db().clone())
    }

    /// Shielding effectiveness of the whole, powers added, dB: the estimate.
    #[getter]
    fn total_db(&self) -> Nd<f64, Ix1> {
        Nd(self.study.total_db().to_owned())
    }

    /// Shielding effectiveness of the whole, amplitudes added, dB: no choice of phases is worse.
    #[getter]
    fn total_worst_case_db(&self) -> Nd<f64, Ix1> {
        Nd(self.study.total_worst_case_db().to_owned())
    }

    /// Whether each number is one, and inside the domain of its model; shape (leaks, frequencies).
    #[getter]
    fn valid(&self) -> Nd<bool, Ix2> {
        Nd(self.study.valid().clone())
    }

    /// Whether the whole can be relied on: every leak is valid, or those that are not read together at least 40 dB above
    /// the whole. A leak that is left out of the test, or that answers no number, makes it invalid.
    #[getter]
    fn total_valid(&self) -> Nd<bool, Ix1> {
        Nd(self.study.total_valid().to_owned())
    }

    /// What must be said about safety with these numbers.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.study.cautions().iter().map(ToString::to_string).collect()
    }

    /// Limits passed by one leak, as runs of neighbouring frequencies: (from_hz, to_hz, words), such as
    /// "1 MHz to 30 MHz: ...", with the value farthest beyond the limit.
    ///
    /// Parameters
    /// ----------
    /// leak : str
    ///     Its name.
    fn limits(&self, leak: &str) -> PyResult<Vec<(f64, f64, String)>> {
        Ok(self.study.limits(leak)?.iter().map(|run| (run.from_hz, run.to_hz, run.to_string())).collect())
    }

    /// Name of the leak that lets most through, at each frequency.
    fn limiting(&self) -> Vec<String> {
        self.study.limiting().into_iter().map(str::to_owned).collect()
    }

    /// The same as runs of neighbouring frequencies: (from_hz, to_hz, leak, least total dB).
    fn limiting_bands(&self) -> Vec<(f64, f64, String, f64)> {
        self.study.limiting_bands().into_iter().map(|b| (b.from_hz, b.to_hz, b.leak, b.least_total_db)).collect()
    }

    /// Estimate of the whole minus what is required, dB; infinite where nothing is required.
    ///
    /// Parameters
    /// ----------
    /// requirement : Requirement
    fn margin_db(&self, requirement: &PyRequirement) -> Nd<f64, Ix1> {
        Nd(self.study.margin_db(&requirement.0))
    }

    /// Worst case of the whole minus what is required, dB; infinite where nothing is required.
    ///
    /// Parameters
    /// ----------
    /// requirement : Requirement
    fn worst_case_margin_db(&self, requirement: &PyRequirement) -> Nd<f64, Ix1> {
        Nd(self.study.worst_case_margin_db(&requirement.0))
    }

    /// What each leak alone would have to reach for the whole to meet the requirement, dB.
    ///
    /// Infinite where the others alone let too much through; -inf where nothing is required.
    ///
    /// Parameters
    /// ----------
    /// requirement : Requirement
    ///
    /// Returns
    /// -------
    /// ndarray
    ///     Shape (leaks, frequencies).
    fn needed_db(&self, requirement: &PyRequirement) -> Nd<f64, Ix2> {
        Nd(self.study.needed_db(&requirement.0))
    }

    /// A pandas data frame: one row a frequency, one column a leak, then the whole.
    ///
    /// Parameters
    /// ----------
    /// requirement : Requirement, optional
    ///     Adds what is required and the margin.
    ///
    /// Returns
    /// -------
    /// pandas.DataFrame
    ///     Indexed by frequency in Hz; levels in dB.
    #[pyo3(signature = (requirement=None))]
    fn to_pandas<'py>(
        slf: &Bound<'py, Self>,
        requirement: Option<Bound<'py, PyRequirement>>,
    ) -> PyResult<DataFrame<'py>> {
        slf.py().import("stillroom.table")?.call_method1("study_to_pandas", (slf, requirement)).map(DataFrame)
    }

    /// An xarray data set with the dimensions ``leak`` and ``frequency_hz``.
    ///
    /// Returns
    /// -------
    /// xarray.Dataset
    fn to_xarray<'py>(slf: &Bound<'py, Self>) -> PyResult<DataSet<'py>> {
        slf.py().import("stillroom.table")?.call_method1("study_to_xarray", (slf,)).map(DataSet)
    }

    /// Plots every leak and the whole against frequency.
    ///
    /// Numbers outside a model's domain are drawn dotted, those of the whole by `total_valid`.
    ///
    /// Parameters
    /// ----------
    /// requirement : Requirement, optional
    ///     Drawn as a step line that the whole should stay above.
    /// ax : matplotlib.axes.Axes, optional
    ///     Where to draw; a new figure otherwise.
    ///
    /// Returns
    /// -------
    /// matplotlib.axes.Axes
    #[pyo3(signature = (requirement=None, ax=None))]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        requirement: Option<Bound<'py, PyRequirement>>,
        ax: Option<Axes<'py>>,
    ) -> PyResult<Axes<'py>> {
        slf.py().import("stillroom.plot")?.call_method1("plot_study", (slf, requirement, ax)).map(Axes)
    }

    fn __eq__(&self, py: Python<'_>, other: &Self) -> PyResult<bool> {
        Ok(self.masked == other.masked && self.study == other.study && self.recipe.equals(py, &other.recipe)?)
    }

    fn __repr__(&self) -> String {
        let frequencies = self.study.frequency_hz();
        let outside = self.study.valid().iter().filter(|valid| !**valid).count();
        let this = env!("CARGO_PKG_VERSION");
        let made_by = match self.study.version() {
            version if version == this => String::new(),
            version => format!(", made by version {version}"),
        };
        format!(
            "<Study: {} leaks at {} frequencies, least total {:.1} dB, {outside} of {} values outside a model's domain{made_by}>",
            self.study.leaks().len(),
            frequencies.len(),
            self.study.total_db().fold(f64::INFINITY, |least, &db| least.min(db)),
            self.study.valid().len(),
        )
    }

    fn _repr_html_(&self) -> String {
        let mut html = String::from(
            "<table><tr><th>from</th><th>to</th><th style=\"text-align:left\">limited by</th><th>least total</th></tr>",
        );
        for band in self.study.limiting_bands() {
            html.push_str(&format!(
                "<tr><td>{}</td><td>{}</td><td style=\"text-align:left\">{}</td><td>{:.1} dB</td></tr>",
                Frequency(band.from_hz),
                Frequency(band.to_hz),
                escape(&band.leak),
                band.least_total_db
            ));
        }
        html.push_str("</table>");
        for caution in self.study.cautions() {
            html.push_str(&format!("<p><small>Caution: {}</small></p>", escape(caution)));
        }
        html
    }

    #[pyo3(signature = () -> "tuple[object, tuple[dict[str, object]]]")]
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        let this = slf.get();
        Ok((slf.get_type().getattr("_kept")?, (this.kept(slf.py())?,)))
    }

    /// A study from the numbers that pickling kept, whatever version of the library kept them.
    #[staticmethod]
    #[pyo3(name = "_kept", signature = (numbers: "dict[str, object]"))]
    fn from_kept(numbers: &Bound<'_, PyDict>) -> PyResult<Self> {
        restored(numbers)
    }

    fn __copy__(slf: PyRef<'_, Self>) -> PyRef<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: PyRef<'py, Self>, #[allow(unused)] memo: &Bound<'py, PyAny>) -> PyRef<'py, Self> {
        slf
    }
}

/// A limit on its way: from_hz, to_hz, its words, value, low, high.
type KeptRun = (f64, f64, [String; 4], [f64; 3]);

impl PyStudy {
    fn kept<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let record = StudyRecord::from(&self.study);
        let run = |run: &LimitRun| -> KeptRun {
            let Limit { model, quantity, unit, consequence, value, low, high } = run.limit.clone();
            let words = [model, quantity, unit, consequence].map(std::borrow::Cow::into_owned);
            (run.from_hz, run.to_hz, words, [value, low, high])
        };
        let limits: Vec<Vec<KeptRun>> = record.limits.iter().map(|runs| runs.iter().map(run).collect()).collect();
        let kept = PyDict::new(py);
        kept.set_item("version", record.version)?;
        kept.set_item("recipe", self.recipe.keep(py)?)?;
        kept.set_item("masked", self.masked)?;
        kept.set_item("frequency_hz", Nd(Array1::from(record.frequency_hz)))?;
        kept.set_item("leaks", record.leaks)?;
        kept.set_item("shielding_db", Nd(Array1::from(record.shielding_db)))?;
        kept.set_item("worst_case_db", Nd(Array1::from(record.worst_case_db)))?;
        kept.set_item("total_db", Nd(Array1::from(record.total_db)))?;
        kept.set_item("total_worst_case_db", Nd(Array1::from(record.total_worst_case_db)))?;
        kept.set_item("valid", Nd(Array1::from(record.valid)))?;
        kept.set_item("total_valid", Nd(Array1::from(record.total_valid)))?;
        kept.set_item("limiting", record.limiting.iter().map(|&row| row as u64).collect::<Vec<_>>())?;
        kept.set_item("limits", limits)?;
        kept.set_item("cautions", record.cautions)?;
        Ok(kept)
    }
}

fn restored(kept: &Bound<'_, PyDict>) -> PyResult<PyStudy> {
    let part = |name: &str| kept.as_any().get_item(name);
    let numbers = |name: &str| -> PyResult<Vec<f64>> { array::<f64>(&part(name)?) };
    let run = |(from_hz, to_hz, words, [value, low, high]): KeptRun| {
        let [model, quantity, unit, consequence] = words.map(std::borrow::Cow::Owned);
        LimitRun { from_hz, to_hz, limit: Limit { model, quantity, unit, consequence, value, low, high } }
    };
    let limits: Vec<Vec<KeptRun>> = part("limits")?.extract()?;
    let record = StudyRecord {
        version: part("version")?.extract::<String>()?.into(),
        frequency_hz: numbers("frequency_hz")?,
        leaks: part("leaks")?.extract()?,
        shielding_db: numbers("shielding_db")?,
        worst_case_db: numbers("worst_case_db")?,
        total_db: numbers("total_db")?,
        total_worst_case_db: numbers("total_worst_case_db")?,
        valid: array::<bool>(&part("valid")?)?,
        total_valid: array::<bool>(&part("total_valid")?)?,
        limiting: part("limiting")?.extract()?,
        limits: limits.into_iter().map(|runs| runs.into_iter().map(run).collect()).collect(),
        cautions: part("cautions")?.extract::<Vec<String>>()?.into_iter().map(Into::into).collect(),
    };
    let recipe = Recipe { present: OnceLock::new(), kept: Some(part("recipe")?.extract()?) };
    Ok(PyStudy { recipe, masked: part("masked")?.extract()?, study: record.try_into()? })
}

fn array<T: numpy::Element + Copy>(value: &Bound<'_, PyAny>) -> PyResult<Vec<T>> {
    Ok(value.extract::<numpy::PyReadonlyArray1<'_, T>>()?.as_array().to_vec())
}
