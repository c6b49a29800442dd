//! Chains of anything, laid out for sweeps over frequency.
//!
//! Runs of lumped parts and uniform lines are worked out a register at a time; what has no law (a table, a measured
//! two-port) is worked out beforehand, frequency by frequency, and read from columns.

use num_complex::Complex64;

use super::TwoPort;
use super::line_law::LineLaw;
use super::lumped_chain::{Ends, LumpedChain};
use super::{lumped_chain_lanes, worst_termination_lanes};

/// One member of a chain. Most are runs of parts, and few there are: a box would save nothing.
#[allow(clippy::large_enum_variant)]
pub(crate) enum Link<'a> {
    /// Series and shunt parts.
    Lumped(LumpedChain),
    /// A uniform line.
    Line(LineLaw),
    /// Anything that can be asked at a frequency in Hz.
    Asked(Box<dyn Fn(f64) -> TwoPort + Sync + 'a>),
}

/// What a case that is not perfect does to a chain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Case {
    /// Resistance of its bond, ohm.
    pub(crate) bond_ohm: f64,
    /// Inductance of its bond, H.
    pub(crate) bond_h: f64,
    /// Capacitance from input to output, F.
    pub(crate) stray_f: f64,
}

/// Links from source to load, in a case.
#[derive(Default)]
pub(crate) struct CircuitChain<'a> {
    pub(crate) links: Vec<Link<'a>>,
    pub(crate) case: Option<Case>,
}

impl Case {
    /// A two-port put into it, at an angular frequency in rad/s.
    pub(crate) fn around(&self, two_port: &TwoPort, omega: f64) -> TwoPort {
        let mut built = *two_port;
        if self.stray_f > 0.0 {
            built = built.with_bridging_admittance(Complex64::new(0.0, omega * self.stray_f));
        }
        if self.bond_ohm > 0.0 || self.bond_h > 0.0 {
            built = built.with_common_impedance(Complex64::new(self.bond_ohm, omega * self.bond_h));
        }
        built
    }
}

impl CircuitChain<'_> {
    /// As a two-port at a frequency in Hz: the twin of what a sweep does in registers.
    pub(crate) fn two_port(&self, frequency_hz: f64) -> TwoPort {
        let omega = std::f64::consts::TAU * frequency_hz;
        let inside = self.links.iter().fold(TwoPort::THROUGH, |so_far, link| match link {
            Link::Lumped(chain) => so_far.then(&chain.two_port(frequency_hz)),
            Link::Line(law) => so_far.then(&law.two_port(omega)),
            Link::Asked(ask) => so_far.then(&ask(frequency_hz)),
        });
        self.case.map_or(inside, |case| case.around(&inside, omega))
    }

    /// `ln|V20/V2|` over a sweep; `out` is as long as `frequency_hz`.
    pub(crate) fn ln_insertions(&self, frequency_hz: &[f64], ends: Ends<'_>, out: &mut [f64]) {
        match (self.links.as_slice(), self.case) {
            ([Link::Lumped(chain)], None) => chain.ln_insertions(frequency_hz, ends, out),
            _ => lumped_chain_lanes::ln_chain_insertions(self, frequency_hz, ends, out),
        }
    }

    /// Natural logarithms of the largest `|V2/V20|` over all passive terminations, over a sweep.
    pub(crate) fn ln_largest_insertion_gains(&self, frequency_hz: &[f64], out: &mut [f64]) {
        match (self.links.as_slice(), self.case) {
            ([Link::Lumped(chain)], None) => chain.ln_largest_insertion_gains(frequency_hz, out),
            _ => worst_termination_lanes::ln_largest_chain_gains(self, frequency_hz, out),
        }
    }

    /// Steps of a kernel for each frequency, roughly.
    pub(crate) fn work(&self) -> usize {
        let each = |link: &Link<'_>| match link {
            Link::Lumped(chain) => chain.len() / 2 + 1,
            Link::Line(_) => 8,
            Link::Asked(_) => 40,
        };
        self.links.iter().map(each).sum::<usize>() + 4
    }
}
