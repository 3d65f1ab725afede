//! Bytes that an audit rests on, packed (deflate) and known by their SHA-256.

use crate::hash;
use flate2::Compression;
use flate2::read::DeflateDecoder;
use flate2::write::DeflateEncoder;
use rusqlite::{Connection, OptionalExtension};
use std::io::{self, Read, Write};

/// Bytes as they are kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Packed {
    /// SHA-256 of the bytes, 64 hexadecimal digits.
    pub sha256: String,
    /// Number of bytes before packing.
    pub(super) size: u64,
    pub(super) bytes: Vec<u8>,
}

impl Packed {
    /// Packs bytes.
    ///
    /// # Panics
    /// Never: a vector takes everything that is written to it.
    pub fn of(content: &[u8]) -> Packed {
        let mut encoder = DeflateEncoder::new(Vec::new(), Compression::default());
        let packed = encoder.write_all(content).and_then(|()| encoder.finish());
        Packed {
            sha256: hash::sha256(content),
            size: content.len() as u64,
            bytes: packed.expect("a vector takes everything"),
        }
    }
}

/// Unpacks bytes and says whether they are the ones of that size and SHA-256.
pub(super) fn unpacked(sha256: &str, size: u64, packed: &[u8]) -> io::Result<Vec<u8>> {
    let mut content = Vec::new();
    // A spoiled packing may unpack to more than any disk holds.
    DeflateDecoder::new(packed)
        .take(size + 1)
        .read_to_end(&mut content)?;
    if content.len() as u64 != size || hash::sha256(&content) != sha256 {
        return Err(io::Error::other(
            "the kept bytes are not those of their SHA-256",
        ));
    }
    Ok(content)
}

/// The kept bytes of a SHA-256; none where they are not kept.
pub(super) fn find(db: &Connection, sha256: &str) -> rusqlite::Result<Option<io::Result<Vec<u8>>>> {
    db.prepare_cached("SELECT size, packed FROM content WHERE sha256 = ?1")?
        .query_row([sha256], |row| {
            let size: i64 = row.get(0)?;
            let packed = row.get_ref(1)?.as_blob()?;
            Ok(unpacked(sha256, size.unsigned_abs(), packed))
        })
        .optional()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_comes_back_and_nothing_else_does() {
        for content in [&b""[..], b"a", &[7; 100_000]] {
            let packed = Packed::of(content);
            let back = unpacked(&packed.sha256, packed.size, &packed.bytes);
            assert_eq!(back.expect("unpacked"), content);
            let other = "0".repeat(64);
            assert!(unpacked(&other, packed.size, &packed.bytes).is_err());
            assert!(unpacked(&packed.sha256, packed.size + 1, &packed.bytes).is_err());
        }
    }
}
