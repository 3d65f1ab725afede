//! Splits a page into tags and text, as tolerantly as a browser. A small scanner of our own: only a handful of tags
//! matter, and a library that builds the whole tree of a page would hold many times the page in memory.

use quick_xml::escape::resolve_html5_entity;
use std::borrow::Cow;

/// Longest tag whose quotation marks are respected, bytes; behind it a mark was never closed.
const LONGEST_TAG: usize = 8 * 1024;
/// Longest name of an entity, bytes (the longest of HTML has 31 letters).
const LONGEST_ENTITY: usize = 32;

/// A piece of a page.
#[derive(Debug, PartialEq)]
pub(super) enum Token<'a> {
    /// Text with its entities.
    Text(&'a str),
    /// An opening tag; the name in small letters, known names only, others are empty.
    Open {
        /// The tag's name.
        name: &'static str,
        /// Everything behind the name.
        attributes: &'a str,
    },
    /// A closing tag.
    Close(&'static str),
}

/// Tags that mean something to the reading of tables.
const KNOWN: [&str; 12] = [
    "table", "tr", "td", "th", "col", "br", "p", "div", "li", "h1", "h2", "h3",
];
/// Tags whose content is not text of the page.
const UNSEEN: [&str; 4] = ["script", "style", "xml", "title"];

/// The pieces of a page in order.
pub(super) struct Tokens<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Tokens<'a> {
    /// Starts at the beginning of a page.
    pub(super) fn new(text: &'a str) -> Self {
        Tokens { text, at: 0 }
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// Passes over everything up to and with an end mark, or to the end of the page.
    fn skip_past(&mut self, end: &str) {
        self.at = self
            .rest()
            .find(end)
            .map_or(self.text.len(), |found| self.at + found + end.len());
    }
}

impl<'a> Iterator for Tokens<'a> {
    type Item = Token<'a>;

    fn next(&mut self) -> Option<Token<'a>> {
        loop {
            let rest = self.rest();
            if rest.is_empty() {
                return None;
            }
            if rest.starts_with("<!--") {
                self.skip_past("-->");
                continue;
            }
            if let Some(data) = rest.strip_prefix("<![CDATA[") {
                let end = data.find("]]>").unwrap_or(data.len());
                self.skip_past("]]>");
                return data.get(..end).map(Token::Text);
            }
            if rest.starts_with("<!") || rest.starts_with("<?") {
                self.skip_past(">");
                continue;
            }
            let closing = rest.starts_with("</");
            let name_at = if closing { 2 } else { 1 };
            if !rest.starts_with('<')
                || !rest
                    .get(name_at..)
                    .is_some_and(|name| name.starts_with(|sign: char| sign.is_ascii_alphabetic()))
            {
                // Text up to the next sign that may begin a tag.
                let end = rest
                    .get(1..)
                    .and_then(|rest| rest.find('<'))
                    .map_or(rest.len(), |found| found + 1);
                let end = if rest.is_char_boundary(1) {
                    end
                } else {
                    rest.find('<').unwrap_or(rest.len())
                };
                self.at += end;
                return rest.get(..end).map(Token::Text);
            }
            let tag = rest.get(name_at..).unwrap_or_default();
            let length = tag_length(tag);
            self.at += name_at + length + 1;
            let tag = tag.get(..length).unwrap_or_default();
            let name_end = tag
                .find(|sign: char| !(sign.is_ascii_alphanumeric() || sign == ':'))
                .unwrap_or(tag.len());
            let (name, attributes) = tag.split_at(name_end);
            if !closing
                && !attributes.ends_with('/')
                && UNSEEN
                    .iter()
                    .any(|unseen| name.eq_ignore_ascii_case(unseen))
            {
                self.at += end_of(name, self.rest());
                continue;
            }
            let name = KNOWN
                .into_iter()
                .find(|known| name.eq_ignore_ascii_case(known))
                .unwrap_or("");
            return Some(if closing {
                Token::Close(name)
            } else {
                Token::Open { name, attributes }
            });
        }
    }
}

/// Bytes up to the `>` that ends a tag; one inside quotation marks does not.
fn tag_length(tag: &str) -> usize {
    let mut quote = None;
    for (at, byte) in tag.bytes().enumerate().take(LONGEST_TAG) {
        match (quote, byte) {
            (None, b'>') => return at,
            (None, b'"' | b'\'') => quote = Some(byte),
            (Some(open), byte) if open == byte => quote = None,
            _ => {}
        }
    }
    tag.find('>').unwrap_or(tag.len())
}

/// Bytes up to the closing tag of an element whose content is not read.
fn end_of(name: &str, rest: &str) -> usize {
    let mut at = 0;
    while let Some(found) = rest.get(at..).and_then(|rest| rest.find("</")) {
        at += found;
        let behind = rest.get(at + 2..).unwrap_or_default();
        if behind
            .get(..name.len())
            .is_some_and(|word| word.eq_ignore_ascii_case(name))
        {
            return at;
        }
        at += 2;
    }
    rest.len()
}

/// An attribute's value with its entities resolved; empty for one without value.
pub(super) fn attribute(attributes: &str, name: &str) -> Option<String> {
    let mut rest = attributes;
    loop {
        rest = rest
            .trim_start_matches(|sign: char| sign.is_whitespace() || sign == '/' || sign == '=');
        let end = rest
            .find(|sign: char| sign.is_whitespace() || sign == '=' || sign == '/')
            .unwrap_or(rest.len());
        let (key, behind) = rest.split_at(end);
        if key.is_empty() {
            return None;
        }
        let behind = behind.trim_start();
        let (value, behind) = match behind.strip_prefix('=') {
            Some(value) => split_value(value.trim_start()),
            None => ("", behind),
        };
        if key.eq_ignore_ascii_case(name) {
            return Some(entities(value).into_owned());
        }
        rest = behind;
    }
}

fn split_value(text: &str) -> (&str, &str) {
    for quote in ['"', '\''] {
        if let Some(value) = text.strip_prefix(quote) {
            return value.split_once(quote).unwrap_or((value, ""));
        }
    }
    text.split_at(text.find(char::is_whitespace).unwrap_or(text.len()))
}

/// Text with its entities resolved: named ones, numbers, and the few that browsers take without a semicolon.
pub(super) fn entities(text: &str) -> Cow<'_, str> {
    if !text.contains('&') {
        return text.into();
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        let (before, from) = rest.split_at(at);
        out.push_str(before);
        let behind = from.get(1..).unwrap_or_default();
        match entity(behind) {
            Some((text, length)) => {
                out.push_str(&text);
                rest = behind.get(length..).unwrap_or_default();
            }
            None => {
                out.push('&');
                rest = behind;
            }
        }
    }
    out.push_str(rest);
    out.into()
}

/// What an entity stands for, and its length without the ampersand.
fn entity(text: &str) -> Option<(Cow<'static, str>, usize)> {
    let length = text
        .bytes()
        .take(LONGEST_ENTITY)
        .take_while(|byte| byte.is_ascii_alphanumeric() || *byte == b'#')
        .count();
    let name = text.get(..length)?;
    let closed = usize::from(text.get(length..).is_some_and(|rest| rest.starts_with(';')));
    if let Some(digits) = name.strip_prefix('#') {
        let number = match digits.strip_prefix(['x', 'X']) {
            Some(digits) => u32::from_str_radix(digits, 16).ok()?,
            None => digits.parse().ok()?,
        };
        return Some((numbered(number).to_string().into(), length + closed));
    }
    if closed == 1 {
        return resolve_html5_entity(name).map(|text| (text.into(), length + 1));
    }
    ["nbsp", "amp", "lt", "gt", "quot"]
        .into_iter()
        .find(|known| name.starts_with(known))
        .and_then(|known| resolve_html5_entity(known).map(|text| (text.into(), known.len())))
}

/// A sign by its number; 128 to 159 are those of Windows-1252, as in browsers (HTML standard, 13.2.5.80).
fn numbered(number: u32) -> char {
    match u8::try_from(number) {
        Ok(byte @ 0x80..=0x9F) => encoding_rs::WINDOWS_1252
            .decode_without_bom_handling(&[byte])
            .0
            .chars()
            .next()
            .unwrap_or(char::REPLACEMENT_CHARACTER),
        _ => char::from_u32(number)
            .filter(|sign| *sign != '\0')
            .unwrap_or(char::REPLACEMENT_CHARACTER),
    }
}
