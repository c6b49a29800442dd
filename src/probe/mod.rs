//! Probes near a wall: loops and rods with a sheet between them, and a wire that stands on the wall.

pub(crate) mod monopole;
mod near_test;
mod sommerfeld;

pub use near_test::{FieldRatio, LoopArrangement, LoopTest, RodTest};
