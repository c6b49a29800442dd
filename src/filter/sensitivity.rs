//! How much each number in a filter matters to its loss.

use super::{Ladder, MeasuringCircuit};
use crate::error::{Result, check};
use crate::parameter::Parameters;

/// What one parameter does to the insertion loss.
#[derive(Debug, Clone, PartialEq)]
pub struct Sensitivity {
    /// Path of the parameter, for example `elements.1.capacitance_f`.
    pub path: String,
    /// Change of insertion loss in dB for one per cent more of it (the slope at its value).
    pub db_per_percent: f64,
}

impl Ladder {
    /// Slope of the insertion loss against every parameter that is not zero, at a frequency in Hz, largest first.
    ///
    /// Central differences of fourth order over 0.1 and 0.2 per cent: eight or more digits, except right at a
    /// lossless resonance.
    ///
    /// # Errors
    /// Unless the frequency is positive and finite.
    pub fn sensitivities(&self, frequency_hz: f64, circuit: &MeasuringCircuit) -> Result<Vec<Sensitivity>> {
        const STEP: f64 = 1e-3;
        check::frequency(frequency_hz)?;
        let mut list = Vec::new();
        for parameter in self.parameters().iter().filter(|parameter| parameter.value != 0.0) {
            let loss = |share: f64| -> Result<f64> {
                let changed = self.with_parameter(&parameter.path, parameter.value * (1.0 + share))?;
                Ok(changed.insertion_loss_db(frequency_hz, circuit))
            };
            let near = loss(STEP)? - loss(-STEP)?;
            let far = loss(2.0 * STEP)? - loss(-2.0 * STEP)?;
            let slope = (8.0 * near - far) / (12.0 * STEP);
            list.push(Sensitivity { path: parameter.path.clone(), db_per_percent: 0.01 * slope });
        }
        list.sort_by(|p, q| q.db_per_percent.abs().total_cmp(&p.db_per_percent.abs()));
        Ok(list)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, Element};

    #[test]
    fn slope_of_a_single_capacitor_by_hand() {
        let ladder = Ladder::new(vec![Element::Shunt(Capacitor::new(1e-6).unwrap().into())]).unwrap();
        let frequency_hz = 10e3;
        let list = ladder.sensitivities(frequency_hz, &MeasuringCircuit::fifty_ohm()).unwrap();
        assert_eq!(list.len(), 1);
        assert_eq!(list[0].path, "elements.0.capacitance_f");
        // d/d ln C of 10 log10(1 + x^2) is 20 x^2/((1 + x^2) ln 10).
        let x = 2.0 * std::f64::consts::PI * frequency_hz * 25e-6;
        let exact = 0.2 * x * x / ((1.0 + x * x) * std::f64::consts::LN_10);
        assert!((list[0].db_per_percent / exact - 1.0).abs() < 1e-8);
        assert!(ladder.sensitivities(0.0, &MeasuringCircuit::fifty_ohm()).is_err());
    }
}
