//! A filtered line as a leak: a wire outside, a filter at the wall, a wire inside.
//!
//! ```text
//! sigma = (lambda^2/4 pi) e_out G e_in
//! ```
//!
//! * `lambda^2/4 pi`: effective area of a matched lossless conductor in front of the wall, averaged over the
//!   half-space and both polarizations (mean directivity 2, half of the waves polarized to fit).
//! * `e = min(1, R_rad/R)`: what part of that a conductor keeps if it is put down as an impedance with the
//!   resistance `R`, see [`Conductor`]. By reciprocity the same factor says how much of the power that reaches the
//!   inside conductor is radiated. A conductor given as a [`Wire`](super::Wire) brings its own radiation resistance
//!   in its impedance, and `e = 1`.
//! * `G`: transducer power gain of the filter between the two impedances: of a ladder, of several lines in common
//!   mode, or of a table of measured loss (in the circuit that it was measured in; elsewhere it is marked).
//!
//! It is a bound of what wires of the stated lengths give and take in the stated circuit, not a prediction: which way the
//! wires run, and what they are tied to, decides the rest. From `k l = 1` on a bare wire has an impedance of its own: state
//! it as a [`Wire`](super::Wire), or take the gain of the filter between the worst terminations
//! ([`TwoPort::worst_transducer_loss_db`]) with both `e = 1`, which bounds every wire. Valid below the frequency at which
//! the filter's can is a tenth of a wavelength long; above, state the can's isolation.
//!
//! **Caution**: see [`CAUTION`](super::CAUTION); every filtered line carries it.

use std::f64::consts::{FRAC_PI_4, LN_2};

use crate::circuit::TwoPort;
use crate::constants::wavelength_m;
use crate::decibel::DB_PER_NEPER;
use crate::error::{Error, Result};
use crate::filter::{
    CAUTION, Ladder, LineFilter, LineMode, MeasuredLoss, MeasuringCircuit, ModalTermination, Termination,
};
use crate::leak::Leak;
use crate::numeric::blend::smooth_step;
use crate::parameter::Element;
use crate::validity::Validity;

/// A wire on one side of the wall.
///
/// Its radiation resistance, over the resistance that the filter sees, is the part of a matched antenna's power that it
/// takes or gives:
///
/// * by its length alone, as a straight wire that stands off the wall: `40 tan^2(k l/2)` ohm, which is `10 (k l)^2` ohm of
///   a short monopole and bounds it beyond (36.5 ohm at the quarter wave, where this gives 40), up to `k l = 2.2`. From
///   `k l = 1` on it is raised so that all of a matched antenna's power is counted at 2.2 at the latest. (C. A. Balanis,
///   *Antenna Theory*, section 4.3; the bound is derived here, from the sinusoidal current.)
/// * by its length and its height, as a line that runs along a conducting plane. Terminated at both ends it has
///   `120 (k h)^2 (1 - sin(2 k l)/(2 k l))` ohm (J. E. Storer and R. King, *Radiation resistance of a two-wire line*,
///   Proc. IRE 39, 1951, for two wires; the plane is the mirror, and half of the space is left), open at its far end
///   `1/(2 sin^2 k l)` times as much: `40 (k h)^2` ohm of a short one, the riser to it with the line as its top. What
///   is at the far end is not asked: up to an eighth of a wavelength the open end counts, which is the greater, beyond
///   it the terminated line. That is a bound for open and for terminated lines up to `k l = 2`, and an *estimate* for
///   others: a line in resonance (open and near half a wavelength, earthed and near a quarter) passes more, a matched
///   antenna's power at most. Valid for heights up to a tenth of a wavelength.
///
/// The share is never more than one.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(settle, errors = "a height beside a wire, which stands off the wall")]
pub struct Conductor {
    /// Length.
    #[parameter(circuit_positive)]
    length_m: f64,
    /// What the filter sees.
    #[part(python = TerminationArg)]
    termination: Termination,
    /// Height above the plane that it runs along, if stated.
    #[parameter(circuit_positive)]
    height_m: Option<f64>,
}

impl Conductor {
    fn settle(self) -> Result<Self> {
        match (self.height_m, &self.termination) {
            (Some(height_m), Termination::Wire(_)) => Err(Error::OutOfRange {
                quantity: "height_m".into(),
                value: height_m,
                unit: "m".into(),
                accepted: "left out beside a wire, which stands off the wall".into(),
            }),
            _ => Ok(self),
        }
    }

    /// Natural logarithm of the part of a matched antenna's power that passes between this conductor and the
    /// space around it, at a frequency in Hz; zero or negative.
    #[must_use]
    pub fn ln_efficiency(&self, frequency_hz: f64) -> f64 {
        if matches!(self.termination, Termination::Wire(_)) {
            return 0.0;
        }
        let wavenumber = std::f64::consts::TAU / wavelength_m(frequency_hz);
        // In logarithms: at 1 mHz the fourth power of a short line leaves the range of numbers.
        let turn = wavenumber * self.length_m;
        let ln_radiation_ohm = match self.height_m {
            None => ln_straight_wire_ohm(turn),
            Some(height_m) => {
                let open_end = if turn < FRAC_PI_4 { -LN_2 - 2.0 * turn.sin().ln() } else { 0.0 };
                120f64.ln() + 2.0 * (wavenumber * height_m).ln() + ln_one_less_sinc(2.0 * turn) + open_end
            }
        };
        (ln_radiation_ohm - self.termination.impedance_ohm(frequency_hz).re.ln()).min(0.0)
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        let own = self.termination.validity(frequency_hz);
        match self.height_m {
            None => own,
            Some(height_m) => own.and(Validity::within(
                "line along a plane",
                "height / wavelength",
                "",
                height_m / wavelength_m(frequency_hz),
                (0.0, 0.1),
                "the line radiates in more ways than one; bounded by a matched antenna",
            )),
        }
    }
}

/// The radiation resistance that bounds a straight wire's, ohm, by `k l`; infinite where all is counted.
fn ln_straight_wire_ohm(turn: f64) -> f64 {
    if turn >= ALL_BY {
        return f64::INFINITY;
    }
    let raised = smooth_step((turn - ALL_FROM) / (ALL_BY - ALL_FROM));
    40f64.ln() + 2.0 * (0.5 * turn).tan().ln() - (-raised).ln_1p()
}

/// From so much of `k l` on a straight wire's own impedance departs from what is stated, and more and more of a matched
/// antenna's power is counted; all of it by so much, where thick wires pass the bound.
const ALL_FROM: f64 = 1.0;
const ALL_BY: f64 = 2.2;

/// `ln(1 - sin(x)/x)` for positive x, without cancellation near zero.
fn ln_one_less_sinc(x: f64) -> f64 {
    if x < 0.1 {
        let square = x * x;
        // Five terms: the next is below 1e-17 of the first.
        let rest = 1.0 - square / 20.0 * (1.0 - square / 42.0 * (1.0 - square / 72.0 * (1.0 - square / 110.0)));
        2.0 * x.ln() - 6f64.ln() + rest.ln()
    } else {
        (-x.sin() / x).ln_1p()
    }
}

/// What keeps a line from carrying: computed or measured.
#[derive(Debug, Clone, PartialEq, Element)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
#[allow(clippy::large_enum_variant)]
pub enum LineLoss {
    /// A ladder.
    Ladder(Ladder),
    /// Several lines, driven and heard in common mode: what acts as one antenna.
    Lines(LineFilter),
    /// A table of insertion loss.
    Measured(MeasuredLoss),
}

impl LineLoss {
    /// Natural logarithms of the transducer power gain over a sweep.
    fn ln_transducer_gains(&self, frequency_hz: &[f64], circuit: &MeasuringCircuit, out: &mut [f64]) {
        match self {
            Self::Ladder(ladder) => ladder.ln_transducer_gains(frequency_hz, circuit, out),
            Self::Measured(table) => {
                for (gain, &f) in out.iter_mut().zip(frequency_hz) {
                    // Its own circuit is the one that its loss compares with.
                    let direct = TwoPort::THROUGH.ln_transducer_gain(&table.circuit().at(f));
                    *gain = direct - 2.0 * table.insertion_loss_db(f) / DB_PER_NEPER;
                }
            }
            Self::Lines(filter) => {
                let side = |common: &Termination| ModalTermination { common: common.clone(), ..between_lines() };
                let (source, load) = (side(circuit.source()), side(circuit.load()));
                let common = LineMode::Common;
                let swept = filter.insertion_losses_db(frequency_hz, common, common, &source, &load, out);
                for (gain, &f) in out.iter_mut().zip(frequency_hz) {
                    let loss_db = match swept {
                        Ok(()) => Ok(*gain),
                        Err(_) => filter.insertion_loss_db(f, common, common, &source, &load),
                    };
                    let direct = TwoPort::THROUGH.ln_transducer_gain(&circuit.at(f));
                    // A resonance that nothing damps passes all there is: the gain of a passive filter is one at most.
                    *gain = loss_db.map_or(0.0, |loss_db| (direct - 2.0 * loss_db / DB_PER_NEPER).min(0.0));
                }
            }
        }
    }

    fn validity(&self, frequency_hz: f64, circuit: &MeasuringCircuit) -> Validity {
        match self {
            Self::Ladder(ladder) => ladder.validity(frequency_hz),
            Self::Lines(filter) => filter.validity(frequency_hz),
            Self::Measured(table) => table.holds_in(circuit, frequency_hz),
        }
    }
}

/// Between the lines of a cable, where only their common mode is stated: 100 ohm. It matters as far as unequal lines
/// turn one mode into the other and back.
const fn between_lines() -> ModalTermination {
    ModalTermination {
        common: Termination::Impedance(num_complex::Complex64::new(50.0, 0.0)),
        differential: Termination::Impedance(num_complex::Complex64::new(100.0, 0.0)),
    }
}

impl From<Ladder> for LineLoss {
    fn from(ladder: Ladder) -> Self {
        Self::Ladder(ladder)
    }
}

impl From<LineFilter> for LineLoss {
    fn from(filter: LineFilter) -> Self {
        Self::Lines(filter)
    }
}

impl From<MeasuredLoss> for LineLoss {
    fn from(table: MeasuredLoss) -> Self {
        Self::Measured(table)
    }
}

/// A line through the wall with a filter in it.
#[derive(Debug, Clone, PartialEq, Element)]
#[element(new = none)]
pub struct FilteredLine {
    /// The filter, outside first; several lines count in common mode; a table of measured loss holds between the
    /// impedances that it was measured between, and warns elsewhere.
    #[part(python = LineLossArg)]
    filter: LineLoss,
    /// The conductor outside.
    #[part]
    outside: Conductor,
    /// The conductor inside.
    #[part]
    inside: Conductor,
}

impl FilteredLine {
    /// From the filter and the conductors outside and inside.
    #[must_use]
    pub fn new(filter: impl Into<LineLoss>, outside: Conductor, inside: Conductor) -> Self {
        Self { filter: filter.into(), outside, inside }
    }

    /// The circuit that the filter works in: the outside conductor as source, the inside one as load.
    #[must_use]
    pub fn circuit(&self) -> MeasuringCircuit {
        MeasuringCircuit::new(self.outside.termination.clone(), self.inside.termination.clone())
    }
}

impl Leak for FilteredLine {
    fn is_opening(&self) -> bool {
        false
    }

    fn ln_cross_section(&self, frequency_hz: f64) -> f64 {
        let mut one = [0.0];
        self.ln_cross_sections(&[frequency_hz], &mut one);
        one[0]
    }

    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        self.filter.ln_transducer_gains(frequency_hz, &self.circuit(), out);
        for (ln, &f) in out.iter_mut().zip(frequency_hz) {
            let area = wavelength_m(f).powi(2) / (4.0 * std::f64::consts::PI);
            *ln += area.ln() + self.outside.ln_efficiency(f) + self.inside.ln_efficiency(f);
        }
    }

    fn caution(&self) -> Option<&'static str> {
        Some(CAUTION)
    }

    fn validity(&self, frequency_hz: f64) -> Validity {
        self.filter
            .validity(frequency_hz, &self.circuit())
            .and(self.outside.validity(frequency_hz))
            .and(self.inside.validity(frequency_hz))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::filter::{Bank, Capacitor, Element, Wire};

    fn fifty() -> Termination {
        Termination::Impedance(num_complex::Complex64::new(50.0, 0.0))
    }

    #[test]
    fn a_low_line_radiates_as_the_power_of_its_far_field_says() {
        // Integral of |N|^2 over the half-space: N = 2 I h (1 - exp(-j k l (1 - cos t))) in both directions across; the
        // power is eta0 k^2/(32 pi^2) times that for a peak current I, and the resistance twice the power.
        let (height_m, length_m, frequency_hz) = (0.05_f64, 3.7, 40e6);
        let k = std::f64::consts::TAU / wavelength_m(frequency_hz);
        let steps = 200_000;
        let integral: f64 = (0..steps)
            .map(|i| {
                let cosine = -1.0 + 2.0 * (f64::from(i) + 0.5) / f64::from(steps);
                2.0 * (1.0 - (k * length_m * (1.0 - cosine)).cos())
            })
            .sum::<f64>()
            * 2.0
            / f64::from(steps)
            * std::f64::consts::TAU
            / 2.0;
        let eta = crate::constants::VACUUM_IMPEDANCE;
        let resistance =
            2.0 * eta * k * k / (32.0 * std::f64::consts::PI.powi(2)) * (2.0 * height_m).powi(2) * integral;
        let conductor = Conductor::new(length_m, fifty()).unwrap().with_height_m(height_m).unwrap();
        let found = 50.0 * conductor.ln_efficiency(frequency_hz).exp();
        // 120 ohm stands for the impedance of space over pi: 0.07 % off.
        assert!((found / resistance - 1.0).abs() < 1e-3, "{found} {resistance}");
    }

    #[test]
    fn a_low_line_counts_as_open_when_short_and_is_bounded() {
        let low = Conductor::new(2.0, fifty()).unwrap().with_height_m(0.1).unwrap();
        // 40 (k h)^2 of a riser with a top, falling as the square of frequency.
        let k = std::f64::consts::TAU / wavelength_m(1e3);
        assert!((low.ln_efficiency(1e3) - (40.0 * k * k * 0.01 / 50.0).ln()).abs() < 1e-6);
        assert!(low.ln_efficiency(1e-3).is_finite());
        assert_eq!(low.ln_efficiency(10e9), 0.0);
        let wire = Conductor::new(2.0, Termination::Wire(Wire::new(2.0, 1e-3).unwrap())).unwrap();
        assert!(wire.with_height_m(0.1).is_err());
        let (below, above) = (ln_one_less_sinc(0.099_999_999), ln_one_less_sinc(0.100_000_001));
        assert!((above - below).abs() < 1e-6 && above > below);
        // Open and terminated meet at an eighth of a wavelength.
        let meet = crate::constants::SPEED_OF_LIGHT / 16.0;
        let (below, above) = (low.ln_efficiency(meet * (1.0 - 1e-9)), low.ln_efficiency(meet * (1.0 + 1e-9)));
        assert!((above - below).abs() < 1e-7, "{below} {above}");
    }

    #[test]
    fn an_open_line_radiates_no_more_than_is_said() {
        // Radiation of a standing wave sin k(l - x) on a wire at a small height over a plane, with its riser, by the far
        // field of currents and images: eta0 k^2/(16 pi^2) times the integral of |N|^2 over the half-space.
        let rule = crate::numeric::gauss_legendre(40);
        let mean = |turn: f64| {
            let mut sum = 0.0;
            for &(cosine, of_cosine) in &rule {
                let cosine = 0.5 * (1.0 + cosine);
                let sine = (1.0 - cosine * cosine).sqrt();
                for &(azimuth, of_azimuth) in &rule {
                    let (across, along) = (std::f64::consts::PI * (1.0 + azimuth)).sin_cos();
                    let mut wire = num_complex::Complex64::new(0.0, 0.0);
                    for &(x, weight) in &rule {
                        let x = 0.5 * turn * (1.0 + x);
                        let current = (turn - x).sin() / turn.sin() * 0.5 * turn * weight;
                        wire += num_complex::Complex64::from_polar(current, x * sine * along);
                    }
                    // Over 2 k h: wire and image a step apart, riser and image in step.
                    let wire = wire * num_complex::Complex64::new(0.0, cosine);
                    let size = (wire * cosine * along - sine).norm_sqr() + (wire * across).norm_sqr();
                    sum += 0.5 * of_cosine * std::f64::consts::PI * of_azimuth * size;
                }
            }
            4.0 * 120.0 * std::f64::consts::PI / (16.0 * std::f64::consts::PI.powi(2)) * sum
        };
        for turn in [0.1, 0.5, 0.785, 1.0, std::f64::consts::FRAC_PI_2, 2.0] {
            let k = turn / 2.0;
            let frequency_hz = k / std::f64::consts::TAU * crate::constants::SPEED_OF_LIGHT;
            let low = Conductor::new(2.0, fifty()).unwrap().with_height_m(1e-3).unwrap();
            let ours = 50.0 * low.ln_efficiency(frequency_hz).exp() / (k * k * 1e-6);
            let theirs = mean(turn);
            assert!(ours > theirs * (1.0 - 1e-6), "{turn}: {ours} {theirs}");
            assert!(turn > 0.786 || (ours / theirs - 1.0).abs() < 1e-6, "{turn}: {ours} {theirs}");
        }
    }

    #[test]
    fn a_straight_wire_is_bounded_at_its_quarter_wave() {
        // 36.5 ohm there; 10 (k l)^2 has 24.7. Before and beyond against the sinusoid's radiation at its foot, and all of
        // a matched antenna's power from k l = 2.2 on, whatever the resistance.
        let by_itself = |turn: f64, ohm: f64| {
            let frequency_hz = turn / 2.0 / std::f64::consts::TAU * crate::constants::SPEED_OF_LIGHT;
            let conductor = Conductor::new(2.0, Termination::impedance(ohm).unwrap()).unwrap();
            conductor.ln_efficiency(frequency_hz)
        };
        for step in 1..=219 {
            let turn = 0.01 * f64::from(step);
            let foot = crate::probe::monopole::loop_resistance_ohm(turn) / turn.sin().powi(2);
            assert!(by_itself(turn, 1e6) > (foot / 1e6).ln() - 1e-9, "{turn}");
            assert!(by_itself(turn, 1e6) >= by_itself(turn - 0.01 + 1e-6, 1e6), "{turn}");
        }
        assert!(by_itself(2.2, 1e6) == 0.0 && by_itself(9.0, 1e6) == 0.0);
        assert!(by_itself(2.2 - 1e-6, 1e6) > -1e-3);
        assert!((by_itself(1e-3, 50.0) - (10.0 * 1e-6 / 50.0_f64).ln()).abs() < 1e-6);
    }

    #[test]
    fn a_table_of_the_loss_is_as_good_as_the_filter_in_its_own_circuit() {
        let ladder = Ladder::new(vec![Element::Shunt(Capacitor::new(1e-6).unwrap().into())]).unwrap();
        let frequencies: Vec<f64> = (0..=400).map(|k| 10f64.powf(4.0 + 0.01 * f64::from(k))).collect();
        let mut losses = vec![0.0; frequencies.len()];
        ladder.insertion_losses_db(&frequencies, &MeasuringCircuit::fifty_ohm(), &mut losses);
        let table = MeasuredLoss::new(frequencies, losses).unwrap();
        let conductor = |ohm: f64| Conductor::new(2.0, Termination::impedance(ohm).unwrap()).unwrap();
        let (exact, measured) = (
            FilteredLine::new(ladder.clone(), conductor(50.0), conductor(50.0)),
            FilteredLine::new(table.clone(), conductor(50.0), conductor(50.0)),
        );
        for f in [1e4, 3.3e5, 1e7, 1e8] {
            assert!((exact.ln_cross_section(f) - measured.ln_cross_section(f)).abs() < 1e-3);
            assert!(measured.validity(f).holds());
        }
        assert!(!measured.validity(1e9).holds());
        let elsewhere = FilteredLine::new(table.clone(), conductor(50.0), conductor(1.0));
        let text = elsewhere.validity(1e6).limits()[0].to_string();
        assert!(text.contains("not between the impedances"), "{text}");
        let worse = FilteredLine::new(table.with_offset_db(-6.0).unwrap(), conductor(50.0), conductor(50.0));
        let six_db = 0.6 * std::f64::consts::LN_10;
        assert!((worse.ln_cross_section(1e6) - measured.ln_cross_section(1e6) - six_db).abs() < 1e-12);
    }

    #[test]
    fn several_lines_leak_by_their_common_mode() {
        let part = |farad: f64| crate::filter::Part::from(Capacitor::new(farad).unwrap());
        let lines = LineFilter::new(2, vec![Bank::ToCase(vec![part(0.5e-6), part(0.5e-6)])]).unwrap();
        let ladder = Ladder::new(vec![Element::Shunt(part(1e-6))]).unwrap();
        let conductor = || Conductor::new(2.0, fifty()).unwrap();
        let (one, two) =
            (FilteredLine::new(ladder, conductor(), conductor()), FilteredLine::new(lines, conductor(), conductor()));
        assert!((one.ln_cross_section(1e6) - two.ln_cross_section(1e6)).abs() < 1e-9);
    }
}
