//! As read: how each file was understood, and every row that gave no line.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::column;
use crate::audit::{Audit, Delivery};
use crate::place::column_letters;
use crate::report::words;
use rust_xlsxwriter::XlsxError;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit) -> Result<(), XlsxError> {
    let columns = vec![
        column("Delivery", 18.0),
        column("File", 22.0),
        column("Sheet", 14.0),
        column("What", 16.0),
        column("Place", 9.0),
        column("Text in the file", 44.0),
        column("Taken for", 36.0),
        column("Unit", 9.0),
        column("How", 24.0),
    ];
    let mut table = book.table("As read", columns, Paper::Small, Keep::Rows)?;
    for delivery in &audit.deliveries {
        for cells in delivery_rows(delivery) {
            table.row(&cells)?;
        }
    }
    for source in &audit.sources {
        for remark in &source.remarks {
            table.row(&file_row(&source.name, "remark on the file", remark))?;
        }
    }
    for (name, why) in &audit.refused {
        table.row(&file_row(name, "REFUSED file", why))?;
    }
    table.finish()
}

fn file_row<'a>(name: &'a str, what: &'a str, text: &'a str) -> Vec<Cell<'a>> {
    vec![
        Cell::text("all of the file"),
        Cell::name(name),
        Cell::Blank,
        Cell::text(what),
        Cell::Blank,
        Cell::Blank,
        Cell::text(text),
    ]
}

fn delivery_rows(delivery: &Delivery) -> impl Iterator<Item = Vec<Cell<'_>>> {
    let reading = &delivery.reading;
    let row = move |what: &'static str,
                    place: String,
                    text: &str,
                    taken: String,
                    unit: Option<&str>,
                    how: &'static str| {
        vec![
            Cell::name(reading.delivery.as_str()),
            Cell::name(&*reading.place.file),
            Cell::name(&*reading.place.sheet),
            Cell::text(what),
            Cell::name(place),
            Cell::words(text.to_string()),
            Cell::text(taken),
            Cell::text(unit.unwrap_or_default().to_string()),
            Cell::text(how),
        ]
    };
    let supplier = std::iter::once(row(
        "supplier",
        String::new(),
        reading.supplier.as_deref().unwrap_or("unknown"),
        "the supplier of this delivery".into(),
        None,
        reading.supplier_from,
    ));
    let columns = reading.columns.iter().map(move |column| {
        let place = column_letters(column.column);
        row(
            "column",
            place,
            &column.heading,
            column.field.clone(),
            column.unit.as_deref(),
            words::how(column.how),
        )
    });
    let sums = reading.sums.iter().map(move |sum| {
        let taken = format!("a sum over {}", words::rows(&sum.rows));
        row("sum", sum.place.cell(), &sum.text, taken, None, "")
    });
    let skipped = reading.skipped.iter().map(move |skipped| {
        let taken = format!("no line: {}", words::skipped(skipped.why));
        row(
            "skipped row",
            format!("row {}", skipped.row),
            &skipped.text,
            taken,
            None,
            "",
        )
    });
    let remarks = reading.remarks.iter().map(move |remark| {
        row(
            "remark",
            remark.place.cell(),
            "",
            remark.message.clone(),
            None,
            "",
        )
    });
    // What could not be read stands above.
    let findings = delivery.findings.iter();
    let findings = findings.filter(|finding| finding.code != "reading-remark");
    let findings = findings.map(move |finding| {
        let taken = words::sentence(&finding.message);
        let place = finding.field.clone().unwrap_or_default();
        let urgency = words::severity(finding.severity);
        row("the whole delivery", place, "", taken, None, urgency)
    });
    let lines = delivery.lines.iter().flat_map(move |line| {
        line.item.remarks.iter().map(move |remark| {
            row(
                "remark on a line",
                remark.place.cell(),
                "",
                remark.message.clone(),
                None,
                "",
            )
        })
    });
    supplier
        .chain(columns)
        .chain(sums)
        .chain(skipped)
        .chain(remarks)
        .chain(findings)
        .chain(lines)
}
