//! The exposures of this library as one type.

use super::{AntennaTest, Enclosure, Exposure, Reader, Site};
use crate::probe::{LoopTest, RodTest};
use crate::validity::Validity;
use crate::wave::PlaneWave;

/// Any exposure of this library: one that is chosen at run time, or kept in a file under its `kind`.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "kind", rename_all = "snake_case")
)]
#[non_exhaustive]
pub enum StandardExposure {
    /// Two antennas that face the wall.
    AntennaTest(AntennaTest),
    /// A plane wave.
    PlaneWave(PlaneWave),
    /// Two loops near the wall.
    LoopTest(LoopTest),
    /// Two rods near the wall.
    RodTest(RodTest),
}

impl StandardExposure {
    fn exposure(&self) -> &dyn Exposure {
        match self {
            Self::AntennaTest(test) => test,
            Self::PlaneWave(wave) => wave,
            Self::LoopTest(test) => test,
            Self::RodTest(test) => test,
        }
    }
}

impl Exposure for StandardExposure {
    fn prepare<'a>(&'a self, room: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
        self.exposure().prepare(room, frequency_hz)
    }

    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
        self.exposure().validity(site, frequency_hz)
    }
}

impl From<AntennaTest> for StandardExposure {
    fn from(test: AntennaTest) -> Self {
        Self::AntennaTest(test)
    }
}

impl From<PlaneWave> for StandardExposure {
    fn from(wave: PlaneWave) -> Self {
        Self::PlaneWave(wave)
    }
}

impl From<LoopTest> for StandardExposure {
    fn from(test: LoopTest) -> Self {
        Self::LoopTest(test)
    }
}

impl From<RodTest> for StandardExposure {
    fn from(test: RodTest) -> Self {
        Self::RodTest(test)
    }
}
