//! A delivery as a supplier writes it: a plain list of one layout, in US or metric units.

use super::goods::{Goods, Sizes};
use super::metal::FT;
use crate::helper::{IN, LB, cell};

/// What a supplier writes on one line, beside the sizes.
#[derive(Clone, Debug)]
pub struct Written {
    pub goods: Goods,
    /// Sizes on paper, m, at face value.
    pub sizes: Sizes,
    /// The weight cell; the figure stands in the unit of the heading.
    pub weight: String,
}

impl Written {
    /// Without a slip: the weight that a scale shows.
    pub fn clean(goods: Goods, layout: Layout) -> Written {
        Written {
            sizes: goods.sizes,
            weight: layout.figure(goods.true_kg()).to_string(),
            goods,
        }
    }
}

/// The layout of one delivery.
#[derive(Clone, Copy, Debug)]
pub struct Layout {
    /// Feet, inches and pounds, else millimetres and kilograms.
    pub us: bool,
    /// The weight column is of one piece.
    pub each: bool,
    /// The weight column says gross.
    pub gross: bool,
}

impl Layout {
    /// A mass as a figure under the heading: hundredths of what is light, tenths of the rest.
    pub fn figure(self, kg: f64) -> f64 {
        let value = if self.us { kg / LB } else { kg };
        let step = if value < 20.0 { 100.0 } else { 10.0 };
        (value * step).round() / step
    }

    fn heading(self) -> String {
        let unit = if self.us { "lb" } else { "kg" };
        let kind = if self.gross { "gross" } else { "net" };
        let of = if self.each {
            format!("Weight each {kind} ({unit})")
        } else {
            format!("Total weight {kind} ({unit})")
        };
        let sizes = if self.us {
            "Length (ft),Width (in),Thickness (in),OD (in),ID (in),Wall (in)"
        } else {
            "Length (mm),Width (mm),Thickness (mm),OD (mm),ID (mm),Wall (mm)"
        };
        format!("Pos,Description,Material,Qty,{sizes},{of}\n")
    }

    /// The whole list as a text.
    pub fn text(self, lines: &[Written]) -> String {
        let mut text = self.heading();
        let (long, across) = if self.us { (FT, IN) } else { (1e-3, 1e-3) };
        for (number, line) in lines.iter().enumerate() {
            let sizes = &line.sizes;
            let shown = [
                (sizes.length, long),
                (sizes.width, across),
                (sizes.height, across),
                (sizes.outside, across),
                (sizes.inside, across),
                (sizes.wall, across),
            ]
            .map(|(size, unit)| size.map_or(String::new(), |size| rounded(size / unit)));
            text.push_str(&format!(
                "{},{},{},{},{},{}\n",
                number + 1,
                cell(&line.goods.description),
                line.goods.material,
                line.goods.pieces,
                shown.join(","),
                line.weight
            ));
        }
        text
    }
}

/// To a thousandth, without noughts behind.
fn rounded(value: f64) -> String {
    format!("{}", (value * 1000.0).round() / 1000.0)
}
