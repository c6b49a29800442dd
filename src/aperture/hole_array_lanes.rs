//! Cross-section of a hole array at many frequencies, a register at a time: the twin of
//! [`HoleArray::ln_lattice`], and of a single hole's cross-section.
//!
//! The depth of the wall is one line between two equal mouths, so that the chain's denominator falls into the
//! factors of its even and odd halves, with h = γt/2:
//!
//! C + 2AY + BY² = 2 (γ sinh h + Y cosh h)(cosh h + Y sinh h/γ),
//!
//! real arithmetic both below and above cutoff.

use std::f64::consts::PI;

use super::channel::{CLOSED, Channel, DEEPEST, OPEN, Rest};
use super::circular_hole::{CircularHole, ROUND_COUNTED};
use super::hole_array::HoleArray;
use super::neighbours::{Ring, SERIES};
use crate::constants::SPEED_OF_LIGHT;
use crate::lanes::{Complex, Kernel, Real, Simd, Window, in_parts, paired, sweep};

/// ln σ over a sweep, as far as both `frequency_hz` and `out` go.
pub(super) fn ln_cross_sections(array: &HoleArray, frequency_hz: &[f64], out: &mut [f64]) {
    let [x, y, e] = array.easing();
    let lanes = Lanes { rings: &array.neighbours().rings, easing: [x, y, e], ..Lanes::of(array.hole(), array.count()) };
    lanes.run(frequency_hz, out);
}

/// The same of a single hole.
pub(super) fn ln_hole_cross_sections(hole: &CircularHole, frequency_hz: &[f64], out: &mut [f64]) {
    Lanes::of(hole, 1).run(frequency_hz, out);
}

/// What does not depend on the frequency.
#[derive(Clone, Copy)]
struct Lanes<'a> {
    rings: &'a [Ring],
    easing: [f64; 3],
    magnetic: Channel,
    electric: Channel,
    rest: Rest,
    wall_m: f64,
    ln_count: f64,
}

impl<'a> Lanes<'a> {
    fn of(hole: &CircularHole, count: usize) -> Self {
        Self {
            rings: &[],
            easing: [0.0; 3],
            magnetic: hole.magnetic(),
            electric: hole.electric(),
            rest: hole.rest(),
            wall_m: hole.wall_thickness_m(),
            ln_count: (count as f64).ln(),
        }
    }

    fn run(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        in_parts(out, frequency_hz.len() * (self.rings.len() + 20), |start, out| {
            let frequency_hz = &frequency_hz[start..start + out.len()];
            sweep(out.len(), &mut Sweep { lanes: self, frequency_hz, out });
        });
    }
}

struct Sweep<'a> {
    lanes: &'a Lanes<'a>,
    frequency_hz: &'a [f64],
    out: &'a mut [f64],
}

impl Kernel for Sweep<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let lanes = self.lanes;
        let k = at.load(self.frequency_hz) * (2.0 * PI / SPEED_OF_LIGHT);
        let rest = rest(&lanes.rest, k, lanes.wall_m);
        let sum = if lanes.rings.is_empty() {
            let one = k.constant(1.0);
            let magnetic = transmission(&lanes.magnetic, k, lanes.wall_m, one, 0.0);
            let electric = transmission(&lanes.electric, k, lanes.wall_m, one, 0.0);
            Sum::of(magnetic + std::f64::consts::LN_2).and(electric).and(rest)
        } else {
            let gathering = gathering(lanes.rings, k);
            let [x, y, e] = lanes.easing;
            // Written out, since the closures of array methods are not inlined with certainty.
            let x = transmission(&lanes.magnetic, k, lanes.wall_m, gathering.x, x) - gathering.x.ln() * 2.0;
            let y = transmission(&lanes.magnetic, k, lanes.wall_m, gathering.y, y) - gathering.y.ln() * 2.0;
            let e = transmission(&lanes.electric, k, lanes.wall_m, gathering.e, e) - gathering.e.ln() * 2.0;
            let largest = x.larger(y).larger(e);
            let ax = ((x - largest) * 0.5).exp();
            let ay = ((y - largest) * 0.5).exp();
            let ae = ((e - largest) * 0.5).exp();
            let own = gathering.x * ax * ax + gathering.y * ay * ay + gathering.e * ae * ae;
            let modes = own - (ae * (gathering.xe * ax + gathering.ye * ay)) * 2.0;
            Sum::of(modes.ln() + largest).and(rest)
        };
        at.store(sum.ln() + (PI.ln() + lanes.ln_count) - k.ln() * 2.0, self.out);
    }
}

struct GatheringLanes<S: Simd> {
    x: Real<S>,
    y: Real<S>,
    e: Real<S>,
    xe: Real<S>,
    ye: Real<S>,
}

#[inline(always)]
fn gathering<S: Simd>(rings: &[Ring], k: Real<S>) -> GatheringLanes<S> {
    let (one, none) = (k.constant(1.0), k.constant(0.0));
    let mut sum = GatheringLanes { x: one, y: one, e: one, xe: none, ye: none };
    for &Ring { distance_m, weight, along } in rings {
        let x = k * distance_m;
        let square = x * x;
        let (sine, cosine) = x.sin_cos();
        let over = 1.0 / x;
        let j0 = sine * over;
        let mut ratio = (j0 - cosine) * (over * over);
        let small = x.less(1.0);
        if small.any() {
            let mut series = k.constant(SERIES[SERIES.len() - 1]);
            for &term in SERIES.iter().rev().skip(1) {
                series = series.mul_add(square, term);
            }
            ratio = small.select(series, ratio);
        }
        let (par, perp, mixed) = (ratio * 3.0, (j0 - ratio) * 1.5, (x * ratio) * 1.5);
        let (par, perp, mixed) = (par * par * weight, perp * perp * weight, mixed * mixed * weight);
        let across = 1.0 - along;
        sum.x = par.mul_add(along, perp.mul_add(across, sum.x));
        sum.y = par.mul_add(across, perp.mul_add(along, sum.y));
        sum.e = sum.e + perp;
        sum.xe = mixed.mul_add(across, sum.xe);
        sum.ye = mixed.mul_add(along, sum.ye);
    }
    sum
}

/// `x` within bounds.
#[inline(always)]
fn clamped<S: Simd>(x: Real<S>, low: f64, high: f64) -> Real<S> {
    x.larger(x.constant(low)).smaller(x.constant(high))
}

/// [`Channel::ln_transmission_among`].
#[inline(always)]
fn transmission<S: Simd>(channel: &Channel, k: Real<S>, wall_m: f64, gathering: Real<S>, easing: f64) -> Real<S> {
    let z = clamped(k * (1.0 / channel.cutoff_per_m), CLOSED, OPEN);
    let square = z * z;
    let (a, b) = channel.detuning;
    let detuned = a / (1.0 / square + z * b);
    let susceptance = channel.end_correction - detuned * channel.end_correction - easing;
    let u = square * channel.strength;
    let ln_u = u.ln();
    let fall = (-(ln_u.abs() * channel.rounding)).exp();
    let ln_conductance = ln_u.smaller(k.constant(0.0)) - fall.ln_1p() * (1.0 / channel.rounding);
    let conductance = z * ln_conductance.exp() * gathering;
    let ln_conductance = z.ln() + ln_conductance + gathering.ln();
    let (cosh, sinh_over, gamma_sinh, ln_scale) = half_depth(z, (wall_m * channel.cutoff_per_m).min(DEEPEST));
    let mouth = Complex::new(susceptance, conductance);
    let even = Complex::new(mouth.re.mul_add(cosh, gamma_sinh), mouth.im * cosh);
    let odd = Complex::new(mouth.re.mul_add(sinh_over, cosh), mouth.im * sinh_over);
    ln_conductance * 2.0 - even.ln_norm_sqr() - odd.ln_norm_sqr() - ln_scale * 4.0
}

/// cosh h, sinh(h)/γ and γ sinh h for h = γt/2, γ² = 1 − z², all without exp of `ln_scale`.
#[inline(always)]
fn half_depth<S: Simd>(z: Real<S>, depth: f64) -> (Real<S>, Real<S>, Real<S>, Real<S>) {
    let (one, none) = (z.constant(1.0), z.constant(0.0));
    if depth == 0.0 {
        return (one, none, none, none);
    }
    let square = (1.0 - z) * (z + 1.0);
    let root = square.abs().sqrt();
    let half = root * (0.5 * depth);
    let closed = z.less(1.0);
    // Below cutoff, over exp(h).
    let missing = (-(half * 2.0)).exp_m1();
    let (cosh, sinh) = (missing.mul_add(0.5, 1.0), -(missing * 0.5));
    let (sine, cosine) = half.sin_cos();
    let (cosh, sinh) = (closed.select(cosh, cosine), closed.select(sinh, sine));
    // At cutoff the quotient is the length itself.
    let at_cutoff = half.less(1e-150);
    let sinh_over = at_cutoff.select(0.5 * depth, sinh / at_cutoff.select(1.0, root));
    let gamma_sinh = closed.select(root * sinh, -(root * sinh));
    (cosh, sinh_over, gamma_sinh, closed.select(half, none))
}

/// [`Rest::ln_transmission`].
#[inline(always)]
fn rest<S: Simd>(rest: &Rest, k: Real<S>, wall_m: f64) -> Real<S> {
    let excess = (k * k).mul_add(rest.area_over_two_pi_m2, -ROUND_COUNTED);
    let root = excess.mul_add(excess, 1.0).sqrt();
    let above = excess.greater(0.0);
    let number = above.select((excess + root) * 0.5, 0.5 / (root - excess));
    let z = clamped(k * (1.0 / rest.cutoff_per_m), CLOSED, OPEN);
    let square = (1.0 - z) * (z + 1.0);
    let depth = square.abs().sqrt() * (wall_m * rest.cutoff_per_m).min(DEEPEST);
    let closed = z.less(1.0);
    let ln_cosh = depth + (-(depth * 2.0)).exp().ln_1p() - std::f64::consts::LN_2;
    let (_, cosine) = depth.sin_cos();
    let evanescent = closed.select(ln_cosh, cosine.abs().ln()) * 2.0;
    let barrier = evanescent - z.ln() * 10.0 + rest.onset.ln();
    number.ln() - barrier.larger(k.constant(0.0)) - (-barrier.abs()).exp().ln_1p()
}

/// A sum of numbers given by their logarithms.
struct Sum<S: Simd> {
    largest: Real<S>,
    scaled: Real<S>,
}

impl<S: Simd> Sum<S> {
    #[inline(always)]
    fn of(ln: Real<S>) -> Self {
        Self { largest: ln, scaled: ln.constant(1.0) }
    }

    #[inline(always)]
    fn and(self, ln: Real<S>) -> Self {
        let grows = ln.greater(self.largest);
        let fall = (-(ln - self.largest).abs()).exp();
        Self {
            largest: grows.select(ln, self.largest),
            scaled: grows.select(self.scaled.mul_add(fall, 1.0), self.scaled + fall),
        }
    }

    #[inline(always)]
    fn ln(self) -> Real<S> {
        self.largest + self.scaled.ln()
    }
}

#[cfg(test)]
mod tests {
    use super::super::hole_array::HoleInteraction;
    use super::super::hole_layout::HoleLayout;
    use super::*;
    use crate::leak::Leak;
    use crate::mouth::HolePattern;

    fn frequencies() -> Vec<f64> {
        (0..=700).map(|step| 10f64.powf(f64::from(step) * 0.02)).collect()
    }

    fn hold_together(leak: &dyn Leak, title: &str) {
        let frequency_hz = frequencies();
        let mut found = vec![0.0; frequency_hz.len()];
        leak.ln_cross_sections(&frequency_hz, &mut found);
        for (&f, &found) in frequency_hz.iter().zip(&found) {
            let expected = leak.ln_cross_section(f);
            // Where a deep wall is open, its phase of many turns has fewer digits in either twin.
            let turns = 1e-16 * f * 1e-9;
            let bound = 1e-12 * expected.abs().max(1.0) + turns;
            assert!((found - expected).abs() <= bound, "{title} at {f:e} Hz: {found:e}, {expected:e}");
        }
    }

    #[test]
    fn twins_hold_together() {
        for wall_m in [0.0, 1e-4, 2e-3, 0.05] {
            let hole = CircularHole::new(5e-3, wall_m).unwrap();
            hold_together(&hole, "hole");
            for layout in [
                HoleLayout::grid(HolePattern::Square, 8e-3, 1, 1).unwrap(),
                HoleLayout::grid(HolePattern::Square, 8e-3, 1, 7).unwrap(),
                HoleLayout::grid(HolePattern::Hexagonal, 6.5e-3, 9, 8).unwrap(),
                HoleLayout::random(30, 0.2, 0.1, 5).unwrap(),
                HoleLayout::places(vec![[0.0, 0.0], [6e-3, 0.0], [0.0, 1.0]]).unwrap(),
            ] {
                let title = format!("{layout:?} {wall_m}");
                hold_together(&HoleArray::new(hole.clone(), layout, HoleInteraction::Lattice).unwrap(), &title);
            }
        }
    }

    #[test]
    fn exactly_at_cutoff() {
        let hole = CircularHole::new(5e-3, 2e-3).unwrap();
        let f = hole.magnetic().cutoff_per_m * SPEED_OF_LIGHT / (2.0 * PI);
        let mut found = [0.0; 3];
        hole.ln_cross_sections(&[f; 3], &mut found);
        assert!((found[0] - hole.ln_cross_section(f)).abs() < 1e-12);
    }
}
