//! Tubes through the wall and what lies inside: rods, wires, bonded shields.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch, broadcast};
use super::class::{parameter_methods, value_class};
use super::csv::TableText;
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use super::waveguide::{GuideArg, warn_frequencies};
use crate::Polarization;
use crate::error::check;
use crate::leak::Leak;
use crate::waveguide::{Bond, BraidTable, Rod, ThroughWire, Tube, rule};

Rod! {
    /// A round dielectric rod on the axis of a tube: an optical fibre, its jacket, a plastic tie, the water in a hose.
    ///
    /// Off the axis, or against the wall, it leaks less than on it. A cable with a metal strength member is no rod: a conductor in a tube has
    /// no cutoff. A wet, carbon-loaded or metallised jacket is a rod with loss, and passes a hundred decibels and more above a dry one.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// How much more a rod couples that stands out is a bound of our own on electrostatic finite elements (permittivity 2 to 1000, 0.1 to 0.95
    /// of the bore): 0 to 4 dB on the safe side at each end.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> fed = sr.Tube(sr.tubes.CircularGuide(6e-3), 36e-3, sr.tubes.Rod(3e-3, 5.0))
    /// >>> round(fed.attenuation_db(1e9)), round(fed.attenuation_db(1e9, order=1))
    /// (144, 192)
    class PyRod in tubes;
}

#[pymethods]
impl PyRod {
    /// What stands for several fibres alike, wherever they lie: one rod on the axis with the area of all.
    ///
    /// It passes more than the bundle (symmetrisation, from memory). The circle around the bundle is no such bound: a thicker rod of the same
    /// material may leak less. Where the number is unknown, a rod of 0.6 of the bore is the worst far below cutoff.
    ///
    /// Parameters
    /// ----------
    /// count : int
    ///     How many, at least one.
    /// fibre_diameter_m : float
    ///     Diameter of each, m.
    /// relative_permittivity : float
    ///     At least 1.
    /// loss_tangent : float, default 0
    ///     Zero or positive.
    /// outside_m, inside_m : float, default 0
    ///     Lengths that stand out of the tube's outer and inner end, m.
    #[staticmethod]
    #[pyo3(signature = (count, fibre_diameter_m, relative_permittivity, loss_tangent=0.0, outside_m=0.0, inside_m=0.0))]
    fn bundle(
        count: u32,
        fibre_diameter_m: f64,
        relative_permittivity: f64,
        loss_tangent: f64,
        outside_m: f64,
        inside_m: f64,
    ) -> PyResult<Self> {
        let rod = Rod::bundle(count, fibre_diameter_m, relative_permittivity)?.lossy(loss_tangent)?;
        Ok(Self(rod.standing_out(outside_m, inside_m)?))
    }
}

/// A bond of a conductor to the tube, at its outer end.
///
/// Parameters
/// ----------
/// resistance_ohm : float
///     Resistance of the bond, ohm.
/// inductance_h : float
///     Inductance of the bond, H.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "WallBond")]
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
        Bond::MeasuredShield { core_ohm, .. } => [0.0, 0.0, core_ohm],
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "BondedShield")]
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

/// The measured transfer impedance of a cable's braid, joined in log frequency and held beyond both ends.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, positive and increasing, at least two.
/// transfer_impedance_ohm_per_m : sequence of float
///     Moduli at these, ohm/m, positive.
/// phase_deg : sequence of float, optional
///     Phases at these, degrees, -90 to 90. Where not given the phase follows from the slope of the modulus.
/// scale_db : float, default 0
///     What is added to the table, dB of impedance: a knob for tolerances.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> braid = sr.tubes.BraidTable.from_csv("frequency_hz,transfer_impedance_ohm_per_m\n1e5,0.02\n1e7,0.02\n1e9,2\n")
/// >>> round(abs(braid.transfer_impedance(1e8)), 6)
/// 0.2
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "BraidTable")]
#[derive(Clone, PartialEq)]
pub struct PyBraidTable(pub BraidTable);

#[pymethods]
impl PyBraidTable {
    #[new]
    #[pyo3(signature = (frequency_hz, transfer_impedance_ohm_per_m, phase_deg=None, scale_db=0.0))]
    fn new(
        frequency_hz: Vec<f64>,
        transfer_impedance_ohm_per_m: Vec<f64>,
        phase_deg: Option<Vec<f64>>,
        scale_db: f64,
    ) -> PyResult<Self> {
        let table = BraidTable::new(frequency_hz, transfer_impedance_ohm_per_m)?.scaled(scale_db)?;
        Ok(Self(phase_deg.map_or(Ok(table.clone()), |phase_deg| table.with_phases(phase_deg))?))
    }

    /// A table from text.
    ///
    /// Parameters
    /// ----------
    /// text : str or pathlib.Path
    ///     Lines with commas, semicolons or tabs between the fields, the same in all, and a heading with `frequency_hz`,
    ///     `transfer_impedance_ohm_per_m` and perhaps `phase_deg`; without a heading the first two columns. Lines that
    ///     start with # are comments.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With the line that is at fault.
    #[staticmethod]
    fn from_csv(text: TableText) -> PyResult<Self> {
        Ok(Self(BraidTable::from_csv(&text.read()?)?))
    }

    /// The table as text, without the scale.
    fn to_csv(&self) -> String {
        self.0.to_csv()
    }

    /// Transfer impedance per length, ohm/m.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn transfer_impedance(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        let result = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(self.0.at(check::frequency(f)?)))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }
}

value_class!(PyBraidTable, "BraidTable" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |table| table.frequency_hz().to_vec(),
    /// Moduli at these, ohm/m.
    transfer_impedance_ohm_per_m: Vec<f64> = |table| table.transfer_impedance_ohm_per_m().to_vec(),
    /// Phases at these, degrees, or None.
    phase_deg: Option<Vec<f64>> = |table| table.phase_deg().map(<[f64]>::to_vec),
    /// What is added to the table, dB.
    scale_db: f64 = |table| table.scale_db(),
});

/// The shield of a cable, bonded to the tube all around, with its transfer impedance as measured.
///
/// Parameters
/// ----------
/// braid : BraidTable
///     Its transfer impedance.
/// core_ohm : float, default 50
///     Characteristic impedance of the cable, ohm.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "MeasuredShield")]
#[derive(Clone, PartialEq)]
pub struct PyMeasuredShield(pub (BraidTable, f64));

#[pymethods]
impl PyMeasuredShield {
    #[new]
    #[pyo3(signature = (braid, core_ohm=50.0))]
    fn new(braid: PyBraidTable, core_ohm: f64) -> PyResult<Self> {
        Bond::measured_shield(braid.0.clone(), core_ohm)?;
        Ok(Self((braid.0, core_ohm)))
    }
}

value_class!(PyMeasuredShield, "MeasuredShield" {
    /// Its transfer impedance.
    braid: PyBraidTable = |shield| PyBraidTable(shield.0.clone()),
    /// Characteristic impedance of the cable, ohm.
    core_ohm: f64 = |shield| shield.1,
});

/// Any bond.
#[derive(FromPyObject, IntoPyObject)]
pub enum BondArg {
    Wall(PyWallBond),
    Shield(PyBondedShield),
    Measured(PyMeasuredShield),
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
/// bond : WallBond or BondedShield or MeasuredShield, optional
///     How it is joined to the tube; not at all where not given.
///
/// Notes
/// -----
/// The ends are straight monopoles on the wall, as lossy open lines (E. Siegel, J. Labus, 1934). Real wires bend: the size
/// of the effect, within several dB.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.tubes", name = "ThroughWire")]
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
            Some(BondArg::Measured(PyMeasuredShield((braid, core_ohm)))) => Bond::measured_shield(braid, core_ohm)?,
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
    bond: Option<BondArg> = |wire| match wire.bond() {
        Bond::None => None,
        bond @ Bond::Wall { .. } => Some(BondArg::Wall(PyWallBond(bond.clone()))),
        bond @ Bond::Shield { .. } => Some(BondArg::Shield(PyBondedShield(bond.clone()))),
        Bond::MeasuredShield { braid, core_ohm } => {
            Some(BondArg::Measured(PyMeasuredShield((braid.clone(), *core_ohm))))
        }
    },
});
parameter_methods!(PyThroughWire);

Tube! {
    /// A tube through the wall, empty, with a dielectric rod on its axis, or with a conductor through it; a leak.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// With a rod the leak is the sum of two modes' powers, each with its own decay and its own ends: HE11, which far below cutoff decays as in
    /// the empty tube, and TM0, which a permittivity of 2 to 3 and more draws in, so that it is what leaks. Both are exact in a round tube; in
    /// square and hexagonal ones round tubes of the same cutoffs stand in, on the safe side. A full pipe (water: 78) is low in cutoff, a thick
    /// rod of water in a hose worse: a filled tube is no bound for a tube with a rod. A fibre cable with a metal strength member is both: the
    /// jacket the rod, the member the conductor.
    ///
    /// The cross-section includes the two ends: the lowest mode of each symmetry, joined by mode matching to the half-space and to the
    /// higher modes. Below cutoff that is the attenuation over the length plus the coupling of the ends; far above cutoff half of the
    /// open area. `directional_cross_section_m2` takes all modes, at one direction and polarization.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> tube = sr.Tube(sr.tubes.CircularGuide(6e-3), length_m=36e-3)
    /// >>> round(tube.attenuation_db(1e9), 1)
    /// 191.8
    class PyTube extends PyLeak;
}

#[pymethods]
impl PyTube {
    /// The same tube with a conductor through it.
    ///
    /// Parameters
    /// ----------
    /// conductor : ThroughWire
    ///     Not touching the wall.
    fn with_conductor(&self, py: Python<'_>, conductor: PyThroughWire) -> PyResult<Py<Self>> {
        Py::new(py, Self(self.0.clone().with_conductor(conductor.0)?))
    }

    /// Cutoff frequency, with a rod the lower of its two modes', Hz; set by the real part of the permittivity.
    #[getter]
    fn cutoff_hz(&self) -> f64 {
        self.0.cutoff_hz()
    }

    /// Cross-section under one plane wave, m^2, by full mode matching.
    ///
    /// All modes at both ends, in the limit of many: slower than `cross_section_m2`, and right also above the second mode's cutoff. A
    /// conductor in the tube adds what it takes as a straight monopole on the wall: TM waves, none along the normal.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz. Above ten times the cutoff of the empty tube, of a hexagon 2.5 times, it is blended into the geometric
    ///     limit and a warning says so.
    /// angle_deg : float, default 0
    ///     Angle from the normal, degrees, 0 to less than 90.
    /// azimuth_deg : float, default 0
    ///     Turn of the plane of incidence about the normal, degrees; from the width of a rectangle, from the axis through two
    ///     corners of a hexagon.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`: transmitted power over the power density of the wave. Far above cutoff it goes to the open
    ///     area times the cosine of the angle. `directional_error_db` estimates what it is off by.
    ///
    /// Raises
    /// ------
    /// StillroomError
    ///     Beyond those angles, and for a rectangle more than five times as long as wide.
    #[pyo3(signature = (frequency_hz, angle_deg=0.0, azimuth_deg=0.0, polarization=PolarizationArg(Polarization::Te)))]
    fn directional_cross_section_m2(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, f64::exp, |f| {
            self.0.directional_ln_cross_sections(f, angle_deg, azimuth_deg, polarization.0)
        })
    }

    /// The same in dB relative to 1 m^2, with no floor.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     As for `directional_cross_section_m2`.
    /// angle_deg, azimuth_deg : float, default 0
    ///     Degrees.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, angle_deg=0.0, azimuth_deg=0.0, polarization=PolarizationArg(Polarization::Te)))]
    fn directional_cross_section_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, db_of_ln, |f| {
            self.0.directional_ln_cross_sections(f, angle_deg, azimuth_deg, polarization.0)
        })
    }

    /// How far `directional_cross_section_db` is off by estimate, dB.
    ///
    /// The distance between the limits that three and two numbers of modes point to; the better of the two is what is given.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     As for `directional_cross_section_m2`.
    /// angle_deg, azimuth_deg : float, default 0
    ///     Degrees.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the face.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`; infinite where the geometric limit stands in.
    #[pyo3(signature = (frequency_hz, angle_deg=0.0, azimuth_deg=0.0, polarization=PolarizationArg(Polarization::Te)))]
    fn directional_error_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, std::convert::identity, |f| {
            self.0.directional_errors_db(f, angle_deg, azimuth_deg, polarization.0)
        })
    }

    /// Cross-section averaged over directions and polarizations, m^2, by full mode matching.
    ///
    /// The same quantity as `cross_section_m2`, with all modes, in the limit of many.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz; as for `directional_cross_section_m2`.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    fn matched_cross_section_m2(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, f64::exp, |f| self.0.matched_ln_cross_sections(f))
    }

    /// The same in dB relative to 1 m^2, with no floor.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz; as for `directional_cross_section_m2`.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    fn matched_cross_section_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, db_of_ln, |f| self.0.matched_ln_cross_sections(f))
    }

    /// How far `matched_cross_section_db` is off by estimate, dB, as for `directional_error_db`.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz; as for `directional_cross_section_m2`.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`; infinite where the geometric limit stands in.
    fn matched_error_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        self.matched(py, &frequency_hz, std::convert::identity, |f| self.0.matched_errors_db(f))
    }

    /// Attenuation over the length of the mode that decays least, without the ends, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// order : {0, 1}, optional
    ///     One mode alone: 0 the lowest TM mode (with a rod TM0), 1 the dominant one (with a rod HE11).
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, order=None))]
    fn attenuation_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>, order: Option<u32>) -> PyResult<Out<f64>> {
        let of = match order {
            None => Tube::attenuation_db,
            Some(0) => Tube::axial_attenuation_db,
            Some(1) => Tube::dominant_attenuation_db,
            Some(order) => {
                check::within("order", "", f64::from(order), (0.0, 1.0), "0 or 1")?;
                Tube::attenuation_db
            }
        };
        let result = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(of(&self.0, check::frequency(f)?)))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }
}

fn db_of_ln(ln: f64) -> f64 {
    -crate::decibel::loss_db_of_ln_power(ln)
}

impl PyTube {
    fn matched(
        &self,
        py: Python<'_>,
        frequency_hz: &RealArg<'_>,
        scale: fn(f64) -> f64,
        compute: impl Fn(&[f64]) -> crate::Result<Vec<f64>> + Send + Sync,
    ) -> PyResult<Out<f64>> {
        let result = batch(py, "frequency_hz", frequency_hz, 0.0, |f, out| {
            for (slot, value) in out.iter_mut().zip(compute(f)?) {
                *slot = scale(value);
            }
            Ok(())
        })?;
        warn_frequencies(py, frequency_hz, |f| self.0.matched_validity(f))?;
        Ok(result)
    }
}

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
