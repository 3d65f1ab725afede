//! Text files: encodings, delimiters, quoting faults (hazards 8 to 11).

use crate::read::testing::{read, refused, shown};
use encoding_rs::{GBK, SHIFT_JIS, WINDOWS_1250, WINDOWS_1252};

#[test]
fn records_keep_their_numbers_and_cells_their_text() {
    for (text, expected) in [
        // Hazard 8: nothing is taken for a date or a number.
        (
            "Part,Qty\nS-DGF-36.2,4\n00417,1e5\n",
            "A1='Part B1='Qty | A2='S-DGF-36.2 B2='4 | A3='00417 B3='1e5",
        ),
        // Hazard 9: the lines after an open mark are not lost.
        (
            "a,b,c\n1,\"2\n3,4,5\n",
            "A1='a B1='b C1='c | A2='1 B2='\"2 | A3='3 B3='4 C3='5",
        ),
        // Hazard 10: a byte order mark before a quoted heading.
        (
            "\u{FEFF}\"Item\",\"Weight (kg)\"\n1,2\n",
            "A1='Item B1='Weight (kg) | A2='1 B2='2",
        ),
        // Hazard 11: rows of another width are kept.
        ("c0\nv0\na;b\n", "A1='c0 | A2='v0 | A3='a;b"),
        (
            "Title\n\n\na;b;c\n1;2;3;\n4;5\n",
            "A1='Title | A4='a B4='b C4='c | A5='1 B5='2 C5='3 | A6='4 B6='5",
        ),
        (
            "sep=;\na;b\n1,5;2\n",
            "A1='sep=; | A2='a B2='b | A3='1,5 B3='2",
        ),
        ("\"sep=|\"\na|b\n", "A1='\"sep=|\" | A2='a B2='b"),
        // Line ends of all kinds, an end mark of old systems.
        (
            "a,b\r1,2\r\r3,4\r",
            "A1='a B1='b | A2='1 B2='2 | A4='3 B4='4",
        ),
        ("a,b\r\n1,2\r\n\u{1A}", "A1='a B1='b | A2='1 B2='2"),
        ("a\tb\n6\" PIPE\t2\n", "A1='a B1='b | A2='6\" PIPE B2='2"),
        (
            "Item,\"Length\n(mm)\"\n1,\"2\"\n",
            "A1='Item B1='Length~(mm) | A2='1 B2='2",
        ),
        (
            "Spedizione 7, del 3 maggio, Milano\nPos;Q.tà;kg\n1;4;12,5\n2;3;7,25\n",
            "A1='Spedizione 7, del 3 maggio, Milano | A2='Pos B2='Q.tà C2='kg | A3='1 B3='4 C3='12,5 | A4='2 B4='3 C4='7,25",
        ),
        ("one column\nonly\n", "A1='one column | A2='only"),
    ] {
        assert_eq!(
            shown(&read("list.csv", text.as_bytes())),
            expected,
            "{text:?}"
        );
    }
}

#[test]
fn encodings_are_told_by_the_bytes() {
    let polish = "Lp.;Nazwa;Materiał;Ilość;Długość mm;Masa brutto kg\n1;Blacha gorącowalcowana;S235JR;12;2000;1884\n2;Pręt okrągły;S355;40;6000;3700\n";
    let japanese = "番号,品名,寸法,数量,単重,重量\n1,鋼板,9x1524x3048,4,328.1,1312.4\n";
    let chinese = "序号,品名,规格,数量,毛重\n1,钢板,10x1500x6000,4,2826\n";
    let german = "Pos;Länge;Stück\n1;6000;4\n";
    let wide = |text: &str, mark: bool, big: bool| -> Vec<u8> {
        let mark = if mark { "\u{FEFF}" } else { "" };
        let bytes = if big {
            u16::to_be_bytes
        } else {
            u16::to_le_bytes
        };
        format!("{mark}{text}")
            .encode_utf16()
            .flat_map(bytes)
            .collect()
    };
    for (name, content, text) in [
        (
            "windows-1250",
            WINDOWS_1250.encode(polish).0.to_vec(),
            polish,
        ),
        ("Shift_JIS", SHIFT_JIS.encode(japanese).0.to_vec(), japanese),
        ("GBK", GBK.encode(chinese).0.to_vec(), chinese),
        (
            "windows-1252",
            WINDOWS_1252.encode(german).0.to_vec(),
            german,
        ),
        ("UTF-8", polish.as_bytes().to_vec(), polish),
        ("UTF-16LE", wide(german, true, false), german),
        ("UTF-16BE", wide(german, true, true), german),
        ("UTF-16LE", wide(german, false, false), german),
        ("UTF-16BE", wide(german, false, true), german),
        ("UTF-16LE", wide(chinese, false, false), chinese),
        ("UTF-16BE", wide(japanese, false, true), japanese),
    ] {
        let file = read("list.csv", &content);
        assert!(
            file.kind.starts_with(&format!("text, {name}, ")),
            "{name}: {}",
            file.kind
        );
        let first = text
            .lines()
            .nth(1)
            .unwrap()
            .split([',', ';'])
            .nth(1)
            .unwrap();
        assert_eq!(
            file.sheets[0].rows[1].cells[1].value.text(),
            first,
            "{name}"
        );
    }
}

#[test]
fn faults_are_said_with_their_row() {
    let file = read(
        "list.csv",
        b"a,b,c\n1,2,3\n\"DRAIN GRATE 24 IN,4,10\nPIPE,2,5\n",
    );
    assert_eq!(file.remarks.len(), 1);
    assert!(
        file.remarks[0].starts_with("row 3: a quotation mark is opened and never closed"),
        "{:?}",
        file.remarks
    );
    let many = "\"x,1,2\ny,3,4\n".repeat(100);
    assert_eq!(read("list.csv", many.as_bytes()).remarks.len(), 51);
}

#[test]
fn misnamed_text_is_read_and_binary_junk_refused() {
    let file = read("list.xls", b"Qty\tWeight\n4\t12,5\n");
    assert_eq!(shown(&file), "A1='Qty B1='Weight | A2='4 B2='12,5");
    assert_eq!(
        file.remarks,
        ["the name ends in .xls, the content is text, UTF-8, tabs: read as what it is"]
    );
    assert_eq!(
        refused(
            "list.csv",
            &[0x01, 0x02, 0xFE, 0x03, 0x07, 0x00, 0x05, 0x11].repeat(40)
        ),
        "is neither a workbook nor text"
    );
}
