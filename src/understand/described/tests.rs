//! Descriptions as suppliers write them.

use super::*;

fn shown(text: &str) -> Vec<Vec<(f64, Option<Label>)>> {
    read(text, Decimal::Point)
        .chains
        .into_iter()
        .map(|chain| {
            chain
                .parts
                .into_iter()
                .map(|part| (part.written.figure.value, part.label))
                .collect()
        })
        .collect()
}

#[test]
fn sizes_as_suppliers_write_them() {
    use Label::*;
    assert_eq!(
        shown("PL 10x1500x3000 S355"),
        [vec![(10.0, None), (1500.0, None), (3000.0, None)]]
    );
    assert_eq!(
        shown("Ø219.1x8.2 L=6000"),
        [
            vec![(219.1, Some(Outside)), (8.2, None)],
            vec![(6000.0, Some(Length))]
        ]
    );
    assert_eq!(
        shown("Square tube 40x40x3 L6000"),
        [
            vec![(40.0, None), (40.0, None), (3.0, None)],
            vec![(6000.0, Some(Length))]
        ]
    );
    assert_eq!(
        shown("60 PCS STEEL PIPE 4.500 OD X .237 WALL X 21'"),
        [vec![
            (4.5, Some(Outside)),
            (0.237, Some(Wall)),
            (21.0, None)
        ]]
    );
    assert_eq!(
        shown("Concrete ring OD 1200 ID 1000 H 500"),
        [
            vec![(1200.0, Some(Outside))],
            vec![(1000.0, Some(Inside))],
            vec![(500.0, Some(Height))]
        ]
    );
    assert_eq!(
        shown("Hollow bar 100/60"),
        [vec![(100.0, None), (60.0, None)]]
    );
    assert_eq!(shown("ROUND BAR 2 DIA"), [vec![(2.0, Some(Outside))]]);
    assert_eq!(
        shown("Round bar dia 60 x 1200"),
        [vec![(60.0, Some(Outside)), (1200.0, None)]]
    );
    assert_eq!(
        shown("48 x 40 x 52 in"),
        [vec![(48.0, None), (40.0, None), (52.0, None)]]
    );
    assert_eq!(shown("PL 1/2 X 12"), [vec![(0.5, None), (12.0, None)]]);
    assert_eq!(
        shown("6 STEEL PLATES 1/2\" X 60\" X 120\"")
            .last()
            .map(Vec::len),
        Some(3)
    );
}

#[test]
fn mass_per_length_is_no_size() {
    assert_eq!(
        shown("Beam 12\" x 26 lb/ft x 6.10 m"),
        [vec![(12.0, None), (6.1, None)]]
    );
    assert_eq!(shown("Cable 500 m 1.35 kg/m"), [vec![(500.0, None)]]);
}

#[test]
fn names_are_not_sizes() {
    for text in [
        "#5 rebar",
        "No. 16 rebar",
        "Gear oil ISO 220",
        "W12X26",
        "M24x130",
        "S355J2+N",
        "DN150",
        "L4X4X3/8",
        "HSS6X6X1/4",
        "UPN200",
    ] {
        assert!(shown(text).is_empty(), "{text}: {:?}", shown(text));
    }
}

#[test]
fn pieces_in_the_text() {
    assert_eq!(
        read("24 pcs 2x10x16' SPRUCE", Decimal::Point).pieces,
        Some(24)
    );
    assert_eq!(
        read("10 JTS PIPE 8.625 OD", Decimal::Point).pieces,
        Some(10)
    );
    assert_eq!(read("Cement 25 kg bag", Decimal::Point).pieces, None);
}
