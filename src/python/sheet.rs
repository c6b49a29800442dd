//! Sheets and laminates.

use std::sync::Arc;

use num_complex::Complex64;
use numpy::Element;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch_columns, broadcast};
use super::class::{parameter_methods, value_class};
use super::error::warn_outside;
use super::material::PyMaterial;
use super::wave::{PolarizationArg, PyPlaneWave};
use crate::decibel::DB_PER_NEPER;
use crate::error::check;
use crate::lanes::Column;
use crate::sheet::{
    Fabric, Laminate, Layer, LossSplit, PerforatedSheet, WireMesh, Z275_ZINC_M,
    galvanised_steel as core_galvanised_steel, perforated_rule_db,
};
use crate::wave::{Sheet, Waves};
use crate::{PlaneWave, Polarization};

/// Anything flat that a wave goes through as a whole; the base class of laminates.
#[pyclass(frozen, subclass, module = "stillroom", name = "Sheet")]
pub struct PySheet(pub Arc<dyn Sheet>);

#[pymethods]
impl PySheet {
    /// Shielding effectiveness under a plane wave, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// angle_deg : array_like, default 0
    ///     Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the sheet.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Joint shape of the arguments; positive where the field behind is weaker.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if any frequency is outside the sheet's domain.
    #[pyo3(signature = (frequency_hz, angle_deg=None, polarization=PolarizationArg(Polarization::Te)))]
    fn shielding_db(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: Option<RealArg<'_>>,
        polarization: PolarizationArg,
    ) -> PyResult<Out<f64>> {
        let sheet = &*self.0;
        let result = waves(py, &frequency_hz, angle_deg.as_ref(), 0.0, |waves, out| {
            sheet.ln_moduli(waves, polarization.0, out);
            out.iter_mut().for_each(|ln| *ln *= -DB_PER_NEPER);
        })?;
        warn_sheet(py, sheet, &frequency_hz)?;
        Ok(result)
    }

    /// Complex natural logarithm of the transmission (tangential electric field behind over incident).
    ///
    /// Parameters
    /// ----------
    /// frequency_hz, angle_deg, polarization
    ///     As for `shielding_db`.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Real part: minus the loss in nepers. Imaginary part: phase in radians, not unwrapped.
    #[pyo3(signature = (frequency_hz, angle_deg=None, polarization=PolarizationArg(Polarization::Te)))]
    fn ln_transmission(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: Option<RealArg<'_>>,
        polarization: PolarizationArg,
    ) -> PyResult<Out<Complex64>> {
        let sheet = &*self.0;
        let result = waves(py, &frequency_hz, angle_deg.as_ref(), Complex64::ZERO, |waves, out| {
            sheet.transmissions(waves, polarization.0, out);
        })?;
        warn_sheet(py, sheet, &frequency_hz)?;
        Ok(result)
    }

    /// Whole thickness, m.
    #[getter]
    fn thickness_m(&self) -> f64 {
        self.0.thickness_m()
    }
}

/// Joint broadcasting of frequency and angle (0 where not given) to a batch of waves.
fn waves<T: Element + Copy>(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    angle_deg: Option<&RealArg<'_>>,
    zero: T,
    kernel: impl Fn(&Waves<'_>, &mut [T]) + Send + Sync,
) -> PyResult<Out<T>> {
    let checked = |frequency_hz: Column<'_>, angle_deg: Column<'_>, out: &mut [T]| {
        match frequency_hz {
            Column::Same(frequency_hz) => check::frequency(frequency_hz).map(drop)?,
            Column::Each(frequencies_hz) => check::frequencies(frequencies_hz)?,
        }
        angle_deg.check(|angle_deg| check::incidence_angle("angle_deg", angle_deg))?;
        kernel(&Waves::from_columns(out.len(), frequency_hz, angle_deg), out);
        Ok(())
    };
    match angle_deg {
        None => batch_columns(py, ["frequency_hz"], [frequency_hz], zero, |[frequency_hz], out| {
            checked(frequency_hz, Column::Same(0.0), out)
        }),
        Some(angle_deg) => {
            let (names, args) = (["frequency_hz", "angle_deg"], [frequency_hz, angle_deg]);
            batch_columns(py, names, args, zero, |[frequency_hz, angle_deg], out| checked(frequency_hz, angle_deg, out))
        }
    }
}

/// Warns once if a sheet was asked outside its domain.
pub fn warn_sheet(py: Python<'_>, sheet: &dyn Sheet, frequency_hz: &RealArg<'_>) -> PyResult<()> {
    let read = frequency_hz.read("frequency_hz")?;
    warn_outside(py, &read.values(), |f| sheet.validity(f))
}

/// A film so thin that only its sheet resistance counts.
///
/// Parameters
/// ----------
/// sheet_resistance_ohm : float
///     Sheet resistance, ohm per square, positive.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.sheets", name = "Film")]
#[derive(Clone, PartialEq)]
pub struct PyFilm(pub f64);

#[pymethods]
impl PyFilm {
    #[new]
    fn new(sheet_resistance_ohm: f64) -> PyResult<Self> {
        Layer::film(sheet_resistance_ohm)?;
        Ok(Self(sheet_resistance_ohm))
    }
}

value_class!(PyFilm, "Film" {
    /// Sheet resistance, ohm per square.
    sheet_resistance_ohm: f64 = |film| *film,
});

WireMesh! {
    /// A bonded square mesh of round wires, a layer of a laminate.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Sheet impedance by K. F. Casey, IEEE Trans. EMC 30 (1988) 298 (abstract read, equations from
    /// memory). Holds while the pitch is below a quarter wavelength and the crossings are bonded; unbonded
    /// crossings leak more, and no closed form knows how much.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> screen = sr.Laminate([sr.sheets.WireMesh(1.3e-3, 0.25e-3, sr.materials.copper)])
    /// >>> round(screen.shielding_db(100e6), 2)
    /// 62.99
    class PyWireMesh in sheets;
}

#[pymethods]
impl PyWireMesh {
    /// Sheet inductance of the openings, H per square.
    #[getter]
    fn sheet_inductance_h(&self) -> f64 {
        self.0.sheet_inductance_h()
    }

    /// Internal impedance of the wire per length, ohm/m.
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
    fn wire_impedance_ohm_per_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
            Ok(self.0.wire_impedance_ohm_per_m(check::frequency(f)?))
        })
    }
}

PerforatedSheet! {
    /// A metal sheet with round holes, a layer of a laminate.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Dipoles in a lattice behind tubes below cutoff; T. Y. Otoshi, IEEE Trans. MTT 20 (1972) 235 is
    /// the limit of few small holes (from memory). The metal itself is taken as opaque.
    class PyPerforatedSheet in sheets;
}

#[pymethods]
impl PyPerforatedSheet {
    /// Share of the sheet that is open.
    #[getter]
    fn open_fraction(&self) -> f64 {
        self.0.open_fraction()
    }

    /// The handbook formula at normal incidence, 20 lg(3 A wavelength/(2 pi d^3)) + 32 t/d, dB.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// float or ndarray
    ///     Shape of `frequency_hz`. For comparison: few small holes, no end correction of the depth.
    fn rule_db(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(perforated_rule_db(&self.0, check::frequency(f)?)))
    }
}

/// A woven conductive fabric, a layer of a laminate.
///
/// Parameters
/// ----------
/// sheet_resistance_ohm : float
///     Measured sheet resistance, ohm per square.
/// yarn_pitch_m : float
///     Distance of yarns, centre to centre, m.
/// yarn_diameter_m : float
///     Diameter of a yarn, m, smaller than the pitch.
///
/// Notes
/// -----
/// The resistance with the inductance of the openings of a mesh (K. F. Casey 1988, from memory).
/// Holds while the pitch is below a quarter wavelength.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.sheets", name = "Fabric")]
#[derive(Clone, PartialEq)]
pub struct PyFabric(pub Fabric);

#[pymethods]
impl PyFabric {
    #[new]
    fn new(sheet_resistance_ohm: f64, yarn_pitch_m: f64, yarn_diameter_m: f64) -> PyResult<Self> {
        Ok(Self(Fabric::new(sheet_resistance_ohm, yarn_pitch_m, yarn_diameter_m)?))
    }
}

value_class!(PyFabric, "Fabric" {
    /// Sheet resistance, ohm per square.
    sheet_resistance_ohm: f64 = |fabric| fabric.sheet_resistance_ohm(),
    /// Distance of yarns, centre to centre, m.
    yarn_pitch_m: f64 = |fabric| fabric.yarn_pitch_m(),
    /// Diameter of a yarn, m.
    yarn_diameter_m: f64 = |fabric| fabric.yarn_diameter_m(),
});
parameter_methods!(PyFabric);

/// A member of a laminate: (material, thickness in m), a film, a mesh, a perforated sheet or a fabric.
#[derive(FromPyObject, IntoPyObject)]
pub enum LayerArg {
    Slab((PyMaterial, f64)),
    Film(PyFilm),
    Mesh(PyWireMesh),
    Perforated(PyPerforatedSheet),
    Fabric(PyFabric),
}

impl LayerArg {
    pub fn from_core(layer: &Layer) -> Self {
        match layer {
            Layer::Slab { material, thickness_m } => Self::Slab((PyMaterial(material.clone()), *thickness_m)),
            Layer::Film { sheet_resistance_ohm } => Self::Film(PyFilm(*sheet_resistance_ohm)),
            Layer::Mesh(mesh) => Self::Mesh(PyWireMesh(mesh.clone())),
            Layer::Perforated(sheet) => Self::Perforated(PyPerforatedSheet(sheet.clone())),
            Layer::Fabric(fabric) => Self::Fabric(PyFabric(*fabric)),
        }
    }

    pub fn into_core(self) -> PyResult<Layer> {
        Ok(match self {
            Self::Slab((material, thickness_m)) => Layer::Slab { material: material.0, thickness_m },
            Self::Film(film) => Layer::Film { sheet_resistance_ohm: film.0 },
            Self::Mesh(mesh) => Layer::Mesh(mesh.0),
            Self::Perforated(sheet) => Layer::Perforated(sheet.0),
            Self::Fabric(fabric) => Layer::Fabric(fabric.0),
        })
    }
}

/// Layers of a galvanised sheet: zinc, steel, zinc.
///
/// Parameters
/// ----------
/// steel_m : float
///     Thickness of the steel, m. It is the catalogue's, ordinary low-carbon sheet.
/// zinc_m : float, default 19.26e-6
///     Thickness of zinc on each face, m; the default is that of a coating of 275 g/m^2 in all (Z275, G90).
///
/// Returns
/// -------
/// list of (Material, float)
///     For a `Laminate` or a `ClosedShell`.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> wall = sr.Laminate(sr.sheets.galvanised_steel(0.5e-3))
#[pyfunction]
#[pyo3(signature = (steel_m, zinc_m=Z275_ZINC_M))]
pub fn galvanised_steel(steel_m: f64, zinc_m: f64) -> PyResult<Vec<LayerArg>> {
    Ok(core_galvanised_steel(steel_m, zinc_m)?.iter().map(LayerArg::from_core).collect())
}

/// A stack of plane layers, the first facing the wave.
///
/// Parameters
/// ----------
/// layers : sequence of (Material, float), Film, WireMesh, PerforatedSheet or Fabric
///     Each layer as a material and its thickness in m, a film by its sheet resistance, a wire mesh, a
///     perforated sheet or a fabric.
///
/// Raises
/// ------
/// EmptyError
///     For no layers.
/// OutOfRangeError
///     For a thickness that is not positive and finite; `quantity` names the layer.
///
/// Notes
/// -----
/// Shielding is -20 log10 |T| by a recursion that never overflows. The layers are unbounded: real
/// panels join their faces at the edges, so for two metal faces this is an upper bound. Source:
/// W. C. Chew, *Waves and Fields in Inhomogeneous Media*, 1990, sec. 2.1.3 (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> sheet = sr.Laminate([(sr.materials.copper, 20 * 25.4e-6)])
/// >>> round(sheet.shielding_db(1e6), 1)
/// 174.9
#[pyclass(frozen, eq, from_py_object, extends = PySheet, module = "stillroom", name = "Laminate")]
#[derive(Clone, PartialEq)]
pub struct PyLaminate(pub Laminate);

impl From<PyLaminate> for PyClassInitializer<PyLaminate> {
    fn from(laminate: PyLaminate) -> Self {
        PyClassInitializer::from(PySheet(Arc::new(laminate.0.clone()))).add_subclass(laminate)
    }
}

#[pymethods]
impl PyLaminate {
    #[new]
    fn new(layers: Vec<LayerArg>) -> PyResult<PyClassInitializer<Self>> {
        Ok(Self(Laminate::new(layers.into_iter().map(LayerArg::into_core).collect::<PyResult<_>>()?)?).into())
    }

    /// Reflected over incident tangential electric field.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// angle_deg : array_like, default 0
    ///     Angle from the normal, degrees, 0 to less than 90; broadcasts with `frequency_hz`.
    /// polarization : {"te", "tm"}, default "te"
    ///     Which field lies in the sheet.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Joint shape of the arguments.
    #[pyo3(signature = (frequency_hz, angle_deg=None, polarization=PolarizationArg(Polarization::Te)))]
    fn reflection(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        angle_deg: Option<RealArg<'_>>,
        polarization: PolarizationArg,
    ) -> PyResult<Out<Complex64>> {
        let result = waves(py, &frequency_hz, angle_deg.as_ref(), Complex64::ZERO, |waves, out| {
            self.0.reflections(waves, polarization.0, out);
        })?;
        warn_sheet(py, &self.0, &frequency_hz)?;
        Ok(result)
    }

    /// Absorption, reflection and re-reflection loss of a single layer.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// wave : PlaneWave, optional
    ///     The wave; along the normal where not given.
    ///
    /// Returns
    /// -------
    /// LossSplit or None
    ///     Losses in the shape of `frequency_hz`. None for several layers or a film, which have no such
    ///     split.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if any frequency is outside the domain of the layer's material.
    ///
    /// Notes
    /// -----
    /// S. A. Schelkunoff, *Electromagnetic Waves*, 1943, sec. 8.18 (from memory). The re-reflection
    /// loss is negative for thin sheets: never leave it out.
    #[pyo3(signature = (frequency_hz, wave=None))]
    fn split(
        &self,
        py: Python<'_>,
        frequency_hz: RealArg<'_>,
        wave: Option<PyPlaneWave>,
    ) -> PyResult<Option<PyLossSplit>> {
        let wave = wave.map_or_else(PlaneWave::normal, |wave| wave.0);
        let mut has_split = true;
        let losses = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
            let split = self.0.split(check::frequency(f)?, &wave);
            has_split &= split.is_some();
            Ok(split.unwrap_or_default())
        })?;
        if !has_split {
            return Ok(None);
        }
        warn_sheet(py, &self.0, &frequency_hz)?;
        Ok(Some(PyLossSplit(losses)))
    }

    /// The same stack seen from its other side.
    fn reversed(&self, py: Python<'_>) -> PyResult<Py<Self>> {
        Py::new(py, Self(self.0.reversed()))
    }
}

value_class!(PyLaminate, "Laminate" {
    /// The layers, from the side of the wave.
    layers: Vec<LayerArg> = |laminate| laminate.layers().iter().map(LayerArg::from_core).collect(),
});
parameter_methods!(PyLaminate);

/// The three losses of a single layer, dB; their sum is its shielding effectiveness.
///
/// Parameters
/// ----------
/// absorption_db, reflection_db, re_reflection_db : array_like
///     The losses, dB; they broadcast.
#[pyclass(frozen, eq, module = "stillroom.sheets", name = "LossSplit")]
#[derive(Clone, PartialEq)]
pub struct PyLossSplit(pub Out<LossSplit>);

#[pymethods]
impl PyLossSplit {
    #[new]
    #[pyo3(signature = (*, absorption_db, reflection_db, re_reflection_db))]
    fn new(
        py: Python<'_>,
        absorption_db: RealArg<'_>,
        reflection_db: RealArg<'_>,
        re_reflection_db: RealArg<'_>,
    ) -> PyResult<Self> {
        let names = ["absorption_db", "reflection_db", "re_reflection_db"];
        let losses = broadcast(py, names, [&absorption_db, &reflection_db, &re_reflection_db], |[a, r, b]| {
            Ok(LossSplit {
                absorption_db: check::finite("absorption_db", "dB", a)?,
                reflection_db: check::finite("reflection_db", "dB", r)?,
                re_reflection_db: check::finite("re_reflection_db", "dB", b)?,
            })
        })?;
        Ok(Self(losses))
    }

    /// The sum, dB.
    #[getter]
    fn total_db(&self) -> Out<f64> {
        self.0.map(LossSplit::total_db)
    }
}

value_class!(PyLossSplit, "LossSplit" {
    /// What the wave loses on one way through, dB.
    absorption_db: Out<f64> = |split| split.map(|split| split.absorption_db),
    /// What the two faces turn back, dB.
    reflection_db: Out<f64> = |split| split.map(|split| split.reflection_db),
    /// What reflections inside change, dB; negative where they help the wave through.
    re_reflection_db: Out<f64> = |split| split.map(|split| split.re_reflection_db),
});
