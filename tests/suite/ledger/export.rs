//! The ledger as Parquet: whole, equal to what is on record, and readable by other programs.

use super::{HEADINGS, audited, folder, id, kept, list, out, write};
use crate::helper::{dockheft, parsed, said, status};
use polars::prelude::{DataFrame, ParquetReader, SerReader};
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::path::Path;
use std::process::Command;

fn exported(at: &Path) -> Value {
    let output = dockheft(at, &["ledger", "export", "export"]);
    assert_eq!(status(&output), 0, "{}", said(&output));
    let text = std::fs::read_to_string(at.join("export/manifest.json")).expect("a manifest");
    serde_json::from_str(&text).expect("JSON")
}

/// The files of a table with what the manifest says of them.
fn files<'m>(at: &Path, manifest: &'m Value, table: &str) -> Vec<(&'m Value, DataFrame)> {
    let all = manifest["files"].as_array().expect("a list");
    let of_table = all.iter().filter(|file| file["table"] == table);
    of_table
        .map(|file| {
            let path = at
                .join("export")
                .join(file["path"].as_str().expect("a path"));
            let frame = ParquetReader::new(File::open(&path).expect("it is there")).finish();
            (
                file,
                frame.unwrap_or_else(|error| panic!("{path:?}: {error}")),
            )
        })
        .collect()
}

/// Files, rows and sums as the manifest says, and every load as `trace` tells it.
#[test]
fn what_is_exported_reads_back_as_it_is_on_record() {
    let folder = kept();
    let at = folder.path();
    write(
        at,
        "site.toml",
        "units = \"us\"\nfleet = \"fleet.csv\"\nname = \"Kestrel / Junction\"\n",
    );
    write(
        at,
        "other.csv",
        &format!("{HEADINGS}D-9,,PO 9,X-1,Pump,1,,,,500\n"),
    );
    let earlier = dockheft(
        at,
        &[
            "audit",
            "other.csv",
            "--date",
            "2026-02-03",
            "--out",
            "o.xlsx",
        ],
    );
    assert!(status(&earlier) < 2, "{}", said(&earlier));
    let manifest = exported(at);
    let hits = parsed(&dockheft(at, &["trace", "--json"]).stdout);
    let mut rows = 0;
    for (file, frame) in files(at, &manifest, "loads") {
        assert_eq!(file["rows"], frame.height(), "{file}");
        rows += frame.height();
        for of_folder in ["site", "year", "month"] {
            assert!(
                frame.column(of_folder).is_err(),
                "{of_folder} is a folder's"
            );
        }
        for name in ["declared_kg", "plan_kg", "likely_kg"] {
            let sum: f64 = frame
                .column(name)
                .and_then(|column| column.f64())
                .expect("figures")
                .iter()
                .flatten()
                .sum();
            let said = file["sums"][name].as_f64().expect("a sum");
            assert!((sum - said).abs() <= 1e-9 * sum, "{name}: {sum} {said}");
        }
        for row in 0..frame.height() {
            let cell = |name: &str| {
                frame
                    .column(name)
                    .expect(name)
                    .get(row)
                    .expect("a row")
                    .into_static()
            };
            let number = cell("load").extract::<i64>().expect("a number");
            let hit = hits
                .iter()
                .find(|hit| hit["record"] == number)
                .expect("on record");
            let text = |name: &str| cell(name).get_str().map(str::to_string);
            assert_eq!(text("id").as_deref(), hit["id"].as_str());
            assert_eq!(text("verdict").as_deref(), hit["load"]["verdict"].as_str());
            assert_eq!(
                text("declared_text").as_deref(),
                hit["load"]["declared"]["text"].as_str()
            );
            assert_eq!(
                cell("plan_kg").extract::<f64>(),
                hit["load"]["planning"]["line_kg"].as_f64()
            );
            assert_eq!(format!("{}", cell("counts")), hit["latest"].to_string());
        }
    }
    assert_eq!(rows, hits.len(), "every audit, not only the latest");
    let findings: usize = files(at, &manifest, "findings")
        .iter()
        .map(|(_, frame)| {
            frame.column("load").expect("loads").len()
                - frame.column("load").expect("loads").null_count()
        })
        .sum();
    let of_loads = hits
        .iter()
        .filter_map(|hit| hit["load"]["findings"].as_array());
    assert_eq!(findings, of_loads.map(Vec::len).sum::<usize>());
    let taken = files(at, &manifest, "decisions");
    assert_eq!(
        taken.iter().map(|(_, frame)| frame.height()).sum::<usize>(),
        1
    );
    let paths: Vec<&str> = manifest["files"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|file| file["path"].as_str())
        .collect();
    for path in [
        "site=Kestrel%20%2F%20Junction/year=2026/month=2/loads.parquet",
        "site=-/year=2026/month=11/loads.parquet",
    ] {
        assert!(paths.contains(&path), "{paths:?}");
    }
    for file in manifest["files"].as_array().expect("a list") {
        let path = at
            .join("export")
            .join(file["path"].as_str().expect("a path"));
        let bytes = std::fs::read(path).expect("bytes");
        let digest: String = Sha256::digest(&bytes)
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(file["sha256"], digest.as_str());
    }
    let check = out(&dockheft(at, &["ledger", "check"]));
    let head = manifest["head"].as_str().expect("a head");
    assert!(
        check.contains(&format!("{} records, head {head}", manifest["records"])),
        "{check}"
    );
}

/// The same ledger gives the same bytes; a folder that holds something is left as it is.
#[test]
fn an_export_stands_alone() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let first = exported(at);
    std::fs::rename(at.join("export"), at.join("first")).expect("moved");
    assert_eq!(exported(at), first);
    for there in ["export", "list.csv"] {
        let before = std::fs::read_dir(at).expect("a list").count();
        let refused = dockheft(at, &["ledger", "export", there]);
        assert_eq!(status(&refused), 3, "{}", said(&refused));
        assert!(
            said(&refused).contains("nothing was written"),
            "{}",
            said(&refused)
        );
        assert_eq!(std::fs::read_dir(at).expect("a list").count(), before);
    }
    assert_eq!(
        std::fs::read_to_string(at.join("list.csv")).expect("a list"),
        list(490)
    );
}

/// Rows and sums of every file as another program reads them, against the manifest.
const PYTHON: &str = r#"
import json, math, pathlib, sys
def table(paths, folders):
    if which == "pyarrow":
        import pyarrow.parquet
        how = {} if folders else {"partitioning": None}
        return pyarrow.parquet.read_table(paths, **how).to_pydict()
    if which == "polars":
        import polars
        return polars.read_parquet(paths, hive_partitioning=folders).to_dict(as_series=False)
    import duckdb
    found = duckdb.sql(f"SELECT * FROM read_parquet({paths}, hive_partitioning={folders})")
    return dict(zip(found.columns, zip(*found.fetchall())))
for which in ("pyarrow", "polars", "duckdb", None):
    try:
        which and __import__(which)
        break
    except ImportError:
        pass
if which is None:
    print("none"); sys.exit()
root = pathlib.Path(sys.argv[1])
files = json.loads((root / "manifest.json").read_text())["files"]
for file in files:
    columns = table([str(root / file["path"])], False)
    assert {len(values) for values in columns.values()} == {file["rows"]}, file
    for name, said in file["sums"].items():
        found = math.fsum(value for value in columns[name] if value is not None)
        assert math.isclose(found, said, rel_tol=1e-9), (file, name, found)
# As they come, site, year and month are taken from the names of the folders, and stand beside the columns of the files.
for name in ("loads", "findings", "decisions"):
    paths = [str(root / file["path"]) for file in files if file["table"] == name]
    plain, whole = table(paths, False), table(paths, True)
    assert set(whole) == set(plain) | {"site", "year", "month"}, (name, sorted(whole))
    assert set(whole["site"]) == {"-"}, whole["site"]
    assert all(list(whole[column]) == list(plain[column]) for column in plain), name
print(which, len(files))
"#;

/// With a Python that has pyarrow, polars or duckdb: the one in DOCKHEFT_PYTHON, else python3. Without one the test says so.
#[test]
fn another_program_reads_the_same_rows_and_sums() {
    let folder = kept();
    let at = folder.path();
    let light = id(at, "SB-2");
    let taken = dockheft(
        at,
        &[
            "decide",
            "--line",
            &light,
            "--as",
            "use estimate",
            "--by",
            "J. Rook",
        ],
    );
    assert_eq!(status(&taken), 0, "{}", said(&taken));
    let manifest = exported(at);
    let files = manifest["files"].as_array().expect("a list").len();
    assert!(files >= 3, "{manifest}");
    let python = std::env::var("DOCKHEFT_PYTHON").unwrap_or_else(|_| "python3".to_string());
    let Ok(read) = Command::new(&python)
        .args(["-c", PYTHON])
        .arg(at.join("export"))
        .output()
    else {
        eprintln!("SKIPPED: {python} does not start; name one in DOCKHEFT_PYTHON");
        return;
    };
    let said = String::from_utf8_lossy(&read.stdout);
    assert!(
        read.status.success(),
        "{}",
        String::from_utf8_lossy(&read.stderr)
    );
    if said.trim() == "none" {
        eprintln!(
            "SKIPPED: {python} has none of pyarrow, polars, duckdb; name one that has in DOCKHEFT_PYTHON"
        );
        return;
    }
    assert!(said.trim().ends_with(&format!(" {files}")), "{said}");
}
