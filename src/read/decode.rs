//! Bytes to text: byte order marks first, then what the bytes themselves show, then what the file says of itself.

use super::open::Refusal;
use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

/// Bytes that tell what kind of text a file is.
const HEAD: usize = 8 * 1024;

/// The text of a file and the name of the encoding it was read in. `stated` is the label that the file gives itself.
///
/// # Errors
/// When the bytes are no text in any encoding.
pub(super) fn decode(
    content: &[u8],
    stated: Option<&str>,
) -> Result<(String, &'static str), Refusal> {
    let encoding = encoding(content, stated);
    let (text, _, _) = encoding.decode(content);
    let odd = text
        .chars()
        .filter(|sign| {
            sign.is_control() && !matches!(sign, '\n' | '\r' | '\t' | '\u{1A}' | '\u{0C}')
        })
        .count();
    if odd * 100 > text.chars().count() {
        return Err((
            "is neither a workbook nor text".to_string(),
            "ask the supplier for the list as xlsx, xls, ods or csv".to_string(),
        ));
    }
    Ok((text.into_owned(), encoding.name()))
}

/// The first signs of a file, good enough to tell what kind of text it is; blanks in front are left out.
pub(super) fn head(content: &[u8]) -> String {
    let start = content.get(..content.len().min(HEAD)).unwrap_or(content);
    let encoding = match Encoding::for_bom(start) {
        Some((encoding, _)) => encoding,
        None => wide(start).unwrap_or(UTF_8),
    };
    encoding.decode(start).0.trim_start().to_string()
}

fn encoding(content: &[u8], stated: Option<&str>) -> &'static Encoding {
    if let Some((encoding, _)) = Encoding::for_bom(content) {
        return encoding;
    }
    if let Some(encoding) = wide(content) {
        return encoding;
    }
    // Bytes that are valid UTF-8 beyond plain ASCII hardly ever mean anything else, whatever the file says.
    if std::str::from_utf8(content).is_ok() {
        return UTF_8;
    }
    let stated = stated.and_then(|label| Encoding::for_label(label.trim().as_bytes()));
    match stated.filter(|encoding| *encoding != UTF_8 && encoding.is_ascii_compatible()) {
        Some(encoding) => encoding,
        None => legacy(content),
    }
}

/// UTF-16 without a mark: no other text holds NUL bytes, and they stand in every other place.
fn wide(content: &[u8]) -> Option<&'static Encoding> {
    let sample = content
        .get(..content.len().min(64 * 1024))
        .unwrap_or(content);
    let nul = |parity: usize| {
        sample
            .iter()
            .skip(parity)
            .step_by(2)
            .filter(|byte| **byte == 0)
            .count()
    };
    let (even, odd) = (nul(0), nul(1));
    // East Asian text has NULs only beside its digits, separators and line ends.
    let enough =
        |many: usize, few: usize| many >= 4 && many * 50 >= sample.len() && few * 20 <= many;
    if enough(odd, even) {
        Some(UTF_16LE)
    } else if enough(even, odd) {
        Some(UTF_16BE)
    } else {
        None
    }
}

/// A code page from before Unicode, by the letters of its words.
fn legacy(content: &[u8]) -> &'static Encoding {
    let words = without_diameter_signs(content);
    if words.is_ascii() {
        return WINDOWS_1252;
    }
    let mut detector = chardetng::EncodingDetector::new(chardetng::Iso2022JpDetection::Deny);
    detector.feed(&words, true);
    detector.guess(None, chardetng::Utf8Detection::Deny)
}

/// A copy in which the diameter sign of Windows-1252, a letter to every detector, is a plain one: it stands alone or
/// before a figure, as no letter of a word does.
fn without_diameter_signs(content: &[u8]) -> Vec<u8> {
    let mut copy = content.to_vec();
    let word =
        |byte: Option<&u8>| byte.is_some_and(|byte| byte.is_ascii_alphabetic() || !byte.is_ascii());
    for (at, byte) in copy.iter_mut().enumerate() {
        let before = at.checked_sub(1).and_then(|before| content.get(before));
        if matches!(byte, 0xD8 | 0xF8) && !word(before) && !word(content.get(at + 1)) {
            *byte = b'O';
        }
    }
    copy
}
