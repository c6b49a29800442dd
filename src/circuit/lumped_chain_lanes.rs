//! Insertion loss of a chain at many frequencies, a register at a time: the twin of
//! [`LumpedChain::ln_insertion`] and of [`CircuitChain::two_port`].
//!
//! Voltage and current march from the load to the source. The ratios of quadratics of a few parts
//! share one division, since a division costs as much as all the rest of a part:
//! 1/(a b c) gives 1/a, 1/b and 1/c by products.

use num_complex::Complex64;

use super::chain::{Case, CircuitChain, Link};
use super::line_law::LineLaw;
use super::lumped_chain::{Ends, LumpedChain};
use super::two_port::Terminations;
use super::worst_termination_lanes::ExcessLanes;
use crate::lanes::{Complex, Kernel, Real, Simd, Window, in_parts, paired, sweep};

/// So many parts share a division. The product of their squared denominators must stay in range; a
/// lane in which it does not is left to the scalar twin, as is one that grew too large.
const SHARING: usize = 4;

/// Beyond this a lane is left to the scalar twin, which carries an exponent.
const LARGEST: f64 = 1e120;

/// ln|V20/V2| over a sweep, as far as both `frequency_hz` and `out` go.
pub(crate) fn ln_insertions(chain: &LumpedChain, frequency_hz: &[f64], ends: Ends<'_>, out: &mut [f64]) {
    let (frequency_hz, out) = paired(frequency_hz, out);
    let columns = ChainLanes::new(chain);
    in_parts(out, frequency_hz.len() * (chain.len() + 1) / 4, |start, out| {
        let (frequency_hz, ends) = (&frequency_hz[start..start + out.len()], ends.part(start, out.len()));
        sweep(out.len(), &mut Insertions { columns: &columns, frequency_hz, ends, out });
        for (place, ln) in out.iter_mut().enumerate().filter(|(_, ln)| ln.is_nan()) {
            *ln = chain.ln_insertion(frequency_hz[place], ends.at(place));
        }
    });
}

/// The same for any chain.
pub(crate) fn ln_chain_insertions(chain: &CircuitChain<'_>, frequency_hz: &[f64], ends: Ends<'_>, out: &mut [f64]) {
    let (frequency_hz, out) = paired(frequency_hz, out);
    in_parts(out, frequency_hz.len() * chain.work() / 2, |start, out| {
        let (frequency_hz, ends) = (&frequency_hz[start..start + out.len()], ends.part(start, out.len()));
        let columns = ChainLanes::of(chain, frequency_hz);
        match columns.case {
            None => sweep(out.len(), &mut Insertions { columns: &columns, frequency_hz, ends, out }),
            Some(_) => sweep(out.len(), &mut CasedInsertions { columns: &columns, frequency_hz, ends, out }),
        }
        for (place, ln) in out.iter_mut().enumerate().filter(|(_, ln)| ln.is_nan()) {
            *ln = chain.two_port(frequency_hz[place]).ln_insertion(ends.at(place)).re;
        }
    });
}

/// The links of a chain from the load's end, lumped parts in groups that share a division.
#[derive(Debug)]
pub(super) struct ChainLanes {
    links: Vec<LinkLanes>,
    case: Option<Case>,
    is_reciprocal: bool,
}

#[derive(Debug)]
enum LinkLanes {
    Group(Group),
    Line(LineLaw),
    /// Real and imaginary parts of A - 1, B, C, D - 1 at every place.
    Columns(Box<[Vec<f64>; 8]>),
}

#[derive(Debug)]
struct Group {
    parts: Vec<PartLanes>,
    /// All coefficients of even powers are real and all of the odd one imaginary, as those of
    /// resistances, inductances and capacitances are; a loss tangent breaks that.
    in_step: bool,
}

#[derive(Debug, Clone, Copy)]
struct PartLanes {
    in_line: bool,
    numerator: [Complex64; 3],
    denominator: [Complex64; 3],
}

impl ChainLanes {
    pub(super) fn new(chain: &LumpedChain) -> Self {
        Self { links: groups(chain).map(LinkLanes::Group).collect(), case: None, is_reciprocal: true }
    }

    /// Of any chain, at the places of a sweep.
    pub(super) fn of(chain: &CircuitChain<'_>, frequency_hz: &[f64]) -> Self {
        let (mut links, mut is_reciprocal) = (Vec::new(), true);
        for link in chain.links.iter().rev() {
            match link {
                Link::Lumped(parts) => links.extend(groups(parts).map(LinkLanes::Group)),
                Link::Line(law) => links.push(LinkLanes::Line(*law)),
                Link::Asked(ask) => {
                    let mut columns: Box<[Vec<f64>; 8]> = Box::default();
                    for column in columns.iter_mut() {
                        column.reserve_exact(frequency_hz.len());
                    }
                    for &f in frequency_hz {
                        let two_port = ask(f);
                        is_reciprocal &= two_port.ln_determinant() == Complex64::ZERO;
                        for (entry, value) in two_port.plain_excess().into_iter().enumerate() {
                            columns[2 * entry].push(value.re);
                            columns[2 * entry + 1].push(value.im);
                        }
                    }
                    links.push(LinkLanes::Columns(columns));
                }
            }
        }
        Self { links, case: chain.case, is_reciprocal }
    }

    /// Whether all that was asked of it has a determinant of one.
    pub(super) fn is_reciprocal(&self) -> bool {
        self.is_reciprocal
    }

    /// The chain matrix less the identity, in its case.
    #[inline(always)]
    pub(super) fn excess<S: Simd>(&self, at: Window<S>, omega: Real<S>) -> ExcessLanes<S> {
        let zero = omega.constant(0.0);
        let none = Complex::new(zero, zero);
        let mut excess = ExcessLanes { a: none, b: none, c: none, d: none };
        self.walk(at, omega, &mut excess);
        match self.case {
            None => excess,
            Some(case) => excess.in_case(case, omega),
        }
    }

    /// Each link in turn, from the load's end.
    #[inline(always)]
    fn walk<S: Simd>(&self, at: Window<S>, omega: Real<S>, line: &mut impl PutBefore<S>) {
        for link in &self.links {
            match link {
                LinkLanes::Group(group) => group.walk(omega, line),
                LinkLanes::Line(law) => line.put_two_port_before(&line_excess(law, omega)),
                LinkLanes::Columns(columns) => {
                    let [a, a_im, b, b_im, c, c_im, d, d_im] = &**columns;
                    line.put_two_port_before(&ExcessLanes {
                        a: Complex::new(at.load(a), at.load(a_im)),
                        b: Complex::new(at.load(b), at.load(b_im)),
                        c: Complex::new(at.load(c), at.load(c_im)),
                        d: Complex::new(at.load(d), at.load(d_im)),
                    });
                }
            }
        }
    }
}

/// Lumped parts from the load's end, in groups that share a division.
fn groups(chain: &LumpedChain) -> impl Iterator<Item = Group> {
    let join = |re: &[Vec<f64>; 3], im: &[Vec<f64>; 3], part: usize| {
        std::array::from_fn(|power| Complex64::new(re[power][part], im[power][part]))
    };
    let parts: Vec<PartLanes> = (0..chain.len())
        .rev()
        .map(|part| PartLanes {
            in_line: chain.in_line[part],
            numerator: join(&chain.numerator_re, &chain.numerator_im, part),
            denominator: join(&chain.denominator_re, &chain.denominator_im, part),
        })
        .collect();
    // as even as can be: 9 parts make 3 + 3 + 3
    let groups = parts.len().div_ceil(SHARING).max(1);
    let length = parts.len().div_ceil(groups).max(1);
    let made: Vec<Group> = parts
        .chunks(length)
        .map(|parts| Group {
            in_step: parts.iter().all(|part| in_step(&part.numerator) && in_step(&part.denominator)),
            parts: parts.to_vec(),
        })
        .collect();
    made.into_iter()
}

/// A uniform line: with t = sqrt(Z Y) and e = exp(t) - 1, cosh t - 1 = e^2/(2 (1 + e)) and sinh t = (e + e/(1 + e))/2,
/// neither of which cancels.
#[inline(always)]
fn line_excess<S: Simd>(law: &LineLaw, omega: Real<S>) -> ExcessLanes<S> {
    let skin = omega.sqrt() * law.skin;
    let impedance = Complex::new(skin + law.resistance_ohm, omega.mul_add(law.inductance_h, skin));
    let admittance = omega * law.capacitance_f;
    let admittance = Complex::new(admittance * law.loss_tangent, admittance);
    let admittance = if law.series_ohm > 0.0 {
        admittance * admittance.scale(omega.constant(law.series_ohm)).plus_one().recip()
    } else {
        admittance
    };
    let square = impedance * admittance;
    let root = square.sqrt();
    let e = root.exp_m1();
    let beside = e * e.plus_one().recip();
    let half = omega.constant(0.5);
    let (sinh, excess) = ((e + beside).scale(half), (e * beside).scale(half));
    let one = Complex::new(omega.constant(1.0), omega.constant(0.0));
    // No length at all leaves 0/0.
    let long = square.norm_sqr().greater(1e-40);
    let ratio = sinh * root.recip();
    let ratio = Complex::new(long.select(ratio.re, one.re), long.select(ratio.im, one.im));
    let short = square.scale(half);
    let excess = Complex::new(long.select(excess.re, short.re), long.select(excess.im, short.im));
    let line = ExcessLanes { a: excess, b: impedance * ratio, c: admittance * ratio, d: excess };
    if law.return_h > 0.0 {
        line.with_common_impedance(Complex::new(omega.constant(0.0), omega * law.return_h)).unless_large(&line)
    } else {
        line
    }
}

impl<S: Simd> ExcessLanes<S> {
    /// See [`TwoPort::with_common_impedance`](super::TwoPort::with_common_impedance), for reciprocal chains.
    #[inline(always)]
    fn with_common_impedance(self, impedance: Complex<S>) -> Self {
        let over = (self.c * impedance).plus_one().recip();
        Self {
            a: self.a * over,
            b: (self.a + self.d).mul_add(impedance, self.b) * over,
            c: self.c * over,
            d: self.d * over,
        }
    }

    /// Voltages and currents exchanged.
    #[inline(always)]
    fn dual(self) -> Self {
        Self { a: self.d, b: self.c, c: self.b, d: self.a }
    }

    /// Not a number where what it was made of is so large that a square of it overflows: the scalar twin has to decide.
    #[inline(always)]
    fn unless_large(mut self, before: &Self) -> Self {
        let size = [before.a, before.b, before.c, before.d].map(|entry| entry.re.abs() + entry.im.abs());
        let sound = (size[0] + size[1] + (size[2] + size[3])).less(LARGEST);
        self.b.re = sound.select(self.b.re, f64::NAN);
        self
    }

    /// Not a number where the chain is too large for that.
    #[inline(always)]
    fn in_case(self, case: Case, omega: Real<S>) -> Self {
        let mut built = self;
        if case.stray_f > 0.0 {
            let stray = Complex::new(omega.constant(0.0), omega * case.stray_f);
            built = built.dual().with_common_impedance(stray).dual();
        }
        if case.bond_ohm > 0.0 || case.bond_h > 0.0 {
            built = built.with_common_impedance(Complex::new(omega.constant(case.bond_ohm), omega * case.bond_h));
        }
        built.unless_large(&self)
    }
}

fn in_step(coefficients: &[Complex64; 3]) -> bool {
    coefficients[0].im == 0.0 && coefficients[1].re == 0.0 && coefficients[2].im == 0.0
}

struct Insertions<'a> {
    columns: &'a ChainLanes,
    frequency_hz: &'a [f64],
    ends: Ends<'a>,
    out: &'a mut [f64],
}

impl Kernel for Insertions<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let omega = at.load(self.frequency_hz) * std::f64::consts::TAU;
        let ends = terminations(self.ends, at);
        let zero = at.splat(0.0);
        let mut line = Line { voltage: Complex::new(zero, zero), current: Complex::new(zero, zero), load: ends.load };
        self.columns.walk(at, omega, &mut line);
        let Line { voltage, current, .. } = line;
        let excess = ends.source.mul_add(current, voltage) * ends.over_sum;
        let size = voltage.re.abs() + voltage.im.abs() + (current.re.abs() + current.im.abs());
        let ln = excess.ln_abs_identity_plus();
        at.store(size.less(LARGEST).select(ln, f64::NAN), self.out);
    }
}

/// The same where the case needs the whole chain matrix.
struct CasedInsertions<'a> {
    columns: &'a ChainLanes,
    frequency_hz: &'a [f64],
    ends: Ends<'a>,
    out: &'a mut [f64],
}

impl Kernel for CasedInsertions<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let omega = at.load(self.frequency_hz) * std::f64::consts::TAU;
        let ends = terminations(self.ends, at);
        let excess = self.columns.excess(at, omega);
        let voltage = ends.load.mul_add(excess.a, excess.b);
        let current = ends.load.mul_add(excess.c, excess.d);
        let size = voltage.re.abs() + voltage.im.abs() + (current.re.abs() + current.im.abs());
        let ln = (ends.source.mul_add(current, voltage) * ends.over_sum).ln_abs_identity_plus();
        at.store(size.less(LARGEST).select(ln, f64::NAN), self.out);
    }
}

struct EndsLanes<S: Simd> {
    source: Complex<S>,
    load: Complex<S>,
    /// One over their sum.
    over_sum: Complex<S>,
}

#[inline(always)]
fn terminations<S: Simd>(ends: Ends<'_>, at: Window<S>) -> EndsLanes<S> {
    match ends {
        Ends::Same(ends) => EndsLanes {
            source: at.splat_complex(ends.source_ohm()),
            load: at.splat_complex(ends.load_ohm()),
            over_sum: at.splat_complex(1.0 / (ends.source_ohm() + ends.load_ohm())),
        },
        Ends::Each(each) => {
            let gather = |value: fn(&Terminations) -> f64| at.gather(|place| value(&each[place]));
            let source = Complex::new(gather(|ends| ends.source_ohm().re), gather(|ends| ends.source_ohm().im));
            let load = Complex::new(gather(|ends| ends.load_ohm().re), gather(|ends| ends.load_ohm().im));
            EndsLanes { source, load, over_sum: (source + load).recip() }
        }
    }
}

/// What the chain so far needs at its input beyond a plain through, for one ampere into the load.
struct Line<S: Simd> {
    voltage: Complex<S>,
    current: Complex<S>,
    load: Complex<S>,
}

/// What grows from the load's end by one part after the other. A trait and not a closure, because it must
/// be inlined into code for the instruction set at hand, and only a method can be told so.
trait PutBefore<S: Simd> {
    fn put_before(&mut self, in_line: bool, value: Complex<S>);

    fn put_two_port_before(&mut self, two_port: &ExcessLanes<S>);
}

impl<S: Simd> PutBefore<S> for Line<S> {
    #[inline(always)]
    fn put_before(&mut self, in_line: bool, value: Complex<S>) {
        if in_line {
            self.voltage = value.mul_add(self.current.plus_one(), self.voltage);
        } else {
            self.current = value.mul_add(self.voltage + self.load, self.current);
        }
    }

    #[inline(always)]
    fn put_two_port_before(&mut self, two_port: &ExcessLanes<S>) {
        let (voltage, current) = (self.voltage + self.load, self.current.plus_one());
        self.voltage = two_port.b.mul_add(current, two_port.a.mul_add(voltage, self.voltage));
        self.current = two_port.d.mul_add(current, two_port.c.mul_add(voltage, self.current));
    }
}

impl<S: Simd> PutBefore<S> for ExcessLanes<S> {
    #[inline(always)]
    fn put_before(&mut self, in_line: bool, value: Complex<S>) {
        if in_line {
            self.a = value.mul_add(self.c, self.a);
            self.b = value.mul_add(self.d.plus_one(), self.b);
        } else {
            self.c = value.mul_add(self.a.plus_one(), self.c);
            self.d = value.mul_add(self.b, self.d);
        }
    }

    #[inline(always)]
    fn put_two_port_before(&mut self, two_port: &ExcessLanes<S>) {
        let ExcessLanes { a, b, c, d } = *self;
        self.a = two_port.a.mul_add(a.plus_one(), two_port.b.mul_add(c, a));
        self.b = two_port.a.mul_add(b, two_port.b.mul_add(d.plus_one(), b));
        self.c = two_port.c.mul_add(a.plus_one(), two_port.d.mul_add(c, c));
        self.d = two_port.c.mul_add(b, two_port.d.mul_add(d.plus_one(), d));
    }
}

impl Group {
    #[inline(always)]
    fn walk<S: Simd>(&self, omega: Real<S>, line: &mut impl PutBefore<S>) {
        match self.parts.as_slice() {
            [a, b, c, d] => self.pass([a, b, c, d], omega, line),
            [a, b, c] => self.pass([a, b, c], omega, line),
            [a, b] => self.pass([a, b], omega, line),
            parts => {
                for part in parts {
                    self.pass([part], omega, line);
                }
            }
        }
    }

    /// Puts the parts before what the line has. A pole that is hit exactly makes 1/0 and so a lane for
    /// the scalar twin.
    #[inline(always)]
    fn pass<S: Simd, const N: usize>(&self, parts: [&PartLanes; N], omega: Real<S>, line: &mut impl PutBefore<S>) {
        let values = self.values(parts, omega);
        for place in 0..N {
            line.put_before(parts[place].in_line, values[place]);
        }
    }

    /// Impedance or admittance of each part.
    #[inline(always)]
    fn values<S: Simd, const N: usize>(&self, parts: [&PartLanes; N], omega: Real<S>) -> [Complex<S>; N] {
        let square = omega * omega;
        let zero = omega.constant(0.0);
        let none = Complex::new(zero, zero);
        let (mut values, mut denominators) = ([none; N], [none; N]);
        // Loops, since the closures of array methods are not inlined with certainty.
        for place in 0..N {
            let PartLanes { numerator, denominator, .. } = parts[place];
            (values[place], denominators[place]) = if self.in_step {
                (quadratic_in_step(numerator, omega, square), quadratic_in_step(denominator, omega, square))
            } else {
                (quadratic(numerator, omega), quadratic(denominator, omega))
            };
        }
        // the product of each square and all before it
        let (mut squares, mut products) = ([zero; N], [zero; N]);
        for place in 0..N {
            squares[place] = denominators[place].norm_sqr();
            products[place] = if place == 0 { squares[0] } else { products[place - 1] * squares[place] };
        }
        let mut over = 1.0 / products[N - 1];
        for place in (0..N).rev() {
            let own = if place == 0 { over } else { over * products[place - 1] };
            over = over * squares[place];
            values[place] = values[place].mul_conj(denominators[place]).scale(own);
        }
        values
    }
}

#[inline(always)]
fn quadratic<S: Simd>(coefficients: &[Complex64; 3], omega: Real<S>) -> Complex<S> {
    let [constant, linear, square] = coefficients;
    Complex::new(
        omega.constant(square.re).mul_add(omega, linear.re).mul_add(omega, constant.re),
        omega.constant(square.im).mul_add(omega, linear.im).mul_add(omega, constant.im),
    )
}

/// See [`Group::in_step`].
#[inline(always)]
fn quadratic_in_step<S: Simd>(coefficients: &[Complex64; 3], omega: Real<S>, square: Real<S>) -> Complex<S> {
    Complex::new(square.mul_add(coefficients[2].re, coefficients[0].re), omega * coefficients[1].im)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::lumped_chain::Immittance;

    fn frequencies() -> Vec<f64> {
        (0..=480).map(|i| 10f64.powf(f64::from(i) * 0.025)).collect()
    }

    /// Alternately in the line and across it.
    fn ladder(parts: &[(Immittance, bool)]) -> LumpedChain {
        let mut chain = LumpedChain::default();
        for (part, in_line) in parts {
            chain.push(*in_line, part);
        }
        chain
    }

    fn coil(scale: f64) -> (Immittance, bool) {
        (Immittance::coil(0.02 * scale, 30e-6 * scale, 1e-9, 5e-12 / scale), true)
    }

    fn capacitor(scale: f64) -> (Immittance, bool) {
        (Immittance::capacitor(0.5e-6 * scale, 1e-3, 5e-3, 8e-9), false)
    }

    fn chains() -> Vec<LumpedChain> {
        let lossless = [
            (Immittance::coil(0.0, 1e-6, 0.0, 0.0), true),
            (Immittance::capacitor(1e-9, 0.0, 0.0, 0.0), false),
            (Immittance::coil(0.0, 1e-6, 0.0, 1e-12), true),
        ];
        let long: Vec<_> = (0..37).flat_map(|i| [coil(1.0 + 0.1 * f64::from(i)), capacitor(1.0)]).collect();
        vec![
            ladder(&[]),
            ladder(&[coil(1.0)]),
            ladder(&[capacitor(1.0), coil(2.0), capacitor(0.1)]),
            ladder(&[coil(1.0), capacitor(1.0), coil(2.0), capacitor(0.1), coil(1e-3)]),
            ladder(&lossless),
            ladder(&long),
            // so small that only the excess over a plain through can show it
            ladder(&[(Immittance::coil(1e-9, 1e-15, 0.0, 0.0), true)]),
        ]
    }

    fn circuits() -> Vec<Terminations> {
        vec![
            Terminations::fifty_ohm(),
            Terminations::low_to_high(),
            Terminations::high_to_low(),
            Terminations::new(Complex64::new(5.0, -300.0), Complex64::new(0.0, 70.0)).unwrap(),
        ]
    }

    fn holds_together(chain: &LumpedChain, frequency_hz: &[f64], ends: Ends<'_>) {
        let mut found = vec![0.0; frequency_hz.len()];
        ln_insertions(chain, frequency_hz, ends, &mut found);
        for (i, (&f, &found)) in frequency_hz.iter().zip(&found).enumerate() {
            let expected = chain.ln_insertion(f, ends.at(i));
            let error = (found - expected).abs();
            // where parts cancel at a resonance, the rounding of either twin shows
            let bound = 1e-12 * expected.abs() + 1e-13;
            assert!(error <= bound, "{} parts at {f:e} Hz: {found:e}, {expected:e}", chain.len());
        }
    }

    #[test]
    fn twins_hold_together() {
        let frequency_hz = frequencies();
        for chain in chains() {
            for ends in circuits() {
                holds_together(&chain, &frequency_hz, Ends::Same(ends));
            }
            let each: Vec<Terminations> = circuits().into_iter().cycle().take(frequency_hz.len()).collect();
            holds_together(&chain, &frequency_hz, Ends::Each(&each));
        }
    }

    #[test]
    fn small_losses_keep_their_digits() {
        let (frequency_hz, chain) = (frequencies(), ladder(&[(Immittance::coil(1e-9, 1e-16, 0.0, 0.0), true)]));
        let mut found = vec![0.0; frequency_hz.len()];
        ln_insertions(&chain, &frequency_hz, Ends::Same(Terminations::fifty_ohm()), &mut found);
        for (&f, found) in frequency_hz.iter().zip(found) {
            let expected = chain.ln_insertion(f, &Terminations::fifty_ohm());
            assert!((found / expected - 1.0).abs() < 1e-12, "{f:e}: {found:e}, {expected:e}");
        }
    }

    #[test]
    fn a_pole_hit_exactly_is_a_value_beside_it() {
        // 1 - w^2 L C = 0 to the last bit for L = C = 1 at w = 1
        let chain = ladder(&[(Immittance::coil(0.0, 1.0, 0.0, 1.0), true), capacitor(1.0)]);
        let frequency_hz = [1.0 / std::f64::consts::TAU; 9];
        holds_together(&chain, &frequency_hz, Ends::Same(Terminations::fifty_ohm()));
    }
}
