//! One supplier in several spellings, the same for the program and for the engine's searches.

use rusqlite::Connection;
use rusqlite::functions::FunctionFlags;

/// A supplier's name by which it is known again: in small letters, without blanks around; none where nothing is left.
pub(super) fn folded(name: &str) -> Option<String> {
    Some(name.trim().to_lowercase()).filter(|name| !name.is_empty())
}

/// Gives the engine the function `folded`: its own knows small letters of English alone.
pub(super) fn teach(db: &Connection) -> rusqlite::Result<()> {
    let flags = FunctionFlags::SQLITE_UTF8 | FunctionFlags::SQLITE_DETERMINISTIC;
    db.create_scalar_function("folded", 1, flags, |call| {
        Ok(call.get::<Option<String>>(0)?.as_deref().and_then(folded))
    })
}
