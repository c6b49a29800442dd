//! Rules of thumb of the trade, by name, to compare with.
//!
//! No result of this crate rests on them. All take the tube as far below cutoff; near cutoff they promise more than is there.

use crate::error::{Result, check};

/// Far below cutoff, for each diameter of depth: the limit of 40 lg(e)·1.841 = 31.98.
pub const ROUND_DB_PER_DIAMETER: f64 = 32.0;
/// Far below cutoff, for each greater width of depth: the limit of 20 lg(e)·π = 27.29.
pub const DB_PER_WIDTH: f64 = 27.3;

/// Loss of a round tube at 32 dB per diameter of length, dB.
///
/// The limit f ≪ f_c of 40 lg(e)·1.841·L/d = 31.98 L/d. Handbooks, from memory.
///
/// # Errors
/// Unless both are positive and finite.
pub fn round_tube_db(diameter_m: f64, length_m: f64) -> Result<f64> {
    Ok(ROUND_DB_PER_DIAMETER * check::positive("length_m", "m", length_m)?
        / check::positive("diameter_m", "m", diameter_m)?)
}

/// Loss of a rectangular tube at 27.3 dB per greater width of length, dB.
///
/// The limit f ≪ f_c of 20 lg(e)·π·L/w = 27.29 L/w. Handbooks, from memory.
///
/// # Errors
/// Unless both are positive and finite.
pub fn rectangular_tube_db(width_m: f64, length_m: f64) -> Result<f64> {
    Ok(DB_PER_WIDTH * check::positive("length_m", "m", length_m)? / check::positive("width_m", "m", width_m)?)
}

/// What N cells are said to take from a panel's loss where they lie within half a wavelength, dB: 20 lg N.
///
/// A bound: amplitudes add. Common practice, no source.
#[must_use]
pub fn cells_in_step_db(cell_count: usize) -> f64 {
    20.0 * (cell_count.max(1) as f64).log10()
}

/// What N cells are said to take from a panel's loss where they are spread over many wavelengths, dB: 10 lg N.
///
/// Powers add. Common practice, no source.
#[must_use]
pub fn cells_apart_db(cell_count: usize) -> f64 {
    10.0 * (cell_count.max(1) as f64).log10()
}
