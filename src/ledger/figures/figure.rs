//! The figures of one load, as its record says them.

use serde::Deserialize;
use std::borrow::Cow;

/// The names among the figures, in the order of the table's columns.
pub(in crate::ledger) const NAMES: [&str; 9] = [
    "supplier", "goods", "material", "evidence", "verdict", "severity", "codes", "cause", "truck",
];
const VERDICT: usize = 4;
const SEVERITY: usize = 5;
#[cfg(feature = "export")]
const CODES: usize = 6;
#[cfg(feature = "export")]
const CAUSE: usize = 7;
/// The weights among them, kilograms of the whole load; of the last, of one lift.
pub(in crate::ledger) const WEIGHTS: [&str; 7] = [
    "declared_kg",
    "low_kg",
    "likely_kg",
    "expected_kg",
    "high_kg",
    "plan_kg",
    "overload_kg",
];

/// The figures of a load.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::ledger) struct Figure<'a> {
    /// As [`NAMES`] has them; none where the record does not say.
    pub(in crate::ledger) names: [Option<Cow<'a, str>>; NAMES.len()],
    /// As [`WEIGHTS`] has them.
    pub(in crate::ledger) weights: [Option<f64>; WEIGHTS.len()],
}

/// What is read of `dockheft.line/1` and `dockheft.package/1`.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Record<'a> {
    #[serde(borrow)]
    goods: Option<Cow<'a, str>>,
    #[serde(borrow)]
    verdict: Option<Cow<'a, str>>,
    declared: Option<Kg>,
    #[serde(borrow)]
    estimate: Option<Estimate<'a>>,
    #[serde(borrow)]
    findings: Vec<Finding<'a>>,
    planning: Option<Planning>,
    #[serde(borrow)]
    truck: Option<Truck<'a>>,
    declared_truck: Option<Over>,
}

#[derive(Deserialize)]
struct Kg {
    kg: Option<f64>,
}

#[derive(Deserialize)]
struct Estimate<'a> {
    #[serde(borrow)]
    material: Option<Cow<'a, str>>,
    #[serde(borrow)]
    evidence: Option<Cow<'a, str>>,
    low_kg: Option<f64>,
    likely_kg: Option<f64>,
    expected_kg: Option<f64>,
    high_kg: Option<f64>,
}

#[derive(Deserialize)]
struct Finding<'a> {
    #[serde(borrow)]
    code: Cow<'a, str>,
    #[serde(borrow)]
    severity: Cow<'a, str>,
    #[serde(borrow)]
    cause: Option<Cause<'a>>,
}

#[derive(Deserialize)]
struct Cause<'a> {
    #[serde(borrow)]
    kind: Cow<'a, str>,
}

#[derive(Deserialize)]
struct Planning {
    line_kg: Option<f64>,
}

#[derive(Deserialize)]
struct Truck<'a> {
    #[serde(borrow)]
    id: Option<Cow<'a, str>>,
}

#[derive(Deserialize)]
struct Over {
    over_kg: Option<f64>,
}

impl<'a> Figure<'a> {
    /// The figures of a record with the load's supplier, which the record of a package does not name. A record that is none
    /// has no figures but the supplier.
    pub(in crate::ledger) fn of(body: &'a str, supplier: Option<&'a str>) -> Figure<'a> {
        let record: Record<'_> = serde_json::from_str(body).unwrap_or_default();
        let (material, evidence, range) = match record.estimate {
            Some(estimate) => (
                estimate.material,
                estimate.evidence,
                [
                    estimate.low_kg,
                    estimate.likely_kg,
                    estimate.expected_kg,
                    estimate.high_kg,
                ],
            ),
            None => (None, None, [None; 4]),
        };
        let [low, likely, expected, high] = range;
        let worst = ["stop", "check", "note"].into_iter().find(|severity| {
            let mut findings = record.findings.iter();
            findings.any(|finding| finding.severity == *severity)
        });
        let codes: Vec<&str> = record.findings.iter().map(|one| &*one.code).collect();
        let codes = Cow::Owned(codes.join(" "));
        let mut causes = record.findings.into_iter().filter_map(|one| one.cause);
        Figure {
            names: [
                supplier.map(Cow::Borrowed),
                record.goods,
                material,
                evidence,
                record.verdict,
                Some(Cow::Borrowed(worst.unwrap_or("none"))),
                Some(codes),
                causes.next().map(|cause| cause.kind),
                record.truck.and_then(|truck| truck.id),
            ],
            weights: [
                record.declared.and_then(|declared| declared.kg),
                low,
                likely,
                expected,
                high,
                record.planning.and_then(|planning| planning.line_kg),
                record.declared_truck.and_then(|truck| truck.over_kg),
            ],
        }
    }

    /// The same by itself, apart from the record.
    pub(in crate::ledger) fn into_owned(self) -> Figure<'static> {
        Figure {
            names: self
                .names
                .map(|name| name.map(|name| Cow::Owned(name.into_owned()))),
            weights: self.weights,
        }
    }

    /// It is lifted and judged with its package, and counts there.
    pub(super) fn is_shared(&self) -> bool {
        self.names[VERDICT].as_deref() == Some("shared")
    }

    /// Somebody had to look at it.
    pub(in crate::ledger) fn is_flagged(&self) -> bool {
        matches!(self.severity(), Some("stop" | "check"))
    }

    /// The worst severity among its findings, or `none`.
    pub(in crate::ledger) fn severity(&self) -> Option<&str> {
        self.names[SEVERITY].as_deref()
    }

    /// The codes of its findings, a blank between.
    #[cfg(feature = "export")]
    pub(in crate::ledger) fn codes(&self) -> Option<&str> {
        self.names[CODES].as_deref()
    }

    /// Kind of the likeliest cause.
    #[cfg(feature = "export")]
    pub(in crate::ledger) fn cause(&self) -> Option<&str> {
        self.names[CAUSE].as_deref()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_figures_are_those_of_the_record() {
        let body = r#"{"schema":"dockheft.line/1","goods":"plate","declared":{"kg":490.0,"of":"line"},
            "estimate":{"evidence":"shape","material":"carbon \"steel\"","low_kg":1.5,"likely_kg":2.0,"expected_kg":2.25,"high_kg":2.5,"working":"x"},
            "verdict":"light","findings":[
            {"code":"close-call","severity":"note","message":"","field":null,"cause":null},
            {"code":"declared-light","severity":"check","message":"","field":null,"cause":{"kind":"kg-lb","would_be_kg":1.0,"share":0.9}},
            {"code":"other","severity":"note","message":"","field":null,"cause":{"kind":"digits","would_be_kg":1.0,"share":0.1}}],
            "planning":{"line_kg":2.75,"lift_kg":1.0,"from":"larger"},"truck":null,"declared_truck":{"id":"A","over_kg":3.5}}"#;
        let figure = Figure::of(body, Some("Tarn Steel"));
        let names = figure.names.each_ref().map(|name| name.as_deref());
        let said = [
            Some("Tarn Steel"),
            Some("plate"),
            Some("carbon \"steel\""),
            Some("shape"),
            Some("light"),
            Some("check"),
            Some("close-call declared-light other"),
            Some("kg-lb"),
            None,
        ];
        assert_eq!(names, said);
        let weights = [490.0, 1.5, 2.0, 2.25, 2.5, 2.75, 3.5].map(Some);
        assert_eq!(figure.weights, weights);
        assert!(figure.is_flagged() && !figure.is_shared());
    }

    #[test]
    fn what_a_record_does_not_say_is_no_figure() {
        let bare = Figure::of(
            r#"{"verdict":"shared","findings":[],"declared":null,"estimate":null,"planning":{"line_kg":null}}"#,
            None,
        );
        assert!(bare.is_shared() && !bare.is_flagged());
        assert_eq!(bare.weights, [None; 7]);
        let said: Vec<&str> = bare.names.iter().flatten().map(|name| &**name).collect();
        assert_eq!(said, ["shared", "none", ""]);
        let no_record = Figure::of("{", Some("Tarn Steel"));
        assert_eq!(no_record.names[0].as_deref(), Some("Tarn Steel"));
        assert_eq!(no_record.names[VERDICT], None);
    }
}
