//! What the openings see inside: the modes of the box.
//!
//! A voltage along x excites the modes without electric field along x: with kx = pπ/a, ky = qπ/b and
//! γ² = kx² + ky² − k²,
//!
//! jωμ₀ Y_ij = Σ (ε_p ε_q/ab) (kx² − k²) coth(γd)/γ F_i F_j,   F = ∫∫ f sin(kx x) cos(ky y),
//!
//! along y the same with the axes exchanged, between the two −kx ky in place of kx² − k² (R. E.
//! Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, ch. 6, from memory; derived here). A potential g has the
//! field ∇g, of which a mode holds (kx, ky) G, G = ∫∫ g sin(kx x) sin(ky y). All of it is one form: with the
//! amplitudes e of the field of i and of j, and c = kx e_y − ky e_x, the term is
//!
//! (c_i c_j − k² e_i·e_j) coth(γd)/γ.
//!
//! Across its width a voltage has the static field of a strip, so that its transform is J₀.
//!
//! Modes far below cutoff do not know the depth of the box, nor the loss of its walls: their sum is a series in k², of
//! which three terms are taken once. It converges slowly, as the field at an edge does. So it is taken under
//! a window exp(−K²/κ²), and what the window leaves out, which is the neighbourhood of the opening alone,
//! is taken from the half-space: its whole admittance ([`Link`]) less the windowed integral. With
//! walls and other openings further away than a few 1/κ the error falls as a Gauss function does.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::exterior::Link;
use super::lanes::{Block, Column, ModeConstants, PairSums, PointModes, PointShare};
use super::mode::{Inside, Loss};
use super::mouth_field::{Factors, MouthField, Potential, Share, Voltage};
use crate::numeric::gauss_legendre;

/// The modes of a box as its openings see them.
#[derive(Debug)]
pub(super) struct Modes {
    interior_m: [f64; 3],
    carried: Vec<MouthField>,
    /// Modes that are computed one by one.
    near: Vec<Mode>,
    /// The same for many frequencies at a time.
    pairs: PairSums,
    /// jωμ₀ Y of all others: coefficients of 1 and, over the powers of k that come with potentials, of k² and k⁴; row
    /// by row.
    far: [Vec<f64>; 3],
    /// Wavenumber from which a mode is one of the others.
    split_per_m: f64,
}

#[derive(Debug)]
struct Mode {
    wavenumbers: [f64; 2],
    /// √(ε_p ε_q/ab).
    root: f64,
    /// Of each that is carried, with the root of ε_p ε_q/ab.
    shares: Vec<Share>,
}

/// About so many modes are computed one by one.
const NEAR_MODES: f64 = 400.0;

/// Share of the split up to which the series in k² serves.
pub(super) const REACH: f64 = 0.6;

/// The window, as multiples of the split.
const WINDOW: (f64, f64) = (1.5, 12.0);

/// Multiples of the window at which it is over: exp(−4.5²) = 2e-9.
const WINDOW_END: f64 = 4.5;

/// Numbers and wavenumbers of all modes up to a wavenumber, and the root of ε_p ε_q/ab.
fn modes_up_to(last_per_m: f64, [a, b, _]: [f64; 3]) -> impl Iterator<Item = ([usize; 2], [f64; 2], f64)> {
    let epsilon = |index: usize| if index == 0 { 1.0 } else { 2.0 };
    (0..=(last_per_m * a / PI) as usize).flat_map(move |p| {
        let kx = p as f64 * PI / a;
        let rest = ((last_per_m - kx) * (last_per_m + kx)).max(0.0).sqrt();
        (usize::from(p == 0)..=(rest * b / PI) as usize)
            .map(move |q| ([p, q], [kx, q as f64 * PI / b], (epsilon(p) * epsilon(q) / (a * b)).sqrt()))
    })
}

impl Modes {
    pub(super) fn new(interior_m: [f64; 3], carried: Vec<MouthField>) -> Self {
        let [a, b, _] = interior_m;
        let count = carried.len();
        let split_per_m = (4.0 * PI * NEAR_MODES / (a * b)).sqrt().max(6.0 * PI / a.min(b));
        let window_per_m =
            (5.0 / clearance_m(interior_m, &carried)).clamp(WINDOW.0 * split_per_m, WINDOW.1 * split_per_m);
        let last_per_m = WINDOW_END * window_per_m;
        let factors: Vec<Factors> = carried.iter().map(|one| one.factors(interior_m, last_per_m)).collect();
        let (mut near, mut far) = (Vec::new(), [(); 3].map(|()| vec![0.0; count * count]));
        let mut shares = vec![Share::default(); count];
        for (numbers, wavenumbers, root) in modes_up_to(last_per_m, interior_m) {
            let squared = wavenumbers[0].powi(2) + wavenumbers[1].powi(2);
            shares.iter_mut().zip(&factors).for_each(|(share, one)| *share = one.share(numbers, wavenumbers, root));
            let mut window = (-squared / (window_per_m * window_per_m)).exp();
            if squared < split_per_m * split_per_m {
                near.push(Mode { wavenumbers, root, shares: shares.clone() });
                window -= 1.0;
            }
            let over = 1.0 / squared.sqrt();
            for i in 0..count {
                for j in 0..=i {
                    let curls = window * shares[i].curl * shares[j].curl;
                    let fields = window * shares[i].product(&shares[j]);
                    let place = i * count + j;
                    far[0][place] += curls * over;
                    far[1][place] += 0.5 * curls * over.powi(3) - fields * over;
                    far[2][place] += 0.375 * curls * over.powi(5) - 0.5 * fields * over.powi(3);
                }
            }
        }
        add_neighbourhood(&carried, window_per_m, &mut far);
        let constants = near.iter().map(|mode| ModeConstants::new(mode.wavenumbers, interior_m)).collect();
        let shares = (0..count).map(|one| near.iter().map(|mode| mode.shares[one]).collect()).collect();
        let pairs = PairSums::new(constants, shares);
        Self { interior_m, carried, near, pairs, far, split_per_m }
    }

    /// Highest wavenumber that the sums serve.
    pub(super) fn reach_per_m(&self) -> f64 {
        REACH * self.split_per_m
    }

    /// What the openings carry.
    pub(super) fn carried(&self) -> &[MouthField] {
        &self.carried
    }

    /// jωμ₀ times the admittances between all that is carried inside, of the pairs in the order of [`lower_pairs`], over
    /// the powers of k that come with potentials.
    pub(super) fn admittances(&self, k: f64, loss: Loss) -> Vec<Complex64> {
        let pairs: Vec<(usize, usize)> = lower_pairs(self.carried.len()).collect();
        let orders: Vec<f64> = pairs.iter().map(|&(i, j)| self.orders(k, i, j)).collect();
        let far = |(&pair, &orders)| self.far_at(pair, orders, k, loss.contents);
        let mut sums: Vec<Complex64> = pairs.iter().zip(&orders).map(far).collect();
        for mode in &self.near {
            let inside = Inside::new(mode.wavenumbers, k, loss, self.interior_m);
            let coth_over_gamma = inside.coth_over_gamma(self.interior_m[2]);
            let with_k = inside.factor * coth_over_gamma;
            for (sum, (&(i, j), orders)) in sums.iter_mut().zip(pairs.iter().zip(&orders)) {
                let (one, other) = (&mode.shares[i], &mode.shares[j]);
                *sum += one.curl * other.curl * coth_over_gamma - one.product(other) * orders * with_k;
            }
        }
        sums
    }

    /// The powers of k that two voltages have more than two potentials.
    fn orders(&self, k: f64, i: usize, j: usize) -> f64 {
        k.powi((self.carried[i].order() + self.carried[j].order()) as i32)
    }

    /// The modes far below cutoff: k² is that in what fills the box, while its walls are far from what they fill.
    fn far_at(&self, (i, j): (usize, usize), orders: f64, k: f64, contents: f64) -> Complex64 {
        let (place, filled) = (i * self.carried.len() + j, Complex64::new(1.0, -contents));
        self.far[0][place] + orders * filled * (self.far[1][place] + k * k * filled * self.far[2][place])
    }

    /// As [`Modes::admittances`] for many frequencies.
    pub(super) fn admittances_at(&self, block: &Block) -> Vec<Column> {
        let near = self.pairs.at(block);
        let pairs = lower_pairs(self.carried.len()).zip(near).map(|((i, j), [curls, fields])| {
            let each = block.wavenumber_per_m.iter().enumerate().map(|(at, &k)| {
                let orders = self.orders(k, i, j);
                curls.at(at) - orders * fields.at(at) + self.far_at((i, j), orders, k, block.contents())
            });
            each.collect()
        });
        pairs.collect()
    }

    /// The modes as they are seen from a point, for [`PointModes::fields`]; `None` so close to the front that they are
    /// too many to be kept.
    pub(super) fn seen_from(&self, at_m: [f64; 3]) -> Option<PointModes> {
        let ([a, b, _], last_per_m) = (self.interior_m, self.last_seen_per_m(at_m[2]));
        if last_per_m * last_per_m * a * b / (4.0 * PI) > KEPT {
            return None;
        }
        let near = self.near.iter().map(|mode| {
            let shares = mode.shares.iter().map(|share| PointShare::new(share, mode.root)).collect();
            (mode.wavenumbers, shares)
        });
        let beyond = self.factors(last_per_m);
        let further = modes_up_to(last_per_m, self.interior_m)
            .filter(|(_, [kx, ky], _)| kx * kx + ky * ky >= self.split_per_m * self.split_per_m)
            .map(|(numbers, wavenumbers, root)| {
                let share = |one: &Factors| PointShare::new(&one.share(numbers, wavenumbers, root), root);
                (wavenumbers, beyond.iter().map(share).collect())
            });
        Some(PointModes::new(self.interior_m, at_m, near.chain(further)))
    }

    /// Modes beyond fade on their way from the wall; close to it more of them are needed.
    fn last_seen_per_m(&self, z: f64) -> f64 {
        let [a, b, _] = self.interior_m;
        (FADED / z.max(NEAREST * a.min(b))).max(self.split_per_m)
    }

    fn factors(&self, last_per_m: f64) -> Vec<Factors> {
        self.carried.iter().map(|one| one.factors(self.interior_m, last_per_m)).collect()
    }

    /// Electric field and η₀ times the magnetic field at a point, for given amplitudes of what is carried; of
    /// potentials they are over k.
    pub(super) fn fields(
        &self,
        k: f64,
        loss: Loss,
        amplitudes: &[Complex64],
        at_m: [f64; 3],
    ) -> ([Complex64; 3], [Complex64; 3]) {
        let depth_m = self.interior_m[2];
        let [x, y, z] = at_m;
        let zero = Complex64::new(0.0, 0.0);
        let (mut electric, mut magnetic) = ([zero; 3], [zero; 3]);
        let last_per_m = self.last_seen_per_m(z);
        let factors = self.factors(last_per_m);
        let over_jk = 1.0 / Complex64::new(0.0, k);
        for (numbers, [kx, ky], root) in modes_up_to(last_per_m, self.interior_m) {
            // Amplitudes of the field along x and y, and of its curl, of which a potential has none to the last digit.
            let (mut along_x, mut along_y, mut curl) = (zero, zero, zero);
            for (amplitude, factors) in amplitudes.iter().zip(&factors) {
                let share = factors.share(numbers, [kx, ky], root * root);
                along_x += amplitude * share.along_x;
                along_y += amplitude * share.along_y;
                curl += amplitude * share.curl;
            }
            let inside = Inside::new([kx, ky], k, loss, self.interior_m);
            let (sinh, cosh) = inside.ratios(depth_m, z);
            let squared = k * k * inside.factor;
            let ((sx, cx), (sy, cy)) = ((kx * x).sin_cos(), (ky * y).sin_cos());
            electric[0] += along_x * sinh * (cx * sy);
            electric[1] += along_y * sinh * (sx * cy);
            electric[2] -= (along_y * ky + along_x * kx) * cosh / inside.gamma * (sx * sy);
            let over = cosh / inside.gamma * over_jk;
            magnetic[0] += (along_y * squared - curl * kx) * over * (sx * cy);
            magnetic[1] -= (along_x * squared + curl * ky) * over * (cx * sy);
            magnetic[2] -= curl * sinh * over_jk * (cx * cy);
        }
        (electric, magnetic)
    }
}

/// All pairs of so many, each with itself and with those before it.
pub(super) fn lower_pairs(count: usize) -> impl Iterator<Item = (usize, usize)> {
    (0..count).flat_map(|i| (0..=i).map(move |j| (i, j)))
}

/// Modes that are kept for a point, at the most.
const KEPT: f64 = 20_000.0;

/// Nepers after which a mode is no longer seen.
const FADED: f64 = 30.0;

/// Share of the smaller side below which a point counts as at the wall.
const NEAREST: f64 = 0.02;

/// How far openings stay from the walls, and by half from each other, m.
fn clearance_m(interior_m: [f64; 3], carried: &[MouthField]) -> f64 {
    let mut clearance_m = f64::INFINITY;
    for (number, one) in carried.iter().enumerate() {
        let (center_m, size_m) = (one.center_m(), one.size_m());
        for axis in 0..2 {
            let wall_m = center_m[axis].min(interior_m[axis] - center_m[axis]);
            clearance_m = clearance_m.min(wall_m - 0.5 * size_m[axis]);
        }
        for other in carried[..number].iter().filter(|other| other.opening() != one.opening()) {
            let (other_center_m, other_size_m) = (other.center_m(), other.size_m());
            let apart = |axis: usize| {
                let needed = 0.5 * (size_m[axis] + other_size_m[axis]);
                ((center_m[axis] - other_center_m[axis]).abs() - needed).max(0.0)
            };
            clearance_m = clearance_m.min(0.5 * apart(0).hypot(apart(1)));
        }
    }
    clearance_m
}

/// Adds what the window leaves out: of a half-space, for what one opening carries along the same axis.
fn add_neighbourhood(carried: &[MouthField], window_per_m: f64, far: &mut [Vec<f64>; 3]) {
    let count = carried.len();
    for (i, one) in carried.iter().enumerate() {
        for (j, other) in carried[..=i].iter().enumerate().filter(|(_, other)| other.opening() == one.opening()) {
            let place = i * count + j;
            match (one, other) {
                (MouthField::Voltage(voltage), MouthField::Voltage(second))
                    if voltage.axis == second.axis && (voltage.mode + second.mode).is_multiple_of(2) =>
                {
                    let windowed = windowed_voltages(voltage, second, window_per_m);
                    let link = Link::new(one, other);
                    let whole = |k: f64| link.at(k).re;
                    // Small enough for the next term of the series, large enough for the digits of a difference.
                    let k = 0.03 / voltage.length_m;
                    far[0][place] += whole(0.0) - windowed[0];
                    far[1][place] += (whole(k) - whole(0.0)) / (k * k) - windowed[1];
                }
                (MouthField::Potential(potential), MouthField::Potential(_)) => {
                    far[1][place] -= potential.static_mouth() - windowed_potential(potential, window_per_m);
                }
                // Even about the centre where the other is odd.
                _ => {}
            }
        }
    }
}

/// The windowed sum of a half-space, coefficients of 1 and k²:
/// (1/π²) ∫∫ X X′ J₀² exp(−K²/window²) (κ²/K, κ²/2K³ − 1/K) dκ dκ′.
fn windowed_voltages(one: &Voltage, other: &Voltage, window_per_m: f64) -> [f64; 2] {
    let along = |kappa: f64| one.transform(kappa) * other.transform(kappa);
    let across = |kappa: f64| one.transform_across(kappa).powi(2);
    windowed([one.length_m, one.width_m], window_per_m, along, across, |kappa, k_total| {
        [kappa * kappa, 0.5 * (kappa / k_total).powi(2) - 1.0]
    })
}

/// The same of a potential, with the sign turned: (1/π²) ∫∫ G² exp(−K²/window²) K dκ dκ′, the coefficient of k².
fn windowed_potential(potential: &Potential, window_per_m: f64) -> f64 {
    let square = |axis: usize| move |kappa: f64| potential.transform(axis, kappa).powi(2);
    let [sum] = windowed(potential.size_m, window_per_m, square(0), square(1), |_, k_total| [k_total * k_total]);
    sum
}

/// (1/π²) ∫∫ along(κ) across(κ′) exp(−K²/window²) weights(κ, K)/K dκ dκ′ for what has these sizes along and across,
/// with κ′ = κ sinh t, so that dκ′/K = dt.
fn windowed<const N: usize>(
    [length_m, width_m]: [f64; 2],
    window_per_m: f64,
    along: impl Fn(f64) -> f64,
    across: impl Fn(f64) -> f64,
    weights: impl Fn(f64, f64) -> [f64; N],
) -> [f64; N] {
    let rule = gauss_legendre(8);
    let last = WINDOW_END * window_per_m;
    let panels = [(last * length_m / PI).ceil().max(6.0), 4.0 + (last * width_m / PI).ceil()];
    let mut sums = [0.0; N];
    let node = |panel: usize, x: f64, width: f64| width * (panel as f64 + 0.5 + 0.5 * x);
    for panel in 0..panels[0] as usize {
        for &(x, weight) in &rule {
            let kappa = node(panel, x, last / panels[0]);
            let amplitude = 0.5 * weight * last / panels[0] * along(kappa);
            let reach = (last / kappa).asinh();
            for panel in 0..panels[1] as usize {
                for &(x, weight) in &rule {
                    let t = node(panel, x, reach / panels[1]);
                    let (slant, k_total) = (kappa * t.sinh(), kappa * t.cosh());
                    let window = (-(k_total / window_per_m).powi(2)).exp();
                    let part = amplitude * 0.5 * weight * reach / panels[1] * across(slant) * window;
                    sums.iter_mut().zip(weights(kappa, k_total)).for_each(|(sum, weight)| *sum += part * weight);
                }
            }
        }
    }
    sums.map(|sum| sum / (PI * PI))
}

#[cfg(test)]
mod tests {
    use super::super::opening::BoxOpening;
    use super::*;

    const LOSSLESS: Loss = Loss { walls: Complex64::new(0.0, 0.0), contents: 0.0 };

    fn carried(center_m: [f64; 2], size_m: [f64; 2]) -> Vec<MouthField> {
        BoxOpening::rectangle(center_m, size_m).unwrap().carried(0)
    }

    fn first(center_m: [f64; 2], size_m: [f64; 2]) -> Voltage {
        let MouthField::Voltage(voltage) = carried(center_m, size_m)[0] else { panic!("the first one is a voltage") };
        voltage
    }

    #[test]
    fn static_strip_has_the_logarithm_of_the_slot() {
        // Under a window much wider than the strip's, the half-space sum is the slot's own logarithm:
        // π² (ln(8l/w) − Cin π) − π Si π over 2πl.
        let voltage = first([0.5, 0.5], [0.1, 5e-3]);
        let (si, cin) = (1.851_937_051_982_466, 1.648_277_638_704_507);
        let expected = (PI * PI * ((8.0 * 0.1 / 5e-3_f64).ln() - cin) - PI * si) / (2.0 * PI * 0.1);
        // What the window still cuts falls as its inverse; the logarithm itself leaves out what is of order w/l.
        let [narrow, wide] = [1.5e3, 3e3].map(|window| windowed_voltages(&voltage, &voltage, window)[0]);
        assert!(((2.0 * wide - narrow) / expected - 1.0).abs() < 0.03, "{narrow} {wide} {expected}");
    }

    #[test]
    fn the_potential_of_a_square_is_close_to_its_static_field() {
        // Variational: what the chosen shape stores is above what the true one does, I²/2α_e, and not by much.
        for (size_m, most) in [([0.02, 0.02], 0.03), ([0.05, 0.02], 0.03), ([0.1, 5e-3], 0.07)] {
            let Some(MouthField::Potential(potential)) = carried([0.5, 0.5], size_m).pop() else { panic!("none") };
            let [narrow, wide] =
                [4.0, 8.0].map(|window| windowed_potential(&potential, window * 100.0 / size_m[1] * 0.05));
            let share = (2.0 * wide - narrow) / potential.static_mouth() - 1.0;
            assert!((0.0..most).contains(&share), "{size_m:?}: {share}");
        }
    }

    #[test]
    fn the_window_does_not_show() {
        let modes = |interior_m| Modes::new(interior_m, carried([0.14, 0.05], [0.1, 5e-3])).admittances(9.0, LOSSLESS);
        // A change of the box by a hair changes what is near and what is far, but hardly the sum.
        let (one, other) = (modes([0.3, 0.12, 0.3]), modes([0.3 * (1.0 + 1e-9), 0.12, 0.3]));
        assert!(one.iter().zip(&other).all(|(one, other)| (one - other).norm() < 1e-6 * one.norm() + 1e-6));
    }

    #[test]
    fn a_wide_box_is_a_half_space() {
        let voltage = first([0.5, 0.5], [0.06, 3e-3]);
        let modes = Modes::new([1.0, 1.0, 1.0], vec![MouthField::Voltage(voltage)]);
        // Heavily lossy contents: nothing comes back from the walls.
        let loss = Loss { contents: 1.0, ..LOSSLESS };
        let k = 12.0;
        let (inside, outside) = (modes.admittances(k, loss)[0], voltage.slit.voltage_admittance(1, k));
        // Such contents also take power from the near field, which a half-space does not: the stored part compares.
        assert!((inside.re / outside.re - 1.0).abs() < 0.01, "{inside} {outside}");
        // With contents of Q = 1, k² becomes k² (1 − j): what k² takes from the stored part it gives to the lost one.
        let taken = voltage.slit.voltage_admittance(1, 1e-3).re - outside.re;
        assert!((inside.im / taken - 1.0).abs() < 0.1, "{inside} {outside} {taken}");
        let inside = modes.admittances(1.0, LOSSLESS)[0];
        assert!((inside.re / voltage.slit.voltage_admittance(1, 1.0).re - 1.0).abs() < 0.01, "{inside} {outside}");
    }

    #[test]
    fn a_potential_in_a_wide_box_is_in_a_half_space() {
        let Some(potential) = BoxOpening::round([0.5, 0.5], 0.04).unwrap().carried(0).pop() else { panic!("none") };
        let modes = Modes::new([1.0, 1.0, 1.0], vec![potential]);
        let (k, loss) = (12.0, Loss { contents: 0.5, ..LOSSLESS });
        let inside = modes.admittances(k, loss)[0];
        let outside = Link::new(&potential, &potential).at(k);
        // Seen through contents: k² (1 − j/Q) over k².
        assert!((inside.re / outside.re - 1.0).abs() < 0.02, "{inside} {outside}");
        assert!((inside.im / (-0.5 * outside.re) - 1.0).abs() < 0.1, "{inside} {outside}");
    }
}
