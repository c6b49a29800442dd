//! Every integration test in one program: the library is linked once, and the tests share the cores.
//!
//! One module for each subject; `cargo test --test all joint::` runs the tests of one.

// What the library must never do is how a test fails.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod aperture;
mod architecture;
mod cavity;
mod enclosure;
mod filter;
mod hole_array;
mod honeycomb;
mod joint;
mod published;
mod sheet;
mod waveguide;
