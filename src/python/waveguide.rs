//! Guides, tubes, rods and honeycomb panels.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, Real, RealArg, batch, broadcast};
use super::class::{leak_class, parameter_methods, value_class};
use super::error::warn_outside;
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use crate::Polarization;
use crate::error::check;
use crate::leak::Leak;
use crate::validity::Validity;
use crate::waveguide::{Cell, Guide, HoneycombPanel, Mode, Rod, Shape, Tube, rule};

/// One mode of a guide.
#[pyclass(frozen, eq, module = "stillroom", name = "Mode", get_all)]
#[derive(Clone, PartialEq)]
pub struct PyMode {
    /// Family and order, such as "TE11"; in a hexagon family and place, such as "TE 1".
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
        Self {
            name: mode.to_string(),
            degeneracy: mode.degeneracy(),
            cutoff_wavenumber_per_m: mode.cutoff_wavenumber_per_m(),
            cutoff_hz: guide.mode_cutoff_hz(mode),
        }
    }
}

#[pymethods]
impl PyMode {
    fn __repr__(&self) -> String {
        format!("<Mode {}, cutoff {:.6e} Hz, degeneracy {}>", self.name, self.cutoff_hz, self.degeneracy)
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
fn warn_frequencies(py: Python<'_>, frequency_hz: &RealArg<'_>, validity: impl Fn(f64) -> Validity) -> PyResult<()> {
    match frequency_hz.read("frequency_hz")? {
        Real::Scalar(f) => warn_outside(py, &[f], validity),
        Real::Array(array) => warn_outside(py, &array.as_array().iter().copied().collect::<Vec<_>>(), validity),
    }
}

/// The wall's conductivity; a perfect wall is None in Python, not infinity.
fn finite_wall(wall_conductivity_s_per_m: Option<f64>) -> crate::Result<f64> {
    match wall_conductivity_s_per_m {
        None => Ok(f64::INFINITY),
        Some(wall) => check::positive("wall_conductivity_s_per_m", "S/m", wall),
    }
}

/// A perfect wall is None in Python.
fn wall(guide: &Guide) -> Option<f64> {
    Some(guide.wall_conductivity_s_per_m()).filter(|wall| wall.is_finite())
}

fn propagation(py: Python<'_>, guide: &Guide, frequency_hz: &RealArg<'_>) -> PyResult<Out<Complex64>> {
    let result =
        broadcast(py, ["frequency_hz"], [frequency_hz], |[f]| Ok(guide.propagation_per_m(check::frequency(f)?)))?;
    warn_frequencies(py, frequency_hz, |f| guide.validity(f))?;
    Ok(result)
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

            /// Complex propagation constant of the dominant mode, 1/m.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            ///
            /// Returns
            /// -------
            /// complex or ndarray of complex
            ///     alpha + j beta: the field goes as exp(-(alpha + j beta) z). Exact through cutoff.
            fn propagation_per_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
                propagation(py, &self.0, &frequency_hz)
            }

            /// Attenuation of the dominant mode, dB/m.
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
            fn attenuation_db_per_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
                let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
                    check::frequencies(f)?;
                    self.0.attenuations_db_per_m(f, out);
                    Ok(())
                })?;
                warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
                Ok(result)
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
/// >>> tube = sr.CircularGuide(6e-3)
/// >>> round(tube.cutoff_hz / 1e9, 1)
/// 29.3
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "CircularGuide")]
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "RectangularGuide")]
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "HexagonalGuide")]
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

/// Any of the guides.
#[derive(FromPyObject, IntoPyObject)]
pub enum GuideArg {
    Circular(PyCircularGuide),
    Rectangular(PyRectangularGuide),
    Hexagonal(PyHexagonalGuide),
}

impl GuideArg {
    fn from_core(guide: &Guide) -> Self {
        match guide.shape() {
            Shape::Circle { .. } => Self::Circular(PyCircularGuide(*guide)),
            Shape::Rectangle { .. } => Self::Rectangular(PyRectangularGuide(*guide)),
            Shape::Hexagon { .. } => Self::Hexagonal(PyHexagonalGuide(*guide)),
        }
    }

    fn into_core(self) -> Guide {
        match self {
            Self::Circular(guide) => guide.0,
            Self::Rectangular(guide) => guide.0,
            Self::Hexagonal(guide) => guide.0,
        }
    }
}

/// A round dielectric rod on the axis of a tube: an optical fibre, its jacket, a plastic tie.
///
/// A cable with a metal strength member is no rod: a conductor in a tube has no cutoff.
///
/// Parameters
/// ----------
/// diameter_m : float
///     Diameter, m.
/// relative_permittivity : float
///     At least 1.
/// loss_tangent : float, default 0
///     Zero or positive.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Rod")]
#[derive(Clone, PartialEq)]
pub struct PyRod(pub Rod);

#[pymethods]
impl PyRod {
    #[new]
    #[pyo3(signature = (diameter_m, relative_permittivity, loss_tangent=0.0))]
    fn new(diameter_m: f64, relative_permittivity: f64, loss_tangent: f64) -> PyResult<Self> {
        Ok(Self(Rod::new(diameter_m, relative_permittivity)?.lossy(loss_tangent)?))
    }
}

value_class!(PyRod, "Rod" {
    /// Diameter, m.
    diameter_m: f64 = |rod| rod.diameter_m(),
    /// Relative permittivity.
    relative_permittivity: f64 = |rod| rod.relative_permittivity(),
    /// Loss tangent.
    loss_tangent: f64 = |rod| rod.loss_tangent(),
});
parameter_methods!(PyRod);

/// A tube through the wall, empty or with a dielectric rod on its axis; a leak.
///
/// Parameters
/// ----------
/// guide : CircularGuide or RectangularGuide or HexagonalGuide
///     Its cross-section.
/// length_m : float
///     Its length, m.
/// rod : Rod, optional
///     What lies inside; thinner than the tube.
///
/// Notes
/// -----
/// The cross-section includes the two ends: the lowest mode of each symmetry, joined by mode matching to the half-space
/// and to the higher modes. Below cutoff that is the attenuation over the length plus the coupling of the ends; far above
/// cutoff half of the open area.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> tube = sr.Tube(sr.CircularGuide(6e-3), length_m=36e-3)
/// >>> round(tube.attenuation_db(1e9), 1)
/// 191.8
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "Tube")]
#[derive(Clone, PartialEq)]
pub struct PyTube(pub Tube);
leak_class!(PyTube);

#[pymethods]
impl PyTube {
    #[new]
    #[pyo3(signature = (guide, length_m, rod=None))]
    fn new(guide: GuideArg, length_m: f64, rod: Option<PyRod>) -> PyResult<PyClassInitializer<Self>> {
        let tube = Tube::new(guide.into_core(), length_m)?;
        Ok(Self(match rod {
            None => tube,
            Some(rod) => tube.with_rod(rod.0)?,
        })
        .into())
    }

    /// Cutoff frequency of the dominant mode, with what lies inside, Hz.
    #[getter]
    fn cutoff_hz(&self) -> f64 {
        self.0.cutoff_hz()
    }

    /// Attenuation of the dominant mode over the length, without the ends, dB.
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
    fn attenuation_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let result =
            broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(self.0.attenuation_db(check::frequency(f)?)))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }
}

value_class!(PyTube, "Tube" {
    /// Its cross-section.
    guide: GuideArg = |tube| GuideArg::from_core(tube.guide()),
    /// Its length, m.
    length_m: f64 = |tube| tube.length_m(),
    /// What lies inside, or None.
    rod: Option<PyRod> = |tube| tube.rod().copied().map(PyRod),
});

/// What all cells can do.
macro_rules! cell_methods {
    ($class:ident) => {
        parameter_methods!($class);

        #[pymethods]
        impl $class {
            /// Cutoff frequency of the cell, Hz.
            #[getter]
            fn cutoff_hz(&self) -> f64 {
                self.0.guide().cutoff_hz()
            }

            /// Open area over the whole, 0 to 1.
            #[getter]
            fn open_fraction(&self) -> f64 {
                self.0.open_fraction()
            }
        }
    };
}

/// A hexagonal honeycomb cell.
///
/// Parameters
/// ----------
/// across_flats_m : float
///     Inner width across flats, m.
/// wall_m : float, default 0
///     Whole thickness of the wall between two cells, m; less than the width. Of foil with doubled nodes the mean.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
///
/// Examples
/// --------
/// Vents are sold as blocking everything below 32 GHz; the cell with that cutoff:
///
/// >>> import stillroom as sr
/// >>> round(sr.HexagonalCell(5.19e-3).cutoff_hz / 1e9, 1)
/// 32.0
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "HexagonalCell")]
#[derive(Clone, PartialEq)]
pub struct PyHexagonalCell(pub Cell);

#[pymethods]
impl PyHexagonalCell {
    #[new]
    #[pyo3(signature = (across_flats_m, wall_m=0.0, wall_conductivity_s_per_m=None))]
    fn new(across_flats_m: f64, wall_m: f64, wall_conductivity_s_per_m: Option<f64>) -> PyResult<Self> {
        let cell = Cell::hexagonal(across_flats_m, wall_m)?;
        Ok(Self(cell.walled(finite_wall(wall_conductivity_s_per_m)?)?))
    }
}

value_class!(PyHexagonalCell, "HexagonalCell" {
    /// Inner width across flats, m.
    across_flats_m: f64 = |cell| cell.width_m(),
    /// Thickness of the wall between two cells, m.
    wall_m: f64 = |cell| cell.wall_m(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |cell| wall(cell.guide()),
});
cell_methods!(PyHexagonalCell);

/// A square honeycomb cell.
///
/// Parameters
/// ----------
/// side_m : float
///     Inner side, m.
/// wall_m : float, default 0
///     Whole thickness of the wall between two cells, m; less than the side.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "SquareCell")]
#[derive(Clone, PartialEq)]
pub struct PySquareCell(pub Cell);

#[pymethods]
impl PySquareCell {
    #[new]
    #[pyo3(signature = (side_m, wall_m=0.0, wall_conductivity_s_per_m=None))]
    fn new(side_m: f64, wall_m: f64, wall_conductivity_s_per_m: Option<f64>) -> PyResult<Self> {
        let cell = Cell::square(side_m, wall_m)?;
        Ok(Self(cell.walled(finite_wall(wall_conductivity_s_per_m)?)?))
    }
}

value_class!(PySquareCell, "SquareCell" {
    /// Inner side, m.
    side_m: f64 = |cell| cell.width_m(),
    /// Thickness of the wall between two cells, m.
    wall_m: f64 = |cell| cell.wall_m(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |cell| wall(cell.guide()),
});
cell_methods!(PySquareCell);

/// A round honeycomb cell, as drilled, with six neighbours.
///
/// Parameters
/// ----------
/// diameter_m : float
///     Inner diameter, m.
/// wall_m : float, default 0
///     Web where neighbours come nearest, m; less than the diameter.
/// wall_conductivity_s_per_m : float, optional
///     Conductivity of the wall, S/m; a perfect conductor where not given.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "RoundCell")]
#[derive(Clone, PartialEq)]
pub struct PyRoundCell(pub Cell);

#[pymethods]
impl PyRoundCell {
    #[new]
    #[pyo3(signature = (diameter_m, wall_m=0.0, wall_conductivity_s_per_m=None))]
    fn new(diameter_m: f64, wall_m: f64, wall_conductivity_s_per_m: Option<f64>) -> PyResult<Self> {
        let cell = Cell::round(diameter_m, wall_m)?;
        Ok(Self(cell.walled(finite_wall(wall_conductivity_s_per_m)?)?))
    }
}

value_class!(PyRoundCell, "RoundCell" {
    /// Inner diameter, m.
    diameter_m: f64 = |cell| cell.width_m(),
    /// Web where neighbours come nearest, m.
    wall_m: f64 = |cell| cell.wall_m(),
    /// Conductivity of the wall, S/m, or None for a perfect conductor.
    wall_conductivity_s_per_m: Option<f64> = |cell| wall(cell.guide()),
});
cell_methods!(PyRoundCell);

/// Any of the cells.
#[derive(FromPyObject, IntoPyObject)]
pub enum CellArg {
    Hexagonal(PyHexagonalCell),
    Square(PySquareCell),
    Round(PyRoundCell),
}

impl CellArg {
    fn from_core(cell: &Cell) -> Self {
        match cell.guide().shape() {
            Shape::Hexagon { .. } => Self::Hexagonal(PyHexagonalCell(*cell)),
            Shape::Rectangle { .. } => Self::Square(PySquareCell(*cell)),
            Shape::Circle { .. } => Self::Round(PyRoundCell(*cell)),
        }
    }

    fn into_core(self) -> Cell {
        match self {
            Self::Hexagonal(cell) => cell.0,
            Self::Square(cell) => cell.0,
            Self::Round(cell) => cell.0,
        }
    }
}

/// A honeycomb vent panel; a leak.
///
/// Parameters
/// ----------
/// cell : HexagonalCell or SquareCell or RoundCell
///     One of its cells.
/// depth_m : float
///     Depth of the cells, m.
/// size_m : (float, float)
///     Width and height of the open face, m; takes at least one cell.
///
/// Notes
/// -----
/// Taken as bonded cell to cell and to the frame; foil without plating or solder leaks along its glued nodes.
/// Ventilation of rooms that people work in follows local code.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> vent = sr.HoneycombPanel(sr.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
/// >>> round(vent.cutoff_hz / 1e9, 1)
/// 34.6
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "HoneycombPanel")]
#[derive(Clone, PartialEq)]
pub struct PyHoneycombPanel(pub HoneycombPanel);
leak_class!(PyHoneycombPanel);

#[pymethods]
impl PyHoneycombPanel {
    #[new]
    fn new(cell: CellArg, depth_m: f64, size_m: (f64, f64)) -> PyResult<PyClassInitializer<Self>> {
        Ok(Self(HoneycombPanel::new(cell.into_core(), depth_m, size_m)?).into())
    }

    /// Number of cells.
    #[getter]
    fn cell_count(&self) -> usize {
        self.0.cell_count()
    }

    /// Cutoff frequency of the cells, Hz.
    #[getter]
    fn cutoff_hz(&self) -> f64 {
        self.0.cutoff_hz()
    }

    /// Attenuation of the dominant mode over the depth, without the faces, dB.
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
    fn attenuation_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let result =
            broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(self.0.attenuation_db(check::frequency(f)?)))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }

    /// Shielding effectiveness of the unbounded panel under a plane wave, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// angle_deg : array_like, default 0
    ///     Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Joint shape of the arguments: -20 log10 of what leaves along the wave's own direction.
    #[pyo3(signature = (frequency_hz, angle_deg=None, polarization=PolarizationArg(Polarization::Te)))]
    fn shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: Option<RealArg<'_>>,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        let at = |f: f64, angle: f64| Ok(self.0.transmission(f, angle, polarization.0)?.shielding_db());
        let result = match &angle_deg {
            None => broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| at(f, 0.0)),
            Some(angle) => broadcast(py, ["frequency_hz", "angle_deg"], [&frequency_hz, angle], |[f, a]| at(f, a)),
        }?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }
}

value_class!(PyHoneycombPanel, "HoneycombPanel" {
    /// One of its cells.
    cell: CellArg = |panel| CellArg::from_core(panel.cell()),
    /// Depth of the cells, m.
    depth_m: f64 = |panel| panel.depth_m(),
    /// Width and height of the open face, m.
    size_m: (f64, f64) = |panel| panel.size_m(),
});

/// Rule of thumb: loss of a round tube at 32 dB per diameter of length, dB.
///
/// Holds far below cutoff only; near cutoff it promises more than is there. Handbooks, from memory.
///
/// Parameters
/// ----------
/// diameter_m, length_m : array_like
///     Diameter and length, m; broadcast.
#[pyfunction]
pub fn round_tube_rule_db(py: Python<'_>, diameter_m: RealArg<'_>, length_m: RealArg<'_>) -> PyResult<Out<f64>> {
    broadcast(py, ["diameter_m", "length_m"], [&diameter_m, &length_m], |[d, l]| rule::round_tube_db(d, l))
}

/// Rule of thumb: loss of a rectangular tube at 27.3 dB per greater width of length, dB.
///
/// Holds far below cutoff only. Handbooks, from memory.
///
/// Parameters
/// ----------
/// width_m, length_m : array_like
///     Greater width and length, m; broadcast.
#[pyfunction]
pub fn rectangular_tube_rule_db(py: Python<'_>, width_m: RealArg<'_>, length_m: RealArg<'_>) -> PyResult<Out<f64>> {
    broadcast(py, ["width_m", "length_m"], [&width_m, &length_m], |[w, l]| rule::rectangular_tube_db(w, l))
}

/// Rule of thumb: what N cells within half a wavelength are said to take from a panel's loss, 20 log10 N, dB.
///
/// A bound: amplitudes add. Common practice, no source.
///
/// Parameters
/// ----------
/// cell_count : int
///     Number of cells.
#[pyfunction]
pub fn cells_in_step_rule_db(cell_count: usize) -> f64 {
    rule::cells_in_step_db(cell_count)
}

/// Rule of thumb: what N cells spread over many wavelengths are said to take from a panel's loss, 10 log10 N, dB.
///
/// Powers add. Common practice, no source.
///
/// Parameters
/// ----------
/// cell_count : int
///     Number of cells.
#[pyfunction]
pub fn cells_apart_rule_db(cell_count: usize) -> f64 {
    rule::cells_apart_db(cell_count)
}
