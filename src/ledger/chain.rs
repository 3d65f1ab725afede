//! The chain: every record has a hash over itself and the hash of the record before it.
//! Canonical form, version 1: the form's name, the table's name, the number of fields, then each field in the order of the
//! table's columns (the hash itself left out) as a sign for its type, its length and its bytes, last the hash before.

use super::schema;
use rusqlite::types::{Value, ValueRef};
use rusqlite::{Connection, params_from_iter};
use sha2::{Digest, Sha256};
use std::fmt;

/// Name of the canonical form; another form gets another name.
const FORM: &str = "dockheft.ledger/1";

/// SHA-256 of a record.
pub(super) type Hash = [u8; 32];

/// How many records a ledger holds, and the hash of the last: whoever keeps it apart from the ledger can prove later that
/// nothing up to there was changed, taken out or cut off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// Number of records.
    pub size: i64,
    /// Hash of the last; zeros where there is none.
    pub(super) hash: Hash,
}

impl Head {
    /// Before the first record.
    pub(super) const NONE: Head = Head {
        size: 0,
        hash: [0; 32],
    };

    /// The hash as 64 hexadecimal digits.
    pub fn digits(&self) -> String {
        crate::hash::hex(&self.hash)
    }
}

impl fmt::Display for Head {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let records = if self.size == 1 { "record" } else { "records" };
        write!(to, "{} {records}, head {}", self.size, self.digits())
    }
}

/// 64 hexadecimal digits as a hash, in small or capital letters.
pub(super) fn from_hex(digits: &str) -> Option<Hash> {
    let digits = digits.trim();
    if digits.len() != 64 || !digits.bytes().all(|digit| digit.is_ascii_hexdigit()) {
        return None;
    }
    let mut hash = [0; 32];
    for (at, byte) in hash.iter_mut().enumerate() {
        *byte = u8::from_str_radix(digits.get(2 * at..2 * at + 2)?, 16).ok()?;
    }
    Some(hash)
}

/// The hash of a record.
pub(super) fn hash<'v>(
    table: &str,
    fields: impl ExactSizeIterator<Item = ValueRef<'v>>,
    before: &Hash,
) -> Hash {
    let mut hasher = Sha256::new();
    let mut part = |sign: u8, bytes: &[u8]| {
        hasher.update([sign]);
        hasher.update((bytes.len() as u64).to_be_bytes());
        hasher.update(bytes);
    };
    part(b'F', FORM.as_bytes());
    part(b'T', table.as_bytes());
    part(b'N', &(fields.len() as u64).to_be_bytes());
    for field in fields {
        match field {
            ValueRef::Null => part(b'0', &[]),
            ValueRef::Integer(number) => part(b'i', &number.to_be_bytes()),
            ValueRef::Real(number) => part(b'r', &number.to_bits().to_be_bytes()),
            ValueRef::Text(text) => part(b't', text),
            ValueRef::Blob(bytes) => part(b'b', bytes),
        }
    }
    part(b'H', before);
    hasher.finalize().into()
}

/// The head of a ledger.
pub(super) fn head(db: &Connection) -> rusqlite::Result<Head> {
    let last = schema::tables(db)?.iter().map(|table| {
        format!("SELECT * FROM (SELECT number, hash FROM {table} ORDER BY number DESC LIMIT 1)")
    });
    let sql = last.collect::<Vec<_>>().join(" UNION ALL ") + " ORDER BY number DESC LIMIT 1";
    let mut found = db.prepare_cached(&sql)?;
    let mut rows = found.query([])?;
    match rows.next()? {
        None => Ok(Head::NONE),
        Some(row) => Ok(Head {
            size: row.get(0)?,
            hash: row.get(1)?,
        }),
    }
}

/// Adds records at the end of the chain, inside a transaction of the caller's.
pub(super) struct Writer<'t> {
    db: &'t Connection,
    head: Head,
}

impl<'t> Writer<'t> {
    /// Goes on from the ledger's head.
    pub(super) fn at_end(db: &'t Connection) -> rusqlite::Result<Writer<'t>> {
        let head = head(db)?;
        Ok(Writer { db, head })
    }

    /// Adds a record of a table with its fields in the order of the columns, without number and hash. Gives its number.
    pub(super) fn add(&mut self, table: &str, fields: Vec<Value>) -> rusqlite::Result<i64> {
        // Only a forged record has the last number that there is.
        let next = self.head.size.checked_add(1);
        let number = next.ok_or(rusqlite::Error::IntegralValueOutOfRange(0, self.head.size))?;
        let mut values = Vec::with_capacity(fields.len() + 2);
        values.push(Value::Integer(number));
        values.extend(fields);
        let hash = hash(table, values.iter().map(ValueRef::from), &self.head.hash);
        values.push(Value::Blob(hash.to_vec()));
        let places = vec!["?"; values.len()].join(", ");
        self.db
            .prepare_cached(&format!("INSERT INTO {table} VALUES ({places})"))?
            .execute(params_from_iter(values))?;
        self.head = Head { size: number, hash };
        Ok(number)
    }

    /// The head as it is now.
    pub(super) fn head(&self) -> Head {
        self.head
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(table: &str, fields: &[Value]) -> Hash {
        hash(table, fields.iter().map(ValueRef::from), &[0; 32])
    }

    fn text(text: &str) -> Value {
        Value::Text(text.to_string())
    }

    /// Worked out apart from this code: SHA-256 over the bytes that the module's description lists.
    #[test]
    fn the_canonical_form_is_as_described() {
        let mut bytes = Vec::new();
        bytes.extend(b"F\0\0\0\0\0\0\0\x11dockheft.ledger/1");
        bytes.extend(b"T\0\0\0\0\0\0\0\x04load");
        bytes.extend(b"N\0\0\0\0\0\0\0\x08\0\0\0\0\0\0\0\x05");
        bytes.extend(b"i\0\0\0\0\0\0\0\x08\0\0\0\0\0\0\0\x07");
        bytes.extend(b"t\0\0\0\0\0\0\0\x02ab");
        bytes.extend(b"0\0\0\0\0\0\0\0\0");
        bytes.extend(b"r\0\0\0\0\0\0\0\x08\x3f\xf8\0\0\0\0\0\0");
        bytes.extend(b"b\0\0\0\0\0\0\0\x01\xff");
        bytes.extend(b"H\0\0\0\0\0\0\0\x20");
        bytes.extend([0; 32]);
        let expected: Hash = Sha256::digest(bytes).into();
        let fields = [
            Value::Integer(7),
            text("ab"),
            Value::Null,
            Value::Real(1.5),
            Value::Blob(vec![255]),
        ];
        assert_eq!(of("load", &fields), expected);
    }

    #[test]
    fn no_two_records_run_together() {
        let all = [
            of("load", &[text("ab"), text("c")]),
            of("load", &[text("a"), text("bc")]),
            of("load", &[text("abc")]),
            of("load", &[text("ab"), text("c"), Value::Null]),
            of("audit", &[text("ab"), text("c")]),
            of("load", &[Value::Blob(b"ab".to_vec()), text("c")]),
        ];
        for (at, one) in all.iter().enumerate() {
            assert!(!all[..at].contains(one), "{at}");
        }
    }

    #[test]
    fn digits_are_read_back() {
        let head = Head {
            size: 2,
            hash: std::array::from_fn(|at| at as u8 * 7),
        };
        assert_eq!(from_hex(&head.digits()), Some(head.hash));
        assert_eq!(from_hex(&head.digits().to_uppercase()), Some(head.hash));
        assert_eq!(from_hex(&head.digits()[1..]), None);
        assert_eq!(from_hex(&"é".repeat(32)), None);
        assert_eq!(from_hex(&"g".repeat(64)), None);
    }
}
