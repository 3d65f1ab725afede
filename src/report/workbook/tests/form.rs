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

/// Six rows a sheet: a figure of another sheet is named with its sheet, and each that only repeats one shows the same.
#[test]
fn the_working_goes_on_over_sheets() {
    let audit = testing::audit();
    let mut bytes = Vec::new();
    let book = book_of(&audit).expect("a date of our time");
    finish(book.with_most_rows(6), &audit, &[], &mut bytes).expect("a vector takes everything");
    let mut workbook = read(bytes);
    let names = workbook.sheet_names();
    assert!(
        names.iter().all(|name| name.chars().count() <= 31),
        "{names:?}"
    );
    let ours: Vec<String> = names
        .into_iter()
        .filter(|name| name.starts_with("Working"))
        .collect();
    assert!(ours.len() > 5, "{ours:?}");
    let mut crossing = 0;
    for name in &ours {
        let shown = sheet(&mut workbook, name);
        let formulas = workbook
            .worksheet_formula(name)
            .expect("the sheet is there");
        let (top, left) = formulas.start().unwrap_or_default();
        for (row, column, formula) in formulas.used_cells() {
            let Some((other, cell)) = formula.rsplit_once('!') else {
                continue;
            };
            if formula.contains('*') {
                continue;
            }
            let at: u32 = cell.trim_start_matches('F').parse().expect("a row");
            let there = sheet(&mut workbook, other.trim_matches('\''));
            let here = (row as u32 + top, column as u32 + left);
            assert_eq!(
                shown.get_value(here),
                there.get_value((at - 1, 5)),
                "{formula} on {name}"
            );
            crossing += 1;
        }
    }
    assert!(crossing > 2, "{crossing}");
}

#[test]
fn links_beyond_what_a_sheet_holds_stay_text() {
    let audit = testing::audit();
    let links = |most: u32| {
        let mut bytes = Vec::new();
        let book = book_of(&audit).expect("a date of our time");
        finish(book.with_most_links(most), &audit, &[], &mut bytes).expect("a vector");
        let range = sheet(&mut read(bytes.clone()), EXCEPTIONS);
        let texts = range
            .rows()
            .skip(1)
            .filter(|row| row[6] != Data::Empty)
            .count();
        let parts = parts(bytes);
        let links = parts
            .iter()
            .map(|(_, text)| text.matches("<hyperlink ").count());
        (texts, links.sum::<usize>())
    };
    // Six lines and packages are flagged.
    assert_eq!(links(100), (6, 6));
    assert_eq!(links(2), (6, 2));
}

/// The page header has the site, the day and the delivery, and what would be a command there is doubled.
#[test]
fn pages_say_what_they_are_of() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    audit.deliveries[0].reading.delivery = "A & B".into();
    let parts = parts(bytes(&audit));
    let (_, text) = parts
        .iter()
        .find(|(name, _)| name == "xl/worksheets/sheet1.xml")
        .expect("the first sheet");
    let header = "&amp;LKestrel Junction stores &amp;&amp; yard  ·  2026-05-04&amp;CA &amp;&amp; B&amp;RDock";
    assert!(text.contains(header), "{text}");
}

/// The charts of Dock and Fleet show rows: what is sorted there would stand under another truck's bar.
#[test]
fn sheets_whose_charts_show_single_trucks_have_no_filter() {
    let audit = testing::audit();
    let parts = parts(bytes(&audit));
    for (name, at) in SHEETS.iter().zip(1..) {
        let part = format!("xl/worksheets/sheet{at}.xml");
        let (_, text) = parts
            .iter()
            .find(|(name, _)| *name == part)
            .expect("a sheet");
        let sorted = !["Dock", "Fleet"].contains(name);
        assert_eq!(text.contains("<autoFilter"), sorted, "{name}");
    }
}

/// A figure that its column has no room for is printed smaller, never as a row of hashes.
#[test]
fn every_format_of_figures_shrinks() {
    let parts = parts(bytes(&testing::audit()));
    let (_, styles) = parts
        .iter()
        .find(|(name, _)| name == "xl/styles.xml")
        .expect("styles");
    let (_, formats) = styles.split_once("<cellXfs").expect("formats");
    let figures: Vec<&str> = formats
        .split("<xf ")
        .filter(|one| one.contains("horizontal=\"right\""))
        .collect();
    assert!(figures.len() > 5, "{figures:?}");
    for one in figures {
        assert!(one.contains("shrinkToFit=\"1\""), "{one}");
    }
}

/// 120 letters of a supplier's name stand in full where the letter is addressed; else they make no row taller.
#[test]
fn a_long_name_of_a_supplier_stands_in_full_once() {
    let mut audit = testing::audit();
    let name = "Bramble Steelworks of the Upper and the Lower ".repeat(3);
    let name = name.trim_end();
    audit.deliveries.truncate(1);
    audit.deliveries[0].reading.supplier = Some(name.into());
    audit.deliveries[0].lines.remove(3);
    let mut workbook = read(bytes(&audit));
    let short = "Bramble Steelworks of the Upper and the ...";
    let exceptions = sheet(&mut workbook, EXCEPTIONS);
    assert!(exceptions.rows().skip(1).all(|row| row[16] == *short));
    let questions = sheet(&mut workbook, "Questions");
    assert!(questions.rows().skip(1).all(|row| row[1] == *short));
    let full = questions
        .rows()
        .filter(|row| row[3].to_string().contains(name));
    let full: Vec<String> = full.map(|row| row[3].to_string()).collect();
    assert_eq!(full, [format!("To: {name}")]);
}

/// Name and text of each part of the file.
fn parts(bytes: Vec<u8>) -> Vec<(String, String)> {
    let mut file = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip file");
    let parts = (0..file.len()).map(|at| {
        let mut part = file.by_index(at).expect("a part");
        let name = part.name().expect("a name").into_owned();
        let mut text = String::new();
        std::io::Read::read_to_string(&mut part, &mut text).expect("text");
        (name, text)
    });
    parts.collect()
}

/// The figures between two marks, each time they stand there.
fn figures(text: &str, from: &str, to: &str) -> Vec<u32> {
    let pieces = text.split(from).skip(1);
    let figures = pieces.map(|piece| piece.split(to).next().expect("a piece").parse());
    figures.map(|figure| figure.expect("a figure")).collect()
}

/// A register of 30 trucks has charts on several pages: each stands between two page breaks.
#[test]
fn no_chart_of_the_register_goes_over_the_end_of_a_page() {
    let audit = testing::audit();
    let mut fleet = audit.fleet.expect("a register");
    let sound = fleet.trucks[0].clone();
    fleet.trucks = vec![sound; 30];
    let mut bytes = Vec::new();
    write_register(&fleet, audit.date, &audit.site, &mut bytes).expect("a vector");
    let parts = parts(bytes);
    let part = |end: &str| {
        let found = parts.iter().find(|(name, _)| name.ends_with(end));
        found.map(|(_, text)| text.as_str()).expect("the part")
    };
    let breaks = figures(part("sheet1.xml"), "<brk id=\"", "\"");
    assert!(breaks.len() > 3, "{breaks:?}");
    let rows = figures(part("drawing1.xml"), "<xdr:row>", "</xdr:row>");
    assert_eq!(rows.len(), 60, "first and last row of each chart");
    for ends in rows.chunks(2) {
        let broken = breaks
            .iter()
            .find(|row| (ends[0] + 1..=ends[1]).contains(*row));
        assert_eq!(broken, None, "{ends:?}");
    }
}
