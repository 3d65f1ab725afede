//! The registry of rules, walked.

use super::RULES;

#[test]
fn codes_are_plain_words_unique_and_sorted() {
    let codes: Vec<&str> = RULES.iter().map(|rule| rule.code()).collect();
    let mut sorted = codes.clone();
    sorted.sort_unstable();
    sorted.dedup();
    assert_eq!(codes, sorted);
    for code in codes {
        assert!(
            code.bytes()
                .all(|byte| byte.is_ascii_lowercase() || byte == b'-'),
            "{code}"
        );
    }
}

#[test]
fn every_rule_is_explained() {
    for rule in RULES {
        for heading in [
            "# What was seen",
            "# Why it matters on the dock",
            "# What to do",
            "# Example",
        ] {
            let text = rule.explanation();
            let after = text
                .split(heading)
                .nth(1)
                .unwrap_or_else(|| panic!("{}: no {heading}", rule.code()));
            assert!(
                after.trim().len() > 20,
                "{}: {heading} says nothing",
                rule.code()
            );
        }
    }
}
