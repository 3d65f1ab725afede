//! Words beside figures: what a size is ("OD", "L="), or that a figure is a name and no size ("No. 16").

use super::{Further, Label};

const LABELS: [(&str, Label); 45] = [
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
    ("thickness", Label::Thickness),
    ("bore", Label::Inside),
    ("af", Label::Outside),
    ("a/f", Label::Outside),
    ("depth", Label::Further(Further::Depth)),
    ("flange", Label::Further(Further::Flange)),
    ("bf", Label::Further(Further::Flange)),
    ("tf", Label::Further(Further::FlangeThickness)),
    ("web", Label::Further(Further::Web)),
    ("tw", Label::Further(Further::Web)),
    ("r", Label::Further(Further::Radius)),
    ("radius", Label::Further(Further::Radius)),
    ("top", Label::Further(Further::Top)),
    ("opening", Label::Further(Further::Opening)),
    ("openings", Label::Further(Further::Opening)),
    ("level", Label::Further(Further::Level)),
];

/// Two words that say together what a size is.
const PAIRS: [(&str, &str, Label); 22] = [
    ("wall", "thickness", Label::Wall),
    ("wall", "thick", Label::Wall),
    ("wall", "thk", Label::Wall),
    ("across", "flats", Label::Outside),
    ("top", "dia", Label::Further(Further::Top)),
    ("top", "diameter", Label::Further(Further::Top)),
    ("top", "od", Label::Further(Further::Top)),
    ("top", "width", Label::Further(Further::Top)),
    ("top", "length", Label::Further(Further::Top)),
    ("thin", "end", Label::Further(Further::Top)),
    ("section", "dia", Label::Further(Further::Section)),
    ("section", "diameter", Label::Further(Further::Section)),
    ("flange", "width", Label::Further(Further::Flange)),
    (
        "flange",
        "thickness",
        Label::Further(Further::FlangeThickness),
    ),
    ("flange", "thick", Label::Further(Further::FlangeThickness)),
    ("flange", "thk", Label::Further(Further::FlangeThickness)),
    ("web", "thickness", Label::Further(Further::Web)),
    ("web", "thick", Label::Further(Further::Web)),
    ("web", "thk", Label::Further(Further::Web)),
    ("filled", "to", Label::Further(Further::Level)),
    ("full", "to", Label::Further(Further::Level)),
    ("fill", "height", Label::Further(Further::Level)),
];

/// The label a word is, without case.
pub(super) fn label(word: &str) -> Option<Label> {
    let lower = word.to_lowercase();
    LABELS
        .iter()
        .find(|(name, _)| *name == lower)
        .map(|(_, label)| *label)
}

/// The label that a word is, together with the word before it where the two are one ("top dia").
pub(super) fn label_of(before: &str, word: &str) -> Option<Label> {
    pair(before, word).or_else(|| label(word))
}

/// The label that two words are together, without case.
pub(super) fn pair(first: &str, second: &str) -> Option<Label> {
    let (first, second) = (first.to_lowercase(), second.to_lowercase());
    PAIRS
        .iter()
        .find(|(one, other, _)| *one == first && *other == second.trim_end_matches('.'))
        .map(|(_, _, label)| *label)
}

/// Words whose figure is a name and no size: "No. 16", "#5", "ISO 220", "sch 40", "grade 50".
const NAMING: [&str; 33] = [
    "no", "no.", "nr", "nr.", "#", "n°", "grade", "gr", "gr.", "class", "cl", "type", "rev", "iso",
    "din", "en", "astm", "sch", "sch.", "schedule", "dn", "nps", "nb", "pn", "vg", "sae", "aisi",
    "part", "pos", "model", "gauge", "gage", "ga",
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
