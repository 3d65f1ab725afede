//! What a pipe or culvert is made of, where it is not concrete.

use crate::estimate::products::scan::Scene;

/// Stuffs of which pipes and culverts are made instead of concrete; some of those are reinforced too.
const OTHER_STUFF: &[&str] = &[
    "plastic",
    "resin",
    "hose",
    "hoses",
    "rubber",
    "hdpe",
    "pe",
    "pvc",
    "pp",
    "grp",
    "frp",
    "fiberglass",
    "fibreglass",
    "aluminum",
    "aluminium",
    "metal",
    "corrugated",
    "cmp",
];
/// Words for concrete itself.
pub(super) const CONCRETE: &[&str] = &[
    "rcp",
    "concrete",
    "beton",
    "béton",
    "hormigón",
    "stahlbeton",
];

/// Whether it is of another stuff; steel only reinforces "steel reinforced concrete".
pub(super) fn is_other(scene: &Scene) -> bool {
    let reinforces = |at: usize| {
        matches!(
            scene.word(scene.after_joiner(at + 1)),
            Some("reinforced" | "reinforcement" | "fiber" | "fibre" | "mesh")
        ) && scene.says(CONCRETE)
    };
    let of_steel = |at: usize| scene.word(at) == Some("steel") && !reinforces(at);
    scene.says(OTHER_STUFF) || (0..scene.tokens.len()).any(of_steel)
}
