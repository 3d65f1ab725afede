//! The charts of a scorecard: bars in greys and patterns, lines told apart by dash and mark, so that black on white is enough.

use super::tables::{SHARE_FLAGGED, SHARE_LIGHT};
use crate::report::workbook::cell::clean;
use crate::report::workbook::table::Table;
use crate::scorecard::Followed;
use rust_xlsxwriter::{
    Chart, ChartDataLabel, ChartFont, ChartFormat, ChartLegendPosition, ChartLine,
    ChartLineDashType, ChartMarker, ChartMarkerType, ChartSolidFill, ChartType, Color, XlsxError,
};

/// Bars of a chart; further rows stand in the table alone.
const MOST_BARS: usize = 15;
/// Letters of a name in a chart: a longer one leaves no room for the bars.
const MOST_LETTERS: usize = 40;
/// Months of a chart, the last ones.
const MOST_MONTHS: usize = 36;
const DARK: Color = Color::RGB(0x40_40_40);
const PALE: Color = Color::RGB(0xB4_B4_B4);
/// How the lines of a chart are told apart.
const LINES: [(ChartLineDashType, ChartMarkerType); 5] = [
    (ChartLineDashType::Solid, ChartMarkerType::Square),
    (ChartLineDashType::Dash, ChartMarkerType::Circle),
    (ChartLineDashType::SquareDot, ChartMarkerType::Triangle),
    (ChartLineDashType::LongDashDot, ChartMarkerType::Diamond),
    (ChartLineDashType::RoundDot, ChartMarkerType::X),
];
/// Width of every chart, pixels; a row of the sheet is 20 high.
const WIDTH: u32 = 900;
const ROW: u32 = 20;

/// A name as a chart has room for it.
pub(super) fn label(name: &str) -> String {
    match name.char_indices().nth(MOST_LETTERS) {
        Some((end, _)) => format!("{}…", name.get(..end).unwrap_or_default()),
        None => name.to_string(),
    }
}

/// Share flagged and share light of the first rows, `enough` of which have a percentage; `names` columns stand before the counts,
/// and the names of the bars in column `labels`.
pub(super) fn shares(
    table: &mut Table<'_>,
    sheet: &str,
    of: &str,
    enough: usize,
    names: u16,
    labels: u16,
) -> Result<(), XlsxError> {
    let bars = enough.min(MOST_BARS);
    if bars == 0 {
        return Ok(());
    }
    let last = u32::try_from(bars).unwrap_or(1);
    let mut chart = Chart::new(ChartType::Bar);
    for (name, column, colour) in [
        ("flagged", names + SHARE_FLAGGED, DARK),
        ("declared light", names + SHARE_LIGHT, PALE),
    ] {
        chart
            .add_series()
            .set_name(name)
            .set_categories((sheet, 1, labels, last, labels))
            .set_values((sheet, 1, column, last, column))
            .set_format(&mut bar(colour))
            .set_gap(40)
            .set_data_label(
                ChartDataLabel::new()
                    .show_value()
                    .set_font(ChartFont::new().set_size(8)),
            );
    }
    let title = format!("Share of lines flagged and declared light, by {of}");
    chart.x_axis().set_min(0).set_num_format("0%");
    finish(&mut chart, &title, 140 + 40 * last);
    // In a bar chart the names stand on the vertical axis; turned round, the first comes first.
    chart.y_axis().set_reverse();
    table.chart(&chart)
}

/// Lines of each cause.
pub(super) fn causes(table: &mut Table<'_>, causes: usize) -> Result<(), XlsxError> {
    bars(
        table,
        "Causes",
        "Lines by likely cause",
        (1, causes.min(MOST_BARS)),
        (0, 1),
    )
}

/// Bars of one column: `rows` is the first and how many, `columns` those of names and figures, all from 0.
pub(super) fn bars(
    table: &mut Table<'_>,
    sheet: &str,
    title: &str,
    (first, count): (u32, usize),
    (names, figures): (u16, u16),
) -> Result<(), XlsxError> {
    let Some(more) = count
        .checked_sub(1)
        .and_then(|more| u32::try_from(more).ok())
    else {
        return Ok(());
    };
    let last = first + more;
    let mut chart = Chart::new(ChartType::Bar);
    chart
        .add_series()
        .set_name(title)
        .set_categories((sheet, first, names, last, names))
        .set_values((sheet, first, figures, last, figures))
        .set_format(&mut bar(DARK))
        .set_data_label(ChartDataLabel::new().show_value());
    chart.x_axis().set_min(0).set_num_format("#,##0");
    finish(&mut chart, title, 120 + 28 * (more + 1));
    chart.legend().set_hidden();
    chart.y_axis().set_reverse();
    table.chart(&chart)
}

/// The shares over time, and the medians of the suppliers that are followed, their columns from `first` on.
pub(super) fn months(
    table: &mut Table<'_>,
    months: usize,
    first: usize,
    followed: &[Followed],
) -> Result<(), XlsxError> {
    if months == 0 {
        return Ok(());
    }
    let row = |row: usize| u32::try_from(row).unwrap_or(1);
    let (from, to) = (row(months.saturating_sub(MOST_MONTHS) + 1), row(months));
    let mut shares = Chart::new(ChartType::Line);
    for (line, (name, column)) in LINES.iter().zip([
        ("flagged", 1 + SHARE_FLAGGED),
        ("declared light", 1 + SHARE_LIGHT),
    ]) {
        series(&mut shares, name, (from, to), column, *line);
    }
    shares.y_axis().set_min(0).set_num_format("0%");
    finish(
        &mut shares,
        "Share of lines flagged and declared light, by month",
        320,
    );
    let below = table.next_row()?;
    table.chart_at(below, 1, &shares)?;
    if followed.is_empty() {
        return Ok(());
    }
    let mut medians = Chart::new(ChartType::Line);
    for (line, (one, column)) in LINES.iter().zip(followed.iter().zip(first..)) {
        let column = u16::try_from(column).unwrap_or(u16::MAX);
        series(
            &mut medians,
            &label(&clean(&one.name)),
            (from, to),
            column,
            *line,
        );
    }
    medians
        .y_axis()
        .set_num_format("+0%;-0%;0%")
        .set_name("below 0: declared light");
    // The months stand below the lowest line, not across the middle.
    medians
        .x_axis()
        .set_label_position(rust_xlsxwriter::ChartAxisLabelPosition::Low);
    let title = "Median of declared against expected weight, by month: those that moved, those always off, the worst";
    finish(&mut medians, title, 360);
    table.chart_at(below + 320 / ROW + 2, 1, &medians)
}

fn series(
    chart: &mut Chart,
    name: &str,
    (from, to): (u32, u32),
    column: u16,
    (dash, mark): (ChartLineDashType, ChartMarkerType),
) {
    let mut line = ChartLine::new();
    line.set_color(Color::Black)
        .set_width(1.5)
        .set_dash_type(dash);
    let mut filled = ChartFormat::new();
    filled
        .set_solid_fill(ChartSolidFill::new().set_color(DARK))
        .set_border(ChartLine::new().set_color(Color::Black).set_width(0.75));
    // A title that begins with "=" would be taken for a formula.
    let name = name.trim_start_matches('=');
    chart
        .add_series()
        .set_name(name)
        .set_categories(("Months", from, 0, to, 0))
        .set_values(("Months", from, column, to, column))
        .set_format(&mut line)
        .set_marker(
            ChartMarker::new()
                .set_type(mark)
                .set_size(7)
                .set_format(&mut filled),
        );
}

fn bar(colour: Color) -> ChartFormat {
    let mut format = ChartFormat::new();
    format
        .set_solid_fill(ChartSolidFill::new().set_color(colour))
        .set_border(ChartLine::new().set_color(Color::Black).set_width(0.75));
    format
}

fn finish(chart: &mut Chart, title: &str, height: u32) {
    chart
        .title()
        .set_name(title)
        .set_font(ChartFont::new().set_size(12));
    chart.legend().set_position(ChartLegendPosition::Bottom);
    chart.set_width(WIDTH).set_height(height);
}
