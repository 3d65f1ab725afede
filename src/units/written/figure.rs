//! One figure: digits with separators, mixed numbers, fractions.

/// Which sign a column writes decimals with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Decimal {
    /// `1,200.5`
    Point,
    /// `1.200,5`
    Comma,
    /// Nothing in the column decides.
    Unclear,
    /// Both: the column contradicts itself.
    Mixed,
}

/// A figure as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// Its value, never negative.
    pub value: f64,
    /// Half of its last stated digit; of a fraction, half of one part of its denominator.
    pub half_digit: f64,
    /// Three or more significant figures.
    pub fine: bool,
    /// Written as a fraction or mixed number.
    pub fraction: bool,
    /// `1,200` or `1.200` where nothing tells thousands from decimals.
    pub unclear: bool,
}

impl Figure {
    /// A figure stored as a number: its shortest decimal form tells the last stated digit.
    pub fn of_number(value: f64) -> Figure {
        let text = format!("{value}");
        let decimals = text
            .split_once('.')
            .map_or(0, |(_, after)| after.len())
            .min(12);
        let digits = text
            .trim_start_matches(['0', '.'])
            .bytes()
            .filter(u8::is_ascii_digit)
            .count();
        Figure {
            value,
            half_digit: 0.5 * 10f64.powi(-(decimals as i32)),
            fine: digits >= 3,
            fraction: false,
            unclear: false,
        }
    }
}

impl Decimal {
    /// The habit that a column's texts show. One figure that says otherwise is enough to contradict the others: who is
    /// outvoted may be the one who is right.
    pub fn of<'a>(texts: impl IntoIterator<Item = &'a str>) -> Decimal {
        let (mut point, mut comma) = (false, false);
        for text in texts {
            let folded = super::fold(text);
            for habit in runs(&folded).filter_map(evidence) {
                point |= habit == Decimal::Point;
                comma |= habit == Decimal::Comma;
            }
        }
        match (point, comma) {
            (false, false) => Decimal::Unclear,
            (true, false) => Decimal::Point,
            (false, true) => Decimal::Comma,
            (true, true) => Decimal::Mixed,
        }
    }
}

/// The runs of digits and separators in a text.
fn runs(text: &str) -> impl Iterator<Item = &str> {
    let mut at = 0;
    std::iter::from_fn(move || {
        at += text.get(at..)?.find(|sign: char| sign.is_ascii_digit())?;
        let start = at;
        at = run_end(text.as_bytes(), start, false);
        text.get(start..at)
    })
}

/// What one run says about its decimal sign; none when it can be read in two ways or is no figure (a date).
fn evidence(run: &str) -> Option<Decimal> {
    let found = Separators::of(run);
    let one_decimal = |groups: usize| groups > 0 || found.after != 3 || found.lead;
    match found.last? {
        b'.' if found.dots == 1 && one_decimal(found.commas) => Some(Decimal::Point),
        b',' if found.commas == 1 && one_decimal(found.dots) => Some(Decimal::Comma),
        _ if !grouped(run) => None,
        _ if found.dots == 0 && found.commas > 1 => Some(Decimal::Point),
        _ if found.commas == 0 && found.dots > 1 => Some(Decimal::Comma),
        _ => None,
    }
}

struct Separators {
    dots: usize,
    commas: usize,
    last: Option<u8>,
    /// Digits after the last separator.
    after: usize,
    /// The figure before the last separator cannot be a thousands group (`0,125`, `1234.500`).
    lead: bool,
}

impl Separators {
    fn of(run: &str) -> Separators {
        let at = run.rfind(['.', ',']);
        let before = at.map_or("", |at| &run[..at]);
        Separators {
            dots: run.bytes().filter(|b| *b == b'.').count(),
            commas: run.bytes().filter(|b| *b == b',').count(),
            last: at.map(|at| run.as_bytes()[at]),
            after: at.map_or(0, |at| run.len() - at - 1),
            lead: !before.contains(['.', ','])
                && (before.is_empty() || before.starts_with('0') || before.len() > 3),
        }
    }
}

/// End of the run of digits and separators that starts at `at`.
fn run_end(bytes: &[u8], at: usize, spaced: bool) -> usize {
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let three = |at: usize| digit(at) && digit(at + 1) && digit(at + 2) && !digit(at + 3);
    let mut end = at;
    while let Some(&byte) = bytes.get(end) {
        let goes_on = match byte {
            b'0'..=b'9' => true,
            b'.' | b',' => digit(end + 1),
            b'\'' => {
                end > at
                    && digit(end - 1)
                    && three(end + 1)
                    && !matches!(bytes.get(end + 4), Some(b'"' | b'/'))
            }
            b' ' => {
                spaced
                    && end > at
                    && digit(end - 1)
                    && three(end + 1)
                    && bytes.get(end + 4) != Some(&b'/')
                    && short_group(&bytes[at..end])
            }
            _ => false,
        };
        if !goes_on {
            break;
        }
        end += 1;
    }
    end
}

/// Whether one more group may follow behind a blank: the last one so far is of three digits, or the first and no longer.
fn short_group(run: &[u8]) -> bool {
    let last = run.rsplit(|byte| *byte == b' ').next().unwrap_or(run);
    let first = last.len() == run.len();
    last.iter().all(u8::is_ascii_digit)
        && (last.len() == 3 || (first && (1..=3).contains(&last.len())))
}

/// Reads the figure that starts at byte `at`, with a fraction after it if there is one; gives the byte after it.
/// `spaced` allows blanks between groups of three digits (`12 000`), for cells that hold nothing else.
pub fn scan_figure(text: &str, at: usize, habit: Decimal, spaced: bool) -> Option<(Figure, usize)> {
    let bytes = text.as_bytes();
    let first = *bytes.get(at)?;
    let point = matches!(first, b'.' | b',') && bytes.get(at + 1).is_some_and(u8::is_ascii_digit);
    if !first.is_ascii_digit() && !point {
        return None;
    }
    let end = run_end(bytes, at, spaced);
    let run: String = text[at..end]
        .chars()
        .filter(|sign| !matches!(sign, '\'' | ' '))
        .collect();
    let whole = interpret(&run, habit)?;
    if run.bytes().all(|byte| byte.is_ascii_digit()) {
        if let Some((denominator, end)) = denominator_after(bytes, end) {
            // The run was the numerator: "3/4".
            return Some((fraction_figure(0.0, whole.value, denominator), end));
        }
        for gap in [1, 2] {
            let start = end + gap;
            let joined = bytes
                .get(end..start)
                .is_some_and(|joint| matches!(joint, b" " | b"-" | b"- " | b" -" | b"  "));
            if joined && let Some((numerator, denominator, end)) = mixed_after(bytes, start) {
                return Some((fraction_figure(whole.value, numerator, denominator), end));
            }
        }
    }
    Some((whole, end))
}

fn fraction_figure(whole: f64, numerator: f64, denominator: f64) -> Figure {
    Figure {
        value: whole + numerator / denominator,
        half_digit: 0.5 / denominator,
        fine: false,
        fraction: true,
        unclear: false,
    }
}

/// `/4` directly after a numerator: 4, and the byte behind it.
fn denominator_after(bytes: &[u8], at: usize) -> Option<(f64, usize)> {
    if bytes.get(at) != Some(&b'/') {
        return None;
    }
    let (denominator, end) = small_integer(bytes, at + 1)?;
    let known = matches!(denominator, 2 | 3 | 4 | 8 | 16 | 32 | 64);
    // "120/100/55" and "1/2.5" are not fractions.
    let closed = !matches!(bytes.get(end), Some(b'/' | b'.' | b',' | b'0'..=b'9'));
    (known && closed).then_some((f64::from(denominator), end))
}

/// `1/2` after the whole part of a mixed number.
fn mixed_after(bytes: &[u8], at: usize) -> Option<(f64, f64, usize)> {
    let (numerator, end) = small_integer(bytes, at)?;
    let numerator = f64::from(numerator);
    let (denominator, end) = denominator_after(bytes, end)?;
    (numerator < denominator).then_some((numerator, denominator, end))
}

fn small_integer(bytes: &[u8], at: usize) -> Option<(u32, usize)> {
    let digits = bytes
        .get(at..)?
        .iter()
        .take_while(|byte| byte.is_ascii_digit())
        .count();
    if !(1..=2).contains(&digits) {
        return None;
    }
    let value = bytes[at..at + digits]
        .iter()
        .fold(0, |sum, byte| sum * 10 + u32::from(byte - b'0'));
    Some((value, at + digits))
}

/// The value of a run of digits, points and commas; `None` when it is no number (`1.2.3`).
fn interpret(run: &str, habit: Decimal) -> Option<Figure> {
    let separators = Separators::of(run);
    let single = separators.dots + separators.commas == 1;
    let mut unclear = false;
    let decimal: Option<u8> = match separators.last {
        None => None,
        Some(last) if single => {
            if separators.after != 3 || separators.lead {
                Some(last)
            } else {
                match habit {
                    Decimal::Point => (last == b'.').then_some(last),
                    Decimal::Comma => (last == b',').then_some(last),
                    Decimal::Unclear | Decimal::Mixed => {
                        unclear = true;
                        (last == b'.').then_some(last)
                    }
                }
            }
        }
        Some(last) if separators.dots > 0 && separators.commas > 0 => Some(last),
        Some(_) => None,
    };
    let (whole, after) = match decimal {
        Some(sign) => run.rsplit_once(char::from(sign))?,
        None => (run, ""),
    };
    if !grouped(whole) {
        return None;
    }
    let whole: String = whole.chars().filter(char::is_ascii_digit).collect();
    let value: f64 = format!("{}.{after}", if whole.is_empty() { "0" } else { &whole })
        .parse()
        .ok()?;
    let significant = format!("{whole}{after}").trim_start_matches('0').len();
    Some(Figure {
        value,
        half_digit: 0.5 * 10f64.powi(-(after.len() as i32)),
        fine: significant >= 3,
        fraction: false,
        unclear,
    })
    .filter(|figure| figure.value.is_finite())
}

/// Thousands groups of three, or Indian groups of two before the last three (`12,50,000`), all with one sign.
fn grouped(whole: &str) -> bool {
    let groups: Vec<&str> = whole.split(['.', ',']).collect();
    if groups.len() == 1 {
        return true;
    }
    if whole.contains('.') && whole.contains(',') {
        return false;
    }
    let last = groups.len() - 1;
    groups.iter().enumerate().all(|(index, group)| match index {
        0 => (1..=3).contains(&group.len()),
        index if index == last => group.len() == 3,
        _ => group.len() == 3 || group.len() == 2,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(text: &str, habit: Decimal) -> Option<f64> {
        let (figure, end) = scan_figure(text, 0, habit, true)?;
        (end == text.len()).then_some(figure.value)
    }

    #[test]
    fn figures_as_typed() {
        use Decimal::{Comma, Point, Unclear};
        for (text, habit, expected) in [
            ("1,200.5", Unclear, Some(1_200.5)),
            ("1.200,5", Unclear, Some(1_200.5)),
            ("1 200,5", Unclear, Some(1_200.5)),
            ("1'200.5", Unclear, Some(1_200.5)),
            ("12,50,000", Unclear, Some(1_250_000.0)),
            ("1,200", Point, Some(1_200.0)),
            ("1,200", Comma, Some(1.2)),
            ("2.500", Comma, Some(2_500.0)),
            ("2.500", Point, Some(2.5)),
            ("5,5", Point, Some(5.5)),
            ("0,125", Point, Some(0.125)),
            ("12 000", Unclear, Some(12_000.0)),
            (".280", Unclear, Some(0.28)),
            ("9 1/4", Unclear, Some(9.25)),
            ("1-1/2", Unclear, Some(1.5)),
            ("5 - 1/2", Unclear, None),
            ("3/4", Unclear, Some(0.75)),
            ("120/100/55", Unclear, None),
            ("100/60", Unclear, None),
            ("1.2.3", Unclear, None),
            ("16,359.30", Comma, Some(16_359.3)),
            ("1,234,567", Unclear, Some(1_234_567.0)),
        ] {
            assert_eq!(value(text, habit), expected, "{text}");
        }
    }

    #[test]
    fn three_digits_after_one_separator_are_unclear_without_a_habit() {
        assert!(
            scan_figure("1,200", 0, Decimal::Unclear, true)
                .is_some_and(|(figure, _)| figure.unclear)
        );
        assert!(
            scan_figure("1,200", 0, Decimal::Point, true)
                .is_some_and(|(figure, _)| !figure.unclear)
        );
    }

    #[test]
    fn a_column_tells_its_habit() {
        assert_eq!(Decimal::of(["2.500", "6,3", "8"]), Decimal::Comma);
        assert_eq!(Decimal::of(["2,500", "6.3"]), Decimal::Point);
        assert_eq!(Decimal::of(["2,500", "6"]), Decimal::Unclear);
        assert_eq!(
            Decimal::of(["2.1.2026", "1.2.3", "1,200,5"]),
            Decimal::Unclear
        );
        assert_eq!(Decimal::of(["1.234.567", "12 x 1,5"]), Decimal::Comma);
    }

    #[test]
    fn one_figure_contradicts_all_others() {
        // A majority read 2.500 as two and a half kilograms.
        let column = ["12.5", "8.25", "7.5", "3.1", "9.75", "1.250,5", "2.500"];
        let habit = Decimal::of(column);
        assert_eq!(habit, Decimal::Mixed);
        assert!(scan_figure("2.500", 0, habit, true).is_some_and(|(figure, _)| figure.unclear));
        assert_eq!(Decimal::of(["1,5 x 2.5"]), Decimal::Mixed);
    }

    #[test]
    fn the_last_digit_of_a_figure() {
        let half = |text: &str| {
            scan_figure(text, 0, Decimal::Point, true).map(|(figure, _)| figure.half_digit)
        };
        assert_eq!(half("6000"), Some(0.5));
        assert_eq!(half("6.3"), Some(0.05));
        assert_eq!(half("9 1/4"), Some(0.125));
    }
}
