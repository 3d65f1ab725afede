//! Likely causes on whole lists.

use super::testing::likely;
use super::*;
use crate::estimate::Evidence;
use crate::understand::{Basis, MassUnit, Size1, WeightKind};
use crate::units::{Length, MassRange};
use proptest::prelude::*;
use std::collections::BTreeMap;

#[test]
fn every_kind_is_there_once_and_has_a_prior() {
    let kinds: Vec<&str> = HYPOTHESES
        .iter()
        .map(|hypothesis| hypothesis.kind())
        .collect();
    let mut sorted = kinds.clone();
    sorted.sort_unstable();
    sorted.dedup();
    assert_eq!(kinds, sorted);
    assert_eq!(kinds.len(), 13);
    for kind in kinds {
        assert!(crate::tables::priors::of(kind) > 0.0, "{kind}");
    }
    let asks: std::collections::BTreeSet<&str> = HYPOTHESES
        .iter()
        .map(|hypothesis| hypothesis.ask())
        .collect();
    assert_eq!(asks.len(), 13, "each kind asks something of its own");
}

#[test]
fn the_second_is_named_only_when_it_is_close() {
    // EN 10365: UB 203x133x25, 150.6 kg for 6 m. Of ten pieces a tenth is one piece or a decimal point; of three it is not.
    let kinds = |line: &str| -> Vec<&'static str> {
        likely(&testing::slip(line).0)
            .iter()
            .map(|cause| cause.kind)
            .collect()
    };
    assert_eq!(
        kinds("UB 203x133x25 | - | 10 | l 6000 mm | 150.6 kg"),
        ["piece-for-line", "decimal"]
    );
    assert_eq!(
        kinds("UB 203x133x25 | - | 3 | l 6000 mm | 45.2 kg"),
        ["decimal"]
    );
    assert_eq!(
        kinds("UB 203x133x25 | - | 3 | l 6000 mm | 700 kg"),
        Vec::<&str>::new()
    );
}

#[test]
fn a_cause_says_what_the_line_would_weigh() {
    // A slip in the weight changes it; one in size or material leaves it. Steel 7,850, aluminium 2,700 kg/m3; 30 x 20 x 2 in of
    // steel weigh 154 kg.
    for (line, would_be_kg) in [
        (
            "Floor plate | steel | 5 | 2000 x 1000 x 10 mm | 785 lb",
            785.0,
        ),
        (
            "Gusset plate | steel | 48 | 450 x 300 x 15 mm | 7,630 kg",
            763.0,
        ),
        (
            "Concrete ring | concrete | 4 | od 1200 id 1000 l 500 mm | 5,429 kg",
            1_659.0,
        ),
        (
            "Sheet | aluminium | 12 | 2000 x 1000 x 6 mm | 1,130 kg",
            1_130.0,
        ),
        ("Base plate | steel | 4 | 30 x 20 x 2 mm | 617 kg", 617.0),
    ] {
        let causes = likely(&testing::slip(line).0);
        let best = causes.first().unwrap_or_else(|| panic!("{line}: no cause"));
        assert!(
            (best.would_be_kg / would_be_kg - 1.0).abs() < 1e-3,
            "{line}: {best:?}"
        );
    }
}

#[test]
fn a_reading_can_be_told() {
    let causes = named(
        &testing::slip("UB 203x133x25 | - | 10 | l 6000 mm | 150.6 kg").0,
        &Default::default(),
    );
    assert_eq!(
        in_words(&causes),
        "; the weight of one of 10 pieces would fit: ask whether the figure is the weight of one or of all; 1,506 kg would fit: ask where \
         the decimal sign stands"
    );
    assert_eq!(in_words(&[]), "");
    let causes = named(
        &testing::slip("W10X33 | - | 8 | l 30 ft | 3,592 lb").0,
        &BTreeMap::new(),
    );
    assert_eq!(
        in_words(&causes),
        "; 3,592 kg would fit: ask whether the figure is in that unit"
    );
}

fn any_mass() -> impl Strategy<Value = Mass> {
    prop_oneof![
        Just(0.0),
        1e-9..1e9f64,
        Just(f64::MAX),
        Just(f64::MIN_POSITIVE)
    ]
    .prop_map(Mass::from_kg)
}

fn any_size() -> impl Strategy<Value = Option<Size1>> {
    let half = prop_oneof![
        Just(0.0),
        Just(0.000_5),
        Just(0.005),
        Just(0.0127),
        Just(0.000_793_75)
    ];
    proptest::option::of(
        (1e-6..1e3f64, half, any::<bool>()).prop_map(|(size, half, fine)| Size1 {
            length: Length::from_m(size),
            half_digit: Length::from_m(half),
            fine,
        }),
    )
}

fn any_range() -> impl Strategy<Value = MassRange> {
    (any_mass(), 0.0..1.0f64, 1.0..50.0f64).prop_map(|(likely, below, above)| MassRange {
        low: likely * below,
        likely,
        high: likely * above,
    })
}

prop_compose! {
    fn any_sizes()(length in any_size(), width in any_size(), height in any_size(), outside in any_size(), inside in any_size(), wall in any_size())
        -> Sizes {
        Sizes { length, width, height, outside, inside, wall }
    }
}

prop_compose! {
    fn any_slip()(
        (declared, figure, net, gross) in (any_mass(), 0.0..1e12f64, proptest::option::of(any_mass()), proptest::option::of(any_mass())),
        kind in prop_oneof![Just(WeightKind::Net), Just(WeightKind::Gross), Just(WeightKind::Unstated)],
        of in prop_oneof![Just(Basis::Line), Just(Basis::Piece), Just(Basis::Package), Just(Basis::PerMetre)],
        unit in prop_oneof![Just(MassUnit::Kg), Just(MassUnit::Lb), Just(MassUnit::Tonne), Just(MassUnit::Oz)],
        (expected, tare, piece) in (any_range(), any_range(), any_mass()),
        tolerance in 0.0..1.0f64,
        (pieces, packages, counts) in (any::<u32>(), proptest::option::of(any::<u32>()), proptest::collection::vec(any::<u32>(), 0..3)),
        evidence in proptest::option::of(prop_oneof![Just(Evidence::Product), Just(Evidence::Shape), Just(Evidence::Envelope)]),
        (shape, goods, material) in (
            proptest::option::of(prop_oneof![Just("plate"), Just("pipe"), Just("cylinder"), Just("rectangular tube"), Just("outline")]),
            proptest::option::of(prop_oneof![Just("pipe"), Just("lumber"), Just("hollow section"), Just("plate")]),
            proptest::option::of(prop_oneof![Just("carbon steel"), Just("oak"), Just("concrete"), Just("no such")]),
        ),
        product in proptest::option::of(prop_oneof![Just("2x10"), Just("NPS 1/2 SCH 40"), Just("x"), Just("NPS ")]),
        sizes in any_sizes(),
        outline in proptest::option::of([0.0..100.0f64, 0.0..10.0f64, 0.0..10.0f64]),
        too_long in any::<bool>(),
    ) -> Slip {
        Slip {
            details: crate::estimate::details::Details::default(),
            declared, kind, of, figure, unit, net, gross, expected, tare, tolerance, pieces, packages, counts, evidence, shape,
            product: product.map(String::from), goods, material: material.and_then(crate::tables::materials::by_name), piece, sizes,
            outline: outline.map(|sides| sides.map(Length::from_m)),
            too_long,
        }
    }
}

proptest! {
    #[test]
    fn shares_are_parts_of_one_whatever_comes(slip in any_slip()) {
        let causes = likely(&slip);
        prop_assert!(causes.len() <= 2);
        prop_assert!(causes.iter().all(|cause| (0.0..=1.0).contains(&cause.share) && cause.would_be_kg > 0.0));
        prop_assert!(causes.iter().map(|cause| cause.share).sum::<f64>() <= 1.0 + 1e-9);
        prop_assert!(causes.windows(2).all(|pair| pair[0].share >= pair[1].share && pair[1].share * 3.0 >= pair[0].share * (1.0 - 1e-9)));
    }
}
