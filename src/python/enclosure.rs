//! Rooms, exposures, requirements and studies.

use std::sync::Arc;

use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_subscript, type_hint_union};

use super::array::{Out, RealArg, broadcast};
use super::class::{parameter_methods, value_class};
use super::csv::TableText;
use super::leak::{PyLeak, SheetObject, leak_to_python};
use super::near_field::{PyLoopTest, PyRodTest};
use super::sheet::PySheet;
use super::study::PyStudy;
use super::wave::PyPlaneWave;
use crate::enclosure::{AntennaTest, Enclosure, Exposure, Opening, Requirement};
use crate::error::{Error, check};
use crate::leak::Leak;

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

    /// The room as JSON text: every number under the names that make its path, every element with its `kind`.
    ///
    /// Returns
    /// -------
    /// str
    ///     Text that `from_json` reads back as the same room, to the last bit.
    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string_pretty(&self.0).map_err(|error| PyValueError::new_err(error.to_string()))
    }

    /// A room from JSON text.
    ///
    /// Parameters
    /// ----------
    /// text : str or pathlib.Path
    ///     Text as `to_json` writes it, or the path of a file that holds it. Leaks stand in the order of the text.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With line and column, and with the path of the number that is wrong.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> room = sr.Enclosure((4.8, 3.6, 3.0), sr.Laminate([(sr.materials.steel, 0.5e-3)]))
    /// >>> sr.Enclosure.from_json(room.to_json()) == room
    /// True
    #[staticmethod]
    fn from_json(text: TableText) -> PyResult<Self> {
        let text = text.read()?;
        Ok(Self(serde_json::from_str(&text).map_err(|error| json_fault(&text, &error))?))
    }

    /// The same room with one more leak, after the others; one of the same name gives up its place to it.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     A name of your choice, as in the constructor.
    /// leak : Leak
    ///     What lets power through there.
    /// count : int, default 1
    ///     How many alike there are.
    ///
    /// Returns
    /// -------
    /// Enclosure
    ///     Everything else stays as it is, with all that it has worked out.
    #[pyo3(signature = (name, leak, count=1))]
    fn with_opening(&self, name: String, leak: PyRef<'_, PyLeak>, count: i64) -> PyResult<Self> {
        Ok(Self(self.0.clone().with_opening(opening(name, leak.0.clone(), count as f64)?)))
    }

    /// The same room without one of its leaks.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     Its name; the wall stays.
    ///
    /// Raises
    /// ------
    /// UnknownNameError
    ///     If there is no such leak.
    fn without(&self, name: &str) -> PyResult<Self> {
        Ok(Self(self.0.clone().without(name)?))
    }

    /// The same room with another wall, of the same inner dimensions.
    ///
    /// Parameters
    /// ----------
    /// wall : Sheet
    ///     What all six sides are made of.
    fn with_wall(&self, wall: PyRef<'_, PySheet>) -> PyResult<Self> {
        Ok(Self(self.0.clone().with_wall(wall.0.clone())?))
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

/// A fault of JSON text with its place; what is expected is told with the path of the number.
fn json_fault(text: &str, error: &serde_json::Error) -> Error {
    const SHOWN: usize = 60;
    let (line, column) = (error.line(), error.column());
    let told = error.to_string();
    let place = format!(" at line {line} column {column}");
    let expected = told.strip_suffix(&place).unwrap_or(&told).to_owned();
    let found = text.lines().nth(line.saturating_sub(1)).unwrap_or_default().trim().chars().take(SHOWN).collect();
    Error::Parse { what: "room".into(), line, column: None, found, expected }
}

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
            opening(name, leak, count)
        })
        .collect()
}

fn opening(name: String, leak: Arc<dyn Leak>, count: f64) -> PyResult<Opening> {
    let count = check::count("count", count, 1).map_err(|error| error.within(&name))?;
    Ok(Opening::shared(name, leak)?.times(count)?)
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
