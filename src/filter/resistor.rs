//! Resistors: series inductance and parallel capacitance.

use crate::circuit::lumped_chain::Immittance;
use crate::parameter::Element;

/// A resistor: R with series L, and C across both.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct Resistor {
    /// Resistance.
    #[parameter(circuit_positive)]
    resistance_ohm: f64,
    /// Series inductance.
    #[parameter(circuit_non_negative, default = 0.0)]
    series_inductance_h: f64,
    /// Capacitance across it.
    #[parameter(circuit_non_negative, default = 0.0)]
    parallel_capacitance_f: f64,
}

impl Resistor {
    pub(crate) fn impedance(&self) -> Immittance {
        Immittance::coil(self.resistance_ohm, self.series_inductance_h, 0.0, self.parallel_capacitance_f)
    }
}
