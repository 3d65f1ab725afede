//! What of the settings differs, key by key as the site file has them.

use crate::site::Site;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// Keys that no judgement rests on: the name on reports, where files lie.
const DECIDE_NOTHING: [&str; 3] = ["name", "fleet", "ledger"];

/// A setting that differs.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Difference {
    /// Its key, as `tolerance_by_group.wood`.
    pub key: String,
    /// What was.
    pub was: String,
    /// What would be.
    pub would_be: String,
}

/// The settings that differ, by key. Of the units, those count that bare figures are read in.
pub fn differences(was: &Site, would_be: &Site) -> Vec<Difference> {
    let (before, after) = (flat(was), flat(would_be));
    let mut keys: Vec<&String> = before.keys().chain(after.keys()).collect();
    keys.sort();
    keys.dedup();
    let value = |of: &BTreeMap<String, String>, key: &String| {
        of.get(key).cloned().unwrap_or_else(|| "none".to_string())
    };
    keys.into_iter()
        .map(|key| Difference {
            key: key.clone(),
            was: value(&before, key),
            would_be: value(&after, key),
        })
        .filter(|found| found.was != found.would_be)
        .collect()
}

/// Each value with the way to it.
fn flat(site: &Site) -> BTreeMap<String, String> {
    let mut read = site.clone();
    read.units = site.bare_units();
    let whole = serde_json::to_value(&read).unwrap_or_default();
    let mut found = BTreeMap::new();
    for (key, value) in whole.as_object().into_iter().flatten() {
        if !DECIDE_NOTHING.contains(&key.as_str()) {
            parts(key.clone(), value, &mut found);
        }
    }
    found
}

fn parts(way: String, value: &Value, found: &mut BTreeMap<String, String>) {
    match value {
        Value::Null => {}
        Value::Object(all) => {
            for (key, value) in all {
                parts(format!("{way}.{key}"), value, found);
            }
        }
        // Rows of a table are known by their name, whatever their order.
        Value::Array(rows) if rows.iter().any(|row| row["name"].is_string()) => {
            for row in rows {
                let name = row["name"].as_str().unwrap_or_default();
                parts(format!("{way}.{name}"), row, found);
            }
        }
        Value::String(text) => {
            found.insert(way, text.clone());
        }
        other => {
            found.insert(way, other.to_string());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::Units;
    use crate::units::Mass;

    #[test]
    fn each_key_that_differs_is_named_with_both_values() {
        let was = Site {
            name: "Kestrel Junction".to_string(),
            tolerance_by_group: BTreeMap::from([("wood".to_string(), 0.15)]),
            ..Site::default()
        };
        let would_be = Site {
            ledger: Some("other.dockheft".to_string()),
            tolerance: 0.2,
            dock_rating_kg: Some(Mass::from_kg(4_000.0)),
            ..Site::default()
        };
        let found = differences(&was, &would_be);
        let told: Vec<String> = found
            .iter()
            .map(|found| format!("{} {} {}", found.key, found.was, found.would_be))
            .collect();
        assert_eq!(
            told,
            [
                "dock_rating_kg none 4000.0",
                "tolerance 0.1 0.2",
                "tolerance_by_group.wood 0.15 none"
            ]
        );
        assert_eq!(differences(&was, &was), []);
    }

    /// Units that a call showed its reports in read nothing otherwise.
    #[test]
    fn units_differ_where_bare_figures_are_read_in_others() {
        let metric = Site::default();
        let mut shown = Site::default();
        shown.show_in(Some(Units::Us));
        assert_eq!(differences(&shown, &metric), []);
        let us = Site {
            units: Units::Us,
            ..Site::default()
        };
        let [units] = &differences(&metric, &us)[..] else {
            panic!("one")
        };
        assert_eq!(
            (&*units.key, &*units.was, &*units.would_be),
            ("units", "si", "us")
        );
    }
}
