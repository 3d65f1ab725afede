//! The records of the contract: `dockheft.delivery/1`, `dockheft.package/1`, `dockheft.line/1`.
//! Weights are kilograms, lengths metres, whatever the user sees. Key order is the contract's.

use super::loads::{self, Load};
use crate::audit::{Audit, Delivery, Line, Package};
use crate::compare::{self, Verdict};
use crate::estimate::{Estimate, Evidence, NoEstimate};
use crate::judge::Finding;
use crate::plan::{LiftFrom, LiftOf, LoadCentreFrom, Plan, PlannedFrom};
use crate::settle::Declared;
use crate::understand::{Basis, How, Size1, SizeOf, Sizes, WeightKind, Why};
use crate::units::{Length, Mass};
use chrono::NaiveDate;
use serde::Serialize;

/// The JSON Schemas (2020-12) of the records: name and text.
pub const SCHEMAS: [(&str, &str); 3] = [
    ("dockheft.delivery/1", include_str!("schema/delivery.json")),
    ("dockheft.package/1", include_str!("schema/package.json")),
    ("dockheft.line/1", include_str!("schema/line.json")),
];

/// One record.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum Record<'a> {
    /// A delivery; stands before its packages and lines.
    Delivery(Box<DeliveryRecord<'a>>),
    /// A weight that stands for several lines.
    Package(Box<PackageRecord<'a>>),
    /// A goods line.
    Line(Box<LineRecord<'a>>),
}

/// `dockheft.delivery/1`.
#[derive(Debug, Serialize)]
pub struct DeliveryRecord<'a> {
    schema: &'static str,
    file: &'a str,
    sheet: &'a str,
    delivery: &'a str,
    supplier: Option<&'a str>,
    received: Option<NaiveDate>,
    /// Named by a later version; always null today.
    replaces: Option<&'a str>,
    lines: usize,
    skipped: Vec<SkippedRow>,
    reading: Vec<Reading<'a>>,
    findings: &'a [Finding],
}

#[derive(Debug, Serialize)]
struct SkippedRow {
    row: u32,
    why: Why,
}

#[derive(Debug, Serialize)]
struct Reading<'a> {
    column: String,
    heading: &'a str,
    field: &'a str,
    unit: Option<&'a str>,
    how: How,
}

/// `dockheft.package/1`.
#[derive(Debug, Serialize)]
pub struct PackageRecord<'a> {
    schema: &'static str,
    package: &'a str,
    file: &'a str,
    sheet: &'a str,
    row: u32,
    rows: &'a [u32],
    declared: Option<DeclaredWeight<'a>>,
    tare: Option<Mass>,
    estimate: Option<Expected<'a>>,
    verdict: Verdict,
    findings: &'a [Finding],
    planning: Planning,
    load_centre_m: Length,
    truck: Option<Truck<'a>>,
    declared_truck: Option<DeclaredTruck<'a>>,
}

/// `dockheft.line/1`.
#[derive(Debug, Serialize)]
pub struct LineRecord<'a> {
    schema: &'static str,
    audit: &'a str,
    line: &'a str,
    file: &'a str,
    sheet: &'a str,
    row: u32,
    delivery: &'a str,
    vehicle: Option<&'a str>,
    item: Option<&'a str>,
    description: &'a str,
    goods: Option<&'a str>,
    supplier: Option<&'a str>,
    supplier_from: &'a str,
    order: Option<&'a str>,
    pieces: u32,
    lifts: u32,
    lift_of: LiftOf,
    lift_from: LiftFrom,
    package: Option<&'a str>,
    declared: Option<DeclaredWeight<'a>>,
    size: Size,
    size_of: SizeOf,
    estimate: Option<Expected<'a>>,
    verdict: Verdict,
    findings: &'a [Finding],
    planning: Planning,
    load_centre_m: Length,
    load_centre_from: LoadCentreFrom,
    truck: Option<Truck<'a>>,
    truck_without: Option<&'a str>,
    declared_truck: Option<DeclaredTruck<'a>>,
    if_corrected: Option<IfCorrected<'a>>,
}

#[derive(Debug, Serialize)]
struct DeclaredWeight<'a> {
    kg: Mass,
    of: &'static str,
    kind: WeightKind,
    how: How,
    text: &'a str,
}

#[derive(Debug, Default, Serialize)]
struct Size {
    #[serde(skip_serializing_if = "Option::is_none")]
    length_m: Option<Length>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width_m: Option<Length>,
    #[serde(skip_serializing_if = "Option::is_none")]
    height_m: Option<Length>,
    #[serde(skip_serializing_if = "Option::is_none")]
    outside_m: Option<Length>,
    #[serde(skip_serializing_if = "Option::is_none")]
    inside_m: Option<Length>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wall_m: Option<Length>,
}

#[derive(Debug, Serialize)]
struct Expected<'a> {
    evidence: Evidence,
    shape: Option<&'a str>,
    material: Option<&'a str>,
    piece_kg: Mass,
    low_kg: Mass,
    likely_kg: Mass,
    /// Likely weight of the kind that is declared: with packaging where that is gross.
    expected_kg: Option<Mass>,
    high_kg: Mass,
    working: &'a str,
}

#[derive(Debug, Serialize)]
struct Planning {
    line_kg: Option<Mass>,
    lift_kg: Option<Mass>,
    from: PlannedFrom,
}

#[derive(Debug, Serialize)]
struct Truck<'a> {
    id: &'a str,
    capacity_kg: Mass,
    calculated: bool,
    used: f64,
}

/// The truck that the declared weight alone would have picked, and by how much the planning weight goes above what it may take:
/// before any decision, or looking again at what was weighed would make little of what its list would have done.
#[derive(Debug, Serialize)]
struct DeclaredTruck<'a> {
    id: &'a str,
    over_kg: Mass,
}

#[derive(Debug, Serialize)]
struct IfCorrected<'a> {
    kg: Mass,
    truck: Option<&'a str>,
}

/// All records of an audit: each delivery, then its packages and lines in row order.
pub fn records(audit: &Audit) -> impl Iterator<Item = Record<'_>> {
    audit.deliveries.iter().flat_map(move |delivery| {
        let body = loads::of(delivery).map(move |load| of_load(audit, delivery, load));
        std::iter::once(of_delivery(delivery)).chain(body)
    })
}

/// The record of a delivery.
pub fn of_delivery(delivery: &Delivery) -> Record<'_> {
    Record::Delivery(Box::new(delivery_record(delivery)))
}

/// The record of a line or package of a delivery.
pub fn of_load<'a>(audit: &'a Audit, delivery: &'a Delivery, load: Load<'a>) -> Record<'a> {
    match load {
        Load::Package(_, package) => {
            let package = package_record(package, load.undecided_plan());
            Record::Package(Box::new(package))
        }
        Load::Line(line) => Record::Line(Box::new(line_record(audit, delivery, line))),
    }
}

fn delivery_record(delivery: &Delivery) -> DeliveryRecord<'_> {
    let reading = &delivery.reading;
    DeliveryRecord {
        schema: "dockheft.delivery/1",
        file: &reading.place.file,
        sheet: &reading.place.sheet,
        delivery: &reading.delivery,
        supplier: reading.supplier.as_deref(),
        received: reading.received,
        replaces: None,
        lines: delivery.lines.len(),
        skipped: reading
            .skipped
            .iter()
            .map(|skipped| SkippedRow {
                row: skipped.row,
                why: skipped.why,
            })
            .collect(),
        reading: reading
            .columns
            .iter()
            .map(|column| Reading {
                column: crate::place::column_letters(column.column),
                heading: &column.heading,
                field: &column.field,
                unit: column.unit.as_deref(),
                how: column.how,
            })
            .collect(),
        findings: &delivery.findings,
    }
}

fn package_record<'a>(package: &'a Package, undecided: &'a Plan) -> PackageRecord<'a> {
    let shared = &package.shared;
    PackageRecord {
        schema: "dockheft.package/1",
        package: &shared.name,
        file: &shared.place.file,
        sheet: &shared.place.sheet,
        row: shared.place.row,
        rows: &shared.rows,
        declared: package.declared.as_ref().map(declared),
        tare: shared.tare,
        estimate: expected(&package.estimate, package.declared.as_ref()),
        verdict: package.verdict,
        findings: &package.findings,
        planning: planning(&package.plan),
        load_centre_m: package.plan.load_centre,
        truck: truck(&package.plan),
        declared_truck: declared_truck(undecided),
    }
}

fn line_record<'a>(audit: &'a Audit, delivery: &'a Delivery, line: &'a Line) -> LineRecord<'a> {
    let (item, reading) = (&line.item, &delivery.reading);
    let (size, size_of) =
        if item.sizes == Sizes::default() && item.package_sizes != Sizes::default() {
            (size(&item.package_sizes), SizeOf::Package)
        } else {
            (size(&item.sizes), SizeOf::Piece)
        };
    LineRecord {
        schema: "dockheft.line/1",
        audit: &audit.id,
        line: &line.id,
        file: &item.place.file,
        sheet: &item.place.sheet,
        row: item.place.row,
        delivery: &reading.delivery,
        vehicle: item.vehicle.as_deref().or(reading.vehicle.as_deref()),
        item: item.item.as_deref(),
        description: &item.description,
        goods: match &line.estimate {
            Ok(estimate) => estimate.goods,
            Err(none) => none.goods,
        },
        supplier: item.supplier.as_deref().or(reading.supplier.as_deref()),
        supplier_from: if item.supplier.is_some() {
            "cell"
        } else {
            reading.supplier_from
        },
        order: item.order.as_deref().or(reading.order.as_deref()),
        pieces: item.pieces,
        lifts: line.plan.lifts,
        lift_of: line.plan.lift_of,
        lift_from: line.plan.lift_from,
        package: item
            .shared_with
            .and_then(|at| delivery.packages.get(at))
            .map(|package| package.shared.name.as_str()),
        declared: line.declared.as_ref().map(declared),
        size,
        size_of,
        estimate: expected(&line.estimate, line.declared.as_ref()),
        verdict: line.verdict,
        findings: &line.findings,
        planning: planning(&line.plan),
        load_centre_m: line.plan.load_centre,
        load_centre_from: line.plan.load_centre_from,
        truck: truck(&line.plan),
        truck_without: line.plan.truck_without.as_deref(),
        declared_truck: declared_truck(Load::Line(line).undecided_plan()),
        if_corrected: line.if_corrected.as_ref().map(|(kg, truck)| IfCorrected {
            kg: *kg,
            truck: truck.as_deref(),
        }),
    }
}

fn declared(declared: &Declared) -> DeclaredWeight<'_> {
    DeclaredWeight {
        kg: declared.mass,
        // The contract knows two: what is not of the line is of one of its pieces or packages.
        of: if declared.of == Basis::Line {
            "line"
        } else {
            "piece"
        },
        kind: declared.kind,
        how: declared.how,
        text: &declared.text,
    }
}

fn size(sizes: &Sizes) -> Size {
    let length = |size: Option<Size1>| size.map(|size| size.length);
    Size {
        length_m: length(sizes.length),
        width_m: length(sizes.width),
        height_m: length(sizes.height),
        outside_m: length(sizes.outside),
        inside_m: length(sizes.inside),
        wall_m: length(sizes.wall),
    }
}

fn expected<'a>(
    estimate: &'a Result<Estimate, NoEstimate>,
    declared: Option<&Declared>,
) -> Option<Expected<'a>> {
    let estimate = estimate.as_ref().ok()?;
    Some(Expected {
        evidence: estimate.evidence,
        shape: estimate.shape,
        material: estimate.material.map(|material| material.name),
        piece_kg: estimate.piece.likely,
        low_kg: estimate.line.low,
        likely_kg: estimate.line.likely,
        expected_kg: declared.map(|declared| compare::expected(estimate, declared.kind).likely),
        high_kg: estimate.line.high,
        working: &estimate.working,
    })
}

fn planning(plan: &Plan) -> Planning {
    Planning {
        line_kg: plan.line,
        lift_kg: plan.lift,
        from: plan.from,
    }
}

fn truck(plan: &Plan) -> Option<Truck<'_>> {
    plan.truck.as_ref().map(|truck| Truck {
        id: &truck.id,
        capacity_kg: truck.capacity.mass,
        calculated: truck.capacity.calculated,
        used: truck.used,
    })
}

fn declared_truck(plan: &Plan) -> Option<DeclaredTruck<'_>> {
    let (id, over) = plan.declared_truck.as_ref()?;
    Some(DeclaredTruck { id, over_kg: *over })
}
