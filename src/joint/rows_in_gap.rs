//! Rows of contacts that follow each other across a long gap.
//!
//! They are shunts on a line. With β the wavenumber along the joint, γ² = β² − k² (1 + 2Z_s/(jωμ₀ g))
//! and a shunt jωμ₀ g/Z_T for each row. The waves of a long line fill the angles evenly in β, so that
//! σ = (λ²/4π)(l/π) ∫₀ᵏ T dβ; a line shorter than the wavelength is a single dipole.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::bay::{Gap, LEAST_M};
use super::equal_pieces::ln_alone;
use super::lanes::{MOST_ROWS, OneRowKernel, RowsKernel, in_lanes};
use crate::constants::{VACUUM_IMPEDANCE, wavenumber_per_m};
use crate::material::Material;
use crate::mouth::chain::{Chain, ln_mode_area};
use crate::mouth::slit::{Slit, ln_endless_modes, ln_shortened, narrow_gap};
use crate::mouth::slit_angles::{self, AtAnyAngle};
use crate::validity::Validity;

/// Abscissas and weights of the 4-point Gauss-Legendre rule on (0, 1).
const GAUSS_4: [(f64, f64); 4] = [
    (0.069_431_844_202_973_71, 0.173_927_422_568_726_93),
    (0.330_009_478_207_571_87, 0.326_072_577_431_273_07),
    (0.669_990_521_792_428_1, 0.326_072_577_431_273_07),
    (0.930_568_155_797_026_3, 0.173_927_422_568_726_93),
];

/// A gap between two faces with rows of contacts in it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RowsInGap {
    length_m: f64,
    gap_m: f64,
    row_spacing_m: f64,
    faces: Material,
}

impl RowsInGap {
    /// By length, gap and the distance between its rows, m, and what its faces are made of.
    pub(super) fn new(length_m: f64, gap_m: f64, row_spacing_m: f64, faces: &Material) -> Self {
        Self { length_m, gap_m, row_spacing_m, faces: faces.clone() }
    }

    /// Where the gap and its faces are described rightly.
    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m, frequency_hz).and(self.faces.validity(frequency_hz))
    }

    /// ln of the averaged cross-section, with each row's transfer impedance from outside in.
    pub(super) fn ln_cross_section(&self, frequency_hz: f64, rows: impl Iterator<Item = Complex64> + Clone) -> f64 {
        let chain = self.chain(frequency_hz, rows);
        let modes = ln_endless_modes(self.mouth_m(), 0.0, wavenumber_per_m(frequency_hz), chain, |_| 1.0);
        self.ln_of_modes(frequency_hz, modes)
    }

    /// The same of anything else between the two mouths of the gap.
    pub(super) fn ln_between(&self, frequency_hz: f64, between: &impl AtAnyAngle) -> f64 {
        let modes = slit_angles::ln_endless_modes(self.mouth_m(), wavenumber_per_m(frequency_hz), between);
        self.ln_of_modes(frequency_hz, modes)
    }

    fn ln_of_modes(&self, frequency_hz: f64, ln_modes: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        ln_mode_area(k) + ln_modes + self.ln_coherence(k)
    }

    /// Length and height of a mouth.
    fn mouth_m(&self) -> (f64, f64) {
        (self.length_m, self.gap_m.max(LEAST_M))
    }

    fn chain(&self, frequency_hz: f64, rows: impl Iterator<Item = Complex64> + Clone) -> impl Fn(f64) -> Chain {
        let gap = Gap::new(frequency_hz, self.gap_m, &self.faces);
        let reference = self.shunt_reference(frequency_hz);
        let row_spacing_m = self.row_spacing_m;
        move |beta: f64| {
            let gamma_squared = beta * beta + gap.minus_k_squared;
            rows.clone().enumerate().fold(Chain::through(), |chain, (place, impedance)| {
                let spacing_m = if place == 0 { 0.0 } else { row_spacing_m };
                chain.line(gamma_squared, gap.series, spacing_m).shunt(reference / impedance)
            })
        }
    }

    /// jωμ₀ g: over the transfer impedance of a row it is the shunt that the row makes.
    pub(super) fn shunt_reference(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(0.0, wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * self.gap_m)
    }

    /// Directivity with each row's transfer impedance.
    pub(super) fn directivity(&self, frequency_hz: f64, rows: impl Iterator<Item = Complex64> + Clone) -> f64 {
        self.directivity_of_chain(frequency_hz, self.chain(frequency_hz, rows))
    }

    /// Directivity of the line, broadside and matched, against its averaged cross-section.
    ///
    /// (8/π) T(0)/T̄ with T̄ averaged over the angles: 8/π for a bare slit, 15/π where contacts leave T ∝ cos⁴θ.
    /// Where the depth resonates, T is none of both; it is held between them. A line shorter than the wavelength
    /// is a dipole, with 3.
    pub(super) fn directivity_of_chain(&self, frequency_hz: f64, chain: impl Fn(f64) -> Chain) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let ln_share = |sine: f64| {
            let cosine = ((1.0 - sine) * (1.0 + sine)).sqrt();
            chain(k * sine).ln_transmission(Slit::endless_mouth(self.gap_m.max(LEAST_M), k * cosine))
        };
        let ln_normal = ln_share(0.0);
        let mean: f64 = GAUSS_4.iter().map(|&(sine, weight)| weight * (ln_share(sine) - ln_normal).exp()).sum();
        let line = 8.0 / PI * (1.0 / mean).clamp(1.0, 15.0 / 8.0);
        3.0 + (line - 3.0) * self.ln_coherence(k).exp()
    }

    /// The same at many frequencies, with each row's transfer impedance at one of them.
    pub(super) fn ln_cross_sections(
        &self,
        frequency_hz: &[f64],
        rows: &[impl Fn(f64) -> Complex64 + Sync],
        out: &mut [f64],
    ) {
        let scalar = |f: f64| self.ln_cross_section(f, rows.iter().map(|row| row(f)));
        match rows {
            [row] => {
                let fill = |frequency_hz: &[f64], out: &mut [f64]| self.fill_one(row, frequency_hz, out);
                in_lanes(frequency_hz, out, fill, scalar);
            }
            _ if rows.is_empty() || rows.len() > MOST_ROWS => {
                frequency_hz.iter().zip(out).for_each(|(&f, ln)| *ln = scalar(f));
            }
            _ => {
                let fill = |frequency_hz: &[f64], out: &mut [f64]| self.fill(rows, frequency_hz, out);
                in_lanes(frequency_hz, out, fill, scalar);
            }
        }
    }

    fn fill_one(&self, row: &impl Fn(f64) -> Complex64, frequency_hz: &[f64], out: &mut [f64]) {
        let kernel = OneRowKernel {
            length_m: self.length_m,
            gap_m: self.gap_m.max(LEAST_M),
            wavenumber_per_m: frequency_hz.iter().copied().map(wavenumber_per_m).collect(),
            impedance: frequency_hz.iter().map(|&f| row(f)).collect(),
            out,
            open: Vec::new(),
        };
        kernel.run_all();
    }

    fn fill(&self, rows: &[impl Fn(f64) -> Complex64], frequency_hz: &[f64], out: &mut [f64]) {
        let each = frequency_hz.iter().copied();
        let gaps: Vec<Gap> = each.clone().map(|f| Gap::new(f, self.gap_m, &self.faces)).collect();
        let shunt = |row: &dyn Fn(f64) -> Complex64, f: f64| self.shunt_reference(f) / row(f);
        let kernel = RowsKernel {
            length_m: self.length_m,
            gap_m: self.gap_m.max(LEAST_M),
            row_spacing_m: self.row_spacing_m,
            wavenumber_per_m: each.clone().map(wavenumber_per_m).collect(),
            minus_k_squared: gaps.iter().map(|gap| gap.minus_k_squared).collect(),
            series: gaps.iter().map(|gap| gap.series).collect(),
            shunts: rows.iter().map(|row| each.clone().map(|f| shunt(row, f)).collect()).collect(),
            out,
            open: Vec::new(),
        };
        kernel.run_all();
    }

    /// Of `contacts` alike pieces that add in amplitude: see [`Leak::ln_in_amplitude`](crate::leak::Leak).
    pub(super) fn ln_in_amplitude(&self, contacts: usize, frequency_hz: f64, ln_cross_section: f64) -> f64 {
        let count = contacts as f64;
        ln_alone(ln_cross_section, wavenumber_per_m(frequency_hz), (self.length_m / count, count)) + 2.0 * count.ln()
    }

    /// Dipole by dipole the line gains 6π/(5 k s) from its own coherence; as a whole it is one.
    fn ln_coherence(&self, wavenumber_per_m: f64) -> f64 {
        ln_shortened((wavenumber_per_m * self.length_m / (1.2 * PI)).ln())
    }
}
