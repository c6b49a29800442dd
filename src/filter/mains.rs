//! What a filter does to the mains, and to the people who touch what it stands in.
//!
//! **Caution.** These are sums for planning. Touch current and earth-leakage current are judged by measurement
//! against the code that applies; the case is bonded before anything is energised; mains work is for a licensed
//! electrician. See [`CAUTION`](super::CAUTION).
//!
//! * Earth-leakage current: `|sum of j w C_k V_k|` over the lines, with the voltage and the capacitances at the
//!   ends of their tolerances that make it largest. A neutral is taken at earth potential.
//! * One line lost: the lost conductor stands at the mean potential of the others, as the load leaves it, or is
//!   dead; the worse of both, over all lines. With equal capacitors that is `2 w C V` for line and neutral, 1.5
//!   times `w C V` for three phases.
//! * Reactive power of the capacitors between lines, volt drop and heat in series resistances at load current,
//!   and dielectric heat.
//! * Time for the capacitors to bleed down from the crest of the highest voltage to a stated voltage:
//!   `t = R C ln(V_crest/V_safe)`.
//!
//! Sums of circuit theory, valid at mains frequency; harmonics of the supply add leakage in proportion to
//! their order.

use std::f64::consts::TAU;
use std::fmt;

use num_complex::Complex64;

use super::coupled::{Bank, LineFilter};
use super::square::MOST;
use crate::error::{Result, check};
use crate::filter::{CAUTION, Part};
use crate::wave::circuit_value;

/// Kind of supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum SupplySystem {
    /// One line against earth.
    SingleLine,
    /// Line and neutral.
    LineNeutral,
    /// Three phases.
    ThreePhase,
    /// Three phases and neutral.
    ThreePhaseNeutral,
}

impl SupplySystem {
    /// Number of conductors.
    #[must_use]
    pub const fn lines(self) -> usize {
        match self {
            Self::SingleLine => 1,
            Self::LineNeutral => 2,
            Self::ThreePhase => 3,
            Self::ThreePhaseNeutral => 4,
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SingleLine => "single_line",
            Self::LineNeutral => "line_neutral",
            Self::ThreePhase => "three_phase",
            Self::ThreePhaseNeutral => "three_phase_neutral",
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::SingleLine, Self::LineNeutral, Self::ThreePhase, Self::ThreePhaseNeutral];
}

/// A mains supply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MainsSupply {
    system: SupplySystem,
    voltage_v: f64,
    frequency_hz: f64,
    voltage_tolerance: f64,
}

impl MainsSupply {
    /// From the voltage of a line against neutral or earth (V, effective value) and the frequency (Hz); no tolerance.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn new(system: SupplySystem, voltage_v: f64, frequency_hz: f64) -> Result<Self> {
        Ok(Self {
            system,
            voltage_v: circuit_value::positive("voltage_v", "V", voltage_v)?,
            frequency_hz: check::frequency(frequency_hz)?,
            voltage_tolerance: 0.0,
        })
    }

    /// With a voltage that may be higher by this fraction (0.1: ten per cent).
    ///
    /// # Errors
    /// Unless from 0 to 1.
    pub fn with_voltage_tolerance(self, voltage_tolerance: f64) -> Result<Self> {
        Ok(Self { voltage_tolerance: check::fraction("voltage_tolerance", voltage_tolerance)?, ..self })
    }

    /// Kind of supply.
    #[must_use]
    pub const fn system(&self) -> SupplySystem {
        self.system
    }

    /// Nominal voltage of a line against neutral, V.
    #[must_use]
    pub const fn voltage_v(&self) -> f64 {
        self.voltage_v
    }

    /// Frequency, Hz.
    #[must_use]
    pub const fn frequency_hz(&self) -> f64 {
        self.frequency_hz
    }

    /// By how much the voltage may be higher, as a fraction.
    #[must_use]
    pub const fn voltage_tolerance(&self) -> f64 {
        self.voltage_tolerance
    }

    fn highest_v(&self) -> f64 {
        self.voltage_v * (1.0 + self.voltage_tolerance)
    }

    /// Voltages of the lines against earth at their highest.
    fn voltages(&self) -> Vec<Complex64> {
        let phase = |k: usize| Complex64::from_polar(self.highest_v(), -TAU * k as f64 / 3.0);
        let neutral = Complex64::new(0.0, 0.0);
        match self.system {
            SupplySystem::SingleLine => vec![phase(0)],
            SupplySystem::LineNeutral => vec![phase(0), neutral],
            SupplySystem::ThreePhase => (0..3).map(phase).collect(),
            SupplySystem::ThreePhaseNeutral => (0..3).map(phase).chain([neutral]).collect(),
        }
    }

    /// Earth-leakage current of a capacitance in F from each line to earth, whose values may be off by the
    /// given fraction either way.
    ///
    /// ```
    /// use stillroom::filter::{MainsSupply, SupplySystem};
    /// // 10 nF at 230 V, 50 Hz: 0.723 mA.
    /// let supply = MainsSupply::new(SupplySystem::SingleLine, 230.0, 50.0)?;
    /// assert!((supply.earth_leakage(&[10e-9], 0.0)?.normal_a - 0.723e-3).abs() < 0.5e-6);
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    ///
    /// # Errors
    /// For a number of capacitances other than that of the lines, a negative one, or a tolerance outside 0 to 1.
    pub fn earth_leakage(&self, capacitance_f: &[f64], capacitance_tolerance: f64) -> Result<EarthLeakage> {
        check::same_length("capacitance_f", capacitance_f.len(), "lines", self.system.lines())?;
        check::all("capacitance_f", "F", capacitance_f, "zero or positive, and finite", |c| c >= 0.0 && c.is_finite())?;
        check::fraction("capacitance_tolerance", capacitance_tolerance)?;
        let voltages = self.voltages();
        let normal_a = self.leakage(&voltages, capacitance_f, capacitance_tolerance);
        let one_line_lost_a = (0..voltages.len())
            .flat_map(|lost| {
                let others = voltages.len() - 1;
                let sum: Complex64 = voltages.iter().sum::<Complex64>() - voltages[lost];
                let pulled = if others > 0 { sum / others as f64 } else { Complex64::new(0.0, 0.0) };
                [pulled, Complex64::new(0.0, 0.0)].map(|potential| {
                    let mut faulty = voltages.clone();
                    faulty[lost] = potential;
                    self.leakage(&faulty, capacitance_f, capacitance_tolerance)
                })
            })
            .fold(0.0, f64::max);
        Ok(EarthLeakage { normal_a, one_line_lost_a })
    }

    // Largest over the corners of the tolerances: the current is convex in each capacitance.
    fn leakage(&self, voltages: &[Complex64], capacitance_f: &[f64], tolerance: f64) -> f64 {
        (0..1_usize << voltages.len())
            .map(|corner| {
                let charge: Complex64 = voltages
                    .iter()
                    .zip(capacitance_f)
                    .enumerate()
                    .map(|(line, (voltage, capacitance))| {
                        let sign = if corner >> line & 1 == 1 { 1.0 } else { -1.0 };
                        voltage * (capacitance * (1.0 + sign * tolerance))
                    })
                    .sum();
                TAU * self.frequency_hz * charge.norm()
            })
            .fold(0.0, f64::max)
    }
}

/// Earth-leakage currents, A (effective values), at the highest voltage and the worst tolerances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EarthLeakage {
    /// With all lines connected.
    pub normal_a: f64,
    /// With one line lost.
    pub one_line_lost_a: f64,
}

/// What a filter of several lines does at mains frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct MainsDuty {
    /// Current into the protective earth.
    pub earth_leakage: EarthLeakage,
    /// Reactive power of the capacitors between lines and to earth at nominal voltage, var.
    pub reactive_power_var: f64,
    /// Voltage lost in the series parts of one line and its return at load current, V.
    pub volt_drop_v: f64,
    /// The same over the voltage that the load works at.
    pub volt_drop_fraction: f64,
    /// Heat of the load current in all lines, W.
    pub copper_heat_w: f64,
    /// Heat in the dielectrics at nominal voltage, W.
    pub dielectric_heat_w: f64,
    /// Time for the voltage between lines to fall to the safe one, s; infinite without a discharge resistor.
    pub bleed_down_s: f64,
}

/// What the caller's code allows; `None` where it says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MainsLimits {
    /// Earth-leakage current with all lines connected, A.
    pub earth_leakage_a: Option<f64>,
    /// Earth-leakage current with one line lost, A.
    pub one_line_lost_a: Option<f64>,
    /// Volt drop as a fraction.
    pub volt_drop_fraction: Option<f64>,
    /// Time to bleed down, s.
    pub bleed_down_s: Option<f64>,
}

/// One limit that is passed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PassedLimit {
    /// Which quantity.
    pub quantity: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Its value.
    pub value: f64,
    /// What is allowed.
    pub limit: f64,
}

impl MainsDuty {
    /// Limits of the caller that are passed; empty if none is.
    #[must_use]
    pub fn passed(&self, limits: &MainsLimits) -> Vec<PassedLimit> {
        [
            ("earth_leakage_a", "A", self.earth_leakage.normal_a, limits.earth_leakage_a),
            ("one_line_lost_a", "A", self.earth_leakage.one_line_lost_a, limits.one_line_lost_a),
            ("volt_drop_fraction", "", self.volt_drop_fraction, limits.volt_drop_fraction),
            ("bleed_down_s", "s", self.bleed_down_s, limits.bleed_down_s),
        ]
        .into_iter()
        .filter_map(|(quantity, unit, value, limit)| {
            // Not-a-number as a limit passes nothing silently.
            limit.filter(|limit| value > *limit || limit.is_nan()).map(|limit| PassedLimit {
                quantity,
                unit,
                value,
                limit,
            })
        })
        .collect()
    }
}

impl fmt::Display for MainsDuty {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "earth leakage        {:10.3} mA", 1e3 * self.earth_leakage.normal_a)?;
        writeln!(f, "  with one line lost {:10.3} mA", 1e3 * self.earth_leakage.one_line_lost_a)?;
        writeln!(f, "reactive power       {:10.3} var", self.reactive_power_var)?;
        writeln!(f, "volt drop            {:10.3} V ({:.3} %)", self.volt_drop_v, 100.0 * self.volt_drop_fraction)?;
        writeln!(f, "heat, conductors     {:10.3} W", self.copper_heat_w)?;
        writeln!(f, "heat, dielectrics    {:10.3} W", self.dielectric_heat_w)?;
        writeln!(f, "bleed-down           {:10.3} s", self.bleed_down_s)?;
        write!(f, "{CAUTION}")
    }
}

// Sums over the banks of a filter that matter at mains frequency.
#[derive(Default)]
struct Sums {
    to_case_f: [f64; MOST],
    // Capacitance and conductance of each pair of lines, and the loss tangents weighed by capacitance.
    between_f: [[f64; MOST]; MOST],
    between_s: [[f64; MOST]; MOST],
    to_case_s: [f64; MOST],
    lossy_to_case_f: [f64; MOST],
    lossy_between_f: [[f64; MOST]; MOST],
    resistance_ohm: [f64; MOST],
    inductance_h: [f64; MOST],
}

impl LineFilter {
    /// What the filter does on a mains supply: with its load current, capacitors off by a fraction either
    /// way, bled down to `safe_voltage_v`.
    ///
    /// # Errors
    /// If supply and filter have different numbers of lines, for a tolerance outside 0 to 1, or a voltage that
    /// is not positive.
    pub fn mains_duty(
        &self,
        supply: &MainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> Result<MainsDuty> {
        check::same_length("lines", self.lines(), "lines of the supply", supply.system.lines())?;
        circuit_value::positive("safe_voltage_v", "V", safe_voltage_v)?;
        let sums = self.mains_sums();
        let n = self.lines();
        let omega = TAU * supply.frequency_hz;
        let nominal: Vec<Complex64> = supply.voltages().iter().map(|v| v / (1.0 + supply.voltage_tolerance)).collect();
        let (mut reactive_power_var, mut dielectric_heat_w) = (0.0, 0.0);
        for line in 0..n {
            let square = nominal[line].norm_sqr();
            reactive_power_var += omega * sums.to_case_f[line] * square;
            dielectric_heat_w += omega * sums.lossy_to_case_f[line] * square;
            for other in line + 1..n {
                let square = (nominal[line] - nominal[other]).norm_sqr();
                reactive_power_var += omega * sums.between_f[line][other] * square;
                dielectric_heat_w += omega * sums.lossy_between_f[line][other] * square;
            }
        }
        let current = self.load_current_a();
        let impedance = |line: usize| Complex64::new(sums.resistance_ohm[line], omega * sums.inductance_h[line]);
        // Out along the first line and back along the last; alone, a line's return is not in the filter. The sum of
        // magnitudes is the drop for the least favourable phase of the load.
        let way = if n > 1 { impedance(0) + impedance(n - 1) } else { impedance(0) };
        let volt_drop_v = match supply.system {
            // Balanced: a phase has no return.
            SupplySystem::ThreePhase | SupplySystem::ThreePhaseNeutral => current * impedance(0).norm(),
            SupplySystem::SingleLine | SupplySystem::LineNeutral => current * way.norm(),
        };
        let loaded = match supply.system {
            SupplySystem::ThreePhaseNeutral => 3,
            _ => n,
        };
        let copper_heat_w = (0..loaded).map(|line| current * current * sums.resistance_ohm[line]).sum();
        Ok(MainsDuty {
            earth_leakage: supply.earth_leakage(&sums.to_case_f[..n], capacitance_tolerance)?,
            reactive_power_var,
            volt_drop_v,
            volt_drop_fraction: volt_drop_v / supply.voltage_v,
            copper_heat_w,
            dielectric_heat_w,
            bleed_down_s: self.slowest_bleed_down(&sums, supply, capacitance_tolerance, safe_voltage_v),
        })
    }

    // For every pair of lines, or the line and the case: what is left after the crest.
    fn slowest_bleed_down(&self, sums: &Sums, supply: &MainsSupply, tolerance: f64, safe_v: f64) -> f64 {
        let n = self.lines();
        let voltages = supply.voltages();
        let mut slowest = 0.0_f64;
        let mut consider = |capacitance: f64, conductance: f64, voltage: f64| {
            let crest = std::f64::consts::SQRT_2 * voltage;
            if capacitance > 0.0 && crest > safe_v {
                slowest = slowest.max(capacitance * (1.0 + tolerance) / conductance * (crest / safe_v).ln());
            }
        };
        if n == 1 {
            consider(sums.to_case_f[0], sums.to_case_s[0], voltages[0].norm());
        }
        for line in 0..n {
            for other in line + 1..n {
                // Two capacitors to the case are in series between the lines.
                let series = |a: f64, b: f64| if a > 0.0 && b > 0.0 { a * b / (a + b) } else { 0.0 };
                let capacitance = sums.between_f[line][other] + series(sums.to_case_f[line], sums.to_case_f[other]);
                let conductance = sums.between_s[line][other] + series(sums.to_case_s[line], sums.to_case_s[other]);
                consider(capacitance, conductance, (voltages[line] - voltages[other]).norm());
            }
        }
        slowest
    }

    fn mains_sums(&self) -> Sums {
        let mut sums = Sums::default();
        let current = self.load_current_a();
        for bank in self.banks() {
            match bank {
                Bank::Series(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        match part {
                            Part::Inductor(coil) => {
                                sums.resistance_ohm[line] += coil.resistance_ohm();
                                sums.inductance_h[line] += coil.loaded_inductance_h(current);
                            }
                            Part::Resistor(resistor) => sums.resistance_ohm[line] += resistor.resistance_ohm(),
                            Part::Capacitor(_) | Part::FerriteBead(_) => {}
                        }
                    }
                }
                Bank::ToCase(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        match part {
                            Part::Capacitor(capacitor) => {
                                sums.to_case_f[line] += capacitor.capacitance_f();
                                sums.lossy_to_case_f[line] += capacitor.capacitance_f() * capacitor.loss_tangent();
                            }
                            Part::Resistor(resistor) => sums.to_case_s[line] += resistor.resistance_ohm().recip(),
                            Part::Inductor(_) | Part::FerriteBead(_) => {}
                        }
                    }
                }
                Bank::Between { from, to, part } => {
                    let (line, other) = ((*from).min(*to), (*from).max(*to));
                    match part {
                        Part::Capacitor(capacitor) => {
                            sums.between_f[line][other] += capacitor.capacitance_f();
                            sums.lossy_between_f[line][other] += capacitor.capacitance_f() * capacitor.loss_tangent();
                        }
                        Part::Resistor(resistor) => sums.between_s[line][other] += resistor.resistance_ohm().recip(),
                        Part::Inductor(_) | Part::FerriteBead(_) => {}
                    }
                }
                Bank::Choke(choke) => {
                    // The load current goes out and back: what it meets is the leakage, half a pair's in each line.
                    for line in 0..self.lines() {
                        sums.resistance_ohm[line] += choke.resistance_ohm();
                        sums.inductance_h[line] += 0.5 * choke.leakage_h();
                    }
                }
            }
        }
        sums
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, CommonModeChoke, Inductor, Resistor};

    fn supply(system: SupplySystem) -> MainsSupply {
        MainsSupply::new(system, 230.0, 50.0).unwrap()
    }

    #[test]
    fn lost_lines_by_hand() {
        let unit = TAU * 50.0 * 100e-9 * 230.0;
        let two = supply(SupplySystem::LineNeutral).earth_leakage(&[100e-9; 2], 0.0).unwrap();
        assert!((two.normal_a / unit - 1.0).abs() < 1e-12);
        assert!((two.one_line_lost_a / unit - 2.0).abs() < 1e-12);
        let three = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.0).unwrap();
        assert!(three.normal_a < 1e-12 * unit);
        assert!((three.one_line_lost_a / unit - 1.5).abs() < 1e-12);
        // 20 % either way: two high and one low leave |1.2 a + 1.2 a^2 + 0.8| = 0.4.
        let loose = supply(SupplySystem::ThreePhase).earth_leakage(&[100e-9; 3], 0.2).unwrap();
        assert!((loose.normal_a / unit - 0.4).abs() < 1e-12);
        let four = supply(SupplySystem::ThreePhaseNeutral).earth_leakage(&[100e-9; 4], 0.0).unwrap();
        assert!((four.one_line_lost_a / unit - 4.0 / 3.0).abs() < 1e-12);
    }

    #[test]
    fn duty_of_a_two_line_filter_by_hand() {
        let cap = |f: f64| Capacitor::new(f).unwrap().with_loss_tangent(1e-3).unwrap().into();
        let filter = LineFilter::new(
            2,
            vec![
                Bank::Between { from: 1, to: 0, part: cap(470e-9) },
                Bank::Between { from: 0, to: 1, part: Resistor::new(1e6).unwrap().into() },
                Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap().with_resistance_ohm(0.01).unwrap()),
                Bank::Series(vec![Inductor::new(50e-6).unwrap().with_resistance_ohm(5e-3).unwrap().into(); 2]),
                Bank::ToCase(vec![cap(4.7e-9); 2]),
            ],
        )
        .unwrap()
        .with_load_current_a(16.0)
        .unwrap();
        let duty = filter
            .mains_duty(&supply(SupplySystem::LineNeutral).with_voltage_tolerance(0.1).unwrap(), 0.2, 34.0)
            .unwrap();
        let omega = TAU * 50.0;
        assert!((duty.earth_leakage.normal_a / (omega * 4.7e-9 * 1.2 * 253.0) - 1.0).abs() < 1e-12);
        assert!((duty.reactive_power_var / (omega * (470e-9 + 4.7e-9) * 230.0 * 230.0) - 1.0).abs() < 1e-12);
        let drop = 16.0 * Complex64::new(0.03, omega * 130e-6).norm();
        assert!((duty.volt_drop_v / drop - 1.0).abs() < 1e-12);
        assert!((duty.copper_heat_w - 256.0 * 0.03).abs() < 1e-12);
        let bleed = 1.2 * (470e-9 + 2.35e-9) * 1e6 * (253.0 * 2f64.sqrt() / 34.0).ln();
        assert!((duty.bleed_down_s / bleed - 1.0).abs() < 1e-12);
        let limits = MainsLimits { earth_leakage_a: Some(0.4e-3), bleed_down_s: Some(2.0), ..Default::default() };
        let passed = duty.passed(&limits);
        assert_eq!(passed.len(), 1);
        assert_eq!(passed[0].quantity, "earth_leakage_a");
        let text = duty.to_string();
        assert!(text.contains("licensed electrician") && text.contains("mA"), "{text}");
    }

    #[test]
    fn without_a_discharge_resistor_nothing_bleeds() {
        let cap = |f: f64| Capacitor::new(f).unwrap().into();
        let filter = LineFilter::new(2, vec![Bank::Between { from: 0, to: 1, part: cap(470e-9) }]).unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        assert_eq!(duty.bleed_down_s, f64::INFINITY);
        assert!(filter.mains_duty(&supply(SupplySystem::ThreePhase), 0.0, 34.0).is_err());
        assert!(filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 0.0).is_err());
        assert!(supply(SupplySystem::LineNeutral).earth_leakage(&[1e-9], 0.0).is_err());
        assert!(supply(SupplySystem::LineNeutral).earth_leakage(&[1e-9, -1e-9], 0.0).is_err());
    }
}
