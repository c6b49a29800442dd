//! How many of a lot of filters do what one of them does on paper.

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

use super::goal::least_margin;
use super::{Element, Ladder, LossGoal, Part};
use crate::call_off::{Watch, go_on, unwatched};
use crate::error::{Result, check};

/// A lot of filters to be drawn: how far parts are off, and how many are looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Lot {
    /// Coils are off evenly by up to this fraction either way.
    pub coil_tolerance: f64,
    /// The same for capacitors.
    pub capacitor_tolerance: f64,
    /// How many filters are drawn.
    pub trials: usize,
    /// The same seed gives the same share on every machine.
    pub seed: u64,
}

impl Ladder {
    /// Share of a lot in which every goal is met, values of coils and capacitors spread evenly within their
    /// tolerances (fractions): Monte Carlo over `trials` with a seed. The same seed gives the same share on every
    /// machine (generator: PCG XSL RR 128/64, M. E. O'Neill, 2014).
    ///
    /// # Errors
    /// For no goals, tolerances outside 0 to below 1, or no trials.
    pub fn yield_fraction(
        &self,
        goals: &[LossGoal],
        coil_tolerance: f64,
        capacitor_tolerance: f64,
        trials: usize,
        seed: u64,
    ) -> Result<f64> {
        self.yield_fraction_watched(goals, coil_tolerance, capacitor_tolerance, trials, seed, &mut unwatched)
    }

    /// The same, called off when the watch says so.
    ///
    /// # Errors
    /// As [`yield_fraction`](Self::yield_fraction); [`Error::Interrupted`](crate::Error::Interrupted) when called off.
    pub fn yield_fraction_watched(
        &self,
        goals: &[LossGoal],
        coil_tolerance: f64,
        capacitor_tolerance: f64,
        trials: usize,
        seed: u64,
        watch: &mut Watch<'_>,
    ) -> Result<f64> {
        check::not_empty("goals", goals)?;
        for (name, value) in [("coil_tolerance", coil_tolerance), ("capacitor_tolerance", capacitor_tolerance)] {
            check::fraction(name, value)?;
            check::less_than(name, "", value, "one", 1.0)?;
        }
        check::count("trials", trials as f64, 1)?;
        let mut random = Pcg64::seed_from_u64(seed);
        let mut met = 0_usize;
        for _ in 0..trials {
            go_on(watch)?;
            let mut factor = |tolerance: f64| {
                // 53 random bits make a number from 0 to below 1.
                let share = (random.next_u64() >> 11) as f64 * 2f64.powi(-53);
                1.0 + tolerance * (2.0 * share - 1.0)
            };
            let elements = self
                .elements()
                .iter()
                .map(|element| {
                    Ok(match element {
                        Element::Series(part) => {
                            Element::Series(part_off(part, &mut factor, coil_tolerance, capacitor_tolerance)?)
                        }
                        Element::Shunt(part) => {
                            Element::Shunt(part_off(part, &mut factor, coil_tolerance, capacitor_tolerance)?)
                        }
                        Element::Feedthrough(part) => Element::Feedthrough(
                            part.with_capacitance_f(part.capacitance_f() * factor(capacitor_tolerance))?,
                        ),
                        other => other.clone(),
                    })
                })
                .collect::<Result<_>>()?;
            met += usize::from(least_margin(goals, &self.with_elements(elements)?) >= 0.0);
        }
        Ok(met as f64 / trials as f64)
    }
}

fn part_off(part: &Part, factor: &mut impl FnMut(f64) -> f64, coil: f64, capacitor: f64) -> Result<Part> {
    Ok(match part {
        Part::Inductor(part) => part.with_inductance_h(part.inductance_h() * factor(coil))?.into(),
        Part::Capacitor(part) => part.with_capacitance_f(part.capacitance_f() * factor(capacitor))?.into(),
        other => other.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, MeasuringCircuit};

    #[test]
    fn yield_is_a_share_that_can_be_repeated() {
        let goal = |loss_db| vec![LossGoal::new(100e3, loss_db, MeasuringCircuit::fifty_ohm()).unwrap()];
        let ladder = Ladder::new(vec![Element::Shunt(Capacitor::new(1e-6).unwrap().into())]).unwrap();
        let nominal = ladder.insertion_loss_db(100e3, &MeasuringCircuit::fifty_ohm());
        // One capacitor: loss rises with it, so half of an even spread is above the nominal loss.
        let half = ladder.yield_fraction(&goal(nominal), 0.1, 0.1, 20_000, 1).unwrap();
        assert!((half - 0.5).abs() < 0.015, "{half}");
        assert_eq!(half, ladder.yield_fraction(&goal(nominal), 0.1, 0.1, 20_000, 1).unwrap());
        assert_eq!(ladder.yield_fraction(&goal(nominal - 2.0), 0.1, 0.1, 500, 1).unwrap(), 1.0);
        assert_eq!(ladder.yield_fraction(&goal(nominal + 2.0), 0.1, 0.1, 500, 1).unwrap(), 0.0);
        assert!(ladder.yield_fraction(&goal(nominal), 1.0, 0.1, 5, 1).is_err());
        assert!(ladder.yield_fraction(&goal(nominal), 0.1, 0.1, 0, 1).is_err());
    }

    #[test]
    fn called_off_it_stops_at_once() {
        let goal = LossGoal::new(100e3, 10.0, MeasuringCircuit::fifty_ohm()).unwrap();
        let ladder = Ladder::new(vec![Element::Shunt(Capacitor::new(1e-6).unwrap().into())]).unwrap();
        let called_off = ladder
            .yield_fraction_watched(&[goal], 0.1, 0.1, usize::MAX >> 12, 1, &mut || std::ops::ControlFlow::Break(()));
        assert_eq!(called_off.unwrap_err(), crate::Error::Interrupted);
    }
}
