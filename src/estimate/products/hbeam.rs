//! H shapes named by all their sizes: H 200x200x8x12 is depth x width x web x flange in millimetres.
//!
//! Source: the form of JIS G 3192 and GB/T 11263; mass by two flanges and web at 7,850 kg/m3. Root fillets make the rolled shape
//! up to 6.4 % heavier than this sharp-cornered rule (reference table of European shapes: 2.4 to 6.4 %), a welded one not: the
//! fillets are on the upper side.

use super::scan::{Scene, Unit};
use super::{Product, SECTION, STEEL_KG_M3, show, trailing_length};
use crate::estimate::shapes::{FILLETS, flanged_area};
use crate::tables::products::mm;

/// An H shape named at this token.
pub fn named(scene: &Scene, at: usize) -> Option<Product> {
    if scene.word(at)? != "h" {
        return None;
    }
    let mut next = scene.after_joiner(at + 1);
    while scene
        .word(next)
        .is_some_and(|word| matches!(word, "beam" | "beams" | "section" | "shape"))
    {
        next = scene.after_joiner(next + 1);
    }
    let chain = scene.chain(next)?;
    let dims = chain.dims.get(..4)?;
    let (length, length_unclear) = trailing_length(&chain, 4)?;
    if !chain.clean
        || dims
            .iter()
            .any(|dim| dim.number.fraction || !dim.unit_in(&[Unit::Millimetre]))
    {
        return None;
    }
    let [h, b, web, flange] = [dims[0], dims[1], dims[2], dims[3]].map(|dim| dim.value());
    let rolled =
        (80.0..=1_200.0).contains(&h) && (40.0..=600.0).contains(&b) && web >= 3.0 && web <= flange;
    if !rolled || flange > 0.2 * h || b > 1.3 * h {
        return None;
    }
    let kg_per_m = flanged([h, b, web, flange, 0.0], 2.0);
    let designation = format!(
        "H {}x{}x{}x{}",
        show::figure(h),
        show::figure(b),
        show::figure(web),
        show::figure(flange)
    );
    let mut product = Product {
        length,
        length_unclear,
        outline: Some((mm(h), mm(b))),
        working: format!(
            "{designation} by its flanges and web: {}",
            show::per_metre(kg_per_m)
        ),
        source: "form of JIS G 3192: two flanges and web at 7,850 kg/m3",
        extrapolated: true,
        ..Product::steel("H", "section", designation, kg_per_m, SECTION)
    };
    product.make_high += FILLETS;
    Some(product)
}

/// Rule of a flanged section in kg/m: depth, flange width, web, flange thickness and root radius in mm, one flange or two. The
/// flanges of a channel taper, its root counts as none.
pub(super) fn flanged([h, b, web, flange, root]: [f64; 5], flanges: f64) -> f64 {
    flanged_area([h, b, web, flange, root], flanges, 2.0 * flanges) * 1e-6 * STEEL_KG_M3
}
