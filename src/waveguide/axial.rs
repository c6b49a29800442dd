//! The axisymmetric mode TM0 of a round tube with a dielectric rod on its axis.
//!
//! A rod draws it in: while HE11 stays at 1.841/b far below cutoff, TM0 becomes electrostatic and falls, and from a permittivity of two to
//! three on it is what leaks. Its azimuthal magnetic field h obeys, with E_z = 0 on the wall at r = b,
//!
//! −((rh)'/(εr))' − k²h = γ² h/ε,
//!
//! a Sturm–Liouville problem: for a lossless rod the γ² of all modes are real and distinct, and the lowest is the one whose field has no
//! zero inside. With u² = k²ε₁ + γ², w² = k²ε₂ + γ² and P_m(r) = J_m(wr)Y₀(wb) − Y_m(wr)J₀(wb) it is the first root of
//!
//! u J₀(ua)/(ε₁ J₁(ua)) = w P₀(a)/(ε₂ P₁(a)),
//!
//! whose left side falls and whose right side rises with γ² up to the first pole of either: one root lies before that, and is bracketed.
//! The same holds at cutoff (γ = 0) in k. With loss the mode is followed from its static limit upwards in k.
//!
//! Static limit of a rod that conducts or has a high permittivity: γ² → 2ε₂/(ε₁ a² ln(b/a)). The equation is derived here; the fields are
//! those of R. E. Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 6 (from memory).

use num_complex::Complex64;

use super::hybrid::secant;
use super::spectrum::circle::bisect;
use crate::complex_functions::decaying_root;
use crate::numeric::bessel::{J0_FIRST, J1_FIRST};
use crate::numeric::bessel_pairs;

/// First zero of J₀, the cutoff of TM01 in units of 1/radius.
pub(super) const TM01: f64 = J0_FIRST;
/// First zero of J₁.
const J1_ZERO: f64 = J1_FIRST;
/// Beyond this imaginary part J₁/J₀ is ±j to the last digit, and neither is computed.
const SKIN: f64 = 30.0;

/// Rod and tube in units of the tube's radius: the rod's radius, its permittivity and that of the space around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Layers {
    pub(super) a: f64,
    pub(super) inner: Complex64,
    pub(super) outer: Complex64,
}

impl Layers {
    /// The same without loss.
    pub(super) fn lossless(self) -> Self {
        Self { inner: self.inner.re.into(), outer: self.outer.re.into(), ..self }
    }

    fn is_lossless(&self) -> bool {
        self.inner.im == 0.0 && self.outer.im == 0.0
    }

    /// u and w.
    fn transverse(&self, square: Complex64, k: f64) -> [Complex64; 2] {
        [self.inner, self.outer].map(|permittivity| decaying_root(permittivity * (k * k) + square))
    }
}

/// w²P₀ and wP₁ at the rod's surface, both even in w and finite at w = 0.
fn shell(w: Complex64, a: f64) -> [Complex64; 2] {
    let w = if w.norm() < 1e-12 { Complex64::from(1e-12) } else { w };
    let (near_j, near_y) = bessel_pairs(w * a);
    let (far_j, far_y) = bessel_pairs(w);
    [w * w * (near_j[0] * far_y[0] - near_y[0] * far_j[0]), w * (near_j[1] * far_y[0] - near_y[1] * far_j[0])]
}

/// J₁(ua)/(u J₀(ua)).
fn core(u: Complex64, a: f64) -> Complex64 {
    let z = u * a;
    if z.im.abs() > SKIN {
        return Complex64::new(0.0, z.im.signum()) / u;
    }
    let (j, _) = bessel_pairs(z);
    j[1] / (j[0] * u)
}

/// Zero for a mode: ε₂ wP₁ − ε₁ w²P₀ J₁/(u J₀).
fn mismatch(square: Complex64, k: f64, layers: &Layers) -> Complex64 {
    let [u, w] = layers.transverse(square, k);
    let [p0, p1] = shell(w, layers.a);
    layers.outer * p1 - layers.inner * p0 * core(u, layers.a)
}

/// Whether γ² lies below the lowest one; without loss, and before the second pole of either side.
fn is_below(square: f64, k: f64, layers: &Layers) -> bool {
    let [u, w] = layers.transverse(square.into(), k);
    let [p0, p1] = shell(w, layers.a).map(|value| value.re);
    let (j, _) = bessel_pairs(u * layers.a);
    let (j0, j1) = (j[0].re, (j[1] / u).re);
    j1 > 0.0 && p1 > 0.0 && j0 * p1 * layers.outer.re > p0 * j1 * layers.inner.re
}

/// A bracket of the place up to which `is_left` holds. It must hold at `from`; a pole that hides it again lies farther away than one of
/// the steps, each a thirtieth.
pub(super) fn stepped(from: f64, to: f64, is_left: impl Fn(f64) -> bool) -> (f64, f64) {
    let mut left = from;
    while left < to {
        let next = (1.03 * left).max(left + 1e-3 * to).min(to);
        if !is_left(next) {
            return (left, next);
        }
        left = next;
    }
    (left, to)
}

/// Cutoff k of TM01 without loss.
pub(super) fn cutoff(layers: &Layers) -> f64 {
    let layers = layers.lossless();
    let Layers { a, inner, outer } = layers;
    let is_left = |k: f64| {
        // γ = 0, in E_z: −u J₁/J₀ falls with k, −w P₁/P₀ rises.
        let [u, w] = layers.transverse(Complex64::ZERO, k);
        let [p0, p1] = shell(w, a).map(|value| value.re);
        let (j, _) = bessel_pairs(u * a);
        let (j0, j1) = (j[0].re, j[1].re);
        j0 > 0.0 && p0 > 0.0 && p1 * j0 * w.re * w.re > u.re * j1 * p0
    };
    let [slow, fast] = [inner.re.max(outer.re), inner.re.min(outer.re)].map(|value| TM01 / value.sqrt());
    let mut bracket = (slow * (1.0 - 1e-9), fast.min(TM01 / (a * inner.re.sqrt())) * (1.0 + 1e-9));
    if inner.re < outer.re {
        bracket = stepped(bracket.0, bracket.1, is_left);
    }
    bisect(bracket.0, bracket.1, is_left)
}

/// γ² of the lowest mode without loss, exactly.
fn lossless_square(k: f64, layers: &Layers) -> f64 {
    let layers = layers.lossless();
    let Layers { a, inner, outer } = layers;
    let is_left = |square: f64| is_below(square, k, &layers);
    // Below the first pole: of J₁ in the rod, of P₁ around it.
    let rod = (J1_ZERO / a).powi(2) - k * k * inner.re;
    let around = if inner.re >= outer.re { TM01 } else { TM01 / (1.0 - a) };
    let most = rod.min(around * around - k * k * outer.re);
    // Where the mode decays, from zero on; there u and w are real.
    let decays = is_left(0.0);
    let least = if decays { 0.0 } else { -k * k * inner.re.max(outer.re) };
    let (mut low, mut high) = (least, most);
    if inner.re < outer.re {
        let (from, to) = stepped(1e-6 * (most - least), most - least, |part| is_left(least + part));
        (low, high) = (least + from, least + to);
    }
    for _ in 0..12 {
        let middle = 0.5 * (low + high);
        if is_left(middle) { low = middle } else { high = middle }
    }
    let polished = secant((0.5 * (low + high)).into(), |square| mismatch(square, k, &layers)).map(|root| root.re);
    match polished {
        Some(root) if (low..=high).contains(&root) => root,
        _ => bisect(low, high, is_left),
    }
}

/// γ² of the lowest mode at one k, from far below its cutoff where the rod is lossy.
fn near_static(k: f64, layers: &Layers) -> Option<Complex64> {
    let mut here = Complex64::from(lossless_square(k, layers));
    if layers.is_lossless() {
        return Some(here);
    }
    let plain = layers.lossless();
    let (inner, outer) = (layers.inner / plain.inner, layers.outer / plain.outer);
    let steps = ((inner.ln().norm() + outer.ln().norm()) / 0.15).ceil().max(3.0);
    let mut growth = Complex64::ONE;
    for step in 1..=steps as usize {
        let part = step as f64 / steps;
        let between =
            Layers { inner: plain.inner * inner.powf(part), outer: plain.outer * outer.powf(part), a: layers.a };
        let next = secant(here * growth, |square| mismatch(square, k, &between))?;
        growth = next / here;
        here = next;
    }
    Some(here)
}

/// γ² of the lowest mode from zero to a highest k.
#[derive(Debug, Clone)]
pub(super) enum Axial {
    /// Bracketed at each k.
    Lossless(Layers),
    /// Followed in k; γ² at places in between is found from its neighbours.
    Followed { layers: Layers, k: Vec<f64>, square: Vec<Complex64> },
}

impl Axial {
    pub(super) fn new(top: f64, layers: Layers) -> Self {
        if layers.is_lossless() { Self::Lossless(layers) } else { Self::follow(top, layers) }
    }

    fn follow(top: f64, layers: Layers) -> Self {
        const STEP: f64 = 0.15;
        const LEAST: f64 = 1e-5;
        let first = (0.05 / layers.inner.norm().max(layers.outer.norm()).sqrt()).min(0.1 * top);
        let start = near_static(first, &layers).unwrap_or_else(|| lossless_square(first, &layers).into());
        let (mut k, mut square) = (vec![first], vec![start]);
        let mut step = STEP;
        while k[k.len() - 1] < top {
            let last = k.len() - 1;
            let next = (k[last] * step.exp()).min(top * (1.0 + 1e-12));
            let slope = if last == 0 {
                -layers.outer
            } else {
                (square[last] - square[last - 1]) / (k[last].powi(2) - k[last - 1].powi(2))
            };
            let guess = square[last] + slope * (next * next - k[last] * k[last]);
            let found = secant(guess, |x| mismatch(x, next, &layers))
                .filter(|root| (root - guess).norm() < 0.05 * root.norm() + 0.015 * next * next);
            match found {
                Some(root) => {
                    k.push(next);
                    square.push(root);
                    step = (1.5 * step).min(STEP);
                }
                None if step > LEAST => step *= 0.5,
                // Not seen in any rod; what is known goes on.
                None => break,
            }
        }
        Self::Followed { layers, k, square }
    }

    /// γ² at a k up to the top.
    pub(super) fn square(&self, at: f64) -> Complex64 {
        match self {
            Self::Lossless(layers) => lossless_square(at, layers).into(),
            Self::Followed { k, square, .. } if k.len() < 2 => square[0],
            Self::Followed { layers, k, square } => {
                let high = k.partition_point(|&place| place < at).clamp(1, k.len() - 1);
                let (from, to) = (square[high - 1], square[high]);
                let (low2, high2) = (k[high - 1].powi(2), k[high].powi(2));
                let guess = from + (to - from) * ((at * at - low2) / (high2 - low2)).min(1.0);
                let near = (to - from).norm() + 1e-9 * guess.norm();
                let root = secant(guess, |x| mismatch(x, at, layers));
                root.filter(|root| (root - guess).norm() <= near).unwrap_or(guess)
            }
        }
    }
}

/// Static αb of a lossless rod and α²∫εψ² over the cross-section, the field ψ being one on the axis.
pub(super) fn static_mode(layers: &Layers) -> (f64, f64) {
    let ratio = layers.inner.re / layers.outer.re;
    let layers = Layers { inner: ratio.into(), outer: Complex64::ONE, a: layers.a };
    let k = 1e-4 / ratio.sqrt();
    let alpha = lossless_square(k, &layers).sqrt();
    let z = Complex64::from(alpha * layers.a);
    let (near_j, near_y) = bessel_pairs(z);
    let (far_j, far_y) = bessel_pairs(alpha.into());
    let (j0, j1) = (near_j[0].re, near_j[1].re);
    // ψ = A J₀ + B Y₀ around the rod, from its value and slope at the surface.
    let turn = 0.5 * std::f64::consts::PI * z.re;
    let flux = ratio * j1;
    let (first, second) =
        (turn * (flux * near_y[0].re - j0 * near_y[1].re), turn * (j0 * near_j[1].re - flux * near_j[0].re));
    let edge = first * far_j[1].re + second * far_y[1].re;
    let a2 = layers.a * layers.a;
    let norm = std::f64::consts::PI * (ratio * a2 * (j0 * j0 + j1 * j1) + edge * edge - a2 * (j0 * j0 + flux * flux));
    (alpha, alpha * alpha * norm)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rod(a: f64, inner: f64) -> Layers {
        Layers { a, inner: inner.into(), outer: Complex64::ONE }
    }

    #[test]
    fn static_limits_and_cutoffs() {
        // Two authors apart, finite elements: αb far below cutoff and k_c b. [derived]
        for (permittivity, a, alpha, k) in
            [(3.0, 0.467, 1.7147, 1.6013), (5.0, 0.5, 1.3837, 1.2420), (78.0, 0.6, 0.3712, 0.2995)]
        {
            let layers = rod(a, permittivity);
            assert!((lossless_square(1e-4, &layers).sqrt() - alpha).abs() < 6e-5);
            assert!((static_mode(&layers).0 - alpha).abs() < 6e-5 && (cutoff(&layers) - k).abs() < 6e-5);
            assert!(lossless_square(cutoff(&layers), &layers).abs() < 1e-9);
        }
        // Strong rods: α² → 2/(ε a² ln(1/a)).
        let (a, permittivity) = (0.3_f64, 1e5);
        let limit = 2.0 / (permittivity * a * a * a.recip().ln());
        assert!((lossless_square(1e-9, &rod(a, permittivity)) / limit - 1.0).abs() < 1e-3);
    }

    #[test]
    fn the_mode_falls_with_k_and_does_not_jump() {
        for layers in [
            rod(0.5, 3.0),
            rod(0.5, 78.0),
            rod(0.9, 9.3371),
            rod(0.05, 1e4),
            Layers { outer: 78.0.into(), ..rod(0.5, 3.0) },
        ] {
            let top = 1.2 * cutoff(&layers);
            let squares: Vec<f64> = (1..=60).map(|i| lossless_square(top * f64::from(i) / 60.0, &layers)).collect();
            assert!(squares.windows(2).all(|pair| pair[1] < pair[0]), "{layers:?} {squares:?}");
            // d γ²/d k² lies between the permittivities.
            for (i, pair) in (1..).zip(squares.windows(2)) {
                let slope = (pair[0] - pair[1]) / ((top / 60.0).powi(2) * f64::from(2 * i + 1));
                let (least, most) = (layers.inner.re.min(layers.outer.re), layers.inner.re.max(layers.outer.re));
                assert!(slope > least * 0.999 && slope < most * 1.001, "{layers:?} {slope}");
            }
        }
    }

    #[test]
    fn a_trace_of_loss_changes_next_to_nothing() {
        for (a, permittivity) in [(0.467, 3.0), (0.6, 78.0), (0.95, 10.0)] {
            let plain = rod(a, permittivity);
            let top = 0.95 * cutoff(&plain);
            let lossy = Axial::new(top, Layers { inner: Complex64::new(permittivity, -1e-6 * permittivity), ..plain });
            for part in [0.01, 0.3, 0.77, 1.0] {
                let difference = (lossy.square(part * top) - lossless_square(part * top, &plain)).norm();
                assert!(difference < 1e-4, "{a} {permittivity} {part} {difference}");
            }
        }
    }
}
