//! What the banks of a filter amount to at mains frequency.

use num_complex::Complex64;

use super::leakage::{PathsToCase, StarPaths};
use crate::error::{Error, Result, check};
use crate::filter::{Bank, Element, LineFilter, Part};

/// Sums over the banks.
#[derive(Debug, Clone)]
pub(super) struct MainsSums {
    /// From each line to the case.
    pub(super) paths: PathsToCase,
    /// What each line puts in the way of a load current that comes back in others, ohm.
    pub(super) line_ohm: Vec<Complex64>,
    /// Susceptance and dielectric loss conductance against the case (no second line) and between lines, ohm^-1.
    across: Vec<(usize, Option<usize>, Dielectric)>,
    stars: Vec<Star>,
    omega: f64,
    load_current_rms_a: f64,
}

#[derive(Debug, Clone, Copy, Default)]
struct Dielectric {
    susceptance_s: f64,
    loss_s: f64,
}

#[derive(Debug, Clone)]
struct Star {
    lines: Vec<Dielectric>,
    to_case: Dielectric,
    paths: StarPaths,
}

/// A capacitor's or a resistor's share of what stands across the mains.
struct Across {
    conductance_s: f64,
    dielectric: Dielectric,
}

impl Across {
    fn path_s(&self) -> Complex64 {
        Complex64::new(self.conductance_s, self.dielectric.susceptance_s)
    }
}

impl MainsSums {
    /// Of a filter at an angular frequency in rad/s, with its load current.
    ///
    /// # Errors
    /// For a coil or a bead across the mains, which would be a short circuit, and for a measured two-port whose data do not
    /// reach down to the frequency.
    pub(super) fn of(filter: &LineFilter, mains_hz: f64) -> Result<Self> {
        let lines = filter.lines();
        let nothing = vec![Complex64::new(0.0, 0.0); lines];
        let mut sums = Self {
            paths: PathsToCase { direct_s: nothing.clone(), stars: Vec::new() },
            line_ohm: nothing,
            across: Vec::new(),
            stars: Vec::new(),
            omega: std::f64::consts::TAU * mains_hz,
            load_current_rms_a: filter.load_current_rms_a(),
        };
        for (place, bank) in filter.banks().iter().enumerate() {
            match bank {
                Bank::Series(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        sums.in_line(line, part);
                    }
                }
                Bank::ToCase(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        sums.against_case(line, part)?;
                    }
                }
                Bank::Between { from, to, part } => {
                    let across = sums.across(part)?;
                    sums.across.push((*from, Some(*to), across.dielectric));
                }
                Bank::Star { parts, to_case } => sums.star(parts, to_case.as_ref())?,
                Bank::Choke(choke) => {
                    // A load current that goes out and back meets the leakage, half a pair's in each line; alone in its
                    // choke, a line meets all of it.
                    let core = choke.coupling() * choke.inductance_h();
                    let alone = if lines == 1 { core * choke.mean_remaining(sums.load_current_rms_a) } else { 0.0 };
                    let inductance_h = 0.5 * choke.leakage_h() + alone;
                    for line_ohm in &mut sums.line_ohm {
                        *line_ohm += Complex64::new(choke.resistance_ohm(), sums.omega * inductance_h);
                    }
                }
                Bank::Each(elements) => {
                    for (line, element) in elements.iter().enumerate() {
                        sums.element(line, element, mains_hz)
                            .map_err(|error| error.within(&format!("banks.{place}.lines.{line}")))?;
                    }
                }
            }
        }
        Ok(sums)
    }

    /// Reactive power (var) and dielectric heat (W) at these voltages of the lines.
    pub(super) fn powers(&self, voltages: &[Complex64]) -> (f64, f64) {
        let (mut reactive_var, mut heat_w) = (0.0, 0.0);
        let mut add = |dielectric: &Dielectric, voltage: Complex64| {
            reactive_var += dielectric.susceptance_s * voltage.norm_sqr();
            heat_w += dielectric.loss_s * voltage.norm_sqr();
        };
        for (from, to, dielectric) in &self.across {
            add(dielectric, voltages[*from] - to.map_or(Complex64::new(0.0, 0.0), |to| voltages[to]));
        }
        for star in &self.stars {
            let StarPaths { lines_s, to_case_s } = &star.paths;
            let sent: Complex64 = lines_s.iter().zip(voltages).map(|(path, voltage)| path * voltage).sum();
            let point = sent / (lines_s.iter().sum::<Complex64>() + to_case_s);
            add(&star.to_case, point);
            for (dielectric, voltage) in star.lines.iter().zip(voltages) {
                add(dielectric, voltage - point);
            }
        }
        (reactive_var, heat_w)
    }

    fn in_line(&mut self, line: usize, part: &Part) {
        self.line_ohm[line] += match part {
            Part::Inductor(coil) => {
                Complex64::new(coil.resistance_ohm(), self.omega * coil.mean_inductance_h(self.load_current_rms_a))
            }
            Part::Resistor(resistor) => Complex64::new(resistor.resistance_ohm(), 0.0),
            Part::Capacitor(capacitor) => Complex64::new(0.0, -(self.omega * capacitor.capacitance_f()).recip()),
            // Its table is for radio frequency.
            Part::FerriteBead(_) => Complex64::new(0.0, 0.0),
        };
    }

    fn across(&self, part: &Part) -> Result<Across> {
        match part {
            Part::Capacitor(capacitor) => Ok(Across {
                conductance_s: 0.0,
                dielectric: self.dielectric(capacitor.capacitance_f(), capacitor.loss_tangent()),
            }),
            Part::Resistor(resistor) => Ok(Across {
                conductance_s: resistor.resistance_ohm().recip(),
                dielectric: self.dielectric(resistor.parallel_capacitance_f(), 0.0),
            }),
            Part::Inductor(_) | Part::FerriteBead(_) => Err(Error::UnknownName {
                kind: "part across the mains".into(),
                name: if matches!(part, Part::Inductor(_)) { "Inductor" } else { "FerriteBead" }.into(),
                known: vec!["Capacitor".into(), "Resistor".into()],
            }),
        }
    }

    fn dielectric(&self, capacitance_f: f64, loss_tangent: f64) -> Dielectric {
        let susceptance_s = self.omega * capacitance_f;
        Dielectric { susceptance_s, loss_s: susceptance_s * loss_tangent }
    }

    fn against_case(&mut self, line: usize, part: &Part) -> Result<()> {
        let across = self.across(part)?;
        self.path(line, &across);
        Ok(())
    }

    fn path(&mut self, line: usize, across: &Across) {
        self.paths.direct_s[line] += across.path_s();
        self.across.push((line, None, across.dielectric));
    }

    fn star(&mut self, parts: &[Part], to_case: Option<&Part>) -> Result<()> {
        let lines: Vec<Across> = parts.iter().map(|part| self.across(part)).collect::<Result<_>>()?;
        let nothing = Across { conductance_s: 0.0, dielectric: Dielectric::default() };
        let to_case = to_case.map_or(Ok(nothing), |part| self.across(part))?;
        let paths = StarPaths { lines_s: lines.iter().map(Across::path_s).collect(), to_case_s: to_case.path_s() };
        self.paths.stars.push(paths.clone());
        let lines = lines.iter().map(|across| across.dielectric).collect();
        self.stars.push(Star { lines, to_case: to_case.dielectric, paths });
        Ok(())
    }

    fn element(&mut self, line: usize, element: &Element, mains_hz: f64) -> Result<()> {
        let (through_ohm, capacitance_f, loss_tangent) = match element {
            Element::Series(part) => {
                self.in_line(line, part);
                return Ok(());
            }
            Element::Shunt(part) => return self.against_case(line, part),
            Element::Feedthrough(part) => (
                Complex64::new(part.conductor_resistance_ohm(), self.omega * part.conductor_inductance_h()),
                part.capacitance_f(),
                part.loss_tangent(),
            ),
            Element::Line(cable) => (
                Complex64::new(cable.resistance_ohm(mains_hz), self.omega * cable.inductance_h()),
                cable.capacitance_f(),
                cable.loss_tangent(),
            ),
            Element::Measured(measured) => {
                check::at_most("frequency_hz", "Hz", measured.frequency_hz()[0], "mains frequency", mains_hz)?;
                // At mains frequency the chain is a series impedance and a shunt admittance, each small.
                let ([[_, impedance], [admittance, _]], _) = measured.two_port(mains_hz).scaled_chain();
                self.line_ohm[line] += Complex64::new(impedance.re.max(0.0), impedance.im.max(0.0));
                let dielectric = Dielectric { susceptance_s: admittance.im.max(0.0), loss_s: admittance.re.max(0.0) };
                self.path(line, &Across { conductance_s: 0.0, dielectric });
                return Ok(());
            }
        };
        self.line_ohm[line] += through_ohm;
        let dielectric = self.dielectric(capacitance_f, loss_tangent);
        self.path(line, &Across { conductance_s: 0.0, dielectric });
        Ok(())
    }
}
