//! Back from a target to the thickness, sheet resistance, pitch or any other number of a laminate.
//!
//! The margin at the worst frequency is a continuous function of the number but has kinks (where
//! another frequency becomes the worst) and may turn (where a resonance passes). So the allowed
//! interval is scanned on a logarithmic scale, the first change from short of the target to reaching it
//! is bracketed, and the bracket is halved until it is narrower than rounding: bisection needs no
//! slope, and no library's faster rule is safe across kinks.

use super::laminate::Laminate;
use crate::choice::choice;
use crate::error::{Error, Result, check};
use crate::number_text::{Computed, Frequency};
use crate::parameter::Parameters;

/// Which end of the allowed interval to come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Prefer {
    /// The smallest value that reaches the target: thickness, wire diameter.
    Smallest,
    /// The largest one: sheet resistance, pitch, hole diameter.
    Largest,
}

choice!(Prefer, "preference" { Smallest => "smallest", Largest => "largest" });

/// A number that reaches a target.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Sizing {
    /// The value found, in the unit that ends its path.
    pub value: f64,
    /// What is left over at the worst frequency, dB, zero or positive.
    pub margin_db: f64,
    /// The worst frequency, Hz.
    pub worst_frequency_hz: f64,
    /// The laminate with that value.
    pub laminate: Laminate,
}

/// What to look for.
#[derive(Debug, Clone, Copy)]
pub struct SizingTask<'a> {
    /// Path of the number to change, such as `layers.0.thickness_m`.
    pub path: &'a str,
    /// Smallest and largest value allowed, positive.
    pub allowed: (f64, f64),
    /// From which end to come.
    pub prefer: Prefer,
    /// Frequencies of the band, Hz.
    pub frequency_hz: &'a [f64],
    /// Shielding to reach at each of them, dB.
    pub target_db: &'a [f64],
}

struct Worst {
    margin_db: f64,
    frequency_hz: f64,
    target_db: f64,
}

/// The value of one parameter of a laminate with which it reaches a target over a band.
///
/// `read` gives the shielding in dB of a laminate at the frequencies of the task, under whatever test it
/// is judged by.
///
/// # Errors
/// [`Error::Unreachable`] with the best that can be had, where no allowed value reaches the target;
/// those of `read` and of the laminate's constructor; for an unknown path, an empty band, lists of
/// unequal length, and an interval that is empty or not positive.
pub fn size_laminate(
    laminate: &Laminate,
    task: &SizingTask<'_>,
    read: impl Fn(&Laminate, &[f64]) -> Result<Vec<f64>>,
) -> Result<Sizing> {
    /// Values looked at before bracketing; a dip narrower than their spacing can be missed.
    const SCAN: i32 = 64;
    let (low, high) = task.allowed;
    check::positive("lowest", "", low)?;
    check::positive("highest", "", high)?;
    check::less_than("lowest", "", low, "highest", high)?;
    check::not_empty("frequency_hz", task.frequency_hz)?;
    check::frequencies(task.frequency_hz)?;
    check::same_length("target_db", task.target_db.len(), "frequency_hz", task.frequency_hz.len())?;
    check::all_finite("target_db", "dB", task.target_db)?;
    laminate.parameter(task.path)?;

    let at = |value: f64| -> Result<(Laminate, Worst)> {
        let changed = laminate.with_parameter(task.path, value)?;
        let mut worst = Worst { margin_db: f64::INFINITY, frequency_hz: 0.0, target_db: 0.0 };
        let read = read(&changed, task.frequency_hz)?;
        for ((shielding_db, &target_db), &frequency_hz) in read.iter().zip(task.target_db).zip(task.frequency_hz) {
            if shielding_db - target_db < worst.margin_db {
                worst = Worst { margin_db: shielding_db - target_db, frequency_hz, target_db };
            }
        }
        Ok((changed, worst))
    };
    let position = |step: i32| {
        let share = f64::from(step) / f64::from(SCAN);
        let share = if task.prefer == Prefer::Smallest { share } else { 1.0 - share };
        // Both ends exactly.
        if share == 0.0 {
            low
        } else if share == 1.0 {
            high
        } else {
            low * (high / low).powf(share)
        }
    };
    let mut short: Option<f64> = None;
    let mut best: Option<(f64, Worst)> = None;
    for step in 0..=SCAN {
        let value = position(step);
        let (changed, worst) = at(value)?;
        if worst.margin_db >= 0.0 {
            let found = match short {
                None => (value, changed, worst),
                Some(short) => bisect(short, value, (changed, worst), &at)?,
            };
            let (value, laminate, worst) = found;
            return Ok(Sizing { value, margin_db: worst.margin_db, worst_frequency_hz: worst.frequency_hz, laminate });
        }
        short = Some(value);
        if best.as_ref().is_none_or(|(_, best)| worst.margin_db > best.margin_db) {
            best = Some((value, worst));
        }
    }
    // The scan has at least two points, so that a best one exists.
    let (value, worst) =
        best.unwrap_or((low, Worst { margin_db: f64::NEG_INFINITY, frequency_hz: 0.0, target_db: 0.0 }));
    Err(Error::Unreachable {
        quantity: "shielding_db".to_owned(),
        target: worst.target_db,
        best: worst.target_db + worst.margin_db,
        unit: "dB".into(),
        at: format!("{} = {} and {}", task.path, Computed(value), Frequency(worst.frequency_hz)),
    })
}

/// Narrows from a value that is short of the target and one that reaches it.
fn bisect(
    mut short: f64,
    mut reaching: f64,
    (mut laminate, mut worst): (Laminate, Worst),
    at: &impl Fn(f64) -> Result<(Laminate, Worst)>,
) -> Result<(f64, Laminate, Worst)> {
    while (reaching / short).ln().abs() > 4.0 * f64::EPSILON {
        let middle = (short * reaching).sqrt();
        if middle == short || middle == reaching {
            break;
        }
        let (candidate, found) = at(middle)?;
        if found.margin_db >= 0.0 {
            (reaching, laminate, worst) = (middle, candidate, found);
        } else {
            short = middle;
        }
    }
    Ok((reaching, laminate, worst))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::Material;
    use crate::sheet::{Layer, PerforatedSheet, WireMesh};
    use crate::wave::PlaneWave;

    fn plane_wave(laminate: &Laminate, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        Ok(frequency_hz.iter().map(|&f| laminate.shielding_db(f, &PlaneWave::normal())).collect())
    }

    #[test]
    fn sheet_resistance_of_a_film() {
        // T = 2/(2 + η₀/R): 40 dB at R = η₀/198.
        let film = Laminate::new(vec![Layer::film(100.0).unwrap()]).unwrap();
        let task = SizingTask {
            path: "layers.0.sheet_resistance_ohm",
            allowed: (1e-3, 1e4),
            prefer: Prefer::Largest,
            frequency_hz: &[1e6, 1e9],
            target_db: &[40.0, 40.0],
        };
        let found = size_laminate(&film, &task, plane_wave).unwrap();
        assert!((found.value * 198.0 / crate::constants::VACUUM_IMPEDANCE - 1.0).abs() < 1e-12);
        assert!(found.margin_db >= 0.0 && found.margin_db < 1e-9);
    }

    #[test]
    fn thickness_and_pitch_meet_their_target_and_no_more() {
        let metal = Material::conductor("metal", 1e6, 1.0).unwrap();
        let slab = Laminate::new(vec![Layer::slab(metal.clone(), 1e-3).unwrap()]).unwrap();
        let task = SizingTask {
            path: "layers.0.thickness_m",
            allowed: (1e-9, 1e-1),
            prefer: Prefer::Smallest,
            frequency_hz: &[1e4, 1e5, 1e6],
            target_db: &[60.0, 80.0, 100.0],
        };
        let found = size_laminate(&slab, &task, plane_wave).unwrap();
        assert!(found.margin_db >= 0.0 && found.margin_db < 1e-9, "{found:?}");
        let mesh = Laminate::new(vec![Layer::mesh(WireMesh::new(1e-2, 1e-4, metal).unwrap())]).unwrap();
        let task = SizingTask {
            path: "layers.0.pitch_m",
            allowed: (2e-4, 1e-1),
            prefer: Prefer::Largest,
            frequency_hz: &[1e8],
            target_db: &[40.0],
        };
        let found = size_laminate(&mesh, &task, plane_wave).unwrap();
        assert!(found.margin_db >= 0.0 && found.margin_db < 1e-9, "{found:?}");
        assert_eq!(found.laminate.parameter("layers.0.pitch_m").unwrap(), found.value);
    }

    #[test]
    fn what_cannot_be_reached_says_what_can() {
        let holes = PerforatedSheet::new(1e-3, 3e-3, crate::sheet::HolePattern::Square, 0.5e-3).unwrap();
        let sheet = Laminate::new(vec![Layer::perforated(holes)]).unwrap();
        let task = SizingTask {
            path: "layers.0.pitch_m",
            allowed: (2e-3, 1e-2),
            prefer: Prefer::Smallest,
            frequency_hz: &[1e9],
            target_db: &[300.0],
        };
        let error = size_laminate(&sheet, &task, plane_wave).unwrap_err();
        let Error::Unreachable { best, target, ref at, .. } = error else { unreachable!("{error}") };
        assert_eq!(target, 300.0);
        let widest = plane_wave(&sheet.with_parameter("layers.0.pitch_m", 1e-2).unwrap(), &[1e9]).unwrap()[0];
        assert!((best - widest).abs() < 1e-12);
        assert!(at.contains("layers.0.pitch_m = 0.01 and 1 GHz"), "{at}");
        let nowhere = SizingTask { path: "layers.7.pitch_m", ..task };
        assert!(matches!(size_laminate(&sheet, &nowhere, plane_wave), Err(Error::UnknownParameter { .. })));
        let crossed = SizingTask { allowed: (1.0, 0.1), ..task };
        assert!(matches!(size_laminate(&sheet, &crossed, plane_wave), Err(Error::Relation { .. })));
    }
}
