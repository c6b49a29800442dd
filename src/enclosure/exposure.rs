//! From cross-sections to decibels at a place.
//!
//! A source at distance d₁ outside and a receiver at d₂ inside, both on the normal through the leak,
//! are first set up without the wall: their distance is then d₁ + d₂. With the wall there, a leak of
//! cross-section σ and directivity D hands on σ times the power density, and
//!
//! SE = −10 lg(σ D (d₁ + d₂)² / (4π d₁² d₂²)).
//!
//! For a plane wave (d₁ → ∞) the bracket becomes σ D/(4π d₂²). Both follow from the definitions of
//! cross-section and directivity (for example C. A. Balanis, *Antenna Theory*, 3rd ed., 2005,
//! sec. 2.6 and 2.17, from memory).
//!
//! The cross-section is the one averaged over angles and polarizations, the currency of all leaks. A
//! small round hole that an antenna faces squarely passes 4/3 of it, so that its reading is 1.2 dB
//! lower than stated here; a reverberant field is stated right.
//!
//! - A leak spread along a line or over an area is summed element by element, each at its own
//!   distance from the two antennas, which face its middle.
//! - The elements of an area leak pass the wave in step. The area then acts as an aperture: it
//!   hands on |T|² = 2σ/A of the power, reduced as long as it is smaller than the first Fresnel zone
//!   by (A (d₁ + d₂)/(λ d₁ d₂))², as a uniformly lit aperture in the far field.
//! - A wall passes the wave as a whole: SE = −20 lg|T|. A window, a piece of a sheet in the wall, is such an aperture
//!   with the |T|² of its sheet for the wave of the test.
//! - A leak that is made of several parts is read part by part, and the parts add as several leaks do.
//!
//! Two answers are given. The *estimate* adds powers, as parts with unrelated phases do on average.
//! The *worst case* adds amplitudes: no choice of phases is worse. Within one leak these are the amplitudes
//! that its elements pass alone ([`Leak::ln_in_amplitude`]), so that a row which passes more because its
//! elements are in step is not credited with that twice; it is never better than the estimate. Several leaks
//! of one name are all taken to be as near as the one that the antennas face, which is a bound.

use std::f64::consts::PI;
use std::fmt::Debug;

use super::elements::elements;
use super::{Enclosure, Site};
use crate::constants::wavelength_m;
use crate::decibel::{LnSum, loss_db_of_ln_power};
use crate::error::{Result, check};
use crate::leak::{Curves, Extent, Leak};
use crate::validity::Validity;
use crate::wave::{PlaneWave, Sheet, Waves};

/// What a test reads through one leak, as powers relative to the reading without the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Natural logarithm of the power, elements adding in power.
    pub ln_power: f64,
    /// Natural logarithm of the power, elements adding in amplitude.
    pub ln_worst_power: f64,
}

impl Reading {
    /// Shielding effectiveness, dB.
    #[must_use]
    pub fn shielding_db(&self) -> f64 {
        loss_db_of_ln_power(self.ln_power)
    }

    /// Shielding effectiveness at the worst, dB.
    #[must_use]
    pub fn worst_case_db(&self) -> f64 {
        loss_db_of_ln_power(self.ln_worst_power)
    }

    /// The reading of `count` alike leaks together.
    #[must_use]
    pub fn times(self, count: usize) -> Self {
        let ln_count = (count as f64).ln();
        Self { ln_power: self.ln_power + ln_count, ln_worst_power: self.ln_worst_power + 2.0 * ln_count }
    }
}

impl Reading {
    /// What stands where nothing has been read.
    pub const UNKNOWN: Self = Self { ln_power: f64::NAN, ln_worst_power: f64::NAN };
}

/// Fills `out` with what is read through all parts of a leak: each as `read_part` has it, powers added, at the worst
/// amplitudes.
pub(super) fn over_parts(leak: &dyn Leak, out: &mut [Reading], read_part: impl Fn(&dyn Leak, &mut [Reading])) {
    let mut parts: Vec<Vec<Reading>> = Vec::new();
    leak.each_part(&mut |part| {
        let mut readings = vec![Reading::UNKNOWN; out.len()];
        read_part(part, &mut readings);
        parts.push(readings);
    });
    let all = |at: usize, ln: fn(&Reading) -> f64| {
        parts.iter().fold(LnSum::default(), |sum, readings| sum + ln(&readings[at])).ln()
    };
    for (at, slot) in out.iter_mut().enumerate() {
        *slot = match &*parts {
            [] => Reading::UNKNOWN,
            [only] => only[at],
            _ => Reading {
                ln_power: all(at, |reading| reading.ln_power),
                ln_worst_power: 2.0 * all(at, |reading| 0.5 * reading.ln_worst_power),
            },
        };
    }
}

/// A test, or a situation, that turns leaks into readings.
///
/// An exposure of one's own, here a detector that takes all that comes through:
///
/// ```
/// use stillroom::{Enclosure, Validity, enclosure::{Exposure, Reader, Reading, Site}};
/// #[derive(Debug)]
/// struct Total;
/// struct Prepared<'a>(&'a [f64]);
/// impl Exposure for Total {
///     fn prepare<'a>(&'a self, _: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
///         Box::new(Prepared(frequency_hz))
///     }
///     fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
///         site.leak().validity(frequency_hz)
///     }
/// }
/// impl Reader for Prepared<'_> {
///     fn read(&self, site: &Site<'_>, out: &mut [Reading]) {
///         for (slot, &f) in out.iter_mut().zip(self.0) {
///             let ln_power = site.leak().ln_cross_section(f);
///             *slot = Reading { ln_power, ln_worst_power: ln_power }.times(site.count());
///         }
///     }
/// }
/// ```
pub trait Exposure: Debug + Send + Sync {
    /// Sets the test up in a room, at these frequencies (Hz): whatever is the same for all leaks is worked out here.
    /// Where no room is known, an endless wall stands between two half-spaces.
    fn prepare<'a>(&'a self, room: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a>;

    /// Where the test describes what is at a site rightly, the models of the leak included.
    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity;

    /// What is read at one site at each frequency (Hz), same length.
    fn readings(&self, site: &Site<'_>, frequency_hz: &[f64]) -> Vec<Reading> {
        let mut out = vec![Reading::UNKNOWN; frequency_hz.len()];
        self.prepare(site.room(), frequency_hz).read(site, &mut out);
        out
    }
}

/// An exposure that has been set up for a room and some frequencies.
pub trait Reader {
    /// Fills `out`, a place for each of the frequencies, with what is read through all leaks of a site together.
    ///
    /// A place that is left as it is counts as unknown: what the site passes there, and what the whole does, is then no
    /// number and not valid.
    fn read(&self, site: &Site<'_>, out: &mut [Reading]);
}

/// Source antenna outside, receiving antenna inside, both facing the same place on the wall.
///
/// Holds while both antennas are in each other's radiating field: neither nearer to the wall than a
/// sixth of a wavelength (λ/2π).
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct AntennaTest {
    outside_m: f64,
    inside_m: f64,
}

impl AntennaTest {
    /// Distances of the antennas from the wall, m.
    ///
    /// # Errors
    /// Unless both are positive and finite.
    pub fn new(outside_m: f64, inside_m: f64) -> Result<Self> {
        Ok(Self {
            outside_m: check::positive("outside_m", "m", outside_m)?,
            inside_m: check::positive("inside_m", "m", inside_m)?,
        })
    }

    /// Distance of the source from the wall, m.
    #[must_use]
    pub fn outside_m(&self) -> f64 {
        self.outside_m
    }

    /// Distance of the receiver from the wall, m.
    #[must_use]
    pub fn inside_m(&self) -> f64 {
        self.inside_m
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    outside_m: f64,
    inside_m: f64,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for AntennaTest {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.outside_m, record.inside_m)
    }
}

#[cfg(feature = "serde")]
impl From<AntennaTest> for Record {
    fn from(test: AntennaTest) -> Self {
        Self { outside_m: test.outside_m, inside_m: test.inside_m }
    }
}

impl Exposure for AntennaTest {
    fn prepare<'a>(&'a self, _: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
        Box::new(Setup {
            frequency_hz,
            wave: PlaneWave::normal(),
            outside_m: Some(self.outside_m),
            inside_m: self.inside_m,
        })
    }

    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
        near_field(self.outside_m.min(self.inside_m), frequency_hz).and(site.leak().validity(frequency_hz))
    }
}

impl Exposure for PlaneWave {
    fn prepare<'a>(&'a self, _: Option<&'a Enclosure>, frequency_hz: &'a [f64]) -> Box<dyn Reader + 'a> {
        Box::new(Setup { frequency_hz, wave: *self, outside_m: None, inside_m: self.inside_m() })
    }

    fn validity(&self, site: &Site<'_>, frequency_hz: f64) -> Validity {
        let place = if site.is_wall() { Validity::Holds } else { near_field(self.inside_m(), frequency_hz) };
        place.and(site.leak().validity(frequency_hz))
    }
}

fn near_field(distance_m: f64, frequency_hz: f64) -> Validity {
    Validity::within(
        "radiating field",
        "distance / wavelength",
        "",
        distance_m / wavelength_m(frequency_hz),
        (0.5 / PI, f64::INFINITY),
        "loop and rod tests read other values, magnetic ones far lower",
    )
}

/// A source far or near outside, a receiver inside, both facing the leak.
struct Setup<'a> {
    frequency_hz: &'a [f64],
    wave: PlaneWave,
    /// Distance of the source, m; `None` for a plane wave.
    outside_m: Option<f64>,
    inside_m: f64,
}

impl Reader for Setup<'_> {
    fn read(&self, site: &Site<'_>, out: &mut [Reading]) {
        match site.sheet() {
            Some(sheet) => self.through_sheet(sheet, out),
            None => over_parts(site.leak(), out, |part, out| self.read_part(part, out)),
        }
        out.iter_mut().for_each(|reading| *reading = reading.times(site.count()));
    }
}

/// Logarithms of factors: on the sum of the elements' cross-sections, and on the square of the sum of their roots.
struct LnSpread {
    powers: f64,
    amplitudes: f64,
}

impl Setup<'_> {
    /// Received power per cross-section and directivity, 1/m², of an element at a squared distance from the axis (m²):
    /// (d₁ + d₂)²/(4π r₁² r₂²).
    fn spread(&self, s_squared: f64) -> f64 {
        let d2 = self.inside_m;
        match self.outside_m {
            Some(d1) => (d1 + d2).powi(2) / (4.0 * PI * (d1 * d1 + s_squared) * (d2 * d2 + s_squared)),
            None => 1.0 / (4.0 * PI * (d2 * d2 + s_squared)),
        }
    }

    /// (d₁ + d₂)/(d₁ d₂), 1/m.
    fn aperture_per_m(&self) -> f64 {
        let d2 = self.inside_m;
        self.outside_m.map_or(1.0 / d2, |d1| (d1 + d2) / (d1 * d2))
    }

    fn read_part(&self, leak: &dyn Leak, out: &mut [Reading]) {
        let curves = Curves::of(leak, self.frequency_hz, true);
        let extent = leak.extent();
        let spread = self.ln_spread(&extent);
        for (place, (slot, &frequency_hz)) in out.iter_mut().zip(self.frequency_hz).enumerate() {
            let (ln_cross_section, ln_in_amplitude) = (curves.ln_cross_section[place], curves.ln_in_amplitude[place]);
            let ln_directivity = curves.directivity[place].ln();
            let ln_power = ln_cross_section + ln_directivity + spread.powers;
            let ln_worst_power = (ln_in_amplitude + ln_directivity + spread.amplitudes).max(ln_power);
            let reading = Reading { ln_power, ln_worst_power };
            *slot = match extent {
                Extent::Area { width_m, height_m, .. } => {
                    let area_m2 = width_m * height_m;
                    let ln_passed = match leak.as_window() {
                        Some(sheet) => {
                            sheet.transmission(&self.wave.at(frequency_hz), self.wave.polarization()).ln_power()
                        }
                        None => ln_cross_section + (2.0 / area_m2).ln(),
                    };
                    self.in_step(reading, ln_passed, area_m2, frequency_hz)
                }
                _ => reading,
            };
        }
    }

    fn through_sheet(&self, sheet: &dyn Sheet, out: &mut [Reading]) {
        let mut ln = vec![f64::NAN; self.frequency_hz.len()];
        let waves = Waves::at_angle(self.frequency_hz, self.wave.angle_deg());
        sheet.ln_moduli(&waves, self.wave.polarization(), &mut ln);
        for (slot, ln) in out.iter_mut().zip(ln) {
            *slot = Reading { ln_power: 2.0 * ln, ln_worst_power: 2.0 * ln };
        }
    }

    /// An area whose elements pass the wave in step, by the share |T|² that it passes: never less than the aperture
    /// that they form, never more than that share of the wave, and at the worst what the edges of such an aperture can
    /// focus (twice the amplitude).
    fn in_step(&self, reading: Reading, ln_passed: f64, area_m2: f64, frequency_hz: f64) -> Reading {
        let zones = area_m2 * self.aperture_per_m() / wavelength_m(frequency_hz);
        let ln_power = reading.ln_power.max(ln_passed + 2.0 * zones.min(1.0).ln()).min(ln_passed);
        let ln_focused = ln_passed + 4f64.ln();
        Reading { ln_power, ln_worst_power: reading.ln_worst_power.min(ln_focused).max(ln_power) }
    }

    fn ln_spread(&self, extent: &Extent) -> LnSpread {
        let elements = elements(extent);
        let scale_m = self.outside_m.unwrap_or(f64::INFINITY).min(self.inside_m);
        let amplitude = elements.mean(scale_m, |s_squared| self.spread(s_squared).sqrt());
        LnSpread {
            powers: elements.mean(scale_m, |s_squared| self.spread(s_squared)).ln(),
            amplitudes: 2.0 * amplitude.ln(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leak::TabulatedLeak;

    #[derive(Debug, Clone, PartialEq)]
    struct Spread(Extent);
    impl crate::parameter::Rebuild for Spread {
        fn rebuild(&self, _: &mut crate::parameter::Knobs<'_>) -> Result<Self> {
            Ok(self.clone())
        }
    }
    impl Leak for Spread {
        fn ln_cross_section(&self, _: f64) -> f64 {
            1e-10_f64.ln()
        }
        fn extent(&self) -> Extent {
            self.0
        }
        fn validity(&self, _: f64) -> Validity {
            Validity::Holds
        }
    }

    fn read(extent: Extent) -> Reading {
        AntennaTest::new(1.0, 0.5).unwrap().readings(&Site::of(&Spread(extent)), &[100e6])[0]
    }

    #[test]
    fn a_point_follows_the_radar_like_law() {
        let expected = -10.0 * (1e-10 * 3.0 * 2.25 / (4.0 * PI * 0.25)).log10();
        assert!((read(Extent::Point).shielding_db() - expected).abs() < 1e-12);
        let far = PlaneWave::normal().observed_at(0.5).unwrap();
        let expected = -10.0 * (1e-10 * 3.0 / (4.0 * PI * 0.25)).log10();
        let table = TabulatedLeak::new(vec![1e6], vec![1e-10]).unwrap();
        assert!((far.readings(&Site::of(&table), &[100e6])[0].shielding_db() - expected).abs() < 1e-12);
    }

    #[test]
    fn a_long_line_converges_to_its_integral() {
        // ∫ dx / ((a² + x²)(b² + x²)) over the whole line = π/(a b (a + b))
        let length_m = 400.0;
        let line = read(Extent::Line { length_m, elements: 40_000 });
        let (a, b) = (1.0, 0.5);
        let integral = 2.25 / (4.0 * PI) * PI / (a * b * (a + b));
        let expected = -10.0 * (1e-10 * 3.0 * integral / length_m).log10();
        assert!((line.shielding_db() - expected).abs() < 1e-4, "{} {expected}", line.shielding_db());
        assert!(line.worst_case_db() < line.shielding_db());
    }

    #[test]
    fn a_small_area_is_a_point_and_a_large_one_an_aperture() {
        let point = read(Extent::Point);
        let small = read(Extent::Area { width_m: 1e-3, height_m: 1e-3, elements: 1 });
        assert!((small.ln_power - point.ln_power).abs() < 1e-5);
        let large = read(Extent::Area { width_m: 3.0, height_m: 3.0, elements: 900 });
        assert!((large.ln_power - (1e-10_f64 * 2.0 / 9.0).ln()).abs() < 1e-12);
        assert!(large.worst_case_db() >= large.shielding_db() - 6.03);
    }
}
