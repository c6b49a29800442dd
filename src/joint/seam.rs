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

use super::bay::{Bay, BayShape, Passed};
use super::contact::Contact;
use super::equal_pieces::{Kind, coherence_in_row, line_directivity, ln_alone, ln_in_row};
use super::face::Face;
use super::fastener::Fastener;
use super::lanes::{SeamKernel, in_lanes};
use crate::constants::wavenumber_per_m;
use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::mouth::chain::ln_mode_area;
use crate::mouth::slit::narrow_gap;
use crate::parameter::{Element, Knobs, Rebuild};
use crate::validity::Validity;

/// A seam between two panels, with fasteners at equal distances.
///
/// Fasteners press the faces together through the whole depth of the overlap, and leave an impedance of their own
/// ([`Fastener`]); between them the faces touch only as far as the contact says (none by default, which is the
/// cautious assumption). Whatever of that is not stated takes a default of the usual size (common practice, no
/// source): 0.25 mohm a fastener, contact in spots of 0.1 mm radius 10 mm apart, faces of 20 µm of zinc on steel.
/// [`validity`](Leak::validity) says where a default for fasteners or contact decides the number.
///
/// Contact and fasteners are stated for a gap. In another one, as in a sweep over the gap, their resistance and
/// inductance follow the gap in proportion: with values that stayed, an opened joint would get better. What is left is
/// that waves in a narrow gap between lossy faces are slow, so that a bay resonates a little later in a wider one.
///
/// ```
/// use stillroom::{joint::Seam, leak::Leak};
/// let seam = Seam::new(42.0, 0.1, 20e-6, 25e-3)?;
/// // The bays resonate from half a wavelength on (1.5 GHz): below, the seam is tight.
/// assert!(seam.ln_cross_section(100e6) < seam.ln_cross_section(3e9) - 5.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(length_m, fastener_pitch_m, gap_m, overlap_m), settle)]
pub struct Seam {
    /// Length of the seam.
    #[parameter(positive)]
    length_m: f64,
    /// Distance between fasteners.
    #[parameter(positive, at_most = length_m)]
    fastener_pitch_m: f64,
    /// Gap between the faces.
    #[parameter(positive, less_than = fastener_pitch_m)]
    gap_m: f64,
    /// Depth of the overlap.
    #[parameter(non_negative)]
    overlap_m: f64,
    /// Contact between the faces.
    #[part(flat, copy, walk = walk_contact, default = Contact::default(), setter = none)]
    contact: Contact,
    /// One fastener.
    #[part(flat, copy, free, walk = walk_fastener, default = Fastener::default(), setter = with_fastener)]
    fastener: Fastener,
    /// The faces.
    #[part(flat, default = Face::galvanised()?, setter = none)]
    faces: Face,
    /// Numbers of the fasteners that are loose or missing, from 1 (the first after the start) to one less than the
    /// number of bays. Each makes one bay of its two, without contact.
    #[kept(default = Vec::new(), setter = none)]
    open_fasteners: Vec<usize>,
    /// Gap beside those. That of the seam where not given.
    #[parameter(positive, less_than = fastener_pitch_m, also = "at least the gap", setter = none)]
    open_gap_m: Option<f64>,
    #[worked_out(BayShape::new(fastener_pitch_m, gap_m))]
    sound: BayShape,
    #[worked_out(Vec::new())]
    open: Vec<OpenBays>,
}

/// Bays that as many open fasteners each have made one.
#[derive(Debug, Clone, PartialEq)]
struct OpenBays {
    pitches: usize,
    count: usize,
    shape: BayShape,
}

impl Seam {
    fn settle(mut self) -> Result<Self> {
        self.contact = self.contact.or_at_gap(self.gap_m);
        if let Some(open_gap_m) = self.open_gap_m {
            check::at_most("gap_m", "m", self.gap_m, "open_gap_m", open_gap_m)?;
        }
        let last = (self.bays().round() - 1.0).max(0.0);
        let as_numbers = |fasteners: &[usize]| fasteners.iter().map(|&number| number as f64).collect::<Vec<_>>();
        let accepted = "a fastener of the row, from 1 to one less than its bays";
        let is_there = |number| (1.0..=last).contains(&number);
        check::all("open_fasteners", "", &as_numbers(&self.open_fasteners), accepted, is_there)?;
        self.open_fasteners.sort_unstable();
        check::increasing("open_fasteners", "", &as_numbers(&self.open_fasteners))?;
        if !self.open_fasteners.is_empty() {
            self.open_gap_m = self.open_gap_m.or(Some(self.gap_m));
        }
        let neighbours = self.open_fasteners.chunk_by(|before, after| before + 1 == *after);
        let mut pitches: Vec<usize> = neighbours.map(|run| run.len() + 1).collect();
        pitches.sort_unstable();
        let open_gap_m = self.open_gap_m.unwrap_or(self.gap_m);
        let of_one_kind = |alike: &[usize]| {
            let shape = BayShape::new(alike[0] as f64 * self.fastener_pitch_m, open_gap_m);
            OpenBays { pitches: alike[0], count: alike.len(), shape }
        };
        self.open = pitches.chunk_by(|one, other| one == other).map(of_one_kind).collect();
        Ok(self)
    }

    /// The same seam with contact between its faces, stated for its present gap where the contact does not say.
    #[must_use]
    pub fn with_contact(self, contact: Contact) -> Self {
        Self { contact: contact.or_at_gap(self.gap_m), ..self }
    }

    /// The same seam with other faces: of a solid material, or a [`Face`] with a coating or of a thin sheet.
    #[must_use]
    pub fn with_faces(self, faces: impl Into<Face>) -> Self {
        Self { faces: faces.into(), ..self }
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
    pub fn with_open_fasteners(self, numbers: Vec<usize>, open_gap_m: f64) -> Result<Self> {
        let Self { length_m, fastener_pitch_m, gap_m, overlap_m, contact, fastener, faces, .. } = self;
        let open_gap_m = Some(open_gap_m);
        Self::checked(length_m, fastener_pitch_m, gap_m, overlap_m, contact, fastener, faces, numbers, open_gap_m)
    }

    /// Number of bays; the last one may be a part.
    #[must_use]
    pub fn bays(&self) -> f64 {
        self.length_m / self.fastener_pitch_m
    }
}

impl Seam {
    /// What nobody stated is listed as what stands in for it, and stays unstated while its number is not changed.
    fn walk_contact(&self, knobs: &mut Knobs<'_>) -> Result<Contact> {
        let contact = self.contact;
        if contact.is_stated() {
            return contact.rebuild(knobs);
        }
        let stated_gap_m = contact.contact_gap_m().unwrap_or(self.gap_m);
        let usual = contact.inductance_in_h_m(stated_gap_m, self.overlap_m).min(1.0);
        let stated = contact.with_inductance(usual)?.rebuild(knobs)?;
        Ok(if stated.contact_inductance_h_m() == Some(usual) { stated.without_inductance() } else { stated })
    }

    /// The same of fasteners.
    fn walk_fastener(&self, knobs: &mut Knobs<'_>) -> Result<Fastener> {
        let usual = Fastener::new(self.fastener.resistance_ohm(), self.fastener.inductance_h())?;
        let stated = usual.rebuild(knobs)?;
        Ok(if stated == usual { self.fastener } else { stated })
    }

    /// Bays of each kind, the sound ones first, and how many there are of it.
    fn kinds(&self) -> Vec<(Bay<'_>, f64)> {
        let opened = self.gap_m / self.contact.contact_gap_m().unwrap_or(self.gap_m);
        let fastener = self.fastener.stretched(opened);
        let bay = |shape, contact| Bay { shape, overlap_m: self.overlap_m, contact, fastener, face: &self.faces };
        let merged: f64 = self.open.iter().map(|open| (open.pitches * open.count) as f64).sum();
        let sound = (self.bays() - merged).max(0.0);
        let mut kinds = Vec::with_capacity(1 + self.open.len());
        if sound > 0.0 {
            kinds.push((bay(&self.sound, self.contact), sound));
        }
        // Beside an open fastener the faces no longer press on each other: no contact.
        kinds.extend(self.open.iter().map(|open| (bay(&open.shape, Contact::default()), open.count as f64)));
        kinds
    }

    /// ln of what all pass together, over λ²/4π, by what each passes for itself.
    fn ln_together(&self, frequency_hz: f64, kinds: impl Iterator<Item = (f64, Passed)> + Clone) -> f64 {
        let coherence = coherence_in_row(wavenumber_per_m(frequency_hz), self.fastener_pitch_m, self.bays());
        ln_in_row(kinds.map(|(count, passed)| Kind { count, passed }), coherence)
    }
}

impl Leak for Seam {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let passed: Vec<_> = self.kinds().into_iter().map(|(bay, count)| (count, bay.passed(frequency_hz))).collect();
        ln_mode_area(wavenumber_per_m(frequency_hz)) + self.ln_together(frequency_hz, passed.iter().copied())
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let fill = |frequency_hz: &[f64], out: &mut [f64]| {
            let kinds = self.kinds();
            let bays = kinds.iter().map(|(bay, _)| bay.in_lanes(frequency_hz)).collect();
            let wavenumbers = frequency_hz.iter().map(|&f| wavenumber_per_m(f)).collect();
            let bays = SeamKernel::new(wavenumbers, bays).run_all();
            for (place, (ln, &f)) in out.iter_mut().zip(frequency_hz).enumerate() {
                let passed = kinds.iter().zip(&bays).map(|((bay, count), columns)| {
                    (*count, bay.with_all_modes(f, columns.ln_lowest[place], columns.ln_rest[place]))
                });
                let passed: Vec<_> = passed.collect();
                *ln = ln_mode_area(wavenumber_per_m(f)) + self.ln_together(f, passed.iter().copied());
            }
        };
        in_lanes(frequency_hz, out, fill, |f| self.ln_cross_section(f));
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        if self.open.is_empty() {
            let row = (self.fastener_pitch_m, self.bays());
            for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
                *sum = ln_alone(ln, wavenumber_per_m(f), row) + 2.0 * row.1.ln();
            }
            return;
        }
        // Unequal bays: each by itself.
        let kinds = self.kinds();
        for (ln, &f) in out.iter_mut().zip(frequency_hz) {
            let roots = kinds.iter().map(|(bay, count)| count.ln() + 0.5 * bay.passed(f).ln());
            *ln = 2.0 * roots.fold(LnSum::default(), |sum, ln| sum + ln).ln() + ln_mode_area(wavenumber_per_m(f));
        }
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.length_m, elements: (self.bays().round() as usize).max(1) }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        line_directivity(wavenumber_per_m(frequency_hz), self.fastener_pitch_m, self.bays())
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m.max(self.open_gap_m.unwrap_or(0.0)), frequency_hz)
            .and(Validity::within(
                "seam",
                "gap / fastener pitch",
                "",
                self.gap_m / self.fastener_pitch_m,
                (0.0, 0.2),
                "the bay is no slit; a row of rectangular slots describes it better",
            ))
            .and(self.faces.validity(frequency_hz))
            .and(self.defaults(frequency_hz))
    }
}

/// A default that moves a number by more than this many nepers of amplitude is told: 1 dB.
const TOLD: f64 = 0.115;

impl Seam {
    /// Whether what nobody stated decides the number.
    fn defaults(&self, frequency_hz: f64) -> Validity {
        let at = self.contact.admittance_s_per_m(frequency_hz, self.gap_m, self.overlap_m);
        let turned = at.im.abs() > TOLD * at.re;
        let contact = Validity::given(
            "seam",
            "of a stated contact inductance",
            self.contact.is_stated() || !turned,
            "that of contact spots of 0.1 mm every 10 mm stands in (common practice, no source), and decides",
        );
        let kinds = self.kinds();
        let raised = kinds.iter().any(|(bay, _)| bay.ln_raised(frequency_hz) > TOLD);
        let fastener = Validity::given(
            "seam",
            "of a stated fastener impedance",
            self.fastener.is_stated() || !raised,
            "0.25 mohm each stands in (common practice, no source), and decides",
        );
        contact.and(fastener)
    }
}
