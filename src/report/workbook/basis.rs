//! Basis: what the audit rests on, for the auditor: settings, sources, tables, versions, cautions, words.

use super::TableSource;
use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::column;
use crate::audit::Audit;
use crate::report::{Failure, words};
use crate::site::Units;
use crate::units::{Length, Mass, show};
use serde_json::Value;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, tables: &[TableSource]) -> Result<(), Failure> {
    let units = book.units;
    let columns = vec![
        column("Delivery", 9.0),
        column("Subject", 18.0),
        column("Name", 28.0),
        column("Value", 44.0),
        column("Source or remark", 60.0),
    ];
    let mut table = book.table("Basis", columns, Paper::Small, Keep::Rows)?;
    let mut row = |subject: &str, name: &str, value: &str, remark: &str| {
        table.row(&[
            Cell::text("all"),
            Cell::text(subject),
            Cell::text(name),
            Cell::text(value),
            Cell::text(remark),
        ])
    };
    row(
        "audit",
        "id",
        &audit.id,
        "hash of inputs, settings, tables, program version and date",
    )?;
    row("audit", "day", &audit.date.to_string(), "")?;
    row(
        "audit",
        "program",
        &format!("Dockheft {}", env!("CARGO_PKG_VERSION")),
        "",
    )?;
    match &audit.call.ledger {
        Some((size, head)) => {
            let proves = "keep this head apart from the ledger: \"dockheft ledger check --head\" proves the ledger by it";
            row("ledger", "records", &size.to_string(), "with this audit")?;
            row("ledger", "head", head, proves)?;
        }
        None => row(
            "ledger",
            "",
            "not recorded",
            "this audit stands in no ledger",
        )?,
    }
    for caution in words::CAUTIONS {
        row("caution", "", caution, "")?;
    }
    row("caution", "", words::NOT_JUDGED, "")?;
    for source in &audit.sources {
        let remarks = source.remarks.join("; ");
        row(
            "source file",
            &source.name,
            &source.sha256,
            &format!("SHA-256; read as {}; {remarks}", source.kind),
        )?;
    }
    for (name, why) in &audit.refused {
        row("REFUSED file", name, "not read", why)?;
    }
    if let Some(fleet) = &audit.fleet {
        let faults = words::count(fleet.faults.len(), "fault");
        row(
            "fleet register",
            &fleet.file,
            &words::count(fleet.trucks.len(), "truck"),
            &faults,
        )?;
        let sha256 = audit.call.register_sha256.as_deref();
        row(
            "fleet register",
            "hash",
            sha256.unwrap_or("not known"),
            "SHA-256",
        )?;
    }
    match &audit.call.site_file {
        Some((name, sha256)) => row("site file", name, sha256, "SHA-256")?,
        None => row(
            "site file",
            "",
            "none",
            "the settings below are the defaults",
        )?,
    }
    let bare = match audit.site.bare_units() {
        Units::Us => "us",
        Units::Si => "si",
    };
    row(
        "setting",
        "units of figures without any",
        bare,
        "the site's own units",
    )?;
    for (key, value) in settings(audit)? {
        row(
            "setting",
            &key,
            &written(&value),
            &in_site_units(&key, &value, units),
        )?;
    }
    for (code, reason) in &audit.site.rules_off {
        let times = audit
            .deliveries
            .iter()
            .filter_map(|one| one.off.get(code.as_str()));
        let found = words::count(times.sum(), "finding");
        row(
            "finding switched off",
            code,
            reason,
            &format!("left out of this call: {found}"),
        )?;
    }
    for (key, why) in &audit.unused {
        row("setting that matched nothing", key, "", why)?;
    }
    for (name, rows, source) in tables {
        row("table", name, rows, source)?;
    }
    for (_, word, meaning) in words::VERDICTS {
        row("verdict", word, meaning, "")?;
    }
    for (_, word, meaning) in words::SEVERITIES {
        row("urgency", word, meaning, "")?;
    }
    Ok(table.finish()?)
}

/// The site's settings by key, tables of settings flattened to `table.key`.
fn settings(audit: &Audit) -> Result<Vec<(String, Value)>, serde_json::Error> {
    let mut settings = Vec::new();
    if let Value::Object(keys) = serde_json::to_value(&audit.site)? {
        for (key, value) in keys {
            match value {
                Value::Object(inner) => {
                    settings.extend(
                        inner
                            .into_iter()
                            .map(|(name, value)| (format!("{key}.{name}"), value)),
                    );
                }
                Value::Array(rows) => {
                    settings.extend(rows.into_iter().map(|row| (key.clone(), row)));
                }
                value => settings.push((key, value)),
            }
        }
    }
    Ok(settings)
}

fn written(value: &Value) -> String {
    match value {
        Value::Null => "not set".to_string(),
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().map_or(number.to_string(), decimal),
        Value::Array(values) => values.iter().map(written).collect::<Vec<_>>().join(", "),
        Value::Object(fields) => fields
            .iter()
            .map(|(key, value)| format!("{key} {}", written(value)))
            .collect::<Vec<_>>()
            .join("; "),
        Value::Bool(yes) => yes.to_string(),
    }
}

/// A figure to six decimals, so that 48 in reads 1.2192 m.
fn decimal(value: f64) -> String {
    let text = format!("{value:.6}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// Settings are kept in kilograms and metres; beside them what that is in the units people see.
fn in_site_units(key: &str, value: &Value, units: Units) -> String {
    match value.as_f64() {
        Some(kg) if key.ends_with("_kg") => show::weight(Mass::from_kg(kg), units),
        Some(m) if key.ends_with("_m") => show::length(Length::from_m(m), units),
        _ => String::new(),
    }
}
