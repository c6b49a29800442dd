//! What a supply drives into the protective earth.
//!
//! **Caution.** These are sums for planning. Touch current and earth-leakage current are judged by measurement
//! against the code that applies; the case is bonded before anything is energised; mains work is for a licensed
//! electrician. See [`CAUTION`](super::CAUTION).
//!
//! * Earth-leakage current: `|sum of j w C_k V_k|` over the lines, with the voltage and the capacitances at the
//!   ends of their tolerances that make it largest. A neutral is taken at earth potential.
//! * One line lost: the lost conductor stands at the mean potential of the others, as the load leaves it, or is
//!   dead; the worse of both, over all lines. With equal capacitors that is `2 w C V` for line and neutral, 1.5
//!   times `w C V` for three phases.
//!
//! Sums of circuit theory, valid at mains frequency; harmonics of the supply add leakage in proportion to
//! their order.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::parameter::{Knobs, Rebuild};
use crate::wave::circuit_value;

/// Kind of supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum SupplySystem {
    /// One line against earth.
    SingleLine,
    /// Line and neutral.
    LineNeutral,
    /// Three phases.
    ThreePhase,
    /// Three phases and neutral.
    ThreePhaseNeutral,
}

impl SupplySystem {
    /// Number of conductors.
    #[must_use]
    pub const fn lines(self) -> usize {
        match self {
            Self::SingleLine => 1,
            Self::LineNeutral => 2,
            Self::ThreePhase => 3,
            Self::ThreePhaseNeutral => 4,
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SingleLine => "single_line",
            Self::LineNeutral => "line_neutral",
            Self::ThreePhase => "three_phase",
            Self::ThreePhaseNeutral => "three_phase_neutral",
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::SingleLine, Self::LineNeutral, Self::ThreePhase, Self::ThreePhaseNeutral];
}

/// A mains supply.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "SupplyRecord", into = "SupplyRecord"))]
pub struct MainsSupply {
    system: SupplySystem,
    voltage_v: f64,
    frequency_hz: f64,
    voltage_tolerance: f64,
}

impl MainsSupply {
    /// From the voltage of a line against neutral or earth (V, effective value) and the frequency (Hz); no tolerance.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn new(system: SupplySystem, voltage_v: f64, frequency_hz: f64) -> Result<Self> {
        Ok(Self {
            system,
            voltage_v: circuit_value::positive("voltage_v", "V", voltage_v)?,
            frequency_hz: check::frequency(frequency_hz)?,
            voltage_tolerance: 0.0,
        })
    }

    /// With a voltage that may be higher by this fraction (0.1: ten per cent).
    ///
    /// # Errors
    /// Unless from 0 to 1.
    pub fn with_voltage_tolerance(self, voltage_tolerance: f64) -> Result<Self> {
        Ok(Self { voltage_tolerance: check::fraction("voltage_tolerance", voltage_tolerance)?, ..self })
    }

    /// Kind of supply.
    #[must_use]
    pub const fn system(&self) -> SupplySystem {
        self.system
    }

    /// Nominal voltage of a line against neutral, V.
    #[must_use]
    pub const fn voltage_v(&self) -> f64 {
        self.voltage_v
    }

    /// Frequency, Hz.
    #[must_use]
    pub const fn frequency_hz(&self) -> f64 {
        self.frequency_hz
    }

    /// By how much the voltage may be higher, as a fraction.
    #[must_use]
    pub const fn voltage_tolerance(&self) -> f64 {
        self.voltage_tolerance
    }

    fn highest_v(&self) -> f64 {
        self.voltage_v * (1.0 + self.voltage_tolerance)
    }

    /// Voltages of the lines against earth at their highest.
    pub(super) fn voltages(&self) -> Vec<Complex64> {
        let phase = |k: usize| Complex64::from_polar(self.highest_v(), -TAU * k as f64 / 3.0);
        let neutral = Complex64::new(0.0, 0.0);
        match self.system {
            SupplySystem::SingleLine => vec![phase(0)],
            SupplySystem::LineNeutral => vec![phase(0), neutral],
            SupplySystem::ThreePhase => (0..3).map(phase).collect(),
            SupplySystem::ThreePhaseNeutral => (0..3).map(phase).chain([neutral]).collect(),
        }
    }

    /// Earth-leakage current of a capacitance in F from each line to earth, whose values may be off by the
    /// given fraction either way.
    ///
    /// ```
    /// use stillroom::filter::{MainsSupply, SupplySystem};
    /// // 10 nF at 230 V, 50 Hz: 0.723 mA.
    /// let supply = MainsSupply::new(SupplySystem::SingleLine, 230.0, 50.0)?;
    /// assert!((supply.earth_leakage(&[10e-9], 0.0)?.normal_a - 0.723e-3).abs() < 0.5e-6);
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    ///
    /// # Errors
    /// For a number of capacitances other than that of the lines, a negative one, or a tolerance outside 0 to 1.
    pub fn earth_leakage(&self, capacitance_f: &[f64], capacitance_tolerance: f64) -> Result<EarthLeakage> {
        check::same_length("capacitance_f", capacitance_f.len(), "lines", self.system.lines())?;
        check::all("capacitance_f", "F", capacitance_f, "zero or positive, and finite", |c| c >= 0.0 && c.is_finite())?;
        check::fraction("capacitance_tolerance", capacitance_tolerance)?;
        let voltages = self.voltages();
        let normal_a = self.leakage(&voltages, capacitance_f, capacitance_tolerance);
        let one_line_lost_a = (0..voltages.len())
            .flat_map(|lost| {
                let others = voltages.len() - 1;
                let sum: Complex64 = voltages.iter().sum::<Complex64>() - voltages[lost];
                let pulled = if others > 0 { sum / others as f64 } else { Complex64::new(0.0, 0.0) };
                [pulled, Complex64::new(0.0, 0.0)].map(|potential| {
                    let mut faulty = voltages.clone();
                    faulty[lost] = potential;
                    self.leakage(&faulty, capacitance_f, capacitance_tolerance)
                })
            })
            .fold(0.0, f64::max);
        Ok(EarthLeakage { normal_a, one_line_lost_a })
    }

    // Largest over the corners of the tolerances: the current is convex in each capacitance.
    fn leakage(&self, voltages: &[Complex64], capacitance_f: &[f64], tolerance: f64) -> f64 {
        (0..1_usize << voltages.len())
            .map(|corner| {
                let charge: Complex64 = voltages
                    .iter()
                    .zip(capacitance_f)
                    .enumerate()
                    .map(|(line, (voltage, capacitance))| {
                        let sign = if corner >> line & 1 == 1 { 1.0 } else { -1.0 };
                        voltage * (capacitance * (1.0 + sign * tolerance))
                    })
                    .sum();
                TAU * self.frequency_hz * charge.norm()
            })
            .fold(0.0, f64::max)
    }
}

/// Earth-leakage currents, A (effective values), at the highest voltage and the worst tolerances.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct EarthLeakage {
    /// With all lines connected.
    pub normal_a: f64,
    /// With one line lost.
    pub one_line_lost_a: f64,
}

impl Rebuild for MainsSupply {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            self.system,
            knobs.value("voltage_v", "V", self.voltage_v, "positive"),
            knobs.value("frequency_hz", "Hz", self.frequency_hz, "positive"),
        )?
        .with_voltage_tolerance(knobs.value("voltage_tolerance", "", self.voltage_tolerance, "from 0 to 1"))
    }
}

checked_record!(MainsSupply as SupplyRecord {
    system: SupplySystem,
    voltage_v: f64,
    frequency_hz: f64,
    #[serde(default)]
    voltage_tolerance: f64,
});

#[cfg(test)]
mod tests {
    use super::*;

    fn supply(system: SupplySystem) -> MainsSupply {
        MainsSupply::new(system, 230.0, 50.0).unwrap()
    }

    #[test]
    fn lost_lines_by_hand() {
        let unit = TAU * 50.0 * 100e-9 * 230.0;
        let two = supply(SupplySystem::LineNeutral).earth_leakage(&[100e-9; 2], 0.0).unwrap();
        assert!((two.normal_a / unit - 1.0).abs() < 1e-12);
        assert!((two.one_line_lost_a / unit - 2.0).abs() < 1e-12);
        let three = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.0).unwrap();
        assert!(three.normal_a < 1e-12 * unit);
        assert!((three.one_line_lost_a / unit - 1.5).abs() < 1e-12);
        // 20 % either way: two high and one low leave |1.2 a + 1.2 a^2 + 0.8| = 0.4.
        let loose = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.2).unwrap();
        assert!((loose.normal_a / unit - 0.4).abs() < 1e-12);
        let four = supply(SupplySystem::ThreePhaseNeutral).earth_leakage(&[100e-9; 4], 0.0).unwrap();
        assert!((four.one_line_lost_a / unit - 4.0 / 3.0).abs() < 1e-12);
    }
}
