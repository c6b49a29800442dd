//! What a filter of several lines does at mains frequency.
//!
//! **Caution.** These are sums for planning, to be judged against the code that applies by someone licensed for it. See
//! [`CAUTION`](super::CAUTION) and [`DISCHARGE_CAUTION`](super::DISCHARGE_CAUTION).
//!
//! * Earth-leakage current, whatever is lost: see [`MainsSupply::earth_leakage`].
//! * Reactive power of the capacitors between lines and to earth, and dielectric heat.
//! * Volt drop at the load current's effective value: the bound for every power factor, and that of a stated one; coils with
//!   their mean inductance over the period. Rise without load. Heat in series resistances.
//! * What the capacitors keep after switching off: see [`LineFilter::stored_charge`].

use std::fmt;

use num_complex::Complex64;

use super::mains_sums::MainsSums;
use super::volt_drop::{drop_v, ways_ohm};
use crate::circuit::bounds;
use crate::error::{Error, Result, check};
use crate::filter::{CAUTION, EarthLeakage, LineFilter, MainsSupply, StoredCharge, SupplySystem};

/// What a filter of several lines does at mains frequency.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct MainsDuty {
    /// Current into the protective earth, with all lines connected and with lines lost.
    pub earth_leakage: EarthLeakage,
    /// Reactive power of the capacitors between lines and to earth at nominal voltage, var.
    pub reactive_power_var: f64,
    /// Nominal voltage of a line against neutral or earth, V.
    pub voltage_v: f64,
    /// Load current, effective value, A.
    pub load_current_rms_a: f64,
    /// What the load current goes through, ohm: a line and the neutral for each line, the lines alone where there is no
    /// neutral (three phases without one are loaded alike).
    pub way_ohm: Vec<Complex64>,
    /// Bound of the voltage lost under load for every power factor, `|Z| I` of the worst way, V.
    pub volt_drop_v: f64,
    /// The same over the nominal voltage.
    pub volt_drop_fraction: f64,
    /// Rise of the voltage without load as a fraction, `w^2 L C` of the loop to first order.
    pub no_load_rise_fraction: f64,
    /// Heat of the load current in all lines, W; with a neutral and three phases, these loaded alike.
    pub copper_heat_w: f64,
    /// Heat in the dielectrics at nominal voltage, W.
    pub dielectric_heat_w: f64,
    /// What the capacitors keep after switching off.
    pub stored_charge: StoredCharge,
}

impl MainsDuty {
    /// Time until what the capacitors keep is at the safe voltage, at the worst of every way to switch off, s; infinite if
    /// never.
    #[must_use]
    pub fn bleed_down_s(&self) -> f64 {
        self.stored_charge.time_s()
    }

    /// Voltage lost in the worst way at a power factor of the load from 0 to 1, V; negative where a leading load lifts it.
    ///
    /// # Errors
    /// For a power factor outside 0 to 1, or a load current that the supply cannot drive through the filter.
    pub fn volt_drop_at_v(&self, power_factor: f64, leading: bool) -> Result<f64> {
        self.way_ohm.iter().try_fold(f64::NEG_INFINITY, |worst, &way| {
            Ok(drop_v(self.voltage_v, self.load_current_rms_a, way, power_factor, leading)?.max(worst))
        })
    }
}

impl fmt::Display for MainsDuty {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let leakage = &self.earth_leakage;
        writeln!(f, "earth leakage        {:10.3} mA", 1e3 * leakage.normal_a)?;
        let mut told = Vec::new();
        for case in &leakage.cases {
            // The worst of each number of lines lost.
            let class = (case.lost.len(), case.neutral_lost);
            if !told.contains(&class) && case.current_a > 1e-9 * leakage.worst_a() {
                told.push(class);
                writeln!(f, "                     {:10.3} mA {case}", 1e3 * case.current_a)?;
            }
        }
        writeln!(f, "reactive power       {:10.3} var", self.reactive_power_var)?;
        writeln!(
            f,
            "volt drop, bound     {:10.3} V ({:.3} %) at {} A effective",
            self.volt_drop_v,
            100.0 * self.volt_drop_fraction,
            self.load_current_rms_a
        )?;
        writeln!(f, "rise without load    {:10.4} %", 100.0 * self.no_load_rise_fraction)?;
        writeln!(f, "heat, conductors     {:10.3} W", self.copper_heat_w)?;
        writeln!(f, "heat, dielectrics    {:10.3} W", self.dielectric_heat_w)?;
        if self.bleed_down_s() == f64::INFINITY {
            writeln!(f, "bleed-down                never")?;
        } else {
            writeln!(f, "bleed-down           {:10.3} s", self.bleed_down_s())?;
        }
        writeln!(f, "{}", self.stored_charge)?;
        write!(f, "{CAUTION}")
    }
}

impl LineFilter {
    /// What the filter does on a mains supply: with its load current, capacitors off by a fraction either
    /// way, bled down to `safe_voltage_v`. Voltages are the supply's highest, see
    /// [`with_voltage_tolerance`](MainsSupply::with_voltage_tolerance), powers and volt drop at its nominal one.
    ///
    /// # Errors
    /// If supply and filter have different numbers of lines, for a tolerance outside 0 to 1, a voltage that is
    /// not positive, a coil or a bead across the mains, a resonance with it, or a measured two-port whose data do not reach
    /// down to the mains frequency: what it puts into the earth is then unknown.
    pub fn mains_duty(
        &self,
        supply: &MainsSupply,
        capacitance_tolerance: f64,
        safe_voltage_v: f64,
    ) -> Result<MainsDuty> {
        check::same_length("lines", self.lines(), "lines of the supply", supply.system().lines())?;
        bounds::positive("safe_voltage_v", "V", safe_voltage_v)?;
        let sums = MainsSums::of(self, supply.frequency_hz())?;
        let nominal: Vec<Complex64> =
            supply.voltages().iter().map(|v| v / (1.0 + supply.voltage_tolerance())).collect();
        let (reactive_power_var, dielectric_heat_w) = sums.powers(&nominal);
        let current = self.load_current_rms_a();
        let way_ohm = ways_ohm(supply.system(), &sums.line_ohm);
        let volt_drop_v = way_ohm.iter().map(|way| current * way.norm()).fold(0.0, f64::max);
        let loaded = match supply.system() {
            SupplySystem::ThreePhaseNeutral => 3,
            _ => self.lines(),
        };
        let copper_heat_w = sums.line_ohm[..loaded].iter().map(|line| current * current * line.re).sum();
        let no_load_rise_fraction = self.no_load_rise(supply).ok_or_else(|| Error::OutOfRange {
            quantity: "frequency_hz".into(),
            value: supply.frequency_hz(),
            unit: "Hz".into(),
            accepted: "off a resonance of the filter without load".into(),
        })?;
        Ok(MainsDuty {
            earth_leakage: supply.leakage(&sums.paths, capacitance_tolerance)?,
            reactive_power_var,
            voltage_v: supply.voltage_v(),
            load_current_rms_a: current,
            way_ohm,
            volt_drop_v,
            volt_drop_fraction: volt_drop_v / supply.voltage_v(),
            no_load_rise_fraction,
            copper_heat_w,
            dielectric_heat_w,
            stored_charge: self.stored_charge(supply, capacitance_tolerance, safe_voltage_v)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use super::*;
    use crate::circuit::Terminations;
    use crate::filter::{
        Bank, Capacitor, ChargedNode, CommonModeChoke, Element, FeedthroughCapacitor, Inductor, Ladder, LossyLine,
        MainsLimits, MeasuredTwoPort, Resistor, Saturation, SwitchingOff,
    };

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
        .with_load_current_rms_a(16.0)
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
        // Between the lines as ever; what both hold against the case is held for ever.
        let bleed = 1.2 * (470e-9 + 2.35e-9) * 1e6 * (253.0 * 2f64.sqrt() / 34.0).ln();
        let between = duty
            .stored_charge
            .cases
            .iter()
            .find(|case| case.switching_off == SwitchingOff::AtOnce && case.to != ChargedNode::Case);
        assert!((between.unwrap().time_s / bleed - 1.0).abs() < 1e-9, "{duty}");
        assert_eq!(duty.bleed_down_s(), f64::INFINITY);
        let limits = MainsLimits { earth_leakage_a: Some(0.4e-3), left_energy_j: Some(2.0), ..Default::default() };
        let exceeded = duty.exceeded(&limits).unwrap();
        assert_eq!(exceeded.len(), 1);
        assert_eq!(exceeded[0].quantity, "earth_leakage_a");
        assert!(!duty.keeps_within(&limits).unwrap() && duty.keeps_within(&MainsLimits::default()).unwrap());
        for nonsense in [f64::NAN, -1.0, f64::INFINITY] {
            let limits = MainsLimits { volt_drop_fraction: Some(nonsense), ..Default::default() };
            assert!(duty.exceeded(&limits).unwrap_err().to_string().contains("volt_drop_fraction"));
            assert!(duty.keeps_within(&limits).is_err());
        }
        let text = duty.to_string();
        assert!(
            text.contains("licensed electrician") && text.contains("never") && text.contains("prove by measurement"),
            "{text}"
        );
    }

    #[test]
    fn without_a_discharge_resistor_nothing_bleeds() {
        let cap = |f: f64| Capacitor::new(f).unwrap().into();
        let filter = LineFilter::new(2, vec![Bank::Between { from: 0, to: 1, part: cap(470e-9) }]).unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        assert_eq!(duty.bleed_down_s(), f64::INFINITY);
        assert!((duty.stored_charge.left_v() - 230.0 * 2f64.sqrt()).abs() < 1e-9);
        let coil = LineFilter::new(2, vec![Bank::ToCase(vec![Inductor::new(1e-3).unwrap().into(); 2])]).unwrap();
        let error = coil.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap_err().to_string();
        assert!(error.contains("across the mains") && error.contains("Inductor"), "{error}");
        assert!(filter.mains_duty(&supply(SupplySystem::ThreePhase), 0.0, 34.0).is_err());
        assert!(filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 0.0).is_err());
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

    #[test]
    fn volt_drop_of_the_worst_way() {
        let coil = |henry: f64| Inductor::new(henry).unwrap().into();
        let drop = |lines: usize, system: SupplySystem, bank: Bank| {
            let filter = LineFilter::new(lines, vec![bank]).unwrap().with_load_current_rms_a(16.0).unwrap();
            filter.mains_duty(&supply(system), 0.0, 34.0).unwrap().volt_drop_v
        };
        // w L I of 1 mH, 16 A, 50 Hz: 5.03 V.
        let whole = TAU * 50.0 * 1e-3 * 16.0;
        let choke = Bank::Choke(CommonModeChoke::new(1e-3, 0.99).unwrap());
        assert!((drop(1, SupplySystem::SingleLine, choke.clone()) / whole - 1.0).abs() < 1e-12);
        assert!((drop(2, SupplySystem::LineNeutral, choke) / (2.0 * 0.01 * whole) - 1.0).abs() < 1e-9);
        let unequal = Bank::Series(vec![coil(0.1e-3), coil(0.1e-3), coil(1e-3)]);
        assert!((drop(3, SupplySystem::ThreePhase, unequal) / whole - 1.0).abs() < 1e-12);
        let with_neutral = Bank::Series(vec![coil(0.1e-3), coil(0.5e-3), coil(0.1e-3), coil(0.5e-3)]);
        assert!((drop(4, SupplySystem::ThreePhaseNeutral, with_neutral) / whole - 1.0).abs() < 1e-12);
    }

    #[test]
    fn volt_drop_at_a_power_factor_by_solving_for_the_load() {
        let coil = |henry: f64, ohm: f64| Inductor::new(henry).unwrap().with_resistance_ohm(ohm).unwrap().into();
        let filter = LineFilter::new(2, vec![Bank::Series(vec![coil(2e-3, 0.2), coil(1e-3, 0.3)])])
            .unwrap()
            .with_load_current_rms_a(16.0)
            .unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        let way = Complex64::new(0.5, TAU * 50.0 * 3e-3);
        for (power_factor, leading) in
            [(1.0_f64, false), (0.8, false), (0.47, false), (0.8, true), (0.0, false), (0.0, true)]
        {
            let angle = power_factor.acos() * if leading { 1.0 } else { -1.0 };
            // The load's voltage is the reference; bisect for the one that the supply's magnitude fits.
            let (mut low, mut high) = (0.0, 400.0);
            for _ in 0..100 {
                let middle = 0.5 * (low + high);
                let needed = (middle + Complex64::from_polar(16.0, angle) * way).norm();
                if needed > 230.0 { high = middle } else { low = middle }
            }
            let found = duty.volt_drop_at_v(power_factor, leading).unwrap();
            assert!((found - (230.0 - low)).abs() < 1e-10, "{power_factor} {leading}: {found} {}", 230.0 - low);
            assert!(found <= duty.volt_drop_v * (1.0 + 1e-12));
        }
        assert!(duty.volt_drop_at_v(0.0, true).unwrap() < 0.0);
        assert!(duty.volt_drop_at_v(1.1, false).is_err() && duty.volt_drop_at_v(f64::NAN, false).is_err());
        let heavy = filter.with_load_current_rms_a(400.0).unwrap();
        let duty = heavy.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        assert!(duty.volt_drop_at_v(0.47, false).unwrap_err().to_string().contains("load_current_rms_a"));
    }

    #[test]
    fn rise_without_load_is_that_of_the_loop() {
        let coil = |henry: f64| Inductor::new(henry).unwrap().into();
        let filter = LineFilter::new(
            2,
            vec![
                Bank::Between { from: 0, to: 1, part: Capacitor::new(33e-6).unwrap().into() },
                Bank::Series(vec![coil(0.6e-3), coil(0.4e-3)]),
                Bank::Between { from: 0, to: 1, part: Capacitor::new(10e-6).unwrap().into() },
            ],
        )
        .unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        let square = (TAU * 50.0).powi(2) * 1e-3 * 10e-6;
        assert!((duty.no_load_rise_fraction - square / (1.0 - square)).abs() < 1e-12);
        // A capacitor to the case draws its current through its own line alone.
        let coils = Bank::Series(vec![coil(0.6e-3), coil(0.4e-3)]);
        let caps = Bank::ToCase(vec![Capacitor::new(10e-6).unwrap().into(); 2]);
        let filter = LineFilter::new(2, vec![coils, caps]).unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::LineNeutral), 0.0, 34.0).unwrap();
        assert!((duty.no_load_rise_fraction / (0.6 * square) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn coils_drop_with_their_mean_and_heat_with_the_effective_value() {
        let law = Saturation::new(16.0, 2.0).unwrap();
        let coil = Inductor::new(1e-3).unwrap().with_resistance_ohm(0.01).unwrap().with_saturation(law);
        let filter =
            LineFilter::new(1, vec![Bank::Series(vec![coil.into()])]).unwrap().with_load_current_rms_a(16.0).unwrap();
        let duty = filter.mains_duty(&supply(SupplySystem::SingleLine), 0.0, 34.0).unwrap();
        let reactance = TAU * 50.0 * 1e-3 * (3f64.sqrt() - 1.0);
        assert!((duty.way_ohm[0].im / reactance - 1.0).abs() < 1e-12);
        assert!((duty.copper_heat_w / 2.56 - 1.0).abs() < 1e-12);
    }
}
