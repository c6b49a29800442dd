//! What the leak subjects share: waves and how they meet a stack of layers, sheets seen by any
//! wave, and chains of two-ports.

pub(crate) mod chain_lanes;
pub(crate) mod circuit_chain;
pub(crate) mod circuit_value;
pub mod hole_pattern;
pub(crate) mod impedance_rows;
pub mod incidence;
pub mod layered;
pub(crate) mod layered_lanes;
pub(crate) mod line_law;
pub(crate) mod lumped_chain;
pub(crate) mod lumped_chain_lanes;
pub(crate) mod monopole;
mod near_test;
pub(crate) mod opening;
pub mod plane_wave;
pub mod polarizability;
pub mod sheet;
mod sine_integral;
mod sine_integral_lanes;
pub(crate) mod slit;
pub(crate) mod slit_angles;
pub(crate) mod slit_lanes;
mod sommerfeld;
pub mod two_port;
mod waves;
pub mod worst_termination;
pub(crate) mod worst_termination_lanes;

pub use hole_pattern::HolePattern;
pub use incidence::{Incidence, Polarization};
pub use near_test::{FieldRatio, LoopArrangement, LoopTest, RodTest};
pub use plane_wave::PlaneWave;
pub use sheet::{Passages, Sheet};
pub use two_port::{Scattering, Terminations, TwoPort};
pub use waves::Waves;
