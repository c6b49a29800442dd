//! Checks against numbers that others have published, each beside its source.
//!
//! Marks: "read" is seen on the page named; "from memory" is recalled and not seen; "derived" is
//! computed by hand or by another program from a published formula.

// One module for each subject.
mod aperture;
mod cavity;
mod filter;
mod honeycomb;
mod joint;
mod material;
mod sheet;
mod waveguide;
