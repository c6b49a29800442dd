//! Voltages that opening the poles of a supply leaves, over every order, grouping of the load and instant.
//!
//! See [`stored_charge`](super::stored_charge) for what is assumed.

use std::f64::consts::{SQRT_2, TAU};

use nalgebra::DMatrix;

use super::charge_network::{ChargeNetwork, Way};
use super::discharge::Modes;
use crate::filter::{ChargedNode, Discharge, MainsSupply, SwitchingOff};

/// The network at one corner of its tolerances, and the mains at it.
pub(super) struct Switch<'a> {
    network: &'a ChargeNetwork,
    capacitance_f: DMatrix<f64>,
    conductance_s: DMatrix<f64>,
    modes: Modes,
    omega: f64,
    // Crest of each line: real and imaginary part.
    crest_v: Vec<[f64; 2]>,
}

/// Which nodes are driven while some poles are closed, and at what.
struct Stage {
    driven: Vec<Option<[f64; 2]>>,
    tied: Vec<usize>,
}

impl<'a> Switch<'a> {
    pub(super) fn new(network: &'a ChargeNetwork, supply: &MainsSupply, to_case: f64, between: f64) -> Option<Self> {
        let capacitance_f = network.capacitance_f(to_case, between);
        let modes = Modes::of(network, &capacitance_f)?;
        Some(Self {
            network,
            conductance_s: network.conductance_s(),
            capacitance_f,
            modes,
            omega: TAU * supply.frequency_hz(),
            crest_v: supply.voltages().iter().map(|v| [SQRT_2 * v.re, SQRT_2 * v.im]).collect(),
        })
    }

    /// Adds what is worse than the cases so far.
    pub(super) fn look(&self, safe_voltage_v: f64, cases: &mut Vec<Discharge>) -> Option<()> {
        let lines = self.crest_v.len();
        let alone: Vec<usize> = (0..lines).collect();
        self.judge(SwitchingOff::AtOnce, &self.opened(&[(0..lines).collect()], &alone)?, safe_voltage_v, cases);
        if lines > 1 {
            for tied in groupings(lines) {
                let way = if tied == alone { SwitchingOff::PoleByPole } else { SwitchingOff::PoleByPoleLoaded };
                for order in orders(lines) {
                    let steps: Vec<Vec<usize>> = order.into_iter().map(|line| vec![line]).collect();
                    self.judge(way, &self.opened(&steps, &tied)?, safe_voltage_v, cases);
                }
            }
        }
        Some(())
    }

    /// Voltages when all poles are open, real and imaginary part in two columns for each step; lines of a step open
    /// together.
    fn opened(&self, steps: &[Vec<usize>], groups: &[usize]) -> Option<DMatrix<f64>> {
        let lines = self.crest_v.len();
        let mut closed = vec![true; lines];
        let mut voltages = DMatrix::zeros(self.network.nodes.len(), 0);
        let mut before = self.following(&self.stage(&closed, steps, groups))?;
        for step in steps {
            for &line in step {
                closed[line] = false;
            }
            let stage = self.stage(&closed, steps, groups);
            let after = self.following(&stage)?;
            let columns = voltages.ncols();
            let mut kept = voltages.insert_columns(columns, 2, 0.0);
            kept.columns_mut(columns, 2).copy_from(&(&before - &after));
            for (node, driven) in stage.driven.iter().enumerate() {
                if driven.is_some() {
                    kept.row_mut(node).fill(0.0);
                }
            }
            voltages = self.settled(kept, &stage)?;
            before = after;
        }
        Some(voltages)
    }

    /// A line whose pole is open stands at the potential of that line of its group which opens last, as long as that one
    /// is closed; then the group is free together.
    fn stage(&self, closed: &[bool], steps: &[Vec<usize>], groups: &[usize]) -> Stage {
        let count = self.network.nodes.len();
        let (mut driven, mut tied) = (vec![None; count], (0..count).collect::<Vec<_>>());
        for line in 0..closed.len() {
            let last = steps.iter().flatten().rfind(|other| groups[**other] == groups[line]);
            let last = last.copied().unwrap_or(line);
            if closed[line] {
                driven[line] = Some(self.crest_v[line]);
            } else if closed[last] {
                driven[line] = Some(self.crest_v[last]);
            } else {
                tied[line] = groups[line];
            }
        }
        Stage { driven, tied }
    }

    /// What all nodes do while some are driven: two columns, real and imaginary part. Nodes that nothing ties to a driven
    /// one or to the case are left at zero.
    fn following(&self, stage: &Stage) -> Option<DMatrix<f64>> {
        let count = self.network.nodes.len();
        let mut voltages = DMatrix::zeros(count, 2);
        let fixed: Vec<bool> = stage.driven.iter().map(Option::is_some).collect();
        for (node, driven) in stage.driven.iter().enumerate() {
            if let Some([re, im]) = driven {
                voltages[(node, 0)] = *re;
                voltages[(node, 1)] = *im;
            }
        }
        let adrift: Vec<usize> = self.network.islands(Way::Either, &fixed, &stage.tied).concat();
        let free: Vec<usize> =
            (0..count).filter(|&node| !fixed[node] && stage.tied[node] == node && !adrift.contains(&node)).collect();
        if free.is_empty() || fixed.iter().all(|fixed| !fixed) {
            return Some(voltages);
        }
        // Nodes that are tied move as one.
        let gather = DMatrix::from_fn(count, free.len(), |node, place| {
            f64::from(u8::from(!fixed[node] && stage.tied[node] == free[place]))
        });
        let (g, b) = (&self.conductance_s, &self.capacitance_f * self.omega);
        let (inner_g, inner_b) = (gather.transpose() * g * &gather, gather.transpose() * &b * &gather);
        let n = free.len();
        let mut whole = DMatrix::zeros(2 * n, 2 * n);
        whole.view_mut((0, 0), (n, n)).copy_from(&inner_g);
        whole.view_mut((n, n), (n, n)).copy_from(&inner_g);
        whole.view_mut((0, n), (n, n)).copy_from(&(-&inner_b));
        whole.view_mut((n, 0), (n, n)).copy_from(&inner_b);
        // Currents that the driven nodes send in.
        let (re, im) = (voltages.column(0), voltages.column(1));
        let sent_re = gather.transpose() * (g * re - &b * im);
        let sent_im = gather.transpose() * (g * im + &b * re);
        let sent = DMatrix::from_fn(2 * n, 1, |row, _| if row < n { -sent_re[row] } else { -sent_im[row - n] });
        let solved = whole.lu().solve(&sent)?;
        let moved_re = &gather * solved.rows(0, n);
        let moved_im = &gather * solved.rows(n, n);
        for node in 0..count {
            voltages[(node, 0)] += moved_re[(node, 0)];
            voltages[(node, 1)] += moved_im[(node, 0)];
        }
        Some(voltages)
    }

    /// Without what no capacitance keeps: nodes that only conductances tie down settle at once.
    fn settled(&self, voltages: DMatrix<f64>, stage: &Stage) -> Option<DMatrix<f64>> {
        let fixed: Vec<bool> = stage.driven.iter().map(Option::is_some).collect();
        let quick = self.network.islands(Way::Capacitance, &fixed, &stage.tied);
        if quick.is_empty() {
            return Some(voltages);
        }
        let count = self.network.nodes.len();
        let each =
            DMatrix::from_fn(count, quick.len(), |node, island| f64::from(u8::from(quick[island].contains(&node))));
        let conductance = each.transpose() * &self.conductance_s * &each;
        let scale = conductance.amax();
        if scale == 0.0 {
            return Some(voltages);
        }
        let inverse = conductance.pseudo_inverse(1e-13 * scale).ok()?;
        Some(&voltages - &each * inverse * each.transpose() * &self.conductance_s * &voltages)
    }

    fn judge(&self, switching_off: SwitchingOff, voltages: &DMatrix<f64>, safe_v: f64, cases: &mut Vec<Discharge>) {
        let amplitudes = self.modes.amplitudes(voltages);
        let left_j = self.left_j(&self.modes.left(voltages));
        let count = self.network.nodes.len();
        let ends =
            |end: usize| if end == count { (None, ChargedNode::Case) } else { (Some(end), self.network.nodes[end]) };
        for from in 0..count {
            for end in from + 1..=count {
                let (to, to_node) = ends(end);
                // Between islands that nothing joins no potential is set.
                if self.modes.floating[from] != to.and_then(|to| self.modes.floating[to]) {
                    continue;
                }
                let envelope = self.modes.between(from, to, &amplitudes);
                let known = cases.iter().position(|case| {
                    case.switching_off == switching_off && (case.to == ChargedNode::Case) == to.is_none()
                });
                let (first_v, left_v) = (envelope.at(0.0), envelope.left());
                let fresh = Discharge {
                    switching_off,
                    from: self.network.nodes[from],
                    to: to_node,
                    first_v,
                    time_s: if left_v > safe_v { f64::INFINITY } else { 0.0 },
                    left_v,
                    left_j,
                };
                let place = known.unwrap_or_else(|| {
                    cases.push(fresh);
                    cases.len() - 1
                });
                let before = cases[place];
                // A pair that is safe no later than what is known tells no time of its own.
                let (time_s, worse) = if fresh.never() || before.never() {
                    (fresh.time_s, fresh.compare(&before).is_gt())
                } else {
                    let time_s = envelope.last_above(safe_v, before.time_s);
                    (time_s, time_s > before.time_s || (time_s == 0.0 && first_v > before.first_v))
                };
                let pair = if worse { fresh } else { before };
                cases[place] = Discharge {
                    from: pair.from,
                    to: pair.to,
                    switching_off,
                    first_v: before.first_v.max(first_v),
                    time_s: before.time_s.max(time_s),
                    left_v: before.left_v.max(left_v),
                    left_j: before.left_j.max(left_j),
                };
            }
        }
    }

    /// The largest energy over all phases of the openings. It is convex in the vector of their cosines and sines, so going
    /// from one to the phases of its gradient never lowers it; it is done from the phases that are worst for each node.
    fn left_j(&self, left: &DMatrix<f64>) -> f64 {
        if left.amax() == 0.0 {
            return 0.0;
        }
        let form = left.transpose() * &self.capacitance_f * left;
        let turned = |towards: &DMatrix<f64>| {
            let mut unit = towards.clone();
            for opening in 0..unit.nrows() / 2 {
                let size = unit[2 * opening].hypot(unit[2 * opening + 1]);
                let (re, im) =
                    if size > 0.0 { (unit[2 * opening] / size, unit[2 * opening + 1] / size) } else { (1.0, 0.0) };
                unit[2 * opening] = re;
                unit[2 * opening + 1] = im;
            }
            unit
        };
        let energy = |unit: &DMatrix<f64>| 0.5 * (unit.transpose() * &form * unit)[(0, 0)];
        (0..left.nrows())
            .map(|node| {
                let mut unit = turned(&DMatrix::from_fn(left.ncols(), 1, |column, _| left[(node, column)]));
                let mut most = energy(&unit);
                for _ in 0..100 {
                    unit = turned(&(&form * &unit));
                    let now = energy(&unit);
                    if now <= most * (1.0 + 1e-14) {
                        break;
                    }
                    most = now;
                }
                most
            })
            .fold(0.0, f64::max)
    }
}

/// All ways to tie lines together: for each line the first one of its group.
fn groupings(lines: usize) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = vec![Vec::new()];
    for line in 0..lines {
        found = found
            .into_iter()
            .flat_map(|groups| {
                let firsts = (0..line).filter(|&other| groups[other] == other).chain([line]).collect::<Vec<_>>();
                firsts.into_iter().map(move |first| [groups.as_slice(), &[first]].concat())
            })
            .collect();
    }
    found
}

/// All orders of the lines.
fn orders(lines: usize) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = vec![Vec::new()];
    for line in 0..lines {
        found = found
            .into_iter()
            .flat_map(|order| {
                (0..=order.len()).map(move |place| {
                    let mut longer = order.clone();
                    longer.insert(place, line);
                    longer
                })
            })
            .collect();
    }
    found
}
