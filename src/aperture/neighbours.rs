//! What the holes of an array do to one another.
//!
//! Small holes are dipoles on a wall, two magnetic and one electric. Two of them at a distance r, x = kr, share a
//! part of the power that they radiate; over what each radiates alone that part is
//!
//! w∥ = 3 j₁(x)/x        magnetic, both along the line that joins them,
//! w⊥ = 3/2 (j₀(x) − j₁(x)/x)   magnetic across that line, or both electric,
//! w₊ = 3/2 j₁(x)        magnetic across the line and electric, in quadrature,
//!
//! j the spherical Bessel functions (imaginary part of the field of a dipole; J. D. Jackson, *Classical
//! Electrodynamics*, 3rd ed., 1999, sec. 9.2, from memory). Averaged over the array,
//!
//! F_x = 1 + (2/N) Σ (w∥² cos²φ + w⊥² sin²φ),   F_e = 1 + (2/N) Σ w⊥²,   F_xe = (2/N) Σ w₊² sin²φ,
//!
//! over its pairs, is by how much the array radiates more than its holes apart: N for one much smaller than the
//! wavelength, one for holes far apart. Their static fields ease (or, across a row, hinder) one another by
//! β_x = (2/N) Σ (3cos²φ − 1)/(4πr³) and β_e = (2/N) Σ 1/(4πr³) (the electric moment points against the field), which for a large pattern are
//! S/(8πp³) and S/(4πp³), S the lattice sum of the perforated sheet (`crate::mouth::hole_pattern`).

use std::f64::consts::PI;

use super::hole_layout::HoleLayout;

/// Pairs at one distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ring {
    pub distance_m: f64,
    /// Twice their number over that of the holes.
    pub weight: f64,
    /// Mean of cos²φ, φ from the first axis.
    pub along: f64,
}

/// The pairs of an array by distance, and the sums of their static fields, 1/m³.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Neighbours {
    pub rings: Vec<Ring>,
    pub field_x: f64,
    pub field_y: f64,
    pub field_e: f64,
}

/// How much the holes gather and share at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gathering {
    pub x: f64,
    pub y: f64,
    pub e: f64,
    pub xe: f64,
    pub ye: f64,
}

/// Distances are told apart down to this share of the largest one, which is nothing against any wavelength at
/// which so large an array is in step.
const FINENESS: usize = 4096;

impl Neighbours {
    pub(super) fn new(layout: &HoleLayout, centres_m: &[[f64; 2]]) -> Self {
        let per_hole = 2.0 / layout.count() as f64;
        let (mut field_x, mut field_y, mut field_e) = (0.0, 0.0, 0.0);
        let (mut ways, mut largest) = (0_usize, 0.0_f64);
        layout.for_each_way(centres_m, |[x, y], pairs| {
            let r = x.hypot(y);
            let (weight, along) = (pairs * per_hole / (4.0 * PI * r * r * r), (x / r) * (x / r));
            field_x += weight * (3.0 * along - 1.0);
            field_y += weight * (2.0 - 3.0 * along);
            field_e += weight;
            ways += 1;
            largest = largest.max(r);
        });
        let rings = if ways > 4 * FINENESS {
            binned(layout, centres_m, largest, per_hole)
        } else {
            exact(layout, centres_m, largest, per_hole)
        };
        Self { rings, field_x, field_y, field_e }
    }

    /// At a wavenumber.
    pub(super) fn gathering(&self, wavenumber_per_m: f64) -> Gathering {
        let mut sum = Gathering { x: 1.0, y: 1.0, e: 1.0, xe: 0.0, ye: 0.0 };
        for &Ring { distance_m, weight, along } in &self.rings {
            let (par, perp, mixed) = shared(wavenumber_per_m * distance_m);
            let (par, perp, mixed) = (weight * par * par, weight * perp * perp, weight * mixed * mixed);
            let across = 1.0 - along;
            sum.x += par * along + perp * across;
            sum.y += par * across + perp * along;
            sum.e += perp;
            sum.xe += mixed * across;
            sum.ye += mixed * along;
        }
        sum
    }
}

/// Pairs of the same distance (but for rounding) put together.
fn exact(layout: &HoleLayout, centres_m: &[[f64; 2]], largest: f64, per_hole: f64) -> Vec<Ring> {
    let mut all = Vec::new();
    layout.for_each_way(centres_m, |[x, y], pairs| {
        let distance_m = x.hypot(y);
        all.push(Ring { distance_m, weight: pairs * per_hole, along: (x / distance_m) * (x / distance_m) });
    });
    all.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
    let mut rings: Vec<Ring> = Vec::new();
    for pair in all {
        match rings.last_mut() {
            Some(ring) if pair.distance_m - ring.distance_m < 1e-9 * largest => join(ring, &pair),
            _ => rings.push(pair),
        }
    }
    rings
}

fn binned(layout: &HoleLayout, centres_m: &[[f64; 2]], largest: f64, per_hole: f64) -> Vec<Ring> {
    let mut bins = vec![Ring { distance_m: 0.0, weight: 0.0, along: 0.0 }; FINENESS + 1];
    layout.for_each_way(centres_m, |[x, y], pairs| {
        let distance_m = x.hypot(y);
        let bin = (distance_m / largest * FINENESS as f64) as usize;
        let along = (x / distance_m) * (x / distance_m);
        join(&mut bins[bin.min(FINENESS)], &Ring { distance_m, weight: pairs * per_hole, along });
    });
    bins.retain(|ring| ring.weight > 0.0);
    bins
}

/// Weighted means.
fn join(ring: &mut Ring, pair: &Ring) {
    ring.weight += pair.weight;
    let share = pair.weight / ring.weight;
    ring.distance_m += share * (pair.distance_m - ring.distance_m);
    ring.along += share * (pair.along - ring.along);
}

/// j₁(x)/x in powers of x², for x below one.
pub(super) const SERIES: [f64; 9] = [
    1.0 / 3.0,
    -1.0 / 30.0,
    1.0 / 840.0,
    -1.0 / 45_360.0,
    1.0 / 3_991_680.0,
    -1.0 / 518_918_400.0,
    1.0 / 93_405_312_000.0,
    -1.0 / 22_230_464_256_000.0,
    1.0 / 6_758_061_133_824_000.0,
];

/// w∥, w⊥ and w₊.
pub(super) fn shared(x: f64) -> (f64, f64, f64) {
    let j0 = x.sin() / x;
    let ratio = if x < 1.0 {
        SERIES.iter().rev().fold(0.0, |sum, term| sum * (x * x) + term)
    } else {
        (j0 - x.cos()) / (x * x)
    };
    (3.0 * ratio, 1.5 * (j0 - ratio), 1.5 * x * ratio)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mouth::HolePattern;

    fn grid(pattern: HolePattern, rows: usize, columns: usize) -> Neighbours {
        let layout = HoleLayout::grid(pattern, 1.0, rows, columns).unwrap();
        Neighbours::new(&layout, &[])
    }

    #[test]
    fn holes_in_one_place_gather_all_and_far_ones_nothing() {
        let array = grid(HolePattern::Square, 3, 4);
        let near = array.gathering(1e-6);
        assert!((near.x - 12.0).abs() < 1e-9 && (near.y - 12.0).abs() < 1e-9 && (near.e - 12.0).abs() < 1e-9);
        assert!(near.xe < 1e-9);
        let far = array.gathering(1e4);
        assert!((far.x - 1.0).abs() < 1e-6 && (far.e - 1.0).abs() < 1e-6);
    }

    #[test]
    fn static_fields_of_large_patterns_are_the_lattice_sums() {
        for pattern in [HolePattern::Square, HolePattern::Hexagonal] {
            let array = grid(pattern, 300, 300);
            // What lies beyond a finite pattern falls with its size.
            let expected = pattern.lattice_sum() / (8.0 * PI);
            for field in [array.field_x, array.field_y, 0.5 * array.field_e] {
                assert!((field / expected - 1.0).abs() < 0.03, "{pattern:?} {field} {expected}");
            }
        }
    }

    #[test]
    fn the_series_meets_the_closed_form() {
        let (below, above) = (shared(1.0 - 1e-12), shared(1.0 + 1e-12));
        assert!((below.0 - above.0).abs() < 1e-11 && (below.2 - above.2).abs() < 1e-11);
    }

    #[test]
    fn bins_stand_for_their_pairs() {
        let layout = HoleLayout::random(300, 1.0, 1.0, 3).unwrap();
        let centres = layout.centres_m(0.01).unwrap();
        let (fine, coarse) = (exact(&layout, &centres, 1.5, 1.0), binned(&layout, &centres, 1.5, 1.0));
        let with = |rings: Vec<Ring>| Neighbours { rings, field_x: 0.0, field_y: 0.0, field_e: 0.0 };
        let (fine, coarse) = (with(fine), with(coarse));
        for k in [0.1, 3.0, 30.0, 300.0] {
            let (a, b) = (fine.gathering(k), coarse.gathering(k));
            assert!((a.x / b.x - 1.0).abs() < 1e-3 && (a.e / b.e - 1.0).abs() < 1e-3, "{k}: {a:?} {b:?}");
        }
    }
}
