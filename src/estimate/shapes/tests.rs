//! One worked figure a shape, from a handbook or a standard's table. The volumes of random solids are checked against reference
//! libraries in the suite.

use super::ends::Ends;
use super::{NoSolid, Solid, solid, testing::inches};
use crate::estimate::details::Details;
use crate::understand::{Size1, Sizes};
use crate::units::Length;

/// A size in millimetres.
fn mm(value: f64) -> Option<Size1> {
    Some(Size1 {
        length: Length::from_mm(value),
        half_digit: Length::from_mm(0.05),
        fine: true,
    })
}

#[track_caller]
fn made(shape: &str, sizes: Sizes, details: Details) -> Solid {
    match solid(shape, &sizes, &details) {
        Ok(solid) => solid,
        Err(no) => panic!("{shape}: {no:?}"),
    }
}

/// Cubic inches.
fn in3(solid: &Solid) -> f64 {
    solid.volume.m3() / 0.0254f64.powi(3)
}

/// Pounds of steel at 490 lb/ft3 (AISC Manual).
fn steel_lb(solid: &Solid) -> f64 {
    in3(solid) / 1728.0 * 490.0
}

#[track_caller]
fn near(found: f64, expected: f64, part: f64) {
    assert!((found / expected - 1.0).abs() <= part, "{found} {expected}");
}

#[test]
fn round_solids_of_the_handbook() {
    let none = Details::default;
    let of = |outside, height| Sizes {
        outside,
        height,
        ..Sizes::default()
    };
    // Machinery's Handbook, volumes of solids, from memory: a sphere of 6.5 in has 143.79 in3; a hollow sphere of 8 in with
    // 1.5 in of material 202.63 in3.
    let sphere = made("sphere", of(inches(6.5), None), none());
    near(in3(&sphere), 143.79, 1e-4);
    let hollow = Sizes {
        wall: inches(1.5),
        ..of(inches(8.0), None)
    };
    near(in3(&made("sphere", hollow, none())), 202.63, 1e-4);
    // The same, by its factors: cone 0.2618 d^2 h, frustum 0.2618 h (D^2 + D d + d^2), torus 2.4674 D d^2 with D to the
    // middle of the section.
    let cone = of(inches(24.0), inches(36.0));
    near(
        in3(&made("cone", cone, none())),
        0.2618 * 576.0 * 36.0,
        1e-4,
    );
    let cut = Details {
        top: inches(12.0),
        ..none()
    };
    near(
        in3(&made("frustum", cone, cut.clone())),
        0.2618 * 36.0 * 1008.0,
        1e-4,
    );
    let bent = Details {
        section: inches(2.0),
        ..none()
    };
    let torus = of(inches(20.0), None);
    let rod = in3(&made("torus", torus, bent.clone()));
    near(rod, 2.4674 * 18.0 * 4.0, 1e-4);
    // A tube of 2 in with a wall of 0.25 in has 1 - 0.75^2 of the rod's section.
    let tube = Sizes {
        wall: inches(0.25),
        ..torus
    };
    near(
        in3(&made("hollow torus", tube, bent)),
        rod * (1.0 - 0.5625),
        1e-9,
    );
    // A cone less the similar cone within it; a frustum by Pappus: the slanting wall at its mean diameter.
    let walled = Sizes {
        wall: inches(2.0),
        ..cone
    };
    near(
        in3(&made("hollow cone", walled, none())),
        0.2618 * 36.0 * (576.0 - 400.0 * 20.0 / 24.0),
        1e-4,
    );
    let shell = made("hollow frustum", walled, cut);
    near(in3(&shell), std::f64::consts::PI * 16.0 * 2.0 * 36.0, 1e-9);
    // The wall square to a slope of 6 in 36 is longer level by its secant: 1.4 %.
    near(
        1.0 + shell.bias.1,
        (36.0f64 * 36.0 + 36.0).sqrt() / 36.0,
        1e-9,
    );
}

#[test]
fn pointed_solids() {
    let sides = |length, width, height| Sizes {
        length,
        width,
        height,
        ..Sizes::default()
    };
    let base = sides(inches(24.0), inches(24.0), inches(36.0));
    // Euclid, Elements XII.7: a third of the prism. Heron, Metrica: h / 3 (A + a + root of A a) of a cut one.
    near(
        in3(&made("pyramid", base, Details::default())),
        6912.0,
        1e-9,
    );
    let cut = Details {
        top: inches(12.0),
        ..Details::default()
    };
    near(
        in3(&made("pyramid frustum", base, cut)),
        12.0 * (576.0 + 144.0 + 288.0),
        1e-9,
    );
    near(
        in3(&made("prism", base, Details::default())),
        24.0 * 24.0 * 36.0 / 2.0,
        1e-9,
    );
    // Machinery's Handbook, from memory: a wedge whose edge is as long as its base has a b h / 2.
    let wedge = sides(inches(12.0), inches(4.0), inches(3.0));
    near(in3(&made("wedge", wedge, Details::default())), 72.0, 1e-9);
    let blunt = Details {
        top: inches(1.0),
        ..Details::default()
    };
    near(in3(&made("wedge", wedge, blunt)), 12.0 * 4.0 * 2.0, 1e-9);
}

#[test]
fn bars_of_the_trade() {
    // AISC Manual: square 3.403 a^2, hexagon 2.947 f^2 lb/ft.
    let foot = Sizes {
        length: inches(12.0),
        width: inches(2.0),
        ..Sizes::default()
    };
    let lb = |shape| steel_lb(&made(shape, foot, Details::default()));
    near(lb("square bar"), 3.403 * 4.0, 1e-3);
    near(lb("hexagonal bar"), 2.947 * 4.0, 1e-3);
}

#[test]
fn sections_of_the_tables() {
    let of = |length, depth, flange, thickness, web| {
        let sizes = Sizes {
            length,
            ..Sizes::default()
        };
        let details = Details {
            depth,
            flange,
            flange_thickness: thickness,
            web,
            ..Details::default()
        };
        (sizes, details)
    };
    let foot = inches(12.0);
    // HEA 200, Euronorm 53-62: 42.3 kg/m; sharp corners 40.1, with its fillets 42.26 at 7,850 kg/m3.
    let (sizes, sharp) = of(mm(1000.0), mm(190.0), mm(200.0), mm(10.0), mm(6.5));
    let filleted = Details {
        radius: mm(18.0),
        ..sharp.clone()
    };
    let kg = |details: Details| made("I section", sizes, details).volume.m3() * 7850.0;
    near(kg(filleted), 42.3, 2e-3);
    let light = made("I section", sizes, sharp.clone());
    near(kg(sharp), 40.1, 2e-3);
    // The table's mass lies inside the one-sided bias.
    assert!(light.volume.m3() * 7850.0 * (1.0 + light.bias.1) > 42.3);
    // AISC shapes database v16.0: C10x20 20 lb/ft, WT9x25 25 lb/ft, L4x4x1/2 12.8 lb/ft; sharp corners 0.5 to 2.6 % light.
    let (sizes, c10) = of(
        foot,
        inches(10.0),
        inches(2.74),
        inches(0.436),
        inches(0.379),
    );
    near(steel_lb(&made("channel", sizes, c10)), 20.0, 0.01);
    let (sizes, wt9) = of(foot, inches(9.0), inches(7.5), inches(0.57), inches(0.355));
    near(steel_lb(&made("tee", sizes, wt9)), 25.0, 0.02);
    let legs = Sizes {
        length: foot,
        width: inches(4.0),
        height: inches(4.0),
        wall: inches(0.5),
        ..Sizes::default()
    };
    near(
        steel_lb(&made("angle", legs, Details::default())),
        12.8,
        0.01,
    );
}

#[test]
fn rings_coils_and_bends() {
    let round = |outside, inside, width| Sizes {
        outside,
        inside,
        width,
        ..Sizes::default()
    };
    // A coil of 60 in with a bore of 24 in is 19 % lighter than a solid cylinder (design notes on products): 3,600 / 3,024.
    let coil = made(
        "coil",
        round(inches(60.0), inches(24.0), inches(48.0)),
        Details::default(),
    );
    near(coil.filled / coil.volume, 3600.0 / 3024.0, 1e-9);
    // A manhole ring of 48 in with a wall of 5 in: pi (ID + t) t / 144 x 150 lb/ft, as ASTM C76 pipe: 867 lb/ft.
    let ring = Sizes {
        inside: inches(48.0),
        wall: inches(5.0),
        height: inches(12.0),
        ..Sizes::default()
    };
    let ring = made("ring", ring, Details::default());
    near(in3(&ring) / 1728.0 * 150.0, 867.0, 1e-3);
    // NPS 8 schedule 40: 28.55 lb/ft (ASME B36.10M); the centre line of a long radius elbow of 90 degrees is a quarter turn
    // about 12 in (ASME B16.9, from memory).
    let sizes = Sizes {
        outside: inches(8.625),
        wall: inches(0.322),
        ..Sizes::default()
    };
    let details = Details {
        angle: Some(90.0),
        bend: Some(1.5),
        ..Details::default()
    };
    let elbow = made("elbow", sizes, details.clone());
    near(steel_lb(&elbow), 28.55 * std::f64::consts::FRAC_PI_2, 2e-3);
    // "R 1.5 D" is no radius.
    let short = Details {
        radius: mm(1.5),
        ..details
    };
    assert_eq!(
        solid("elbow", &sizes, &short),
        Err(NoSolid::Missing("radius of the bend"))
    );
}

#[test]
fn ends_of_tanks() {
    // Head tables of the trade, from memory: 2 : 1 elliptical 0.1309 D^3, hemispherical 0.2618 D^3, flanged and dished with 6 %
    // knuckle 0.0809 D^3; DIN 28011 about 0.1 D^3, its depth 0.1935 of the outside
    // diameter.
    for (ends, factor, part) in [
        (Ends::Elliptical, 0.1309, 1e-3),
        (Ends::Hemispherical, 0.2618, 1e-3),
        (Ends::FLATTEST, 0.0809, 5e-3),
        (Ends::DISHED, 0.1, 2e-2),
        (Ends::Flat, 0.0, 0.0),
    ] {
        let volume = ends.volume(2.0) / 8.0;
        assert!(
            (volume - factor).abs() <= factor * part,
            "{ends:?} {volume}"
        );
    }
    near(Ends::DISHED.depth(1.0), 0.1935, 2e-3);
}

#[test]
fn a_tank_and_a_panel_by_hand() {
    // Shell pi x 1.194 x 0.006 x 2.4 m, two discs pi / 4 x 1.188^2 x 0.006 m.
    let sizes = Sizes {
        outside: mm(1200.0),
        wall: mm(6.0),
        length: mm(2400.0),
        ..Sizes::default()
    };
    let flat = Details {
        ends: Some(Ends::Flat),
        ..Details::default()
    };
    let pi = std::f64::consts::PI;
    let by_hand = pi * 1.194 * 0.006 * 2.4 + pi / 2.0 * 1.188 * 1.188 * 0.006;
    near(made("tank", sizes, flat).volume.m3(), by_hand, 1e-9);
    // 6 x 3 m with a door of 0.9 x 2.1 m, 0.15 m thick: 16.11 m2 x 0.15 m.
    let wall = Sizes {
        length: mm(6000.0),
        width: mm(3000.0),
        height: mm(150.0),
        ..Sizes::default()
    };
    let opening = |side, times| Details {
        openings: vec![(side, mm(2100.0))],
        times,
        ..Details::default()
    };
    let door = mm(900.0).expect("a size");
    let panel = made("plate", wall, opening(door, 1));
    near(panel.volume.m3(), 2.4165, 1e-9);
    assert!(matches!(
        solid("plate", &wall, &opening(door, 12)),
        Err(NoSolid::Impossible(_))
    ));
}

#[test]
fn a_void_is_never_ignored() {
    let sizes = Sizes {
        length: inches(20.0),
        width: inches(20.0),
        height: inches(20.0),
        outside: inches(20.0),
        ..Sizes::default()
    };
    let hollow = Details {
        hollow: true,
        section: inches(2.0),
        ..Details::default()
    };
    for shape in ["sphere", "cone", "torus", "pyramid", "prism", "wedge"] {
        assert!(
            matches!(solid(shape, &sizes, &hollow), Err(NoSolid::Missing(_))),
            "{shape}"
        );
    }
}

#[test]
fn sizes_that_cannot_be() {
    let sizes = Sizes {
        length: inches(20.0),
        width: inches(10.0),
        height: inches(10.0),
        outside: inches(10.0),
        wall: inches(6.0),
        ..Sizes::default()
    };
    let details = Details {
        top: inches(30.0),
        section: inches(8.0),
        flange_thickness: inches(6.0),
        ends: Some(Ends::Flat),
        angle: Some(90.0),
        ..Details::default()
    };
    for shape in [
        "hollow sphere",
        "hollow cone",
        "torus",
        "I section",
        "rectangular tube",
        "pipe",
        "tank",
        "elbow",
    ] {
        assert!(
            matches!(solid(shape, &sizes, &details), Err(NoSolid::Impossible(_))),
            "{shape}: {:?}",
            solid(shape, &sizes, &details)
        );
    }
}
