//! SHA-256 as people read it: hexadecimal digits in small letters.

use sha2::{Digest, Sha256};

/// Bytes as hexadecimal digits, two a byte.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The SHA-256 of bytes: 64 hexadecimal digits.
pub fn sha256(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

/// The first 16 hexadecimal digits of the SHA-256 of bytes: enough to tell things of one call or ledger apart.
pub fn short(bytes: &[u8]) -> String {
    sha256(bytes).chars().take(16).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-2, appendix B.1.
    #[test]
    fn the_standards_example() {
        let digits = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sha256(b"abc"), digits);
        assert_eq!(short(b"abc"), digits[..16]);
    }
}
