//! Sums of Chebyshev polynomials.

/// Σ c_k T_k(x) for x from −1 to 1 (C. W. Clenshaw, Math. Tables Aids Comput. 9 (1955) 118).
pub(crate) fn chebyshev(coefficients: &[f64], x: f64) -> f64 {
    let (mut near, mut far) = (0.0, 0.0);
    for &coefficient in coefficients.iter().skip(1).rev() {
        (near, far) = (2.0 * x * near - far + coefficient, near);
    }
    x * near - far + coefficients.first().copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_polynomials_are_cosines() {
        for degree in 0..8_i32 {
            let mut coefficients = [0.0; 8];
            coefficients[degree as usize] = 1.0;
            for angle in [0.0, 0.3, 1.0, 2.5, 3.1] {
                let expected = (f64::from(degree) * angle).cos();
                assert!((chebyshev(&coefficients, angle.cos()) - expected).abs() < 1e-14);
            }
        }
        assert_eq!(chebyshev(&[], 0.5), 0.0);
    }
}
