//! How heavy a road vehicle with its load may be without a permit of its own, by country.

use crate::units::Mass;
use serde::Deserialize;
use std::sync::LazyLock;

/// One country's limit.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct RoadLimit {
    /// Two letters of ISO 3166-1, or `EU`.
    pub country: String,
    /// Name for people.
    pub name: String,
    /// Most that vehicle and load may weigh together.
    #[serde(rename = "limit_kg")]
    pub limit: Mass,
    /// Rule that it rests on.
    pub source: String,
}

static LIMITS: LazyLock<Vec<RoadLimit>> = LazyLock::new(|| super::rows(super::ROAD_LIMITS));

/// All limits, by country.
pub fn all() -> &'static [RoadLimit] {
    &LIMITS
}

/// The limit of a country, in whatever letters; where none is named, the highest of all.
pub fn of(country: Option<&str>) -> Option<&'static RoadLimit> {
    match country {
        Some(country) => all()
            .iter()
            .find(|limit| limit.country.eq_ignore_ascii_case(country.trim())),
        None => all()
            .iter()
            .max_by(|one, other| one.limit.kg().total_cmp(&other.limit.kg())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorted_plausible_and_found_in_any_letters() {
        assert!(
            all()
                .windows(2)
                .all(|pair| pair[0].country < pair[1].country)
        );
        for limit in all() {
            assert!(
                (30_000.0..80_000.0).contains(&limit.limit.kg()),
                "{limit:?}"
            );
        }
        // 23 CFR 658.17: 80,000 lb.
        let us = of(Some(" us ")).expect("the limit");
        assert!((us.limit.lb() - 80_000.0).abs() < 1.0, "{us:?}");
        assert_eq!(of(Some("Atlantis")), None);
        assert!(
            all()
                .iter()
                .all(|limit| limit.limit.fits(of(None).expect("one").limit))
        );
    }
}
