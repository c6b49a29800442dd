//! A mains supply: its conductors, voltage, frequency and tolerance.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::parameter::Element;

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
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct MainsSupply {
    /// Kind of supply.
    #[kept(copy)]
    system: SupplySystem,
    /// Nominal voltage of a line against neutral.
    #[parameter(circuit_positive)]
    voltage_v: f64,
    /// Frequency.
    #[parameter(circuit_positive)]
    frequency_hz: f64,
    /// By how much the voltage may be higher, as a fraction.
    #[parameter(fraction, default = 0.0)]
    voltage_tolerance: f64,
}

impl MainsSupply {
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
