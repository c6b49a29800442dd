//! A rectangular tube above the range of single modes: several modes of each symmetry at once, then a slit, then an open hole.
//!
//! Where a second mode of a symmetry runs, both are coupled at the ends. All others are eliminated from the end's matrix ([`super::open_end`]),
//! the few that are left go through the tube together ([`super::matching`]): TE10, TE20, TE30 of an oblong tube, the nine lowest of a
//! square one. They are followed up to where the rim takes no more than a fifth of an open hole, but no farther than four half-waves
//! along the longer side. The limit of an open hole, (A/2)(1 − 3U/(8Ak)), is no use before: where an oblong tube's third mode begins
//! to run its correction is 73 % for sides of 5 : 1, and it promises 7 dB too much.
//!
//! A tube so oblong that its lesser side is still narrow then is a slit of many half-waves ([`crate::mouth::slit`]): each TE_m0 goes
//! through by itself. Its wall is taken as perfect there.

use std::f64::consts::PI;

use nalgebra::DMatrix;
use num_complex::Complex64;

use super::matching::{Level, Line};
use super::open_end::{MARGIN, eliminated};
use super::series::Series;
use super::spectrum::{Block, Member, rectangle};
use crate::decibel::LnSum;
use crate::mouth::chain::{Chain, ln_mode_area};
use crate::mouth::slit::Slit;

/// The rim's share of an open hole where single modes are left.
const RIM: f64 = 0.2;
/// The least basis holds the orders 0 to 3 along each side.
const ORDERS: [u32; 2] = [2, 2];
const MOST_HALF_WAVES: f64 = 3.9;
/// A symmetry whose lowest mode begins to run beyond the top by this factor does not count.
const OUT_OF_SIGHT: f64 = 1.2;
const POINTS: usize = 24;
/// The slit is blended into the open hole between these wavenumbers times the lesser side.
pub(super) const NARROW: (f64, f64) = (0.8, 1.2);

/// What the ends of one rectangle do with several modes; lengths in units of the longer side.
#[derive(Debug, Clone)]
pub(super) struct Oblong {
    from: f64,
    /// Highest wavenumber times the longer side.
    pub(super) top: f64,
    symmetries: Vec<Symmetry>,
}

/// The modes of one symmetry that are followed; the upper triangles of the part that radiates and of the whole that the half-space
/// answers to them, row by row.
#[derive(Debug, Clone)]
struct Symmetry {
    modes: Vec<Member>,
    series: Series<Complex64>,
}

impl Oblong {
    /// Of the lesser over the longer side, from a wavenumber times the longer side on; evenly filled.
    pub(super) fn new(height: f64, from: f64, permittivity: Complex64) -> Self {
        let filling = permittivity.re.sqrt();
        let reach = (0.75 / RIM * (1.0 + 1.0 / height)).min(MOST_HALF_WAVES * PI);
        let classes = [(false, false), (true, false), (false, true), (true, true)];
        let next = classes
            .iter()
            .flat_map(|&odd| rectangle::modes(odd, height, 2.0 * reach, usize::MAX))
            .map(|mode| mode.cutoff)
            .filter(|&cutoff| cutoff >= reach)
            .fold(2.0 * reach, f64::min);
        let top = MARGIN * next / filling;
        let symmetries = classes
            .into_iter()
            .filter_map(|odd| {
                if height < rectangle::NARROWEST {
                    return rectangle::slit_block(odd, height);
                }
                Some(rectangle::block_of(odd, height, ORDERS).0)
            })
            .filter(|block| block.modes.first().is_some_and(|mode| mode.cutoff < OUT_OF_SIGHT * next))
            .map(|block| Symmetry::new(&block, reach, (from, top), permittivity))
            .collect();
        Self { from, top, symmetries }
    }

    /// ln Σ T of the followed modes, `line` within the range.
    pub(super) fn ln_channels(&self, line: &Line) -> f64 {
        let above = line.k - self.from;
        let each = self.symmetries.iter().map(|symmetry| symmetry.ln_channels(line, above));
        each.fold(LnSum::default(), |sum, ln| sum + ln).ln()
    }
}

/// What radiates and the whole of what the half-space answers to the modes that are kept.
type Eliminated = (DMatrix<f64>, DMatrix<Complex64>);

impl Symmetry {
    fn new(block: &Block, reach: f64, (from, top): (f64, f64), permittivity: Complex64) -> Self {
        let kept = block.modes.iter().filter(|mode| mode.cutoff < reach).count().max(1);
        let entries = kept * (kept + 1) / 2;
        let triangle = || (0..kept).flat_map(move |row| (row..kept).map(move |column| (row, column)));
        let series = Series::fit(top - from, POINTS, 2 * entries, |above| {
            let k = from + above;
            let matrix = block.space.admittance(k);
            let levels: Vec<_> = block
                .truncations
                .levels()
                .iter()
                .map(|members| {
                    let modes: Vec<&Member> = members.iter().map(|&index| &block.modes[index]).collect();
                    eliminated(&matrix.select_rows(members).select_columns(members), &modes, kept, k, permittivity)
                })
                .collect();
            let limit = |of: &dyn Fn(&Eliminated) -> Complex64| {
                block.truncations.limit(&levels.iter().map(of).collect::<Vec<_>>())
            };
            let radiation = triangle().map(|at| limit(&|(g, _)| Complex64::from(g[at])));
            radiation.chain(triangle().map(|at| limit(&|(_, y)| y[at]))).collect()
        });
        Self { modes: block.modes[..kept].to_vec(), series }
    }

    fn ln_channels(&self, line: &Line, above: f64) -> f64 {
        let count = self.modes.len();
        let values = self.series.all(above);
        let (radiation, admittance) = values.split_at(values.len() / 2);
        let place = |i: usize, j: usize| {
            let (row, column) = (i.min(j), i.max(j));
            row * count - row * (row + 1) / 2 + column
        };
        let modes: Vec<&Member> = self.modes.iter().collect();
        let admittance = DMatrix::from_fn(count, count, |i, j| admittance[place(i, j)]);
        let radiation = DMatrix::from_fn(count, count, |i, j| radiation[place(i, j)].re);
        Level::new(line, &modes, &admittance, radiation).ln_channels()
    }
}

/// ln of the averaged cross-section of a slit of these sides, m², by its TE_m0 modes one by one.
pub(super) fn ln_slit(sides_m: (f64, f64), length_m: f64, wavenumber_per_m: f64, permittivity: Complex64) -> f64 {
    let square = wavenumber_per_m * wavenumber_per_m * permittivity;
    let chain = |beta: f64| Chain::through().line(beta * beta - square, Complex64::ONE, length_m);
    ln_mode_area(wavenumber_per_m) + Slit::new(sides_m.0, sides_m.1).ln_modes(1, wavenumber_per_m, chain, |_| 1.0)
}
