//! A window in the wall: a piece of another sheet, with its area.

use std::sync::Arc;

use super::{Extent, Leak, Polarizability};
use crate::constants::wavelength_m;
use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::numeric::double_exponential::over_a_share;
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::{Incidence, Polarization, Sheet};

/// A piece of a sheet in the wall, such as a window of film or mesh: an aperture of its area.
///
/// Its averaged cross-section is σ = (A/2) ∫₀¹ |T|² d(cos²θ), the mean over polarizations of waves
/// from the half-space: A/2 for an open frame. T is that of the unbounded sheet, so that a window smaller than half a
/// wavelength, whose frame cuts the wave off, passes less than said here; it says so. The sheet is taken as joined
/// to its frame all around: a joint that is worse is a leak of its own.
///
/// Near a magnetic or electric antenna a window is taken to pass what the open hole would, or what a whole wall of its
/// sheet would, whichever is less: an estimate where the two are about equal. The hole is a square, with the
/// polarizabilities α_m = 0.259 A^(3/2) (S. B. Cohn, Proc. IRE 40 (1952) 1069, from memory) and α_e = 0.120 A^(3/2),
/// that of a round hole of its area.
#[derive(Debug, Clone)]
pub struct Panel {
    sheet: Arc<dyn Sheet>,
    area_m2: f64,
}

impl Panel {
    /// A panel of `area_m2` square metres.
    ///
    /// # Errors
    /// Unless the area is positive and finite.
    pub fn new(sheet: Arc<dyn Sheet>, area_m2: f64) -> Result<Self> {
        Ok(Self { sheet, area_m2: check::positive("area_m2", "m2", area_m2)? })
    }

    /// What it is made of.
    #[must_use]
    pub fn sheet(&self) -> &Arc<dyn Sheet> {
        &self.sheet
    }

    /// Area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.area_m2
    }
}

impl PartialEq for Panel {
    fn eq(&self, other: &Self) -> bool {
        self.area_m2 == other.area_m2 && (*self.sheet).equals((*other.sheet).as_any())
    }
}

impl Rebuild for Panel {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let sheet = knobs.enter_shared("sheet", &self.sheet, |knobs| self.sheet.rebuild_boxed(knobs))?;
        Self::new(sheet, knobs.value("area_m2", "m2", self.area_m2, Domain::POSITIVE))
    }
}

impl Leak for Panel {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        // |T|² of a metal rises as 1/cos²θ almost up to grazing, so the nodes crowd there.
        let mut sum = LnSum::default();
        for place in over_a_share(48, 4.2) {
            // d(cos²θ) = 2 cos θ dcos θ
            let ln_weight = place.ln_weight + (2.0 * place.share).ln();
            let wave = Incidence::at_cosine(frequency_hz, place.share);
            for polarization in [Polarization::Te, Polarization::Tm] {
                sum += ln_weight + self.sheet.transmission(&wave, polarization).ln_power();
            }
        }
        // Half for the mean of the two polarizations, half for the projected half-space.
        sum.ln() + (0.25 * self.area_m2).ln()
    }

    fn extent(&self) -> Extent {
        let side_m = self.area_m2.sqrt();
        Extent::Area { width_m: side_m, height_m: side_m, elements: 1 }
    }

    fn as_window(&self) -> Option<&dyn Sheet> {
        Some(&*self.sheet)
    }

    /// That of the open hole.
    fn polarizability(&self, _: f64) -> Option<Polarizability> {
        let volume = self.area_m2.powf(1.5);
        let magnetic = 0.259 * volume;
        Some(Polarizability { electric_m3: 0.120 * volume, magnetic_along_m3: magnetic, magnetic_across_m3: magnetic })
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let wide = Validity::within(
            "window",
            "side / wavelength",
            "",
            self.area_m2.sqrt() / wavelength_m(frequency_hz),
            (0.5, f64::INFINITY),
            "its frame cuts the wave off, and less passes than is said",
        );
        self.sheet.validity(frequency_hz).and(wide)
    }
}
