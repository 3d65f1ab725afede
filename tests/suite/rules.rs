//! The rules as a whole: each is tested in four ways, none floods, and a site switches off only what no lift depends on.

use crate::helper::{audit, codes, dockheft, lines, records, said, si, status};
use calamine::{Reader, Xlsx, open_workbook};
use dockheft::judge::{RULES, Severity};
use dockheft::report::loads::{Standing, View};
use std::fs;
use std::path::Path;

/// What the tests of a rule show, by how their names begin: that it fires, that it is silent, where the boundary between the
/// two lies, and what it says of a value that is missing.
const ROLES: [&str; 4] = ["fires_", "silent_", "boundary_", "missing_"];

#[test]
fn each_rule_has_its_four_tests() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/judge/rules");
    let mut faults = Vec::new();
    for entry in fs::read_dir(folder).expect("the rules") {
        let path = entry.expect("a rule").path();
        let text = fs::read_to_string(&path).expect("UTF-8");
        for role in ROLES {
            if !text.contains(&format!("#[test]\n    fn {role}")) {
                faults.push(format!("{}: no test {role}...", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

const FLEET: &str = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Available,Inspection due\n\
                     YARD-5,V,5000,600,4000,yes,2027-06-01\n";

/// 400 plates whose weights are kilograms (geometry x 7,850 kg/m3) under a heading that says pounds.
#[test]
fn a_column_in_the_wrong_unit_is_one_question() {
    let mut list = "Item,Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Total gross weight (lb)\n".to_string();
    for at in 0..400 {
        let length = 1_000 + at;
        let weight = f64::from(length) / 1_000.0 * 0.01 * 7_850.0;
        list.push_str(&format!(
            "A-{at},Steel plate,S235,1,{length},1000,10,{weight:.1}\n"
        ));
    }
    let audit = audit(&list, Some(FLEET), si());
    let delivery = &audit.deliveries[0];
    let whole: Vec<(&str, Severity)> = delivery
        .findings
        .iter()
        .map(|finding| (finding.code, finding.severity))
        .collect();
    assert_eq!(whole, [("column-contradicted", Severity::Stop)]);
    assert_eq!(delivery.lines.len(), 400);
    let view = View::new(delivery);
    for load in view.loads() {
        let said: Vec<(&str, Severity)> = load
            .findings()
            .iter()
            .map(|finding| (finding.code, finding.severity))
            .collect();
        assert_eq!(said, [("see-delivery", Severity::Note)]);
        assert_eq!(view.standing(load), Standing::Held);
    }
}

/// No kind of finding says the same of a whole delivery more than once.
#[test]
fn what_is_said_of_a_delivery_is_said_once() {
    let mut list = "Line no,Item,Description,Qty,Total net weight (kg)\n".to_string();
    for at in 0..300 {
        // Ten items at thirty weights, lines that stand twice, and weights copied down.
        let (item, weight) = (at / 2 % 10, 101 + at / 20 * 7);
        list.push_str(&format!("{},B-{item},Casting {item},1,{weight}\n", at / 2));
    }
    let mut site = si();
    site.country = Some("GB".to_string());
    let audit = audit(&list, Some(FLEET), site);
    let mut said: Vec<&str> = audit.deliveries[0]
        .findings
        .iter()
        .map(|finding| finding.code)
        .collect();
    said.sort_unstable();
    assert_eq!(
        said,
        [
            "duplicate-line",
            "over-road-limit",
            "piece-weights-differ",
            "weights-copied-down"
        ]
    );
}

const LIST: &str = "Description,Qty,Length (mm),Width (mm),Height (mm),Volume (m3),Gross weight (kg)\n\
                    Spare parts,1,1000,1000,1000,3.2,200\n";

/// A folder with the list and a site file that holds `site`.
fn yard(site: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("list.csv"), LIST).expect("written");
    fs::write(folder.path().join("site.toml"), site).expect("written");
    folder
}

#[test]
fn what_may_not_be_switched_off_is_refused_in_plain_words() {
    for (text, expected) in [
        ("volume-difers = \"x\"", "the nearest is \"volume-differs\""),
        ("declared-light = \"too many\"", "protects people"),
        ("no-truck = \"too many\"", "protects people"),
        ("volume-differs = \"\"", "no reason is given"),
    ] {
        let folder = yard(&format!("[rules_off]\n{text}\n"));
        for command in [
            &["audit", "list.csv"][..],
            &["understand", "list.csv"],
            &["weigh", "steel plate 1000 x 500 x 10 mm"],
        ] {
            let output = dockheft(folder.path(), command);
            assert_eq!(status(&output), 3, "{text} {command:?}");
            assert!(said(&output).contains(expected), "{}", said(&output));
        }
    }
}

#[test]
fn what_is_switched_off_or_matches_nothing_stands_on_basis() {
    let folder = yard(
        "[rules_off]\nvolume-differs = \"we count pallets\"\ntotal-differs = \"sums are typed\"\n\
         [tolerance_by_group]\nwood = 0.15\n[supplier.\"Bramble Steelworks\".columns]\n\"Wt\" = { unit = \"kg\" }\n",
    );
    let output = dockheft(
        folder.path(),
        &["audit", "list.csv", "--lines", "lines", "--out", "out.xlsx"],
    );
    assert!(status(&output) <= 1, "{}", said(&output));
    let mut book: Xlsx<_> = open_workbook(folder.path().join("out.xlsx")).expect("a workbook");
    let basis = book.worksheet_range("Basis").expect("the sheet");
    let rows: Vec<String> = basis
        .rows()
        .map(|row| format!("{} | {} | {} | {}", row[1], row[2], row[3], row[4]))
        .collect();
    for expected in [
        "finding switched off | volume-differs | we count pallets | left out of this call: 1 finding",
        "finding switched off | total-differs | sums are typed | left out of this call: 0 findings",
        "setting that matched nothing | rules_off.total-differs |  | it would have found nothing in this call",
        "setting that matched nothing | tolerance_by_group.wood |  | no line of this call is of that group",
        "setting that matched nothing | supplier.Bramble Steelworks |  | no list of this call was read with that layout",
    ] {
        assert!(
            rows.iter().any(|row| row == expected),
            "{expected}\n{}",
            rows.join("\n")
        );
    }
    let unmatched = rows
        .iter()
        .filter(|row| row.starts_with("setting that matched"));
    assert_eq!(unmatched.count(), 3);
    // The records say it too: on the delivery, and no longer on the line.
    let text = fs::read_to_string(folder.path().join("lines")).expect("records");
    assert!(
        text.contains("rule-off") && text.contains("we count pallets"),
        "{text}"
    );
    let read = crate::helper::parsed(text.as_bytes());
    assert!(
        lines(read)
            .iter()
            .all(|line| !codes(line).contains(&"volume-differs"))
    );
}

/// A site's own prior decides between two causes that fit alike.
#[test]
fn a_sites_priors_go_before_the_tables() {
    // UB 203x133x25 (EN 10365), ten of 6 m are 1,506 kg: 150.6 kg is one piece, or a decimal point.
    let list = "Description,Qty,Length (mm),Total gross weight (kg)\nUB 203x133x25,10,6000,150.6\n";
    let best = |priors: &[(&str, f64)]| {
        let mut site = si();
        site.priors = priors
            .iter()
            .map(|(kind, prior)| (kind.to_string(), *prior))
            .collect();
        let line = lines(records(&audit(list, None, site))).remove(0);
        let findings = line["findings"].as_array().expect("findings").clone();
        let cause = findings
            .iter()
            .find_map(|found| found["cause"]["kind"].as_str());
        cause.expect("a cause").to_string()
    };
    assert_eq!(best(&[]), "piece-for-line");
    assert_eq!(best(&[("decimal", 0.5)]), "decimal");
}

#[test]
fn every_code_that_may_be_switched_off_never_stops() {
    let may: Vec<&str> = RULES
        .iter()
        .filter(|rule| rule.may_be_off())
        .map(|rule| rule.code())
        .collect();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/judge/rules");
    assert!(may.len() > 5, "{may:?}");
    for code in may {
        let file = folder.join(format!("{}.rs", code.replace('-', "_")));
        let text = fs::read_to_string(file).expect("its file");
        let code = text.split("#[cfg(test)]").next().expect("the rule");
        assert!(!code.contains("Severity::Stop"), "{code}");
    }
}
