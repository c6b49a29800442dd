//! A mains supply: its conductors, voltage, frequency and tolerance.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::circuit::bounds;
use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::parameter::{Domain, Knobs, Rebuild};

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

    /// Which conductor is the neutral, if one is.
    #[must_use]
    pub const fn neutral(self) -> Option<usize> {
        match self {
            Self::SingleLine | Self::ThreePhase => None,
            Self::LineNeutral => Some(1),
            Self::ThreePhaseNeutral => Some(3),
        }
    }

    /// How many lines share a load's volt drop: two where the current may come back through the neutral.
    pub(super) const fn ways(self) -> f64 {
        match self.neutral() {
            None => 1.0,
            Some(_) => 2.0,
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
            voltage_v: bounds::positive("voltage_v", "V", voltage_v)?,
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
}

impl Rebuild for MainsSupply {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            self.system,
            knobs.value("voltage_v", "V", self.voltage_v, Domain::POSITIVE),
            knobs.value("frequency_hz", "Hz", self.frequency_hz, Domain::POSITIVE),
        )?
        .with_voltage_tolerance(knobs.value(
            "voltage_tolerance",
            "",
            self.voltage_tolerance,
            Domain::FRACTION,
        ))
    }
}

checked_record!(MainsSupply as SupplyRecord {
    system: SupplySystem,
    voltage_v: f64,
    frequency_hz: f64,
    #[serde(default)]
    voltage_tolerance: f64,
});
