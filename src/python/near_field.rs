//! Sheets near a source: handbook splits, loop and rod tests, closed shells.

use std::sync::Arc;

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch, broadcast};
use super::class::{parameter_methods, value_class};
use super::error::warn_outside;
use super::material::PyMaterial;
use super::sheet::{LayerArg, PyLossSplit, PySheet};
use crate::error::check;
use crate::probe::{FieldRatio, LoopArrangement, LoopTest, RodTest};
use crate::sheet::{
    ClosedShell, HandbookField, NearSource, RoomEstimate, ShellShape,
    handbook_reflection_db as core_handbook_reflection_db, room_in_uniform_field as core_room_in_uniform_field,
    room_validity,
};
use crate::validity::Validity;
use crate::wave::Sheet;
use crate::{Error, Result};

/// Wave impedance broadside of a short rod ("dipole") or a small loop, ohm.
///
/// Parameters
/// ----------
/// source : {"dipole", "loop"}
///     The source.
/// frequency_hz : array_like
///     Frequency, Hz.
/// distance_m : array_like
///     Distance from the source, m; broadcasts with `frequency_hz`.
///
/// Returns
/// -------
/// complex or ndarray of complex
///     Joint shape. Tends to that of vacuum far away.
///
/// Notes
/// -----
/// S. A. Schelkunoff, *Electromagnetic Waves*, 1943, secs. 2.6 and 6.2 (from memory).
#[pyfunction]
pub fn near_wave_impedance_ohm(
    py: Python<'_>,
    source: &str,
    frequency_hz: RealArg<'_>,
    distance_m: RealArg<'_>,
) -> PyResult<Out<Complex64>> {
    let source = source.parse::<NearSource>()?;
    broadcast(py, ["frequency_hz", "distance_m"], [&frequency_hz, &distance_m], |[f, r]| {
        Ok(source.wave_impedance_ohm(check::frequency(f)?, check::positive("distance_m", "m", r)?))
    })
}

/// Absorption, reflection and re-reflection loss of a layer near a source: the handbook's approximation.
///
/// Parameters
/// ----------
/// source : {"dipole", "loop"}
///     The source.
/// material : Material
///     What the layer is made of.
/// thickness_m : array_like
///     Thickness, m.
/// frequency_hz : array_like
///     Frequency, Hz.
/// distance_m : array_like
///     Distance of source and layer, m. All three broadcast.
///
/// Returns
/// -------
/// LossSplit
///     Losses in dB, with the source's wave impedance outside, in the joint shape of the arguments.
///
/// Notes
/// -----
/// An approximation: a near field is not one plane wave. Against the exact `LoopTest` it reads 2 to 3
/// dB too high for loops above 10 kHz.
#[pyfunction]
pub fn near_split(
    py: Python<'_>,
    source: &str,
    material: PyMaterial,
    thickness_m: RealArg<'_>,
    frequency_hz: RealArg<'_>,
    distance_m: RealArg<'_>,
) -> PyResult<PyLossSplit> {
    let source = source.parse::<NearSource>()?;
    let names = ["thickness_m", "frequency_hz", "distance_m"];
    broadcast(py, names, [&thickness_m, &frequency_hz, &distance_m], |[t, f, r]| source.split(&material.0, t, f, r))
        .map(PyLossSplit)
}

/// Shielding of a layer near a source by the handbook's approximation, dB: the sum of `near_split`.
///
/// Parameters
/// ----------
/// source : {"dipole", "loop"}
///     The source.
/// material : Material
///     What the layer is made of.
/// thickness_m : array_like
///     Thickness, m.
/// frequency_hz : array_like
///     Frequency, Hz.
/// distance_m : array_like
///     Distance of source and layer, m. All three broadcast.
///
/// Returns
/// -------
/// float or ndarray
///     Joint shape of the arguments.
#[pyfunction]
pub fn near_shielding_db(
    py: Python<'_>,
    source: &str,
    material: PyMaterial,
    thickness_m: RealArg<'_>,
    frequency_hz: RealArg<'_>,
    distance_m: RealArg<'_>,
) -> PyResult<Out<f64>> {
    let source = source.parse::<NearSource>()?;
    let names = ["thickness_m", "frequency_hz", "distance_m"];
    broadcast(py, names, [&thickness_m, &frequency_hz, &distance_m], |[t, f, r]| {
        Ok(source.split(&material.0, t, f, r)?.total_db())
    })
}

/// Reflection loss by the closed forms of the shielding handbooks, dB.
///
/// Parameters
/// ----------
/// field : {"electric", "magnetic", "plane wave"}
///     Near a rod, near a loop, or far from any source.
/// material : Material
///     What the layer is made of; it must conduct.
/// frequency_hz : array_like
///     Frequency, Hz.
/// distance_m : array_like
///     Distance of source and layer, m; broadcasts with `frequency_hz`.
///
/// Returns
/// -------
/// float or ndarray
///     Joint shape. MIL-HDBK-419A vol. I (1987), ch. 8, with exact constants.
#[pyfunction]
pub fn handbook_reflection_db(
    py: Python<'_>,
    field: &str,
    material: PyMaterial,
    frequency_hz: RealArg<'_>,
    distance_m: RealArg<'_>,
) -> PyResult<Out<f64>> {
    let field = field.parse::<HandbookField>()?;
    broadcast(py, ["frequency_hz", "distance_m"], [&frequency_hz, &distance_m], |[f, r]| {
        core_handbook_reflection_db(field, &material.0, f, r)
    })
}

/// What both near-field tests offer: a slice of frequencies in, what is received through a sheet out.
fn read_test<T: numpy::Element + Copy>(
    py: Python<'_>,
    sheet: &PySheet,
    frequency_hz: &RealArg<'_>,
    zero: T,
    ratios: impl Fn(&dyn Sheet, &[f64]) -> Result<Vec<FieldRatio>> + Send + Sync,
    validity: impl Fn(f64) -> Validity,
    pick: impl Fn(&FieldRatio) -> T + Send + Sync,
) -> PyResult<Out<T>> {
    let sheet: Arc<dyn Sheet> = sheet.0.clone();
    let mut seen = Vec::new();
    let result = batch(py, "frequency_hz", frequency_hz, zero, |f, out| {
        for (value, found) in out.iter_mut().zip(ratios(&*sheet, f)?) {
            *value = pick(&found);
        }
        seen.extend_from_slice(f);
        Ok::<(), Error>(())
    })?;
    warn_outside(py, &seen, |f| validity(f).and(sheet.validity(f)))?;
    Ok(result)
}

/// Adds what `LoopTest` and `RodTest` share.
macro_rules! near_test_methods {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Shielding effectiveness that the test reads through an unbounded sheet, dB.
            ///
            /// Parameters
            /// ----------
            /// sheet : Sheet
            ///     The wall: any laminate.
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            ///
            /// Returns
            /// -------
            /// float or ndarray
            ///     Shape of `frequency_hz`.
            ///
            /// Warns
            /// -----
            /// DomainWarning
            ///     Once, if any frequency is outside the domain of the test or of the sheet.
            fn shielding_db(
                &self,
                py: Python<'_>,
                sheet: PyRef<'_, PySheet>,
                frequency_hz: RealArg<'_>,
            ) -> PyResult<Out<f64>> {
                let test = self.0;
                let ratios = |sheet: &dyn Sheet, f: &[f64]| test.field_ratios(sheet, f);
                read_test(
                    py,
                    &sheet,
                    &frequency_hz,
                    0.0,
                    ratios,
                    |f| test.validity(f),
                    |found| found.ratio.shielding_db(),
                )
            }

            /// Complex natural logarithm of the received field with the sheet over that without it.
            ///
            /// Parameters
            /// ----------
            /// sheet : Sheet
            ///     The wall: any laminate.
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            ///
            /// Returns
            /// -------
            /// complex or ndarray of complex
            ///     Shape of `frequency_hz`. Real part: minus the shielding in nepers.
            fn ln_ratio(
                &self,
                py: Python<'_>,
                sheet: PyRef<'_, PySheet>,
                frequency_hz: RealArg<'_>,
            ) -> PyResult<Out<Complex64>> {
                let test = self.0;
                let ratios = |sheet: &dyn Sheet, f: &[f64]| test.field_ratios(sheet, f);
                read_test(
                    py,
                    &sheet,
                    &frequency_hz,
                    Complex64::ZERO,
                    ratios,
                    |f| test.validity(f),
                    |found| found.ratio.ln(),
                )
            }

            /// Estimate of the relative error of the received field, from the quadrature.
            ///
            /// Parameters
            /// ----------
            /// sheet : Sheet
            ///     The wall: any laminate.
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            ///
            /// Returns
            /// -------
            /// float or ndarray
            ///     Shape of `frequency_hz`; not above 3e-9 inside the domain.
            fn relative_error(
                &self,
                py: Python<'_>,
                sheet: PyRef<'_, PySheet>,
                frequency_hz: RealArg<'_>,
            ) -> PyResult<Out<f64>> {
                let test = self.0;
                let ratios = |sheet: &dyn Sheet, f: &[f64]| test.field_ratios(sheet, f);
                read_test(py, &sheet, &frequency_hz, 0.0, ratios, |f| test.validity(f), |found| found.relative_error)
            }
        }
    };
}

/// Two loops, one on either side of a wall: what a magnetic test below some 20 MHz reads.
///
/// Parameters
/// ----------
/// arrangement : {"coaxial", "coplanar"}
///     Both loops parallel to the wall on one axis, or both in one plane across the wall.
/// source_radius_m : float
///     Radius of the source loop, m.
/// receiver_radius_m : float
///     Radius of the receiving loop, m; 0 is a point probe.
/// outside_m : float
///     Distance of the source's centre from the wall, m.
/// inside_m : float
///     Distance of the receiver's centre from the wall, m.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a radius or a distance outside its domain.
/// RelationError
///     For coplanar loops that touch the wall.
///
/// Notes
/// -----
/// Exact for a constant current around the loop and an unbounded wall, full-wave, to 1e-8 of the
/// received field. J. R. Moser, IEEE Trans. EMC 9 (1967) 6 for one layer (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> wall = sr.Laminate([(sr.materials.copper, 1e-3)])
/// >>> test = sr.LoopTest("coaxial", 0.15, 0.15, outside_m=0.3, inside_m=0.299)
/// >>> round(test.shielding_db(wall, 1e3), 2)
/// 34.17
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "LoopTest")]
#[derive(Clone, PartialEq)]
pub struct PyLoopTest(pub LoopTest);

#[pymethods]
impl PyLoopTest {
    #[new]
    #[pyo3(signature = (arrangement="coaxial", source_radius_m=0.15, receiver_radius_m=0.15, outside_m=0.3, inside_m=0.3))]
    fn new(
        arrangement: &str,
        source_radius_m: f64,
        receiver_radius_m: f64,
        outside_m: f64,
        inside_m: f64,
    ) -> PyResult<Self> {
        let arrangement = arrangement.parse::<LoopArrangement>()?;
        Ok(Self(LoopTest::new(arrangement, source_radius_m, receiver_radius_m, outside_m, inside_m)?))
    }
}

near_test_methods!(PyLoopTest);
value_class!(PyLoopTest, "LoopTest" {
    /// How the loops stand to the wall.
    arrangement: &'static str = |test| test.arrangement().name(),
    /// Radius of the source loop, m.
    source_radius_m: f64 = |test| test.source_radius_m(),
    /// Radius of the receiving loop, m.
    receiver_radius_m: f64 = |test| test.receiver_radius_m(),
    /// Distance of the source's centre from the wall, m.
    outside_m: f64 = |test| test.outside_m(),
    /// Distance of the receiver's centre from the wall, m.
    inside_m: f64 = |test| test.inside_m(),
});
parameter_methods!(PyLoopTest);

RodTest! {
    /// Two short rods normal to the wall, one on either side: what an electric test reads.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Exact for a triangular current and an unbounded wall, full-wave.
    class PyRodTest;
}

near_test_methods!(PyRodTest);

/// A closed shell in a uniform low-frequency magnetic field.
///
/// Parameters
/// ----------
/// shape : {"sphere", "cylinder across", "cylinder along"}
///     Shape, and direction of the field to the axis of a long cylinder.
/// inner_radius_m : float
///     Radius of the space inside, m.
/// layers : sequence of (Material, float)
///     Material and thickness in m of each layer, from inside out.
///
/// Notes
/// -----
/// Exact eddy currents and permeability in the layers, quasi-static field in the air. H. Kaden,
/// *Wirbelströme und Schirmung in der Nachrichtentechnik*, 2nd ed., 1959, and J. D. Jackson,
/// *Classical Electrodynamics*, sec. 5.12, are its limits (from memory).
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "ClosedShell")]
#[derive(Clone, PartialEq)]
pub struct PyClosedShell(pub ClosedShell);

#[pymethods]
impl PyClosedShell {
    #[new]
    fn new(shape: &str, inner_radius_m: f64, layers: Vec<LayerArg>) -> PyResult<Self> {
        let layers = layers.into_iter().map(LayerArg::into_core).collect::<PyResult<_>>()?;
        Ok(Self(ClosedShell::new(shape.parse::<ShellShape>()?, inner_radius_m, layers)?))
    }

    /// Shielding effectiveness in a uniform field, dB.
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
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, where the shell is not small against the wavelength.
    fn shielding_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let mut seen = Vec::new();
        let result = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
            seen.push(check::frequency(f)?);
            Ok(self.0.shielding_db(f))
        })?;
        warn_outside(py, &seen, |f| self.0.validity(f))?;
        Ok(result)
    }

    /// Field without the shell over the field inside, for a static field.
    #[getter]
    fn static_shielding_factor(&self) -> f64 {
        self.0.static_shielding_factor()
    }

    /// Outer radius, m.
    #[getter]
    fn outer_radius_m(&self) -> f64 {
        self.0.outer_radius_m()
    }
}

value_class!(PyClosedShell, "ClosedShell" {
    /// Shape and direction of the field.
    shape: &'static str = |shell| shell.shape().name(),
    /// Radius of the space inside, m.
    inner_radius_m: f64 = |shell| shell.inner_radius_m(),
    /// Material and thickness of each layer, from inside out.
    layers: Vec<LayerArg> = |shell| shell.layers().iter().map(LayerArg::from_core).collect(),
});
parameter_methods!(PyClosedShell);

/// Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field, dB.
///
/// Parameters
/// ----------
/// shielding_db, lowest_db, highest_db : array_like
///     The estimate and its bounds, dB; they broadcast.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.sheets", name = "RoomEstimate")]
#[derive(Clone, PartialEq)]
pub struct PyRoomEstimate(pub Out<RoomEstimate>);

#[pymethods]
impl PyRoomEstimate {
    #[new]
    #[pyo3(signature = (*, shielding_db, lowest_db, highest_db))]
    fn new(
        py: Python<'_>,
        shielding_db: RealArg<'_>,
        lowest_db: RealArg<'_>,
        highest_db: RealArg<'_>,
    ) -> PyResult<Self> {
        let names = ["shielding_db", "lowest_db", "highest_db"];
        let estimate =
            broadcast(py, names, [&shielding_db, &lowest_db, &highest_db], |[estimate, lowest, highest]| {
                Ok(RoomEstimate {
                    shielding_db: check::finite("shielding_db", "dB", estimate)?,
                    lowest_db: check::finite("lowest_db", "dB", lowest)?,
                    highest_db: check::finite("highest_db", "dB", highest)?,
                })
            })?;
        Ok(Self(estimate))
    }
}

value_class!(PyRoomEstimate, "RoomEstimate" {
    /// Of the sphere with the room's ratio of volume to surface, dB.
    shielding_db: Out<f64> = |estimate| estimate.map(|estimate| estimate.shielding_db),
    /// The lowest of the spheres from the inscribed to the circumscribed one, dB.
    lowest_db: Out<f64> = |estimate| estimate.map(|estimate| estimate.lowest_db),
    /// The highest of them, dB.
    highest_db: Out<f64> = |estimate| estimate.map(|estimate| estimate.highest_db),
});

/// Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field.
///
/// Parameters
/// ----------
/// interior_m : tuple of float
///     Length, width and height of the room, m.
/// layers : sequence of (Material, float)
///     Material and thickness in m of each layer of the wall, from inside out.
/// frequency_hz : array_like
///     Frequency, Hz.
///
/// Returns
/// -------
/// RoomEstimate
///     Of the sphere of radius 3 V/S, with the lowest and highest of all spheres between the
///     inscribed and the circumscribed one as bounds, in the shape of `frequency_hz`.
///
/// Warns
/// -----
/// DomainWarning
///     Once, where the room is not small against the wavelength.
///
/// Notes
/// -----
/// A room is not a sphere: an estimate for a plain closed box, without doors and seams.
#[pyfunction]
pub fn room_in_uniform_field(
    py: Python<'_>,
    interior_m: [f64; 3],
    layers: Vec<LayerArg>,
    frequency_hz: RealArg<'_>,
) -> PyResult<PyRoomEstimate> {
    let layers: Vec<_> = layers.into_iter().map(LayerArg::into_core).collect::<PyResult<_>>()?;
    let mut seen = Vec::new();
    let estimate = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
        seen.push(f);
        core_room_in_uniform_field(interior_m, &layers, f)
    })?;
    warn_outside(py, &seen, |f| room_validity(interior_m, f))?;
    Ok(PyRoomEstimate(estimate))
}
