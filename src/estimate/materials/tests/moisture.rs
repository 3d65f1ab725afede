//! Wood by its moisture, against published densities and shipping weights.

use super::{in_column, in_condition, in_description};
use crate::estimate::materials::Found;
use crate::tables::materials::{Material, by_name};

const KG_M3_PER_LB_FT3: f64 = 16.018_463_37;

#[track_caller]
fn of(text: &str) -> &'static Material {
    match in_description(text, false) {
        Found::Known { material, .. } => material,
        other => panic!("{text}: {other:?}"),
    }
}

/// Density of moist wood, kg/m3, from the specific gravity at that moisture: Wood Handbook FPL-GTR-282, Eq. 4-14.
fn eq_4_14(gravity: f64, moisture_pct: f64) -> f64 {
    1_000.0 * gravity * (1.0 + moisture_pct / 100.0)
}

/// Specific gravity at a moisture below fibre saturation from the basic one: Wood Handbook FPL-GTR-282, Eq. 4-13.
fn eq_4_13(basic: f64, moisture_pct: f64) -> f64 {
    basic / (1.0 - 0.265 * basic * (1.0 - moisture_pct / 30.0))
}

#[test]
fn air_dry_densities_are_those_published() {
    // Average shipping weights, air dry: Oregon State University, Oregon Wood Innovation Center.
    for (text, lb_ft3) in [
        ("Douglas fir 4x4 dry", 34.0),
        ("western larch post KD", 36.0),
        ("western hemlock board KD", 31.0),
    ] {
        let dry = of(text);
        let printed = lb_ft3 * KG_M3_PER_LB_FT3;
        assert!((dry.density.kg_m3() / printed - 1.0).abs() < 0.02, "{text}");
        assert!(
            dry.low.kg_m3() < printed && printed < dry.high.kg_m3(),
            "{text}"
        );
    }
    // Specific gravity at 12 %, Wood Handbook Tables 5-3a and 5-5a (radiata pine: basic 0.42).
    for (text, density) in [
        ("Douglas fir KD", eq_4_14(0.48, 12.0)),
        ("red oak board, kiln dried", eq_4_14(0.63, 12.0)),
        ("radiata pine dry", eq_4_14(eq_4_13(0.42, 12.0), 12.0)),
    ] {
        assert!(
            (of(text).density.kg_m3() / density - 1.0).abs() < 0.001,
            "{text}"
        );
    }
}

#[test]
fn green_densities_are_those_published() {
    // Douglas fir: 43 lb/ft3 green shipping weight (Oregon State University); hem-fir: 41. Red oak: basic 0.56 (Wood
    // Handbook Table 5-3a) at 80 % moisture (Table 4-1).
    for (text, density) in [
        ("Douglas fir 6x6 green", 43.0 * KG_M3_PER_LB_FT3),
        ("hem-fir 2x10 S-GRN", 41.0 * KG_M3_PER_LB_FT3),
        ("red oak tie, green", eq_4_14(0.56, 80.0)),
    ] {
        assert!(
            (of(text).density.kg_m3() / density - 1.0).abs() < 0.005,
            "{text}"
        );
    }
}

/// What is stated narrows the band; what is not stated keeps green wood in it.
#[test]
fn stated_moisture_is_a_narrower_band_inside_the_unstated_one() {
    for name in [
        "Douglas fir",
        "southern pine",
        "spruce-pine-fir",
        "red oak",
        "European spruce",
    ] {
        let open = by_name(name).expect(name);
        let dry = in_condition(open, "KD19");
        assert_eq!(dry.density, open.density);
        assert!(open.low <= dry.low && dry.high < open.high, "{name}");
        assert!(dry.high / dry.low < 1.4, "{name}");
    }
    // Douglas fir green ships at 43 lb/ft3 (Oregon State University), 26 % above air dry.
    let open = by_name("Douglas fir").expect("a row");
    assert!(open.high.kg_m3() > 43.0 * KG_M3_PER_LB_FT3);
}

#[test]
fn words_of_moisture() {
    for (text, name) in [
        ("2x6 SPRUCE-PINE-FIR KD-HT", "spruce-pine-fir dry"),
        ("Douglas fir 2x10 S-DRY", "Douglas fir dry"),
        ("Fichte kammergetrocknet", "European spruce dry"),
        // Dried before the treatment, and as wet as the treatment left it; dried after it.
        ("southern pine KD19 treated", "treated southern pine"),
        ("southern pine treated KDAT", "southern pine dry"),
        // Both said: the heavier one.
        ("Douglas fir green, not dried", "Douglas fir green"),
        // Woods of several species keep their band.
        ("pine board KD", "pine"),
        ("softwood dry", "softwood"),
        // Nothing said.
        ("Douglas fir 2x10", "Douglas fir"),
    ] {
        assert_eq!(of(text).name, name, "{text}");
    }
    // "Dry" says nothing of other goods.
    let Found::Known { material, .. } = in_column("concrete, dry") else {
        panic!("concrete")
    };
    assert_eq!(material.name, "concrete");
}
