//! Members of a ladder.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::class::{parameter_methods, value_class};
use super::filter_parts::PartArg;
use crate::filter::{
    Element, FeedthroughCapacitor, LossyLine, MeasuredTwoPort, Part,
    tubular_electrode_inductance_h as core_tubular_electrode_inductance_h,
};

/// A part in the line.
///
/// Parameters
/// ----------
/// part : Inductor, Capacitor, Resistor or FerriteBead
///     The part.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "Series")]
#[derive(Clone, PartialEq)]
pub struct PySeries(pub Part);

#[pymethods]
impl PySeries {
    #[new]
    fn new(part: PartArg) -> PyResult<Self> {
        Ok(Self(part.into_core()?))
    }
}

value_class!(PySeries, "Series" {
    /// The part.
    part: PartArg = |part| PartArg::from_core(part),
});

/// A part from the line to the case.
///
/// Parameters
/// ----------
/// part : Inductor, Capacitor, Resistor or FerriteBead
///     The part.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "Shunt")]
#[derive(Clone, PartialEq)]
pub struct PyShunt(pub Part);

#[pymethods]
impl PyShunt {
    #[new]
    fn new(part: PartArg) -> PyResult<Self> {
        Ok(Self(part.into_core()?))
    }
}

value_class!(PyShunt, "Shunt" {
    /// The part.
    part: PartArg = |part| PartArg::from_core(part),
});

/// A feedthrough capacitor: a conductor through the wall, and the capacitance of an electrode around its middle.
///
/// Half of the conductor, the electrode, the other half. The electrode is a uniform line of its own inductance and of
/// admittance s C (1 - j tan d) with the series resistance spread along it; without an inductance of its own (the
/// default) it is a plain capacitance, and the whole a tee.
///
/// Parameters
/// ----------
/// capacitance_f : float
///     Capacitance, F, positive.
/// conductor_inductance_h, conductor_resistance_ohm : float, default 0
///     Of the conductor through it, H and ohm, both ends together: half lies on either side of the electrode.
/// loss_tangent : float, default 0
///     Of the dielectric, constant in frequency.
/// series_resistance_ohm : float, default 0
///     Equivalent series resistance of the capacitance, ohm.
/// electrode_inductance_h : float, default 0
///     Along the electrode, H; of a tube see `tubular_electrode_inductance_h`.
/// flange_inductance_h : float, default 0
///     From its outer electrode to the wall, H.
/// mutual_inductance_h : float, default 0
///     Between the conductor's two ends, H, at most half of its inductance. It depends on how the leads run and has no
///     value from physics; with zero the loss grows without end. 10 pH is a cautious figure (common practice, no
///     source): it holds the loss between 50 ohm to 52 dB at 1 GHz and 32 dB at 10 GHz where the leads are short.
/// disc : tuple of three floats, optional
///     Of a disc of ceramic the radii (m) between which its electrodes overlap and its permittivity: they tell up to
///     where it is a capacitance.
///
/// Notes
/// -----
/// Valid up to four fifths of the electrode's half-wave 1/(2 sqrt(L_e C)) where no series resistance is stated, and up
/// to the first resonance across a disc, k (b - a) = 2.3.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a capacitance that is not positive, any other value that is negative, or a permittivity below 1.
/// RelationError
///     For a mutual inductance above half of the conductor's, or radii in the wrong order.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "FeedthroughCapacitor")]
#[derive(Clone, PartialEq)]
pub struct PyFeedthroughCapacitor(pub FeedthroughCapacitor);

#[pymethods]
impl PyFeedthroughCapacitor {
    #[new]
    #[pyo3(signature = (capacitance_f, *, conductor_inductance_h=0.0, conductor_resistance_ohm=0.0, loss_tangent=0.0,
        series_resistance_ohm=0.0, electrode_inductance_h=0.0, flange_inductance_h=0.0, mutual_inductance_h=0.0,
        disc=None))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        capacitance_f: f64,
        conductor_inductance_h: f64,
        conductor_resistance_ohm: f64,
        loss_tangent: f64,
        series_resistance_ohm: f64,
        electrode_inductance_h: f64,
        flange_inductance_h: f64,
        mutual_inductance_h: f64,
        disc: Option<(f64, f64, f64)>,
    ) -> PyResult<Self> {
        let part = FeedthroughCapacitor::new(capacitance_f)?
            .with_conductor(conductor_inductance_h, conductor_resistance_ohm)?
            .with_loss_tangent(loss_tangent)?
            .with_series_resistance_ohm(series_resistance_ohm)?
            .with_electrode_inductance_h(electrode_inductance_h)?
            .with_flange_inductance_h(flange_inductance_h)?
            .with_mutual_inductance_h(mutual_inductance_h)?;
        Ok(Self(match disc {
            None => part,
            Some((inner_m, outer_m, permittivity)) => part.with_disc(inner_m, outer_m, permittivity)?,
        }))
    }

    /// Frequency at which the electrode is half a wave long, Hz; infinite without inductance along it.
    #[getter]
    fn electrode_half_wave_hz(&self) -> f64 {
        self.0.electrode_half_wave_hz()
    }
}

value_class!(PyFeedthroughCapacitor, "FeedthroughCapacitor" {
    /// Capacitance, F.
    capacitance_f: f64 = |part| part.capacitance_f(),
    /// Inductance of the conductor through it, H, both ends together.
    conductor_inductance_h: f64 = |part| part.conductor_inductance_h(),
    /// Resistance of the conductor through it, ohm, both ends together.
    conductor_resistance_ohm: f64 = |part| part.conductor_resistance_ohm(),
    /// Loss tangent of the dielectric.
    loss_tangent: f64 = |part| part.loss_tangent(),
    /// Equivalent series resistance, ohm.
    series_resistance_ohm: f64 = |part| part.series_resistance_ohm(),
    /// Inductance along its electrode, H.
    electrode_inductance_h: f64 = |part| part.electrode_inductance_h(),
    /// Inductance from its outer electrode to the wall, H.
    flange_inductance_h: f64 = |part| part.flange_inductance_h(),
    /// Mutual inductance between the conductor's two ends, H.
    mutual_inductance_h: f64 = |part| part.mutual_inductance_h(),
    /// Inner and outer radius (m) and permittivity of its disc, or None.
    disc: Option<(f64, f64, f64)> = |part| part.disc(),
});
parameter_methods!(PyFeedthroughCapacitor);

/// Inductance along the electrode of a tubular ceramic capacitor.
///
/// Parameters
/// ----------
/// length_m : float
///     Length of the electrode, m.
/// inner_radius_m, outer_radius_m : float
///     Radii of the inner and the outer electrode, m.
///
/// Returns
/// -------
/// float
///     mu0 l ln(b/a)/(2 pi), H: that of a coaxial line. 10 mm of 1.3 : 1 have 0.52 nH.
///
/// Raises
/// ------
/// OutOfRangeError
///     For a value that is not positive and finite.
/// RelationError
///     Unless the inner radius is the smaller.
#[pyfunction]
pub fn tubular_electrode_inductance_h(length_m: f64, inner_radius_m: f64, outer_radius_m: f64) -> PyResult<f64> {
    Ok(core_tubular_electrode_inductance_h(length_m, inner_radius_m, outer_radius_m)?)
}

LossyLine! {
    /// A length of cable or of lossy line.
    ///
    /// {parameters}
    class PyLossyLine keywords in filters;
}

/// A measured two-port in the chain.
///
/// Reflections are joined in real and imaginary part, transmissions in log magnitude and phase; held beyond both ends,
/// with a warning.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, increasing.
/// scattering : sequence of (complex, complex, complex, complex)
///     S11, S12, S21, S22 at each.
/// source_reference_ohm, load_reference_ohm : float, default 50
///     Reference resistances of the ports, ohm.
///
/// Raises
/// ------
/// OutOfRangeError
///     With the index, for values that are not finite or without transmission.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.filters", name = "MeasuredTwoPort")]
#[derive(Clone, PartialEq)]
pub struct PyMeasuredTwoPort(pub MeasuredTwoPort);

#[pymethods]
impl PyMeasuredTwoPort {
    #[new]
    #[pyo3(signature = (frequency_hz, scattering, source_reference_ohm=50.0, load_reference_ohm=50.0))]
    fn new(
        frequency_hz: Vec<f64>,
        scattering: Vec<(Complex64, Complex64, Complex64, Complex64)>,
        source_reference_ohm: f64,
        load_reference_ohm: f64,
    ) -> PyResult<Self> {
        let rows = scattering.into_iter().map(|(s11, s12, s21, s22)| [s11, s12, s21, s22]).collect();
        Ok(Self(MeasuredTwoPort::new(frequency_hz, rows, source_reference_ohm, load_reference_ohm)?))
    }

    /// From a Touchstone file of two ports.
    ///
    /// Parameters
    /// ----------
    /// file : Touchstone
    ///     The file.
    /// tolerance : float, default 0
    ///     By what share of amplitude the data may give out more than they take in.
    ///
    /// Raises
    /// ------
    /// OutOfRangeError
    ///     For data that are not passive within the tolerance: by how much, and where.
    #[staticmethod]
    #[pyo3(signature = (file, tolerance=0.0))]
    fn from_touchstone(file: super::filter_files::PyTouchstone, tolerance: f64) -> PyResult<Self> {
        Ok(Self(MeasuredTwoPort::from_touchstone(&file.0, tolerance)?))
    }
}

value_class!(PyMeasuredTwoPort, "MeasuredTwoPort" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |measured| measured.frequency_hz().to_vec(),
    /// S11, S12, S21, S22 at each.
    scattering: Vec<(Complex64, Complex64, Complex64, Complex64)> =
        |measured| measured.scattering().iter().map(|s| (s[0], s[1], s[2], s[3])).collect(),
    /// Reference resistance of port 1, ohm.
    source_reference_ohm: f64 = |measured| measured.source_reference_ohm(),
    /// Reference resistance of port 2, ohm.
    load_reference_ohm: f64 = |measured| measured.load_reference_ohm(),
});

/// One member of a ladder.
#[derive(FromPyObject, IntoPyObject)]
pub enum ElementArg {
    Series(PySeries),
    Shunt(PyShunt),
    Feedthrough(PyFeedthroughCapacitor),
    Line(PyLossyLine),
    Measured(PyMeasuredTwoPort),
}

impl ElementArg {
    pub fn from_core(element: &Element) -> Self {
        match element {
            Element::Series(part) => Self::Series(PySeries(part.clone())),
            Element::Shunt(part) => Self::Shunt(PyShunt(part.clone())),
            Element::Feedthrough(part) => Self::Feedthrough(PyFeedthroughCapacitor(*part)),
            Element::Line(line) => Self::Line(PyLossyLine(*line)),
            Element::Measured(measured) => Self::Measured(PyMeasuredTwoPort(measured.clone())),
        }
    }

    pub fn into_core(self) -> PyResult<Element> {
        Ok(match self {
            Self::Series(series) => Element::Series(series.0),
            Self::Shunt(shunt) => Element::Shunt(shunt.0),
            Self::Feedthrough(part) => Element::Feedthrough(part.0),
            Self::Line(line) => Element::Line(line.0),
            Self::Measured(measured) => Element::Measured(measured.0),
        })
    }
}
