//! Plane waves and how they meet a stack of layers; sheets seen by any wave.

pub mod incidence;
pub mod layered;
pub(crate) mod layered_lanes;
pub mod plane_wave;
pub mod sheet;
mod waves;

pub use incidence::{Incidence, Polarization};
pub use plane_wave::PlaneWave;
pub use sheet::{Passages, Sheet};
pub use waves::Waves;
