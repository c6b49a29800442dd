//! What must hold for every sheet, whatever its numbers.
#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use ndarray::Array1;
use proptest::prelude::*;
use stillroom::enclosure::Site;
use stillroom::leak::TabulatedLeak;
use stillroom::material::{Conductivity, Material, Permeability, Permittivity};
use stillroom::probe::{LoopArrangement, LoopTest, RodTest};
use stillroom::sheet::{
    ClosedShell, HolePattern, NearSource, PerforatedSheet, ShellShape, WireMesh, handbook_reflection_db,
    room_in_uniform_field,
};
use stillroom::wave::{Incidence, Passages, Sheet, Waves};
use stillroom::{Enclosure, Error, Exposure, Laminate, Layer, Parameters, PlaneWave, Polarization};

fn decades(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.log10()..high.log10()).prop_map(|exponent| 10f64.powf(exponent))
}

fn polarization() -> impl Strategy<Value = Polarization> {
    prop_oneof![Just(Polarization::Te), Just(Polarization::Tm)]
}

fn conductor() -> impl Strategy<Value = Material> {
    (decades(1.0, 6e7), prop_oneof![Just(1.0), decades(1.0, 2e4)])
        .prop_map(|(sigma, mu)| Material::conductor("metal", sigma, mu).unwrap())
}

fn dielectric() -> impl Strategy<Value = Material> {
    (1.0..12.0, prop_oneof![Just(0.0), decades(1e-6, 1.0)])
        .prop_map(|(epsilon, loss)| Material::dielectric("plastic", epsilon, loss).unwrap())
}

fn magnetic() -> impl Strategy<Value = Material> {
    (decades(1e-3, 1e7), decades(10.0, 1e5), decades(1e3, 1e9)).prop_map(|(sigma, initial, relaxation_hz)| {
        Material::new(
            "ferrite",
            Conductivity::Constant(sigma),
            Permittivity::Constant { relative: 10.0, loss_tangent: 0.01 },
            Permeability::Relaxing { initial, relaxation_hz },
        )
        .unwrap()
    })
}

fn layer() -> impl Strategy<Value = Layer> {
    prop_oneof![
        (conductor(), decades(1e-9, 1e-2)).prop_map(|(m, d)| Layer::slab(m, d).unwrap()),
        (dielectric(), decades(1e-5, 0.3)).prop_map(|(m, d)| Layer::slab(m, d).unwrap()),
        (magnetic(), decades(1e-6, 1e-2)).prop_map(|(m, d)| Layer::slab(m, d).unwrap()),
        decades(1e-3, 1e5).prop_map(|r| Layer::film(r).unwrap()),
        (decades(1e-4, 1e-1), 0.01..0.5).prop_map(|(pitch, share)| {
            Layer::mesh(WireMesh::new(pitch, share * pitch, Material::conductor("wire", 1e7, 1.0).unwrap()).unwrap())
        }),
        (decades(1e-4, 1e-2), 0.05..0.8, 0.0..3.0).prop_map(|(pitch, share, depth)| {
            let diameter = share * pitch;
            Layer::perforated(PerforatedSheet::new(diameter, pitch, HolePattern::Hexagonal, depth * diameter).unwrap())
        }),
    ]
}

fn stack() -> impl Strategy<Value = Laminate> {
    prop::collection::vec(layer(), 1..6).prop_map(|layers| Laminate::new(layers).unwrap())
}

/// Frequencies at which every screen of [`layer`] is small against the wavelength.
fn frequency() -> impl Strategy<Value = f64> {
    decades(1.0, 5e8)
}

fn at(frequency_hz: f64, angle_deg: f64) -> Incidence {
    Incidence::at_angle(frequency_hz, angle_deg)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_more_comes_out_than_goes_in(sheet in stack(), f in frequency(), angle in 0.0..89.0, p in polarization()) {
        let found = sheet.scattering(&at(f, angle), p);
        let out = found.reflection.norm_sqr() + (2.0 * found.ln_transmission.re).exp();
        prop_assert!(out <= 1.0 + 1e-11, "{out}");
    }

    #[test]
    fn a_lossless_stack_keeps_all_its_power(
        epsilon in 1.0..12.0, d in decades(1e-5, 0.3), pitch in decades(1e-4, 1e-2), share in 0.05..0.8,
        depth in 0.0..2.0, f in decades(1e3, 1e10), angle in 0.0..89.0, p in polarization(),
    ) {
        // A perforated sheet of perfect metal on plastic.
        let screen = PerforatedSheet::new(share * pitch, pitch, HolePattern::Square, depth * share * pitch).unwrap();
        let plastic = Material::dielectric("plastic", epsilon, 0.0).unwrap();
        let sheet = Laminate::new(vec![Layer::perforated(screen), Layer::slab(plastic, d).unwrap()]).unwrap();
        let found = sheet.scattering(&at(f, angle), p);
        let out = found.reflection.norm_sqr() + (2.0 * found.ln_transmission.re).exp();
        prop_assert!((out - 1.0).abs() < 1e-11, "{out}");
    }

    #[test]
    fn both_ways_are_alike(sheet in stack(), f in frequency(), angle in 0.0..89.0, p in polarization()) {
        let there = sheet.transmission(&at(f, angle), p).ln();
        let back = sheet.reversed().transmission(&at(f, angle), p).ln();
        prop_assert!((there.re - back.re).abs() <= 1e-12 * there.re.abs() + 1e-11, "{there} {back}");
    }

    #[test]
    fn the_three_losses_are_the_whole(
        m in prop_oneof![conductor(), dielectric(), magnetic()], d in decades(1e-9, 1.0), f in decades(1.0, 1e12),
        angle in 0.0..89.0, p in polarization(),
    ) {
        let wave = PlaneWave::new(angle, p).unwrap();
        let sheet = Laminate::new(vec![Layer::slab(m, d).unwrap()]).unwrap();
        let (whole, sum) = (sheet.shielding_db(f, &wave), sheet.split(f, &wave).unwrap().total_db());
        prop_assert!((whole - sum).abs() <= 1e-10 + 1e-13 * whole.abs(), "{whole} {sum}");
    }

    #[test]
    fn more_metal_shields_more(sigma in decades(1e4, 6e7), d in decades(1e-9, 1e-2), more in 1.01..10.0, f in decades(1.0, 1e11)) {
        // A non-magnetic good conductor along the normal; permeable or lossy dielectric sheets have resonances.
        let shielding = |d| {
            let metal = Material::conductor("metal", sigma, 1.0).unwrap();
            Laminate::new(vec![Layer::slab(metal, d).unwrap()]).unwrap().shielding_db(f, &PlaneWave::normal())
        };
        prop_assert!(shielding(more * d) >= shielding(d) * (1.0 - 1e-12));
    }

    #[test]
    fn one_layer_in_two_pieces_is_one_layer(m in conductor(), d in decades(1e-7, 1e-2), share in 0.05..0.95, f in frequency(), angle in 0.0..89.0, p in polarization()) {
        let one = Laminate::new(vec![Layer::slab(m.clone(), d).unwrap()]).unwrap();
        let two = Laminate::new(vec![Layer::slab(m.clone(), share * d).unwrap(), Layer::slab(m, (1.0 - share) * d).unwrap()]).unwrap();
        let (a, b) = (one.transmission(&at(f, angle), p).ln(), two.transmission(&at(f, angle), p).ln());
        prop_assert!((a.re - b.re).abs() < 1e-12 * a.re.abs() + 1e-12);
    }

    #[test]
    fn batches_are_the_single_values(sheet in stack(), angle in 0.0..89.0, p in polarization(), f in prop::collection::vec(frequency(), 1..40)) {
        let wave = PlaneWave::new(angle, p).unwrap();
        let batch = sheet.shielding_db_at(Array1::from_vec(f.clone()).view(), &wave).unwrap();
        for (&f, &found) in f.iter().zip(&batch) {
            let single = sheet.shielding_db(f, &wave);
            prop_assert!((found - single).abs() <= 1e-12 * single.abs() + 1e-12, "{found} {single}");
        }
    }

    #[test]
    fn near_spectra_are_the_single_waves(
        sheet in stack(), f in decades(10.0, 1e8), x in prop::collection::vec(decades(1e-12, 300.0), 1..40), p in polarization(),
    ) {
        let waves = Waves::beside_branch_cut(f, &x);
        let mut passages = Passages::new(x.len());
        sheet.passages(&waves, p, &mut passages);
        for (place, wave) in waves.iter().enumerate() {
            let (single, batch) = (sheet.transmission(&wave, p).ln(), passages.ln(place));
            prop_assert!((batch.re - single.re).abs() <= 1e-12 * single.re.abs() + 1e-11, "{batch} {single}");
        }
    }

    #[test]
    fn loops_read_alike_from_both_sides(
        sheet in stack(), f in decades(10.0, 1e8), a in 0.02..0.25, b in 0.02..0.25, coplanar: bool,
    ) {
        let arrangement = if coplanar { LoopArrangement::Coplanar } else { LoopArrangement::Coaxial };
        let there = LoopTest::new(arrangement, a, b, 0.3, 0.4).unwrap().shielding_db(&sheet, &[f]).unwrap()[0];
        let back = LoopTest::new(arrangement, b, a, 0.4, 0.3).unwrap().shielding_db(&sheet.reversed(), &[f]).unwrap()[0];
        prop_assert!((there - back).abs() < 1e-7 + 1e-9 * there.abs(), "{there} {back}");
    }

    #[test]
    fn the_loop_test_knows_its_error(sheet in stack(), f in prop::collection::vec(decades(10.0, 1e8), 1..6), a in 0.02..0.6) {
        let test = LoopTest::new(LoopArrangement::Coaxial, a, 0.15, 0.3, 0.3).unwrap();
        for found in test.field_ratios(&sheet, &f).unwrap() {
            prop_assert!(found.relative_error <= 3e-9, "{found:?}");
            prop_assert!(found.ratio.ln().re.is_finite());
        }
    }

    #[test]
    fn a_thicker_sheet_shields_loops_more(sigma in decades(1e5, 6e7), d in decades(1e-6, 3e-3), more in 1.05..3.0, f in decades(10.0, 1e7)) {
        let read = |d: f64| {
            let metal = Material::conductor("metal", sigma, 1.0).unwrap();
            let sheet = Laminate::new(vec![Layer::slab(metal, d).unwrap()]).unwrap();
            // The same places, whatever the thickness.
            let test = LoopTest::new(LoopArrangement::Coaxial, 0.15, 0.15, 0.3, 0.3 - d).unwrap();
            test.shielding_db(&sheet, &[f]).unwrap()[0]
        };
        prop_assert!(read(more * d) > read(d) * (1.0 - 1e-9));
    }

    #[test]
    fn shells_grow_with_thickness_and_conductivity(
        sigma in decades(1e5, 6e7), radius in decades(0.05, 5.0), d in decades(1e-5, 5e-3), more in 1.05..3.0, f in decades(0.1, 1e6),
    ) {
        for shape in [ShellShape::Sphere, ShellShape::CylinderAcross, ShellShape::CylinderAlong] {
            let shielding = |sigma, d| {
                let metal = Material::conductor("metal", sigma, 1.0).unwrap();
                ClosedShell::new(shape, radius, vec![Layer::slab(metal, d).unwrap()]).unwrap().shielding_db(f)
            };
            prop_assert!(shielding(sigma, more * d) >= shielding(sigma, d) - 1e-12);
            prop_assert!(shielding(more * sigma, d) >= shielding(sigma, d) - 1e-12);
        }
    }

    #[test]
    fn rooms_lie_between_their_spheres(sides in [0.5..8.0, 0.5..8.0, 0.5..8.0], m in conductor(), d in decades(1e-5, 3e-3), f in decades(0.1, 1e6)) {
        let room = room_in_uniform_field(sides, &[Layer::slab(m, d).unwrap()], f).unwrap();
        prop_assert!(room.lowest_db <= room.shielding_db && room.shielding_db <= room.highest_db);
    }
}

#[test]
fn a_metal_layer_tends_to_a_film() {
    // Thin against the skin depth, only σt counts.
    let metal = Material::conductor("metal", 1e6, 1.0).unwrap();
    let film = Laminate::new(vec![Layer::film(1.0 / (1e6 * 1e-8)).unwrap()]).unwrap();
    let layer = Laminate::new(vec![Layer::slab(metal, 1e-8).unwrap()]).unwrap();
    for f in [1e3, 1e6, 1e9] {
        for angle in [0.0, 60.0] {
            for p in [Polarization::Te, Polarization::Tm] {
                let wave = PlaneWave::new(angle, p).unwrap();
                let (thin, thick) = (film.shielding_db(f, &wave), layer.shielding_db(f, &wave));
                assert!((thin - thick).abs() < 1e-4 * thin, "{f} {angle} {p:?}: {thin} {thick}");
            }
        }
    }
}

#[test]
fn a_dense_mesh_of_thin_wire_tends_to_a_film_and_to_a_sheet() {
    // Wires of resistance R' per length a pitch a apart are a film of R'a ohm, once their inductance
    // is small against it.
    let wire = Material::conductor("wire", 5.8e7, 1.0).unwrap();
    let (pitch, diameter) = (50e-6, 10e-6);
    let film_ohm = pitch / (5.8e7 * std::f64::consts::PI * (0.5 * diameter) * (0.5 * diameter));
    let film = Laminate::new(vec![Layer::film(film_ohm).unwrap()]).unwrap();
    let mesh = Laminate::new(vec![Layer::mesh(WireMesh::new(pitch, diameter, wire.clone()).unwrap())]).unwrap();
    // The same metal rolled out: thickness of equal cross-section.
    let rolled = std::f64::consts::FRAC_PI_4 * diameter * diameter / pitch;
    let sheet = Laminate::new(vec![Layer::slab(wire, rolled).unwrap()]).unwrap();
    for f in [1e2, 1e4, 1e6] {
        let normal = PlaneWave::normal();
        let values = [&film, &mesh, &sheet].map(|sheet| sheet.shielding_db(f, &normal));
        assert!((values[0] - values[1]).abs() < 1e-3 && (values[0] - values[2]).abs() < 1e-3, "{f}: {values:?}");
    }
}

#[test]
fn two_meshes_apart_do_more_than_one_and_less_than_a_resonance_allows() {
    let wire = Material::conductor("wire", 5.8e7, 1.0).unwrap();
    let mesh = Layer::mesh(WireMesh::new(5e-3, 0.5e-3, wire).unwrap());
    let foam = Layer::slab(Material::dielectric("foam", 1.05, 1e-4).unwrap(), 20e-3).unwrap();
    let one = Laminate::new(vec![mesh.clone()]).unwrap();
    let two = Laminate::new(vec![mesh.clone(), foam, mesh]).unwrap();
    let normal = PlaneWave::normal();
    let gain = |f| two.shielding_db(f, &normal) - one.shielding_db(f, &normal);
    // Low frequencies: the field between them adds its inductance, T₂/T₁ = Z/(2Z + jωμ₀d).
    let apart = 4e-7 * std::f64::consts::PI * 20e-3;
    let own =
        WireMesh::new(5e-3, 0.5e-3, Material::conductor("wire", 5.8e7, 1.0).unwrap()).unwrap().sheet_inductance_h();
    let expected = 20.0 * (2.0 + apart / own).log10();
    assert!((gain(10e6) - expected).abs() < 0.3, "{} {expected}", gain(10e6));
    // Near the half wave of the spacer the pair lets more through than one mesh.
    let dip = (60..80).map(|n| gain(1e8 * f64::from(n))).fold(f64::INFINITY, f64::min);
    assert!(dip < -10.0, "{dip}");
}

#[test]
fn loop_tests_tend_to_plane_waves_far_away() {
    // Small loops facing each other edge-on far from the wall see one plane wave.
    let metal = Material::conductor("metal", 1e5, 1.0).unwrap();
    let sheet = Laminate::new(vec![Layer::slab(metal, 10e-6).unwrap()]).unwrap();
    let test = LoopTest::new(LoopArrangement::Coplanar, 1e-3, 1e-3, 400.0, 400.0).unwrap();
    let f = 1e8;
    let read = test.shielding_db(&sheet, &[f]).unwrap()[0];
    assert!((read - sheet.shielding_db(f, &PlaneWave::normal())).abs() < 0.05, "{read}");
}

#[test]
fn nothing_in_between_changes_nothing() {
    let air = Laminate::new(vec![Layer::slab(Material::dielectric("air", 1.0, 0.0).unwrap(), 0.1).unwrap()]).unwrap();
    for test in [
        LoopTest::new(LoopArrangement::Coaxial, 0.15, 0.15, 0.3, 0.3).unwrap(),
        LoopTest::new(LoopArrangement::Coplanar, 0.15, 0.1, 0.3, 0.3).unwrap(),
    ] {
        for loss in test.shielding_db(&air, &[10.0, 1e6, 1e8]).unwrap() {
            assert!(loss.abs() < 1e-9, "{loss}");
        }
    }
    for loss in RodTest::new(0.3, 0.0, 0.3, 0.3).unwrap().shielding_db(&air, &[10.0, 1e6, 1e8]).unwrap() {
        assert!(loss.abs() < 1e-9, "{loss}");
    }
}

#[test]
fn parameters_reach_every_layer() {
    let wire = Material::conductor("wire", 5.8e7, 1.0).unwrap();
    let sheet = Laminate::new(vec![
        Layer::mesh(WireMesh::new(5e-3, 0.5e-3, wire.clone()).unwrap()),
        Layer::perforated(PerforatedSheet::new(1e-3, 2e-3, HolePattern::Square, 1e-3).unwrap()),
        Layer::film(100.0).unwrap(),
        Layer::slab(wire, 1e-3).unwrap(),
    ])
    .unwrap();
    let changed = sheet.with_parameters(&[("layers.0.pitch_m", 4e-3), ("layers.1.hole_diameter_m", 0.5e-3)]).unwrap();
    assert_eq!(changed.parameter("layers.0.pitch_m").unwrap(), 4e-3);
    assert_eq!(changed.parameter("layers.3.material.conductivity_s_per_m").unwrap(), 5.8e7);
    let error = sheet.with_parameter("layers.1.hole_diameter_m", 3e-3).unwrap_err();
    assert_eq!(error.to_string(), "`layers.1.hole_diameter_m` = 0.003 m: must be smaller than `pitch_m` = 0.002 m");
}

#[test]
fn nonsense_is_refused_by_name() {
    let metal = Material::conductor("metal", 1e7, 1.0).unwrap();
    let sheet = Laminate::new(vec![Layer::slab(metal.clone(), 1e-3).unwrap()]).unwrap();
    for bad in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
        assert!(Layer::slab(metal.clone(), bad).is_err());
        assert!(Layer::film(bad).is_err());
        assert!(ClosedShell::new(ShellShape::Sphere, bad, vec![Layer::slab(metal.clone(), 1e-3).unwrap()]).is_err());
        assert!(NearSource::Loop.split(&metal, bad, 1e3, 0.3).is_err());
        assert!(room_in_uniform_field([1.0, bad, 1.0], &[Layer::slab(metal.clone(), 1e-3).unwrap()], 1e3).is_err());
        let test = LoopTest::new(LoopArrangement::Coaxial, 0.1, 0.1, 0.3, 0.3).unwrap();
        let error = test.shielding_db(&sheet, &[1e3, bad]).unwrap_err();
        assert!(matches!(error, Error::AtIndex { index: 1, .. }), "{error}");
    }
    assert!(matches!(Laminate::new(vec![]).unwrap_err(), Error::Empty { .. }));
    assert!(Material::conductor("metal", 1e7, -200.0).unwrap_err().to_string().contains("relative_permeability"));
    assert!(Material::dielectric("gain", 2.0, -0.1).unwrap_err().to_string().contains("loss_tangent"));
    let field = stillroom::sheet::HandbookField::Magnetic;
    assert!(handbook_reflection_db(field, &metal, 1e3, -0.3).is_err());
}

#[test]
fn a_room_under_a_loop_test_is_its_wall_read_exactly() {
    let metal = Material::conductor("metal", 5.8e6, 200.0).unwrap();
    let wall = Laminate::new(vec![Layer::slab(metal, 0.5e-3).unwrap()]).unwrap();
    let room = Enclosure::new([4.8, 3.6, 3.0], Arc::new(wall.clone()), vec![]).unwrap();
    let f = [1e3, 14e3, 150e3];
    for arrangement in [LoopArrangement::Coaxial, LoopArrangement::Coplanar] {
        let test = LoopTest::new(arrangement, 0.15, 0.15, 0.3, 0.3).unwrap();
        let exact = test.shielding_db(&wall, &f).unwrap();
        let readings = test.readings(&Site::of_wall(room.wall()), &f);
        for (reading, exact) in readings.iter().zip(exact) {
            assert!((reading.shielding_db() - exact).abs() < 1e-12);
        }
    }
}

#[test]
fn a_small_hole_between_loops_is_a_dipole() {
    // A hole of radius a between coplanar loops at d on either side: 4 α z³/(4π d⁶), α = 4a³/3;
    // here known by its averaged cross-section 16 k⁴a⁶/(9π) only (Hill et al. 1994, from memory).
    let (a, d) = (5e-3_f64, 0.3_f64);
    let f = [1e5, 1e6];
    let sigma = |f: f64| {
        let k = 2.0 * std::f64::consts::PI * f / 299_792_458.0;
        16.0 * k.powi(4) * a.powi(6) / (9.0 * std::f64::consts::PI)
    };
    let hole = TabulatedLeak::new(f.to_vec(), f.map(sigma).to_vec()).unwrap();
    let expected =
        -20.0 * f64::log10(4.0 * 4.0 / 3.0 * a.powi(3) * (2.0 * d).powi(3) / (4.0 * std::f64::consts::PI * d.powi(6)));
    let test = LoopTest::new(LoopArrangement::Coplanar, 0.1, 0.1, d, d).unwrap();
    for reading in test.readings(&Site::of(&hole), &f) {
        assert!((reading.shielding_db() - expected).abs() < 1e-9, "{} {expected}", reading.shielding_db());
    }
    assert!(!Exposure::validity(&test, &Site::of(&hole), 1e6).holds());
}
