//! A rectangular box with openings in its front wall: what a wave from outside leaves at a point inside.
//!
//! Every opening carries a few voltages across it. Outside each meets the radiation admittance of a
//! half-space, inside the modes of the box with the loss of its walls and of what it holds, in between
//! the depth of the wall; openings see each other on both sides. See [`BenchBox`] for the whole,
//! [`StripEquivalent`] for the equivalent circuit that is published for a box with one slot.

mod arrival;
mod bench_box;
mod exterior;
mod interior;
mod lanes;
mod mode;
mod mouth_field;
mod opening;
mod strip_equivalent;

pub use arrival::BoxWave;
pub use bench_box::{BenchBox, InsideField, Probe};
pub use opening::{BoxAxis, BoxOpening};
pub use strip_equivalent::StripEquivalent;
