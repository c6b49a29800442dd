//! Insertion loss, gain at resonance, earth-leakage current, prototypes, preferred values.

// Helpers of tests may unwrap as tests do.
#![allow(clippy::unwrap_used)]

use approx::assert_abs_diff_eq;
use num_complex::Complex64;
use stillroom::filter::{
    Bank, Capacitor, Element, Inductor, Ladder, LineFilter, MainsSupply, MeasuringCircuit, ModalTermination,
    PreferredSeries, Prototype, SupplySystem,
};

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

/// Earth-leakage current 2 pi f C V (derived): 10 nF at 230 V, 50 Hz; 1 uF at 277 V, 60 Hz.
#[test]
fn earth_leakage_of_a_capacitor() {
    for (farad, volt, hertz, printed_ma, half_digit) in
        [(10e-9, 230.0, 50.0, 0.723, 0.0005), (1e-6, 277.0, 60.0, 104.4, 0.05)]
    {
        let supply = MainsSupply::new(SupplySystem::SingleLine, volt, hertz).unwrap();
        let leakage = supply.earth_leakage(&[farad], 0.0).unwrap();
        assert_abs_diff_eq!(1e3 * leakage.normal_a, printed_ma, epsilon = half_digit);
    }
}

/// Time to fall to 34 V from the crest of 230 V: from 325.27 V in 1 s, R C is at most 0.4428 s (derived from the
/// figure of IEC 60335-1 as quoted at classcycles.fr, read, secondary).
#[test]
fn bleed_down_to_a_touchable_voltage() {
    let part = |part: stillroom::filter::Part| Bank::Between { from: 0, to: 1, part };
    let filter = LineFilter::new(
        2,
        vec![
            part(Capacitor::new(0.4428e-6).unwrap().into()),
            part(stillroom::filter::Resistor::new(1e6).unwrap().into()),
        ],
    )
    .unwrap();
    let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
    let duty = filter.mains_duty(&supply, 0.0, 34.0).unwrap();
    assert_abs_diff_eq!(duty.bleed_down_s(), 1.0, epsilon = 2e-4);
}

/// Butterworth, three parts: 1 2 1 (qucs-s manual, "Lowpass Prototype Coefficients", read); all: D. M. Pozar, *Microwave
/// Engineering*, 4th edition, table 8.3 (read as transcribed in a public test file; the book itself not read).
// Printed digits of what happens to be the root of two.
#[allow(clippy::approx_constant)]
#[test]
fn butterworth_prototypes() {
    for printed in [
        &[2.0][..],
        &[1.4142, 1.4142],
        &[1.0, 2.0, 1.0],
        &[0.7654, 1.8478, 1.8478, 0.7654],
        &[0.6180, 1.6180, 2.0, 1.6180, 0.6180],
        &[0.5176, 1.4142, 1.9318, 1.9318, 1.4142, 0.5176],
    ] {
        assert_printed(Prototype::butterworth(printed.len()).unwrap().values(), printed);
    }
}

/// Chebyshev, 0.1 and 0.2 dB: rfcafe.com/references/electrical/cheby-proto-values.htm (read); 0.5 and 3 dB: D. M. Pozar,
/// *Microwave Engineering*, 4th edition, table 8.4 (read as transcribed in a public test file; the book itself not read).
// Printed digits that are near the half root of two.
#[allow(clippy::approx_constant)]
#[test]
fn chebyshev_prototypes() {
    let values = |parts, ripple_db| Prototype::chebyshev(parts, ripple_db).unwrap();
    assert_printed(values(3, 0.1).values(), &[1.0316, 1.1474, 1.0316]);
    assert_printed(values(5, 0.1).values(), &[1.1468, 1.3712, 1.9750, 1.3712, 1.1468]);
    let even = values(4, 0.1);
    assert_printed(even.values(), &[1.1088, 1.3062, 1.7704, 0.8181]);
    // Printed as the load resistance behind a last coil: the reciprocal of g5.
    assert_abs_diff_eq!(even.load().recip(), 0.7378, epsilon = 6e-5);
    assert_printed(values(3, 0.2).values(), &[1.2276, 1.1525, 1.2276]);
    assert_printed(values(5, 0.2).values(), &[1.3395, 1.3370, 2.1661, 1.3370, 1.3395]);
    assert_printed(values(4, 0.2).values(), &[1.3029, 1.2844, 1.9762, 0.8468]);
    // Printed cut, not rounded.
    assert_abs_diff_eq!(values(4, 0.2).load().recip(), 0.6499, epsilon = 1e-4);
    for (ripple_db, printed, load) in [
        (0.5, &[0.6986][..], 1.0),
        (0.5, &[1.4029, 0.7071], 1.9841),
        (0.5, &[1.5963, 1.0967, 1.5963], 1.0),
        (0.5, &[1.6703, 1.1926, 2.3661, 0.8419], 1.9841),
        (0.5, &[1.7058, 1.2296, 2.5408, 1.2296, 1.7058], 1.0),
        (3.0, &[1.9953], 1.0),
        (3.0, &[3.1013, 0.5339], 5.8095),
        (3.0, &[3.3487, 0.7117, 3.3487], 1.0),
        (3.0, &[3.4817, 0.7618, 4.5381, 0.7618, 3.4817], 1.0),
    ] {
        // The rows of 0.5 dB are right to the last digit. Those of 3 dB are up to 1.3e-4 off
        // (3.4817 for 3.4813 of five parts, a load of 5.8095 for 5.8089), each by another share: rounding on their way.
        let share = if ripple_db == 3.0 { 1.3e-4 } else { 0.0 };
        let exact = values(printed.len(), ripple_db);
        for (value, printed) in exact.values().iter().chain([&exact.load()]).zip(printed.iter().chain([&load])) {
            assert_abs_diff_eq!(*value, *printed, epsilon = 6e-5 + share * printed);
        }
    }
}

/// The artificial mains V-network: 50 uH with 5 ohm across 50 ohm, up to 30 MHz ("CISPR equivalent circuit",
/// manualshive.com/ru/manual/narda/pmm-l3-32/3306022?page=12, read), which is clause 4.2 of CISPR 16-1-2 from 9 to 150 kHz
/// (mail-archive.com/emc-pstc@listserv.ieee.org/msg66365.html, read, secondary). Two lines of it: without the 5 ohm, which
/// count for little high up, 100 uH across 100 ohm differentially and 25 uH across 25 ohm in common mode
/// (mail-archive.com/emc-pstc@listserv.ieee.org/msg58425.html, read, secondary).
#[test]
fn artificial_mains_network() {
    let ends = ModalTermination::mains_network(2).unwrap();
    let across = |ohm: f64, henry: f64, frequency_hz: f64| {
        let coil = Complex64::new(0.0, std::f64::consts::TAU * frequency_hz * henry);
        coil * ohm / (coil + ohm)
    };
    for frequency_hz in [1e6, 10e6, 30e6] {
        for (found, printed) in [
            (&ends.differential, across(100.0, 100e-6, frequency_hz)),
            (&ends.common, across(25.0, 25e-6, frequency_hz)),
        ] {
            // What 5 ohm in series with 314 ohm and more amount to.
            assert!((found.impedance_ohm(frequency_hz) / printed - 1.0).norm() < 0.005, "{frequency_hz}");
        }
    }
}

/// Chebyshev, 0.25, 0.5 and 1 dB, scaled to 3 dB at 1 rad/s (a factor `cosh(arcosh(1/e)/n)`, `e` the ripple factor):
/// *Analog and Digital Filter Design*, p. 66, tables 2.12 to 2.14, at digilib.universitaspertamina.ac.id (read).
#[test]
fn chebyshev_prototypes_by_their_half_power_point() {
    for (ripple_db, printed) in [
        (0.25, &[1.63306, 1.43616, 1.63306][..]),
        (0.25, &[1.53996, 1.43493, 2.44027, 1.43493, 1.53996]),
        (0.25, &[1.51189, 1.41692, 2.45311, 1.53492, 2.45311, 1.41692, 1.51189]),
        (0.5, &[1.86369, 1.28036, 1.86369]),
        (0.5, &[1.80691, 1.30248, 2.69145, 1.30248, 1.80691]),
        (0.5, &[1.78962, 1.29608, 2.71773, 1.38476, 2.71773, 1.29608, 1.78962]),
        (1.0, &[2.21565, 1.08839, 2.21565]),
        (1.0, &[2.20715, 1.12798, 3.10248, 1.12798, 2.20715]),
        (1.0, &[2.20391, 1.13061, 3.14695, 1.19368, 3.14695, 1.13061, 2.20391]),
    ] {
        let prototype = Prototype::chebyshev(printed.len(), ripple_db).unwrap();
        let ripple_factor = (10f64.powf(0.1 * ripple_db) - 1.0).sqrt();
        let half_power = (ripple_factor.recip().acosh() / printed.len() as f64).cosh();
        for (value, printed) in prototype.values().iter().zip(printed) {
            // The printed values follow from constants with few digits: all end parts are 2 to 4 in 10^5 high.
            assert_abs_diff_eq!(value * half_power, *printed, epsilon = 1e-4);
        }
    }
}

/// Entries of the same page that the recursion shows to be misprints: 0.7653 for 0.7563 (0.01 dB, five parts), .07814
/// for 0.7814 (six parts), 1.5374 for 1.5734 (0.1 dB, seven parts).
#[test]
fn misprints_of_a_printed_table_are_told_by_the_recursion() {
    let values = |parts, ripple_db| Prototype::chebyshev(parts, ripple_db).unwrap().values().to_vec();
    assert_abs_diff_eq!(values(5, 0.01)[0], 0.7563, epsilon = 6e-5);
    assert!(values(6, 0.01).iter().any(|value| (value - 0.7814).abs() < 6e-5));
    assert!(values(7, 0.1).iter().any(|value| (value - 1.5734).abs() < 6e-5));
}

fn assert_printed(values: &[f64], printed: &[f64]) {
    assert_eq!(values.len(), printed.len());
    for (value, printed) in values.iter().zip(printed) {
        // Half of the fourth decimal, and a little for tables that cut instead of rounding.
        assert_abs_diff_eq!(*value, *printed, epsilon = 6e-5);
    }
}

/// IEC 60063: E6, E12, E24 and the beginning of E48 and E96 as printed at qsl.net/g4usp/Components (read).
#[test]
fn preferred_values() {
    let hundreds = |series: PreferredSeries| -> Vec<u32> {
        series.decade().iter().map(|value| (100.0 * value).round() as u32).collect()
    };
    assert_eq!(hundreds(PreferredSeries::E6), [100, 150, 220, 330, 470, 680]);
    assert_eq!(hundreds(PreferredSeries::E12), [100, 120, 150, 180, 220, 270, 330, 390, 470, 560, 680, 820]);
    assert_eq!(hundreds(PreferredSeries::E24)[12..], [330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910]);
    let e48 = [
        100, 105, 110, 115, 121, 127, 133, 140, 147, 154, 162, 169, 178, 187, 196, 205, 215, 226, 237, 249, 261, 274,
        287, 301, 316, 332, 348, 365, 383, 402, 422, 442, 464, 487, 511, 536, 562, 590, 619, 649, 681, 715, 750, 787,
        825, 866, 909, 953,
    ];
    assert_eq!(hundreds(PreferredSeries::E48), e48);
    // Printed in columns; the excerpt read ends within the last.
    let e96 = hundreds(PreferredSeries::E96);
    for printed in [
        100, 121, 147, 178, 215, 261, 316, 383, 464, 562, 681, 825, 102, 124, 150, 182, 221, 267, 324, 392, 475, 576,
        698, 845, 105, 127, 154, 187, 226, 274, 332, 402, 487, 590, 715, 866, 107, 130, 158, 191, 232, 280, 340, 412,
        499, 604, 732, 887, 110, 133, 162, 196, 237, 287, 348, 422, 511, 619, 750, 909, 113, 137, 165, 200, 243, 294,
        357, 432, 523, 634, 768, 931, 115, 140, 169, 205, 249, 301, 365, 442, 536, 649, 787,
    ] {
        assert!(e96.contains(&printed), "{printed}");
    }
    assert_eq!(e96.len(), 96);
}
