//! Web pages and the XML of 2003 under other names (HTML standard, 4.9 and 13.2; hazards 6, 7 and 13).

use crate::read::Merged;
use crate::read::testing::{read, refused, shown};

#[test]
fn tables_are_laid_out_as_a_browser_does() {
    for (page, expected) in [
        (
            "<html><table><tr><th>Qty</th><td>5,5</td></tr><tr></tr><tr><td>7</td></tr></table></html>",
            "A1='Qty B1='5,5 | A3='7",
        ),
        // Spans move the cells after them.
        (
            "<table><tr><td rowspan=2>1</td><td>a</td><td rowspan=\"2\">9</td></tr><tr><td>b</td></tr><tr><td>c</td></tr></table>",
            "A1='1 B1='a C1='9 | B2='b | A3='c",
        ),
        (
            "<table><tr><td colspan='3'>t</td><td>u</td></tr></table>",
            "A1='t D1='u",
        ),
        (
            "<table><tr><td rowspan=2 colspan=2>1</td><td>a</td></tr><tr><td>b</td></tr></table>",
            "A1='1 C1='a | C2='b",
        ),
        // A span ends with its table.
        (
            "<table><tr><td rowspan=9>1</td></tr></table><table><tr><td>2</td></tr></table>",
            "A1='1 | A2='2",
        ),
        // Ends that nobody wrote.
        (
            "<TABLE><TR><TD>a<TD>b<TR><TD>c</TABLE>",
            "A1='a B1='b | A2='c",
        ),
        ("<table><td>a</td><td>b</td></table>", "A1='a B1='b"),
        // Entities, breaks, tags and spaces inside cells.
        (
            "<table><tr><td>&Oslash;&nbsp;50 &lt;x&gt; &amp;amp; &#8211;&#x2013;&#150; &frac12;\" &bogus; &nbsp</td></tr></table>",
            "A1='Ø\u{a0}50 <x> &amp; ––– ½\" &bogus; \u{a0}",
        ),
        (
            "<table><tr><td>one<br>two<br/><b>three</b>\n   four</td><td><p>a</p><p>b</p></td></tr></table>",
            "A1='one~two~three four B1='a~b",
        ),
        (
            "<table><tr><td>a<!-- no <td>x --></td><td><script>if (1<2) '</td>'</script>b<style>td{}</style></td></tr></table>",
            "A1='a B1='b",
        ),
        (
            "<table><tr><td>&nbsp;</td><td title=\"a>b\">c</td><td>2 < 3</td></tr></table>",
            "B1='c C1='2 < 3",
        ),
        // A table inside a cell is text.
        (
            "<table><tr><td>a<table><tr><td>b</td><td>c</td></tr></table></td><td>d</td></tr></table>",
            "A1='a b c B1='d",
        ),
        // XHTML with a prefix of its own kind.
        (
            "<?xml version=\"1.0\"?><!DOCTYPE html><html xmlns=\"x\"><body><table><tr><td/><td>b</td></tr></table></body></html>",
            "B1='b",
        ),
        (
            "<table><tr style='display:none'><td>a</td></tr><tr hidden><td>b</td></tr><tr style=\"color:red\"><td>c</td></tr></table>",
            "-A1='a | -A2='b | A3='c",
        ),
    ] {
        assert_eq!(
            shown(&read("list.html", page.as_bytes())),
            expected,
            "{page}"
        );
    }
}

#[test]
fn spans_are_merged_blocks() {
    let file = read(
        "a.html",
        b"<table><tr><td rowspan=2>1<td colspan=2>2<tr><td>3</table>",
    );
    assert_eq!(
        file.sheets[0].merged,
        [
            Merged {
                top: 1,
                left: 1,
                bottom: 2,
                right: 1
            },
            Merged {
                top: 1,
                left: 2,
                bottom: 1,
                right: 3
            }
        ]
    );
    let huge =
        "<table><tr><td rowspan=99999999 colspan=99999999>1</td><td>2</td></tr></table>".repeat(50);
    assert_eq!(read("a.html", huge.as_bytes()).sheets[0].rows.len(), 50);
}

#[test]
fn the_page_says_its_encoding() {
    for (page, expected) in [
        (b"<html><meta charset=windows-1252><table><tr><td>Q.t\xE0</table>".to_vec(), "A1='Q.tà"),
        (b"<html><meta content=\"text/html; charset=iso-8859-2\"><table><tr><td>d\xB3ugo\xB6\xE6</table>".to_vec(), "A1='długość"),
        (b"<?xml version='1.0' encoding='shift_jis'?><html><table><tr><td>\x90\x94\x97\xCA</table>".to_vec(), "A1='数量"),
        // What it says is wrong: valid UTF-8 is UTF-8.
        ("<html><meta charset=windows-1252><table><tr><td>Länge</table>".as_bytes().to_vec(), "A1='Länge"),
        (b"\xEF\xBB\xBF  <html><table><tr><td>L\xC3\xA4nge</table>".to_vec(), "A1='Länge"),
        ("\u{FEFF}<html><table><tr><td>Länge</table>".encode_utf16().flat_map(u16::to_le_bytes).collect(), "A1='Länge"),
    ] {
        assert_eq!(shown(&read("list.html", &page)), expected);
    }
}

#[test]
fn the_name_does_not_matter_and_is_said() {
    let file = read(
        "list.xls",
        b"<html><h1>Packing list 7</h1><table><tr><td>Qty</td></tr></table><p>Thank you</p></html>",
    );
    assert_eq!(
        file.remarks,
        [
            "words outside the tables of the page were not read: \"Packing list 7 Thank you\"",
            "the name ends in .xls, the content is html, UTF-8: read as what it is"
        ]
    );
    assert_eq!(
        refused("list.xls", b"<html><body>Log in</body></html>"),
        "is a web page without a table"
    );
}

#[test]
fn a_page_with_its_parts_in_one_file() {
    let file = "MIME-Version: 1.0\r\nX: y\r\nContent-Type: multipart/related; boundary=\"b\"\r\n\r\nnot shown\r\n--b\r\nContent-Type: text/html; charset=us-ascii\r\n\r\n<html><frameset></frameset></html>\r\n--b\r\nContent-Location: x/sheet001.htm\r\nContent-Transfer-Encoding: quoted-printable\r\nContent-Type: text/html; charset=\"utf-8\"\r\n\r\n<table><tr><td width=3D64>L=C3=A4nge</td></tr></table>\r\n--b--\r\n";
    let file = read("list.xls", file.as_bytes());
    assert_eq!(shown(&file), "A1='Länge");
    assert_eq!(&*file.sheets[0].name, "");
    assert!(
        file.kind.starts_with("html with its parts"),
        "{}",
        file.kind
    );
}

#[test]
fn spreadsheet_xml_of_2003() {
    let file = r#"<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet" xmlns:ss="urn:schemas-microsoft-com:office:spreadsheet">
<Worksheet ss:Name="List"><Table ss:ExpandedRowCount="999999999"><Column ss:Index="2" ss:Hidden="1"/>
<Row><Cell><Data ss:Type="String">Qty &amp; more</Data></Cell><Cell ss:Index="4"><Data ss:Type="Number">2.5</Data><Comment><ss:Data>note</ss:Data></Comment></Cell></Row>
<Row ss:Index="4" ss:Hidden="1"><Cell ss:MergeAcross="1" ss:MergeDown="1"><Data ss:Type="DateTime">2026-01-02T00:00:00.000</Data></Cell><Cell><Data ss:Type="Boolean">1</Data></Cell></Row>
<Row><Cell><ss:Data ss:Type="String" xmlns="x"><B>bold</B> text</ss:Data></Cell><Cell><Data ss:Type="Error">#N/A</Data></Cell><Cell ss:Formula="=RC[-1]"/></Row>
</Table></Worksheet>
<Worksheet ss:Name="Old"><Table/><WorksheetOptions xmlns="urn:schemas-microsoft-com:office:excel"><Visible>SheetHidden</Visible></WorksheetOptions></Worksheet></Workbook>"#;
    let file = read("list.xls", file.as_bytes());
    assert_eq!(
        shown(&file),
        "A1='Qty & more D1=2.5 | -A4=@2026-01-02 C4=TRUE | A5='bold text B5=!#N/A C5==RC[-1] || "
    );
    assert_eq!(
        file.sheets[0].merged,
        [Merged {
            top: 4,
            left: 1,
            bottom: 5,
            right: 2
        }]
    );
    assert!(file.sheets[1].hidden);
}
