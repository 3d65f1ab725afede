//! Lifts, planning weights and trucks of whole lines (method, sections 4 and 5).

mod packages;
mod trucks;

use super::*;
use crate::audit::{self, Audit, Line, Request};
use crate::read;
use crate::site::{Site, Units};
use chrono::NaiveDate;

/// Audits a csv delivery against a csv register.
fn run(delivery: &str, register: &str, site: Site) -> Audit {
    let raw = read::bytes("fleet.csv", register.as_bytes()).expect("register");
    let fleet = crate::fleet::register::understand(&raw.sheets, site.units);
    assert!(fleet.faults.is_empty(), "{:?}", fleet.faults);
    audit::run(Request {
        files: vec![read::bytes("delivery.csv", delivery.as_bytes()).expect("delivery")],
        refused: Vec::new(),
        fleet: Some(fleet),
        site,
        date: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a date"),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

fn lines(audit: &Audit) -> &[Line] {
    &audit.deliveries[0].lines
}

const REGISTER: &str =
    "Truck,Class,Capacity (lb),Load centre (in),Fork length (in),Inspection due,Available
A,V,3000,24,72,2030-01-01,yes
B,V,6000,24,72,2030-01-01,yes
C,V,10000,24,96,2030-01-01,yes
";

fn us() -> Site {
    Site {
        units: Units::Us,
        ..Site::default()
    }
}

#[test]
fn one_piece_taken_for_want_of_a_number_is_not_stated() {
    let delivery = "Description,Qty,Length ft,Dia in,Material,Line weight lb\n\
                    Round bar,?,12,2,A36,128\nRound bar,1,12,2,A36,128\n";
    let audit = run(delivery, REGISTER, us());
    let from: Vec<LiftFrom> = lines(&audit)
        .iter()
        .map(|line| line.plan.lift_from)
        .collect();
    assert_eq!(from, [LiftFrom::Assumed, LiftFrom::Stated]);
}

#[test]
fn a_bundle_is_never_planned_as_its_pieces() {
    // Forty round bars of 2 in x 12 ft weigh 128 lb each, 5,130 lb together (AISC: 10.68 lb/ft).
    let delivery =
        "Description,Qty,Length ft,Dia in,Material,Line weight lb\nRound bar,40,12,2,A36,5130\n";
    let audit = run(delivery, REGISTER, us());
    let plan = &lines(&audit)[0].plan;
    assert_eq!(
        (plan.lifts, plan.lift_of, plan.lift_from),
        (1, LiftOf::Line, LiftFrom::Assumed)
    );
    assert_eq!(
        plan.truck.as_ref().map(|truck| truck.id.as_str()),
        Some("B")
    );
    assert!(
        plan.most_pieces
            .is_some_and(|most| (40..=47).contains(&most)),
        "{:?}",
        plan.most_pieces
    );
}

#[test]
fn a_line_too_heavy_for_every_truck_is_divided_and_held() {
    let delivery =
        "Description,Qty,Length ft,Dia in,Material,Line weight lb\nRound bar,100,12,2,A36,12820\n";
    let audit = run(delivery, REGISTER, us());
    let line = &lines(&audit)[0];
    assert!(
        line.plan.divided && line.plan.held == [Hold::Divided],
        "{:?}",
        line.plan
    );
    assert_eq!((line.plan.lifts, line.plan.lift_of), (2, LiftOf::Line));
    assert!(
        line.plan
            .lift
            .is_some_and(|lift| lift.lb() >= 12_820.0 / 2.0)
    );
    assert!(
        line.findings
            .iter()
            .any(|finding| finding.code == "lift-divided")
    );
}

#[test]
fn packages_that_are_counted_are_the_lifts() {
    let delivery = "Description,Pallets,Qty,Total gross weight lb\nMixed fittings,3,300,6000\n";
    let audit = run(delivery, REGISTER, us());
    let plan = &lines(&audit)[0].plan;
    assert_eq!(
        (plan.lifts, plan.lift_of, plan.lift_from),
        (3, LiftOf::Package, LiftFrom::Stated)
    );
    assert!(
        plan.lift
            .is_some_and(|lift| (lift.lb() - 2_000.0).abs() < 1e-6)
    );
}

#[test]
fn concrete_comes_piece_by_piece() {
    let delivery = "Description,Qty,Length in,Width in,Height in,Line weight lb\nConcrete block,4,48,24,24,9600\n";
    let audit = run(delivery, REGISTER, us());
    let plan = &lines(&audit)[0].plan;
    assert_eq!((plan.lifts, plan.lift_of), (4, LiftOf::Piece));
    // Cast goods take the longer side: 48 in, load centre 24 in.
    assert!((plan.load_centre.inches() - 24.0).abs() < 1e-9);
}

#[test]
fn pipes_of_concrete_come_piece_by_piece() {
    // Vitrified clay and concrete are no metal or plastic pipe; fibre cement sheets lie in a stack, as other sheets do.
    let delivery = "Description,Qty,Length (mm),OD (mm),ID (mm),Width (mm),Thickness (mm)\n\
                    RC pipe,3,2500,600,450,,\nVitrified clay pipe,3,2500,300,250,,\n\
                    Steel pipe,3,2500,600,550,,\nPVC pipe,3,2500,600,450,,\n\
                    Fibre cement sheet,10,2500,,,1200,10\n";
    let audit = run(delivery, REGISTER, Site::default());
    let planned: Vec<(LiftOf, f64)> = lines(&audit)
        .iter()
        .map(|line| (line.plan.lift_of, line.plan.depth.mm().round()))
        .collect();
    assert_eq!(
        planned,
        [
            (LiftOf::Piece, 2_500.0),
            (LiftOf::Piece, 2_500.0),
            (LiftOf::Line, 1_200.0),
            (LiftOf::Line, 1_200.0),
            (LiftOf::Line, 1_200.0),
        ]
    );
}

#[test]
fn a_consistent_weight_is_planned_at_the_likely_one_if_that_is_larger() {
    // Case 9 of the reference: a plate stack 96 x 48 x 4 in, declared 4,750 lb, likely 5,227 lb (0.2836 lb/in3).
    let delivery = "Description,Qty,Length in,Width in,Thickness in,Material,Line weight lb\nSteel plate stack,1,96.0,48.0,4.00,A36,4750\n";
    let register = "Truck,Class,Capacity (lb),Load centre (in),Axle distance (in),Fork length (in),Inspection due,Available
T2,V,5000,24,16,42,2030-01-01,yes
T3,V,6000,24,,48,2030-01-01,yes
";
    let audit = run(delivery, register, us());
    let line = &lines(&audit)[0];
    assert_eq!(line.verdict, crate::compare::Verdict::Consistent);
    assert!(
        line.plan
            .line
            .is_some_and(|mass| (mass.lb() - 5_226.5).abs() < 1.5),
        "{:?}",
        line.plan.line.map(Mass::lb)
    );
    assert_eq!(line.plan.from, PlannedFrom::Larger);
    assert_eq!(
        line.plan.truck.as_ref().map(|truck| truck.id.as_str()),
        Some("T3")
    );
}

#[test]
fn an_unknown_weight_gets_no_truck() {
    let delivery = "Description,Qty,Line weight lb\nSpares,1,TBA\n";
    let audit = run(delivery, REGISTER, us());
    let line = &lines(&audit)[0];
    assert!(line.plan.truck.is_none() && line.plan.lift.is_none());
    assert!(
        line.findings
            .iter()
            .any(|finding| finding.code == "no-planning-weight")
    );
}

#[test]
fn a_missing_weight_is_planned_with_its_margin() {
    let delivery = "Description,Qty,Length in,Width in,Thickness in,Material,Line weight lb\nSteel plate,1,96.0,48.0,1.00,A36,TBA\n";
    let audit = run(delivery, REGISTER, us());
    let line = &lines(&audit)[0];
    let likely = line.estimate.as_ref().expect("an estimate").line.likely;
    assert!(
        line.plan
            .line
            .is_some_and(|mass| mass.kg() >= likely.kg() * 1.1 - 1e-9)
    );
    assert_eq!(line.plan.from, PlannedFrom::Estimate);
}

#[test]
fn a_missing_weight_of_unknown_form_is_planned_as_a_solid_box() {
    // Method, sections 1 and 4: the high of an outline is the solid box, 1 m x 0.5 m x 0.5 m x 7,850 kg/m3.
    let delivery = "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\n\
                    Machine,1,1000,500,500,TBA\n";
    let audit = run(delivery, REGISTER, Site::default());
    let plan = &lines(&audit)[0].plan;
    assert_eq!(plan.from, PlannedFrom::Estimate);
    assert!(
        plan.line.is_some_and(|mass| mass.kg() >= 1_962.5),
        "{:?}",
        plan.line
    );
}

#[test]
fn a_light_line_whose_truck_would_tip_is_a_stop() {
    // 4,700 lb of plate declared as 1,900 lb: truck A (3,000 lb) would have been sent.
    let delivery = "Description,Qty,Length in,Width in,Thickness in,Material,Line weight lb\nSteel plate,1,96.0,48.0,3.60,A36,1900\n";
    let audit = run(delivery, REGISTER, us());
    let line = &lines(&audit)[0];
    assert_eq!(
        line.plan
            .declared_truck
            .as_ref()
            .map(|(truck, _)| truck.as_str()),
        Some("A")
    );
    assert!(
        line.findings
            .iter()
            .any(|finding| finding.code == "truck-overloaded"
                && finding.severity == crate::judge::Severity::Stop)
    );
    assert_eq!(
        line.plan.truck.as_ref().map(|truck| truck.id.as_str()),
        Some("B")
    );
}

#[test]
fn two_trucks_under_one_load_are_never_proposed() {
    // Case 12 of the reference: 8,400 lb, the strongest lifts 6,000 lb.
    let register = "Truck,Class,Capacity (lb),Load centre (in),Inspection due,Available\nT2,V,5000,24,2030-01-01,yes\nT3,V,6000,24,2030-01-01,yes\n";
    let delivery = "Description,Qty,Length in,Width in,Height in,Gross weight lb\nConcrete block,1,48,48,42,8400\n";
    let audit = run(delivery, register, us());
    let plan = &lines(&audit)[0].plan;
    assert!(plan.truck.is_none());
    assert!(
        plan.truck_without
            .as_ref()
            .is_some_and(|why| why.contains("heavier lifting gear, planned by a competent person")),
        "{:?}",
        plan.truck_without
    );
}
