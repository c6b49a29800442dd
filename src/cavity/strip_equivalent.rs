//! The equivalent circuit that is published for a box with one slot.
//!
//! The slot is a coplanar strip line of the box's height, shorted at both ends of the slot, the box a guide in
//! its lowest mode, shorted at its back; a source of 377 ohm is the wave outside. With l, w slot length
//! and width, t the wall,
//!
//! w_e = w − (5t/4π)(1 + ln(4πw/t)),   Z_s = 120π²/ln(2 (1 + r)/(1 − r)),   r = (1 − (w_e/b)²)^¼,
//! Z_ap = ½ (l/a) j Z_s tan(k l/2),
//!
//! and S = −20 lg|2V/V₀| of the voltage at a distance from the front, for the magnetic field of the current
//! times 377 ohm (M. P. Robinson et al., "Analytical formulation for the shielding effectiveness of
//! enclosures with apertures", IEEE Trans. Electromagn. Compat. 40 (1998) 240, from memory).
//!
//! It knows one mode, no loss, and a slot in the middle of the front: for comparison beside
//! [`BenchBox`](super::BenchBox).

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::constants::{VACUUM_IMPEDANCE, wavelength_m, wavenumber_per_m};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// A box with one slot in the middle of its front, as a circuit.
///
/// ```
/// use stillroom::cavity::StripEquivalent;
/// let published = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3)?;
/// let (electric_db, _) = published.shielding_db(400e6, 0.15)?;
/// assert!((electric_db - 36.8).abs() < 0.1);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(try_from = "Record"))]
pub struct StripEquivalent {
    interior_m: [f64; 3],
    slot_m: [f64; 2],
    wall_thickness_m: f64,
}

impl StripEquivalent {
    /// A box by width, height and depth inside, a slot by length (along the width) and width, and the
    /// thickness of the wall, all in m.
    ///
    /// # Errors
    /// Unless all sizes are positive and finite and the thickness zero or positive; the slot at most as long
    /// as the box is wide, wider than the thickness takes from it, and narrower than 0.7 of the height.
    pub fn new(interior_m: [f64; 3], slot_m: [f64; 2], wall_thickness_m: f64) -> Result<Self> {
        check::all_positive("interior_m", "m", &interior_m)?;
        check::all_positive("slot_m", "m", &slot_m)?;
        let wall_thickness_m = check::non_negative("wall_thickness_m", "m", wall_thickness_m)?;
        check::at_most("slot_m[0]", "m", slot_m[0], "interior_m[0]", interior_m[0])?;
        let strip = Self { interior_m, slot_m, wall_thickness_m };
        let widest = interior_m[1] / 2f64.sqrt();
        check::less_than("slot_m[1]", "m", strip.effective_width_m(), "0.7 of interior_m[1]", widest)?;
        check::positive("effective width of the slot", "m", strip.effective_width_m())?;
        Ok(strip)
    }

    /// Width, height and depth inside, m.
    #[must_use]
    pub fn interior_m(&self) -> [f64; 3] {
        self.interior_m
    }

    /// Length and width of the slot, m.
    #[must_use]
    pub fn slot_m(&self) -> [f64; 2] {
        self.slot_m
    }

    /// Thickness of the wall, m.
    #[must_use]
    pub fn wall_thickness_m(&self) -> f64 {
        self.wall_thickness_m
    }

    fn effective_width_m(&self) -> f64 {
        let (w, t) = (self.slot_m[1], self.wall_thickness_m);
        if t == 0.0 { w } else { w - 5.0 * t / (4.0 * PI) * (1.0 + (4.0 * PI * w / t).ln()) }
    }

    /// Impedance of the slot as a strip line, ohm.
    #[must_use]
    pub fn line_impedance_ohm(&self) -> f64 {
        let ratio = self.effective_width_m() / self.interior_m[1];
        // 1 − r with no loss for a thin slot
        let one_less = -(0.25 * (-ratio * ratio).ln_1p()).exp_m1();
        120.0 * PI * PI / (2.0 * (2.0 - one_less) / one_less).ln()
    }

    /// Electric and magnetic shielding at a distance from the front (m), dB; negative at resonance.
    ///
    /// # Errors
    /// Unless the distance is within the box.
    pub fn shielding_db(&self, frequency_hz: f64, distance_m: f64) -> Result<(f64, f64)> {
        let [a, _, depth_m] = self.interior_m;
        check::within("distance_m", "m", distance_m, (0.0, depth_m), "within the box")?;
        let (k, j) = (wavenumber_per_m(frequency_hz), Complex64::new(0.0, 1.0));
        let z0 = VACUUM_IMPEDANCE;
        let slot = 0.5 * self.slot_m[0] / a * j * self.line_impedance_ohm() * (0.5 * k * self.slot_m[0]).tan();
        let (source, impedance) = (slot / (z0 + slot), z0 * slot / (z0 + slot));
        // Below cutoff both turn imaginary together.
        let root = crate::complex_functions::decaying_root(Complex64::new((PI / (k * a)).powi(2) - 1.0, 0.0));
        let (gamma, guide) = (k * root, j * z0 / root);
        let (near, far) = (gamma * distance_m, gamma * (depth_m - distance_m));
        let turned = near.cosh() + impedance / guide * near.sinh();
        let source = source / turned;
        let impedance = (impedance * near.cosh() + guide * near.sinh()) / turned;
        let short = guide * far.tanh();
        let (voltage, current) = (source * short / (impedance + short), source / (impedance + short));
        let db = |share: Complex64| -DB_PER_NEPER * (2.0 * share).norm().ln();
        Ok((db(voltage), db(current * z0)))
    }

    /// Where it holds: one mode along the width, a slot up to half a wavelength.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let wavelength_m = wavelength_m(frequency_hz);
        let [a, b, _] = self.interior_m;
        Validity::within(
            "strip-line equivalent",
            "longest side of the front / wavelength",
            "",
            (0.5 * a).max(b) / wavelength_m,
            (0.0, 0.5),
            "further modes of the box take part",
        )
        .and(Validity::within(
            "strip-line equivalent",
            "slot length / wavelength",
            "",
            self.slot_m[0] / wavelength_m,
            (0.0, 0.5),
            "the slot resonates by itself",
        ))
    }
}

impl Rebuild for StripEquivalent {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let [a, b, d] = self.interior_m;
        let interior_m = [
            knobs.value("width_m", "m", a, Domain::POSITIVE),
            knobs.value("height_m", "m", b, Domain::POSITIVE),
            knobs.value("depth_m", "m", d, Domain::POSITIVE),
        ];
        let slot_m = [
            knobs.value("slot_length_m", "m", self.slot_m[0], Domain::POSITIVE.and("at most the width")),
            knobs.value("slot_width_m", "m", self.slot_m[1], Domain::POSITIVE),
        ];
        Self::new(interior_m, slot_m, knobs.value("wall_thickness_m", "m", self.wall_thickness_m, Domain::NON_NEGATIVE))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    interior_m: [f64; 3],
    slot_m: [f64; 2],
    #[serde(default)]
    wall_thickness_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for StripEquivalent {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.interior_m, record.slot_m, record.wall_thickness_m)
    }
}
