//! Long work that Ctrl-C calls off.

use std::ops::ControlFlow;
use std::time::{Duration, Instant};

use pyo3::prelude::*;

use crate::call_off::Watch;

/// How often Python is asked for signals: soon enough for a person, seldom enough to cost nothing.
const EVERY: Duration = Duration::from_millis(30);

/// Does the work with the interpreter released; a signal whose handler raises (Ctrl-C) calls it off, and what was
/// raised is what the caller sees.
pub fn interruptible<T: Send>(
    py: Python<'_>,
    work: impl FnOnce(&mut Watch<'_>) -> crate::Result<T> + Send,
) -> PyResult<T> {
    let mut raised = None;
    let done = py.detach(|| {
        let mut last = Instant::now();
        work(&mut || {
            if last.elapsed() < EVERY {
                return ControlFlow::Continue(());
            }
            last = Instant::now();
            match Python::attach(|py| py.check_signals()) {
                Ok(()) => ControlFlow::Continue(()),
                Err(error) => {
                    raised = Some(error);
                    ControlFlow::Break(())
                }
            }
        })
    });
    match raised {
        Some(error) => Err(error),
        None => Ok(done?),
    }
}
