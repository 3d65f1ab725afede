//! The Lift cards read back: a card a truck, every lift that may be made on one and no other, pages that fit.

use super::*;
use std::io::Read as _;

fn rows(audit: &Audit) -> Vec<Vec<String>> {
    let range = sheet(&mut read(bytes(audit)), "Lift cards");
    let rows = range.rows().skip(1);
    rows.map(|row| row.iter().map(ToString::to_string).collect())
        .collect()
}

/// The rows of lifts: those with a box to tick.
fn lifts(audit: &Audit) -> Vec<Vec<String>> {
    let ticked = |row: &Vec<String>| row[8] == "\u{2610}";
    rows(audit).into_iter().filter(ticked).collect()
}

#[test]
fn a_card_says_what_its_truck_lifts_and_what_to_mind() {
    let rows = rows(&testing::audit());
    let heads: Vec<&str> = rows
        .iter()
        .map(|row| row[0].as_str())
        .filter(|text| text.starts_with("Truck"))
        .collect();
    // 1,425 kg = 3,141.6 lb; 1,100.2 kg = 2,425.5 lb; both up.
    assert_eq!(
        heads,
        [
            "Truck FL-15, bare forks: 6 lifts, heaviest 3,142 lb. Page 1 of 1.",
            "Truck FL-25, bare forks: 2 lifts, heaviest 2,426 lb. Page 1 of 1.",
        ]
    );
    for said in [
        "HELD goods are not on this card. What is not on it stays down.",
        "Read the capacity plate before the first lift: it comes before this card.",
    ] {
        assert_eq!(
            rows.iter().filter(|row| row[0] == said).count(),
            2,
            "{said}"
        );
    }
    let pipe = rows
        .iter()
        .find(|row| row[2].starts_with(testing::MISSING))
        .expect("on a card");
    // 600 mm = 23.62 in, up; 2,400 kg = 5,291.1 lb, down; 2,425.5 / 5,291.1 = 45.8 %, up.
    assert_eq!(
        pipe[..8],
        [
            "bramble-steel",
            "G7",
            "CP-30: Concrete pipe OD 762 x ID 610 x 2400 mm",
            "2",
            "2426",
            "23.7",
            "5291",
            "0.46"
        ]
    );
    assert_eq!(
        pipe[9],
        "one piece (ASSUMED); check today: see Exceptions; calculated, the plate governs"
    );
}

#[test]
fn no_held_lift_is_on_a_card_and_no_other_is_missing() {
    let on_cards = |audit: &Audit| -> Vec<String> {
        lifts(audit).into_iter().map(|row| row[1].clone()).collect()
    };
    let mut audit = testing::audit();
    // FL-15 takes G6, G9 and the coil, FL-25 takes G7.
    assert_eq!(on_cards(&audit), ["G6", "G9", "E4", "G7"]);
    for delivery in &mut audit.deliveries {
        delivery.findings = testing::audit().deliveries[0].lines[2].findings.clone();
    }
    assert_eq!(
        on_cards(&audit),
        [""; 0],
        "a stop on the delivery holds all of it"
    );
    assert!(rows(&audit)[0][0].starts_with("No lift may be made now"));
}

/// The parts of the sheet's file that set up its pages.
fn page_set_up(bytes: Vec<u8>, names: &[String]) -> String {
    let at = names
        .iter()
        .position(|name| name == "Lift cards")
        .expect("the sheet")
        + 1;
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip file");
    let mut xml = String::new();
    let part = format!("xl/worksheets/sheet{at}.xml");
    zip.by_name(&part)
        .expect("the part")
        .read_to_string(&mut xml)
        .expect("UTF-8");
    let end = xml.find("</sheetData>").expect("rows");
    let heights = xml.matches(" ht=\"").count();
    format!("{heights} {}", &xml[end..])
}

/// Each page has the truck's heading again, and begins where the sheet has a page break.
#[test]
fn a_card_of_many_lifts_goes_over_several_pages_with_its_heading() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let line = audit.deliveries[0].lines[0].clone();
    audit.deliveries[0].lines = vec![line; 100];
    let rows = rows(&audit);
    let heads: Vec<(usize, &str)> = rows
        .iter()
        .enumerate()
        .filter(|(_, row)| row[0].starts_with("Truck FL-15"))
        .map(|(at, row)| (at + 1, row[0].as_str()))
        .collect();
    let pages = heads.len();
    assert!((6..=20).contains(&pages), "{heads:?}");
    for (number, (_, head)) in heads.iter().enumerate() {
        assert!(
            head.ends_with(&format!("Page {} of {pages}.", number + 1)),
            "{head}"
        );
    }
    assert_eq!(lifts(&audit).len(), 100);
    let bytes = bytes(&audit);
    let names = read(bytes.clone()).sheet_names();
    let set_up = page_set_up(bytes, &names);
    for (at, _) in &heads[1..] {
        assert!(
            set_up.contains(&format!("<brk id=\"{at}\"")),
            "{at}\n{set_up}"
        );
    }
    // A program that fits a sheet to the page leaves its page breaks out.
    assert!(
        set_up.contains("scale=\"72\"") && !set_up.contains("fitToHeight"),
        "{set_up}"
    );
}

/// A sheet has so many page breaks and no more; the cards go on on a further one, and Dock says so.
#[test]
fn cards_beyond_the_last_page_break_stand_on_a_further_sheet() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let mut line = audit.deliveries[0].lines[0].clone();
    // A page has room for one of them.
    line.item.item = Some("PL-10 ".repeat(120));
    audit.deliveries[0].lines = vec![line; 1_100];
    let mut workbook = read(bytes(&audit));
    let names = workbook.sheet_names();
    assert!(names.contains(&"Lift cards 2".to_string()), "{names:?}");
    let ticked: usize = names
        .iter()
        .filter(|name| name.starts_with("Lift cards"))
        .map(|name| {
            let range = sheet(&mut workbook, name);
            range
                .rows()
                .filter(|row| row.get(8).is_some_and(|cell| *cell == "\u{2610}"))
                .count()
        })
        .sum();
    assert_eq!(ticked, 1_100);
}

#[test]
fn where_no_number_could_be_read_the_pieces_are_counted_first() {
    let mut audit = testing::audit();
    let line = &mut audit.deliveries[0].lines[0];
    (line.item.pieces, line.item.pieces_how) = (1, crate::understand::How::Assumed);
    let cards = lifts(&audit);
    let card = cards
        .iter()
        .find(|row| row[2].starts_with(testing::CONSISTENT));
    let card = card.expect("its card");
    assert!(card[9].contains("count the pieces first"), "{card:?}");
    let counted = cards
        .iter()
        .filter(|row| row[9].contains("count the pieces"));
    assert_eq!(counted.count(), 1, "{cards:?}");
    let plan = sheet(&mut read(bytes(&audit)), "Lift plan");
    assert_eq!(
        find(&plan, "Item", testing::CONSISTENT, "Pieces").to_string(),
        "not read"
    );
}
