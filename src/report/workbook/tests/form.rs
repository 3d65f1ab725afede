//! The form of the file: sheets, sameness of two runs, sheets continued.

use super::*;

#[test]
fn each_sheet_has_a_delivery_column() {
    let mut workbook = read(bytes(&testing::audit()));
    assert_eq!(workbook.sheet_names(), SHEETS);
    for name in SHEETS {
        let range = sheet(&mut workbook, name);
        assert_eq!(
            range.get_value((0, 0)),
            Some(&Data::String("Delivery".into())),
            "{name}"
        );
        assert!(range.height() > 1, "{name} is empty");
    }
}

#[test]
fn two_runs_give_the_same_bytes() {
    let audit = testing::audit();
    assert!(bytes(&audit) == bytes(&audit));
    let mut later = testing::audit();
    later.date = later.date.succ_opt().expect("a day");
    assert!(
        bytes(&audit) != bytes(&later),
        "the day is part of the file"
    );
}

#[test]
fn a_full_sheet_goes_on_and_dock_says_so() {
    let audit = testing::audit();
    let mut bytes = Vec::new();
    let book = book_of(&audit)
        .expect("a date of our time")
        .with_most_rows(6);
    finish(book, &audit, &[], &mut bytes).expect("a vector takes everything");
    let mut workbook = read(bytes);
    let names = workbook.sheet_names();
    assert_eq!(names.first().map(String::as_str), Some("Dock"));
    assert!(names.contains(&"Lift plan 2".to_string()), "{names:?}");
    let rows: usize = ["Lift plan", "Lift plan 2"]
        .iter()
        .map(|name| sheet(&mut workbook, name).height() - 1)
        .sum();
    assert_eq!(rows, 10);
    let range = sheet(&mut workbook, "Dock");
    let dock: String = range
        .rows()
        .map(|row| {
            format!(
                "{}
",
                row[2]
            )
        })
        .collect();
    assert!(
        dock.contains("Lift plan goes on over 1 further sheet"),
        "said on Dock"
    );
}

#[test]
fn an_empty_audit_still_gives_all_sheets() {
    let mut audit = testing::audit();
    audit.deliveries.clear();
    audit.fleet = None;
    assert_eq!(read(bytes(&audit)).sheet_names(), SHEETS);
}
