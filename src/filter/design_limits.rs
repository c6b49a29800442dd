//! What a filter to be found may not exceed, and what its parts are like.

use crate::circuit::bounds::{self, SINE_CREST};
use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::filter::{Capacitor, Inductor, MainsSupply, PreferredSeries, Saturation};
use crate::parameter::{Domain, Knobs, Rebuild};

/// What a filter may not exceed, and what its parts are like.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "LimitsRecord", into = "LimitsRecord"))]
pub struct DesignLimits {
    /// All capacitance to the case together, F.
    pub shunt_total_f: Option<f64>,
    /// All inductance in one line together, H.
    pub series_total_h: Option<f64>,
    /// Stored energy L I^2/2 of a single coil at the load current's *peak*, J: what its core must hold.
    pub coil_energy_j: Option<f64>,
    /// Heat I^2 R of the load current's *effective value* in a single coil's winding, W: what its wire can give off.
    pub coil_heat_w: Option<f64>,
    /// Least part of its inductance that each coil must keep at the load current's peak, 0 to below 1.
    pub least_remaining: f64,
    /// Load current, effective value, A.
    pub load_current_rms_a: f64,
    /// Peak of the load current over its effective value: the square root of two for a sine, 1 for direct current, 2 to 3
    /// for rectifiers.
    pub crest_factor: f64,
    /// Number of parts.
    pub most_parts: usize,
    /// Values that coils come in.
    pub coil_series: PreferredSeries,
    /// Values that capacitors come in.
    pub capacitor_series: PreferredSeries,
    /// Winding resistance for each henry, ohm/H.
    pub coil_resistance_ohm_per_h: f64,
    /// Stored energy L I^2/2 (I a peak or direct current) at which a coil has lost half of its inductance, J: that of the
    /// core it is wound on, so that a larger inductance on the same core saturates at less current,
    /// `I_half = sqrt(2 W/L)`. Candidates are judged with what is left at the load current's peak. Coils keep all of it
    /// where none is stated.
    pub coil_half_energy_j: Option<f64>,
    /// Exponent of the law of saturation, see [`Saturation`].
    pub coil_saturation_exponent: f64,
    /// Winding capacitance of each coil, F.
    pub coil_capacitance_f: f64,
    /// Equivalent series resistance of each capacitor, ohm.
    pub capacitor_resistance_ohm: f64,
    /// Equivalent series inductance of each capacitor, H.
    pub capacitor_inductance_h: f64,
}

impl Default for DesignLimits {
    /// Seven ideal parts at most, coils and capacitors of E6, nothing else limited.
    fn default() -> Self {
        Self {
            shunt_total_f: None,
            series_total_h: None,
            coil_energy_j: None,
            coil_heat_w: None,
            least_remaining: 0.0,
            load_current_rms_a: 0.0,
            crest_factor: SINE_CREST,
            most_parts: 7,
            coil_series: PreferredSeries::E6,
            capacitor_series: PreferredSeries::E6,
            coil_resistance_ohm_per_h: 0.0,
            coil_half_energy_j: None,
            coil_saturation_exponent: 2.0,
            coil_capacitance_f: 0.0,
            capacitor_resistance_ohm: 0.0,
            capacitor_inductance_h: 0.0,
        }
    }
}

impl DesignLimits {
    /// Limits of a mains filter: capacitance from the earth-leakage current of one line (A) at the supply's highest
    /// voltage; inductance of *one line* from the volt drop as a fraction of the nominal voltage at the effective value of
    /// a load current (A). Where the current comes back through the neutral, whose line holds the same coils, a line gets
    /// half of the drop; with three phases without neutral, and for a line against earth, all of it.
    ///
    /// The leakage is that with all lines connected; with lines lost it is up to four times as much, see
    /// [`MainsSupply::earth_leakage`]. The drop is `w L I`, which bounds that of every power factor as far as resistance is small.
    ///
    /// # Errors
    /// Unless all are positive and finite.
    pub fn for_mains(
        supply: &MainsSupply,
        load_current_rms_a: f64,
        earth_leakage_a: f64,
        volt_drop_fraction: f64,
    ) -> Result<Self> {
        bounds::positive("load_current_rms_a", "A", load_current_rms_a)?;
        bounds::positive("earth_leakage_a", "A", earth_leakage_a)?;
        bounds::positive("volt_drop_fraction", "", volt_drop_fraction)?;
        let omega = std::f64::consts::TAU * supply.frequency_hz();
        let highest_v = supply.voltage_v() * (1.0 + supply.voltage_tolerance());
        Ok(Self {
            shunt_total_f: Some(earth_leakage_a / (omega * highest_v)),
            series_total_h: Some(
                volt_drop_fraction * supply.voltage_v() / (omega * load_current_rms_a * supply.system().ways()),
            ),
            load_current_rms_a,
            ..Self::default()
        })
    }

    /// Checks that every limit makes sense.
    ///
    /// # Errors
    /// [`Error::OutOfRange`](crate::Error::OutOfRange) for the first that does not, by name.
    pub fn check(&self) -> Result<()> {
        for (name, unit, value) in [
            ("shunt_total_f", "F", self.shunt_total_f),
            ("series_total_h", "H", self.series_total_h),
            ("coil_energy_j", "J", self.coil_energy_j),
            ("coil_heat_w", "W", self.coil_heat_w),
            ("coil_half_energy_j", "J", self.coil_half_energy_j),
        ] {
            if let Some(value) = value {
                bounds::positive(name, unit, value)?;
            }
        }
        bounds::non_negative("load_current_rms_a", "A", self.load_current_rms_a)?;
        bounds::crest_factor(self.crest_factor)?;
        check::within("most_parts", "", self.most_parts as f64, (1.0, 15.0), "a whole number from 1 to 15")?;
        bounds::non_negative("coil_resistance_ohm_per_h", "ohm/H", self.coil_resistance_ohm_per_h)?;
        check::fraction("least_remaining", self.least_remaining)?;
        check::less_than("least_remaining", "", self.least_remaining, "one", 1.0)?;
        bounds::positive("coil_saturation_exponent", "", self.coil_saturation_exponent)?;
        bounds::non_negative("coil_capacitance_f", "F", self.coil_capacitance_f)?;
        bounds::non_negative("capacitor_resistance_ohm", "ohm", self.capacitor_resistance_ohm)?;
        bounds::non_negative("capacitor_inductance_h", "H", self.capacitor_inductance_h)?;
        Ok(())
    }

    /// A coil of an inductance in H, with the stated parasitics.
    pub(super) fn coil(&self, inductance_h: f64) -> Result<Inductor> {
        let coil = Inductor::new(inductance_h)?
            .with_resistance_ohm(self.coil_resistance_ohm_per_h * inductance_h)?
            .with_parallel_capacitance_f(self.coil_capacitance_f)?;
        Ok(match self.coil_half_energy_j {
            None => coil,
            Some(energy_j) => {
                let half_current_a = (2.0 * energy_j / inductance_h).sqrt();
                coil.with_saturation(Saturation::new(half_current_a, self.coil_saturation_exponent)?)
            }
        })
    }

    /// A capacitor of a capacitance in F, with the stated parasitics.
    pub(super) fn capacitor(&self, capacitance_f: f64) -> Result<Capacitor> {
        Capacitor::new(capacitance_f)?
            .with_series_resistance_ohm(self.capacitor_resistance_ohm)?
            .with_series_inductance_h(self.capacitor_inductance_h)
    }

    /// Whether coils (H) and capacitors (F) of these values keep to the limits.
    pub(super) fn allow(&self, coils_h: impl Iterator<Item = f64>, capacitors_f: impl Iterator<Item = f64>) -> bool {
        // One part in 10^12 for sums of decimal values.
        let within = |value: f64, most: Option<f64>| most.is_none_or(|most| value <= most * (1.0 + 1e-12));
        let square = self.load_current_rms_a * self.load_current_rms_a;
        let peak_square = self.crest_factor * self.crest_factor * square;
        let mut series_h = 0.0;
        for henry in coils_h {
            series_h += henry;
            let energy_j = 0.5 * henry * peak_square;
            let remaining = self.coil_half_energy_j.map_or(1.0, |half_j| {
                // (I/I_half)^p by way of the energies.
                (1.0 + (energy_j / half_j).powf(0.5 * self.coil_saturation_exponent)).recip()
            });
            if !within(energy_j, self.coil_energy_j)
                || !within(square * self.coil_resistance_ohm_per_h * henry, self.coil_heat_w)
                || remaining < self.least_remaining
            {
                return false;
            }
        }
        within(series_h, self.series_total_h) && within(capacitors_f.sum(), self.shunt_total_f)
    }
}

impl Rebuild for DesignLimits {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        const DOMAIN: Domain = Domain::NON_NEGATIVE;
        let mut stated = |name: &str, unit: &'static str, value: Option<f64>| {
            value.map(|value| knobs.value(name, unit, value, Domain::POSITIVE))
        };
        let limits = Self {
            shunt_total_f: stated("shunt_total_f", "F", self.shunt_total_f),
            series_total_h: stated("series_total_h", "H", self.series_total_h),
            coil_energy_j: stated("coil_energy_j", "J", self.coil_energy_j),
            coil_heat_w: stated("coil_heat_w", "W", self.coil_heat_w),
            coil_half_energy_j: stated("coil_half_energy_j", "J", self.coil_half_energy_j),
            least_remaining: knobs.value("least_remaining", "", self.least_remaining, Domain::from_to_below(0.0, 1.0)),
            load_current_rms_a: knobs.value("load_current_rms_a", "A", self.load_current_rms_a, DOMAIN),
            crest_factor: knobs.value("crest_factor", "", self.crest_factor, Domain::AT_LEAST_ONE),
            most_parts: knobs.count("most_parts", self.most_parts, 1)?,
            coil_series: self.coil_series,
            capacitor_series: self.capacitor_series,
            coil_resistance_ohm_per_h: knobs.value(
                "coil_resistance_ohm_per_h",
                "ohm/H",
                self.coil_resistance_ohm_per_h,
                DOMAIN,
            ),
            coil_saturation_exponent: knobs.value(
                "coil_saturation_exponent",
                "",
                self.coil_saturation_exponent,
                Domain::POSITIVE,
            ),
            coil_capacitance_f: knobs.value("coil_capacitance_f", "F", self.coil_capacitance_f, DOMAIN),
            capacitor_resistance_ohm: knobs.value(
                "capacitor_resistance_ohm",
                "ohm",
                self.capacitor_resistance_ohm,
                DOMAIN,
            ),
            capacitor_inductance_h: knobs.value("capacitor_inductance_h", "H", self.capacitor_inductance_h, DOMAIN),
        };
        limits.check()?;
        Ok(limits)
    }
}

#[cfg(feature = "serde")]
const fn e6() -> PreferredSeries {
    PreferredSeries::E6
}

#[cfg(feature = "serde")]
const fn seven() -> usize {
    7
}

#[cfg(feature = "serde")]
const fn two() -> f64 {
    2.0
}

checked_record!(DesignLimits as LimitsRecord {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    shunt_total_f: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    series_total_h: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    coil_energy_j: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    coil_heat_w: Option<f64>,
    #[serde(default)]
    least_remaining: f64,
    #[serde(default)]
    load_current_rms_a: f64,
    #[serde(default = "bounds::sine_crest")]
    crest_factor: f64,
    #[serde(default = "seven")]
    most_parts: usize,
    #[serde(default = "e6")]
    coil_series: PreferredSeries,
    #[serde(default = "e6")]
    capacitor_series: PreferredSeries,
    #[serde(default)]
    coil_resistance_ohm_per_h: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    coil_half_energy_j: Option<f64>,
    #[serde(default = "two")]
    coil_saturation_exponent: f64,
    #[serde(default)]
    coil_capacitance_f: f64,
    #[serde(default)]
    capacitor_resistance_ohm: f64,
    #[serde(default)]
    capacitor_inductance_h: f64,
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::SupplySystem;

    #[test]
    fn mains_limits_by_hand() {
        let supply = MainsSupply::new(SupplySystem::LineNeutral, 230.0, 50.0).unwrap();
        let limits = DesignLimits::for_mains(&supply, 16.0, 3.5e-3, 0.02).unwrap();
        let omega = 100.0 * std::f64::consts::PI;
        assert!((limits.shunt_total_f.unwrap() / (3.5e-3 / (omega * 230.0)) - 1.0).abs() < 1e-12);
        // 4.6 V, half in each line; a phase of three has it to itself.
        assert!((limits.series_total_h.unwrap() / (2.3 / (omega * 16.0)) - 1.0).abs() < 1e-12);
        let three = MainsSupply::new(SupplySystem::ThreePhase, 230.0, 50.0).unwrap();
        let limits = DesignLimits::for_mains(&three, 16.0, 3.5e-3, 0.02).unwrap();
        assert!((limits.series_total_h.unwrap() / (4.6 / (omega * 16.0)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_core_holds_so_much_and_no_more() {
        // 10 mJ at half inductance: 1 mH saturates to a half at a peak of sqrt(20) = 4.47 A.
        let limits =
            DesignLimits { coil_half_energy_j: Some(10e-3), load_current_rms_a: 10f64.sqrt(), ..Default::default() };
        let coil = limits.coil(1e-3).unwrap();
        assert!((coil.loaded_inductance_h(20f64.sqrt()) / 0.5e-3 - 1.0).abs() < 1e-12);
        // A rectifier of the same effective value has twice the peak of a direct current.
        let held = |crest_factor: f64, energy_j: f64| {
            DesignLimits { coil_energy_j: Some(energy_j), crest_factor, ..limits.clone() }
                .allow([1e-3].into_iter(), std::iter::empty())
        };
        assert!(held(1.0, 5e-3) && !held(1.0, 4.9e-3));
        assert!(held(2.0, 20e-3) && !held(2.0, 19.9e-3));
        assert!(DesignLimits { crest_factor: 0.9, ..limits.clone() }.check().is_err());
        let allowed = |limits: &DesignLimits, henry: f64| limits.allow([henry].into_iter(), std::iter::empty());
        let strict = DesignLimits { least_remaining: 0.6, ..limits.clone() };
        assert!(allowed(&limits, 1e-3) && !allowed(&strict, 1e-3) && allowed(&strict, 0.5e-3));
        let warm = DesignLimits { coil_resistance_ohm_per_h: 25.0, coil_heat_w: Some(0.25), ..limits.clone() };
        assert!(allowed(&warm, 1e-3) && !allowed(&warm, 1.1e-3));
        assert!(DesignLimits { least_remaining: 1.0, ..limits.clone() }.check().is_err());
        assert!(DesignLimits { coil_half_energy_j: Some(0.0), ..limits }.check().is_err());
    }
}
