//! The fleet register as records: `dockheft.register/1`, then `dockheft.truck/1` for each truck.
//! Weights are kilograms, lengths metres, whatever the user sees.

use crate::fleet::{CALCULATED, Class, Fault, Fleet, PlatePoint, Truck, curve, today};
use crate::site::Site;
use crate::units::{Length, Mass};
use chrono::NaiveDate;
use serde::Serialize;
use std::io::{self, Write};

/// The JSON Schemas (2020-12) of these records: name and text.
pub const SCHEMAS: [(&str, &str); 2] = [
    ("dockheft.register/1", include_str!("schema/register.json")),
    ("dockheft.truck/1", include_str!("schema/truck.json")),
];

#[derive(Serialize)]
struct RegisterRecord<'a> {
    schema: &'static str,
    file: &'a str,
    date: NaiveDate,
    trucks: usize,
    ready: usize,
    headings: Vec<HeadingRead<'a>>,
    faults: Vec<FaultRead<'a>>,
    notes: &'a [String],
}

#[derive(Serialize)]
struct HeadingRead<'a> {
    sheet: &'a str,
    cell: String,
    heading: &'a str,
    field: &'a str,
    unit: Option<&'a str>,
}

#[derive(Serialize)]
struct FaultRead<'a> {
    sheet: &'a str,
    cell: String,
    truck: Option<&'a str>,
    fault: &'a str,
    remedy: &'a str,
}

#[derive(Serialize)]
struct TruckRecord<'a> {
    schema: &'static str,
    truck: &'a str,
    class: Option<&'static str>,
    class_assumed: bool,
    faulty: bool,
    ready: bool,
    against: Vec<String>,
    fitted: Option<&'a str>,
    available: Option<bool>,
    out_until: Option<NaiveDate>,
    inspection_due: Option<NaiveDate>,
    fuel: Option<&'a str>,
    places: &'a [String],
    service_kg: Option<Mass>,
    fork_length_m: Option<Length>,
    vertical_mast: Option<bool>,
    axle_m: Option<Length>,
    lowered_height_m: Option<Length>,
    remark: Option<&'a str>,
    plate: Vec<PlateRow<'a>>,
    /// What the capacities below are lifted to.
    lift_height_m: Length,
    capacity: Vec<CapacityAt>,
    faults: Vec<FaultRead<'a>>,
}

#[derive(Serialize)]
struct PlateRow<'a> {
    sheet: &'a str,
    cell: String,
    capacity_kg: Mass,
    load_centre_m: Length,
    lift_height_m: Option<Length>,
    attachment: Option<&'a str>,
}

#[derive(Serialize)]
struct CapacityAt {
    load_centre_m: Length,
    capacity_kg: Mass,
    calculated: bool,
    /// Says so in words where it is calculated.
    mark: Option<&'static str>,
}

/// Writes the records, one a line.
///
/// # Errors
/// What the writer says.
pub fn write(fleet: &Fleet, date: NaiveDate, site: &Site, mut to: impl Write) -> io::Result<()> {
    serde_json::to_writer(&mut to, &register(fleet, date))?;
    to.write_all(b"\n")?;
    for one in &fleet.trucks {
        serde_json::to_writer(&mut to, &truck(fleet, one, date, site))?;
        to.write_all(b"\n")?;
    }
    to.flush()
}

fn register(fleet: &Fleet, date: NaiveDate) -> RegisterRecord<'_> {
    let ready = |truck: &&Truck| today::against(truck, date).is_empty();
    RegisterRecord {
        schema: "dockheft.register/1",
        file: &fleet.file,
        date,
        trucks: fleet.trucks.len(),
        ready: fleet.trucks.iter().filter(ready).count(),
        headings: fleet
            .headings
            .iter()
            .map(|heading| HeadingRead {
                sheet: &heading.place.sheet,
                cell: heading.place.cell(),
                heading: &heading.text,
                field: heading.field,
                unit: heading.unit,
            })
            .collect(),
        faults: fleet.faults.iter().map(fault).collect(),
        notes: &fleet.notes,
    }
}

fn truck<'a>(fleet: &'a Fleet, truck: &'a Truck, date: NaiveDate, site: &Site) -> TruckRecord<'a> {
    let against = today::against(truck, date);
    let capacity = curve::of(truck, site.lift_height_m, site).unwrap_or_default();
    let own = |fault: &&Fault| fault.truck.as_deref() == Some(&truck.id);
    TruckRecord {
        schema: "dockheft.truck/1",
        truck: &truck.id,
        class: truck.class.map(class),
        class_assumed: truck.class_assumed,
        faulty: truck.faulty,
        ready: against.is_empty(),
        against,
        fitted: truck.fitted.as_deref(),
        available: truck.available,
        out_until: truck.out_until,
        inspection_due: truck.inspection_due,
        fuel: truck.fuel.as_deref(),
        places: &truck.places,
        service_kg: truck.service,
        fork_length_m: truck.fork_length,
        vertical_mast: truck.vertical_mast,
        axle_m: truck.axle,
        lowered_height_m: truck.lowered_height,
        remark: truck.remark.as_deref(),
        plate: truck.points.iter().map(plate_row).collect(),
        lift_height_m: site.lift_height_m,
        capacity: capacity
            .into_iter()
            .map(|point| CapacityAt {
                load_centre_m: point.load_centre,
                capacity_kg: point.capacity.mass,
                calculated: point.capacity.calculated,
                mark: point.capacity.calculated.then_some(CALCULATED),
            })
            .collect(),
        faults: fleet.faults.iter().filter(own).map(fault).collect(),
    }
}

fn fault(fault: &Fault) -> FaultRead<'_> {
    FaultRead {
        sheet: &fault.place.sheet,
        cell: fault.place.cell(),
        truck: fault.truck.as_deref(),
        fault: &fault.found,
        remedy: &fault.remedy,
    }
}

fn plate_row(point: &PlatePoint) -> PlateRow<'_> {
    PlateRow {
        sheet: &point.place.sheet,
        cell: point.place.cell(),
        capacity_kg: point.capacity,
        load_centre_m: point.load_centre,
        lift_height_m: point.lift_height,
        attachment: point.attachment.as_deref(),
    }
}

fn class(class: Class) -> &'static str {
    match class {
        Class::I => "I",
        Class::II => "II",
        Class::III => "III",
        Class::IV => "IV",
        Class::V => "V",
        Class::VI => "VI",
        Class::VII => "VII",
    }
}
