//! One bay of a seam: what lies between two fasteners.
//!
//! Its modes along the seam pass the overlap one by one. As long as the bay is shorter than a wavelength, all odd
//! ones radiate alike, as one dipole, so that their *amplitudes* add: with R the transfer of a mode (its voltage at
//! the inner mouth for a current all along the outer one) and c the share of the mode,
//!
//! A = Σ c R = Z_T/(jωμ₀ g),   R = 1/(C + (A + D) Y + B Y²),
//!
//! and the bay is a dipole of the moment Z_T p/(jωμ₀). Where the gap alone holds the field back the lowest mode is
//! nearly all of it (its share is 8/π², and the rest falls as 1/m⁴). Where contact does, each point of the bay
//! passes for itself, and the lowest mode alone would be 1.8 dB short. The same sum holds fasteners with an
//! impedance of their own (see [`fastener`](super::fastener)), where it is exact.
//!
//! The sum is taken for static mouths and set against the lowest mode as it is, mouth and all; the lowest mode's
//! mouth holds the static polarizability of the whole slot, which is not counted twice. Above half a wavelength of
//! pitch modes radiate each in a direction of its own: the excess fades with the share W = |G₁ₘ|²/(G₁ G_m) of their
//! radiation that they have in common.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::contact::Contact;
use super::face::Face;
use super::fastener::{Fastener, WallMode};
use super::lanes::BayColumns;
use crate::complex_functions::{decaying_root, exp_m1};
use crate::constants::{VACUUM_IMPEDANCE, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::material::Material;
use crate::mouth::chain::Chain;
use crate::mouth::slit::{Slit, gauss_12};
use crate::numeric::blend::smooth_step;

/// A length far below that of an atom: what is smaller is computed as if it had this size.
pub(super) const LEAST_M: f64 = 1e-15;

/// What a gap between two faces is to a wave that runs through it, at one frequency.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gap {
    /// Series impedance relative to jωμ₀: 1 + 2Z_s/(jωμ₀ g).
    pub series: Complex64,
    /// −k² times that.
    pub minus_k_squared: Complex64,
}

impl Gap {
    /// Between solid faces of a material.
    pub(super) fn new(frequency_hz: f64, gap_m: f64, faces: &Material) -> Self {
        let medium = faces.medium(frequency_hz);
        let face = decaying_root(medium.relative_permeability / medium.relative_permittivity);
        Self::between(frequency_hz, gap_m, face)
    }

    /// Between faces of this surface impedance, over that of vacuum.
    pub(super) fn between(frequency_hz: f64, gap_m: f64, face: Complex64) -> Self {
        let (k, gap_m) = (wavenumber_per_m(frequency_hz), gap_m.max(LEAST_M));
        // Z_s/(jωμ₀) = face/(jk)
        let series = 1.0 + 2.0 * face / Complex64::new(0.0, k * gap_m);
        Self { series, minus_k_squared: -k * k * series }
    }
}

/// Length and gap of a bay, and what its mouths are to its static modes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct BayShape {
    length_m: f64,
    gap_m: f64,
    slit: Slit,
    /// Mouth of the lowest mode, holding the polarizability of the whole slot.
    whole_mouth: f64,
    /// Odd modes, one by one and then those of an integral over the rest.
    modes: Vec<StaticMode>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct StaticMode {
    mode: f64,
    weight: f64,
    /// Its mouth over κ².
    mouth_m: f64,
}

/// Odd modes up to this are counted one by one.
const LAST_COUNTED: i32 = 9;

impl BayShape {
    pub(super) fn new(length_m: f64, gap_m: f64) -> Self {
        let slit = Slit::new(length_m, gap_m);
        let whole_mouth = slit.mouth(1, 0.0).re;
        let mouth_m = |mode: f64| gap_m / PI * Slit::static_logarithm(gap_m, mode * PI / length_m);
        let static_mode = |mode: f64, weight: f64| StaticMode { mode, weight, mouth_m: mouth_m(mode) };
        let counted = (1..=LAST_COUNTED).step_by(2).map(f64::from);
        let mut modes: Vec<StaticMode> = counted.clone().map(|mode| static_mode(mode, 1.0)).collect();
        // Σ over odd m of h ≈ ½∫ h dm, with m = M/s² from M on, halfway between two: the nodes crowd towards high
        // modes, of which there may be thousands. Scaled so that Σ 1/m² is π²/8.
        let from = f64::from(LAST_COUNTED + 1);
        let mut rest: Vec<_> = gauss_12().map(|(s, weight)| (from / (s * s), weight * from / s.powi(3))).collect();
        rest.sort_by(|one, other| one.0.total_cmp(&other.0));
        let squares: f64 = rest.iter().map(|(mode, weight)| weight / (mode * mode)).sum();
        let left = PI * PI / 8.0 - counted.map(|mode| 1.0 / (mode * mode)).sum::<f64>();
        modes.extend(rest.into_iter().map(|(mode, weight)| static_mode(mode, weight * left / squares)));
        // Of mouths alone all modes together are the whole slot.
        let beta = PI / length_m;
        let others: f64 =
            modes[1..].iter().map(|mode| mode.weight / (mode.mode.powi(4) * beta * beta * mode.mouth_m)).sum();
        let first = 1.0 / (1.0 / whole_mouth - others).max(0.5 / whole_mouth);
        modes[0].mouth_m = first / (beta * beta);
        Self { length_m, gap_m, slit, whole_mouth, modes }
    }
}

/// A bay with what closes it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bay<'a> {
    pub shape: &'a BayShape,
    pub overlap_m: f64,
    pub contact: Contact,
    pub fastener: Fastener,
    pub face: &'a Face,
}

/// What one bay passes for itself, by logarithms.
#[derive(Debug, Clone, Copy)]
pub(super) struct Passed {
    /// As the dipole that all odd modes make.
    pub ln_dipole: f64,
    /// By all further modes.
    pub ln_rest: f64,
}

impl Passed {
    pub(super) fn ln(&self) -> f64 {
        (LnSum::default() + self.ln_dipole + self.ln_rest).ln()
    }
}

impl Bay<'_> {
    fn gap(&self, frequency_hz: f64) -> Gap {
        Gap::between(frequency_hz, self.shape.gap_m, self.face.relative_impedance(frequency_hz))
    }

    /// jωμ₀ g.
    fn reference(&self, frequency_hz: f64) -> Complex64 {
        Complex64::new(0.0, wavenumber_per_m(frequency_hz) * VACUUM_IMPEDANCE * self.shape.gap_m)
    }

    /// jωμ₀ g y: the contact of the whole depth, referred to the section of the gap.
    fn contact_per_m(&self, frequency_hz: f64) -> Complex64 {
        let admittance = self.contact.admittance_s_per_m(frequency_hz, self.shape.gap_m, self.overlap_m);
        self.reference(frequency_hz) * admittance
    }

    /// Whether there is a depth to run through, or the contact is all there is between the mouths.
    fn depth_m(&self) -> Option<f64> {
        (self.overlap_m > LEAST_M).then_some(self.overlap_m)
    }

    /// Prepared for many frequencies.
    pub(super) fn in_lanes(&self, frequency_hz: &[f64]) -> BayColumns {
        let gaps = frequency_hz.iter().map(|&f| self.gap(f));
        let contact = frequency_hz.iter().map(|&f| self.contact_per_m(f)).collect();
        BayColumns::new(&self.shape.slit, self.depth_m(), gaps, contact)
    }

    /// What it passes.
    pub(super) fn passed(&self, frequency_hz: f64) -> Passed {
        let k = wavenumber_per_m(frequency_hz);
        let (gap, contact, slit) = (self.gap(frequency_hz), self.contact_per_m(frequency_hz), &self.shape.slit);
        let chain = |beta: f64| match self.depth_m() {
            Some(depth_m) => {
                let gamma_squared = beta * beta + gap.minus_k_squared + gap.series * contact / depth_m;
                Chain::through().line(gamma_squared, gap.series, depth_m)
            }
            None => Chain::through().shunt(contact),
        };
        let ln_lowest = chain(slit.beta(1)).ln_transmission(slit.mouth(1, k));
        self.with_all_modes(frequency_hz, ln_lowest, slit.ln_modes(2, k, chain, |_| 1.0))
    }

    /// What it passes, by what its lowest mode and its further modes pass each for itself.
    pub(super) fn with_all_modes(&self, frequency_hz: f64, ln_lowest: f64, ln_rest: f64) -> Passed {
        let ln_excess = 2.0 * self.ln_excess(frequency_hz, self.fastener);
        Passed { ln_dipole: ln_gained(ln_lowest, ln_excess), ln_rest }
    }

    /// By how much its fasteners' impedance raises the amplitude of the dipole: ln of the factor.
    pub(super) fn ln_raised(&self, frequency_hz: f64) -> f64 {
        let ideal = Fastener::ideal();
        self.ln_excess(frequency_hz, self.fastener) - self.ln_excess(frequency_hz, ideal)
    }

    /// ln of the amplitude of all odd modes over that of the lowest.
    fn ln_excess(&self, frequency_hz: f64, fastener: Fastener) -> f64 {
        let shape = self.shape;
        let in_common = common_share(wavenumber_per_m(frequency_hz) * shape.length_m);
        if in_common == 0.0 {
            return 0.0;
        }
        let (gap, contact) = (self.gap(frequency_hz), self.contact_per_m(frequency_hz));
        let between = Between { series: gap.series, contact, depth_m: self.depth_m() };
        // 4 Z_f d/(Z' p): the current spreads through the depth, and through the mouths where that is shallow.
        let impedance = fastener.impedance_ohm(frequency_hz) / self.reference(frequency_hz);
        let v = 4.0 / shape.length_m * impedance * between.spread_m(shape.modes[0].mouth_m);
        let per_length = 2.0 / shape.length_m;
        let (mut sum, mut reference) = (Complex64::ZERO, None);
        for mode in &shape.modes {
            let wall = if v == Complex64::ZERO { WallMode::ideal(mode.mode) } else { WallMode::new(mode.mode, v) };
            let kappa = per_length * wall.half_phase;
            let passed = between.response(kappa * kappa, kappa * kappa * mode.mouth_m);
            let reference = *reference.get_or_insert(passed.exponent);
            let fall = reference - passed.exponent;
            sum += mode.weight * wall.share * fall.exp() / passed.response;
            if fall.re < NOTHING {
                break;
            }
        }
        let beta = shape.slit.beta(1);
        let lowest = between.response(Complex64::from(beta * beta), shape.whole_mouth.into());
        let further = reference.map_or(Complex64::ZERO, |reference| lowest.exponent - reference);
        let factor = PI * PI / 8.0 * sum * lowest.response;
        if further.re > MUCH {
            // In an overlap of many pitches fasteners of some impedance let nearly everything through.
            return factor.norm().ln() + further.re + in_common.ln();
        }
        (1.0 + in_common * (factor * further.exp() - 1.0)).norm().ln()
    }
}

/// Nepers below the lowest mode after which no further one counts.
const NOTHING: f64 = -60.0;
/// Nepers after which one more or less does not count.
const MUCH: f64 = 100.0;

/// What lies between the mouths for static fields.
struct Between {
    series: Complex64,
    contact: Complex64,
    depth_m: Option<f64>,
}

/// The response of a mode, its phase and decay exp(γd) split off.
struct Response {
    response: Complex64,
    exponent: Complex64,
}

impl Between {
    /// Depth over which current may spread along the bay, over the series impedance: of the overlap and both mouths.
    fn spread_m(&self, mouth_m: f64) -> Complex64 {
        self.depth_m.unwrap_or(0.0) / self.series + 2.0 * mouth_m
    }

    fn response(&self, kappa_squared: Complex64, mouth: Complex64) -> Response {
        let Some(depth_m) = self.depth_m else {
            return Response { response: self.contact + 2.0 * mouth, exponent: Complex64::ZERO };
        };
        let gamma_squared = kappa_squared + self.series * self.contact / depth_m;
        let gamma = decaying_root(gamma_squared);
        let exponent = gamma * depth_m;
        let fall = exp_m1(-2.0 * exponent);
        let cosh = 0.5 * fall + 1.0;
        let sinh_over_gamma = if exponent.norm_sqr() < 1e-60 { depth_m.into() } else { -0.5 * fall / gamma };
        let shunt = gamma_squared / self.series * sinh_over_gamma;
        let response = shunt + mouth * (2.0 * cosh + self.series * sinh_over_gamma * mouth);
        Response { response, exponent }
    }
}

/// Share of their radiation that the lowest mode and a further odd one have in common, by kp: |G₁ₘ|²/(G₁ G_m), which
/// is nearly the same for all m. A fit to the integral over the radiated waves, within 0.03, faded out from kp = 16 on.
fn common_share(kp: f64) -> f64 {
    smooth_step((64.0 / kp).ln() / 4f64.ln()) / (1.0 + (kp / 5.6).powf(5.08))
}

/// ln of what a mode passes whose transmission t a gain g raises: t g/(1 − t + t g), never above one.
pub(super) fn ln_gained(ln_transmission: f64, ln_gain: f64) -> f64 {
    let raised = ln_transmission + ln_gain;
    let left = (-ln_transmission.exp()).max(-1.0).ln_1p();
    raised - (LnSum::default() + left + raised).ln()
}
