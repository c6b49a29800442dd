//! What the option line of a Touchstone file can say.

use num_complex::Complex64;

use crate::decibel::DB_PER_NEPER;

/// Unit of the frequency column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum FrequencyUnit {
    /// Hertz.
    Hz,
    /// Kilohertz.
    KHz,
    /// Megahertz.
    MHz,
    /// Gigahertz.
    GHz,
}

impl FrequencyUnit {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hz => "Hz",
            Self::KHz => "kHz",
            Self::MHz => "MHz",
            Self::GHz => "GHz",
        }
    }

    pub(super) const fn exponent(self) -> i32 {
        match self {
            Self::Hz => 0,
            Self::KHz => 3,
            Self::MHz => 6,
            Self::GHz => 9,
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::Hz, Self::KHz, Self::MHz, Self::GHz];
}

/// Which network parameters the file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum NetworkParameter {
    /// Scattering.
    S,
    /// Admittance, normalised.
    Y,
    /// Impedance, normalised.
    Z,
    /// Hybrid, normalised; two-ports only.
    H,
    /// Inverse hybrid, normalised; two-ports only.
    G,
}

impl NetworkParameter {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::S => "S",
            Self::Y => "Y",
            Self::Z => "Z",
            Self::H => "H",
            Self::G => "G",
        }
    }

    /// All of them.
    pub const ALL: [Self; 5] = [Self::S, Self::Y, Self::Z, Self::H, Self::G];
}

/// How a complex number is written as a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum PairFormat {
    /// Real and imaginary part.
    RealImaginary,
    /// Magnitude and angle in degrees.
    MagnitudeAngle,
    /// Magnitude in dB and angle in degrees.
    DecibelAngle,
}

impl PairFormat {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RealImaginary => "RI",
            Self::MagnitudeAngle => "MA",
            Self::DecibelAngle => "DB",
        }
    }

    /// All of them.
    pub const ALL: [Self; 3] = [Self::RealImaginary, Self::MagnitudeAngle, Self::DecibelAngle];

    pub(super) fn value(self, [first, second]: [f64; 2]) -> Complex64 {
        match self {
            Self::RealImaginary => Complex64::new(first, second),
            Self::MagnitudeAngle => Complex64::from_polar(first, second.to_radians()),
            Self::DecibelAngle => Complex64::from_polar((first / DB_PER_NEPER).exp(), second.to_radians()),
        }
    }

    pub(super) fn pair(self, value: Complex64) -> [f64; 2] {
        match self {
            Self::RealImaginary => [value.re, value.im],
            Self::MagnitudeAngle => [value.norm(), value.arg().to_degrees()],
            Self::DecibelAngle => [DB_PER_NEPER * value.norm().ln(), value.arg().to_degrees()],
        }
    }
}
