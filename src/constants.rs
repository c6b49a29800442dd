//! Constants of nature as this crate uses them.
//!
//! The permeability of vacuum is the round value 4π·10⁻⁷ H/m, on which the tables of the shielding
//! handbooks rest; the measured value of the revised SI differs from it by less than 2·10⁻¹⁰
//! relative (CODATA 2018), far below what any material constant here is known to.

/// Speed of light in vacuum, m/s (exact in the SI).
pub const SPEED_OF_LIGHT: f64 = 299_792_458.0;

/// Permeability of vacuum, H/m.
pub const VACUUM_PERMEABILITY: f64 = 4.0e-7 * std::f64::consts::PI;

/// Permittivity of vacuum, F/m.
pub const VACUUM_PERMITTIVITY: f64 = 1.0 / (VACUUM_PERMEABILITY * SPEED_OF_LIGHT * SPEED_OF_LIGHT);

/// Wave impedance of vacuum, ohm.
pub const VACUUM_IMPEDANCE: f64 = VACUUM_PERMEABILITY * SPEED_OF_LIGHT;

/// Free-space wavenumber 2πf/c, rad/m, of a frequency in hertz.
#[must_use]
pub fn wavenumber_per_m(frequency_hz: f64) -> f64 {
    2.0 * std::f64::consts::PI * frequency_hz / SPEED_OF_LIGHT
}

/// Free-space wavelength c/f, m, of a frequency in hertz.
#[must_use]
pub fn wavelength_m(frequency_hz: f64) -> f64 {
    SPEED_OF_LIGHT / frequency_hz
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn vacuum_impedance_is_the_published_one() {
        // CODATA 2018: 376.730 313 668 ohm; the round permeability moves the tenth digit.
        assert!((VACUUM_IMPEDANCE - 376.730_313_668).abs() < 1e-6);
    }
}
