//! Materials and their catalogue.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, broadcast};
use super::class::{parameter_methods, value_class};
use super::waveguide::warn_frequencies;
use crate::error::check;
use crate::material::{
    Conductivity, Material, Permeability, PermeabilityTable, Permittivity, PowerLaw, catalogue as core_catalogue,
};

/// A quantity that follows `coefficient * (f / 1 GHz)**exponent`.
///
/// This is how Recommendation ITU-R P.2040 writes the permittivity and the conductivity of building
/// materials.
///
/// Parameters
/// ----------
/// coefficient : float
///     Value at 1 GHz.
/// exponent : float, default 0
///     Exponent of the frequency.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.materials", name = "PowerLaw")]
#[derive(Clone, PartialEq)]
pub struct PyPowerLaw(pub PowerLaw);

#[pymethods]
impl PyPowerLaw {
    #[new]
    #[pyo3(signature = (coefficient, exponent=0.0))]
    fn new(coefficient: f64, exponent: f64) -> PyResult<Self> {
        let coefficient = check::finite("coefficient", "", coefficient)?;
        Ok(Self(PowerLaw { coefficient, exponent: check::finite("exponent", "", exponent)? }))
    }
}

value_class!(PyPowerLaw, "PowerLaw" {
    /// Value at 1 GHz.
    coefficient: f64 = |law| law.coefficient,
    /// Exponent of the frequency.
    exponent: f64 = |law| law.exponent,
});

/// A permeability with one relaxation: 1 + (initial - 1)/(1 + j f/relaxation).
///
/// Parameters
/// ----------
/// initial : float
///     Relative permeability well below the relaxation, at least 1.
/// relaxation_hz : float
///     Frequency of the relaxation, Hz.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.materials", name = "RelaxingPermeability")]
#[derive(Clone, PartialEq)]
pub struct PyRelaxingPermeability(pub (f64, f64));

#[pymethods]
impl PyRelaxingPermeability {
    #[new]
    fn new(initial: f64, relaxation_hz: f64) -> PyResult<Self> {
        let initial = check::at_least_one("initial", initial)?;
        Ok(Self((initial, check::positive("relaxation_hz", "Hz", relaxation_hz)?)))
    }
}

value_class!(PyRelaxingPermeability, "RelaxingPermeability" {
    /// Relative permeability well below the relaxation.
    initial: f64 = |pair| pair.0,
    /// Frequency of the relaxation, Hz.
    relaxation_hz: f64 = |pair| pair.1,
});

/// A permeability read from a table, joined in log frequency and held beyond both ends.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, increasing.
/// real : sequence of float
///     Real parts, positive.
/// loss : sequence of float, optional
///     Loss parts mu'' (the permeability is mu' - j mu''), zero or positive.
/// least, greatest : sequence of complex, optional
///     The least and the greatest permeability, mu' - j mu'', that sources give at each frequency.
/// tolerance : float, default 0
///     Place between these bounds, from -1 (least) by 0 (the table itself) to 1 (greatest); their logarithms are joined.
///     As a parameter of a material: ``permeability_tolerance``.
///
/// Notes
/// -----
/// It is the local permeability, used with the skin depth. What is measured on a stack of laminations is lowered by
/// their eddy currents already and must not be used here.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.materials", name = "PermeabilityTable")]
#[derive(Clone, PartialEq)]
pub struct PyPermeabilityTable(pub PermeabilityTable);

#[pymethods]
impl PyPermeabilityTable {
    #[new]
    #[pyo3(signature = (frequency_hz, real, loss=Vec::new(), least=None, greatest=None, tolerance=0.0))]
    fn new(
        frequency_hz: Vec<f64>,
        real: Vec<f64>,
        loss: Vec<f64>,
        least: Option<Vec<Complex64>>,
        greatest: Option<Vec<Complex64>>,
        tolerance: f64,
    ) -> PyResult<Self> {
        let table = PermeabilityTable::new(frequency_hz, real, loss)?;
        let table = match (least, greatest) {
            (None, None) => table,
            (least, greatest) => table.with_bounds(least.unwrap_or_default(), greatest.unwrap_or_default())?,
        };
        Ok(Self(table.at_tolerance(tolerance)?))
    }
}

value_class!(PyPermeabilityTable, "PermeabilityTable" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |table| table.frequency_hz().to_vec(),
    /// Real parts.
    real: Vec<f64> = |table| table.real().to_vec(),
    /// Loss parts.
    loss: Vec<f64> = |table| table.loss().to_vec(),
    /// The least permeability, where it was given.
    least: Option<Vec<Complex64>> = |table| table.least().map(<[Complex64]>::to_vec),
    /// The greatest permeability, where it was given.
    greatest: Option<Vec<Complex64>> = |table| table.greatest().map(<[Complex64]>::to_vec),
    /// Place between them, from -1 to 1.
    tolerance: f64 = |table| table.tolerance(),
});

/// A number, or a power law.
#[derive(FromPyObject, IntoPyObject)]
pub enum LawArg {
    Number(f64),
    Law(PyPowerLaw),
}

/// A number, a relaxation, or a table.
#[derive(FromPyObject, IntoPyObject)]
pub enum PermeabilityArg {
    Number(f64),
    Relaxing(PyRelaxingPermeability),
    Table(PyPermeabilityTable),
}

/// A conductor, dielectric or magnetic material.
///
/// Parameters
/// ----------
/// name : str
///     Any name, not empty.
/// conductivity_s_per_m : float or PowerLaw, default 0
///     Conductivity, S/m, zero or positive.
/// relative_permittivity : float or PowerLaw, default 1
///     Real part of the relative permittivity without conduction, at least 1.
/// loss_tangent : float, default 0
///     Loss tangent of the permittivity, zero or positive; not together with a power law.
/// relative_permeability : float, RelaxingPermeability or PermeabilityTable, default 1
///     Relative permeability, positive. That of metals depends on the field strength and on
///     working; catalogue values are typical, and those of magnetic metals carry a tolerance, the parameter
///     ``permeability_tolerance`` from -1 to 1.
/// range_hz : tuple of float, optional
///     Lowest and highest frequency at which the constants are known, Hz.
/// source : str, default ""
///     Where the constants come from.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a constant outside its domain.
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> copper = sr.Material("copper", conductivity_s_per_m=5.8e7)
/// >>> round(copper.skin_depth_m(60.0) * 1e3, 2)
/// 8.53
#[pyclass(frozen, eq, from_py_object, module = "stillroom", name = "Material")]
#[derive(Clone, PartialEq)]
pub struct PyMaterial(pub Material);

#[pymethods]
impl PyMaterial {
    #[new]
    #[pyo3(signature = (
        name, *, conductivity_s_per_m=LawArg::Number(0.0), relative_permittivity=LawArg::Number(1.0),
        loss_tangent=0.0, relative_permeability=PermeabilityArg::Number(1.0), range_hz=None, source=String::new()
    ))]
    fn new(
        name: String,
        conductivity_s_per_m: LawArg,
        relative_permittivity: LawArg,
        loss_tangent: f64,
        relative_permeability: PermeabilityArg,
        range_hz: Option<(f64, f64)>,
        source: String,
    ) -> PyResult<Self> {
        let conductivity = match conductivity_s_per_m {
            LawArg::Number(value) => Conductivity::Constant(value),
            LawArg::Law(law) => Conductivity::PowerLaw(law.0),
        };
        let permittivity = match relative_permittivity {
            LawArg::Number(relative) => Permittivity::Constant { relative, loss_tangent },
            LawArg::Law(law) => {
                check::within("loss_tangent", "", loss_tangent, (0.0, 0.0), "0 with a power law, which has none")?;
                Permittivity::PowerLaw(law.0)
            }
        };
        let permeability = match relative_permeability {
            PermeabilityArg::Number(value) => Permeability::Constant(value),
            PermeabilityArg::Relaxing(PyRelaxingPermeability((initial, relaxation_hz))) => {
                Permeability::Relaxing { initial, relaxation_hz }
            }
            PermeabilityArg::Table(table) => Permeability::Tabulated(table.0),
        };
        let material = Material::new(name, conductivity, permittivity, permeability)?.with_source(source);
        Ok(Self(match range_hz {
            None => material,
            Some((low_hz, high_hz)) => material.within_range(low_hz, high_hz)?,
        }))
    }

    /// Complex relative permittivity with conduction, eps' - j eps''.
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
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if any frequency is outside the range in which the constants are known.
    fn complex_permittivity(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        let result = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
            Ok(self.0.medium(check::frequency(f)?).relative_permittivity)
        })?;
        warn_frequencies(py, &frequency_hz, |f| self.0.electric_validity(f))?;
        Ok(result)
    }

    /// Complex relative permeability, mu' - j mu''.
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
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, if any frequency is outside the range in which the constants are known.
    fn complex_permeability(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        let result = broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| {
            Ok(self.0.medium(check::frequency(f)?).relative_permeability)
        })?;
        warn_frequencies(py, &frequency_hz, |f| self.0.permeability().validity(f))?;
        Ok(result)
    }

    /// Skin depth of a good conductor, m: where a field has fallen to 1/e; infinite without conductivity.
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
    ///     Once, if any frequency is outside the range in which the constants are known.
    fn skin_depth_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
        let result =
            broadcast(py, ["frequency_hz"], [&frequency_hz], |[f]| Ok(self.0.skin_depth_m(check::frequency(f)?)))?;
        warn_frequencies(py, &frequency_hz, |f| self.0.validity(f))?;
        Ok(result)
    }
}

value_class!(PyMaterial, "Material" {
    /// Name.
    name: String = |material| material.name().to_owned(),
    /// Conductivity, S/m, as it was given.
    conductivity_s_per_m: LawArg = |material| match material.conductivity() {
        Conductivity::Constant(value) => LawArg::Number(*value),
        Conductivity::PowerLaw(law) => LawArg::Law(PyPowerLaw(*law)),
    },
    /// Real part of the relative permittivity without conduction, as it was given.
    relative_permittivity: LawArg = |material| match material.permittivity() {
        Permittivity::Constant { relative, .. } => LawArg::Number(*relative),
        Permittivity::PowerLaw(law) => LawArg::Law(PyPowerLaw(*law)),
    },
    /// Loss tangent of the permittivity.
    loss_tangent: f64 = |material| match material.permittivity() {
        Permittivity::Constant { loss_tangent, .. } => *loss_tangent,
        Permittivity::PowerLaw(_) => 0.0,
    },
    /// Relative permeability, as it was given.
    relative_permeability: PermeabilityArg = |material| match material.permeability() {
        Permeability::Constant(value) => PermeabilityArg::Number(*value),
        Permeability::Relaxing { initial, relaxation_hz } => {
            PermeabilityArg::Relaxing(PyRelaxingPermeability((*initial, *relaxation_hz)))
        }
        Permeability::Tabulated(table) => PermeabilityArg::Table(PyPermeabilityTable(table.clone())),
    },
    /// Lowest and highest frequency at which the constants are known, Hz.
    range_hz: Option<(f64, f64)> = |material| material.range_hz(),
    /// Where the constants come from.
    source: String = |material| material.source().to_owned(),
});
parameter_methods!(PyMaterial);

/// One material of the catalogue.
///
/// Parameters
/// ----------
/// name : str
///     As listed by `stillroom.materials.names()`.
///
/// Raises
/// ------
/// UnknownNameError
///     If there is no such material.
#[pyfunction]
pub fn catalogue(name: &str) -> PyResult<PyMaterial> {
    Ok(PyMaterial(core_catalogue::get(name)?))
}

/// Names of all materials of the catalogue.
#[pyfunction]
pub fn catalogue_names() -> Vec<&'static str> {
    core_catalogue::names()
}
