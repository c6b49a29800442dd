//! The box as a whole.

use std::sync::{Arc, OnceLock};

use nalgebra::{DMatrix, DVector};
use num_complex::Complex64;

use super::arrival::BoxWave;
use super::exterior::Link;
use super::interior::{Modes, lower_pairs};
use super::lanes::{Block, Column, OutsideSums, PointModes};
use super::mode::Loss;
use super::mouth_field::MouthField;
use super::opening::{BoxOpening, TM_END};
use crate::complex_functions::{decaying_root, exp_m1};
use crate::constants::{SPEED_OF_LIGHT, wavelength_m, wavenumber_per_m};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::lanes::{in_parts, paired};
use crate::material::{Material, catalogue};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::recent::Recent;
use crate::validity::Validity;

/// A rectangular box with slots and holes in its front wall, under a plane wave ([`BoxWave`]).
///
/// x runs along the width of the front, y along its height, z from it into the depth; the origin is a corner of
/// the front wall inside. The front is whichever wall has the openings: for a slot in the top of a box, give the box
/// with its top as the front, and points and waves turned with it. Openings in two walls at once are not
/// offered. The front is taken as part of an endless plane: for a real box whose front is small against the
/// wavelength the field on it is that of the whole body, some decibels away.
///
/// ```
/// use stillroom::cavity::{BenchBox, BoxAxis, BoxOpening};
/// // The box of Robinson et al. (1998): the field at its middle is above the incident one at resonance.
/// let slot = BoxOpening::rectangle([0.15, 0.06], [0.1, 5e-3])?;
/// let bench = BenchBox::new([0.3, 0.12, 0.3], vec![slot])?.with_wall_thickness(1.5e-3)?;
/// let middle = bench.probe([0.15, 0.06, 0.15], BoxAxis::Y)?;
/// assert!(middle.field(400e6).electric_shielding_db() > 30.0);
/// let resonance = bench.resonance_hz([1, 0, 1]);
/// let least = (0..60).map(|i| middle.field(resonance * (0.98 + 5e-4 * f64::from(i))).electric_shielding_db());
/// assert!(least.fold(f64::INFINITY, f64::min) < 0.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct BenchBox {
    interior_m: [f64; 3],
    openings: Vec<BoxOpening>,
    wall_thickness_m: f64,
    walls: Material,
    contents_quality: Option<f64>,
    prepared: Prepared,
}

/// What every frequency shares, computed when it is first asked for; it follows from interior and openings.
#[derive(Debug, Clone, Default)]
struct Prepared(OnceLock<Arc<Solver>>);

impl PartialEq for Prepared {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

#[derive(Debug)]
struct Solver {
    modes: Modes,
    /// In front of the wall, in the order of [`lower_pairs`].
    links: Vec<Link>,
    outside: OutsideSums,
}

impl BenchBox {
    /// A box by its inner width, height and depth (m) and the openings in its front: walls of aluminium, with no
    /// thickness as far as the openings are concerned, nothing in it.
    ///
    /// # Errors
    /// Unless all sizes are positive and finite, from 1 mm to 100 m and within 100 : 1 of each other; for no
    /// openings, for openings that reach beyond the front, and for such that overlap, with their numbers.
    pub fn new(interior_m: [f64; 3], openings: Vec<BoxOpening>) -> Result<Self> {
        check::all_positive("interior_m", "m", &interior_m)?;
        check::all("interior_m", "m", &interior_m, "from 1 mm to 100 m", |side| (1e-3..=100.0).contains(&side))?;
        let (least, most) = interior_m.iter().fold((f64::INFINITY, 0.0), |(l, m), &s| (f64::min(l, s), f64::max(m, s)));
        check::at_most("longest of interior_m", "m", most, "100 times the shortest", 100.0 * least)?;
        check::not_empty("openings", &openings)?;
        let name = |number: usize| format!("openings.{number}");
        for (number, opening) in openings.iter().enumerate() {
            let front = [interior_m[0], interior_m[1]];
            opening.check_inside(front).map_err(|error| error.within(&name(number)))?;
            for (before, other) in openings[..number].iter().enumerate() {
                other.check_apart(opening, [&name(before), &name(number)])?;
            }
        }
        let walls = catalogue::get("aluminium")?;
        let prepared = Prepared::default();
        Ok(Self { interior_m, openings, wall_thickness_m: 0.0, walls, contents_quality: None, prepared })
    }

    /// The same box with walls of this thickness, m.
    ///
    /// # Errors
    /// Unless zero or positive and finite, at most the shortest side.
    pub fn with_wall_thickness(mut self, wall_thickness_m: f64) -> Result<Self> {
        let shortest = self.interior_m.into_iter().fold(f64::INFINITY, f64::min);
        check::non_negative("wall_thickness_m", "m", wall_thickness_m)?;
        self.wall_thickness_m =
            check::at_most("wall_thickness_m", "m", wall_thickness_m, "shortest of interior_m", shortest)? + 0.0;
        Ok(self)
    }

    /// The same box with walls of another material.
    #[must_use]
    pub fn with_walls(mut self, walls: Material) -> Self {
        self.walls = walls;
        self
    }

    /// The same box with something in it that alone would give every mode this quality factor; `None` for an empty
    /// box.
    ///
    /// # Errors
    /// Unless at least 0.5 and finite.
    pub fn with_contents_quality(mut self, quality: Option<f64>) -> Result<Self> {
        if let Some(quality) = quality {
            check::within("contents_quality_factor", "", quality, (0.5, f64::MAX), "0.5 or more, and finite")?;
        }
        self.contents_quality = quality;
        Ok(self)
    }

    /// Inner width, height and depth, m.
    #[must_use]
    pub fn interior_m(&self) -> [f64; 3] {
        self.interior_m
    }

    /// Openings in the front.
    #[must_use]
    pub fn openings(&self) -> &[BoxOpening] {
        &self.openings
    }

    /// Thickness of the front wall, m.
    #[must_use]
    pub fn wall_thickness_m(&self) -> f64 {
        self.wall_thickness_m
    }

    /// Material of the walls.
    #[must_use]
    pub fn walls(&self) -> &Material {
        &self.walls
    }

    /// Quality factor of what is in the box.
    #[must_use]
    pub fn contents_quality(&self) -> Option<f64> {
        self.contents_quality
    }

    /// Resonance of the closed box without loss, by the half-waves along width, height and depth, Hz.
    #[must_use]
    pub fn resonance_hz(&self, half_waves: [usize; 3]) -> f64 {
        let part = |axis: usize| (half_waves[axis] as f64 / self.interior_m[axis]).powi(2);
        0.5 * SPEED_OF_LIGHT * (part(0) + part(1) + part(2)).sqrt()
    }

    /// Looks at a point inside, under a wave: that of an axis alone falls straight on the front with its electric
    /// field along the axis.
    ///
    /// # Errors
    /// Unless the point is within the box, walls included.
    pub fn probe(&self, at_m: [f64; 3], wave: impl Into<BoxWave>) -> Result<Probe<'_>> {
        for (axis, (&place, &size)) in at_m.iter().zip(&self.interior_m).enumerate() {
            let name = ["at_m[0]", "at_m[1]", "at_m[2]"][axis];
            check::non_negative(name, "m", place)?;
            check::at_most(name, "m", place, ["interior_m[0]", "interior_m[1]", "interior_m[2]"][axis], size)?;
        }
        Ok(Probe { bench: self, at_m, wave: wave.into() })
    }

    /// Where it holds; beyond it further modes of the openings and of the box take part.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let (wavelength_m, k) = (wavelength_m(frequency_hz), wavenumber_per_m(frequency_hz));
        let sizes = self.openings.iter().map(BoxOpening::size_m);
        let longest = sizes.clone().map(|[x, y]| x.max(y)).fold(0.0, f64::max);
        let widest = sizes.map(|[x, y]| x.min(y)).fold(0.0, f64::max);
        let limit = |quantity: &'static str, value: f64, most: f64, consequence: &'static str| {
            Validity::within("box with openings", quantity, "", value, (0.0, most), consequence)
        };
        limit("opening length / wavelength", longest / wavelength_m, 1.0, "more half-waves fit along the opening")
            .and(limit("opening width / wavelength", widest / wavelength_m, 0.25, "the field across it is not even"))
            .and(limit(
                "wavenumber / that of the modes taken",
                k / self.solver().modes.reach_per_m(),
                1.0,
                "too few modes",
            ))
            .and(self.walls.validity(frequency_hz))
    }

    fn solver(&self) -> &Solver {
        static SOLVERS: Recent<([f64; 3], Vec<BoxOpening>), Solver> = Recent::new(8);
        let make = || {
            let each = self.openings.iter().enumerate();
            let carried: Vec<MouthField> = each.flat_map(|(number, opening)| opening.carried(number)).collect();
            let links = lower_pairs(carried.len()).map(|(i, j)| Link::new(&carried[i], &carried[j]));
            let links: Vec<Link> = links.collect();
            Solver { outside: OutsideSums::new(&links), links, modes: Modes::new(self.interior_m, carried) }
        };
        self.prepared.0.get_or_init(|| SOLVERS.get_or_make((self.interior_m, self.openings.clone()), make))
    }

    fn loss(&self, frequency_hz: f64) -> Loss {
        let medium = self.walls.medium(frequency_hz);
        let walls = decaying_root(medium.relative_permeability / medium.relative_permittivity);
        Loss { walls, contents: self.contents_quality.map_or(0.0, |quality| 1.0 / quality) }
    }

    /// What the inner mouths carry for an incident field of 1 V/m, by the admittances on either side, pairs in the order
    /// of [`lower_pairs`]: how deep the least weakened still has to fall (nepers), and amplitudes beyond that.
    fn passed(
        &self,
        k: f64,
        wave: BoxWave,
        outside: impl Fn(usize) -> Complex64,
        inside: impl Fn(usize) -> Complex64,
    ) -> (f64, Vec<Complex64>) {
        let carried = self.solver().modes.carried();
        let count = carried.len();
        let zero = Complex64::new(0.0, 0.0);
        let (mut before, mut outer) =
            (DMatrix::from_element(count, count, zero), DMatrix::from_element(count, count, zero));
        for (pair, (i, j)) in lower_pairs(count).enumerate() {
            (before[(i, j)], outer[(i, j)]) = (outside(pair), inside(pair));
            (before[(j, i)], outer[(j, i)]) = (before[(i, j)], outer[(i, j)]);
        }
        let mut current = outer.clone();
        let depths: Vec<Depth> = carried.iter().map(|one| Depth::new(one, k, self.wall_thickness_m)).collect();
        // V = A V′ + B Y′V′ at the outer mouth and I = C V′ + D Y′V′; both share a factor that is taken out.
        for (row, depth) in depths.iter().enumerate() {
            outer.row_mut(row).iter_mut().for_each(|y| *y *= depth.series);
            current.row_mut(row).iter_mut().for_each(|y| *y *= depth.cosh);
            outer[(row, row)] += depth.cosh;
            current[(row, row)] += depth.shunt;
        }
        let whole = before * outer + current;
        let source = DVector::from_iterator(count, carried.iter().map(|one| one.driven(k, wave)));
        let solved = whole.lu().solve(&source).unwrap_or_else(|| DVector::from_element(count, zero));
        // What all of them lose in the depth of the wall is taken out: it may be thousands of decibels.
        let driven = solved.iter().zip(&depths).filter(|(value, _)| **value != zero);
        let least = driven.map(|(_, depth)| depth.fall.re).fold(f64::INFINITY, f64::min);
        let least = if least.is_finite() { least } else { 0.0 };
        let amplitude = |((value, depth), one): ((&Complex64, &Depth), &MouthField)| {
            let over = if one.order() == 0 { 1.0 / k } else { 1.0 };
            value * (least - depth.fall).exp() * over
        };
        (least, solved.iter().zip(&depths).zip(carried).map(amplitude).collect())
    }
}

/// The depth of the wall for what an opening carries: its chain matrix over cosh-like size, with exp(−γt) taken out.
struct Depth {
    cosh: Complex64,
    /// B.
    series: Complex64,
    /// C.
    shunt: Complex64,
    /// γt.
    fall: Complex64,
}

impl Depth {
    fn new(carried: &MouthField, k: f64, thickness_m: f64) -> Self {
        let cutoff_per_m = match carried {
            MouthField::Voltage(voltage) => voltage.cutoff_per_m,
            MouthField::Potential(potential) => potential.cutoff_per_m,
        };
        let gamma = decaying_root(Complex64::new((cutoff_per_m - k) * (cutoff_per_m + k), 0.0));
        let fall = exp_m1(-2.0 * gamma * thickness_m);
        let (cosh, sinh) = (0.5 * (fall + 2.0), -0.5 * fall);
        let over_gamma =
            if gamma.norm() * thickness_m < 1e-30 { Complex64::new(thickness_m, 0.0) } else { sinh / gamma };
        let (series, shunt) = match carried {
            // A guide in its magnetic modes: jωμ₀ Y grows with γ.
            MouthField::Voltage(voltage) => {
                let section = match voltage.end_correction {
                    Some(ratio) => cutoff_per_m * ratio / voltage.slit.voltage_admittance(voltage.mode, 0.0).re,
                    None => 2.0 * voltage.width_m / voltage.length_m,
                };
                (over_gamma * section, gamma * sinh / section)
            }
            // In its electric ones jωμ₀ Y is −k²/γ.
            MouthField::Potential(potential) => {
                let section = -potential.static_mouth() / TM_END * cutoff_per_m;
                (gamma * sinh / section, over_gamma * section)
            }
        };
        Self { cosh, series, shunt, fall: gamma * thickness_m }
    }
}

/// A point in a box under a wave.
#[derive(Debug, Clone, Copy)]
pub struct Probe<'a> {
    bench: &'a BenchBox,
    at_m: [f64; 3],
    wave: BoxWave,
}

impl Probe<'_> {
    /// The field there, relative to the incident one.
    #[must_use]
    pub fn field(&self, frequency_hz: f64) -> InsideField {
        let (loss, k) = (self.bench.loss(frequency_hz), wavenumber_within(frequency_hz));
        let Solver { modes, links, .. } = self.bench.solver();
        let inside = modes.admittances(k, loss);
        let (least, amplitudes) = self.bench.passed(k, self.wave, |pair| links[pair].at(k), |pair| inside[pair]);
        let (electric, magnetic) = modes.fields(k, loss, &amplitudes, self.at_m);
        InsideField::new(electric, magnetic, least)
    }

    /// The same at many frequencies at a time, much faster: `pick` makes of each field what `out` takes. Both go as
    /// far as the shorter one.
    pub fn sweep<T: Send>(&self, frequency_hz: &[f64], out: &mut [T], pick: impl Fn(InsideField) -> T + Sync) {
        let (frequency_hz, out) = paired(frequency_hz, out);
        if frequency_hz.len() < WORTH_A_BLOCK {
            out.iter_mut().zip(frequency_hz).for_each(|(out, &f)| *out = pick(self.field(f)));
            return;
        }
        let point = self.bench.solver().modes.seen_from(self.at_m);
        in_parts(out, frequency_hz.len() * STEPS, |start, out| {
            let frequency_hz = &frequency_hz[start..start + out.len()];
            for (frequency_hz, out) in frequency_hz.chunks(BLOCK).zip(out.chunks_mut(BLOCK)) {
                match &point {
                    Some(point) => {
                        let fields = self.fields_from(point, frequency_hz);
                        for ((out, field), &f) in out.iter_mut().zip(fields).zip(frequency_hz) {
                            *out = pick(if field.is_number() { field } else { self.field(f) });
                        }
                    }
                    None => out.iter_mut().zip(frequency_hz).for_each(|(out, &f)| *out = pick(self.field(f))),
                }
            }
        });
    }

    fn fields_from(&self, point: &PointModes, frequency_hz: &[f64]) -> Vec<InsideField> {
        let Solver { modes, links, outside } = self.bench.solver();
        let loss: Vec<Loss> = frequency_hz.iter().map(|&f| self.bench.loss(f)).collect();
        let block = Block::new(frequency_hz.iter().map(|&f| wavenumber_within(f)).collect(), &loss);
        let inside = modes.admittances_at(&block);
        let waves = outside.at(&block, links.len());
        let mut amplitudes = vec![Column::zeros(frequency_hz.len()); modes.carried().len()];
        let mut least = Vec::with_capacity(frequency_hz.len());
        for (place, &k) in block.wavenumber_per_m.iter().enumerate() {
            let before = |pair: usize| match &links[pair] {
                Link::Waves { .. } => waves[pair].at(place),
                alone => alone.at(k),
            };
            let (fall, values) = self.bench.passed(k, self.wave, before, |pair| inside[pair].at(place));
            least.push(fall);
            for (column, value) in amplitudes.iter_mut().zip(values) {
                (column.re[place], column.im[place]) = (value.re, value.im);
            }
        }
        let fields = point.fields(&block, &amplitudes);
        let each = least.into_iter().enumerate().map(|(place, least)| {
            let part = |first: usize| [0, 1, 2].map(|axis| fields[first + axis].at(place));
            InsideField::new(part(0), part(3), least)
        });
        each.collect()
    }
}

/// Frequencies that are computed side by side: their modes fit into a cache.
const BLOCK: usize = 32;

/// Fewer frequencies are computed one by one.
const WORTH_A_BLOCK: usize = 4;

/// A frequency costs about as much as so many of the plainest kernels' steps.
const STEPS: usize = 1024;

/// Wavenumber, 1/m, kept where its powers are numbers.
fn wavenumber_within(frequency_hz: f64) -> f64 {
    wavenumber_per_m(frequency_hz).clamp(1e-30, 1e30)
}

/// The field at a point inside, relative to the incident wave's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsideField {
    /// Electric field along x, y and z over the incident one; zero where it is below the smallest number.
    pub electric: [Complex64; 3],
    /// Magnetic field along x, y and z over the incident one.
    pub magnetic: [Complex64; 3],
    electric_db: f64,
    magnetic_db: f64,
}

impl InsideField {
    /// From fields that still have to fall by so many nepers.
    fn new(electric: [Complex64; 3], magnetic: [Complex64; 3], nepers: f64) -> Self {
        let passed = (-nepers).exp();
        Self {
            electric: electric.map(|part| part * passed),
            magnetic: magnetic.map(|part| part * passed),
            electric_db: loss_db(electric) + DB_PER_NEPER * nepers,
            magnetic_db: loss_db(magnetic) + DB_PER_NEPER * nepers,
        }
    }

    fn is_number(&self) -> bool {
        !self.electric_db.is_nan() && !self.magnetic_db.is_nan()
    }

    /// Loss of the electric field's magnitude, dB; negative where it is above the incident one.
    #[must_use]
    pub fn electric_shielding_db(&self) -> f64 {
        self.electric_db
    }

    /// Loss of the magnetic field's magnitude, dB.
    #[must_use]
    pub fn magnetic_shielding_db(&self) -> f64 {
        self.magnetic_db
    }
}

fn loss_db(field: [Complex64; 3]) -> f64 {
    let largest = field.iter().map(|part| part.norm()).fold(0.0, f64::max);
    if largest == 0.0 {
        return f64::INFINITY;
    }
    let sum: f64 = field.iter().map(|part| (part / largest).norm_sqr()).sum();
    -DB_PER_NEPER * (largest.ln() + 0.5 * sum.ln())
}

impl Rebuild for BenchBox {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let [a, b, d] = self.interior_m;
        let domain = Domain::within(1e-3, 100.0);
        let interior_m = [
            knobs.value("width_m", "m", a, domain),
            knobs.value("height_m", "m", b, domain),
            knobs.value("depth_m", "m", d, domain),
        ];
        let openings = knobs.part("openings", &self.openings)?;
        let thickness_m = knobs.value("wall_thickness_m", "m", self.wall_thickness_m, Domain::NON_NEGATIVE);
        let quality = self
            .contents_quality
            .map(|quality| knobs.value("contents_quality_factor", "", quality, Domain::at_least(0.5)));
        let bench =
            Self::new(interior_m, openings)?.with_wall_thickness(thickness_m)?.with_contents_quality(quality)?;
        Ok(bench.with_walls(knobs.enter("walls", |knobs| self.walls.rebuild(knobs))?))
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    interior_m: [f64; 3],
    openings: Vec<BoxOpening>,
    #[serde(default)]
    wall_thickness_m: f64,
    #[serde(default)]
    walls: Option<Material>,
    #[serde(default)]
    contents_quality_factor: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for BenchBox {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        let bench = Self::new(record.interior_m, record.openings)?
            .with_wall_thickness(record.wall_thickness_m)?
            .with_contents_quality(record.contents_quality_factor)?;
        Ok(match record.walls {
            Some(walls) => bench.with_walls(walls),
            None => bench,
        })
    }
}

#[cfg(feature = "serde")]
impl From<BenchBox> for Record {
    fn from(bench: BenchBox) -> Self {
        Self {
            interior_m: bench.interior_m,
            openings: bench.openings,
            wall_thickness_m: bench.wall_thickness_m,
            walls: Some(bench.walls),
            contents_quality_factor: bench.contents_quality,
        }
    }
}
