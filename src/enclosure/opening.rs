//! Openings: named leaks of a room.

use std::sync::Arc;

use super::{INTERIOR, WALL};
use crate::error::{Error, Result, check};
use crate::leak::Leak;
use crate::parameter;

/// An opening of the enclosure: a named leak, present once or several times.
///
/// ```
/// use stillroom::{Opening, leak::TabulatedLeak};
/// let hatch = TabulatedLeak::new(vec![1e6, 1e9], vec![1e-12, 1e-9])?;
/// let hatches = Opening::new("hatch", hatch)?.times(2)?;
/// assert_eq!((hatches.name(), hatches.count()), ("hatch", 2));
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Opening {
    name: String,
    leak: Arc<dyn Leak>,
    count: usize,
}

/// Name under which the number of alike leaks stands beside their own parameters.
pub(super) const COUNT: &str = "count";

impl Opening {
    /// A leak under a name of the caller's choice, present once.
    ///
    /// The name is part of parameter paths and so must not be empty or contain a dot; `wall` and
    /// `interior` are taken.
    ///
    /// # Errors
    /// For such a name; [`Error::DuplicateName`] for a leak two of whose numbers share a path, or that has a `count` of
    /// its own: that path is the opening's.
    pub fn new(name: impl Into<String>, leak: impl Leak + 'static) -> Result<Self> {
        Self::shared(name, Arc::new(leak))
    }

    /// The same of a leak that is behind a pointer already, and may be part of other rooms.
    ///
    /// # Errors
    /// Those of [`new`](Self::new).
    pub fn shared(name: impl Into<String>, leak: Arc<dyn Leak>) -> Result<Self> {
        let name = name.into();
        if name.is_empty() || name.contains('.') || name == WALL || name == INTERIOR {
            return Err(Error::Reserved { kind: "leak".into(), name });
        }
        let twice = |path: &str| Error::DuplicateName { kind: "parameter".into(), name: format!("{name}.{path}") };
        let parameters = parameter::list(|knobs| leak.rebuild_boxed(knobs).map(drop)).map_err(|error| match error {
            Error::DuplicateName { name: path, .. } => twice(&path),
            other => other.within(&name),
        })?;
        if parameters.iter().any(|parameter| parameter.path == COUNT) {
            return Err(twice(COUNT));
        }
        Ok(Self { name, leak, count: 1 })
    }

    /// The same, present `count` times.
    ///
    /// # Errors
    /// For a count of zero.
    pub fn times(self, count: usize) -> Result<Self> {
        check::count(COUNT, count as f64, 1).map_err(|error| error.within(&self.name))?;
        Ok(Self { count, ..self })
    }

    /// The name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// One of the leaks; all are alike.
    #[must_use]
    pub fn leak(&self) -> &Arc<dyn Leak> {
        &self.leak
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }

    /// The same opening with what a walk over its parameters brings back.
    pub(super) fn rebuilt(&self, knobs: &mut parameter::Knobs<'_>) -> Result<Self> {
        let mut count = self.count;
        let leak = knobs.enter_shared(&self.name, &self.leak, |knobs| {
            let leak = self.leak.rebuild_boxed(knobs)?;
            count = knobs.count(COUNT, count, 1)?;
            Ok(leak)
        })?;
        Ok(Self { name: self.name.clone(), leak, count })
    }
}

impl PartialEq for Opening {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name && self.count == other.count && (*self.leak).equals((*other.leak).as_any())
    }
}
