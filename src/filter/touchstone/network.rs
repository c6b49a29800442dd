//! The network that a Touchstone file describes: scattering parameters whatever it holds, and whether they are passive.

use num_complex::Complex64;

use super::{NetworkParameter, Touchstone};
use crate::error::{Error, Result, check};
use crate::filter::line_matrix::LineMatrix;

impl Touchstone {
    fn matrix(&self, index: usize) -> LineMatrix {
        LineMatrix::from_fn(self.ports, |row, column| self.value(index, row, column))
    }

    // Whatever the file holds, as scattering parameters.
    fn scattering_matrix(&self, index: usize) -> Result<LineMatrix> {
        let (given, one) = (self.matrix(index), LineMatrix::identity(self.ports));
        let singular = || Error::AtIndex {
            quantity: format!("{} parameters", self.parameter.name()),
            index,
            value: self.frequency_hz.get(index).copied().unwrap_or(f64::NAN),
            unit: "Hz".into(),
            accepted: "such that scattering parameters exist".into(),
        };
        let hybrid = |above: f64, given: &LineMatrix| {
            // For G the roles of reflection and transmission signs are exchanged.
            let (p, q, r, s) = (given.get(0, 0), given.get(0, 1), given.get(1, 0), given.get(1, 1));
            let divisor = (p + 1.0) * (s + 1.0) - q * r;
            if divisor.norm() == 0.0 {
                return None;
            }
            let first = ((p - 1.0) * (s + 1.0) - q * r) * above / divisor;
            let last = ((p + 1.0) * (s - 1.0) - q * r) * -above / divisor;
            let (down, up) = (q * (2.0 * above) / divisor, r * (-2.0 * above) / divisor);
            let entries = [[first, down], [up, last]];
            Some(LineMatrix::from_fn(2, |row, column| entries[row][column]))
        };
        match self.parameter {
            NetworkParameter::S => Some(given),
            NetworkParameter::Z => given.plus(&one).inverse().map(|inverse| given.minus(&one).times(&inverse)),
            NetworkParameter::Y => given.plus(&one).inverse().map(|inverse| one.minus(&given).times(&inverse)),
            NetworkParameter::H => hybrid(1.0, &given),
            NetworkParameter::G => hybrid(-1.0, &given),
        }
        .ok_or_else(singular)
    }

    /// Scattering parameters at one frequency, row by row, whatever parameters the file holds.
    ///
    /// # Errors
    /// [`Error::AtIndex`] where they do not exist (an ideal connection without resistance, for example).
    pub fn scattering(&self, index: usize) -> Result<Vec<Complex64>> {
        let matrix = self.scattering_matrix(index)?;
        Ok((0..self.ports * self.ports).map(|k| matrix.get(k / self.ports, k % self.ports)).collect())
    }

    /// How far the data are from passive: at each frequency the largest singular value of S, less one. Zero or
    /// less is passive; 0.01 lets an amplitude out that is 1 % larger than what goes in.
    ///
    /// # Errors
    /// As [`scattering`](Self::scattering).
    pub fn excess_gains(&self) -> Result<Vec<f64>> {
        (0..self.frequency_hz.len())
            .map(|index| Ok(self.scattering_matrix(index)?.largest_singular_value() - 1.0))
            .collect()
    }

    /// Refuses data that give out more than they take in, beyond a tolerance for noise in amplitude.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] that names the frequency at which it is worst, and the largest singular value
    /// there.
    pub fn check_passive(&self, tolerance: f64) -> Result<()> {
        check::non_negative("tolerance", "", tolerance)?;
        let gains = self.excess_gains()?;
        match gains.iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1)) {
            Some((index, &gain)) if gain > tolerance || gain.is_nan() => Err(Error::OutOfRange {
                quantity: format!("largest singular value of S at {} Hz", self.frequency_hz[index]),
                value: gain + 1.0,
                unit: "".into(),
                accepted: "at most one (within the tolerance) in passive data".into(),
            }),
            _ => Ok(()),
        }
    }
}
