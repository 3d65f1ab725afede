//! What is refused as a whole, with the cell that is to blame, and nothing recorded.

use super::*;

/// Sends a workbook that was changed; it must be refused, saying each of the parts, and record nothing.
#[track_caller]
fn refused(at: &Path, book: &str, parts: &[&str]) {
    let before = std::fs::read(at.join("ledger.dockheft")).expect("a ledger");
    let output = decide(at, book);
    let text = said(&output);
    assert_eq!(status(&output), 3, "{}{text}", told(&output));
    for part in parts {
        assert!(text.contains(part), "\"{part}\" in: {text}");
    }
    assert!(text.contains("nothing was decided"), "{text}");
    assert!(!at.join("fresh.xlsx").exists());
    let after = std::fs::read(at.join("ledger.dockheft")).expect("a ledger");
    assert!(before == after, "the ledger was written to");
}

type Change = fn(&mut Book);

#[test]
fn a_decision_that_is_not_whole_is_refused_with_its_cell() {
    let folder = audited();
    let at = folder.path();
    // What is changed in a good decision on SB-2, the heading of the cell that is named, and what is said of it.
    let cases: [(Change, &str, &str); 15] = [
        (
            |book| book.set("SB-2", "Decision", "acept"),
            "Decision",
            "no decision",
        ),
        (
            |book| book.set("SB-2", "Decision", ""),
            "Decision",
            "nothing is decided here",
        ),
        (
            |book| book.set("SB-2", "Decision", "7"),
            "Decision",
            "no decision",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", ""),
            "Weight (lb)",
            "needs the weight",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", "-5"),
            "Weight (lb)",
            "above zero",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", "0"),
            "Weight (lb)",
            "above zero",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", "about a ton"),
            "Weight (lb)",
            "above zero",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", "4,700 kg"),
            "Weight (lb)",
            "two things",
        ),
        (
            |book| book.set("SB-2", "Weight (lb)", "2026-11-25"),
            "Weight (lb)",
            "above zero",
        ),
        (
            |book| book.set("SB-2", "Decision", "refused"),
            "Weight (lb)",
            "takes no weight",
        ),
        (
            |book| book.set("SB-2", "Evidence", ""),
            "Evidence",
            "needs what it rests on",
        ),
        (
            |book| book.set("SB-2", "Decided by", " "),
            "Decided by",
            "needs a name",
        ),
        (
            |book| book.set("SB-2", "Decided by", "7"),
            "Decided by",
            "no name",
        ),
        (
            |book| book.set("SB-2", "Date", "2026-11-27"),
            "Date",
            "still to come",
        ),
        (
            |book| book.set("SB-2", "Date", "03/04/2026"),
            "Date",
            "one way",
        ),
    ];
    for (change, heading, why) in cases {
        let mut cell = String::new();
        Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
            fill(book);
            change(book);
            cell = book.name("SB-2", heading);
        });
        refused(
            at,
            "sent.xlsx",
            &[&format!("sent.xlsx › Exceptions!{cell}: "), why],
        );
    }
}

/// Every reason is told at once, the ledger's too, in the order of the rows.
#[test]
fn all_reasons_are_told_at_once() {
    let folder = audited();
    let at = folder.path();
    let mut cells = Vec::new();
    Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
        fill(book);
        book.set("SB-1", "Date", "2020-01-01");
        book.set("SB-4", "Evidence", "packing list");
        book.set("SB-4", "Weight (lb)", "500");
        book.set("SB-5", "Decided by", "");
        book.set("SB-6", "Decided by", "J. Rook");
        cells = [
            ("SB-1", "Date"),
            ("SB-4", "Decision"),
            ("SB-5", "Decided by"),
            ("SB-6", "Decision"),
        ]
        .map(|(item, heading)| format!("!{}: ", book.name(item, heading)))
        .to_vec();
    });
    let mut parts: Vec<&str> = cells.iter().map(String::as_str).collect();
    parts.extend(["is before the audit", "is the supplier's first document"]);
    refused(at, "sent.xlsx", &parts);
}

#[test]
fn a_workbook_of_another_site_is_refused() {
    let (folder, other) = (audited(), folder());
    let at = other.path();
    write(at, "list.csv", &list().replace("SB-", "XB-"));
    audit_in(at, &["list.csv", "--quiet"]);
    Book::edit(
        &folder.path().join("book.xlsx"),
        &at.join("sent.xlsx"),
        fill,
    );
    refused(
        at,
        "sent.xlsx",
        &["is not in the ledger", "Kestrel Junction"],
    );
    // The same list audited there has the same id; the head tells the two ledgers apart.
    write(at, "list.csv", &list());
    audit_in(at, &["list.csv", "--quiet"]);
    refused(
        at,
        "sent.xlsx",
        &["carries a head that is not in the ledger"],
    );
    write(at, "sent.xlsx", "Description,Qty\nSteel block,1\n");
    refused(at, "sent.xlsx", &["no exception workbook of this program"]);
}

#[test]
fn a_tampered_id_is_refused_with_its_cell() {
    let folder = audited();
    let at = folder.path();
    const MARK: &str = "Mark (leave as it is)";
    let swapped = |digit: char| if digit == '0' { '1' } else { '0' };
    for heading in ["Line", MARK] {
        for place in [0, 20, 40] {
            let mut cell = String::new();
            Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
                fill(book);
                let (row, column) = (book.row("Item", "SB-2"), book.column(heading));
                let text = &mut book.exceptions()[row][column];
                let place = place.min(text.len() - 1);
                let digit = text.chars().nth(place).expect("a digit");
                text.replace_range(place..=place, &swapped(digit).to_string());
                cell = format!("{}", row + 1);
            });
            let said = match (heading, place) {
                // Another audit's id.
                (MARK, 0) => "more than one audit".to_string(),
                _ => format!("{cell}: "),
            };
            refused(at, "sent.xlsx", &[&said]);
        }
    }
    // The whole mark of another row, with the line's id or without.
    for headings in [&[MARK][..], &[MARK, "Line"]] {
        Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
            fill(book);
            for heading in headings {
                let (from, to, column) = (
                    book.row("Item", "SB-1"),
                    book.row("Item", "SB-2"),
                    book.column(heading),
                );
                book.exceptions()[to][column] = book.exceptions()[from][column].clone();
            }
        });
        refused(at, "sent.xlsx", &["Exceptions!"]);
    }
}

/// The first columns sorted without the last: every decision would land on another line.
#[test]
fn columns_sorted_by_themselves_are_refused() {
    let folder = audited();
    let at = folder.path();
    Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
        fill(book);
        let first = book.column("Decision");
        let rows = book.exceptions();
        let before: Vec<Vec<String>> = rows.iter().map(|row| row[..first].to_vec()).collect();
        let last = rows.len() - 1;
        for at in 1..=last {
            rows[at][..first].clone_from_slice(&before[last + 1 - at]);
        }
    });
    refused(at, "sent.xlsx", &["and the cells of line"]);
}

#[test]
fn a_line_decided_twice_otherwise_is_refused_and_alike_is_taken() {
    let folder = audited();
    let at = folder.path();
    let twice = |name: &str, change: Change| {
        Book::edit(&at.join("book.xlsx"), &at.join(name), |book| {
            fill(book);
            let row = book.row("Item", "SB-1");
            let copy = book.exceptions()[row].clone();
            change(book);
            book.exceptions().push(copy);
        });
    };
    twice("sent.xlsx", |book| book.set("SB-1", "Weight (lb)", "976"));
    refused(at, "sent.xlsx", &["the same line is decided otherwise in"]);
    twice("sent.xlsx", |_| {});
    let output = decide(at, "sent.xlsx");
    assert_eq!(status(&output), 1, "{}", said(&output));
    assert_filled(at);
}

#[test]
fn headings_that_say_otherwise_are_refused() {
    let folder = audited();
    let at = folder.path();
    let cases: [(Change, &str); 3] = [
        (
            |book| heading(book, "Weight (lb)", "Weight (kg)"),
            "write the unit beside the figure",
        ),
        (
            |book| heading(book, "Evidence", "Proof"),
            "no column is headed \"Evidence\"",
        ),
        (
            |book| heading(book, "Urgency", "Decision"),
            "a second column is headed \"Decision\"",
        ),
    ];
    for (change, why) in cases {
        Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
            fill(book);
            change(book);
        });
        refused(at, "sent.xlsx", &[why]);
    }
}

fn heading(book: &mut Book, from: &str, to: &str) {
    let column = book.column(from);
    book.exceptions()[0][column] = to.to_string();
}

/// The supplier sent a corrected list since: what was decided on the old one says nothing of it.
#[test]
fn a_decision_on_a_list_that_was_replaced_is_refused() {
    let folder = audited();
    let at = folder.path();
    write(at, "list.csv", &list().replace(",205\n", ",979\n"));
    assert_eq!(status(&audit_in(at, &["list.csv", "--quiet"])), 1);
    Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), fill);
    refused(
        at,
        "sent.xlsx",
        &["another list of this delivery was audited since"],
    );
}

/// A finding on a whole delivery that no one decision settles.
#[test]
fn a_row_without_a_mark_takes_no_decision() {
    let folder = audited();
    let at = folder.path();
    const MARK: &str = "Mark (leave as it is)";
    Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
        fill(book);
        book.set("SB-2", MARK, "");
    });
    refused(at, "sent.xlsx", &["has no mark"]);
}

/// A bare figure is kilograms at one site and pounds at another: whoever accepts it means the one that the workbook shows.
#[test]
fn a_decision_on_what_is_worked_out_otherwise_since_is_refused() {
    let folder = folder();
    let at = folder.path();
    let bare = "Supplier,Item,Description,Qty,Gross weight\nTarn Steel,SB-1,Pump base,1,5000\n";
    write(at, "list.csv", bare);
    let audited = |units: &str, book: &str| {
        write(at, "site.toml", &format!("units = \"{units}\"\n"));
        let output = audit_in(at, &["list.csv", "--out", book]);
        assert!(status(&output) < 2, "{}", said(&output));
    };
    audited("us", "first.xlsx");
    audited("si", "book.xlsx");
    audited("us", "third.xlsx");
    Book::edit(&at.join("book.xlsx"), &at.join("sent.xlsx"), |book| {
        for (heading, text) in [
            ("Decision", "accept declared"),
            ("Evidence", "scale ticket 5518"),
            ("Decided by", "J. Rook"),
            ("Date", DAY),
        ] {
            book.set("SB-1", heading, text);
        }
    });
    refused(at, "sent.xlsx", &["worked out otherwise since"]);
}
