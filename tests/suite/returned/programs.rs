//! The same through other programs, where they are there: openpyxl types the decisions, LibreOffice saves the file anew.

use super::*;
use std::process::Command;

/// Types the decisions with openpyxl into the workbook as the program wrote it, then does with its rows what people do.
const TYPED: &str = r#"
import datetime, sys
from openpyxl import load_workbook
source, target = sys.argv[1:]
book = load_workbook(source)
sheet = book["Exceptions"]
at = {cell.value: cell.column for cell in sheet[1]}
day = datetime.date(2026, 11, 25)
filled = {
    "SB-1": ("weighed", 975, "scale ticket 4471", "J. Rook", day),
    "SB-2": (" Weighed", "2,040 lb", "scale ticket 4472", "J. Rook", "25/11/2026"),
    "SB-3": ("USE ESTIMATE", None, None, "J. Rook", day + datetime.timedelta(1)),
    "SB-4": ("supplier-corrected", "450 kg", "letter of 25 Nov", "M. Tern", "2026-11-25"),
    "SB-5": ("refused", None, None, "J. Rook", datetime.datetime(2026, 11, 25)),
}
headings = ("Decision", "Weight (lb)", "Evidence", "Decided by", "Date")
for row in sheet.iter_rows(min_row=2):
    item = row[at["Item"] - 1].value
    for heading, value in zip(headings, filled.get(item, ())):
        row[at[heading] - 1].value = value
rows = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
rows = [row for row in rows if row[at["Item"] - 1] != "SB-6"]
rows.sort(key=lambda row: str(row[at["Item"] - 1]), reverse=True)
for number, row in enumerate(rows, start=2):
    for column, value in enumerate(row, start=1):
        sheet.cell(number, column).value = value
sheet.delete_rows(len(rows) + 2, 1)
sheet.auto_filter.add_filter_column(at["Item"] - 1, ["SB-1"])
for number in range(3, len(rows) + 2):
    sheet.row_dimensions[number].hidden = True
book.save(target)
"#;

/// Whether openpyxl is there; says so where it is not.
fn typed(at: &Path) -> bool {
    let typed = Command::new("python3")
        .args(["-c", TYPED, "book.xlsx", "sent.xlsx"])
        .current_dir(at)
        .output();
    match typed {
        Ok(output) if output.status.success() => true,
        Ok(output) if !said(&output).contains("No module named") => panic!("{}", said(&output)),
        _ => {
            eprintln!("skipped: python3 with openpyxl is not there");
            false
        }
    }
}

#[test]
fn openpyxl_types_sorts_filters_and_deletes() {
    let folder = audited();
    let at = folder.path();
    if typed(at) {
        let output = decide(at, "sent.xlsx");
        assert_eq!(status(&output), 1, "{}", said(&output));
        assert!(!told(&output).contains("Altered"), "{}", told(&output));
        assert_filled(at);
    }
}

#[test]
fn libre_office_saves_it_anew() {
    for ending in ["xlsx", "ods", "xls", "fods"] {
        let folder = audited();
        let at = folder.path();
        if !typed(at) {
            return;
        }
        let profile = format!("-env:UserInstallation=file://{}/profile", at.display());
        let saved = Command::new("soffice")
            .args([
                &profile,
                "--headless",
                "--convert-to",
                ending,
                "--outdir",
                "anew",
                "sent.xlsx",
            ])
            .current_dir(at)
            .output();
        let name = format!("anew/sent.{ending}");
        if saved.is_err() || !at.join(&name).exists() {
            eprintln!("skipped: LibreOffice is not there");
            return;
        }
        let output = decide(at, &name);
        assert_eq!(status(&output), 1, "{ending}: {}", said(&output));
        assert!(
            !told(&output).contains("Altered"),
            "{ending}: {}",
            told(&output)
        );
        assert_filled(at);
    }
}
