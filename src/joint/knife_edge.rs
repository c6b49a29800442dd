//! A knife-edge door: a blade in a channel, with rows of fingers on both of its sides.
//!
//! What gets in runs down one side of the blade, around its edge and up the other side, through a row of fingers
//! after the other. Between two rows lies a pocket, that is a piece of line as in [`rows`](super::rows): γ² = β² − k²
//! (1 + 2Z_s/(jωμ₀ h)) for a height h, series impedance jωμ₀ h and 2Z_s. The chain, from outside in:
//!
//! mouth – line to the first row – row – (line – row)… – pocket under the edge – the same back – mouth.
//!
//! Lines are as long as the middle of the way: the pocket under the edge is what is left of the depth on both sides,
//! with half of the clearance, and the blade's thickness with one gap. Where heights change, voltage and current go on
//! without a step; what is stored in the corners is left out, which is right for heights well below half a wavelength.
//! Below its first resonance a pocket is a series inductance between rows, which makes two rows much better than one;
//! from there on some direction along the joint always meets a resonance.

use num_complex::Complex64;

use super::bay::Gap;
use super::contact_line::check_rows;
use super::fingers::FingerRow;
use super::rows_in_gap::RowsInGap;
use crate::error::{Result, check};
use crate::lanes::{Complex, Real, Simd, in_parts, paired};
use crate::leak::{Extent, Leak};
use crate::material::Material;
use crate::mouth::chain::Chain;
use crate::mouth::chain_lanes::ChainLanes;
use crate::mouth::slit::narrow_gap;
use crate::mouth::slit_angles::AtAnyAngle;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// A blade in a channel around a door, with rows of fingers on both of its sides.
///
/// A wider gap takes force from the fingers and makes straight ones longer, which is worse, and makes the space between
/// rows larger, which is better. For leaves of a long run the second just about wins at high frequency: what opens the
/// gap of a real door also costs contact, and fingers that touch badly are not in the model.
///
/// ```
/// use stillroom::{joint::{Finger, FingerRow, KnifeEdge}, leak::Leak, Parameters};
/// // Fingers every 4 mm with slots of 0.4 mm, of 0.1 mm sheet, 8 mm from root to contact.
/// let finger = Finger::new(5e-3, 0.4e-3)?.with_thickness(0.1e-3)?.with_run(8e-3)?;
/// let door = KnifeEdge::new(6.0, 2e-3, 25e-3, FingerRow::new(4e-3, finger)?)?;
/// // Two rows, and slots twice as wide: some 30 dB worse.
/// let wider = door.with_parameter("fingers.slot_width_m", 0.8e-3)?;
/// assert!(wider.ln_cross_section(10e9) > door.ln_cross_section(10e9) + 6.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct KnifeEdge {
    sides: RowsInGap,
    blade_depth_m: f64,
    blade_thickness_m: f64,
    edge_clearance_m: f64,
    mouth_depth_m: f64,
    row_count: usize,
    fingers: FingerRow,
}

impl KnifeEdge {
    /// A door of this perimeter, with the gap between the blade and either wall of its channel, the depth that the
    /// blade goes into it, all in m, and the fingers of a row: one row on each side, 3 mm behind the mouth (at most a
    /// quarter of the depth), blade 6 mm thick, 3 mm between its edge and the bottom, faces of tin (common practice,
    /// no source). Fingers whose heights are not told are taken as pressed to half of their free height.
    ///
    /// # Errors
    /// Unless all are positive and finite, gap and pitch at most the length, the gap below the free height, and the run
    /// of a finger at most the depth.
    pub fn new(length_m: f64, gap_m: f64, blade_depth_m: f64, fingers: FingerRow) -> Result<Self> {
        let sides = RowsInGap::new(length_m, gap_m)?.with_row_spacing(10e-3)?;
        let blade_depth_m = check::positive("blade_depth_m", "m", blade_depth_m)?;
        let told = |error: crate::Error| error.within("fingers");
        check::at_most("finger_pitch_m", "m", fingers.pitch_m(), "length_m", length_m).map_err(told)?;
        check::at_most("finger_run_m", "m", fingers.finger().run_m(), "blade_depth_m", blade_depth_m).map_err(told)?;
        Ok(Self {
            sides,
            blade_depth_m,
            blade_thickness_m: 6e-3,
            edge_clearance_m: 3e-3,
            mouth_depth_m: (0.25 * blade_depth_m).min(3e-3),
            row_count: 1,
            fingers: fingers.across(gap_m).map_err(told)?,
        })
    }

    /// The same door with another number of rows on each side (1 to 16): the first one this far behind the mouth,
    /// the others this far apart, m.
    ///
    /// # Errors
    /// For no rows or more than 16, and for distances that are negative or do not fit into the depth of the blade.
    pub fn with_rows(mut self, row_count: usize, mouth_depth_m: f64, row_spacing_m: f64) -> Result<Self> {
        self.row_count = check_rows(row_count)?;
        let mouth_depth_m = check::non_negative("mouth_depth_m", "m", mouth_depth_m)?;
        self.mouth_depth_m = check::at_most("mouth_depth_m", "m", mouth_depth_m, "blade_depth_m", self.blade_depth_m)?;
        self.sides = self.sides.with_row_spacing(row_spacing_m)?;
        if row_count > 1 {
            let most_m = (self.blade_depth_m - mouth_depth_m) / (row_count - 1) as f64;
            // With room for the rounding of the quotient.
            let accepted = "zero or positive, with all rows within the depth of the blade";
            check::within("row_spacing_m", "m", row_spacing_m, (0.0, most_m * (1.0 + 1e-12)), accepted)?;
        }
        Ok(self)
    }

    /// The same door with another thickness of its blade and another clearance between its edge and the bottom of
    /// the channel, m.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn with_edge(mut self, blade_thickness_m: f64, edge_clearance_m: f64) -> Result<Self> {
        self.blade_thickness_m = check::positive("blade_thickness_m", "m", blade_thickness_m)?;
        self.edge_clearance_m = check::positive("edge_clearance_m", "m", edge_clearance_m)?;
        Ok(self)
    }

    /// The same door with faces of another material.
    #[must_use]
    pub fn with_faces(mut self, faces: Material) -> Self {
        self.sides.faces = faces;
        self
    }

    /// Length around the door, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.sides.length_m
    }

    /// Gap between the blade and either wall of its channel, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.sides.gap_m
    }

    /// Depth that the blade goes into the channel, m.
    #[must_use]
    pub fn blade_depth_m(&self) -> f64 {
        self.blade_depth_m
    }

    /// Thickness of the blade, m.
    #[must_use]
    pub fn blade_thickness_m(&self) -> f64 {
        self.blade_thickness_m
    }

    /// Between the edge of the blade and the bottom of the channel, m.
    #[must_use]
    pub fn edge_clearance_m(&self) -> f64 {
        self.edge_clearance_m
    }

    /// From the mouth of the channel to the first row, m.
    #[must_use]
    pub fn mouth_depth_m(&self) -> f64 {
        self.mouth_depth_m
    }

    /// Number of rows on each side of the blade.
    #[must_use]
    pub fn row_count(&self) -> usize {
        self.row_count
    }

    /// Distance between rows of one side, m.
    #[must_use]
    pub fn row_spacing_m(&self) -> f64 {
        self.sides.row_spacing_m
    }

    /// A row.
    #[must_use]
    pub fn fingers(&self) -> FingerRow {
        self.fingers
    }

    /// Material of the faces.
    #[must_use]
    pub fn faces(&self) -> &Material {
        &self.sides.faces
    }

    /// Length of the pocket under the edge along the middle of the way, from the last row of one side to that of the
    /// other, m: it resonates where this is half a wavelength.
    #[must_use]
    pub fn edge_pocket_m(&self) -> f64 {
        2.0 * self.left_m() + self.across_m()
    }

    /// On one side, below the last row.
    fn left_m(&self) -> f64 {
        let rows_m = (self.row_count - 1) as f64 * self.sides.row_spacing_m;
        (self.blade_depth_m - self.mouth_depth_m - rows_m).max(0.0) + 0.5 * self.edge_clearance_m
    }

    /// Under the edge.
    fn across_m(&self) -> f64 {
        self.blade_thickness_m + self.sides.gap_m
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        self.fingers.at(frequency_hz, self.sides.gap_m)
    }

    /// The way in at one frequency.
    fn way(&self, frequency_hz: f64) -> Way {
        let (gap_m, faces) = (self.sides.gap_m, &self.sides.faces);
        let edge = Gap::new(frequency_hz, self.edge_clearance_m, faces);
        Way {
            side: Gap::new(frequency_hz, gap_m, faces),
            // Referred to the section of the mouths, as the shunts are.
            edge: Gap { series: edge.series * (self.edge_clearance_m / gap_m), ..edge },
            shunt: self.sides.shunt_reference(frequency_hz) / self.transfer_impedance_ohm_m(frequency_hz),
            mouth_m: self.mouth_depth_m,
            spacing_m: self.sides.row_spacing_m,
            left_m: self.left_m(),
            across_m: self.across_m(),
            row_count: self.row_count,
        }
    }

    /// Fingers of one row, at least one.
    fn count(&self) -> usize {
        ((self.sides.length_m / self.fingers.pitch_m()).round() as usize).max(1)
    }
}

/// What lies between the mouths: half of it, and its mirror image.
struct Way {
    side: Gap,
    edge: Gap,
    shunt: Complex64,
    mouth_m: f64,
    spacing_m: f64,
    left_m: f64,
    across_m: f64,
    row_count: usize,
}

impl AtAnyAngle for Way {
    fn chain(&self, beta: f64) -> Chain {
        let line =
            |gap: &Gap, chain: Chain, depth_m| chain.line(beta * beta + gap.minus_k_squared, gap.series, depth_m);
        let mut chain = line(&self.side, Chain::through(), self.mouth_m).shunt(self.shunt);
        for _ in 1..self.row_count {
            chain = line(&self.side, chain, self.spacing_m).shunt(self.shunt);
        }
        line(&self.edge, line(&self.side, chain, self.left_m), 0.5 * self.across_m).and_back()
    }

    #[inline(always)]
    fn chain_in_lanes<S: Simd>(&self, beta: Real<S>) -> ChainLanes<S> {
        let shunt = Complex::new(beta.constant(self.shunt.re), beta.constant(self.shunt.im));
        let mut chain = line_in_lanes(beta, &self.side, ChainLanes::through(beta), self.mouth_m).shunt(shunt);
        for _ in 1..self.row_count {
            chain = line_in_lanes(beta, &self.side, chain, self.spacing_m).shunt(shunt);
        }
        line_in_lanes(beta, &self.edge, line_in_lanes(beta, &self.side, chain, self.left_m), 0.5 * self.across_m)
            .and_back()
    }
}

#[inline(always)]
fn line_in_lanes<S: Simd>(beta: Real<S>, gap: &Gap, chain: ChainLanes<S>, depth_m: f64) -> ChainLanes<S> {
    if depth_m == 0.0 {
        return chain;
    }
    let (series, excess) = (gap.series, gap.minus_k_squared);
    let gamma_squared = Complex::new(beta.mul_add(beta, excess.re), beta.constant(excess.im));
    chain.line(gamma_squared, Complex::new(beta.constant(series.re), beta.constant(series.im)), depth_m)
}

/// A frequency costs about as much as so many of the plainest step.
const STEPS: usize = 4000;

impl Rebuild for KnifeEdge {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let length_m = knobs.value("length_m", "m", self.sides.length_m, Domain::POSITIVE);
        let gap_m = knobs.value("gap_m", "m", self.sides.gap_m, Domain::POSITIVE.and("below the free height"));
        let blade_depth_m = knobs.value("blade_depth_m", "m", self.blade_depth_m, Domain::POSITIVE);
        let thickness_m = knobs.value("blade_thickness_m", "m", self.blade_thickness_m, Domain::POSITIVE);
        let clearance_m = knobs.value("edge_clearance_m", "m", self.edge_clearance_m, Domain::POSITIVE);
        let mouth_m =
            knobs.value("mouth_depth_m", "m", self.mouth_depth_m, Domain::NON_NEGATIVE.and("at most the depth"));
        let rows = knobs.count("row_count", self.row_count, 1)?;
        let spacing_m = knobs.value("row_spacing_m", "m", self.sides.row_spacing_m, Domain::NON_NEGATIVE);
        let fingers = knobs.enter("fingers", |knobs| self.fingers.rebuild(knobs))?;
        let door = Self::new(length_m, gap_m, blade_depth_m, fingers)?
            .with_edge(thickness_m, clearance_m)?
            .with_rows(rows, mouth_m, spacing_m)?;
        Ok(door.with_faces(knobs.enter("faces", |knobs| self.sides.faces.rebuild(knobs))?))
    }
}

impl Leak for KnifeEdge {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        self.sides.ln_between(frequency_hz, &self.way(frequency_hz))
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        in_parts(out, frequency_hz.len() * STEPS, |start, out| {
            for (ln, &f) in out.iter_mut().zip(&frequency_hz[start..]) {
                *ln = self.ln_cross_section(f);
            }
        });
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.sides.length_m, elements: self.count() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        let way = self.way(frequency_hz);
        self.sides.directivity_of_chain(frequency_hz, |beta| way.chain(beta))
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            *sum = self.sides.ln_in_amplitude(self.count(), f, ln);
        }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.sides
            .validity(frequency_hz)
            .and(narrow_gap(self.edge_clearance_m, frequency_hz))
            .and(self.fingers.validity(frequency_hz))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    gap_m: f64,
    blade_depth_m: f64,
    fingers: FingerRow,
    #[serde(default)]
    blade_thickness_m: Option<f64>,
    #[serde(default)]
    edge_clearance_m: Option<f64>,
    #[serde(default)]
    mouth_depth_m: Option<f64>,
    #[serde(default)]
    row_count: Option<usize>,
    #[serde(default)]
    row_spacing_m: Option<f64>,
    #[serde(default)]
    faces: Option<Material>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for KnifeEdge {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let door = Self::new(record.length_m, record.gap_m, record.blade_depth_m, record.fingers)?;
        let thickness_m = record.blade_thickness_m.unwrap_or(door.blade_thickness_m);
        let clearance_m = record.edge_clearance_m.unwrap_or(door.edge_clearance_m);
        let rows = record.row_count.unwrap_or(door.row_count);
        let mouth_m = record.mouth_depth_m.unwrap_or(door.mouth_depth_m);
        let spacing_m = record.row_spacing_m.unwrap_or(door.sides.row_spacing_m);
        let door = door.with_edge(thickness_m, clearance_m)?.with_rows(rows, mouth_m, spacing_m)?;
        Ok(match record.faces {
            Some(faces) => door.with_faces(faces),
            None => door,
        })
    }
}

#[cfg(feature = "serde")]
impl From<KnifeEdge> for Record {
    fn from(door: KnifeEdge) -> Self {
        Self {
            length_m: door.sides.length_m,
            gap_m: door.sides.gap_m,
            blade_depth_m: door.blade_depth_m,
            fingers: door.fingers,
            blade_thickness_m: Some(door.blade_thickness_m),
            edge_clearance_m: Some(door.edge_clearance_m),
            mouth_depth_m: Some(door.mouth_depth_m),
            row_count: Some(door.row_count),
            row_spacing_m: Some(door.sides.row_spacing_m),
            faces: Some(door.sides.faces),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::wavenumber_per_m;
    use crate::joint::Finger;
    use crate::mouth::{slit, slit_angles};

    fn door(rows: usize) -> KnifeEdge {
        let finger = Finger::new(5e-3, 0.4e-3).unwrap().with_thickness(0.1e-3).unwrap().with_run(8e-3).unwrap();
        let fingers = FingerRow::new(4e-3, finger).unwrap();
        KnifeEdge::new(6.0, 2e-3, 25e-3, fingers).unwrap().with_rows(rows, 3e-3, 8e-3).unwrap()
    }

    #[test]
    fn angles_in_lanes_find_what_the_plain_integral_finds() {
        for rows in 1..=3 {
            let door = door(rows);
            for f in [1e3, 1e6, 1e8, 1e9, 2.2e9, 3e9, 5e9, 10e9, 14e9] {
                let (k, way) = (wavenumber_per_m(f), door.way(f));
                let found = slit_angles::ln_endless_modes((6.0, 2e-3), k, &way);
                let expected = slit::ln_endless_modes((6.0, 2e-3), 0.0, k, |beta| way.chain(beta), |_| 1.0);
                // 10⁻⁷ dB
                assert!((found - expected).abs() < 2.3e-8, "{rows} rows at {f:e} Hz: {found} {expected}");
            }
        }
    }

    /// A gap of 3 mm, 40 mm through it, rows 12 mm and 28 mm from a mouth, against a computation of the same gap
    /// that shares no code with this one, given to two or three digits.
    #[test]
    fn two_rows_in_a_plain_gap() {
        let perfect = Material::conductor("perfect", 1e30, 1.0).unwrap();
        let mut sides = RowsInGap::new(6.0, 3e-3).unwrap();
        sides.faces = perfect;
        for (f, reactance_ohm_m, width_m) in [(1e9, 4.42e-4, 2.7e-17), (10e9, 4.44e-3, 1.35e-8)] {
            let gap = Gap::new(f, 3e-3, &sides.faces);
            let way = Way {
                side: gap,
                edge: gap,
                shunt: sides.shunt_reference(f) / Complex64::new(3e-5, reactance_ohm_m),
                mouth_m: 12e-3,
                spacing_m: 0.0,
                left_m: 8e-3,
                across_m: 0.0,
                row_count: 1,
            };
            let found = sides.ln_between(f, &way).exp() / 6.0;
            let apart_db = 10.0 * (found / width_m).log10();
            assert!(apart_db.abs() < 0.5, "{f:e} Hz: {found:e} {width_m:e}, {apart_db} dB");
        }
    }
}
