//! Sine and cosine together, and the argument of a point.

use super::real::{Real, polynomial};
use pulp::Simd;
use std::f64::consts::{FRAC_2_PI, FRAC_PI_2, FRAC_PI_4, PI, SQRT_2};

/// pi/2 in four parts; the first three have 33 bits, so that n times each is exact for n below 2^20.
const HALF_PI: [f64; 4] =
    [1.570_796_326_734_125_6, 6.077_100_506_303_966e-11, 2.022_266_248_711_166_5e-21, 8.478_427_660_368_9e-32];

/// Beyond this the scalar functions take over.
const LARGEST: f64 = 1.6e6;

/// (sin r - r)/r^3 and (cos r - 1 + r^2/2)/r^4 in powers of r^2, |r| <= pi/4.
const SIN: [f64; 6] = [
    -0.166_666_666_666_666_66,
    0.008_333_333_333_330_946,
    -0.000_198_412_698_367_549_7,
    2.755_731_610_068_303e-6,
    -2.505_113_145_542_794_3e-8,
    1.591_810_123_027_389_3e-10,
];
const COS: [f64; 6] = [
    0.041_666_666_666_666_664,
    -0.001_388_888_888_888_739_5,
    2.480_158_729_876_343_3e-5,
    -2.755_731_727_056_032_6e-7,
    2.087_614_602_468_974_3e-9,
    -1.138_261_485_685_618_2e-11,
];

/// (artan z - z)/z^3 in powers of z^2, |z| <= sqrt 2 - 1.
const ATAN: [f64; 12] = [
    -0.333_333_333_333_333_3,
    0.199_999_999_999_998,
    -0.142_857_142_856_593_26,
    0.111_111_111_051_067_05,
    -0.090_909_087_510_766_36,
    0.076_922_963_049_744_69,
    -0.066_664_236_280_692_43,
    0.058_789_145_444_004_83,
    -0.052_303_478_730_151_7,
    0.045_511_081_263_214_86,
    -0.034_558_092_551_328_114,
    0.016_271_944_751_537_433,
];

/// What rounding took from pi, pi/2 and pi/4.
const PI_LOST: f64 = 1.224_646_799_147_353_2e-16;

impl<S: Simd> Real<S> {
    /// (sin, cos). Worst error found 0.8 ulp.
    #[inline(always)]
    #[must_use]
    pub fn sin_cos(self) -> (Self, Self) {
        if self.abs().less(LARGEST).all() {
            self.sin_cos_reduced()
        } else {
            (self.map_lanes(f64::sin), self.map_lanes(f64::cos))
        }
    }

    #[inline(always)]
    fn sin_cos_reduced(self) -> (Self, Self) {
        let n = (self * FRAC_2_PI).round();
        // exact: n times the first part, and its difference from the argument
        let first = n.neg_mul_add(HALF_PI[0], self);
        let step = n * HALF_PI[1];
        let second = first - step;
        let second_lost = (first - second) - step;
        let step = n.mul_add(HALF_PI[3], n * HALF_PI[2]) - second_lost;
        let r = second - step;
        let lost = (second - r) - step;

        let z = r * r;
        let sin = (z * r).mul_add(polynomial(z, SIN), lost) + r;
        let half = z * 0.5;
        let near_one = 1.0 - half;
        let correction = ((1.0 - near_one) - half) - r * lost;
        let cos = (z * z).mul_add(polynomial(z, COS), correction) + near_one;

        let quadrant = n.quadrant();
        let (odd, second) = (quadrant.odd.sign_mask(), quadrant.second);
        let (s, c) = (odd.select(cos, sin), odd.select(sin, cos));
        let sine = s.xor_sign(second);
        // the sine of -0 is -0, which the sums above lose
        let sine = self.equal(0.0).select(self, sine);
        (sine, c.xor_sign(second).xor_sign(quadrant.odd))
    }

    /// The angle of the point (`x`, `self`) in -pi..=pi, as `f64::atan2` gives it. Worst error
    /// found 1.4 ulp.
    #[inline(always)]
    #[must_use]
    pub fn atan2(self, x: Self) -> Self {
        let (ordinate, abscissa) = (self.abs(), x.abs());
        let steep = ordinate.greater(abscissa);
        let (low, high) = (steep.select(abscissa, ordinate), steep.select(ordinate, abscissa));
        // artan(low/high) = pi/4 + artan((low - high)/(low + high)) keeps the argument below sqrt 2 - 1
        // Infinities count as 1 against 0, and 0/0 as 0/1.
        let infinite = high.equal(f64::INFINITY);
        let low = infinite.select(low.equal(f64::INFINITY).select(1.0, low * 0.0), low);
        let high = infinite.select(1.0, high.equal(0.0).select(1.0, high));
        let wide = low.greater(high * (SQRT_2 - 1.0));
        // The largest numbers are halved, so that their sum stays finite.
        let scale = high.greater(1.0).select(0.5, 1.0);
        let (low, high) = (low * scale, high * scale);
        let z = wide.select(low - high, low) / wide.select(low + high, high);
        let u = z * z;
        let angle = (u * z).mul_add(polynomial(u, ATAN), z);
        let offset = wide.select(FRAC_PI_4, 0.0);
        let lost = wide.select(PI_LOST / 4.0, 0.0);
        // steep: pi/2 - angle; left half plane: pi - angle
        let (angle, offset, lost) = (
            steep.select(-angle, angle),
            steep.select(FRAC_PI_2 - offset, offset),
            steep.select(PI_LOST / 2.0 - lost, lost),
        );
        let left = x.sign_mask();
        let (angle, offset, lost) =
            (left.select(-angle, angle), left.select(PI - offset, offset), left.select(PI_LOST - lost, lost));
        (offset + (angle + lost)).copysign(self)
    }
}
