//! Tolerances: what each would do, with two curves over it in black and white.

use super::{Shown, words};
use crate::replay::Row;
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::column;
use rust_xlsxwriter::{
    Chart, ChartFont, ChartFormat, ChartLegendPosition, ChartLine, ChartLineDashType, ChartMarker,
    ChartMarkerType, ChartSolidFill, ChartType, Color, XlsxError,
};

const SHEET: &str = "Tolerances";
/// Columns that the charts take their figures from, from 0.
const TOLERANCE: u16 = 1;
const FLAGS: u16 = 3;
const EXCEPTIONS: u16 = 6;
const FALSE_ALARMS: u16 = 9;
const MISSED: u16 = 11;
const MISSED_LIGHT: u16 = 12;
/// Size of a chart in pixels.
const WIDTH: u32 = 560;
const HEIGHT: u32 = 300;
/// Column of the second chart.
const BESIDE: u16 = 8;

const GREY: Color = Color::RGB(0x80_80_80);

/// Writes the sheet.
pub(super) fn write(book: &mut Book, shown: &Shown<'_>) -> Result<(), XlsxError> {
    let replay = shown.replay;
    let columns = vec![
        column("Settings", 20.0),
        column("Tolerance (%)", 10.0),
        column("Weights that could be checked", 11.0),
        column("Weights flagged", 9.0),
        column("Flags gained", 8.0),
        column("Flags lost", 8.0),
        column("Lines to look at, all", 9.0),
        column("Lines to look at, a day", 10.0),
        column("Flags that were right", 9.0),
        column("False alarms", 8.0),
        column("Flags, nothing known", 9.0),
        column("Wrong weights missed", 9.0),
        column("Of them too light", 9.0),
        column("Light ones LOST that the recorded settings catch", 13.0),
        column("Light flags LOST, not weighed", 10.0),
        column("Right, of known flags", 9.0),
        column("Caught, of wrong weights", 10.0),
        column("Remark", 44.0),
    ];
    let mut table = book.table(SHEET, columns, Paper::Small, Keep::Whole)?;
    let own = match &replay.own_tolerances[..] {
        [one] => Some(one * 100.0),
        _ => None,
    };
    let recorded = words::as_recorded(replay);
    table.row(&row(shown, &recorded, own, &replay.recorded, String::new()))?;
    let first = table.next_row()? - 1;
    for (at, (tolerance, counted)) in replay.rows.iter().enumerate() {
        let what = if *tolerance == replay.site_tolerance {
            "the site file's"
        } else {
            ""
        };
        let remark = words::remark(replay, at, counted);
        table.row(&row(shown, what, Some(tolerance * 100.0), counted, remark))?;
    }
    let rows = (first, table.next_row()? - 2);
    if !replay.rows.is_empty() {
        let under = rows.1 + 2;
        let mut column = 0;
        if replay.decided.known() > 0 {
            table.chart_at(under, column, &truths(rows))?;
            column = BESIDE;
        }
        table.chart_at(under, column, &burden(rows))?;
    }
    table.finish()
}

fn row<'a>(
    shown: &Shown<'_>,
    what: &'a str,
    tolerance: Option<f64>,
    row: &Row,
    remark: String,
) -> Vec<Cell<'a>> {
    let [right, caught] = words::shares(shown.replay, row);
    let share = |share: Option<f64>| share.map_or(Cell::Blank, Cell::Share);
    vec![
        Cell::text(what),
        // What is left of working in floating point is no figure for people.
        Cell::figure(tolerance.map(|percent| (percent * 1e4).round() / 1e4)),
        Cell::count(row.judged),
        Cell::count(row.flags),
        Cell::count(row.gained),
        Cell::count(row.lost),
        Cell::count(row.exceptions),
        Cell::Figure((shown.replay.a_day(row) * 10.0).round() / 10.0),
        Cell::count(row.hits),
        Cell::count(row.false_alarms),
        Cell::count(row.unknown),
        Cell::count(row.missed),
        Cell::count(row.missed_light),
        Cell::count(row.lost_light),
        Cell::count(row.lost_unweighed),
        share(right),
        share(caught),
        Cell::text(remark),
    ]
}

/// A line of a chart: heading, column, marker, its fill, line.
type Series = (&'static str, u16, ChartMarkerType, Color, ChartLineDashType);

/// False alarms against what is missed: the one goes as the tolerance grows, the other comes.
fn truths(rows: (u32, u32)) -> Chart {
    curve(
        "False alarms and missed weights, decided lines",
        rows,
        &[
            (
                "false alarms",
                FALSE_ALARMS,
                ChartMarkerType::Square,
                Color::White,
                ChartLineDashType::Solid,
            ),
            (
                "wrong weights missed",
                MISSED,
                ChartMarkerType::Circle,
                GREY,
                ChartLineDashType::Dash,
            ),
            (
                "of them too light",
                MISSED_LIGHT,
                ChartMarkerType::Triangle,
                Color::Black,
                ChartLineDashType::RoundDot,
            ),
        ],
    )
}

/// What there is to look at.
fn burden(rows: (u32, u32)) -> Chart {
    curve(
        "What is flagged, all lines",
        rows,
        &[
            (
                "lines to look at, for any reason",
                EXCEPTIONS,
                ChartMarkerType::Circle,
                GREY,
                ChartLineDashType::Dash,
            ),
            (
                "weights flagged",
                FLAGS,
                ChartMarkerType::Square,
                Color::White,
                ChartLineDashType::Solid,
            ),
        ],
    )
}

fn curve(title: &str, (first, last): (u32, u32), all: &[Series]) -> Chart {
    let mut chart = Chart::new(ChartType::ScatterStraightWithMarkers);
    for (name, column, marker, fill, dash) in all {
        let mut line = ChartLine::new();
        line.set_color(Color::Black).set_width(1.25);
        let mut mark = ChartFormat::new();
        mark.set_solid_fill(ChartSolidFill::new().set_color(*fill))
            .set_border(&line);
        let mut dashed = line.clone();
        dashed.set_dash_type(*dash);
        chart
            .add_series()
            .set_name(*name)
            .set_categories((SHEET, first, TOLERANCE, last, TOLERANCE))
            .set_values((SHEET, first, *column, last, *column))
            .set_format(ChartFormat::new().set_line(&dashed))
            .set_marker(
                ChartMarker::new()
                    .set_type(*marker)
                    .set_size(8)
                    .set_format(&mut mark),
            );
    }
    chart
        .title()
        .set_name(title)
        .set_font(ChartFont::new().set_size(11));
    chart.x_axis().set_name("Tolerance (%)").set_min(0);
    chart
        .y_axis()
        .set_name("Lines and packages")
        .set_num_format("#,##0")
        .set_min(0);
    chart.legend().set_position(ChartLegendPosition::Bottom);
    chart.set_width(WIDTH).set_height(HEIGHT);
    chart
}
