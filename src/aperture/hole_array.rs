//! Many round holes in one wall, from a few to a perforated panel.
//!
//! Three answers:
//!
//! - **Incoherent**: cross-sections add, N σ. Right for holes more than half a wavelength apart, on average.
//! - **Coherent**: amplitudes add, N² σ. A bound, met by holes that all lie within a small part of a wavelength.
//! - **Lattice**: holes as dipoles that act on one another. Each mode of a hole radiates F times what it would
//!   alone (`super::neighbours`), both into the transmission and back into its own damping, and its static field is
//!   eased by its neighbours', κ → κ − 4βα r:
//!
//! σ = (λ²/4π) N (Σ_c F_c t_c − 2 Σ_xy F_ce √(t_c t_e) + T_rest),   t_c = T_c(F_c, β_c)/F_c²,
//!
//! c over the two magnetic dipoles and the electric one, which points against its field. While the transmission is weak this is exact for dipoles
//! whose statics are those of the array's mean (the trace 4 tr(T G T† G) over all pairs); it has both other answers
//! as limits, and for a large pattern of close holes it meets the perforated sheet. Towards one wave the pairs are
//! summed with the wave's phases.
//!
//! Sources: dipoles on a wall as in H. A. Bethe, Phys. Rev. 66 (1944) 163; interaction in a lattice as in R. E.
//! Collin, *Field Theory of Guided Waves*, 2nd ed., 1991, sec. 12.3 (both from memory); the sum over pairs is
//! derived here and checked against coupled dipoles in `tests/python/test_hole_array.py`.

use super::arrival::{Arrival, Directional, Wave};
use super::channel::Company;
use super::circular_hole::{CircularHole, ROUND_COUNTED, aperture_directivity};
use super::hole_array_lanes;
use super::hole_layout::HoleLayout;
use super::neighbours::{Gathering, Neighbours, shared};
use crate::choice::choice;
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::error::Error;
use crate::leak::{Extent, Leak, Polarizability};
use crate::mouth::chain::ln_mode_area;
use crate::parameter::Element;
use crate::validity::Validity;

/// How the holes of an array are taken together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum HoleInteraction {
    /// As dipoles that act on one another.
    #[default]
    Lattice,
    /// Powers add.
    Incoherent,
    /// Amplitudes add.
    Coherent,
}

choice!(HoleInteraction, "hole interaction" { Lattice => "lattice", Incoherent => "incoherent", Coherent => "coherent" });

/// Round holes of one size in a wall.
///
/// ```
/// use stillroom::aperture::{CircularHole, HoleArray, HoleInteraction, HoleLayout};
/// use stillroom::{leak::Leak, sheet::HolePattern};
/// // Nine small holes within a small part of a wavelength: nearly 9² times one of them.
/// let hole = CircularHole::new(3e-3, 1e-3)?;
/// let layout = HoleLayout::grid(HolePattern::Square, 10e-3, 3, 3)?;
/// let array = HoleArray::new(hole.clone(), layout, HoleInteraction::Lattice)?;
/// let ratio = (array.ln_cross_section(100e6) - hole.ln_cross_section(100e6)).exp();
/// assert!((ratio / 81.0 - 1.0).abs() < 0.05);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new(hole, layout, interaction))]
pub struct HoleArray {
    /// One of the holes.
    #[part]
    hole: CircularHole,
    /// Where they are.
    #[part]
    layout: HoleLayout,
    /// How they are taken together.
    #[kept(choice = "lattice", default = HoleInteraction::Lattice, setter = none)]
    interaction: HoleInteraction,
    #[worked_out(layout.centres_m(hole.diameter_m()).map_err(told_from_the_array)?)]
    centres_m: Vec<[f64; 2]>,
    #[worked_out(Neighbours::new(&layout, &centres_m))]
    neighbours: Neighbours,
}

impl HoleArray {
    /// Centres of the holes, m.
    #[must_use]
    pub fn centres_m(&self) -> &[[f64; 2]] {
        &self.centres_m
    }

    /// Number of holes.
    #[must_use]
    pub fn count(&self) -> usize {
        self.layout.count()
    }

    /// Open area of all holes, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.count() as f64 * self.hole.area_m2()
    }

    pub(super) fn neighbours(&self) -> &Neighbours {
        &self.neighbours
    }

    /// What the static fields of the neighbours take from κ of the two magnetic modes and of the electric one.
    pub(super) fn easing(&self) -> [f64; 3] {
        let thin = self.hole.thin_polarizability();
        let (magnetic, electric) = (self.hole.magnetic(), self.hole.electric());
        let ease = |field: f64, alpha_m3: f64, r: f64| 4.0 * field * alpha_m3 * r;
        [
            ease(self.neighbours.field_x, thin.magnetic_along_m3, magnetic.end_correction),
            ease(self.neighbours.field_y, thin.magnetic_across_m3, magnetic.end_correction),
            ease(self.neighbours.field_e, thin.electric_m3, electric.end_correction),
        ]
    }

    /// ln t of the two magnetic modes and of the electric one.
    fn ln_shares(&self, k: f64, gathering: &Gathering) -> [f64; 3] {
        let wall_m = self.hole.wall_thickness_m();
        let [x, y, e] = self.easing();
        let share = |channel: super::channel::Channel, gathering: f64, easing: f64| {
            let company = Company { gathering, easing };
            channel.ln_transmission_among(k, wall_m, company) - 2.0 * gathering.ln()
        };
        let magnetic = self.hole.magnetic();
        [share(magnetic, gathering.x, x), share(magnetic, gathering.y, y), share(self.hole.electric(), gathering.e, e)]
    }

    /// The lattice answer, averaged.
    pub(super) fn ln_lattice(&self, k: f64) -> f64 {
        let gathering = self.neighbours.gathering(k);
        let [x, y, e] = self.ln_shares(k, &gathering);
        // Over the largest, so that none underflows; a sum of squares that the crossed terms cannot exceed.
        let largest = x.max(y).max(e);
        let share = |ln: f64| (0.5 * (ln - largest)).exp();
        let (ax, ay, ae) = (share(x), share(y), share(e));
        let own = gathering.x * ax * ax + gathering.y * ay * ay + gathering.e * ae * ae;
        let modes = own - 2.0 * ae * (gathering.xe * ax + gathering.ye * ay);
        let rest = self.hole.rest().ln_transmission(k, self.hole.wall_thickness_m(), ROUND_COUNTED);
        let sum = LnSum::default() + (modes.ln() + largest) + rest;
        ln_mode_area(k) + sum.ln() + (self.count() as f64).ln()
    }

    /// ln of the cross-section of one hole alone, its static field eased by its neighbours as in the lattice.
    fn ln_alone_eased(&self, k: f64) -> f64 {
        let wall_m = self.hole.wall_thickness_m();
        let [x, y, e] = self.easing();
        let share = |channel: super::channel::Channel, easing: f64| {
            channel.ln_transmission_among(k, wall_m, Company { gathering: 1.0, easing })
        };
        let (magnetic, rest) = (self.hole.magnetic(), self.hole.rest().ln_transmission(k, wall_m, ROUND_COUNTED));
        let sum = LnSum::default() + share(magnetic, x) + share(magnetic, y) + share(self.hole.electric(), e) + rest;
        ln_mode_area(k) + sum.ln()
    }

    /// The lattice answer towards one wave.
    fn ln_lattice_towards(&self, k: f64, wave: &Wave) -> f64 {
        let gathering = self.neighbours.gathering(k);
        let [x, y, e] = self.ln_shares(k, &gathering);
        // Amplitudes over the largest of them, so that none underflows.
        let largest = x.max(y).max(e);
        let (magnetic_x, magnetic_y) = wave.magnetic();
        let amplitude = |ln: f64, part: f64| (0.5 * (ln - largest)).exp() * part;
        let (ax, ay, ae) = (amplitude(x, magnetic_x), amplitude(y, magnetic_y), amplitude(e, wave.electric()));
        let (u, v) = wave.cosines();
        let mut sum = ax * ax + ay * ay + ae * ae;
        let per_hole = 2.0 / self.count() as f64;
        self.layout.for_each_way(&self.centres_m, |[dx, dy], pairs| {
            let r = dx.hypot(dy);
            let (c, s) = (dx / r, dy / r);
            let (par, perp, mixed) = shared(k * r);
            let (phase_sine, phase_cosine) = (k * (u * dx + v * dy)).sin_cos();
            let (along, across) = (ax * c + ay * s, ax * s - ay * c);
            let in_phase = par * along * along + perp * (across * across + ae * ae);
            sum += pairs * per_hole * (phase_cosine * in_phase + 2.0 * phase_sine * mixed * across * ae);
        });
        let rest = self.hole.rest().ln_transmission(k, self.hole.wall_thickness_m(), ROUND_COUNTED);
        let open = (2.0 * wave.cosine).ln() + rest;
        // Of waves that cancel, rounding may leave less than nothing.
        let modes = if sum > 0.0 { (3.0 * sum).ln() + largest } else { f64::NEG_INFINITY };
        ln_mode_area(k) + (LnSum::default() + modes + open).ln() + (self.count() as f64).ln()
    }
}

/// A fault of the layout and the hole together, with the paths that both have here.
fn told_from_the_array(error: Error) -> Error {
    match error {
        Error::Relation { quantity, value, unit, relation, other, other_value } => Error::Relation {
            quantity: format!("hole.{quantity}"),
            value,
            unit,
            relation,
            other: format!("layout.{other}"),
            other_value,
        },
        error => error.within("layout"),
    }
}

impl Leak for HoleArray {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let ln_count = (self.count() as f64).ln();
        match self.interaction {
            HoleInteraction::Lattice => self.ln_lattice(wavenumber_per_m(frequency_hz)),
            HoleInteraction::Incoherent => self.hole.ln_cross_section(frequency_hz) + ln_count,
            HoleInteraction::Coherent => self.hole.ln_cross_section(frequency_hz) + 2.0 * ln_count,
        }
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        match self.interaction {
            HoleInteraction::Lattice => hole_array_lanes::ln_cross_sections(self, frequency_hz, out),
            HoleInteraction::Incoherent | HoleInteraction::Coherent => {
                self.hole.ln_cross_sections(frequency_hz, out);
                let power = if self.interaction == HoleInteraction::Coherent { 2.0 } else { 1.0 };
                let ln_count = power * (self.count() as f64).ln();
                out.iter_mut().for_each(|ln| *ln += ln_count);
            }
        }
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        let ln_count = (self.count() as f64).ln();
        for ((sum, &f), &ln) in out.iter_mut().zip(frequency_hz).zip(ln_cross_section) {
            *sum = match self.interaction {
                HoleInteraction::Lattice => self.ln_alone_eased(wavenumber_per_m(f)) + 2.0 * ln_count,
                HoleInteraction::Incoherent => ln + ln_count,
                // As many times as there are is in it already.
                HoleInteraction::Coherent => ln,
            };
        }
    }

    fn extent(&self) -> Extent {
        if self.count() == 1 {
            return Extent::Point;
        }
        let (width_m, height_m) = self.layout.size_m(&self.centres_m, self.hole.diameter_m());
        Extent::Area { width_m, height_m, elements: self.count() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        aperture_directivity(self.hole.area_m2(), frequency_hz)
    }

    fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
        let (width_m, height_m) = self.layout.size_m(&self.centres_m, self.hole.diameter_m());
        (width_m.hypot(height_m) < 0.1 * wavelength_m(frequency_hz)).then_some(())?;
        let (thin, wall_m) = (self.hole.thin_polarizability(), self.hole.wall_thickness_m());
        let easing = if self.interaction == HoleInteraction::Lattice { self.easing() } else { [0.0; 3] };
        let whole = |alpha_m3: f64, channel: super::channel::Channel, easing: f64| {
            self.count() as f64 * alpha_m3 * channel.static_share_among(wall_m, Company { gathering: 1.0, easing })
        };
        Some(Polarizability {
            electric_m3: whole(thin.electric_m3, self.hole.electric(), easing[2]),
            magnetic_along_m3: whole(thin.magnetic_along_m3, self.hole.magnetic(), easing[0]),
            magnetic_across_m3: whole(thin.magnetic_across_m3, self.hole.magnetic(), easing[1]),
        })
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let (diameter_m, wavelength_m) = (self.hole.diameter_m(), wavelength_m(frequency_hz));
        let apart_m = self.layout.least_distance_m(&self.centres_m);
        match self.interaction {
            HoleInteraction::Lattice => Validity::within(
                "hole array",
                "hole diameter / least distance",
                "",
                diameter_m / apart_m,
                (0.0, 0.8),
                "neighbouring holes act on each other more than dipoles do",
            )
            .and(Validity::within(
                "hole array",
                "hole diameter / wavelength",
                "",
                if self.count() == 1 { 0.0 } else { diameter_m / wavelength_m },
                (0.0, 0.4),
                "the holes are no dipoles to one another any more",
            )),
            HoleInteraction::Incoherent => Validity::within(
                "holes by power",
                "least distance / wavelength",
                "",
                apart_m / wavelength_m,
                (0.5, f64::INFINITY),
                "holes in step pass more, up to as many times as there are",
            ),
            HoleInteraction::Coherent => Validity::within(
                "holes by amplitude",
                "size of the array / wavelength",
                "",
                {
                    let (width_m, height_m) = self.layout.size_m(&self.centres_m, diameter_m);
                    width_m.hypot(height_m) / wavelength_m
                },
                (0.0, 0.5),
                "holes far apart are out of step and pass less",
            ),
        }
    }
}

impl Directional for HoleArray {
    /// Of the incoherent answer that of one hole, times their number; of the coherent one, times its square.
    fn ln_cross_section_towards(&self, frequency_hz: f64, arrival: &Arrival) -> f64 {
        let ln_count = (self.count() as f64).ln();
        match self.interaction {
            HoleInteraction::Lattice => self.ln_lattice_towards(wavenumber_per_m(frequency_hz), &arrival.wave()),
            HoleInteraction::Incoherent => self.hole.ln_cross_section_towards(frequency_hz, arrival) + ln_count,
            HoleInteraction::Coherent => self.hole.ln_cross_section_towards(frequency_hz, arrival) + 2.0 * ln_count,
        }
    }
}
