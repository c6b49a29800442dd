//! Engineering mathematics of RF-shielded rooms and boxes: how much gets in (or out), through
//! which part, and how sure we are.
//!
//! Three ideas hold the crate together.
//!
//! 1. **Everything is a leak, and leaks add in square metres.** Sheets, holes, seams, vents, tubes
//!    and filtered lines each offer a transmission cross-section ([`leak::Leak`]); an exposure turns
//!    it into decibels at a place. The part that limits a room is then a matter of sorting.
//! 2. **Every element is a set of named parameters** ([`parameter`]), read and changed by path, such
//!    as `vent.cell.across_flats_m`.
//! 3. **A number carries where it holds** ([`validity`]).
//!
//! All quantities are SI `f64` with the unit in the name; losses are positive dB; the time
//! convention is exp(+jωt).
//!
//! When not to use it: it does not mesh your geometry. Where the shape of a part decides and no model
//! here claims to hold for it, use a field solver, or measure, and bring the result in as a
//! [`leak::TabulatedLeak`].

pub mod call_off;
mod choice;
pub mod circuit;
pub mod complex_functions;
pub mod constants;
pub mod decibel;
mod domain;
pub mod enclosure;
pub mod error;
pub mod filter;
mod frequency_table;
mod lanes;
pub mod leak;
pub mod material;
pub mod mouth;
mod number_text;
mod numeric;
pub mod object;
pub mod parameter;
pub mod probe;
mod recent;
#[cfg(feature = "serde")]
mod serial;
pub mod sheet;
pub mod validity;
pub mod wave;
// subjects: one line each, in alphabetical order
pub mod aperture;
pub mod cavity;
pub mod joint;
pub mod waveguide;

#[cfg(feature = "python")]
mod python;

// The example in the README is compiled and run like any other.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;

pub use enclosure::{AntennaTest, Enclosure, Exposure, Opening, Requirement, Study};
pub use error::{Error, Result};
pub use leak::Leak;
pub use material::Material;
pub use parameter::{Parameters, Rebuild};
pub use probe::{LoopArrangement, LoopTest, RodTest};
pub use sheet::{Laminate, Layer};
pub use validity::Validity;
pub use wave::{PlaneWave, Polarization};
