//! Losses that must be met.

use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::filter::{Ladder, MeasuringCircuit};
use crate::parameter::{Domain, Knobs, Rebuild};

/// A loss that must be met.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "GoalRecord", into = "GoalRecord"))]
pub struct LossGoal {
    frequency_hz: f64,
    loss_db: f64,
    circuit: MeasuringCircuit,
}

impl LossGoal {
    /// At least `loss_db` of insertion loss at `frequency_hz` in a circuit.
    ///
    /// # Errors
    /// Unless the frequency is positive and the loss finite.
    pub fn new(frequency_hz: f64, loss_db: f64, circuit: MeasuringCircuit) -> Result<Self> {
        Ok(Self {
            frequency_hz: check::frequency(frequency_hz)?,
            loss_db: check::finite("loss_db", "dB", loss_db)?,
            circuit,
        })
    }

    /// Frequency, Hz.
    #[must_use]
    pub const fn frequency_hz(&self) -> f64 {
        self.frequency_hz
    }

    /// Loss to be met, dB.
    #[must_use]
    pub const fn loss_db(&self) -> f64 {
        self.loss_db
    }

    /// Where it is stated.
    #[must_use]
    pub const fn circuit(&self) -> &MeasuringCircuit {
        &self.circuit
    }

    pub(super) fn margin_db(&self, ladder: &Ladder) -> f64 {
        ladder.insertion_loss_db(self.frequency_hz, &self.circuit) - self.loss_db
    }
}

impl Rebuild for LossGoal {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("frequency_hz", "Hz", self.frequency_hz, Domain::POSITIVE),
            knobs.value("loss_db", "dB", self.loss_db, Domain::FINITE),
            knobs.enter("circuit", |knobs| self.circuit.rebuild(knobs))?,
        )
    }
}

checked_record!(LossGoal as GoalRecord {
    frequency_hz: f64,
    loss_db: f64,
    #[serde(default = "MeasuringCircuit::fifty_ohm")]
    circuit: MeasuringCircuit,
});

/// The smallest margin of a filter over several goals, dB.
pub(super) fn least_margin(goals: &[LossGoal], ladder: &Ladder) -> f64 {
    goals.iter().map(|goal| goal.margin_db(ladder)).fold(f64::INFINITY, f64::min)
}
