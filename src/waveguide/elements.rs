//! All modes of azimuthal order one of a round tube with a rod, at once, by finite elements along the radius.
//!
//! In the transverse magnetic field H_r = R(r) cos φ, H_φ = F(r) sin φ, both continuous, with C = F' + (R + F)/r its curl, D = R' + (R + F)/r its
//! divergence, and test functions marked *:
//!
//! ∫ (C*C + D*D)/ε r dr − k² ∫ (R*R + F*F) r dr − (1/ε₁ − 1/ε₂) a R*(a) D(a) = γ² ∫ (R*R + F*F)/ε r dr,
//!
//! R = 0 on the wall, R + F = 0 on the axis. Derived here from ∇×(1/ε ∇×H) = k²H, ∇·H = 0, H ∝ exp(−γz). Polynomials of high degree on one
//! element in the rod and two around it give the lowest modes to better than a hundredth in γ; no branch is followed and none is lost.

use nalgebra::{DMatrix, Schur};
use num_complex::Complex64;

use super::axial::Layers;
use crate::numeric::gauss_legendre;

/// Degrees in the rod, and in each element around it.
const DEGREES: [usize; 3] = [8, 5, 5];
/// Turns of the eigenvalue search, far more than it needs.
const TURNS: usize = 10_000;

/// Lagrange polynomials of one element at a point: values and slopes.
fn shapes(nodes: &[f64], x: f64) -> (Vec<f64>, Vec<f64>) {
    let others = |i: usize| nodes.iter().enumerate().filter(move |&(j, _)| j != i);
    let value = |i: usize| others(i).map(|(_, node)| (x - node) / (nodes[i] - node)).product();
    let slope = |i: usize| {
        others(i)
            .map(|(j, node)| {
                let rest: f64 = others(i).filter(|&(l, _)| l != j).map(|(_, at)| (x - at) / (nodes[i] - at)).product();
                rest / (nodes[i] - node)
            })
            .sum()
    };
    ((0..nodes.len()).map(value).collect(), (0..nodes.len()).map(slope).collect())
}

/// γ² of the modes, in units of the tube's radius; the lowest are right, the highest are the mesh's own.
pub(super) fn squares(k: f64, layers: &Layers) -> Vec<Complex64> {
    let Layers { a, inner, outer } = *layers;
    let edges = [0.0, a, a.sqrt(), 1.0];
    let count = DEGREES.iter().sum::<usize>() + 1;
    // R at all nodes, then F.
    let mut stiffness = DMatrix::<Complex64>::zeros(2 * count, 2 * count);
    let mut mass = stiffness.clone();
    let mut first = 0;
    for (element, degree) in DEGREES.into_iter().enumerate() {
        let (from, to) = (edges[element], edges[element + 1]);
        let half = 0.5 * (to - from);
        let nodes: Vec<f64> = (0..=degree)
            .map(|i| from + half * (1.0 - (std::f64::consts::PI * i as f64 / degree as f64).cos()))
            .collect();
        let inverse = if element == 0 { inner.inv() } else { outer.inv() };
        for (x, weight) in gauss_legendre(degree + 2) {
            let r = from + half * (1.0 + x);
            let weight = weight * half * r;
            let (value, slope) = shapes(&nodes, r);
            for i in 0..=degree {
                for j in 0..=degree {
                    let (ri, rj) = (value[i] / r, value[j] / r);
                    let (si, sj) = (slope[i] + ri, slope[j] + rj);
                    let (row, column) = (first + i, first + j);
                    let product = value[i] * value[j] * weight;
                    // Curl and divergence exchange their parts between R and F.
                    let same = inverse * (weight * (si * sj + ri * rj)) - k * k * product;
                    let cross = inverse * (weight * (si * rj + ri * sj));
                    stiffness[(row, column)] += same;
                    stiffness[(row + count, column + count)] += same;
                    stiffness[(row, column + count)] += cross;
                    stiffness[(row + count, column)] += cross;
                    mass[(row, column)] += inverse * product;
                    mass[(row + count, column + count)] += inverse * product;
                }
            }
        }
        // The divergence at the surface, the mean of both sides'.
        let at_surface = match element {
            0 => Some(degree),
            1 => Some(0),
            _ => None,
        };
        if let Some(at) = at_surface {
            let (value, slope) = shapes(&nodes, a);
            let scale = (inner.inv() - outer.inv()) * (-0.5 * a);
            for j in 0..=degree {
                stiffness[(first + at, first + j)] += scale * (slope[j] + value[j] / a);
                stiffness[(first + at, first + j + count)] += scale * (value[j] / a);
            }
        }
        first += degree;
    }
    // On the axis F = −R; on the wall R = 0.
    for matrix in [&mut stiffness, &mut mass] {
        let column = matrix.column(count).into_owned();
        matrix.column_mut(0).zip_apply(&column, |to, from| *to -= from);
        let row = matrix.row(count).into_owned();
        matrix.row_mut(0).zip_apply(&row, |to, from| *to -= from);
    }
    let dropped = [count - 1, count];
    let stiffness = stiffness.remove_rows_at(&dropped).remove_columns_at(&dropped);
    let mass = mass.remove_rows_at(&dropped).remove_columns_at(&dropped);
    let problem = mass.lu().solve(&stiffness).unwrap_or(stiffness);
    let found = if inner.im == 0.0 && outer.im == 0.0 {
        let problem = problem.map(|value| value.re);
        Schur::try_new(problem, f64::EPSILON, TURNS).map(|schur| schur.complex_eigenvalues())
    } else {
        Schur::try_new(problem, f64::EPSILON, TURNS).and_then(|schur| schur.eigenvalues())
    };
    found.map_or_else(Vec::new, |values| values.iter().copied().collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::spectrum::circle::TE11;

    #[test]
    fn an_empty_tube_has_the_zeros_of_bessel_functions() {
        for (a, filling) in [(0.3, 1.0), (0.7, 2.5)] {
            let filling = Complex64::from(filling);
            let k = 0.4;
            let mut squares: Vec<f64> =
                squares(k, &Layers { a, inner: filling, outer: filling }).iter().map(|square| square.re).collect();
            squares.sort_by(f64::total_cmp);
            // TE11 and TM11 (Abramowitz and Stegun, 1964, table 9.5).
            for (square, zero) in squares.iter().zip([TE11, 3.831_706]) {
                assert!((square - (zero * zero - k * k * filling.re)).abs() < 1e-3, "{square} {zero}");
            }
        }
    }
}
