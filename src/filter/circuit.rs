//! What a filter works between: sources and loads, and the pairs that standards name.
//!
//! | pair | source / load | where from |
//! |---|---|---|
//! | [`fifty_ohm`](MeasuringCircuit::fifty_ohm) | 50 / 50 ohm | the usual figure in print |
//! | [`low_to_high`](MeasuringCircuit::low_to_high), [`high_to_low`](MeasuringCircuit::high_to_low) | 0.1 / 100 ohm and back | CISPR 17, approximate worst case |
//! | [`mains_network`](MeasuringCircuit::mains_network) | 50 ohm across (5 ohm + 50 uH) | CISPR 16-1-2, section 4.2 (its title is read at mail-archive.com, emc-pstc msg66365; the circuit, up to 30 MHz, in a network's manual at manualshive.com, pmm-l3-32, page 12); 9 kHz to 30 MHz |
//! | [`outside_wire`](MeasuringCircuit::outside_wire) | an antenna-like wire above a conducting plane | see [`Wire`] |

use num_complex::Complex64;

use crate::circuit::Terminations;
use crate::circuit::bounds;
use crate::constants::wavenumber_per_m;
use crate::error::{Result, check};
use crate::parameter::{Domain, Element, Knobs, Rebuild};
use crate::probe::monopole;
use crate::validity::Validity;

/// A wire that stands off a conducting plane, as the plane's terminal sees it.
///
/// A lossy line open at its end: `Z = Za coth(Rm/Za + j k l)`, `Za = 60 ohm (ln(2 l/r) - 1)`, damped by the radiation
/// resistance `Rm` of a sinusoidal current (E. Siegel, J. Labus, Hochfrequenztech. Elektroakust. 43 (1934) 166, from
/// memory): `10 (k l)^2` ohm of a short monopole, 36.5 ohm at the quarter wave (C. A. Balanis, *Antenna Theory*,
/// sections 4.3 and 4.7). Good to a few dB for thin straight wires; bends, ground and neighbours move the resonances.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(settle, errors = "a radius above a tenth of the length")]
pub struct Wire {
    /// Length.
    #[parameter(circuit_positive)]
    length_m: f64,
    /// Radius, below a tenth of the length.
    #[parameter(circuit_positive, also = "less than a tenth of the length")]
    radius_m: f64,
}

impl Wire {
    fn settle(self) -> Result<Self> {
        check::less_than("radius_m", "m", self.radius_m, "length_m / 10", 0.1 * self.length_m)?;
        Ok(self)
    }

    /// Impedance between the wire and the plane at a frequency in Hz, in ohms.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64) -> Complex64 {
        monopole::impedance_ohm(wavenumber_per_m(frequency_hz) * self.length_m, self.length_m / self.radius_m)
    }
}

/// What is connected to one side of a filter.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "TerminationRecord", into = "TerminationRecord"))]
#[non_exhaustive]
pub enum Termination {
    /// An impedance that does not depend on frequency, ohm; real part positive.
    Impedance(Complex64),
    /// A resistance across a branch of resistance and inductance in series.
    LineNetwork {
        /// Resistance across the whole, ohm.
        parallel_ohm: f64,
        /// Resistance in the branch, ohm.
        branch_ohm: f64,
        /// Inductance in the branch, H.
        branch_h: f64,
    },
    /// An antenna-like wire.
    Wire(Wire),
}

impl Termination {
    /// A constant impedance, ohm.
    ///
    /// # Errors
    /// Unless its resistance is positive and both parts are finite.
    pub fn impedance(ohm: impl Into<Complex64>) -> Result<Self> {
        let ohm = ohm.into();
        bounds::positive("resistance_ohm", "ohm", ohm.re)?;
        bounds::bounded("reactance_ohm", "ohm", ohm.im)?;
        Ok(Self::Impedance(ohm))
    }

    /// A line network of the given values, in ohm, ohm and H.
    ///
    /// # Errors
    /// Unless all are positive and finite.
    pub fn line_network(parallel_ohm: f64, branch_ohm: f64, branch_h: f64) -> Result<Self> {
        Ok(Self::LineNetwork {
            parallel_ohm: bounds::positive("parallel_ohm", "ohm", parallel_ohm)?,
            branch_ohm: bounds::positive("branch_ohm", "ohm", branch_ohm)?,
            branch_h: bounds::positive("branch_h", "H", branch_h)?,
        })
    }

    /// The artificial mains V-network of CISPR 16-1-2: 50 ohm across 50 uH with 5 ohm.
    #[must_use]
    pub const fn mains_network() -> Self {
        Self::LineNetwork { parallel_ohm: 50.0, branch_ohm: 5.0, branch_h: 50e-6 }
    }

    /// The impedance at a frequency in Hz, in ohms; its real part is positive.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64) -> Complex64 {
        match self {
            Self::Impedance(ohm) => *ohm,
            Self::LineNetwork { parallel_ohm, branch_ohm, branch_h } => {
                let branch = Complex64::new(*branch_ohm, std::f64::consts::TAU * frequency_hz * branch_h);
                branch * *parallel_ohm / (branch + *parallel_ohm)
            }
            Self::Wire(wire) => wire.impedance_ohm(frequency_hz),
        }
    }

    /// The constant impedance, where it is one.
    #[must_use]
    pub const fn constant_ohm(&self) -> Option<Complex64> {
        match self {
            Self::Impedance(ohm) => Some(*ohm),
            _ => None,
        }
    }

    /// Where the answer holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::LineNetwork { .. } => Validity::within(
                "line network",
                "frequency",
                "Hz",
                frequency_hz,
                (9e3, 30e6),
                "a real network departs from its nominal impedance",
            ),
            Self::Impedance(_) | Self::Wire(_) => Validity::Holds,
        }
    }
}

impl Rebuild for Termination {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        match self {
            Self::Impedance(ohm) => Self::impedance(Complex64::new(
                knobs.value("resistance_ohm", "ohm", ohm.re, Domain::POSITIVE),
                knobs.value("reactance_ohm", "ohm", ohm.im, Domain::FINITE),
            )),
            Self::LineNetwork { parallel_ohm, branch_ohm, branch_h } => Self::line_network(
                knobs.value("parallel_ohm", "ohm", *parallel_ohm, Domain::POSITIVE),
                knobs.value("branch_ohm", "ohm", *branch_ohm, Domain::POSITIVE),
                knobs.value("branch_h", "H", *branch_h, Domain::POSITIVE),
            ),
            Self::Wire(wire) => Ok(Self::Wire(wire.rebuild(knobs)?)),
        }
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(tag = "termination", rename_all = "snake_case", deny_unknown_fields)]
enum TerminationRecord {
    Impedance {
        resistance_ohm: f64,
        #[serde(default)]
        reactance_ohm: f64,
    },
    LineNetwork {
        parallel_ohm: f64,
        branch_ohm: f64,
        branch_h: f64,
    },
    Wire {
        length_m: f64,
        radius_m: f64,
    },
}

#[cfg(feature = "serde")]
impl TryFrom<TerminationRecord> for Termination {
    type Error = crate::Error;
    fn try_from(record: TerminationRecord) -> Result<Self> {
        match record {
            TerminationRecord::Impedance { resistance_ohm, reactance_ohm } => {
                Self::impedance(Complex64::new(resistance_ohm, reactance_ohm))
            }
            TerminationRecord::LineNetwork { parallel_ohm, branch_ohm, branch_h } => {
                Self::line_network(parallel_ohm, branch_ohm, branch_h)
            }
            TerminationRecord::Wire { length_m, radius_m } => Ok(Self::Wire(Wire::new(length_m, radius_m)?)),
        }
    }
}

#[cfg(feature = "serde")]
impl From<Termination> for TerminationRecord {
    fn from(termination: Termination) -> Self {
        match termination {
            Termination::Impedance(ohm) => Self::Impedance { resistance_ohm: ohm.re, reactance_ohm: ohm.im },
            Termination::LineNetwork { parallel_ohm, branch_ohm, branch_h } => {
                Self::LineNetwork { parallel_ohm, branch_ohm, branch_h }
            }
            Termination::Wire(wire) => Self::Wire { length_m: wire.length_m, radius_m: wire.radius_m },
        }
    }
}

/// A source and a load that insertion loss is stated between.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new = none)]
pub struct MeasuringCircuit {
    /// The source.
    #[part]
    source: Termination,
    /// The load.
    #[part]
    load: Termination,
}

impl MeasuringCircuit {
    /// From source and load.
    #[must_use]
    pub const fn new(source: Termination, load: Termination) -> Self {
        Self { source, load }
    }

    const fn resistive(source_ohm: f64, load_ohm: f64) -> Self {
        Self {
            source: Termination::Impedance(Complex64::new(source_ohm, 0.0)),
            load: Termination::Impedance(Complex64::new(load_ohm, 0.0)),
        }
    }

    /// 50 ohm on both sides.
    #[must_use]
    pub const fn fifty_ohm() -> Self {
        Self::resistive(50.0, 50.0)
    }

    /// 0.1 ohm source, 100 ohm load (CISPR 17).
    #[must_use]
    pub const fn low_to_high() -> Self {
        Self::resistive(0.1, 100.0)
    }

    /// 100 ohm source, 0.1 ohm load (CISPR 17).
    #[must_use]
    pub const fn high_to_low() -> Self {
        Self::resistive(100.0, 0.1)
    }

    /// The artificial mains network of CISPR 16-1-2 as source, 50 ohm as load; 9 kHz to 30 MHz.
    #[must_use]
    pub const fn mains_network() -> Self {
        Self { source: Termination::mains_network(), load: Termination::Impedance(Complex64::new(50.0, 0.0)) }
    }

    /// An antenna-like wire outside as source, 50 ohm as load.
    #[must_use]
    pub const fn outside_wire(wire: Wire) -> Self {
        Self { source: Termination::Wire(wire), load: Termination::Impedance(Complex64::new(50.0, 0.0)) }
    }

    /// Both impedances at a frequency in Hz.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Terminations {
        Terminations::from_passive(self.source.impedance_ohm(frequency_hz), self.load.impedance_ohm(frequency_hz))
    }

    /// Both impedances, where neither depends on frequency.
    pub(crate) fn constant(&self) -> Option<Terminations> {
        Some(Terminations::from_passive(self.source.constant_ohm()?, self.load.constant_ohm()?))
    }

    /// Where the answer holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.source.validity(frequency_hz).and(self.load.validity(frequency_hz))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_wire_is_a_small_capacitance_with_its_radiation_resistance() {
        let wire = Wire::new(1.0, 1e-3).unwrap();
        let frequency_hz = 1e6;
        let turn = wavenumber_per_m(frequency_hz);
        let z = wire.impedance_ohm(frequency_hz);
        assert!((z.re / (10.0 * turn * turn) - 1.0).abs() < 1e-3, "{z}");
        let characteristic = 60.0 * (2000.0_f64.ln() - 1.0);
        assert!((z.im * turn / -characteristic - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_quarter_wave_is_near_the_textbook_resistance() {
        let wire = Wire::new(1.0, 1e-3).unwrap();
        let z = wire.impedance_ohm(crate::constants::SPEED_OF_LIGHT / 4.0);
        // 36.5 ohm: half of the half-wave dipole's 73 ohm.
        assert!((z.re - 36.5).abs() < 1.0 && z.im.abs() < 1.0, "{z}");
    }

    #[test]
    fn every_termination_keeps_a_positive_resistance() {
        let wire = Termination::Wire(Wire::new(10.0, 1e-3).unwrap());
        for termination in [wire, Termination::mains_network()] {
            for k in 0..400 {
                let z = termination.impedance_ohm(10f64.powf(2.0 + f64::from(k) * 0.025));
                assert!(z.re > 0.0 && z.is_finite(), "{termination:?} {k} {z}");
            }
        }
    }
}
