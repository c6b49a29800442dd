//! Walking a kernel over arrays, one register at a time.

use super::complex::Complex;
use super::real::Real;
use crate::error::Result;
use num_complex::Complex64;
use pulp::{Arch, Simd, WithSimd};

/// What is computed at one register's worth of places in a batch.
pub trait Kernel {
    /// Computes the places that `at` covers. It may be called again for places already done, with
    /// the same outcome, so it must not read what it wrote.
    fn run<S: Simd>(&mut self, at: Window<S>);
}

/// The places that one call of a [`Kernel`] covers.
#[derive(Clone, Copy, Debug)]
pub struct Window<S: Simd> {
    isa: S,
    start: usize,
    count: usize,
}

/// One input of a batch: a value for each place, or the same value for all.
#[derive(Clone, Copy, Debug)]
pub enum Column<'a> {
    /// The same at every place.
    Same(f64),
    /// One value a place.
    Each(&'a [f64]),
}

impl<'a> Column<'a> {
    /// `len` places from `start` on.
    pub fn part(self, start: usize, len: usize) -> Self {
        match self {
            Self::Same(value) => Self::Same(value),
            Self::Each(values) => Self::Each(&values[start..start + len]),
        }
    }

    /// Checks every value; a fault names its place.
    pub fn check(&self, check: impl Fn(f64) -> Result<f64>) -> Result<()> {
        match self {
            Self::Same(value) => check(*value).map(drop),
            Self::Each(values) => values
                .iter()
                .enumerate()
                .try_for_each(|(place, &value)| check(value).map(drop).map_err(|error| error.at_index(place))),
        }
    }

    /// The value at one place; NaN beyond the end.
    #[must_use]
    pub fn get(&self, place: usize) -> f64 {
        match self {
            Self::Same(value) => *value,
            Self::Each(values) => values.get(place).copied().unwrap_or(f64::NAN),
        }
    }
}

/// Runs `kernel` over the places `0..count` on the best instruction set of this machine.
#[inline]
pub fn sweep<K: Kernel>(count: usize, kernel: &mut K) {
    sweep_on(Arch::new(), count, kernel);
}

/// As [`sweep`], on an instruction set of the caller's choice.
#[inline]
pub fn sweep_on<K: Kernel>(arch: Arch, count: usize, kernel: &mut K) {
    arch.dispatch(Sweep { count, kernel });
}

struct Sweep<'a, K> {
    count: usize,
    kernel: &'a mut K,
}

impl<K: Kernel> WithSimd for Sweep<'_, K> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, isa: S) {
        let lanes = Real::<S>::LANES;
        let mut start = 0;
        while start < self.count {
            // The last register is moved back to be full; a batch shorter than one is padded.
            let first = start.min(self.count.saturating_sub(lanes));
            self.kernel.run(Window { isa, start: first, count: lanes.min(self.count) });
            start += lanes;
        }
    }
}

impl<S: Simd> Window<S> {
    /// The same value at every place.
    #[inline(always)]
    #[must_use]
    pub fn splat(self, value: f64) -> Real<S> {
        Real::splat(self.isa, value)
    }

    /// The same complex number at every place.
    #[inline(always)]
    #[must_use]
    pub fn splat_complex(self, value: Complex64) -> Complex<S> {
        Complex::new(self.splat(value.re), self.splat(value.im))
    }

    /// A value for each place covered, by its place in the batch.
    #[inline(always)]
    #[must_use]
    pub fn gather(self, value: impl Fn(usize) -> f64) -> Real<S> {
        let last = self.start + self.count - 1;
        let mut gathered = self.splat(0.0);
        let lanes = pulp::bytemuck::cast_slice_mut::<S::f64s, f64>(std::slice::from_mut(&mut gathered.register));
        for (offset, lane) in lanes.iter_mut().enumerate() {
            *lane = value((self.start + offset).min(last));
        }
        gathered
    }

    /// The values of a column at the places covered.
    #[inline(always)]
    #[must_use]
    pub fn column(self, column: Column<'_>) -> Real<S> {
        match column {
            Column::Same(value) => self.splat(value),
            Column::Each(batch) => self.load(batch),
        }
    }

    /// The values of a whole batch that belong to the places covered. Lanes that a short batch
    /// leaves over repeat its last value.
    #[inline(always)]
    #[must_use]
    pub fn load(self, batch: &[f64]) -> Real<S> {
        let covered = &batch[self.start..self.start + self.count];
        let (full, _) = S::as_simd_f64s(covered);
        match full.first() {
            Some(&register) => Real::new(self.isa, register),
            None => self.load_padded(covered),
        }
    }

    #[cold]
    fn load_padded(self, covered: &[f64]) -> Real<S> {
        let last = covered.last().copied().unwrap_or(f64::NAN);
        let mut padded = Real::splat(self.isa, last);
        let lanes = pulp::bytemuck::cast_slice_mut::<S::f64s, f64>(std::slice::from_mut(&mut padded.register));
        lanes[..covered.len()].copy_from_slice(covered);
        padded
    }

    /// Writes the places covered into a whole batch.
    #[inline(always)]
    pub fn store(self, value: Real<S>, batch: &mut [f64]) {
        let covered = &mut batch[self.start..self.start + self.count];
        let count = covered.len();
        let (full, _) = S::as_mut_simd_f64s(covered);
        match full.first_mut() {
            Some(register) => *register = value.register,
            None => {
                batch[self.start..self.start + count].copy_from_slice(&lanes_of::<S>(&[value.register])[..count]);
            }
        }
    }

    /// Writes the places covered into a whole batch of complex numbers.
    #[inline(always)]
    pub fn store_complex(self, value: Complex<S>, batch: &mut [Complex64]) {
        let covered = &mut batch[self.start..self.start + self.count];
        let (re, im) = ([value.re.register], [value.im.register]);
        let (re, im) = (lanes_of::<S>(&re), lanes_of::<S>(&im));
        for (out, (&re, &im)) in covered.iter_mut().zip(re.iter().zip(im)) {
            *out = Complex64::new(re, im);
        }
    }
}

/// The lanes of a register one by one.
#[inline(always)]
fn lanes_of<S: Simd>(register: &[S::f64s; 1]) -> &[f64] {
    pulp::bytemuck::cast_slice(register)
}
