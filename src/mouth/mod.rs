//! Mouths: how waves enter and leave slots, holes and gaps, one mode at a time, and what small ones do as dipoles.

pub(crate) mod chain;
pub(crate) mod chain_lanes;
pub mod hole_pattern;
pub mod polarizability;
pub(crate) mod slit;
pub(crate) mod slit_angles;
pub(crate) mod slit_lanes;

pub use hole_pattern::HolePattern;
