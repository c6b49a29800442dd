//! What is left of a face once everything that only stores energy has been eliminated.
//!
//! Modes far below their cutoff and harmonics far from travelling change slowly with the frequency. They are eliminated from the
//! equations of the even and of the odd half of a panel, and leave two real symmetric matrices between the *ports*: the modes
//! near or above cutoff, and the harmonics that travel or might. Both are smooth in k, so that a sweep computes them at a dozen
//! frequencies and interpolates.
//!
//! With TE fields scaled by √k and TM fields by 1/√k, lengths in units of the size, A_c the cell's area and κ = |G + k_t|,
//!
//! S = (1/A_c) Σ (−√(κ²−k²) t tᵀ + m mᵀ/√(κ²−k²)),
//!
//! to which a mode adds its own ends between the faces: −γ tanh(γL/2) (TE, even), −γ coth(γL/2) (TE, odd), and the same over
//! −γ² for TM. Half the difference of odd and even, −γ/sinh γL (TE) and 1/(γ sinh γL) (TM), is what reaches the far face; it is
//! carried by itself, times its decay, so that hundreds of dB keep their digits.
//!
//! **Edges.** At the rims of thin walls fields grow as r^(−½), at right corners as r^(−⅓), and mode matching converges only as
//! c^(−1) or c^(−4/3) in the highest cutoff c, with harmonics up to 2c. Two bases are therefore reduced, and their ports
//! extrapolated to c → ∞. Energy balance and reciprocity rest on the ports' symmetry and hold whatever the basis.

use nalgebra::{DMatrix, DVector};

use super::basis::{Basis, Mirrors, size_m_and_limit};
use super::cell::Cell;
use super::elimination::eliminated;
use crate::wave::Polarization;
use crate::waveguide::spectrum::ModeFamily;

/// Harmonics are summed up to this many times the highest cutoff.
const HARMONICS_OVER_CUTOFF: f64 = 2.0;
/// Modes with cutoffs up to this many times the highest wavenumber are ports …
const LIVE_MODES: f64 = 1.35;
/// … and so are harmonics that travel below this many times it.
const LIVE_HARMONICS: f64 = 1.6;
/// Squared propagation constants nearer to zero than this are moved away from it, where the ends of a mode divide by it.
const LEAST_SQUARE: f64 = 1e-14;

/// The ends of one mode between the two faces; what goes through is given times exp(`shift`·L).
#[derive(Debug, Clone, Copy)]
pub(super) struct Ends {
    pub(super) even: f64,
    pub(super) odd: f64,
    pub(super) through: f64,
}

impl Ends {
    pub(super) fn new(family: ModeFamily, cutoff: f64, k: f64, length: f64, shift: f64) -> Self {
        let square = (cutoff - k) * (cutoff + k);
        let gamma = square.abs().max(LEAST_SQUARE * cutoff * cutoff).sqrt();
        let x = gamma * length;
        if square >= 0.0 {
            let once = (-x).exp();
            let tanh = -(-x).exp_m1() / (1.0 + once);
            let over_sinh = 2.0 * (shift * length - x).exp() / (-(-2.0 * x).exp_m1());
            match family {
                ModeFamily::Te => Self { even: -gamma * tanh, odd: -gamma / tanh, through: -gamma * over_sinh },
                _ => Self { even: tanh / gamma, odd: 1.0 / (gamma * tanh), through: over_sinh / gamma },
            }
        } else {
            // At a whole number of half waves one of them is infinite; it is left a little beside it.
            let away = |value: f64| if value.abs() < 1e-13 { 1e-13 } else { value };
            let (sine, cosine) = (0.5 * x).sin_cos();
            let (sine, cosine) = (away(sine), away(cosine));
            let (tan, over_sin) = (sine / cosine, 0.5 * (shift * length).exp() / (sine * cosine));
            match family {
                ModeFamily::Te => Self { even: gamma * tan, odd: -gamma / tan, through: -gamma * over_sin },
                _ => Self { even: tan / gamma, odd: -1.0 / (gamma * tan), through: -over_sin / gamma },
            }
        }
    }
}

/// A panel under waves of one direction, up to a highest wavenumber.
pub(super) struct Lattice {
    pub(super) basis: Basis,
    /// Whether the wave's field lies along its plane of incidence (TM): it then comes through the second port of the first harmonic.
    pub(super) incident_along: bool,
    /// Depth in units of the size.
    pub(super) length: f64,
    pub(super) cell_area: f64,
    /// Modes that are ports: the lowest ones.
    pub(super) live_modes: usize,
    /// Harmonics that are ports: the first ones, the wave itself at their head.
    pub(super) live_harmonics: usize,
    /// Reciprocal lattice: ports, then those of the coarse basis, then the rest. Of harmonics that mirror one another one stands
    /// for all; the third number is the root of how many.
    pub(super) harmonics: Vec<[f64; 3]>,
    pub(super) coarse_harmonics: usize,
    pub(super) coarse_modes: usize,
    /// Share of the step from the coarse to the fine basis that is added to the fine one.
    pub(super) beyond: f64,
    pub(super) slope: [f64; 2],
    azimuth: [f64; 2],
    /// Transforms, which do not depend on the frequency under normal incidence.
    fixed: Option<DMatrix<f64>>,
}

impl Lattice {
    /// `azimuth` is the unit vector of the plane of incidence, `highest` the highest wavenumber in units of 1/size; 0 makes
    /// ports of the dominant pair and of the wave itself alone.
    pub(super) fn new(
        cell: &Cell,
        depth_m: f64,
        sine: f64,
        azimuth: [f64; 2],
        polarization: Polarization,
        highest: f64,
    ) -> Self {
        let (size_m, _) = size_m_and_limit(cell);
        // Along the normal all azimuths and both polarizations are alike, by the lattice's own turns.
        let (azimuth, polarization) =
            if sine == 0.0 { ([1.0, 0.0], Polarization::Te) } else { (azimuth, polarization) };
        let is_te = polarization == Polarization::Te;
        // A wave in a mirror plane excites what is symmetric about it. E_x is even about the plane's own axis where E lies in it.
        let flat = |part: f64| part.abs() < 1e-12;
        let about_x = if sine == 0.0 { Some(false) } else { flat(azimuth[0]).then_some(is_te) };
        let about_y = flat(azimuth[1]).then_some(!is_te);
        let basis = Basis::new(cell, Mirrors { about_x, about_y });
        let pitch = cell.pitch_m() / size_m;
        let slope = [(azimuth[0], about_x), (azimuth[1], about_y)]
            .map(|(part, mirror)| if mirror.is_some() && flat(part) { 0.0 } else { sine * part });
        let live = |&[gx, gy, _]: &[f64; 3]| {
            // Travels from the wavenumber where |G + k_t| = k, written without the difference that cancels.
            let (square, along) = (gx * gx + gy * gy, gx * slope[0] + gy * slope[1]);
            let denominator = (along * along + square * (1.0 - sine * sine)).sqrt() - along;
            square < LIVE_HARMONICS * highest * denominator || square == 0.0
        };
        let limit = HARMONICS_OVER_CUTOFF * basis.limit;
        let coarse = HARMONICS_OVER_CUTOFF * basis.coarse_limit;
        let tiny = 1e-9 / pitch;
        let all = cell.arrangement().harmonics(pitch, limit).into_iter().filter_map(|[gx, gy]| {
            let fold = |part: f64, mirror: Option<bool>| match mirror {
                Some(_) if part < -tiny => None,
                Some(_) if part > tiny => Some(2.0),
                _ => Some(1.0),
            };
            let alike: f64 = fold(gx, about_x)? * fold(gy, about_y)?;
            Some([gx, gy, alike.sqrt()])
        });
        let (mut harmonics, stored): (Vec<_>, Vec<_>) = all.partition(live);
        let live_harmonics = harmonics.len();
        // They come by rising length.
        let coarse_harmonics = stored.partition_point(|[gx, gy, _]| gx.hypot(*gy) <= coarse);
        harmonics.extend(stored);
        let live_modes =
            basis.count_below(LIVE_MODES * highest).max(basis.count_below(1.001 * basis.members[0].cutoff));
        let coarse_modes = basis.count_below(basis.coarse_limit);
        // From thin rims to right corners, as the walls grow thick against what the basis resolves.
        let resolved = basis.limit * cell.wall_m() / size_m;
        let order = 1.0 + resolved / (3.0 * (1.0 + resolved));
        let extrapolate = live_modes < coarse_modes;
        let beyond = if extrapolate { 1.0 / ((basis.limit / basis.coarse_limit).powf(order) - 1.0) } else { 0.0 };
        let mut lattice = Self {
            basis,
            incident_along: !is_te,
            length: depth_m / size_m,
            cell_area: cell.cell_area_m2() / (size_m * size_m),
            live_modes,
            live_harmonics,
            harmonics,
            coarse_harmonics,
            coarse_modes,
            beyond,
            slope,
            azimuth,
            fixed: None,
        };
        if lattice.slope == [0.0; 2] {
            lattice.fixed = Some(lattice.transforms(0.0));
        }
        lattice
    }

    pub(super) fn ports(&self) -> usize {
        self.live_modes + 2 * self.live_harmonics
    }

    /// |k_z|², negative where the harmonic does not travel.
    pub(super) fn vertical_squared(&self, index: usize, k: f64, cosine: f64) -> f64 {
        if index == 0 {
            return k * k * cosine * cosine;
        }
        let [gx, gy, _] = self.harmonics[index];
        let kappa = (gx + k * self.slope[0]).hypot(gy + k * self.slope[1]);
        (k - kappa) * (k + kappa)
    }

    /// Entries of the lower triangles of both matrices between the ports.
    pub(super) fn entries(&self) -> usize {
        self.ports() * (self.ports() + 1)
    }

    /// What is added to one part of a wave vector: along the normal the wave itself has none across, and its azimuth decides what
    /// is across.
    pub(super) fn aside(&self, axis: usize) -> f64 {
        if self.slope == [0.0; 2] { 1e-9 * self.azimuth[axis] } else { 0.0 }
    }

    /// Whether the transforms are the same at all frequencies: under normal incidence.
    pub(super) fn is_fixed(&self) -> bool {
        self.fixed.is_some()
    }

    /// Columns of parts across and parts along for each harmonic by turns.
    pub(super) fn transforms(&self, k: f64) -> DMatrix<f64> {
        let count = self.basis.members.len();
        let mut all = DMatrix::zeros(count, 2 * self.harmonics.len());
        for ([gx, gy, share], both) in self.harmonics.iter().zip(all.as_mut_slice().chunks_mut(2 * count)) {
            let (across, along) = both.split_at_mut(count);
            let along_axis = |g: f64, axis: usize| g + k * self.slope[axis] + self.aside(axis);
            self.basis.transform(along_axis(*gx, 0), along_axis(*gy, 1), across, along);
            both.iter_mut().for_each(|value| *value *= share);
        }
        all
    }

    /// The two symmetric matrices between the ports at several wavenumbers: of the odd half, and of what goes through besides the
    /// ports, times exp(γL) of the first stored mode. Lower triangles row by row; for each entry all wavenumbers.
    pub(super) fn reduced(&self, wavenumbers: &[f64]) -> Vec<f64> {
        let mut all = eliminated(self, wavenumbers);
        let count = wavenumbers.len();
        for (place, &k) in wavenumbers.iter().enumerate() {
            // Where the order of the pivots was not sound one entry after another is not a number.
            if all.iter().skip(place).step_by(count).any(|value| value.is_nan()) {
                for (slot, value) in all.iter_mut().skip(place).step_by(count).zip(self.reduced_at(k)) {
                    *slot = value;
                }
            }
        }
        all
    }

    /// The same at one wavenumber, with a search for pivots.
    pub(super) fn reduced_at(&self, k: f64) -> Vec<f64> {
        let mut columns = self.fixed.clone().unwrap_or_else(|| self.transforms(k));
        let count = self.basis.members.len();
        // In the scale of the module's documentation: TE modes have k m, TM modes have no part across.
        let on_along: Vec<f64> =
            self.basis.members.iter().map(|mode| if mode.family == ModeFamily::Te { k } else { 1.0 }).collect();
        for along in columns.as_mut_slice().chunks_mut(count).skip(1).step_by(2) {
            along.iter_mut().zip(&on_along).for_each(|(value, scale)| *value *= scale);
        }
        let fine = self.eliminated(&columns, k, count, self.harmonics.len() - self.live_harmonics);
        if self.beyond == 0.0 {
            return fine;
        }
        let coarse = self.eliminated(&columns, k, self.coarse_modes, self.coarse_harmonics);
        fine.into_iter().zip(coarse).map(|(fine, coarse)| fine + self.beyond * (fine - coarse)).collect()
    }

    /// Decay of the mode at one place, none above its cutoff.
    pub(super) fn decay(&self, place: usize, k: f64) -> f64 {
        let cutoff = self.basis.members.get(place).map_or(self.basis.limit, |member| member.cutoff);
        ((cutoff - k) * (cutoff + k)).max(0.0).sqrt()
    }

    /// Runs out all but the ports of the first `modes` modes and `harmonics` more harmonics.
    fn eliminated(&self, columns: &DMatrix<f64>, k: f64, modes: usize, harmonics: usize) -> Vec<f64> {
        let (live, open) = (self.live_modes, 2 * self.live_harmonics);
        let stored = columns.view((0, open), (modes, 2 * harmonics));
        let mut weighted = stored.into_owned();
        for (offset, both) in weighted.as_mut_slice().chunks_mut(2 * modes).enumerate() {
            let kz = (-self.vertical_squared(self.live_harmonics + offset, k, 1.0)).max(1e-14 * k * k).sqrt();
            let (across, along) = both.split_at_mut(modes);
            across.iter_mut().for_each(|value| *value *= -kz / self.cell_area);
            along.iter_mut().for_each(|value| *value /= kz * self.cell_area);
        }
        let sum = weighted * stored.transpose();
        let parts = columns.view((0, 0), (modes, open));
        // Between the stored modes, between them and the ports, and between the ports.
        let stored = sum.view((live, live), (modes - live, modes - live)).into_owned();
        let mut to_ports = DMatrix::zeros(modes - live, live + open);
        to_ports.columns_mut(0, live).copy_from(&sum.view((live, 0), (modes - live, live)));
        to_ports.columns_mut(live, open).copy_from(&parts.rows(live, modes - live));
        let mut own = DMatrix::zeros(live + open, live + open);
        own.view_mut((0, 0), (live, live)).copy_from(&sum.view((0, 0), (live, live)));
        own.view_mut((0, live), (live, open)).copy_from(&parts.rows(0, live));
        own.view_mut((live, 0), (open, live)).copy_from(&parts.rows(0, live).transpose());
        let shift = self.decay(live, k);
        let ends = self.basis.members[live..modes]
            .iter()
            .map(|mode| Ends::new(mode.family, mode.cutoff, k, self.length, shift))
            .collect::<Vec<_>>();
        let through = DMatrix::from_diagonal(&DVector::from_iterator(ends.len(), ends.iter().map(|ends| ends.through)));
        let mut even = stored.clone();
        let mut odd = stored;
        for (i, ends) in ends.iter().enumerate() {
            even[(i, i)] += ends.even;
            odd[(i, i)] += ends.odd;
        }
        let (by_odd, by_even) = (solved(odd, &to_ports), solved(even, &to_ports));
        let left = own - to_ports.transpose() * &by_odd;
        let across = by_even.transpose() * through * by_odd;
        let lower = |matrix: &DMatrix<f64>| {
            (0..live + open).flat_map(|i| (0..=i).map(|j| matrix[(i, j)]).collect::<Vec<_>>()).collect::<Vec<_>>()
        };
        [lower(&left), lower(&across)].concat()
    }
}

/// Solution of a linear system; not a number where there is none.
fn solved(matrix: DMatrix<f64>, right: &DMatrix<f64>) -> DMatrix<f64> {
    if matrix.is_empty() {
        return DMatrix::zeros(0, right.ncols());
    }
    matrix.lu().solve(right).unwrap_or_else(|| DMatrix::from_element(right.nrows(), right.ncols(), f64::NAN))
}
