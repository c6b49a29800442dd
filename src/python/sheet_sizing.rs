//! Sizing of laminates, and the added loss of rough metal.

use std::sync::Arc;

use pyo3::prelude::*;

use super::array::{Out, Real, RealArg, broadcast};
use super::class::value_class;
use super::leak::SheetObject;
use super::material::PyMaterial;
use super::near_field::{PyLoopTest, PyRodTest};
use super::sheet::PyLaminate;
use super::wave::PyPlaneWave;
use crate::error::check;
use crate::sheet::{
    Laminate, Prefer, RoughnessModel, Sizing, SizingTask, rough_surface_resistance_ohm as core_resistance,
    roughness_factor as core_factor, size_laminate as core_size,
};
use crate::{PlaneWave, Result};

/// A number that reaches a target, found by `size_laminate`.
#[pyclass(frozen, eq, module = "stillroom.sheets", name = "Sizing")]
#[derive(Clone, PartialEq)]
pub struct PySizing(pub Sizing);

#[pymethods]
impl PySizing {
    #[new]
    #[pyo3(signature = (*, value, margin_db, worst_frequency_hz, laminate))]
    fn new(value: f64, margin_db: f64, worst_frequency_hz: f64, laminate: PyLaminate) -> PyResult<Self> {
        Ok(Self(Sizing {
            value: check::positive("value", "", value)?,
            margin_db: check::finite("margin_db", "dB", margin_db)?,
            worst_frequency_hz: check::positive("worst_frequency_hz", "Hz", worst_frequency_hz)?,
            laminate: laminate.0,
        }))
    }
}

value_class!(PySizing, "Sizing" {
    /// The value found, in the unit that ends its path.
    value: f64 = |sizing| sizing.value,
    /// What is left over at the worst frequency, dB.
    margin_db: f64 = |sizing| sizing.margin_db,
    /// The worst frequency, Hz.
    worst_frequency_hz: f64 = |sizing| sizing.worst_frequency_hz,
    /// The laminate with that value.
    laminate: SheetObject = |sizing| SheetObject(Arc::new(sizing.laminate.clone())),
});

/// How a laminate is judged.
#[derive(FromPyObject)]
pub enum TestArg {
    PlaneWave(PyPlaneWave),
    Loop(PyLoopTest),
    Rod(PyRodTest),
}

impl TestArg {
    fn read(&self, laminate: &Laminate, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        match self {
            Self::PlaneWave(wave) => Ok(frequency_hz.iter().map(|&f| laminate.shielding_db(f, &wave.0)).collect()),
            Self::Loop(test) => test.0.shielding_db(laminate, frequency_hz),
            Self::Rod(test) => test.0.shielding_db(laminate, frequency_hz),
        }
    }
}

/// The value of one number of a laminate with which it reaches a target over a band.
///
/// Parameters
/// ----------
/// laminate : Laminate
///     Where to start from.
/// path : str
///     Path of the number to change, as listed by `laminate.parameters()`.
/// frequency_hz : array_like
///     Frequencies of the band, Hz.
/// target_db : array_like
///     Shielding to reach, dB: one number, or one for each frequency.
/// lowest, highest : float
///     Interval of allowed values, positive, in the unit that ends the path.
/// prefer : {"smallest", "largest"}, default "smallest"
///     Which end of the interval to come from: the thinnest sheet, or the widest pitch.
/// test : PlaneWave, LoopTest or RodTest, optional
///     What judges the laminate; a plane wave along the normal where not given.
///
/// Returns
/// -------
/// Sizing
///     Value, margin, worst frequency and the laminate with that value.
///
/// Raises
/// ------
/// UnreachableError
///     If no allowed value reaches the target; it tells the best that can be had, and where.
/// UnknownParameterError
///     If there is no such path.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> film = sr.Laminate([sr.sheets.Film(100.0)])
/// >>> found = sr.sheets.size_laminate(film, "layers.0.sheet_resistance_ohm", [1e6, 1e9], 40.0,
/// ...                          lowest=1e-3, highest=1e3, prefer="largest")
/// >>> round(found.value, 4)
/// 1.9027
#[pyfunction]
#[pyo3(signature = (laminate, path, frequency_hz, target_db, *, lowest, highest, prefer="smallest", test=None))]
#[allow(clippy::too_many_arguments)]
pub fn size_laminate(
    py: Python<'_>,
    laminate: PyLaminate,
    path: &str,
    frequency_hz: RealArg<'_>,
    target_db: RealArg<'_>,
    lowest: f64,
    highest: f64,
    prefer: &str,
    test: Option<TestArg>,
) -> PyResult<PySizing> {
    let test = test.unwrap_or(TestArg::PlaneWave(PyPlaneWave(PlaneWave::normal())));
    let frequencies = list(&frequency_hz, "frequency_hz")?;
    let mut targets = list(&target_db, "target_db")?;
    if let [target] = targets[..] {
        targets = vec![target; frequencies.len()];
    }
    let task = SizingTask {
        path,
        allowed: (lowest, highest),
        prefer: prefer.parse::<Prefer>()?,
        frequency_hz: &frequencies,
        target_db: &targets,
    };
    let found = py.detach(|| core_size(&laminate.0, &task, |laminate, f| test.read(laminate, f)))?;
    Ok(PySizing(found))
}

fn list(argument: &RealArg<'_>, name: &'static str) -> PyResult<Vec<f64>> {
    Ok(match argument.read(name)? {
        Real::Scalar(value) => vec![value],
        Real::Array(array) => array.as_array().iter().copied().collect(),
    })
}

/// Factor on the surface resistance of a metal by its roughness, from 1 to 2.
///
/// Parameters
/// ----------
/// metal : Material
///     The metal.
/// rms_m : array_like
///     Rms roughness, m, zero or positive.
/// frequency_hz : array_like
///     Frequency, Hz; broadcasts with `rms_m`.
/// model : {"hammerstad-jensen", "groiss"}, default "hammerstad-jensen"
///     Which published fit.
///
/// Returns
/// -------
/// float or ndarray
///     Joint shape. The fits hold for a roughness up to about two skin depths.
///
/// Notes
/// -----
/// 1 + (2/pi) arctan(1.4 (rms/depth)^2): E. Hammerstad and O. Jensen, MTT-S Digest (1980) 407;
/// 1 + exp(-(depth/(2 rms))^1.6): S. Groiss et al., IEEE Trans. Magn. 32 (1996) 894 (from memory).
#[pyfunction]
#[pyo3(signature = (metal, rms_m, frequency_hz, model="hammerstad-jensen"))]
pub fn roughness_factor(
    py: Python<'_>,
    metal: PyMaterial,
    rms_m: RealArg<'_>,
    frequency_hz: RealArg<'_>,
    model: &str,
) -> PyResult<Out<f64>> {
    let model = model.parse::<RoughnessModel>()?;
    broadcast(py, ["rms_m", "frequency_hz"], [&rms_m, &frequency_hz], |[rms_m, f]| {
        core_factor(model, &metal.0, rms_m, f)
    })
}

/// Surface resistance of a rough metal, ohm.
///
/// Parameters
/// ----------
/// metal : Material
///     The metal.
/// rms_m : array_like
///     Rms roughness, m, zero or positive.
/// frequency_hz : array_like
///     Frequency, Hz; broadcasts with `rms_m`.
/// model : {"hammerstad-jensen", "groiss"}, default "hammerstad-jensen"
///     Which published fit.
///
/// Returns
/// -------
/// float or ndarray
///     Joint shape.
#[pyfunction]
#[pyo3(signature = (metal, rms_m, frequency_hz, model="hammerstad-jensen"))]
pub fn rough_surface_resistance_ohm(
    py: Python<'_>,
    metal: PyMaterial,
    rms_m: RealArg<'_>,
    frequency_hz: RealArg<'_>,
    model: &str,
) -> PyResult<Out<f64>> {
    let model = model.parse::<RoughnessModel>()?;
    broadcast(py, ["rms_m", "frequency_hz"], [&rms_m, &frequency_hz], |[rms_m, f]| {
        core_resistance(model, &metal.0, rms_m, f)
    })
}
