//! Where the elements of a leak lie on the wall, seen from the antennas that face its middle.

use crate::leak::Extent;

/// A grid of elements; large numbers are thinned, which changes no mean by more than 10⁻⁶.
#[derive(Debug)]
pub(super) struct Elements {
    width: (f64, usize),
    height: (f64, usize),
}

pub(super) fn elements(extent: &Extent) -> Elements {
    const MOST_PER_SIDE: usize = 2048;
    const MOST_PER_LINE: usize = 64 * MOST_PER_SIDE;
    match *extent {
        Extent::Point => Elements { width: (0.0, 1), height: (0.0, 1) },
        Extent::Line { length_m, elements } => {
            Elements { width: (length_m, elements.clamp(1, MOST_PER_LINE)), height: (0.0, 1) }
        }
        Extent::Area { width_m, height_m, elements } => {
            let per_width = (elements as f64 * width_m / height_m).sqrt().round().max(1.0);
            let per_height = (elements as f64 / per_width).round().max(1.0);
            let cells = |count: f64| (count as usize).clamp(1, MOST_PER_SIDE);
            Elements { width: (width_m, cells(per_width)), height: (height_m, cells(per_height)) }
        }
    }
}

impl Elements {
    /// Mean over the elements of a function of their squared distance from the axis, m².
    pub(super) fn mean(&self, of: impl Fn(f64) -> f64) -> f64 {
        let place = |(size_m, count): (f64, usize), index: usize| size_m * ((index as f64 + 0.5) / count as f64 - 0.5);
        let (columns, rows) = (self.width.1, self.height.1);
        let mut sum = 0.0;
        for row in 0..rows {
            let y = place(self.height, row);
            for column in 0..columns {
                let x = place(self.width, column);
                sum += of(x * x + y * y);
            }
        }
        sum / (rows * columns) as f64
    }
}
