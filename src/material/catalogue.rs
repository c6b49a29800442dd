//! Catalogue of materials, each with the source of its constants.
//!
//! Conductivities of metals are given in the handbooks relative to copper (5.8·10⁷ S/m, the
//! International Annealed Copper Standard of 1913) and are typical, as are permeabilities: measure
//! what matters. Building materials follow Recommendation ITU-R P.2040-3, Table 3, with its
//! frequency ranges (their coefficients as transcribed in the open radio-material table of the
//! repository NVlabs/sionna-rt, read).

use super::{Conductivity, Material, Permeability, PermeabilityTable, Permittivity, PowerLaw};
use crate::error::{Error, Result};

/// Conductivity of the International Annealed Copper Standard, S/m.
pub const COPPER_CONDUCTIVITY_S_PER_M: f64 = 5.8e7;

const HANDBOOK: &str = "relative conductivity and permeability as listed with MIL-HDBK-419A vol. I sec. 8.3 \
(read in public course notes); typical values";
const IRON_TABLE: &str = "conductivity as listed with MIL-HDBK-419A vol. I sec. 8.3; permeability against frequency \
from its Table 8-4 for iron (1000 to 150 kHz, 700 at 1 MHz, 100 at 100 MHz, 1 at 10 GHz), read; typical values, weak fields only";
const P2040: &str = "Recommendation ITU-R P.2040-3, Table 3 (coefficients read in NVlabs/sionna-rt)";
const VACUUM: &str = "definition";

/// name, conductivity relative to copper, relative permeability
const METALS: &[(&str, f64, f64)] = &[
    ("aluminium", 0.61, 1.0),
    ("brass", 0.26, 1.0),
    ("copper", 1.0, 1.0),
    ("gold", 0.70, 1.0),
    ("mu-metal", 0.03, 80_000.0),
    ("nickel", 0.20, 1.0),
    ("stainless steel", 0.02, 1000.0),
    ("tin", 0.15, 1.0),
    ("zinc", 0.29, 1.0),
];

/// name, conductivity relative to copper; permeability falls with frequency
const FERROUS: &[(&str, f64)] = &[("iron", 0.17), ("steel", 0.10)];
/// The ends are the limits of the physics: static below the first row, no magnetism left above the
/// last, where the metal's permeability is that of vacuum.
const FERROUS_HZ: [f64; 7] = [1.0, 60.0, 150e3, 1e6, 100e6, 10e9, 10e12];
const FERROUS_PERMEABILITY: [f64; 7] = [1000.0, 1000.0, 1000.0, 700.0, 100.0, 1.0, 1.0];

/// name, a, b, c, d, lowest and highest frequency in GHz: ε' = a f^b, σ = c f^d with f in GHz
const BUILDING: &[(&str, f64, f64, f64, f64, f64, f64)] = &[
    ("asphalt concrete", 4.83, 0.0, 0.0108, 1.3969, 1.0, 40.0),
    ("brick", 3.91, 0.0, 0.0238, 0.16, 1.0, 40.0),
    ("carpet tile", 2.08, 0.0, 0.0009, 0.8200, 1.0, 40.0),
    ("ceiling board", 1.48, 0.0, 0.0011, 1.0750, 1.0, 100.0),
    ("chipboard", 2.58, 0.0, 0.0217, 0.7800, 1.0, 100.0),
    ("concrete", 5.24, 0.0, 0.0462, 0.7822, 1.0, 100.0),
    ("floorboard", 3.66, 0.0, 0.0044, 1.3515, 50.0, 100.0),
    ("glass", 6.31, 0.0, 0.0036, 1.3394, 0.1, 100.0),
    ("marble", 7.074, 0.0, 0.0055, 0.9262, 1.0, 60.0),
    ("medium dry ground", 15.0, -0.1, 0.035, 1.63, 1.0, 10.0),
    ("plasterboard", 2.73, 0.0, 0.0085, 0.9395, 1.0, 100.0),
    ("plywood", 2.71, 0.0, 0.33, 0.0, 1.0, 40.0),
    ("very dry ground", 3.0, 0.0, 0.00015, 2.52, 1.0, 10.0),
    ("vinyl tile", 3.62, 0.0, 0.0051, 0.8422, 1.0, 40.0),
    ("wet ground", 30.0, -0.4, 0.15, 1.30, 1.0, 10.0),
    ("wood", 1.99, 0.0, 0.0047, 1.0718, 0.001, 100.0),
];

/// Names of all materials in the catalogue, metals first.
#[must_use]
pub fn names() -> Vec<&'static str> {
    let metals = METALS.iter().map(|row| row.0);
    let ferrous = FERROUS.iter().map(|row| row.0);
    let building = BUILDING.iter().map(|row| row.0);
    metals.chain(ferrous).chain(building).chain(["vacuum"]).collect()
}

/// One material by its name.
///
/// # Errors
/// [`Error::UnknownName`] with the names that exist.
///
/// ```
/// use stillroom::material::catalogue;
/// let steel = catalogue::get("steel")?;
/// assert!(steel.source().contains("MIL-HDBK-419A"));
/// # Ok::<(), stillroom::Error>(())
/// ```
pub fn get(name: &str) -> Result<Material> {
    if let Some(&(_, relative, permeability)) = METALS.iter().find(|row| row.0 == name) {
        let metal = Material::conductor(name, relative * COPPER_CONDUCTIVITY_S_PER_M, permeability)?;
        return Ok(metal.with_source(HANDBOOK));
    }
    if let Some(&(_, relative)) = FERROUS.iter().find(|row| row.0 == name) {
        let table = PermeabilityTable::new(FERROUS_HZ.to_vec(), FERROUS_PERMEABILITY.to_vec(), Vec::new())?;
        let metal = Material::new(
            name,
            Conductivity::Constant(relative * COPPER_CONDUCTIVITY_S_PER_M),
            Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 },
            Permeability::Tabulated(table),
        )?;
        return Ok(metal.with_source(IRON_TABLE));
    }
    if let Some(&(_, a, b, c, d, low_ghz, high_ghz)) = BUILDING.iter().find(|row| row.0 == name) {
        let material = Material::new(
            name,
            Conductivity::PowerLaw(PowerLaw { coefficient: c, exponent: d }),
            Permittivity::PowerLaw(PowerLaw { coefficient: a, exponent: b }),
            Permeability::Constant(1.0),
        )?;
        return Ok(material.within_range(low_ghz * 1e9, high_ghz * 1e9)?.with_source(P2040));
    }
    if name == "vacuum" {
        return Ok(Material::dielectric(name, 1.0, 0.0)?.with_source(VACUUM));
    }
    Err(Error::UnknownName {
        kind: "material",
        name: name.to_owned(),
        known: names().into_iter().map(str::to_owned).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_there_once_and_has_a_source() {
        let names = names();
        for (index, name) in names.iter().enumerate() {
            let material = get(name).unwrap();
            assert_eq!(material.name(), *name);
            assert!(!material.source().is_empty());
            assert!(!names[..index].contains(name), "{name} twice");
        }
    }

    #[test]
    fn unknown_names_list_the_known() {
        let text = get("unobtainium").unwrap_err().to_string();
        assert!(text.contains("unknown material \"unobtainium\"") && text.contains("copper"), "{text}");
    }
}
