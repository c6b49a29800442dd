//! A bolted seam: a slit through an overlap, shorted by fasteners.
//!
//! Between two fasteners, a pitch p apart, the gap g of the overlap carries modes sin(mπx/p) that run
//! through its depth d with
//!
//! γ² = β² + (jωμ₀ + 2Z_s/g)(jωε₀ + g y/d),   β = mπ/p,
//!
//! Z_s the surface impedance of the faces and y the contact admittance per length of seam. Below
//! half a wavelength of pitch every mode is cut off in length: the bay is a short slot. Above, waves
//! run through the overlap, since the field across a gap has no cutoff, and only contact and wall loss
//! weaken them. Both mouths radiate as the slit does that is complementary to a flat wire.
//!
//! Source of the line equations: S. A. Schelkunoff, *Electromagnetic Waves*, 1943, ch. 7 (from
//! memory); of their use for seams, derived here.

use num_complex::Complex64;

use super::lanes::{BayColumns, SeamKernel, in_lanes};
use super::row::{gain_in_row, ln_alone};
use crate::complex::decaying_root;
use crate::constants::{VACUUM_IMPEDANCE, wavelength_m, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::opening::{Chain, ln_mode_area};
use crate::wave::slit::{Slit, narrow_gap};

/// A seam between two panels, with fasteners at equal distances.
///
/// Fasteners short the gap through the whole depth of the overlap; between them the faces touch only
/// as far as the contact admittance says (none by default, which is the cautious assumption).
///
/// ```
/// use stillroom::{joint::Seam, leak::Leak};
/// let seam = Seam::new(42.0, 0.1, 20e-6, 25e-3)?;
/// // The bays resonate from half a wavelength on (1.5 GHz): below, the seam is tight.
/// assert!(seam.ln_cross_section(100e6) < seam.ln_cross_section(3e9) - 5.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct Seam {
    length_m: f64,
    fastener_pitch_m: f64,
    gap_m: f64,
    overlap_m: f64,
    contact: Contact,
    faces: Material,
    slit: Slit,
    open_fasteners: Vec<usize>,
    open_gap_m: f64,
    open_bays: Vec<OpenBay>,
}

/// Neighbouring bays that open fasteners have made one.
#[derive(Debug, Clone, PartialEq)]
struct OpenBay {
    pitches: usize,
    gap_m: f64,
    slit: Slit,
}

/// Contact between the faces of an overlap, per length of seam.
///
/// A conductance in series with an inductance: y = 1/(1/G + jωL). What presses, plates and ages the
/// faces decides both, so that they are knobs with a tolerance and no constants.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "ContactRecord"))]
pub struct Contact {
    conductance_s_per_m: f64,
    inductance_h_m: f64,
}

impl Contact {
    /// From a conductance per length (S/m) and an inductance times length (H m).
    ///
    /// # Errors
    /// Unless both are zero or positive, the conductance finite and the inductance at most 1 H m.
    pub fn new(conductance_s_per_m: f64, inductance_h_m: f64) -> Result<Self> {
        Ok(Self {
            conductance_s_per_m: check::non_negative("contact_conductance_s_per_m", "S/m", conductance_s_per_m)?,
            inductance_h_m: check::within(
                "contact_inductance_h_m",
                "H m",
                inductance_h_m,
                (0.0, 1.0),
                "zero or positive, at most 1 H m",
            )?,
        })
    }

    /// Conductance per length of seam, S/m.
    #[must_use]
    pub fn conductance_s_per_m(&self) -> f64 {
        self.conductance_s_per_m
    }

    /// Inductance times length of seam, H m.
    #[must_use]
    pub fn inductance_h_m(&self) -> f64 {
        self.inductance_h_m
    }

    /// Admittance per length, S/m.
    #[must_use]
    pub fn admittance_s_per_m(&self, frequency_hz: f64) -> Complex64 {
        let reactance = 2.0 * std::f64::consts::PI * frequency_hz * self.inductance_h_m;
        self.conductance_s_per_m / Complex64::new(1.0, reactance * self.conductance_s_per_m)
    }
}

impl Seam {
    /// A seam of this length with a fastener every `fastener_pitch_m`, a gap and a depth of overlap,
    /// all in m. Faces of zinc, no contact between the fasteners.
    ///
    /// # Errors
    /// Unless length, pitch and gap are positive and the overlap zero or positive, all finite; the
    /// pitch at most the length, the gap smaller than the pitch.
    pub fn new(length_m: f64, fastener_pitch_m: f64, gap_m: f64, overlap_m: f64) -> Result<Self> {
        let length_m = check::positive("length_m", "m", length_m)?;
        let fastener_pitch_m = check::positive("fastener_pitch_m", "m", fastener_pitch_m)?;
        let fastener_pitch_m = check::at_most("fastener_pitch_m", "m", fastener_pitch_m, "length_m", length_m)?;
        let gap_m = check::positive("gap_m", "m", gap_m)?;
        Ok(Self {
            length_m,
            fastener_pitch_m,
            gap_m: check::less_than("gap_m", "m", gap_m, "fastener_pitch_m", fastener_pitch_m)?,
            overlap_m: check::non_negative("overlap_m", "m", overlap_m)?,
            contact: Contact::default(),
            faces: catalogue::get("zinc")?,
            slit: Slit::new(fastener_pitch_m, gap_m),
            open_fasteners: Vec::new(),
            open_gap_m: gap_m,
            open_bays: Vec::new(),
        })
    }

    /// The same seam with contact between its faces.
    #[must_use]
    pub fn with_contact(mut self, contact: Contact) -> Self {
        self.contact = contact;
        self
    }

    /// The same seam with faces of another material.
    #[must_use]
    pub fn with_faces(mut self, faces: Material) -> Self {
        self.faces = faces;
        self
    }

    /// The same seam with some of its fasteners loose or missing: each opens its two bays into one of
    /// twice the length (neighbours into a longer one still) with the gap `open_gap_m` and no contact.
    /// A missing fastener and a loose one differ by that gap.
    ///
    /// Fasteners are numbered from 1, the first after the start of the seam, to one less than the
    /// number of bays.
    ///
    /// # Errors
    /// For a number outside the row or given twice, with its place in the list; for a gap that is smaller
    /// than the nominal one or not smaller than the pitch.
    pub fn with_open_fasteners(mut self, mut numbers: Vec<usize>, open_gap_m: f64) -> Result<Self> {
        let open_gap_m = check::positive("open_gap_m", "m", open_gap_m)?;
        check::at_most("gap_m", "m", self.gap_m, "open_gap_m", open_gap_m)?;
        check::less_than("open_gap_m", "m", open_gap_m, "fastener_pitch_m", self.fastener_pitch_m)?;
        let last = (self.bays().round() - 1.0).max(0.0);
        let values: Vec<f64> = numbers.iter().map(|&number| number as f64).collect();
        check::all("open_fasteners", "", &values, "a fastener of the row, from 1 to one less than its bays", |n| {
            n >= 1.0 && n <= last
        })?;
        numbers.sort_unstable();
        let sorted: Vec<f64> = numbers.iter().map(|&number| number as f64).collect();
        check::increasing("open_fasteners", "", &sorted)?;
        self.open_bays = numbers
            .chunk_by(|before, after| before + 1 == *after)
            .map(|run| {
                let pitches = run.len() + 1;
                let slit = Slit::new(pitches as f64 * self.fastener_pitch_m, open_gap_m);
                OpenBay { pitches, gap_m: open_gap_m, slit }
            })
            .collect();
        self.open_fasteners = numbers;
        self.open_gap_m = open_gap_m;
        Ok(self)
    }

    /// Numbers of the fasteners that are loose or missing, in order.
    #[must_use]
    pub fn open_fasteners(&self) -> &[usize] {
        &self.open_fasteners
    }

    /// Gap beside an open fastener, m; the nominal one where none is open.
    #[must_use]
    pub fn open_gap_m(&self) -> f64 {
        self.open_gap_m
    }

    /// Length of the seam, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Distance between fasteners, m.
    #[must_use]
    pub fn fastener_pitch_m(&self) -> f64 {
        self.fastener_pitch_m
    }

    /// Gap between the faces, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.gap_m
    }

    /// Depth of the overlap, m.
    #[must_use]
    pub fn overlap_m(&self) -> f64 {
        self.overlap_m
    }

    /// Contact between the faces.
    #[must_use]
    pub fn contact(&self) -> Contact {
        self.contact
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.faces
    }

    /// Number of bays; the last one may be a part.
    #[must_use]
    pub fn bays(&self) -> f64 {
        self.length_m / self.fastener_pitch_m
    }
}

/// A length far below that of an atom: what is smaller is computed as if it had this size.
pub(super) const LEAST_M: f64 = 1e-15;

/// What a gap between two faces is to a wave that runs through it, at one frequency.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gap {
    /// Series impedance relative to jωμ₀: 1 + 2Z_s/(jωμ₀ g).
    pub series: Complex64,
    /// −k² times that.
    pub minus_k_squared: Complex64,
}

impl Gap {
    pub(super) fn new(frequency_hz: f64, gap_m: f64, faces: &Material) -> Self {
        let (k, gap_m) = (wavenumber_per_m(frequency_hz), gap_m.max(LEAST_M));
        let medium = faces.medium(frequency_hz);
        let face = decaying_root(medium.relative_permeability / medium.relative_permittivity);
        // Z_s/(jωμ₀) = face/(jk)
        let series = 1.0 + 2.0 * face / Complex64::new(0.0, k * gap_m);
        Self { series, minus_k_squared: -k * k * series }
    }
}

impl Rebuild for Seam {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let seam = Self::new(
            knobs.value("length_m", "m", self.length_m, "positive"),
            knobs.value("fastener_pitch_m", "m", self.fastener_pitch_m, "positive, at most the length"),
            knobs.value("gap_m", "m", self.gap_m, "positive, smaller than the pitch"),
            knobs.value("overlap_m", "m", self.overlap_m, "zero or positive"),
        )?;
        let conductance = self.contact.conductance_s_per_m;
        let contact = Contact::new(
            knobs.value("contact_conductance_s_per_m", "S/m", conductance, "zero or positive"),
            knobs.value("contact_inductance_h_m", "H m", self.contact.inductance_h_m, "zero or positive"),
        )?;
        let seam = seam.with_contact(contact).with_faces(knobs.enter("faces", |knobs| self.faces.rebuild(knobs))?);
        if self.open_fasteners.is_empty() {
            return Ok(seam);
        }
        let open_gap_m = knobs.value("open_gap_m", "m", self.open_gap_m, "at least the gap, smaller than the pitch");
        seam.with_open_fasteners(self.open_fasteners.clone(), open_gap_m)
    }
}

/// What one bay between two fasteners passes.
struct Bay<'a> {
    slit: &'a Slit,
    gap_m: f64,
    overlap_m: f64,
    contact: Contact,
    faces: &'a Material,
}

impl Bay<'_> {
    /// jωμ₀ g y: the contact of the whole depth, referred to the section of the gap.
    fn contact_per_m(&self, frequency_hz: f64) -> Complex64 {
        let reference = Complex64::new(0.0, wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * self.gap_m);
        reference * self.contact.admittance_s_per_m(frequency_hz)
    }

    /// Whether there is a depth to run through, or the contact is all there is between the mouths.
    fn depth_m(&self) -> Option<f64> {
        (self.overlap_m > LEAST_M).then_some(self.overlap_m)
    }

    /// Prepared for many frequencies; `gain` as for [`ln_transmission`](Self::ln_transmission).
    fn in_lanes(&self, count: f64, frequency_hz: &[f64], gain: impl Fn(f64) -> f64) -> BayColumns {
        let each = frequency_hz.iter().copied();
        let gaps: Vec<Gap> = each.clone().map(|f| Gap::new(f, self.gap_m, self.faces)).collect();
        BayColumns {
            minus_k_squared: gaps.iter().map(|gap| gap.minus_k_squared).collect(),
            series: gaps.iter().map(|gap| gap.series).collect(),
            contact: each.clone().map(|f| self.contact_per_m(f)).collect(),
            gain: each.map(gain).collect(),
            ..BayColumns::new(self.slit, self.depth_m(), count)
        }
    }

    /// ln Σ T, with the lowest mode helped by `gain` from the bays beside it.
    fn ln_transmission(&self, frequency_hz: f64, gain: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let gap = Gap::new(frequency_hz, self.gap_m, self.faces);
        let contact = self.contact_per_m(frequency_hz);
        let chain = |beta: f64| match self.depth_m() {
            Some(depth_m) => {
                let gamma_squared = beta * beta + gap.minus_k_squared + gap.series * contact / depth_m;
                Chain::through().line(gamma_squared, gap.series, depth_m)
            }
            None => Chain::through().shunt(contact),
        };
        let ln_first = chain(self.slit.beta(1)).ln_transmission(self.slit.mouth(1, k));
        // The gain of a row cannot take a bay beyond full transmission.
        let ln_gain = gain.ln() - (ln_first.exp() * (gain - 1.0)).max(-0.5).ln_1p();
        (LnSum::default() + (ln_first + ln_gain) + self.slit.ln_modes(2, k, chain, |_| 1.0)).ln()
    }
}

impl Seam {
    /// A bay whose fasteners hold, and how many of these there are.
    fn sound(&self) -> (Bay<'_>, f64) {
        let merged: f64 = self.open_bays.iter().map(|bay| bay.pitches as f64).sum();
        let bay = Bay {
            slit: &self.slit,
            gap_m: self.gap_m,
            overlap_m: self.overlap_m,
            contact: self.contact,
            faces: &self.faces,
        };
        (bay, (self.bays() - merged).max(0.0))
    }

    /// The bays that open fasteners have made: the faces no longer press on each other, no contact.
    fn opened(&self) -> impl Iterator<Item = Bay<'_>> {
        self.open_bays.iter().map(|open| Bay {
            slit: &open.slit,
            gap_m: open.gap_m,
            overlap_m: self.overlap_m,
            contact: Contact::default(),
            faces: &self.faces,
        })
    }
}

impl Leak for Seam {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let (bay, sound) = self.sound();
        let mut sum = LnSum::default();
        if sound > 0.0 {
            let gain = gain_in_row(k, self.fastener_pitch_m, sound);
            sum += sound.ln() + bay.ln_transmission(frequency_hz, gain);
        }
        for bay in self.opened() {
            sum += bay.ln_transmission(frequency_hz, 1.0);
        }
        ln_mode_area(k) + sum.ln()
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let fill = |frequency_hz: &[f64], out: &mut [f64]| {
            let (bay, sound) = self.sound();
            let gain = |f: f64| gain_in_row(wavenumber_per_m(f), self.fastener_pitch_m, sound);
            let mut bays: Vec<BayColumns> = self.opened().map(|bay| bay.in_lanes(1.0, frequency_hz, |_| 1.0)).collect();
            if sound > 0.0 {
                bays.push(bay.in_lanes(sound, frequency_hz, gain));
            }
            let wavenumber_per_m = frequency_hz.iter().map(|&f| wavenumber_per_m(f)).collect();
            SeamKernel { wavenumber_per_m, bays, out, open: Vec::new() }.run_all();
        };
        in_lanes(frequency_hz, out, fill, |f| self.ln_cross_section(f));
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        let (bay, sound) = self.sound();
        let row = (self.fastener_pitch_m, sound);
        if self.open_bays.is_empty() {
            for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
                *sum = ln_alone(ln, wavenumber_per_m(f), row) + 2.0 * sound.ln();
            }
            return;
        }
        // Unequal bays: each by itself.
        let ln_root = |bay: &Bay<'_>, f: f64| 0.5 * bay.ln_transmission(f, 1.0);
        for (ln, &f) in out.iter_mut().zip(frequency_hz) {
            let mut sum = LnSum::default();
            if sound > 0.0 {
                sum += sound.ln() + ln_root(&bay, f);
            }
            for bay in self.opened() {
                sum += ln_root(&bay, f);
            }
            *ln = 2.0 * sum.ln() + ln_mode_area(wavenumber_per_m(f));
        }
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.length_m, elements: (self.bays().round() as usize).max(1) }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        // From the dipole's 3 to the 4p/λ of a line source as long as a bay.
        (4.0 * self.fastener_pitch_m / wavelength_m(frequency_hz)).hypot(3.0)
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m, frequency_hz)
            .and(Validity::within(
                "seam",
                "gap / fastener pitch",
                "",
                self.gap_m / self.fastener_pitch_m,
                (0.0, 0.2),
                "the bay is no slit; a row of rectangular slots describes it better",
            ))
            .and(self.faces.validity(frequency_hz))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    fastener_pitch_m: f64,
    gap_m: f64,
    overlap_m: f64,
    #[serde(default)]
    contact_conductance_s_per_m: f64,
    #[serde(default)]
    contact_inductance_h_m: f64,
    #[serde(default)]
    faces: Option<Material>,
    #[serde(default)]
    open_fasteners: Vec<usize>,
    #[serde(default)]
    open_gap_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Seam {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let seam = Self::new(record.length_m, record.fastener_pitch_m, record.gap_m, record.overlap_m)?
            .with_contact(Contact::new(record.contact_conductance_s_per_m, record.contact_inductance_h_m)?);
        let seam = match record.faces {
            Some(faces) => seam.with_faces(faces),
            None => seam,
        };
        if record.open_fasteners.is_empty() {
            return Ok(seam);
        }
        let open_gap_m = record.open_gap_m.unwrap_or(record.gap_m);
        seam.with_open_fasteners(record.open_fasteners, open_gap_m)
    }
}

#[cfg(feature = "serde")]
impl From<Seam> for Record {
    fn from(seam: Seam) -> Self {
        Self {
            length_m: seam.length_m,
            fastener_pitch_m: seam.fastener_pitch_m,
            gap_m: seam.gap_m,
            overlap_m: seam.overlap_m,
            contact_conductance_s_per_m: seam.contact.conductance_s_per_m,
            contact_inductance_h_m: seam.contact.inductance_h_m,
            open_gap_m: Some(seam.open_gap_m),
            open_fasteners: seam.open_fasteners,
            faces: Some(seam.faces),
        }
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct ContactRecord {
    conductance_s_per_m: f64,
    inductance_h_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<ContactRecord> for Contact {
    type Error = crate::Error;
    fn try_from(record: ContactRecord) -> Result<Self> {
        Self::new(record.conductance_s_per_m, record.inductance_h_m)
    }
}
