//! Headings of many lists and languages.

use super::*;
use crate::units::MassUnit;

#[test]
fn headings_of_many_lists() {
    use Field::*;
    for (text, field, kind, basis) in [
        ("Gross Weight毛重(KGS)", Weight, WeightKind::Gross, None),
        ("N.W./CTN", Weight, WeightKind::Net, Some(Basis::Package)),
        (
            "Gew./Stk kg",
            Weight,
            WeightKind::Unstated,
            Some(Basis::Piece),
        ),
        (
            "Gesamtgew. kg",
            Weight,
            WeightKind::Unstated,
            Some(Basis::Line),
        ),
        ("WT/FT", Weight, WeightKind::Unstated, Some(Basis::PerFoot)),
        (
            "Gewicht kg/m",
            Weight,
            WeightKind::Unstated,
            Some(Basis::PerMetre),
        ),
        ("WT (mm)", Wall, WeightKind::Unstated, None),
        ("Dimensions (mm) W.T.", Wall, WeightKind::Unstated, None),
        ("WT (kg)", Weight, WeightKind::Unstated, None),
        ("WEIGHT (LBS)", Weight, WeightKind::Unstated, None),
        ("kg each", Weight, WeightKind::Unstated, Some(Basis::Piece)),
        ("t total", Weight, WeightKind::Unstated, Some(Basis::Line)),
        (
            "Poids unit. (kg)",
            Weight,
            WeightKind::Unstated,
            Some(Basis::Piece),
        ),
        (
            "Masa brutto (kg) / Gross weight:",
            Weight,
            WeightKind::Gross,
            None,
        ),
        (
            "Total Gross Weight",
            Weight,
            WeightKind::Gross,
            Some(Basis::Line),
        ),
        (
            "Unit Wt (kg)",
            Weight,
            WeightKind::Unstated,
            Some(Basis::Piece),
        ),
        ("Total Wt", Weight, WeightKind::Unstated, Some(Basis::Line)),
        ("Qty", Quantity, WeightKind::Unstated, None),
        ("Qty (pcs)", Quantity, WeightKind::Unstated, None),
        (
            "QTY/CTN",
            QuantityPerPackage,
            WeightKind::Unstated,
            Some(Basis::Package),
        ),
        ("Länge mm", Length, WeightKind::Unstated, None),
        ("H (m)", Height, WeightKind::Unstated, None),
        ("L (cm)", Length, WeightKind::Unstated, None),
        ("T (mm)", Thickness, WeightKind::Unstated, None),
        ("Außen-Ø mm", Outside, WeightKind::Unstated, None),
        ("Wanddicke mm", Wall, WeightKind::Unstated, None),
        ("Meas. L x W x H (cm)", Size, WeightKind::Unstated, None),
        (
            "Dimensioni mm (L x P x H)",
            Size,
            WeightKind::Unstated,
            None,
        ),
        (
            "Description of goods",
            Description,
            WeightKind::Unstated,
            None,
        ),
        ("Part No.", Item, WeightKind::Unstated, None),
        ("Pallet No.", PackageId, WeightKind::Unstated, None),
        ("Cust. PO", Order, WeightKind::Unstated, None),
        ("CBM", Volume, WeightKind::Unstated, None),
        ("Werkstoff", Material, WeightKind::Unstated, None),
        ("Heat No", NotUsed, WeightKind::Unstated, None),
        ("Tara (kg)", Tare, WeightKind::Unstated, None),
        ("larg. (mm)", Width, WeightKind::Unstated, None),
        ("Qty Shipped", Quantity, WeightKind::Unstated, None),
        ("Qty Ordered", NotUsed, WeightKind::Unstated, None),
    ] {
        let heading = read(text);
        assert_eq!(
            (heading.field, heading.kind, heading.basis),
            (Some(field), kind, basis),
            "{text}: {heading:?}"
        );
    }
}

#[test]
fn units_of_headings() {
    assert_eq!(
        read("Weight t").mass,
        Some(MassSpelling::Known(MassUnit::Tonne))
    );
    assert_eq!(read("Weight (T)").mass, Some(MassSpelling::Ton));
    assert_eq!(
        read("NET WT\n(LBS)").mass,
        Some(MassSpelling::Known(MassUnit::Lb))
    );
    assert_eq!(read("Length (ft-in)").length, Some(LengthUnit::Ft));
    assert_eq!(read("Largo (m)").length, Some(LengthUnit::M));
    assert_eq!(read("Size W x D x H").axes, [1, 0, 2]);
}

#[test]
fn titles_are_no_headings() {
    for text in [
        "BRACKWATER STEEL STOCKHOLDERS",
        "Deliver to: Kestrel Junction Stores, Yard Gate 2",
        "2026",
    ] {
        let heading = read(text);
        assert!(
            heading.known < 0.7 || heading.field.is_none(),
            "{text}: {heading:?}"
        );
    }
}
