//! Lines as short texts, so that tests of the hypotheses read as a clerk would read them aloud.

use super::{Cause, Slip, named};
use crate::compare::{Tolerance, Verdict, verdict};
use crate::estimate::materials::Vocabulary;
use crate::estimate::{self, Estimate};
use crate::settle::{self, Declared, Settled};
use crate::tables::packages;
use crate::understand::{
    Basis, How, Item, MassUnit, Size1, Sizes, StatedWeight, WeightKind, sizes,
};
use crate::units::written::{Decimal, length};
use crate::units::{Mass, MassRange, spelling};

const TOLERANCE: Tolerance = Tolerance {
    relative: 0.10,
    floor: Mass::from_kg(5.0),
};

/// The likely causes of a slip, without the way in which they explain it.
pub(super) fn likely(slip: &Slip) -> Vec<Cause> {
    named(slip, &Default::default())
        .into_iter()
        .map(|named| named.cause)
        .collect()
}

/// The best cause of each line of `shows` is `kind`; that of each line of `others` is another or none. Every line of `shows`
/// is one that the comparison flags.
#[track_caller]
pub(super) fn check(kind: &str, shows: &[&str], others: &[&str]) {
    assert!(shows.len() >= 3 && others.len() >= 3);
    let best = |line: &str| {
        let (slip, verdict) = slip(line);
        (likely(&slip), verdict)
    };
    for line in shows {
        let (causes, verdict) = best(line);
        assert!(
            matches!(
                verdict,
                Verdict::Light | Verdict::Heavy | Verdict::Impossible
            ),
            "{line}: {verdict:?}"
        );
        assert_eq!(
            causes.first().map(|cause| cause.kind),
            Some(kind),
            "{line}: {causes:?}"
        );
    }
    for line in others {
        let (causes, _) = best(line);
        assert_ne!(
            causes.first().map(|cause| cause.kind),
            Some(kind),
            "{line}: {causes:?}"
        );
    }
}

/// Causes of a gross weight beside a net one (kg), on a pallet or in packaging of no known kind.
pub(super) fn gross_below_net(gross: f64, net: f64, pallet: bool) -> Vec<Cause> {
    let stated = weight(&format!("{gross} kg gross"));
    let tare = if pallet {
        packages::tare("pallet")
    } else {
        MassRange {
            low: Mass::ZERO,
            likely: Mass::ZERO,
            high: Mass::ZERO,
        }
    };
    let slip = Slip::beside_net(
        &stated,
        &Settled::default(),
        Mass::from_kg(net),
        tare,
        TOLERANCE,
    )
    .expect("a unit");
    likely(&slip)
}

/// The slip of a line, with the verdict on it.
#[track_caller]
pub(super) fn slip(line: &str) -> (Slip, Verdict) {
    let (item, declared, estimate) = parts(line);
    let verdict = verdict(Some(&declared), Ok(&estimate), TOLERANCE);
    let slip = Slip::of(
        Some(&item),
        &item.weights,
        &declared,
        &Settled::default(),
        &estimate,
        TOLERANCE,
    )
    .expect("a slip");
    (slip, verdict)
}

/// `description | material | pieces [in n package] | sizes | weight [net|gross] [each]`; `-` for nothing.
#[track_caller]
pub(super) fn parts(line: &str) -> (Item, Declared, Estimate) {
    let parts: Vec<&str> = line.split('|').map(str::trim).collect();
    let [description, material, pieces, sizes, declared] = parts[..] else {
        panic!("five parts: {line}")
    };
    let counted: Vec<&str> = pieces.split(' ').collect();
    let stated = weight(declared);
    let item = Item {
        place: stated.place.clone(),
        line_no: None,
        item: None,
        description: description.into(),
        material: (material != "-").then(|| material.into()),
        order: None,
        supplier: None,
        vehicle: None,
        pieces: counted[0].parse().expect("a number of pieces"),
        pieces_how: How::Stated,
        unit: None,
        packages: counted
            .get(2)
            .map(|number| number.parse().expect("a number of packages")),
        stands_on: None,
        packed_as: counted
            .get(3)
            .and_then(|word| packages::of_word(word))
            .map(|word| word.name),
        sizes: written_sizes(sizes),
        further_sizes: Vec::new(),
        package_sizes: Sizes::default(),
        volume: None,
        amount: None,
        sizes_from: None,
        weights: vec![stated],
        tare: None,
        unusable: Vec::new(),
        shared_with: None,
        entered: None,
        lift_height: None,
        remarks: Vec::new(),
    };
    let settled = Settled::default();
    let estimate = estimate::line(&item, None, Vocabulary::built_in())
        .unwrap_or_else(|no| no_estimate(line, &no.why));
    let declared = settle::declared(
        &item.weights,
        &item.unusable,
        item.pieces,
        item.packages,
        &settled,
        |_| true,
    )
    .expect("a weight");
    (item, declared, estimate)
}

#[track_caller]
fn no_estimate(line: &str, why: &str) -> Estimate {
    panic!("{line}: no estimate: {why}")
}

fn weight(text: &str) -> StatedWeight {
    let words: Vec<&str> = text.split(' ').collect();
    let unit = spelling_of(words[1]);
    let has = |word: &str| words.contains(&word);
    StatedWeight {
        figure: words[0].replace(',', "").parse().expect("a figure"),
        unit: Some(unit),
        basis: Some(if has("each") {
            Basis::Piece
        } else {
            Basis::Line
        }),
        kind: if has("gross") {
            WeightKind::Gross
        } else if has("net") {
            WeightKind::Net
        } else {
            WeightKind::Unstated
        },
        place: crate::place::Place {
            file: "case.csv".into(),
            sheet: "".into(),
            row: 2,
            column: 6,
        },
        text: text.into(),
    }
}

fn spelling_of(word: &str) -> MassUnit {
    match word {
        "kg" => MassUnit::Kg,
        "lb" => MassUnit::Lb,
        "t" => MassUnit::Tonne,
        other => panic!("no unit of these tests: {other}"),
    }
}

/// `2000 x 1000 x 10 mm`, `od 168.3 wall 7.1 l 6000 mm`.
fn written_sizes(text: &str) -> Sizes {
    let mut found = Sizes::default();
    let Some((sizes, unit)) = text.rsplit_once(' ') else {
        return found;
    };
    let unit = spelling::length(unit);
    let size =
        |text: &str| -> Option<Size1> { sizes::size(length(text, Decimal::Point, unit)?, unit) };
    if sizes.contains(" x ") {
        let sides: Vec<Option<Size1>> = sizes.split(" x ").map(size).collect();
        found.length = sides[0];
        found.width = sides[1];
        found.height = sides[2];
        return found;
    }
    let words: Vec<&str> = sizes.split(' ').collect();
    for pair in words.chunks(2) {
        let target = match pair[0] {
            "od" => &mut found.outside,
            "id" => &mut found.inside,
            "wall" => &mut found.wall,
            "l" => &mut found.length,
            other => panic!("no size of these tests: {other}"),
        };
        *target = size(pair[1]);
    }
    found
}
