//! Raw tables to items: where the table is, what each column means, what each line says.
//! Comes in: raw tables and the site's settings. Goes out: typed items, each value with its place and how it was
//! understood, and every row that was skipped with the reason. Never judges a weight.

pub mod columns;
pub mod described;
pub mod field;
pub mod fields;
pub mod heading;
pub mod layout;
#[cfg(test)]
mod random_layouts;
mod sheet;
mod size;
pub mod sizes;
pub mod supplier_layout;
pub mod title;

pub use sheet::Known;
pub use size::{FurtherSize, Size1, SizeOf, Sizes};

use crate::place::Place;
use crate::site::ColumnLayout;
pub use crate::units::MassUnit;
use crate::units::{Length, Mass, Volume};
use chrono::NaiveDate;
use serde::Serialize;

/// How a reading came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum How {
    /// The file says so.
    Stated,
    /// It follows from what the cells hold.
    Inferred,
    /// The site's default was taken.
    Assumed,
    /// The file says so and its own figures speak against it.
    Contradicted,
    /// The site's layout for this supplier says so.
    Site,
}

/// What a stated weight is the weight of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// The whole line.
    Line,
    /// One piece.
    Piece,
    /// One package.
    Package,
    /// One metre.
    PerMetre,
    /// One foot.
    PerFoot,
}

/// Net, gross or not said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum WeightKind {
    /// Without packaging.
    Net,
    /// With packaging.
    Gross,
    /// Not said.
    Unstated,
}

/// A weight that the line states.
#[derive(Clone, Debug, PartialEq)]
pub struct StatedWeight {
    /// The figure as written, greater than zero.
    pub figure: f64,
    /// Its unit; none when nothing says.
    pub unit: Option<MassUnit>,
    /// What it is the weight of; none when nothing says.
    pub basis: Option<Basis>,
    /// Net, gross or not said.
    pub kind: WeightKind,
    /// The cell.
    pub place: Place,
    /// The cell's text with its unit, as the supplier wrote it.
    pub text: String,
}

/// A volume that the line states.
#[derive(Clone, Debug, PartialEq)]
pub struct StatedVolume {
    /// The volume.
    pub volume: Volume,
    /// The cell.
    pub place: Place,
}

/// A weight cell that holds no usable weight ("TBA", 0, a negative figure, an error).
#[derive(Clone, Debug, PartialEq)]
pub struct UnusableWeight {
    /// The cell.
    pub place: Place,
    /// What it holds.
    pub text: String,
    /// Why it is not a weight.
    pub why: String,
    /// Somebody wrote that there is none ("TBA", an error, 0), rather than a formula that was never calculated.
    pub withheld: bool,
    /// The heaviest figure it speaks of all the same ("600-650", "2 x 325 kg").
    pub speaks_of: Option<SpokenWeight>,
}

/// A figure in a weight cell that is no weight by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpokenWeight {
    /// The heaviest figure.
    pub figure: f64,
    /// Its unit; none when nothing says.
    pub unit: Option<MassUnit>,
    /// What it is the weight of; none when nothing says.
    pub basis: Option<Basis>,
    /// Words stand beside it that were not understood.
    pub unread: bool,
}

/// Which side the forks enter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Entered {
    /// At the long side: the shorter horizontal size lies along the forks.
    Broadside,
    /// At the short side.
    Endwise,
}

/// Code of the remark on a row whose delivered quantity is zero.
pub const NOTHING_DELIVERED: &str = "nothing-delivered";

/// Something that a reader of the file must know, found while understanding it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// Finding code it becomes.
    pub code: &'static str,
    /// The cell or row.
    pub place: Place,
    /// In words, with what to do.
    pub message: String,
}

/// One goods line.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its row.
    pub place: Place,
    /// Line number as written.
    pub line_no: Option<String>,
    /// Item or part number as written.
    pub item: Option<String>,
    /// Description, spaces collapsed.
    pub description: String,
    /// Text of the material or grade column.
    pub material: Option<String>,
    /// Purchase order.
    pub order: Option<String>,
    /// Supplier named in the row.
    pub supplier: Option<String>,
    /// Vehicle, trailer or container.
    pub vehicle: Option<String>,
    /// Number of pieces.
    pub pieces: u32,
    /// How the number of pieces came about.
    pub pieces_how: How,
    /// Unit of the quantity, as written.
    pub unit: Option<String>,
    /// Number of packages, where packages are counted.
    pub packages: Option<u32>,
    /// Kind of package (`pallet`, `crate`, `bundle` ...), from the packaging table.
    pub packed_as: Option<&'static str>,
    /// Number or name of the pallet, crate or bundle that it stands on, together with the rows of the same number.
    pub stands_on: Option<String>,
    /// Sizes of a piece, as written.
    pub sizes: Sizes,
    /// Sizes of a piece that only some shapes have, from the description.
    pub further_sizes: Vec<FurtherSize>,
    /// Sizes of the package, as written.
    pub package_sizes: Sizes,
    /// Where the sizes were written.
    pub sizes_from: Option<Place>,
    /// All weights the line states.
    pub weights: Vec<StatedWeight>,
    /// Stated volume, of the line or of one package.
    pub volume: Option<StatedVolume>,
    /// The quantity itself, where it is a volume ("12 m3"): the whole line.
    pub amount: Option<Volume>,
    /// Stated tare of the line's packaging.
    pub tare: Option<Mass>,
    /// Weight cells that hold none.
    pub unusable: Vec<UnusableWeight>,
    /// Package of this sheet that carries the weight for this line.
    pub shared_with: Option<usize>,
    /// Entry side, where the line says so.
    pub entered: Option<Entered>,
    /// Lift height, where the line says so.
    pub lift_height: Option<Length>,
    /// Reading remarks of this row.
    pub remarks: Vec<Remark>,
}

impl Item {
    /// No number of pieces or packages could be read; one piece was taken.
    pub fn uncounted(&self) -> bool {
        self.pieces_how == How::Assumed && self.packages.is_none()
    }
}

/// A weight that stands for several lines.
#[derive(Clone, Debug, PartialEq)]
pub struct SharedWeight {
    /// Name within the sheet (`P1`).
    pub name: String,
    /// Where the weight stands.
    pub place: Place,
    /// Rows of its lines.
    pub rows: Vec<u32>,
    /// The weights stated for the whole package.
    pub weights: Vec<StatedWeight>,
    /// Weight cells that hold none.
    pub unusable: Vec<UnusableWeight>,
    /// Sizes of the package.
    pub sizes: Sizes,
    /// Stated tare.
    pub tare: Option<Mass>,
    /// Kind of package.
    pub packed_as: Option<&'static str>,
}

/// Why a row gave no line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// Above the table.
    Title,
    /// Column headings.
    Heading,
    /// Units below the headings.
    Units,
    /// A section's name.
    Section,
    /// Nothing in it.
    Blank,
    /// Part sum.
    Subtotal,
    /// Sum.
    Total,
    /// Carried or brought forward.
    Carried,
    /// Summary of other sheets.
    Summary,
    /// Note, signature, terms.
    Note,
    /// Instruction to a program (`sep=;`).
    Directive,
    /// Hidden row.
    Hidden,
    /// Row of a hidden sheet.
    #[serde(rename = "hidden sheet")]
    HiddenSheet,
}

/// A row that gave no line.
#[derive(Clone, Debug, PartialEq)]
pub struct Skipped {
    /// Row from 1.
    pub row: u32,
    /// The reason.
    pub why: Why,
    /// Its text, shortened.
    pub text: String,
}

/// How one column was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct ColumnReading {
    /// Column from 1.
    pub column: u32,
    /// The heading as written.
    pub heading: String,
    /// Field it was taken for ("declared weight, line, gross"); "not used" otherwise.
    pub field: String,
    /// Unit in words, where the field has one.
    pub unit: Option<String>,
    /// How.
    pub how: How,
    /// What a supplier's layout would say of it.
    pub layout: ColumnLayout,
}

/// A sum the file states.
#[derive(Clone, Debug, PartialEq)]
pub struct StatedSum {
    /// The cell.
    pub place: Place,
    /// Which reading column it sums.
    pub column: u32,
    /// The sum as written, in the column's unit.
    pub figure: f64,
    /// The cell's text.
    pub text: String,
    /// Rows of the lines it covers.
    pub rows: Vec<u32>,
}

/// Everything understood from one sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetReading {
    /// The sheet (row and column 0).
    pub place: Place,
    /// Name of the delivery.
    pub delivery: String,
    /// Supplier, where known.
    pub supplier: Option<String>,
    /// Where the supplier's name came from: `cell`, `layout`, `option`, `file name` or `unknown`.
    pub supplier_from: &'static str,
    /// Vehicle, where known.
    pub vehicle: Option<String>,
    /// Order, where one stands for the whole sheet.
    pub order: Option<String>,
    /// Date of the document, where known.
    pub received: Option<NaiveDate>,
    /// US signs only (`Some(true)`), metric only (`Some(false)`), both or none.
    pub us: Option<bool>,
    /// Which signs are more, where both stand in the list: what bare figures are taken as before the site's habit.
    pub more_us: Option<bool>,
    /// Goods lines in order.
    pub items: Vec<Item>,
    /// Weights that stand for several lines.
    pub shared: Vec<SharedWeight>,
    /// Rows that gave no line.
    pub skipped: Vec<Skipped>,
    /// Columns as understood.
    pub columns: Vec<ColumnReading>,
    /// Sums the sheet states.
    pub sums: Vec<StatedSum>,
    /// Remarks on the sheet as a whole.
    pub remarks: Vec<Remark>,
}

/// Understands every sheet of a file that holds anything.
pub fn file(raw: &crate::read::RawFile, known: &Known) -> Vec<SheetReading> {
    let known = Known {
        semicolons: raw.kind.ends_with("semicolons"),
        ..known.clone()
    };
    let names: Vec<&str> = raw.sheets.iter().map(|sheet| &*sheet.name).collect();
    raw.sheets
        .iter()
        .filter(|sheet| !sheet.rows.is_empty())
        .map(|sheet| {
            let others: Vec<&str> = names
                .iter()
                .copied()
                .filter(|name| *name != &*sheet.name)
                .collect();
            sheet::sheet(sheet, &others, &known)
        })
        .collect()
}

#[cfg(test)]
mod tests;
