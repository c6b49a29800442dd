//! What a supply drives into the protective earth.
//!
//! **Caution.** These are sums for planning. Touch current and earth-leakage current are judged by measurement
//! against the code that applies; the case is bonded before anything is energised; mains work is for a licensed
//! electrician. See [`CAUTION`](super::CAUTION).
//!
//! * With all lines connected `|sum of Y_k V_k|`, `Y_k` the admittance from a line to the case (through a star point
//!   `y_k y_0/(sum of y + y_0)`), with the voltage and the capacitances at the ends of their tolerances that make it
//!   largest. A neutral is taken at earth potential.
//! * With lines lost, a load holds them at the potential of lines that are left, or at a mean of these, or nothing holds
//!   them. The current is linear in each potential, its magnitude convex, and what resistances and capacitances can leave
//!   lies within the polygon of the other lines and the earth: the worst is at a corner, never at the mean. Every corner is
//!   tried. With equal capacitors, in units of `w C V`: one of three lines lost and tied to another `sqrt(3)`, at the mean
//!   1.5; two lost and tied to the third 3; neutral lost 2 for line and neutral; neutral and two lines lost 4.
//!
//! Sums of circuit theory, valid at mains frequency; series impedances are left out; harmonics of the supply add leakage in
//! proportion to their order. A load that resonates with the filter can exceed any of this.

use std::f64::consts::TAU;
use std::fmt;

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::filter::MainsSupply;

const NOTHING: Complex64 = Complex64::new(0.0, 0.0);

/// What gives a lost line its potential.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Held {
    /// A load between it and this line, counted from zero.
    Line(usize),
    /// A load that draws alike on all lines that are left.
    Mean,
    /// Nothing: it is dead, at the potential of the earth.
    Earth,
}

/// Earth-leakage current with lines lost.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct LeakageCase {
    /// Lines that are lost, counted from zero.
    pub lost: Vec<usize>,
    /// What holds each of them.
    pub held: Vec<Held>,
    /// Whether the neutral is among them (it is then the last).
    pub neutral_lost: bool,
    /// Current, effective value, A.
    pub current_a: f64,
}

impl fmt::Display for LeakageCase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, (line, held)) in self.lost.iter().zip(&self.held).enumerate() {
            let separator = if place > 0 { ", " } else { "" };
            if self.neutral_lost && place + 1 == self.lost.len() {
                write!(f, "{separator}neutral lost ")?;
            } else {
                write!(f, "{separator}line {line} lost ")?;
            }
            match held {
                Held::Line(other) => write!(f, "and tied to line {other}")?,
                Held::Mean => write!(f, "and at the mean of those left")?,
                Held::Earth => write!(f, "and dead")?,
            }
        }
        Ok(())
    }
}

/// Earth-leakage currents, A (effective values), at the highest voltage and the worst tolerances.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct EarthLeakage {
    /// With all lines connected.
    pub normal_a: f64,
    /// With lines lost: for every number of lines lost, with and without the neutral, the worst that are tied to others,
    /// at the mean of the others, and dead; largest first.
    pub cases: Vec<LeakageCase>,
}

impl EarthLeakage {
    /// The worst with anything lost; none where nothing can be lost.
    #[must_use]
    pub fn worst(&self) -> Option<&LeakageCase> {
        self.cases.first()
    }

    /// The largest current, whatever is lost or nothing, A.
    #[must_use]
    pub fn worst_a(&self) -> f64 {
        self.largest(|_| true).max(self.normal_a)
    }

    /// The largest current with a single conductor lost, A; zero where there is only one.
    #[must_use]
    pub fn one_line_lost_a(&self) -> f64 {
        self.largest(|case| case.lost.len() == 1)
    }

    fn largest(&self, counts: impl Fn(&LeakageCase) -> bool) -> f64 {
        self.cases.iter().filter(|case| counts(case)).map(|case| case.current_a).fold(0.0, f64::max)
    }
}

/// Admittances to the case at mains frequency: a conductance and a capacitance's susceptance.
#[derive(Debug, Clone, Default)]
pub(super) struct PathsToCase {
    pub(super) direct_s: Vec<Complex64>,
    pub(super) stars: Vec<StarPaths>,
}

/// By way of a star point.
#[derive(Debug, Clone)]
pub(super) struct StarPaths {
    pub(super) lines_s: Vec<Complex64>,
    pub(super) to_case_s: Complex64,
}

impl PathsToCase {
    /// From each line to the case, at every corner of the capacitors' tolerance.
    fn corners(&self, tolerance: f64) -> Vec<Vec<Complex64>> {
        let lines = self.direct_s.len();
        // A direct capacitor for each line, and if there are stars one for each line and one to the case (of several
        // stars the same ones are high together).
        let signs = if self.stars.is_empty() { lines } else { 2 * lines + 1 };
        let corners = if tolerance > 0.0 { 1_usize << signs } else { 1 };
        (0..corners)
            .map(|corner| {
                let scaled = |admittance: Complex64, place: usize| {
                    let sign = if corner >> place & 1 == 1 { 1.0 } else { -1.0 };
                    Complex64::new(admittance.re, admittance.im * (1.0 + sign * tolerance))
                };
                let mut paths: Vec<Complex64> = (0..lines).map(|line| scaled(self.direct_s[line], line)).collect();
                for star in &self.stars {
                    let each: Vec<Complex64> =
                        (0..lines).map(|line| scaled(star.lines_s[line], lines + line)).collect();
                    let to_case = scaled(star.to_case_s, 2 * lines);
                    let whole = each.iter().sum::<Complex64>() + to_case;
                    if whole.norm() > 0.0 {
                        for (path, line) in paths.iter_mut().zip(&each) {
                            *path += line * (to_case / whole);
                        }
                    }
                }
                paths
            })
            .collect()
    }
}

impl MainsSupply {
    /// Earth-leakage current of a capacitance in F from each line to earth, whose values may be off by the
    /// given fraction either way.
    ///
    /// ```
    /// use stillroom::filter::{MainsSupply, SupplySystem};
    /// // 100 nF a line at 230/400 V, 50 Hz, 7.23 mA each: one line lost and tied by a load to another, sqrt(3) of it.
    /// let supply = MainsSupply::new(SupplySystem::ThreePhase, 230.0, 50.0)?;
    /// let leakage = supply.earth_leakage(&[100e-9; 3], 0.0)?;
    /// assert!((leakage.one_line_lost_a() - 12.5e-3).abs() < 0.05e-3);
    /// assert!((leakage.worst_a() - 21.68e-3).abs() < 0.01e-3);
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    ///
    /// # Errors
    /// For a number of capacitances other than that of the lines, a negative one, or a tolerance outside 0 to 1.
    pub fn earth_leakage(&self, capacitance_f: &[f64], capacitance_tolerance: f64) -> Result<EarthLeakage> {
        let direct_s = self.susceptances(capacitance_f)?;
        self.leakage(&PathsToCase { direct_s, stars: Vec::new() }, capacitance_tolerance)
    }

    /// Earth-leakage current of a capacitance in F from each line to a star point, and one from there to earth, whose
    /// values may be off by the given fraction either way.
    ///
    /// # Errors
    /// As [`earth_leakage`](Self::earth_leakage).
    pub fn earth_leakage_of_star(
        &self,
        capacitance_f: &[f64],
        to_earth_f: f64,
        capacitance_tolerance: f64,
    ) -> Result<EarthLeakage> {
        let lines_s = self.susceptances(capacitance_f)?;
        check::non_negative("to_earth_f", "F", to_earth_f)?;
        let to_case_s = Complex64::new(0.0, TAU * self.frequency_hz() * to_earth_f);
        let direct_s = vec![NOTHING; lines_s.len()];
        self.leakage(&PathsToCase { direct_s, stars: vec![StarPaths { lines_s, to_case_s }] }, capacitance_tolerance)
    }

    fn susceptances(&self, capacitance_f: &[f64]) -> Result<Vec<Complex64>> {
        check::same_length("capacitance_f", capacitance_f.len(), "lines", self.system().lines())?;
        check::all("capacitance_f", "F", capacitance_f, "zero or positive, and finite", |c| c >= 0.0 && c.is_finite())?;
        Ok(capacitance_f.iter().map(|farad| Complex64::new(0.0, TAU * self.frequency_hz() * farad)).collect())
    }

    pub(super) fn leakage(&self, paths: &PathsToCase, capacitance_tolerance: f64) -> Result<EarthLeakage> {
        check::fraction("capacitance_tolerance", capacitance_tolerance)?;
        let voltages = self.voltages();
        let corners = paths.corners(capacitance_tolerance);
        let current = |potentials: &[Complex64]| {
            let of =
                |paths: &Vec<Complex64>| paths.iter().zip(potentials).map(|(y, v)| y * v).sum::<Complex64>().norm();
            corners.iter().map(of).fold(0.0, f64::max)
        };
        let mut cases: Vec<LeakageCase> = Vec::new();
        let mut kinds: Vec<(usize, bool, Kind)> = Vec::new();
        for (lost, left) in losses(voltages.len()) {
            let neutral_lost = self.system().neutral().is_some_and(|neutral| lost.contains(&neutral));
            let mean = left.iter().map(|&line| voltages[line]).sum::<Complex64>() / left.len() as f64;
            for (kind, held) in ways_held(lost.len(), &left) {
                let mut potentials = voltages.clone();
                for (&line, held) in lost.iter().zip(&held) {
                    potentials[line] = match held {
                        Held::Line(other) => voltages[*other],
                        Held::Mean => mean,
                        Held::Earth => NOTHING,
                    };
                }
                let case = LeakageCase { lost: lost.clone(), held, neutral_lost, current_a: current(&potentials) };
                // By how many lines are lost, neutral or not, and what holds them, the worst is kept.
                let class = (lost.len(), neutral_lost, kind);
                match kinds.iter().position(|known| *known == class) {
                    None => {
                        kinds.push(class);
                        cases.push(case);
                    }
                    // What rounding alone makes larger is no worse.
                    Some(place) if case.current_a > cases[place].current_a * (1.0 + 1e-12) => cases[place] = case,
                    Some(_) => {}
                }
            }
        }
        cases.sort_by(|a, b| b.current_a.total_cmp(&a.current_a));
        Ok(EarthLeakage { normal_a: current(&voltages), cases })
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Tied,
    Mean,
    Dead,
}

/// Which lines can be lost, and which are then left: some of either.
fn losses(lines: usize) -> impl Iterator<Item = (Vec<usize>, Vec<usize>)> {
    (1..(1_usize << lines) - 1).map(move |which| (0..lines).partition(|line| which >> line & 1 == 1))
}

/// What can hold so many lost lines: each tied to one that is left, or dead while another is tied; all at the mean; all dead.
fn ways_held(lost: usize, left: &[usize]) -> Vec<(Kind, Vec<Held>)> {
    let choices: Vec<Held> = left.iter().map(|&line| Held::Line(line)).chain([Held::Earth]).collect();
    (0..choices.len().pow(lost as u32))
        .map(|mut way| {
            let mut held = Vec::with_capacity(lost);
            for _ in 0..lost {
                held.push(choices[way % choices.len()]);
                way /= choices.len();
            }
            let dead = held.iter().all(|held| *held == Held::Earth);
            (if dead { Kind::Dead } else { Kind::Tied }, held)
        })
        .chain([(Kind::Mean, vec![Held::Mean; lost])])
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::SupplySystem;

    fn supply(system: SupplySystem) -> MainsSupply {
        MainsSupply::new(system, 230.0, 50.0).unwrap()
    }

    // Largest with so many lines lost, and the neutral or not.
    fn largest(leakage: &EarthLeakage, lost: usize, neutral: bool) -> f64 {
        let alike = |case: &&LeakageCase| case.lost.len() == lost && case.neutral_lost == neutral;
        leakage.cases.iter().filter(alike).map(|case| case.current_a).fold(0.0, f64::max)
    }

    #[test]
    fn lost_lines_by_hand() {
        let unit = TAU * 50.0 * 100e-9 * 230.0;
        let is = |value: f64, units: f64| assert!((value / unit - units).abs() < 1e-12, "{} {units}", value / unit);
        let two = supply(SupplySystem::LineNeutral).earth_leakage(&[100e-9; 2], 0.0).unwrap();
        is(two.normal_a, 1.0);
        is(two.one_line_lost_a(), 2.0);
        assert_eq!(two.worst().unwrap().to_string(), "neutral lost and tied to line 0");
        let three = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.0).unwrap();
        is(three.normal_a, 0.0);
        is(largest(&three, 1, false), 3f64.sqrt());
        is(largest(&three, 2, false), 3.0);
        let at_mean = three.cases.iter().find(|case| case.held == [Held::Mean]).unwrap();
        is(at_mean.current_a, 1.5);
        assert_eq!(three.worst().unwrap().lost.len(), 2);
        let four = supply(SupplySystem::ThreePhaseNeutral).earth_leakage(&[100e-9; 4], 0.0).unwrap();
        is(largest(&four, 1, true), 1.0);
        is(largest(&four, 2, true), 7f64.sqrt());
        is(largest(&four, 3, true), 4.0);
        is(four.worst_a(), 4.0);
        let one = supply(SupplySystem::SingleLine).earth_leakage(&[100e-9], 0.0).unwrap();
        assert!(one.worst().is_none() && one.one_line_lost_a() == 0.0);
        is(one.worst_a(), 1.0);
        // 20 % either way: two high and one low leave |1.2 a + 1.2 a^2 + 0.8| = 0.4.
        let loose = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.2).unwrap();
        is(loose.normal_a, 0.4);
        assert!(supply(SupplySystem::LineNeutral).earth_leakage(&[1e-9], 0.0).is_err());
        assert!(supply(SupplySystem::LineNeutral).earth_leakage(&[1e-9, -1e-9], 0.0).is_err());
    }

    #[test]
    fn a_star_point_shares_its_capacitor() {
        let (farad, to_earth) = (1e-6, 100e-9);
        let supply = supply(SupplySystem::ThreePhase);
        let star = supply.earth_leakage_of_star(&[farad; 3], to_earth, 0.0).unwrap();
        assert!(star.normal_a < 1e-15);
        let series = 3.0 * farad * to_earth / (3.0 * farad + to_earth);
        assert!((largest(&star, 2, false) / (TAU * 50.0 * 230.0 * series) - 1.0).abs() < 1e-12);
        // All high together: the series of the two is high by the same.
        let loose = supply.earth_leakage_of_star(&[farad; 3], to_earth, 0.2).unwrap();
        assert!((largest(&loose, 2, false) / (1.2 * TAU * 50.0 * 230.0 * series) - 1.0).abs() < 1e-12);
        assert!(loose.normal_a > 0.0);
        assert!(supply.earth_leakage_of_star(&[farad; 3], -1.0, 0.0).is_err());
    }
}
