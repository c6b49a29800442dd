//! Voltage lost in the lines under load, and the rise without it.
//!
//! A load current `I` that lags by an angle `phi` meets `R + jX` in the lines that it goes through. From the voltage `V` of
//! the supply is left
//!
//! ```text
//! V_load = sqrt(V^2 - b^2) - a,    a = I (R cos phi + X sin phi),    b = I (X cos phi - R sin phi)
//! ```
//!
//! so the drop is `a + b^2/(V + sqrt(V^2 - b^2))`, nearly `a + b^2/2V`; `|R + jX| I` bounds that of every power factor as
//! long as it is below `V` (it is reached at the impedance's own angle). Without load the capacitors' own current through the inductances lifts the
//! voltage, by `w^2 L C` of the loop to first order.

use num_complex::Complex64;

use super::bank::{Currents, Stage};
use super::line_matrix::{Basis, LineMatrix};
use crate::error::{Error, Result, check};
use crate::filter::{LineFilter, MainsSupply, SupplySystem};

/// Impedances that a load current can go through, ohm: a line and the neutral, the line alone where there is none. Three
/// phases without neutral are loaded alike, so that none returns through another.
pub(super) fn ways_ohm(system: SupplySystem, line_ohm: &[Complex64]) -> Vec<Complex64> {
    match system.neutral() {
        None => line_ohm.to_vec(),
        Some(neutral) => line_ohm[..neutral].iter().map(|line| line + line_ohm[neutral]).collect(),
    }
}

/// What a load current of an effective value in A loses of a voltage in V in an impedance, V; a rise is negative.
///
/// # Errors
/// For a power factor outside 0 to 1, or a current that the supply cannot drive at it.
pub(super) fn drop_v(
    voltage_v: f64,
    current_rms_a: f64,
    way_ohm: Complex64,
    power_factor: f64,
    leading: bool,
) -> Result<f64> {
    check::fraction("power_factor", power_factor)?;
    let sine = (1.0 - power_factor * power_factor).sqrt() * if leading { -1.0 } else { 1.0 };
    let along = current_rms_a * (way_ohm.re * power_factor + way_ohm.im * sine);
    let across = current_rms_a * (way_ohm.im * power_factor - way_ohm.re * sine);
    let square = voltage_v * voltage_v - across * across;
    let root = if square > 0.0 { square.sqrt() } else { -1.0 };
    if root < along {
        return Err(Error::OutOfRange {
            quantity: "load_current_rms_a".into(),
            value: current_rms_a,
            unit: "A".into(),
            accepted: "small enough for the supply to drive it through the filter".into(),
        });
    }
    Ok(along + across * across / (voltage_v + root))
}

impl LineFilter {
    /// The largest rise of a line's voltage against the neutral (another line; the case) at the far end without load, as a
    /// fraction; negative where all are lower.
    pub(super) fn no_load_rise(&self, supply: &MainsSupply) -> Option<f64> {
        let lines = self.lines();
        let idle = Currents { load_peak_a: 0.0, residual_peak_a: 0.0 };
        // What one volt at each far end in turn asks for at the near end.
        let mut voltage = LineMatrix::identity(lines);
        let mut current = LineMatrix::identity(lines).scaled(0.0);
        for bank in self.banks().iter().rev() {
            match bank.stage(lines, supply.frequency_hz(), idle, Basis::Lines) {
                Stage::Series(ohm) => voltage = voltage.plus(&ohm.times(&current)),
                Stage::Shunt(siemens) => current = current.plus(&siemens.times(&voltage)),
                Stage::Each(two_ports) => {
                    let chains = two_ports.map(|two_port| {
                        let (chain, ln_scale) = two_port.scaled_chain();
                        chain.map(|row| row.map(|entry| entry * ln_scale.exp()))
                    });
                    let mixed = |row: usize| {
                        LineMatrix::from_fn(lines, |line, column| {
                            chains[line][row][0] * voltage.get(line, column)
                                + chains[line][row][1] * current.get(line, column)
                        })
                    };
                    (voltage, current) = (mixed(0), mixed(1));
                }
            }
        }
        let near = supply.voltages();
        let mut column = [Complex64::new(0.0, 0.0); super::line_matrix::MOST];
        column[..lines].copy_from_slice(&near);
        let far = voltage.inverse()?.apply(&column);
        let to_case = matches!(supply.system(), SupplySystem::SingleLine).then(|| far[0].norm() / near[0].norm());
        let pairs = (0..lines).flat_map(|from| (from + 1..lines).map(move |to| (from, to)));
        let between = pairs.map(|(from, to)| (far[from] - far[to]).norm() / (near[from] - near[to]).norm());
        to_case.into_iter().chain(between).reduce(f64::max).map(|ratio| ratio - 1.0)
    }
}
