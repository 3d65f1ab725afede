//! Liquids against published densities; what fills a drum decides its weight.

use super::{in_column, name};
use crate::estimate::materials::Found;

const KG_M3_PER_LB_FT3: f64 = 16.018_463_37;
/// 1 lb in 1 US gal (231 in3), kg/m3: NIST Handbook 44, Appendix C.
const KG_M3_PER_LB_GAL: f64 = 119.826_427;

#[test]
fn densities_of_liquids_are_those_published() {
    for (text, published, part, source) in [
        (
            "water",
            62.316_4 * KG_M3_PER_LB_FT3,
            0.001,
            "US Navy S0300-A8-HBK-010, App. E, at 20 C",
        ),
        (
            "fresh water",
            8.33 * KG_M3_PER_LB_GAL,
            0.001,
            "8.33 lb/US gal at 68 F, from the same table",
        ),
        (
            "sea water",
            63.99 * KG_M3_PER_LB_FT3,
            0.001,
            "US Navy S0300-A8-HBK-010, App. E",
        ),
        (
            "gasoline",
            6.20 * KG_M3_PER_LB_GAL,
            0.001,
            "US Army Quartermaster subcourse QM5200",
        ),
        (
            "Jet A",
            807.5,
            0.002,
            "MIL-HDBK-1022A: relative density 0.775 to 0.840, the middle",
        ),
        (
            "diesel",
            832.5,
            0.01,
            "EN 590: 820 to 845 kg/m3 at 15 C, the middle",
        ),
        (
            "ethanol",
            789.4,
            0.001,
            "reference equation of state at 20 C",
        ),
        (
            "glycerine",
            1_261.3,
            0.001,
            "liquid density correlations at 20 C",
        ),
    ] {
        let found = in_column(text);
        let Found::Known { material, .. } = found else {
            panic!("{text}: {}", name(&found))
        };
        let off = (material.density.kg_m3() / published - 1.0).abs();
        assert!(
            off <= part,
            "{text}: {} against {published}, {source}",
            material.density.kg_m3()
        );
    }
}

/// The printed limits lie inside the band.
#[test]
fn published_limits_lie_inside_the_band() {
    for (text, low, high, source) in [
        ("JP-8", 775.0, 840.0, "MIL-HDBK-1022A"),
        ("diesel", 820.0, 845.0, "EN 590 at 15 C"),
        ("petrol", 720.0, 775.0, "EN 228 at 15 C, from memory"),
    ] {
        let found = in_column(text);
        let Found::Known { material, .. } = found else {
            panic!("{text}: {}", name(&found))
        };
        assert!(
            material.low.kg_m3() <= low && high <= material.high.kg_m3(),
            "{text}: {material:?}, {source}"
        );
    }
}
