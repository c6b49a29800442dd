//! The unbounded honeycomb by full mode matching: all modes of the cells, all harmonics of the lattice, any direction.
//!
//! With ẽ_p(κ) the transforms of the cells' modes and κ = k_t + G the lattice's harmonics, the free space in front answers with
//!
//! Y_pq = (1/A_c) Σ_G [t_p* t_q k_z/k + m_p* m_q k/k_z],
//!
//! t and m the parts across and along κ. The cells between two alike faces split into an even and an odd half, as in a single
//! tube, and the wave that leaves along harmonic G is (2/A_c) y_0 ẽ(κ)·Z₂₁ ẽ*(k_t).
//!
//! The transforms change smoothly with k along one direction: they are interpolated in it, so that a sweep over many frequencies
//! pays for the Fourier integrals only a dozen times. Every mode has a transform that is real but for a power of −j set by its
//! symmetry, so that the sums over harmonics are real.
//!
//! Power is conserved to rounding whatever the number of modes; what the number decides is how well the edges are resolved.

use std::f64::consts::PI;
use std::sync::LazyLock;

use nalgebra::{DMatrix, DVector};
use num_complex::Complex64;

use super::cell::Cell;
use super::panel::HoneycombPanel;
use crate::constants::wavenumber_per_m;
use crate::decibel::LogTransmission;
use crate::error::{Result, check};
use crate::wave::Polarization;
use crate::waveguide::end::wave_admittance;
use crate::waveguide::guide::Shape;
use crate::waveguide::series::Series;
use crate::waveguide::spectrum::half_space::across_and_along;
use crate::waveguide::spectrum::hexagon_table::TABLE;
use crate::waveguide::spectrum::{Family, Parity, circle, hexagon, rectangle};

/// Harmonics up to this length times the size are summed.
const HARMONICS: f64 = 36.0;
/// Points of the interpolation over frequency at oblique incidence.
const POINTS: usize = 14;

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

/// One mode: its family, its cutoff and the power of −j in its transforms.
#[derive(Debug, Clone, Copy)]
struct Member {
    family: Family,
    cutoff: f64,
    quarter_turns: usize,
}

/// Transforms of all modes at one wave vector: parts across, then parts along, each real.
type Transform = Box<dyn Fn(f64, f64, &mut [f64], &mut [f64]) + Send + Sync>;

/// All modes of a cell, in units of its size.
struct Modes {
    width: f64,
    members: Vec<Member>,
    transform: Transform,
}

fn modes(cell: &Cell) -> &'static Modes {
    static HEXAGON: LazyLock<Modes> = LazyLock::new(hexagon_modes);
    static SQUARE: LazyLock<Modes> = LazyLock::new(square_modes);
    static CIRCLE: LazyLock<Modes> = LazyLock::new(circle_modes);
    match cell.guide().shape() {
        Shape::Hexagon { .. } => &HEXAGON,
        Shape::Rectangle { .. } => &SQUARE,
        Shape::Circle { .. } => &CIRCLE,
    }
}

/// The power of −j that modes of one symmetry of E_x leave out.
fn quarter_turns(ex: Parity) -> usize {
    usize::from(!ex.even_x) + usize::from(!ex.even_y)
}

const PARITIES: [Parity; 4] =
    [Parity::new(true, true), Parity::new(true, false), Parity::new(false, true), Parity::new(false, false)];

fn hexagon_modes() -> Modes {
    const CUTOFF: f64 = 9.0;
    let nodes = hexagon::quadrant_nodes(20);
    let (mut members, mut groups) = (Vec::new(), Vec::new());
    for ex in PARITIES {
        let classes = TABLE.iter().filter(|entry| entry.cutoff < CUTOFF).flat_map(|entry| {
            let all = entry
                .parities
                .iter()
                .map(move |&parity| (hexagon::Class { family: entry.family, parity }, entry.cutoff));
            all.filter(|(class, _)| class.parity.of_ex(class.family) == ex)
        });
        let group: Vec<_> = classes.map(|(class, cutoff)| hexagon::Mode::new(class, cutoff, &nodes)).collect();
        members.extend(group.iter().map(|mode| Member {
            family: mode.class.family,
            cutoff: mode.cutoff,
            quarter_turns: quarter_turns(ex),
        }));
        groups.push((ex, group));
    }
    let transform: Transform = Box::new(move |kx, ky, across, along| {
        let mut start = 0;
        for (ex, group) in &groups {
            let range = start..start + group.len();
            hexagon::transform(group, &nodes, *ex, kx, ky, &mut across[range.clone()], &mut along[range.clone()]);
            across_and_along(*ex, direction(kx, ky), &mut across[range.clone()], &mut along[range]);
            start += group.len();
        }
    });
    Modes { width: 2.0 * hexagon::INRADIUS, members, transform }
}

fn square_modes() -> Modes {
    const CUTOFF: f64 = 5.5 * PI;
    let odd = [(false, false), (false, true), (true, false), (true, true)];
    let groups = odd.map(|odd| (rectangle::ex(odd), rectangle::modes(odd, 1.0, CUTOFF, usize::MAX)));
    let members = groups.iter().flat_map(|(ex, group)| {
        let quarter_turns = quarter_turns(*ex);
        group.iter().map(move |mode| Member { family: mode.family, cutoff: mode.cutoff, quarter_turns })
    });
    let members = members.collect();
    let transform: Transform = Box::new(move |kx, ky, across, along| {
        let mut start = 0;
        for (ex, group) in &groups {
            let range = start..start + group.len();
            rectangle::transform(group, kx, ky, &mut across[range.clone()], &mut along[range.clone()]);
            across_and_along(*ex, direction(kx, ky), &mut across[range.clone()], &mut along[range]);
            start += group.len();
        }
    });
    Modes { width: 1.0, members, transform }
}

fn circle_modes() -> Modes {
    const CUTOFF: f64 = 9.5;
    const ORDERS: usize = 7;
    let orders: Vec<_> = (0..=ORDERS).map(|order| (order, circle::modes(order, CUTOFF))).collect();
    let mut members = Vec::new();
    for (order, list) in &orders {
        // cos mφ and sin mφ; of order zero there is one.
        for _ in 0..if *order == 0 { 1 } else { 2 } {
            // (−j)^(m−1)
            members.extend(list.iter().map(|&(family, cutoff)| Member { family, cutoff, quarter_turns: order + 3 }));
        }
    }
    let transform: Transform = Box::new(move |kx, ky, across, along| {
        let (kappa, angle) = (kx.hypot(ky).max(1e-9), ky.atan2(kx));
        let mut start = 0;
        for (order, list) in &orders {
            let copies = if *order == 0 { 1 } else { 2 };
            for copy in 0..copies {
                let range = start..start + list.len();
                let (t, m) = (&mut across[range.clone()], &mut along[range]);
                circle::radial_parts(*order, list, kappa, t, m);
                let scale = if *order == 0 { (2.0 * PI).sqrt() } else { 2.0 * PI.sqrt() };
                let (s, c) = (*order as f64 * angle).sin_cos();
                // The second copy is the first, turned by a quarter of its period. TM modes of order zero have no angle.
                let (on_t, on_m) = match (*order, copy) {
                    (0, _) => (1.0, 1.0),
                    (_, 0) => (c, s),
                    _ => (s, -c),
                };
                t.iter_mut().for_each(|value| *value *= scale * on_t);
                m.iter_mut().for_each(|value| *value *= scale * on_m);
                start += list.len();
            }
        }
    });
    Modes { width: 2.0, members, transform }
}

/// Unit vector along a wave vector; along x where there is none.
fn direction(kx: f64, ky: f64) -> [f64; 2] {
    let k = kx.hypot(ky);
    if k > 0.0 { [kx / k, ky / k] } else { [1.0, 0.0] }
}

impl HoneycombPanel {
    /// The unbounded panel under a plane wave by full mode matching, at many frequencies (Hz) and one direction.
    ///
    /// `azimuth_deg` turns the plane of incidence from the axis through two corners of a hexagonal cell (through two sides of a
    /// square one). The closed form of [`HoneycombPanel::transmission`] is held to this one by the tests.
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
        let sweep = Sweep::new(self, frequency_hz, sine, [cx, sy]);
        Ok(frequency_hz.iter().map(|&f| sweep.response(self, f, cosine, polarization)).collect())
    }
}

/// What does not depend on the frequency of a sweep.
struct Sweep {
    modes: &'static Modes,
    size_m: f64,
    cell_area: f64,
    /// Reciprocal lattice, the origin first.
    harmonics: Vec<[f64; 2]>,
    /// Transverse wave vector over k.
    slope: [f64; 2],
    /// Parts across and along, harmonic by harmonic and mode by mode, against k; or the only ones.
    parts: Series<f64>,
}

impl Sweep {
    fn new(panel: &HoneycombPanel, frequency_hz: &[f64], sine: f64, [cx, sy]: [f64; 2]) -> Self {
        let cell = panel.cell();
        let modes = modes(cell);
        let size_m = cell.width_m() / modes.width;
        let pitch = cell.pitch_m() / size_m;
        let harmonics = cell.arrangement().harmonics(pitch, HARMONICS);
        let slope = [sine * cx, sine * sy];
        let highest = frequency_hz.iter().copied().fold(0.0, f64::max);
        let limit = wavenumber_per_m(highest) * size_m;
        let count = modes.members.len();
        let at = |k: f64| {
            let mut all = vec![0.0; 2 * harmonics.len() * count];
            for ([gx, gy], both) in harmonics.iter().zip(all.chunks_mut(2 * count)) {
                let (across, along) = both.split_at_mut(count);
                // At the origin itself the direction of the wave decides what is across.
                let (kx, ky) = (gx + k * slope[0] + 1e-9 * cx, gy + k * slope[1] + 1e-9 * sy);
                (modes.transform)(kx, ky, across, along);
            }
            all
        };
        let width = 2 * harmonics.len() * count;
        let points = if sine == 0.0 { 1 } else { POINTS };
        let parts = Series::fit(limit, points, width, at);
        Self { modes, size_m, cell_area: cell.cell_area_m2() / (size_m * size_m), harmonics, slope, parts }
    }

    fn response(
        &self,
        panel: &HoneycombPanel,
        frequency_hz: f64,
        cosine: f64,
        polarization: Polarization,
    ) -> LatticeResponse {
        let k = wavenumber_per_m(frequency_hz) * self.size_m;
        let members = &self.modes.members;
        let count = members.len();
        let parts = self.parts.all(k);
        // Real sums: over harmonics that travel, and over those that are stored.
        let (mut travelling, mut stored) = (vec![0.0; count * count], vec![0.0; count * count]);
        let mut open = Vec::new();
        for (index, ([gx, gy], both)) in self.harmonics.iter().zip(parts.chunks(2 * count)).enumerate() {
            let (across, along) = both.split_at(count);
            let (kx, ky) = (gx + k * self.slope[0], gy + k * self.slope[1]);
            let square = if index == 0 { k * k * cosine * cosine } else { k * k - kx * kx - ky * ky };
            // On the edge of a grating lobe one of the two parts would be infinite.
            let kz = square.abs().sqrt().max(1e-7 * k);
            let (te, tm, sum) = if square >= 0.0 {
                open.push((index, kz));
                (kz / k, k / kz, &mut travelling)
            } else {
                (-kz / k, k / kz, &mut stored)
            };
            let (te, tm) = (te / self.cell_area, tm / self.cell_area);
            for p in 0..count {
                let (t, m) = (te * across[p], tm * along[p]);
                for ((slot, a), b) in sum[p * count + p..(p + 1) * count].iter_mut().zip(&across[p..]).zip(&along[p..])
                {
                    *slot += t * a + m * b;
                }
            }
        }
        let admittance = DMatrix::from_fn(count, count, |p, q| {
            let (low, high) = (p.min(q), p.max(q));
            let value = Complex64::new(travelling[low * count + high], stored[low * count + high]);
            value * turn(members[q].quarter_turns + 3 * members[p].quarter_turns)
        });
        let length = panel.depth_m() / self.size_m;
        let empty = Complex64::ONE;
        let guide = panel.cell().guide();
        let (mut even, mut odd) = (admittance.clone(), admittance);
        let mut through = DVector::zeros(count);
        let gammas: Vec<_> = members
            .iter()
            .map(|mode| guide.propagation_at_cutoff(mode.cutoff / self.size_m, frequency_hz) * self.size_m)
            .collect();
        let least = gammas.iter().map(|gamma| gamma.re).fold(f64::INFINITY, f64::min);
        for (i, (mode, &gamma)) in members.iter().zip(&gammas).enumerate() {
            let y0 = wave_admittance(mode.family, gamma, k, empty);
            let once = (-gamma * length).exp();
            even[(i, i)] += y0 * (1.0 - once) / (1.0 + once);
            odd[(i, i)] += y0 * (1.0 + once) / (1.0 - once);
            through[i] = y0 * 2.0 * (-(gamma - least) * length).exp() / (1.0 - once * once);
        }
        let vector = |index: usize, te: bool| {
            let both = &parts[2 * count * index..2 * count * (index + 1)];
            let part = if te { &both[..count] } else { &both[count..] };
            DVector::from_iterator(
                count,
                part.iter().zip(members).map(|(&value, mode)| value * turn(mode.quarter_turns)),
            )
        };
        let is_te = polarization == Polarization::Te;
        let incident = vector(0, is_te);
        let own = if is_te { cosine } else { 1.0 / cosine };
        let drive = incident.map(|value| value.conj()) * Complex64::new(2.0 * own, 0.0);
        let nothing = LatticeResponse {
            transmission: LogTransmission(Complex64::new(f64::NAN, 0.0)),
            ln_transmitted_power: f64::NAN,
            reflected_power: f64::NAN,
        };
        let even = even.lu();
        let (Some(by_odd), Some(by_even)) = (odd.lu().solve(&drive), even.solve(&drive)) else { return nothing };
        let Some(far) = even.solve(&by_odd.component_mul(&through)) else { return nothing };
        let near = (by_even + by_odd) * Complex64::new(0.5, 0.0);
        let (mut transmitted, mut reflected) = (0.0, 0.0);
        for &(index, kz) in &open {
            for te in [true, false] {
                let leaving = vector(index, te);
                let y = if index == 0 {
                    if te { cosine } else { 1.0 / cosine }
                } else if te {
                    kz / k
                } else {
                    k / kz
                };
                transmitted += y * (leaving.dot(&far) / self.cell_area).norm_sqr();
                let back = leaving.dot(&near) / self.cell_area - if index == 0 && te == is_te { 1.0 } else { 0.0 };
                reflected += y * back.norm_sqr();
            }
        }
        let amplitude = incident.dot(&far) / self.cell_area;
        LatticeResponse {
            transmission: LogTransmission(amplitude.ln() - least * length),
            ln_transmitted_power: (transmitted / own).ln() - 2.0 * least * length,
            reflected_power: reflected / own,
        }
    }
}

/// (−j) to a power.
fn turn(power: usize) -> Complex64 {
    match power % 4 {
        0 => Complex64::new(1.0, 0.0),
        1 => Complex64::new(0.0, -1.0),
        2 => Complex64::new(-1.0, 0.0),
        _ => Complex64::new(0.0, 1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
    fn the_closed_form_follows() {
        // Angle, up to which part of the cutoff, and how far apart in dB: the closed form knows nothing of the grating lobe that
        // comes near at oblique incidence, and then promises too much.
        for (angle, highest, within_db) in [(0.0, 0.97, 0.6), (30.0, 0.8, 0.6), (60.0, 0.6, 1.5)] {
            for panel in panels() {
                let f: Vec<_> = [0.01, 0.3, 0.6, 0.8, 0.97]
                    .into_iter()
                    .filter(|&ratio| ratio <= highest)
                    .map(|ratio| ratio * panel.cutoff_hz())
                    .collect();
                for polarization in [Polarization::Te, Polarization::Tm] {
                    let full = panel.lattice_responses(&f, angle, 15.0, polarization).unwrap();
                    for (&f, full) in f.iter().zip(&full) {
                        let fast = panel.transmission(f, angle, polarization).unwrap();
                        let apart = fast.shielding_db() - full.transmission.shielding_db();
                        assert!(apart.abs() < within_db, "{:?} {angle} {f} {apart}", panel.cell());
                    }
                }
            }
        }
    }
}
