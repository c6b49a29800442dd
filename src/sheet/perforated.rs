//! Perforated sheet: round holes in a square or hexagonal pattern, with thickness, by impedances.
//!
//! Each hole is a magnetic and an electric dipole on either face (H. A. Bethe, Phys. Rev. 66 (1944)
//! 163). Averaged over the pattern, the tangential fields of the two faces obey
//!
//! E₁ = Z_s H₁ − Z_t H₂,  E₂ = Z_t H₁ − Z_s H₂,  Z = jωμ₀/A · (α_m − α_e k_t²/k₀² [TM only]),
//!
//! A the area per hole, α_s and α_t the polarizabilities on the same and on the other face.
//!
//! - **Thin sheet**: α_m = 2a³/3·2, α_e = 2a³/3, both faces alike. At normal incidence and with few
//!   holes |T| = 2kα_m/A: the formula 20 lg(3Aλ/(2πd³)) of T. Y. Otoshi, "A study of microwave
//!   leakage through perforated flat plates", IEEE Trans. MTT 20 (1972) 235 (from memory).
//! - **Neighbours**: the field of the other holes raises both dipoles: α → α/(1 − 4βα) in a thin sheet, with
//!   β = S/(8π p³) for the magnetic and S/(4π p³) for the electric one, S = Σ(p/r)³ over the pattern (R. E.
//!   Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 12.3, from memory; here each hole's image in
//!   the wall doubles its field). The electric moment points against the field on its face, so that beside it the
//!   field grows: two openings pass more than twice what one does, whatever the field.
//! - **Thickness**: the hole is a tube below cutoff, TE₁₁ for the magnetic and TM₀₁ for the electric
//!   dipole. Its static fields were solved here by Galerkin's method in tube modes (up to 120,
//!   extrapolated; 5·10⁻⁴). Thick holes pass 0.839 exp(−1.841 t/a) and 0.825 exp(−2.405 t/a) of
//!   the thin hole's dipoles; R. L. Gluckstern and J. A. Diamond, IEEE Trans. MTT 39 (1991) 274 have
//!   0.838 and 0.825 (from memory). The common "32 dB per diameter of depth" (C.-C. Chen, IEEE Trans.
//!   MTT 21 (1973) 1) leaves the factor out.
//!
//! The metal itself is taken as opaque and perfectly conducting.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::wavelength_m;
pub use crate::mouth::hole_pattern::HolePattern;
use crate::numeric::bessel::{J0_FIRST, J1_PRIME_FIRST};
use crate::parameter::Element;
use crate::validity::Validity;
use crate::wave::{Incidence, Polarization};

/// A metal sheet with round holes.
///
/// ```
/// use stillroom::{Laminate, Layer, PlaneWave, sheet::{HolePattern, PerforatedSheet}};
/// // Small holes in a thin sheet: 20 lg(3 A λ/(2π d³)) (Otoshi 1972): d 1 mm, pitch 5 mm, 1 GHz: 71.07 dB.
/// let sheet = PerforatedSheet::new(1e-3, 5e-3, HolePattern::Square, 0.0)?;
/// let loss = Laminate::new(vec![Layer::perforated(sheet)])?.shielding_db(1e9, &PlaneWave::normal());
/// assert!((loss - 71.07).abs() < 0.1);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(hole_diameter_m, pitch_m, pattern, thickness_m))]
pub struct PerforatedSheet {
    /// Diameter of the holes, smaller than the pitch.
    #[parameter(positive, less_than = pitch_m)]
    hole_diameter_m: f64,
    /// Distance of nearest holes, centre to centre.
    #[parameter(positive)]
    pitch_m: f64,
    /// How the holes are arranged.
    #[kept(choice = "square", default = HolePattern::Square, setter = none)]
    pattern: HolePattern,
    /// Thickness of the sheet.
    #[parameter(non_negative, default = 0.0, setter = none)]
    thickness_m: f64,
}

/// Impedances between the faces of a sheet, relative to vacuum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FaceImpedances {
    /// Same face.
    pub own: Complex64,
    /// From one face to the other, without the factor exp(-`nepers`).
    pub transfer: Complex64,
    /// Attenuation of the transfer.
    pub nepers: f64,
}

impl PerforatedSheet {
    /// Share of the sheet that is open.
    #[must_use]
    pub fn open_fraction(&self) -> f64 {
        0.25 * PI * (self.hole_diameter_m / self.pitch_m).powi(2) / self.pattern.cell()
    }

    /// Impedances between the faces, relative to vacuum.
    pub(crate) fn impedances(&self, wave: &Incidence, polarization: Polarization) -> FaceImpedances {
        let radius = 0.5 * self.hole_diameter_m;
        let cube = self.pitch_m.powi(3);
        let sum = self.pattern.lattice_sum() / cube;
        let k = wave.wavenumber_per_m();
        let magnetic = Dipole { thin: 4.0 / 3.0 * radius.powi(3), neighbours: sum / (8.0 * PI), depth: &MAGNETIC }
            .in_pattern(self.thickness_m, radius, k);
        let (own, transfer, nepers) = match polarization {
            Polarization::Te => (magnetic.own.into(), magnetic.transfer.into(), magnetic.nepers),
            Polarization::Tm => {
                let electric =
                    Dipole { thin: 2.0 / 3.0 * radius.powi(3), neighbours: sum / (4.0 * PI), depth: &ELECTRIC }
                        .in_pattern(self.thickness_m, radius, k);
                let share = wave.transverse_squared_relative();
                // The electric dipole decays faster through the hole.
                let lag = (magnetic.nepers - electric.nepers).exp();
                (
                    magnetic.own - share * electric.own,
                    magnetic.transfer - share * electric.transfer * lag,
                    magnetic.nepers,
                )
            }
        };
        // jωμ₀/(A η₀) = jk/A
        let per_area = Complex64::new(0.0, k / (self.pattern.cell() * self.pitch_m * self.pitch_m));
        FaceImpedances { own: per_area * own, transfer: per_area * transfer, nepers }
    }

    /// Holds for holes below a third and a pitch below 0.4 of the wavelength, and for hole diameters
    /// up to 0.8 of the pitch.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let wavelength = wavelength_m(frequency_hz);
        Validity::within(
            "perforated sheet",
            "hole diameter / wavelength",
            "",
            self.hole_diameter_m / wavelength,
            (0.0, 1.0 / 3.0),
            "the holes resonate and pass more",
        )
        .and(Validity::within(
            "perforated sheet",
            "pitch / wavelength",
            "",
            self.pitch_m / wavelength,
            (0.0, 0.4),
            "the pattern is no longer a uniform sheet and radiates grating lobes",
        ))
        .and(Validity::within(
            "perforated sheet",
            "hole diameter / pitch",
            "",
            self.hole_diameter_m / self.pitch_m,
            (0.0, 0.8),
            "neighbouring holes act on each other more than dipoles do",
        ))
    }
}

/// One kind of dipole moment of a hole.
struct Dipole<'a> {
    /// Polarizability in a foil, m³.
    thin: f64,
    /// Field of all neighbours per moment, 1/m³.
    neighbours: f64,
    depth: &'a Depth,
}

struct Moments {
    own: f64,
    transfer: f64,
    nepers: f64,
}

impl Dipole<'_> {
    fn in_pattern(&self, thickness: f64, radius: f64, wavenumber: f64) -> Moments {
        let u = thickness / radius;
        let (pass, stay) = self.depth.at(u);
        // Attenuation of the tube mode, sqrt((κa)² − (ka)²); open tubes (outside the domain) pass all.
        let kr = wavenumber * radius;
        let nepers = u * ((self.depth.root - kr) * (self.depth.root + kr)).max(0.0).sqrt();
        let through = pass * (-nepers).exp();
        // Same drive on both faces, and opposite drive: each mode feels its neighbours on its own.
        let with_neighbours = |alpha: f64| alpha / (1.0 - 2.0 * self.neighbours * alpha);
        let (even, odd) = (self.thin * (stay + through), self.thin * (stay - through));
        // (even' − odd')/2 without the difference of two nearly equal numbers.
        let common = (1.0 - 2.0 * self.neighbours * even) * (1.0 - 2.0 * self.neighbours * odd);
        Moments {
            own: 0.5 * (with_neighbours(even) + with_neighbours(odd)),
            transfer: self.thin * pass / common,
            nepers,
        }
    }
}

/// Static solution of a hole in a thick wall: what passes, over exp(-root t/a), and what stays.
struct Depth {
    /// Lowest root: J₁' (TE₁₁) or J₀ (TM₀₁).
    root: f64,
    /// Rows of thickness / radius, share passed, share on the same face.
    rows: [(f64, f64, f64); 14],
}

impl Depth {
    fn at(&self, u: f64) -> (f64, f64) {
        let last = self.rows[self.rows.len() - 1];
        let next = self.rows.partition_point(|row| row.0 <= u);
        if next == 0 || next == self.rows.len() {
            return (last.1, last.2);
        }
        let (low, high) = (self.rows[next - 1], self.rows[next]);
        let part = (u - low.0) / (high.0 - low.0);
        (low.1 + part * (high.1 - low.1), low.2 + part * (high.2 - low.2))
    }
}

const MAGNETIC: Depth = Depth {
    root: J1_PRIME_FIRST,
    rows: [
        (0.0, 1.0, 1.0),
        (0.01, 0.9819, 0.9756),
        (0.02, 0.9700, 0.9579),
        (0.05, 0.9451, 0.9179),
        (0.1, 0.9186, 0.8715),
        (0.15, 0.9009, 0.8384),
        (0.2, 0.8881, 0.8133),
        (0.3, 0.8709, 0.7784),
        (0.5, 0.8533, 0.7412),
        (0.75, 0.8445, 0.7221),
        (1.0, 0.8410, 0.7147),
        (1.5, 0.8391, 0.7107),
        (2.0, 0.8388, 0.7100),
        (3.0, 0.8387, 0.7099),
    ],
};

const ELECTRIC: Depth = Depth {
    root: J0_FIRST,
    rows: [
        (0.0, 1.0, 1.0),
        (0.01, 0.9817, 0.9813),
        (0.02, 0.9695, 0.9690),
        (0.05, 0.9438, 0.9437),
        (0.1, 0.9163, 0.9178),
        (0.15, 0.8975, 0.9015),
        (0.2, 0.8837, 0.8903),
        (0.3, 0.8648, 0.8766),
        (0.5, 0.8444, 0.8649),
        (0.75, 0.8333, 0.8604),
        (1.0, 0.8285, 0.8591),
        (1.5, 0.8254, 0.8586),
        (2.0, 0.8248, 0.8586),
        (3.0, 0.8246, 0.8586),
    ],
};

/// The formula of the handbooks for a perforated sheet at normal incidence, dB, for comparison:
/// 20 lg(3Aλ/(2πd³)) + 32 t/d.
///
/// Few small holes (d ≪ pitch ≪ λ), depth by the static rate of the TE₁₁ mode without its end
/// correction. T. Y. Otoshi 1972 and C.-C. Chen 1973 (from memory).
#[must_use]
pub fn perforated_rule_db(sheet: &PerforatedSheet, frequency_hz: f64) -> f64 {
    let area = sheet.pattern.cell() * sheet.pitch_m * sheet.pitch_m;
    let diameter = sheet.hole_diameter_m;
    20.0 * (3.0 * area * wavelength_m(frequency_hz) / (2.0 * PI * diameter.powi(3))).log10()
        + 32.0 * sheet.thickness_m / diameter
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nonsense_is_refused() {
        assert!(PerforatedSheet::new(2e-3, 1e-3, HolePattern::Square, 0.0).is_err());
        assert!(PerforatedSheet::new(1e-3, f64::INFINITY, HolePattern::Square, 0.0).is_err());
        assert!(PerforatedSheet::new(1e-3, 2e-3, HolePattern::Square, -1e-3).is_err());
        assert!("random".parse::<HolePattern>().is_err());
    }
}
