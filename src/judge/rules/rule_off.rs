//! `rule-off`.

use crate::judge::{Finding, Off, Rule, Severity};
use crate::site::Site;

rule_type! {
    /// # What was seen
    /// The site has switched off findings of some kinds (rules_off in the site file), and this delivery would have had some of them.
    /// # Why it matters on the dock
    /// Somebody decided that these need no attention here. Whoever reads the list should know that they were not looked at.
    /// # What to do
    /// Nothing, while the reason still holds. The manager takes the line out of the site file when it does not.
    /// # Example
    /// Kestrel Junction counts pallets and not volumes: volume-differs is switched off, and would have spoken of four lines.
    pub struct RuleOff;
}

impl Rule for RuleOff {
    fn code(&self) -> &'static str {
        "rule-off"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn silenced(&self, off: &Off, site: &Site, found: &mut Vec<Finding>) {
        if off.is_empty() {
            return;
        }
        let said = off.iter().map(|(code, times)| {
            let reason = site.rules_off.get(*code).map_or("", String::as_str);
            format!("{code}, {times} found (\"{reason}\")")
        });
        let message = format!(
            "switched off in the site file: {}",
            said.collect::<Vec<_>>().join("; ")
        );
        found.push(Finding::new(self.code(), Severity::Note, message));
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, plates};
    use crate::site::Site;
    use std::collections::BTreeMap;

    /// Lifts that take 94 % of a truck's capacity, at a site without the finding for it.
    fn close(rows: &str) -> List {
        plates(rows).site(Site {
            rules_off: BTreeMap::from([("close-call".to_string(), "rated low".to_string())]),
            ..Site::default()
        })
    }

    const CLOSE: &str = "Steel plate,S235,1,2000,1000,60,940";

    #[test]
    fn fires_where_a_finding_was_left_out() {
        let two = || close(&format!("{CLOSE}\n{CLOSE}"));
        assert_eq!(two().lines("close-call"), "- -");
        let delivery = close(CLOSE).audited();
        let said = &delivery.findings[0].message;
        assert!(
            said.ends_with("close-call, 1 found (\"rated low\")"),
            "{said}"
        );
        assert_eq!(delivery.off.get("close-call"), Some(&1));
    }

    #[test]
    fn silent_where_nothing_is_switched_off() {
        assert_eq!(plates(CLOSE).delivery("rule-off"), "-");
        assert_eq!(plates(CLOSE).lines("close-call"), "note");
    }

    #[test]
    fn boundary_where_the_switched_off_finding_would_not_have_come() {
        let light = "Steel plate,S235,1,2000,1000,50,785";
        assert_eq!(close(light).delivery("rule-off"), "-");
        assert_eq!(
            close(&format!("{light}\n{CLOSE}")).delivery("rule-off"),
            "note"
        );
    }

    #[test]
    fn missing_weights_leave_nothing_out() {
        assert_eq!(close("Spare parts,,1,,,,").delivery("rule-off"), "-");
    }
}
