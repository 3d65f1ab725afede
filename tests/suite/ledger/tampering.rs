//! What somebody who may write the file can do to it, and what the check says.

use super::{head, kept, out};
use crate::helper::{audit_in, dockheft, said, status};
use rusqlite::Connection;
use rusqlite::types::Value;
use std::path::Path;

/// The ledger of a folder without its guards, as a forger has it.
pub(super) fn forced(folder: &Path) -> Connection {
    let db = Connection::open(folder.join("ledger.dockheft")).expect("it opens");
    let guards: Vec<String> = db
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .and_then(|mut list| list.query_map([], |row| row.get(0))?.collect())
        .expect("a list");
    for guard in guards {
        db.execute_batch(&format!("DROP TRIGGER {guard}"))
            .expect("dropped");
    }
    db.execute_batch("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON")
        .expect("set");
    db
}

#[track_caller]
pub(super) fn fails(folder: &Path, args: &[&str], named: &str) {
    let output = dockheft(folder, &[&["ledger", "check"], args].concat());
    assert_eq!(
        status(&output),
        4,
        "{named}: {}{}",
        out(&output),
        said(&output)
    );
    assert!(out(&output).contains(named), "{named}: {}", out(&output));
}

/// Every field of every record, changed in its last byte or figure.
#[test]
fn a_change_anywhere_names_its_record() {
    for table in [
        "content", "audit", "source", "delivery", "load", "decision", "history",
    ] {
        let columns: Vec<String> = {
            let folder = kept();
            let db = forced(folder.path());
            db.prepare(&format!(
                "SELECT name FROM pragma_table_info('{table}') WHERE name <> 'number'"
            ))
            .and_then(|mut list| list.query_map([], |row| row.get(0))?.collect())
            .expect("a list")
        };
        let folder = kept();
        let whole = std::fs::read(folder.path().join("ledger.dockheft")).expect("the ledger");
        for column in columns {
            std::fs::write(folder.path().join("ledger.dockheft"), &whole).expect("put back");
            let db = forced(folder.path());
            let (number, value): (i64, Value) = db
                .query_row(
                    &format!("SELECT number, {column} FROM {table} ORDER BY number LIMIT 1"),
                    [],
                    |row| Ok((row.get(0)?, row.get(1)?)),
                )
                .expect("a record");
            let changed = match value {
                Value::Null => Value::Text(String::new()),
                Value::Integer(whole) => Value::Integer(whole ^ 1),
                Value::Real(figure) => Value::Real(f64::from_bits(figure.to_bits() ^ 1)),
                Value::Text(mut text) => {
                    let last = text.pop();
                    text.push(if last == Some('x') { 'y' } else { 'x' });
                    Value::Text(text)
                }
                Value::Blob(mut bytes) => {
                    if let Some(last) = bytes.last_mut() {
                        *last ^= 1;
                    }
                    Value::Blob(bytes)
                }
            };
            let changed = match (column.as_str(), changed) {
                ("plan_kg" | "before_kg", Value::Text(_)) => Value::Real(1.0),
                (_, changed) => changed,
            };
            db.execute(
                &format!("UPDATE {table} SET {column} = ?1 WHERE number = ?2"),
                (changed, number),
            )
            .expect("changed");
            drop(db);
            fails(
                folder.path(),
                &[],
                &format!("NOT AS RECORDED: record {number} ("),
            );
        }
    }
}

#[test]
fn what_is_taken_out_swapped_back_dated_or_forged_is_named() {
    let named = |change: &str, named: &str| {
        let folder = kept();
        forced(folder.path()).execute_batch(change).expect(change);
        fails(folder.path(), &[], named);
    };
    let folder = kept();
    let db = Connection::open(folder.path().join("ledger.dockheft")).expect("it opens");
    let numbers: Vec<i64> = db
        .prepare("SELECT number FROM load ORDER BY number")
        .and_then(|mut list| list.query_map([], |row| row.get(0))?.collect())
        .expect("numbers");
    let decision: i64 = db
        .query_row("SELECT number FROM decision", [], |row| row.get(0))
        .expect("one");
    let (one, two) = (numbers[0], numbers[1]);
    named(
        &format!("DELETE FROM load WHERE number = {one}"),
        &format!("record {one} is missing"),
    );
    named(
        &format!(
            "UPDATE load SET number = -1 WHERE number = {one}; UPDATE load SET number = {one} WHERE number = {two}; UPDATE load SET number = {two} WHERE number = -1"
        ),
        &format!("record {one} ("),
    );
    named(
        "UPDATE decision SET time = '2026-11-01T07:00:00+00:00'",
        &format!("record {decision} (decision \"weighed\" on line "),
    );
    let forgery = format!(
        "INSERT OR REPLACE INTO load SELECT number, delivery, id, day, supplier, item, po, truck, ' ', 0, substance, description, body, shown, hash FROM load WHERE number = {two}"
    );
    named(&forgery, &format!("record {two} ("));
    // With the guards in place nothing of it is possible, whatever a connection sets.
    for recursive in ["ON", "OFF"] {
        db.execute_batch(&format!("PRAGMA recursive_triggers = {recursive}"))
            .expect("set");
        for change in [
            forgery.as_str(),
            "DELETE FROM decision",
            "UPDATE audit SET day = '2026-01-01'",
            "INSERT OR REPLACE INTO content SELECT 999, sha256, size, packed, hash FROM content LIMIT 1",
        ] {
            let refused = db.execute_batch(change).expect_err(change);
            assert!(refused.to_string().contains("only added to"), "{refused}");
        }
    }
    let check = dockheft(folder.path(), &["ledger", "check"]);
    assert_eq!(status(&check), 0, "{}", out(&check));
}

#[test]
fn a_cut_tail_is_known_by_a_head_kept_apart() {
    let folder = kept();
    let whole = head(&out(&dockheft(folder.path(), &["ledger", "check"]))).expect("a head");
    // A clever cut: figures are cut too, and the guards are put back.
    let guards: Vec<String> = Connection::open(folder.path().join("ledger.dockheft"))
        .and_then(|db| {
            db.prepare("SELECT sql FROM sqlite_schema WHERE type = 'trigger'")?
                .query_map([], |row| row.get(0))?
                .collect()
        })
        .expect("guards");
    let db = forced(folder.path());
    let cut = whole.0 - 1;
    db.execute_batch(&format!(
        "DELETE FROM load WHERE number > {cut}; DELETE FROM figure WHERE load > {cut}"
    ))
    .expect("cut");
    db.execute_batch(&guards.join(";")).expect("put back");
    drop(db);
    let check = dockheft(folder.path(), &["ledger", "check"]);
    assert_eq!(status(&check), 0, "{}", out(&check));
    assert!(
        out(&check).contains("Not known from here: whether records were cut off"),
        "{}",
        out(&check)
    );
    fails(
        folder.path(),
        &["--head", &whole.1],
        "Records were cut off at the end",
    );
}

/// One byte of the file itself, inside a record.
#[test]
fn a_byte_changed_in_the_file_is_found() {
    let folder = kept();
    let path = folder.path().join("ledger.dockheft");
    let mut bytes = std::fs::read(&path).expect("the ledger");
    let part = b"\"verdict\":\"light\"";
    let at = bytes
        .windows(part.len())
        .position(|window| window == part)
        .expect("it stands there");
    bytes[at + 11] ^= 1;
    std::fs::write(&path, bytes).expect("written");
    fails(folder.path(), &[], "NOT AS RECORDED: record ");
}

/// A head that is found says nothing of a ledger that was tampered with before it.
#[test]
fn a_head_that_is_found_does_not_gloss_over_a_fault() {
    let folder = kept();
    let (_, last) = head(&out(&dockheft(folder.path(), &["ledger", "check"]))).expect("a head");
    forced(folder.path())
        .execute_batch("UPDATE audit SET day = '2026-01-01'")
        .expect("changed");
    let check = dockheft(folder.path(), &["ledger", "check", "--head", &last]);
    assert_eq!(status(&check), 4, "{}", out(&check));
    let text = out(&check);
    assert!(text.contains("but see above"), "{text}");
    assert!(!text.contains("nothing was changed"), "{text}");
}

/// A file made to break the check is told about, and breaks nothing.
#[test]
fn a_ledger_made_to_break_the_check_is_named() {
    let folder = kept();
    let whole = std::fs::read(folder.path().join("ledger.dockheft")).expect("the ledger");
    for (change, named) in [
        (
            "DROP TABLE decision; CREATE TABLE decision (number INTEGER PRIMARY KEY); INSERT INTO decision VALUES (1)",
            "no record was checked",
        ),
        (
            "DROP TABLE content; CREATE TABLE content (number INTEGER PRIMARY KEY, hash BLOB); INSERT INTO content VALUES (1, zeroblob(32))",
            "no record was checked",
        ),
        (
            "DROP TABLE decision; CREATE VIEW decision AS SELECT 1 AS number",
            "no record was checked",
        ),
        (
            "UPDATE decision SET number = 9223372036854775807",
            "are missing",
        ),
        (
            "UPDATE decision SET number = 9223372036854775807; UPDATE load SET number = 9223372036854775807 WHERE number = (SELECT max(number) FROM load)",
            "has no number left",
        ),
        ("UPDATE decision SET number = -5", "record -5 "),
        (
            "UPDATE content SET size = -9223372036854775807 - 1",
            "the kept bytes are not those",
        ),
    ] {
        std::fs::write(folder.path().join("ledger.dockheft"), &whole).expect("put back");
        forced(folder.path()).execute_batch(change).expect(change);
        fails(folder.path(), &[], named);
        let again = dockheft(folder.path(), &["ledger", "check", "--again"]);
        assert_eq!(status(&again), 4, "{change}: {}", said(&again));
        let line = [
            "decide", "--line", "0", "--as", "refused", "--by", "J. Rook",
        ];
        let decided = dockheft(folder.path(), &line);
        assert!(
            [3, 4].contains(&status(&decided)),
            "{change}: {}",
            said(&decided)
        );
        let audit = audit_in(folder.path(), &["list.csv", "--out", "again.xlsx"]);
        assert!(
            [0, 4].contains(&status(&audit)),
            "{change}: {}",
            said(&audit)
        );
    }
}

/// Every record is held against today's of its own row: one that is not there says nothing of those after it.
#[test]
fn a_record_that_is_missing_is_the_only_difference() {
    let folder = kept();
    let db = forced(folder.path());
    db.execute_batch("DELETE FROM load WHERE number = (SELECT min(number) FROM load)")
        .expect("taken out");
    db.execute_batch("UPDATE load SET body = replace(body, '\"pieces\":1', '\"pieces\":2') WHERE number = (SELECT max(number) FROM load)")
        .expect("changed");
    drop(db);
    let again = dockheft(folder.path(), &["ledger", "check", "--again"]);
    let text = out(&again);
    assert!(text.contains(" 2 otherwise"), "{text}");
    for told in [
        "line in row 2 of list.csv: is not on record, and would be",
        "line in row 3 of list.csv: pieces was 2, would be 1\n",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
}
