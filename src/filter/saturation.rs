//! How an inductance falls with current, and which current that is.
//!
//! `L(i) = L0/(1 + (|i|/I_half)^p)`, `i` the current of the moment. Two numbers come of it:
//!
//! * at the **crest** (the peak, or a direct current) the least of the period: what radio frequency meets there, and what
//!   loss may be counted on. A peak is `sqrt(2)` times the effective value of a sine, 2 to 3 times that of a rectifier's
//!   current; without current the loss is the best that the part can do;
//! * for the **mean** over a sine of an effective value: what the voltage drop at the sine's own frequency is made of,
//!   `(1/pi) x integral of sin^2 L(i) over the period`. With `p = 2` and `x = I_rms/I_half` it is
//!   `L0 (sqrt(1 + 2 x^2) - 1)/x^2`.

use std::f64::consts::{FRAC_2_PI, SQRT_2};

use crate::numeric::double_exponential::over_a_share;
use crate::parameter::Element;

/// How an inductance falls with the current of the moment: `L(i) = L0/(1 + (|i|/I_half)^exponent)`.
///
/// The form is the one that makers of powder cores fit to their curves of permeability under bias; the
/// exponent is near 2 for powder and several times that for gapped ferrite (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct Saturation {
    /// Current (peak or direct) that halves the inductance.
    #[parameter(circuit_positive)]
    half_current_a: f64,
    /// Exponent of the law.
    #[parameter(circuit_positive)]
    saturation_exponent: f64,
}

impl Saturation {
    /// What remains of the inductance at a peak (or direct) current in A, from 1 down to 0.
    #[must_use]
    pub fn remaining(&self, peak_current_a: f64) -> f64 {
        (1.0 + (peak_current_a.abs() / self.half_current_a).powf(self.saturation_exponent)).recip()
    }

    /// What remains of the inductance for the voltage drop of a sine at its own frequency, from 1 down to 0, at an
    /// effective value in A.
    ///
    /// ```
    /// use stillroom::filter::Saturation;
    /// let law = Saturation::new(10.0, 2.0)?;
    /// // 10 A effective: sqrt(3) - 1 for the drop, 1/3 at the crest; 10 A direct leave 1/2.
    /// assert!((law.mean_remaining(10.0) - (3f64.sqrt() - 1.0)).abs() < 1e-14);
    /// assert!((law.remaining(2f64.sqrt() * 10.0) - 1.0 / 3.0).abs() < 1e-15);
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    #[must_use]
    pub fn mean_remaining(&self, current_rms_a: f64) -> f64 {
        // With u = i/i_peak: (4/pi) x integral of sqrt(1 - u^2)/(1 + (crest u)^p) from 0 to 1, cut where the law turns.
        let crest = SQRT_2 * current_rms_a.abs() / self.half_current_a;
        let turn = if crest > 1.0 { crest.recip() } else { 1.0 };
        let value = |u: f64, short_of_one: f64, ln_ratio: f64| {
            (short_of_one * (1.0 + u)).sqrt() / (1.0 + (self.saturation_exponent * ln_ratio).exp())
        };
        let below = share_integral(|share, rest| {
            let ln_share = if rest < 0.5 { (-rest).ln_1p() } else { share.ln() };
            value(turn * share, (1.0 - turn) + turn * rest, (crest * turn).ln() + ln_share)
        });
        let above = share_integral(|share, rest| {
            let beyond = (1.0 - turn) * share;
            value(turn + beyond, (1.0 - turn) * rest, (beyond / turn).ln_1p())
        });
        2.0 * FRAC_2_PI * (turn * below + (1.0 - turn) * above)
    }
}

/// Integral over a share from 0 to 1 of a function of the share and of what is left of it: ends need not be smooth.
fn share_integral(value: impl Fn(f64, f64) -> f64) -> f64 {
    over_a_share(112, 3.5).map(|place| place.weight * value(place.share, place.rest)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_of_a_period_has_a_closed_form_for_powder() {
        let law = Saturation::new(2.0, 2.0).unwrap();
        for x in [1e-3_f64, 0.1, 0.5, 0.707, 0.708, 1.0, 3.0, 100.0, 1e6] {
            // (sqrt(1 + 2 x^2) - 1)/x^2 without its cancellation.
            let exact = 2.0 / (1.0 + (1.0 + 2.0 * x * x).sqrt());
            let found = law.mean_remaining(2.0 * x);
            assert!((found / exact - 1.0).abs() < 1e-12, "{x}: {found} {exact}");
        }
        assert!((law.mean_remaining(0.0) - 1.0).abs() < 1e-14);
    }

    #[test]
    fn the_mean_of_other_exponents_equals_a_sum_over_the_period() {
        for exponent in [0.7, 1.0, 3.3, 8.0, 40.0] {
            let law = Saturation::new(1.0, exponent).unwrap();
            for rms in [0.2, 0.72, 2.0] {
                let steps = 200_000;
                let sum: f64 = (0..steps)
                    .map(|step| {
                        let angle = std::f64::consts::TAU * (f64::from(step) + 0.5) / f64::from(steps);
                        2.0 * angle.sin().powi(2) * law.remaining(SQRT_2 * rms * angle.cos())
                    })
                    .sum();
                let plain = sum / f64::from(steps);
                let found = law.mean_remaining(rms);
                assert!((found - plain).abs() < 1e-7, "{exponent} {rms}: {found} {plain}");
                assert!(found > law.remaining(SQRT_2 * rms) && found < 1.0 + 1e-14);
            }
        }
    }
}
