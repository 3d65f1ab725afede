//! The tables of the ledger: ordered migrations, each a text that never changes once it has landed.

use super::figures;
use rusqlite::Connection;

/// Marks a file as a ledger of this program: "Dhft".
pub(super) const APPLICATION: i32 = i32::from_be_bytes(*b"Dhft");
/// Each brings a ledger from the version of its position to the next, and stands with the number of
/// [`TABLES`] then.
const MIGRATIONS: [(&str, usize); 4] = [
    (include_str!("schema/1.sql"), 6),
    (include_str!("schema/2.sql"), 7),
    (include_str!("schema/3.sql"), 7),
    (include_str!("schema/4.sql"), 7),
];
/// The version that this program writes.
pub(super) const VERSION: i32 = MIGRATIONS.len() as i32;
/// The version that brought the figures of loads.
pub(super) const WITH_FIGURES: i32 = 3;
/// The tables whose rows are records of the chain, as the migrations made them one after another.
pub(super) const TABLES: [&str; 7] = [
    "content", "audit", "source", "delivery", "load", "decision", "history",
];
/// The tables that are worked out from the records.
const DERIVED: [&str; 2] = ["word", "figure"];
/// Oldest SQLite that may write: those before can lose a write-ahead log that two processes reset at once (SQLite release
/// notes, 3.51.3).
const OLDEST_SQLITE: i32 = 3_051_003;

/// What a file says it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Nothing stands in it yet.
    Empty,
    /// A ledger of this version, 1 or later.
    Ledger(i32),
    /// Something else.
    Foreign,
}

/// Whether a version of SQLite, as it numbers itself (3051003 for 3.51.3), is new enough.
pub(super) fn is_recent(sqlite: i32) -> bool {
    sqlite >= OLDEST_SQLITE
}

/// What a file says it is, changing nothing.
pub(super) fn kind(db: &Connection) -> rusqlite::Result<Kind> {
    // One transaction: another process may just be making the tables.
    let look = db.unchecked_transaction()?;
    let pragma = |name: &str| look.query_row(&format!("PRAGMA {name}"), [], |row| row.get(0));
    let (application, version): (i32, i32) = (pragma("application_id")?, pragma("user_version")?);
    let parts: i64 = look.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    look.finish()?;
    Ok(match (application, version, parts) {
        (0, 0, 0) => Kind::Empty,
        (APPLICATION, 1.., 1..) => Kind::Ledger(version),
        _ => Kind::Foreign,
    })
}

/// Runs the migrations after `version`, inside the caller's transaction.
pub(super) fn migrate(db: &Connection, version: i32) -> rusqlite::Result<()> {
    migrate_to(db, version, VERSION)?;
    if version < WITH_FIGURES {
        figures::fill(db)?;
    }
    Ok(())
}

fn migrate_to(db: &Connection, version: i32, to: i32) -> rusqlite::Result<()> {
    let [done, to_do] = [version, to].map(|version| usize::try_from(version).unwrap_or(0));
    for (migration, _) in MIGRATIONS.iter().take(to_do).skip(done) {
        db.execute_batch(migration)?;
    }
    db.execute_batch(&format!(
        "PRAGMA application_id = {APPLICATION}; PRAGMA user_version = {to};"
    ))
}

/// The version that a ledger has: one that is only read may be older than this program.
pub(super) fn version(db: &Connection) -> rusqlite::Result<i32> {
    db.query_row("PRAGMA user_version", [], |row| row.get(0))
}

/// The tables of records that a ledger has.
pub(super) fn tables(db: &Connection) -> rusqlite::Result<&'static [&'static str]> {
    let at = usize::try_from(version(db)? - 1).ok();
    let made = at.and_then(|at| MIGRATIONS.get(at));
    Ok(TABLES
        .get(..made.map_or(0, |(_, tables)| *tables))
        .unwrap_or(&TABLES))
}

/// Name and text of every table, index and trigger.
fn parts(db: &Connection) -> rusqlite::Result<Vec<(String, String)>> {
    db.prepare("SELECT name, coalesce(sql, '') FROM sqlite_schema ORDER BY name")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect()
}

/// The tables, indexes and triggers that are not as the migrations made them, in words; first whether the tables of records
/// are all as made, so that their rows have the columns that they must.
pub(super) fn strayed(db: &Connection) -> rusqlite::Result<(bool, Vec<String>)> {
    let made = Connection::open_in_memory()?;
    migrate_to(&made, 0, version(db)?)?;
    let (made, found) = (parts(&made)?, parts(db)?);
    let as_made = made
        .iter()
        .filter(|(name, _)| TABLES.iter().chain(&DERIVED).any(|table| table == name))
        .all(|table| found.contains(table));
    let mut strayed = Vec::new();
    for part in made.iter().filter(|part| !found.contains(part)) {
        let there = found.iter().any(|(name, _)| *name == part.0);
        let how = if there {
            "was changed"
        } else {
            "was taken out"
        };
        strayed.push(format!("\"{}\" {how}", part.0));
    }
    for (name, _) in &found {
        // The engine keeps its own statistics in tables with this beginning.
        if !name.starts_with("sqlite_") && !made.iter().any(|(made, _)| made == name) {
            strayed.push(format!("\"{name}\" was put in"));
        }
    }
    Ok((as_made, strayed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_old_engine_is_refused() {
        assert!(!is_recent(3_051_002));
        assert!(is_recent(3_051_003));
        assert!(is_recent(rusqlite::version_number()), "the bundled one");
    }

    #[test]
    fn every_table_is_strict_has_a_key_and_its_guards() {
        let db = Connection::open_in_memory().expect("a database");
        migrate(&db, 0).expect("the migrations run");
        let tables: Vec<(String, i64, String)> = db
            .prepare("SELECT name, strict, type FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite%' ORDER BY name")
            .and_then(|mut list| {
                list.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
                    .collect()
            })
            .expect("a list");
        let mut names = [TABLES.as_slice(), &DERIVED].concat();
        names.sort_unstable();
        let found: Vec<&str> = tables.iter().map(|(name, ..)| name.as_str()).collect();
        assert_eq!(found, names, "a table that no check looks at");
        for (name, strict, kind) in &tables {
            assert_eq!((*strict, kind.as_str()), (1, "table"), "{name}");
            let count = |sql: &str| -> i64 {
                db.query_row(sql, [name], |row| row.get(0))
                    .expect("a count")
            };
            let keys = count("SELECT count(*) FROM pragma_table_info(?1) WHERE pk > 0");
            let guards = count(
                "SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?1",
            );
            assert_eq!((keys, guards), (1, 3), "{name}");
        }
    }

    #[test]
    fn a_guard_that_was_taken_out_is_named() {
        let db = Connection::open_in_memory().expect("a database");
        migrate(&db, 0).expect("the migrations run");
        assert_eq!(strayed(&db).expect("a look"), (true, vec![]));
        db.execute_batch("DROP TRIGGER load_kept; CREATE TABLE spare (a); DROP INDEX load_by_id; CREATE INDEX load_by_id ON load (id, day)")
            .expect("a change");
        assert_eq!(
            strayed(&db).expect("a look").1,
            [
                "\"load_by_id\" was changed",
                "\"load_kept\" was taken out",
                "\"spare\" was put in"
            ]
        );
    }
}
