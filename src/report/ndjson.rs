//! The records of an audit as NDJSON: one JSON object a line, UTF-8, in the order of [`records`].

use super::record::records;
use crate::audit::Audit;
use std::io::{self, Write};

/// Writes every record, one a line.
///
/// # Errors
/// What the writer says.
pub fn write(audit: &Audit, mut to: impl Write) -> io::Result<()> {
    for record in records(audit) {
        serde_json::to_writer(&mut to, &record)?;
        to.write_all(b"\n")?;
    }
    to.flush()
}

#[cfg(test)]
mod tests {
    use super::super::record::SCHEMAS;
    use super::super::testing;
    use super::*;
    use serde_json::{Value, json};

    fn written() -> Vec<Value> {
        let mut bytes = Vec::new();
        write(&testing::audit(), &mut bytes).expect("a vector takes everything");
        let text = String::from_utf8(bytes).expect("UTF-8");
        text.lines()
            .map(|line| serde_json::from_str(line).expect("each line is JSON"))
            .collect()
    }

    fn faults(record: &Value) -> Vec<String> {
        let name = record["schema"].as_str().expect("a schema is named");
        let (_, text) = SCHEMAS
            .iter()
            .find(|(known, _)| *known == name)
            .expect("the schema is published");
        let schema: Value = serde_json::from_str(text).expect("the schema is JSON");
        let validator = jsonschema::draft202012::new(&schema).expect("the schema is a schema");
        validator
            .iter_errors(record)
            .map(|error| error.to_string())
            .collect()
    }

    fn line<'a>(records: &'a [Value], item: &str) -> &'a Value {
        records
            .iter()
            .find(|record| record["item"] == item)
            .expect("the test audit has this item")
    }

    #[test]
    fn every_record_keeps_its_published_schema() {
        let records = written();
        assert!(records.len() > 8, "{}", records.len());
        for record in &records {
            assert_eq!(faults(record), Vec::<String>::new(), "{record:#}");
        }
    }

    #[test]
    fn a_broken_record_is_refused() {
        let records = written();
        let good = line(&records, testing::CONSISTENT);
        let breaks: [(&str, Value); 6] = [
            ("verdict", json!("fine")),
            ("pieces", json!("3")),
            ("planning", json!({"line_kg": 1.0, "lift_kg": 1.0})),
            (
                "declared",
                json!({"kg": -1.0, "of": "line", "kind": "gross", "how": "stated", "text": ""}),
            ),
            ("size", json!({"depth_m": 1.0})),
            ("extra", json!(1)),
        ];
        for (key, value) in breaks {
            let mut broken = good.clone();
            broken[key] = value;
            assert_ne!(faults(&broken), Vec::<String>::new(), "{key}");
        }
        let mut short = good.clone();
        short
            .as_object_mut()
            .expect("an object")
            .remove("truck_without");
        assert_ne!(faults(&short), Vec::<String>::new());
    }

    #[test]
    fn records_stand_in_row_order_after_their_delivery() {
        let mut row = 0;
        let mut deliveries = 0;
        for record in written() {
            if record["schema"] == "dockheft.delivery/1" {
                deliveries += 1;
                row = 0;
            } else {
                let own = record["row"].as_u64().expect("a row");
                assert!(own >= row, "{own} after {row}");
                row = own;
            }
        }
        assert_eq!(deliveries, 2);
    }

    /// Key order as the contract prints it.
    #[test]
    fn a_line_has_the_keys_of_the_contract_in_its_order() {
        let records = written();
        let keys: Vec<&str> = line(&records, testing::CONSISTENT)
            .as_object()
            .expect("an object")
            .keys()
            .map(String::as_str)
            .collect();
        assert_eq!(
            keys.join(" "),
            "schema audit line file sheet row delivery vehicle item description goods supplier supplier_from order pieces \
             lifts lift_of lift_from package declared size size_of estimate verdict findings planning load_centre_m \
             load_centre_from truck truck_without declared_truck if_corrected"
        );
    }

    #[test]
    fn nothing_planned_is_null_and_says_none() {
        let records = written();
        let planning = &line(&records, testing::NO_WEIGHT)["planning"];
        assert_eq!(
            *planning,
            json!({"line_kg": null, "lift_kg": null, "from": "none"})
        );
        let shared = line(&records, testing::SHARED);
        assert_eq!(shared["lift_of"], "shared");
        assert_eq!(shared["lifts"], 0);
        assert_eq!(shared["package"], "P1");
    }
}
