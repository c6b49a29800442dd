//! Air through a honeycomb: what a vent costs in pressure.
//!
//! Per dynamic head ½ρU² of the velocity U in the cells,
//!
//! Δp/(½ρU²) = K_c + 4 f L/D_h + K_e.
//!
//! - Laminar friction of the developing flow (R. K. Shah, "A correlation for laminar hydrodynamic entry length solutions",
//!   J. Fluids Eng. 100 (1978) 177; its abstract, read, gives ±2.4 % for circles, rectangles and triangles; the equation from memory):
//!   f Re = 3.44/√x⁺ + (c + K_∞/(4x⁺) − 3.44/√x⁺)/(1 + C/x⁺²), x⁺ = L/(D_h Re), with c the developed value: circle 16, square 14.227,
//!   hexagon 15.054 (R. K. Shah, A. L. London, *Laminar Flow Forced Convection in Ducts*, 1978, from memory; computed again in the
//!   tests). The source has no hexagon: its K_∞ and C are taken between those of the circle and the square.
//! - Transition and turbulence, smooth wall: joined by S. W. Churchill, Chem. Eng. 84 (1977) no. 24, 91 (from memory).
//! - Sharp entrance K_c = 0.42 (1 − s) and sudden exit K_e = (1 − s)², s the open fraction (F. M. White, *Fluid Mechanics*,
//!   sec. 6.9, from memory; there for s < 0.58). The exit is Borda's and Carnot's and undisputed. Of the entrance other correlations
//!   say otherwise: against D. C. Rennels, H. M. Hudson, *Pipe Flow*, 2012 (as a general fluid library has it) this one is 0.13 heads
//!   lower at s = 0.5, 0.05 lower at 0.7, and up to 0.01 higher above 0.9, where foil honeycomb is. What a developed profile gives back
//!   at the exit is not credited: the answer is high by at most 0.7 dynamic heads.
//!
//! How much fresh air the people in a room need is set by local code; ventilation of occupied rooms is designed by those who
//! answer for it.

use super::guide::Shape;
use super::honeycomb::HoneycombPanel;
use crate::error::{Result, check};
use crate::validity::Validity;

/// The air that flows.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Air {
    density_kg_per_m3: f64,
    viscosity_pa_s: f64,
}

impl Default for Air {
    /// Dry air at 20 °C and 101 325 Pa: 1.204 kg/m³, 18.25 µPa·s.
    fn default() -> Self {
        Self { density_kg_per_m3: 1.204, viscosity_pa_s: 18.25e-6 }
    }
}

impl Air {
    /// Air of a density in kg/m³ and a dynamic viscosity in Pa·s.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn new(density_kg_per_m3: f64, viscosity_pa_s: f64) -> Result<Self> {
        Ok(Self {
            density_kg_per_m3: check::positive("density_kg_per_m3", "kg/m3", density_kg_per_m3)?,
            viscosity_pa_s: check::positive("viscosity_pa_s", "Pa s", viscosity_pa_s)?,
        })
    }

    /// Density, kg/m³.
    #[must_use]
    pub fn density_kg_per_m3(&self) -> f64 {
        self.density_kg_per_m3
    }

    /// Dynamic viscosity, Pa·s.
    #[must_use]
    pub fn viscosity_pa_s(&self) -> f64 {
        self.viscosity_pa_s
    }
}

/// Fresh air for `people` at the caller's figure for one person, m³/s. The figure comes from local code.
///
/// # Errors
/// Unless the figure is positive and finite.
pub fn fresh_air_m3_per_s(people: usize, per_person_m3_per_s: f64) -> Result<f64> {
    Ok(people as f64 * check::positive("per_person_m3_per_s", "m3/s", per_person_m3_per_s)?)
}

/// Where a vent's pressure goes, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PressureDrop {
    /// At the entrance.
    pub entrance_pa: f64,
    /// Along the cells, the developing profile included.
    pub friction_pa: f64,
    /// At the exit.
    pub exit_pa: f64,
    /// Reynolds number in the cells, on the hydraulic diameter.
    pub reynolds: f64,
}

impl PressureDrop {
    /// The sum, Pa.
    #[must_use]
    pub fn total_pa(&self) -> f64 {
        self.entrance_pa + self.friction_pa + self.exit_pa
    }
}

/// Developed f·Re (Fanning, hydraulic diameter), and Shah's K_∞ and C.
fn laminar(shape: &Shape) -> (f64, f64, f64) {
    match *shape {
        Shape::Circle { .. } => (16.0, 1.25, 2.12e-4),
        Shape::Hexagon { .. } => (15.054, 1.335, 2.4e-4),
        // Square cells only: a honeycomb has no other rectangle.
        Shape::Rectangle { .. } => (14.227, 1.43, 2.9e-4),
    }
}

/// Apparent Fanning friction factor over the length of a smooth duct.
fn friction(shape: &Shape, length_m: f64, reynolds: f64) -> f64 {
    let (developed, head, bend) = laminar(shape);
    let x = length_m / (shape.hydraulic_diameter_m() * reynolds);
    let entry = 3.44 / x.sqrt();
    let laminar = (entry + (developed + head / (4.0 * x) - entry) / (1.0 + bend / (x * x))) / reynolds;
    let a = (2.457 * (reynolds / 7.0).powf(0.9).ln()).max(0.0).powi(16);
    let b = (37_530.0 / reynolds).powi(16);
    2.0 * ((0.5 * laminar).powi(12) + (a + b).powf(-1.5)).powf(1.0 / 12.0)
}

impl HoneycombPanel {
    /// Pressure drop at a face velocity (flow over the whole face's area), m/s.
    ///
    /// # Errors
    /// Unless the velocity is positive and finite.
    pub fn pressure_drop(&self, face_velocity_m_per_s: f64, air: &Air) -> Result<PressureDrop> {
        check::positive("face_velocity_m_per_s", "m/s", face_velocity_m_per_s)?;
        Ok(self.drop_at(face_velocity_m_per_s, air))
    }

    fn drop_at(&self, face_velocity_m_per_s: f64, air: &Air) -> PressureDrop {
        let (shape, open) = (self.cell().guide().shape(), self.cell().open_fraction());
        let velocity = face_velocity_m_per_s / open;
        let diameter_m = shape.hydraulic_diameter_m();
        let reynolds = air.density_kg_per_m3 * velocity * diameter_m / air.viscosity_pa_s;
        let head_pa = 0.5 * air.density_kg_per_m3 * velocity * velocity;
        PressureDrop {
            entrance_pa: 0.42 * (1.0 - open) * head_pa,
            friction_pa: 4.0 * friction(shape, self.depth_m(), reynolds) * self.depth_m() / diameter_m * head_pa,
            exit_pa: (1.0 - open).powi(2) * head_pa,
            reynolds,
        }
    }

    /// Flow through the panel at a pressure drop, m³/s.
    ///
    /// # Errors
    /// Unless the pressure is positive and finite.
    pub fn flow_m3_per_s(&self, pressure_pa: f64, air: &Air) -> Result<f64> {
        check::positive("pressure_pa", "Pa", pressure_pa)?;
        // The drop rises with the velocity: bracket it, then halve the bracket in the logarithm.
        let (mut low, mut high) = (1e-12_f64, 1.0_f64);
        while self.drop_at(high, air).total_pa() < pressure_pa && high < 1e12 {
            high *= 4.0;
        }
        for _ in 0..200 {
            let middle = (low * high).sqrt();
            if self.drop_at(middle, air).total_pa() < pressure_pa { low = middle } else { high = middle }
        }
        Ok(high * self.area_m2())
    }

    /// Where the pressure drop holds: incompressible flow.
    pub fn air_validity(&self, face_velocity_m_per_s: f64) -> Validity {
        Validity::within(
            "incompressible flow",
            "velocity in the cells",
            "m/s",
            face_velocity_m_per_s / self.cell().open_fraction(),
            (0.0, 100.0),
            "the air's density changes along the cells",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::Cell;

    fn panel(cell: Cell, depth_m: f64) -> HoneycombPanel {
        HoneycombPanel::new(cell, depth_m, (0.3, 0.3)).unwrap()
    }

    #[test]
    fn long_cells_reach_the_developed_value() {
        for (cell, developed) in [
            (Cell::round(5e-3, 0.1e-3), 16.0),
            (Cell::square(5e-3, 0.1e-3), 14.227),
            (Cell::hexagonal(5e-3, 0.1e-3), 15.054),
        ] {
            let panel = panel(cell.unwrap(), 100.0);
            let shape = panel.cell().guide().shape();
            assert!((friction(shape, 1000.0, 300.0) * 300.0 / developed - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn short_cells_cost_more_per_length_and_turbulence_more_still() {
        let shape = Shape::Hexagon { across_flats_m: 5e-3 };
        assert!(friction(&shape, 5e-3, 1000.0) > 2.0 * friction(&shape, 0.5, 1000.0));
        // Smooth turbulent pipe at Re = 1e5: Fanning 0.0045 (Moody chart, from memory).
        assert!((friction(&shape, 1000.0, 1e5) / 0.0045 - 1.0).abs() < 0.02);
    }

    #[test]
    fn flow_undoes_drop() {
        let panel = panel(Cell::hexagonal(4.8e-3, 0.05e-3).unwrap(), 25e-3);
        let air = Air::default();
        for velocity in [0.01, 1.0, 5.0, 30.0] {
            let pressure = panel.pressure_drop(velocity, &air).unwrap().total_pa();
            let flow = panel.flow_m3_per_s(pressure, &air).unwrap();
            assert!((flow / panel.area_m2() / velocity - 1.0).abs() < 1e-9);
        }
    }
}
