//! From where a wave falls on an opening, and how much of an opening's answer lies in that direction.
//!
//! Averaged over the half-space and both polarizations, every mode of an opening passes λ²/4π times its
//! transmission T. Towards one direction and polarization it passes that times its gain g, which by
//! reciprocity is its own pattern:
//!
//! g = N |ê·k̂_t|² (TM),   g = N cos²θ |ê×k̂_t|² (TE),
//!
//! ê the Fourier transform of the mode's electric field over the opening at the wave's wavenumber k_t along
//! the wall, and N such that the mean of g over the half-space and both polarizations is one. For a small
//! opening these are the patterns of dipoles: 3h² for a magnetic one, h the part of the wave's magnetic
//! field along it, and 3 sin²θ (TM only) for the electric one. What is not dealt with mode by mode passes as
//! an open area does, g = 2 cos θ.
//!
//! An opening cannot pass the lowest mode's pattern and the open area's beside each other: the patterns of all modes
//! that are open add up to A cos θ (they are complete), of which the lowest alone has 0.81 A along the normal of a
//! rectangle. From a width of 0.6 wavelengths on, where the second modes open, all of it therefore goes over into
//! g = 2 cos θ, which it is from one wavelength on ([`ln_towards`]).

use std::f64::consts::{FRAC_PI_2, PI};
use std::sync::LazyLock;

use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::leak::Leak;
use crate::numeric::blend::smooth_step;
use crate::numeric::{bessel_j_and_slope, gauss_legendre};
use crate::wave::Polarization;
use crate::wave::incidence::cosine_of_deg;

/// A plane wave by the direction from which it falls on an opening, and its polarization.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    angle_deg: f64,
    azimuth_deg: f64,
    polarization: Polarization,
}

impl Arrival {
    /// From `angle_deg` off the normal of the wall (0 to less than 90), in a plane of incidence turned by
    /// `azimuth_deg` from the opening's length. TE has its electric field across that plane, TM its magnetic one.
    ///
    /// # Errors
    /// For an angle outside that range, or an azimuth that is not finite.
    pub fn new(angle_deg: f64, azimuth_deg: f64, polarization: Polarization) -> Result<Self> {
        Ok(Self {
            angle_deg: check::incidence_angle("angle_deg", angle_deg)?,
            azimuth_deg: check::finite("azimuth_deg", "deg", azimuth_deg)?,
            polarization,
        })
    }

    /// Along the normal, with the electric field across the opening's length: the worst for a slot.
    #[must_use]
    pub fn normal() -> Self {
        Self { angle_deg: 0.0, azimuth_deg: 0.0, polarization: Polarization::Te }
    }

    /// Angle from the normal, degrees.
    #[must_use]
    pub fn angle_deg(&self) -> f64 {
        self.angle_deg
    }

    /// Angle of the plane of incidence from the opening's length, degrees.
    #[must_use]
    pub fn azimuth_deg(&self) -> f64 {
        self.azimuth_deg
    }

    /// Polarization.
    #[must_use]
    pub fn polarization(&self) -> Polarization {
        self.polarization
    }

    /// The numbers that the patterns need.
    pub(super) fn wave(&self) -> Wave {
        let (azimuth_sine, azimuth_cosine) = self.azimuth_deg.to_radians().sin_cos();
        Wave {
            sine: self.angle_deg.to_radians().sin(),
            cosine: cosine_of_deg(self.angle_deg),
            azimuth: (azimuth_cosine, azimuth_sine),
            is_tm: self.polarization == Polarization::Tm,
        }
    }
}

/// A leak that passes waves of different directions differently, and says how.
pub trait Directional: Leak {
    /// Natural logarithm of the cross-section, m², for waves of this direction and polarization.
    ///
    /// Its mean over the half-space (in solid angle) and both polarizations is that of
    /// [`Leak::ln_cross_section`]. Domain: finite positive frequency, Hz.
    fn ln_cross_section_towards(&self, frequency_hz: f64, arrival: &Arrival) -> f64;
}

/// An arriving wave: sine and cosine of its angle, cosine and sine of its azimuth, and its polarization.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wave {
    pub sine: f64,
    pub cosine: f64,
    pub azimuth: (f64, f64),
    pub is_tm: bool,
}

impl Wave {
    /// Its magnetic field along the wall, in the axes of the opening, for a field of one.
    pub(super) fn magnetic(&self) -> (f64, f64) {
        let (c, s) = self.azimuth;
        if self.is_tm { (-s, c) } else { (self.cosine * c, self.cosine * s) }
    }

    /// Its electric field across the wall, over the wave impedance.
    pub(super) fn electric(&self) -> f64 {
        if self.is_tm { self.sine } else { 0.0 }
    }

    /// Direction cosines along the wall.
    pub(super) fn cosines(&self) -> (f64, f64) {
        (self.sine * self.azimuth.0, self.sine * self.azimuth.1)
    }
}

/// Whose transmission it is that is looked at.
#[derive(Debug, Clone, Copy)]
pub(super) enum Pattern {
    /// A voltage of `half_waves` along `length_m` across a slot that is `width_m` wide; the slot lies along
    /// the opening's length, or across it.
    Voltage { half_waves: f64, length_m: f64, width_m: f64, is_along: bool },
    /// The lowest electric mode of a rectangle.
    Electric { length_m: f64, width_m: f64 },
    /// The two lowest modes of a circle together, by their cutoff (the first zero of J₁′) and the radius.
    RoundPair { zero: f64, radius_m: f64 },
    /// The lowest electric mode of a circle, by the first zero of J₀.
    RoundElectric { zero: f64, radius_m: f64 },
    /// An open area.
    Open,
}

/// Widths over wavelength between which the patterns of an opening's modes give way to that of an open area.
const OPENS: (f64, f64) = (0.6, 1.0);

/// Natural logarithm of the cross-section towards a wave, by that of the modes with their patterns and the averaged one,
/// and the opening's width. The mean over directions remains the average.
pub(super) fn ln_towards(
    wavenumber_per_m: f64,
    width_m: f64,
    wave: &Wave,
    ln_by_patterns: impl Fn() -> f64,
    ln_averaged: impl Fn() -> f64,
) -> f64 {
    let open = smooth_step((wavenumber_per_m * width_m / (2.0 * PI) - OPENS.0) / (OPENS.1 - OPENS.0));
    let mut sum = LnSum::default();
    if open < 1.0 {
        sum += (1.0 - open).ln() + ln_by_patterns();
    }
    if open > 0.0 {
        sum += (open * 2.0 * wave.cosine).ln() + ln_averaged();
    }
    sum.ln()
}

/// From so many half-waves over its length on, up to so many, the pattern of a single mode fades into that of
/// an open area: it is then one narrow lobe of many.
const FADES: (f64, f64) = (16.0, 32.0);

static RULE: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| gauss_legendre(12));

/// ∫ f over (0, 1) in panels of twelve points.
fn integral(panels: usize, mut f: impl FnMut(f64) -> f64) -> f64 {
    let step = 1.0 / panels as f64;
    let mut sum = 0.0;
    for panel in 0..panels {
        for &(x, weight) in RULE.iter() {
            sum += 0.5 * step * weight * f((panel as f64 + 0.5 * (x + 1.0)) * step);
        }
    }
    sum
}

/// Panels for a function with this many radians of phase across.
fn panels(phase: f64) -> usize {
    (phase / 6.0) as usize + 1
}

/// sin x/x.
fn sinc(x: f64) -> f64 {
    if x.abs() < 1e-8 { 1.0 } else { x.sin() / x }
}

/// Fourier transform of sin(mπx/l) over its length, squared, up to a factor.
fn voltage_squared(half_waves: f64, phase: f64) -> f64 {
    let quarter_turns = half_waves * FRAC_PI_2;
    let (low, high) = (sinc(phase - quarter_turns), sinc(phase + quarter_turns));
    let odd = (half_waves % 2.0) == 1.0;
    let sum = if odd { low + high } else { low - high };
    sum * sum
}

impl Pattern {
    /// Gain towards a wave; its mean over the half-space and both polarizations is one.
    pub(super) fn gain(&self, wavenumber_per_m: f64, wave: &Wave) -> f64 {
        let open = 2.0 * wave.cosine;
        let faded = smooth_step((wavenumber_per_m * self.size_m() / PI / FADES.0).ln() / (FADES.1 / FADES.0).ln());
        if matches!(self, Self::Open) || faded >= 1.0 {
            return open;
        }
        let mean = self.mean(wavenumber_per_m);
        // A mode that couples to nothing that can be written couples as a dipole does.
        let own = if mean > 0.0 { self.power(wavenumber_per_m, wave) / mean } else { 1.0 };
        faded * open + (1.0 - faded) * own
    }

    fn size_m(&self) -> f64 {
        match *self {
            Self::Voltage { half_waves, length_m, width_m, .. } => {
                // Of a slot mode the lobes are looked after where it is counted.
                if half_waves > 1.0 { width_m } else { length_m.max(width_m) }
            }
            Self::Electric { length_m, width_m } => length_m.max(width_m),
            Self::RoundPair { radius_m, .. } | Self::RoundElectric { radius_m, .. } => 2.0 * radius_m,
            Self::Open => 0.0,
        }
    }

    /// |ê·k̂_t|² of a TM wave, cos²θ |ê×k̂_t|² of a TE wave, up to a factor.
    fn power(&self, wavenumber_per_m: f64, wave: &Wave) -> f64 {
        let (u, v) = wave.cosines();
        let (magnetic_x, magnetic_y) = wave.magnetic();
        match *self {
            Self::Voltage { half_waves, length_m, width_m, is_along } => {
                let (along, across, field) = if is_along { (u, v, magnetic_x) } else { (v, u, magnetic_y) };
                let lobes = voltage_squared(half_waves, 0.5 * wavenumber_per_m * length_m * along);
                let width = sinc(0.5 * wavenumber_per_m * width_m * across);
                lobes * width * width * field * field
            }
            Self::Electric { length_m, width_m } => {
                let electric = wave.electric();
                let lobes = voltage_squared(1.0, 0.5 * wavenumber_per_m * length_m * u);
                lobes * voltage_squared(1.0, 0.5 * wavenumber_per_m * width_m * v) * electric * electric
            }
            Self::RoundPair { zero, radius_m } => {
                let t = wavenumber_per_m * radius_m * wave.sine;
                let (along, across) = round_pair(zero, t);
                let amplitude = if wave.is_tm { along } else { wave.cosine * across };
                amplitude * amplitude
            }
            Self::RoundElectric { zero, radius_m } => {
                let t = wavenumber_per_m * radius_m * wave.sine;
                let (j0, slope) = bessel_j_and_slope(0, t);
                // J₀(t)/(x² − t²), and its limit −J₀′/(2x) at the zero x
                let lobes = if (t - zero).abs() < 1e-6 { -slope / (t + zero) } else { j0 / ((zero - t) * (zero + t)) };
                let electric = wave.electric();
                lobes * lobes * electric * electric
            }
            Self::Open => wave.cosine,
        }
    }

    /// Mean of [`Pattern::power`] over the half-space and both polarizations.
    fn mean(&self, wavenumber_per_m: f64) -> f64 {
        match *self {
            Self::RoundPair { radius_m, .. } | Self::RoundElectric { radius_m, .. } => {
                integral(panels(wavenumber_per_m * radius_m), |cosine| {
                    let sine = ((1.0 - cosine) * (1.0 + cosine)).sqrt();
                    let wave = |is_tm| Wave { sine, cosine, azimuth: (1.0, 0.0), is_tm };
                    0.5 * (self.power(wavenumber_per_m, &wave(true)) + self.power(wavenumber_per_m, &wave(false)))
                })
            }
            Self::Voltage { half_waves, length_m, width_m, .. } => integral(panels(wavenumber_per_m * length_m), |u| {
                let rest = (1.0 - u) * (1.0 + u);
                let lobes = voltage_squared(half_waves, 0.5 * wavenumber_per_m * length_m * u);
                0.5 * rest * lobes * mean_over_width(wavenumber_per_m * width_m * rest.sqrt())
            }),
            Self::Electric { length_m, width_m } => integral(panels(wavenumber_per_m * length_m), |u| {
                let rest = (1.0 - u) * (1.0 + u);
                let lobes = voltage_squared(1.0, 0.5 * wavenumber_per_m * length_m * u);
                let across = integral(panels(wavenumber_per_m * width_m), |turn| {
                    let v = rest.sqrt() * (FRAC_PI_2 * turn).sin();
                    0.5 * (u * u + v * v) * voltage_squared(1.0, 0.5 * wavenumber_per_m * width_m * v)
                });
                lobes * across
            }),
            Self::Open => 0.5,
        }
    }
}

/// Mean of the pattern across a slot over the waves of one wavenumber along it, by k_t times the width.
fn mean_over_width(phase: f64) -> f64 {
    // In powers of k_t w; the next one is below rounding here.
    if phase < 0.1 {
        let square = phase * phase;
        return 1.0 - square / 24.0 * (1.0 - square / 40.0 * (1.0 - square / 67.2));
    }
    integral(panels(phase), |turn| {
        let lobe = sinc(0.5 * phase * (FRAC_PI_2 * turn).sin());
        lobe * lobe
    })
}

/// Gain of an endless slit's wave towards a wave of the same wavenumber along it, against the mean over all
/// waves that have that wavenumber.
pub(super) fn endless_gain(wavenumber_per_m: f64, width_m: f64, wave: &Wave) -> f64 {
    let ((u, v), (field, _)) = (wave.cosines(), wave.magnetic());
    let rest = (1.0 - u) * (1.0 + u);
    let width = sinc(0.5 * wavenumber_per_m * width_m * v);
    2.0 * field * field / rest * width * width / mean_over_width(wavenumber_per_m * width_m * rest.sqrt())
}

/// TE11 towards TM and TE waves: 2J₁(t)/t, and 2J₁′(t) x²/(x² − t²) with its limit at the zero x of J₁′.
fn round_pair(zero: f64, t: f64) -> (f64, f64) {
    if t < 1e-8 {
        return (1.0, 1.0);
    }
    let (j1, slope) = bessel_j_and_slope(1, t);
    let across = if (t - zero).abs() < 1e-6 {
        zero * zero * (1.0 - 1.0 / (zero * zero)) * j1 / (t + zero)
    } else {
        slope * zero * zero / ((zero - t) * (zero + t))
    };
    (2.0 * j1 / t, 2.0 * across)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numeric::bessel::{J0_FIRST, J1_PRIME_FIRST};

    /// Mean over the half-space and both polarizations, by a rule of its own: midpoints.
    fn mean_gain(pattern: &Pattern, k: f64) -> f64 {
        const STEPS: usize = 240;
        const TURNS: usize = 24;
        let mut sum = 0.0;
        for polar in 0..STEPS {
            let cosine = (polar as f64 + 0.5) / STEPS as f64;
            for turn in 0..TURNS {
                let azimuth = (turn as f64 + 0.5) / TURNS as f64 * FRAC_PI_2;
                for is_tm in [true, false] {
                    let sine = (1.0 - cosine * cosine).sqrt();
                    sum += pattern.gain(k, &Wave { sine, cosine, azimuth: (azimuth.cos(), azimuth.sin()), is_tm });
                }
            }
        }
        sum / (2 * STEPS * TURNS) as f64
    }

    #[test]
    fn every_pattern_has_a_mean_of_one() {
        let slot = |half_waves, is_along| Pattern::Voltage { half_waves, length_m: 1.0, width_m: 0.3, is_along };
        for k in [1e-3, 1.0, 3.2, 12.0] {
            for pattern in [
                slot(1.0, true),
                slot(2.0, true),
                slot(3.0, true),
                slot(1.0, false),
                Pattern::Electric { length_m: 1.0, width_m: 0.4 },
                Pattern::RoundPair { zero: J1_PRIME_FIRST, radius_m: 0.5 },
                Pattern::RoundElectric { zero: J0_FIRST, radius_m: 0.5 },
                Pattern::Open,
            ] {
                let mean = mean_gain(&pattern, k);
                assert!((mean - 1.0).abs() < 2e-3, "{pattern:?} {k}: {mean}");
            }
        }
    }

    #[test]
    fn small_openings_are_dipoles() {
        let wave = Arrival::new(50.0, 20.0, Polarization::Tm).unwrap().wave();
        let slot = Pattern::Voltage { half_waves: 1.0, length_m: 1.0, width_m: 0.2, is_along: true };
        let expected = 3.0 * 20f64.to_radians().sin().powi(2);
        assert!((slot.gain(1e-4, &wave) - expected).abs() < 1e-6);
        let electric = Pattern::RoundElectric { zero: J0_FIRST, radius_m: 1.0 };
        assert!((electric.gain(1e-4, &wave) - 3.0 * 50f64.to_radians().sin().powi(2)).abs() < 1e-6);
    }

    #[test]
    fn the_half_wave_slot_has_the_pattern_of_its_complement() {
        // cos(π/2 cos ψ)/sin ψ, ψ the angle from the slot's axis: the half-wave dipole (C. A. Balanis, Antenna
        // Theory, 3rd ed., 2005, sec. 4.6, from memory), directivity 4/2.4376 = 1.641 over the sphere.
        let slot = Pattern::Voltage { half_waves: 1.0, length_m: 1.0, width_m: 1e-6, is_along: true };
        let at = |angle_deg| slot.gain(PI, &Arrival::new(angle_deg, 0.0, Polarization::Te).unwrap().wave());
        // One of the two polarizations is all it takes in, and the whole sphere is twice the half: 2 · 1.643.
        assert!((at(0.0) - 2.0 * 1.640_9).abs() < 2e-3, "{}", at(0.0));
        for angle_deg in [10.0_f64, 40.0, 70.0] {
            let psi = (90.0 - angle_deg).to_radians();
            let expected = ((FRAC_PI_2 * psi.cos()).cos() / psi.sin()).powi(2);
            assert!((at(angle_deg) / at(0.0) - expected).abs() < 1e-9);
        }
    }

    #[test]
    fn nothing_happens_at_the_zeros_of_the_bessel_functions() {
        let zero = J1_PRIME_FIRST;
        let (near, at) = (round_pair(zero, zero - 2e-6).1, round_pair(zero, zero).1);
        assert!((near / at - 1.0).abs() < 1e-5, "{near} {at}");
    }
}
