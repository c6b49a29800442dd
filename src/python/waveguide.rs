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
use crate::waveguide::air::fresh_air_m3_per_s as fresh_air;
use crate::waveguide::sizing::{self, VentTask};
use crate::waveguide::{
    Air, Bond, Cell, CoaxialGuide, Guide, HoneycombPanel, Mode, Rod, Shape, ThroughWire, Tube, rule,
};

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

/// The space between two coaxial conducting circles: a tube with a wire in its middle.
///
/// Parameters
/// ----------
/// inner_m, outer_m : float
///     Diameters, m; the inner one is the smaller.
/// relative_permittivity : float, default 1
///     Of the filling, at least 1.
///
/// Notes
/// -----
/// TEM without cutoff, TE and TM. N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 2.4 (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> [mode.name for mode in sr.CoaxialGuide(3.04e-3, 7e-3).modes(3)]
/// ['TEM', 'TE11', 'TE21']
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "CoaxialGuide")]
#[derive(Clone, PartialEq)]
pub struct PyCoaxialGuide(pub CoaxialGuide);

#[pymethods]
impl PyCoaxialGuide {
    #[new]
    #[pyo3(signature = (inner_m, outer_m, relative_permittivity=1.0))]
    fn new(inner_m: f64, outer_m: f64, relative_permittivity: f64) -> PyResult<Self> {
        Ok(Self(CoaxialGuide::new(inner_m, outer_m)?.filled(relative_permittivity)?))
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

/// A bond of a conductor to the tube, at its outer end.
///
/// Parameters
/// ----------
/// resistance_ohm : float
///     Resistance of the bond, ohm.
/// inductance_h : float
///     Inductance of the bond, H.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "WallBond")]
#[derive(Clone, PartialEq)]
pub struct PyWallBond(pub Bond);

#[pymethods]
impl PyWallBond {
    #[new]
    fn new(resistance_ohm: f64, inductance_h: f64) -> PyResult<Self> {
        Ok(Self(Bond::wall(resistance_ohm, inductance_h)?))
    }
}

/// The numbers of a bond, zero where it has no such number.
fn bond_values(bond: &Bond) -> [f64; 3] {
    match *bond {
        Bond::Wall { resistance_ohm, inductance_h } => [resistance_ohm, inductance_h, 0.0],
        Bond::Shield { transfer_ohm_per_m, transfer_h_per_m, core_ohm } => {
            [transfer_ohm_per_m, transfer_h_per_m, core_ohm]
        }
        Bond::None => [0.0; 3],
    }
}

value_class!(PyWallBond, "WallBond" {
    /// Resistance of the bond, ohm.
    resistance_ohm: f64 = |bond| bond_values(bond)[0],
    /// Inductance of the bond, H.
    inductance_h: f64 = |bond| bond_values(bond)[1],
});

/// The shield of a cable, bonded to the tube all around; the cable's core ends unshielded inside.
///
/// Parameters
/// ----------
/// transfer_ohm_per_m : float
///     Transfer impedance of the braid at low frequency, ohm/m.
/// transfer_h_per_m : float
///     Mutual inductance of the braid, H/m.
/// core_ohm : float, default 50
///     Characteristic impedance of the cable, ohm.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "BondedShield")]
#[derive(Clone, PartialEq)]
pub struct PyBondedShield(pub Bond);

#[pymethods]
impl PyBondedShield {
    #[new]
    #[pyo3(signature = (transfer_ohm_per_m, transfer_h_per_m, core_ohm=50.0))]
    fn new(transfer_ohm_per_m: f64, transfer_h_per_m: f64, core_ohm: f64) -> PyResult<Self> {
        Ok(Self(Bond::shield(transfer_ohm_per_m, transfer_h_per_m, core_ohm)?))
    }
}

value_class!(PyBondedShield, "BondedShield" {
    /// Transfer impedance of the braid at low frequency, ohm/m.
    transfer_ohm_per_m: f64 = |bond| bond_values(bond)[0],
    /// Mutual inductance of the braid, H/m.
    transfer_h_per_m: f64 = |bond| bond_values(bond)[1],
    /// Characteristic impedance of the cable, ohm.
    core_ohm: f64 = |bond| bond_values(bond)[2],
});

/// Any bond.
#[derive(FromPyObject, IntoPyObject)]
pub enum BondArg {
    Wall(PyWallBond),
    Shield(PyBondedShield),
}

/// A round conductor through a tube, with what sticks out on either side: a wire left in a fibre tube, the metal strength
/// member of a fibre cable, a cable.
///
/// It makes the tube a coaxial line, which has no cutoff, between a receiving antenna outside and a transmitting one inside.
///
/// Parameters
/// ----------
/// diameter_m : float
///     Diameter, m.
/// outside_m, inside_m : float
///     Lengths that stick out, m; more than twice the diameter.
/// bond : WallBond or BondedShield, optional
///     How it is joined to the tube; not at all where not given.
///
/// Notes
/// -----
/// The ends are straight monopoles on the wall, as lossy open lines (E. Siegel, J. Labus, 1934). Real wires bend: the size
/// of the effect, within several dB.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "ThroughWire")]
#[derive(Clone, PartialEq)]
pub struct PyThroughWire(pub ThroughWire);

#[pymethods]
impl PyThroughWire {
    #[new]
    #[pyo3(signature = (diameter_m, outside_m, inside_m, bond=None))]
    fn new(diameter_m: f64, outside_m: f64, inside_m: f64, bond: Option<BondArg>) -> PyResult<Self> {
        let bond = match bond {
            None => Bond::None,
            Some(BondArg::Wall(bond)) => bond.0,
            Some(BondArg::Shield(bond)) => bond.0,
        };
        Ok(Self(ThroughWire::new(diameter_m, outside_m, inside_m)?.bonded(bond)?))
    }
}

value_class!(PyThroughWire, "ThroughWire" {
    /// Diameter, m.
    diameter_m: f64 = |wire| wire.diameter_m(),
    /// Length outside, m.
    outside_m: f64 = |wire| wire.outside_m(),
    /// Length inside, m.
    inside_m: f64 = |wire| wire.inside_m(),
    /// How it is joined to the tube, or None.
    bond: Option<BondArg> = |wire| match *wire.bond() {
        Bond::None => None,
        bond @ Bond::Wall { .. } => Some(BondArg::Wall(PyWallBond(bond))),
        bond @ Bond::Shield { .. } => Some(BondArg::Shield(PyBondedShield(bond))),
    },
});
parameter_methods!(PyThroughWire);

/// A tube through the wall, empty, with a dielectric rod on its axis, or with a conductor through it; a leak.
///
/// Parameters
/// ----------
/// guide : CircularGuide or RectangularGuide or HexagonalGuide
///     Its cross-section.
/// length_m : float
///     Its length, m.
/// rod : Rod, optional
///     A dielectric rod inside; thinner than the tube.
/// conductor : ThroughWire, optional
///     A conductor through it: the fault that undoes a tube. Not touching the wall.
///
/// Notes
/// -----
/// A rod makes the dominant mode hybrid; its propagation constant is exact in a round tube. The cross-section includes the two ends: the lowest mode of each symmetry, joined by mode matching to the half-space
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
    #[pyo3(signature = (guide, length_m, rod=None, conductor=None))]
    fn new(
        guide: GuideArg,
        length_m: f64,
        rod: Option<PyRod>,
        conductor: Option<PyThroughWire>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let tube = Tube::new(guide.into_core(), length_m)?;
        let tube = rod.map_or(Ok(tube.clone()), |rod| tube.with_rod(rod.0))?;
        Ok(Self(conductor.map_or(Ok(tube.clone()), |wire| tube.with_conductor(wire.0))?).into())
    }

    /// The same tube with a conductor through it.
    ///
    /// Parameters
    /// ----------
    /// conductor : ThroughWire
    ///     Not touching the wall.
    fn with_conductor(&self, py: Python<'_>, conductor: PyThroughWire) -> PyResult<Py<Self>> {
        Py::new(py, Self(self.0.clone().with_conductor(conductor.0)?))
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
    /// A conductor through it, or None.
    conductor: Option<PyThroughWire> = |tube| tube.conductor().copied().map(PyThroughWire),
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
        batch(py, "frequency_hz", &frequency_hz, 0.0, |f, out| {
            let responses = self.0.lattice_responses(f, angle_deg, azimuth_deg, polarization.0)?;
            for (db, response) in out.iter_mut().zip(&responses) {
                *db = if all_directions {
                    crate::decibel::loss_db_of_ln_power(response.ln_transmitted_power)
                } else {
                    response.transmission.shielding_db()
                };
            }
            Ok(())
        })
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

/// The air that flows through a vent.
///
/// Parameters
/// ----------
/// density_kg_per_m3 : float, default 1.204
///     Density; the default is dry air at 20 degC and 101325 Pa.
/// viscosity_pa_s : float, default 18.25e-6
///     Dynamic viscosity, Pa s.
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Air")]
#[derive(Clone, PartialEq)]
pub struct PyAir(pub Air);

#[pymethods]
impl PyAir {
    #[new]
    #[pyo3(signature = (density_kg_per_m3=1.204, viscosity_pa_s=18.25e-6))]
    fn new(density_kg_per_m3: f64, viscosity_pa_s: f64) -> PyResult<Self> {
        Ok(Self(Air::new(density_kg_per_m3, viscosity_pa_s)?))
    }
}

value_class!(PyAir, "Air" {
    /// Density, kg/m^3.
    density_kg_per_m3: f64 = |air| air.density_kg_per_m3(),
    /// Dynamic viscosity, Pa s.
    viscosity_pa_s: f64 = |air| air.viscosity_pa_s(),
});

/// Fresh air for people at the caller's figure for one person, m^3/s.
///
/// The figure comes from local code; ventilation of occupied rooms is designed by those who answer for it.
///
/// Parameters
/// ----------
/// people : int
///     How many.
/// per_person_m3_per_s : float
///     Fresh air for one, m^3/s (10 L/s is 0.010).
#[pyfunction]
pub fn fresh_air_m3_per_s(people: usize, per_person_m3_per_s: f64) -> PyResult<f64> {
    Ok(fresh_air(people, per_person_m3_per_s)?)
}

/// The vent panel with the target shielding and the least pressure drop.
///
/// Cells are like `like` in kind and wall, of any width below their cutoff, each panel as shallow as the target allows.
///
/// Parameters
/// ----------
/// like : HexagonalCell or SquareCell or RoundCell
///     Kind of cell and its wall.
/// target_db : float
///     Shielding under a plane wave along the normal, dB.
/// frequency_hz : float
///     Where it has to hold, and below, Hz.
/// flow_m3_per_s : float
///     Flow that has to pass, m^3/s.
/// size_m : (float, float)
///     Width and height of the face, m.
/// least_width_m : float, default 0.5e-3
///     Smallest cell that can be had, m.
/// greatest_depth_m : float, default 0.1
///     Greatest depth that can be had, m.
/// air : Air, optional
///     Room air where not given.
///
/// Raises
/// ------
/// UnreachableError
///     Where even the smallest cell at the greatest depth falls short; `best` tells what can be had.
#[pyfunction]
#[pyo3(signature = (like, target_db, frequency_hz, flow_m3_per_s, size_m, least_width_m=0.5e-3, greatest_depth_m=0.1, air=None))]
#[allow(clippy::too_many_arguments)]
pub fn size_vent(
    py: Python<'_>,
    like: CellArg,
    target_db: f64,
    frequency_hz: f64,
    flow_m3_per_s: f64,
    size_m: (f64, f64),
    least_width_m: f64,
    greatest_depth_m: f64,
    air: Option<PyAir>,
) -> PyResult<Py<PyHoneycombPanel>> {
    let task = VentTask { target_db, frequency_hz, flow_m3_per_s, size_m, least_width_m, greatest_depth_m };
    let (like, air) = (like.into_core(), air.map_or_else(Air::default, |air| air.0));
    let panel = py.detach(|| sizing::size_vent(&task, &like, &air))?;
    Py::new(py, PyHoneycombPanel(panel))
}

/// The shortest tube whose attenuation reaches a target, with what lies inside.
///
/// Parameters
/// ----------
/// guide : CircularGuide or RectangularGuide or HexagonalGuide
///     Its cross-section.
/// target_db : float
///     Attenuation over the length, without the ends, dB.
/// frequency_hz : float
///     Where it has to hold, Hz.
/// rod : Rod, optional
///     A dielectric rod inside.
/// greatest_length_m : float, default 1
///     Greatest length that can be had, m.
///
/// Raises
/// ------
/// UnreachableError
///     At or above cutoff, or where the tube would be longer than can be had.
#[pyfunction]
#[pyo3(signature = (guide, target_db, frequency_hz, rod=None, greatest_length_m=1.0))]
pub fn size_tube(
    py: Python<'_>,
    guide: GuideArg,
    target_db: f64,
    frequency_hz: f64,
    rod: Option<PyRod>,
    greatest_length_m: f64,
) -> PyResult<Py<PyTube>> {
    let rod = rod.map(|rod| rod.0);
    let tube = sizing::size_tube(guide.into_core(), rod, target_db, frequency_hz, greatest_length_m)?;
    Py::new(py, PyTube(tube))
}
