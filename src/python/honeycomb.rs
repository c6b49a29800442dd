//! Honeycomb panels and their cells.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use super::air::PyAir;
use super::array::{Out, RealArg, batch, broadcast};
use super::class::{leak_class, parameter_methods, value_class};
use super::error::warn_outside;
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use super::waveguide::{finite_wall, wall, warn_frequencies};
use crate::Polarization;
use crate::error::check;
use crate::leak::Leak;
use crate::validity::Validity;
use crate::waveguide::air::PressureDrop;
use crate::waveguide::{
    Air, Cell, FoilPanel, FrameJoint, HoneycombPanel, Ribbons, RulesOfThumb, Shape, UnbondedNodes, rule,
};

/// A class for one kind of cell, from the name of its width and the constructor of the core.
macro_rules! cell_class {
    (
        $(#[$doc:meta])*
        $class:ident, $name:literal, $make:path, $(#[$width_doc:meta])* $width:ident, $(#[$wall_doc:meta])* wall
    ) => {
        $(#[$doc])*
        #[pyclass(frozen, eq, from_py_object, module = "stillroom.vents", name = $name)]
        #[derive(Clone, PartialEq)]
        pub struct $class(pub Cell);

        #[pymethods]
        impl $class {
            #[new]
            #[pyo3(signature = ($width, wall_m=0.0, wall_conductivity_s_per_m=None))]
            fn new($width: f64, wall_m: f64, wall_conductivity_s_per_m: Option<f64>) -> PyResult<Self> {
                Ok(Self($make($width, wall_m)?.walled(finite_wall(wall_conductivity_s_per_m)?)?))
            }

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

        value_class!($class, $name {
            $(#[$width_doc])*
            $width: f64 = |cell| cell.width_m(),
            $(#[$wall_doc])*
            wall_m: f64 = |cell| cell.wall_m(),
            /// Conductivity of the wall, S/m, or None for a perfect conductor.
            wall_conductivity_s_per_m: Option<f64> = |cell| wall(cell.guide()),
        });
        parameter_methods!($class);
    };
}

cell_class! {
    /// A hexagonal honeycomb cell.
    ///
    /// Parameters
    /// ----------
    /// across_flats_m : float
    ///     Inner width across flats, m.
    /// wall_m : float, default 0
    ///     Whole thickness of the wall between two cells, m; at most twice the width. Of foil with doubled nodes the mean.
    /// wall_conductivity_s_per_m : float, optional
    ///     Conductivity of the wall, S/m; a perfect conductor where not given.
    ///
    /// Examples
    /// --------
    /// Vents are sold as blocking everything below 32 GHz; the cell with that cutoff:
    ///
    /// >>> import stillroom as sr
    /// >>> round(sr.vents.HexagonalCell(5.19e-3).cutoff_hz / 1e9, 1)
    /// 32.0
    PyHexagonalCell, "HexagonalCell", Cell::hexagonal,
    /// Inner width across flats, m.
    across_flats_m,
    /// Thickness of the wall between two cells, m.
    wall
}

cell_class! {
    /// A square honeycomb cell.
    ///
    /// Parameters
    /// ----------
    /// side_m : float
    ///     Inner side, m.
    /// wall_m : float, default 0
    ///     Whole thickness of the wall between two cells, m; at most twice the side.
    /// wall_conductivity_s_per_m : float, optional
    ///     Conductivity of the wall, S/m; a perfect conductor where not given.
    PySquareCell, "SquareCell", Cell::square,
    /// Inner side, m.
    side_m,
    /// Thickness of the wall between two cells, m.
    wall
}

cell_class! {
    /// A round honeycomb cell, as drilled, with six neighbours.
    ///
    /// Parameters
    /// ----------
    /// diameter_m : float
    ///     Inner diameter, m.
    /// wall_m : float, default 0
    ///     Web where neighbours come nearest, m; at most twice the diameter.
    /// wall_conductivity_s_per_m : float, optional
    ///     Conductivity of the wall, S/m; a perfect conductor where not given.
    PyRoundCell, "RoundCell", Cell::round,
    /// Inner diameter, m.
    diameter_m,
    /// Web where neighbours come nearest, m.
    wall
}

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

    pub fn into_core(self) -> PyResult<Cell> {
        Ok(match self {
            Self::Hexagonal(cell) => cell.0,
            Self::Square(cell) => cell.0,
            Self::Round(cell) => cell.0,
        })
    }
}

/// Decibels at joint frequencies and angles, at normal incidence where there is no angle; warns outside the domain.
fn at_angles(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    angle_deg: Option<&RealArg<'_>>,
    db: impl Fn(f64, f64) -> crate::Result<f64> + Sync,
    validity: impl Fn(f64, f64) -> Validity,
) -> PyResult<Out<f64>> {
    let (result, steepest) = match angle_deg {
        None => (broadcast(py, ["frequency_hz"], [frequency_hz], |[f]| db(f, 0.0)), 0.0),
        Some(angle) => (
            broadcast(py, ["frequency_hz", "angle_deg"], [frequency_hz, angle], |[f, a]| db(f, a)),
            angle.read("angle_deg")?.values().iter().copied().fold(0.0, f64::max),
        ),
    };
    let result = result?;
    warn_frequencies(py, frequency_hz, |f| validity(f, steepest))?;
    Ok(result)
}

FrameJoint! {
    /// The joint between a panel and its frame.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// A single row with the transfer impedance R + jwL, all around the panel. To be measured, or taken from the maker of the gasket.
    /// Anything else (fingers, two rows, bolts) is a leak of its own, as long as the panel's `perimeter_m`.
    class PyFrameJoint in vents;
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
/// frame : FrameJoint, optional
///     The joint all around to its frame, whose cross-section adds to that of the cells; bonded there where not given. A test reads
///     the cells over the face and the joint along its outline, each by itself, and adds their powers.
///
/// Notes
/// -----
/// Taken as bonded cell to cell; foil without plating or solder is a `FoilPanel`.
/// The averaged cross-section is that of the finite panel below cutoff: held to a sum over the cells of finite panels within 2 dB
/// from 0.1 to 0.3 of cutoff, and 3 dB too small near 0.6 (the theory page has the table).
/// Ventilation of rooms that people work in follows local code.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> vent = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
/// >>> round(vent.cutoff_hz / 1e9, 1)
/// 34.6
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "HoneycombPanel")]
#[derive(Clone, PartialEq)]
pub struct PyHoneycombPanel(pub HoneycombPanel);
leak_class!(PyHoneycombPanel);

#[pymethods]
impl PyHoneycombPanel {
    #[new]
    #[pyo3(signature = (cell, depth_m, size_m, frame=None))]
    fn new(
        cell: CellArg,
        depth_m: f64,
        size_m: (f64, f64),
        frame: Option<PyFrameJoint>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let panel = HoneycombPanel::new(cell.into_core()?, depth_m, size_m)?;
        Ok(Self(match frame {
            None => panel,
            Some(frame) => panel.with_frame(frame.0),
        })
        .into())
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

    /// Length of the joint all around to the frame, m.
    #[getter]
    fn perimeter_m(&self) -> f64 {
        self.0.perimeter_m()
    }

    /// Cross-section of the finite panel for one direction, m^2: its projected area times what passes.
    ///
    /// Diffraction at the panel's edges is left out: warns where the projected side is less than two wavelengths.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// angle_deg : array_like
    ///     Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Joint shape of the arguments.
    #[pyo3(signature = (frequency_hz, angle_deg, polarization=PolarizationArg(Polarization::Te)))]
    fn cross_section_at_m2(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: RealArg<'_>,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        let result = broadcast(py, ["frequency_hz", "angle_deg"], [&frequency_hz, &angle_deg], |[f, angle]| {
            Ok(self.0.ln_cross_section_at(f, angle, polarization.0)?.exp())
        })?;
        let steepest = angle_deg.read("angle_deg")?.values().iter().copied().fold(0.0, f64::max);
        warn_frequencies(py, &frequency_hz, |f| self.0.edge_validity(f, steepest).and(self.0.validity(f)))?;
        Ok(result)
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
    /// near cutoff, above it, and at oblique incidence. Warns where the panel is shallower than a tenth of a cell, or the
    /// frequency is too high for the modes that there are or below 1e-8 of the cutoff.
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
        self.of_drop(py, &face_velocity_m_per_s, air, PressureDrop::total_pa)
    }

    /// Where the pressure goes at a face velocity.
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
    /// dict[str, float or ndarray]
    ///     `entrance_pa`, `friction_pa` (along the cells, the developing profile included), `exit_pa`, and `reynolds`, the Reynolds
    ///     number in the cells on their hydraulic diameter.
    #[pyo3(signature = (face_velocity_m_per_s, air=None) -> "dict[str, float | NDArray[float64]]")]
    fn pressure_parts<'py>(
        &self,
        py: Python<'py>,
        face_velocity_m_per_s: RealArg<'py>,
        air: Option<PyAir>,
    ) -> PyResult<Bound<'py, PyDict>> {
        let parts = PyDict::new(py);
        let enter = |name: &str, pick: fn(&PressureDrop) -> f64| {
            parts.set_item(name, self.of_drop(py, &face_velocity_m_per_s, air.clone(), pick)?)
        };
        enter("entrance_pa", |drop| drop.entrance_pa)?;
        enter("friction_pa", |drop| drop.friction_pa)?;
        enter("exit_pa", |drop| drop.exit_pa)?;
        enter("reynolds", |drop| drop.reynolds)?;
        Ok(parts)
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
        let db = |f: f64, angle: f64| Ok(self.0.transmission(f, angle, polarization.0)?.shielding_db());
        at_angles(py, &frequency_hz, angle_deg.as_ref(), db, |f, angle| {
            self.0.oblique_validity(f, angle).and(self.0.validity(f))
        })
    }

    /// What the trade's rules of thumb say of this panel, to compare with; dB.
    ///
    /// Common practice, no source. They take each cell as an opening of its own.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// dict[str, float or ndarray]
    ///     `one_cell` (32 dB for each diameter, 27.3 dB for each width of depth), `near_cutoff` (times sqrt(1 - (f/f_c)^2)),
    ///     `cells_in_step` (that less 20 log10 N), `cells_apart` (that less 10 log10 N).
    #[pyo3(signature = (frequency_hz) -> "dict[str, float | NDArray[float64]]")]
    fn rules_of_thumb_db<'py>(&self, py: Python<'py>, frequency_hz: RealArg<'py>) -> PyResult<Bound<'py, PyDict>> {
        let named = PyDict::new(py);
        let enter = |name: &str, pick: fn(&RulesOfThumb) -> f64| {
            let of = |[f]: [f64; 1]| Ok(pick(&self.0.rules_of_thumb(check::frequency(f)?)));
            named.set_item(name, broadcast(py, ["frequency_hz"], [&frequency_hz], of)?)
        };
        enter("one_cell", |rules| rules.one_cell_db)?;
        enter("near_cutoff", |rules| rules.near_cutoff_db)?;
        enter("cells_in_step", |rules| rules.cells_in_step_db)?;
        enter("cells_apart", |rules| rules.cells_apart_db)?;
        Ok(named)
    }
}

impl PyHoneycombPanel {
    /// One number of the pressure drop; warns where the flow is no longer incompressible.
    fn of_drop(
        &self,
        py: Python<'_>,
        face_velocity_m_per_s: &RealArg<'_>,
        air: Option<PyAir>,
        pick: impl Fn(&PressureDrop) -> f64 + Sync,
    ) -> PyResult<Out<f64>> {
        let air = air.map_or_else(Air::default, |air| air.0);
        let name = "face_velocity_m_per_s";
        let result = broadcast(py, [name], [face_velocity_m_per_s], |[velocity]| {
            Ok(pick(&self.0.pressure_drop(velocity, &air)?))
        })?;
        warn_outside(py, &face_velocity_m_per_s.read(name)?.values(), |velocity| self.0.air_validity(velocity))?;
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
    /// The joint to its frame, or None.
    frame: Option<PyFrameJoint> = |panel| panel.frame().copied().map(PyFrameJoint),
});

/// The glued nodes of foil honeycomb that is neither soldered nor plated.
///
/// Parameters
/// ----------
/// glue_m : float
///     Thickness of the glue between two ribbons, m.
/// relative_permittivity : float
///     Of the glue, at least 1.
/// foil_conductivity_s_per_m : float
///     Conductivity of the foil, S/m.
/// contact_resistance_ohm_m : float, optional
///     Resistance of what contact there is over a length of node, ohm m; no contact at all where not given. To be
///     measured: no formula knows it.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.vents", name = "UnbondedNodes")]
#[derive(Clone, PartialEq)]
pub struct PyUnbondedNodes(pub UnbondedNodes);

#[pymethods]
impl PyUnbondedNodes {
    #[new]
    #[pyo3(signature = (glue_m, relative_permittivity, foil_conductivity_s_per_m, contact_resistance_ohm_m=None))]
    fn new(
        glue_m: f64,
        relative_permittivity: f64,
        foil_conductivity_s_per_m: f64,
        contact_resistance_ohm_m: Option<f64>,
    ) -> PyResult<Self> {
        let nodes = UnbondedNodes::new(glue_m, relative_permittivity, foil_conductivity_s_per_m)?;
        let contact = match contact_resistance_ohm_m {
            None => f64::INFINITY,
            Some(contact) => check::positive("contact_resistance_ohm_m", "ohm m", contact)?,
        };
        Ok(Self(nodes.in_contact(contact)?))
    }
}

value_class!(PyUnbondedNodes, "UnbondedNodes" {
    /// Thickness of the glue, m.
    glue_m: f64 = |nodes| nodes.glue_m(),
    /// Relative permittivity of the glue.
    relative_permittivity: f64 = |nodes| nodes.relative_permittivity(),
    /// Conductivity of the foil, S/m.
    foil_conductivity_s_per_m: f64 = |nodes| nodes.foil_conductivity_s_per_m(),
    /// Resistance of the contact over a length of node, ohm m, or None where there is no contact.
    contact_resistance_ohm_m: Option<f64> = |nodes| Some(nodes.contact_resistance_ohm_m()).filter(|r| r.is_finite()),
});
parameter_methods!(PyUnbondedNodes);

FoilPanel! {
    /// A foil honeycomb with unbonded nodes, or two of them crossed; a leak.
    ///
    /// For a field across the ribbons every node is a slit without cutoff. A second layer, turned by 90 degrees, stops what the first
    /// lets through.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Nodes as lines of two plates in series with the cells; layers linked by the wave itself alone. Derived in the theory pages,
    /// with no measurement to hold it against. Warns outside its range: above 0.6 of cutoff, gaps below 0.3 of the pitch
    /// or near half a wavelength.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> panel = sr.HoneycombPanel(sr.vents.HexagonalCell(4.8e-3), depth_m=25e-3, size_m=(0.3, 0.3))
    /// >>> foil = sr.vents.FoilPanel(panel, sr.vents.UnbondedNodes(10e-6, 3.5, 3.5e7, contact_resistance_ohm_m=1e-2))
    /// >>> pair = sr.vents.FoilPanel(panel, foil.nodes, crossed_gap_m=5e-3)
    /// >>> bool(foil.shielding_db(1e9) < 60 < 120 < pair.shielding_db(1e9))
    /// True
    class PyFoilPanel extends PyLeak in vents;
}

#[pymethods]
impl PyFoilPanel {
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
    /// across_ribbons : bool, default True
    ///     Whether the field in the face lies across the ribbons, which is the bad case of one layer, or along them.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Joint shape of the arguments.
    #[pyo3(signature = (
        frequency_hz,
        angle_deg=None,
        polarization=PolarizationArg(Polarization::Te),
        across_ribbons=true,
    ))]
    fn shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: Option<RealArg<'_>>,
        polarization: PolarizationArg,
        across_ribbons: bool,
    ) -> PyResult<Out<f64>> {
        let field = if across_ribbons { Ribbons::Across } else { Ribbons::Along };
        let db = |f: f64, angle: f64| Ok(self.0.transmission(f, angle, polarization.0, field)?.shielding_db());
        at_angles(py, &frequency_hz, angle_deg.as_ref(), db, |f, angle| {
            self.0.panel().oblique_validity(f, angle).and(self.0.validity(f))
        })
    }
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
