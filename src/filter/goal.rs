//! Losses that must be met.

use crate::filter::{Ladder, MeasuringCircuit};
use crate::parameter::Element;

/// A loss that must be met.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(frequency_hz, loss_db, circuit))]
pub struct LossGoal {
    /// Frequency.
    #[parameter(positive)]
    frequency_hz: f64,
    /// Insertion loss to be met.
    #[parameter(finite)]
    loss_db: f64,
    /// Where it is stated; 50 ohm each where not given.
    #[part(default = MeasuringCircuit::fifty_ohm(), setter = none)]
    circuit: MeasuringCircuit,
}

impl LossGoal {
    pub(super) fn margin_db(&self, ladder: &Ladder) -> f64 {
        ladder.insertion_loss_db(self.frequency_hz, &self.circuit) - self.loss_db
    }
}

/// The smallest margin of a filter over several goals, dB.
pub(super) fn least_margin(goals: &[LossGoal], ladder: &Ladder) -> f64 {
    goals.iter().map(|goal| goal.margin_db(ladder)).fold(f64::INFINITY, f64::min)
}
