//! A tube under one plane wave, by full mode matching: any direction, either polarization, up to far above cutoff.
//!
//! The wave alone, on the closed wall, has the tangential magnetic field 2H; it drives the modes of the opening with
//!
//! i_p = 2 cos θ t_p (TE), i_p = 2 m_p (TM),
//!
//! t and m the parts of the mode's Fourier transform across and along the wave's transverse vector, for an incident electric
//! field of one and admittances in units of 1/η₀. The power that leaves at the far end ([`super::matching`]) over the power
//! density of the wave is the cross-section σ(θ, φ). Its mean over the half-space's directions and both polarizations is
//! (λ²/4π) Σ T_n, the cross-section that the tube has as a leak; the tests hold the one against the other.
//!
//! Far above cutoff σ goes to A cos θ, the geometric limit, and its mean to A/2.

use std::f64::consts::PI;
use std::sync::LazyLock;

use nalgebra::DVector;

use super::axial::TM01;
use super::conductor::ThroughWire;
use super::guide::{Guide, Shape};
use super::loading::axial_radius_m;
use super::matching::{Estimate, EstimateSum, Line, Matched};
use super::propagation::sheet_resistance;
use super::spectrum::half_space::across_and_along;
use super::spectrum::{Block, ModeFamily, Parity, circle, hexagon, rectangle};
use super::tube::Tube;
use crate::constants::{SPEED_OF_LIGHT, wavelength_m, wavenumber_per_m};
use crate::error::{Result, check};
use crate::numeric::blend::blended;
use crate::numeric::gauss_legendre;
use crate::validity::Validity;
use crate::wave::Polarization;

/// Of the cutoff: below, what radiates of TM modes is lost in rounding.
const LOWEST: f64 = 1e-7;
/// Ten times the cutoff.
const HIGHEST: f64 = 10.0;
/// The hexagon's modes are known up to some six times its cutoff; to be well resolved, less than half of that.
const HIGHEST_HEXAGON: f64 = 2.5;
/// Over this factor in frequency mode matching is blended into the geometric limit.
const LEAD_OVER: f64 = 1.1;

/// Up to this wavenumber times size sections are kept from call to call: round, rectangular, hexagonal.
const KEPT: [f64; 3] = [4.0, 6.2, 5.6];
/// Beyond, they are made for bands of wavenumbers with fixed edges, each so many times higher than the one before: what is made for
/// one frequency does not depend on the others that are asked for.
const BAND_RATIO: f64 = 1.25;

/// A plane wave on the outer face.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Ray {
    sine: f64,
    cosine: f64,
    azimuth: f64,
    polarization: Polarization,
}

/// Which modes a block has, as one wave sees them.
#[derive(Debug)]
enum View {
    Circle { order: usize },
    Rectangle { modes: Vec<rectangle::Mode>, ex: Parity },
    Hexagon { modes: Vec<hexagon::Mode>, ex: Parity },
}

/// Modes of one symmetry, from both sides of the opening.
#[derive(Debug)]
pub(super) struct Section {
    block: Block,
    view: View,
}

impl Section {
    /// The same, quick for wavenumbers up to `k`.
    fn quick(self, shape: &Shape, k: f64) -> Self {
        let extent = if matches!(shape, Shape::Rectangle { .. }) { 1.0 } else { 2.0 };
        Self { block: Block { space: self.block.space.below(k, extent), ..self.block }, ..self }
    }

    /// Whether it takes part at the wavenumber `k`.
    fn reaches(&self, k: f64) -> bool {
        match self.view {
            View::Circle { order } => order <= highest_order(k),
            View::Rectangle { .. } | View::Hexagon { .. } => true,
        }
    }

    /// What a wave drives at the near end, at the wavenumber `k` times the size.
    fn drive(&self, ray: &Ray, k: f64) -> DVector<f64> {
        let size = self.block.modes.len();
        let (mut across, mut along) = (vec![0.0; size], vec![0.0; size]);
        // Along the normal either part is a limit.
        let kappa = k * ray.sine.max(1e-7);
        let (sine, cosine) = ray.azimuth.sin_cos();
        let scale = match &self.view {
            View::Circle { order } => {
                circle::radial_parts(*order, &self.block.families_and_cutoffs(), kappa, &mut across, &mut along);
                // cos mφ and sin mφ together see every azimuth alike.
                if *order == 0 { (2.0 * PI).sqrt() } else { (4.0 * PI).sqrt() }
            }
            View::Rectangle { modes, ex } => {
                rectangle::transform(modes, kappa * cosine, kappa * sine, &mut across, &mut along);
                across_and_along(*ex, [cosine, sine], &mut across, &mut along);
                1.0
            }
            View::Hexagon { modes, ex } => {
                let nodes = &*HEXAGON_NODES;
                hexagon::transform(modes, nodes, *ex, kappa * cosine, kappa * sine, &mut across, &mut along);
                across_and_along(*ex, [cosine, sine], &mut across, &mut along);
                1.0
            }
        };
        match ray.polarization {
            Polarization::Te => DVector::from_vec(across) * (2.0 * scale * ray.cosine),
            Polarization::Tm => DVector::from_vec(along) * (2.0 * scale),
        }
    }
}

static HEXAGON_NODES: LazyLock<Vec<[f64; 3]>> = LazyLock::new(|| hexagon::quadrant_nodes(20));

/// Orders of a circle far above the wavenumber do not reach through.
fn highest_order(k: f64) -> usize {
    (k + 2.0 * k.cbrt()) as usize + 4
}

/// Calls `visit` with every section of a shape for wavenumbers up to `k`, one after the other: far above cutoff all of them at once would
/// fill memory.
fn each_section(shape: &Shape, k: f64, mut visit: impl FnMut(Section)) {
    match *shape {
        Shape::Circle { .. } => {
            for order in 0..=highest_order(k) {
                visit(Section { block: circle::block(order, k), view: View::Circle { order } });
            }
        }
        Shape::Rectangle { width_m, height_m } => {
            let height = width_m.min(height_m) / width_m.max(height_m);
            for odd in [(false, false), (true, false), (false, true), (true, true)] {
                let make = if k <= KEPT[1] { rectangle::block } else { rectangle::wide_block };
                let (block, modes) = make(odd, height, k);
                visit(Section { block, view: View::Rectangle { modes, ex: rectangle::ex(odd) } });
            }
        }
        // The table's end sets how many modes there are, whatever the wavenumber.
        Shape::Hexagon { .. } => {
            for (ex, modes, block) in hexagon::blocks_by_parity(&HEXAGON_NODES) {
                visit(Section { block, view: View::Hexagon { modes, ex } });
            }
        }
    }
}

/// All sections of a shape for wavenumbers up to `k`, quick to evaluate.
fn quick_sections(shape: &Shape, k: f64) -> Vec<Section> {
    let mut sections = Vec::new();
    each_section(shape, k, |section| sections.push(section.quick(shape, k)));
    sections
}

impl Tube {
    /// The sections that are kept, and up to which wavenumber times size they go.
    fn kept_sections(&self) -> (&[Section], f64) {
        const ANY: Shape = Shape::Circle { diameter_m: 1.0 };
        const ANY_HEXAGON: Shape = Shape::Hexagon { across_flats_m: 1.0 };
        static CIRCLE: LazyLock<Vec<Section>> = LazyLock::new(|| quick_sections(&ANY, KEPT[0]));
        static HEXAGON: LazyLock<Vec<Section>> = LazyLock::new(|| quick_sections(&ANY_HEXAGON, KEPT[2]));
        match self.guide().shape() {
            Shape::Circle { .. } => (&CIRCLE, KEPT[0]),
            shape @ Shape::Rectangle { .. } => (self.own_sections(|| quick_sections(shape, KEPT[1])), KEPT[1]),
            Shape::Hexagon { .. } => (&HEXAGON, KEPT[2]),
        }
    }
}

/// The size, m, that lengths are measured in, and whether x and y are exchanged.
fn size(shape: &Shape) -> (f64, bool) {
    match *shape {
        Shape::Circle { diameter_m } => (0.5 * diameter_m, false),
        Shape::Rectangle { width_m, height_m } => (width_m.max(height_m), width_m < height_m),
        Shape::Hexagon { across_flats_m } => (across_flats_m / (2.0 * hexagon::INRADIUS), false),
    }
}

impl Tube {
    /// ln of the cross-section under one plane wave, m², by full mode matching, at many frequencies.
    ///
    /// `angle_deg` is the angle from the normal; `azimuth_deg` the turn of the plane of incidence about it, from the width of a
    /// rectangle or from the axis through two corners of a hexagon. TE has the electric field in the face, TM the magnetic one. A
    /// conductor in the tube adds what it takes as a straight monopole on the wall: TM waves, none along the normal.
    ///
    /// In the limit of many modes; [`Tube::directional_errors_db`] estimates what it is off by.
    ///
    /// Above ten times the cutoff of the empty tube (of a hexagon 2.5 times) it is blended, within a tenth of the frequency, into
    /// the geometric limit A cos θ, and [`Tube::matched_validity`] tells.
    ///
    /// # Errors
    /// Unless frequencies are positive, the angle from 0 to less than 90 degrees, the azimuth from −360 to 360, and a rectangle at
    /// most five times as long as wide.
    pub fn directional_ln_cross_sections(
        &self,
        frequency_hz: &[f64],
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: Polarization,
    ) -> Result<Vec<f64>> {
        let estimates = self.directional(frequency_hz, angle_deg, azimuth_deg, polarization)?;
        Ok(estimates.into_iter().map(|estimate| estimate.ln).collect())
    }

    /// How far [`Tube::directional_ln_cross_sections`] are off by estimate, dB: the distance between the limits from three and from two
    /// numbers of modes. Infinite where the geometric limit stands in: there is no estimate.
    ///
    /// # Errors
    /// As for [`Tube::directional_ln_cross_sections`].
    pub fn directional_errors_db(
        &self,
        frequency_hz: &[f64],
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: Polarization,
    ) -> Result<Vec<f64>> {
        Ok(in_db(self.directional(frequency_hz, angle_deg, azimuth_deg, polarization)?))
    }

    fn directional(
        &self,
        frequency_hz: &[f64],
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: Polarization,
    ) -> Result<Vec<Estimate>> {
        check::within("angle_deg", "deg", angle_deg, (0.0, 90.0 - 1e-9), "from 0 to less than 90 degrees")?;
        check::within("azimuth_deg", "deg", azimuth_deg, (-360.0, 360.0), "from -360 to 360 degrees")?;
        let angle = angle_deg.to_radians();
        let (sine, cosine) = angle.sin_cos();
        let (size_m, is_turned) = size(self.guide().shape());
        let azimuth = if is_turned { azimuth_deg - 90.0 } else { azimuth_deg }.to_radians();
        let ray = Ray { sine, cosine, azimuth, polarization };
        let mut estimates =
            self.sum_over_sections(frequency_hz, |section, matched, k| matched.transmitted(&section.drive(&ray, k)))?;
        for estimate in &mut estimates {
            estimate.ln += 2.0 * size_m.ln();
        }
        if polarization == Polarization::Tm {
            self.add_rod(frequency_hz, &mut estimates, |k| ln_axial_pattern(k, sine));
        }
        let looks = (self.guide().shape().area_m2() * cosine).ln();
        self.lead_over(frequency_hz, &mut estimates, |guide, wavenumber| looks + self.ln_filling(guide, wavenumber));
        self.add_conductor(frequency_hz, &mut estimates, |wire, f| wire.ln_directivity(angle, polarization, f));
        Ok(estimates)
    }

    /// Where full mode matching reaches; beyond, its functions go over into the geometric limit.
    pub fn matched_validity(&self, frequency_hz: f64) -> Validity {
        Validity::within(
            "full mode matching of a tube",
            "frequency / cutoff of the empty tube",
            "",
            self.ratio(frequency_hz),
            (0.0, self.highest_ratio()),
            "the geometric limit stands in, without what interferes",
        )
        .and(Validity::within(
            "full mode matching of a tube",
            "frequency / cutoff of the empty tube",
            "",
            self.ratio(frequency_hz),
            (LOWEST, f64::INFINITY),
            "what radiates of TM modes is lost in rounding",
        ))
        .and(self.contents_validity(frequency_hz))
    }

    fn highest_ratio(&self) -> f64 {
        if matches!(self.guide().shape(), Shape::Hexagon { .. }) { HIGHEST_HEXAGON } else { HIGHEST }
    }

    /// The frequency over the empty tube's cutoff.
    fn ratio(&self, frequency_hz: f64) -> f64 {
        frequency_hz * 2.0 * PI / (SPEED_OF_LIGHT * self.guide().dominant().cutoff_wavenumber_per_m())
    }

    /// Leads over to the geometric limit where mode matching ends.
    fn lead_over(&self, frequency_hz: &[f64], estimates: &mut [Estimate], limit: impl Fn(&Guide, f64) -> f64) {
        let range = (self.highest_ratio(), LEAD_OVER * self.highest_ratio());
        for (estimate, &f) in estimates.iter_mut().zip(frequency_hz) {
            let ratio = self.ratio(f);
            if ratio <= range.0 {
                continue;
            }
            let limit = limit(&self.loaded(f), wavenumber_per_m(f));
            let ln = if ratio < range.1 { blended(estimate.ln, limit, ratio, range) } else { limit };
            *estimate = Estimate { ln, error: f64::INFINITY };
        }
    }

    /// Adds what a rod draws through in its mode TM0 beyond an even filling, more by a logarithm than on the average; `ln_more` takes the
    /// wavenumber in units of the radius of that mode's tube.
    fn add_rod(&self, frequency_hz: &[f64], estimates: &mut [Estimate], ln_more: impl Fn(f64) -> f64) {
        if self.rod().is_none() {
            return;
        }
        let radius_m = axial_radius_m(self.guide().shape());
        for (estimate, &f) in estimates.iter_mut().zip(frequency_hz) {
            let ln_channel = 2.0 * wavelength_m(f).ln() - (4.0 * PI).ln();
            let ln = self.ln_axial_excess(f) + ln_channel + ln_more(wavenumber_per_m(f) * radius_m);
            if ln > f64::NEG_INFINITY {
                let mut sum = EstimateSum::default();
                sum.add(*estimate);
                sum.add(Estimate { ln, error: 0.0 });
                *estimate = sum.total();
            }
        }
    }

    /// Adds what goes along a conductor, more by a logarithm than on the average.
    fn add_conductor(
        &self,
        frequency_hz: &[f64],
        estimates: &mut [Estimate],
        ln_more: impl Fn(&ThroughWire, f64) -> f64,
    ) {
        let Some(wire) = self.conductor() else { return };
        let line = self.line(wire);
        for (estimate, &f) in estimates.iter_mut().zip(frequency_hz) {
            let mut sum = EstimateSum::default();
            sum.add(*estimate);
            sum.add(Estimate { ln: wire.ln_cross_section(&line, self.length_m(), f) + ln_more(wire, f), error: 0.0 });
            *estimate = sum.total();
        }
    }

    /// ln of the cross-section averaged over directions and polarizations, m², by full mode matching: the same quantity as
    /// [`Leak::ln_cross_section`](crate::leak::Leak::ln_cross_section), with all modes, also above the second one's cutoff.
    ///
    /// # Errors
    /// As for [`Tube::directional_ln_cross_sections`].
    pub fn matched_ln_cross_sections(&self, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        Ok(self.matched(frequency_hz)?.into_iter().map(|estimate| estimate.ln).collect())
    }

    /// How far [`Tube::matched_ln_cross_sections`] are off by estimate, dB, as for [`Tube::directional_errors_db`].
    ///
    /// # Errors
    /// As for [`Tube::directional_ln_cross_sections`].
    pub fn matched_errors_db(&self, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        Ok(in_db(self.matched(frequency_hz)?))
    }

    fn matched(&self, frequency_hz: &[f64]) -> Result<Vec<Estimate>> {
        let mut estimates = self.sum_over_sections(frequency_hz, |section, matched, _| {
            let of_one = matched.channels();
            Estimate { ln: of_one.ln + section.block.count.ln(), ..of_one }
        })?;
        for (estimate, &frequency_hz) in estimates.iter_mut().zip(frequency_hz) {
            estimate.ln += 2.0 * wavelength_m(frequency_hz).ln() - (4.0 * PI).ln();
        }
        self.add_rod(frequency_hz, &mut estimates, |_| 0.0);
        self.lead_over(frequency_hz, &mut estimates, |guide, wavenumber| self.ln_open(guide, wavenumber));
        self.add_conductor(frequency_hz, &mut estimates, |_, _| 0.0);
        Ok(estimates)
    }

    /// The sum over sections, where mode matching reaches; of no meaning elsewhere.
    fn sum_over_sections(
        &self,
        frequency_hz: &[f64],
        term: impl Fn(&Section, &Matched<'_>, f64) -> Estimate,
    ) -> Result<Vec<Estimate>> {
        let shape = self.guide().shape();
        check::frequencies(frequency_hz)?;
        if let Shape::Rectangle { width_m, height_m } = *shape {
            let longest = 1.0 / rectangle::NARROWEST;
            let ratio = width_m / height_m;
            let range = (rectangle::NARROWEST * (1.0 - 1e-12), longest * (1.0 + 1e-12));
            check::within("width_m / height_m", "", ratio, range, "from 0.2 to 5 for mode matching")?;
        }
        let (size_m, _) = size(shape);
        let reached = |f: f64| self.ratio(f) < LEAD_OVER * self.highest_ratio();
        let lines: Vec<Option<Line>> =
            frequency_hz.iter().map(|&f| reached(f).then(|| self.matched_line(f, size_m))).collect();
        let mut sums = vec![EstimateSum::default(); frequency_hz.len()];
        let add = |sums: &mut [EstimateSum], section: &Section, takes: &dyn Fn(f64) -> bool| {
            for (sum, line) in sums.iter_mut().zip(&lines) {
                if let Some(line) = line.filter(|line| takes(line.k) && section.reaches(line.k)) {
                    sum.add(term(section, &Matched::new(&section.block, &line), line.k));
                }
            }
        };
        let (kept, top) = self.kept_sections();
        for section in kept {
            add(&mut sums, section, &|k| k <= top);
        }
        let band = |k: f64| (k / top).log(BAND_RATIO).ceil() as i32;
        let mut bands: Vec<_> = lines.iter().flatten().filter(|line| line.k > top).map(|line| band(line.k)).collect();
        bands.sort_unstable();
        for members in bands.chunk_by(|one, other| one == other) {
            let highest = top * BAND_RATIO.powi(members[0]);
            // A quick section pays for itself once it is asked more often than its series has points.
            let many = members.len() as f64 > 16.0 + 3.0 * highest;
            each_section(shape, highest, |section| {
                let section = if many { section.quick(shape, highest) } else { section };
                add(&mut sums, &section, &|k| k > top && band(k) == members[0]);
            });
        }
        Ok(sums.into_iter().map(|sum| sum.total()).collect())
    }

    /// What the modes run through at one frequency, lengths in units of the size.
    fn matched_line(&self, frequency_hz: f64, size_m: f64) -> Line {
        let guide = self.loaded(frequency_hz);
        Line {
            k: wavenumber_per_m(frequency_hz) * size_m,
            length: self.length_m() / size_m,
            permittivity: guide.permittivity(),
            wall: sheet_resistance(guide.wall_conductivity_s_per_m(), frequency_hz),
        }
    }
}

/// ln of what the mode TM01 takes from a TM wave over its mean over directions and both polarizations; low down 3 sin² θ.
fn ln_axial_pattern(k: f64, sine: f64) -> f64 {
    let taken = |sine: f64| {
        let (mut across, mut along) = ([0.0], [0.0]);
        circle::radial_parts(0, &[(ModeFamily::Tm, TM01)], (k * sine).max(1e-7), &mut across, &mut along);
        along[0] * along[0]
    };
    let mean: f64 = gauss_legendre(16)
        .into_iter()
        .map(|(x, weight)| 0.25 * weight * taken((1.0 - (0.5 * (1.0 + x)).powi(2)).sqrt()))
        .sum();
    (taken(sine) / mean).ln()
}

fn in_db(estimates: Vec<Estimate>) -> Vec<f64> {
    estimates.into_iter().map(|estimate| 10.0 / 10_f64.ln() * estimate.error).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decibel::LnSum;
    use crate::leak::Leak;

    /// ln of the mean of σ over the half-space and both polarizations.
    fn ln_mean_over_directions(tube: &Tube, frequency_hz: f64, azimuths: usize) -> f64 {
        let (size_m, _) = size(tube.guide().shape());
        let rule = gauss_legendre(10);
        let mean = tube.sum_over_sections(&[frequency_hz], |section, matched, k| {
            let mut mean = LnSum::default();
            for &(x, w) in &rule {
                // Even in solid angle: uniform in cos θ.
                let cosine = 0.5 * (1.0 + x);
                for turn in 0..azimuths {
                    let azimuth = 2.0 * PI * (turn as f64 + 0.3) / azimuths as f64;
                    for polarization in [Polarization::Te, Polarization::Tm] {
                        let ray = Ray { sine: (1.0 - cosine * cosine).sqrt(), cosine, azimuth, polarization };
                        mean += matched.transmitted(&section.drive(&ray, k)).ln + (0.25 * w / azimuths as f64).ln();
                    }
                }
            }
            Estimate { ln: mean.ln(), error: 0.0 }
        });
        mean.unwrap()[0].ln + 2.0 * size_m.ln()
    }

    #[test]
    fn the_mean_over_directions_is_the_sum_over_channels() {
        for (guide, azimuths, within) in [
            (Guide::circular(6e-3).unwrap(), 1, 1e-6),
            (Guide::rectangular(4e-3, 6e-3).unwrap(), 8, 1e-4),
            (Guide::hexagonal(6e-3).unwrap(), 12, 2e-3),
        ] {
            let tube = Tube::new(guide, 6e-3).unwrap();
            for ratio in [0.3, 1.4] {
                let f = ratio * guide.cutoff_hz();
                let mean = ln_mean_over_directions(&tube, f, azimuths);
                let channels = tube.matched_ln_cross_sections(&[f]).unwrap()[0];
                assert!((mean - channels).abs() < within, "{guide:?} {ratio} {mean} {channels}");
            }
        }
    }

    #[test]
    fn small_tubes_see_the_magnetic_field_in_the_wall() {
        // Far below cutoff a tube is a pair of dipoles: TE goes as cos² θ, the axial magnetic dipole being none.
        let tube = Tube::new(Guide::circular(6e-3).unwrap(), 18e-3).unwrap();
        let at =
            |angle: f64, polarization| tube.directional_ln_cross_sections(&[1e8], angle, 0.0, polarization).unwrap()[0];
        let normal = at(0.0, Polarization::Te);
        assert!((at(0.0, Polarization::Tm) - normal).abs() < 1e-6);
        assert!((at(60.0, Polarization::Te) - normal - 0.25_f64.ln()).abs() < 1e-3);
        // TM keeps its magnetic field and adds a faster dying electric one.
        assert!((at(60.0, Polarization::Tm) - normal).abs() < 1e-2);
    }

    #[test]
    fn far_above_cutoff_the_opening_is_what_it_looks_like() {
        for guide in [Guide::circular(10e-3).unwrap(), Guide::rectangular(10e-3, 10e-3).unwrap()] {
            let area = guide.shape().area_m2();
            let tube = Tube::new(guide, 10e-3).unwrap();
            for (angle, within) in [(0.0, 0.1), (30.0, 0.15), (60.0, 0.3)] {
                let f = [8.0, 8.3, 8.6, 8.9].map(|ratio| ratio * guide.cutoff_hz());
                let mean = |polarization| {
                    let ln = tube.directional_ln_cross_sections(&f, angle, 20.0, polarization).unwrap();
                    ln.iter().map(|ln| ln.exp()).sum::<f64>() / f.len() as f64
                };
                let both = 0.5 * (mean(Polarization::Te) + mean(Polarization::Tm));
                let looks = area * f64::to_radians(angle).cos();
                assert!((both / looks - 1.0).abs() < within, "{guide:?} {angle} {}", both / looks);
            }
        }
    }

    #[test]
    fn hexagon_lies_between_its_circles() {
        // What fits into a larger opening passes less, with and without the exponent of the length; and the fast form agrees.
        let across = 6e-3;
        let tube = |guide: Guide| Tube::new(guide, 9e-3).unwrap();
        let hexagon = tube(Guide::hexagonal(across).unwrap());
        let inner = tube(Guide::circular(across).unwrap());
        let outer = tube(Guide::circular(across / hexagon::INRADIUS).unwrap());
        let cutoff = hexagon.cutoff_hz();
        let f = [0.01, 0.3, 0.7, 0.9, 1.3].map(|ratio| ratio * cutoff);
        let ln = |tube: &Tube| tube.matched_ln_cross_sections(&f).unwrap();
        let (low, middle, high) = (ln(&inner), ln(&hexagon), ln(&outer));
        for (i, &f) in f.iter().enumerate() {
            assert!(low[i] < middle[i] && middle[i] < high[i], "{f:e} {} {} {}", low[i], middle[i], high[i]);
            let fast = hexagon.ln_cross_section(f);
            assert!((fast - middle[i]).abs() < 0.05, "{f:e} {fast} {}", middle[i]);
        }
    }

    #[test]
    fn longer_by_a_width_is_alpha_times_a_width() {
        for guide in [Guide::circular(6e-3).unwrap(), Guide::hexagonal(6e-3).unwrap()] {
            let f = 0.6 * guide.cutoff_hz();
            let at = |length_m: f64| {
                let tube = Tube::new(guide, length_m).unwrap();
                tube.directional_ln_cross_sections(&[f], 40.0, 10.0, Polarization::Tm).unwrap()[0]
            };
            let nepers = 2.0 * 6e-3 * guide.propagation_per_m(f).re;
            assert!((at(60e-3) - at(66e-3) - nepers).abs() < 1e-8);
        }
    }

    #[test]
    fn a_point_is_the_same_alone_and_in_company() {
        // 0.09 dB apart when the highest frequency set the modes of all.
        for guide in [Guide::circular(6e-3).unwrap(), Guide::rectangular(6e-3, 4e-3).unwrap()] {
            let tube = Tube::new(guide, 6e-3).unwrap();
            let f = [0.5, 1.4, 2.1, 2.6, 3.1, 4.9].map(|ratio| ratio * guide.cutoff_hz());
            let together = tube.matched(&f).unwrap();
            let from_one_side = tube.directional_ln_cross_sections(&f, 35.0, 20.0, Polarization::Tm).unwrap();
            for (at, &f) in f.iter().enumerate().step_by(2) {
                assert_eq!(tube.matched(&[f]).unwrap()[0], together[at], "{guide:?} {f}");
                let alone = tube.directional_ln_cross_sections(&[f], 35.0, 20.0, Polarization::Tm).unwrap()[0];
                assert_eq!(alone, from_one_side[at], "{guide:?} {f}");
            }
            // What is made quick for many differs in the last digits alone.
            let many: Vec<f64> = (0..60).map(|i| (2.2 + 0.004 * f64::from(i)) * guide.cutoff_hz()).collect();
            let together = tube.matched_ln_cross_sections(&many).unwrap();
            for (&f, ln) in many.iter().zip(together).step_by(20) {
                let alone = tube.matched_ln_cross_sections(&[f]).unwrap()[0];
                assert!((alone - ln).abs() < 1e-8, "{guide:?} {f} {}", alone - ln);
            }
        }
    }

    #[test]
    fn far_below_cutoff_no_digit_is_lost() {
        // σ goes as f⁴ whatever the direction: tenths of a dB were lost below 1e-5 of the cutoff.
        for guide in [Guide::circular(6e-3), Guide::rectangular(6e-3, 4e-3), Guide::hexagonal(6e-3)] {
            let tube = Tube::new(guide.unwrap(), 6e-3).unwrap();
            let f: Vec<f64> = (4..8).map(|i| 10_f64.powi(-i) * tube.cutoff_hz()).collect();
            let level = |ln: Vec<f64>| -> Vec<f64> { ln.iter().zip(&f).map(|(ln, f)| ln - 4.0 * f.ln()).collect() };
            let mut all = vec![level(tube.matched_ln_cross_sections(&f).unwrap())];
            for polarization in [Polarization::Te, Polarization::Tm] {
                all.push(level(tube.directional_ln_cross_sections(&f, 40.0, 10.0, polarization).unwrap()));
            }
            for level in all {
                assert!(level.iter().all(|at| (at - level[0]).abs() < 1e-6), "{:?} {level:?}", tube.guide());
            }
        }
    }

    #[test]
    fn asked_outside_it_says_so() {
        let tube = Tube::new(Guide::circular(6e-3).unwrap(), 6e-3).unwrap();
        let at = |angle: f64| tube.directional_ln_cross_sections(&[1.0, 1e13], angle, 0.0, Polarization::Te);
        let ln = at(60.0).unwrap();
        assert!(ln[0].is_finite() && (ln[1] - (0.5 * tube.guide().shape().area_m2()).ln()).abs() < 1e-12);
        assert!(tube.matched_validity(1e9).holds() && !tube.matched_validity(1e13).holds());
        assert!(tube.matched_validity(4e3).holds() && !tube.matched_validity(2e3).holds());
        assert!(at(90.0).unwrap_err().to_string().contains("`angle_deg`"));
        let slit = Tube::new(Guide::rectangular(6e-3, 1e-3).unwrap(), 6e-3).unwrap();
        assert!(slit.matched_ln_cross_sections(&[1e9]).unwrap_err().to_string().contains("width_m / height_m"));
    }
}
