//! Where the holes of an array are.

use std::f64::consts::PI;

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::error::{Error, Result, check};
use crate::mouth::HolePattern;
use crate::parameter::{Domain, Knobs, Rebuild};

/// How the holes of an array lie on the wall; the first axis is that along a row.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub enum HoleLayout {
    /// Rows of equally many holes. In the hexagonal pattern every second row is shifted by half a pitch.
    Grid {
        /// Square or hexagonal.
        pattern: HolePattern,
        /// Distance of nearest holes, centre to centre, m.
        pitch_m: f64,
        /// Number of rows.
        rows: usize,
        /// Holes in each row.
        columns: usize,
    },
    /// Thrown at random into a rectangle, one after another, wherever there is room.
    Random {
        /// Number of holes.
        count: usize,
        /// Width of the rectangle that holds them whole, m.
        width_m: f64,
        /// Its height, m.
        height_m: f64,
        /// The same seed throws the same holes.
        seed: u64,
    },
    /// At given places.
    Places {
        /// Centre of each, m.
        positions_m: Vec<[f64; 2]>,
    },
}

/// More holes than this are a perforated sheet.
const MOST_IN_GRID: usize = 1_000_000;
/// Each of these looks at each other one.
const MOST_APART: usize = 10_000;
/// So often one hole is thrown before the rectangle counts as full.
const THROWS: usize = 2_000;

impl HoleLayout {
    /// A regular grid.
    ///
    /// # Errors
    /// Unless the pitch is positive and finite, and there is at least one row and one column and at most a
    /// million holes.
    pub fn grid(pattern: HolePattern, pitch_m: f64, rows: usize, columns: usize) -> Result<Self> {
        check::positive("pitch_m", "m", pitch_m)?;
        check::count("rows", rows as f64, 1)?;
        check::count("columns", columns as f64, 1)?;
        let accepted = "such that rows times columns is at most a million";
        check::within("rows", "", rows as f64, (1.0, MOST_IN_GRID as f64 / columns as f64), accepted)?;
        Ok(Self::Grid { pattern, pitch_m, rows, columns })
    }

    /// Holes thrown at random into a rectangle.
    ///
    /// # Errors
    /// Unless the sides are positive and finite and the count is from one to ten thousand.
    pub fn random(count: usize, width_m: f64, height_m: f64, seed: u64) -> Result<Self> {
        check::within("count", "", count as f64, (1.0, MOST_APART as f64), "a whole number from 1 to 10000")?;
        check::positive("width_m", "m", width_m)?;
        check::positive("height_m", "m", height_m)?;
        Ok(Self::Random { count, width_m, height_m, seed })
    }

    /// Holes at given places.
    ///
    /// # Errors
    /// For no places, more than ten thousand, or one that is not finite; the row is named.
    pub fn places(positions_m: Vec<[f64; 2]>) -> Result<Self> {
        check::not_empty("positions_m", &positions_m)?;
        let most = "at most 10000 places";
        check::within("positions_m", "", positions_m.len() as f64, (1.0, MOST_APART as f64), most)?;
        for (row, place) in positions_m.iter().enumerate() {
            for &coordinate in place {
                check::finite("positions_m", "m", coordinate).map_err(|error| error.at_index(row))?;
            }
        }
        Ok(Self::Places { positions_m })
    }

    /// Number of holes.
    #[must_use]
    pub fn count(&self) -> usize {
        match self {
            Self::Grid { rows, columns, .. } => rows * columns,
            Self::Random { count, .. } => *count,
            Self::Places { positions_m } => positions_m.len(),
        }
    }

    /// The centres of holes of this diameter, row by row, in m.
    ///
    /// # Errors
    /// Where holes of this diameter overlap: the grid's pitch, or the row of the first place that is too near
    /// to one before it, with the distance found. [`Error::Unreachable`] where so many do not fit at random.
    pub fn centres_m(&self, diameter_m: f64) -> Result<Vec<[f64; 2]>> {
        match self {
            Self::Grid { pattern, pitch_m, rows, columns } => {
                check::less_than("diameter_m", "m", diameter_m, "pitch_m", *pitch_m)?;
                let (shift, step) = (pattern.shift(), pattern.row_step());
                let centre = |row: usize, column: usize| {
                    let x = column as f64 + if row % 2 == 1 { shift } else { 0.0 };
                    [x * pitch_m, row as f64 * step * pitch_m]
                };
                Ok((0..*rows).flat_map(|row| (0..*columns).map(move |column| centre(row, column))).collect())
            }
            Self::Random { count, width_m, height_m, seed } => thrown(*count, (*width_m, *height_m), *seed, diameter_m),
            Self::Places { positions_m } => {
                for (row, place) in positions_m.iter().enumerate() {
                    let nearest = nearest(place, &positions_m[..row]);
                    if nearest < diameter_m {
                        return Err(Error::AtIndex {
                            quantity: "positions_m".to_owned(),
                            index: row,
                            value: nearest,
                            unit: "m from a hole before it".into(),
                            accepted: "at least the diameter of a hole, or they overlap".into(),
                        });
                    }
                }
                Ok(positions_m.clone())
            }
        }
    }

    /// Each way from one hole to another (one of the two directions), with how many pairs go it.
    pub(super) fn for_each_way(&self, centres_m: &[[f64; 2]], mut visit: impl FnMut([f64; 2], f64)) {
        let Self::Grid { pattern, pitch_m, rows, columns } = self else {
            for (row, from) in centres_m.iter().enumerate() {
                for to in &centres_m[..row] {
                    visit([from[0] - to[0], from[1] - to[1]], 1.0);
                }
            }
            return;
        };
        let (shift, step) = (pattern.shift(), pattern.row_step());
        for down in 0..*rows {
            let pairs = rows - down;
            // Rows that start without a shift, and those that start with one.
            let (plain, shifted) = (pairs.div_ceil(2) as f64, (pairs / 2) as f64);
            for right in -(*columns as i64 - 1)..*columns as i64 {
                let beside = (*columns as i64 - right.abs()) as f64;
                let way = |shift: f64| [(right as f64 + shift) * pitch_m, down as f64 * step * pitch_m];
                if down == 0 {
                    if right > 0 {
                        visit(way(0.0), pairs as f64 * beside);
                    }
                } else if down % 2 == 0 || shift == 0.0 {
                    visit(way(0.0), pairs as f64 * beside);
                } else {
                    visit(way(shift), plain * beside);
                    if shifted > 0.0 {
                        visit(way(-shift), shifted * beside);
                    }
                }
            }
        }
    }

    /// Width and height of the area that the holes take, each with its share of the wall around it, m.
    pub(super) fn size_m(&self, centres_m: &[[f64; 2]], diameter_m: f64) -> (f64, f64) {
        match self {
            Self::Grid { pattern, pitch_m, rows, columns } => {
                (*columns as f64 * pitch_m, *rows as f64 * pattern.row_step() * pitch_m)
            }
            Self::Random { width_m, height_m, .. } => (*width_m, *height_m),
            Self::Places { .. } => {
                let span = |axis: usize| {
                    let (low, high) = centres_m.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| {
                        (low.min(c[axis]), high.max(c[axis]))
                    });
                    high - low + diameter_m
                };
                (span(0), span(1))
            }
        }
    }

    /// Least distance of two centres, m; infinite for one hole.
    pub(super) fn least_distance_m(&self, centres_m: &[[f64; 2]]) -> f64 {
        match self {
            Self::Grid { rows: 1, columns: 1, .. } => f64::INFINITY,
            Self::Grid { pitch_m, .. } => *pitch_m,
            _ => centres_m
                .iter()
                .enumerate()
                .fold(f64::INFINITY, |least, (row, place)| least.min(nearest(place, &centres_m[..row]))),
        }
    }
}

fn nearest(place: &[f64; 2], others: &[[f64; 2]]) -> f64 {
    others.iter().fold(f64::INFINITY, |least, other| least.min((place[0] - other[0]).hypot(place[1] - other[1])))
}

/// Holes one after another, each thrown until it lies free of those before it.
fn thrown(count: usize, (width_m, height_m): (f64, f64), seed: u64, diameter_m: f64) -> Result<Vec<[f64; 2]>> {
    check::less_than("diameter_m", "m", diameter_m, "width_m", width_m)?;
    check::less_than("diameter_m", "m", diameter_m, "height_m", height_m)?;
    let mut random = Pcg64::seed_from_u64(seed);
    // 53 random bits make a number from 0 to below 1.
    let mut share = || (random.next_u64() >> 11) as f64 * 2f64.powi(-53);
    let mut centres: Vec<[f64; 2]> = Vec::with_capacity(count);
    while centres.len() < count {
        let free = (0..THROWS).find_map(|_| {
            let place = [share() * (width_m - diameter_m), share() * (height_m - diameter_m)];
            (nearest(&place, &centres) >= diameter_m).then_some(place)
        });
        let Some(place) = free else {
            let open = centres.len() as f64 * 0.25 * PI * diameter_m * diameter_m / (width_m * height_m);
            return Err(Error::Unreachable {
                quantity: "count".to_owned(),
                target: count as f64,
                best: centres.len() as f64,
                unit: "".into(),
                at: format!("an open share of {open:.2}, beyond which holes thrown at random overlap"),
            });
        };
        centres.push(place);
    }
    Ok(centres)
}

impl Rebuild for HoleLayout {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        match self {
            Self::Grid { pattern, pitch_m, rows, columns } => Self::grid(
                *pattern,
                knobs.value("pitch_m", "m", *pitch_m, Domain::POSITIVE.and("larger than the holes")),
                knobs.count("rows", *rows, 1)?,
                knobs.count("columns", *columns, 1)?,
            ),
            Self::Random { count, width_m, height_m, seed } => Self::random(
                knobs.count("count", *count, 1)?,
                knobs.value("width_m", "m", *width_m, Domain::POSITIVE.and("larger than the holes")),
                knobs.value("height_m", "m", *height_m, Domain::POSITIVE.and("larger than the holes")),
                *seed,
            ),
            // Places are a table, not a handful of numbers.
            Self::Places { positions_m } => Self::places(positions_m.clone()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ways counted by looking at every pair.
    fn by_pairs(layout: &HoleLayout) -> Vec<(i64, i64, i64)> {
        let centres = layout.centres_m(0.1).unwrap();
        let mut ways = Vec::new();
        for (row, from) in centres.iter().enumerate() {
            for to in &centres[..row] {
                let (x, y) = (from[0] - to[0], from[1] - to[1]);
                ways.push(((x.abs() * 1e6).round() as i64, (y.abs() * 1e6).round() as i64, 1));
            }
        }
        merged(ways)
    }

    fn merged(mut ways: Vec<(i64, i64, i64)>) -> Vec<(i64, i64, i64)> {
        ways.sort_unstable();
        let mut out: Vec<(i64, i64, i64)> = Vec::new();
        for way in ways {
            match out.last_mut() {
                Some(last) if (last.0, last.1) == (way.0, way.1) => last.2 += way.2,
                _ => out.push(way),
            }
        }
        out
    }

    #[test]
    fn the_ways_of_a_grid_are_those_of_its_pairs() {
        for pattern in [HolePattern::Square, HolePattern::Hexagonal] {
            for (rows, columns) in [(1, 1), (1, 5), (4, 1), (2, 2), (3, 4), (5, 6)] {
                let layout = HoleLayout::grid(pattern, 0.25, rows, columns).unwrap();
                let mut ways = Vec::new();
                layout.for_each_way(&[], |[x, y], pairs| {
                    ways.push(((x.abs() * 1e6).round() as i64, (y.abs() * 1e6).round() as i64, pairs as i64));
                });
                assert_eq!(merged(ways), by_pairs(&layout), "{pattern:?} {rows} {columns}");
            }
        }
    }

    #[test]
    fn random_holes_do_not_overlap_and_come_back() {
        let layout = HoleLayout::random(60, 0.1, 0.05, 7).unwrap();
        let centres = layout.centres_m(4e-3).unwrap();
        assert_eq!(centres, layout.centres_m(4e-3).unwrap());
        assert_ne!(centres, HoleLayout::random(60, 0.1, 0.05, 8).unwrap().centres_m(4e-3).unwrap());
        assert!(layout.least_distance_m(&centres) >= 4e-3);
    }

    #[test]
    fn overlaps_are_told_by_row_and_distance() {
        let layout = HoleLayout::places(vec![[0.0, 0.0], [10e-3, 0.0], [10e-3, 3e-3]]).unwrap();
        assert_eq!(
            layout.centres_m(5e-3).unwrap_err().to_string(),
            "`positions_m[2]` = 0.003 m from a hole before it: must be at least the diameter of a hole, or they overlap"
        );
        let full = HoleLayout::random(1000, 0.05, 0.05, 0).unwrap().centres_m(4e-3).unwrap_err();
        assert!(full.to_string().starts_with("`count` cannot reach 1000: the best is"), "{full}");
        let grid = HoleLayout::grid(HolePattern::Square, 4e-3, 3, 3).unwrap();
        assert_eq!(
            grid.centres_m(5e-3).unwrap_err().to_string(),
            "`diameter_m` = 0.005 m: must be smaller than `pitch_m` = 0.004 m"
        );
    }
}
