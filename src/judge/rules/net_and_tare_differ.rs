//! `net-and-tare-differ`.

use crate::causes;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::WeightKind;

/// Weights of packaging are rounded, and dunnage is left out (common practice, no source).
const ALLOWED: f64 = 0.02;

rule_type! {
    /// # What was seen
    /// The gross weight is not the net weight plus the tare (the weight of the packaging).
    /// # Why it matters on the dock
    /// One of the three is wrong. If it is the gross weight, the truck is chosen for the wrong load.
    /// # What to do
    /// Ask the supplier which of the three is wrong, or weigh the load as it stands.
    /// # Example
    /// 800 kg net and 25 kg tare beside 925 kg gross: they add up to 825 kg.
    pub struct NetAndTareDiffer;
}

impl Rule for NetAndTareDiffer {
    fn code(&self) -> &'static str {
        "net-and-tare-differ"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let stated = |kind: WeightKind| causes::stated(facts.weights, facts.settled, kind);
        let tare = match (facts.item, facts.package) {
            (Some(item), _) => item.tare,
            (None, package) => package.and_then(|shared| shared.tare),
        };
        let (Some((gross, cell)), Some((net, _)), Some(tare)) =
            (stated(WeightKind::Gross), stated(WeightKind::Net), tare)
        else {
            return;
        };
        let sum = net + tare;
        let off = (gross - sum).kg().abs();
        // A gross weight below the net is said by its own rule.
        if net.fits(gross) && off > gross.max(sum).kg() * ALLOWED && off > 1.0 {
            let shown = |mass| facts.weight(mass);
            let message = format!(
                "net {} and tare {} make {}, gross says {}: one of the three is wrong; weigh it or ask which",
                shown(net),
                shown(tare),
                shown(sum),
                shown(gross)
            );
            found.push(Finding::new(self.code(), Severity::Check, message).at(cell.place.cell()));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Net weight, tare and gross weight of a pallet of bolts.
    fn rows(rows: &[&str]) -> List {
        let lines: Vec<String> = rows
            .iter()
            .map(|row| format!("Hexagon bolts,1,{row}"))
            .collect();
        let csv = format!(
            "Description,Qty,Net weight (kg),Tare (kg),Gross weight (kg)\n{}\n",
            lines.join("\n")
        );
        list(&csv)
    }

    #[test]
    fn fires_above_and_below_the_sum() {
        assert_eq!(
            rows(&["800,25,925", "800,125,825"]).lines("net-and-tare-differ"),
            "check check"
        );
        assert_eq!(
            rows(&["800,25,925"]).message("net-and-tare-differ"),
            "net 800 kg and tare 25 kg make 825 kg, gross says 925 kg: one of the three is wrong; weigh it or ask which"
        );
    }

    #[test]
    fn silent_where_they_fit_or_gross_is_below_net() {
        assert_eq!(rows(&["800,25,825"]).lines("net-and-tare-differ"), "-");
        // That is said once, by the rule for it.
        assert_eq!(rows(&["900,25,800"]).lines("net-and-tare-differ"), "-");
        assert_eq!(rows(&["900,25,800"]).lines("gross-below-net"), "check");
    }

    #[test]
    fn boundary_at_two_percent_and_one_kilogram() {
        // 2 % of 1,020.4 kg are 20.408 kg, of 1,020.5 kg 20.41 kg.
        assert_eq!(
            rows(&["950,50,1020.4", "950,50,1020.5"]).lines("net-and-tare-differ"),
            "- check"
        );
        assert_eq!(
            rows(&["9,1,11", "9,1,11.1"]).lines("net-and-tare-differ"),
            "- check"
        );
    }

    #[test]
    fn missing_one_of_the_three() {
        assert_eq!(
            rows(&["800,,925", ",25,925", "800,25,", "800,TBA,925"]).lines("net-and-tare-differ"),
            "- - - -"
        );
    }
}
