//! Sizes that a description states, put to their places by what the goods are.

mod places;
mod sections;

use places::{chain_sizes, put_chain, put_labelled, put_single};
use sections::{begins_with_section, designated};

use super::described::Described;
use super::{FurtherSize, Size1, Sizes};
use crate::tables::goods::GoodsWord;
use crate::units::LengthUnit;
use crate::units::written::WrittenLength;
use std::borrow::Cow;

/// Names of hollow sections and angles whose figures are height, width and wall.
const LEGGED: [&str; 17] = [
    "hss",
    "rhs",
    "shs",
    "angular",
    "angolare",
    "winkel",
    "corniere",
    "cornière",
    "angle",
    "angles",
    "tubo",
    "rechteckrohr",
    "quadratrohr",
    "vierkantrohr",
    "box",
    "l",
    "kątownik",
];

/// A single size of a board up to this is its thickness.
const THICKEST: f64 = 0.1;
/// Bare figures above this in a US list are millimetres: 500 in would be longer than a road vehicle's deck.
const LONGEST_IN: f64 = 500.0;
/// A single size of long goods that is shorter than this is their section or a nominal size ("Pipe 4\" sch 40"), not a length.
const SHORTEST: f64 = 0.5;
/// Two lengths are the same up to this in |ln|: rounding, and a trade length for the true one.
const SAME_LENGTH: f64 = 0.05;
/// Words by which a line without a goods word is lumber.
const SPECIES: [&str; 16] = [
    "fir", "pine", "spruce", "hemlock", "cedar", "oak", "larch", "spf", "syp", "hem-fir", "df",
    "s4s", "kd", "kiln", "hardwood", "softwood",
];

/// Makes a size of a written length; `default` is the unit where none stands beside it.
pub fn size(written: WrittenLength, default: Option<LengthUnit>) -> Option<Size1> {
    let unit = written.unit.or(default)?;
    let figure = written.figure;
    (figure.value > 0.0).then(|| Size1 {
        length: unit.length(figure.value),
        half_digit: unit.length(figure.half_digit),
        fine: figure.fine,
    })
}

/// The sizes that a description states. `bare` is the unit of figures without one.
pub fn described(
    text: &str,
    found: &Described,
    goods: Option<GoodsWord>,
    bare: LengthUnit,
) -> Sizes {
    let mut sizes = Sizes::default();
    if designated(text) {
        // Only a labelled or single length beside a designation is a size ("IPE 240 L=6000", "W12x26 20 ft").
        for chain in found.chains.iter().filter(|chain| chain.parts.len() == 1) {
            put_labelled(&mut sizes, chain, bare);
            put_single(&mut sizes, chain, "section", bare);
        }
        return sizes;
    }
    let goods_name = match goods {
        Some(word) => word.goods.name.as_str(),
        None if starts_with_any(text, &SPECIES) => "lumber",
        None => "",
    };
    let legged = starts_with_any(text, &LEGGED) || goods_name == "hollow section";
    if goods_name == "cable" {
        // "4x25" is cores by area, "500 m" what is wound up: neither is a side of the load.
        return sizes;
    }
    // A length that says so ("Winkelstahl 100x100x10 L=6000") goes before the figures of the chain.
    for chain in found.chains.iter().filter(|chain| chain.parts.len() == 1) {
        put_labelled(&mut sizes, chain, bare);
    }
    let longest = found.chains.iter().max_by_key(|chain| chain.parts.len());
    for chain in &found.chains {
        if chain.parts.len() > 1 && Some(chain) == longest {
            put_chain(&mut sizes, chain, goods_name, legged, bare);
        }
    }
    for chain in found.chains.iter().filter(|chain| chain.parts.len() == 1) {
        let long = match goods_name {
            _ if legged => "hollow section",
            "" if begins_with_section(text) => "section",
            name => name,
        };
        put_single(&mut sizes, chain, long, bare);
    }
    sizes
}

/// The sizes of a description that only some shapes have. `bare` is the unit of figures without one.
pub fn further(found: &Described, bare: LengthUnit) -> Vec<FurtherSize> {
    let of = |chain: &super::described::FurtherChain| {
        let sizes = chain_sizes(&chain.chain, bare);
        Some(FurtherSize {
            which: chain.which,
            size: sizes.first().copied().flatten()?,
            second: sizes.get(1).copied().flatten(),
        })
    };
    found.further.iter().filter_map(of).collect()
}

/// The sizes of a description beside a length that a column states: two figures that are not that length are the section
/// ("Oak sleeper 250x150 mm", 2.6 m long).
pub fn section_of(column: Option<Size1>, described: Sizes) -> Sizes {
    let Some(column) = column else {
        return described;
    };
    match described {
        Sizes {
            length: Some(first),
            width: Some(second),
            height: None,
            outside: None,
            inside: None,
            wall: None,
        } if (first.length.m() / column.length.m()).ln().abs() > SAME_LENGTH => Sizes {
            length: None,
            width: Some(first),
            height: Some(second),
            ..described
        },
        described => described,
    }
}

/// The text with a blank between the name of a hollow section or angle and its sizes (`HSS6X6X1/4`), whose figures are
/// sizes, unlike those of a beam (`W12X26`).
pub fn apart(text: &str) -> Cow<'_, str> {
    let first = text.split(' ').next().unwrap_or("");
    let letters = first
        .find(|sign: char| !sign.is_alphabetic())
        .unwrap_or(first.len());
    let (name, rest) = first.split_at(letters);
    let joined = rest.starts_with(|sign: char| sign.is_ascii_digit())
        && rest.to_lowercase().matches('x').count() >= 2;
    if joined && LEGGED.contains(&name.to_lowercase().as_str()) {
        // A lone L before a figure would be a length.
        let name = if name.eq_ignore_ascii_case("l") {
            "angle"
        } else {
            name
        };
        Cow::Owned(format!("{name} {}", &text[letters..]))
    } else {
        Cow::Borrowed(text)
    }
}

fn starts_with_any(text: &str, names: &[&str]) -> bool {
    let lower = text.to_lowercase();
    lower.split([' ', ',']).any(|word| names.contains(&word))
}

impl Sizes {
    /// Length, width, height, outside and inside diameter, wall.
    pub fn all(&self) -> [Option<Size1>; 6] {
        [
            self.length,
            self.width,
            self.height,
            self.outside,
            self.inside,
            self.wall,
        ]
    }

    /// Whether nothing is known.
    pub fn is_empty(&self) -> bool {
        *self == Sizes::default()
    }

    /// These sizes, what is missing taken from `other`; a wall is not taken where outside and inside already tell it.
    pub fn or(self, other: Sizes) -> Sizes {
        let told = self.outside.is_some() && self.inside.is_some();
        Sizes {
            length: self.length.or(other.length),
            width: self.width.or(other.width),
            height: self.height.or(other.height),
            outside: self.outside.or(other.outside),
            inside: self.inside.or(other.inside),
            wall: self.wall.or(if told { None } else { other.wall }),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::tables::goods;
    use crate::understand::described;
    use crate::units::LengthUnit;
    use crate::units::written::Decimal;

    /// length, width, height, outside, inside, wall in millimetres.
    fn mm(text: &str, us: bool) -> [Option<f64>; 6] {
        let spaced = super::apart(text);
        let found = described::read(&spaced, Decimal::Point);
        let sizes = super::described(
            &spaced,
            &found,
            goods::in_description(text),
            if us { LengthUnit::In } else { LengthUnit::Mm },
        );
        sizes
            .all()
            .map(|size| size.map(|size| (size.length.mm() * 10.0).round() / 10.0))
    }

    #[test]
    fn descriptions_put_sizes_to_their_places() {
        let n = None;
        for (text, us, expected) in [
            (
                "Fishplate 508x120x20 steel",
                false,
                [Some(508.0), Some(120.0), Some(20.0), n, n, n],
            ),
            (
                "Flat bar 100x12x600",
                false,
                [Some(600.0), Some(100.0), Some(12.0), n, n, n],
            ),
            (
                "Round bar dia 60 x 1200",
                false,
                [Some(1200.0), n, n, Some(60.0), n, n],
            ),
            (
                "Round bar 50 mm x 3 m",
                false,
                [Some(3000.0), n, n, Some(50.0), n, n],
            ),
            (
                "Seamless pipe Ø219.1x8.2 L=6000",
                false,
                [Some(6000.0), n, n, Some(219.1), n, Some(8.2)],
            ),
            (
                "Square tube 40x40x3 L6000",
                false,
                [Some(6000.0), Some(40.0), Some(40.0), n, n, Some(3.0)],
            ),
            (
                "Concrete ring OD 1200 ID 1000 H 500",
                false,
                [n, n, Some(500.0), Some(1200.0), Some(1000.0), n],
            ),
            (
                "RHS 150x100x6.3",
                false,
                [n, Some(100.0), Some(150.0), n, n, Some(6.3)],
            ),
            ("UB 203x133x25", false, [n; 6]),
            (
                "HSS6X6X1/4",
                true,
                [n, Some(152.4), Some(152.4), n, n, Some(6.4)],
            ),
            (
                "HSS 6x4x1/4 20 ft",
                true,
                [Some(6096.0), Some(101.6), Some(152.4), n, n, Some(6.4)],
            ),
            ("W12x26 20 ft", true, [Some(6096.0), n, n, n, n, n]),
            ("IPE 200 6 m", false, [Some(6000.0), n, n, n, n, n]),
            ("IPE 200 mm", false, [n; 6]),
            (
                "L4X4X3/8",
                true,
                [n, Some(101.6), Some(101.6), n, n, Some(9.5)],
            ),
            (
                "OSB 7/16 4x8",
                true,
                [Some(2438.4), Some(1219.2), Some(11.1), n, n, n],
            ),
            (
                "Gypsum board 1/2 in 4x8",
                true,
                [Some(2438.4), Some(1219.2), Some(12.7), n, n, n],
            ),
            (
                "Pallet 1200x800",
                true,
                [Some(1200.0), Some(800.0), n, n, n, n],
            ),
            ("W12X26", true, [n; 6]),
            (
                "2x10x16 Douglas fir No. 2 KD",
                true,
                [Some(4876.8), Some(254.0), Some(50.8), n, n, n],
            ),
            (
                "Angular 100x100x10",
                false,
                [n, Some(100.0), Some(100.0), n, n, Some(10.0)],
            ),
            (
                "60 PCS STEEL PIPE 4.500 OD X .237 WALL X 21'",
                true,
                [Some(6400.8), n, n, Some(114.3), n, Some(6.0)],
            ),
            (
                "24 pcs 2x10x16' SPRUCE S4S",
                true,
                [Some(4876.8), Some(254.0), Some(50.8), n, n, n],
            ),
            (
                "6 STEEL PLATES 1/2\" X 60\" X 120\"",
                true,
                [Some(3048.0), Some(1524.0), Some(12.7), n, n, n],
            ),
            ("PL 1/2 X 12", true, [n, Some(304.8), Some(12.7), n, n, n]),
            (
                "Hollow bar 100/60",
                false,
                [n, n, n, Some(100.0), Some(60.0), n],
            ),
            (
                "Ballast shoulder retainer, steel 6'-0\" x 8\" x 3/8\"",
                false,
                [Some(1828.8), Some(203.2), Some(9.5), n, n, n],
            ),
            (
                "Crate 1.2*0.8*1.5m",
                false,
                [Some(1200.0), Some(800.0), Some(1500.0), n, n, n],
            ),
            ("M24x130 bolt", false, [n; 6]),
            // A depth is no length, and neither is a flange.
            ("Steel beam depth 600 mm flange 150 mm", false, [n; 6]),
            (
                "Steel channel 200 x 75 x 8.5 x 6 m",
                false,
                [Some(6000.0), Some(75.0), Some(200.0), n, n, Some(8.5)],
            ),
            (
                "Hex bar brass 50 x 3000",
                false,
                [Some(3000.0), n, n, Some(50.0), n, n],
            ),
            (
                "Square bar brass 50 x 3000",
                false,
                [Some(3000.0), Some(50.0), n, n, n, n],
            ),
            (
                "Hardwood packing 1200/200/50",
                false,
                [Some(1200.0), Some(200.0), Some(50.0), n, n, n],
            ),
        ] {
            assert_eq!(mm(text, us), expected, "{text}");
        }
    }
}
