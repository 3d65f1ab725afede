//! Declared against expected, as a picture: for the worst flagged lines the expected range as a grey bar and the declared weight
//! as a black mark, on a scale of powers of ten, because slips are factors of two to a thousand. Black on white.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::exceptions::Flag;
use super::table::{Column, column};
use crate::report::loads::{Load, View};
use crate::site::Units;
use crate::units::show;
use rust_xlsxwriter::{
    Chart, ChartAxisLabelPosition, ChartErrorBars, ChartErrorBarsDirection, ChartErrorBarsType,
    ChartFont, ChartFormat, ChartLegendPosition, ChartLine, ChartLineDashType, ChartMarker,
    ChartMarkerType, ChartRange, ChartSolidFill, ChartType, Color, XlsxError,
};

/// Name of the sheet.
pub const SHEET: &str = "Declared and expected";
/// Lines that are drawn: more could not be told apart.
const MOST: usize = 25;
/// Characters of a line's name below the picture.
const LABEL: usize = 24;
/// Columns, from 0.
const NAME: u16 = 1;
const DECLARED: u16 = 2;
const LIKELY: u16 = 4;
const BELOW: u16 = 6;
const ABOVE: u16 = 7;
const BESIDE: u16 = 9;
const GREY: Color = Color::RGB(0xA0_A0_A0);

/// Writes the sheet.
pub fn write(book: &mut Book, flags: &[Flag<'_>]) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units), Paper::Large, Keep::Whole)?;
    let drawn = flags.iter().zip(1..).filter_map(|(flag, rank)| match flag {
        Flag::Load(view, load, _) => Some((figures(*load, units)?, view, load, rank)),
        Flag::Whole(..) => None,
    });
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for (figures, view, load, rank) in drawn.take(MOST) {
        least = figures.iter().fold(least, |least, one| least.min(*one));
        most = figures.iter().fold(most, |most, one| most.max(*one));
        table.row(&row(view, *load, rank, figures))?;
    }
    let end = table.next_row()? - 1;
    if end == 1 {
        let none = "no flagged line has both a declared and an expected weight";
        table.row(&[Cell::text("all"), Cell::text(none)])?;
    } else {
        table.chart_at(1, BESIDE, &chart(end - 1, least, most, units))?;
    }
    table.finish()
}

fn columns(units: Units) -> Vec<Column> {
    let unit = show::mass_unit(units);
    let headings = [
        "Declared",
        "Low",
        "Likely",
        "High",
        "Likely less low",
        "High less likely",
    ];
    let mut columns = vec![
        column("Delivery", 12.0),
        column("Rank: cell, item or description", 24.0),
    ];
    columns.extend(headings.map(|heading| column(format!("{heading} ({unit})"), 9.0)));
    columns
}

/// Declared, low, likely and high as people see them; nothing where one is not above zero, which has no place on the scale.
fn figures(load: Load<'_>, units: Units) -> Option<[f64; 4]> {
    let declared = show::weight_value(load.declared()?.mass, units);
    let line = load.expected()?;
    let figures = [
        declared,
        show::low_value(line.low, units),
        show::weight_value(line.likely, units),
        show::high_value(line.high, units),
    ];
    figures.iter().all(|one| *one > 0.0).then_some(figures)
}

fn row<'a>(
    view: &View<'a>,
    load: Load<'a>,
    rank: usize,
    [declared, low, likely, high]: [f64; 4],
) -> [Cell<'a>; 8] {
    let what = match load.item() {
        "" => load.description(),
        item => item.into(),
    };
    let name = format!("{rank}: {} {what}", load.weight_place().cell());
    let short: String = name.trim_end().chars().take(LABEL).collect();
    [
        Cell::name(view.delivery.reading.delivery.as_str()),
        Cell::text(short),
        Cell::Figure(declared),
        Cell::Figure(low),
        Cell::Figure(likely),
        Cell::Figure(high),
        Cell::Figure(likely - low),
        Cell::Figure(high - likely),
    ]
}

/// Rows 1 to `last`, from 0; `least` and `most` of all their figures.
fn chart(last: u32, least: f64, most: f64, units: Units) -> Chart {
    let column = |at: u16| (SHEET, 1, at, last, at);
    let range = |at: u16| ChartRange::new_from_range(SHEET, 1, at, last, at);
    let mut chart = Chart::new(ChartType::Line);
    let mut bar = ChartLine::new();
    bar.set_color(GREY).set_width(9.0);
    let mut black = ChartFormat::new();
    black
        .set_solid_fill(ChartSolidFill::new().set_color(Color::Black))
        .set_border(ChartLine::new().set_color(Color::Black));
    let series = [
        (
            "expected: bar from low to high, dash at likely",
            LIKELY,
            ChartMarkerType::LongDash,
            9,
        ),
        ("declared", DECLARED, ChartMarkerType::Diamond, 9),
    ];
    for (name, values, mark, size) in series {
        let series = chart.add_series();
        series
            .set_name(name)
            .set_categories(column(NAME))
            .set_values(column(values))
            .set_format(ChartFormat::new().set_no_line())
            .set_marker(
                ChartMarker::new()
                    .set_type(mark)
                    .set_size(size)
                    .set_format(&mut black),
            );
        if values == LIKELY {
            series.set_y_error_bars(
                ChartErrorBars::new()
                    .set_type(ChartErrorBarsType::Custom(range(ABOVE), range(BELOW)))
                    .set_direction(ChartErrorBarsDirection::Both)
                    .set_end_cap(false)
                    .set_format(&mut bar),
            );
        }
    }
    let unit = show::mass_unit(units);
    chart
        .title()
        .set_name("Declared against expected weight of the whole line, worst first")
        .set_font(ChartFont::new().set_size(12));
    chart
        .x_axis()
        .set_label_position(ChartAxisLabelPosition::Low)
        .set_font(ChartFont::new().set_size(9).set_rotation(-90));
    let mut dashes = ChartLine::new();
    dashes
        .set_color(GREY)
        .set_width(0.5)
        .set_dash_type(ChartLineDashType::Dash);
    chart
        .y_axis()
        .set_name(&format!(
            "Weight of the line ({unit}), each step ten times the last"
        ))
        .set_num_format("[<1]0.0##;#,##0")
        .set_log_base(10)
        .set_min(10_f64.powf(least.log10().floor()))
        .set_max(10_f64.powf(most.log10().floor() + 1.0))
        .set_major_gridlines_line(&dashes);
    chart.legend().set_position(ChartLegendPosition::Top);
    chart.set_width(1_060).set_height(640);
    chart
}
