//! Insertion loss, gain at resonance, earth-leakage current.

// Helpers of tests may unwrap as tests do.
#![allow(clippy::unwrap_used)]

use approx::assert_abs_diff_eq;
use stillroom::filter::{Capacitor, Element, Inductor, Ladder, MeasuringCircuit};

fn coil(henry: f64) -> Element {
    Element::Series(Inductor::new(henry).unwrap().into())
}

fn across(farad: f64) -> Element {
    Element::Shunt(Capacitor::new(farad).unwrap().into())
}

fn loss_db(elements: Vec<Element>, frequency_hz: f64, circuit: &MeasuringCircuit) -> f64 {
    Ladder::new(elements).unwrap().insertion_loss_db(frequency_hz, circuit)
}

// The definition 20 log10(V20/V2) and the pairs 50/50, 0.1/100 and 100/0.1 ohm: CISPR 17, as described at
// hal.com.tw/sys-nd/457.html (read). The values below follow from it by hand or by another program (derived),
// printed to two decimals.
const PRINTED: f64 = 0.005;

/// One part alone has a closed form: 10 log10(1 + (w R C/2)^2) and 10 log10(1 + (w L/2R)^2).
#[test]
fn one_part_between_fifty_ohms() {
    let circuit = MeasuringCircuit::fifty_ohm();
    assert_abs_diff_eq!(loss_db(vec![across(1e-6)], 100e3, &circuit), 23.94, epsilon = PRINTED);
    assert_abs_diff_eq!(loss_db(vec![coil(100e-6)], 1e6, &circuit), 16.07, epsilon = PRINTED);
}

#[test]
fn one_filter_has_as_many_losses_as_circuits() {
    let filter = || vec![coil(100e-6), across(1e-6)];
    for (circuit, printed) in [
        (MeasuringCircuit::fifty_ohm(), 27.91),
        (MeasuringCircuit::low_to_high(), 31.70),
        (MeasuringCircuit::high_to_low(), 1.46),
    ] {
        assert_abs_diff_eq!(loss_db(filter(), 100e3, &circuit), printed, epsilon = PRINTED);
    }
}

#[test]
fn a_mismatched_filter_gains_at_its_resonance() {
    let gain_db = loss_db(vec![coil(100e-6), across(1e-6)], 15_915.5, &MeasuringCircuit::low_to_high());
    assert_abs_diff_eq!(gain_db, -19.18, epsilon = PRINTED);
}

#[test]
fn pi_and_tee_of_the_same_parts() {
    let circuit = MeasuringCircuit::fifty_ohm();
    let pi = vec![across(1e-6), coil(100e-6), across(1e-6)];
    let tee = vec![coil(100e-6), across(1e-6), coil(100e-6)];
    assert_abs_diff_eq!(loss_db(pi, 1e6, &circuit), 115.85, epsilon = PRINTED);
    assert_abs_diff_eq!(loss_db(tee, 1e6, &circuit), 87.94, epsilon = PRINTED);
}
