//! A box with a slot against what is published.

#![allow(clippy::unwrap_used)]

use stillroom::cavity::{BenchBox, BoxAxis, BoxOpening, StripEquivalent};

const MIDDLE: [f64; 3] = [0.15, 0.06, 0.15];

/// The box of M. P. Robinson et al., "Analytical formulation for the shielding effectiveness of enclosures with
/// apertures", IEEE Trans. Electromagn. Compat. 40 (1998) 240: 300 mm x 120 mm x 300 mm, slot 100 mm x 5 mm, wall 1.5 mm
/// (sizes from memory).
///
/// The paper's measured curves could not be read, nor those of the papers that use the same box (P. Dehkhoda et al.,
/// PIER 86 (2008) 341; C. Zhou and L. Tong, RJASET 5 (2013) 680): only their beginnings were at hand, without a figure
/// or table. What is compared is what a public listing of the paper's Figs. 6 and 7 gives as read from them, second-hand
/// and rounded, and the paper's equations evaluated.
fn published_box() -> BenchBox {
    let slot = BoxOpening::rectangle([0.15, 0.06], [0.1, 5e-3]).unwrap();
    BenchBox::new([0.3, 0.12, 0.3], vec![slot]).unwrap().with_wall_thickness(1.5e-3).unwrap()
}

#[test]
fn slot_in_a_box_by_the_published_circuit() {
    // Equations of the paper (from memory) evaluated by hand at its example, derived: 46.9, 36.8, 31.1, 23.0 dB at
    // 200, 400, 500 and 600 MHz; slot line of 109.72 ohm; the dip at 703.15 MHz.
    let circuit = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3).unwrap();
    assert!((circuit.line_impedance_ohm() - 109.72).abs() < 0.01);
    for (frequency_hz, db) in [(200e6, 46.9), (400e6, 36.8), (500e6, 31.1), (600e6, 23.0)] {
        let (electric_db, _) = circuit.shielding_db(frequency_hz, 0.15).unwrap();
        assert!((electric_db - db).abs() < 0.1, "{frequency_hz}: {electric_db}");
    }
    let dip = |f: f64| circuit.shielding_db(f, 0.15).unwrap().0;
    assert!(dip(703.15e6) < 0.0 && dip(703.15e6) < dip(702.9e6) && dip(703.15e6) < dip(703.4e6));
}

#[test]
fn slot_in_a_box_resonates_near_700_mhz() {
    // The paper gives its first resonance, with negative shielding, as near 700 MHz (from memory); TE101 of the
    // closed box is 706.6 MHz.
    let bench = published_box();
    let middle = bench.probe(MIDDLE, BoxAxis::Y).unwrap();
    let db = |f: f64| middle.field(f).electric_shielding_db();
    let (mut at, mut least) = (0.0, f64::INFINITY);
    for step in 0..2000 {
        let f = 690e6 + 1e4 * f64::from(step);
        let now = db(f);
        if now < least {
            (at, least) = (f, now);
        }
    }
    assert!(least < 0.0 && (at - 700e6).abs() < 7e6, "{at} {least}");
    // Field and circuit are different models of one box, of which the paper shows that the circuit is that of its
    // measurements to a few dB below 1 GHz (from memory).
    let circuit = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3).unwrap();
    for frequency_hz in [100e6, 200e6, 400e6, 500e6, 600e6, 800e6] {
        let apart = db(frequency_hz) - circuit.shielding_db(frequency_hz, 0.15).unwrap().0;
        assert!(apart.abs() < 1.0, "{frequency_hz}: {apart}");
    }
}

#[test]
fn slot_in_a_box_against_coupled_voltages() {
    // Thin wall, 200 MHz, in the middle, with sin(m pi u/l), m = 1, 3, 5 ..., each reaction by itself and the sum over the
    // box's modes carried out (tests/python/cavity_reference.py, `coupled_slot_db`): 46.37 dB with one, 45.99 with two,
    // 45.70 with seven, 45.61 with fifteen, still falling by as little again.
    let slot = BoxOpening::rectangle([0.15, 0.06], [0.1, 5e-3]).unwrap();
    let bench = BenchBox::new([0.3, 0.12, 0.3], vec![slot]).unwrap();
    let found = bench.probe([0.15, 0.06, 0.15], BoxAxis::Y).unwrap().field(200e6).electric_shielding_db();
    assert!((found - 45.58).abs() < 0.06, "{found}");
}

#[test]
fn slot_in_a_box_shields_as_read_from_the_papers_figure() {
    // Fig. 6 at 200 MHz, in the middle: about 45 dB, and more further from the slot (read by others from the figure,
    // second-hand): to the 3 dB that such a reading may be off.
    let bench = published_box();
    let circuit = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3).unwrap();
    let at = |z: f64| bench.probe([0.15, 0.06, z], BoxAxis::Y).unwrap().field(200e6).electric_shielding_db();
    assert!((at(0.15) - 45.0).abs() < 3.0, "{}", at(0.15));
    assert!((circuit.shielding_db(200e6, 0.15).unwrap().0 - 45.0).abs() < 3.0);
    assert!(at(0.07) < at(0.15) && at(0.15) < at(0.23));
}
