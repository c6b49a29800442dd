//! One entry of a room as an exposure sees it.

use super::{Enclosure, Opening, WALL};
use crate::leak::Leak;
use crate::wave::Sheet;

/// A leak where it is: what an exposure reads at once.
///
/// It says which leak, how many of them, whether they are the wall, and in which room. Where on its wall a leak lies is
/// not known; it is taken to be where the antennas are.
#[derive(Debug, Clone, Copy)]
pub struct Site<'a> {
    name: &'a str,
    leak: &'a dyn Leak,
    count: usize,
    sheet: Option<&'a dyn Sheet>,
    room: Option<&'a Enclosure>,
}

impl<'a> Site<'a> {
    /// One leak by itself, in an endless wall between two half-spaces: no room is known.
    #[must_use]
    pub fn of(leak: &'a dyn Leak) -> Self {
        Self { name: "", leak, count: 1, sheet: None, room: None }
    }

    /// A wall by itself, endless: waves pass it as a whole.
    #[must_use]
    pub fn of_wall(wall: &'a crate::leak::Wall) -> Self {
        Self { name: WALL, sheet: Some(&**wall.sheet()), ..Self::of(wall) }
    }

    pub(super) fn wall_of(room: &'a Enclosure) -> Self {
        Self { room: Some(room), ..Self::of_wall(room.wall()) }
    }

    pub(super) fn opening_of(room: &'a Enclosure, opening: &'a Opening) -> Self {
        Self { name: opening.name(), count: opening.count(), room: Some(room), ..Self::of(&**opening.leak()) }
    }

    /// Its name in the room, `wall` for the wall; empty for a leak by itself.
    #[must_use]
    pub fn name(&self) -> &'a str {
        self.name
    }

    /// One of its leaks; all are alike.
    #[must_use]
    pub fn leak(&self) -> &'a dyn Leak {
        self.leak
    }

    /// How many there are, at least one.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }

    /// Whether it is the wall itself, which waves pass as a whole and in step.
    #[must_use]
    pub fn is_wall(&self) -> bool {
        self.sheet.is_some()
    }

    /// What the wall is made of, where this is the wall.
    #[must_use]
    pub fn sheet(&self) -> Option<&'a dyn Sheet> {
        self.sheet
    }

    /// The room that it belongs to, where one is known.
    #[must_use]
    pub fn room(&self) -> Option<&'a Enclosure> {
        self.room
    }
}
