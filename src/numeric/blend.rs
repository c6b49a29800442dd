//! From one law to another without a step.

use pulp::Simd;

use crate::lanes::Real;

/// 0 below 0, 1 above 1, and smooth to the first derivative.
pub(crate) fn smooth_step(x: f64) -> f64 {
    let x = x.clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

/// The same for all lanes.
#[inline(always)]
pub(crate) fn smooth_step_lanes<S: Simd>(x: Real<S>) -> Real<S> {
    let x = x.larger(x.constant(0.0)).smaller(x.constant(1.0));
    x * x * x.mul_add(-2.0, 3.0)
}

/// From one value to another over a range of a positive variable, by its logarithm.
pub(crate) fn blended(from: f64, to: f64, at: f64, (start, end): (f64, f64)) -> f64 {
    from + smooth_step((at / start).ln() / (end / start).ln()) * (to - from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_and_middle() {
        assert_eq!([-1.0, 0.0, 0.5, 1.0, 2.0].map(smooth_step), [0.0, 0.0, 0.5, 1.0, 1.0]);
        assert_eq!(blended(3.0, 5.0, 1.0, (1.0, 100.0)), 3.0);
        assert!((blended(3.0, 5.0, 10.0, (1.0, 100.0)) - 4.0).abs() < 1e-15);
        assert_eq!(blended(3.0, 5.0, 1e9, (1.0, 100.0)), 5.0);
    }
}
