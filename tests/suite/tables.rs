//! `dockheft tables`: what the program knows, with sources.

use crate::helper::{dockheft, parsed, said, status};
use std::path::Path;

fn tables(args: &[&str]) -> std::process::Output {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    dockheft(folder, &[&["tables"], args].concat())
}

fn text(output: &std::process::Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

#[test]
fn the_overview_counts_every_row_of_every_table() {
    let overview = tables(&[]);
    assert_eq!(status(&overview), 0);
    let records = parsed(&tables(&["--json"]).stdout);
    for record in &records {
        let name = record["table"].as_str().expect("a name");
        assert!(text(&overview).contains(&format!("  {name} ")), "{name}");
        let counted: u64 = record["basis"]
            .as_object()
            .into_iter()
            .flatten()
            .filter_map(|(_, count)| count.as_u64())
            .sum();
        let own = name.rsplit(": ").next().expect("a name");
        let rows = parsed(&tables(&[own, "--json"]).stdout).len() as u64;
        assert_eq!(
            (record["rows"].as_u64(), counted),
            (Some(rows), rows),
            "{name}"
        );
    }
    for name in [
        "shapes",
        "materials",
        "units",
        "goods",
        "headings",
        "packages",
        "products: pipe-steel",
    ] {
        assert!(
            records.iter().any(|record| record["table"] == name),
            "{name}"
        );
    }
}

/// 490 lb/ft3 is 7,849 kg/m3 (Iowa DOT Instructional Memorandum 569; 1 lb/ft3 = 16.0185 kg/m3).
#[test]
fn rows_are_found_by_words_and_name_their_source() {
    let output = tables(&["Materials", "carbon", "STEEL", "iowa"]);
    assert_eq!(status(&output), 0, "{}", said(&output));
    let found = text(&output);
    assert!(
        found.contains("  carbon steel ") && found.contains(" 7849 "),
        "{found}"
    );
    assert!(found.contains("source: Iowa DOT"), "{found}");
    let rows = parsed(&tables(&["materials", "carbon", "steel", "iowa", "--json"]).stdout);
    assert!(
        rows.iter()
            .any(|row| row["row"]["material"] == "carbon steel")
    );
    assert!(
        rows.iter()
            .all(|row| row.to_string().to_lowercase().contains("iowa"))
    );
}

#[test]
fn every_table_fits_the_terminal() {
    for record in parsed(&tables(&["--json"]).stdout) {
        let name = record["table"].as_str().expect("a name");
        let own = name.rsplit(": ").next().expect("a name");
        let shown = text(&tables(&[own]));
        let widest = shown.lines().map(|line| line.chars().count()).max();
        assert!(
            widest.is_some_and(|widest| widest <= 100),
            "{name}: {widest:?}"
        );
    }
}

#[test]
fn an_unknown_table_is_wrong_usage_and_an_unknown_word_finds_nothing() {
    for (name, nearest) in [
        ("matrials", "materials"),
        ("pipe", "pipe-steel"),
        ("shape list", "shapes"),
    ] {
        let output = tables(&[name]);
        assert_eq!(status(&output), 2, "{name}");
        assert!(
            said(&output).contains(&format!("nearest is {nearest};")),
            "{}",
            said(&output)
        );
    }
    let output = tables(&["materials", "unobtanium"]);
    assert_eq!((status(&output), output.stdout.len()), (1, 0));
    assert!(
        said(&output).contains("\"unobtanium\""),
        "{}",
        said(&output)
    );
}
