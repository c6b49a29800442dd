//! Where a stated gain is touched: along a piece of the boundary of one region of impedance, against a piece of the other.
//!
//! With `m1 = A + C Z1` and `m2 = B + D Z1` the gain between `Z1` and `Z2` exceeds the level `λ` (squared) where
//! `Q = |Z1 + Z2|^2 - λ |m1 Z2 + m2|^2` is positive. On a ray of `Z2` that is a quadratic, on an arc `P + 2 Re(u S)`. It has
//! zeros there if its discriminant `T` is positive. Written as sums and differences of squares, in which nothing cancels that
//! a sharp resonance hangs on,
//!
//! ```text
//! ray, direction e:  T = λ (|m2|^2 + |Z1|^2 |m1|^2 - 2 Re(Z1 e*) Re(e m1 m2*)) - Im(Z1 e*)^2 - λ^2 Im(e m1 m2*)^2
//! arc, radius r:     T = 2 λ ((r^2 + |Z1|^2)(r^2 |m1|^2 + |m2|^2) - 4 r^2 Re(Z1* m1* m2))
//!                        - (r^2 - |Z1|^2)^2 - λ^2 (r^2 |m1|^2 - |m2|^2)^2
//! ```
//!
//! Along a ray of `Z1` every factor is a quadratic in its length; along an arc it is one in the tangent of half the angle from the
//! arc's middle, over `1 + τ^2`. So `T` is a quartic, and its peaks are the roots of a cubic.

use num_complex::Complex64;

use super::region::Piece;

/// A real quadratic, `c0 + c1 s + c2 s^2`.
type Quadratic = [f64; 3];

/// What `T` is made of along a piece of the source's boundary.
#[derive(Debug, Clone, Copy)]
pub(super) struct Along {
    low: f64,
    high: f64,
    /// 1, or 1 + τ^2: what all others are multiplied by.
    one: Quadratic,
    /// |Z1|^2, Re Z1, Im Z1.
    size: Quadratic,
    real: Quadratic,
    imaginary: Quadratic,
    /// |m1|^2, |m2|^2, Re(m1* m2), Im(m1* m2).
    first: Quadratic,
    second: Quadratic,
    both_re: Quadratic,
    both_im: Quadratic,
}

impl Along {
    /// From a chain matrix and a piece of the source's boundary.
    pub(super) fn new([[a, b], [c, d]]: [[Complex64; 2]; 2], piece: &Piece) -> Self {
        let (low, high) = piece.range();
        let j = Complex64::new(0.0, 1.0);
        match *piece {
            Piece::Ray { direction, .. } => {
                let (c, d) = (c * direction, d * direction);
                let linear = a.conj() * d + c.conj() * b;
                let (constant, square) = (a.conj() * b, c.conj() * d);
                Self {
                    low,
                    high,
                    one: [1.0, 0.0, 0.0],
                    size: [0.0, 0.0, 1.0],
                    real: [0.0, direction.re, 0.0],
                    imaginary: [0.0, direction.im, 0.0],
                    first: [a.norm_sqr(), 2.0 * (a.conj() * c).re, c.norm_sqr()],
                    second: [b.norm_sqr(), 2.0 * (b.conj() * d).re, d.norm_sqr()],
                    both_re: [constant.re, linear.re, square.re],
                    both_im: [constant.im, linear.im, square.im],
                }
            }
            Piece::Arc { size, .. } => {
                let middle = piece.middle();
                let (c, d) = (c * middle, d * middle);
                // mean + 2 Re(v swing), v = (1 + jτ)^2/(1 + τ^2)
                let wave =
                    |mean: f64, swing: Complex64| [mean + 2.0 * swing.re, -4.0 * swing.im, mean - 2.0 * swing.re];
                let (rising, falling) = (a.conj() * d * 0.5, c * b.conj() * 0.5);
                let constant = a.conj() * b + c.conj() * d;
                Self {
                    low,
                    high,
                    one: [1.0, 0.0, 1.0],
                    size: wave(size * size, Complex64::new(0.0, 0.0)),
                    real: wave(0.0, middle * 0.5),
                    imaginary: wave(0.0, -j * middle * 0.5),
                    first: wave(a.norm_sqr() + c.norm_sqr(), a.conj() * c),
                    second: wave(b.norm_sqr() + d.norm_sqr(), b.conj() * d),
                    both_re: wave(constant.re, rising + falling),
                    both_im: wave(constant.im, -j * (rising - falling)),
                }
            }
        }
    }

    /// `T` against a piece of the load's boundary at a squared gain.
    pub(super) fn tangency(&self, load: &Piece, level: f64) -> Tangency {
        let rotated = |re: &Quadratic, im: &Quadratic, by: Complex64| sum(&scaled(re, by.re), &scaled(im, by.im));
        match *load {
            Piece::Ray { direction, .. } => {
                // e m1 m2*, and Z1 e*
                let across = Complex64::new(direction.im, -direction.re);
                let along = rotated(&self.both_re, &self.both_im, direction);
                let beside = rotated(&self.both_re, &self.both_im, across);
                let aligned = rotated(&self.real, &self.imaginary, direction);
                let skew = rotated(&self.real, &self.imaginary, across);
                Tangency {
                    products: [
                        (level, self.second, self.one),
                        (level, self.size, self.first),
                        (-2.0 * level, aligned, along),
                    ],
                    taken: [(1.0, skew), (level * level, beside)],
                }
            }
            Piece::Arc { size, .. } => {
                let square = size * size;
                let near = scaled(&self.one, square);
                let through = scaled(&self.first, square);
                Tangency {
                    products: [
                        (2.0 * level, sum(&near, &self.size), sum(&through, &self.second)),
                        (-8.0 * level * square, self.real, self.both_re),
                        (-8.0 * level * square, self.imaginary, self.both_im),
                    ],
                    taken: [
                        (1.0, sum(&near, &scaled(&self.size, -1.0))),
                        (level * level, sum(&through, &scaled(&self.second, -1.0))),
                    ],
                }
            }
        }
    }

    /// Places on the piece, one in every stretch strictly inside on which `T` is positive; `None` if numbers overflow.
    pub(super) fn peaks(&self, tangency: &Tangency) -> Option<Peaks> {
        let bend = tangency.bend();
        let (mut places, mut count) = ([self.low; 4], 1);
        for root in roots(&bend).into_iter().flatten() {
            if root > self.low && root < self.high {
                places[count] = root;
                count += 1;
            }
        }
        if count == 3 && places[1] > places[2] {
            places.swap(1, 2);
        }
        places[count] = self.high;
        let mut peaks = Peaks { places: [0.0; 3], count: 0 };
        let mut left = (self.low, tangency.slope(self.low));
        for &place in &places[1..=count] {
            let right = (place, tangency.slope(place));
            if !right.1.is_finite() || !left.1.is_finite() {
                return None;
            }
            // Going up on the left and down on the right: one peak between.
            if left.1 > 0.0 && right.1 < 0.0 {
                let peak = turning_point(tangency, &bend, left.0, right.0);
                if tangency.at(peak) > 0.0 {
                    peaks.places[peaks.count] = peak;
                    peaks.count += 1;
                }
            }
            left = right;
        }
        Some(peaks)
    }
}

/// At most three places.
#[derive(Debug, Clone, Copy)]
pub(super) struct Peaks {
    places: [f64; 3],
    count: usize,
}

impl Peaks {
    pub(super) fn iter(&self) -> impl Iterator<Item = f64> + '_ {
        self.places[..self.count].iter().copied()
    }
}

/// The quartic `T`: weighted products of quadratics less weighted squares of quadratics. Kept so, since in one sum of powers
/// the squares that vanish at a resonance would be rounding.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tangency {
    products: [(f64, Quadratic, Quadratic); 3],
    taken: [(f64, Quadratic); 2],
}

impl Tangency {
    fn at(&self, s: f64) -> f64 {
        let given: f64 = self.products.iter().map(|(weight, p, q)| weight * value(p, s) * value(q, s)).sum();
        let taken: f64 = self.taken.iter().map(|(weight, p)| weight * value(p, s) * value(p, s)).sum();
        given - taken
    }

    fn slope(&self, s: f64) -> f64 {
        let given: f64 = self
            .products
            .iter()
            .map(|(weight, p, q)| weight * (value(p, s) * rise(q, s) + rise(p, s) * value(q, s)))
            .sum();
        let taken: f64 = self.taken.iter().map(|(weight, p)| 2.0 * weight * value(p, s) * rise(p, s)).sum();
        given - taken
    }

    /// Second derivative, as a quadratic.
    fn bend(&self) -> Quadratic {
        let mut bend = [0.0; 3];
        let squares = self.taken.iter().map(|(weight, p)| (-weight, p, p));
        for (weight, p, q) in self.products.iter().map(|(weight, p, q)| (*weight, p, q)).chain(squares) {
            bend[0] += weight * 2.0 * (p[0] * q[2] + p[1] * q[1] + p[2] * q[0]);
            bend[1] += weight * 6.0 * (p[1] * q[2] + p[2] * q[1]);
            bend[2] += weight * 12.0 * p[2] * q[2];
        }
        bend
    }
}

/// Where the slope passes through zero, from above on the left to below on the right.
fn turning_point(tangency: &Tangency, bend: &Quadratic, mut left: f64, mut right: f64) -> f64 {
    let middle = |left: f64, right: f64| {
        // A ray can span many decades.
        if left > 0.0 && right > 4.0 * left { (left * right).sqrt() } else { 0.5 * (left + right) }
    };
    let mut place = middle(left, right);
    let mut last = right - left;
    for _ in 0..200 {
        let slope = tangency.slope(place);
        if slope == 0.0 {
            return place;
        }
        if slope > 0.0 {
            left = place;
        } else {
            right = place;
        }
        let step = slope / value(bend, place);
        let next = place - step;
        // Newton's step where it stays inside and gains on the one before; else the middle.
        let next = if next > left && next < right && step.abs() < 0.5 * last { next } else { middle(left, right) };
        last = (next - place).abs();
        if last <= 1e-15 * place.abs() || next <= left || next >= right {
            return next;
        }
        place = next;
    }
    place
}

fn value(q: &Quadratic, s: f64) -> f64 {
    q[0] + (q[1] + q[2] * s) * s
}

fn rise(q: &Quadratic, s: f64) -> f64 {
    q[1] + 2.0 * q[2] * s
}

fn scaled(q: &Quadratic, by: f64) -> Quadratic {
    q.map(|c| c * by)
}

fn sum(p: &Quadratic, q: &Quadratic) -> Quadratic {
    std::array::from_fn(|k| p[k] + q[k])
}

/// Real roots of a quadratic.
pub(super) fn roots(&[constant, linear, square]: &Quadratic) -> [Option<f64>; 2] {
    let discriminant = linear * linear - 4.0 * square * constant;
    if discriminant < 0.0 || discriminant.is_nan() {
        return [None, None];
    }
    // The root without cancellation first, the other from the product.
    let sum = -0.5 * (linear + discriminant.sqrt().copysign(linear));
    let finite = |root: f64| root.is_finite().then_some(root);
    [finite(sum / square), finite(constant / sum)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::ImpedanceRegion;

    fn c(re: f64, im: f64) -> Complex64 {
        Complex64::new(re, im)
    }

    const LEVEL: f64 = 1.7;

    fn chain() -> [[Complex64; 2]; 2] {
        [[c(0.8, 0.3), c(2.0, -1.0)], [c(0.1, 0.4), c(0.6, -0.2)]]
    }

    fn pieces() -> (Vec<Piece>, Vec<Piece>) {
        let region = |low, high| ImpedanceRegion::new(0.5, 7.0, low, high).unwrap().boundary().collect();
        (region(-70.0, 90.0), region(-35.0, 50.0))
    }

    /// The discriminant from three values of `Q` on the line or circle.
    fn directly(source: Complex64, load: &Piece) -> f64 {
        let [[a, b], [c1, d]] = chain();
        let (m1, m2) = (a + c1 * source, b + d * source);
        let q = |z: Complex64| (source + z).norm_sqr() - LEVEL * (m1 * z + m2).norm_sqr();
        match *load {
            Piece::Ray { direction, .. } => {
                let (at_0, above, below) = (q(c(0.0, 0.0)), q(direction), q(-direction));
                let (square, half) = (0.5 * (above + below) - at_0, 0.25 * (above - below));
                half * half - square * at_0
            }
            Piece::Arc { size, .. } => {
                let (right, up, left) = (q(c(size, 0.0)), q(c(0.0, size)), q(c(-size, 0.0)));
                let mean = 0.5 * (right + left);
                let swing = c(0.25 * (right - left), 0.5 * (mean - up));
                4.0 * swing.norm_sqr() - mean * mean
            }
        }
    }

    #[test]
    fn the_quartic_is_the_discriminant() {
        let (sources, loads) = pieces();
        for piece in &sources {
            let along = Along::new(chain(), piece);
            let (low, high) = piece.range();
            for load in &loads {
                let tangency = along.tangency(load, LEVEL);
                for k in 0..=10 {
                    let s = low + (high - low) * f64::from(k) / 10.0;
                    let exact = directly(piece.point(s), load) * value(&along.one, s).powi(2);
                    let found = tangency.at(s);
                    assert!(
                        (found - exact).abs() < 1e-11 * exact.abs().max(100.0),
                        "{piece:?} {load:?}: {found} {exact}"
                    );
                    // Of a quartic a central difference of fourth order is exact.
                    let by_steps = |of: &dyn Fn(f64) -> f64| {
                        let h = 0.05;
                        (8.0 * (of(s + h) - of(s - h)) - (of(s + 2.0 * h) - of(s - 2.0 * h))) / (12.0 * h)
                    };
                    let (slope, bend) = (tangency.slope(s), value(&tangency.bend(), s));
                    assert!((slope - by_steps(&|s| tangency.at(s))).abs() < 1e-8 * slope.abs().max(100.0));
                    assert!((bend - by_steps(&|s| tangency.slope(s))).abs() < 1e-8 * bend.abs().max(100.0));
                }
            }
        }
    }

    #[test]
    fn every_stretch_inside_has_a_place_looked_at() {
        let (sources, loads) = pieces();
        let mut stretches = 0;
        for piece in &sources {
            let along = Along::new(chain(), piece);
            let (low, high) = piece.range();
            for load in &loads {
                for level in [0.3, 0.8, LEVEL, 4.0] {
                    let tangency = along.tangency(load, level);
                    let peaks: Vec<f64> = along.peaks(&tangency).unwrap().iter().collect();
                    let places: Vec<f64> = (0..=4000).map(|k| low + (high - low) * f64::from(k) / 4000.0).collect();
                    let signs: Vec<bool> = places.iter().map(|&s| tangency.at(s) > 0.0).collect();
                    let mut start = 0;
                    while start < signs.len() {
                        let end = (start..signs.len()).find(|&k| signs[k] != signs[start]).unwrap_or(signs.len());
                        if signs[start] && start > 0 && end < signs.len() {
                            stretches += 1;
                            let (from, to) = (places[start - 1], places[end]);
                            assert!(peaks.iter().any(|&peak| peak > from && peak < to), "{piece:?} {load:?} {level}");
                        }
                        start = end;
                    }
                }
            }
        }
        assert!(stretches > 3, "{stretches}");
    }
}
