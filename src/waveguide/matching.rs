//! Full mode matching of a tube: every mode at both ends, for any length and frequency.
//!
//! The tube is alike from both sides, so that its two-port of many modes splits into an even and an odd half: a magnetic or an
//! electric wall in the middle. With Y the half-space's matrix and y₀ the wave admittances, currents i that a wave drives at the
//! near end leave the voltages
//!
//! v₁ ± v₂ = (Y + y₀ tanh^{±1}(γL/2))⁻¹ i, v₂ = Z₂₁ i, Z₂₁ = (Y + y₀ tanh(γL/2))⁻¹ · y₀/sinh(γL) · (Y + y₀ coth(γL/2))⁻¹.
//!
//! With G = Re Y the power that leaves at the far end is v₂† G v₂, and the transmission eigenvalues sum to 4 tr(G Z₂₁ G Z₂₁†).
//!
//! Modes are taken up to a cutoff well above the frequency; the edges of the openings make the result converge from below,
//! roughly as one over the highest cutoff (the tests show it).

use nalgebra::{DMatrix, DVector, Dyn, LU};
use num_complex::Complex64;

use super::end::{propagation, wave_admittance};
use super::spectrum::{Block, Family};
use crate::complex::{decaying_root, exp_m1};

/// What the modes of a block run through; all in units of the size.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub(super) k: f64,
    pub(super) length: f64,
    pub(super) permittivity: Complex64,
    /// What the wall adds to γ².
    pub(super) wall: Complex64,
}

impl Line {
    fn gamma(&self, cutoff: f64) -> Complex64 {
        // This close to cutoff nothing changes any more, and nothing is divided by zero.
        const LEAST: f64 = 1e-9;
        let lossless = propagation(cutoff, self.k, self.permittivity);
        let gamma =
            if self.wall == Complex64::ZERO { lossless } else { decaying_root(lossless * lossless + self.wall) };
        if gamma.norm() * self.length < LEAST { Complex64::new(0.0, LEAST / self.length) } else { gamma }
    }
}

/// One block of a tube at one frequency.
pub(super) struct Matched {
    radiation: DMatrix<f64>,
    even: LU<Complex64, Dyn, Dyn>,
    odd: LU<Complex64, Dyn, Dyn>,
    /// y₀/sinh(γL) without the least damped mode's share, so that nothing underflows.
    through: DVector<Complex64>,
    /// Nepers of that share.
    least: f64,
}

impl Matched {
    pub(super) fn new(block: &Block, line: &Line) -> Self {
        let admittance = block.space.admittance(line.k);
        let (mut even, mut odd) = (admittance.clone(), admittance.clone());
        let gammas: Vec<Complex64> = block.modes.iter().map(|&(_, cutoff)| line.gamma(cutoff)).collect();
        let least = gammas.iter().map(|gamma| gamma.re).fold(f64::INFINITY, f64::min);
        let mut through = DVector::zeros(gammas.len());
        for (i, (&(family, _), &gamma)) in block.modes.iter().zip(&gammas).enumerate() {
            let y0 = admittance_of(family, gamma, line);
            let once = -gamma * line.length;
            let (sum, difference) = (1.0 + once.exp(), -exp_m1(once));
            even[(i, i)] += y0 * difference / sum;
            odd[(i, i)] += y0 * sum / difference;
            through[i] = y0 * 2.0 * (-(gamma - least) * line.length).exp() / (sum * difference);
        }
        Self {
            radiation: admittance.map(|y| y.re),
            even: even.lu(),
            odd: odd.lu(),
            through,
            least: least * line.length,
        }
    }

    /// Voltages at the far end but for the factor exp(−`least`).
    fn far(&self, drive: &DVector<f64>) -> Option<DVector<Complex64>> {
        let near = self.odd.solve(&drive.map(Complex64::from))?;
        self.even.solve(&near.component_mul(&self.through))
    }

    /// ln of the power that leaves at the far end; negative infinity where nothing is driven.
    pub(super) fn ln_transmitted(&self, drive: &DVector<f64>) -> f64 {
        // A matrix with positive radiation in it can be inverted; were it not, the answer would be no number.
        self.far(drive).map_or(f64::NAN, |far| power(&self.radiation, &far).max(0.0).ln() - 2.0 * self.least)
    }

    /// ln Σ T.
    pub(super) fn ln_channels(&self) -> f64 {
        let radiation = self.radiation.map(Complex64::from);
        let Some(near) = self.odd.solve(&radiation) else { return f64::NAN };
        let Some(transfer) = self.even.solve(&(DMatrix::from_diagonal(&self.through) * near)) else { return f64::NAN };
        // transfer = Z₂₁ G, and its mirror image Z₂₁† G by reciprocity: Z₂₁ is symmetric.
        let sum = (&transfer * transfer.map(|entry| entry.conj())).trace().re;
        // Of orders that hardly radiate nothing but rounding may be left.
        (4.0 * sum.max(0.0)).ln() - 2.0 * self.least
    }
}

/// The wave admittance with the wall's share in γ.
fn admittance_of(family: Family, gamma: Complex64, line: &Line) -> Complex64 {
    wave_admittance(family, gamma, line.k, line.permittivity)
}

/// v† G v.
fn power(radiation: &DMatrix<f64>, voltages: &DVector<Complex64>) -> f64 {
    let of = |part: DVector<f64>| part.dot(&(radiation * &part));
    of(voltages.map(|v| v.re)) + of(voltages.map(|v| v.im))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::spectrum::{circle, rectangle};

    fn line(k: f64, length: f64, permittivity: f64) -> Line {
        Line { k, length, permittivity: Complex64::new(permittivity, 0.0), wall: Complex64::ZERO }
    }

    /// Both ends' voltages in full.
    fn ends(matched: &Matched, drive: &DVector<f64>) -> (DVector<Complex64>, DVector<Complex64>) {
        let drive = drive.map(Complex64::from);
        let (sum, difference) = (matched.even.solve(&drive).unwrap(), matched.odd.solve(&drive).unwrap());
        ((&sum + &difference) * Complex64::from(0.5), (sum - difference) * Complex64::from(0.5))
    }

    fn blocks() -> Vec<Block> {
        let square = [(true, false), (true, true)].map(|odd| rectangle::block(odd, 0.7, 22.0, 14, 50.0));
        let round = (0..3).map(|m| circle::block(m, 16.0, 50.0));
        square.into_iter().chain(round).flatten().collect()
    }

    #[test]
    fn power_is_conserved_to_ten_digits() {
        // What the generator gives, Re i·v₁*, leaves at the two ends.
        for block in blocks() {
            let drive = DVector::from_fn(block.modes.len(), |i, _| 1.0 / (1.0 + i as f64));
            for k in [2.2, 4.1, 5.9, 8.3, 11.0] {
                for length in [0.1, 1.0, 6.0] {
                    let matched = Matched::new(&block, &line(k, length, 1.0));
                    let (near, far) = ends(&matched, &drive);
                    let given = drive.dot(&near.map(|v| v.re));
                    let left = power(&matched.radiation, &near) + power(&matched.radiation, &far);
                    assert!((left / given - 1.0).abs() < 1e-10, "{k} {length} {}", left / given - 1.0);
                    let passed = matched.ln_transmitted(&drive).exp();
                    assert!((passed - power(&matched.radiation, &far)).abs() < 1e-12 * given, "{k} {length}");
                }
            }
        }
    }

    #[test]
    fn what_goes_there_comes_back() {
        // The wave that leaves along b under one from a is the wave that leaves along a under one from b.
        for block in blocks() {
            let size = block.modes.len();
            let a = DVector::from_fn(size, |i, _| 1.0 / (1.0 + i as f64));
            let b = DVector::from_fn(size, |i, _| (0.7 * i as f64).cos());
            for (k, length) in [(0.3, 2.0), (1.5, 4.0), (3.3, 1.0), (9.0, 3.0)] {
                let matched = Matched::new(&block, &line(k, length, 2.0));
                let passed =
                    |from: &DVector<f64>, to: &DVector<f64>| matched.far(from).unwrap().dot(&to.map(Complex64::from));
                let (there, back) = (passed(&a, &b), passed(&b, &a));
                assert!((there - back).norm() < 1e-10 * there.norm(), "{k} {length} {there} {back}");
            }
        }
    }

    #[test]
    fn nothing_breaks_at_cutoff() {
        let block = circle::block(1, 16.0, 50.0).unwrap();
        let (cutoff, drive) = (block.modes[1].1, DVector::from_element(block.modes.len(), 1.0));
        let at = |k: f64| Matched::new(&block, &line(k, 3.0, 1.0)).ln_transmitted(&drive);
        assert!((at(cutoff) - at(cutoff * (1.0 + 1e-8))).abs() < 1e-5, "{} {}", at(cutoff), at(cutoff * (1.0 + 1e-8)));
    }
}
