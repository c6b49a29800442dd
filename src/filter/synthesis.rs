//! Finding a filter: from losses that must be met to parts that can be bought.
//!
//! Several points (frequency, loss, circuit) must be met at once, within limits on capacitance to earth,
//! series inductance, stored energy of coils and number of parts. The search goes over families of prototypes
//! ([`Prototype`](super::Prototype)), numbers of parts, series or shunt part first, the impedance level and the
//! cutoff that the prototype is scaled to (`L = g R/w`, `C = g/(R w)`); it takes preferred values with the stated
//! parasitics, and improves each find by single steps along its series of values. Every candidate is judged by the
//! loss that it has as a ladder between the stated circuits, not by the prototype's response, which holds only for
//! matched ends.
//!
//! It is a search, not a proof that nothing better exists. Finds are ranked: fewest parts first, then margin.
//! [`Ladder::yield_fraction`] says how many of a lot keep all losses, parts off within their tolerances.
//!
//! **Caution**: a filter that meets these numbers on paper must still be judged on touch current, creepage,
//! temperature and fuses against the code that applies, and installed by a licensed electrician.

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

use super::prototype::{Family, Prototype};
use super::{Capacitor, Element, Inductor, Ladder, MainsSupply, MeasuringCircuit, Part, PreferredSeries};
use crate::error::{Error, Result, check};
use crate::wave::circuit_value;

/// A loss that must be met.
#[derive(Debug, Clone, PartialEq)]
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

    fn margin_db(&self, ladder: &Ladder) -> f64 {
        ladder.insertion_loss_db(self.frequency_hz, &self.circuit) - self.loss_db
    }
}

/// What a filter may not exceed, and what its parts are like.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignLimits {
    /// All capacitance to the case together, F.
    pub shunt_total_f: Option<f64>,
    /// All inductance in the line together, H.
    pub series_total_h: Option<f64>,
    /// Stored energy L I^2/2 of a single coil at load current, J: what its core must hold.
    pub coil_energy_j: Option<f64>,
    /// Load current, A.
    pub load_current_a: f64,
    /// Number of parts.
    pub most_parts: usize,
    /// Values that coils come in.
    pub coil_series: PreferredSeries,
    /// Values that capacitors come in.
    pub capacitor_series: PreferredSeries,
    /// Winding resistance for each henry, ohm/H.
    pub coil_resistance_ohm_per_h: f64,
    /// Winding capacitance of each coil, F.
    pub coil_capacitance_f: f64,
    /// Equivalent series resistance of each capacitor, ohm.
    pub capacitor_resistance_ohm: f64,
    /// Equivalent series inductance of each capacitor, H.
    pub capacitor_inductance_h: f64,
}

impl Default for DesignLimits {
    /// Seven ideal parts at most, coils and capacitors of E6, nothing else limited.
    fn default() -> Self {
        Self {
            shunt_total_f: None,
            series_total_h: None,
            coil_energy_j: None,
            load_current_a: 0.0,
            most_parts: 7,
            coil_series: PreferredSeries::E6,
            capacitor_series: PreferredSeries::E6,
            coil_resistance_ohm_per_h: 0.0,
            coil_capacitance_f: 0.0,
            capacitor_resistance_ohm: 0.0,
            capacitor_inductance_h: 0.0,
        }
    }
}

impl DesignLimits {
    /// Limits of a mains filter: capacitance from the earth-leakage current of one line (A), inductance from
    /// the volt drop as a fraction, both at the supply's highest voltage and at load current (A).
    ///
    /// # Errors
    /// Unless all are positive and finite.
    pub fn for_mains(
        supply: &MainsSupply,
        load_current_a: f64,
        earth_leakage_a: f64,
        volt_drop_fraction: f64,
    ) -> Result<Self> {
        circuit_value::positive("load_current_a", "A", load_current_a)?;
        circuit_value::positive("earth_leakage_a", "A", earth_leakage_a)?;
        circuit_value::positive("volt_drop_fraction", "", volt_drop_fraction)?;
        let omega = std::f64::consts::TAU * supply.frequency_hz();
        let highest_v = supply.voltage_v() * (1.0 + supply.voltage_tolerance());
        Ok(Self {
            shunt_total_f: Some(earth_leakage_a / (omega * highest_v)),
            series_total_h: Some(volt_drop_fraction * supply.voltage_v() / (omega * load_current_a)),
            load_current_a,
            ..Self::default()
        })
    }

    /// Checks that every limit makes sense.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for the first that does not, by name.
    pub fn check(&self) -> Result<()> {
        for (name, unit, value) in [
            ("shunt_total_f", "F", self.shunt_total_f),
            ("series_total_h", "H", self.series_total_h),
            ("coil_energy_j", "J", self.coil_energy_j),
        ] {
            if let Some(value) = value {
                circuit_value::positive(name, unit, value)?;
            }
        }
        circuit_value::non_negative("load_current_a", "A", self.load_current_a)?;
        check::within("most_parts", "", self.most_parts as f64, (1.0, 15.0), "a whole number from 1 to 15")?;
        circuit_value::non_negative("coil_resistance_ohm_per_h", "ohm/H", self.coil_resistance_ohm_per_h)?;
        circuit_value::non_negative("coil_capacitance_f", "F", self.coil_capacitance_f)?;
        circuit_value::non_negative("capacitor_resistance_ohm", "ohm", self.capacitor_resistance_ohm)?;
        circuit_value::non_negative("capacitor_inductance_h", "H", self.capacitor_inductance_h)?;
        Ok(())
    }

    fn element(&self, in_line: bool, index: i32) -> Result<Element> {
        Ok(if in_line {
            let henry = self.coil_series.value(index);
            let coil = Inductor::new(henry)?
                .with_resistance_ohm(self.coil_resistance_ohm_per_h * henry)?
                .with_parallel_capacitance_f(self.coil_capacitance_f)?;
            Element::Series(coil.into())
        } else {
            let capacitor = Capacitor::new(self.capacitor_series.value(index))?
                .with_series_resistance_ohm(self.capacitor_resistance_ohm)?
                .with_series_inductance_h(self.capacitor_inductance_h)?;
            Element::Shunt(capacitor.into())
        })
    }

    fn allows(&self, layout: &Layout) -> bool {
        let (mut shunt_f, mut series_h) = (0.0, 0.0);
        for (in_line, index) in layout.places() {
            if in_line {
                let henry = self.coil_series.value(index);
                series_h += henry;
                let energy = 0.5 * henry * self.load_current_a * self.load_current_a;
                if self.coil_energy_j.is_some_and(|most| energy > most) {
                    return false;
                }
            } else {
                shunt_f += self.capacitor_series.value(index);
            }
        }
        // One part in 10^12 for sums of decimal values.
        let within = |sum: f64, most: Option<f64>| most.is_none_or(|most| sum <= most * (1.0 + 1e-12));
        within(shunt_f, self.shunt_total_f) && within(series_h, self.series_total_h)
    }

    fn build(&self, layout: &Layout) -> Result<Ladder> {
        let elements = layout.places().map(|(in_line, index)| self.element(in_line, index)).collect::<Result<_>>()?;
        Ladder::new(elements)?.with_load_current_a(self.load_current_a)
    }
}

// A candidate: where it starts, and the place of each part in its series of values.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Layout {
    series_first: bool,
    indices: Vec<i32>,
}

impl Layout {
    fn places(&self) -> impl Iterator<Item = (bool, i32)> + '_ {
        self.indices.iter().enumerate().map(|(k, &index)| ((k % 2 == 0) == self.series_first, index))
    }
}

/// A filter that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Find {
    /// The filter.
    pub ladder: Ladder,
    /// The prototype that it started from.
    pub family: Family,
    /// Margin at each goal, dB.
    pub margins_db: Vec<f64>,
}

impl Find {
    /// The smallest margin, dB; negative if a goal is missed.
    #[must_use]
    pub fn margin_db(&self) -> f64 {
        self.margins_db.iter().copied().fold(f64::INFINITY, f64::min)
    }

    /// Number of parts.
    #[must_use]
    pub fn parts(&self) -> usize {
        self.ladder.elements().len()
    }
}

/// Filters that meet every goal within the limits, with at least `margin_db` in hand, best first; at most `count`.
///
/// ```
/// use stillroom::filter::{DesignLimits, LossGoal, MeasuringCircuit, synthesise};
/// let goals = [
///     LossGoal::new(150e3, 40.0, MeasuringCircuit::fifty_ohm())?,
///     LossGoal::new(150e3, 20.0, MeasuringCircuit::high_to_low())?,
///     LossGoal::new(30e6, 80.0, MeasuringCircuit::fifty_ohm())?,
/// ];
/// let limits = DesignLimits { shunt_total_f: Some(2e-6), most_parts: 5, ..Default::default() };
/// let finds = synthesise(&goals, &limits, 1.0, 3)?;
/// assert!(finds[0].margin_db() >= 1.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// For no goals or limits outside their domain; [`Error::Unreachable`] with the best margin where nothing meets all
/// goals.
pub fn synthesise(goals: &[LossGoal], limits: &DesignLimits, margin_db: f64, count: usize) -> Result<Vec<Find>> {
    check::not_empty("goals", goals)?;
    check::finite("margin_db", "dB", margin_db)?;
    check::count("count", count as f64, 1)?;
    limits.check()?;
    let mut finds: Vec<Find> = Vec::new();
    let mut nearest: Option<(f64, usize)> = None;
    for parts in 1..=limits.most_parts {
        let mut seen: Vec<Layout> = Vec::new();
        for start in starts(goals, limits, margin_db, parts)? {
            let polished = polish(goals, limits, margin_db, start.layout)?;
            if seen.contains(&polished.0) {
                continue;
            }
            seen.push(polished.0.clone());
            if nearest.is_none_or(|(best, _)| polished.1 > best) {
                nearest = Some((polished.1, parts));
            }
            if polished.1 >= margin_db {
                let ladder = limits.build(&polished.0)?;
                let margins_db = goals.iter().map(|goal| goal.margin_db(&ladder)).collect();
                finds.push(Find { ladder, family: start.family, margins_db });
            }
        }
        if finds.len() >= count {
            break;
        }
    }
    if finds.is_empty() {
        let (best, parts) = nearest.unwrap_or((f64::NEG_INFINITY, 0));
        return Err(Error::Unreachable {
            quantity: "margin_db".into(),
            target: margin_db,
            best,
            unit: "dB",
            at: if parts == 0 { "no filter within the limits".into() } else { format!("{parts} parts") },
        });
    }
    finds.sort_by(|p, q| p.parts().cmp(&q.parts()).then(q.margin_db().total_cmp(&p.margin_db())));
    finds.truncate(count);
    Ok(finds)
}

struct Start {
    layout: Layout,
    family: Family,
    margin_db: f64,
}

/// Ripples that Chebyshev prototypes are tried with, dB.
const RIPPLES_DB: [f64; 3] = [0.1, 0.5, 2.0];
/// Best starts that are kept for each number of parts.
const KEPT: usize = 12;

// The best scaled prototypes of a number of parts.
fn starts(goals: &[LossGoal], limits: &DesignLimits, margin_db: f64, parts: usize) -> Result<Vec<Start>> {
    let families = [Family::Butterworth, Family::EqualSections]
        .into_iter()
        .chain(RIPPLES_DB.map(|ripple_db| Family::Chebyshev { ripple_db }));
    let lowest_hz = goals.iter().map(LossGoal::frequency_hz).fold(f64::INFINITY, f64::min);
    let mut kept: Vec<Start> = Vec::new();
    for family in families {
        let prototype = Prototype::of(family, parts)?;
        for series_first in [false, true] {
            // Impedance level from 1 ohm to 1 kilohm, cutoff from twice the lowest goal down four decades.
            for level in 0..=12 {
                let ohm = 10f64.powf(0.25 * f64::from(level));
                let mut best: Option<Start> = None;
                for step in 0..=48 {
                    let omega = std::f64::consts::TAU * lowest_hz * 2.0 * 10f64.powf(f64::from(-step) / 12.0);
                    let indices = prototype
                        .values()
                        .iter()
                        .enumerate()
                        .map(|(k, g)| {
                            if (k % 2 == 0) == series_first {
                                limits.coil_series.nearest_index(g * ohm / omega)
                            } else {
                                limits.capacitor_series.nearest_index(g / (ohm * omega))
                            }
                        })
                        .collect::<Result<_>>()?;
                    let layout = Layout { series_first, indices };
                    if !limits.allows(&layout) {
                        break;
                    }
                    let margin = least_margin(goals, &limits.build(&layout)?);
                    if best.as_ref().is_none_or(|best| margin > best.margin_db) {
                        best = Some(Start { layout, family, margin_db: margin });
                    }
                    // The highest cutoff that does has the smallest parts.
                    if margin >= margin_db {
                        break;
                    }
                }
                kept.extend(best);
            }
        }
    }
    kept.sort_by(|p, q| q.margin_db.total_cmp(&p.margin_db));
    kept.truncate(KEPT);
    Ok(kept)
}

fn least_margin(goals: &[LossGoal], ladder: &Ladder) -> f64 {
    goals.iter().map(|goal| goal.margin_db(ladder)).fold(f64::INFINITY, f64::min)
}

// Single steps along the series of values, each the best there is, until the margin is met or none helps.
fn polish(goals: &[LossGoal], limits: &DesignLimits, margin_db: f64, from: Layout) -> Result<(Layout, f64)> {
    let mut margin = least_margin(goals, &limits.build(&from)?);
    let mut layout = from;
    while margin < margin_db {
        let mut better: Option<(Layout, f64)> = None;
        for place in 0..layout.indices.len() {
            for step in [-1, 1] {
                let mut next = layout.clone();
                next.indices[place] += step;
                if limits.allows(&next) {
                    let reached = least_margin(goals, &limits.build(&next)?);
                    if reached > better.as_ref().map_or(margin, |better| better.1) {
                        better = Some((next, reached));
                    }
                }
            }
        }
        match better {
            Some(found) => (layout, margin) = found,
            None => break,
        }
    }
    Ok((layout, margin))
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
        check::not_empty("goals", goals)?;
        for (name, value) in [("coil_tolerance", coil_tolerance), ("capacitor_tolerance", capacitor_tolerance)] {
            check::fraction(name, value)?;
            check::less_than(name, "", value, "one", 1.0)?;
        }
        check::count("trials", trials as f64, 1)?;
        let mut random = Pcg64::seed_from_u64(seed);
        let mut met = 0_usize;
        for _ in 0..trials {
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
    use crate::filter::SupplySystem;

    fn goals() -> Vec<LossGoal> {
        vec![
            LossGoal::new(14e3, 20.0, MeasuringCircuit::fifty_ohm()).unwrap(),
            LossGoal::new(150e3, 60.0, MeasuringCircuit::fifty_ohm()).unwrap(),
            LossGoal::new(150e3, 40.0, MeasuringCircuit::low_to_high()).unwrap(),
            LossGoal::new(150e3, 40.0, MeasuringCircuit::high_to_low()).unwrap(),
            LossGoal::new(10e6, 80.0, MeasuringCircuit::fifty_ohm()).unwrap(),
        ]
    }

    fn limits() -> DesignLimits {
        DesignLimits {
            shunt_total_f: Some(8e-6),
            series_total_h: Some(2e-3),
            coil_capacitance_f: 10e-12,
            capacitor_inductance_h: 5e-9,
            capacitor_resistance_ohm: 5e-3,
            coil_resistance_ohm_per_h: 50.0,
            load_current_a: 16.0,
            ..Default::default()
        }
    }

    #[test]
    fn finds_meet_what_they_promise() {
        let (goals, limits) = (goals(), limits());
        let finds = synthesise(&goals, &limits, 1.0, 5).unwrap();
        assert!(!finds.is_empty());
        for find in &finds {
            let (mut farad, mut henry) = (0.0, 0.0);
            for element in find.ladder.elements() {
                match element {
                    Element::Series(Part::Inductor(coil)) => {
                        assert_eq!(limits.coil_series.nearest(coil.inductance_h()).unwrap(), coil.inductance_h());
                        henry += coil.inductance_h();
                    }
                    Element::Shunt(Part::Capacitor(capacitor)) => farad += capacitor.capacitance_f(),
                    other => panic!("{other:?}"),
                }
            }
            assert!(farad <= 8e-6 * (1.0 + 1e-9) && henry <= 2e-3 * (1.0 + 1e-9));
            for (goal, margin) in goals.iter().zip(&find.margins_db) {
                let loss = find.ladder.insertion_loss_db(goal.frequency_hz(), goal.circuit());
                assert!((loss - goal.loss_db() - margin).abs() < 1e-9 && *margin >= 1.0);
            }
        }
        assert!(finds.windows(2).all(|pair| pair[0].parts() <= pair[1].parts()));
    }

    #[test]
    fn the_impossible_is_told_with_the_best() {
        let goals = [LossGoal::new(1e3, 200.0, MeasuringCircuit::fifty_ohm()).unwrap()];
        let limits = DesignLimits { shunt_total_f: Some(1e-9), series_total_h: Some(1e-6), ..Default::default() };
        match synthesise(&goals, &limits, 0.0, 1).unwrap_err() {
            Error::Unreachable { target, best, .. } => assert!(target == 0.0 && best < 0.0),
            other => panic!("{other}"),
        }
        assert!(synthesise(&[], &limits, 0.0, 1).is_err());
        let bad = DesignLimits { shunt_total_f: Some(-1.0), ..Default::default() };
        assert!(synthesise(&goals, &bad, 0.0, 1).is_err());
    }

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
    fn mains_limits_by_hand() {
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
        let limits = DesignLimits::for_mains(&supply, 16.0, 3.5e-3, 0.02).unwrap();
        let omega = 100.0 * std::f64::consts::PI;
        assert!((limits.shunt_total_f.unwrap() / (3.5e-3 / (omega * 230.0)) - 1.0).abs() < 1e-12);
        assert!((limits.series_total_h.unwrap() / (4.6 / (omega * 16.0)) - 1.0).abs() < 1e-12);
    }
}
