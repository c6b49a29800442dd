//! What the openings see in front of the wall: a half-space, and each other.
//!
//! jωμ₀ Y_ij = (1/2π) ∫∫ (f_i′ f_j′ − k² f_i f_j) exp(−jkR)/R for two voltages along the same axis; along
//! different axes only the first part is left, with the other sign. The self term of a voltage is the slot's own
//! ([`Slit`](crate::mouth::slit::Slit)); two voltages of one opening leave a single integral over their
//! correlation.
//!
//! A potential sees the electric field on the wall that a voltage f makes in front of it, −∂Φ/∂v with
//! Φ = (1/2π) ∫ f exp(−jkR)/R, v across the voltage: jωμ₀ Y = k² ∫ g ∂Φ/∂v dA. Two potentials of different openings
//! see ∇²: k² ∫∫ g g′ (−k² + jk/R + 1/R²) exp(−jkR)/(2πR). One by itself has
//! −k² I²/2α_e + jk⁵ I²/3π, I = ∫ g dA: the polarizability, and the power of its dipole. (All derived here.)

use std::f64::consts::PI;

use num_complex::Complex64;

use super::mouth_field::{MouthField, Potential, Voltage};
use crate::numeric::gauss_legendre;

/// How two of what openings carry see each other in front of the wall: jωμ₀ times their admittance, over the powers of
/// k that potentials carry.
#[derive(Debug)]
pub(super) enum Link {
    /// Not at all: one is even about its centre where the other is odd.
    None,
    /// A voltage by itself.
    Voltage(Voltage),
    /// A potential by itself.
    Potential(Potential),
    /// By waves from places to places.
    Waves {
        /// Distance between two places, m.
        distance_m: Vec<f64>,
        /// Factors of exp(−jkR), for each distance: of 1, of jk and of k².
        factors: Vec<[f64; 3]>,
        /// Whether all of it is to be multiplied by k.
        times_k: bool,
    },
}

/// Collects the waves of a link.
#[derive(Default)]
struct Waves {
    distance_m: Vec<f64>,
    factors: Vec<[f64; 3]>,
}

impl Waves {
    /// Adds one from `here` to `there`; `factors`, from the inverse of the distance and the way, without 1/2πR.
    fn add(&mut self, [here, there]: [[f64; 2]; 2], factors: impl Fn(f64, [f64; 2]) -> [f64; 3]) {
        let way = [here[0] - there[0], here[1] - there[1]];
        let distance_m = way[0].hypot(way[1]);
        self.distance_m.push(distance_m);
        self.factors.push(factors(1.0 / distance_m, way).map(|factor| factor / (2.0 * PI * distance_m)));
    }

    fn done(self, times_k: bool) -> Link {
        Link::Waves { distance_m: self.distance_m, factors: self.factors, times_k }
    }
}

impl Link {
    pub(super) fn new(one: &MouthField, other: &MouthField) -> Self {
        let alone = one.opening() == other.opening();
        match (one, other) {
            (MouthField::Voltage(one), MouthField::Voltage(other)) if alone => {
                match (one.axis == other.axis, one.mode == other.mode) {
                    (true, true) => Self::Voltage(*one),
                    (true, false) if (one.mode + other.mode).is_multiple_of(2) => within_one(one, other),
                    _ => Self::None,
                }
            }
            (MouthField::Voltage(one), MouthField::Voltage(other)) => between_voltages(one, other),
            (MouthField::Potential(one), MouthField::Potential(_)) if alone => Self::Potential(*one),
            (MouthField::Potential(one), MouthField::Potential(other)) => between_potentials(one, other),
            // A voltage makes no electric field on the wall that is even about its opening.
            _ if alone => Self::None,
            (MouthField::Potential(potential), MouthField::Voltage(voltage))
            | (MouthField::Voltage(voltage), MouthField::Potential(potential)) => between_both(potential, voltage),
        }
    }

    /// At a wavenumber.
    pub(super) fn at(&self, k: f64) -> Complex64 {
        match self {
            Self::None => Complex64::new(0.0, 0.0),
            Self::Voltage(voltage) => voltage.slit.voltage_admittance(voltage.mode, k),
            Self::Potential(potential) => itself(potential, k),
            Self::Waves { distance_m, factors, times_k } => {
                let waves = distance_m.iter().zip(factors).map(|(distance_m, [level, slope, with_k])| {
                    Complex64::new(level + k * k * with_k, k * slope) * Complex64::from_polar(1.0, -k * distance_m)
                });
                waves.sum::<Complex64>() * if *times_k { k } else { 1.0 }
            }
        }
    }
}

/// The rule that integrates along a voltage, over (0, 1), by the distance of what it sees over its own length.
fn rule(distance: f64) -> Vec<(f64, f64)> {
    let count = if distance < FAR { 16 } else { 9 };
    gauss_legendre(count).into_iter().map(|(x, weight)| (0.5 + 0.5 * x, 0.5 * weight)).collect()
}

/// Distance over length from which fewer places along a voltage stand for three half-waves of it.
const FAR: f64 = 3.0;

fn distance_m(one: [f64; 2], other: [f64; 2]) -> f64 {
    (one[0] - other[0]).hypot(one[1] - other[1])
}

/// Two modes of one slot: ∫ G(u) (a b C(u) − k² S(u)) du, S and C the correlations of sines and cosines.
fn within_one(one: &Voltage, other: &Voltage) -> Link {
    let (a, b, length_m) = (one.beta(), other.beta(), one.length_m);
    let mut waves = Waves::default();
    for (x, weight) in rule(0.0) {
        let u = x * length_m;
        let rest = length_m - u;
        // ∫₀^{l−u} cos((a ∓ b)x ∓ bu) dx, for one shift and, with a and b exchanged, for the other.
        let part = |a: f64, b: f64| {
            let less = (((a - b) * rest - b * u).sin() + (b * u).sin()) / (a - b);
            let more = (((a + b) * rest + b * u).sin() - (b * u).sin()) / (a + b);
            (0.5 * (less - more), 0.5 * (less + more))
        };
        let (one_way, other_way) = (part(a, b), part(b, a));
        let (sines, cosines) = (one_way.0 + other_way.0, one_way.1 + other_way.1);
        let whole = weight * length_m;
        waves.add([[u, 0.25 * one.width_m], [0.0; 2]], |_, _| [whole * a * b * cosines, 0.0, -whole * sines]);
    }
    waves.done(false)
}

/// A place along a voltage, and the voltage and its slope there.
fn along(voltage: &Voltage, x: f64) -> ([f64; 2], f64, f64) {
    let mut place = voltage.center_m;
    place[voltage.axis.index()] += (x - 0.5) * voltage.length_m;
    let (sine, cosine) = (voltage.mode as f64 * PI * x).sin_cos();
    (place, sine, voltage.beta() * cosine)
}

fn between_voltages(one: &Voltage, other: &Voltage) -> Link {
    let aligned = one.axis == other.axis;
    let rule = rule(distance_m(one.center_m, other.center_m) / one.length_m.max(other.length_m));
    let mut waves = Waves::default();
    for &(x, weight) in &rule {
        let (here, sine, slope) = along(one, x);
        for &(y, other_weight) in &rule {
            let (there, other_sine, other_slope) = along(other, y);
            let whole = weight * other_weight * one.length_m * other.length_m;
            let (charges, currents) = (whole * slope * other_slope, whole * sine * other_sine);
            let factors = if aligned { [charges, 0.0, -currents] } else { [-charges, 0.0, 0.0] };
            waves.add([here, there], |_, _| factors);
        }
    }
    waves.done(false)
}

/// k ∫ g ∂Φ/∂v dA.
fn between_both(potential: &Potential, voltage: &Voltage) -> Link {
    let across = 1 - voltage.axis.index();
    let rule = rule(distance_m(potential.center_m, voltage.center_m) / voltage.length_m);
    let mut waves = Waves::default();
    for here in potential.places_m() {
        for &(x, weight) in &rule {
            let (there, sine, _) = along(voltage, x);
            let whole = 0.25 * potential.moment_m2() * voltage.length_m * weight * sine;
            waves.add([here, there], |over, way| {
                let slope = -whole * way[across] * over;
                [slope * over, slope, 0.0]
            });
        }
    }
    waves.done(true)
}

fn between_potentials(one: &Potential, other: &Potential) -> Link {
    let whole = one.moment_m2() * other.moment_m2() / 16.0;
    let mut waves = Waves::default();
    for here in one.places_m() {
        for there in other.places_m() {
            waves.add([here, there], |over, _| [whole * over * over, whole * over, -whole]);
        }
    }
    waves.done(false)
}

/// A potential by itself. The next term of its stored part is that of a disk, ∫∫ g g′/2πR = 3I²/10r; what it radiates
/// falls short of the dipole's power as its size takes part.
fn itself(potential: &Potential, k: f64) -> Complex64 {
    let [x, y] = potential.size_m;
    let moment_squared = potential.moment_m2().powi(2);
    let radius_m = (x * y / PI).sqrt();
    let stored = potential.static_mouth() + 0.15 * k * k * moment_squared / radius_m;
    let radiated = k * k * k * moment_squared / (3.0 * PI) / (1.0 + k * k * (x * x + y * y) / 40.0);
    Complex64::new(-stored, radiated)
}

#[cfg(test)]
mod tests {
    use super::super::opening::BoxOpening;
    use super::*;

    fn admittance(one: &MouthField, other: &MouthField, k: f64) -> Complex64 {
        Link::new(one, other).at(k)
    }

    #[test]
    fn far_openings_see_each_others_dipoles() {
        // Moments m along x and p along z in front of the closed wall, a distance apart along y: fields of dipoles that
        // the wall doubles (C. A. Balanis, Antenna Theory, 2005, sec. 4.2, from memory).
        let carried = |y: f64, number: usize| BoxOpening::round([0.5, y], 2e-3).unwrap().carried(number);
        let (one, other) = (carried(0.2, 0), carried(0.5, 1));
        let (k, r) = (11.0, 0.3);
        let kernel = Complex64::from_polar(1.0 / (2.0 * PI * r), -k * r);
        let jk = Complex64::new(0.0, k);
        let (MouthField::Voltage(along_x), MouthField::Voltage(along_y), MouthField::Potential(potential)) =
            (one[0], one[1], one[2])
        else {
            panic!("a round hole carries two voltages and a potential")
        };
        let (length_m, moment) = (along_x.mean_length_m(), potential.moment_m2());
        let close = |ours: Complex64, expected: Complex64| {
            assert!((ours / expected - 1.0).norm() < 1e-3, "{ours} {expected}");
        };
        // Along x and across the way: −(k² − jk/r − 1/r²); along the way twice (jk/r + 1/r²), with the sign turned.
        let ours = admittance(&one[0], &other[0], k);
        close(ours, length_m * length_m * kernel * (-k * k + jk / r + 1.0 / (r * r)));
        let mean = along_y.mean_length_m();
        let ours = admittance(&one[1], &other[1], k);
        close(ours, -mean * mean * kernel * 2.0 * (jk / r + 1.0 / (r * r)));
        let ours = admittance(&one[2], &other[2], k);
        close(ours, moment * moment * kernel * (-k * k + jk / r + 1.0 / (r * r)));
        // The electric field of a magnetic dipole: jk + 1/r, from below upwards with the slope of the distance.
        let ours = admittance(&other[2], &one[0], k);
        close(ours, -moment * length_m * k * kernel * (jk + 1.0 / r));
        close(admittance(&one[0], &other[2], k), ours);
        close(admittance(&other[0], &one[2], k), -ours);
    }

    #[test]
    fn fewer_places_do_not_show() {
        let carried = |y: f64, number: usize| BoxOpening::rectangle([0.2, y], [0.1, 8e-3]).unwrap().carried(number);
        let [near, far] = [3.0 - 1e-9, 3.0 + 1e-9].map(|lengths| (carried(0.1, 0), carried(0.1 + 0.1 * lengths, 1)));
        // Up to a wavelength along the slot, between all half-waves of both.
        for k in [1.0, 30.0, 62.0] {
            let size = admittance(&near.0[0], &near.1[0], k).norm();
            for i in 0..5 {
                for j in 0..5 {
                    let [one, other] = [&near, &far].map(|pair| admittance(&pair.0[i], &pair.1[j], k));
                    assert!((one - other).norm() < 1e-5 * size.max(one.norm()), "{k} {i} {j}: {one} {other}");
                }
            }
        }
    }

    #[test]
    fn a_potential_has_the_polarizability() {
        // The field in the hole is that of Bethe: ∫φ dA = α_e E, with 2r³/3.
        let hole = BoxOpening::round([0.5, 0.5], 0.02).unwrap().carried(0);
        let MouthField::Potential(potential) = hole[2] else { panic!("its last one is the potential") };
        let k = 0.5;
        let y = admittance(&hole[2], &hole[2], k);
        let driven = k * potential.moment_m2();
        let moment = driven / (2.0 * y) / k * potential.moment_m2();
        let expected = -2.0 / 3.0 * 0.01_f64.powi(3);
        assert!((moment / expected - 1.0).norm() < 1e-4, "{moment} {expected}");
    }
}
