//! From a text to a line's findings and the plan if its cause is confirmed.

use crate::audit::{Audit, Line, Request, run};
use crate::fleet::register;
use crate::judge::Severity;
use crate::read;
use crate::site::{Site, Units};
use chrono::NaiveDate;

const FLEET: &str = "Truck,Class,Capacity kg,Load centre mm,Lift height mm\nsmall,IV,1500,600,3000\nlarge,V,5000,600,3000\n";

fn audit(list: &str) -> Audit {
    let fleet = read::bytes("fleet.csv", FLEET.as_bytes()).expect("a register");
    let file = read::bytes("list.csv", list.as_bytes()).expect("a list");
    run(Request {
        files: vec![file],
        refused: Vec::new(),
        fleet: Some(register::understand(&fleet.sheets, Units::Si)),
        site: Site {
            units: Units::Si,
            ..Site::default()
        },
        date: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a date"),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

fn line(rows: &str) -> Line {
    let heading = "Item,Description,Material,Qty,Length mm,Width mm,Thickness mm,Net weight kg,Gross weight kg\n";
    let audit = audit(&format!("{heading}{rows}\n"));
    audit.deliveries[0].lines[0].clone()
}

#[test]
fn a_flagged_line_says_what_it_would_be() {
    // Geometry x 7,850 kg/m3 (EN 10365): eight plates of 3 x 1.5 m x 10 mm weigh 2,826 kg; one of them was declared.
    let line = line("A1,Base plate,steel,8,3000,1500,10,,353.25");
    let finding = line
        .findings
        .iter()
        .find(|finding| finding.code == "declared-light")
        .expect("flagged");
    let cause = finding.cause.as_ref().expect("a cause");
    assert_eq!(cause.kind, "piece-for-line");
    assert!((cause.would_be_kg - 2_826.0).abs() < 0.1, "{cause:?}");
    assert!(
        finding
            .message
            .contains("; the weight of one of 8 pieces would fit: ask whether the figure is the weight of one or of all"),
        "{}",
        finding.message
    );
    let (mass, truck) = line
        .if_corrected
        .as_ref()
        .expect("a plan if it is confirmed");
    assert!(
        mass.kg() >= 2_826.0 - 0.1 && truck.is_some(),
        "{mass:?} {truck:?}"
    );
    // The line's own plan and urgency stay as they were.
    assert!(
        line.plan
            .line
            .is_some_and(|planned| planned.kg() > mass.kg())
    );
    assert!(line.severity() >= Some(Severity::Check));
}

#[test]
fn a_line_that_fits_has_no_cause() {
    let line = line("A1,Base plate,steel,8,3000,1500,10,,2826");
    assert!(
        line.findings.iter().all(|finding| finding.cause.is_none()),
        "{:?}",
        line.findings
    );
    assert!(line.if_corrected.is_none());
}

#[test]
fn a_confirmed_plan_never_goes_below_the_estimate() {
    // Aluminium's weight (2,700 kg/m3, EN 1999-1-1: 972 kg) declared for the steel plates.
    let line = line("A1,Base plate,steel,8,3000,1500,10,,972");
    let cause = line
        .findings
        .iter()
        .find_map(|finding| finding.cause.as_ref())
        .expect("a cause");
    assert_eq!(cause.kind, "material");
    assert!(
        line.if_corrected
            .is_some_and(|(mass, _)| mass.kg() >= 2_820.0)
    );
}

#[test]
fn gross_below_net_is_a_question_of_which_is_which() {
    let line = line("A1,Base plate,steel,8,3000,1500,10,2840,2826");
    let finding = line
        .findings
        .iter()
        .find(|finding| finding.code == "gross-below-net")
        .expect("found");
    assert_eq!(
        finding.cause.as_ref().map(|cause| cause.kind),
        Some("net-for-gross")
    );
}

#[test]
fn drums_stand_between_net_and_gross() {
    // Four steel drums of 15 to 27 kg (packages table) on a pallet of 15 to 32 kg: 93 kg between net and gross.
    let heading = "Item,Description,Qty,Package,Packages,Net weight kg,Gross weight kg\n";
    let audit = audit(&format!(
        "{heading}A1,\"Hydraulic oil, 55 gal steel drum\",4,pallet,1,814,721\n"
    ));
    let finding = audit.deliveries[0].lines[0]
        .findings
        .iter()
        .find(|finding| finding.code == "gross-below-net");
    let cause = finding.expect("found").cause.as_ref();
    assert_eq!(cause.map(|cause| cause.kind), Some("net-for-gross"));
}
