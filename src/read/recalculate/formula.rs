//! Formulas made of numbers, cells of the same sheet, `+ - * / %`, brackets, `SUM` and `PRODUCT`. Others are not parsed.

use crate::read::address::address;

/// Most parts of a formula that is parsed.
const MOST_PARTS: usize = 512;
/// Deepest brackets.
const DEEPEST: usize = 32;

/// A formula as steps for a stack: operands before their operation.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Formula {
    /// The steps in order.
    pub(super) parts: Vec<Part>,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Part {
    /// A number in the formula.
    Number(f64),
    /// A cell by row and column from 1.
    Cell(u32, u32),
    /// The sum of the numbers in a block, first and last cell.
    Sum((u32, u32), (u32, u32)),
    /// The product of the numbers in a block.
    Product((u32, u32), (u32, u32)),
    /// The opposite of the last number.
    Negate,
    /// A hundredth of the last number.
    Percent,
    /// `+`, `-`, `*` or `/` of the last two numbers.
    Operation(char),
}

/// Parses a formula without its equals sign, in the spelling of a workbook or of an OpenDocument file
/// (`of:=[.C8]*[.G8]`); none when it holds anything else than cells of its own sheet and simple arithmetic.
pub(super) fn parse(text: &str) -> Option<Formula> {
    let text = text.trim();
    let text = text
        .strip_prefix("of:")
        .or_else(|| text.strip_prefix("oooc:"))
        .unwrap_or(text);
    let text = text.trim_start_matches(['=', '+']);
    // OpenDocument writes a cell of the same sheet as [.C8], a block as [.C8:.C9].
    let text = if text.contains("[.") {
        text.replace("[.", "").replace(":.", ":").replace(']', "")
    } else {
        text.to_string()
    };
    let mut parser = Parser {
        rest: &text,
        formula: Formula::default(),
        depth: 0,
    };
    parser.sum()?;
    parser.skip_spaces();
    (parser.rest.is_empty() && parser.formula.parts.len() <= MOST_PARTS).then_some(parser.formula)
}

struct Parser<'a> {
    rest: &'a str,
    formula: Formula,
    depth: usize,
}

impl<'a> Parser<'a> {
    fn skip_spaces(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn take(&mut self, sign: char) -> bool {
        self.skip_spaces();
        let rest = self.rest.strip_prefix(sign);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn push(&mut self, part: Part) -> Option<()> {
        self.formula.parts.push(part);
        (self.formula.parts.len() <= MOST_PARTS).then_some(())
    }

    /// Terms joined by + and -.
    fn sum(&mut self) -> Option<()> {
        self.product()?;
        loop {
            let sign = ['+', '-'].into_iter().find(|sign| self.take(*sign));
            let Some(sign) = sign else { return Some(()) };
            self.product()?;
            self.push(Part::Operation(sign))?;
        }
    }

    /// Factors joined by * and /.
    fn product(&mut self) -> Option<()> {
        self.signed()?;
        loop {
            let sign = ['*', '/'].into_iter().find(|sign| self.take(*sign));
            let Some(sign) = sign else { return Some(()) };
            self.signed()?;
            self.push(Part::Operation(sign))?;
        }
    }

    /// An operand with signs in front and per cent behind.
    fn signed(&mut self) -> Option<()> {
        let mut negative = false;
        loop {
            if self.take('-') {
                negative = !negative;
            } else if !self.take('+') {
                break;
            }
        }
        self.operand()?;
        if self.take('%') {
            self.push(Part::Percent)?;
        }
        if negative {
            self.push(Part::Negate)?;
        }
        Some(())
    }

    fn operand(&mut self) -> Option<()> {
        if self.take('(') {
            self.depth += 1;
            if self.depth > DEEPEST {
                return None;
            }
            self.sum()?;
            self.depth -= 1;
            return self.take(')').then_some(());
        }
        let word = self.word();
        if word.is_empty() {
            return None;
        }
        if let Some((row, column)) = address(word) {
            return self.push(Part::Cell(row, column));
        }
        if word.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.') {
            return self.push(Part::Number(word.parse().ok()?));
        }
        match word.to_ascii_uppercase().as_str() {
            "SUM" => self.list(Part::Sum, 0.0, '+'),
            "PRODUCT" => self.list(Part::Product, 1.0, '*'),
            _ => None,
        }
    }

    /// A number, a cell or a name: letters, digits, dots and dollar signs.
    fn word(&mut self) -> &'a str {
        self.skip_spaces();
        let end = self
            .rest
            .find(|sign: char| !(sign.is_ascii_alphanumeric() || matches!(sign, '.' | '$')))
            .unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest;
        word
    }

    /// The arguments of SUM or PRODUCT: blocks and expressions, separated by commas or semicolons.
    fn list(
        &mut self,
        block: fn((u32, u32), (u32, u32)) -> Part,
        start: f64,
        sign: char,
    ) -> Option<()> {
        if !self.take('(') {
            return None;
        }
        self.depth += 1;
        if self.depth > DEEPEST {
            return None;
        }
        self.push(Part::Number(start))?;
        loop {
            match self.range() {
                // A cell alone counts like a block of one: blank and text cells are passed over.
                Some((from, to)) => self.push(block(from, to))?,
                None => self.sum()?,
            }
            self.push(Part::Operation(sign))?;
            if !self.take(',') && !self.take(';') {
                break;
            }
        }
        self.depth -= 1;
        self.take(')').then_some(())
    }

    /// A block or a lone cell up to the end of the argument; nothing is taken when it is something else.
    fn range(&mut self) -> Option<((u32, u32), (u32, u32))> {
        let before = self.rest;
        let found = self.try_range();
        self.skip_spaces();
        if found.is_none() || !self.rest.starts_with([',', ';', ')']) {
            self.rest = before;
            return None;
        }
        found
    }

    fn try_range(&mut self) -> Option<((u32, u32), (u32, u32))> {
        let first = address(self.word())?;
        let last = if self.take(':') {
            address(self.word())?
        } else {
            first
        };
        Some((
            (first.0.min(last.0), first.1.min(last.1)),
            (first.0.max(last.0), first.1.max(last.1)),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The grammar is that of ECMA-376 part 1, 18.17.2, and OpenDocument 1.2 part 2, 5.8, as far as it goes.
    #[test]
    fn only_simple_arithmetic_is_parsed() {
        for text in [
            "C8*G8",
            "$C$8*G8",
            "C8",
            "SUM(H4:H9)",
            "SUM(H4,H5;H7:H9)",
            "=C8/2+1",
            "of:=[.C8]*[.G8]",
            "of:=SUM([.H4:.H9])",
            "-(C8+1)*2.5",
            "PRODUCT(C8,G8)",
            "C8*7.85e0",
            "C8*5%",
            "sum(A1:B2)*2",
            "+C8*G8",
        ] {
            assert!(parse(text).is_some(), "{text}");
        }
        for text in [
            "Sheet2!C8*G8",
            "[1]Sheet1!A1",
            "IF(C8>0,C8,0)",
            "VLOOKUP(A1,B1:C9,2)",
            "C8:C9",
            "SUM(A1:A",
            "C8^2",
            "\"a\"&C8",
            "#REF!*2",
            "",
            "ROUND(C8*G8,1)",
            "SUM(Sheet2!A1:A9)",
            "TOTAL",
            "C8 G8",
            "A0",
            "SUM()",
        ] {
            assert!(parse(text).is_none(), "{text}");
        }
        assert!(parse(&"(".repeat(100_000)).is_none());
        assert!(parse(&"-".repeat(100_000)).is_none());
    }
}
