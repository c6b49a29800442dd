//! The joint between a panel and its frame.
//!
//! A gap all around the panel, bridged by a gasket, a solder seam or bolted metal with the transfer impedance Z_T = R + jωL of a
//! length of joint (Ω·m): a shunt jωμ₀g/Z_T in an endless slit of the width g, as for any gasketed joint. What a panel is fastened
//! with decides Z_T; it is to be measured, or taken from the maker of the gasket.
//!
//! The cells and the joint are two leaks: spread over the face the one, along its outline the other ([`JointAround`]).

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::{VACUUM_IMPEDANCE, wavenumber_per_m};
use crate::error::{Result, check};
use crate::leak::{Extent, Leak};
use crate::mouth::chain::{Chain, ln_mode_area};
use crate::mouth::slit::{ln_endless_modes, ln_shortened, narrow_gap};
use crate::parameter::{Element, Knobs, Rebuild};
use crate::validity::Validity;

/// The joint all around a panel.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(
    new(gap_m, resistance_ohm_m, inductance_h_m),
    settle,
    errors = "a contact of no impedance at all, which would leak nothing"
)]
pub struct FrameJoint {
    /// Gap between panel and frame, from 1e-9 to 0.1.
    #[parameter(within(1e-9, 0.1))]
    gap_m: f64,
    /// Resistance of the contact over a length of joint, ohm.
    #[parameter(within(0.0, 1e9), default = 0.0, setter = none)]
    resistance_ohm_m: f64,
    /// Inductance of the contact over a length of joint; one of both is positive.
    #[parameter(within(0.0, 1.0), default = 0.0, setter = none)]
    inductance_h_m: f64,
}

impl FrameJoint {
    fn settle(self) -> Result<Self> {
        if self.inductance_h_m == 0.0 {
            // A contact of no impedance at all would leak nothing.
            check::positive("resistance_ohm_m", "ohm m", self.resistance_ohm_m)?;
        }
        Ok(self)
    }

    /// ln of the averaged cross-section of `length_m` of it, m².
    pub(super) fn ln_cross_section(&self, length_m: f64, frequency_hz: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let impedance = Complex64::new(self.resistance_ohm_m, 2.0 * PI * frequency_hz * self.inductance_h_m);
        let chain = Chain::through().shunt(Complex64::new(0.0, k * VACUUM_IMPEDANCE * self.gap_m) / impedance);
        let modes = ln_endless_modes((length_m, self.gap_m), 0.0, k, |_| chain, |_| 1.0);
        ln_mode_area(k) + modes + ln_shortened(ln_apart(length_m, k))
    }

    pub(super) fn validity(&self, frequency_hz: f64) -> Validity {
        narrow_gap(self.gap_m, frequency_hz)
    }
}

/// Dipole by dipole a line gains 6π/(5 k s) from its own coherence; as a whole, no more than all its dipoles: ln of the dipoles over
/// that gain.
fn ln_apart(length_m: f64, wavenumber_per_m: f64) -> f64 {
    (wavenumber_per_m * length_m / (1.2 * PI)).ln()
}

/// The joint all around one panel, as a leak.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct JointAround {
    pub(super) joint: FrameJoint,
    /// Of the panel, m.
    pub(super) size_m: (f64, f64),
}

impl JointAround {
    /// A contact without gaps, in so many pieces.
    const ELEMENTS: usize = 1000;

    fn length_m(&self) -> f64 {
        2.0 * (self.size_m.0 + self.size_m.1)
    }
}

impl Leak for JointAround {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        self.joint.ln_cross_section(self.length_m(), frequency_hz)
    }

    /// What its pieces gain from being in step, up to all of them, is taken out again.
    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        for ((sum, &f), ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            let apart = ln_apart(self.length_m(), wavenumber_per_m(f));
            *sum = ln + apart - ln_shortened(apart);
        }
    }

    /// Its directivity is left at 3: a straight line that an antenna matches has 15/π, but of an outline only the sides along the
    /// wave's magnetic field are matched; for a square that makes 15/2π.
    fn extent(&self) -> Extent {
        Extent::Outline { width_m: self.size_m.0, height_m: self.size_m.1, elements: Self::ELEMENTS }
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.joint.validity(frequency_hz)
    }
}

impl Rebuild for JointAround {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(Self { joint: self.joint.rebuild(knobs)?, ..*self })
    }
}
