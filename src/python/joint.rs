//! Seams and contact lines.

use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::error::check;
use crate::joint::{Contact, ContactLine, Face, Fastener, FingerRow, Seam};
use num_complex::Complex64;

Seam! {
    /// A bolted seam between two panels: a slit through an overlap, shorted by fasteners.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Below half a wavelength of pitch each bay is a short slot below cutoff; above, waves run through
    /// the overlap and only contact and wall loss weaken them. Fasteners press the faces together through
    /// the whole depth of the overlap.
    ///
    /// Pressure, plating and ageing decide contact and fasteners: treat them as knobs with a tolerance.
    /// The defaults for spots, fasteners and zinc are of the usual size (common practice, no source).
    /// `validity` tells where a default for contact or fasteners moves the number by a decibel and more.
    ///
    /// A change of `gap_m` by `with_parameter`, a sweep or a tolerance takes contact and fasteners with it,
    /// stretched in proportion, which is the mildest law under which an opened joint gets no better; a real contact
    /// loses more. A seam built anew with another gap and the same contact states that this contact was
    /// found at that gap.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> seam = sr.Seam(length_m=42.0, fastener_pitch_m=0.1, gap_m=20e-6, overlap_m=25e-3)
    /// >>> pressed = seam.with_parameters({"contact_conductance_s_per_m": 1e4, "contact_inductance_h_m": 1e-15})
    /// >>> pressed.cross_section_db(18e9) < seam.cross_section_db(18e9) - 10
    /// True
    class PySeam extends PyLeak;
}

#[pymethods]
impl PySeam {
    /// Number of bays; the last one may be a part.
    #[getter]
    fn bays(&self) -> f64 {
        self.0.bays()
    }
}

/// Adds the impedance of one row to the class of a line.
macro_rules! impedance_of_a_row {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Transfer impedance of one row times length, ohm m.
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
            fn transfer_impedance_ohm_m(&self, py: Python<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<Complex64>> {
                batch(py, "frequency_hz", &frequency_hz, Complex64::default(), |f, out| {
                    check::frequencies(f)?;
                    out.iter_mut().zip(f).for_each(|(z, &f)| *z = self.0.transfer_impedance_ohm_m(f));
                    Ok(())
                })
            }
        }
    };
}
pub(super) use impedance_of_a_row;

ContactLine! {
    /// The contact line around a door: rows of spring fingers across a gap.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Each row is a transfer impedance per length that follows from its dimensions (`FingerRow` has the equation);
    /// rows follow each other as shunts on a line, and resonate where their distance is half a wavelength. Above half a
    /// wavelength of pitch waves along the joint leave in a second direction, outside the domain. Finger
    /// values are of the usual size (common practice, no source): wear, dirt and pressure change the resistance by orders
    /// of magnitude.
    ///
    /// A wider gap takes force from the fingers and makes the way across longer, which is worse; it also makes the space
    /// between the rows larger, which is better. Contacts of fixed resistance and inductance (`force_exponent=0` and all
    /// of the inductance in `finger_inductance_h`) leave the second alone: two rows then read 21 to 24 dB better at
    /// 4 mm than at 0.25 mm, which no spring finger does. `KnifeEdge` keeps the two apart.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> door = sr.ContactLine(length_m=6.0, finger_pitch_m=5e-3, gap_m=0.5e-3)
    /// >>> door.with_parameter("row_count", 1).cross_section_db(1e9) > door.cross_section_db(1e9) + 10
    /// True
    class PyContactLine extends PyLeak;
}
impedance_of_a_row!(PyContactLine);
