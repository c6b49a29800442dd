//! What only stores energy, eliminated at several frequencies at once: the twin of [`Lattice::eliminated`], a wavenumber in each lane.
//!
//! Between the stored modes stands a symmetric matrix that is positive among TM modes and, less what couples them to those,
//! negative among TE modes, as long as nothing stored resonates. In that order it comes apart into triangles without a search for
//! pivots. Signs that are not so turn a lane into NaN, and it is left to the scalar twin.
//!
//! With D the difference of the odd and the even half, which is diagonal, what goes through is
//! BᵀA_e⁻¹DA_o⁻¹B = Bᵀ(A_e⁻¹ − A_o⁻¹)B: symmetric like the rest, so that half of each matrix is carried.

use super::ports::Lattice;
use crate::lanes::{Kernel, Real, Simd, Window, sweep};
use crate::waveguide::spectrum::{ModeFamily, rectangle};

/// So many rows by so many rows are multiplied at a time: what fits the registers of common processors.
const BLOCK: usize = 3;

/// Lower triangles of both matrices between the ports at each of the wavenumbers: for each entry, all wavenumbers.
pub(super) fn eliminated(lattice: &Lattice, wavenumbers: &[f64]) -> Vec<f64> {
    let mut kernel = Eliminated {
        lattice,
        wavenumbers,
        cell: Waves::new(lattice, wavenumbers),
        out: vec![0.0; lattice.entries() * wavenumbers.len()],
    };
    sweep(wavenumbers.len(), &mut kernel);
    kernel.out
}

struct Eliminated<'a> {
    lattice: &'a Lattice,
    wavenumbers: &'a [f64],
    cell: Waves,
    out: Vec<f64>,
}

/// Transforms of cos and of sin over a unit line, for each order.
type Line<S> = Vec<(Real<S>, Real<S>)>;

/// How the modes' transforms are come by.
enum Waves {
    /// Modes of the square, made from a few lines along both sides: these, the wave vectors' parts along each axis that differ, and
    /// which of them each harmonic has.
    Square { modes: Vec<(rectangle::Mode, f64)>, parts: [Vec<f64>; 2], which: Vec<[usize; 2]> },
    /// Computed one by one beforehand, for each wavenumber, or once for all.
    Each(Vec<Vec<f64>>),
}

impl Waves {
    fn new(lattice: &Lattice, wavenumbers: &[f64]) -> Self {
        let Some(modes) = lattice.basis.square() else {
            let wavenumbers = if lattice.is_fixed() { &wavenumbers[..1.min(wavenumbers.len())] } else { wavenumbers };
            return Self::Each(wavenumbers.iter().map(|&k| lattice.transforms(k).as_slice().to_vec()).collect());
        };
        let mut parts = [Vec::new(), Vec::new()];
        let mut place = |axis: usize, part: f64| {
            let known: &mut Vec<f64> = &mut parts[axis];
            known.iter().position(|&other| (other - part).abs() < 1e-9).unwrap_or_else(|| {
                known.push(part);
                known.len() - 1
            })
        };
        let which = lattice.harmonics.iter().map(|&[gx, gy, _]| [place(0, gx), place(1, gy)]).collect();
        Self::Square { modes, parts, which }
    }
}

/// A symmetric matrix, both halves kept, for the fine and for the coarse basis.
struct Sums<S: Simd> {
    fine: Vec<Real<S>>,
    coarse: Vec<Real<S>>,
}

/// Rows of the stored harmonics, one for each mode.
struct Rows<S: Simd> {
    /// Which modes they belong to.
    modes: Vec<usize>,
    values: Vec<Real<S>>,
    length: usize,
}

impl<S: Simd> Rows<S> {
    fn new(modes: Vec<usize>, length: usize, zero: Real<S>) -> Self {
        let values = vec![zero; modes.len().next_multiple_of(BLOCK) * length];
        Self { modes, values, length }
    }

    /// Adds `sign` times the products of all rows, over all harmonics and over the first `few` of them.
    #[inline(always)]
    fn add_products(&self, sign: f64, few: usize, size: usize, sums: &mut Sums<S>) {
        let blocks = self.modes.len().div_ceil(BLOCK);
        let block = |number: usize| -> [&[Real<S>]; BLOCK] {
            std::array::from_fn(|row| {
                let start = (number * BLOCK + row) * self.length;
                &self.values[start..start + self.length]
            })
        };
        for left in 0..blocks {
            for right in 0..=left {
                let (rows, columns) = (block(left), block(right));
                let Some(first) = self.values.first() else { return };
                let mut products = [[first.constant(0.0); BLOCK]; BLOCK];
                accumulate(&rows, &columns, 0..few, &mut products);
                self.spread(sign, (left, right), &products, size, &mut sums.coarse);
                accumulate(&rows, &columns, few..self.length, &mut products);
                self.spread(sign, (left, right), &products, size, &mut sums.fine);
            }
        }
    }

    #[inline(always)]
    fn spread(
        &self,
        sign: f64,
        (left, right): (usize, usize),
        products: &[[Real<S>; BLOCK]; BLOCK],
        size: usize,
        into: &mut [Real<S>],
    ) {
        for (row, values) in products.iter().enumerate() {
            let Some(&p) = self.modes.get(left * BLOCK + row) else { continue };
            for (column, &value) in values.iter().enumerate() {
                let Some(&q) = self.modes.get(right * BLOCK + column) else { continue };
                if q <= p {
                    into[p * size + q] = value.mul_add(sign, into[p * size + q]);
                    into[q * size + p] = into[p * size + q];
                }
            }
        }
    }
}

#[inline(always)]
fn accumulate<S: Simd>(
    rows: &[&[Real<S>]; BLOCK],
    columns: &[&[Real<S>]; BLOCK],
    harmonics: std::ops::Range<usize>,
    products: &mut [[Real<S>; BLOCK]; BLOCK],
) {
    let rows = rows.map(|row| &row[harmonics.clone()]);
    let columns = columns.map(|column| &column[harmonics.clone()]);
    for h in 0..harmonics.len() {
        let (a, b) = (rows.map(|row| row[h]), columns.map(|column| column[h]));
        for (line, &a) in products.iter_mut().zip(&a) {
            for (product, &b) in line.iter_mut().zip(&b) {
                *product = a.mul_add(b, *product);
            }
        }
    }
}

/// Parts of the modes' transforms, as far as they are needed.
struct Parts<S: Simd> {
    /// Of the stored harmonics, in the scale in which their products are what the face stores.
    across: Rows<S>,
    along: Rows<S>,
    /// Of the harmonics that are ports: for each mode, across and along by turns.
    open: Vec<Real<S>>,
}

impl Kernel for Eliminated<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let lattice = self.lattice;
        let (k, zero) = (at.load(self.wavenumbers), at.splat(0.0));
        let size = lattice.basis.members.len();
        let parts = self.parts(at, k);
        let mut sums = Sums { fine: vec![zero; size * size], coarse: vec![zero; size * size] };
        parts.along.add_products(1.0, lattice.coarse_harmonics, size, &mut sums);
        parts.across.add_products(-1.0, lattice.coarse_harmonics, size, &mut sums);
        let mut reduced = self.reduced(k, size, &sums.fine, &parts.open);
        if lattice.beyond != 0.0 {
            let coarse = self.reduced(k, lattice.coarse_modes, &sums.coarse, &parts.open);
            for (fine, coarse) in reduced.iter_mut().zip(coarse) {
                *fine = (*fine - coarse).mul_add(lattice.beyond, *fine);
            }
        }
        let count = self.wavenumbers.len();
        for (&value, out) in reduced.iter().zip(self.out.chunks_mut(count)) {
            at.store(value, out);
        }
    }
}

impl Eliminated<'_> {
    #[inline(always)]
    fn parts<S: Simd>(&self, at: Window<S>, k: Real<S>) -> Parts<S> {
        let lattice = self.lattice;
        let (zero, size, live) = (k.constant(0.0), lattice.basis.members.len(), lattice.live_harmonics);
        let stored = lattice.harmonics.len() - live;
        let te = lattice.basis.members.iter().enumerate().filter(|(_, mode)| mode.family == ModeFamily::Te);
        let mut parts = Parts {
            across: Rows::new(te.map(|(place, _)| place).collect(), stored, zero),
            along: Rows::new((0..size).collect(), stored, zero),
            open: vec![zero; 2 * live * size],
        };
        // In the scale of the ports TE modes have k m.
        let on_along: Vec<_> = lattice
            .basis
            .members
            .iter()
            .map(|mode| if mode.family == ModeFamily::Te { k } else { k.constant(1.0) })
            .collect();
        let lines = self.lines(k);
        let mut both = vec![[zero; 2]; size];
        for (h, &[gx, gy, share]) in lattice.harmonics.iter().enumerate() {
            let [kx, ky] = [(gx, 0), (gy, 1)].map(|(g, axis)| k.mul_add(lattice.slope[axis], k.constant(g)));
            let kappa = kx.mul_add(kx, ky * ky).sqrt();
            match &self.cell {
                Waves::Square { modes, which, .. } => {
                    let [x, y] = which[h];
                    let aside = |part: Real<S>, axis: usize| part + lattice.aside(axis);
                    let (ux, uy) = (aside(kx, 0), aside(ky, 1));
                    let long = ux.mul_add(ux, uy * uy).sqrt();
                    let known = long.greater(0.0);
                    let (c, s) = (known.select(ux / long, 1.0), known.select(uy / long, 0.0));
                    for (slot, (mode, sign)) in both.iter_mut().zip(modes) {
                        let [m, n] = mode.orders();
                        let [ex, ey] = mode.transform(lines[0][x][m], lines[1][y][n]);
                        let ey = ey * *sign;
                        *slot = [c * ey - s * ex, c.mul_add(ex, s * ey)].map(|part| part * share);
                    }
                }
                Waves::Each(all) => {
                    let start = 2 * h * size;
                    for (p, slot) in both.iter_mut().enumerate() {
                        *slot =
                            [0, size].map(|part| at.gather(|place| all[place.min(all.len() - 1)][start + part + p]));
                    }
                }
            }
            if h < live {
                for (p, &[across, along]) in both.iter().enumerate() {
                    parts.open[2 * (p * live + h)] = across;
                    parts.open[2 * (p * live + h) + 1] = along * on_along[p];
                }
                continue;
            }
            let least = k * k * 1e-14;
            let square = ((kappa - k) * (kappa + k)).larger(least);
            let kz_over_area = square.sqrt() / lattice.cell_area;
            let on_across = kz_over_area.sqrt();
            let scale = 1.0 / (on_across * lattice.cell_area);
            let h = h - live;
            for (p, &[_, along]) in both.iter().enumerate() {
                parts.along.values[p * stored + h] = along * scale * on_along[p];
            }
            for (row, &p) in parts.across.modes.iter().enumerate() {
                parts.across.values[row * stored + h] = both[p][0] * on_across;
            }
        }
        parts
    }

    /// Lines along both axes of the square, for each wave vector's part and each order.
    #[inline(always)]
    fn lines<S: Simd>(&self, k: Real<S>) -> [Vec<Line<S>>; 2] {
        let Waves::Square { modes, parts, .. } = &self.cell else { return [Vec::new(), Vec::new()] };
        let zero = k.constant(0.0);
        [0, 1].map(|axis| {
            let orders = modes.iter().map(|(mode, _)| mode.orders()[axis] + 1).max().unwrap_or(0);
            let of_part = |&g: &f64| {
                let mut out = vec![(zero, zero); orders];
                let part = k.mul_add(self.lattice.slope[axis], k.constant(g + self.lattice.aside(axis)));
                rectangle::lines_in_lanes(part, &mut out);
                out
            };
            parts[axis].iter().map(of_part).collect()
        })
    }

    /// Lower triangles of both matrices between the ports, from the first `modes` modes of the sums.
    #[inline(always)]
    fn reduced<S: Simd>(&self, k: Real<S>, modes: usize, sums: &[Real<S>], open: &[Real<S>]) -> Vec<Real<S>> {
        let lattice = self.lattice;
        let (zero, size) = (k.constant(0.0), lattice.basis.members.len());
        let (live, harmonics, ports) = (lattice.live_modes, lattice.live_harmonics, lattice.ports());
        let members = &lattice.basis.members;
        let (mut order, te): (Vec<usize>, Vec<usize>) =
            (live..modes).partition(|&place| members[place].family != ModeFamily::Te);
        let positive = order.len();
        order.extend(te);
        let count = order.len();
        // Stored modes first, the ports as further rows.
        let width = count + ports;
        let mut odd = vec![zero; width * width];
        for (i, &p) in order.iter().enumerate() {
            for (j, &q) in order[..=i].iter().enumerate() {
                odd[i * width + j] = sums[p * size + q];
            }
        }
        let own_open = |p: usize, port: usize| open[2 * p * harmonics + port - live];
        for port in 0..ports {
            let row = &mut odd[(count + port) * width..(count + port + 1) * width];
            for (j, &q) in order.iter().enumerate() {
                row[j] = if port < live { sums[port * size + q] } else { own_open(q, port) };
            }
            for other in 0..=port.min(live.saturating_sub(1)) {
                row[count + other] = if port < live { sums[port * size + other] } else { own_open(other, port) };
            }
        }
        let mut even = odd.clone();
        let shift = match members.get(live) {
            Some(member) => ((member.cutoff - k) * (member.cutoff + k)).larger(zero).sqrt() * lattice.length,
            None => zero,
        };
        let mut through = Vec::with_capacity(count);
        for (i, &p) in order.iter().enumerate() {
            let ends = ends(members[p].family, members[p].cutoff, k, lattice.length, shift);
            odd[i * width + i] = odd[i * width + i] + ends[0];
            even[i * width + i] = even[i * width + i] + ends[1];
            through.push(ends[2]);
        }
        eliminate(&mut odd, count, positive, width);
        eliminate(&mut even, count, positive, width);
        let mut reduced = Vec::with_capacity(ports * (ports + 1));
        for row in 0..ports {
            reduced.extend_from_slice(&odd[(count + row) * width + count..(count + row) * width + count + row + 1]);
        }
        substitute(&mut odd, count, width);
        substitute(&mut even, count, width);
        for row in 0..ports {
            let by_even: Vec<_> =
                even[(count + row) * width..][..count].iter().zip(&through).map(|(&x, &t)| x * t).collect();
            for column in 0..=row {
                let by_odd = &odd[(count + column) * width..][..count];
                reduced.push(by_even.iter().zip(by_odd).fold(zero, |sum, (&a, &b)| a.mul_add(b, sum)));
            }
        }
        reduced
    }
}

/// The ends of a stored mode: odd, even, and through times exp(shift); [`super::ports::Ends`] in lanes. NaN above cutoff.
#[inline(always)]
fn ends<S: Simd>(family: ModeFamily, cutoff: f64, k: Real<S>, length: f64, shift: Real<S>) -> [Real<S>; 3] {
    let gamma = ((cutoff - k) * (cutoff + k)).sqrt();
    let x = gamma * length;
    let fall = -(-x).exp_m1();
    let tanh = fall / (2.0 - fall);
    let over_sinh = (shift - x).exp() * 2.0 / (fall * (2.0 - fall));
    match family {
        ModeFamily::Te => [-gamma / tanh, -gamma * tanh, -gamma * over_sinh],
        _ => [1.0 / (gamma * tanh), tanh / gamma, over_sinh / gamma],
    }
}

/// Runs out the first `count` rows of a symmetric matrix whose lower half is given: what is left stands in the rest of the rows,
/// the triangular factor with a diagonal of ones below the pivots. The first `positive` pivots are positive, the others negative.
#[inline(always)]
fn eliminate<S: Simd>(matrix: &mut [Real<S>], count: usize, positive: usize, width: usize) {
    let mut column = Vec::with_capacity(width);
    for pivot in 0..count {
        let own = matrix[pivot * width + pivot];
        let zero = own.constant(0.0);
        let sound = if pivot < positive { own.greater(zero) } else { own.less(zero) };
        let over = sound.select(1.0 / own, f64::NAN);
        column.clear();
        column.extend((pivot + 1..width).map(|row| matrix[row * width + pivot]));
        for (place, row) in (pivot + 1..width).enumerate() {
            let factor = column[place] * over;
            let line = &mut matrix[row * width..(row + 1) * width];
            line[pivot] = factor;
            for (slot, &value) in line[pivot + 1..=row].iter_mut().zip(&column) {
                *slot = factor.neg_mul_add(value, *slot);
            }
        }
    }
}

/// Turns the rows below the first `count` from those of the triangular factor into solutions.
#[inline(always)]
fn substitute<S: Simd>(matrix: &mut [Real<S>], count: usize, width: usize) {
    let (factor, right) = matrix.split_at_mut(count * width);
    for row in right.chunks_mut(width) {
        for i in (0..count).rev() {
            let (before, rest) = row.split_at_mut(i);
            let solved = rest[0];
            for (slot, &value) in before.iter_mut().zip(&factor[i * width..i * width + i]) {
                *slot = solved.neg_mul_add(value, *slot);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wave::Polarization;
    use crate::waveguide::Cell;

    #[test]
    fn lanes_are_what_the_scalar_twin_finds() {
        let cells = [Cell::hexagonal(1.0, 0.06), Cell::square(1.0, 0.06), Cell::round(1.0, 0.01)];
        for cell in cells.map(|cell| cell.unwrap()) {
            for (sine, azimuth, top, depth_m) in
                [(0.0, [1.0, 0.0], 3.0, 2.0), (0.5, [1.0, 0.0], 3.2, 0.3), (0.9, [0.6, 0.8], 4.4, 40.0)]
            {
                for polarization in [Polarization::Te, Polarization::Tm] {
                    let lattice = Lattice::new(&cell, depth_m, sine, azimuth, polarization, top);
                    // Five, so that the last register is a part of one.
                    let wavenumbers = [1e-6, 0.3, 1.1, 2.0, 2.9];
                    let lanes = eliminated(&lattice, &wavenumbers);
                    for (place, &k) in wavenumbers.iter().enumerate() {
                        let scalar = lattice.reduced_at(k);
                        for half in [0..scalar.len() / 2, scalar.len() / 2..scalar.len()] {
                            let size = scalar[half.clone()].iter().fold(0.0, |most: f64, value| most.max(value.abs()));
                            for entry in half {
                                let value = lanes[entry * wavenumbers.len() + place];
                                // Not NaN: no search for pivots was needed. Both round in sums of large terms of both signs.
                                assert!(
                                    (value - scalar[entry]).abs() <= 1e-8 * size,
                                    "{cell:?} {sine} {k} {entry}: {value} {}",
                                    scalar[entry]
                                );
                            }
                        }
                    }
                }
            }
        }
    }
}
