//! Words of column headings and the roles they play.

use super::phrases::{Phrases, Word};
use serde::Deserialize;
use std::sync::LazyLock;

/// What a word of a heading says: a field, or something about a weight or a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Line number.
    Line,
    /// Item or part number.
    Item,
    /// Piece mark.
    Mark,
    /// Description.
    Description,
    /// Material or grade.
    Material,
    /// Number of pieces.
    Quantity,
    /// A quantity in running length.
    QuantityLength,
    /// A quantity that was not delivered.
    OtherQuantity,
    /// The delivered quantity.
    Delivered,
    /// Unit of the quantity.
    Unit,
    /// Number of packages.
    Packages,
    /// Kind of package.
    PackageType,
    /// Number or name of a package.
    PackageId,
    /// Length.
    Length,
    /// Width.
    Width,
    /// Height.
    Height,
    /// Depth: the height, or the horizontal size that no other column holds.
    Depth,
    /// Thickness.
    Thickness,
    /// Outside diameter.
    Outside,
    /// Inside diameter.
    Inside,
    /// Wall thickness.
    Wall,
    /// `WT`: weight, or wall thickness in pipe lists.
    AmbiguousWt,
    /// Several sizes in one cell.
    Size,
    /// The size is the package's.
    Package,
    /// Volume.
    Volume,
    /// Weight.
    Weight,
    /// Gross.
    Gross,
    /// Net.
    Net,
    /// Of one piece.
    Piece,
    /// Of the line.
    WholeLine,
    /// Of one package.
    PerPackage,
    /// Per metre or foot.
    PerLength,
    /// Tare.
    Tare,
    /// Unit of the weight.
    WeightUnit,
    /// Unit of the sizes.
    SizeUnit,
    /// Number of the delivery.
    Delivery,
    /// Purchase order.
    Order,
    /// Supplier.
    Supplier,
    /// Vehicle or container.
    Vehicle,
    /// Remarks.
    Remarks,
    /// Lift height.
    LiftHeight,
    /// Known and of no use for weights.
    NotUsed,
}

#[derive(Deserialize)]
struct RowOfTable {
    phrase: String,
    roles: String,
}

static PHRASES: LazyLock<Phrases<Vec<Role>>> = LazyLock::new(|| {
    Phrases::new(
        super::rows::<RowOfTable>(super::HEADINGS)
            .into_iter()
            .map(|row| (row.phrase, roles(&row.roles))),
    )
});

/// The roles of a table cell; unknown words are left out (a test holds that there are none).
fn roles(text: &str) -> Vec<Role> {
    use serde::de::IntoDeserializer;
    use serde::de::value::{Error, StrDeserializer};
    text.split(' ')
        .flat_map(|word| match word {
            // "of the line" and "line number" are two things.
            "line" if text != "line" => vec![Role::WholeLine],
            word => {
                let word: StrDeserializer<'_, Error> = word.into_deserializer();
                Role::deserialize(word).into_iter().collect()
            }
        })
        .collect()
}

/// The longest phrase that starts at word `at`: its length in words and its roles.
pub fn at(words: &[Word], at: usize) -> Option<(usize, &'static [Role])> {
    PHRASES
        .at(words, at)
        .map(|(length, roles)| (length, roles.as_slice()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_has_roles_and_a_source() {
        #[derive(Deserialize)]
        struct Whole {
            phrase: String,
            roles: String,
            source: String,
        }
        for row in crate::tables::rows::<Whole>(crate::tables::HEADINGS) {
            assert_eq!(
                roles(&row.roles).len(),
                row.roles.split(' ').count(),
                "{}: {}",
                row.phrase,
                row.roles
            );
            assert!(!row.source.is_empty(), "{}", row.phrase);
        }
    }
}
