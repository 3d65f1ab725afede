//! `sizes-impossible`.

use crate::causes;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::{Size1, Sizes};
use crate::units::Length;

/// Widest and highest goods that a road vehicle brings with a permit and an escort (common practice, no source).
const WIDEST: Length = Length::from_m(6.0);
/// Longest goods that a road vehicle brings with a permit (common practice, no source).
const LONGEST: Length = Length::from_m(30.0);

rule_type! {
    /// # What was seen
    /// The sizes of the line cannot all be right, or a piece or package is larger than anything that a vehicle brings.
    /// # Why it matters on the dock
    /// With a wrong size neither the expected weight nor the load centre (how far its middle lies from the fork face) can be relied on.
    /// # What to do
    /// Measure the goods, or ask the supplier for the right sizes.
    /// # Example
    /// An inside diameter above the outside diameter; a post 62 m long; a crate 12 m high at Kestrel Junction.
    pub struct SizesImpossible;
}

impl Rule for SizesImpossible {
    fn code(&self) -> &'static str {
        "sizes-impossible"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let contradicted = facts
            .estimate
            .err()
            .filter(|no| no.impossible)
            .map(|no| no.why.clone());
        let goods = match facts.estimate {
            Ok(estimate) => estimate.goods,
            Err(no) => no.goods,
        };
        let long = facts.item.filter(|item| causes::too_long(item, goods));
        let too_long = long
            .and_then(|item| item.sizes.length)
            .map(|size| format!("a piece {:.1} m long fits no vehicle", size.length.m()));
        let too_large = || {
            let item = facts.item?;
            let package = too_large(&item.package_sizes, item.package_sizes.length)
                .map(|size| ("package", size));
            let (what, size) =
                package.or(too_large(&item.sizes, None).map(|size| ("piece", size)))?;
            Some(format!(
                "a {what} with a side of {:.1} m fits no vehicle",
                size.m()
            ))
        };
        if let Some(why) = contradicted.or(too_long).or_else(too_large) {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                format!("{why}; ask the supplier for the sizes"),
            ));
        }
    }
}

/// The side that no vehicle brings: longer than the longest, or, beside the longest side, wider than the widest. The length of
/// a piece has a rule of its own above, and that of wound goods is no side: `length` is given where it counts.
fn too_large(sizes: &Sizes, length: Option<Size1>) -> Option<Length> {
    let crosswise = [sizes.width, sizes.height, sizes.outside];
    let side = |size: Size1| size.length;
    let mut straight = crosswise.into_iter().chain([length]).flatten().map(side);
    if let Some(long) = straight.find(|side| !side.fits(LONGEST)) {
        return Some(long);
    }
    let all = crosswise.into_iter().chain([sizes.length, sizes.outside]);
    let mut sides: Vec<Length> = all.flatten().map(side).collect();
    sides.sort_by(|one, other| other.m().total_cmp(&one.m()));
    sides.get(1).copied().filter(|side| !side.fits(WIDEST))
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Description, length, outside and inside diameter.
    fn round(rows: &[&str]) -> List {
        let lines: Vec<String> = rows.iter().map(|row| format!("{row},500")).collect();
        list(&format!(
            "Description,Qty,Length (mm),OD (mm),ID (mm),Total gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_a_bore_wider_than_the_pipe() {
        assert_eq!(
            round(&["Steel pipe,1,6000,100,120"]).lines("sizes-impossible"),
            "check"
        );
    }

    #[test]
    fn silent_on_a_pipe_and_on_a_long_cable() {
        let rows = [
            "Steel pipe,1,6000,120,100",
            "Copper cable on a reel,1,200000,30,",
            "Copper power cable,1,200000,30,",
        ];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- - -");
    }

    #[test]
    fn boundary_at_the_longest_vehicle() {
        let rows = ["Steel pipe,1,30000,120,100", "Steel pipe,1,30001,120,100"];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- check");
        // A pipe has a wall.
        let rows = ["Steel pipe,1,6000,120,119", "Steel pipe,1,6000,120,120"];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- check");
    }

    /// Length, width and height of a crate in mm.
    fn crates(rows: &[&str]) -> List {
        let lines: Vec<String> = rows
            .iter()
            .map(|row| format!("Spare parts,1,{row},500"))
            .collect();
        list(&format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn boundary_at_the_widest_vehicle() {
        let rows = [
            "8000,6000,2000",
            "8000,6001,2000",
            "8000,2000,6001",
            "30000,2000,2000",
            "2000,30000,2000",
            "2000,30001,2000",
        ];
        assert_eq!(
            crates(&rows).lines("sizes-impossible"),
            "- check check - - check"
        );
    }

    #[test]
    fn missing_sizes_contradict_nothing() {
        assert_eq!(
            round(&["Steel pipe,1,6000,,120", "Steel pipe,1,,,"]).lines("sizes-impossible"),
            "- -"
        );
    }
}
