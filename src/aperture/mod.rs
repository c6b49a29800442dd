//! Openings in a wall: holes and slots, from the static limit through resonance to the geometric one.
//!
//! A small opening is a pair of dipoles ([`polarizability`]); a large one is its area. Between the
//! two it is a few modes, each of which hands on a share T of what a matched antenna would, so that
//!
//! σ = (λ²/4π) Σ T,
//!
//! averaged over angle and polarization. The lowest modes (two magnetic dipoles, one electric) are
//! modelled one by one, with the depth of the wall, the rest as a whole with the number of modes that
//! fit into the area. The limits are exact: (4k⁴/9π)(α_m1² + α_m2² + α_e²) for a small opening
//! (for the round one 16k⁴a⁶/9π, Hill et al. 1994), and half the area for a large one.
//!
//! Sources: H. A. Bethe, "Theory of diffraction by small holes", Phys. Rev. 66 (1944) 163; D. A. Hill
//! et al., "Aperture excitation of electrically large, lossy cavities", IEEE Trans. EMC 36 (1994) 169
//! (both from memory). Walls are perfect conductors throughout.

mod arrival;
mod channel;
mod circular_hole;
mod hole_array;
mod hole_array_lanes;
mod hole_layout;
mod neighbours;
mod outline;
mod rule_of_thumb;
mod slot_model;
mod slots;

pub use crate::mouth::polarizability;
pub use arrival::{Arrival, Directional};
pub use circular_hole::CircularHole;
pub use hole_array::{HoleArray, HoleInteraction};
pub use hole_layout::HoleLayout;
pub use rule_of_thumb::slot_rule_of_thumb_db;
pub use slots::{CrossSlot, EllipticHole, RectangularSlot, RoundedSlot};
