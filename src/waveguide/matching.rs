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
//! Every mode loses in the wall by itself, first order in γ² as in [`super::guide`]; modes of equal cutoff mix there, which is left out.
//!
//! The edges of the openings make the answer converge slowly with the number of modes. It is taken at three nested numbers of modes,
//! and its limit from these ([`super::spectrum::truncation`]), with an estimate of the error.

use nalgebra::{DMatrix, DVector, Dyn, LU};
use num_complex::Complex64;

use super::open_end::{propagation, wave_admittance};
use super::propagation::wall_factors;
use super::spectrum::{Block, Member};
use crate::complex_functions::{decaying_root, exp_m1};
use crate::decibel::LnSum;

/// What the modes of a block run through; all in units of the size.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub(super) k: f64,
    pub(super) length: f64,
    pub(super) permittivity: Complex64,
    /// R_s/η₀ of the wall.
    pub(super) wall: f64,
}

impl Line {
    fn gamma(&self, mode: &Member) -> Complex64 {
        // This close to cutoff nothing changes any more, and nothing is divided by zero.
        const LEAST: f64 = 1e-9;
        let lossless = propagation(mode.cutoff, self.k, self.permittivity);
        let gamma = if self.wall == 0.0 {
            lossless
        } else {
            let [per_k, times_k] = wall_factors(mode.family, mode.cutoff, mode.wall, self.permittivity.re);
            let share = Complex64::new(-1.0, 1.0) * self.wall * (per_k / self.k + times_k * self.k);
            decaying_root(lossless * lossless + share)
        };
        if gamma.norm() * self.length < LEAST { Complex64::new(0.0, LEAST / self.length) } else { gamma }
    }
}

/// A power as its logarithm, and how far off it is by estimate, as a share of itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Estimate {
    pub(super) ln: f64,
    pub(super) error: f64,
}

/// Powers that add, with their errors.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct EstimateSum {
    power: LnSum,
    error: LnSum,
}

impl EstimateSum {
    pub(super) fn add(&mut self, term: Estimate) {
        self.power += term.ln;
        self.error += term.ln + term.error.ln();
    }

    pub(super) fn total(&self) -> Estimate {
        let ln = self.power.ln();
        let error = (self.error.ln() - ln).exp();
        Estimate { ln, error: if ln == f64::NEG_INFINITY { 0.0 } else { error } }
    }
}

/// One block of a tube at one frequency.
pub(super) struct Matched<'a> {
    block: &'a Block,
    levels: Vec<Level>,
}

/// The same with a part of the modes.
pub(super) struct Level {
    radiation: DMatrix<f64>,
    even: LU<Complex64, Dyn, Dyn>,
    odd: LU<Complex64, Dyn, Dyn>,
    /// y₀/sinh(γL) without the least damped mode's share, so that nothing underflows.
    through: DVector<Complex64>,
    /// Nepers of that share.
    least: f64,
}

impl<'a> Matched<'a> {
    pub(super) fn new(block: &'a Block, line: &Line) -> Self {
        let admittance = block.space.admittance(line.k);
        let level = |members: &Vec<usize>| {
            let modes: Vec<&Member> = members.iter().map(|&index| &block.modes[index]).collect();
            let admittance = admittance.select_rows(members).select_columns(members);
            Level::new(line, &modes, &admittance, admittance.map(|y| y.re))
        };
        Self { block, levels: block.truncations.levels().iter().map(level).collect() }
    }

    /// The power that leaves at the far end; its logarithm is negative infinity where nothing is driven.
    pub(super) fn transmitted(&self, drive: &DVector<f64>) -> Estimate {
        let levels = self.levels.iter().zip(self.block.truncations.levels());
        self.limit(levels.map(|(level, members)| level.ln_transmitted(&drive.select_rows(members))).collect())
    }

    /// Σ T of one of the blocks alike.
    pub(super) fn channels(&self) -> Estimate {
        self.limit(self.levels.iter().map(Level::ln_channels).collect())
    }

    /// The limit of what the levels gave.
    fn limit(&self, ln: Vec<f64>) -> Estimate {
        let finest = ln.last().copied().unwrap_or(f64::NEG_INFINITY);
        if finest == f64::NEG_INFINITY {
            return Estimate { ln: finest, error: 0.0 };
        }
        let shares: Vec<f64> = ln.iter().map(|ln| (ln - finest).exp()).collect();
        let (limit, error) = self.block.truncations.limit_and_error(&shares);
        // Where waves of one level nearly cancel there is no law to follow.
        if (0.5..2.0).contains(&limit) {
            Estimate { ln: finest + limit.ln(), error: error / limit }
        } else {
            Estimate { ln: finest, error: error.max((limit - 1.0).abs()) }
        }
    }
}

impl Level {
    /// From what the half-space answers to the modes, and the part of it that radiates.
    pub(super) fn new(
        line: &Line,
        modes: &[&Member],
        admittance: &DMatrix<Complex64>,
        radiation: DMatrix<f64>,
    ) -> Self {
        let (mut even, mut odd) = (admittance.clone(), admittance.clone());
        let gammas: Vec<Complex64> = modes.iter().map(|mode| line.gamma(mode)).collect();
        let least = gammas.iter().map(|gamma| gamma.re).fold(f64::INFINITY, f64::min);
        let mut through = DVector::zeros(gammas.len());
        for (i, (mode, &gamma)) in modes.iter().zip(&gammas).enumerate() {
            let y0 = wave_admittance(mode.family, gamma, line.k, line.permittivity);
            let once = -gamma * line.length;
            let (sum, difference) = (1.0 + once.exp(), -exp_m1(once));
            even[(i, i)] += y0 * difference / sum;
            odd[(i, i)] += y0 * sum / difference;
            through[i] = y0 * 2.0 * (-(gamma - least) * line.length).exp() / (sum * difference);
        }
        Self { radiation, even: even.lu(), odd: odd.lu(), through, least: least * line.length }
    }

    /// Voltages at the far end but for the factor exp(−`least`).
    fn far(&self, drive: &DVector<f64>) -> Option<DVector<Complex64>> {
        let near = self.odd.solve(&drive.map(Complex64::from))?;
        self.even.solve(&near.component_mul(&self.through))
    }

    fn ln_transmitted(&self, drive: &DVector<f64>) -> f64 {
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

/// v† G v.
fn power(radiation: &DMatrix<f64>, voltages: &DVector<Complex64>) -> f64 {
    let of = |part: DVector<f64>| part.dot(&(radiation * &part));
    of(voltages.map(|v| v.re)) + of(voltages.map(|v| v.im))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::ModeFamily;
    use crate::waveguide::spectrum::{Space, circle, rectangle};

    fn line(k: f64, length: f64, permittivity: f64) -> Line {
        Line { k, length, permittivity: Complex64::new(permittivity, 0.0), wall: 0.0 }
    }

    /// Both ends' voltages in full.
    fn ends(level: &Level, drive: &DVector<f64>) -> (DVector<Complex64>, DVector<Complex64>) {
        let drive = drive.map(Complex64::from);
        let (sum, difference) = (level.even.solve(&drive).unwrap(), level.odd.solve(&drive).unwrap());
        ((&sum + &difference) * Complex64::from(0.5), (sum - difference) * Complex64::from(0.5))
    }

    fn blocks() -> Vec<Block> {
        let oblong = [(true, false), (true, true)].map(|odd| rectangle::block(odd, 0.7, 6.0).0);
        let round = (0..3).map(|order| circle::block(order, 6.0));
        // As they stand, and quick ones.
        oblong
            .into_iter()
            .chain(round)
            .flat_map(|block| [block.clone(), Block { space: block.space.below(6.2, 2.0), ..block }])
            .collect()
    }

    #[test]
    fn power_is_conserved_to_ten_digits() {
        // What the generator gives, Re i·v₁*, leaves at the two ends; at every number of modes.
        for block in blocks() {
            let is_quick = matches!(block.space, Space::Below(_));
            for k in [0.7, 2.2, 4.1, 5.9, 8.3, 11.0].into_iter().filter(|&k| !is_quick || k < 6.2) {
                for length in [0.1, 1.0, 6.0] {
                    for level in &Matched::new(&block, &line(k, length, 1.0)).levels {
                        let drive = DVector::from_fn(level.through.len(), |i, _| 1.0 / (1.0 + i as f64));
                        let (near, far) = ends(level, &drive);
                        let given = drive.dot(&near.map(|v| v.re));
                        let left = power(&level.radiation, &near) + power(&level.radiation, &far);
                        assert!((left / given - 1.0).abs() < 1e-10, "{k} {length} {}", left / given - 1.0);
                        let passed = level.ln_transmitted(&drive).exp();
                        assert!((passed - power(&level.radiation, &far)).abs() < 1e-12 * given, "{k} {length}");
                    }
                }
            }
        }
    }

    #[test]
    fn what_goes_there_comes_back() {
        // The wave that leaves along b under one from a is the wave that leaves along a under one from b.
        for block in blocks() {
            for (k, length) in [(0.3, 2.0), (1.5, 4.0), (3.3, 1.0), (5.7, 3.0)] {
                for level in &Matched::new(&block, &line(k, length, 2.0)).levels {
                    let size = level.through.len();
                    let a = DVector::from_fn(size, |i, _| 1.0 / (1.0 + i as f64));
                    let b = DVector::from_fn(size, |i, _| (0.7 * i as f64).cos());
                    let passed =
                        |from: &DVector<f64>, to: &DVector<f64>| level.far(from).unwrap().dot(&to.map(Complex64::from));
                    let (there, back) = (passed(&a, &b), passed(&b, &a));
                    assert!((there - back).norm() < 1e-10 * there.norm(), "{k} {length} {there} {back}");
                }
            }
        }
    }

    #[test]
    fn a_lossy_wall_takes_power_from_every_mode() {
        for block in blocks() {
            let drive = DVector::from_element(block.modes.len(), 1.0);
            for k in [0.7, 2.2, 5.9] {
                let at = |wall: f64| Matched::new(&block, &Line { wall, ..line(k, 3.0, 1.0) }).levels.pop().unwrap();
                let level = at(1e-3);
                let (near, far) = ends(&level, &drive);
                let given = drive.dot(&near.map(|v| v.re));
                assert!(power(&level.radiation, &near) + power(&level.radiation, &far) < given, "{k}");
                // A better conductor's answer goes to that of a perfect one.
                let (good, perfect) = (at(1e-9).ln_channels(), at(0.0).ln_channels());
                assert!((good - perfect).abs() < 1e-4, "{k} {good} {perfect}");
            }
        }
    }

    #[test]
    fn nothing_breaks_at_cutoff() {
        let block = circle::block(1, 4.0);
        let cutoff = block
            .modes
            .iter()
            .filter(|mode| mode.family == ModeFamily::Tm)
            .map(|mode| mode.cutoff)
            .fold(f64::MAX, f64::min);
        let drive = DVector::from_element(block.modes.len(), 1.0);
        let at = |k: f64| Matched::new(&block, &line(k, 3.0, 1.0)).transmitted(&drive).ln;
        assert!((at(cutoff) - at(cutoff * (1.0 + 1e-8))).abs() < 1e-5, "{} {}", at(cutoff), at(cutoff * (1.0 + 1e-8)));
    }

    #[test]
    fn the_limit_of_few_modes_is_that_of_many() {
        // Coarse and fine truncations share no mode numbers; the estimate covers what is between their limits.
        let db = |estimate: Estimate| (10.0 / 10_f64.ln() * estimate.ln, 10.0 / 10_f64.ln() * estimate.error);
        for (k, length) in [(0.1, 0.5), (0.1, 2.0), (1.2, 3.0), (1.8, 2.0), (2.9, 4.0)] {
            for order in 0..3 {
                let of = |block: &Block| db(Matched::new(block, &line(k, length, 1.0)).channels());
                let ((few, error), (many, _)) = (of(&circle::block(order, k)), of(&circle::block_of(order, 10)));
                assert!((few - many).abs() < 0.005, "{order} {k} {few} {many}");
                assert!((few - many).abs() < error && error < 0.03, "{order} {k} {few} {many} {error}");
            }
            let at = |coarse: [u32; 2]| {
                db(Matched::new(&rectangle::block_of((true, false), 0.6, coarse).0, &line(k, length, 1.0)).channels())
            };
            let ((few, error), (many, _)) = (at([2, 2]), at([4, 4]));
            assert!(
                (few - many).abs() < 0.005 && (few - many).abs() < error && error < 0.03,
                "{k} {few} {many} {error}"
            );
        }
    }
}
