//! Modes between two coaxial circles: the tube with a wire in its middle.
//!
//! TEM without cutoff; TM where J_m(x)Y_m(ρx) = J_m(ρx)Y_m(x) and TE where the derivatives obey the same, x = k_c a, ρ = b/a.
//! Source: N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 2.4 (from memory).
//!
//! TEM loses in both conductors at any frequency, skin effect or not: γ² = −n²k² + j k n² (2π/η₀)(Z_a + Z_b)/ln(b/a) with the internal
//! impedances of a solid wire and of a bore in a conductor thick against the skin, ζ = √(jωμ₀σ),
//!
//! Z_a = ζ/(2πaσ) · I₀(ζa)/I₁(ζa), Z_b = ζ/(2πbσ) · K₀(ζb)/K₁(ζb)
//!
//! (S. A. Schelkunoff, Bell Syst. Tech. J. 13 (1934) 532, from memory). TE and TM lose as in a thin skin, which
//! [`CoaxialGuide::validity`] asks for.
//!
//! ```
//! use stillroom::waveguide::CoaxialGuide;
//! // 7 mm precision line: inner 3.04 mm, outer 7.00 mm, 50 ohm, TE11 near 19.4 GHz (common practice, no source).
//! let line = CoaxialGuide::new(3.04e-3, 7.0e-3)?;
//! assert!((line.impedance_ohm() - 50.0).abs() < 0.1);
//! let te11 = line.modes(2)[1];
//! assert!((line.mode_cutoff_hz(&te11) / 1e9 - 19.4).abs() < 0.3);
//! # Ok::<(), stillroom::Error>(())
//! ```

use std::f64::consts::PI;

use num_complex::Complex64;

use super::guide::{conductivity, dielectric, length};
use super::mode::{self, Mode, Order};
use super::propagation::Medium;
use super::spectrum::ModeFamily;
use crate::complex_functions::decaying_root;
use crate::constants::{SPEED_OF_LIGHT, VACUUM_IMPEDANCE, VACUUM_PERMEABILITY, wavenumber_per_m};
use crate::decibel::DB_PER_NEPER;
use crate::error::{Result, check};
use crate::numeric::{bessel_i_ratio, bessel_jy_and_slopes, bessel_k_ratio};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// The space between two coaxial conducting circles.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
pub struct CoaxialGuide {
    inner_m: f64,
    outer_m: f64,
    relative_permittivity: f64,
    loss_tangent: f64,
    wall_conductivity_s_per_m: f64,
}

impl CoaxialGuide {
    /// An empty coaxial guide between the diameters `inner_m` and `outer_m`.
    ///
    /// # Errors
    /// Unless both are positive and the inner one is the smaller.
    pub fn new(inner_m: f64, outer_m: f64) -> Result<Self> {
        length("inner_m", inner_m)?;
        length("outer_m", outer_m)?;
        check::less_than("inner_m", "m", inner_m, "outer_m", outer_m)?;
        Ok(Self {
            inner_m,
            outer_m,
            relative_permittivity: 1.0,
            loss_tangent: 0.0,
            wall_conductivity_s_per_m: f64::INFINITY,
        })
    }

    /// The same guide filled with a dielectric.
    ///
    /// # Errors
    /// Unless the relative permittivity is at least 1.
    pub fn filled(self, relative_permittivity: f64) -> Result<Self> {
        Ok(Self { relative_permittivity: dielectric(relative_permittivity, 0.0)?.0, ..self })
    }

    /// The same guide, its filling with dielectric loss.
    ///
    /// # Errors
    /// Unless the loss tangent is zero or positive, and finite.
    pub fn lossy(self, loss_tangent: f64) -> Result<Self> {
        Ok(Self { loss_tangent: dielectric(self.relative_permittivity, loss_tangent)?.1, ..self })
    }

    /// The same guide with both conductors of the conductivity given, non-magnetic; infinite for perfect ones.
    ///
    /// # Errors
    /// Unless the conductivity is from 1 to 1e15 S/m, or infinite.
    pub fn walled(self, wall_conductivity_s_per_m: f64) -> Result<Self> {
        Ok(Self { wall_conductivity_s_per_m: conductivity(wall_conductivity_s_per_m)?, ..self })
    }

    /// Diameter of the inner conductor, m.
    #[must_use]
    pub fn inner_m(&self) -> f64 {
        self.inner_m
    }

    /// Inner diameter of the outer conductor, m.
    #[must_use]
    pub fn outer_m(&self) -> f64 {
        self.outer_m
    }

    /// Relative permittivity of the filling.
    #[must_use]
    pub fn relative_permittivity(&self) -> f64 {
        self.relative_permittivity
    }

    /// Loss tangent of the filling.
    #[must_use]
    pub fn loss_tangent(&self) -> f64 {
        self.loss_tangent
    }

    /// Conductivity of both conductors, S/m.
    #[must_use]
    pub fn wall_conductivity_s_per_m(&self) -> f64 {
        self.wall_conductivity_s_per_m
    }

    /// Propagation constant γ = α + jβ of one of its modes, 1/m: exact through cutoff, wall loss of first order in γ², of TEM at any
    /// depth of the skin.
    #[must_use]
    pub fn mode_propagation_per_m(&self, mode: &Mode, frequency_hz: f64) -> Complex64 {
        if self.is_lossy_line(mode) {
            return self.tem_propagation_per_m(frequency_hz);
        }
        self.medium().propagation_per_m(mode, frequency_hz)
    }

    /// The same at many frequencies; `out` has the length of `frequency_hz`.
    pub fn mode_propagations_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [Complex64]) {
        if self.is_lossy_line(mode) {
            out.iter_mut().zip(frequency_hz).for_each(|(gamma, &f)| *gamma = self.tem_propagation_per_m(f));
        } else {
            self.medium().propagations_per_m(mode, frequency_hz, out);
        }
    }

    /// Attenuation of one of its modes at many frequencies, dB/m; `out` has the length of `frequency_hz`.
    pub fn mode_attenuations_db_per_m(&self, mode: &Mode, frequency_hz: &[f64], out: &mut [f64]) {
        if self.is_lossy_line(mode) {
            let db = |f: f64| DB_PER_NEPER * self.tem_propagation_per_m(f).re;
            out.iter_mut().zip(frequency_hz).for_each(|(slot, &f)| *slot = db(f));
        } else {
            self.medium().attenuations_db_per_m(mode, frequency_hz, out);
        }
    }

    /// Whether this mode is TEM between conductors that lose.
    fn is_lossy_line(&self, mode: &Mode) -> bool {
        mode.family() == ModeFamily::Tem && self.wall_conductivity_s_per_m.is_finite()
    }

    /// γ of TEM between real conductors, 1/m.
    fn tem_propagation_per_m(&self, frequency_hz: f64) -> Complex64 {
        let (a, b) = (0.5 * self.inner_m, 0.5 * self.outer_m);
        let conductivity = self.wall_conductivity_s_per_m;
        let zeta = Complex64::new(1.0, 1.0) * (PI * frequency_hz * VACUUM_PERMEABILITY * conductivity).sqrt();
        let internal = zeta / conductivity * (bessel_i_ratio(zeta * a) / a + bessel_k_ratio(zeta * b) / b);
        let jk = Complex64::new(0.0, wavenumber_per_m(frequency_hz));
        decaying_root(self.medium().permittivity * jk * (jk + internal / (VACUUM_IMPEDANCE * (b / a).ln())))
    }

    /// Where the loss of a mode in the conductors is known: of TEM at any frequency, the outer conductor being thick against the skin.
    pub fn validity(&self, mode: &Mode, frequency_hz: f64) -> Validity {
        if mode.family() == ModeFamily::Tem || self.wall_conductivity_s_per_m == f64::INFINITY {
            return Validity::Holds;
        }
        let skin_m = (PI * frequency_hz * VACUUM_PERMEABILITY * self.wall_conductivity_s_per_m).sqrt().recip();
        Validity::within(
            "wall loss of first order",
            "skin depth / lesser of wire and gap",
            "",
            skin_m / self.inner_m.min(0.5 * (self.outer_m - self.inner_m)),
            (0.0, 0.02),
            "the field reaches into the conductors by more than a fiftieth of their size and the cutoff shifts",
        )
    }

    fn medium(&self) -> Medium {
        let permittivity = Complex64::new(self.relative_permittivity, -self.relative_permittivity * self.loss_tangent);
        Medium { permittivity, wall_conductivity_s_per_m: self.wall_conductivity_s_per_m }
    }

    /// One mode by its name: "TEM", "TE11", "TM0,12" (azimuthal and radial order).
    ///
    /// # Errors
    /// [`Error::UnknownName`](crate::Error::UnknownName) for any other; orders go up to 100.
    pub fn mode(&self, name: &str) -> Result<Mode> {
        const HIGHEST: u32 = 100;
        let ratio = self.inner_m / self.outer_m;
        let found = match mode::parse(name) {
            Some((ModeFamily::Tem, Order::Only)) => Some(self.tem()),
            Some((family @ (ModeFamily::Te | ModeFamily::Tm), Order::Pair(m, n)))
                if m <= HIGHEST && (1..=HIGHEST).contains(&n) =>
            {
                // Turning point of the order, then one half-wave of the gap for each zero.
                let limit = f64::from(m) / ratio.max(0.1) + 4.0 + PI * (f64::from(n) + 1.0) / (1.0 - ratio);
                let zeros = zeros(family, m as usize, ratio, limit);
                zeros.get(n as usize - 1).map(|&zero| self.hollow(family, m, n, zero))
            }
            _ => None,
        };
        found.ok_or_else(|| mode::unknown(name, &["TEM", "TE11", "TM01", "TE2,12"]))
    }

    /// The wave without cutoff: in a thin skin j k n² Z_s/η₀ · (1/a + 1/b)/ln(b/a) is the wall's share of γ².
    fn tem(&self) -> Mode {
        let (a, b) = (0.5 * self.inner_m, 0.5 * self.outer_m);
        Mode::new(ModeFamily::Tem, Order::Only, 1, 0.0, [(1.0 / a + 1.0 / b) / (b / a).ln(), 0.0])
    }

    /// A mode with a cutoff, `zero` its wavenumber times the outer radius; wall integrals by Lommel's integral.
    fn hollow(&self, family: ModeFamily, m: u32, n: u32, zero: f64) -> Mode {
        let (a, b) = (0.5 * self.inner_m, 0.5 * self.outer_m);
        let cutoff = zero / b;
        let order = m as usize;
        let (j_in, dj_in, y_in, dy_in) = bessel_jy_and_slopes(order, cutoff * a);
        let (j_out, dj_out, y_out, dy_out) = bessel_jy_and_slopes(order, zero);
        let wall = if family == ModeFamily::Te {
            // ψ on both circles, its slope there none, over a common factor.
            let size = dy_in.hypot(dj_in);
            let inner = (j_in * dy_in - y_in * dj_in) / size;
            let outer = (j_out * dy_in - y_out * dj_in) / size;
            let (p, q) = (a * inner * inner, b * outer * outer);
            let turns = (f64::from(m) / cutoff).powi(2);
            let norm = 0.5 * (q * (b - turns / b) - p * (a - turns / a));
            [(p + q) / norm, turns * (p / (a * a) + q / (b * b)) / norm]
        } else {
            let size = y_in.hypot(j_in);
            let inner = (dj_in * y_in - dy_in * j_in) / size;
            let outer = (dj_out * y_in - dy_out * j_in) / size;
            let (p, q) = (a * inner * inner, b * outer * outer);
            [(p + q) / (0.5 * (q * b - p * a)), 0.0]
        };
        Mode::new(family, Order::Pair(m, n), if m == 0 { 1 } else { 2 }, cutoff, wall)
    }

    /// Characteristic impedance of the TEM mode, Ω: η₀ ln(b/a)/(2π√ε_r).
    #[must_use]
    pub fn impedance_ohm(&self) -> f64 {
        VACUUM_IMPEDANCE / (2.0 * PI * self.relative_permittivity.sqrt()) * (self.outer_m / self.inner_m).ln()
    }

    /// Cutoff frequency of a mode, Hz; zero for TEM.
    #[must_use]
    pub fn mode_cutoff_hz(&self, mode: &Mode) -> f64 {
        SPEED_OF_LIGHT * mode.cutoff_wavenumber_per_m() / (2.0 * PI * self.relative_permittivity.sqrt())
    }

    /// The `count` lowest modes by rising cutoff, TEM first; at most 60.
    #[must_use]
    pub fn modes(&self, count: usize) -> Vec<Mode> {
        const MOST: usize = 60;
        let count = count.min(MOST);
        let mut modes = vec![self.tem()];
        // In units of the outer radius; TE_m1 lies near 2m/(1 + a/b), the others one half-wave of the gap apart.
        let ratio = self.inner_m / self.outer_m;
        let mut limit = 6.0;
        while modes.len() < count {
            modes.truncate(1);
            for m in 0..=(limit + 1.0) as u32 {
                for family in [ModeFamily::Te, ModeFamily::Tm] {
                    let zeros = zeros(family, m as usize, ratio, limit);
                    modes.extend(zeros.iter().zip(1..).map(|(&zero, n)| self.hollow(family, m, n, zero)));
                }
            }
            limit *= 1.5;
        }
        modes.sort_by(|a, b| a.cutoff_wavenumber_per_m().total_cmp(&b.cutoff_wavenumber_per_m()));
        modes.truncate(count);
        modes
    }
}

/// Zeros below `limit` of the cross product of one order; the outer radius is 1, the inner one `ratio`.
fn zeros(family: ModeFamily, order: usize, ratio: f64, limit: f64) -> Vec<f64> {
    let value = |x: f64| {
        let (j_in, dj_in, y_in, dy_in) = bessel_jy_and_slopes(order, x * ratio);
        let (j_out, dj_out, y_out, dy_out) = bessel_jy_and_slopes(order, x);
        // Divided by the inner Y, which has no zero below its turning point, so that small arguments do not overflow.
        if family == ModeFamily::Te {
            (dj_in * dy_out - dj_out * dy_in) / dy_in.hypot(dj_in)
        } else {
            (j_in * y_out - j_out * y_in) / y_in.hypot(j_in)
        }
    };
    // Zeros of one kind lie at least a half-wave of the gap, or 1.5, apart.
    let step = 0.2;
    let mut found = Vec::new();
    let mut low = 0.05 + 0.5 * order as f64;
    let mut at_low = value(low);
    while low < limit {
        let high = low + step;
        let at_high = value(high);
        if (at_low < 0.0) != (at_high < 0.0) {
            let root = super::spectrum::circle::bisect(low, high, |x| (value(x) < 0.0) == (at_low < 0.0));
            if root < limit {
                found.push(root);
            }
        }
        (low, at_low) = (high, at_high);
    }
    found
}

impl Rebuild for CoaxialGuide {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let inner_m = knobs.value("inner_m", "m", self.inner_m, Domain::POSITIVE.and("less than outer_m"));
        let outer_m = knobs.value("outer_m", "m", self.outer_m, Domain::POSITIVE);
        let permittivity = knobs.value("relative_permittivity", "", self.relative_permittivity, Domain::AT_LEAST_ONE);
        let loss_tangent = knobs.value("loss_tangent", "", self.loss_tangent, Domain::NON_NEGATIVE);
        // Perfect conductors are no number that could be swept.
        let wall = match self.wall_conductivity_s_per_m {
            f64::INFINITY => f64::INFINITY,
            finite => knobs.value("wall_conductivity_s_per_m", "S/m", finite, Domain::POSITIVE),
        };
        Self::new(inner_m, outer_m)?.filled(permittivity)?.lossy(loss_tangent)?.walled(wall)
    }
}

/// What a file holds; every value passes the constructor on the way in.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    inner_m: f64,
    outer_m: f64,
    /// Absent for an empty guide.
    #[serde(default)]
    relative_permittivity: Option<f64>,
    #[serde(default)]
    loss_tangent: f64,
    /// Absent for perfect conductors.
    #[serde(default)]
    wall_conductivity_s_per_m: Option<f64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for CoaxialGuide {
    type Error = crate::Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.inner_m, record.outer_m)?
            .filled(record.relative_permittivity.unwrap_or(1.0))?
            .lossy(record.loss_tangent)?
            .walled(record.wall_conductivity_s_per_m.unwrap_or(f64::INFINITY))
    }
}

#[cfg(feature = "serde")]
impl From<CoaxialGuide> for Record {
    fn from(guide: CoaxialGuide) -> Self {
        Self {
            inner_m: guide.inner_m,
            outer_m: guide.outer_m,
            relative_permittivity: Some(guide.relative_permittivity),
            loss_tangent: guide.loss_tangent,
            wall_conductivity_s_per_m: Some(guide.wall_conductivity_s_per_m).filter(|wall| wall.is_finite()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const REFERENCE: [(f64, f64); 4] = [
        (1.0, 2.158512196120056e-5),
        (1e3, 0.0006690691296571044),
        (1e6, 0.005779180577854786),
        (1e9, 0.1663420747975118),
    ];

    #[test]
    fn a_thin_gap_is_a_rolled_up_strip() {
        // TE_m1 of a thin gap: m waves around the mean circumference; TM_01 a half-wave across.
        let guide = CoaxialGuide::new(9.6e-3, 10e-3).unwrap();
        let modes = guide.modes(5);
        assert_eq!(modes[0].to_string(), "TEM");
        for (m, mode) in (1..).zip(&modes[1..]) {
            assert_eq!(mode.to_string(), format!("TE{m}1"));
            let mean = f64::from(m) / (0.25 * (9.6e-3 + 10e-3));
            assert!((mode.cutoff_wavenumber_per_m() / mean - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn published_zeros() {
        // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, table 9.7, from memory: the first zero of
        // J0(x)Y0(2x) − J0(2x)Y0(x) is 3.12303; in units of the outer radius twice that.
        let zero = zeros(ModeFamily::Tm, 0, 0.5, 8.0)[0];
        assert!((zero / 2.0 - 3.12303).abs() < 1e-5, "{zero}");
    }

    #[test]
    fn a_vanishing_wire_leaves_the_round_tube() {
        let te11 = zeros(ModeFamily::Te, 1, 1e-3, 3.0)[0];
        assert!((te11 - super::super::spectrum::circle::TE11).abs() < 1e-4);
    }

    #[test]
    fn tem_loss_is_that_of_the_line() {
        // R/(2Z) + G Z/2, with R = R_s (1/a + 1/b)/2π: for example Pozar, sec. 2.7.
        let guide =
            CoaxialGuide::new(1e-3, 4e-3).unwrap().filled(2.1).unwrap().lossy(3e-4).unwrap().walled(5.8e7).unwrap();
        let (f, tem) = (1e9, guide.mode("TEM").unwrap());
        let sheet = (PI * f * crate::constants::VACUUM_PERMEABILITY / 5.8e7).sqrt();
        let line = sheet * (1.0 / 0.5e-3 + 1.0 / 2e-3) / (2.0 * PI) / (2.0 * guide.impedance_ohm());
        let filling = 0.5 * crate::constants::wavenumber_per_m(f) * 2.1_f64.sqrt() * 3e-4;
        let alpha = guide.mode_propagation_per_m(&tem, f).re;
        assert!((alpha / (line + filling) - 1.0).abs() < 2e-3, "{alpha} {}", line + filling);
    }

    #[test]
    fn a_line_loses_at_any_depth_of_the_skin() {
        // Forty digits (mpmath) from the internal impedances above; 0.5 mm in 6 mm, copper: a skin of 2.1 mm at 1 kHz, where the
        // formula of the thin skin has 9.4e-5 dB/m. dB/m.
        let guide = CoaxialGuide::new(0.5e-3, 6e-3).unwrap().walled(5.8e7).unwrap();
        let tem = guide.mode("TEM").unwrap();
        for (f, exact) in REFERENCE {
            let found = DB_PER_NEPER * guide.mode_propagation_per_m(&tem, f).re;
            assert!((found / exact - 1.0).abs() < 1e-12, "{f:e} {found:e} {exact:e}");
        }
        // TE and TM ask for a thin skin.
        let te11 = guide.mode("TE11").unwrap();
        assert!(guide.validity(&tem, 1e3).holds() && !guide.validity(&te11, 1e3).holds());
        assert!(guide.validity(&te11, 40e9).holds());
        let mut both = [0.0; 2];
        guide.mode_attenuations_db_per_m(&tem, &[1e3, 1e9], &mut both);
        assert!((both[0] / REFERENCE[1].1 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_thin_gap_loses_as_plates_and_a_thin_wire_as_the_round_tube() {
        let thin = CoaxialGuide::new(9.9e-3, 10e-3).unwrap();
        // Between plates TM_01 has ∮(∂ψ/∂n)²/(k_c²∫ψ²) = 4/gap.
        let [first, _] = thin.mode("TM01").unwrap().wall_per_m();
        assert!((first * 0.05e-3 / 4.0 - 1.0).abs() < 1e-3, "{first}");
        let wire = CoaxialGuide::new(2e-6, 2.0).unwrap();
        let round = super::super::Guide::circular(2.0).unwrap();
        for name in ["TE11", "TE21", "TM11", "TM21"] {
            let (coaxial, hollow) = (wire.mode(name).unwrap(), round.mode(name).unwrap());
            for (a, b) in coaxial.wall_per_m().into_iter().zip(hollow.wall_per_m()) {
                assert!((a - b).abs() < 1e-3 * b.max(1.0), "{name} {a} {b}");
            }
        }
    }

    #[test]
    fn modes_by_name_are_those_of_the_list() {
        let guide = CoaxialGuide::new(2e-3, 7e-3).unwrap();
        for mode in guide.modes(20) {
            assert_eq!(guide.mode(&mode.to_string()).unwrap(), mode);
        }
        for name in ["TE00", "TE10", "XY11", "TE", "TE1,0", "TM 3", "", "é"] {
            assert!(matches!(guide.mode(name), Err(crate::Error::UnknownName { .. })), "{name}");
        }
    }
}
