//! Words that may stand beside a figure in its cell: labels of sizes and weights, "approx.".

use crate::tables::headings::{self, Role};
use crate::tables::phrases::{Word, words};

/// Ways to say that a figure is not exact, longest first where one begins another.
const APPROXIMATE: [&str; 39] = [
    "approximately",
    "approximate",
    "approx.",
    "approx",
    "apprx.",
    "apprx",
    "appx.",
    "appx",
    "aprox.",
    "aprox",
    "about",
    "abt.",
    "abt",
    "circa",
    "cirka",
    "zirka",
    "ca.",
    "ca",
    "c.",
    "environ",
    "env.",
    "etwa",
    "ungefähr",
    "ungef.",
    "rd.",
    "ongeveer",
    "około",
    "ok.",
    "est.",
    "est",
    "大约",
    "约",
    "およそ",
    "約",
    "+/-",
    "+-",
    "~",
    "≈",
    "±",
];

/// Takes a leading "approx." off a text; whether there was one.
pub(super) fn approximate(text: &str) -> (bool, &str) {
    for word in APPROXIMATE {
        let Some(start) = text.get(..word.len()) else {
            continue;
        };
        let rest = text.get(word.len()..).unwrap_or("");
        // "ca 450" is approximate, "case 450" is not.
        let goes_on = word.ends_with(char::is_alphabetic)
            && word.is_ascii()
            && rest.starts_with(char::is_alphabetic);
        if start.to_lowercase() == word && !goes_on {
            return (true, rest.trim_start_matches([' ', ':']));
        }
    }
    (false, text)
}

/// Whether a word alone says that the figure is not exact.
pub(super) fn says_approximate(word: &Word) -> bool {
    APPROXIMATE.contains(&word.plain.as_str())
}

/// Whether a text holds nothing but names of sizes ("L=", "Ø", "long", "OD"). `DN` and `NPS` name nominal sizes, which are
/// no lengths.
pub(super) fn names_a_size(text: &str) -> bool {
    let found = words(text);
    let mut at = 0;
    while at < found.len() {
        match headings::at(&found, at) {
            Some((taken, roles)) if roles.iter().all(|role| is_size(*role)) => at += taken,
            _ => return false,
        }
    }
    text.chars()
        .all(|sign| sign.is_alphanumeric() || matches!(sign, '=' | ':' | '.' | ' '))
}

fn is_size(role: Role) -> bool {
    matches!(
        role,
        Role::Length
            | Role::Width
            | Role::Height
            | Role::Thickness
            | Role::Outside
            | Role::Inside
            | Role::Wall
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_before_a_figure() {
        assert_eq!(approximate("ca. 450"), (true, "450"));
        assert_eq!(approximate("Approx: 450"), (true, "450"));
        assert_eq!(approximate("约450"), (true, "450"));
        assert_eq!(approximate("case 450"), (false, "case 450"));
        assert_eq!(approximate(""), (false, ""));
    }

    #[test]
    fn names_of_sizes() {
        for text in ["L=", "Ø ", "long", "Länge:", "OD", ""] {
            assert!(names_a_size(text), "{text}");
        }
        for text in ["DN", "NPS", "M", "No", "kg", "+"] {
            assert!(!names_a_size(text), "{text}");
        }
    }
}
