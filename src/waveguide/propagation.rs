//! The propagation constant of a mode, one frequency at a time and many.
//!
//! γ = √((k_c − nk)(k_c + nk) + δ), as the module [`super::guide`] tells it; the lanes are the twin of the scalar form.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::mode::Mode;
use super::spectrum::ModeFamily;
use crate::complex_functions::decaying_root;
use crate::constants::{SPEED_OF_LIGHT, VACUUM_IMPEDANCE, VACUUM_PERMEABILITY, wavenumber_per_m};
use crate::decibel::DB_PER_NEPER;
use crate::lanes::{Complex, Kernel, Real, Simd, Window, in_parts, paired, sweep};

/// What a guide is made of, besides its shape.
#[derive(Debug, Clone, Copy)]
pub(super) struct Medium {
    /// Complex relative permittivity of the filling.
    pub(super) permittivity: Complex64,
    /// Of the wall, S/m; infinite for a perfect conductor.
    pub(super) wall_conductivity_s_per_m: f64,
}

impl Medium {
    fn is_perfect(&self) -> bool {
        self.wall_conductivity_s_per_m == f64::INFINITY
    }

    /// γ of a mode, 1/m.
    pub(super) fn propagation_per_m(&self, mode: &Mode, frequency_hz: f64) -> Complex64 {
        let k = wavenumber_per_m(frequency_hz);
        let cutoff = mode.cutoff_wavenumber_per_m();
        let filled = decaying_root(self.permittivity) * k;
        decaying_root((cutoff - filled) * (cutoff + filled) + self.wall_share(mode, k, frequency_hz))
    }

    /// What the wall adds to γ², 1/m².
    fn wall_share(&self, mode: &Mode, k: f64, frequency_hz: f64) -> Complex64 {
        if self.is_perfect() {
            return Complex64::ZERO;
        }
        let [per_k, times_k] = self.wall_terms(mode);
        // j k Z_s/η₀ with Z_s = (1 + j) R_s
        let sheet = sheet_resistance(self.wall_conductivity_s_per_m, frequency_hz);
        Complex64::new(-1.0, 1.0) * sheet * (per_k / k + times_k * k)
    }

    fn wall_terms(&self, mode: &Mode) -> [f64; 2] {
        wall_factors(mode.family(), mode.cutoff_wavenumber_per_m(), mode.wall_per_m(), self.permittivity.re)
    }

    /// Attenuation of a mode at many frequencies, dB/m.
    pub(super) fn attenuations_db_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [f64]) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        if self.permittivity.im == 0.0 && self.is_perfect() {
            let cutoff = mode.cutoff_wavenumber_per_m();
            let per_hz = 2.0 * PI / SPEED_OF_LIGHT * self.permittivity.re.sqrt();
            in_parts(out, frequency_hz.len() / 4, |start, out| {
                let frequency_hz = &frequency_hz[start..start + out.len()];
                sweep(out.len(), &mut Lossless { cutoff, per_hz, frequency_hz, out });
            });
        } else {
            let waves = Waves::new(self, mode);
            in_parts(out, frequency_hz.len(), |start, out| {
                let frequency_hz = &frequency_hz[start..start + out.len()];
                sweep(out.len(), &mut Decay { waves, frequency_hz, out });
            });
        }
    }

    /// γ of a mode at many frequencies, 1/m.
    pub(super) fn propagations_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [Complex64]) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        let waves = Waves::new(self, mode);
        in_parts(out, frequency_hz.len(), |start, out| {
            let frequency_hz = &frequency_hz[start..start + out.len()];
            sweep(out.len(), &mut Gammas { waves, frequency_hz, out });
        });
    }
}

/// Factors of 1/k and of k in the wall's share, over (j − 1) R_s/η₀, from a mode's cutoff and its wall integrals.
pub(super) fn wall_factors(family: ModeFamily, cutoff: f64, [first, second]: [f64; 2], permittivity: f64) -> [f64; 2] {
    match family {
        // first·k_c² + second·β², over k
        ModeFamily::Te => [(first - second) * cutoff * cutoff, second * permittivity],
        _ => [0.0, first * permittivity],
    }
}

/// R_s/η₀ of a wall; zero of a perfect one.
pub(super) fn sheet_resistance(wall_conductivity_s_per_m: f64, frequency_hz: f64) -> f64 {
    (PI * frequency_hz * VACUUM_PERMEABILITY / wall_conductivity_s_per_m).sqrt() / VACUUM_IMPEDANCE
}

/// Without loss the root is real or nothing.
struct Lossless<'a> {
    cutoff: f64,
    per_hz: f64,
    frequency_hz: &'a [f64],
    out: &'a mut [f64],
}

impl Kernel for Lossless<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let filled = at.load(self.frequency_hz) * self.per_hz;
        let square = (at.splat(self.cutoff) - filled) * (filled + self.cutoff);
        at.store(square.larger(at.splat(0.0)).sqrt() * DB_PER_NEPER, self.out);
    }
}

/// What is the same at all frequencies.
#[derive(Debug, Clone, Copy)]
struct Waves {
    cutoff: f64,
    index: Complex64,
    /// R_s/η₀ over the root of the frequency in Hz; zero for a perfect wall.
    wall: f64,
    per_k: f64,
    times_k: f64,
}

impl Waves {
    fn new(medium: &Medium, mode: &Mode) -> Self {
        let [per_k, times_k] = medium.wall_terms(mode);
        Self {
            cutoff: mode.cutoff_wavenumber_per_m(),
            index: decaying_root(medium.permittivity),
            wall: (PI * VACUUM_PERMEABILITY / medium.wall_conductivity_s_per_m).sqrt() / VACUUM_IMPEDANCE,
            per_k,
            times_k,
        }
    }

    #[inline(always)]
    fn at<S: Simd>(&self, at: Window<S>, frequency_hz: Real<S>) -> Complex<S> {
        let k = frequency_hz * (2.0 * PI / SPEED_OF_LIGHT);
        let (re, im) = (k * self.index.re, k * self.index.im);
        let cutoff = at.splat(self.cutoff);
        let mut square = Complex::new(cutoff - re, -im) * Complex::new(cutoff + re, im);
        if self.wall > 0.0 {
            let share = (at.splat(self.per_k) / k + k * self.times_k) * frequency_hz.sqrt() * self.wall;
            square = square + Complex::new(-share, share);
        }
        square.sqrt()
    }
}

struct Decay<'a> {
    waves: Waves,
    frequency_hz: &'a [f64],
    out: &'a mut [f64],
}

impl Kernel for Decay<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let gamma = self.waves.at(at, at.load(self.frequency_hz));
        at.store(gamma.re * DB_PER_NEPER, self.out);
    }
}

struct Gammas<'a> {
    waves: Waves,
    frequency_hz: &'a [f64],
    out: &'a mut [Complex64],
}

impl Kernel for Gammas<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let gamma = self.waves.at(at, at.load(self.frequency_hz));
        at.store_complex(gamma, self.out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::Guide;

    #[test]
    fn lanes_are_twins() {
        let guides = [
            Guide::circular(6e-3).unwrap(),
            Guide::circular(6e-3).unwrap().filled(3.0, 0.0).unwrap(),
            Guide::hexagonal(0.1).unwrap().filled(2.5, 1e-5).unwrap(),
            Guide::rectangular(0.02, 0.07).unwrap().walled(5.8e7).unwrap(),
            Guide::circular(3.0).unwrap().filled(80.0, 2.0).unwrap().walled(1e3).unwrap(),
        ];
        for guide in guides {
            for mode in guide.modes(5) {
                let cutoff = guide.mode_cutoff_hz(&mode);
                let mut f: Vec<f64> = (0..301).map(|i| cutoff * 10_f64.powf(-7.0 + 0.04 * f64::from(i))).collect();
                f.extend([cutoff * (1.0 - 1e-9), cutoff, cutoff * (1.0 + 1e-9), 1e-300, 1e300]);
                let mut gamma = vec![Complex64::ZERO; f.len()];
                let mut db = vec![0.0; f.len()];
                guide.medium().propagations_per_m(&mode, &f, &mut gamma);
                guide.medium().attenuations_db_per_m(&mode, &f, &mut db);
                for ((&f, gamma), db) in f.iter().zip(gamma).zip(db) {
                    let exact = guide.mode_propagation_per_m(&mode, f);
                    if !exact.norm_sqr().is_finite() {
                        assert!(!gamma.norm_sqr().is_finite(), "{f:e} {gamma} {exact}");
                        continue;
                    }
                    // At cutoff the rounding of k_c − nk is all that is left: there the squares agree.
                    let scale = (mode.cutoff_wavenumber_per_m() + exact.norm()).powi(2);
                    let near = (gamma * gamma - exact * exact).norm() <= 1e-14 * scale;
                    let away = (f / cutoff - 1.0).abs() < 1e-3
                        || (gamma.re - exact.re).abs() <= 1e-12 * exact.re + 1e-15 * exact.norm();
                    assert!(near && away, "{guide:?} {mode} {f:e}: {gamma} {exact}");
                    if (f / cutoff - 1.0).abs() > 1e-3 {
                        assert!(
                            (db - DB_PER_NEPER * exact.re).abs() <= 1e-12 * db + 1e-14 * exact.norm(),
                            "{guide:?} {f:e}"
                        );
                    }
                }
            }
        }
    }
}
