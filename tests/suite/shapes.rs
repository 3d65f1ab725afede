//! Shapes against volumes by general-purpose libraries (`fixtures/geometry`, made by its Python file), and what must hold of every
//! one of those random solids: its formula, its answers to each size, its outline.

use dockheft::estimate::details::Details;
use dockheft::estimate::shapes::{self, NoSolid, Solid, ends::Ends, tank};
use dockheft::estimate::{Step, shapes::NAMES};
use dockheft::report::formula;
use dockheft::understand::{Size1, Sizes};
use dockheft::units::Length;
use std::collections::HashMap;

/// One solid of the fixture.
struct Case {
    name: String,
    shape: String,
    sizes: Sizes,
    details: Details,
    what: String,
    volume: f64,
    tolerance: f64,
}

impl Case {
    fn solid(&self) -> Result<Solid, NoSolid> {
        shapes::solid(&self.shape, &self.sizes, &self.details)
    }

    /// With every size that is as long as `length` times `ratio`.
    fn changed(&self, length: Length, ratio: f64) -> Case {
        let times = |size: Size1| {
            let ratio = if size.length == length { ratio } else { 1.0 };
            Size1 {
                length: size.length * ratio,
                ..size
            }
        };
        let of = |size: Option<Size1>| size.map(times);
        let (sizes, details) = (self.sizes, self.details.clone());
        Case {
            name: self.name.clone(),
            shape: self.shape.clone(),
            sizes: Sizes {
                length: of(sizes.length),
                width: of(sizes.width),
                height: of(sizes.height),
                outside: of(sizes.outside),
                inside: of(sizes.inside),
                wall: of(sizes.wall),
            },
            details: Details {
                depth: of(details.depth),
                flange: of(details.flange),
                flange_thickness: of(details.flange_thickness),
                web: of(details.web),
                radius: of(details.radius),
                top: of(details.top),
                top_width: of(details.top_width),
                section: of(details.section),
                openings: details
                    .openings
                    .iter()
                    .map(|(width, height)| (times(*width), of(*height)))
                    .collect(),
                ..details
            },
            what: self.what.clone(),
            ..*self
        }
    }
}

fn cases() -> Vec<Case> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/geometry/volumes.csv");
    let mut reader = csv::Reader::from_path(path).expect("the fixture");
    let rows = reader.deserialize::<HashMap<String, String>>();
    rows.zip(2..)
        .map(|(row, line)| {
            let row = row.expect("a row");
            let text = |name: &str| row.get(name).expect("a column").as_str();
            let figure = |name: &str| text(name).parse::<f64>().ok();
            let size = |name: &str| {
                figure(name).map(|m| Size1 {
                    length: Length::from_m(m),
                    half_digit: Length::ZERO,
                    fine: true,
                })
            };
            let ends = match text("ends") {
                "" => None,
                "flat" => Some(Ends::Flat),
                "dished" => Some(Ends::DISHED),
                "elliptical" => Some(Ends::Elliptical),
                "hemispherical" => Some(Ends::Hemispherical),
                other => panic!("ends {other}"),
            };
            Case {
                name: format!("volumes.csv line {line}, {}", text("shape")),
                shape: text("shape").to_string(),
                sizes: Sizes {
                    length: size("length"),
                    width: size("width"),
                    height: size("height"),
                    outside: size("outside"),
                    inside: size("inside"),
                    wall: size("wall"),
                },
                details: Details {
                    depth: size("depth"),
                    flange: size("flange"),
                    flange_thickness: size("flange_thickness"),
                    web: size("web"),
                    radius: size("radius"),
                    top: size("top"),
                    top_width: size("top_width"),
                    section: size("section"),
                    openings: size("opening_width")
                        .map(|width| (width, size("opening_height")))
                        .into_iter()
                        .collect(),
                    times: figure("openings").unwrap_or(1.0) as u32,
                    angle: figure("angle"),
                    level: size("level"),
                    ends,
                    ..Details::default()
                },
                what: text("what").to_string(),
                volume: figure("volume").expect("a volume"),
                tolerance: figure("tolerance").expect("a tolerance"),
            }
        })
        .collect()
}

/// The solids of material, each with its case.
fn solids() -> Vec<(Case, Solid)> {
    let material = cases().into_iter().filter(|case| case.what == "material");
    material
        .map(|case| {
            let solid = case.solid();
            let solid = solid.unwrap_or_else(|no| panic!("{}: {no:?}", case.name));
            (case, solid)
        })
        .collect()
}

#[track_caller]
fn none(wrong: Vec<String>) {
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn volumes_are_those_of_the_reference_libraries() {
    let cases = cases();
    assert!(cases.len() >= 200);
    for shape in NAMES {
        let of_shape = cases.iter().filter(|case| case.shape == shape).count();
        assert!(of_shape >= 3, "{shape}: {of_shape}");
    }
    let mut wrong = Vec::new();
    for case in &cases {
        let room = || tank::room(&case.shape, &case.sizes, &case.details);
        let found = match case.what.as_str() {
            "material" => case.solid().map(|solid| solid.volume.m3()),
            "room" => room().map(tank::Room::volume),
            _ => {
                let level = case.details.level.expect("a level").length.m();
                room().map(|room| room.below(level))
            }
        };
        let near = found
            .as_ref()
            .is_ok_and(|found| (found / case.volume - 1.0).abs() <= case.tolerance);
        if !near {
            wrong.push(format!("{}: {found:?} against {}", case.name, case.volume));
        }
    }
    none(wrong);
}

#[test]
fn each_formula_gives_its_volume() {
    let mut wrong = Vec::new();
    for (case, solid) in solids() {
        let sizes = solid
            .terms
            .iter()
            .map(|term| (term.name, term.size.length.m()));
        let step = Step {
            what: String::new(),
            formula: solid.formula.clone(),
            inputs: sizes
                .chain(solid.numbers.iter().copied())
                .map(|(name, value)| (name.to_string(), value))
                .collect(),
            result: solid.volume.m3(),
            unit: "m3",
            source: String::new(),
        };
        // The workbook has columns for so many; more would make the formula dead text.
        assert!(step.inputs.len() <= 6, "{}", case.name);
        let values: Vec<f64> = step.inputs.iter().map(|(_, value)| *value).collect();
        let value = formula::tokens(&step).and_then(|tokens| formula::value(&tokens, &values));
        if !value.is_some_and(|value| (value / step.result - 1.0).abs() < 1e-9) {
            wrong.push(format!("{}: {} = {value:?}", case.name, solid.formula));
        }
    }
    none(wrong);
}

/// Relative step of the numerical derivatives.
const STEP: f64 = 1e-5;

#[test]
fn sensitivities_are_the_derivatives() {
    let mut wrong = Vec::new();
    for (case, solid) in solids() {
        for term in &solid.terms {
            let volume = |ratio: f64| {
                let changed = case.changed(term.size.length, ratio);
                changed.solid().expect("a solid nearby").volume.m3().ln()
            };
            let derivative =
                (volume(1.0 + STEP) - volume(1.0 - STEP)) / ((1.0 + STEP).ln() - (1.0 - STEP).ln());
            if (derivative - term.sensitivity).abs() > 1e-5 * (1.0 + derivative.abs()) {
                let (name, sensitivity) = (term.name, term.sensitivity);
                wrong.push(format!(
                    "{}: {name}: {sensitivity}, {derivative}",
                    case.name
                ));
            }
        }
    }
    none(wrong);
}

/// Sizes of which more is less material.
const OF_VOIDS: [&str; 7] = [
    "inside",
    "opening width",
    "opening height",
    "second opening width",
    "second opening height",
    "third opening width",
    "third opening height",
];

#[test]
fn more_size_is_more_material_and_less_void() {
    let mut wrong = Vec::new();
    for (case, solid) in solids() {
        for term in &solid.terms {
            // A tank or pipe given by inside and wall grows outwards.
            let void = OF_VOIDS.contains(&term.name)
                && (term.name != "inside" || case.sizes.wall.is_none());
            let more = case.changed(term.size.length, 1.001).solid();
            let more = more.expect("a solid nearby").volume.m3();
            if (more > solid.volume.m3()) == void {
                wrong.push(format!("{}: {}", case.name, term.name));
            }
        }
    }
    none(wrong);
}

#[test]
fn a_solid_fits_into_its_outline_and_a_hollow_one_into_the_solid() {
    let mut wrong = Vec::new();
    for (case, solid) in solids() {
        let outline: f64 = solid.outline.iter().map(|side| side.m()).product();
        let (volume, filled) = (solid.volume.m3(), solid.filled.m3());
        let one = 1.0 + 1e-9;
        if volume > filled * one || filled > outline * one || volume <= 0.0 {
            wrong.push(format!("{}: {volume}, {filled}, {outline}", case.name));
        }
    }
    none(wrong);
}
