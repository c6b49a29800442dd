//! Equal short pieces in a row, excited by one wave.

use std::f64::consts::PI;

use super::bay::{Passed, ln_gained};
use crate::decibel::LnSum;
use crate::mouth::chain::ln_mode_area;
use crate::mouth::slit::shortened;

/// By how much the averaged cross-section of `count` alike dipoles in a row, each along the row and
/// `spacing_m` apart, exceeds the sum of what each would pass alone.
///
/// A wave excites all of them in step with itself. Averaged over waves from everywhere, the sum is
/// Σ_ij g(k|i − j|s)²/N, with g(u) = 3(sin u/u³ − cos u/u²) the mutual radiation of two dipoles in line.
/// The spectrum of g² ends at 2, so that by Poisson's formula the sum of an endless row is exactly
/// 0.6 λ/s for s ≤ λ/2, and tends to one for wide spacing. A row gains at most N; short rows are summed
/// pair by pair, for longer ones the two limits are joined by a power mean, within 0.6 dB of the sum.
pub(crate) fn gain_in_row(wavenumber_per_m: f64, spacing_m: f64, count: f64) -> f64 {
    let u = wavenumber_per_m * spacing_m;
    if count < SUMMED_BELOW {
        let pairs: f64 =
            (1..).map(f64::from).take_while(|d| *d < count).map(|d| (count - d) * mutual(u * d).powi(2)).sum();
        // A part of a bay at the end makes the sum a little more than there are.
        return (1.0 + 2.0 * pairs / count).min(count.max(1.0));
    }
    // Spectrum of g²: ∫ g(x)² exp(−jwx) dx = 2π (3/160)(2 − w)³(w² + 6w + 4), for w from 0 to 2.
    let spectrum = |w: f64| if w < 2.0 { 3.0 / 160.0 * (2.0 - w).powi(3) * (w * w + 6.0 * w + 4.0) } else { 0.0 };
    let endless = if u < 6.0 * PI {
        let harmonics: f64 = (1..=5).map(|n| spectrum(2.0 * PI * f64::from(n) / u)).sum();
        2.0 * PI / u * (spectrum(0.0) + 2.0 * harmonics)
    } else {
        1.0 + 2.0 * (mutual(u).powi(2) + mutual(2.0 * u).powi(2))
    };
    shortened(endless, count)
}

/// Rows shorter than this are summed pair by pair.
const SUMMED_BELOW: f64 = 24.0;

/// g(u) = 3(sin u/u³ − cos u/u²): mutual over own radiation of two dipoles in line.
fn mutual(u: f64) -> f64 {
    if u < 1e-2 { 1.0 - u * u / 10.0 } else { 3.0 * (u.sin() / u - u.cos()) / (u * u) }
}

/// Mean coherence of two dipoles of such a row, from 0 (each for itself) to 1 (all in step).
pub(super) fn coherence_in_row(wavenumber_per_m: f64, spacing_m: f64, count: f64) -> f64 {
    if count > 1.0 {
        ((gain_in_row(wavenumber_per_m, spacing_m, count) - 1.0) / (count - 1.0)).clamp(0.0, 1.0)
    } else {
        0.0
    }
}

/// Pieces of one kind in a row: how many, and what one passes for itself.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    pub count: f64,
    pub passed: Passed,
}

/// ln of what pieces of several kinds pass together, by the mean coherence c of two of them: dipoles of amplitude a
/// pass Σa² + c ((Σa)² − Σa²), each no more than everything; what is no dipole adds in power. The dipoles are taken as
/// of one phase, so that no piece that passes more can make the whole pass less.
pub(super) fn ln_in_row(kinds: impl Iterator<Item = Kind> + Clone, coherence: f64) -> f64 {
    let amplitudes = kinds.clone().map(|kind| kind.count.ln() + 0.5 * kind.passed.ln_dipole);
    let ln_amplitude = amplitudes.fold(LnSum::default(), |sum, ln| sum + ln).ln();
    let mut sum = LnSum::default();
    for Kind { count, passed: Passed { ln_dipole, ln_rest } } in kinds {
        if ln_dipole > f64::NEG_INFINITY {
            // By how much the others help each.
            let together = LnSum::default() + (coherence.ln() + ln_amplitude - 0.5 * ln_dipole);
            sum += count.ln() + ln_gained(ln_dipole, (together + (-coherence).ln_1p()).ln());
        }
        sum += count.ln() + ln_rest;
    }
    sum.ln()
}

/// Directivity of such a row in front of a wall, in its strongest direction, for waves of any one.
///
/// A single short piece is a dipole, 3; a long row of pieces in step is a line whose waves are matched broadside,
/// (4/π) σ(normal, matched)/σ(mean) = 15/π. A single piece longer than the wavelength has 4p/λ where it is looked at
/// from farther than 2p²/λ. In a row of them, which reaches across the whole view, that tells nothing: each lights a
/// strip of its own, and the line's value holds.
pub(super) fn line_directivity(wavenumber_per_m: f64, spacing_m: f64, count: f64) -> f64 {
    let in_step = gain_in_row(wavenumber_per_m, spacing_m, count) / count.max(1.0);
    let row = 3.0 + (15.0 / PI - 3.0) * (1.0 - in_step).max(0.0);
    row.hypot(2.0 / PI * wavenumber_per_m * spacing_m / count.max(1.0))
}

/// ln of what one of `count` alike dipoles in a row, `spacing_m` apart, passes alone, by ln of what they pass
/// together: the gain g of the row taken back out.
///
/// With τ and t the shares of λ²/4π for each of the row and for one alone, a row that cannot pass more than
/// everything has τ = t g/(1 + t (g − 1)), so that t = τ/(g − τ (g − 1)).
pub(super) fn ln_alone(ln_cross_section: f64, wavenumber_per_m: f64, (spacing_m, count): (f64, f64)) -> f64 {
    let gain = gain_in_row(wavenumber_per_m, spacing_m, count);
    let ln_each = ln_cross_section - count.ln();
    let share = (ln_each - ln_mode_area(wavenumber_per_m)).exp();
    // Modes beyond the lowest may take τ above one; no gain is left in it then.
    ln_each - share.mul_add(1.0 - gain, gain).max(gain.min(1.0)).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn summed(u: f64, count: i32) -> f64 {
        let pairs: f64 = (1..count).map(|d| f64::from(count - d) * mutual(u * f64::from(d)).powi(2)).sum();
        1.0 + 2.0 * pairs / f64::from(count)
    }

    #[test]
    fn long_rows_gain_what_the_sum_over_pairs_says() {
        for u in [0.05, 0.3, 1.0, 3.0, 4.0, 6.0, 7.0, 12.0, 18.0, 19.0, 40.0] {
            let (sum, gain) = (summed(u, 20_000), gain_in_row(u, 1.0, 20_000.0));
            assert!((10.0 * (gain / sum).log10()).abs() < 0.03, "{u}: {gain} {sum}");
        }
    }

    #[test]
    fn short_rows_gain_less() {
        for u in [1e-4, 1e-2, 0.1, 0.5, 1.0, 2.0, 3.0] {
            for count in [1, 2, 5, 23, 24, 100, 1000] {
                let (sum, gain) = (summed(u, count), gain_in_row(u, 1.0, f64::from(count)));
                assert!((10.0 * (gain / sum).log10()).abs() < 0.6, "{u} {count}: {gain} {sum}");
            }
        }
        assert!((gain_in_row(1e-6, 1.0, 420.0) / 420.0 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn the_gain_of_a_row_is_taken_back_out() {
        for (k, share) in [(1e-3, 1e-9), (1.0, 1e-9), (1.0, 0.3), (30.0, 0.9), (1e3, 0.5)] {
            let (spacing, count) = (0.1, 420.0);
            let gain = gain_in_row(k, spacing, count);
            let together = count * share * gain / (1.0 + share * (gain - 1.0));
            let alone = ln_alone(together.ln() + ln_mode_area(k), k, (spacing, count)) - ln_mode_area(k);
            assert!((alone.exp() / share - 1.0).abs() < 1e-9, "{k} {share}: {}", alone.exp());
        }
        // As much as the most that all could pass apart has no gain in it.
        assert!((ln_alone(ln_mode_area(1.0) + 420f64.ln(), 1.0, (0.1, 420.0)) - ln_mode_area(1.0)).abs() < 1e-9);
    }
}
