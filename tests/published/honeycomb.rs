//! Honeycomb panels against published values. Marks: [read] seen in a stored copy of the source, [memory] recalled.

use stillroom::Polarization;
use stillroom::waveguide::{Cell, HoneycombPanel};

const INCH: f64 = 25.4e-3;

/// Full mode matching along the normal, dB.
fn matched_db(cell: Cell, depth_m: f64, frequency_hz: f64) -> f64 {
    let panel = HoneycombPanel::new(cell, depth_m, (0.3, 0.3)).unwrap();
    panel.lattice_responses(&[frequency_hz], 0.0, 0.0, Polarization::Te).unwrap()[0].transmission.shielding_db()
}

/// A honeycomb panel attains more than 100 dB below 10 MHz: MIL-HDBK-419A vol. I, sec. 8 [read]. Here 3/16 in cells, 1 in deep,
/// by full mode matching.
#[test]
fn honeycomb_below_10_mhz_by_mode_matching() {
    let db = matched_db(Cell::hexagonal(3.0 / 16.0 * INCH, 0.05e-3).unwrap(), INCH, 10e6);
    assert!(db > 100.0, "{db}");
}

/// Each width of depth adds 27.3 dB (square) and 32 dB (round) far below cutoff: shielding handbooks [memory].
#[test]
fn a_width_deeper() {
    let cells = [(Cell::square(5e-3, 0.2e-3).unwrap(), 27.3), (Cell::round(5e-3, 0.2e-3).unwrap(), 32.0)];
    for (cell, published) in cells {
        let more = matched_db(cell, 25e-3, 1e6) - matched_db(cell, 20e-3, 1e6);
        assert!((more - published).abs() < 0.05, "{more}, published {published}");
    }
}
