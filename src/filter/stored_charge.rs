//! What a filter's capacitors keep when the supply is switched off, and for how long.
//!
//! **Caution.** A filter that these sums call discharged may not be: resistors fail open. Before anyone touches a conductor
//! it is discharged, and that it is dead is proved by measurement, by someone licensed for it and under the code that
//! applies. See [`DISCHARGE_CAUTION`].
//!
//! The network is that of all nodes against the case: lines, star points, and what lies behind capacitors and resistors in
//! the lines; windings are connections. While poles are closed every node follows the mains as the capacitances and
//! conductances at mains frequency have it. A pole opens at an instant of its own and its line keeps its charge; what is
//! left free moves on with the lines that are still live. So every opening adds to the voltages of the end a vector
//! `Re(t_k e^(j phase_k))`, and since each phase is free, the largest of any voltage is the sum of magnitudes. Poles open
//! shortly after one another: nothing discharges in between. The voltages then fall by the modes of `C dv/dt = -G v`.
//!
//! Three ways of switching off, each at its worst instants:
//!
//! * all poles at once;
//! * one by one in every order, neutral included, the load off before;
//! * one by one in every order while a load still ties lines to one another, in every grouping of the lines: an open line
//!   then stands at the potential of one that is still live. It can leave more than no load does: with the neutral opened
//!   first, both lines are left at the crest.
//!
//! Crest: `sqrt(2)` times the supply's voltage at its highest, see
//! [`voltage_tolerance`](crate::filter::MainsSupply::voltage_tolerance). Capacitors are taken at the corners of their
//! tolerance, those to the case together high or low, those between lines likewise. Surges of the mains and a load that
//! stores energy itself are not in it.

use std::fmt;

use super::charge_network::ChargeNetwork;
use super::switch::Switch;
use crate::circuit::bounds;
use crate::error::{Error, Result, check};
use crate::filter::{ChargedNode, LineFilter, MainsSupply};

/// What a user should be told beside any time to discharge.
pub const DISCHARGE_CAUTION: &str = "Capacitors can hold charge for any time, and discharge resistors fail open: discharge every conductor to the case \
     and to the others, and prove by measurement that it is dead, before anyone touches it.";

/// How the supply is switched off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum SwitchingOff {
    /// All poles at the same instant.
    AtOnce,
    /// Pole after pole, the load off before.
    PoleByPole,
    /// Pole after pole, while a load ties lines to one another.
    PoleByPoleLoaded,
}

impl SwitchingOff {
    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AtOnce => "at_once",
            Self::PoleByPole => "pole_by_pole",
            Self::PoleByPoleLoaded => "pole_by_pole_loaded",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::AtOnce => "all poles at once",
            Self::PoleByPole => "pole by pole, no load",
            Self::PoleByPoleLoaded => "pole by pole, load on",
        }
    }
}

/// What one way of switching off leaves between lines and the case, or between lines: each number the worst of its own over
/// order, instants, tolerances and pairs of nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Discharge {
    /// How the supply is switched off.
    pub switching_off: SwitchingOff,
    /// The pair of nodes that is longest above the safe voltage; of pairs that stay above, the one that keeps most.
    pub from: ChargedNode,
    /// Its other node.
    pub to: ChargedNode,
    /// Voltage as the last pole opens, V.
    pub first_v: f64,
    /// Time until it is at the safe voltage for good, s; infinite if never (none in a file).
    #[cfg_attr(feature = "serde", serde(with = "finite_or_none"))]
    pub time_s: f64,
    /// Voltage left for ever, V.
    pub left_v: f64,
    /// Energy that the whole filter keeps for ever, J.
    pub left_j: f64,
}

impl Discharge {
    /// Whether the voltage never falls to the safe one.
    #[must_use]
    pub fn never(&self) -> bool {
        self.time_s == f64::INFINITY
    }

    /// Longest above the safe voltage; of those that stay above, or never were, the higher voltage.
    pub(super) fn compare(&self, other: &Self) -> std::cmp::Ordering {
        self.time_s
            .total_cmp(&other.time_s)
            .then(self.left_v.total_cmp(&other.left_v))
            .then(self.first_v.total_cmp(&other.first_v))
    }
}

impl fmt::Display for Discharge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} to {}, {:.0} V at first, ", self.switching_off.words(), self.from, self.to, self.first_v)?;
        if self.never() {
            write!(f, "never safe")?;
        } else {
            write!(f, "safe after {:.3} s", self.time_s)?;
        }
        write!(f, "; {:.1} V and {:.3e} J left for ever", self.left_v, self.left_j)
    }
}

/// A time as a number, or none for never: an infinite number has no form in many a file.
#[cfg(feature = "serde")]
mod finite_or_none {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    // The shape that the attribute asks for.
    #[allow(clippy::trivially_copy_pass_by_ref)]
    pub(super) fn serialize<S: Serializer>(time_s: &f64, serializer: S) -> Result<S::Ok, S::Error> {
        time_s.is_finite().then_some(*time_s).serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
        Ok(Option::<f64>::deserialize(deserializer)?.unwrap_or(f64::INFINITY))
    }
}

/// What the capacitors keep after switching off.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct StoredCharge {
    /// The safe voltage, V.
    pub safe_voltage_v: f64,
    /// By how much the supply's voltage was taken higher than nominal, as a fraction.
    pub voltage_tolerance: f64,
    /// How far the capacitors were taken off either way, as a fraction.
    pub capacitance_tolerance: f64,
    /// For each way of switching off, to the case and between lines, as far as there are such pairs; worst first.
    pub cases: Vec<Discharge>,
}

impl StoredCharge {
    /// The worst; none where nothing can hold charge.
    #[must_use]
    pub fn worst(&self) -> Option<&Discharge> {
        self.cases.first()
    }

    /// Time until everything is safe for good, s; infinite if never.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.largest(|case| case.time_s)
    }

    /// Largest voltage left for ever, V.
    #[must_use]
    pub fn left_v(&self) -> f64 {
        self.largest(|case| case.left_v)
    }

    /// Largest energy left for ever, J.
    #[must_use]
    pub fn left_j(&self) -> f64 {
        self.largest(|case| case.left_j)
    }

    fn largest(&self, value: impl Fn(&Discharge) -> f64) -> f64 {
        self.cases.iter().map(value).fold(0.0, f64::max)
    }
}

impl fmt::Display for StoredCharge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(
            f,
            "stored charge, supply +{:.0} %, capacitors +-{:.0} %, safe at {} V:",
            100.0 * self.voltage_tolerance,
            100.0 * self.capacitance_tolerance,
            self.safe_voltage_v,
        )?;
        // What a load has made equal to rounding is not told.
        for case in self.cases.iter().filter(|case| case.first_v > 1e-9 * self.safe_voltage_v) {
            writeln!(f, "  {case}")?;
        }
        write!(f, "{DISCHARGE_CAUTION}")
    }
}

impl LineFilter {
    /// What the capacitors keep after switching off a supply at its highest voltage, by every way and at the worst instants;
    /// capacitors off by a fraction either way, safe at a voltage in V. Measured two-ports count with their capacitance at
    /// mains frequency and are not counted on to discharge anything.
    ///
    /// ```
    /// use stillroom::filter::{Bank, Capacitor, LineFilter, MainsSupply, Resistor, SupplySystem};
    /// let across = |part| Bank::Between { from: 0, to: 1, part };
    /// let filter = LineFilter::new(2, vec![
    ///     across(Capacitor::new(2.2e-6)?.into()),
    ///     across(Resistor::new(470e3)?.into()),
    ///     Bank::ToCase(vec![Capacitor::new(5e-6)?.into(); 2]),
    /// ])?;
    /// let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0)?;
    /// let charge = filter.stored_charge(&supply, 0.0, 34.0)?;
    /// // The resistor between the lines does nothing for what both hold against the case.
    /// assert!(charge.worst().is_some_and(|worst| worst.never()));
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    ///
    /// # Errors
    /// If supply and filter have different numbers of lines, for a tolerance outside 0 to 1, a voltage that is not
    /// positive, or parts whose values are too far apart for double precision.
    pub fn stored_charge(
        &self,
        supply: &MainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> Result<StoredCharge> {
        check::same_length("lines", self.lines(), "lines of the supply", supply.system().lines())?;
        check::fraction("capacitance_tolerance", capacitance_tolerance)?;
        bounds::positive("safe_voltage_v", "V", safe_voltage_v)?;
        let network = ChargeNetwork::of(self, supply.frequency_hz());
        let (high, low) = (1.0 + capacitance_tolerance, 1.0 - capacitance_tolerance);
        let corners: &[(f64, f64)] = if capacitance_tolerance > 0.0 {
            &[(high, high), (high, low), (low, high), (low, low)]
        } else {
            &[(1.0, 1.0)]
        };
        let mut cases: Vec<Discharge> = Vec::new();
        for &(to_case, between) in corners {
            Switch::new(&network, supply, to_case, between)
                .and_then(|switch| switch.look(safe_voltage_v, &mut cases))
                .ok_or_else(|| Error::OutOfRange {
                    quantity: "banks".into(),
                    value: self.banks().len() as f64,
                    unit: "".into(),
                    accepted: "with capacitors and resistors near enough for double precision".into(),
                })?;
        }
        cases.sort_by(|a, b| b.compare(a));
        Ok(StoredCharge { safe_voltage_v, voltage_tolerance: supply.voltage_tolerance(), capacitance_tolerance, cases })
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::SQRT_2;

    use super::*;
    use crate::filter::{Bank, Capacitor, Part, Resistor, SupplySystem};

    fn farad(value: f64) -> Part {
        Capacitor::new(value).unwrap().into()
    }

    fn ohm(value: f64) -> Part {
        Resistor::new(value).unwrap().into()
    }

    fn across(from: usize, to: usize, part: Part) -> Bank {
        Bank::Between { from, to, part }
    }

    fn charge(system: SupplySystem, higher: f64, banks: Vec<Bank>) -> StoredCharge {
        let supply = MainsSupply::new(system, 230.0, 50.0).unwrap().with_voltage_tolerance(higher).unwrap();
        LineFilter::new(system.lines(), banks).unwrap().stored_charge(&supply, 0.0, 34.0).unwrap()
    }

    fn case(charge: &StoredCharge, way: SwitchingOff, to_case: bool) -> Discharge {
        let found =
            charge.cases.iter().find(|case| case.switching_off == way && (case.to == ChargedNode::Case) == to_case);
        *found.unwrap()
    }

    fn common_charge() -> Vec<Bank> {
        vec![across(0, 1, farad(2.2e-6)), across(0, 1, ohm(470e3)), Bank::ToCase(vec![farad(5e-6); 2])]
    }

    // Independent: charges by hand. Both poles at once: half of the crest stays on both lines. The neutral first, with the
    // line at its trough: it keeps 2.2 uF times the crest, which lifts it to 2 x 2.2/7.2 of the crest when the line is
    // opened at the crest.
    #[test]
    fn a_resistor_between_lines_leaves_what_both_hold_against_the_case() {
        let crest = 230.0 * SQRT_2;
        let charge = charge(SupplySystem::LineNeutral, 0.0, common_charge());
        let at_once = case(&charge, SwitchingOff::AtOnce, true);
        assert!(at_once.never() && (at_once.left_v / (0.5 * crest) - 1.0).abs() < 1e-9);
        assert!((at_once.left_j / (0.5 * 10e-6 * (0.5 * crest).powi(2)) - 1.0).abs() < 1e-9);
        let by_pole = case(&charge, SwitchingOff::PoleByPole, true);
        let by_hand = 0.5 * crest * (1.0 + 2.0 * 2.2 / 7.2);
        assert!((by_pole.left_v / by_hand - 1.0).abs() < 1e-5, "{} {by_hand}", by_pole.left_v);
        assert_eq!(format!("{:.0}", by_pole.left_v), "262");
        // A load that is still on holds the neutral at the line.
        let loaded = case(&charge, SwitchingOff::PoleByPoleLoaded, true);
        assert!((loaded.left_v / crest - 1.0).abs() < 1e-9 && loaded.never());
        assert_eq!(charge.worst().unwrap().switching_off, SwitchingOff::PoleByPoleLoaded);
        // Between the lines the resistor does its work.
        let between = case(&charge, SwitchingOff::AtOnce, false);
        let by_hand = 470e3 * 4.7e-6 * (crest / 34.0).ln();
        assert!((between.time_s / by_hand - 1.0).abs() < 1e-9 && between.left_v < 1e-9);
        assert!(charge.to_string().contains("never safe") && charge.to_string().contains("prove by measurement"));
        let higher = super::tests::charge(SupplySystem::LineNeutral, 0.1, common_charge());
        assert_eq!(format!("{:.0}", case(&higher, SwitchingOff::PoleByPole, true).left_v), "288");
    }

    #[test]
    fn each_line_discharges_by_itself() {
        let banks = || vec![Bank::ToCase(vec![farad(1e-6); 2]), Bank::ToCase(vec![ohm(10e6), ohm(1e6)])];
        for (higher, seconds) in [(0.0, 22.58), (0.1, 23.54)] {
            let charge = charge(SupplySystem::LineNeutral, higher, banks());
            for way in [SwitchingOff::AtOnce, SwitchingOff::PoleByPole] {
                let found = case(&charge, way, true);
                assert!((found.time_s - seconds).abs() < 0.005, "{found}");
                assert_eq!((found.from, found.left_v, found.left_j), (ChargedNode::Line(0), 0.0, 0.0));
            }
            assert!((charge.time_s() - seconds).abs() < 0.005);
        }
    }

    #[test]
    fn a_delta_with_two_resistors_discharges() {
        let caps = || [(0, 1), (1, 2), (0, 2)].map(|(from, to)| across(from, to, farad(1e-6))).to_vec();
        let with = |resistors: &[(usize, usize)]| {
            let more = resistors.iter().map(|&(from, to)| across(from, to, ohm(1e6)));
            charge(SupplySystem::ThreePhase, 0.0, caps().into_iter().chain(more).collect())
        };
        let two = with(&[(0, 1), (1, 2)]);
        assert!(two.time_s() > 1.0 && two.time_s() < 60.0, "{two}");
        // Nothing is held against the case, where there is no capacitor.
        assert!(two.cases.iter().all(|case| case.to != ChargedNode::Case && case.left_v < 1e-9 && case.left_j < 1e-15));
        assert!(with(&[(0, 1)]).worst().unwrap().never());
    }

    #[test]
    fn three_phases_pump_one_line_up() {
        let mut banks = [(0, 1), (1, 2), (0, 2)].map(|(from, to)| across(from, to, farad(2.2e-6))).to_vec();
        banks.push(Bank::ToCase(vec![farad(5e-6); 3]));
        let alone = charge(SupplySystem::ThreePhase, 0.0, banks.clone());
        assert_eq!(format!("{:.0}", case(&alone, SwitchingOff::PoleByPole, true).left_v), "591");
        for (from, to) in [(0, 1), (1, 2), (0, 2)] {
            banks.push(across(from, to, ohm(470e3)));
        }
        let bled = charge(SupplySystem::ThreePhase, 0.0, banks);
        let found = case(&bled, SwitchingOff::PoleByPole, true);
        assert_eq!(format!("{:.0} {:.0}", found.first_v, found.left_v), "591 467");
        assert!((found.left_j / (0.5 * 15e-6 * found.left_v.powi(2)) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn nothing_left_to_discharge_takes_no_time() {
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 12.0, 50.0).unwrap();
        let filter = LineFilter::new(2, vec![across(0, 1, farad(1e-6)), across(0, 1, ohm(1e6))]).unwrap();
        assert_eq!(filter.stored_charge(&supply, 0.0, 34.0).unwrap().time_s(), 0.0);
        // Resistors alone hold nothing; a bare line is nobody's.
        let bare = LineFilter::new(2, vec![Bank::ToCase(vec![ohm(1e6); 2])]).unwrap();
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
        let charge = bare.stored_charge(&supply, 0.2, 34.0).unwrap();
        assert_eq!((charge.time_s(), charge.left_v(), charge.left_j()), (0.0, 0.0, 0.0), "{charge}");
        assert!(filter.stored_charge(&supply, 1.5, 34.0).is_err());
        assert!(filter.stored_charge(&supply, 0.0, f64::NAN).is_err());
    }

    #[test]
    fn time_is_proportional_to_capacitance_and_its_tolerance_counts() {
        let filter = LineFilter::new(
            2,
            vec![Bank::ToCase(vec![farad(1e-6); 2]), Bank::ToCase(vec![ohm(1e6); 2]), across(0, 1, farad(0.1e-6))],
        )
        .unwrap();
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
        let time = |tolerance: f64| filter.stored_charge(&supply, tolerance, 34.0).unwrap().time_s();
        // Where the free lines follow the mains, capacitances share the work with resistances: not quite proportional.
        assert!((time(0.2) / (1.2 * time(0.0)) - 1.0).abs() < 1e-3, "{} {}", time(0.2), time(0.0));
    }
}
