//! xls (MS-XLS, MS-CFB): what the reader of cells does not tell, and cells that would take memory out of proportion.

use crate::read::testing::xls::{columns, compound, label, number, product, record, row, workbook};
use crate::read::testing::{read, refused, shown};

#[test]
fn cells_hidden_rows_and_columns() {
    let file = read(
        "list.xls",
        &workbook(
            &[],
            &[
                columns(1, 1, true),
                columns(2, 2, false),
                row(2, false),
                row(3, true),
                label(2, 0, "Qty"),
                number(2, 1, 2.5),
                number(3, 0, 4.0),
                number(3, 2, 5.0),
            ],
        ),
    );
    assert_eq!(shown(&file), "A3='Qty B3=2.5 | -A4=4 C4=5");
    assert_eq!(file.sheets[0].hidden_columns, [2]);
    assert_eq!(&*file.sheets[0].name, "List");
    assert!(file.remarks.is_empty(), "{:?}", file.remarks);
}

#[test]
fn a_formula_with_a_stored_0_is_recalculated() {
    let file = read(
        "list.xls",
        &workbook(
            &[],
            &[
                number(7, 0, 9.0),
                number(7, 1, 926.2),
                product(7, 2, 0.0),
                product(7, 3, 77.0),
            ],
        ),
    );
    assert_eq!(shown(&file), "A8=9 B8=926.2 C8=8335.8 D8=77");
    assert_eq!(
        file.remarks,
        ["List!C8: recalculated as 8,335.8 (=A8*B8 had a stored 0)"]
    );
}

#[test]
fn far_cells_and_lying_dimensions_take_no_memory() {
    let lie = record(
        0x0200,
        &[0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF, 0, 0, 0xFF, 0xFF, 0, 0],
    );
    // The text that a formula gave goes with its cell.
    let far_text = [
        product(65_535, 65_535, f64::from_bits(0xFFFF_0000_0000_0000)),
        record(0x0207, &[1, 0, 0, b'z']),
    ]
    .concat();
    let cells = [
        lie,
        label(0, 0, "Qty"),
        number(1, 0, 4.0),
        number(65_535, 255, 1.0),
        far_text,
    ];
    let file = read("list.xls", &workbook(&[], &cells));
    assert_eq!(shown(&file), "A1='Qty | A2=4");
    assert_eq!(
        file.remarks,
        ["List!IV65536: 2 cells were left out, too far from the list"]
    );
}

#[test]
fn what_is_no_readable_workbook_is_refused() {
    assert_eq!(
        refused("a.xls", &workbook(&[record(0x002F, &[1, 0, 0, 0])], &[])),
        "is encrypted"
    );
    assert_eq!(
        refused("a.xlsx", &compound("EncryptedPackage", b"x")),
        "is encrypted"
    );
    assert!(refused("a.doc", &compound("WordDocument", b"x")).starts_with("is not a workbook"));
    // A chain of sectors that goes in a circle: the table of contents names itself as its next sector.
    let mut circle = workbook(&[], &[number(0, 0, 1.0)]);
    circle[512 + 4..512 + 8].copy_from_slice(&1u32.to_le_bytes());
    assert!(refused("a.xls", &circle).contains("table of contents is damaged"));
    let file = read("list.xlsx", &workbook(&[], &[number(0, 0, 1.0)]));
    assert_eq!(
        file.remarks,
        ["the name ends in .xlsx, the content is workbook (xls): read as what it is"]
    );
}
