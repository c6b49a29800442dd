//! Where the elements of a leak lie on the wall, seen from the antennas that face its middle.

use crate::leak::Extent;

/// Grids of elements; large numbers are thinned, which changes no mean by more than 10⁻⁶.
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
    /// Mean over the elements of a function of their squared distance from the axis, m².
    pub(super) fn mean(&self, of: impl Fn(f64) -> f64) -> f64 {
        let count: usize = self.0.iter().map(Grid::count).sum();
        self.0.iter().map(|grid| grid.sum(&of)).sum::<f64>() / count as f64
    }
}

impl Grid {
    fn line(length_m: f64, count: usize, offset_m2: f64) -> Self {
        Self { width: (length_m, count), height: (0.0, 1), offset_m2 }
    }

    fn count(&self) -> usize {
        self.width.1 * self.height.1
    }

    fn sum(&self, of: impl Fn(f64) -> f64) -> f64 {
        let place = |(size_m, count): (f64, usize), index: usize| size_m * ((index as f64 + 0.5) / count as f64 - 0.5);
        let mut sum = 0.0;
        for row in 0..self.height.1 {
            let y = place(self.height, row);
            for column in 0..self.width.1 {
                let x = place(self.width, column);
                sum += of(self.offset_m2 + x * x + y * y);
            }
        }
        sum
    }
}
