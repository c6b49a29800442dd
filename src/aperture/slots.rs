//! A rectangular slot in a wall of any thickness, from a crack to a square.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::channel::{Channel, Rest};
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::leak::{Leak, Polarizability};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::opening::{Chain, ln_mode_area};
use crate::wave::polarizability::{check_sides, rectangle, unit_rectangle};
use crate::wave::slit::{Slit, smooth_step};

/// A rectangular slot.
///
/// With the electric field across it, it carries voltages sin(mπx/l): the lowest resonates near half
/// a wavelength and then passes about λ²/4π; each further one adds as much from m half-waves on. With
/// the field along it, it is a hole as wide as its width.
///
/// Against a mode-matching solution its averaged cross-section is off by at most 0.6 dB up to the
/// half-wave resonance and 1.6 dB up to width = one wavelength, for width/length from 0.1 to 1 in walls
/// up to 0.6 lengths thick, and exact at both ends.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct RectangularSlot {
    length_m: f64,
    width_m: f64,
    wall_thickness_m: f64,
    model: Model,
}

/// What follows from the sides, made once.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Model {
    /// Electric field across the slot, lowest mode, and its share against the slit's own first mode.
    across: Channel,
    across_share: f64,
    /// Electric field along the slot.
    along: Channel,
    electric: Channel,
    rest: Rest,
    slit: Slit,
    /// How many modes of the slit are counted before the rest takes over.
    most_counted: f64,
}

impl RectangularSlot {
    /// A slot by its sides (m), the longer one first, in a wall of this thickness (m; zero for an
    /// infinitely thin one).
    ///
    /// # Errors
    /// Unless the sides are positive, the thickness zero or positive, all finite, and the width at
    /// most the length.
    pub fn new(length_m: f64, width_m: f64, wall_thickness_m: f64) -> Result<Self> {
        let (length_m, width_m) = check_sides(length_m, width_m)?;
        Ok(Self {
            length_m,
            width_m,
            wall_thickness_m: check::non_negative("wall_thickness_m", "m", wall_thickness_m)?,
            model: Model::new(length_m, width_m),
        })
    }

    /// Length, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Width, m.
    #[must_use]
    pub fn width_m(&self) -> f64 {
        self.width_m
    }

    /// Thickness of the wall, m.
    #[must_use]
    pub fn wall_thickness_m(&self) -> f64 {
        self.wall_thickness_m
    }

    /// Open area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.length_m * self.width_m
    }

    /// The depth of the wall for a mode of this wavenumber along the slot.
    fn depth(&self, wavenumber_per_m: f64, beta_per_m: f64) -> Chain {
        let gamma_squared = (beta_per_m - wavenumber_per_m) * (beta_per_m + wavenumber_per_m);
        Chain::through().line(Complex64::new(gamma_squared, 0.0), Complex64::new(1.0, 0.0), self.wall_thickness_m)
    }
}

/// Width over length below which the lowest mode is that of a slit, and above which it is a fitted one.
const SLIT_BELOW: f64 = 0.05;
const FITTED_ABOVE: f64 = 0.12;

/// Modes of the slit with m · width/length above the first count less and less, above the second not
/// at all: the slot is then wider than the mode's half-wave, and the rest takes over.
const NARROW: (f64, f64) = (0.3, 0.9);

/// End correction r of a mode whose opening is `ratio` times as wide (along the electric field) as it
/// is long, by the polarizability α/length³ across the field. Exact for a thin slot; for wide ones
/// fitted to the factor of the lowest mode in a thick wall.
fn end_correction(ratio: f64, unit_polarizability: f64) -> f64 {
    let q = ratio.powf(1.3);
    4.0 * ratio / PI.powi(3) / unit_polarizability / (1.0 + 0.38 * q / (q + 0.52))
}

/// Share of mode m among those of a slit.
fn slit_share(mode: f64, aspect: f64) -> f64 {
    1.0 - smooth_step((mode * aspect - NARROW.0) / (NARROW.1 - NARROW.0))
}

impl Model {
    fn new(length_m: f64, width_m: f64) -> Self {
        // Anything thinner leaks nothing, and its powers would underflow.
        let aspect = (width_m / length_m).max(1e-60);
        let unit = unit_rectangle(aspect);
        let across = {
            let r = end_correction(aspect, unit.magnetic_along_m3);
            let s = aspect.max(SLIT_BELOW).sqrt();
            Channel {
                cutoff_per_m: PI / length_m,
                end_correction: r,
                strength: Channel::strength(PI.powi(3) * unit.magnetic_along_m3, r),
                detuning: (1.1015 + s * (0.2172 + s * (1.0547 - 1.3851 * s)), 0.1254 * s * s),
                rounding: 0.2834 + s * (2.3636 + 0.3229 * s),
            }
        };
        let along = {
            // In units of the width, which is the length of this mode.
            let unit_polarizability = unit.magnetic_across_m3 / aspect.powi(3);
            let widest = aspect.max(0.2);
            let r = end_correction(1.0 / widest, unit_rectangle(widest).magnetic_across_m3 / widest.powi(3)).min(0.45);
            Channel {
                cutoff_per_m: PI / width_m,
                end_correction: r,
                strength: Channel::strength(PI.powi(3) * unit_polarizability, r),
                detuning: (0.735, 0.2),
                rounding: 1.8,
            }
        };
        let cutoff_per_m = (PI / length_m).hypot(PI / width_m);
        let electric = {
            let r = 0.41;
            Channel {
                cutoff_per_m,
                end_correction: r,
                strength: Channel::strength((cutoff_per_m * length_m).powi(3) * unit.electric_m3, r),
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
        Self {
            across,
            across_share: smooth_step((aspect - SLIT_BELOW) / (FITTED_ABOVE - SLIT_BELOW)),
            along,
            electric,
            rest: Rest { area_over_two_pi_m2: length_m * width_m / (2.0 * PI), cutoff_per_m, onset: 0.00108 },
            slit: Slit::new(length_m, width_m),
            most_counted,
        }
    }
}

impl Rebuild for RectangularSlot {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("length_m", "m", self.length_m, "positive, at least the width"),
            knobs.value("width_m", "m", self.width_m, "positive, at most the length"),
            knobs.value("wall_thickness_m", "m", self.wall_thickness_m, "zero or positive"),
        )
    }
}

impl Leak for RectangularSlot {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let k = wavenumber_per_m(frequency_hz);
        let (model, wall_m) = (&self.model, self.wall_thickness_m);
        let aspect = self.width_m / self.length_m;
        let mut sum = LnSum::default();
        if model.across_share > 0.0 {
            sum += model.across_share.ln() + model.across.ln_transmission(k, wall_m);
        }
        if model.across_share < 1.0 {
            let slit = self.depth(k, model.slit.beta(1)).ln_transmission(model.slit.mouth(1, k));
            sum += (1.0 - model.across_share).ln() + slit;
        }
        if aspect < 0.5 * NARROW.1 {
            sum += model.slit.ln_modes(2, k, |beta| self.depth(k, beta), |mode| slit_share(mode, aspect));
        }
        sum += model.along.ln_transmission(k, wall_m);
        sum += model.electric.ln_transmission(k, wall_m);
        // Half-waves that fit into the length, up to the most that are counted, joined smoothly.
        let half_waves = k * self.length_m / PI;
        let counted = half_waves / (1.0 + (half_waves / model.most_counted).powi(8)).powf(0.125);
        sum += model.rest.ln_transmission(k, wall_m, counted + COUNTED_BESIDES);
        ln_mode_area(k) + sum.ln()
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        // From the dipole's 3 to a line source (4l/λ) and on to an evenly lit aperture (4πlw/λ²).
        let wavelength_m = wavelength_m(frequency_hz);
        (4.0 * self.length_m / wavelength_m * (1.0 + PI * self.width_m / wavelength_m)).hypot(3.0)
    }

    fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
        // Up to a tenth of a wavelength the static values are good to a few percent.
        (self.length_m < 0.1 * wavelength_m(frequency_hz)).then_some(())?;
        let thin = rectangle(self.length_m, self.width_m).ok()?;
        let (model, wall_m) = (&self.model, self.wall_thickness_m);
        Some(Polarizability {
            electric_m3: thin.electric_m3 * model.electric.static_share(wall_m),
            magnetic_along_m3: thin.magnetic_along_m3 * model.across.static_share(wall_m),
            magnetic_across_m3: thin.magnetic_across_m3 * model.along.static_share(wall_m),
        })
    }

    fn validity(&self, _: f64) -> Validity {
        Validity::Holds
    }
}

/// Modes counted besides those of the slit: one with the field along it, and part of the electric one.
const COUNTED_BESIDES: f64 = 1.38;

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    length_m: f64,
    width_m: f64,
    #[serde(default)]
    wall_thickness_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for RectangularSlot {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.length_m, record.width_m, record.wall_thickness_m)
    }
}

#[cfg(feature = "serde")]
impl From<RectangularSlot> for Record {
    fn from(slot: RectangularSlot) -> Self {
        Self { length_m: slot.length_m, width_m: slot.width_m, wall_thickness_m: slot.wall_thickness_m }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn db(slot: &RectangularSlot, frequency_hz: f64) -> f64 {
        -crate::decibel::loss_db_of_ln_power(slot.ln_cross_section(frequency_hz))
    }

    #[test]
    fn small_slots_follow_their_polarizabilities() {
        for (length_m, width_m) in [(0.1, 0.1), (0.1, 0.05), (0.1, 0.01), (0.1, 0.004), (0.1, 1e-6)] {
            let slot = RectangularSlot::new(length_m, width_m, 0.0).unwrap();
            let unit = rectangle(length_m, width_m).unwrap();
            let squares = unit.magnetic_along_m3.powi(2) + unit.magnetic_across_m3.powi(2) + unit.electric_m3.powi(2);
            let law = 4.0 * wavenumber_per_m(1e6).powi(4) / (9.0 * PI) * squares;
            let difference = db(&slot, 1e6) - 10.0 * law.log10();
            assert!(difference.abs() < 0.01, "{length_m} {width_m}: {difference}");
        }
    }

    #[test]
    fn large_slots_pass_half_their_area() {
        for (width_m, wall_m) in [(0.1, 0.0), (0.02, 1e-3), (1e-3, 1e-3), (1e-5, 0.0)] {
            let slot = RectangularSlot::new(0.1, width_m, wall_m).unwrap();
            let difference = db(&slot, 1e16) - 10.0 * (0.5 * slot.area_m2()).log10();
            assert!(difference.abs() < 0.01, "{width_m} {wall_m}: {difference}");
        }
    }

    #[test]
    fn a_resonant_slot_passes_what_a_matched_antenna_would() {
        // Peak of T = 1: σ = λ²/4π, near half a wavelength.
        let slot = RectangularSlot::new(0.1, 1e-3, 0.0).unwrap();
        let (mut best, mut at) = (f64::NEG_INFINITY, 0.0);
        for step in 0..2000 {
            let f = 1.2e9 + f64::from(step) * 0.2e6;
            let relative = db(&slot, f) - 10.0 * (wavelength_m(f).powi(2) / (4.0 * PI)).log10();
            if relative > best {
                (best, at) = (relative, f);
            }
        }
        assert!(best.abs() < 0.05, "{best}");
        let electrical_length = 0.1 / wavelength_m(at);
        assert!((0.45..0.5).contains(&electrical_length), "{electrical_length}");
    }
}
