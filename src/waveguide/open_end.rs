//! The open end of a guide in a conducting wall, seen by the lowest mode of each symmetry.
//!
//! At the end a mode is joined to the half-space and to all higher modes of its symmetry, which are below cutoff and run
//! out inside the guide. Eliminating them leaves one admittance y(k) and one radiated power g(k) for each lowest mode:
//! with Y the half-space's matrix ([`super::spectrum::half_space`]) and Y₀ the higher modes' wave admittances,
//!
//! u = −(Y_hh + Y₀)⁻¹ Y_h1, y = Y₁₁ + Y_1h u, g = (1, u)† Re Y (1, u),
//!
//! taken in the limit of many modes from three nested numbers of them ([`super::spectrum::truncation`]).
//!
//! Both are smooth in k; they are kept as Chebyshev series in it, after the power law of g at low frequency is taken
//! out. What they describe does not depend on the guide's length, so that a tube costs a few operations per frequency.

use std::sync::{Arc, LazyLock};

use nalgebra::DMatrix;
use num_complex::Complex64;

use super::guide::Shape;
use super::series::Series;
use super::spectrum::{Block, Member, ModeFamily, circle, hexagon, rectangle};
use crate::complex_functions::decaying_root;
use crate::numeric::bessel::J1_FIRST;
use crate::recent::Recent;

/// Points of the Chebyshev series.
const POINTS: usize = 20;
/// The series end below the cutoff of the next mode by this factor.
pub(super) const MARGIN: f64 = 0.97;

/// What an end does with the lowest mode of one symmetry; lengths in units of the size.
#[derive(Debug, Clone)]
pub(super) struct Lead {
    /// How many modes alike.
    pub(super) count: f64,
    pub(super) family: ModeFamily,
    pub(super) cutoff: f64,
    /// Whether it is the lowest TM mode of its shape: that which a rod draws in.
    pub(super) is_lowest_tm: bool,
    /// Wall integrals, as [`super::Mode`] has them.
    pub(super) wall: [f64; 2],
    /// g grows as k^(2·order) at low frequency.
    order: i32,
    ln_radiation: Series<f64>,
    admittance: Series<Complex64>,
}

impl Lead {
    /// ln g and y, both in units of 1/η₀.
    pub(super) fn at(&self, k: f64) -> (f64, Complex64) {
        (
            self.ln_radiation.at(k) + 2.0 * f64::from(self.order) * k.ln(),
            self.admittance.at(k) * storing(self.family, k),
        )
    }
}

/// How y goes with k at low frequency: an inductance for TE, a capacitance for TM. Without it the rounding of a
/// series that ends at zero would be all that is left of y there.
fn storing(family: ModeFamily, k: f64) -> f64 {
    if family == ModeFamily::Te { k.recip() } else { k }
}

/// A shape without its size.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Outline {
    Circle,
    Hexagon,
    /// By the lesser side over the longer one.
    Rectangle(f64),
}

/// The ends of one shape with one filling.
#[derive(Debug, Clone)]
pub(super) struct End {
    /// The size, m, that lengths are measured in.
    pub(super) size_m: f64,
    pub(super) leads: Arc<Vec<Lead>>,
    /// Normalised wavenumber up to which the leads describe the end.
    pub(super) top: f64,
}

impl End {
    /// The end of a guide of the given shape and complex relative permittivity.
    pub(super) fn new(shape: &Shape, permittivity: Complex64) -> Self {
        static CIRCLE: LazyLock<Sampled> = LazyLock::new(|| Sampled::new(circle_blocks(), J1_FIRST, 2.0));
        static HEXAGON: LazyLock<Sampled> = LazyLock::new(|| Sampled::new(hexagon_blocks(), 4.188_790_204, 2.0));
        static EMPTY_CIRCLE: LazyLock<Arc<Vec<Lead>>> = LazyLock::new(|| Arc::new(CIRCLE.leads(Complex64::ONE)));
        static EMPTY_HEXAGON: LazyLock<Arc<Vec<Lead>>> = LazyLock::new(|| Arc::new(HEXAGON.leads(Complex64::ONE)));
        // Neither depends on the size: a tube that is longer, shorter or grown as a whole finds them here.
        static RECTANGLES: Recent<f64, Sampled> = Recent::new(16);
        static FILLED: Recent<(Outline, Complex64), Vec<Lead>> = Recent::new(64);
        let empty = permittivity == Complex64::ONE;
        let filled =
            |outline, sampled: &Sampled| FILLED.get_or_make((outline, permittivity), || sampled.leads(permittivity));
        let (size_m, leads, top) = match *shape {
            Shape::Circle { diameter_m } => {
                let leads = if empty { EMPTY_CIRCLE.clone() } else { filled(Outline::Circle, &CIRCLE) };
                (0.5 * diameter_m, leads, CIRCLE.top)
            }
            Shape::Hexagon { across_flats_m } => {
                let leads = if empty { EMPTY_HEXAGON.clone() } else { filled(Outline::Hexagon, &HEXAGON) };
                (across_flats_m / (2.0 * hexagon::INRADIUS), leads, HEXAGON.top)
            }
            Shape::Rectangle { width_m, height_m } => {
                let (long, short) = (width_m.max(height_m), width_m.min(height_m));
                let sampled = RECTANGLES.get_or_make(short / long, || rectangle_sampled(short / long));
                (long, filled(Outline::Rectangle(short / long), &sampled), sampled.top)
            }
        };
        Self { size_m, leads, top: top / permittivity.re.sqrt() }
    }
}

fn circle_blocks() -> Vec<Block> {
    (0..3).map(|order| circle::block(order, 0.0)).collect()
}

fn hexagon_blocks() -> Vec<Block> {
    let nodes = hexagon::quadrant_nodes(20);
    hexagon::Turn::ALL.into_iter().map(|turn| hexagon::block(turn, &nodes)).collect()
}

fn rectangle_sampled(height: f64) -> Sampled {
    let odd = [(true, false), (false, true)];
    let blocks = if height >= rectangle::NARROWEST {
        odd.into_iter().map(|odd| rectangle::block(odd, height, 0.0).0).collect()
    } else {
        odd.into_iter().filter_map(|odd| rectangle::slit_block(odd, height)).collect()
    };
    // The lowest mode that has no lead: TE20, TE11 or TE02.
    let next =
        [(2, 0), (1, 1), (0, 2)].map(|(m, n)| rectangle::cutoff(m, n, height)).into_iter().fold(f64::MAX, f64::min);
    Sampled::new(blocks, next, 1.0)
}

/// Blocks that are quick up to a wavenumber.
#[derive(Debug)]
struct Sampled {
    blocks: Vec<Block>,
    top: f64,
}

impl Sampled {
    /// `extent` is the greatest width of the opening.
    fn new(blocks: Vec<Block>, next_cutoff: f64, extent: f64) -> Self {
        let top = MARGIN * next_cutoff;
        let below = |block: Block| Block { space: block.space.below(top, extent), ..block };
        Self { blocks: blocks.into_iter().map(below).collect(), top }
    }

    fn leads(&self, permittivity: Complex64) -> Vec<Lead> {
        let limit = self.top / permittivity.re.sqrt();
        let lowest_tm = self
            .blocks
            .iter()
            .filter_map(|block| block.modes.first())
            .filter(|mode| mode.family == ModeFamily::Tm)
            .map(|mode| mode.cutoff)
            .fold(f64::INFINITY, f64::min);
        self.blocks
            .iter()
            .filter_map(|block| {
                let lowest = block.modes.first()?;
                let dressed = |k: f64| dress(&block.space.admittance(k), block, k, permittivity);
                // The power law shows between two low frequencies.
                let (low, high) = (0.05 * limit, 0.1 * limit);
                let order = ((dressed(high).0 - dressed(low).0) / (2.0 * 2_f64.ln())).round() as i32;
                Some(Lead {
                    count: block.count,
                    family: lowest.family,
                    cutoff: lowest.cutoff,
                    is_lowest_tm: lowest.family == ModeFamily::Tm && lowest.cutoff == lowest_tm,
                    wall: lowest.wall,
                    order,
                    ln_radiation: Series::fit(limit, POINTS, 1, |k| {
                        vec![dressed(k).0 - 2.0 * f64::from(order) * k.ln()]
                    }),
                    admittance: Series::fit(limit, POINTS, 1, |k| vec![dressed(k).1 / storing(lowest.family, k)]),
                })
            })
            .collect()
    }
}

/// ln g and y of the first mode with all others eliminated, in the limit of many modes.
fn dress(matrix: &DMatrix<Complex64>, block: &Block, k: f64, permittivity: Complex64) -> (f64, Complex64) {
    let level = |members: &Vec<usize>| {
        let modes: Vec<&Member> = members.iter().map(|&index| &block.modes[index]).collect();
        let (g, y) = eliminated(&matrix.select_rows(members).select_columns(members), &modes, 1, k, permittivity);
        (g[(0, 0)], y[(0, 0)])
    };
    let (g, y): (Vec<f64>, Vec<Complex64>) = block.truncations.levels().iter().map(level).unzip();
    let ln_g: Vec<f64> = g.into_iter().map(f64::ln).collect();
    (block.truncations.limit(&ln_g), block.truncations.limit(&y))
}

/// g and y of the first `kept` of these modes, all others eliminated.
pub(super) fn eliminated(
    matrix: &DMatrix<Complex64>,
    modes: &[&Member],
    kept: usize,
    k: f64,
    permittivity: Complex64,
) -> (DMatrix<f64>, DMatrix<Complex64>) {
    let higher = modes.len() - kept;
    let mut block = matrix.view((kept, kept), (higher, higher)).into_owned();
    for (i, mode) in modes[kept..].iter().enumerate() {
        block[(i, i)] += wave_admittance(mode.family, propagation(mode.cutoff, k, permittivity), k, permittivity);
    }
    let to_kept = matrix.view((kept, 0), (higher, kept)).into_owned();
    let mut excited = DMatrix::identity(modes.len(), kept);
    if higher > 0 {
        // A matrix with positive radiation in it can be inverted; were it not, the bare modes would be left.
        let follow = block.lu().solve(&to_kept).unwrap_or_else(|| DMatrix::zeros(higher, kept));
        excited.rows_mut(kept, higher).copy_from(&(-follow));
    }
    let y = matrix.rows(0, kept) * &excited;
    let radiation = matrix.map(|entry| entry.re);
    let power = |part: fn(&Complex64) -> f64| {
        let part = excited.map(|value| part(&value));
        part.transpose() * &radiation * part
    };
    (power(|value| value.re) + power(|value| value.im), y)
}

/// γ of a mode in a filled guide with a perfect wall, in units of the size.
pub(super) fn propagation(cutoff: f64, k: f64, permittivity: Complex64) -> Complex64 {
    let filled = decaying_root(permittivity) * k;
    decaying_root((cutoff - filled) * (cutoff + filled))
}

/// Wave admittance of a mode in units of 1/η₀.
pub(super) fn wave_admittance(family: ModeFamily, gamma: Complex64, k: f64, permittivity: Complex64) -> Complex64 {
    let jk = Complex64::new(0.0, k);
    if family == ModeFamily::Te { gamma / jk } else { jk * permittivity / gamma }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn series_follow_the_dressed_end() {
        let block = circle::block(1, 4.0);
        let end = End::new(&Shape::Circle { diameter_m: 2.0 }, Complex64::ONE);
        let lead = end.leads.iter().find(|lead| lead.cutoff == block.modes[0].cutoff).unwrap();
        assert_eq!(lead.order, 1);
        for k in [1e-9, 0.01, 0.3, 1.0, 1.8411, 2.5, 3.6] {
            let (exact, y) = dress(&block.space.admittance(k), &block, k, Complex64::ONE);
            let (ln_g, series) = lead.at(k);
            assert!((ln_g - exact).abs() < 1e-6, "{k} {ln_g} {exact}");
            assert!(((series - y) / y).norm() < 1e-6, "{k} {series} {y}");
        }
    }

    #[test]
    fn every_shape_has_its_dominant_mode() {
        for shape in [
            Shape::Circle { diameter_m: 2.0 },
            Shape::Hexagon { across_flats_m: 3_f64.sqrt() },
            Shape::Rectangle { width_m: 1.0, height_m: 0.4 },
        ] {
            let end = End::new(&shape, Complex64::new(2.0, -0.01));
            let lowest = end.leads.iter().map(|lead| lead.cutoff).fold(f64::MAX, f64::min);
            let dominant = super::super::mode::dominant(&shape).cutoff_wavenumber_per_m() * end.size_m;
            assert!((lowest / dominant - 1.0).abs() < 1e-12);
            assert!(end.leads.iter().all(|lead| lead.at(1e-8).0.is_finite()));
        }
    }
}
