//! Decibels, nepers and the logarithm of a transmission.
//!
//! Rooms reach hundreds of decibels and thick steel at millimetre waves reaches hundreds of
//! thousands: the amplitude itself underflows long before that. What is carried from model to
//! model is therefore the complex natural logarithm of the transmission.

use std::ops::{Add, AddAssign};

use num_complex::Complex64;

/// Decibels in one neper: 20 / ln 10.
pub const DB_PER_NEPER: f64 = 8.685_889_638_065_035;

/// Loss in dB (positive where power is lost) of a power ratio given as its natural logarithm.
#[must_use]
pub fn loss_db_of_ln_power(ln_power: f64) -> f64 {
    -0.5 * DB_PER_NEPER * ln_power
}

/// Natural logarithm of the power ratio that a loss in dB stands for.
#[must_use]
pub fn ln_power_of_loss_db(loss_db: f64) -> f64 {
    loss_db / (-0.5 * DB_PER_NEPER)
}

/// Natural logarithm of a sum of terms given as their logarithms; minus infinity for no terms.
#[must_use]
pub fn ln_sum(ln_terms: impl IntoIterator<Item = f64> + Clone) -> f64 {
    let largest = ln_terms.clone().into_iter().fold(f64::NEG_INFINITY, f64::max);
    if !largest.is_finite() {
        return largest;
    }
    largest + ln_terms.into_iter().map(|term| (term - largest).exp()).sum::<f64>().ln()
}

/// A complex amplitude transmission held as its natural logarithm, so that it never underflows.
///
/// The real part is minus the loss in nepers; the imaginary part is the phase in radians.
///
/// ```
/// use stillroom::decibel::LogTransmission;
/// let half = LogTransmission::from_amplitude(num_complex::Complex64::new(0.5, 0.0));
/// assert!((half.shielding_db() - 6.020_599_913).abs() < 1e-9);
/// assert!((half.then(half).shielding_db() - 12.041_199_827).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct LogTransmission(pub Complex64);

impl LogTransmission {
    /// Everything passes.
    pub const UNITY: Self = Self(Complex64::new(0.0, 0.0));

    /// From an amplitude that is at hand as an ordinary complex number.
    #[must_use]
    pub fn from_amplitude(amplitude: Complex64) -> Self {
        Self(amplitude.ln())
    }

    /// One transmission after another.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        Self(self.0 + next.0)
    }

    /// The complex natural logarithm of the amplitude ratio.
    #[must_use]
    pub fn ln(self) -> Complex64 {
        self.0
    }

    /// Natural logarithm of the power ratio.
    #[must_use]
    pub fn ln_power(self) -> f64 {
        2.0 * self.0.re
    }

    /// Loss in dB, positive where the transmission is less than one.
    #[must_use]
    pub fn shielding_db(self) -> f64 {
        -DB_PER_NEPER * self.0.re
    }

    /// The amplitude ratio; zero where it is below the smallest number that can be written.
    #[must_use]
    pub fn amplitude(self) -> Complex64 {
        self.0.exp()
    }
}

/// A sum that remembers only its largest term and the rest relative to it, so that terms of any
/// size can be added one by one.
#[derive(Debug, Clone, Copy)]
pub struct LnSum {
    largest: f64,
    scaled: f64,
}

impl Default for LnSum {
    fn default() -> Self {
        Self { largest: f64::NEG_INFINITY, scaled: 0.0 }
    }
}

impl LnSum {
    /// Natural logarithm of the sum so far.
    #[must_use]
    pub fn ln(self) -> f64 {
        self.largest + self.scaled.ln()
    }
}

impl AddAssign<f64> for LnSum {
    fn add_assign(&mut self, ln_term: f64) {
        if ln_term == f64::NEG_INFINITY {
            return;
        }
        if ln_term > self.largest {
            self.scaled = self.scaled * (self.largest - ln_term).exp() + 1.0;
            self.largest = ln_term;
        } else {
            self.scaled += (ln_term - self.largest).exp();
        }
    }
}

impl Add<f64> for LnSum {
    type Output = Self;
    fn add(mut self, ln_term: f64) -> Self {
        self += ln_term;
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decibels_per_neper() {
        assert!((DB_PER_NEPER - 20.0 / std::f64::consts::LN_10).abs() < 1e-15);
    }

    #[test]
    fn sums_of_tiny_terms_keep_their_digits() {
        let ln = ln_sum([-5000.0, -5000.0]);
        assert!((ln - (-5000.0 + 2f64.ln())).abs() < 1e-12);
        assert_eq!(ln_sum([]), f64::NEG_INFINITY);
        let running = LnSum::default() + -5000.0 + -4000.0 + f64::NEG_INFINITY + -4000.0;
        assert!((running.ln() - (-4000.0 + 2f64.ln())).abs() < 1e-12);
    }

    #[test]
    fn loss_round_trip() {
        for db in [-3.0, 0.0, 100.0, 3e5] {
            assert!((loss_db_of_ln_power(ln_power_of_loss_db(db)) - db).abs() <= 1e-10 * db.abs());
        }
    }
}
