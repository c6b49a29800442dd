//! Honeycomb vents: many cells side by side.
//!
//! [`Cell`] is one opening with its share of the wall, [`HoneycombPanel`] a panel of them with a depth and a size; [`FoilPanel`] is a
//! panel whose glued nodes are not bonded, or two of them crossed.

mod basis;
mod cell;
mod face;
mod foil;
mod panel;
mod ports;
mod rigorous;

pub use cell::Cell;
pub use foil::{FoilPanel, Ribbons, UnbondedNodes};
pub use panel::HoneycombPanel;
pub use rigorous::LatticeResponse;
