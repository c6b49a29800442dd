//! Slots and longish holes in a wall of any thickness, from a crack to as wide as long.

use super::arrival::{Arrival, Directional, ln_towards};
use super::outline::Outline;
use super::slot_model::SlotModel;
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::leak::{Leak, Polarizability};
use crate::parameter::Element;
use crate::validity::Validity;

/// An opening with a length, a width and a thickness of the wall, by its outline.
macro_rules! slot {
    ($(#[$doc:meta])* $name:ident, $outline:ident, $validity:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Element)]
        #[element(new(length_m, width_m, wall_thickness_m))]
        pub struct $name {
            /// Length, the longer side.
            #[parameter(positive)]
            length_m: f64,
            /// Width, the shorter side.
            #[parameter(positive, at_most = length_m)]
            width_m: f64,
            /// Thickness of the wall. Zero for an infinitely thin one.
            #[parameter(non_negative, default = 0.0, setter = none)]
            wall_thickness_m: f64,
            #[worked_out(SlotModel::new(Outline::$outline, length_m, width_m))]
            model: SlotModel,
        }

        impl $name {
            /// Open area, m².
            #[must_use]
            pub fn area_m2(&self) -> f64 {
                self.model.area_m2()
            }
        }

        impl Leak for $name {
            fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
                self.model.ln_cross_section(wavenumber_per_m(frequency_hz), self.wall_thickness_m, None)
            }

            fn directivity(&self, frequency_hz: f64) -> f64 {
                line_directivity(self.length_m, self.width_m, frequency_hz)
            }

            fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
                // Up to a tenth of a wavelength the static values are good to a few percent.
                (self.length_m < 0.1 * wavelength_m(frequency_hz))
                    .then(|| self.model.polarizability(self.wall_thickness_m))
            }

            fn validity(&self, frequency_hz: f64) -> Validity {
                $validity(self.length_m, self.width_m, frequency_hz)
            }
        }

        impl Directional for $name {
            fn ln_cross_section_towards(&self, frequency_hz: f64, arrival: &Arrival) -> f64 {
                let (k, wave) = (wavenumber_per_m(frequency_hz), arrival.wave());
                let passed = |towards| self.model.ln_cross_section(k, self.wall_thickness_m, towards);
                ln_towards(k, self.width_m, &wave, || passed(Some(&wave)), || passed(None))
            }
        }
    };
}

slot!(
    /// A rectangular slot.
    ///
    /// Against a mode-matching solution its averaged cross-section is off by at most 0.6 dB up to the
    /// half-wave resonance and 1.6 dB up to width = one wavelength, for width/length from 0.1 to 1 in walls
    /// up to 0.6 lengths thick, and exact at both ends.
    RectangularSlot, Rectangle, everywhere
);

slot!(
    /// An elliptic hole, by its whole axes.
    ///
    /// Its polarizabilities are exact; a circle is the limit of equal axes. Between the small-hole law and the
    /// geometric limit its lowest modes are those of the ellipse, with constants between those of slot and circle.
    EllipticHole, Ellipse, everywhere
);

slot!(
    /// A slot with half-round ends, as a milling cutter leaves it, by its whole length.
    ///
    /// As wide as long it is a circle.
    RoundedSlot, RoundedSlot, everywhere
);

slot!(
    /// A cross of two equal slots at right angles, by the length and the width of each.
    ///
    /// Two resonances of one frequency, one for each direction of the electric field. As wide as long it is a
    /// square.
    CrossSlot, Cross, up_to_the_second_resonance
);

/// The model has limits that it knows exactly on both sides, and is checked between.
fn everywhere(_: f64, _: f64, _: f64) -> Validity {
    Validity::Holds
}

/// Where the arms of a cross act on each other's higher modes, nothing is known but the number of modes.
fn up_to_the_second_resonance(length_m: f64, width_m: f64, frequency_hz: f64) -> Validity {
    let _ = width_m;
    Validity::within(
        "cross",
        "length / wavelength",
        "",
        length_m / wavelength_m(frequency_hz),
        (0.0, 0.8),
        "its higher modes are taken as those of separate slots, good to a few dB",
    )
}

/// From the dipole's 3 to a line source (4l/λ) and on to an evenly lit aperture (4πlw/λ²).
fn line_directivity(length_m: f64, width_m: f64, frequency_hz: f64) -> f64 {
    let wavelength_m = wavelength_m(frequency_hz);
    (4.0 * length_m / wavelength_m * (1.0 + std::f64::consts::PI * width_m / wavelength_m)).hypot(3.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    use crate::mouth::polarizability::{cross, ellipse, rectangle, rounded_slot};

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
    fn every_outline_follows_its_polarizabilities_and_its_area() {
        let holes: [(&dyn Leak, crate::leak::Polarizability, f64); 3] = [
            (&EllipticHole::new(0.1, 0.03, 0.0).unwrap(), ellipse(0.1, 0.03).unwrap(), PI / 4.0 * 0.1 * 0.03),
            (
                &RoundedSlot::new(0.1, 0.03, 0.0).unwrap(),
                rounded_slot(0.1, 0.03).unwrap(),
                0.1 * 0.03 - 9e-4 + PI / 4.0 * 9e-4,
            ),
            (&CrossSlot::new(0.1, 0.03, 0.0).unwrap(), cross(0.1, 0.03).unwrap(), 2.0 * 0.1 * 0.03 - 9e-4),
        ];
        for (hole, alpha, area_m2) in holes {
            let squares =
                alpha.magnetic_along_m3.powi(2) + alpha.magnetic_across_m3.powi(2) + alpha.electric_m3.powi(2);
            let law = 4.0 * wavenumber_per_m(1e6).powi(4) / (9.0 * PI) * squares;
            assert!((hole.ln_cross_section(1e6) - law.ln()).abs() < 2e-3, "{hole:?}");
            assert!((hole.ln_cross_section(1e16) - (0.5 * area_m2).ln()).abs() < 2e-3, "{hole:?}");
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
