//! The worst insertion loss of a lumped chain over all passive terminations, at many frequencies, a
//! register at a time: the twin of [`TwoPort::ln_largest_insertion_gain`](super::TwoPort::ln_largest_insertion_gain).

use super::chain::CircuitChain;
use super::lumped_chain::LumpedChain;
use super::lumped_chain_lanes::ChainLanes;
use super::worst_termination::LOSES_MUCH;
use crate::lanes::{Complex, Kernel, Mask, Real, Simd, Window, in_parts, paired, sweep};

/// Beyond these, squares leave the range, and a lane is left to the scalar twin.
const LARGEST: f64 = 1e140;
const SMALLEST: f64 = 1e-140;

/// Newton's method doubles the digits each time and starts near; the scalar twin allows as many.
const STEPS: usize = 40;

/// After a relative step like this the root is right to its square, and the value, which is stationary
/// there, to its fourth power.
const LAST_STEP: f64 = 1e-4;

/// Natural logarithms of the largest |V2/V20| over a sweep, as far as both `frequency_hz` and `out` go.
pub(crate) fn ln_largest_insertion_gains(chain: &LumpedChain, frequency_hz: &[f64], out: &mut [f64]) {
    let (frequency_hz, out) = paired(frequency_hz, out);
    let columns = ChainLanes::new(chain);
    in_parts(out, frequency_hz.len() * (chain.len() + 4) / 2, |start, out| {
        let frequency_hz = &frequency_hz[start..start + out.len()];
        sweep(out.len(), &mut LargestGains { columns: &columns, frequency_hz, out });
        for (ln, &frequency_hz) in out.iter_mut().zip(frequency_hz).filter(|(ln, _)| ln.is_nan()) {
            *ln = chain.two_port(frequency_hz).ln_largest_insertion_gain();
        }
    });
}

/// The same for any chain.
pub(crate) fn ln_largest_chain_gains(chain: &CircuitChain<'_>, frequency_hz: &[f64], out: &mut [f64]) {
    let (frequency_hz, out) = paired(frequency_hz, out);
    in_parts(out, frequency_hz.len() * chain.work(), |start, out| {
        let frequency_hz = &frequency_hz[start..start + out.len()];
        let columns = ChainLanes::of(chain, frequency_hz);
        sweep(out.len(), &mut LargestGains { columns: &columns, frequency_hz, out });
        for (ln, &frequency_hz) in out.iter_mut().zip(frequency_hz).filter(|(ln, _)| ln.is_nan()) {
            *ln = chain.two_port(frequency_hz).ln_largest_insertion_gain();
        }
    });
}

struct LargestGains<'a> {
    columns: &'a ChainLanes,
    frequency_hz: &'a [f64],
    out: &'a mut [f64],
}

impl Kernel for LargestGains<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let omega = at.load(self.frequency_hz) * std::f64::consts::TAU;
        let excess = self.columns.excess(at, omega);
        at.store(ln_largest_gain(&excess, self.columns.is_reciprocal()), self.out);
    }
}

/// A chain matrix less the identity.
#[derive(Clone, Copy)]
pub(super) struct ExcessLanes<S: Simd> {
    pub(super) a: Complex<S>,
    pub(super) b: Complex<S>,
    pub(super) c: Complex<S>,
    pub(super) d: Complex<S>,
}

/// NaN where the scalar twin has to decide: no loss, a lone part, out of range.
#[inline(always)]
fn ln_largest_gain<S: Simd>(excess: &ExcessLanes<S>, is_reciprocal: bool) -> Real<S> {
    let one = excess.a.re.constant(1.0);
    let identity = Complex::new(one, excess.a.re.constant(0.0));
    let (a, b, c, d) = (excess.a + identity, excess.b, excess.c, excess.d + identity);
    let size = (b * c).norm_sqr();
    let much = size.greater(LOSES_MUCH * LOSES_MUCH);
    if much.any() && !is_reciprocal {
        return one * f64::NAN;
    }
    let ellipse = match (much.any(), much.all()) {
        (false, _) => by_power(&[a, b, c, d], excess.d - excess.a),
        (_, true) => by_impedances(a, c, d),
        _ => by_impedances(a, c, d).where_else(much, by_power(&[a, b, c, d], excess.d - excess.a)),
    };
    let half = one * 0.5;
    let (constant, square) = (ellipse.constant, ellipse.square);
    let (centre, across) = ((constant + square).scale(half), (constant - square).scale(half));
    let farthest = square_to_farthest_point(centre, across, ellipse.linear.scale(half));
    let over_depth = ellipse.over_depth;
    let ln = (farthest * (over_depth * over_depth)).ln() * 0.5;
    let sound = ellipse.least.greater(SMALLEST) & ellipse.most.less(LARGEST);
    let in_range = sound & size.less(LARGEST) & in_range(farthest) & in_range(over_depth);
    in_range.select(ln, f64::NAN)
}

/// The gain as the distance of a point of an ellipse from the origin, times `over_depth`.
struct Ellipse<S: Simd> {
    constant: Complex<S>,
    linear: Complex<S>,
    square: Complex<S>,
    over_depth: Real<S>,
    /// Of what has to be positive and in range.
    least: Real<S>,
    most: Real<S>,
}

impl<S: Simd> Ellipse<S> {
    #[inline(always)]
    fn where_else(self, mask: Mask<S>, other: Self) -> Self {
        let real = |one: Real<S>, other: Real<S>| mask.select(one, other);
        let both = |one: Complex<S>, other: Complex<S>| Complex::new(real(one.re, other.re), real(one.im, other.im));
        Self {
            constant: both(self.constant, other.constant),
            linear: both(self.linear, other.linear),
            square: both(self.square, other.square),
            over_depth: real(self.over_depth, other.over_depth),
            least: real(self.least, other.least),
            most: real(self.most, other.most),
        }
    }
}

/// By the power that the two-port takes, a quadratic in the source's reactance.
#[inline(always)]
fn by_power<S: Simd>(&[a, b, c, d]: &[Complex<S>; 4], skew: Complex<S>) -> Ellipse<S> {
    let turned_skew = skew.times_j();
    let q0 = b.re_mul_conj(a);
    let q1 = b.mul_conj(c).im - d.mul_conj(a).im;
    let q2 = d.re_mul_conj(c);
    // x = shift + width t, t = tan(phi/2); the determinant q0 q2 - q1^2/4 over q2^2 stays in range longest
    let over_q2 = 1.0 / q2;
    let skewed = q1 * over_q2 * 0.5;
    let square_of_width = skewed.neg_mul_add(skewed, q0 * over_q2);
    let (shift, width) = (skewed * -1.0, square_of_width.sqrt());
    let one = shift.constant(1.0);
    let constant = c.scale(shift).add_scaled(turned_skew, one).scale(shift) + b;
    let linear = turned_skew.add_scaled(c, shift * 2.0).scale(width);
    Ellipse {
        constant,
        linear,
        square: c.scale(square_of_width),
        // the gain is the distance over the least of q
        over_depth: 1.0 / (q2 * square_of_width),
        least: q0.smaller(q2).smaller(square_of_width),
        most: q0.larger(q2).larger(square_of_width),
    }
}

/// By the impedances of a reciprocal two-port, where products would cancel.
#[inline(always)]
fn by_impedances<S: Simd>(a: Complex<S>, c: Complex<S>, d: Complex<S>) -> Ellipse<S> {
    let over = c.recip();
    let (z11, z22, t) = (a * over, d * over, over * over);
    let half_t = t.norm_sqr().sqrt() * 0.5;
    let rest = z11.re * z22.re - t.re * 0.5;
    let (less, more) = (rest - half_t, rest + half_t);
    let depth = less * more;
    let over_r22 = 1.0 / z22.re;
    let (shift, width) = (t.im * over_r22 * 0.5, depth.sqrt() * over_r22);
    let behind = Complex::new(z22.re, z22.im + z11.im - shift);
    let before = Complex::new(z11.re, shift);
    // Where most of the product is reactance, its real part is rounding: told by the smallest share.
    let share = (z11.re * z11.re / z11.norm_sqr()).smaller(z22.re * z22.re / z22.norm_sqr());
    let sound = share.greater(LEAST_SHARE);
    Ellipse {
        constant: before * behind - t,
        linear: (behind - before).times_j().scale(width),
        square: Complex::new(width * width, width.constant(0.0)),
        over_depth: z22.re * over.norm_sqr().sqrt() / depth,
        least: sound.select(less.smaller(z11.re).smaller(z22.re).smaller(depth), 0.0),
        most: more.larger(z11.re).larger(z22.re).larger(depth),
    }
}

/// Resistance over impedance, squared, below which the scalar twin looks whether admittances do better.
const LEAST_SHARE: f64 = 1e-10;

#[inline(always)]
fn in_range<S: Simd>(value: Real<S>) -> Mask<S> {
    value.greater(SMALLEST) & value.less(LARGEST)
}

/// Square of what [`super::worst_termination::farthest_point`] gives.
#[inline(always)]
fn square_to_farthest_point<S: Simd>(centre: Complex<S>, p: Complex<S>, q: Complex<S>) -> Real<S> {
    let zero = centre.re.constant(0.0);
    // Semi-axes a and b: a^2 + b^2 = |p|^2 + |q|^2, and a^2 - b^2 is the size of p^2 + q^2, which lies along twice the
    // angle of the major axis.
    let axis = p * p + q * q;
    let gap = axis.norm_sqr().sqrt();
    let both = p.norm_sqr() + q.norm_sqr();
    let (a2, b2) = ((both + gap) * 0.5, ((both - gap) * 0.5).larger(zero));
    let size = centre.norm_sqr();
    let along = (centre * centre).re_mul_conj(axis) / gap;
    // a circle has every axis
    let round = gap.equal(0.0);
    let u2 = round.select(size, ((size + along) * 0.5).larger(zero));
    let v2 = round.select(zero, ((size - along) * 0.5).larger(zero));
    let (au2, bv2) = (a2 * u2, b2 * v2);
    // The first term of g alone, and both with the smaller divisor, put the root here or above.
    let mut n = au2.sqrt().larger((au2 + bv2).sqrt() - gap);
    for _ in 0..STEPS {
        let beyond = n + gap;
        let over_both = 1.0 / (n * beyond);
        let (over, over_beyond) = (over_both * beyond, over_both * n);
        let (first, second) = (au2 * over * over, bv2 * over_beyond * over_beyond);
        let value = first + second;
        let slope = first.mul_add(over, second * over_beyond);
        let step = (value.sqrt() - 1.0) * value / slope;
        let goes_on = step.greater(n * LAST_STEP);
        // no step where nothing is left of the terms: 0/0
        n = n + step.greater(0.0).select(step, 0.0);
        if !goes_on.any() {
            break;
        }
    }
    // zero where the centre lies across the major axis, near enough
    let n = n.larger(gap * 1e-30);
    let beyond = n + gap;
    let over_both = 1.0 / (n * beyond);
    let n_term = au2.greater(0.0).select(au2 * over_both * beyond, 0.0);
    let across = v2.greater(0.0).select(v2 * (a2 + n) * over_both * n, 0.0);
    a2 + u2 + n + n_term + across
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::lumped_chain::Immittance;
    use crate::circuit::worst_termination::magnification;

    /// Lossy parts, alternately in the line and across it.
    fn chain(count: usize, loss_tangent: f64) -> LumpedChain {
        let mut chain = LumpedChain::default();
        for place in 0..count {
            let scale = 1.0 + 0.3 * place as f64;
            if place % 2 == 0 {
                chain.push(true, &Immittance::coil(0.02, 30e-6 * scale, 1e-9, 5e-12));
            } else {
                chain.push(false, &Immittance::capacitor(0.5e-6 * scale, loss_tangent, 5e-3, 8e-9));
            }
        }
        chain
    }

    #[test]
    fn twins_hold_together() {
        let frequency_hz: Vec<f64> = (0..=400).map(|i| 10f64.powf(f64::from(i) * 0.025)).collect();
        let mut found = vec![0.0; frequency_hz.len()];
        let mut chains: Vec<LumpedChain> = (0..=9).map(|count| chain(count, 1e-3)).collect();
        chains.push(chain(5, 0.0));
        let mut lossless = LumpedChain::default();
        lossless.push(true, &Immittance::coil(0.0, 1e-6, 0.0, 0.0));
        lossless.push(false, &Immittance::capacitor(1e-9, 0.0, 0.0, 0.0));
        chains.push(lossless);
        for chain in chains {
            ln_largest_insertion_gains(&chain, &frequency_hz, &mut found);
            for (&f, &found) in frequency_hz.iter().zip(&found) {
                let expected = chain.two_port(f).ln_largest_insertion_gain();
                let bound = 1e-12 * expected.abs().max(1.0) + 2e-15 * magnification(&chain.two_port(f));
                let near = found == expected || (found - expected).abs() <= bound;
                assert!(near, "{} parts at {f:e} Hz: {found:e}, {expected:e}, {bound:e}", chain.len());
            }
        }
    }
}
