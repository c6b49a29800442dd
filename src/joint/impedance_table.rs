//! A measured transfer impedance: a table, from and to comma-separated text.
//!
//! The text has a heading with the columns `frequency_hz` and `transfer_impedance_ohm_m` (the
//! modulus), in any order and among others, and perhaps `phase_deg`; without a heading the first two
//! columns are taken as these. Lines that start with `#` are comments. Fields are separated by commas,
//! semicolons or tabs.

use num_complex::Complex64;

use crate::circuit::impedance_rows::{ImpedanceRows, Quantity};
use crate::error::Result;
use crate::parameter::Element;
use crate::validity::Validity;

const OF: Quantity = Quantity {
    what: "table of transfer impedance",
    columns: ["frequency_hz", "transfer_impedance_ohm_m"],
    unit: "ohm m",
    positive: "a positive transfer impedance",
};

/// Transfer impedance times length against frequency, joined in ln f and held beyond both ends.
///
/// ```
/// use stillroom::joint::ImpedanceTable;
/// let table = ImpedanceTable::from_csv("frequency_hz,transfer_impedance_ohm_m\n1e6,1e-5\n1e8,1e-3\n")?;
/// // It rises with f: an inductance.
/// let z = table.at(1e7);
/// assert!((z.im / 1e-4 - 1.0).abs() < 1e-12 && z.re.abs() < 1e-18);
/// let error = ImpedanceTable::from_csv("1e6,1e-5\n1e7,-1e-4\n").unwrap_err();
/// assert!(error.to_string().contains("line 2"));
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(errors = "columns that do not fit, with row and value; fewer than two rows")]
pub struct ImpedanceTable {
    /// Frequencies, Hz. Increasing, at least two.
    #[kept]
    frequency_hz: Vec<f64>,
    /// Moduli times length, ohm m. Positive, one for each frequency.
    #[kept]
    transfer_impedance_ohm_m: Vec<f64>,
    /// Phases, degrees, from -90 to 90. Where not given they follow the slope of the modulus: 0 where it is flat (a
    /// resistance), 90 where it rises with f (an inductance).
    #[kept(setter = with_phases)]
    phase_deg: Option<Vec<f64>>,
    /// What is added to the moduli. A knob for tolerances.
    #[parameter(within(-300.0, 300.0), default = 0.0, setter = scaled)]
    scale_db: f64,
    #[worked_out(rows(&frequency_hz, &transfer_impedance_ohm_m, phase_deg.as_ref(), scale_db)?)]
    rows: ImpedanceRows,
}

fn rows(frequency_hz: &[f64], modulus: &[f64], phase_deg: Option<&Vec<f64>>, scale_db: f64) -> Result<ImpedanceRows> {
    let rows = ImpedanceRows::new(&OF, frequency_hz.to_vec(), modulus.to_vec())?.scaled(scale_db)?;
    match phase_deg {
        Some(phase_deg) => rows.with_phases(phase_deg.clone()),
        None => Ok(rows),
    }
}

impl ImpedanceTable {
    /// From text.
    ///
    /// # Errors
    /// [`Error::Parse`](crate::Error::Parse) with the line number for a missing column or field, a field
    /// that is no finite number, a frequency out of order, or an impedance that is not positive; as for
    /// [`new`](Self::new) for too few rows, and as for [`with_phases`](Self::with_phases).
    pub fn from_csv(text: &str) -> Result<Self> {
        let ImpedanceRows { frequency_hz, modulus, phase_deg, scale_db } = ImpedanceRows::from_csv(&OF, text)?;
        Self::checked(frequency_hz, modulus, phase_deg, scale_db)
    }

    /// As text, without the scale.
    #[must_use]
    pub fn to_csv(&self) -> String {
        self.rows.to_csv(&OF)
    }

    /// Transfer impedance times length, ohm m.
    ///
    /// Where no phase was measured it turns by 90° for each power of f in the modulus, as what is passive and
    /// has no excess phase does (H. W. Bode, *Network Analysis and Feedback Amplifier Design*, 1945, ch. 14,
    /// from memory, leading term), kept within 0° and 90°; the power between two rows holds in the middle between them and is
    /// joined in ln f from there to the next, so that the phase has no steps.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        self.rows.at(frequency_hz)
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.rows.validity("measured transfer impedance", frequency_hz)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Error;

    #[test]
    fn faults_name_row_and_value() {
        let text = |frequency_hz: &[f64], ohm_m: &[f64]| {
            ImpedanceTable::new(frequency_hz.to_vec(), ohm_m.to_vec()).unwrap_err().to_string()
        };
        assert!(text(&[1e6, 1e5], &[1.0, 1.0]).contains("`frequency_hz[1]` = 1e5 Hz after 1e6 Hz"));
        assert!(text(&[1e5, 1e6], &[1.0, -2.0]).contains("`transfer_impedance_ohm_m[1]` = -2 ohm m"));
        assert!(text(&[1e5], &[1.0]).contains("`rows of the table` = 1: must be two or more"));
        assert!(text(&[1e5, 1e6], &[1.0]).contains("equally many"));
        assert!(text(&[], &[]).contains("two or more"));
        for (text, line) in [("1e5,1\n1e4,2\n", 2), ("1e5,1\n\n1e6,0\n", 3), ("frequency_hz,z\n1,2\n", 1)] {
            match ImpedanceTable::from_csv(text).unwrap_err() {
                Error::Parse { line: found, .. } => assert_eq!(found, line, "{text}"),
                other => panic!("{other}"),
            }
        }
        let table = ImpedanceTable::new(vec![1.0, 2.0], vec![1.0, 1.0]).unwrap();
        assert!(table.clone().with_phases(vec![0.0, 91.0]).unwrap_err().to_string().contains("phase_deg[1]"));
        assert!(table.with_phases(vec![0.0]).is_err());
    }

    #[test]
    fn text_and_numbers_are_the_same_table() {
        let table = ImpedanceTable::new(vec![1e4, 1e6, 3e9], vec![2e-5, 3.3e-5, 0.1]).unwrap();
        assert_eq!(ImpedanceTable::from_csv(&table.to_csv()).unwrap(), table);
        let table = table.with_phases(vec![-3.0, 10.0, 80.0]).unwrap();
        assert_eq!(ImpedanceTable::from_csv(&table.to_csv()).unwrap(), table);
        let z = table.at(1e4);
        assert!((z.arg().to_degrees() + 3.0).abs() < 1e-12 && (z.norm() / 2e-5 - 1.0).abs() < 1e-14);
        assert!((table.scaled(20.0).unwrap().at(1e4).norm() / 2e-4 - 1.0).abs() < 1e-14);
    }

    #[test]
    fn phase_follows_the_slope() {
        // Flat: a resistance; √f: skin effect, 45 degrees; falling: held at a resistance.
        let table = ImpedanceTable::new(vec![1e3, 1e5, 1e7, 1e9], vec![1.0, 1.0, 10.0, 1.0]).unwrap();
        for (frequency_hz, degrees) in [(1e4, 0.0), (1e6, 45.0), (1e8, 0.0), (1e10, 0.0)] {
            assert!((table.at(frequency_hz).arg().to_degrees() - degrees).abs() < 1e-12, "{frequency_hz}");
        }
        assert!(table.validity(1e8).holds() && !table.validity(1e10).holds());
    }
}
