//! The modes that a cell's field is made of, and their transforms over the opening.
//!
//! Every mode has a transform that is real but for a power of −j set by its symmetry. That power is the same for all harmonics
//! and cancels from the admittances between modes, so that it is left out here and all sums stay real.

use std::f64::consts::PI;
use std::sync::LazyLock;

use super::cell::Cell;
use crate::numeric::bessel_j_run;
use crate::waveguide::guide::Shape;
use crate::waveguide::spectrum::half_space::{across_and_along, relative_sign};
use crate::waveguide::spectrum::hexagon_table::TABLE;
use crate::waveguide::spectrum::{ModeFamily, Parity, circle, hexagon, rectangle};

/// One mode: its family and its cutoff in units of 1/size.
#[derive(Debug, Clone, Copy)]
pub(super) struct Member {
    pub(super) family: ModeFamily,
    pub(super) cutoff: f64,
}

/// Transforms of all modes of a group at one wave vector: parts across, then parts along, each real.
type Transform = Box<dyn Fn(f64, f64, &mut [f64], &mut [f64]) + Send + Sync>;

/// Modes of one mirror symmetry.
struct Group {
    /// Symmetry of E_x; E_y has the opposite in both axes.
    ex: Parity,
    members: Vec<Member>,
    transform: Transform,
    /// Where its modes are those of the square, which a whole register of frequencies can share the work of.
    square: Option<Vec<rectangle::Mode>>,
}

/// All modes of a cell up to a cutoff, in units of its size.
struct Spectrum {
    width: f64,
    /// Cutoffs lie below the second one; below the first one, those of a coarser basis.
    limits: (f64, f64),
    groups: Vec<Group>,
}

impl Spectrum {
    fn of(cell: &Cell) -> &'static Self {
        static HEXAGON: LazyLock<Spectrum> = LazyLock::new(hexagon_spectrum);
        static SQUARE: LazyLock<Spectrum> = LazyLock::new(square_spectrum);
        static CIRCLE: LazyLock<Spectrum> = LazyLock::new(circle_spectrum);
        match cell.guide().shape() {
            Shape::Hexagon { .. } => &HEXAGON,
            Shape::Rectangle { .. } => &SQUARE,
            Shape::Circle { .. } => &CIRCLE,
        }
    }
}

/// The symmetry that a wave brings along: E_x even (`true`) or odd about each axis, or without symmetry about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Mirrors {
    pub(super) about_x: Option<bool>,
    pub(super) about_y: Option<bool>,
}

impl Mirrors {
    fn allow(self, ex: Parity) -> bool {
        self.about_x.is_none_or(|even| even == ex.even_x) && self.about_y.is_none_or(|even| even == ex.even_y)
    }
}

/// Modes of a cell that a wave can excite, by rising cutoff, in units of the cell's size.
pub(super) struct Basis {
    pub(super) members: Vec<Member>,
    /// All cutoffs lie below this.
    pub(super) limit: f64,
    /// A coarser basis, for the extrapolation to all modes: the members below this.
    pub(super) coarse_limit: f64,
    groups: Vec<&'static Group>,
    /// Place of each member in the order of the groups.
    places: Vec<usize>,
}

impl Basis {
    /// The modes of a cell's kind that have the symmetry asked for.
    pub(super) fn new(cell: &Cell, mirrors: Mirrors) -> Self {
        let spectrum = Spectrum::of(cell);
        let groups: Vec<_> = spectrum.groups.iter().filter(|group| mirrors.allow(group.ex)).collect();
        let members: Vec<_> = groups.iter().flat_map(|group| group.members.iter().copied()).collect();
        let mut places: Vec<usize> = (0..members.len()).collect();
        places.sort_by(|&a, &b| members[a].cutoff.total_cmp(&members[b].cutoff));
        let members = places.iter().map(|&place| members[place]).collect();
        let (coarse_limit, limit) = spectrum.limits;
        Self { members, limit, coarse_limit, groups, places }
    }

    /// How many members lie below a cutoff.
    pub(super) fn count_below(&self, cutoff: f64) -> usize {
        self.members.partition_point(|member| member.cutoff < cutoff)
    }

    /// The members as modes of the square, each with the sign of E_y's transform against that of E_x; nothing for other cells.
    pub(super) fn square(&self) -> Option<Vec<(rectangle::Mode, f64)>> {
        let of_group = |group: &&Group| {
            let sign = relative_sign(group.ex);
            Some(group.square.as_ref()?.iter().map(move |&mode| (mode, sign)).collect::<Vec<_>>())
        };
        let grouped = self.groups.iter().map(of_group).collect::<Option<Vec<_>>>()?.concat();
        Some(self.places.iter().map(|&place| grouped[place]).collect())
    }

    /// Parts across and along one wave vector, for all members.
    pub(super) fn transform(&self, kx: f64, ky: f64, across: &mut [f64], along: &mut [f64]) {
        let count = self.places.len();
        let mut grouped = vec![0.0; 2 * count];
        let (t, m) = grouped.split_at_mut(count);
        let mut start = 0;
        for group in &self.groups {
            let range = start..start + group.members.len();
            start = range.end;
            (group.transform)(kx, ky, &mut t[range.clone()], &mut m[range]);
        }
        for ((across, along), &place) in across.iter_mut().zip(along).zip(&self.places) {
            (*across, *along) = (t[place], m[place]);
        }
    }
}

/// What one length in units of the size is, m, and the highest cutoff that is taken along, in units of 1/size.
pub(super) fn size_m_and_limit(cell: &Cell) -> (f64, f64) {
    let spectrum = Spectrum::of(cell);
    (cell.width_m() / spectrum.width, spectrum.limits.1)
}

const PARITIES: [Parity; 4] =
    [Parity::new(true, true), Parity::new(true, false), Parity::new(false, true), Parity::new(false, false)];

fn hexagon_spectrum() -> Spectrum {
    const LIMITS: (f64, f64) = (6.7, 9.2);
    let group = |ex: Parity| {
        let nodes = hexagon::quadrant_nodes(20);
        let classes = TABLE.iter().filter(|entry| entry.cutoff < LIMITS.1).flat_map(|entry| {
            let all = entry
                .parities
                .iter()
                .map(move |&parity| (hexagon::Class { family: entry.family, parity }, entry.cutoff));
            all.filter(|(class, _)| class.parity.of_ex(class.family) == ex)
        });
        let modes: Vec<_> = classes.map(|(class, cutoff)| hexagon::Mode::new(class, cutoff, &nodes)).collect();
        let rim = hexagon::RimTransform::new(modes.clone(), nodes, ex);
        Group {
            ex,
            members: modes.iter().map(|mode| Member { family: mode.class.family, cutoff: mode.cutoff }).collect(),
            transform: Box::new(move |kx, ky, across, along| {
                rim.at(kx, ky, across, along);
                across_and_along(ex, direction(kx, ky), across, along);
            }),
            square: None,
        }
    };
    Spectrum { width: 2.0 * hexagon::INRADIUS, limits: LIMITS, groups: PARITIES.map(group).into() }
}

fn square_spectrum() -> Spectrum {
    const LIMITS: (f64, f64) = (5.5 * PI, 7.5 * PI);
    let group = |odd| {
        let ex = rectangle::ex(odd);
        let modes = rectangle::modes(odd, 1.0, LIMITS.1, usize::MAX);
        Group {
            ex,
            members: modes.iter().map(|mode| Member { family: mode.family, cutoff: mode.cutoff }).collect(),
            square: Some(modes.clone()),
            transform: Box::new(move |kx, ky, across, along| {
                rectangle::transform(&modes, kx, ky, across, along);
                across_and_along(ex, direction(kx, ky), across, along);
            }),
        }
    };
    let odd = [(false, false), (false, true), (true, false), (true, true)];
    Spectrum { width: 1.0, limits: LIMITS, groups: odd.map(group).into() }
}

/// Modes of the circle with one azimuthal dependence: parts across as cos mφ or, turned by a quarter of the period, sin mφ.
struct Azimuthal {
    order: usize,
    turned: bool,
    modes: Vec<(ModeFamily, f64)>,
}

impl Azimuthal {
    /// Of E_x, from what a mirror does to cos mφ and sin mφ of the parts across.
    fn ex(&self) -> Parity {
        Parity::new(self.order.is_multiple_of(2) != self.turned, self.turned)
    }
}

fn circle_spectrum() -> Spectrum {
    const LIMITS: (f64, f64) = (8.6, 11.7);
    /// No zero of J_m or its derivative lies below m.
    const ORDERS: usize = LIMITS.1 as usize;
    let all = (0..=ORDERS).flat_map(|order| {
        [false, true].map(|turned| {
            let mut modes = circle::modes(order, LIMITS.1);
            // Of order zero there is one of each: TE modes have no parts along, TM modes none across.
            modes.retain(|&(family, _)| order > 0 || turned == (family == ModeFamily::Tm));
            Azimuthal { order, turned, modes }
        })
    });
    let mut all: Vec<_> = all.collect();
    let groups = PARITIES.map(|ex| {
        let (own, rest): (Vec<_>, Vec<_>) = std::mem::take(&mut all).into_iter().partition(|part| part.ex() == ex);
        all = rest;
        Group {
            ex,
            members: own
                .iter()
                .flat_map(|part| part.modes.iter().map(|&(family, cutoff)| Member { family, cutoff }))
                .collect(),
            transform: Box::new(move |kx, ky, across, along| {
                let (kappa, angle) = (kx.hypot(ky).max(1e-9), ky.atan2(kx));
                let mut bessel = [0.0; ORDERS + 2];
                bessel_j_run(0.0, kappa, &mut bessel);
                let mut start = 0;
                for Azimuthal { order, turned, modes } in &own {
                    let range = start..start + modes.len();
                    start = range.end;
                    let (t, m) = (&mut across[range.clone()], &mut along[range]);
                    let slope = *order as f64 / kappa * bessel[*order] - bessel[order + 1];
                    circle::radial_parts_from((bessel[*order], slope), *order, modes, kappa, t, m);
                    let scale = if *order == 0 { (2.0 * PI).sqrt() } else { 2.0 * PI.sqrt() };
                    let (s, c) = (*order as f64 * angle).sin_cos();
                    let (on_t, on_m) = if *turned { (s, -c) } else { (c, s) };
                    t.iter_mut().for_each(|value| *value *= scale * on_t);
                    m.iter_mut().for_each(|value| *value *= scale * on_m);
                }
            }),
            square: None,
        }
    });
    Spectrum { width: 2.0, limits: LIMITS, groups: groups.into() }
}

/// Unit vector along a wave vector; along x where there is none.
fn direction(kx: f64, ky: f64) -> [f64; 2] {
    let k = kx.hypot(ky);
    if k > 0.0 { [kx / k, ky / k] } else { [1.0, 0.0] }
}
