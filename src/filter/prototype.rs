//! Low-pass prototypes: the element values that families of filters are scaled from.
//!
//! ```text
//! Butterworth          g_k = 2 sin((2k - 1) pi/2n),  load 1
//! Chebyshev, ripple A  b = ln coth(A ln 10/40), c = sinh(b/2n),
//!                      a_k = sin((2k - 1) pi/2n), d_k = c^2 + sin^2(k pi/n),
//!                      g_1 = 2 a_1/c, g_k = 4 a_(k-1) a_k/(d_(k-1) g_(k-1)), load 1 (n odd) or coth^2(b/4)
//! equal sections       g_k = 2 inside, 1 at the ends: constant-k sections
//! ```
//!
//! Source: G. L. Matthaei, L. Young and E. M. T. Jones, *Microwave Filters, Impedance-Matching Networks, and Coupling
//! Structures*, 1964, section 4.05. A table copied by hand has misprints; the recursion has none.
//!
//! ```
//! use stillroom::filter::Prototype;
//! // 0.1 dB ripple, three parts: 1.0316 1.1474 1.0316 (rfcafe.com, "Chebyshev prototype element values").
//! let prototype = Prototype::chebyshev(3, 0.1)?;
//! assert!((prototype.values()[0] - 1.0316).abs() < 5e-5 && (prototype.values()[1] - 1.1474).abs() < 5e-5);
//! # Ok::<(), stillroom::Error>(())
//! ```

use std::f64::consts::{LN_10, PI};

use crate::error::{Result, check};

/// More parts than this no mains or signal filter has, and no prototype table prints.
const MOST_PARTS: usize = 40;

/// Normalised element values of a low-pass ladder, for 1 rad/s and a source of 1 ohm.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Prototype {
    family: PrototypeFamily,
    values: Vec<f64>,
    load: f64,
}

/// What a prototype's response looks like.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum PrototypeFamily {
    /// Maximally flat, 3 dB at the cutoff.
    Butterworth,
    /// Equal ripple in the pass band up to the cutoff.
    Chebyshev {
        /// Ripple, dB.
        ripple_db: f64,
    },
    /// Identical constant-k sections: fewest different parts.
    EqualSections,
}

/// PrototypeFamily and number of parts: the values follow from them.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    family: PrototypeFamily,
    parts: usize,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Prototype {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::of(record.family, record.parts)
    }
}

#[cfg(feature = "serde")]
impl From<Prototype> for Record {
    fn from(prototype: Prototype) -> Self {
        Self { family: prototype.family, parts: prototype.values.len() }
    }
}

impl Prototype {
    /// Maximally flat, of `parts` parts.
    ///
    /// # Errors
    /// Unless there are 1 to 40 parts.
    pub fn butterworth(parts: usize) -> Result<Self> {
        let n = parts_within(parts)?;
        let values = (1..=parts).map(|k| 2.0 * ((2 * k - 1) as f64 * PI / (2.0 * n)).sin()).collect();
        Ok(Self { family: PrototypeFamily::Butterworth, values, load: 1.0 })
    }

    /// Equal ripple in dB, of `parts` parts.
    ///
    /// # Errors
    /// Unless there are 1 to 40 parts and the ripple is positive and finite.
    pub fn chebyshev(parts: usize, ripple_db: f64) -> Result<Self> {
        let n = parts_within(parts)?;
        check::positive("ripple_db", "dB", ripple_db)?;
        // ln coth x = -ln tanh x.
        let b = -(ripple_db * LN_10 / 40.0).tanh().ln();
        let c = (b / (2.0 * n)).sinh();
        let a = |k: usize| ((2 * k - 1) as f64 * PI / (2.0 * n)).sin();
        let d = |k: usize| c * c + (k as f64 * PI / n).sin().powi(2);
        let mut values = vec![2.0 * a(1) / c];
        for k in 2..=parts {
            let before = values[k - 2];
            values.push(4.0 * a(k - 1) * a(k) / (d(k - 1) * before));
        }
        let load = if parts % 2 == 1 { 1.0 } else { (b / 4.0).tanh().powi(-2) };
        Ok(Self { family: PrototypeFamily::Chebyshev { ripple_db }, values, load })
    }

    /// Constant-k sections, of `parts` parts: 2 each, 1 at both ends; a single part has 2.
    ///
    /// # Errors
    /// Unless there are 1 to 40 parts.
    pub fn equal_sections(parts: usize) -> Result<Self> {
        parts_within(parts)?;
        let end = |k: usize| if parts > 1 && (k == 0 || k + 1 == parts) { 1.0 } else { 2.0 };
        Ok(Self { family: PrototypeFamily::EqualSections, values: (0..parts).map(end).collect(), load: 1.0 })
    }

    /// Of a family.
    ///
    /// # Errors
    /// As the family's own constructor.
    pub fn of(family: PrototypeFamily, parts: usize) -> Result<Self> {
        match family {
            PrototypeFamily::Butterworth => Self::butterworth(parts),
            PrototypeFamily::Chebyshev { ripple_db } => Self::chebyshev(parts, ripple_db),
            PrototypeFamily::EqualSections => Self::equal_sections(parts),
        }
    }

    /// The family.
    #[must_use]
    pub const fn family(&self) -> PrototypeFamily {
        self.family
    }

    /// Element values g1 to gn.
    #[must_use]
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The last value, g of n + 1: load resistance behind a shunt part, load conductance behind a series part.
    #[must_use]
    pub const fn load(&self) -> f64 {
        self.load
    }
}

fn parts_within(parts: usize) -> Result<f64> {
    check::within("parts", "", parts as f64, (1.0, MOST_PARTS as f64), "a whole number from 1 to 40")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, Element, Inductor, Ladder, MeasuringCircuit, Termination};

    // A prototype built with 1 ohm at 1 rad/s.
    fn built(prototype: &Prototype) -> (Ladder, MeasuringCircuit) {
        let elements = prototype
            .values()
            .iter()
            .enumerate()
            .map(|(k, &g)| {
                if k % 2 == 0 {
                    Element::Shunt(Capacitor::new(g).unwrap().into())
                } else {
                    Element::Series(Inductor::new(g).unwrap().into())
                }
            })
            .collect();
        // Behind a last shunt part g is a resistance, behind a last series part a conductance.
        let odd = prototype.values().len() % 2 == 1;
        let load = if odd { prototype.load() } else { prototype.load().recip() };
        let ohms = |r| Termination::impedance(r).unwrap();
        (Ladder::new(elements).unwrap(), MeasuringCircuit::new(ohms(1.0), ohms(load)))
    }

    fn transducer_db(prototype: &Prototype, omega: f64) -> f64 {
        let (ladder, circuit) = built(prototype);
        -10.0 / LN_10 * ladder.ln_transducer_gain(omega / (2.0 * PI), &circuit)
    }

    #[test]
    fn butterworth_ladders_are_maximally_flat() {
        for n in 1..9 {
            let prototype = Prototype::butterworth(n).unwrap();
            for omega in [0.3_f64, 1.0, 2.0, 5.0] {
                let exact = 10.0 * (1.0 + omega.powi(2 * n as i32)).log10();
                assert!((transducer_db(&prototype, omega) - exact).abs() < 1e-9, "{n} {omega}");
            }
        }
    }

    #[test]
    fn chebyshev_ladders_ripple_as_stated() {
        for n in 1..9 {
            for ripple_db in [0.01, 0.5, 3.0] {
                let prototype = Prototype::chebyshev(n, ripple_db).unwrap();
                let epsilon2 = 10f64.powf(0.1 * ripple_db) - 1.0;
                for omega in [0.2_f64, 0.7, 1.0, 1.5, 4.0] {
                    let t =
                        if omega <= 1.0 { (n as f64 * omega.acos()).cos() } else { (n as f64 * omega.acosh()).cosh() };
                    let exact = 10.0 * (1.0 + epsilon2 * t * t).log10();
                    let built = transducer_db(&prototype, omega);
                    assert!((built - exact).abs() < 1e-8, "{n} {ripple_db} {omega}: {built} {exact}");
                }
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(Prototype::butterworth(0).is_err());
        assert!(Prototype::butterworth(41).is_err());
        assert!(Prototype::chebyshev(3, 0.0).is_err());
        assert!(Prototype::chebyshev(3, f64::NAN).is_err());
    }
}
