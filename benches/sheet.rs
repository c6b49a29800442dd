//! Laminates: one frequency at a time, and many.

#![allow(clippy::unwrap_used, reason = "a benchmark of a bad laminate has nothing to measure")]

use divan::{Bencher, black_box};
use ndarray::Array1;
use num_complex::Complex64;
use stillroom::wave::{Sheet, Waves};
use stillroom::{Laminate, Layer, Material, PlaneWave, Polarization, material::catalogue};

fn main() {
    divan::main();
}

/// Constant materials: conductor, lossy dielectric, conductor.
fn panel() -> Laminate {
    let steel = Material::conductor("steel", 5.8e6, 200.0).unwrap();
    let core = Material::dielectric("core", 2.5, 0.02).unwrap();
    laminate(steel, core)
}

/// Materials that change with frequency.
fn catalogue_panel() -> Laminate {
    laminate(catalogue::get("steel").unwrap(), catalogue::get("chipboard").unwrap())
}

fn laminate(face: Material, core: Material) -> Laminate {
    let layers = [(face.clone(), 0.5e-3), (core, 19e-3), (face, 0.5e-3)];
    Laminate::new(layers.map(|(material, thickness)| Layer::slab(material, thickness).unwrap()).to_vec()).unwrap()
}

fn frequencies(count: usize) -> Array1<f64> {
    Array1::geomspace(1e3, 18e9, count).unwrap()
}

#[divan::bench(args = [1, 8, 10_000])]
fn shielding_of_many(bencher: Bencher, count: usize) {
    let (panel, frequency_hz, wave) = (panel(), frequencies(count), PlaneWave::normal());
    bencher.counter(count).bench(|| black_box(&panel).shielding_db_at(frequency_hz.view(), &wave));
}

#[divan::bench]
fn shielding_of_many_oblique_tm(bencher: Bencher) {
    let (panel, frequency_hz) = (panel(), frequencies(10_000));
    let wave = PlaneWave::new(60.0, Polarization::Tm).unwrap();
    bencher.counter(10_000_usize).bench(|| black_box(&panel).shielding_db_at(frequency_hz.view(), &wave));
}

#[divan::bench]
fn shielding_of_many_dispersive(bencher: Bencher) {
    let (panel, frequency_hz, wave) = (catalogue_panel(), frequencies(10_000), PlaneWave::normal());
    bencher.counter(10_000_usize).bench(|| black_box(&panel).shielding_db_at(frequency_hz.view(), &wave));
}

#[divan::bench]
fn shielding_one_by_one(bencher: Bencher) {
    let (panel, frequency_hz, wave) = (panel(), frequencies(10_000), PlaneWave::normal());
    bencher
        .counter(10_000_usize)
        .bench(|| frequency_hz.iter().map(|&f| black_box(&panel).shielding_db(f, &wave)).sum::<f64>());
}

#[divan::bench]
fn transmission_of_a_spectrum(bencher: Bencher) {
    let (panel, transverse) = (panel(), Array1::geomspace(1e-2, 1e4, 10_000).unwrap().to_vec());
    let waves = Waves::spectrum(1e5, &transverse);
    let mut out = vec![Complex64::ZERO; transverse.len()];
    bencher.counter(10_000_usize).bench_local(|| {
        black_box(&panel).transmissions(&waves, Polarization::Te, &mut out);
    });
}
