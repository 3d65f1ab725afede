//! Verdicts at their bounds (method, section 3).

use super::*;
use crate::place::Place;
use crate::understand::{Basis, How};

const TOLERANCE: Tolerance = Tolerance {
    relative: 0.10,
    floor: Mass::from_kg(5.0),
};

fn declared(kg: f64, kind: WeightKind) -> Declared {
    Declared {
        mass: Mass::from_kg(kg),
        of: Basis::Line,
        kind,
        how: How::Stated,
        text: format!("{kg} kg"),
        place: Place {
            file: "a.csv".into(),
            sheet: "".into(),
            row: 2,
            column: 3,
        },
        heaviest: Mass::from_kg(kg),
    }
}

fn range(low: f64, likely: f64, high: f64) -> MassRange {
    MassRange {
        low: Mass::from_kg(low),
        likely: Mass::from_kg(likely),
        high: Mass::from_kg(high),
    }
}

fn estimate(evidence: Evidence, line: MassRange, block: Option<f64>, solid: bool) -> Estimate {
    Estimate {
        evidence,
        shape: None,
        product: None,
        material: None,
        group: None,
        goods: None,
        piece: line,
        line,
        tare: range(0.0, 0.0, 0.0),
        block: block.map(Mass::from_kg),
        otherwise: None,
        solid,
        outline: None,
        steps: Vec::new(),
        working: String::new(),
    }
}

fn of(kg: f64, estimate: &Estimate) -> Verdict {
    verdict(
        Some(&declared(kg, WeightKind::Net)),
        Ok(estimate),
        TOLERANCE,
    )
}

#[test]
fn a_shape_with_a_void() {
    // 900 to 1,100 kg expected, a solid block of 6,000 kg; bounds widened by 10 %: 810 and 1,210, block 6,600.
    let pipe = estimate(
        Evidence::Shape,
        range(900.0, 1_000.0, 1_100.0),
        Some(6_000.0),
        false,
    );
    for (kg, expected) in [
        (809.0, Verdict::Light),
        (810.0, Verdict::Consistent),
        (1_210.0, Verdict::Consistent),
        (1_211.0, Verdict::Heavy),
        (6_600.0, Verdict::Heavy),
        (6_601.0, Verdict::Impossible),
    ] {
        assert_eq!(of(kg, &pipe), expected, "{kg}");
    }
}

#[test]
fn a_solid_shape_is_impossible_only_above_one_and_a_half_times_its_high() {
    let plate = estimate(
        Evidence::Shape,
        range(900.0, 1_000.0, 1_100.0),
        Some(1_150.0),
        true,
    );
    assert_eq!(of(1_650.0, &plate), Verdict::Heavy);
    assert_eq!(of(1_651.0, &plate), Verdict::Impossible);
}

#[test]
fn the_floor_spares_small_lines() {
    let small = estimate(Evidence::Shape, range(9.0, 10.0, 11.0), None, true);
    assert_eq!(of(4.0, &small), Verdict::Consistent);
    assert_eq!(of(3.9, &small), Verdict::Light);
    assert_eq!(of(16.0, &small), Verdict::Consistent);
    assert_eq!(of(16.6, &small), Verdict::Impossible);
}

#[test]
fn an_envelope_proves_little() {
    let crate_ = estimate(
        Evidence::Envelope,
        range(100.0, 300.0, 2_000.0),
        Some(2_000.0),
        false,
    );
    for (kg, expected) in [
        (90.0, Verdict::Unverifiable),
        (89.0, Verdict::Light),
        (2_000.0, Verdict::Unverifiable),
        (2_005.0, Verdict::Consistent),
        (2_006.0, Verdict::Impossible),
    ] {
        assert_eq!(of(kg, &crate_), expected, "{kg}");
    }
}

#[test]
fn a_gross_weight_has_the_tare_on_top() {
    let mut pallet = estimate(
        Evidence::Product,
        range(900.0, 1_000.0, 1_100.0),
        None,
        false,
    );
    pallet.tare = range(100.0, 200.0, 300.0);
    let gross = |kg: f64| {
        verdict(
            Some(&declared(kg, WeightKind::Gross)),
            Ok(&pallet),
            TOLERANCE,
        )
    };
    assert_eq!(gross(899.0), Verdict::Light);
    assert_eq!(gross(1_540.0), Verdict::Consistent);
    let unstated = verdict(
        Some(&declared(811.0, WeightKind::Unstated)),
        Ok(&pallet),
        TOLERANCE,
    );
    assert_eq!(unstated, Verdict::Consistent);
}

#[test]
fn without_a_weight_or_an_estimate() {
    let plate = estimate(Evidence::Shape, range(900.0, 1_000.0, 1_100.0), None, true);
    assert_eq!(verdict(None, Ok(&plate), TOLERANCE), Verdict::Missing);
    let mut no = NoEstimate {
        why: "no size is stated".to_string(),
        impossible: false,
        goods: None,
        upper: None,
        outline: None,
    };
    assert_eq!(
        verdict(Some(&declared(10.0, WeightKind::Net)), Err(&no), TOLERANCE),
        Verdict::Unverifiable
    );
    // Known size, unknown material: nothing weighs more than solid lead.
    no.upper = Some(Mass::from_kg(1_000.0));
    assert_eq!(
        verdict(
            Some(&declared(1_100.0, WeightKind::Net)),
            Err(&no),
            TOLERANCE
        ),
        Verdict::Unverifiable
    );
    assert_eq!(
        verdict(
            Some(&declared(1_101.0, WeightKind::Net)),
            Err(&no),
            TOLERANCE
        ),
        Verdict::Impossible
    );
}
