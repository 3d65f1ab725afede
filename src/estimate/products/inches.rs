//! Whether the bare figures of a section are inches or millimetres.

use super::scan::{Dim, Unit};

/// What a length behind a section says about the section's unit: `20'` inches, `6 m` and `6000` millimetres.
fn of_length(length: Option<&Dim>) -> Option<bool> {
    let length = length?;
    match length.unit {
        Some(Unit::Foot | Unit::Inch) => Some(true),
        Some(Unit::Millimetre | Unit::Centimetre | Unit::Metre) => Some(false),
        None if length.value() >= 1_000.0 => Some(false),
        _ => None,
    }
}

/// Whether the sizes of a section are inches: by a mark or a fraction; else by what cannot be; where both units can be, by
/// the length behind the section and by the file (`hint`: `Some(true)` metric). None where the signs disagree or nothing
/// tells: a wrong unit is a wrong weight by 600 times.
///
/// `possible` says of the bare figures whether they can be inches (`true`) and whether they can be millimetres (`false`).
pub fn inches(
    section: &[Dim],
    length: Option<&Dim>,
    hint: Option<bool>,
    possible: impl Fn(bool) -> bool,
) -> Option<bool> {
    let marked = |unit| section.iter().any(|dim| dim.unit == Some(unit));
    let inch = marked(Unit::Inch) || section.iter().any(|dim| dim.number.fraction);
    match (inch, marked(Unit::Millimetre)) {
        (true, true) => return None,
        (true, false) => return Some(true),
        (false, true) => return Some(false),
        (false, false) => {}
    }
    match (possible(true), possible(false)) {
        (true, true) => match (of_length(length), hint.map(|metric| !metric)) {
            (Some(one), Some(other)) => (one == other).then_some(one),
            (one, other) => one.or(other),
        },
        (true, false) => Some(true),
        (false, true) => Some(false),
        (false, false) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::scan::Scene;
    use super::inches;

    #[test]
    fn marks_before_what_can_be_before_the_file() {
        let read = |text: &str, hint, can: [bool; 2]| {
            let scene = Scene::of(text).expect("figures");
            let chain = scene.chain(0).expect("a chain");
            inches(&chain.dims[..2], chain.dims.get(2), hint, |inch| {
                can[usize::from(!inch)]
            })
        };
        let (either, us, si) = ([true; 2], Some(false), Some(true));
        for (text, hint, can, expected) in [
            ("4 x 1/2", si, either, Some(true)),
            ("4\" x 2", si, either, Some(true)),
            ("40 x 2 mm", us, either, Some(false)),
            ("4\" x 2 mm", us, either, None),
            ("12 x 1", us, either, Some(true)),
            ("12 x 1", si, either, Some(false)),
            ("12 x 1", None, either, None),
            ("12 x 1", si, [true, false], Some(true)),
            ("12 x 1", us, [false, true], Some(false)),
            ("12 x 1", us, [false, false], None),
            ("12 x 1 x 20'", None, either, Some(true)),
            ("12 x 1 x 20'", si, either, None),
            ("12 x 1 x 6000", None, either, Some(false)),
        ] {
            assert_eq!(read(text, hint, can), expected, "{text} {hint:?}");
        }
    }
}
