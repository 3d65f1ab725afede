//! Signs folded to one spelling, and one number with its decimals, thousands or fraction.

use super::Number;

/// No size, mass or grade of a delivery has a figure above this; an order number has (common practice, no source).
const LARGEST: f64 = 1e7;

/// Signs of one meaning get one spelling; letters keep their case.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len() + 8);
    for sign in text.chars() {
        match sign {
            '×' | '✕' | '✖' | 'х' | 'Х' | 'ｘ' | 'Ｘ' | '*' => folded.push('x'),
            '′' | '’' | '‘' | '´' => folded.push('\''),
            '″' | '”' | '“' | '„' => folded.push('"'),
            '\u{2010}'..='\u{2015}' | '\u{2212}' => folded.push('-'),
            '\u{2044}' => folded.push('/'),
            'Ø' | 'ø' | '⌀' | 'φ' | 'Φ' | '∅' => folded.push_str(" dia "),
            '½' => folded.push_str(" 1/2"),
            '¼' => folded.push_str(" 1/4"),
            '¾' => folded.push_str(" 3/4"),
            '⅛' => folded.push_str(" 1/8"),
            '⅜' => folded.push_str(" 3/8"),
            '⅝' => folded.push_str(" 5/8"),
            '⅞' => folded.push_str(" 7/8"),
            '０'..='９' => folded.push(char::from(b'0' + (sign as u32 - '０' as u32) as u8)),
            other => folded.push(other),
        }
    }
    if folded.contains("''") {
        folded.replace("''", "\"")
    } else {
        folded
    }
}

/// A number with its decimals, thousands or fraction, and the place after it.
pub fn scan_number(signs: &[char], start: usize) -> (Number, usize) {
    let digits_from = |mut at: usize| {
        while signs.get(at).is_some_and(char::is_ascii_digit) {
            at += 1;
        }
        at
    };
    let parse = |from: usize, to: usize| {
        signs[from..to]
            .iter()
            .collect::<String>()
            .parse::<f64>()
            .unwrap_or(0.0)
    };
    let mut end = digits_from(start);
    let whole = parse(start, end);
    if let Some((value, after)) = fraction(signs, start) {
        return (
            Number {
                value,
                fraction: true,
                decimals: false,
                unclear: false,
            },
            after,
        );
    }
    // A mixed number: "1-1/2", "1 1/2". Above 24 in nothing is sold by fractions.
    if whole <= 24.0 && matches!(signs.get(end), Some('-' | ' ')) {
        let skip =
            end + 1 + usize::from(signs.get(end) == Some(&' ') && signs.get(end + 1) == Some(&' '));
        if let Some((part, after)) = fraction(signs, skip) {
            return (
                Number {
                    value: whole + part,
                    fraction: true,
                    decimals: false,
                    unclear: false,
                },
                after,
            );
        }
    }
    let mut text: String = signs[start..end].iter().collect();
    let (mut decimals, mut unclear) = (false, false);
    while let Some(sign @ ('.' | ',')) = signs.get(end).copied() {
        let after = digits_from(end + 1);
        let count = after - end - 1;
        if count == 0 || decimals {
            break;
        }
        if sign == ',' && count == 3 && !text.starts_with('0') {
            // "1,200.5" says itself that the comma groups thousands.
            unclear = signs.get(after) != Some(&'.');
        } else {
            decimals = true;
            text.push('.');
        }
        text.extend(&signs[end + 1..after]);
        end = after;
    }
    let value = text.parse().unwrap_or(f64::INFINITY);
    (
        Number {
            value,
            fraction: false,
            decimals,
            unclear: unclear || value > LARGEST,
        },
        end,
    )
}

/// A proper or improper fraction with a binary denominator, and the place after it.
fn fraction(signs: &[char], start: usize) -> Option<(f64, usize)> {
    let run = |from: usize| {
        signs[from.min(signs.len())..]
            .iter()
            .take_while(|sign| sign.is_ascii_digit())
            .count()
    };
    let top = run(start);
    if !(1..=2).contains(&top) || signs.get(start + top) != Some(&'/') {
        return None;
    }
    let below = run(start + top + 1);
    let end = start + top + 1 + below;
    // "4/16/4" is the make-up of a glass unit, not four sixteenths.
    if signs.get(end) == Some(&'/') {
        return None;
    }
    let read = |from: usize, count: usize| {
        signs[from..from + count]
            .iter()
            .collect::<String>()
            .parse::<u32>()
            .ok()
    };
    let (above, under) = (read(start, top)?, read(start + top + 1, below)?);
    ([2, 4, 8, 16, 32, 64].contains(&under) && above < under && above > 0)
        .then(|| (f64::from(above) / f64::from(under), end))
}
