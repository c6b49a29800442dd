//! What a rod makes of a tube: its two modes, tabulated once, and how its ends couple.
//!
//! The tables are in units of the radius of the round tube that stands for the bore: for HE11 that of the same TE cutoff, for TM0 that
//! of the same TM cutoff. Against finite elements (quadratic, on the bore itself) the second is on the safe side: cutoff and static decay 0
//! to 0.3 % too low for rods up to 0.6 of a square's or hexagon's width, more for thicker ones. The first puts the cutoff too high, by
//! [`SQUARE`] and [`HEXAGON`] times (ε₁ − ε₂)/(ε₁ + 2ε₂); that is taken off again.

use num_complex::Complex64;

use super::axial::{self, Axial, Layers, TM01};
use super::guide::{Guide, Shape};
use super::hybrid::{self, Hybrid};
use super::mode;
use super::rod::Rod;
use super::series::Series;
use super::spectrum::circle::TE11;

/// Error of the stand-in's HE11 cutoff against the rod over the width, at a great contrast. Finite elements, contrasts from 1.5 to 10.
const SQUARE: [(f64, f64); 10] = [
    (0.0, 0.0),
    (0.2, 0.0029),
    (0.35, 0.0085),
    (0.467, 0.0165),
    (0.6, 0.0305),
    (0.7, 0.0475),
    (0.8, 0.075),
    (0.9, 0.131),
    (0.95, 0.193),
    (1.0, 0.312),
];
const HEXAGON: [(f64, f64); 10] = [
    (0.0, 0.0),
    (0.2, 0.0015),
    (0.35, 0.0036),
    (0.467, 0.006),
    (0.6, 0.0096),
    (0.7, 0.0133),
    (0.8, 0.0205),
    (0.9, 0.0372),
    (0.95, 0.0595),
    (1.0, 0.11),
];

/// Above the lower cutoff by this factor the modes' permittivities are held: there the tube passes.
const ABOVE: f64 = 1.1;
/// Points of a table whose function is smooth, and the error that it must hold to.
const POINTS: usize = 18;
const TABLE_ERROR: f64 = 1e-7;
/// Places of a table whose function is not.
const PLACES: usize = 160;

/// A function of k from zero to a top, held beyond.
#[derive(Debug, Clone)]
enum Table {
    /// A series in k².
    Smooth { top: f64, series: Series<Complex64> },
    /// At places even in ln k, joined by cubics.
    Joined { k: Vec<f64>, values: Vec<Complex64> },
}

impl Table {
    fn new(top: f64, exact: impl Fn(f64) -> Complex64) -> Self {
        let series = Series::fit(top * top, POINTS, 1, |square| vec![exact(square.sqrt())]);
        let close = |part: f64| {
            let k = part * top;
            (series.at(k * k) - exact(k)).norm() < TABLE_ERROR * exact(k).norm()
        };
        if [0.05, 0.35, 0.7, 0.9, 0.98].into_iter().all(close) {
            return Self::Smooth { top, series };
        }
        let k: Vec<f64> = (0..PLACES).map(|i| top * (-10.0 * (1.0 - i as f64 / (PLACES - 1) as f64)).exp()).collect();
        let values = k.iter().map(|&k| exact(k)).collect();
        Self::Joined { k, values }
    }

    fn at(&self, at: f64) -> Complex64 {
        match self {
            Self::Smooth { top, series } => series.at(at.min(*top).powi(2)),
            Self::Joined { k, values } => {
                let at = at.clamp(k[0], k[k.len() - 1]).ln();
                let first = k.partition_point(|place| place.ln() < at).saturating_sub(2).min(k.len() - 4);
                let near = first..first + 4;
                let weight = |i: usize| -> f64 {
                    let others = near.clone().filter(|&j| j != i);
                    others.map(|j| (at - k[j].ln()) / (k[i].ln() - k[j].ln())).product()
                };
                near.clone().map(|i| values[i] * weight(i)).sum()
            }
        }
    }
}

/// A rod in a tube.
#[derive(Debug, Clone)]
pub(super) struct Loading {
    /// Radius of the round tube that stands for the bore, m, of HE11 and of TM0.
    hybrid_radius_m: f64,
    pub(super) axial_radius_m: f64,
    /// ε_eff of HE11 against k, in units of its radius.
    hybrid: Table,
    /// γ² of TM0 against k, in units of its radius, and what it gains per k² beyond the table.
    axial: Table,
    axial_top: f64,
    axial_slope: Complex64,
    /// The lower cutoff, 1/m.
    pub(super) cutoff_wavenumber_per_m: f64,
    /// ln of what the rod's ends couple more in power than flush ones, both together.
    pub(super) ln_standing_out: f64,
}

impl Loading {
    pub(super) fn new(guide: &Guide, rod: &Rod) -> Self {
        let (inner, outer) = (rod.permittivity(), guide.permittivity());
        let layers = |radius_m: f64| Layers { a: (0.5 * rod.diameter_m() / radius_m).min(1.0 - 1e-9), inner, outer };
        let axial_radius_m = axial_radius_m(guide.shape());
        // A bore that is as wide as this for HE11 and a little less: k counts for more.
        let hybrid_radius_m = TE11 / guide.dominant().cutoff_wavenumber_per_m()
            * (1.0 + stand_in_error(guide.shape(), rod, inner.re / outer.re));
        let (hybrid_layers, axial_layers) =
            (layers(TE11 / guide.dominant().cutoff_wavenumber_per_m()), layers(axial_radius_m));
        let cutoffs = [hybrid::cutoff(&hybrid_layers) / hybrid_radius_m, axial::cutoff(&axial_layers) / axial_radius_m];
        let cutoff_wavenumber_per_m = cutoffs[0].min(cutoffs[1]);
        // Not as far as where HE11 runs with the speed of a wave in the filling: there its equation loses its digits.
        let contrast = (inner / outer).norm().max(1.0 + 1e-9);
        let above = ABOVE.min(0.5 + 0.5 * (contrast / (contrast - 1.0)).sqrt());
        let top = above * cutoff_wavenumber_per_m;
        let hybrid = Hybrid::new(top * hybrid_radius_m, hybrid_layers);
        // Far down ε_eff has reached its limit, and the equation loses the digits that would tell. No point of the series lies there.
        let hybrid = Table::new(top * hybrid_radius_m, |k| hybrid.effective(k.max(0.03 * top * hybrid_radius_m)));
        // A lossy rod's TM0 has no cutoff to speak of.
        let loss = rod.loss_tangent().max(guide.loss_tangent());
        let axial_top = (ABOVE * axial_radius_m * cutoffs[1] * (1.0 + loss).sqrt()).min(1.2 * TM01 / outer.re.sqrt());
        let axial = Axial::new(axial_top, axial_layers);
        let axial = Table::new(axial_top, |k| axial.square(k));
        let axial_slope = (axial.at(0.0) - axial.at(axial_top)) / (axial_top * axial_top);
        let ends = [rod.outside_m(), rod.inside_m()];
        let ln_standing_out =
            ends.iter().map(|length_m| 2.0 * standing_out(length_m / axial_radius_m, &axial_layers).ln()).sum();
        Self {
            hybrid_radius_m,
            axial_radius_m,
            hybrid,
            axial,
            axial_top,
            axial_slope,
            cutoff_wavenumber_per_m,
            ln_standing_out,
        }
    }

    /// ε_eff of HE11 for the bore itself: γ² = k_c² − k² ε_eff, k_c the empty tube's.
    pub(super) fn effective_permittivity(&self, guide: &Guide, wavenumber_per_m: f64) -> Complex64 {
        let wider = self.hybrid_radius_m * guide.dominant().cutoff_wavenumber_per_m() / TE11;
        self.hybrid.at(wavenumber_per_m * self.hybrid_radius_m) * (wider * wider)
    }

    /// γ² of TM0 in units of its radius, at a wavenumber in the same units.
    pub(super) fn axial_square(&self, k: f64) -> Complex64 {
        let beyond = (k * k - self.axial_top * self.axial_top).max(0.0);
        self.axial.at(k) - self.axial_slope * beyond
    }
}

/// Radius of the round tube of the same TM cutoff, m.
pub(super) fn axial_radius_m(shape: &Shape) -> f64 {
    TM01 / mode::lowest_tm(shape).cutoff_wavenumber_per_m()
}

/// By how much the round stand-in's HE11 cutoff is too high, as a share.
fn stand_in_error(shape: &Shape, rod: &Rod, contrast: f64) -> f64 {
    let table = match shape {
        Shape::Circle { .. } => return 0.0,
        Shape::Rectangle { .. } => &SQUARE,
        Shape::Hexagon { .. } => &HEXAGON,
    };
    let share = rod.diameter_m() / shape.bore_m();
    let high = table.partition_point(|&(at, _)| at < share).clamp(1, table.len() - 1);
    let ((from, low), (to, top)) = (table[high - 1], table[high]);
    let error = low + (top - low) * (share - from) / (to - from);
    error * ((contrast - 1.0) / (contrast + 2.0)).max(0.0)
}

/// By how much more TM0 is driven in amplitude at an end where the rod stands out by a length, in units of the tube's radius.
///
/// Electrostatics of a normal field. A very long rod carries the outer field E₀ up to the mouth and lends the mode at most
/// 0.9 E₀ a/(2 J₁(αa)) on its axis; a short one that draws in all flux it meets multiplies the flush end's by 1 + 3.1h + h²/2; both
/// together as 1/x = 1/x₁ + 1/x₂ in what they add. A law of our own that bounds finite elements for permittivities from 2 to 1000, rods from
/// 0.1 to 0.95 of the bore and lengths from 0.1 to 64 radii: by 0 to 4 dB at an end. The flush end is that of the empty tube.
fn standing_out(length: f64, layers: &Layers) -> f64 {
    if length <= 0.0 || layers.inner.norm() <= layers.outer.norm() {
        return 1.0;
    }
    let layers = Layers { inner: layers.inner.norm().into(), outer: layers.outer.norm().into(), ..*layers };
    let (alpha, norm) = axial::static_mode(&layers);
    // α c² ∫εψ² of a flush end, the empty tube's: y₀ = jk/α meets a capacitance.
    let flush = (FLUSH * alpha / (1.0 + END_CAPACITANCE * alpha).powi(2) * alpha / norm).sqrt();
    let mut run = [0.0; 2];
    crate::numeric::bessel_j_run(0.0, alpha * layers.a, &mut run);
    let long = 0.45 * layers.a / run[1];
    let [short, long] = [3.1 * length + 0.5 * length * length, (long / flush - 1.0).max(0.0)];
    if long == 0.0 { 1.0 } else { 1.0 + 1.0 / (1.0 / short + 1.0 / long) }
}

/// The empty tube's TM01 end at low frequency: y = jk times this (mode matching), and what it couples, 0.2755 (electrostatics).
const END_CAPACITANCE: f64 = 0.356;
const FLUSH: f64 = 0.3947;
