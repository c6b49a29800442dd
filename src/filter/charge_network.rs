//! A filter cut off from its supply, as capacitances and conductances between nodes and the case.
//!
//! Windings are connections. Nodes are the lines, what lies behind a capacitor or a resistor in a line, and star points.
//! Where capacitances or conductances leave nodes without any way to the case is read from the graph, not from numbers.

use std::f64::consts::TAU;
use std::fmt;

use nalgebra::DMatrix;

use crate::filter::{Bank, Element, LineFilter, Part};

/// A place that charge can stay on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum ChargedNode {
    /// The case.
    Case,
    /// A line, counted from zero.
    Line(usize),
    /// A line behind a capacitor or a resistor that stands in it.
    LineBehind {
        /// The line.
        line: usize,
        /// Place of the bank that it is behind.
        bank: usize,
    },
    /// A star point.
    StarPoint {
        /// Place of its bank.
        bank: usize,
    },
}

impl fmt::Display for ChargedNode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Case => write!(f, "case"),
            Self::Line(line) => write!(f, "line {line}"),
            Self::LineBehind { line, bank } => write!(f, "line {line} behind bank {bank}"),
            Self::StarPoint { bank } => write!(f, "star point of bank {bank}"),
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Branch {
    from: usize,
    // None: the case.
    to: Option<usize>,
    farad: f64,
    siemens: f64,
}

/// Nodes and what is between them; the first ones are the lines on the supply's side.
#[derive(Debug, Clone)]
pub(super) struct ChargeNetwork {
    pub(super) nodes: Vec<ChargedNode>,
    branches: Vec<Branch>,
}

/// What counts as a way from node to node.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Capacitance,
    Conductance,
    Either,
}

impl ChargeNetwork {
    /// Of a filter at a mains frequency in Hz, at which measured two-ports are asked for their capacitance; their
    /// conductance is not counted on.
    pub(super) fn of(filter: &LineFilter, mains_hz: f64) -> Self {
        let lines = filter.lines();
        let mut network = Self { nodes: (0..lines).map(ChargedNode::Line).collect(), branches: Vec::new() };
        let mut at: Vec<usize> = (0..lines).collect();
        for (bank, member) in filter.banks().iter().enumerate() {
            match member {
                Bank::Series(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        network.in_line(&mut at, line, bank, part);
                    }
                }
                Bank::ToCase(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        network.across(at[line], None, part);
                    }
                }
                Bank::Between { from, to, part } => network.across(at[*from], Some(at[*to]), part),
                Bank::Star { parts, to_case } => {
                    let point = network.node(ChargedNode::StarPoint { bank });
                    for (line, part) in parts.iter().enumerate() {
                        network.across(at[line], Some(point), part);
                    }
                    if let Some(part) = to_case {
                        network.across(point, None, part);
                    }
                }
                Bank::Choke(_) => {}
                Bank::Each(elements) => {
                    for (line, element) in elements.iter().enumerate() {
                        match element {
                            Element::Series(part) => network.in_line(&mut at, line, bank, part),
                            Element::Shunt(part) => network.across(at[line], None, part),
                            Element::Feedthrough(part) => network.join(at[line], None, part.capacitance_f(), 0.0),
                            Element::Line(cable) => network.join(at[line], None, cable.capacitance_f(), 0.0),
                            Element::Measured(measured) => {
                                let ([_, [admittance, _]], _) = measured.two_port(mains_hz).scaled_chain();
                                network.join(at[line], None, admittance.im.max(0.0) / (TAU * mains_hz), 0.0);
                            }
                        }
                    }
                }
            }
        }
        network
    }

    fn node(&mut self, node: ChargedNode) -> usize {
        self.nodes.push(node);
        self.nodes.len() - 1
    }

    fn join(&mut self, from: usize, to: Option<usize>, farad: f64, siemens: f64) {
        self.branches.push(Branch { from, to, farad, siemens });
    }

    fn across(&mut self, from: usize, to: Option<usize>, part: &Part) {
        match part {
            Part::Capacitor(capacitor) => self.join(from, to, capacitor.capacitance_f(), 0.0),
            Part::Resistor(resistor) => {
                self.join(from, to, resistor.parallel_capacitance_f(), resistor.resistance_ohm().recip());
            }
            Part::Inductor(_) | Part::FerriteBead(_) => {}
        }
    }

    fn in_line(&mut self, at: &mut [usize], line: usize, bank: usize, part: &Part) {
        if matches!(part, Part::Capacitor(_) | Part::Resistor(_)) {
            let behind = self.node(ChargedNode::LineBehind { line, bank });
            self.across(at[line], Some(behind), part);
            at[line] = behind;
        }
    }

    /// Capacitances against the case and between the nodes, F, those to the case and those between nodes times a factor each.
    pub(super) fn capacitance_f(&self, to_case: f64, between: f64) -> DMatrix<f64> {
        self.matrix(|branch| branch.farad * if branch.to.is_none() { to_case } else { between })
    }

    /// Conductances, ohm^-1.
    pub(super) fn conductance_s(&self) -> DMatrix<f64> {
        self.matrix(|branch| branch.siemens)
    }

    /// Smallest and largest of the capacitances and conductances that there are: F and ohm^-1; one where there is none.
    pub(super) fn scales(&self) -> (f64, f64) {
        let present = |value: fn(&Branch) -> f64| self.branches.iter().map(value).filter(|value| *value > 0.0);
        let largest_f = present(|branch| branch.farad).reduce(f64::max);
        let least_s = present(|branch| branch.siemens).reduce(f64::min);
        (largest_f.unwrap_or(1.0), least_s.unwrap_or(1.0))
    }

    fn matrix(&self, value: impl Fn(&Branch) -> f64) -> DMatrix<f64> {
        let mut matrix = DMatrix::zeros(self.nodes.len(), self.nodes.len());
        for branch in &self.branches {
            let value = value(branch);
            matrix[(branch.from, branch.from)] += value;
            if let Some(to) = branch.to {
                matrix[(to, to)] += value;
                matrix[(branch.from, to)] -= value;
                matrix[(to, branch.from)] -= value;
            }
        }
        matrix
    }

    /// Groups of nodes with ways among them and none to the case or to a fixed node. `tied` names for each node the first
    /// one that it is tied to, itself where it is not.
    pub(super) fn islands(&self, way: Way, fixed: &[bool], tied: &[usize]) -> Vec<Vec<usize>> {
        let count = self.nodes.len();
        // The last place is the case, and all that is fixed.
        let mut root: Vec<usize> = (0..=count).collect();
        fn find(root: &[usize], mut node: usize) -> usize {
            while root[node] != node {
                node = root[node];
            }
            node
        }
        let mut unite = |a: usize, b: usize| {
            let (a, b) = (find(&root, a), find(&root, b));
            root[a.min(b)] = a.max(b);
        };
        for node in 0..count {
            unite(node, tied[node]);
            if fixed[node] {
                unite(node, count);
            }
        }
        for branch in &self.branches {
            let counts = match way {
                Way::Capacitance => branch.farad > 0.0,
                Way::Conductance => branch.siemens > 0.0,
                Way::Either => branch.farad > 0.0 || branch.siemens > 0.0,
            };
            if counts {
                unite(branch.from, branch.to.unwrap_or(count));
            }
        }
        let mut islands: Vec<Vec<usize>> = Vec::new();
        for first in 0..count {
            if find(&root, first) == first {
                islands.push((0..count).filter(|&node| find(&root, node) == first).collect());
            }
        }
        islands
    }
}
