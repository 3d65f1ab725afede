//! `weights-copied-down`.

use crate::judge::alike::{self, listed};
use crate::judge::{DeliveryFacts, Finding, Rule, Severity};

/// Runs of lines that the finding names.
const MOST_NAMED: usize = 3;

rule_type! {
    /// # What was seen
    /// Several lines in a row, of goods that are not alike, have the very same weight.
    /// # Why it matters on the dock
    /// The weight was probably typed once and copied down the column. It is then right for one line at most, and says nothing of the others.
    /// # What to do
    /// Ask the supplier for the weight of each of these lines, or weigh them. Those that nothing else can check are held.
    /// # Example
    /// A motor, a gear and a drum at Kestrel Junction, three rows one below the other, each with 1,364 kg.
    pub struct WeightsCopiedDown;
}

impl Rule for WeightsCopiedDown {
    fn code(&self) -> &'static str {
        "weights-copied-down"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let runs = alike::copied_runs(facts.lines, facts.site.hand_piece_kg);
        let declared = |at: usize| facts.lines.get(at).and_then(|line| line.declared);
        let ends = |run: &std::ops::Range<usize>| {
            let (first, last) = (declared(run.start)?, declared(run.end - 1)?);
            Some((first, last.place.cell()))
        };
        let said = runs.iter().filter_map(ends).map(|(first, last)| {
            let (text, cell) = (&first.text, first.place.cell());
            format!("\"{text}\" from {cell} to {last}")
        });
        let Some((first, _)) = runs.first().and_then(ends) else {
            return;
        };
        let message = format!(
            "one weight stands on unlike goods in a row: {}; it was probably copied down; ask for the weight of each line",
            listed(said, MOST_NAMED)
        );
        found.push(Finding::new(self.code(), Severity::Check, message).at(first.place.cell()));
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list, plates};

    /// Goods without a size, with their weight.
    fn goods(rows: &[&str]) -> List {
        list(&format!(
            "Description,Qty,Total weight (kg)\n{}\n",
            rows.join("\n")
        ))
    }

    /// Plates of 2 x 1 m, 10 mm, 15 mm and 20 mm thick: 157, 235.5 and 314 kg at 7,850 kg/m3.
    fn three(weight: &str) -> List {
        let row = |thick: u32| format!("Steel plate,S235,1,2000,1000,{thick},{weight}");
        plates(&[10, 15, 20].map(row).join("\n"))
    }

    #[test]
    fn fires_on_one_weight_for_unlike_goods() {
        assert_eq!(three("157").delivery("weights-copied-down"), "check");
        let said = three("157").audited().findings[0].message.clone();
        assert!(said.contains("\"157 kg\" from G2 to G4"), "{said}");
        // Nothing can check these: they are held.
        let parts = ["Motor,1,1364", "Gear,1,1364", "Drum,1,1364"];
        assert_eq!(goods(&parts).delivery("weights-copied-down"), "check");
        assert_eq!(goods(&parts).lines("held"), "stop stop stop");
    }

    #[test]
    fn silent_on_like_goods_and_on_weights_that_are_borne_out() {
        let same = ["Motor,1,1364", "Motor,1,1364", "Motor,1,1364"];
        assert_eq!(goods(&same).delivery("weights-copied-down"), "-");
        // Three pallets of a round weight may well be of different goods.
        let round = ["Lime,1,1000", "Grout,1,1000", "Sand mix,1,1000"];
        assert_eq!(goods(&round).delivery("weights-copied-down"), "-");
        // So may 1,250 kg, and 1,000 kg written in pounds.
        for weight in ["1250", "2205 lb"] {
            let rows = ["Lime", "Grout", "Sand mix"].map(|name| format!("{name},1,{weight}"));
            let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
            assert_eq!(
                goods(&rows).delivery("weights-copied-down"),
                "-",
                "{weight}"
            );
        }
        // 2 x 1 x 0.01 m, 1 x 1 x 0.02 m and 4 x 0.5 x 0.01 m are all 157 kg.
        let alike = "Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,1000,1000,20,157\n\
                     Steel plate,S235,1,4000,500,10,157";
        assert_eq!(plates(alike).delivery("weights-copied-down"), "-");
    }

    #[test]
    fn boundary_at_three_unlike_goods_and_at_what_is_lifted_by_hand() {
        let rows = ["Motor,1,1364", "Gear,1,1364", "Drum,1,1365"];
        assert_eq!(goods(&rows).delivery("weights-copied-down"), "-");
        for (weight, said) in [("24.9", "-"), ("25.1", "check")] {
            let rows = ["Motor", "Gear", "Drum"].map(|name| format!("{name},1,{weight}"));
            let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
            assert_eq!(goods(&rows).delivery("weights-copied-down"), said);
        }
    }

    /// Drums are filled to a weight: it is asked about, and holds nothing.
    #[test]
    fn fires_without_holding_on_drums_of_unlike_stuff() {
        let rows = [
            "Drum of coolant 208 L,1,203",
            "Drum of solvent 208 L,1,203",
            "Drum of flux 208 L,1,203",
        ];
        assert_eq!(goods(&rows).delivery("weights-copied-down"), "check");
        assert_eq!(goods(&rows).lines("held"), "- - -");
    }

    #[test]
    fn missing_weight_ends_the_run() {
        let rows = ["Motor,1,1364", "Gear,1,", "Drum,1,1364", "Pump,1,1364"];
        assert_eq!(goods(&rows).delivery("weights-copied-down"), "-");
    }
}
