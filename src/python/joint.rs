//! Seams and contact lines.

use pyo3::prelude::*;

use super::array::{Out, RealArg, batch};
use super::class::{leak_class, value_class};
use super::leak::PyLeak;
use super::material::PyMaterial;
use crate::error::check;
use crate::joint::{Contact, ContactLine, Face, Fastener, Finger, Seam};
use num_complex::Complex64;

/// A bolted seam between two panels: a slit through an overlap, shorted by fasteners.
///
/// Parameters
/// ----------
/// length_m : float
///     Length of the seam, m, positive.
/// fastener_pitch_m : float
///     Distance between fasteners, m, positive, at most the length.
/// gap_m : float
///     Gap between the faces, m, positive, smaller than the pitch.
/// overlap_m : float
///     Depth of the overlap, m, zero or positive.
/// contact_conductance_s_per_m : float, default 0
///     Conductance between the faces per length of seam, S/m. Zero (no contact between the
///     fasteners) is the cautious assumption.
/// contact_inductance_h_m : float, optional
///     Inductance of that contact times length of seam, H m, zero or positive, at most 1. Where
///     not given it is that of contact spots, L/n with L = (mu0 g/2 pi) ln(s/2 pi a) and n spots a
///     metre on the whole depth.
/// contact_spot_radius_m : float, optional
///     Radius a of a contact spot, m, positive, at most a tenth of the spacing; 0.1 mm where not
///     given. For a flat contact of a width w along the seam, w/4.
/// contact_spot_spacing_m : float, optional
///     Distance s between spots along the seam and into its depth, m; 10 mm where not given.
/// contact_gap_m : float, optional
///     Gap for which contact and fasteners are stated, m; `gap_m` where not given. In another gap,
///     their resistance and inductance follow the gap in proportion.
/// fastener_resistance_ohm : float, optional
///     What one fastener leaves between the faces, ohm, zero or positive; 0.25 mohm where not given.
/// fastener_inductance_h : float, optional
///     Inductance of that, H, zero or positive, at most 1; 0 where not given.
/// faces : Material, optional
///     The metal of the faces; where neither this nor a coating is given, steel under 20 um of zinc.
/// coating : Material, optional
///     What they are coated with; zinc where only its thickness is given.
/// coating_thickness_m : float, optional
///     Thickness of the coating, m, zero or positive; 20 um where only the coating is given.
/// sheet_thickness_m : float, optional
///     Thickness of the sheets, m, positive; far beyond the skin depth where not given.
/// open_fasteners : sequence of int, default ()
///     Numbers of the fasteners that are loose or missing, from 1 (the first after the start) to one
///     less than the number of bays. Each makes one bay of its two, without contact.
/// open_gap_m : float, optional
///     Gap beside those, m, at least `gap_m`; `gap_m` where not given.
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
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "Seam")]
#[derive(Clone, PartialEq)]
pub struct PySeam(pub Seam);
leak_class!(PySeam);

#[pymethods]
impl PySeam {
    #[new]
    #[pyo3(signature = (
        length_m,
        fastener_pitch_m,
        gap_m,
        overlap_m,
        contact_conductance_s_per_m=0.0,
        contact_inductance_h_m=None,
        contact_spot_radius_m=None,
        contact_spot_spacing_m=None,
        contact_gap_m=None,
        fastener_resistance_ohm=None,
        fastener_inductance_h=None,
        faces=None,
        coating=None,
        coating_thickness_m=None,
        sheet_thickness_m=None,
        open_fasteners=Vec::new(),
        open_gap_m=None,
    ))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        length_m: f64,
        fastener_pitch_m: f64,
        gap_m: f64,
        overlap_m: f64,
        contact_conductance_s_per_m: f64,
        contact_inductance_h_m: Option<f64>,
        contact_spot_radius_m: Option<f64>,
        contact_spot_spacing_m: Option<f64>,
        contact_gap_m: Option<f64>,
        fastener_resistance_ohm: Option<f64>,
        fastener_inductance_h: Option<f64>,
        faces: Option<PyMaterial>,
        coating: Option<PyMaterial>,
        coating_thickness_m: Option<f64>,
        sheet_thickness_m: Option<f64>,
        open_fasteners: Vec<usize>,
        open_gap_m: Option<f64>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let conductance = contact_conductance_s_per_m;
        let spots = (contact_spot_radius_m, contact_spot_spacing_m);
        let contact = Contact::by_numbers(conductance, contact_inductance_h_m, spots, contact_gap_m)?;
        let coated = (coating.map(|coating| coating.0), coating_thickness_m);
        let seam = Seam::new(length_m, fastener_pitch_m, gap_m, overlap_m)?
            .with_contact(contact)
            .with_fastener(Fastener::by_numbers(fastener_resistance_ohm, fastener_inductance_h)?)
            .with_faces(Face::by_parts(faces.map(|faces| faces.0), coated, sheet_thickness_m)?);
        // The gap is checked even where no fastener is open.
        Ok(Self(seam.with_open_fasteners(open_fasteners, open_gap_m.unwrap_or(gap_m))?).into())
    }

    /// Number of bays; the last one may be a part.
    #[getter]
    fn bays(&self) -> f64 {
        self.0.bays()
    }
}

value_class!(PySeam, "Seam" {
    /// Length of the seam, m.
    length_m: f64 = |seam| seam.length_m(),
    /// Distance between fasteners, m.
    fastener_pitch_m: f64 = |seam| seam.fastener_pitch_m(),
    /// Gap between the faces, m.
    gap_m: f64 = |seam| seam.gap_m(),
    /// Depth of the overlap, m.
    overlap_m: f64 = |seam| seam.overlap_m(),
    /// Conductance between the faces per length of seam, S/m.
    contact_conductance_s_per_m: f64 = |seam| seam.contact().conductance_s_per_m(),
    /// Inductance of that contact times length of seam, H m, where it is stated.
    contact_inductance_h_m: Option<f64> = |seam| seam.contact().inductance_h_m(),
    /// Radius of a contact spot, m, where spots are stated.
    contact_spot_radius_m: Option<f64> = |seam| seam.contact().spots().map(|spots| spots.radius_m()),
    /// Distance between contact spots, m, where spots are stated.
    contact_spot_spacing_m: Option<f64> = |seam| seam.contact().spots().map(|spots| spots.spacing_m()),
    /// Gap for which the contact is stated, m.
    contact_gap_m: Option<f64> = |seam| seam.contact().gap_m(),
    /// Resistance of one fastener, ohm, where its impedance is stated.
    fastener_resistance_ohm: Option<f64> =
        |seam| seam.fastener().is_stated().then(|| seam.fastener().resistance_ohm()),
    /// Inductance of one fastener, H, where its impedance is stated.
    fastener_inductance_h: Option<f64> =
        |seam| seam.fastener().is_stated().then(|| seam.fastener().inductance_h()),
    /// The metal of the faces.
    faces: PyMaterial = |seam| PyMaterial(seam.faces().material().clone()),
    /// What they are coated with.
    coating: Option<PyMaterial> = |seam| seam.faces().coating().cloned().map(PyMaterial),
    /// Thickness of the coating, m.
    coating_thickness_m: Option<f64> = |seam| seam.faces().coating_thickness_m(),
    /// Thickness of the sheets, m, where they are not thick by far.
    sheet_thickness_m: Option<f64> = |seam| seam.faces().sheet_thickness_m(),
    /// Numbers of the fasteners that are loose or missing.
    open_fasteners: Vec<usize> = |seam| seam.open_fasteners().to_vec(),
    /// Gap beside those, m.
    open_gap_m: f64 = |seam| seam.open_gap_m(),
});

/// The contact line around a door: rows of spring fingers across a gap.
///
/// Parameters
/// ----------
/// length_m : float
///     Length of the line, m, positive.
/// finger_pitch_m : float
///     Distance between fingers, m, positive, at most the length.
/// gap_m : float
///     Gap that the fingers bridge, m, positive.
/// row_count : int, default 2
///     Number of rows, one behind the other, 1 to 16.
/// row_spacing_m : float, default 0.012
///     Distance between rows, m, zero or positive.
/// slot_width_m : float, optional
///     Slot between two fingers, m, positive, below the pitch. Where not given, what a contact of 2 mm
///     (at most of half the pitch) leaves; slots are mostly narrower.
/// finger_thickness_m : float, default 0
///     Thickness of the sheet, m: a deeper slot passes less.
/// finger_run_m : float, default 0
///     How far a finger runs along the depth from its root to its contact, m; zero for straight across.
/// finger_resistance_ohm : float, default 0.005
///     Resistance of one finger at its working height, ohm.
/// finger_inductance_h : float, default 0
///     What a contact that is narrower than its finger adds, H, the same at every gap.
/// free_height_m : float, optional
///     Height without a counter-face, m, above the gap; twice the working height where not given.
/// working_height_m : float, optional
///     Height for which the resistance is told, m; the gap where not given.
/// force_exponent : float, default 1
///     The resistance follows this power of the inverse of the force: see `FingerRow`.
/// faces : Material, default tin
///     What the faces are made of.
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
#[pyclass(frozen, eq, from_py_object, extends = PyLeak, module = "stillroom", name = "ContactLine")]
#[derive(Clone, PartialEq)]
pub struct PyContactLine(pub ContactLine);
leak_class!(PyContactLine);

#[pymethods]
impl PyContactLine {
    #[new]
    #[pyo3(signature = (
        length_m,
        finger_pitch_m,
        gap_m,
        row_count=2.0,
        row_spacing_m=0.012,
        slot_width_m=None,
        finger_thickness_m=0.0,
        finger_run_m=0.0,
        finger_resistance_ohm=5e-3,
        finger_inductance_h=0.0,
        free_height_m=None,
        working_height_m=None,
        force_exponent=1.0,
        faces=None,
    ))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        length_m: f64,
        finger_pitch_m: f64,
        gap_m: f64,
        row_count: f64,
        row_spacing_m: f64,
        slot_width_m: Option<f64>,
        finger_thickness_m: f64,
        finger_run_m: f64,
        finger_resistance_ohm: f64,
        finger_inductance_h: f64,
        free_height_m: Option<f64>,
        working_height_m: Option<f64>,
        force_exponent: f64,
        faces: Option<PyMaterial>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let line = ContactLine::new(length_m, finger_pitch_m, gap_m)?;
        // The resistance is told for this gap unless something else is said.
        let working_m = working_height_m.unwrap_or(gap_m);
        let finger = Finger::new(finger_resistance_ohm, slot_width_m.unwrap_or(line.finger().slot_width_m()))?
            .with_thickness(finger_thickness_m)?
            .with_run(finger_run_m)?
            .with_inductance(finger_inductance_h)?
            .with_force_exponent(force_exponent)?
            .with_optional_heights(free_height_m, Some(working_m))?;
        let rows = check::count("row_count", row_count, 1)?;
        let line = line.with_finger(finger)?.with_rows(rows, row_spacing_m)?;
        Ok(Self(match faces {
            Some(faces) => line.with_faces(faces.0),
            None => line,
        })
        .into())
    }

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

value_class!(PyContactLine, "ContactLine" {
    /// Length of the line, m.
    length_m: f64 = |line| line.length_m(),
    /// Distance between fingers, m.
    finger_pitch_m: f64 = |line| line.finger_pitch_m(),
    /// Gap that the fingers bridge, m.
    gap_m: f64 = |line| line.gap_m(),
    /// Number of rows.
    row_count: usize = |line| line.row_count(),
    /// Distance between rows, m.
    row_spacing_m: f64 = |line| line.row_spacing_m(),
    /// Slot between two fingers, m.
    slot_width_m: f64 = |line| line.finger().slot_width_m(),
    /// Thickness of the sheet, m.
    finger_thickness_m: f64 = |line| line.finger().thickness_m(),
    /// How far a finger runs along the depth, m.
    finger_run_m: f64 = |line| line.finger().run_m(),
    /// Resistance of one finger at its working height, ohm.
    finger_resistance_ohm: f64 = |line| line.finger().resistance_ohm(),
    /// What a narrow contact adds, H.
    finger_inductance_h: f64 = |line| line.finger().inductance_h(),
    /// Height without a counter-face, m.
    free_height_m: f64 = |line| line.free_height_m(),
    /// Height for which the resistance is told, m.
    working_height_m: f64 = |line| line.working_height_m(),
    /// Power of the inverse of the force that the resistance follows.
    force_exponent: f64 = |line| line.finger().force_exponent(),
    /// What the faces are made of.
    faces: PyMaterial = |line| PyMaterial(line.faces().clone()),
});
