//! The free space in front of a lattice of alike openings, as the modes of one opening see it.
//!
//! All openings answer in step, so that the half-space's integral becomes a sum over the lattice's harmonics. Under a wave
//! along the normal
//!
//! y_pq = (1/A_c) Σ_G [t_p t_q k_z/k + m_p m_q k/k_z], k_z = √(k² − G²),
//!
//! with A_c the area of a unit cell and G the reciprocal lattice; G = 0 is the wave itself, the rest is stored near the
//! face. Source: for example N. Amitay, V. Galindo, C. P. Wu, *Theory and Analysis of Phased Array Antennas*, 1972, ch. 2
//! (from memory).

use std::f64::consts::PI;

use nalgebra::DMatrix;
use num_complex::Complex64;

use super::half_space::vertical;

/// How the openings are arranged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Arrangement {
    /// Rows and columns.
    Square,
    /// Each has six nearest neighbours, two of them along y.
    Triangular,
}

impl Arrangement {
    /// Area of a unit cell over the squared pitch.
    pub(crate) fn cell_area(self) -> f64 {
        match self {
            Self::Square => 1.0,
            Self::Triangular => 0.5 * 3_f64.sqrt(),
        }
    }

    /// Reciprocal lattice vectors up to the length `limit`, the origin first.
    pub(crate) fn harmonics(self, pitch: f64, limit: f64) -> Vec<[f64; 2]> {
        let [first, second] = match self {
            Self::Square => [[2.0 * PI / pitch, 0.0], [0.0, 2.0 * PI / pitch]],
            Self::Triangular => {
                let length = 4.0 * PI / (3_f64.sqrt() * pitch);
                [[length, 0.0], [-0.5 * length, 0.5 * 3_f64.sqrt() * length]]
            }
        };
        let most = (1.2 * limit * pitch / (2.0 * PI)) as i32 + 2;
        let mut found = Vec::new();
        for m in -most..=most {
            for n in -most..=most {
                let (m, n) = (f64::from(m), f64::from(n));
                let g = [m * first[0] + n * second[0], m * first[1] + n * second[1]];
                if g[0].hypot(g[1]) <= limit {
                    found.push(g);
                }
            }
        }
        found.sort_by(|a, b| a[0].hypot(a[1]).total_cmp(&b[0].hypot(b[1])));
        found
    }
}

/// Parts of the modes' transforms across and along each harmonic, for modes of one symmetry under normal incidence.
#[derive(Debug, Clone)]
pub(crate) struct Lattice {
    size: usize,
    cell_area: f64,
    /// Harmonics without the origin: length, parts across, parts along.
    stored: Vec<(f64, Vec<f64>, Vec<f64>)>,
}

impl Lattice {
    /// `parts(kx, ky, across, along)` gives the transforms at one wave vector.
    pub(crate) fn new(
        arrangement: Arrangement,
        pitch: f64,
        limit: f64,
        size: usize,
        mut parts: impl FnMut(f64, f64, &mut [f64], &mut [f64]),
    ) -> Self {
        let stored = arrangement
            .harmonics(pitch, limit)
            .into_iter()
            .skip(1)
            .map(|[gx, gy]| {
                let (mut across, mut along) = (vec![0.0; size], vec![0.0; size]);
                parts(gx, gy, &mut across, &mut along);
                (gx.hypot(gy), across, along)
            })
            .collect();
        Self { size, cell_area: arrangement.cell_area() * pitch * pitch, stored }
    }

    /// The stored part of the admittance matrix in units of 1/η₀.
    pub(crate) fn stored(&self, k: f64) -> DMatrix<Complex64> {
        let mut sum = DMatrix::zeros(self.size, self.size);
        for (length, across, along) in &self.stored {
            let kz = vertical(k, *length);
            let (te, tm) = (kz / (k * self.cell_area), k / (kz * self.cell_area));
            for p in 0..self.size {
                for q in 0..self.size {
                    sum[(p, q)] += te * (across[p] * across[q]) + tm * (along[p] * along[q]);
                }
            }
        }
        sum
    }
}
