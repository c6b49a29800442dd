//! Sheets: panels, films and laminates, and what a wave loses in them.

mod laminate;
mod split;

pub use laminate::{Laminate, Layer};
pub use split::LossSplit;
