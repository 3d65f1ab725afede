//! Small helpers over the XML reader: names without their prefix, attributes, text with its entities.

use super::open::Refusal;
use super::package::{damaged, unreadable};
use quick_xml::escape::{resolve_html5_entity, resolve_xml_entity, unescape};
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;
use std::str::FromStr;

/// An XML reader over a part.
pub(super) type Xml<R> = quick_xml::Reader<R>;

/// A reader that takes what careless writers write: ends that do not match are not checked, `<a/>` counts as `<a></a>`.
pub(super) fn reader<R: BufRead>(source: R) -> Xml<R> {
    let mut xml = quick_xml::Reader::from_reader(source);
    let config = xml.config_mut();
    config.check_end_names = false;
    config.allow_unmatched_ends = true;
    config.allow_dangling_amp = true;
    config.expand_empty_elements = true;
    xml
}

/// The next event.
///
/// # Errors
/// When the part is damaged or unpacks to too much.
pub(super) fn next<'b, R: BufRead>(
    xml: &mut Xml<R>,
    buffer: &'b mut Vec<u8>,
) -> Result<Event<'b>, Refusal> {
    buffer.clear();
    xml.read_event_into(buffer).map_err(|error| match error {
        quick_xml::Error::Io(error) => unreadable(&error),
        error => damaged(error),
    })
}

/// An attribute by its name without prefix, entities resolved.
pub(super) fn attribute(element: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut attributes = element.attributes();
    attributes
        .with_checks(false)
        .flatten()
        .find(|attribute| attribute.key.local_name().as_ref() == name)
        .map(|attribute| plain(&attribute.value))
}

/// An attribute's text with its entities resolved, as it stands when they cannot be.
pub(super) fn plain(raw: &str) -> String {
    unescape(raw).map_or_else(|_| raw.to_string(), |text| text.into_owned())
}

/// An attribute as a number, none when it is absent or not one.
pub(super) fn number<T: FromStr>(element: &BytesStart<'_>, name: &str) -> Option<T> {
    attribute(element, name)?.trim().parse().ok()
}

/// An attribute that says yes: `1`, `true` or `on` (ECMA-376, XML Schema boolean).
pub(super) fn flag(element: &BytesStart<'_>, name: &str) -> bool {
    attribute(element, name).is_some_and(|value| is_yes(&value))
}

/// `1`, `true` or `on`.
pub(super) fn is_yes(value: &str) -> bool {
    matches!(value.trim(), "1" | "true" | "on" | "TRUE")
}

/// Adds the text of an event, if it is one.
pub(super) fn push_text(event: &Event<'_>, into: &mut String) {
    match event {
        Event::Text(text) => into.push_str(&text.xml10_content()),
        Event::CData(text) => into.push_str(&text.xml10_content()),
        Event::GeneralRef(entity) => match entity.resolve_char_ref() {
            Ok(Some(sign)) => into.push(sign),
            Ok(None) => match resolve_xml_entity(entity).or_else(|| resolve_html5_entity(entity)) {
                Some(text) => into.push_str(text),
                // An entity that nobody defined stays as it was written, so that the clerk sees it.
                None => {
                    into.push('&');
                    into.push_str(entity);
                    into.push(';');
                }
            },
            Err(_) => into.push(char::REPLACEMENT_CHARACTER),
        },
        _ => {}
    }
}

/// Resolves `_x000D_` and the like, by which workbooks write signs that XML does not allow (ECMA-376 part 1, 22.4.2.4).
pub(super) fn without_sign_codes(text: &str) -> std::borrow::Cow<'_, str> {
    if !text.contains("_x") {
        return text.into();
    }
    let mut units: Vec<u16> = Vec::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("_x") {
        let (before, code) = rest.split_at(at);
        units.extend(before.encode_utf16());
        let unit = code
            .get(2..6)
            .filter(|digits| digits.bytes().all(|digit| digit.is_ascii_hexdigit()))
            .filter(|_| code.get(6..7) == Some("_"))
            .and_then(|digits| u16::from_str_radix(digits, 16).ok());
        match unit {
            Some(unit) => {
                units.push(unit);
                rest = code.get(7..).unwrap_or_default();
            }
            None => {
                units.extend("_x".encode_utf16());
                rest = code.get(2..).unwrap_or_default();
            }
        }
    }
    units.extend(rest.encode_utf16());
    String::from_utf16_lossy(&units).into()
}

/// The text of a cell up to the end of its element: all runs, without the phonetic guides (`rPh`) of Japanese text.
///
/// # Errors
/// When the part is damaged.
pub(super) fn text_of<R: BufRead>(
    xml: &mut Xml<R>,
    buffer: &mut Vec<u8>,
    end: &str,
) -> Result<String, Refusal> {
    let mut all = String::new();
    let mut run = String::new();
    let (mut in_text, mut keep_spaces, mut guide) = (false, false, false);
    loop {
        match next(xml, buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "rPh" => guide = true,
                "t" if !guide => {
                    in_text = true;
                    keep_spaces =
                        attribute(&element, "space").is_some_and(|value| value == "preserve");
                    run.clear();
                }
                _ => {}
            },
            Event::End(element) => match element.local_name().as_ref() {
                "rPh" => guide = false,
                "t" if in_text => {
                    in_text = false;
                    // Without xml:space, spaces at the ends come from the layout of the file.
                    let text = if keep_spaces {
                        &run
                    } else {
                        run.trim_matches([' ', '\t', '\r', '\n'])
                    };
                    all.push_str(&without_sign_codes(text));
                }
                name if name == end => return Ok(all),
                _ => {}
            },
            Event::Eof => return Ok(all),
            event if in_text => push_text(&event, &mut run),
            _ => {}
        }
    }
}
