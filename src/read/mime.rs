//! The pages of a file that holds a web page with its parts (MIME multi-part, RFC 2045 and 2046).

/// Deepest parts inside parts.
const DEEPEST: u32 = 4;
/// Most parts that are looked at (common practice, no source).
const MOST_PARTS: usize = 4_096;

/// A part that is a page.
#[derive(Debug, PartialEq)]
pub(super) struct Page {
    /// Last piece of its location, without ending.
    pub(super) name: String,
    /// Encoding that its head states.
    pub(super) charset: Option<String>,
    /// Its bytes, transfer coding undone.
    pub(super) bytes: Vec<u8>,
}

/// The pages in order.
pub(super) fn pages(content: &[u8]) -> Vec<Page> {
    let mut found = Vec::new();
    part(content, DEEPEST, &mut found);
    found
}

fn part(bytes: &[u8], depth: u32, found: &mut Vec<Page>) {
    let (head, body) = split_head(bytes);
    let kind = head.field("content-type");
    if let Some(boundary) = parameter(&kind, "boundary") {
        if depth > 0 {
            for inner in split_body(body, &boundary) {
                part(inner, depth - 1, found);
            }
        }
        return;
    }
    if !kind.to_ascii_lowercase().starts_with("text/html") || found.len() >= MOST_PARTS {
        return;
    }
    let location = head.field("content-location");
    let last = location.rsplit(['/', '\\']).next().unwrap_or_default();
    let name = last
        .rsplit_once('.')
        .map_or(last, |(name, _)| name)
        .to_string();
    let bytes = match head
        .field("content-transfer-encoding")
        .to_ascii_lowercase()
        .as_str()
    {
        "quoted-printable" => from_quoted_printable(body),
        "base64" => from_base64(body),
        _ => body.to_vec(),
    };
    found.push(Page {
        name,
        charset: parameter(&kind, "charset"),
        bytes,
    });
}

/// The fields above the first blank line.
struct Head(Vec<(String, String)>);

impl Head {
    fn field(&self, name: &str) -> String {
        self.0
            .iter()
            .find(|(key, _)| key == name)
            .map(|(_, value)| value.clone())
            .unwrap_or_default()
    }
}

fn split_head(bytes: &[u8]) -> (Head, &[u8]) {
    let mut fields: Vec<(String, String)> = Vec::new();
    let mut rest = bytes;
    loop {
        let (line, behind) = line(rest);
        let text = String::from_utf8_lossy(line);
        if text.trim().is_empty() && (!fields.is_empty() || behind.is_empty()) {
            return (Head(fields), behind);
        }
        rest = behind;
        // A line that begins with a space goes on with the field above.
        match (
            text.starts_with([' ', '\t']),
            fields.last_mut(),
            text.split_once(':'),
        ) {
            (true, Some((_, value)), _) => {
                value.push(' ');
                value.push_str(text.trim());
            }
            (_, _, Some((key, value))) => {
                fields.push((key.trim().to_ascii_lowercase(), value.trim().to_string()))
            }
            _ => {}
        }
    }
}

/// The first line without its end, and everything behind it.
fn line(bytes: &[u8]) -> (&[u8], &[u8]) {
    match bytes.iter().position(|byte| *byte == b'\n') {
        Some(at) => {
            let line = bytes.get(..at).unwrap_or_default();
            (
                line.strip_suffix(b"\r").unwrap_or(line),
                bytes.get(at + 1..).unwrap_or_default(),
            )
        }
        None => (bytes, &[]),
    }
}

/// A parameter of a field, such as `charset=utf-8`.
fn parameter(field: &str, name: &str) -> Option<String> {
    field.split(';').skip(1).find_map(|parameter| {
        let (key, value) = parameter.split_once('=')?;
        let value = value.trim().trim_matches('"');
        (key.trim().eq_ignore_ascii_case(name) && !value.is_empty()).then(|| value.to_string())
    })
}

/// The parts between lines of `--boundary`.
fn split_body<'a>(body: &'a [u8], boundary: &str) -> Vec<&'a [u8]> {
    let mark = format!("--{boundary}").into_bytes();
    let mut parts = Vec::new();
    let mut start = None;
    let mut at = 0;
    while at < body.len() && parts.len() < MOST_PARTS {
        let rest = body.get(at..).unwrap_or_default();
        let (text, behind) = line(rest);
        let after = body.len() - behind.len();
        if text.starts_with(&mark) {
            if let Some(start) = start {
                parts.push(body.get(start..at).unwrap_or_default());
            }
            start = Some(after);
        }
        at = after;
    }
    if let Some(start) = start {
        parts.push(body.get(start..).unwrap_or_default());
    }
    parts
}

fn from_quoted_printable(bytes: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(bytes.len());
    let mut rest = bytes;
    while let Some((first, behind)) = rest.split_first() {
        rest = behind;
        if *first != b'=' {
            out.push(*first);
            continue;
        }
        let code = behind
            .get(..2)
            .and_then(|digits| std::str::from_utf8(digits).ok())
            .and_then(|digits| u8::from_str_radix(digits, 16).ok());
        match (code, behind) {
            (Some(byte), _) => {
                out.push(byte);
                rest = behind.get(2..).unwrap_or_default();
            }
            // An equals sign at the end of a line joins it with the next.
            (None, [b'\r', b'\n', after @ ..] | [b'\n', after @ ..]) => rest = after,
            (None, _) => out.push(b'='),
        }
    }
    out
}

fn from_base64(bytes: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(bytes.len() / 4 * 3);
    let (mut bits, mut count) = (0u32, 0u32);
    for byte in bytes {
        let value = match byte {
            b'A'..=b'Z' => byte - b'A',
            b'a'..=b'z' => byte - b'a' + 26,
            b'0'..=b'9' => byte - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => continue,
        };
        bits = (bits << 6 | u32::from(value)) & 0x00FF_FFFF;
        count += 6;
        if count >= 8 {
            count -= 8;
            out.push((bits >> count & 0xFF) as u8);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 2045, 6.7 and 6.8; RFC 2046, 5.1.
    #[test]
    fn pages_are_found_and_decoded() {
        let file = b"MIME-Version: 1.0\r\nContent-Type: multipart/related;\r\n boundary=\"B1\"\r\n\r\n--B1\r\nContent-Location: file:///C:/list_files/sheet001.htm\r\n\
Content-Type: text/html; charset=\"utf-8\"\r\nContent-Transfer-Encoding: quoted-printable\r\n\r\n<table><tr><td>Gr=C3=B6=\r\n=C3=9Fe</td></tr>\r\n\
--B1\r\nContent-Type: image/png\r\n\r\n...\r\n--B1\r\nContent-Type: text/html\r\nContent-Transfer-Encoding: base64\r\n\r\nPHA+\r\n--B1--\r\n";
        let pages = pages(file);
        assert_eq!(pages.len(), 2);
        assert_eq!(pages[0].name, "sheet001");
        assert_eq!(pages[0].charset.as_deref(), Some("utf-8"));
        assert_eq!(
            String::from_utf8_lossy(&pages[0].bytes),
            "<table><tr><td>Größe</td></tr>\r\n"
        );
        assert_eq!(pages[1].bytes, b"<p>");
    }
}
