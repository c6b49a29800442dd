//! The handbook rule for a slot, for comparison.

use crate::constants::wavelength_m;
use crate::error::{Result, check};

/// Rule of thumb for the shielding of a wall with one slot, 20 lg(λ/2l), dB; zero from the half-wave
/// length up.
///
/// It assumes a slot much narrower than long in a wall much thinner than that, a plane wave whose
/// electric field lies across the slot, a receiver neither near the slot nor near another, and
/// nothing behind the wall that resonates. It knows neither the width nor the depth nor the distance,
/// so a budget uses [`RectangularSlot`](super::RectangularSlot) instead.
///
/// Source: H. W. Ott, *Noise Reduction Techniques in Electronic Systems*, 2nd ed., 1988, ch. 6 (from
/// memory).
///
/// ```
/// // 150 mm at 100 MHz: 20 dB.
/// let rule = stillroom::aperture::slot_rule_of_thumb_db(0.15, 100e6)?;
/// assert!((rule - 20.0).abs() < 0.01);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// Unless length (m) and frequency (Hz) are positive and finite.
pub fn slot_rule_of_thumb_db(length_m: f64, frequency_hz: f64) -> Result<f64> {
    let length_m = check::positive("length_m", "m", length_m)?;
    let frequency_hz = check::frequency(frequency_hz)?;
    Ok((20.0 * (wavelength_m(frequency_hz) / (2.0 * length_m)).log10()).max(0.0))
}
