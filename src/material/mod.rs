//! Conductors, dielectrics and magnetic materials, and a catalogue with the source of every row.
//!
//! A [`Material`] joins a conductivity, a permittivity and a permeability, each of which may depend
//! on frequency. At one frequency they make a [`Medium`]:
//!
//! ε = ε'(1 − j tan δ) − jσ/(ωε₀), time convention exp(+jωt),
//!
//! so that one formula serves metals and insulators alike (for example D. M. Pozar, *Microwave
//! Engineering*, 4th ed., 2012, eq. 1.20).
//!
//! Permeabilities of metals are typical values for weak fields: they fall with frequency, depend on
//! the field strength, and drop where the metal was bent, cut or welded.

pub mod catalogue;
mod medium_lanes;
mod permeability;

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::{VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY};
use crate::error::{Error, Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

pub(crate) use medium_lanes::{FrequencyLanes, MaterialLanes};
pub use permeability::{Permeability, PermeabilityTable};

/// Frequency that the power laws of building materials are written in, Hz.
const POWER_LAW_UNIT_HZ: f64 = 1e9;

/// A quantity that follows `coefficient · (f / 1 GHz)^exponent`, as Recommendation ITU-R P.2040
/// writes permittivity and conductivity of building materials.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct PowerLaw {
    /// Value at 1 GHz.
    pub coefficient: f64,
    /// Exponent of the frequency.
    pub exponent: f64,
}

impl PowerLaw {
    /// The value at a frequency in hertz.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> f64 {
        // The common row has exponent 0, and then needs no power at all.
        if self.exponent == 0.0 {
            self.coefficient
        } else {
            self.coefficient * (frequency_hz / POWER_LAW_UNIT_HZ).powf(self.exponent)
        }
    }
}

/// Electric conductivity, S/m.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Conductivity {
    /// The same at every frequency.
    Constant(f64),
    /// A power law in frequency.
    PowerLaw(PowerLaw),
}

/// Relative permittivity, without the part that conduction makes.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Permittivity {
    /// The same at every frequency, with a loss tangent.
    Constant {
        /// Real part, at least 1.
        relative: f64,
        /// Loss tangent, zero or positive.
        loss_tangent: f64,
    },
    /// A power law in frequency, without loss of its own.
    PowerLaw(PowerLaw),
}

/// What a wave meets at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Medium {
    /// Complex relative permittivity including conduction; imaginary part zero or negative.
    pub relative_permittivity: Complex64,
    /// Complex relative permeability; imaginary part zero or negative.
    pub relative_permeability: Complex64,
}

impl Medium {
    /// Vacuum, and air to within 6·10⁻⁴ in permittivity.
    pub const VACUUM: Self =
        Self { relative_permittivity: Complex64::new(1.0, 0.0), relative_permeability: Complex64::new(1.0, 0.0) };
}

/// A material with a name, its constants and where they hold.
///
/// ```
/// use stillroom::material::Material;
/// // Skin depth of copper at 60 Hz: 8.5 mm (H. W. Ott, Noise Reduction Techniques, ch. 6; from memory).
/// let copper = Material::conductor("copper", 5.8e7, 1.0)?;
/// assert!((copper.skin_depth_m(60.0) - 8.53e-3).abs() < 0.01e-3);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Material {
    name: String,
    conductivity: Conductivity,
    permittivity: Permittivity,
    permeability: Permeability,
    range_hz: Option<(f64, f64)>,
    source: String,
}

impl Material {
    /// A material from its three constants.
    ///
    /// # Errors
    /// For a negative or non-finite conductivity, a relative permittivity below 1, a negative loss
    /// tangent (a medium with gain), or a relative permeability that is not positive.
    pub fn new(
        name: impl Into<String>,
        conductivity: Conductivity,
        permittivity: Permittivity,
        permeability: Permeability,
    ) -> Result<Self> {
        // What the checks give back is kept: they turn a negative zero into zero, whose sign would otherwise reach
        // a square root.
        let conductivity = match conductivity {
            Conductivity::Constant(value) => {
                Conductivity::Constant(check::non_negative("conductivity_s_per_m", "S/m", value)?)
            }
            Conductivity::PowerLaw(law) => Conductivity::PowerLaw(PowerLaw {
                coefficient: check::non_negative("conductivity_s_per_m.coefficient", "S/m", law.coefficient)?,
                exponent: check::finite("conductivity_s_per_m.exponent", "", law.exponent)?,
            }),
        };
        let permittivity = match permittivity {
            Permittivity::Constant { relative, loss_tangent } => Permittivity::Constant {
                relative: check::at_least_one("relative_permittivity", relative)?,
                loss_tangent: check::non_negative("loss_tangent", "", loss_tangent)?,
            },
            Permittivity::PowerLaw(law) => {
                check::at_least_one("relative_permittivity.coefficient", law.coefficient)?;
                check::finite("relative_permittivity.exponent", "", law.exponent)?;
                Permittivity::PowerLaw(law)
            }
        };
        permeability.checked()?;
        let name = name.into();
        if name.is_empty() {
            return Err(Error::Empty { quantity: "name".to_owned() });
        }
        Ok(Self { name, conductivity, permittivity, permeability, range_hz: None, source: String::new() })
    }

    /// A metal: conductivity in S/m and constant relative permeability.
    ///
    /// # Errors
    /// For a conductivity or a permeability that is not positive and finite.
    pub fn conductor(name: impl Into<String>, conductivity_s_per_m: f64, relative_permeability: f64) -> Result<Self> {
        check::positive("conductivity_s_per_m", "S/m", conductivity_s_per_m)?;
        Self::new(
            name,
            Conductivity::Constant(conductivity_s_per_m),
            Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 },
            Permeability::Constant(relative_permeability),
        )
    }

    /// An insulator: relative permittivity (at least 1) and loss tangent (zero or positive).
    ///
    /// # Errors
    /// For values outside those domains.
    pub fn dielectric(name: impl Into<String>, relative_permittivity: f64, loss_tangent: f64) -> Result<Self> {
        Self::new(
            name,
            Conductivity::Constant(0.0),
            Permittivity::Constant { relative: relative_permittivity, loss_tangent },
            Permeability::Constant(1.0),
        )
    }

    /// The same material, said to hold from `low_hz` to `high_hz` only.
    ///
    /// # Errors
    /// Unless 0 ≤ low < high.
    pub fn within_range(mut self, low_hz: f64, high_hz: f64) -> Result<Self> {
        check::non_negative("low_hz", "Hz", low_hz)?;
        check::positive("high_hz", "Hz", high_hz)?;
        check::less_than("low_hz", "Hz", low_hz, "high_hz", high_hz)?;
        self.range_hz = Some((low_hz, high_hz));
        Ok(self)
    }

    /// The same material with a note of where its constants come from.
    #[must_use]
    pub fn with_source(mut self, source: impl Into<String>) -> Self {
        self.source = source.into();
        self
    }

    /// The name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where the constants come from; empty where the caller did not say.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The conductivity as it was given.
    #[must_use]
    pub fn conductivity(&self) -> &Conductivity {
        &self.conductivity
    }

    /// The permittivity as it was given.
    #[must_use]
    pub fn permittivity(&self) -> &Permittivity {
        &self.permittivity
    }

    /// The permeability as it was given.
    #[must_use]
    pub fn permeability(&self) -> &Permeability {
        &self.permeability
    }

    /// The frequencies between which the constants are known, if that is limited.
    #[must_use]
    pub fn range_hz(&self) -> Option<(f64, f64)> {
        self.range_hz
    }

    /// Conductivity in S/m at a frequency.
    #[must_use]
    pub fn conductivity_s_per_m(&self, frequency_hz: f64) -> f64 {
        match &self.conductivity {
            Conductivity::Constant(value) => *value,
            Conductivity::PowerLaw(law) => law.at(frequency_hz),
        }
    }

    /// Complex relative permittivity and permeability at a frequency, conduction included.
    #[must_use]
    pub fn medium(&self, frequency_hz: f64) -> Medium {
        let (real, loss_tangent) = match &self.permittivity {
            Permittivity::Constant { relative, loss_tangent } => (*relative, *loss_tangent),
            Permittivity::PowerLaw(law) => (law.at(frequency_hz), 0.0),
        };
        let conduction = self.conductivity_s_per_m(frequency_hz) / (2.0 * PI * frequency_hz * VACUUM_PERMITTIVITY);
        Medium {
            relative_permittivity: Complex64::new(real, -(real * loss_tangent + conduction)),
            relative_permeability: self.permeability.at(frequency_hz),
        }
    }

    /// Skin depth 1/Re √(jωμσ), m: where a field in a good conductor has fallen to 1/e; √(2/(ωμσ)) where the
    /// permeability has no loss of its own.
    ///
    /// With μ = μ' − jμ'' it is √(2/(ω(|μ| + μ'')σ)): magnetic loss makes it smaller. Holds for a good conductor
    /// (σ ≫ ωε); infinite where there is no conductivity. Source: S. Ramo, J. Whinnery, T. Van Duzer, *Fields and
    /// Waves in Communication Electronics*, 3rd ed., 1994, sec. 3.16 (from memory).
    #[must_use]
    pub fn skin_depth_m(&self, frequency_hz: f64) -> f64 {
        let relative = self.permeability.at(frequency_hz);
        let permeability = VACUUM_PERMEABILITY * (relative.norm() - relative.im);
        (1.0 / (PI * frequency_hz * permeability * self.conductivity_s_per_m(frequency_hz))).sqrt()
    }

    /// Whether the constants are known at a frequency, the permeability among them.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.electric_validity(frequency_hz).and(self.permeability.validity(frequency_hz))
    }

    /// Whether permittivity and conductivity are known at a frequency.
    pub fn electric_validity(&self, frequency_hz: f64) -> Validity {
        match self.range_hz {
            None => Validity::Holds,
            Some(range) => Validity::within(
                "material constants",
                "frequency",
                "Hz",
                frequency_hz,
                range,
                "permittivity and conductivity are extrapolated",
            ),
        }
    }
}

impl Rebuild for Material {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let conductivity = match &self.conductivity {
            Conductivity::Constant(value) => {
                Conductivity::Constant(knobs.value("conductivity_s_per_m", "S/m", *value, Domain::NON_NEGATIVE))
            }
            law @ Conductivity::PowerLaw(_) => law.clone(),
        };
        let permittivity = match &self.permittivity {
            Permittivity::Constant { relative, loss_tangent } => Permittivity::Constant {
                relative: knobs.value("relative_permittivity", "", *relative, Domain::AT_LEAST_ONE),
                loss_tangent: knobs.value("loss_tangent", "", *loss_tangent, Domain::NON_NEGATIVE),
            },
            law @ Permittivity::PowerLaw(_) => law.clone(),
        };
        let rebuilt = Self::new(self.name.clone(), conductivity, permittivity, self.permeability.rebuild(knobs)?)?;
        Ok(Self { range_hz: self.range_hz, source: self.source.clone(), ..rebuilt })
    }
}

/// What a file holds; every value passes [`Material::new`] on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    name: String,
    conductivity: Conductivity,
    permittivity: Permittivity,
    permeability: Permeability,
    range_hz: Option<(f64, f64)>,
    #[serde(default)]
    source: String,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Material {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        let material = Self::new(record.name, record.conductivity, record.permittivity, record.permeability)?
            .with_source(record.source);
        match record.range_hz {
            None => Ok(material),
            Some((low_hz, high_hz)) => material.within_range(low_hz, high_hz),
        }
    }
}

#[cfg(feature = "serde")]
impl From<Material> for Record {
    fn from(material: Material) -> Self {
        let Material { name, conductivity, permittivity, permeability, range_hz, source } = material;
        Self { name, conductivity, permittivity, permeability, range_hz, source }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameter::Parameters;

    #[test]
    fn a_medium_with_gain_is_refused() {
        let error = Material::dielectric("foam", 1.1, -0.01).unwrap_err();
        assert_eq!(error.to_string(), "`loss_tangent` = -0.01: must be zero or positive, and finite");
        assert!(Material::conductor("steel", 5.8e6, 0.0).is_err());
        assert!(Material::dielectric("foam", 0.9, 0.0).is_err());
        assert!(Material::dielectric("", 1.1, 0.0).is_err());
    }

    #[test]
    fn conduction_is_loss() {
        let medium = Material::conductor("copper", 5.8e7, 1.0).unwrap().medium(1e6);
        let expected = -5.8e7 / (2.0 * PI * 1e6 * VACUUM_PERMITTIVITY);
        assert!((medium.relative_permittivity.im / expected - 1.0).abs() < 1e-15);
    }

    #[test]
    fn range_survives_a_rebuild() {
        let wood = catalogue::get("wood").unwrap();
        assert!(!wood.validity(10e3).holds());
        let steel = catalogue::get("steel").unwrap();
        let better = steel.with_parameter("conductivity_s_per_m", 6e6).unwrap();
        assert_eq!(better.range_hz(), steel.range_hz());
        assert_eq!(better.source(), steel.source());
    }

    /// A field in the metal falls as exp(−Re √(jωμσ) x), by complex arithmetic.
    #[test]
    fn magnetic_loss_shortens_the_skin_depth() {
        let relaxing = Permeability::Relaxing { initial: 280.0, relaxation_hz: 5e3 };
        let permittivity = Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 };
        let metal = Material::new("metal", Conductivity::Constant(5.8e6), permittivity, relaxing).unwrap();
        for f in [10.0, 5e3, 1e6] {
            let permeability = VACUUM_PERMEABILITY * metal.medium(f).relative_permeability;
            let decay = (Complex64::new(0.0, 2.0 * PI * f * 5.8e6) * permeability).sqrt().re;
            assert!((metal.skin_depth_m(f) * decay - 1.0).abs() < 1e-14);
        }
    }

    #[test]
    fn a_permeability_moves_within_its_tolerance() {
        let steel = catalogue::get("steel").unwrap();
        let at = |place: f64| steel.with_parameter("permeability_tolerance", place).unwrap().medium(1e4);
        let [least, usual, greatest] = [-1.0, 0.0, 1.0].map(|place| at(place).relative_permeability.norm());
        assert!(least < usual && usual < greatest, "{least} {usual} {greatest}");
        assert!(steel.with_parameter("permeability_tolerance", -1.5).is_err());
        assert!(catalogue::get("copper").unwrap().parameter("permeability_tolerance").is_err());
    }
}
