//! The columns of the export: where each is taken from, and what it means.

use polars::prelude::{Column as Values, DataType, PlSmallStr};
use serde_json::Value;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Whole,
    Text,
    Yes,
    /// A figure; summed in the manifest where it says so.
    Real {
        summed: bool,
    },
}

const REAL: Kind = Kind::Real { summed: false };
const SUM: Kind = Kind::Real { summed: true };

impl Kind {
    /// Its name in the description.
    pub(super) fn name(self) -> &'static str {
        match self {
            Kind::Whole => "int64",
            Kind::Text => "string",
            Kind::Yes => "bool",
            Kind::Real { .. } => "double",
        }
    }

    /// Its type in the table.
    pub(super) fn data_type(self) -> DataType {
        match self {
            Kind::Whole => DataType::Int64,
            Kind::Text => DataType::String,
            Kind::Yes => DataType::Boolean,
            Kind::Real { .. } => DataType::Float64,
        }
    }
}

/// A column.
pub(super) struct Column {
    /// Its name.
    pub(super) name: &'static str,
    pub(super) kind: Kind,
    /// Where a row has it (RFC 6901).
    from: &'static str,
    /// What it means.
    pub(super) what: &'static str,
}

impl Column {
    /// Its values in some rows.
    pub(super) fn values(&self, rows: &[Value]) -> Values {
        let name = PlSmallStr::from_static(self.name);
        let cells = rows.iter().map(|row| row.pointer(self.from));
        match self.kind {
            Kind::Whole => Values::new(name, cells.map(|cell| cell?.as_i64()).collect::<Vec<_>>()),
            Kind::Text => Values::new(name, cells.map(|cell| cell?.as_str()).collect::<Vec<_>>()),
            Kind::Yes => Values::new(name, cells.map(|cell| cell?.as_bool()).collect::<Vec<_>>()),
            Kind::Real { .. } => {
                Values::new(name, cells.map(|cell| cell?.as_f64()).collect::<Vec<_>>())
            }
        }
    }
}

const fn column(name: &'static str, kind: Kind, from: &'static str, what: &'static str) -> Column {
    Column {
        name,
        kind,
        from,
        what,
    }
}

const LOAD: Column = column(
    "load",
    Kind::Whole,
    "/ledger/load",
    "number of the load's record",
);
const ID: Column = column("id", Kind::Text, "/ledger/id", "id of the load");
const DELIVERY: Column = column(
    "delivery",
    Kind::Whole,
    "/ledger/delivery",
    "number of the delivery's record",
);
const AUDIT: Column = column(
    "audit",
    Kind::Whole,
    "/ledger/audit",
    "number of the audit's record",
);
const COUNTS: Column = column(
    "counts",
    Kind::Yes,
    "/ledger/counts",
    "no later audit of its delivery is on record: count only these",
);

/// Every load: goods lines and packages.
pub(super) const LOADS: &[Column] = &[
    LOAD,
    ID,
    column("kind", Kind::Text, "/ledger/kind", "`line` or `package`"),
    DELIVERY,
    AUDIT,
    COUNTS,
    column(
        "day",
        Kind::Text,
        "/ledger/day",
        "day of the audit, YYYY-MM-DD",
    ),
    column(
        "recorded",
        Kind::Text,
        "/ledger/recorded",
        "when the audit was recorded (RFC 3339)",
    ),
    column(
        "site_name",
        Kind::Text,
        "/ledger/site",
        "name of the site; empty where it has none",
    ),
    column("name", Kind::Text, "/ledger/name", "name of the delivery"),
    column("file", Kind::Text, "/file", "file of the list"),
    column("sheet", Kind::Text, "/sheet", "sheet of the list"),
    column(
        "row",
        Kind::Whole,
        "/row",
        "row, as the spreadsheet shows it",
    ),
    column("supplier", Kind::Text, "/ledger/supplier", "supplier"),
    column("order", Kind::Text, "/ledger/order", "order"),
    column("vehicle", Kind::Text, "/vehicle", "vehicle"),
    column(
        "item",
        Kind::Text,
        "/ledger/item",
        "item of a line, name of a package",
    ),
    column(
        "description",
        Kind::Text,
        "/ledger/description",
        "description",
    ),
    column(
        "package",
        Kind::Text,
        "/package",
        "name of the package that it is, or is lifted with",
    ),
    column("goods", Kind::Text, "/goods", "kind of goods"),
    column("pieces", Kind::Whole, "/pieces", "number of pieces"),
    column("declared_kg", SUM, "/declared/kg", "declared weight"),
    column(
        "declared_as",
        Kind::Text,
        "/declared/kind",
        "`gross`, `net`, `unstated`",
    ),
    column(
        "declared_how",
        Kind::Text,
        "/declared/how",
        "how its unit and basis were found",
    ),
    column(
        "declared_text",
        Kind::Text,
        "/declared/text",
        "as the supplier wrote it",
    ),
    column(
        "evidence",
        Kind::Text,
        "/estimate/evidence",
        "what the estimate rests on",
    ),
    column(
        "shape",
        Kind::Text,
        "/estimate/shape",
        "shape of the estimate",
    ),
    column(
        "material",
        Kind::Text,
        "/estimate/material",
        "material of the estimate",
    ),
    column("low_kg", REAL, "/estimate/low_kg", "expected at least"),
    column("likely_kg", SUM, "/estimate/likely_kg", "expected"),
    column("high_kg", REAL, "/estimate/high_kg", "expected at most"),
    column(
        "verdict",
        Kind::Text,
        "/verdict",
        "verdict; `shared`: judged on its package",
    ),
    column(
        "severity",
        Kind::Text,
        "/ledger/severity",
        "the worst of its findings: `stop`, `check`, `note`, or `none`",
    ),
    column(
        "flagged",
        Kind::Yes,
        "/ledger/flagged",
        "it has a `stop` or a `check`",
    ),
    column(
        "codes",
        Kind::Text,
        "/ledger/codes",
        "of its findings, a blank between",
    ),
    column(
        "cause",
        Kind::Text,
        "/ledger/cause",
        "kind of the likeliest cause",
    ),
    column("plan_kg", SUM, "/planning/line_kg", "planning weight"),
    column(
        "lift_kg",
        REAL,
        "/planning/lift_kg",
        "planning weight of one lift",
    ),
    column(
        "planned_from",
        Kind::Text,
        "/planning/from",
        "what the planning weight rests on",
    ),
    column("lifts", Kind::Whole, "/lifts", "number of lifts"),
    column(
        "load_centre_m",
        REAL,
        "/load_centre_m",
        "load centre of one lift",
    ),
    column("truck", Kind::Text, "/truck/id", "truck that was named"),
    column(
        "capacity_kg",
        REAL,
        "/truck/capacity_kg",
        "what it lifts there",
    ),
    column(
        "calculated",
        Kind::Yes,
        "/truck/calculated",
        "that capacity is calculated: the plate governs",
    ),
    column(
        "overload_kg",
        REAL,
        "/declared_truck/over_kg",
        "by how much a lift would have overloaded the truck that fits the declared weight, before any decision",
    ),
];

/// Every finding on a load or on a delivery as a whole.
pub(super) const FINDINGS: &[Column] = &[
    column(
        "load",
        Kind::Whole,
        "/ledger/load",
        "number of the load's record; null: on the delivery as a whole",
    ),
    ID,
    DELIVERY,
    AUDIT,
    COUNTS,
    column(
        "day",
        Kind::Text,
        "/ledger/day",
        "day of the audit, YYYY-MM-DD",
    ),
    column(
        "position",
        Kind::Whole,
        "/position",
        "from 1, the worst first",
    ),
    column(
        "code",
        Kind::Text,
        "/finding/code",
        "code of the finding (`dockheft explain CODE`)",
    ),
    column(
        "severity",
        Kind::Text,
        "/finding/severity",
        "`stop`, `check`, `note`",
    ),
    column(
        "field",
        Kind::Text,
        "/finding/field",
        "field that it is about",
    ),
    column(
        "cause",
        Kind::Text,
        "/finding/cause/kind",
        "kind of its likeliest cause",
    ),
    column(
        "would_be_kg",
        REAL,
        "/finding/cause/would_be_kg",
        "what the load would weigh by that cause",
    ),
    column(
        "share",
        REAL,
        "/finding/cause/share",
        "share of that cause among the possible ones, 0 to 1",
    ),
    column(
        "message",
        Kind::Text,
        "/finding/message",
        "in the words of that day",
    ),
];

/// Every decision.
pub(super) const DECISIONS: &[Column] = &[
    column("decision", Kind::Whole, "/number", "number of its record"),
    column(
        "load",
        Kind::Whole,
        "/load",
        "number of the load's record that it was made on",
    ),
    column("id", Kind::Text, "/id", "id of the load"),
    column("kind", Kind::Text, "/kind", "what was decided"),
    column(
        "plan_kg",
        SUM,
        "/plan_kg",
        "planned with from then on; null: not lifted",
    ),
    column("before_kg", REAL, "/before_kg", "planned with until then"),
    column("evidence", Kind::Text, "/evidence", "what it rests on"),
    column("name", Kind::Text, "/name", "who, as typed"),
    column("remark", Kind::Text, "/remark", "remark"),
    column("dated", Kind::Text, "/dated", "day written beside it"),
    column("origin", Kind::Text, "/origin", "how it came in"),
    column(
        "time",
        Kind::Text,
        "/time",
        "when it was recorded (RFC 3339)",
    ),
    column(
        "stands",
        Kind::Yes,
        "/stands",
        "it is the one that counts for a load of a latest audit",
    ),
    column(
        "stands_for",
        Kind::Whole,
        "/stands_for",
        "number of the record of the load of a latest audit that it is good for: of copies of a list the last",
    ),
];

/// The tables: name, what a row is, columns.
pub(super) const TABLES: [(&str, &str, &[Column]); 3] = [
    (
        "loads",
        "A row a goods line or package of every audit.",
        LOADS,
    ),
    (
        "findings",
        "A row a finding, on a load or on a delivery as a whole.",
        FINDINGS,
    ),
    ("decisions", "A row a decision.", DECISIONS),
];
