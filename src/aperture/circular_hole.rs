//! A round hole in a wall of any thickness.

use super::arrival::{Arrival, Directional, Pattern, Wave, ln_towards};
use super::channel::{Channel, Rest};
use super::hole_array_lanes::ln_hole_cross_sections;
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::leak::{Leak, Polarizability};
use crate::mouth::chain::ln_mode_area;
use crate::numeric::bessel::{J0_FIRST, J1_PRIME_FIRST, J2_PRIME_FIRST};
use crate::parameter::Element;
use crate::validity::Validity;

/// First zero of J₁′: cutoff of the TE11 mode times the radius.
const TE11: f64 = J1_PRIME_FIRST;
/// First zero of J₀: TM01.
const TM01: f64 = J0_FIRST;
/// First zero of J₂′: TE21, the first mode that is no dipole.
const TE21: f64 = J2_PRIME_FIRST;

/// A round hole.
///
/// Two magnetic dipoles (TE11 in the wall's depth), one electric (TM01), and the modes above.
/// Against a mode-matching solution its averaged cross-section is off by at most 0.35 dB for
/// ka ≤ 2 and 1.0 dB for ka ≤ 10, in walls up to 1.2 radii thick, and exact at both ends.
///
/// ```
/// use stillroom::{aperture::CircularHole, leak::Leak};
/// // Small thin hole: 16 k⁴ a⁶/9π (Hill et al., IEEE Trans. EMC 36 (1994) 169, from memory).
/// let hole = CircularHole::new(2e-3, 0.0)?;
/// let k = 2.0 * std::f64::consts::PI * 100e6 / 299_792_458.0;
/// let law = 16.0 * f64::powi(k, 4) * 1e-18 / (9.0 * std::f64::consts::PI);
/// assert!((hole.ln_cross_section(100e6) - law.ln()).abs() < 1e-4);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(diameter_m, wall_thickness_m))]
pub struct CircularHole {
    /// Diameter.
    #[parameter(positive)]
    diameter_m: f64,
    /// Thickness of the wall. Zero for an infinitely thin one.
    #[parameter(non_negative, default = 0.0, setter = none)]
    wall_thickness_m: f64,
}

impl CircularHole {
    /// Open area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.diameter_m * self.diameter_m
    }

    pub(super) fn thin_polarizability(&self) -> Polarizability {
        let cube = (0.5 * self.diameter_m).powi(3);
        let magnetic_m3 = 4.0 / 3.0 * cube;
        Polarizability {
            electric_m3: 0.5 * magnetic_m3,
            magnetic_along_m3: magnetic_m3,
            magnetic_across_m3: magnetic_m3,
        }
    }

    pub(super) fn magnetic(&self) -> Channel {
        // End correction from 4r/(1+r)² = 0.8389, the factor of the TE11 mode in a thick wall.
        let end_correction = 0.426_5;
        Channel {
            cutoff_per_m: 2.0 * TE11 / self.diameter_m,
            end_correction,
            strength: Channel::strength(4.0 / 3.0 * TE11.powi(3), end_correction),
            detuning: (1.038, 0.334),
            rounding: 1.819,
        }
    }

    pub(super) fn electric(&self) -> Channel {
        // 4r/(1+r)² = 0.8246 for TM01.
        let end_correction = 0.409_7;
        Channel {
            cutoff_per_m: 2.0 * TM01 / self.diameter_m,
            end_correction,
            strength: Channel::strength(2.0 / 3.0 * TM01.powi(3), end_correction),
            detuning: (0.0, 0.3),
            rounding: 1.8,
        }
    }

    /// Natural logarithm of the cross-section, averaged or towards one wave, m².
    fn ln_passed(&self, k: f64, towards: Option<&Wave>) -> f64 {
        let (radius_m, wall_m) = (0.5 * self.diameter_m, self.wall_thickness_m);
        let gain = |pattern: Pattern| towards.map_or(1.0, |wave| pattern.gain(k, wave));
        let sum = LnSum::default()
            + ((2.0 * gain(Pattern::RoundPair { zero: TE11, radius_m })).ln()
                + self.magnetic().ln_transmission(k, wall_m))
            + (gain(Pattern::RoundElectric { zero: TM01, radius_m }).ln() + self.electric().ln_transmission(k, wall_m))
            + (gain(Pattern::Open).ln() + self.rest().ln_transmission(k, wall_m, ROUND_COUNTED));
        ln_mode_area(k) + sum.ln()
    }

    pub(super) fn rest(&self) -> Rest {
        let radius_m = 0.5 * self.diameter_m;
        Rest { area_over_two_pi_m2: 0.5 * radius_m * radius_m, cutoff_per_m: TE21 / radius_m, onset: 0.0326 }
    }
}

/// Of the modes that the area offers, those that are dealt with one by one.
pub(super) const ROUND_COUNTED: f64 = 3.3;

impl Leak for CircularHole {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        self.ln_passed(wavenumber_per_m(frequency_hz), None)
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        ln_hole_cross_sections(self, frequency_hz, out);
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        aperture_directivity(self.area_m2(), frequency_hz)
    }

    fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
        // Up to a tenth of a wavelength the static values are good to a few percent.
        (self.diameter_m < 0.1 * wavelength_m(frequency_hz)).then_some(())?;
        let thin = self.thin_polarizability();
        let through = |channel: Channel, thin_m3: f64| thin_m3 * channel.static_share(self.wall_thickness_m);
        let magnetic_m3 = through(self.magnetic(), thin.magnetic_along_m3);
        Some(Polarizability {
            electric_m3: through(self.electric(), thin.electric_m3),
            magnetic_along_m3: magnetic_m3,
            magnetic_across_m3: magnetic_m3,
        })
    }

    fn validity(&self, _: f64) -> Validity {
        Validity::Holds
    }
}

impl Directional for CircularHole {
    fn ln_cross_section_towards(&self, frequency_hz: f64, arrival: &Arrival) -> f64 {
        let (k, wave) = (wavenumber_per_m(frequency_hz), arrival.wave());
        let by_patterns = || self.ln_passed(k, Some(&wave));
        ln_towards(k, self.diameter_m, &wave, by_patterns, || self.ln_passed(k, None))
    }
}

/// From the dipole's 3 to the 4πA/λ² of an evenly lit aperture.
pub(super) fn aperture_directivity(area_m2: f64, frequency_hz: f64) -> f64 {
    let wavelength_m = wavelength_m(frequency_hz);
    (4.0 * std::f64::consts::PI * area_m2 / (wavelength_m * wavelength_m)).hypot(3.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn small_holes_follow_bethe_and_large_ones_their_area() {
        let hole = CircularHole::new(10e-3, 0.0).unwrap();
        let k = wavenumber_per_m(1e6);
        let law = 16.0 * k.powi(4) * 5e-3_f64.powi(6) / (9.0 * PI);
        assert!((hole.ln_cross_section(1e6) - law.ln()).abs() < 1e-6);
        assert!((hole.ln_cross_section(1e15) - (0.5 * hole.area_m2()).ln()).abs() < 1e-6);
        let deep = CircularHole::new(10e-3, 5e-3).unwrap();
        assert!((deep.ln_cross_section(1e15) - (0.5 * hole.area_m2()).ln()).abs() < 1e-6);
    }

    #[test]
    fn a_thicker_wall_never_passes_more_below_cutoff() {
        for f in [1e6, 1e9, 5e9, 10e9, 15e9] {
            let mut before = f64::INFINITY;
            for wall_m in [0.0, 1e-4, 1e-3, 3e-3, 10e-3, 100e-3, 10.0] {
                let now = CircularHole::new(10e-3, wall_m).unwrap().ln_cross_section(f);
                assert!(now < before && now.is_finite(), "{f} {wall_m}");
                before = now;
            }
        }
    }
}
