//! Banks: what stands at one place of a filter of several lines.

use num_complex::Complex64;

use super::line_matrix::{Basis, LineMatrix, MOST};
use super::line_mode::different_lines;
use crate::circuit::TwoPort;
use crate::circuit::lumped_chain::nonzero;
use crate::error::{Result, check};
use crate::filter::{CommonModeChoke, Element, Part};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;

/// One bank of a filter of several lines.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Bank {
    /// A part in each line, uncoupled.
    Series(Vec<Part>),
    /// A part from each line to the case.
    ToCase(Vec<Part>),
    /// A part between two lines, counted from zero.
    Between {
        /// One line.
        from: usize,
        /// The other.
        to: usize,
        /// The part.
        part: Part,
    },
    /// A part from each line to a star point of their own, and perhaps one from there to the case.
    Star {
        /// The parts, one for each line.
        parts: Vec<Part>,
        /// From the star point to the case; nothing is there where none is stated.
        to_case: Option<Part>,
    },
    /// A choke with a winding in each line.
    Choke(CommonModeChoke),
    /// Any member of a ladder in each line, uncoupled: feedthrough capacitors, lengths of cable, measured two-ports.
    Each(Vec<Element>),
}

/// What the lines of a filter carry at the crest, A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Currents {
    /// Out in one line and back in others.
    pub(super) load_peak_a: f64,
    /// In all lines alike, the return elsewhere.
    pub(super) residual_peak_a: f64,
}

/// A bank at one frequency.
#[derive(Debug, Clone)]
pub(super) enum Stage {
    /// An impedance matrix in the lines.
    Series(LineMatrix),
    /// An admittance matrix across them.
    Shunt(LineMatrix),
    /// A two-port in each line.
    Each([TwoPort; MOST]),
}

impl Stage {
    /// The same bank met from the other side.
    pub(super) fn reversed(&self) -> Self {
        match self {
            Self::Each(two_ports) => Self::Each(two_ports.map(|two_port| two_port.reversed())),
            other => other.clone(),
        }
    }
}

impl Bank {
    pub(super) fn check(&self, lines: usize) -> Result<()> {
        match self {
            Self::Series(parts) | Self::ToCase(parts) | Self::Star { parts, .. } => {
                check::same_length("parts", parts.len(), "lines", lines)
            }
            Self::Each(elements) => check::same_length("elements", elements.len(), "lines", lines),
            Self::Between { from, to, .. } => different_lines(*from, *to, lines),
            Self::Choke(_) => Ok(()),
        }
    }

    /// Whether it is the same to all lines, or leaves what they have in common alone.
    pub(super) fn is_alike(&self) -> bool {
        match self {
            Self::Series(parts) | Self::ToCase(parts) => parts.iter().all(|part| *part == parts[0]),
            Self::Each(elements) => elements.iter().all(|element| *element == elements[0]),
            Self::Star { parts, .. } => parts.iter().all(|part| *part == parts[0]),
            Self::Between { .. } | Self::Choke(_) => true,
        }
    }

    /// In the coordinates given: the modes only for what is alike in all lines.
    pub(super) fn stage(&self, lines: usize, frequency_hz: f64, currents: Currents, basis: Basis) -> Stage {
        let diagonal = |value: &dyn Fn(usize) -> Complex64| {
            let nothing = Complex64::new(0.0, 0.0);
            LineMatrix::from_fn(lines, |row, column| if row == column { value(row) } else { nothing })
        };
        let load_peak_a = currents.load_peak_a;
        match self {
            Self::Series(parts) => {
                Stage::Series(diagonal(&|line| parts[line].impedance_ohm(frequency_hz, load_peak_a)))
            }
            Self::ToCase(parts) => Stage::Shunt(diagonal(&|line| parts[line].admittance_s(frequency_hz, load_peak_a))),
            Self::Between { from, to, part } => {
                let admittance = part.admittance_s(frequency_hz, load_peak_a);
                let mut ends = [0.0; MOST];
                (ends[*from], ends[*to]) = (1.0, -1.0);
                let across = basis.coordinates(lines, ends);
                Stage::Shunt(LineMatrix::from_fn(lines, |row, column| admittance * (across[row] * across[column])))
            }
            Self::Star { parts, to_case } => {
                let admittance = |part: &Part| part.admittance_s(frequency_hz, load_peak_a);
                let to_case = to_case.as_ref().map_or(Complex64::new(0.0, 0.0), admittance);
                Stage::Shunt(if basis == Basis::Modes {
                    // All lines alike: what they have in common passes the point, the rest meets there.
                    let each = admittance(&parts[0]);
                    basis.even(lines, each * (to_case / nonzero(each * lines as f64 + to_case)), each)
                } else {
                    star(&parts.iter().map(admittance).collect::<Vec<_>>(), to_case)
                })
            }
            Self::Choke(choke) => {
                let magnetising_peak_a = choke.magnetising_peak_a(lines, load_peak_a, currents.residual_peak_a);
                let impedance = choke.impedance(lines, std::f64::consts::TAU * frequency_hz, magnetising_peak_a);
                let (own, mutual) = (impedance.get(0, 0), impedance.get(0, lines - 1));
                let mutual = if lines > 1 { mutual } else { Complex64::new(0.0, 0.0) };
                Stage::Series(basis.even(lines, own + mutual * (lines as f64 - 1.0), own - mutual))
            }
            Self::Each(elements) => {
                let mut two_ports = [TwoPort::THROUGH; MOST];
                for (two_port, element) in two_ports.iter_mut().zip(elements) {
                    *two_port = element.two_port(frequency_hz, load_peak_a);
                }
                Stage::Each(two_ports)
            }
        }
    }

    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        let all =
            |parts: &[Part]| parts.iter().fold(Validity::Holds, |so_far, part| so_far.and(part.validity(frequency_hz)));
        match self {
            Self::Series(parts) | Self::ToCase(parts) => all(parts),
            Self::Between { part, .. } => part.validity(frequency_hz),
            Self::Star { parts, to_case } => {
                to_case.iter().fold(all(parts), |so_far, part| so_far.and(part.validity(frequency_hz)))
            }
            Self::Choke(_) => Validity::Holds,
            Self::Each(elements) => {
                elements.iter().fold(Validity::Holds, |so_far, element| so_far.and(element.validity(frequency_hz)))
            }
        }
    }
}

impl Rebuild for Bank {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(match self {
            Self::Series(parts) => Self::Series(each_line(knobs, parts)?),
            Self::ToCase(parts) => Self::ToCase(each_line(knobs, parts)?),
            Self::Between { from, to, part } => Self::Between { from: *from, to: *to, part: part.rebuild(knobs)? },
            Self::Star { parts, to_case } => Self::Star {
                parts: each_line(knobs, parts)?,
                to_case: match to_case {
                    None => None,
                    Some(part) => Some(knobs.enter("to_case", |knobs| part.rebuild(knobs))?),
                },
            },
            Self::Choke(choke) => Self::Choke(choke.rebuild(knobs)?),
            Self::Each(elements) => Self::Each(each_line(knobs, elements)?),
        })
    }
}

/// Admittance matrix of a star whose point is eliminated. Written by pairs, so that without a way to the case no common
/// mode is left over from rounding.
fn star(lines_s: &[Complex64], to_case_s: Complex64) -> LineMatrix {
    let whole = nonzero(lines_s.iter().sum::<Complex64>() + to_case_s);
    LineMatrix::from_fn(lines_s.len(), |row, column| {
        if row == column {
            let others: Complex64 = (0..lines_s.len()).filter(|&other| other != row).map(|other| lines_s[other]).sum();
            lines_s[row] * ((others + to_case_s) / whole)
        } else {
            -lines_s[row] * (lines_s[column] / whole)
        }
    })
}

fn each_line<T: Rebuild>(knobs: &mut Knobs<'_>, members: &[T]) -> Result<Vec<T>> {
    members
        .iter()
        .enumerate()
        .map(|(line, member)| knobs.enter(&format!("lines.{line}"), |knobs| member.rebuild(knobs)))
        .collect()
}
