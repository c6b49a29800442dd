//! The leak base class, the list of leak classes, and leaks that belong to no subject.

use std::collections::BTreeMap;
use std::sync::Arc;

use pyo3::prelude::*;

use super::aperture::{PyCircularHole, PyCrossSlot, PyEllipticHole, PyRectangularSlot, PyRoundedSlot};
use super::array::{Out, RealArg, batch};
use super::class::{ParameterDict, leak_class, parameter_dict, value_class};
use super::csv::TableText;
use super::enclosure::ExposureArg;
use super::error::warn_outside;
use super::filter_leak::PyFilteredLine;
use super::hole_array::PyHoleArray;
use super::honeycomb::{PyFoilPanel, PyHoneycombPanel};
use super::joint::{PyContactLine, PySeam};
use super::joint_door::{PyDoor, PyGasketLine};
use super::joint_knife_edge::PyKnifeEdge;
use super::sheet::{PyLaminate, PySheet};
use super::tube::PyTube;
use crate::aperture::{CircularHole, CrossSlot, EllipticHole, HoleArray, RectangularSlot, RoundedSlot};
use crate::error::check;
use crate::filter::FilteredLine;
use crate::joint::{ContactLine, Door, GasketLine, KnifeEdge, Seam};
use crate::leak::{Leak, Panel, TabulatedLeak};
use crate::parameter::{self, Parameter};
use crate::sheet::Laminate;
use crate::wave::Sheet;
use crate::waveguide::{FoilPanel, HoneycombPanel, Tube};

/// A part of the enclosure that lets power through; the base class of all leaks.
///
/// Every leak offers a transmission cross-section, so that unlike things can be compared and added.
#[pyclass(frozen, subclass, module = "stillroom", name = "Leak")]
pub struct PyLeak(pub Arc<dyn Leak>);

#[pymethods]
impl PyLeak {
    /// Transmission cross-section, m^2, averaged over angle and polarization from the outer half-space.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`. Zero where it is below the smallest number that can be written;
    ///     `cross_section_db` has no such floor.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if any frequency is outside the leak's domain.
    fn cross_section_m2(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        self.cross_section(py, &frequency_hz, f64::exp)
    }

    /// The same in dB relative to 1 m^2: 10 log10(cross-section / m^2).
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
    fn cross_section_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        self.cross_section(py, &frequency_hz, |ln| -crate::decibel::loss_db_of_ln_power(ln))
    }

    /// Limits of the model that are passed at a frequency, in words; empty inside its domain.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : float
    ///     Frequency, Hz.
    fn limits(&self, frequency_hz: f64) -> PyResult<Vec<String>> {
        let validity = self.0.validity(check::frequency(frequency_hz)?);
        Ok(validity.limits().iter().map(ToString::to_string).collect())
    }

    /// What a user of the results should be told about safety, or None.
    #[getter]
    fn caution(&self) -> Option<&'static str> {
        self.0.caution()
    }

    /// All numbers that define this leak, by path.
    ///
    /// Returns
    /// -------
    /// dict[str, Parameter]
    ///     Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
    fn parameters<'py>(&self, py: Python<'py>) -> PyResult<ParameterDict<'py>> {
        parameter_dict(py, &self.listed()?)
    }

    /// The value of one parameter.
    ///
    /// Parameters
    /// ----------
    /// path : str
    ///     As listed by `parameters`.
    ///
    /// Raises
    /// ------
    /// UnknownParameterError
    ///     If there is no such path.
    fn parameter(&self, path: &str) -> PyResult<f64> {
        Ok(parameter::find(&self.listed()?, path)?)
    }

    /// The same leak with one parameter changed.
    ///
    /// Parameters
    /// ----------
    /// path : str
    ///     As listed by `parameters`.
    /// value : float
    ///     In the unit that ends the path.
    ///
    /// Raises
    /// ------
    /// UnknownParameterError
    ///     If there is no such path.
    /// StillroomError
    ///     If the value is outside its domain.
    #[pyo3(signature = (path, value) -> "Leak")]
    fn with_parameter(&self, py: Python<'_>, path: &str, value: f64) -> PyResult<Py<PyAny>> {
        let leak = parameter::change(&[(path, value)], |knobs| self.0.rebuild_boxed(knobs))?;
        leak_to_python(py, &leak)
    }

    /// The same leak with several parameters changed at once.
    ///
    /// Parameters
    /// ----------
    /// changes : dict[str, float]
    ///     Path to new value.
    #[pyo3(signature = (changes) -> "Leak")]
    fn with_parameters(&self, py: Python<'_>, changes: BTreeMap<String, f64>) -> PyResult<Py<PyAny>> {
        let changes: Vec<(&str, f64)> = changes.iter().map(|(path, value)| (path.as_str(), *value)).collect();
        let leak = parameter::change(&changes, |knobs| self.0.rebuild_boxed(knobs))?;
        leak_to_python(py, &leak)
    }
}

impl PyLeak {
    fn listed(&self) -> PyResult<Vec<Parameter>> {
        Ok(parameter::list(|knobs| self.0.rebuild_boxed(knobs).map(drop))?)
    }

    fn cross_section(&self, py: Python<'_>, frequency_hz: &RealArg<'_>, scale: fn(f64) -> f64) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", frequency_hz, 0.0, |f, out| {
            check::frequencies(f)?;
            self.0.ln_cross_sections(f, out);
            out.iter_mut().for_each(|ln| *ln = scale(*ln));
            Ok(())
        })?;
        let read = frequency_hz.read("frequency_hz")?;
        warn_outside(py, &read.values(), |f| self.0.validity(f))?;
        Ok(result)
    }
}

/// Lists the classes of a family once: from a core object to its Python class.
macro_rules! family {
    ($function:ident : dyn $trait:ident { $($core:ty => $class:ident),* $(,)? }) => {
        /// The Python object of a core object behind a pointer.
        pub fn $function(py: Python<'_>, object: &Arc<dyn $trait>) -> PyResult<Py<PyAny>> {
            let any = (**object).as_any();
            $(
                if let Some(core) = any.downcast_ref::<$core>() {
                    return Ok(Py::new(py, $class(core.clone()))?.into_any());
                }
            )*
            Err(pyo3::exceptions::PyTypeError::new_err(format!("{object:?} has no Python class")))
        }
    };
}

// Every leak class stands here once; subjects add theirs in alphabetical order.
family!(leak_to_python: dyn Leak {
    CircularHole => PyCircularHole,
    ContactLine => PyContactLine,
    CrossSlot => PyCrossSlot,
    Door => PyDoor,
    EllipticHole => PyEllipticHole,
    FilteredLine => PyFilteredLine,
    FoilPanel => PyFoilPanel,
    GasketLine => PyGasketLine,
    HoleArray => PyHoleArray,
    HoneycombPanel => PyHoneycombPanel,
    KnifeEdge => PyKnifeEdge,
    Panel => PyPanel,
    RectangularSlot => PyRectangularSlot,
    RoundedSlot => PyRoundedSlot,
    Seam => PySeam,
    TabulatedLeak => PyTabulatedLeak,
    Tube => PyTube,
});

// Every sheet class stands here once.
family!(sheet_to_python: dyn Sheet {
    Laminate => PyLaminate,
});

/// A window: a piece of a sheet in the wall, such as film, mesh or glass.
///
/// Parameters
/// ----------
/// sheet : Sheet
///     What it is made of.
/// area_m2 : float
///     Area, m^2, positive.
///
/// Notes
/// -----
/// An aperture of its area that passes the share |T|^2 of the wave, T that of its sheet: a window smaller than the
/// first Fresnel zone reads more shielding than its sheet, a larger one the same. Below half a wavelength its frame cuts
/// the wave off and less passes than is said, with a warning. Between loops or rods it reads what the open hole would
/// (a square), or what a whole wall of its sheet would, whichever passes less. Only the wall of an `Enclosure` is passed
/// as a whole. The sheet is taken as joined to its frame all around.
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "Panel")]
#[derive(Clone, PartialEq)]
pub struct PyPanel(pub Panel);
leak_class!(PyPanel);

#[pymethods]
impl PyPanel {
    #[new]
    fn new(sheet: Bound<'_, PySheet>, area_m2: f64) -> PyResult<PyClassInitializer<Self>> {
        Ok(Self(Panel::new(sheet.get().0.clone(), area_m2)?).into())
    }
}

value_class!(PyPanel, "Panel" {
    /// What it is made of.
    sheet: SheetObject = |panel| SheetObject(panel.sheet().clone()),
    /// Area, m^2.
    area_m2: f64 = |panel| panel.area_m2(),
});

/// A sheet on its way to Python.
pub struct SheetObject(pub Arc<dyn Sheet>);

impl<'py> IntoPyObject<'py> for SheetObject {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: pyo3::inspect::PyStaticExpr = <PySheet as pyo3::PyTypeInfo>::TYPE_HINT;

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        Ok(sheet_to_python(py, &self.0)?.into_bound(py))
    }
}

TabulatedLeak! {
    /// A leak known by measurement or computed elsewhere: its cross-section in a table.
    ///
    /// Joined in log frequency; held beyond both ends, with a warning.
    ///
    /// {parameters}
    class PyTabulatedLeak extends PyLeak;
}

#[pymethods]
impl PyTabulatedLeak {
    /// From text with the columns `frequency_hz` and `cross_section_m2`.
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
    ///     With line and column, what was found there and what was expected.
    #[staticmethod]
    #[pyo3(signature = (text) -> "TabulatedLeak")]
    fn from_csv(py: Python<'_>, text: TableText) -> PyResult<Py<PyAny>> {
        tabulated(py, TabulatedLeak::from_csv(&text.read()?)?)
    }

    /// As comma-separated text, which reads back as the same numbers; without the scale.
    fn to_csv(&self) -> String {
        self.0.to_csv()
    }

    /// From the shielding that a stated test has read: the leak that reads the same in it again.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : sequence of float
    ///     Frequencies, Hz, increasing.
    /// shielding_db : sequence of float
    ///     Shielding effectiveness read at them, dB.
    /// test : AntennaTest, PlaneWave, LoopTest or RodTest
    ///     The test in which it was read, with its distances.
    ///
    /// Notes
    /// -----
    /// Taken as one small leak that the antennas face, with the directivity 3 of a small hole. In another test than that
    /// in which it was read it is an estimate of that kind.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> test = sr.AntennaTest(outside_m=1.0, inside_m=0.5)
    /// >>> hatch = sr.TabulatedLeak.from_shielding_db([1e8, 1e9], [110.0, 92.0], test)
    #[staticmethod]
    #[pyo3(signature = (frequency_hz, shielding_db, test) -> "TabulatedLeak")]
    fn from_shielding_db(
        py: Python<'_>,
        frequency_hz: Vec<f64>,
        shielding_db: Vec<f64>,
        test: ExposureArg,
    ) -> PyResult<Py<PyAny>> {
        tabulated(py, TabulatedLeak::from_shielding_db(frequency_hz, &shielding_db, test.core())?)
    }

    /// The same from text with the columns `frequency_hz` and `shielding_db`.
    ///
    /// Parameters
    /// ----------
    /// text : str or pathlib.Path
    ///     As for `from_csv`.
    /// test : AntennaTest, PlaneWave, LoopTest or RodTest
    ///     The test in which it was read, with its distances.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With line and column, what was found there and what was expected.
    #[staticmethod]
    #[pyo3(signature = (text, test) -> "TabulatedLeak")]
    fn from_shielding_csv(py: Python<'_>, text: TableText, test: ExposureArg) -> PyResult<Py<PyAny>> {
        tabulated(py, TabulatedLeak::from_shielding_csv(&text.read()?, test.core())?)
    }
}

fn tabulated(py: Python<'_>, leak: TabulatedLeak) -> PyResult<Py<PyAny>> {
    Ok(Py::new(py, PyClassInitializer::from(PyTabulatedLeak(leak)))?.into_any())
}
