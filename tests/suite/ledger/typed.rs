//! A decision typed on the command line is held against what the goods can weigh.

use super::decided::decide;
use super::known::{audit, line};
use super::{audited, folder, out};
use crate::helper::{said, status};

/// A slip in a typed weight: what no line weighs is refused, what these goods should not weigh stays open.
#[test]
fn a_typed_weight_is_held_against_what_the_goods_can_weigh() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = super::id(at, "SB-2");
    let weighed = |weight: &str, evidence: &str| {
        let args = [
            "--as",
            "weighed",
            "--weight",
            weight,
            "--evidence",
            evidence,
        ];
        decide(at, &light, &args)
    };
    for weight in [
        "0.0001 lb",
        "0.0005 kg",
        "3000000 lb",
        &format!("{}1 kg", "9".repeat(300)),
    ] {
        let refused = weighed(weight, "scale ticket 5518");
        assert_eq!(status(&refused), 3, "{weight}: {}", said(&refused));
        assert!(
            said(&refused).contains("no line weighs"),
            "{}",
            said(&refused)
        );
    }
    for evidence in ["-", "none", "n/a", "packing list"] {
        let refused = weighed("978 lb", evidence);
        assert_eq!(status(&refused), 3, "{evidence}: {}", said(&refused));
    }
    let bare = decide(at, &light, &["--as", "weighed", "--weight", "978 lb"]);
    assert_eq!(status(&bare), 3, "{}", said(&bare));
    for (weight, doubt, severity) in [
        (
            "97.8 lb",
            Some("LIGHTER THAN IT SHOULD BE (at least "),
            "check",
        ),
        (
            "2,040 lb",
            Some("HEAVIER THAN IT SHOULD BE (at most "),
            "check",
        ),
        ("978 lb", None, "note"),
    ] {
        let taken = weighed(weight, "scale ticket 5518");
        assert_eq!(status(&taken), 0, "{weight}: {}", said(&taken));
        let text = out(&taken);
        assert_eq!(text.contains("SHOULD BE"), doubt.is_some(), "{text}");
        assert!(text.contains(doubt.unwrap_or("planned with")), "{text}");
        let (records, told) = audit(at, "list.csv", &[]);
        // Whoever weighs again is ours, not the supplier.
        assert_eq!(told.contains("To do ourselves"), doubt.is_some(), "{told}");
        let line = line(&records, "SB-2");
        assert_eq!(
            super::known::severity(&line, "decided"),
            severity,
            "{weight}"
        );
    }
}
