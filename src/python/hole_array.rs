//! Arrays of holes.

use ndarray::Array2;
use pyo3::prelude::*;

use super::aperture::{PyCircularHole, directional, towards};
use super::array::{Nd, Out, RealArg};
use super::class::{leak_class, parameter_methods, value_class};
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use crate::Polarization;
use crate::aperture::{HoleArray, HoleInteraction, HoleLayout};
use crate::mouth::HolePattern;

/// Rows of equally many holes.
///
/// Parameters
/// ----------
/// pitch_m : float
///     Distance of nearest holes, centre to centre, m, positive.
/// rows : int
///     Number of rows, 1 or more.
/// columns : int
///     Holes in each row, 1 or more; a million holes at most.
/// pattern : {"square", "hexagonal"}, default "square"
///     In the hexagonal pattern every second row is shifted by half a pitch.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.apertures", name = "HoleGrid")]
#[derive(Clone, PartialEq)]
pub struct PyHoleGrid(pub HoleLayout);

#[pymethods]
impl PyHoleGrid {
    #[new]
    #[pyo3(signature = (pitch_m, rows, columns, pattern="square"))]
    fn new(pitch_m: f64, rows: usize, columns: usize, pattern: &str) -> PyResult<Self> {
        Ok(Self(HoleLayout::grid(pattern.parse::<HolePattern>()?, pitch_m, rows, columns)?))
    }
}

impl PyHoleGrid {
    fn parts(&self) -> (HolePattern, f64, usize, usize) {
        match self.0 {
            HoleLayout::Grid { pattern, pitch_m, rows, columns } => (pattern, pitch_m, rows, columns),
            // Its constructor makes nothing else.
            _ => (HolePattern::Square, f64::NAN, 0, 0),
        }
    }
}

value_class!(PyHoleGrid, "HoleGrid" {
    /// Distance of nearest holes, centre to centre, m.
    pitch_m: f64 = |layout| PyHoleGrid(layout.clone()).parts().1,
    /// Number of rows.
    rows: usize = |layout| PyHoleGrid(layout.clone()).parts().2,
    /// Holes in each row.
    columns: usize = |layout| PyHoleGrid(layout.clone()).parts().3,
    /// How the holes are arranged.
    pattern: &'static str = |layout| PyHoleGrid(layout.clone()).parts().0.name(),
});
parameter_methods!(PyHoleGrid);

/// Holes thrown at random into a rectangle, one after another, wherever there is room.
///
/// Parameters
/// ----------
/// count : int
///     Number of holes, 1 to 10000.
/// width_m : float
///     Width of the rectangle that holds them whole, m, positive.
/// height_m : float
///     Its height, m, positive.
/// seed : int, default 0
///     The same seed throws the same holes on every machine.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.apertures", name = "RandomHoles")]
#[derive(Clone, PartialEq)]
pub struct PyRandomHoles(pub HoleLayout);

#[pymethods]
impl PyRandomHoles {
    #[new]
    #[pyo3(signature = (count, width_m, height_m, seed=0))]
    fn new(count: usize, width_m: f64, height_m: f64, seed: u64) -> PyResult<Self> {
        Ok(Self(HoleLayout::random(count, width_m, height_m, seed)?))
    }
}

impl PyRandomHoles {
    fn parts(&self) -> (usize, f64, f64, u64) {
        match self.0 {
            HoleLayout::Random { count, width_m, height_m, seed } => (count, width_m, height_m, seed),
            // Its constructor makes nothing else.
            _ => (0, f64::NAN, f64::NAN, 0),
        }
    }
}

value_class!(PyRandomHoles, "RandomHoles" {
    /// Number of holes.
    count: usize = |layout| PyRandomHoles(layout.clone()).parts().0,
    /// Width of the rectangle, m.
    width_m: f64 = |layout| PyRandomHoles(layout.clone()).parts().1,
    /// Height of the rectangle, m.
    height_m: f64 = |layout| PyRandomHoles(layout.clone()).parts().2,
    /// What the holes were thrown with.
    seed: u64 = |layout| PyRandomHoles(layout.clone()).parts().3,
});
parameter_methods!(PyRandomHoles);

/// Holes at given places.
///
/// Parameters
/// ----------
/// positions_m : sequence of (float, float)
///     Centre of each hole, along and across, m; 1 to 10000 of them.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a place that is not finite; the row is named.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.apertures", name = "HolePlaces")]
#[derive(Clone, PartialEq)]
pub struct PyHolePlaces(pub HoleLayout);

#[pymethods]
impl PyHolePlaces {
    #[new]
    fn new(positions_m: Vec<(f64, f64)>) -> PyResult<Self> {
        Ok(Self(HoleLayout::places(positions_m.into_iter().map(|(x, y)| [x, y]).collect())?))
    }
}

value_class!(PyHolePlaces, "HolePlaces" {
    /// Centre of each hole, m.
    positions_m: Vec<(f64, f64)> = |layout| match layout {
        HoleLayout::Places { positions_m } => positions_m.iter().map(|&[x, y]| (x, y)).collect(),
        _ => Vec::new(),
    },
});

/// Any of the layouts.
#[derive(FromPyObject, IntoPyObject)]
pub enum LayoutArg {
    Grid(PyHoleGrid),
    Random(PyRandomHoles),
    Places(PyHolePlaces),
}

impl LayoutArg {
    fn into_core(self) -> PyResult<HoleLayout> {
        Ok(match self {
            Self::Grid(PyHoleGrid(layout))
            | Self::Random(PyRandomHoles(layout))
            | Self::Places(PyHolePlaces(layout)) => layout,
        })
    }

    fn from_core(layout: &HoleLayout) -> Self {
        match layout {
            HoleLayout::Grid { .. } => Self::Grid(PyHoleGrid(layout.clone())),
            HoleLayout::Random { .. } => Self::Random(PyRandomHoles(layout.clone())),
            HoleLayout::Places { .. } => Self::Places(PyHolePlaces(layout.clone())),
        }
    }
}

/// Round holes of one size in a wall, from a few to a perforated panel.
///
/// Parameters
/// ----------
/// hole : CircularHole
///     One of the holes, with the thickness of the wall.
/// layout : HoleGrid, RandomHoles or HolePlaces
///     Where they are.
/// interaction : {"lattice", "incoherent", "coherent"}, default "lattice"
///     How they are taken together: as dipoles that act on one another; by power (right for holes more
///     than half a wavelength apart); by amplitude (a bound, met by holes within half a wavelength).
///
/// Raises
/// ------
/// RelationError
///     For holes as wide as the pitch or wider.
/// OutOfRangeError
///     For places nearer to one before them than a diameter: the row and the distance are named.
/// UnreachableError
///     Where so many holes do not fit at random.
///
/// Notes
/// -----
/// The lattice answer is that of coupled dipoles, exact while little passes and the holes' static fields
/// are those of their mean; a large pattern meets the perforated sheet. Holds for diameters up to 0.8 of
/// the least distance and 0.4 wavelengths. After H. A. Bethe, Phys. Rev. 66 (1944) 163 and R. E. Collin,
/// *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 12.3 (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> hole = sr.CircularHole(diameter_m=3e-3, wall_thickness_m=1e-3)
/// >>> grille = sr.apertures.HoleArray(hole, sr.apertures.HoleGrid(pitch_m=5e-3, rows=20, columns=20))
/// >>> bound = sr.apertures.HoleArray(hole, sr.apertures.HoleGrid(5e-3, 20, 20), "coherent")
/// >>> bool(hole.cross_section_m2(1e9) < grille.cross_section_m2(1e9) < bound.cross_section_m2(1e9))
/// True
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom.apertures", name = "HoleArray")]
#[derive(Clone, PartialEq)]
pub struct PyHoleArray(pub HoleArray);
leak_class!(PyHoleArray);

#[pymethods]
impl PyHoleArray {
    #[new]
    #[pyo3(signature = (hole, layout, interaction="lattice"))]
    fn new(hole: PyCircularHole, layout: LayoutArg, interaction: &str) -> PyResult<PyClassInitializer<Self>> {
        let interaction = interaction.parse::<HoleInteraction>()?;
        Ok(Self(HoleArray::new(hole.0, layout.into_core()?, interaction)?).into())
    }

    /// Number of holes.
    #[getter]
    fn count(&self) -> usize {
        self.0.count()
    }

    /// Open area of all holes, m^2.
    #[getter]
    fn area_m2(&self) -> f64 {
        self.0.area_m2()
    }

    /// Centre of each hole, m.
    ///
    /// Returns
    /// -------
    /// ndarray, shape (count, 2)
    ///     Along and across the rows.
    fn centres_m(&self) -> Nd<f64, ndarray::Ix2> {
        let centres = self.0.centres_m();
        Nd(Array2::from_shape_fn((centres.len(), 2), |(hole, axis)| centres[hole][axis]))
    }
}

value_class!(PyHoleArray, "HoleArray" {
    /// One of the holes.
    hole: PyCircularHole = |array| PyCircularHole(array.hole().clone()),
    /// Where they are.
    layout: LayoutArg = |array| LayoutArg::from_core(array.layout()),
    /// How they are taken together.
    interaction: &'static str = |array| array.interaction().name(),
});
directional!(PyHoleArray);
