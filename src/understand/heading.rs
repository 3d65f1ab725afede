//! One heading: which field it names, of what kind and basis, in which unit.

mod axes;

use axes::axes;

pub use super::field::Field;
use crate::tables::headings::{self, Role};
use crate::tables::packages;
use crate::tables::phrases::{Word, words};
use crate::understand::{Basis, WeightKind};
use crate::units::LengthUnit;
use crate::units::spelling::{self, MassSpelling};

/// A heading as understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Heading {
    /// The field, where the words name one.
    pub field: Option<Field>,
    /// Net or gross.
    pub kind: WeightKind,
    /// Both net and gross in one column.
    pub both_kinds: bool,
    /// What a weight is of.
    pub basis: Option<Basis>,
    /// A quantity that was delivered, or a total of packages: it beats other quantities.
    pub preferred: bool,
    /// Sizes are the package's.
    pub of_package: bool,
    /// Unit of mass.
    pub mass: Option<MassSpelling>,
    /// Unit of length.
    pub length: Option<LengthUnit>,
    /// Order of the sizes in one cell: places of length, width and height.
    pub axes: [usize; 3],
    /// Share of the words that were understood, 0 to 1.
    pub known: f64,
}

/// Words that say nothing by themselves.
const FILLERS: [&str; 33] = [
    "of", "the", "in", "and", "&", "/", "de", "du", "la", "le", "per", "no", "x", "each", "*",
    "del", "von", "der", "is", "for", "to", "by", "a", "an", "approx", "declared", "stated", "est",
    "nom", "std", "our", "your", "cust",
];

/// Understands one heading's text.
pub fn read(text: &str) -> Heading {
    let words = words(text);
    let mut roles: Vec<Role> = Vec::new();
    let mut mass = None;
    let mut length = None;
    let mut per_length = None;
    let mut quantity_unit = false;
    let mut known = 0;
    let axes = axes(&words);
    let mut at = 0;
    while at < words.len() {
        if axes.as_ref().is_some_and(|axes| axes.span.contains(&at)) {
            known += 1;
            at += 1;
            continue;
        }
        let slashed = at > 0 && words[at - 1].plain == "/";
        if slashed
            && mass.is_some()
            && let Some(unit) = spelling::length(&words[at].raw)
        {
            per_length = Some(unit);
            known += 1;
            at += 1;
            continue;
        }
        // A unit in brackets, or behind words that already name a field, is a unit and not a field.
        let set_apart = words[at].bracketed || slashed;
        // The German sign of the tonne stands last; "subject to correction" and "to be confirmed" go on.
        if words[at].plain == "to" && at + 1 < words.len() {
            at += 1;
            continue;
        }
        if let Some(taken) = unit_of(&words[at], set_apart, &roles, &mut mass, &mut length) {
            known += taken;
            at += 1;
            continue;
        }
        // No phrase runs into a unit in brackets: "H (m)" is a height.
        let unit_from = words[at..].iter().position(|word| {
            word.bracketed
                && (spelling::length(&word.raw).is_some() || spelling::mass(&word.raw).is_some())
        });
        let until = unit_from
            .filter(|from| *from > 0)
            .map_or(words.len(), |from| at + from);
        if let Some((taken, found)) = headings::at(&words[..until], at) {
            roles.extend(found);
            known += taken;
            at += taken;
            continue;
        }
        if unit(&words[at], &mut mass, &mut length).is_some()
            || FILLERS.contains(&words[at].plain.as_str())
        {
            known += 1;
        } else if packages::of_word(&words[at].raw).is_some() {
            quantity_unit |= words[at].bracketed;
            known += 1;
        }
        at += 1;
    }
    // "t each", "kg total": the letter is a unit of mass when the rest speaks of pieces or of the line.
    if mass.is_none()
        && roles.len() > 1
        && roles.contains(&Role::Thickness)
        && roles
            .iter()
            .any(|role| matches!(role, Role::Piece | Role::WholeLine))
    {
        roles.retain(|role| *role != Role::Thickness);
        mass = spelling::mass("t");
    }
    if roles.contains(&Role::QuantityLength) {
        length.get_or_insert(LengthUnit::M);
    }
    let field = field(
        &roles,
        mass.is_some(),
        length.is_some(),
        axes.is_some(),
        quantity_unit,
    );
    let has = |role: Role| roles.contains(&role);
    let kind = match (has(Role::Gross), has(Role::Net)) {
        (true, false) => WeightKind::Gross,
        (false, true) => WeightKind::Net,
        _ => WeightKind::Unstated,
    };
    let per_length =
        per_length.or((has(Role::PerLength)).then(|| length.unwrap_or(foot_or_metre(&words))));
    let basis = if let Some(unit) = per_length {
        Some(if unit == LengthUnit::Ft {
            Basis::PerFoot
        } else {
            Basis::PerMetre
        })
    } else if has(Role::PerPackage) {
        Some(Basis::Package)
    } else if has(Role::Piece) {
        Some(Basis::Piece)
    } else if has(Role::WholeLine) {
        Some(Basis::Line)
    } else {
        None
    };
    let field = match field {
        Some(Field::Quantity) if has(Role::PerPackage) => Some(Field::QuantityPerPackage),
        Some(Field::Length) if has(Role::WholeLine) => Some(Field::NotUsed),
        field => field,
    };
    Heading {
        field,
        kind,
        both_kinds: has(Role::Gross) && has(Role::Net),
        basis,
        preferred: has(Role::Delivered) || has(Role::WholeLine),
        of_package: has(Role::Package) || (has(Role::PerPackage) && field == Some(Field::Size)),
        mass,
        length,
        axes: axes.map_or([0, 1, 2], |axes| axes.order),
        known: if words.is_empty() {
            0.0
        } else {
            known as f64 / words.len() as f64
        },
    }
}

/// Takes a word as a unit where it stands apart, or behind words that speak of a weight (mass) or a size (length):
/// the T of "Dimensions T (mm)" is a thickness, that of "Weight T" a unit.
fn unit_of(
    word: &Word,
    apart: bool,
    roles: &[Role],
    mass: &mut Option<MassSpelling>,
    length: &mut Option<LengthUnit>,
) -> Option<usize> {
    let speaks = |wanted: &[Role]| apart || roles.iter().any(|role| wanted.contains(role));
    let weighs = speaks(&[
        Role::Weight,
        Role::AmbiguousWt,
        Role::Gross,
        Role::Net,
        Role::Tare,
        Role::Piece,
        Role::WholeLine,
        Role::PerPackage,
        Role::PerLength,
        Role::Quantity,
    ]);
    if weighs && spelling::mass(&word.raw).is_some() {
        return unit(word, mass, length);
    }
    let measures = speaks(&[
        Role::Length,
        Role::Width,
        Role::Height,
        Role::Depth,
        Role::Thickness,
        Role::Outside,
        Role::Inside,
        Role::Wall,
        Role::Size,
        Role::LiftHeight,
        Role::Weight,
        Role::PerLength,
    ]);
    if measures
        && spelling::length(&word.raw).is_some()
        && (spelling::mass(&word.raw).is_none() || !weighs)
    {
        return unit(word, mass, length);
    }
    None
}

/// Takes a word as a unit if it is one; the first unit of a kind stands.
fn unit(
    word: &Word,
    mass: &mut Option<MassSpelling>,
    length: &mut Option<LengthUnit>,
) -> Option<usize> {
    if let Some(unit) = spelling::mass(&word.raw).filter(|_| word.plain != "#") {
        mass.get_or_insert(unit);
        return Some(1);
    }
    if let Some(unit) = spelling::length(&word.raw) {
        length.get_or_insert(unit);
        return Some(1);
    }
    None
}

fn foot_or_metre(words: &[Word]) -> LengthUnit {
    let foot = words
        .iter()
        .any(|word| matches!(word.plain.as_str(), "ft" | "foot" | "feet" | "plf"));
    if foot { LengthUnit::Ft } else { LengthUnit::M }
}

/// The field that the roles name: a weight before a size, a size before the texts.
fn field(
    roles: &[Role],
    mass: bool,
    length: bool,
    axes: bool,
    quantity_unit: bool,
) -> Option<Field> {
    let has = |role: Role| roles.contains(&role);
    // A size or its unit beside it settles "WT" as the wall of a pipe list.
    if has(Role::AmbiguousWt) && !mass && (length || has(Role::Size) || has(Role::Thickness)) {
        return Some(Field::Wall);
    }
    for (role, field) in [
        (Role::OtherQuantity, Field::NotUsed),
        (Role::WeightUnit, Field::WeightUnit),
        (Role::SizeUnit, Field::SizeUnit),
        (Role::Tare, Field::Tare),
        (Role::Volume, Field::Volume),
        (Role::Weight, Field::Weight),
        (Role::LiftHeight, Field::LiftHeight),
        (Role::Outside, Field::Outside),
        (Role::Inside, Field::Inside),
        (Role::Wall, Field::Wall),
        (Role::Length, Field::Length),
        (Role::Width, Field::Width),
        (Role::Height, Field::Height),
        (Role::Depth, Field::Depth),
        (Role::Thickness, Field::Thickness),
        (Role::Size, Field::Size),
        (Role::QuantityLength, Field::Length),
        (Role::Packages, Field::Packages),
        (Role::PackageType, Field::PackageType),
        (Role::PackageId, Field::PackageId),
        (Role::NotUsed, Field::NotUsed),
        (Role::Delivery, Field::Delivery),
        (Role::Order, Field::Order),
        (Role::Quantity, Field::Quantity),
        (Role::Delivered, Field::Quantity),
        (Role::Material, Field::Material),
        (Role::Description, Field::Description),
        (Role::Supplier, Field::Supplier),
        (Role::Vehicle, Field::Vehicle),
        (Role::Mark, Field::Mark),
        (Role::Item, Field::Item),
        (Role::Remarks, Field::Remarks),
        (Role::Unit, Field::Unit),
        (Role::Line, Field::LineNo),
    ] {
        if has(role) {
            // "Gross" and "kg each" speak of a weight without the word.
            return Some(match field {
                Field::Packages | Field::PackageId | Field::Quantity if mass && !quantity_unit => {
                    Field::Weight
                }
                field => field,
            });
        }
    }
    if has(Role::AmbiguousWt) {
        return Some(Field::Weight);
    }
    if has(Role::Gross) || has(Role::Net) || mass {
        return Some(Field::Weight);
    }
    axes.then_some(Field::Size)
}

#[cfg(test)]
mod tests;
