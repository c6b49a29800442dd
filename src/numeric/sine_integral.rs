//! Sine and cosine integrals, which the radiation of every thin slot and wire is written in.
//!
//! Si(x) = ∫₀ˣ sin t/t dt and Cin(x) = ∫₀ˣ (1 − cos t)/t dt = γ + ln x − Ci(x), for x ≥ 0
//! (M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, 1964, sec. 5.2; NIST DLMF
//! sec. 6.2).
//!
//! Below 10 both are even or odd power series, summed here as Chebyshev series in (x/10)²; above 10
//! they follow from the auxiliary functions f and g of DLMF 6.2(iii), as Chebyshev series in (10/x)².
//! The coefficients come from 60-digit arithmetic. No crate in general use offers these functions in
//! a form that a vector unit can run, and the kernels of slots and seams spend their time here.

use super::chebyshev::chebyshev;

/// Where the series in x give way to the series in 1/x.
pub(crate) const SPLIT: f64 = 10.0;

pub(crate) const EULER_GAMMA: f64 = 0.577_215_664_901_532_9;

/// Si(x) and Cin(x) for x ≥ 0.
#[must_use]
pub(crate) fn si_cin(x: f64) -> (f64, f64) {
    if x < SPLIT {
        let squared = (x / SPLIT) * (x / SPLIT);
        (x * shifted(&SI, squared), x * x * shifted(&CIN, squared))
    } else {
        let (sin, cos) = x.sin_cos();
        let inverse = 1.0 / x;
        let squared = (SPLIT * inverse) * (SPLIT * inverse);
        let f = shifted(&F, squared) * inverse;
        let g = shifted(&G, squared) * inverse * inverse;
        (std::f64::consts::FRAC_PI_2 - f * cos - g * sin, EULER_GAMMA + x.ln() - f * sin + g * cos)
    }
}

/// Sum of Chebyshev polynomials of 2t − 1, for t from 0 to 1.
fn shifted(coefficients: &[f64], t: f64) -> f64 {
    chebyshev(coefficients, 2.0 * t - 1.0)
}

/// Chebyshev coefficients of Si(x)/x.
pub(crate) const SI: [f64; 18] = [
    0.3595272232093378,
    -0.3096390233035254,
    0.18674749899501508,
    -0.09895801249938035,
    0.03525977297382743,
    -0.008319657918405002,
    0.00136764426457639,
    -0.00016482077067139254,
    1.5175264500342023e-05,
    -1.1026370186051564e-06,
    6.487447692243382e-08,
    -3.1555485667055716e-09,
    1.2907405184703682e-10,
    -4.5034561100243244e-12,
    1.3565290427380258e-13,
    -3.564315364511967e-15,
    8.24285725278704e-17,
    -1.6909852173443438e-18,
];

/// Chebyshev coefficients of Cin(x)/x².
pub(crate) const CIN: [f64; 18] = [
    0.08989449813427405,
    -0.09267433946481468,
    0.045211900691730346,
    -0.01687501838230833,
    0.004409327424485099,
    -0.0008130771327702424,
    0.00010965750612435396,
    -1.1221023012506734e-05,
    8.991303034400592e-07,
    -5.790704098757405e-08,
    3.062499766790423e-09,
    -1.3538928118728876e-10,
    5.078518103349484e-12,
    -1.6369416356933207e-13,
    4.5834265566982056e-15,
    -1.1253722964980054e-16,
    2.443013681887904e-18,
    -4.723143262547001e-20,
];

/// Chebyshev coefficients of x f(x).
pub(crate) const F: [f64; 20] = [
    0.990740770888971,
    -0.009034105490379748,
    0.00021356412639804775,
    -1.0630181991023464e-05,
    8.281901430160007e-07,
    -8.741420216497479e-08,
    1.1510187935952375e-08,
    -1.7952492040461855e-09,
    3.2032314543528155e-10,
    -6.379585930531886e-11,
    1.3928077219735393e-11,
    -3.288030515480482e-12,
    8.304209304696736e-13,
    -2.224839858428311e-13,
    6.27996897622429e-14,
    -1.857049262095913e-14,
    5.726018254265679e-15,
    -1.833668648910598e-15,
    6.077953433321426e-16,
    -2.0792025042295494e-16,
];

/// Chebyshev coefficients of x² g(x).
pub(crate) const G: [f64; 20] = [
    0.9734689038882999,
    -0.02550962851096239,
    0.0009519955809827066,
    -6.267414105241494e-05,
    5.939801883637308e-06,
    -7.271815840219255e-07,
    1.0776257249732105e-07,
    -1.8531631017459422e-08,
    3.592259861704139e-09,
    -7.687040025052271e-10,
    1.787838571208587e-10,
    -4.46571236684944e-11,
    1.18678967867542e-11,
    -3.3305268289168635e-12,
    9.809491652590172e-13,
    -3.016975518382122e-13,
    9.648115352928485e-14,
    -3.196638344743282e-14,
    1.093918224781312e-14,
    -3.856196189826823e-15,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn agrees_with_forty_digits() {
        // Computed with mpmath (si, ci, euler) at 40 digits.
        let rows = [
            (1e-09_f64, 1e-09, 2.5e-19),
            (0.001_f64, 0.0009999999444444462, 2.499999895833336e-07),
            (0.5_f64, 0.4931074180430667, 0.06185256314820045),
            (1.0_f64, 0.946083070367183, 0.23981174200056474),
            (std::f64::consts::PI, 1.8519370519824663, 1.6482776387045075),
            (5.0_f64, 1.549931244944674, 2.376683326992277),
            (9.999999_f64, 1.6583476486209459, 2.9252570069928447),
            (10.0_f64, 1.6583475942188741, 2.9252571909000338),
            (10.5_f64, 1.6229406928080559, 3.006874958025953),
            (20.0_f64, 1.54824170104344, 3.5285281176101706),
            (100.0_f64, 1.5622254668890563, 5.187534676032235),
            (12345.6_f64, 1.5707434305200882, 9.998332012023141),
            (1000000000.0_f64, 1.5707963259570095, 21.3004815013021),
        ];
        for (x, si, cin) in rows {
            let (got_si, got_cin) = si_cin(x);
            assert!((got_si / si - 1.0).abs() < 2e-15, "Si({x}) = {got_si}, not {si}");
            assert!((got_cin / cin - 1.0).abs() < 2e-15, "Cin({x}) = {got_cin}, not {cin}");
        }
        assert_eq!(si_cin(0.0), (0.0, 0.0));
    }

    #[test]
    fn handbook_values() {
        // Abramowitz & Stegun, Table 5.1: Si(1), Ci(1), Si(10), Ci(10) (from memory).
        for (x, si, ci) in [(1.0, 0.946_083_070_4, 0.337_403_922_9), (10.0, 1.658_347_594_2, -0.045_456_433_0)] {
            let (got_si, got_cin) = si_cin(x);
            assert!((got_si - si).abs() < 1e-9);
            assert!((EULER_GAMMA + f64::ln(x) - got_cin - ci).abs() < 1e-9);
        }
    }
}
