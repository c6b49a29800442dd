//! What the leak subjects share: waves and how they meet a stack of layers, sheets seen by any
//! wave, and chains of two-ports.

pub mod incidence;
pub mod layered;
pub(crate) mod lumped_chain;
pub(crate) mod opening;
pub mod plane_wave;
pub mod polarizability;
pub mod sheet;
mod sine_integral;
pub(crate) mod slit;
pub mod two_port;
pub mod worst_termination;

pub use incidence::{Incidence, Polarization};
pub use plane_wave::PlaneWave;
pub use sheet::Sheet;
pub use two_port::{Scattering, Terminations, TwoPort};
