//! Transfer impedance of what bridges a gap: gaskets, finger rows, measured tables.
//!
//! A current of J amperes per metre of joint crosses the gap from one face to the other and leaves a
//! voltage V along it: Z_T = V/J, in ohm metres. A gasket is R + jωL of that kind; a row of fingers,
//! each R and L, every p across a gap g is
//!
//! Z_T = p (R + jωL) + jωμ₀ (g p/2π)(ln(p/πw) + 1/√(1 − (p/λ)²) − 1),
//!
//! the last term for the current that draws together into contacts of width w: the inductance of a
//! grid of posts, which opens where the pitch reaches the wavelength (N. Marcuvitz, *Waveguide
//! Handbook*, 1951, sec. 5.21, from memory, leading terms).

use std::f64::consts::PI;

use num_complex::Complex64;

use super::bay::LEAST_M;
use super::impedance_table::ImpedanceTable;
use crate::constants::{VACUUM_IMPEDANCE, wavelength_m, wavenumber_per_m};
use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;

/// One contact of a row.
///
/// The defaults are of the size of a clean spring finger of copper alloy on a plated counter-face
/// (common practice, no source). Wear, dirt and pressure change the resistance by orders of magnitude.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "FingerRecord"))]
pub struct Finger {
    resistance_ohm: f64,
    inductance_h: f64,
    contact_width_m: f64,
}

impl Finger {
    /// Resistance (ohm) and inductance (H) of one finger, and the width of its contact (m).
    ///
    /// # Errors
    /// Unless resistance and inductance are zero or positive (the inductance at most 1 H) and the width
    /// positive, all finite.
    pub fn new(resistance_ohm: f64, inductance_h: f64, contact_width_m: f64) -> Result<Self> {
        Ok(Self {
            resistance_ohm: check::non_negative("finger_resistance_ohm", "ohm", resistance_ohm)?,
            inductance_h: check::within(
                "finger_inductance_h",
                "H",
                inductance_h,
                (0.0, 1.0),
                "zero or positive, at most 1 H",
            )?,
            contact_width_m: check::positive("contact_width_m", "m", contact_width_m)?,
        })
    }

    /// Resistance of one finger, ohm.
    #[must_use]
    pub fn resistance_ohm(&self) -> f64 {
        self.resistance_ohm
    }

    /// Inductance of one finger, H.
    #[must_use]
    pub fn inductance_h(&self) -> f64 {
        self.inductance_h
    }

    /// Width of its contact along the joint, m.
    #[must_use]
    pub fn contact_width_m(&self) -> f64 {
        self.contact_width_m
    }
}

impl Default for Finger {
    fn default() -> Self {
        Self { resistance_ohm: 5e-3, inductance_h: 0.05e-9, contact_width_m: 2e-3 }
    }
}

/// A row of equal fingers at equal distances.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "FingerRowRecord"))]
pub struct FingerRow {
    pitch_m: f64,
    finger: Finger,
}

impl FingerRow {
    /// A finger every `pitch_m` metres.
    ///
    /// # Errors
    /// Unless the pitch is positive and finite and the contact narrower than it.
    pub fn new(pitch_m: f64, finger: Finger) -> Result<Self> {
        let pitch_m = check::positive("finger_pitch_m", "m", pitch_m)?;
        check::less_than("contact_width_m", "m", finger.contact_width_m, "finger_pitch_m", pitch_m)?;
        Ok(Self { pitch_m, finger })
    }

    /// Distance between fingers, m.
    #[must_use]
    pub fn pitch_m(&self) -> f64 {
        self.pitch_m
    }

    /// One finger.
    #[must_use]
    pub fn finger(&self) -> Finger {
        self.finger
    }

    fn at(&self, frequency_hz: f64, gap_m: f64) -> Complex64 {
        let (pitch_m, finger) = (self.pitch_m, &self.finger);
        let own = Complex64::new(finger.resistance_ohm, 2.0 * PI * frequency_hz * finger.inductance_h);
        // Held where the grid opens; validity says so.
        let electrical_pitch = (pitch_m / wavelength_m(frequency_hz)).min(WIDEST_PITCH);
        let opening = 1.0 / ((1.0 - electrical_pitch) * (1.0 + electrical_pitch)).sqrt() - 1.0;
        let constriction = (pitch_m / (PI * finger.contact_width_m.max(LEAST_M))).ln().max(0.0) + opening;
        let reactance = wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * gap_m / (2.0 * PI) * constriction;
        pitch_m * (own + Complex64::new(0.0, reactance))
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "row of contacts",
            "finger pitch / wavelength",
            "",
            self.pitch_m / wavelength_m(frequency_hz),
            (0.0, WIDEST_PITCH),
            "waves pass between the fingers",
        )
    }
}

/// Pitch over wavelength up to which a row is a grid.
const WIDEST_PITCH: f64 = 0.9;

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

    /// The same, if its values are ones that its constructors would take: those of the variants are open.
    pub(super) fn checked(self) -> Result<Self> {
        match self {
            Self::Gasket { resistance_ohm_m, inductance_h_m } => Self::gasket(resistance_ohm_m, inductance_h_m),
            Self::Beside(parts) => Self::beside(parts.into_iter().map(Self::checked).collect::<Result<_>>()?),
            measured_or_fingers => Ok(measured_or_fingers),
        }
    }

    /// Z_T in ohm m, in a gap of this width (m), on which the constriction into fingers depends.
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
            Self::Fingers(row) => length_m / row.pitch_m,
            Self::Beside(parts) => parts.iter().map(|part| part.contacts(length_m, gap_m)).fold(0.0, f64::max),
        }
    }
}

impl Rebuild for TransferImpedance {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        match self {
            Self::Gasket { resistance_ohm_m, inductance_h_m } => Self::gasket(
                knobs.value("resistance_ohm_m", "ohm m", *resistance_ohm_m, "zero or positive"),
                knobs.value("inductance_h_m", "H m", *inductance_h_m, "zero or positive"),
            ),
            Self::Measured(table) => Ok(Self::Measured(table.rebuild(knobs)?)),
            Self::Fingers(row) => {
                let pitch_m = knobs.value("finger_pitch_m", "m", row.pitch_m, "positive");
                let finger = Finger::new(
                    knobs.value("finger_resistance_ohm", "ohm", row.finger.resistance_ohm, "zero or positive"),
                    knobs.value("finger_inductance_h", "H", row.finger.inductance_h, "zero or positive"),
                    knobs.value("contact_width_m", "m", row.finger.contact_width_m, "positive, below the pitch"),
                )?;
                Ok(Self::Fingers(FingerRow::new(pitch_m, finger)?))
            }
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
struct FingerRecord {
    resistance_ohm: f64,
    inductance_h: f64,
    contact_width_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<FingerRecord> for Finger {
    type Error = crate::Error;
    fn try_from(record: FingerRecord) -> Result<Self> {
        Self::new(record.resistance_ohm, record.inductance_h, record.contact_width_m)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct FingerRowRecord {
    pitch_m: f64,
    finger: Finger,
}

#[cfg(feature = "serde")]
impl TryFrom<FingerRowRecord> for FingerRow {
    type Error = crate::Error;
    fn try_from(record: FingerRowRecord) -> Result<Self> {
        Self::new(record.pitch_m, record.finger)
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
