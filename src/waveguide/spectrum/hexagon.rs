//! Modes of the regular hexagon of unit side, by the method of particular solutions.
//!
//! Every trial field solves the Helmholtz equation exactly: Fourier–Bessel functions about the centre, and about each
//! corner of 120 degrees the functions J_{3j/2}(kr) cos or sin(3jθ/2), which meet the condition on both adjoining walls and
//! carry the corner's singular behaviour. What is left is the condition on the far walls. At an eigenvalue some
//! combination of unit size inside vanishes there: the smallest sine of the angle between the trial space and the
//! fields that vanish on the wall touches zero in a V. With the corner functions convergence is geometric; the tests show
//! it.
//!
//! Source of the method: T. Betcke, L. N. Trefethen, "Reviving the method of particular solutions", SIAM Review 47 (2005)
//! 469. Symmetry under x → −x and y → −y splits the problem in four; pairs of equal eigenvalues fall in different ones.
//!
//! Orientation: corners on the x axis, flats parallel to it.

use std::f64::consts::{FRAC_PI_3, PI};

use nalgebra::{DMatrix, DVector};

use super::half_space::{HalfSpace, planar};
use super::hexagon_table::{Entry, TABLE};
use super::truncation::Truncations;
use super::{Block, Member, ModeFamily, Parity, Space};
use crate::numeric::{bessel_j_run, gauss_legendre};

/// Half the width across flats: √3/2.
pub(crate) const INRADIUS: f64 = 0.866_025_403_784_438_6;

/// How many trial functions about the centre, about the corner on the axis, and about the corner off it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Terms {
    centre: usize,
    tip: usize,
    corner: usize,
}

impl Terms {
    /// Enough for ten digits of every mode tabulated here.
    pub(crate) const STANDARD: Self = Self { centre: 12, tip: 7, corner: 12 };

    fn count(self) -> usize {
        self.centre + self.tip + self.corner
    }
}

/// A value and its gradient.
type Jet = [f64; 3];

/// Bessel functions of whole and half-odd orders at one argument.
struct Radial {
    x: f64,
    whole: Vec<f64>,
    half: Vec<f64>,
}

impl Radial {
    fn new(x: f64, highest: usize) -> Self {
        let (mut whole, mut half) = (vec![0.0; highest + 2], vec![0.0; highest + 2]);
        bessel_j_run(0.0, x, &mut whole);
        bessel_j_run(0.5, x, &mut half);
        Self { x, whole, half }
    }

    /// J_ν(x), its derivative and J_ν(x)/x for the order `twice`/2.
    fn at(&self, twice: usize) -> (f64, f64, f64) {
        let run = if twice.is_multiple_of(2) { &self.whole } else { &self.half };
        let (value, next) = (run[twice / 2], run[twice / 2 + 1]);
        let ratio = match (self.x > 0.0, twice) {
            (true, _) => value / self.x,
            (false, 2) => 0.5,
            (false, _) => 0.0,
        };
        (value, 0.5 * twice as f64 * ratio - next, ratio)
    }
}

/// J_ν(kr) cos(ν·angle) or sin(ν·angle), seen in the direction `direction` from its apex.
fn wedge(k: f64, radial: &Radial, twice: usize, cosine: bool, angle: f64, direction: f64) -> Jet {
    let order = 0.5 * twice as f64;
    let (s, c) = (order * angle).sin_cos();
    let (shape, shape_slope) = if cosine { (c, -s) } else { (s, c) };
    let (j, j_slope, j_over_x) = radial.at(twice);
    let (outward, around) = (k * j_slope * shape, k * order * j_over_x * shape_slope);
    let (sd, cd) = direction.sin_cos();
    [j * shape, outward * cd - around * sd, outward * sd + around * cd]
}

/// One eigenproblem: a boundary condition and a symmetry of the potential.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Class {
    pub(crate) family: ModeFamily,
    pub(crate) parity: Parity,
}

impl Class {
    /// All trial functions at one point.
    fn trial(self, k: f64, terms: Terms, x: f64, y: f64, out: &mut [Jet]) {
        let sign = |even: bool| if even { 1.0 } else { -1.0 };
        let Parity { even_x, even_y } = self.parity;
        let (centre, corners) = out.split_at_mut(terms.centre);
        let radial = Radial::new(k * x.hypot(y), 2 * terms.centre + 2);
        let direction = y.atan2(x);
        // cos mφ is even in y and as (−1)^m in x; sin mφ is odd in y and as −(−1)^m in x.
        let first = match (even_x, even_y) {
            (true, true) => 0,
            (false, false) => 2,
            _ => 1,
        };
        for (i, jet) in centre.iter_mut().enumerate() {
            *jet = wedge(k, &radial, 2 * (first + 2 * i), even_y, direction, direction);
        }
        corners.fill([0.0; 3]);
        let (at_tip, at_corner) = corners.split_at_mut(terms.tip);
        let highest = 3 * (2 * terms.tip).max(terms.corner) / 2 + 3;
        // The images under both mirrors give the sum its symmetry; the tip on the axis is its own image under y → −y.
        for (sx, sy) in [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)] {
            let weight = (if sx < 0.0 { sign(even_x) } else { 1.0 }) * if sy < 0.0 { sign(even_y) } else { 1.0 };
            let about = |apex: [f64; 2], bisector: f64, only: Option<bool>, out: &mut [Jet]| {
                let (dx, dy) = (sx * x - apex[0], sy * y - apex[1]);
                let direction = dy.atan2(dx);
                let angle = (direction - bisector + PI).rem_euclid(2.0 * PI) - PI;
                let radial = Radial::new(k * dx.hypot(dy), highest);
                // About the bisector the functions are even and odd by turns; a wall without field starts with sin.
                let orders = (usize::from(self.family != ModeFamily::Te)..)
                    .map(|j| (3 * j, (self.family == ModeFamily::Te) == (j % 2 == 0)))
                    .filter(|&(_, cosine)| only.is_none_or(|wanted| wanted == cosine));
                for (jet, (twice, cosine)) in out.iter_mut().zip(orders) {
                    let [value, gx, gy] = wedge(k, &radial, twice, cosine, angle, direction);
                    jet[0] += weight * value;
                    jet[1] += weight * sx * gx;
                    jet[2] += weight * sy * gy;
                }
            };
            if sy > 0.0 {
                about([1.0, 0.0], PI, Some(even_y), at_tip);
            }
            about([0.5, INRADIUS], PI + FRAC_PI_3, None, at_corner);
        }
    }

    /// The smallest sine between trial space and wall condition at the wavenumber `k`, and the trial coefficients that
    /// reach it.
    pub(crate) fn tension(self, k: f64, terms: Terms) -> (f64, DVector<f64>) {
        let (wall, inside) = collocation();
        let count = terms.count();
        let mut jets = vec![[0.0; 3]; count];
        let mut matrix = DMatrix::zeros(wall.len() + inside.len(), count);
        for (row, &[x, y, nx, ny]) in wall.iter().enumerate() {
            self.trial(k, terms, x, y, &mut jets);
            for (column, &[value, gx, gy]) in jets.iter().enumerate() {
                matrix[(row, column)] = if self.family == ModeFamily::Te { gx * nx + gy * ny } else { value };
            }
        }
        for (row, &[x, y]) in inside.iter().enumerate() {
            self.trial(k, terms, x, y, &mut jets);
            for (column, jet) in jets.iter().enumerate() {
                matrix[(wall.len() + row, column)] = jet[0];
            }
        }
        let norms: Vec<f64> = matrix.column_iter().map(|column| column.norm()).collect();
        for (mut column, norm) in matrix.column_iter_mut().zip(&norms) {
            column /= *norm;
        }
        // An orthonormal basis of the trial space without its numerically dependent directions.
        let svd = matrix.svd(true, true);
        let (Some(basis), Some(directions)) = (&svd.u, &svd.v_t) else { return (1.0, DVector::zeros(count)) };
        let largest = svd.singular_values.max();
        let kept: Vec<usize> = (0..count).filter(|&i| svd.singular_values[i] > 1e-13 * largest).collect();
        let on_wall = DMatrix::from_fn(wall.len(), kept.len(), |row, column| basis[(row, kept[column])]);
        let inner = on_wall.svd(false, true);
        let (least, tension) = inner.singular_values.argmin();
        let mut coefficients = DVector::zeros(count);
        if let Some(rotation) = &inner.v_t {
            for (i, &direction) in kept.iter().enumerate() {
                let share = rotation[(least, i)] / svd.singular_values[direction];
                for j in 0..count {
                    coefficients[j] += share * directions[(direction, j)] / norms[j];
                }
            }
        }
        (tension, coefficients)
    }

    /// The eigenvalue within 0.001 of a guess: how the table was made, and how the tests check it.
    #[cfg(test)]
    pub(crate) fn refine(self, guess: f64, terms: Terms) -> f64 {
        let tension = |k: f64| self.tension(k, terms).0;
        let ratio = 0.5 * (5_f64.sqrt() - 1.0);
        let (mut low, mut high) = (guess - 1e-3, guess + 1e-3);
        while high - low > 1e-6 {
            let (left, right) = (high - ratio * (high - low), low + ratio * (high - low));
            if tension(left) < tension(right) { high = right } else { low = left }
        }
        // The tension is a V about the eigenvalue: where its two branches cross.
        const REACH: f64 = 3e-6;
        let k = 0.5 * (low + high);
        let (left, right) = (tension(k - REACH), tension(k + REACH));
        k + REACH * (left - right) / (left + right)
    }
}

/// Points on the far walls of the first quadrant, crowded towards the corners, with their normals; and points inside.
fn collocation() -> (Vec<[f64; 4]>, Vec<[f64; 2]>) {
    const ALONG: usize = 50;
    const INSIDE: usize = 60;
    let mut wall = Vec::with_capacity(2 * ALONG);
    for i in 0..ALONG {
        let place = 0.5 * (1.0 - (PI * (i as f64 + 0.5) / ALONG as f64).cos());
        wall.push([1.0 - 0.5 * place, INRADIUS * place, INRADIUS, 0.5]);
        wall.push([0.5 * place, INRADIUS, 0.0, 1.0]);
    }
    // The additive sequence of the plastic number fills the plane evenly.
    let inside = (1..=INSIDE)
        .map(|i| {
            let u = (i as f64 * 0.754_877_666_246_692_8).fract();
            let v = (i as f64 * 0.569_840_290_998_053_3).fract();
            [u * (1.0 - 0.5 * v), INRADIUS * v]
        })
        .collect();
    (wall, inside)
}

/// Quadrature nodes (x, y, weight) over the first quadrant, crowded towards the corners where gradients rise as r^½.
pub(crate) fn quadrant_nodes(count: usize) -> Vec<[f64; 3]> {
    let rule = gauss_legendre(count);
    let mut nodes = Vec::with_capacity(2 * count * count);
    for (from, to, corner_at_both) in [([1.0, 0.0], [0.5, INRADIUS], true), ([0.5, INRADIUS], [0.0, INRADIUS], false)] {
        let twice_area: f64 = from[0] * to[1] - from[1] * to[0];
        for &(p, wp) in &rule {
            for &(q, wq) in &rule {
                let (u, v) = (0.5 * (1.0 + p), 0.5 * (1.0 + q));
                let (outward, outward_slope) = (u * (2.0 - u), 2.0 * (1.0 - u));
                let (along, along_slope) =
                    if corner_at_both { (v * v * (3.0 - 2.0 * v), 6.0 * v * (1.0 - v)) } else { (v * v, 2.0 * v) };
                nodes.push([
                    outward * (from[0] + along * (to[0] - from[0])),
                    outward * (from[1] + along * (to[1] - from[1])),
                    0.25 * wp * wq * outward_slope * along_slope * twice_area * outward,
                ]);
            }
        }
    }
    nodes
}

/// Nodes on the walls of the first quadrant (x, y, outward normal, weight), crowded towards the corners.
fn rim_nodes() -> Vec<[f64; 5]> {
    // Enough for wavenumbers up to 30 over the side.
    const TO_CORNER: usize = 34;
    const TO_MIDDLE: usize = 20;
    let node = |[from, to]: [[f64; 2]; 2], normal: [f64; 2], place: f64, weight: f64| {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        [from[0] + place * dx, from[1] + place * dy, normal[0], normal[1], weight * dx.hypot(dy)]
    };
    let (tip, corner, middle) = ([1.0, 0.0], [0.5, INRADIUS], [0.0, INRADIUS]);
    let mut nodes = Vec::with_capacity(TO_CORNER + TO_MIDDLE);
    for (q, w) in gauss_legendre(TO_CORNER) {
        let v = 0.5 * (1.0 + q);
        nodes.push(node([tip, corner], [INRADIUS, 0.5], v * v * (3.0 - 2.0 * v), 3.0 * w * v * (1.0 - v)));
    }
    for (q, w) in gauss_legendre(TO_MIDDLE) {
        let v = 0.5 * (1.0 + q);
        nodes.push(node([corner, middle], [0.0, 1.0], v * v, w * v));
    }
    nodes
}

/// One mode: its transverse field times the quadrature weights at the nodes of the first quadrant.
#[derive(Debug, Clone)]
pub(crate) struct Mode {
    pub(crate) class: Class,
    pub(crate) cutoff: f64,
    ex: Vec<f64>,
    ey: Vec<f64>,
    /// The potential (TE) or its slope along the normal (TM) times the weights at the nodes of the rim.
    rim: Vec<f64>,
}

impl Mode {
    pub(crate) fn new(class: Class, cutoff: f64, nodes: &[[f64; 3]]) -> Self {
        let terms = Terms::STANDARD;
        let (_, coefficients) = class.tension(cutoff, terms);
        let mut jets = vec![[0.0; 3]; terms.count()];
        let (mut ex, mut ey) = (Vec::with_capacity(nodes.len()), Vec::with_capacity(nodes.len()));
        let mut norm = 0.0;
        for &[x, y, weight] in nodes {
            class.trial(cutoff, terms, x, y, &mut jets);
            let (mut gx, mut gy) = (0.0, 0.0);
            for (jet, c) in jets.iter().zip(coefficients.iter()) {
                gx += c * jet[1];
                gy += c * jet[2];
            }
            norm += 4.0 * weight * (gx * gx + gy * gy);
            let (x, y) = if class.family == ModeFamily::Te { (-gy, gx) } else { (gx, gy) };
            ex.push(weight * x);
            ey.push(weight * y);
        }
        // A sign that does not hang on the solver: the first strong component is positive.
        let strongest =
            ex.iter().chain(&ey).copied().fold(0.0, |a: f64, b| if b.abs() > 1.000_001 * a.abs() { b } else { a });
        let scale = norm.sqrt().copysign(strongest);
        let mut rim = Vec::new();
        for [x, y, nx, ny, weight] in rim_nodes() {
            class.trial(cutoff, terms, x, y, &mut jets);
            let at = |jet: &Jet| if class.family == ModeFamily::Te { jet[0] } else { nx * jet[1] + ny * jet[2] };
            rim.push(weight * jets.iter().zip(coefficients.iter()).map(|(jet, c)| c * at(jet)).sum::<f64>());
        }
        for value in ex.iter_mut().chain(&mut ey).chain(&mut rim) {
            *value /= scale;
        }
        Self { class, cutoff, ex, ey, rim }
    }

    /// ∫E dA over the opening.
    #[cfg(test)]
    pub(crate) fn dipole(&self) -> [f64; 2] {
        let ex = self.class.parity.of_ex(self.class.family);
        let x = if ex.even_x && ex.even_y { 4.0 * self.ex.iter().sum::<f64>() } else { 0.0 };
        let y = if !ex.even_x && !ex.even_y { 4.0 * self.ey.iter().sum::<f64>() } else { 0.0 };
        [x, y]
    }
}

/// How a family of modes behaves under a turn of the hexagon; modes of different behaviour never couple.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Turn {
    /// As a vector: pairs, the dominant TE mode among them.
    Vector,
    /// Not at all: single TM modes of full symmetry.
    Scalar,
    /// Twice as fast as a vector: pairs.
    Double,
}

impl Turn {
    pub(crate) const ALL: [Self; 3] = [Self::Vector, Self::Scalar, Self::Double];

    /// Symmetry of the potential of TM modes; that of TE modes is the opposite in both axes.
    fn tm(self) -> Parity {
        match self {
            Self::Vector => Parity::new(true, false),
            Self::Scalar | Self::Double => Parity::new(true, true),
        }
    }

    pub(crate) fn ex(self) -> Parity {
        self.tm().of_ex(ModeFamily::Tm)
    }

    /// Tabulated modes below a cutoff, by rising cutoff, their fields at the nodes.
    pub(crate) fn modes(self, cutoff_limit: f64, nodes: &[[f64; 3]]) -> Vec<Mode> {
        let Parity { even_x, even_y } = self.tm();
        let pairs = self != Self::Scalar;
        let members = TABLE.iter().filter(|entry| entry.cutoff < cutoff_limit && (entry.parities.len() == 2) == pairs);
        let members = members.filter_map(|entry| {
            let parity = if entry.family == ModeFamily::Te { Parity::new(!even_x, !even_y) } else { self.tm() };
            entry.parities.contains(&parity).then_some((Class { family: entry.family, parity }, entry.cutoff))
        });
        // Single TE modes of this symmetry belong to another behaviour: they are even under half the mirrors only.
        let mut members: Vec<_> = members.filter(|(class, _)| pairs || class.family == ModeFamily::Tm).collect();
        members.sort_by(|a, b| a.1.total_cmp(&b.1));
        members.into_iter().map(|(class, cutoff)| Mode::new(class, cutoff, nodes)).collect()
    }
}

/// Tabulated modes below a cutoff by the symmetry of E_x, each family by rising cutoff, their fields at the nodes.
pub(crate) fn by_parity(cutoff_limit: f64, nodes: &[[f64; 3]]) -> Vec<(Parity, Vec<Mode>)> {
    [(true, true), (true, false), (false, true), (false, false)]
        .map(|(even_x, even_y)| Parity::new(even_x, even_y))
        .into_iter()
        .map(|ex| {
            let entries = TABLE.iter().filter(|entry| entry.cutoff < cutoff_limit);
            let classes = entries.flat_map(|entry| {
                let all = entry.parities.iter().map(|&parity| (Class { family: entry.family, parity }, entry.cutoff));
                all.filter(|(class, _)| class.parity.of_ex(class.family) == ex).collect::<Vec<_>>()
            });
            (ex, classes.map(|(class, cutoff)| Mode::new(class, cutoff, nodes)).collect())
        })
        .collect()
}

/// The table is complete below this cutoff.
const COMPLETE: f64 = 11.9;

/// The block of one behaviour with all tabulated modes.
pub(crate) fn block(turn: Turn, nodes: &[[f64; 3]]) -> Block {
    let count = if turn == Turn::Scalar { 1.0 } else { 2.0 };
    gathered(count, &turn.modes(COMPLETE, nodes), turn.ex(), nodes)
}

/// All tabulated modes by the symmetry of E_x, each family by rising cutoff, with their blocks: these hold both members of each pair.
pub(crate) fn blocks_by_parity(nodes: &[[f64; 3]]) -> Vec<(Parity, Vec<Mode>, Block)> {
    let gathered = |(ex, modes): (Parity, Vec<Mode>)| {
        let block = gathered(1.0, &modes, ex, nodes);
        (ex, modes, block)
    };
    by_parity(COMPLETE, nodes).into_iter().map(gathered).collect()
}

fn gathered(count: f64, modes: &[Mode], ex: Parity, nodes: &[[f64; 3]]) -> Block {
    // Twice as far the quadrature's nodes would not follow the waves.
    const SPECTRUM: f64 = 34.0;
    let wall = |mode: &Mode| {
        let alike = |entry: &&Entry| {
            let Class { family, parity } = mode.class;
            entry.family == family && entry.cutoff == mode.cutoff && entry.parities.contains(&parity)
        };
        TABLE.iter().find(alike).map_or([0.0; 2], Entry::wall)
    };
    let member = |mode: &Mode| Member { family: mode.class.family, cutoff: mode.cutoff, wall: wall(mode) };
    let below = |limit: f64| {
        let members = modes.iter().enumerate().filter(|(_, mode)| mode.cutoff < limit);
        (limit, members.map(|(index, _)| index).collect())
    };
    Block {
        count,
        modes: modes.iter().map(member).collect(),
        truncations: Truncations::new([0.5 * COMPLETE, COMPLETE].map(below)),
        space: Space::Table(half_space(modes, nodes, ex, SPECTRUM)),
    }
}

/// What the half-space answers to modes of one symmetry.
pub(crate) fn half_space(modes: &[Mode], nodes: &[[f64; 3]], ex: Parity, limit: f64) -> HalfSpace {
    let signed = |even: bool| if even { 1.0 } else { -1.0 };
    let families: Vec<_> = modes.iter().map(|mode| mode.class.family).collect();
    planar(&families, ex, limit, 2.0, |kx, ky, fx, fy| {
        transform(modes, nodes, ex, kx, ky, fx, fy);
        // The field of a TM mode is a gradient, its transform lies along the wave vector. What the quadrature leaves
        // across it would grow as 1/k² against the mode's own small admittance at low frequency.
        let (along_x, along_y) = (signed(ex.even_x) * kx, signed(!ex.even_y) * ky);
        for (m, _) in modes.iter().enumerate().filter(|(_, mode)| mode.class.family == ModeFamily::Tm) {
            let share = (along_x * fx[m] + along_y * fy[m]) / (kx * kx + ky * ky);
            (fx[m], fy[m]) = (along_x * share, along_y * share);
        }
    })
}

/// Real transforms of E_x and E_y of modes of one symmetry, a factor −j for each odd symmetry left out.
pub(crate) fn transform(
    modes: &[Mode],
    nodes: &[[f64; 3]],
    ex: Parity,
    kx: f64,
    ky: f64,
    fx: &mut [f64],
    fy: &mut [f64],
) {
    fx.fill(0.0);
    fy.fill(0.0);
    for (i, &[x, y, _]) in nodes.iter().enumerate() {
        let ((sx, cx), (sy, cy)) = ((kx * x).sin_cos(), (ky * y).sin_cos());
        let on_x = 4.0 * if ex.even_x { cx } else { sx } * if ex.even_y { cy } else { sy };
        let on_y = 4.0 * if ex.even_x { sx } else { cx } * if ex.even_y { sy } else { cy };
        for (m, mode) in modes.iter().enumerate() {
            fx[m] += mode.ex[i] * on_x;
            fy[m] += mode.ey[i] * on_y;
        }
    }
}

/// Real transforms of modes of one symmetry by integrals over the rim alone; the convention is that of [`transform`].
#[derive(Debug, Clone)]
pub(crate) struct RimTransform {
    ex: Parity,
    modes: Vec<Mode>,
    /// Of the whole opening, for wavenumbers close to a cutoff.
    inner: Vec<[f64; 3]>,
    rim: Vec<[f64; 5]>,
}

impl RimTransform {
    pub(crate) fn new(modes: Vec<Mode>, inner: Vec<[f64; 3]>, ex: Parity) -> Self {
        Self { ex, modes, inner, rim: rim_nodes() }
    }

    /// A potential ψ and a plane wave u, both solutions of Helmholtz's equation, have
    /// (k_c² − κ²) ∫ψu dA = ∮(ψ ∂u/∂n − u ∂ψ/∂n) dl, of which the wall leaves one term; ∫∇ψ u dA follows by parts.
    pub(crate) fn at(&self, kx: f64, ky: f64, fx: &mut [f64], fy: &mut [f64]) {
        const NEAR_CUTOFF: f64 = 0.03;
        let kappa_squared = kx * kx + ky * ky;
        // ψ of TE modes has the symmetry of E_x about x and of E_y about y; ψ of TM modes the other way round.
        let (te_x, te_y) = (self.ex.even_x, !self.ex.even_y);
        let signed = |even: bool| if even { 1.0 } else { -1.0 };
        // What stands against the rim's values: (TE) the normal slope of u, and u of the turned symmetries; (TM) u itself.
        let count = self.rim.len();
        let mut against = vec![0.0; 4 * count];
        let (slope, others) = against.split_at_mut(count);
        let (on_x, others) = others.split_at_mut(count);
        let (on_y, tm) = others.split_at_mut(count);
        for (i, &[x, y, nx, ny, _]) in self.rim.iter().enumerate() {
            let ((sx, cx), (sy, cy)) = ((kx * x).sin_cos(), (ky * y).sin_cos());
            let (along_x, turned_x) = if te_x { (cx, sx) } else { (sx, cx) };
            let (along_y, turned_y) = if te_y { (cy, sy) } else { (sy, cy) };
            slope[i] = -signed(te_x) * kx * nx * turned_x * along_y - signed(te_y) * ky * ny * along_x * turned_y;
            on_x[i] = nx * turned_x * along_y;
            on_y[i] = ny * along_x * turned_y;
            tm[i] = turned_x * turned_y;
        }
        for (m, mode) in self.modes.iter().enumerate() {
            let difference = mode.cutoff * mode.cutoff - kappa_squared;
            if difference.abs() < NEAR_CUTOFF * mode.cutoff * mode.cutoff {
                let near = std::slice::from_ref(mode);
                transform(near, &self.inner, self.ex, kx, ky, &mut fx[m..=m], &mut fy[m..=m]);
                continue;
            }
            let sum = |values: &[f64]| 4.0 * mode.rim.iter().zip(values).map(|(a, b)| a * b).sum::<f64>();
            (fx[m], fy[m]) = if mode.class.family == ModeFamily::Te {
                let potential = sum(slope) / difference;
                let gx = sum(on_x) - signed(te_x) * kx * potential;
                let gy = sum(on_y) - signed(te_y) * ky * potential;
                (-gy, gx)
            } else {
                let potential = -sum(tm) / difference;
                (signed(te_x) * kx * potential, signed(te_y) * ky * potential)
            };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rim_knows_what_is_inside() {
        let nodes = quadrant_nodes(30);
        for ex in [true, false].into_iter().flat_map(|x| [Parity::new(x, true), Parity::new(x, false)]) {
            let all = TABLE.iter().filter(|entry| entry.cutoff < 9.0);
            let classes = all.flat_map(|entry| {
                let class = |&parity: &Parity| Class { family: entry.family, parity };
                entry.parities.iter().map(class).map(|class| (class, entry.cutoff))
            });
            let own = classes.filter(|(class, _)| class.parity.of_ex(class.family) == ex);
            let modes: Vec<_> = own.map(|(class, cutoff)| Mode::new(class, cutoff, &nodes)).collect();
            let count = modes.len();
            let mut fields = vec![0.0; 4 * count];
            let rim = RimTransform::new(modes.clone(), nodes.clone(), ex);
            for (kx, ky) in [(0.3, 0.1), (-2.0, 1.5), (0.0, 4.0), (7.0, -9.0), (14.0, 11.0)] {
                let (inner, outer) = fields.split_at_mut(2 * count);
                let (ix, iy) = inner.split_at_mut(count);
                let (ox, oy) = outer.split_at_mut(count);
                transform(&modes, &nodes, ex, kx, ky, ix, iy);
                rim.at(kx, ky, ox, oy);
                for (a, b) in inner.iter().zip(&*outer) {
                    assert!((a - b).abs() < 1e-8, "{ex:?} {kx} {ky}: {a} {b}");
                }
            }
        }
    }

    const DOMINANT: Class = Class { family: ModeFamily::Te, parity: Parity::new(false, true) };

    #[test]
    fn convergence_is_geometric() {
        let at = |centre, tip, corner| DOMINANT.refine(2.010_778, Terms { centre, tip, corner });
        let best = at(14, 9, 14);
        let errors: Vec<f64> = [(3, 2, 3), (5, 3, 5), (8, 4, 8)].map(|(a, b, c)| (at(a, b, c) - best).abs()).to_vec();
        assert!(errors[0] < 1e-3 && errors[1] < 0.1 * errors[0] && errors[2] < 1e-9, "{errors:?}");
        assert!((DOMINANT.refine(2.010_778, Terms::STANDARD) - best).abs() < 1e-10);
    }

    #[test]
    fn modes_of_the_equilateral_triangle_are_found() {
        // Three diagonals cut the hexagon into six equilateral triangles; a field odd about all of them is a Dirichlet
        // mode of the triangle, lowest 4π/√3 (M. Lamé, 1833); and the plane-wave mode 4π/3 of the Neumann triangle
        // continues over the hexagon.
        let tm = Class { family: ModeFamily::Tm, parity: Parity::new(true, false) };
        assert!((tm.refine(7.255_2, Terms::STANDARD) - 4.0 * PI / 3_f64.sqrt()).abs() < 1e-10);
        let te = Class { family: ModeFamily::Te, parity: Parity::new(true, true) };
        assert!((te.refine(4.188_8, Terms::STANDARD) - 4.0 * PI / 3.0).abs() < 1e-10);
    }

    #[test]
    fn radiated_power_of_the_dipole() {
        let nodes = quadrant_nodes(12);
        let mode = Mode::new(DOMINANT, 2.010_778_631_919, &nodes);
        let k = 1e-3;
        let dipole = mode.dipole()[1];
        let g = half_space(&[mode], &nodes, DOMINANT.parity.of_ex(ModeFamily::Te), 15.0).admittance(k)[(0, 0)].re;
        let expected = k * k / (3.0 * PI) * dipole * dipole;
        assert!((g / expected - 1.0).abs() < 1e-6, "{g} {expected}");
    }
}
