//! xlsx: what careless writers leave out or get wrong (ECMA-376 part 1, chapter 18, says what is optional).

use crate::read::testing::{BOOK, ROOT, read, shown, xlsx, zip};
use crate::read::{Merged, RawFile};

const STRINGS: &str = "<sst><si><t>Qty</t></si><si/><si><t/></si><si><r><t>Wei</t></r><r><t>ght</t></r><rPh><t>x</t></rPh></si></sst>";
const STYLES: &str = r#"<styleSheet><numFmts><numFmt numFmtId="164" formatCode="0.0&quot; kg&quot;"/></numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/></cellXfs></styleSheet>"#;

fn sheet(inside: &str) -> RawFile {
    read(
        "list.xlsx",
        &xlsx(&format!("<worksheet>{inside}</worksheet>"), STRINGS, STYLES),
    )
}

#[test]
fn cells_are_read_as_they_stand() {
    for (inside, expected) in [
        // Hazard 1: the declared range is a hint that is not taken.
        (
            r#"<dimension ref="A0:C9"/><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>"#,
            "A1=1",
        ),
        (
            r#"<dimension ref="1:10901"/><sheetData><row r="2"><c r="B2"><v>1</v></c></row></sheetData>"#,
            "B2=1",
        ),
        (
            r#"<dimension ref="A1"/><sheetData><row r="1"><c r="C1"><v>1</v></c></row></sheetData>"#,
            "C1=1",
        ),
        (
            r#"<dimension/><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>"#,
            "A1=1",
        ),
        // Hazard 4: rows and columns keep their numbers.
        (
            r#"<sheetData><row r="3"><c r="B3" t="s"><v>0</v></c></row><row r="5"><c r="B5"><v>4</v></c></row></sheetData>"#,
            "B3='Qty | B5=4",
        ),
        // Hazard 5: cells and rows without an address, mixed with some that have one.
        (
            r#"<sheetData><row><c t="inlineStr"><is><t>Qty</t></is></c><c><v>4</v></c></row><row/><row><c/><c><v>5</v></c></row></sheetData>"#,
            "A1='Qty B1=4 | B3=5",
        ),
        (
            r#"<sheetData><row r="7"><c><v>1</v></c><c r="D7"><v>2</v></c><c><v>3</v></c></row><row><c><v>4</v></c></row></sheetData>"#,
            "A7=1 D7=2 E7=3 | A8=4",
        ),
        (r#"<sheetData><c><v>1</v></c></sheetData>"#, "A1=1"),
        // Rows out of order, one place twice: the last counts.
        (
            r#"<sheetData><row r="2"><c r="B2"><v>2</v></c><c r="A2"><v>1</v></c></row><row r="1"><c r="A1"><v>0</v></c></row><row r="2"><c r="A2"><v>9</v></c></row></sheetData>"#,
            "A1=0 | A2=9 B2=2",
        ),
        // Empty shared texts do not shift those after them; phonetic guides are not the text.
        (
            r#"<sheetData><row r="1"><c r="A1" t="s"><v>3</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="s"><v>99</v></c></row></sheetData>"#,
            "A1='Weight C1=!a text that the file does not hold",
        ),
        // Prefixed tags.
        (
            r#"<x:sheetData><x:row r="1"><x:c r="A1" t="inlineStr"><x:is><x:t>Qty</x:t></x:is></x:c></x:row></x:sheetData>"#,
            "A1='Qty",
        ),
        // Kinds of cells; an error that only one language knows; a number that is none.
        (
            r#"<sheetData><row r="1"><c r="A1" t="b"><v>1</v></c><c r="B1" t="e"><v>#BEZUG!</v></c><c r="C1" t="n"><v>4,5</v></c><c r="D1" t="str"><v>a_x000A_b</v></c><c r="E1" t="zz"><v>q</v></c></row></sheetData>"#,
            "A1=TRUE B1=!#BEZUG! C1='4,5 D1='a~b E1='q",
        ),
        (
            r#"<sheetData><row r="1"><c r="A1" s="1"><v>46024</v></c><c r="B1" t="d"><v>2026-01-02</v></c><c r="C1" s="77"><v>5</v></c></row></sheetData>"#,
            "A1=@2026-01-02 B1=@2026-01-02 C1=5",
        ),
        // Spaces that belong to the text, and those of the file's layout.
        (
            r#"<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t xml:space="preserve">  a</t></is></c><c r="B1" t="inlineStr"><is><t>  b </t></is></c><c r="C1" t="inlineStr"><is><t>&lt;3 &#233;&amp;</t></is></c></row></sheetData>"#,
            "A1='  a B1='b C1='<3 é&",
        ),
        // Values that the library would drop or take for others.
        (
            r#"<sheetData><row r="1"><c r="A1"><v> 5 </v></c><c r="B1"><v>&#49;2</v></c><c r="C1" t="str"><v><![CDATA[x]]></v></c><c r="D1" t="inlineStr"><v>y</v></c></row></sheetData>"#,
            "A1=5 B1=12 C1='x D1='y",
        ),
        // Unknown things inside a cell.
        (
            r#"<sheetData><row r="1"><c r="A1"><v>1</v><extLst><ext uri="x"/></extLst></c></row></sheetData>"#,
            "A1=1",
        ),
        ("<sheetData/>", ""),
    ] {
        assert_eq!(shown(&sheet(inside)), expected, "{inside}");
    }
}

#[test]
fn hidden_rows_and_columns_are_marked() {
    let file = sheet(
        r#"<cols><col min="2" max="2" hidden="1"/><col min="4" max="16384" hidden="true"/><col min="3" max="3" width="0"/></cols><sheetData>
        <row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row>
        <row r="2" hidden="1"><c r="A2"><v>3</v></c><c r="C2"><v>3</v></c></row>
        <row r="3" ht="0" customHeight="1"><c r="A3"><v>4</v></c></row>
        <row r="4" collapsed="1"><c r="A4"><v>5</v></c></row></sheetData>"#,
    );
    assert_eq!(shown(&file), "A1=1 B1=2 | -A2=3 C2=3 | -A3=4 | A4=5");
    assert_eq!(file.sheets[0].hidden_columns, [2, 3]);
}

#[test]
fn merged_blocks_keep_their_corners() {
    let file = sheet(
        r#"<sheetData><row r="4"><c r="J4"><v>601</v></c></row></sheetData><mergeCells><mergeCell ref="J4:J6"/><mergeCell ref="A1:A1"/><mergeCell ref="x"/></mergeCells>"#,
    );
    assert_eq!(
        file.sheets[0].merged,
        [Merged {
            top: 4,
            left: 10,
            bottom: 6,
            right: 10
        }]
    );
}

/// Hazard 2: one cell in the last column and row.
#[test]
fn a_far_cell_is_left_out_and_said() {
    let file = sheet(
        r#"<sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>"#,
    );
    assert_eq!(shown(&file), "A1=1");
    assert!(
        file.remarks[0].starts_with("List!XFD1048576: a cell was left out"),
        "{:?}",
        file.remarks
    );
}

/// Hazard 14: C8 = 9, G8 = 926.2, product 8,335.8.
#[test]
fn formulas_without_result_are_recalculated() {
    let of = |cells: &str| {
        let parts = r#"<c r="C8"><v>9</v></c><c r="D8" t="inlineStr"><is><t>x</t></is></c><c r="G8"><v>926.2</v></c>"#;
        sheet(&format!(
            r#"<sheetData><row r="8">{parts}{cells}</row></sheetData>"#
        ))
    };
    for (cell, expected, remark) in [
        (
            r#"<c r="H8"><f>C8*G8</f><v>0</v></c>"#,
            "8335.8",
            "List!H8: recalculated as 8,335.8 (=C8*G8 had a stored 0)",
        ),
        (
            r#"<c r="H8"><f>C8*G8</f></c>"#,
            "8335.8",
            "List!H8: recalculated as 8,335.8 (=C8*G8 had no stored result)",
        ),
        (
            r#"<c r="H8"><f>C8*G8</f><v></v></c>"#,
            "8335.8",
            "List!H8: recalculated as 8,335.8 (=C8*G8 had no stored result)",
        ),
        (r#"<c r="H8"><f>C8*G8</f><v>7</v></c>"#, "7", ""),
        (
            r#"<c r="H8"><f>SUM(C8:G8)</f></c>"#,
            "935.2",
            "List!H8: recalculated as 935.2 (=SUM(C8:G8) had no stored result)",
        ),
        (
            r#"<c r="H8"><f>(C8+1)*$G$8/2</f></c>"#,
            "4631",
            "List!H8: recalculated as 4,631 (=(C8+1)*$G$8/2 had no stored result)",
        ),
        (
            r#"<c r="H8"><f>C8</f></c>"#,
            "9",
            "List!H8: recalculated as 9 (=C8 had no stored result)",
        ),
        (r#"<c r="H8"><f>C8-9</f><v>0</v></c>"#, "0", ""),
        (r#"<c r="H8"><f>C8*F8</f><v>0</v></c>"#, "=C8*F8", ""),
        (r#"<c r="H8"><f>C8*D8</f></c>"#, "=C8*D8", ""),
        (r#"<c r="H8"><f>C8/(C8-9)</f></c>"#, "=C8/(C8-9)", ""),
        (r#"<c r="H8"><f>Other!C8</f></c>"#, "=Other!C8", ""),
        (r#"<c r="H8"><f>H8+1</f></c>"#, "=H8+1", ""),
        (
            r#"<c r="H8" t="str"><f>IF(C8=9,"","x")</f><v></v></c>"#,
            "",
            "",
        ),
        (
            r#"<c r="H8" t="e"><f>C8*Q1</f><v>#REF!</v></c>"#,
            "#REF!",
            "",
        ),
    ] {
        let file = of(cell);
        let found = file.sheets[0]
            .row(8)
            .and_then(|row| row.cell(8))
            .map(|cell| cell.value.text())
            .unwrap_or_default();
        assert_eq!(found, expected, "{cell}");
        assert_eq!(file.remarks.join(";"), remark, "{cell}");
    }
}

#[test]
fn formulas_may_stand_on_one_another() {
    let up: String = (2..=2_000)
        .map(|row| {
            format!(
                r#"<row r="{row}"><c r="A{row}"><f>A{}+1</f></c></row>"#,
                row - 1
            )
        })
        .collect();
    let file = sheet(&format!(
        r#"<sheetData><row r="1"><c r="A1"><v>1</v></c></row>{up}</sheetData>"#
    ));
    assert_eq!(
        file.sheets[0]
            .row(2_000)
            .map(|row| row.cells[0].value.text()),
        Some("2000".to_string())
    );
    let down: String = (1..2_000)
        .map(|row| {
            format!(
                r#"<row r="{row}"><c r="A{row}"><f>A{}+1</f></c></row>"#,
                row + 1
            )
        })
        .collect();
    let file = sheet(&format!(
        r#"<sheetData>{down}<row r="2000"><c r="A2000"><v>1</v></c></row></sheetData>"#
    ));
    assert_eq!(
        file.sheets[0].row(1).map(|row| row.cells[0].value.text()),
        Some("2000".to_string())
    );
    assert!(file.remarks.len() <= 51, "{} remarks", file.remarks.len());
}

#[test]
fn a_shared_formula_moves_with_its_cell() {
    let file = sheet(
        r#"<sheetData><row r="1"><c r="A1"><v>2</v></c><c r="B1"><v>3</v></c><c r="C1"><f t="shared" ref="C1:C2" si="0">A1*B1</f></c></row>
        <row r="2"><c r="A2"><v>4</v></c><c r="B2"><v>5</v></c><c r="C2"><f t="shared" si="0"/></c></row></sheetData>"#,
    );
    assert_eq!(shown(&file), "A1=2 B1=3 C1=6 | A2=4 B2=5 C2=20");
}

#[test]
fn a_unit_that_only_the_format_shows_is_said() {
    let file = sheet(
        r#"<sheetData><row r="1"><c r="A1" s="2"><v>1</v></c><c r="B1" s="2"><v>2</v></c></row></sheetData>"#,
    );
    assert!(
        file.remarks[0].starts_with("List!A1 and 1 more: only the number format shows \"kg\""),
        "{:?}",
        file.remarks
    );
}

#[test]
fn parts_are_found_whatever_they_are_called() {
    let cell = br#"<worksheet><sheetData><row><c><v>1</v></c></row></sheetData></worksheet>"#;
    let relations = r#"<Relationships><Relationship Id="r1" Type="urn:x/worksheet" Target="/data/List One.xml"/></Relationships>"#;
    let book = BOOK.to_string();
    for parts in [
        // Absolute targets, other names, capitals.
        vec![
            (
                "_rels/.rels",
                ROOT.replace("xl/workbook.xml", "/Main/Book.xml"),
            ),
            ("main/book.xml", book.clone()),
            ("main/_rels/book.xml.rels", relations.to_string()),
            (
                "data/list one.xml",
                String::from_utf8_lossy(cell).to_string(),
            ),
        ],
        // No relations at all.
        vec![
            ("xl/workbook.xml", book),
            (
                "xl/worksheets/sheet1.xml",
                String::from_utf8_lossy(cell).to_string(),
            ),
        ],
    ] {
        let parts: Vec<(&str, &[u8])> = parts
            .iter()
            .map(|(name, text)| (*name, text.as_bytes()))
            .collect();
        assert_eq!(shown(&read("list.xlsx", &zip(&parts))), "A1=1");
    }
}

#[test]
fn hidden_sheets_and_chart_sheets_are_told() {
    let book = r#"<workbook><workbookPr date1904="1"/><sheets><sheet name="A" r:id="r1"/><sheet name="B" state="hidden" r:id="r2"/><sheet name="C" r:id="r3"/></sheets></workbook>"#;
    let relations = r#"<Relationships><Relationship Id="r1" Type="urn:x/worksheet" Target="worksheets/a.xml"/><Relationship Id="r2" Type="urn:x/worksheet" Target="worksheets/b.xml"/><Relationship Id="r3" Type="urn:x/chartsheet" Target="c.xml"/></Relationships>"#;
    let cell = br#"<worksheet><sheetData><row><c s="0"><v>1</v></c></row></sheetData></worksheet>"#;
    let styles = br#"<styleSheet><cellXfs><xf numFmtId="14"/></cellXfs></styleSheet>"#;
    let file = read(
        "list.xlsx",
        &zip(&[
            ("_rels/.rels", ROOT.as_bytes()),
            ("xl/workbook.xml", book.as_bytes()),
            ("xl/_rels/workbook.xml.rels", relations.as_bytes()),
            ("xl/styles.xml", styles),
            ("xl/worksheets/a.xml", cell),
            ("xl/worksheets/b.xml", b"<worksheet/>"),
            ("xl/media/image1.png", b"x"),
        ]),
    );
    assert_eq!(
        file.sheets
            .iter()
            .map(|sheet| sheet.hidden)
            .collect::<Vec<_>>(),
        [false, true]
    );
    // Day 1 counted from 1904.
    assert_eq!(shown(&file), "A1=@1904-01-02 || ");
    assert_eq!(
        file.remarks,
        ["sheet \"C\" holds no cells (a chart or macro sheet) and was not read"]
    );
}
