//! What a weight is compared with: verdict, finding, Exceptions, picture and working have one basis.

use super::working::Places;
use super::*;
use crate::report::loads;
use crate::understand::WeightKind;
use crate::units::{Mass, MassRange};

/// The light line of the test audit, its weight of a kind, packed in 90 to 110 kg.
fn packed(kind: WeightKind) -> Audit {
    let mut audit = testing::audit();
    let line = &mut audit.deliveries[0].lines[2];
    line.declared.as_mut().expect("a weight").kind = kind;
    line.estimate.as_mut().expect("an estimate").tare = MassRange {
        low: Mass::from_kg(90.0),
        likely: Mass::from_kg(100.0),
        high: Mass::from_kg(110.0),
    };
    audit
}

/// 1,766.25 kg of goods less and more 5 % are 1,677.94 to 1,854.56 kg; by hand, in lb at 0.45359237 kg (NIST Handbook 44,
/// Appendix C): gross 1,767.94 to 1,964.56, likely 1,866.25 kg; unstated 1,677.94 to 1,964.56, likely 1,816.25 kg.
#[test]
fn expected_and_difference_hold_the_packing_that_the_weight_may_hold() {
    for (kind, low, likely, high) in [
        (WeightKind::Net, 3_699.0, 3_894.0, 4_089.0),
        (WeightKind::Gross, 3_897.0, 4_114.0, 4_332.0),
        (WeightKind::Unstated, 3_699.0, 4_004.0, 4_332.0),
    ] {
        let mut workbook = read(bytes(&packed(kind)));
        let exceptions = sheet(&mut workbook, EXCEPTIONS);
        let of = |heading: &str| find(&exceptions, "Item", testing::LIGHT, heading);
        let [a, b, c] = [low, high, likely].map(crate::units::show::figure);
        assert_eq!(
            of("Expected (lb)"),
            Data::String(format!("{a} to {b},\nlikely {c}")),
            "{kind:?}"
        );
        assert_eq!(of("Difference to likely (lb)"), 1_765.0 - likely);
        let picture = sheet(&mut workbook, "Declared and expected");
        let name = "Rank: cell, item or description";
        for (heading, figure) in [
            ("Low (lb)", low),
            ("Likely (lb)", likely),
            ("High (lb)", high),
        ] {
            assert_eq!(
                find(&picture, name, "1: G8 PL-25", heading),
                figure,
                "{kind:?}"
            );
        }
    }
}

#[test]
fn the_working_goes_on_to_what_the_weight_is_compared_with() {
    let audit = packed(WeightKind::Gross);
    let mut workbook = read(bytes(&audit));
    let range = sheet(&mut workbook, "Working");
    let formulas = workbook.worksheet_formula("Working").expect("the sheet");
    let rows: Vec<_> = range.rows().enumerate().collect();
    let row = |what: &str| {
        let mut of_line = rows.iter().filter(|(_, row)| row[2] == *testing::LIGHT);
        let (at, _) = of_line.find(|(_, row)| row[4] == *what).expect(what);
        *at
    };
    let figure = |at: usize| {
        range
            .get_value((at as u32, 5))
            .and_then(DataType::get_float)
    };
    for (end, goods, packing) in [
        ("likely", 1_766.25, 100.0),
        ("low", 1_677.937_5, 90.0),
        ("high", 1_854.562_5, 110.0),
    ] {
        let [line, part, sum] =
            ["line", "packing", "expected"].map(|name| row(&format!("{name}, {end}")));
        for (at, hand) in [(line, goods), (part, packing), (sum, goods + packing)] {
            let shown = figure(at).expect("a figure");
            assert!((shown - hand).abs() < 1e-9, "{end}: {shown} {hand}");
        }
        let formula = formulas.get_value((sum as u32, 5)).expect("a formula");
        assert_eq!(*formula, format!("F{}+F{}", line + 1, part + 1));
    }
    let head = range.rows().find(|row| row[2] == *testing::LIGHT);
    let head = head.expect("its first row")[9].to_string();
    assert!(head.contains("expected 3,897 to 4,332 lb"), "{head}");
}

/// Rows are counted before they are written: the links of Exceptions lead there.
#[test]
fn the_working_of_each_load_stands_where_it_is_looked_for() {
    let audit = packed(WeightKind::Unstated);
    let range = sheet(&mut read(bytes(&audit)), "Working");
    let places = Places::of(&audit, 100_000);
    for (delivery, number) in audit.deliveries.iter().zip(0..) {
        for (load, at) in loads::of(delivery).zip(0..) {
            let link = places.of_load(number, at, 0).link();
            let row: u32 = link
                .rsplit('A')
                .next()
                .expect("a row")
                .parse()
                .expect("a row");
            let there = range.get_value((row - 1, 4)).expect("a name");
            assert_eq!(there.to_string(), load.description(), "{link}");
        }
    }
}
