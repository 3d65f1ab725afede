//! Rules that a site has switched off, each with its reason. What protects people stays on.

use super::{Finding, RULES, rule};
use crate::site::Site;
use std::collections::BTreeMap;

/// How often each rule that is switched off would have spoken.
pub type Off = BTreeMap<&'static str, usize>;

/// Refuses codes that no rule has, rules that protect people, and reasons that are none.
///
/// # Errors
/// What was found in the site file, and what to do about it.
pub fn may_be_off(rules_off: &BTreeMap<String, String>) -> Result<(), (String, String)> {
    for (code, reason) in rules_off {
        let key = format!("rules_off.{code}");
        match rule(code) {
            Ok(rule) if rule.code() != code => {
                return Err((
                    format!("{key}: no finding is written so"),
                    format!("write \"{}\"", rule.code()),
                ));
            }
            Err(nearest) => {
                return Err((
                    format!("{key}: no finding has that code"),
                    format!("the nearest is \"{nearest}\"; \"dockheft explain\" lists all of them"),
                ));
            }
            Ok(rule) if !rule.may_be_off() => {
                return Err((
                    format!("{key}: this finding protects people and cannot be switched off"),
                    format!("take the line out; these may be: {}", codes().join(", ")),
                ));
            }
            Ok(_) if reason.trim().is_empty() => {
                return Err((
                    format!("{key}: no reason is given"),
                    "write why the site can do without it; the reason stands in every workbook"
                        .to_string(),
                ));
            }
            Ok(_) => {}
        }
    }
    Ok(())
}

/// The rules that a site may switch off.
fn codes() -> Vec<&'static str> {
    let may = RULES.iter().filter(|rule| rule.may_be_off());
    may.map(|rule| rule.code()).collect()
}

/// Takes out the findings that the site has switched off, and counts them.
pub fn take_off(findings: &mut Vec<Finding>, site: &Site, off: &mut Off) {
    findings.retain(|finding| {
        let listed = site.rules_off.contains_key(finding.code);
        let silent = listed && rule(finding.code).is_ok_and(|rule| rule.may_be_off());
        if silent {
            *off.entry(finding.code).or_default() += 1;
        }
        !silent
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(code: &str, reason: &str) -> Option<(String, String)> {
        may_be_off(&BTreeMap::from([(code.to_string(), reason.to_string())])).err()
    }

    #[test]
    fn a_code_that_is_none_names_the_nearest() {
        let (found, remedy) = refused("close-cal", "many").expect("refused");
        assert!(found.contains("rules_off.close-cal") && remedy.contains("\"close-call\""));
        let (_, remedy) = refused("Close_Call", "many").expect("refused");
        assert_eq!(remedy, "write \"close-call\"");
        assert_eq!(refused("close-call", "our trucks are rated low"), None);
        assert!(refused("close-call", " ").is_some());
    }

    #[test]
    fn what_protects_people_stays_on() {
        for code in [
            "column-contradicted",
            "declared-heavy",
            "declared-impossible",
            "declared-light",
            "declared-missing",
            "gross-below-net",
            "held",
            "lift-divided",
            "load-centre-assumed",
            "no-planning-weight",
            "no-register",
            "no-truck",
            "reading-assumed",
            "reading-remark",
            "rule-off",
            "see-delivery",
            "tall-load",
            "truck-overloaded",
            "unverifiable",
        ] {
            let (found, remedy) = refused(code, "too many").expect(code);
            assert!(
                found.contains("protects people") && remedy.contains("close-call"),
                "{found}"
            );
        }
    }

    /// Nothing that may be switched off holds a load: taking it out releases none.
    #[test]
    fn a_settings_struct_made_by_hand_cannot_silence_a_stop() {
        let site = Site {
            rules_off: BTreeMap::from([("held".to_string(), "in a hurry".to_string())]),
            ..Site::default()
        };
        let mut findings = vec![Finding::new("held", crate::judge::Severity::Stop, "wait")];
        let mut off = Off::new();
        take_off(&mut findings, &site, &mut off);
        assert!(findings.len() == 1 && off.is_empty());
    }
}
