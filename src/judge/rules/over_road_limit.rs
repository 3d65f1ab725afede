//! `over-road-limit`.

use crate::compare::{Verdict, expected};
use crate::judge::{DeliveryFacts, Finding, Judged, Rule, Severity};
use crate::tables::road_limits;
use crate::units::Mass;
use std::collections::BTreeMap;

rule_type! {
    /// # What was seen
    /// What is declared for one vehicle is heavier than a whole road vehicle with its load may be in the site's country.
    /// The country stands in the site file; without it the highest limit of any country that is known counts.
    /// # Why it matters on the dock
    /// So much cannot have come on one road vehicle. It came on several, or by rail, or weights of this list are wrong: a unit, a decimal point, the weight of a line written for each piece.
    /// # What to do
    /// Ask how many vehicles bring it. If it is one, go through the weights with the supplier before the heaviest are lifted.
    /// # Example
    /// A list of one truckload for Kestrel Junction whose weights add up to 61,000 kg, where a vehicle with its load may weigh 44,000 kg.
    pub struct OverRoadLimit;
}

impl Rule for OverRoadLimit {
    fn code(&self) -> &'static str {
        "over-road-limit"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let country = facts.site.country.as_deref();
        let Some(limit) = road_limits::of(country) else {
            return;
        };
        let shown = |mass| facts.weight(mass);
        let whose = match country {
            Some(_) => format!("the limit in {}", limit.name),
            None => format!(
                "the highest limit known, {}'s; name the site's country in the site file",
                limit.name
            ),
        };
        for (vehicle, load) in loads(facts) {
            if load.fits(limit.limit) {
                continue;
            }
            let on = match vehicle {
                "" => String::new(),
                name => format!(" on \"{name}\""),
            };
            let message = format!(
                "the goods{on} weigh {} together; a road vehicle with its load may weigh {} ({whose}): ask how many vehicles bring them, else weights are wrong",
                shown(load),
                shown(limit.limit)
            );
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}

/// What is declared by vehicle; all under no name where rows name none. A weight that the goods cannot have is counted as
/// they should weigh: its line says so itself.
fn loads<'a>(facts: &DeliveryFacts<'a>) -> BTreeMap<&'a str, Mass> {
    let mut loads: BTreeMap<&str, Mass> = BTreeMap::new();
    for line in facts.lines {
        let vehicle = line.item.vehicle.as_deref().unwrap_or_default();
        *loads.entry(vehicle).or_default() += mass(line);
    }
    for (vehicle, mass) in facts.packages {
        *loads.entry(vehicle).or_default() += *mass;
    }
    loads
}

fn mass(line: &Judged<'_>) -> Mass {
    let declared = line.declared.map_or(Mass::ZERO, |declared| declared.mass);
    match (line.verdict, line.estimate, line.declared) {
        (Verdict::Heavy | Verdict::Impossible, Ok(estimate), Some(found)) => {
            declared.min(expected(estimate, found.kind).likely)
        }
        _ => declared,
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};
    use crate::site::Site;

    fn goods(country: Option<&str>, rows: &[&str]) -> List {
        let site = Site {
            country: country.map(str::to_string),
            ..Site::default()
        };
        let csv = format!(
            "Vehicle No,Item,Description,Qty,Total gross weight (kg)\n{}\n",
            rows.join("\n")
        );
        list(&csv).site(site)
    }

    #[test]
    fn fires_on_more_than_a_vehicle_may_weigh() {
        let rows = ["V1,A-1,Transformer,1,30000", "V1,A-2,Winding,1,15000"];
        let found = || goods(Some("GB"), &rows);
        assert_eq!(found().delivery("over-road-limit"), "check");
        let said = found().audited().findings[0].message.clone();
        assert!(
            said.contains("45,000 kg") && said.contains("Great Britain"),
            "{said}"
        );
        // Without a country, the highest limit, and that is said.
        let rows = ["V1,A-1,Transformer,1,77000"];
        let said = goods(None, &rows).audited().findings[0].message.clone();
        assert!(said.contains("highest limit known"), "{said}");
    }

    #[test]
    fn silent_where_several_vehicles_share_it_or_one_line_is_the_slip() {
        let rows = ["V1,A-1,Transformer,1,30000", "V2,A-2,Winding,1,15000"];
        assert_eq!(goods(Some("GB"), &rows).delivery("over-road-limit"), "-");
        // A plate of 157 kg at 157,000 kg is said of the plate.
        let slip = list(
            "Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Total weight (kg)\n\
             Steel plate,S235,1,2000,1000,10,157000\n",
        );
        assert_eq!(slip.delivery("over-road-limit"), "-");
    }

    #[test]
    fn boundary_at_the_limit_of_the_country() {
        for (country, weight, said) in [
            ("GB", "44000", "-"),
            ("GB", "44001", "check"),
            // 23 CFR 658.17: 80,000 lb are 36,287.4 kg.
            ("US", "36287", "-"),
            ("US", "36288", "check"),
        ] {
            let row = format!("V1,A-1,Transformer,1,{weight}");
            let found = goods(Some(country), &[&row]).delivery("over-road-limit");
            assert_eq!(found, said, "{country} {weight}");
        }
    }

    #[test]
    fn missing_weights_add_nothing() {
        let rows = ["V1,A-1,Transformer,1,44000", "V1,A-2,Winding,1,"];
        assert_eq!(goods(Some("GB"), &rows).delivery("over-road-limit"), "-");
    }
}
