//! `gross-below-net`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::{Basis, WeightKind};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The gross weight is below the net weight.
    /// # Why it matters on the dock
    /// Gross holds the packaging too: one of the two is wrong, or they are exchanged.
    /// # What to do
    /// The larger of the two is planned. Ask which is which.
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
        let of_line = |basis: Option<Basis>| matches!(basis, None | Some(Basis::Line));
        let stated = |kind: WeightKind| {
            facts
                .weights
                .iter()
                .find(|weight| weight.kind == kind && of_line(weight.basis))
                .and_then(|weight| {
                    let unit = weight.unit.or(facts
                        .settled
                        .columns
                        .get(&weight.place.column)
                        .map(|reading| reading.unit))?;
                    Some((unit.mass(weight.figure), weight))
                })
        };
        if let (Some((gross, cell)), Some((net, _))) =
            (stated(WeightKind::Gross), stated(WeightKind::Net))
            && !net.fits(gross)
        {
            let message = format!(
                "gross ({}) is below net ({}): one is wrong or they are exchanged; ask which is which",
                show::weight(gross, facts.units()),
                show::weight(net, facts.units())
            );
            found.push(Finding::new(self.code(), Severity::Check, message).at(cell.place.cell()));
        }
    }
}
