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
fn labels_of_a_run_belong_to_one_side() {
    use Label::*;
    let none = |figure: f64| vec![(figure, None)];
    let one = |figure: f64, label| vec![(figure, Some(label))];
    for (text, expected) in [
        (
            "Steel coil 48\" x 0.075\" ID 20\" OD 60\"",
            vec![
                vec![(48.0, None), (0.075, None)],
                one(20.0, Inside),
                one(60.0, Outside),
            ],
        ),
        (
            "steel pipe 6000 mm OD 323.9 mm wall 10 mm",
            vec![none(6000.0), one(323.9, Outside), one(10.0, Wall)],
        ),
        (
            "pipe 20 ft OD 12 in wall 0.5 in",
            vec![none(20.0), one(12.0, Outside), one(0.5, Wall)],
        ),
        (
            "pipe 323.9 OD 10 wall 6000",
            vec![one(323.9, Outside), one(10.0, Wall), none(6000.0)],
        ),
        (
            "Hollow bar 100 OD 60 ID 3 m",
            vec![one(100.0, Outside), one(60.0, Inside), none(3.0)],
        ),
        (
            "pipe 6.625 OD .280 wall 21'",
            vec![one(6.625, Outside), one(0.28, Wall), none(21.0)],
        ),
        (
            "tube 100x100 wall 5",
            vec![vec![(100.0, None), (100.0, None)], one(5.0, Wall)],
        ),
        ("bar 6000 dia=60", vec![none(6000.0), one(60.0, Outside)]),
        (
            "ring 600 OD 400 ID 50 high",
            vec![one(600.0, Outside), one(400.0, Inside), one(50.0, Height)],
        ),
    ] {
        assert_eq!(shown(text), expected, "{text}");
        assert!(!read(text, Decimal::Point).open_labels, "{text}");
    }
}

#[test]
fn a_label_that_two_figures_may_own_leaves_no_sizes() {
    for text in ["steel disc 20 dia 600", "ring 600 OD 400 ID 50"] {
        assert!(shown(text).is_empty(), "{text}: {:?}", shown(text));
        assert!(read(text, Decimal::Point).open_labels, "{text}");
    }
}

#[test]
fn a_gauge_is_no_size() {
    for text in [
        "Sheet 48 x 96 x 16 ga",
        "Sheet 48 x 96 x 16ga. galv",
        "Sheet 16 gauge x 48 x 96",
        "Sheet 16-gauge, 48 x 96",
        "Sheet 48 x 96, ga 16",
    ] {
        assert_eq!(shown(text), [vec![(48.0, None), (96.0, None)]], "{text}");
    }
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

/// Further sizes with their figures.
type Found = Vec<(Further, Vec<f64>)>;

/// The further sizes and the chains that are left.
fn further(text: &str) -> (Found, Vec<Vec<f64>>) {
    let values = |chain: &Chain| -> Vec<f64> {
        let parts = chain.parts.iter();
        parts.map(|part| part.written.figure.value).collect()
    };
    let found = read(text, Decimal::Point);
    let further = found.further.iter();
    (
        further.map(|one| (one.which, values(&one.chain))).collect(),
        found.chains.iter().map(values).collect(),
    )
}

#[test]
fn sizes_that_only_some_shapes_have_stand_apart() {
    use Further::*;
    for (text, expected, left) in [
        (
            "channel depth 200 flange 75 x 11.5 web 8.5 L=6000",
            vec![
                (Depth, vec![200.0]),
                (Flange, vec![75.0, 11.5]),
                (Web, vec![8.5]),
            ],
            vec![vec![6000.0]],
        ),
        (
            "depth 200 x flange 75 x web 8.5 x 6 m",
            vec![(Depth, vec![200.0]), (Flange, vec![75.0]), (Web, vec![8.5])],
            vec![vec![6.0]],
        ),
        // The word belongs to the figure behind it.
        (
            "channel 200 flange 75 web 8",
            vec![(Flange, vec![75.0]), (Web, vec![8.0])],
            vec![vec![200.0]],
        ),
        (
            "300 mm top dia, 800 high",
            vec![(Top, vec![300.0])],
            vec![vec![800.0]],
        ),
        (
            "tf 12 flange thickness 14 root radius 15",
            vec![
                (FlangeThickness, vec![12.0]),
                (FlangeThickness, vec![14.0]),
                (Radius, vec![15.0]),
            ],
            vec![],
        ),
        (
            "panel 6000 x 3000 opening 900 x 2100",
            vec![(Opening, vec![900.0, 2100.0])],
            vec![vec![6000.0, 3000.0]],
        ),
        // Plates that are named by what they become.
        ("Web 10x200x3000", vec![], vec![vec![10.0, 200.0, 3000.0]]),
        (
            "Flange 20 x 200 x 3000",
            vec![],
            vec![vec![20.0, 200.0, 3000.0]],
        ),
        ("R 3/4 x 12'", vec![], vec![vec![0.75, 12.0]]),
        // A flange is no 6 m thick.
        (
            "flange 75 x 6 m",
            vec![(Flange, vec![75.0])],
            vec![vec![6.0]],
        ),
    ] {
        assert_eq!(further(text), (expected, left), "{text}");
    }
}
