//! No bytes make the stage panic or run on: neither junk nor small faults in files that are otherwise sound.

use crate::read::testing::xls::{label, number, product, row, workbook};
use crate::read::testing::{ods, xlsx, zip};
use crate::read::{Row, bytes};
use proptest::prelude::*;

/// What always holds of a file that was read: rows and cells in order, none twice, no blank cell.
fn holds_together(name: &str, content: &[u8]) {
    let Ok(file) = bytes(name, content) else {
        return;
    };
    for sheet in &file.sheets {
        assert!(
            sheet
                .rows
                .is_sorted_by(|one, next| one.number < next.number),
            "rows of {name}"
        );
        let in_order = |row: &Row| {
            row.number > 0
                && !row.cells.is_empty()
                && row.cells.is_sorted_by(|one, next| one.column < next.column)
        };
        assert!(sheet.rows.iter().all(in_order), "cells of {name}");
        assert!(
            sheet
                .rows
                .iter()
                .flat_map(|row| &row.cells)
                .all(|cell| cell.column > 0 && !cell.value.text().is_empty())
        );
    }
}

fn samples() -> Vec<Vec<u8>> {
    let sheet = r#"<worksheet><dimension ref="A1:C2"/><cols><col min="2" max="3" hidden="1"/></cols><sheetData><row r="1" hidden="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><v>46024</v></c></row><row><c t="inlineStr"><is><t>x</t></is></c><c><f>A1*B1</f><v>0</v></c><c><f t="shared" si="0" ref="C2:C3">SUM(A1:B2)</f></c></row><row><c r="C3"><f t="shared" si="0"/></c></row></sheetData><mergeCells><mergeCell ref="A1:A2"/></mergeCells></worksheet>"#;
    let content = r#"<table:table-column table:visibility="collapse"/><table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="1"/><table:table-cell table:formula="of:=SUM([.A1:.B1])"/></table:table-row>"#;
    vec![
        xlsx(sheet, "<sst><si><t>Qty</t></si></sst>", "<styleSheet><cellXfs><xf/><xf numFmtId=\"14\"/></cellXfs></styleSheet>"),
        // The parts of a zip file are packed: faults in the XML itself are tried on these two.
        sheet.as_bytes().to_vec(),
        format!("<?xml version=\"1.0\"?><office:document><table:table>{content}</table:table></office:document>").into_bytes(),
        ods(content),
        workbook(&[], &[row(0, true), label(0, 0, "Qty"), number(1, 0, 2.0), number(1, 1, 3.0), product(1, 2, 0.0)]),
        b"<html><table><tr><td rowspan=2 colspan='2' style=\"display:none\">a&nbsp;&#65;<br><b>b</td></tr><tr><td>c</table></html>".to_vec(),
        br#"<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"><Worksheet ss:Name="A"><Table><Row ss:Index="2"><Cell ss:MergeDown="1"><Data ss:Type="Number">1</Data></Cell></Row></Table></Worksheet></Workbook>"#.to_vec(),
        b"MIME-Version: 1.0\nContent-Type: multipart/related; boundary=b\n\n--b\nContent-Type: text/html\nContent-Transfer-Encoding: quoted-printable\n\n<table><tr><td>=C3=A9</table>\n--b--\n".to_vec(),
        b"sep=;\na;\"b\nc\";d\n1;2,5;\"x\n\n3;4;5\n".to_vec(),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(content in prop::collection::vec(any::<u8>(), 0..600)) {
        holds_together("a.csv", &content);
    }

    #[test]
    fn any_text(content in "[a-c0-9;,\t\"\n\r |<>&=/]{0,200}") {
        holds_together("a.csv", content.as_bytes());
        holds_together("a.html", format!("<table>{content}").as_bytes());
    }

    #[test]
    fn small_faults(which in 0usize..9, faults in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0u8..3), 1..6)) {
        let mut content = samples().swap_remove(which);
        for (at, byte, kind) in faults {
            let at = at.index(content.len());
            match kind {
                0 => content[at] = byte,
                1 => drop(content.remove(at)),
                _ => content.insert(at, byte),
            }
            if content.is_empty() {
                break;
            }
        }
        if which == 1 {
            let sheet = String::from_utf8_lossy(&content).to_string();
            holds_together("a.xlsx", &xlsx(&sheet, "<sst/>", "<styleSheet/>"));
            holds_together("a.ods", &zip(&[("content.xml", content.as_slice())]));
        }
        holds_together("a", &content);
    }
}
