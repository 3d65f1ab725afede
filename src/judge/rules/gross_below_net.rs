//! `gross-below-net`.

use crate::causes::{self, Slip};
use crate::estimate::products;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::Basics;
use crate::tables::packages::{self, Counts};
use crate::understand::{Item, WeightKind};
use crate::units::{Mass, MassRange};

rule_type! {
    /// # What was seen
    /// The gross weight (with packaging) is below the net weight (without it).
    /// # Why it matters on the dock
    /// Goods cannot weigh less with their packaging: one of the two is wrong, or they stand in each other's place.
    /// # What to do
    /// Ask the supplier which is which, or weigh it. Plan with no less than the larger of the two.
    /// # Example
    /// 887 lb gross beside 912 lb net.
    pub struct GrossBelowNet;
}

impl Rule for GrossBelowNet {
    fn code(&self) -> &'static str {
        "gross-below-net"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let stated = |kind: WeightKind| causes::stated(facts.weights, facts.settled, kind);
        if let (Some((gross, cell)), Some((net, _))) =
            (stated(WeightKind::Gross), stated(WeightKind::Net))
            && !net.fits(gross)
        {
            let message = format!(
                "gross ({}) is below net ({}): one is wrong or they are exchanged; ask which is which",
                facts.weight(gross),
                facts.weight(net)
            );
            let slip = Slip::beside_net(cell, facts.settled, net, tare(facts), facts.tolerance);
            let causes = slip
                .map(|slip| causes::named(&slip, &facts.site.priors))
                .unwrap_or_default();
            found.push(
                Finding::new(self.code(), Severity::Check, message)
                    .at(cell.place.cell())
                    .explained(&causes),
            );
        }
    }
}

/// The packaging that stands between the two.
fn tare(facts: &Facts<'_>) -> MassRange {
    match (facts.item, facts.package) {
        (Some(item), _) => of_line(item),
        (None, Some(shared)) => Basics::of_package(shared).tare,
        (None, None) => MassRange {
            low: Mass::ZERO,
            likely: Mass::ZERO,
            high: Mass::ZERO,
        },
    }
}

/// Pallets and the like, with the drums, pails or totes that stand on them: their tare is no packaging to the estimate.
fn of_line(item: &Item) -> MassRange {
    let packaging = Basics::of_item(item).tare;
    let Some(container) = products::container(&item.description) else {
        return packaging;
    };
    let containers = container.tare.times(f64::from(item.pieces));
    let packed = item.packed_as.and_then(packages::by_name);
    match packed.map(|word| word.counts) {
        Some(Counts::Package) => containers.plus(packaging),
        _ => containers,
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Net and gross weight of a plate.
    fn rows(rows: &[&str]) -> List {
        let lines: Vec<String> = rows
            .iter()
            .map(|row| format!("Steel plate,1,{row}"))
            .collect();
        let csv = format!(
            "Description,Qty,Net weight (kg),Gross weight (kg)\n{}\n",
            lines.join("\n")
        );
        list(&csv)
    }

    #[test]
    fn fires_below() {
        assert_eq!(rows(&["912,887"]).lines("gross-below-net"), "check");
        assert!(
            rows(&["912,887"])
                .message("gross-below-net")
                .contains("912 kg")
        );
    }

    #[test]
    fn silent_above() {
        assert_eq!(rows(&["887,912"]).lines("gross-below-net"), "-");
    }

    #[test]
    fn boundary_of_unpacked_goods() {
        assert_eq!(
            rows(&["157,157", "157,156.9"]).lines("gross-below-net"),
            "- check"
        );
    }

    #[test]
    fn missing_one_of_the_two() {
        assert_eq!(
            rows(&["912,", ",887", "912,TBA"]).lines("gross-below-net"),
            "- - -"
        );
    }
}
