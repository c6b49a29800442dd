//! Rules of thumb for a panel of N cells, by name, to compare with.
//!
//! All common practice, no source. They start from what one cell loses and take off something for the number of cells, as if each
//! were an opening of its own in front of the receiver. No result of this crate rests on them.

use super::panel::HoneycombPanel;
use crate::waveguide::guide::Shape;
use crate::waveguide::rule;

/// What the trade's rules say of one panel at one frequency, dB.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct RulesOfThumb {
    /// 32 dB for each diameter of depth (round cells), 27.3 dB for each width (square and hexagonal ones): far below cutoff, one cell.
    pub one_cell_db: f64,
    /// The same less what nears cutoff takes, times √(1 − (f/f_c)²); zero above.
    pub near_cutoff_db: f64,
    /// That less 20 lg N: cells within half a wavelength, amplitudes add. A bound.
    pub cells_in_step_db: f64,
    /// That less 10 lg N: cells spread over many wavelengths, powers add.
    pub cells_apart_db: f64,
}

impl HoneycombPanel {
    /// What the trade's rules say of this panel, to compare with its [`HoneycombPanel::transmission`]; common practice, no source.
    #[must_use]
    pub fn rules_of_thumb(&self, frequency_hz: f64) -> RulesOfThumb {
        let widths = self.depth_m() / self.cell().width_m();
        let per_width_db = match self.cell().guide().shape() {
            Shape::Circle { .. } => rule::ROUND_DB_PER_DIAMETER,
            _ => rule::DB_PER_WIDTH,
        };
        let one_cell_db = per_width_db * widths;
        let ratio = frequency_hz / self.cutoff_hz();
        let near_cutoff_db = one_cell_db * ((1.0 - ratio) * (1.0 + ratio)).max(0.0).sqrt();
        RulesOfThumb {
            one_cell_db,
            near_cutoff_db,
            cells_in_step_db: near_cutoff_db - rule::cells_in_step_db(self.cell_count()),
            cells_apart_db: near_cutoff_db - rule::cells_apart_db(self.cell_count()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::Cell;

    #[test]
    fn the_rules_by_hand() {
        // 10 by 10 square cells, 4 widths deep, at 0.6 of cutoff: 109.2, times 0.8, less 40 or 20.
        let panel = HoneycombPanel::new(Cell::square(5e-3, 0.0).unwrap(), 20e-3, (0.05, 0.05)).unwrap();
        let rules = panel.rules_of_thumb(0.6 * panel.cutoff_hz());
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
        close(rules.one_cell_db, 109.2);
        close(rules.near_cutoff_db, 87.36);
        close(rules.cells_in_step_db, 47.36);
        close(rules.cells_apart_db, 67.36);
        close(panel.rules_of_thumb(2.0 * panel.cutoff_hz()).near_cutoff_db, 0.0);
    }
}
