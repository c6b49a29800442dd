//! A box at many frequencies, a register at a time: the twin of [`super::mode`], of the sums over it, and of the waves
//! between openings.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::exterior::Link;
use super::interior::lower_pairs;
use super::mode::Loss;
use super::mouth_field::Share;
use crate::lanes::{Complex, Kernel, Real, Simd, Window, sweep};

/// A complex number for each frequency.
#[derive(Debug, Clone, Default)]
pub(super) struct Column {
    pub re: Vec<f64>,
    pub im: Vec<f64>,
}

impl Column {
    pub(super) fn zeros(count: usize) -> Self {
        Self { re: vec![0.0; count], im: vec![0.0; count] }
    }

    pub(super) fn at(&self, place: usize) -> Complex64 {
        Complex64::new(self.re[place], self.im[place])
    }

    #[inline(always)]
    fn load<S: Simd>(&self, at: Window<S>) -> Complex<S> {
        Complex::new(at.load(&self.re), at.load(&self.im))
    }

    #[inline(always)]
    fn store<S: Simd>(&mut self, at: Window<S>, value: Complex<S>) {
        at.store(value.re, &mut self.re);
        at.store(value.im, &mut self.im);
    }
}

impl FromIterator<Complex64> for Column {
    fn from_iter<T: IntoIterator<Item = Complex64>>(values: T) -> Self {
        let (re, im) = values.into_iter().map(|value| (value.re, value.im)).unzip();
        Self { re, im }
    }
}

/// Some frequencies: their wavenumbers, and what takes part in the loss.
#[derive(Debug)]
pub(super) struct Block {
    pub wavenumber_per_m: Vec<f64>,
    /// Impedance of the walls over that of vacuum, over k.
    walls: Column,
    contents: f64,
}

impl Block {
    pub(super) fn new(wavenumber_per_m: Vec<f64>, loss: &[Loss]) -> Self {
        let walls = loss.iter().zip(&wavenumber_per_m).map(|(loss, &k)| loss.walls / k).collect();
        Self { wavenumber_per_m, walls, contents: loss.first().map_or(0.0, |loss| loss.contents) }
    }

    fn len(&self) -> usize {
        self.wavenumber_per_m.len()
    }

    /// 1/Q of what the box holds.
    pub(super) fn contents(&self) -> f64 {
        self.contents
    }
}

/// What a mode is by itself, whatever the frequency.
#[derive(Debug, Clone, Copy)]
pub(super) struct ModeConstants {
    squared: f64,
    depth_m: f64,
    /// ∫|H|²dS/∫|H|²dV below cutoff.
    below: f64,
    families: [Option<Family>; 2],
}

/// The modes without electric field along one axis.
#[derive(Debug, Clone, Copy)]
struct Family {
    own: f64,
    other: f64,
    even: f64,
    own_m: f64,
    other_m: f64,
}

impl ModeConstants {
    pub(super) fn new([kx, ky]: [f64; 2], [a, b, depth_m]: [f64; 3]) -> Self {
        let family = |own: f64, other: f64, own_m: f64, other_m: f64| {
            Some(Family { own, other, even: if other == 0.0 { 1.0 } else { 0.5 }, own_m, other_m })
        };
        let families = match (kx > 0.0, ky > 0.0) {
            (true, true) => [family(kx, ky, a, b), family(ky, kx, b, a)],
            (true, false) => [family(kx, ky, a, b), None],
            _ => [family(ky, kx, b, a), None],
        };
        let squared = kx * kx + ky * ky;
        Self { squared, depth_m, below: super::mode::wall_share(kx, ky, 0.0, [a, b, depth_m]), families }
    }
}

/// One mode at the frequencies of a register.
struct InsideLanes<S: Simd> {
    factor: Complex<S>,
    gamma: Complex<S>,
    over_gamma: Complex<S>,
    depth_m: f64,
}

impl<S: Simd> InsideLanes<S> {
    #[inline(always)]
    fn new(mode: &ModeConstants, k: Real<S>, walls: Complex<S>, contents: f64) -> Self {
        let squared = k * k;
        let above = squared.greater(mode.squared);
        let share =
            if above.any() { above.select(wall_share(mode, squared), mode.below) } else { k.constant(mode.below) };
        let factor = Complex::new(walls.im * share + 1.0, -(walls.re * share + contents));
        // A trace of loss, for the very cutoff of a mode that has none.
        let gamma_squared = Complex::new(k.constant(mode.squared) - squared * factor.re, squared * (1e-24 - factor.im));
        let (gamma, over_gamma) = gamma_squared.sqrt_and_recip();
        Self { factor, gamma, over_gamma, depth_m: mode.depth_m }
    }

    #[inline(always)]
    fn fall(&self, over_m: f64) -> Complex<S> {
        let twice = self.gamma.re.constant(-2.0 * over_m);
        self.gamma.scale(twice).exp_m1()
    }

    #[inline(always)]
    fn coth_over_gamma(&self) -> Complex<S> {
        if self.gamma.re.greater(FADED / self.depth_m).all() {
            return self.over_gamma;
        }
        let fall = self.fall(self.depth_m);
        let two = Complex::new(fall.re + 2.0, fall.im);
        -(two * fall.recip() * self.over_gamma)
    }

    /// sinh and cosh of γ(d − z) over sinh γd.
    #[inline(always)]
    fn ratios(&self, z: f64) -> (Complex<S>, Complex<S>) {
        let gone = self.gamma.scale(self.gamma.re.constant(-z)).exp();
        if self.gamma.re.greater(FADED / (self.depth_m - z).max(1e-300)).all() {
            return (gone, gone);
        }
        let rest = self.fall(self.depth_m - z);
        let reached = gone * self.fall(self.depth_m).recip();
        let two = Complex::new(rest.re + 2.0, rest.im);
        (rest * reached, -(two * reached))
    }
}

/// Nepers after which what comes back is below rounding: exp(−40) = 4e-18.
const FADED: f64 = 20.0;

/// Nepers on the way from the front to a point after which a mode is below rounding: exp(−40) = 4e-18.
const GONE: f64 = 40.0;

/// As [`super::mode::wall_share`] above cutoff.
#[inline(always)]
fn wall_share<S: Simd>(mode: &ModeConstants, squared: Real<S>) -> Real<S> {
    let kz_squared = (squared - mode.squared).larger(squared.constant(1e-9 * mode.squared));
    let x = (kz_squared.sqrt() * (mode.depth_m / PI)).smaller(squared.constant(1.0));
    let spread = 1.0 - x * x * (1.5 - x);
    let mut sum = squared.constant(0.0);
    let mut count = 0.0;
    for family in mode.families.iter().flatten() {
        let other_squared = family.other * family.other;
        let filled = kz_squared + other_squared;
        let along = filled * filled * spread * (0.5 * family.even);
        let across = spread * (0.25 * family.own * family.own * other_squared);
        let through = kz_squared * (0.25 * family.own * family.own * family.even);
        let walls = (across + through) * (4.0 / family.own_m)
            + (along + through) * (2.0 / (family.other_m * family.even))
            + (along + across) / spread * (2.0 / mode.depth_m);
        sum = sum + walls / (along + across + through);
        count += 1.0;
    }
    sum * (1.0 / count)
}

/// The sums over modes that are computed one by one, for pairs of what is carried.
#[derive(Debug)]
pub(super) struct PairSums {
    modes: Vec<ModeConstants>,
    /// Of each that is carried, for each mode.
    shares: Vec<Vec<Share>>,
}

impl PairSums {
    pub(super) fn new(modes: Vec<ModeConstants>, shares: Vec<Vec<Share>>) -> Self {
        Self { modes, shares }
    }

    /// For each pair, in the order of [`lower_pairs`], the sum of c_i c_j coth(γd)/γ, and of e_i·e_j k²/k₀² coth(γd)/γ.
    pub(super) fn at(&self, block: &Block) -> Vec<[Column; 2]> {
        let count = block.len();
        let mut kernel = PairKernel {
            sums: self,
            block,
            terms: vec![[Column::zeros(count), Column::zeros(count)]; self.modes.len()],
            out: vec![[Column::zeros(count), Column::zeros(count)]; lower_pairs(self.shares.len()).count()],
        };
        sweep(count, &mut kernel);
        kernel.out
    }
}

struct PairKernel<'a> {
    sums: &'a PairSums,
    block: &'a Block,
    terms: Vec<[Column; 2]>,
    out: Vec<[Column; 2]>,
}

impl Kernel for PairKernel<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let (k, walls) = (at.load(&self.block.wavenumber_per_m), self.block.walls.load(at));
        for (mode, [plain, filled]) in self.sums.modes.iter().zip(&mut self.terms) {
            let inside = InsideLanes::new(mode, k, walls, self.block.contents);
            let coth_over_gamma = inside.coth_over_gamma();
            plain.store(at, coth_over_gamma);
            filled.store(at, inside.factor * coth_over_gamma);
        }
        for ((i, j), [curls, fields]) in lower_pairs(self.sums.shares.len()).zip(&mut self.out) {
            let zero = at.splat_complex(Complex64::ZERO);
            let (mut curl_sum, mut field_sum) = (zero, zero);
            let shares = self.sums.shares[i].iter().zip(&self.sums.shares[j]);
            for ((one, other), [plain, filled]) in shares.zip(&self.terms) {
                curl_sum = curl_sum.add_scaled(plain.load(at), at.splat(one.curl * other.curl));
                field_sum = field_sum.add_scaled(filled.load(at), at.splat(one.product(other)));
            }
            curls.store(at, curl_sum);
            fields.store(at, field_sum);
        }
    }
}

/// What a mode holds of what an opening carries, with its norm.
#[derive(Debug, Clone, Copy)]
pub(super) struct PointShare {
    along_x: f64,
    along_y: f64,
    curl: f64,
}

impl PointShare {
    pub(super) fn new(share: &Share, root: f64) -> Self {
        Self { along_x: root * share.along_x, along_y: root * share.along_y, curl: root * share.curl }
    }
}

/// The modes as a point sees them.
#[derive(Debug)]
pub(super) struct PointModes {
    modes: Vec<PointMode>,
    /// Mode by mode.
    shares: Vec<PointShare>,
    z: f64,
}

#[derive(Debug)]
struct PointMode {
    constants: ModeConstants,
    kx: f64,
    ky: f64,
    /// sin cos, cos sin, sin sin and cos cos of kx x and ky y.
    sin_cos: f64,
    cos_sin: f64,
    sin_sin: f64,
    cos_cos: f64,
}

impl PointModes {
    pub(super) fn new(
        interior_m: [f64; 3],
        [x, y, z]: [f64; 3],
        each: impl Iterator<Item = ([f64; 2], Vec<PointShare>)>,
    ) -> Self {
        let (mut modes, mut shares) = (Vec::new(), Vec::new());
        for ([kx, ky], of_mode) in each {
            let ((sx, cx), (sy, cy)) = ((kx * x).sin_cos(), (ky * y).sin_cos());
            modes.push(PointMode {
                constants: ModeConstants::new([kx, ky], interior_m),
                kx,
                ky,
                sin_cos: sx * cy,
                cos_sin: cx * sy,
                sin_sin: sx * sy,
                cos_cos: cx * cy,
            });
            shares.extend(of_mode);
        }
        Self { modes, shares, z }
    }

    /// Electric field and η₀ times the magnetic field, for given amplitudes of what is carried; of potentials they are
    /// over k.
    pub(super) fn fields(&self, block: &Block, amplitudes: &[Column]) -> [Column; 6] {
        let out = [(); 6].map(|()| Column::zeros(block.len()));
        let mut kernel = PointKernel { point: self, block, amplitudes, out };
        sweep(block.len(), &mut kernel);
        kernel.out
    }
}

struct PointKernel<'a> {
    point: &'a PointModes,
    block: &'a Block,
    amplitudes: &'a [Column],
    out: [Column; 6],
}

impl Kernel for PointKernel<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let (k, walls) = (at.load(&self.block.wavenumber_per_m), self.block.walls.load(at));
        let (squared, over_k) = (k * k, 1.0 / k);
        let zero = at.splat_complex(Complex64::ZERO);
        let mut sums = [zero; 6];
        let shares = self.point.shares.chunks_exact(self.amplitudes.len().max(1));
        let gone = (GONE / self.point.z.max(1e-30)).powi(2);
        for (mode, shares) in self.point.modes.iter().zip(shares) {
            let filled = squared * (walls.im.abs() * mode.constants.below + 1.0);
            if filled.less(mode.constants.squared - gone).all() {
                continue;
            }
            let (mut along_x, mut along_y, mut curl) = (zero, zero, zero);
            for (share, amplitude) in shares.iter().zip(self.amplitudes) {
                // A voltage has a field along one axis, a potential no curl to the last digit.
                if share.along_x != 0.0 {
                    along_x = along_x.add_scaled(amplitude.load(at), at.splat(share.along_x));
                }
                if share.along_y != 0.0 {
                    along_y = along_y.add_scaled(amplitude.load(at), at.splat(share.along_y));
                }
                if share.curl != 0.0 {
                    curl = curl.add_scaled(amplitude.load(at), at.splat(share.curl));
                }
            }
            let inside = InsideLanes::new(&mode.constants, k, walls, self.block.contents);
            let (sinh, cosh) = inside.ratios(self.point.z);
            let over = cosh * inside.over_gamma;
            let by = |value: f64| at.splat(value);
            let charge = along_x.scale(by(mode.kx)).add_scaled(along_y, by(mode.ky));
            let filled = inside.factor.scale(squared);
            let magnetic_x = filled * along_y - curl.scale(by(mode.kx));
            let magnetic_y = filled * along_x + curl.scale(by(mode.ky));
            sums[0] = sums[0].add_scaled(along_x * sinh, by(mode.cos_sin));
            sums[1] = sums[1].add_scaled(along_y * sinh, by(mode.sin_cos));
            sums[2] = sums[2].add_scaled(charge * over, by(-mode.sin_sin));
            sums[3] = sums[3].add_scaled(magnetic_x * over, by(mode.sin_cos));
            sums[4] = sums[4].add_scaled(magnetic_y * over, by(-mode.cos_sin));
            sums[5] = sums[5].add_scaled(curl * sinh, by(-mode.cos_cos));
        }
        for (place, (sum, column)) in sums.into_iter().zip(&mut self.out).enumerate() {
            // The magnetic field is over jk.
            let value = if place < 3 { sum } else { -sum.times_j().scale(over_k) };
            column.store(at, value);
        }
    }
}

/// How what the openings carry sees itself in front of the wall, pairs in the order of
/// [`lower_pairs`].
#[derive(Debug)]
pub(super) struct OutsideSums {
    /// Waves over the same distances, and the pairs that they link.
    groups: Vec<Group>,
}

#[derive(Debug)]
struct Group {
    distance_m: Vec<f64>,
    links: Vec<(usize, Vec<[f64; 3]>, bool)>,
}

impl OutsideSums {
    pub(super) fn new(links: &[Link]) -> Self {
        let mut groups: Vec<Group> = Vec::new();
        for (pair, link) in links.iter().enumerate() {
            let Link::Waves { distance_m, factors, times_k } = link else { continue };
            let link = (pair, factors.clone(), *times_k);
            match groups.iter_mut().find(|group| group.distance_m == *distance_m) {
                Some(group) => group.links.push(link),
                None => groups.push(Group { distance_m: distance_m.clone(), links: vec![link] }),
            }
        }
        Self { groups }
    }

    /// jωμ₀ Y of the pairs that waves link; zero of the others, which are `pairs` in all.
    pub(super) fn at(&self, block: &Block, pairs: usize) -> Vec<Column> {
        let most = self.groups.iter().map(|group| group.distance_m.len()).max().unwrap_or(0);
        let waves = vec![Column::zeros(block.len()); most];
        let mut kernel = OutsideKernel { sums: self, block, waves, out: vec![Column::zeros(block.len()); pairs] };
        sweep(block.len(), &mut kernel);
        kernel.out
    }
}

struct OutsideKernel<'a> {
    sums: &'a OutsideSums,
    block: &'a Block,
    waves: Vec<Column>,
    out: Vec<Column>,
}

impl Kernel for OutsideKernel<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let k = at.load(&self.block.wavenumber_per_m);
        for group in &self.sums.groups {
            for (distance_m, wave) in group.distance_m.iter().zip(&mut self.waves) {
                let (sin, cos) = (k * *distance_m).sin_cos();
                wave.store(at, Complex::new(cos, -sin));
            }
            for (pair, factors, times_k) in &group.links {
                let zero = at.splat_complex(Complex64::ZERO);
                let (mut level_sum, mut slope_sum, mut k_sum) = (zero, zero, zero);
                for ([level, slope, with_k], wave) in factors.iter().zip(&self.waves) {
                    let wave = wave.load(at);
                    level_sum = level_sum.add_scaled(wave, at.splat(*level));
                    slope_sum = slope_sum.add_scaled(wave, at.splat(*slope));
                    k_sum = k_sum.add_scaled(wave, at.splat(*with_k));
                }
                let sum = level_sum + slope_sum.times_j().scale(k) + k_sum.scale(k * k);
                self.out[*pair].store(at, if *times_k { sum.scale(k) } else { sum });
            }
        }
    }
}
