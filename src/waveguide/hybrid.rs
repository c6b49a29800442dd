//! The dominant hybrid mode HE11 of a tube with a dielectric rod on its axis.
//!
//! Core r < a with ε₁ and the fields J₁(ur); shell a < r < b with ε₂ and the combinations that vanish (E_z) or are level (H_z) on
//! the wall, P(r) = J₁(wr)Y₁(wb) − Y₁(wr)J₁(wb) and Q(r) = J₁(wr)Y₁'(wb) − Y₁(wr)J₁'(wb), with u² = k²ε₁ + γ², w² = k²ε₂ + γ².
//! Tangential fields are continuous at r = a where (all at a, primes on the argument)
//!
//! (w J'Q − u J Q')(ε₁ w J'P − ε₂ u J P') = −γ² k² (ε₁ − ε₂)² J² P Q / (a² u² w²).
//!
//! Source of the fields: for example R. E. Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 11 (from memory); the
//! determinant is derived here. It is told in the variable
//!
//! ε_eff = (k_c² − γ²)/k², k_c the empty tube's,
//!
//! which has a limit at k → 0. At cutoff the field is TE, and the first root of (u/ε₁) J'/J = (w/ε₂) Q'/Q is bracketed: the left side
//! falls with k, the right one rises, up to the first pole of either. Below it, in a contrast up to [`MODEST`], the root is followed from
//! the empty tube by raising ε₁ in steps. A stronger rod may make a complex pair of HE11 and the next mode, and then a wave that runs
//! backwards: there all modes are found at once ([`super::elements`]) and the one that decays least is taken. In such a tube TM0
//! ([`super::axial`]) passes far more.

use num_complex::Complex64;

use super::axial::{Layers, stepped};
use super::elements;
use super::spectrum::circle::{TE11, bisect};
use crate::complex_functions::decaying_root;
use crate::numeric::bessel::J1_FIRST;
use crate::numeric::bessel_pairs;

/// Up to this contrast no two roots meet below the lower of both cutoffs.
const MODEST: f64 = 7.0;
/// First zero of J₁.
const J1_ZERO: f64 = J1_FIRST;
/// Places in k of a strong rod's table.
const PLACES: usize = 10;
/// A strong rod's loss counts up to this loss tangent; where it is greater TM0 alone matters.
const GREATEST_LOSS: f64 = 20.0;

/// The determinant; lengths in units of the tube's radius, `a` the rod's radius.
fn determinant(effective: Complex64, k: f64, a: f64, inner: Complex64, outer: Complex64) -> Complex64 {
    let gamma_squared = TE11 * TE11 - k * k * effective;
    let u = (k * k * inner + gamma_squared).sqrt();
    let w = (k * k * outer + gamma_squared).sqrt();
    let slope = |[zero, one]: [Complex64; 2], z: Complex64| zero - one / z;
    let (core, _) = bessel_pairs(u * a);
    let (near_j, near_y) = bessel_pairs(w * a);
    let (far_j, far_y) = bessel_pairs(w);
    let (j, dj) = (core[1], slope(core, u * a));
    let (dj_near, dy_near) = (slope(near_j, w * a), slope(near_y, w * a));
    let (dj_far, dy_far) = (slope(far_j, w), slope(far_y, w));
    let p = near_j[1] * far_y[1] - near_y[1] * far_j[1];
    let dp = dj_near * far_y[1] - dy_near * far_j[1];
    let q = near_j[1] * dy_far - near_y[1] * dj_far;
    let dq = dj_near * dy_far - dy_near * dj_far;
    let contrast = k * (inner - outer);
    let coupling = -gamma_squared * contrast * contrast * j * j * p * q / (a * a * u * u * w * w);
    (w * dj * q - u * j * dq) * (inner * w * dj * p - outer * u * j * dp) - coupling
}

/// Cutoff k of HE11 without loss.
pub(super) fn cutoff(layers: &Layers) -> f64 {
    let layers = layers.lossless();
    let Layers { a, inner, outer } = layers;
    let (inner, outer) = (inner.re, outer.re);
    let slope = |[zero, one]: [Complex64; 2], z: f64| (zero - one / z).re;
    let is_left = |k: f64| {
        let (u, w) = (k * inner.sqrt(), k * outer.sqrt());
        let (core, _) = bessel_pairs((u * a).into());
        let (near_j, near_y) = bessel_pairs((w * a).into());
        let (far_j, far_y) = bessel_pairs(w.into());
        let (dj_far, dy_far) = (slope(far_j, w), slope(far_y, w));
        let q = near_j[1].re * dy_far - near_y[1].re * dj_far;
        let dq = slope(near_j, w * a) * dy_far - slope(near_y, w * a) * dj_far;
        let (j, dj) = (core[1].re, slope(core, u * a));
        j > 0.0 && q > 0.0 && u * dj * q * outer > w * dq * j * inner
    };
    let [slow, fast] = [inner.max(outer), inner.min(outer)].map(|value| TE11 / value.sqrt());
    let mut bracket = (slow * (1.0 - 1e-9), fast.min(J1_ZERO / (a * inner.sqrt())) * (1.0 + 1e-9));
    if inner < outer {
        bracket = stepped(bracket.0, bracket.1, is_left);
    }
    bisect(bracket.0, bracket.1, is_left)
}

/// ε_eff of HE11; `k` and `a` in units of 1/radius and the radius of the tube. None where the root was lost.
pub(super) fn effective_permittivity(k: f64, layers: &Layers) -> Option<Complex64> {
    let Layers { a, inner, outer } = *layers;
    if inner == outer {
        return Some(outer);
    }
    // By at most a third in permittivity at a time the root moves little, and the last two places foretell the next.
    let ratio = inner / outer;
    let steps =
        ((ratio - 1.0).norm().min(8.0 * ratio.norm().ln().abs().max(0.1)) / 0.33).ceil().clamp(3.0, 240.0) as usize;
    let share = a * a;
    let (mut before, mut here) = (outer, outer);
    for step in 1..=steps {
        let part = step as f64 / steps as f64;
        let material = if ratio.norm() < 4.0 { outer + (inner - outer) * part } else { outer * ratio.powf(part) };
        let guess = if step == 1 { outer + (material - outer) * share } else { here + (here - before) };
        let root = secant(guess, |x| determinant(x, k, a, material, outer))?;
        (before, here) = (here, root);
    }
    let (least, most) = (inner.re.min(outer.re), inner.re.max(outer.re));
    (here.re >= least * (1.0 - 1e-9) && here.re <= most * (1.0 + 1e-9)).then_some(here)
}

/// ε_eff of HE11 up to a highest k.
#[derive(Debug, Clone)]
pub(super) enum Hybrid {
    /// Followed from the empty tube at each k.
    Modest(Layers),
    /// Of the mode that decays least, at places in k; nothing of its phase. Not below the filling's: where a strong rod makes HE11 decay
    /// faster than in the empty tube, that is not counted on.
    Strong { k: Vec<f64>, effective: Vec<f64> },
}

impl Hybrid {
    pub(super) fn new(top: f64, layers: Layers) -> Self {
        let contrast = (layers.inner / layers.outer).norm();
        if contrast.max(contrast.recip()) <= MODEST {
            return Self::Modest(layers);
        }
        let loss = (-layers.inner.im / layers.inner.re).min(GREATEST_LOSS);
        let layers = Layers { inner: layers.inner.re * Complex64::new(1.0, -loss), ..layers };
        let k: Vec<f64> = (1..=PLACES).map(|i| top * i as f64 / PLACES as f64).collect();
        let effective = k.iter().map(|&k| strongest(k, &layers).max(layers.outer.re)).collect();
        Self::Strong { k, effective }
    }

    /// ε_eff at a k up to the top.
    pub(super) fn effective(&self, at: f64) -> Complex64 {
        match self {
            Self::Modest(layers) => effective_permittivity(at, layers).unwrap_or_else(|| strongest(at, layers).into()),
            Self::Strong { k, effective } => {
                let high = k.partition_point(|&place| place < at).clamp(1, k.len() - 1);
                let share = ((at - k[high - 1]) / (k[high] - k[high - 1])).clamp(0.0, 1.0);
                (effective[high - 1] + share * (effective[high] - effective[high - 1])).into()
            }
        }
    }
}

/// ε_eff of the mode of order one that decays least.
fn strongest(k: f64, layers: &Layers) -> f64 {
    let polished = |square: Complex64| {
        let x = (TE11 * TE11 - square) / (k * k);
        let root = secant(x, |x| determinant(x, k, layers.a, layers.inner, layers.outer));
        root.map(|root| TE11 * TE11 - k * k * root)
    };
    // The elements are right to a hundredth; a polished root that lies farther away is another one's.
    let near = |a: Complex64, b: Complex64| (decaying_root(a) - decaying_root(b)).norm() < 0.03;
    let mut modes: Vec<Complex64> = elements::squares(k, layers)
        .into_iter()
        .map(|square| polished(square).filter(|&fine| near(fine, square)).unwrap_or(square))
        .collect();
    let decay = |square: &Complex64| decaying_root(*square).re;
    modes.sort_by(|a, b| decay(a).total_cmp(&decay(b)));
    let (least, next) = (modes.first().copied().unwrap_or_default(), modes.get(1).map_or(f64::INFINITY, decay));
    // A mode that runs alone goes on smoothly; of several, and of a pair, the decay alone is told.
    let square = if least.re < 0.0 && next > 0.05 { least.re } else { decay(&least).powi(2) };
    (TE11 * TE11 - square) / (k * k)
}

/// A complex root near a guess.
pub(super) fn secant(guess: Complex64, function: impl Fn(Complex64) -> Complex64) -> Option<Complex64> {
    let (mut x0, mut x1) = (guess * (1.0 + 1e-5), guess);
    let (mut f0, mut f1) = (function(x0), function(x1));
    for _ in 0..60 {
        let slope = f1 - f0;
        if slope.norm() == 0.0 {
            break;
        }
        let next = x1 - f1 * (x1 - x0) / slope;
        (x0, f0) = (x1, f1);
        (x1, f1) = (next, function(next));
        if !(x1.re.is_finite() && f1.re.is_finite()) {
            return None;
        }
        if (x1 - x0).norm() <= 1e-13 * x1.norm() {
            return Some(x1);
        }
    }
    ((x1 - x0).norm() <= 1e-8 * x1.norm()).then_some(x1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn real(value: f64) -> Complex64 {
        Complex64::new(value, 0.0)
    }

    fn rod(a: f64, inner: Complex64) -> Layers {
        Layers { a, inner, outer: Complex64::ONE }
    }

    #[test]
    fn limits_of_thin_and_full_rods() {
        for k in [0.05, 0.5, 1.0] {
            let at = |a: f64| effective_permittivity(k, &rod(a, real(3.0))).unwrap().re;
            assert!((at(0.01) - 1.0).abs() < 1e-3, "{k} {}", at(0.01));
            assert!((at(0.9999) - 3.0).abs() < 3e-3, "{k} {}", at(0.9999));
            let sizes = [0.1, 0.3, 0.5, 0.7, 0.9];
            assert!(sizes.windows(2).all(|pair| at(pair[1]) > at(pair[0])));
        }
    }

    #[test]
    fn a_thin_rod_shifts_by_perturbation() {
        // A thin rod across the field is polarised as a cylinder: δε_eff = 2 (ε − 1)/(ε + 1) · |E(0)|² πa² (R. F. Harrington,
        // Time-Harmonic Electromagnetic Fields, 1961, sec. 7-3, from memory), and on the axis |E|² = 1/(2π)·... of TE11:
        // E(0)² = x²/(4 J₁²(x)) · 2/(π (x² − 1)).
        let (a, permittivity) = (0.02, 2.5);
        let mut run = [0.0; 2];
        crate::numeric::bessel_j_run(0.0, TE11, &mut run);
        let axis =
            TE11 * TE11 / (4.0 * run[1] * run[1]) * 2.0 / (std::f64::consts::PI * (TE11 * TE11 - 1.0)) / (TE11 * TE11);
        let expected =
            2.0 * (permittivity - 1.0) / (permittivity + 1.0) * axis * TE11 * TE11 * std::f64::consts::PI * a * a;
        let shift = effective_permittivity(0.3, &rod(a, real(permittivity))).unwrap().re - 1.0;
        assert!((shift / expected - 1.0).abs() < 0.05, "{shift} {expected}");
    }

    #[test]
    fn loss_comes_from_the_rod() {
        let inner = Complex64::new(3.0, -0.03);
        let lossy = effective_permittivity(0.8, &rod(0.47, inner)).unwrap();
        let lossless = effective_permittivity(0.8, &rod(0.47, real(3.0))).unwrap();
        assert!(lossy.im < 0.0 && lossy.im > -0.03);
        assert!((lossy.re - lossless.re).abs() < 1e-3);
    }

    #[test]
    fn the_cutoff_against_finite_elements() {
        // scikit-fem, quadratic, two meshes: k_c times the diameter 2.7337 for ε 10 over 0.467 of the bore. [derived]
        assert!((2.0 * cutoff(&rod(0.467, real(10.0))) / 2.7337 - 1.0).abs() < 3e-4);
    }

    #[test]
    fn cutoffs_fall_with_permittivity_over_the_whole_plane() {
        // The variational principle of either mode at γ = 0; a root on the wrong branch would rise.
        for a in (0..=20).map(|i| if i == 20 { 0.98 } else { 0.05 + 0.0475 * f64::from(i) }) {
            let mut before = [TE11 * (1.0 + 1e-9), crate::waveguide::axial::TM01 * (1.0 + 1e-9)];
            for step in 0..=120 {
                let layers = rod(a, real(100_f64.powf(f64::from(step) / 120.0)));
                let now = [cutoff(&layers), crate::waveguide::axial::cutoff(&layers)];
                assert!(now[0] < before[0] && now[1] < before[1], "{a} {layers:?} {now:?} {before:?}");
                before = now;
            }
        }
    }
}
