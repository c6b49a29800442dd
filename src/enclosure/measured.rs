//! From the decibels that a test has read to the leak that explains them.

use super::{Exposure, Reading, Site};
use crate::decibel::ln_power_of_loss_db;
use crate::error::{Result, check};
use crate::frequency_table::Columns;
use crate::leak::TabulatedLeak;

const FREQUENCY: &str = "frequency_hz";
const SHIELDING: &str = "shielding_db";

/// A leak whose shielding was read in a stated test: the one that reads the same in it again.
///
/// The reading is taken as that of one small leak in front of the antennas, with the directivity 3 of a small hole (in
/// a loop or a rod test with the polarizability of the round hole that has its cross-section). In another test than
/// that in which it was read it is an estimate of that kind.
impl TabulatedLeak {
    /// From frequencies (Hz, increasing) and the shielding (dB) read at them, equally many, in `test`.
    ///
    /// ```
    /// use stillroom::{AntennaTest, Exposure, enclosure::Site, leak::TabulatedLeak};
    /// let test = AntennaTest::new(1.0, 0.5)?;
    /// let hatch = TabulatedLeak::from_shielding_db(vec![1e8, 1e9], &[110.0, 92.0], &test)?;
    /// assert!((test.readings(&Site::of(&hatch), &[1e9])[0].shielding_db() - 92.0).abs() < 1e-9);
    /// # Ok::<(), stillroom::Error>(())
    /// ```
    ///
    /// # Errors
    /// For empty or unequal columns, frequencies that do not increase, shielding that is not finite or beyond what a
    /// cross-section can hold (some 3000 dB); each with its row.
    pub fn from_shielding_db(frequency_hz: Vec<f64>, shielding_db: &[f64], test: &dyn Exposure) -> Result<Self> {
        check::not_empty(FREQUENCY, &frequency_hz)?;
        check::frequencies(&frequency_hz)?;
        check::same_length(SHIELDING, shielding_db.len(), FREQUENCY, frequency_hz.len())?;
        check::all_finite(SHIELDING, "dB", shielding_db)?;
        // What a test reads of a small leak is proportional to its cross-section.
        let unit = Self::new(frequency_hz.clone(), vec![1.0; frequency_hz.len()])?;
        let readings = test.readings(&Site::of(&unit), &frequency_hz);
        let cross_section_m2 = |(&db, of_unit): (&f64, Reading)| (ln_power_of_loss_db(db) - of_unit.ln_power).exp();
        let values_m2 = shielding_db.iter().zip(readings).map(cross_section_m2).collect();
        Self::new(frequency_hz, values_m2)
    }

    /// From text with the columns `frequency_hz` and `shielding_db`, read in `test`; a file by way of
    /// [`std::fs::read_to_string`].
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with line and column for text that does not follow the format, and those
    /// of [`from_shielding_db`](Self::from_shielding_db).
    pub fn from_shielding_csv(text: &str, test: &dyn Exposure) -> Result<Self> {
        let columns = Columns { what: "table of shielding", required: &[FREQUENCY, SHIELDING], optional: &[] };
        let mut columns = columns.read(text, |_| Ok(()))?.into_iter();
        let (frequency_hz, shielding_db) = (columns.next().unwrap_or_default(), columns.next().unwrap_or_default());
        Self::from_shielding_db(frequency_hz, &shielding_db, test)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leak::Leak;
    use crate::probe::{LoopArrangement, LoopTest, RodTest};
    use crate::wave::PlaneWave;
    use crate::{AntennaTest, Error};

    #[test]
    fn what_was_read_is_read_again() {
        let (f, read_db) = (vec![1e5, 1e6, 1e7], [95.0, -3.0, 140.0]);
        let tests: [Box<dyn Exposure>; 4] = [
            Box::new(AntennaTest::new(1.7, 0.4).unwrap()),
            Box::new(PlaneWave::normal().observed_at(0.5).unwrap()),
            Box::new(LoopTest::new(LoopArrangement::Coplanar, 0.15, 0.15, 0.3, 0.3).unwrap()),
            Box::new(RodTest::new(0.0, 0.0, 1.0, 1.0).unwrap()),
        ];
        for test in tests {
            let leak = TabulatedLeak::from_shielding_db(f.clone(), &read_db, &*test).unwrap();
            for (reading, db) in test.readings(&Site::of(&leak), &f).iter().zip(read_db) {
                assert!((reading.shielding_db() - db).abs() < 1e-9, "{test:?}: {}", reading.shielding_db());
            }
        }
    }

    #[test]
    fn an_antenna_reading_by_hand() {
        // SE = -10 lg(3 sigma (d1 + d2)^2/(4 pi d1^2 d2^2))
        let test = AntennaTest::new(2.0, 1.0).unwrap();
        let leak = TabulatedLeak::from_shielding_csv("shielding_db;frequency_hz\n80;1e9\n", &test).unwrap();
        let expected = 1e-8 * 4.0 * std::f64::consts::PI * 4.0 / (3.0 * 9.0);
        assert!((leak.ln_cross_section(1e9).exp() / expected - 1.0).abs() < 1e-12);
    }

    #[test]
    fn nonsense_is_named() {
        let test = AntennaTest::new(2.0, 1.0).unwrap();
        let from = |f: Vec<f64>, db: &[f64]| TabulatedLeak::from_shielding_db(f, db, &test).unwrap_err();
        assert!(matches!(from(vec![1e6, 1e7], &[60.0]), Error::LengthMismatch { .. }));
        assert!(matches!(from(vec![1e7, 1e6], &[60.0, 60.0]), Error::NotIncreasing { .. }));
        assert!(from(vec![1e7], &[f64::NAN]).to_string().contains("shielding_db[0]"));
        assert!(matches!(from(vec![1e7], &[4000.0]), Error::AtIndex { .. }));
        assert!(matches!(
            TabulatedLeak::from_shielding_csv("frequency_hz;shielding_db\n1e6;60,5\n", &test),
            Err(Error::Parse { line: 2, column: Some(2), .. })
        ));
    }
}
