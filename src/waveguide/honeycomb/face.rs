//! The face of a honeycomb, seen by the dominant pair of modes of its cells.
//!
//! All cells answer in step. Under normal incidence three numbers are left of the face once all higher modes and all stored
//! harmonics are eliminated ([`super::ports`]): the susceptance that they lend the dominant mode, its coupling to the wave, and what
//! the wave sees besides. They are smooth in frequency and in the ratio of width to pitch, and tabulated once for each kind of
//! cell over both.

use std::sync::LazyLock;

use super::basis::size_m_and_limit;
use super::cell::{Cell, MOST_WALL};
use crate::numeric::bessel::J1_FIRST;
use crate::waveguide::guide::Shape;
use crate::waveguide::series::Series;
use crate::waveguide::spectrum::rectangle;

/// Points over frequency; the ratio of width to pitch runs from ⅓ to 1.
const POINTS: usize = 16;
const LEAST_RATIO: f64 = 1.0 / (1.0 + MOST_WALL);
/// The series end this near to the next mode's cutoff or the first grating lobe.
const MARGIN: f64 = 0.95;
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
        static HEXAGON: LazyLock<Kind> = LazyLock::new(|| Kind::kept("hexagon", HEXAGON_NEXT));
        static CIRCLE: LazyLock<Kind> = LazyLock::new(|| Kind::kept("circle", J1_FIRST));
        static SQUARE: LazyLock<Kind> = LazyLock::new(|| Kind::kept("square", rectangle::cutoff(1, 1, 1.0)));
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

/// Cutoff of a hexagon's next mode that couples, in units of the side: 4π/3.
const HEXAGON_NEXT: f64 = 4.188_790_204;

/// The coefficients of all kinds. They depend on nothing but the shape, and take a second to compute; written by the test
/// `the_kept_tables_are_what_is_computed`.
const TABLES: &str = include_str!("face_tables.csv");

/// The entries of a kind, in the order of its table.
const ENTRIES: usize = 3;

impl Kind {
    /// As kept.
    fn kept(name: &str, next_cutoff: f64) -> Self {
        let rows = TABLES.lines().filter_map(|line| line.strip_prefix(name)?.strip_prefix(','));
        let numbers: Vec<f64> = rows.flat_map(|row| row.split(',').filter_map(|field| field.parse().ok())).collect();
        Self::from_numbers(next_cutoff, &numbers)
    }

    fn from_numbers(next_cutoff: f64, numbers: &[f64]) -> Self {
        let one = numbers.len() / ENTRIES;
        let table = |entry: usize| {
            Series::from_rows(1.0 - LEAST_RATIO, POINTS, numbers[entry * one..(entry + 1) * one].to_vec())
        };
        // The ports: the dominant mode, the wave across its plane, the wave along it. Entries (0, 0), (1, 0) and (1, 1).
        Self { next_cutoff, susceptance: table(0), coupling: table(1), besides: table(2) }
    }
}

#[cfg(test)]
mod tests {
    use super::super::ports::Lattice;
    use super::*;
    use crate::wave::Polarization;

    /// Points over the ratio of width to pitch.
    const RATIOS: usize = 13;
    /// The far face is out of sight beyond so many sizes.
    const OUT_OF_SIGHT: f64 = 50.0;

    /// The numbers of a kind: for each entry, rows over the ratio of the coefficients over frequency.
    fn computed(cell: impl Fn(f64, f64) -> crate::Result<Cell>, next_cutoff: f64) -> Vec<f64> {
        let all = Series::fit(1.0 - LEAST_RATIO, RATIOS, ENTRIES * POINTS, |offset| {
            let cell = cell(1.0, (1.0 / (LEAST_RATIO + offset) - 1.0).clamp(0.0, MOST_WALL)).unwrap();
            let (size_m, _) = size_m_and_limit(&cell);
            let lattice = Lattice::new(&cell, OUT_OF_SIGHT * size_m, 0.0, [1.0, 0.0], Polarization::Te, 0.0);
            let reduced = lattice.reduced(&Series::<f64>::places(top(&cell, next_cutoff), POINTS));
            let series = |entry: usize| {
                Series::from_values(1.0, POINTS, &reduced[entry * POINTS..(entry + 1) * POINTS]).into_coefficients()
            };
            (0..ENTRIES).flat_map(series).collect()
        });
        let rows = all.into_coefficients();
        let of_entry = |entry: usize| {
            rows.chunks(ENTRIES * POINTS).flat_map(move |row| row[entry * POINTS..(entry + 1) * POINTS].to_vec())
        };
        (0..ENTRIES).flat_map(of_entry).collect()
    }

    /// Computes all tables anew and holds the kept ones to them. With `STILLROOM_TABLES=write` it writes them instead.
    #[test]
    fn the_kept_tables_are_what_is_computed() {
        let kinds = [
            ("hexagon", computed(Cell::hexagonal, HEXAGON_NEXT)),
            ("circle", computed(Cell::round, J1_FIRST)),
            ("square", computed(Cell::square, rectangle::cutoff(1, 1, 1.0))),
        ];
        if std::env::var("STILLROOM_TABLES").is_ok_and(|wanted| wanted == "write") {
            let row = |(name, row): (&str, &[f64])| {
                let numbers: Vec<String> = row.iter().map(ToString::to_string).collect();
                format!("{name},{}\n", numbers.join(","))
            };
            let rows = kinds.iter().flat_map(|(name, numbers)| numbers.chunks(POINTS).map(move |row| (*name, row)));
            let place = concat!(env!("CARGO_MANIFEST_DIR"), "/src/waveguide/honeycomb/face_tables.csv");
            std::fs::write(place, rows.map(row).collect::<String>()).unwrap();
            return;
        }
        for (name, numbers) in kinds {
            let kept = Kind::kept(name, 1.0);
            let tables = [kept.susceptance, kept.coupling, kept.besides].map(Series::into_coefficients).concat();
            assert_eq!(tables.len(), ENTRIES * RATIOS * POINTS, "{name}");
            let largest = numbers.iter().fold(0.0, |most: f64, value| most.max(value.abs()));
            for (kept, computed) in tables.iter().zip(&numbers) {
                assert!((kept - computed).abs() < 1e-12 * largest, "{name}: {kept} {computed}");
            }
        }
    }
}
