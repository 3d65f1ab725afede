//! What a line would be if the supplier confirmed a cause.

use super::Named;
use crate::estimate::{Estimate, Evidence};
use crate::settle::Declared;
use crate::understand::{How, Item};

impl Named {
    /// The line, its declared weight and its estimate as they would be if the supplier confirmed this cause; to be planned as
    /// consistent, so that the plan holds the larger of the weight it would be and the likely one.
    ///
    /// Only corrected sizes change the estimate: they are read off the goods. Another material or another number of pieces may
    /// also be a slip in the supplier's sum alone, so the estimate for what is on paper stays as a floor.
    pub fn confirmed(
        &self,
        item: &Item,
        declared: &Declared,
        estimate: &Estimate,
    ) -> (Item, Declared, Estimate) {
        let would_be = self.candidate.would_be;
        let declared = Declared {
            mass: would_be,
            heaviest: would_be,
            how: How::Stated,
            ..declared.clone()
        };
        let (mut item, mut estimate) = (item.clone(), estimate.clone());
        if let Some(sizes) = self.candidate.sizes {
            let factor = self.candidate.factor;
            estimate.piece = estimate.piece.times(factor);
            estimate.line = estimate.line.times(factor);
            estimate.block = estimate.block.map(|block| block * factor);
            // A product keeps its section; of any other shape the corrected sizes are the outline.
            let product = estimate
                .outline
                .filter(|_| estimate.evidence == Evidence::Product);
            estimate.outline = product
                .zip(sizes.length)
                .map(|([_, one, other], length)| [length.length, one, other]);
            item.sizes = sizes;
        }
        (item, declared, estimate)
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::{named, testing};

    /// Mass that the plan would start from and likely mass of the estimate behind it, kg.
    fn confirmed(line: &str) -> (f64, f64, f64) {
        let (item, declared, estimate) = testing::parts(line);
        let best = named(&testing::slip(line).0, &Default::default())
            .into_iter()
            .next()
            .expect("a cause");
        let (item, declared, estimate) = best.confirmed(&item, &declared, &estimate);
        let length = item.sizes.length.map_or(0.0, |size| size.length.m());
        (declared.mass.kg(), estimate.line.likely.kg(), length)
    }

    #[test]
    fn only_corrected_sizes_change_the_estimate() {
        let close = |found: f64, expected: f64| {
            assert!((found / expected - 1.0).abs() < 0.01, "{found} {expected}")
        };
        // Kilograms for pounds: 5 plates of 157 kg (geometry x 7,850 kg/m3).
        let (mass, likely, _) = confirmed("Floor plate | steel | 5 | 2000 x 1000 x 10 mm | 785 lb");
        close(mass, 785.0);
        close(likely, 785.0);
        // Inches for millimetres: 4 plates of 154 kg.
        let (mass, likely, length) = confirmed("Base plate | steel | 4 | 30 x 20 x 2 mm | 617 kg");
        close(mass, 617.0);
        close(likely, 617.0);
        close(length, 30.0 * 0.0254);
        // Aluminium's weight on steel: 1,130 kg is what is on paper, and the estimate stays.
        let (mass, likely, _) = confirmed("Sheet | steel | 12 | 2000 x 1000 x 6 mm | 389 kg");
        close(mass, 389.0);
        close(likely, 1_130.0);
    }
}
