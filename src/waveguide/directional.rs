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
use num_complex::Complex64;

use super::guide::{Guide, Shape};
use super::matching::{Line, Matched};
use super::spectrum::half_space::across_and_along;
use super::spectrum::{Block, Parity, circle, hexagon, rectangle};
use super::tube::Tube;
use crate::constants::{SPEED_OF_LIGHT, wavelength_m, wavenumber_per_m};
use crate::decibel::LnSum;
use crate::error::{Result, check};
use crate::validity::Validity;
use crate::wave::Polarization;

/// Highest wavenumber times size: ten times the cutoff of a round or square tube.
const HIGHEST: f64 = 10.0;
/// The hexagon's modes are known up to some five times its cutoff; to be well resolved, half of that.
const HIGHEST_HEXAGON: f64 = 2.5;
/// The longest rectangle, by its sides: a slit has too many modes along it.
const LONGEST: f64 = 5.0;

/// A plane wave on the outer face.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Ray {
    sine: f64,
    cosine: f64,
    azimuth: f64,
    polarization: Polarization,
}

/// Which modes a block has, as one wave sees them.
enum View {
    Circle { order: usize },
    Rectangle { modes: Vec<rectangle::Mode>, ex: Parity },
    Hexagon { modes: Vec<hexagon::Mode>, ex: Parity },
}

struct Section {
    block: Block,
    view: View,
}

impl Section {
    /// What a wave drives at the near end, at the wavenumber `k` times the size.
    fn drive(&self, ray: &Ray, k: f64) -> DVector<f64> {
        let size = self.block.modes.len();
        let (mut across, mut along) = (vec![0.0; size], vec![0.0; size]);
        // Along the normal either part is a limit.
        let kappa = (k * ray.sine).max(1e-7);
        let (sine, cosine) = ray.azimuth.sin_cos();
        let scale = match &self.view {
            View::Circle { order } => {
                circle::radial_parts(*order, &self.block.modes, kappa, &mut across, &mut along);
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

/// Blocks by the symmetry of E_x: unlike those by turns they hold both members of each pair.
static HEXAGON: LazyLock<Vec<Section>> = LazyLock::new(|| {
    const CUTOFF: f64 = 10.0;
    const SPECTRUM: f64 = 34.0;
    hexagon::by_parity(CUTOFF, &HEXAGON_NODES)
        .into_iter()
        .map(|(ex, modes)| {
            let space = hexagon::half_space(&modes, &HEXAGON_NODES, ex, SPECTRUM);
            let list = modes.iter().map(|mode| (mode.class.family, mode.cutoff)).collect();
            Section { block: Block { count: 1.0, modes: list, space }, view: View::Hexagon { modes, ex } }
        })
        .collect()
});

/// How many modes are taken: cutoffs up to this for a highest wavenumber.
fn cutoff_limit(k: f64) -> f64 {
    16.0_f64.max(1.5 * k)
}

/// Calls `visit` with every section of a shape, one after the other: far above cutoff all of them at once would fill memory.
fn each_section(shape: &Shape, highest_k: f64, mut visit: impl FnMut(&Section)) {
    let limit = cutoff_limit(highest_k);
    match *shape {
        Shape::Circle { .. } => {
            // Orders far above the wavenumber do not reach through.
            let orders = (highest_k + 2.0 * highest_k.cbrt()) as usize + 4;
            for order in 0..=orders {
                let limit = limit + order as f64;
                if let Some(block) = circle::block(order, limit, 3.5 * limit) {
                    visit(&Section { block, view: View::Circle { order } });
                }
            }
        }
        Shape::Rectangle { width_m, height_m } => {
            const MOST: usize = 60;
            let height = width_m.min(height_m) / width_m.max(height_m);
            let limit = 1.8 * limit.max(4.5 * PI / height);
            for odd in [(false, false), (true, false), (false, true), (true, true)] {
                let modes = rectangle::modes(odd, height, limit, MOST);
                let top = modes.last().map_or(limit, |mode| mode.cutoff);
                if let Some(block) = rectangle::block(odd, height, limit, MOST, 2.5 * top) {
                    visit(&Section { block, view: View::Rectangle { modes, ex: rectangle::ex(odd) } });
                }
            }
        }
        Shape::Hexagon { .. } => HEXAGON.iter().for_each(visit),
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
    /// rectangle or from the axis through two corners of a hexagon. TE has the electric field in the face, TM the magnetic one.
    /// A conductor in the tube is left out. What is prepared once for all frequencies takes most of the time.
    ///
    /// Converges to the full answer from below: some 0.1 dB are left at the modes taken.
    ///
    /// Above ten times the cutoff of the empty tube (of a hexagon 2.5 times) the geometric limit A cos θ is given, and
    /// [`Tube::matched_validity`] tells.
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
        check::within("angle_deg", "deg", angle_deg, (0.0, 90.0 - 1e-9), "from 0 to less than 90 degrees")?;
        check::within("azimuth_deg", "deg", azimuth_deg, (-360.0, 360.0), "from -360 to 360 degrees")?;
        let (sine, cosine) = angle_deg.to_radians().sin_cos();
        let turned = if size(self.guide().shape()).1 { azimuth_deg - 90.0 } else { azimuth_deg };
        let ray = Ray { sine, cosine, azimuth: turned.to_radians(), polarization };
        let (size_m, _) = size(self.guide().shape());
        let mut ln = self.sum_over_sections(frequency_hz, |section, matched, k| {
            matched.ln_transmitted(&section.drive(&ray, k)) + 2.0 * size_m.ln()
        })?;
        let looks = (self.guide().shape().area_m2() * cosine).ln();
        self.fill_beyond(frequency_hz, &mut ln, |guide, wavenumber| looks + self.ln_filling(guide, wavenumber));
        Ok(ln)
    }

    /// Where full mode matching reaches; beyond, its functions give the geometric limit.
    pub fn matched_validity(&self, frequency_hz: f64) -> Validity {
        let ratio = frequency_hz / self.empty_cutoff_hz();
        Validity::within(
            "full mode matching of a tube",
            "frequency / cutoff of the empty tube",
            "",
            ratio,
            (0.0, self.highest_ratio()),
            "the geometric limit stands in, without what interferes",
        )
    }

    fn highest_ratio(&self) -> f64 {
        if matches!(self.guide().shape(), Shape::Hexagon { .. }) { HIGHEST_HEXAGON } else { HIGHEST }
    }

    fn empty_cutoff_hz(&self) -> f64 {
        SPEED_OF_LIGHT * self.guide().dominant().cutoff_wavenumber_per_m() / (2.0 * PI)
    }

    /// Writes the geometric limit where mode matching does not reach.
    fn fill_beyond(&self, frequency_hz: &[f64], ln: &mut [f64], limit: impl Fn(&Guide, f64) -> f64) {
        for (ln, &f) in ln.iter_mut().zip(frequency_hz) {
            if !self.matched_validity(f).holds() {
                *ln = limit(&self.loaded(f), wavenumber_per_m(f));
            }
        }
    }

    /// ln of the cross-section averaged over directions and polarizations, m², by full mode matching: the same quantity as
    /// [`Leak::ln_cross_section`](crate::leak::Leak::ln_cross_section), without its lead-over above the second mode.
    ///
    /// # Errors
    /// As for [`Tube::directional_ln_cross_sections`].
    pub fn matched_ln_cross_sections(&self, frequency_hz: &[f64]) -> Result<Vec<f64>> {
        let mut ln = self
            .sum_over_sections(frequency_hz, |section, matched, _| matched.ln_channels() + section.block.count.ln())?;
        for (ln, &frequency_hz) in ln.iter_mut().zip(frequency_hz) {
            *ln += 2.0 * wavelength_m(frequency_hz).ln() - (4.0 * PI).ln();
        }
        self.fill_beyond(frequency_hz, &mut ln, |guide, wavenumber| self.ln_open(guide, wavenumber));
        Ok(ln)
    }

    fn sum_over_sections(
        &self,
        frequency_hz: &[f64],
        term: impl Fn(&Section, &Matched, f64) -> f64,
    ) -> Result<Vec<f64>> {
        let shape = self.guide().shape();
        check::frequencies(frequency_hz)?;
        if let Shape::Rectangle { width_m, height_m } = *shape {
            let ratio = width_m / height_m;
            check::within(
                "width_m / height_m",
                "",
                ratio,
                (1.0 / LONGEST, LONGEST),
                "from 0.2 to 5 for mode matching",
            )?;
        }
        let (size_m, _) = size(shape);
        // Where it does not reach, the caller writes the limit.
        let reached = frequency_hz.iter().copied().filter(|&f| self.matched_validity(f).holds()).fold(0.0, f64::max);
        let lines: Vec<Option<Line>> = frequency_hz
            .iter()
            .map(|&f| self.matched_validity(f).holds().then(|| self.matched_line(f, size_m)))
            .collect();
        if reached == 0.0 {
            return Ok(vec![0.0; frequency_hz.len()]);
        }
        let highest = wavenumber_per_m(reached) * size_m;
        let mut sums = vec![LnSum::default(); frequency_hz.len()];
        each_section(shape, highest, |section| {
            for (sum, line) in sums.iter_mut().zip(&lines) {
                if let Some(line) = line {
                    *sum += term(section, &Matched::new(&section.block, line), line.k);
                }
            }
        });
        Ok(sums.into_iter().map(|sum| sum.ln()).collect())
    }

    /// What the modes run through at one frequency, lengths in units of the size.
    fn matched_line(&self, frequency_hz: f64, size_m: f64) -> Line {
        let guide = self.loaded(frequency_hz);
        let wavenumber = wavenumber_per_m(frequency_hz);
        // The other modes lose no less in the wall than the dominant one.
        let wall = guide.wall_share(guide.dominant(), wavenumber, frequency_hz) * (size_m * size_m);
        Line {
            k: wavenumber * size_m,
            length: self.length_m() / size_m,
            permittivity: guide.permittivity(),
            wall: if guide.wall_conductivity_s_per_m().is_finite() { wall } else { Complex64::ZERO },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leak::Leak;
    use crate::special::gauss_legendre;

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
                        mean += matched.ln_transmitted(&section.drive(&ray, k)) + (0.25 * w / azimuths as f64).ln();
                    }
                }
            }
            mean.ln()
        });
        mean.unwrap()[0] + 2.0 * size_m.ln()
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
    fn more_modes_pass_more_and_little_is_left() {
        let k = 1.2;
        let line = Line { k, length: 3.0, permittivity: Complex64::ONE, wall: Complex64::ZERO };
        let db = |limit: f64| {
            let mut sum = LnSum::default();
            for order in 0..3 {
                let block = circle::block(order, limit, 5.0 * limit).unwrap();
                sum += Matched::new(&block, &line).ln_channels() + block.count.ln();
            }
            10.0 / 10_f64.ln() * sum.ln()
        };
        let (coarse, standard, fine) = (db(8.0), db(cutoff_limit(k)), db(60.0));
        assert!(coarse < standard && standard < fine, "{coarse} {standard} {fine}");
        assert!(fine - standard < 0.15 && fine - standard < 0.6 * (fine - coarse), "{coarse} {standard} {fine}");
    }

    #[test]
    fn asked_outside_it_says_so() {
        let tube = Tube::new(Guide::circular(6e-3).unwrap(), 6e-3).unwrap();
        let at = |angle: f64| tube.directional_ln_cross_sections(&[1.0, 1e13], angle, 0.0, Polarization::Te);
        let ln = at(60.0).unwrap();
        assert!(ln[0].is_finite() && (ln[1] - (0.5 * tube.guide().shape().area_m2()).ln()).abs() < 1e-12);
        assert!(tube.matched_validity(1e9).holds() && !tube.matched_validity(1e13).holds());
        assert!(at(90.0).unwrap_err().to_string().contains("`angle_deg`"));
        let slit = Tube::new(Guide::rectangular(6e-3, 1e-3).unwrap(), 6e-3).unwrap();
        assert!(slit.matched_ln_cross_sections(&[1e9]).unwrap_err().to_string().contains("width_m / height_m"));
    }
}
