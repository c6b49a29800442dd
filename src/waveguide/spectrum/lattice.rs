//! How the openings of a honeycomb are arranged, and the harmonics that go with it.
//!
//! All openings answer in step, so that the half-space's integral over transverse wavenumbers becomes a sum over the vectors of
//! the reciprocal lattice: the wave itself and its grating lobes, most of which are stored near the face. Source: for example N.
//! Amitay, V. Galindo, C. P. Wu, *Theory and Analysis of Phased Array Antennas*, 1972, ch. 2 (from memory).

use std::f64::consts::PI;

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
