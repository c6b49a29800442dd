//! Finding a filter: from losses that must be met to parts that can be bought.
//!
//! Several points (frequency, loss, circuit) must be met at once, within limits on capacitance to earth (earth-leakage
//! current), series inductance (volt drop), what coils can carry (stored energy, saturation, heat) and number of parts. The search goes over families of prototypes
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

use super::goal::least_margin;
use super::prototype::{Prototype, PrototypeFamily};
use super::{DesignLimits, Element, Ladder, LossGoal, Lot, PreferredSeries};
use crate::call_off::{Watch, go_on, unwatched};
use crate::error::{Error, Result, check};

/// A filter that was found.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Find {
    /// The filter.
    pub ladder: Ladder,
    /// The prototype that it started from.
    pub family: PrototypeFamily,
    /// Margin at each goal, dB.
    pub margins_db: Vec<f64>,
    /// Share of a lot that keeps every goal, where it was asked for: see [`ranked_by_yield`].
    pub yield_share: Option<f64>,
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
    synthesise_watched(goals, limits, margin_db, count, &mut unwatched)
}

/// The same, called off when the watch says so.
///
/// # Errors
/// As [`synthesise`]; [`Error::Interrupted`] when called off.
pub fn synthesise_watched(
    goals: &[LossGoal],
    limits: &DesignLimits,
    margin_db: f64,
    count: usize,
    watch: &mut Watch<'_>,
) -> Result<Vec<Find>> {
    check::not_empty("goals", goals)?;
    check::finite("margin_db", "dB", margin_db)?;
    check::count("count", count as f64, 1)?;
    limits.check()?;
    let mut finds: Vec<Find> = Vec::new();
    let mut nearest: Option<(f64, usize)> = None;
    for parts in 1..=limits.most_parts {
        let mut seen: Vec<Layout> = Vec::new();
        for start in starts(goals, limits, margin_db, parts, watch)? {
            let polished = polish(goals, limits, margin_db, start.layout, watch)?;
            if seen.contains(&polished.0) {
                continue;
            }
            seen.push(polished.0.clone());
            if nearest.is_none_or(|(best, _)| polished.1 > best) {
                nearest = Some((polished.1, parts));
            }
            if polished.1 >= margin_db {
                let ladder = build(limits, &polished.0)?;
                let margins_db = goals.iter().map(|goal| goal.margin_db(&ladder)).collect();
                finds.push(Find { ladder, family: start.family, margins_db, yield_share: None });
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
            unit: "dB".into(),
            at: if parts == 0 { "no filter within the limits".into() } else { format!("{parts} parts") },
        });
    }
    finds.sort_by(|p, q| p.parts().cmp(&q.parts()).then(q.margin_db().total_cmp(&p.margin_db())));
    finds.truncate(count);
    Ok(finds)
}

/// Finds with the share of a lot that keeps every goal, best first: fewest parts, then yield, then margin.
///
/// # Errors
/// As [`Ladder::yield_fraction`]; [`Error::Interrupted`] when the watch calls it off.
pub fn ranked_by_yield(
    mut finds: Vec<Find>,
    goals: &[LossGoal],
    lot: &Lot,
    watch: &mut Watch<'_>,
) -> Result<Vec<Find>> {
    for find in &mut finds {
        let (coils, capacitors) = (lot.coil_tolerance, lot.capacitor_tolerance);
        let share = find.ladder.yield_fraction_watched(goals, coils, capacitors, lot.trials, lot.seed, watch)?;
        find.yield_share = Some(share);
    }
    let share = |find: &Find| find.yield_share.unwrap_or(0.0);
    finds.sort_by(|p, q| {
        p.parts().cmp(&q.parts()).then(share(q).total_cmp(&share(p))).then(q.margin_db().total_cmp(&p.margin_db()))
    });
    Ok(finds)
}

struct Start {
    layout: Layout,
    family: PrototypeFamily,
    margin_db: f64,
}

/// Ripples that Chebyshev prototypes are tried with, dB.
const RIPPLES_DB: [f64; 3] = [0.1, 0.5, 2.0];
/// Best starts that are kept for each number of parts.
const KEPT: usize = 12;

// The best scaled prototypes of a number of parts.
fn starts(
    goals: &[LossGoal],
    limits: &DesignLimits,
    margin_db: f64,
    parts: usize,
    watch: &mut Watch<'_>,
) -> Result<Vec<Start>> {
    let families = [PrototypeFamily::Butterworth, PrototypeFamily::EqualSections]
        .into_iter()
        .chain(RIPPLES_DB.map(|ripple_db| PrototypeFamily::Chebyshev { ripple_db }));
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
                    go_on(watch)?;
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
                    if !allows(limits, &layout) {
                        break;
                    }
                    let margin = least_margin(goals, &build(limits, &layout)?);
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

// Single steps along the series of values, each the best there is, until the margin is met or none helps.
fn polish(
    goals: &[LossGoal],
    limits: &DesignLimits,
    margin_db: f64,
    from: Layout,
    watch: &mut Watch<'_>,
) -> Result<(Layout, f64)> {
    let mut margin = least_margin(goals, &build(limits, &from)?);
    let mut layout = from;
    while margin < margin_db {
        let mut better: Option<(Layout, f64)> = None;
        for place in 0..layout.indices.len() {
            for step in [-1, 1] {
                go_on(watch)?;
                let mut next = layout.clone();
                next.indices[place] += step;
                if allows(limits, &next) {
                    let reached = least_margin(goals, &build(limits, &next)?);
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

fn allows(limits: &DesignLimits, layout: &Layout) -> bool {
    let values = |in_line: bool, series: PreferredSeries| {
        layout.places().filter(move |&(place, _)| place == in_line).map(move |(_, index)| series.value(index))
    };
    limits.allow(values(true, limits.coil_series), values(false, limits.capacitor_series))
}

fn build(limits: &DesignLimits, layout: &Layout) -> Result<Ladder> {
    let elements = layout
        .places()
        .map(|(in_line, index)| {
            Ok(if in_line {
                Element::Series(limits.coil(limits.coil_series.value(index))?.into())
            } else {
                Element::Shunt(limits.capacitor(limits.capacitor_series.value(index))?.into())
            })
        })
        .collect::<Result<_>>()?;
    Ladder::new(elements)?.with_load_current_rms_a(limits.load_current_rms_a)?.with_crest_factor(limits.crest_factor)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{MeasuringCircuit, Part};

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
            load_current_rms_a: 16.0,
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
    fn cores_that_saturate_are_judged_with_what_is_left() {
        let goals = goals();
        let limits = DesignLimits { coil_half_energy_j: Some(0.05), least_remaining: 0.5, ..limits() };
        for find in synthesise(&goals, &limits, 1.0, 3).unwrap() {
            for element in find.ladder.elements() {
                if let Element::Series(Part::Inductor(coil)) = element {
                    let peak_a = limits.crest_factor * limits.load_current_rms_a;
                    assert!(coil.loaded_inductance_h(peak_a) >= 0.5 * coil.inductance_h());
                    assert!(coil.loaded_inductance_h(peak_a) < coil.inductance_h());
                }
            }
        }
    }

    #[test]
    fn ranking_by_yield_puts_the_surer_first_among_equals() {
        let goals = goals();
        let finds = synthesise(&goals, &limits(), 0.0, 5).unwrap();
        let lot = Lot { coil_tolerance: 0.2, capacitor_tolerance: 0.2, trials: 300, seed: 1 };
        let ranked = ranked_by_yield(finds.clone(), &goals, &lot, &mut unwatched).unwrap();
        assert_eq!(ranked.len(), finds.len());
        for pair in ranked.windows(2) {
            assert!(pair[0].parts() <= pair[1].parts());
            assert!(pair[0].parts() < pair[1].parts() || pair[0].yield_share >= pair[1].yield_share);
        }
        for find in &ranked {
            let alone = find.ladder.yield_fraction(&goals, 0.2, 0.2, 300, 1).unwrap();
            assert_eq!(find.yield_share, Some(alone));
        }
        let bad = Lot { trials: 0, ..lot };
        assert!(ranked_by_yield(finds, &goals, &bad, &mut unwatched).is_err());
    }

    #[test]
    fn called_off_it_stops_at_once() {
        let mut asked = 0;
        let mut watch = || {
            asked += 1;
            if asked < 50 { std::ops::ControlFlow::Continue(()) } else { std::ops::ControlFlow::Break(()) }
        };
        let called_off = synthesise_watched(&goals(), &limits(), 1.0, 5, &mut watch);
        assert_eq!(called_off.unwrap_err(), Error::Interrupted);
        assert_eq!(asked, 50);
    }
}
