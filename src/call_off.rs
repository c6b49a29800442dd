//! Long work that can be called off.
//!
//! Work of more than a moment takes a *watch* and asks it between pieces whether to go on. The core knows nothing of
//! signals, windows or threads: whoever calls decides what calls it off. Work that is called off returns
//! [`Error::Interrupted`], and nothing half-done.

use std::ops::ControlFlow;
use std::time::{Duration, Instant};

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

/// How long a piece of work should take: a person who presses Ctrl-C does not notice it.
const PIECE: Duration = Duration::from_millis(50);
/// Places of the first piece, whose time tells how long the next one may be.
const FIRST: usize = 512;
/// By how much a piece may be longer than the one before it.
const GROWTH: f64 = 8.0;

/// Fills `out` piece by piece, `fill(start, piece)`, and asks between two of them whether to go on.
///
/// # Errors
/// The first of `fill`; [`Error::Interrupted`].
pub fn in_pieces<T>(
    out: &mut [T],
    watch: &mut Watch<'_>,
    mut fill: impl FnMut(usize, &mut [T]) -> Result<()>,
) -> Result<()> {
    let (mut start, mut length) = (0, FIRST);
    loop {
        let end = out.len().min(start + length);
        let began = Instant::now();
        fill(start, &mut out[start..end])?;
        if end == out.len() {
            return Ok(());
        }
        go_on(watch)?;
        let slower = PIECE.as_secs_f64() / began.elapsed().as_secs_f64().max(1e-9);
        start = end;
        // Whole registers and cache lines; a float as large as any length is cut to it.
        length = ((length as f64 * slower.min(GROWTH)) as usize).next_multiple_of(64).max(64);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_make_up_the_whole() {
        for length in [0, 1, FIRST, FIRST + 1, 100_000] {
            let (mut out, mut asked) = (vec![0; length], 0);
            let mut watch = || {
                asked += 1;
                ControlFlow::Continue(())
            };
            in_pieces(&mut out, &mut watch, |start, piece| {
                piece.iter_mut().enumerate().for_each(|(place, value)| *value += start + place + 1);
                Ok(())
            })
            .unwrap();
            assert!(out.iter().enumerate().all(|(place, &value)| value == place + 1));
            assert_eq!(asked > 0, length > FIRST);
        }
    }

    #[test]
    fn work_that_is_called_off_stops_after_the_piece() {
        let mut filled = 0;
        let stopped = in_pieces(&mut [0; 10_000], &mut || ControlFlow::Break(()), |_, piece| {
            filled += piece.len();
            Ok(())
        });
        assert!(matches!(stopped, Err(Error::Interrupted)));
        assert_eq!(filled, FIRST);
    }
}
