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

/// Places of length, width and height among the three letters; as written where the letters do not tell.
fn order(letters: [&str; 3]) -> [usize; 3] {
    match letters {
        ["w", "d", "h"] => [1, 0, 2],
        ["h", "w", "d"] | ["h", "w", "l"] => [2, 1, 0],
        ["w", "l", "h"] | ["b", "l", "h"] => [1, 0, 2],
        ["l", "h", "w"] => [0, 2, 1],
        _ => [0, 1, 2],
    }
}
