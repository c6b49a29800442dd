//! Catalogue of materials, each with the source of its constants.
//!
//! Conductivities of metals are given in the handbooks relative to copper (5.8·10⁷ S/m, the
//! International Annealed Copper Standard of 1913) and are typical. Building materials follow
//! Recommendation ITU-R P.2040-4, Table 3, with its frequency ranges (their coefficients as
//! transcribed in the open radio-material table of the repository NVlabs/sionna-rt, read).
//!
//! # Magnetic metals
//!
//! Permeabilities are those of weak fields, *local* (used with the skin depth), and differ more from
//! sheet to sheet than any other constant here: each magnetic row carries the least and the greatest
//! value that sources give, as the parameter `permeability_tolerance` from −1 to 1. Measure what
//! matters.
//!
//! **`steel` is ordinary low-carbon, cold-rolled sheet.** N. Bowler, "Frequency-dependence of relative
//! permeability in steel" (Iowa State University; opening read), found by four-point measurements on a
//! plate of AISI 1018 that it is complex and falls from about 280 at 1 to 10 Hz by a relaxation near
//! 5 kHz to about 90 at 100 kHz, in Cole and Cole's form. Its breadth was not read; ½ is taken, the
//! broadest that leaves the value at 10 Hz within 3 %:
//! μ = 55.9 + 224.1/(1 + √(j f/5 kHz)). Above 100 kHz nothing measured was found. The
//! fall to 1 happens mainly at microwaves (C. Kittel, Phys. Rev. 70 (1946) 281, abstract read); the rows
//! there are an estimate.
//!
//! From 1 kHz to 1 MHz this dispersion is disputed: coils on plates of medium-carbon steels fit one
//! constant value over that range (J. H. Rose, E. Uzal, J. C. Moulder, "Magnetic permeability and
//! eddy-current measurements", abstract read). So the greatest value is the static one up to 1 MHz. The
//! least has the static value 200 of AISI 1008 (Modelica Standard Library, `SoftMagnetic.Steel`, read)
//! and the same dispersion. Free-cutting steels have more, 400 to 500 (same list).
//!
//! Zinc on steel is a layer of its own: [`galvanised_steel`](crate::sheet::galvanised_steel).

use num_complex::Complex64;

use super::{Conductivity, Material, Permeability, PermeabilityTable, Permittivity, PowerLaw};
use crate::error::{Error, Result};

/// Conductivity of the International Annealed Copper Standard, S/m.
pub const COPPER_CONDUCTIVITY_S_PER_M: f64 = 5.8e7;

const HANDBOOK: &str = "conductivity relative to copper as listed with MIL-HDBK-419A vol. I sec. 8.3 \
(read in public course notes); typical";
const P2040: &str = "Recommendation ITU-R P.2040-4, Table 3 (coefficients read in NVlabs/sionna-rt)";
const VACUUM: &str = "definition";

/// name, conductivity relative to copper; not magnetic
const METALS: &[(&str, f64)] =
    &[("aluminium", 0.61), ("brass", 0.26), ("copper", 1.0), ("gold", 0.70), ("tin", 0.15), ("zinc", 0.29)];

/// A metal whose permeability is above that of vacuum.
struct Magnetic {
    name: &'static str,
    conductivity_s_per_m: f64,
    frequency_hz: &'static [f64],
    /// Permeability at low frequency: least, usual, greatest.
    initial: [f64; 3],
    /// What is left at each frequency of the excess over 1, and its loss: least, usual, greatest.
    left: [&'static [(f64, f64)]; 3],
    source: &'static str,
}

const DECADES_HZ: [f64; 12] = [1.0, 10.0, 100.0, 1e3, 10e3, 100e3, 1e6, 10e6, 100e6, 1e9, 10e9, 100e9];
/// Cole and Cole's relaxation to 1 MHz, then an estimate; losses there by π/2 times the fall for each unit of ln f.
const RELAXING: [(f64, f64); 12] = [
    (1.0, 0.008),
    (0.975, 0.024),
    (0.921, 0.066),
    (0.774, 0.139),
    (0.518, 0.1607),
    (0.319, 0.093),
    (0.237, 0.036),
    (0.20, 0.026),
    (0.16, 0.034),
    (0.10, 0.049),
    (0.015, 0.034),
    (0.0, 0.0),
];
/// The same, gone by 10 GHz, as the handbook's iron.
const SOON_GONE: [(f64, f64); 12] = {
    let mut left = RELAXING;
    left[9] = (0.06, 0.03);
    left[10] = (0.0, 0.0);
    left
};
/// The static value up to 1 MHz.
const CONSTANT: [(f64, f64); 12] = [
    (1.0, 0.0),
    (1.0, 0.0),
    (1.0, 0.0),
    (1.0, 0.0),
    (1.0, 0.0),
    (1.0, 0.0),
    (1.0, 0.0),
    (0.7, 0.0),
    (0.35, 0.0),
    (0.15, 0.0),
    (0.05, 0.0),
    (0.0, 0.0),
];
/// Up to 100 kHz: no value above was found.
const TO_100_KHZ: usize = 6;

/// MIL-HDBK-419A vol. I, Table 8-4, iron. The ends are the limits of the physics: static below the first row, no
/// magnetism left above the last, where the metal's permeability is that of vacuum.
const IRON_HZ: [f64; 7] = [1.0, 60.0, 150e3, 1e6, 100e6, 10e9, 10e12];
const IRON: [(f64, f64); 7] =
    [(1.0, 0.0), (1.0, 0.0), (1.0, 0.0), (699.0 / 999.0, 0.0), (99.0 / 999.0, 0.0), (0.0, 0.0), (0.0, 0.0)];

const ALL_HZ: [f64; 2] = [1e-3, 1e12];
const ALL: [(f64, f64); 2] = [(1.0, 0.0), (1.0, 0.0)];

const MU_METAL_HZ: [f64; 4] = [1e-3, 1e3, 10e3, 100e3];
const MU_METAL: [(f64, f64); 4] = [(1.0, 0.0), (1.0, 0.0), (0.55, 0.0), (0.18, 0.0)];

const MAGNETIC: &[Magnetic] = &[
    Magnetic {
        name: "austenitic stainless steel",
        conductivity_s_per_m: 1.0 / 0.72e-6,
        frequency_hz: &ALL_HZ,
        initial: [1.003, 1.02, 1.05],
        left: [&ALL; 3],
        source: "AISI 304 and 316, annealed: permeability 1.003 to 1.05 (British Stainless Steel Association, \
magnetic properties of austenitic stainless steels, read), 1.02 and 72 microohm cm of 304 in data sheets (read); \
cold work and welds raise that of 304",
    },
    Magnetic {
        name: "electrical steel",
        conductivity_s_per_m: 2.0e6,
        frequency_hz: DECADES_HZ.split_at(TO_100_KHZ).0,
        initial: [500.0, 1120.0, 2120.0],
        left: [RELAXING.split_at(TO_100_KHZ).0, RELAXING.split_at(TO_100_KHZ).0, CONSTANT.split_at(TO_100_KHZ).0],
        source: "3 % silicon, 50 microohm cm (launchloop.com/SkinDepth, read); initial permeability of five \
non-oriented sheets 500 to 2120, 1120 in the middle (Modelica Standard Library, SoftMagnetic.ElectricSheet, read); \
its fall with frequency is that of `steel`, for want of a local measurement, to 100 kHz",
    },
    Magnetic {
        name: "ferritic stainless steel",
        conductivity_s_per_m: 1.0 / 0.60e-6,
        frequency_hz: &DECADES_HZ,
        initial: [200.0, 274.0, 500.0],
        left: [&SOON_GONE, &RELAXING, &CONSTANT],
        source: "AISI 430: 60 microohm cm (data sheet, read), initial permeability 274 (X6Cr17 of the Modelica Standard \
Library, SoftMagnetic.Steel, read), 500 in the usual lists (from memory); its fall with frequency is that of `steel`, \
for want of a measurement",
    },
    Magnetic {
        name: "iron",
        conductivity_s_per_m: 0.17 * COPPER_CONDUCTIVITY_S_PER_M,
        frequency_hz: &IRON_HZ,
        initial: [100.0, 1000.0, 1000.0],
        left: [&IRON; 3],
        source: "conductivity as listed with MIL-HDBK-419A vol. I sec. 8.3; permeability from its Table 8-4 for iron \
(1000 to 150 kHz, 700 at 1 MHz, 100 at 100 MHz, 1 at 10 GHz), read: annealed soft iron, not sheet steel. In weak \
fields ordinary iron has about 100 (C. Kittel, Phys. Rev. 70 (1946) 281, abstract read), the lower end of the tolerance",
    },
    Magnetic {
        name: "mu-metal",
        conductivity_s_per_m: 0.03 * COPPER_CONDUCTIVITY_S_PER_M,
        frequency_hz: &MU_METAL_HZ,
        initial: [5000.0, 27_300.0, 80_000.0],
        left: [&MU_METAL; 3],
        source: "conductivity and the greatest permeability (80000) as listed with MIL-HDBK-419A vol. I sec. 8.3; \
initial permeability 27300 (R. Boll, Weichmagnetische Werkstoffe, 4th ed. 1990, as read in the Modelica Standard \
Library, SoftMagnetic.NickelIron), kept to 1 kHz; its fall to 100 kHz and the 5000 of sheet that was bent or knocked \
after annealing are rough figures from memory; nothing is given above 100 kHz",
    },
    Magnetic {
        name: "nickel",
        conductivity_s_per_m: 0.20 * COPPER_CONDUCTIVITY_S_PER_M,
        frequency_hz: &DECADES_HZ,
        initial: [1.0, 1.0, 100.0],
        left: [&CONSTANT; 3],
        source: "conductivity and permeability 1 as listed with MIL-HDBK-419A vol. I sec. 8.3, which fits platings \
of nickel with phosphorus; bulk nickel has about 100, falling to 1 at microwaves (C. Kittel, Phys. Rev. 70 (1946) \
281, abstract read), the upper end of the tolerance",
    },
    Magnetic {
        name: "steel",
        conductivity_s_per_m: 0.10 * COPPER_CONDUCTIVITY_S_PER_M,
        frequency_hz: &DECADES_HZ,
        initial: [200.0, 280.0, 280.0],
        left: [&SOON_GONE, &RELAXING, &CONSTANT],
        source: "ordinary low-carbon, cold-rolled: conductivity as listed with MIL-HDBK-419A vol. I sec. 8.3; \
permeability of AISI 1018, 280 at some Hz, 90 at 100 kHz, complex (N. Bowler, Frequency-dependence of relative \
permeability in steel, opening read), its breadth assumed; above 100 kHz estimated. Disputed from 1 kHz to 1 MHz: the \
tolerance reaches from AISI 1008 (200 at low frequency) to a constant 280",
    },
];

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
    let magnetic = MAGNETIC.iter().map(|row| row.name);
    let building = BUILDING.iter().map(|row| row.0);
    metals.chain(magnetic).chain(building).chain(["vacuum"]).collect()
}

/// One material by its name.
///
/// # Errors
/// [`Error::UnknownName`] with the names that exist.
///
/// ```
/// use stillroom::material::catalogue;
/// let steel = catalogue::get("steel")?;
/// assert!(steel.source().contains("AISI 1018"));
/// # Ok::<(), stillroom::Error>(())
/// ```
pub fn get(name: &str) -> Result<Material> {
    if let Some(&(_, relative)) = METALS.iter().find(|row| row.0 == name) {
        let metal = Material::conductor(name, relative * COPPER_CONDUCTIVITY_S_PER_M, 1.0)?;
        return Ok(metal.with_source(HANDBOOK));
    }
    if let Some(metal) = MAGNETIC.iter().find(|row| row.name == name) {
        return metal.material();
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
        kind: "material".into(),
        name: name.to_owned(),
        known: names().into_iter().map(str::to_owned).collect(),
    })
}

impl Magnetic {
    fn material(&self) -> Result<Material> {
        let [least, usual, greatest] = [0, 1, 2].map(|place| self.permeability(place));
        let (real, loss) = usual.iter().map(|value| (value.re, -value.im)).unzip();
        let table = PermeabilityTable::new(self.frequency_hz.to_vec(), real, loss)?.with_bounds(least, greatest)?;
        let metal = Material::new(
            self.name,
            Conductivity::Constant(self.conductivity_s_per_m),
            Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 },
            Permeability::Tabulated(table),
        )?;
        Ok(metal.with_source(self.source))
    }

    fn permeability(&self, place: usize) -> Vec<Complex64> {
        let excess = self.initial[place] - 1.0;
        self.left[place].iter().map(|&(real, loss)| Complex64::new(1.0 + excess * real, -excess * loss)).collect()
    }
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
    fn the_usual_permeability_lies_between_its_bounds() {
        for row in MAGNETIC {
            let [least, usual, greatest] = [0, 1, 2].map(|place| row.permeability(place));
            for ((least, usual), greatest) in least.iter().zip(&usual).zip(&greatest) {
                // A thousandth for the loss at the lowest row, where usual and greatest are one static value.
                let ordered = least.norm() <= usual.norm() && usual.norm() <= 1.001 * greatest.norm();
                assert!(ordered, "{}: {least} {usual} {greatest}", row.name);
            }
        }
    }

    #[test]
    fn unknown_names_list_the_known() {
        let text = get("unobtainium").unwrap_err().to_string();
        assert!(text.contains("unknown material \"unobtainium\"") && text.contains("copper"), "{text}");
    }
}
