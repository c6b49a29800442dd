//! Modes of the circle of unit radius: J_m(xρ) cos mφ, x a zero of J_m (TM) or of its derivative (TE).
//!
//! Cutoffs and fields: for example D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.4. The transforms follow
//! from Lommel's integral (Abramowitz and Stegun, 1964, 11.3.29).

use std::f64::consts::{PI, SQRT_2};

use super::half_space::HalfSpace;
use super::truncation::Truncations;
use super::{Block, Member, ModeFamily, Space};
use crate::numeric::bessel::J1_PRIME_FIRST;
use crate::numeric::bessel_j_and_slope;

/// Lowest zero of J₁', the dominant mode TE11.
pub(crate) const TE11: f64 = J1_PRIME_FIRST;

/// Positive zeros below `limit` of J_m (TM) or of J_m' (TE), in rising order.
///
/// No zero lies below the order, and neighbours are more than 0.8 apart, so a change of sign over such a step brackets
/// exactly one; bisection then goes to the last bit.
pub(crate) fn zeros(family: ModeFamily, order: usize, limit: f64) -> Vec<f64> {
    const STEP: f64 = 0.8;
    let value = |x: f64| {
        let (j, slope) = bessel_j_and_slope(order, x);
        if family == ModeFamily::Te { slope } else { j }
    };
    let mut found = Vec::new();
    let mut low = (order as f64).max(0.5);
    let mut at_low = value(low);
    while low < limit {
        let high = low + STEP;
        let at_high = value(high);
        if (at_low < 0.0) != (at_high < 0.0) {
            let root = bisect(low, high, |x| (value(x) < 0.0) == (at_low < 0.0));
            if root < limit {
                found.push(root);
            }
        }
        (low, at_low) = (high, at_high);
    }
    found
}

/// The place where `on_the_left` turns false, to the last bit.
pub(crate) fn bisect(mut left: f64, mut right: f64, on_the_left: impl Fn(f64) -> bool) -> f64 {
    loop {
        let middle = 0.5 * (left + right);
        if middle <= left || middle >= right {
            return middle;
        }
        if on_the_left(middle) { left = middle } else { right = middle }
    }
}

/// Modes of one azimuthal order below a cutoff, by rising cutoff.
pub(crate) fn modes(order: usize, cutoff_limit: f64) -> Vec<(ModeFamily, f64)> {
    let mut modes: Vec<(ModeFamily, f64)> = [ModeFamily::Te, ModeFamily::Tm]
        .into_iter()
        .flat_map(|family| zeros(family, order, cutoff_limit).into_iter().map(move |x| (family, x)))
        .collect();
    modes.sort_by(|a, b| a.1.total_cmp(&b.1));
    modes
}

/// The first `count` zeros, as [`zeros`].
pub(crate) fn first_zeros(family: ModeFamily, order: usize, count: usize) -> Vec<f64> {
    let m = order as f64;
    // The first zero lies near the order's turning point, the others a little farther apart than π.
    let mut limit = m + 4.0 * m.cbrt() + PI * (count as f64 + 2.0);
    loop {
        let mut found = zeros(family, order, limit);
        if found.len() >= count {
            found.truncate(count);
            return found;
        }
        limit *= 1.2;
    }
}

/// Wall integrals of a mode, as [`crate::waveguide::Mode`] has them; `zero` is its cutoff.
pub(crate) fn wall(family: ModeFamily, order: usize, zero: f64) -> [f64; 2] {
    let m = order as f64;
    if family == ModeFamily::Te {
        let first = 2.0 * zero * zero / ((zero - m) * (zero + m));
        [first, first * (m / zero).powi(2)]
    } else {
        [2.0, 0.0]
    }
}

/// The block of azimuthal order `order` for wavenumbers up to `k`: twice as many zeros of each family as run there and one more.
pub(crate) fn block(order: usize, k: f64) -> Block {
    // Zeros of a higher order begin farther out and follow the law of the edge later.
    let least = if order < 2 { 3 } else { 4 };
    let coarse = least.max(zeros(ModeFamily::Te, order, 1.05 * k).len() + 1);
    block_of(order, coarse)
}

/// The block whose truncations hold `coarse`, 4/3 and 2 times as many zeros of each family.
pub(crate) fn block_of(order: usize, coarse: usize) -> Block {
    // What lies beyond this multiple of the highest cutoff is known well enough from its mean.
    const SPECTRUM: f64 = 3.5;
    let all = 2 * coarse;
    let found = [ModeFamily::Te, ModeFamily::Tm].map(|family| (family, first_zeros(family, order, all)));
    let mut modes: Vec<(usize, Member)> = found
        .iter()
        .flat_map(|(family, zeros)| {
            let member = |&zero: &f64| Member { family: *family, cutoff: zero, wall: wall(*family, order, zero) };
            zeros.iter().map(member).enumerate()
        })
        .collect();
    modes.sort_by(|a, b| a.1.cutoff.total_cmp(&b.1.cutoff));
    let level = |count: usize| {
        let members = modes.iter().enumerate().filter(|(_, (place, _))| *place < count);
        (count as f64, members.map(|(index, _)| index).collect())
    };
    let truncations = Truncations::new([coarse, (4 * coarse).div_ceil(3), all].map(level));
    let modes: Vec<Member> = modes.into_iter().map(|(_, member)| member).collect();
    let pairs: Vec<_> = modes.iter().map(|mode| (mode.family, mode.cutoff)).collect();
    let top = pairs.last().map_or(0.0, |last| last.1);
    // cos mφ and sin mφ are alike.
    let count = if order == 0 { 1.0 } else { 2.0 };
    Block { count, modes, truncations, space: Space::Table(half_space(order, &pairs, SPECTRUM * top)) }
}

/// f(κ)/(x² − κ²) for a function that vanishes at κ = x; very close to it by the slope there.
fn over_difference(x: f64, kappa: f64, value: f64, slope: f64) -> f64 {
    if (x - kappa).abs() < 1e-7 * x { -slope / (x + kappa) } else { value / ((x - kappa) * (x + kappa)) }
}

fn half_space(order: usize, modes: &[(ModeFamily, f64)], limit: f64) -> HalfSpace {
    let (mut t, mut m) = (vec![0.0; modes.len()], vec![0.0; modes.len()]);
    HalfSpace::new(modes.len(), limit, |kappa, across, along| {
        radial_parts(order, modes, kappa, &mut t, &mut m);
        let mut entry = 0;
        for p in 0..modes.len() {
            for q in p..modes.len() {
                across[entry] = t[p] * t[q];
                along[entry] = m[p] * m[q];
                entry += 1;
            }
        }
    })
}

/// Parts across and along the wave vector, without their dependence on its direction: scaled so that their products are the
/// half-space's tables.
pub(crate) fn radial_parts(
    order: usize,
    modes: &[(ModeFamily, f64)],
    kappa: f64,
    across: &mut [f64],
    along: &mut [f64],
) {
    radial_parts_from(bessel_j_and_slope(order, kappa), order, modes, kappa, across, along);
}

/// The same from J_m(κ) and its slope.
pub(crate) fn radial_parts_from(
    (j, slope): (f64, f64),
    order: usize,
    modes: &[(ModeFamily, f64)],
    kappa: f64,
    across: &mut [f64],
    along: &mut [f64],
) {
    let m = order as f64;
    // The second derivative by Bessel's equation.
    let bend = -slope / kappa - (1.0 - (m / kappa).powi(2)) * j;
    for (i, &(family, x)) in modes.iter().enumerate() {
        (across[i], along[i]) = match family {
            ModeFamily::Te => {
                let norm = (0.5 * (x - m) * (x + m)).sqrt();
                (x * x * over_difference(x, kappa, slope, bend) / norm, m * j / (kappa * norm))
            }
            _ => (0.0, SQRT_2 * kappa * over_difference(x, kappa, j, slope)),
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zeros_of_the_tables() {
        // Abramowitz and Stegun (1964), table 9.5.
        let close = |found: &[f64], table: &[f64]| {
            assert_eq!(found.len(), table.len());
            for (a, b) in found.iter().zip(table) {
                assert!((a - b).abs() < 6e-6, "{a} {b}");
            }
        };
        close(&zeros(ModeFamily::Tm, 0, 9.0), &[2.404_83, 5.520_08, 8.653_73]);
        close(&zeros(ModeFamily::Te, 0, 9.0), &[3.831_71, 7.015_59]);
        close(&zeros(ModeFamily::Te, 1, 9.0), &[1.841_18, 5.331_44, 8.536_32]);
        close(&zeros(ModeFamily::Tm, 2, 9.0), &[5.135_62, 8.417_24]);
        assert!((zeros(ModeFamily::Te, 1, 2.0)[0] - TE11).abs() < 1e-15);
    }

    #[test]
    fn radiated_power_of_the_dipole() {
        // A small opening radiates as the magnetic dipole of its field: g = (k²/3π)·|∫e dA|², and for TE11 of unit power
        // |∫e dA|² = 2π/(x² − 1).
        let space = half_space(1, &[(ModeFamily::Te, TE11)], 60.0);
        let k = 1e-3;
        let dipole_squared = 2.0 * PI / (TE11 * TE11 - 1.0);
        let expected = k * k / (3.0 * PI) * dipole_squared;
        let g = space.admittance(k)[(0, 0)].re;
        assert!((g / expected - 1.0).abs() < 1e-6, "{g} {expected}");
    }
}
