//! The whole room: its leaks under an exposure, against a requirement.
//!
//! The enclosure knows leaks, not subjects: anything that offers a cross-section takes part.

mod elements;
mod exposure;
mod measured;
mod near_exposure;
mod requirement;
mod study;

use std::sync::Arc;

use crate::call_off::{Watch, unwatched};
use crate::error::{Error, Result, check};
use crate::leak::{Leak, Wall};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::wave::Sheet;

pub use exposure::{AntennaTest, Exposure, Reading};
pub use requirement::Requirement;
pub use study::{Band, NEGLIGIBLE_DB, Study};

/// Name under which the wall itself stands among the leaks.
pub const WALL: &str = "wall";

/// An opening of the enclosure: a named leak, present once or several times.
#[derive(Debug, Clone)]
pub struct Opening {
    name: String,
    leak: Arc<dyn Leak>,
    count: usize,
}

impl Opening {
    /// A leak under a name of the caller's choice, present `count` times.
    ///
    /// The name is part of parameter paths and so must not be empty or contain a dot; `wall` and
    /// `interior` are taken.
    ///
    /// # Errors
    /// For such a name, or a count of zero.
    pub fn new(name: impl Into<String>, leak: Arc<dyn Leak>, count: usize) -> Result<Self> {
        let name = name.into();
        if name.is_empty() || name.contains('.') || name == WALL || name == INTERIOR {
            return Err(Error::Reserved { kind: "leak".into(), name });
        }
        check::count("count", count as f64, 1).map_err(|error| error.within(&name))?;
        Ok(Self { name, leak, count })
    }

    /// The name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// One of the leaks; all are alike.
    #[must_use]
    pub fn leak(&self) -> &Arc<dyn Leak> {
        &self.leak
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }
}

impl PartialEq for Opening {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name && self.count == other.count && (*self.leak).equals((*other.leak).as_any())
    }
}

const INTERIOR: &str = "interior";

/// A shielded room or box: inner dimensions, wall, and openings.
///
/// ```
/// use std::sync::Arc;
/// use stillroom::{AntennaTest, Enclosure, Laminate, Layer, Parameters, material::catalogue};
/// let steel = Layer::slab(catalogue::get("steel")?, 0.5e-3)?;
/// let room = Enclosure::new([4.8, 3.6, 3.0], Arc::new(Laminate::new(vec![steel])?), vec![])?;
/// let study = room.study(&[1e9], &AntennaTest::new(1.0, 0.5)?)?;
/// assert_eq!(study.limiting(), ["wall"]);
/// assert_eq!(room.parameter("wall.layers.0.thickness_m")?, 0.5e-3);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Enclosure {
    interior_m: [f64; 3],
    wall: Wall,
    openings: Vec<Opening>,
}

impl Enclosure {
    /// A room of inner length, width and height (m), whose six sides are all made of `wall`.
    ///
    /// # Errors
    /// For dimensions that are not positive and finite, and for openings that share a name.
    pub fn new(interior_m: [f64; 3], wall: Arc<dyn Sheet>, openings: Vec<Opening>) -> Result<Self> {
        let [length_m, width_m, height_m] = interior_m;
        for (name, value) in SIDES.into_iter().zip(interior_m) {
            check::positive(name, "m", value).map_err(|error| error.within(INTERIOR))?;
        }
        for (index, opening) in openings.iter().enumerate() {
            if openings[..index].iter().any(|earlier| earlier.name == opening.name) {
                return Err(Error::DuplicateName { kind: "leak".into(), name: opening.name.clone() });
            }
        }
        let area_m2 = 2.0 * (length_m * width_m + width_m * height_m + height_m * length_m);
        Ok(Self { interior_m, wall: Wall::new(wall, area_m2)?, openings })
    }

    /// Inner length, width and height, m.
    #[must_use]
    pub fn interior_m(&self) -> [f64; 3] {
        self.interior_m
    }

    /// The wall, with the area of all six sides.
    #[must_use]
    pub fn wall(&self) -> &Wall {
        &self.wall
    }

    /// The openings, in the order given.
    #[must_use]
    pub fn openings(&self) -> &[Opening] {
        &self.openings
    }

    /// The leak of a given name, the wall included.
    ///
    /// # Errors
    /// [`Error::UnknownName`] with the names that exist.
    pub fn leak(&self, name: &str) -> Result<&dyn Leak> {
        if name == WALL {
            return Ok(&self.wall);
        }
        self.openings.iter().find(|opening| opening.name == name).map(|opening| &*opening.leak).ok_or_else(|| {
            Error::UnknownName {
                kind: "leak".into(),
                name: name.to_owned(),
                known: std::iter::once(WALL)
                    .chain(self.openings.iter().map(|opening| opening.name.as_str()))
                    .map(str::to_owned)
                    .collect(),
            }
        })
    }

    /// Shielding of every leak and of the whole, at each frequency (Hz).
    ///
    /// # Errors
    /// For a frequency that is not positive and finite, with its index.
    pub fn study(&self, frequency_hz: &[f64], exposure: &dyn Exposure) -> Result<Study> {
        self.study_watched(frequency_hz, exposure, &mut unwatched)
    }

    /// The same, asking a watch between pieces of the work whether to go on.
    ///
    /// # Errors
    /// Those of [`study`](Self::study); [`Error::Interrupted`].
    pub fn study_watched(&self, frequency_hz: &[f64], exposure: &dyn Exposure, watch: &mut Watch<'_>) -> Result<Study> {
        Study::new(self, frequency_hz, exposure, watch)
    }

    /// What a user of the results should be told about safety, each once.
    #[must_use]
    pub fn cautions(&self) -> Vec<&'static str> {
        let mut cautions: Vec<&'static str> = vec![OCCUPIED_ROOM_CAUTION];
        for caution in self.openings.iter().filter_map(|opening| opening.leak.caution()) {
            if !cautions.contains(&caution) {
                cautions.push(caution);
            }
        }
        cautions
    }
}

/// Said with every result of a room that people may enter.
pub const OCCUPIED_ROOM_CAUTION: &str = "A shielded room that people enter needs fresh air, a way out that opens from \
inside, and protection against fire of its lining; a transmitter in it can expose them. These follow local codes and \
licensed practice, which this calculation does not replace.";

const SIDES: [&str; 3] = ["length_m", "width_m", "height_m"];

impl Rebuild for Enclosure {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let interior_m = knobs.enter(INTERIOR, |knobs| {
            let mut sides = self.interior_m;
            for (side, name) in sides.iter_mut().zip(SIDES) {
                *side = knobs.value(name, "m", *side, Domain::POSITIVE);
            }
            Ok(sides)
        })?;
        let wall = self.wall.sheet();
        let wall = knobs.enter_shared(WALL, wall, |knobs| wall.rebuild_boxed(knobs))?;
        let openings = self
            .openings
            .iter()
            .map(|opening| {
                let (name, mut count) = (&opening.name, opening.count);
                let leak = knobs.enter_shared(name, &opening.leak, |knobs| {
                    let leak = opening.leak.rebuild_boxed(knobs)?;
                    count = knobs.count("count", count, 1)?;
                    Ok(leak)
                })?;
                Ok(Opening { name: name.clone(), leak, count })
            })
            .collect::<Result<_>>()?;
        Self::new(interior_m, wall, openings)
    }
}
