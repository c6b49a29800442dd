//! Tubes through the wall and what lies inside: rods, wires, bonded shields.

use pyo3::prelude::*;

use super::array::{Out, RealArg, broadcast};
use super::class::{leak_class, parameter_methods, value_class};
use super::leak::PyLeak;
use super::waveguide::{GuideArg, warn_frequencies};
use crate::error::check;
use crate::leak::Leak;
use crate::waveguide::{Bond, Rod, ThroughWire, Tube, rule};

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
