//! Waveguides below cutoff: tubes, fibre feeds and honeycomb vents.
//!
//! A room must have openings. A hole that is long against its width passes air and light and keeps waves below its cutoff
//! out; this subject computes how well, from fields rather than from decibels per diameter, up to cutoff and beyond it.
//!
//! - [`Guide`]: cutoff and propagation constant of round, rectangular and hexagonal tubes, empty or filled.
//! - [`Tube`]: a guide of finite length between two half-spaces, a leak.
//! - [`HoneycombPanel`]: many cells side by side, a leak.
//! - [`rule`]: the trade's rules of thumb, to compare with.

mod end;
mod guide;
mod honeycomb;
#[cfg(test)]
mod matching;
mod mode;
mod rod;
pub mod rule;
mod series;
mod spectrum;
mod tube;

pub use guide::{Guide, Shape};
pub use honeycomb::{Cell, HoneycombPanel};
pub use mode::{Mode, Order};
pub use rod::Rod;
pub use spectrum::Family;
pub use tube::Tube;
