//! Loop and rod tests as exposures of a room.
//!
//! A wall is read exactly, by [`LoopTest::field_ratios`]. Any other leak is taken as a hole at the
//! place where the antennas face the wall, small against its distance from them: with the
//! polarizabilities α of H. A. Bethe, Phys. Rev. 66 (1944) 163, the source's field on the closed
//! wall (twice its free field) makes a dipole, whose field inside is again doubled by its image,
//!
//! - coplanar loops: |H/H₀| = 4 α_m z³/(4π d₁³ d₂³), z = d₁ + d₂;
//! - coaxial loops: the axial field is shorted by the wall, so that a hole on the axis reads
//!   nothing; at its worst place, half the distance off the axis, 0.7373 times half as much;
//! - rods: |E/E₀| = 8 α_e z³/(4π d₁³ d₂³).
//!
//! A leak spread along a line or over an area is the sum of its elements, each a hole of its own at its
//! own place, in step; a leak made of several parts is read part by part, in power. A leak that is no opening (a
//! conductor through the wall) has no polarizability at all: these tests leave it out, and say so.
//!
//! A window, a piece of a sheet in the wall, reads what the open hole would or what a whole wall of its sheet would,
//! whichever is less.
//!
//! Source: dipole fields (for example J. D. Jackson, *Classical Electrodynamics*, 3rd ed., secs. 5.6
//! and 9.5); the sums derived here. It is the static near field, for d ≪ λ/2π. A leak that knows no
//! polarizability is given that of the small hole with its averaged cross-section, σ = k⁴α_m²/π: a
//! stand-in, and said to be one.

use std::f64::consts::PI;

use super::elements::elements;
use super::exposure::{Exposure, Reader, Reading, over_parts};
use super::{Enclosure, Site};
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::leak::{Curves, Extent, Leak, Polarizability};
use crate::probe::{FieldRatio, LoopArrangement, LoopTest, RodTest};
use crate::validity::Validity;
use crate::wave::Sheet;

/// (3 · ½/(1 + ¼)^{5/2})²: product of the radial fields of two axial dipoles at ρ = d/2, the largest
/// there is, over that of the same dipoles across the axis at ρ = 0.
const WORST_OFF_AXIS: f64 = 0.737_28;

impl Exposure for LoopTest {
    fn prepare<'a>(&'a self, _: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
        Box::new(Setup {
            frequency_hz,
            ratios: Box::new(|sheet| self.ratios(sheet, frequency_hz)),
            pick: |alpha| alpha.magnetic,
            coupling: match self.arrangement() {
                LoopArrangement::Coaxial => 2.0 * WORST_OFF_AXIS,
                _ => 4.0,
            },
            distances_m: (self.outside_m(), self.inside_m()),
        })
    }

    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
        let distance_m = self.outside_m().max(self.inside_m());
        self.validity(frequency_hz).and(site_validity(site, distance_m, frequency_hz))
    }
}

impl Exposure for RodTest {
    fn prepare<'a>(&'a self, _: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
        Box::new(Setup {
            frequency_hz,
            ratios: Box::new(|sheet| self.ratios(sheet, frequency_hz)),
            pick: |alpha| alpha.electric,
            coupling: 8.0,
            distances_m: (self.outside_m(), self.inside_m()),
        })
    }

    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
        let distance_m = self.outside_m().max(self.inside_m());
        self.validity(frequency_hz).and(site_validity(site, distance_m, frequency_hz))
    }
}

type Ratios<'a> = dyn Fn(&dyn Sheet) -> Vec<FieldRatio> + 'a;

/// Two small antennas near the wall.
struct Setup<'a> {
    frequency_hz: &'a [f64],
    /// What they read through an unbounded sheet.
    ratios: Box<Ratios<'a>>,
    pick: fn(LnPolarizability) -> f64,
    coupling: f64,
    distances_m: (f64, f64),
}

impl Reader for Setup<'_> {
    fn read(&self, site: &Site<'_>, out: &mut [Reading]) {
        match site.sheet() {
            Some(sheet) => self.through_sheet(sheet, out),
            None => self.through_hole(site.leak(), out),
        }
        out.iter_mut().for_each(|reading| *reading = reading.times(site.count()));
    }
}

impl Setup<'_> {
    fn through_sheet(&self, sheet: &dyn Sheet, out: &mut [Reading]) {
        for (slot, found) in out.iter_mut().zip((self.ratios)(sheet)) {
            let ln_power = found.ratio.ln_power();
            *slot = Reading { ln_power, ln_worst_power: ln_power };
        }
    }

    fn through_hole(&self, leak: &dyn Leak, out: &mut [Reading]) {
        over_parts(leak, out, |part, out| self.read_part(part, out));
        if let Some(sheet) = leak.as_window() {
            let mut whole = vec![Reading::UNKNOWN; out.len()];
            self.through_sheet(sheet, &mut whole);
            for (hole, whole) in out.iter_mut().zip(whole) {
                // The lesser of the two.
                *hole = if hole.ln_power > whole.ln_power { whole } else { *hole };
            }
        }
    }

    fn read_part(&self, leak: &dyn Leak, out: &mut [Reading]) {
        if !leak.is_opening() {
            out.fill(Reading { ln_power: f64::NEG_INFINITY, ln_worst_power: f64::NEG_INFINITY });
            return;
        }
        let coupling_per_m3 = self.coupling * spread(&leak.extent(), self.distances_m);
        let known: Vec<Option<Polarizability>> = self.frequency_hz.iter().map(|&f| leak.polarizability(f)).collect();
        // What stands in is worked out only where something must.
        let stand_in = known.iter().any(Option::is_none).then(|| Curves::of(leak, self.frequency_hz, false));
        for (place, (slot, known)) in out.iter_mut().zip(known).enumerate() {
            let alpha = match (known, &stand_in) {
                (Some(known), _) => LnPolarizability {
                    electric: known.electric_m3.ln(),
                    magnetic: known.magnetic_along_m3.max(known.magnetic_across_m3).ln(),
                },
                (None, Some(curves)) => {
                    // The polarizabilities of the elements, each by what it passes alone, add.
                    let ln_wavenumber = wavenumber_per_m(self.frequency_hz[place]).ln();
                    let magnetic = 0.5 * (PI.ln() + curves.ln_in_amplitude[place]) - 2.0 * ln_wavenumber;
                    // A round hole's electric polarizability is half its magnetic one.
                    LnPolarizability { electric: magnetic - std::f64::consts::LN_2, magnetic }
                }
                (None, None) => continue,
            };
            let ln_power = 2.0 * ((self.pick)(alpha) + coupling_per_m3.ln());
            // In step already, so that the worst case is the same.
            *slot = Reading { ln_power, ln_worst_power: ln_power };
        }
    }
}

/// Mean of z³/(4π r₁³ r₂³) over the elements of a leak, 1/m³, each at its own distances r from the
/// antennas.
fn spread(extent: &Extent, (d1, d2): (f64, f64)) -> f64 {
    elements(extent).mean(d1.min(d2), |s_squared| {
        (d1 + d2).powi(3) / (4.0 * PI * ((d1 * d1 + s_squared) * (d2 * d2 + s_squared)).powf(1.5))
    })
}

/// Logarithms of the polarizabilities in m³.
struct LnPolarizability {
    electric: f64,
    magnetic: f64,
}

fn site_validity(site: &Site<'_>, distance_m: f64, frequency_hz: f64) -> Validity {
    let leak = site.leak();
    // How wide a window is against the wavelength decides in the far field only.
    let own = leak.as_window().map_or_else(|| leak.validity(frequency_hz), |sheet| sheet.validity(frequency_hz));
    if site.is_wall() {
        return own;
    }
    if !leak.is_opening() {
        return own.and(Validity::given(
            "near-field test",
            "an opening",
            false,
            "the leak, a conductor through the wall, is left out",
        ));
    }
    let near = Validity::within(
        "near-field test of an opening",
        "distance / wavelength",
        "",
        distance_m / wavelength_m(frequency_hz),
        (0.0, 0.5 / PI),
        "the dipole fields are no longer static",
    );
    let mut known = true;
    leak.each_part(&mut |part| known &= part.polarizability(frequency_hz).is_some());
    let stand_in = Validity::given(
        "near-field test of an opening",
        "of known polarizability",
        known,
        "a round hole of the same averaged cross-section stands in for each element of the leak",
    );
    own.and(near).and(stand_in)
}
