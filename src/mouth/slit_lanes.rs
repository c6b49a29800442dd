//! The modes of a slit at many frequencies, a register at a time: the twin of [`super::slit`].

use std::f64::consts::PI;

use super::chain_lanes::ChainLanes;
use super::slit::{
    AGREEMENT, BLEND_FROM, BLEND_TO, KRONROD_21, LONGEST, MOST_PANELS, NODES, RADIATED_BELOW, SLIT_LOG, Slit, radiated,
};
use crate::lanes::{Complex, Real, Simd};
use crate::numeric::blend::smooth_step_lanes;
use crate::numeric::sine_integral_lanes::si_cin_lanes;

/// What lies between the mouths, at the frequencies of a register. A trait and not a closure, because it
/// must be inlined into code for the instruction set at hand.
pub(crate) trait BetweenMouths<S: Simd> {
    /// For a wavenumber along the slit.
    fn chain(&self, beta: Real<S>) -> ChainLanes<S>;
}

/// Terms of the series below that stand for the radiated power.
const TERMS: usize = 16;

/// A slit prepared for evaluation in lanes.
#[derive(Debug, Clone)]
pub(crate) struct SlitLanes {
    slit: Slit,
    /// Of the modes that a short slit shows: radiated power over (kl)³/2π, even modes over (kl)⁵/18π, as a
    /// Chebyshev series in (kl/3)².
    radiated: Vec<[f64; TERMS]>,
}

impl SlitLanes {
    pub(crate) fn new(slit: &Slit) -> Self {
        let last = last_mode(RADIATED_BELOW / PI).ceil() as usize;
        Self { slit: *slit, radiated: (1..=last).map(radiated_series).collect() }
    }

    /// jωμ₀ times the radiation admittance of a mode, referred to the section of the slit, by k.
    #[inline(always)]
    fn mouth<S: Simd>(&self, mode: usize, k: Real<S>) -> Complex<S> {
        let slenderness = if mode == 1 { self.slit.lowest_slenderness } else { self.slit.slenderness };
        let kl = (k * self.slit.length_m).smaller(k.constant(LONGEST));
        let b = mode as f64 * PI;
        let (sum, gap) = (kl + b, kl - b);
        let apart = gap.abs();
        let ((sin_sum, cos_sum), (sin_apart, cos_apart)) = (sum.sin_cos(), apart.sin_cos());
        let (si_sum, cin_sum) = si_cin_lanes(sum, sin_sum, cos_sum);
        let (si_apart, cin_gap) = si_cin_lanes(apart, sin_apart, cos_apart);
        let si_gap = si_apart.copysign(gap);
        let (squares, product) = (kl.mul_add(kl, b * b), -(sum * gap));
        // E = (E(k+β) + E(k−β))/2 with E(q) = sin q/q − j (1 − cos q)/q
        let over_sum = 1.0 / sum;
        let touching = apart.equal(0.0);
        let over_apart = 1.0 / touching.select(1.0, apart);
        let even = (sin_sum * over_sum + touching.select(1.0, sin_apart * over_apart)) * 0.5;
        let slope = squares * (0.5 / b);
        let level = (cin_sum + cin_gap).neg_mul_add(0.5, k.constant(slenderness)) - even;
        let re = product * level - slope * (si_sum - si_gap);
        let short = kl.less(RADIATED_BELOW);
        let im = if short.all() {
            self.radiated(mode, kl)
        } else {
            let versine = (sin_half_squared(sum) * over_sum + sin_half_squared(gap) * over_apart.copysign(gap)) * 2.0;
            let im = product * ((si_sum + si_gap) * -0.5 + versine * 0.5) - slope * (cin_gap - cin_sum);
            if short.any() { short.select(self.radiated(mode, kl), im) } else { im }
        };
        let unit = self.slit.gap_m / (PI * self.slit.length_m * self.slit.length_m);
        Complex::new(re * unit, im * unit)
    }

    /// 2π times the radiated power of a short slit.
    #[inline(always)]
    fn radiated<S: Simd>(&self, mode: usize, kl: Real<S>) -> Real<S> {
        // Modes beyond the list are asked for by the longer lanes of a register only.
        let Some(series) = self.radiated.get(mode - 1) else { return kl.constant(f64::NAN) };
        let t = (kl * (1.0 / RADIATED_BELOW)) * (kl * (1.0 / RADIATED_BELOW));
        let twice = t.mul_add(4.0, -2.0);
        let (mut near, mut far) = (kl.constant(0.0), kl.constant(0.0));
        let mut term = TERMS - 1;
        while term > 0 {
            (near, far) = (twice.mul_add(near, kl.constant(series[term]) - far), near);
            term -= 1;
        }
        let sum = (twice * 0.5).mul_add(near, kl.constant(series[0]) - far);
        let scale = if mode.is_multiple_of(2) { kl * kl * kl * t } else { kl * kl * kl };
        sum * scale
    }

    /// ln of the lowest mode's transmission.
    #[inline(always)]
    pub(crate) fn ln_first<S: Simd>(&self, k: Real<S>, between: &impl BetweenMouths<S>) -> Real<S> {
        self.ln_mode(1, k, between, k.constant(1.0))
    }

    #[inline(always)]
    fn ln_mode<S: Simd>(&self, mode: usize, k: Real<S>, between: &impl BetweenMouths<S>, share: Real<S>) -> Real<S> {
        let (mouth, chain) = (self.mouth(mode, k), between.chain(k.constant(self.slit.beta(mode))));
        chain.ln_transmission(chain.response(mouth), mouth, share)
    }

    /// ln Σ T over the modes from `first` on; `open` is room for the panels of the integral.
    #[inline(always)]
    pub(crate) fn ln_modes<S: Simd>(
        &self,
        first: usize,
        k: Real<S>,
        between: &impl BetweenMouths<S>,
        open: &mut Vec<(f64, f64)>,
    ) -> Real<S> {
        let half_waves = k * (self.slit.length_m / PI);
        let endless = smooth_step_lanes((half_waves * (1.0 / BLEND_FROM)).ln() * (1.0 / (BLEND_TO / BLEND_FROM).ln()));
        let mut sum = LnSumLanes::new(k);
        if endless.less(1.0).any() {
            let last = endless.less(1.0).select(half_waves.mul_add(1.5, 6.0), 0.0);
            let mut mode = first;
            while last.greater(mode as f64).any() {
                let share = (1.0 - endless) * smooth_step_lanes(last - mode as f64);
                let ln = self.ln_mode(mode, k, between, share);
                sum.add(share.greater(0.0).select(ln, f64::NEG_INFINITY));
                mode += 1;
            }
        }
        if endless.greater(0.0).any() {
            let size = (self.slit.length_m, self.slit.gap_m);
            let ln = ln_endless_modes(size, first as f64 - 0.5, k, between, open) + endless.ln();
            sum.add(endless.greater(0.0).select(ln, f64::NEG_INFINITY));
        }
        sum.ln()
    }
}

/// The last mode of a slit of so many half-waves, as [`Slit::ln_modes`] has it.
fn last_mode(half_waves: f64) -> f64 {
    1.5 * half_waves + 6.0
}

#[inline(always)]
fn sin_half_squared<S: Simd>(x: Real<S>) -> Real<S> {
    let (sine, _) = (x * 0.5).sin_cos();
    sine * sine
}

/// See [`SlitLanes::radiated`]: by interpolation at the roots of the next polynomial.
fn radiated_series(mode: usize) -> [f64; TERMS] {
    let n = TERMS as f64;
    let values: [f64; TERMS] = std::array::from_fn(|i| {
        let t = 0.5 + 0.5 * (PI * (i as f64 + 0.5) / n).cos();
        let kl = RADIATED_BELOW * t.sqrt();
        let scale = if mode.is_multiple_of(2) { kl * kl * kl * t } else { kl * kl * kl };
        2.0 * PI * radiated(mode, kl) / scale
    });
    std::array::from_fn(|term| {
        let angle = |i: usize| (PI * term as f64 * (i as f64 + 0.5) / n).cos();
        let sum: f64 = values.iter().enumerate().map(|(i, value)| value * angle(i)).sum();
        sum * if term == 0 { 1.0 / n } else { 2.0 / n }
    })
}

/// The sum over the travelling modes of a slit much longer than the wavelength.
#[inline(always)]
pub(crate) fn ln_endless_modes<S: Simd>(
    (length_m, gap_m): (f64, f64),
    from_mode: f64,
    k: Real<S>,
    between: &impl BetweenMouths<S>,
    open: &mut Vec<(f64, f64)>,
) -> Real<S> {
    let half_waves = k * (length_m / PI);
    // asin, by the tangent of the angle
    let sine = (from_mode / half_waves).smaller(k.constant(1.0));
    let start = if from_mode > 0.0 { sine.atan2(((1.0 - sine) * (sine + 1.0)).sqrt()) } else { k.constant(0.0) };
    let width = PI / 2.0 - start;
    let slit = EndlessSlit { gap_m, k, start, width };
    open.clear();
    let whole = slit.panel(0.0, 1.0, between);
    let ln_estimate = whole.ln;
    let mut sum = LnSumLanes::new(k);
    take(&mut sum, open, (0.0, 1.0), whole, ln_estimate);
    let mut next = 0;
    while next < open.len() {
        let (from, to) = open[next];
        next += 1;
        let panel = slit.panel(from, to, between);
        take(&mut sum, open, (from, to), panel, ln_estimate);
    }
    sum.ln() + (width * half_waves).ln()
}

/// Adds a panel that all lanes agree on, or opens its halves.
#[inline(always)]
fn take<S: Simd>(
    sum: &mut LnSumLanes<S>,
    open: &mut Vec<(f64, f64)>,
    (from, to): (f64, f64),
    panel: PanelLanes<S>,
    ln_estimate: Real<S>,
) {
    let apart = panel.apart * (panel.ln - ln_estimate).exp();
    // Written so that a lane without a number, which is left to the scalar twin, asks for nothing.
    let disagreed = apart.greater(AGREEMENT).any() || panel.turn.less(0.0).any();
    if disagreed && open.len() + 1 < MOST_PANELS {
        let middle = 0.5 * (from + to);
        open.extend([(from, middle), (middle, to)]);
    } else {
        sum.add(panel.ln);
    }
}

/// Places on the angle's range where the 10-point rule of Gauss looks, and what it needs there, for
/// [`ln_shunted_modes`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct GaussAngle {
    /// cos²θ and its logarithm.
    cosine_squared: f64,
    ln_cosine_squared: f64,
    /// Weight times cos⁵θ.
    weight: f64,
}

/// How many there are.
pub(crate) const GAUSS_ANGLES: usize = NODES / 2;

/// The 10-point rule over θ = 0 … π/2, in shares of that range.
pub(crate) fn gauss_angles() -> [GaussAngle; GAUSS_ANGLES] {
    std::array::from_fn(|place| {
        // Every other node of Kronrod's rule is one of Gauss's.
        let node = KRONROD_21[2 * place + 1];
        let cosine = (PI / 2.0 * node.place).cos();
        GaussAngle {
            cosine_squared: cosine * cosine,
            ln_cosine_squared: 2.0 * cosine.ln(),
            weight: (node.weight - node.excess) * cosine.powi(5),
        }
    })
}

/// Below this share of the shunt the mouths of an endless slit take so little that ten nodes are enough: to
/// 4·10⁻¹³, by comparison with panels that crowd towards grazing.
const LITTLE: f64 = 1e-3;
/// (k g e^γ/8)² below which the logarithm of the mouth is expanded.
const NARROW: f64 = 2.5e-3;

/// [`ln_endless_modes`] of all modes with nothing but a shunt between the mouths, by `ratio` = k² g over that
/// shunt; NaN in lanes where mouths or gap are not small.
///
/// With y = jωμ₀ Y and s the shunt, T = |2 Im y/(s + 2y)|² and y = (k² g/2) c² (j − ln(1 + 1/x)/π), c = cos θ and
/// x = (e^γ k g c/8)².
#[inline(always)]
pub(crate) fn ln_shunted_modes<S: Simd>(
    (length_m, gap_m): (f64, f64),
    k: Real<S>,
    ratio: Complex<S>,
    angles: &[GaussAngle; GAUSS_ANGLES],
) -> Real<S> {
    let reach = k * (SLIT_LOG * gap_m);
    let narrow = reach * reach;
    let applies = ratio.norm_sqr().less(LITTLE * LITTLE) & narrow.less(NARROW);
    let ln_narrow = narrow.ln();
    let mut sum = k.constant(0.0);
    for angle in angles {
        let x = narrow * angle.cosine_squared;
        // ln(1 + 1/x) = ln(1 + x) − ln x
        let grown = x.mul_add(0.2, -0.25).mul_add(x, 1.0 / 3.0).mul_add(x, -0.5).mul_add(x, 1.0) * x;
        let logarithm = (grown - ln_narrow - angle.ln_cosine_squared) * (1.0 / PI);
        // 2y/s = ratio c² (j − logarithm)
        let re = -logarithm.mul_add(ratio.re, ratio.im);
        let im = logarithm.neg_mul_add(ratio.im, ratio.re);
        let response = Complex::new(re * angle.cosine_squared + 1.0, im * angle.cosine_squared);
        sum = sum + k.constant(angle.weight) / response.norm_sqr();
    }
    let ln = (sum * k * (0.5 * length_m)).ln() + ratio.ln_norm_sqr();
    applies.select(ln, f64::NAN)
}

struct EndlessSlit<S: Simd> {
    gap_m: f64,
    k: Real<S>,
    start: Real<S>,
    width: Real<S>,
}

struct PanelLanes<S: Simd> {
    ln: Real<S>,
    /// What tells the error, over the integral.
    apart: Real<S>,
    /// Negative where the response turns by more than a quarter circle from node to node.
    turn: Real<S>,
}

impl<S: Simd> EndlessSlit<S> {
    #[inline(always)]
    fn panel(&self, from: f64, to: f64, between: &impl BetweenMouths<S>) -> PanelLanes<S> {
        let k = self.k;
        let mut lns = [k; NODES];
        let mut largest = k.constant(f64::NEG_INFINITY);
        let mut turn = k.constant(0.0);
        let mut before = None;
        for place in 0..NODES {
            let (sine, cosine) = self.width.mul_add(from + (to - from) * KRONROD_21[place].place, self.start).sin_cos();
            let chain = between.chain(k * sine);
            let mouth = endless_mouth(self.gap_m, k * cosine);
            let response = chain.response(mouth);
            lns[place] = chain.ln_transmission(response, mouth, cosine);
            largest = lns[place].larger(largest);
            if let Some(before) = before {
                turn = turn.smaller(response.re_mul_conj(before));
            }
            before = Some(response);
        }
        let zero = k.constant(0.0);
        let (mut kronrod, mut apart, mut even, mut odd) = (zero, zero, zero, zero);
        for place in 0..NODES {
            let (value, node) = ((lns[place] - largest).exp(), &KRONROD_21[place]);
            kronrod = value.mul_add(node.weight, kronrod);
            apart = value.mul_add(node.excess, apart);
            even = value.mul_add(node.even, even);
            odd = value.mul_add(node.odd, odd);
        }
        let apart = (apart.abs() + even.abs() + odd.abs()) / kronrod;
        PanelLanes { ln: largest + (kronrod * (to - from)).ln(), apart, turn }
    }
}

/// [`Slit::endless_mouth`]
#[inline(always)]
pub(super) fn endless_mouth<S: Simd>(gap_m: f64, transverse: Real<S>) -> Complex<S> {
    let reach = 1.0 / (transverse * (SLIT_LOG * gap_m));
    let scale = transverse * transverse * (0.5 * gap_m);
    Complex::new(scale * (reach * reach).ln_1p() * (-1.0 / PI), scale)
}

/// A sum of terms by their logarithms, lane by lane.
#[derive(Clone, Copy)]
pub(crate) struct LnSumLanes<S: Simd> {
    largest: Real<S>,
    scaled: Real<S>,
}

impl<S: Simd> LnSumLanes<S> {
    /// No terms; `like` gives the instruction set.
    #[inline(always)]
    pub(crate) fn new(like: Real<S>) -> Self {
        // Finite, so that two of them are not apart by NaN.
        Self { largest: like.constant(f64::MIN), scaled: like.constant(0.0) }
    }

    #[inline(always)]
    pub(crate) fn add(&mut self, ln_term: Real<S>) {
        let largest = self.largest.larger(ln_term);
        self.scaled = self.scaled.mul_add((self.largest - largest).exp(), (ln_term - largest).exp());
        self.largest = largest;
    }

    #[inline(always)]
    pub(crate) fn ln(self) -> Real<S> {
        self.largest + self.scaled.ln()
    }
}
