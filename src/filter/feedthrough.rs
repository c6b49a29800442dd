//! Feedthrough capacitors.

use crate::circuit::TwoPort;
use crate::circuit::bounds;
use crate::circuit::line_law::LineLaw;
use crate::circuit::lumped_chain::Immittance;
use crate::error::{Result, check};
use crate::parameter::Element;
use crate::validity::Validity;

/// A feedthrough capacitor: a conductor through the wall, and the capacitance of an electrode around its middle.
///
/// ```text
/// in ── L/2, R/2 ── electrode: L_e, C, tan d, ESR ── L/2, R/2 ── out
///                          │
///                    flange (and what couples the sides)
/// ```
///
/// The inductance of the conductor lies before and behind the capacitance, half on either side, and not along it: a
/// line of the whole inductance would pass everything at its half-wave, which no such part does. The electrode itself
/// is a uniform line of inductance `L_e` ([`tubular_electrode_inductance_h`]), admittance `s C (1 - j tan d)` and the
/// equivalent series resistance spread along it. `L_e` is zero unless stated: the part is then a tee. The inductance
/// of the flange to the wall is common to both sides; soldered or clamped all around, it is next to nothing.
///
/// What couples the two ends past the electrode is a mutual inductance between them. Physics gives no value for it:
/// it depends on how the leads run on both sides of the wall, and is zero unless stated, so that the loss then grows
/// without end. 10 pH is a cautious figure (common practice, no source): between 50 ohm it holds the loss to 52 dB at
/// 1 GHz and 32 dB at 10 GHz where the leads are short.
///
/// Domain ([`validity`](Self::validity)): up to four fifths of the electrode's half-wave `1/(2 sqrt(L_e C))` where no
/// series resistance is stated, since nothing else tells how deep the dips there are; up to the first resonance across
/// a disc (`k (b - a) = 2.3`) where its sizes are given.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
#[element(settle, errors = "a mutual inductance above half of the conductor's")]
pub struct FeedthroughCapacitor {
    /// Capacitance.
    #[parameter(circuit_positive)]
    capacitance_f: f64,
    /// Inductance of the conductor through it, both ends together.
    #[parameter(circuit_non_negative, default = 0.0, setter = none)]
    conductor_inductance_h: f64,
    /// Resistance of the conductor through it, both ends together.
    #[parameter(circuit_non_negative, default = 0.0, setter = none)]
    conductor_resistance_ohm: f64,
    /// Dielectric loss tangent.
    #[parameter(circuit_non_negative, default = 0.0)]
    loss_tangent: f64,
    /// Equivalent series resistance.
    #[parameter(circuit_non_negative, default = 0.0)]
    series_resistance_ohm: f64,
    /// Inductance along its electrode.
    #[parameter(circuit_non_negative, default = 0.0)]
    electrode_inductance_h: f64,
    /// Inductance from its outer electrode to the wall.
    #[parameter(circuit_non_negative, default = 0.0)]
    flange_inductance_h: f64,
    /// Mutual inductance between the conductor's two ends.
    #[parameter(circuit_non_negative, default = 0.0, also = "at most half of the conductor's inductance")]
    mutual_inductance_h: f64,
    /// A disc of ceramic, where its sizes are stated.
    #[part(hidden, setter = none)]
    disc: Option<Disc>,
}

/// A disc of ceramic between the conductor and the wall.
#[derive(Debug, Clone, Copy, PartialEq, Element)]
struct Disc {
    /// Radius of the hole in it.
    #[parameter(circuit_positive, less_than = outer_radius_m)]
    inner_radius_m: f64,
    /// Radius of its rim.
    #[parameter(circuit_positive)]
    outer_radius_m: f64,
    /// Relative permittivity of the ceramic.
    #[parameter(within(1.0, 1e6))]
    relative_permittivity: f64,
}

impl FeedthroughCapacitor {
    /// The same part with another capacitance, F.
    ///
    /// # Errors
    /// Unless positive and finite.
    pub fn with_capacitance_f(self, capacitance_f: f64) -> Result<Self> {
        Ok(Self { capacitance_f: bounds::positive("capacitance_f", "F", capacitance_f)?, ..self })
    }

    /// With the inductance (H) and the resistance (ohm) of the conductor through it, half on either side of the
    /// electrode. State it before a mutual inductance, which it bounds.
    ///
    /// # Errors
    /// If one is negative or not finite, or half of the inductance is below the mutual one.
    pub fn with_conductor(self, inductance_h: f64, resistance_ohm: f64) -> Result<Self> {
        Self {
            conductor_inductance_h: bounds::non_negative("conductor_inductance_h", "H", inductance_h)?,
            conductor_resistance_ohm: bounds::non_negative("conductor_resistance_ohm", "ohm", resistance_ohm)?,
            ..self
        }
        .settle()
    }

    /// With the radii (m) between which its electrodes overlap in a disc, and the permittivity of its ceramic: they
    /// tell up to where it is a capacitance.
    ///
    /// # Errors
    /// Unless the radii are positive and finite, the inner one the smaller, and the permittivity is at least 1.
    pub fn with_disc(self, inner_radius_m: f64, outer_radius_m: f64, relative_permittivity: f64) -> Result<Self> {
        let disc = Disc::new(inner_radius_m, outer_radius_m, relative_permittivity);
        Ok(Self { disc: Some(disc.map_err(|error| error.within("disc"))?), ..self })
    }

    fn settle(self) -> Result<Self> {
        let most_h = 0.5 * self.conductor_inductance_h;
        let name = "half of conductor_inductance_h";
        check::at_most("mutual_inductance_h", "H", self.mutual_inductance_h, name, most_h)?;
        Ok(self)
    }

    /// Inner and outer radius (m) and permittivity of its disc, if stated.
    #[must_use]
    pub fn disc(&self) -> Option<(f64, f64, f64)> {
        self.disc.map(|disc| (disc.inner_radius_m, disc.outer_radius_m, disc.relative_permittivity))
    }

    /// Frequency at which the electrode is half a wave long, Hz; infinite without inductance along it.
    #[must_use]
    pub fn electrode_half_wave_hz(&self) -> f64 {
        0.5 / (self.electrode_inductance_h * self.capacitance_f).sqrt()
    }

    /// As a two-port at a frequency in Hz.
    #[must_use]
    pub fn two_port(&self, frequency_hz: f64) -> TwoPort {
        let omega = std::f64::consts::TAU * frequency_hz;
        let end = TwoPort::series(self.end().at(omega));
        let electrode = match self.shunt() {
            Some(admittance) => TwoPort::shunt(admittance.at(omega)),
            None => self.law().two_port(omega),
        };
        end.then(&electrode).then(&end)
    }

    /// Where the model holds.
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let along = if self.series_resistance_ohm > 0.0 { 0.0 } else { frequency_hz / self.electrode_half_wave_hz() };
        let across = self.disc.map_or(0.0, |disc| {
            let k = crate::constants::wavenumber_per_m(frequency_hz) * disc.relative_permittivity.sqrt();
            k * (disc.outer_radius_m - disc.inner_radius_m)
        });
        Validity::within(
            "feedthrough capacitor",
            "frequency / half-wave of the electrode",
            "",
            along,
            (0.0, 0.8),
            "the electrode resonates, and no series resistance is stated to damp it: the loss may be far less or more",
        )
        .and(Validity::within(
            "feedthrough capacitor",
            "wavenumber in the disc x its depth",
            "",
            across,
            (0.0, DISC_RESONANCE),
            "the disc resonates across, and is no capacitance any more",
        ))
    }

    /// Either end of the conductor, without what it shares with the other.
    pub(crate) fn end(&self) -> Immittance {
        let inductance_h = 0.5 * self.conductor_inductance_h - self.mutual_inductance_h;
        Immittance::coil(0.5 * self.conductor_resistance_ohm, inductance_h, 0.0, 0.0)
    }

    /// What lies across, where the electrode has no length: its admittance, the flange and the mutual inductance.
    pub(crate) fn shunt(&self) -> Option<Immittance> {
        (self.electrode_inductance_h == 0.0).then(|| {
            Immittance::capacitor(
                self.capacitance_f,
                self.loss_tangent,
                self.series_resistance_ohm,
                self.flange_inductance_h + self.mutual_inductance_h,
            )
        })
    }

    /// The electrode as a line. A mutual inductance of the ends acts as one in the return: both ends lose it.
    pub(crate) fn law(&self) -> LineLaw {
        LineLaw {
            resistance_ohm: 0.0,
            skin: 0.0,
            inductance_h: self.electrode_inductance_h,
            capacitance_f: self.capacitance_f,
            loss_tangent: self.loss_tangent,
            series_ohm: self.series_resistance_ohm,
            return_h: self.flange_inductance_h + self.mutual_inductance_h,
        }
    }
}

/// First zero of the impedance across a disc, as wavenumber times depth.
const DISC_RESONANCE: f64 = 2.3;

/// Inductance in H along the electrode of a tubular ceramic capacitor, by its length and the radii of its inner and
/// outer electrode, m: `mu0 l ln(b/a)/2 pi`, that of a coaxial line. 10 mm of 1.3 : 1 have 0.52 nH.
///
/// # Errors
/// Unless all are positive and finite, and the inner radius is the smaller.
pub fn tubular_electrode_inductance_h(length_m: f64, inner_radius_m: f64, outer_radius_m: f64) -> Result<f64> {
    bounds::positive("length_m", "m", length_m)?;
    bounds::positive("inner_radius_m", "m", inner_radius_m)?;
    bounds::positive("outer_radius_m", "m", outer_radius_m)?;
    check::less_than("inner_radius_m", "m", inner_radius_m, "outer_radius_m", outer_radius_m)?;
    let per_m = crate::constants::VACUUM_PERMEABILITY / std::f64::consts::TAU * (outer_radius_m / inner_radius_m).ln();
    Ok(per_m * length_m)
}

#[cfg(test)]
mod tests {
    use num_complex::Complex64;

    use super::*;
    use crate::circuit::Terminations;

    fn loss_db(part: &FeedthroughCapacitor, frequency_hz: f64) -> f64 {
        part.two_port(frequency_hz).insertion_loss_db(&Terminations::fifty_ohm())
    }

    #[test]
    fn low_down_a_feedthrough_is_its_capacitance() {
        let part = FeedthroughCapacitor::new(1e-6).unwrap().with_conductor(5e-9, 1e-3).unwrap();
        let plain = TwoPort::shunt(Complex64::new(0.0, std::f64::consts::TAU * 1e4 * 1e-6));
        assert!((loss_db(&part, 1e4) - plain.insertion_loss_db(&Terminations::fifty_ohm())).abs() < 1e-3);
    }

    #[test]
    fn no_frequency_finds_a_feedthrough_transparent() {
        // As one line of 5 nH, 0.47 uF would pass all at 10.31 MHz. A capacitor alone loses 20 lg(w C 25 ohm) there:
        // 57.6 dB. The ends of the conductor add to that.
        let part = FeedthroughCapacitor::new(0.47e-6).unwrap().with_conductor(5e-9, 0.0).unwrap();
        assert!((loss_db(&part, 10.31e6) - 57.6).abs() < 0.05, "{}", loss_db(&part, 10.31e6));
        for step in 0..=6000 {
            let frequency_hz = 10f64.powf(4.0 + 1e-3 * f64::from(step));
            let alone = 20.0 * (std::f64::consts::TAU * frequency_hz * 0.47e-6 * 25.0).hypot(1.0).log10();
            assert!(loss_db(&part, frequency_hz) > alone - 0.01, "{frequency_hz:e}");
        }
    }

    #[test]
    fn what_couples_both_ends_holds_the_loss() {
        // |Z21| = w M against twice 50 ohm: 20 lg(50/(2 w M)), 10 pH: 52.0 dB at 1 GHz, 32.0 at 10 GHz. The capacitance
        // is so large that nothing else is left, the rest of the conductor so short that it does not matter.
        let part = FeedthroughCapacitor::new(1.0).unwrap().with_conductor(20e-12, 0.0).unwrap();
        let part = part.with_mutual_inductance_h(10e-12).unwrap();
        for (frequency_hz, expected) in [(1e9, 52.0), (10e9, 32.0)] {
            assert!((loss_db(&part, frequency_hz) - expected).abs() < 0.05, "{}", loss_db(&part, frequency_hz));
        }
        assert!(part.with_mutual_inductance_h(11e-12).is_err() && part.with_conductor(19e-12, 0.0).is_err());
    }

    #[test]
    fn a_long_electrode_resonates_and_says_so() {
        // 0.52 nH (2e-7 l ln 1.3) and 4.12 nF are half a wave at 340 MHz. Nothing is lost there; at the quarter wave
        // Z0 = 0.36 ohm stands across 50: 20 lg(50/2 Z0) = 36.9 dB.
        let along_h = tubular_electrode_inductance_h(10e-3, 1e-3, 1.3e-3).unwrap();
        assert!((along_h - 0.524_73e-9).abs() < 1e-14, "{along_h:e}");
        let part = FeedthroughCapacitor::new(4.12e-9).unwrap().with_electrode_inductance_h(along_h).unwrap();
        let half_wave_hz = part.electrode_half_wave_hz();
        assert!((half_wave_hz - 340e6).abs() < 1e6, "{half_wave_hz:e}");
        assert!(loss_db(&part, half_wave_hz) < 1e-6 && (loss_db(&part, 0.5 * half_wave_hz) - 36.9).abs() < 0.05);
        assert!(part.validity(0.79 * half_wave_hz).holds() && !part.validity(0.81 * half_wave_hz).holds());
        // 0.3 ohm of equivalent series resistance leave nothing of the dip.
        let damped = part.with_series_resistance_ohm(0.3).unwrap();
        assert!(loss_db(&damped, half_wave_hz) > 30.0 && damped.validity(half_wave_hz).holds());
    }

    #[test]
    fn a_disc_is_a_capacitance_up_to_its_first_resonance() {
        // k (b - a) = 2.3: 3 mm of permittivity 100 at 3.658 GHz.
        let part = FeedthroughCapacitor::new(4e-9).unwrap().with_disc(1e-3, 4e-3, 100.0).unwrap();
        assert!(part.validity(3.65e9).holds() && !part.validity(3.67e9).holds());
        assert!(part.with_disc(4e-3, 1e-3, 100.0).is_err() && part.with_disc(1e-3, 4e-3, 0.5).is_err());
    }

    #[test]
    fn a_flange_that_stands_off_sets_a_floor() {
        let part = FeedthroughCapacitor::new(10e-9).unwrap().with_conductor(2e-9, 0.0).unwrap();
        let lifted = part.with_flange_inductance_h(1e-9).unwrap();
        let ends = Terminations::fifty_ohm();
        let (flush, lifted) = (part.two_port(1e9), lifted.two_port(1e9));
        assert!(flush.insertion_loss_db(&ends) > lifted.insertion_loss_db(&ends) + 10.0);
        assert!(flush.scattering(&ends).unwrap().excess_gain() < 1e-12);
        assert!(lifted.scattering(&ends).unwrap().excess_gain() < 1e-12);
    }
}
