//! What is left of a panel's transmission when the panel ends.
//!
//! Below cutoff the cells hardly see one another, and a panel hands on what it meets place by place: in front the field of the
//! closed wall, behind an aperture field T_n times as strong along the normal, T_n cos θ (TE) and T_n/cos θ (TM) aslant. Summed over
//! all directions that it comes from and goes to, the aperture of sides a and b is met and left with the correlation of a diffuse
//! field,
//!
//! σ = |T_n|² (k²/9π) ∫∫ (a − |u|)(b − |v|) [ρ_l² + ρ_t²](kr) du dv, r² = u² + v²,
//!
//! ρ_l = 3 (sin x/x − cos x)/x² along the line between two places, ρ_t = (3/2)(sin x/x − ρ_l/3) across it. A panel small against the
//! wavelength is left with 2 |T_n|² k² A²/9π, the cross-section of a magnetic dipole; a large one gains slowly, by what runs along it
//! towards its edges.
//!
//! Source: derived here; the correlations: D. A. Hill, "Plane wave integral representation for fields in reverberation chambers", IEEE
//! Trans. Electromagn. Compat. 40 (1998) 209 (from memory). `tests/python/test_honeycomb.py` holds it to a sum over the cells of
//! finite panels.

use std::f64::consts::{LN_2, PI};
use std::sync::LazyLock;

use crate::numeric::gauss_legendre;

/// Up to here, a whole number of half periods, the oscillation is followed; beyond, its mean is taken.
const FOLLOWED: f64 = 12.0 * PI;
const NODES: usize = 12;

static RULE: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| gauss_legendre(NODES));

/// ln of what |T_n|² is multiplied by, m², at a wavenumber (1/m) and sides (m).
pub(super) fn ln_aperture(wavenumber_per_m: f64, sides_m: (f64, f64)) -> f64 {
    let (a, b) = (wavenumber_per_m * sides_m.0, wavenumber_per_m * sides_m.1);
    let near = |x: f64| correlation(x) * x * overlap(x, a, b);
    // In ln x; ρ_t² → 9/(8x²) in the mean, ρ_l² → 9/(2x⁴).
    let far = |ln: f64| {
        let x = ln.exp();
        (1.125 + 4.5 / (x * x)) * overlap(x, a, b)
    };
    let mut sum = 0.0;
    // The overlap has kinks where the move is as long as a side.
    for [from, to] in [[0.0, a.min(b)], [a.min(b), a.max(b)], [a.max(b), a.hypot(b)]] {
        sum += in_panels(from, to.min(FOLLOWED), PI, near);
        sum += in_panels(from.max(FOLLOWED).ln(), to.ln(), LN_2, far);
    }
    (sum / (9.0 * PI)).ln() - 2.0 * wavenumber_per_m.ln()
}

/// The same of an area (m²) that is small against the wavelength.
pub(super) fn ln_dipole(wavenumber_per_m: f64, area_m2: f64) -> f64 {
    (2.0 / (9.0 * PI)).ln() + 2.0 * (wavenumber_per_m.ln() + area_m2.ln())
}

/// An integral in panels of at most this width; nothing where the end lies before the start.
///
/// Behind a kink the overlap falls as the root of the distance, which is smooth in s, distance = length · s².
fn in_panels(from: f64, to: f64, width: f64, f: impl Fn(f64) -> f64) -> f64 {
    if to <= from {
        return 0.0;
    }
    let length = to - from;
    let count = (2.0 * length / width).ceil();
    let along = |s: f64| 2.0 * length * s * f(from + length * s * s);
    (0..count as usize).map(|panel| over(panel as f64 / count, (panel + 1) as f64 / count, along)).sum()
}

fn over(from: f64, to: f64, f: impl Fn(f64) -> f64) -> f64 {
    let half = 0.5 * (to - from);
    RULE.iter().map(|&(place, weight)| half * weight * f(from + half * (1.0 + place))).sum()
}

/// ρ_l² + ρ_t².
fn correlation(x: f64) -> f64 {
    if x < 1e-2 {
        return 2.0 - 0.6 * x * x;
    }
    let (sine, cosine) = x.sin_cos();
    let along = 3.0 * (sine / x - cosine) / (x * x);
    let across = 1.5 * (sine / x - along / 3.0);
    along * along + across * across
}

/// The rectangle's overlap with itself, moved by r, over all directions of the move.
fn overlap(r: f64, a: f64, b: f64) -> f64 {
    let from = (a / r).min(1.0).acos();
    let to = (b / r).min(1.0).asin();
    if to <= from {
        return 0.0;
    }
    let ((s0, c0), (s1, c1)) = (from.sin_cos(), to.sin_cos());
    4.0 * (a * b * (to - from) - a * r * (c0 - c1) - b * r * (s1 - s0) + 0.5 * r * r * (s1 * s1 - s0 * s0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The double integral itself, on a fine grid.
    fn directly(a: f64, b: f64) -> f64 {
        let rule = gauss_legendre(200);
        let part = |(u, wu): &(f64, f64)| {
            let u = 0.5 * a * (1.0 + u);
            let inner = rule.iter().map(|&(v, wv)| {
                let v = 0.5 * b * (1.0 + v);
                wv * (b - v) * correlation(u.hypot(v))
            });
            wu * (a - u) * inner.sum::<f64>()
        };
        rule.iter().map(part).sum::<f64>() * a * b / (9.0 * PI)
    }

    #[test]
    fn it_is_the_double_integral() {
        for (a, b) in [(0.01, 0.01), (1.0, 3.0), (20.0, 7.0), (60.0, 60.0), (90.0, 15.0)] {
            let direct = directly(a, b);
            assert!((ln_aperture(1.0, (a, b)).exp() / direct - 1.0).abs() < 2e-3, "{a} {b}");
        }
    }

    #[test]
    fn no_step_where_panels_are_added() {
        // 1.4e-3 dB at k (a − b) = π and 2π when the kinks were integrated as if smooth.
        for (a, b) in [(0.3, 0.1), (0.3, 0.295), (0.31, 0.3), (0.2, 0.2), (1.0, 0.01)] {
            let at = |k: f64| ln_aperture(k, (a, b));
            for lengths in [a - b, b, a.hypot(b) - a, a] {
                for half_turns in 1..60 {
                    let k = 0.5 * PI * f64::from(half_turns) / f64::max(lengths, 1e-9);
                    // Twice what the slope makes of so small a move.
                    let step = at(k * (1.0 + 1e-9)) - at(k * (1.0 - 1e-9));
                    assert!(step.abs() < 2.3e-7, "{a} {b} {k} {step}");
                }
            }
            // What is kept of the wave's oscillation ends at k r = 12π, wherever that is.
            for end in [a, b, a.hypot(b)] {
                let k = FOLLOWED / end;
                assert!((at(k * (1.0 + 1e-9)) - at(k * (1.0 - 1e-9))).abs() < 2.3e-7, "{a} {b} {k}");
            }
        }
    }

    #[test]
    fn a_small_panel_is_a_dipole() {
        let (k, a, b) = (0.02_f64, 0.3, 0.2);
        let expected = 2.0 * (k * a * b).powi(2) / (9.0 * PI);
        assert!((ln_aperture(k, (a, b)).exp() / expected - 1.0).abs() < 1e-4);
    }
}
