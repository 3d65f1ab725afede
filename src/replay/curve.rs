//! The verdict of one load at each tolerance of a list, by the one rule that there is ([`compare::verdict`]).

use crate::compare::{self, Tolerance, Verdict};
use crate::estimate::{Estimate, NoEstimate};
use crate::settle::Declared;
use crate::site::Site;

/// Findings that rest on the verdict alone; a load may have others besides.
const OF_WEIGHT: [&str; 4] = [
    "declared-heavy",
    "declared-impossible",
    "declared-light",
    "truck-overloaded",
];

/// Whether a finding of this code goes when the declared weight is no longer doubted.
pub fn is_of_weight(code: &str) -> bool {
    OF_WEIGHT.contains(&code)
}

/// The settings of a site with each tolerance of a list in turn. Groups of materials that have a tolerance of their own keep
/// it, as they would if the site file named another one.
#[derive(Clone, Debug)]
pub struct Curve {
    sites: Vec<Site>,
}

impl Curve {
    /// A curve over tolerances, relative.
    pub fn new(site: &Site, tolerances: &[f64]) -> Curve {
        let with = |tolerance: &f64| Site {
            tolerance: *tolerance,
            ..site.clone()
        };
        Curve {
            sites: tolerances.iter().map(with).collect(),
        }
    }

    /// The verdicts of a load, in the order of the tolerances.
    pub fn verdicts(
        &self,
        declared: Option<&Declared>,
        estimate: Result<&Estimate, &NoEstimate>,
    ) -> Vec<Verdict> {
        let group = estimate.ok().and_then(|estimate| estimate.group);
        let tolerances = self.sites.iter().map(|site| Tolerance::of(site, group));
        tolerances
            .map(|tolerance| compare::verdict(declared, estimate, tolerance))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::Evidence;
    use crate::judge;
    use crate::place::Place;
    use crate::understand::{Basis, How, WeightKind};
    use crate::units::{Mass, MassRange};
    use proptest::prelude::*;

    fn declared(kg: f64, kind: WeightKind) -> Declared {
        Declared {
            mass: Mass::from_kg(kg),
            of: Basis::Line,
            kind,
            how: How::Stated,
            text: kg.to_string(),
            place: Place {
                file: "a.csv".into(),
                sheet: "".into(),
                row: 2,
                column: 3,
            },
            heaviest: Mass::from_kg(kg),
        }
    }

    fn range(low: f64, more: f64) -> MassRange {
        MassRange {
            low: Mass::from_kg(low),
            likely: Mass::from_kg(low + more / 2.0),
            high: Mass::from_kg(low + more),
        }
    }

    fn estimate(evidence: Evidence, line: MassRange, tare: MassRange) -> Estimate {
        Estimate {
            evidence,
            shape: None,
            product: None,
            material: None,
            group: Some("metal"),
            goods: None,
            piece: line,
            line,
            tare,
            block: None,
            otherwise: None,
            solid: false,
            outline: None,
            steps: Vec::new(),
            working: String::new(),
        }
    }

    #[test]
    fn the_findings_of_the_weight_are_findings() {
        for code in OF_WEIGHT {
            assert!(judge::rule(code).is_ok(), "{code}");
        }
    }

    /// 100 kg expected without any doubt: 85 kg are light at 10 %, and no more at 15 %.
    #[test]
    fn a_group_keeps_its_own_tolerance() {
        let mut site = Site::default();
        let estimate = estimate(Evidence::Product, range(100.0, 0.0), range(0.0, 0.0));
        let weight = declared(85.0, WeightKind::Gross);
        let at = |site: &Site| {
            Curve::new(site, &[0.05, 0.10, 0.15]).verdicts(Some(&weight), Ok(&estimate))
        };
        let light = Verdict::Light;
        assert_eq!(at(&site), [light, light, Verdict::Consistent]);
        site.tolerance_by_group.insert("metal".to_string(), 0.05);
        assert_eq!(at(&site), [light, light, light]);
    }

    proptest! {
        /// A wider tolerance never raises a flag that a narrower one does not.
        #[test]
        fn flags_only_go_as_the_tolerance_grows(
            weight in 0.1_f64..20_000.0,
            kind in prop::sample::select(vec![WeightKind::Net, WeightKind::Gross, WeightKind::Unstated]),
            evidence in prop::sample::select(vec![Evidence::Product, Evidence::Shape, Evidence::Envelope]),
            (low, more) in (0.0_f64..10_000.0, 0.0_f64..5_000.0),
            (tare, more_tare) in (0.0_f64..100.0, 0.0_f64..100.0),
            block in prop::option::of(1.0_f64..3.0),
            solid in any::<bool>(),
            upper in prop::option::of(1.0_f64..20_000.0),
            mut tolerances in prop::collection::vec(0.0_f64..=0.5, 2..8),
        ) {
            tolerances.sort_by(f64::total_cmp);
            let curve = Curve::new(&Site::default(), &tolerances);
            let weight = declared(weight, kind);
            let mut estimate = estimate(evidence, range(low, more), range(tare, more_tare));
            estimate.block = block.map(|times| estimate.line.high * times);
            estimate.solid = solid;
            let none = NoEstimate {
                why: String::new(),
                impossible: false,
                goods: None,
                upper: upper.map(Mass::from_kg),
                outline: None,
            };
            for basis in [Ok(&estimate), Err(&none)] {
                let flags: Vec<bool> = curve
                    .verdicts(Some(&weight), basis)
                    .into_iter()
                    .map(Verdict::doubts_weight)
                    .collect();
                prop_assert!(flags.is_sorted_by(|before, after| *before || !*after), "{:?}", flags);
            }
        }
    }
}
