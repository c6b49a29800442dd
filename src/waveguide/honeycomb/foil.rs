//! Foil honeycomb whose glued nodes are not bonded, alone or as two layers crossed.
//!
//! Foil honeycomb is expanded from a stack of ribbons with lines of glue between them. Unless it is soldered or plated, each ribbon
//! touches its neighbour through glue alone. For a wave whose electric field lies across the ribbons every node is then a narrow
//! slit through the whole depth: two faces of the node's width s at the distance t of the glue, a line without cutoff, with per
//! length
//!
//! Z' = jωμ₀ t/s + 2Z_s/s, Y' = jωε₀ε_r s/t + 1/R_c,
//!
//! Z_s the surface impedance of the foil and R_c the resistance of what contact there is over a length of node (Ω·m). A unit cell of
//! the lattice is 3s long and (√3/2)s high between ribbons, so that free space offers this line Z_f = η₀/(2√3), times cos θ
//! (TM) or 1/cos θ (TE). Node and cell carry the same current and their voltages add, in the even and in the odd half alike: with
//! ζ = ζ_cell + ζ_node the impedance of a half over that of the wave, ζ_node = z coth(γL/2) and z tanh(γL/2),
//!
//! T = ζ_e/(1 + ζ_e) − ζ_o/(1 + ζ_o), 1 + R = ζ_e/(1 + ζ_e) + ζ_o/(1 + ζ_o), z = √(Z'/Y')/Z_f.
//!
//! As long as both are far below the wave's own this is T_bonded + T_node, T_node = 1/(cosh γL + ½(z + 1/z) sinh γL).
//!
//! A field along the ribbons finds them whole. A second layer, turned by 90 degrees, stops what the first lets through. The
//! two are cascaded by the wave itself alone (zeroth order), all reflections between them counted: with r = 1 + R and
//! E = exp(−2jkd cos θ), T = T₁T₂ exp(−jkd cos θ)/[1 − E + E(r₁ + r₂ − r₁r₂)].
//!
//! Source: derived here; the line is that of two wide plates (D. M. Pozar, *Microwave Engineering*, 4th ed., 2012, sec. 2.1 and 3.2,
//! from memory). How good the contact of a real panel is nobody can compute: R_c is to be measured, or taken as a bound.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::panel::{DIRECTIONS, HoneycombPanel, Modal};
use crate::complex_functions::{decaying_root, exp_m1};
use crate::constants::{SPEED_OF_LIGHT, VACUUM_IMPEDANCE, VACUUM_PERMEABILITY, wavenumber_per_m};
use crate::decibel::{LnSum, LogTransmission};
use crate::error::{Error, Result, check};
use crate::leak::{Extent, Leak};
use crate::parameter::{Domain, Element, Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::Polarization;
use crate::waveguide::guide::{Shape, length};

/// Which way the tangential electric field lies on foil honeycomb.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ribbons {
    /// Along the ribbons of the (first) layer: they are whole.
    Along,
    /// Across them: every unbonded node is a slit.
    Across,
}

/// The glued nodes of foil honeycomb.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct UnbondedNodes {
    glue_m: f64,
    relative_permittivity: f64,
    contact_resistance_ohm_m: f64,
    foil_conductivity_s_per_m: f64,
}

impl UnbondedNodes {
    /// Nodes with glue of this thickness (m) and relative permittivity, no contact, foil of this conductivity (S/m).
    ///
    /// # Errors
    /// Unless the thickness and the conductivity are positive and the permittivity at least 1, all finite.
    pub fn new(glue_m: f64, relative_permittivity: f64, foil_conductivity_s_per_m: f64) -> Result<Self> {
        length("glue_m", glue_m)?;
        check::at_least_one("relative_permittivity", relative_permittivity)?;
        check::within("relative_permittivity", "", relative_permittivity, (1.0, 1e5), "from 1 to 1e5")?;
        check::positive("foil_conductivity_s_per_m", "S/m", foil_conductivity_s_per_m)?;
        check::within(
            "foil_conductivity_s_per_m",
            "S/m",
            foil_conductivity_s_per_m,
            (1.0, 1e15),
            "from 1 to 1e15 S/m",
        )?;
        Ok(Self { glue_m, relative_permittivity, contact_resistance_ohm_m: f64::INFINITY, foil_conductivity_s_per_m })
    }

    /// The same nodes with some contact: its resistance over a length of node, Ω·m; infinite for none.
    ///
    /// # Errors
    /// Unless it is positive.
    pub fn in_contact(self, contact_resistance_ohm_m: f64) -> Result<Self> {
        if contact_resistance_ohm_m != f64::INFINITY {
            check::positive("contact_resistance_ohm_m", "ohm m", contact_resistance_ohm_m)?;
            check::within(
                "contact_resistance_ohm_m",
                "ohm m",
                contact_resistance_ohm_m,
                (1e-15, 1e15),
                "from 1e-15 to 1e15 ohm m",
            )?;
        }
        Ok(Self { contact_resistance_ohm_m, ..self })
    }

    /// Thickness of the glue, m.
    #[must_use]
    pub fn glue_m(&self) -> f64 {
        self.glue_m
    }

    /// Relative permittivity of the glue.
    #[must_use]
    pub fn relative_permittivity(&self) -> f64 {
        self.relative_permittivity
    }

    /// Resistance of the contact over a length of node, Ω·m.
    #[must_use]
    pub fn contact_resistance_ohm_m(&self) -> f64 {
        self.contact_resistance_ohm_m
    }

    /// Conductivity of the foil, S/m.
    #[must_use]
    pub fn foil_conductivity_s_per_m(&self) -> f64 {
        self.foil_conductivity_s_per_m
    }

    /// Series impedance and shunt admittance per length of a node of this width.
    fn line(&self, width_m: f64, frequency_hz: f64) -> (Complex64, Complex64) {
        let omega = 2.0 * PI * frequency_hz;
        let surface = (PI * frequency_hz * VACUUM_PERMEABILITY / self.foil_conductivity_s_per_m).sqrt();
        let permittivity = self.relative_permittivity / (VACUUM_IMPEDANCE * SPEED_OF_LIGHT);
        let series = omega * VACUUM_PERMEABILITY * self.glue_m;
        (
            Complex64::new(2.0 * surface, 2.0 * surface + series) / width_m,
            Complex64::new(1.0 / self.contact_resistance_ohm_m, omega * permittivity * width_m / self.glue_m),
        )
    }
}

impl Rebuild for UnbondedNodes {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let glue_m = knobs.value("glue_m", "m", self.glue_m, Domain::POSITIVE);
        let permittivity = knobs.value("relative_permittivity", "", self.relative_permittivity, Domain::AT_LEAST_ONE);
        let conductivity =
            knobs.value("foil_conductivity_s_per_m", "S/m", self.foil_conductivity_s_per_m, Domain::POSITIVE);
        // No contact at all is no number that could be swept.
        let contact = match self.contact_resistance_ohm_m {
            f64::INFINITY => f64::INFINITY,
            finite => knobs.value("contact_resistance_ohm_m", "ohm m", finite, Domain::POSITIVE),
        };
        Self::new(glue_m, permittivity, conductivity)?.in_contact(contact)
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    glue_m: f64,
    relative_permittivity: f64,
    foil_conductivity_s_per_m: f64,
    /// Absent where there is none.
    #[serde(default)]
    contact_resistance_ohm_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for UnbondedNodes {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.glue_m, record.relative_permittivity, record.foil_conductivity_s_per_m)?
            .in_contact(record.contact_resistance_ohm_m.unwrap_or(f64::INFINITY))
    }
}

#[cfg(feature = "serde")]
impl From<UnbondedNodes> for Record {
    fn from(nodes: UnbondedNodes) -> Self {
        Self {
            glue_m: nodes.glue_m,
            relative_permittivity: nodes.relative_permittivity,
            foil_conductivity_s_per_m: nodes.foil_conductivity_s_per_m,
            contact_resistance_ohm_m: Some(nodes.contact_resistance_ohm_m).filter(|contact| contact.is_finite()),
        }
    }
}

/// A honeycomb of foil with unbonded nodes, or two of them crossed; a leak.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "cells that are not hexagonal, glue that fills the nodes")]
pub struct FoilPanel {
    /// One layer as if its nodes were bonded; of hexagonal cells.
    #[part]
    panel: HoneycombPanel,
    /// Its nodes.
    #[part]
    nodes: UnbondedNodes,
    /// Distance of a second, alike layer turned by 90 degrees; a single layer where not given.
    #[parameter(positive, setter = none)]
    crossed_gap_m: Option<f64>,
}

impl FoilPanel {
    fn settle(self) -> Result<Self> {
        let Shape::Hexagon { across_flats_m } = *self.panel.cell().guide().shape() else {
            return Err(Error::OutOfRange {
                quantity: "panel.cell".to_owned(),
                value: self.panel.cell().width_m(),
                unit: "m".into(),
                accepted: "hexagonal cells: only these are made of foil".into(),
            });
        };
        check::less_than("nodes.glue_m", "m", self.nodes.glue_m, "node_width_m", across_flats_m / 3_f64.sqrt())?;
        Ok(self)
    }

    /// The same with a second, alike layer turned by 90 degrees, `gap_m` behind it.
    ///
    /// # Errors
    /// Unless the gap is positive and finite.
    pub fn crossed(self, gap_m: f64) -> Result<Self> {
        Ok(Self { crossed_gap_m: Some(length("crossed_gap_m", gap_m)?), ..self })
    }

    /// Width of a node: the side of a cell, m.
    #[must_use]
    pub fn node_width_m(&self) -> f64 {
        self.panel.cell().width_m() / 3_f64.sqrt()
    }

    /// Transmission of the unbounded panel for a field along or across the ribbons of the first layer.
    ///
    /// # Errors
    /// Unless the frequency is positive and finite and the angle at least 0 and less than 90 degrees.
    pub fn transmission(
        &self,
        frequency_hz: f64,
        angle_deg: f64,
        polarization: Polarization,
        field: Ribbons,
    ) -> Result<LogTransmission> {
        let cosine = check::incidence_angle("angle_deg", angle_deg)?.to_radians().cos();
        let layer = Layer::new(self, check::frequency(frequency_hz)?);
        let wave = layer.wave(cosine, polarization);
        Ok(LogTransmission(match (self.crossed_gap_m, field) {
            (Some(gap_m), _) => wave.crossed(wavenumber_per_m(frequency_hz) * gap_m * cosine),
            (None, Ribbons::Along) => wave.ln_bonded,
            (None, Ribbons::Across) => wave.ln_across,
        }))
    }
}

/// One layer at one frequency.
struct Layer {
    modal: Modal,
    /// γL of the node and its impedance over that of a unit cell of free space.
    exponent: Complex64,
    impedance: Complex64,
}

impl Layer {
    fn new(foil: &FoilPanel, frequency_hz: f64) -> Self {
        let (series, shunt) = foil.nodes.line(foil.node_width_m(), frequency_hz);
        let gamma = decaying_root(series * shunt);
        let free = VACUUM_IMPEDANCE / (2.0 * 3_f64.sqrt());
        Self {
            modal: foil.panel.modal(frequency_hz),
            exponent: gamma * foil.panel.depth_m(),
            impedance: gamma / shunt / free,
        }
    }

    fn wave(&self, cosine: f64, polarization: Polarization) -> Wave {
        let tilt = if polarization == Polarization::Te { cosine } else { 1.0 / cosine };
        let z = self.impedance * tilt;
        let fall = -exp_m1(-2.0 * self.exponent);
        // cosh + ½(z + 1/z) sinh, without its exp(γL)/2.
        let denominator = 2.0 - fall + 0.5 * (z + 1.0 / z) * fall;
        let ln_node = 2_f64.ln() - self.exponent - denominator.ln();
        let half = -exp_m1(-self.exponent);
        let node = [z * (2.0 - half) / half, z * half / (2.0 - half)];
        let cell = self.modal.halves(cosine, polarization);
        let both = [cell[0] + node[0], cell[1] + node[1]];
        let ln_bonded = self.modal.ln_transmission(cosine, polarization);
        // T (1 + ζ_e)(1 + ζ_o) = ζ_e − ζ_o adds up over cell and node.
        let ln_loading = |halves: &[Complex64; 2]| halves.map(|half| (1.0 + half).ln()).iter().sum::<Complex64>();
        let ln_both = ln_loading(&both);
        let across = ln_sum(ln_bonded + ln_loading(&cell) - ln_both, ln_node + ln_loading(&node) - ln_both);
        Wave { ln_bonded, ln_across: across, seen: seen(&cell), seen_across: seen(&both) }
    }
}

/// 1 + R of a layer by the impedances of its halves.
fn seen(halves: &[Complex64; 2]) -> Complex64 {
    halves.iter().map(|half| half / (1.0 + half)).sum()
}

/// ln(exp a + exp b).
fn ln_sum(a: Complex64, b: Complex64) -> Complex64 {
    let (large, small) = if a.re >= b.re { (a, b) } else { (b, a) };
    large + (1.0 + (small - large).exp()).ln()
}

/// What a layer does with one wave, its field along and across the ribbons; `seen` is 1 + R.
struct Wave {
    ln_bonded: Complex64,
    ln_across: Complex64,
    seen: Complex64,
    seen_across: Complex64,
}

impl Wave {
    /// ln T of two layers with the phase `phase` between them: what one lets through across its ribbons meets those of the other.
    fn crossed(&self, phase: f64) -> Complex64 {
        let (first, second) = (self.seen_across, self.seen);
        let turn = exp_m1(Complex64::new(0.0, -2.0 * phase));
        let echoes = -turn + (1.0 + turn) * (first + second - first * second);
        self.ln_across + self.ln_bonded - Complex64::new(0.0, phase) - echoes.ln()
    }

    /// ln of the power that passes, over all directions of the ribbons against the plane of incidence.
    fn ln_mean_power(&self, phase: Option<f64>) -> f64 {
        if let Some(phase) = phase {
            return 2.0 * self.crossed(phase).re;
        }
        // |T_b + c²T_n|² + |sc T_n|² with T_n what the nodes add, the mean of c² and of c⁴ + s²c² being ½.
        let large = self.ln_bonded.re.max(self.ln_across.re);
        let [bonded, across] = [self.ln_bonded, self.ln_across].map(|ln| (ln - large).exp());
        let node = across - bonded;
        2.0 * large + (bonded.norm_sqr() + (bonded * node.conj()).re + 0.5 * node.norm_sqr()).ln()
    }
}

impl Leak for FoilPanel {
    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        // Beyond the range of single modes the nodes no longer count; the ratio there is kept.
        let within = frequency_hz.min(self.panel.highest_modal_hz());
        let layer = Layer::new(self, within);
        let (mut foil, mut bonded) = (LnSum::default(), LnSum::default());
        for &(cosine, ln_weight) in DIRECTIONS.iter() {
            let phase = self.crossed_gap_m.map(|gap_m| wavenumber_per_m(within) * gap_m * cosine);
            for polarization in [Polarization::Te, Polarization::Tm] {
                let wave = layer.wave(cosine, polarization);
                foil += ln_weight + wave.ln_mean_power(phase);
                bonded += ln_weight + 2.0 * wave.ln_bonded.re;
            }
        }
        let open = (0.5 * self.panel.area_m2()).ln();
        let cells = (self.panel.ln_cells(frequency_hz) + foil.ln() - bonded.ln()).min(open);
        self.panel.with_joint(cells, frequency_hz)
    }

    fn extent(&self) -> Extent {
        self.panel.extent()
    }

    fn each_part(&self, visit: &mut dyn FnMut(&dyn Leak)) {
        match self.panel.joint() {
            None => visit(self),
            Some(joint) => {
                visit(&Self { panel: self.panel.cells(), ..self.clone() });
                visit(&joint);
            }
        }
    }

    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        self.panel.ln_cells_in_amplitude(frequency_hz, ln_cross_section, out);
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let narrow = Validity::within(
            "nodes as narrow slits",
            "glue thickness / node width",
            "",
            self.nodes.glue_m / self.node_width_m(),
            (0.0, 0.05),
            "the fields beside the node count and more leaks through",
        );
        let line = Validity::within(
            "nodes as lines",
            "frequency / cutoff",
            "",
            frequency_hz / self.panel.cutoff_hz(),
            (0.0, 0.6),
            "the cells' own fields change what the nodes are driven with",
        );
        let own = narrow.and(line).and(self.panel.validity(frequency_hz));
        let Some(gap_m) = self.crossed_gap_m else { return own };
        let pitch_m = self.panel.cell().pitch_m();
        own.and(Validity::within(
            "layers linked by the wave alone",
            "gap / pitch of the cells",
            "",
            gap_m / pitch_m,
            (0.3, f64::INFINITY),
            "stored fields reach from layer to layer and let more through",
        ))
        .and(Validity::within(
            "layers without resonance between them",
            "gap / wavelength",
            "",
            gap_m * frequency_hz / SPEED_OF_LIGHT,
            (0.0, 0.45),
            "the gap resonates, sharper than any real panel",
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::waveguide::Cell;

    fn panel(depth_m: f64) -> HoneycombPanel {
        HoneycombPanel::new(Cell::hexagonal(4.8e-3, 0.1e-3).unwrap(), depth_m, (0.3, 0.3)).unwrap()
    }

    #[test]
    fn a_layer_keeps_the_power() {
        // |T|² + |R|² = 1 of a bonded layer without loss ties what it reflects to what it lets through.
        for (ratio, angle) in [(0.3, 0.0_f64), (0.8, 30.0), (1.05, 0.0), (1.1, 50.0)] {
            let panel = panel(3e-3);
            let modal = panel.modal(ratio * panel.cutoff_hz());
            for polarization in [Polarization::Te, Polarization::Tm] {
                let cosine = angle.to_radians().cos();
                let passed = (2.0 * modal.ln_transmission(cosine, polarization).re).exp();
                let back = (seen(&modal.halves(cosine, polarization)) - 1.0).norm_sqr();
                assert!((passed + back - 1.0).abs() < 1e-12, "{ratio} {angle} {polarization:?} {passed} {back}");
            }
        }
    }

    #[test]
    fn without_loss_a_crossed_pair_keeps_the_power() {
        // As good a conductor as can be given, no contact at all; what is missing is what the foil still takes.
        let kept = |sum: f64| sum < 1.0 + 1e-11 && sum > 1.0 - 1e-6;
        for glue_m in [1e-6, 50e-6] {
            let nodes = UnbondedNodes::new(glue_m, 3.5, 1e15).unwrap();
            for (ratio, angle) in [(1e-3, 0.0_f64), (0.2, 20.0), (0.55, 50.0), (1.1, 0.0)] {
                let foil = FoilPanel::new(panel(3e-3), nodes).unwrap().crossed(4e-3).unwrap();
                let f = ratio * foil.panel.cutoff_hz();
                let cosine = angle.to_radians().cos();
                let phase = wavenumber_per_m(f) * 4e-3 * cosine;
                for polarization in [Polarization::Te, Polarization::Tm] {
                    let wave = Layer::new(&foil, f).wave(cosine, polarization);
                    for (passed, seen) in [(wave.ln_bonded, wave.seen), (wave.ln_across, wave.seen_across)] {
                        let sum = (2.0 * passed.re).exp() + (seen - 1.0).norm_sqr();
                        assert!(kept(sum), "{glue_m} {ratio} {polarization:?} {sum}");
                    }
                    // What the pair sends back, and through one layer what the other does; from either side.
                    let turn = Complex64::new(0.0, -2.0 * phase).exp();
                    let layers = [(wave.seen_across - 1.0, wave.ln_across), (wave.seen - 1.0, wave.ln_bonded)];
                    for [(near, passed), (far, _)] in [layers, [layers[1], layers[0]]] {
                        let back = near + (2.0 * passed).exp() * far * turn / (1.0 - near * far * turn);
                        let sum = (2.0 * wave.crossed(phase).re).exp() + back.norm_sqr();
                        assert!(kept(sum), "{glue_m} {ratio} {polarization:?} {sum}");
                    }
                }
            }
        }
    }

    #[test]
    fn two_bonded_layers_keep_the_order() {
        // Contact as good as a bond: the crossed pair loses about twice the decibels of one, less what the gap gives back.
        let nodes = UnbondedNodes::new(10e-6, 3.5, 3.5e7).unwrap().in_contact(1e-12).unwrap();
        let one = FoilPanel::new(panel(12e-3), nodes).unwrap();
        let pair = one.clone().crossed(5e-3).unwrap();
        let db =
            |foil: &FoilPanel, f| foil.transmission(f, 0.0, Polarization::Te, Ribbons::Across).unwrap().shielding_db();
        for f in [1e8, 1e9, 10e9] {
            assert!(
                (db(&one, f) - one.panel.transmission(f, 0.0, Polarization::Te).unwrap().shielding_db()).abs() < 0.1
            );
            assert!(db(&pair, f) > db(&one, f) && db(&pair, f) < 2.0 * db(&one, f) + 7.0);
        }
    }
}
