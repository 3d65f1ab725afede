//! xlsx as a good writer makes it.

use crate::read::testing::read;

/// The widespread reader is the yardstick for a workbook as a good writer makes it.
#[test]
fn an_ordinary_workbook_reads_as_another_reader_reads_it() {
    use calamine::{Data, Reader, Xlsx};
    let mut book = rust_xlsxwriter::Workbook::new();
    let date = rust_xlsxwriter::Format::new().set_num_format("d mmm yyyy");
    let sheet = book.add_worksheet();
    for row in 0..200u32 {
        sheet
            .write(row, 0, format!("Plate {row} & \"more\""))
            .unwrap();
        sheet.write(row, 1, f64::from(row) * 1.25).unwrap();
        sheet
            .write_with_format(
                row,
                2,
                rust_xlsxwriter::ExcelDateTime::from_ymd(2026, 1, 2).unwrap(),
                &date,
            )
            .unwrap();
        sheet.write(row, 3, row % 2 == 0).unwrap();
        sheet
            .write(
                row,
                5,
                rust_xlsxwriter::Formula::new("=B1*2").set_result("7"),
            )
            .unwrap();
    }
    let content = book.save_to_buffer().unwrap();
    let ours = read("list.xlsx", &content);
    let mut theirs: Xlsx<_> =
        calamine::open_workbook_from_rs(std::io::Cursor::new(content)).unwrap();
    let range = theirs.worksheet_range("Sheet1").unwrap();
    let mut compared = 0;
    for (row, column, value) in range.used_cells() {
        let cell = ours.sheets[0]
            .row(row as u32 + 1)
            .and_then(|found| found.cell(column as u32 + 1))
            .unwrap();
        let text = match value {
            Data::DateTime(stamp) => stamp.as_datetime().unwrap().format("%Y-%m-%d").to_string(),
            Data::Bool(truth) => truth.to_string().to_uppercase(),
            value => value.to_string(),
        };
        assert_eq!(cell.value.text(), text);
        compared += 1;
    }
    assert_eq!(compared, 1_000);
}
