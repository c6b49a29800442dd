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
use crate::parameter::Element;
use crate::validity::Validity;

/// A gasket by its transfer impedance times length, R + jωL.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(new(resistance_ohm_m, inductance_h_m), settle, errors = "both zero")]
pub struct Gasket {
    /// Resistance times length.
    #[parameter(non_negative)]
    resistance_ohm_m: f64,
    /// Inductance times length. One of the two is not zero.
    #[parameter(within(0.0, 1.0), default = 0.0, setter = none)]
    inductance_h_m: f64,
}

impl Gasket {
    fn settle(self) -> Result<Self> {
        if self.inductance_h_m == 0.0 {
            // Without any impedance the joint is closed and nothing is left to compute.
            check::positive("resistance_ohm_m", "ohm m", self.resistance_ohm_m)?;
        }
        Ok(self)
    }

    fn at(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(self.resistance_ohm_m, 2.0 * PI * frequency_hz * self.inductance_h_m)
    }
}

/// Contacts side by side at the same depth of a gap: their admittances add.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "no parts")]
pub struct ContactsBeside {
    /// What stands side by side: at least one gasket, table, row of fingers or several beside each other.
    #[part(python = ContactArg)]
    parts: Vec<TransferImpedance>,
}

impl ContactsBeside {
    fn settle(self) -> Result<Self> {
        check::not_empty("parts", &self.parts)?;
        Ok(self)
    }

    /// The same with fingers that reach across a gap.
    fn across(self, gap_m: f64) -> Result<Self> {
        Ok(Self { parts: all_across("parts", self.parts, gap_m)? })
    }
}

/// All of them across a gap (m), in order; faults are told with their place in the list.
pub(super) fn all_across(name: &str, list: Vec<TransferImpedance>, gap_m: f64) -> Result<Vec<TransferImpedance>> {
    let each = |(place, one): (usize, TransferImpedance)| {
        one.across(gap_m).map_err(|error| error.within(&format!("{name}.{place}")))
    };
    list.into_iter().enumerate().map(each).collect()
}

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
#[derive(Debug, Clone, PartialEq, Element)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum TransferImpedance {
    /// R + jωL.
    Gasket(Gasket),
    /// A measured table.
    Measured(ImpedanceTable),
    /// A row of contact fingers.
    Fingers(FingerRow),
    /// Several side by side, at the same depth of the gap.
    Beside(ContactsBeside),
}

impl TransferImpedance {
    /// A gasket by its resistance (ohm m) and inductance (H m), each times length.
    ///
    /// # Errors
    /// Those of [`Gasket::new`].
    pub fn gasket(resistance_ohm_m: f64, inductance_h_m: f64) -> Result<Self> {
        Gasket::new(resistance_ohm_m, inductance_h_m).map(Self::Gasket)
    }

    /// Several side by side.
    ///
    /// # Errors
    /// For none.
    pub fn beside(parts: Vec<Self>) -> Result<Self> {
        ContactsBeside::new(parts).map(Self::Beside)
    }

    /// The same across a gap (m), which its fingers must reach.
    ///
    /// # Errors
    /// For fingers whose free height is not above the gap.
    pub(crate) fn across(self, gap_m: f64) -> Result<Self> {
        Ok(match self {
            Self::Beside(contacts) => Self::Beside(contacts.across(gap_m)?),
            Self::Fingers(row) => Self::Fingers(row.across(gap_m)?),
            same @ (Self::Gasket(_) | Self::Measured(_)) => same,
        })
    }

    /// Z_T in ohm m, across a gap of this width (m), on which fingers depend: below their free height.
    #[must_use]
    pub fn at(&self, frequency_hz: f64, gap_m: f64) -> Complex64 {
        match self {
            Self::Gasket(gasket) => gasket.at(frequency_hz),
            Self::Measured(table) => table.at(frequency_hz),
            Self::Fingers(row) => row.at(frequency_hz, gap_m),
            Self::Beside(contacts) => {
                1.0 / contacts.parts.iter().map(|part| 1.0 / part.at(frequency_hz, gap_m)).sum::<Complex64>()
            }
        }
    }

    /// Where it holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::Gasket(_) => Validity::Holds,
            Self::Measured(table) => table.validity(frequency_hz),
            Self::Fingers(row) => row.validity(frequency_hz),
            Self::Beside(contacts) => {
                contacts.parts.iter().fold(Validity::Holds, |validity, part| validity.and(part.validity(frequency_hz)))
            }
        }
    }

    /// How many separate contacts there are on a length; one to a gasket's own gap width.
    pub(super) fn contacts(&self, length_m: f64, gap_m: f64) -> f64 {
        match self {
            Self::Gasket(_) | Self::Measured(_) => length_m / gap_m,
            Self::Fingers(row) => length_m / row.finger_pitch_m(),
            Self::Beside(contacts) => {
                contacts.parts.iter().map(|part| part.contacts(length_m, gap_m)).fold(0.0, f64::max)
            }
        }
    }
}

impl From<Gasket> for TransferImpedance {
    fn from(gasket: Gasket) -> Self {
        Self::Gasket(gasket)
    }
}

impl From<ContactsBeside> for TransferImpedance {
    fn from(contacts: ContactsBeside) -> Self {
        Self::Beside(contacts)
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
