//! Modes between two coaxial circles: the tube with a wire in its middle.
//!
//! TEM without cutoff; TM where J_m(x)Y_m(ρx) = J_m(ρx)Y_m(x) and TE where the derivatives obey the same, x = k_c a, ρ = b/a.
//! Source: N. Marcuvitz, *Waveguide Handbook*, 1951, sec. 2.4 (from memory).
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

use super::guide::{dielectric, length};
use super::mode::{Mode, Order};
use super::spectrum::Family;
use crate::constants::{SPEED_OF_LIGHT, VACUUM_IMPEDANCE};
use crate::error::{Result, check};
use crate::parameter::{Knobs, Rebuild};
use crate::special::bessel_jy_and_slopes;

/// The space between two coaxial conducting circles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoaxialGuide {
    inner_m: f64,
    outer_m: f64,
    relative_permittivity: f64,
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
        Ok(Self { inner_m, outer_m, relative_permittivity: 1.0 })
    }

    /// The same guide filled with a dielectric.
    ///
    /// # Errors
    /// Unless the relative permittivity is at least 1.
    pub fn filled(self, relative_permittivity: f64) -> Result<Self> {
        Ok(Self { relative_permittivity: dielectric(relative_permittivity, 0.0)?.0, ..self })
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
        let (a, b) = (0.5 * self.inner_m, 0.5 * self.outer_m);
        let mut modes = vec![Mode::new(Family::Tem, Order::Only, 1, 0.0, [0.0; 2])];
        // In units of the outer radius; TE_m1 lies near 2m/(1 + a/b), the others one half-wave of the gap apart.
        let ratio = a / b;
        let mut limit = 6.0;
        while modes.len() < count {
            modes.truncate(1);
            for m in 0..=(limit + 1.0) as u32 {
                for family in [Family::Te, Family::Tm] {
                    let zeros = zeros(family, m as usize, ratio, limit);
                    modes.extend(zeros.iter().zip(1..).map(|(&zero, n)| {
                        Mode::new(family, Order::Pair(m, n), if m == 0 { 1 } else { 2 }, zero / b, [0.0; 2])
                    }));
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
fn zeros(family: Family, order: usize, ratio: f64, limit: f64) -> Vec<f64> {
    let value = |x: f64| {
        let (j_in, dj_in, y_in, dy_in) = bessel_jy_and_slopes(order, x * ratio);
        let (j_out, dj_out, y_out, dy_out) = bessel_jy_and_slopes(order, x);
        // Divided by the inner Y, which has no zero below its turning point, so that small arguments do not overflow.
        if family == Family::Te {
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
        let inner_m = knobs.value("inner_m", "m", self.inner_m, "positive, less than outer_m");
        let outer_m = knobs.value("outer_m", "m", self.outer_m, "positive");
        let permittivity = knobs.value("relative_permittivity", "", self.relative_permittivity, "at least 1");
        Self::new(inner_m, outer_m)?.filled(permittivity)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
        let zero = zeros(Family::Tm, 0, 0.5, 8.0)[0];
        assert!((zero / 2.0 - 3.12303).abs() < 1e-5, "{zero}");
    }

    #[test]
    fn a_vanishing_wire_leaves_the_round_tube() {
        let te11 = zeros(Family::Te, 1, 1e-3, 3.0)[0];
        assert!((te11 - super::super::spectrum::circle::TE11).abs() < 1e-4);
    }
}
