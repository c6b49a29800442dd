//! Gauss-Legendre rules of any number of points.

/// Nodes and weights of the Gauss–Legendre rule with `count` points on [−1, 1].
///
/// Newton's method on the Legendre recurrence (M. Abramowitz, I. A. Stegun, *Handbook of Mathematical
/// Functions*, 1964, 25.4.29 and 22.7.10).
pub(crate) fn gauss_legendre(count: usize) -> Vec<(f64, f64)> {
    let order = count as f64;
    let mut rule = vec![(0.0, 0.0); count];
    for (i, slot) in rule.iter_mut().rev().enumerate() {
        let mut x = (std::f64::consts::PI * (i as f64 + 0.75) / (order + 0.5)).cos();
        let mut slope = 1.0;
        for _ in 0..100 {
            let (mut before, mut value) = (1.0, x);
            for degree in 2..=count {
                let degree = degree as f64;
                (before, value) = (value, ((2.0 * degree - 1.0) * x * value - (degree - 1.0) * before) / degree);
            }
            slope = order * (x * value - before) / (x * x - 1.0);
            let step = value / slope;
            x -= step;
            if step.abs() < 1e-15 {
                break;
            }
        }
        *slot = (x, 2.0 / ((1.0 - x * x) * slope * slope));
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gauss_rule_is_exact_for_polynomials() {
        for count in [1, 2, 5, 10, 40] {
            let rule = gauss_legendre(count);
            for degree in (0..2 * count).step_by(2) {
                let sum: f64 = rule.iter().map(|&(x, w)| w * x.powi(degree as i32)).sum();
                assert!((sum - 2.0 / (degree as f64 + 1.0)).abs() < 1e-13, "{count} {degree} {sum}");
            }
        }
    }
}
