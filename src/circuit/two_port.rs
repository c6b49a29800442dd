//! Linear two-ports in cascade, between any terminations.
//!
//! A two-port is held by its chain matrix
//!
//! ```text
//! | V1 |   | A  B | | V2 |
//! | I1 | = | C  D | | I2 |      (I2 flows out of port 2)
//! ```
//!
//! and the chain matrix by its *excess over a plain through*, `M = I + exp(s) N`.
//! Both halves of that choice earn their keep:
//!
//! * a loss of 1e-7 dB is a difference of 1e-8 between `A` and one, and would drown in rounding if `A`
//!   itself were carried; the excess keeps every digit of it;
//! * a cascade of thousands of dB has entries beyond any floating-point number; the exponent `s` takes
//!   them, and every result is formed from logarithms.
//!
//! Insertion loss is the field's standard definition: the voltage at the load with source and load joined
//! directly, over that with the two-port between them (CISPR 17, *Methods of measurement of the
//! suppression characteristics of passive EMC filtering devices*):
//!
//! ```text
//! IL = 20 log10 |V20/V2|,   V20/V2 = (A Z2 + B + C Z1 Z2 + D Z1)/(Z1 + Z2)
//! ```
//!
//! It compares with the direct connection, not with the power available, so a filter that tunes out
//! a mismatch has a negative insertion loss: a gain. That is no error and is never hidden.
//!
//! Valid for any linear two-port at any frequency: nothing here depends on one. Scattering parameters are
//! power waves (K. Kurokawa, *Power waves and the scattering matrix*, IEEE Trans. MTT 13, 1965), converted
//! after D. A. Frickey, *Conversions between S, Z, Y, h, ABCD, and T parameters which are valid for complex
//! source and load impedances*, IEEE Trans. MTT 42, 1994.
//!
//! ```
//! use num_complex::Complex64;
//! use stillroom::circuit::two_port::{Terminations, TwoPort};
//!
//! // 1 uF across a 50 ohm system at 100 kHz: 10 log10(1 + (w R C/2)^2) = 23.94 dB.
//! let w = 2.0 * std::f64::consts::PI * 100e3;
//! let shunt = TwoPort::shunt(Complex64::new(0.0, w * 1e-6));
//! let loss_db = shunt.insertion_loss_db(&Terminations::fifty_ohm());
//! assert!((loss_db - 23.94).abs() < 0.005);
//! ```

use num_complex::Complex64;

use crate::decibel::DB_PER_NEPER;

use crate::circuit::bounds;
use crate::error::{Error, Result, check};

const ZERO: Complex64 = Complex64::new(0.0, 0.0);
const ONE: Complex64 = Complex64::new(1.0, 0.0);

/// Entries above this are moved into the exponent. Far below the largest double, so that one more product
/// of two entries still fits.
const RESCALE_ABOVE: f64 = 1e90;

/// Source and load impedance at one frequency.
///
/// Both finite, with a real part of zero or more, and not adding up to zero: the direct connection that
/// insertion loss compares with must exist.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "TerminationsRecord"))]
pub struct Terminations {
    source_ohm: Complex64,
    load_ohm: Complex64,
}

/// What is read before it is checked.
#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct TerminationsRecord {
    source_ohm: Complex64,
    load_ohm: Complex64,
}

#[cfg(feature = "serde")]
impl TryFrom<TerminationsRecord> for Terminations {
    type Error = Error;
    fn try_from(record: TerminationsRecord) -> Result<Self> {
        Self::new(record.source_ohm, record.load_ohm)
    }
}

impl Terminations {
    /// Checks and pairs a source and a load impedance, both in ohms.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a part that is not finite or a negative resistance;
    /// [`Error::Relation`] for two impedances that cancel.
    pub fn new(source_ohm: impl Into<Complex64>, load_ohm: impl Into<Complex64>) -> Result<Self> {
        let (source_ohm, load_ohm) = (source_ohm.into(), load_ohm.into());
        passive_impedance("source_ohm", source_ohm)?;
        passive_impedance("load_ohm", load_ohm)?;
        let sum = source_ohm + load_ohm;
        if sum == ZERO || !sum.is_finite() {
            return Err(Error::Relation {
                quantity: "source_ohm".into(),
                value: source_ohm.im,
                unit: "ohm".into(),
                relation: "other than minus the reactance of".into(),
                other: "load_ohm".into(),
                other_value: load_ohm.im,
            });
        }
        Ok(Self { source_ohm, load_ohm })
    }

    // Both with a positive resistance, which the caller's types guarantee.
    pub(crate) const fn from_passive(source_ohm: Complex64, load_ohm: Complex64) -> Self {
        Self { source_ohm, load_ohm }
    }

    /// 50 ohm on both sides: the measuring room's own system, and the usual figure in print.
    #[must_use]
    pub const fn fifty_ohm() -> Self {
        Self { source_ohm: Complex64::new(50.0, 0.0), load_ohm: Complex64::new(50.0, 0.0) }
    }

    /// 0.1 ohm source, 100 ohm load: one of the two mismatched pairs of CISPR 17.
    #[must_use]
    pub const fn low_to_high() -> Self {
        Self { source_ohm: Complex64::new(0.1, 0.0), load_ohm: Complex64::new(100.0, 0.0) }
    }

    /// 100 ohm source, 0.1 ohm load: the other mismatched pair of CISPR 17.
    #[must_use]
    pub const fn high_to_low() -> Self {
        Self { source_ohm: Complex64::new(100.0, 0.0), load_ohm: Complex64::new(0.1, 0.0) }
    }

    /// Source impedance in ohms.
    #[must_use]
    pub const fn source_ohm(&self) -> Complex64 {
        self.source_ohm
    }

    /// Load impedance in ohms.
    #[must_use]
    pub const fn load_ohm(&self) -> Complex64 {
        self.load_ohm
    }

    /// The same pair seen from the other side.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self { source_ohm: self.load_ohm, load_ohm: self.source_ohm }
    }
}

fn passive_impedance(quantity: &'static str, z: Complex64) -> Result<()> {
    bounds::non_negative(quantity, "ohm", z.re)?;
    bounds::bounded(quantity, "ohm", z.im)?;
    Ok(())
}

/// Power-wave scattering parameters of a two-port, transmissions as complex natural logarithms.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Scattering {
    /// Reflection at port 1.
    pub s11: Complex64,
    /// Reflection at port 2.
    pub s22: Complex64,
    /// Natural logarithm of the transmission from port 1 to port 2.
    pub ln_s21: Complex64,
    /// Natural logarithm of the transmission from port 2 to port 1.
    pub ln_s12: Complex64,
}

impl Scattering {
    /// Transmission from port 1 to port 2; underflows to zero beyond some 6000 dB.
    #[must_use]
    pub fn s21(&self) -> Complex64 {
        self.ln_s21.exp()
    }

    /// Transmission from port 2 to port 1; underflows to zero beyond some 6000 dB.
    #[must_use]
    pub fn s12(&self) -> Complex64 {
        self.ln_s12.exp()
    }

    /// How far the two-port is from passive: the largest eigenvalue of `S^H S` less one. Zero or less means
    /// passive; 0.01 means that for some excitation 1 % more power comes out than goes in.
    #[must_use]
    pub fn excess_gain(&self) -> f64 {
        let (s21, s12) = (self.s21(), self.s12());
        let p = self.s11.norm_sqr() + s21.norm_sqr();
        let q = s12.norm_sqr() + self.s22.norm_sqr();
        let cross = (self.s11.conj() * s12 + s21.conj() * self.s22).norm();
        0.5 * (p + q) + (0.5 * (p - q)).hypot(cross) - 1.0
    }
}

/// One linear two-port at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoPort {
    // Excess N = (M - I) exp(-ln_scale).
    a: Complex64,
    b: Complex64,
    c: Complex64,
    d: Complex64,
    // Zero in ordinary work, never negative.
    ln_scale: f64,
    // ln(AD - BC): zero for a reciprocal two-port. Carried, because forming it from the entries of a lossy
    // cascade leaves nothing but rounding.
    ln_determinant: Complex64,
}

impl TwoPort {
    /// The plain through: no loss, no phase.
    pub const THROUGH: Self = Self { a: ZERO, b: ZERO, c: ZERO, d: ZERO, ln_scale: 0.0, ln_determinant: ZERO };

    /// An impedance in the line, in ohms.
    #[must_use]
    pub const fn series(impedance_ohm: Complex64) -> Self {
        Self { b: impedance_ohm, ..Self::THROUGH }
    }

    /// An admittance across the line, in siemens.
    #[must_use]
    pub const fn shunt(admittance_s: Complex64) -> Self {
        Self { c: admittance_s, ..Self::THROUGH }
    }

    /// A uniform line with the given whole series impedance (ohm) and whole shunt admittance (siemens).
    ///
    /// `A = D = cosh t`, `B = Z sinh(t)/t`, `C = Y sinh(t)/t` with `t = sqrt(Z Y)`: exact for a uniform line
    /// of any length, such as the electrode of a feedthrough capacitor.
    /// Source: any text on transmission lines, such as D. M. Pozar, *Microwave Engineering*, table 4.1.
    #[must_use]
    pub fn uniform_line(impedance_ohm: Complex64, admittance_s: Complex64) -> Self {
        let square = impedance_ohm * admittance_s;
        if square.norm_sqr() < 1e-6 {
            // Four terms of each series: the next is below 1e-17 of the first.
            let shc = ONE + square / 6.0 * (ONE + square / 20.0 * (ONE + square / 42.0));
            let excess = square / 2.0 * (ONE + square / 12.0 * (ONE + square / 30.0 * (ONE + square / 56.0)));
            return Self {
                a: excess,
                b: impedance_ohm * shc,
                c: admittance_s * shc,
                d: excess,
                ln_scale: 0.0,
                ln_determinant: ZERO,
            };
        }
        let root = square.sqrt();
        let (x, y) = if root.re < 0.0 { (-root.re, -root.im) } else { (root.re, root.im) };
        let t = Complex64::new(x, y);
        let (sin, cos) = y.sin_cos();
        let (excess, sinh, ln_scale) = if x < 30.0 {
            let half = Complex64::new((0.5 * x).sinh() * (0.5 * y).cos(), (0.5 * x).cosh() * (0.5 * y).sin());
            (2.0 * half * half, Complex64::new(x.sinh() * cos, x.cosh() * sin), 0.0)
        } else {
            // exp(-2x) is far below rounding here, exp(-x) is what the identity weighs.
            let wave = Complex64::new(0.5 * cos, 0.5 * sin);
            (wave - (-x).exp(), wave, x)
        };
        let shc = sinh / t;
        Self { a: excess, b: impedance_ohm * shc, c: admittance_s * shc, d: excess, ln_scale, ln_determinant: ZERO }
    }

    /// A two-port from its chain matrix `[[A, B], [C, D]]` (1, ohm, siemens, 1).
    ///
    /// # Errors
    /// [`Error::OutOfRange`] when an entry is not finite or the determinant is zero.
    pub fn from_chain(chain: [[Complex64; 2]; 2]) -> Result<Self> {
        let [[a, b], [c, d]] = chain;
        for (name, entry) in [("chain_a", a), ("chain_b", b), ("chain_c", c), ("chain_d", d)] {
            check::finite(name, "", entry.re)?;
            check::finite(name, "", entry.im)?;
        }
        let determinant = a * d - b * c;
        check::positive("chain_determinant", "", determinant.norm())?;
        Ok(Self { a: a - ONE, b, c, d: d - ONE, ln_scale: 0.0, ln_determinant: determinant.ln() }.rescaled())
    }

    /// A two-port from measured scattering parameters `[[S11, S12], [S21, S22]]`, power waves referred to
    /// the given impedances, whose real parts must be positive.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] when an entry is not finite, when there is no transmission at all in one
    /// direction (no chain matrix exists then), or when a reference has no resistance.
    pub fn from_scattering(s: [[Complex64; 2]; 2], references: &Terminations) -> Result<Self> {
        let [[s11, s12], [s21, s22]] = s;
        for (name, entry) in [("s11", s11), ("s12", s12), ("s21", s21), ("s22", s22)] {
            check::finite(name, "", entry.re)?;
            check::finite(name, "", entry.im)?;
        }
        check::positive("s21", "", s21.norm())?;
        check::positive("s12", "", s12.norm())?;
        references.resistive()?;
        Ok(Self::from_ln_scattering(s11, s12.ln(), s21.ln(), s22, references))
    }

    // The same from logarithms of the transmissions; references must have resistance.
    pub(crate) fn from_ln_scattering(
        s11: Complex64,
        ln_s12: Complex64,
        ln_s21: Complex64,
        s22: Complex64,
        references: &Terminations,
    ) -> Self {
        let (z1, z2) = (references.source_ohm, references.load_ohm);
        let loop_gain = (ln_s12 + ln_s21).exp();
        let (one_1, one_2) = (z1.conj() + s11 * z1, z2.conj() + s22 * z2);
        // What divides the entries: its size goes to the exponent where it is small, its phase to the entries.
        let ln_divisor = (2.0 * (z1.re * z2.re).sqrt()).ln() + ln_s21;
        let ln_scale = if ln_divisor.re < -60.0 { -ln_divisor.re } else { 0.0 };
        let factor = (-ln_divisor - ln_scale).exp();
        let identity = (-ln_scale).exp();
        Self {
            a: (one_1 * (ONE - s22) + loop_gain * z1) * factor - identity,
            b: (one_1 * one_2 - loop_gain * z1 * z2) * factor,
            c: ((ONE - s11) * (ONE - s22) - loop_gain) * factor,
            d: ((ONE - s11) * one_2 + loop_gain * z2) * factor - identity,
            ln_scale,
            ln_determinant: ln_s12 - ln_s21,
        }
    }

    /// This two-port followed by another: the other's port 1 is joined to this one's port 2.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        let (own, other) = (self, next);
        // I + e^s1 N1 + e^s2 N2 + e^(s1+s2) N1 N2, divided by e^(s1+s2).
        let (weight_own, weight_other) = if own.ln_scale == 0.0 && other.ln_scale == 0.0 {
            (1.0, 1.0)
        } else {
            ((-other.ln_scale).exp(), (-own.ln_scale).exp())
        };
        Self {
            a: own.a * weight_own + other.a * weight_other + own.a * other.a + own.b * other.c,
            b: own.b * weight_own + other.b * weight_other + own.a * other.b + own.b * other.d,
            c: own.c * weight_own + other.c * weight_other + own.c * other.a + own.d * other.c,
            d: own.d * weight_own + other.d * weight_other + own.c * other.b + own.d * other.d,
            ln_scale: own.ln_scale + other.ln_scale,
            ln_determinant: own.ln_determinant + other.ln_determinant,
        }
        .rescaled()
    }

    /// This two-port followed by an impedance in the line, in ohms.
    #[must_use]
    pub fn then_series(&self, impedance_ohm: Complex64) -> Self {
        let identity = self.identity();
        Self { b: self.b + impedance_ohm * (self.a + identity), d: self.d + impedance_ohm * self.c, ..*self }.rescaled()
    }

    /// This two-port followed by an admittance across the line, in siemens.
    #[must_use]
    pub fn then_shunt(&self, admittance_s: Complex64) -> Self {
        let identity = self.identity();
        Self { a: self.a + admittance_s * self.b, c: self.c + admittance_s * (self.d + identity), ..*self }.rescaled()
    }

    /// All of them, one after the other; an empty chain is a plain through.
    #[must_use]
    pub fn chain<'a>(parts: impl IntoIterator<Item = &'a Self>) -> Self {
        parts.into_iter().fold(Self::THROUGH, |so_far, part| so_far.then(part))
    }

    /// The same two-port driven from its other end.
    #[must_use]
    pub fn reversed(&self) -> Self {
        // [[D, B], [C, A]]/det; for a reciprocal two-port the factor is one, and the small excess keeps its
        // digits because one is never added to it.
        let turn = (-self.ln_determinant).exp();
        let turned_identity = (turn - ONE) * self.identity();
        Self {
            a: self.d * turn + turned_identity,
            b: self.b * turn,
            c: self.c * turn,
            d: self.a * turn + turned_identity,
            ln_scale: self.ln_scale,
            ln_determinant: -self.ln_determinant,
        }
    }

    /// With an impedance common to both ports in the return path: what a filter's case sees when its bond
    /// to the wall is not perfect (series-series connection with a shared impedance).
    ///
    /// Adding `Zb` to all four impedance parameters gives, in excess form, `a/(1 + C Zb)`, `C/(1 + C Zb)`,
    /// `d/(1 + C Zb)` and `(B + (a + d) Zb)/(1 + C Zb)`: no cancellation, and at high loss the transmission
    /// settles at that of `Zb` itself.
    #[must_use]
    pub fn with_common_impedance(&self, impedance_ohm: Complex64) -> Self {
        let identity = self.identity();
        let product = self.c * impedance_ohm;
        // 1 + e^s C Zb over e^s; dividing by it uses the exponent up.
        let divisor = product + identity;
        let (missing, ln_determinant) = if self.ln_determinant == ZERO {
            (ZERO, ZERO)
        } else {
            let determinant = self.ln_determinant.exp();
            ((ONE - determinant) * identity, ((determinant * identity + product) / divisor).ln())
        };
        Self {
            a: self.a / divisor,
            b: (self.b + (self.a + self.d + missing) * impedance_ohm) / divisor,
            c: self.c / divisor,
            d: self.d / divisor,
            ln_scale: 0.0,
            ln_determinant,
        }
        .rescaled()
    }

    /// With an admittance from the input to the output, past the two-port: stray capacitance inside a plain
    /// can (parallel-parallel connection). The dual of [`with_common_impedance`](Self::with_common_impedance).
    #[must_use]
    pub fn with_bridging_admittance(&self, admittance_s: Complex64) -> Self {
        self.dual().with_common_impedance(admittance_s).dual()
    }

    // Voltages and currents exchanged.
    const fn dual(self) -> Self {
        Self { a: self.d, b: self.c, c: self.b, d: self.a, ..self }
    }

    /// Complex natural logarithm of `V20/V2`: real part the insertion loss in nepers, imaginary part the
    /// phase by which the two-port delays the load voltage, in radians, in (-pi, pi].
    #[must_use]
    pub fn ln_insertion(&self, ends: &Terminations) -> Complex64 {
        let x = self.denominator_excess(ends) / (ends.source_ohm + ends.load_ohm);
        ln_identity_plus(x, self.ln_scale)
    }

    /// Insertion loss in dB between the given terminations; negative where the two-port tunes out a mismatch.
    #[must_use]
    pub fn insertion_loss_db(&self, ends: &Terminations) -> f64 {
        DB_PER_NEPER * self.ln_insertion(ends).re
    }

    /// Natural logarithm of the transducer power gain: power into the load over the power that the source
    /// could give at best. Never above zero for a passive two-port; minus infinity between reactances.
    #[must_use]
    pub fn ln_transducer_gain(&self, ends: &Terminations) -> f64 {
        let (z1, z2) = (ends.source_ohm, ends.load_ohm);
        // 4 R1 R2/|Z1 + Z2|^2 is the gain of the direct connection.
        let direct = (4.0 * z1.re * z2.re).ln() - 2.0 * ln_abs(z1 + z2);
        direct - 2.0 * self.ln_insertion(ends).re
    }

    /// Power-wave scattering parameters for complex references with positive resistance.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a reference without resistance.
    pub fn scattering(&self, references: &Terminations) -> Result<Scattering> {
        let (z1, z2) = references.resistive()?;
        let identity = self.identity();
        let excess = self.denominator_excess(references);
        let denominator = excess + (z1 + z2) * identity;
        let ln_denominator = ln_identity_plus(excess / (z1 + z2), self.ln_scale) + (z1 + z2).ln();
        let (c1, c2) = (z1.conj(), z2.conj());
        let reflected_1 = self.a * z2 + self.b - self.c * c1 * z2 - self.d * c1 + (z2 - c1) * identity;
        let reflected_2 = self.b + self.d * z1 - self.a * c2 - self.c * z1 * c2 + (z1 - c2) * identity;
        let ln_s21 = (2.0 * (z1.re * z2.re).sqrt()).ln() - ln_denominator;
        Ok(Scattering {
            s11: reflected_1 / denominator,
            s22: reflected_2 / denominator,
            ln_s21: principal(ln_s21),
            ln_s12: principal(ln_s21 + self.ln_determinant),
        })
    }

    /// Impedance seen into port 1 with port 2 loaded, in ohms.
    #[must_use]
    pub fn input_impedance_ohm(&self, load_ohm: Complex64) -> Complex64 {
        let identity = self.identity();
        ((self.a + identity) * load_ohm + self.b) / (self.c * load_ohm + self.d + identity)
    }

    /// Impedance seen into port 2 with port 1 closed by the source impedance, in ohms.
    #[must_use]
    pub fn output_impedance_ohm(&self, source_ohm: Complex64) -> Complex64 {
        let identity = self.identity();
        ((self.d + identity) * source_ohm + self.b) / (self.c * source_ohm + self.a + identity)
    }

    /// The chain matrix divided by `exp(scale)`, and that natural-logarithm scale (zero in ordinary work).
    #[must_use]
    pub fn scaled_chain(&self) -> ([[Complex64; 2]; 2], f64) {
        let identity = self.identity();
        ([[self.a + identity, self.b], [self.c, self.d + identity]], self.ln_scale)
    }

    /// Natural logarithm of the determinant; zero for a reciprocal two-port.
    #[must_use]
    pub const fn ln_determinant(&self) -> Complex64 {
        self.ln_determinant
    }

    // Excess over the identity: A, B, C, D; not-a-number where an exponent is carried.
    pub(super) fn plain_excess(&self) -> [Complex64; 4] {
        if self.ln_scale == 0.0 { [self.a, self.b, self.c, self.d] } else { [Complex64::new(f64::NAN, f64::NAN); 4] }
    }

    // D - A, formed before the identity is added to both.
    pub(super) fn skew(&self) -> Complex64 {
        self.d - self.a
    }

    // Re(A D* + B C*) - 1 for an unscaled reciprocal two-port.
    pub(super) fn stability_excess(&self) -> f64 {
        (self.a + self.d + self.a * self.d.conj() + self.b * self.c.conj()).re
    }

    // a Z2 + B + C Z1 Z2 + d Z1: what the two-port adds to Z1 + Z2, over exp(ln_scale).
    fn denominator_excess(&self, ends: &Terminations) -> Complex64 {
        let (z1, z2) = (ends.source_ohm, ends.load_ohm);
        (self.a + self.c * z1) * z2 + self.b + self.d * z1
    }

    // Weight of the identity beside the scaled excess.
    fn identity(&self) -> f64 {
        if self.ln_scale == 0.0 { 1.0 } else { (-self.ln_scale).exp() }
    }

    fn rescaled(self) -> Self {
        let largest = [self.a, self.b, self.c, self.d].iter().fold(0.0_f64, |m, z| m.max(z.re.abs()).max(z.im.abs()));
        if largest < RESCALE_ABOVE || !largest.is_finite() {
            return self;
        }
        let factor = largest.recip();
        Self {
            a: self.a * factor,
            b: self.b * factor,
            c: self.c * factor,
            d: self.d * factor,
            ln_scale: self.ln_scale + largest.ln(),
            ln_determinant: self.ln_determinant,
        }
    }
}

impl Terminations {
    // Both impedances, for uses that divide by their resistance.
    fn resistive(&self) -> Result<(Complex64, Complex64)> {
        bounds::positive("source_ohm", "ohm", self.source_ohm.re)?;
        bounds::positive("load_ohm", "ohm", self.load_ohm.re)?;
        Ok((self.source_ohm, self.load_ohm))
    }
}

/// `ln(1 + exp(s) x)`, without overflow for large `s` and without losing digits for small `x`.
fn ln_identity_plus(x: Complex64, ln_scale: f64) -> Complex64 {
    if ln_scale == 0.0 {
        return Complex64::new(ln_abs_identity_plus(x), x.im.atan2(1.0 + x.re));
    }
    let sum = x + (-ln_scale).exp();
    Complex64::new(ln_scale + ln_abs(sum), sum.im.atan2(sum.re))
}

/// `ln|1 + x|`, without losing digits for small `x`.
pub(crate) fn ln_abs_identity_plus(x: Complex64) -> f64 {
    // |1 + x|^2 - 1 is formed without the one; where it is close to -1 the norm itself is the safer form.
    let excess = 2.0 * x.re + x.norm_sqr();
    if excess > -0.5 && excess < 1.0 { 0.5 * excess.ln_1p() } else { ln_abs(x + ONE) }
}

fn ln_abs(z: Complex64) -> f64 {
    let square = z.norm_sqr();
    if square.is_finite() && square > f64::MIN_POSITIVE { 0.5 * square.ln() } else { z.norm().ln() }
}

/// Brings the imaginary part of a logarithm into (-pi, pi].
fn principal(ln: Complex64) -> Complex64 {
    use std::f64::consts::{PI, TAU};
    let turned = ln.im - TAU * ((ln.im + PI) / TAU).floor();
    Complex64::new(ln.re, if turned <= -PI { turned + TAU } else { turned })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn c(re: f64, im: f64) -> Complex64 {
        Complex64::new(re, im)
    }

    fn close(x: Complex64, y: Complex64, tolerance: f64) {
        assert!((x - y).norm() <= tolerance * (1.0 + y.norm()), "{x} is not {y}");
    }

    fn sample() -> TwoPort {
        TwoPort::chain(&[
            TwoPort::shunt(c(1e-3, 0.02)),
            TwoPort::series(c(0.8, 70.0)),
            TwoPort::uniform_line(c(1.0, 30.0), c(1e-4, 0.01)),
            TwoPort::shunt(c(4e-4, 0.05)),
        ])
    }

    #[test]
    fn a_through_changes_nothing() {
        let ends = Terminations::new(c(3.0, 40.0), c(70.0, -5.0)).expect("passive");
        assert_eq!(TwoPort::THROUGH.insertion_loss_db(&ends), 0.0);
        assert_eq!(TwoPort::THROUGH.then(&sample()), sample());
        assert_eq!(sample().then(&TwoPort::THROUGH), sample());
    }

    #[test]
    fn tiny_losses_keep_their_digits() {
        // 10 log10(1 + e) with e = (w R C/2)^2 = 1e-24.
        let shunt = TwoPort::shunt(c(0.0, 2e-12 / 50.0));
        let exact = 10.0 / std::f64::consts::LN_10 * 1e-24;
        assert!((shunt.insertion_loss_db(&Terminations::fifty_ohm()) / exact - 1.0).abs() < 1e-12);
    }

    #[test]
    fn scattering_goes_there_and_back() {
        let references = Terminations::new(c(30.0, 12.0), c(75.0, -20.0)).expect("passive");
        let s = sample().scattering(&references).expect("resistive");
        let back = TwoPort::from_scattering([[s.s11, s.s12()], [s.s21(), s.s22]], &references).expect("finite");
        let (m, n) = (sample().scaled_chain().0, back.scaled_chain().0);
        for (p, q) in m.iter().flatten().zip(n.iter().flatten()) {
            close(*q, *p, 1e-11);
        }
        assert!(s.excess_gain() < 0.0);
    }

    #[test]
    fn a_long_line_in_pieces_equals_the_whole_far_beyond_any_exponent() {
        let (z, y) = (c(40.0, 300.0), c(0.02, 0.4));
        let whole = TwoPort::uniform_line(z * 4096.0, y * 4096.0);
        let mut pieces = TwoPort::uniform_line(z, y);
        for _ in 0..12 {
            pieces = pieces.then(&pieces);
        }
        let ends = Terminations::fifty_ohm();
        let (p, w) = (pieces.insertion_loss_db(&ends), whole.insertion_loss_db(&ends));
        assert!(w > 10_000.0);
        assert!((p / w - 1.0).abs() < 1e-13, "{p} {w}");
        let (sp, sw) = (pieces.scattering(&ends).expect("50 ohm"), whole.scattering(&ends).expect("50 ohm"));
        close(sp.s11, sw.s11, 1e-12);
        close(sp.s22, sw.s22, 1e-12);
        assert!((sp.ln_s21.re - sw.ln_s21.re).abs() < 1e-9);
    }

    #[test]
    fn the_line_has_no_step_where_its_series_hands_over() {
        for turn in [0.0_f64, 0.7, 1.5] {
            let square = Complex64::from_polar(1e-3, turn);
            let near = TwoPort::uniform_line(square * 0.999_999_999, ONE);
            let far = TwoPort::uniform_line(square * 1.000_000_001, ONE);
            close(far.a / near.a, ONE, 3e-9);
            close(far.c / near.c, ONE, 3e-9);
        }
        let near = TwoPort::uniform_line(c(29.999_999_9 * 29.999_999_9, 0.0), ONE);
        let far = TwoPort::uniform_line(c(30.000_000_1 * 30.000_000_1, 0.0), ONE);
        let ends = Terminations::fifty_ohm();
        assert!((far.insertion_loss_db(&ends) - near.insertion_loss_db(&ends)).abs() < 3e-6);
    }

    #[test]
    fn a_shared_return_impedance_sets_the_floor() {
        let filter = TwoPort::uniform_line(c(4e4, 3e4), c(10.0, 40.0));
        let ends = Terminations::fifty_ohm();
        let bond = c(0.0, 1e-3);
        let loss_db = filter.with_common_impedance(bond).insertion_loss_db(&ends);
        // With the through path gone, the bond couples one end's loop to the other's; the line's own
        // impedance closes both: V20/V2 = (Z1 + Zc)(Z2 + Zc)/(Zb (Z1 + Z2)).
        let line = (c(4e4, 3e4) / c(10.0, 40.0)).sqrt() + bond;
        let floor = (line + 50.0) * (line + 50.0) / (bond * 100.0);
        assert!((loss_db - DB_PER_NEPER * floor.norm().ln()).abs() < 1e-4);
        assert!(loss_db < 130.0 && filter.insertion_loss_db(&ends) > 5000.0);
        // Against the impedance parameters themselves, for a moderate two-port.
        let z = |p: &TwoPort| {
            let ([[a, _], [cc, d]], _) = p.scaled_chain();
            [a / cc, cc.inv(), d / cc]
        };
        let (plain, lifted) = (z(&sample()), z(&sample().with_common_impedance(bond)));
        for (p, l) in plain.iter().zip(lifted) {
            close(l, p + bond, 1e-13);
        }
        let y = |p: &TwoPort| {
            let ([[a, b], [_, d]], _) = p.scaled_chain();
            [d / b, b.inv(), a / b]
        };
        let stray = c(0.0, 3e-5);
        let (plain, bridged) = (y(&sample()), y(&sample().with_bridging_admittance(stray)));
        for (p, l) in plain.iter().zip(bridged) {
            close(l, p + stray, 1e-13);
        }
    }

    #[test]
    fn nonsense_terminations_are_refused() {
        assert!(Terminations::new(c(-1.0, 0.0), c(50.0, 0.0)).is_err());
        assert!(Terminations::new(c(f64::NAN, 0.0), c(50.0, 0.0)).is_err());
        assert!(Terminations::new(c(0.0, 4.0), c(0.0, -4.0)).is_err());
        assert!(Terminations::new(c(0.0, 4.0), c(0.0, f64::INFINITY)).is_err());
        let lossless = Terminations::new(c(0.0, 4.0), c(1.0, 0.0)).expect("passive");
        assert!(sample().scattering(&lossless).is_err());
    }
}
