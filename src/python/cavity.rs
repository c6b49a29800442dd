//! A box with openings in its front.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{parameter_methods, value_class};
use super::error::warn_outside;
use super::material::PyMaterial;
use crate::cavity::{BenchBox, BoxOpening, BoxWave, InsideField, StripEquivalent};
use crate::error::{Error, Result, check};
use crate::validity::Validity;

/// A result for each frequency, with a warning outside the domain.
fn swept<T: Copy + Send + Sync>(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    zero: T,
    validity: impl Fn(f64) -> Validity,
    kernel: impl Fn(&[f64], &mut [T]) -> Result<()> + Send + Sync,
) -> PyResult<Out<T>> {
    let result = batch(py, "frequency_hz", frequency_hz, zero, |f, out| {
        check::frequencies(f)?;
        kernel(f, out)
    })?;
    warn_outside(py, &frequency_hz.read("frequency_hz")?.values(), validity)?;
    Ok(result)
}

/// A slot or rectangular hole in the front of a box.
///
/// Parameters
/// ----------
/// center_m : tuple[float, float]
///     Its centre along width and height, from the corner of the inner wall, m.
/// size_m : tuple[float, float]
///     Its sizes along width and height, m, positive.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.boxes", name = "BoxSlot")]
#[derive(Clone, PartialEq)]
pub struct PyBoxSlot(pub BoxOpening);

#[pymethods]
impl PyBoxSlot {
    #[new]
    fn new(center_m: [f64; 2], size_m: [f64; 2]) -> PyResult<Self> {
        Ok(Self(BoxOpening::rectangle(center_m, size_m)?))
    }
}

value_class!(PyBoxSlot, "BoxSlot" {
    /// Its centre along width and height, m.
    center_m: (f64, f64) = |slot| slot.center_m().into(),
    /// Its sizes along width and height, m.
    size_m: (f64, f64) = |slot| slot.size_m().into(),
});

/// A round hole in the front of a box.
///
/// Parameters
/// ----------
/// center_m : tuple[float, float]
///     Its centre along width and height, from the corner of the inner wall, m.
/// diameter_m : float
///     Diameter, m, positive.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.boxes", name = "BoxHole")]
#[derive(Clone, PartialEq)]
pub struct PyBoxHole(pub BoxOpening);

#[pymethods]
impl PyBoxHole {
    #[new]
    fn new(center_m: [f64; 2], diameter_m: f64) -> PyResult<Self> {
        Ok(Self(BoxOpening::round(center_m, diameter_m)?))
    }
}

value_class!(PyBoxHole, "BoxHole" {
    /// Its centre along width and height, m.
    center_m: (f64, f64) = |hole| hole.center_m().into(),
    /// Diameter, m.
    diameter_m: f64 = |hole| hole.size_m()[0],
});

/// An opening in the front of a box.
#[derive(FromPyObject, IntoPyObject)]
pub enum OpeningArg {
    Slot(PyBoxSlot),
    Hole(PyBoxHole),
}

impl OpeningArg {
    fn from_core(opening: &BoxOpening) -> Self {
        if opening.is_round() { Self::Hole(PyBoxHole(*opening)) } else { Self::Slot(PyBoxSlot(*opening)) }
    }

    fn into_core(self) -> PyResult<BoxOpening> {
        Ok(match self {
            Self::Slot(slot) => slot.0,
            Self::Hole(hole) => hole.0,
        })
    }
}

/// A rectangular box with openings in its front, under a plane wave that falls on it straight or runs along it.
///
/// x runs along the width of the front, y along its height, z from it into the depth; the origin is a corner of the
/// front inside. The front is whichever wall has the openings: for a slot in the top of a box, give the box
/// with its top as the front, and points and waves turned with it.
///
/// Parameters
/// ----------
/// interior_m : tuple[float, float, float]
///     Width, height and depth inside, m, from 1 mm to 100 m and within 100 : 1 of each other.
/// openings : sequence of BoxSlot or BoxHole
///     Openings in the front, at least one; within the front and apart from each other.
/// wall_thickness_m : float, default 0
///     Thickness of the front, m.
/// walls : Material, default aluminium
///     What the walls are made of: their loss inside.
/// contents_quality_factor : float, optional
///     Quality factor that what is in the box would give every mode by itself, 0.5 or more; an empty box
///     where not given.
///
/// Raises
/// ------
/// RelationError
///     For an opening that reaches beyond the front or overlaps another, with their numbers.
///
/// Notes
/// -----
/// Every opening carries up to three half-waves of voltage along its longer side, one along the other, and the
/// potential that an electric field on the wall drives. They meet the half-space in front, the modes of the box
/// with their loss, and each other on both sides. The front is taken as part of an endless plane:
/// where a real front is small against the wavelength the field on it differs by some decibels. Shielding is
/// of the magnitude of the whole field at the point, and negative where that is above the incident one.
///
/// Waves: `travel` "+z" falls straight on the front, with `polarization` "y" or "x"; "+x", "-x", "+y" and "-y" run
/// along the front, with `polarization` "z". A wave along the front with its electric field along it too leaves
/// nothing on an endless plane, and one from behind does not reach it: both are refused.
///
/// Openings are in one wall at a time.
///
/// Examples
/// --------
/// >>> import numpy as np, stillroom as sr
/// >>> slot = sr.boxes.BoxSlot(center_m=(0.15, 0.06), size_m=(0.1, 5e-3))
/// >>> bench = sr.BenchBox((0.3, 0.12, 0.3), [slot], wall_thickness_m=1.5e-3)
/// >>> f = np.linspace(690e6, 710e6, 201)
/// >>> bool(bench.electric_shielding_db(f, at_m=(0.15, 0.06, 0.15)).min() < 0)
/// True
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "BenchBox")]
#[derive(Clone, PartialEq)]
pub struct PyBenchBox(pub BenchBox);
parameter_methods!(PyBenchBox);

#[pymethods]
impl PyBenchBox {
    #[new]
    #[pyo3(signature = (interior_m, openings, wall_thickness_m=0.0, walls=None, contents_quality_factor=None))]
    fn new(
        interior_m: [f64; 3],
        openings: Vec<OpeningArg>,
        wall_thickness_m: f64,
        walls: Option<PyMaterial>,
        contents_quality_factor: Option<f64>,
    ) -> PyResult<Self> {
        let bench =
            BenchBox::new(interior_m, openings.into_iter().map(OpeningArg::into_core).collect::<PyResult<_>>()?)?
                .with_wall_thickness(wall_thickness_m)?
                .with_contents_quality(contents_quality_factor)?;
        Ok(Self(match walls {
            Some(walls) => bench.with_walls(walls.0),
            None => bench,
        }))
    }

    /// Shielding of the electric field at a point, dB; negative where it is above the incident one.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// at_m : tuple[float, float, float]
    ///     The point, m, within the box.
    /// polarization : {"y", "x", "z"}
    ///     Axis of the incident electric field.
    /// travel : {"+z", "+x", "-x", "+y", "-y"}
    ///     Where the wave goes: straight on the front, or along it with polarization "z".
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, outside the domain.
    #[pyo3(signature = (frequency_hz, at_m, polarization="y", travel="+z"))]
    fn electric_shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        at_m: [f64; 3],
        polarization: &str,
        travel: &str,
    ) -> PyResult<Out<f64>> {
        self.each(py, &frequency_hz, at_m, (travel, polarization), 0.0, |field| field.electric_shielding_db())
    }

    /// Shielding of the magnetic field at a point, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// at_m : tuple[float, float, float]
    ///     The point, m, within the box.
    /// polarization : {"y", "x", "z"}
    ///     Axis of the incident electric field.
    /// travel : {"+z", "+x", "-x", "+y", "-y"}
    ///     Where the wave goes: straight on the front, or along it with polarization "z".
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    #[pyo3(signature = (frequency_hz, at_m, polarization="y", travel="+z"))]
    fn magnetic_shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        at_m: [f64; 3],
        polarization: &str,
        travel: &str,
    ) -> PyResult<Out<f64>> {
        self.each(py, &frequency_hz, at_m, (travel, polarization), 0.0, |field| field.magnetic_shielding_db())
    }

    /// One component of the field at a point, over the incident field of its kind.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// at_m : tuple[float, float, float]
    ///     The point, m, within the box.
    /// component : {"ex", "ey", "ez", "hx", "hy", "hz"}
    ///     Electric or magnetic, and its axis.
    /// polarization : {"y", "x", "z"}
    ///     Axis of the incident electric field.
    /// travel : {"+z", "+x", "-x", "+y", "-y"}
    ///     Where the wave goes: straight on the front, or along it with polarization "z".
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`; the incident wave has phase zero at the origin, a corner of the front.
    #[pyo3(signature = (frequency_hz, at_m, component, polarization="y", travel="+z"))]
    fn field(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        at_m: [f64; 3],
        component: &str,
        polarization: &str,
        travel: &str,
    ) -> PyResult<Out<Complex64>> {
        const COMPONENTS: [&str; 6] = ["ex", "ey", "ez", "hx", "hy", "hz"];
        let place = COMPONENTS.iter().position(|name| *name == component).ok_or_else(|| Error::UnknownName {
            kind: "component".into(),
            name: component.to_owned(),
            known: COMPONENTS.map(str::to_owned).to_vec(),
        })?;
        let pick = move |field: InsideField| if place < 3 { field.electric[place] } else { field.magnetic[place - 3] };
        self.each(py, &frequency_hz, at_m, (travel, polarization), Complex64::default(), pick)
    }

    /// Resonance of the closed box without loss, Hz.
    ///
    /// Parameters
    /// ----------
    /// half_waves : tuple[int, int, int]
    ///     Half-waves along width, height and depth.
    fn resonance_hz(&self, half_waves: [usize; 3]) -> f64 {
        self.0.resonance_hz(half_waves)
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
}

impl PyBenchBox {
    fn each<T: Copy + Send + Sync>(
        &self,
        py: Python<'_>,
        frequency_hz: &RealArg<'_>,
        at_m: [f64; 3],
        (travel, polarization): (&str, &str),
        zero: T,
        pick: impl Fn(InsideField) -> T + Send + Sync,
    ) -> PyResult<Out<T>> {
        let probe = self.0.probe(at_m, BoxWave::from_names(travel, polarization)?)?;
        swept(
            py,
            frequency_hz,
            zero,
            |f| self.0.validity(f),
            |f, out| {
                probe.sweep(f, out, &pick);
                Ok(())
            },
        )
    }
}

value_class!(PyBenchBox, "BenchBox" {
    /// Width, height and depth inside, m.
    interior_m: (f64, f64, f64) = |bench| bench.interior_m().into(),
    /// Openings in the front.
    openings: Vec<OpeningArg> = |bench| bench.openings().iter().map(OpeningArg::from_core).collect(),
    /// Thickness of the front, m.
    wall_thickness_m: f64 = |bench| bench.wall_thickness_m(),
    /// What the walls are made of.
    walls: PyMaterial = |bench| PyMaterial(bench.walls().clone()),
    /// Quality factor of what is in the box, or None.
    contents_quality_factor: Option<f64> = |bench| bench.contents_quality(),
});

/// The equivalent circuit that is published for a box with one slot in the middle of its front.
///
/// The slot is a shorted coplanar strip line, the box a shorted guide in its lowest mode, without loss. For
/// comparison beside `BenchBox`.
///
/// Parameters
/// ----------
/// interior_m : tuple[float, float, float]
///     Width, height and depth inside, m.
/// slot_m : tuple[float, float]
///     Length (along the width) and width of the slot, m.
/// wall_thickness_m : float, default 0
///     Thickness of the front, m.
///
/// Notes
/// -----
/// M. P. Robinson et al., "Analytical formulation for the shielding effectiveness of enclosures with
/// apertures", IEEE Trans. Electromagn. Compat. 40 (1998) 240 (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> circuit = sr.boxes.StripEquivalent((0.3, 0.12, 0.3), (0.1, 5e-3), wall_thickness_m=1.5e-3)
/// >>> round(circuit.electric_shielding_db(400e6, distance_m=0.15), 1)
/// 36.8
#[pyclass(frozen, eq, from_py_object, module = "stillroom.boxes", name = "StripEquivalent")]
#[derive(Clone, PartialEq)]
pub struct PyStripEquivalent(pub StripEquivalent);
parameter_methods!(PyStripEquivalent);

#[pymethods]
impl PyStripEquivalent {
    #[new]
    #[pyo3(signature = (interior_m, slot_m, wall_thickness_m=0.0))]
    fn new(interior_m: [f64; 3], slot_m: [f64; 2], wall_thickness_m: f64) -> PyResult<Self> {
        Ok(Self(StripEquivalent::new(interior_m, slot_m, wall_thickness_m)?))
    }

    /// Electric shielding at a distance from the front, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// distance_m : float
    ///     Distance from the front, m, within the box.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    fn electric_shielding_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>, distance_m: f64) -> PyResult<Out<f64>> {
        self.each(py, &frequency_hz, distance_m, |pair| pair.0)
    }

    /// Magnetic shielding at a distance from the front, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// distance_m : float
    ///     Distance from the front, m, within the box.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`.
    fn magnetic_shielding_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>, distance_m: f64) -> PyResult<Out<f64>> {
        self.each(py, &frequency_hz, distance_m, |pair| pair.1)
    }

    /// Impedance of the slot as a strip line, ohm.
    #[getter]
    fn line_impedance_ohm(&self) -> f64 {
        self.0.line_impedance_ohm()
    }
}

impl PyStripEquivalent {
    fn each(
        &self,
        py: Python<'_>,
        frequency_hz: &RealArg<'_>,
        distance_m: f64,
        pick: fn((f64, f64)) -> f64,
    ) -> PyResult<Out<f64>> {
        swept(
            py,
            frequency_hz,
            0.0,
            |f| self.0.validity(f),
            |f, out| {
                out.iter_mut().zip(f).try_for_each(|(out, &f)| {
                    *out = pick(self.0.shielding_db(f, distance_m)?);
                    Ok(())
                })
            },
        )
    }
}

value_class!(PyStripEquivalent, "StripEquivalent" {
    /// Width, height and depth inside, m.
    interior_m: (f64, f64, f64) = |strip| strip.interior_m().into(),
    /// Length and width of the slot, m.
    slot_m: (f64, f64) = |strip| strip.slot_m().into(),
    /// Thickness of the front, m.
    wall_thickness_m: f64 = |strip| strip.wall_thickness_m(),
});
