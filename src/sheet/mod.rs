//! Sheets: panels, films and laminates, and what a wave loses in them.

mod laminate;
mod mesh;
mod near_field;
mod perforated;
mod round_layer;
mod shell;
mod split;

pub use laminate::{Laminate, Layer};
pub use mesh::WireMesh;
pub use near_field::{HandbookField, NearSource, handbook_reflection_db};
pub use perforated::{HolePattern, PerforatedSheet, perforated_rule_db};
pub use shell::{ClosedShell, RoomEstimate, ShellShape, room_in_uniform_field};
pub use split::LossSplit;
