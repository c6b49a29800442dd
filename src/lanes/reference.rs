//! Tests of the elementary functions: against mpmath (reference.csv, written by reference.py),
//! against the standard library on dense arguments and at the ends of the range, on every
//! instruction set that this machine has.

use super::{Complex, Kernel, Simd, Window, sweep_on};
use pulp::Arch;

/// Function, worst error allowed in units in the last place, for each part of the result.
const BOUNDS: [(&str, f64); 9] = [
    ("exp", 1.0),
    ("exp_m1", 1.9),
    ("ln", 0.8),
    ("ln_1p", 2.3),
    ("sin", 0.9),
    ("cos", 0.9),
    ("atan2", 1.5),
    ("ln_norm_sqr", 1.1),
    ("sqrt", 2.0),
];

/// Function, worst error allowed over the modulus of the result, in units of 2^-52.
const MODULUS_BOUNDS: [(&str, f64); 4] =
    [("complex_exp", 1.3), ("complex_exp_m1", 1.9), ("complex_ln", 1.5), ("recip", 1.5)];

/// A function and what the standard library has for it.
struct Std {
    function: &'static str,
    std: fn(f64) -> f64,
}

const STD: [Std; 6] = [
    Std { function: "exp", std: f64::exp },
    Std { function: "exp_m1", std: f64::exp_m1 },
    Std { function: "ln", std: f64::ln },
    Std { function: "ln_1p", std: f64::ln_1p },
    Std { function: "sin", std: f64::sin },
    Std { function: "cos", std: f64::cos },
];

pub(crate) fn every_instruction_set() -> Vec<Arch> {
    let mut sets = vec![Arch::Scalar];
    #[cfg(target_arch = "x86_64")]
    {
        sets.extend(pulp::x86::V3::try_new().map(Arch::V3));
        sets.extend(pulp::x86::V4::try_new().map(Arch::V4));
    }
    sets.push(Arch::new());
    sets
}

struct Apply<'a> {
    function: &'a str,
    x: &'a [f64],
    y: &'a [f64],
    re: &'a mut [f64],
    im: &'a mut [f64],
}

impl Kernel for Apply<'_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let z = Complex::new(at.load(self.x), at.load(self.y));
        let real = |value| Complex::new(value, at.splat(0.0));
        let result = match self.function {
            "exp" => real(z.re.exp()),
            "exp_m1" => real(z.re.exp_m1()),
            "ln" => real(z.re.ln()),
            "ln_1p" => real(z.re.ln_1p()),
            "sin" => real(z.re.sin_cos().0),
            "cos" => real(z.re.sin_cos().1),
            "atan2" => real(z.re.atan2(z.im)),
            "ln_norm_sqr" => real(z.ln_norm_sqr()),
            "sqrt" => z.sqrt(),
            "complex_exp" => z.exp(),
            "complex_exp_m1" => z.exp_m1(),
            "complex_ln" => z.ln(),
            "recip" => z.recip(),
            other => unreachable!("{other}"),
        };
        at.store(result.re, self.re);
        at.store(result.im, self.im);
    }
}

fn apply(arch: Arch, function: &str, x: &[f64], y: &[f64]) -> (Vec<f64>, Vec<f64>) {
    let (mut re, mut im) = (vec![0.0; x.len()], vec![0.0; x.len()]);
    sweep_on(arch, x.len(), &mut Apply { function, x, y, re: &mut re, im: &mut im });
    (re, im)
}

/// The distance between neighbours at `x`.
fn ulp(x: f64) -> f64 {
    let x = x.abs().clamp(f64::MIN_POSITIVE, f64::MAX);
    x - f64::from_bits(x.to_bits() - 1)
}

/// A result that needs more digits than a double has.
#[derive(Clone, Copy)]
struct Wide {
    high: f64,
    low: f64,
}

impl Wide {
    fn error_of(self, found: f64) -> f64 {
        if found == self.high { self.low.abs() } else { ((found - self.high) - self.low).abs() }
    }
}

#[derive(Default)]
struct Rows {
    x: Vec<f64>,
    y: Vec<f64>,
    re: Vec<Wide>,
    im: Vec<Wide>,
}

fn rows(function: &str) -> Rows {
    let mut rows = Rows::default();
    for line in include_str!("reference.csv").lines() {
        let mut fields = line.split(',');
        if fields.next() != Some(function) {
            continue;
        }
        let numbers: Vec<f64> = fields.map(|field| f64::from_bits(u64::from_str_radix(field, 16).unwrap())).collect();
        rows.x.push(numbers[0]);
        rows.y.push(numbers[1]);
        rows.re.push(Wide { high: numbers[2], low: numbers[3] });
        rows.im.push(Wide { high: numbers[4], low: numbers[5] });
    }
    assert!(rows.x.len() >= 24, "{function}");
    rows
}

#[test]
fn parts_agree_with_mpmath() {
    for (function, bound) in BOUNDS {
        let rows = rows(function);
        for arch in every_instruction_set() {
            let (re, im) = apply(arch, function, &rows.x, &rows.y);
            for i in 0..rows.x.len() {
                for (found, wide) in [(re[i], rows.re[i]), (im[i], rows.im[i])] {
                    let error = wide.error_of(found) / ulp(wide.high);
                    assert!(
                        error <= bound,
                        "{function}({:e}, {:e}) on {arch:?}: {found:e}, {error} ulp",
                        rows.x[i],
                        rows.y[i]
                    );
                }
            }
        }
    }
}

#[test]
fn moduli_agree_with_mpmath() {
    for (function, bound) in MODULUS_BOUNDS {
        let rows = rows(function);
        for arch in every_instruction_set() {
            let (re, im) = apply(arch, function, &rows.x, &rows.y);
            for i in 0..rows.x.len() {
                let modulus = rows.re[i].high.hypot(rows.im[i].high);
                let error = rows.re[i].error_of(re[i]).hypot(rows.im[i].error_of(im[i]));
                let error = error / modulus / f64::EPSILON;
                assert!(error <= bound, "{function}({:e}, {:e}) on {arch:?}: {error}", rows.x[i], rows.y[i]);
            }
        }
    }
}

/// Steps through the whole line of doubles by their bit patterns, both signs.
fn whole_line(step: u64) -> Vec<f64> {
    let positive = (0..f64::INFINITY.to_bits()).step_by(step as usize).map(f64::from_bits);
    positive.flat_map(|x| [x, -x]).collect()
}

#[test]
fn whole_line_agrees_with_std() {
    let x = whole_line(0x7ff0_0000_0000_0000 / 4999);
    let y = vec![0.0; x.len()];
    for Std { function, std } in STD {
        for arch in every_instruction_set() {
            let (found, _) = apply(arch, function, &x, &y);
            for (&x, &found) in x.iter().zip(&found) {
                let expected = std(x);
                let same = found.to_bits() == expected.to_bits() || (found.is_nan() && expected.is_nan());
                // 2 for ours and 1 for the standard library's
                assert!(
                    same || (found - expected).abs() <= 3.0 * ulp(expected),
                    "{function}({x:e}) on {arch:?}: {found:e}, std {expected:e}"
                );
            }
        }
    }
}

#[test]
fn ends_agree_with_std() {
    let ends = [
        0.0,
        -0.0,
        f64::from_bits(1),
        -f64::from_bits(1),
        f64::MIN_POSITIVE,
        -f64::MIN_POSITIVE,
        1.0,
        -1.0,
        f64::MAX,
        f64::MIN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::NAN,
        709.782_712_893_384,
        709.782_712_893_385,
        -745.133_219_101_941_1,
        -745.133_219_101_941_2,
        -708.4,
        -50.0,
        1.6e6,
        -1.0 - f64::EPSILON,
    ];
    for arch in every_instruction_set() {
        for Std { function, std } in STD {
            let (found, _) = apply(arch, function, &ends, &ends);
            for (&x, &found) in ends.iter().zip(&found) {
                let expected = std(x);
                if expected.is_nan() {
                    assert!(found.is_nan(), "{function}({x:e}) on {arch:?}: {found}");
                } else {
                    let near = found == expected || (found - expected).abs() <= 3.0 * ulp(expected);
                    assert!(near, "{function}({x:e}) on {arch:?}: {found:e}, std {expected:e}");
                    assert_eq!(found.is_sign_negative(), expected.is_sign_negative(), "{function}({x:e})");
                }
            }
        }
        for &x in &ends {
            let (angles, _) = apply(arch, "atan2", &ends, &vec![x; ends.len()]);
            for (&y, &angle) in ends.iter().zip(&angles) {
                let expected = y.atan2(x);
                let near = angle == expected || (angle - expected).abs() <= 3.0 * ulp(expected);
                let same = near && angle.is_sign_negative() == expected.is_sign_negative();
                assert!(same || (angle.is_nan() && expected.is_nan()), "atan2({y:e}, {x:e}): {angle}");
            }
        }
    }
}

#[test]
fn every_length_is_done_whole() {
    for arch in every_instruction_set() {
        for length in 0..40 {
            let x: Vec<f64> = (0..length).map(f64::from).collect();
            let (root, _) = apply(arch, "sqrt", &x, &vec![0.0; x.len()]);
            assert!(root.iter().zip(&x).all(|(root, x)| *root == x.sqrt()), "{length} on {arch:?}");
        }
    }
}

#[test]
fn complex_root_takes_the_decaying_branch() {
    let values = [0.0, -0.0, 1e-320, -1e-320, 1e-200, 3.0, -3.0, 1e-5, 1e200, -1e308, f64::INFINITY];
    for arch in every_instruction_set() {
        for x in values {
            let (re, im) = apply(arch, "sqrt", &vec![x; values.len()], &values);
            for ((&y, &re), &im) in values.iter().zip(&re).zip(&im) {
                let expected = crate::complex_functions::decaying_root(num_complex::Complex64::new(x, y));
                assert!(re >= 0.0, "root of {x:e} + {y:e} j on {arch:?}: {re:e} + {im:e} j");
                for (found, expected) in [(re, expected.re), (im, expected.im)] {
                    let near = found == expected || (found - expected).abs() <= 2.0 * ulp(expected);
                    assert!(near, "root of {x:e} + {y:e} j on {arch:?}: {found:e}, {expected:e}");
                }
            }
        }
    }
}
