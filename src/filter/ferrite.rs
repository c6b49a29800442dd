//! Ferrite beads and sleeves by their table of impedance.
//!
//! A lossy ferrite has no equivalent circuit of a few constants; makers print resistance and reactance against
//! frequency. Between the rows both are joined in ln f. Below the first row the bead is taken as a coil (reactance
//! in proportion to f, resistance to its square); above the last both are held. Outside the table the result is
//! marked as such. Load current lowers all of it: use a table taken at the current.

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::parameter::Element;
use crate::validity::Validity;

/// A bead, sleeve or other lossy part known by a table.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "empty or unequal columns, frequencies that do not increase")]
pub struct FerriteBead {
    /// Frequencies of the table.
    #[kept]
    frequency_hz: Vec<f64>,
    /// Resistances.
    #[kept]
    resistance_ohm: Vec<f64>,
    /// Reactances of the table.
    #[kept]
    reactance_ohm: Vec<f64>,
    /// What the table is multiplied with: turns, beads, a tolerance.
    #[parameter(circuit_positive, default = 1.0, setter = scaled)]
    scale: f64,
}

impl FerriteBead {
    fn settle(self) -> Result<Self> {
        check::not_empty("frequency_hz", &self.frequency_hz)?;
        check::frequencies(&self.frequency_hz)?;
        check::increasing("frequency_hz", "Hz", &self.frequency_hz)?;
        check::same_length("resistance_ohm", self.resistance_ohm.len(), "frequency_hz", self.frequency_hz.len())?;
        check::same_length("reactance_ohm", self.reactance_ohm.len(), "frequency_hz", self.frequency_hz.len())?;
        let passive = |r: f64| r >= 0.0 && r.is_finite();
        check::all("resistance_ohm", "ohm", &self.resistance_ohm, "zero or positive, and finite", passive)?;
        check::all_finite("reactance_ohm", "ohm", &self.reactance_ohm)?;
        Ok(self)
    }

    /// Impedance at a frequency in Hz, ohm.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64) -> Complex64 {
        let row = |k: usize| Complex64::new(self.resistance_ohm[k], self.reactance_ohm[k]);
        let last = self.frequency_hz.len() - 1;
        let above = self.frequency_hz.partition_point(|&f| f <= frequency_hz);
        let table = if above == 0 {
            let share = frequency_hz / self.frequency_hz[0];
            Complex64::new(row(0).re * share * share, row(0).im * share)
        } else if above > last {
            row(last)
        } else {
            let (low, high) = (self.frequency_hz[above - 1], self.frequency_hz[above]);
            let share = (frequency_hz / low).ln() / (high / low).ln();
            row(above - 1) * (1.0 - share) + row(above) * share
        };
        table * self.scale
    }

    /// Whether the table reaches there.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "table of a ferrite",
            "frequency",
            "Hz",
            frequency_hz,
            (self.frequency_hz[0], self.frequency_hz[self.frequency_hz.len() - 1]),
            "the impedance is extended as a coil below and held above",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_met_at_its_rows_and_joined_between() {
        let bead = FerriteBead::new(vec![1e6, 1e8], vec![1.0, 101.0], vec![10.0, -10.0]).unwrap();
        assert_eq!(bead.impedance_ohm(1e6), Complex64::new(1.0, 10.0));
        assert_eq!(bead.impedance_ohm(1e8), Complex64::new(101.0, -10.0));
        assert!((bead.impedance_ohm(1e7) - Complex64::new(51.0, 0.0)).norm() < 1e-12);
        assert!((bead.impedance_ohm(1e5) - Complex64::new(0.01, 1.0)).norm() < 1e-12);
        assert_eq!(bead.impedance_ohm(1e9), bead.impedance_ohm(1e8));
        assert!(bead.validity(1e7).holds() && !bead.validity(1e5).holds() && !bead.validity(1e9).holds());
        let double = bead.scaled(2.0).unwrap();
        assert_eq!(double.impedance_ohm(1e6), Complex64::new(2.0, 20.0));
    }

    #[test]
    fn a_bad_row_is_named() {
        let error = FerriteBead::new(vec![1e6, 1e8], vec![1.0, -1.0], vec![0.0, 0.0]).unwrap_err();
        assert!(error.to_string().contains("resistance_ohm[1]"), "{error}");
        assert!(FerriteBead::new(vec![1e6, 1e6], vec![1.0; 2], vec![0.0; 2]).is_err());
        assert!(FerriteBead::new(vec![1e6], vec![1.0; 2], vec![0.0]).is_err());
        assert!(FerriteBead::new(vec![], vec![], vec![]).is_err());
    }
}
