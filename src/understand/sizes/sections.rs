//! Names of rolled sections before their figures.

/// Names of rolled sections whose figures are a designation, not sizes (the last may be a mass).
const DESIGNATIONS: [&str; 26] = [
    "w", "s", "hp", "c", "mc", "m", "wt", "mt", "ub", "uc", "ukb", "ukc", "pfc", "ukpfc", "ipe",
    "he", "hea", "heb", "hem", "upn", "upe", "inp", "unp", "ipn", "hd", "u",
];

/// Whether the text begins with, or holds as a word before figures, the name of a rolled section.
pub(super) fn designated(text: &str) -> bool {
    let lower = text.to_lowercase();
    let (mut before, mut previous) = ("", "");
    for word in lower.split([' ', ',']) {
        let figure = |word: &str| word.starts_with(|sign: char| sign.is_ascii_digit());
        // "500 m 1.35 kg/m": metres, no section of the M series.
        let metres = previous == "m" && figure(before);
        if figure(word) && DESIGNATIONS.contains(&previous) && !metres {
            return true;
        }
        (before, previous) = (previous, word);
    }
    false
}

/// Whether the first word is the name of a rolled section with its figures ("W12x26").
pub(super) fn begins_with_section(text: &str) -> bool {
    let first = text.split(' ').next().unwrap_or("").to_lowercase();
    let figures = first.find(|sign: char| !sign.is_alphabetic());
    figures.is_some_and(|at| DESIGNATIONS.contains(&&first[..at]))
}
