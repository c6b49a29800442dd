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
//! Insertion loss is 20 log10(V20/V2) as CISPR 17 defines it; see [`two_port`](crate::wave::two_port).

use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::filter::record::checked_record;
use crate::filter::{FeedthroughCapacitor, Housing, LossyLine, MeasuredTwoPort, MeasuringCircuit, Part};
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::lumped_chain::{Ends, LumpedChain};
use crate::wave::{Scattering, Terminations, TwoPort};

/// One member of a ladder.
#[derive(Debug, Clone, PartialEq)]
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
    /// As a two-port at a frequency in Hz and a load current in A.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64, current_a: f64) -> TwoPort {
        match self {
            Self::Series(part) => TwoPort::series(part.impedance_ohm(frequency_hz, current_a)),
            Self::Shunt(part) => TwoPort::shunt(part.admittance_s(frequency_hz, current_a)),
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
            Self::Feedthrough(_) | Self::Line(_) => Validity::Holds,
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

impl Rebuild for Element {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        Ok(match self {
            Self::Series(part) => Self::Series(part.rebuild(knobs)?),
            Self::Shunt(part) => Self::Shunt(part.rebuild(knobs)?),
            Self::Feedthrough(part) => Self::Feedthrough(part.rebuild(knobs)?),
            Self::Line(line) => Self::Line(line.rebuild(knobs)?),
            Self::Measured(measured) => Self::Measured(measured.rebuild(knobs)?),
        })
    }
}

/// A filter: its elements from source to load, the load current, and the can that it sits in.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct Ladder {
    elements: Vec<Element>,
    load_current_a: f64,
    housing: Option<Housing>,
}

impl Ladder {
    /// A ladder from its elements, source side first; no load current, ideal can.
    ///
    /// # Errors
    /// For an empty ladder.
    pub fn new(elements: Vec<Element>) -> Result<Self> {
        check::not_empty("elements", &elements)?;
        Ok(Self { elements, load_current_a: 0.0, housing: None })
    }

    /// The same ladder of other elements, with its load current and can.
    ///
    /// # Errors
    /// For an empty ladder.
    pub fn with_elements(&self, elements: Vec<Element>) -> Result<Self> {
        check::not_empty("elements", &elements)?;
        Ok(Self { elements, load_current_a: self.load_current_a, housing: self.housing })
    }

    /// The same ladder carrying a load current, A: coils that saturate lose inductance.
    ///
    /// # Errors
    /// If negative or not finite.
    pub fn with_load_current_a(self, load_current_a: f64) -> Result<Self> {
        Ok(Self { load_current_a: check::non_negative("load_current_a", "A", load_current_a)?, ..self })
    }

    /// The same ladder in a can.
    #[must_use]
    pub fn with_housing(self, housing: Housing) -> Self {
        Self { housing: Some(housing), ..self }
    }

    /// The elements, source side first.
    #[must_use]
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// Load current, A.
    #[must_use]
    pub const fn load_current_a(&self) -> f64 {
        self.load_current_a
    }

    /// The can, if one is stated.
    #[must_use]
    pub const fn housing(&self) -> Option<&Housing> {
        self.housing.as_ref()
    }

    /// The ladder as a two-port at a frequency in Hz, in its can. The can's isolation is not part of a
    /// two-port: it enters the insertion loss.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64) -> TwoPort {
        self.in_can(&self.plan().two_port(frequency_hz), frequency_hz)
    }

    /// Two-ports over a sweep.
    #[must_use]
    pub fn two_ports(&self, frequency_hz: &[f64]) -> Vec<TwoPort> {
        let plan = self.plan();
        frequency_hz.iter().map(|&f| self.in_can(&plan.two_port(f), f)).collect()
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
        let plan = self.plan();
        let plain = !self.housing.as_ref().is_some_and(Housing::alters_two_port);
        match plan.lumped() {
            Some(chain) if plain => chain.ln_insertions(frequency_hz, ends, out),
            _ => {
                for (index, (loss, &f)) in out.iter_mut().zip(frequency_hz).enumerate() {
                    *loss = self.in_can(&plan.two_port(f), f).ln_insertion(ends.at(index)).re;
                }
            }
        }
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
        let ends = circuit.at(frequency_hz);
        let mut loss_np = [0.0];
        self.insertions_np(&[frequency_hz], Ends::Same(ends), &mut loss_np);
        TwoPort::THROUGH.ln_transducer_gain(&ends) - 2.0 * loss_np[0]
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
        let plan = self.plan();
        let plain = !self.housing.as_ref().is_some_and(Housing::alters_two_port);
        match plan.lumped() {
            Some(chain) if plain => chain.ln_largest_insertion_gains(frequency_hz, out),
            _ => {
                for (gain, &f) in out.iter_mut().zip(frequency_hz) {
                    *gain = self.in_can(&plan.two_port(f), f).ln_largest_insertion_gain();
                }
            }
        }
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

    fn in_can(&self, two_port: &TwoPort, frequency_hz: f64) -> TwoPort {
        self.housing.as_ref().map_or(*two_port, |housing| housing.around(two_port, frequency_hz))
    }

    fn plan(&self) -> Plan<'_> {
        let mut stages: Vec<Stage<'_>> = Vec::new();
        for element in &self.elements {
            let lumped = match element {
                Element::Series(part) => part.lumped(self.load_current_a).map(|impedance| (true, impedance)),
                Element::Shunt(part) => part.lumped(self.load_current_a).map(|impedance| (false, impedance.inverse())),
                _ => None,
            };
            match (lumped, stages.last_mut()) {
                (None, _) => stages.push(Stage::Other(element)),
                (Some((in_line, part)), Some(Stage::Lumped(chain))) => chain.push(in_line, &part),
                (Some((in_line, part)), _) => {
                    let mut chain = LumpedChain::default();
                    chain.push(in_line, &part);
                    stages.push(Stage::Lumped(chain));
                }
            }
        }
        Plan { stages, load_current_a: self.load_current_a }
    }
}

// A ladder made ready for a sweep: runs of lumped parts in columns, and what stands between them.
struct Plan<'a> {
    stages: Vec<Stage<'a>>,
    load_current_a: f64,
}

#[allow(clippy::large_enum_variant)]
enum Stage<'a> {
    Lumped(LumpedChain),
    Other(&'a Element),
}

impl Plan<'_> {
    fn two_port(&self, frequency_hz: f64) -> TwoPort {
        self.stages.iter().fold(TwoPort::THROUGH, |so_far, stage| match stage {
            Stage::Lumped(chain) => so_far.then(&chain.two_port(frequency_hz)),
            Stage::Other(element) => so_far.then(&element.two_port(frequency_hz, self.load_current_a)),
        })
    }

    // All of it as one run of lumped parts, where it is that.
    fn lumped(&self) -> Option<&LumpedChain> {
        match self.stages.as_slice() {
            [Stage::Lumped(chain)] => Some(chain),
            _ => None,
        }
    }
}

fn element_name(place: usize) -> String {
    format!("elements.{place}")
}

impl Rebuild for Ladder {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let elements = self
            .elements
            .iter()
            .enumerate()
            .map(|(place, element)| knobs.enter(&element_name(place), |knobs| element.rebuild(knobs)))
            .collect::<Result<_>>()?;
        let load_current_a = knobs.value("load_current_a", "A", self.load_current_a, "zero or positive");
        let built = Self::new(elements)?.with_load_current_a(load_current_a)?;
        match &self.housing {
            None => Ok(built),
            Some(housing) => Ok(built.with_housing(knobs.enter("housing", |knobs| housing.rebuild(knobs))?)),
        }
    }
}

checked_record!(Ladder as Record {
    elements: Vec<Element>,
    #[serde(default)]
    load_current_a: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    housing: Option<Housing>,
});
