//! Ladders of series and shunt parts, from the source's side to the load's.
//!
//! ```
//! use stillroom::filter::{Capacitor, Element, Inductor, Ladder, MeasuringCircuit};
//! // 100 uH in the line, then 1 uF across it, at 100 kHz between 50 ohm: 27.91 dB.
//! let ladder = Ladder::new(vec![
//!     Element::Series(Inductor::new(100e-6)?.into()),
//!     Element::Shunt(Capacitor::new(1e-6)?.into()),
//! ])?;
//! assert!((ladder.insertion_loss_db(100e3, &MeasuringCircuit::fifty_ohm()) - 27.91).abs() < 0.005);
//! // The same between 0.1 and 100 ohm gains 19.18 dB at its resonance: negative, and shown as it is.
//! let gain_db = ladder.insertion_loss_db(15_915.5, &MeasuringCircuit::low_to_high());
//! assert!((gain_db + 19.18).abs() < 0.005);
//! # Ok::<(), stillroom::Error>(())
//! ```
//!
//! Insertion loss is 20 log10(V20/V2) as CISPR 17 defines it; see [`two_port`](crate::circuit::two_port).

use crate::circuit::bounds::SINE_CREST;
use crate::circuit::chain::{CircuitChain, Link};
use crate::circuit::lumped_chain::{Ends, Immittance, LumpedChain};
use crate::circuit::{Scattering, Terminations, TwoPort};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::filter::{FeedthroughCapacitor, Housing, LossyLine, MeasuredTwoPort, MeasuringCircuit, Part};
use crate::parameter::Element;
use crate::validity::Validity;

/// One member of a ladder.
#[derive(Debug, Clone, PartialEq, Element)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Element {
    /// In the line.
    Series(Part),
    /// From the line to the case.
    Shunt(Part),
    /// A feedthrough capacitor in the line.
    Feedthrough(FeedthroughCapacitor),
    /// A length of cable.
    Line(LossyLine),
    /// A measured two-port.
    Measured(MeasuredTwoPort),
}

impl Element {
    /// As a two-port at a frequency in Hz and a peak (or direct) current in A.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64, peak_current_a: f64) -> TwoPort {
        match self {
            Self::Series(part) => TwoPort::series(part.impedance_ohm(frequency_hz, peak_current_a)),
            Self::Shunt(part) => TwoPort::shunt(part.admittance_s(frequency_hz, peak_current_a)),
            Self::Feedthrough(part) => part.two_port(frequency_hz),
            Self::Line(line) => line.two_port(frequency_hz),
            Self::Measured(measured) => measured.two_port(frequency_hz),
        }
    }

    /// Where the element's model holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        match self {
            Self::Series(part) | Self::Shunt(part) => part.validity(frequency_hz),
            Self::Measured(measured) => measured.validity(frequency_hz),
            Self::Feedthrough(part) => part.validity(frequency_hz),
            Self::Line(_) => Validity::Holds,
        }
    }
}

impl From<FeedthroughCapacitor> for Element {
    fn from(part: FeedthroughCapacitor) -> Self {
        Self::Feedthrough(part)
    }
}

impl From<LossyLine> for Element {
    fn from(line: LossyLine) -> Self {
        Self::Line(line)
    }
}

impl From<MeasuredTwoPort> for Element {
    fn from(measured: MeasuredTwoPort) -> Self {
        Self::Measured(measured)
    }
}

/// A filter: its elements from source to load, the load current, and the can that it sits in.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "no elements")]
pub struct Ladder {
    /// From the source's side to the load's; at least one.
    #[part(python = ElementArg)]
    elements: Vec<Element>,
    /// Load current, effective value. Coils that saturate are judged at its crest, so the loss is what may be counted
    /// on; without current it is the best that the filter can do.
    #[parameter(circuit_non_negative, default = 0.0)]
    load_current_rms_a: f64,
    /// Peak over effective value, one or more: the square root of two (a sine) where not given, 1 for direct current,
    /// 2 to 3 for rectifiers.
    #[parameter(within(1.0, 1e30), default = SINE_CREST)]
    crest_factor: f64,
    /// The can and its bond; ideal where not given.
    #[part(copy, free)]
    housing: Option<Housing>,
}

impl Ladder {
    fn settle(self) -> Result<Self> {
        check::not_empty("elements", &self.elements)?;
        Ok(self)
    }

    /// The same ladder of other elements, with its load current and can.
    ///
    /// # Errors
    /// For an empty ladder.
    pub fn with_elements(&self, elements: Vec<Element>) -> Result<Self> {
        Self { elements, ..*self }.settle()
    }

    /// Peak of the load current, A: at it coils are judged.
    #[must_use]
    pub fn load_peak_a(&self) -> f64 {
        self.crest_factor * self.load_current_rms_a
    }

    /// The ladder as a two-port at a frequency in Hz, in its can. The can's isolation is not part of a
    /// two-port: it enters the insertion loss.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64) -> TwoPort {
        self.chain(1).two_port(frequency_hz)
    }

    /// Two-ports over a sweep.
    #[must_use]
    pub fn two_ports(&self, frequency_hz: &[f64]) -> Vec<TwoPort> {
        let chain = self.chain(frequency_hz.len());
        frequency_hz.iter().map(|&f| chain.two_port(f)).collect()
    }

    /// Insertion loss in dB at a frequency in Hz: 20 log10(V20/V2), negative where it gains.
    #[must_use]
    pub fn insertion_loss_db(&self, frequency_hz: f64, circuit: &MeasuringCircuit) -> f64 {
        let mut loss = [0.0];
        self.insertion_losses_db(&[frequency_hz], circuit, &mut loss);
        loss[0]
    }

    /// Insertion loss in dB over a sweep; `out` is as long as `frequency_hz` (what is longer is left alone).
    pub fn insertion_losses_db(&self, frequency_hz: &[f64], circuit: &MeasuringCircuit, out: &mut [f64]) {
        match circuit.constant() {
            Some(ends) => self.insertions_np(frequency_hz, Ends::Same(ends), out),
            None => {
                let each: Vec<Terminations> = frequency_hz.iter().map(|&f| circuit.at(f)).collect();
                self.insertions_np(frequency_hz, Ends::Each(&each), out);
            }
        }
        for loss in out.iter_mut().take(frequency_hz.len()) {
            *loss *= DB_PER_NEPER;
        }
    }

    // Natural logarithm of |V20/V2|, isolation included.
    fn insertions_np(&self, frequency_hz: &[f64], ends: Ends<'_>, out: &mut [f64]) {
        self.chain(frequency_hz.len()).ln_insertions(frequency_hz, ends, out);
        if let Some(housing) = &self.housing {
            for loss in out.iter_mut().take(frequency_hz.len()) {
                *loss = housing.isolated(*loss);
            }
        }
    }

    /// Natural logarithm of the transducer power gain at a frequency in Hz: power into the load over the
    /// power that the source could give at best. What passes beside the filter is included.
    #[must_use]
    pub fn ln_transducer_gain(&self, frequency_hz: f64, circuit: &MeasuringCircuit) -> f64 {
        let mut gain = [0.0];
        self.ln_transducer_gains(&[frequency_hz], circuit, &mut gain);
        gain[0]
    }

    /// The same over a sweep; `out` is as long as `frequency_hz` (what is longer is left alone).
    pub fn ln_transducer_gains(&self, frequency_hz: &[f64], circuit: &MeasuringCircuit, out: &mut [f64]) {
        let each: Vec<Terminations> = frequency_hz.iter().map(|&f| circuit.at(f)).collect();
        self.insertions_np(frequency_hz, Ends::Each(&each), out);
        for (gain, ends) in out.iter_mut().zip(&each) {
            *gain = TwoPort::THROUGH.ln_transducer_gain(ends) - 2.0 * *gain;
        }
    }

    /// Power-wave scattering parameters at a frequency in Hz for references with positive resistance.
    ///
    /// # Errors
    /// For a reference without resistance.
    pub fn scattering(&self, frequency_hz: f64, references: &Terminations) -> Result<Scattering> {
        self.two_port(frequency_hz).scattering(references)
    }

    /// Least insertion loss in dB over all passive sources and loads, over a sweep.
    ///
    /// Minus infinity for a ladder without loss. `out` is as long as `frequency_hz`.
    pub fn worst_insertion_losses_db(&self, frequency_hz: &[f64], out: &mut [f64]) {
        self.chain(frequency_hz.len()).ln_largest_insertion_gains(frequency_hz, out);
        for loss in out.iter_mut().take(frequency_hz.len()) {
            let loss_np = -*loss;
            *loss = DB_PER_NEPER * self.housing.as_ref().map_or(loss_np, |housing| housing.isolated(loss_np));
        }
    }

    /// Where lumped parts in the stated can hold, and tables reach; without a can there is nothing to compare
    /// with the wavelength, and the answer is for ideal leads.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let can = self.housing.as_ref().map_or(Validity::Holds, |housing| housing.validity(frequency_hz));
        self.elements.iter().fold(can, |so_far, element| so_far.and(element.validity(frequency_hz)))
    }

    // Made ready for a sweep of so many frequencies: runs of lumped parts in columns, and what stands between them.
    fn chain(&self, frequencies: usize) -> CircuitChain<'_> {
        let peak_a = self.load_peak_a();
        let mut links: Vec<Link<'_>> = Vec::new();
        for element in &self.elements {
            match element {
                Element::Feedthrough(part) => {
                    push_lumped(&mut links, true, &part.end());
                    match part.shunt() {
                        Some(admittance) => push_lumped(&mut links, false, &admittance),
                        None => links.push(Link::Line(part.law())),
                    }
                    push_lumped(&mut links, true, &part.end());
                }
                Element::Line(line) => links.push(Link::Line(line.law())),
                // Worth its preparation from a few frequencies on.
                Element::Measured(measured) if 4 * frequencies > measured.frequency_hz().len() => {
                    links.push(Link::Asked(Box::new(measured.prepared())));
                }
                Element::Series(part) | Element::Shunt(part) => {
                    let in_line = matches!(element, Element::Series(_));
                    match part.lumped(peak_a) {
                        Some(impedance) if in_line => push_lumped(&mut links, true, &impedance),
                        Some(impedance) => push_lumped(&mut links, false, &impedance.inverse()),
                        None => links.push(self.asked(element)),
                    }
                }
                Element::Measured(_) => links.push(self.asked(element)),
            }
        }
        let case = self.housing.as_ref().filter(|housing| housing.alters_two_port()).map(Housing::case);
        CircuitChain { links, case }
    }

    // An element that no law describes.
    fn asked<'a>(&self, element: &'a Element) -> Link<'a> {
        let peak_a = self.load_peak_a();
        Link::Asked(Box::new(move |frequency_hz| element.two_port(frequency_hz, peak_a)))
    }
}

// At the load's end; what is nothing at all in the line is left out.
fn push_lumped(links: &mut Vec<Link<'_>>, in_line: bool, part: &Immittance) {
    if in_line && part.is_nothing() {
        return;
    }
    if let Some(Link::Lumped(chain)) = links.last_mut() {
        chain.push(in_line, part);
    } else {
        let mut chain = LumpedChain::default();
        chain.push(in_line, part);
        links.push(Link::Lumped(chain));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::worst_termination::magnification;
    use crate::filter::{Capacitor, FerriteBead, Inductor};

    fn members() -> Vec<Element> {
        let coil = Inductor::new(30e-6).unwrap().with_resistance_ohm(0.05).unwrap();
        let capacitor = Capacitor::new(47e-9).unwrap().with_series_resistance_ohm(0.03).unwrap();
        let bead = FerriteBead::new(vec![1e6, 1e7, 1e9], vec![5.0, 90.0, 40.0], vec![30.0, 60.0, -50.0]).unwrap();
        let feedthrough = FeedthroughCapacitor::new(10e-9).unwrap().with_conductor(2e-9, 1e-3).unwrap();
        let electrode = feedthrough.with_electrode_inductance_h(0.5e-9).unwrap();
        let electrode = electrode.with_series_resistance_ohm(5e-3).unwrap();
        let cable = LossyLine::new(1.3, 60.0, 2e8).unwrap().with_resistance(0.2, 1e6).unwrap();
        let lossless = LossyLine::new(0.7, 75.0, 2.4e8).unwrap();
        let frequencies: Vec<f64> = (0..200).map(|k| 10f64.powf(3.0 + 0.03 * f64::from(k))).collect();
        let inner = Ladder::new(vec![Element::Series(coil.into()), Element::Shunt(capacitor.into())]).unwrap();
        let rows = inner
            .two_ports(&frequencies)
            .iter()
            .map(|two_port| {
                let s = two_port.scattering(&Terminations::fifty_ohm()).unwrap();
                [s.s11, s.s12(), s.s21(), s.s22]
            })
            .collect();
        vec![
            Element::Shunt(capacitor.into()),
            Element::Series(coil.into()),
            feedthrough.with_flange_inductance_h(0.1e-9).unwrap().into(),
            electrode.with_mutual_inductance_h(10e-12).unwrap().into(),
            // A line of no impedance at all, and a part that is nothing but its capacitance.
            electrode.with_electrode_inductance_h(1e-30).unwrap().into(),
            FeedthroughCapacitor::new(1e-9).unwrap().into(),
            Element::Series(bead.into()),
            cable.into(),
            lossless.into(),
            MeasuredTwoPort::new(frequencies, rows, 50.0, 50.0).unwrap().into(),
            Element::Shunt(capacitor.into()),
        ]
    }

    #[test]
    fn a_bond_holds_the_loss_of_a_hundred_sections() {
        // Whatever is in the can, what its bond passes on is left: 20 lg(50/(2 x 1 mohm)) = 88 dB and what the ends mismatch,
        // the same for a hundred sections as for twenty.
        let coil = Inductor::new(30e-6).unwrap().with_resistance_ohm(0.02).unwrap();
        let capacitor = Capacitor::new(0.47e-6).unwrap().with_series_resistance_ohm(5e-3).unwrap();
        let bonded = Housing::new(0.1).unwrap().with_bond(1e-3, 0.0).unwrap();
        let of = |sections: usize| {
            let section = || [Element::Series(coil.into()), Element::Shunt(capacitor.into())];
            Ladder::new((0..sections).flat_map(|_| section()).collect()).unwrap().with_housing(bonded)
        };
        let frequencies: Vec<f64> = (0..100).map(|i| 1e6 * 1.05_f64.powi(i)).collect();
        let [mut few, mut many] = [[0.0; 100]; 2];
        of(20).insertion_losses_db(&frequencies, &MeasuringCircuit::fifty_ohm(), &mut few);
        of(100).insertion_losses_db(&frequencies, &MeasuringCircuit::fifty_ohm(), &mut many);
        for ((few, many), f) in few.iter().zip(&many).zip(&frequencies) {
            assert!((few - many).abs() < 1e-6 && *few > 87.9, "{f:e}: {few} {many}");
        }
    }

    #[test]
    fn sweeps_of_anything_in_any_can_equal_their_two_ports() {
        let frequencies: Vec<f64> = (0..=700).map(|k| 10f64.powf(1.0 + 0.0131 * f64::from(k))).collect();
        let housings = [
            None,
            Some(Housing::new(0.1).unwrap().with_bond(1e-3, 5e-9).unwrap()),
            Some(Housing::new(0.1).unwrap().with_stray_capacitance_f(1e-13).unwrap()),
            Some(Housing::new(0.1).unwrap().with_bond(0.0, 5e-9).unwrap().with_stray_capacitance_f(1e-13).unwrap()),
        ];
        let mut out = vec![0.0; frequencies.len()];
        for count in 1..=members().len() {
            for housing in housings {
                let mut ladder = Ladder::new(members().split_off(members().len() - count)).unwrap();
                if let Some(housing) = housing {
                    ladder = ladder.with_housing(housing);
                }
                for circuit in [MeasuringCircuit::high_to_low(), MeasuringCircuit::mains_network()] {
                    ladder.insertion_losses_db(&frequencies, &circuit, &mut out);
                    for (&f, found) in frequencies.iter().zip(&out) {
                        let exact = ladder.two_port(f).insertion_loss_db(&circuit.at(f));
                        // Where parts or waves cancel, the rounding of either shows.
                        assert!((found - exact).abs() < 1e-10 * exact.abs().max(1.0), "{count} {f:e}: {found} {exact}");
                    }
                }
                ladder.worst_insertion_losses_db(&frequencies, &mut out);
                for (&f, found) in frequencies.iter().zip(&out) {
                    let exact = ladder.two_port(f).worst_insertion_loss_db();
                    let bound = 1e-9 * exact.abs().max(1.0) + 1e-13 * magnification(&ladder.two_port(f));
                    assert!(
                        exact == *found || (found - exact).abs() <= bound,
                        "{count} {f:e}: {found} {exact} {bound:e}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_loss_beyond_all_numbers_is_left_to_the_twin() {
        let cable = LossyLine::new(2e3, 50.0, 2e8).unwrap().with_resistance(40.0, 1e6).unwrap();
        let ladder = Ladder::new(vec![cable.into()]).unwrap();
        let mut out = [0.0; 3];
        ladder.insertion_losses_db(&[1e5, 1e7, 1e9], &MeasuringCircuit::fifty_ohm(), &mut out);
        for (&f, found) in [1e5, 1e7, 1e9].iter().zip(out) {
            let exact = ladder.two_port(f).insertion_loss_db(&Terminations::fifty_ohm());
            assert!((found / exact - 1.0).abs() < 1e-12, "{f:e}: {found} {exact}");
        }
        assert!(out[2] > 20_000.0);
    }
}
