//! Honeycomb panels and their cells.

use pyo3::prelude::*;

use super::air::PyAir;
use super::array::{Out, RealArg, batch, broadcast};
use super::class::{leak_class, parameter_methods, value_class};
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use super::waveguide::{finite_wall, wall, warn_frequencies};
use crate::Polarization;
use crate::error::check;
use crate::leak::Leak;
use crate::waveguide::{Air, Cell, HoneycombPanel, Shape, rule};

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

    pub fn into_core(self) -> Cell {
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

    /// Shielding effectiveness of the unbounded panel by full mode matching, dB.
    ///
    /// All modes of the cells and all harmonics of the lattice, at one direction: slower than `shielding_db`, and right also
    /// near cutoff, above it, and at oblique incidence.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// angle_deg : float, default 0
    ///     Angle from the normal, degrees, 0 to less than 90.
    /// azimuth_deg : float, default 0
    ///     Turn of the plane of incidence about the normal, degrees; from the axis through two corners of a hexagon.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    /// all_directions : bool, default False
    ///     Whether all power that leaves counts, grating lobes and both polarizations, instead of the wave's own.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (
        frequency_hz,
        angle_deg=0.0,
        azimuth_deg=0.0,
        polarization=PolarizationArg(Polarization::Te),
        all_directions=false,
    ))]
    fn matched_shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: PolarizationArg,
        all_directions: bool,
    ) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            let responses = self.0.lattice_responses(f, angle_deg, azimuth_deg, polarization.0)?;
            for (db, response) in out.iter_mut().zip(&responses) {
                *db = if all_directions {
                    crate::decibel::loss_db_of_ln_power(response.ln_transmitted_power)
                } else {
                    response.transmission.shielding_db()
                };
            }
            Ok(())
        })?;
        warn_frequencies(py, &frequency_hz, |f| self.0.lattice_validity(f))?;
        Ok(result)
    }

    /// Pressure drop at a face velocity, Pa.
    ///
    /// Parameters
    /// ----------
    /// face_velocity_m_per_s : array_like
    ///     Flow over the area of the whole face, m/s.
    /// air : Air, optional
    ///     Room air where not given.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Entrance, developing flow along the cells, and exit together.
    #[pyo3(signature = (face_velocity_m_per_s, air=None))]
    fn pressure_drop_pa(
        &self,
        py: Python<'_>,
        face_velocity_m_per_s: RealArg<'_>,
        air: Option<PyAir>,
    ) -> PyResult<Out<f64>> {
        let air = air.map_or_else(Air::default, |air| air.0);
        broadcast(py, ["face_velocity_m_per_s"], [&face_velocity_m_per_s], |[velocity]| {
            Ok(self.0.pressure_drop(velocity, &air)?.total_pa())
        })
    }

    /// Flow through the panel at a pressure drop, m^3/s.
    ///
    /// Parameters
    /// ----------
    /// pressure_pa : array_like
    ///     Pressure drop, Pa.
    /// air : Air, optional
    ///     Room air where not given.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    #[pyo3(signature = (pressure_pa, air=None))]
    fn flow_m3_per_s(&self, py: Python<'_>, pressure_pa: RealArg<'_>, air: Option<PyAir>) -> PyResult<Out<f64>> {
        let air = air.map_or_else(Air::default, |air| air.0);
        broadcast(py, ["pressure_pa"], [&pressure_pa], |[pressure]| self.0.flow_m3_per_s(pressure, &air))
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
