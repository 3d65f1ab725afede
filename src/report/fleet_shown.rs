//! The fleet register in plain words: how it was read, its faults, each truck with its plate, what it lifts, what is out.
//! Comes in: the register, the day, the site. Goes out: text of at most 100 places a line. Decides nothing.

use super::plain_table::{labelled, table};
use super::words;
use crate::fleet::{CALCULATED, Fleet, Truck, curve, today};
use crate::place::Place;
use crate::site::{Site, Units};
use crate::units::{Length, Mass, show};
use chrono::NaiveDate;

/// Places on a line.
const WIDTH: usize = 100;

/// The register for a terminal.
pub fn text(fleet: &Fleet, date: NaiveDate, site: &Site) -> String {
    let site_name = match site.name.as_str() {
        "" => String::new(),
        name => format!("{name}, "),
    };
    let ready = fleet.trucks.iter().filter(|truck| is_ready(truck, date));
    let faulty = fleet.trucks.iter().filter(|truck| truck.faulty);
    let mut text = labelled(
        "",
        0,
        &format!(
            "{site_name}{date}, fleet register {}: {}, {} ready, {} with a fault",
            fleet.file,
            words::count(fleet.trucks.len(), "truck"),
            ready.count(),
            faulty.count()
        ),
        WIDTH,
    );
    headings(&mut text, fleet);
    faults(&mut text, fleet);
    trucks(&mut text, fleet, date, site.units);
    plates(&mut text, fleet, site.units);
    capacities(&mut text, fleet, site);
    out_today(&mut text, fleet, date);
    if !fleet.notes.is_empty() {
        text.push_str("\nNotes\n");
    }
    for note in &fleet.notes {
        text.push_str(&labelled("  -", 4, note, WIDTH));
    }
    text.push('\n');
    for caution in words::CAUTIONS {
        text.push_str(&format!("{caution}\n"));
    }
    text
}

/// Nothing speaks against it on the day.
fn is_ready(truck: &Truck, date: NaiveDate) -> bool {
    today::against(truck, date).is_empty()
}

/// A cell of the register, with its sheet where trucks stand on several.
fn cell(fleet: &Fleet, place: &Place) -> String {
    let first = fleet.headings.first().map(|heading| &heading.place.sheet);
    let several = fleet
        .headings
        .iter()
        .any(|heading| Some(&heading.place.sheet) != first);
    if several {
        format!("{}!{}", place.sheet, place.cell())
    } else {
        place.cell()
    }
}

fn headings(text: &mut String, fleet: &Fleet) {
    text.push_str("\nHeadings as understood\n");
    let rows: Vec<Vec<String>> = fleet
        .headings
        .iter()
        .map(|heading| {
            vec![
                cell(fleet, &heading.place),
                heading.text.clone(),
                heading.field.to_string(),
                heading.unit.unwrap_or_default().to_string(),
            ]
        })
        .collect();
    text.push_str(&table(
        &["cell", "heading", "read as", "unit"],
        &[10, 44, 26, 6],
        &rows,
    ));
}

fn faults(text: &mut String, fleet: &Fleet) {
    if fleet.faults.is_empty() {
        return;
    }
    text.push_str(&format!("\nFaults: {}\n", fleet.faults.len()));
    let rows: Vec<Vec<String>> = fleet
        .faults
        .iter()
        .map(|fault| {
            vec![
                cell(fleet, &fault.place),
                fault.truck.clone().unwrap_or_default(),
                fault.found.clone(),
                fault.remedy.clone(),
            ]
        })
        .collect();
    text.push_str(&table(
        &["cell", "truck", "what was found", "what to do"],
        &[8, 10, 37, 37],
        &rows,
    ));
}

fn trucks(text: &mut String, fleet: &Fleet, date: NaiveDate, units: Units) {
    text.push_str("\nTrucks\n");
    let size = |length: Option<Length>| {
        length.map_or(String::new(), |length| {
            show::figure(show::plate_length_value(length, units))
        })
    };
    let rows: Vec<Vec<String>> = fleet
        .trucks
        .iter()
        .map(|truck| {
            let against = today::against(truck, date);
            vec![
                truck.id.clone(),
                words::class(truck),
                if against.is_empty() {
                    "ready".to_string()
                } else {
                    format!("NO: {}", against.join("; "))
                },
                worn(truck).to_string(),
                truck.places.join(", "),
                truck.service.map_or(String::new(), |mass| {
                    show::figure(show::high_value(mass, units))
                }),
                size(truck.fork_length),
                size(truck.axle),
            ]
        })
        .collect();
    let (mass, length) = (show::mass_unit(units), show::length_unit(units));
    text.push_str(&table(
        &[
            "truck",
            "class",
            "today",
            "wears",
            "may work",
            &format!("service {mass}"),
            &format!("forks {length}"),
            &format!("to axle {length}"),
        ],
        &[9, 14, 22, 10, 8, 7, 5, 7],
        &rows,
    ));
}

fn plates(text: &mut String, fleet: &Fleet, units: Units) {
    text.push_str("\nCapacity plates\n");
    let rows: Vec<Vec<String>> = fleet
        .trucks
        .iter()
        .flat_map(|truck| {
            truck.points.iter().map(|point| {
                vec![
                    truck.id.clone(),
                    mass(point.capacity, units),
                    load_centre(point.load_centre, units),
                    point
                        .lift_height
                        .map_or("not stated".to_string(), |height| {
                            load_centre(height, units)
                        }),
                    point.attachment.as_deref().unwrap_or("bare forks").into(),
                    cell(fleet, &point.place),
                ]
            })
        })
        .collect();
    text.push_str(&table(
        &[
            "truck",
            "lifts",
            "load centre to",
            "lift height to",
            "with",
            "cell",
        ],
        &[12, 12, 14, 14, 24, 12],
        &rows,
    ));
}

/// What each truck lifts over the load centre, figures of the plate and calculated ones in rows of their own.
fn capacities(text: &mut String, fleet: &Fleet, site: &Site) {
    let units = site.units;
    text.push_str(&format!(
        "\nCapacity ({}) over load centre ({}), as fitted, lifted up to {}\n",
        show::mass_unit(units),
        show::length_unit(units),
        show::length(site.lift_height_m, units)
    ));
    let centres = curve::load_centres(units);
    let mut rows = Vec::new();
    for truck in &fleet.trucks {
        let points = curve::of(truck, site.lift_height_m, site).unwrap_or_default();
        let row = |calculated: bool| -> Vec<String> {
            let at = |centre: &Length| {
                let same = |length: Length| length.fits(*centre) && centre.fits(length);
                let point = points.iter().find(|point| {
                    same(point.load_centre) && point.capacity.calculated == calculated
                })?;
                Some(show::figure(show::capacity_value(
                    point.capacity.mass,
                    units,
                )))
            };
            let figures = centres.iter().map(|centre| at(centre).unwrap_or_default());
            figures.collect()
        };
        let kinds = [("read off the plate", row(false)), (CALCULATED, row(true))];
        let mut name = truck.id.as_str();
        for (kind, figures) in kinds {
            if figures.iter().any(|figure| !figure.is_empty()) {
                let head = [std::mem::take(&mut name).to_string(), kind.to_string()];
                rows.push([head.as_slice(), &figures].concat());
            }
        }
        if !name.is_empty() {
            rows.push(vec![name.to_string(), "none at these".to_string()]);
        }
    }
    let own: Vec<String> = centres
        .iter()
        .map(|centre| show::figure(show::plate_length_value(*centre, units)))
        .collect();
    let headings: Vec<&str> = ["truck", ""]
        .into_iter()
        .chain(own.iter().map(String::as_str))
        .collect();
    text.push_str(&table(&headings, &[12, 18, 7, 7, 7, 7, 7, 7, 7], &rows));
}

fn out_today(text: &mut String, fleet: &Fleet, date: NaiveDate) {
    let out: Vec<(&Truck, String)> = fleet
        .trucks
        .iter()
        .map(|truck| (truck, today::against(truck, date).join("; ")))
        .filter(|(_, why)| !why.is_empty())
        .collect();
    text.push_str(&format!("\nOut on {date}\n"));
    if out.is_empty() {
        text.push_str("  none\n");
    }
    for (truck, why) in out {
        text.push_str(&labelled(&format!("  {}", truck.id), 14, &why, WIDTH));
    }
}

fn worn(truck: &Truck) -> &str {
    truck.fitted.as_deref().unwrap_or("bare forks")
}

fn mass(mass: Mass, units: Units) -> String {
    show::capacity(mass, units)
}

/// A length of the plate, rounded down: it holds up to that figure.
fn load_centre(length: Length, units: Units) -> String {
    let figure = show::figure(show::plate_length_value(length, units));
    format!("{figure} {}", show::length_unit(units))
}
