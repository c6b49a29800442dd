//! An opening in the front wall of a box.

use std::f64::consts::PI;

use super::exterior::Link;
use super::mouth_field::{MouthField, Potential, Voltage};
use crate::error::{Error, Result, check};
use crate::mouth::polarizability::unit_rectangle;
use crate::mouth::slit::Slit;
use crate::numeric::bessel::{J0_FIRST, J1_PRIME_FIRST};
use crate::parameter::{Domain, Knobs, Rebuild};

/// An axis in the front wall of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub enum BoxAxis {
    /// Along the width.
    X,
    /// Along the height.
    Y,
}

impl BoxAxis {
    /// Place of the axis among the coordinates.
    pub(super) fn index(self) -> usize {
        match self {
            Self::X => 0,
            Self::Y => 1,
        }
    }
}

/// An opening in the front wall.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct BoxOpening {
    center_m: [f64; 2],
    size_m: [f64; 2],
    round: bool,
}

impl BoxOpening {
    /// A slot or rectangular hole: its centre from the corner of the inner wall, and its sizes, along width
    /// and height of the box, m.
    ///
    /// # Errors
    /// Unless all are positive and finite.
    pub fn rectangle(center_m: [f64; 2], size_m: [f64; 2]) -> Result<Self> {
        for (name, value) in [("center_m", center_m), ("size_m", size_m)] {
            check::all_positive(name, "m", &value)?;
        }
        Ok(Self { center_m, size_m, round: false })
    }

    /// A round hole by its centre and diameter, m.
    ///
    /// # Errors
    /// Unless all are positive and finite.
    pub fn round(center_m: [f64; 2], diameter_m: f64) -> Result<Self> {
        let diameter_m = check::positive("diameter_m", "m", diameter_m)?;
        Ok(Self { round: true, ..Self::rectangle(center_m, [diameter_m; 2])? })
    }

    /// Its centre, m.
    #[must_use]
    pub fn center_m(&self) -> [f64; 2] {
        self.center_m
    }

    /// Its sizes along width and height, m; of a round hole twice its diameter.
    #[must_use]
    pub fn size_m(&self) -> [f64; 2] {
        self.size_m
    }

    /// Whether it is round.
    #[must_use]
    pub fn is_round(&self) -> bool {
        self.round
    }

    /// Refuses what reaches beyond a wall of this size.
    pub(super) fn check_inside(&self, wall_m: [f64; 2]) -> Result<()> {
        for (axis, name, wall) in [(0, "width", "interior_m[0]"), (1, "height", "interior_m[1]")] {
            let (center, half) = (self.center_m[axis], 0.5 * self.size_m[axis]);
            check::at_most(&format!("half the {name}"), "m", half, "distance of its centre from the edge", center)?;
            check::at_most(&format!("edge along the {name}"), "m", center + half, wall, wall_m[axis])?;
        }
        Ok(())
    }

    /// Refuses two that overlap; `names` are their paths.
    pub(super) fn check_apart(&self, other: &Self, names: [&str; 2]) -> Result<()> {
        let apart = |axis: usize| (self.center_m[axis] - other.center_m[axis]).abs();
        let needed = |axis: usize| 0.5 * (self.size_m[axis] + other.size_m[axis]);
        let (distance_m, needed_m) = if self.round && other.round {
            (apart(0).hypot(apart(1)), needed(0))
        } else if apart(0) - needed(0) > apart(1) - needed(1) {
            (apart(0), needed(0))
        } else {
            (apart(1), needed(1))
        };
        if distance_m >= needed_m {
            return Ok(());
        }
        Err(Error::Relation {
            quantity: format!("distance of {} from {}", names[1], names[0]),
            value: distance_m,
            unit: "m".into(),
            relation: "at least".into(),
            other: "half of both sizes".to_owned(),
            other_value: needed_m,
        })
    }

    /// What it can carry.
    pub(super) fn carried(&self, opening: usize) -> Vec<MouthField> {
        let ([x, y], center_m) = (self.size_m, self.center_m);
        let voltage = |axis: BoxAxis, mode: usize, length_m: f64, width_m: f64, slit: Slit| Voltage {
            opening,
            axis,
            center_m,
            mode,
            cutoff_per_m: if self.round { ROUND_TE / (0.5 * x) } else { mode as f64 * PI / length_m },
            end_correction: self.round.then_some(ROUND_TE_END),
            slit,
            length_m,
            width_m,
        };
        let lowest = |axis: BoxAxis, length_m: f64, width_m: f64, unit_polarizability: f64| {
            voltage(axis, 1, length_m, width_m, Slit::with_unit_polarizability(length_m, width_m, unit_polarizability))
        };
        let potential = |size_m: [f64; 2], polarizability_m3: f64, cutoff_per_m: f64| {
            std::iter::once(MouthField::Potential(Potential {
                opening,
                center_m,
                size_m,
                polarizability_m3,
                cutoff_per_m,
            }))
        };
        if self.round {
            // A square of the same area, with the polarizabilities 4r³/3 and 2r³/3 of the hole (H. A. Bethe, 1944).
            let (side_m, radius_m) = (0.5 * PI.sqrt() * x, 0.5 * x);
            let unit = (x / side_m).powi(3) / 6.0;
            let voltages = [BoxAxis::X, BoxAxis::Y].map(|axis| MouthField::Voltage(lowest(axis, side_m, side_m, unit)));
            let potential = potential([side_m; 2], 2.0 / 3.0 * radius_m.powi(3), ROUND_TM / radius_m);
            return voltages.into_iter().chain(potential).collect();
        }
        let (long, short, length_m, width_m) =
            if x >= y { (BoxAxis::X, BoxAxis::Y, x, y) } else { (BoxAxis::Y, BoxAxis::X, y, x) };
        let aspect = width_m / length_m;
        let unit = unit_rectangle(aspect);
        let higher = [2, 3].map(|mode| voltage(long, mode, length_m, width_m, Slit::of_mode(mode, length_m, width_m)));
        let first = lowest(long, length_m, width_m, unit.magnetic_along_m3);
        let first = lowest(long, length_m, width_m, beside_third(&first, &higher[1], unit.magnetic_along_m3));
        let short_way = lowest(short, width_m, length_m, unit.magnetic_across_m3 / aspect.powi(3));
        [first, higher[0], higher[1], short_way]
            .into_iter()
            .map(MouthField::Voltage)
            .chain(potential(self.size_m, unit.electric_m3 * length_m.powi(3), (PI / x).hypot(PI / y)))
            .collect()
    }
}

/// What is left for the first half-wave of the polarizability over the length's cube, so that it and the third have all
/// of it: in units of 2πl jωμ₀ Y at k = 0, and with what a uniform field sees of each, d = 2/mπ,
///
/// A₁₁ = A₁₃²/A₃₃ + (d₁ − d₃ A₁₃/A₃₃)²/(α/πl³ − d₃²/A₃₃),   and 4/(π A₁₁) is what one alone would have.
fn beside_third(first: &Voltage, third: &Voltage, unit_polarizability: f64) -> f64 {
    let [mutual, own] = [first, third].map(|other| {
        2.0 * PI * third.length_m * Link::new(&MouthField::Voltage(*other), &MouthField::Voltage(*third)).at(0.0).re
    });
    let [of_first, of_third] = [first, third].map(|one| one.mean_length_m() / one.length_m);
    let rest = of_first - of_third * mutual / own;
    4.0 / PI / (mutual * mutual / own + rest * rest / (unit_polarizability / PI - of_third * of_third / own))
}

impl Rebuild for BoxOpening {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let center_m = [
            knobs.value("x_m", "m", self.center_m[0], Domain::POSITIVE),
            knobs.value("y_m", "m", self.center_m[1], Domain::POSITIVE),
        ];
        if self.round {
            return Self::round(center_m, knobs.value("diameter_m", "m", self.size_m[0], Domain::POSITIVE));
        }
        let size_m = [
            knobs.value("width_m", "m", self.size_m[0], Domain::POSITIVE),
            knobs.value("height_m", "m", self.size_m[1], Domain::POSITIVE),
        ];
        Self::rectangle(center_m, size_m)
    }
}

/// First roots of J₁′ and J₀: the cutoffs of a round hole, in units of its radius.
const ROUND_TE: f64 = J1_PRIME_FIRST;
const ROUND_TM: f64 = J0_FIRST;

/// Admittance of a mouth over that of the depth far below cutoff, from the factor 4r/(1 + r)² of the lowest mode of a
/// round hole in a thick wall: 0.839 of TE11, 0.825 of TM01 (N. A. McDonald, IEEE Trans. MTT-20 (1972) 689, from
/// memory).
const ROUND_TE_END: f64 = 0.426_5;
pub(super) const TM_END: f64 = 0.409_7;

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    center_m: [f64; 2],
    #[serde(default, skip_serializing_if = "Option::is_none")]
    size_m: Option<[f64; 2]>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    diameter_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for BoxOpening {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        match (record.size_m, record.diameter_m) {
            (Some(size_m), None) => Self::rectangle(record.center_m, size_m),
            (None, Some(diameter_m)) => Self::round(record.center_m, diameter_m),
            _ => Err(Error::Empty { quantity: "size_m or diameter_m".to_owned() }),
        }
    }
}

#[cfg(feature = "serde")]
impl From<BoxOpening> for Record {
    fn from(opening: BoxOpening) -> Self {
        Self {
            center_m: opening.center_m,
            size_m: (!opening.round).then_some(opening.size_m),
            diameter_m: opening.round.then_some(opening.size_m[0]),
        }
    }
}
