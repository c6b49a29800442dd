//! One mode of a box at one frequency: how it fades or stands along the depth, and what the walls take of it.
//!
//! The impedance Z_s of the walls moves k² to k² (1 + (X_s − jR_s)/(kη₀) ∫|H|²dS/∫|H|²dV); what the box holds adds
//! −j/Q.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::complex_functions::{decaying_root, exp_m1};

/// What fills the box with loss.
#[derive(Debug, Clone, Copy)]
pub(super) struct Loss {
    /// Impedance of the walls over that of vacuum.
    pub walls: Complex64,
    /// 1/Q of what the box holds.
    pub contents: f64,
}

/// One mode at one frequency.
pub(super) struct Inside {
    /// k² in what the mode fills, over that of vacuum.
    pub factor: Complex64,
    pub gamma: Complex64,
}

impl Inside {
    pub(super) fn new([kx, ky]: [f64; 2], k: f64, loss: Loss, interior_m: [f64; 3]) -> Self {
        let walls = wall_share(kx, ky, k, interior_m);
        let factor = Complex64::new(1.0 + loss.walls.im * walls / k, -loss.walls.re * walls / k - loss.contents);
        let gamma_squared = kx * kx + ky * ky - k * k * factor;
        // At the very cutoff of a mode without loss.
        let gamma_squared =
            if gamma_squared == Complex64::new(0.0, 0.0) { Complex64::new(1e-12 * k * k, 0.0) } else { gamma_squared };
        Self { factor, gamma: decaying_root(gamma_squared) }
    }

    pub(super) fn coth_over_gamma(&self, depth_m: f64) -> Complex64 {
        let fall = exp_m1(-2.0 * self.gamma * depth_m);
        -(fall + 2.0) / (fall * self.gamma)
    }

    /// sinh and cosh of γ(d − z) over sinh γd.
    pub(super) fn ratios(&self, depth_m: f64, z: f64) -> (Complex64, Complex64) {
        let whole = exp_m1(-2.0 * self.gamma * depth_m);
        let rest = exp_m1(-2.0 * self.gamma * (depth_m - z));
        let reached = (-self.gamma * z).exp() / whole;
        (rest * reached, -(rest + 2.0) * reached)
    }
}

/// ∫|H|²dS/∫|H|²dV of a mode, 1/m: the mean of the modes without electric field along x and along y.
pub(super) fn wall_share(kx: f64, ky: f64, k: f64, [a, b, depth_m]: [f64; 3]) -> f64 {
    let transverse = kx * kx + ky * ky;
    let kz_squared = (k * k - transverse).max(1e-9 * transverse);
    // Without variation along the depth the field fills it evenly; with it, half of that.
    let spread = 1.0 - 0.5 * crate::numeric::blend::smooth_step(kz_squared.sqrt() * depth_m / PI);
    let family = |own: f64, other: f64, own_m: f64, other_m: f64| {
        let even = if other == 0.0 { 1.0 } else { 0.5 };
        let along = (other * other + kz_squared).powi(2) * 0.5 * even * spread;
        let across = if other == 0.0 { 0.0 } else { 0.25 * own * own * other * other * spread };
        let through = 0.5 * own * own * kz_squared * even * 0.5;
        let walls = 4.0 / own_m * (across + through)
            + 2.0 / other_m * (along + through) / even
            + 2.0 / depth_m * (along + across) / spread;
        walls / (along + across + through)
    };
    match (kx > 0.0, ky > 0.0) {
        (true, true) => 0.5 * (family(kx, ky, a, b) + family(ky, kx, b, a)),
        (true, false) => family(kx, ky, a, b),
        _ => family(ky, kx, b, a),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn walls_of_a_cube_take_their_known_share() {
        // TE101 of a cube: Q = 0.742 a... from ∫|H|²dS/∫|H|²dV = 6/a (C. G. Montgomery et al., from memory).
        let k = 2f64.sqrt() * PI;
        assert!((wall_share(PI, 0.0, k, [1.0; 3]) - 6.0).abs() < 1e-9);
    }
}
