//! The face of a honeycomb, seen by the dominant pair of modes of its cells.
//!
//! All cells answer in step. Under normal incidence three numbers are left of the face once all higher modes and all stored
//! harmonics are run out ([`super::ports`]): the susceptance that they lend the dominant mode, its coupling to the wave, and what
//! the wave sees besides. They are smooth in frequency and in the ratio of width to pitch, and tabulated once for each kind of
//! cell over both.

use std::sync::LazyLock;

use super::basis::size_m_and_limit;
use super::cell::{Cell, MOST_WALL};
use super::ports::Lattice;
use crate::wave::Polarization;
use crate::waveguide::guide::Shape;
use crate::waveguide::series::Series;
use crate::waveguide::spectrum::{circle, rectangle};

/// Points over frequency, and over the ratio of width to pitch, which runs from ⅓ to 1.
const POINTS: usize = 16;
const RATIOS: usize = 13;
const LEAST_RATIO: f64 = 1.0 / (1.0 + MOST_WALL);
/// The series end this near to the next mode's cutoff or the first grating lobe.
const MARGIN: f64 = 0.95;
/// The far face is out of sight beyond so many sizes.
const OUT_OF_SIGHT: f64 = 50.0;

/// The face of one cell; lengths in units of the size.
#[derive(Debug, Clone)]
pub(super) struct Face {
    pub(super) size_m: f64,
    /// Highest normalised wavenumber.
    pub(super) top: f64,
    cell_area: f64,
    susceptance: Series<f64>,
    coupling: Series<f64>,
    besides: Series<f64>,
}

impl Face {
    pub(super) fn new(cell: &Cell) -> Self {
        static HEXAGON: LazyLock<Kind> = LazyLock::new(|| Kind::new(Cell::hexagonal, 4.188_790_204));
        static CIRCLE: LazyLock<Kind> =
            LazyLock::new(|| Kind::new(Cell::round, circle::zeros(crate::waveguide::Family::Te, 0, 4.0)[0]));
        static SQUARE: LazyLock<Kind> = LazyLock::new(|| Kind::new(Cell::square, rectangle::cutoff(1, 1, 1.0)));
        let kind: &Kind = match cell.guide().shape() {
            Shape::Hexagon { .. } => &HEXAGON,
            Shape::Circle { .. } => &CIRCLE,
            Shape::Rectangle { .. } => &SQUARE,
        };
        let (size_m, _) = size_m_and_limit(cell);
        let at = |table: &Series<f64>| {
            let ratio = cell.width_m() / cell.pitch_m();
            Series::from_coefficients(1.0, table.all(ratio - LEAST_RATIO))
        };
        Self {
            size_m,
            top: top(cell, kind.next_cutoff),
            cell_area: cell.cell_area_m2() / (size_m * size_m),
            susceptance: at(&kind.susceptance),
            coupling: at(&kind.coupling),
            besides: at(&kind.besides),
        }
    }

    /// At a normalised wavenumber not above `top`, in units of k/η₀: the susceptance, the conductance under normal incidence,
    /// and what the wave sees besides, over the conductance of free space.
    pub(super) fn at(&self, k: f64) -> [f64; 3] {
        let share = k / self.top;
        let free = k / self.cell_area;
        [self.susceptance.at(share), free * self.coupling.at(share).powi(2), free * self.besides.at(share)]
    }
}

/// Highest wavenumber of the series of one cell.
fn top(cell: &Cell, next_cutoff: f64) -> f64 {
    let first = cell.arrangement().harmonics(cell.pitch_m() / size_m_and_limit(cell).0, 12.0)[1];
    MARGIN * next_cutoff.min(first[0].hypot(first[1]))
}

/// One kind of cell at all ratios of width to pitch: Chebyshev coefficients over k/top, as functions of the ratio.
#[derive(Debug)]
struct Kind {
    next_cutoff: f64,
    susceptance: Series<f64>,
    coupling: Series<f64>,
    besides: Series<f64>,
}

impl Kind {
    fn new(cell: impl Fn(f64, f64) -> crate::Result<Cell>, next_cutoff: f64) -> Self {
        let table = |entry: usize| {
            Series::fit(1.0 - LEAST_RATIO, RATIOS, POINTS, |offset| {
                // A cell of unit width with a wall within what is accepted: always one that can be.
                let Ok(cell) = cell(1.0, (1.0 / (LEAST_RATIO + offset) - 1.0).clamp(0.0, MOST_WALL)) else {
                    return vec![f64::NAN; POINTS];
                };
                let (size_m, _) = size_m_and_limit(&cell);
                let lattice = Lattice::new(&cell, OUT_OF_SIGHT * size_m, 0.0, [1.0, 0.0], Polarization::Te, 0.0);
                let top = top(&cell, next_cutoff);
                let reduced = lattice.reduced(&Series::<f64>::places(top, POINTS));
                Series::from_values(1.0, POINTS, &reduced[entry * POINTS..(entry + 1) * POINTS]).into_coefficients()
            })
        };
        // The ports: the dominant mode, the wave across its plane, the wave along it. Entries (0, 0), (1, 0) and (1, 1).
        Self { next_cutoff, susceptance: table(0), coupling: table(1), besides: table(2) }
    }
}
