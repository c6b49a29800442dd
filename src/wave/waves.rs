//! Many plane waves at once.

use super::incidence::Incidence;
use crate::lanes::Column;

/// A batch of plane waves in vacuum: for each its frequency, and its angle from the normal or its
/// wavenumber along the boundary.
///
/// ```
/// use stillroom::wave::Waves;
/// let frequency_hz = [1e6, 1e9, 18e9];
/// let waves = Waves::at_angle(&frequency_hz, 45.0);
/// assert_eq!(waves.len(), 3);
/// assert_eq!(waves.get(1).frequency_hz(), 1e9);
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Waves<'a> {
    len: usize,
    frequency_hz: Column<'a>,
    direction: Direction<'a>,
}

/// How the waves meet the boundary.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Direction<'a> {
    /// By the angle from the normal, degrees.
    Angle(Column<'a>),
    /// By the wavenumber along the boundary, rad/m, on either side of k₀.
    Transverse(Column<'a>),
    /// By Re √(k_t² − k₀²), 1/m, where the imaginary part of that root is k₀.
    BesideCut(Column<'a>),
}

impl<'a> Waves<'a> {
    /// Waves of several frequencies (Hz), all at `angle_deg` degrees from the normal, 0 to less than 90.
    #[must_use]
    pub fn at_angle(frequency_hz: &'a [f64], angle_deg: f64) -> Self {
        Self::from_columns(frequency_hz.len(), Column::Each(frequency_hz), Column::Same(angle_deg))
    }

    /// Waves of several frequencies (Hz), each at its own angle from the normal, degrees. The shorter
    /// list decides how many there are.
    #[must_use]
    pub fn at_angles(frequency_hz: &'a [f64], angle_deg: &'a [f64]) -> Self {
        let len = frequency_hz.len().min(angle_deg.len());
        Self::from_columns(len, Column::Each(frequency_hz), Column::Each(angle_deg))
    }

    /// Waves of one frequency (Hz) by their wavenumbers along the boundary (rad/m, zero or positive):
    /// the spectrum of a near source.
    #[must_use]
    pub fn spectrum(frequency_hz: f64, transverse_wavenumber_per_m: &'a [f64]) -> Self {
        Self {
            len: transverse_wavenumber_per_m.len(),
            frequency_hz: Column::Same(frequency_hz),
            direction: Direction::Transverse(Column::Each(transverse_wavenumber_per_m)),
        }
    }

    /// Waves of one frequency (Hz) by their decay across the boundary (1/m, positive), as in
    /// [`Incidence::beside_branch_cut`].
    #[must_use]
    pub fn beside_branch_cut(frequency_hz: f64, decay_per_m: &'a [f64]) -> Self {
        Self {
            len: decay_per_m.len(),
            frequency_hz: Column::Same(frequency_hz),
            direction: Direction::BesideCut(Column::Each(decay_per_m)),
        }
    }

    /// `len` waves by their frequencies (Hz) and angles from the normal (degrees).
    pub(crate) fn from_columns(len: usize, frequency_hz: Column<'a>, angle_deg: Column<'a>) -> Self {
        Self { len, frequency_hz, direction: Direction::Angle(angle_deg) }
    }

    /// How many waves there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.len
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// One of the waves; NaN throughout for a place that is not there.
    #[must_use]
    pub fn get(&self, place: usize) -> Incidence {
        let frequency_hz = self.frequency_hz.get(place);
        match self.direction {
            Direction::Angle(angle_deg) => Incidence::at_angle(frequency_hz, angle_deg.get(place)),
            Direction::Transverse(transverse) => {
                Incidence::at_transverse_wavenumber(frequency_hz, transverse.get(place))
            }
            Direction::BesideCut(decay) => Incidence::beside_branch_cut(frequency_hz, decay.get(place)),
        }
    }

    /// All waves, one after another.
    pub fn iter(&self) -> impl Iterator<Item = Incidence> + '_ {
        (0..self.len).map(|place| self.get(place))
    }

    /// `len` waves from `start` on.
    pub(crate) fn part(&self, start: usize, len: usize) -> Self {
        let direction = match self.direction {
            Direction::Angle(column) => Direction::Angle(column.part(start, len)),
            Direction::Transverse(column) => Direction::Transverse(column.part(start, len)),
            Direction::BesideCut(column) => Direction::BesideCut(column.part(start, len)),
        };
        Self { len, frequency_hz: self.frequency_hz.part(start, len), direction }
    }

    pub(crate) fn frequency_hz(&self) -> Column<'a> {
        self.frequency_hz
    }

    pub(crate) fn direction(&self) -> Direction<'a> {
        self.direction
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_wave_is_the_single_one() {
        let hz = [1e3, 1e6, 1e9];
        assert!(Waves::at_angle(&hz, 30.0).iter().eq(hz.map(|f| Incidence::at_angle(f, 30.0))));
        let angles = [0.0, 10.0, 80.0];
        assert_eq!(Waves::at_angles(&hz, &angles).get(2), Incidence::at_angle(1e9, 80.0));
        assert_eq!(Waves::at_angles(&hz, &angles[..2]).len(), 2);
        let spectrum = Waves::spectrum(1e6, &angles);
        assert_eq!(spectrum.get(1), Incidence::at_transverse_wavenumber(1e6, 10.0));
        assert!(Waves::at_angle(&[], 0.0).is_empty());
    }
}
