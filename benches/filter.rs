//! Ladders: insertion loss over a sweep, and its worst case.

#![allow(clippy::unwrap_used, reason = "a benchmark of a bad ladder has nothing to measure")]

use divan::{Bencher, black_box};
use ndarray::Array1;
use stillroom::filter::{
    Bank, Capacitor, CommonModeChoke, Element, ImpedanceRegion, Inductor, Ladder, LineFilter, LineMode,
    MeasuringCircuit, ModalTermination, Part,
};

fn main() {
    divan::main();
}

/// Capacitors across the line at both ends, coils between.
fn ladder(count: usize) -> Ladder {
    let elements = (0..count).map(|place| {
        let scale = 1.0 + 0.1 * place as f64;
        if place % 2 == 1 {
            let coil = Inductor::new(100e-6 * scale).unwrap().with_resistance_ohm(0.02).unwrap();
            Element::Series(Part::Inductor(coil.with_parallel_capacitance_f(15e-12).unwrap()))
        } else {
            let capacitor = Capacitor::new(0.47e-6 * scale).unwrap().with_series_resistance_ohm(0.01).unwrap();
            Element::Shunt(Part::Capacitor(capacitor.with_series_inductance_h(10e-9).unwrap()))
        }
    });
    Ladder::new(elements.collect()).unwrap()
}

fn frequencies() -> Vec<f64> {
    Array1::geomspace(10e3, 1e9, 10_000).unwrap().to_vec()
}

#[divan::bench(args = [3, 7, 9])]
fn insertion_loss_of_many(bencher: Bencher, count: usize) {
    let (ladder, frequency_hz, circuit) = (ladder(count), frequencies(), MeasuringCircuit::fifty_ohm());
    let mut out = vec![0.0; frequency_hz.len()];
    bencher.counter(frequency_hz.len()).bench_local(|| {
        black_box(&ladder).insertion_losses_db(&frequency_hz, &circuit, &mut out);
    });
}

#[divan::bench]
fn insertion_loss_one_by_one(bencher: Bencher) {
    let (ladder, frequency_hz, circuit) = (ladder(7), frequencies(), MeasuringCircuit::fifty_ohm());
    bencher
        .counter(frequency_hz.len())
        .bench(|| frequency_hz.iter().map(|&f| black_box(&ladder).insertion_loss_db(f, &circuit)).sum::<f64>());
}

#[divan::bench]
fn worst_case_of_many(bencher: Bencher) {
    let (ladder, frequency_hz) = (ladder(7), frequencies());
    let mut out = vec![0.0; frequency_hz.len()];
    bencher.counter(frequency_hz.len()).bench_local(|| {
        black_box(&ladder).worst_insertion_losses_db(&frequency_hz, &mut out);
    });
}

#[divan::bench(args = [80.0, 89.9, 90.0])]
fn worst_of_two_regions(bencher: Bencher, most_phase_deg: f64) {
    let ladder = ladder(9);
    let region = |min_ohm, max_ohm| ImpedanceRegion::new(min_ohm, max_ohm, -most_phase_deg, most_phase_deg).unwrap();
    let (source, load) = (region(1.0, 300.0), region(10.0, 1e3));
    let frequency_hz = Array1::geomspace(10e3, 30e6, 100).unwrap().to_vec();
    let mut out = vec![0.0; frequency_hz.len()];
    bencher.counter(frequency_hz.len()).bench_local(|| {
        black_box(&ladder).region_insertion_losses_db(&frequency_hz, &source, &load, &mut out);
    });
}

#[divan::bench(args = [2, 4])]
fn several_lines(bencher: Bencher, lines: usize) {
    let cap = |farad| Part::Capacitor(Capacitor::new(farad).unwrap().with_series_resistance_ohm(0.02).unwrap());
    let filter = LineFilter::new(
        lines,
        vec![
            Bank::Between { from: 0, to: 1, part: cap(470e-9) },
            Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap()),
            Bank::ToCase(vec![cap(4.7e-9); lines]),
        ],
    )
    .unwrap();
    let ends = ModalTermination::each_line(50.0, lines).unwrap();
    let frequency_hz = frequencies();
    let mut out = vec![0.0; frequency_hz.len()];
    bencher.counter(frequency_hz.len()).bench_local(|| {
        black_box(&filter)
            .insertion_losses_db(&frequency_hz, LineMode::Common, LineMode::Common, &ends, &ends, &mut out)
            .unwrap();
    });
}
