//! In plain words how a record of today differs from the one on record.

use serde_json::Value;
use std::collections::BTreeSet;

/// What differs between a record and today's of the same row.
pub(super) fn changed(was: &Value, today: &str) -> String {
    let would_be = serde_json::from_str(today).unwrap_or_default();
    let mut parts = Vec::new();
    compare("", was, &would_be, &mut parts);
    // The same values, written otherwise.
    if parts.is_empty() {
        parts.push("the same values, written otherwise".to_string());
    }
    format!("{}: {}", place(was), parts.join("; "))
}

/// That today's program does not make a record that was.
pub(super) fn gone(was: &Value) -> String {
    format!("{}: would not be there", place(was))
}

/// That today's program makes a record that was not.
pub(super) fn new(today: &str) -> String {
    let record = serde_json::from_str(today).unwrap_or_default();
    format!("{}: is not on record, and would be", place(&record))
}

/// "line in row 3 of list.csv, sheet Boxes".
fn place(record: &Value) -> String {
    let text = |key: &str| record[key].as_str().unwrap_or_default();
    let kind = text("schema");
    let kind = kind.trim_start_matches("dockheft.").trim_end_matches("/1");
    let row = match record["row"].as_u64() {
        Some(row) => format!("{kind} in row {row}"),
        None => kind.to_string(),
    };
    let sheet = match text("sheet") {
        "" => String::new(),
        sheet => format!(", sheet {sheet}"),
    };
    format!("{row} of {}{sheet}", text("file"))
}

/// Every value that differs, with the way to it.
fn compare(way: &str, was: &Value, would_be: &Value, parts: &mut Vec<String>) {
    let further = |key: &str| {
        format!("{way} {}", key.replace('_', " "))
            .trim()
            .to_string()
    };
    match (was, would_be) {
        _ if was == would_be => {}
        (Value::Object(before), Value::Object(after)) => {
            let keys: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
            for key in keys {
                compare(&further(key), &was[key], &would_be[key], parts);
            }
        }
        (Value::Array(before), Value::Array(after)) if before.len() == after.len() => {
            for (number, (was, would_be)) in (1..).zip(before.iter().zip(after)) {
                compare(&format!("{way} {number}"), was, would_be, parts);
            }
        }
        _ => parts.push(format!(
            "{way} was {}, would be {}",
            plain(was),
            plain(would_be)
        )),
    }
}

/// A value without signs of its format. Of a finding its code says enough.
fn plain(value: &Value) -> String {
    match value {
        Value::Null => "nothing".to_string(),
        Value::String(text) => format!("\"{text}\""),
        Value::Array(all) if all.is_empty() => "none".to_string(),
        Value::Array(all) => all.iter().map(plain).collect::<Vec<_>>().join(", "),
        Value::Object(all) => match all.get("code").and_then(Value::as_str) {
            Some(code) => code.to_string(),
            None => {
                let parts = all
                    .iter()
                    .map(|(key, value)| format!("{} {}", key.replace('_', " "), plain(value)));
                parts.collect::<Vec<_>>().join(" ")
            }
        },
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_difference_is_told_without_signs_of_the_format() {
        let was = json!({
            "schema": "dockheft.line/1", "file": "list.csv", "sheet": "Boxes", "row": 3,
            "declared": null, "estimate": {"low_kg": 443.0, "high_kg": 450.0},
            "findings": [{"code": "declared-light"}], "pieces": 2,
        });
        let today = json!({
            "schema": "dockheft.line/1", "file": "list.csv", "sheet": "Boxes", "row": 3,
            "declared": {"kg": 5.0, "of": "line"}, "estimate": {"low_kg": 440.0, "high_kg": 450.0},
            "findings": [], "pieces": 2, "order": "PO 7",
        });
        assert_eq!(
            changed(&was, &today.to_string()),
            "line in row 3 of list.csv, sheet Boxes: declared was nothing, would be kg 5.0 of \"line\"; \
             estimate low kg was 443.0, would be 440.0; findings was declared-light, would be none; \
             order was nothing, would be \"PO 7\""
        );
    }
}
