//! Guides: round, rectangular, hexagonal, coaxial, and their modes.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{parameter_methods, value_class};
use super::error::warn_outside;
use crate::error::check;
use crate::number_text::Frequency;
use crate::validity::Validity;
use crate::waveguide::{CoaxialGuide, Guide, Mode, Shape};

/// One mode of a guide.
#[pyclass(frozen, eq, module = "stillroom.tubes", name = "Mode", get_all)]
#[derive(Clone, PartialEq)]
pub struct PyMode {
    /// ModeFamily and order, such as "TE11"; in a hexagon family and place, such as "TE 1".
    name: String,
    /// How many modes, turned against each other, share this entry.
    degeneracy: u32,
    /// Cutoff wavenumber, rad/m.
    cutoff_wavenumber_per_m: f64,
    /// Cutoff frequency in this guide, Hz.
    cutoff_hz: f64,
}

impl PyMode {
    fn new(guide: &Guide, mode: &Mode) -> Self {
        Self::at(mode, guide.mode_cutoff_hz(mode))
    }

    fn at(mode: &Mode, cutoff_hz: f64) -> Self {
        Self {
            name: mode.to_string(),
            degeneracy: mode.degeneracy(),
            cutoff_wavenumber_per_m: mode.cutoff_wavenumber_per_m(),
            cutoff_hz,
        }
    }
}

#[pymethods]
impl PyMode {
    fn __repr__(&self) -> String {
        format!("<Mode {}, cutoff {}, degeneracy {}>", self.name, Frequency(self.cutoff_hz), self.degeneracy)
    }
}

fn with_contents(
    guide: Guide,
    relative_permittivity: f64,
    loss_tangent: f64,
    wall_conductivity_s_per_m: Option<f64>,
) -> crate::Result<Guide> {
    let guide = guide.filled(relative_permittivity, loss_tangent)?;
    guide.walled(finite_wall(wall_conductivity_s_per_m)?)
}

/// Warns once if any of the frequencies asked for is outside the domain.
pub fn warn_frequencies(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    validity: impl Fn(f64) -> Validity,
) -> PyResult<()> {
    warn_outside(py, &frequency_hz.read("frequency_hz")?.values(), validity)
}

/// The wall's conductivity; a perfect wall is None in Python, not infinity.
pub fn finite_wall(wall_conductivity_s_per_m: Option<f64>) -> crate::Result<f64> {
    match wall_conductivity_s_per_m {
        None => Ok(f64::INFINITY),
        Some(wall) => check::positive("wall_conductivity_s_per_m", "S/m", wall),
    }
}

/// A perfect wall is None in Python.
pub fn wall(guide: &Guide) -> Option<f64> {
    Some(guide.wall_conductivity_s_per_m()).filter(|wall| wall.is_finite())
}

/// The mode of a name, the dominant one where there is none.
fn mode_of(guide: &Guide, name: Option<&str>) -> crate::Result<Mode> {
    name.map_or(Ok(*guide.dominant()), |name| guide.mode(name))
}

/// Warns of what a lossy wall sets limits to; a perfect one has none, and frequencies are not looked through.
fn warn_of_wall(py: Python<'_>, guide: &Guide, frequency_hz: &RealArg<'_>) -> PyResult<()> {
    match wall(guide) {
        None => Ok(()),
        Some(_) => warn_frequencies(py, frequency_hz, |f| guide.validity(f)),
    }
}

fn propagation(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    fill: impl Fn(&[f64], &mut [Complex64]) + Send + Sync,
) -> PyResult<Out<Complex64>> {
    batch(py, "frequency_hz", frequency_hz, Complex64::ZERO, |f, out| {
        check::frequencies(f)?;
        fill(f, out);
        Ok(())
    })
}

fn attenuation(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    fill: impl Fn(&[f64], &mut [f64]) + Send + Sync,
) -> PyResult<Out<f64>> {
    batch(py, "frequency_hz", frequency_hz, 0.0, |f, out| {
        check::frequencies(f)?;
        fill(f, out);
        Ok(())
    })
}

/// What all guides can do.
macro_rules! guide_methods {
    ($class:ident) => {
        parameter_methods!($class);

        #[pymethods]
        impl $class {
            /// Cutoff frequency of the dominant mode, Hz.
            #[getter]
            fn cutoff_hz(&self) -> f64 {
                self.0.cutoff_hz()
            }

            /// Open area, m^2.
            #[getter]
            fn area_m2(&self) -> f64 {
                self.0.shape().area_m2()
            }

            /// Complex propagation constant of a mode, 1/m.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            /// mode : str, optional
            ///     Its name, as for `mode`; the dominant mode where not given.
            ///
            /// Returns
            /// -------
            /// complex or ndarray of complex
            ///     alpha + j beta: the field goes as exp(-(alpha + j beta) z). Finite through cutoff, where the wall's share is
            ///     of first order in the square of gamma.
            ///
            /// Raises
            /// ------
            /// UnknownNameError
            ///     If the guide has no such mode.
            #[pyo3(signature = (frequency_hz, mode=None))]
            fn propagation_per_m(
                &self,
                py: Python<'_>,
                frequency_hz: RealArg<'_>,
                mode: Option<&str>,
            ) -> PyResult<Out<Complex64>> {
                let mode = mode_of(&self.0, mode)?;
                let result = propagation(py, &frequency_hz, |f, out| self.0.mode_propagations_per_m(&mode, f, out))?;
                warn_of_wall(py, &self.0, &frequency_hz)?;
                Ok(result)
            }

            /// Attenuation of a mode, dB/m.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            /// mode : str, optional
            ///     Its name, as for `mode`; the dominant mode where not given.
            ///
            /// Returns
            /// -------
            /// float or ndarray
            ///     Shape of `frequency_hz`.
            #[pyo3(signature = (frequency_hz, mode=None))]
            fn attenuation_db_per_m(
                &self,
                py: Python<'_>,
                frequency_hz: RealArg<'_>,
                mode: Option<&str>,
            ) -> PyResult<Out<f64>> {
                let mode = mode_of(&self.0, mode)?;
                let result = attenuation(py, &frequency_hz, |f, out| self.0.mode_attenuations_db_per_m(&mode, f, out))?;
                warn_of_wall(py, &self.0, &frequency_hz)?;
                Ok(result)
            }

            /// One mode by its name.
            ///
            /// Parameters
            /// ----------
            /// name : str
            ///     "TE11" or "TM0,12": azimuthal and radial order in a circle, half-waves along width and height of a rectangle,
            ///     up to 500; in a hexagon family and place, "TE 1" to "TE 23" and "TM 1" to "TM 20".
            ///
            /// Raises
            /// ------
            /// UnknownNameError
            ///     If the guide has no such mode.
            fn mode(&self, name: &str) -> PyResult<PyMode> {
                Ok(PyMode::new(&self.0, &self.0.mode(name)?))
            }

            /// The lowest modes by rising cutoff.
            ///
            /// Parameters
            /// ----------
            /// count : int
            ///     How many at most; 43 entries are known of the hexagon, any number of the others.
            ///
            /// Returns
            /// -------
            /// list of Mode
            fn modes(&self, count: usize) -> Vec<PyMode> {
                self.0.modes(count.min(2000)).iter().map(|mode| PyMode::new(&self.0, mode)).collect()
            }
        }
    };
}

/// A round guide.
///
/// Parameters
/// ----------
/// diameter_m : float
///     Inner diameter, m.
/// relative_permittivity : float, default 1
///     Of the filling, at least 1.
/// loss_tangent : float, default 0
///     Of the filling.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
///
/// Notes
/// -----
/// Cutoff 1.841184/radius. D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.4.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> tube = sr.tubes.CircularGuide(6e-3)
/// >>> round(tube.cutoff_hz / 1e9, 1)
/// 29.3
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "CircularGuide")]
#[derive(Clone, PartialEq)]
pub struct PyCircularGuide(pub Guide);

#[pymethods]
impl PyCircularGuide {
    #[new]
    #[pyo3(signature = (diameter_m, relative_permittivity=1.0, loss_tangent=0.0, wall_conductivity_s_per_m=None))]
    fn new(
        diameter_m: f64,
        relative_permittivity: f64,
        loss_tangent: f64,
        wall_conductivity_s_per_m: Option<f64>,
    ) -> PyResult<Self> {
        let guide = Guide::circular(diameter_m)?;
        Ok(Self(with_contents(guide, relative_permittivity, loss_tangent, wall_conductivity_s_per_m)?))
    }
}

value_class!(PyCircularGuide, "CircularGuide" {
    /// Inner diameter, m.
    diameter_m: f64 = |guide| guide.shape().width_m(),
    /// Relative permittivity of the filling.
    relative_permittivity: f64 = |guide| guide.relative_permittivity(),
    /// Loss tangent of the filling.
    loss_tangent: f64 = |guide| guide.loss_tangent(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |guide| wall(guide),
});
guide_methods!(PyCircularGuide);

/// A rectangular guide.
///
/// Parameters
/// ----------
/// width_m, height_m : float
///     Inner sides, m.
/// relative_permittivity : float, default 1
///     Of the filling, at least 1.
/// loss_tangent : float, default 0
///     Of the filling.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
///
/// Notes
/// -----
/// Cutoff pi/width. D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.3.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "RectangularGuide")]
#[derive(Clone, PartialEq)]
pub struct PyRectangularGuide(pub Guide);

#[pymethods]
impl PyRectangularGuide {
    #[new]
    #[pyo3(signature = (width_m, height_m, relative_permittivity=1.0, loss_tangent=0.0, wall_conductivity_s_per_m=None))]
    fn new(
        width_m: f64,
        height_m: f64,
        relative_permittivity: f64,
        loss_tangent: f64,
        wall_conductivity_s_per_m: Option<f64>,
    ) -> PyResult<Self> {
        let guide = Guide::rectangular(width_m, height_m)?;
        Ok(Self(with_contents(guide, relative_permittivity, loss_tangent, wall_conductivity_s_per_m)?))
    }
}

/// Width and height of what is known to be a rectangle.
fn sides(guide: &Guide) -> (f64, f64) {
    match *guide.shape() {
        Shape::Rectangle { width_m, height_m } => (width_m, height_m),
        _ => (guide.shape().width_m(), guide.shape().width_m()),
    }
}

value_class!(PyRectangularGuide, "RectangularGuide" {
    /// Inner width, m.
    width_m: f64 = |guide| sides(guide).0,
    /// Inner height, m.
    height_m: f64 = |guide| sides(guide).1,
    /// Relative permittivity of the filling.
    relative_permittivity: f64 = |guide| guide.relative_permittivity(),
    /// Loss tangent of the filling.
    loss_tangent: f64 = |guide| guide.loss_tangent(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |guide| wall(guide),
});
guide_methods!(PyRectangularGuide);

/// A guide whose section is a regular hexagon.
///
/// Parameters
/// ----------
/// across_flats_m : float
///     Inner width across flats, m.
/// relative_permittivity : float, default 1
///     Of the filling, at least 1.
/// loss_tangent : float, default 0
///     Of the filling.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
///
/// Notes
/// -----
/// Cutoff 2.010779/side, computed by the method of particular solutions to 1e-10.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "HexagonalGuide")]
#[derive(Clone, PartialEq)]
pub struct PyHexagonalGuide(pub Guide);

#[pymethods]
impl PyHexagonalGuide {
    #[new]
    #[pyo3(signature = (across_flats_m, relative_permittivity=1.0, loss_tangent=0.0, wall_conductivity_s_per_m=None))]
    fn new(
        across_flats_m: f64,
        relative_permittivity: f64,
        loss_tangent: f64,
        wall_conductivity_s_per_m: Option<f64>,
    ) -> PyResult<Self> {
        let guide = Guide::hexagonal(across_flats_m)?;
        Ok(Self(with_contents(guide, relative_permittivity, loss_tangent, wall_conductivity_s_per_m)?))
    }
}

value_class!(PyHexagonalGuide, "HexagonalGuide" {
    /// Inner width across flats, m.
    across_flats_m: f64 = |guide| guide.shape().width_m(),
    /// Relative permittivity of the filling.
    relative_permittivity: f64 = |guide| guide.relative_permittivity(),
    /// Loss tangent of the filling.
    loss_tangent: f64 = |guide| guide.loss_tangent(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |guide| wall(guide),
});
guide_methods!(PyHexagonalGuide);

/// The space between two coaxial conducting circles: a tube with a wire in its middle.
///
/// Parameters
/// ----------
/// inner_m, outer_m : float
///     Diameters, m; the inner one is the smaller.
/// relative_permittivity : float, default 1
///     Of the filling, at least 1.
/// loss_tangent : float, default 0
///     Of the filling.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of both conductors, S/m; perfect ones where not given.
///
/// Notes
/// -----
/// TEM without cutoff, TE and TM. N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 2.4 (from memory). TEM loses in both conductors at any
/// depth of the skin, by the internal impedances of a solid wire and of an outer conductor that is thick against the skin; TE and TM
/// as in a thin skin, and a warning is issued where it is none.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> [mode.name for mode in sr.tubes.CoaxialGuide(3.04e-3, 7e-3).modes(3)]
/// ['TEM', 'TE11', 'TE21']
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "CoaxialGuide")]
#[derive(Clone, PartialEq)]
pub struct PyCoaxialGuide(pub CoaxialGuide);

#[pymethods]
impl PyCoaxialGuide {
    #[new]
    #[pyo3(signature = (inner_m, outer_m, relative_permittivity=1.0, loss_tangent=0.0, wall_conductivity_s_per_m=None))]
    fn new(
        inner_m: f64,
        outer_m: f64,
        relative_permittivity: f64,
        loss_tangent: f64,
        wall_conductivity_s_per_m: Option<f64>,
    ) -> PyResult<Self> {
        let guide = CoaxialGuide::new(inner_m, outer_m)?.filled(relative_permittivity)?.lossy(loss_tangent)?;
        Ok(Self(guide.walled(finite_wall(wall_conductivity_s_per_m)?)?))
    }

    /// Complex propagation constant of a mode, 1/m.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// mode : str, default "TEM"
    ///     Its name, as for `mode`.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     alpha + j beta. Finite through cutoff.
    #[pyo3(signature = (frequency_hz, mode="TEM"))]
    fn propagation_per_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>, mode: &str) -> PyResult<Out<Complex64>> {
        let mode = self.0.mode(mode)?;
        let result = propagation(py, &frequency_hz, |f, out| self.0.mode_propagations_per_m(&mode, f, out))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(&mode, f))?;
        Ok(result)
    }

    /// Attenuation of a mode, dB/m.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// mode : str, default "TEM"
    ///     Its name, as for `mode`.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, mode="TEM"))]
    fn attenuation_db_per_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>, mode: &str) -> PyResult<Out<f64>> {
        let mode = self.0.mode(mode)?;
        let result = attenuation(py, &frequency_hz, |f, out| self.0.mode_attenuations_db_per_m(&mode, f, out))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(&mode, f))?;
        Ok(result)
    }

    /// One mode by its name.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     "TEM", "TE11", "TM0,12": azimuthal and radial order, up to 100.
    ///
    /// Raises
    /// ------
    /// UnknownNameError
    ///     If there is no such mode.
    fn mode(&self, py: Python<'_>, name: &str) -> PyResult<PyMode> {
        let mode = py.detach(|| self.0.mode(name))?;
        Ok(PyMode::at(&mode, self.0.mode_cutoff_hz(&mode)))
    }

    /// Characteristic impedance of the TEM mode, ohm.
    #[getter]
    fn impedance_ohm(&self) -> f64 {
        self.0.impedance_ohm()
    }

    /// The lowest modes by rising cutoff, TEM first.
    ///
    /// Parameters
    /// ----------
    /// count : int
    ///     How many, at most 60.
    ///
    /// Returns
    /// -------
    /// list of Mode
    fn modes(&self, py: Python<'_>, count: usize) -> Vec<PyMode> {
        py.detach(|| self.0.modes(count)).iter().map(|mode| PyMode::at(mode, self.0.mode_cutoff_hz(mode))).collect()
    }
}

value_class!(PyCoaxialGuide, "CoaxialGuide" {
    /// Diameter of the inner conductor, m.
    inner_m: f64 = |guide| guide.inner_m(),
    /// Inner diameter of the outer conductor, m.
    outer_m: f64 = |guide| guide.outer_m(),
    /// Relative permittivity of the filling.
    relative_permittivity: f64 = |guide| guide.relative_permittivity(),
    /// Loss tangent of the filling.
    loss_tangent: f64 = |guide| guide.loss_tangent(),
    /// Conductivity of both conductors, S/m, or None for perfect ones.
    wall_conductivity_s_per_m: Option<f64> = |guide| {
        Some(guide.wall_conductivity_s_per_m()).filter(|wall| wall.is_finite())
    },
});
parameter_methods!(PyCoaxialGuide);

/// Any of the guides.
#[derive(FromPyObject, IntoPyObject)]
pub enum GuideArg {
    Circular(PyCircularGuide),
    Rectangular(PyRectangularGuide),
    Hexagonal(PyHexagonalGuide),
}

impl GuideArg {
    pub fn from_core(guide: &Guide) -> Self {
        match guide.shape() {
            Shape::Circle { .. } => Self::Circular(PyCircularGuide(*guide)),
            Shape::Rectangle { .. } => Self::Rectangular(PyRectangularGuide(*guide)),
            Shape::Hexagon { .. } => Self::Hexagonal(PyHexagonalGuide(*guide)),
        }
    }

    pub fn into_core(self) -> PyResult<Guide> {
        Ok(match self {
            Self::Circular(guide) => guide.0,
            Self::Rectangular(guide) => guide.0,
            Self::Hexagonal(guide) => guide.0,
        })
    }
}
