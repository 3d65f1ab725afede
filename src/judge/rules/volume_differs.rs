//! `volume-differs`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::Sizes;
use crate::units::Volume;

/// Volumes in packing lists are rounded to two decimals and sizes outward (common practice, no source).
const ALLOWED: f64 = 0.2;

rule_type! {
    /// # What was seen
    /// The volume stated is not what the sizes make, neither for one package nor for all of them.
    /// # Why it matters on the dock
    /// The sizes or the volume are wrong, or in another unit. If it is the sizes, the load centre (how far the middle of the load lies from the fork face) and the check of the weight are wrong too.
    /// # What to do
    /// Measure the load, or ask the supplier for its sizes.
    /// # Example
    /// 48 x 40 x 52 under a heading in centimetres beside 3.27 m3 for two crates: the sizes are inches.
    pub struct VolumeDiffers;
}

impl Rule for VolumeDiffers {
    fn code(&self) -> &'static str {
        "volume-differs"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Some(item) = facts.item else { return };
        let Some(stated) = &item.volume else { return };
        let Some(one) = outline(&item.package_sizes).or_else(|| outline(&item.sizes)) else {
            return;
        };
        let counts = [1, item.packages.unwrap_or(1), item.pieces];
        let near = |count: u32| (stated.volume / (one * f64::from(count)) - 1.0).abs() <= ALLOWED;
        if !counts.into_iter().any(near) {
            let message = format!(
                "{:.3} m3 stated, the sizes make {:.3} m3 each: one of them is in another unit or has a slip; measure the load",
                stated.volume.m3(),
                one.m3()
            );
            found.push(Finding::new(self.code(), Severity::Check, message).at(stated.place.cell()));
        }
    }
}

fn outline(sizes: &Sizes) -> Option<Volume> {
    let side = |size: Option<crate::understand::Size1>| size.map(|size| size.length.m());
    let area = match side(sizes.outside) {
        Some(outside) => outside * outside,
        None => side(sizes.length)? * side(sizes.width)?,
    };
    let third = if sizes.outside.is_some() {
        sizes.length.or(sizes.height).or(sizes.width)
    } else {
        sizes.height
    };
    Some(Volume::from_m3(area * side(third)?)).filter(|volume| volume.m3() > 1e-5)
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Pieces, sides in mm and volume in m3.
    fn crates(rows: &[&str]) -> List {
        let lines: Vec<String> = rows
            .iter()
            .map(|row| format!("Spare parts,{row},200"))
            .collect();
        list(&format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Volume (m3),Gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_inches_headed_as_something_else() {
        // 48 x 40 x 52 in are 1.636 m3, so two crates 3.27 m3; the same figures as centimetres are 0.1 m3.
        assert_eq!(
            crates(&["2,480,400,520,3.27"]).lines("volume-differs"),
            "check"
        );
    }

    #[test]
    fn silent_on_the_volume_of_one_or_of_all() {
        let rows = ["2,1219,1016,1321,1.64", "2,1219,1016,1321,3.27"];
        assert_eq!(crates(&rows).lines("volume-differs"), "- -");
    }

    #[test]
    fn boundary_at_a_fifth() {
        let rows = [
            "1,1000,1000,1000,1.20",
            "1,1000,1000,1000,1.21",
            "1,1000,1000,1000,0.80",
            "1,1000,1000,1000,0.79",
        ];
        assert_eq!(crates(&rows).lines("volume-differs"), "- check - check");
    }

    #[test]
    fn missing_side_or_volume() {
        assert_eq!(
            crates(&["2,480,400,,3.27", "2,480,400,520,"]).lines("volume-differs"),
            "- -"
        );
    }
}
