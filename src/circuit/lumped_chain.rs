//! Chains of lumped parts, laid out for sweeps over frequency.
//!
//! The impedance or admittance of every lumped part of a filter, parasitics and a constant loss tangent
//! included, is a ratio of two quadratics in angular frequency,
//!
//! ```text
//! (n0 + n1 w + n2 w^2)/(d0 + d1 w + d2 w^2)
//! ```
//!
//! with complex coefficients that do not depend on frequency. A sweep works the coefficients out once, puts
//! them in columns, and evaluates the same short expression for any part: no case distinction on the kind of
//! part inside the loop over frequencies. Cascading an impedance or admittance into a chain matrix is one
//! complex multiply-add for each of its columns:
//!
//! ```text
//! series: B += Z A, D += Z C        shunt: A += Y B, C += Y D
//! ```
//!
//! on the excess over the identity (see [`two_port`](super::two_port)), where A and D stand for one plus their
//! excess.

use num_complex::Complex64;

use super::lumped_chain_lanes;
use super::two_port::{Terminations, TwoPort, ln_abs_identity_plus};
use super::worst_termination_lanes;

const ZERO: Complex64 = Complex64::new(0.0, 0.0);

/// A ratio of quadratics in angular frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Immittance {
    pub(crate) numerator: [Complex64; 3],
    pub(crate) denominator: [Complex64; 3],
}

impl Immittance {
    /// Series R-L, its inductance `L/(1 + s t)`, with a capacitance across the whole: the impedance of coils
    /// and resistors.
    pub(crate) fn coil(resistance: f64, inductance: f64, relaxation_s: f64, capacitance: f64) -> Self {
        // R + s L/(1 + s t) = (R + s (L + R t))/(1 + s t); then in parallel with s C; s = j w.
        let rising = inductance + resistance * relaxation_s;
        Self {
            numerator: [Complex64::new(resistance, 0.0), Complex64::new(0.0, rising), ZERO],
            denominator: [
                Complex64::new(1.0, 0.0),
                Complex64::new(0.0, relaxation_s + resistance * capacitance),
                Complex64::new(-capacitance * rising, 0.0),
            ],
        }
    }

    /// Capacitance `C (1 - j tan d)` in series with R and L: the admittance of capacitors.
    pub(crate) fn capacitor(capacitance: f64, loss_tangent: f64, resistance: f64, inductance: f64) -> Self {
        // s C (1 - j tan d) = w C (j + tan d).
        let rate = Complex64::new(capacitance * loss_tangent, capacitance);
        Self {
            numerator: [ZERO, rate, ZERO],
            denominator: [Complex64::new(1.0, 0.0), rate * resistance, rate * Complex64::new(0.0, inductance)],
        }
    }

    /// Impedance for admittance and the other way round.
    pub(crate) const fn inverse(self) -> Self {
        Self { numerator: self.denominator, denominator: self.numerator }
    }

    /// True if it is zero at every frequency.
    pub(crate) fn is_nothing(&self) -> bool {
        self.numerator == [ZERO; 3]
    }

    /// The value at an angular frequency in rad/s.
    pub(crate) fn at(&self, omega: f64) -> Complex64 {
        quadratic(&self.numerator, omega) / nonzero(quadratic(&self.denominator, omega))
    }
}

pub(crate) fn quadratic(coefficients: &[Complex64; 3], omega: f64) -> Complex64 {
    coefficients[0] + (coefficients[1] + coefficients[2] * omega) * omega
}

/// A lossless trap has a pole, and a frequency can hit it exactly. What is then answered is the value one
/// rounding step away, as for every frequency beside it, instead of a division by zero.
pub(crate) fn nonzero(denominator: Complex64) -> Complex64 {
    if denominator == ZERO { Complex64::new(f64::EPSILON * 0.25, 0.0) } else { denominator }
}

/// Terminations of a sweep.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Ends<'a> {
    /// The same at every frequency.
    Same(Terminations),
    /// One pair for each frequency.
    Each(&'a [Terminations]),
}

impl<'a> Ends<'a> {
    /// `len` places from `start` on.
    pub(crate) fn part(&self, start: usize, len: usize) -> Ends<'a> {
        match self {
            Self::Same(ends) => Self::Same(*ends),
            Self::Each(ends) => Self::Each(&ends[start..start + len]),
        }
    }

    pub(crate) fn at(&self, index: usize) -> &Terminations {
        match self {
            Self::Same(ends) => ends,
            Self::Each(ends) => &ends[index],
        }
    }
}

/// A chain of lumped series and shunt parts, one column for each coefficient.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct LumpedChain {
    /// True where the part stands in the line, false where it stands across it; from source to load.
    pub(crate) in_line: Vec<bool>,
    /// Real and imaginary parts of n0, n1, n2, each one entry for a part.
    pub(crate) numerator_re: [Vec<f64>; 3],
    pub(crate) numerator_im: [Vec<f64>; 3],
    /// Real and imaginary parts of d0, d1, d2.
    pub(crate) denominator_re: [Vec<f64>; 3],
    pub(crate) denominator_im: [Vec<f64>; 3],
}

/// Beyond this a chain is left to [`TwoPort`], which carries an exponent.
const LARGEST: f64 = 1e120;

impl LumpedChain {
    /// Adds a part at the load's end: an impedance in the line, or an admittance across it.
    pub(crate) fn push(&mut self, in_line: bool, part: &Immittance) {
        self.in_line.push(in_line);
        for power in 0..3 {
            self.numerator_re[power].push(part.numerator[power].re);
            self.numerator_im[power].push(part.numerator[power].im);
            self.denominator_re[power].push(part.denominator[power].re);
            self.denominator_im[power].push(part.denominator[power].im);
        }
    }

    /// Number of parts.
    pub(crate) fn len(&self) -> usize {
        self.in_line.len()
    }

    /// Impedance or admittance of one part at an angular frequency.
    pub(crate) fn immittance(&self, part: usize, omega: f64) -> Complex64 {
        let at = |re: &[Vec<f64>; 3], im: &[Vec<f64>; 3]| {
            Complex64::new(
                re[0][part] + (re[1][part] + re[2][part] * omega) * omega,
                im[0][part] + (im[1][part] + im[2][part] * omega) * omega,
            )
        };
        at(&self.numerator_re, &self.numerator_im) / nonzero(at(&self.denominator_re, &self.denominator_im))
    }

    /// The chain as a two-port at one frequency.
    pub(crate) fn two_port(&self, frequency_hz: f64) -> TwoPort {
        let omega = std::f64::consts::TAU * frequency_hz;
        (0..self.len()).fold(TwoPort::THROUGH, |so_far, part| {
            let value = self.immittance(part, omega);
            if self.in_line[part] { so_far.then_series(value) } else { so_far.then_shunt(value) }
        })
    }

    /// `ln|V20/V2|` at one frequency: the voltage and current that the chain needs at its input for one
    /// volt per ohm of load at its output, less what they would be without it.
    pub(crate) fn ln_insertion(&self, frequency_hz: f64, ends: &Terminations) -> f64 {
        let omega = std::f64::consts::TAU * frequency_hz;
        let (source, load) = (ends.source_ohm(), ends.load_ohm());
        let (mut voltage, mut current) = (ZERO, ZERO);
        for part in (0..self.len()).rev() {
            let value = self.immittance(part, omega);
            if self.in_line[part] {
                voltage += value * (current + 1.0);
            } else {
                current += value * (voltage + load);
            }
        }
        // A sum, because it keeps the not-a-number that an overflow on the way may have left.
        let size = voltage.re.abs() + voltage.im.abs() + current.re.abs() + current.im.abs();
        if size >= LARGEST || size.is_nan() {
            return self.two_port(frequency_hz).ln_insertion(ends).re;
        }
        ln_abs_identity_plus((voltage + source * current) / (source + load))
    }

    /// Natural logarithms of the largest `|V2/V20|` over all passive terminations, over a sweep; `out` is as
    /// long as `frequency_hz`.
    pub(crate) fn ln_largest_insertion_gains(&self, frequency_hz: &[f64], out: &mut [f64]) {
        worst_termination_lanes::ln_largest_insertion_gains(self, frequency_hz, out);
    }

    /// `ln|V20/V2|` over a sweep; `out` is as long as `frequency_hz`.
    pub(crate) fn ln_insertions(&self, frequency_hz: &[f64], ends: Ends<'_>, out: &mut [f64]) {
        lumped_chain_lanes::ln_insertions(self, frequency_hz, ends, out);
    }
}
