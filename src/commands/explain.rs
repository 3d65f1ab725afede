//! `dockheft explain`: what a finding means, why it matters on the dock, what to do.

use super::{Status, output};
use crate::cli::ExplainArgs;
use crate::error::Error;
use crate::judge::{RULES, Rule};
use crate::report::wrap;

/// Columns of a printed line at most.
const WIDTH: usize = 100;

/// Runs the command.
///
/// # Errors
/// When the text cannot be written.
pub fn run(args: &ExplainArgs) -> Result<Status, Error> {
    output::print(&args.code.map_or_else(all, one))?;
    Ok(Status::Clear)
}

/// Every code with the first sentence of its explanation.
fn all() -> String {
    let longest = RULES.iter().map(|rule| rule.code().len()).max();
    let indent = longest.unwrap_or(0) + 2;
    let entries = RULES.iter().map(|rule| {
        let lines = wrap(first_sentence(rule.explanation()), WIDTH - indent);
        let text = lines.join(&format!("\n{:indent$}", ""));
        format!("{:indent$}{text}\n", rule.code())
    });
    entries.collect()
}

/// A code with its explanation, headings as plain lines.
fn one(rule: &dyn Rule) -> String {
    let mut text = format!("{}\n", rule.code());
    for line in rule.explanation().lines().map(str::trim) {
        match line.strip_prefix('#') {
            Some(heading) => text.push_str(&format!("\n{}\n", heading.trim())),
            None if line.is_empty() => {}
            None => {
                for line in wrap(line, WIDTH - 2) {
                    text.push_str(&format!("  {line}\n"));
                }
            }
        }
    }
    let off = if rule.may_be_off() {
        "It may be switched off in the site file, with a reason (rules_off)."
    } else {
        "It cannot be switched off: people are protected by it."
    };
    text.push_str(&format!("\nAt a site\n  {off}\n"));
    text
}

/// The first sentence below the first heading.
fn first_sentence(explanation: &str) -> &str {
    let mut lines = explanation.lines().map(str::trim);
    let text = lines
        .find(|line| !line.is_empty() && !line.starts_with('#'))
        .unwrap_or("");
    text.find(". ")
        .and_then(|end| text.get(..=end))
        .unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::judge;

    #[test]
    fn one_is_read_as_a_page() {
        let rule = judge::rule("gross-below-net").expect("a rule");
        assert_eq!(
            one(rule),
            "gross-below-net\n\n\
             What was seen\n  The gross weight (with packaging) is below the net weight (without it).\n\n\
             Why it matters on the dock\n  Goods cannot weigh less with their packaging: one of the two is wrong, or they stand in each\n  other's place.\n\n\
             What to do\n  Ask the supplier which is which, or weigh it. Plan with no less than the larger of the two.\n\n\
             Example\n  887 lb gross beside 912 lb net.\n\n\
             At a site\n  It cannot be switched off: people are protected by it.\n"
        );
    }

    #[test]
    fn all_are_listed_with_one_sentence() {
        let text = all();
        for rule in RULES {
            let entry = text
                .lines()
                .find(|line| line.split(' ').next() == Some(rule.code()));
            let said = entry.map(|line| line[rule.code().len()..].trim());
            assert!(said.is_some_and(|said| said.len() > 20), "{}", rule.code());
        }
        let starts = text.lines().filter(|line| !line.starts_with(' '));
        assert_eq!(starts.count(), RULES.len());
        // A second sentence is left out.
        assert!(text.contains("could not be read as it stands.\n"), "{text}");
        assert!(!text.contains("proves little"), "{text}");
    }

    #[test]
    fn nothing_is_wider_than_the_page_or_keeps_its_marks() {
        let pages = RULES.iter().map(|rule| one(*rule));
        for page in pages.chain([all()]) {
            for line in page.lines() {
                assert!(line.chars().count() <= WIDTH, "{line}");
                assert!(!line.contains('#') && line == line.trim_end(), "{line}");
            }
        }
    }
}
