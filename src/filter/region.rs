//! Regions of impedance: what can occur at an end of a filter.
//!
//! An [`ImpedanceRegion`] says what can occur: a magnitude from `min_ohm` to `max_ohm`, a phase from `min_phase_deg` to
//! `max_phase_deg`. Along each arc and each ray of its boundary the squared magnitude of a ratio of linear functions is
//! a ratio of trigonometric or quadratic polynomials: its stationary points follow from one quadratic equation, exactly
//! and however sharp a resonance is.

use num_complex::Complex64;

use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::parameter::{Knobs, Rebuild};
use crate::wave::circuit_value;

/// Impedances that a termination can have: a range of magnitude and a range of phase.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct ImpedanceRegion {
    min_ohm: f64,
    max_ohm: f64,
    min_phase_deg: f64,
    max_phase_deg: f64,
}

impl ImpedanceRegion {
    /// From the ranges of magnitude (ohm) and phase (degrees, -90 to 90).
    ///
    /// # Errors
    /// Unless magnitudes are positive, phases within -90 and 90 degrees, and neither range is upside down.
    pub fn new(min_ohm: f64, max_ohm: f64, min_phase_deg: f64, max_phase_deg: f64) -> Result<Self> {
        circuit_value::positive("min_ohm", "ohm", min_ohm)?;
        circuit_value::positive("max_ohm", "ohm", max_ohm)?;
        check::at_most("min_ohm", "ohm", min_ohm, "max_ohm", max_ohm)?;
        check::within("min_phase_deg", "deg", min_phase_deg, (-90.0, 90.0), "from -90 to 90")?;
        check::within("max_phase_deg", "deg", max_phase_deg, (-90.0, 90.0), "from -90 to 90")?;
        check::at_most("min_phase_deg", "deg", min_phase_deg, "max_phase_deg", max_phase_deg)?;
        Ok(Self { min_ohm, max_ohm, min_phase_deg, max_phase_deg })
    }

    /// Least magnitude, ohm.
    #[must_use]
    pub const fn min_ohm(&self) -> f64 {
        self.min_ohm
    }

    /// Greatest magnitude, ohm.
    #[must_use]
    pub const fn max_ohm(&self) -> f64 {
        self.max_ohm
    }

    /// Least phase, degrees.
    #[must_use]
    pub const fn min_phase_deg(&self) -> f64 {
        self.min_phase_deg
    }

    /// Greatest phase, degrees.
    #[must_use]
    pub const fn max_phase_deg(&self) -> f64 {
        self.max_phase_deg
    }

    fn directions(&self) -> [Complex64; 2] {
        [direction(self.min_phase_deg), direction(self.max_phase_deg)]
    }

    /// The point of the boundary at which the ratio of two linear functions is largest in magnitude, with the square of
    /// that magnitude.
    ///
    /// Where the ratio has no pole within the region this is the largest over all of it.
    pub(super) fn largest(&self, above: Linear, below: Linear) -> (f64, Complex64) {
        let ratio = |z: Complex64| {
            let below = below.at(z).norm_sqr();
            let above = above.at(z).norm_sqr();
            // Both zero (a short circuit on both sides of a through): nothing passes, nothing gained.
            if above == 0.0 { 0.0 } else { above / below }
        };
        let mut best = (-1.0, Complex64::new(self.min_ohm, 0.0));
        let mut offer = |z: Complex64| {
            let value = ratio(z);
            if value > best.0 {
                best = (value, z);
            }
        };
        for end in self.directions() {
            for size in [self.min_ohm, self.max_ohm] {
                offer(end * size);
            }
            // Along a ray z = t e: a ratio of quadratics in t.
            for size in stationary(&above.along(end), &below.along(end)).into_iter().flatten() {
                if size > self.min_ohm && size < self.max_ohm {
                    offer(end * size);
                }
            }
        }
        for size in [self.min_ohm, self.max_ohm] {
            // Along an arc z = r u: (p + 2 Re(u s))/(q + 2 Re(u t)), stationary where Im(u h) = k: a circle cut by
            // a line.
            let (above_mean, above_swing) = above.around(size);
            let (below_mean, below_swing) = below.around(size);
            // d/dphi of Re(u s) is -Im(u s): Im(u a) (q + 2 Re(u b)) = Im(u b) (p + 2 Re(u a)), and
            // Im(u a) Re(u b) - Im(u b) Re(u a) = Im(a b*).
            let tilt = above_swing * below_mean - below_swing * above_mean;
            let level = -2.0 * (above_swing * below_swing.conj()).im;
            let length = tilt.norm();
            if length > 0.0 && level.abs() <= length {
                // u = e^(j phi) with Im(u tilt) = level.
                let lift = (level / length).asin();
                for angle in [lift, std::f64::consts::PI - lift] {
                    let direction = Complex64::from_polar(1.0, angle) * tilt.conj() / length;
                    let phase = direction.im.atan2(direction.re).to_degrees();
                    if phase > self.min_phase_deg && phase < self.max_phase_deg {
                        offer(direction * size);
                    }
                }
            }
        }
        best
    }

    /// The four pieces of the boundary, whole; pieces without length are left out where others hold their ends.
    pub(super) fn boundary(&self) -> Vec<Piece> {
        let (arc, ray) = (self.max_phase_deg > self.min_phase_deg, self.max_ohm > self.min_ohm);
        let mut pieces = Vec::new();
        if arc || !ray {
            pieces.push(Piece {
                kind: Kind::Arc { size: self.min_ohm },
                low: self.min_phase_deg,
                high: self.max_phase_deg,
            });
        }
        if arc && ray {
            pieces.push(Piece {
                kind: Kind::Arc { size: self.max_ohm },
                low: self.min_phase_deg,
                high: self.max_phase_deg,
            });
        }
        if ray {
            let (low, high) = (self.min_ohm.ln(), self.max_ohm.ln());
            pieces.push(Piece { kind: Kind::Ray { direction: direction(self.min_phase_deg) }, low, high });
            if arc {
                pieces.push(Piece { kind: Kind::Ray { direction: direction(self.max_phase_deg) }, low, high });
            }
        }
        pieces
    }
}

/// A part of the boundary of a region: of an arc, between two phases in degrees, or of a ray, between the logarithms of
/// two magnitudes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    kind: Kind,
    low: f64,
    high: f64,
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Arc { size: f64 },
    Ray { direction: Complex64 },
}

impl Piece {
    /// The point at a share of the way, 0 to 1.
    pub(super) fn point(&self, share: f64) -> Complex64 {
        let place = self.low + (self.high - self.low) * share;
        match self.kind {
            Kind::Arc { size } => direction(place) * size,
            Kind::Ray { direction } => direction * place.exp(),
        }
    }

    /// Half of its length as a logarithm of the impedance, and the direction of that logarithm: along the imaginary
    /// axis for an arc, the real one for a ray.
    pub(super) fn half(&self) -> (f64, Complex64) {
        let half = 0.5 * (self.high - self.low);
        match self.kind {
            Kind::Arc { .. } => (half.to_radians(), Complex64::new(0.0, 1.0)),
            Kind::Ray { .. } => (half, Complex64::new(1.0, 0.0)),
        }
    }

    pub(super) fn halves(&self) -> [Self; 2] {
        let middle = 0.5 * (self.low + self.high);
        [Self { high: middle, ..*self }, Self { low: middle, ..*self }]
    }

    /// In `parts` equal parts.
    pub(super) fn parts(&self, parts: u32) -> impl Iterator<Item = Self> + '_ {
        let place = move |k: u32| self.low + (self.high - self.low) * f64::from(k) / f64::from(parts);
        (0..parts).map(move |k| Self { low: place(k), high: place(k + 1), ..*self })
    }

    /// The share of the way at which a point lies, and how far beside the piece, relative to its size.
    pub(super) fn locate(&self, z: Complex64) -> (f64, f64) {
        let (place, beside) = match self.kind {
            Kind::Arc { size } => (z.arg().to_degrees(), (z.norm() / size).ln().abs()),
            Kind::Ray { direction } => (z.norm().ln(), (z * direction.conj()).arg().abs()),
        };
        let share = if self.high > self.low { (place - self.low) / (self.high - self.low) } else { 0.0 };
        (share.clamp(0.0, 1.0), beside)
    }
}

/// A linear function of an impedance, `slope z + offset`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Linear {
    pub(super) slope: Complex64,
    pub(super) offset: Complex64,
}

impl Linear {
    fn at(self, z: Complex64) -> Complex64 {
        self.slope * z + self.offset
    }

    /// Square of the magnitude at `z = t direction`, as a quadratic in t.
    fn along(self, direction: Complex64) -> [f64; 3] {
        let turned = self.slope * direction;
        [self.offset.norm_sqr(), 2.0 * (turned.conj() * self.offset).re, turned.norm_sqr()]
    }

    /// Square of the magnitude at `z = size u`, `|u| = 1`, as `mean + 2 Re(u swing)`.
    fn around(self, size: f64) -> (f64, Complex64) {
        let swing = self.slope * self.offset.conj() * size;
        (self.slope.norm_sqr() * size * size + self.offset.norm_sqr(), swing)
    }
}

// At plus and minus 90 degrees the resistance is exactly zero, not a rounding error below it.
fn direction(phase_deg: f64) -> Complex64 {
    if phase_deg.abs() == 90.0 {
        Complex64::new(0.0, phase_deg.signum())
    } else {
        Complex64::from_polar(1.0, phase_deg.to_radians())
    }
}

/// Where the ratio of two quadratics `c0 + c1 t + c2 t^2` is stationary.
fn stationary(above: &[f64; 3], below: &[f64; 3]) -> [Option<f64>; 2] {
    let square = above[2] * below[1] - above[1] * below[2];
    let linear = 2.0 * (above[2] * below[0] - above[0] * below[2]);
    let constant = above[1] * below[0] - above[0] * below[1];
    let discriminant = linear * linear - 4.0 * square * constant;
    if discriminant < 0.0 || discriminant.is_nan() {
        return [None, None];
    }
    // The root without cancellation first, the other from the product.
    let sum = -0.5 * (linear + discriminant.sqrt().copysign(linear));
    let finite = |root: f64| root.is_finite().then_some(root);
    [finite(sum / square), finite(constant / sum)]
}

impl Rebuild for ImpedanceRegion {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Self::new(
            knobs.value("min_ohm", "ohm", self.min_ohm, "positive"),
            knobs.value("max_ohm", "ohm", self.max_ohm, "at least min_ohm"),
            knobs.value("min_phase_deg", "deg", self.min_phase_deg, "from -90 to 90"),
            knobs.value("max_phase_deg", "deg", self.max_phase_deg, "from min_phase_deg to 90"),
        )
    }
}

checked_record!(ImpedanceRegion as Record {
    min_ohm: f64,
    max_ohm: f64,
    min_phase_deg: f64,
    max_phase_deg: f64,
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn upside_down_regions_are_refused() {
        assert!(ImpedanceRegion::new(10.0, 1.0, -90.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(0.0, 1.0, -90.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(1.0, 2.0, -91.0, 90.0).is_err());
        assert!(ImpedanceRegion::new(1.0, 2.0, 10.0, -10.0).is_err());
        assert!(ImpedanceRegion::new(f64::NAN, 2.0, -10.0, 10.0).is_err());
    }

    #[test]
    fn the_largest_ratio_equals_a_search_along_the_boundary() {
        let c = Complex64::new;
        let region = ImpedanceRegion::new(2.0, 70.0, -80.0, 35.0).unwrap();
        for (above, below) in [
            (Linear { slope: c(1.0, 0.0), offset: c(3.0, -9.0) }, Linear { slope: c(0.3, 0.7), offset: c(12.0, 5.0) }),
            (Linear { slope: c(0.0, 0.0), offset: c(1.0, 0.0) }, Linear { slope: c(1.0, 0.0), offset: c(0.5, 40.0) }),
            (Linear { slope: c(0.2, 0.1), offset: c(0.0, 1.0) }, Linear { slope: c(0.0, 0.0), offset: c(2.0, 0.0) }),
        ] {
            let (exact, _) = region.largest(above, below);
            let searched = region
                .boundary()
                .iter()
                .flat_map(|piece| (0..=20_000).map(|k| piece.point(f64::from(k) / 20_000.0)))
                .map(|z| (above.at(z) / below.at(z)).norm_sqr())
                .fold(0.0, f64::max);
            assert!(exact >= searched * (1.0 - 1e-12) && exact < searched * (1.0 + 1e-6), "{exact} {searched}");
        }
    }

    #[test]
    fn pieces_are_as_long_as_they_say() {
        let region = ImpedanceRegion::new(2.0, 70.0, -80.0, 90.0).unwrap();
        for piece in region.boundary().iter().flat_map(|whole| whole.parts(3).collect::<Vec<_>>()) {
            let (half, way) = piece.half();
            for (share, sign) in [(0.0, -1.0), (1.0, 1.0)] {
                let by_half = piece.point(0.5) * (way * (sign * half)).exp();
                assert!((piece.point(share) - by_half).norm() < 1e-12 * by_half.norm(), "{piece:?}");
            }
            assert!((piece.locate(piece.point(0.3)).0 - 0.3).abs() < 1e-9);
        }
    }
}
