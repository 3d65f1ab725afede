//! Sizes and counts inside a description: "PL 10x1500x3000", "Ø219.1x8.2 L=6000", "6.625 OD X .280 WALL X 21'".

mod further;
mod labels;
mod pieces;
mod runs;
#[cfg(test)]
mod tests;

pub use further::{Further, FurtherChain};
use labels::{label, label_of, named};
use pieces::{Counted, counted};
pub use pieces::{counts_goods, names_it};
use runs::{Side, settled};

use crate::units::written::{Decimal, WrittenLength, fold, scan_length};

/// What a size in a description says it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Label {
    /// Length.
    Length,
    /// Width.
    Width,
    /// Height.
    Height,
    /// Thickness.
    Thickness,
    /// Outside diameter.
    Outside,
    /// Inside diameter.
    Inside,
    /// Wall.
    Wall,
    /// A size that only some shapes have.
    Further(Further),
}

/// One size found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// The size as written; its unit may stand on a later part of the same chain.
    pub written: WrittenLength,
    /// What it says it is.
    pub label: Option<Label>,
}

/// Sizes joined by x, *, / or "by", or a single size.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// The sizes in order.
    pub parts: Vec<Part>,
    /// Joined by strokes (`100/60`).
    pub slashed: bool,
}

/// Everything found in a description.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Described {
    /// Chains of sizes in order.
    pub chains: Vec<Chain>,
    /// Sizes that only some shapes have ("flange 75", "top dia 300"); none of them stands in the chains.
    pub further: Vec<FurtherChain>,
    /// A label stands between two figures that may both be its own ("20 dia 600"); then there are no chains.
    pub open_labels: bool,
    /// A number of pieces.
    pub pieces: Option<u32>,
    /// A number of pieces in each pack ("pack of 208").
    pub in_each_pack: Option<u32>,
}

/// Finds the sizes of a text.
pub fn read(text: &str, habit: Decimal) -> Described {
    let text = fold(text);
    let mut found = Described::default();
    let mut at = 0;
    let mut joined = false;
    let mut slashed = false;
    let mut run = (Side::Before, 0);
    while at < text.len() {
        let Some((next, word)) = next_size(&text, at) else {
            break;
        };
        let Some((written, end)) = scan_length(&text, next, habit, None, false) else {
            at = next + 1;
            joined = false;
            continue;
        };
        // "OD 1200 ID 1000": a size that has its label does not take the next one's.
        let (label, end) = if word.is_some() {
            (word, end)
        } else {
            let after = label_after(&text, end, written);
            if after.0.is_some() && next >= run.1 {
                run = settled(&text, written, end, habit, joined);
                found.open_labels |= run.0 == Side::Open;
            }
            if run.0 == Side::Behind && next < run.1 {
                (None, end)
            } else {
                after
            }
        };
        // "26 lb/ft", "1.35 kg/m" and "16 ga" are no sizes.
        let behind = per_length(&text, end).or_else(|| gauged(&text, end));
        if let Some(behind) = behind.filter(|_| label.is_none()) {
            let join = joint(&text, behind);
            joined = join.is_some() && joined;
            at = join.map_or(behind, |(start, _)| start);
            continue;
        }
        let counted = counted(&text, next, end, written).filter(|_| label.is_none() && !joined);
        if let Some(counted) = counted {
            let (slot, number) = match counted {
                Counted::Pieces(number) => (&mut found.pieces, number),
                Counted::InEachPack(number) => (&mut found.in_each_pack, number),
            };
            slot.get_or_insert(number);
            at = end;
            continue;
        }
        let join = joint(&text, end);
        if closed(&text, end) || join.is_some() {
            let part = Part { written, label };
            match found.chains.last_mut().filter(|_| joined) {
                Some(chain) => {
                    chain.parts.push(part);
                    chain.slashed |= slashed;
                }
                None => found.chains.push(Chain {
                    parts: vec![part],
                    slashed: false,
                }),
            }
        }
        joined = join.is_some();
        slashed = join.is_some_and(|(_, slash)| slash);
        at = join.map_or(end, |(start, _)| start).max(next + 1);
        if !joined && !closed(&text, end) {
            at = skip_word(&text, at);
        }
    }
    if found.open_labels {
        found.chains.clear();
    }
    found.further = further::taken_out(&mut found.chains);
    found
}

/// Whether a word says which size a figure is ("OD", "flange").
pub fn names_a_size(word: &str) -> bool {
    label(word).is_some()
}

/// The next figure that may be a size, with the label before it. Figures inside names (`M24`, `DN150`, `S355`) are passed over.
fn next_size(text: &str, from: usize) -> Option<(usize, Option<Label>)> {
    let bytes = text.as_bytes();
    let mut at = from;
    let mut previous = "";
    while at < bytes.len() {
        let sign = text.get(at..)?.chars().next()?;
        if sign.is_ascii_digit()
            || (matches!(sign, '.' | ',') && bytes.get(at + 1).is_some_and(u8::is_ascii_digit))
        {
            if named(text, at) {
                at = skip_word(text, at);
                continue;
            }
            return Some((at, None));
        }
        if sign.is_alphabetic() || sign == 'Ø' {
            let end = word_end(text, at);
            let word = &text[at..end];
            let gap =
                text[end..].len() - text[end..].trim_start_matches([' ', '=', ':', '.']).len();
            let digit = bytes
                .get(end + gap)
                .is_some_and(|byte| byte.is_ascii_digit() || (*byte == b'.' && gap == 0));
            if digit && let Some(label) = label_of(previous, word) {
                // "L4X4X3/8" is an angle and "W12X26" a beam: a letter glued to a short figure is a name.
                if gap > 0 || word == "Ø" || (label == Label::Length && glued_length(text, end)) {
                    return Some((end + gap, Some(label)));
                }
            }
            at = if digit && gap == 0 {
                skip_word(text, at)
            } else {
                end
            };
            previous = word;
            continue;
        }
        at += sign.len_utf8();
    }
    None
}

/// `L6000`: at least three digits, nothing joined to it.
fn glued_length(text: &str, at: usize) -> bool {
    let rest = &text.as_bytes()[at..];
    let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
    digits >= 3 && joint(text, at + digits).is_none()
}

fn word_end(text: &str, at: usize) -> usize {
    let rest = &text[at..];
    if rest.starts_with('Ø') {
        return at + 'Ø'.len_utf8();
    }
    let letters = rest
        .find(|sign: char| !(sign.is_alphabetic() || sign == '.') || sign == 'Ø')
        .unwrap_or(rest.len());
    at + letters.max(1)
}

/// The end of a name with figures (`W12X26`, `S355J2+N`, `M24x130`).
fn skip_word(text: &str, at: usize) -> usize {
    text[at..]
        .find([' ', ',', ';', '(', ')'])
        .map_or(text.len(), |end| at + end.max(1))
}

/// A label behind a size: ` OD`, ` WALL`, ` DIA`.
fn label_after(text: &str, end: usize, written: WrittenLength) -> (Option<Label>, usize) {
    let Some((label, _, stop)) = label_word(text, end, written) else {
        return (None, end);
    };
    // "75 mm flange", but in "200 flange 75" the word belongs to the figure behind it.
    let belongs_behind = matches!(label, Label::Further(_))
        && text[stop..]
            .trim_start_matches([' ', '=', ':'])
            .starts_with(|sign: char| sign.is_ascii_digit());
    if belongs_behind {
        (None, end)
    } else {
        (Some(label), stop)
    }
}

/// The label that stands behind a size, and where it starts and stops.
fn label_word(text: &str, end: usize, written: WrittenLength) -> Option<(Label, usize, usize)> {
    let rest = &text[end..];
    let start = end + rest.len() - rest.trim_start_matches([' ', '-']).len();
    let stop = word_end_plain(text, start);
    let word = text.get(start..stop).unwrap_or("");
    // A single letter behind a figure is more often a unit or a joiner than a label.
    let label = (word.len() > 1
        || (start == end + 1
            && written.unit.is_some()
            && "LWHTlwht".contains(word)
            && !word.is_empty()))
    .then(|| label(word))
    .flatten();
    let (label, stop) = further::after(text, word, stop).unwrap_or((label, stop));
    Some((label?, start, stop))
}

fn word_end_plain(text: &str, at: usize) -> usize {
    text[at..]
        .find(|sign: char| !(sign.is_ascii_alphabetic() || sign == '.'))
        .map_or(text.len(), |end| at + end)
}

/// A joiner and then a figure or a label: the byte to go on from, and whether it is a stroke.
fn joint(text: &str, end: usize) -> Option<(usize, bool)> {
    let rest = &text[end..];
    let trimmed = rest.trim_start();
    let start = end + rest.len() - trimmed.len();
    let (length, slash) = match trimmed.chars().next()? {
        'x' | 'X' | '*' => (1, false),
        '/' if start == end => (1, true),
        'b' | 'B'
            if trimmed
                .get(..3)
                .is_some_and(|word| word.eq_ignore_ascii_case("by ")) =>
        {
            (3, false)
        }
        _ => return None,
    };
    let after = text.get(start + length..)?;
    let next = after.trim_start();
    let at = start + length + after.len() - next.len();
    let figure = next.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.' || sign == 'Ø');
    let labelled = !slash
        && next.split([' ', '=']).next().and_then(label).is_some()
        && after.len() != next.len();
    (figure || labelled).then_some((at, slash))
}

/// Where a unit of mass per length behind a figure ends.
fn per_length(text: &str, end: usize) -> Option<usize> {
    let rest = &text[end..];
    let word = rest.trim_start();
    let start = end + rest.len() - word.len();
    let stop = word
        .find(|sign: char| !(sign.is_alphanumeric() || matches!(sign, '/' | '#')))
        .unwrap_or(word.len());
    let unit = word.get(..stop)?.to_lowercase();
    matches!(
        unit.as_str(),
        "lb/ft"
            | "lbs/ft"
            | "#/ft"
            | "plf"
            | "kg/m"
            | "kgs/m"
            | "kg/lm"
            | "kg/mtr"
            | "kg/ml"
            | "kg/ft"
    )
    .then_some(start + stop)
}

/// Where the word behind a figure ends that makes it a gauge.
fn gauged(text: &str, end: usize) -> Option<usize> {
    let rest = &text[end..];
    let start = end + rest.len() - rest.trim_start_matches([' ', '-']).len();
    let stop = word_end_plain(text, start);
    let word = text.get(start..stop)?.trim_end_matches('.');
    let gauge = ["ga", "gauge", "gage", "gge"];
    let named = gauge.iter().any(|name| word.eq_ignore_ascii_case(name));
    named.then_some(stop)
}

/// Nothing is glued to the size that would make it part of a name.
fn closed(text: &str, end: usize) -> bool {
    !text[end..].starts_with(|sign: char| sign.is_alphanumeric())
}
