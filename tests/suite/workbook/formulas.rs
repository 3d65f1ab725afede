//! The formulas of a workbook worked out anew, by a reader of their own: the four signs, powers, brackets, `PI()` and cells.

use calamine::{Data, Reader, Xlsx, open_workbook};
use std::collections::HashMap;
use std::path::Path;

/// Sheet, and cell as a formula names it.
pub type Name = (String, String);

/// The figures and formulas of a workbook's cells.
pub struct Book {
    pub figures: HashMap<Name, f64>,
    pub formulas: HashMap<Name, String>,
    /// Texts by sheet, row and column from 0.
    pub texts: HashMap<(String, u32, u32), String>,
}

impl Book {
    pub fn open(path: &Path) -> Book {
        let mut file: Xlsx<_> = open_workbook(path).expect("a workbook");
        let (mut figures, mut formulas) = (HashMap::new(), HashMap::new());
        let mut texts = HashMap::new();
        for sheet in file.sheet_names() {
            let range = file.worksheet_range(&sheet).expect("a sheet");
            let (top, left) = range.start().unwrap_or_default();
            for (row, column, value) in range.used_cells() {
                let (row, column) = (row as u32 + top, column as u32 + left);
                match value {
                    Data::Float(figure) => {
                        figures.insert(name(&sheet, row, column), *figure);
                    }
                    Data::Int(figure) => {
                        figures.insert(name(&sheet, row, column), *figure as f64);
                    }
                    Data::String(text) => {
                        texts.insert((sheet.clone(), row, column), text.clone());
                    }
                    Data::Error(error) => panic!("{sheet} row {row} column {column}: {error}"),
                    _ => {}
                }
            }
            let found = file.worksheet_formula(&sheet).expect("formulas");
            let (top, left) = found.start().unwrap_or_default();
            for (row, column, text) in found.used_cells().filter(|(_, _, text)| !text.is_empty()) {
                let name = name(&sheet, row as u32 + top, column as u32 + left);
                formulas.insert(name, text.clone());
            }
        }
        Book {
            figures,
            formulas,
            texts,
        }
    }

    /// What a cell comes to when each formula is worked out anew, with one figure changed.
    pub fn worked_out(&self, cell: &Name, changed: Option<(&Name, f64)>) -> f64 {
        if let Some((_, figure)) = changed.filter(|(name, _)| *name == cell) {
            return figure;
        }
        let Some(formula) = self.formulas.get(cell) else {
            let figure = self.figures.get(cell);
            return *figure.unwrap_or_else(|| panic!("no figure in {cell:?}"));
        };
        let mut reader = Formula {
            book: self,
            sheet: &cell.0,
            text: formula,
            at: 0,
            changed,
        };
        let value = reader.sum();
        assert_eq!(reader.at, formula.len(), "{cell:?}: {formula}");
        value
    }
}

pub fn name(sheet: &str, row: u32, column: u32) -> Name {
    let letter = char::from(b'A' + u8::try_from(column).expect("the first 26 columns"));
    (sheet.to_string(), format!("{letter}{}", row + 1))
}

struct Formula<'b> {
    book: &'b Book,
    sheet: &'b str,
    text: &'b str,
    at: usize,
    changed: Option<(&'b Name, f64)>,
}

impl Formula<'_> {
    fn sum(&mut self) -> f64 {
        let mut value = self.product();
        loop {
            match self.next() {
                '+' => value += self.after().product(),
                '-' => value -= self.after().product(),
                _ => return value,
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.power();
        loop {
            match self.next() {
                '*' => value *= self.after().power(),
                '/' => value /= self.after().power(),
                _ => return value,
            }
        }
    }

    fn power(&mut self) -> f64 {
        let mut value = self.operand();
        while self.next() == '^' {
            value = value.powf(self.after().operand());
        }
        value
    }

    fn operand(&mut self) -> f64 {
        match self.next() {
            '(' => {
                let value = self.after().sum();
                assert_eq!(self.next(), ')', "{}", self.text);
                self.at += 1;
                value
            }
            '0'..='9' => {
                let figure = self.take(|sign| sign.is_ascii_digit() || sign == '.');
                figure.parse().expect("a figure")
            }
            '\'' => {
                self.at += 1;
                let sheet = self.take(|sign| sign != '\'').to_string();
                assert!(self.text[self.at..].starts_with("'!"), "{}", self.text);
                self.at += 2;
                self.cell(sheet)
            }
            _ if self.text[self.at..].starts_with("PI()") => {
                self.at += 4;
                std::f64::consts::PI
            }
            _ => self.cell(self.sheet.to_string()),
        }
    }

    fn cell(&mut self, sheet: String) -> f64 {
        let cell = self.take(|sign| sign.is_ascii_uppercase() || sign.is_ascii_digit());
        let cell = cell.to_string();
        assert!(!cell.is_empty(), "{} at {}", self.text, self.at);
        self.book.worked_out(&(sheet, cell), self.changed)
    }

    fn take(&mut self, of: impl Fn(char) -> bool) -> &str {
        let rest = &self.text[self.at..];
        let length = rest.find(|sign| !of(sign)).unwrap_or(rest.len());
        self.at += length;
        &rest[..length]
    }

    fn next(&self) -> char {
        self.text[self.at..].chars().next().unwrap_or('\0')
    }

    fn after(&mut self) -> &mut Self {
        self.at += 1;
        self
    }
}
