//! The vent and the tube that just meet a target.

use super::air::Air;
use super::guide::{Guide, Shape, length};
use super::honeycomb::{Cell, HoneycombPanel};
use super::rod::Rod;
use super::tube::Tube;
use crate::decibel::DB_PER_NEPER;
use crate::error::{Error, Result, check};
use crate::number_text::{Frequency, Given};
use crate::wave::Polarization;

/// What a vent has to do, and what may be chosen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VentTask {
    /// Shielding under a plane wave along the normal, dB.
    pub target_db: f64,
    /// At this frequency and, since a vent gets worse up to its cutoff, at all below it, Hz.
    pub frequency_hz: f64,
    /// Flow that has to pass, m³/s.
    pub flow_m3_per_s: f64,
    /// Width and height of the face, m.
    pub size_m: (f64, f64),
    /// Smallest width of a cell that can be had, m.
    pub least_width_m: f64,
    /// Greatest depth that can be had, m.
    pub greatest_depth_m: f64,
}

impl VentTask {
    fn checked(&self) -> Result<()> {
        check::positive("target_db", "dB", self.target_db)?;
        check::frequency(self.frequency_hz)?;
        check::positive("flow_m3_per_s", "m3/s", self.flow_m3_per_s)?;
        length("size_m[0]", self.size_m.0)?;
        length("size_m[1]", self.size_m.1)?;
        length("least_width_m", self.least_width_m)?;
        length("greatest_depth_m", self.greatest_depth_m)?;
        check::at_most("least_width_m", "m", self.least_width_m, "size_m", self.size_m.0.min(self.size_m.1))?;
        check::at_most("least_width_m", "m", self.least_width_m, "greatest_depth_m", self.greatest_depth_m)?;
        Ok(())
    }

    fn shielding_db(&self, panel: &HoneycombPanel) -> f64 {
        panel.transmission(self.frequency_hz, 0.0, Polarization::Te).map_or(0.0, |t| t.shielding_db())
    }

    /// The least depth with the target for a cell, if any within what can be had; at least one width deep, where the model
    /// holds.
    fn shallowest(&self, cell: Cell) -> Result<Option<HoneycombPanel>> {
        let panel = |depth_m: f64| HoneycombPanel::new(cell, depth_m, self.size_m);
        let (mut low, mut high) = (cell.width_m(), self.greatest_depth_m);
        if low > high || self.shielding_db(&panel(high)?) < self.target_db {
            return Ok(None);
        }
        if self.shielding_db(&panel(low)?) >= self.target_db {
            return panel(low).map(Some);
        }
        while high - low > 1e-9 * high {
            let middle = 0.5 * (low + high);
            if self.shielding_db(&panel(middle)?) < self.target_db { low = middle } else { high = middle }
        }
        panel(high).map(Some)
    }
}

/// The panel with the target shielding and the least pressure drop: cells like `like` (their kind, and their wall's
/// thickness and conductivity), of any width below their cutoff, each as shallow as the target allows.
///
/// # Errors
/// [`Error::Unreachable`] with the best shielding that can be had, where even the smallest cell at the greatest depth falls
/// short; otherwise for values that are not positive and finite.
pub fn size_vent(task: &VentTask, like: &Cell, air: &Air) -> Result<HoneycombPanel> {
    const STEPS: i32 = 60;
    task.checked()?;
    let with_width = |width_m: f64| resized(like, width_m);
    let cutoff_width_m = like.width_m() * like.guide().cutoff_hz() / task.frequency_hz;
    let widest_m = cutoff_width_m.min(task.size_m.0.min(task.size_m.1)).min(task.greatest_depth_m);
    let velocity = task.flow_m3_per_s / (task.size_m.0 * task.size_m.1);
    let mut best: Option<(f64, HoneycombPanel)> = None;
    let mut consider = |width_m: f64| -> Result<Option<f64>> {
        if let Some(panel) = task.shallowest(with_width(width_m)?)? {
            let pressure = panel.pressure_drop(velocity, air)?.total_pa();
            if best.as_ref().is_none_or(|(least, _)| pressure < *least) {
                best = Some((pressure, panel));
            }
        }
        Ok(best.as_ref().map(|(_, panel)| panel.cell().width_m()))
    };
    if widest_m >= task.least_width_m {
        let step = (widest_m / task.least_width_m).powf(1.0 / f64::from(STEPS));
        let mut found = None;
        for index in 0..=STEPS {
            found = consider(task.least_width_m * step.powi(index))?;
        }
        // Finer about the best: the drop falls with the width and rises where the cutoff comes near.
        if let Some(about) = found {
            for part in -20..=20 {
                let width_m = about * step.powf(f64::from(part) / 20.0);
                consider(width_m.clamp(task.least_width_m, widest_m))?;
            }
        }
    }
    match best {
        Some((_, panel)) => Ok(panel),
        None => {
            let deepest = HoneycombPanel::new(with_width(task.least_width_m)?, task.greatest_depth_m, task.size_m)?;
            Err(Error::Unreachable {
                quantity: "shielding_db".to_owned(),
                target: task.target_db,
                best: task.shielding_db(&deepest),
                unit: "dB".into(),
                at: format!("a cell {} m wide and {} m deep", Given(task.least_width_m), Given(task.greatest_depth_m)),
            })
        }
    }
}

fn resized(like: &Cell, width_m: f64) -> Result<Cell> {
    let cell = match like.guide().shape() {
        Shape::Circle { .. } => Cell::round(width_m, like.wall_m()),
        Shape::Rectangle { .. } => Cell::square(width_m, like.wall_m()),
        Shape::Hexagon { .. } => Cell::hexagonal(width_m, like.wall_m()),
    }?;
    cell.walled(like.guide().wall_conductivity_s_per_m())
}

/// The shortest tube whose attenuation α·L reaches a target at a frequency, with what lies inside: that of the mode which decays least, with
/// a rod often TM0.
///
/// The ends only add to that well below cutoff; the leak's cross-section says by how much.
///
/// # Errors
/// [`Error::Unreachable`] where the tube is at or above its cutoff, or would be longer than `greatest_length_m`; otherwise
/// for values that are not positive and finite, or a rod that does not fit.
pub fn size_tube(
    guide: Guide,
    rod: Option<Rod>,
    target_db: f64,
    frequency_hz: f64,
    greatest_length_m: f64,
) -> Result<Tube> {
    check::positive("target_db", "dB", target_db)?;
    check::frequency(frequency_hz)?;
    let with_length = |length_m: f64| {
        let tube = Tube::new(guide, length_m)?;
        rod.map_or(Ok(tube.clone()), |rod| tube.with_rod(rod))
    };
    let longest = with_length(length("greatest_length_m", greatest_length_m)?)?;
    let best = longest.attenuation_db(frequency_hz);
    if best < target_db {
        return Err(Error::Unreachable {
            quantity: "attenuation_db".to_owned(),
            target: target_db,
            best,
            unit: "dB".into(),
            at: format!("a length of {} m, cutoff {}", Given(greatest_length_m), Frequency(longest.cutoff_hz())),
        });
    }
    let nepers = target_db / DB_PER_NEPER;
    with_length(nepers / (best / DB_PER_NEPER / greatest_length_m))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn task() -> VentTask {
        VentTask {
            target_db: 80.0,
            frequency_hz: 28e9,
            flow_m3_per_s: 0.03,
            size_m: (0.3, 0.3),
            least_width_m: 1e-3,
            greatest_depth_m: 0.05,
        }
    }

    #[test]
    fn the_vent_meets_its_target_and_no_neighbour_is_better() {
        let like = Cell::hexagonal(4.8e-3, 0.05e-3).unwrap();
        let air = Air::default();
        let task = task();
        let panel = size_vent(&task, &like, &air).unwrap();
        assert!(task.shielding_db(&panel) >= 80.0 - 1e-6 && task.shielding_db(&panel) < 80.1);
        let pressure = |panel: &HoneycombPanel| panel.pressure_drop(0.03 / 0.09, &air).unwrap().total_pa();
        for factor in [0.9, 0.97, 1.03, 1.1] {
            let cell = resized(&like, panel.cell().width_m() * factor).unwrap();
            if let Some(other) = task.shallowest(cell).unwrap() {
                assert!(pressure(&other) >= pressure(&panel) * (1.0 - 1e-4), "{factor}");
            }
        }
    }

    #[test]
    fn what_cannot_be_had_is_said_with_the_best() {
        let like = Cell::hexagonal(4.8e-3, 0.05e-3).unwrap();
        let error = size_vent(&VentTask { least_width_m: 8e-3, ..task() }, &like, &Air::default()).unwrap_err();
        assert!(matches!(error, Error::Unreachable { target: 80.0, best, .. } if best < 10.0), "{error}");
        let tube = Guide::circular(6e-3).unwrap();
        assert!(matches!(size_tube(tube, None, 100.0, 40e9, 1.0), Err(Error::Unreachable { .. })));
        let sized = size_tube(tube, None, 100.0, 18e9, 1.0).unwrap();
        assert!((sized.attenuation_db(18e9) - 100.0).abs() < 1e-9);
    }
}
