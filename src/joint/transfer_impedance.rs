//! Transfer impedance of what bridges a gap: gaskets, finger rows, measured tables.
//!
//! A current of J amperes per metre of joint crosses the gap from one face to the other and leaves a
//! voltage V along it: Z_T = V/J, in ohm metres. A gasket is R + jωL of that kind; a row of fingers has
//! one that follows from its dimensions ([`FingerRow`]).

use std::f64::consts::PI;

use num_complex::Complex64;

use super::fingers::FingerRow;
use super::impedance_table::ImpedanceTable;
use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// What bridges a gap along a joint, by its transfer impedance times length.
///
/// ```
/// use stillroom::joint::TransferImpedance;
/// let gasket = TransferImpedance::gasket(20e-6, 2e-12)?;
/// let worn = TransferImpedance::gasket(2e-3, 2e-12)?;
/// // Side by side, the better one carries the current.
/// let both = TransferImpedance::beside(vec![gasket.clone(), worn])?;
/// let ratio = both.at(10e3, 1e-3).norm() / gasket.at(10e3, 1e-3).norm();
/// assert!(ratio > 0.98 && ratio < 1.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "TransferImpedanceRecord")
)]
#[non_exhaustive]
pub enum TransferImpedance {
    /// R + jωL.
    Gasket {
        /// Resistance times length, ohm m.
        resistance_ohm_m: f64,
        /// Inductance times length, H m.
        inductance_h_m: f64,
    },
    /// A measured table.
    Measured(ImpedanceTable),
    /// A row of contact fingers.
    Fingers(FingerRow),
    /// Several side by side, at the same depth of the gap: their admittances add.
    Beside(Vec<TransferImpedance>),
}

impl TransferImpedance {
    /// A gasket by its resistance (ohm m) and inductance (H m), each times length.
    ///
    /// # Errors
    /// Unless both are zero or positive and finite, the inductance at most 1 H m, and one of them not zero.
    pub fn gasket(resistance_ohm_m: f64, inductance_h_m: f64) -> Result<Self> {
        let accepted = "zero or positive, at most 1 H m";
        let resistance_ohm_m = check::non_negative("resistance_ohm_m", "ohm m", resistance_ohm_m)?;
        let inductance_h_m = check::within("inductance_h_m", "H m", inductance_h_m, (0.0, 1.0), accepted)?;
        if inductance_h_m == 0.0 {
            // Without any impedance the joint is closed and nothing is left to compute.
            check::positive("resistance_ohm_m", "ohm m", resistance_ohm_m)?;
        }
        Ok(Self::Gasket { resistance_ohm_m, inductance_h_m })
    }

    /// Several side by side.
    ///
    /// # Errors
    /// For none.
    pub fn beside(parts: Vec<Self>) -> Result<Self> {
        check::not_empty("parts", &parts)?;
        Ok(Self::Beside(parts))
    }

    /// The same across a gap (m), if its values are ones that its constructors would take (those of the variants are
    /// open) and its fingers reach across.
    ///
    /// # Errors
    /// Those of the constructors; for fingers whose free height is not above the gap.
    pub(crate) fn across(self, gap_m: f64) -> Result<Self> {
        match self {
            Self::Gasket { resistance_ohm_m, inductance_h_m } => Self::gasket(resistance_ohm_m, inductance_h_m),
            Self::Beside(parts) => {
                Self::beside(parts.into_iter().map(|part| part.across(gap_m)).collect::<Result<_>>()?)
            }
            Self::Fingers(row) => Ok(Self::Fingers(row.across(gap_m)?)),
            measured @ Self::Measured(_) => Ok(measured),
        }
    }

    /// Z_T in ohm m, across a gap of this width (m), on which fingers depend: below their free height.
    #[must_use]
    pub fn at(&self, frequency_hz: f64, gap_m: f64) -> Complex64 {
        match self {
            Self::Gasket { resistance_ohm_m, inductance_h_m } => {
                Complex64::new(*resistance_ohm_m, 2.0 * PI * frequency_hz * inductance_h_m)
            }
            Self::Measured(table) => table.at(frequency_hz),
            Self::Fingers(row) => row.at(frequency_hz, gap_m),
            Self::Beside(parts) => 1.0 / parts.iter().map(|part| 1.0 / part.at(frequency_hz, gap_m)).sum::<Complex64>(),
        }
    }

    /// Where it holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::Gasket { .. } => Validity::Holds,
            Self::Measured(table) => table.validity(frequency_hz),
            Self::Fingers(row) => row.validity(frequency_hz),
            Self::Beside(parts) => {
                parts.iter().fold(Validity::Holds, |validity, part| validity.and(part.validity(frequency_hz)))
            }
        }
    }

    /// How many separate contacts there are on a length; one to a gasket's own gap width.
    pub(super) fn contacts(&self, length_m: f64, gap_m: f64) -> f64 {
        match self {
            Self::Gasket { .. } | Self::Measured(_) => length_m / gap_m,
            Self::Fingers(row) => length_m / row.pitch_m(),
            Self::Beside(parts) => parts.iter().map(|part| part.contacts(length_m, gap_m)).fold(0.0, f64::max),
        }
    }
}

impl Rebuild for TransferImpedance {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        match self {
            Self::Gasket { resistance_ohm_m, inductance_h_m } => Self::gasket(
                knobs.value("resistance_ohm_m", "ohm m", *resistance_ohm_m, Domain::NON_NEGATIVE),
                knobs.value("inductance_h_m", "H m", *inductance_h_m, Domain::NON_NEGATIVE),
            ),
            Self::Measured(table) => Ok(Self::Measured(table.rebuild(knobs)?)),
            Self::Fingers(row) => Ok(Self::Fingers(row.rebuild(knobs)?)),
            Self::Beside(parts) => {
                let rebuilt: Result<Vec<Self>> = (1..)
                    .zip(parts)
                    .map(|(number, part)| knobs.enter(&format!("beside_{number}"), |knobs| part.rebuild(knobs)))
                    .collect();
                Self::beside(rebuilt?)
            }
        }
    }
}

impl From<ImpedanceTable> for TransferImpedance {
    fn from(table: ImpedanceTable) -> Self {
        Self::Measured(table)
    }
}

impl From<FingerRow> for TransferImpedance {
    fn from(row: FingerRow) -> Self {
        Self::Fingers(row)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
enum TransferImpedanceRecord {
    Gasket { resistance_ohm_m: f64, inductance_h_m: f64 },
    Measured(ImpedanceTable),
    Fingers(FingerRow),
    Beside(Vec<TransferImpedance>),
}

#[cfg(feature = "serde")]
impl TryFrom<TransferImpedanceRecord> for TransferImpedance {
    type Error = crate::Error;
    fn try_from(record: TransferImpedanceRecord) -> Result<Self> {
        match record {
            TransferImpedanceRecord::Gasket { resistance_ohm_m, inductance_h_m } => {
                Self::gasket(resistance_ohm_m, inductance_h_m)
            }
            TransferImpedanceRecord::Measured(table) => Ok(Self::Measured(table)),
            TransferImpedanceRecord::Fingers(row) => Ok(Self::Fingers(row)),
            TransferImpedanceRecord::Beside(parts) => Self::beside(parts),
        }
    }
}
