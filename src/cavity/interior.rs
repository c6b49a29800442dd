//! What the openings see inside: the modes of the box.
//!
//! A voltage along x excites the modes without electric field along x: with kx = pπ/a, ky = qπ/b and
//! γ² = kx² + ky² − k²,
//!
//! jωμ₀ Y_ij = Σ (ε_p ε_q/ab) (kx² − k²) coth(γd)/γ F_i F_j,   F = ∫∫ f sin(kx x) cos(ky y),
//!
//! along y the same with the axes exchanged, between the two −kx ky in place of kx² − k² (R. E.
//! Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, ch. 6, from memory; derived here). Across its
//! width a voltage has the static field of a strip, so that its transform is J₀.
//!
//! Loss: the impedance Z_s of the walls moves k² to k² (1 + (X_s − jR_s)/(kη₀) ∫|H|²dS/∫|H|²dV), mode by mode; what
//! the box holds adds −j/Q.
//!
//! Modes far below cutoff do not know the depth of the box, nor the loss of its walls: their sum is a series in k², of
//! which two terms are taken once. It converges slowly, as the field at an edge does. So it is taken under
//! a window exp(−K²/κ²), and what the window leaves out, which is the neighbourhood of the opening alone,
//! is taken from the half-space: its whole admittance ([`super::exterior`]) less the windowed integral. With
//! walls and other openings further away than a few 1/κ the error falls as a Gauss function does.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::exterior;
use super::opening::{BoxAxis, Voltage};
use crate::complex::{decaying_root, exp_m1};
use crate::special::{bessel_j_run, gauss_legendre};

/// The modes of a box as its openings see them.
#[derive(Debug)]
pub(super) struct Modes {
    interior_m: [f64; 3],
    count: usize,
    /// Modes that are computed one by one.
    near: Vec<Mode>,
    /// jωμ₀ Y of all others: coefficients of 1 and k², row by row.
    far: [Vec<f64>; 2],
    /// Wavenumber from which a mode is one of the others.
    split_per_m: f64,
}

#[derive(Debug)]
struct Mode {
    kx: f64,
    ky: f64,
    /// F of each voltage, with the root of ε_p ε_q/ab.
    overlap: Vec<f64>,
}

/// What fills the box with loss.
#[derive(Debug, Clone, Copy)]
pub(super) struct Loss {
    /// Impedance of the walls over that of vacuum.
    pub walls: Complex64,
    /// 1/Q of what the box holds.
    pub contents: f64,
}

/// About so many modes are computed one by one.
const NEAR_MODES: f64 = 400.0;

/// Share of the split up to which the series in k² serves.
pub(super) const REACH: f64 = 0.6;

/// The window, as multiples of the split.
const WINDOW: (f64, f64) = (1.5, 12.0);

/// Multiples of the window at which it is over: exp(−4.5²) = 2e-9.
const WINDOW_END: f64 = 4.5;

impl Modes {
    pub(super) fn new(interior_m: [f64; 3], voltages: &[Voltage]) -> Self {
        let [a, b, _] = interior_m;
        let count = voltages.len();
        let split_per_m = (4.0 * PI * NEAR_MODES / (a * b)).sqrt().max(6.0 * PI / a.min(b));
        let window_per_m =
            (5.0 / clearance_m(interior_m, voltages)).clamp(WINDOW.0 * split_per_m, WINDOW.1 * split_per_m);
        let last = WINDOW_END * window_per_m;
        let columns: Vec<[Vec<f64>; 2]> = voltages.iter().map(|one| factors(one, interior_m, [last; 2])).collect();
        let (mut near, mut far) = (Vec::new(), [vec![0.0; count * count], vec![0.0; count * count]]);
        let mut overlap = vec![0.0; count];
        let steps = |size_m: f64| (last * size_m / PI).ceil() as usize;
        for p in 0..=steps(a) {
            let kx = p as f64 * PI / a;
            for q in usize::from(p == 0)..=steps(b) {
                let ky = q as f64 * PI / b;
                let squared = kx * kx + ky * ky;
                if squared > last * last {
                    break;
                }
                let epsilon = |index: usize| if index == 0 { 1.0 } else { 2.0_f64 };
                let norm = (epsilon(p) * epsilon(q) / (a * b)).sqrt();
                overlap.iter_mut().zip(&columns).for_each(|(f, column)| *f = norm * column[0][p] * column[1][q]);
                let window = (-squared / (window_per_m * window_per_m)).exp();
                let share = if squared < split_per_m * split_per_m {
                    near.push(Mode { kx, ky, overlap: overlap.clone() });
                    window - 1.0
                } else {
                    window
                };
                let over = 1.0 / squared.sqrt();
                for i in 0..count {
                    for j in 0..=i {
                        let product = share * overlap[i] * overlap[j];
                        let (static_part, with_k) = numerator(voltages[i].axis, voltages[j].axis, kx, ky);
                        far[0][i * count + j] += product * static_part * over;
                        far[1][i * count + j] += product * (static_part * 0.5 * over.powi(3) + with_k * over);
                    }
                }
            }
        }
        add_neighbourhood(voltages, window_per_m, &mut far);
        Self { interior_m, count, near, far, split_per_m }
    }

    /// Highest wavenumber that the sums serve.
    pub(super) fn reach_per_m(&self) -> f64 {
        REACH * self.split_per_m
    }

    /// jωμ₀ times the admittances between all voltages inside, row by row.
    pub(super) fn admittances(&self, k: f64, loss: Loss, axes: &[BoxAxis]) -> Vec<Complex64> {
        let count = self.count;
        // k² in what fills the box; the walls are far from what a mode far below cutoff fills.
        let filled = k * k * Complex64::new(1.0, -loss.contents);
        let mut sums: Vec<Complex64> =
            (0..count * count).map(|place| self.far[0][place] + filled * self.far[1][place]).collect();
        for mode in &self.near {
            let inside = Inside::new(mode, k, loss, self.interior_m);
            let coth_over_gamma = inside.coth_over_gamma(self.interior_m[2]);
            for i in 0..count {
                for j in 0..=i {
                    let (static_part, with_k) = numerator(axes[i], axes[j], mode.kx, mode.ky);
                    let weight = static_part + with_k * inside.k_squared;
                    sums[i * count + j] += mode.overlap[i] * mode.overlap[j] * weight * coth_over_gamma;
                }
            }
        }
        for i in 0..count {
            for j in 0..i {
                sums[j * count + i] = sums[i * count + j];
            }
        }
        sums
    }

    /// Electric field and η₀ times the magnetic field at a point, for given voltages.
    pub(super) fn fields(
        &self,
        k: f64,
        loss: Loss,
        voltages: &[(Voltage, Complex64)],
        at_m: [f64; 3],
    ) -> ([Complex64; 3], [Complex64; 3]) {
        let [a, b, depth_m] = self.interior_m;
        let [x, y, z] = at_m;
        let zero = Complex64::new(0.0, 0.0);
        let (mut electric, mut magnetic) = ([zero; 3], [zero; 3]);
        // Modes beyond fade on their way from the wall; close to it more of them are needed.
        let last = (FADED / z.max(NEAREST * a.min(b))).max(self.split_per_m);
        let places: Vec<Voltage> = voltages.iter().map(|voltage| voltage.0).collect();
        let columns: Vec<[Vec<f64>; 2]> = places.iter().map(|one| factors(one, self.interior_m, [last; 2])).collect();
        let over_jk = 1.0 / Complex64::new(0.0, k);
        for p in 0..=((last * a / PI).ceil() as usize) {
            for q in usize::from(p == 0)..=((last * b / PI).ceil() as usize) {
                let (kx, ky) = (p as f64 * PI / a, q as f64 * PI / b);
                if kx * kx + ky * ky > last * last {
                    continue;
                }
                let epsilon = |index: usize| if index == 0 { 1.0 } else { 2.0 };
                let norm = epsilon(p) * epsilon(q) / (a * b);
                // Amplitudes of the field along y, by voltages along x, and of that along x.
                let (mut along_y, mut along_x) = (zero, zero);
                for ((voltage, value), column) in voltages.iter().zip(&columns) {
                    let share = norm * column[0][p] * column[1][q] * value;
                    match voltage.axis {
                        BoxAxis::X => along_y += share,
                        BoxAxis::Y => along_x += share,
                    }
                }
                let mode = Mode { kx, ky, overlap: Vec::new() };
                let inside = Inside::new(&mode, k, loss, self.interior_m);
                let (sinh, cosh) = inside.ratios(depth_m, z);
                let (gamma, squared) = (inside.gamma, inside.k_squared);
                let ((sx, cx), (sy, cy)) = ((kx * x).sin_cos(), (ky * y).sin_cos());
                let (sin_cos, cos_sin, cos_cos, sin_sin) = (sx * cy, cx * sy, cx * cy, sx * sy);
                electric[1] += along_y * sinh * sin_cos;
                electric[0] += along_x * sinh * cos_sin;
                electric[2] -= (along_y * ky + along_x * kx) * cosh / gamma * sin_sin;
                let over = cosh / gamma * over_jk;
                magnetic[0] += (along_y * (squared - kx * kx) + along_x * (kx * ky)) * over * sin_cos;
                magnetic[1] -= (along_y * (kx * ky) + along_x * (squared - ky * ky)) * over * cos_sin;
                magnetic[2] += (along_x * ky - along_y * kx) * sinh * over_jk * cos_cos;
            }
        }
        (electric, magnetic)
    }
}

/// Nepers after which a mode is no longer seen.
const FADED: f64 = 30.0;

/// Share of the smaller side below which a point counts as at the wall.
const NEAREST: f64 = 0.02;

/// kx² − k² and so on, as the static part and the factor of k².
fn numerator(one: BoxAxis, other: BoxAxis, kx: f64, ky: f64) -> (f64, f64) {
    match (one, other) {
        (BoxAxis::X, BoxAxis::X) => (kx * kx, -1.0),
        (BoxAxis::Y, BoxAxis::Y) => (ky * ky, -1.0),
        _ => (-kx * ky, 0.0),
    }
}

/// How far openings stay from the walls, and by half from each other, m.
fn clearance_m(interior_m: [f64; 3], voltages: &[Voltage]) -> f64 {
    let half = |voltage: &Voltage, axis: usize| {
        0.5 * if axis == voltage.axis.index() { voltage.length_m } else { voltage.width_m }
    };
    let mut clearance_m = f64::INFINITY;
    for (number, one) in voltages.iter().enumerate() {
        for (axis, (&center_m, size_m)) in one.center_m.iter().zip(interior_m).enumerate() {
            clearance_m = clearance_m.min(center_m.min(size_m - center_m) - half(one, axis));
        }
        for other in voltages[..number].iter().filter(|other| other.opening != one.opening) {
            let apart = |axis: usize| {
                ((one.center_m[axis] - other.center_m[axis]).abs() - half(one, axis) - half(other, axis)).max(0.0)
            };
            clearance_m = clearance_m.min(0.5 * apart(0).hypot(apart(1)));
        }
    }
    clearance_m
}

/// Adds what the window leaves out: of a half-space, for voltages of the same opening along the same axis.
fn add_neighbourhood(voltages: &[Voltage], window_per_m: f64, far: &mut [Vec<f64>; 2]) {
    let count = voltages.len();
    let rule: Vec<(f64, f64)> = gauss_legendre(16).iter().map(|&(x, weight)| (0.5 + 0.5 * x, 0.5 * weight)).collect();
    for i in 0..count {
        for j in 0..=i {
            let (one, other) = (&voltages[i], &voltages[j]);
            let alike = one.opening == other.opening && one.axis == other.axis;
            if !alike || !(one.mode + other.mode).is_multiple_of(2) {
                continue;
            }
            let windowed = windowed_half_space(one, other, window_per_m);
            let whole = |k: f64| exterior::admittance(one, other, k, &rule).re;
            // Small enough for the next term of the series, large enough for the digits of a difference.
            let k = 0.03 / one.length_m;
            far[0][i * count + j] += whole(0.0) - windowed[0];
            far[1][i * count + j] += (whole(k) - whole(0.0)) / (k * k) - windowed[1];
        }
    }
}

/// The windowed sum of a half-space, coefficients of 1 and k²:
/// (1/π²) ∫∫ X X′ J₀² exp(−K²/window²) (κ²/K, κ²/2K³ − 1/K) dκ dκ′, with κ′ = κ sinh t.
fn windowed_half_space(one: &Voltage, other: &Voltage, window_per_m: f64) -> [f64; 2] {
    let rule = gauss_legendre(8);
    let last = WINDOW_END * window_per_m;
    let panels = |size_m: f64| (last * size_m / PI).ceil().max(6.0);
    let (along, across) = (panels(one.length_m), 4.0 + (last * one.width_m / PI).ceil());
    let mut sums = [0.0; 2];
    let node = |panel: usize, x: f64, width: f64| width * (panel as f64 + 0.5 + 0.5 * x);
    for panel in 0..along as usize {
        for &(x, weight) in &rule {
            let kappa = node(panel, x, last / along);
            let amplitude = 0.5 * weight * last / along * transform(one, kappa) * transform(other, kappa);
            let reach = (last / kappa).asinh();
            let mut inner = [0.0; 2];
            for panel in 0..across as usize {
                for &(x, weight) in &rule {
                    let t = node(panel, x, reach / across);
                    let (slant, k_total) = (kappa * t.sinh(), kappa * t.cosh());
                    let strip = bessel_j0(0.5 * slant * one.width_m);
                    let window = (-(k_total / window_per_m).powi(2)).exp();
                    // dκ′/K = dt
                    let part = 0.5 * weight * reach / across * strip * strip * window;
                    inner[0] += part * kappa * kappa;
                    inner[1] += part * (0.5 * (kappa / k_total).powi(2) - 1.0);
                }
            }
            sums[0] += amplitude * inner[0];
            sums[1] += amplitude * inner[1];
        }
    }
    sums.map(|sum| sum / (PI * PI))
}

/// The parts of F that depend on kx and ky, for every mode number.
fn factors(voltage: &Voltage, interior_m: [f64; 3], last: [f64; 2]) -> [Vec<f64>; 2] {
    let along = voltage.axis.index();
    std::array::from_fn(|axis| {
        let (size_m, center_m) = (interior_m[axis], voltage.center_m[axis]);
        let steps = (last[axis] * size_m / PI).ceil() as usize;
        (0..=steps)
            .map(|step| {
                let wavenumber = step as f64 * PI / size_m;
                if axis == along {
                    let (sine, cosine) = (wavenumber * center_m).sin_cos();
                    let odd = voltage.mode.is_multiple_of(2);
                    transform(voltage, wavenumber) * if odd { cosine } else { sine }
                } else {
                    (wavenumber * center_m).cos() * bessel_j0(0.5 * wavenumber * voltage.width_m)
                }
            })
            .collect()
    })
}

/// ∫ sin(mπu/l) sin(κ(u − l/2) + …) du about the centre: of an odd mode with the cosine, of an even one with the
/// sine of κ(u − l/2).
fn transform(voltage: &Voltage, wavenumber: f64) -> f64 {
    let (beta, half) = (voltage.beta(), 0.5 * voltage.length_m);
    // Both lobes of ∫ are sines of (β ± κ) l/2 over (β ± κ): finite where they meet.
    let sinc = |x: f64| if x == 0.0 { 1.0 } else { x.sin() / x };
    let lobe = |q: f64| half * sinc(q * half);
    let sign = if (voltage.mode / 2).is_multiple_of(2) { 1.0 } else { -1.0 };
    if voltage.mode.is_multiple_of(2) {
        sign * (lobe(beta - wavenumber) - lobe(beta + wavenumber))
    } else {
        sign * (lobe(beta - wavenumber) + lobe(beta + wavenumber))
    }
}

fn bessel_j0(x: f64) -> f64 {
    let mut value = [0.0];
    bessel_j_run(0.0, x, &mut value);
    value[0]
}

/// One mode at one frequency.
struct Inside {
    k_squared: Complex64,
    gamma: Complex64,
}

impl Inside {
    fn new(mode: &Mode, k: f64, loss: Loss, interior_m: [f64; 3]) -> Self {
        let Mode { kx, ky, .. } = *mode;
        let walls = wall_share(kx, ky, k, interior_m);
        let factor = Complex64::new(1.0 + loss.walls.im * walls / k, -loss.walls.re * walls / k - loss.contents);
        let k_squared = k * k * factor;
        let gamma_squared = kx * kx + ky * ky - k_squared;
        // At the very cutoff of a mode without loss.
        let gamma_squared =
            if gamma_squared == Complex64::new(0.0, 0.0) { Complex64::new(1e-12 * k * k, 0.0) } else { gamma_squared };
        Self { k_squared, gamma: decaying_root(gamma_squared) }
    }

    fn coth_over_gamma(&self, depth_m: f64) -> Complex64 {
        let fall = exp_m1(-2.0 * self.gamma * depth_m);
        -(fall + 2.0) / (fall * self.gamma)
    }

    /// sinh and cosh of γ(d − z) over sinh γd.
    fn ratios(&self, depth_m: f64, z: f64) -> (Complex64, Complex64) {
        let whole = exp_m1(-2.0 * self.gamma * depth_m);
        let rest = exp_m1(-2.0 * self.gamma * (depth_m - z));
        let reached = (-self.gamma * z).exp() / whole;
        (rest * reached, -(rest + 2.0) * reached)
    }
}

/// ∫|H|²dS/∫|H|²dV of a mode, 1/m: the mean of the modes without electric field along x and along y.
fn wall_share(kx: f64, ky: f64, k: f64, [a, b, depth_m]: [f64; 3]) -> f64 {
    let transverse = kx * kx + ky * ky;
    let kz_squared = (k * k - transverse).max(1e-9 * transverse);
    // Without variation along the depth the field fills it evenly; with it, half of that.
    let spread = 1.0 - 0.5 * crate::wave::slit::smooth_step(kz_squared.sqrt() * depth_m / PI);
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
    use super::super::opening::BoxOpening;
    use super::*;

    const LOSSLESS: Loss = Loss { walls: Complex64::new(0.0, 0.0), contents: 0.0 };

    #[test]
    fn static_strip_has_the_logarithm_of_the_slot() {
        // Under a window much wider than the strip's, the half-space sum is the slot's own logarithm:
        // π² (ln(8l/w) − Cin π) − π Si π over 2πl.
        let voltage = BoxOpening::rectangle([0.5, 0.5], [0.1, 5e-3]).unwrap().voltages(0)[0];
        let (si, cin) = (1.851_937_051_982_466, 1.648_277_638_704_507);
        let expected = (PI * PI * ((8.0 * 0.1 / 5e-3_f64).ln() - cin) - PI * si) / (2.0 * PI * 0.1);
        // What the window still cuts falls as its inverse; the logarithm itself leaves out what is of order w/l.
        let [narrow, wide] = [1.5e3, 3e3].map(|window| windowed_half_space(&voltage, &voltage, window)[0]);
        assert!(((2.0 * wide - narrow) / expected - 1.0).abs() < 0.03, "{narrow} {wide} {expected}");
    }

    #[test]
    fn the_window_does_not_show() {
        let voltages = BoxOpening::rectangle([0.14, 0.05], [0.1, 5e-3]).unwrap().voltages(0);
        let axes: Vec<BoxAxis> = voltages.iter().map(|voltage| voltage.axis).collect();
        let modes = |interior_m| Modes::new(interior_m, &voltages).admittances(9.0, LOSSLESS, &axes);
        // A change of the box by a hair changes what is near and what is far, but hardly the sum.
        let (one, other) = (modes([0.3, 0.12, 0.3]), modes([0.3 * (1.0 + 1e-9), 0.12, 0.3]));
        assert!(one.iter().zip(&other).all(|(one, other)| (one - other).norm() < 1e-6 * one.norm() + 1e-6));
    }

    #[test]
    fn a_wide_box_is_a_half_space() {
        let voltage = BoxOpening::rectangle([0.5, 0.5], [0.06, 3e-3]).unwrap().voltages(0)[0];
        let modes = Modes::new([1.0, 1.0, 1.0], &[voltage]);
        // Heavily lossy contents: nothing comes back from the walls.
        let loss = Loss { contents: 1.0, ..LOSSLESS };
        let k = 12.0;
        let (inside, outside) = (modes.admittances(k, loss, &[BoxAxis::X])[0], voltage.slit.voltage_admittance(1, k));
        // Such contents also take power from the near field, which a half-space does not: the stored part compares.
        assert!((inside.re / outside.re - 1.0).abs() < 0.01, "{inside} {outside}");
        // With contents of Q = 1, k² becomes k² (1 − j): what k² takes from the stored part it gives to the lost one.
        let taken = voltage.slit.voltage_admittance(1, 1e-3).re - outside.re;
        assert!((inside.im / taken - 1.0).abs() < 0.1, "{inside} {outside} {taken}");
        let inside = modes.admittances(1.0, LOSSLESS, &[BoxAxis::X])[0];
        assert!((inside.re / voltage.slit.voltage_admittance(1, 1.0).re - 1.0).abs() < 0.01, "{inside} {outside}");
    }

    #[test]
    fn walls_of_a_cube_take_their_known_share() {
        // TE101 of a cube: Q = 0.742 a... from ∫|H|²dS/∫|H|²dV = 6/a (C. G. Montgomery et al., from memory).
        let k = 2f64.sqrt() * PI;
        assert!((wall_share(PI, 0.0, k, [1.0; 3]) - 6.0).abs() < 1e-9);
    }
}
