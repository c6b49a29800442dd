//! Rooms, openings and windows in files.
//!
//! The names of a file are the paths of the parameters: `interior.length_m`, `wall.layers.0.thickness_m`,
//! `hatch.count`. Every element has its `kind` (see [`register_leak`](super::register_leak)); all values pass their
//! constructors on the way in, and what is wrong is told with its path. Openings stand in the order of the file.

use std::fmt;
use std::sync::Arc;

use serde::de::{Error as _, MapAccess, Visitor};
use serde::ser::{Error as _, SerializeMap};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::Value;

use super::kinds::{Fields, load_leak, load_sheet, save_leak, save_sheet, within};
use super::opening::COUNT;
use super::{Enclosure, INTERIOR, Opening, WALL};
use crate::leak::Panel;

const NAME: &str = "name";

type Told<T> = Result<T, String>;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Interior {
    length_m: f64,
    width_m: f64,
    height_m: f64,
}

/// The fields of an opening beside its name.
fn opening_fields(opening: &Opening) -> Told<Fields> {
    let mut fields = save_leak(&**opening.leak()).map_err(|told| within(opening.name(), told))?;
    if opening.count() != 1 && fields.insert(COUNT.to_owned(), opening.count().into()).is_some() {
        return Err(format!("`{}.{COUNT}` is a field of the leak itself", opening.name()));
    }
    Ok(fields)
}

fn opening_of(name: &str, mut fields: Fields) -> Told<Opening> {
    let count = match fields.remove(COUNT) {
        None => 1,
        Some(value) => match value.as_u64().and_then(|count| usize::try_from(count).ok()) {
            Some(count) => count,
            None => return Err(format!("`{name}.{COUNT}` = {value}: must be a whole number, 1 or more")),
        },
    };
    let leak = load_leak(fields).map_err(|told| within(name, told))?;
    Opening::shared(name, leak).and_then(|opening| opening.times(count)).map_err(|error| error.to_string())
}

fn fields(path: &str, value: Value) -> Told<Fields> {
    match value {
        Value::Object(fields) => Ok(fields),
        other => Err(format!("`{path}` = {other}: must be named fields")),
    }
}

impl Serialize for Enclosure {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let [length_m, width_m, height_m] = self.interior_m();
        let mut map = to.serialize_map(Some(2 + self.openings().len()))?;
        map.serialize_entry(INTERIOR, &Interior { length_m, width_m, height_m })?;
        let wall = save_sheet(&**self.wall().sheet()).map_err(|told| S::Error::custom(within(WALL, told)))?;
        map.serialize_entry(WALL, &wall)?;
        for opening in self.openings() {
            map.serialize_entry(opening.name(), &opening_fields(opening).map_err(S::Error::custom)?)?;
        }
        map.end()
    }
}

struct Room;

impl<'de> Visitor<'de> for Room {
    type Value = Enclosure;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a room: `{INTERIOR}`, `{WALL}` and its openings by name")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Enclosure, A::Error> {
        let (mut interior, mut wall, mut openings) = (None, None, Vec::new());
        while let Some(name) = map.next_key::<String>()? {
            let told = |told: String| A::Error::custom(told);
            let fields = fields(&name, map.next_value()?).map_err(told)?;
            match name.as_str() {
                INTERIOR if interior.is_none() => {
                    let sides = serde_json::from_value::<Interior>(Value::Object(fields));
                    interior = Some(sides.map_err(|error| told(within(INTERIOR, error.to_string())))?);
                }
                WALL if wall.is_none() => {
                    wall = Some(load_sheet(fields).map_err(|error| told(within(WALL, error)))?);
                }
                INTERIOR | WALL => return Err(told(format!("`{name}` is given twice"))),
                _ => openings.push(opening_of(&name, fields).map_err(told)?),
            }
        }
        let Interior { length_m, width_m, height_m } = interior.ok_or_else(|| A::Error::missing_field(INTERIOR))?;
        let wall = wall.ok_or_else(|| A::Error::missing_field(WALL))?;
        Enclosure::new([length_m, width_m, height_m], wall, openings).map_err(A::Error::custom)
    }
}

impl<'de> Deserialize<'de> for Enclosure {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(Room)
    }
}

impl Serialize for Opening {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let fields = opening_fields(self).map_err(S::Error::custom)?;
        if fields.contains_key(NAME) {
            return Err(S::Error::custom(format!("`{}.{NAME}` is a field of the leak itself", self.name())));
        }
        let mut map = to.serialize_map(Some(1 + fields.len()))?;
        map.serialize_entry(NAME, self.name())?;
        fields.iter().try_for_each(|(name, value)| map.serialize_entry(name, value))?;
        map.end()
    }
}

impl<'de> Deserialize<'de> for Opening {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut fields = Fields::deserialize(from)?;
        let name = fields.remove(NAME).ok_or_else(|| D::Error::missing_field(NAME))?;
        let name = name.as_str().ok_or_else(|| D::Error::custom(format!("`{NAME}` = {name}: must be text")))?;
        opening_of(name, fields).map_err(D::Error::custom)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PanelRecord {
    sheet: Fields,
    area_m2: f64,
}

impl Serialize for Panel {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let sheet = save_sheet(&**self.sheet()).map_err(|told| S::Error::custom(within("sheet", told)))?;
        PanelRecord { sheet, area_m2: self.area_m2() }.serialize(to)
    }
}

impl<'de> Deserialize<'de> for Panel {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let PanelRecord { sheet, area_m2 } = PanelRecord::deserialize(from)?;
        let sheet: Arc<_> = load_sheet(sheet).map_err(|told| D::Error::custom(within("sheet", told)))?;
        Self::new(sheet, area_m2).map_err(D::Error::custom)
    }
}
