//! Where the elements of a leak lie on the wall, seen from the antennas that face its middle.
//!
//! A row of many elements is summed over few points. Neighbouring elements are taken together in panels that grow with
//! their distance from the middle, and of each panel the n points and weights of a Gauss rule for sums are used: the
//! one whose polynomials are orthogonal over equally spaced points (discrete Chebyshev or Gram polynomials), which sums
//! any polynomial up to degree 2n − 1 exactly. Recurrence of these polynomials over N points a unit apart:
//! p₍ₖ₊₁₎ = x pₖ − βₖ p₍ₖ₋₁₎, βₖ = k²(N² − k²)/(4(4k² − 1)) (W. Gautschi, *Orthogonal Polynomials: Computation and
//! Approximation*, 2004, sec. 1.5.2, from memory); points and weights from its tridiagonal matrix (G. H. Golub,
//! J. H. Welsch, Math. Comp. 23 (1969) 221, from memory). The functions summed have their poles at the distance of the
//! nearer antenna from the wall; panels no longer than that, or than their own distance from the middle, bring the sum
//! to 10⁻¹² with n = 14.

use nalgebra::{DMatrix, SymmetricEigen};

use crate::leak::Extent;

/// Grids of elements; very large numbers are thinned, which changes no mean by more than 10⁻⁶.
#[derive(Debug)]
pub(super) struct Elements(Vec<Grid>);

/// One grid: size (m) and number of places along either side.
#[derive(Debug)]
struct Grid {
    width: (f64, usize),
    height: (f64, usize),
    /// Squared distance of its middle from the axis, m², at right angles to any side that has a length.
    offset_m2: f64,
}

pub(super) fn elements(extent: &Extent) -> Elements {
    const MOST_PER_SIDE: usize = 2048;
    const MOST_PER_LINE: usize = 64 * MOST_PER_SIDE;
    match *extent {
        Extent::Point => Elements(vec![Grid::line(0.0, 1, 0.0)]),
        Extent::Line { length_m, elements } => {
            Elements(vec![Grid::line(length_m, elements.clamp(1, MOST_PER_LINE), 0.0)])
        }
        Extent::Outline { width_m, height_m, elements } => {
            // Of either pair of opposite sides both are as far away.
            let side = |size_m: f64, away_m: f64| {
                let share = 0.5 * elements as f64 * size_m / (width_m + height_m);
                Grid::line(size_m, (share.round() as usize).clamp(1, MOST_PER_LINE), (0.5 * away_m).powi(2))
            };
            Elements(vec![side(width_m, height_m), side(height_m, width_m)])
        }
        Extent::Area { width_m, height_m, elements } => {
            let per_width = (elements as f64 * width_m / height_m).sqrt().round().max(1.0);
            let per_height = (elements as f64 / per_width).round().max(1.0);
            let cells = |count: f64| (count as usize).clamp(1, MOST_PER_SIDE);
            Elements(vec![Grid {
                width: (width_m, cells(per_width)),
                height: (height_m, cells(per_height)),
                offset_m2: 0.0,
            }])
        }
    }
}

impl Elements {
    /// Mean over the elements of a function of their squared distance from the axis, m², that is smooth over `scale_m`:
    /// the distance of the nearer antenna.
    pub(super) fn mean(&self, scale_m: f64, of: impl Fn(f64) -> f64) -> f64 {
        let count: usize = self.0.iter().map(Grid::count).sum();
        self.0.iter().map(|grid| grid.sum(scale_m, &of)).sum::<f64>() / count as f64
    }
}

impl Grid {
    fn line(length_m: f64, count: usize, offset_m2: f64) -> Self {
        Self { width: (length_m, count), height: (0.0, 1), offset_m2 }
    }

    fn count(&self) -> usize {
        self.width.1 * self.height.1
    }

    fn sum(&self, scale_m: f64, of: impl Fn(f64) -> f64) -> f64 {
        let (columns, rows) = (squares(self.width, scale_m), squares(self.height, scale_m));
        let mut sum = 0.0;
        for &(y_squared, of_row) in &rows {
            for &(x_squared, of_column) in &columns {
                sum += of_row * of_column * of(self.offset_m2 + x_squared + y_squared);
            }
        }
        sum
    }
}

/// Rows up to this many elements are summed one by one.
const FEW: usize = 64;
/// Points of a panel.
const POINTS: usize = 14;

/// Squared distances (m²) from the middle of a row of so many elements over a length (m), each with how many elements
/// it stands for.
fn squares((length_m, count): (f64, usize), scale_m: f64) -> Vec<(f64, f64)> {
    let pitch_m = length_m / count as f64;
    if count <= FEW {
        let place = |index: usize| length_m * ((index as f64 + 0.5) / count as f64 - 0.5);
        return (0..count).map(|index| (place(index) * place(index), 1.0)).collect();
    }
    // One half, from the middle outwards; an odd row has one element there.
    let half = count / 2;
    let (first, mut squares) = if count % 2 == 0 { (0.5, Vec::new()) } else { (1.0, vec![(0.0, 1.0)]) };
    let least = (scale_m / pitch_m) as usize;
    let mut start = 0;
    while start < half {
        // A float as large as any length is cut to it.
        let length = least.max(start).max(POINTS).min(half - start);
        let middle = first + start as f64 + 0.5 * (length as f64 - 1.0);
        squares.extend(rule(length).into_iter().map(|(at, weight)| ((pitch_m * (middle + at)).powi(2), 2.0 * weight)));
        start += length;
    }
    squares
}

/// Points from the middle, and weights, by which `count` equally spaced points a unit apart are summed.
fn rule(count: usize) -> Vec<(f64, f64)> {
    let total = count as f64;
    if count <= POINTS {
        return (0..count).map(|index| (index as f64 - 0.5 * (total - 1.0), 1.0)).collect();
    }
    let mut matrix = DMatrix::<f64>::zeros(POINTS, POINTS);
    for k in 1..POINTS {
        let square = (k * k) as f64;
        let beside = (square * (total * total - square) / (4.0 * (4.0 * square - 1.0))).sqrt();
        matrix[(k - 1, k)] = beside;
        matrix[(k, k - 1)] = beside;
    }
    let SymmetricEigen { eigenvectors, eigenvalues } = SymmetricEigen::new(matrix);
    let weight = |place: usize| total * eigenvectors[(0, place)] * eigenvectors[(0, place)];
    (0..POINTS).map(|place| (eigenvalues[place], weight(place))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Element by element.
    fn mean_one_by_one(grids: &Elements, of: impl Fn(f64) -> f64) -> f64 {
        let place = |(size_m, count): (f64, usize), index: usize| size_m * ((index as f64 + 0.5) / count as f64 - 0.5);
        let (mut sum, mut count) = (0.0, 0);
        for grid in &grids.0 {
            for row in 0..grid.height.1 {
                for column in 0..grid.width.1 {
                    let (x, y) = (place(grid.width, column), place(grid.height, row));
                    sum += of(grid.offset_m2 + x * x + y * y);
                }
            }
            count += grid.count();
        }
        sum / count as f64
    }

    #[test]
    fn a_rule_sums_polynomials_exactly() {
        for count in [15_usize, 16, 40, 1000] {
            let rule = rule(count);
            for power in [0, 2, 4, 10, 26] {
                let half = 0.5 * (count as f64 - 1.0);
                let one_by_one: f64 = (0..count).map(|i| ((i as f64 - half) / half).powi(power)).sum();
                let by_rule: f64 = rule.iter().map(|(at, weight)| weight * (at / half).powi(power)).sum();
                assert!((by_rule / one_by_one - 1.0).abs() < 1e-12, "{count} {power}: {by_rule} {one_by_one}");
            }
            assert!(rule.iter().map(|(at, weight)| weight * at).sum::<f64>().abs() < 1e-9 * count as f64);
        }
    }

    #[test]
    fn many_elements_are_summed_as_one_by_one() {
        for (d1, d2) in [(1.0, 0.5), (0.3, 0.3), (0.05, 0.3), (1e-3, 2.0), (30.0, 1.0)] {
            let powers = |s: f64| 1.0 / ((d1 * d1 + s) * (d2 * d2 + s));
            let (amplitudes, near) = (|s: f64| powers(s).sqrt(), |s: f64| powers(s).powf(1.5));
            for (width_m, height_m, many) in [(2.0, 0.9, 250_000), (400.0, 3.0, 4_000_000), (0.3, 0.3, 50_001)] {
                let mut extents = vec![
                    Extent::Line { length_m: width_m, elements: many.min(100_001) },
                    Extent::Outline { width_m, height_m, elements: 1000 },
                ];
                if d1 == 0.3 || d1 == 0.05 {
                    extents.push(Extent::Area { width_m, height_m, elements: many.min(300_001) });
                }
                for extent in extents {
                    let (elements, scale_m) = (elements(&extent), f64::min(d1, d2));
                    let close = |one: f64, other: f64| {
                        assert!((one / other - 1.0).abs() < 1e-11, "{extent:?} {d1} {d2}: {one} {other}");
                    };
                    close(elements.mean(scale_m, powers), mean_one_by_one(&elements, powers));
                    close(elements.mean(scale_m, amplitudes), mean_one_by_one(&elements, amplitudes));
                    close(elements.mean(scale_m, near), mean_one_by_one(&elements, near));
                }
            }
        }
    }

    #[test]
    fn sizes_that_are_no_lengths_end() {
        for size_m in [0.0, f64::NAN, f64::INFINITY, f64::MAX, f64::MIN_POSITIVE] {
            for scale_m in [1e-300, 1.0, f64::MAX] {
                let area = Extent::Area { width_m: size_m, height_m: 1.0, elements: usize::MAX };
                let line = Extent::Line { length_m: size_m, elements: usize::MAX };
                for extent in [area, line] {
                    let _ = elements(&extent).mean(scale_m, |s_squared| 1.0 / (1.0 + s_squared));
                }
            }
        }
    }
}
