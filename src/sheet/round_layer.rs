//! How a quasi-static magnetic field crosses one curved layer of a closed shell.
//!
//! Each layer carries a pair of continuous field quantities from its inner to its outer face by a
//! 2 x 2 matrix. With r the radius and gamma the propagation constant of the layer's medium the
//! field in the layer obeys
//!
//! * sphere in a uniform field: p'' = (gamma² + 2/r²) p, where p = r A_phi / sin θ;
//! * long cylinder across the field: f'' + f'/r = (gamma² + 1/r²) f, where f = A_z / sin φ;
//! * long cylinder along the field: f'' + f'/r = gamma² f, where f = H_z.
//!
//! The sphere's solutions are elementary. They are written here with
//! C = cosh x, S = sinh x / x, E = 3 (x cosh x - sinh x)/x³, x = gamma t, which are all one at
//! x = 0: no digits are lost for thin walls, and the static field (gamma = 0) is a value like any
//! other. The cylinder's are modified Bessel functions; where their Wronskian products would
//! cancel (|gamma t| small) the power series about the inner face takes over.
//!
//! Source: derived here; the same problems are solved in H. Kaden, *Wirbelströme und Schirmung in
//! der Nachrichtentechnik*, 2nd ed. (1959), ch. C, and for gamma = 0 in J. D. Jackson, *Classical
//! Electrodynamics*, sec. 5.12.

use complex_bessel::{Scaling, besseli_seq, besselk_seq};
use num_complex::Complex64;

/// A 2 x 2 matrix times exp(`ln_scale`).
#[derive(Debug, Clone, Copy)]
pub(crate) struct Transfer {
    pub entries: [[Complex64; 2]; 2],
    pub ln_scale: f64,
}

/// Which of the three radial equations.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Radial {
    Sphere,
    CylinderAcross,
    CylinderAlong,
}

impl Transfer {
    /// From (value, slope) at radius `inner` to (value, slope) at `inner + thickness`.
    pub fn across(radial: Radial, gamma: Complex64, inner: f64, thickness: f64) -> Self {
        match radial {
            Radial::Sphere => sphere(gamma, inner, thickness),
            Radial::CylinderAcross => cylinder(1, gamma, inner, thickness),
            Radial::CylinderAlong => cylinder(0, gamma, inner, thickness),
        }
    }
}

/// cosh x, sinh x / x and 3 (x cosh x - sinh x)/x³, all times exp(-Re x).
fn scaled_hyperbolics(x: Complex64) -> (Complex64, Complex64, Complex64) {
    if x.norm_sqr() < 1.0 {
        // Series: the third function loses two digits a decade otherwise.
        let square = x * x;
        let (mut c, mut s, mut e) = (Complex64::ZERO, Complex64::ZERO, Complex64::ZERO);
        let mut term = Complex64::ONE; // x^2n / (2n)!
        let mut n = 0.0;
        while n < 14.0 {
            c += term;
            s += term / (2.0 * n + 1.0);
            // (x cosh x - sinh x)/x^3 = sum x^2n (2n+2)/(2n+3)!
            e += term * 3.0 / ((2.0 * n + 1.0) * (2.0 * n + 3.0));
            n += 1.0;
            term *= square / ((2.0 * n) * (2.0 * n - 1.0));
        }
        let scale = (-x.re).exp();
        (c * scale, s * scale, e * scale)
    } else {
        let rising = Complex64::from_polar(0.5, x.im);
        let falling = Complex64::from_polar(0.5 * (-2.0 * x.re).exp(), -x.im);
        let c = rising + falling;
        let s = (rising - falling) / x;
        (c, s, 3.0 * (c - s) / (x * x))
    }
}

fn sphere(gamma: Complex64, a: f64, t: f64) -> Transfer {
    let b = a + t;
    let (c, s, e) = scaled_hyperbolics(gamma * t);
    let ratio = t * t / (a * b);
    let third = t * t * t / 3.0;
    let entries = [
        [c + ratio * s + third / (a * a * b) * e, t * s + third / (a * b) * e],
        [
            t * s * (gamma * gamma + (1.0 / (a * a) + 1.0 / (b * b) - 1.0 / (a * b))) + t / (a * b) * c
                - third / (a * a * b * b) * e,
            c + ratio * s - third / (a * b * b) * e,
        ],
    ];
    Transfer { entries, ln_scale: (gamma * t).re }
}

fn cylinder(order: u32, gamma: Complex64, a: f64, t: f64) -> Transfer {
    /// Below this many nepers the series is shorter and keeps more digits.
    const THIN: f64 = 0.5;
    /// The series about the inner face converges for t < a; this keeps it short.
    const SHALLOW: f64 = 0.25;
    if (gamma * t).norm() <= THIN {
        let mut whole =
            Transfer { entries: [[Complex64::ONE, Complex64::ZERO], [Complex64::ZERO, Complex64::ONE]], ln_scale: 0.0 };
        let mut inner = a;
        let outer = a + t;
        while inner < outer {
            let step = (outer - inner).min(SHALLOW * inner);
            let part = cylinder_series(order, gamma, inner, step);
            whole.entries = product(part, whole.entries);
            // The last step ends exactly at the outer face.
            inner = if step < outer - inner { inner + step } else { outer };
        }
        whole
    } else {
        cylinder_bessel(order, gamma, a, t)
    }
}

fn product(m: [[Complex64; 2]; 2], n: [[Complex64; 2]; 2]) -> [[Complex64; 2]; 2] {
    let entry = |row: usize, column: usize| m[row][0] * n[0][column] + m[row][1] * n[1][column];
    [[entry(0, 0), entry(0, 1)], [entry(1, 0), entry(1, 1)]]
}

/// Power series in u = (r - a)/a of (1+u)² f'' + (1+u) f' = (order² + (gamma a)² (1+u)²) f.
fn cylinder_series(order: u32, gamma: Complex64, a: f64, t: f64) -> [[Complex64; 2]; 2] {
    const LONGEST: i32 = 80;
    let u = t / a;
    let g2 = (gamma * a) * (gamma * a);
    let n2 = f64::from(order * order);
    let solve = |value: f64, slope: f64| {
        // Coefficients c[k-2..k+1], scaled by u^k so that large gamma a stays tame.
        let (mut before2, mut before1) = (Complex64::ZERO, Complex64::ZERO);
        let mut now = Complex64::new(value, 0.0);
        let mut next = Complex64::new(slope * u, 0.0);
        let (mut f, mut df) = (now + next, next);
        for k in 0..LONGEST {
            let k_ = f64::from(k);
            let after = -(u * (k_ + 1.0) * (2.0 * k_ + 1.0) * next
                + u * u * ((k_ * k_ - n2 - g2) * now - 2.0 * u * g2 * before1 - u * u * g2 * before2))
                / ((k_ + 1.0) * (k_ + 2.0));
            f += after;
            df += after * (k_ + 2.0);
            let small = f64::EPSILON * 1e-2;
            if k > 4 && after.norm() * (k_ + 2.0) < small * df.norm() && next.norm() < small * df.norm().max(f.norm()) {
                break;
            }
            (before2, before1, now, next) = (before1, now, next, after);
        }
        // df is u df/du; the slope along r is (1/a) df/du.
        (f, df / t)
    };
    let (f0, s0) = solve(1.0, 0.0);
    let (f1, s1) = solve(0.0, a);
    [[f0, f1], [s0, s1]]
}

/// Modified Bessel functions in scaled form with their derivatives: (I, I', K, K').
fn bessel_pair(order: u32, z: Complex64) -> Option<[Complex64; 4]> {
    let i = besseli_seq(0.0, z, 3, Scaling::Exponential).ok()?.values;
    let k = besselk_seq(0.0, z, 3, Scaling::Exponential).ok()?.values;
    Some(match order {
        0 => [i[0], i[1], k[0], -k[1]],
        _ => [i[1], 0.5 * (i[0] + i[2]), k[1], -0.5 * (k[0] + k[2])],
    })
}

fn cylinder_bessel(order: u32, gamma: Complex64, a: f64, t: f64) -> Transfer {
    let (xa, xb) = (gamma * a, gamma * (a + t));
    let x = gamma * t;
    let (Some([ia, dia, ka, dka]), Some([ib, dib, kb, dkb])) = (bessel_pair(order, xa), bessel_pair(order, xb)) else {
        // Arguments beyond the library's reach (|gamma r| > 1e9): the wall is flat to all digits.
        let (c, s, _) = scaled_hyperbolics(x);
        return Transfer { entries: [[c, t * s], [gamma * x * s, c]], ln_scale: x.re };
    };
    // K is scaled by exp(+z), I by exp(-Re z): what is left of the exponents once exp(Re x) is
    // taken out of every entry.
    let rising = Complex64::from_polar(1.0, -xa.im);
    let falling = Complex64::from_polar((-2.0 * x.re).exp(), -xb.im);
    let wronskian = -xa;
    let entries = [
        [
            wronskian * (dka * ib * rising - dia * kb * falling),
            wronskian / gamma * (ia * kb * falling - ka * ib * rising),
        ],
        [
            wronskian * gamma * (dka * dib * rising - dia * dkb * falling),
            wronskian * (ia * dkb * falling - ka * dib * rising),
        ],
    ];
    Transfer { entries, ln_scale: x.re }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unscaled(t: &Transfer) -> [[Complex64; 2]; 2] {
        t.entries.map(|row| row.map(|e| e * t.ln_scale.exp()))
    }

    #[test]
    fn determinant_is_that_of_the_wronskian() {
        // p'' = q p keeps the Wronskian; f'' + f'/r = q f shrinks it as 1/r.
        for gamma in
            [Complex64::new(0.0, 0.0), Complex64::new(3.0, 3.0), Complex64::new(40.0, 41.0), Complex64::new(1e-6, 2e-3)]
        {
            for (radial, expected) in
                [(Radial::Sphere, 1.0), (Radial::CylinderAcross, 0.5 / 0.6), (Radial::CylinderAlong, 0.5 / 0.6)]
            {
                let m = unscaled(&Transfer::across(radial, gamma, 0.5, 0.1));
                let d = m[0][0] * m[1][1] - m[0][1] * m[1][0];
                let size = (m[0][0] * m[1][1]).norm();
                assert!((d - expected).norm() < 1e-13 * size.max(1.0), "{radial:?} {gamma} {d}");
            }
        }
    }

    #[test]
    fn two_layers_of_one_medium_are_one() {
        for gamma in [
            Complex64::new(0.0, 0.0),
            Complex64::new(3.0, 3.0),
            Complex64::new(40.0, 41.0),
            Complex64::new(4.0e3, 4.0e3),
        ] {
            for radial in [Radial::Sphere, Radial::CylinderAcross, Radial::CylinderAlong] {
                let whole = Transfer::across(radial, gamma, 0.5, 0.03);
                let first = Transfer::across(radial, gamma, 0.5, 0.02);
                let second = Transfer::across(radial, gamma, 0.52, 0.01);
                let both = product(second.entries, first.entries);
                assert!((second.ln_scale + first.ln_scale - whole.ln_scale).abs() < 1e-11);
                for (row, line) in both.iter().zip(&whole.entries) {
                    for (x, y) in row.iter().zip(line) {
                        assert!((x - y).norm() <= 2e-12 * y.norm(), "{radial:?} {gamma} {x} {y}");
                    }
                }
            }
        }
    }

    #[test]
    fn series_and_bessel_meet() {
        for gamma in
            [Complex64::new(3.5, 3.5), Complex64::new(4.9, 0.0), Complex64::new(0.0, 4.9), Complex64::new(0.5, 3.0)]
        {
            for order in [0, 1] {
                let series = cylinder(order, gamma, 0.5, 0.1);
                let bessel = cylinder_bessel(order, gamma, 0.5, 0.1);
                for (row, line) in unscaled(&series).iter().zip(&unscaled(&bessel)) {
                    for (x, y) in row.iter().zip(line) {
                        assert!((x - y).norm() <= 1e-13 * y.norm().max(1.0), "{order} {gamma} {x} {y}");
                    }
                }
            }
        }
    }
}
