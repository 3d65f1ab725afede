//! Lifts with the fleet as it is today, in every output at once: what is never proposed, what is always marked, what would do
//! where no truck takes a load.

use crate::fleet::{MARK, audited, fleet, folder, goods, joined, rows, text};
use crate::helper::{DAY, LB, dockheft, parsed, said, status};
use serde_json::Value;
use std::path::Path;

const HEAD: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Attachment,Fitted,Available,Out until,Service weight (lb)\n";

fn register(rows: &str) -> String {
    format!("{HEAD}{rows}")
}

/// The one line's record and all that the audit and `fleet` say: terminal, workbook rows.
fn everything(folder: &Path, more: &[&str]) -> (Value, String, Vec<(String, Vec<String>)>) {
    let (output, mut lines) = audited(folder, more);
    let shown = joined(&(said(&output) + &text(&fleet(folder, &[]))));
    (lines.remove(0), shown, rows(&folder.join("out.xlsx")))
}

/// The trucks that the Lift plan names, by its column "Truck".
fn planned(rows: &[(String, Vec<String>)]) -> Vec<String> {
    let plan = rows.iter().filter(|(sheet, _)| sheet == "Lift plan");
    let mut plan = plan.map(|(_, cells)| cells);
    let at = plan
        .next()
        .and_then(|headings| headings.iter().position(|heading| heading == "Truck"))
        .expect("a column");
    plan.map(|cells| cells[at].clone()).collect()
}

fn weigh(folder: &Path, typed: &str, more: &[&str]) -> std::process::Output {
    let base = [
        "weigh",
        typed,
        "--fleet",
        "fleet.csv",
        "--date",
        DAY,
        "--units",
        "us",
    ];
    dockheft(folder, &[&base, more].concat())
}

/// Case 5 of the reference in every output: at 15 in the moment would give 8,000 lb; the plate says 5,000.
#[test]
fn no_output_proposes_a_capacity_above_a_plate() {
    for (lb, truck) in [(5_200, Value::Null), (4_900, "A".into())] {
        let folder = folder(&register("A,V,5000,24,180,,,yes,,\n"), &goods(30, lb));
        let (line, shown, rows) = everything(folder.path(), &[]);
        assert_eq!(line["truck"]["id"], truck, "{line}");
        let capacity = line["truck"]["capacity_kg"].as_f64().unwrap_or(0.0) / LB;
        assert!(capacity <= 5_000.001, "{capacity}");
        assert!(
            shown.contains("5,000") && !shown.contains("8,000"),
            "{shown}"
        );
        for (sheet, cells) in rows.iter().filter(|(sheet, _)| sheet != "Basis") {
            let above = |cell: &String| cell.contains("8,000 lb") || cell == "8000";
            assert!(!cells.iter().any(above), "{sheet}: {cells:?}");
        }
        let typed = weigh(folder.path(), "steel block 30 in x 24 in x 20 in", &[]);
        assert!(!text(&typed).contains("8,000"), "{}", text(&typed));
    }
}

/// Case 12 in every output: 8,400 lb, and two trucks of 6,000.
#[test]
fn no_output_proposes_two_trucks_under_one_load() {
    let two = register("A,V,6000,24,180,,,yes,,\nB,V,6000,24,180,,,yes,,\n");
    let folder = folder(&two, &goods(48, 8_400));
    let (line, shown, rows) = everything(folder.path(), &[]);
    assert_eq!(line["truck"], Value::Null);
    assert_eq!(line["lifts"], 1);
    let why = line["truck_without"].as_str().expect("a reason");
    assert!(
        why.contains("2,400 lb short; heavier lifting gear, planned by a competent person"),
        "{why}"
    );
    assert_eq!(planned(&rows), ["none"]);
    for word in ["two trucks", "both trucks", "A and B", "A, B"] {
        let plan = shown.split("Trucks of the day").next().unwrap_or_default();
        assert!(!plan.contains(word), "{word}: {plan}");
        let said = rows.iter().filter(|(sheet, _)| sheet != "Basis");
        assert!(
            !said
                .flat_map(|(_, cells)| cells)
                .any(|cell| cell.contains(word))
        );
    }
}

/// 29 CFR 1910.178(a)(4) and (5): without the plate's row for it the capacity with an attachment is unknown.
#[test]
fn no_output_proposes_an_attachment_without_a_plate_row() {
    // A wears a clamp and its plate has none; B's plate has one and it wears none.
    let register = register(
        "A,V,9000,24,180,,clamp,yes,,\nB,V,9000,24,180,,,yes,,\nB,V,6000,24,180,clamp,,yes,,\n",
    );
    let folder = folder(&register, &goods(48, 4_000));
    let site = "[attachment_by_goods]\ndrum = \"clamp\"\n";
    std::fs::write(folder.path().join("yard.toml"), site).expect("a file");
    let drums = "Description,Qty,Gross weight (lb)\n\"Gear oil, 55 gal steel drum\",1,480\n";
    for (delivery, truck) in [
        (goods(48, 4_000).as_str(), "B".into()),
        (drums, Value::Null),
    ] {
        std::fs::write(folder.path().join("list.csv"), delivery).expect("a file");
        let (line, _, rows) = everything(folder.path(), &["--site", "yard.toml"]);
        assert_eq!(line["truck"]["id"], truck, "{line}");
        let named = if truck.is_null() { "none" } else { "B" };
        assert_eq!(planned(&rows), [named]);
    }
    let typed = weigh(
        folder.path(),
        "steel block 24 in x 24 in x 24 in",
        &["--attachment", "clamp", "--json", "--quiet"],
    );
    assert_eq!(parsed(&typed.stdout)[0]["truck"], Value::Null);
}

/// 29 CFR 1910.178(p)(1) and (q)(7): what is out of service, or not inspected, is not sent.
#[test]
fn no_output_proposes_a_truck_that_is_out() {
    for (why, available, until) in [
        ("no", "no", ""),
        ("until", "yes", "2026-12-04"),
        ("both", "no", "2026-12-04"),
    ] {
        let rows_of = format!("A,V,3000,24,180,,,yes,,\nB,V,9000,24,180,,,{available},{until},\n");
        let folder = folder(&register(&rows_of), &goods(48, 4_000));
        let (line, shown, rows) = everything(folder.path(), &[]);
        assert_eq!(line["truck"], Value::Null, "{why}: {line}");
        assert_eq!(planned(&rows), ["none"], "{why}");
        assert!(
            shown.contains("not ready: B, out of service"),
            "{why}: {shown}"
        );
        let day = rows.iter().any(|(sheet, cells)| {
            sheet == "Dock"
                && cells[1] == "Trucks without a lift"
                && cells[2].starts_with("B: NOT READY")
        });
        assert!(day, "{why}");
        // It is said when it is back, where that is known, and nothing more.
        let without = line["truck_without"].as_str().unwrap_or_default();
        assert_eq!(
            without.contains("B would do from 2026-12-05"),
            !until.is_empty(),
            "{without}"
        );
    }
}

#[test]
fn out_until_is_judged_by_the_day_of_the_call() {
    let register = register("A,V,3000,24,180,,,yes,,\nB,V,9000,24,180,,,yes,2026-12-04,\n");
    let folder = folder(&register, &goods(48, 4_000));
    for (day, truck) in [("2026-12-04", Value::Null), ("2026-12-05", "B".into())] {
        let output = dockheft(
            folder.path(),
            &[
                "audit",
                "list.csv",
                "--fleet",
                "fleet.csv",
                "--json",
                "--quiet",
                "--date",
                day,
                "--out",
                "out.xlsx",
            ],
        );
        let line = crate::helper::lines(parsed(&output.stdout)).remove(0);
        assert_eq!(line["truck"]["id"], truck, "{day}");
    }
}

/// A capacity that no plate states, 5,000 x 24 / 30 = 4,000 lb, is marked in the text of `audit`, `weigh` and `fleet`, in the
/// records and in each row of the workbook that shows it.
#[test]
fn every_calculated_capacity_is_marked_wherever_it_is_shown() {
    for (lb, named) in [(3_900, true), (4_100, false)] {
        let folder = folder(&register("A,V,5000,24,180,,,yes,,\n"), &goods(60, lb));
        let (line, shown, rows) = everything(folder.path(), &[]);
        assert_eq!(line["truck"]["id"] == "A", named);
        if named {
            assert_eq!(line["truck"]["calculated"], true);
        } else {
            marked(line["truck_without"].as_str().expect("a reason"));
        }
        let mut seen = 0;
        for (sheet, cells) in &rows {
            let shows = |cell: &String| cell == "4000" || cell.contains("4,000 lb");
            if cells.iter().any(shows) {
                seen += 1;
                assert!(
                    cells.iter().any(|cell| cell.contains(MARK)),
                    "{sheet}: {cells:?}"
                );
            }
        }
        assert!(seen >= 2, "Lift plan and Fleet show it");
        if !named {
            marked(&shown);
        }
        let typed = if named { "3900" } else { "4100" };
        let weighed = weigh(
            folder.path(),
            &format!("sundry goods 60 in x 24 in x 20 in declared {typed} lb"),
            &[],
        );
        marked(&joined(&text(&weighed)));
        let records = parsed(&fleet(folder.path(), &["--json", "--quiet"]).stdout);
        let points = records[1]["capacity"].as_array().expect("a curve");
        for point in points {
            let beyond = point["load_centre_m"].as_f64() > Some(0.6097);
            assert_eq!(point["calculated"], beyond, "{point}");
            assert_eq!(point["mark"] == MARK, beyond, "{point}");
        }
        let table = text(&fleet(folder.path(), &[]));
        let row = table.lines().find(|line| line.contains(" 4,000"));
        assert!(row.expect("a row").contains("calculated, the"), "{table}");
    }
}

/// "4,000 lb" stands in a text, each time with the mark in the same clause or the next.
#[track_caller]
fn marked(text: &str) {
    let found: Vec<usize> = text.match_indices("4,000 lb").map(|(at, _)| at).collect();
    assert!(!found.is_empty(), "{text}");
    for at in found {
        let clause: String = text[at..].chars().take(80).collect();
        assert!(clause.contains(MARK), "{clause}");
    }
}

/// A long load turned; two blocks of 4,200 lb in a bundle one by one, or with the truck that is out.
#[test]
fn without_a_truck_the_record_says_what_would_do() {
    let register = register("A,V,5000,24,180,,,yes,,\nB,V,9000,24,180,,,yes,2026-12-04,\n");
    for (delivery, parts) in [
        (
            // Endwise the load centre is 60 in, A lifts 2,000 lb, B 3,600; turned it is 12 in.
            "Description,Qty,Length (in),Width (in),Height (in),Gross weight (lb)\n\"Sundry goods, entered endwise\",1,120,24,20,4000\n",
            &["A would do, if the load is turned and entered broadside (load centre 12 in)"][..],
        ),
        (
            "Description,Qty,Length (in),Width (in),Height (in),Gross weight (lb)\nSundry goods in a bundle,2,24,20,20,8400\n",
            &[
                "with at most 1 of the 2 pieces a lift A would do, if they can be taken apart",
                "B would do from 2026-12-05",
                "heavier lifting gear, planned by a competent person",
            ],
        ),
    ] {
        let folder = folder(&register, delivery);
        let (line, shown, rows) = everything(folder.path(), &[]);
        let why = line["truck_without"].as_str().unwrap_or_default();
        for part in parts {
            assert!(why.contains(part), "{part} in {line}");
            assert!(shown.contains(part), "{part} in {shown}");
            assert!(
                rows.iter().any(|(sheet, cells)| sheet == "Lift plan"
                    && cells.iter().any(|cell| cell.contains(part))),
                "{part}"
            );
        }
    }
}

/// A site's rule: drums need the clamp, but not on a pallet.
#[test]
fn goods_may_need_an_attachment_by_the_sites_rule() {
    let register = register(
        "A,V,5000,24,180,,,yes,,\nB,V,9000,24,180,,drum clamp,yes,,\nB,V,6000,24,180,drum clamp,drum clamp,yes,,\n",
    );
    let drums = |packed: &str| {
        format!(
            "Description,Qty,Pkg Type,Gross weight (lb)\n\"Gear oil, 55 gal steel drum\",1,{packed},480\n"
        )
    };
    for (rule, packed, truck) in [
        ("", "", "A"),
        ("[attachment_by_goods]\ndrum = \"Drum clamp\"\n", "", "B"),
        (
            "[attachment_by_goods]\ndrum = \"drum clamp\"\n",
            "pallet",
            "A",
        ),
        ("[attachment_by_goods]\ncoil = \"ram\"\n", "", "A"),
    ] {
        let folder = folder(&register, &drums(packed));
        std::fs::write(folder.path().join("yard.toml"), rule).expect("a file");
        let (line, _, rows) = everything(folder.path(), &["--site", "yard.toml"]);
        assert_eq!(line["truck"]["id"], truck, "{rule}{packed}: {line}");
        if truck == "B" {
            let said = |cells: &Vec<String>| {
                cells
                    .iter()
                    .any(|cell| cell.contains("with its Drum clamp"))
            };
            assert!(
                rows.iter()
                    .any(|(sheet, cells)| sheet == "Lift plan" && said(cells))
            );
        }
    }
    let folder = folder(&register, &drums(""));
    std::fs::write(
        folder.path().join("yard.toml"),
        "[attachment_by_goods]\ndrums = \"x\"\n",
    )
    .expect("a file");
    let (output, _) = audited(folder.path(), &["--site", "yard.toml"]);
    assert_eq!(status(&output), 3);
    assert!(
        said(&output).contains("the nearest is \"drum\""),
        "{}",
        said(&output)
    );
}

/// Truck 9,000 lb, operator 90 kg (198.4 lb) and load 4,000 lb are 13,198.4 lb: over 13,000, within 14,000 lb.
#[test]
fn the_weaker_of_dockboard_and_vehicle_floor_counts() {
    let folder = folder(
        &register("A,V,5000,24,180,,,yes,,9000\n"),
        &goods(48, 4_000),
    );
    for (dock, floor, truck) in [
        (14_000.0, 14_000.0, "A".into()),
        (14_000.0, 13_000.0, Value::Null),
        (13_000.0, 14_000.0, Value::Null),
    ] {
        let site = format!(
            "dock_rating_kg = {:.3}\nvehicle_floor_kg = {:.3}\n",
            dock * LB,
            floor * LB
        );
        std::fs::write(folder.path().join("yard.toml"), site).expect("a file");
        let (line, shown, _) = everything(folder.path(), &["--site", "yard.toml"]);
        assert_eq!(line["truck"]["id"], truck, "{dock} {floor}: {line}");
        if truck.is_null() {
            let name = if floor < dock {
                "vehicle's floor"
            } else {
                "dock"
            };
            let why = line["truck_without"].as_str().unwrap_or_default();
            assert!(
                why.contains("198 lb short") || why.contains("199 lb short"),
                "{why}"
            );
            assert!(
                shown.contains("A lifts most at this load centre"),
                "{name}: {shown}"
            );
        }
    }
}
