//! How much each number in a filter matters to its loss.

use super::{Ladder, LineFilter, LineMode, MeasuringCircuit, ModalTermination};
use crate::error::{Result, check};
use crate::parameter::{Parameter, Parameters};

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
    /// Central differences of fourth order over 0.01 and 0.02 per cent (over less near the end of a parameter's domain,
    /// such as full coupling): eight or more digits. Not a number where the loss has no slope that such steps show: right
    /// at a resonance that nothing damps.
    ///
    /// # Errors
    /// Unless the frequency is positive and finite.
    pub fn sensitivities(&self, frequency_hz: f64, circuit: &MeasuringCircuit) -> Result<Vec<Sensitivity>> {
        Ok(at_one(self.sensitivity_table(&[frequency_hz], circuit)?))
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
        check::frequencies(frequency_hz)?;
        slopes(self, frequency_hz.len(), |changed, out| {
            changed.insertion_losses_db(frequency_hz, circuit, out);
            Ok(())
        })
    }
}

impl LineFilter {
    /// Slope of the loss from one mode to another against every parameter that is not zero, at a frequency in Hz,
    /// largest first; as [`Ladder::sensitivities`]. The parts of every line are told apart, so that the slopes of
    /// two alike parts in two lines say what an unbalance does.
    ///
    /// Not a number for a conversion that nothing but balance prevents: either way off balance it rises out of nothing.
    ///
    /// # Errors
    /// As [`insertion_loss_db`](Self::insertion_loss_db).
    pub fn sensitivities(
        &self,
        frequency_hz: f64,
        drive: LineMode,
        listen: LineMode,
        source: &ModalTermination,
        load: &ModalTermination,
    ) -> Result<Vec<Sensitivity>> {
        Ok(at_one(self.sensitivity_table(&[frequency_hz], drive, listen, source, load)?))
    }

    /// The same over a sweep: each parameter's path with its slope in dB per per cent at every frequency, sorted by the
    /// largest.
    ///
    /// # Errors
    /// As [`insertion_losses_db`](Self::insertion_losses_db).
    pub fn sensitivity_table(
        &self,
        frequency_hz: &[f64],
        drive: LineMode,
        listen: LineMode,
        source: &ModalTermination,
        load: &ModalTermination,
    ) -> Result<Vec<(String, Vec<f64>)>> {
        let losses =
            |filter: &Self, out: &mut [f64]| filter.insertion_losses_db(frequency_hz, drive, listen, source, load, out);
        slopes(self, frequency_hz.len(), losses)
    }
}

fn at_one(table: Vec<(String, Vec<f64>)>) -> Vec<Sensitivity> {
    table.into_iter().map(|(path, slopes)| Sensitivity { path, db_per_percent: slopes[0] }).collect()
}

/// Step of the differences, relative.
const STEP: f64 = 1e-4;
/// A loss that changes by more than this over two steps of a parameter has no slope that they could show, dB.
const KINK_DB: f64 = 3.0;

/// Slopes of losses over a sweep against every parameter that is not zero (but the crest factor), sorted by the largest; `losses` gives the
/// losses of a changed filter.
fn slopes<F: Parameters>(
    filter: &F,
    count: usize,
    losses: impl Fn(&F, &mut [f64]) -> Result<()>,
) -> Result<Vec<(String, Vec<f64>)>> {
    let mut here = vec![0.0; count];
    losses(filter, &mut here)?;
    let mut kinked = vec![false; count];
    let mut table = Vec::new();
    // A crest factor may stand at its lower end, and its slope is that of the currents that it multiplies.
    let counts = |parameter: &&Parameter| parameter.value != 0.0 && parameter.path != "crest_factor";
    for parameter in filter.parameters()?.iter().filter(counts) {
        let at = |share: f64| filter.with_parameter(&parameter.path, parameter.value * (1.0 + share));
        // Full coupling is as near as a millionth to many a choke: stay well within what is accepted.
        let mut step = STEP;
        while step > 1e-12 && (at(20.0 * step).is_err() || at(-20.0 * step).is_err()) {
            step *= 0.1;
        }
        let mut shifted = [-2.0, -1.0, 1.0, 2.0].map(|_| vec![0.0; count]);
        for (out, steps) in shifted.iter_mut().zip([-2.0, -1.0, 1.0, 2.0]) {
            losses(&at(steps * step)?, out)?;
            for ((kinked, shifted), here) in kinked.iter_mut().zip(out.iter()).zip(&here) {
                let change = (shifted - here).abs();
                // Not a number between two infinite losses.
                *kinked |= change > KINK_DB || change.is_nan();
            }
        }
        let [far_below, below, above, far_above] = &shifted;
        let slope = |k: usize| 0.01 * (8.0 * (above[k] - below[k]) - (far_above[k] - far_below[k])) / (12.0 * step);
        table.push((parameter.path.clone(), (0..count).map(slope).collect::<Vec<f64>>()));
    }
    for (_, slopes) in &mut table {
        for (slope, _) in slopes.iter_mut().zip(&kinked).filter(|(_, kinked)| **kinked) {
            *slope = f64::NAN;
        }
    }
    let largest = |slopes: &[f64]| slopes.iter().fold(0.0_f64, |most, slope| most.max(slope.abs()));
    table.sort_by(|p, q| largest(&q.1).total_cmp(&largest(&p.1)));
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Bank, Capacitor, CommonModeChoke, Element, Inductor};

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

    fn filter(first_f: f64, second_f: f64, leakage_h: f64) -> LineFilter {
        let cap = |farad| Capacitor::new(farad).unwrap().with_series_resistance_ohm(0.01).unwrap().into();
        LineFilter::new(
            2,
            vec![
                Bank::Choke(CommonModeChoke::from_leakage(2e-3, leakage_h).unwrap()),
                Bank::ToCase(vec![cap(first_f), cap(second_f)]),
            ],
        )
        .unwrap()
    }

    #[test]
    fn slopes_of_one_line_are_those_of_the_ladder() {
        let (coil, cap) =
            (Inductor::new(40e-6).unwrap().with_resistance_ohm(0.1).unwrap(), Capacitor::new(1e-7).unwrap());
        let ladder = Ladder::new(vec![Element::Series(coil.into()), Element::Shunt(cap.into())]).unwrap();
        let line = LineFilter::new(1, vec![Bank::Series(vec![coil.into()]), Bank::ToCase(vec![cap.into()])]).unwrap();
        let ends = ModalTermination::each_line(50.0, 1).unwrap();
        for frequency_hz in [1e4, 8e4, 3e6] {
            let one = ladder.sensitivities(frequency_hz, &MeasuringCircuit::fifty_ohm()).unwrap();
            let other = line.sensitivities(frequency_hz, LineMode::Common, LineMode::Common, &ends, &ends).unwrap();
            assert_eq!(one.len(), other.len());
            for (one, other) in one.iter().zip(&other) {
                assert!((one.db_per_percent - other.db_per_percent).abs() < 1e-8, "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn conversion_grows_by_what_unbalances_and_has_no_slope_in_balance() {
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let (common, between) = (LineMode::Common, LineMode::Differential(0, 1));
        let slopes = |filter: &LineFilter| filter.sensitivities(1e6, common, between, &ends, &ends).unwrap();
        let unlike = slopes(&filter(4.7e-9, 4.7e-9 * 1.05, 20e-6));
        let of = |path: &str| unlike.iter().find(|slope| slope.path == path).unwrap().db_per_percent;
        // Conversion goes as the difference: one per cent more of the larger is a fifth more of 5 %, 20 log10(6/5) or so.
        let larger = of("banks.1.lines.1.capacitance_f");
        assert!(larger < -1.0 && larger > -2.5, "{larger}");
        assert!(of("banks.1.lines.0.capacitance_f") > 1.0);
        assert!(slopes(&filter(4.7e-9, 4.7e-9, 20e-6)).iter().all(|slope| slope.db_per_percent.is_nan()));
    }

    #[test]
    fn almost_full_coupling_leaves_room_for_a_slope() {
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let between = LineMode::Differential(0, 1);
        // The leakage is (1 - k) 2 L: one per cent of the coupling is 0.01 k/(1 - k) of the leakage.
        let near = filter(4.7e-9, 4.7e-9, 0.4e-6);
        let list = near.sensitivities(30e6, between, between, &ends, &ends).unwrap();
        let coupling = list.iter().find(|slope| slope.path == "banks.0.coupling").unwrap().db_per_percent;
        let at = |leakage_h: f64| {
            filter(4.7e-9, 4.7e-9, leakage_h).insertion_loss_db(30e6, between, between, &ends, &ends).unwrap()
        };
        let by_leakage = (at(0.4e-6 * 1.001) - at(0.4e-6 * 0.999)) / 0.002;
        let exact = -0.01 * by_leakage * (1.0 - 1e-4) / 1e-4;
        assert!((coupling / exact - 1.0).abs() < 1e-3, "{coupling} {exact}");
    }
}
