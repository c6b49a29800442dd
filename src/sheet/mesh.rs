//! Square wire mesh with bonded crossings, as a sheet impedance.
//!
//! K. F. Casey, "Electromagnetic shielding behavior of wire-mesh screens", IEEE Trans. EMC 30 (1988)
//! 298 (abstract read, equations from memory): for meshes that are small against the wavelength,
//!
//! Z_TE = Z'_w a + jωL_s,   Z_TM = Z'_w a + jωL_s (1 − k_t²/(2k₀²)),
//! L_s = (μ₀a/2π) ln(1/(1 − exp(−2πr_w/a))),
//!
//! with a the pitch, r_w the wire radius, Z'_w = (η_w/2πr_w) I₀(γ_w r_w)/I₁(γ_w r_w) the internal
//! impedance of the wire per length (S. A. Schelkunoff, Bell Syst. Tech. J. 13 (1934) 532). The TM
//! term in k_t² is the charge on the wires: it makes the mesh an electric shield in the near field
//! of a rod, where k_t is far above k₀.
//!
//! Crossings that are not bonded leak more, by contact resistances that no closed form knows. The
//! field of the single wires decays over about a pitch: other layers should be at least that far.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::{VACUUM_IMPEDANCE, VACUUM_PERMEABILITY, wavelength_m, wavenumber_per_m};
use crate::error::{Result, check};
use crate::material::Material;
use crate::numeric::bessel_i_ratio;
use crate::parameter::Element;
use crate::validity::Validity;
use crate::wave::{Incidence, Polarization};

/// A bonded square mesh of round wires.
///
/// ```
/// use stillroom::{material::Material, sheet::WireMesh, Laminate, Layer, PlaneWave};
/// // Pitch 1.3 mm, copper wire 0.25 mm: 62.99 dB at 100 MHz (derived from the formula above).
/// let copper = Material::conductor("copper", 5.8e7, 1.0)?;
/// let mesh = WireMesh::new(1.3e-3, 0.25e-3, copper)?;
/// let screen = Laminate::new(vec![Layer::mesh(mesh)])?;
/// assert!((screen.shielding_db(100e6, &PlaneWave::normal()) - 62.99).abs() < 0.01);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "a wire without conductivity")]
pub struct WireMesh {
    /// Distance of wires, centre to centre.
    #[parameter(within(1e-9, 1e6))]
    pitch_m: f64,
    /// Diameter of the wire, smaller than the pitch.
    #[parameter(within(1e-9, 1e6), less_than = pitch_m)]
    wire_diameter_m: f64,
    /// What the wire is made of; it must conduct.
    #[part]
    wire: Material,
}

impl WireMesh {
    fn settle(self) -> Result<Self> {
        // Any frequency serves to ask whether there is a conductivity at all.
        const ANY_HZ: f64 = 1e6;
        check::positive("conductivity_s_per_m", "S/m", self.wire.conductivity_s_per_m(ANY_HZ))
            .map_err(|error| error.within("wire"))?;
        Ok(self)
    }

    fn openings(&self) -> Openings {
        Openings { pitch_m: self.pitch_m, wire_diameter_m: self.wire_diameter_m }
    }

    /// Sheet inductance L_s of the openings, H (per square).
    #[must_use]
    pub fn sheet_inductance_h(&self) -> f64 {
        self.openings().sheet_inductance_h()
    }

    /// Internal impedance of the wire per length, ohm/m.
    ///
    /// Source: S. A. Schelkunoff, Bell Syst. Tech. J. 13 (1934) 532, eq. 82 (from memory).
    #[must_use]
    pub fn wire_impedance_ohm_per_m(&self, frequency_hz: f64) -> Complex64 {
        let radius = 0.5 * self.wire_diameter_m;
        let medium = self.wire.medium(frequency_hz);
        // A conductor's √(εμ) lies at −45°, so that j√(εμ) has a positive real part.
        let index = (medium.relative_permittivity * medium.relative_permeability).sqrt();
        let argument = Complex64::i() * wavenumber_per_m(frequency_hz) * index * radius;
        let impedance = VACUUM_IMPEDANCE * medium.relative_permeability / index;
        impedance / (2.0 * PI * radius) * bessel_i_ratio(argument)
    }

    /// Sheet impedance, ohm per square.
    #[must_use]
    pub fn sheet_impedance_ohm(&self, wave: &Incidence, polarization: Polarization) -> Complex64 {
        self.wire_impedance_ohm_per_m(wave.frequency_hz()) * self.pitch_m
            + self.openings().impedance_ohm(wave, polarization)
    }

    /// Holds while the pitch is below a quarter wavelength and the wires are thinner than a third of
    /// the pitch.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        self.openings()
            .validity(frequency_hz)
            .and(Validity::within(
                "wire mesh",
                "wire diameter / pitch",
                "",
                self.wire_diameter_m / self.pitch_m,
                (0.0, 1.0 / 3.0),
                "the wires are no longer thin and the mesh shields better than computed",
            ))
            .and(self.wire.validity(frequency_hz))
    }
}

/// The openings of a square mesh, which the wires' own impedance comes on top of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Openings {
    pub pitch_m: f64,
    pub wire_diameter_m: f64,
}

impl Openings {
    fn sheet_inductance_h(&self) -> f64 {
        // −ln(1 − e^{−2πr/a}), for thin wires too.
        let opening = -(-(-PI * self.wire_diameter_m / self.pitch_m).exp_m1()).ln();
        VACUUM_PERMEABILITY * self.pitch_m / (2.0 * PI) * opening
    }

    /// Sheet impedance, ohm per square.
    pub fn impedance_ohm(&self, wave: &Incidence, polarization: Polarization) -> Complex64 {
        let inductive = Complex64::new(0.0, 2.0 * PI * wave.frequency_hz() * self.sheet_inductance_h());
        match polarization {
            Polarization::Te => inductive,
            Polarization::Tm => inductive * (1.0 - 0.5 * wave.transverse_squared_relative()),
        }
    }

    pub fn validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "wire mesh",
            "pitch / wavelength",
            "",
            self.pitch_m / wavelength_m(frequency_hz),
            (0.0, 0.25),
            "the mesh is no longer a uniform sheet and leaks more, with grating lobes above one",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn copper() -> Material {
        Material::conductor("copper", 5.8e7, 1.0).unwrap()
    }

    #[test]
    fn wire_impedance_has_its_two_limits() {
        let mesh = WireMesh::new(1.3e-3, 0.25e-3, copper()).unwrap();
        // Direct current: 1/(πr²σ), internal inductance μ₀/8π.
        let low = mesh.wire_impedance_ohm_per_m(1.0);
        assert!((low.re * PI * 0.125e-3_f64.powi(2) * 5.8e7 - 1.0).abs() < 1e-9);
        assert!((low.im / (2.0 * PI * VACUUM_PERMEABILITY / (8.0 * PI)) - 1.0).abs() < 1e-6);
        // Skin effect: surface impedance over the circumference.
        let f = 1e13;
        let surface = (PI * f * VACUUM_PERMEABILITY / 5.8e7).sqrt() / (2.0 * PI * 0.125e-3);
        assert!((mesh.wire_impedance_ohm_per_m(f).re / surface - 1.0).abs() < 1e-3);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(WireMesh::new(f64::NAN, 1e-4, copper()).is_err());
        let error = WireMesh::new(1e-3, 2e-3, copper()).unwrap_err();
        assert_eq!(error.to_string(), "`wire_diameter_m` = 0.002 m: must be smaller than `pitch_m` = 0.001 m");
        let plastic = Material::dielectric("plastic", 3.0, 0.0).unwrap();
        let error = WireMesh::new(1e-3, 1e-4, plastic).unwrap_err();
        assert!(error.to_string().starts_with("`wire.conductivity_s_per_m` = 0"));
    }
}
