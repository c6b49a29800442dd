//! Kinds of leaks and of sheets by name: how an element behind a pointer is kept in a file.
//!
//! In a file an element is its own record and the tag `kind`, in snake_case, that tells its type. The kinds of this
//! library are known; a program that has leaks or sheets of its own registers them once, before it reads or writes.

use std::sync::{Arc, PoisonError, RwLock};

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use crate::aperture::{CircularHole, CrossSlot, EllipticHole, HoleArray, RectangularSlot, RoundedSlot};
use crate::error::{Error, Result};
use crate::filter::FilteredLine;
use crate::joint::{ContactLine, Door, GasketLine, KnifeEdge, Seam};
use crate::leak::{Leak, Panel, TabulatedLeak};
use crate::object::AnyObject;
use crate::sheet::Laminate;
use crate::wave::Sheet;
use crate::waveguide::{FoilPanel, HoneycombPanel, Tube};

/// The tag that tells the type of an element.
pub(super) const KIND: &str = "kind";

/// Fields of an element by name.
pub(super) type Fields = Map<String, Value>;

/// What is told of an element that a file cannot hold or does not hold rightly.
type Told<T> = std::result::Result<T, String>;

/// One kind of element behind pointers of type `T`.
struct Kind<T: ?Sized> {
    name: &'static str,
    /// The fields, where it is of this kind.
    save: fn(&T) -> Option<Told<Value>>,
    load: fn(Value) -> Told<Arc<T>>,
}

impl<T: ?Sized> Clone for Kind<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: ?Sized> Copy for Kind<T> {}

const fn leak<T: Leak + Serialize + DeserializeOwned + 'static>(name: &'static str) -> Kind<dyn Leak> {
    Kind { name, save: |leak| saved::<T>(leak.as_any()), load: |value| Ok(Arc::new(loaded::<T>(value)?)) }
}

const fn sheet<T: Sheet + Serialize + DeserializeOwned + 'static>(name: &'static str) -> Kind<dyn Sheet> {
    Kind { name, save: |sheet| saved::<T>(sheet.as_any()), load: |value| Ok(Arc::new(loaded::<T>(value)?)) }
}

fn saved<T: Serialize + 'static>(element: &dyn std::any::Any) -> Option<Told<Value>> {
    element.downcast_ref::<T>().map(|element| serde_json::to_value(element).map_err(|error| error.to_string()))
}

fn loaded<T: DeserializeOwned>(value: Value) -> Told<T> {
    serde_path_to_error::deserialize(value).map_err(|error| within(&path(error.path()), error.inner().to_string()))
}

/// Every leak of this library that a file can hold. Subjects in alphabetical order.
const LEAKS: &[Kind<dyn Leak>] = &[
    leak::<CircularHole>("circular_hole"),
    leak::<ContactLine>("contact_line"),
    leak::<CrossSlot>("cross_slot"),
    leak::<Door>("door"),
    leak::<EllipticHole>("elliptic_hole"),
    leak::<FilteredLine>("filtered_line"),
    leak::<FoilPanel>("foil_panel"),
    leak::<GasketLine>("gasket_line"),
    leak::<HoleArray>("hole_array"),
    leak::<HoneycombPanel>("honeycomb_panel"),
    leak::<KnifeEdge>("knife_edge"),
    leak::<Panel>("panel"),
    leak::<RectangularSlot>("rectangular_slot"),
    leak::<RoundedSlot>("rounded_slot"),
    leak::<Seam>("seam"),
    leak::<TabulatedLeak>("tabulated_leak"),
    leak::<Tube>("tube"),
];

/// Every sheet of this library that a file can hold.
const SHEETS: &[Kind<dyn Sheet>] = &[sheet::<Laminate>("laminate")];

static OTHER_LEAKS: RwLock<Vec<Kind<dyn Leak>>> = RwLock::new(Vec::new());
static OTHER_SHEETS: RwLock<Vec<Kind<dyn Sheet>>> = RwLock::new(Vec::new());

/// Makes a leak of one's own known under a `kind`, so that rooms that hold it can be kept in files.
///
/// Its record should have fields named as its parameters, and none named `kind`, `name` or `count`.
///
/// # Errors
/// [`Error::DuplicateName`] for a kind that is known already.
pub fn register_leak<T: Leak + Serialize + DeserializeOwned + 'static>(kind: &'static str) -> Result<()> {
    register(LEAKS, &OTHER_LEAKS, leak::<T>(kind))
}

/// Makes a sheet of one's own known under a `kind`, so that rooms that hold it can be kept in files.
///
/// # Errors
/// [`Error::DuplicateName`] for a kind that is known already.
pub fn register_sheet<T: Sheet + Serialize + DeserializeOwned + 'static>(kind: &'static str) -> Result<()> {
    register(SHEETS, &OTHER_SHEETS, sheet::<T>(kind))
}

fn register<T: ?Sized>(own: &[Kind<T>], others: &RwLock<Vec<Kind<T>>>, kind: Kind<T>) -> Result<()> {
    let mut others = others.write().unwrap_or_else(PoisonError::into_inner);
    if own.iter().chain(others.iter()).any(|known| known.name == kind.name) {
        return Err(Error::DuplicateName { kind: "kind".into(), name: kind.name.to_owned() });
    }
    others.push(kind);
    Ok(())
}

fn known<T: ?Sized>(own: &[Kind<T>], others: &RwLock<Vec<Kind<T>>>) -> Vec<Kind<T>> {
    let others = others.read().unwrap_or_else(PoisonError::into_inner);
    own.iter().chain(others.iter()).copied().collect()
}

/// The fields of an element behind a pointer, its kind among them.
fn save<T: ?Sized + AnyObject + std::fmt::Debug>(element: &T, known: &[Kind<T>]) -> Told<Fields> {
    let (kind, value) = known
        .iter()
        .find_map(|kind| (kind.save)(element).map(|value| (kind.name, value)))
        .ok_or_else(|| format!("{element:?} is of no registered kind"))?;
    let Value::Object(own) = value? else { return Err(format!("{kind} is not kept as named fields")) };
    let mut fields = Fields::new();
    fields.insert(KIND.to_owned(), kind.into());
    for (name, value) in own {
        if fields.contains_key(&name) {
            return Err(format!("{kind} has a field `{name}`, which tells the kind"));
        }
        fields.insert(name, value);
    }
    Ok(without_nothing(fields))
}

/// Fields that hold nothing are left out: some formats have no word for it.
fn without_nothing(fields: Fields) -> Fields {
    fn cleaned(value: Value) -> Value {
        match value {
            Value::Object(fields) => Value::Object(without_nothing(fields)),
            Value::Array(values) => values.into_iter().map(cleaned).collect(),
            other => other,
        }
    }
    fields.into_iter().filter(|(_, value)| !value.is_null()).map(|(name, value)| (name, cleaned(value))).collect()
}

fn load<T: ?Sized>(mut fields: Fields, known: &[Kind<T>]) -> Told<Arc<T>> {
    let names = || known.iter().map(|kind| kind.name).collect::<Vec<_>>().join(", ");
    let kind = match fields.remove(KIND) {
        Some(Value::String(kind)) => kind,
        Some(found) => return Err(format!("`{KIND}` = {found}: must be one of {}", names())),
        None => return Err(format!("`{KIND}` is missing: must be one of {}", names())),
    };
    match known.iter().find(|known| known.name == kind) {
        Some(known) => (known.load)(Value::Object(fields)),
        None => Err(format!("`{KIND}` = {kind:?}: must be one of {}", names())),
    }
}

pub(super) fn save_leak(leak: &(dyn Leak + 'static)) -> Told<Fields> {
    save(leak, &known(LEAKS, &OTHER_LEAKS))
}

pub(super) fn load_leak(fields: Fields) -> Told<Arc<dyn Leak>> {
    load(fields, &known(LEAKS, &OTHER_LEAKS))
}

pub(super) fn save_sheet(sheet: &(dyn Sheet + 'static)) -> Told<Fields> {
    save(sheet, &known(SHEETS, &OTHER_SHEETS))
}

pub(super) fn load_sheet(fields: Fields) -> Told<Arc<dyn Sheet>> {
    load(fields, &known(SHEETS, &OTHER_SHEETS))
}

/// A path as parameters have it: `layers.0`, not `layers[0]`.
fn path(path: &serde_path_to_error::Path) -> String {
    use serde_path_to_error::Segment;
    let parts = path.iter().filter_map(|segment| match segment {
        Segment::Seq { index } => Some(index.to_string()),
        Segment::Map { key } => Some(key.clone()),
        Segment::Enum { .. } | Segment::Unknown => None,
    });
    parts.collect::<Vec<_>>().join(".")
}

/// A fault told from one level further out: the number that it names first gets the path.
pub(super) fn within(outer: &str, told: String) -> String {
    match told.strip_prefix('`') {
        _ if outer.is_empty() => told,
        Some(rest) => format!("`{outer}.{rest}"),
        None => format!("`{outer}`: {told}"),
    }
}
