//! Rooms, exposures, requirements and studies.

use ndarray::{Ix1, Ix2};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_subscript, type_hint_union};

use super::array::{Axes, DataFrame, DataSet, Nd, Out, Real, RealArg, broadcast};
use super::class::{escape, parameter_methods, value_class};
use super::leak::{PyLeak, SheetObject, leak_to_python};
use super::near_field::{PyLoopTest, PyRodTest};
use super::sheet::PySheet;
use super::signals::interruptible;
use super::wave::PyPlaneWave;
use crate::enclosure::{AntennaTest, Enclosure, Exposure, Opening, Requirement, Study};
use crate::error::check;
use crate::number_text::Frequency;

/// Source antenna outside, receiving antenna inside, both facing the same place on the wall.
///
/// Parameters
/// ----------
/// outside_m : float
///     Distance of the source from the wall, m, positive.
/// inside_m : float
///     Distance of the receiver from the wall, m, positive.
///
/// Notes
/// -----
/// A leak of cross-section S and directivity D reads -10 log10(S D (d1 + d2)^2 / (4 pi d1^2 d2^2)).
/// Holds while neither antenna is nearer to the wall than a sixth of a wavelength.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "AntennaTest")]
#[derive(Clone, PartialEq)]
pub struct PyAntennaTest(pub AntennaTest);

#[pymethods]
impl PyAntennaTest {
    #[new]
    fn new(outside_m: f64, inside_m: f64) -> PyResult<Self> {
        Ok(Self(AntennaTest::new(outside_m, inside_m)?))
    }
}

value_class!(PyAntennaTest, "AntennaTest" {
    /// Distance of the source from the wall, m.
    outside_m: f64 = |test| test.outside_m(),
    /// Distance of the receiver from the wall, m.
    inside_m: f64 = |test| test.inside_m(),
});

/// Any exposure that a study can be made under.
#[derive(Clone, PartialEq, FromPyObject, IntoPyObject)]
pub enum ExposureArg {
    AntennaTest(PyAntennaTest),
    PlaneWave(PyPlaneWave),
    LoopTest(PyLoopTest),
    RodTest(PyRodTest),
}

impl ExposureArg {
    pub fn core(&self) -> &dyn Exposure {
        match self {
            Self::AntennaTest(test) => &test.0,
            Self::PlaneWave(wave) => &wave.0,
            Self::LoopTest(test) => &test.0,
            Self::RodTest(test) => &test.0,
        }
    }
}

/// Required shielding effectiveness: points joined by straight lines over log frequency.
///
/// Two points at one frequency make a step, where the greater value holds. Outside the points nothing
/// is required (-inf dB), and the margin is infinite.
///
/// Parameters
/// ----------
/// points : sequence of (float, float)
///     Frequency in Hz and shielding in dB, in rising order of frequency.
///
/// Raises
/// ------
/// NotIncreasingError
///     For frequencies that fall, or more than two points at one frequency.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> asked = sr.Requirement([(14e3, 60.0), (1e6, 100.0), (18e9, 100.0)])
/// >>> asked.required_db(10e6)
/// 100.0
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Requirement")]
#[derive(Clone, PartialEq)]
pub struct PyRequirement(pub Requirement);

#[pymethods]
impl PyRequirement {
    #[new]
    fn new(points: Vec<(f64, f64)>) -> PyResult<Self> {
        Ok(Self(Requirement::new(points)?))
    }

    /// What is required, dB; -inf where nothing is.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    fn required_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(self.0.required_db(check::frequency(f)?)))
    }
}

value_class!(PyRequirement, "Requirement" {
    /// The points: frequency in Hz and shielding in dB.
    points: Vec<(f64, f64)> = |requirement| requirement.points().to_vec(),
});

/// A shielded room or box: inner dimensions, wall and leaks.
///
/// Parameters
/// ----------
/// interior_m : tuple of three floats
///     Inner length, width and height, m.
/// wall : Sheet
///     What all six sides are made of.
/// leaks : dict[str, Leak or (int, Leak)], optional
///     Everything else that lets power through, by a name of your choice; with a count where there are
///     several alike. Names become part of parameter paths: no dots, not ``wall`` or ``interior``.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a dimension that is not positive and finite.
/// ReservedNameError
///     For a name that cannot be used.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> room = sr.Enclosure((4.8, 3.6, 3.0), sr.Laminate([(sr.materials.steel, 0.5e-3)]))
/// >>> room.with_parameter("wall.layers.0.thickness_m", 1e-3).parameter("wall.layers.0.thickness_m")
/// 0.001
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Enclosure")]
#[derive(Clone, PartialEq)]
pub struct PyEnclosure(pub Enclosure);

#[pymethods]
impl PyEnclosure {
    #[new]
    #[pyo3(signature = (interior_m: "tuple[float, float, float]", wall: "Sheet", leaks: "dict[str, Leak | tuple[int, Leak]] | None" = None))]
    fn new(interior_m: [f64; 3], wall: Bound<'_, PySheet>, leaks: Option<Bound<'_, PyDict>>) -> PyResult<Self> {
        let openings = leaks.map_or_else(|| Ok(Vec::new()), |leaks| openings(&leaks))?;
        Ok(Self(Enclosure::new(interior_m, wall.get().0.clone(), openings)?))
    }

    /// Shielding of every leak and of the whole at each frequency.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequencies, Hz; flattened.
    /// exposure : AntennaTest or PlaneWave
    ///     What the room is exposed to, and where it is read.
    ///
    /// Returns
    /// -------
    /// Study
    fn study(&self, py: Python<'_>, frequency_hz: RealArg<'_>, exposure: ExposureArg) -> PyResult<PyStudy> {
        PyStudy::compute(py, self.clone(), &frequency_hz, exposure)
    }

    /// What a user of the results should be told about safety.
    #[getter]
    fn cautions(&self) -> Vec<&'static str> {
        self.0.cautions()
    }
}

value_class!(PyEnclosure, "Enclosure" {
    /// Inner length, width and height, m.
    interior_m: (f64, f64, f64) = |room| room.interior_m().into(),
    /// What the six sides are made of.
    wall: SheetObject = |room| SheetObject(room.wall().sheet().clone()),
    /// The leaks by name; with a count where there are several alike.
    leaks: LeaksObject = |room| LeaksObject(room.openings().to_vec()),
});
parameter_methods!(PyEnclosure);

fn openings(leaks: &Bound<'_, PyDict>) -> PyResult<Vec<Opening>> {
    leaks
        .iter()
        .map(|(name, value)| {
            let name: String = name
                .extract()
                .map_err(|_| PyTypeError::new_err(format!("names in `leaks` must be str, not {name:?}")))?;
            let wrong = |found: &Bound<'_, PyAny>| {
                PyTypeError::new_err(format!("`leaks[{name:?}]` must be a Leak or a pair (count, Leak), not {found:?}"))
            };
            let (count, leak) = match value.cast::<PyTuple>() {
                Ok(pair) => pair.extract::<(f64, Bound<'_, PyAny>)>().map_err(|_| wrong(&value))?,
                Err(_) => (1.0, value.clone()),
            };
            let leak = leak.cast::<PyLeak>().map_err(|_| wrong(&value))?.get().0.clone();
            let count = check::count("count", count, 1).map_err(|error| error.within(&name))?;
            Ok(Opening::new(name, leak, count)?)
        })
        .collect()
}

/// Openings on their way to Python.
pub struct LeaksObject(Vec<Opening>);

impl<'py> IntoPyObject<'py> for LeaksObject {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("builtins", "dict"),
        type_hint_identifier!("builtins", "str"),
        type_hint_union!(
            <PyLeak as pyo3::PyTypeInfo>::TYPE_HINT,
            type_hint_subscript!(
                type_hint_identifier!("builtins", "tuple"),
                type_hint_identifier!("builtins", "int"),
                <PyLeak as pyo3::PyTypeInfo>::TYPE_HINT
            )
        )
    );

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let leaks = PyDict::new(py);
        for opening in &self.0 {
            let leak = leak_to_python(py, opening.leak())?;
            match opening.count() {
                1 => leaks.set_item(opening.name(), leak)?,
                count => leaks.set_item(opening.name(), (count, leak))?,
            }
        }
        Ok(leaks)
    }
}

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
#[pyclass(frozen, module = "stillroom", name = "Study")]
pub struct PyStudy {
    enclosure: PyEnclosure,
    exposure: ExposureArg,
    masked: bool,
    study: Study,
}

impl PyStudy {
    fn compute(
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
        Ok(Self { enclosure, exposure, masked: false, study })
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
        Self {
            enclosure: self.enclosure.clone(),
            exposure: self.exposure.clone(),
            masked: true,
            study: self.study.masked(),
        }
    }

    /// The room.
    #[getter]
    fn enclosure(&self) -> PyEnclosure {
        self.enclosure.clone()
    }

    /// What it was exposed to.
    #[getter]
    fn exposure(&self) -> ExposureArg {
        self.exposure.clone()
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
    fn cautions(&self) -> Vec<&'static str> {
        self.study.cautions().to_vec()
    }

    /// Limits passed by one leak: pairs of frequency (Hz) and what was passed, in words.
    ///
    /// Parameters
    /// ----------
    /// leak : str
    ///     Its name.
    fn limits(&self, leak: &str) -> PyResult<Vec<(f64, String)>> {
        Ok(self.study.limits(leak)?.iter().map(|(f, limit)| (*f, limit.to_string())).collect())
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

    fn __eq__(&self, other: &Self) -> bool {
        self.enclosure == other.enclosure
            && self.exposure == other.exposure
            && self.masked == other.masked
            && self.study.frequency_hz() == other.study.frequency_hz()
    }

    fn __repr__(&self) -> String {
        let frequencies = self.study.frequency_hz();
        let outside = self.study.valid().iter().filter(|valid| !**valid).count();
        format!(
            "<Study: {} leaks at {} frequencies, least total {:.1} dB, {outside} of {} values outside a model's domain>",
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

    #[pyo3(signature = () -> "tuple[tuple[()], dict[str, object]]")]
    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let state = PyDict::new(py);
        state.set_item("enclosure", self.enclosure())?;
        state.set_item("frequency_hz", self.frequency_hz())?;
        state.set_item("exposure", self.exposure())?;
        state.set_item("masked", self.masked)?;
        Ok((PyTuple::empty(py), state))
    }

    fn __copy__(slf: PyRef<'_, Self>) -> PyRef<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: PyRef<'py, Self>, #[allow(unused)] memo: &Bound<'py, PyAny>) -> PyRef<'py, Self> {
        slf
    }
}
