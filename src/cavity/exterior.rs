//! What the openings see in front of the wall: a half-space, and each other.
//!
//! jωμ₀ Y_ij = (1/2π) ∫∫ (f_i′ f_j′ − k² f_i f_j) exp(−jkR)/R for two voltages along the same axis; along
//! different axes only the first part is left, with the other sign. The self term is the slot's own
//! ([`Slit`](crate::wave::slit::Slit)); two voltages of one opening leave a single integral over their
//! correlation.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::opening::Voltage;

/// jωμ₀ times the admittance between two voltages in front of the wall; `rule` integrates over (0, 1).
pub(super) fn admittance(one: &Voltage, other: &Voltage, k: f64, rule: &[(f64, f64)]) -> Complex64 {
    if one.opening == other.opening {
        match (one.axis == other.axis, one.mode == other.mode) {
            (true, true) => one.slit.voltage_admittance(one.mode, k),
            (true, false) if (one.mode + other.mode).is_multiple_of(2) => within_one(one, other, k, rule),
            // One is even about the centre where the other is odd.
            _ => Complex64::new(0.0, 0.0),
        }
    } else {
        between_two(one, other, k, rule)
    }
}

fn kernel(k: f64, distance_m: f64) -> Complex64 {
    Complex64::from_polar(1.0 / (2.0 * PI * distance_m), -k * distance_m)
}

/// Two modes of one slot: ∫ G(u) (a b C(u) − k² S(u)) du, S and C the correlations of sines and cosines.
fn within_one(one: &Voltage, other: &Voltage, k: f64, rule: &[(f64, f64)]) -> Complex64 {
    let (a, b, length_m) = (one.beta(), other.beta(), one.length_m);
    let mut sum = Complex64::new(0.0, 0.0);
    for &(x, weight) in rule {
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
        let distance_m = u.hypot(0.25 * one.width_m);
        sum += weight * length_m * (a * b * cosines - k * k * sines) * kernel(k, distance_m);
    }
    sum
}

fn between_two(one: &Voltage, other: &Voltage, k: f64, rule: &[(f64, f64)]) -> Complex64 {
    let point = |voltage: &Voltage, x: f64| {
        let mut place = voltage.center_m;
        place[voltage.axis.index()] += (x - 0.5) * voltage.length_m;
        let (sine, cosine) = (voltage.mode as f64 * PI * x).sin_cos();
        (place, sine, voltage.beta() * cosine)
    };
    let aligned = one.axis == other.axis;
    let mut sum = Complex64::new(0.0, 0.0);
    for &(x, weight) in rule {
        let (here, sine, slope) = point(one, x);
        for &(y, other_weight) in rule {
            let (there, other_sine, other_slope) = point(other, y);
            let distance_m = (here[0] - there[0]).hypot(here[1] - there[1]);
            let charges = slope * other_slope;
            let reaction = if aligned { charges - k * k * sine * other_sine } else { -charges };
            sum += weight * other_weight * reaction * kernel(k, distance_m);
        }
    }
    sum * one.length_m * other.length_m
}
