//! Full mode matching of a tube: every mode at both ends, for any length and frequency.
//!
//! The tube is alike from both sides, so that its two-port of many modes splits into an even and an odd half: a magnetic or an
//! electric wall in the middle. With Y the half-space's matrix and y₀ the wave admittances,
//!
//! Z₂₁ = (Y + y₀ tanh(γL/2))⁻¹ · y₀/sinh(γL) · (Y + y₀ coth(γL/2))⁻¹, Σ T = 4 tr(G Z₂₁ G Z₂₁†), G = Re Y.
//!
//! Modes are taken up to a cutoff well above the frequency; the edges of the openings make the result converge from below,
//! roughly as one over the highest cutoff (the tests show it).

use nalgebra::{DMatrix, DVector};
use num_complex::Complex64;

use super::end::{propagation, wave_admittance};
use super::spectrum::Block;

/// ln Σ T of one block, all its alike copies counted; `length` and `k` in units of the size.
pub(super) fn ln_channels(block: &Block, k: f64, length: f64, permittivity: Complex64) -> f64 {
    let admittance = block.space.admittance(k);
    let size = block.modes.len();
    let (mut even, mut odd) = (admittance.clone(), admittance.clone());
    let mut through = vec![Complex64::ZERO; size];
    // The least damped mode sets the scale, so that nothing underflows.
    let gammas: Vec<Complex64> = block.modes.iter().map(|&(_, cutoff)| propagation(cutoff, k, permittivity)).collect();
    let least = gammas.iter().map(|gamma| gamma.re).fold(f64::INFINITY, f64::min);
    for (i, (&(family, _), &gamma)) in block.modes.iter().zip(&gammas).enumerate() {
        let y0 = wave_admittance(family, gamma, k, permittivity);
        let once = (-gamma * length).exp();
        even[(i, i)] += y0 * (1.0 - once) / (1.0 + once);
        odd[(i, i)] += y0 * (1.0 + once) / (1.0 - once);
        through[i] = y0 * 2.0 * (-(gamma - least) * length).exp() / (1.0 - once * once);
    }
    let middle = DMatrix::from_diagonal(&DVector::from_vec(through));
    let radiation = admittance.map(|entry| Complex64::new(entry.re, 0.0));
    let Some(far) = odd.lu().solve(&radiation) else { return f64::NAN };
    let Some(transfer) = even.lu().solve(&(middle * far)) else { return f64::NAN };
    // transfer = Z₂₁ G, and its mirror image Z₂₁† G by reciprocity: Z₂₁ is symmetric.
    let power = (&transfer * transfer.map(|entry| entry.conj())).trace().re;
    (4.0 * block.count * power).ln() - 2.0 * least * length
}
