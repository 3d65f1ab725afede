//! Words beside figures: what a size is ("OD", "L="), or that a figure is a name and no size ("No. 16").

use super::Label;

const LABELS: [(&str, Label); 29] = [
    ("l", Label::Length),
    ("lg", Label::Length),
    ("length", Label::Length),
    ("long", Label::Length),
    ("w", Label::Width),
    ("width", Label::Width),
    ("wide", Label::Width),
    ("b", Label::Width),
    ("h", Label::Height),
    ("height", Label::Height),
    ("high", Label::Height),
    ("tall", Label::Height),
    ("deep", Label::Height),
    ("t", Label::Thickness),
    ("thk", Label::Thickness),
    ("thick", Label::Thickness),
    ("od", Label::Outside),
    ("o.d.", Label::Outside),
    ("o.d", Label::Outside),
    ("dia", Label::Outside),
    ("dia.", Label::Outside),
    ("diam", Label::Outside),
    ("diameter", Label::Outside),
    ("ø", Label::Outside),
    ("Ø", Label::Outside),
    ("id", Label::Inside),
    ("i.d.", Label::Inside),
    ("wall", Label::Wall),
    ("wt", Label::Wall),
];

/// The label a word is, without case.
pub(super) fn label(word: &str) -> Option<Label> {
    let lower = word.to_lowercase();
    LABELS
        .iter()
        .find(|(name, _)| *name == lower)
        .map(|(_, label)| *label)
}

/// Words whose figure is a name and no size: "No. 16", "#5", "ISO 220", "sch 40", "grade 50".
const NAMING: [&str; 30] = [
    "no", "no.", "nr", "nr.", "#", "n°", "grade", "gr", "gr.", "class", "cl", "type", "rev", "iso",
    "din", "en", "astm", "sch", "sch.", "schedule", "dn", "nps", "nb", "pn", "vg", "sae", "aisi",
    "part", "pos", "model",
];

/// Whether the figure at byte `at` belongs to a naming word before it.
pub(super) fn named(text: &str, at: usize) -> bool {
    let before = text.get(..at).unwrap_or("").trim_end();
    if before.ends_with('#') {
        return true;
    }
    let word = before.rsplit([' ', ',', '(', '-']).next().unwrap_or("");
    NAMING.contains(&word.to_lowercase().as_str())
}
