//! Goods that a list names whole or by volume: bundles of shingles, pallets of bricks, cubic metres.

use super::of;

/// Roofing weight table, on file, second hand: 195, 305 and 425 lb a square of three bundles.
#[test]
fn bundles_of_shingles() {
    let heading = "Description,Qty,Unit,Weight lb";
    for (row, low, likely, high) in [
        ("3-tab shingles,27,bundles,5", 50.0, 65.0, 80.0),
        ("Architectural shingles,27,BDL,5", 65.0, 80.0, 102.0),
        ("Shingles 27 bundles,27,EA,5", 50.0, 80.0, 142.0),
    ] {
        let line = of(heading, row).expect(row).line;
        for (found, each) in [(line.low, low), (line.likely, likely), (line.high, high)] {
            assert!(
                (found.lb() / (27.0 * each) - 1.0).abs() < 1e-6,
                "{row}: {line:?}"
            );
        }
        // The table's own figures lie inside.
        let squares = 27.0 / 3.0;
        let published = match likely {
            65.0 => 195.0,
            _ => 305.0,
        };
        assert!(
            line.low.lb() <= squares * published && squares * published <= line.high.lb(),
            "{row}"
        );
    }
    // A square has three bundles, a pallet many; other stuff is no asphalt.
    for row in [
        "Shingle bundles,27,SQ,5",
        "3-tab shingles,27,EA,5",
        "3-tab shingles,2,PLT,5",
        "\"3-tab shingles, 42 bundles\",2,PLT,5",
        "Cedar shingles,27,BDL,5",
        "Metal shingles,27,BDL,5",
        "Ridge cap shingles,27,BDL,5",
    ] {
        let found = of(heading, row);
        assert!(found.is_err(), "{row}: {found:?}");
    }
}

/// What a column of materials names is what may be in a container. Tare 2,170 kg (forwarder's table, on file).
#[test]
fn a_container_beside_other_stuff_than_steel_is_not_empty() {
    let of = |material: &str| {
        let row = format!("\"20 ft container, empty\",1,{material},5");
        of("Description,Qty,Material,Weight kg", &row)
    };
    for material in ["Steel", "-"] {
        let likely = of(material).expect(material).line.likely.kg();
        assert!((likely / 2_170.0 - 1.0).abs() < 0.001, "{likely}");
    }
    for material in ["Cement", "Aluminium", "furniture"] {
        let found = of(material);
        assert!(found.is_err(), "{material}: {found:?}");
    }
}

/// 4.2 lb a modular brick (brick size and weight list, on file).
#[test]
fn a_pallet_of_so_many_bricks_is_its_bricks_and_the_pallet() {
    for (row, bricks) in [
        ("Pallet of 500 modular bricks,1,PLT,5", 500.0),
        ("Pallet of 500 modular bricks,500,EA,5", 500.0),
        ("PALLET OF 500 MODULAR BRICKS,1,EA,5", 500.0),
        ("Pallet of 500 modular bricks,2,PLT,5", 1_000.0),
    ] {
        let found = of("Description,Qty,Unit,Weight lb", row).expect(row);
        let likely = found.line.likely.lb();
        assert!(
            (likely / (4.2 * bricks) - 1.0).abs() < 0.001,
            "{row}: {likely}"
        );
        assert!(found.tare.high.lb() > 30.0, "{row}: {:?}", found.tare);
    }
    for row in [
        "Pallet of modular bricks,2,PLT,5",
        "2 pallets modular bricks,2,EA,5",
        "Pallet of 2 1/4 in modular bricks,1,EA,5",
    ] {
        let found = of("Description,Qty,Unit,Weight lb", row);
        assert!(found.is_err(), "{row}: {found:?}");
    }
}

/// The densities are those of the materials table; the volume is the line's whatever a board measures.
#[test]
fn a_quantity_of_cubic_metres_is_a_volume_of_its_material() {
    let density = |name: &str| crate::tables::materials::by_name(name).expect(name).density;
    for (row, name, m3) in [
        ("Spruce boards 47x150x4800,12.5,m3,5", "spruce", 12.5),
        (
            "208 pcs spruce boards 47x150x4800,12.5 m3,,5",
            "spruce",
            12.5,
        ),
        ("Gravel,3,m3,5", "gravel", 3.0),
        ("Gravel,4,cu yd,5", "gravel", 4.0 * 0.764_555),
    ] {
        let found = of("Description,Qty,Unit,Weight kg", row).expect(row);
        let expected = density(name).kg_m3() * m3;
        let likely = found.line.likely.kg();
        assert!(
            (likely / expected - 1.0).abs() < 1e-5,
            "{row}: {likely}, expected {expected}"
        );
    }
    // One piece of the stated size would be far too light; a liquid comes in something.
    for row in [
        "Concrete block 1000x1000x1000,12,m3,5",
        "Diesel,2,m3,5",
        "Boards 47x150x4800,12,m3,5",
    ] {
        let found = of("Description,Qty,Unit,Weight kg", row);
        assert!(found.is_err(), "{row}: {found:?}");
    }
}
