//! A box with openings: what must hold whatever its numbers are.

#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stillroom::cavity::{BenchBox, BoxAxis, BoxOpening, BoxWave, StripEquivalent};
use stillroom::{Material, Parameters};

const MIDDLE: [f64; 3] = [0.15, 0.06, 0.15];

fn slot(center_m: [f64; 2], size_m: [f64; 2]) -> BoxOpening {
    BoxOpening::rectangle(center_m, size_m).unwrap()
}

/// The box of Robinson et al. (1998).
fn published() -> BenchBox {
    BenchBox::new([0.3, 0.12, 0.3], vec![slot([0.15, 0.06], [0.1, 5e-3])]).unwrap()
}

fn electric_db(bench: &BenchBox, at_m: [f64; 3], frequency_hz: f64) -> f64 {
    bench.probe(at_m, BoxAxis::Y).unwrap().field(frequency_hz).electric_shielding_db()
}

#[test]
fn shielding_is_negative_at_a_resonance_and_loss_lifts_it() {
    let least = |bench: &BenchBox| {
        let resonance = bench.resonance_hz([1, 0, 1]);
        (0..400).map(|i| electric_db(bench, MIDDLE, resonance * (0.98 + 1e-4 * f64::from(i)))).fold(f64::MAX, f64::min)
    };
    let bench = published();
    assert!((bench.resonance_hz([1, 0, 1]) / 706.618e6 - 1.0).abs() < 1e-5);
    let empty = least(&bench);
    let absorbing = least(&bench.clone().with_contents_quality(Some(20.0)).unwrap());
    assert!(empty < -5.0 && absorbing > empty + 5.0, "{empty} {absorbing}");
    let poor = Material::conductor("poor", 1e3, 1.0).unwrap();
    assert!(least(&bench.with_walls(poor)) > empty + 1.0);
}

#[test]
fn what_a_slot_in_the_middle_excites_is_even() {
    let bench = published();
    for f in [200e6, 650e6, 1.1e9] {
        let field = |x: f64| bench.probe([x, 0.04, 0.2], BoxAxis::Y).unwrap().field(f);
        let (left, right) = (field(0.08), field(0.22));
        assert!((left.electric[1] - right.electric[1]).norm() < 1e-9 * left.electric[1].norm());
        assert!((left.magnetic[1] + right.magnetic[1]).norm() < 1e-9 * left.magnetic[1].norm());
    }
}

#[test]
fn turned_by_a_quarter_the_box_is_the_same() {
    let one = BenchBox::new([0.3, 0.12, 0.25], vec![slot([0.11, 0.05], [0.08, 6e-3])]).unwrap();
    let turned = BenchBox::new([0.12, 0.3, 0.25], vec![slot([0.05, 0.11], [6e-3, 0.08])]).unwrap();
    for f in [50e6, 500e6, 1.3e9] {
        let a = one.probe([0.1, 0.03, 0.1], BoxAxis::Y).unwrap().field(f);
        let b = turned.probe([0.03, 0.1, 0.1], BoxAxis::X).unwrap().field(f);
        assert!((a.electric[1] - b.electric[0]).norm() < 1e-9 * a.electric[1].norm());
        assert!((a.electric[2] - b.electric[2]).norm() < 1e-9 * a.electric[1].norm());
        assert!((a.magnetic[0] + b.magnetic[1]).norm() < 1e-9 * a.magnetic[0].norm());
    }
}

#[test]
fn the_other_polarization_hardly_enters_a_thin_slot() {
    let thin = BenchBox::new([0.3, 0.12, 0.3], vec![slot([0.15, 0.06], [0.08, 4.1e-3])]).unwrap();
    let point = [0.1, 0.04, 0.12];
    let along = |axis| thin.probe(point, axis).unwrap().field(300e6).electric_shielding_db();
    assert!(along(BoxAxis::X) > along(BoxAxis::Y) + 30.0);
    // A round hole does not care about the axis, but for the box around it.
    let round = BoxOpening::round([0.15, 0.15], 0.03).unwrap();
    let cube = BenchBox::new([0.3, 0.3, 0.3], vec![round]).unwrap();
    let field = |axis| cube.probe([0.15, 0.15, 0.15], axis).unwrap().field(400e6);
    let (x, y) = (field(BoxAxis::X).electric[0], field(BoxAxis::Y).electric[1]);
    assert!((x - y).norm() < 1e-9 * x.norm());
}

#[test]
fn the_other_polarization_of_the_thinnest_slot_is_weak_and_finite() {
    let thin = BenchBox::new([0.3, 0.12, 0.3], vec![slot([0.15, 0.06], [0.1, 0.2e-3])]).unwrap();
    for wave in [BoxWave::Straight(BoxAxis::X), BoxWave::Along(BoxAxis::X), BoxWave::Against(BoxAxis::X)] {
        let db = thin.probe([0.1, 0.04, 0.12], wave).unwrap().field(300e6).electric_shielding_db();
        assert!(db.is_finite() && db > 100.0, "{wave:?}: {db}");
    }
}

#[test]
fn close_behind_a_hole_the_field_is_that_of_its_dipoles() {
    // A wave that runs along the front has E = E₀ and H = E₀/η₀ on it. Behind a small round hole that is an electric
    // dipole 2r³/3 and a magnetic one 4r³/3 (H. A. Bethe, Phys. Rev. 66 (1944) 163, from memory), either doubled by
    // the wall: α_e E₀/πz³ and α_m H₀/2πz³ straight behind it, in the sense of the field outside.
    let (radius_m, z) = (2.5e-3_f64, 0.04_f64);
    let hole = BoxOpening::round([0.5, 0.5], 2.0 * radius_m).unwrap();
    let bench =
        BenchBox::new([1.0; 3], vec![hole]).unwrap().with_walls(Material::conductor("perfect", 1e30, 1.0).unwrap());
    let cube = radius_m.powi(3) / (std::f64::consts::PI * z.powi(3));
    let close = |ours: f64, expected: f64| assert!((ours / expected - 1.0).abs() < 0.02, "{ours} {expected}");
    for (wave, axis, sign) in [
        (BoxWave::Along(BoxAxis::X), 1, -1.0),
        (BoxWave::Against(BoxAxis::X), 1, 1.0),
        (BoxWave::Along(BoxAxis::Y), 0, 1.0),
        (BoxWave::Against(BoxAxis::Y), 0, -1.0),
    ] {
        let field = bench.probe([0.5, 0.5, z], wave).unwrap().field(1e6);
        close(field.electric[2].re, 2.0 / 3.0 * cube);
        close(field.magnetic[axis].re, sign * 2.0 / 3.0 * cube);
    }
    // Straight on it the magnetic field is twice as large, and there is no electric one.
    let field = bench.probe([0.5, 0.5, z], BoxAxis::Y).unwrap().field(1e6);
    close(field.magnetic[0].re, -4.0 / 3.0 * cube);
    assert!(field.electric[2].norm() < 1e-6 * cube);
}

#[test]
fn turned_by_a_half_the_box_sees_the_wave_from_the_other_side() {
    let openings = |mirrored: bool| {
        let at = |x: f64| if mirrored { 0.3 - x } else { x };
        vec![slot([at(0.11), 0.05], [0.06, 8e-3]), BoxOpening::round([at(0.24), 0.08], 0.03).unwrap()]
    };
    let [one, other] = [false, true].map(|mirrored| BenchBox::new([0.3, 0.12, 0.25], openings(mirrored)).unwrap());
    for f in [50e6, 500e6, 1.3e9] {
        let k = 2.0 * std::f64::consts::PI * f / 299_792_458.0;
        let along = one.probe([0.1, 0.03, 0.1], BoxWave::Along(BoxAxis::X)).unwrap().field(f);
        let against = other.probe([0.2, 0.03, 0.1], BoxWave::Against(BoxAxis::X)).unwrap().field(f);
        // The origin stays where it is, and with it the phase.
        let turned = against.electric[2] * num_complex::Complex64::from_polar(1.0, -k * 0.3);
        assert!((along.electric[2] - turned).norm() < 1e-9 * turned.norm(), "{f}: {} {turned}", along.electric[2]);
    }
}

#[test]
fn an_opening_that_shrinks_leaves_the_others_alone() {
    // What a wave drives through one opening alone is what is left when the other one shrinks to nothing.
    let with = |diameter_m: f64| {
        let hole = BoxOpening::round([0.25, 0.08], diameter_m).unwrap();
        BenchBox::new([0.3, 0.12, 0.25], vec![slot([0.11, 0.05], [0.06, 8e-3]), hole]).unwrap()
    };
    let alone = BenchBox::new([0.3, 0.12, 0.25], vec![slot([0.11, 0.05], [0.06, 8e-3])]).unwrap();
    for wave in [BoxWave::Straight(BoxAxis::Y), BoxWave::Along(BoxAxis::Y), BoxWave::Along(BoxAxis::X)] {
        let field = |bench: &BenchBox| bench.probe([0.1, 0.04, 0.12], wave).unwrap().field(600e6).electric[1];
        let (small, none) = (field(&with(1e-3)), field(&alone));
        assert!((small - none).norm() < 1e-3 * none.norm(), "{wave:?}: {small} {none}");
        assert!((field(&with(0.03)) - none).norm() > 10.0 * (small - none).norm());
    }
}

#[test]
fn two_slots_far_below_resonance_let_in_twice_the_field_of_one() {
    // Above and below the middle, alike: the field there adds.
    let (low, high) = (slot([0.15, 0.03], [0.05, 2e-3]), slot([0.15, 0.09], [0.05, 2e-3]));
    let bench = |openings| BenchBox::new([0.3, 0.12, 0.3], openings).unwrap();
    let field = |openings| bench(openings).probe(MIDDLE, BoxAxis::Y).unwrap().field(100e6).electric[1];
    let (one, other, both) = (field(vec![low]), field(vec![high]), field(vec![low, high]));
    assert!((one - other).norm() < 1e-9 * one.norm());
    // They see each other, which takes a little from each.
    assert!((both / (2.0 * one) - 1.0).norm() < 0.05, "{}", both / (2.0 * one));
}

#[test]
fn many_frequencies_at_a_time_are_the_same_as_one_by_one() {
    let round = BoxOpening::round([0.25, 0.08], 0.02).unwrap();
    let two = vec![slot([0.11, 0.05], [0.06, 8e-3]), round];
    let thick = BenchBox::new([0.3, 0.12, 0.25], two).unwrap().with_wall_thickness(2e-3).unwrap();
    let filled = published().with_contents_quality(Some(40.0)).unwrap();
    let deep = published().with_wall_thickness(0.1).unwrap();
    // At the very cutoffs and resonances of modes as well, and down to where squares would underflow.
    let mut f: Vec<f64> = (0..61).map(|i| 1e5 * 10f64.powf(f64::from(i) / 12.0)).collect();
    f.extend([1e-200, 1e-9, 1.0, 299_792_458.0 / 0.6, 299_792_458.0 / 0.24, published().resonance_hz([1, 0, 1])]);
    for bench in [published(), thick, filled, deep] {
        for (wave, z) in [
            (BoxWave::Straight(BoxAxis::Y), 0.15),
            (BoxWave::Along(BoxAxis::X), 0.15),
            (BoxWave::Against(BoxAxis::Y), 0.05),
            (BoxWave::Straight(BoxAxis::X), 0.25),
        ] {
            let probe = bench.probe([0.1, 0.04, z], wave).unwrap();
            let mut many = vec![None; f.len()];
            probe.sweep(&f, &mut many, Some);
            for (&f, many) in f.iter().zip(many) {
                let (one, many) = (probe.field(f), many.unwrap());
                for (one, many, db) in [
                    (one.electric, many.electric, one.electric_shielding_db() - many.electric_shielding_db()),
                    (one.magnetic, many.magnetic, one.magnetic_shielding_db() - many.magnetic_shielding_db()),
                ] {
                    let size = one.iter().map(|part| part.norm()).fold(0.0, f64::max);
                    // At a resonance a box that is all but without loss magnifies what rounding leaves.
                    let apart = one.iter().zip(&many).map(|(one, many)| (one - many).norm()).fold(0.0, f64::max);
                    assert!(
                        apart <= 1e-8 * size && (db.abs() < 1e-7 || size == 0.0),
                        "{wave:?} {z} {f}: {one:?} {many:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_thicker_wall_shields_more() {
    let mut before = f64::NEG_INFINITY;
    for thickness_m in [0.0, 1e-3, 3e-3, 10e-3, 30e-3] {
        let now = electric_db(&published().with_wall_thickness(thickness_m).unwrap(), MIDDLE, 300e6);
        assert!(now > before, "{thickness_m}: {now}");
        before = now;
    }
}

#[test]
fn many_nepers_of_wall_do_not_overflow() {
    let round = BoxOpening::round([0.15, 0.06], 0.3e-3).unwrap();
    let bench = BenchBox::new([0.3, 0.12, 0.3], vec![round]).unwrap().with_wall_thickness(0.1).unwrap();
    let db = electric_db(&bench, MIDDLE, 1e9);
    assert!(db.is_finite() && db > 10_000.0, "{db}");
}

#[test]
fn nonsense_is_refused_by_name() {
    let text = |result: stillroom::Result<BenchBox>| result.unwrap_err().to_string();
    let interior = [0.3, 0.12, 0.3];
    let wide = slot([0.15, 0.06], [0.31, 5e-3]);
    assert!(text(BenchBox::new(interior, vec![wide])).contains("openings.0"));
    let (one, two) = (slot([0.1, 0.06], [0.1, 5e-3]), slot([0.15, 0.062], [0.1, 5e-3]));
    let overlap = text(BenchBox::new(interior, vec![one, two]));
    assert!(overlap.contains("openings.1") && overlap.contains("openings.0") && overlap.contains("at least"));
    assert!(text(BenchBox::new(interior, vec![])).contains("openings"));
    assert!(text(BenchBox::new([0.3, -0.1, 0.3], vec![one])).contains("interior_m[1]"));
    assert!(text(published().with_wall_thickness(-1e-3)).contains("wall_thickness_m"));
    assert!(text(published().with_contents_quality(Some(0.1))).contains("contents_quality_factor"));
    let bench = published();
    assert!(bench.probe([0.15, 0.06, 0.31], BoxAxis::Y).unwrap_err().to_string().contains("at_m[2]"));
    assert!(bench.probe([-0.1, 0.06, 0.2], BoxAxis::Y).unwrap_err().to_string().contains("at_m[0]"));
    assert!(text(bench.with_parameter("openings.0.width_m", 0.4)).contains("width"));
    assert_eq!(bench.parameter("openings.0.height_m").unwrap(), 5e-3);
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        assert!(BenchBox::new([bad, 0.1, 0.1], vec![one]).is_err());
        assert!(BoxOpening::rectangle([0.1, bad], [0.1, 0.1]).is_err());
        assert!(BoxOpening::round([0.1, 0.1], bad).is_err());
        assert!(bench.probe([0.1, 0.1, bad], BoxAxis::X).is_err());
        assert!(StripEquivalent::new([0.3, bad, 0.3], [0.1, 5e-3], 0.0).is_err());
    }
    let round = |x: f64, y: f64| BoxOpening::round([x, y], 0.02).unwrap();
    assert!(BenchBox::new(interior, vec![round(0.1, 0.05), round(0.115, 0.065)]).is_ok());
    assert!(BenchBox::new(interior, vec![round(0.1, 0.05), round(0.113, 0.063)]).is_err());
}

#[test]
fn the_domain_ends_with_the_slot_and_with_the_modes() {
    let bench = published();
    assert!(bench.validity(1e9).holds());
    assert!(bench.validity(3.5e9).limits()[0].to_string().contains("opening length / wavelength"));
    assert!(bench.validity(12e9).limits().iter().any(|limit| limit.to_string().contains("modes taken")));
    let circuit = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3).unwrap();
    assert!(circuit.validity(800e6).holds() && !circuit.validity(1.1e9).holds());
    assert!(circuit.shielding_db(400e6, 0.4).is_err());
}

#[cfg(feature = "serde")]
#[test]
fn text_keeps_all_of_a_box_and_is_checked() {
    let round = BoxOpening::round([0.25, 0.03], 0.02).unwrap();
    let full = BenchBox::new([0.3, 0.12, 0.3], vec![slot([0.15, 0.06], [0.1, 5e-3]), round])
        .unwrap()
        .with_wall_thickness(1.5e-3)
        .unwrap()
        .with_walls(Material::conductor("poor", 1e3, 1.0).unwrap())
        .with_contents_quality(Some(50.0))
        .unwrap();
    for bench in [published(), full] {
        let text = serde_json::to_string(&bench).unwrap();
        let back: BenchBox = serde_json::from_str(&text).unwrap();
        assert_eq!(back, bench);
        assert_eq!(
            back.probe(MIDDLE, BoxAxis::Y).unwrap().field(5e8),
            bench.probe(MIDDLE, BoxAxis::Y).unwrap().field(5e8)
        );
        // What a constructor refuses, text does not bring in.
        let narrow = text.replacen("[0.3,", "[0.09,", 1);
        assert!(serde_json::from_str::<BenchBox>(&narrow).unwrap_err().to_string().contains("openings.0"));
        assert!(serde_json::from_str::<BenchBox>(&text.replacen("interior_m", "inner_m", 1)).is_err());
    }
    for opening in [slot([0.15, 0.06], [0.1, 5e-3]), round] {
        let text = serde_json::to_string(&opening).unwrap();
        assert_eq!(serde_json::from_str::<BoxOpening>(&text).unwrap(), opening);
    }
    assert!(serde_json::from_str::<BoxOpening>(r#"{"center_m":[0.1,0.1]}"#).is_err());
    assert!(serde_json::from_str::<BoxOpening>(r#"{"center_m":[0.1,0.1],"diameter_m":-1.0}"#).is_err());
    let circuit = StripEquivalent::new([0.3, 0.12, 0.3], [0.1, 5e-3], 1.5e-3).unwrap();
    let text = serde_json::to_string(&circuit).unwrap();
    assert_eq!(serde_json::from_str::<StripEquivalent>(&text).unwrap(), circuit);
    assert!(serde_json::from_str::<StripEquivalent>(&text.replace("0.0015", "-1.0")).is_err());
    for wave in [BoxWave::Straight(BoxAxis::X), BoxWave::Along(BoxAxis::Y), BoxWave::Against(BoxAxis::X)] {
        let text = serde_json::to_string(&wave).unwrap();
        assert_eq!(serde_json::from_str::<BoxWave>(&text).unwrap(), wave);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn every_box_gives_a_finite_answer(a in 0.05..1.0f64, b in 0.05..1.0f64, d in 0.05..1.0f64, l in 0.05..0.9f64, w in 0.05..0.5f64, u in 0.01..0.99f64, v in 0.01..0.99f64, z in 0.0..1.0f64, f in 5.0..10.0f64) {
        let opening = slot([0.5 * a, 0.5 * b], [l * a, w * l * b]);
        let bench = BenchBox::new([a, b, d], vec![opening]).unwrap();
        let [x, y] = [BoxAxis::X, BoxAxis::Y];
        for wave in [x.into(), y.into(), BoxWave::Along(x), BoxWave::Against(y)] {
            let field = bench.probe([u * a, v * b, z * d], wave).unwrap().field(10f64.powf(f));
            prop_assert!(field.electric.iter().chain(&field.magnetic).all(|part| part.is_finite()));
        }
    }

    #[test]
    fn a_longer_slot_lets_more_in_below_its_resonance(l in 0.1..0.5f64, longer in 1.02..1.5f64, z in 0.02..0.4f64) {
        let bench = |l: f64| BenchBox::new([0.3, 0.12, 0.3], vec![slot([0.15, 0.06], [0.3 * l, 2e-3])]).unwrap();
        let f = z * 1e9;
        prop_assert!(electric_db(&bench(l * longer), MIDDLE, f) < electric_db(&bench(l), MIDDLE, f));
    }
}
