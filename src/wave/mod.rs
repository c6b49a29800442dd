//! What the leak subjects share: waves and how they meet a stack of layers, sheets seen by any
//! wave, and chains of two-ports.

pub mod incidence;
pub mod layered;
pub mod plane_wave;
pub mod sheet;

pub use incidence::{Incidence, Polarization};
pub use plane_wave::PlaneWave;
pub use sheet::Sheet;
