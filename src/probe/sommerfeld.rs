//! Quadrature of the field integrals of small antennas either side of an infinite plane sheet.
//!
//! Every arrangement (coaxial loops, coplanar loops, rods) reads a ratio of two integrals over the
//! transverse wavenumber l of the plane and evanescent waves that make up the near field,
//!
//! ∫ G(l) T(l) exp(-τ₀ (z - t)) l dl/τ₀  over  ∫ G(l) exp(-τ₀ z) l dl/τ₀,   τ₀ = sqrt(l² - k₀²),
//!
//! with T the sheet's transmission. Three choices make it short and exact:
//!
//! * **The path.** l dl/τ₀ = dτ₀, and G depends on l² only, so in the variable τ₀ the branch point
//!   at l = k₀ is gone and the path runs from τ₀ = j k₀ (l = 0) to infinity. Passive layers have
//!   no mode with Im l² > 0 (a guided wave loses power as it goes), so the path may be moved into
//!   the first quadrant: τ₀ = x + j k₀, x from 0 to infinity. There exp(-τ₀ z) only decays and
//!   does not oscillate, and the poles of lossless slabs, which lie on the real axis, are at a
//!   distance k₀ away.
//! * **The rule.** x = exp(ξ - exp(-ξ))/z with equal steps in ξ: the double-exponential rule for
//!   integrands that decay as exp(-x) (H. Takahasi and M. Mori, *Double exponential formulas for
//!   numerical integration*, Publ. RIMS 9 (1974) 721). Bessel functions of radius a + b narrow the
//!   strip in which it converges to the angle atan(z/(a + b)); the step follows.
//! * **The table.** On this path G is a power series in κ = j k₀ with real coefficients that depend
//!   on the geometry alone. They are tabulated once and serve all frequencies.
//!
//! From the difference between the rule and the same rule at twice the step follows an estimate of the
//! error; where it is not small enough the step is halved.

use std::ops::Range;

use num_complex::Complex64;

use crate::constants::wavenumber_per_m;
use crate::lanes::{Complex, Kernel, Simd, Window, sweep};
use crate::wave::Waves;
use crate::wave::incidence::{Incidence, Polarization};
use crate::wave::sheet::{Passages, Sheet};

/// Relative accuracy aimed at for the field ratio.
const TOLERANCE: f64 = 3e-9;
/// Step of the rule in ξ for antennas that are small against their spacing.
const STEP: f64 = 0.18;
/// How often the step may be halved.
const REFINEMENTS: usize = 6;
/// Terms of the series in κ beyond which the antennas are not small in any sense.
const LONGEST_SERIES: usize = 48;

/// Geometry of an exact near-field test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Arrangement {
    /// Loops of these radii on one axis normal to the sheet; receiver radius 0 is a point probe.
    Coaxial { source: f64, receiver: f64 },
    /// Loops of these radii in one plane normal to the sheet.
    Coplanar { source: f64, receiver: f64 },
    /// Rods of these lengths on one line normal to the sheet, triangular current.
    Rods { source: f64, receiver: f64 },
}

/// The nodes of the rule and what depends on the geometry alone.
#[derive(Debug)]
struct Table {
    /// The nodes x, those of the rule with twice the step first.
    x: Vec<f64>,
    parts: [Range<usize>; 2],
    gain: f64,
    /// ln of weight times exp(-x z) and of whatever the coefficients were scaled by.
    ln_weight: Vec<f64>,
    te: Series,
    tm: Series,
}

/// G at all nodes as power series in κ = j k₀.
#[derive(Debug)]
struct Series {
    /// By power, then by node; empty where this wave has no part in the field.
    coefficients: Vec<Vec<f64>>,
    /// Weighted sums over each part of the nodes, by power: the field without a sheet.
    bare: [Vec<f64>; 2],
}

/// What the quadrature found at one frequency.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Found {
    /// ln of field with sheet over field without.
    pub ln_ratio: Complex64,
    /// Estimate of the relative error of the ratio.
    pub error: f64,
}

impl Arrangement {
    /// Length over which the integrand's Bessel functions vary.
    fn reach(self) -> f64 {
        match self {
            Self::Coaxial { source, receiver } | Self::Coplanar { source, receiver } => source + receiver,
            Self::Rods { source, receiver } => 0.5 * (source + receiver),
        }
    }

    /// The part of the spacing that the integrand still decays over.
    fn clearance(self, spacing: f64) -> f64 {
        match self {
            Self::Coaxial { .. } => spacing,
            Self::Coplanar { .. } | Self::Rods { .. } => spacing - self.reach(),
        }
    }

    /// Step of the rule, from the angle of the strip in which the integrand stays small.
    fn step(self, spacing: f64) -> f64 {
        /// Angle beyond which the map from ξ to x itself sets the limit.
        const WIDEST: f64 = 1.1;
        match self {
            Self::Coaxial { .. } => STEP * (spacing.atan2(self.reach()) / WIDEST).min(1.0),
            // The magnetic field across the wall brings a pole near the origin: two scales at once.
            Self::Coplanar { .. } | Self::Rods { .. } => 0.67 * STEP,
        }
    }

    /// What halving the step gains, as a power of the error. The error is exp(−c/h) at the step h, so that
    /// one scale alone would square it; the test over walls and arrangements below holds these.
    fn gain(self) -> f64 {
        match self {
            // High permeability brings a second scale.
            Self::Coaxial { .. } => 1.5,
            Self::Coplanar { .. } | Self::Rods { .. } => 4.0 / 3.0,
        }
    }

    /// Lower end of the rule in ξ: x z from 1e-6 where the integrand starts as x dx, from 1e-14
    /// where it starts as dx (vertical loops also radiate along the normal).
    fn lower_end(self) -> f64 {
        match self {
            Self::Coaxial { .. } => -2.4,
            Self::Coplanar { .. } | Self::Rods { .. } => -3.4,
        }
    }

    /// Upper end of the rule in ξ: x z = 32 where the integrand runs as x³ exp(-x z) at worst, 39 where the
    /// waves of a loop that is wide against its distance cancel and the end weighs more.
    fn upper_end(self, spacing: f64) -> f64 {
        if self.reach() < self.clearance(spacing) { 3.5 } else { 3.7 }
    }

    /// Number of powers of κ for full accuracy up to this free-space wavenumber; `None` where the
    /// antennas are so large against the wavelength that the series would be too long.
    fn order(self, wavenumber: f64) -> Option<usize> {
        // The series runs like exp(κ (a + b)); its factors l², τ₀² add two terms.
        let size = wavenumber * self.reach();
        let mut term = 1.0;
        for n in 1..LONGEST_SERIES {
            term *= size / n as f64;
            if term < 1e-15 && n as f64 > size {
                return Some(n + 2);
            }
        }
        None
    }

    /// Coefficients of the powers of κ at node x for TE and TM waves, times exp(-`ln_scale`).
    fn coefficients(self, x: f64, order: usize, te: &mut [f64], tm: &mut [f64]) -> f64 {
        match self {
            Self::Coaxial { source, receiver } => {
                // l J1(l a) × [2 J1(l b)/(l b)], up to the constant a: l² = x² + 2 κ x.
                let mut series = loop_series(source, x, order);
                if receiver > 0.0 {
                    series = times(&series, &loop_series(receiver, x, order), order);
                }
                times_into(te, &series, &[x * x, 2.0 * x], order);
                0.0
            }
            Self::Coplanar { source, receiver } => coplanar(source, receiver, x, order, te, tm),
            Self::Rods { source, receiver } => {
                let (first, ln_first) = rod_series(source, x, order);
                let (second, ln_second) = rod_series(receiver, x, order);
                times_into(tm, &times(&first, &second, order), &[x * x, 2.0 * x], order);
                ln_first + ln_second
            }
        }
    }
}

/// Product of two power series, cut at `order`.
fn times(first: &[f64], second: &[f64], order: usize) -> Vec<f64> {
    let mut product = vec![0.0; order + 1];
    times_into(&mut product, first, second, order);
    product
}

fn times_into(product: &mut [f64], first: &[f64], second: &[f64], order: usize) {
    product[..=order].fill(0.0);
    for (i, a) in first.iter().enumerate() {
        for (j, b) in second.iter().enumerate().take(order + 1 - i.min(order)) {
            if i + j <= order {
                product[i + j] += a * b;
            }
        }
    }
}

/// 2 J1(l a)/(l a) as a series in κ about l = x: the derivative of J_n(a√w)/√w^n with respect to
/// w = l² is -(a/2) J_{n+1}(a√w)/√w^{n+1}, and w - x² = 2 κ x.
fn loop_series(radius: f64, x: f64, order: usize) -> Vec<f64> {
    let mut series = reduced_bessel(radius * x, order, Kind::Oscillating);
    let mut factor = 2.0;
    for (n, term) in series.iter_mut().enumerate() {
        *term *= factor;
        factor *= -radius * radius * x / (n + 1) as f64;
    }
    series
}

/// (sinh(τ ℓ/4)/(τ ℓ/4))², the pattern of a triangular current of length ℓ along a decaying wave,
/// as a series in κ about τ = x, times exp(-x ℓ/2); the second value is x ℓ/2.
fn rod_series(length: f64, x: f64, order: usize) -> (Vec<f64>, f64) {
    // sinh(u)/u = sqrt(π/(2u)) I_{1/2}(u) = Σ u^2n/(2n+1)!: expand through the same reduced
    // functions, whose derivatives with respect to u² step the order by one.
    let quarter = 0.25 * length;
    let centre = quarter * x;
    // g_n = (1/u d/du)^n sinh(u)/u, scaled by exp(-u).
    let g = reduced_sinh(centre, order);
    // u² - centre² = quarter² (2 x κ + κ²)
    let step = [0.0, 2.0 * x * quarter * quarter, quarter * quarter];
    let mut power = vec![1.0];
    let mut series = vec![0.0; order + 1];
    let mut factor = 1.0;
    for (n, derivative) in g.iter().enumerate() {
        for (total, part) in series.iter_mut().zip(&power) {
            *total += factor * derivative * part;
        }
        factor /= 2.0 * (n + 1) as f64;
        power = times(&power, &step, order);
    }
    (times(&series, &series, order), 2.0 * centre)
}

/// Two vertical loops: angular average of sin²ψ S_a S_b (TE) and cos²ψ S_a S_b (TM), where
/// S = 2 I1(q a)/(q a), q² = l² sin²ψ - k₀², times -τ₀² and k₀².
fn coplanar(a: f64, b: f64, x: f64, order: usize, te: &mut [f64], tm: &mut [f64]) -> f64 {
    let scale = (a + b) * x;
    // The trapezium rule in ψ converges once its points outnumber what exp(scale sin ψ) needs.
    let points = (((80.0 * scale).sqrt() + 20.0) / 4.0).ceil() as usize;
    let (mut mean_te, mut mean_tm) = (vec![0.0; order + 1], vec![0.0; order + 1]);
    for point in 0..points {
        let psi = (point as f64 + 0.5) * std::f64::consts::FRAC_PI_2 / points as f64;
        let (sine, cosine) = psi.sin_cos();
        let square = sine * sine;
        // Series in δ = q² - x² sin²ψ of both loops, scaled by exp(-(a + b) x sin ψ).
        let both = times(&modified_loop_series(a, x * sine, order), &modified_loop_series(b, x * sine, order), order);
        // δ = 2 x sin²ψ κ + κ² (k₀² = -κ²): Horner.
        let step = [0.0, 2.0 * x * square, 1.0];
        let mut series = vec![0.0; order + 1];
        for coefficient in both.iter().rev() {
            series = times(&series, &step, order);
            series[0] += coefficient;
        }
        let weight = ((sine - 1.0) * scale).exp() / points as f64;
        for power in 0..=order {
            mean_te[power] += weight * square * series[power];
            mean_tm[power] += weight * cosine * cosine * series[power];
        }
    }
    times_into(te, &mean_te, &[-x * x, -2.0 * x, -1.0], order);
    times_into(tm, &mean_tm, &[0.0, 0.0, -1.0], order);
    scale
}

/// 2 I1(q a)/(q a) as a series in q² about `centre`², times exp(-a `centre`).
fn modified_loop_series(radius: f64, centre: f64, order: usize) -> Vec<f64> {
    let mut series = reduced_bessel(radius * centre, order, Kind::Growing);
    let mut factor = 2.0;
    for (n, term) in series.iter_mut().enumerate() {
        *term *= factor;
        factor *= 0.5 * radius * radius / (n + 1) as f64;
    }
    series
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// J_n(z)/z^n
    Oscillating,
    /// exp(-z) I_n(z)/z^n
    Growing,
}

/// J_{1+n}(z)/z^{1+n} or exp(-z) I_{1+n}(z)/z^{1+n} for n from 0 to `last`, z >= 0.
///
/// The three-term recurrence is run downwards (J. C. P. Miller's algorithm, DLMF 3.6) in the
/// reduced functions themselves, which stay finite at z = 0.
fn reduced_bessel(z: f64, last: usize, kind: Kind) -> Vec<f64> {
    let sign = if kind == Kind::Oscillating { -1.0 } else { 1.0 };
    let mut values = vec![0.0; last + 1];
    if z < 1.0 {
        // Ascending series: Σ (±z²/4)^m / (m! (m+ν)!) / 2^ν.
        let quarter = sign * 0.25 * z * z;
        let scale = if kind == Kind::Growing { (-z).exp() } else { 1.0 };
        let mut lead = scale;
        for (n, value) in values.iter_mut().enumerate() {
            let nu = (n + 1) as f64;
            lead /= 2.0 * nu;
            let (mut term, mut sum) = (1.0, 1.0);
            for m in 1..14 {
                term *= quarter / (m as f64 * (m as f64 + nu));
                sum += term;
            }
            *value = lead * sum;
        }
        return values;
    }
    // Λ_ν = C_ν(z)/z^ν satisfies Λ_{ν-1} = 2 ν Λ_ν ± z² Λ_{ν+1}.
    let start = last + 2 + (z + 12.0 * z.cbrt() + 16.0) as usize;
    let square = sign * z * z;
    let (mut above, mut here) = (0.0f64, 1e-280f64);
    // J0 + 2 Σ J_2k = 1;  exp(-z) (I0 + 2 Σ I_k) = 1. In terms of Λ each C_ν = z^ν Λ_ν, so the
    // sum is carried relative to the present order by a running power of z.
    let mut nu = start;
    let mut normal = 0.0f64;
    let counts = |nu: usize| nu > 0 && (kind == Kind::Growing || nu.is_multiple_of(2));
    loop {
        if counts(nu) {
            normal += 2.0 * here;
        }
        if nu >= 1 && nu - 1 <= last {
            values[nu - 1] = here;
        }
        if nu == 0 {
            normal += here;
            break;
        }
        let below = 2.0 * nu as f64 * here + square * above;
        above = here;
        here = below;
        nu -= 1;
        // The sum holds Λ_k z^(k - nu): one power of z for each step down.
        normal *= z;
        if here.abs() > 1e250 {
            let shrink = 1e-250;
            above *= shrink;
            here *= shrink;
            normal *= shrink;
            for value in &mut values {
                *value *= shrink;
            }
        }
    }
    for value in &mut values {
        *value /= normal;
    }
    values
}

/// (1/u d/du)^n [sinh(u)/u] times exp(-u) for n from 0 to `last`, u >= 0.
fn reduced_sinh(u: f64, last: usize) -> Vec<f64> {
    // With s_n the values sought, s_{n-1} = (2n + 1) s_n + u² s_{n+1}: the modified spherical
    // Bessel functions i_n(u)/u^n. Downwards, normalised by s_0.
    let first = if u < 1e-4 { (1.0 + u * u / 6.0) * (-u).exp() } else { -0.5 * (-2.0 * u).exp_m1() / u };
    let start = last + 20 + u as usize;
    let (mut above, mut here) = (0.0f64, 1e-280f64);
    let mut values = vec![0.0; last + 1];
    let mut n = start;
    loop {
        if n <= last {
            values[n] = here;
        }
        if n == 0 {
            break;
        }
        let below = (2 * n + 1) as f64 * here + u * u * above;
        above = here;
        here = below;
        n -= 1;
        if here > 1e250 {
            above *= 1e-250;
            here *= 1e-250;
            for value in &mut values {
                *value *= 1e-250;
            }
        }
    }
    let scale = first / here;
    for value in &mut values {
        *value *= scale;
    }
    values
}

impl Table {
    fn new(arrangement: Arrangement, spacing: f64, step: f64, order: usize) -> Self {
        let decay = arrangement.clearance(spacing);
        let (low, high) =
            ((arrangement.lower_end() / step).ceil() as i64, (arrangement.upper_end(spacing) / step).floor() as i64);
        let part = |rest: i64| (low..=high).filter(move |i| i.rem_euclid(2) == rest);
        let indices: Vec<i64> = part(0).chain(part(1)).collect();
        let coarse = part(0).count();
        let parts = [0..coarse, coarse..indices.len()];
        let empty = || vec![vec![0.0; indices.len()]; order + 1];
        let (mut te, mut tm) = (empty(), empty());
        let (mut te_node, mut tm_node) = (vec![0.0; order + 1], vec![0.0; order + 1]);
        let (mut x, mut ln_weight) = (Vec::with_capacity(indices.len()), Vec::with_capacity(indices.len()));
        for (node, index) in indices.iter().enumerate() {
            let xi = *index as f64 * step;
            let ln_x = xi - (-xi).exp() - decay.ln();
            let at = ln_x.exp();
            let ln_scale = arrangement.coefficients(at, order, &mut te_node, &mut tm_node);
            for power in 0..=order {
                te[power][node] = te_node[power];
                tm[power][node] = tm_node[power];
            }
            x.push(at);
            ln_weight.push(ln_x + (-xi).exp().ln_1p() + step.ln() - at * spacing + ln_scale);
        }
        let weights: Vec<f64> = ln_weight.iter().map(|ln| ln.exp()).collect();
        let series = |coefficients: Vec<Vec<f64>>| Series::new(coefficients, &weights, &parts);
        Self { te: series(te), tm: series(tm), parts: parts.clone(), gain: arrangement.gain(), x, ln_weight }
    }
}

impl Series {
    fn new(mut coefficients: Vec<Vec<f64>>, weights: &[f64], parts: &[Range<usize>; 2]) -> Self {
        if coefficients.iter().flatten().all(|&c| c == 0.0) {
            coefficients.clear();
        }
        let sum = |row: &[f64], weights: &[f64]| row.iter().zip(weights).map(|(c, w)| c * w).sum::<f64>();
        let bare = parts
            .each_ref()
            .map(|part| coefficients.iter().map(|row| sum(&row[part.clone()], &weights[part.clone()])).collect());
        Self { coefficients, bare }
    }

    fn is_empty(&self) -> bool {
        self.coefficients.is_empty()
    }
}

/// A power series in κ = j k₀ with real coefficients: even powers are real, odd ones imaginary, each
/// with alternating sign.
fn series_value(coefficients: &[f64], wavenumber: f64) -> Complex64 {
    let square = -wavenumber * wavenumber;
    let (mut even, mut odd) = (0.0, 0.0);
    for (power, c) in coefficients.iter().enumerate().rev() {
        if power % 2 == 0 {
            even = even * square + c;
        } else {
            odd = odd * square + c;
        }
    }
    Complex64::new(even, odd * wavenumber)
}

/// ln of the ratio of received field with and without the sheet, at each frequency.
///
/// Where antennas are many wavelengths large, which no loop test means, the answer is that of a
/// plane wave along the normal, with an infinite error.
pub(crate) fn ln_ratios(arrangement: Arrangement, spacing: f64, sheet: &dyn Sheet, frequencies: &[f64]) -> Vec<Found> {
    let plane = |frequency| sheet.transmission(&Incidence::at_angle(frequency, 0.0), Polarization::Te).ln();
    let series_reaches = |frequency: f64| arrangement.order(wavenumber_per_m(frequency)).is_some();
    let mut found = vec![Found { ln_ratio: Complex64::ZERO, error: f64::INFINITY }; frequencies.len()];
    let mut open: Vec<usize> = (0..frequencies.len()).collect();
    let mut highest = frequencies.iter().copied().fold(0.0, f64::max);
    // Where the series reaches the highest frequency it reaches all.
    if !series_reaches(highest) {
        open.retain(|&index| series_reaches(frequencies[index]));
        highest = open.iter().map(|&index| frequencies[index]).fold(0.0, f64::max);
        for (found, &frequency) in found.iter_mut().zip(frequencies) {
            if !series_reaches(frequency) {
                found.ln_ratio = plane(frequency);
            }
        }
    }
    let order = arrangement.order(wavenumber_per_m(highest)).unwrap_or(0);
    let thickness = sheet.thickness_m();
    let mut step = arrangement.step(spacing);
    for _ in 0..=REFINEMENTS {
        if open.is_empty() {
            break;
        }
        let table = Table::new(arrangement, spacing, step, order);
        let mut work = Work::new(&table);
        open.retain(|&index| {
            found[index] = work.ratio(&table, sheet, thickness, frequencies[index]);
            found[index].error.is_nan() || found[index].error > TOLERANCE
        });
        step *= 0.5;
    }
    found
}

/// Estimate of the relative error of a rule, from its relative difference to the rule with twice the step
/// and what halving the step gains, as a power of the error.
fn error_left(difference: f64, gain: f64) -> f64 {
    /// What lies beyond the ends of the rule, which no step sees.
    const BEYOND: f64 = 5e-10;
    difference.powf(gain) + BEYOND
}

/// Scratch space of one table.
struct Work {
    passages: Passages,
    terms: Vec<Complex64>,
}

impl Work {
    fn new(table: &Table) -> Self {
        Self { passages: Passages::new(table.x.len()), terms: vec![Complex64::ZERO; table.x.len()] }
    }

    fn ratio(&mut self, table: &Table, sheet: &dyn Sheet, thickness: f64, frequency: f64) -> Found {
        let wavenumber = wavenumber_per_m(frequency);
        let (mut with, mut without) = ([Complex64::ZERO; 2], [Complex64::ZERO; 2]);
        // What the sums so far were divided by.
        let mut ln_scale = f64::NEG_INFINITY;
        for (polarization, series) in [(Polarization::Te, &table.te), (Polarization::Tm, &table.tm)] {
            if series.is_empty() {
                continue;
            }
            sheet.passages(&Waves::beside_branch_cut(frequency, &table.x), polarization, &mut self.passages);
            let largest = self.largest(table, thickness);
            let mut terms = Terms {
                table,
                series: &series.coefficients,
                wavenumber,
                thickness,
                largest,
                passages: &self.passages,
                out: &mut self.terms,
            };
            sweep(table.x.len(), &mut terms);
            let common = ln_scale.max(largest);
            let (kept, added) = ((ln_scale - common).exp(), (largest - common).exp());
            for (part, nodes) in table.parts.iter().enumerate() {
                let sum: Complex64 = self.terms[nodes.clone()].iter().sum();
                with[part] = with[part] * kept + sum * added;
                without[part] += series_value(&series.bare[part], wavenumber);
            }
            ln_scale = common;
        }
        let coarse = with[0] / without[0];
        let fine = (with[0] + with[1]) / (without[0] + without[1]);
        // exp(-τ₀ (z - t)) against exp(-τ₀ z): the imaginary part j k₀ t that x t leaves out.
        // The sum was scaled to order one, so its square is in range.
        let ln_fine = Complex64::new(0.5 * fine.norm_sqr().ln(), fine.arg());
        let ln_ratio = ln_fine + Complex64::new(ln_scale, wavenumber * thickness);
        let difference = ((coarse - fine).norm_sqr() / fine.norm_sqr()).sqrt();
        Found { ln_ratio, error: error_left(difference, table.gain) }
    }

    /// About the largest exponent, so that what is summed is of order one.
    ///
    /// The coarse nodes tell, since one node differs from its neighbour by a few nepers: along the path
    /// the decay outside changes by x z ≤ 39, and that inside a layer by less.
    fn largest(&self, table: &Table, thickness: f64) -> f64 {
        let outside = table.x[table.parts[0].clone()].iter().zip(&table.ln_weight);
        outside
            .zip(&self.passages.exponent.re)
            .map(|((x, ln_weight), inside)| x * thickness + ln_weight - inside)
            .fold(f64::NEG_INFINITY, f64::max)
    }
}

/// The terms of the sum at one frequency, a register at a time.
struct Terms<'a> {
    table: &'a Table,
    series: &'a [Vec<f64>],
    wavenumber: f64,
    thickness: f64,
    largest: f64,
    passages: &'a Passages,
    out: &'a mut [Complex64],
}

impl Kernel for Terms<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let square = -self.wavenumber * self.wavenumber;
        let (mut even, mut odd) = (at.splat(0.0), at.splat(0.0));
        for (power, row) in self.series.iter().enumerate().rev() {
            let c = at.load(row);
            if power % 2 == 0 {
                even = even.mul_add(square, c);
            } else {
                odd = odd.mul_add(square, c);
            }
        }
        let g = Complex::new(even, odd * self.wavenumber);
        let outside = at.load(&self.table.x).mul_add(self.thickness, at.load(&self.table.ln_weight));
        let Passages { exponent, forward } = self.passages;
        let ln = Complex::new(outside - at.load(&exponent.re) - self.largest, -at.load(&exponent.im));
        let forward = Complex::new(at.load(&forward.re), at.load(&forward.im));
        at.store_complex(ln.exp() * g * forward.recip(), self.out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::VACUUM_IMPEDANCE;
    use crate::decibel::LogTransmission;
    use crate::material::Material;
    use crate::parameter::{Knobs, Rebuild};
    use crate::validity::Validity;
    use crate::wave::layered::{Stratum, scatter};

    #[test]
    fn reduced_functions_match_the_library() {
        use complex_bessel::{besseli_scaled, besselj};
        for z in [1e-9, 0.3, 0.999, 1.0, 2.4, 7.7, 30.0, 130.0] {
            let j = reduced_bessel(z, 12, Kind::Oscillating);
            let i = reduced_bessel(z, 12, Kind::Growing);
            for n in 0..=12 {
                let nu = (n + 1) as f64;
                let argument = Complex64::new(z, 0.0);
                let expected = besselj(nu, argument).unwrap().re / z.powf(nu);
                let size = expected.abs().max(z.powf(-nu - 0.5) * 0.3);
                assert!((j[n] - expected).abs() < 2e-13 * size, "J{nu}({z}): {} {expected}", j[n]);
                let expected = besseli_scaled(nu, argument).unwrap().re / z.powf(nu);
                assert!((i[n] - expected).abs() < 2e-13 * expected, "I{nu}({z}): {} {expected}", i[n]);
            }
        }
    }

    /// G of one node.
    fn value(series: &Series, node: usize, wavenumber: f64) -> Complex64 {
        let coefficients: Vec<f64> = series.coefficients.iter().map(|row| row[node]).collect();
        series_value(&coefficients, wavenumber)
    }

    /// A stack of slabs and films (ohm per square).
    #[derive(Debug, Clone, PartialEq)]
    struct Wall(Vec<Part>);

    #[allow(clippy::large_enum_variant, reason = "a few of them, in tests")]
    #[derive(Debug, Clone, PartialEq)]
    enum Part {
        Slab(Material, f64),
        Film(f64),
    }

    impl Rebuild for Wall {
        fn rebuild(&self, _: &mut Knobs<'_>) -> crate::Result<Self> {
            Ok(self.clone())
        }
    }

    impl Sheet for Wall {
        fn transmission(&self, wave: &Incidence, polarization: Polarization) -> LogTransmission {
            let strata = self.0.iter().map(|part| match part {
                Part::Slab(material, thickness_m) => {
                    Stratum::Slab { medium: material.medium(wave.frequency_hz()), thickness_m: *thickness_m }
                }
                Part::Film(ohm) => Stratum::Film { relative_admittance: (VACUUM_IMPEDANCE / ohm).into() },
            });
            LogTransmission(scatter(strata, wave, polarization).ln_transmission)
        }

        fn thickness_m(&self) -> f64 {
            self.0.iter().map(|part| if let Part::Slab(_, thickness_m) = part { *thickness_m } else { 0.0 }).sum()
        }

        fn validity(&self, _: f64) -> Validity {
            Validity::Holds
        }
    }

    /// What the rule keeps, against the same rule with a sixteenth of the step.
    #[test]
    fn the_error_estimate_holds() {
        let metal = |conductivity, permeability| Material::conductor("metal", conductivity, permeability).unwrap();
        let slab = |material: &Material, thickness_m| Part::Slab(material.clone(), thickness_m);
        let (copper, steel, mumetal) = (metal(5.8e7, 1.0), metal(5.8e6, 200.0), metal(1.7e6, 2e4));
        let core = Material::dielectric("core", 2.5, 0.04).unwrap();
        let plastic = Material::dielectric("plastic", 9.0, 0.0).unwrap();
        let walls = [
            vec![slab(&copper, 1e-6)],
            vec![slab(&copper, 3e-3)],
            vec![slab(&steel, 0.5e-3), slab(&core, 19e-3), slab(&steel, 0.5e-3)],
            vec![slab(&mumetal, 1e-3)],
            vec![slab(&plastic, 0.1)],
            vec![Part::Film(10.0), slab(&core, 50e-3), Part::Film(1e3)],
        ]
        .map(Wall);
        let arrangements = |distance: f64| {
            [
                Arrangement::Coaxial { source: 0.15, receiver: 0.15 },
                Arrangement::Coaxial { source: 0.9 * distance, receiver: 0.0 },
                Arrangement::Coaxial { source: 0.01 * distance, receiver: 3.0 * distance },
                Arrangement::Coplanar { source: 0.2 * distance, receiver: 0.45 * distance },
                Arrangement::Rods { source: 0.0, receiver: 0.6 * distance },
            ]
        };
        let mut worst = 0.0f64;
        for (wall, distance) in walls.iter().flat_map(|wall| [0.02, 0.1, 0.6, 3.0].map(|distance| (wall, distance))) {
            let (thickness, spacing) = (wall.thickness_m(), distance + wall.thickness_m());
            for arrangement in arrangements(distance) {
                let hz: Vec<f64> = (0..13).map(|i| 10f64.powf(1.0 + 0.55 * f64::from(i))).collect();
                let hz = &hz[..hz.iter().take_while(|f| wavenumber_per_m(**f) * arrangement.reach() < 1.0).count()];
                let Some(&highest) = hz.last() else { continue };
                let order = arrangement.order(wavenumber_per_m(highest)).unwrap();
                let finest = Table::new(arrangement, spacing, 0.25 * arrangement.step(spacing) / 4.0, order);
                let mut work = Work::new(&finest);
                for (&frequency, kept) in hz.iter().zip(ln_ratios(arrangement, spacing, wall, hz)) {
                    let exact = work.ratio(&finest, wall, thickness, frequency);
                    let error = ((kept.ln_ratio - exact.ln_ratio).exp() - 1.0).norm();
                    // Thousands of nepers leave fewer digits for the phase.
                    let rounding = 1e-12 + 4.0 * f64::EPSILON * exact.ln_ratio.norm();
                    assert!(kept.error <= TOLERANCE, "{arrangement:?} {distance} {frequency} {wall:?}: {kept:?}");
                    assert!(
                        error <= kept.error + rounding,
                        "{arrangement:?} {distance} {frequency} {wall:?}: {error} {kept:?}"
                    );
                    worst = worst.max(error);
                }
            }
        }
        assert!(worst < TOLERANCE, "{worst}");
    }

    #[test]
    fn reference_integral_of_coaxial_loop_is_the_closed_form() {
        // On the axis of a loop H = (a²/2)(1 + jkR) exp(-jkR)/R³: without a sheet the sum of the
        // table must give it up to the constant a/2.
        for (a, z, f) in [(0.15, 0.6, 1e3), (0.15, 0.6, 1e8), (0.05, 2.0, 1e8), (0.3, 0.3, 3e7)] {
            let arrangement = Arrangement::Coaxial { source: a, receiver: 0.0 };
            let k = wavenumber_per_m(f);
            let order = arrangement.order(k).unwrap();
            let table = Table::new(arrangement, z, arrangement.step(z), order);
            let mut sum = Complex64::ZERO;
            for node in 0..table.x.len() {
                sum += table.ln_weight[node].exp() * value(&table.te, node, k);
            }
            sum *= Complex64::from_polar(0.25 * a * a, -k * z);
            let r = a.hypot(z);
            let exact = 0.5 * a * a * Complex64::new(1.0, k * r) * Complex64::from_polar(1.0, -k * r) / r.powi(3);
            assert!((sum / exact - 1.0).norm() < 1e-11, "{a} {z} {f}: {sum} {exact}");
        }
    }

    #[test]
    fn reference_integral_of_small_coplanar_loops_is_the_dipole() {
        // Transverse field of a magnetic dipole: (1 + jkr - (kr)²) exp(-jkr)/r³ × (-1).
        for (z, f) in [(0.6, 1e3), (0.6, 1e8), (3.0, 1e8)] {
            let arrangement = Arrangement::Coplanar { source: 1e-6, receiver: 1e-6 };
            let k = wavenumber_per_m(f);
            let order = arrangement.order(k).unwrap();
            let table = Table::new(arrangement, z, arrangement.step(z), order);
            let mut sum = Complex64::ZERO;
            for node in 0..table.x.len() {
                let both = value(&table.te, node, k) + value(&table.tm, node, k);
                sum += table.ln_weight[node].exp() * both;
            }
            // H_y = m/(8π²) ∫∫ … l dl dψ: π for the mean over ψ of what the table averages.
            sum *= Complex64::from_polar(1.0, -k * z);
            let kr = k * z;
            let exact = -Complex64::new(1.0 - kr * kr, kr) * Complex64::from_polar(1.0, -kr) / z.powi(3);
            assert!((sum / exact - 1.0).norm() < 1e-10, "{z} {f}: {sum} {exact}");
        }
    }

    #[test]
    fn reference_integral_of_short_rods_is_the_dipole() {
        // Axial field of an electric dipole: 2 (1 + jkr) exp(-jkr)/r³.
        for (z, f) in [(0.6, 1e3), (0.6, 1e8), (3.0, 1e8)] {
            let arrangement = Arrangement::Rods { source: 0.0, receiver: 0.0 };
            let k = wavenumber_per_m(f);
            let order = arrangement.order(k).unwrap();
            let table = Table::new(arrangement, z, arrangement.step(z), order);
            let mut sum = Complex64::ZERO;
            for node in 0..table.x.len() {
                sum += table.ln_weight[node].exp() * value(&table.tm, node, k);
            }
            sum *= Complex64::from_polar(1.0, -k * z);
            let kr = k * z;
            let exact = 2.0 * Complex64::new(1.0, kr) * Complex64::from_polar(1.0, -kr) / z.powi(3);
            assert!((sum / exact - 1.0).norm() < 1e-10, "{z} {f}: {sum} {exact}");
        }
    }
}
