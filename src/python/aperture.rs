//! Holes and slots.

use pyo3::prelude::*;

use super::array::{Out, RealArg, broadcast};
use super::class::value_class;
use super::error::warn_outside;
use super::leak::PyLeak;
use super::wave::PolarizationArg;
use crate::Polarization;
use crate::aperture::{
    Arrival, CircularHole, CrossSlot, Directional, EllipticHole, RectangularSlot, RoundedSlot, polarizability,
    slot_rule_of_thumb_db as rule_of_thumb,
};
use crate::error::check;
use crate::leak::Polarizability;

/// Static polarizabilities of an opening that is small against the wavelength, m^3.
///
/// Convention: the dipoles act in the presence of the closed wall and are driven by the field on
/// the closed wall; a round hole of radius a has the magnetic one 4 a^3/3 and the electric one
/// 2 a^3/3 (H. A. Bethe, Phys. Rev. 66 (1944) 163, from memory).
#[pyclass(frozen, eq, module = "stillroom.apertures", name = "Polarizability")]
#[derive(Clone, PartialEq)]
pub struct PyPolarizability(pub Polarizability);

#[pymethods]
impl PyPolarizability {
    #[new]
    #[pyo3(signature = (*, electric_m3, magnetic_along_m3, magnetic_across_m3))]
    fn new(electric_m3: f64, magnetic_along_m3: f64, magnetic_across_m3: f64) -> PyResult<Self> {
        Ok(Self(Polarizability {
            electric_m3: check::positive("electric_m3", "m3", electric_m3)?,
            magnetic_along_m3: check::positive("magnetic_along_m3", "m3", magnetic_along_m3)?,
            magnetic_across_m3: check::positive("magnetic_across_m3", "m3", magnetic_across_m3)?,
        }))
    }

    /// Of a round hole.
    ///
    /// Parameters
    /// ----------
    /// diameter_m : float
    ///     Diameter, m, positive.
    #[staticmethod]
    fn of_circle(diameter_m: f64) -> PyResult<Self> {
        Ok(Self(polarizability::circle(diameter_m)?))
    }

    /// Of an elliptic hole.
    ///
    /// Parameters
    /// ----------
    /// length_m, width_m : float
    ///     Whole axes, m, positive, the width at most the length.
    #[staticmethod]
    fn of_ellipse(length_m: f64, width_m: f64) -> PyResult<Self> {
        Ok(Self(polarizability::ellipse(length_m, width_m)?))
    }

    /// Of a rectangular hole.
    ///
    /// Parameters
    /// ----------
    /// length_m, width_m : float
    ///     Sides, m, positive, the width at most the length.
    #[staticmethod]
    fn of_rectangle(length_m: f64, width_m: f64) -> PyResult<Self> {
        Ok(Self(polarizability::rectangle(length_m, width_m)?))
    }

    /// Of a slot with half-round ends.
    ///
    /// Parameters
    /// ----------
    /// length_m, width_m : float
    ///     Whole length and width, m, positive, the width at most the length.
    #[staticmethod]
    fn of_rounded_slot(length_m: f64, width_m: f64) -> PyResult<Self> {
        Ok(Self(polarizability::rounded_slot(length_m, width_m)?))
    }

    /// Of a cross of two equal slots at right angles.
    ///
    /// Parameters
    /// ----------
    /// length_m, width_m : float
    ///     Length and width of each slot, m, positive, the width at most the length.
    #[staticmethod]
    fn of_cross(length_m: f64, width_m: f64) -> PyResult<Self> {
        Ok(Self(polarizability::cross(length_m, width_m)?))
    }
}

value_class!(PyPolarizability, "Polarizability" {
    /// Electric, for the field normal to the wall, m^3.
    electric_m3: f64 = |polarizability| polarizability.electric_m3,
    /// Magnetic, for the field in the wall along the longer axis, m^3.
    magnetic_along_m3: f64 = |polarizability| polarizability.magnetic_along_m3,
    /// Magnetic, for the field in the wall across that axis, m^3.
    magnetic_across_m3: f64 = |polarizability| polarizability.magnetic_across_m3,
});

/// Cross-sections of a directional leak towards waves, from what converts ln m² to the unit asked for.
pub fn towards(
    py: Python<'_>,
    leak: &(impl Directional + Sync),
    frequency_hz: &RealArg<'_>,
    [angle_deg, azimuth_deg]: [Option<RealArg<'_>>; 2],
    polarization: Polarization,
    scale: fn(f64) -> f64,
) -> PyResult<Out<f64>> {
    let names = ["frequency_hz", "angle_deg", "azimuth_deg"];
    let [angle_deg, azimuth_deg] = [angle_deg, azimuth_deg].map(|arg| arg.unwrap_or_else(|| RealArg::number(py, 0.0)));
    let result = broadcast(py, names, [frequency_hz, &angle_deg, &azimuth_deg], |[f, angle_deg, azimuth_deg]| {
        let arrival = Arrival::new(angle_deg, azimuth_deg, polarization)?;
        Ok(scale(leak.ln_cross_section_towards(check::frequency(f)?, &arrival)))
    })?;
    let read = frequency_hz.read("frequency_hz")?;
    warn_outside(py, &read.values(), |f| leak.validity(f))?;
    Ok(result)
}

/// Adds the cross-sections towards a wave to the class of a directional leak.
macro_rules! directional {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Transmission cross-section for waves from one direction, m^2.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz : array_like
            ///     Frequency, Hz.
            /// angle_deg : array_like, default 0
            ///     Angle from the normal of the wall, degrees, 0 to less than 90.
            /// azimuth_deg : array_like, default 0
            ///     Angle between the plane of incidence and the opening's length (of an array: its rows),
            ///     degrees. All three broadcast.
            /// polarization : {"te", "tm"}, default "te"
            ///     Whether the electric field ("te") or the magnetic one ("tm") lies across the plane of
            ///     incidence, in the wall.
            ///
            /// Returns
            /// -------
            /// float or ndarray
            ///     Joint shape of the arguments. The mean over the half-space (in solid angle) and both
            ///     polarizations is `cross_section_m2`.
            #[pyo3(signature = (
                                                                        frequency_hz,
                                                                        angle_deg=None,
                                                                        azimuth_deg=None,
                                                                        polarization=PolarizationArg(Polarization::Te)
                                                                    ))]
            fn cross_section_towards_m2(
                &self,
                py: Python<'_>,
                frequency_hz: RealArg<'_>,
                angle_deg: Option<RealArg<'_>>,
                azimuth_deg: Option<RealArg<'_>>,
                polarization: PolarizationArg,
            ) -> PyResult<Out<f64>> {
                towards(py, &self.0, &frequency_hz, [angle_deg, azimuth_deg], polarization.0, f64::exp)
            }

            /// The same in dB relative to 1 m^2.
            ///
            /// Parameters
            /// ----------
            /// frequency_hz, angle_deg, azimuth_deg, polarization
            ///     As for `cross_section_towards_m2`.
            ///
            /// Returns
            /// -------
            /// float or ndarray
            ///     Joint shape of the arguments.
            #[pyo3(signature = (
                                                                        frequency_hz,
                                                                        angle_deg=None,
                                                                        azimuth_deg=None,
                                                                        polarization=PolarizationArg(Polarization::Te)
                                                                    ))]
            fn cross_section_towards_db(
                &self,
                py: Python<'_>,
                frequency_hz: RealArg<'_>,
                angle_deg: Option<RealArg<'_>>,
                azimuth_deg: Option<RealArg<'_>>,
                polarization: PolarizationArg,
            ) -> PyResult<Out<f64>> {
                let db = |ln| -crate::decibel::loss_db_of_ln_power(ln);
                towards(py, &self.0, &frequency_hz, [angle_deg, azimuth_deg], polarization.0, db)
            }
        }
    };
}
pub(super) use directional;

/// What all openings have beside their constructor.
macro_rules! opening_methods {
    ($class:ident) => {
        #[pymethods]
        impl $class {
            /// Open area, m^2.
            #[getter]
            fn area_m2(&self) -> f64 {
                self.0.area_m2()
            }
        }
        directional!($class);
    };
}

CircularHole! {
    /// A round hole in a wall of any thickness.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// A small thin hole passes 16 k^4 a^6/(9 pi) (D. A. Hill et al., IEEE Trans. EMC 36 (1994) 169, from
    /// memory), a large one half its area, averaged over angle and polarization; in between a few modes
    /// are modelled one by one. Within 0.35 dB of mode matching for k a <= 2 and 1.0 dB for k a <= 10, in
    /// walls up to 1.2 radii thick. The wall is a perfect conductor.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> hole = sr.CircularHole(diameter_m=10e-3, wall_thickness_m=1e-3)
    /// >>> round(hole.cross_section_db(1e9), 1)
    /// -91.8
    class PyCircularHole extends PyLeak;
}
opening_methods!(PyCircularHole);

RectangularSlot! {
    /// A rectangular slot in a wall of any thickness, from a crack to a square.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Averaged over angle and polarization. Resonates near half a wavelength, where it passes about
    /// lambda^2/(4 pi) whatever its width. Within 0.6 dB of mode matching up to the half-wave resonance and
    /// 1.6 dB up to a width of one wavelength (width/length 0.1 to 1, walls up to 0.6 lengths); exact for
    /// small and for large slots. The wall is a perfect conductor.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> slot = sr.RectangularSlot(length_m=0.1, width_m=1e-3)
    /// >>> slot.cross_section_m2(1.45e9) > 1e3 * slot.cross_section_m2(0.3e9)
    /// True
    class PyRectangularSlot extends PyLeak;
}
opening_methods!(PyRectangularSlot);

EllipticHole! {
    /// An elliptic hole in a wall of any thickness.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Exact for small and for large holes (elliptic integrals; area); between, the lowest modes of the
    /// ellipse as a guide, with constants between those of a slot and of a circle. The wall is a perfect
    /// conductor.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> hole = sr.apertures.EllipticHole(length_m=10e-3, width_m=4e-3)
    /// >>> hole.cross_section_m2(1e9) < sr.RectangularSlot(10e-3, 4e-3).cross_section_m2(1e9)
    /// True
    class PyEllipticHole extends PyLeak in apertures;
}
opening_methods!(PyEllipticHole);

RoundedSlot! {
    /// A slot with half-round ends, as a milling cutter leaves it, in a wall of any thickness.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Polarizabilities from the static integral equations, to 1e-4; as wide as long it is a circle. The
    /// wall is a perfect conductor.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> slot = sr.apertures.RoundedSlot(length_m=40e-3, width_m=5e-3, wall_thickness_m=2e-3)
    /// >>> sharp = sr.RectangularSlot(40e-3, 5e-3, 2e-3)
    /// >>> slot.cross_section_m2(1e9) < sharp.cross_section_m2(1e9)
    /// True
    class PyRoundedSlot extends PyLeak in apertures;
}
opening_methods!(PyRoundedSlot);

CrossSlot! {
    /// A cross of two equal slots at right angles, in a wall of any thickness.
    ///
    /// {parameters}
    ///
    /// Notes
    /// -----
    /// Resonates for either direction of the electric field. As wide as long it is a square. Warned of beyond
    /// a length of 0.8 wavelengths, where the slots act on each other's higher modes. The wall is a perfect
    /// conductor.
    ///
    /// Examples
    /// --------
    /// >>> import stillroom as sr
    /// >>> cross = sr.apertures.CrossSlot(length_m=40e-3, width_m=5e-3)
    /// >>> # One slot answers to one direction of the field, a cross to both.
    /// >>> two = cross.cross_section_m2(1e8) / sr.RectangularSlot(40e-3, 5e-3).cross_section_m2(1e8)
    /// >>> round(two, 1)
    /// 2.1
    class PyCrossSlot extends PyLeak in apertures;
}
opening_methods!(PyCrossSlot);

#[pymethods]
impl PyLeak {
    /// Quasi-static polarizabilities, where the leak is an opening small enough to have them.
    ///
    /// Parameters
    /// ----------
    /// at_frequency_hz : float
    ///     Frequency, Hz.
    ///
    /// Returns
    /// -------
    /// Polarizability or None
    ///     With the thickness of the wall taken into account; None for a leak that is not an opening, or
    ///     one longer than a tenth of a wavelength.
    fn polarizability(&self, at_frequency_hz: f64) -> PyResult<Option<PyPolarizability>> {
        Ok(self.0.polarizability(check::frequency(at_frequency_hz)?).map(PyPolarizability))
    }
}

/// Handbook rule for the shielding of a wall with one slot, 20 log10(lambda/2l), dB; for comparison.
///
/// Parameters
/// ----------
/// length_m : array_like
///     Length of the slot, m, positive.
/// frequency_hz : array_like
///     Frequency, Hz; broadcasts with `length_m`.
///
/// Returns
/// -------
/// float or ndarray
///     Joint shape of the arguments; zero from the half-wave length up.
///
/// Notes
/// -----
/// Assumes a narrow slot in a thin wall, the electric field across it, and nothing that resonates
/// behind it; it knows neither width nor depth nor distance. H. W. Ott, *Noise Reduction Techniques
/// in Electronic Systems*, 2nd ed., 1988, ch. 6 (from memory).
///
/// Examples
/// --------
/// >>> import stillroom as sr
/// >>> round(sr.apertures.slot_rule_of_thumb_db(0.15, 100e6), 1)
/// 20.0
#[pyfunction]
pub fn slot_rule_of_thumb_db(py: Python<'_>, length_m: RealArg<'_>, frequency_hz: RealArg<'_>) -> PyResult<Out<f64>> {
    broadcast(py, ["length_m", "frequency_hz"], [&length_m, &frequency_hz], |[length_m, f]| rule_of_thumb(length_m, f))
}
