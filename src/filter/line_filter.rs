//! Filters of one to four lines: common mode, differential mode, and what unbalance makes of them.
//!
//! Voltages and currents of the lines against the case are vectors; a bank in the lines is an impedance matrix, one
//! across them an admittance matrix, and cables, feedthrough capacitors and measured two-ports stand in each line. Modes
//! are not assumed to stay apart: a capacitor off by 5 % turns common mode into differential mode, and the conversion
//! is computed, not neglected. A case that is not flush on the wall has its bond's impedance common to all lines, at
//! both ends: it limits common mode and lets differential mode alone, as far as the lines are alike.
//!
//! Valid for banks that do not couple to one another; with a can stated, below a tenth of a wavelength for its length.

use num_complex::Complex64;

use super::bank::{Bank, Currents, Stage};
use super::coupled_lanes::{CoupledLanes, Path};
use super::coupled_response::{housed, response};
use super::line_matrix::{Basis, LineMatrix};
use super::line_mode::lines_within;
use crate::circuit::bounds::SINE_CREST;
use crate::decibel::DB_PER_NEPER;
use crate::error::{Error, Result, check};
use crate::filter::{Housing, LineMode, ModalTermination};
use crate::lanes::{in_parts, paired};
use crate::parameter::Element;
use crate::validity::Validity;

/// A filter of one to four lines.
///
/// ```
/// use stillroom::filter::{Bank, Capacitor, CommonModeChoke, LineFilter, LineMode, ModalTermination};
/// let filter = LineFilter::new(2, vec![
///     Bank::Between { from: 0, to: 1, part: Capacitor::new(470e-9)?.into() },
///     Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6)?),
///     Bank::ToCase(vec![Capacitor::new(4.7e-9)?.into(), Capacitor::new(4.7e-9)?.into()]),
/// ])?;
/// let ends = ModalTermination::each_line(50.0, 2)?;
/// let common_db = filter.insertion_loss_db(1e6, LineMode::Common, LineMode::Common, &ends, &ends)?;
/// let between_db = filter.insertion_loss_db(1e6, LineMode::Differential(0, 1), LineMode::Differential(0, 1), &ends, &ends)?;
/// // Balanced parts convert nothing.
/// let converted_db = filter.insertion_loss_db(1e6, LineMode::Common, LineMode::Differential(0, 1), &ends, &ends)?;
/// assert!(common_db > 40.0 && between_db > 50.0 && converted_db > 250.0);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "more lines than are computed, no banks, banks that do not fit the lines")]
pub struct LineFilter {
    /// Number of lines, 1 to 4.
    #[kept]
    lines: usize,
    /// From the source's side to the load's.
    #[part(python = BankArg)]
    banks: Vec<Bank>,
    /// Load current, effective value, out in one line and back in others.
    #[parameter(circuit_non_negative, default = 0.0)]
    load_current_rms_a: f64,
    /// Current in each line that returns elsewhere, effective value: it magnetises a current-compensated choke fully.
    #[parameter(circuit_non_negative, default = 0.0)]
    residual_current_rms_a: f64,
    /// Peak of both over effective value, one or more: the square root of two (a sine) where not given, 1 for direct
    /// current, 2 to 3 for rectifiers.
    #[parameter(within(1.0, 1e30), default = SINE_CREST)]
    crest_factor: f64,
    /// The can and its bond to the wall; ideal where not given. The bond is common to all lines.
    #[part(copy, free)]
    housing: Option<Housing>,
}

impl LineFilter {
    fn settle(self) -> Result<Self> {
        lines_within(self.lines)?;
        check::not_empty("banks", &self.banks)?;
        for (place, bank) in self.banks.iter().enumerate() {
            bank.check(self.lines).map_err(|error| error.within(&format!("banks.{place}")))?;
        }
        Ok(self)
    }

    /// What the lines carry at the crest.
    pub(super) fn peak_currents(&self) -> Currents {
        Currents {
            load_peak_a: self.crest_factor * self.load_current_rms_a,
            residual_peak_a: self.crest_factor * self.residual_current_rms_a,
        }
    }

    /// Loss in dB from one mode at the source to one at the load, at a frequency in Hz.
    ///
    /// For the same mode it is the insertion loss `20 log10(V20/V2)`. For different modes it is the conversion
    /// loss: `V20` is what the driving mode would give in its own mode without the filter, `V2` what the
    /// filter gives in the other. Balanced parts convert nothing: infinite, or what rounding leaves.
    ///
    /// # Errors
    /// For modes of lines that do not exist; for a filter without loss at a resonance that has no solution.
    pub fn insertion_loss_db(
        &self,
        frequency_hz: f64,
        drive: LineMode,
        listen: LineMode,
        source: &ModalTermination,
        load: &ModalTermination,
    ) -> Result<f64> {
        let mut loss = [0.0];
        self.insertion_losses_db(&[frequency_hz], drive, listen, source, load, &mut loss)?;
        Ok(loss[0])
    }

    /// The same over a sweep; `out` is as long as `frequency_hz` (what is longer is left alone).
    ///
    /// # Errors
    /// As [`insertion_loss_db`](Self::insertion_loss_db), or for a frequency that is not positive.
    pub fn insertion_losses_db(
        &self,
        frequency_hz: &[f64],
        drive: LineMode,
        listen: LineMode,
        source: &ModalTermination,
        load: &ModalTermination,
        out: &mut [f64],
    ) -> Result<()> {
        drive.check("drive", self.lines)?;
        listen.check("listen", self.lines)?;
        check::frequencies(frequency_hz)?;
        let (frequency_hz, out) = paired(frequency_hz, out);
        let path = Path { drive, listen, source, load };
        // A few frequencies are done before the banks are prepared for many.
        let lanes = if out.len() < 4 { None } else { CoupledLanes::of(self) };
        let work = if lanes.is_some() { 10 } else { 100 } * self.lines * self.banks.len();
        in_parts(out, work * frequency_hz.len(), |start, part| {
            let frequency_hz = &frequency_hz[start..start + part.len()];
            match &lanes {
                Some(lanes) => lanes.losses_np(frequency_hz, &path, part),
                None => part.fill(f64::NAN),
            }
            for (loss, &f) in part.iter_mut().zip(frequency_hz) {
                if loss.is_nan() {
                    match self.plain_loss_np(f, &path) {
                        Some(found) => *loss = found,
                        // Left as it is: no number marks a resonance without solution.
                        None => continue,
                    }
                }
                *loss = self.housing.as_ref().map_or(*loss, |housing| housing.isolated(*loss)) * DB_PER_NEPER;
            }
        });
        match out.iter().position(|loss| loss.is_nan()) {
            None => Ok(()),
            Some(place) => Err(Error::OutOfRange {
                quantity: "frequency_hz".into(),
                value: frequency_hz[place],
                unit: "Hz".into(),
                accepted: "off a resonance that nothing damps".into(),
            }),
        }
    }

    /// In which coordinates nothing mixes that the lines keep apart.
    pub(super) fn basis(&self) -> Basis {
        if self.banks.iter().all(Bank::is_alike) { Basis::Modes } else { Basis::Lines }
    }

    // Without what passes beside the filter.
    fn plain_loss_np(&self, frequency_hz: f64, path: &Path<'_>) -> Option<f64> {
        let basis = self.basis();
        let source = path.source.impedance(self.lines, frequency_hz, basis);
        let load = path.load.impedance(self.lines, frequency_hz, basis);
        let voltages = basis.coordinates(self.lines, path.drive.voltages(self.lines)).map(Complex64::from);
        let read = |mode: LineMode, current: &LineMatrix| -> Complex64 {
            let reading = basis.coordinates(self.lines, mode.reading(self.lines));
            load.apply(&current.apply(&voltages)).iter().zip(reading).map(|(voltage, weight)| voltage * weight).sum()
        };
        let before = read(path.drive, &source.plus(&load).inverse()?);
        let currents = self.peak_currents();
        let stage = |bank: &Bank| bank.stage(self.lines, frequency_hz, currents, basis);
        let stages: Vec<Stage> = self.banks.iter().map(stage).collect();
        let (after, ln_scale) = match self.housing.as_ref().filter(|housing| housing.alters_two_port()) {
            Some(housing) => {
                let found = housed(&stages, self.lines, &source, &load, housing, frequency_hz, basis)?;
                let (through, by_bond) = (read(path.listen, &found.through), read(path.listen, &found.by_bond));
                // What the bond does not pass on may be far below the smallest number.
                if by_bond.norm() == 0.0 {
                    (through, found.ln_scale)
                } else {
                    (by_bond + through * found.ln_scale.exp(), 0.0)
                }
            }
            None => {
                let through = response(stages.iter(), self.lines, &source, &load)?;
                (read(path.listen, &through.far), through.ln_scale)
            }
        };
        Some(before.norm().ln() - after.norm().ln() - ln_scale)
    }

    /// Where the parts' models hold and tables reach, and lumped parts in the stated can.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let can = self.housing.as_ref().map_or(Validity::Holds, |housing| housing.validity(frequency_hz));
        self.banks.iter().fold(can, |so_far, bank| so_far.and(bank.validity(frequency_hz)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{
        Capacitor, CommonModeChoke, Element, FeedthroughCapacitor, Inductor, Ladder, LossyLine, MeasuringCircuit, Part,
        Saturation, Termination,
    };

    fn cap(f: f64) -> Part {
        Capacitor::new(f).unwrap().into()
    }

    fn filter(first_f: f64, second_f: f64) -> LineFilter {
        LineFilter::new(
            2,
            vec![
                Bank::Between { from: 0, to: 1, part: cap(470e-9) },
                Bank::Choke(CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap()),
                Bank::ToCase(vec![cap(first_f), cap(second_f)]),
            ],
        )
        .unwrap()
    }

    fn ohms(r: f64) -> Termination {
        Termination::impedance(r).unwrap()
    }

    #[test]
    fn balanced_modes_equal_the_ladders_that_they_reduce_to() {
        let (source, load) = (
            ModalTermination { common: ohms(25.0), differential: ohms(100.0) },
            ModalTermination { common: ohms(70.0), differential: ohms(5.0) },
        );
        let choke = CommonModeChoke::from_leakage(3e-3, 30e-6).unwrap();
        for frequency_hz in [10e3, 150e3, 1e6, 30e6] {
            let coil = |l: f64| Element::Series(Inductor::new(l).unwrap().into());
            let common =
                Ladder::new(vec![coil((1.0 + choke.coupling()) * 3e-3 / 2.0), Element::Shunt(cap(2.0 * 4.7e-9))])
                    .unwrap();
            let between = Ladder::new(vec![
                Element::Shunt(cap(470e-9)),
                coil(choke.leakage_h()),
                Element::Shunt(cap(0.5 * 4.7e-9)),
            ])
            .unwrap();
            let pairs = [
                (LineMode::Common, &common, MeasuringCircuit::new(ohms(25.0), ohms(70.0))),
                (LineMode::Differential(0, 1), &between, MeasuringCircuit::new(ohms(100.0), ohms(5.0))),
            ];
            for (mode, ladder, circuit) in pairs {
                let full = filter(4.7e-9, 4.7e-9).insertion_loss_db(frequency_hz, mode, mode, &source, &load).unwrap();
                let reduced = ladder.insertion_loss_db(frequency_hz, &circuit);
                // Lines instead of modes: the differential part of the choke is 1 % of its entries, squared
                // twice on the way, so four digits of sixteen go.
                assert!((full / reduced - 1.0).abs() < 1e-11, "{mode:?} {frequency_hz}: {full} {reduced}");
            }
        }
    }

    #[test]
    fn unbalance_converts_in_proportion_and_both_ways_alike() {
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let convert = |unbalance: f64, drive: LineMode, listen: LineMode| {
            filter(4.7e-9 * (1.0 + unbalance), 4.7e-9 * (1.0 - unbalance))
                .insertion_loss_db(1e6, drive, listen, &ends, &ends)
                .unwrap()
        };
        let (common, between) = (LineMode::Common, LineMode::Differential(0, 1));
        assert!(convert(0.0, common, between) > 250.0);
        let step = convert(0.001, common, between) - convert(0.01, common, between);
        assert!((step - 20.0).abs() < 0.01, "{step}");
        assert!(convert(0.1, between, common) < 130.0);
    }

    #[test]
    fn four_lines_have_one_common_and_alike_differential_modes() {
        let filter = LineFilter::new(
            4,
            vec![Bank::Choke(CommonModeChoke::new(1e-3, 0.99).unwrap()), Bank::ToCase(vec![cap(10e-9); 4])],
        )
        .unwrap();
        let ends = ModalTermination::each_line(50.0, 4).unwrap();
        let loss = |mode| filter.insertion_loss_db(1e6, mode, mode, &ends, &ends).unwrap();
        let first = loss(LineMode::Differential(0, 1));
        for (from, to) in [(0, 3), (2, 1), (3, 2)] {
            assert!((loss(LineMode::Differential(from, to)) - first).abs() < 1e-9);
        }
        let ladder = Ladder::new(vec![
            Element::Series(Inductor::new((1.0 + 3.0 * 0.99) * 1e-3 / 4.0).unwrap().into()),
            Element::Shunt(cap(40e-9)),
        ])
        .unwrap();
        let reduced = ladder.insertion_loss_db(1e6, &MeasuringCircuit::new(ohms(12.5), ohms(12.5)));
        assert!((loss(LineMode::Common) - reduced).abs() < 1e-10);
    }

    #[test]
    fn nonsense_is_refused_with_its_place() {
        assert!(LineFilter::new(0, vec![Bank::ToCase(vec![])]).is_err());
        assert!(LineFilter::new(5, vec![Bank::ToCase(vec![cap(1e-9); 5])]).is_err());
        assert!(LineFilter::new(2, vec![]).is_err());
        let error = LineFilter::new(2, vec![Bank::ToCase(vec![cap(1e-9)])]).unwrap_err();
        assert!(error.to_string().contains("banks.0.parts"), "{error}");
        assert!(LineFilter::new(2, vec![Bank::Between { from: 1, to: 1, part: cap(1e-9) }]).is_err());
        assert!(LineFilter::new(2, vec![Bank::Between { from: 0, to: 2, part: cap(1e-9) }]).is_err());
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let filter = filter(1e-9, 1e-9);
        assert!(filter.insertion_loss_db(1e6, LineMode::Line(2), LineMode::Common, &ends, &ends).is_err());
        assert!(filter.insertion_loss_db(f64::NAN, LineMode::Common, LineMode::Common, &ends, &ends).is_err());
        assert!(CommonModeChoke::new(1e-3, 1.0).is_err());
    }

    fn lossy_cap(f: f64) -> Part {
        Capacitor::new(f).unwrap().with_series_resistance_ohm(0.02).unwrap().into()
    }

    fn distributed() -> Vec<Element> {
        vec![
            FeedthroughCapacitor::new(22e-9).unwrap().with_conductor(3e-9, 1e-3).unwrap().into(),
            Element::Shunt(lossy_cap(4.7e-9)),
            LossyLine::new(0.4, 70.0, 2e8).unwrap().with_resistance(0.3, 1e6).unwrap().into(),
            Element::Series(Inductor::new(40e-6).unwrap().with_resistance_ohm(0.1).unwrap().into()),
        ]
    }

    #[test]
    fn one_line_is_a_ladder_whatever_stands_in_it_and_around_it() {
        let ladder = Ladder::new(distributed()).unwrap();
        let housings = [
            None,
            Some(Housing::new(0.1).unwrap().with_bond(1e-3, 20e-9).unwrap()),
            Some(Housing::new(0.1).unwrap().with_stray_capacitance_f(0.3e-12).unwrap()),
            Some(
                Housing::new(0.1)
                    .unwrap()
                    .with_bond(1e-3, 20e-9)
                    .unwrap()
                    .with_stray_capacitance_f(2e-12)
                    .unwrap()
                    .with_isolation_db(90.0)
                    .unwrap(),
            ),
        ];
        for housing in housings {
            let mut ladder = ladder.clone();
            let mut line =
                LineFilter::new(1, distributed().into_iter().map(|e| Bank::Each(vec![e])).collect()).unwrap();
            if let Some(housing) = housing {
                (ladder, line) = (ladder.with_housing(housing), line.with_housing(housing));
            }
            for (source, load) in [(50.0, 50.0), (0.1, 100.0), (100.0, 0.1)] {
                let ends = |ohm: f64| ModalTermination { common: ohms(ohm), differential: ohms(ohm) };
                for k in 0..60 {
                    let f = 10f64.powf(3.0 + 0.1 * f64::from(k));
                    let exact = ladder.insertion_loss_db(f, &MeasuringCircuit::new(ohms(source), ohms(load)));
                    let found = line
                        .insertion_loss_db(f, LineMode::Common, LineMode::Common, &ends(source), &ends(load))
                        .unwrap();
                    assert!((exact - found).abs() < 1e-8 * exact.abs().max(1.0), "{f:e} {source}: {exact} {found}");
                }
            }
        }
    }

    #[test]
    fn a_strap_limits_common_mode_and_not_the_mode_between_equal_lines() {
        let bond = Housing::new(0.1).unwrap().with_bond(1e-3, 60e-9).unwrap();
        let build = |first: f64, second: f64| {
            LineFilter::new(2, vec![Bank::ToCase(vec![lossy_cap(first), lossy_cap(second)])]).unwrap()
        };
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let loss = |filter: &LineFilter, mode| filter.insertion_loss_db(30e6, mode, mode, &ends, &ends).unwrap();
        let (flush, strapped) = (build(1e-6, 1e-6), build(1e-6, 1e-6).with_housing(bond));
        let between = LineMode::Differential(0, 1);
        assert!((loss(&flush, between) - loss(&strapped, between)).abs() < 1e-9);
        // In common mode the two lines are one line of half the impedances with the same bond.
        let half = Ladder::new(vec![Element::Shunt(
            Capacitor::new(2e-6).unwrap().with_series_resistance_ohm(0.01).unwrap().into(),
        )])
        .unwrap()
        .with_housing(bond);
        let exact = half.insertion_loss_db(30e6, &MeasuringCircuit::new(ohms(25.0), ohms(25.0)));
        assert!((loss(&strapped, LineMode::Common) - exact).abs() < 1e-9);
        assert!(loss(&flush, LineMode::Common) > exact + 20.0);
        // A strap makes conversion out of unequal lines.
        let unequal = build(1e-6, 0.5e-6);
        let converted =
            |filter: &LineFilter| filter.insertion_loss_db(30e6, LineMode::Common, between, &ends, &ends).unwrap();
        assert!((converted(&unequal.clone().with_housing(bond)) - converted(&unequal)).abs() > 0.1);
        assert!(!strapped.validity(1e9).holds() && strapped.validity(1e8).holds());
    }

    #[test]
    fn unlike_losses_in_two_lines_do_not_disturb_one_another() {
        // A kilometre of lossy cable in one line, nothing in the other: the other's loss is exact.
        let long = LossyLine::new(1e3, 50.0, 2e8).unwrap().with_resistance(40.0, 1e6).unwrap();
        let none = LossyLine::new(1e-9, 50.0, 2e8).unwrap();
        let filter = LineFilter::new(2, vec![Bank::Each(vec![long.into(), none.into()])]).unwrap();
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let loss =
            |line| filter.insertion_loss_db(1e7, LineMode::Line(line), LineMode::Line(line), &ends, &ends).unwrap();
        let alone = Ladder::new(vec![long.into()]).unwrap().insertion_loss_db(1e7, &MeasuringCircuit::fifty_ohm());
        assert!(alone > 3000.0);
        assert!((loss(0) / alone - 1.0).abs() < 1e-12, "{} {alone}", loss(0));
        assert!(loss(1).abs() < 1e-6, "{}", loss(1));
    }

    #[test]
    fn a_choke_saturates_by_what_is_not_compensated() {
        let choke = CommonModeChoke::new(2e-3, 0.99).unwrap().with_saturation(Saturation::new(0.5, 2.0).unwrap());
        assert!((choke.magnetising_peak_a(2, 16.0, 0.0) - 16.0 * 0.01 / 1.99).abs() < 1e-15);
        assert_eq!(choke.magnetising_peak_a(1, 16.0, 0.1), 16.1);
        let filter = LineFilter::new(2, vec![Bank::Choke(choke)]).unwrap();
        let ends = ModalTermination::each_line(50.0, 2).unwrap();
        let loss = |filter: &LineFilter, mode| filter.insertion_loss_db(1e6, mode, mode, &ends, &ends).unwrap();
        // A residual current of 0.5 A at its crest leaves half.
        let residual = filter.clone().with_residual_current_rms_a(0.5 / 2f64.sqrt()).unwrap();
        let direct = filter.clone().with_residual_current_rms_a(0.5).unwrap().with_crest_factor(1.0).unwrap();
        assert!((loss(&residual, LineMode::Common) - loss(&direct, LineMode::Common)).abs() < 1e-9);
        assert!(filter.clone().with_crest_factor(0.99).is_err());
        let lost = loss(&filter, LineMode::Common) - loss(&residual, LineMode::Common);
        assert!((lost - 20.0 * 2f64.log10()).abs() < 0.1, "{lost}");
        let between = LineMode::Differential(0, 1);
        assert!((loss(&filter, between) - loss(&residual, between)).abs() < 1e-12);
        let loaded = filter.clone().with_load_current_rms_a(16.0).unwrap();
        assert!(loss(&loaded, LineMode::Common) < loss(&filter, LineMode::Common));
    }

    #[test]
    fn the_lanes_and_their_twin_say_the_same() {
        let coil = |henry: f64| {
            Inductor::new(henry)
                .unwrap()
                .with_resistance_ohm(0.1)
                .unwrap()
                .with_parallel_capacitance_f(12e-12)
                .unwrap()
                .with_core_loss_ohm(4e3)
                .unwrap()
                .into()
        };
        let choke = CommonModeChoke::from_leakage(2e-3, 20e-6)
            .unwrap()
            .with_resistance_ohm(0.02)
            .unwrap()
            .with_parallel_capacitance_f(20e-12)
            .unwrap()
            .with_relaxation_hz(1e6)
            .unwrap()
            .with_saturation(Saturation::new(0.5, 2.0).unwrap());
        let frequency_hz: Vec<f64> = (0..=240).map(|k| 10f64.powf(1.0 + 0.035 * f64::from(k))).collect();
        for lines in 1..=4_usize {
            let each =
                |of: &dyn Fn(f64) -> Part| (0..lines).map(|line| of(1.0 + 0.1 * line as f64)).collect::<Vec<_>>();
            let mut banks = vec![
                Bank::ToCase(each(&|scale| lossy_cap(4.7e-9 * scale))),
                Bank::Choke(choke),
                Bank::Series(each(&|scale| coil(50e-6 * scale))),
                Bank::ToCase(vec![lossy_cap(10e-9); lines]),
            ];
            if lines > 1 {
                banks.insert(0, Bank::Between { from: lines - 1, to: 0, part: lossy_cap(0.47e-6) });
                banks.push(Bank::Between { from: 0, to: 1, part: lossy_cap(1e-6) });
            }
            let filter = LineFilter::new(lines, banks).unwrap().with_load_current_rms_a(10.0).unwrap();
            let mains = ModalTermination::mains_network(lines).unwrap();
            let each = ModalTermination::each_line(50.0, lines).unwrap();
            let low = ModalTermination { common: ohms(0.1), differential: ohms(100.0) };
            let last = LineMode::Line(lines - 1);
            let mut modes = vec![(LineMode::Common, LineMode::Common), (last, last), (LineMode::Common, last)];
            if lines > 1 {
                modes.push((LineMode::Differential(0, 1), LineMode::Differential(0, 1)));
                modes.push((LineMode::Common, LineMode::Differential(0, 1)));
            }
            let lanes = CoupledLanes::of(&filter).unwrap();
            for (source, load) in [(&mains, &each), (&low, &each), (&each, &mains)] {
                for &(drive, listen) in &modes {
                    let path = Path { drive, listen, source, load };
                    let mut swept = vec![0.0; frequency_hz.len()];
                    lanes.losses_np(&frequency_hz, &path, &mut swept);
                    let left: usize = swept.iter().filter(|loss| loss.is_nan()).count();
                    assert!(left < 40, "{lines} {drive:?}: {left} left to the scalar twin");
                    for (&found, &f) in swept.iter().zip(&frequency_hz) {
                        let exact = filter.plain_loss_np(f, &path).unwrap();
                        let near = found.is_nan() || (found - exact).abs() < 1e-9 * exact.abs().max(1.0);
                        assert!(near, "{lines} {drive:?} {listen:?} {f:e}: {found} {exact}");
                    }
                }
            }
        }
        // What the lanes have no form for is left whole to the scalar twin.
        let cabled = LineFilter::new(4, vec![Bank::Each(distributed())]).unwrap();
        assert!(CoupledLanes::of(&cabled).is_none());
    }
}
