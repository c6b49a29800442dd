//! What the caller's code allows on the mains, and what of it is exceeded.

use crate::error::{Result, check};
use crate::filter::MainsDuty;

/// What the caller's code allows; `None` where it says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default, deny_unknown_fields))]
pub struct MainsLimits {
    /// Earth-leakage current with all lines connected, A.
    pub earth_leakage_a: Option<f64>,
    /// Earth-leakage current with one line or the neutral lost, A.
    pub one_line_lost_a: Option<f64>,
    /// Earth-leakage current at its worst, whatever is lost, A.
    pub worst_leakage_a: Option<f64>,
    /// Volt drop as a fraction, whatever the power factor.
    pub volt_drop_fraction: Option<f64>,
    /// Rise of the voltage without load as a fraction.
    pub no_load_rise_fraction: Option<f64>,
    /// Time to bleed down, s.
    pub bleed_down_s: Option<f64>,
    /// Voltage left for ever, V.
    pub left_voltage_v: Option<f64>,
    /// Energy left for ever, J.
    pub left_energy_j: Option<f64>,
}

/// One limit that is exceeded.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ExceededLimit {
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
const LIMITED: [(&str, &str); 8] = [
    ("earth_leakage_a", "A"),
    ("one_line_lost_a", "A"),
    ("worst_leakage_a", "A"),
    ("volt_drop_fraction", ""),
    ("no_load_rise_fraction", ""),
    ("bleed_down_s", "s"),
    ("left_voltage_v", "V"),
    ("left_energy_j", "J"),
];

impl MainsDuty {
    /// Limits of the caller that are exceeded: empty if all is well. See [`keeps_within`](Self::keeps_within) for a plain
    /// yes or no.
    ///
    /// # Errors
    /// For a limit that is negative, infinite or not a number: it would let anything pass.
    pub fn exceeded(&self, limits: &MainsLimits) -> Result<Vec<ExceededLimit>> {
        let compared = [
            (self.earth_leakage.normal_a, limits.earth_leakage_a),
            (self.earth_leakage.one_line_lost_a(), limits.one_line_lost_a),
            (self.earth_leakage.worst_a(), limits.worst_leakage_a),
            (self.volt_drop_fraction, limits.volt_drop_fraction),
            (self.no_load_rise_fraction, limits.no_load_rise_fraction),
            (self.bleed_down_s(), limits.bleed_down_s),
            (self.stored_charge.left_v(), limits.left_voltage_v),
            (self.stored_charge.left_j(), limits.left_energy_j),
        ];
        let mut exceeded = Vec::new();
        for ((quantity, unit), (value, limit)) in LIMITED.into_iter().zip(compared) {
            if let Some(limit) = limit {
                check::non_negative(quantity, unit, limit)?;
                // A value that is not a number keeps to no limit.
                if value > limit || value.is_nan() {
                    exceeded.push(ExceededLimit { quantity, unit, value, limit });
                }
            }
        }
        Ok(exceeded)
    }

    /// Whether all limits of the caller are kept. It says nothing of what no limit is stated for.
    ///
    /// # Errors
    /// As [`exceeded`](Self::exceeded).
    pub fn keeps_within(&self, limits: &MainsLimits) -> Result<bool> {
        Ok(self.exceeded(limits)?.is_empty())
    }
}

/// What is read before it is checked.
#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct ExceededRecord {
    quantity: String,
    unit: String,
    value: f64,
    limit: f64,
}

// By hand: the derived one would want text that lives as long as the names do.
#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for ExceededLimit {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> std::result::Result<Self, D::Error> {
        ExceededRecord::deserialize(deserializer)?.try_into().map_err(serde::de::Error::custom)
    }
}

#[cfg(feature = "serde")]
impl TryFrom<ExceededRecord> for ExceededLimit {
    type Error = crate::Error;
    fn try_from(ExceededRecord { quantity, unit, value, limit }: ExceededRecord) -> Result<Self> {
        match LIMITED.iter().find(|known| known.0 == quantity) {
            Some(known) if known.1 == unit => Ok(Self { quantity: known.0, unit: known.1, value, limit }),
            Some(known) => {
                Err(crate::Error::UnknownName { kind: "unit".into(), name: unit, known: vec![known.1.into()] }
                    .within(known.0))
            }
            None => {
                let known = LIMITED.iter().map(|known| known.0.into()).collect();
                Err(crate::Error::UnknownName { kind: "quantity".into(), name: quantity, known })
            }
        }
    }
}
