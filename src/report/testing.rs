//! A small audit made by hand for the tests of the reports: Kestrel Junction, two deliveries, invented suppliers.
//! Masses: plate 2000 x 1000 x 10 mm of steel at 7,850 kg/m3 = 157 kg; the other figures are invented round numbers.

mod parts;

use crate::audit::{Audit, Call, Delivery, Package};
use crate::compare::Verdict;
use crate::estimate::materials::Vocabulary;
use crate::fleet::WhyNot;
use crate::judge::{Cause, Finding, Severity};
use crate::plan::{LiftFrom, LiftOf, Plan, PlannedFrom};
use crate::site::{Site, Units};
use crate::understand::{
    How, Remark, SharedWeight, SheetReading, Sizes, StatedSum, UnusableWeight, Why,
};
use crate::units::Mass;
use chrono::NaiveDate;
use parts::{
    chosen, column, declare, declared, finding, fleet, lift, line, no_plan, place, plate, reading,
    skipped, source,
};

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
        vocabulary: Vocabulary::with(&[]),
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
        history: Default::default(),
        unused: Vec::new(),
        call: Call {
            register_sha256: Some("7".repeat(64)),
            site_file: Some(("yard.toml".into(), "8".repeat(64))),
            left_out: vec!["morning/notes.md (no spreadsheet)".into()],
            ledger: Some((812, "9".repeat(64))),
        },
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
        speaks_of: None,
        place: at(7, 7),
        text: "TBA".into(),
        why: "not a number".into(),
        withheld: true,
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
    no_truck.findings.push(finding(
        "no-truck",
        Severity::Stop,
        "no truck of the register lifts 9,800 kg; heavier lifting gear, planned by a competent person",
    ));
    no_truck.plan = Plan {
        line: Some(Mass::from_kg(9_800.0)),
        lift: Some(Mass::from_kg(9_800.0)),
        from: PlannedFrom::Larger,
        truck_without: Some(
            "7,300 kg more than the strongest truck, FL-25, lifts at this load centre".into(),
        ),
        ..no_plan()
    };

    Delivery {
        source: 0,
        settled: Default::default(),
        off: Default::default(),
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
        id: "00000000000000b1".into(),
        substance: String::new(),
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
            ..no_plan()
        },
        decided: None,
    };
    Delivery {
        source: 1,
        settled: Default::default(),
        off: Default::default(),
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
