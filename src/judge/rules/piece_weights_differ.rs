//! `piece-weights-differ`.

use crate::judge::alike::{self, listed};
use crate::judge::{DeliveryFacts, Finding, Rule, Severity};

/// Items that the finding names.
const MOST_NAMED: usize = 3;

rule_type! {
    /// # What was seen
    /// The same item stands on two lines of the delivery, and by the declared weights one piece weighs more on one line than on the other.
    /// # Why it matters on the dock
    /// One of the two weights is wrong. If it is the lighter one, the truck chosen for it may be too small.
    /// # What to do
    /// Weigh one piece, or ask the supplier which weight is right. Until then take every piece for as heavy as the heavier weight says.
    /// A line that nothing else can check is held where its truck would not take that.
    /// # Example
    /// Item B-77 at 42 kg a piece on one line of a Kestrel Junction list, and at 24 kg a piece nine rows below.
    pub struct PieceWeightsDiffer;
}

impl Rule for PieceWeightsDiffer {
    fn code(&self) -> &'static str {
        "piece-weights-differ"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let cell = |at: usize| {
            let declared = facts.lines.get(at).and_then(|line| line.declared);
            declared.map_or(String::new(), |declared| declared.place.cell())
        };
        let items = alike::two_weights(facts.lines);
        let Some((first, _)) = items.first() else {
            return;
        };
        let field = cell(first.light.0);
        let said = items.iter().map(|(two, _)| {
            let line = facts.lines.get(two.light.0);
            let item = line.map_or("", |line| {
                let number = line.item.item.as_deref();
                number.unwrap_or(&line.item.description)
            });
            let shown = |mass| facts.weight(mass);
            format!(
                "\"{item}\" weighs {} a piece ({}) and {} a piece ({})",
                shown(two.light.1),
                cell(two.light.0),
                shown(two.heavy.1),
                cell(two.heavy.0)
            )
        });
        let message = format!(
            "one item at two weights: {}; weigh one piece or ask which is right, until then count on the heavier",
            listed(said, MOST_NAMED)
        );
        found.push(Finding::new(self.code(), Severity::Check, message).at(field));
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};
    use crate::site::Site;
    use crate::units::Mass;

    /// Item number, pieces and net weight of the line, of castings without a size.
    fn castings(rows: &[&str]) -> List {
        let lines: Vec<String> = rows
            .iter()
            .map(|row| {
                let (item, rest) = row.split_once(',').expect("an item");
                format!("{item},Bracket,{rest}")
            })
            .collect();
        list(&format!(
            "Item,Description,Qty,Total net weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_an_item_at_two_piece_weights() {
        let two = || castings(&["B-77,10,420", "B-80,1,300", "B-77,5,120"]);
        assert_eq!(two().delivery("piece-weights-differ"), "check");
        let delivery = two().audited();
        let said = &delivery.findings[0].message;
        assert!(
            said.contains("\"B-77\" weighs 24 kg a piece (D4) and 42 kg a piece (D2)"),
            "{said}"
        );
    }

    #[test]
    fn fires_once_and_names_three_items() {
        let rows: Vec<String> = (0..400)
            .map(|at| format!("B-{},1,{}", at % 200, 100 + at))
            .collect();
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        assert_eq!(castings(&rows).delivery("piece-weights-differ"), "check");
        let delivery = castings(&rows).audited();
        let mut findings = delivery.findings.iter();
        let found = findings.find(|finding| finding.code == "piece-weights-differ");
        let said = &found.expect("the finding").message;
        assert!(said.contains("; and 197 more"), "{said}");
    }

    #[test]
    fn fires_and_holds_what_its_truck_would_not_take() {
        // A truck of 1,000 kg was named for 900 kg; by the other line the piece weighs 1,800 kg.
        let rows = ["B-77,1,900", "B-77,1,1800"];
        assert_eq!(castings(&rows).shallow().lines("held"), "stop -");
        // 420 kg is still within its truck's 1,000 kg.
        let rows = ["B-77,1,210", "B-77,1,420"];
        assert_eq!(castings(&rows).shallow().lines("held"), "- -");
    }

    #[test]
    fn fires_and_holds_what_the_vehicles_floor_would_not_bear() {
        // 4,100 kg of floor less the truck's 3,500 kg and the operator's 90 kg leave 510 kg.
        let site = Site {
            vehicle_floor_kg: Some(Mass::from_kg(4_100.0)),
            ..Site::default()
        };
        let truck = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Service weight (kg)\nS1,V,2000,600,4000,3500\n";
        let rows = ["B-77,1,400", "B-77,1,1500"];
        assert_eq!(castings(&rows).fleet(truck).lines("held"), "- -");
        assert_eq!(
            castings(&rows).fleet(truck).site(site).lines("held"),
            "stop -"
        );
    }

    #[test]
    fn silent_on_other_goods_and_on_one_weight() {
        let rows = ["B-77,10,420", "B-77,5,210", "B-80,1,300"];
        assert_eq!(castings(&rows).delivery("piece-weights-differ"), "-");
        // "Spare parts" without a number or a size may be anything.
        let parts =
            list("Description,Qty,Total net weight (kg)\nSpare parts,1,100\nSpare parts,1,300\n");
        assert_eq!(parts.delivery("piece-weights-differ"), "-");
        // The same plate by its sizes, in two lengths.
        let plates = list(
            "Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Total net weight (kg)\n\
             Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,4000,1000,10,314\n",
        );
        assert_eq!(plates.delivery("piece-weights-differ"), "-");
    }

    #[test]
    fn boundary_at_the_tolerance_and_the_floor() {
        // Tolerance 10 %, floor 5 kg a line (site settings): 110 kg beside 100 kg, 15 kg beside 10 kg.
        for (rows, said) in [
            (["B-77,1,100", "B-77,1,110"], "-"),
            (["B-77,1,100", "B-77,1,110.1"], "check"),
            (["B-77,1,10", "B-77,1,15"], "-"),
            (["B-77,1,10", "B-77,1,15.1"], "check"),
        ] {
            assert_eq!(
                castings(&rows).delivery("piece-weights-differ"),
                said,
                "{rows:?}"
            );
        }
    }

    #[test]
    fn missing_weight_or_number_of_pieces_has_no_piece_weight() {
        for rows in [["B-77,10,420", "B-77,5,"], ["B-77,10,420", "B-77,,120"]] {
            assert_eq!(castings(&rows).delivery("piece-weights-differ"), "-");
        }
    }
}
