//! Counts alone in a cell. Spellings: common practice, no source; a dozen is 12, a gross 144.

use crate::units::written::Decimal::{Comma, Point, Unclear};
use crate::units::written::count;

#[test]
fn counts_in_cells() {
    for (text, habit, number, unit, each) in [
        ("24", Unclear, 24, "", None),
        ("24 pcs", Unclear, 24, "pcs", None),
        ("24PCS.", Unclear, 24, "PCS.", None),
        ("24 pce", Unclear, 24, "pce", None),
        ("24 ea", Unclear, 24, "ea", None),
        ("24 nos", Unclear, 24, "nos", None),
        ("24 Stück", Unclear, 24, "Stück", None),
        ("24 szt.", Unclear, 24, "szt.", None),
        ("24 st", Unclear, 24, "st", None),
        ("24件", Unclear, 24, "件", None),
        ("２４", Unclear, 24, "", None),
        ("(10)", Unclear, 10, "", None),
        ("(10 pcs)", Unclear, 10, "pcs", None),
        ("'10", Unclear, 10, "", None),
        ("x 10", Unclear, 10, "", None),
        ("ca. 10", Unclear, 10, "", None),
        ("10*", Unclear, 10, "", None),
        ("24.0", Unclear, 24, "", None),
        ("24,00", Unclear, 24, "", None),
        ("24.000", Point, 24, "", None),
        ("1,200 pcs", Point, 1_200, "pcs", None),
        ("1.200 Stk", Comma, 1_200, "Stk", None),
        ("1 200", Unclear, 1_200, "", None),
        ("1'200", Unclear, 1_200, "", None),
        ("12,50,000", Unclear, 1_250_000, "", None),
        ("2 crates", Unclear, 2, "crates", None),
        ("20 ctns of 12", Unclear, 20, "ctns", Some(12)),
        ("20 ctns x 12 pcs", Unclear, 20, "ctns", Some(12)),
        ("3 doz", Unclear, 36, "", None),
        ("2.5 doz", Unclear, 30, "", None),
        ("4 prs", Unclear, 8, "", None),
        ("2 GRO", Unclear, 288, "", None),
    ] {
        let found = count(text, habit);
        let read = found
            .as_ref()
            .map(|found| (found.number, found.unit.as_str(), found.each));
        assert_eq!(read, Some((number, unit, each)), "{text}");
        assert!(
            found.is_some_and(|found| !found.unclear),
            "{text} can be read in one way only"
        );
    }
}

#[test]
fn what_is_no_count() {
    for text in [
        "",
        "-",
        "TBA",
        "0",
        "-5",
        "2.5",
        "2,5 pcs",
        "10-12",
        "10 of 12",
        "1 of 6",
        "10+2",
        "10+",
        "10 %",
        "2/case",
        "pcs",
        "3E5",
        "1,200,5",
        "99999999999",
    ] {
        assert_eq!(count(text, Unclear), None, "{text}");
    }
}

/// Programs write 24 pieces as "24.000" and 24 thousand as "24.000" too.
#[test]
fn counts_that_can_be_read_in_two_ways_say_so() {
    for text in ["24.000", "24,000", "1,200 pcs"] {
        assert!(
            count(text, Unclear).is_some_and(|found| found.unclear),
            "{text}"
        );
    }
}
