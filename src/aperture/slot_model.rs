//! What a longish opening passes: the modes of its outline one by one, in a wall of any thickness.
//!
//! With the electric field across it, it carries voltages sin(mπx/l): the lowest resonates near half a
//! wavelength and then passes about λ²/4π; each further one adds as much from m half-waves on. With the field
//! along it, it is a hole as wide as its width. A thin slot (w/l below 0.05) is a slit by Babinet's principle
//! (`crate::mouth::slit`); a wide one (above 0.12) a fitted mode (`super::channel`); between, both are mixed.
//! Rounded outlines go from the rectangle's constants to the circle's with w/l.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::arrival::{Pattern, Wave, endless_gain};
use super::channel::{Channel, Rest};
use super::outline::{GuideMode, Outline, Unit};
use crate::decibel::LnSum;
use crate::leak::Polarizability;
use crate::mouth::chain::{Chain, ln_mode_area};
use crate::mouth::slit::Slit;
use crate::numeric::blend::smooth_step;

/// What follows from the sides, made once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct SlotModel {
    outline: Outline,
    length_m: f64,
    width_m: f64,
    aspect: f64,
    area_m2: f64,
    /// Electric field across the slot, lowest mode, and its share against the slit's own first mode.
    across: Channel,
    across_share: f64,
    /// Electric field along the slot.
    along: Channel,
    electric: Channel,
    rest: Rest,
    slit: Slit,
    /// Length of a straight slot with the same cutoff, m.
    straight_m: f64,
    /// How many modes of the slit are counted before the rest takes over.
    most_counted: f64,
    /// Modes counted besides.
    counted_besides: f64,
}

/// Width over length below which the lowest mode is that of a slit, and above which it is a fitted one.
const SLIT_BELOW: f64 = 0.05;
const FITTED_ABOVE: f64 = 0.12;

/// Modes of the slit with m · width/length above the first count less and less, above the second not
/// at all: the slot is then wider than the mode's half-wave, and the rest takes over.
const NARROW: (f64, f64) = (0.3, 0.9);

/// Modes counted besides those of the slit: one with the field along it, and part of the electric one.
const COUNTED_BESIDES: f64 = 1.38;

/// What a round hole counts more, and its constants A, B, p of the lowest mode, and those of its rest.
const ROUND_COUNTS_MORE: f64 = 0.42;
const ROUND_DETUNING: (f64, f64) = (1.038, 0.334);
const ROUND_ROUNDING: f64 = 1.819;
const ROUND_REST: (f64, f64) = (1.27, 0.0326);
const REST_ONSET: f64 = 0.00108;

/// A and B, and p, of either mode of a square, which are one: fitted to the mean of what both were fitted to apart
/// (0.05 dB in walls up to 0.6 sides thick), and width over length from which rectangles go over into it.
const SQUARE_DETUNING: (f64, f64) = (0.842, 0.1326);
const SQUARE_ROUNDING: f64 = 2.397;
const SQUARE_FROM: f64 = 0.6;

/// End correction r of a mode whose opening is `ratio` times as wide (along the electric field) as it
/// is long, by the polarizability α/length³ across the field. Exact for a thin slot; for wide ones
/// fitted to the factor of the lowest mode in a thick wall.
fn end_correction(ratio: f64, mode: GuideMode, unit_polarizability: f64) -> f64 {
    let q = ratio.powf(1.3);
    mode.moment_squared / (2.0 * mode.cutoff * unit_polarizability) / (1.0 + 0.38 * q / (q + 0.52))
}

/// Share of mode m among those of a slit.
fn slit_share(mode: f64, aspect: f64) -> f64 {
    1.0 - smooth_step((mode * aspect - NARROW.0) / (NARROW.1 - NARROW.0))
}

fn mix(share: f64, from: f64, to: f64) -> f64 {
    from + share * (to - from)
}

impl SlotModel {
    pub(super) fn new(outline: Outline, length_m: f64, width_m: f64) -> Self {
        // Anything thinner leaks nothing, and its powers would underflow.
        let aspect = (width_m / length_m).max(1e-60);
        let unit = outline.unit(aspect);
        let roundness = unit.roundness;
        let square = smooth_step((aspect - SQUARE_FROM) / (1.0 - SQUARE_FROM));
        let detuning = |own: (f64, f64)| {
            let straight = (mix(square, own.0, SQUARE_DETUNING.0), mix(square, own.1, SQUARE_DETUNING.1));
            (mix(roundness, straight.0, ROUND_DETUNING.0), mix(roundness, straight.1, ROUND_DETUNING.1))
        };
        let rounding = |own: f64| mix(roundness, mix(square, own, SQUARE_ROUNDING), ROUND_ROUNDING);
        let across = {
            let r = end_correction(aspect, unit.across, unit.polarizability.magnetic_along_m3);
            let s = aspect.max(SLIT_BELOW).sqrt();
            let (a, b) = (1.1015 + s * (0.2172 + s * (1.0547 - 1.3851 * s)), 0.1254 * s * s);
            Channel {
                cutoff_per_m: unit.across.cutoff / length_m,
                end_correction: r,
                strength: Channel::strength(unit.across.cutoff.powi(3) * unit.polarizability.magnetic_along_m3, r),
                detuning: detuning((a, b)),
                rounding: rounding(0.2834 + s * (2.3636 + 0.3229 * s)),
            }
        };
        let along = {
            // In units of the width, which is the length of this mode.
            let widest = outline.unit(aspect.max(0.2));
            let ratio = 1.0 / aspect.max(0.2);
            let r = end_correction(ratio, widest.along, widest.polarizability.magnetic_across_m3).min(0.45);
            let unit_polarizability = unit.polarizability.magnetic_across_m3 / aspect.powi(3);
            Channel {
                cutoff_per_m: unit.along.cutoff / length_m,
                end_correction: r,
                strength: Channel::strength((unit.along.cutoff * aspect).powi(3) * unit_polarizability, r),
                detuning: detuning((0.735, 0.2)),
                rounding: rounding(1.8),
            }
        };
        let electric = {
            let r = 0.41;
            Channel {
                cutoff_per_m: unit.electric_cutoff / length_m,
                end_correction: r,
                strength: electric_strength(&unit, r),
                detuning: (0.0, 0.3),
                rounding: 1.8,
            }
        };
        // The sum over the shares; of many modes it is the integral.
        let most_counted = if aspect < 0.01 {
            0.5 * (NARROW.0 + NARROW.1) / aspect
        } else {
            let last = (NARROW.1 / aspect) as usize + 1;
            1.5 + (2..=last).map(|mode| slit_share(mode as f64, aspect)).sum::<f64>()
        };
        // The square of a very long one would overflow.
        let area_m2 = length_m * width_m * (unit.area / aspect);
        let straight_m = length_m * (PI / unit.across.cutoff);
        let slit = straight_slit(outline, (length_m, width_m, area_m2), &unit);
        Self {
            outline,
            length_m,
            width_m,
            aspect,
            area_m2,
            across,
            across_share: smooth_step((aspect - SLIT_BELOW) / (FITTED_ABOVE - SLIT_BELOW)),
            along,
            electric,
            rest: Rest {
                area_over_two_pi_m2: area_m2 / (2.0 * PI),
                cutoff_per_m: unit.electric_cutoff / length_m * mix(roundness, 1.0, ROUND_REST.0),
                onset: mix(roundness, REST_ONSET.ln(), ROUND_REST.1.ln()).exp(),
            },
            slit,
            straight_m,
            most_counted,
            counted_besides: COUNTED_BESIDES + roundness * ROUND_COUNTS_MORE,
        }
    }

    pub(super) fn area_m2(&self) -> f64 {
        self.area_m2
    }

    /// How many slots lie in it: a cross has two.
    fn arms(&self) -> f64 {
        if self.outline.is_square() { 2.0 } else { 1.0 }
    }

    /// The depth of the wall for a mode of this wavenumber along the slot.
    fn depth(wall_m: f64, wavenumber_per_m: f64, beta_per_m: f64) -> Chain {
        let gamma_squared = (beta_per_m - wavenumber_per_m) * (beta_per_m + wavenumber_per_m);
        Chain::through().line(Complex64::new(gamma_squared, 0.0), Complex64::new(1.0, 0.0), wall_m)
    }

    /// Natural logarithm of the cross-section, averaged or towards one wave, m².
    pub(super) fn ln_cross_section(&self, k: f64, wall_m: f64, towards: Option<&Wave>) -> f64 {
        let gain = |pattern: Pattern| towards.map_or(1.0, |wave| pattern.gain(k, wave));
        // Of the slots of a cross the second lies across the first.
        let lying = |is_along| if self.outline.is_square() { [true, false] } else { [is_along, is_along] };
        let voltage = |half_waves: f64, length_m: f64, width_m: f64, is_along: bool| {
            let one = |is_along| gain(Pattern::Voltage { half_waves, length_m, width_m, is_along });
            let [first, second] = lying(is_along);
            if first == second { self.arms() * one(first) } else { one(first) + one(second) }
        };
        let mut sum = LnSum::default();
        let lowest = voltage(1.0, self.straight_m, self.width_m, true).ln();
        if self.across_share > 0.0 {
            sum += self.across_share.ln() + lowest + self.across.ln_transmission(k, wall_m);
        }
        if self.across_share < 1.0 {
            let slit = Self::depth(wall_m, k, self.slit.beta(1)).ln_transmission(self.slit.mouth(1, k));
            sum += (1.0 - self.across_share).ln() + lowest + slit;
        }
        if self.aspect < 0.5 * NARROW.1 {
            sum += self.ln_higher_modes(k, wall_m, towards, voltage);
        }
        if !self.outline.is_square() {
            let gain = voltage(1.0, self.width_m, self.length_m, false).ln();
            sum += gain + self.along.ln_transmission(k, wall_m);
        }
        let electric = gain(Pattern::Electric { length_m: self.straight_m, width_m: self.width_m }).ln();
        sum += electric + self.electric.ln_transmission(k, wall_m);
        // Half-waves that fit into the length, up to the most that are counted, joined smoothly.
        let half_waves = k * self.length_m / PI;
        let along = half_waves / (1.0 + (half_waves / self.most_counted).powi(8)).powf(0.125);
        // A cross counts its second arm, in place of one mode and a half.
        let counted = if self.outline.is_square() { 2.0 * along - 1.5 } else { along } + self.counted_besides;
        sum += gain(Pattern::Open).ln() + self.rest.ln_transmission(k, wall_m, counted);
        ln_mode_area(k) + sum.ln()
    }

    /// The slit's modes from the second on.
    fn ln_higher_modes(
        &self,
        k: f64,
        wall_m: f64,
        towards: Option<&Wave>,
        voltage: impl Fn(f64, f64, f64, bool) -> f64,
    ) -> f64 {
        let chain = |beta| Self::depth(wall_m, k, beta);
        let share = |mode| slit_share(mode, self.aspect);
        let Some(wave) = towards else {
            return self.arms().ln() + self.slit.ln_modes(2, k, chain, share);
        };
        let mut sum = LnSum::default()
            + self
                .slit
                .ln_counted_modes(2, k, chain, |mode| share(mode) * voltage(mode, self.straight_m, self.width_m, true));
        let (half_waves, endless) = self.slit.endless_share(k);
        if endless > 0.0 {
            // Of the waves along the slit only the one in step with the wave outside takes part.
            let turned = Wave { azimuth: (wave.azimuth.1, -wave.azimuth.0), ..*wave };
            let arms = if self.outline.is_square() { &[*wave, turned][..] } else { &[*wave][..] };
            for wave in arms {
                let u = wave.cosines().0.abs();
                // The average starts half a mode before the second; here that start is a slope of the same area.
                let counted = share(half_waves * u) * smooth_step(half_waves * u - 1.0);
                let worth = endless * half_waves * counted * endless_gain(k, self.width_m, wave);
                if worth > 0.0 {
                    let mouth = Slit::endless_mouth(self.slit_width_m(), k * ((1.0 - u) * (1.0 + u)).sqrt());
                    sum += worth.ln() + chain(k * u).ln_transmission(mouth);
                }
            }
        }
        sum.ln()
    }

    fn slit_width_m(&self) -> f64 {
        straight_width(self.outline, self.width_m, self.area_m2, self.straight_m)
    }

    /// Static values through a wall of this thickness.
    pub(super) fn polarizability(&self, wall_m: f64) -> Polarizability {
        let thin = self.outline.unit(self.aspect).polarizability;
        let cube = self.length_m * self.length_m * self.length_m;
        let across = self.across.static_share(wall_m);
        let along = if self.outline.is_square() { across } else { self.along.static_share(wall_m) };
        Polarizability {
            electric_m3: thin.electric_m3 * cube * self.electric.static_share(wall_m),
            magnetic_along_m3: thin.magnetic_along_m3 * cube * across,
            magnetic_across_m3: thin.magnetic_across_m3 * cube * along,
        }
    }
}

fn electric_strength(unit: &Unit, r: f64) -> f64 {
    Channel::strength(unit.electric_cutoff.powi(3) * unit.polarizability.electric_m3, r)
}

/// The straight slit with the cutoff and the polarizability of the outline.
fn straight_slit(outline: Outline, (length_m, width_m, area_m2): (f64, f64, f64), unit: &Unit) -> Slit {
    if outline == Outline::Rectangle {
        return Slit::new(length_m, width_m);
    }
    let straight = PI / unit.across.cutoff;
    let straight_m = straight * length_m;
    let gap_m = straight_width(outline, width_m, area_m2, straight_m);
    Slit::with_unit_polarizability(straight_m, gap_m, unit.polarizability.magnetic_along_m3 / straight.powi(3))
}

/// Width of a straight slot of the same area; of a cross, of each of its slots.
fn straight_width(outline: Outline, width_m: f64, area_m2: f64, straight_m: f64) -> f64 {
    match outline {
        Outline::Rectangle | Outline::Cross => width_m,
        Outline::Ellipse | Outline::RoundedSlot => area_m2 / straight_m,
    }
}
