//! Look-ups as tables of cases. Expected rows follow from the meaning of the words: grade names from the standards beside
//! them, words of other languages from general dictionaries, the rest common practice, no source.

use super::*;
use crate::tables::materials::by_name;

mod languages;
mod liquids;
mod moisture;

fn in_column(text: &str) -> Found {
    Vocabulary::built_in().in_column(text)
}

fn in_description(text: &str, product_matched: bool) -> Found {
    Vocabulary::built_in().in_description(text, product_matched)
}

fn in_condition(material: &'static Material, text: &str) -> &'static Material {
    Vocabulary::built_in().in_condition(material, text)
}

/// The row's name, `?` for unknown, empty for nothing.
fn name(found: &Found) -> &'static str {
    match found {
        Found::Known { material, .. } => material.name,
        Found::Unknown { .. } => "?",
        Found::Nothing => "",
    }
}

#[track_caller]
fn described(cases: &[(&str, &str)]) {
    let wrong: Vec<_> = cases
        .iter()
        .map(|(text, row)| (text, row, name(&in_description(text, false))))
        .collect();
    let wrong: Vec<_> = wrong.iter().filter(|(_, row, got)| row != &got).collect();
    assert!(wrong.is_empty(), "text, wanted, found: {wrong:#?}");
}

#[track_caller]
fn column(cases: &[(&str, &str)]) {
    let wrong: Vec<_> = cases
        .iter()
        .map(|(text, row)| (text, row, name(&in_column(text))))
        .collect();
    let wrong: Vec<_> = wrong.iter().filter(|(_, row, got)| row != &got).collect();
    assert!(wrong.is_empty(), "text, wanted, found: {wrong:#?}");
}

#[test]
fn the_longest_phrase_wins() {
    described(&[
        ("Cast iron rail chair", "cast iron"),
        ("Counterweight, cast iron 400x300x150", "cast iron"),
        ("Iron bracket", "iron"),
        ("Stainless steel 304 plate", "stainless steel 304"),
        ("Plate AISI 316L 2000x1000x3", "stainless steel 316"),
        ("Sheet, stainless 304", "stainless steel 304"),
        ("Rail clip, spring steel", "carbon steel"),
        ("Ductile iron pipe DN200", "ductile iron"),
        ("Reinforced concrete pipe 30 in", "reinforced concrete"),
        (
            "pipe OD 30 in ID 24 in L 8 ft reinforced concrete",
            "reinforced concrete",
        ),
        ("Concrete ring OD 1200 ID 1000 H 500", "concrete"),
        ("Aluminium bronze bush", "aluminium bronze"),
        ("Glass fibre reinforced plastic grating", "FRP"),
        ("Fishplate 508x120x20 steel", "carbon steel"),
        ("STEEL PLATES 1/2\" X 60\"", "carbon steel"),
        ("Galvanised steel grating", "galvanised steel"),
        ("W12x26 A992", "carbon steel"),
        ("Plate S355J2+N 20 mm", "carbon steel"),
        ("Insulator nylon", "nylon"),
        ("HDPE duct 110/94", "HDPE"),
        ("Copper tube 28x1.5", "copper"),
        ("PVC pipe 110", "PVC"),
    ]);
}

#[test]
fn words_of_wood_and_its_condition() {
    described(&[
        ("Softwood bearer treated", "treated softwood"),
        ("Treated softwood 100x75", "treated softwood"),
        ("Treated pine post", "treated softwood"),
        ("Planche pin traité", "treated softwood"),
        ("Spruce post, pressure treated", "treated softwood"),
        ("Pressure treated 2x6x16", "treated southern pine"),
        ("Southern pine 6x6 treated", "treated southern pine"),
        ("Southern pine 6x6 treated KDAT", "southern pine dry"),
        ("Heat treated pine batten", "pine"),
        ("Douglas fir 4x4 KD", "Douglas fir dry"),
        ("Douglas fir 4x4, keep dry", "Douglas fir"),
        ("Douglas fir 4x4, store dry", "Douglas fir"),
        ("Douglas-fir 4x4 green", "Douglas fir green"),
        ("DOUGLAS FIR, S-GRN", "Douglas fir green"),
        ("White oak timber, green", "oak green"),
        ("Hard maple plank green", "hardwood green"),
        ("Spruce post painted green", "spruce"),
        ("Spruce board olive green", "spruce"),
        ("Hardwood packing 1200/200/50", "hardwood"),
        ("Oak sleeper", "oak"),
        ("Oak dunnage", "oak"),
        ("Green painted oak beam", "oak"),
        ("Creosoted pine pole 9 m", "treated softwood"),
        ("24 pcs 2x10x16' SPRUCE S4S", "spruce"),
        ("Ipe decking 21x145", "ipe"),
        ("Timber baulk 300x300", "wood"),
        ("Wood block", "wood"),
        ("Plywood sheet", "plywood"),
        ("Ironbark girder", "ironbark"),
    ]);
}

#[test]
fn ambiguous_and_short_words_never_decide_in_a_description() {
    // Every token of the reference's list of ambiguous words, then the short and number-only ones.
    let ambiguous = "HSS DI CI AL alum PC PT EA CF HF fir hemlock poplar whitewood ash lime gypsum bluestone stone rock \
        block tile asphalt paraffin pitch oil resin acid caustic poly foam rubber paint bleach glycol duplex alloy sheet \
        plate coil";
    let short = "ipe IPE DRM LIN MS CS SS GI IPA PP PE PS AC SPF DAP Cu Zn Pb Ti Sn Mg Hg AAC ABS PVC OSB MDF tin tar \
        mud oak elm ice ply 304 316 1018 4140 6061 5052 2205 1045 2024 1.4301 15-15-15 A36 C45";
    let phrases = ["red cedar", "white cedar", "pitch pine", "ISO board lid"];
    for word in ambiguous
        .split_whitespace()
        .chain(short.split_whitespace())
        .chain(phrases.into_iter().take(3))
    {
        for text in [
            word.to_owned(),
            format!("{word} 120x40"),
            format!("4 pcs {word} x 6 m"),
            format!("no. {word}, DN50"),
        ] {
            assert_eq!(in_description(&text, false), Found::Nothing, "{text}");
            assert_eq!(in_description(&text, true), Found::Nothing, "{text}");
        }
    }
    for word in ambiguous
        .split_whitespace()
        .chain(phrases.into_iter().take(3))
    {
        assert!(
            matches!(in_column(word), Found::Unknown { .. }),
            "{word}: {:?}",
            in_column(word)
        );
    }
}

#[test]
fn what_is_beside_the_goods_does_not_count() {
    described(&[
        ("Wooden crate 1200x800x600", ""),
        ("Pump in wooden crate", ""),
        ("Pump skid on timber bearers", ""),
        ("Anchor for concrete", ""),
        ("Bracket for concrete wall, cast iron", "cast iron"),
        ("Steel frame with glass door", "carbon steel"),
        ("Cement lined ductile iron pipe", "ductile iron"),
        ("Zinc plated steel bolt", "carbon steel"),
        ("Zinc plated bolt", ""),
        ("Epoxy coated rebar", "carbon steel"),
        ("Zinc oxide", ""),
        ("Concrete mixer", ""),
        ("Betonmischer", ""),
        ("Timber connector", ""),
        ("Water pump", ""),
        ("Water tank 1000 L", ""),
        ("Diesel engine", ""),
        ("Generator, diesel", ""),
        ("Sand filter", ""),
        ("Soil pipe", ""),
        ("Lead screw", ""),
        ("Steel wool", ""),
        ("Glass fibre rope", ""),
        ("Thread pitch 3 mm", ""),
        ("Weiche 190", ""),
        ("Signal lamp unit", ""),
        ("Relay cabinet", ""),
        ("鉄道部品", ""),
        ("Hydraulic oil 205 L drum", "hydraulic oil"),
        ("GEAR OIL 55 GAL DRUMS", "lubricating oil"),
        ("PORTLAND CEMENT 94 LB BAGS", "portland cement"),
        ("Cement 25 kg bag", "portland cement"),
        ("Sharp sand, bulk", "sand"),
    ]);
}

#[test]
fn a_matched_product_takes_loose_materials_only_with_a_container() {
    for (text, alone, matched) in [
        ("W12x26 beam sand", "sand", ""),
        ("Pipe 6 in sch 40 soil", "topsoil", ""),
        ("Pipe 4 in sch 40 brass", "brass", "brass"),
        ("2x10x16 Douglas fir", "Douglas fir", "Douglas fir"),
        ("Drum 205 L diesel", "diesel", "diesel"),
        ("IPE 240 S355J2", "carbon steel", "carbon steel"),
    ] {
        assert_eq!(
            (
                name(&in_description(text, false)),
                name(&in_description(text, true))
            ),
            (alone, matched),
            "{text}"
        );
    }
}

#[test]
fn a_material_column_takes_grades_and_short_words() {
    column(&[
        ("S235JR", "carbon steel"),                         // EN 10025-2
        ("S275JR", "carbon steel"),                         // EN 10025-2
        ("S355J2+N", "carbon steel"),                       // EN 10025-2
        ("S355J2H", "carbon steel"),                        // EN 10210-1
        ("P235GH", "carbon steel"),                         // EN 10216-2
        ("C45", "carbon steel"),                            // EN 10083-2
        ("A36", "carbon steel"),                            // ASTM A36
        ("ASTM A572-50", "carbon steel"),                   // ASTM A572
        ("A992", "carbon steel"),                           // ASTM A992
        ("SS400", "carbon steel"),                          // JIS G 3101
        ("Q235B", "carbon steel"),                          // GB/T 700
        ("8.8", "carbon steel"),                            // ISO 898-1
        ("42CrMo4", "alloy steel"),                         // EN 10083-3
        ("1.4301", "stainless steel 304"),                  // EN 10088-1
        ("AISI 304", "stainless steel 304"),                // AISI numbers
        ("304", "stainless steel 304"),                     // AISI numbers
        ("SUS316", "stainless steel 316"),                  // JIS G 4304
        ("1.4462", "duplex stainless steel"),               // EN 10088-1
        ("EN AW-5754", "aluminium 5052"),                   // EN 573-3
        ("AW-6082 T6", "aluminium 6061"),                   // EN 573-3
        ("6061-T6", "aluminium 6061"),                      // Aluminum Association numbers
        ("GG25", "cast iron"),                              // DIN 1691
        ("EN-GJL-250", "cast iron"),                        // EN 1561
        ("EN-GJS-500-7", "ductile iron"),                   // EN 1563
        ("CW617N", "brass"),                                // EN 12165
        ("N04400", "nickel-copper alloy 400 (UNS N04400)"), // UNS numbers
        ("C30/37", "concrete"),                             // EN 206
        ("C24 timber", "softwood"),                         // EN 338
        ("IPE", "ipe"),
        ("Cu", "copper"),
        ("MS", "carbon steel"),
        ("oak", "oak"),
        ("Oak, green", "oak green"),
        ("PVC", "PVC"),
        ("Reinforced Concrete", "reinforced concrete"),
        ("concrete, precast", "concrete"),
        ("inox", "stainless steel"),
        ("Fonte", "cast iron"),
        ("pin traité", "treated softwood"),
        ("Stahl verzinkt", "carbon steel"),
        ("Zinc plated steel", "carbon steel"),
        ("Steel S235JR (1.0038)", "carbon steel"),
        ("钢", "carbon steel"),
        ("鋼", "carbon steel"),
        ("铜", "copper"),
        ("", ""),
        ("  ", ""),
        ("-", ""),
        ("n/a", ""),
        ("TBC", ""),
        ("see drawing", ""),
        ("unobtainium", "?"),
        ("12", "?"),
        ("2024-05-01", "?"),
        ("M.S.", "carbon steel"),
        ("D.I.", "?"),
        ("Timber, oak", "oak"),
        ("oak / steel", "?"),
        ("Concrete 304", "concrete"),
        ("cemento", "?"),
        ("aluminum bronz", "?"),
        ("stainlss steel", "?"),
        ("wood / steel", "?"),
    ]);
}

#[test]
fn the_unknown_is_named_with_what_it_may_mean() {
    for (text, first) in [
        ("fir", "Douglas fir"),
        ("bronz", "bronze"),
        ("plywod", "plywood"),
        ("aluminum bronz", "aluminium bronze"),
        ("wood / steel", "wood"),
    ] {
        let Found::Unknown { word, nearest } = in_column(text) else {
            panic!("{text}")
        };
        assert_eq!(
            (word.as_str(), nearest.first().copied()),
            (text, Some(first))
        );
        assert!(
            nearest.len() <= 3 && nearest.iter().all(|name| by_name(name).is_some()),
            "{text}"
        );
    }
}

#[test]
fn the_words_found_are_shown_as_written() {
    let Found::Known { word, .. } = in_description("2 off Cast-Iron chairs", false) else {
        panic!()
    };
    assert_eq!(word, "Cast-Iron");
    let Found::Known { word, .. } = in_description("10 Stück Edelstahlblech", false) else {
        panic!()
    };
    assert_eq!(word, "Edelstahlblech");
}

#[test]
fn figures_that_must_hold() {
    // 150 lb/ft3, the rigging figure; the treated band is common practice, no source.
    let Found::Known { material, .. } = in_description("reinforced concrete", false) else {
        panic!()
    };
    assert!((material.density.kg_m3() - 2_403.0).abs() < 1.0);
    let Found::Known { material, .. } = in_description("treated softwood", false) else {
        panic!()
    };
    assert!(
        material.low.kg_m3() <= 450.0
            && material.high.kg_m3() >= 750.0
            && material.basis == "common practice"
    );
}

#[test]
fn the_condition_may_stand_in_another_text() {
    let spruce = by_name("spruce").unwrap();
    assert_eq!(
        in_condition(spruce, "bearer treated").name,
        "treated softwood"
    );
    assert_eq!(in_condition(spruce, "bearer").name, "spruce");
    assert_eq!(
        in_condition(by_name("carbon steel").unwrap(), "heat treated").name,
        "carbon steel"
    );
}

proptest::proptest! {
    #[test]
    fn no_text_breaks_it(text in "\\PC{0,40}", matched in proptest::bool::ANY) {
        // A word found is part of the text; nothing panics.
        if let Found::Known { word, .. } = in_description(&text, matched) {
            proptest::prop_assert!(text.contains(&word) && !word.is_empty());
        }
        if let Found::Unknown { nearest, .. } = in_column(&text) {
            proptest::prop_assert!(nearest.len() <= 3);
        }
    }
}
