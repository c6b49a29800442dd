//! What bridges a gap: gaskets, finger rows, measured tables, several beside each other.

use num_complex::Complex64;
use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::value_class;
use super::csv::TableText;
use super::error::warn_outside;
use crate::error::{Result, check};
use crate::joint::{Finger, FingerRow, ImpedanceTable, TransferImpedance};

/// Transfer impedance over an array of frequencies, with a warning outside the domain.
fn impedances(
    py: Python<'_>,
    frequency_hz: &RealArg<'_>,
    impedance: &TransferImpedance,
    gap_m: f64,
) -> PyResult<Out<Complex64>> {
    check::positive("gap_m", "m", gap_m)?;
    let impedance = &impedance.clone().across(gap_m)?;
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
            TransferImpedance::Gasket { resistance_ohm_m, inductance_h_m } => {
                Self::Gasket(PyGasket((*resistance_ohm_m, *inductance_h_m)))
            }
            TransferImpedance::Measured(table) => Self::Table(PyImpedanceTable(table.clone())),
            TransferImpedance::Fingers(row) => Self::Fingers(PyFingerRow(*row)),
            TransferImpedance::Beside(parts) => Self::Beside(PyContactsBeside(parts.clone())),
        }
    }

    pub fn into_core(self) -> Result<TransferImpedance> {
        match self {
            Self::Gasket(PyGasket((resistance, inductance))) => TransferImpedance::gasket(resistance, inductance),
            Self::Table(table) => Ok(table.0.into()),
            Self::Fingers(row) => Ok(row.0.into()),
            Self::Beside(parts) => TransferImpedance::beside(parts.0),
        }
    }

    /// A list of them, in order.
    pub fn all(list: Vec<Self>) -> Result<Vec<TransferImpedance>> {
        list.into_iter().map(Self::into_core).collect()
    }
}

/// A gasket by its transfer impedance times length, R + jwL.
///
/// Parameters
/// ----------
/// resistance_ohm_m : float
///     Resistance times length, ohm m, zero or positive.
/// inductance_h_m : float, default 0
///     Inductance times length, H m, zero or positive; one of the two is not zero.
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom.joints", name = "Gasket")]
#[derive(Clone, PartialEq)]
pub struct PyGasket(pub (f64, f64));

#[pymethods]
impl PyGasket {
    #[new]
    #[pyo3(signature = (resistance_ohm_m, inductance_h_m=0.0))]
    fn new(resistance_ohm_m: f64, inductance_h_m: f64) -> PyResult<Self> {
        TransferImpedance::gasket(resistance_ohm_m, inductance_h_m)?;
        Ok(Self((resistance_ohm_m, inductance_h_m)))
    }

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
    fn impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        impedances(py, &frequency_hz, &TransferImpedance::gasket(self.0.0, self.0.1)?, 1.0)
    }
}

value_class!(PyGasket, "Gasket" {
    /// Resistance times length, ohm m.
    resistance_ohm_m: f64 = |gasket| gasket.0,
    /// Inductance times length, H m.
    inductance_h_m: f64 = |gasket| gasket.1,
});

/// A measured transfer impedance against frequency.
///
/// The logarithm of the modulus is joined in log frequency and held beyond both ends, with a warning.
///
/// Parameters
/// ----------
/// frequency_hz : sequence of float
///     Frequencies, Hz, increasing, at least two.
/// transfer_impedance_ohm_m : sequence of float
///     Moduli times length, ohm m, positive.
/// phase_deg : sequence of float, optional
///     Phases, degrees, from -90 to 90. Where not given they follow the slope of the modulus: 0 where it
///     is flat (a resistance), 90 where it rises with f (an inductance).
/// scale_db : float, default 0
///     What is added to the moduli, dB: a knob for tolerances.
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom.joints", name = "ImpedanceTable")]
#[derive(Clone, PartialEq)]
pub struct PyImpedanceTable(pub ImpedanceTable);

#[pymethods]
impl PyImpedanceTable {
    #[new]
    #[pyo3(signature = (frequency_hz, transfer_impedance_ohm_m, phase_deg=None, scale_db=0.0))]
    fn new(
        frequency_hz: Vec<f64>,
        transfer_impedance_ohm_m: Vec<f64>,
        phase_deg: Option<Vec<f64>>,
        scale_db: f64,
    ) -> PyResult<Self> {
        let table = ImpedanceTable::new(frequency_hz, transfer_impedance_ohm_m)?.scaled(scale_db)?;
        Ok(Self(match phase_deg {
            Some(phase_deg) => table.with_phases(phase_deg)?,
            None => table,
        }))
    }

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
    ///     Once, outside the table.
    fn impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
        impedances(py, &frequency_hz, &self.0.clone().into(), 1.0)
    }
}

value_class!(PyImpedanceTable, "ImpedanceTable" {
    /// Frequencies, Hz.
    frequency_hz: Vec<f64> = |table| table.frequency_hz().to_vec(),
    /// Moduli at these, ohm m.
    transfer_impedance_ohm_m: Vec<f64> = |table| table.transfer_impedance_ohm_m().to_vec(),
    /// Phases at these, degrees, or None.
    phase_deg: Option<Vec<f64>> = |table| table.phase_deg().map(<[f64]>::to_vec),
    /// What is added to the moduli, dB.
    scale_db: f64 = |table| table.scale_db(),
});

/// A row of equal contact fingers at equal distances, by its dimensions.
///
/// Parameters
/// ----------
/// finger_pitch_m : float
///     Distance between fingers, m, positive.
/// slot_width_m : float, optional
///     Slot between two fingers, m, positive, below the pitch. Where not given, what a contact of 2 mm
///     (at most of half the pitch) leaves; slots are mostly narrower.
/// finger_thickness_m : float, default 0
///     Thickness of the sheet, m: a deeper slot passes less.
/// finger_run_m : float, default 0
///     How far a finger runs along the depth of the joint from its root to its contact, m; zero for one
///     that stands straight across the gap. The slot is as much longer.
/// finger_resistance_ohm : float, default 0.005
///     Resistance of one finger at its working height, ohm.
/// finger_inductance_h : float, default 0
///     What a contact that is narrower than its finger adds, H, from 0 to 1, the same at every gap. Zero
///     for a contact over the whole width.
/// free_height_m : float, optional
///     Height without a counter-face, m: the gap must be smaller. Where neither height is given, a line takes its
///     fingers as pressed to half of their free height; where one is, the other is twice or half of it.
/// working_height_m : float, optional
///     Height for which the resistance is told, m, below the free height.
/// force_exponent : float, default 1
///     The resistance follows this power of the inverse of the force, and that is in proportion to free
///     height less gap: 1 through a film, cautious where a gap opens; 1/2 (plastic) and 1/3 (elastic) for clean
///     contacts; 0 for a resistance that stays. From 0 to 1.
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
#[pyclass(frozen, eq, from_py_object, module = "stillroom.joints", name = "FingerRow")]
#[derive(Clone, PartialEq)]
pub struct PyFingerRow(pub FingerRow);

#[pymethods]
impl PyFingerRow {
    #[new]
    #[pyo3(signature = (
        finger_pitch_m,
        slot_width_m=None,
        finger_thickness_m=0.0,
        finger_run_m=0.0,
        finger_resistance_ohm=5e-3,
        finger_inductance_h=0.0,
        free_height_m=None,
        working_height_m=None,
        force_exponent=1.0,
    ))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        finger_pitch_m: f64,
        slot_width_m: Option<f64>,
        finger_thickness_m: f64,
        finger_run_m: f64,
        finger_resistance_ohm: f64,
        finger_inductance_h: f64,
        free_height_m: Option<f64>,
        working_height_m: Option<f64>,
        force_exponent: f64,
    ) -> PyResult<Self> {
        check::positive("finger_pitch_m", "m", finger_pitch_m)?;
        let slot_width_m = slot_width_m.map_or_else(|| usual_slot_m(finger_pitch_m), Ok)?;
        let finger = Finger::new(finger_resistance_ohm, slot_width_m)?
            .with_thickness(finger_thickness_m)?
            .with_run(finger_run_m)?
            .with_inductance(finger_inductance_h)?
            .with_force_exponent(force_exponent)?
            .with_optional_heights(free_height_m, working_height_m)?;
        Ok(Self(FingerRow::new(finger_pitch_m, finger)?))
    }

    /// Transfer impedance times length, ohm m, in a gap.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// gap_m : float
    ///     Gap that the fingers bridge, m, positive, below their free height.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    ///
    /// Warns
    /// -----
    /// DomainWarning
    ///     Once, for a pitch above half a wavelength.
    fn impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>, gap_m: f64) -> PyResult<Out<Complex64>> {
        impedances(py, &frequency_hz, &self.0.into(), gap_m)
    }
}

/// The slot of fingers of which nothing but the pitch is known.
pub fn usual_slot_m(finger_pitch_m: f64) -> Result<f64> {
    Ok(Finger::usual(finger_pitch_m)?.slot_width_m())
}

value_class!(PyFingerRow, "FingerRow" {
    /// Distance between fingers, m.
    finger_pitch_m: f64 = |row| row.pitch_m(),
    /// Slot between two fingers, m.
    slot_width_m: f64 = |row| row.finger().slot_width_m(),
    /// Thickness of the sheet, m.
    finger_thickness_m: f64 = |row| row.finger().thickness_m(),
    /// How far a finger runs along the depth, m.
    finger_run_m: f64 = |row| row.finger().run_m(),
    /// Resistance of one finger at its working height, ohm.
    finger_resistance_ohm: f64 = |row| row.finger().resistance_ohm(),
    /// What a narrow contact adds, H.
    finger_inductance_h: f64 = |row| row.finger().inductance_h(),
    /// Height without a counter-face, m, or None.
    free_height_m: Option<f64> = |row| row.finger().free_height_m(),
    /// Height for which the resistance is told, m, or None.
    working_height_m: Option<f64> = |row| row.finger().working_height_m(),
    /// Power of the inverse of the force that the resistance follows.
    force_exponent: f64 = |row| row.finger().force_exponent(),
});

/// Contacts side by side at the same depth of a gap: their admittances add.
///
/// Parameters
/// ----------
/// parts : sequence of Gasket, ImpedanceTable, FingerRow or ContactsBeside
///     At least one.
#[pyclass(frozen, eq, from_py_object, module = "stillroom.joints", name = "ContactsBeside")]
#[derive(Clone, PartialEq)]
pub struct PyContactsBeside(pub Vec<TransferImpedance>);

#[pymethods]
impl PyContactsBeside {
    #[new]
    fn new(parts: Vec<ContactArg>) -> PyResult<Self> {
        let parts = ContactArg::all(parts)?;
        check::not_empty("parts", &parts)?;
        Ok(Self(parts))
    }

    /// Transfer impedance times length, ohm m, in a gap.
    ///
    /// Parameters
    /// ----------
    /// frequency_hz : array_like
    ///     Frequency, Hz.
    /// gap_m : float
    ///     Gap that they bridge, m; finger rows depend on it, and must reach across.
    ///
    /// Returns
    /// -------
    /// complex or ndarray of complex
    ///     Shape of `frequency_hz`.
    fn impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>, gap_m: f64) -> PyResult<Out<Complex64>> {
        impedances(py, &frequency_hz, &TransferImpedance::beside(self.0.clone())?, gap_m)
    }
}

value_class!(PyContactsBeside, "ContactsBeside" {
    /// What stands side by side.
    parts: Vec<ContactArg> = |parts| parts.iter().map(ContactArg::from_core).collect(),
});
