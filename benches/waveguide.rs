//! Tubes: propagation constants at many frequencies, the leak, and full mode matching.

#![allow(clippy::unwrap_used, reason = "a benchmark of a bad tube has nothing to measure")]

use divan::{Bencher, black_box};
use num_complex::Complex64;
use stillroom::Polarization;
use stillroom::leak::Leak;
use stillroom::waveguide::{Cell, CoaxialGuide, Guide, HoneycombPanel, Rod, Tube};

fn main() {
    divan::main();
}

fn frequencies(count: usize, top_hz: f64) -> Vec<f64> {
    (1..=count).map(|i| top_hz * i as f64 / count as f64).collect()
}

fn bore() -> Guide {
    Guide::circular(6e-3).unwrap()
}

#[divan::bench(args = [1, 100, 100_000])]
fn attenuation_of_an_empty_tube(bencher: Bencher, count: usize) {
    let (guide, f, mut out) = (bore(), frequencies(count, 28e9), vec![0.0; count]);
    bencher.counter(count).bench_local(|| black_box(&guide).attenuations_db_per_m(&f, &mut out));
}

#[divan::bench(args = [100, 100_000])]
fn attenuation_with_loss(bencher: Bencher, count: usize) {
    let guide = bore().filled(2.1, 3e-4).unwrap().walled(5.8e7).unwrap();
    let (f, mut out) = (frequencies(count, 60e9), vec![0.0; count]);
    bencher.counter(count).bench_local(|| black_box(&guide).attenuations_db_per_m(&f, &mut out));
}

#[divan::bench]
fn propagation_of_a_coaxial_line(bencher: Bencher) {
    let line = CoaxialGuide::new(3.04e-3, 7e-3).unwrap().walled(5.8e7).unwrap();
    let (tem, f, mut out) = (line.mode("TEM").unwrap(), frequencies(100_000, 18e9), vec![Complex64::ZERO; 100_000]);
    bencher.counter(f.len()).bench_local(|| black_box(&line).mode_propagations_per_m(&tem, &f, &mut out));
}

#[divan::bench]
fn leak_of_an_empty_tube(bencher: Bencher) {
    let tube = Tube::new(bore(), 36e-3).unwrap();
    let (f, mut out) = (frequencies(1000, 40e9), vec![0.0; 1000]);
    bencher.counter(f.len()).bench_local(|| black_box(&tube).ln_cross_sections(&f, &mut out));
}

#[divan::bench]
fn leak_of_a_fed_tube(bencher: Bencher) {
    let tube = Tube::new(bore(), 36e-3).unwrap().with_rod(Rod::new(2.8e-3, 3.0).unwrap()).unwrap();
    let (f, mut out) = (frequencies(1000, 40e9), vec![0.0; 1000]);
    bencher.counter(f.len()).bench_local(|| black_box(&tube).ln_cross_sections(&f, &mut out));
}

#[divan::bench(args = [1, 50])]
fn mode_matching_at_one_angle(bencher: Bencher, count: usize) {
    let (tube, f) = (Tube::new(bore(), 36e-3).unwrap(), frequencies(count, 40e9));
    bencher
        .counter(count)
        .bench(|| black_box(&tube).directional_ln_cross_sections(&f, 30.0, 0.0, Polarization::Tm).unwrap());
}

/// Full mode matching of a honeycomb panel, 200 frequencies up to cutoff at one angle: in a mirror plane of the lattice, and beside
/// one, where no symmetry helps.
#[divan::bench(args = ["hexagonal 0", "hexagonal 17", "square 0", "square 17", "round 0", "round 17"])]
fn mode_matching_of_a_honeycomb(bencher: Bencher, which: &str) {
    let (kind, azimuth) = which.split_once(' ').unwrap();
    let cell = match kind {
        "hexagonal" => Cell::hexagonal(4.8e-3, 0.3e-3),
        "square" => Cell::square(4.8e-3, 0.3e-3),
        _ => Cell::round(4.8e-3, 0.3e-3),
    };
    let panel = HoneycombPanel::new(cell.unwrap(), 12e-3, (0.3, 0.3)).unwrap();
    let (f, azimuth) = (frequencies(200, 30e9), azimuth.parse().unwrap());
    let sweep = || black_box(&panel).lattice_responses(&f, 30.0, azimuth, Polarization::Te).unwrap();
    sweep();
    bencher.counter(f.len()).bench(sweep);
}
