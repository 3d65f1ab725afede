//! One row of each table of standard products. The source of a row ends with its basis.

use serde::Deserialize;

/// A rolled shape named by nominal depth in inches and lb/ft (`W12x26`). Published by AISC after ASTM A6.
#[derive(Debug, Deserialize)]
pub struct InchSection {
    /// `C`, `HP`, `M`, `MC`, `S` or `W`.
    pub family: String,
    /// First number of the name, in.
    pub nominal_depth: f64,
    /// Second number of the name, lb/ft.
    pub mass_lb_ft: f64,
    /// True depth, in.
    pub depth_in: f64,
    /// Flange width, in.
    pub width_in: f64,
    /// Standard and table.
    pub source: String,
}

/// An inch angle.
#[derive(Debug, Deserialize)]
pub struct InchAngle {
    /// Longer leg, in.
    pub leg_in: f64,
    /// Shorter leg, in.
    pub other_leg_in: f64,
    /// Thickness, in.
    pub thickness_in: f64,
    /// Nominal mass, lb/ft.
    pub mass_lb_ft: f64,
    /// Standard and table.
    pub source: String,
}

/// A section named by a family and one number (`IPE 300`).
#[derive(Debug, Deserialize)]
pub struct EuropeanSection {
    /// `HEA`, `HEB`, `HEM`, `IPE`, `IPN`, `UPE` or `UPN`.
    pub family: String,
    /// The number of the name.
    pub number: f64,
    /// True depth, mm.
    pub depth_mm: f64,
    /// Flange width, mm.
    pub width_mm: f64,
    /// Web, mm.
    pub web_mm: f64,
    /// Flange thickness, mm (mean where tapered).
    pub flange_mm: f64,
    /// Nominal mass, kg/m.
    pub mass_kg_m: f64,
    /// Standard and table.
    pub source: String,
}

/// A serial size of BS 4 and its mass (`UB 203x133x25`).
#[derive(Debug, Deserialize)]
pub struct SerialSection {
    /// `PFC`, `UB` or `UC`.
    pub family: String,
    /// First number, mm.
    pub serial_depth_mm: f64,
    /// Second number, mm.
    pub serial_width_mm: f64,
    /// Third number, kg/m.
    pub mass_kg_m: f64,
    /// Standard and table.
    pub source: String,
}

/// A pipe of ASME B36.10M.
#[derive(Debug, Deserialize)]
pub struct Pipe {
    /// Nominal pipe size, in.
    pub nps: f64,
    /// Nominal diameter, mm (a name, not a size).
    pub dn: f64,
    /// Schedule number or `STD`, `XS`, `XXS`.
    pub schedule: String,
    /// Outside diameter, in.
    pub od_in: f64,
    /// Wall, in.
    pub wall_in: f64,
    /// Published plain-end mass, lb/ft, where seen.
    pub mass_lb_ft: Option<f64>,
    /// Standard.
    pub source: String,
}

/// A reinforcing bar.
#[derive(Debug, Deserialize)]
pub struct Rebar {
    /// `inch`, `metric` or `canada`.
    pub system: String,
    /// The number of the name.
    pub number: f64,
    /// Soft metric number of the same bar.
    pub soft_metric: Option<f64>,
    /// Nominal diameter, mm.
    pub diameter_mm: f64,
    /// Nominal mass, kg/m.
    pub mass_kg_m: f64,
    /// Standard and table.
    pub source: String,
}

/// A rail.
#[derive(Debug, Deserialize)]
pub struct Rail {
    /// Name without spaces, upper case (`115RE`, `60E1`).
    pub name: String,
    /// Other names of the same profile, separated by `;`.
    pub also: String,
    /// Nominal mass, kg/m.
    pub mass_kg_m: f64,
    /// Height, mm, where known.
    pub height_mm: Option<f64>,
    /// Width of the foot, mm, where known.
    pub width_mm: Option<f64>,
    /// Standard and table.
    pub source: String,
}

/// Copper water tube of ASTM B88.
#[derive(Debug, Deserialize)]
pub struct Copper {
    /// Nominal size, in; the outside diameter is 1/8 in more.
    pub nominal_in: f64,
    /// `K`, `L` or `M`.
    pub kind: String,
    /// Wall, in.
    pub wall_in: f64,
    /// Published mass, lb/ft, where seen.
    pub mass_lb_ft: Option<f64>,
    /// Standard and table.
    pub source: String,
}

/// Ductile iron pipe of AWWA C151.
#[derive(Debug, Deserialize)]
pub struct Ductile {
    /// Nominal size, in.
    pub nominal_in: f64,
    /// Pressure class, psi.
    pub class: f64,
    /// Outside diameter, in.
    pub od_in: f64,
    /// Wall, in.
    pub wall_in: f64,
    /// Published barrel mass, lb/ft, where known.
    pub mass_lb_ft: Option<f64>,
    /// Standard and table.
    pub source: String,
}

/// A panel by its thickness.
#[derive(Debug, Deserialize)]
pub struct Panel {
    /// `plywood`, `OSB` or `gypsum board`.
    pub kind: String,
    /// Nominal thickness, in.
    pub thickness_in: f64,
    /// Mass, lb/ft2.
    pub mass_psf: f64,
    /// Standard and table.
    pub source: String,
}

/// Dressed size of softwood lumber (PS 20).
#[derive(Debug, Deserialize)]
pub struct Dressed {
    /// `thickness` (boards and dimension), `width` or `timber` (5 in and up, both ways).
    pub side: String,
    /// Nominal, in.
    pub nominal_in: f64,
    /// Dressed dry, in.
    pub dry_in: f64,
    /// Dressed green, in.
    pub green_in: f64,
    /// Standard and table.
    pub source: String,
}

/// A drum, pail or tote: what it weighs empty.
#[derive(Debug, Deserialize)]
pub struct Container {
    /// `drum`, `pail` or `tote`.
    pub kind: String,
    /// `steel`, `plastic`, or `any` where the words do not say.
    pub stuff: String,
    /// Nominal capacity, US gallons.
    pub capacity_us_gal: f64,
    /// Outside diameter or length, in.
    pub across_in: f64,
    /// Width, in; equal to the diameter for round ones.
    pub width_in: f64,
    /// Height, in.
    pub height_in: f64,
    /// Empty mass: low, typical, high, lb.
    pub tare_low_lb: f64,
    /// See above.
    pub tare_lb: f64,
    /// See above.
    pub tare_high_lb: f64,
    /// Standard and table.
    pub source: String,
}

/// A steel drum by the gauge of its sheet: what it weighs empty.
#[derive(Debug, Deserialize)]
pub struct Drum {
    /// `tight` or `open`.
    pub head: String,
    /// Nominal capacity, US gallons.
    pub capacity_us_gal: f64,
    /// Thickness of the top or lid, mm.
    pub top_mm: f64,
    /// Of the body, mm.
    pub body_mm: f64,
    /// Of the bottom, mm.
    pub bottom_mm: f64,
    /// Empty mass: low, typical, high, lb.
    pub tare_low_lb: f64,
    /// See above.
    pub tare_lb: f64,
    /// See above.
    pub tare_high_lb: f64,
    /// Standard and table.
    pub source: String,
}

/// A piece that a list names whole.
#[derive(Debug, Deserialize)]
pub struct Piece {
    /// `freight container`, `gas cylinder` or `shingle bundle`.
    pub kind: String,
    /// Which of its kind (`20 ft`, `oxygen`, `3-tab`); `any` where the words do not say.
    pub name: String,
    /// Nominal size: feet of a container, cubic feet of gas (70 F, 1 atm) of a cylinder.
    pub size: Option<f64>,
    /// Outside, in.
    pub length_in: Option<f64>,
    /// Outside, in.
    pub width_in: Option<f64>,
    /// Outside, in.
    pub height_in: Option<f64>,
    /// Mass, of containers and cylinders empty: low, typical, high, lb.
    pub mass_low_lb: f64,
    /// See above.
    pub mass_lb: f64,
    /// See above.
    pub mass_high_lb: f64,
    /// What a container may weigh with its load, lb.
    pub gross_lb: Option<f64>,
    /// Standard and table.
    pub source: String,
}

/// An empty pallet.
#[derive(Debug, Deserialize)]
pub struct Pallet {
    /// `EPAL pallet`, `GMA pallet`, `plastic pallet`.
    pub name: String,
    /// Outside, mm.
    pub length_mm: f64,
    /// Outside, mm.
    pub width_mm: f64,
    /// Outside, mm.
    pub height_mm: f64,
    /// Mass: low, typical, high, kg.
    pub mass_low_kg: f64,
    /// See above.
    pub mass_kg: f64,
    /// See above.
    pub mass_high_kg: f64,
    /// Standard and table.
    pub source: String,
}

/// Wall of a precast concrete piece.
#[derive(Debug, Deserialize)]
pub struct PrecastWall {
    /// `pipe wall A`, `pipe wall B`, `pipe wall C`, `manhole riser`, `box culvert`.
    pub kind: String,
    /// Inside diameter or span, in `unit`.
    pub inside: f64,
    /// `in` or `mm`, of both.
    pub unit: String,
    /// Wall, in `unit`.
    pub wall: f64,
    /// Standard.
    pub source: String,
}

/// A concrete masonry unit or a brick, by its true size.
#[derive(Debug, Deserialize)]
pub struct MasonryUnit {
    /// `CMU 8x8x16 hollow` (nominal size), `modular brick`.
    pub name: String,
    /// Density class: `normal`, `medium`, `lightweight`; empty for brick.
    pub class: String,
    /// True length, in.
    pub length_in: f64,
    /// True width, in.
    pub width_in: f64,
    /// True height, in.
    pub height_in: f64,
    /// Mass: low, typical, high, lb.
    pub mass_low_lb: f64,
    /// See above.
    pub mass_lb: f64,
    /// See above.
    pub mass_high_lb: f64,
    /// Standard and table.
    pub source: String,
}

/// Flat glass by its nominal thickness; an inch pane is made up to 6 % thinner.
#[derive(Debug, Deserialize)]
pub struct GlassPane {
    /// Nominal thickness, in `unit`.
    pub nominal: f64,
    /// `in` or `mm`.
    pub unit: String,
    /// Mass, kg/m2.
    pub mass_kg_m2: f64,
    /// Standard and table.
    pub source: String,
}

/// Sheet metal by gauge number.
#[derive(Debug, Deserialize)]
pub struct Gauge {
    /// `sheet` (plain steel), `galvanised sheet`, `stainless sheet`, `aluminium sheet`.
    pub kind: String,
    /// Gauge number.
    pub gauge: f64,
    /// Thickness, in.
    pub thickness_in: f64,
    /// Mass, lb/ft2.
    pub mass_psf: f64,
    /// Gauge system.
    pub source: String,
}
