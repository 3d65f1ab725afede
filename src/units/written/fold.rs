//! One spelling for many signs: full-width digits, odd spaces, primes, dashes, written-out fractions.

use std::borrow::Cow;
use unicode_normalization::UnicodeNormalization;

/// Folds signs to plain ones: Unicode fractions to ` 1/2`, primes and curly quotes to `'` and `"`, every dash and minus
/// to `-`, every space to a blank, multiplication signs to `x`, full-width signs to ASCII. Letters keep their case and accents.
pub fn fold(text: &str) -> Cow<'_, str> {
    if text.is_ascii() && !text.contains("''") && !text.contains('`') {
        return Cow::Borrowed(text);
    }
    let mut folded = String::with_capacity(text.len() + 8);
    for sign in text.chars() {
        match sign {
            '¼' => push_fraction(&mut folded, "1/4"),
            '½' => push_fraction(&mut folded, "1/2"),
            '¾' => push_fraction(&mut folded, "3/4"),
            '⅓' => push_fraction(&mut folded, "1/3"),
            '⅔' => push_fraction(&mut folded, "2/3"),
            '⅛' => push_fraction(&mut folded, "1/8"),
            '⅜' => push_fraction(&mut folded, "3/8"),
            '⅝' => push_fraction(&mut folded, "5/8"),
            '⅞' => push_fraction(&mut folded, "7/8"),
            '\u{2044}' => folded.push('/'),
            '`' | '′' | '’' | '‘' | '´' | 'ʹ' | '＇' => folded.push('\''),
            '″' | '”' | '“' | '„' | 'ʺ' | '＂' => folded.push('"'),
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '－' | '\u{FE63}' => folded.push('-'),
            '×' | '✕' | '✖' | '⨯' | 'х' | 'Х' | 'ｘ' | 'Ｘ' => folded.push('x'),
            '\u{FEFF}' | '\u{200B}' | '\u{00AD}' => {}
            // Arabic, Persian and Devanagari digits, the Arabic signs of decimals and thousands.
            '\u{660}'..='\u{669}' => folded.push(digit(sign, '\u{660}')),
            '\u{6F0}'..='\u{6F9}' => folded.push(digit(sign, '\u{6F0}')),
            '\u{966}'..='\u{96F}' => folded.push(digit(sign, '\u{966}')),
            '\u{66B}' => folded.push('.'),
            '\u{66C}' => folded.push('\''),
            blank if blank.is_whitespace() => folded.push(' '),
            'Ø' | 'ø' | '⌀' | '∅' | 'φ' | 'Φ' => folded.push('Ø'),
            other if (other as u32) < 0x250 => folded.push(other),
            other => folded.extend(std::iter::once(other).nfkc()),
        }
    }
    if folded.contains("''") {
        folded = folded.replace("''", "\"");
    }
    Cow::Owned(folded)
}

/// The ASCII digit of a sign that stands so many places behind its script's zero.
fn digit(sign: char, zero: char) -> char {
    char::from_digit(u32::from(sign) - u32::from(zero), 10).unwrap_or(sign)
}

/// A fraction directly after a digit is the rest of a mixed number.
fn push_fraction(folded: &mut String, fraction: &str) {
    if folded.ends_with(|last: char| last.is_ascii_digit()) {
        folded.push(' ');
    }
    folded.push_str(fraction);
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn signs_become_plain() {
        for (written, plain) in [
            ("10'-0½\"", "10'-0 1/2\""),
            ("５½", "5 1/2"),
            ("１２０．５", "120.5"),
            ("1\u{202f}200", "1 200"),
            ("120×80", "120x80"),
            ("6''", "6\""),
            ("−12", "-12"),
            ("¾″", "3/4\""),
            ("12` 6\"", "12' 6\""),
            ("٤٥٠", "450"),
            ("۱٬۲۰۰٫۵", "1'200.5"),
            ("४५०", "450"),
        ] {
            assert_eq!(fold(written), plain, "{written}");
        }
    }
}
