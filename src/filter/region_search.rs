//! Worst insertion loss over a stated region of impedances, exactly, with a proof that nothing worse was missed.
//!
//! All passive terminations is too wide a net for most work: nobody's mains is a pure reactance without loss. For a
//! passive two-port the gain `V2/V20` is analytic in either impedance over the right half plane, so by the
//! maximum-modulus principle its largest magnitude over two regions lies on the boundary of both: arcs and rays. For one
//! impedance given, the other's worst is exact ([`ImpedanceRegion`]); in turns they lead to a peak.
//!
//! That no other is higher is decided by algebra. A gain above a level would, on some piece of the load's boundary, be above
//! it between two crossings, and the discriminant of these crossings is a quartic along a piece of the source's boundary
//! ([`tangency`](super::tangency)). At the corners of both regions the worst is known exactly and below the level, so
//! the stretch above it can't leave a piece of the load's boundary through its ends, nor the source's: along a stretch of a
//! positive discriminant it either stays on the piece or stays off it. One look in each such stretch, at the peak of the
//! quartic, settles it. Where the look finds more gain, that is the new level; else the level is not exceeded. This is how the
//! largest gain of a linear system over all frequencies is found (N. A. Bruinsma and M. Steinbuch, *A fast algorithm to
//! compute the H∞-norm of a transfer function matrix*, 1990, cited, not read), and it converges as fast.
//!
//! The level is put 0.000001 dB above the gain found; rounding is all that is beside it, and what it can be is said in the
//! result.

use num_complex::Complex64;

use super::region::{Linear, Piece};
use super::tangency::Along;
use crate::circuit::{Terminations, TwoPort};
use crate::decibel::DB_PER_NEPER;
use crate::filter::{ImpedanceRegion, Ladder};
use crate::lanes::{in_parts, paired};

/// How far above the gain found the level is put that is shown not to be exceeded, dB.
const STEP_DB: f64 = 1e-6;
/// Looks at a pair of pieces. Each but the last of a pair finds a higher gain, and from the second or third on they close in
/// as Newton's method does.
const MOST_LOOKS: usize = 1000;
/// How often source and load take turns on the way to a peak.
const TURNS: usize = 6;

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
    /// No pair in the regions loses less by more than this, dB: 0.000001, and what rounding adds at a resonance with next to
    /// no loss; infinite where rounding is all that is left of it.
    pub within_db: f64,
}

/// The least insertion loss of a passive two-port over a region of source and one of load impedances.
#[must_use]
pub fn worst_terminations(two_port: &TwoPort, source: &ImpedanceRegion, load: &ImpedanceRegion) -> WorstTerminations {
    let search = Search::new(two_port, source, load);
    let mut best = Best { square: -1.0, source: search.source.corners()[0], load: search.load.corners()[0] };
    // What the proof needs to know: the worst at every corner of both regions.
    for corner in search.load.corners() {
        search.offer(search.worst_source(corner), &mut best);
    }
    for corner in search.source.corners() {
        search.offer(corner, &mut best);
    }
    search.ascend(best.source, &mut best);
    let shown = search.raise(&mut best);
    let (source_ohm, load_ohm) = (best.source * search.unit, best.load * search.unit);
    // Near a short circuit the chain's own form keeps the digits that the squares above lose.
    let insertion_loss_db = Terminations::new(source_ohm, load_ohm).map_or_else(
        |_| DB_PER_NEPER * (search.ln_scale - 0.5 * best.square.ln()),
        |ends| two_port.insertion_loss_db(&ends),
    );
    let rounding = search.rounding(&best);
    let within_db = if shown && rounding < 0.5 { STEP_DB + DB_PER_NEPER * rounding } else { f64::INFINITY };
    WorstTerminations { insertion_loss_db, source_ohm, load_ohm, within_db }
}

/// A two-port between two regions, impedances counted in a unit near those of the regions.
struct Search {
    chain: [[Complex64; 2]; 2],
    ln_scale: f64,
    /// Ohm; a power of two, so that nothing is rounded.
    unit: f64,
    source: ImpedanceRegion,
    load: ImpedanceRegion,
}

/// The square of the highest gain found, and where.
struct Best {
    square: f64,
    source: Complex64,
    load: Complex64,
}

impl Search {
    fn new(two_port: &TwoPort, source: &ImpedanceRegion, load: &ImpedanceRegion) -> Self {
        let ([[a, b], [c, d]], ln_scale) = two_port.scaled_chain();
        let sizes = [source.min_ohm(), source.max_ohm(), load.min_ohm(), load.max_ohm()];
        let unit = (0.25 * sizes.iter().map(|size| size.log2()).sum::<f64>()).round().exp2();
        let chain = [[a, b / unit], [c * unit, d]];
        Self { chain, ln_scale, unit, source: source.over(unit), load: load.over(unit) }
    }

    /// LineMatrix of the largest gain for a source, and the load that gives it.
    fn worst_load(&self, source: Complex64) -> (f64, Complex64) {
        let [[a, b], [c, d]] = self.chain;
        let below = Linear { slope: a + c * source, offset: b + d * source };
        self.load.largest(Linear { slope: Complex64::new(1.0, 0.0), offset: source }, below)
    }

    fn worst_source(&self, load: Complex64) -> Complex64 {
        let [[a, b], [c, d]] = self.chain;
        let below = Linear { slope: d + c * load, offset: b + a * load };
        self.source.largest(Linear { slope: Complex64::new(1.0, 0.0), offset: load }, below).1
    }

    /// A source with its worst load.
    fn offer(&self, source: Complex64, best: &mut Best) -> (f64, Complex64) {
        let (square, load) = self.worst_load(source);
        if square > best.square {
            *best = Best { square, source, load };
        }
        (square, load)
    }

    /// Source and load in turn, uphill from a source. Slow along a ridge, where the levels are quicker.
    fn ascend(&self, from: Complex64, best: &mut Best) {
        let (mut source, mut reached) = (from, -1.0);
        for _ in 0..TURNS {
            let (square, load) = self.offer(source, best);
            if square <= reached * (1.0 + 1e-3) {
                break;
            }
            reached = square;
            source = self.worst_source(load);
        }
    }

    /// To the highest gain of all; whether it was shown that there is none higher.
    fn raise(&self, best: &mut Best) -> bool {
        let above = (2.0 * STEP_DB / DB_PER_NEPER).exp();
        let sources: Vec<(Piece, Along)> =
            self.source.boundary().map(|piece| (piece, Along::new(self.chain, &piece))).collect();
        let loads: Vec<Piece> = self.load.boundary().collect();
        let mut looks = 0;
        loop {
            let mut raised = false;
            for (piece, along) in &sources {
                for load in &loads {
                    // The same pair of pieces as long as it raises the level: its peak is near.
                    loop {
                        looks += 1;
                        let level = best.square * above;
                        let Some(peaks) = along.peaks(&along.tangency(load, level)) else { return false };
                        let before = best.square;
                        for place in peaks.iter() {
                            let source = piece.point(place);
                            if self.worst_load(source).0 > level {
                                self.ascend(source, best);
                            }
                        }
                        if best.square == before {
                            break;
                        }
                        raised = true;
                        if looks > MOST_LOOKS {
                            return false;
                        }
                    }
                }
            }
            if !raised {
                return true;
            }
        }
    }

    /// What rounding of the chain's entries can make of the gain found, relative.
    fn rounding(&self, best: &Best) -> f64 {
        let [[a, b], [c, d]] = self.chain;
        let terms = [a * best.load, b, c * best.source * best.load, d * best.source];
        let all: f64 = terms.iter().map(|term| term.norm()).sum();
        4.0 * f64::EPSILON * all / terms.iter().sum::<Complex64>().norm()
    }
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
        in_parts(out, 300 * frequency_hz.len(), |start, part| {
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
                assert!(worst.within_db < 1.1e-6, "{frequency_hz}: {worst:?}");
                let exact = worst.insertion_loss_db;
                let found = searched(&two_port, &source, &load);
                assert!(exact <= found + worst.within_db, "{frequency_hz}: the search found {found}, below {exact}");
                assert!(found - exact < 1e-6, "{frequency_hz}: {found} {exact}");
            }
        }
    }

    #[test]
    fn the_widest_region_meets_the_bound_over_all_passive_terminations() {
        let all = ImpedanceRegion::new(1e-6, 1e9, -90.0, 90.0).unwrap();
        for frequency_hz in [16e3, 150e3, 2e6] {
            let two_port = ladder().two_port(frequency_hz);
            let worst = worst_terminations(&two_port, &all, &all);
            assert!(worst.within_db < 1e-4, "{frequency_hz}: {worst:?}");
            let region = worst.insertion_loss_db;
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
            let highest = search
                .source
                .boundary()
                .flat_map(|piece| {
                    let (low, high) = piece.range();
                    let place = move |share: f64| match piece {
                        Piece::Ray { .. } => low * (high / low).powf(share),
                        Piece::Arc { .. } => low + (high - low) * share,
                    };
                    (0..=30_000).map(move |k| piece.point(place(f64::from(k) / 30_000.0)))
                })
                .map(|source| search.worst_load(source).0)
                .fold(0.0, f64::max);
            let found = -10.0 * highest.log10();
            assert!(worst.insertion_loss_db <= found + worst.within_db, "{frequency_hz}: {found} {worst:?}");
            assert!(worst.within_db < 1e-4, "{frequency_hz}: {worst:?}");
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
