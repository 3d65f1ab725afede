//! Lines that must have no estimate rather than a light one.

use super::{described, of};

/// A vessel whose word is not tank is no open pipe, and what fills a standard pipe weighs too.
#[test]
fn contents_and_ends_of_what_is_no_tank_have_no_estimate() {
    for text in [
        "steel vessel full of water dia 1.2 m wall 8 mm length 2 m",
        "steel vessel dia 1.2 m wall 8 mm length 2 m",
        "steel water heater full of water dia 0.6 m wall 5 mm length 1.5 m",
        "water-filled steel cylinder OD 600 mm wall 5 mm length 1500 mm",
        "1000 gal steel tank with 250 gal diesel OD 48 in wall 1/4 in length 128 in flat ends",
        "steel pipe OD 323.9 mm wall 10 mm length 6 m filled with concrete",
        "Pipe 6 in SCH 40 x 20 ft full of water",
    ] {
        let found = described(text, false);
        assert!(found.is_err(), "{text}: {found:?}");
    }
    for text in [
        "steel pipe OD 323.9 mm wall 10 mm length 6 m, full length",
        "steel water pipe OD 323.9 mm wall 10 mm length 6 m",
        "Pipe 6 in SCH 40 x 20 ft",
    ] {
        assert!(described(text, false).is_ok(), "{text}");
    }
}

/// Slabs and basins by bare figures that may be inches or centimetres.
#[test]
fn small_bare_sizes_of_heavy_goods_have_no_unit() {
    for text in [
        "Granite slab 120x60x3",
        "Concrete block 60x60x60",
        "Catch basin 48x48x60",
        "concrete pyramid 60x60x60",
    ] {
        let why = described(text, false).expect_err(text).why;
        assert!(why.contains("unit of the sizes"), "{text}: {why}");
    }
    for text in ["Concrete block 600x600x60", "Granite slab 120x60x3 cm"] {
        assert!(described(text, false).is_ok(), "{text}");
    }
}

/// A package of what comes by several is not one piece.
#[test]
fn how_many_are_in_a_package_must_be_stated() {
    let heading = "Description,Qty,Unit,Weight kg";
    for (text, package) in [
        ("Modular bricks,1,PLT,900", "pallet"),
        ("Cement 94 lb bag,1,PLT,900", "pallet"),
        ("Glass 6 mm 2000x3000 mm,1,CRATE,900", "crate"),
        ("Rebar 16 mm 12 m,1,BDL,900", "bundle"),
        ("IPE 200 12 m,2,BDL,900", "bundle"),
        ("Glass pallet of 6 mm 2000x3000 mm,1,EA,900", "pallet"),
    ] {
        let why = of(heading, text).expect_err(text).why;
        assert_eq!(
            why,
            format!("how many are in the {package} is not stated"),
            "{text}"
        );
    }
    for (text, kg) in [
        // EN 10365: 22.4 kg/m, from memory.
        ("IPE 200 12 m 10 pcs,1,BDL,900", 2_688.0),
        ("IPE 200 12 m,10,PCS,900", 2_688.0),
    ] {
        let likely = of(heading, text).expect(text).line.likely.kg();
        assert!((likely / kg - 1.0).abs() < 0.01, "{text}: {likely}");
    }
}
