//! Named parameters: the one mechanism behind sweeps, tolerances, sizing and fault injection.
//!
//! An element describes itself once, in [`Rebuild::rebuild`]: it hands every number that defines it
//! to a [`Knobs`] and builds itself anew from what comes back. Turned with no changes the walk
//! lists the parameters; turned with changes it makes the changed element, through the same checked
//! constructor that made the first one. Nothing that turns knobs needs to know what a seam is.
//!
//! Paths are joined by dots: `vent.cell.across_flats_m`.

use std::sync::Arc;

use crate::error::{Error, Result, check};

pub use crate::domain::Domain;
pub(crate) use stillroom_derive::Element;

/// One number that defines an element.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Parameter {
    /// Where it stands, for example `vent.cell.across_flats_m`.
    pub path: String,
    /// SI unit, empty for pure numbers.
    pub unit: &'static str,
    /// Present value.
    pub value: f64,
    /// What values make sense.
    pub domain: Domain,
}

#[cfg(feature = "serde")]
impl serde::Serialize for Domain {
    fn serialize<S: serde::Serializer>(&self, to: S) -> std::result::Result<S::Ok, S::Error> {
        /// The interval as data, and as words.
        #[derive(serde::Serialize)]
        struct Written {
            #[serde(with = "crate::serial::number")]
            low: f64,
            #[serde(with = "crate::serial::number")]
            high: f64,
            is_whole: bool,
            words: String,
        }
        let words = self.to_string();
        Written { low: self.low(), high: self.high(), is_whole: self.is_whole(), words }.serialize(to)
    }
}

/// The walk over an element's parameters.
#[derive(Debug)]
pub struct Knobs<'a> {
    // None where all parameters are wanted; then nothing may be passed over.
    changes: Option<&'a [(&'a str, f64)]>,
    used: Vec<bool>,
    prefix: String,
    seen: Vec<Parameter>,
    // Paths of numbers that could be there and are not.
    absent: Vec<String>,
}

impl<'a> Knobs<'a> {
    fn new(changes: Option<&'a [(&'a str, f64)]>) -> Self {
        Self {
            changes,
            used: vec![false; changes.map_or(0, <[_]>::len)],
            prefix: String::new(),
            seen: Vec::new(),
            absent: Vec::new(),
        }
    }

    /// Shows one number and takes back the value to build with.
    pub fn value(&mut self, name: &str, unit: &'static str, current: f64, domain: Domain) -> f64 {
        let path = self.path(name);
        let value = self.take(&path).unwrap_or(current);
        self.seen.push(Parameter { path, unit, value: current, domain });
        value
    }

    /// Shows a whole number (at least `least`) and takes back the one to build with.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] where the change is not a whole number or is too small.
    pub fn count(&mut self, name: &str, current: usize, least: usize) -> Result<usize> {
        let value = self.value(name, "", current as f64, Domain::at_least(least as f64).whole());
        check::count(name, value, least)
    }

    /// Shows one number if it is there, and takes back the one to build with: a change brings in what was absent.
    pub fn optional(&mut self, name: &str, unit: &'static str, current: Option<f64>, domain: Domain) -> Option<f64> {
        if current.is_some() {
            return current.map(|value| self.value(name, unit, value, domain));
        }
        let path = self.path(name);
        let change = self.take(&path);
        self.absent.push(path);
        change
    }

    /// Shows a whole number and takes back the one to build with.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] where the change is not in the domain, which is one of whole numbers.
    pub fn whole(&mut self, name: &str, current: usize, domain: Domain) -> Result<usize> {
        let value = self.value(name, "", current as f64, domain);
        check::domain(domain, name, "", value).map(|value| value as usize)
    }

    /// Walks into a part. One that no change is meant for stays as it is, with all that it has worked out.
    ///
    /// # Errors
    /// Those of the part, told from here.
    pub fn part<T: Rebuild + Clone>(&mut self, name: &str, part: &T) -> Result<T> {
        if self.is_meant(name) { self.enter(name, |knobs| part.rebuild(knobs)) } else { Ok(part.clone()) }
    }

    /// Whether this walk has anything to do below a name: it lists, or a change leads there.
    fn is_meant(&self, name: &str) -> bool {
        let path = self.path(name);
        let leads_there =
            |(wanted, _): &(&str, f64)| wanted.strip_prefix(&path).is_some_and(|rest| rest.starts_with('.'));
        self.changes.is_none_or(|changes| changes.iter().any(leads_there))
    }

    /// Walks into a part: its parameters appear as `name.…`, and so do its errors.
    ///
    /// # Errors
    /// Those of the part, told from here.
    pub fn enter<T>(&mut self, name: &str, walk: impl FnOnce(&mut Self) -> Result<T>) -> Result<T> {
        let outer = std::mem::take(&mut self.prefix);
        self.prefix = if outer.is_empty() { name.to_owned() } else { format!("{outer}.{name}") };
        let part = walk(self).map_err(|error| error.within(name));
        self.prefix = outer;
        part
    }

    /// Walks into a part behind a pointer. One that no change is meant for stays as it is, with all that it has worked out.
    ///
    /// # Errors
    /// Those of the part, told from here.
    pub fn enter_shared<T: ?Sized>(
        &mut self,
        name: &str,
        part: &Arc<T>,
        walk: impl FnOnce(&mut Self) -> Result<Arc<T>>,
    ) -> Result<Arc<T>> {
        if self.is_meant(name) { self.enter(name, walk) } else { Ok(Arc::clone(part)) }
    }

    /// The change for a path, if there is one.
    fn take(&mut self, path: &str) -> Option<f64> {
        let mut change = None;
        for (used, &(wanted, new)) in self.used.iter_mut().zip(self.changes.unwrap_or_default()) {
            if wanted == path {
                change = Some(new);
                *used = true;
            }
        }
        change
    }

    fn path(&self, name: &str) -> String {
        if self.prefix.is_empty() { name.to_owned() } else { format!("{}.{name}", self.prefix) }
    }

    /// A change that nothing took up.
    fn unused(&self) -> Option<&'a str> {
        let place = self.used.iter().position(|used| !used)?;
        self.changes.and_then(|changes| changes.get(place)).map(|(path, _)| *path)
    }
}

/// An element that can be built anew from its named numbers.
pub trait Rebuild: Sized {
    /// Hands every defining number to `knobs` and builds a new element from what comes back.
    ///
    /// # Errors
    /// Those of the element's constructor, if a changed value is outside its domain.
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self>;
}

impl<T: Rebuild> Rebuild for Option<T> {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.as_ref().map(|part| part.rebuild(knobs)).transpose()
    }
}

/// Parts of a list are numbered from zero: `rows.0`, `rows.1`.
impl<T: Rebuild + Clone> Rebuild for Vec<T> {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        self.iter().enumerate().map(|(number, part)| knobs.part(&number.to_string(), part)).collect()
    }
}

/// Reading and changing by name; there for every [`Rebuild`].
pub trait Parameters: Rebuild {
    /// All numbers that define this element, in the order of its constructor.
    ///
    /// # Errors
    /// [`Error::DuplicateName`] where two numbers share a path, and whatever an element has against its own numbers.
    fn parameters(&self) -> Result<Vec<Parameter>> {
        list(|knobs| self.rebuild(knobs).map(drop))
    }

    /// The value of one parameter.
    ///
    /// # Errors
    /// [`Error::UnknownParameter`] with the paths that exist.
    fn parameter(&self, path: &str) -> Result<f64> {
        find(&self.parameters()?, path)
    }

    /// The same element with one parameter changed.
    ///
    /// # Errors
    /// [`Error::UnknownParameter`], or the constructor's error for a value outside its domain.
    fn with_parameter(&self, path: &str, value: f64) -> Result<Self> {
        self.with_parameters(&[(path, value)])
    }

    /// The same element with several parameters changed at once.
    ///
    /// # Errors
    /// [`Error::UnknownParameter`], or the constructor's error for a value outside its domain.
    fn with_parameters(&self, changes: &[(&str, f64)]) -> Result<Self> {
        change(changes, |knobs| self.rebuild(knobs))
    }
}

impl<T: Rebuild> Parameters for T {}

/// Lists what a walk shows. For elements behind a pointer, where [`Parameters`] cannot be used.
///
/// # Errors
/// [`Error::DuplicateName`] where two numbers share a path; those of the walk.
pub fn list(walk: impl FnOnce(&mut Knobs<'_>) -> Result<()>) -> Result<Vec<Parameter>> {
    walked(walk).map(|knobs| knobs.seen)
}

fn walked<'a>(walk: impl FnOnce(&mut Knobs<'_>) -> Result<()>) -> Result<Knobs<'a>> {
    let mut knobs = Knobs::new(None);
    walk(&mut knobs)?;
    let mut paths: Vec<&str> = knobs.seen.iter().map(|parameter| parameter.path.as_str()).collect();
    paths.sort_unstable();
    match paths.windows(2).find(|pair| pair[0] == pair[1]) {
        Some(pair) => Err(Error::DuplicateName { kind: "parameter".into(), name: pair[0].to_owned() }),
        None => Ok(knobs),
    }
}

/// Runs a walk with changes, and sees to it that each change was taken up.
///
/// # Errors
/// Those of the walk; [`Error::UnknownParameter`] for a change that nothing took up.
pub fn change<T>(changes: &[(&str, f64)], walk: impl Fn(&mut Knobs<'_>) -> Result<T>) -> Result<T> {
    let mut knobs = Knobs::new(Some(changes));
    let rebuilt = walk(&mut knobs)?;
    match knobs.unused() {
        None => Ok(rebuilt),
        Some(path) => {
            let known = walked(|knobs| walk(knobs).map(drop))?;
            Err(unknown(path, known.seen.into_iter().map(|parameter| parameter.path).chain(known.absent).collect()))
        }
    }
}

/// Looks up one value in a list of parameters.
///
/// # Errors
/// [`Error::UnknownParameter`] with the paths that exist.
pub fn find(parameters: &[Parameter], path: &str) -> Result<f64> {
    let found = parameters.iter().find(|parameter| parameter.path == path);
    let known = || parameters.iter().map(|parameter| parameter.path.clone()).collect();
    found.map(|parameter| parameter.value).ok_or_else(|| unknown(path, known()))
}

/// The paths that exist, those first that look most like the one given.
fn unknown(path: &str, mut known: Vec<String>) -> Error {
    known.sort_by(|one, other| likeness(path, other).total_cmp(&likeness(path, one)));
    Error::UnknownParameter { path: path.to_owned(), known }
}

/// Pairs of neighbouring characters that two names share, over those that they have: Dice's coefficient, from 0 to 1.
fn likeness(one: &str, other: &str) -> f64 {
    let pairs = |text: &str| -> Vec<[u8; 2]> { text.as_bytes().windows(2).map(|pair| [pair[0], pair[1]]).collect() };
    let (wanted, mut left) = (pairs(one), pairs(other));
    let all = (wanted.len() + left.len()).max(1);
    let shared =
        wanted.iter().filter(|pair| left.iter().position(|at| at == *pair).map(|at| left.swap_remove(at)).is_some());
    2.0 * shared.count() as f64 / all as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, Clone, PartialEq)]
    struct Cell {
        width_m: f64,
    }
    impl Cell {
        fn new(width_m: f64) -> Result<Self> {
            Ok(Self { width_m: check::positive("width_m", "m", width_m)? })
        }
    }
    impl Rebuild for Cell {
        fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
            Self::new(knobs.value("width_m", "m", self.width_m, Domain::POSITIVE))
        }
    }

    #[derive(Debug, Clone, PartialEq)]
    struct Panel {
        cell: Cell,
        rows: usize,
    }
    impl Rebuild for Panel {
        fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
            Ok(Self {
                cell: knobs.enter("cell", |knobs| self.cell.rebuild(knobs))?,
                rows: knobs.count("rows", self.rows, 1)?,
            })
        }
    }

    fn panel() -> Panel {
        Panel { cell: Cell { width_m: 0.01 }, rows: 4 }
    }

    #[test]
    fn one_walk_lists_and_changes() {
        let paths: Vec<_> = panel().parameters().unwrap().into_iter().map(|p| p.path).collect();
        assert_eq!(paths, ["cell.width_m", "rows"]);
        let changed = panel().with_parameters(&[("cell.width_m", 0.02), ("rows", 5.0)]).unwrap();
        assert_eq!(changed, Panel { cell: Cell { width_m: 0.02 }, rows: 5 });
        assert_eq!(panel().parameter("rows").unwrap(), 4.0);
    }

    #[test]
    fn a_part_that_no_change_is_meant_for_stays_the_same_object() {
        let (cell, beside) = (Arc::new(Cell { width_m: 0.01 }), Arc::new(Cell { width_m: 0.02 }));
        let walk = |knobs: &mut Knobs<'_>| -> Result<[Arc<Cell>; 2]> {
            Ok([
                knobs.enter_shared("cell", &cell, |knobs| cell.rebuild(knobs).map(Arc::new))?,
                knobs.enter_shared("cells", &beside, |knobs| beside.rebuild(knobs).map(Arc::new))?,
            ])
        };
        let [changed, kept] = change(&[("cell.width_m", 0.03)], walk).unwrap();
        assert!(changed.width_m == 0.03 && Arc::ptr_eq(&kept, &beside));
        let paths: Vec<_> = list(|knobs| walk(knobs).map(drop)).unwrap().into_iter().map(|p| p.path).collect();
        assert_eq!(paths, ["cell.width_m", "cells.width_m"]);
        // What is not there is told with all that is, passed over or not.
        let error = change(&[("cell.width_m", 0.03), ("cells.depth_m", 1.0)], walk).unwrap_err().to_string();
        assert_eq!(error, "unknown parameter \"cells.depth_m\": known are cells.width_m, cell.width_m");
    }

    #[test]
    fn faults_are_told_with_their_path() {
        assert_eq!(
            panel().with_parameter("cell.width_m", -1.0).unwrap_err().to_string(),
            "`cell.width_m` = -1 m: must be positive and finite"
        );
        assert_eq!(
            panel().with_parameter("cell.depth_m", 1.0).unwrap_err().to_string(),
            "unknown parameter \"cell.depth_m\": known are cell.width_m, rows"
        );
        assert_eq!(
            panel().with_parameter("row", 1.0).unwrap_err().to_string(),
            "unknown parameter \"row\": known are rows, cell.width_m"
        );
        assert!(panel().with_parameter("rows", 1.5).is_err());
    }
}
