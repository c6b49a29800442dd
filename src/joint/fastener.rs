//! Fasteners that short a seam, with an impedance of their own.
//!
//! A fastener presses the faces together through the depth d of the overlap and leaves Z_f between them. On the
//! sheet of the gap (series impedance Z' per square, p from fastener to fastener) that is a wall of the admittance
//! 1/(Z_f d) per depth, half of it for each of the two bays, and the modes that are even about the middle of a bay
//! are cos κx, x from there, with
//!
//! w tan w = 1/v,   w = κp/2,   v = 4 Z_f d/(Z' p).
//!
//! Ideal fasteners (v = 0) leave κ = mπ/p, m odd; without them (v → ∞) the lowest becomes the wave that does not
//! vary along the seam. Of a field that is the same all along the bay a mode takes, and gives back, the share
//!
//! c = (mean of cos κx)²/(mean of cos² κx) = 2/(w² (1 + v + w²v²)).
//!
//! Derived here; the problem is that of heat conduction in a plate with surface resistance (H. S. Carslaw,
//! J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., 1959, sec. 3.11, from memory).

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::error::Result;
use crate::parameter::Element;

/// What one fastener leaves between the faces.
///
/// By default 0.25 mohm and no inductance: of the size of a bolt through plated sheets (common practice, no
/// source). Paint, corrosion and lost torque change it by orders of magnitude; below some hundred kilohertz it
/// often decides what a seam passes.
#[derive(Debug, Clone, Copy, PartialEq, Default, Element)]
#[element(new = none, settle)]
pub struct Fastener {
    /// What one fastener leaves between the faces. 0.25 mohm where not given.
    #[parameter(non_negative, setter = none)]
    fastener_resistance_ohm: Option<f64>,
    /// Inductance of that. Zero where not given.
    #[parameter(within(0.0, 1.0), setter = none)]
    fastener_inductance_h: Option<f64>,
}

/// Of the size of a bolt through plated sheets, ohm (common practice, no source).
const USUAL_OHM: f64 = 0.25e-3;

impl Fastener {
    /// By its resistance (ohm) and inductance (H). Both zero is an ideal short.
    ///
    /// # Errors
    /// Unless both are zero or positive, the resistance finite and the inductance at most 1 H.
    pub fn new(fastener_resistance_ohm: f64, fastener_inductance_h: f64) -> Result<Self> {
        Self::checked(Some(fastener_resistance_ohm), Some(fastener_inductance_h))
    }

    /// Of what is stated of only one of the two, the other is that of the default.
    fn settle(self) -> Result<Self> {
        Ok(if self.is_stated() { self.stretched(1.0) } else { self })
    }

    /// An ideal short.
    #[must_use]
    pub fn ideal() -> Self {
        Self { fastener_resistance_ohm: Some(0.0), fastener_inductance_h: Some(0.0) }
    }

    /// Resistance, ohm: as stated, or the default.
    #[must_use]
    pub fn resistance_ohm(&self) -> f64 {
        self.fastener_resistance_ohm.unwrap_or(USUAL_OHM)
    }

    /// Inductance, H: as stated, or the default.
    #[must_use]
    pub fn inductance_h(&self) -> f64 {
        self.fastener_inductance_h.unwrap_or(0.0)
    }

    /// The same between faces that are this many times as far apart.
    pub(super) fn stretched(self, times: f64) -> Self {
        Self {
            fastener_resistance_ohm: Some(self.resistance_ohm() * times),
            fastener_inductance_h: Some(self.inductance_h() * times),
        }
    }

    /// Whether somebody said what its impedance is.
    #[must_use]
    pub fn is_stated(&self) -> bool {
        self.fastener_resistance_ohm.is_some() || self.fastener_inductance_h.is_some()
    }

    /// Impedance, ohm.
    #[must_use]
    pub fn impedance_ohm(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(self.resistance_ohm(), 2.0 * PI * frequency_hz * self.inductance_h())
    }
}

/// A mode between two fasteners: its w = κp/2 and the share c that it takes.
#[derive(Debug, Clone, Copy)]
pub(super) struct WallMode {
    pub half_phase: Complex64,
    pub share: Complex64,
}

impl WallMode {
    /// Mode m, odd, by v; between the odd numbers it is continued. |arg v| ≤ π/2.
    pub(super) fn new(mode: f64, v: Complex64) -> Self {
        if v.norm_sqr() > HUGE {
            // Nothing but the wave that does not vary along the seam: w² = 1/v, and next to nothing of the others.
            let lowest = mode < 2.0;
            let half_phase = if lowest { v.sqrt().inv() } else { (0.5 * PI * (mode - 1.0)).into() };
            return Self { half_phase, share: if lowest { 1.0.into() } else { Complex64::ZERO } };
        }
        let half_phase = half_phase(mode, v);
        let w_squared = half_phase * half_phase;
        Self { half_phase, share: 2.0 / (w_squared * (1.0 + v + w_squared * v * v)) }
    }

    /// Mode m between ideal fasteners.
    pub(super) fn ideal(mode: f64) -> Self {
        let w = 0.5 * PI * mode;
        Self { half_phase: w.into(), share: (2.0 / (w * w)).into() }
    }
}

/// The root of v w sin w = cos w between (m − 1)π/2 and mπ/2, by Newton's method, in its distance from the former.
fn half_phase(mode: f64, v: Complex64) -> Complex64 {
    let from = 0.5 * PI * (mode - 1.0);
    let mut x = if mode < 2.0 {
        1.0 / (v + 4.0 / (PI * PI)).sqrt()
    } else {
        0.5 * PI / (1.0 + v * (from + 0.5 * PI / (1.0 + v * from)))
    };
    for _ in 0..MOST_STEPS {
        let (sine, cosine) = (x.sin(), x.cos());
        let w = x + from;
        let step = (v * w * sine - cosine) / (v * (sine + w * cosine) + sine);
        x -= step;
        if step.norm_sqr() <= DONE * x.norm_sqr() {
            break;
        }
    }
    x + from
}

/// |v|² of fasteners that are none.
const HUGE: f64 = 1e60;
/// Newton's method takes five steps at most, whatever v.
const MOST_STEPS: usize = 12;
/// Squared step, relative, after which the next one is below the last digit.
const DONE: f64 = 1e-20;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_mode_has_a_root_of_its_own() {
        for exponent in -100..=100 {
            for angle in [-0.5, -0.3, 0.0, 0.2, 0.25, 0.5] {
                let v = Complex64::from_polar(10f64.powf(0.1 * f64::from(exponent)), angle * PI);
                let mut before = -1.0;
                for mode in [1.0, 3.0, 5.0, 7.0, 11.5, 60.0, 500.0] {
                    let w = WallMode::new(mode, v).half_phase;
                    let x = w - 0.5 * PI * (mode - 1.0);
                    let (sine, cosine) = (x.sin(), x.cos());
                    // What one more step of Newton's method would change; a high mode's phase is rounded before it is taken.
                    let step = (v * w * sine - cosine) / (v * (sine + w * cosine) + sine);
                    assert!(step.norm() < 1e-14 * x.norm() + f64::EPSILON * w.norm(), "{v} {mode}: {w}");
                    assert!(w.re > before, "{v} {mode}: {w} after {before}");
                    before = w.re;
                }
            }
        }
    }

    #[test]
    fn the_shares_of_all_modes_are_one() {
        // What is the same all along the bay is the sum of what its modes have of it.
        for v in
            [Complex64::new(0.0, 0.0), Complex64::new(0.3, -0.4), Complex64::new(2.0, 0.0), Complex64::new(0.0, -50.0)]
        {
            let sum: Complex64 = (0..20_000).map(|j| WallMode::new(f64::from(2 * j + 1), v).share).sum();
            // Without impedance the shares fall as 1/m² only.
            assert!((sum - 1.0).norm() < 3e-5, "{v}: {sum}");
        }
    }

    #[test]
    fn no_fasteners_leave_one_mode() {
        let mode = WallMode::new(1.0, Complex64::new(1e40, 0.0));
        assert!((mode.share - 1.0).norm() < 1e-14 && mode.half_phase.norm() < 1e-19);
        assert!(WallMode::new(3.0, Complex64::new(1e40, 0.0)).share.norm() < 1e-70);
    }
}
