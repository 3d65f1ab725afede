//! Past loads as a workbook of one sheet.

use super::trace::Traced;
use crate::site::Units;
use crate::units::{Mass, show};
use rust_xlsxwriter::{Format, Workbook, XlsxError};
use std::io::Write;

/// Writes the loads, one a row. Texts are written as texts, whatever they begin with.
///
/// # Errors
/// What the writer says.
pub fn workbook(found: &[Traced], units: Units, to: impl Write + Send) -> Result<(), XlsxError> {
    let unit = show::mass_unit(units);
    let headings = [
        "Record".to_string(),
        "Day".into(),
        "Recorded".into(),
        "Latest audit".into(),
        "Delivery".into(),
        "Line".into(),
        "Supplier".into(),
        "Order".into(),
        "Item".into(),
        "Description".into(),
        "Verdict".into(),
        "Truck".into(),
        "Decision".into(),
        "Decided by".into(),
        "Decided".into(),
        format!("Declared ({unit})"),
        format!("Expected low ({unit})"),
        format!("Expected high ({unit})"),
        format!("Planned ({unit})"),
        format!("Decided weight ({unit})"),
    ];
    let mut book = Workbook::new();
    let sheet = book.add_worksheet_with_low_memory()?;
    sheet.set_name("Trace")?;
    sheet.set_freeze_panes(1, 0)?;
    let bold = Format::new().set_bold();
    for (column, heading) in (0..).zip(&headings) {
        sheet.write_string_with_format(0, column, heading, &bold)?;
    }
    for (row, hit) in (1..).zip(found) {
        let load = &hit.load;
        let text = |key: &str| load[key].as_str().unwrap_or_default().to_string();
        let decided = hit.decision.as_ref();
        let of = |given: Option<&String>| given.cloned().unwrap_or_default();
        sheet.write_number(row, 0, hit.record as f64)?;
        let texts = [
            hit.day.clone(),
            hit.time.clone(),
            if hit.latest { "yes" } else { "no" }.to_string(),
            hit.delivery.clone(),
            hit.id.clone(),
            text("supplier"),
            text("order"),
            text("item"),
            hit.description.clone(),
            text("verdict"),
            load["truck"]["id"].as_str().unwrap_or_default().to_string(),
            of(decided.map(|decided| &decided.decision)),
            of(decided.map(|decided| &decided.name)),
            of(decided.map(|decided| &decided.time)),
        ];
        for (column, text) in (1..).zip(&texts) {
            sheet.write_string(row, column, crate::report::workbook::clean(text))?;
        }
        let kg = |value: &serde_json::Value| value.as_f64().map(Mass::from_kg);
        let figures = [
            kg(&load["declared"]["kg"]).map(|mass| show::weight_value(mass, units)),
            kg(&load["estimate"]["low_kg"]).map(|mass| show::low_value(mass, units)),
            kg(&load["estimate"]["high_kg"]).map(|mass| show::high_value(mass, units)),
            kg(&load["planning"]["line_kg"]).map(|mass| show::planning_value(mass, units)),
            decided
                .and_then(|decided| decided.plan_kg)
                .map(|plan| show::planning_value(Mass::from_kg(plan), units)),
        ];
        for (column, figure) in (15..).zip(figures) {
            if let Some(figure) = figure {
                sheet.write_number(row, column, figure)?;
            }
        }
    }
    book.save_to_writer(to)
}
