//! Lift cards and Questions of a list of four hundred lines with long texts, other scripts, empty cells and one slip on many lines.

use crate::helper::{audit, cell, records, si};
use calamine::{Data, Reader, Xlsx};
use dockheft::report::workbook;
use serde_json::Value;
use std::collections::BTreeSet;
use std::io::Cursor;

const LINES: u32 = 400;
/// Row of the first line of goods.
const FIRST: u32 = 2;
/// Column of the declared weight.
const WEIGHT: &str = "G";
const REGISTER: &str = "Truck,Capacity (kg),Load centre (mm)\nSmall,1500,600\nLarge,5000,600\n";

/// Steel plates; of each twenty lines one is declared in pounds, one not at all, one without its sizes, one too heavy for all.
fn list() -> String {
    let texts = [
        "Steel plate".to_string(),
        format!("Steel plate {}", "with marked edges ".repeat(20)),
        "Лист стальной steel plate".to_string(),
        "Πλάκα χάλυβα steel plate".to_string(),
        "熱間圧延鋼板 steel plate".to_string(),
        "صفيحة فولاذ steel plate".to_string(),
        "Ste\u{301}el pla\u{308}te".to_string(),
    ];
    let mut list =
        "Item,Description,Qty,Length (mm),Width (mm),Thickness (mm),Weight (kg)\n".to_string();
    for at in 0..LINES {
        let (long, thick) = (1_000 + 5 * at, [6, 8, 10, 12][at as usize % 4]);
        let text = cell(&texts[at as usize % texts.len()]);
        // Steel: 7,850 kg/m3 (EN 1991-1-1, table A.4: 77 to 78.5 kN/m3).
        let kg = |thick: u32| f64::from(long) * f64::from(thick) * 7.85e-3;
        list += &match at % 20 {
            3 => format!(
                "P{at},{text},1,{long},1000,{thick},{:.1}\n",
                kg(thick) / 0.453_592_37
            ),
            7 => format!("P{at},{text},1,{long},1000,{thick},\n"),
            11 => format!("P{at},,1,,,,{:.1}\n", kg(thick)),
            15 => format!("P{at},{text},1,{long},1000,900,{:.1}\n", kg(900)),
            _ => format!("P{at},{text},1,{long},1000,{thick},{:.1}\n", kg(thick)),
        };
    }
    list
}

/// Rows of a sheet, its heading left out.
fn rows(bytes: &[u8], name: &str) -> Vec<Vec<Data>> {
    let mut book = Xlsx::new(Cursor::new(bytes.to_vec())).expect("a workbook");
    let range = book.worksheet_range(name).expect("the sheet");
    range.rows().skip(1).map(<[Data]>::to_vec).collect()
}

/// Rows of the list whose line has a truck and no `stop` on it (README, "records").
fn may_be_lifted(lines: &[Value]) -> BTreeSet<u64> {
    let stops = |line: &Value| {
        let findings = line["findings"].as_array().expect("findings");
        findings.iter().any(|finding| finding["severity"] == "stop")
    };
    let free = lines
        .iter()
        .filter(|line| line["truck"].is_object() && !stops(line));
    free.filter_map(|line| line["row"].as_u64()).collect()
}

#[test]
fn cards_and_questions_of_a_long_list() {
    let audit = audit(&list(), Some(REGISTER), si());
    let records = records(&audit);
    let lines: Vec<Value> = records
        .into_iter()
        .filter(|one| one["schema"] == "dockheft.line/1")
        .collect();
    assert_eq!(lines.len(), LINES as usize);
    let mut bytes = Vec::new();
    workbook::write(&audit, &[], &mut bytes).expect("a vector takes everything");

    // Every line that may be lifted is on a card once, and no other.
    let ticked = rows(&bytes, "Lift cards")
        .into_iter()
        .filter(|row| row[8] == "\u{2610}");
    let row_of = |cell: &Data| -> u64 {
        let text = cell.to_string();
        let digits = text.trim_start_matches(|letter: char| !letter.is_ascii_digit());
        digits.parse().expect("a row")
    };
    let on_cards: Vec<u64> = ticked.map(|row| row_of(&row[1])).collect();
    let free = may_be_lifted(&lines);
    assert_eq!(on_cards.len(), free.len());
    assert_eq!(on_cards.iter().copied().collect::<BTreeSet<_>>(), free);
    assert!(free.len() > 300 && free.len() < 400, "{}", free.len());

    // One text, in it one question for each cause, and the cell of every line that is asked about.
    let paragraphs: Vec<String> = rows(&bytes, "Questions")
        .iter()
        .map(|row| row[3].to_string())
        .collect();
    assert_eq!(
        paragraphs
            .iter()
            .filter(|text| text.starts_with("To: "))
            .count(),
        1
    );
    let text = paragraphs.join("\n");
    assert_eq!(
        text.matches("in kilograms or in pounds?").count(),
        1,
        "{text}"
    );
    assert!(paragraphs.len() < 40, "{text}");
    for at in (3..LINES).step_by(20) {
        let cell = format!("{WEIGHT}{}", at + FIRST);
        let ends = |rest: &str| !rest.starts_with(|letter: char| letter.is_ascii_digit());
        let named = text
            .match_indices(&cell)
            .any(|(at, _)| ends(&text[at + cell.len()..]));
        assert!(named, "{cell}\n{text}");
    }
}
