//! The worst that terminations can do to a two-port.
//!
//! Printed insertion loss holds between two stated impedances. Outside a measuring room nobody states them,
//! so the useful figure is the least loss over every termination that can occur. Two are given.
//!
//! **Least insertion loss over all passive terminations.** For a passive two-port the insertion gain
//! `V2/V20` is an analytic function of either impedance in the right half plane, so by the maximum-modulus
//! principle the worst source and the worst load are both pure reactances, `Z1 = jx`, `Z2 = jy`. For given
//! `x`, the worst `y` has a closed form, and what remains is
//!
//! ```text
//! G(x) = |B + j(D - A) x + C x^2|/q(x),
//! q(x) = Re(A* B) + x (Im(B C*) - Im(D A*)) + x^2 Re(D C*)
//! ```
//!
//! `q` is the power that the two-port itself takes: positive for every `x`. Completing the square in it by
//! `x = x0 + y0 tan(phi/2)` turns `G` into the distance from the origin to a point of an ellipse,
//! `|alpha + beta cos phi + gamma sin phi|`: sharp resonances in `x` are gone, and the farthest point of an
//! ellipse is the root of one convex, monotone equation. A lossless two-port has no bound: minus infinity dB.
//!
//! **Least transducer loss over all passive terminations** (power into the load against the power that the
//! source could give at best). With `K = Re(A D* + B C*)/|AD - BC|`, Rollett's stability factor (J. M.
//! Rollett, *Stability and power-gain invariants of linear twoports*, IRE Trans. CT 9, 1962), it is
//! `arcosh K` nepers of power for a reciprocal two-port: conjugate match on both sides. Never negative.
//!
//! Of a two-port that loses much, `q` would be a difference of products that agree in all their digits. There the same is
//! written in its impedances, `z11 = A/C`, `z22 = D/C`, `t = z12 z21 = (AD - BC)/C^2`, of which `t` is small:
//!
//! ```text
//! G = |(r11 + j u)(r22 + j (x11 + x22 - u)) - t|/(|C| (r22 (u^2 + r11^2) - r11 Re t - u Im t)),   u = x + x11
//! ```
//!
//! with the least of the denominator `((r11 r22 - Re t/2)^2 - |t|^2/4)/r22`, or in the dual of that, its admittances.
//!
//! Both hold for two-ports that are passive; for others the first is meaningless and is returned as minus
//! infinity when `q` has a zero.

use num_complex::Complex64;

use crate::decibel::DB_PER_NEPER;

use super::two_port::TwoPort;

impl TwoPort {
    /// Least insertion loss in dB over all passive source and load impedances.
    ///
    /// Minus infinity for a lossless two-port (a resonance without damping has no bound). A plain through
    /// gives zero.
    #[must_use]
    pub fn worst_insertion_loss_db(&self) -> f64 {
        -DB_PER_NEPER * self.ln_largest_insertion_gain()
    }

    /// Natural logarithm of the largest `|V2/V20|` over all passive source and load impedances.
    #[must_use]
    pub fn ln_largest_insertion_gain(&self) -> f64 {
        let ([[a, b], [c, d]], ln_scale) = self.scaled_chain();
        // D - A from the excess, where one has not been added to both.
        let skew = self.skew();
        let zero = Complex64::new(0.0, 0.0);
        if c == zero && skew == zero {
            // A series impedance alone: G = |B|/Re B whatever the terminations, or nothing at all.
            return if b == zero { 0.0 } else { ln_ratio(b.norm(), b.re) - ln_scale };
        }
        if b == zero && skew == zero {
            return ln_ratio(c.norm(), c.re) - ln_scale;
        }
        if (b * c).norm() > LOSES_MUCH {
            // With the larger real parts: of impedances, or of admittances.
            let share = |both: Complex64, other: Complex64| (both * other.conj()).re / (both.norm() * other.norm());
            let [a, c, d] = if share(a, c) * share(d, c) >= share(d, b) * share(a, b) { [a, c, d] } else { [d, b, a] };
            let determinant = self.ln_determinant() - 2.0 * ln_scale;
            return ln_gain_by_impedances(a / c, d / c, determinant, c) - ln_scale;
        }
        let q0 = (a.conj() * b).re;
        let q1 = (b * c.conj()).im - (d * a.conj()).im;
        let q2 = (d * c.conj()).re;
        let determinant = q0 * q2 - 0.25 * q1 * q1;
        if !(q0 > 0.0 && q2 > 0.0 && determinant > 0.0) {
            return f64::INFINITY;
        }
        // x = shift + width t with t = tan(phi/2); q = (det/q2)(1 + t^2).
        let shift = -0.5 * q1 / q2;
        let width = determinant.sqrt() / q2;
        let j = Complex64::new(0.0, 1.0);
        let constant = b + j * skew * shift + c * (shift * shift);
        let linear = (j * skew + c * (2.0 * shift)) * width;
        let square = c * (width * width);
        // (constant + linear t + square t^2) cos^2(phi/2), over det/q2.
        let gain =
            farthest_point(0.5 * (constant + square), 0.5 * (constant - square), 0.5 * linear) * q2 / determinant;
        gain.ln() - ln_scale
    }

    /// Least transducer loss in dB over all passive source and load impedances: what is lost even with a
    /// conjugate match on both sides. Never negative for a passive two-port.
    #[must_use]
    pub fn worst_transducer_loss_db(&self) -> f64 {
        0.5 * DB_PER_NEPER * self.least_transducer_loss_np()
    }

    // In nepers of power.
    fn least_transducer_loss_np(&self) -> f64 {
        let ln_determinant = self.ln_determinant().re;
        let ([[a, b], [c, d]], ln_scale) = self.scaled_chain();
        if ln_scale == 0.0 && ln_determinant == 0.0 {
            let k_minus_one = self.stability_excess().max(0.0);
            // arcosh(1 + e) = ln(1 + e + sqrt(e (2 + e))).
            return (k_minus_one + (k_minus_one * (2.0 + k_minus_one)).sqrt()).ln_1p();
        }
        let ln_k = (a * d.conj() + b * c.conj()).re.ln() + 2.0 * ln_scale - ln_determinant;
        let arcosh = if ln_k > 20.0 { ln_k + std::f64::consts::LN_2 } else { ln_k.exp().max(1.0).acosh() };
        // |S12/S21| = |AD - BC| weighs the two directions.
        arcosh + ln_determinant
    }
}

/// |BC| from which on the impedances are used: some 10 dB between the worst of terminations and more.
pub(super) const LOSES_MUCH: f64 = 4.0;

/// The largest gain by z11, z22, ln(AD - BC) and C; plus infinity where the two-port takes no power.
fn ln_gain_by_impedances(z11: Complex64, z22: Complex64, ln_determinant: Complex64, c: Complex64) -> f64 {
    // As ratios to |z11 z22|, whatever their size.
    let (size_1, size_2) = (z11.norm(), z22.norm());
    let (z1, z2) = (z11 / size_1, z22 / size_2);
    let t = (ln_determinant - 2.0 * c.ln() - (size_1.ln() + size_2.ln())).exp();
    let rest = z1.re * z2.re - 0.5 * t.re;
    let depth = (rest - 0.5 * t.norm()) * (rest + 0.5 * t.norm());
    if !(z1.re > 0.0 && z2.re > 0.0 && rest > 0.0 && depth > 0.0) {
        return f64::INFINITY;
    }
    // In units of |z11| for the source, of |z22| for the load: u = shift + width tan(phi/2).
    let (shift, width) = (0.5 * t.im / z2.re, depth.sqrt() / z2.re);
    let j = Complex64::new(0.0, 1.0);
    let ratio = size_1 / size_2;
    let behind = Complex64::new(z2.re, z2.im + ratio * (z1.im - shift));
    let before = Complex64::new(z1.re, shift);
    let constant = before * behind - t;
    let linear = j * width * (behind - ratio * before);
    let square = Complex64::new(ratio * width * width, 0.0);
    let farthest = farthest_point(0.5 * (constant + square), 0.5 * (constant - square), 0.5 * linear);
    (farthest * z2.re / depth).ln() - c.norm().ln() - size_1.ln()
}

fn ln_ratio(numerator: f64, denominator: f64) -> f64 {
    if denominator > 0.0 { (numerator / denominator).ln() } else { f64::INFINITY }
}

/// Largest `|centre + p cos t + q sin t|` over `t`: distance from the origin to the farthest point of an
/// ellipse given by two conjugate semi-diameters.
///
/// In the principal axes (semi-axes `a >= b`, centre `(u, v)`) the squared distance is the least value of
/// the convex dual `h(n) = a^2 + u^2 + n + a^2 u^2/n + v^2 (a^2 + n)/(n + a^2 - b^2)` over `n > 0`. Newton's
/// method on `1/sqrt(g) = 1`, `g = (a u/n)^2 + (b v/(n + a^2 - b^2))^2`, climbs to the root from below
/// without overshooting (the secular equation of trust-region methods: J. J. More and D. C. Sorensen,
/// *Computing a trust region step*, SIAM J. Sci. Stat. Comput. 4, 1983), and the value is stationary there:
/// its error is the square of the root's.
pub(crate) fn farthest_point(centre: Complex64, p: Complex64, q: Complex64) -> f64 {
    let largest = centre.norm().max(p.norm()).max(q.norm());
    if largest == 0.0 || !largest.is_finite() {
        return largest;
    }
    // Twice over, because the reciprocal of a tiny number overflows before its root does.
    let scale = largest.sqrt().recip();
    let [centre, p, q] = [centre, p, q].map(|z| z * scale * scale);
    let j = Complex64::new(0.0, 1.0);
    let forward = 0.5 * (p - j * q);
    let backward = 0.5 * (p + j * q);
    let (f, g) = (forward.norm(), backward.norm());
    let (a, b) = (f + g, (f - g).abs());
    // a^2 - b^2 without the difference.
    let gap = 4.0 * f * g;
    let size = centre.norm_sqr();
    let (u2, v2) = if gap > 0.0 {
        // The major axis lies along u with u^2 = forward * backward/|...|.
        let axis = forward * backward / (f * g);
        let along = (centre * centre * axis.conj()).re;
        ((0.5 * (size + along)).max(0.0), (0.5 * (size - along)).max(0.0))
    } else {
        (size, 0.0)
    };
    let a2 = a * a;
    let (au, bv) = (a * u2.sqrt(), b * v2.sqrt());
    let mut n = au.max(bv - gap);
    if n > 0.0 {
        for _ in 0..40 {
            let (first, second) = (au / n, bv / (n + gap));
            let (first2, second2) = (first * first, second * second);
            let value = first2 + second2;
            let slope = first2 / n + second2 / (n + gap);
            // Newton on 1/sqrt(value) - 1.
            let step = (value.sqrt() - 1.0) * value / slope;
            if step.is_nan() || step <= 1e-9 * n {
                n += step.max(0.0);
                break;
            }
            n += step;
        }
    }
    let n_term = if au > 0.0 { a2 * u2 / n } else { 0.0 };
    let across = if v2 > 0.0 { v2 * (a2 + n) / (n + gap) } else { 0.0 };
    (a2 + u2 + n + n_term + across).sqrt() * largest
}

/// The power that a two-port takes is a difference of what goes in and comes out. How many times larger those are: so
/// many times is rounding magnified in its largest gain.
#[cfg(test)]
pub(crate) fn magnification(two_port: &TwoPort) -> f64 {
    let ([[a, b], [c, d]], _) = two_port.scaled_chain();
    let (q0, q2) = ((a.conj() * b).re, (d * c.conj()).re);
    let q1 = (b * c.conj()).im - (d * a.conj()).im;
    let (in_q1, in_all) = ((b * c).norm() + (d * a).norm(), q0 * q2 - 0.25 * q1 * q1);
    let terms = (a * b).norm() * q2 + (d * c).norm() * q0 + in_q1 * q1.abs();
    if in_all > 0.0 { terms / in_all } else { f64::INFINITY }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::two_port::Terminations;

    fn c(re: f64, im: f64) -> Complex64 {
        Complex64::new(re, im)
    }

    // A lossy pi with unlike ends.
    fn pi() -> TwoPort {
        TwoPort::chain(&[
            TwoPort::shunt(c(1e-3, 0.02)),
            TwoPort::series(c(0.8, 70.0)),
            TwoPort::shunt(c(4e-4, 0.05)),
            TwoPort::series(c(0.3, -11.0)),
        ])
    }

    #[test]
    fn worst_insertion_loss_is_what_a_search_over_reactances_finds() {
        let two_port = pi();
        let exact = two_port.worst_insertion_loss_db();
        let gain = |x: f64, y: f64| {
            let ([[a, b], [cc, d]], _) = two_port.scaled_chain();
            let (z1, z2) = (c(0.0, x), c(0.0, y));
            ((z1 + z2) / (a * z2 + b + cc * z1 * z2 + d * z1)).norm()
        };
        let reactance = |k: i32, n: i32| 30.0 * (std::f64::consts::PI * (f64::from(k) / f64::from(n) - 0.5)).tan();
        let mut best = 0.0_f64;
        let n = 3000;
        for k in 1..n {
            for m in 1..n {
                best = best.max(gain(reactance(k, n), reactance(m, n)));
            }
        }
        let searched = -DB_PER_NEPER * best.ln();
        assert!(searched >= exact - 1e-9, "search {searched} found less than the bound {exact}");
        assert!(searched - exact < 0.02, "search {searched}, bound {exact}");
    }

    #[test]
    fn no_passive_termination_does_worse() {
        let two_port = pi();
        let (insertion, transducer) = (two_port.worst_insertion_loss_db(), two_port.worst_transducer_loss_db());
        assert!(transducer > 0.0);
        let values = [0.0, 0.1, 3.0, 50.0, 2000.0];
        let reactances = [-1e4, -80.0, -20.0, -5.0, 0.0, 5.0, 12.0, 300.0];
        for r1 in values {
            for r2 in values {
                for x1 in reactances {
                    for x2 in reactances {
                        let Ok(ends) = Terminations::new(c(r1, x1), c(r2, x2)) else { continue };
                        assert!(two_port.insertion_loss_db(&ends) >= insertion - 1e-9);
                        let db = -10.0 * two_port.ln_transducer_gain(&ends) / std::f64::consts::LN_10;
                        assert!(db >= transducer - 1e-9, "{db} {transducer}");
                    }
                }
            }
        }
    }

    #[test]
    fn transducer_bound_is_reached_by_the_conjugate_match() {
        let two_port = pi();
        let (mut z1, mut z2) = (c(10.0, 0.0), c(10.0, 0.0));
        for _ in 0..2000 {
            z1 = two_port.input_impedance_ohm(z2).conj();
            z2 = two_port.output_impedance_ohm(z1).conj();
        }
        let ends = Terminations::new(z1, z2).expect("matched terminations are passive");
        let db = -10.0 * two_port.ln_transducer_gain(&ends) / std::f64::consts::LN_10;
        assert!((db - two_port.worst_transducer_loss_db()).abs() < 1e-8);
    }

    #[test]
    fn simple_cases_have_their_known_bounds() {
        assert_eq!(TwoPort::THROUGH.worst_insertion_loss_db(), 0.0);
        assert_eq!(TwoPort::THROUGH.worst_transducer_loss_db(), 0.0);
        // A lossless resonant circuit has no bound.
        assert_eq!(TwoPort::series(c(0.0, 5.0)).worst_insertion_loss_db(), f64::NEG_INFINITY);
        // A resistor in the line: open-circuit terminations make it nothing.
        assert!(TwoPort::series(c(5.0, 0.0)).worst_insertion_loss_db().abs() < 1e-12);
        // R + jX in the line can gain |Z|/R at most.
        let db = TwoPort::series(c(3.0, 4.0)).worst_insertion_loss_db();
        assert!((db + 20.0 * (5.0_f64 / 3.0).log10()).abs() < 1e-12);
    }

    #[test]
    fn bounds_survive_thousands_of_decibels() {
        let line = TwoPort::uniform_line(c(4e4, 3e4), c(10.0, 40.0));
        let (insertion, transducer) = (line.worst_insertion_loss_db(), line.worst_transducer_loss_db());
        let plain = line.insertion_loss_db(&Terminations::fifty_ohm());
        assert!(plain > 5000.0 && insertion.is_finite() && transducer.is_finite());
        assert!(insertion < plain && transducer < plain && insertion > plain - 200.0);
    }

    #[test]
    fn farthest_point_of_an_ellipse_equals_a_search() {
        let cases = [
            (c(0.3, -0.2), c(1.0, 0.5), c(-0.2, 0.7)),
            (c(0.0, 0.0), c(2.0, 0.0), c(0.0, 1.0)),
            (c(0.0, 0.4), c(2.0, 0.0), c(0.0, 1.0)),
            (c(0.0, 9.0), c(2.0, 0.0), c(0.0, 1.0)),
            (c(1e-9, 0.4), c(2.0, 0.0), c(0.0, 1.0)),
            (c(1.0, 1.0), c(1.0, 0.0), c(0.0, 1.0)),
            (c(1.0, 1.0), c(1.0, 0.0), c(2.0, 0.0)),
            (c(5.0, 1.0), c(0.0, 0.0), c(0.0, 0.0)),
            (c(1e-200, 3e-200), c(1e-200, 0.0), c(0.0, 2e-200)),
        ];
        for (centre, p, q) in cases {
            let exact = farthest_point(centre, p, q);
            let n = 200_000;
            let searched = (0..n)
                .map(|k| {
                    let t = std::f64::consts::TAU * f64::from(k) / f64::from(n);
                    (centre + p * t.cos() + q * t.sin()).norm()
                })
                .fold(0.0, f64::max);
            assert!((exact / searched - 1.0).abs() < 1e-9, "{centre} {p} {q}: {exact} {searched}");
        }
    }
}
