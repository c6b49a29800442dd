//! Tables against frequency: read from comma-separated text, joined in ln f.
//!
//! The text has a heading with the names of its columns, in any order and among others; without a
//! heading the first columns are taken in their order. Lines that start with `#` are comments. Fields
//! are separated by commas, semicolons or tabs.

use crate::error::{Error, Result};

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

impl Columns<'_> {
    /// The columns, required ones first; an optional one that is not there is empty.
    ///
    /// `accept` sees the required fields of each row and says what it misses; that frequencies are
    /// positive and increase is seen to here.
    ///
    /// # Errors
    /// [`Error::Parse`] with the line for a missing column or field, a field that is no finite number, a
    /// frequency out of order, or what `accept` refuses.
    pub fn read(
        &self,
        text: &str,
        accept: impl Fn(&[f64]) -> std::result::Result<(), &'static str>,
    ) -> Result<Vec<Vec<f64>>> {
        let mut columns = vec![Vec::new(); self.required.len() + self.optional.len()];
        let mut places: Option<Vec<Option<usize>>> = None;
        for (index, text) in text.lines().enumerate() {
            // Some programs put a mark of byte order at the beginning.
            let text = text.trim_start_matches('\u{feff}').trim();
            if text.is_empty() || text.starts_with('#') {
                continue;
            }
            let line = index + 1;
            let fields: Vec<&str> = text.split([',', ';', '\t']).map(|field| field.trim().trim_matches('"')).collect();
            if places.is_none() {
                let (found, heading) = self.places(&fields).ok_or_else(|| {
                    self.fault(line, text, format!("a heading with {}, or numbers", self.required.join(" and ")))
                })?;
                places = Some(found);
                if heading {
                    continue;
                }
            }
            let mut row = Vec::with_capacity(columns.len());
            for (place, name) in places.iter().flatten().zip(self.required.iter().chain(self.optional)) {
                let Some(place) = place else { break };
                let field = fields.get(*place).copied().unwrap_or_default();
                match field.parse::<f64>() {
                    Ok(value) if value.is_finite() => row.push(value),
                    _ => return Err(self.fault(line, field, format!("a finite number for {name}"))),
                }
            }
            if row[0] <= 0.0 || columns[0].last().is_some_and(|&last| row[0] <= last) {
                return Err(self.fault(line, text, "a positive frequency above the one before it".to_owned()));
            }
            accept(&row[..self.required.len()]).map_err(|missed| self.fault(line, text, missed.to_owned()))?;
            columns.iter_mut().zip(row).for_each(|(column, value)| column.push(value));
        }
        Ok(columns)
    }

    /// Where each column stands, by the first line, and whether that line is a heading.
    fn places(&self, fields: &[&str]) -> Option<(Vec<Option<usize>>, bool)> {
        let place = |name: &&str| fields.iter().position(|field| field.eq_ignore_ascii_case(name));
        let named: Vec<Option<usize>> = self.required.iter().chain(self.optional).map(place).collect();
        let required = &named[..self.required.len()];
        if required.iter().all(Option::is_some) {
            Some((named, true))
        } else if required.iter().all(Option::is_none) && fields.first()?.parse::<f64>().is_ok() {
            let in_order = (0..named.len()).map(|column| (column < self.required.len()).then_some(column));
            Some((in_order.collect(), false))
        } else {
            None
        }
    }

    /// A fault of this table's text.
    pub fn fault(&self, line: usize, found: &str, expected: String) -> Error {
        Error::Parse { what: self.what, line, found: found.chars().take(80).collect(), expected }
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
        assert_eq!(read("1\t2\t7\n3,4\n").unwrap(), [vec![1.0, 3.0], vec![2.0, 4.0], Vec::new()]);
        assert!(read("# only words\n").unwrap().iter().all(Vec::is_empty));
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
