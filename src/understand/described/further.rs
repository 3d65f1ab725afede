//! Sizes that only some shapes have: depth and flanges of a section, the top of a cone, openings. They are no length, width or
//! height of the piece, so they are taken out of the chains that become those.

use super::{Chain, Label, Part, word_end_plain};
use crate::units::LengthUnit;

/// A size that only some shapes have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Further {
    /// Depth of a section.
    Depth,
    /// Width of a flange; a second figure is its thickness.
    Flange,
    /// Thickness of a flange.
    FlangeThickness,
    /// Thickness of a web.
    Web,
    /// Radius: of a bend, or at the root of a flange.
    Radius,
    /// Diameter or side at the top; a second figure is the other side.
    Top,
    /// Diameter of what is bent to a ring.
    Section,
    /// Width of an opening; the second figure is its height.
    Opening,
    /// How high a liquid stands.
    Level,
}

impl Further {
    /// Figures that such a size may have.
    fn most(self) -> usize {
        match self {
            Further::Flange | Further::Top | Further::Opening => 2,
            _ => 1,
        }
    }
}

/// One such size as written: a figure or two.
#[derive(Clone, Debug, PartialEq)]
pub struct FurtherChain {
    /// What it is.
    pub which: Further,
    /// The figures.
    pub chain: Chain,
}

/// Takes the further sizes out of the chains.
pub(super) fn taken_out(chains: &mut Vec<Chain>) -> Vec<FurtherChain> {
    let mut further = Vec::new();
    for chain in chains.iter_mut() {
        let mut rest: Vec<Part> = Vec::new();
        let mut parts = std::mem::take(&mut chain.parts).into_iter().peekable();
        let labelled = |part: &Part| part.label.is_some();
        let others = parts.clone().skip(1).any(|part| labelled(&part));
        let long = parts.len();
        while let Some(mut part) = parts.next() {
            let Some(Label::Further(which)) = part.label else {
                rest.push(part);
                continue;
            };
            // "Web 10x200x3000", "flange 20 x 200 x 3 m" are plates of that name.
            if !others && long > which.most() {
                part.label = None;
                rest.push(part);
                continue;
            }
            let mut own = vec![part];
            let long_unit = |part: &Part| {
                which == Further::Flange
                    && matches!(part.written.unit, Some(LengthUnit::M | LengthUnit::Ft))
            };
            if which.most() == 2
                && let Some(second) = parts.next_if(|part| !labelled(part) && !long_unit(part))
            {
                own.push(second);
            }
            further.push(FurtherChain {
                which,
                chain: Chain {
                    parts: own,
                    slashed: chain.slashed,
                },
            });
        }
        chain.parts = rest;
    }
    chains.retain(|chain| !chain.parts.is_empty());
    further
}

/// The label that two words behind a figure are together ("300 mm top dia"), and where it ends. `first` ends at `stop`.
pub(super) fn after(text: &str, first: &str, stop: usize) -> Option<(Option<Label>, usize)> {
    let start = stop + text[stop..].len() - text[stop..].trim_start_matches(' ').len();
    let end = word_end_plain(text, start);
    let label = super::labels::pair(first, text.get(start..end)?)?;
    Some((Some(label), end))
}
