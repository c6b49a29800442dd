//! Worst insertion loss over a stated region of impedances, with a bound that shows that nothing worse was missed.
//!
//! All passive terminations is too wide a net for most work: nobody's mains is a pure reactance without loss. For a
//! passive two-port the gain `V2/V20` is analytic in either impedance over the right half plane, so by the
//! maximum-modulus principle its largest magnitude over two regions lies on the boundary of both. For one impedance
//! given, the other's worst is exact ([`ImpedanceRegion`]); in turns they lead to a peak. That no other is higher is shown
//! by bounds on pairs of pieces of both boundaries. With `Z1 -> Z1 exp(w)`, `Z2 -> Z2 exp(v)`, turning for arcs and
//! stretching for rays, numerator `X = Z1 + Z2` and denominator `Y = A Z2 + B + C Z1 Z2 + D Z1` become `X (1 + x)` and
//! `Y (1 + y)`,
//!
//! ```text
//! x = a1 (e^w - 1) + a2 (e^v - 1),   y = b1 (e^w - 1) + b2 (e^v - 1) + b12 (e^w - 1)(e^v - 1)
//! ln|1 + x| <= Re x + |x|^2/2,       ln|1 + y| >= Re y - |y|^2/(2 - 2 |y|)
//! ```
//!
//! so that a bound differs from the gain at the middle by the slope along the pieces and by squares of their lengths. Pairs
//! are halved until no bound is higher than the best point found by more than 0.01 dB (branch and bound); the best
//! point is then climbed to the top of its peak. So the answer is a loss that does occur, and none in the regions is
//! less by more than the stated 0.01 dB.

use num_complex::Complex64;

use super::region::{Linear, Piece};
use crate::decibel::DB_PER_NEPER;
use crate::filter::{ImpedanceRegion, Ladder};
use crate::lanes::{in_parts, paired};
use crate::wave::{Terminations, TwoPort};

/// How much higher a bound may be than what was found, nepers: 0.01 dB.
const TOLERANCE: f64 = 0.01 / DB_PER_NEPER;
/// Pieces of each arc and ray to begin with.
const FIRST: u32 = 6;
/// More pairs of pieces than this are not looked at: along a resonance that next to nothing damps they would be without
/// number, and what is then left open is said in the result.
const MOST_PAIRS: usize = 200_000;
/// How often source and load take turns on the way to a peak.
const TURNS: usize = 8;

/// The worst pair of terminations found, and its insertion loss.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct WorstTerminations {
    /// Insertion loss between them, dB.
    pub insertion_loss_db: f64,
    /// Source impedance, ohm.
    pub source_ohm: Complex64,
    /// Load impedance, ohm.
    pub load_ohm: Complex64,
    /// No pair in the regions loses less by more than this, dB: 0.01 as a rule; infinite where that was not shown, as for
    /// regions of reactances with next to no resistance over many decades.
    pub within_db: f64,
}

/// The least insertion loss of a passive two-port over a region of source and one of load impedances.
#[must_use]
pub fn worst_terminations(two_port: &TwoPort, source: &ImpedanceRegion, load: &ImpedanceRegion) -> WorstTerminations {
    let search = Search::new(two_port, source, load);
    let whole = source.boundary();
    let parts = |boundary: &[Piece]| boundary.iter().flat_map(|piece| piece.parts(FIRST)).collect::<Vec<_>>();
    let (sources, loads) = (parts(&whole), parts(&load.boundary()));
    let mut best = Best { gain: -1.0, source_ohm: Complex64::new(source.min_ohm(), 0.0) };
    for piece in &sources {
        search.ascend(piece.point(0.5), &mut best);
    }
    let mut open: Vec<Pair> =
        sources.iter().flat_map(|&source| loads.iter().map(move |&load| Pair { source, load })).collect();
    let (mut looked_at, mut ln_bound) = (0, f64::NEG_INFINITY);
    while let Some(pair) = open.pop() {
        looked_at += 1;
        let (gain, ln_highest) = search.bounds(&pair);
        if gain > best.gain {
            search.ascend(pair.source.point(0.5), &mut best);
        }
        if ln_highest <= best.gain.ln() + TOLERANCE || looked_at > MOST_PAIRS {
            ln_bound = ln_highest.max(ln_bound);
        } else {
            open.extend(search.halves(&pair));
        }
    }
    // To the top of its peak, along the piece of the boundary that it is on.
    let nearest = whole.iter().min_by(|p, q| p.locate(best.source_ohm).1.total_cmp(&q.locate(best.source_ohm).1));
    if let Some(piece) = nearest {
        let height = |share: f64| search.worst_load(piece.point(share)).0;
        let from = piece.locate(best.source_ohm).0;
        let (square, share) = climb(height, from, height(from));
        if square.sqrt() > best.gain {
            best = Best { gain: square.sqrt(), source_ohm: piece.point(share) };
        }
    }
    let load_ohm = search.worst_load(best.source_ohm).1;
    // Near a short circuit the chain's own form keeps the digits that the squares above lose.
    let insertion_loss_db = Terminations::new(best.source_ohm, load_ohm)
        .map_or_else(|_| DB_PER_NEPER * (search.ln_scale - best.gain.ln()), |ends| two_port.insertion_loss_db(&ends));
    let within_db = DB_PER_NEPER * (ln_bound - best.gain.ln()).max(0.0);
    WorstTerminations { insertion_loss_db, source_ohm: best.source_ohm, load_ohm, within_db }
}

struct Search<'a> {
    chain: [[Complex64; 2]; 2],
    ln_scale: f64,
    source: &'a ImpedanceRegion,
    load: &'a ImpedanceRegion,
}

/// The highest gain found, and where.
struct Best {
    gain: f64,
    source_ohm: Complex64,
}

impl<'a> Search<'a> {
    fn new(two_port: &TwoPort, source: &'a ImpedanceRegion, load: &'a ImpedanceRegion) -> Self {
        let (chain, ln_scale) = two_port.scaled_chain();
        Self { chain, ln_scale, source, load }
    }

    // A Z2 + B + C Z1 Z2 + D Z1 as a function of Z2.
    fn below(&self, z1: Complex64) -> Linear {
        let [[a, b], [c, d]] = self.chain;
        Linear { slope: a + c * z1, offset: b + d * z1 }
    }

    /// Square of the largest gain for a source, and the load that gives it.
    fn worst_load(&self, z1: Complex64) -> (f64, Complex64) {
        self.load.largest(Linear { slope: Complex64::new(1.0, 0.0), offset: z1 }, self.below(z1))
    }

    fn worst_source(&self, z2: Complex64) -> Complex64 {
        let [[a, b], [c, d]] = self.chain;
        let below = Linear { slope: d + c * z2, offset: b + a * z2 };
        self.source.largest(Linear { slope: Complex64::new(1.0, 0.0), offset: z2 }, below).1
    }

    /// Source and load in turn, uphill from a source.
    fn ascend(&self, from: Complex64, best: &mut Best) {
        let (mut z1, mut reached) = (from, -1.0);
        for _ in 0..TURNS {
            let (square, z2) = self.worst_load(z1);
            let gain = square.sqrt();
            if gain > best.gain {
                *best = Best { gain, source_ohm: z1 };
            }
            if gain <= reached * (1.0 + 1e-6) {
                break;
            }
            reached = gain;
            z1 = self.worst_source(z2);
        }
    }

    /// The gain between the middles of two pieces, and the logarithm of what none between them exceeds.
    fn bounds(&self, pair: &Pair) -> (f64, f64) {
        let [[a, b], [c, d]] = self.chain;
        let (z1, z2) = (pair.source.point(0.5), pair.load.point(0.5));
        let (by_source, by_load) = (c * z2 + d, a + c * z1);
        let (above, below) = (z1 + z2, by_source * z1 + a * z2 + b);
        let size = above.norm();
        if size == 0.0 {
            // They cancel: nothing passes here, and what is beside it must be looked at.
            return (0.0, f64::INFINITY);
        }
        let gain = size / below.norm();
        let (a1, a2) = (z1 / above, z2 / above);
        let (b1, b2, b12) = (by_source * z1 / below, by_load * z2 / below, c * z1 * z2 / below);
        let ((half_1, way_1), (half_2, way_2)) = (pair.source.half(), pair.load.half());
        // e^w - 1 and what it has beyond w, at most.
        let (step_1, step_2) = (half_1.exp_m1(), half_2.exp_m1());
        let (bend_1, bend_2) = (step_1 - half_1, step_2 - half_2);
        let (slope_1, slope_2) = (a1 - b1, a2 - b2);
        let x = a1.norm() * step_1 + a2.norm() * step_2;
        let both = b12.norm() * step_1 * step_2;
        let y = b1.norm() * step_1 + b2.norm() * step_2 + both;
        if y >= 1.0 {
            return (gain, f64::INFINITY);
        }
        let rise = (slope_1 * way_1).re.abs() * half_1
            + (slope_2 * way_2).re.abs() * half_2
            + slope_1.norm() * bend_1
            + slope_2.norm() * bend_2
            + both
            + 0.5 * x * x
            + 0.5 * y * y / (1.0 - y);
        (gain, gain.ln() + rise)
    }

    /// The pair with that piece halved that makes more of the bound.
    fn halves(&self, pair: &Pair) -> [Pair; 2] {
        let [[a, b], [c, d]] = self.chain;
        let (z1, z2) = (pair.source.point(0.5), pair.load.point(0.5));
        let (above, below) = ((z1 + z2).norm(), (a * z2 + b + (c * z2 + d) * z1).norm());
        let weight = |z: Complex64, slope: Complex64| z.norm() / above + (slope * z).norm() / below;
        let by_source = weight(z1, c * z2 + d) * pair.source.half().0;
        let by_load = weight(z2, a + c * z1) * pair.load.half().0;
        if by_source > by_load {
            pair.source.halves().map(|source| Pair { source, ..*pair })
        } else {
            pair.load.halves().map(|load| Pair { load, ..*pair })
        }
    }
}

/// A piece of the source's boundary and one of the load's.
#[derive(Debug, Clone, Copy)]
struct Pair {
    source: Piece,
    load: Piece,
}

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

    /// The least insertion loss in dB over both regions, over a sweep; `out` is as long as `frequency_hz`.
    pub fn region_insertion_losses_db(
        &self,
        frequency_hz: &[f64],
        source: &ImpedanceRegion,
        load: &ImpedanceRegion,
        out: &mut [f64],
    ) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        in_parts(out, 10_000 * frequency_hz.len(), |start, part| {
            for (loss, &f) in part.iter_mut().zip(&frequency_hz[start..]) {
                *loss = self.worst_terminations(f, source, load).insertion_loss_db;
            }
        });
    }
}

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
            let size = region.min_ohm() * (region.max_ohm() / region.min_ohm()).powf(across);
            let phase = region.min_phase_deg() + (region.max_phase_deg() - region.min_phase_deg()) * around;
            Complex64::from_polar(size, phase.to_radians())
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
                let worst = worst_terminations(&two_port, &source, &load);
                assert!(worst.within_db <= 0.0101, "{frequency_hz}: {worst:?}");
                let exact = worst.insertion_loss_db;
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
    fn a_sharp_peak_between_the_first_places_is_not_missed() {
        // A coil of high quality against a region that reaches close to reactances.
        let coil = Inductor::new(1e-3).unwrap().with_resistance_ohm(1e-3).unwrap();
        let cap = Capacitor::new(10e-9).unwrap().with_series_resistance_ohm(1e-3).unwrap();
        let ladder = Ladder::new(vec![Element::Series(coil.into()), Element::Shunt(cap.into())]).unwrap();
        let region = ImpedanceRegion::new(0.01, 1e5, -89.9, 89.9).unwrap();
        for frequency_hz in [9e3, 33e3, 50e3, 120e3] {
            let two_port = ladder.two_port(frequency_hz);
            let worst = worst_terminations(&two_port, &region, &region);
            // Every place of the source's boundary in very small steps, the load's worst for each.
            let search = Search::new(&two_port, &region, &region);
            let highest = region
                .boundary()
                .iter()
                .flat_map(|piece| (0..=30_000).map(|k| piece.point(f64::from(k) / 30_000.0)).collect::<Vec<_>>())
                .map(|z1| search.worst_load(z1).0)
                .fold(0.0, f64::max);
            let found = -10.0 * highest.log10();
            assert!(worst.insertion_loss_db <= found + 1e-9, "{frequency_hz}: {found} {worst:?}");
            assert!(worst.insertion_loss_db >= two_port.worst_insertion_loss_db() - 1e-7);
        }
    }

    #[test]
    fn without_loss_there_is_no_worst_and_the_search_ends() {
        let coil = Inductor::new(100e-6).unwrap();
        let cap = Capacitor::new(1e-6).unwrap();
        let ladder = Ladder::new(vec![Element::Series(coil.into()), Element::Shunt(cap.into())]).unwrap();
        let all = ImpedanceRegion::new(1e-3, 1e4, -90.0, 90.0).unwrap();
        let worst = ladder.worst_terminations(20e3, &all, &all);
        assert!(worst.insertion_loss_db < -60.0, "{worst:?}");
    }
}
