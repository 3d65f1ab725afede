//! Published masses, end to end: a delivery text of one line in, the estimate of its record out.
//! Each row names its source; the allowance covers rounding of the published figure and what its row's note says.

use crate::helper::{LB, audit_text, cell, lines};

/// One published figure.
struct Published {
    description: &'static str,
    pieces: u32,
    length_ft: &'static str,
    /// Mass of the whole line, lb.
    lb: f64,
    /// Part by which the likely mass may differ.
    allowance: f64,
    source: &'static str,
}

#[rustfmt::skip]
const fn row(description: &'static str, pieces: u32, length_ft: &'static str, lb: f64, allowance: f64, source: &'static str) -> Published {
    Published { description, pieces, length_ft, lb, allowance, source }
}

const SECTIONS: &str = "ASTM A6/A6M nominal weight, AISC shapes database v16.0";
const EURO: &str = "EN 10365:2017 mass table, from memory; size and area as published";
const REBAR: &str = "ASTM A615/A615M bars, PCI Design Handbook 7th ed., Design Aid 15.4.1";
const BS_BAR: &str = "BS/EN bar, reinforcement supplier table (trade table, on file)";
const PIPE: &str = "plain-end weight, ASME B36.10M";
const COPPER: &str = "ASTM B88 table of sizes and weights";
const PVC: &str = "ASTM D1785 sizes, PVC pipe dimension table (trade table, on file)";
const RCP: &str = "ASTM C76 pipe, producer table (trade table, on file): the joint's 1.4 to 2.6 % come on top of the barrel";
const DRUM: &str = "NIST Handbook 44 App. C (gallon); drum of 38 to 42 lb (trade table, on file)";
const RAIL: &str = "AREMA sections, rail supplier table (trade table, on file)";
const PANEL: &str = "APA panel weight table, rounded to 0.1 lb/ft2";

#[rustfmt::skip]
const PRODUCTS: &[Published] = &[
    row("W12x26", 1, "20", 520.0, 0.005, SECTIONS),
    row("W14x90", 1, "40", 3600.0, 0.005, SECTIONS),
    row("W8x31", 4, "30", 3720.0, 0.005, SECTIONS),
    row("C10x20", 1, "20", 400.0, 0.005, SECTIONS),
    row("HSS6x4x1/4", 10, "20", 3124.0, 0.005, SECTIONS),
    row("L4x4x1/2", 1, "20", 256.0, 0.005, SECTIONS),
    // 42.3 kg/m over 20 ft.
    row("HEA 200", 1, "20", 42.3 * 6.096 / LB, 0.005, "HE-A beams, dimensions to Euronorm 53-62"),
    row("IPE 300", 1, "20", 42.2 * 6.096 / LB, 0.005, EURO),
    row("W310x39", 1, "20", 39.0 * 6.096 / LB, 0.005, "CISC metric W shapes: the last number is kg/m"),
    row("Rebar #5", 100, "20", 2086.0, 0.005, REBAR),
    row("Rebar #11", 10, "40", 2125.2, 0.005, REBAR),
    row("Rebar #18", 10, "40", 5440.0, 0.005, REBAR),
    row("Rebar T16", 50, "20", 50.0 * 1.579 * 6.096 / LB, 0.005, BS_BAR),
    row("Rebar 15M", 50, "20", 50.0 * 1.57 * 6.096 / LB, 0.005, "Canadian metric bar table, as reproduced"),
    row("Pipe 6 in sch 40", 1, "21", 398.8, 0.005, PIPE),
    row("Pipe 8 in sch 80", 1, "20", 868.6, 0.005, PIPE),
    row("Pipe 24 in STD", 1, "20", 1894.2, 0.005, PIPE),
    row("PL 1/2 x 48 x 96, steel", 1, "", 653.0, 0.005, "490 lb/ft3: 40.83 lb/ft2 an inch of thickness (AISC Manual)"),
    row("Copper tube 1 in type L", 50, "20", 655.0, 0.005, COPPER),
    row("Copper tube 2 in type K", 50, "20", 2060.0, 0.005, COPPER),
    row("PVC pipe 4 in sch 40", 10, "20", 401.2, 0.02, PVC),
    row("RCP 12 in wall B", 1, "8", 752.0, 0.03, RCP),
    row("RCP 18 in wall B", 1, "8", 1360.0, 0.03, RCP),
    row("RCP 36 in wall B", 1, "8", 4264.0, 0.03, RCP),
    row("RCP 42 in wall B", 1, "8", 5576.0, 0.03, RCP),
    row("115RE rail", 1, "39", 1489.0, 0.005, RAIL),
    row("136RE rail", 1, "39", 1767.0, 0.005, RAIL),
    // Wood: the shipping weight is an average, clear wood at 12 % differs.
    row("2x10 Douglas fir KD", 1, "16", 52.4, 0.05, "PS 20 dressed sizes; 34 lb/ft3 air dry, Oregon State University"),
    row("2x10 western hemlock KD", 1, "16", 1.5 * 9.25 / 144.0 * 16.0 * 31.0, 0.10, "PS 20 dressed sizes; 31 lb/ft3 air dry, Oregon State University"),
    row("Plywood 1/2 in x 48 in x 96 in", 40, "", 40.0 * 48.0, 0.05, PANEL),
    row("OSB 7/16 in x 48 in x 96 in", 40, "", 40.0 * 45.0, 0.05, PANEL),
    row("Gypsum board 1/2 in x 48 in x 96 in", 40, "", 40.0 * 51.2, 0.05, "1.6 lb/ft2, maker's product data (trade table, on file)"),
    row("Float glass 1/4 in x 48 in x 96 in", 10, "", 10.0 * 32.0 * 3.27, 0.01, "3.27 lb/ft2, glass fabricator's data (trade table, on file)"),
    row("Water, 55 gal steel drum", 4, "", 4.0 * 499.0, 0.03, DRUM),
    row("Water, 275 gal IBC", 1, "", 2428.0, 0.03, "tote filled with water 2428 lb (trade table, on file)"),
    row("Portland cement 94 lb bag", 40, "", 3760.0, 0.01, "94 lb a US bag (ASTM C150 trade bag)"),
];

#[test]
fn published_masses_lie_near_the_likely_mass_and_inside_the_range() {
    let mut faults = Vec::new();
    for published in PRODUCTS {
        let text = format!(
            "Description,Qty,Length (ft),Total weight (lb)\n{},{},{},\n",
            cell(published.description),
            published.pieces,
            published.length_ft
        );
        let line = lines(audit_text(&text)).remove(0);
        let lb = |key: &str| line["estimate"][key].as_f64().map(|kg| kg / LB);
        let (Some(low), Some(likely), Some(high)) = (lb("low_kg"), lb("likely_kg"), lb("high_kg"))
        else {
            faults.push(format!("{}: no estimate", published.description));
            continue;
        };
        let off = (likely / published.lb - 1.0).abs();
        let slack = published.lb * 0.002;
        let inside = low - slack <= published.lb && published.lb <= high + slack;
        if off > published.allowance || !inside {
            faults.push(format!(
                "{}: {} lb published ({}), {low:.1} to {likely:.1} to {high:.1} lb expected",
                published.description, published.lb, published.source
            ));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What a scale would show is never flagged: the published mass declared is consistent.
#[test]
fn a_published_mass_declared_is_consistent() {
    let mut faults = Vec::new();
    for published in PRODUCTS {
        let text = format!(
            "Description,Qty,Length (ft),Total weight (lb)\n{},{},{},{:.1}\n",
            cell(published.description),
            published.pieces,
            published.length_ft,
            published.lb
        );
        let line = lines(audit_text(&text)).remove(0);
        if line["verdict"] != "consistent" {
            faults.push(format!(
                "{}: {} ({})",
                published.description, line["verdict"], published.source
            ));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
