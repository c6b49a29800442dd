//! Current-compensated chokes.
//!
//! One winding for each line on a common core: self-inductance `L`, mutual inductance `k L`. With `n` lines, common
//! mode meets `(1 + (n - 1) k) L/n`, a pair of lines differentially `2 (1 - k) L`. The load current goes out and
//! back and magnetises the core only by its leakage flux; what does not come back through the choke magnetises it fully.
//!
//! Valid below the first self-resonance of the windings and while the choke is small against the wavelength; beyond,
//! use a measured network.

use num_complex::Complex64;

use super::line_matrix::LineMatrix;
use crate::circuit::bounds;
use crate::error::{Result, check};
use crate::filter::Saturation;
use crate::parameter::Element;

const ONE: Complex64 = Complex64::new(1.0, 0.0);

/// A current-compensated choke: one winding for each line on a common core.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
pub struct CommonModeChoke {
    /// Self-inductance of each winding.
    #[parameter(circuit_positive)]
    inductance_h: f64,
    /// Coupling between windings.
    #[parameter(from_to_below(0.0, 1.0))]
    coupling: f64,
    /// Resistance of each winding.
    #[parameter(circuit_non_negative, default = 0.0)]
    resistance_ohm: f64,
    /// Capacitance across each winding.
    #[parameter(circuit_non_negative, default = 0.0)]
    parallel_capacitance_f: f64,
    /// Relaxation frequency of the permeability.
    #[parameter(circuit_positive)]
    relaxation_hz: Option<f64>,
    /// Law of saturation.
    #[part(inline, copy, free)]
    saturation: Option<Saturation>,
}

impl CommonModeChoke {
    /// From the self-inductance of each winding and the leakage inductance of a pair of lines in series, both in
    /// H: what a meter reads on two windings with the other ends joined.
    ///
    /// # Errors
    /// Unless both are positive and the leakage is below twice the inductance.
    pub fn from_leakage(inductance_h: f64, leakage_h: f64) -> Result<Self> {
        bounds::positive("inductance_h", "H", inductance_h)?;
        bounds::positive("leakage_h", "H", leakage_h)?;
        check::at_most("leakage_h", "H", leakage_h, "twice inductance_h", 2.0 * inductance_h)?;
        Self::new(inductance_h, 1.0 - 0.5 * leakage_h / inductance_h)
    }

    /// The current in all windings alike that would magnetise the core as these peak currents do, A: the residual current,
    /// and of the load current, which goes out in one winding and comes back in others, the share that the leakage
    /// flux makes of it, `(1 - k)/(1 + (n - 1) k)`. The leakage flux is counted as if all of it ran through the core,
    /// which is the cautious bound.
    #[must_use]
    pub fn magnetising_peak_a(&self, lines: usize, load_peak_a: f64, residual_peak_a: f64) -> f64 {
        let others = lines.saturating_sub(1) as f64;
        // One winding alone compensates nothing.
        let share = if lines > 1 { (1.0 - self.coupling) / (1.0 + others * self.coupling) } else { 1.0 };
        residual_peak_a.abs() + share * load_peak_a.abs()
    }

    /// What is left of the core's inductance under that peak current, from 1 down to 0.
    #[must_use]
    pub fn remaining(&self, magnetising_peak_a: f64) -> f64 {
        self.saturation.map_or(1.0, |law| law.remaining(magnetising_peak_a))
    }

    /// What is left of it for the voltage drop of a sine of this effective value in all windings alike, A: the mean over the
    /// period.
    #[must_use]
    pub fn mean_remaining(&self, magnetising_rms_a: f64) -> f64 {
        self.saturation.map_or(1.0, |law| law.mean_remaining(magnetising_rms_a))
    }

    /// Leakage inductance of a pair of lines in series, H.
    #[must_use]
    pub fn leakage_h(&self) -> f64 {
        2.0 * (1.0 - self.coupling) * self.inductance_h
    }

    // Impedance matrix, at an angular frequency in rad/s and a magnetising current in A.
    pub(super) fn impedance(&self, lines: usize, omega: f64, magnetising_peak_a: f64) -> LineMatrix {
        let fall = self.remaining(magnetising_peak_a)
            * self
                .relaxation_hz
                .map_or(ONE, |f| (ONE + Complex64::new(0.0, omega / (std::f64::consts::TAU * f))).inv());
        let leakage = Complex64::new(self.resistance_ohm, omega * (1.0 - self.coupling) * self.inductance_h);
        let mutual = Complex64::new(0.0, omega * self.coupling * self.inductance_h) * fall;
        // Eigenvalues of the matrix: common n mutual + leakage, all others leakage. The winding capacitance
        // is across each winding, hence across each eigenmode.
        let across = Complex64::new(0.0, omega * self.parallel_capacitance_f);
        let n = lines as f64;
        let shunted = |z: Complex64| z / (ONE + z * across);
        let (common, other) = (shunted(leakage + mutual * n), shunted(leakage));
        let mutual = (common - other) / n;
        LineMatrix::symmetric(lines, other + mutual, mutual)
    }
}
