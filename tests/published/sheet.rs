//! Sheets against published tables.
#![allow(clippy::unwrap_used)]

use stillroom::material::{Material, catalogue};
use stillroom::sheet::{
    ClosedShell, HandbookField, HolePattern, NearSource, PerforatedSheet, ShellShape, WireMesh, handbook_reflection_db,
    perforated_rule_db,
};
use stillroom::{Laminate, Layer, LoopArrangement, LoopTest, PlaneWave};

/// Printed tables are rounded to 1 dB.
const ROUNDED_DB: f64 = 0.7;
/// 12 inches, the distance of the handbook's near-field columns, m.
const FOOT: f64 = 12.0 * 25.4e-3;
const MIL: f64 = 25.4e-6;

fn metal(relative_conductivity: f64, permeability: f64) -> Material {
    Material::conductor("metal", relative_conductivity * 5.8e7, permeability).unwrap()
}

fn sheet(material: Material, thickness_m: f64) -> Laminate {
    Laminate::new(vec![Layer::slab(material, thickness_m).unwrap()]).unwrap()
}

/// Absorption loss of 1 mil at 150 kHz, dB.
///
/// MIL-HDBK-419A vol. I (1987), absorption table of sec. 8.3.1; values from memory. The stainless
/// steel entry of the table (5.7) is 1.5 % below its own formula and is tested to that.
#[test]
fn absorption_per_mil() {
    for (name, g, mu, published, relative) in [
        ("copper", 1.0, 1.0, 1.29, 0.01),
        ("aluminium", 0.61, 1.0, 1.01, 0.01),
        ("brass", 0.26, 1.0, 0.66, 0.01),
        ("phosphor bronze", 0.18, 1.0, 0.55, 0.01),
        ("iron", 0.17, 1000.0, 16.9, 0.01),
        ("SAE 1045 steel", 0.10, 1000.0, 12.9, 0.01),
        ("mu-metal", 0.03, 80_000.0, 63.2, 0.01),
        ("stainless steel", 0.02, 1000.0, 5.7, 0.02),
    ] {
        let split = sheet(metal(g, mu), MIL).split(150e3, &PlaneWave::normal()).unwrap();
        let error = split.absorption_db / published - 1.0;
        assert!(error.abs() < relative, "{name}: {} dB, published {published}", split.absorption_db);
    }
}

/// Plane-wave reflection loss, dB.
///
/// MIL-HDBK-419A vol. I (1987), Table 8-4, read (navalfacilities.tpub.com/hdbk419a_vol1/hdbk419a_vol10251.htm;
/// the stored text lost its columns, the assignment is ours). Copper g = 1, iron g = 0.17 with the
/// permeability listed.
#[test]
fn plane_wave_reflection() {
    for (frequency_hz, g, mu, published) in [
        (60.0, 1.0, 1.0, 150.0),
        (60.0, 0.17, 1000.0, 113.0),
        (10e3, 1.0, 1.0, 128.0),
        (10e3, 0.17, 1000.0, 91.0),
        (150e3, 0.17, 1000.0, 79.0),
        (1e6, 1.0, 1.0, 108.0),
        (1e6, 0.17, 700.0, 72.0),
        (100e6, 1.0, 1.0, 88.0),
        (100e6, 0.17, 100.0, 61.0),
        (10e9, 1.0, 1.0, 68.0),
        (10e9, 0.17, 1.0, 61.0),
    ] {
        let found = sheet(metal(g, mu), 1e-3).split(frequency_hz, &PlaneWave::normal()).unwrap().reflection_db;
        assert!((found - published).abs() < ROUNDED_DB, "{frequency_hz} Hz, g {g}: {found} dB, published {published}");
        let rule = handbook_reflection_db(HandbookField::PlaneWave, &metal(g, mu), frequency_hz, FOOT).unwrap();
        assert!((rule - found).abs() < 0.01, "{frequency_hz} Hz: rule {rule}, exact {found}");
    }
}

/// Near-field reflection losses at 12 inches, dB, by the handbook's closed forms and by the split with
/// the wave impedance of dipole and loop.
///
/// Same table and mark. Rows at 100 MHz and above are left to the closed forms: there 12 inches is no
/// longer near the source. Iron, magnetic, 150 kHz reads 10.0 in the stored text against 18.7 by the
/// table's own formula, and is not tested.
#[test]
fn near_field_reflection() {
    use HandbookField::{Electric, Magnetic};
    for (frequency_hz, g, mu, field, published) in [
        (60.0, 1.0, 1.0, Electric, 279.0),
        (60.0, 1.0, 1.0, Magnetic, 22.0),
        (60.0, 0.17, 1000.0, Electric, 241.0),
        (60.0, 0.17, 1000.0, Magnetic, -0.9),
        (10e3, 1.0, 1.0, Electric, 212.0),
        (10e3, 1.0, 1.0, Magnetic, 44.0),
        (10e3, 0.17, 1000.0, Electric, 174.0),
        (10e3, 0.17, 1000.0, Magnetic, 8.0),
        (150e3, 1.0, 1.0, Electric, 177.0),
        (150e3, 1.0, 1.0, Magnetic, 56.0),
        (150e3, 0.61, 1.0, Magnetic, 54.0),
        (150e3, 0.17, 1000.0, Electric, 139.0),
        (1e6, 1.0, 1.0, Electric, 152.0),
        (1e6, 1.0, 1.0, Magnetic, 64.0),
        (1e6, 0.61, 1.0, Magnetic, 62.0),
        (1e6, 0.17, 700.0, Electric, 116.0),
        (1e6, 0.17, 700.0, Magnetic, 28.0),
        (100e6, 1.0, 1.0, Electric, 92.0),
        (100e6, 1.0, 1.0, Magnetic, 84.0),
        (100e6, 0.61, 1.0, Electric, 90.0),
        (100e6, 0.61, 1.0, Magnetic, 82.0),
        (100e6, 0.17, 100.0, Electric, 64.0),
        (100e6, 0.17, 100.0, Magnetic, 57.0),
    ] {
        let material = metal(g, mu);
        let rule = handbook_reflection_db(field, &material, frequency_hz, FOOT).unwrap();
        assert!(
            (rule - published).abs() < ROUNDED_DB,
            "{frequency_hz} Hz {field:?}: rule {rule}, published {published}"
        );
        if frequency_hz < 10e6 {
            let source = if field == Electric { NearSource::Dipole } else { NearSource::Loop };
            let split = source.split(&material, 1e-3, frequency_hz, FOOT).unwrap();
            let found = split.reflection_db;
            assert!((found - published).abs() < 1.0, "{frequency_hz} Hz {field:?}: {found}, published {published}");
        }
    }
}

/// Frequencies at which iron has no reflection loss against a loop at 12 inches: 620 and 31.5 Hz.
///
/// Same table, footnote, read. The exact zeros of the formula are 612.7 and 31.43 Hz.
#[test]
fn magnetic_reflection_of_iron_changes_sign() {
    let iron = metal(0.17, 1000.0);
    let loss = |frequency_hz| handbook_reflection_db(HandbookField::Magnetic, &iron, frequency_hz, FOOT).unwrap();
    assert!(loss(620.0 * 1.02) > 0.0 && loss(620.0 * 0.97) < 0.0);
    assert!(loss(31.5 * 0.97) > 0.0 && loss(31.5 * 1.02) < 0.0);
}

/// Coefficients of the magnetic reflection loss, 20 lg(C1 x/r + C2 r/x + 0.354) with x = √(μ/(g f)):
/// r in metres, C1 0.0117 and C2 5.35.
///
/// Denny et al., FAA-RD-75-215 (1975), as Table 5-11 of US Army EP 1110-3-2 (1990), read.
#[test]
fn magnetic_reflection_coefficients() {
    for (g, mu, frequency_hz, r) in [(1.0, 1.0, 1e3, 0.3), (0.17, 1000.0, 1e5, 1.0), (0.61, 1.0, 60.0, 0.05)] {
        let x = f64::sqrt(mu / (g * frequency_hz));
        let published = 20.0 * (0.0117 * x / r + 5.35 * r / x + 0.354).log10();
        let found = handbook_reflection_db(HandbookField::Magnetic, &metal(g, mu), frequency_hz, r).unwrap();
        // Three printed digits: 0.05 dB.
        assert!((found - published).abs() < 0.05, "{found} {published}");
    }
}

/// Re-reflection loss of copper sheets, dB, plane wave and near a loop at 12 inches.
///
/// MIL-HDBK-419A vol. I (1987), Table 8-6 (its existence and meaning read, hdbk419a_vol10252.htm;
/// values from memory). The 20 mil entry of the magnetic row (-15.85) disagrees with the formula by
/// 0.5 dB and with the smooth run of its neighbours, and is left out.
#[test]
fn re_reflection_loss_of_copper() {
    let copper = metal(1.0, 1.0);
    let plane = |mils: f64, frequency_hz| {
        sheet(copper.clone(), mils * MIL).split(frequency_hz, &PlaneWave::normal()).unwrap().re_reflection_db
    };
    for (mils, published) in
        [(1.0, -41.52), (5.0, -27.64), (10.0, -21.75), (20.0, -15.99), (30.0, -12.73), (50.0, -8.81)]
    {
        assert!((plane(mils, 60.0) - published).abs() < 0.02, "60 Hz {mils} mil: {}", plane(mils, 60.0));
    }
    for (mils, published) in [(1.0, -29.38), (5.0, -15.82), (10.0, -10.33), (20.0, -5.37), (30.0, -2.93), (50.0, -0.58)]
    {
        assert!((plane(mils, 1e3) - published).abs() < 0.05, "1 kHz {mils} mil: {}", plane(mils, 1e3));
    }
    for (mils, published) in [(1.0, -22.22), (5.0, -21.30), (10.0, -19.23), (30.0, -12.55), (50.0, -8.88)] {
        let found = NearSource::Loop.split(&copper, mils * MIL, 60.0, FOOT).unwrap().re_reflection_db;
        assert!((found - published).abs() < 0.05, "60 Hz loop {mils} mil: {found}");
    }
}

/// Re-reflection loss against t/δ with the complex exponent: 3 dB above the printed table, which takes
/// it as real.
///
/// H. W. Ott, *Noise Reduction Techniques in Electronic Systems*, ch. 6 (from memory): -54, -34, -20,
/// -15, -10, -7, -4, -1 dB by 20 lg(1 - e^(-2t/δ)). The exact values are derived from
/// 20 lg|1 - e^(-2(1+j)t/δ)| by hand.
#[test]
fn the_printed_re_reflection_table_is_three_decibels_low_for_thin_sheets() {
    let copper = metal(1.0, 1.0);
    // Low enough for the faces to turn all but 10⁻⁶ of the wave back, as the table assumes.
    let frequency_hz = 1e3;
    let depth = copper.skin_depth_m(frequency_hz);
    for (ratio, printed, exact) in [
        (0.001, -54.0, -50.98),
        (0.01, -34.0, -31.06),
        (0.05, -20.0, -17.42),
        (0.1, -15.0, -11.84),
        (0.2, -10.0, -6.69),
        (0.3, -7.0, -4.03),
        (0.5, -4.0, -1.32),
        (1.0, -1.0, 0.53),
    ] {
        let real = 20.0 * f64::log10(-f64::exp_m1(-2.0 * ratio));
        assert!((real - printed).abs() < ROUNDED_DB, "{ratio}: {real}");
        let split = sheet(copper.clone(), ratio * depth).split(frequency_hz, &PlaneWave::normal()).unwrap();
        assert!((split.re_reflection_db - exact).abs() < 0.01, "{ratio}: {}", split.re_reflection_db);
    }
}

/// Intrinsic impedance of copper at 1 MHz: 3.69e-4 ohm.
///
/// incompliancemag.com, "Shielding to prevent radiation", part 4A, read. Found here from the plane-wave
/// reflection loss, R = 20 lg(η₀/4|Z|).
#[test]
fn impedance_of_copper() {
    let reflection_db = sheet(metal(1.0, 1.0), 1e-3).split(1e6, &PlaneWave::normal()).unwrap().reflection_db;
    let impedance = stillroom::constants::VACUUM_IMPEDANCE / 4.0 / 10f64.powf(reflection_db / 20.0);
    assert!((impedance - 3.69e-4).abs() < 0.005e-4, "{impedance}");
}

/// 20 mil of copper at 1 MHz: 108.1 + 66.8 = 174.9 dB, derived from the handbook's formulas.
#[test]
fn twenty_mil_of_copper() {
    let found = sheet(metal(1.0, 1.0), 20.0 * MIL).shielding_db(1e6, &PlaneWave::normal());
    assert!((found - 174.9).abs() < 0.05, "{found}");
}

/// Slabs of building material, normal incidence, dB: derived from the single-layer formula of
/// Recommendation ITU-R P.2040-4 with its coefficients (read in NVlabs/sionna-rt).
#[test]
fn slabs_of_building_material() {
    for (name, thickness_m, frequency_hz, transmission_db, tolerance) in [
        ("concrete", 0.2, 1e9, 7.79, 0.006),
        ("concrete", 0.2, 2.4e9, 14.57, 0.006),
        ("concrete", 0.2, 5.8e9, 27.54, 0.006),
        ("glass", 6e-3, 2.4e9, 1.905, 0.0006),
        ("plywood", 18e-3, 2.4e9, 6.242, 0.0006),
    ] {
        let slab = sheet(catalogue::get(name).unwrap(), thickness_m);
        let found = slab.shielding_db(frequency_hz, &PlaneWave::normal());
        assert!((found - transmission_db).abs() < tolerance, "{name} {frequency_hz}: {found}");
    }
    for (frequency_hz, reflection_db) in [(1e9, 9.69), (2.4e9, 7.87), (5.8e9, 8.09)] {
        let slab = sheet(catalogue::get("concrete").unwrap(), 0.2);
        let found = -20.0 * slab.reflection(frequency_hz, &PlaneWave::normal()).norm().log10();
        assert!((found - reflection_db).abs() < 0.006, "{frequency_hz}: {found}");
    }
}

/// Coaxial loops of radius 0.15 m, 0.6 m apart in all, dB.
///
/// No worked value of the integral is published that we found. Derived: the integral of J. R. Moser,
/// IEEE Trans. EMC 9 (1967) 6 (from memory), summed by an ordinary adaptive rule (scipy's quad).
#[test]
fn loop_test() {
    let test = |thickness: f64, receiver| {
        LoopTest::new(LoopArrangement::Coaxial, 0.15, receiver, 0.3, 0.3 - thickness).unwrap()
    };
    let copper = sheet(metal(1.0, 1.0), 1e-3);
    for (frequency_hz, published) in [(50.0, 9.33), (1e3, 34.17), (10e3, 55.07), (150e3, 104.17)] {
        let found = test(1e-3, 0.15).shielding_db(&copper, &[frequency_hz]).unwrap()[0];
        assert!((found - published).abs() < 0.006, "copper {frequency_hz}: {found}");
    }
    let axis = test(1e-3, 0.0).shielding_db(&copper, &[1e3]).unwrap()[0];
    assert!((axis - 33.74).abs() < 0.006, "{axis}");
    let steel = sheet(metal(0.1, 200.0), 2e-3);
    for (frequency_hz, published) in [(50.0, 7.94), (1e3, 39.99), (9e3, 121.06)] {
        let found = test(2e-3, 0.15).shielding_db(&steel, &[frequency_hz]).unwrap()[0];
        assert!((found - published).abs() < 0.006, "steel {frequency_hz}: {found}");
    }
}

/// A loop over a thin resistive sheet: the field on the axis is that of the loop less that of images
/// receding from it.
///
/// J. C. Maxwell, *A Treatise on Electricity and Magnetism*, art. 656-662 (from memory), here for a
/// steady alternation: T = 2l/(2l + jωμ₀σt), so that the image term is an exponential integral over
/// ever more distant loops. Derived by ordinary quadrature of those images.
#[test]
fn receding_images() {
    let (a, z, f) = (0.15_f64, 0.6_f64, 2e3);
    // 1/l e^{-lz} against distance: 2l/(2l + p) = 1 - (p/2) ∫₀^∞ e^{-(l + p/2)u} du, a loop at z + u.
    let (sigma, t) = (5.8e7, 1e-6);
    let p = 2.0 * std::f64::consts::PI * f * 4e-7 * std::f64::consts::PI * sigma * t;
    let field = |z: f64| 0.5 * a * a / (a * a + z * z).powf(1.5);
    let (mut re, mut im) = (field(z), 0.0);
    let step = 1e-3;
    for n in 0..400_000 {
        let u = (f64::from(n) + 0.5) * step;
        // (jp/2) e^{-jpu/2}
        let weight = 0.5 * p * field(z + u) * step;
        re -= weight * (0.5 * p * u).sin();
        im -= weight * (0.5 * p * u).cos();
    }
    let expected = -20.0 * (re.hypot(im) / field(z)).log10();
    let film = Laminate::new(vec![Layer::film(1.0 / (sigma * t)).unwrap()]).unwrap();
    let test = LoopTest::new(LoopArrangement::Coaxial, a, 0.0, 0.3, 0.3).unwrap();
    let found = test.shielding_db(&film, &[f]).unwrap()[0];
    assert!((found - expected).abs() < 1e-4, "{found} {expected}");
}

/// Thin closed shells in a static field: sphere 4/3 μd/D, cylinder across μd/D, plus one.
///
/// Trade formulas read at mumetal.co.uk/2009/05/27/shielding-calculation-formula and
/// hongertech.com/blog/calculation-of-shielding_b12, stated there as approximate and without the one;
/// exact values derived from J. D. Jackson, *Classical Electrodynamics*, sec. 5.12 (derivation read at
/// farside.ph.utexas.edu/teaching/jk1/lectures/node52.html).
#[test]
fn static_shells() {
    for (mu, outer, sphere, cylinder) in [(1000.0, 0.1, 7.587, 5.965), (20_000.0, 0.5, 27.61, 20.98)] {
        let shell = |shape| {
            let wall = vec![Layer::slab(metal(0.03, mu), 1e-3).unwrap()];
            ClosedShell::new(shape, outer - 1e-3, wall).unwrap().static_shielding_factor()
        };
        let (s, c) = (shell(ShellShape::Sphere), shell(ShellShape::CylinderAcross));
        assert!((s / sphere - 1.0).abs() < 2e-4 && (c / cylinder - 1.0).abs() < 3e-4, "{s} {c}");
        let rule = mu * 1e-3 / (2.0 * outer);
        assert!((s / (1.0 + 4.0 / 3.0 * rule) - 1.0).abs() < 0.02, "{s}");
        assert!((c / (1.0 + rule) - 1.0).abs() < 0.02, "{c}");
    }
}

/// Copper sphere of radius 0.5 m and 1 mm wall, dB.
///
/// H. Kaden, *Wirbelströme und Schirmung in der Nachrichtentechnik*, 2nd ed. (1959), formula from
/// memory, values derived: cosh γt + (γR + 2/(γR)) sinh γt/3. It takes the wall as flat: t/R = 1/500
/// leaves a few hundredths of a dB.
#[test]
fn copper_sphere() {
    let wall = || vec![Layer::slab(metal(1.0, 1.0), 1e-3).unwrap()];
    let sphere = ClosedShell::new(ShellShape::Sphere, 0.5, wall()).unwrap();
    for (frequency_hz, published) in [(50.0, 11.94), (1e3, 37.68), (10e3, 58.59), (100e3, 96.59)] {
        let found = sphere.shielding_db(frequency_hz);
        assert!((found - published).abs() < 0.03, "{frequency_hz}: {found}");
    }
}

/// Bonded mesh of copper, pitch 1.3 mm, wire 0.25 mm: inductance and shielding, derived from K. F.
/// Casey, IEEE Trans. EMC 30 (1988) 298 (abstract read: it falls with frequency).
#[test]
fn bonded_mesh() {
    let mesh = WireMesh::new(1.3e-3, 0.25e-3, metal(1.0, 1.0)).unwrap();
    assert!((mesh.sheet_inductance_h() - 2.0562e-10).abs() < 0.0001e-10);
    let screen = Laminate::new(vec![Layer::mesh(mesh)]).unwrap();
    for (frequency_hz, derived) in [(1e6, 100.65), (100e6, 62.99), (1e9, 43.18)] {
        let found = screen.shielding_db(frequency_hz, &PlaneWave::normal());
        assert!((found - derived).abs() < 0.01, "{frequency_hz}: {found}");
    }
}

/// No. 22 copper screen, 15 mil wire, 22 meshes per inch, plane wave: measured 106 dB at 1 MHz.
///
/// US Army EP 1110-3-2 (1990), Table 5-16, read (row labels by order in the stored text). Of the same
/// row, 118 dB at 0.2 MHz and 100 dB at 5 MHz, the mesh formula gives 116.9 and 93.9; only the value
/// between is asserted, the others may be another row's.
#[test]
fn measured_screen() {
    let mesh = WireMesh::new(25.4e-3 / 22.0, 15.0 * MIL, metal(1.0, 1.0)).unwrap();
    let screen = Laminate::new(vec![Layer::mesh(mesh)]).unwrap();
    let found = screen.shielding_db(1e6, &PlaneWave::normal());
    assert!((found - 106.0).abs() < 1.0, "{found}");
}

/// Perforated sheet with few small holes: 20 lg(3Aλ/(2πd³)), plus 32 t/d with depth.
///
/// Form after T. Y. Otoshi, IEEE Trans. MTT 20 (1972) 235 and C.-C. Chen, IEEE Trans. MTT 21 (1973) 1
/// (formulas from memory, values derived). Holes 3/16 in, pitch 1/4 in, 60 degrees, 8.448 GHz, is
/// their classical plate: 14.77 dB thin and 30.13 dB at 0.090 in, where the formula is used beyond
/// its limits (hole 0.13 λ, 0.75 of the pitch).
#[test]
fn perforated_sheet() {
    let (hole, pitch) = (3.0 / 16.0 * 25.4e-3, 25.4e-3 / 4.0);
    for (thickness, published) in [(0.0, 14.77), (90.0 * MIL, 30.13)] {
        let plate = PerforatedSheet::new(hole, pitch, HolePattern::Hexagonal, thickness).unwrap();
        let rule = perforated_rule_db(&plate, 8.448e9);
        assert!((rule - published).abs() < 0.01, "{thickness}: {rule}");
        // The lattice of dipoles shares the field of neighbours and the reactance of the whole sheet:
        // close to the rule, not equal to it.
        let found = Laminate::new(vec![Layer::perforated(plate)]).unwrap().shielding_db(8.448e9, &PlaneWave::normal());
        assert!((found - published).abs() < 3.0, "{thickness}: {found}");
    }
    // Few small holes at low frequency: the rule is exact, but for the end correction of the depth.
    for (depth, correction) in [(0.0, 0.0), (2.0, -20.0 * 0.8388_f64.log10())] {
        let hole = 0.5e-3;
        let plate = PerforatedSheet::new(hole, 10e-3, HolePattern::Square, depth * hole).unwrap();
        let rule = perforated_rule_db(&plate, 1e8) - 32.0 * depth + depth * 31.9846;
        let found = Laminate::new(vec![Layer::perforated(plate)]).unwrap().shielding_db(1e8, &PlaneWave::normal());
        assert!((found - rule - correction).abs() < 0.01, "{depth}: {found} {rule}");
    }
}
