//! Skin depths, intrinsic impedance, and the conductivities of building materials.

use approx::assert_relative_eq;
use stillroom::Material;
use stillroom::material::catalogue;

/// H. W. Ott, *Noise Reduction Techniques in Electronic Systems*, ch. 6, table of skin depths, inch
/// (from memory); printed to two or three digits.
#[test]
fn skin_depths_in_inches() {
    let inch = 25.4e-3;
    let copper = catalogue::get("copper").unwrap();
    let aluminium = catalogue::get("aluminium").unwrap();
    let steel = catalogue::get("steel").unwrap();
    for (material, frequency_hz, printed) in [
        (&copper, 60.0, 0.335),
        (&copper, 100.0, 0.260),
        (&copper, 1e3, 0.082),
        (&copper, 10e3, 0.026),
        (&aluminium, 60.0, 0.429),
        (&aluminium, 1e3, 0.105),
        (&steel, 60.0, 0.034),
        (&steel, 1e3, 0.008),
    ] {
        let depth = material.skin_depth_m(frequency_hz) / inch;
        // Half of the last printed digit, and the 0.3 % by which 2.6/sqrt(f) rounds the constant.
        assert!((depth - printed).abs() < 0.0005 + 0.003 * printed, "{} {frequency_hz}: {depth}", material.name());
    }
}

/// Skin depths in mm at 60 Hz, 1 kHz and 200 kHz: launchloop.com/SkinDepth (read); its steel entry at
/// 20 kHz is a misprint and is not used.
#[test]
fn skin_depths_in_millimetres() {
    for (resistivity, permeability, printed) in
        [(1.7e-8, 1.0, [8.5, 2.1, 0.15]), (2.8e-8, 1.0, [11.0, 2.7, 0.19]), (5e-7, 700.0, [1.7, 0.43, 0.030])]
    {
        let metal = Material::conductor("metal", 1.0 / resistivity, permeability).unwrap();
        for (frequency_hz, printed) in [60.0, 1e3, 200e3].into_iter().zip(printed) {
            // Two printed digits.
            assert_relative_eq!(metal.skin_depth_m(frequency_hz) * 1e3, printed, max_relative = 0.03);
        }
    }
}

/// Magnitude of the intrinsic impedance of copper at 1 MHz, 3.69e-4 ohm: incompliancemag.com,
/// "Shielding to Prevent Radiation, part 4A" (read).
#[test]
fn intrinsic_impedance_of_copper() {
    let medium = catalogue::get("copper").unwrap().medium(1e6);
    let impedance = stillroom::constants::VACUUM_IMPEDANCE
        * (medium.relative_permeability / medium.relative_permittivity).sqrt().norm();
    assert_relative_eq!(impedance, 3.69e-4, max_relative = 1.5e-3);
}

/// Conductivity at 9 GHz by Recommendation ITU-R P.2040-1: the building-material example of a general
/// technical-computing manual (read). These are the coefficients of that edition (from memory), not
/// those of the catalogue, which follows a later one.
#[test]
fn building_materials_of_the_first_edition() {
    use stillroom::material::{Conductivity, Permeability, Permittivity, PowerLaw};
    for (name, permittivity, c, d, printed) in [
        ("concrete", 5.31, 0.0326, 0.8095, 0.19305),
        ("glass", 6.27, 0.0043, 1.1925, 0.059_075),
        ("plasterboard", 2.94, 0.0116, 0.7076, 0.054_914),
        ("ceiling board", 1.50, 0.0005, 1.1634, 0.006_443_7),
    ] {
        let material = Material::new(
            name,
            Conductivity::PowerLaw(PowerLaw { coefficient: c, exponent: d }),
            Permittivity::Constant { relative: permittivity, loss_tangent: 0.0 },
            Permeability::Constant(1.0),
        )
        .unwrap();
        assert_relative_eq!(material.conductivity_s_per_m(9e9), printed, max_relative = 1e-4);
    }
}
