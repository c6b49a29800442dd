//! A honeycomb panel as a leak.
//!
//! **Any direction.** A panel larger than the wavelength is a lattice of alike cells: all pass the wave in step, and what comes out
//! leaves along the direction that it came in. With the dominant pair of modes of the cells between two alike faces
//! ([`super::face`]), in units of 1/η₀,
//!
//! T = 2 g Z₂₁/(1 + jq)², g = ν cos θ (TE) or ν/cos θ (TM), Z₂₁ as in [`crate::waveguide::Tube`] with y = g/(1 + jq) + jb,
//! q what the wave sees beside the mode.
//!
//! Below cutoff this is α·L plus a term for the two faces. y takes in all higher modes and stored harmonics, as normal incidence sees
//! them. Against full mode matching ([`HoneycombPanel::lattice_responses`]) the closed form is therefore exact to 0.1 dB along the
//! normal, up to 0.97 of cutoff. At oblique incidence it knows nothing of the grating lobe that comes near, and promises too much:
//! [`HoneycombPanel::oblique_validity`] has the table, and `tests/honeycomb.rs` holds it to it.
//!
//! **All directions.** Below cutoff the panel hands on what it meets place by place, whatever its size ([`super::finite`]); above,
//! it is the mean of the lattice over directions, (A/2) ∫₀¹ ½(|T_TE|² + |T_TM|²) d(cos²θ), and above the range of single modes the open
//! area, A/2 times the open fraction. One is blended into the next. Behind thick walls that range ends before the cells run, at the
//! first grating lobe: the thicker the wall, the more each cell is then a tube by itself.
//!
//! The panel is taken as bonded cell to cell ([`super::FoilPanel`] is not). The joint to its frame is a part of it where one is
//! given ([`HoneycombPanel::with_frame`]): their cross-sections add, and a test reads the cells over the face and the joint along its
//! outline, each by itself.

use std::f64::consts::PI;
use std::sync::{LazyLock, OnceLock};

use num_complex::Complex64;

use super::cell::Cell;
use super::face::Face;
use super::finite::{ln_aperture, ln_dipole};
use super::frame::{FrameJoint, JointAround};
use crate::constants::{SPEED_OF_LIGHT, wavelength_m, wavenumber_per_m};
use crate::decibel::{DB_PER_NEPER, LnSum, LogTransmission};
use crate::error::{Result, check};
use crate::leak::{Extent, Leak, Polarizability};
use crate::numeric::bessel::J0_FIRST;
use crate::numeric::blend::blended;
use crate::numeric::double_exponential::over_a_share;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::Polarization;
use crate::waveguide::guide::{Shape, length};
use crate::waveguide::spectrum::circle::TE11;
use crate::waveguide::tube::{Tube, decline};

/// The lead-over to the open area starts at this fraction of the face's range.
const LEAD_OVER: f64 = 0.88;
/// Over these parts of cutoff what the finite panel hands on is blended into the mean of the lattice.
const NEAR_CUTOFF: (f64, f64) = (0.9, 1.1);
/// A panel no longer than this many wavelengths is a dipole.
const SMALL: f64 = 0.5;

/// A panel of honeycomb cells; a leak.
#[derive(Debug, Clone)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct HoneycombPanel {
    cell: Cell,
    depth_m: f64,
    width_m: f64,
    height_m: f64,
    frame: Option<FrameJoint>,
    face: OnceLock<Face>,
    tube: OnceLock<Tube>,
}

impl PartialEq for HoneycombPanel {
    fn eq(&self, other: &Self) -> bool {
        self.cell == other.cell
            && self.depth_m == other.depth_m
            && self.width_m == other.width_m
            && self.height_m == other.height_m
            && self.frame == other.frame
    }
}

impl HoneycombPanel {
    /// A panel `depth_m` deep, with an open face of `size_m` = (width, height).
    ///
    /// # Errors
    /// Unless depth, width and height are positive and finite, and the face takes at least one cell.
    pub fn new(cell: Cell, depth_m: f64, size_m: (f64, f64)) -> Result<Self> {
        length("depth_m", depth_m)?;
        length("size_m[0]", size_m.0)?;
        length("size_m[1]", size_m.1)?;
        check::at_most("cell.width_m", "m", cell.width_m(), "size_m", size_m.0.min(size_m.1))?;
        let (face, tube) = (OnceLock::new(), OnceLock::new());
        Ok(Self { cell, depth_m, width_m: size_m.0, height_m: size_m.1, frame: None, face, tube })
    }

    /// The same panel with a joint all around to its frame.
    #[must_use]
    pub fn with_frame(self, frame: FrameJoint) -> Self {
        Self { frame: Some(frame), ..self }
    }

    /// The joint to its frame, if it has one; bonded all around if not.
    #[must_use]
    pub fn frame(&self) -> Option<&FrameJoint> {
        self.frame.as_ref()
    }

    /// One of its cells.
    #[must_use]
    pub fn cell(&self) -> &Cell {
        &self.cell
    }

    /// Depth of the cells, m.
    #[must_use]
    pub fn depth_m(&self) -> f64 {
        self.depth_m
    }

    /// Width and height of the open face, m.
    #[must_use]
    pub fn size_m(&self) -> (f64, f64) {
        (self.width_m, self.height_m)
    }

    /// Area of the face, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.width_m * self.height_m
    }

    /// Number of cells: the area over that of one cell, at least one.
    #[must_use]
    pub fn cell_count(&self) -> usize {
        (self.area_m2() / self.cell.cell_area_m2()).round().max(1.0) as usize
    }

    /// Cutoff frequency of its cells, Hz.
    #[must_use]
    pub fn cutoff_hz(&self) -> f64 {
        self.cell.guide().cutoff_hz()
    }

    /// Attenuation of the dominant mode over the depth, dB: α·L, without the faces.
    #[must_use]
    pub fn attenuation_db(&self, frequency_hz: f64) -> f64 {
        DB_PER_NEPER * self.depth_m * self.cell.guide().propagation_per_m(frequency_hz).re
    }

    /// Transmission of the unbounded panel under a plane wave `angle_deg` from the normal: the tangential electric field that
    /// leaves along the wave's own direction, over the incident one.
    ///
    /// # Errors
    /// Unless the frequency is positive and finite and the angle at least 0 and less than 90 degrees.
    pub fn transmission(
        &self,
        frequency_hz: f64,
        angle_deg: f64,
        polarization: Polarization,
    ) -> Result<LogTransmission> {
        let cosine = check::incidence_angle("angle_deg", angle_deg)?.to_radians().cos();
        let wave = self.modal(check::frequency(frequency_hz)?);
        Ok(LogTransmission(wave.ln_transmission(cosine, polarization)))
    }

    /// The same as a cross-section of the finite panel, ln m²: its projected area A cos θ times |T|².
    ///
    /// Rays at the edges are left out: [`HoneycombPanel::edge_validity`] says from where on. What comes from all sides
    /// together is [`Leak::ln_cross_section`].
    ///
    /// # Errors
    /// Those of [`HoneycombPanel::transmission`].
    pub fn ln_cross_section_at(&self, frequency_hz: f64, angle_deg: f64, polarization: Polarization) -> Result<f64> {
        let passed = self.transmission(frequency_hz, angle_deg, polarization)?.ln_power();
        Ok((self.area_m2() * angle_deg.to_radians().cos()).ln() + passed)
    }

    /// Whether the panel is so large that its edges do not count at this angle: its smaller side, foreshortened, takes two
    /// wavelengths or more.
    ///
    /// A sum over the cells of finite panels of 7 by 7 cells (2 to 4 wavelengths) differs by up to 1 dB along the normal and by up to
    /// 1.6 dB at 30 degrees; at 60 degrees, TM, waves along the panel make it pass up to 6 dB more.
    pub fn edge_validity(&self, frequency_hz: f64, angle_deg: f64) -> Validity {
        let side_m = self.width_m.min(self.height_m) * angle_deg.to_radians().cos();
        Validity::within(
            "panel as a part of an unbounded one",
            "projected side / wavelength",
            "",
            side_m / wavelength_m(frequency_hz),
            (2.0, f64::INFINITY),
            "what the panel's edges diffract counts: it may pass several dB more, and far below much less, than this",
        )
    }

    /// Whether the closed form holds at this angle, against full mode matching at any azimuth: within 0.8 dB up to 0.7 of cutoff at
    /// 30 degrees, 2.5 dB up to 0.6 of it at 60 degrees, 3.3 dB up to 0.1 of it at 80 degrees; nothing is held beyond.
    pub fn oblique_validity(&self, frequency_hz: f64, angle_deg: f64) -> Validity {
        let highest = OBLIQUE.iter().find(|&&(angle, _)| angle_deg <= angle).map_or(0.0, |&(_, ratio)| ratio);
        Validity::within(
            "faces as normal incidence sees them",
            "frequency / cutoff at this angle",
            "",
            frequency_hz / self.cutoff_hz(),
            (0.0, highest),
            "a grating lobe comes near and up to 10 dB more pass than the closed form says (full mode matching has it)",
        )
    }

    /// Length of the joint all around to the frame, m. What [`FrameJoint`] does not describe (fingers, two rows, bolts) is a leak of
    /// its own of this length.
    #[must_use]
    pub fn perimeter_m(&self) -> f64 {
        2.0 * (self.width_m + self.height_m)
    }

    /// Up to where single modes describe the faces, Hz.
    pub(super) fn highest_modal_hz(&self) -> f64 {
        let face = self.face();
        LEAD_OVER * face.top / face.size_m * SPEED_OF_LIGHT / (2.0 * PI)
    }

    fn face(&self) -> &Face {
        self.face.get_or_init(|| Face::new(&self.cell))
    }

    /// What does not depend on the direction, at one frequency within the face's range (beyond, at its end).
    pub(super) fn modal(&self, frequency_hz: f64) -> Modal {
        let face = self.face();
        let k = wavenumber_per_m(frequency_hz) * face.size_m;
        let gamma = self.cell.guide().propagation_per_m(frequency_hz) * face.size_m;
        let length = self.depth_m / face.size_m;
        let [susceptance, conductance, besides] = face.at(k.min(face.top));
        Modal {
            conductance,
            susceptance,
            besides,
            round_trip: (-2.0 * gamma * length).exp(),
            once: -gamma * length,
            filling: length * decline(2.0 * gamma * length),
            gamma_squared: gamma * gamma,
        }
    }

    /// ln σ of the cells alone, m²: without the frame's joint.
    pub(super) fn ln_cells(&self, frequency_hz: f64) -> f64 {
        self.up_to_the_open_area(frequency_hz, |f| {
            let ratio = f / self.cutoff_hz();
            let (from, to) = NEAR_CUTOFF;
            if ratio <= from {
                self.ln_finite(f)
            } else if ratio >= to {
                self.ln_modal(f)
            } else {
                blended(self.ln_finite(f), self.ln_modal(f), ratio, (from, to))
            }
        })
    }

    /// ln σ by single modes, and above their range that of cells far apart or of the open area.
    fn up_to_the_open_area(&self, frequency_hz: f64, ln_modal: impl Fn(f64) -> f64) -> f64 {
        let face = self.face();
        let k = wavenumber_per_m(frequency_hz) * face.size_m;
        let start = LEAD_OVER * face.top;
        if k <= start {
            return ln_modal(frequency_hz);
        }
        let beyond = self.ln_beyond(frequency_hz);
        if k >= face.top { beyond } else { blended(ln_modal(frequency_hz), beyond, k, (start, face.top)) }
    }

    /// The open area, and of it what a cell by itself passes, the more so the thicker the wall.
    fn ln_beyond(&self, frequency_hz: f64) -> f64 {
        let apart = (self.cell.wall_m() / self.cell.width_m()).min(1.0);
        let guide = self.cell.guide();
        // Depth and cell are accepted as those of a tube.
        let tube = match self.tube.get() {
            Some(tube) => tube,
            None => match Tube::new(*guide, self.depth_m) {
                Ok(tube) => self.tube.get_or_init(|| tube),
                Err(_) => return self.ln_open(),
            },
        };
        let of_open = tube.ln_cross_section(frequency_hz) - (0.5 * guide.shape().area_m2()).ln();
        self.ln_open() + (apart * of_open).min(0.0)
    }

    /// ln of the cells' cross-section and that of the joint around them together, m².
    pub(super) fn with_joint(&self, ln_cells: f64, frequency_hz: f64) -> f64 {
        let Some(joint) = self.joint() else { return ln_cells };
        (LnSum::default() + ln_cells + joint.ln_cross_section(frequency_hz)).ln()
    }

    /// The joint as a leak of its own.
    pub(super) fn joint(&self) -> Option<JointAround> {
        self.frame.map(|joint| JointAround { joint, size_m: self.size_m() })
    }

    /// The cells alone, bonded all around.
    pub(super) fn cells(&self) -> Self {
        // What is known of the face is kept.
        self.face();
        Self { frame: None, ..self.clone() }
    }

    /// ln of what the cells pass if their amplitudes add, each cell alone a dipole, by what they pass in step.
    pub(super) fn ln_cells_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        let most = (self.cell_count() as f64).ln();
        for ((sum, &f), ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            let k = wavenumber_per_m(f);
            *sum = ln + (ln_dipole(k, self.area_m2()) - ln_aperture(k, self.size_m())).clamp(0.0, most);
        }
    }

    /// ln σ of the finite panel below cutoff, m²; never above the open area.
    fn ln_finite(&self, frequency_hz: f64) -> f64 {
        let passed = 2.0 * self.modal(frequency_hz).ln_transmission(1.0, Polarization::Te).re;
        let aperture = ln_aperture(wavenumber_per_m(frequency_hz), (self.width_m, self.height_m));
        (passed + aperture).min(self.ln_open())
    }

    /// Natural logarithm of the averaged cross-section in m² that the panel would have as a part of an unbounded one: of all cells, by
    /// the closed form, without the frame's joint.
    ///
    /// For comparison: below cutoff the edges of a real panel count, and [`Leak::ln_cross_section`] has them. Against full mode
    /// matching averaged over all directions it is within 1.8 dB up to 0.6 of cutoff and within 2.5 dB up to 0.9, for cells half a width
    /// deep or more with thin walls.
    #[must_use]
    pub fn ln_unbounded_cross_section(&self, frequency_hz: f64) -> f64 {
        self.up_to_the_open_area(frequency_hz, |f| self.ln_modal(f))
    }

    /// ln σ of the lattice of single modes, m².
    fn ln_modal(&self, frequency_hz: f64) -> f64 {
        let wave = self.modal(frequency_hz);
        let mut sum = LnSum::default();
        for &(cosine, ln_weight) in DIRECTIONS.iter() {
            for polarization in [Polarization::Te, Polarization::Tm] {
                sum += ln_weight + 2.0 * wave.ln_transmission(cosine, polarization).re;
            }
        }
        sum.ln() + (0.25 * self.area_m2()).ln()
    }

    fn ln_open(&self) -> f64 {
        (0.5 * self.area_m2() * self.cell.open_fraction()).ln()
    }
}

/// Directions (cos θ) with the logarithms of their weights in d(cos²θ).
///
/// The E field in the plane of incidence passes as 1/cos²θ almost up to grazing, so that the nodes crowd there.
pub(super) static DIRECTIONS: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    let rule = over_a_share(20, 3.2);
    rule.map(|place| (place.share, place.ln_weight + (2.0 * place.share).ln())).collect()
});

/// The dominant pair of modes between the two faces at one frequency; lengths in units of the size, admittances of k/η₀.
pub(super) struct Modal {
    conductance: f64,
    susceptance: f64,
    /// What the wave sees besides the mode, over the admittance of free space.
    besides: f64,
    once: Complex64,
    round_trip: Complex64,
    filling: Complex64,
    gamma_squared: Complex64,
}

impl Modal {
    pub(super) fn ln_transmission(&self, cosine: f64, polarization: Polarization) -> Complex64 {
        let tilt = match polarization {
            Polarization::Te => cosine,
            Polarization::Tm => 1.0 / cosine,
        };
        let beside = Complex64::new(1.0, self.besides * tilt);
        let g = self.conductance * tilt;
        let y = g / beside + Complex64::new(0.0, self.susceptance);
        let denominator = y * (1.0 + self.round_trip) + Complex64::I * (y * y - self.gamma_squared) * self.filling;
        self.once + (2.0 * g).ln() - 2.0 * beside.ln() - denominator.ln()
    }
}

impl Modal {
    /// Impedances of the even and of the odd half over that of the wave: small for a good panel.
    pub(super) fn halves(&self, cosine: f64, polarization: Polarization) -> [Complex64; 2] {
        let tilt = if polarization == Polarization::Te { cosine } else { 1.0 / cosine };
        let once = self.once.exp();
        let gamma = (1.0 - self.round_trip) / (2.0 * self.filling);
        let even = -gamma * (1.0 - once) / (1.0 + once);
        let odd = -gamma * (1.0 + once) / (1.0 - once);
        [even, odd]
            .map(|ends| -Complex64::I * (self.conductance * tilt / (self.susceptance + ends) - self.besides * tilt))
    }
}

impl Rebuild for HoneycombPanel {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let cell = knobs.enter("cell", |knobs| self.cell.rebuild(knobs))?;
        let depth_m = knobs.value("depth_m", "m", self.depth_m, Domain::POSITIVE);
        let width_m = knobs.value("width_m", "m", self.width_m, Domain::POSITIVE);
        let height_m = knobs.value("height_m", "m", self.height_m, Domain::POSITIVE);
        let panel = Self::new(cell, depth_m, (width_m, height_m))?;
        match &self.frame {
            None => Ok(panel),
            Some(frame) => Ok(panel.with_frame(knobs.enter("frame", |knobs| frame.rebuild(knobs))?)),
        }
    }
}

impl Leak for HoneycombPanel {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        self.with_joint(self.ln_cells(frequency_hz), frequency_hz)
    }

    fn extent(&self) -> Extent {
        Extent::Area { width_m: self.width_m, height_m: self.height_m, elements: self.cell_count() }
    }

    fn each_part(&self, visit: &mut dyn FnMut(&dyn Leak)) {
        match self.joint() {
            None => visit(self),
            Some(joint) => {
                visit(&self.cells());
                visit(&joint);
            }
        }
    }

    /// The cells pass in step already: up to a panel of half a wavelength nothing is added.
    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        self.ln_cells_in_amplitude(frequency_hz, ln_cross_section, out);
    }

    /// Magnetic alone, both axes alike, as long as the panel is no longer than half a wavelength: α = |T_n| A/2k. The electric one is
    /// taken as half of it, as of a round hole, times what the lowest TM mode loses more over the depth: an estimate. A panel with a
    /// joint to its frame has none, but its cells have.
    fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
        if self.frame.is_some() || self.width_m.max(self.height_m) > SMALL * wavelength_m(frequency_hz) {
            return None;
        }
        let guide = self.cell.guide();
        let passed = self.modal(frequency_hz).ln_transmission(1.0, Polarization::Te).re;
        let magnetic_m3 = (passed + (0.5 * self.area_m2() / wavenumber_per_m(frequency_hz)).ln()).exp();
        let more = lowest_tm_over_te(guide.shape()) - 1.0;
        let fall = (-more * guide.dominant().cutoff_wavenumber_per_m() * self.depth_m).exp();
        Some(Polarizability {
            electric_m3: 0.5 * magnetic_m3 * fall,
            magnetic_along_m3: magnetic_m3,
            magnetic_across_m3: magnetic_m3,
        })
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let oblique = Validity::within(
            "faces without grating lobes",
            "frequency / cutoff",
            "",
            frequency_hz / self.cutoff_hz(),
            (0.0, (self.highest_modal_hz() / self.cutoff_hz()).min(0.85)),
            "oblique waves pass several dB more than the closed form says (full mode matching has them)",
        );
        Validity::within(
            "single modes at the faces",
            "depth / cell width",
            "",
            self.depth_m / self.cell.width_m(),
            (0.5, f64::INFINITY),
            "higher modes reach from face to face and let more through",
        )
        .and(oblique)
        .and(self.cell.validity(frequency_hz))
        .and(self.frame.as_ref().map_or_else(|| Validity::Holds, |frame| frame.validity(frequency_hz)))
    }
}

/// Angle up to which, and part of cutoff up to which the closed form holds there.
const OBLIQUE: [(f64, f64); 4] = [(10.0, 0.97), (30.0, 0.7), (60.0, 0.6), (80.0, 0.1)];

/// Cutoff of the lowest TM mode over that of the dominant TE mode.
fn lowest_tm_over_te(shape: &Shape) -> f64 {
    match shape {
        Shape::Circle { .. } => J0_FIRST / TE11,
        Shape::Rectangle { .. } => std::f64::consts::SQRT_2,
        Shape::Hexagon { .. } => 2.674_946_566_552 / 2.010_778_631_921,
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    cell: Cell,
    depth_m: f64,
    size_m: (f64, f64),
    /// Absent where the panel is bonded all around.
    #[serde(default)]
    frame: Option<FrameJoint>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for HoneycombPanel {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let panel = Self::new(record.cell, record.depth_m, record.size_m)?;
        Ok(match record.frame {
            Some(frame) => panel.with_frame(frame),
            None => panel,
        })
    }
}

#[cfg(feature = "serde")]
impl From<HoneycombPanel> for Record {
    fn from(panel: HoneycombPanel) -> Self {
        Self { cell: panel.cell, depth_m: panel.depth_m, size_m: panel.size_m(), frame: panel.frame }
    }
}
