//! The parts of a workbook's file as they are: what no reader that means well would show.

use super::{PAYLOAD, STARTS, delivery};
use crate::helper::{audit_in, cell, dockheft, said, status};
use std::io::{Cursor, Read, Write};
use std::path::Path;
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

/// Name and text of each part.
pub fn parts(path: &Path) -> Vec<(String, String)> {
    let bytes = std::fs::read(path).expect("a file");
    let mut file = ZipArchive::new(Cursor::new(bytes)).expect("a workbook is a zip file");
    let parts = (0..file.len()).map(|at| {
        let mut part = file.by_index(at).expect("a part");
        let name = part.name().expect("a name").into_owned();
        let mut text = String::new();
        part.read_to_string(&mut text).expect("text");
        (name, text)
    });
    parts.collect()
}

/// A file of the parts, each changed.
pub fn rewritten(parts: &[(String, String)], change: impl Fn(&str, String) -> String) -> Vec<u8> {
    let mut file = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        file.start_file(name.as_str(), SimpleFileOptions::default())
            .expect("a part");
        let text = change(name, text.clone());
        file.write_all(text.as_bytes()).expect("a part");
    }
    file.finish().expect("a file").into_inner()
}

/// What stands between two marks, each time.
fn between<'t>(text: &'t str, from: &str, to: &'t str) -> impl Iterator<Item = &'t str> {
    let pieces = text.split(from).skip(1).collect::<Vec<_>>();
    pieces
        .into_iter()
        .map(move |piece| piece.split(to).next().unwrap_or(piece))
}

/// Names of the sheets in the order of their files.
fn sheet_names(parts: &[(String, String)]) -> Vec<String> {
    let (_, book) = parts
        .iter()
        .find(|(name, _)| name == "xl/workbook.xml")
        .expect("a workbook");
    between(book, "<sheet name=\"", "\"")
        .map(str::to_string)
        .collect()
}

/// Nothing but our own formulas, no way out of the file, nothing that runs.
fn assert_harmless(path: &Path, hint: &str) {
    let parts = parts(path);
    let names = sheet_names(&parts);
    assert!(!names.is_empty());
    for (part, text) in &parts {
        for word in [
            "vbaProject",
            "externalLink",
            "ddeLink",
            "oleObject",
            "activeX",
        ] {
            assert!(
                !part.contains(word) && !text.contains(word),
                "{hint}: {word} in {part}"
            );
        }
        assert!(
            !text.contains("TargetMode=\"External\""),
            "{hint}: a way out in {part}"
        );
        if part.starts_with("xl/worksheets/sheet") {
            let number: usize = between(part, "sheet", ".xml")
                .filter_map(|number| number.parse().ok())
                .next()
                .expect("a number");
            let name = &names[number - 1];
            for formula in between(text, "<f>", "</f>").chain(between(text, "<f ", "</f>")) {
                assert!(name.starts_with("Working"), "{hint}: {formula} on {name}");
                let ours = |sign: char| {
                    sign.is_ascii_uppercase() || "0123456789.+-*/^()'! ".contains(sign)
                };
                let plain = formula.replace("'Working", "");
                assert!(plain.chars().all(ours), "{hint}: {formula}");
                assert!(!formula.contains("HYPERLINK"), "{hint}: {formula}");
            }
            for link in between(text, "<hyperlink ", ">") {
                assert!(
                    link.contains("location=\"Working") || link.contains("location=\"'Working"),
                    "{hint}: {link}"
                );
                assert!(!link.contains("r:id"), "{hint}: {link}");
            }
        }
        for formula in between(text, "<c:f>", "</c:f>") {
            let ours = names
                .iter()
                .any(|name| formula.replace('\'', "").starts_with(&format!("{name}!")));
            assert!(ours, "{hint}: {formula} in {part}");
        }
        if part == "xl/workbook.xml" {
            for defined in between(text, "<definedName ", ">") {
                assert!(defined.contains("name=\"_xlnm."), "{hint}: {defined}");
            }
        }
    }
}

#[test]
fn nothing_of_a_supplier_runs_in_any_workbook() {
    for start in STARTS
        .into_iter()
        .chain(["=cmd|' /C calc'!A0+", "=DDE(\"x\";\"y\")&"])
    {
        let folder = tempfile::tempdir().expect("a folder");
        let text = format!("{start}{PAYLOAD}");
        std::fs::write(folder.path().join("=1+1.csv"), delivery(start)).expect("a file");
        let name = cell(&text);
        let register = format!(
            "Truck,Capacity (lb),Load centre (in),Remark\n{name},5000,24,{name}\nB,6000,24,sound\n"
        );
        std::fs::write(folder.path().join("fleet.csv"), register).expect("a file");
        let quoted = text.replace('\\', "\\\\").replace('"', "\\\"");
        let quoted = quoted.replace('\t', "\\t").replace('\r', "\\r");
        std::fs::write(
            folder.path().join("site.toml"),
            format!("name = \"{quoted}\"\nunits = \"us\"\n"),
        )
        .expect("a file");
        let option = format!("--delivery={text}");
        let site = ["--site", "site.toml", "--ledger", "l.db"];
        let mut args = vec![
            "=1+1.csv",
            "--fleet",
            "fleet.csv",
            "--out",
            "out.xlsx",
            &option,
        ];
        args.extend(site);
        let output = audit_in(folder.path(), &args);
        assert_eq!(status(&output), 1, "{start:?}: {}", said(&output));
        assert_harmless(&folder.path().join("out.xlsx"), start);

        let mut args = vec!["trace", "--out", "trace.xlsx"];
        args.extend(site);
        let output = dockheft(folder.path(), &args);
        assert_eq!(status(&output), 0, "{start:?}: {}", said(&output));
        assert_harmless(&folder.path().join("trace.xlsx"), start);

        let output = dockheft(
            folder.path(),
            &[
                "fleet",
                "fleet.csv",
                "--site",
                "site.toml",
                "--out",
                "fleet.xlsx",
            ],
        );
        assert!(status(&output) < 2, "{start:?}: {}", said(&output));
        assert_harmless(&folder.path().join("fleet.xlsx"), start);
    }
}

/// Each line of the exceptions leads to the row of its working, on whichever sheet that stands.
#[test]
fn links_lead_to_the_working_of_their_line() {
    let (_kept, path) = super::demo_workbook();
    let parts = parts(&path);
    let names = sheet_names(&parts);
    let at = names
        .iter()
        .position(|name| name == "Exceptions")
        .expect("the sheet");
    let part = format!("xl/worksheets/sheet{}.xml", at + 1);
    let (_, sheet) = parts
        .iter()
        .find(|(name, _)| *name == part)
        .expect("its part");
    let book = super::formulas::Book::open(&path);
    let text = |sheet: &str, row: u32, column: u32| {
        book.texts
            .get(&(sheet.to_string(), row, column))
            .cloned()
            .unwrap_or_default()
    };
    let column = |sheet: &str, heading: &str| {
        (0..30)
            .find(|at| text(sheet, 0, *at) == heading)
            .unwrap_or_else(|| panic!("no {heading} on {sheet}"))
    };
    let same = [
        ("Delivery", "Delivery"),
        ("Row (cell), to its working", "Row (cell)"),
        ("Item", "Item"),
    ];
    let mut links = 0;
    for link in between(sheet, "<hyperlink ", ">") {
        let cell = between(link, "ref=\"", "\"")
            .next()
            .expect("where it stands");
        let row: u32 = cell
            .trim_matches(char::is_alphabetic)
            .parse()
            .expect("a row");
        let to = between(link, "location=\"", "\"")
            .next()
            .expect("where it leads");
        let (_, target) = to.split_once('!').expect("a sheet and a cell");
        let target: u32 = target
            .trim_matches(char::is_alphabetic)
            .parse()
            .expect("a row");
        for (here, there) in same {
            assert_eq!(
                text("Exceptions", row - 1, column("Exceptions", here)),
                text("Working", target - 1, column("Working", there)),
                "{link}"
            );
        }
        links += 1;
    }
    assert!(links > 10, "{links}");
}
