//! The parts that the test audit is put together from.

use crate::audit::{Line, Source};
use crate::compare::Verdict;
use crate::estimate::{Estimate, Evidence, NoEstimate, Step};
use crate::fleet::{Capacity, Chosen, Class, Fault, Fleet, PlatePoint, Truck};
use crate::judge::{Finding, Severity};
use crate::place::Place;
use crate::plan::{LiftFrom, LiftOf, LoadCentreFrom, Plan, PlannedFrom};
use crate::settle::Declared;
use crate::understand::{
    Basis, ColumnReading, How, Item, SheetReading, Size1, Sizes, Skipped, WeightKind, Why,
};
use crate::units::{Length, Mass, MassRange};
use chrono::NaiveDate;

pub(super) fn line(place: Place, item: &str, description: &str, pieces: u32) -> Line {
    Line {
        id: format!(
            "{:016x}",
            0xABC0_0000_u64 + u64::from(place.row) * 16 + u64::from(pieces)
        ),
        substance: String::new(),
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
            stands_on: None,
            packed_as: None,
            sizes: Sizes {
                length: Some(Size1 {
                    length: Length::from_mm(2_000.0),
                    half_digit: Length::from_mm(0.5),
                    fine: true,
                }),
                ..Sizes::default()
            },
            further_sizes: Vec::new(),
            package_sizes: Sizes::default(),
            sizes_from: None,
            weights: vec![],
            volume: None,
            amount: None,
            tare: None,
            unusable: vec![],
            shared_with: None,
            entered: None,
            lift_height: None,
            remarks: vec![],
            place,
        },
        weighed: None,
        estimate: Err(NoEstimate {
            why: "neither size nor material is known".into(),
            impossible: false,
            goods: None,
            upper: None,
            outline: None,
        }),
        declared: None,
        verdict: Verdict::Consistent,
        findings: vec![],
        plan: no_plan(),
        decided: None,
        if_corrected: None,
    }
}

pub(super) fn declare(line: &mut Line, place: Place, kg: f64, text: &str) {
    line.declared = Some(declared(place, kg, text));
}

pub(super) fn declared(place: Place, kg: f64, text: &str) -> Declared {
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

pub(super) fn no_plan() -> Plan {
    Plan {
        takes: None,
        sizes_assumed: false,
        divided: false,
        tall: false,
        unchecked: false,
        lifts: 1,
        lift_of: LiftOf::Piece,
        lift_from: LiftFrom::Assumed,
        line: None,
        beside: Mass::ZERO,
        lift: None,
        from: PlannedFrom::None,
        still_possible: Mass::ZERO,
        load_centre: Length::from_mm(600.0),
        load_centre_from: LoadCentreFrom::Piece,
        depth: Length::from_mm(1_200.0),
        across: None,
        truck: None,
        truck_without: None,
        instead: vec![],
        why_not: vec![],
        declared_truck: None,
        most_pieces: None,
        held: Vec::new(),
    }
}

pub(super) fn lift(
    line: &mut Line,
    lifts: u32,
    kg: f64,
    from: PlannedFrom,
    truck: &str,
    capacity_kg: f64,
) {
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

pub(super) fn chosen(truck: &str, capacity_kg: f64, kg: f64) -> Chosen {
    Chosen {
        id: truck.into(),
        capacity: Capacity {
            mass: Mass::from_kg(capacity_kg),
            calculated: truck == "FL-25",
            from: place("fleet.csv", "", 2, 0),
            rated_at: Length::from_mm(500.0),
        },
        used: kg / capacity_kg,
        notes: vec![],
    }
}

/// A plate's estimate with the working that a shape's formula gives.
pub(super) fn plate(piece_kg: f64, pieces: f64, volume_m3: f64) -> Estimate {
    let range = |kg: f64| MassRange {
        low: Mass::from_kg(kg * 0.95),
        likely: Mass::from_kg(kg),
        high: Mass::from_kg(kg * 1.05),
    };
    let density = piece_kg / volume_m3;
    let input = |name: &str, value: f64| (name.to_string(), value);
    Estimate {
        group: None,
        evidence: Evidence::Shape,
        shape: Some("plate"),
        product: None,
        material: crate::tables::materials::by_name("carbon steel"),
        goods: Some("plate"),
        piece: range(piece_kg),
        line: range(piece_kg * pieces),
        tare: range(0.0),
        block: None,
        otherwise: None,
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

pub(super) fn finding(code: &'static str, severity: Severity, message: &str) -> Finding {
    Finding {
        code,
        severity,
        message: message.into(),
        field: None,
        cause: None,
    }
}

pub(super) fn reading(place: Place, delivery: &str) -> SheetReading {
    SheetReading {
        us: None,
        more_us: None,
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

pub(super) fn skipped(row: u32, why: Why, text: &str) -> Skipped {
    Skipped {
        row,
        why,
        text: text.into(),
    }
}

pub(super) fn column(
    column: u32,
    heading: &str,
    field: &str,
    unit: Option<&str>,
    how: How,
) -> ColumnReading {
    ColumnReading {
        column,
        heading: heading.into(),
        field: field.into(),
        unit: unit.map(str::to_string),
        how,
        layout: Default::default(),
    }
}

pub(super) fn source(name: &str, kind: &str) -> Source {
    Source {
        name: name.into(),
        sha256: "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08".into(),
        kind: kind.into(),
        remarks: vec!["decimal point, thousands commas".into()],
    }
}

pub(super) fn place(file: &str, sheet: &str, row: u32, column: u32) -> Place {
    Place {
        file: file.into(),
        sheet: sheet.into(),
        row,
        column,
    }
}

pub(super) fn fleet() -> Fleet {
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
        headings: vec![],
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
            found: "capacity \"about 500\" is not a number".into(),
            remedy: "copy it from the plate".into(),
        }],
        notes: vec!["lift height blank: taken for the site's default height only".into()],
    }
}
