//! Loss of a filter of several lines at many frequencies, a register at a time: the twin of
//! [`response`](super::coupled_response::response) for lumped banks.
//!
//! From the load backwards the impedance matrix `Z` and the row `r` that reads the load's voltage from the current so far,
//!
//! ```text
//! series: Z <- Z + Z_bank        shunt: Z <- Z W,  r <- r W,  W = (1 + Y Z)^-1
//! ```
//!
//! and at the source `V2 = r (Zs + Z)^-1 e`, in the right coordinates ([`Basis`]): a mode thousands of dB
//! down stays accurate beside one that is not. Elimination goes without exchange of rows; a lane with a small pivot is left to the scalar twin,
//! as is one that leaves the range.

// Rows and columns run over several matrices at once.
#![allow(clippy::needless_range_loop)]

use num_complex::Complex64;

use super::bank::Currents;
use super::line_matrix::{Basis, MOST};
use crate::circuit::lumped_chain::Immittance;
use crate::filter::{Bank, CommonModeChoke, LineFilter, LineMode, ModalTermination, Part, Termination};
use crate::lanes::{Complex, Kernel, Real, Simd, Window, sweep};

/// Squares of magnitudes beyond these are left to the scalar twin.
const LARGEST: f64 = 1e250;
const SMALLEST: f64 = 1e-250;
/// A pivot below this share of the matrix's entries costs digits; squared.
const LEAST_PIVOT: f64 = 1e-6;

/// The banks of a filter, source side first, in the form that a sweep walks.
pub(super) struct CoupledLanes {
    lines: usize,
    banks: Vec<BankLanes>,
    basis: Basis,
}

enum BankLanes {
    /// An impedance in each line.
    Series(PartsLanes),
    /// An admittance from each line to the case.
    ToCase(PartsLanes),
    /// An admittance between two lines.
    Between { from: usize, to: usize, admittance: Immittance },
    /// A choke, and what is left of its core.
    Choke { choke: CommonModeChoke, remaining: f64 },
}

/// One part for each line; what several lines have alike is worked out once.
struct PartsLanes {
    parts: Vec<Immittance>,
    /// The first line with the same part.
    same_as: [usize; MOST],
}

impl PartsLanes {
    fn new(parts: Vec<Immittance>) -> Self {
        let mut same_as = [0; MOST];
        for (line, part) in parts.iter().enumerate() {
            same_as[line] = parts.iter().position(|other| other == part).unwrap_or(line);
        }
        Self { parts, same_as }
    }

    #[inline(always)]
    fn at<S: Simd, const N: usize>(&self, omega: Real<S>) -> [Complex<S>; N] {
        let zero = omega.constant(0.0);
        let mut values = [Complex::new(zero, zero); N];
        for line in 0..N {
            let first = self.same_as[line];
            values[line] = if first < line { values[first] } else { immittance(&self.parts[line], omega) };
        }
        values
    }
}

impl CoupledLanes {
    /// Of a filter of lumped banks that no can alters; none otherwise.
    pub(super) fn of(filter: &LineFilter) -> Option<Self> {
        if filter.housing().is_some_and(|housing| housing.alters_two_port()) {
            return None;
        }
        let Currents { load_peak_a, residual_peak_a } = filter.peak_currents();
        let all = |parts: &[Part], turned: bool| -> Option<PartsLanes> {
            let each = parts.iter().map(|part| {
                let impedance = part.lumped(load_peak_a)?;
                Some(if turned { impedance.inverse() } else { impedance })
            });
            each.collect::<Option<Vec<_>>>().map(PartsLanes::new)
        };
        let banks = filter.banks().iter().map(|bank| {
            Some(match bank {
                Bank::Series(parts) => BankLanes::Series(all(parts, false)?),
                Bank::ToCase(parts) => BankLanes::ToCase(all(parts, true)?),
                Bank::Between { from, to, part } => {
                    BankLanes::Between { from: *from, to: *to, admittance: part.lumped(load_peak_a)?.inverse() }
                }
                Bank::Choke(choke) => {
                    let magnetising_peak_a = choke.magnetising_peak_a(filter.lines(), load_peak_a, residual_peak_a);
                    BankLanes::Choke { choke: *choke, remaining: choke.remaining(magnetising_peak_a) }
                }
                Bank::Star { .. } | Bank::Each(_) => return None,
            })
        });
        banks.collect::<Option<Vec<_>>>().map(|banks| Self { lines: filter.lines(), banks, basis: filter.basis() })
    }

    /// Losses in nepers; not a number where the scalar twin has to decide.
    pub(super) fn losses_np(&self, frequency_hz: &[f64], path: &Path<'_>, out: &mut [f64]) {
        let ends = [&path.source.common, &path.source.differential, &path.load.common, &path.load.differential]
            .map(|end| EndLanes::new(end, frequency_hz));
        match self.lines {
            1 => self.sweep::<1>(frequency_hz, path, &ends, out),
            2 => self.sweep::<2>(frequency_hz, path, &ends, out),
            3 => self.sweep::<3>(frequency_hz, path, &ends, out),
            _ => self.sweep::<4>(frequency_hz, path, &ends, out),
        }
    }

    fn sweep<const N: usize>(&self, frequency_hz: &[f64], path: &Path<'_>, ends: &[EndLanes; 4], out: &mut [f64]) {
        let row = |values: [f64; MOST]| -> [f64; N] {
            let values = self.basis.coordinates(N, values);
            std::array::from_fn(|place| values[place])
        };
        let (drive, listen) = (row(path.drive.voltages(N)), row(path.listen.reading(N)));
        let heard = row(path.drive.reading(N));
        let (banks, basis) = (&self.banks, self.basis);
        sweep(out.len(), &mut Losses::<N> { banks, basis, frequency_hz, ends, drive, heard, listen, out });
    }
}

/// From where to where, and between what.
#[derive(Clone, Copy)]
pub(super) struct Path<'a> {
    pub(super) drive: LineMode,
    pub(super) listen: LineMode,
    pub(super) source: &'a ModalTermination,
    pub(super) load: &'a ModalTermination,
}

/// A termination at the places of a sweep.
enum EndLanes {
    Same(Complex64),
    Each(Vec<f64>, Vec<f64>),
}

impl EndLanes {
    fn new(end: &Termination, frequency_hz: &[f64]) -> Self {
        match end.constant_ohm() {
            Some(ohm) => Self::Same(ohm),
            None => {
                let (re, im) = frequency_hz.iter().map(|&f| end.impedance_ohm(f)).map(|z| (z.re, z.im)).unzip();
                Self::Each(re, im)
            }
        }
    }

    #[inline(always)]
    fn at<S: Simd>(&self, at: Window<S>) -> Complex<S> {
        match self {
            Self::Same(ohm) => at.splat_complex(*ohm),
            Self::Each(re, im) => Complex::new(at.load(re), at.load(im)),
        }
    }
}

struct Losses<'a, const N: usize> {
    banks: &'a [BankLanes],
    basis: Basis,
    frequency_hz: &'a [f64],
    /// Source and load, each in common mode and between lines.
    ends: &'a [EndLanes; 4],
    drive: [f64; N],
    /// How the driven mode, and the one listened to, are read; all in the coordinates.
    heard: [f64; N],
    listen: [f64; N],
    out: &'a mut [f64],
}

impl<const N: usize> Kernel for Losses<'_, N> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let omega = at.load(self.frequency_hz) * std::f64::consts::TAU;
        let (zero, one) = (at.splat(0.0), at.splat(1.0));
        let none = Complex::new(zero, zero);
        let lines = N as f64;
        let [near_common, near_between, far_common, far_between] = [0, 1, 2, 3].map(|end: usize| self.ends[end].at(at));
        // n Zc for what all lines have alike, Zd/2 for all else.
        let (near_common, far_common) = (near_common.scale(one * lines), far_common.scale(one * lines));
        let (near_other, far_other) = (near_between.scale(one * 0.5), far_between.scale(one * 0.5));

        // What the driven mode would give without the filter.
        let of_common = far_common * (near_common + far_common).recip();
        let of_other = far_other * (near_other + far_other).recip();
        let passed = even::<S, N>(self.basis, of_common, of_other);
        let mut before = none;
        for row in 0..N {
            for column in 0..N {
                before = before.add_scaled(passed[row][column], one * (self.heard[row] * self.drive[column]));
            }
        }

        let impedance = even(self.basis, far_common, far_other);
        let mut walk = Walk::<S, N> { basis: self.basis, impedance, reading: [none; N], sound: at.splat(1.0) };
        for column in 0..N {
            for row in 0..N {
                let weight = one * self.listen[row];
                walk.reading[column] = walk.reading[column].add_scaled(walk.impedance[row][column], weight);
            }
        }
        for bank in self.banks.iter().rev() {
            walk.put_before(bank, omega);
        }
        walk.add(near_common, near_other);
        let drive = self.drive.map(|volt| Complex::new(one * volt, zero));
        let after = walk.read(drive);
        let size = after.norm_sqr() * before.norm_sqr();
        let in_range = size.less(LARGEST) & size.greater(SMALLEST) & walk.sound.greater(0.0);
        let loss = (before.ln_norm_sqr() - after.ln_norm_sqr()) * 0.5;
        at.store(in_range.select(loss, f64::NAN), self.out);
    }
}

/// As [`Basis::even`].
#[inline(always)]
fn even<S: Simd, const N: usize>(basis: Basis, common: Complex<S>, other: Complex<S>) -> [[Complex<S>; N]; N] {
    let zero = common.re.constant(0.0);
    let mutual = match basis {
        Basis::Lines => (common - other).scale(common.re.constant(1.0 / N as f64)),
        Basis::Modes => Complex::new(zero, zero),
    };
    let mut matrix = [[mutual; N]; N];
    for (place, row) in matrix.iter_mut().enumerate() {
        row[place] = match basis {
            Basis::Lines => mutual + other,
            Basis::Modes if place == 0 => common,
            Basis::Modes => other,
        };
    }
    matrix
}

/// What has been met from the load backwards.
struct Walk<S: Simd, const N: usize> {
    basis: Basis,
    impedance: [[Complex<S>; N]; N],
    reading: [Complex<S>; N],
    /// Zero where digits were lost.
    sound: Real<S>,
}

impl<S: Simd, const N: usize> Walk<S, N> {
    #[inline(always)]
    fn put_before(&mut self, bank: &BankLanes, omega: Real<S>) {
        let one = omega.constant(1.0);
        match bank {
            // What the modes stand for is alike in all lines.
            BankLanes::Series(parts) => {
                let values = parts.at::<S, N>(omega);
                for line in 0..N {
                    self.impedance[line][line] = self.impedance[line][line] + values[line];
                }
            }
            BankLanes::Choke { choke, remaining } => {
                let (common, other) = choke_modes::<S>(choke, *remaining, N, omega);
                self.add(common, other);
            }
            BankLanes::ToCase(parts) => {
                let values = parts.at::<S, N>(omega);
                let mut matrix = self.impedance;
                for line in 0..N {
                    for column in 0..N {
                        matrix[line][column] = values[line] * self.impedance[line][column];
                    }
                    matrix[line][line].re = matrix[line][line].re + one;
                }
                self.divide(matrix);
            }
            BankLanes::Between { from, to, admittance } => {
                let value = immittance(admittance, omega);
                let mut ends = [0.0; MOST];
                (ends[*from], ends[*to]) = (1.0, -1.0);
                let across = self.basis.coordinates(N, ends);
                let zero = omega.constant(0.0);
                let mut matrix = even::<S, N>(Basis::Modes, Complex::new(one, zero), Complex::new(one, zero));
                for column in 0..N {
                    let mut voltage = Complex::new(zero, zero);
                    for mode in 0..N {
                        voltage = voltage.add_scaled(self.impedance[mode][column], one * across[mode]);
                    }
                    let current = value * voltage;
                    for mode in 0..N {
                        matrix[mode][column] = matrix[mode][column].add_scaled(current, one * across[mode]);
                    }
                }
                self.divide(matrix);
            }
        }
    }

    /// An impedance for what all lines have alike, and another for all else.
    #[inline(always)]
    fn add(&mut self, common: Complex<S>, other: Complex<S>) {
        let bank = even::<S, N>(self.basis, common, other);
        for row in 0..N {
            for column in 0..N {
                self.impedance[row][column] = self.impedance[row][column] + bank[row][column];
            }
        }
    }

    /// Impedance and reading times the inverse of a matrix, by elimination of its columns.
    #[inline(always)]
    fn divide(&mut self, mut matrix: [[Complex<S>; N]; N]) {
        for pivot in 0..N {
            let over = self.over_pivot(matrix[pivot][pivot], &matrix[pivot]);
            for row in 0..N {
                matrix[row][pivot] = matrix[row][pivot] * over;
                self.impedance[row][pivot] = self.impedance[row][pivot] * over;
            }
            self.reading[pivot] = self.reading[pivot] * over;
            for column in 0..N {
                if column == pivot {
                    continue;
                }
                let weight = matrix[pivot][column];
                for row in 0..N {
                    matrix[row][column] = matrix[row][column] - weight * matrix[row][pivot];
                    self.impedance[row][column] = self.impedance[row][column] - weight * self.impedance[row][pivot];
                }
                self.reading[column] = self.reading[column] - weight * self.reading[pivot];
            }
        }
    }

    /// The reading of the current that voltages drive through the impedance.
    #[inline(always)]
    fn read(&mut self, drive: [Complex<S>; N]) -> Complex<S> {
        let impedance = self.impedance;
        self.divide(impedance);
        let mut sum = self.reading[0] * drive[0];
        for line in 1..N {
            sum = self.reading[line].mul_add(drive[line], sum);
        }
        sum
    }

    /// One over a pivot, which is small against nothing in its row.
    #[inline(always)]
    fn over_pivot(&mut self, pivot: Complex<S>, row: &[Complex<S>; N]) -> Complex<S> {
        let size = pivot.norm_sqr();
        let mut largest = size;
        for entry in row {
            largest = largest.larger(entry.norm_sqr());
        }
        let sound = size.greater(largest * LEAST_PIVOT) & size.less(LARGEST) & size.greater(SMALLEST);
        self.sound = sound.select(self.sound, 0.0);
        pivot.recip()
    }
}

/// What a choke offers in common mode (times the number of lines) and in all others.
#[inline(always)]
fn choke_modes<S: Simd>(
    choke: &CommonModeChoke,
    remaining: f64,
    lines: usize,
    omega: Real<S>,
) -> (Complex<S>, Complex<S>) {
    let (zero, one) = (omega.constant(0.0), omega.constant(1.0));
    let inductance_h = choke.inductance_h();
    let leakage = Complex::new(one * choke.resistance_ohm(), omega * ((1.0 - choke.coupling()) * inductance_h));
    let mutual = omega * (choke.coupling() * inductance_h * remaining * lines as f64);
    let mutual = match choke.relaxation_hz() {
        None => Complex::new(zero, mutual),
        Some(relaxation_hz) => {
            let delay = omega * (1.0 / (std::f64::consts::TAU * relaxation_hz));
            Complex::new(zero, mutual) * Complex::new(one, delay).recip()
        }
    };
    let common = leakage + mutual;
    if choke.parallel_capacitance_f() == 0.0 {
        return (common, leakage);
    }
    let across = Complex::new(zero, omega * choke.parallel_capacitance_f());
    (common * (common * across).plus_one().recip(), leakage * (leakage * across).plus_one().recip())
}

#[inline(always)]
fn immittance<S: Simd>(part: &Immittance, omega: Real<S>) -> Complex<S> {
    quadratic(&part.numerator, omega) * quadratic(&part.denominator, omega).recip()
}

#[inline(always)]
fn quadratic<S: Simd>([constant, linear, square]: &[Complex64; 3], omega: Real<S>) -> Complex<S> {
    let part = |constant: f64, linear: f64, square: f64| omega.mul_add(omega.mul_add(square, linear), constant);
    Complex::new(part(constant.re, linear.re, square.re), part(constant.im, linear.im, square.im))
}
