//! The face of a honeycomb, seen by the dominant pair of modes of its cells.
//!
//! All cells answer in step. The wave itself sees the conductance ν cos θ (E across the plane of incidence) or ν/cos θ, with
//! ν = |∫e dA|²/A_c; the lattice's harmonics and the higher modes of the cell store energy and leave a susceptance b(k).
//! b is tabulated once for each kind of cell, over frequency and over the ratio of width to pitch, under normal incidence.

use std::sync::LazyLock;

use nalgebra::DMatrix;
use num_complex::Complex64;

use super::cell::Cell;
use crate::waveguide::end::dress;
use crate::waveguide::guide::Shape;
use crate::waveguide::series::Series;
use crate::waveguide::spectrum::half_space::across_and_along;
use crate::waveguide::spectrum::lattice::{Arrangement, Lattice};
use crate::waveguide::spectrum::{Family, circle, hexagon, rectangle};

/// Harmonics up to this length times the size are summed.
const LIMIT: f64 = 40.0;
/// Points over frequency, and over the ratio of width to pitch, which runs from ½ to 1.
const POINTS: usize = 14;
const RATIOS: usize = 8;
const LEAST_RATIO: f64 = 0.5;
/// The series end this near to the next mode's cutoff or the first grating lobe.
const MARGIN: f64 = 0.95;

/// The face of one cell; lengths in units of the size.
#[derive(Debug, Clone)]
pub(super) struct Face {
    pub(super) size_m: f64,
    /// Conductance under normal incidence, in units of 1/η₀.
    pub(super) conductance: f64,
    /// Highest normalised wavenumber.
    pub(super) top: f64,
    susceptance: Series<f64>,
}

impl Face {
    pub(super) fn new(cell: &Cell) -> Self {
        static HEXAGON: LazyLock<Kind> = LazyLock::new(Kind::hexagon);
        static CIRCLE: LazyLock<Kind> = LazyLock::new(Kind::circle);
        static SQUARE: LazyLock<Kind> = LazyLock::new(Kind::square);
        let kind: &Kind = match cell.guide().shape() {
            Shape::Hexagon { .. } => &HEXAGON,
            Shape::Circle { .. } => &CIRCLE,
            Shape::Rectangle { .. } => &SQUARE,
        };
        let size_m = cell.width_m() / kind.width;
        let ratio = cell.width_m() / cell.pitch_m();
        Self {
            size_m,
            conductance: kind.dipole_squared / (cell.cell_area_m2() / (size_m * size_m)),
            top: kind.top(ratio),
            susceptance: Series::from_coefficients(1.0, kind.table.all(ratio - LEAST_RATIO)),
        }
    }

    /// b in units of 1/η₀ at a normalised wavenumber not above `top`.
    pub(super) fn susceptance(&self, k: f64) -> f64 {
        self.susceptance.at(k / self.top) / k
    }
}

/// One kind of cell at all ratios of width to pitch.
#[derive(Debug)]
struct Kind {
    /// Width of the cell in units of its size.
    width: f64,
    dipole_squared: f64,
    next_cutoff: f64,
    first_harmonic: f64,
    /// Chebyshev coefficients of k b over k/top, as functions of the ratio.
    table: Series<f64>,
}

impl Kind {
    fn top(&self, ratio: f64) -> f64 {
        MARGIN * self.next_cutoff.min(self.first_harmonic * ratio / self.width)
    }

    fn new(
        width: f64,
        arrangement: Arrangement,
        modes: &[(Family, f64)],
        next_cutoff: f64,
        mut parts: impl FnMut(f64, f64, &mut [f64], &mut [f64]),
    ) -> Self {
        let (mut across, mut along) = (vec![0.0; modes.len()], vec![0.0; modes.len()]);
        // Along x the whole dipole, which lies along y, is across the wave vector.
        parts(1e-6, 0.0, &mut across, &mut along);
        let first = arrangement.harmonics(1.0, 8.0)[1];
        let mut kind = Self {
            width,
            dipole_squared: across[0] * across[0],
            next_cutoff,
            first_harmonic: first[0].hypot(first[1]),
            table: Series::from_coefficients(1.0, Vec::new()),
        };
        kind.table = Series::fit(1.0 - LEAST_RATIO, RATIOS, POINTS, |offset| {
            let ratio = LEAST_RATIO + offset;
            let top = kind.top(ratio);
            let lattice = Lattice::new(arrangement, width / ratio, LIMIT, modes.len(), &mut parts);
            let dressed = Series::fit(1.0, POINTS, 1, |share| {
                let k = share * top;
                let matrix: DMatrix<Complex64> = lattice.stored(k);
                vec![dress(&matrix, modes, k, Complex64::ONE).1.im * k]
            });
            dressed.into_coefficients()
        });
        kind
    }

    fn hexagon() -> Self {
        let nodes = hexagon::quadrant_nodes(22);
        let turn = hexagon::Turn::Vector;
        let modes = turn.modes(10.0, &nodes);
        let list: Vec<_> = modes.iter().map(|mode| (mode.class.family, mode.cutoff)).collect();
        Self::new(2.0 * hexagon::INRADIUS, Arrangement::Triangular, &list, 4.188_790_204, |kx, ky, across, along| {
            hexagon::transform(&modes, &nodes, turn.ex(), kx, ky, across, along);
            let k = kx.hypot(ky);
            across_and_along(turn.ex(), [kx / k, ky / k], across, along);
        })
    }

    fn circle() -> Self {
        let modes = circle::modes(1, 12.0);
        Self::new(2.0, Arrangement::Triangular, &modes, 3.831_705_970, |kx, ky, across, along| {
            circle::vector_parts(&modes, kx, ky, across, along);
        })
    }

    fn square() -> Self {
        let odd = (true, false);
        let modes = rectangle::modes(odd, 1.0, 20.0, 10);
        let list: Vec<_> = modes.iter().map(|mode| (mode.family, mode.cutoff)).collect();
        Self::new(1.0, Arrangement::Square, &list, rectangle::cutoff(1, 1, 1.0), |kx, ky, across, along| {
            rectangle::transform(&modes, kx, ky, across, along);
            let k = kx.hypot(ky);
            across_and_along(rectangle::ex(odd), [kx / k, ky / k], across, along);
        })
    }
}
