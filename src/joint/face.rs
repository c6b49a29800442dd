//! The faces of a joint as the field in its gap meets them: a metal, perhaps coated, perhaps a thin sheet.
//!
//! A layer of thickness t and wave impedance Z = √(μ/ε), in front of what has the impedance Z_b, is
//!
//! Z_s = Z (Z_b + Z tanh γt)/(Z + Z_b tanh γt),   γ = jk √(με),
//!
//! (for example S. Ramo, J. R. Whinnery, T. Van Duzer, *Fields and Waves in Communication Electronics*, 3rd ed.,
//! 1994, sec. 6.7, from memory): zinc on steel is zinc only where it is thicker than its skin depth. Behind a sheet
//! of finite thickness is free space, so that a sheet thinner than its skin depth has its resistance per square.

use num_complex::Complex64;

use crate::complex_functions::{decaying_root, exp_m1};
use crate::constants::{VACUUM_IMPEDANCE, wavenumber_per_m};
use crate::error::Result;
use crate::material::{Material, Medium, catalogue};
use crate::parameter::Element;
use crate::validity::Validity;

/// One face of a joint; the other is alike.
///
/// ```
/// use stillroom::{Material, joint::Face};
/// let (zinc, steel) = (Material::conductor("zinc", 1.682e7, 1.0)?, Material::conductor("steel", 5.8e6, 200.0)?);
/// let galvanised = Face::of(steel).coated(zinc.clone(), 20e-6)?;
/// // At 14 kHz the zinc is far thinner than its skin depth of 1 mm, and the steel decides.
/// let ratio = galvanised.surface_impedance_ohm(14e3).norm() / Face::of(zinc).surface_impedance_ohm(14e3).norm();
/// assert!(ratio > 15.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new = none, settle, told = by_parts)]
pub struct Face {
    /// The metal of the faces. Where neither this nor a coating is given, steel under 20 um of zinc.
    #[part(default = catalogue::get("steel")?, setter = none)]
    faces: Material,
    /// What they are coated with. Zinc where only its thickness is given.
    #[part(setter = none)]
    coating: Option<Material>,
    /// Thickness of the coating. 20 um where only the coating is given.
    #[parameter(non_negative, setter = none)]
    coating_thickness_m: Option<f64>,
    /// Thickness of the sheets, with free space behind them. Far beyond the skin depth where not given.
    #[parameter(positive, setter = of_sheet)]
    sheet_thickness_m: Option<f64>,
}

impl Face {
    /// A face of solid metal, much thicker than its skin depth.
    #[must_use]
    pub fn of(material: Material) -> Self {
        Self { faces: material, coating: None, coating_thickness_m: None, sheet_thickness_m: None }
    }

    /// The usual face of a steel panel: 20 µm of zinc on steel of the catalogue, the steel as thick as it likes
    /// (common practice, no source).
    ///
    /// # Errors
    /// None in practice: both materials are in the catalogue.
    pub fn galvanised() -> Result<Self> {
        Self::of(catalogue::get("steel")?).coated(catalogue::get("zinc")?, USUAL_ZINC_M)
    }

    /// From what is stated of metal, coating and its thickness (m) and thickness of the sheet (m): galvanised steel
    /// where neither metal nor coating is, 20 µm or zinc where a coating has no thickness or a thickness no coating.
    ///
    /// # Errors
    /// For thicknesses outside their domains.
    pub fn by_parts(
        faces: Option<Material>,
        coating: Option<Material>,
        coating_thickness_m: Option<f64>,
        sheet_thickness_m: Option<f64>,
    ) -> Result<Self> {
        let is_told = faces.is_some() || coating.is_some() || coating_thickness_m.is_some();
        let coating_thickness_m = if is_told { coating_thickness_m } else { Some(USUAL_ZINC_M) };
        let faces = faces.map_or_else(|| catalogue::get("steel"), Ok)?;
        Self::checked(faces, coating, coating_thickness_m, sheet_thickness_m)
    }

    fn settle(mut self) -> Result<Self> {
        if self.coating.is_none() && self.coating_thickness_m.is_some() {
            self.coating = Some(catalogue::get("zinc")?);
        }
        if self.coating.is_some() {
            self.coating_thickness_m = self.coating_thickness_m.or(Some(USUAL_ZINC_M));
        }
        Ok(self)
    }

    /// The same face under a coating of this thickness, m.
    ///
    /// # Errors
    /// Unless the thickness is zero or positive, and finite.
    pub fn coated(self, coating: Material, thickness_m: f64) -> Result<Self> {
        Self::checked(self.faces, Some(coating), Some(thickness_m), self.sheet_thickness_m)
    }

    /// The coating with its thickness, m.
    fn layer(&self) -> Option<(&Material, f64)> {
        self.coating.as_ref().zip(self.coating_thickness_m)
    }

    /// Surface impedance, ohm (per square).
    #[must_use]
    pub fn surface_impedance_ohm(&self, frequency_hz: f64) -> Complex64 {
        VACUUM_IMPEDANCE * self.relative_impedance(frequency_hz)
    }

    /// The same over the impedance of vacuum.
    pub(super) fn relative_impedance(&self, frequency_hz: f64) -> Complex64 {
        let k = wavenumber_per_m(frequency_hz);
        let metal = self.faces.medium(frequency_hz);
        let base = match self.sheet_thickness_m {
            Some(thickness_m) => in_front_of(Complex64::new(1.0, 0.0), metal, k * thickness_m),
            None => impedance(metal),
        };
        match self.layer() {
            Some((coating, thickness_m)) => in_front_of(base, coating.medium(frequency_hz), k * thickness_m),
            None => base,
        }
    }

    /// Where its materials are known: the metal counts while the coating lets a hundredth of the field pass.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let Some((coating, thickness_m)) = self.layer() else { return self.faces.validity(frequency_hz) };
        let own = coating.validity(frequency_hz);
        let medium = coating.medium(frequency_hz);
        let depths = thickness_in_waves(medium, wavenumber_per_m(frequency_hz) * thickness_m).re;
        if 2.0 * depths < HIDDEN { own.and(self.faces.validity(frequency_hz)) } else { own }
    }
}

impl From<Material> for Face {
    fn from(material: Material) -> Self {
        Self::of(material)
    }
}

/// Zinc of a hot-dip galvanised sheet, m (common practice, no source).
const USUAL_ZINC_M: f64 = 20e-6;

/// Nepers there and back after which nothing of the metal shows through its coating.
const HIDDEN: f64 = 4.6;

fn impedance(medium: Medium) -> Complex64 {
    decaying_root(medium.relative_permeability / medium.relative_permittivity)
}

/// γt, by the thickness in radians of vacuum.
fn thickness_in_waves(medium: Medium, radians: f64) -> Complex64 {
    decaying_root(-medium.relative_permeability * medium.relative_permittivity) * radians
}

/// A layer in front of what has the impedance `behind`, all over that of vacuum.
fn in_front_of(behind: Complex64, medium: Medium, radians: f64) -> Complex64 {
    let own = impedance(medium);
    let fall = exp_m1(-2.0 * thickness_in_waves(medium, radians));
    let tanh = -fall / (fall + 2.0);
    own * (behind + own * tanh) / (own + behind * tanh)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn zinc() -> Material {
        Material::conductor("zinc", 1.682e7, 1.0).unwrap()
    }

    fn steel(relative_permeability: f64) -> Material {
        Material::conductor("steel", 5.8e6, relative_permeability).unwrap()
    }

    #[test]
    fn zinc_on_steel_is_what_two_derivations_gave() {
        // Surface impedance of 20 um of zinc on steel, worked out twice from the equation of this module, apart
        // from the crate: 1.9089 and 2.7854 mohm with permeability 1000 and 700, 1.272 and 2.634 mohm with 200.
        for (f, permeability, expected, tolerance) in [
            (14e3, 1000.0, 1.9089e-3, 1e-4),
            (1e6, 700.0, 2.7854e-3, 1e-4),
            (14e3, 200.0, 1.272e-3, 1e-3),
            (1e6, 200.0, 2.634e-3, 1e-3),
        ] {
            let face = Face::of(steel(permeability)).coated(zinc(), 20e-6).unwrap();
            let ours = face.surface_impedance_ohm(f).norm();
            assert!((ours / expected - 1.0).abs() < tolerance, "{f} {permeability}: {ours}");
        }
    }

    #[test]
    fn thick_coatings_hide_and_thin_ones_vanish() {
        let (bare, plate) = (Face::of(steel(200.0)), Face::of(zinc()));
        for f in [1e3, 1e6, 1e10] {
            let at = |thickness| bare.clone().coated(zinc(), thickness).unwrap().surface_impedance_ohm(f);
            assert!((at(0.0) / bare.surface_impedance_ohm(f) - 1.0).norm() < 1e-14);
            assert!((at(1e-18) / bare.surface_impedance_ohm(f) - 1.0).norm() < 1e-9);
            assert!((at(1.0) / plate.surface_impedance_ohm(f) - 1.0).norm() < 1e-14);
        }
    }

    #[test]
    fn a_sheet_thinner_than_its_skin_depth_has_its_resistance_per_square() {
        let foil = Face::of(zinc()).of_sheet(1e-6).unwrap();
        let ours = foil.surface_impedance_ohm(1e3);
        assert!((ours.re * 1.682e7 * 1e-6 - 1.0).abs() < 1e-3 && ours.im.abs() < 1e-3 * ours.re, "{ours}");
        // Thick, it is the solid metal.
        let thick = Face::of(zinc()).of_sheet(0.1).unwrap().surface_impedance_ohm(1e6);
        assert!((thick / Face::of(zinc()).surface_impedance_ohm(1e6) - 1.0).norm() < 1e-14);
    }
}
