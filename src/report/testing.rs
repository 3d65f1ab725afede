//! A small audit made by hand for the tests of the reports: Kestrel Junction, two deliveries, invented suppliers.
//! Masses: plate 2000 x 1000 x 10 mm of steel at 7,850 kg/m3 = 157 kg; the other figures are invented round numbers.

use crate::audit::{Audit, Delivery, Line, Package, Source};
use crate::compare::Verdict;
use crate::estimate::{Estimate, Evidence, NoEstimate, Step};
use crate::fleet::{Capacity, Chosen, Class, Fault, Fleet, PlatePoint, Truck, WhyNot};
use crate::judge::{Cause, Finding, Severity};
use crate::place::Place;
use crate::plan::{LiftFrom, LiftOf, LoadCentreFrom, Plan, PlannedFrom};
use crate::settle::Declared;
use crate::site::{Site, Units};
use crate::understand::{
    Basis, ColumnReading, How, Item, Remark, SharedWeight, SheetReading, Size1, Sizes, Skipped,
    StatedSum, UnusableWeight, WeightKind, Why,
};
use crate::units::{Length, Mass, MassRange};
use chrono::NaiveDate;

/// Item of the line whose weight fits: 3 lifts with FL-15.
pub const CONSISTENT: &str = "PL-10";
/// Item without a declared weight, estimated: 2 lifts with FL-25, `check`.
pub const MISSING: &str = "CP-30";
/// Item declared too light, `stop`: 2 lifts, held.
pub const LIGHT: &str = "PL-25";
/// Item whose texts look like formulas, `check`: 1 lift with FL-15.
pub const INJECTION: &str = "@SUM(1+1)*cmd|' /C calc'!A0";
/// Item with neither declared weight nor estimate, `stop`: 1 lift, held.
pub const NO_WEIGHT: &str = "XX-1";
/// Item that no truck carries, `stop`: 1 lift, held.
pub const NO_TRUCK: &str = "TR-9";
/// Item on package P1, `stop` on the package: held with it.
pub const SHARED: &str = "BX-1";
/// Item at 95 % of the capacity of FL-15: 2 lifts.
pub const CLOSE_CALL: &str = "CL-2";
/// A description that would be a live formula if a spreadsheet program got at it.
pub const FORMULA_TEXT: &str = "=HYPERLINK(\"see\",\"drawing\")";

/// The audit in pounds and inches.
pub fn audit() -> Audit {
    audit_in(Units::Us)
}

/// The audit in a site's units.
pub fn audit_in(units: Units) -> Audit {
    Audit {
        id: "00c0ffee00c0ffee".into(),
        date: NaiveDate::from_ymd_opt(2026, 5, 4).expect("a date"),
        site: Site {
            name: "Kestrel Junction stores & yard".into(),
            units,
            ..Site::default()
        },
        fleet: Some(fleet()),
        sources: vec![
            source("bramble-steel.xlsx", "workbook (xlsx)"),
            source("tarn-boxes.csv", "text, UTF-8, commas"),
        ],
        refused: vec![(
            "scan.pdf".into(),
            "not a spreadsheet; ask the supplier for the list as a file".into(),
        )],
        deliveries: vec![first(), second()],
    }
}

fn first() -> Delivery {
    let at = |row, column| place("bramble-steel.xlsx", "List", row, column);
    let mut lines = vec![
        line(at(6, 0), CONSISTENT, "Steel plate 2000 x 1000 x 10 mm", 3),
        line(
            at(7, 0),
            MISSING,
            "Concrete pipe OD 762 x ID 610 x 2400 mm",
            2,
        ),
        line(at(8, 0), LIGHT, "Steel plate 3000 x 1500 x 25 mm", 2),
        line(at(9, 0), INJECTION, FORMULA_TEXT, 1),
        line(at(10, 0), NO_WEIGHT, "Sundries as per drawing", 1),
        line(at(11, 0), NO_TRUCK, "Transformer, oil filled", 1),
    ];
    let [consistent, missing, light, injection, no_weight, no_truck] = &mut lines[..] else {
        unreachable!("six lines were made")
    };

    declare(consistent, at(6, 7), 471.0, "471");
    consistent.estimate = Ok(plate(157.0, 3.0, 0.02));
    lift(consistent, 3, 480.0, PlannedFrom::Larger, "FL-15", 1_500.0);

    missing.verdict = Verdict::Missing;
    missing.item.unusable.push(UnusableWeight {
        place: at(7, 7),
        text: "TBA".into(),
        why: "not a number".into(),
    });
    missing.estimate = Ok(plate(950.0, 2.0, 0.395));
    missing.findings.push(finding(
        "weight-missing",
        Severity::Check,
        "no usable weight (\"TBA\"); planned with the estimate; ask the supplier",
    ));
    lift(missing, 2, 2_200.4, PlannedFrom::Estimate, "FL-25", 2_400.0);
    missing.plan.why_not.push(WhyNot {
        truck: "FL-15".into(),
        clause: "3,306 lb at 24 in to 60 in would do; its battery is on charge".into(),
    });

    declare(light, at(8, 7), 800.5, "800.5");
    light.verdict = Verdict::Light;
    light.estimate = Ok(plate(883.125, 2.0, 0.1125));
    light.findings.push(Finding {
        cause: Some(Cause {
            kind: "kg-lb",
            would_be_kg: 1_764.8,
            share: 0.93,
        }),
        field: Some("weight".into()),
        ..finding(
            "declared-light",
            Severity::Stop,
            "declared 800.5 kg, plausible 1,678 to 1,854 kg; do not lift before it is settled",
        )
    });
    light.if_corrected = Some((Mass::from_kg(1_766.3), Some("FL-15".into())));
    lift(light, 2, 1_943.0, PlannedFrom::Larger, "FL-15", 1_500.0);
    light.plan.held = true;
    light.plan.declared_truck = Some(("HT-5".into(), Mass::from_kg(471.5)));

    injection.item.supplier = Some("+Bramble Steel\u{7}works\t(=1+1)".into());
    injection.item.unit = Some("-2+3".into());
    declare(injection, at(9, 7), 272.0, "=1+1 kg");
    injection.verdict = Verdict::Unverifiable;
    injection.findings.push(finding(
        "nothing-to-check-with",
        Severity::Check,
        "neither size nor material is known; ask for both",
    ));
    lift(injection, 1, 300.0, PlannedFrom::Declared, "FL-15", 1_500.0);

    no_weight.verdict = Verdict::Missing;
    no_weight.findings.push(finding(
        "weight-missing",
        Severity::Stop,
        "no weight declared and nothing to estimate it from; weigh it",
    ));

    declare(no_truck, at(11, 7), 9_800.0, "9.8 t");
    no_truck.verdict = Verdict::Heavy;
    no_truck.estimate = Ok(plate(6_500.0, 1.0, 0.83));
    no_truck.findings.push(finding("no-truck", Severity::Stop, "no truck of the register lifts 9,800 kg; heavier lifting gear, planned by a competent person"));
    no_truck.plan = Plan {
        line: Some(Mass::from_kg(9_800.0)),
        lift: Some(Mass::from_kg(9_800.0)),
        from: PlannedFrom::Larger,
        truck_without: Some(
            "7,300 kg more than the strongest truck, FL-25, lifts at this load centre".into(),
        ),
        held: true,
        ..no_plan()
    };

    Delivery {
        reading: SheetReading {
            supplier: Some("Bramble Steelworks".into()),
            supplier_from: "layout",
            order: Some("PO 4711".into()),
            received: NaiveDate::from_ymd_opt(2026, 5, 4),
            skipped: vec![
                skipped(1, Why::Title, "Packing list Kestrel Junction"),
                skipped(12, Why::Total, "Total 11,343.5"),
                skipped(14, Why::Hidden, "-1 spare"),
            ],
            columns: vec![
                column(2, "Item", "item", None, How::Stated),
                column(
                    7,
                    "Wt",
                    "declared weight, line, gross",
                    Some("kg"),
                    How::Inferred,
                ),
                column(8, "=Ref", "not used", None, How::Stated),
            ],
            sums: vec![StatedSum {
                place: at(12, 7),
                column: 7,
                figure: 11_343.5,
                text: "11,343.5".into(),
                rows: (6..=11).collect(),
            }],
            remarks: vec![Remark {
                code: "hidden-row",
                place: at(14, 0),
                message: "row 14 is hidden; ask whether it belongs to the delivery".into(),
            }],
            ..reading(at(0, 0), "bramble-steel")
        },
        lines,
        packages: vec![],
        findings: vec![finding(
            "hidden-row",
            Severity::Check,
            "row 14 is hidden and gives no line; ask the supplier whether it belongs to the delivery",
        )],
    }
}

fn second() -> Delivery {
    let at = |row, column| place("tarn-boxes.csv", "", row, column);
    let mut lines = vec![
        line(at(2, 0), SHARED, "Cast brackets, boxed", 40),
        line(at(3, 0), "BX-2", "Bolts M24 x 120, boxed", 200),
        line(at(4, 0), CLOSE_CALL, "Wire rope, coil", 2),
    ];
    for line in &mut lines[..2] {
        line.verdict = Verdict::Shared;
        line.item.shared_with = Some(0);
        line.estimate = Ok(plate(3.2, f64::from(line.item.pieces), 0.0004));
        line.plan.lift_of = LiftOf::Shared;
        line.plan.lifts = 0;
    }
    if let Some(coil) = lines.last_mut() {
        declare(coil, at(4, 5), 2_800.0, "2800");
        coil.estimate = Ok(plate(1_425.0, 2.0, 0.182));
        lift(coil, 2, 2_850.0, PlannedFrom::Larger, "FL-15", 1_500.0);
        coil.plan.lift_from = LiftFrom::Stated;
    }
    let weight = place("tarn-boxes.csv", "", 2, 5);
    let package = Package {
        shared: SharedWeight {
            name: "P1".into(),
            place: weight.clone(),
            rows: vec![2, 3],
            weights: vec![],
            unusable: vec![],
            sizes: Sizes::default(),
            tare: Some(Mass::from_kg(22.0)),
            packed_as: Some("pallet"),
        },
        estimate: Ok(plate(790.0, 1.0, 0.096)),
        declared: Some(declared(weight, 410.0, "410")),
        verdict: Verdict::Light,
        findings: vec![finding(
            "declared-light",
            Severity::Stop,
            "declared 410 kg, plausible 750 to 830 kg; weigh the pallet",
        )],
        plan: Plan {
            line: Some(Mass::from_kg(869.0)),
            lift: Some(Mass::from_kg(869.0)),
            lift_of: LiftOf::Package,
            from: PlannedFrom::Larger,
            truck: Some(chosen("FL-15", 1_500.0, 869.0)),
            declared_truck: Some(("HT-5".into(), Mass::from_kg(369.0))),
            held: true,
            ..no_plan()
        },
    };
    Delivery {
        reading: SheetReading {
            supplier: Some("Tarn Boxworks".into()),
            supplier_from: "file name",
            ..reading(at(0, 0), "tarn-boxes")
        },
        lines,
        packages: vec![package],
        findings: vec![],
    }
}

fn line(place: Place, item: &str, description: &str, pieces: u32) -> Line {
    Line {
        id: format!(
            "{:016x}",
            0xABC0_0000_u64 + u64::from(place.row) * 16 + u64::from(pieces)
        ),
        item: Item {
            line_no: None,
            item: Some(item.into()),
            description: description.into(),
            material: None,
            order: None,
            supplier: None,
            vehicle: None,
            pieces,
            pieces_how: How::Stated,
            unit: None,
            packages: None,
            packed_as: None,
            sizes: Sizes {
                length: Some(Size1 {
                    length: Length::from_mm(2_000.0),
                    half_digit: Length::from_mm(0.5),
                    fine: true,
                }),
                ..Sizes::default()
            },
            package_sizes: Sizes::default(),
            sizes_from: None,
            weights: vec![],
            tare: None,
            unusable: vec![],
            shared_with: None,
            entered: None,
            lift_height: None,
            remarks: vec![],
            place,
        },
        estimate: Err(NoEstimate {
            why: "neither size nor material is known".into(),
            goods: None,
            upper: None,
            outline: None,
        }),
        declared: None,
        verdict: Verdict::Consistent,
        findings: vec![],
        plan: no_plan(),
        if_corrected: None,
    }
}

fn declare(line: &mut Line, place: Place, kg: f64, text: &str) {
    line.declared = Some(declared(place, kg, text));
}

fn declared(place: Place, kg: f64, text: &str) -> Declared {
    Declared {
        mass: Mass::from_kg(kg),
        of: Basis::Line,
        kind: WeightKind::Gross,
        how: How::Inferred,
        text: text.into(),
        place,
        heaviest: Mass::from_kg(kg),
    }
}

fn no_plan() -> Plan {
    Plan {
        lifts: 1,
        lift_of: LiftOf::Piece,
        lift_from: LiftFrom::Assumed,
        line: None,
        lift: None,
        from: PlannedFrom::None,
        load_centre: Length::from_mm(600.0),
        load_centre_from: LoadCentreFrom::Piece,
        depth: Length::from_mm(1_200.0),
        truck: None,
        truck_without: None,
        why_not: vec![],
        declared_truck: None,
        most_pieces: None,
        held: false,
    }
}

fn lift(line: &mut Line, lifts: u32, kg: f64, from: PlannedFrom, truck: &str, capacity_kg: f64) {
    let one = kg / f64::from(lifts);
    line.plan = Plan {
        lifts,
        line: Some(Mass::from_kg(kg)),
        lift: Some(Mass::from_kg(one)),
        from,
        truck: Some(chosen(truck, capacity_kg, one)),
        ..no_plan()
    };
}

fn chosen(truck: &str, capacity_kg: f64, kg: f64) -> Chosen {
    Chosen {
        id: truck.into(),
        capacity: Capacity {
            mass: Mass::from_kg(capacity_kg),
            calculated: truck == "FL-25",
            from: place("fleet.csv", "", 2, 0),
        },
        used: kg / capacity_kg,
        notes: vec![],
    }
}

/// A plate's estimate with the working that a shape's formula gives.
fn plate(piece_kg: f64, pieces: f64, volume_m3: f64) -> Estimate {
    let range = |kg: f64| MassRange {
        low: Mass::from_kg(kg * 0.95),
        likely: Mass::from_kg(kg),
        high: Mass::from_kg(kg * 1.05),
    };
    let density = piece_kg / volume_m3;
    let input = |name: &str, value: f64| (name.to_string(), value);
    Estimate {
        evidence: Evidence::Shape,
        shape: Some("plate"),
        product: None,
        material: Some("steel"),
        goods: Some("plate"),
        piece: range(piece_kg),
        line: range(piece_kg * pieces),
        tare: range(0.0),
        block: None,
        solid: true,
        outline: None,
        steps: vec![
            Step {
                what: "volume of one piece".into(),
                formula: "length x width x thickness".into(),
                inputs: vec![
                    input("length", 2.0),
                    input("width", 1.0),
                    input("thickness", volume_m3 / 2.0),
                ],
                result: volume_m3,
                unit: "m3",
                source: "bramble-steel.xlsx › List!D6".into(),
            },
            Step {
                what: "mass of one piece".into(),
                formula: "volume x density".into(),
                inputs: vec![input("volume", volume_m3), input("density", density)],
                result: piece_kg,
                unit: "kg",
                source: "materials table, steel".into(),
            },
            Step {
                what: "likely mass of the line".into(),
                formula: "mass of one piece x pieces".into(),
                inputs: vec![
                    input("mass of one piece", piece_kg),
                    input("pieces", pieces),
                ],
                result: piece_kg * pieces,
                unit: "kg",
                source: "bramble-steel.xlsx › List!C6".into(),
            },
        ],
        working: format!(
            "{pieces} x {volume_m3} m3 x {density:.0} kg/m3 = {} kg",
            piece_kg * pieces
        ),
    }
}

fn finding(code: &'static str, severity: Severity, message: &str) -> Finding {
    Finding {
        code,
        severity,
        message: message.into(),
        field: None,
        cause: None,
    }
}

fn reading(place: Place, delivery: &str) -> SheetReading {
    SheetReading {
        place,
        delivery: delivery.into(),
        supplier: None,
        supplier_from: "unknown",
        vehicle: None,
        order: None,
        received: None,
        items: vec![],
        shared: vec![],
        skipped: vec![],
        columns: vec![],
        sums: vec![],
        remarks: vec![],
    }
}

fn skipped(row: u32, why: Why, text: &str) -> Skipped {
    Skipped {
        row,
        why,
        text: text.into(),
    }
}

fn column(column: u32, heading: &str, field: &str, unit: Option<&str>, how: How) -> ColumnReading {
    ColumnReading {
        column,
        heading: heading.into(),
        field: field.into(),
        unit: unit.map(str::to_string),
        how,
    }
}

fn source(name: &str, kind: &str) -> Source {
    Source {
        name: name.into(),
        sha256: "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08".into(),
        kind: kind.into(),
        remarks: vec!["decimal point, thousands commas".into()],
    }
}

fn place(file: &str, sheet: &str, row: u32, column: u32) -> Place {
    Place {
        file: file.into(),
        sheet: sheet.into(),
        row,
        column,
    }
}

fn fleet() -> Fleet {
    let point = |row, kg, mm: f64, lift_mm: Option<f64>| PlatePoint {
        capacity: Mass::from_kg(kg),
        load_centre: Length::from_mm(mm),
        lift_height: lift_mm.map(Length::from_mm),
        attachment: None,
        place: place("fleet.csv", "", row, 0),
    };
    let truck = |id: &str, class, points| Truck {
        id: id.into(),
        class,
        class_assumed: false,
        points,
        fitted: None,
        available: Some(true),
        out_until: None,
        inspection_due: NaiveDate::from_ymd_opt(2026, 9, 1),
        fuel: Some("electric".into()),
        places: vec!["indoor".into(), "outdoor".into()],
        service: Some(Mass::from_kg(3_100.0)),
        fork_length: Some(Length::from_mm(1_200.0)),
        vertical_mast: None,
        axle: None,
        lowered_height: None,
        remark: None,
        faulty: false,
    };
    let mut out = truck(
        "FL-30",
        Some(Class::V),
        vec![point(6, 3_000.0, 600.0, Some(3_300.0))],
    );
    out.inspection_due = NaiveDate::from_ymd_opt(2026, 5, 3);
    out.remark = Some("=yard only".into());
    let mut faulty = truck("HT-5", Some(Class::III), vec![]);
    faulty.faulty = true;
    Fleet {
        file: "fleet.csv".into(),
        trucks: vec![
            truck(
                "FL-15",
                Some(Class::I),
                vec![
                    point(2, 1_500.0, 600.0, Some(3_300.0)),
                    point(3, 1_350.0, 700.0, None),
                ],
            ),
            truck(
                "FL-25",
                Some(Class::V),
                vec![point(4, 2_500.0, 600.0, Some(3_300.0))],
            ),
            out,
            faulty,
        ],
        faults: vec![Fault {
            truck: Some("HT-5".into()),
            place: place("fleet.csv", "", 5, 3),
            message: "capacity \"about 500\" is not a number; copy it from the plate".into(),
        }],
        notes: vec!["lift height blank: taken for the site's default height only".into()],
    }
}
