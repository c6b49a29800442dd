//! The modes of an endless slit at one frequency, the angles of a panel in the lanes.
//!
//! Where what lies between the mouths resonates sharply, each frequency asks for other panels of the integral: with
//! frequencies in the lanes, as in [`super::slit_lanes`], each lane would pay for those of all.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::chain::Chain;
use super::chain_lanes::ChainLanes;
use super::slit::{KRONROD_21, NODES, Slit, ln_of_panels};
use super::slit_lanes::endless_mouth;
use crate::lanes::{Kernel, Real, Simd, Window, sweep};

/// What lies between the mouths at one frequency, for any wavenumber along the slit.
pub(crate) trait AtAnyAngle {
    fn chain(&self, beta: f64) -> Chain;
    /// The same in lanes; where a lane is not finite, [`AtAnyAngle::chain`] is asked.
    fn chain_in_lanes<S: Simd>(&self, beta: Real<S>) -> ChainLanes<S>;
}

/// ln of the share by which the rules of a panel may differ. The better one is nearer to the truth by its square.
const LN_AGREEMENT: f64 = -20.72;

/// [`super::slit::ln_endless_modes`] of all modes.
pub(crate) fn ln_endless_modes((length_m, gap_m): (f64, f64), k: f64, between: &impl AtAnyAngle) -> f64 {
    let modes = ln_of_panels(LN_AGREEMENT, |from, to| {
        let angle = KRONROD_21.map(|node| 0.5 * PI * (from + (to - from) * node.place));
        let mut panel =
            PanelOfAngles { gap_m, k, angle, between, ln: [0.0; NODES], response: [Complex64::ZERO; NODES] };
        sweep(NODES, &mut panel);
        std::array::from_fn(|place| panel.value(place))
    });
    modes + (0.5 * k * length_m).ln()
}

struct PanelOfAngles<'a, B> {
    gap_m: f64,
    k: f64,
    angle: [f64; NODES],
    between: &'a B,
    ln: [f64; NODES],
    response: [Complex64; NODES],
}

impl<B: AtAnyAngle> PanelOfAngles<'_, B> {
    /// ln of what a node adds, and the response there.
    fn value(&self, place: usize) -> (f64, Complex64) {
        let (ln, response) = (self.ln[place], self.response[place]);
        if ln.is_finite() && response.is_finite() {
            return (ln, response);
        }
        let (sine, cosine) = self.angle[place].sin_cos();
        let chain = self.between.chain(self.k * sine);
        let mouth = Slit::endless_mouth(self.gap_m, self.k * cosine);
        (cosine.ln() + chain.ln_transmission(mouth), chain.response(mouth))
    }
}

impl<B: AtAnyAngle> Kernel for PanelOfAngles<'_, B> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let (sine, cosine) = at.load(&self.angle).sin_cos();
        let chain = self.between.chain_in_lanes(sine * self.k);
        let mouth = endless_mouth(self.gap_m, cosine * self.k);
        let response = chain.response(mouth);
        at.store(chain.ln_transmission(response, mouth, cosine), &mut self.ln);
        at.store_complex(response, &mut self.response);
    }
}
