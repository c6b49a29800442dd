//! Tables against frequency: read from separated text, joined in ln f.
//!
//! The text has a heading with the names of its columns, in any order and among others; without a
//! heading the first columns are taken in their order. Empty lines and lines that start with `#` are
//! left out. **One separator parts the fields of the whole text, and the heading tells which**: a tab,
//! a semicolon or a comma, the first of these that finds the columns asked for (without a heading, the
//! first that is there). Numbers have a decimal point. What does not follow this, a decimal comma or a
//! row with more fields than the heading among them, is an error with its line and column.

use crate::error::{Error, Result};

/// Separators, in the order in which they are looked for.
const SEPARATORS: [char; 3] = ['\t', ';', ','];

/// What a table holds.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Columns<'a> {
    /// What it is, for the text of errors.
    pub what: &'static str,
    /// Names of the columns that it must have; the first is the frequency.
    pub required: &'a [&'static str],
    /// Names of those that it may have, found by their heading only.
    pub optional: &'a [&'static str],
}

/// How the fields of a text are arranged.
struct Layout {
    separator: char,
    /// Where each column stands, required ones first.
    places: Vec<Option<usize>>,
    /// Fields in a row.
    width: usize,
}

impl Columns<'_> {
    /// The columns, required ones first; an optional one that is not there is empty.
    ///
    /// `accept` sees the required fields of each row and says what it misses; that frequencies are
    /// positive and increase is seen to here.
    ///
    /// # Errors
    /// [`Error::Parse`] with line and column for a missing column or field, a surplus field, a field that is no
    /// finite number, a frequency out of order, or what `accept` refuses.
    pub fn read(
        &self,
        text: &str,
        accept: impl Fn(&[f64]) -> std::result::Result<(), &'static str>,
    ) -> Result<Vec<Vec<f64>>> {
        let mut columns = vec![Vec::new(); self.required.len() + self.optional.len()];
        let mut layout: Option<Layout> = None;
        // Some programs put a mark of byte order at the beginning.
        for (index, text) in text.trim_start_matches('\u{feff}').lines().enumerate() {
            if text.trim().is_empty() || text.trim_start().starts_with('#') {
                continue;
            }
            let line = index + 1;
            let layout = match &layout {
                Some(layout) => layout,
                None => {
                    let (found, heading) = self.layout(text).ok_or_else(|| {
                        self.fault(line, text, format!("a heading with {}, or numbers", self.required.join(" and ")))
                    })?;
                    let found = layout.insert(found);
                    if heading {
                        continue;
                    }
                    found
                }
            };
            let row = self.row(line, text, layout)?;
            if row[0] <= 0.0 || columns[0].last().is_some_and(|&last| row[0] <= last) {
                return Err(self.fault(line, text, "a positive frequency above the one before it".to_owned()));
            }
            accept(&row[..self.required.len()]).map_err(|missed| self.fault(line, text, missed.to_owned()))?;
            columns.iter_mut().zip(row).for_each(|(column, value)| column.push(value));
        }
        Ok(columns)
    }

    /// The numbers of one line, in the order of the columns.
    fn row(&self, line: usize, text: &str, layout: &Layout) -> Result<Vec<f64>> {
        let fields = split(text, layout.separator);
        // A separator at the end of a line, as spreadsheets leave it, adds no field.
        if let Some((place, surplus)) =
            fields.iter().enumerate().skip(layout.width).find(|(_, field)| !field.is_empty())
        {
            let expected = format!("{} fields separated by {:?}", layout.width, layout.separator);
            return Err(self.fault_in(line, place, surplus, expected));
        }
        let mut row = Vec::with_capacity(layout.places.len());
        for (place, name) in layout.places.iter().zip(self.required.iter().chain(self.optional)) {
            let Some(place) = *place else { break };
            let field = fields.get(place).map_or("", |field| field);
            match field.parse::<f64>() {
                Ok(value) if value.is_finite() => row.push(value),
                _ => {
                    let point = if field.contains(',') { ", with a decimal point" } else { "" };
                    return Err(self.fault_in(line, place, field, format!("a finite number for {name}{point}")));
                }
            }
        }
        Ok(row)
    }

    /// How the fields are arranged, by the first line, and whether that line is a heading.
    fn layout(&self, text: &str) -> Option<(Layout, bool)> {
        let heading = SEPARATORS.into_iter().find_map(|separator| {
            let fields = split(text, separator);
            let place = |name: &&str| fields.iter().position(|field| field.eq_ignore_ascii_case(name));
            let places: Vec<Option<usize>> = self.required.iter().chain(self.optional).map(place).collect();
            let found = places[..self.required.len()].iter().all(Option::is_some);
            found.then_some(Layout { separator, places, width: fields.len() })
        });
        if let Some(heading) = heading {
            return Some((heading, true));
        }
        let separator = SEPARATORS.into_iter().find(|&separator| text.contains(separator))?;
        let first = split(text, separator).into_iter().next()?;
        let number = first.chars().all(|c| c.is_ascii_digit() || "+-.,eE".contains(c)) && !first.is_empty();
        let (required, optional) = (self.required.len(), self.optional.len());
        let places = (0..required).map(Some).chain(std::iter::repeat_n(None, optional)).collect();
        number.then_some((Layout { separator, places, width: required }, false))
    }

    /// A fault of a whole line.
    pub fn fault(&self, line: usize, found: &str, expected: String) -> Error {
        Error::Parse { what: self.what.into(), line, column: None, found: shortened(found), expected }
    }

    fn fault_in(&self, line: usize, place: usize, found: &str, expected: String) -> Error {
        Error::Parse { what: self.what.into(), line, column: Some(place + 1), found: shortened(found), expected }
    }
}

fn shortened(text: &str) -> String {
    text.trim().chars().take(80).collect()
}

/// The fields of a line, without the blanks and the quotes around them; a separator inside quotes is text.
fn split(line: &str, separator: char) -> Vec<&str> {
    let mut quoted = false;
    line.split(|c: char| {
        quoted ^= c == '"';
        c == separator && !quoted
    })
    .map(|field| field.trim().trim_matches('"').trim())
    .collect()
}

/// The text of a file: UTF-8 or UTF-16, by its mark of byte order where it has one; of any other coding what is plain
/// ASCII in it.
#[cfg(any(feature = "python", test))]
pub(crate) fn decode(bytes: &[u8]) -> std::borrow::Cow<'_, str> {
    let wide = |unit: fn([u8; 2]) -> u16| {
        let units: Vec<u16> = bytes[2..].chunks_exact(2).map(|pair| unit([pair[0], pair[1]])).collect();
        std::borrow::Cow::Owned(String::from_utf16_lossy(&units))
    };
    match bytes {
        [0xff, 0xfe, ..] => wide(u16::from_le_bytes),
        [0xfe, 0xff, ..] => wide(u16::from_be_bytes),
        _ => String::from_utf8_lossy(bytes),
    }
}

/// Two rows of a table that a frequency lies between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Between {
    /// The row at or below it; beyond an end, the row at that end.
    pub low: usize,
    /// The row above it, or the same.
    pub high: usize,
    /// The way from the one to the other in ln f, from 0 to 1.
    pub share: f64,
}

impl Between {
    /// By the table's frequencies, increasing and at least one. Beyond both ends the row there is held.
    pub fn new(table_hz: &[f64], frequency_hz: f64) -> Self {
        let last = table_hz.len() - 1;
        match table_hz.partition_point(|&f| f <= frequency_hz) {
            0 => Self { low: 0, high: 0, share: 0.0 },
            above if above > last => Self { low: last, high: last, share: 0.0 },
            high => {
                let low = high - 1;
                Self { low, high, share: (frequency_hz / table_hz[low]).ln() / (table_hz[high] / table_hz[low]).ln() }
            }
        }
    }

    /// The value between those of the two rows.
    pub fn join(&self, value: impl Fn(usize) -> f64) -> f64 {
        value(self.low) * (1.0 - self.share) + value(self.high) * self.share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLUMNS: Columns<'_> = Columns { what: "table", required: &["f", "z"], optional: &["phase"] };

    fn read(text: &str) -> Result<Vec<Vec<f64>>> {
        COLUMNS.read(text, |row| if row[1] > 0.0 { Ok(()) } else { Err("a positive z") })
    }

    #[test]
    fn columns_by_name_or_in_order() {
        assert_eq!(read("Phase;F;z\n90;1;2\n").unwrap(), [vec![1.0], vec![2.0], vec![90.0]]);
        assert_eq!(read("1\t2\n3\t4\n").unwrap(), [vec![1.0, 3.0], vec![2.0, 4.0], Vec::new()]);
        assert!(read("# only words\n").unwrap().iter().all(Vec::is_empty));
    }

    #[test]
    fn the_heading_tells_the_separator() {
        // A mark of byte order, tabs, a comma in the name of a column beside, quotes, a separator at the end.
        let expected = [vec![1.0, 3.0], vec![2.0, 4.0], Vec::new()];
        assert_eq!(read("\u{feff}f\tz\tnote, by hand\n1\t2\ta, b\n3\t4\t\n").unwrap(), expected);
        assert_eq!(read("f,\"of, what\",z\r\n1,\"x, y\",2,\r\n3,,\"4\"\r\n").unwrap(), expected);
        assert_eq!(read("f;z\n1;2;\n3;4\n").unwrap(), expected);
    }

    /// Whatever could be read in two ways is refused where it stands.
    #[test]
    fn decimal_commas_and_surplus_fields_are_faults() {
        for (text, place, what) in [
            ("f;z\n1e5;1,5e-5\n", (2, Some(2)), "with a decimal point"),
            ("1,5e4;20,5\n", (1, Some(1)), "with a decimal point"),
            ("1e5;1,5e-5\n", (1, Some(2)), "with a decimal point"),
            ("f,z\n1,5,2\n", (2, Some(3)), "2 fields separated by ','"),
            ("1,2\n3,4,5\n", (2, Some(3)), "2 fields separated by ','"),
            ("f\tz\n1;2\n", (2, Some(1)), "a finite number for f"),
            ("f;z\n1,2\n", (2, Some(1)), "a finite number for f"),
            ("f,z\n1.000,5;2\n", (2, Some(2)), "a finite number for z"),
        ] {
            match read(text).unwrap_err() {
                Error::Parse { line, column, expected, .. } => {
                    assert_eq!((line, column), place, "{text}");
                    assert!(expected.contains(what), "{text}: {expected}");
                }
                other => panic!("{other}"),
            }
        }
    }

    #[test]
    fn files_of_several_codings_are_text() {
        assert_eq!(decode(b"\xff\xfef\0,\0"), "f,");
        assert_eq!(decode(b"\xfe\xff\0f\0,"), "f,");
        assert_eq!(decode(b"\xef\xbb\xbff,z"), "\u{feff}f,z");
        assert!(decode(b"f,z \xb5V\n1,2").ends_with("\n1,2"));
    }

    #[test]
    fn faults_are_told_by_line() {
        for (text, place, what) in [
            ("1,2\n3,-4\n", 2, "a positive z"),
            ("1,2\n# again\n1,2\n", 3, "above the one before"),
            ("f,phase\n1,2\n", 1, "a heading with f and z"),
            ("f,z,phase\n1,2\n", 2, "a finite number for phase"),
        ] {
            match read(text).unwrap_err() {
                Error::Parse { line, expected, .. } => assert!(line == place && expected.contains(what), "{expected}"),
                other => panic!("{other}"),
            }
        }
    }

    #[test]
    fn between_rows() {
        let table = [1.0, 100.0];
        assert!((Between::new(&table, 10.0).join(|row| row as f64) - 0.5).abs() < 1e-15);
        assert_eq!(Between::new(&table, 0.1).join(|row| row as f64), 0.0);
        assert_eq!(Between::new(&table, 100.0).join(|row| row as f64), 1.0);
        assert_eq!(Between::new(&[5.0], 7.0), Between { low: 0, high: 0, share: 0.0 });
    }
}
