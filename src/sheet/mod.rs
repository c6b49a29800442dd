//! Sheets: panels, films and laminates, and what a wave loses in them.

mod fabric;
mod galvanised;
mod laminate;
mod mesh;
mod near_field;
mod perforated;
mod roughness;
mod round_layer;
mod shell;
mod sizing;
mod split;

pub use fabric::Fabric;
pub use galvanised::{Z275_ZINC_M, galvanised_steel};
pub use laminate::{Laminate, Layer};
pub use mesh::WireMesh;
pub use near_field::{HandbookField, NearSource, handbook_reflection_db};
pub use perforated::{HolePattern, PerforatedSheet, perforated_rule_db};
pub use roughness::{RoughnessModel, rough_surface_resistance_ohm, roughness_factor, roughness_validity};
pub use shell::{ClosedShell, RoomEstimate, ShellShape, room_in_uniform_field, room_validity};
pub use sizing::{Prefer, Sizing, SizingTask, size_laminate};
pub use split::LossSplit;
