//! Lumped parts with the parasitics that real ones have.
//!
//! | part | equivalent circuit |
//! |---|---|
//! | [`Inductor`] | R + L in series, winding capacitance across both; core loss and fall of permeability as one relaxation; L falling with load current |
//! | [`Capacitor`] | C with loss tangent, equivalent series R and L |
//! | [`Resistor`] | R with series L and parallel C; also a discharge resistor |
//!
//! A surge arrester below its striking voltage is a [`Capacitor`] of its off-state capacitance. Valid where
//! the part is small against the wavelength; parasitics are constants, so a self-resonance beyond the first
//! is not described (use a measured two-port there). Equivalent circuits: H. W. Ott, *Electromagnetic
//! Compatibility Engineering*, 2009, chapter 5.

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::wave::lumped_chain::Immittance;

/// How an inductance falls with load current: `L(I) = L0/(1 + (I/I_half)^exponent)`.
///
/// The form is the one that makers of powder cores fit to their curves of permeability under bias; the
/// exponent is near 2 for powder and several times that for gapped ferrite (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "SaturationRecord", into = "SaturationRecord"))]
pub struct Saturation {
    half_current_a: f64,
    exponent: f64,
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct SaturationRecord {
    half_current_a: f64,
    exponent: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<SaturationRecord> for Saturation {
    type Error = crate::Error;
    fn try_from(record: SaturationRecord) -> Result<Self> {
        Self::new(record.half_current_a, record.exponent)
    }
}

#[cfg(feature = "serde")]
impl From<Saturation> for SaturationRecord {
    fn from(saturation: Saturation) -> Self {
        Self { half_current_a: saturation.half_current_a, exponent: saturation.exponent }
    }
}

impl Saturation {
    /// From the current (A, peak or direct) that halves the inductance, and the exponent.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn new(half_current_a: f64, exponent: f64) -> Result<Self> {
        Ok(Self {
            half_current_a: check::positive("half_current_a", "A", half_current_a)?,
            exponent: check::positive("saturation_exponent", "", exponent)?,
        })
    }

    /// Current that halves the inductance, A.
    #[must_use]
    pub const fn half_current_a(&self) -> f64 {
        self.half_current_a
    }

    /// Exponent of the law.
    #[must_use]
    pub const fn exponent(&self) -> f64 {
        self.exponent
    }

    /// What remains of the inductance, from 1 down to 0, at a load current in A.
    #[must_use]
    pub fn remaining(&self, current_a: f64) -> f64 {
        (1.0 + (current_a.abs() / self.half_current_a).powf(self.exponent)).recip()
    }
}

/// A coil.
///
/// ```text
/// Z = (R + s L/(1 + s t)) || 1/(s C),   t = 1/(2 pi f_r) + L/R_core
/// ```
///
/// `f_r` is the frequency at which a one-pole permeability has fallen by half in power; a core-loss
/// resistance across the inductance has the very same effect with `f_r = R_core/(2 pi L)`, so one time
/// constant holds both.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "InductorRecord", into = "InductorRecord"))]
pub struct Inductor {
    inductance_h: f64,
    resistance_ohm: f64,
    parallel_capacitance_f: f64,
    core_loss_ohm: Option<f64>,
    relaxation_hz: Option<f64>,
    saturation: Option<Saturation>,
}

impl Inductor {
    /// An ideal coil of the given inductance in henry.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(inductance_h: f64) -> Result<Self> {
        Ok(Self {
            inductance_h: check::positive("inductance_h", "H", inductance_h)?,
            resistance_ohm: 0.0,
            parallel_capacitance_f: 0.0,
            core_loss_ohm: None,
            relaxation_hz: None,
            saturation: None,
        })
    }

    /// With the resistance of its winding, ohm.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_resistance_ohm(self, resistance_ohm: f64) -> Result<Self> {
        Ok(Self { resistance_ohm: check::non_negative("resistance_ohm", "ohm", resistance_ohm)?, ..self })
    }

    /// With the capacitance across its winding, F.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_parallel_capacitance_f(self, parallel_capacitance_f: f64) -> Result<Self> {
        let parallel_capacitance_f = check::non_negative("parallel_capacitance_f", "F", parallel_capacitance_f)?;
        Ok(Self { parallel_capacitance_f, ..self })
    }

    /// With a resistance across the inductance that stands for core loss, ohm.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_core_loss_ohm(self, core_loss_ohm: f64) -> Result<Self> {
        Ok(Self { core_loss_ohm: Some(check::positive("core_loss_ohm", "ohm", core_loss_ohm)?), ..self })
    }

    /// With a permeability that falls by one pole at this frequency, Hz.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_relaxation_hz(self, relaxation_hz: f64) -> Result<Self> {
        Ok(Self { relaxation_hz: Some(check::positive("relaxation_hz", "Hz", relaxation_hz)?), ..self })
    }

    /// With an inductance that falls with load current.
    #[must_use]
    pub const fn with_saturation(self, saturation: Saturation) -> Self {
        Self { saturation: Some(saturation), ..self }
    }

    /// Inductance without load current, H.
    #[must_use]
    pub const fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Winding resistance, ohm.
    #[must_use]
    pub const fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Winding capacitance, F.
    #[must_use]
    pub const fn parallel_capacitance_f(&self) -> f64 {
        self.parallel_capacitance_f
    }

    /// Core-loss resistance across the inductance, ohm, if any.
    #[must_use]
    pub const fn core_loss_ohm(&self) -> Option<f64> {
        self.core_loss_ohm
    }

    /// Relaxation frequency of the permeability, Hz, if any.
    #[must_use]
    pub const fn relaxation_hz(&self) -> Option<f64> {
        self.relaxation_hz
    }

    /// Law of saturation, if any.
    #[must_use]
    pub const fn saturation(&self) -> Option<Saturation> {
        self.saturation
    }

    /// Inductance left at a load current in A, in H.
    #[must_use]
    pub fn loaded_inductance_h(&self, current_a: f64) -> f64 {
        self.inductance_h * self.saturation.map_or(1.0, |saturation| saturation.remaining(current_a))
    }

    /// Frequency at which the coil turns capacitive, Hz: `1/(2 pi sqrt(L C))`; infinite without capacitance.
    #[must_use]
    pub fn self_resonance_hz(&self) -> f64 {
        (std::f64::consts::TAU * (self.inductance_h * self.parallel_capacitance_f).sqrt()).recip()
    }

    pub(crate) fn impedance(&self, current_a: f64) -> Immittance {
        let inductance = self.loaded_inductance_h(current_a);
        let relaxation_s = self.relaxation_hz.map_or(0.0, |f| (std::f64::consts::TAU * f).recip())
            + self.core_loss_ohm.map_or(0.0, |r| inductance / r);
        Immittance::coil(self.resistance_ohm, inductance, relaxation_s, self.parallel_capacitance_f)
    }
}

impl Rebuild for Inductor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let mut coil = Self::new(knobs.value("inductance_h", "H", self.inductance_h, "positive"))?
            .with_resistance_ohm(knobs.value("resistance_ohm", "ohm", self.resistance_ohm, "zero or positive"))?
            .with_parallel_capacitance_f(knobs.value(
                "parallel_capacitance_f",
                "F",
                self.parallel_capacitance_f,
                "zero or positive",
            ))?;
        if let Some(value) = self.core_loss_ohm {
            coil = coil.with_core_loss_ohm(knobs.value("core_loss_ohm", "ohm", value, "positive"))?;
        }
        if let Some(value) = self.relaxation_hz {
            coil = coil.with_relaxation_hz(knobs.value("relaxation_hz", "Hz", value, "positive"))?;
        }
        if let Some(law) = self.saturation {
            coil = coil.with_saturation(Saturation::new(
                knobs.value("half_current_a", "A", law.half_current_a, "positive"),
                knobs.value("saturation_exponent", "", law.exponent, "positive"),
            )?);
        }
        Ok(coil)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct InductorRecord {
    inductance_h: f64,
    #[serde(default)]
    resistance_ohm: f64,
    #[serde(default)]
    parallel_capacitance_f: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    core_loss_ohm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    relaxation_hz: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    saturation: Option<Saturation>,
}

#[cfg(feature = "serde")]
impl TryFrom<InductorRecord> for Inductor {
    type Error = crate::Error;
    fn try_from(record: InductorRecord) -> Result<Self> {
        let mut coil = Self::new(record.inductance_h)?
            .with_resistance_ohm(record.resistance_ohm)?
            .with_parallel_capacitance_f(record.parallel_capacitance_f)?;
        if let Some(value) = record.core_loss_ohm {
            coil = coil.with_core_loss_ohm(value)?;
        }
        if let Some(value) = record.relaxation_hz {
            coil = coil.with_relaxation_hz(value)?;
        }
        Ok(Self { saturation: record.saturation, ..coil })
    }
}

#[cfg(feature = "serde")]
impl From<Inductor> for InductorRecord {
    fn from(coil: Inductor) -> Self {
        let Inductor { inductance_h, resistance_ohm, parallel_capacitance_f, core_loss_ohm, relaxation_hz, saturation } =
            coil;
        Self { inductance_h, resistance_ohm, parallel_capacitance_f, core_loss_ohm, relaxation_hz, saturation }
    }
}

/// A two-terminal capacitor.
///
/// ```text
/// Z = 1/(s C (1 - j tan d)) + R + s L
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "CapacitorRecord", into = "CapacitorRecord"))]
pub struct Capacitor {
    capacitance_f: f64,
    series_resistance_ohm: f64,
    series_inductance_h: f64,
    loss_tangent: f64,
}

impl Capacitor {
    /// An ideal capacitor of the given capacitance in farad.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(capacitance_f: f64) -> Result<Self> {
        Ok(Self {
            capacitance_f: check::positive("capacitance_f", "F", capacitance_f)?,
            series_resistance_ohm: 0.0,
            series_inductance_h: 0.0,
            loss_tangent: 0.0,
        })
    }

    /// With an equivalent series resistance, ohm. A resistor put in series on purpose counts here too.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_resistance_ohm(self, resistance_ohm: f64) -> Result<Self> {
        let series_resistance_ohm = check::non_negative("series_resistance_ohm", "ohm", resistance_ohm)?;
        Ok(Self { series_resistance_ohm, ..self })
    }

    /// With an equivalent series inductance, H: leads included.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_inductance_h(self, inductance_h: f64) -> Result<Self> {
        let series_inductance_h = check::non_negative("series_inductance_h", "H", inductance_h)?;
        Ok(Self { series_inductance_h, ..self })
    }

    /// With a dielectric loss tangent, taken as constant in frequency.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_loss_tangent(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: check::non_negative("loss_tangent", "", loss_tangent)?, ..self })
    }

    /// Capacitance, F.
    #[must_use]
    pub const fn capacitance_f(&self) -> f64 {
        self.capacitance_f
    }

    /// Equivalent series resistance, ohm.
    #[must_use]
    pub const fn series_resistance_ohm(&self) -> f64 {
        self.series_resistance_ohm
    }

    /// Equivalent series inductance, H.
    #[must_use]
    pub const fn series_inductance_h(&self) -> f64 {
        self.series_inductance_h
    }

    /// Dielectric loss tangent.
    #[must_use]
    pub const fn loss_tangent(&self) -> f64 {
        self.loss_tangent
    }

    /// Frequency at which the capacitor turns inductive, Hz; infinite without series inductance.
    #[must_use]
    pub fn self_resonance_hz(&self) -> f64 {
        (std::f64::consts::TAU * (self.capacitance_f * self.series_inductance_h).sqrt()).recip()
    }

    pub(crate) fn admittance(&self) -> Immittance {
        Immittance::capacitor(
            self.capacitance_f,
            self.loss_tangent,
            self.series_resistance_ohm,
            self.series_inductance_h,
        )
    }
}

impl Rebuild for Capacitor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(knobs.value("capacitance_f", "F", self.capacitance_f, "positive"))?
            .with_series_resistance_ohm(knobs.value(
                "series_resistance_ohm",
                "ohm",
                self.series_resistance_ohm,
                "zero or positive",
            ))?
            .with_series_inductance_h(knobs.value(
                "series_inductance_h",
                "H",
                self.series_inductance_h,
                "zero or positive",
            ))?
            .with_loss_tangent(knobs.value("loss_tangent", "", self.loss_tangent, "zero or positive"))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct CapacitorRecord {
    capacitance_f: f64,
    #[serde(default)]
    series_resistance_ohm: f64,
    #[serde(default)]
    series_inductance_h: f64,
    #[serde(default)]
    loss_tangent: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<CapacitorRecord> for Capacitor {
    type Error = crate::Error;
    fn try_from(record: CapacitorRecord) -> Result<Self> {
        Self::new(record.capacitance_f)?
            .with_series_resistance_ohm(record.series_resistance_ohm)?
            .with_series_inductance_h(record.series_inductance_h)?
            .with_loss_tangent(record.loss_tangent)
    }
}

#[cfg(feature = "serde")]
impl From<Capacitor> for CapacitorRecord {
    fn from(capacitor: Capacitor) -> Self {
        let Capacitor { capacitance_f, series_resistance_ohm, series_inductance_h, loss_tangent } = capacitor;
        Self { capacitance_f, series_resistance_ohm, series_inductance_h, loss_tangent }
    }
}

/// A resistor: R with series L, and C across both.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "ResistorRecord", into = "ResistorRecord"))]
pub struct Resistor {
    resistance_ohm: f64,
    series_inductance_h: f64,
    parallel_capacitance_f: f64,
}

impl Resistor {
    /// An ideal resistor, ohm.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn new(resistance_ohm: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm: check::positive("resistance_ohm", "ohm", resistance_ohm)?,
            series_inductance_h: 0.0,
            parallel_capacitance_f: 0.0,
        })
    }

    /// With a series inductance, H.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_series_inductance_h(self, inductance_h: f64) -> Result<Self> {
        let series_inductance_h = check::non_negative("series_inductance_h", "H", inductance_h)?;
        Ok(Self { series_inductance_h, ..self })
    }

    /// With a capacitance across it, F.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_parallel_capacitance_f(self, parallel_capacitance_f: f64) -> Result<Self> {
        let parallel_capacitance_f = check::non_negative("parallel_capacitance_f", "F", parallel_capacitance_f)?;
        Ok(Self { parallel_capacitance_f, ..self })
    }

    /// Resistance, ohm.
    #[must_use]
    pub const fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Series inductance, H.
    #[must_use]
    pub const fn series_inductance_h(&self) -> f64 {
        self.series_inductance_h
    }

    /// Parallel capacitance, F.
    #[must_use]
    pub const fn parallel_capacitance_f(&self) -> f64 {
        self.parallel_capacitance_f
    }

    pub(crate) fn impedance(&self) -> Immittance {
        Immittance::coil(self.resistance_ohm, self.series_inductance_h, 0.0, self.parallel_capacitance_f)
    }
}

impl Rebuild for Resistor {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(knobs.value("resistance_ohm", "ohm", self.resistance_ohm, "positive"))?
            .with_series_inductance_h(knobs.value(
                "series_inductance_h",
                "H",
                self.series_inductance_h,
                "zero or positive",
            ))?
            .with_parallel_capacitance_f(knobs.value(
                "parallel_capacitance_f",
                "F",
                self.parallel_capacitance_f,
                "zero or positive",
            ))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct ResistorRecord {
    resistance_ohm: f64,
    #[serde(default)]
    series_inductance_h: f64,
    #[serde(default)]
    parallel_capacitance_f: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<ResistorRecord> for Resistor {
    type Error = crate::Error;
    fn try_from(record: ResistorRecord) -> Result<Self> {
        Self::new(record.resistance_ohm)?
            .with_series_inductance_h(record.series_inductance_h)?
            .with_parallel_capacitance_f(record.parallel_capacitance_f)
    }
}

#[cfg(feature = "serde")]
impl From<Resistor> for ResistorRecord {
    fn from(resistor: Resistor) -> Self {
        let Resistor { resistance_ohm, series_inductance_h, parallel_capacitance_f } = resistor;
        Self { resistance_ohm, series_inductance_h, parallel_capacitance_f }
    }
}

/// Any two-terminal part.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(tag = "part", rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Part {
    /// A coil.
    Inductor(Inductor),
    /// A capacitor.
    Capacitor(Capacitor),
    /// A resistor.
    Resistor(Resistor),
}

impl Part {
    /// Impedance in ohms at a frequency in Hz and a load current in A.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64, current_a: f64) -> Complex64 {
        self.impedance(current_a).at(std::f64::consts::TAU * frequency_hz)
    }

    pub(crate) fn impedance(&self, current_a: f64) -> Immittance {
        match self {
            Self::Inductor(coil) => coil.impedance(current_a),
            Self::Capacitor(capacitor) => capacitor.admittance().inverse(),
            Self::Resistor(resistor) => resistor.impedance(),
        }
    }
}

impl From<Inductor> for Part {
    fn from(part: Inductor) -> Self {
        Self::Inductor(part)
    }
}

impl From<Capacitor> for Part {
    fn from(part: Capacitor) -> Self {
        Self::Capacitor(part)
    }
}

impl From<Resistor> for Part {
    fn from(part: Resistor) -> Self {
        Self::Resistor(part)
    }
}

impl Rebuild for Part {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(match self {
            Self::Inductor(part) => Self::Inductor(part.rebuild(knobs)?),
            Self::Capacitor(part) => Self::Capacitor(part.rebuild(knobs)?),
            Self::Resistor(part) => Self::Resistor(part.rebuild(knobs)?),
        })
    }
}
