//! What a scorecard holds declared weights against, and on which day.

use super::{DAYS, HEADINGS, card, folder, lines, write};
use serde_json::Value;

/// Looking at old lists again is nothing new of their supplier: neither a move, nor a younger open decision.
#[test]
fn a_list_that_is_audited_again_stays_on_the_day_of_its_first_audit() {
    let folder = folder();
    let at = folder.path();
    let day = |number: u32| format!("2026-06-{:02}", number + 1);
    for number in 0..20_u32 {
        let pounds =
            [980.0, 985.0, 975.0][number as usize % 3] * if number < 10 { 1.0 } else { 0.95 };
        let text = format!(
            "{HEADINGS}D-{number},Tarn Steel,I-1,Steel block,1,24,12,12,{pounds:.0}\n\
            D-{number},Tarn Steel,I-2,Steel block,1,24,12,12,490\n"
        );
        write(at, &format!("list{number}.csv"), &text);
        lines(at, &day(number), &format!("list{number}.csv"));
    }
    let before = card(at, &[]);
    let course = |card: &[Value]| {
        let supplier = card.iter().find(|row| row["by"] == "supplier");
        supplier.expect("a supplier")["course"].clone()
    };
    assert_eq!(course(&before)["since"], day(10), "{}", course(&before));
    for number in 0..10 {
        lines(at, "2026-08-31", &format!("list{number}.csv"));
    }
    let after = card(at, &[]);
    assert_eq!(course(&after), course(&before));
    assert_eq!(after.last(), before.last(), "the ages of what is open");
    let june = card(at, &["--to", "2026-06-30"]);
    assert_eq!(june[0]["lines"], 40);
}

/// A gross weight is held against goods and packaging together: what is declared rightly is not heavy.
#[test]
fn stated_packaging_is_no_part_of_what_is_off() {
    let folder = folder();
    let at = folder.path();
    let mut text = HEADINGS.replace("weight (lb)\n", "weight (lb),Tare (lb)\n");
    for line in 0..24 {
        text.push_str(&format!(
            "D-1,Tarn Steel,I-{line},Steel block,1,24,12,12,1080,100\n"
        ));
    }
    write(at, "list.csv", &text);
    let records = lines(at, DAYS[0].0, "list.csv");
    for record in &records {
        let kg = |name: &str| record["estimate"][name].as_f64().expect("a weight");
        assert!(
            (kg("expected_kg") - kg("likely_kg") - 45.359).abs() < 0.01,
            "{record}"
        );
    }
    let card = card(at, &[]);
    assert_eq!(card[0]["compared"], 24);
    let off = card[0]["median_ln"].as_f64();
    assert!(off.is_some_and(|off| off.abs() < 0.005), "{off:?}");
}
