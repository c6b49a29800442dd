//! What a filter of several lines does at mains frequency.
//!
//! **Caution.** These are sums for planning, to be judged against the code that applies by someone licensed for it. See
//! [`CAUTION`](super::CAUTION).
//!
//! * Earth-leakage current: see [`MainsSupply::earth_leakage`].
//! * Reactive power of the capacitors between lines and to earth, volt drop and heat in series resistances at load
//!   current, and dielectric heat.
//! * Time for the capacitors to bleed down from the crest of the highest voltage to a stated voltage:
//!   `t = R C ln(V_crest/V_safe)`.

use std::f64::consts::TAU;
use std::fmt;

use num_complex::Complex64;

use super::square::MOST;
use crate::error::{Result, check};
use crate::filter::{Bank, CAUTION, EarthLeakage, Element, LineFilter, MainsSupply, Part, SupplySystem};
use crate::wave::circuit_value;

/// What a filter of several lines does at mains frequency.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
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
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default, deny_unknown_fields))]
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
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
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

/// What can be limited, and its unit.
const LIMITED: [(&str, &str); 4] =
    [("earth_leakage_a", "A"), ("one_line_lost_a", "A"), ("volt_drop_fraction", ""), ("bleed_down_s", "s")];

/// What is read before it is checked.
#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct PassedRecord {
    quantity: String,
    unit: String,
    value: f64,
    limit: f64,
}

// By hand: the derived one would want text that lives as long as the names do.
#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for PassedLimit {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> std::result::Result<Self, D::Error> {
        PassedRecord::deserialize(deserializer)?.try_into().map_err(serde::de::Error::custom)
    }
}

#[cfg(feature = "serde")]
impl TryFrom<PassedRecord> for PassedLimit {
    type Error = crate::Error;
    fn try_from(PassedRecord { quantity, unit, value, limit }: PassedRecord) -> Result<Self> {
        match LIMITED.iter().find(|known| known.0 == quantity) {
            Some(known) if known.1 == unit => Ok(Self { quantity: known.0, unit: known.1, value, limit }),
            Some(known) => {
                Err(crate::Error::UnknownName { kind: "unit", name: unit, known: vec![known.1.into()] }.within(known.0))
            }
            None => {
                let known = LIMITED.iter().map(|known| known.0.into()).collect();
                Err(crate::Error::UnknownName { kind: "quantity", name: quantity, known })
            }
        }
    }
}

impl MainsDuty {
    /// Limits of the caller that are passed; empty if none is.
    #[must_use]
    pub fn passed(&self, limits: &MainsLimits) -> Vec<PassedLimit> {
        let compared = [
            (self.earth_leakage.normal_a, limits.earth_leakage_a),
            (self.earth_leakage.one_line_lost_a, limits.one_line_lost_a),
            (self.volt_drop_fraction, limits.volt_drop_fraction),
            (self.bleed_down_s, limits.bleed_down_s),
        ];
        LIMITED
            .into_iter()
            .zip(compared)
            .filter_map(|((quantity, unit), (value, limit))| {
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
    /// If supply and filter have different numbers of lines, for a tolerance outside 0 to 1, a voltage that is
    /// not positive, or a measured two-port whose data do not reach down to the mains frequency: what it puts into
    /// the earth is then unknown.
    pub fn mains_duty(
        &self,
        supply: &MainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> Result<MainsDuty> {
        check::same_length("lines", self.lines(), "lines of the supply", supply.system().lines())?;
        circuit_value::positive("safe_voltage_v", "V", safe_voltage_v)?;
        let sums = self.mains_sums(supply.frequency_hz())?;
        let n = self.lines();
        let omega = TAU * supply.frequency_hz();
        let nominal: Vec<Complex64> =
            supply.voltages().iter().map(|v| v / (1.0 + supply.voltage_tolerance())).collect();
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
        let volt_drop_v = match supply.system() {
            // Balanced: a phase has no return.
            SupplySystem::ThreePhase | SupplySystem::ThreePhaseNeutral => current * impedance(0).norm(),
            SupplySystem::SingleLine | SupplySystem::LineNeutral => current * way.norm(),
        };
        let loaded = match supply.system() {
            SupplySystem::ThreePhaseNeutral => 3,
            _ => n,
        };
        let copper_heat_w = (0..loaded).map(|line| current * current * sums.resistance_ohm[line]).sum();
        Ok(MainsDuty {
            earth_leakage: supply.earth_leakage(&sums.to_case_f[..n], capacitance_tolerance)?,
            reactive_power_var,
            volt_drop_v,
            volt_drop_fraction: volt_drop_v / supply.voltage_v(),
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

    fn mains_sums(&self, mains_hz: f64) -> Result<Sums> {
        let mut sums = Sums::default();
        let current = self.load_current_a();
        for (place, bank) in self.banks().iter().enumerate() {
            match bank {
                Bank::Series(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        sums.in_line(line, part, current);
                    }
                }
                Bank::ToCase(parts) => {
                    for (line, part) in parts.iter().enumerate() {
                        sums.against_case(line, part);
                    }
                }
                Bank::Between { from, to, part } => sums.between((*from).min(*to), (*from).max(*to), part),
                Bank::Choke(choke) => {
                    // The load current goes out and back: what it meets is the leakage, half a pair's in each line.
                    for line in 0..self.lines() {
                        sums.resistance_ohm[line] += choke.resistance_ohm();
                        sums.inductance_h[line] += 0.5 * choke.leakage_h();
                    }
                }
                Bank::Each(elements) => {
                    for (line, element) in elements.iter().enumerate() {
                        sums.element(line, element, current, mains_hz)
                            .map_err(|error| error.within(&format!("banks.{place}.lines.{line}")))?;
                    }
                }
            }
        }
        Ok(sums)
    }
}

impl Sums {
    fn in_line(&mut self, line: usize, part: &Part, current_a: f64) {
        match part {
            Part::Inductor(coil) => {
                self.resistance_ohm[line] += coil.resistance_ohm();
                self.inductance_h[line] += coil.loaded_inductance_h(current_a);
            }
            Part::Resistor(resistor) => self.resistance_ohm[line] += resistor.resistance_ohm(),
            Part::Capacitor(_) | Part::FerriteBead(_) => {}
        }
    }

    fn against_case(&mut self, line: usize, part: &Part) {
        match part {
            Part::Capacitor(capacitor) => self.add_to_case(line, capacitor.capacitance_f(), capacitor.loss_tangent()),
            Part::Resistor(resistor) => self.to_case_s[line] += resistor.resistance_ohm().recip(),
            Part::Inductor(_) | Part::FerriteBead(_) => {}
        }
    }

    fn add_to_case(&mut self, line: usize, capacitance_f: f64, loss_tangent: f64) {
        self.to_case_f[line] += capacitance_f;
        self.lossy_to_case_f[line] += capacitance_f * loss_tangent;
    }

    fn between(&mut self, line: usize, other: usize, part: &Part) {
        match part {
            Part::Capacitor(capacitor) => {
                self.between_f[line][other] += capacitor.capacitance_f();
                self.lossy_between_f[line][other] += capacitor.capacitance_f() * capacitor.loss_tangent();
            }
            Part::Resistor(resistor) => self.between_s[line][other] += resistor.resistance_ohm().recip(),
            Part::Inductor(_) | Part::FerriteBead(_) => {}
        }
    }

    fn element(&mut self, line: usize, element: &Element, current_a: f64, mains_hz: f64) -> Result<()> {
        match element {
            Element::Series(part) => self.in_line(line, part, current_a),
            Element::Shunt(part) => self.against_case(line, part),
            Element::Feedthrough(part) => {
                self.resistance_ohm[line] += part.conductor_resistance_ohm();
                self.inductance_h[line] += part.conductor_inductance_h();
                self.add_to_case(line, part.capacitance_f(), part.loss_tangent());
            }
            Element::Line(cable) => {
                self.resistance_ohm[line] += cable.resistance_ohm(mains_hz);
                self.inductance_h[line] += cable.inductance_h();
                self.add_to_case(line, cable.capacitance_f(), cable.loss_tangent());
            }
            Element::Measured(measured) => {
                check::at_most("frequency_hz", "Hz", measured.frequency_hz()[0], "mains frequency", mains_hz)?;
                // At mains frequency the chain is a series impedance and a shunt admittance, each small.
                let ([[_, impedance], [admittance, _]], _) = measured.two_port(mains_hz).scaled_chain();
                let omega = TAU * mains_hz;
                self.resistance_ohm[line] += impedance.re.max(0.0);
                self.inductance_h[line] += impedance.im.max(0.0) / omega;
                self.to_case_f[line] += admittance.im.max(0.0) / omega;
                self.lossy_to_case_f[line] += admittance.re.max(0.0) / omega;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{
        Capacitor, CommonModeChoke, FeedthroughCapacitor, Inductor, Ladder, LossyLine, MeasuredTwoPort, Resistor,
    };
    use crate::wave::Terminations;

    fn supply(system: SupplySystem) -> MainsSupply {
        MainsSupply::new(system, 230.0, 50.0).unwrap()
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

    #[test]
    fn feedthroughs_and_cables_count_as_what_they_hold() {
        let feedthrough = FeedthroughCapacitor::new(10e-9).unwrap().with_conductor(2e-9, 1e-3).unwrap();
        let cable = LossyLine::new(3.0, 50.0, 2e8).unwrap();
        let filter = LineFilter::new(
            2,
            vec![
                Bank::Each(vec![feedthrough.into(), feedthrough.into()]),
                Bank::Each(vec![cable.into(), cable.into()]),
            ],
        )
        .unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        // 10 nF, and 3 m of 100 pF/m.
        assert!((duty.earth_leakage.normal_a / (TAU * 50.0 * 10.3e-9 * 230.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_measured_two_port_counts_where_its_data_reach_the_mains() {
        let exact = Ladder::new(vec![Element::Shunt(Capacitor::new(100e-9).unwrap().into())]).unwrap();
        let measured = |frequencies: Vec<f64>| {
            let rows = frequencies
                .iter()
                .map(|&f| {
                    let s = exact.scattering(f, &Terminations::fifty_ohm()).unwrap();
                    [s.s11, s.s12(), s.s21(), s.s22]
                })
                .collect();
            MeasuredTwoPort::new(frequencies, rows, 50.0, 50.0).unwrap()
        };
        let build = |measured: MeasuredTwoPort| {
            LineFilter::new(1, vec![Bank::Each(vec![measured.into()])]).unwrap().mains_duty(
                &supply(SupplySystem::SingleLine),
                0.0,
                34.0,
            )
        };
        let duty = build(measured(vec![10.0, 50.0, 100.0])).unwrap();
        assert!((duty.earth_leakage.normal_a / (TAU * 50.0 * 100e-9 * 230.0) - 1.0).abs() < 1e-6);
        let error = build(measured(vec![9e3, 30e6])).unwrap_err().to_string();
        assert!(error.contains("banks.0.lines.0.frequency_hz") && error.contains("mains frequency"), "{error}");
    }
}
