//! Descriptions as suppliers write them: what each must be recognised as, and what must not be recognised at all.

use super::KG_M_PER_LB_FT;
use super::testing::{SI, US, per_metre, recognise};

/// Sources: A = ASTM A6 nominal weight (AISC table), E = EN 10365, B = BS 4-1 (the name), X = EN 10056-1, H = EN 10210-2/10219-2,
/// P = ASME B36.10M, R = ASTM A615 / CSA G30.18 / BS 4449, T = AREMA / EN 13674-1, G = geometry at 7,850 kg/m3 worked by hand.
#[test]
fn steel_by_the_metre() {
    let lb = |lb_ft: f64| lb_ft * KG_M_PER_LB_FT;
    let cases: &[(&str, Option<bool>, &str, f64)] = &[
        ("W12X26", US, "W", lb(26.0)),                           // A
        ("W12x26 x 20'-0\"", None, "W", lb(26.0)),               // A
        ("W 12 x 26 A992", US, "W", lb(26.0)),                   // A
        ("BEAM W14x90, GR 50", US, "W", lb(90.0)),               // A
        ("W10x33 galvanized", US, "W", lb(33.0)),                // A
        ("W8x31#", US, "W", lb(31.0)),                           // A
        ("W24x76 lb/ft", US, "W", lb(76.0)),                     // A
        ("W12x27", US, "W", lb(27.0)),                           // the rule of the name
        ("W310x39", SI, "W", 39.0),                              // CISC: kg/m
        ("W310X38.7", None, "W", 38.7),                          // CISC: kg/m
        ("C8X11.5", US, "C", lb(11.5)),                          // A
        ("CHANNEL C 10 x 15.3", US, "C", lb(15.3)),              // A
        ("MC12x31", US, "MC", lb(31.0)),                         // A
        ("C200x17", SI, "C", 17.0),                              // CISC twin of C8x11.5
        ("S12x35", US, "S", lb(35.0)),                           // A
        ("M12x11.8", US, "M", lb(11.8)),                         // A
        ("HP14x73 PILE", US, "HP", lb(73.0)),                    // A
        ("HP 305x88 kg/m", SI, "HP", 88.0),                      // E (name)
        ("WT9x25", US, "WT", lb(25.0)),                          // A: half of W18x50
        ("WT155x19.5", SI, "WT", 19.5),                          // CISC: half of W310x39
        ("UB 203x133x25", SI, "UB", 25.0),                       // B
        ("203 x 133 x 25 UB", SI, "UB", 25.0),                   // B
        ("UKC 203x203x46 S355JR", SI, "UC", 46.0),               // B
        ("PFC 200x90x30", None, "PFC", 30.0),                    // B
        ("UB305X165X40 X 7500", SI, "UB", 40.0),                 // B
        ("UBP 305x305x88", SI, "UBP", 88.0),                     // B
        ("310UB40.4", SI, "UB", 40.4),                           // AS/NZS 3679.1: the name
        ("IPE 300", SI, "IPE", 42.2),                            // E
        ("IPE300 S355", SI, "IPE", 42.2),                        // E
        ("Träger IPE 240 L=6000", SI, "IPE", 30.7),              // E
        ("HEA 200", SI, "HEA", 42.3),                            // Euronorm 53-62
        ("HE 200 A", SI, "HEA", 42.3),                           // same section
        ("HE200B", SI, "HEB", 61.3),                             // E
        ("HEA 160", SI, "HEA", 30.4),                            // E
        ("HEB300x9000", SI, "HEB", 117.0),                       // E
        ("UPN 160", SI, "UPN", 18.9),                            // E
        ("UNP 200", SI, "UPN", 25.3),                            // E
        ("L4X4X3/8", US, "L", lb(9.8)),                          // A
        ("L4x4x1/2", US, "L", lb(12.8)),                         // A
        ("ANGLE 3 x 2 x 1/4", US, "L", lb(4.1)),                 // A
        ("Angular 100x100x10", SI, "L", 15.0),                   // X
        ("Winkelstahl 60x60x6", SI, "L", 5.42),                  // X
        ("cornière 50x50x5", SI, "L", 3.77),                     // X
        ("L100x100x10x6000", SI, "L", 15.0),                     // X
        ("HSS6X6X1/4", US, "HSS", lb(19.02)),                    // A
        ("HSS 6x4x1/4", US, "HSS", lb(15.62)),                   // A
        ("HSS6.625x0.280", US, "HSS", lb(18.99)),                // A
        ("RHS 150x100x6.3", SI, "RHS", 23.1),                    // H (hot finished)
        ("Tubo 80x80x5", SI, "SHS", 11.6),                       // H (hot finished)
        ("Square tube 40x40x3 L6000", SI, "SHS", 3.30),          // H (cold formed)
        ("SHS 80x5", SI, "SHS", 11.3),                           // H (cold formed)
        ("CHS 193.7x6.0", SI, "CHS", 27.8),                      // EN 10220, from memory
        ("PIPE 6 SCH40 6.625 OD X .280", US, "pipe", lb(18.97)), // P
        ("6in sch 40", US, "pipe", lb(18.97)),                   // P
        ("PIPE, 4\", SCH 80, A53 GR B", US, "pipe", lb(14.98)),  // P
        ("NPS 6 STD", None, "pipe", lb(18.97)),                  // P
        ("DN150 sch 40", SI, "pipe", 28.26),                     // P (SI column)
        ("2-1/2 SCH 40 pipe", US, "pipe", lb(5.79)),             // P, from memory
        ("PIPE 1 1/2\" XS x 21'", US, "pipe", lb(3.63)),         // P, from memory
        (
            "60 PCS STEEL PIPE 4.500 OD X .237 WALL X 21'",
            US,
            "pipe",
            lb(10.79),
        ), // P
        ("Seamless pipe Ø219.1x8.2 L=6000", SI, "pipe", 42.65),  // G
        ("Seamless pipe 60.3x3.6", SI, "pipe", 5.03),            // EN 10220, from memory
        ("Rohr nahtlos 114,3x6,3", SI, "pipe", 16.8),            // EN 10220, from memory
        ("115RE rail 39 ft", US, "rail", 56.8),                  // T: 114.5 lb per YARD
        ("Rail 60E1", SI, "rail", 60.21),                        // T
        ("RAIL 56E1 x 18m", SI, "rail", 56.3),                   // T, from memory
        ("Rail 49E1", SI, "rail", 49.39),                        // T
        ("UIC 60", SI, "rail", 60.21),                           // T
        ("Schiene S49", SI, "rail", 49.39),                      // T
        ("50E6", SI, "rail", 50.0),                              // the rule of the name
        ("90RA rail", US, "rail", 90.0 * 0.496_05), // the rule of the name: lb per YARD
        ("rail 54 kg/m", SI, "rail", 54.0),         // as described
        ("#5 REBAR", US, "rebar", lb(1.043)),       // R
        ("REBAR #10 GR 60", US, "rebar", lb(4.303)), // R
        ("rebar No. 16 A615M", SI, "rebar", 1.552), // R: soft metric of #5
        ("rebar No. 10", SI, "rebar", 0.56),        // R: soft metric of #3
        ("rebar No. 10", US, "rebar", 6.404),       // R: the inch bar, 11.4 times as much
        ("T16 rebar", SI, "rebar", 1.579),          // R
        ("H20 bars", SI, "rebar", 2.466),           // R
        ("16 mm rebar x 12 m", SI, "rebar", 1.579), // R
        ("Betonstahl Ø 12", SI, "rebar", 0.888),    // R
        ("REBAR 15M", SI, "rebar", 1.57),           // R
        ("10M rebar", SI, "rebar", 0.785),          // R
        ("rebar 10 mm", SI, "rebar", 0.616),        // R
        ("1/2\" rebar x 20'", US, "rebar", lb(0.668)), // R
        ("ROUND BAR 2 DIA", US, "round", lb(10.68)), // trade table of section formulas
        ("Round bar 50", SI, "round", 15.41),       // G
        ("Round bar dia 60 x 1200", SI, "round", 22.2), // G
        ("Flachstahl 100x10", SI, "flat", 7.85),    // G
        ("Flat bar 100x12x600", SI, "flat", 9.42),  // G
        ("FLAT BAR 1/4 x 4", US, "flat", lb(3.403)), // G
        ("Wide flange beam W18x35 galvanised", US, "W", lb(35.0)), // A
        ("H-beam 200x200x8x12 SS400", SI, "H", 49.9), // JIS G 3192, from memory
        ("ANGLE IRON 50x50x5", SI, "L", 3.77),      // X
        ("FL 100x10", SI, "flat", 7.85),            // G
        ("PL 3/8 X 8", US, "PL", lb(10.2)),         // trade table: 40.80 lb/ft2 per inch
    ];
    assert!(cases.len() >= 60);
    let mut wrong = Vec::new();
    for (text, hint, family, kg_per_m) in cases {
        let Some(product) = recognise(text, *hint) else {
            wrong.push(format!("{text}: not recognised"));
            continue;
        };
        let found = per_metre(&product);
        // A rule may miss the published mass by what its own tolerance allows; a name or a table may not.
        let tolerance = match product.family {
            "RHS" | "SHS" | "H" => 0.03,
            _ if product.extrapolated => 0.018,
            _ => 0.005,
        };
        // Published figures are rounded to three places.
        let inside = found * (0.998 - product.make_low) <= *kg_per_m
            && *kg_per_m <= found * (1.0 + product.make_high);
        let told = product.material == Some("carbon steel")
            && !product.working.is_empty()
            && !product.source.is_empty();
        if product.family != *family
            || (found / kg_per_m - 1.0).abs() > tolerance
            || !inside
            || !told
        {
            wrong.push(format!(
                "{text}: {found:.3} against {family} {kg_per_m:.3}: {product:?}"
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_must_not_be_recognised() {
    // Each is a trap of the reference sheet, a line of the practice deliveries, or a near miss of a name above.
    let cases: &[(&str, Option<bool>)] = &[
        ("Point motor, crated", SI),
        ("box culvert aluminum 8 ft x 4 ft x 8 in, 6 ft", US),
        ("HDPE box culvert 8 ft x 4 ft x 8 in, 6 ft", US),
        ("box culvert steel 8 ft x 4 ft x 8 in, 6 ft", US),
        ("24 in reinforced plastic pipe 8 ft", US),
        ("Reinforced hose pipe 12 in, 20 ft", US),
        ("24 in steel reinforced pipe 8 ft", US),
        ("Fish bolt M24x130", SI),
        ("M12x10", US),
        ("M4x6", None),
        ("FL 100x10", US),
        ("ROUND BAR 2 DIA", SI),
        ("FIBC bag 1000 kg", SI),
        ("Column W12x65 w/ base pl", US),
        ("Tube SS304 80x80x5", SI),
        ("Fish bolt M24x130 with nut", SI),
        ("M24x130", SI),
        ("M12x30", US),
        ("Spring washer M24", SI),
        ("Plate S355", SI),
        ("S355 beam", SI),
        ("C45 round", SI),
        ("C45", SI),
        ("S4S", US),
        ("L6000", SI),
        ("L=6000", SI),
        ("W 100", SI),
        ("W100", SI),
        ("HP 12", US),
        ("HP pump 12x53 spare", US),
        ("Rail clip 60E1", SI),
        ("Rail pad HDPE 170x150x10", SI),
        ("Cast iron rail chair 60E1", SI),
        ("120 CTNS RAIL ANCHORS 115RE", US),
        ("Baseplate for UIC60", SI),
        ("Fishplate 508x120x20 steel", SI),
        ("Clamp for W12x26", US),
        ("IPE", SI),
        ("IPE 310", SI),
        ("IPE 200 A", SI),
        ("IPE decking 140x21", SI),
        ("Ipe 100x20", SI),
        ("T16", SI),
        ("T16 lamp", SI),
        ("#5", US),
        ("rebar No. 10", None),
        ("rebar #10", SI),
        ("rebar No. 10 (10 mm)", None),
        ("rebar chairs 50 mm", SI),
        ("Rebar coupler 16 mm", SI),
        ("GFRP rebar #5", US),
        ("REBAR 12M LONG", SI),
        ("rebar #5 and #8", US),
        ("2x10", US),
        ("2x10 boxes", US),
        ("10x10 Fichte", SI),
        ("Aluminium angle 50x50x5", SI),
        ("Stainless tube 80x80x5", SI),
        ("Copper tube 28x1.5", SI),
        ("Cast iron pipe DN150", SI),
        ("Concrete pipe DN450", SI),
        ("Elbow 90 6in sch 40", US),
        ("FLANGE 6\" SCH 40", US),
        ("2 IN SCH 10S PIPE 304", US),
        ("PIPE 6 SCH40 6.000 OD X .280", US),
        ("Cement lined pipe 6in sch 40", US),
        ("pipe 6", US),
        ("Hollow bar 100/60", SI),
        ("Cable reel 4x25 Cu XLPE 500 m 1.35 kg/m", SI),
        ("Cable trough 1000x250x200", SI),
        ("Kerb 915x255x125", SI),
        ("W12x26 or W14x30", US),
        ("UB 203x133", SI),
        ("UB 203x133x900", SI),
        ("HSS 4x1/4", US),
        ("Tube 60x40", SI),
        ("PN-C8X11.5-A", US),
        ("C8X11.5B", US),
        ("W12x26 mm", US),
        ("W1,200x50", US),
        ("Truss, W12x26 chords", US),
        ("UN1263 PAINT 5 GAL PAILS", US),
        ("4 REELS CU CABLE 1500 FT EA", US),
        ("1 PUMP SKID CRATED 72X48X60 IN", US),
        ("6 STEEL PLATES 1/2\" X 60\" X 120\"", US),
        ("Base plate 300x300x25", SI),
        ("HEX NUT 3/4", US),
        ("Threaded rod dia 30 x 1000", SI),
        ("round 2", None),
        ("rail 115 lb", US),
        ("Guard rail 115RE", US),
        ("plywood and OSB 3/4", US),
        ("Steel roller 89/69", SI),
        ("Gear oil ISO 220", SI),
    ];
    assert!(cases.len() >= 30);
    let found: Vec<String> = cases
        .iter()
        .filter_map(|(text, hint)| {
            recognise(text, *hint).map(|product| format!("{text}: {}", product.designation))
        })
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}
