//! Loads as people type them, spellings of the trade (common practice, no source).

use super::parse;

/// (typed, quantity, description): spellings of the trade, common practice.
#[test]
fn counts_at_either_end() {
    for (text, quantity, description) in [
        (
            "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3",
            Some("3"),
            "pipe OD 30 in ID 24 in L 8 ft reinforced concrete",
        ),
        (
            "pipe OD 30 in ID 24 in L 8 ft x 3",
            Some("3"),
            "pipe OD 30 in ID 24 in L 8 ft",
        ),
        ("3 x pipe OD 30 in", Some("3"), "pipe OD 30 in"),
        ("3x W12x26 L 20 ft", Some("3"), "W12x26 L 20 ft"),
        ("W12x26 20 ft x3", Some("3"), "W12x26 20 ft"),
        ("W12x26 x 20 ft x 3", Some("3"), "W12x26 x 20 ft"),
        ("rebar #5 20 ft 100 x", Some("100"), "rebar #5 20 ft"),
        ("rebar #5 20 ft qty 100", Some("100"), "rebar #5 20 ft"),
        (
            "PL 1/2\" x 60\" x 120\" x 6",
            Some("6"),
            "PL 1/2\" x 60\" x 120\"",
        ),
        (
            "6 steel plates 1/2 x 60 x 120 in",
            Some("6"),
            "steel plates 1/2 x 60 x 120 in",
        ),
        ("3 pcs of pipe OD 30 in", Some("3"), "pipe OD 30 in"),
        (
            "6 plates 10x1000x2000 S235",
            Some("6"),
            "plates 10x1000x2000 S235",
        ),
        (
            "4 drums diesel 55 gal",
            Some("4 drums"),
            "drums diesel 55 gal",
        ),
        (
            "water, 4 drums, 55 gal",
            Some("4 drums"),
            "water, drums, 55 gal",
        ),
        ("40 x 25 kg bags cement", Some("40"), "25 kg bags cement"),
        ("4 x 55 gal drum diesel", Some("4"), "55 gal drum diesel"),
        (
            "1 pallet of 40 bags cement 25 kg",
            Some("1 pallet of 40"),
            "pallet bags cement 25 kg",
        ),
        ("cement 25 kg 40 bags", Some("40 bags"), "cement 25 kg bags"),
        // No counts: sizes, grades, names and what the list's own reader finds.
        (
            "steel plate 10 x 1000 x 2000",
            None,
            "steel plate 10 x 1000 x 2000",
        ),
        ("30 x 40 x 50 in box", None, "30 x 40 x 50 in box"),
        (
            "304 stainless plate 10 x 1000 x 2000",
            None,
            "304 stainless plate 10 x 1000 x 2000",
        ),
        (
            "4 inch steel pipe sch 40 20 ft",
            None,
            "4 inch steel pipe sch 40 20 ft",
        ),
        ("rebar No. 16 12 m", None, "rebar No. 16 12 m"),
        ("RHS 150x100x6.3 x 6000", None, "RHS 150x100x6.3 x 6000"),
        ("HSS 6 x 4 x 1/4 x 20", None, "HSS 6 x 4 x 1/4 x 20"),
        ("24 pcs 2x10x16' spruce", Some("24"), "2x10x16' spruce"),
        ("500 modular bricks", Some("500"), "modular bricks"),
        (
            "4 bulk bags of sand 1 m3",
            Some("4"),
            "bulk bags of sand 1 m3",
        ),
        (
            "12 heavy steel plates 10x1000x2000",
            Some("12"),
            "heavy steel plates 10x1000x2000",
        ),
        ("115 RE rail 39 ft", None, "115 RE rail 39 ft"),
        (
            "16 gauge steel sheets 48x96",
            None,
            "16 gauge steel sheets 48x96",
        ),
        ("5 hp pumps", None, "5 hp pumps"),
    ] {
        let typed = parse(text).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert_eq!(
            (typed.quantity.as_deref(), typed.description.as_str()),
            (quantity, description),
            "{text}"
        );
    }
}

#[test]
fn what_may_be_a_size_or_a_count_is_asked() {
    for text in [
        "steel plate 10 mm x 3 m x 2",
        "concrete slab 4 ft x 8 ft x 6",
        "steel plate 0.5 x 48 x 96 x 3",
    ] {
        let why = parse(text).expect_err(text);
        assert!(why.contains("pcs\" for pieces"), "{text}: {why}");
    }
    let twice = parse("cement 25 kg, 2 pallets, 40 bags");
    assert!(twice.is_err_and(|why| why.contains("counts twice")));
}

#[test]
fn a_number_at_the_front_that_nothing_claims_is_asked_about() {
    for text in ["90 hollow CMU 8x8x16", "40 big 80 lb bags concrete mix"] {
        let why = parse(text).expect_err(text);
        assert!(why.contains("counts the goods"), "{text}: {why}");
    }
}

#[test]
fn a_small_figure_before_metres_or_feet_is_asked_about() {
    for text in [
        "concrete block 2 x 2 x 1 m",
        "box 3 x 4 x 5 ft",
        "steel plate 1.2 x 2 m",
    ] {
        let why = parse(text).expect_err(text);
        assert!(why.contains("is not clear"), "{text}: {why}");
    }
    for text in [
        "round bar 50 x 3 m",
        "2x10x16' spruce",
        "W12x26 x 20 ft",
        "concrete block 2 m x 2 m x 1 m",
        "plate 1/2 x 4 ft x 8 ft",
        "concrete block 24 x 24 x 4 ft",
    ] {
        assert!(parse(text).is_ok(), "{text}");
    }
}

#[test]
fn a_declared_weight_has_its_unit() {
    for (text, declared, description) in [
        (
            "cast iron block declared 2,040 lb",
            Some("2,040 lb"),
            "cast iron block",
        ),
        (
            "pipe declared weight 925 kg each x 3",
            Some("925 kg each"),
            "pipe",
        ),
        (
            "pipe, declared: 2040 lb, OD 30 in",
            Some("2040 lb"),
            "pipe, OD 30 in",
        ),
        ("undeclared pump", None, "undeclared pump"),
    ] {
        let typed = parse(text).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert_eq!(
            (typed.declared.as_deref(), typed.description.as_str()),
            (declared, description),
            "{text}"
        );
    }
    for text in ["pump declared 2040", "pump declared", "pump declared heavy"] {
        assert!(parse(text).is_err(), "{text}");
    }
}

#[test]
fn nothing_is_no_load() {
    for text in ["", "  ", "-", "declared 20 kg"] {
        assert!(parse(text).is_err(), "{text}");
    }
}

#[test]
fn the_units_typed_are_known() {
    for (text, us) in [
        ("pipe OD 30 in L 8 ft", Some(true)),
        ("plate 10 mm x 1 m x 2 m", Some(false)),
        ("plate 10 mm x 4 ft x 8 ft", None),
        ("W12x26", None),
        ("IPE 200 L=6000 declared 135 kg", Some(false)),
        ("plate 10 mm x 1 m x 2 m declared 300 lb", None),
    ] {
        assert_eq!(parse(text).map(|typed| typed.us), Ok(us), "{text}");
    }
}
