//! One cell of a honeycomb.

use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;
use crate::waveguide::guide::{Guide, Shape, length};
use crate::waveguide::spectrum::lattice::Arrangement;

/// One cell of a honeycomb: an opening and the wall between it and its neighbours.
///
/// Hexagonal and round cells have six neighbours, square ones four; the pitch is the opening's width plus the wall. Foil
/// honeycomb has two of the six walls doubled; give the mean.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct Cell {
    guide: Guide,
    wall_m: f64,
}

/// Thickest wall in widths of the cell: the face is tabulated as far.
pub(super) const MOST_WALL: f64 = 2.0;

impl Cell {
    fn new(shape: Shape, wall_m: f64) -> Result<Self> {
        let guide = Guide::new(shape)?;
        check::non_negative("wall_m", "m", wall_m)?;
        let name = match shape {
            Shape::Circle { .. } => "2 diameter_m",
            Shape::Rectangle { .. } => "2 side_m",
            Shape::Hexagon { .. } => "2 across_flats_m",
        };
        check::at_most("wall_m", "m", wall_m, name, MOST_WALL * shape.width_m())?;
        Ok(Self { guide, wall_m })
    }

    /// A hexagonal cell of the inner width `across_flats_m`; `wall_m` is the wall's whole thickness, 0 for thin foil.
    ///
    /// # Errors
    /// Unless the width is positive, and the wall not negative and at most twice as thick as the cell is wide.
    pub fn hexagonal(across_flats_m: f64, wall_m: f64) -> Result<Self> {
        Self::new(Shape::Hexagon { across_flats_m }, wall_m)
    }

    /// A square cell of the inner side `side_m`.
    ///
    /// # Errors
    /// Unless the side is positive, and the wall not negative and at most twice as thick as the cell is wide.
    pub fn square(side_m: f64, wall_m: f64) -> Result<Self> {
        length("side_m", side_m)?;
        Self::new(Shape::Rectangle { width_m: side_m, height_m: side_m }, wall_m)
    }

    /// A round cell, as drilled; `wall_m` is the web where neighbours come nearest.
    ///
    /// # Errors
    /// Unless the diameter is positive, and the wall not negative and at most twice as thick as the cell is wide.
    pub fn round(diameter_m: f64, wall_m: f64) -> Result<Self> {
        Self::new(Shape::Circle { diameter_m }, wall_m)
    }

    /// The same cell with a wall of the conductivity given, S/m.
    ///
    /// # Errors
    /// Unless the conductivity is positive.
    pub fn walled(self, wall_conductivity_s_per_m: f64) -> Result<Self> {
        Ok(Self { guide: self.guide.walled(wall_conductivity_s_per_m)?, ..self })
    }

    /// The opening as a guide.
    #[must_use]
    pub fn guide(&self) -> &Guide {
        &self.guide
    }

    /// Inner width: across flats, side or diameter, m.
    #[must_use]
    pub fn width_m(&self) -> f64 {
        self.guide.shape().width_m()
    }

    /// Thickness of the wall between two cells, m.
    #[must_use]
    pub fn wall_m(&self) -> f64 {
        self.wall_m
    }

    /// Distance between the axes of neighbours, m.
    #[must_use]
    pub fn pitch_m(&self) -> f64 {
        self.width_m() + self.wall_m
    }

    /// Area of a cell with its share of the wall, m².
    #[must_use]
    pub fn cell_area_m2(&self) -> f64 {
        self.arrangement().cell_area() * self.pitch_m().powi(2)
    }

    /// Open area over the whole, 0 to 1.
    #[must_use]
    pub fn open_fraction(&self) -> f64 {
        self.guide.shape().area_m2() / self.cell_area_m2()
    }

    /// Where the loss in the walls is known and no field goes through them. Perfect walls let none through at any frequency.
    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        let loss = self.guide.validity(frequency_hz);
        if self.wall_m == 0.0 || self.guide.wall_conductivity_s_per_m() == f64::INFINITY {
            return loss;
        }
        loss.and(Validity::within(
            "walls of the cells that no field goes through",
            "skin depth / wall",
            "",
            self.guide.skin_depth_m(frequency_hz) / self.wall_m,
            (0.0, 1.0),
            "the field goes through the walls, and far more than the cells pass gets past the panel",
        ))
    }

    pub(super) fn arrangement(&self) -> Arrangement {
        match self.guide.shape() {
            Shape::Rectangle { .. } => Arrangement::Square,
            _ => Arrangement::Triangular,
        }
    }
}

impl Rebuild for Cell {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let width = self.width_m();
        let shape = match self.guide.shape() {
            Shape::Circle { .. } => {
                Shape::Circle { diameter_m: knobs.value("diameter_m", "m", width, Domain::POSITIVE) }
            }
            Shape::Rectangle { .. } => {
                let side_m = length("side_m", knobs.value("side_m", "m", width, Domain::POSITIVE))?;
                Shape::Rectangle { width_m: side_m, height_m: side_m }
            }
            Shape::Hexagon { .. } => {
                Shape::Hexagon { across_flats_m: knobs.value("across_flats_m", "m", width, Domain::POSITIVE) }
            }
        };
        let cell = Self::new(
            shape,
            knobs.value("wall_m", "m", self.wall_m, Domain::NON_NEGATIVE.and("at most twice the width")),
        )?;
        match self.guide.wall_conductivity_s_per_m() {
            f64::INFINITY => Ok(cell),
            finite => cell.walled(knobs.value("wall_conductivity_s_per_m", "S/m", finite, Domain::POSITIVE)),
        }
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    shape: Shape,
    #[serde(default)]
    wall_m: f64,
    /// Absent for a perfect conductor.
    #[serde(default)]
    wall_conductivity_s_per_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Cell {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        if let Shape::Rectangle { width_m, height_m } = record.shape
            && width_m != height_m
        {
            return Err(crate::Error::Relation {
                quantity: "height_m".to_owned(),
                value: height_m,
                unit: "m".into(),
                relation: "equal to".into(),
                other: "width_m".to_owned(),
                other_value: width_m,
            });
        }
        Self::new(record.shape, record.wall_m)?.walled(record.wall_conductivity_s_per_m.unwrap_or(f64::INFINITY))
    }
}

#[cfg(feature = "serde")]
impl From<Cell> for Record {
    fn from(cell: Cell) -> Self {
        Self {
            shape: *cell.guide.shape(),
            wall_m: cell.wall_m,
            wall_conductivity_s_per_m: Some(cell.guide.wall_conductivity_s_per_m()).filter(|wall| wall.is_finite()),
        }
    }
}
