//! Seams and rows of contacts at many frequencies, a register at a time: the twins of their
//! `ln_cross_section`. A lane without a finite number (sizes at the ends of the range) is left to the scalar twin.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::bay::Gap;
use crate::constants::VACUUM_IMPEDANCE;
use crate::lanes::{Complex, Kernel, Real, Simd, Window, in_parts, paired, sweep};
use crate::mouth::chain_lanes::ChainLanes;
use crate::mouth::slit::{SHARPNESS, Slit};
use crate::mouth::slit_lanes::{
    BetweenMouths, GAUSS_ANGLES, GaussAngle, SlitLanes, gauss_angles, ln_endless_modes, ln_shunted_modes,
};

/// A step of these kernels costs about as much as so many of the plainest one.
const STEPS: usize = 64;

/// Fills `out` part by part with what `fill` makes of the frequencies, lanes without a number with `scalar`.
pub(super) fn in_lanes(
    frequency_hz: &[f64],
    out: &mut [f64],
    fill: impl Fn(&[f64], &mut [f64]) + Sync,
    scalar: impl Fn(f64) -> f64 + Sync,
) {
    let (frequency_hz, out) = paired(frequency_hz, out);
    in_parts(out, frequency_hz.len() * STEPS, |start, out| {
        let frequency_hz = &frequency_hz[start..start + out.len()];
        fill(frequency_hz, out);
        for (place, ln) in out.iter_mut().enumerate().filter(|(_, ln)| !ln.is_finite()) {
            *ln = scalar(frequency_hz[place]);
        }
    });
}

/// A complex number for each frequency.
#[derive(Debug, Default)]
pub(super) struct ComplexColumn {
    re: Vec<f64>,
    im: Vec<f64>,
}

impl ComplexColumn {
    #[inline(always)]
    fn at<S: Simd>(&self, at: Window<S>) -> Complex<S> {
        Complex::new(at.load(&self.re), at.load(&self.im))
    }
}

impl FromIterator<Complex64> for ComplexColumn {
    fn from_iter<T: IntoIterator<Item = Complex64>>(values: T) -> Self {
        let (re, im) = values.into_iter().map(|value| (value.re, value.im)).unzip();
        Self { re, im }
    }
}

/// Bays of one kind, prepared for some frequencies, and what the kernel finds.
#[derive(Debug)]
pub(super) struct BayColumns {
    slit: SlitLanes,
    overlap_m: Option<f64>,
    minus_k_squared: ComplexColumn,
    series: ComplexColumn,
    /// jωμ₀ g y, for the whole depth.
    contact: ComplexColumn,
    /// ln of what the lowest mode passes, and all others.
    pub(super) ln_lowest: Vec<f64>,
    pub(super) ln_rest: Vec<f64>,
}

impl BayColumns {
    pub(super) fn new(
        slit: &Slit,
        overlap_m: Option<f64>,
        gaps: impl Iterator<Item = Gap> + Clone,
        contact: ComplexColumn,
    ) -> Self {
        let room = vec![0.0; contact.re.len()];
        Self {
            slit: SlitLanes::new(slit),
            overlap_m,
            minus_k_squared: gaps.clone().map(|gap| gap.minus_k_squared).collect(),
            series: gaps.map(|gap| gap.series).collect(),
            contact,
            ln_lowest: room.clone(),
            ln_rest: room,
        }
    }
}

/// A bay at the frequencies of a register.
struct BayAt<S: Simd> {
    overlap_m: Option<f64>,
    /// γ² less β².
    excess: Complex<S>,
    series: Complex<S>,
    contact: Complex<S>,
}

impl<S: Simd> BetweenMouths<S> for BayAt<S> {
    #[inline(always)]
    fn chain(&self, beta: Real<S>) -> ChainLanes<S> {
        let through = ChainLanes::through(beta);
        match self.overlap_m {
            Some(overlap_m) => {
                let gamma_squared = Complex::new(beta.mul_add(beta, self.excess.re), self.excess.im);
                through.line(gamma_squared, self.series, overlap_m)
            }
            None => through.shunt(self.contact),
        }
    }
}

/// What bays of several kinds pass.
pub(super) struct SeamKernel {
    wavenumber_per_m: Vec<f64>,
    bays: Vec<BayColumns>,
    open: Vec<(f64, f64)>,
}

impl SeamKernel {
    pub(super) fn new(wavenumber_per_m: Vec<f64>, bays: Vec<BayColumns>) -> Self {
        Self { wavenumber_per_m, bays, open: Vec::new() }
    }

    pub(super) fn run_all(mut self) -> Vec<BayColumns> {
        sweep(self.wavenumber_per_m.len(), &mut self);
        self.bays
    }
}

impl Kernel for SeamKernel {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let k = at.load(&self.wavenumber_per_m);
        for bay in &mut self.bays {
            let (series, contact) = (bay.series.at(at), bay.contact.at(at));
            let minus_k_squared = bay.minus_k_squared.at(at);
            let excess = match bay.overlap_m {
                Some(overlap_m) => minus_k_squared.add_scaled(series * contact, at.splat(1.0 / overlap_m)),
                None => minus_k_squared,
            };
            let between = BayAt { overlap_m: bay.overlap_m, excess, series, contact };
            at.store(bay.slit.ln_first(k, &between), &mut bay.ln_lowest);
            at.store(bay.slit.ln_modes(2, k, &between, &mut self.open), &mut bay.ln_rest);
        }
    }
}

/// ln of the cross-section of rows of contacts in a gap.
pub(super) struct RowsKernel<'a> {
    pub(super) length_m: f64,
    pub(super) gap_m: f64,
    pub(super) row_spacing_m: f64,
    pub(super) wavenumber_per_m: Vec<f64>,
    pub(super) minus_k_squared: ComplexColumn,
    pub(super) series: ComplexColumn,
    /// jωμ₀ g/Z_T, row by row.
    pub(super) shunts: Vec<ComplexColumn>,
    pub(super) out: &'a mut [f64],
    pub(super) open: Vec<(f64, f64)>,
}

impl RowsKernel<'_> {
    pub(super) fn run_all(mut self) {
        sweep(self.wavenumber_per_m.len(), &mut self);
    }
}

/// Rows at the frequencies of a register; more than these are left to the scalar twin.
pub(super) const MOST_ROWS: usize = 4;

struct RowsAt<S: Simd> {
    row_spacing_m: f64,
    minus_k_squared: Complex<S>,
    series: Complex<S>,
    shunts: [Complex<S>; MOST_ROWS],
    count: usize,
}

impl<S: Simd> BetweenMouths<S> for RowsAt<S> {
    #[inline(always)]
    fn chain(&self, beta: Real<S>) -> ChainLanes<S> {
        let gamma_squared = Complex::new(beta.mul_add(beta, self.minus_k_squared.re), self.minus_k_squared.im);
        let mut chain = ChainLanes::through(beta).shunt(self.shunts[0]);
        for place in 1..self.count {
            if self.row_spacing_m > 0.0 {
                chain = chain.line(gamma_squared, self.series, self.row_spacing_m);
            }
            chain = chain.shunt(self.shunts[place]);
        }
        chain
    }
}

impl Kernel for RowsKernel<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let k = at.load(&self.wavenumber_per_m);
        let mut shunts = [at.splat_complex(Complex64::ZERO); MOST_ROWS];
        for (shunt, column) in shunts.iter_mut().zip(&self.shunts) {
            *shunt = column.at(at);
        }
        let between = RowsAt {
            row_spacing_m: self.row_spacing_m,
            minus_k_squared: self.minus_k_squared.at(at),
            series: self.series.at(at),
            shunts,
            count: self.shunts.len().min(MOST_ROWS),
        };
        let modes = ln_endless_modes((self.length_m, self.gap_m), 0.0, k, &between, &mut self.open);
        at.store(modes + ln_of_line(k, self.length_m), self.out);
    }
}

/// ln of what turns the modes of a line into its cross-section: λ²/4π, and what the line gains from its own
/// coherence.
#[inline(always)]
fn ln_of_line<S: Simd>(k: Real<S>, length_m: f64) -> Real<S> {
    let ln_k = k.ln();
    let short = (ln_k + (length_m / (1.2 * PI)).ln()) * -SHARPNESS;
    let lost = (short.larger(k.constant(0.0)) + (-short.abs()).exp().ln_1p()) * (1.0 / SHARPNESS);
    PI.ln() - ln_k * 2.0 - lost
}

/// The same of one row, which has no depth and mostly next to no impedance.
pub(super) struct OneRowKernel<'a> {
    pub(super) length_m: f64,
    pub(super) gap_m: f64,
    pub(super) wavenumber_per_m: Vec<f64>,
    /// Z_T, ohm m.
    pub(super) impedance: ComplexColumn,
    pub(super) out: &'a mut [f64],
    pub(super) open: Vec<(f64, f64)>,
}

impl OneRowKernel<'_> {
    pub(super) fn run_all(self) {
        let count = self.wavenumber_per_m.len();
        sweep(count, &mut OneRow { angles: gauss_angles(), row: self });
    }
}

struct OneRow<'a> {
    row: OneRowKernel<'a>,
    angles: [GaussAngle; GAUSS_ANGLES],
}

struct OneRowAt<S: Simd>(Complex<S>);

impl<S: Simd> BetweenMouths<S> for OneRowAt<S> {
    #[inline(always)]
    fn chain(&self, beta: Real<S>) -> ChainLanes<S> {
        ChainLanes::through(beta).shunt(self.0)
    }
}

impl Kernel for OneRow<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let row = &mut self.row;
        let (size, k, impedance) = ((row.length_m, row.gap_m), at.load(&row.wavenumber_per_m), row.impedance.at(at));
        // k² g over the shunt jωμ₀ g/Z_T
        let ratio = impedance.times_j().scale(k * (-1.0 / VACUUM_IMPEDANCE));
        let mut modes = ln_shunted_modes(size, k, ratio, &self.angles);
        // What is not a number compares with nothing.
        let done = modes.greater(f64::NEG_INFINITY);
        if !done.all() {
            let between = OneRowAt(ratio.recip().scale(k * k * row.gap_m));
            modes = done.select(modes, ln_endless_modes(size, 0.0, k, &between, &mut row.open));
        }
        at.store(modes + ln_of_line(k, row.length_m), row.out);
    }
}

#[cfg(test)]
mod tests {
    use crate::joint::{Contact, ContactLine, Fastener, FingerRow, GasketLine, Seam, TransferImpedance};
    use crate::leak::Leak;
    use crate::material::Material;

    /// Both ways to the same numbers: ln σ to 1e-12 from 10 Hz to 1 THz, where a deep overlap has hundreds of
    /// resonances and the twins do not halve the same panels of the integral.
    fn holds_together(leak: &dyn Leak) {
        for (from, to) in [(1.0, 11.0), (11.0, 12.0)] {
            let hz: Vec<f64> = (0..=403).map(|i| 10f64.powf(from + (to - from) * f64::from(i) / 403.0)).collect();
            let mut found = vec![0.0; hz.len()];
            leak.ln_cross_sections(&hz, &mut found);
            for (&f, found) in hz.iter().zip(found) {
                let expected = leak.ln_cross_section(f);
                let error = (found - expected).abs() / expected.abs().max(1.0);
                assert!(error <= 1e-12, "{leak:?} at {f:e} Hz: {error:e} of {expected}");
            }
        }
    }

    #[test]
    fn seams_hold_together() {
        let contact = Contact::new(1e4, 1e-13).unwrap();
        for (pitch, gap, overlap) in [(0.1, 20e-6, 25e-3), (0.1, 1e-3, 0.0), (0.03, 5e-3, 2e-3), (2.0, 1e-4, 0.1)] {
            let seam = Seam::new(42.0, pitch, gap, overlap).unwrap();
            holds_together(&seam);
            holds_together(&seam.clone().with_contact(contact).with_fastener(Fastener::ideal()));
            holds_together(&seam.with_open_fasteners(vec![3, 7, 8], 1.5 * gap).unwrap());
        }
        holds_together(&Seam::new(0.1, 0.1, 20e-6, 25e-3).unwrap());
    }

    #[test]
    fn sizes_at_the_ends_hold_together() {
        let perfect = Material::conductor("perfect", 1e30, 1.0).unwrap();
        holds_together(&Seam::new(1e9, 1e-9, 1e-200, 1e6).unwrap());
        holds_together(&Seam::new(1.0, 1.0, 1e-3, 1e-300).unwrap().with_faces(perfect));
    }

    #[test]
    fn contact_lines_hold_together() {
        let line =
            ContactLine::new(6.0, FingerRow::new(5e-3).unwrap(), 0.5e-3).unwrap().with_row_spacing(5e-3).unwrap();
        for rows in 1..=6 {
            holds_together(&line.clone().with_row_count(rows).unwrap());
        }
        holds_together(&line.clone().with_row_spacing(0.0).unwrap());
        let open = FingerRow::new(5e-3).unwrap().with_slot_width(4e-3).unwrap().with_resistance(1e15).unwrap();
        holds_together(&ContactLine::new(6.0, open, 0.5e-3).unwrap());
        let fingers = TransferImpedance::from(FingerRow::new(5e-3).unwrap());
        let rows = vec![TransferImpedance::gasket(2e-5, 2e-12).unwrap(), fingers];
        holds_together(&GasketLine::new(1.9, 1e-3, rows.clone()).unwrap());
        // One row in the few nodes that are enough for it, and where they are not.
        for (gap, row) in [(1e-3, rows[0].clone()), (1e-4, rows[1].clone()), (5e-3, rows[1].clone())] {
            holds_together(&GasketLine::new(1.9, gap, vec![row]).unwrap());
        }
        holds_together(&GasketLine::new(1.9, 1e-3, vec![TransferImpedance::gasket(3.0, 0.0).unwrap()]).unwrap());
    }
}
