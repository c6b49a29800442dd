//! Chebyshev series of several functions side by side.

use std::f64::consts::PI;

use num_complex::Complex64;

/// What can be the value of a [`Series`].
pub(super) trait Value:
    Copy + std::ops::Mul<f64, Output = Self> + std::ops::Add<Output = Self> + std::ops::Sub<Output = Self>
{
    const ZERO: Self;
}
impl Value for f64 {
    const ZERO: Self = 0.0;
}
impl Value for Complex64 {
    const ZERO: Self = Complex64::ZERO;
}

/// Chebyshev series on [0, limit].
#[derive(Debug, Clone)]
pub(super) struct Series<T> {
    limit: f64,
    width: usize,
    /// Rows of `width` coefficients.
    coefficients: Vec<T>,
}

fn angle(i: usize, count: usize) -> f64 {
    PI * (i as f64 + 0.5) / count as f64
}

impl<T: Value> Series<T> {
    /// Interpolates `width` functions at `count` Chebyshev points.
    pub(super) fn fit(limit: f64, count: usize, width: usize, mut functions: impl FnMut(f64) -> Vec<T>) -> Self {
        let mut coefficients = vec![T::ZERO; count * width];
        for i in 0..count {
            let values = functions(0.5 * limit * (1.0 + angle(i, count).cos()));
            for row in 0..count {
                let weight = (row as f64 * angle(i, count)).cos() * if row == 0 { 1.0 } else { 2.0 } / count as f64;
                for (slot, value) in coefficients[row * width..(row + 1) * width].iter_mut().zip(&values) {
                    *slot = *slot + *value * weight;
                }
            }
        }
        Self { limit, width, coefficients }
    }

    /// Where `count` points of an interpolation lie.
    pub(super) fn places(limit: f64, count: usize) -> Vec<f64> {
        (0..count).map(|i| 0.5 * limit * (1.0 + angle(i, count).cos())).collect()
    }

    /// Interpolates functions by their values at the `count` [`Series::places`]: all of the first one, then of the next.
    pub(super) fn from_values(limit: f64, count: usize, values: &[T]) -> Self {
        let width = values.len() / count;
        let mut coefficients = vec![T::ZERO; count * width];
        for (row, coefficients) in coefficients.chunks_mut(width.max(1)).enumerate() {
            let mean = if row == 0 { 1.0 } else { 2.0 } / count as f64;
            let weights: Vec<f64> = (0..count).map(|i| (row as f64 * angle(i, count)).cos() * mean).collect();
            for (slot, values) in coefficients.iter_mut().zip(values.chunks(count)) {
                *slot = values.iter().zip(&weights).fold(T::ZERO, |sum, (&value, &weight)| sum + value * weight);
            }
        }
        Self { limit, width, coefficients }
    }

    /// Several functions by rows of their coefficients.
    pub(super) fn from_rows(limit: f64, width: usize, coefficients: Vec<T>) -> Self {
        Self { limit, width, coefficients }
    }

    /// One function by its coefficients.
    pub(super) fn from_coefficients(limit: f64, coefficients: Vec<T>) -> Self {
        Self { limit, width: 1, coefficients }
    }

    #[cfg(test)]
    pub(super) fn into_coefficients(self) -> Vec<T> {
        self.coefficients
    }

    /// The largest among the last two coefficients over the largest of all: what is not resolved.
    pub(super) fn tail(&self) -> f64
    where
        T: Into<f64>,
    {
        let largest = |values: &[T]| values.iter().fold(0.0, |most: f64, &value| most.max(value.into().abs()));
        let last = self.coefficients.len().saturating_sub(2 * self.width);
        let whole: f64 = self.coefficients.iter().map(|&value| value.into()).sum();
        if whole.is_finite() { largest(&self.coefficients[last..]) / largest(&self.coefficients) } else { f64::NAN }
    }

    /// One of the functions, by Clenshaw's recurrence.
    fn one(&self, column: usize, x: f64) -> T {
        let t = 2.0 * x / self.limit - 1.0;
        let (mut next, mut after) = (T::ZERO, T::ZERO);
        for row in (1..self.coefficients.len() / self.width).rev() {
            (next, after) = (self.coefficients[row * self.width + column] + next * (2.0 * t) - after, next);
        }
        self.coefficients[column] + next * t - after
    }

    /// The first function.
    pub(super) fn at(&self, x: f64) -> T {
        self.one(0, x)
    }

    /// All functions, by the polynomials themselves: rows lie together in memory.
    pub(super) fn all(&self, x: f64) -> Vec<T> {
        let mut sum = Vec::new();
        self.all_into(x, &mut sum);
        sum
    }

    /// The same into memory that is there already.
    pub(super) fn all_into(&self, x: f64, sum: &mut Vec<T>) {
        let t = 2.0 * x / self.limit - 1.0;
        sum.clear();
        sum.extend_from_slice(&self.coefficients[..self.width]);
        let (mut before, mut here) = (1.0, t);
        for row in self.coefficients.chunks(self.width).skip(1) {
            for (slot, &value) in sum.iter_mut().zip(row) {
                *slot = *slot + value * here;
            }
            (before, here) = (here, 2.0 * t * here - before);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn smooth_functions_come_back() {
        let series = Series::fit(3.0, 20, 2, |x| vec![x.exp(), (2.0 * x).cos()]);
        for x in [0.0_f64, 0.1, 1.7, 3.0] {
            assert!((series.at(x) - x.exp()).abs() < 1e-13 * 20.0);
            assert!((series.all(x)[1] - (2.0 * x).cos()).abs() < 1e-13);
        }
    }
}
