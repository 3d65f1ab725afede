//! Weighings against words and sizes, and against one another.

use super::*;
use crate::estimate::line;
use crate::estimate::materials::Vocabulary;
use crate::read;
use crate::understand::{self, Known};
use chrono::NaiveDate;

/// The first line of a list in mm and kg.
fn item(list: &str) -> Item {
    let file = read::bytes("list.csv", list.as_bytes()).unwrap_or_else(|_| panic!("{list}"));
    let known = Known {
        supplier: None,
        delivery: None,
        us: false,
        semicolons: false,
        layouts: Default::default(),
    };
    let mut sheets = understand::file(&file, &known);
    sheets.remove(0).items.remove(0)
}

/// A plate of 2 x 1 x 0.1 m of steel at 7,850 kg/m3: 1,570 kg; or what else the row says.
fn plate(rest: &str) -> Item {
    item(&format!(
        "Item,Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Package\nP-10047,{rest}\n"
    ))
}

const PLATE: &str = "Steel plate,S235,1,2000,1000,100,";

fn by_words(item: &Item) -> Estimated {
    line(item, Some(true), &Vocabulary::with(&[]))
}

fn weighing(record: i64, kg: f64, item: &Item) -> Weighing {
    Weighing {
        record,
        line: format!("{record:016x}"),
        list: format!("list {record}"),
        file: "earlier.csv".to_string(),
        cell: format!("G{record}"),
        delivery: format!("D-{record}"),
        supplier: "Tarn Steel".to_string(),
        day: NaiveDate::from_ymd_opt(2026, 11, 20).expect("a day"),
        name: "J. Rook".to_string(),
        evidence: Some(format!("scale ticket {record}")),
        mass: Mass::from_kg(kg),
        pieces: 1,
        goods: goods(item, &by_words(item), true),
    }
}

/// The estimate of an item of which one piece was weighed at so many kilograms, at a tolerance of 10 %.
fn known(item: &Item, pieces: &[f64]) -> (Estimated, Option<Before>) {
    let all: Vec<Weighing> = (1..)
        .zip(pieces)
        .map(|(record, kg)| weighing(record, *kg, item))
        .collect();
    let all: Vec<&Weighing> = all.iter().collect();
    weighed(item, by_words(item), &all, 0.02, 0.10)
}

/// Low, likely and high of the line in whole kilograms, and its evidence.
fn range(item: &Item, pieces: &[f64]) -> ([f64; 3], Evidence) {
    let estimate = known(item, pieces).0.expect("an estimate");
    let MassRange { low, likely, high } = estimate.line;
    (
        [low, likely, high].map(|mass| mass.kg().round()),
        estimate.evidence,
    )
}

#[test]
fn the_range_is_the_scales_error_or_twice_the_spread() {
    let plate = plate(PLATE);
    let own = by_words(&plate).expect("an estimate").line;
    // Method, section 1: 2 % of 1,560 kg are 31.2 kg.
    let one = range(&plate, &[1_560.0]);
    assert_eq!(one, ([1_529.0, 1_560.0, 1_591.0], Evidence::Weighed));
    assert!(own.high - own.low > Mass::from_kg(2.0 * 31.2), "it narrows");
    // Median absolute deviation of 20 kg, a standard deviation of 29.65 kg: twice that.
    let scattered = range(&plate, &[1_540.0, 1_560.0, 1_580.0]);
    assert_eq!(scattered.0, [1_501.0, 1_560.0, 1_619.0]);
    let pair = range(&plate, &[1_550.0, 1_570.0]);
    assert_eq!(pair.0, [1_529.0, 1_560.0, 1_591.0]);
}

#[test]
fn a_lone_weighing_is_believed_only_where_nothing_speaks_against_it() {
    let plate = plate(PLATE);
    for kg in [157.0, 15_700.0] {
        let (estimate, before) = known(&plate, &[kg]);
        assert_eq!(estimate, by_words(&plate), "{kg}");
        let before = before.expect("it is told");
        assert!(before.unlike && before.instead_of.is_none(), "{kg}");
        assert!((before.not_below().kg() - kg * 1.02).abs() < 1e-6);
    }
    // The edge: 10 % below the low end of words and sizes.
    let low = by_words(&plate).expect("an estimate").line.low.kg();
    for (kg, evidence) in [
        (low * 0.9 + 0.01, Evidence::Weighed),
        (low * 0.9 - 0.01, Evidence::Shape),
    ] {
        assert_eq!(range(&plate, &[kg]).1, evidence, "{kg}");
    }
}

#[test]
fn several_that_agree_go_before_words_and_sizes() {
    let plate = plate(PLATE);
    let (range, evidence) = range(&plate, &[2_400.0, 2_410.0]);
    assert_eq!((range[1], evidence), (2_405.0, Evidence::Weighed));
    let before = known(&plate, &[2_400.0, 2_410.0]).1.expect("told");
    assert!(before.unlike && before.not_below() == Mass::ZERO);
    let own = before.instead_of.as_deref().expect("what they stand for");
    assert_eq!(*own, by_words(&plate));
}

#[test]
fn one_odd_among_several_is_left_out_and_two_are_not() {
    let plate = plate(PLATE);
    for odd in [157.0, 15_700.0] {
        let (estimate, before) = known(&plate, &[1_560.0, odd, 1_562.0]);
        let likely = estimate.expect("an estimate").line.likely.kg();
        assert!((1_560.0..=1_562.0).contains(&likely), "{odd}: {likely}");
        assert_eq!(before.expect("told").odd, Some(1), "{odd}");
    }
    for pieces in [
        vec![1_560.0, 2_400.0],
        vec![1_560.0, 1_560.0, 1_560.0, 2_400.0, 2_400.0],
        vec![157.0, 15_700.0, 1_570.0],
    ] {
        let (estimate, before) = known(&plate, &pieces);
        assert_eq!(estimate, by_words(&plate), "{pieces:?}");
        let before = before.expect("told");
        assert!(before.scattered, "{pieces:?}");
        let most = pieces.iter().copied().fold(0.0, f64::max);
        assert!(
            before.not_below().kg() > most,
            "the plan bears the heaviest"
        );
    }
}

#[test]
fn where_nothing_else_is_known_the_weighings_are_all_there_is() {
    let bracket = item("Item,Description,Qty\nB-77120,Bracket,10\n");
    assert!(by_words(&bracket).is_err());
    let one = range(&bracket, &[42.0]);
    assert_eq!(one, ([412.0, 420.0, 428.0], Evidence::Weighed));
    // Those that scatter: from the lightest to the heaviest.
    let wide = range(&bracket, &[42.0, 60.0]);
    assert_eq!(wide.0, [412.0, 510.0, 612.0]);
    // Solid lead is the most that a box can weigh: 0.1 m cubed at 11,340 kg/m3 are 11 kg.
    let small = plate("Spare part,,1,100,100,100,");
    let own = by_words(&small);
    assert!(own.as_ref().is_err_and(|no| no.upper.is_some()), "{own:?}");
    assert_eq!(known(&small, &[13.0]), (own, None));
}

/// A crate of which only the outline is known is planned as odd as before: its weight is known, where it lies is not.
#[test]
fn an_outline_stays_an_outline() {
    let pump = plate("Pump,cast iron,1,1200,800,900,");
    assert_eq!(
        by_words(&pump).expect("bounds").evidence,
        Evidence::Envelope
    );
    let estimate = known(&pump, &[640.0]).0.expect("an estimate");
    assert_eq!(estimate.evidence, Evidence::Weighed);
    assert!(estimate.is_outline());
}

/// One list, one delivery or one ticket is one source, and a source that speaks against words and sizes is not believed.
#[test]
fn weighings_of_one_slip_are_one() {
    let plate = plate(PLATE);
    let same: [fn(&mut Weighing); 3] = [
        |one| one.list = "list 1".to_string(),
        |one| one.delivery = "d-1".to_string(),
        |one| one.evidence = Some("Scale  ticket 1".to_string()),
    ];
    let taken = |change: Option<&fn(&mut Weighing)>| {
        let mut two = [weighing(1, 2_400.0, &plate), weighing(2, 2_410.0, &plate)];
        if let Some(change) = change {
            change(&mut two[1]);
        }
        let both: Vec<&Weighing> = two.iter().collect();
        let (_, before) = weighed(&plate, by_words(&plate), &both, 0.02, 0.10);
        let before = before.expect("told");
        assert!(before.unlike);
        before.instead_of.is_some()
    };
    assert!(taken(None));
    for change in &same {
        assert!(!taken(Some(change)));
    }
}

/// Lighter weighings never send a smaller truck than words and sizes do, however many they are.
#[test]
fn several_that_are_lighter_leave_words_and_sizes() {
    let plate = plate(PLATE);
    let low = by_words(&plate).expect("an estimate").line.low.kg();
    for (kg, evidence) in [
        (low * 0.9 + 0.01, Evidence::Weighed),
        (low * 0.9 - 0.01, Evidence::Shape),
        (157.0, Evidence::Shape),
    ] {
        assert_eq!(range(&plate, &[kg, kg]).1, evidence, "{kg}");
    }
    let before = known(&plate, &[157.0, 157.0]).1.expect("told");
    assert!(before.unlike && before.instead_of.is_none());
}

/// What a label or a container says nothing of stays open, and the plan bears what was weighed.
#[test]
fn what_is_not_told_or_may_come_full_stays_without_an_estimate() {
    for list in [
        "Item,Description,Qty\nPL-001,Spare parts,1\n",
        "Item,Description,Qty\nT-500A,IBC tote of resin,1\n",
    ] {
        let open = item(list);
        let own = by_words(&open);
        let (estimate, before) = known(&open, &[42.0, 42.0]);
        assert!(own.is_err() && estimate == own, "{list}");
        let before = before.expect("it is told");
        assert!(before.not_below() >= Mass::from_kg(42.0), "{list}");
    }
}

/// Nobody knows whether the pallet was on the scale: a net weight may be lower by it, a gross one higher.
#[test]
fn packaging_leaves_room_on_both_sides() {
    let [bare, packed] = ["", "pallet"].map(|package| {
        let item = plate(&format!("{PLATE}{package}"));
        known(&item, &[1_560.0]).0.expect("an estimate")
    });
    assert_eq!(bare.tare.high, Mass::ZERO);
    assert!(packed.tare.high > Mass::ZERO, "{:?}", packed.tare);
    assert_eq!(packed.line.low, bare.line.low - packed.tare.high);
    assert_eq!(packed.line.high, bare.line.high);
}

/// What was weighed dry or half empty may come wet or full.
#[test]
fn what_may_come_fuller_or_wetter_keeps_its_upper_end() {
    for (row, weighed) in [
        ("Oak beam,oak,1,3000,200,200,", 85.0),
        ("\"Hydraulic oil, 55 gal steel drum\",,1,,,,", 190.0),
    ] {
        let item = plate(row);
        let own = by_words(&item).expect(row);
        let estimate = known(&item, &[weighed]).0.expect(row);
        assert_eq!(estimate.evidence, Evidence::Weighed, "{row}: {own:?}");
        assert_eq!(estimate.line.high, own.line.high, "{row}");
        assert!(estimate.line.low > own.line.low, "{row}");
    }
}

#[test]
fn each_weighing_is_a_step_with_its_source() {
    let plate = plate("Steel plate,S235,3,2000,1000,100,");
    let estimate = known(&plate, &[1_560.0, 1_570.0]).0.expect("an estimate");
    let last = estimate.steps.last().expect("steps");
    assert_eq!((estimate.steps.len(), last.result), (4, 3.0 * 1_565.0));
    assert_eq!(
        estimate.steps[0].source,
        "earlier.csv G1, line 0000000000000001, by J. Rook, scale ticket 1; record 1 of the ledger"
    );
    assert!(estimate.steps[0].what.contains("2026-11-20"));
}
