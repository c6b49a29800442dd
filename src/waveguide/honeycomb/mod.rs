//! Honeycomb vents: many cells side by side.
//!
//! [`Cell`] is one opening with its share of the wall, [`HoneycombPanel`] a panel of them with a depth and a size, and with a
//! [`FrameJoint`] around it; [`FoilPanel`] is a panel whose glued nodes are not bonded, or two of them crossed.

mod basis;
mod cell;
mod elimination;
mod face;
mod finite;
mod foil;
mod frame;
mod panel;
mod ports;
mod rigorous;
mod rules;
mod small_system;

pub use cell::Cell;
pub use foil::{FoilPanel, Ribbons, UnbondedNodes};
pub use frame::FrameJoint;
pub use panel::HoneycombPanel;
pub use rigorous::LatticeResponse;
pub use rules::RulesOfThumb;
