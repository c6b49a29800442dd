//! A straight wire that stands off a conducting plane, as an antenna.
//!
//! A lossy line open at its end (E. Siegel, J. Labus, Hochfrequenztech. Elektroakust. 43 (1934) 166; as in E. C. Jordan,
//! K. G. Balmain, *Electromagnetic Waves and Radiating Systems*, 2nd ed., 1968, ch. 11; from memory): for length h and
//! radius r
//!
//! Z = Z_a coth(R_m/Z_a + jkh),   Z_a = 60 (ln(2h/r) − 1) Ω,
//!
//! R_m its radiation resistance at the greatest current of a sinusoid (C. A. Balanis, *Antenna Theory*, 3rd ed., 2005, eq.
//! 8-60b, half of the dipole's; from memory), by q = kh and with the cosine and sine integrals
//!
//! R_m = 30 Ω {Cin 2q + ½ sin 2q (Si 4q − 2 Si 2q) + ½ cos 2q (2 Cin 2q − Cin 4q)}.
//!
//! A short wire has 10 (kh)² Ω, a quarter-wave one 36.5 Ω. Thin straight wires are met within a few dB; bends, ground and
//! neighbours move the resonances.

use num_complex::Complex64;

use crate::numeric::sine_integral::si_cin;

/// Impedance between wire and plane, Ω, by k h and the wire's length over its radius.
pub(crate) fn impedance_ohm(q: f64, length_over_radius: f64) -> Complex64 {
    let surge_ohm = 60.0 * ((2.0 * length_over_radius).ln() - 1.0);
    let damping = loop_resistance_ohm(q) / surge_ohm;
    // coth(p + jq) = (sinh 2p − j sin 2q)/(cosh 2p − cos 2q), the denominator without cancellation.
    let denominator = 2.0 * (damping.sinh().powi(2) + q.sin().powi(2));
    Complex64::new((2.0 * damping).sinh(), -(2.0 * q).sin()) * (surge_ohm / denominator)
}

/// Radiation resistance referred to the greatest current, Ω, by k h.
pub(crate) fn loop_resistance_ohm(q: f64) -> f64 {
    // The brackets cancel to 1e-10 here, and the next term of the series is as small.
    if q < 1e-3 {
        return 10.0 * q.powi(4) * (1.0 - 0.2 * q * q);
    }
    let ((si_2q, cin_2q), (si_4q, cin_4q)) = (si_cin(2.0 * q), si_cin(4.0 * q));
    let (sine, cosine) = (2.0 * q).sin_cos();
    30.0 * (cin_2q + 0.5 * sine * (si_4q - 2.0 * si_2q) + 0.5 * cosine * (2.0 * cin_2q - cin_4q))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numeric::gauss_legendre;

    #[test]
    fn radiation_is_what_the_pattern_carries() {
        // 60 ∫ (cos(q cos θ) − cos q)²/sin θ dθ over the half-space.
        let rule = gauss_legendre(200);
        for q in [1e-4, 0.999e-3, 1.001e-3, 0.02, 0.3, 1.0, std::f64::consts::FRAC_PI_2, 3.0, 10.0, 60.0] {
            let expected: f64 = rule
                .iter()
                .map(|(x, weight)| {
                    let cosine = 0.5 * (1.0 + x);
                    let half = (1.0 - cosine) * (1.0 + cosine);
                    // As a product, which loses nothing for short wires.
                    let lobe = 2.0 * (0.5 * q * (1.0 + cosine)).sin() * (0.5 * q * (1.0 - cosine)).sin();
                    60.0 * 0.5 * weight * lobe * lobe / half
                })
                .sum();
            let ours = loop_resistance_ohm(q);
            assert!((ours / expected - 1.0).abs() < 1e-8, "{q}: {ours} {expected}");
        }
        // 36.5 Ω at the quarter wave, 99.5 Ω at the half (Balanis, secs. 4.6 and 8.5: halves of 73.1 and 199, from memory).
        assert!((loop_resistance_ohm(std::f64::consts::FRAC_PI_2) - 36.55).abs() < 0.02);
        assert!((loop_resistance_ohm(std::f64::consts::PI) - 99.5).abs() < 0.1);
    }
}
