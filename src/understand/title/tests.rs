//! Titles as suppliers write them: common practice, no source.

use super::*;

/// One cell a row, in the first column.
fn title(cells: &[&str]) -> Title {
    let rows: Vec<_> = cells
        .iter()
        .map(|cell| vec![(1, cell.to_string())])
        .collect();
    read(&rows)
}

#[test]
fn sender_and_receiver_side_by_side() {
    let cell = |column: u32, text: &str| (column, text.to_string());
    let found = read(&[
        vec![cell(1, "Consignor"), cell(5, "Consignee")],
        vec![
            cell(1, "Fennick Valve Works"),
            cell(5, "Kestrel Junction Stores"),
        ],
        vec![
            cell(1, "Delivery Note No."),
            cell(2, "FV-771"),
            cell(5, "Vehicle reg: AB12 CDE"),
        ],
    ]);
    assert_eq!(found.supplier.as_deref(), Some("Fennick Valve Works"));
    assert_eq!(found.delivery.as_deref(), Some("FV-771"));
    assert_eq!(found.vehicle.as_deref(), Some("AB12 CDE"));
}

#[test]
fn a_name_beside_the_documents_number_may_be_the_receivers() {
    let cell = |column: u32, text: &str| (column, text.to_string());
    let found = read(&[vec![
        cell(1, "PACKING LIST PL-5512"),
        cell(6, "Kestrel Junction Stores"),
    ]]);
    assert_eq!(found.supplier, None);
}

#[test]
fn a_name_may_hold_the_words_of_labels_and_stand_before_one() {
    let found = title(&["Consignor: Palisander Yard Services Vehicle: rigid 12"]);
    assert_eq!(found.supplier.as_deref(), Some("Palisander Yard Services"));
    let found = title(&["Ferriera Montecupo - Distinta colli 218"]);
    assert_eq!(found.supplier.as_deref(), Some("Ferriera Montecupo"));
    assert_eq!(found.delivery.as_deref(), Some("218"));
}

#[test]
fn a_label_nobody_knows_is_no_name() {
    for text in ["Wysyłka: Huta Brzozowa", "Vrachtbrief nr.", "Ladung 12"] {
        assert_eq!(title(&[text]).supplier, None, "{text}");
    }
    assert_eq!(
        title(&["Nadawca: Huta Brzozowa"]).supplier.as_deref(),
        Some("Huta Brzozowa")
    );
}

#[test]
fn words_for_number_belong_to_the_label() {
    for (text, number) in [
        ("Albarán nº: A-5512", "A-5512"),
        ("Bolla n. 1187", "1187"),
        ("Bordereau de livraison N° : LC-0045", "LC-0045"),
        ("Delivery note number: 88-3", "88-3"),
    ] {
        assert_eq!(title(&[text]).delivery.as_deref(), Some(number), "{text}");
    }
}

#[test]
fn labels_and_names() {
    let found = title(&[
        "Larkspur Bar & Beam",
        "Delivery Note DN-40718",
        "Deliver to: Kestrel Junction",
        "PO No: KJ-2207 Date: 14/09/2026 Trailer: TRL 318",
    ]);
    assert_eq!(found.supplier.as_deref(), Some("Larkspur Bar & Beam"));
    assert_eq!(found.delivery.as_deref(), Some("DN-40718"));
    assert_eq!(found.order.as_deref(), Some("KJ-2207"));
    assert_eq!(found.vehicle.as_deref(), Some("TRL 318"));
    assert_eq!(found.date, NaiveDate::from_ymd_opt(2026, 9, 14));
}

#[test]
fn a_label_and_its_value_in_two_cells() {
    let found = title(&[
        "Lieferschein Nr.",
        "LS-88213",
        "Lieferant",
        "Morgenrain Stahlhandel",
    ]);
    assert_eq!(found.delivery.as_deref(), Some("LS-88213"));
    assert_eq!(found.supplier.as_deref(), Some("Morgenrain Stahlhandel"));
}

#[test]
fn a_file_name_may_name_the_supplier() {
    let name = |stem: &str| supplier_in_file_name(stem);
    assert_eq!(
        name("larkspur-fork-steel-40271").as_deref(),
        Some("Larkspur Fork Steel")
    );
    assert_eq!(
        name("dunnock_vale packing list 12").as_deref(),
        Some("Dunnock Vale")
    );
    for stem in [
        "packing-list-4471",
        "delivery",
        "2026-11-25",
        "b",
        "steel 12",
    ] {
        assert_eq!(name(stem), None, "{stem}");
    }
}

#[test]
fn a_vehicle_has_a_number() {
    assert_eq!(
        title(&["JOB 2231 KESTREL JUNCTION WAGON SHED"]).vehicle,
        None
    );
}

#[test]
fn a_date_that_could_be_two_days_is_none() {
    assert_eq!(date("03/04/2026"), None);
    assert_eq!(date("2026-04-03"), NaiveDate::from_ymd_opt(2026, 4, 3));
}

#[test]
fn a_bracket_of_a_name_stays() {
    for (cell, supplier) in [
        ("Supplier: Dunnock Vale (Precast)", "Dunnock Vale (Precast)"),
        ("Supplier (Dunnock Vale)", "Dunnock Vale"),
        ("Supplier: Dunnock (Vale) Works).", "Dunnock (Vale) Works"),
    ] {
        assert_eq!(title(&[cell]).supplier.as_deref(), Some(supplier), "{cell}");
    }
}
