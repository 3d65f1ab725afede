//! The estimate of each line once it is known what the same goods weighed before.

use super::{Context, Estimated};
use crate::estimate::{self, Before};
use crate::understand::{How, Item};
use crate::units::Mass;

/// What a line should weigh.
pub(in crate::audit) struct Worked {
    /// By the best evidence there is.
    pub(in crate::audit) estimate: Estimated,
    /// What the same goods weighed before, where they were weighed.
    pub(in crate::audit) weighed: Option<Box<Before>>,
}

impl Worked {
    /// By words and sizes alone.
    pub(super) fn own(&self) -> &Estimated {
        let before = self.weighed.as_ref();
        before
            .and_then(|before| before.instead_of.as_deref())
            .unwrap_or(&self.estimate)
    }

    /// The weight that the plan may not go below.
    pub(in crate::audit) fn not_below(&self) -> Mass {
        let before = self.weighed.as_ref();
        before.map_or(Mass::ZERO, |before| before.not_below())
    }
}

impl Context<'_> {
    /// Looks up what the same goods of the same supplier weighed. Where nobody can say how many pieces there are, what one of
    /// them weighed tells nothing.
    pub(super) fn worked(&self, item: &Item, own: Estimated) -> Worked {
        let supplier = item.supplier.as_deref();
        let supplier = supplier.or(self.reading.supplier.as_deref());
        let (Some(supplier), false) = (supplier, self.weighed.is_empty()) else {
            return Worked {
                estimate: own,
                weighed: None,
            };
        };
        let mut found = Vec::new();
        if item.pieces > 0 && item.pieces_how != How::Assumed {
            let goods = estimate::goods(item, &own, !self.sizes_assumed(item));
            let (delivery, list) = (&self.reading.delivery, self.from.sha256);
            found = self.weighed.of(supplier, &goods, delivery, list);
        }
        let tolerance = self.tolerance(&own).relative;
        let (estimate, weighed) =
            estimate::weighed(item, own, &found, self.site.scale_error, tolerance);
        Worked {
            estimate,
            weighed: weighed.map(Box::new),
        }
    }
}
