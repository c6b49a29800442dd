//! A measured impedance against frequency: modulus, perhaps phase, joined in ln f.
//!
//! Between rows the logarithm of the modulus is joined in ln f; beyond both ends the row there is held. Measurements mostly give the
//! modulus alone. What is passive and has no excess phase then turns by 90° for each power of f in the modulus (H. W. Bode,
//! *Network Analysis and Feedback Amplifier Design*, 1945, ch. 14, from memory, leading term); kept within 0° and 90°, from a
//! resistance to an inductance. The power between two rows is taken for the middle between them, and joined in ln f from one middle
//! to the next, so that the phase has no steps.

use std::fmt::Write as _;

use num_complex::Complex64;

use crate::decibel::ln_power_of_loss_db;
use crate::error::{Result, check};
use crate::frequency_table::{Between, Columns};
use crate::validity::Validity;

const FREQUENCY: &str = "frequency_hz";
const PHASE: &str = "phase_deg";

/// Rows without which nothing can be joined.
const FEWEST_ROWS: usize = 2;

/// What the rows hold, for text and errors.
#[derive(Debug)]
pub(crate) struct Quantity {
    /// Of what it is a table.
    pub what: &'static str,
    /// Column of the frequency and of the modulus, its unit in the name.
    pub columns: [&'static str; 2],
    /// Unit of the modulus.
    pub unit: &'static str,
    /// What a row misses whose modulus is not positive.
    pub positive: &'static str,
}

/// The rows of a measured impedance.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ImpedanceRows {
    pub frequency_hz: Vec<f64>,
    pub modulus: Vec<f64>,
    pub phase_deg: Option<Vec<f64>>,
    pub scale_db: f64,
}

impl ImpedanceRows {
    /// From frequencies, Hz, increasing, and positive moduli, equally many and at least two.
    pub fn new(of: &Quantity, frequency_hz: Vec<f64>, modulus: Vec<f64>) -> Result<Self> {
        let [_, name] = of.columns;
        check::frequencies(&frequency_hz)?;
        check::increasing(FREQUENCY, "Hz", &frequency_hz)?;
        check::same_length(name, modulus.len(), FREQUENCY, frequency_hz.len())?;
        check::all_positive(name, of.unit, &modulus)?;
        let rows = (FEWEST_ROWS as f64, f64::INFINITY);
        check::within("rows of the table", "", frequency_hz.len() as f64, rows, "two or more")?;
        Ok(Self { frequency_hz, modulus, phase_deg: None, scale_db: 0.0 })
    }

    /// The same with measured phases, degrees from −90 to 90, one for each row.
    pub fn with_phases(self, phase_deg: Vec<f64>) -> Result<Self> {
        check::same_length(PHASE, phase_deg.len(), FREQUENCY, self.frequency_hz.len())?;
        check::all(PHASE, "deg", &phase_deg, "from -90 to 90", |phase| phase.abs() <= 90.0)?;
        Ok(Self { phase_deg: Some(phase_deg), ..self })
    }

    /// The same, `scale_db` decibels greater in impedance.
    pub fn scaled(self, scale_db: f64) -> Result<Self> {
        let scale_db = check::within("scale_db", "dB", scale_db, (-300.0, 300.0), "from -300 to 300")?;
        Ok(Self { scale_db, ..self })
    }

    /// From text with a heading, in the columns of the quantity and perhaps `phase_deg`.
    pub fn from_csv(of: &Quantity, text: &str) -> Result<Self> {
        let columns = Columns { what: of.what, required: &of.columns, optional: &[PHASE] };
        let positive = |row: &[f64]| if row[1] > 0.0 { Ok(()) } else { Err(of.positive) };
        let mut columns = columns.read(text, positive)?.into_iter();
        let mut next = || columns.next().unwrap_or_default();
        let rows = Self::new(of, next(), next())?;
        let phase_deg = next();
        if phase_deg.is_empty() { Ok(rows) } else { rows.with_phases(phase_deg) }
    }

    /// As text, without the scale.
    pub fn to_csv(&self, of: &Quantity) -> String {
        let mut text = of.columns.join(",");
        text.push_str(if self.phase_deg.is_some() { ",phase_deg\n" } else { "\n" });
        for (row, (frequency, modulus)) in self.frequency_hz.iter().zip(&self.modulus).enumerate() {
            // Writing to a String does not fail.
            let _ = write!(text, "{frequency},{modulus:e}");
            let _ = match &self.phase_deg {
                Some(phase_deg) => writeln!(text, ",{}", phase_deg[row]),
                None => writeln!(text),
            };
        }
        text
    }

    /// The impedance at a frequency.
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        let between = Between::new(&self.frequency_hz, frequency_hz);
        let phase_deg = match &self.phase_deg {
            Some(phase_deg) => between.join(|row| phase_deg[row]),
            None => 90.0 * self.power_at(&between),
        };
        // A scale in dB is one of amplitude: half of what it is of power.
        let ln_modulus = between.join(|row| self.modulus[row].ln()) - 0.5 * ln_power_of_loss_db(self.scale_db);
        let (sine, cosine) = phase_deg.to_radians().sin_cos();
        Complex64::new(cosine, sine) * ln_modulus.exp()
    }

    /// The power of f that the modulus follows, from 0 to 1: joined from the middle between two rows to the next.
    fn power_at(&self, between: &Between) -> f64 {
        let last = self.frequency_hz.len() - FEWEST_ROWS;
        let (pair, share) = if between.low > last { (last, 1.0) } else { (between.low, between.share) };
        let beside = if share < 0.5 { pair.saturating_sub(1) } else { (pair + 1).min(last) };
        let width = |pair: usize| (self.frequency_hz[pair + 1] / self.frequency_hz[pair]).ln();
        let way = (share - 0.5).abs() * width(pair) / (0.5 * (width(pair) + width(beside)));
        self.power_between(pair) * (1.0 - way) + self.power_between(beside) * way
    }

    /// The same from one row to the next.
    fn power_between(&self, row: usize) -> f64 {
        let ratio = |values: &[f64]| (values[row + 1] / values[row]).ln();
        (ratio(&self.modulus) / ratio(&self.frequency_hz)).clamp(0.0, 1.0)
    }

    /// Whether the table reaches there.
    pub fn validity(&self, model: &'static str, frequency_hz: f64) -> Validity {
        let ends = (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]);
        Validity::within(model, "frequency", "Hz", frequency_hz, ends, "the value at the end of the table is held")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OF: Quantity =
        Quantity { what: "table", columns: ["frequency_hz", "z"], unit: "ohm", positive: "a positive impedance" };

    #[test]
    fn the_phase_has_no_steps_and_is_that_of_a_resistance_with_an_inductance() {
        // R + jwL: the phase is known, the table has the modulus alone.
        let hz: Vec<f64> = (0..=32).map(|i| 10f64.powf(4.0 + 0.25 * f64::from(i))).collect();
        let z = |f: f64| Complex64::new(1.0, f / 1e8);
        let rows = ImpedanceRows::new(&OF, hz.clone(), hz.iter().map(|&f| z(f).norm()).collect()).unwrap();
        for f in (0..400).map(|i| 10f64.powf(4.0 + 0.02 * f64::from(i))) {
            // The leading term of Bode's relation misses up to 10 degrees around the corner.
            let apart = (rows.at(f).arg() - z(f).arg()).to_degrees();
            assert!(apart.abs() < 10.0, "{f}: {apart}");
        }
        let uneven = ImpedanceRows::new(&OF, vec![1e3, 1e5, 2e5, 1e9], vec![1.0, 1.0, 2.0, 1.0]).unwrap();
        for rows in [rows, uneven] {
            for &row in &rows.frequency_hz {
                let (below, above) = (rows.at(row * (1.0 - 1e-9)), rows.at(row * (1.0 + 1e-9)));
                assert!((below / above - 1.0).norm() < 1e-7, "{row}: {below} {above}");
            }
        }
    }
}
