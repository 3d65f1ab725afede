//! `tall-load`.

use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The load is taller than twice the load centre on the truck's capacity plate (the distance from the fork face for which its capacity holds).
    /// # Why it matters on the dock
    /// The plate counts on a load whose centre is no higher above the forks than it is out from them. A taller one tips sooner.
    /// # What to do
    /// Have a competent person look at the load before it is lifted, and say how: low, slow, mast tilted back, or another way.
    /// # Example
    /// A cabinet 2.1 m high on a truck whose plate has a load centre of 600 mm: more than 1.2 m is tall.
    pub struct TallLoad;
}

impl Rule for TallLoad {
    fn code(&self) -> &'static str {
        "tall-load"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.tall {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                "the load is taller than the capacity plate counts on: have it looked at by a competent person before lifting",
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Heights in mm of a cabinet of 200 kg, 0.8 m square; the trucks' plates stand for 600 mm.
    fn cabinets(heights: &[&str]) -> List {
        let lines: Vec<String> = heights
            .iter()
            .map(|height| format!("Steel cabinet,1,800,800,{height},200"))
            .collect();
        list(&format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_a_tall_cabinet() {
        assert_eq!(cabinets(&["2100"]).lines("tall-load"), "check");
    }

    #[test]
    fn silent_on_a_low_one() {
        assert_eq!(cabinets(&["900"]).lines("tall-load"), "-");
    }

    #[test]
    fn boundary_at_twice_the_load_centre_of_the_plate() {
        assert_eq!(cabinets(&["1200", "1201"]).lines("tall-load"), "- check");
    }

    #[test]
    fn missing_height_or_truck_says_nothing() {
        assert_eq!(cabinets(&[""]).lines("tall-load"), "-");
        assert_eq!(cabinets(&["2100"]).without_fleet().lines("tall-load"), "-");
    }
}
