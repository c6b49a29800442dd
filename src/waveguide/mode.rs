//! The modes of a guide: family, order, cutoff.

use std::f64::consts::PI;

use super::axial::TM01;
use super::guide::Shape;
use super::spectrum::hexagon::INRADIUS;
use super::spectrum::hexagon_table::{self, Entry};
use super::spectrum::{ModeFamily, circle, rectangle};
use crate::error::{Error, Result};

/// What tells a mode from the others of its family.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Order {
    /// The TEM mode is the only one of its family.
    Only,
    /// Half-waves along width and height of a rectangle; azimuthal and radial order in a circle.
    Pair(u32, u32),
    /// Place within its family by rising cutoff, from one: the hexagon.
    Place(u32),
}

/// One mode of a guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    family: ModeFamily,
    order: Order,
    degeneracy: u32,
    cutoff_wavenumber_per_m: f64,
    wall_per_m: [f64; 2],
}

impl Mode {
    pub(super) fn new(
        family: ModeFamily,
        order: Order,
        degeneracy: u32,
        cutoff_wavenumber_per_m: f64,
        wall_per_m: [f64; 2],
    ) -> Self {
        Self { family, order, degeneracy, cutoff_wavenumber_per_m, wall_per_m }
    }

    /// TE, TM or TEM.
    #[must_use]
    pub fn family(&self) -> ModeFamily {
        self.family
    }

    /// Its order within the family.
    #[must_use]
    pub fn order(&self) -> Order {
        self.order
    }

    /// How many modes, turned against each other, share this entry: 1 or 2.
    #[must_use]
    pub fn degeneracy(&self) -> u32 {
        self.degeneracy
    }

    /// Cutoff wavenumber k_c, rad/m.
    #[must_use]
    pub fn cutoff_wavenumber_per_m(&self) -> f64 {
        self.cutoff_wavenumber_per_m
    }

    /// Wall integrals that set its loss, 1/m. TE: ∮ψ²/∫ψ² and ∮(∂ψ/∂t)²/(k_c²∫ψ²); TM: ∮(∂ψ/∂n)²/(k_c²∫ψ²) and 0.
    pub(super) fn wall_per_m(&self) -> [f64; 2] {
        self.wall_per_m
    }
}

impl std::fmt::Display for Mode {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.order {
            Order::Only => f.write_str(self.family.name()),
            Order::Pair(m, n) if m.max(n) < 10 => write!(f, "{}{m}{n}", self.family.name()),
            Order::Pair(m, n) => write!(f, "{}{m},{n}", self.family.name()),
            Order::Place(place) => write!(f, "{} {place}", self.family.name()),
        }
    }
}

/// The mode with the lowest cutoff.
pub(super) fn dominant(shape: &Shape) -> Mode {
    match *shape {
        Shape::Circle { diameter_m } => circular(ModeFamily::Te, 1, 1, circle::TE11, 0.5 * diameter_m),
        Shape::Rectangle { width_m, height_m } if width_m >= height_m => {
            rectangular(ModeFamily::Te, 1, 0, width_m, height_m)
        }
        Shape::Rectangle { width_m, height_m } => rectangular(ModeFamily::Te, 0, 1, width_m, height_m),
        Shape::Hexagon { across_flats_m } => hexagonal(&hexagon_table::TABLE[0], 1, across_flats_m),
    }
}

/// Where the hexagon's TM modes start in its table.
const HEXAGON_TM: usize = 23;

/// The TM mode with the lowest cutoff.
pub(super) fn lowest_tm(shape: &Shape) -> Mode {
    match *shape {
        Shape::Circle { diameter_m } => circular(ModeFamily::Tm, 0, 1, TM01, 0.5 * diameter_m),
        Shape::Rectangle { width_m, height_m } => rectangular(ModeFamily::Tm, 1, 1, width_m, height_m),
        Shape::Hexagon { across_flats_m } => hexagonal(&hexagon_table::TABLE[HEXAGON_TM], 1, across_flats_m),
    }
}

/// The `count` lowest modes by rising cutoff, as far as they are known.
pub(super) fn lowest(shape: &Shape, count: usize) -> Vec<Mode> {
    let mut modes = match *shape {
        Shape::Circle { diameter_m } => grow(count, |limit| circular_below(limit, 0.5 * diameter_m)),
        Shape::Rectangle { width_m, height_m } => grow(count, |limit| rectangular_below(limit, width_m, height_m)),
        Shape::Hexagon { across_flats_m } => hexagonal_all(across_flats_m),
    };
    modes.sort_by(|a, b| a.cutoff_wavenumber_per_m.total_cmp(&b.cutoff_wavenumber_per_m));
    modes.truncate(count);
    modes
}

/// ModeFamily and order as a name tells them: "TE11", "TM0,12", "TE 3", "TEM".
pub(super) fn parse(name: &str) -> Option<(ModeFamily, Order)> {
    let name = name.trim();
    let (family, order) = name.split_at_checked(2)?;
    let family = match family.to_ascii_uppercase().as_str() {
        "TE" if order.eq_ignore_ascii_case("m") => return Some((ModeFamily::Tem, Order::Only)),
        "TE" => ModeFamily::Te,
        "TM" => ModeFamily::Tm,
        _ => return None,
    };
    let number = |text: &str| text.trim().parse::<u32>().ok();
    if let Some((m, n)) = order.split_once(',') {
        Some((family, Order::Pair(number(m)?, number(n)?)))
    } else if order.starts_with(' ') {
        Some((family, Order::Place(number(order)?)))
    } else if order.len() == 2 {
        let (m, n) = order.split_at_checked(1)?;
        Some((family, Order::Pair(number(m)?, number(n)?)))
    } else {
        None
    }
}

/// What the modes of a guide are called, for an error.
pub(super) fn unknown(name: &str, known: &[&str]) -> Error {
    Error::UnknownName {
        kind: "mode".into(),
        name: name.to_owned(),
        known: known.iter().map(|&known| known.to_owned()).collect(),
    }
}

/// The mode of a name.
pub(super) fn named(shape: &Shape, name: &str) -> Result<Mode> {
    const HIGHEST: u32 = 500;
    let parsed = parse(name);
    let found = match (*shape, parsed) {
        (Shape::Circle { diameter_m }, Some((family @ (ModeFamily::Te | ModeFamily::Tm), Order::Pair(m, n))))
            if (1..=HIGHEST).contains(&n) && m <= HIGHEST =>
        {
            let zeros = circle::first_zeros(family, m as usize, n as usize);
            zeros.last().map(|&zero| circular(family, m, n, zero, 0.5 * diameter_m))
        }
        (
            Shape::Rectangle { width_m, height_m },
            Some((family @ (ModeFamily::Te | ModeFamily::Tm), Order::Pair(m, n))),
        ) if m.max(n) <= HIGHEST && if family == ModeFamily::Te { m + n > 0 } else { m * n > 0 } => {
            Some(rectangular(family, m, n, width_m, height_m))
        }
        (Shape::Hexagon { across_flats_m }, Some((family, order @ Order::Place(_)))) => {
            hexagonal_all(across_flats_m).into_iter().find(|mode| mode.family == family && mode.order == order)
        }
        _ => None,
    };
    found.ok_or_else(|| match shape {
        Shape::Circle { .. } => unknown(name, &["TE11", "TE01", "TM01", "TM0,12"]),
        Shape::Rectangle { .. } => unknown(name, &["TE10", "TE01", "TM11", "TE12,3"]),
        Shape::Hexagon { .. } => unknown(name, &["TE 1", "TE 23", "TM 1", "TM 20"]),
    })
}

/// Raises the limit (a wavenumber in units of the size) until enough modes lie below it.
fn grow(count: usize, below: impl Fn(f64) -> Vec<Mode>) -> Vec<Mode> {
    let mut limit = 8.0;
    loop {
        let modes = below(limit);
        if modes.len() >= count {
            return modes;
        }
        limit *= 1.5;
    }
}

fn circular(family: ModeFamily, m: u32, n: u32, zero: f64, radius_m: f64) -> Mode {
    let wall = circle::wall(family, m as usize, zero).map(|integral| integral / radius_m);
    Mode::new(family, Order::Pair(m, n), if m == 0 { 1 } else { 2 }, zero / radius_m, wall)
}

fn circular_below(limit: f64, radius_m: f64) -> Vec<Mode> {
    let mut modes = Vec::new();
    for m in 0..=limit as u32 {
        for family in [ModeFamily::Te, ModeFamily::Tm] {
            let zeros = circle::zeros(family, m as usize, limit);
            modes.extend(zeros.iter().zip(1..).map(|(&zero, n)| circular(family, m, n, zero, radius_m)));
        }
    }
    modes
}

fn rectangular(family: ModeFamily, m: u32, n: u32, width_m: f64, height_m: f64) -> Mode {
    let cutoff = rectangle::cutoff(m, n, height_m / width_m) / width_m;
    let wall = rectangle::wall(family, m, n, height_m / width_m).map(|integral| integral / width_m);
    Mode::new(family, Order::Pair(m, n), 1, cutoff, wall)
}

fn rectangular_below(limit: f64, width_m: f64, height_m: f64) -> Vec<Mode> {
    let limit = limit / width_m.max(height_m);
    let highest = |length_m: f64| (limit * length_m / PI) as u32;
    let mut modes = Vec::new();
    for m in 0..=highest(width_m) {
        for n in 0..=highest(height_m) {
            if m + n > 0 {
                modes.push(rectangular(ModeFamily::Te, m, n, width_m, height_m));
            }
            if m * n > 0 {
                modes.push(rectangular(ModeFamily::Tm, m, n, width_m, height_m));
            }
        }
    }
    modes.retain(|mode| mode.cutoff_wavenumber_per_m <= limit);
    modes
}

fn hexagonal(entry: &Entry, place: u32, across_flats_m: f64) -> Mode {
    let side_m = across_flats_m / (2.0 * INRADIUS);
    let wall = entry.wall().map(|integral| integral / side_m);
    Mode::new(entry.family, Order::Place(place), entry.parities.len() as u32, entry.cutoff / side_m, wall)
}

fn hexagonal_all(across_flats_m: f64) -> Vec<Mode> {
    let mut places = [0, 0];
    hexagon_table::TABLE
        .iter()
        .map(|entry| {
            let place = &mut places[usize::from(entry.family == ModeFamily::Tm)];
            *place += 1;
            hexagonal(entry, *place, across_flats_m)
        })
        .collect()
}
