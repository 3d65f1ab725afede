//! The ledger as an auditor meets it: a full day, tampering, killed processes, many at once.

use crate::helper::{audit_in, dockheft, lines, parsed, said, status};
use rusqlite::Connection;
use rusqlite::types::Value;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

const HEADINGS: &str = "Delivery,Supplier,Order,Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\nA,V,5000,24,160,yes,2027-06-01\n";

/// A list of one delivery: a line that fits and one at half its weight.
fn list(light: u32) -> String {
    format!(
        "{HEADINGS}D-1,Tarn Steel,PO 7,SB-1,Steel block,1,24,12,12,985\nD-1,Tarn Steel,PO 7,SB-2,Steel block,1,24,12,12,{light}\n"
    )
}

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    write(
        folder.path(),
        "site.toml",
        "units = \"us\"\nfleet = \"fleet.csv\"\n",
    );
    write(folder.path(), "fleet.csv", FLEET);
    write(folder.path(), "list.csv", &list(490));
    folder
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).expect("a file");
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// Size and head that a run printed last.
fn head(text: &str) -> Option<(u64, String)> {
    let line = text.lines().rev().find(|line| line.contains(", head "))?;
    let (before, head) = line.split_once(", head ")?;
    let size = before.rsplit(' ').nth(1)?.parse().ok()?;
    (head.len() == 64).then(|| (size, head.to_string()))
}

#[track_caller]
fn audited(folder: &Path, list: &str) -> (u64, String) {
    let output = audit_in(folder, &[list]);
    assert!(status(&output) < 2, "{}", said(&output));
    head(&out(&output)).expect("size and head are printed")
}

fn id(folder: &Path, item: &str) -> String {
    let output = dockheft(folder, &["trace", "--item", item, "--json"]);
    let hits = parsed(&output.stdout);
    hits[0]["id"].as_str().expect("an id").to_string()
}

/// A ledger with two audits and a decision.
fn kept() -> TempDir {
    let folder = folder();
    audited(folder.path(), "list.csv");
    let light = id(folder.path(), "SB-2");
    let output = dockheft(
        folder.path(),
        &[
            "decide", "--line", &light, "--as", "weighed", "--weight", "978 lb", "--by", "J. Rook",
        ],
    );
    assert_eq!(status(&output), 0, "{}", said(&output));
    write(folder.path(), "list.csv", &list(979));
    audited(folder.path(), "list.csv");
    folder
}

/// The ledger of a folder without its guards, as a forger has it.
fn forced(folder: &Path) -> Connection {
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
fn fails(folder: &Path, args: &[&str], named: &str) {
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

#[test]
fn a_day_is_kept_found_proven_and_copied() {
    let folder = folder();
    let at = folder.path();
    write(at, "other.csv", &list(985).replace("D-1", "D-2"));
    let (_, first) = audited(at, "list.csv");
    audited(at, "other.csv");
    audited(at, "list.csv");
    let trace = |args: &[&str]| dockheft(at, &[&["trace"], args].concat());
    let open = parsed(&trace(&["--decision", "open", "--finding", "--json"]).stdout);
    assert_eq!(
        open.len(),
        1,
        "of two audits of one delivery the later counts"
    );
    let light_id = open[0]["id"].as_str().expect("an id").to_string();
    let decide = |args: &[&str]| {
        dockheft(
            at,
            &[&["decide", "--line", &light_id, "--by", "J. Rook"], args].concat(),
        )
    };
    let refused = decide(&["--as", "accept declared"]);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert!(
        said(&refused).contains("not the supplier's first document"),
        "{}",
        said(&refused)
    );
    let refused = decide(&["--as", "accept declared", "--evidence", "packing list D-1"]);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert_eq!(status(&decide(&["--as", "use estimate"])), 0);
    let weighed = decide(&[
        "--as",
        "weighed",
        "--weight",
        "978 lb",
        "--evidence",
        "scale ticket 12",
        "--remark",
        "dry",
    ]);
    assert_eq!(status(&weighed), 0, "{}", said(&weighed));
    assert!(
        out(&weighed).contains("beside 1 earlier"),
        "{}",
        out(&weighed)
    );
    let story = out(&trace(&["--line", &light_id]));
    for part in [
        "490",
        "list.csv",
        "scale ticket 12",
        "J. Rook",
        "978 lb",
        "\"use estimate\"",
        "source:",
        "light:",
    ] {
        let there = story.contains(part);
        assert!(there, "{part}: {story}");
    }
    // The list comes again, corrected: the decision was made on other figures.
    write(at, "list.csv", &list(979));
    let (_, last) = audited(at, "list.csv");
    let story = out(&trace(&["--line", &light_id]));
    assert!(
        story.contains("does not stand for the latest one"),
        "{story}"
    );
    assert_eq!(
        status(&trace(&[
            "--decision",
            "open",
            "--finding",
            "declared-light"
        ])),
        1
    );
    assert_eq!(status(&trace(&["nothing like it"])), 1);
    for head in [&first, &last] {
        let check = dockheft(at, &["ledger", "check", "--head", head, "--again"]);
        assert_eq!(status(&check), 0, "{}", out(&check));
        assert!(
            out(&check).contains("4 audits") && out(&check).contains(" 0 otherwise"),
            "{}",
            out(&check)
        );
    }
    let copy = dockheft(at, &["ledger", "backup", "copy.dockheft"]);
    assert_eq!(head(&out(&copy)).expect("a head").1, last);
    let check = dockheft(
        at,
        &[
            "ledger",
            "check",
            "--ledger",
            "copy.dockheft",
            "--head",
            &last,
        ],
    );
    assert_eq!(status(&check), 0, "{}", out(&check));
    assert_eq!(
        status(&dockheft(at, &["ledger", "backup", "copy.dockheft"])),
        4
    );
}

#[test]
fn the_demo_is_repeated_bit_for_bit() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let folder = tempfile::tempdir().expect("a folder");
    let (ledger, book) = (
        folder.path().join("l.dockheft"),
        folder.path().join("out.xlsx"),
    );
    let (ledger, book) = (ledger.to_string_lossy(), book.to_string_lossy());
    let output = audit_in(
        &demo,
        &["deliveries", "--ledger", &ledger, "--out", &book, "--json"],
    );
    let loads = lines(parsed(&output.stdout)).len();
    assert!(loads > 40, "{loads}");
    let check = dockheft(
        folder.path(),
        &["ledger", "check", "--again", "--ledger", "l.dockheft"],
    );
    assert_eq!(status(&check), 0, "{}", out(&check));
    let said = out(&check);
    let same: usize = said
        .split_once("1 audits, ")
        .and_then(|(_, rest)| rest.split(' ').next()?.parse().ok())
        .expect("a count");
    assert!(same > loads && said.contains(" 0 otherwise"), "{said}");
}

/// Every field of every record, changed in its last byte or figure.
#[test]
fn a_change_anywhere_names_its_record() {
    for table in ["content", "audit", "source", "delivery", "load", "decision"] {
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
    let db = forced(folder.path());
    // A clever cut: the guards are put back.
    let guards = std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("src/ledger/schema/1.sql"),
    )
    .expect("the text");
    let at = guards.find("CREATE TRIGGER").expect("guards");
    let cut = whole.0 - 1;
    db.execute_batch(&format!("DELETE FROM load WHERE number > {cut}"))
        .expect("cut");
    db.execute_batch(&guards[at..]).expect("put back");
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

#[test]
fn a_foreign_or_newer_file_is_left_as_it_is() {
    for (make, found) in [
        (
            "CREATE TABLE a (b); PRAGMA user_version = 1",
            "another program",
        ),
        (
            "CREATE TABLE a (b); PRAGMA application_id = 1147692660; PRAGMA user_version = 99",
            "newer",
        ),
    ] {
        let folder = folder();
        let path = folder.path().join("ledger.dockheft");
        Connection::open(&path)
            .and_then(|db| db.execute_batch(make))
            .expect("made");
        let before = std::fs::read(&path).expect("bytes");
        let output = audit_in(folder.path(), &["list.csv", "--out", "out.xlsx"]);
        assert_eq!(status(&output), 4, "{}", said(&output));
        assert!(said(&output).contains(found), "{}", said(&output));
        assert_eq!(std::fs::read(&path).expect("bytes"), before);
        // The dock has its workbook all the same.
        assert!(folder.path().join("out.xlsx").exists());
    }
}

#[test]
fn eight_at_once_lose_nothing_and_copies_made_meanwhile_check() {
    let folder = folder();
    let at = folder.path();
    std::thread::scope(|scope| {
        let writers: Vec<_> = (0..8)
            .map(|writer| {
                scope.spawn(move || {
                    let mut heads = Vec::new();
                    for turn in 0..3 {
                        let book = format!("out-{writer}-{turn}.xlsx");
                        let output = audit_in(at, &["list.csv", "--out", &book]);
                        assert_eq!(status(&output), 1, "{}", said(&output));
                        assert!(!said(&output).contains("busy"), "{}", said(&output));
                        heads.push(head(&out(&output)).expect("a head").1);
                    }
                    heads
                })
            })
            .collect();
        let copies = scope.spawn(move || {
            let mut made = 0;
            for copy in 0..20 {
                let name = format!("copy-{copy}.dockheft");
                if !at.join("ledger.dockheft").exists() {
                    std::thread::sleep(Duration::from_millis(20));
                    continue;
                }
                let output = dockheft(at, &["ledger", "backup", &name]);
                if status(&output) == 0 {
                    let check = dockheft(at, &["ledger", "check", "--ledger", &name]);
                    assert_eq!(status(&check), 0, "{}", out(&check));
                    made += 1;
                } else {
                    // Begun before the first audit was in it.
                    assert!(
                        said(&output).contains("holds nothing yet"),
                        "{}",
                        said(&output)
                    );
                }
            }
            made
        });
        let heads: Vec<String> = writers
            .into_iter()
            .flat_map(|writer| writer.join().expect("a writer"))
            .collect();
        assert!(copies.join().expect("copies") > 0);
        for head in &heads {
            let check = dockheft(at, &["ledger", "check", "--head", head]);
            assert_eq!(status(&check), 0, "{}", out(&check));
            assert!(out(&check).contains("audits 24,"), "{}", out(&check));
        }
    });
}

/// Killed at moments spread over the whole of a run: what was acknowledged is there, nothing is half there.
#[test]
fn killed_at_any_moment_nothing_acknowledged_is_lost() {
    let folder = folder();
    let at = folder.path();
    let begun = Instant::now();
    audited(at, "list.csv");
    let whole = begun.elapsed();
    let light = id(at, "SB-2");
    let mut heads = Vec::new();
    let mut random: u64 = 20_261_125;
    for turn in 0..100 {
        // A plain generator (Knuth, MMIX) is random enough for moments.
        random = random
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let moment = whole.mul_f64((random >> 40) as f64 / (1u64 << 24) as f64 * 1.2);
        let audit = [
            "audit",
            "list.csv",
            "--date",
            "2026-11-25",
            "--out",
            "out.xlsx",
        ];
        let decide = [
            "decide",
            "--line",
            &light,
            "--as",
            "use estimate",
            "--by",
            "J. Rook",
        ];
        let mut child = Command::new(env!("CARGO_BIN_EXE_dockheft"))
            .current_dir(at)
            .args(if turn % 3 == 2 {
                &decide[..]
            } else {
                &audit[..]
            })
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        std::thread::sleep(moment);
        // Ended already, or ended now.
        let _ = child.kill();
        let output = child.wait_with_output().expect("it ended");
        heads.extend(head(&out(&output)).map(|(_, head)| head));
    }
    let (_, last) = audited(at, "list.csv");
    heads.push(last);
    assert!(heads.len() > 5, "{} of 100 came to their end", heads.len());
    for head in &heads {
        let check = dockheft(at, &["ledger", "check", "--head", head]);
        assert_eq!(status(&check), 0, "{}", out(&check));
    }
    // Whole audits only: each has both of its lines.
    let db = Connection::open(at.join("ledger.dockheft")).expect("it opens");
    let counts: (i64, i64) = db
        .query_row(
            "SELECT (SELECT count(*) FROM audit), (SELECT count(*) FROM load)",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("counts");
    assert_eq!(counts.1, 2 * counts.0);
}
