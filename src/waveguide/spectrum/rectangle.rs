//! Modes of the rectangle of width 1 and height b.
//!
//! Fields and cutoffs: for example D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 3.3.

use std::f64::consts::PI;
use std::ops::Mul;

use super::half_space::planar;
use super::truncation::Truncations;
use super::{Block, Member, ModeFamily, Parity, Space};
use crate::lanes::{Real, Simd};

/// One mode, its field scaled to unit power integral over the opening.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Mode {
    pub(crate) family: ModeFamily,
    m: u32,
    n: u32,
    height: f64,
    pub(crate) cutoff: f64,
    scale: f64,
}

impl Mode {
    fn new(family: ModeFamily, m: u32, n: u32, height: f64) -> Self {
        let mean_square = |index: u32| if index == 0 { 1.0 } else { 0.5 };
        let cutoff = cutoff(m, n, height);
        let scale = 1.0 / (cutoff * (mean_square(m) * mean_square(n) * height).sqrt());
        Self { family, m, n, height, cutoff, scale }
    }

    /// Half waves along both sides.
    pub(crate) fn orders(&self) -> [usize; 2] {
        [self.m as usize, self.n as usize]
    }

    /// Transforms of E_x and E_y from those of cos and sin along both sides.
    #[inline(always)]
    pub(crate) fn transform<T: Copy + Mul<Output = T> + Mul<f64, Output = T>>(
        &self,
        (cos_x, sin_x): (T, T),
        (cos_y, sin_y): (T, T),
    ) -> [T; 2] {
        let (p, q) = (self.scale * PI * f64::from(self.m), self.scale * PI * f64::from(self.n) / self.height);
        let (on_x, on_y) = if self.family == ModeFamily::Te { (q, -p) } else { (p, q) };
        [cos_x * sin_y * on_x, sin_x * cos_y * on_y]
    }
}

/// Cutoff wavenumber in units of 1/width.
pub(crate) fn cutoff(m: u32, n: u32, height: f64) -> f64 {
    PI * f64::from(m).hypot(f64::from(n) / height)
}

/// Real transforms of cos and sin(mπ(x/l + ½)) over a line of length l centred at zero: against cos kx or sin kx,
/// whichever does not vanish.
fn line(m: u32, q: f64, length: f64, k: f64) -> (f64, f64) {
    let half_sinc = |z: f64| if z.abs() < 1e-9 { 0.5 * length } else { (0.5 * z * length).sin() / z };
    let (difference, sum) = (half_sinc(q - k), half_sinc(q + k));
    let (with_cos, with_sin) = (difference + sum, difference - sum);
    match m % 4 {
        0 => (with_cos, with_sin),
        1 => (-with_sin, with_cos),
        2 => (-with_cos, -with_sin),
        _ => (with_sin, -with_cos),
    }
}

/// The same for all orders up to the last place of `out`, over the unit line, a wavenumber in each lane.
#[inline(always)]
pub(crate) fn lines_in_lanes<S: Simd>(k: Real<S>, out: &mut [(Real<S>, Real<S>)]) {
    for (m, slot) in out.iter_mut().enumerate() {
        let half_sinc = |z: Real<S>| z.abs().less(1e-9).select(0.5, (z * 0.5).sin_cos().0 / z);
        let q = PI * m as f64;
        let (difference, sum) = (half_sinc(q - k), half_sinc(q + k));
        let (with_cos, with_sin) = (difference + sum, difference - sum);
        *slot = match m % 4 {
            0 => (with_cos, with_sin),
            1 => (-with_sin, with_cos),
            2 => (-with_cos, -with_sin),
            _ => (with_sin, -with_cos),
        };
    }
}

/// Modes with m and n odd or even as asked, cutoffs up to `cutoff_limit`, at most `most` of them, by rising cutoff.
pub(crate) fn modes((odd_m, odd_n): (bool, bool), height: f64, cutoff_limit: f64, most: usize) -> Vec<Mode> {
    let mut modes = Vec::new();
    let highest = |length: f64| (cutoff_limit * length / PI) as u32;
    for m in (u32::from(odd_m)..=highest(1.0)).step_by(2) {
        for n in (u32::from(odd_n)..=highest(height)).step_by(2) {
            if m + n > 0 {
                modes.push(Mode::new(ModeFamily::Te, m, n, height));
            }
            if m * n > 0 {
                modes.push(Mode::new(ModeFamily::Tm, m, n, height));
            }
        }
    }
    modes.retain(|mode| mode.cutoff < cutoff_limit);
    modes.sort_by(|a, b| a.cutoff.total_cmp(&b.cutoff));
    modes.truncate(most);
    modes
}

/// Symmetry of E_x of modes with odd or even m and n.
pub(crate) fn ex((odd_m, odd_n): (bool, bool)) -> Parity {
    Parity::new(!odd_m, odd_n)
}

/// Transforms of E_x and E_y of modes of one symmetry.
pub(crate) fn transform(modes: &[Mode], kx: f64, ky: f64, fx: &mut [f64], fy: &mut [f64]) {
    // Many modes share few orders along each side.
    let lines = |orders: fn(&Mode) -> u32, length: f64, k: f64| {
        let highest = modes.iter().map(orders).max().unwrap_or(0);
        let line = |m: u32| line(m, PI * f64::from(m) / length, length, k);
        (0..=highest).map(line).collect::<Vec<_>>()
    };
    let height = modes.first().map_or(1.0, |mode| mode.height);
    let (along_x, along_y) = (lines(|mode| mode.m, 1.0, kx), lines(|mode| mode.n, height, ky));
    for (i, mode) in modes.iter().enumerate() {
        [fx[i], fy[i]] = mode.transform::<f64>(along_x[mode.m as usize], along_y[mode.n as usize]);
    }
}

/// Wall integrals of a mode, as [`crate::waveguide::Mode`] has them.
pub(crate) fn wall(family: ModeFamily, m: u32, n: u32, height: f64) -> [f64; 2] {
    let (kx, ky) = (PI * f64::from(m), PI * f64::from(n) / height);
    let square = kx * kx + ky * ky;
    // Mean squares of cos over a line: 1 for order zero, else ½; 2 walls of each kind.
    let share = |order: u32| if order == 0 { 1.0 } else { 2.0 };
    if family == ModeFamily::Te {
        let first = 2.0 * (share(m) + share(n) / height);
        [first, 2.0 * (share(n) * kx * kx / height + share(m) * ky * ky) / square]
    } else {
        [4.0 * (kx * kx + ky * ky / height) / square, 0.0]
    }
}

/// The narrowest rectangle that is resolved across its height; a narrower one is a slit.
pub(crate) const NARROWEST: f64 = 0.2;

/// Twice as many orders along each side as run at the wavenumber `k`: even numbers, so that half as many again is a whole one.
fn coarse(length: f64, k: f64) -> u32 {
    2 * ((k * length / (4.0 * PI) + 0.5).ceil() as u32).max(1)
}

/// The block of one symmetry for wavenumbers up to `k`, and its modes.
pub(crate) fn block(odd: (bool, bool), height: f64, k: f64) -> (Block, Vec<Mode>) {
    block_of(odd, height, [coarse(1.0, k), coarse(height, k)])
}

/// The block whose truncations hold the even numbers of orders given along each side, 1.5 and 2 times as many.
pub(crate) fn block_of((odd_m, odd_n): (bool, bool), height: f64, coarse: [u32; 2]) -> (Block, Vec<Mode>) {
    let mut modes = Vec::new();
    for i in 0..2 * coarse[0] {
        for j in 0..2 * coarse[1] {
            let (m, n) = (2 * i + u32::from(odd_m), 2 * j + u32::from(odd_n));
            if m + n > 0 {
                modes.push(Mode::new(ModeFamily::Te, m, n, height));
            }
            if m * n > 0 {
                modes.push(Mode::new(ModeFamily::Tm, m, n, height));
            }
        }
    }
    modes.sort_by(|a, b| a.cutoff.total_cmp(&b.cutoff));
    let level = |halves: u32| {
        let within = |mode: &Mode| mode.m / 2 < halves * coarse[0] / 2 && mode.n / 2 < halves * coarse[1] / 2;
        let members = modes.iter().enumerate().filter(|(_, mode)| within(mode));
        (f64::from(halves), members.map(|(index, _)| index).collect())
    };
    let truncations = Truncations::new([2, 3, 4].map(level));
    // What lies beyond this multiple of the highest cutoff is known well enough from its mean.
    let limit = 2.5 * modes.last().map_or(0.0, |mode| mode.cutoff);
    (gathered(&modes, (odd_m, odd_n), height, limit, truncations), modes)
}

/// The block of one symmetry far above cutoff, where many modes run and the edges matter little: as they are, up to a cutoff above `k`.
pub(crate) fn wide_block(odd: (bool, bool), height: f64, k: f64) -> (Block, Vec<Mode>) {
    let limit = (1.6 * k).max(5.0 * PI / height);
    let modes = modes(odd, height, limit, usize::MAX);
    let part = modes.iter().enumerate().filter(|(_, mode)| mode.cutoff < 0.8 * limit).map(|(index, _)| index).collect();
    (gathered(&modes, odd, height, 2.5 * limit, Truncations::compared(part, modes.len())), modes)
}

/// The block of a slit, lower than a fifth of its width: its lowest modes as they are. Nothing if there is no such mode.
pub(crate) fn slit_block(odd: (bool, bool), height: f64) -> Option<Block> {
    const MODES: usize = 10;
    const CUTOFF: f64 = 40.0 * PI;
    const SPECTRUM: f64 = 120.0;
    let modes = modes(odd, height, CUTOFF, MODES);
    let block = gathered(&modes, odd, height, SPECTRUM, Truncations::none(modes.len()));
    (!modes.is_empty()).then_some(block)
}

fn gathered(modes: &[Mode], odd: (bool, bool), height: f64, limit: f64, truncations: Truncations) -> Block {
    let families: Vec<_> = modes.iter().map(|mode| mode.family).collect();
    let table = planar(&families, ex(odd), limit, 1.0_f64.max(height), |kx, ky, fx, fy| {
        transform(modes, kx, ky, fx, fy);
    });
    let member = |mode: &Mode| Member {
        family: mode.family,
        cutoff: mode.cutoff,
        wall: wall(mode.family, mode.m, mode.n, height),
    };
    Block { count: 1.0, modes: modes.iter().map(member).collect(), truncations, space: Space::Table(table) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn radiated_power_of_the_dipole() {
        // g = (k²/3π)·|∫e dA|², and for TE10 of a unit square |∫e dA|² = 8/π².
        let modes = modes((true, false), 1.0, 4.0, 9);
        assert_eq!(modes.len(), 1);
        let block = gathered(&modes, (true, false), 1.0, 40.0, Truncations::none(1));
        let k = 1e-3;
        let expected = k * k / (3.0 * PI) * 8.0 / (PI * PI);
        let g = block.space.admittance(k)[(0, 0)].re;
        assert!((g / expected - 1.0).abs() < 1e-6, "{g} {expected}");
    }

    #[test]
    fn a_wide_opening_radiates_as_free_space() {
        // Far above cutoff the aperture is matched: g → k_z/k of the guide's own wave, b → 0.
        let modes = modes((true, false), 0.5, 4.0, 9);
        let block = gathered(&modes, (true, false), 0.5, 120.0, Truncations::none(1));
        let y = block.space.admittance(60.0)[(0, 0)];
        assert!((y.re - 1.0).abs() < 0.02 && y.im.abs() < 0.02, "{y}");
    }
}
