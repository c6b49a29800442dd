//! A door: the joints along its sides, each with a name.
//!
//! Every side lets through what it does on its own, and their cross-sections add: they are lines in
//! parallel. Rows behind each other within one side are that side's own matter.

use super::contact_line::ContactLine;
use super::gasket_line::GasketLine;
use super::knife_edge::KnifeEdge;
use super::seam::Seam;
use crate::decibel::ln_sum;
use crate::error::{Error, Result, check};
use crate::leak::{Columns, Curves, Extent, Leak};
use crate::parameter::{Element, Knobs};
use crate::validity::Validity;

/// A joint that can close one side of a door.
#[derive(Debug, Clone, PartialEq, Element)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
#[allow(clippy::large_enum_variant, reason = "a door has a handful of them, and a box would save nothing")]
pub enum Joint {
    /// Rows of contact fingers.
    Contacts(ContactLine),
    /// Gaskets, fingers or measured contacts.
    Gasket(GasketLine),
    /// A blade in a channel with fingers.
    KnifeEdge(KnifeEdge),
    /// A bolted seam.
    Seam(Seam),
}

impl Joint {
    fn as_leak(&self) -> &dyn Leak {
        match self {
            Self::Contacts(line) => line,
            Self::Gasket(line) => line,
            Self::KnifeEdge(edge) => edge,
            Self::Seam(seam) => seam,
        }
    }
}

impl From<ContactLine> for Joint {
    fn from(line: ContactLine) -> Self {
        Self::Contacts(line)
    }
}

impl From<GasketLine> for Joint {
    fn from(line: GasketLine) -> Self {
        Self::Gasket(line)
    }
}

impl From<KnifeEdge> for Joint {
    fn from(edge: KnifeEdge) -> Self {
        Self::KnifeEdge(edge)
    }
}

impl From<Seam> for Joint {
    fn from(seam: Seam) -> Self {
        Self::Seam(seam)
    }
}

/// A door by the joints of its perimeter.
///
/// ```
/// use stillroom::{joint::{ContactLine, Door, FingerRow, GasketLine, TransferImpedance}, leak::Leak, Parameters};
/// let jambs = ContactLine::new(5.1, FingerRow::new(5e-3)?, 0.5e-3)?;
/// let sill = GasketLine::new(0.9, 1e-3, vec![TransferImpedance::gasket(1e-3, 0.1e-9)?])?;
/// let door = Door::new(vec![("jambs", jambs.clone().into()), ("sill", sill.into())])?;
/// assert!(door.ln_cross_section(1e9) > jambs.ln_cross_section(1e9));
/// assert_eq!(door.parameter("sill.gap_m")?, 1e-3);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new = none, settle)]
pub struct Door {
    /// The joints by name, in the order given: contact lines, gasket lines, knife edges and seams. At least one; names
    /// without dots.
    #[part(walk = walk_sides, python = SidesArg)]
    sides: Sides,
}

/// Joints by name.
type Sides = Vec<(String, Joint)>;

impl Door {
    /// From named joints, at least one.
    ///
    /// # Errors
    /// For none; for names that are empty, hold a dot or are given twice.
    pub fn new<N: Into<String>>(sides: Vec<(N, Joint)>) -> Result<Self> {
        Self::checked(sides.into_iter().map(|(name, joint)| (name.into(), joint)).collect())
    }

    fn settle(self) -> Result<Self> {
        check::not_empty("sides", &self.sides)?;
        for (place, (name, _)) in self.sides.iter().enumerate() {
            if name.is_empty() || name.contains('.') {
                return Err(Error::Reserved { kind: "side".into(), name: name.clone() });
            }
            if self.sides[..place].iter().any(|(before, _)| before == name) {
                return Err(Error::DuplicateName { kind: "side".into(), name: name.clone() });
            }
        }
        Ok(self)
    }

    /// The parameters of a side appear below its name.
    fn walk_sides(&self, knobs: &mut Knobs<'_>) -> Result<Sides> {
        self.sides.iter().map(|(name, joint)| Ok((name.clone(), knobs.part(name, joint)?))).collect()
    }

    /// Length of all joints together, m.
    #[must_use]
    pub fn perimeter_m(&self) -> f64 {
        self.lines().map(|(length_m, _)| length_m).sum()
    }

    /// Name and ln of the cross-section of each side.
    #[must_use]
    pub fn ln_by_side(&self, frequency_hz: f64) -> Vec<(&str, f64)> {
        self.sides.iter().map(|(name, joint)| (name.as_str(), joint.as_leak().ln_cross_section(frequency_hz))).collect()
    }

    fn lines(&self) -> impl Iterator<Item = (f64, usize)> {
        self.sides.iter().filter_map(|(_, joint)| match joint.as_leak().extent() {
            Extent::Line { length_m, elements } => Some((length_m, elements)),
            _ => None,
        })
    }
}

impl Leak for Door {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        ln_sum(self.sides.iter().map(|(_, joint)| joint.as_leak().ln_cross_section(frequency_hz)))
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        let mut side = vec![0.0; out.len()];
        out.fill(f64::NEG_INFINITY);
        for (_, joint) in &self.sides {
            joint.as_leak().ln_cross_sections(frequency_hz, &mut side);
            out.iter_mut().zip(&side).for_each(|(sum, &ln)| *sum = ln_sum([*sum, ln]));
        }
    }

    /// Each side once.
    fn answer(&self, frequency_hz: &[f64], out: &mut Columns<'_>) {
        let sides: Vec<&dyn Leak> = self.sides.iter().map(|(_, joint)| joint.as_leak()).collect();
        let curves: Vec<Curves> = sides.iter().map(|side| Curves::of(*side, frequency_hz, false)).collect();
        for place in 0..frequency_hz.len() {
            let (mut power, mut amplitude) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
            for side in &curves {
                power = ln_sum([power, side.ln_cross_section[place]]);
                amplitude = ln_sum([amplitude, 0.5 * side.ln_in_amplitude[place]]);
            }
            out.ln_cross_section[place] = power;
            out.ln_in_amplitude[place] = 2.0 * amplitude;
        }
        let Some(directivity) = out.directivity.as_deref_mut() else { return };
        for (place, (slot, &f)) in directivity.iter_mut().zip(frequency_hz).enumerate() {
            let passes = |side: usize| curves[side].ln_cross_section[place];
            let worst = (0..sides.len()).max_by(|&one, &other| passes(one).total_cmp(&passes(other)));
            *slot = worst.map_or(3.0, |side| sides[side].directivity(f));
        }
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], _: &[f64], out: &mut [f64]) {
        let mut side = vec![0.0; out.len()];
        let mut root = side.clone();
        out.fill(f64::NEG_INFINITY);
        for (_, joint) in &self.sides {
            joint.as_leak().ln_cross_sections(frequency_hz, &mut side);
            joint.as_leak().ln_in_amplitude(frequency_hz, &side, &mut root);
            out.iter_mut().zip(&root).for_each(|(sum, &ln)| *sum = ln_sum([*sum, 0.5 * ln]));
        }
        out.iter_mut().for_each(|ln| *ln *= 2.0);
    }

    fn extent(&self) -> Extent {
        Extent::Line { length_m: self.perimeter_m(), elements: self.lines().map(|(_, elements)| elements).sum() }
    }

    fn directivity(&self, frequency_hz: f64) -> f64 {
        // Of the side that lets most through.
        let worst =
            self.sides.iter().map(|(_, joint)| joint.as_leak()).max_by(|one, other| {
                one.ln_cross_section(frequency_hz).total_cmp(&other.ln_cross_section(frequency_hz))
            });
        worst.map_or(3.0, |leak| leak.directivity(frequency_hz))
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.sides.iter().fold(Validity::Holds, |all, (_, joint)| all.and(joint.as_leak().validity(frequency_hz)))
    }
}
