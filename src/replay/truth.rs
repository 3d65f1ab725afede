//! What a decision says of the declared weight.

use crate::units::{Mass, MassRange};

/// A weight this near to the decided one is right, whatever its share: what scales of a yard are read to (common practice, no
/// source).
pub const FLOOR: Mass = Mass::from_kg(5.0);

/// A declared weight as it would be lifted: a net weight leaves the packaging out, a decided one does not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lifted {
    /// As declared.
    pub declared: Mass,
    /// With the least packaging that it may leave out.
    pub low: Mass,
    /// With the most.
    pub high: Mass,
}

impl Lifted {
    /// A weight that leaves nothing out.
    pub fn gross(declared: Mass) -> Lifted {
        Lifted {
            declared,
            low: declared,
            high: declared,
        }
    }

    /// A weight without packaging.
    pub fn net(declared: Mass, tare: MassRange) -> Lifted {
        Lifted {
            declared,
            low: declared + tare.low,
            high: declared + tare.high,
        }
    }

    /// A weight that does not say.
    pub fn unstated(declared: Mass, tare: MassRange) -> Lifted {
        Lifted {
            low: declared,
            ..Lifted::net(declared, tare)
        }
    }
}

/// What the decision that stands for a load says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Said {
    /// What it weighs, with packaging: it was weighed, or the supplier gave another weight.
    Weight(Mass),
    /// The declared weight was accepted, by evidence that is not the supplier's first document.
    Proven,
    /// The declared weight was accepted, and nothing proves it.
    Unproven,
    /// Nothing of the declared weight: the estimate was used, or the load refused.
    Nothing,
}

/// Whether a declared weight was right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Truth {
    /// It was.
    Right,
    /// Declared lighter than it is: the dangerous side.
    Light,
    /// Declared heavier than it is.
    Heavy,
}

impl Truth {
    /// It was not right.
    pub fn is_wrong(self) -> bool {
        self != Truth::Right
    }
}

/// Whether a declared weight was right, as far as the decision tells. It is wrong where it is off the decided weight by more
/// than `wrong_by`, relative to it, or [`FLOOR`], whichever is more.
pub fn truth(declared: Lifted, said: Said, wrong_by: f64) -> Option<Truth> {
    match said {
        Said::Weight(weight) => Some(if is_below(declared.high, weight, wrong_by) {
            Truth::Light
        } else if !declared.low.fits(weight + margin(weight, wrong_by)) {
            Truth::Heavy
        } else {
            Truth::Right
        }),
        Said::Proven => Some(Truth::Right),
        Said::Unproven | Said::Nothing => None,
    }
}

/// Whether a weight lies so far below the decided one that it is wrong.
pub fn is_below(weight: Mass, decided: Mass, wrong_by: f64) -> bool {
    !decided.fits(weight + margin(decided, wrong_by))
}

fn margin(decided: Mass, wrong_by: f64) -> Mass {
    (decided * wrong_by).max(FLOOR)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kg(kg: f64) -> Mass {
        Mass::from_kg(kg)
    }

    #[test]
    fn a_weight_is_wrong_beyond_the_margin() {
        let weighed = |declared: f64, weight: f64| {
            truth(Lifted::gross(kg(declared)), Said::Weight(kg(weight)), 0.05)
        };
        // 5 % of 1,000 kg are 50 kg; of 60 kg they are 3 kg, and the floor of 5 kg counts.
        for (declared, weight, expected) in [
            (950.0, 1_000.0, Truth::Right),
            (949.9, 1_000.0, Truth::Light),
            (1_050.0, 1_000.0, Truth::Right),
            (1_050.1, 1_000.0, Truth::Heavy),
            (55.0, 60.0, Truth::Right),
            (54.9, 60.0, Truth::Light),
            (65.1, 60.0, Truth::Heavy),
        ] {
            assert_eq!(weighed(declared, weight), Some(expected), "{declared}");
        }
    }

    /// 980 kg of goods on a pallet of 15 to 32 kg are weighed with the pallet.
    #[test]
    fn packaging_that_was_not_declared_is_no_error() {
        let tare = MassRange {
            low: kg(15.0),
            likely: kg(22.0),
            high: kg(32.0),
        };
        let weighed = |declared: Lifted| truth(declared, Said::Weight(kg(1_012.0)), 0.0);
        assert_eq!(weighed(Lifted::net(kg(980.0), tare)), Some(Truth::Right));
        assert_eq!(
            weighed(Lifted::unstated(kg(980.0), tare)),
            Some(Truth::Right)
        );
        assert_eq!(weighed(Lifted::gross(kg(980.0))), Some(Truth::Light));
        // With 15 kg of packaging at least, a net weight of 1,005 kg is more than 1,017 kg allow.
        assert_eq!(weighed(Lifted::net(kg(1_005.0), tare)), Some(Truth::Heavy));
        assert_eq!(
            weighed(Lifted::unstated(kg(1_005.0), tare)),
            Some(Truth::Right)
        );
    }

    #[test]
    fn only_evidence_makes_an_accepted_weight_right() {
        let declared = Lifted::gross(kg(500.0));
        assert_eq!(truth(declared, Said::Proven, 0.05), Some(Truth::Right));
        assert_eq!(truth(declared, Said::Unproven, 0.05), None);
        assert_eq!(truth(declared, Said::Nothing, 0.05), None);
    }
}
