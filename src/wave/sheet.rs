//! Anything flat that a wave goes through as a whole.

use std::fmt::Debug;

use num_complex::Complex64;

use super::incidence::{Incidence, Polarization};
use super::waves::Waves;
use crate::decibel::LogTransmission;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::{Result, object::AnyObject};
use std::sync::Arc;

/// The transmissions T = exp(−exponent)/forward of many waves, part by part: neither a logarithm nor a tiny
/// number is needed, and a sum over waves reads them a register at a time.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Passages {
    /// Nepers and radians.
    pub(crate) exponent: Parts,
    /// A factor within the range of numbers.
    pub(crate) forward: Parts,
}

/// Complex numbers by their parts.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Parts {
    pub(crate) re: Vec<f64>,
    pub(crate) im: Vec<f64>,
}

impl Parts {
    fn new(len: usize, value: Complex64) -> Self {
        Self { re: vec![value.re; len], im: vec![value.im; len] }
    }

    fn get(&self, place: usize) -> Complex64 {
        let part = |values: &[f64]| values.get(place).copied().unwrap_or(f64::NAN);
        Complex64::new(part(&self.re), part(&self.im))
    }
}

impl Passages {
    /// Of as many waves, each gone through unchanged.
    #[must_use]
    pub fn new(len: usize) -> Self {
        Self { exponent: Parts::new(len, Complex64::ZERO), forward: Parts::new(len, Complex64::new(1.0, 0.0)) }
    }

    /// How many waves there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.exponent.re.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// ln T of one wave; NaN for a place that is not there.
    #[must_use]
    pub fn ln(&self, place: usize) -> Complex64 {
        -(self.exponent.get(place) + crate::complex_functions::ln(self.forward.get(place)))
    }

    /// Puts in ln T of each wave, in order; the shorter of the two decides how many.
    pub fn set_ln(&mut self, ln_transmissions: impl IntoIterator<Item = Complex64>) {
        for (place, ln) in (0..self.len()).zip(ln_transmissions) {
            (self.exponent.re[place], self.exponent.im[place]) = (-ln.re, -ln.im);
            (self.forward.re[place], self.forward.im[place]) = (1.0, 0.0);
        }
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
    fn passages(&self, waves: &Waves<'_>, polarization: Polarization, out: &mut Passages) {
        out.set_ln(waves.iter().map(|wave| self.transmission(&wave, polarization).ln()));
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
