//! Joints: seams between panels, gaskets, the contact line around a door and the door as a whole.
//!
//! A joint is a slit of a small gap through an overlap of some depth. What closes it are fasteners,
//! which short it every so often, and contact between its faces. Every mode of the slit hands on a
//! share of what falls on the joint, as in [`wave`](crate::wave); the cross-sections of equal
//! pieces that one wave excites add up as dipoles in a row do.

mod bay;
mod contact;
mod contact_line;
mod door;
mod equal_pieces;
mod face;
mod fastener;
mod fingers;
mod gasket_line;
mod impedance_table;
mod knife_edge;
mod lanes;
mod rows_in_gap;
mod seam;
mod transfer_impedance;

pub use contact::{Contact, ContactSpots};
pub use contact_line::ContactLine;
pub use door::{Door, Joint};
pub use face::Face;
pub use fastener::Fastener;
pub use fingers::FingerRow;
pub use gasket_line::GasketLine;
pub use impedance_table::ImpedanceTable;
pub use knife_edge::KnifeEdge;
pub use seam::Seam;
pub use transfer_impedance::{ContactsBeside, Gasket, TransferImpedance};
