//! How the wave arrives at the front of a box.

use num_complex::Complex64;

use super::opening::BoxAxis;
use crate::error::{Error, Result};

/// A plane wave whose direction of travel and whose electric field both lie along axes of the box.
///
/// Of the waves that can be had that way it holds those that leave something on an endless front. One that runs
/// along the front with its electric field along it as well leaves nothing there, and one from behind does not
/// reach it: what such waves do to a real box is the affair of its edges, which this model does not have.
///
/// The phase is that of a wave with phase zero at the corner of the front that is the origin. A wave that runs along
/// the front is the field on it as it stands; one that falls straight on it stands there with twice its magnetic field.
///
/// ```
/// use stillroom::cavity::{BoxAxis, BoxWave};
/// assert_eq!(BoxWave::from_names("+z", "y")?, BoxWave::Straight(BoxAxis::Y));
/// assert_eq!(BoxWave::from_names("-x", "z")?, BoxWave::Against(BoxAxis::X));
/// assert!(BoxWave::from_names("+x", "y").is_err());
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub enum BoxWave {
    /// Falls straight on the front, with its electric field along this axis.
    Straight(BoxAxis),
    /// Runs along the front towards larger values of this axis, with its electric field along the depth.
    Along(BoxAxis),
    /// Runs along the front towards smaller values of this axis, with its electric field along the depth.
    Against(BoxAxis),
}

impl From<BoxAxis> for BoxWave {
    /// The wave that falls straight on the front, by the axis of its electric field.
    fn from(axis: BoxAxis) -> Self {
        Self::Straight(axis)
    }
}

const TRAVELS: [&str; 5] = ["+z", "+x", "-x", "+y", "-y"];

impl BoxWave {
    /// From the names of its direction of travel ("+z", "+x", "-x", "+y" or "-y") and of the axis of its electric
    /// field ("x", "y" or "z").
    ///
    /// # Errors
    /// [`Error::UnknownName`] for other names, and for a polarization that a wave with this direction does not
    /// have or that leaves nothing on the front; it names those that remain.
    pub fn from_names(travel: &str, polarization: &str) -> Result<Self> {
        let axis = |name: &str| if name == "x" { BoxAxis::X } else { BoxAxis::Y };
        match (travel, polarization) {
            ("+z", "x" | "y") => Ok(Self::Straight(axis(polarization))),
            ("+x" | "+y", "z") => Ok(Self::Along(axis(&travel[1..]))),
            ("-x" | "-y", "z") => Ok(Self::Against(axis(&travel[1..]))),
            _ => {
                let unknown = |kind: &'static str, name: &str, known: &[&str]| Error::UnknownName {
                    kind: kind.into(),
                    name: name.to_owned(),
                    known: known.iter().map(|&name| name.to_owned()).collect(),
                };
                Err(match travel {
                    "+z" if polarization == "z" => unknown("travel for polarization z", travel, &TRAVELS[1..]),
                    "+z" => unknown("polarization", polarization, &["x", "y", "z"]),
                    _ if TRAVELS.contains(&travel) => unknown("polarization for that travel", polarization, &["z"]),
                    _ => unknown("travel", travel, &TRAVELS),
                })
            }
        }
    }

    /// The axis along the front that it runs along, and 1 or −1 for its sense.
    pub(super) fn along_front(self) -> Option<(BoxAxis, f64)> {
        match self {
            Self::Straight(_) => None,
            Self::Along(axis) => Some((axis, 1.0)),
            Self::Against(axis) => Some((axis, -1.0)),
        }
    }

    /// The phase that it has at a place in the front.
    pub(super) fn phase(self, k: f64, place_m: [f64; 2]) -> Complex64 {
        match self.along_front() {
            None => Complex64::new(1.0, 0.0),
            Some((axis, sense)) => Complex64::from_polar(1.0, -sense * k * place_m[axis.index()]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_had_is_told() {
        let text = |travel, polarization| BoxWave::from_names(travel, polarization).unwrap_err().to_string();
        assert!(text("+z", "z").contains("+x, -x, +y, -y"), "{}", text("+z", "z"));
        assert!(text("+x", "y").contains('z'));
        assert!(text("+x", "x").contains('z'));
        assert!(text("-z", "y").contains("+z, +x"));
        assert!(text("+z", "q").contains("x, y, z"));
    }
}
