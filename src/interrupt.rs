//! Long work that can be called off.
//!
//! Work of more than a moment takes a *watch* and asks it between pieces whether to go on. The core knows nothing of
//! signals, windows or threads: whoever calls decides what calls it off. Work that is called off returns
//! [`Error::Interrupted`], and nothing half-done.

use std::ops::ControlFlow;

use crate::error::{Error, Result};

/// Asked between pieces of work: `Continue` to go on, `Break` to call it off. It is asked often and should answer in
/// well under a microsecond.
pub type Watch<'a> = dyn FnMut() -> ControlFlow<()> + 'a;

/// The watch that never calls off.
pub fn unwatched() -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Asks, between two pieces of work.
pub(crate) fn go_on(watch: &mut Watch<'_>) -> Result<()> {
    match watch() {
        ControlFlow::Continue(()) => Ok(()),
        ControlFlow::Break(()) => Err(Error::Interrupted),
    }
}
