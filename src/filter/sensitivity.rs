//! How much each number in a filter matters to its loss.

use super::{Ladder, MeasuringCircuit};
use crate::error::{Result, check};
use crate::parameter::Parameters;

/// What one parameter does to the insertion loss.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
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
        let table = self.sensitivity_table(&[frequency_hz], circuit)?;
        Ok(table.into_iter().map(|(path, slopes)| Sensitivity { path, db_per_percent: slopes[0] }).collect())
    }

    /// The same over a sweep: each parameter's path with its slope in dB per per cent at every frequency, sorted by the
    /// largest.
    ///
    /// # Errors
    /// Unless every frequency is positive and finite.
    pub fn sensitivity_table(
        &self,
        frequency_hz: &[f64],
        circuit: &MeasuringCircuit,
    ) -> Result<Vec<(String, Vec<f64>)>> {
        const STEP: f64 = 1e-3;
        check::frequencies(frequency_hz)?;
        let mut table = Vec::new();
        for parameter in self.parameters().iter().filter(|parameter| parameter.value != 0.0) {
            let mut losses = [-2.0, -1.0, 1.0, 2.0].map(|_| vec![0.0; frequency_hz.len()]);
            for (out, steps) in losses.iter_mut().zip([-2.0, -1.0, 1.0, 2.0]) {
                let changed = self.with_parameter(&parameter.path, parameter.value * (1.0 + steps * STEP))?;
                changed.insertion_losses_db(frequency_hz, circuit, out);
            }
            let [far_below, below, above, far_above] = &losses;
            let slope = |k: usize| 0.01 * (8.0 * (above[k] - below[k]) - (far_above[k] - far_below[k])) / (12.0 * STEP);
            table.push((parameter.path.clone(), (0..frequency_hz.len()).map(slope).collect::<Vec<f64>>()));
        }
        let largest = |slopes: &[f64]| slopes.iter().fold(0.0_f64, |most, slope| most.max(slope.abs()));
        table.sort_by(|p, q| largest(&q.1).total_cmp(&largest(&p.1)));
        Ok(table)
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
