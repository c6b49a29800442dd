//! Filters of one to four lines: common mode, differential mode, and what unbalance makes of them.
//!
//! Voltages and currents of the lines against the case are vectors; a series bank is an impedance matrix,
//! a shunt bank an admittance matrix. The input impedance matrix is found from the load backwards,
//!
//! ```text
//! series: Z <- Z + Z_bank        shunt: Z <- Z W,  W = (1 + Y Z)^-1
//! ```
//!
//! and the current carried forwards, `I <- W I` at each shunt. Nothing grows on the way, so a mode that is
//! 200 dB down stays accurate beside one that is not. Modes are not assumed to stay apart: a capacitor off by
//! 5 % turns common mode into differential mode, and the conversion is computed, not neglected.
//!
//! Modes, with `n` lines: **common**, all lines at the same voltage, the return in the case; **differential**
//! between two lines, voltages +1/2 and -1/2; a **single line** against the case while the others stand
//! terminated (the asymmetrical, symmetrical and unsymmetrical measurements of CISPR 17).
//!
//! A common-mode choke has one winding for each line on one core: self-inductance `L`, mutual inductance
//! `k L`. Common mode meets `(1 + (n - 1) k) L/n`, a pair of lines differentially `2 (1 - k) L`.
//!
//! Valid for lumped parts (case below a tenth of a wavelength); coupling between banks is not modelled.

use num_complex::Complex64;

use super::square::{Column, MOST, Square};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Error, Result, check};
use crate::filter::record::checked_record;
use crate::filter::{Part, Termination};
use crate::parameter::{Knobs, Rebuild};
use crate::wave::circuit_value;

const ZERO: Complex64 = Complex64::new(0.0, 0.0);
const ONE: Complex64 = Complex64::new(1.0, 0.0);

/// A current-compensated choke: one winding for each line on a common core.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "ChokeRecord", into = "ChokeRecord"))]
pub struct CommonModeChoke {
    inductance_h: f64,
    coupling: f64,
    resistance_ohm: f64,
    parallel_capacitance_f: f64,
    relaxation_hz: Option<f64>,
}

impl CommonModeChoke {
    /// From the self-inductance of each winding (H) and the coupling between windings (0 to below 1).
    ///
    /// # Errors
    /// Unless the inductance is positive and the coupling is at least 0 and below 1.
    pub fn new(inductance_h: f64, coupling: f64) -> Result<Self> {
        circuit_value::positive("inductance_h", "H", inductance_h)?;
        check::fraction("coupling", coupling)?;
        check::less_than("coupling", "", coupling, "full coupling", 1.0)?;
        Ok(Self { inductance_h, coupling, resistance_ohm: 0.0, parallel_capacitance_f: 0.0, relaxation_hz: None })
    }

    /// From the self-inductance of each winding and the leakage inductance of a pair of lines in series, both in
    /// H: what a meter reads on two windings with the other ends joined.
    ///
    /// # Errors
    /// Unless both are positive and the leakage is below twice the inductance.
    pub fn from_leakage(inductance_h: f64, leakage_h: f64) -> Result<Self> {
        circuit_value::positive("inductance_h", "H", inductance_h)?;
        circuit_value::positive("leakage_h", "H", leakage_h)?;
        check::at_most("leakage_h", "H", leakage_h, "twice inductance_h", 2.0 * inductance_h)?;
        Self::new(inductance_h, 1.0 - 0.5 * leakage_h / inductance_h)
    }

    /// With a resistance in each winding, ohm.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_resistance_ohm(self, resistance_ohm: f64) -> Result<Self> {
        Ok(Self { resistance_ohm: circuit_value::non_negative("resistance_ohm", "ohm", resistance_ohm)?, ..self })
    }

    /// With a capacitance across each winding, F.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_parallel_capacitance_f(self, parallel_capacitance_f: f64) -> Result<Self> {
        let parallel_capacitance_f =
            circuit_value::non_negative("parallel_capacitance_f", "F", parallel_capacitance_f)?;
        Ok(Self { parallel_capacitance_f, ..self })
    }

    /// With a permeability that falls by one pole at this frequency, Hz: the mutual inductance falls, the leakage
    /// (in air) does not.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_relaxation_hz(self, relaxation_hz: f64) -> Result<Self> {
        Ok(Self { relaxation_hz: Some(circuit_value::positive("relaxation_hz", "Hz", relaxation_hz)?), ..self })
    }

    /// Self-inductance of each winding, H.
    #[must_use]
    pub const fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Coupling between windings.
    #[must_use]
    pub const fn coupling(&self) -> f64 {
        self.coupling
    }

    /// Resistance of each winding, ohm.
    #[must_use]
    pub const fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Capacitance across each winding, F.
    #[must_use]
    pub const fn parallel_capacitance_f(&self) -> f64 {
        self.parallel_capacitance_f
    }

    /// Relaxation frequency of the permeability, Hz, if any.
    #[must_use]
    pub const fn relaxation_hz(&self) -> Option<f64> {
        self.relaxation_hz
    }

    /// Leakage inductance of a pair of lines in series, H.
    #[must_use]
    pub fn leakage_h(&self) -> f64 {
        2.0 * (1.0 - self.coupling) * self.inductance_h
    }

    fn impedance(&self, lines: usize, omega: f64) -> Square {
        let fall =
            self.relaxation_hz.map_or(ONE, |f| (ONE + Complex64::new(0.0, omega / (std::f64::consts::TAU * f))).inv());
        let leakage = Complex64::new(self.resistance_ohm, omega * (1.0 - self.coupling) * self.inductance_h);
        let mutual = Complex64::new(0.0, omega * self.coupling * self.inductance_h) * fall;
        // Eigenvalues of the matrix: common n mutual + leakage, all others leakage. The winding capacitance
        // is across each winding, hence across each eigenmode.
        let across = Complex64::new(0.0, omega * self.parallel_capacitance_f);
        let n = lines as f64;
        let shunted = |z: Complex64| z / (ONE + z * across);
        let (common, other) = (shunted(leakage + mutual * n), shunted(leakage));
        let mutual = (common - other) / n;
        Square::symmetric(lines, other + mutual, mutual)
    }
}

impl Rebuild for CommonModeChoke {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let built = Self::new(
            knobs.value("inductance_h", "H", self.inductance_h, "positive"),
            knobs.value("coupling", "", self.coupling, "at least 0 and below 1"),
        )?
        .with_resistance_ohm(knobs.value("resistance_ohm", "ohm", self.resistance_ohm, "zero or positive"))?
        .with_parallel_capacitance_f(knobs.value(
            "parallel_capacitance_f",
            "F",
            self.parallel_capacitance_f,
            "zero or positive",
        ))?;
        match self.relaxation_hz {
            None => Ok(built),
            Some(value) => built.with_relaxation_hz(knobs.value("relaxation_hz", "Hz", value, "positive")),
        }
    }
}

checked_record!(CommonModeChoke as ChokeRecord {
    inductance_h: f64,
    coupling: f64,
    #[serde(default)]
    resistance_ohm: f64,
    #[serde(default)]
    parallel_capacitance_f: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    relaxation_hz: Option<f64>,
});

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
    /// A choke with a winding in each line.
    Choke(CommonModeChoke),
}

/// How a filter of several lines is driven, or listened to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Mode {
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

    // Impedance matrix: eigenvalue n Zc on the common vector, Zd/2 on all others.
    fn impedance(&self, lines: usize, frequency_hz: f64) -> Square {
        let n = lines as f64;
        let common = self.common.impedance_ohm(frequency_hz) * n;
        let other = self.differential.impedance_ohm(frequency_hz) * 0.5;
        let mutual = (common - other) / n;
        Square::symmetric(lines, other + mutual, mutual)
    }
}

/// A filter of one to four lines.
///
/// ```
/// use stillroom::filter::{Bank, Capacitor, CommonModeChoke, LineFilter, Mode, ModalTermination};
/// let filter = LineFilter::new(2, vec![
///     Bank::Between { from: 0, to: 1, part: Capacitor::new(470e-9)?.into() },
///     Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6)?),
///     Bank::ToCase(vec![Capacitor::new(4.7e-9)?.into(), Capacitor::new(4.7e-9)?.into()]),
/// ])?;
/// let ends = ModalTermination::each_line(50.0, 2)?;
/// let common_db = filter.insertion_loss_db(1e6, Mode::Common, Mode::Common, &ends, &ends)?;
/// let between_db = filter.insertion_loss_db(1e6, Mode::Differential(0, 1), Mode::Differential(0, 1), &ends, &ends)?;
/// // Balanced parts convert nothing.
/// let converted_db = filter.insertion_loss_db(1e6, Mode::Common, Mode::Differential(0, 1), &ends, &ends)?;
/// assert!(common_db > 40.0 && between_db > 50.0 && converted_db > 250.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct LineFilter {
    lines: usize,
    banks: Vec<Bank>,
    load_current_a: f64,
}

fn lines_within(lines: usize) -> Result<usize> {
    check::within("lines", "", lines as f64, (1.0, MOST as f64), "a whole number from 1 to 4")?;
    Ok(lines)
}

impl LineFilter {
    /// From the number of lines and the banks, source side first.
    ///
    /// # Errors
    /// For a number of lines outside 1 to 4, no banks, a bank with a part too many or too few, or a part between
    /// lines that do not exist or are the same.
    pub fn new(lines: usize, banks: Vec<Bank>) -> Result<Self> {
        lines_within(lines)?;
        check::not_empty("banks", &banks)?;
        for (place, bank) in banks.iter().enumerate() {
            let checked = match bank {
                Bank::Series(parts) | Bank::ToCase(parts) => check::same_length("parts", parts.len(), "lines", lines),
                Bank::Between { from, to, .. } => different_lines(*from, *to, lines),
                Bank::Choke(_) => Ok(()),
            };
            checked.map_err(|error| error.within(&bank_name(place)))?;
        }
        Ok(Self { lines, banks, load_current_a: 0.0 })
    }

    /// The same filter carrying a load current, A: coils in single lines that saturate lose inductance. A
    /// current-compensated choke does not see it.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_load_current_a(self, load_current_a: f64) -> Result<Self> {
        Ok(Self { load_current_a: circuit_value::non_negative("load_current_a", "A", load_current_a)?, ..self })
    }

    /// Number of lines.
    #[must_use]
    pub const fn lines(&self) -> usize {
        self.lines
    }

    /// The banks, source side first.
    #[must_use]
    pub fn banks(&self) -> &[Bank] {
        &self.banks
    }

    /// Load current, A.
    #[must_use]
    pub const fn load_current_a(&self) -> f64 {
        self.load_current_a
    }

    /// Loss in dB from one mode at the source to one at the load, at a frequency in Hz.
    ///
    /// For the same mode it is the insertion loss `20 log10(V20/V2)`. For different modes it is the conversion
    /// loss: `V20` is what the driving mode would give in its own mode without the filter, `V2` what the
    /// filter gives in the other. Balanced parts convert nothing: infinite, or what rounding leaves.
    ///
    /// # Errors
    /// For modes of lines that do not exist; for a filter without loss at a resonance that has no solution.
    pub fn insertion_loss_db(
        &self,
        frequency_hz: f64,
        drive: Mode,
        listen: Mode,
        source: &ModalTermination,
        load: &ModalTermination,
    ) -> Result<f64> {
        self.check_mode("drive", drive)?;
        self.check_mode("listen", listen)?;
        check::frequency(frequency_hz)?;
        let unsolved = || Error::OutOfRange {
            quantity: "frequency_hz".into(),
            value: frequency_hz,
            unit: "Hz",
            accepted: "off a resonance that nothing damps",
        };
        let source = source.impedance(self.lines, frequency_hz);
        let load = load.impedance(self.lines, frequency_hz);
        let voltages = drive.voltages(self.lines);
        let direct = load.apply(&source.plus(&load).inverse().ok_or_else(unsolved)?.apply(&voltages));
        let (through, ln_scale) = self.respond(frequency_hz, &source, &load, &voltages).ok_or_else(unsolved)?;
        let (before, after) = (drive.read(self.lines, &direct).norm(), listen.read(self.lines, &through).norm());
        Ok(DB_PER_NEPER * (before.ln() - after.ln() - ln_scale))
    }

    // Load voltages for given source voltages, and the logarithm of what they are to be multiplied with.
    fn respond(&self, frequency_hz: f64, source: &Square, load: &Square, voltages: &Column) -> Option<(Column, f64)> {
        let mut impedance = *load;
        let mut divisions = Vec::with_capacity(self.banks.len());
        for bank in self.banks.iter().rev() {
            match self.matrix(bank, frequency_hz) {
                (true, bank) => impedance = impedance.plus(&bank),
                (false, bank) => {
                    let division = Square::identity(self.lines).plus(&bank.times(&impedance)).inverse()?;
                    impedance = impedance.times(&division);
                    divisions.push(division);
                }
            }
        }
        let mut current = source.plus(&impedance).inverse()?.apply(voltages);
        let mut ln_scale = 0.0;
        for division in divisions.iter().rev() {
            current = division.apply(&current);
            let size = current.iter().fold(0.0_f64, |most, value| most.max(value.norm()));
            if size > 0.0 && size.is_finite() {
                current = current.map(|value| value / size);
                ln_scale += size.ln();
            }
        }
        Some((load.apply(&current), ln_scale))
    }

    // True and an impedance matrix for a bank in the lines, false and an admittance matrix for one across them.
    fn matrix(&self, bank: &Bank, frequency_hz: f64) -> (bool, Square) {
        let diagonal = |value: &dyn Fn(usize) -> Complex64| {
            Square::from_fn(self.lines, |row, column| if row == column { value(row) } else { ZERO })
        };
        match bank {
            Bank::Series(parts) => {
                (true, diagonal(&|line| parts[line].impedance_ohm(frequency_hz, self.load_current_a)))
            }
            Bank::ToCase(parts) => {
                (false, diagonal(&|line| parts[line].admittance_s(frequency_hz, self.load_current_a)))
            }
            Bank::Between { from, to, part } => {
                let admittance = part.admittance_s(frequency_hz, self.load_current_a);
                let sign = |line: usize| {
                    if line == *from {
                        1.0
                    } else if line == *to {
                        -1.0
                    } else {
                        0.0
                    }
                };
                (false, Square::from_fn(self.lines, |row, column| admittance * (sign(row) * sign(column))))
            }
            Bank::Choke(choke) => (true, choke.impedance(self.lines, std::f64::consts::TAU * frequency_hz)),
        }
    }

    fn check_mode(&self, quantity: &str, mode: Mode) -> Result<()> {
        match mode {
            Mode::Common => Ok(()),
            Mode::Line(line) => existing_line(quantity, line, self.lines),
            Mode::Differential(from, to) => different_lines(from, to, self.lines),
        }
        .map_err(|error| error.within(quantity))
    }
}

fn existing_line(quantity: &str, line: usize, lines: usize) -> Result<()> {
    check::less_than(quantity, "", line as f64, "lines", lines as f64).map(drop)
}

fn different_lines(from: usize, to: usize, lines: usize) -> Result<()> {
    existing_line("from", from, lines)?;
    existing_line("to", to, lines)?;
    if from == to {
        return Err(Error::Relation {
            quantity: "to".into(),
            value: to as f64,
            unit: "",
            relation: "different from",
            other: "from".into(),
            other_value: from as f64,
        });
    }
    Ok(())
}

impl Mode {
    fn voltages(self, lines: usize) -> Column {
        let mut voltages = [ZERO; MOST];
        match self {
            Self::Common => voltages[..lines].fill(ONE),
            Self::Differential(from, to) => {
                voltages[from] = ONE * 0.5;
                voltages[to] = ONE * -0.5;
            }
            Self::Line(line) => voltages[line] = ONE,
        }
        voltages
    }

    fn read(self, lines: usize, voltages: &Column) -> Complex64 {
        match self {
            Self::Common => voltages[..lines].iter().sum::<Complex64>() / lines as f64,
            Self::Differential(from, to) => voltages[from] - voltages[to],
            Self::Line(line) => voltages[line],
        }
    }
}

fn bank_name(place: usize) -> String {
    format!("banks.{place}")
}

impl Rebuild for Bank {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let mut each = |parts: &[Part]| -> Result<Vec<Part>> {
            parts
                .iter()
                .enumerate()
                .map(|(line, part)| knobs.enter(&format!("lines.{line}"), |knobs| part.rebuild(knobs)))
                .collect()
        };
        Ok(match self {
            Self::Series(parts) => Self::Series(each(parts)?),
            Self::ToCase(parts) => Self::ToCase(each(parts)?),
            Self::Between { from, to, part } => Self::Between { from: *from, to: *to, part: part.rebuild(knobs)? },
            Self::Choke(choke) => Self::Choke(choke.rebuild(knobs)?),
        })
    }
}

impl Rebuild for LineFilter {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let banks = self
            .banks
            .iter()
            .enumerate()
            .map(|(place, bank)| knobs.enter(&bank_name(place), |knobs| bank.rebuild(knobs)))
            .collect::<Result<_>>()?;
        Self::new(self.lines, banks)?.with_load_current_a(knobs.value(
            "load_current_a",
            "A",
            self.load_current_a,
            "zero or positive",
        ))
    }
}

checked_record!(LineFilter as Record {
    lines: usize,
    banks: Vec<Bank>,
    #[serde(default)]
    load_current_a: f64,
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, Element, Inductor, Ladder, MeasuringCircuit};

    fn cap(f: f64) -> Part {
        Capacitor::new(f).unwrap().into()
    }

    fn filter(first_f: f64, second_f: f64) -> LineFilter {
        LineFilter::new(
            2,
            vec![
                Bank::Between { from: 0, to: 1, part: cap(470e-9) },
                Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap()),
                Bank::ToCase(vec![cap(first_f), cap(second_f)]),
            ],
        )
        .unwrap()
    }

    fn ohms(r: f64) -> Termination {
        Termination::impedance(r).unwrap()
    }

    #[test]
    fn balanced_modes_equal_the_ladders_that_they_reduce_to() {
        let (source, load) = (
            ModalTermination { common: ohms(25.0), differential: ohms(100.0) },
            ModalTermination { common: ohms(70.0), differential: ohms(5.0) },
        );
        let choke = CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap();
        for frequency_hz in [10e3, 150e3, 1e6, 30e6] {
            let coil = |l: f64| Element::Series(Inductor::new(l).unwrap().into());
            let common =
                Ladder::new(vec![coil((1.0 + choke.coupling()) * 3e-3 / 2.0), Element::Shunt(cap(2.0 * 4.7e-9))])
                    .unwrap();
            let between = Ladder::new(vec![
                Element::Shunt(cap(470e-9)),
                coil(choke.leakage_h()),
                Element::Shunt(cap(0.5 * 4.7e-9)),
            ])
            .unwrap();
            let pairs = [
                (Mode::Common, &common, MeasuringCircuit::new(ohms(25.0), ohms(70.0))),
                (Mode::Differential(0, 1), &between, MeasuringCircuit::new(ohms(100.0), ohms(5.0))),
            ];
            for (mode, ladder, circuit) in pairs {
                let full = filter(4.7e-9, 4.7e-9).insertion_loss_db(frequency_hz, mode, mode, &source, &load).unwrap();
                let reduced = ladder.insertion_loss_db(frequency_hz, &circuit);
                // Lines instead of modes: the differential part of the choke is 1 % of its entries, squared
                // twice on the way, so four digits of sixteen go.
                assert!((full / reduced - 1.0).abs() < 1e-11, "{mode:?} {frequency_hz}: {full} {reduced}");
            }
        }
    }

    #[test]
    fn unbalance_converts_in_proportion_and_both_ways_alike() {
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let convert = |unbalance: f64, drive: Mode, listen: Mode| {
            filter(4.7e-9 * (1.0 + unbalance), 4.7e-9 * (1.0 - unbalance))
                .insertion_loss_db(1e6, drive, listen, &ends, &ends)
                .unwrap()
        };
        let (common, between) = (Mode::Common, Mode::Differential(0, 1));
        assert!(convert(0.0, common, between) > 250.0);
        let step = convert(0.001, common, between) - convert(0.01, common, between);
        assert!((step - 20.0).abs() < 0.01, "{step}");
        assert!(convert(0.1, between, common) < 130.0);
    }

    #[test]
    fn four_lines_have_one_common_and_alike_differential_modes() {
        let filter = LineFilter::new(
            4,
            vec![Bank::Choke(CommonModeChoke::new(1e-3, 0.99).unwrap()), Bank::ToCase(vec![cap(10e-9); 4])],
        )
        .unwrap();
        let ends = ModalTermination::each_line(50.0, 4).unwrap();
        let loss = |mode| filter.insertion_loss_db(1e6, mode, mode, &ends, &ends).unwrap();
        let first = loss(Mode::Differential(0, 1));
        for (from, to) in [(0, 3), (2, 1), (3, 2)] {
            assert!((loss(Mode::Differential(from, to)) - first).abs() < 1e-9);
        }
        let ladder = Ladder::new(vec![
            Element::Series(Inductor::new((1.0 + 3.0 * 0.99) * 1e-3 / 4.0).unwrap().into()),
            Element::Shunt(cap(40e-9)),
        ])
        .unwrap();
        let reduced = ladder.insertion_loss_db(1e6, &MeasuringCircuit::new(ohms(12.5), ohms(12.5)));
        assert!((loss(Mode::Common) - reduced).abs() < 1e-10);
    }

    #[test]
    fn nonsense_is_refused_with_its_place() {
        assert!(LineFilter::new(0, vec![Bank::ToCase(vec![])]).is_err());
        assert!(LineFilter::new(5, vec![Bank::ToCase(vec![cap(1e-9); 5])]).is_err());
        assert!(LineFilter::new(2, vec![]).is_err());
        let error = LineFilter::new(2, vec![Bank::ToCase(vec![cap(1e-9)])]).unwrap_err();
        assert!(error.to_string().contains("banks.0.parts"), "{error}");
        assert!(LineFilter::new(2, vec![Bank::Between { from: 1, to: 1, part: cap(1e-9) }]).is_err());
        assert!(LineFilter::new(2, vec![Bank::Between { from: 0, to: 2, part: cap(1e-9) }]).is_err());
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let filter = filter(1e-9, 1e-9);
        assert!(filter.insertion_loss_db(1e6, Mode::Line(2), Mode::Common, &ends, &ends).is_err());
        assert!(filter.insertion_loss_db(f64::NAN, Mode::Common, Mode::Common, &ends, &ends).is_err());
        assert!(CommonModeChoke::new(1e-3, 1.0).is_err());
    }
}
