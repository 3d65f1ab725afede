//! The slips put into the fourteen deliveries on purpose: each is flagged on its line, its package or its delivery, mostly with
//! the right cause, and no honest line is accused (`fixtures/deliveries/expected.csv` holds the truth).

use crate::deliveries::{Expected, audited, expected, holds};
use crate::helper::causes_named;
use dockheft::compare::Verdict;
use dockheft::judge::Finding;

/// Slips that weight and size alone do not show: file, row, reason.
const UNSEEN: [(&str, u32, &str); 2] = [
    (
        "s09_html_named_xls.xls",
        11,
        "the list says of no goods what they are made of",
    ),
    (
        "s14_bill_of_lading_lines.csv",
        10,
        "a cable's length without its section or weight a metre says nothing of its mass",
    ),
];

/// Findings that tell a wrong weight, or a wrong size, on a line or package that is not itself accused.
const TELLING: [&str; 4] = [
    "gross-below-net",
    "line-total-differs",
    "net-and-tare-differ",
    "volume-differs",
];

/// The cause kind that a seeded slip stands for; none where nothing was written.
fn kind(seeded: &str) -> Option<&'static str> {
    Some(match seeded {
        "missing_weight" => return None,
        "kg_under_lb_heading" | "kg_under_lb_unit" => "kg-lb",
        "per_piece_as_total" | "per_package_as_total" => "piece-for-line",
        "per_metre_as_total" => "per-length",
        "decimal_slip_x10" => "decimal",
        "short_ton_as_lb" | "kg_under_tonne_heading" | "tonne_under_kg_heading" => "ton-scale",
        "inch_vs_mm" | "mm_under_cm_heading" => "size-unit",
        "hollow_as_solid" => "solid-for-hollow",
        "gross_net_swap" => "net-for-gross",
        "transposed_digits" => "digits",
        "wrong_material" => "material",
        other => panic!("a slip of the list that no kind stands for: {other}"),
    })
}

/// A goods row of the list with what the audit says of it.
struct Judged {
    row: Expected,
    number: u32,
    /// Of the line and its package.
    verdicts: Vec<Verdict>,
    findings: Vec<Finding>,
    /// A column of the delivery was found to be in another unit.
    contradicted: bool,
}

impl Judged {
    fn accused(&self) -> bool {
        let bad = |verdict: &Verdict| {
            matches!(
                verdict,
                Verdict::Light | Verdict::Heavy | Verdict::Impossible
            )
        };
        self.verdicts.iter().any(bad)
    }

    fn flagged(&self) -> bool {
        let told = |finding: &Finding| TELLING.contains(&finding.code);
        self.accused()
            || self.contradicted
            || self.verdicts.contains(&Verdict::Missing)
            || self.findings.iter().any(told)
    }

    fn unseen(&self) -> bool {
        UNSEEN
            .iter()
            .any(|(file, row, _)| self.row["file"] == *file && self.number == *row)
    }

    fn told(&self) -> String {
        let messages: Vec<&str> = self
            .findings
            .iter()
            .map(|finding| finding.message.as_str())
            .collect();
        format!(
            "{} row {} {} [{}] {:?}: {messages:?}",
            self.row["file"],
            self.number,
            self.row["description"],
            self.row["seeded_error"],
            self.verdicts
        )
    }
}

/// Every goods row and group row of the fourteen deliveries.
fn judged() -> Vec<Judged> {
    let mut all = Vec::new();
    for (file, list) in expected() {
        let audit = audited(&file);
        let goods = |row: &Expected| matches!(row["kind"].as_str(), "item" | "group");
        for row in list.into_iter().filter(goods) {
            let number = row["row"].parse().expect("a row number");
            let delivery = audit
                .deliveries
                .iter()
                .find(|delivery| *delivery.reading.place.sheet == *row["sheet"])
                .expect("its sheet is read");
            let line = delivery
                .lines
                .iter()
                .find(|line| line.item.place.row == number);
            // A package's slip is its group row's; its lines only share it.
            let package = delivery
                .packages
                .iter()
                .find(|package| row["kind"] == "group" && holds(package, number));
            let (line_findings, package_findings) = (
                line.map(|line| line.findings.clone()),
                package.map(|package| package.findings.clone()),
            );
            all.push(Judged {
                number,
                verdicts: line
                    .map(|line| line.verdict)
                    .into_iter()
                    .chain(package.map(|package| package.verdict))
                    .collect(),
                findings: [line_findings, package_findings]
                    .into_iter()
                    .flatten()
                    .flatten()
                    .collect(),
                contradicted: !delivery.settled.contradicted.is_empty(),
                row,
            });
        }
    }
    all
}

#[test]
fn every_seeded_slip_is_flagged_and_most_have_their_cause() {
    let all = judged();
    let seeded: Vec<&Judged> = all
        .iter()
        .filter(|one| !one.row["seeded_error"].is_empty())
        .collect();
    assert!(seeded.len() >= 40, "{} slips", seeded.len());
    let (unseen, seen): (Vec<&Judged>, Vec<&Judged>) =
        seeded.into_iter().partition(|one| one.unseen());
    assert_eq!(unseen.len(), UNSEEN.len());
    for one in unseen {
        // Not seen, and not called right either: nothing could check it.
        assert_eq!(one.verdicts, [Verdict::Unverifiable], "{}", one.told());
    }
    let missed: Vec<String> = seen
        .iter()
        .filter(|one| !one.flagged())
        .map(|one| one.told())
        .collect();
    assert!(missed.is_empty(), "not flagged:\n{}", missed.join("\n"));

    let with_cause: Vec<(&Judged, &str)> = seen
        .iter()
        .filter_map(|one| Some((*one, kind(&one.row["seeded_error"])?)))
        .collect();
    let (right, wrong): (Vec<_>, Vec<_>) = with_cause
        .iter()
        .partition(|(one, kind)| causes_named(&one.findings).contains(kind));
    println!(
        "{} slips, {} of {} that are no missing weight with their cause among the two named",
        seen.len(),
        right.len(),
        with_cause.len()
    );
    for (one, kind) in &wrong {
        println!("  without {kind}: {}", one.told());
    }
    assert!(right.len() * 100 >= with_cause.len() * 80);
}

#[test]
fn no_honest_line_of_the_fourteen_is_accused() {
    let all = judged();
    let honest: Vec<&Judged> = all
        .iter()
        .filter(|one| one.row["seeded_error"].is_empty())
        .collect();
    assert!(honest.len() > 100, "{} honest rows", honest.len());
    let accused: Vec<String> = honest
        .iter()
        .filter(|one| one.accused())
        .map(|one| one.told())
        .collect();
    assert!(accused.is_empty(), "{}", accused.join("\n"));
}
