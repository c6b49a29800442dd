//! Galvanised steel: zinc on both faces of a sheet of steel.
//!
//! Zinc conducts three times as well as steel and is not magnetic. Above the frequency at which it is a skin depth
//! thick (some 40 MHz for 20 µm) currents keep to it; below, it only lies beside the steel. Nothing was found in print
//! on the permeability of galvanised sheet, so it is what it is made of: layers.

use super::laminate::Layer;
use crate::error::{Result, check};
use crate::material::catalogue;

/// Thickness of zinc on each face of sheet coated with 275 g/m² in all (Z275, in ounces G90), m: 7.14 g/m² make 1 µm
/// (GalvInfo Center, notes on coating weight, read).
pub const Z275_ZINC_M: f64 = 275.0 / 2.0 / 7.14 * 1e-6;

/// The layers of a galvanised sheet, zinc - steel - zinc: thickness of its steel and of the zinc on each face, m.
///
/// The steel is the catalogue's, ordinary low-carbon sheet.
///
/// ```
/// use stillroom::sheet::{Laminate, Z275_ZINC_M, galvanised_steel};
/// let wall = Laminate::new(galvanised_steel(0.5e-3, Z275_ZINC_M)?)?;
/// assert_eq!(wall.layers().len(), 3);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// Unless both are positive and finite.
pub fn galvanised_steel(steel_m: f64, zinc_m: f64) -> Result<Vec<Layer>> {
    check::positive("steel_m", "m", steel_m)?;
    check::positive("zinc_m", "m", zinc_m)?;
    let zinc = Layer::slab(catalogue::get("zinc")?, zinc_m)?;
    Ok(vec![zinc.clone(), Layer::slab(catalogue::get("steel")?, steel_m)?, zinc])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nonsense_is_named() {
        assert!(galvanised_steel(0.0, 2e-5).unwrap_err().to_string().contains("steel_m"));
        assert!(galvanised_steel(5e-4, f64::NAN).unwrap_err().to_string().contains("zinc_m"));
    }
}
