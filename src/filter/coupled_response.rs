//! How coupled lines answer: the currents at both ends of a chain of banks between its terminations.
//!
//! The input impedance matrix is found from the far end backwards,
//!
//! ```text
//! series: Z <- Z + Z_bank        shunt: Z <- Z W,  W = (1 + Y Z)^-1
//! ```
//!
//! and the current carried forwards, `I <- W I` at each shunt. A two-port in each line is entered by its scattering
//! parameters, referred to resistances near the impedances that it meets (nothing cancels there), with the far end as
//! its matrix of reflections `G`:
//!
//! ```text
//! G <- s11 + s12 G (1 - s22 G)^-1 s21
//! ```
//!
//! In the right coordinates ([`Basis`]) a mode that is thousands of dB down stays accurate beside one that is not, and
//! nothing grows on the way.

use num_complex::Complex64;

use super::bank::Stage;
use super::housing::Housing;
use super::line_matrix::{Basis, LineMatrix, MOST};
use crate::circuit::{Terminations, TwoPort};

/// Currents for one volt of source in each line in turn; what flows out at the far end is divided by `exp(ln_scale)`.
pub(super) struct Response {
    pub(super) near: LineMatrix,
    pub(super) far: LineMatrix,
    pub(super) ln_scale: f64,
}

/// Of banks from the near end to the far one, between a source impedance and a far impedance; `None` at a resonance
/// that nothing damps.
pub(super) fn response<'a>(
    stages: impl DoubleEndedIterator<Item = &'a Stage>,
    lines: usize,
    near: &LineMatrix,
    far: &LineMatrix,
) -> Option<Response> {
    let mut impedance = *far;
    let mut steps: Vec<(LineMatrix, f64)> = Vec::new();
    for stage in stages.rev() {
        match stage {
            Stage::Series(bank) => impedance = impedance.plus(bank),
            Stage::Shunt(bank) => {
                let division = LineMatrix::identity(lines).plus(&bank.times(&impedance)).inverse()?;
                impedance = impedance.times(&division);
                steps.push((division, 0.0));
            }
            Stage::Each(two_ports) => {
                let (seen, division, ln_scale) = behind(two_ports, lines, &impedance)?;
                impedance = seen;
                steps.push((division, ln_scale));
            }
        }
    }
    let first = near.plus(&impedance).inverse()?;
    let (mut current, mut ln_scale) = (first, 0.0);
    for (division, ln_division) in steps.iter().rev() {
        current = division.times(&current);
        ln_scale += ln_division;
        let size = current.largest();
        if size > 0.0 && size.is_finite() {
            current = current.scaled(size.recip());
            ln_scale += size.ln();
        }
    }
    Some(Response { near: first, far: current, ln_scale })
}

/// Impedance before a two-port in each line, and what it makes of the currents, the latter over an exponent.
fn behind(two_ports: &[TwoPort; MOST], lines: usize, far: &LineMatrix) -> Option<(LineMatrix, LineMatrix, f64)> {
    let one = LineMatrix::identity(lines);
    let size = |z: Complex64| if z.norm() > 1e-9 { z.norm().min(1e9) } else { 1e-9 };
    let mut references = [(1.0, 1.0); MOST];
    let mut scattering = Vec::with_capacity(lines);
    let mut ln_scale = f64::NEG_INFINITY;
    for line in 0..lines {
        let load = far.get(line, line);
        let (near_ohm, far_ohm) = (size(two_ports[line].input_impedance_ohm(load)), size(load));
        references[line] = (near_ohm, far_ohm);
        let ends = Terminations::from_passive(Complex64::new(near_ohm, 0.0), Complex64::new(far_ohm, 0.0));
        let s = two_ports[line].scattering(&ends).ok()?;
        ln_scale = ln_scale.max(s.ln_s21.re);
        scattering.push(s);
    }
    let diagonal = |value: &dyn Fn(usize) -> Complex64| {
        LineMatrix::from_fn(lines, |row, column| if row == column { value(row) } else { Complex64::new(0.0, 0.0) })
    };
    let real = |value: &dyn Fn(usize) -> f64| diagonal(&|line| Complex64::new(value(line), 0.0));
    let far_ohm = real(&|line| references[line].1);
    // sqrt(R)^-1 (Z - R)(Z + R)^-1 sqrt(R)
    let reflected = far.minus(&far_ohm).times(&far.plus(&far_ohm).inverse()?);
    let reflected = LineMatrix::from_fn(lines, |r, c| reflected.get(r, c) * (references[c].1 / references[r].1).sqrt());
    let s22 = diagonal(&|line| scattering[line].s22);
    let loops = one.minus(&s22.times(&reflected)).inverse()?;
    let passed = loops.times(&diagonal(&|line| (scattering[line].ln_s21 - ln_scale).exp()));
    let back = diagonal(&|line| (scattering[line].ln_s12 + ln_scale).exp());
    let seen = diagonal(&|line| scattering[line].s11).plus(&back.times(&reflected).times(&passed));
    let inwards = one.minus(&seen).inverse()?;
    let root = |value: &dyn Fn(usize) -> f64| real(&|line| value(line).sqrt());
    let near_root = root(&|line| references[line].0);
    let impedance = near_root.times(&one.plus(&seen)).times(&inwards).times(&near_root);
    let division = root(&|line| references[line].1.recip())
        .times(&one.minus(&reflected))
        .times(&passed)
        .times(&inwards)
        .times(&near_root);
    Some((impedance, division, ln_scale))
}

/// The current in the load for one volt of source in each coordinate in turn, of a filter in a can: what passes through
/// the filter, over an exponent, and what the case's bond adds.
///
/// The currents at both ends are linear in the voltages there. A bridge from each input to its output adds a current
/// `J` that lowers the source's voltage by `Zs J` and lifts the load's by `Zl J`; a case off the wall by `v` takes
/// `v` from every source and adds it in every load, and `v = Zb (what enters less what leaves)`. Solved in this order,
/// the bridge inside the case.
pub(super) struct Housed {
    pub(super) through: LineMatrix,
    pub(super) ln_scale: f64,
    pub(super) by_bond: LineMatrix,
}

pub(super) fn housed(
    stages: &[Stage],
    lines: usize,
    source: &LineMatrix,
    load: &LineMatrix,
    housing: &Housing,
    frequency_hz: f64,
    basis: Basis,
) -> Option<Housed> {
    let turned: Vec<Stage> = stages.iter().rev().map(Stage::reversed).collect();
    let from_source = response(stages.iter(), lines, source, load)?;
    let from_load = response(turned.iter(), lines, load, source)?;
    // Currents into the filter (1) and out of it (2), by source voltage (e) and by load voltage (u).
    let mut one_e = from_source.near;
    let mut two_e = from_source.far.scaled(from_source.ln_scale.exp());
    let (mut through, mut ln_scale) = (from_source.far, from_source.ln_scale);
    let mut two_u = from_load.near;
    let mut one_u = from_load.far.scaled(from_load.ln_scale.exp());
    let identity = LineMatrix::identity(lines);
    let bridge = housing.bridge_s(frequency_hz);
    if bridge.norm() > 0.0 {
        let one_j = one_e.times(source).plus(&one_u.times(load));
        let two_j = two_e.times(source).plus(&two_u.times(load));
        let across = source.plus(load).minus(&source.times(&one_j)).minus(&load.times(&two_j));
        let solved = identity.plus(&across.times_complex(bridge)).inverse()?.times_complex(bridge);
        let j_e = solved.times(&identity.minus(&source.times(&one_e)).minus(&load.times(&two_e)));
        let j_u = solved.times(&identity.minus(&source.times(&one_u)).minus(&load.times(&two_u)));
        one_e = one_e.minus(&one_j.times(&j_e)).plus(&j_e);
        one_u = one_u.minus(&one_j.times(&j_u)).plus(&j_u);
        two_e = two_e.minus(&two_j.times(&j_e)).plus(&j_e);
        two_u = two_u.minus(&two_j.times(&j_u)).plus(&j_u);
        (through, ln_scale) = (two_e, 0.0);
    }
    let mut by_bond = LineMatrix::from_fn(lines, |_, _| Complex64::new(0.0, 0.0));
    let bond = housing.bond_ohm(frequency_hz);
    if bond.norm() > 0.0 {
        let (kept_e, kept_u) = (one_e.minus(&two_e), one_u.minus(&two_u));
        let ones = basis.ones(lines);
        let sum = |square: &LineMatrix, column: usize| -> Complex64 {
            (0..lines).map(|row| square.get(row, column) * ones[row]).sum()
        };
        let all = |square: &LineMatrix| (0..lines).map(|column| sum(square, column) * ones[column]).sum::<Complex64>();
        let divisor = 1.0 + bond * (all(&kept_e) - all(&kept_u));
        if divisor.norm() == 0.0 {
            return None;
        }
        // The case's voltage for each source, and the load current for one volt on the case.
        let lift = |column: usize| bond * sum(&kept_e, column) / divisor;
        let led = two_u.minus(&two_e);
        let by_case = |row: usize| (0..lines).map(|column| led.get(row, column) * ones[column]).sum::<Complex64>();
        by_bond = LineMatrix::from_fn(lines, |row, column| by_case(row) * lift(column));
    }
    Some(Housed { through, ln_scale, by_bond })
}
