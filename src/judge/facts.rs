//! What a rule may look at.

use super::{Finding, Severity};
use crate::causes::{self, Named};
use crate::compare::{Tolerance, Verdict, expected};
use crate::estimate::{Before, Estimate, NoEstimate};
use crate::history::EarlierDecision;
use crate::place::Place;
use crate::plan::Plan;
use crate::settle::{Declared, Settled};
use crate::site::{Site, Units};
use crate::understand::{
    ColumnReading, How, Item, SharedWeight, SheetReading, StatedWeight, UnusableWeight,
};
use crate::units::{Mass, MassRange, show};

/// Everything about a line or a package.
pub struct Facts<'a> {
    /// Its row.
    pub place: &'a Place,
    /// The item; none for a package.
    pub item: Option<&'a Item>,
    /// The package; none for a line.
    pub package: Option<&'a SharedWeight>,
    /// The weights it states.
    pub weights: &'a [StatedWeight],
    /// The weight cells that hold none.
    pub unusable: &'a [UnusableWeight],
    /// Declared weight, settled.
    pub declared: Option<&'a Declared>,
    /// Estimate, or why none.
    pub estimate: Result<&'a Estimate, &'a NoEstimate>,
    /// What the same goods weighed before.
    pub weighed: Option<&'a Before>,
    /// Verdict.
    pub verdict: Verdict,
    /// Plan.
    pub plan: &'a Plan,
    /// The decision that the plan rests on.
    pub decided: Option<&'a EarlierDecision>,
    /// Tolerance of the comparison.
    pub tolerance: Tolerance,
    /// Likely causes of a light, heavy or impossible weight, best first.
    pub causes: &'a [Named],
    /// How the sheet's weight columns were settled.
    pub settled: &'a Settled,
    /// Site settings.
    pub site: &'a Site,
    /// Whether there is a fleet register.
    pub with_fleet: bool,
}

/// A line as the rules of a whole delivery see it.
#[derive(Clone, Copy)]
pub struct Judged<'a> {
    /// What the file says.
    pub item: &'a Item,
    /// Estimate, or why none.
    pub estimate: Result<&'a Estimate, &'a NoEstimate>,
    /// Declared weight, settled; none for a line that is judged on its package.
    pub declared: Option<&'a Declared>,
    /// Verdict.
    pub verdict: Verdict,
    /// Tolerance of the comparison.
    pub tolerance: Tolerance,
}

/// Everything about a delivery.
pub struct DeliveryFacts<'a> {
    /// How it was read, items left out.
    pub reading: &'a SheetReading,
    /// Its lines, in the list's order.
    pub lines: &'a [Judged<'a>],
    /// Its packages: the vehicle that their lines name, empty where they name none or several, and the declared weight.
    pub packages: &'a [(&'a str, Mass)],
    /// Row, column and mass of every weight that lines and packages state, as printed.
    pub declared: &'a [(u32, u32, Mass)],
    /// How the sheet's weight columns were settled.
    pub settled: &'a Settled,
    /// Size columns whose unit was assumed and is borne out by no weights.
    pub assumed_sizes: &'a [&'a ColumnReading],
    /// Site settings.
    pub site: &'a Site,
    /// Whether there is a fleet register.
    pub with_fleet: bool,
}

impl Facts<'_> {
    /// The site's units.
    pub fn units(&self) -> Units {
        self.site.units
    }

    /// A figure in the site's unit, with the other one behind it where the supplier wrote that.
    pub fn shown(&self, figure: impl Fn(Units) -> String) -> String {
        as_written(figure, self.weights.iter(), self.settled, self.site)
    }

    /// A weight, likewise.
    pub fn weight(&self, mass: Mass) -> String {
        self.shown(|units| show::weight(mass, units))
    }

    /// Whether the line itself is to answer for its verdict: where the figures of its column contradict the heading, one
    /// finding on the delivery asks for all of them (method, section 2).
    pub fn accused(&self, verdict: Verdict) -> bool {
        let contradicted = |declared: &Declared| declared.how == How::Contradicted;
        self.verdict == verdict && !self.declared.is_some_and(contradicted)
    }

    /// Number of pieces.
    pub fn pieces(&self) -> u32 {
        self.item.map_or(1, |item| item.pieces)
    }

    /// The expected range for a weight of the declared kind.
    pub fn expected(&self) -> Option<MassRange> {
        let estimate = self.estimate.ok()?;
        Some(
            self.declared
                .map_or(estimate.line, |declared| expected(estimate, declared.kind)),
        )
    }

    /// "2,040 lb declared (F12), 4,300 to 4,600 lb expected".
    pub fn difference(&self) -> String {
        let (Some(declared), Some(range)) = (self.declared, self.expected()) else {
            return String::new();
        };
        let shown = show::weight(declared.mass, self.units());
        let of = match declared.of {
            crate::understand::Basis::Piece if self.pieces() > 1 => {
                format!(" for all {} pieces", self.pieces())
            }
            _ => String::new(),
        };
        format!(
            "{shown}{of} declared ({}: \"{}\"), {} expected",
            declared.place.cell(),
            declared.text,
            show::range(range, self.units())
        )
    }
}

impl DeliveryFacts<'_> {
    /// A weight in the site's unit, with the other one behind it where a line of the list is written in that.
    pub fn weight(&self, mass: Mass) -> String {
        let written = self.lines.iter().flat_map(|line| &line.item.weights);
        let shown = |units| show::weight(mass, units);
        as_written(shown, written, self.settled, self.site)
    }
}

/// The supplier is told the figure, and knows his own.
fn as_written<'w>(
    shown: impl Fn(Units) -> String,
    mut written: impl Iterator<Item = &'w StatedWeight>,
    settled: &Settled,
    site: &Site,
) -> String {
    if written.any(|weight| settled.unit_of(weight).system() != site.units) {
        show::both(shown, site.units)
    } else {
        shown(site.units)
    }
}

impl Finding {
    /// A finding without a field.
    pub fn new(code: &'static str, severity: Severity, message: impl Into<String>) -> Finding {
        Finding {
            code,
            severity,
            message: message.into(),
            field: None,
            cause: None,
        }
    }

    /// The same with the best of its likely causes; the message says what would fit and what to ask, of the second too.
    pub fn explained(mut self, causes: &[Named]) -> Finding {
        self.message.push_str(&causes::in_words(causes));
        self.cause = causes.first().map(|named| named.cause.clone());
        self
    }

    /// The same, speaking of a cell or field.
    pub fn at(mut self, field: impl Into<String>) -> Finding {
        self.field = Some(field.into());
        self
    }
}
