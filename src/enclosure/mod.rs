//! The whole room: its leaks under an exposure, against a requirement.
//!
//! The enclosure knows leaks, not subjects: anything that offers a cross-section takes part.

mod elements;
mod exposure;
#[cfg(feature = "serde")]
mod kinds;
mod measured;
mod near_exposure;
mod opening;
mod passed_limits;
#[cfg(feature = "serde")]
mod record;
mod requirement;
mod site;
mod standard_exposure;
mod study;
#[cfg(any(feature = "serde", feature = "python"))]
mod study_record;

use std::sync::Arc;

use crate::call_off::{Watch, unwatched};
use crate::error::{Error, Result, check};
use crate::leak::{Leak, Wall};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::wave::Sheet;

pub use exposure::{AntennaTest, Exposure, Reader, Reading};
#[cfg(feature = "serde")]
pub use kinds::{register_leak, register_sheet};
pub use opening::Opening;
pub use passed_limits::LimitRun;
pub use requirement::Requirement;
pub use site::Site;
pub use standard_exposure::StandardExposure;
pub use study::{Band, NEGLIGIBLE_DB, Study};
#[cfg(feature = "python")]
pub(crate) use study_record::StudyRecord;

/// Name under which the wall itself stands among the leaks.
pub const WALL: &str = "wall";

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
            if openings[..index].iter().any(|earlier| earlier.name() == opening.name()) {
                return Err(Error::DuplicateName { kind: "leak".into(), name: opening.name().to_owned() });
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

    /// The same room with one more opening, after the others; one of the same name gives up its place to it.
    ///
    /// Everything else stays as it is, with all that it has worked out.
    #[must_use]
    pub fn with_opening(mut self, opening: Opening) -> Self {
        match self.openings.iter_mut().find(|present| present.name() == opening.name()) {
            Some(present) => *present = opening,
            None => self.openings.push(opening),
        }
        self
    }

    /// The same room without one of its openings.
    ///
    /// # Errors
    /// [`Error::UnknownName`] with the names that exist.
    pub fn without(mut self, name: &str) -> Result<Self> {
        let place = self.openings.iter().position(|opening| opening.name() == name);
        let known = || self.openings.iter().map(|opening| opening.name().to_owned()).collect();
        let place =
            place.ok_or_else(|| Error::UnknownName { kind: "leak".into(), name: name.to_owned(), known: known() })?;
        self.openings.remove(place);
        Ok(self)
    }

    /// The same room with another wall, of the same inner dimensions.
    ///
    /// # Errors
    /// None for a room whose area is finite; that is checked.
    pub fn with_wall(self, wall: Arc<dyn Sheet>) -> Result<Self> {
        Ok(Self { wall: Wall::new(wall, self.wall.area_m2())?, ..self })
    }

    /// What an exposure reads one by one: the wall, then the openings in the order given.
    pub fn sites(&self) -> impl Iterator<Item = Site<'_>> {
        std::iter::once(Site::wall_of(self)).chain(self.openings.iter().map(|opening| Site::opening_of(self, opening)))
    }

    /// The leak of a given name, the wall included.
    ///
    /// # Errors
    /// [`Error::UnknownName`] with the names that exist.
    pub fn leak(&self, name: &str) -> Result<&dyn Leak> {
        if name == WALL {
            return Ok(&self.wall);
        }
        self.openings.iter().find(|opening| opening.name() == name).map(|opening| &**opening.leak()).ok_or_else(|| {
            Error::UnknownName {
                kind: "leak".into(),
                name: name.to_owned(),
                known: std::iter::once(WALL)
                    .chain(self.openings.iter().map(Opening::name))
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
        for caution in self.openings.iter().filter_map(|opening| opening.leak().caution()) {
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
        let openings = self.openings.iter().map(|opening| opening.rebuilt(knobs)).collect::<Result<_>>()?;
        Self::new(interior_m, wall, openings)
    }
}
