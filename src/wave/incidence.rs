//! How a plane wave, travelling or evanescent, meets a plane boundary.

use num_complex::Complex64;

use crate::choice::choice;
use crate::constants::wavenumber_per_m;

/// Which field lies in the boundary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub enum Polarization {
    /// Electric field in the boundary (perpendicular to the plane of incidence).
    Te,
    /// Magnetic field in the boundary (electric field in the plane of incidence).
    Tm,
}

choice!(Polarization, "polarization" { Te => "te", Tm => "tm" });

/// A plane wave in vacuum, by its frequency and its wavenumber along the boundary.
///
/// Below k₀ the wave travels; above, it is evanescent, as the spectrum of a near source is.
/// The propagation constant across the boundary is kept beside the transverse wavenumber, since
/// k_t² − k₀² taken from it loses its digits near grazing incidence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Incidence {
    frequency_hz: f64,
    wavenumber: f64,
    transverse_squared: Complex64,
    across: Complex64,
    across_squared: Complex64,
}

impl Incidence {
    /// A wave at an angle from the normal, 0 ≤ θ < 90 degrees.
    #[must_use]
    pub fn at_angle(frequency_hz: f64, angle_deg: f64) -> Self {
        Self::travelling(frequency_hz, angle_deg.to_radians().sin(), cosine_of_deg(angle_deg))
    }

    /// A wave by the cosine of its angle from the normal, 0 < cos θ ≤ 1.
    #[must_use]
    pub fn at_cosine(frequency_hz: f64, cosine: f64) -> Self {
        Self::travelling(frequency_hz, ((1.0 - cosine) * (1.0 + cosine)).sqrt(), cosine)
    }

    fn travelling(frequency_hz: f64, sine: f64, cosine: f64) -> Self {
        let wavenumber = wavenumber_per_m(frequency_hz);
        let across = wavenumber * cosine;
        Self {
            frequency_hz,
            wavenumber,
            transverse_squared: (wavenumber * sine).powi(2).into(),
            across: Complex64::new(0.0, across),
            across_squared: (-across * across).into(),
        }
    }

    /// A wave by its transverse wavenumber in rad/m, zero or positive, on either side of k₀.
    #[must_use]
    pub fn at_transverse_wavenumber(frequency_hz: f64, transverse_wavenumber_per_m: f64) -> Self {
        let wavenumber = wavenumber_per_m(frequency_hz);
        let transverse = transverse_wavenumber_per_m;
        let across_squared = (transverse - wavenumber) * (transverse + wavenumber);
        let across = if across_squared >= 0.0 {
            Complex64::new(across_squared.sqrt(), 0.0)
        } else {
            Complex64::new(0.0, (-across_squared).sqrt())
        };
        Self {
            frequency_hz,
            wavenumber,
            transverse_squared: (transverse * transverse).into(),
            across,
            across_squared: across_squared.into(),
        }
    }

    /// A wave by `decay_per_m` = Re √(k_t² − k₀²) > 0 where the imaginary part of that root is k₀.
    ///
    /// Such waves, decaying along the boundary as well, make up the field of a small source on the
    /// path of integration where nothing oscillates: k_t² = x² + 2jk₀x.
    #[must_use]
    pub fn beside_branch_cut(frequency_hz: f64, decay_per_m: f64) -> Self {
        let wavenumber = wavenumber_per_m(frequency_hz);
        let across = Complex64::new(decay_per_m, wavenumber);
        Self {
            frequency_hz,
            wavenumber,
            transverse_squared: Complex64::new(decay_per_m * decay_per_m, 2.0 * wavenumber * decay_per_m),
            across,
            across_squared: across * across,
        }
    }

    /// Frequency, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> f64 {
        self.frequency_hz
    }

    /// Free-space wavenumber k₀, rad/m.
    #[must_use]
    pub fn wavenumber_per_m(&self) -> f64 {
        self.wavenumber
    }

    /// Squared wavenumber along the boundary relative to k₀²: sin²θ of a travelling wave.
    #[must_use]
    pub fn transverse_squared_relative(&self) -> Complex64 {
        self.transverse_squared / (self.wavenumber * self.wavenumber)
    }

    /// Propagation constant across the boundary in vacuum, 1/m: √(k_t² − k₀²), decaying or outgoing.
    #[must_use]
    pub fn propagation_per_m(&self) -> Complex64 {
        self.across
    }

    /// Its square, 1/m².
    #[must_use]
    pub fn propagation_squared_per_m2(&self) -> Complex64 {
        self.across_squared
    }
}

/// Cosine of an angle in degrees, with its digits kept towards 90 degrees, which no radian is.
pub(crate) fn cosine_of_deg(angle_deg: f64) -> f64 {
    if angle_deg > 45.0 { (90.0 - angle_deg).to_radians().sin() } else { angle_deg.to_radians().cos() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grazing_keeps_its_digits() {
        let wave = Incidence::at_angle(1e9, 89.999_999);
        let expected = wavenumber_per_m(1e9) * 1e-6_f64.to_radians().sin();
        assert!((wave.propagation_per_m().im / expected - 1.0).abs() < 1e-7);
    }

    #[test]
    fn evanescent_waves_decay() {
        let wave = Incidence::at_transverse_wavenumber(1e6, 100.0);
        assert!(wave.propagation_per_m().re > 0.0 && wave.propagation_per_m().im == 0.0);
    }
}
