//! The double-exponential rule over a share from 0 to 1: equal steps in s, with share = 1/(1 + exp(−π sinh s)).
//!
//! Converges exponentially though ends may not be smooth (H. Takahasi, M. Mori, Publ. RIMS 9 (1974) 721, from memory).

use std::f64::consts::PI;

/// A place of the rule: the share and what is left of it, each with all its digits, and the weight, which may underflow, with
/// its logarithm, which does not.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Place {
    pub share: f64,
    pub rest: f64,
    pub weight: f64,
    pub ln_weight: f64,
}

/// The rule with 2n + 1 places, out to s = ± `reach`.
pub(crate) fn over_a_share(half_steps: i32, reach: f64) -> impl Iterator<Item = Place> {
    let step = reach / f64::from(half_steps);
    (-half_steps..=half_steps).map(move |index| {
        let s = f64::from(index) * step;
        let exponent = -PI * s.sinh();
        let share = 1.0 / (1.0 + exponent.exp());
        // dshare/ds = π cosh s · share · rest
        let ln_rest = exponent - exponent.exp().ln_1p();
        let ln_weight = (PI * step * s.cosh()).ln() + share.ln() + ln_rest;
        let rest = 1.0 / (1.0 + (-exponent).exp());
        Place { share, rest, weight: step * PI * s.cosh() * share * rest, ln_weight }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn integrals_with_rough_ends() {
        // ∫ x^(−1/2) = 2, ∫ ln x = −1, ∫ (x (1 − x))^(−1/2) = π.
        let sum = |value: fn(&Place) -> f64| -> f64 {
            over_a_share(112, 3.5).map(|place| place.weight * value(&place)).sum()
        };
        assert!((sum(|place| place.share.powf(-0.5)) - 2.0).abs() < 1e-8);
        assert!((sum(|place| place.share.ln()) + 1.0).abs() < 1e-12);
        assert!((sum(|place| (place.share * place.rest).powf(-0.5)) - PI).abs() < 1e-8);
    }
}
