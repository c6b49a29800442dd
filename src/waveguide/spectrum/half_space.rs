//! The half-space in front of an aperture in a conducting plane, as the modes of the aperture see it.
//!
//! With the transverse electric field in the aperture written as Σ v_p e_p (orthonormal modes), the half-space answers
//! with an admittance matrix y = g + jb, in units of 1/η₀:
//!
//! y_pq = ∫₀^∞ κ dκ [T_pq(κ) k_z/k + M_pq(κ) k/k_z], k_z = √(k² − κ²),
//!
//! where T_pq = (1/4π²) ∫ dφ t_p* t_q and M_pq are made from the parts of the modes' Fourier transforms across and along
//! the transverse wave vector κ. They do not depend on the frequency, so they are tabulated once, and only the weights
//! change with k. In the variable k_z both integrands are polynomials times a smooth table: the branch point at κ = k
//! costs nothing.
//!
//! Source of the spectral form: for example R. F. Harrington, *Time-Harmonic Electromagnetic Fields*, 1961, sec. 4-12
//! (from memory); the product integration is our own.

use std::f64::consts::PI;

use nalgebra::DMatrix;
use num_complex::Complex64;

use super::{ModeFamily, Parity};
use crate::numeric::gauss_legendre;
use crate::waveguide::series::Series;

const NODES: usize = 10;
const PANEL: f64 = 1.5;

/// Tabulated spectra of one block of coupled modes; lengths in units of the size of the aperture.
#[derive(Debug, Clone)]
pub(crate) struct HalfSpace {
    size: usize,
    panels: usize,
    kappa: Vec<f64>,
    weight: Vec<f64>,
    /// Upper triangles, row by row, one after another for each node.
    across: Vec<f64>,
    along: Vec<f64>,
    near_rule: Vec<(f64, f64)>,
}

impl HalfSpace {
    /// Tabulates the spectra up to `limit`. `spectra(kappa, across, along)` adds the two upper triangles.
    pub(crate) fn new(size: usize, limit: f64, mut spectra: impl FnMut(f64, &mut [f64], &mut [f64])) -> Self {
        let rule = gauss_legendre(NODES);
        let panels = (limit / PANEL).ceil().max(8.0) as usize;
        let entries = size * (size + 1) / 2;
        let mut table = HalfSpace {
            size,
            panels,
            kappa: Vec::new(),
            weight: Vec::new(),
            across: vec![0.0; panels * NODES * entries],
            along: vec![0.0; panels * NODES * entries],
            near_rule: gauss_legendre(2 * NODES),
        };
        for panel in 0..panels {
            for &(x, w) in &rule {
                table.kappa.push(PANEL * (panel as f64 + 0.5 * (1.0 + x)));
                table.weight.push(0.5 * PANEL * w);
            }
        }
        for (node, &kappa) in table.kappa.iter().enumerate() {
            let range = node * entries..(node + 1) * entries;
            spectra(kappa, &mut table.across[range.clone()], &mut table.along[range]);
        }
        table
    }

    /// Weights of the nodes of the first `panels` for the across and the along part at the normalised wavenumber `k`.
    fn weights(&self, k: f64, panels: usize) -> Vec<(Complex64, Complex64)> {
        let zero = Complex64::ZERO;
        let mut weights = vec![(zero, zero); panels * NODES];
        for panel in 0..panels {
            let (low, high) = (PANEL * panel as f64, PANEL * (panel + 1) as f64);
            let nodes = panel * NODES..(panel + 1) * NODES;
            if low - PANEL > k || high + PANEL < k {
                for (i, slot) in nodes.clone().zip(&mut weights[nodes]) {
                    let kz = vertical(k, self.kappa[i]);
                    let measure = self.weight[i] * self.kappa[i];
                    *slot = (measure * kz / k, measure * k / kz);
                }
            } else {
                self.near_weights(k, low, high, nodes, &mut weights);
            }
        }
        weights
    }

    /// How many panels hold waves that run away at the wavenumber `k`.
    fn visible(&self, k: f64) -> usize {
        ((k / PANEL) as usize + 1).min(self.panels)
    }

    /// Product integration in the variable `k_z` on a panel near the branch point.
    fn near_weights(
        &self,
        k: f64,
        low: f64,
        high: f64,
        nodes: std::ops::Range<usize>,
        weights: &mut [(Complex64, Complex64)],
    ) {
        let squares: Vec<f64> = self.kappa[nodes.clone()].iter().map(|x| x * x).collect();
        let barycentric: Vec<f64> = (0..NODES)
            .map(|i| (0..NODES).filter(|&j| j != i).map(|j| high * high / (squares[i] - squares[j])).product())
            .collect();
        // (from, to, sign): visible part with kappa^2 = k^2 - c^2, invisible part with kappa^2 = k^2 + s^2.
        let visible =
            (low < k).then(|| (((k - high.min(k)) * (k + high.min(k))).sqrt(), ((k - low) * (k + low)).sqrt(), true));
        let hidden =
            (high > k).then(|| (((low.max(k) - k) * (low.max(k) + k)).sqrt(), ((high - k) * (high + k)).sqrt(), false));
        for (from, to, is_visible) in visible.into_iter().chain(hidden) {
            for &(x, w) in &self.near_rule {
                let z = from + 0.5 * (to - from) * (1.0 + x);
                let w = 0.5 * (to - from) * w;
                let square = if is_visible { k * k - z * z } else { k * k + z * z };
                let (te, tm) = if is_visible {
                    (Complex64::new(w * z * z / k, 0.0), Complex64::new(w * k, 0.0))
                } else {
                    (Complex64::new(0.0, -w * z * z / k), Complex64::new(0.0, w * k))
                };
                let terms: Vec<f64> = (0..NODES).map(|i| barycentric[i] / (square - squares[i])).collect();
                let total: f64 = terms.iter().sum();
                if total.is_finite() {
                    for (term, slot) in terms.iter().zip(&mut weights[nodes.clone()]) {
                        slot.0 += te * (term / total);
                        slot.1 += tm * (term / total);
                    }
                }
            }
        }
    }

    /// What lies beyond the table: edges make `T` fall as `kappa^-5` and `M` as `kappa^-3` on the average.
    fn tail(&self, k: f64, weights: &mut [(Complex64, Complex64)]) {
        let last = self.panels.saturating_sub(4) * NODES..self.panels * NODES;
        let limit = PANEL * self.panels as f64;
        let share = 1.0 / (2.0 * limit * limit * 4.0 * PANEL);
        for i in last {
            let cube = self.kappa[i].powi(3) * self.weight[i] * share;
            weights[i].0 += Complex64::new(0.0, -cube * self.kappa[i].powi(2) / k);
            weights[i].1 += Complex64::new(0.0, cube * k);
        }
    }

    /// The admittance matrix in units of `1/eta` at the normalised wavenumber `k`.
    pub(crate) fn admittance(&self, k: f64) -> DMatrix<Complex64> {
        let mut weights = self.weights(k, self.panels);
        self.tail(k, &mut weights);
        let mut sum = vec![Complex64::ZERO; self.entries()];
        for (node, (te, tm)) in weights.into_iter().enumerate() {
            let (across, along) = self.node(node);
            for ((slot, t), m) in sum.iter_mut().zip(across).zip(along) {
                *slot += te * t + tm * m;
            }
        }
        symmetric(self.size, &sum)
    }

    fn entries(&self) -> usize {
        self.size * (self.size + 1) / 2
    }

    /// Both tables at one node.
    fn node(&self, node: usize) -> (&[f64], &[f64]) {
        let range = node * self.entries()..(node + 1) * self.entries();
        (&self.across[range.clone()], &self.along[range])
    }

    /// The upper triangle of its real part, from the waves that run away alone.
    fn radiation(&self, k: f64) -> Vec<f64> {
        let mut sum = vec![0.0; self.entries()];
        for (node, (te, tm)) in self.weights(k, self.visible(k)).into_iter().enumerate() {
            let (across, along) = self.node(node);
            for ((slot, t), m) in sum.iter_mut().zip(across).zip(along) {
                *slot += te.re * t + tm.re * m;
            }
        }
        sum
    }

    /// The same answer for wavenumbers up to `top` only, quick to evaluate; `extent` is the greatest width of the opening.
    pub(crate) fn below(mut self, top: f64, extent: f64) -> Below {
        // k Im Y is smooth in k², and waves across the opening set how finely it is sampled. Between modes of which one has nothing
        // across the wave vector Im Y goes as k, and Im Y/k is smooth: from k Im Y the digits would be gone at low frequency.
        let points = 16 + (1.5 * top * extent) as usize;
        let entries = self.entries();
        let capacitive: Vec<bool> =
            (0..entries).map(|entry| self.across.iter().skip(entry).step_by(entries).all(|&t| t == 0.0)).collect();
        let stored = Series::fit(top * top, points, entries, |square| {
            let k = square.sqrt();
            let admittance = self.admittance(k);
            (0..self.size)
                .flat_map(|row| (row..self.size).map(move |column| (row, column)))
                .zip(&capacitive)
                .map(|(at, &capacitive)| if capacitive { admittance[at].im / k } else { k * admittance[at].im })
                .collect()
        });
        self.panels = self.visible(top);
        let nodes = self.panels * NODES;
        self.kappa.truncate(nodes);
        self.weight.truncate(nodes);
        self.across.truncate(nodes * entries);
        self.along.truncate(nodes * entries);
        self.across.shrink_to_fit();
        self.along.shrink_to_fit();
        Below { near: self, stored, capacitive }
    }
}

/// What a half-space answers up to some wavenumber: what radiates from the tables, which keeps its digits however little that is, and
/// what is stored from a series.
#[derive(Debug, Clone)]
pub(crate) struct Below {
    near: HalfSpace,
    /// Im Y/k where capacitive, k Im Y elsewhere.
    stored: Series<f64>,
    capacitive: Vec<bool>,
}

impl Below {
    /// The admittance matrix in units of `1/eta` at the normalised wavenumber `k`.
    pub(crate) fn admittance(&self, k: f64) -> DMatrix<Complex64> {
        let stored = self.stored.all(k * k).into_iter().zip(&self.capacitive);
        let stored = stored.map(|(stored, &capacitive)| if capacitive { stored * k } else { stored / k });
        let sum: Vec<_> =
            self.near.radiation(k).into_iter().zip(stored).map(|(re, im)| Complex64::new(re, im)).collect();
        symmetric(self.near.size, &sum)
    }
}

/// A symmetric matrix from its upper triangle, row by row.
fn symmetric(size: usize, upper: &[Complex64]) -> DMatrix<Complex64> {
    let mut matrix = DMatrix::zeros(size, size);
    let places = (0..size).flat_map(|row| (row..size).map(move |column| (row, column)));
    for ((row, column), &entry) in places.zip(upper) {
        matrix[(row, column)] = entry;
        matrix[(column, row)] = entry;
    }
    matrix
}

/// k_z on the branch that decays away from the plane for exp(+j w t).
pub(crate) fn vertical(k: f64, kappa: f64) -> Complex64 {
    let square = (k - kappa) * (k + kappa);
    if square >= 0.0 { Complex64::new(square.sqrt(), 0.0) } else { Complex64::new(0.0, -(-square).sqrt()) }
}

/// Table for modes with mirror symmetry about both axes.
///
/// `transform(kx, ky, fx, fy)` gives the transforms of the field components, real after a common factor of −j for each
/// odd symmetry is left out, for wave vectors in the first quadrant; `ex` is the symmetry of E_x, and `extent` the
/// greatest width of the opening, which sets how finely directions are sampled. TM modes have nothing across the wave
/// vector, and are taken so.
pub(crate) fn planar(
    families: &[ModeFamily],
    ex: Parity,
    limit: f64,
    extent: f64,
    mut transform: impl FnMut(f64, f64, &mut [f64], &mut [f64]),
) -> HalfSpace {
    let size = families.len();
    let (mut fx, mut fy) = (vec![0.0; size], vec![0.0; size]);
    HalfSpace::new(size, limit, |kappa, across, along| {
        for &(x, w) in &gauss_legendre(10 + (0.35 * kappa * extent) as usize) {
            let (s, c) = (0.25 * PI * (1.0 + x)).sin_cos();
            // Four alike quadrants of π/4 w each, over 4π².
            let w = w / (4.0 * PI);
            transform(kappa * c, kappa * s, &mut fx, &mut fy);
            across_and_along(ex, [c, s], &mut fx, &mut fy);
            fx.iter_mut().zip(families).filter(|(_, family)| **family == ModeFamily::Tm).for_each(|(x, _)| *x = 0.0);
            let mut entry = 0;
            for p in 0..size {
                for q in p..size {
                    across[entry] += w * fx[p] * fx[q];
                    along[entry] += w * fy[p] * fy[q];
                    entry += 1;
                }
            }
        }
    })
}

/// Turns transforms of E_x and E_y into the parts across and along a wave vector of the direction given.
pub(crate) fn across_and_along(ex: Parity, [c, s]: [f64; 2], fx: &mut [f64], fy: &mut [f64]) {
    let flip = relative_sign(ex);
    for (x, y) in fx.iter_mut().zip(fy) {
        (*x, *y) = (c * flip * *y - s * *x, c * *x + s * flip * *y);
    }
}

/// Sign of E_y's transform against that of E_x once the factors −j of odd symmetries are left out: (−j)² when E_x is
/// even in both axes (E_y is then odd in both) or odd in both, 1 otherwise.
pub(crate) fn relative_sign(ex: Parity) -> f64 {
    if ex.even_x == ex.even_y { -1.0 } else { 1.0 }
}
