//! Circuits: two-ports in excess form, chains of lumped parts and lines, the worst termination, measured impedances.

pub(crate) mod bounds;
pub(crate) mod chain;
pub(crate) mod impedance_rows;
pub(crate) mod line_law;
pub(crate) mod lumped_chain;
pub(crate) mod lumped_chain_lanes;
pub mod two_port;

pub mod worst_termination;
pub(crate) mod worst_termination_lanes;

pub use two_port::{Scattering, Terminations, TwoPort};
