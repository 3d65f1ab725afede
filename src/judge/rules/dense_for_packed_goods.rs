//! `dense-for-packed-goods`.

use crate::estimate::LEAD_KG_M3;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

/// Packed goods of no stated material are seldom denser, kg/m3 (method, section 3).
const DENSEST_KG_M3: f64 = 3_000.0;

rule_type! {
    /// # What was seen
    /// A pallet, crate or box of unknown contents is declared so heavy for its size that it would have to be filled almost solid with steel or stone.
    /// # Why it matters on the dock
    /// Packed goods have air between them. The weight or a size is probably wrong, or the contents are something to know about before they are lifted.
    /// # What to do
    /// Ask the supplier what is in it and how its weight was found, or weigh it.
    /// # Example
    /// A crate of 800 x 600 x 500 mm with spare parts at Kestrel Junction, 1,200 kg: 5,000 kg to the cubic metre.
    pub struct DenseForPackedGoods;
}

impl Rule for DenseForPackedGoods {
    fn code(&self) -> &'static str {
        "dense-for-packed-goods"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Some(declared) = facts.declared else {
            return;
        };
        // Without an item it is a package.
        let packed = facts
            .item
            .is_none_or(|item| item.packed_as.is_some() || !item.package_sizes.is_empty());
        // The outline filled with lead tells its volume.
        let Some(lead) = facts.estimate.err().and_then(|no| no.upper) else {
            return;
        };
        let most = lead * (DENSEST_KG_M3 / LEAD_KG_M3);
        // More than lead is said by the rule for it.
        let possible = facts.verdict == crate::compare::Verdict::Unverifiable;
        if packed && possible && !declared.mass.fits(most) {
            let message = format!(
                "{} declared ({}: \"{}\"): packed goods of that size seldom weigh more than {}; ask what is in it, or weigh it",
                facts.weight(declared.mass),
                declared.place.cell(),
                declared.text,
                facts.shown(|units| show::planning(most, units))
            );
            found.push(
                Finding::new(self.code(), Severity::Check, message).at(declared.place.cell()),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Kind of package, sides in mm and gross weight in kg of spare parts.
    fn parts(rows: &[&str]) -> List {
        let lines: Vec<String> = rows.iter().map(|row| format!("Widget,{row}")).collect();
        list(&format!(
            "Description,Qty,Package type,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_a_crate_as_dense_as_stone() {
        // 0.24 m3 at 5,000 kg/m3.
        let found = || parts(&["1,crate,800,600,500,1200"]);
        assert_eq!(found().lines("dense-for-packed-goods"), "check");
        assert!(
            found()
                .message("dense-for-packed-goods")
                .contains("1,200 kg declared")
        );
    }

    /// The same crate as a row of its own, with the goods on the rows below.
    #[test]
    fn fires_on_a_package_of_which_only_the_outline_is_known() {
        let delivery = list(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Weight (kg)\nCrate of spare parts,1,800,600,500,1200\n\
             Bracket,1,600,400,400,200\n",
        )
        .audited();
        let mut found = delivery
            .packages
            .iter()
            .flat_map(|package| &package.findings);
        assert!(found.any(|finding| finding.code == "dense-for-packed-goods"));
    }

    #[test]
    fn silent_on_air_and_on_unpacked_goods_and_above_lead() {
        let rows = [
            "1,crate,800,600,500,400",
            "1,,800,600,500,1200",
            "1,crate,800,600,500,9000",
        ];
        assert_eq!(parts(&rows).lines("dense-for-packed-goods"), "- - -");
    }

    #[test]
    fn boundary_at_three_tonnes_to_the_cubic_metre() {
        // 3,000 kg/m3 of the sizes half a digit up; those of three figures are at most 0.5 % longer.
        let delivery = parts(&["1,crate,800,600,500,400"]).audited();
        let no = delivery.lines[0]
            .estimate
            .as_ref()
            .expect_err("no material");
        let most = no.upper.expect("a block").kg() * 3_000.0 / 11_340.0;
        assert!((720.0..740.0).contains(&most), "{most}");
        let crate_of = |weight: f64| parts(&[&format!("1,crate,800,600,500,{weight:.2}")]);
        assert_eq!(crate_of(most - 0.02).lines("dense-for-packed-goods"), "-");
        assert_eq!(
            crate_of(most + 0.02).lines("dense-for-packed-goods"),
            "check"
        );
    }

    #[test]
    fn missing_weight_or_side_has_no_density() {
        let rows = ["1,crate,800,600,500,", "1,crate,800,600,,1200"];
        assert_eq!(parts(&rows).lines("dense-for-packed-goods"), "- -");
    }
}
