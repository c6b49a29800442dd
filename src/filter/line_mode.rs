//! Modes of several lines, and what stands at the ends of each.
//!
//! With `n` lines: **common**, all lines at the same voltage, the return in the case; **differential** between two
//! lines, voltages +1/2 and -1/2; a **single line** against the case while the others stand terminated (the
//! asymmetrical, symmetrical and unsymmetrical measurements of CISPR 17).

use super::line_matrix::{Basis, LineMatrix, MOST};
use crate::error::{Error, Result, check};
use crate::filter::Termination;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;

/// How a filter of several lines is driven, or listened to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum LineMode {
    /// All lines together against the case.
    Common,
    /// Between two lines, counted from zero.
    Differential(usize, usize),
    /// One line against the case, the others terminated.
    Line(usize),
}

/// Impedances that a filter of several lines works between: of all lines together against the case, and between
/// any two lines.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct ModalTermination {
    /// All lines together against the case.
    pub common: Termination,
    /// Between two lines.
    pub differential: Termination,
}

impl ModalTermination {
    /// The same resistance from each of `lines` lines to the case, in ohm: `R/n` in common mode, `2 R` between
    /// two lines.
    ///
    /// # Errors
    /// Unless the resistance is positive and finite and there are one to four lines.
    pub fn each_line(resistance_ohm: f64, lines: usize) -> Result<Self> {
        let lines = lines_within(lines)?;
        Ok(Self {
            common: Termination::impedance(resistance_ohm / lines as f64)?,
            differential: Termination::impedance(2.0 * resistance_ohm)?,
        })
    }

    /// The artificial mains V-network of CISPR 16-1-2 from each of `lines` lines to the case
    /// ([`Termination::mains_network`]): valid from 9 kHz to 30 MHz.
    ///
    /// # Errors
    /// Unless there are one to four lines.
    pub fn mains_network(lines: usize) -> Result<Self> {
        let count = lines_within(lines)? as f64;
        let network = |factor: f64| match Termination::mains_network() {
            Termination::LineNetwork { parallel_ohm, branch_ohm, branch_h } => {
                Termination::line_network(parallel_ohm * factor, branch_ohm * factor, branch_h * factor)
            }
            other => Ok(other),
        };
        Ok(Self { common: network(count.recip())?, differential: network(2.0)? })
    }

    // Impedance matrix: n Zc for what all lines have alike, Zd/2 for all else.
    pub(super) fn impedance(&self, lines: usize, frequency_hz: f64, basis: Basis) -> LineMatrix {
        let common = self.common.impedance_ohm(frequency_hz) * lines as f64;
        basis.even(lines, common, self.differential.impedance_ohm(frequency_hz) * 0.5)
    }
}

impl ModalTermination {
    /// Where the answer holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.common.validity(frequency_hz).and(self.differential.validity(frequency_hz))
    }
}

impl Rebuild for ModalTermination {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(Self {
            common: knobs.enter("common", |knobs| self.common.rebuild(knobs))?,
            differential: knobs.enter("differential", |knobs| self.differential.rebuild(knobs))?,
        })
    }
}

impl LineMode {
    // Refused if it names a line that does not exist.
    pub(super) fn check(self, quantity: &str, lines: usize) -> Result<()> {
        match self {
            Self::Common => Ok(()),
            Self::Line(line) => existing_line(quantity, line, lines),
            Self::Differential(from, to) => different_lines(from, to, lines),
        }
        .map_err(|error| error.within(quantity))
    }

    // Source voltages of the lines.
    pub(super) fn voltages(self, lines: usize) -> [f64; MOST] {
        let mut voltages = [0.0; MOST];
        match self {
            Self::Common => voltages[..lines].fill(1.0),
            Self::Differential(from, to) => (voltages[from], voltages[to]) = (0.5, -0.5),
            Self::Line(line) => voltages[line] = 1.0,
        }
        voltages
    }

    // What the mode's voltage is of the lines' voltages.
    pub(super) fn reading(self, lines: usize) -> [f64; MOST] {
        let mut reading = [0.0; MOST];
        match self {
            Self::Common => reading[..lines].fill(1.0 / lines as f64),
            Self::Differential(from, to) => (reading[from], reading[to]) = (1.0, -1.0),
            Self::Line(line) => reading[line] = 1.0,
        }
        reading
    }
}

pub(super) fn lines_within(lines: usize) -> Result<usize> {
    check::within("lines", "", lines as f64, (1.0, MOST as f64), "a whole number from 1 to 4")?;
    Ok(lines)
}

fn existing_line(quantity: &str, line: usize, lines: usize) -> Result<()> {
    check::less_than(quantity, "", line as f64, "lines", lines as f64).map(drop)
}

pub(super) fn different_lines(from: usize, to: usize, lines: usize) -> Result<()> {
    existing_line("from", from, lines)?;
    existing_line("to", to, lines)?;
    if from == to {
        return Err(Error::Relation {
            quantity: "to".into(),
            value: to as f64,
            unit: "".into(),
            relation: "different from".into(),
            other: "from".into(),
            other_value: from as f64,
        });
    }
    Ok(())
}
