//! The unbounded honeycomb by full mode matching: all modes of the cells, all harmonics of the lattice, any direction.
//!
//! With ẽ_p(κ) the transforms of the cells' modes and κ = k_t + G the lattice's harmonics, the free space in front answers with
//!
//! Y_pq = (1/A_c) Σ_G [t_p* t_q k_z/k + m_p* m_q k/k_z],
//!
//! t and m the parts across and along κ. The cells between two alike faces split into an even and an odd half, as in a single
//! tube. What only stores energy is eliminated once for a whole sweep ([`super::ports`]); a small system between the modes and
//! harmonics that travel, or might, is left at each frequency.
//!
//! Power is conserved to rounding whatever the number of modes; what the number decides is how well the edges are resolved.

use num_complex::Complex64;

use super::basis::size_m_and_limit;
use super::panel::HoneycombPanel;
use super::ports::{Ends, Lattice};
use super::small_system::SmallSystem;
use crate::constants::wavenumber_per_m;
use crate::decibel::LogTransmission;
use crate::error::{Result, check};
use crate::validity::Validity;
use crate::wave::Polarization;
use crate::waveguide::series::Series;

/// Points of the interpolation over frequency; a sweep of no more is computed point by point.
const POINTS: usize = 18;
/// The first band of frequencies reaches so far above cutoff, each further one so many times farther.
const FIRST_BAND: f64 = 1.02;
const BAND_RATIO: f64 = 1.4;
/// A last coefficient above this share of the largest shows that the interpolation has not converged.
const CONVERGED: f64 = 1e-10;
/// Modes up to this many times the wavenumber are needed for an answer that can be trusted.
const MODES_ABOVE: f64 = 2.0;
/// Shallower panels, in widths of a cell, are a screen of edges that the modes resolve too badly.
const LEAST_DEPTH: f64 = 0.1;
/// Of the cutoff.
const LEAST_RATIO: f64 = 1e-8;

/// What an unbounded honeycomb does with one wave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LatticeResponse {
    /// Tangential electric field that leaves along the wave's own direction in its own polarization, over the incident one.
    pub transmission: LogTransmission,
    /// ln of the power that leaves on the far side along all directions, over the incident power.
    pub ln_transmitted_power: f64,
    /// Power sent back along all directions, over the incident power.
    pub reflected_power: f64,
}

impl LatticeResponse {
    /// Where there is no solution.
    fn unknown() -> Self {
        Self {
            transmission: LogTransmission(Complex64::new(f64::NAN, 0.0)),
            ln_transmitted_power: f64::NAN,
            reflected_power: f64::NAN,
        }
    }
}

impl HoneycombPanel {
    /// The unbounded panel under a plane wave by full mode matching, at many frequencies (Hz) and one direction.
    ///
    /// `azimuth_deg` turns the plane of incidence from the axis through two corners of a hexagonal cell (through two sides of a
    /// square one). The closed form of [`HoneycombPanel::transmission`] is held to this one by the tests. Walls are taken as
    /// perfect conductors, bonded cell to cell.
    ///
    /// # Errors
    /// Unless every frequency is positive and finite, the angle at least 0 and less than 90 degrees, and the azimuth finite.
    pub fn lattice_responses(
        &self,
        frequency_hz: &[f64],
        angle_deg: f64,
        azimuth_deg: f64,
        polarization: Polarization,
    ) -> Result<Vec<LatticeResponse>> {
        check::frequencies(frequency_hz)?;
        let (sine, cosine) = check::incidence_angle("angle_deg", angle_deg)?.to_radians().sin_cos();
        let (sy, cx) = check::finite("azimuth_deg", "deg", azimuth_deg)?.to_radians().sin_cos();
        let sine = if angle_deg == 0.0 { 0.0 } else { sine };
        let (size_m, _) = size_m_and_limit(self.cell());
        let wavenumbers: Vec<f64> = frequency_hz.iter().map(|&f| wavenumber_per_m(f) * size_m).collect();
        // Bands have fixed edges, so that a frequency has the same answer alone and in company.
        let first = self.cell().guide().dominant().cutoff_wavenumber_per_m() * size_m;
        let band = |k: f64| (k / (FIRST_BAND * first)).log(BAND_RATIO).ceil().max(0.0) as i32;
        let mut responses = vec![LatticeResponse::unknown(); wavenumbers.len()];
        let mut work = Workspace::default();
        let mut bands: Vec<_> = wavenumbers.iter().map(|&k| band(k)).collect();
        bands.sort_unstable();
        bands.dedup();
        for number in bands {
            let top = FIRST_BAND * first * BAND_RATIO.powi(number);
            let lattice = Lattice::new(self.cell(), self.depth_m(), sine, [cx, sy], polarization, top);
            let members: Vec<_> = wavenumbers.iter().copied().filter(|&k| band(k) == number).collect();
            let series = (members.len() > POINTS)
                .then(|| Series::from_values(top, POINTS, &lattice.reduced(&Series::<f64>::places(top, POINTS))))
                .filter(|series| series.tail() < CONVERGED);
            let each = if series.is_none() { lattice.reduced(&members) } else { Vec::new() };
            let slots = responses.iter_mut().zip(&wavenumbers).filter(|&(_, &k)| band(k) == number);
            let mut reduced = Vec::with_capacity(lattice.entries());
            for (place, (slot, &k)) in slots.enumerate() {
                match &series {
                    Some(series) => series.all_into(k, &mut reduced),
                    None => {
                        reduced.clear();
                        reduced.extend(each.iter().skip(place).step_by(members.len()).copied());
                    }
                }
                *slot = response(&lattice, &reduced, k, cosine, &mut work);
            }
        }
        Ok(responses)
    }

    /// Between which frequencies, and from which depth on, the full mode matching has modes and digits enough to be trusted.
    pub fn lattice_validity(&self, frequency_hz: f64) -> Validity {
        let (size_m, limit) = size_m_and_limit(self.cell());
        let deep = Validity::within(
            "mode matching of the lattice",
            "depth / cell width",
            "",
            self.depth_m() / self.cell().width_m(),
            (LEAST_DEPTH, f64::INFINITY),
            "fields at the two rims reach each other's edges, which so many modes do not resolve",
        );
        let resolved = Validity::within(
            "mode matching of the lattice",
            "frequency / cutoff",
            "",
            frequency_hz / self.cutoff_hz(),
            (LEAST_RATIO, f64::INFINITY),
            "what induces is lost in the rounding of what the lattice stores",
        );
        deep.and(resolved).and(Validity::within(
            "mode matching of the lattice",
            "frequency / highest cutoff of the basis",
            "",
            wavenumber_per_m(frequency_hz) * size_m / limit,
            (0.0, 1.0 / MODES_ABOVE),
            "modes that travel are missing and the answer is no more than an estimate",
        ))
    }
}

/// What the small system is solved in, over and over.
#[derive(Default)]
struct Workspace {
    odd: SmallSystem,
    even: SmallSystem,
    /// Admittances of the harmonics, across and along, in the scale of the ports; real where they travel.
    admittances: Vec<Complex64>,
    ends: Vec<Ends>,
    right: Vec<Complex64>,
    by_odd: Vec<Complex64>,
    by_even: Vec<Complex64>,
    far: Vec<Complex64>,
}

/// The small system at one frequency.
fn response(lattice: &Lattice, reduced: &[f64], k: f64, cosine: f64, work: &mut Workspace) -> LatticeResponse {
    let (live, ports) = (lattice.live_modes, lattice.ports());
    let (left, across) = reduced.split_at(lattice.entries() / 2);
    let entry = |i: usize, j: usize| if i >= j { i * (i + 1) / 2 + j } else { j * (j + 1) / 2 + i };
    let (least, stored) = (lattice.decay(0, k), lattice.decay(live, k));
    // What passes besides the ports: as it is, and in the scale of the least decay.
    let besides = (-stored * lattice.length).exp();
    let besides_scaled = ((least - stored) * lattice.length).exp();
    let Workspace { odd, even, admittances, ends, right, by_odd, by_even, far } = work;
    ends.clear();
    let members = &lattice.basis.members[..live];
    ends.extend(members.iter().map(|mode| Ends::new(mode.family, mode.cutoff, k, lattice.length, least)));
    admittances.clear();
    for index in 0..lattice.live_harmonics {
        let square = lattice.vertical_squared(index, k, cosine);
        // On the edge of a grating lobe one of the two would be infinite.
        let size = square.abs().sqrt().max(1e-7 * k);
        let kz = if square >= 0.0 { Complex64::new(size, 0.0) } else { Complex64::new(0.0, -size) };
        admittances.extend([kz / lattice.cell_area, (kz * lattice.cell_area).inv()]);
    }
    let own = |i: usize, of_mode: fn(&Ends) -> f64| match ends.get(i) {
        Some(ends) => Complex64::new(of_mode(ends), 0.0),
        None => -Complex64::I / admittances[i - live],
    };
    let alone = |i: usize, j: usize| left[entry(i, j)];
    let together = |i: usize, j: usize| left[entry(i, j)] - 2.0 * besides * across[entry(i, j)];
    let zero = Complex64::ZERO;
    odd.factor(ports, |i, j| alone(i, j) + if i == j { own(i, |ends| ends.odd) } else { zero });
    even.factor(ports, |i, j| together(i, j) + if i == j { own(i, |ends| ends.even) } else { zero });
    // The wave comes through one port; its column drives both halves.
    let incident = usize::from(lattice.incident_along);
    let driven = live + incident;
    right.clear();
    right.extend((0..ports).map(|i| Complex64::new(0.0, -alone(i, driven))));
    odd.solve(right, by_odd);
    right.clear();
    right.extend((0..ports).map(|i| Complex64::new(0.0, -together(i, driven))));
    even.solve(right, by_even);
    right.clear();
    right.extend((0..ports).map(|i| {
        let straight = ends.get(i).map_or(zero, |ends| by_odd[i] * ends.through);
        let whole = |j: usize| if j == driven { by_odd[j] + Complex64::I } else { by_odd[j] };
        straight + (0..ports).map(|j| whole(j) * across[entry(i, j)]).sum::<Complex64>() * besides_scaled
    }));
    even.solve(right, far);
    // Amplitudes of waves of unit power.
    let own = admittances[incident];
    let leaving = |solved: Complex64, y: Complex64| 2.0 * (own.re / y.re).sqrt() * Complex64::I * solved;
    let (mut transmitted, mut reflected) = (0.0, 0.0);
    for (i, &y) in admittances.iter().enumerate().filter(|(_, y)| y.re > 0.0) {
        transmitted += leaving(far[live + i], y).norm_sqr();
        let back = leaving(0.5 * (by_even[live + i] + by_odd[live + i]), y);
        reflected += if i == incident { (back - 1.0).norm_sqr() } else { back.norm_sqr() };
    }
    let amplitude = leaving(far[driven], own);
    if !amplitude.is_finite() {
        return LatticeResponse::unknown();
    }
    LatticeResponse {
        transmission: LogTransmission(amplitude.ln() - least * lattice.length),
        ln_transmitted_power: transmitted.ln() - 2.0 * least * lattice.length,
        reflected_power: reflected,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::Cell;

    fn panels() -> Vec<HoneycombPanel> {
        let cells = [Cell::hexagonal(4.8e-3, 0.3e-3), Cell::square(4.8e-3, 0.3e-3), Cell::round(4.8e-3, 0.3e-3)];
        cells.map(|cell| HoneycombPanel::new(cell.unwrap(), 12e-3, (0.3, 0.3)).unwrap()).to_vec()
    }

    #[test]
    fn power_is_conserved() {
        for panel in panels() {
            let cutoff = panel.cutoff_hz();
            for (angle, azimuth) in [(0.0, 0.0), (70.0, 77.0)] {
                for polarization in [Polarization::Te, Polarization::Tm] {
                    let f = [0.8, 0.99, 1.1, 1.5].map(|ratio| ratio * cutoff);
                    for response in panel.lattice_responses(&f, angle, azimuth, polarization).unwrap() {
                        let sum = response.ln_transmitted_power.exp() + response.reflected_power;
                        assert!((sum - 1.0).abs() < 1e-10, "{angle} {polarization:?} {sum}");
                    }
                }
            }
        }
    }

    #[test]
    fn reversed_waves_pass_alike() {
        for panel in panels() {
            let f = [0.5 * panel.cutoff_hz(), 1.2 * panel.cutoff_hz()];
            let there = panel.lattice_responses(&f, 40.0, 25.0, Polarization::Te).unwrap();
            let back = panel.lattice_responses(&f, 40.0, 205.0, Polarization::Te).unwrap();
            for (a, b) in there.iter().zip(&back) {
                assert!((a.transmission.ln().re - b.transmission.ln().re).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn turning_the_lattice_by_its_symmetry_changes_nothing() {
        // A hexagonal and a drilled panel look alike every 60 degrees, a square one every 90.
        for (panel, period) in panels().into_iter().zip([60.0, 90.0, 60.0]) {
            let f = [0.6 * panel.cutoff_hz(), 1.15 * panel.cutoff_hz()];
            let here = panel.lattice_responses(&f, 50.0, 10.0, Polarization::Tm).unwrap();
            let turned = panel.lattice_responses(&f, 50.0, 10.0 + period, Polarization::Tm).unwrap();
            for (a, b) in here.iter().zip(&turned) {
                let db = 8.686 * (a.transmission.ln().re - b.transmission.ln().re).abs();
                assert!(db < 0.02, "{period} {db}");
            }
        }
    }

    #[test]
    fn a_sweep_is_what_its_points_are() {
        for panel in panels() {
            let f: Vec<_> = (1..=40).map(|i| 0.045 * f64::from(i) * panel.cutoff_hz()).collect();
            for (angle, azimuth) in [(0.0, 0.0), (35.0, 0.0), (50.0, 21.0)] {
                let sweep = panel.lattice_responses(&f, angle, azimuth, Polarization::Tm).unwrap();
                for (&f, swept) in f.iter().zip(&sweep).step_by(7) {
                    let alone = panel.lattice_responses(&[f], angle, azimuth, Polarization::Tm).unwrap()[0];
                    let apart = alone.transmission.ln() - swept.transmission.ln();
                    assert!(apart.re.abs() < 1e-8, "{angle} {f} {apart}");
                    assert!((alone.reflected_power - swept.reflected_power).abs() < 1e-8);
                }
            }
        }
    }

    #[test]
    fn mirror_symmetry_is_no_approximation() {
        // A hair beside a mirror plane nothing can be folded.
        for panel in panels() {
            let f = [0.5, 0.9, 1.3].map(|ratio| ratio * panel.cutoff_hz());
            for azimuth in [0.0, 90.0] {
                for polarization in [Polarization::Te, Polarization::Tm] {
                    let folded = panel.lattice_responses(&f, 40.0, azimuth, polarization).unwrap();
                    let whole = panel.lattice_responses(&f, 40.0, azimuth + 1e-7, polarization).unwrap();
                    for (a, b) in folded.iter().zip(&whole) {
                        assert!((a.transmission.ln().re - b.transmission.ln().re).abs() < 1e-6);
                        assert!((a.ln_transmitted_power - b.ln_transmitted_power).abs() < 1e-6);
                    }
                }
            }
        }
    }
}
