//! Nested truncations of a block's modes, and the limit that their answers point to.
//!
//! At the rim of an opening in a thick wall the electric field across the edge grows as ρ^(−1/3) (J. Meixner, IEEE Trans. Antennas
//! Propag. 20 (1972) 442, from memory). Its share in the modes of number n falls as n^(−2/3), and what the modes beyond N would
//! still add to a quantity that is stationary, such as a transmission, as
//!
//! b N^(−4/3) + c N^(−2) + …
//!
//! Three truncations give b, c and the limit (L. F. Richardson, Phil. Trans. R. Soc. A 226 (1927) 299). The two finest with the first
//! term alone give another one; the distance between both is the estimate of the error. It is that of the worse of the two, hence
//! cautious.

use nalgebra::{DMatrix, DVector};

/// Powers of the number of modes by which the rest falls.
const POWERS: [f64; 2] = [-4.0 / 3.0, -2.0];

/// Nested sets of modes, the last one with all of them.
#[derive(Debug, Clone)]
pub(crate) struct Truncations {
    levels: Vec<Vec<usize>>,
    /// Weights of the levels in the limit, with all terms and with one less.
    weights: Vec<f64>,
    plainer: Vec<f64>,
}

impl Truncations {
    /// From how fine each level is (a number of modes across the opening, or what is in proportion to it) and its modes, by rising
    /// fineness. Levels that add nothing to the one before are left out.
    pub(crate) fn new(levels: impl IntoIterator<Item = (f64, Vec<usize>)>) -> Self {
        let mut kept: Vec<(f64, Vec<usize>)> = Vec::new();
        for (fineness, members) in levels.into_iter().filter(|(_, members)| !members.is_empty()) {
            kept.retain(|(_, earlier)| earlier.len() < members.len());
            kept.push((fineness, members));
        }
        let fineness: Vec<f64> = kept.iter().map(|&(fineness, _)| fineness).collect();
        let plainer = weights(&fineness[fineness.len().min(1)..]);
        let padding = vec![0.0; fineness.len() - plainer.len()];
        Self {
            weights: weights(&fineness),
            plainer: padding.into_iter().chain(plainer).collect(),
            levels: kept.into_iter().map(|(_, members)| members).collect(),
        }
    }

    /// One truncation with all of `count` modes: its answer is the limit, and nothing is known of its error.
    pub(crate) fn none(count: usize) -> Self {
        Self::new([(1.0, (0..count).collect())])
    }

    /// All modes as they are, and an estimate from what a part of them gives.
    pub(crate) fn compared(part: Vec<usize>, count: usize) -> Self {
        Self { levels: vec![part, (0..count).collect()], weights: vec![0.0, 1.0], plainer: vec![1.0, 0.0] }
    }

    /// Members of each level.
    pub(crate) fn levels(&self) -> &[Vec<usize>] {
        &self.levels
    }

    /// The limit of what the levels gave.
    pub(crate) fn limit<T>(&self, values: &[T]) -> T
    where
        T: Copy + std::ops::Mul<f64, Output = T> + std::iter::Sum<T>,
    {
        combined(&self.weights, values)
    }

    /// The limit, and how far off the plainer one is.
    pub(crate) fn limit_and_error(&self, values: &[f64]) -> (f64, f64) {
        let limit = self.limit(values);
        (limit, (limit - combined(&self.plainer, values)).abs())
    }
}

fn combined<T>(weights: &[f64], values: &[T]) -> T
where
    T: Copy + std::ops::Mul<f64, Output = T> + std::iter::Sum<T>,
{
    weights.iter().zip(values).map(|(&weight, &value)| value * weight).sum()
}

/// Weights that keep a constant and cancel as many powers as there are levels to spare.
fn weights(fineness: &[f64]) -> Vec<f64> {
    if fineness.is_empty() {
        return Vec::new();
    }
    let count = fineness.len().min(POWERS.len() + 1);
    let levels = &fineness[fineness.len() - count..];
    let power = |row: usize, s: f64| if row == 0 { 1.0 } else { (s / levels[count - 1]).powf(POWERS[row - 1]) };
    let conditions = DMatrix::from_fn(count, count, |row, column| power(row, levels[column]));
    let kept = DVector::from_fn(count, |row, _| if row == 0 { 1.0 } else { 0.0 });
    let mut all = vec![0.0; fineness.len() - count];
    match conditions.lu().solve(&kept) {
        Some(solved) => all.extend(solved.iter()),
        // Of two equally fine levels, the last one.
        None => all.extend((1..=count).map(|place| if place == count { 1.0 } else { 0.0 })),
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_law_of_the_edge_is_taken_out() {
        let sizes = [3.0, 4.0, 6.0];
        let levels = Truncations::new(sizes.map(|s| (s, (0..s as usize).collect())));
        let law = |s: f64| 2.0 - 0.3 * s.powf(-4.0 / 3.0) + 0.1 / (s * s);
        let (limit, error) = levels.limit_and_error(&sizes.map(law));
        assert!((limit - 2.0).abs() < 1e-12, "{limit}");
        // The plainer limit leaves the second term.
        assert!(error > 1e-5 && error < 0.1 / 9.0, "{error}");
        assert_eq!(levels.levels().len(), 3);
    }

    #[test]
    fn levels_that_add_nothing_are_left_out() {
        let levels = Truncations::new([(1.0, vec![]), (2.0, vec![0]), (3.0, vec![0]), (4.0, vec![0, 1])]);
        assert_eq!(levels.levels(), [vec![0], vec![0, 1]]);
        let (limit, error) = Truncations::none(2).limit_and_error(&[5.0]);
        // Of one level nothing is known: the estimate is as large as the answer.
        assert_eq!((limit, error), (5.0, 5.0));
    }
}
