//! What each truck lifts over the load centre: figures and a chart, on the Fleet sheet below the register.
//! Black marks on white: squares are read off the plate, grey circles over broken lines are calculated. No line joins them, because
//! between two marks a truck lifts no more than at the further one.

use super::cell::Cell;
use super::fleet::SHEET;
use super::table::Table;
use crate::fleet::curve::{self, Point};
use crate::fleet::{CALCULATED, Fleet, Truck};
use crate::site::{Site, Units};
use crate::units::show;
use rust_xlsxwriter::{
    Chart, ChartErrorBars, ChartErrorBarsDirection, ChartErrorBarsType, ChartFont, ChartFormat,
    ChartLegendPosition, ChartLine, ChartLineDashType, ChartMarker, ChartMarkerType,
    ChartSolidFill, ChartType, Color, XlsxError,
};

/// Trucks that get a chart; the figures of the others stand there all the same.
const MOST_CHARTS: usize = 60;
/// Size of a chart in pixels, its height in points with what is left free around it, and that of a row of one line.
const WIDTH: u32 = 620;
const HEIGHT: u32 = 235;
const ROOM: f64 = 190.0;
const PLAIN_ROW: f64 = 15.0;
/// Columns, from 0: of the capacity, of the load centre, and where the charts stand.
const CAPACITY: u16 = 4;
const LOAD_CENTRE: u16 = 5;
const BESIDE: u16 = 10;

const GREY: Color = Color::RGB(0x80_80_80);

/// Writes the figures and charts below the register, on pages of their own, so that no chart goes over the end of one.
pub fn write(table: &mut Table<'_>, fleet: &Fleet, site: &Site) -> Result<(), XlsxError> {
    let units = site.units;
    let height = show::length(site.lift_height_m, units);
    let mut charts = 0;
    let mut left = 0.0;
    for truck in fleet.trucks.iter().filter(|truck| !truck.points.is_empty()) {
        let title = format!("what it lifts over the load centre, lifted up to {height}");
        let points = curve::of(truck, site.lift_height_m, site);
        let points = points.map_err(|why| format!("lifts nothing up to {height}: {why}"));
        let rows: Vec<Vec<Cell<'_>>> = match &points {
            Ok(points) => {
                let rows = points.iter().zip(0..).map(|(point, at)| {
                    let what = if at == 0 { title.as_str() } else { "" };
                    let mut cells = head(truck, what).to_vec();
                    cells.extend(figures(truck, point, site));
                    cells
                });
                rows.collect()
            }
            Err(why) => vec![head(truck, why).to_vec()],
        };
        let drawn = points.as_ref().ok().filter(|_| charts < MOST_CHARTS);
        let mut filled: f64 = rows.iter().map(|cells| table.height(cells)).sum();
        let needed = if drawn.is_some() {
            filled.max(ROOM)
        } else {
            filled
        } + PLAIN_ROW;
        if left < needed {
            table.new_page()?;
            left = table.room();
        }
        left -= needed;
        let first = table.next_row()? - 1;
        for cells in &rows {
            table.row(cells)?;
        }
        if let Some(points) = drawn {
            charts += 1;
            while filled < ROOM {
                table.row(&[])?;
                filled += PLAIN_ROW;
            }
            table.chart_at(first, BESIDE, &chart(truck, points, first, &height, units))?;
        }
        table.row(&[])?;
    }
    Ok(())
}

/// Delivery, truck, class and what the row shows.
fn head<'a>(truck: &'a Truck, what: &'a str) -> [Cell<'a>; 4] {
    [
        Cell::text("all"),
        Cell::text(truck.id.as_str()),
        Cell::Blank,
        Cell::text(what),
    ]
}

fn figures<'a>(truck: &'a Truck, point: &Point, site: &Site) -> [Cell<'a>; 6] {
    let units = site.units;
    let worn = truck.fitted.as_deref().unwrap_or("bare forks");
    [
        Cell::Figure(show::capacity_value(point.capacity.mass, units)),
        Cell::Figure(show::plate_length_value(point.load_centre, units)),
        Cell::Figure(show::plate_length_value(site.lift_height_m, units)),
        Cell::text(worn),
        Cell::text(worn),
        Cell::text(if point.capacity.calculated {
            CALCULATED
        } else {
            "read off the plate"
        }),
    ]
}

fn chart(truck: &Truck, points: &[Point], first: u32, height: &str, units: Units) -> Chart {
    let mut chart = Chart::new(ChartType::Scatter);
    let on_plate = points.iter().filter(|point| !point.capacity.calculated);
    let plate_rows = u32::try_from(on_plate.count()).unwrap_or(0);
    let all_rows = u32::try_from(points.len()).unwrap_or(0);
    let plate = (
        "read off the plate",
        first,
        first + plate_rows,
        ChartMarkerType::Square,
    );
    let calculated = (
        CALCULATED,
        first + plate_rows,
        first + all_rows,
        ChartMarkerType::Circle,
    );
    for (name, from, end, marker) in [plate, calculated] {
        let Some(last) = end.checked_sub(1).filter(|last| *last >= from) else {
            continue;
        };
        let is_plate = name != CALCULATED;
        let fill = if is_plate { Color::Black } else { GREY };
        let dash = if is_plate {
            ChartLineDashType::Solid
        } else {
            ChartLineDashType::Dash
        };
        let mut line = ChartLine::new();
        line.set_color(Color::Black).set_width(1.0);
        let mut mark = ChartFormat::new();
        mark.set_solid_fill(ChartSolidFill::new().set_color(fill))
            .set_border(&line);
        let series = chart.add_series();
        series
            .set_name(name)
            .set_categories((SHEET, from, LOAD_CENTRE, last, LOAD_CENTRE))
            .set_values((SHEET, from, CAPACITY, last, CAPACITY))
            .set_format(ChartFormat::new().set_no_line())
            .set_marker(
                ChartMarker::new()
                    .set_type(marker)
                    .set_size(8)
                    .set_format(&mut mark),
            )
            .set_y_error_bars(
                ChartErrorBars::new()
                    .set_type(ChartErrorBarsType::Percentage(100.0))
                    .set_direction(ChartErrorBarsDirection::Minus)
                    .set_end_cap(false)
                    .set_format(line.set_dash_type(dash)),
            );
    }
    let (mass, length) = (show::mass_unit(units), show::length_unit(units));
    let worn = truck.fitted.as_deref().unwrap_or("bare forks");
    let name = super::cell::clean(&truck.id).into_owned();
    // A title that begins with "=" would be taken for a formula.
    chart
        .title()
        .set_name(&format!("Truck {name}, {worn}, lifted up to {height}"))
        .set_font(ChartFont::new().set_size(11));
    chart
        .x_axis()
        .set_name(&format!("Load centre ({length})"))
        .set_min(0);
    chart
        .y_axis()
        .set_name(&format!("Lifts ({mass})"))
        .set_num_format("#,##0")
        .set_min(0);
    chart.legend().set_position(ChartLegendPosition::Bottom);
    chart.set_width(WIDTH).set_height(HEIGHT);
    chart
}
