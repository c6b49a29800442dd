//! Anything flat that a wave goes through as a whole.

use std::fmt::Debug;

use num_complex::Complex64;

use super::incidence::{Incidence, Polarization};
use super::waves::Waves;
use crate::decibel::LogTransmission;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::{Result, leak::AnyObject};
use std::sync::Arc;

/// A transmission T = exp(−exponent)/forward, so that neither a logarithm nor a tiny number is needed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Passed {
    /// Nepers and radians.
    pub exponent: Complex64,
    /// A factor within the range of numbers.
    pub forward: Complex64,
}

impl Passed {
    /// From ln T.
    #[must_use]
    pub fn from_ln(ln_transmission: Complex64) -> Self {
        Self { exponent: -ln_transmission, forward: Complex64::new(1.0, 0.0) }
    }

    /// ln T.
    #[must_use]
    pub fn ln(&self) -> Complex64 {
        -(self.exponent + crate::complex::ln(self.forward))
    }
}

/// A plane structure, uniform on the scale of what it is asked about, with vacuum on both sides.
///
/// It answers for travelling and for evanescent waves, so that plane-wave tests and loop tests ask
/// the same question.
pub trait Sheet: SheetObject + Debug + Send + Sync {
    /// Tangential electric field behind the far face over the incident one at the near face.
    fn transmission(&self, wave: &Incidence, polarization: Polarization) -> LogTransmission;

    /// ln |T| of many waves at once; `out` has as many places as there are waves.
    fn ln_moduli(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [f64]) {
        for (ln, wave) in out.iter_mut().zip(waves.iter()) {
            *ln = self.transmission(&wave, polarization).ln().re;
        }
    }

    /// Complex ln T of many waves at once; `out` has as many places as there are waves.
    fn transmissions(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [Complex64]) {
        for (ln, wave) in out.iter_mut().zip(waves.iter()) {
            *ln = self.transmission(&wave, polarization).ln();
        }
    }

    /// T of many waves at once, in the factors that a sum over waves wants; `out` has as many places as
    /// there are waves.
    fn passages(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut [Passed]) {
        for (passed, wave) in out.iter_mut().zip(waves.iter()) {
            *passed = Passed::from_ln(self.transmission(&wave, polarization).ln());
        }
    }

    /// Whole thickness, m.
    fn thickness_m(&self) -> f64;

    /// Where the answer holds: in one stretch of frequencies, so that what holds at two frequencies
    /// holds at all between them.
    fn validity(&self, frequency_hz: f64) -> Validity;
}

/// What a boxed sheet can do; there for every [`Sheet`] that can be compared and rebuilt.
pub trait SheetObject: AnyObject {
    /// [`Rebuild::rebuild`] behind a pointer.
    ///
    /// # Errors
    /// Those of the constructor.
    fn rebuild_boxed(&self, knobs: &mut Knobs<'_>) -> Result<Arc<dyn Sheet>>;
}

impl<T: Sheet + Rebuild + PartialEq + 'static> SheetObject for T {
    fn rebuild_boxed(&self, knobs: &mut Knobs<'_>) -> Result<Arc<dyn Sheet>> {
        Ok(Arc::new(self.rebuild(knobs)?))
    }
}
