//! Complex square matrices of one to four rows: what a few coupled lines need.
//!
//! Nothing here is larger than 4 by 4; a linear-algebra crate would be the heaviest dependency of the core
//! for the sake of one elimination.

use num_complex::Complex64;

const ZERO: Complex64 = Complex64::new(0.0, 0.0);
const ONE: Complex64 = Complex64::new(1.0, 0.0);

/// Most rows.
pub(crate) const MOST: usize = 4;

pub(crate) type Column = [Complex64; MOST];

/// The coordinates in which coupled lines are worked out. What stays apart in the right ones does so to the last bit,
/// however many dB one has lost more than the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Basis {
    /// The lines: of parts that differ from line to line.
    Lines,
    /// All lines alike, then between the lines so far and the next, orthonormal: of lines that are alike.
    Modes,
}

impl Basis {
    /// Values of the n lines. Of the modes they are sums of whole numbers of them, so that what cancels is gone.
    pub(crate) fn coordinates(self, n: usize, values: [f64; MOST]) -> [f64; MOST] {
        if self == Self::Lines {
            return values;
        }
        std::array::from_fn(|mode| {
            if mode == 0 {
                return values[..n].iter().sum::<f64>() / (n as f64).sqrt();
            }
            let sum: f64 = values[..mode].iter().sum();
            if mode < n { (sum - mode as f64 * values[mode]) / ((mode * (mode + 1)) as f64).sqrt() } else { 0.0 }
        })
    }

    /// One volt in each of n lines.
    pub(crate) fn ones(self, n: usize) -> [f64; MOST] {
        self.coordinates(n, std::array::from_fn(|line| if line < n { 1.0 } else { 0.0 }))
    }

    /// The matrix with one value for what all n lines have alike, and another for the rest.
    pub(crate) fn even(self, n: usize, common: Complex64, other: Complex64) -> LineMatrix {
        if self == Self::Lines {
            let mutual = (common - other) / n as f64;
            return LineMatrix::symmetric(n, other + mutual, mutual);
        }
        LineMatrix::from_fn(n, |row, column| match (row, column) {
            (0, 0) => common,
            _ if row == column => other,
            _ => ZERO,
        })
    }
}

/// An n by n matrix in the corner of a 4 by 4 array.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LineMatrix {
    n: usize,
    entry: [[Complex64; MOST]; MOST],
}

impl LineMatrix {
    pub(crate) fn from_fn(n: usize, value: impl Fn(usize, usize) -> Complex64) -> Self {
        debug_assert!(n <= MOST);
        let mut entry = [[ZERO; MOST]; MOST];
        for (row, entries) in entry.iter_mut().enumerate().take(n) {
            for (column, entry) in entries.iter_mut().enumerate().take(n) {
                *entry = value(row, column);
            }
        }
        Self { n, entry }
    }

    pub(crate) fn identity(n: usize) -> Self {
        Self::from_fn(n, |row, column| if row == column { ONE } else { ZERO })
    }

    /// `own` on the diagonal, `mutual` elsewhere.
    pub(crate) fn symmetric(n: usize, own: Complex64, mutual: Complex64) -> Self {
        Self::from_fn(n, |row, column| if row == column { own } else { mutual })
    }

    pub(crate) const fn get(&self, row: usize, column: usize) -> Complex64 {
        self.entry[row][column]
    }

    pub(crate) fn plus(&self, other: &Self) -> Self {
        Self::from_fn(self.n, |row, column| self.entry[row][column] + other.entry[row][column])
    }

    pub(crate) fn minus(&self, other: &Self) -> Self {
        Self::from_fn(self.n, |row, column| self.entry[row][column] - other.entry[row][column])
    }

    pub(crate) fn times(&self, other: &Self) -> Self {
        Self::from_fn(self.n, |row, column| (0..self.n).map(|k| self.entry[row][k] * other.entry[k][column]).sum())
    }

    pub(crate) fn scaled(&self, factor: f64) -> Self {
        Self::from_fn(self.n, |row, column| self.entry[row][column] * factor)
    }

    pub(crate) fn times_complex(&self, factor: Complex64) -> Self {
        Self::from_fn(self.n, |row, column| self.entry[row][column] * factor)
    }

    /// Largest magnitude of an entry.
    pub(crate) fn largest(&self) -> f64 {
        self.entry.iter().flatten().fold(0.0_f64, |most, value| most.max(value.norm()))
    }

    pub(crate) fn adjoint(&self) -> Self {
        Self::from_fn(self.n, |row, column| self.entry[column][row].conj())
    }

    pub(crate) fn apply(&self, column: &Column) -> Column {
        let mut out = [ZERO; MOST];
        for (row, out) in out.iter_mut().enumerate().take(self.n) {
            *out = (0..self.n).map(|k| self.entry[row][k] * column[k]).sum();
        }
        out
    }

    /// Inverse by elimination with row pivots; `None` if singular to working precision.
    pub(crate) fn inverse(&self) -> Option<Self> {
        let n = self.n;
        let mut left = self.entry;
        let mut right = Self::identity(n).entry;
        for pivot in 0..n {
            let best = (pivot..n).max_by(|&p, &q| left[p][pivot].norm_sqr().total_cmp(&left[q][pivot].norm_sqr()))?;
            left.swap(pivot, best);
            right.swap(pivot, best);
            let divisor = left[pivot][pivot];
            if divisor == ZERO || !divisor.is_finite() {
                return None;
            }
            let factor = divisor.inv();
            for column in 0..n {
                left[pivot][column] *= factor;
                right[pivot][column] *= factor;
            }
            for row in (0..n).filter(|&row| row != pivot) {
                let weight = left[row][pivot];
                for column in 0..n {
                    let (above_left, above_right) = (left[pivot][column], right[pivot][column]);
                    left[row][column] -= weight * above_left;
                    right[row][column] -= weight * above_right;
                }
            }
        }
        Some(Self { n, entry: right })
    }

    /// Largest singular value, by squaring `S^H S` until only its largest eigenvalue is left in the trace.
    pub(crate) fn largest_singular_value(&self) -> f64 {
        let mut power = self.adjoint().times(self);
        let mut ln = 0.0;
        let mut weight = 1.0;
        // After k squarings the trace is off by at most a factor n in the 2^k-th power.
        for _ in 0..48 {
            let trace: f64 = (0..self.n).map(|k| power.entry[k][k].re).sum();
            if trace <= 0.0 || !trace.is_finite() {
                return if trace == 0.0 { 0.0 } else { f64::NAN };
            }
            ln += weight * trace.ln();
            weight *= 0.5;
            power = power.scaled(trace.recip());
            power = power.times(&power);
        }
        (0.5 * ln).exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample(n: usize) -> LineMatrix {
        LineMatrix::from_fn(n, |row, column| {
            let (r, c) = (row as f64, column as f64);
            Complex64::new((1.3 * r + 2.1 * c + 0.4).sin(), (0.7 * r * c - 1.1 * c).cos())
        })
    }

    #[test]
    fn modes_are_the_lines_in_other_coordinates() {
        let sides = ([1.3, -0.4, 0.7, 2.2], [0.3, 1.1, -0.9, 0.2]);
        for n in 1..=MOST {
            let (common, other) = (Complex64::new(0.3, 7.0), Complex64::new(-0.1, 1e-3));
            let [by_lines, by_modes] = [Basis::Lines, Basis::Modes].map(|basis| {
                let [left, right] = [sides.0, sides.1].map(|side| basis.coordinates(n, side));
                let matrix = basis.even(n, common, other);
                (0..n * n).map(|k| matrix.get(k / n, k % n) * left[k / n] * right[k % n]).sum::<Complex64>()
            });
            assert!((by_lines - by_modes).norm() < 1e-14, "{n}");
        }
        assert_eq!(Basis::Modes.coordinates(4, [1.0, -1.0, 0.0, 0.0])[0], 0.0);
        assert_eq!(Basis::Modes.coordinates(3, [0.1, 0.1, 0.1, 0.0])[1..], [0.0; 3]);
    }

    #[test]
    fn inverse_undoes() {
        for n in 1..=MOST {
            let product = sample(n).times(&sample(n).inverse().unwrap());
            let rest = product.minus(&LineMatrix::identity(n));
            assert!(rest.largest_singular_value() < 1e-13, "{n}");
        }
        assert!(LineMatrix::symmetric(3, ONE, ONE).inverse().is_none());
    }

    #[test]
    fn singular_values_of_known_matrices() {
        let j = Complex64::new(0.0, 1.0);
        let diagonal = LineMatrix::from_fn(3, |r, c| if r == c { j * (r as f64 + 1.0) } else { ZERO });
        assert!((diagonal.largest_singular_value() - 3.0).abs() < 1e-14);
        // All ones: n. Two equal largest values must not confuse it.
        assert!((LineMatrix::symmetric(4, ONE, ONE).largest_singular_value() - 4.0).abs() < 1e-14);
        assert!((LineMatrix::identity(4).largest_singular_value() - 1.0).abs() < 1e-14);
        assert_eq!(LineMatrix::symmetric(2, ZERO, ZERO).largest_singular_value(), 0.0);
    }
}
