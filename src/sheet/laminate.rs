//! A stack of plane layers under a plane wave.
//!
//! Shielding effectiveness is −20 lg|T|, T the tangential electric field behind the stack over the
//! incident one, by the recursion of [`crate::wave::layered`].
//!
//! The layers are taken as unbounded. A real panel's faces are joined at its edges, where currents
//! pass from one to the other: for two metal faces the ideal laminate is an upper bound.

use std::ops::Deref;

use ndarray::{Array1, ArrayView1};
use num_complex::Complex64;

use super::fabric::Fabric;
use super::mesh::WireMesh;
use super::perforated::{FaceImpedances, PerforatedSheet};
use super::split::LossSplit;
use crate::constants::VACUUM_IMPEDANCE;
use crate::decibel::{DB_PER_NEPER, LogTransmission};
use crate::error::{Result, check};
use crate::material::{Material, MaterialLanes};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::layered::{Scattering, Stratum, scatter};
use crate::wave::layered_lanes::{
    LnModulus, LnTransmission, Reflection, StackLanes, StratumLanes, Wanted, pass_all, pass_factors,
};
use crate::wave::{Incidence, Passages, PlaneWave, Polarization, Sheet, Waves};

/// One member of a [`Laminate`].
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Layer {
    /// A layer of a material.
    Slab {
        /// What it is made of.
        material: Material,
        /// Thickness, m.
        thickness_m: f64,
    },
    /// A film so thin that only its sheet resistance counts.
    Film {
        /// Sheet resistance, ohm (per square).
        sheet_resistance_ohm: f64,
    },
    /// A wire mesh.
    Mesh(WireMesh),
    /// A perforated sheet of metal.
    Perforated(PerforatedSheet),
    /// A woven conductive fabric.
    Fabric(Fabric),
}

impl Layer {
    /// A layer of a material, thickness in metres.
    ///
    /// # Errors
    /// Unless the thickness is positive and finite.
    pub fn slab(material: Material, thickness_m: f64) -> Result<Self> {
        Self::Slab { material, thickness_m }.checked()
    }

    /// A film by its sheet resistance in ohms per square.
    ///
    /// # Errors
    /// Unless the sheet resistance is positive and finite.
    pub fn film(sheet_resistance_ohm: f64) -> Result<Self> {
        Self::Film { sheet_resistance_ohm }.checked()
    }

    /// A wire mesh, checked by its own constructor.
    #[must_use]
    pub fn mesh(mesh: WireMesh) -> Self {
        Self::Mesh(mesh)
    }

    /// A perforated sheet, checked by its own constructor.
    #[must_use]
    pub fn perforated(sheet: PerforatedSheet) -> Self {
        Self::Perforated(sheet)
    }

    /// A conductive fabric, checked by its own constructor.
    #[must_use]
    pub fn fabric(fabric: Fabric) -> Self {
        Self::Fabric(fabric)
    }

    /// What kind of layer it is, in one word.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Slab { .. } => "slab",
            Self::Film { .. } => "film",
            Self::Mesh(_) => "mesh",
            Self::Perforated(_) => "perforated",
            Self::Fabric(_) => "fabric",
        }
    }

    fn checked(self) -> Result<Self> {
        match &self {
            Self::Slab { thickness_m, .. } => check::positive("thickness_m", "m", *thickness_m)?,
            Self::Film { sheet_resistance_ohm } => {
                check::positive("sheet_resistance_ohm", "ohm", *sheet_resistance_ohm)?
            }
            Self::Mesh(_) | Self::Perforated(_) | Self::Fabric(_) => 0.0,
        };
        Ok(self)
    }

    /// Thickness, m; zero for films, meshes and fabrics.
    #[must_use]
    pub fn thickness_m(&self) -> f64 {
        match self {
            Self::Slab { thickness_m, .. } => *thickness_m,
            Self::Film { .. } | Self::Mesh(_) | Self::Fabric(_) => 0.0,
            Self::Perforated(sheet) => sheet.thickness_m(),
        }
    }

    fn at(&self, wave: &Incidence, polarization: Polarization) -> Stratum {
        match self {
            Self::Slab { material, thickness_m } => {
                Stratum::Slab { medium: material.medium(wave.frequency_hz()), thickness_m: *thickness_m }
            }
            Self::Mesh(mesh) => {
                Stratum::Film { relative_admittance: VACUUM_IMPEDANCE / mesh.sheet_impedance_ohm(wave, polarization) }
            }
            Self::Fabric(fabric) => {
                Stratum::Film { relative_admittance: VACUUM_IMPEDANCE / fabric.sheet_impedance_ohm(wave, polarization) }
            }
            Self::Perforated(sheet) => {
                let FaceImpedances { own, transfer, nepers } = sheet.impedances(wave, polarization);
                Stratum::Screen { own, transfer, nepers }
            }
            Self::Film { sheet_resistance_ohm } => {
                Stratum::Film { relative_admittance: Complex64::new(VACUUM_IMPEDANCE / sheet_resistance_ohm, 0.0) }
            }
        }
    }

    /// For batches; `None` for screens, whose impedance is computed wave by wave.
    fn in_lanes(&self) -> Option<StratumLanes<'_>> {
        match self {
            Self::Slab { material, thickness_m } => {
                Some(StratumLanes::Slab { material: MaterialLanes::new(material), thickness_m: *thickness_m })
            }
            Self::Film { sheet_resistance_ohm } => {
                Some(StratumLanes::Film { relative_admittance: VACUUM_IMPEDANCE / sheet_resistance_ohm })
            }
            Self::Mesh(_) | Self::Perforated(_) | Self::Fabric(_) => None,
        }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::Slab { material, .. } => material.validity(frequency_hz),
            Self::Film { .. } => Validity::Holds,
            Self::Mesh(mesh) => mesh.validity(frequency_hz),
            Self::Perforated(sheet) => sheet.validity(frequency_hz),
            Self::Fabric(fabric) => fabric.validity(frequency_hz),
        }
    }
}

impl Rebuild for Layer {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        match self {
            Self::Slab { material, thickness_m } => {
                let thickness_m = knobs.value("thickness_m", "m", *thickness_m, Domain::POSITIVE);
                Self::slab(knobs.enter("material", |knobs| material.rebuild(knobs))?, thickness_m)
            }
            Self::Film { sheet_resistance_ohm } => {
                Self::film(knobs.value("sheet_resistance_ohm", "ohm", *sheet_resistance_ohm, Domain::POSITIVE))
            }
            Self::Mesh(mesh) => Ok(Self::Mesh(mesh.rebuild(knobs)?)),
            Self::Perforated(sheet) => Ok(Self::Perforated(sheet.rebuild(knobs)?)),
            Self::Fabric(fabric) => Ok(Self::Fabric(fabric.rebuild(knobs)?)),
        }
    }
}

/// A stack of layers, the first facing the wave.
///
/// ```
/// use stillroom::{Laminate, Layer, PlaneWave, material::catalogue};
/// // 20 mil of copper at 1 MHz: reflection 108.1 dB and absorption 66.8 dB by the formulas of
/// // MIL-HDBK-419A vol. I ch. 8.
/// let sheet = Laminate::new(vec![Layer::slab(catalogue::get("copper")?, 20.0 * 25.4e-6)?])?;
/// let loss = sheet.shielding_db(1e6, &PlaneWave::normal());
/// assert!((loss - 174.9).abs() < 0.1);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Laminate {
    layers: Vec<Layer>,
}

impl Laminate {
    /// A stack from its layers.
    ///
    /// # Errors
    /// For an empty stack, and for a layer whose thickness or sheet resistance is not positive and
    /// finite, named by its place.
    pub fn new(layers: Vec<Layer>) -> Result<Self> {
        check::not_empty("layers", &layers)?;
        let layers = layers
            .into_iter()
            .enumerate()
            .map(|(place, layer)| layer.checked().map_err(|error| error.within(&layer_name(place))))
            .collect::<Result<_>>()?;
        Ok(Self { layers })
    }

    /// The layers, from the side of the wave.
    #[must_use]
    pub fn layers(&self) -> &[Layer] {
        &self.layers
    }

    /// The same stack seen from its other side.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self { layers: self.layers.iter().rev().cloned().collect() }
    }

    /// Transmission and reflection for one wave.
    #[must_use]
    pub fn scattering(&self, wave: &Incidence, polarization: Polarization) -> Scattering {
        let strata = self.layers.iter().map(|layer| layer.at(wave, polarization));
        scatter(strata, wave, polarization)
    }

    /// Shielding effectiveness under a plane wave, dB (positive: the field behind is weaker).
    ///
    /// Domain: finite positive frequency in Hz; anything else gives NaN.
    #[must_use]
    pub fn shielding_db(&self, frequency_hz: f64, wave: &PlaneWave) -> f64 {
        self.transmission(&wave.at(frequency_hz), wave.polarization()).shielding_db()
    }

    /// Shielding effectiveness at many frequencies (Hz), dB, same length.
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn shielding_db_at(&self, frequency_hz: ArrayView1<'_, f64>, wave: &PlaneWave) -> Result<Array1<f64>> {
        let frequencies = frequency_hz.to_vec();
        check::frequencies(&frequencies)?;
        let mut ln = vec![0.0; frequencies.len()];
        self.ln_moduli(&Waves::at_angle(&frequencies, wave.angle_deg()), wave.polarization(), &mut ln);
        Ok(Array1::from_vec(ln) * -DB_PER_NEPER)
    }

    /// Reflected over incident tangential electric field under a plane wave.
    #[must_use]
    pub fn reflection(&self, frequency_hz: f64, wave: &PlaneWave) -> Complex64 {
        self.scattering(&wave.at(frequency_hz), wave.polarization()).reflection
    }

    /// The reflection of many waves, into `out`, which has as many places as there are waves.
    pub fn reflections(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [Complex64]) {
        self.pass::<Reflection>(waves, polarization, out, |found| found.reflection);
    }

    /// The layers in lanes; `None` where one has none.
    fn lanes(&self) -> Option<Vec<StratumLanes<'_>>> {
        self.layers.iter().map(Layer::in_lanes).collect()
    }

    /// A batch through the lanes, or wave by wave where a layer has no lanes.
    fn pass<W: Wanted>(
        &self,
        waves: &Waves<'_>,
        polarization: Polarization,
        out: &mut [W::Value],
        single: impl Fn(Scattering) -> W::Value,
    ) {
        match self.lanes() {
            Some(strata) => pass_all::<W>(&StackLanes::new(strata, waves, polarization), waves, out),
            None => {
                for (value, wave) in out.iter_mut().zip(waves.iter()) {
                    *value = single(self.scattering(&wave, polarization));
                }
            }
        }
    }

    /// Absorption, reflection and re-reflection loss of a single layer, whose sum is its shielding.
    ///
    /// `None` for a stack of several layers or a film, which have no such split.
    #[must_use]
    pub fn split(&self, frequency_hz: f64, wave: &PlaneWave) -> Option<LossSplit> {
        match self.layers.deref() {
            [Layer::Slab { material, thickness_m }] => Some(LossSplit::of_layer(
                &material.medium(frequency_hz),
                *thickness_m,
                &wave.at(frequency_hz),
                wave.polarization(),
            )),
            _ => None,
        }
    }
}

fn layer_name(place: usize) -> String {
    format!("layers.{place}")
}

impl Rebuild for Laminate {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let layers = self
            .layers
            .iter()
            .enumerate()
            .map(|(place, layer)| knobs.enter(&layer_name(place), |knobs| layer.rebuild(knobs)))
            .collect::<Result<_>>()?;
        Self::new(layers)
    }
}

impl Sheet for Laminate {
    fn transmission(&self, wave: &Incidence, polarization: Polarization) -> LogTransmission {
        LogTransmission(self.scattering(wave, polarization).ln_transmission)
    }

    fn ln_moduli(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [f64]) {
        self.pass::<LnModulus>(waves, polarization, out, |found| found.ln_transmission.re);
    }

    fn transmissions(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [Complex64]) {
        self.pass::<LnTransmission>(waves, polarization, out, |found| found.ln_transmission);
    }

    fn passages(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut Passages) {
        match self.lanes() {
            Some(strata) => pass_factors(&StackLanes::new(strata, waves, polarization), waves, out),
            None => out.set_ln(waves.iter().map(|wave| self.scattering(&wave, polarization).ln_transmission)),
        }
    }

    fn thickness_m(&self) -> f64 {
        self.layers.iter().map(Layer::thickness_m).sum()
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.layers.iter().fold(Validity::Holds, |validity, layer| validity.and(layer.validity(frequency_hz)))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    layers: Vec<Layer>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Laminate {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.layers)
    }
}

#[cfg(feature = "serde")]
impl From<Laminate> for Record {
    fn from(laminate: Laminate) -> Self {
        Self { layers: laminate.layers }
    }
}
