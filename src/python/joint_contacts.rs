//! What bridges a gap: gaskets, finger rows, measured tables, several beside each other.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::csv::TableText;
use super::error::warn_outside;
use crate::error::{Result, check};
use crate::joint::{ContactsBeside, FingerRow, Gasket, ImpedanceTable, TransferImpedance};

/// Transfer impedance over an array of frequencies, with a warning outside the domain.
fn impedances(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    impedance: TransferImpedance,
    gap_m: f64,
) -> PyResult<Out<Complex64>> {
    check::positive("gap_m", "m", gap_m)?;
    let impedance = &impedance.across(gap_m)?;
    let result = batch(py, "frequency_hz", frequency_hz, Complex64::default(), |f, out| {
        check::frequencies(f)?;
        out.iter_mut().zip(f).for_each(|(z, &f)| *z = impedance.at(f, gap_m));
        Ok(())
    })?;
    warn_outside(py, &frequency_hz.read("frequency_hz")?.values(), |f| impedance.validity(f))?;
    Ok(result)
}

/// One of the classes that can bridge a gap.
#[derive(FromPyObject, IntoPyObject)]
pub enum ContactArg {
    Gasket(PyGasket),
    Table(PyImpedanceTable),
    Fingers(PyFingerRow),
    Beside(PyContactsBeside),
}

impl ContactArg {
    pub fn from_core(impedance: &TransferImpedance) -> Self {
        match impedance {
            TransferImpedance::Gasket(gasket) => Self::Gasket(PyGasket(*gasket)),
            TransferImpedance::Measured(table) => Self::Table(PyImpedanceTable(table.clone())),
            TransferImpedance::Fingers(row) => Self::Fingers(PyFingerRow(*row)),
            TransferImpedance::Beside(contacts) => Self::Beside(PyContactsBeside(contacts.clone())),
        }
    }

    pub fn into_core(self) -> Result<TransferImpedance> {
        Ok(match self {
            Self::Gasket(gasket) => gasket.0.into(),
            Self::Table(table) => table.0.into(),
            Self::Fingers(row) => row.0.into(),
            Self::Beside(contacts) => contacts.0.into(),
        })
    }
}

/// Adds the impedance of what does not ask for the gap.
macro_rules! impedance_in_any_gap {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Transfer impedance times length, ohm m.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            ///
            /// Returns
            /// -------
            /// complex or ndarray of complex
            ///     Shape of `frequency_hz`.
            ///
            /// Warns
            /// -----
            /// DomainWarning
            ///     Once, outside a table.
            fn impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
                impedances(py, &frequency_hz, self.0.clone().into(), 1.0)
            }
        }
    };
}

/// Adds the impedance of what reaches across a gap.
macro_rules! impedance_in_a_gap {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Transfer impedance times length, ohm m, in a gap.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            /// gap_m : float
            ///     Gap that is bridged, m, positive, below the free height of fingers.
            ///
            /// Returns
            /// -------
            /// complex or ndarray of complex
            ///     Shape of `frequency_hz`.
            ///
            /// Warns
            /// -----
            /// DomainWarning
            ///     Once, for a pitch of fingers above half a wavelength, or outside a table.
            fn impedance_ohm_m(
                &self,
                py: Python<'_>,
                frequency_hz: RealArg<'_>,
                gap_m: f64,
            ) -> PyResult<Out<Complex64>> {
                impedances(py, &frequency_hz, self.0.clone().into(), gap_m)
            }
        }
    };
}

Gasket! {
    /// A gasket by its transfer impedance times length, R + jwL.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// A current of J amperes per metre of joint leaves J times this as a voltage along the joint.
    /// Pressure, surface and ageing decide it: use a measurement where there is one.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> sr.joints.Gasket(resistance_ohm_m=2e-5).impedance_ohm_m(1e6)
    /// (2e-05+0j)
    class PyGasket in joints;
}
impedance_in_any_gap!(PyGasket);

ImpedanceTable! {
    /// A measured transfer impedance against frequency.
    ///
    /// The logarithm of the modulus is joined in log frequency and held beyond both ends, with a warning.
    ///
    /// {parameters}
    ///
    /// Raises
    /// ------
    /// NotIncreasingError, OutOfRangeError, LengthMismatchError
    ///     For columns that do not fit, with row and value; for fewer than two rows.
    ///
    /// Notes
    /// -----
    /// The phase by slope is the leading term of H. W. Bode's relation of gain and phase (1945, ch. 14, from
    /// memory).
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> table = sr.joints.ImpedanceTable.from_csv("frequency_hz,transfer_impedance_ohm_m\n1e6,1e-5\n1e8,1e-3\n")
    /// >>> round(abs(table.impedance_ohm_m(1e7)), 9)
    /// 0.0001
    class PyImpedanceTable in joints;
}
impedance_in_any_gap!(PyImpedanceTable);

#[pymethods]
impl PyImpedanceTable {
    /// From comma-separated text with the columns `frequency_hz` and `transfer_impedance_ohm_m`, and
    /// perhaps `phase_deg`.
    ///
    /// Parameters
    /// ----------
    /// text : str or pathlib.Path
    ///     Text with a heading whose separator (tab, semicolon or comma) parts all its fields, numbers with decimal
    ///     points; or the path of a file that holds it.
    ///
    /// Raises
    /// ------
    /// FormatError
    ///     With line and column, what was found there and what was expected.
    #[staticmethod]
    fn from_csv(text: TableText) -> PyResult<Self> {
        Ok(Self(ImpedanceTable::from_csv(&text.read()?)?))
    }

    /// As comma-separated text, which reads back as the same numbers; without the scale.
    fn to_csv(&self) -> String {
        self.0.to_csv()
    }
}

FingerRow! {
    /// A row of equal contact fingers at equal distances, by its dimensions.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// With s the length of the slot, the square root of gap^2 + run^2,
    ///
    ///     Z_T = p (R + jwL) + jw mu0 s (p/2pi) (ln sec(pi slot/2p) + G) r(thickness/slot),
    ///
    /// the inductance of a grid of strips with the leading term G for pitches that are not small (N. Marcuvitz,
    /// Waveguide Handbook, 1951, sec. 5.18, from memory), and what a thickness leaves, 0.8776 exp(-pi thickness/slot)
    /// for narrow slots and thick fingers: within 0.3 % of finite elements up to slots of 0.9 pitches. R by general contact theory (R. Holm, Electric
    /// Contacts, 4th ed., 1967, from memory). Above half a wavelength of pitch waves along the joint leave in a
    /// second direction, outside the domain. The resistance is of the usual size (common practice, no source).
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> row = sr.joints.FingerRow(4e-3, slot_width_m=0.4e-3, free_height_m=3e-3, working_height_m=2e-3)
    /// >>> round(row.impedance_ohm_m(1e3, gap_m=2.5e-3).real / row.impedance_ohm_m(1e3, gap_m=2e-3).real, 9)
    /// 2.0
    class PyFingerRow in joints;
}
impedance_in_a_gap!(PyFingerRow);

ContactsBeside! {
    /// Contacts side by side at the same depth of a gap: their admittances add.
    ///
    /// {parameters}
    class PyContactsBeside in joints;
}
impedance_in_a_gap!(PyContactsBeside);
