//! Regions of impedance: what can occur at an end of a filter.
//!
//! An [`ImpedanceRegion`] says what can occur: a magnitude from `min_ohm` to `max_ohm`, a phase from `min_phase_deg` to
//! `max_phase_deg`. Along each arc and each ray of its boundary the squared magnitude of a ratio of linear functions is
//! a ratio of trigonometric or quadratic polynomials: its stationary points follow from one quadratic equation, exactly
//! and however sharp a resonance is.

use num_complex::Complex64;

use super::tangency::roots;
use crate::parameter::Element;

/// Impedances that a termination can have: a range of magnitude and a range of phase.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(new(min_ohm, max_ohm, min_phase_deg, max_phase_deg))]
pub struct ImpedanceRegion {
    /// Least and greatest magnitude.
    #[parameter(circuit_positive, at_most = max_ohm)]
    min_ohm: f64,
    /// Least and greatest magnitude.
    #[parameter(circuit_positive)]
    max_ohm: f64,
    /// Least and greatest phase, degrees, within -90 and 90.
    #[parameter(within(-90.0, 90.0), at_most = max_phase_deg, default = -90.0, setter = none)]
    min_phase_deg: f64,
    /// Least and greatest phase, degrees, within -90 and 90.
    #[parameter(within(-90.0, 90.0), default = 90.0, setter = none)]
    max_phase_deg: f64,
}

impl ImpedanceRegion {
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
        self.corners().into_iter().for_each(&mut offer);
        for end in self.directions() {
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

    /// The pieces of the boundary that have a length: at most two arcs and two rays.
    pub(super) fn boundary(&self) -> impl Iterator<Item = Piece> + use<> {
        let Self { min_ohm, max_ohm, min_phase_deg, max_phase_deg } = *self;
        let [arc, ray] = [max_phase_deg > min_phase_deg, max_ohm > min_ohm];
        let arc_at = move |size: f64| Piece::Arc { size, min_phase_deg, max_phase_deg };
        let ray_at = move |phase_deg: f64| Piece::Ray { direction: direction(phase_deg), min_ohm, max_ohm };
        [
            arc.then(|| arc_at(min_ohm)),
            (arc && ray).then(|| arc_at(max_ohm)),
            ray.then(|| ray_at(min_phase_deg)),
            (arc && ray).then(|| ray_at(max_phase_deg)),
        ]
        .into_iter()
        .flatten()
    }

    /// The ends of these pieces.
    pub(super) fn corners(&self) -> [Complex64; 4] {
        let [low, high] = self.directions();
        [low * self.min_ohm, low * self.max_ohm, high * self.min_ohm, high * self.max_ohm]
    }

    /// All magnitudes over a positive factor.
    pub(super) fn over(&self, factor: f64) -> Self {
        Self { min_ohm: self.min_ohm / factor, max_ohm: self.max_ohm / factor, ..*self }
    }
}

/// A part of the boundary of a region.
#[derive(Debug, Clone, Copy)]
pub(super) enum Piece {
    /// Of one magnitude, between two phases.
    Arc { size: f64, min_phase_deg: f64, max_phase_deg: f64 },
    /// Of one phase, between two magnitudes.
    Ray { direction: Complex64, min_ohm: f64, max_ohm: f64 },
}

impl Piece {
    /// The range of a piece's parameter: the length along a ray, the tangent of half the angle from an arc's middle.
    pub(super) fn range(&self) -> (f64, f64) {
        match *self {
            Self::Ray { min_ohm, max_ohm, .. } => (min_ohm, max_ohm),
            Self::Arc { min_phase_deg, max_phase_deg, .. } => {
                let most = (0.25 * (max_phase_deg - min_phase_deg)).to_radians().tan();
                (-most, most)
            }
        }
    }

    /// The middle of an arc, or of a ray as a logarithm.
    pub(super) fn middle(&self) -> Complex64 {
        match *self {
            Self::Ray { direction, min_ohm, max_ohm } => direction * (min_ohm * max_ohm).sqrt(),
            Self::Arc { size, min_phase_deg, max_phase_deg } => direction(0.5 * (min_phase_deg + max_phase_deg)) * size,
        }
    }

    /// The point at a value of its parameter.
    pub(super) fn point(&self, place: f64) -> Complex64 {
        match *self {
            Self::Ray { direction, .. } => direction * place,
            Self::Arc { .. } => {
                let turned = Complex64::new(1.0, place);
                self.middle() * turned / turned.conj()
            }
        }
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

    /// LineMatrix of the magnitude at `z = t direction`, as a quadratic in t.
    fn along(self, direction: Complex64) -> [f64; 3] {
        let turned = self.slope * direction;
        [self.offset.norm_sqr(), 2.0 * (turned.conj() * self.offset).re, turned.norm_sqr()]
    }

    /// LineMatrix of the magnitude at `z = size u`, `|u| = 1`, as `mean + 2 Re(u swing)`.
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
    roots(&[constant, linear, square])
}

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
                .flat_map(|piece| {
                    let (low, high) = piece.range();
                    (0..=20_000).map(move |k| piece.point(low + (high - low) * f64::from(k) / 20_000.0))
                })
                .map(|z| (above.at(z) / below.at(z)).norm_sqr())
                .fold(0.0, f64::max);
            assert!(exact >= searched * (1.0 - 1e-12) && exact < searched * (1.0 + 1e-6), "{exact} {searched}");
        }
    }

    #[test]
    fn pieces_run_from_corner_to_corner() {
        let region = ImpedanceRegion::new(2.0, 70.0, -80.0, 90.0).unwrap();
        let corners = region.corners();
        assert_eq!(region.boundary().count(), 4);
        for piece in region.boundary() {
            let (low, high) = piece.range();
            for end in [piece.point(low), piece.point(high)] {
                assert!(corners.iter().any(|corner| (corner - end).norm() < 1e-12 * end.norm()), "{piece:?}");
            }
        }
        let reactances = ImpedanceRegion::new(2.0, 70.0, 90.0, 90.0).unwrap();
        assert_eq!(reactances.boundary().count(), 1);
        assert_eq!(ImpedanceRegion::new(2.0, 2.0, 90.0, 90.0).unwrap().boundary().count(), 0);
    }
}
