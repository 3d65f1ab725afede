//! A site's settings: `site.toml`. Every key is optional; an unknown key is refused with the nearest known one.

mod file;
mod materials;
mod named;
mod save;
pub mod supplier;

pub use file::find;
pub use save::{NewColumn, NewLayout, Saved};
pub use supplier::{ColumnLayout, SupplierLayout};

use crate::tables::materials::OwnMaterial;
use crate::units::{Length, Mass};
use chrono::{Months, NaiveDate};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Units that people see. Records are always kilograms and metres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Pounds, feet and inches.
    Us,
    /// Kilograms and millimetres.
    Si,
}

/// All settings of a site, defaults filled in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Site {
    /// Name of the site, printed on reports.
    pub name: String,
    /// Units of reports.
    pub units: Units,
    /// The site's own units, where a call shows others.
    #[serde(skip)]
    pub own_units: Option<Units>,
    /// Fleet register, relative to the site file.
    pub fleet: Option<String>,
    /// Ledger, relative to the site file; `ledger.dockheft` where none is named.
    pub ledger: Option<String>,
    /// Tolerance of the comparison, relative. Common practice 0.10, no source.
    pub tolerance: f64,
    /// Tolerance by group of materials (`wood = 0.15`).
    pub tolerance_by_group: BTreeMap<String, f64>,
    /// A declared weight this near to the expected range is consistent, kg.
    pub floor_kg: Mass,
    /// Margin on an estimate that stands in for a weight, relative. Common practice 0.10, no source.
    pub margin: f64,
    /// How far a scale may be off, relative: what was weighed once weighs that much more or less. Common practice 0.02, no source.
    pub scale_error: f64,
    /// How long a weighing of the same goods counts, months before the day of the audit. Common practice, no source.
    pub weighings_months: u32,
    /// How high a load is lifted where no line says, m. A vehicle's deck, common practice, no source.
    pub lift_height_m: Length,
    /// Depth of a load whose size is unknown, m. 48 in, the depth the US 24 in load centre stands for.
    pub default_depth_m: Length,
    /// Distance between fork face and load, m.
    pub load_gap_m: Length,
    /// Part of a truck's capacity that may be used.
    pub use_limit: f64,
    /// Whether capacity beyond the plate's last load centre may be worked out by moment.
    pub calculated_capacity: bool,
    /// Where the trucks of the dock must be allowed to work (`indoor`, `outdoor`).
    pub place: Option<String>,
    /// Country, two letters of ISO 3166-1 or `EU`: what a road vehicle may weigh there.
    pub country: Option<String>,
    /// Rating of dockboard or leveller, kg.
    pub dock_rating_kg: Option<Mass>,
    /// Rating of the vehicles' floors that trucks drive onto, kg.
    pub vehicle_floor_kg: Option<Mass>,
    /// Weight of the operator in these checks, kg. 90 kg / 200 lb, common practice, no source.
    pub operator_kg: Mass,
    /// Pieces lighter than this are lifted together, kg. Common practice, no source.
    pub hand_piece_kg: Mass,
    /// The site's own materials, beside and instead of the built-in ones.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub material: Vec<OwnMaterial>,
    /// Attachment that goods of a kind need unless they stand on a pallet or in a crate or box (`drum = "drum clamp"`).
    pub attachment_by_goods: BTreeMap<String, String>,
    /// How often each kind of slip is behind a mismatch, where it differs from the table (`kg-lb = 0.3`).
    pub priors: BTreeMap<String, f64>,
    /// Findings that are switched off, each with the reason (`close-call = "our trucks are rated low"`).
    pub rules_off: BTreeMap<String, String>,
    /// How the lists of suppliers are read, by the supplier's name.
    pub supplier: BTreeMap<String, SupplierLayout>,
}

impl Site {
    /// Shows reports in other units than the site's own.
    pub fn show_in(&mut self, units: Option<Units>) {
        if let Some(units) = units {
            self.own_units = Some(self.bare_units());
            self.units = units;
        }
    }

    /// Units that weights and sizes are in which nothing else settles: the site's own, whatever reports are shown in.
    pub fn bare_units(&self) -> Units {
        self.own_units.unwrap_or(self.units)
    }

    /// The first day whose weighings count on a day; none where no weighing counts.
    pub fn weighings_since(&self, day: NaiveDate) -> Option<NaiveDate> {
        let months = Some(self.weighings_months).filter(|months| *months > 0)?;
        day.checked_sub_months(Months::new(months))
    }
}

impl Default for Site {
    fn default() -> Site {
        Site {
            name: String::new(),
            units: Units::Si,
            own_units: None,
            fleet: None,
            ledger: None,
            tolerance: 0.10,
            tolerance_by_group: BTreeMap::new(),
            floor_kg: Mass::from_kg(5.0),
            margin: 0.10,
            scale_error: 0.02,
            weighings_months: 24,
            lift_height_m: Length::from_m(1.5),
            default_depth_m: Length::from_in(48.0),
            load_gap_m: Length::ZERO,
            use_limit: 1.0,
            calculated_capacity: true,
            place: None,
            country: None,
            dock_rating_kg: None,
            vehicle_floor_kg: None,
            operator_kg: Mass::from_kg(90.0),
            hand_piece_kg: Mass::from_kg(25.0),
            material: Vec::new(),
            attachment_by_goods: BTreeMap::new(),
            priors: BTreeMap::new(),
            rules_off: BTreeMap::new(),
            supplier: BTreeMap::new(),
        }
    }
}
