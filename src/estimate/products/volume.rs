//! A volume of loose goods in a description: "gravel 2 m3", "3 yd3 sand", "1,5 m³".

use super::scan::{Kind, Scene};
use crate::units::{M_PER_IN, Volume};

/// Cubic metres in a cubic foot and a cubic yard, exact.
const M3_PER_FT3: f64 = 1_728.0 * M_PER_IN * M_PER_IN * M_PER_IN;
const M3_PER_YD3: f64 = 27.0 * M3_PER_FT3;
/// Largest load of a road vehicle, m3 (common practice, no source).
const LARGEST_M3: f64 = 120.0;

/// The one volume that a description states; none where it states two, or sizes joined by `x`.
pub fn volume(scene: &Scene) -> Option<Volume> {
    if scene.tokens.iter().any(|token| token.kind == Kind::Times) {
        return None;
    }
    let mut found = None;
    for at in 0..scene.tokens.len() {
        let Some((number, unit)) = scene.number(at).zip(cubic(scene, at + 1)) else {
            continue;
        };
        if found.is_some() {
            return None;
        }
        found = Some(number.value * unit);
    }
    found
        .filter(|volume| (0.01..=LARGEST_M3).contains(volume))
        .map(Volume::from_m3)
}

/// The cubic unit at a place, m3.
fn cubic(scene: &Scene, at: usize) -> Option<f64> {
    let raised =
        |at: usize| scene.value(at) == Some(3.0) && scene.tokens[at].glued || scene.sign(at, '³');
    match scene.word(at)? {
        "m" if raised(at + 1) => Some(1.0),
        "cbm" => Some(1.0),
        "yd" if raised(at + 1) => Some(M3_PER_YD3),
        "cy" | "cuyd" => Some(M3_PER_YD3),
        "ft" if raised(at + 1) => Some(M3_PER_FT3),
        "cft" | "cuft" => Some(M3_PER_FT3),
        "cu" | "cubic" => match scene.word(scene.after_joiner(at + 1))? {
            "yd" | "yds" | "yard" | "yards" => Some(M3_PER_YD3),
            "ft" | "foot" | "feet" => Some(M3_PER_FT3),
            "m" | "metre" | "metres" | "meter" | "meters" => Some(1.0),
            _ => None,
        },
        _ => None,
    }
}
