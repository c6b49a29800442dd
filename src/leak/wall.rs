//! The wall itself: a sheet that closes the room.

use std::sync::Arc;

use super::{Extent, Leak, Panel};
use crate::error::Result;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::Sheet;

/// A sheet all around, which waves pass as a whole and in step; its place among the leaks is that of the whole wall.
///
/// A piece of another sheet in the wall is a [`Panel`].
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    panel: Panel,
}

impl Wall {
    /// A wall of `area_m2` square metres in all.
    ///
    /// # Errors
    /// Unless the area is positive and finite.
    pub fn new(sheet: Arc<dyn Sheet>, area_m2: f64) -> Result<Self> {
        Ok(Self { panel: Panel::new(sheet, area_m2)? })
    }

    /// What it is made of.
    #[must_use]
    pub fn sheet(&self) -> &Arc<dyn Sheet> {
        self.panel.sheet()
    }

    /// Area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.panel.area_m2()
    }
}

impl Rebuild for Wall {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(Self { panel: self.panel.rebuild(knobs)? })
    }
}

impl Leak for Wall {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        self.panel.ln_cross_section(frequency_hz)
    }

    fn extent(&self) -> Extent {
        self.panel.extent()
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.sheet().validity(frequency_hz)
    }
}
