//! The mouth of a narrow slit: what its modes radiate into a half-space.
//!
//! A slit of length l and gap g ≪ l, λ carries a voltage sin(mπx/l) between its faces, zero at both
//! ends. By Babinet's principle it radiates as the flat wire that would fill it, of equivalent radius
//! g/4, so that its admittance is the self-impedance of that wire by the induced-EMF method, written
//! for any frequency and any m. With β = mπ/l, q± = k ± β and Cin, Si the cosine and sine integrals,
//!
//! 2π jωμ₀ Y = (β² − k²)(l (S₊ + S₋)/2 − E) − (β² + k²)(S₋ − S₊)/(2jβ),
//! S(q) = ln(2l/ρ) − Cin(|q| l) − j Si(q l),   E = ∫₀ˡ cos βx exp(−jkx) dx,   ρ = g/4.
//!
//! At k = β = π/l this is the half-wave dipole: Y = 2 (73.1 + j42.5) Ω/η₀² for one half-space.
//!
//! Sources: H. G. Booker, "Slot aerials and their relation to complementary wire aerials", J. IEE 93
//! (1946) IIIA 620; C. A. Balanis, *Antenna Theory*, 3rd ed., 2005, sec. 8.5 (both from memory); the
//! form above is derived here, and checked against the integral that it stands for.
//!
//! Along a slit without ends the same voltage exp(−jβx) meets, per length,
//! Y = (k_t²/2ωμ₀)(1 − (2j/π) ln(e^γ k_t g/8)), k_t² = k² − β² (N. Marcuvitz, *Waveguide Handbook*,
//! 1951, sec. 4.16, from memory).

use std::f64::consts::PI;

use num_complex::Complex64;

use super::chain::Chain;
use super::polarizability::unit_rectangle;
use crate::constants::wavelength_m;
use crate::decibel::LnSum;
use crate::numeric::blend::smooth_step;
use crate::numeric::sine_integral::{EULER_GAMMA, si_cin};
use crate::validity::Validity;

/// exp(Euler's constant)/8: the argument of the logarithm in units of k_t g.
pub(super) const SLIT_LOG: f64 = 1.781_072_417_990_198 / 8.0;

/// Bays longer than this many half-waves start to be treated as a slit without ends …
pub(super) const BLEND_FROM: f64 = 16.0;
/// … and beyond this many, they are.
pub(super) const BLEND_TO: f64 = 32.0;

/// Abscissas and weights of the 12-point Gauss-Legendre rule on (0, 1), lower half.
const GAUSS_12: [(f64, f64); 6] = [
    (0.009_219_682_876_640_375, 0.023_587_668_193_255_914),
    (0.047_941_371_814_762_57, 0.053_469_662_997_659_22),
    (0.115_048_662_902_847_65, 0.080_039_164_271_673_11),
    (0.206_341_022_856_691_27, 0.101_583_713_361_532_96),
    (0.316_084_250_500_909_94, 0.116_746_268_269_177_4),
    (0.437_383_295_744_265_54, 0.124_573_522_906_701_39),
];

/// Places and weights of that rule over (0, 1).
pub(crate) fn gauss_12() -> impl Iterator<Item = (f64, f64)> {
    GAUSS_12.into_iter().flat_map(|(x, weight)| [(x, weight), (1.0 - x, weight)])
}

/// The 12-point rule over (0, 1).
fn gauss(mut term: impl FnMut(f64) -> f64) -> f64 {
    GAUSS_12.iter().map(|&(x, weight)| weight * (term(x) + term(1.0 - x))).sum()
}

/// A slit that is shorted at both ends, as its mouths see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slit {
    pub(super) length_m: f64,
    pub(super) gap_m: f64,
    /// ln(2l/ρ) of the lowest mode, close to that of the others.
    pub(super) lowest_slenderness: f64,
    /// ln(2l/ρ) = ln(8l/g).
    pub(super) slenderness: f64,
}

impl Slit {
    /// A slit by its length and gap, m.
    ///
    /// The sinusoid of the lowest mode is a few percent short of the static field, so its ln(2l/ρ) is
    /// chosen such that the magnetic polarizability along the slit is that of the rectangle.
    pub(crate) fn new(length_m: f64, gap_m: f64) -> Self {
        let unit_polarizability = unit_rectangle(gap_m / length_m).magnetic_along_m3;
        Self::with_unit_polarizability(length_m, gap_m, unit_polarizability)
    }

    /// An opening of any shape and a field like that of mode 1 over a length, by its magnetic polarizability
    /// along that length, over the length's cube.
    pub(crate) fn with_unit_polarizability(length_m: f64, gap_m: f64, unit_polarizability: f64) -> Self {
        // Of mode 1 at k → 0: 2π l jωμ₀ Y = π² (ln(2l/ρ) − Cin π) − π Si π, and that is 4l³/(π α).
        let (si, cin) = si_cin(PI);
        let lowest_slenderness = 4.0 / (PI.powi(3) * unit_polarizability) + si / PI + cin;
        Self { length_m, gap_m, lowest_slenderness, slenderness: 8f64.ln() + length_m.ln() - gap_m.ln() }
    }

    /// A slot of any width as its mode m alone sees it: of a long strip the static field of a voltage sin βx is that of
    /// K₀(βg/4), which for wide ones I₀K₀ keeps positive; here asinh(exp(−γ)/(βg/4)), within 8 % of that up to square ones.
    pub(crate) fn of_mode(mode: usize, length_m: f64, gap_m: f64) -> Self {
        let half_waves = mode as f64 * PI;
        let reach = (-EULER_GAMMA).exp() / (0.25 * half_waves * gap_m / length_m);
        let slenderness = si_cin(half_waves).1 + reach.asinh();
        Self { length_m, gap_m, lowest_slenderness: slenderness, slenderness }
    }

    /// jωμ₀ times the radiation admittance of mode m for the voltage across the slit, no unit.
    pub(crate) fn voltage_admittance(&self, mode: usize, wavenumber_per_m: f64) -> Complex64 {
        self.mouth(mode, wavenumber_per_m) * (self.length_m / (2.0 * self.gap_m))
    }

    /// Wavenumber of mode m along the slit, rad/m.
    pub(crate) fn beta(&self, mode: usize) -> f64 {
        mode as f64 * PI / self.length_m
    }

    /// jωμ₀ times the radiation admittance of mode m, referred to the section of the slit, 1/m.
    pub(crate) fn mouth(&self, mode: usize, wavenumber_per_m: f64) -> Complex64 {
        let slenderness = if mode == 1 { self.lowest_slenderness } else { self.slenderness };
        let radiation = radiation(mode, (wavenumber_per_m * self.length_m).min(LONGEST), slenderness);
        radiation * (2.0 * self.gap_m / (self.length_m * self.length_m))
    }

    /// The same per length of a slit without ends, for a voltage exp(−jβx) with β < k.
    pub(crate) fn endless_mouth(gap_m: f64, transverse_per_m: f64) -> Complex64 {
        // The logarithm itself turns negative where the slit is no longer narrow; this does not.
        let logarithm = Self::static_logarithm(gap_m, transverse_per_m);
        0.5 * gap_m * transverse_per_m * transverse_per_m * Complex64::new(-2.0 / PI * logarithm, 1.0)
    }

    /// The logarithm K in the mouth β²gK/π of a voltage exp(−jβx) whose wavelength is short against that of the
    /// field around it: ln(8/(e^γ βg)), kept positive where the gap is wide.
    pub(crate) fn static_logarithm(gap_m: f64, beta_per_m: f64) -> f64 {
        let reach = 1.0 / (SLIT_LOG * beta_per_m * gap_m);
        0.5 * (reach * reach).ln_1p()
    }

    /// Half-waves that fit into the length, and the share with which the slit counts as endless then.
    pub(crate) fn endless_share(&self, wavenumber_per_m: f64) -> (f64, f64) {
        let half_waves = wavenumber_per_m * self.length_m / PI;
        (half_waves, smooth_step((half_waves / BLEND_FROM).ln() / (BLEND_TO / BLEND_FROM).ln()))
    }

    /// The part of [`Slit::ln_modes`] that goes mode by mode.
    pub(crate) fn ln_counted_modes(
        &self,
        first: usize,
        wavenumber_per_m: f64,
        chain: impl Fn(f64) -> Chain,
        weight: impl Fn(f64) -> f64,
    ) -> f64 {
        let (half_waves, endless) = self.endless_share(wavenumber_per_m);
        let mut sum = LnSum::default();
        if endless < 1.0 {
            // Modes far beyond cutoff fade; the last one is faded out, so that no step appears where
            // its number changes.
            let last = 1.5 * half_waves + 6.0;
            let mut mode = first;
            while (mode as f64) < last {
                let share = (1.0 - endless) * smooth_step(last - mode as f64) * weight(mode as f64);
                if share > 0.0 {
                    sum += share.ln() + chain(self.beta(mode)).ln_transmission(self.mouth(mode, wavenumber_per_m));
                }
                mode += 1;
            }
        }
        sum.ln()
    }

    /// ln Σ w(m) T over the modes from `first` on, where `chain` gives what lies between the mouths
    /// for a wavenumber along the slit, and `weight` a share from 0 to 1 for each mode.
    pub(crate) fn ln_modes(
        &self,
        first: usize,
        wavenumber_per_m: f64,
        chain: impl Fn(f64) -> Chain,
        weight: impl Fn(f64) -> f64,
    ) -> f64 {
        let (_, endless) = self.endless_share(wavenumber_per_m);
        let mut sum = LnSum::default() + self.ln_counted_modes(first, wavenumber_per_m, &chain, &weight);
        if endless > 0.0 {
            // Where a sum over m starts at `first`, its integral starts half a step earlier.
            let from = first as f64 - 0.5;
            sum +=
                endless.ln() + ln_endless_modes((self.length_m, self.gap_m), from, wavenumber_per_m, &chain, &weight);
        }
        sum.ln()
    }
}

/// What remains of the gain of an endless row where no more than `most` can be had: a power mean.
pub(crate) fn shortened(endless: f64, most: f64) -> f64 {
    endless * ln_shortened((most / endless).ln()).exp()
}

/// The same for an endless gain of one, by the logarithm of the most.
pub(crate) fn ln_shortened(ln_most: f64) -> f64 {
    let short = -SHARPNESS * ln_most;
    -(short.max(0.0) + (-short.abs()).exp().ln_1p()) / SHARPNESS
}

/// Exponent of the power mean.
pub(crate) const SHARPNESS: f64 = 1.8;

/// The model of a slit's mouth asks for a gap that is small against the wavelength.
pub(crate) fn narrow_gap(gap_m: f64, frequency_hz: f64) -> Validity {
    Validity::within(
        "slit",
        "gap / wavelength",
        "",
        gap_m / wavelength_m(frequency_hz),
        (0.0, 0.15),
        "the gap passes further modes, up to half of its area",
    )
}

/// The sum over the travelling modes of a slit much longer than the wavelength, as the integral
/// (l/π) ∫ w T dβ; `from_mode` and the argument of `weight` count half-waves along the slit.
pub(crate) fn ln_endless_modes(
    (length_m, gap_m): (f64, f64),
    from_mode: f64,
    wavenumber_per_m: f64,
    chain: impl Fn(f64) -> Chain,
    weight: impl Fn(f64) -> f64,
) -> f64 {
    // β = k sin θ, which crowds the nodes where T falls to zero; θ in shares of its range.
    let half_waves = wavenumber_per_m * length_m / PI;
    let start = (from_mode / half_waves).min(1.0).asin();
    let width = PI / 2.0 - start;
    let at = |share: f64| {
        let (sine, cosine) = (start + width * share).sin_cos();
        let chain = chain(wavenumber_per_m * sine);
        let mouth = Slit::endless_mouth(gap_m, wavenumber_per_m * cosine);
        ((cosine * weight(half_waves * sine)).ln() + chain.ln_transmission(mouth), chain.response(mouth))
    };
    let values = |from: f64, to: f64| KRONROD_21.map(|node| at(from + (to - from) * node.place));
    ln_of_panels(LN_AGREEMENT, values) + (width * half_waves).ln()
}

/// ln of an integral over 0 … 1 by `values` at the nodes of a panel, each with the response there.
///
/// Between good contacts a deep gap resonates sharply, each resonance at its own angle: panels are halved until the
/// rules agree, to a share of the first estimate of the whole, and no resonance hides between two nodes.
pub(super) fn ln_of_panels(ln_agreement: f64, values: impl Fn(f64, f64) -> [(f64, Complex64); NODES]) -> f64 {
    let panel = |(from, to)| Panel::new(from, to, &values(from, to));
    let mut open = vec![panel((0.0, 1.0))];
    let ln_estimate = open[0].ln;
    if ln_estimate == f64::NEG_INFINITY {
        return ln_estimate;
    }
    let (mut sum, mut next) = (LnSum::default(), 0);
    while next < open.len() {
        let Panel { from, to, ln, ln_apart, resolved } = open[next];
        next += 1;
        if resolved && ln_apart < ln_estimate + ln_agreement || open.len() >= MOST_PANELS {
            sum += ln;
        } else {
            let middle = 0.5 * (from + to);
            open.extend([(from, middle), (middle, to)].map(panel));
        }
    }
    sum.ln()
}

/// A panel counts as done where what tells its error falls below this share of the whole.
pub(super) const AGREEMENT: f64 = 1e-12;
const LN_AGREEMENT: f64 = -27.631_021_115_928_547;

/// So many panels are opened at most: for thousands of sharp resonances what was found so far is given.
pub(super) const MOST_PANELS: usize = 4000;

/// A panel of the integral over the angle by the 21-point rule of Kronrod, and how far it may be from the
/// truth: the distance to the 10-point rule of Gauss that it holds (R. Piessens et al., *QUADPACK*, 1983) and
/// two null rules. With a resonance on a panel that distance passes through zero for some places of the
/// resonance, and one panel in thousands would be taken for done that is not; the null rules, one even and
/// one odd about the middle, do not vanish at the same places (J. Berntsen, T. O. Espelid, "Error estimation
/// in automatic quadrature routines", ACM Trans. Math. Softw. 17 (1991) 233, from memory).
#[derive(Clone, Copy)]
struct Panel {
    from: f64,
    to: f64,
    ln: f64,
    ln_apart: f64,
    /// The response turns by less than a quarter circle from node to node.
    resolved: bool,
}

impl Panel {
    fn new(from: f64, to: f64, values: &[(f64, Complex64); NODES]) -> Self {
        let largest = values.iter().fold(f64::NEG_INFINITY, |largest, value| largest.max(value.0));
        if largest == f64::NEG_INFINITY {
            return Self { from, to, ln: largest, ln_apart: largest, resolved: true };
        }
        let (mut kronrod, mut apart, mut even, mut odd) = (0.0, 0.0, 0.0, 0.0);
        for ((ln, _), node) in values.iter().zip(KRONROD_21) {
            let value = (ln - largest).exp();
            kronrod += node.weight * value;
            apart += node.excess * value;
            even += node.even * value;
            odd += node.odd * value;
        }
        let apart = f64::abs(apart) + f64::abs(even) + f64::abs(odd);
        let resolved = values.windows(2).all(|pair| {
            let (one, other) = (pair[0].1, pair[1].1);
            one.re * other.re + one.im * other.im >= 0.0
        });
        let ln = |share: f64| largest + (share * (to - from)).ln();
        Self { from, to, ln: ln(kronrod), ln_apart: ln(apart), resolved }
    }
}

/// Nodes of the better rule.
pub(super) const NODES: usize = 21;

/// One node of a panel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// Place on (0, 1).
    pub place: f64,
    /// Weight in Kronrod's rule.
    pub weight: f64,
    /// By how much that exceeds the weight in Gauss's.
    pub excess: f64,
    /// Weights of the null rules that no polynomial up to degree 19 and 18 shows in, of the size of `excess`.
    pub even: f64,
    pub odd: f64,
}

/// The nodes of a panel.
pub(super) const KRONROD_21: [Node; NODES] = {
    let mut rule = [Node { place: 0.0, weight: 0.0, excess: 0.0, even: 0.0, odd: 0.0 }; NODES];
    let mut i = 0;
    while i < KRONROD_HALF.len() {
        let (x, kronrod, gauss) = KRONROD_HALF[i];
        let node = Node { place: 0.0, weight: 0.5 * kronrod, excess: 0.5 * (kronrod - gauss), even: 0.0, odd: 0.0 };
        rule[i] = Node { place: 0.5 - 0.5 * x, ..node };
        rule[NODES - 1 - i] = Node { place: 0.5 + 0.5 * x, ..node };
        i += 1;
    }
    // The highest divided difference, and that of the values times their places.
    let (mut sizes, mut i) = ([0.0, 0.0, 0.0], 0);
    while i < NODES {
        let (x, mut product, mut j) = (2.0 * rule[i].place - 1.0, 1.0, 0);
        while j < NODES {
            if j != i {
                product *= x + 1.0 - 2.0 * rule[j].place;
            }
            j += 1;
        }
        (rule[i].even, rule[i].odd) = (1.0 / product, x / product);
        sizes[0] += rule[i].excess.abs();
        sizes[1] += rule[i].even.abs();
        sizes[2] += rule[i].odd.abs();
        i += 1;
    }
    i = 0;
    while i < NODES {
        rule[i].even *= sizes[0] / sizes[1];
        rule[i].odd *= sizes[0] / sizes[2];
        i += 1;
    }
    rule
};

/// Abscissas on (−1, 1) and weights of both rules, outer half.
const KRONROD_HALF: [(f64, f64, f64); 11] = [
    (0.995_657_163_025_808_1, 0.011_694_638_867_371_874, 0.0),
    (0.973_906_528_517_171_7, 0.032_558_162_307_964_725, 0.066_671_344_308_688_14),
    (0.930_157_491_355_708_2, 0.054_755_896_574_351_995, 0.0),
    (0.865_063_366_688_984_5, 0.075_039_674_810_919_96, 0.149_451_349_150_580_6),
    (0.780_817_726_586_416_9, 0.093_125_454_583_697_6, 0.0),
    (0.679_409_568_299_024_4, 0.109_387_158_802_297_64, 0.219_086_362_515_982_04),
    (0.562_757_134_668_604_7, 0.123_491_976_262_065_84, 0.0),
    (0.433_395_394_129_247_2, 0.134_709_217_311_473_34, 0.269_266_719_309_996_35),
    (0.294_392_862_701_460_2, 0.142_775_938_577_060_09, 0.0),
    (0.148_874_338_981_631_22, 0.147_739_104_901_338_49, 0.295_524_224_714_752_87),
    (0.0, 0.149_445_554_002_916_9, 0.0),
];

/// k l beyond which a slit is endless by far, and its square would soon overflow.
pub(super) const LONGEST: f64 = 1e12;

/// l · jωμ₀ Y of mode m for one half-space, by k l and ln(2l/ρ).
fn radiation(mode: usize, kl: f64, slenderness: f64) -> Complex64 {
    let b = mode as f64 * PI;
    let (si_sum, cin_sum) = si_cin(kl + b);
    let (si_gap, cin_gap) = si_cin((kl - b).abs());
    let si_gap = si_gap.copysign(kl - b);
    let (squares, gap) = (b * b + kl * kl, (b - kl) * (b + kl));
    // E = (E(k+β) + E(k−β))/2 with E(q) = exp(−jq/2) sin(q/2)/(q/2)
    let sinc = |q: f64| if q == 0.0 { 1.0 } else { (0.5 * q).sin() / (0.5 * q) };
    let (sinc_sum, sinc_gap) = (sinc(kl + b), sinc(kl - b));
    let even = 0.5 * ((0.5 * (kl + b)).cos() * sinc_sum + (0.5 * (kl - b)).cos() * sinc_gap);
    let re = gap * (slenderness - 0.5 * (cin_sum + cin_gap) - even) - squares / (2.0 * b) * (si_sum - si_gap);
    let im = if kl < RADIATED_BELOW {
        2.0 * PI * radiated(mode, kl)
    } else {
        let odd = -0.5 * ((0.5 * (kl + b)).sin() * sinc_sum + (0.5 * (kl - b)).sin() * sinc_gap);
        gap * (-0.5 * (si_sum + si_gap) - odd) - squares / (2.0 * b) * (cin_gap - cin_sum)
    };
    Complex64::new(re, im) / (2.0 * PI)
}

/// Below this k l the radiated power is taken from the pattern, since the closed form cancels.
pub(super) const RADIATED_BELOW: f64 = 3.0;

/// The imaginary part for short slits, from the radiated power:
/// (1/4π) ∫ |F(q)|² (k² − q²) dq over |q| < k, F the Fourier transform of the voltage.
pub(super) fn radiated(mode: usize, kl: f64) -> f64 {
    let b = mode as f64 * PI;
    let integral = gauss(|tau| {
        let q = kl * tau;
        let lobe = if mode.is_multiple_of(2) { (0.5 * q).sin() } else { (0.5 * q).cos() };
        let amplitude = 2.0 * b * lobe / ((b - q) * (b + q));
        amplitude * amplitude * (1.0 - tau * tau)
    });
    kl * kl * kl / (2.0 * PI) * integral
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::VACUUM_IMPEDANCE;

    /// Impedance of the complementary wire: Z = η₀² Y / 2 for the admittance of one half-space.
    fn wire_impedance(mode: usize, kl: f64, slenderness: f64) -> Complex64 {
        let l_jwmu_y = radiation(mode, kl, slenderness);
        l_jwmu_y / Complex64::new(0.0, kl) * VACUUM_IMPEDANCE / 2.0
    }

    #[test]
    fn a_short_row_keeps_what_it_can_have() {
        assert!(ln_shortened(1e3).abs() < 1e-300 && (ln_shortened(-1e3) + 1e3).abs() < 1e-12);
    }

    #[test]
    fn half_wave_slot_is_the_complement_of_the_half_wave_dipole() {
        // 73.13 + j42.54 ohm with 120π for η₀ (C. A. Balanis, Antenna Theory, 3rd ed., sec. 8.5, from memory).
        let z = wire_impedance(1, PI, (8e6_f64).ln()) * (120.0 * PI / VACUUM_IMPEDANCE);
        assert!((z.re - 73.13).abs() < 0.01 && (z.im - 42.54).abs() < 0.01, "{z}");
    }

    #[test]
    fn all_rules_integrate_what_they_should() {
        // x^n over (0, 1): Kronrod's rule up to n = 31, Gauss's, its weights less the excess, up to 19; the
        // null rules find nothing up to 19 and 18, and something beyond.
        for n in 0..=31 {
            let sum =
                |weight: fn(&Node) -> f64| KRONROD_21.iter().map(|node| weight(node) * node.place.powi(n)).sum::<f64>();
            let exact = 1.0 / f64::from(n + 1);
            assert!((sum(|node| node.weight) - exact).abs() < 1e-15, "{n}");
            assert!(n > 19 || (sum(|node| node.weight - node.excess) - exact).abs() < 1e-15, "{n}");
            let centred = |weight: fn(&Node) -> f64| {
                KRONROD_21.iter().map(|node| weight(node) * (2.0 * node.place - 1.0).powi(n)).sum::<f64>()
            };
            let (even, odd) = (centred(|node| node.even).abs(), centred(|node| node.odd).abs());
            assert_eq!(even > 1e-15, n >= 20 && n % 2 == 0, "{n} {even:e}");
            assert_eq!(odd > 1e-15, n >= 19 && n % 2 == 1, "{n} {odd:e}");
        }
        assert!((AGREEMENT.ln() - LN_AGREEMENT).abs() < 1e-14);
    }

    #[test]
    fn closed_form_and_radiated_power_agree() {
        for mode in 1..4 {
            let (below, above) = (2.999_999_9, 3.000_000_1);
            let jump = radiation(mode, above, 9.0).im / radiation(mode, below, 9.0).im - 1.0;
            // What is left of the jump is the slope over the step of 2e-7.
            assert!(jump.abs() < 1e-6, "mode {mode}: {jump}");
        }
    }

    #[test]
    fn short_slots_radiate_as_dipoles() {
        // l jωμ₀ Y → j 4 (kl)³ / (3 π³ m²) for odd m.
        for mode in [1, 3, 5] {
            let kl = 1e-6;
            let expected = 4.0 * f64::powi(kl, 3) / (3.0 * PI.powi(3) * (mode * mode) as f64);
            assert!((radiation(mode, kl, 9.0).im / expected - 1.0).abs() < 1e-11);
        }
        assert!(radiation(2, 1e-6, 9.0).im < 1e-12 * radiation(1, 1e-6, 9.0).im);
    }

    #[test]
    fn a_long_slit_is_a_slit_without_ends() {
        // Mode by mode the admittance per length meets that of the endless slit.
        let (length_m, gap_m, k) = (1.0, 1e-4, 400.0);
        let slit = Slit::new(length_m, gap_m);
        let mode = 60;
        let transverse = (k * k - slit.beta(mode).powi(2)).sqrt();
        let ratio = slit.mouth(mode, k) / Slit::endless_mouth(gap_m, transverse);
        assert!((ratio - 1.0).norm() < 0.02, "{ratio}");
    }
}
