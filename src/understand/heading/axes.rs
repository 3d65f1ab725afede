//! `L x W x H` and its kin: which place of a combined size holds which.

use crate::tables::phrases::Word;

pub(super) struct Axes {
    /// The words it takes.
    pub span: std::ops::Range<usize>,
    /// Places of length, width and height.
    pub order: [usize; 3],
}

/// `L x W x H` and its kin in other languages: which place holds which size.
pub(super) fn axes(words: &[Word]) -> Option<Axes> {
    let letter = |word: &Word| word.plain.len() == 1 && "lwhbdpatse".contains(&word.plain);
    for at in 0..words.len() {
        // Written apart ("L x W x H", "L*W*H") or as one word ("LxBxH").
        let apart = words.get(at..at + 5).filter(|window| {
            letter(&window[0])
                && cross(&window[1])
                && letter(&window[2])
                && cross(&window[3])
                && letter(&window[4])
        });
        if let Some(window) = apart {
            return Some(Axes {
                span: at..at + 5,
                order: order([&window[0].plain, &window[2].plain, &window[4].plain]),
            });
        }
        let parts: Vec<&str> = words[at].plain.split('x').collect();
        if let [first, second, third] = parts.as_slice()
            && [first, second, third]
                .iter()
                .all(|part| part.len() == 1 && "lwhbdpatse".contains(**part))
        {
            return Some(Axes {
                span: at..at + 1,
                order: order([first, second, third]),
            });
        }
    }
    None
}

fn cross(word: &Word) -> bool {
    matches!(word.plain.as_str(), "x" | "*" | "/")
}

/// Places of length, width and height among the three letters; as written where the letters do not tell. A depth is the
/// size that the other two leave open.
fn order(letters: [&str; 3]) -> [usize; 3] {
    const LENGTH: usize = 0;
    const WIDTH: usize = 1;
    const HEIGHT: usize = 2;
    let mut axes = letters.map(|letter| match letter {
        "l" => Some(LENGTH),
        "w" | "b" => Some(WIDTH),
        "h" => Some(HEIGHT),
        _ => None,
    });
    if let Some(open) = axes.iter().position(Option::is_none)
        && let Some(missing) = (LENGTH..=HEIGHT).find(|axis| !axes.contains(&Some(*axis)))
        && matches!(letters[open], "d" | "t" | "p")
    {
        axes[open] = Some(missing);
    }
    let place = |wanted: usize| axes.iter().position(|axis| *axis == Some(wanted));
    match (place(LENGTH), place(WIDTH), place(HEIGHT)) {
        (Some(length), Some(width), Some(height)) => [length, width, height],
        _ => [0, 1, 2],
    }
}

#[cfg(test)]
mod tests {
    use super::order;

    #[test]
    fn letters_name_the_places() {
        for (letters, places) in [
            (["l", "w", "h"], [0, 1, 2]),
            (["w", "d", "h"], [1, 0, 2]),
            (["w", "h", "d"], [2, 0, 1]),
            (["h", "w", "d"], [2, 1, 0]),
            (["h", "w", "l"], [2, 1, 0]),
            (["l", "h", "w"], [0, 2, 1]),
            (["b", "h", "t"], [2, 0, 1]),
            (["l", "w", "t"], [0, 1, 2]),
            (["l", "p", "h"], [0, 1, 2]),
            // Largo, ancho, alto: the letters do not tell.
            (["l", "a", "a"], [0, 1, 2]),
        ] {
            assert_eq!(order(letters), places, "{letters:?}");
        }
    }
}
