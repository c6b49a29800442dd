//! Small dense complex systems, solved over and over without asking for memory.

use num_complex::Complex64;

/// A square matrix in its triangular factors, the larger pivots first.
#[derive(Debug, Clone, Default)]
pub(super) struct SmallSystem {
    size: usize,
    /// Row by row.
    values: Vec<Complex64>,
    over_pivots: Vec<Complex64>,
    order: Vec<usize>,
}

impl SmallSystem {
    /// Takes a matrix by its entries and factors it. A pivot of zero leaves what is not a number.
    pub(super) fn factor(&mut self, size: usize, entry: impl Fn(usize, usize) -> Complex64) {
        self.size = size;
        self.values.clear();
        self.values.extend((0..size * size).map(|place| entry(place / size, place % size)));
        self.over_pivots.clear();
        self.order.clear();
        self.order.extend(0..size);
        for pivot in 0..size {
            let modulus = |row: usize| self.values[row * size + pivot].norm_sqr();
            let largest =
                (pivot + 1..size).fold(pivot, |best, row| if modulus(row) > modulus(best) { row } else { best });
            if largest != pivot {
                self.order.swap(pivot, largest);
                let (above, below) = self.values.split_at_mut(largest * size);
                above[pivot * size..(pivot + 1) * size].swap_with_slice(&mut below[..size]);
            }
            let over = self.values[pivot * size + pivot].inv();
            self.over_pivots.push(over);
            let (above, below) = self.values.split_at_mut((pivot + 1) * size);
            let upper = &above[pivot * size + pivot + 1..];
            for row in below.chunks_mut(size) {
                let factor = row[pivot] * over;
                row[pivot] = factor;
                for (slot, &value) in row[pivot + 1..].iter_mut().zip(upper) {
                    *slot -= factor * value;
                }
            }
        }
    }

    /// Writes the solution for a right side into `out`.
    pub(super) fn solve(&self, right: &[Complex64], out: &mut Vec<Complex64>) {
        out.clear();
        for (&place, row) in self.order.iter().zip(self.values.chunks(self.size.max(1))) {
            let known: Complex64 = row.iter().zip(out.iter()).map(|(factor, value)| factor * value).sum();
            out.push(right[place] - known);
        }
        for (place, row) in self.values.chunks(self.size.max(1)).enumerate().rev() {
            let known: Complex64 =
                row.iter().zip(out.iter()).skip(place + 1).map(|(factor, value)| factor * value).sum();
            out[place] = (out[place] - known) * self.over_pivots[place];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_solution_solves_the_system() {
        // Zeros on the diagonal, so that rows have to change places.
        let entry = |i: usize, j: usize| {
            let value = (1.0 + i as f64 * 3.7 + j as f64 * 1.9).sin();
            if i == j && i.is_multiple_of(2) { Complex64::ZERO } else { Complex64::new(value, (value * 5.0).cos()) }
        };
        let (mut system, mut out) = (SmallSystem::default(), Vec::new());
        for size in [1, 2, 5, 9] {
            let entry = |i: usize, j: usize| if size == 1 { Complex64::new(0.0, 2.0) } else { entry(i, j) };
            let right: Vec<_> = (0..size).map(|i| Complex64::new(i as f64, 1.0)).collect();
            system.factor(size, entry);
            system.solve(&right, &mut out);
            for (i, &wanted) in right.iter().enumerate() {
                let sum: Complex64 = (0..size).map(|j| entry(i, j) * out[j]).sum();
                assert!((sum - wanted).norm() < 1e-12, "{size} {i} {sum}");
            }
        }
    }

    #[test]
    fn without_a_solution_nothing_is_a_number() {
        let (mut system, mut out) = (SmallSystem::default(), Vec::new());
        system.factor(2, |_, _| Complex64::ONE);
        system.solve(&[Complex64::ONE, Complex64::ZERO], &mut out);
        assert!(out.iter().all(|value| !value.norm().is_finite()));
    }
}
