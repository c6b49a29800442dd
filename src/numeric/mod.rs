//! Numerical tools that several subjects share: special functions, quadrature rules, series, blends.

pub(crate) mod bessel;
pub(crate) mod blend;
pub(crate) mod chebyshev;
pub(crate) mod double_exponential;
pub(crate) mod gauss;
pub(crate) mod sine_integral;
pub(crate) mod sine_integral_lanes;

pub(crate) use bessel::{
    bessel_i_ratio, bessel_j_and_slope, bessel_j_run, bessel_jy_and_slopes, bessel_k_ratio, bessel_pairs,
};
pub(crate) use gauss::gauss_legendre;
