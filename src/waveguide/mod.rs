//! Waveguides below cutoff: tubes, fibre feeds and honeycomb vents.
//!
//! A room must have openings. A hole that is long against its width passes air and light and keeps waves below its cutoff
//! out; this subject computes how well, from fields rather than from decibels per diameter, up to cutoff and beyond it.
//!
//! - [`Guide`]: cutoff and propagation constant of round, rectangular and hexagonal tubes, empty or filled.
//! - [`Tube`]: a guide of finite length between two half-spaces, a leak.
//! - [`Rod`] and [`ThroughWire`]: what lies inside a tube, harmless or not.
//! - [`HoneycombPanel`]: many cells side by side, a leak, with what it costs in [`air`].
//! - [`sizing`]: the vent and the tube that just meet a target.
//! - [`rule`]: the trade's rules of thumb, to compare with.

pub mod air;
mod axial;
mod braid;
mod coaxial;
mod conductor;
mod directional;
mod elements;
mod guide;
mod honeycomb;
mod hybrid;
mod loading;
mod matching;
mod mode;
mod oblong;
mod open_end;
mod propagation;
mod rod;
pub mod rule;
mod series;
pub mod sizing;
mod spectrum;
mod tube;

pub use air::Air;
pub use braid::BraidTable;
pub use coaxial::CoaxialGuide;
pub use conductor::{Bond, ThroughWire};
pub use guide::{Guide, Shape};
pub use honeycomb::{
    Cell, FoilPanel, FrameJoint, HoneycombPanel, LatticeResponse, Ribbons, RulesOfThumb, UnbondedNodes,
};
pub use mode::{Mode, Order};
pub use rod::Rod;
pub use spectrum::ModeFamily;
pub use tube::Tube;
