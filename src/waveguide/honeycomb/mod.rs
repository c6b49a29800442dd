//! Honeycomb vents: many cells side by side.
//!
//! [`Cell`] is one opening with its share of the wall, [`HoneycombPanel`] a panel of them with a depth and a size.

mod basis;
mod cell;
mod face;
mod panel;
mod ports;
mod rigorous;

pub use cell::Cell;
pub use panel::HoneycombPanel;
pub use rigorous::LatticeResponse;
