//! Static polarizabilities of openings in an infinitely thin wall.
//!
//! Convention (that of [`Polarizability`]): the dipole moments
//! M = α_m H and P = ε₀ α_e E, with H and E the fields on the *closed* wall (twice the incident ones),
//! radiate in the presence of the closed wall. A wave of polar angle θ is then passed with
//! σ = (4k⁴/3π)(α_m² h² + α_e² sin²θ), h the part of its magnetic field along the wall (and for E along
//! the wall without the second term).
//!
//! - Circle: α_m = 4a³/3, α_e = 2a³/3 (H. A. Bethe, Phys. Rev. 66 (1944) 163, from memory).
//! - Ellipse: elliptic integrals (J. Van Bladel, *Electromagnetic Fields*, 2nd ed., 2007, sec. 10.4,
//!   from memory; rederived as the flat limit of the ellipsoid), written with Carlson's symmetric
//!   integral so that the circle is no special case.
//! - Rectangle: the static integral equations of the complementary plate, solved to 3·10⁻⁵ (Galerkin
//!   method on an edge-graded mesh for α_m, vortex rings for α_e, both extrapolated), as a polynomial
//!   in ln(w/l) times the ellipse's value.
//! - Rounded slot (half-round ends) and cross (two slots of one size, at right angles): the same
//!   equations on panels of any outline, three meshes extrapolated to 10⁻⁴, as a polynomial in
//!   √(w/l) beside the rectangle's value, with the exact limit of a thin slot.

use std::f64::consts::PI;

use ellip::{ellipe, elliprd};

use crate::error::{Result, check};
use crate::leak::Polarizability;
use crate::numeric::chebyshev::chebyshev;

/// Of a round hole of this diameter (m).
///
/// # Errors
/// Unless the diameter is positive and finite.
pub fn circle(diameter_m: f64) -> Result<Polarizability> {
    let radius_m = 0.5 * check::positive("diameter_m", "m", diameter_m)?;
    let cube = radius_m * radius_m * radius_m;
    Ok(Polarizability {
        electric_m3: 2.0 / 3.0 * cube,
        magnetic_along_m3: 4.0 / 3.0 * cube,
        magnetic_across_m3: 4.0 / 3.0 * cube,
    })
}

/// Of an elliptic hole by its axes (whole, not half; m), the longer one first.
///
/// ```
/// use stillroom::aperture::polarizability::{circle, ellipse};
/// let (round, same) = (circle(2e-3)?, ellipse(2e-3, 2e-3)?);
/// assert!((same.magnetic_along_m3 / round.magnetic_along_m3 - 1.0).abs() < 1e-14);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// Unless both are positive and finite and the width is at most the length.
pub fn ellipse(length_m: f64, width_m: f64) -> Result<Polarizability> {
    let (length_m, width_m) = check_sides(length_m, width_m)?;
    Ok(scaled(unit_ellipse(width_m / length_m), length_m))
}

/// Of a rectangular hole by its sides (m), the longer one first.
///
/// Below a width of a thousandth of the length the slender limit continues the polynomial.
///
/// ```
/// use stillroom::aperture::polarizability::rectangle;
/// // Square of unit side: 0.26010 and 0.11369 (static integral equations, extrapolated).
/// let square = rectangle(1.0, 1.0)?;
/// assert!((square.magnetic_along_m3 - 0.26010).abs() < 1e-5);
/// assert!((square.electric_m3 - 0.11369).abs() < 1e-5);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// Unless both are positive and finite and the width is at most the length.
pub fn rectangle(length_m: f64, width_m: f64) -> Result<Polarizability> {
    let (length_m, width_m) = check_sides(length_m, width_m)?;
    Ok(scaled(unit_rectangle(width_m / length_m), length_m))
}

/// Of a slot with half-round ends, by its whole length and its width (m).
///
/// ```
/// use stillroom::aperture::polarizability::{circle, rounded_slot};
/// // As wide as long it is a circle.
/// let (round, same) = (circle(1e-3)?, rounded_slot(1e-3, 1e-3)?);
/// assert!((same.electric_m3 / round.electric_m3 - 1.0).abs() < 1e-5);
/// # Ok::<(), stillroom::Error>(())
/// ```
///
/// # Errors
/// Unless both are positive and finite and the width is at most the length.
pub fn rounded_slot(length_m: f64, width_m: f64) -> Result<Polarizability> {
    let (length_m, width_m) = check_sides(length_m, width_m)?;
    Ok(scaled(unit_rounded_slot(width_m / length_m), length_m))
}

/// Of a cross of two equal slots at right angles, by the length and the width of each (m); alike in all
/// directions along the wall.
///
/// # Errors
/// Unless both are positive and finite and the width is at most the length.
pub fn cross(length_m: f64, width_m: f64) -> Result<Polarizability> {
    let (length_m, width_m) = check_sides(length_m, width_m)?;
    Ok(scaled(unit_cross(width_m / length_m), length_m))
}

/// Both sides positive, the width at most the length.
pub(crate) fn check_sides(length_m: f64, width_m: f64) -> Result<(f64, f64)> {
    let length_m = check::positive("length_m", "m", length_m)?;
    let width_m = check::positive("width_m", "m", width_m)?;
    Ok((length_m, check::at_most("width_m", "m", width_m, "length_m", length_m)?))
}

fn scaled(unit: Polarizability, length_m: f64) -> Polarizability {
    let cube = length_m * length_m * length_m;
    Polarizability {
        electric_m3: unit.electric_m3 * cube,
        magnetic_along_m3: unit.magnetic_along_m3 * cube,
        magnetic_across_m3: unit.magnetic_across_m3 * cube,
    }
}

/// Of an ellipse of unit length.
pub(crate) fn unit_ellipse(aspect: f64) -> Polarizability {
    // A square that underflows would leave the integrals without an argument.
    let aspect = aspect.max(1e-100);
    let squared = aspect * aspect;
    // π a³/R_D and π a b²/(3 E) with a = 1/2; the arguments are inside the integrals' domains for
    // every aspect from 0 (excluded) to 1, so that neither can fail.
    let magnetic = |y: f64, z: f64| elliprd(0.0, y, z).map_or(f64::NAN, |integral| PI / 8.0 / integral);
    let electric = ellipe(1.0 - squared).map_or(f64::NAN, |integral| PI / 24.0 * squared / integral);
    Polarizability {
        electric_m3: electric,
        magnetic_along_m3: magnetic(squared, 1.0),
        magnetic_across_m3: magnetic(1.0, squared),
    }
}

/// Of a slot with half-round ends, of unit length.
pub(crate) fn unit_rounded_slot(aspect: f64) -> Polarizability {
    let (rectangle, shorter) = (unit_rectangle(aspect), |table| 1.0 + beside_rectangle(aspect, table));
    Polarizability {
        electric_m3: rectangle.electric_m3 * shorter(&ROUNDED_ELECTRIC),
        magnetic_along_m3: rectangle.magnetic_along_m3 * shorter(&ROUNDED_ALONG),
        magnetic_across_m3: rectangle.magnetic_across_m3 * shorter(&ROUNDED_ACROSS),
    }
}

/// Of a cross of two slots of unit length.
pub(crate) fn unit_cross(aspect: f64) -> Polarizability {
    let rectangle = unit_rectangle(aspect);
    let magnetic_m3 = rectangle.magnetic_along_m3 * (1.0 + beside_rectangle(aspect, &CROSS_MAGNETIC));
    Polarizability {
        electric_m3: rectangle.electric_m3 * (2.0 + beside_rectangle(aspect, &CROSS_ELECTRIC)),
        magnetic_along_m3: magnetic_m3,
        magnetic_across_m3: magnetic_m3,
    }
}

/// What is added to the ratio of a shape to its rectangle in the limit of a thin slot: (w/l) G(√(w/l)).
fn beside_rectangle(aspect: f64, table: &[f64]) -> f64 {
    aspect * in_root(aspect, table)
}

/// A polynomial in the root of the aspect, constant below [`THINNEST`].
pub(crate) fn in_root(aspect: f64, table: &[f64]) -> f64 {
    let low = THINNEST.sqrt();
    chebyshev(table, 2.0 * (aspect.max(THINNEST).sqrt() - low) / (1.0 - low) - 1.0)
}

/// Of a rectangle of unit length.
pub(crate) fn unit_rectangle(aspect: f64) -> Polarizability {
    let ellipse = unit_ellipse(aspect);
    let place = 1.0 - 2.0 * aspect.max(SLENDEREST).ln() / SLENDEREST.ln();
    let magnetic_along_m3 = if aspect >= SLENDEREST {
        ellipse.magnetic_along_m3 * chebyshev(&ALONG, place)
    } else {
        // A uniform strip: π/(24 (ln(8l/w) − 7/3 − …)), the next term fixed by the polynomial's end.
        let logarithm = (8.0 / aspect).ln();
        PI / 24.0 / (logarithm - 7.0 / 3.0 - SLENDER_TERM / logarithm)
    };
    Polarizability {
        electric_m3: ellipse.electric_m3 * chebyshev(&ELECTRIC, place),
        magnetic_along_m3,
        magnetic_across_m3: ellipse.magnetic_across_m3 * chebyshev(&ACROSS, place),
    }
}

/// Least aspect of the tables below.
const SLENDEREST: f64 = 1e-3;

/// Rectangle over ellipse, magnetic polarizability along the length: Chebyshev coefficients in 1 − 2 ln(w/l)/ln 10⁻³.
const ALONG: [f64; 14] = [
    1.29657263,
    0.237597707,
    0.0467950537,
    -0.00836517981,
    -0.00951300909,
    -0.00297984928,
    -4.60245958e-05,
    0.000368603527,
    0.000170967086,
    2.98886265e-05,
    -8.53224299e-06,
    -7.27694008e-06,
    -2.36124704e-06,
    -3.11639718e-09,
];

/// Joins the slender limit to the polynomial at its end.
const SLENDER_TERM: f64 = 0.600_053_536;

/// Rectangle over ellipse, magnetic polarizability across the length: Chebyshev coefficients in 1 − 2 ln(w/l)/ln 10⁻³.
const ACROSS: [f64; 14] = [
    1.52921074,
    0.0392563148,
    0.00821522029,
    -0.00676604227,
    -0.00670806212,
    -0.00271853828,
    -0.000337641569,
    0.000252602246,
    0.000174239596,
    4.69215577e-05,
    -1.91874554e-06,
    -7.75671029e-06,
    -2.83620482e-06,
    -6.28929836e-07,
];

/// Rectangle over ellipse, electric polarizability: Chebyshev coefficients in 1 − 2 ln(w/l)/ln 10⁻³.
const ELECTRIC: [f64; 14] = [
    1.4486261,
    -0.0727434905,
    -0.0232578157,
    0.00324760075,
    0.00647844774,
    0.00252461423,
    -1.50546696e-06,
    -0.000459623164,
    -0.000199855341,
    -2.7585462e-06,
    3.72718269e-05,
    1.92766662e-05,
    -2.51125734e-07,
    -3.5153909e-06,
];

/// Least aspect of the tables in the root of the aspect; `tests/python/flat_reference.py` writes those below.
const THINNEST: f64 = 0.01;

const ROUNDED_ALONG: [f64; 9] = [
    -0.513899510,
    0.158783773,
    -0.002452289,
    -0.002109505,
    0.000626843,
    -0.000260879,
    0.000157164,
    -0.000137863,
    0.000066274,
];
const ROUNDED_ACROSS: [f64; 9] = [
    -0.407525962,
    0.047255810,
    0.003767508,
    -0.002917822,
    0.000382927,
    -0.000261975,
    0.000154910,
    -0.000140348,
    0.000058960,
];
const ROUNDED_ELECTRIC: [f64; 9] = [
    -0.222282292,
    -0.042944117,
    -0.005158988,
    0.002812857,
    0.000734596,
    -0.000179949,
    0.000057070,
    -0.000103061,
    0.000059576,
];
const CROSS_MAGNETIC: [f64; 9] = [
    0.119335110,
    -0.012559074,
    -0.093276780,
    -0.007189862,
    -0.002591637,
    -0.002352224,
    -0.000428070,
    -0.000854759,
    -0.000082705,
];
const CROSS_ELECTRIC: [f64; 9] = [
    0.060558653,
    -1.005566236,
    -0.178817238,
    0.090323788,
    0.042010973,
    -0.004984254,
    -0.005200475,
    0.000763955,
    0.000910834,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rectangles_join_the_slender_limit() {
        let (inside, outside) = (unit_rectangle(1.000_001e-3), unit_rectangle(0.999_999e-3));
        assert!((inside.magnetic_along_m3 / outside.magnetic_along_m3 - 1.0).abs() < 1e-6);
        assert!((inside.magnetic_across_m3 / outside.magnetic_across_m3 - 1.0).abs() < 1e-5);
        assert!((inside.electric_m3 / outside.electric_m3 - 1.0).abs() < 1e-5);
    }

    #[test]
    fn polarizabilities_grow_with_the_opening() {
        let mut before = unit_rectangle(1e-6);
        for step in 1..600 {
            let now = unit_rectangle(10f64.powf(-6.0 + f64::from(step) * 0.01));
            assert!(now.magnetic_along_m3 > before.magnetic_along_m3);
            assert!(now.magnetic_across_m3 > before.magnetic_across_m3);
            assert!(now.electric_m3 > before.electric_m3);
            before = now;
        }
    }

    #[test]
    fn an_opening_inside_another_passes_less() {
        // Ellipse inside its rectangle; square inside its circle of the diagonal.
        for aspect in [1.0, 0.5, 0.1, 1e-2, 1e-4] {
            let (inner, outer) = (unit_ellipse(aspect), unit_rectangle(aspect));
            assert!(inner.magnetic_along_m3 < outer.magnetic_along_m3);
            assert!(inner.electric_m3 < outer.electric_m3);
        }
        let (square, around) = (rectangle(1.0, 1.0).unwrap(), circle(2f64.sqrt()).unwrap());
        assert!(square.magnetic_along_m3 < around.magnetic_along_m3 && square.electric_m3 < around.electric_m3);
        // An ellipse in the rounded slot, that in the rectangle, that in the cross.
        for aspect in [0.9, 0.5, 0.1, 1e-2, 1e-4] {
            let chain = [unit_ellipse(aspect), unit_rounded_slot(aspect), unit_rectangle(aspect), unit_cross(aspect)];
            for pair in chain.windows(2) {
                assert!(pair[0].magnetic_along_m3 < pair[1].magnetic_along_m3, "{aspect}");
                assert!(pair[0].magnetic_across_m3 < pair[1].magnetic_across_m3, "{aspect}");
                assert!(pair[0].electric_m3 < pair[1].electric_m3, "{aspect}");
            }
        }
    }

    #[test]
    fn round_ends_meet_the_circle_and_arms_the_square() {
        let (circle, square) = (circle(1.0).unwrap(), unit_rectangle(1.0));
        let (round, cross) = (unit_rounded_slot(1.0), unit_cross(1.0));
        for (ours, exact) in [
            (round.magnetic_along_m3, circle.magnetic_along_m3),
            (round.magnetic_across_m3, circle.magnetic_across_m3),
            (round.electric_m3, circle.electric_m3),
            (cross.magnetic_along_m3, square.magnetic_along_m3),
            (cross.electric_m3, square.electric_m3),
        ] {
            assert!((ours / exact - 1.0).abs() < 1e-5, "{ours} {exact}");
        }
        // Thin arms do not see each other.
        let (thin, arm) = (unit_cross(1e-6), unit_rectangle(1e-6));
        assert!((thin.magnetic_along_m3 / arm.magnetic_along_m3 - 1.0).abs() < 1e-6);
        assert!((thin.electric_m3 / arm.electric_m3 - 2.0).abs() < 1e-5);
    }

    #[test]
    fn sides_are_checked() {
        let error = rectangle(1e-3, 2e-3).unwrap_err();
        assert_eq!(error.to_string(), "`width_m` = 0.002 m: must be at most `length_m` = 0.001 m");
        assert!(ellipse(f64::NAN, 1.0).is_err() && circle(0.0).is_err() && rectangle(1.0, -1.0).is_err());
    }
}
