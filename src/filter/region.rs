//! Worst insertion loss over a stated region of impedances.
//!
//! All passive terminations is too wide a net for most work: nobody's mains is a pure reactance without loss.
//! An [`ImpedanceRegion`] says what can occur: a magnitude from `min_ohm` to `max_ohm`, a phase from
//! `min_phase_deg` to `max_phase_deg`.
//!
//! For a passive two-port the gain `V2/V20` is analytic in either impedance over the right half plane, so by
//! the maximum-modulus principle its largest magnitude over two regions lies on the boundary of both. For one
//! impedance given, the gain is a ratio of linear functions of the other, and along an arc or a ray its square
//! is a ratio of trigonometric or quadratic polynomials: the stationary points follow from one quadratic
//! equation, exactly and however sharp the resonance. What remains is a function of one variable, the place of
//! the source impedance on its boundary. It is climbed from evenly spread places, and from those that the
//! closed form leads to when it serves source and load in turn (which is how narrow peaks are found). That no
//! higher peak is left is shown by a brute-force search in the tests, not proven.

use num_complex::Complex64;

use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::filter::Ladder;
use crate::filter::record::checked_record;
use crate::parameter::{Knobs, Rebuild};
use crate::wave::circuit_value;
use crate::wave::{Terminations, TwoPort};

/// Impedances that a termination can have: a range of magnitude and a range of phase.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct ImpedanceRegion {
    min_ohm: f64,
    max_ohm: f64,
    min_phase_deg: f64,
    max_phase_deg: f64,
}

impl ImpedanceRegion {
    /// From the ranges of magnitude (ohm) and phase (degrees, -90 to 90).
    ///
    /// # Errors
    /// Unless magnitudes are positive, phases within -90 and 90 degrees, and neither range is upside down.
    pub fn new(min_ohm: f64, max_ohm: f64, min_phase_deg: f64, max_phase_deg: f64) -> Result<Self> {
        circuit_value::positive("min_ohm", "ohm", min_ohm)?;
        circuit_value::positive("max_ohm", "ohm", max_ohm)?;
        check::at_most("min_ohm", "ohm", min_ohm, "max_ohm", max_ohm)?;
        check::within("min_phase_deg", "deg", min_phase_deg, (-90.0, 90.0), "from -90 to 90")?;
        check::within("max_phase_deg", "deg", max_phase_deg, (-90.0, 90.0), "from -90 to 90")?;
        check::at_most("min_phase_deg", "deg", min_phase_deg, "max_phase_deg", max_phase_deg)?;
        Ok(Self { min_ohm, max_ohm, min_phase_deg, max_phase_deg })
    }

    /// Least magnitude, ohm.
    #[must_use]
    pub const fn min_ohm(&self) -> f64 {
        self.min_ohm
    }

    /// Greatest magnitude, ohm.
    #[must_use]
    pub const fn max_ohm(&self) -> f64 {
        self.max_ohm
    }

    /// Least phase, degrees.
    #[must_use]
    pub const fn min_phase_deg(&self) -> f64 {
        self.min_phase_deg
    }

    /// Greatest phase, degrees.
    #[must_use]
    pub const fn max_phase_deg(&self) -> f64 {
        self.max_phase_deg
    }

    fn directions(&self) -> [Complex64; 2] {
        [direction(self.min_phase_deg), direction(self.max_phase_deg)]
    }

    // The best point of the boundary for |z + joined|/|slope z + offset|, with the square of that ratio.
    fn best(&self, joined: Complex64, slope: Complex64, offset: Complex64) -> (f64, Complex64) {
        let ratio = |z: Complex64| {
            let below = (slope * z + offset).norm_sqr();
            let above = (z + joined).norm_sqr();
            // Both zero (a short circuit on both sides of a through): nothing passes, nothing gained.
            if above == 0.0 { 0.0 } else { above / below }
        };
        let mut best = (-1.0, Complex64::new(self.min_ohm, 0.0));
        let mut offer = |z: Complex64| {
            let value = ratio(z);
            if value > best.0 {
                best = (value, z);
            }
        };
        for end in self.directions() {
            for size in [self.min_ohm, self.max_ohm] {
                offer(end * size);
            }
            // Along a ray z = t e: ratio of |e|^2 t^2 + 2 t Re(e* joined) + |joined|^2 and the like below.
            let above = [joined.norm_sqr(), 2.0 * (end.conj() * joined).re, 1.0];
            let turned = slope * end;
            let below = [offset.norm_sqr(), 2.0 * (turned.conj() * offset).re, turned.norm_sqr()];
            for size in stationary(&above, &below).into_iter().flatten() {
                if size > self.min_ohm && size < self.max_ohm {
                    offer(end * size);
                }
            }
        }
        for size in [self.min_ohm, self.max_ohm] {
            // Along an arc z = r u: (p + 2 r Re(u joined*))/(q + 2 r Re(u slope offset*)), stationary where
            // Im(u h) = k: a circle cut by a line.
            let above_swing = joined.conj() * size;
            let below_swing = slope * offset.conj() * size;
            let above_mean = size * size + joined.norm_sqr();
            let below_mean = slope.norm_sqr() * size * size + offset.norm_sqr();
            // d/dphi of Re(u s) is -Im(u s): Im(u a) (q + 2 Re(u b)) = Im(u b) (p + 2 Re(u a)), and
            // Im(u a) Re(u b) - Im(u b) Re(u a) = Im(a b*).
            let tilt = above_swing * below_mean - below_swing * above_mean;
            let level = -2.0 * (above_swing * below_swing.conj()).im;
            let length = tilt.norm();
            if length > 0.0 && level.abs() <= length {
                // u = e^(j phi) with Im(u tilt) = level.
                let lift = (level / length).asin();
                for angle in [lift, std::f64::consts::PI - lift] {
                    let direction = Complex64::from_polar(1.0, angle) * tilt.conj() / length;
                    let phase = direction.im.atan2(direction.re).to_degrees();
                    if phase > self.min_phase_deg && phase < self.max_phase_deg {
                        offer(direction * size);
                    }
                }
            }
        }
        best
    }

    // A point of the boundary: piece 0 and 1 are the arcs, 2 and 3 the rays; 0 <= along <= 1.
    fn point(&self, piece: usize, along: f64) -> Complex64 {
        match piece {
            0 | 1 => {
                let phase = self.min_phase_deg + (self.max_phase_deg - self.min_phase_deg) * along;
                direction(phase) * if piece == 0 { self.min_ohm } else { self.max_ohm }
            }
            _ => self.directions()[piece - 2] * (self.min_ohm * (self.max_ohm / self.min_ohm).powf(along)),
        }
    }

    // Where on the boundary a point of it lies.
    fn place(&self, z: Complex64) -> (usize, f64) {
        let share = |value: f64, low: f64, high: f64| {
            if high > low { ((value - low) / (high - low)).clamp(0.0, 1.0) } else { 0.0 }
        };
        let (size, phase) = (z.norm(), z.arg().to_degrees());
        let across = share(size.ln(), self.min_ohm.ln(), self.max_ohm.ln());
        let around = share(phase, self.min_phase_deg, self.max_phase_deg);
        let distances = [across, 1.0 - across, around, 1.0 - around];
        let piece = (0..4).min_by(|&p, &q| distances[p].total_cmp(&distances[q])).unwrap_or(0);
        (piece, if piece < 2 { around } else { across })
    }
}

// At plus and minus 90 degrees the resistance is exactly zero, not a rounding error below it.
fn direction(phase_deg: f64) -> Complex64 {
    if phase_deg.abs() == 90.0 {
        Complex64::new(0.0, phase_deg.signum())
    } else {
        Complex64::from_polar(1.0, phase_deg.to_radians())
    }
}

/// Where the ratio of two quadratics `c0 + c1 t + c2 t^2` is stationary.
fn stationary(above: &[f64; 3], below: &[f64; 3]) -> [Option<f64>; 2] {
    let square = above[2] * below[1] - above[1] * below[2];
    let linear = 2.0 * (above[2] * below[0] - above[0] * below[2]);
    let constant = above[1] * below[0] - above[0] * below[1];
    let discriminant = linear * linear - 4.0 * square * constant;
    if discriminant < 0.0 || discriminant.is_nan() {
        return [None, None];
    }
    // The root without cancellation first, the other from the product.
    let sum = -0.5 * (linear + discriminant.sqrt().copysign(linear));
    let finite = |root: f64| root.is_finite().then_some(root);
    [finite(sum / square), finite(constant / sum)]
}

/// Places on each piece of the boundary to look at first.
const SPREAD: usize = 25;
/// How often source and load take turns.
const TURNS: usize = 8;
/// How many places are climbed from.
const CLIMBS: usize = 8;

/// The nearest peak of a function on 0 to 1, uphill from a place whose height is known: height and place.
fn climb(height: impl Fn(f64) -> f64, from: f64, at_from: f64) -> (f64, f64) {
    let mut top = (at_from, from);
    // Walk both ways in doubling steps, as long as it goes up; so the bracket fits the width of the peak.
    let (mut low, mut high) = (from, from);
    for direction in [-1.0, 1.0] {
        let mut step = 1e-9;
        let mut last = at_from;
        while step < 1.0 {
            let place = (from + direction * step).clamp(0.0, 1.0);
            let value = height(place);
            if value > top.0 {
                top = (value, place);
            }
            if direction < 0.0 {
                low = place;
            } else {
                high = place;
            }
            if value < last {
                break;
            }
            last = value;
            step *= 2.0;
        }
    }
    // Golden section.
    const SHARE: f64 = 0.618_033_988_749_894_9;
    let (mut left, mut right) = (high - SHARE * (high - low), low + SHARE * (high - low));
    let (mut at_left, mut at_right) = (height(left), height(right));
    for _ in 0..80 {
        if high - low < 1e-13 {
            break;
        }
        if at_left > at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - SHARE * (high - low);
            at_left = height(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + SHARE * (high - low);
            at_right = height(right);
        }
    }
    for (value, place) in [(at_left, left), (at_right, right)] {
        if value > top.0 {
            top = (value, place);
        }
    }
    top
}

/// The worst pair of terminations found, and its insertion loss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorstTerminations {
    /// Insertion loss between them, dB.
    pub insertion_loss_db: f64,
    /// Source impedance, ohm.
    pub source_ohm: Complex64,
    /// Load impedance, ohm.
    pub load_ohm: Complex64,
}

/// The least insertion loss of a passive two-port over a region of source and one of load impedances.
#[must_use]
pub fn worst_terminations(two_port: &TwoPort, source: &ImpedanceRegion, load: &ImpedanceRegion) -> WorstTerminations {
    let ([[a, b], [c, d]], ln_scale) = two_port.scaled_chain();
    let worst_load = |z1: Complex64| load.best(z1, a + c * z1, b + d * z1);
    let height = |piece: usize, along: f64| worst_load(source.point(piece, along)).0;
    let mut starts = Vec::new();
    for piece in 0..4 {
        for k in 0..SPREAD {
            starts.push((piece, k as f64 / (SPREAD - 1) as f64));
        }
    }
    // Source and load in turn, from every few of them.
    for &(piece, along) in starts.clone().iter().step_by(3) {
        let mut z1 = source.point(piece, along);
        for _ in 0..TURNS {
            let (_, z2) = worst_load(z1);
            z1 = source.best(z2, d + c * z2, b + a * z2).1;
        }
        starts.push(source.place(z1));
    }
    let mut ranked: Vec<(f64, usize, f64)> =
        starts.into_iter().map(|(piece, along)| (height(piece, along), piece, along)).collect();
    ranked.sort_by(|p, q| q.0.total_cmp(&p.0));
    let mut best = (-1.0, 0, 0.0);
    let mut climbed: Vec<(usize, f64)> = Vec::new();
    for (value, piece, along) in ranked {
        if climbed.len() == CLIMBS {
            break;
        }
        if climbed.iter().any(|&(other, place)| other == piece && (place - along).abs() < 1e-6) {
            continue;
        }
        climbed.push((piece, along));
        let top = climb(|along| height(piece, along), along, value);
        if top.0 > best.0 {
            best = (top.0, piece, top.1);
        }
    }
    let source_ohm = source.point(best.1, best.2);
    let (square, load_ohm) = worst_load(source_ohm);
    // Near a short circuit the chain's own form keeps the digits that the squares above lose.
    let insertion_loss_db = Terminations::new(source_ohm, load_ohm)
        .map_or_else(|_| DB_PER_NEPER * (ln_scale - 0.5 * square.ln()), |ends| two_port.insertion_loss_db(&ends));
    WorstTerminations { insertion_loss_db, source_ohm, load_ohm }
}

impl Ladder {
    /// The least insertion loss over a region of source and one of load impedances, at a frequency in Hz.
    #[must_use]
    pub fn worst_terminations(
        &self,
        frequency_hz: f64,
        source: &ImpedanceRegion,
        load: &ImpedanceRegion,
    ) -> WorstTerminations {
        let worst = worst_terminations(&self.two_port(frequency_hz), source, load);
        let loss_np = worst.insertion_loss_db / DB_PER_NEPER;
        let isolated = self.housing().map_or(loss_np, |housing| housing.isolated(loss_np));
        WorstTerminations { insertion_loss_db: DB_PER_NEPER * isolated, ..worst }
    }
}

impl Rebuild for ImpedanceRegion {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("min_ohm", "ohm", self.min_ohm, "positive"),
            knobs.value("max_ohm", "ohm", self.max_ohm, "at least min_ohm"),
            knobs.value("min_phase_deg", "deg", self.min_phase_deg, "from -90 to 90"),
            knobs.value("max_phase_deg", "deg", self.max_phase_deg, "from min_phase_deg to 90"),
        )
    }
}

checked_record!(ImpedanceRegion as Record {
    min_ohm: f64,
    max_ohm: f64,
    min_phase_deg: f64,
    max_phase_deg: f64,
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Capacitor, Element, Inductor};

    fn ladder() -> Ladder {
        let coil =
            |l, r, c| Inductor::new(l).unwrap().with_resistance_ohm(r).unwrap().with_parallel_capacitance_f(c).unwrap();
        let cap = |c, r, l| {
            Capacitor::new(c).unwrap().with_series_resistance_ohm(r).unwrap().with_series_inductance_h(l).unwrap()
        };
        Ladder::new(vec![
            Element::Shunt(cap(1e-6, 0.02, 10e-9).into()),
            Element::Series(coil(100e-6, 0.05, 15e-12).into()),
            Element::Shunt(cap(2.2e-6, 0.01, 8e-9).into()),
            Element::Series(coil(47e-6, 0.03, 12e-12).into()),
        ])
        .unwrap()
    }

    // Every point of a grid over both regions, inside as well as on the edge; then downhill from the best of them.
    fn searched(two_port: &TwoPort, source: &ImpedanceRegion, load: &ImpedanceRegion) -> f64 {
        const STEPS: u32 = 24;
        let ([[a, b], [c, d]], _) = two_port.scaled_chain();
        let point = |region: &ImpedanceRegion, across: f64, around: f64| {
            let size = region.min_ohm * (region.max_ohm / region.min_ohm).powf(across);
            direction(region.min_phase_deg + (region.max_phase_deg - region.min_phase_deg) * around) * size
        };
        let loss = |at: &[f64; 4]| {
            let (z1, z2) = (point(source, at[0], at[1]), point(load, at[2], at[3]));
            -10.0 * ((z1 + z2) / (a * z2 + b + c * z1 * z2 + d * z1)).norm_sqr().log10()
        };
        let share = |k: u32| f64::from(k) / f64::from(STEPS);
        let mut found = Vec::new();
        for k in 0..=STEPS {
            for m in 0..=STEPS {
                for p in 0..=STEPS {
                    for q in 0..=STEPS {
                        let at = [share(k), share(m), share(p), share(q)];
                        found.push((loss(&at), at));
                    }
                }
            }
        }
        found.sort_by(|p, q| p.0.total_cmp(&q.0));
        let mut least = f64::INFINITY;
        for &(value, at) in found.iter().step_by(37).take(60) {
            let (mut value, mut at, mut step) = (value, at, 0.02);
            while step > 1e-9 {
                let mut moved = false;
                for trial in 0..81_u32 {
                    let next: [f64; 4] = std::array::from_fn(|k| {
                        (at[k] + step * f64::from((trial / 3_u32.pow(k as u32)) % 3) - step).clamp(0.0, 1.0)
                    });
                    let there = loss(&next);
                    if there < value {
                        (value, at, moved) = (there, next, true);
                    }
                }
                if !moved {
                    step *= 0.5;
                }
            }
            least = least.min(value);
        }
        least
    }

    #[test]
    fn equals_a_search_over_the_whole_of_both_regions() {
        let regions = [
            (
                ImpedanceRegion::new(1.0, 1000.0, -85.0, 85.0).unwrap(),
                ImpedanceRegion::new(5.0, 300.0, -60.0, 60.0).unwrap(),
            ),
            (
                ImpedanceRegion::new(0.1, 10.0, -30.0, 80.0).unwrap(),
                ImpedanceRegion::new(50.0, 5000.0, -89.0, 10.0).unwrap(),
            ),
        ];
        for frequency_hz in [8e3, 16e3, 30e3, 150e3, 2e6] {
            for (source, load) in regions {
                let two_port = ladder().two_port(frequency_hz);
                let exact = worst_terminations(&two_port, &source, &load).insertion_loss_db;
                let found = searched(&two_port, &source, &load);
                assert!(exact <= found + 1e-9, "{frequency_hz}: the search found {found}, below {exact}");
                assert!(found - exact < 1e-3, "{frequency_hz}: {found} {exact}");
            }
        }
    }

    #[test]
    fn the_widest_region_meets_the_bound_over_all_passive_terminations() {
        let all = ImpedanceRegion::new(1e-6, 1e9, -90.0, 90.0).unwrap();
        for frequency_hz in [16e3, 150e3, 2e6] {
            let two_port = ladder().two_port(frequency_hz);
            let region = worst_terminations(&two_port, &all, &all).insertion_loss_db;
            let bound = two_port.worst_insertion_loss_db();
            assert!(region >= bound - 1e-7 && region - bound < 1e-3, "{frequency_hz}: {region} {bound}");
        }
    }

    #[test]
    fn a_region_of_one_point_is_that_point() {
        let fifty = ImpedanceRegion::new(50.0, 50.0, 0.0, 0.0).unwrap();
        let two_port = ladder().two_port(1e5);
        let worst = worst_terminations(&two_port, &fifty, &fifty);
        assert!((worst.insertion_loss_db - two_port.insertion_loss_db(&Terminations::fifty_ohm())).abs() < 1e-12);
    }

    #[test]
    fn upside_down_regions_are_refused() {
        assert!(ImpedanceRegion::new(10.0, 1.0, -90.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(0.0, 1.0, -90.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(1.0, 2.0, -91.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(1.0, 2.0, 10.0, -10.0).is_err());
        assert!(ImpedanceRegion::new(f64::NAN, 2.0, -10.0, 10.0).is_err());
    }
}
