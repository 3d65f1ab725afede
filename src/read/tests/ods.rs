//! OpenDocument spreadsheets (OpenDocument 1.2 part 1, chapters 9 and 19).

use crate::read::Merged;
use crate::read::testing::{ods, read, refused, shown, zip};

#[test]
fn tables_are_laid_out() {
    for (table, expected) in [
        (
            r#"<table:table-row><table:table-cell office:value-type="float" office:value="2.5"><text:p>2,5</text:p></table:table-cell></table:table-row>"#,
            "A1=2.5",
        ),
        // Two equal lines are two lines.
        (
            r#"<table:table-row table:number-rows-repeated="2"><table:table-cell><text:p>Angle</text:p></table:table-cell></table:table-row>"#,
            "A1='Angle | A2='Angle",
        ),
        (
            r#"<table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="9"/></table:table-row><table:table-row><table:table-cell table:number-columns-repeated="2"/><table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="1"/></table:table-row>"#,
            "C4=1 D4=1",
        ),
        // An empty tail is nothing; a lone cell in the last row keeps its number.
        (
            r#"<table:table-row table:number-rows-repeated="1048575"><table:table-cell table:number-columns-repeated="16384"/></table:table-row><table:table-row><table:table-cell><text:p>x</text:p></table:table-cell></table:table-row>"#,
            "A1048576='x",
        ),
        (
            r#"<table:table-row><table:table-cell office:value-type="string"><text:p>a<text:s text:c="2"/>b</text:p><text:p>c<text:line-break/>d</text:p><office:annotation><text:p>note</text:p></office:annotation></table:table-cell></table:table-row>"#,
            "A1='a  b~c~d",
        ),
        (
            r#"<table:table-row><table:table-cell office:value-type="date" office:date-value="2026-01-02"/><table:table-cell office:value-type="boolean" office:boolean-value="true"/><table:table-cell office:value-type="percentage" office:value="0.1"/></table:table-row>"#,
            "A1=@2026-01-02 B1=TRUE C1=0.1",
        ),
        // Formulas: with result, with an error, without result.
        (
            r#"<table:table-row><table:table-cell office:value-type="float" office:value="4"/><table:table-cell table:formula="of:=[.A1]*2" office:value-type="float" office:value="8"/><table:table-cell table:formula="of:=[.A1]*2.5"/><table:table-cell table:formula="of:=[.Z9]" office:value-type="string" office:string-value=""><text:p>#REF!</text:p></table:table-cell></table:table-row>"#,
            "A1=4 B1=8 C1=10 D1=!#REF!",
        ),
        (
            "<table:table-header-rows><table:table-row><table:table-cell><text:p>Qty</text:p></table:table-cell></table:table-row></table:table-header-rows>",
            "A1='Qty",
        ),
        (
            r#"<table:shapes><draw:frame><table:table><table:table-row><table:table-cell><text:p>no</text:p></table:table-cell></table:table-row></table:table></draw:frame></table:shapes><table:table-row><table:table-cell><text:p>yes</text:p></table:table-cell></table:table-row>"#,
            "A1='yes",
        ),
    ] {
        assert_eq!(shown(&read("list.ods", &ods(table))), expected, "{table}");
    }
}

#[test]
fn hidden_and_merged_is_marked() {
    let file = read(
        "list.ods",
        &ods(
            r#"<table:table-column table:number-columns-repeated="2"/><table:table-column table:visibility="collapse"/><table:table-row table:visibility="filter"><table:table-cell table:number-rows-spanned="2"><text:p>a</text:p></table:table-cell><table:table-cell/><table:table-cell><text:p>b</text:p></table:table-cell></table:table-row><table:table-row><table:covered-table-cell><text:p>under</text:p></table:covered-table-cell><table:table-cell><text:p>c</text:p></table:table-cell></table:table-row>"#,
        ),
    );
    assert_eq!(shown(&file), "-A1='a C1='b | B2='c");
    assert_eq!(file.sheets[0].hidden_columns, [3]);
    assert_eq!(
        file.sheets[0].merged,
        [Merged {
            top: 1,
            left: 1,
            bottom: 2,
            right: 1
        }]
    );
}

#[test]
fn counts_in_the_file_take_no_memory() {
    let file = read(
        "list.ods",
        &ods(
            r#"<table:table-row table:number-rows-repeated="4000000000"><table:table-cell table:number-columns-repeated="2000000000"><text:p>x</text:p></table:table-cell></table:table-row>"#,
        ),
    );
    assert_eq!(file.sheets[0].rows.len(), 10_000);
    assert_eq!(file.sheets[0].rows[0].cells.len(), 1_024);
    assert_eq!(file.remarks.len(), 2, "{:?}", file.remarks);
}

#[test]
fn hidden_sheets_flat_files_and_passwords_are_told() {
    let flat = r#"<?xml version="1.0"?><office:document><office:automatic-styles><style:style style:name="ta1"><style:table-properties table:display="false"/></style:style></office:automatic-styles><office:body><table:table table:name="A" table:style-name="ta1"/><table:table table:name="B"><table:table-row><table:table-cell><text:p>x</text:p></table:table-cell></table:table-row></table:table></office:body></office:document>"#;
    let file = read("list.fods", flat.as_bytes());
    assert_eq!(shown(&file), " || A1='x");
    assert!(file.sheets[0].hidden && !file.sheets[1].hidden);
    let manifest = b"<manifest:manifest><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>";
    assert_eq!(
        refused(
            "list.ods",
            &zip(&[
                ("content.xml", b"junk"),
                ("META-INF/manifest.xml", manifest)
            ])
        ),
        "is encrypted"
    );
}
