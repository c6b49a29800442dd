//! Joints: seams between panels and the contact line around a door.
//!
//! A joint is a slit of a small gap through an overlap of some depth. What closes it are fasteners,
//! which short it every so often, and contact between its faces. Every mode of the slit hands on a
//! share of what falls on the joint, as in [`wave`](crate::wave); the cross-sections of equal
//! pieces that one wave excites add up as dipoles in a row do.

mod contact_line;
mod row;
mod seam;

pub use contact_line::{ContactLine, Finger};
pub use seam::{Contact, Seam};
