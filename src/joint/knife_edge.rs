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
use super::fingers::FingerRow;
use super::rows_in_gap::RowsInGap;
use crate::error::{Result, check};
use crate::lanes::{Complex, Real, Simd, in_parts, paired};
use crate::leak::{Extent, Leak};
use crate::material::{Material, catalogue};
use crate::mouth::chain::Chain;
use crate::mouth::chain_lanes::ChainLanes;
use crate::mouth::slit::narrow_gap;
use crate::mouth::slit_angles::AtAnyAngle;
use crate::parameter::Element;
use crate::validity::Validity;

/// A blade in a channel around a door, with rows of fingers on both of its sides.
///
/// A wider gap takes force from the fingers and makes straight ones longer, which is worse, and makes the space between
/// rows larger, which is better. For leaves of a long run the second just about wins at high frequency: what opens the
/// gap of a real door also costs contact, and fingers that touch badly are not in the model.
///
/// ```
/// use stillroom::{joint::{FingerRow, KnifeEdge}, leak::Leak, Parameters};
/// // Fingers every 4 mm with slots of 0.4 mm, of 0.1 mm sheet, 8 mm from root to contact.
/// let fingers = FingerRow::new(4e-3)?.with_slot_width(0.4e-3)?.with_thickness(0.1e-3)?.with_run(8e-3)?;
/// let door = KnifeEdge::new(6.0, 2e-3, 25e-3, fingers)?;
/// // Two rows, and slots twice as wide: some 30 dB worse.
/// let wider = door.with_parameter("fingers.slot_width_m", 0.8e-3)?;
/// assert!(wider.ln_cross_section(10e9) > door.ln_cross_section(10e9) + 6.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(
    new(length_m, gap_m, blade_depth_m, fingers),
    settle,
    errors = "a pitch above the length, a run above the depth; fingers that do not reach across; rows that do not fit into \
              the depth of the blade"
)]
pub struct KnifeEdge {
    /// Length around the door.
    #[parameter(positive)]
    length_m: f64,
    /// Gap between the blade and either wall of the channel. The fingers bridge it.
    #[parameter(positive, at_most = length_m, also = "below the free height")]
    gap_m: f64,
    /// Depth that the blade goes into the channel.
    #[parameter(positive)]
    blade_depth_m: f64,
    /// Thickness of the blade. The default is common practice, no source, as are the next ones.
    #[parameter(positive, default = 0.006, setter = with_blade_thickness)]
    blade_thickness_m: f64,
    /// Between the edge of the blade and the bottom of the channel.
    #[parameter(positive, default = 0.003, setter = with_edge_clearance)]
    edge_clearance_m: f64,
    /// From the mouth of the channel to the first row. 3 mm, at most a quarter of the depth, where not given.
    #[parameter(
        non_negative,
        at_most = blade_depth_m,
        default = (0.25 * blade_depth_m).min(3e-3),
        setter = with_mouth_depth
    )]
    mouth_depth_m: f64,
    /// Number of rows on each side of the blade.
    #[parameter(whole(1, 16), default = 1)]
    row_count: usize,
    /// Distance between rows of one side. All rows lie within the depth of the blade.
    #[parameter(non_negative, default = 0.01, setter = with_row_spacing)]
    row_spacing_m: f64,
    /// One row. Fingers whose heights are not told are taken as pressed to half of their free height.
    #[part(copy)]
    fingers: FingerRow,
    /// What blade and channel are made of. Tin where not given.
    #[part(default = catalogue::get("tin")?)]
    faces: Material,
    #[worked_out(RowsInGap::new(length_m, gap_m, row_spacing_m, &faces))]
    sides: RowsInGap,
}

impl KnifeEdge {
    fn settle(self) -> Result<Self> {
        let told = |error: crate::Error| error.within("fingers");
        let (row, depth_m) = (self.fingers, self.blade_depth_m);
        check::at_most("finger_pitch_m", "m", row.finger_pitch_m(), "length_m", self.length_m).map_err(told)?;
        check::at_most("finger_run_m", "m", row.finger_run_m(), "blade_depth_m", depth_m).map_err(told)?;
        if self.row_count > 1 {
            let most_m = (depth_m - self.mouth_depth_m) / (self.row_count - 1) as f64;
            // With room for the rounding of the quotient.
            let accepted = "zero or positive, with all rows within the depth of the blade";
            check::within("row_spacing_m", "m", self.row_spacing_m, (0.0, most_m * (1.0 + 1e-12)), accepted)?;
        }
        Ok(Self { fingers: row.across(self.gap_m).map_err(told)?, ..self })
    }

    /// Length of the pocket under the edge along the middle of the way, from the last row of one side to that of the
    /// other, m: it resonates where this is half a wavelength.
    #[must_use]
    pub fn edge_pocket_m(&self) -> f64 {
        2.0 * self.left_m() + self.across_m()
    }

    /// On one side, below the last row.
    fn left_m(&self) -> f64 {
        let rows_m = (self.row_count - 1) as f64 * self.row_spacing_m;
        (self.blade_depth_m - self.mouth_depth_m - rows_m).max(0.0) + 0.5 * self.edge_clearance_m
    }

    /// Under the edge.
    fn across_m(&self) -> f64 {
        self.blade_thickness_m + self.gap_m
    }

    /// Transfer impedance of one row times length, ohm m.
    #[must_use]
    pub fn transfer_impedance_ohm_m(&self, frequency_hz: f64) -> Complex64 {
        self.fingers.at(frequency_hz, self.gap_m)
    }

    /// The way in at one frequency.
    fn way(&self, frequency_hz: f64) -> Way {
        let (gap_m, faces) = (self.gap_m, &self.faces);
        let edge = Gap::new(frequency_hz, self.edge_clearance_m, faces);
        Way {
            side: Gap::new(frequency_hz, gap_m, faces),
            // Referred to the section of the mouths, as the shunts are.
            edge: Gap { series: edge.series * (self.edge_clearance_m / gap_m), ..edge },
            shunt: self.sides.shunt_reference(frequency_hz) / self.transfer_impedance_ohm_m(frequency_hz),
            mouth_m: self.mouth_depth_m,
            spacing_m: self.row_spacing_m,
            left_m: self.left_m(),
            across_m: self.across_m(),
            row_count: self.row_count,
        }
    }

    /// Fingers of one row, at least one.
    fn count(&self) -> usize {
        ((self.length_m / self.fingers.finger_pitch_m()).round() as usize).max(1)
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
        Extent::Line { length_m: self.length_m, elements: self.count() }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::wavenumber_per_m;
    use crate::mouth::{slit, slit_angles};

    fn door(rows: usize) -> KnifeEdge {
        let fingers = FingerRow::new(4e-3).unwrap().with_slot_width(0.4e-3).unwrap();
        let fingers = fingers.with_thickness(0.1e-3).unwrap().with_run(8e-3).unwrap();
        let door = KnifeEdge::new(6.0, 2e-3, 25e-3, fingers).unwrap();
        door.with_row_spacing(8e-3).unwrap().with_row_count(rows).unwrap()
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
        let sides = RowsInGap::new(6.0, 3e-3, 12e-3, &perfect);
        for (f, reactance_ohm_m, width_m) in [(1e9, 4.42e-4, 2.7e-17), (10e9, 4.44e-3, 1.35e-8)] {
            let gap = Gap::new(f, 3e-3, &perfect);
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
